/* Everything here is asked of the models; a line has what a hand who comes on shift asks first. */
#include "ui/stages.h"

#include "base/measure.h"
#include "base/str.h"
#include "draw/axis.h"
#include "io/pipe_load.h"
#include "io/timeline.h"
#include "model/after.h"
#include "model/nonconformance.h"
#include "model/opening.h"
#include "model/pipe_verdict.h"
#include "model/pullback.h"
#include "model/returns.h"
#include "ui/answers.h"

#include <math.h>
#include <stdio.h>

/* The worst warning that holds of some kinds; the stage is judged where one does. */
static void take_warnings(
	const struct solution *s, const enum warning_kind *kinds, size_t count, struct stage *out)
{
	for (size_t i = 0; i < count; i++) {
		int open = s->open[kinds[i]];
		if (open < 0)
			continue;
		out->judged = true;
		if (s->warnings[open].level > out->level)
			out->level = s->warnings[open].level;
	}
}

/* Kinds whose every entry stands for itself: a breach until the engineer accepts it, then a watch. */
static void take_entries(const struct view *v, enum warning_kind kind, struct stage *out)
{
	enum level level = LEVEL_OK;

	for (size_t i = 0; i < v->solution->warning_count; i++)
		if (v->solution->warnings[i].kind == kind && v->solution->warnings[i].open)
			level = LEVEL_WATCH;
	if (sb_nonconformances_open_of(v->job, v->solution, kind))
		level = LEVEL_BREACH;
	if (level > out->level)
		out->level = level;
}

/* ---- fluid ---- */

static void count_releases(const struct job *job, int *releases, int *open)
{
	char missing[96];

	*releases = *open = 0;
	for (size_t i = 0; i < job->fluid_event_count; i++) {
		const struct fluid_event *e = &job->fluid_events[i];
		if (e->kind != FLUID_RELEASE || e->struck)
			continue;
		struct release r = sb_release_of(job, e, INT64_MAX);
		*open += sb_release_missing(&r, missing);
		++*releases;
	}
}

static void make_fluid(const struct view *v, struct stage *out)
{
	static const enum warning_kind kinds[] = { WARNING_ANNULAR, WARNING_RETURNS, WARNING_RELEASE };
	static const char *const words[] = { "nothing said of the returns", "returns full",
		"only a part comes back", "none comes back" };
	struct returns_said last = sb_returns_last(v->job);
	int releases, open, annular = v->solution->open[WARNING_ANNULAR];
	struct sb_str text = { 0 };

	count_releases(v->job, &releases, &open);
	if (open)
		sb_str_add(
			&text, "%d of %d release%s to be recorded", open, releases, releases == 1 ? "" : "s");
	else if (releases)
		sb_str_add(&text, "%d release%s, recorded", releases, releases == 1 ? "" : "s");
	if (last.returns != RETURNS_UNSAID || releases == 0)
		sb_str_add(&text, "%s%s", releases ? "; " : "", words[last.returns]);
	if (last.returns != RETURNS_UNSAID)
		sb_str_add(&text, " at joint %d", last.joint);
	if (annular >= 0)
		sb_str_add(&text, "; %s", v->solution->warnings[annular].text);
	out->judged = last.returns != RETURNS_UNSAID;
	take_warnings(v->solution, kinds, sizeof kinds / sizeof *kinds, out);
	if (open || sb_nonconformances_open_of(v->job, v->solution, WARNING_RELEASE)) {
		out->judged = true;
		out->level = LEVEL_BREACH;
	}
	sb_copy(out->text, sizeof out->text, sb_str_get(&text));
	sb_str_clear(&text);
}

/* ---- opening ---- */

static void make_opening(const struct view *v, struct stage *out)
{
	const struct job *job = v->job;
	char time[SB_TIMELINE_TEXT];
	struct sb_str text = { 0 };
	struct opening o;

	sb_opening_take(job, &o);
	const struct opening_pass *p = o.running ? o.running : o.count ? &o.list[o.count - 1] : NULL;
	if (p == NULL)
		sb_str_add(&text, "%s",
			sb_job_accepted(job) ? "no pass has begun" : "waits for the acceptance of the pilot");
	else if (o.running == NULL)
		sb_str_add(&text, "pass %d, %s of %s, ended: %d of %d joints; none runs", p->number,
			sb_pass_kind_name(p->pass->kind), p->pass->diameter.text, p->done, o.bore_joints);
	else if (p->left == 0)
		sb_str_add(&text, "pass %d is through every joint", p->number);
	else {
		sb_str_add(&text, "pass %d: joint %d next, %d left", p->number, p->next, p->left);
		sb_timeline_minutes(p->likely.left_min, time);
		if (p->likely.source != PACE_UNKNOWN)
			sb_str_add(&text, ", likely %s", time);
	}
	if (o.fault_count) {
		out->judged = true;
		out->level = o.faults[0].level;
	} else {
		out->judged = p != NULL;
	}
	sb_copy(out->text, sizeof out->text, sb_str_get(&text));
	sb_str_clear(&text);
	sb_opening_clear(&o);
}

/* ---- string and pull ---- */

static void make_string(const struct view *v, struct stage *out)
{
	struct pipe_string s = { 0 };
	char lacks[160];

	sb_pipe_string_look(v->job, &s);
	sb_lacks_say(&s.lacks, lacks, sizeof lacks);
	if (s.count == 0)
		snprintf(out->text, sizeof out->text, "no joint is laid out");
	else if (s.lacks.count)
		snprintf(out->text, sizeof out->text, "%zu joint%s; %s", s.count, s.count == 1 ? "" : "s",
			lacks);
	else
		snprintf(out->text, sizeof out->text, "%zu joint%s, nothing is missing", s.count,
			s.count == 1 ? "" : "s");
	take_entries(v, WARNING_PIPE_STRING, out);
	out->judged = (s.count && s.lacks.count == 0) || out->level > LEVEL_OK;
	sb_pipe_string_clear(&s);
}

static void say_pulled(const struct job *job, const struct pullback *p, struct sb_str *text)
{
	const struct pulled *last = &p->list[p->count - 1];
	char force[SB_PULL_FORCE], station[SB_AXIS_TEXT];

	sb_axis_station(last->station_m, job->unit, 1, station);
	sb_pullback_force(job, last->force_n, force);
	sb_str_add(text, "head at %s, %d to go; %s %s", station, p->left, force,
		sb_measure_unit(job->unit, MEASURE_FORCE));
	if (last->side != BAND_UNKNOWN)
		sb_str_add(text, ", %s its band", sb_pullback_side(last->side));
}

static void say_ended(const struct job *job, const struct pullback *p, struct sb_str *text)
{
	char what[SB_PULL_WHAT];

	sb_pullback_what_end(job, p->ended, what);
	sb_str_add(text, "ended: ");
	if (p->left)
		sb_str_add(
			text, "head left in the hole, %d joint%s short; ", p->left, p->left == 1 ? "" : "s");
	sb_str_add(text, "%s", what);
}

static void make_pull(const struct view *v, struct stage *out)
{
	static const enum warning_kind kinds[] = { WARNING_PULL_FORCE };
	struct clearance_ask ask = sb_solution_clearance(v->job, v->solution);
	struct pull_bands bands = { 0 };
	struct pullback p = { 0 };
	struct sb_str text = { 0 };

	sb_pull_bands_make(&ask, &bands);
	sb_pullback_take(v->job, &bands, &p);
	if (p.ended)
		say_ended(v->job, &p, &text);
	else if (p.count)
		say_pulled(v->job, &p, &text);
	else
		sb_str_add(&text, "%s", p.begun ? "has begun, no joint is out" : "has not begun");
	out->judged = p.count > 0 || p.ended;
	take_warnings(v->solution, kinds, sizeof kinds / sizeof *kinds, out);
	take_entries(v, WARNING_COATING, out);
	sb_copy(out->text, sizeof out->text, sb_str_get(&text));
	sb_str_clear(&text);
	sb_pullback_clear(&p);
	sb_pull_bands_clear(&bands);
}

/* ---- the product pipe in this hole ---- */

static void say_pipe(const struct job *job, const struct pipe_load *load, struct stage *out)
{
	enum pipe_check check = CHECK_TENSION;
	struct pipe_verdict worst = sb_pipe_verdict_worst(load, &check), pull = sb_pipe_verdict_force(load);
	char share[64] = "not judged", force[SB_LOAD_TEXT];

	if (worst.judged)
		snprintf(share, sizeof share, "%s %.2f", sb_pipe_check_words[check], worst.ratio);
	snprintf(out->text, sizeof out->text, "%s; pull %s", share,
		sb_pipe_load_force(job->unit, load->stations[0].force_n, force));
	out->judged = worst.judged || pull.judged;
	out->level = pull.level > worst.level ? pull.level : worst.level;
}

static void make_pipe(const struct view *v, struct stage *out)
{
	struct clearance_ask ask = sb_solution_clearance(v->job, v->solution);
	struct pipe_load load = { 0 };
	struct sb_err err = { 0 };

	if (sb_pipe_load_make(&ask, false, &load, &err))
		sb_copy(out->text, sizeof out->text, err.text);
	else
		say_pipe(v->job, &load, out);
	sb_pipe_load_clear(&load);
}

/* ---- all ---- */

static const struct {
	const char *key, *name;
	void (*make)(const struct view *v, struct stage *out);
} sorts[SB_STAGES] = {
	{ "U", "fluid", make_fluid },
	{ "O", "opening", make_opening },
	{ "S", "string", make_string },
	{ "P", "pull", make_pull },
	{ "T", "pipe", make_pipe },
};

void sb_stages_make(const struct view *v, struct stages *out)
{
	for (size_t i = 0; i < SB_STAGES; i++) {
		out->list[i] = (struct stage){ .key = sorts[i].key, .name = sorts[i].name };
		sorts[i].make(v, &out->list[i]);
	}
}

void sb_stages_draw(const struct stages *s, struct cells *out, int row)
{
	const int text_at = 12;

	for (size_t i = 0; i < SB_STAGES; i++, row++) {
		const struct stage *one = &s->list[i];
		sb_cells_text(out, row, 1, STYLE_KEY, one->key);
		sb_cells_text(out, row, 3, STYLE_DIM, one->name);
		int edge = one->judged ? sb_answers_verdict(out, row, one->level) : out->columns;
		sb_cells_fit(out, row, text_at, edge - 1 - text_at, STYLE_PLAIN, one->text);
	}
}
