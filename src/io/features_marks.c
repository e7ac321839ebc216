/* What stands beside the path: obstacles, independent positions, breaches of a limit, releases of fluid. */
#include "base/mem.h"
#include "base/str.h"
#include "model/bore_line.h"
#include "model/fact.h"
#include "model/nonconformance.h"
#include "model/returns.h"

#include <math.h>

#include "features_parts.h"

/* ---- obstacles ---- */

static bool seen_before(const struct job *job, size_t i)
{
	for (size_t k = 0; k < i; k++)
		if (sb_same(job->obstacles[k].name, job->obstacles[i].name))
			return true;
	return false;
}

/* How the hole as drilled passes it. */
static struct passing passing_of(const struct walk *w, const char *name)
{
	const struct surroundings *around = &w->s->around;
	struct clearance_ask ask = sb_solution_clearance(w->job, w->s);

	for (size_t i = 0; i < around->count; i++)
		if (sb_same(around->obstacles[i].name, name))
			return sb_clearance_drilled(&ask, i);
	return (struct passing){ 0 };
}

static void put_passing(struct walk *w, const struct passing *p)
{
	const double none = (double)NAN;

	features_put_length(w, p->known ? p->wall_m : none);
	features_put_length(w, p->known ? w->s->uncertainty.line_factor * p->sigma_m : none);
	features_put_number(w, p->known ? p->joint : none);
	features_put_number(w, p->known ? p->chance : none);
	features_put_text(w, p->known ? sb_level_word(p->level) : "");
}

static void walk_obstacle(struct walk *w, size_t first)
{
	const struct obstacle_point *o = &w->job->obstacles[first];
	double diameter = (double)NAN, clearance = (double)NAN;

	features_begin(w, LAYER_OBSTACLES);
	for (size_t i = first; i < w->job->obstacle_count; i++) {
		const struct obstacle_point *p = &w->job->obstacles[i];
		if (!sb_same(p->name, o->name))
			continue;
		features_put_place(w,
			sb_frame_ground(
				&w->s->frame, p->easting.value, p->northing.value, p->elevation.value));
		if (sb_number_given(&p->diameter))
			diameter = fmax(p->diameter.value, diameter);
		if (sb_number_given(&p->clearance))
			clearance = fmax(p->clearance.value, clearance);
	}
	features_put_text(w, o->name);
	features_put_text(w, o->kind);
	features_put_number(w, diameter);
	features_put_number(w, clearance);
	struct passing passing = passing_of(w, o->name);
	put_passing(w, &passing);
}

/* ---- fixes and breaches ---- */

static void walk_fix(struct walk *w, const struct fix_view *v)
{
	const struct fix *f = sb_job_fix(w->job, v->fix);
	bool placed = v->standing == FIX_STANDS || v->standing == FIX_ASIDE;

	features_begin(w, LAYER_FIXES);
	w->near_m = v->station_m;
	if (placed)
		features_put_place(w, v->fixed);
	features_put_number(w, (double)v->fix);
	features_put_text(w, sb_fix_kind_name(f->kind));
	features_put_typed(w, &f->depth);
	features_put_text(w, sb_fixes_verdict(v));
	for (int k = 0; k < FIX_AXES; k++)
		features_put_length(w, placed && v->seen[k] ? v->off_m[k] : (double)NAN);
	features_put_typed(w, &f->sigma_along);
	features_put_typed(w, &f->sigma_across);
	features_put_typed(w, &f->sigma_up);
	features_put_text(w, f->fact.who);
	features_put_time(w, f->fact.at_ms);
	features_put_text(w, f->fact.words);
}

static void walk_breach(struct walk *w, const struct nonconformance *n)
{
	const struct warning *b = n->warning;
	const struct row *row = sb_warning_row(&w->s->path, b);
	struct sb_str words = { 0 };

	features_begin(w, LAYER_NONCONFORMANCES);
	w->near_m = b->station_m;
	if (row && row->on_path)
		features_put_place(w, row->at);
	features_put_number(w, n->number);
	features_put_text(w, sb_warning_sorts[b->kind].name);
	features_put_number(w, b->leg);
	features_put_number(w, b->joint);
	features_put_number(w, b->last_joint);
	features_put_number(w, b->worst_joint);
	features_put_length(w, b->station_m);
	features_put_number(w, b->value);
	features_put_number(w, b->limit);
	features_put_text(w, sb_disposition_word(n->state));
	sb_nonconformance_say(n, &words);
	features_put_text(w, sb_str_get(&words));
	sb_str_clear(&words);
	features_put_text(w, b->text);
}

static void walk_breaches(struct walk *w)
{
	struct nonconformance *list;
	size_t count = sb_nonconformances(w->job, w->s, &list);

	for (size_t i = 0; i < count; i++)
		walk_breach(w, &list[i]);
	sb_free(list);
}

/* ---- releases ---- */

/* A reamer, a swab or the pull head was in the hole before. */
static bool tool_before(const struct job *job, int64_t act)
{
	for (size_t i = 0; i < job->pull_begin_count; i++)
		if (job->pull_begins[i].fact.act < act)
			return true;
	for (size_t i = 0; i < job->pass_count; i++)
		if (job->passes[i].fact.act < act)
			return true;
	return false;
}

/* As entered; of the pilot where the bit was. False: with a tool in the hole, nobody said where. */
static bool release_station(const struct walk *w, const struct fluid_event *e, double *station_m)
{
	const struct path *path = &w->s->path;
	struct clearance_ask ask = sb_solution_clearance(w->job, w->s);
	struct bore_line line = { 0 };

	if (sb_number_given(&e->station)) {
		*station_m = sb_frame_metres(&w->s->frame, e->station.value);
		return true;
	}
	if (tool_before(w->job, e->fact.act) || (size_t)e->fact.joint >= path->count)
		return false;
	sb_bore_line_drilled(&ask, &line);
	*station_m = sb_bore_line_station(&line, path->rows[e->fact.joint].bit_md_m);
	sb_bore_line_clear(&line);
	return true;
}

/* On the ground over the line. */
static void put_release_place(struct walk *w, const struct fluid_event *e)
{
	double station_m, ground_m;

	if (!release_station(w, e, &station_m) ||
		!sb_design_ground(w->job, &w->s->frame, station_m, &ground_m))
		return;
	struct vec3 at = sb_design_at(&w->s->design, station_m).at;
	at.u = ground_m;
	w->near_m = station_m;
	features_put_place(w, at);
}

static void walk_release(struct walk *w, const struct fluid_event *e)
{
	struct release r = sb_release_of(w->job, e, INT64_MAX);
	char missing[96];

	features_begin(w, LAYER_RELEASES);
	put_release_place(w, e);
	features_put_number(w, (double)e->fact.id);
	features_put_typed(w, &e->station);
	features_put_number(w, e->fact.joint);
	features_put_typed(w, r.volume);
	features_put_text(w, r.place);
	features_put_text(w, r.receiving);
	features_put_text(w, r.told);
	features_put_text(w, r.done);
	sb_release_missing(&r, missing);
	features_put_text(w, missing);
	features_put_text(w, e->fact.who);
	features_put_time(w, e->fact.at_ms);
}

void features_marks(struct walk *w)
{
	for (size_t i = 0; i < w->job->obstacle_count; i++)
		if (!seen_before(w->job, i))
			walk_obstacle(w, i);
	for (size_t i = 0; i < w->s->fixes.count; i++)
		walk_fix(w, &w->s->fixes.list[i]);
	walk_breaches(w);
	for (size_t i = 0; i < w->job->fluid_event_count; i++)
		if (w->job->fluid_events[i].kind == FLUID_RELEASE && !w->job->fluid_events[i].struck)
			walk_release(w, &w->job->fluid_events[i]);
}
