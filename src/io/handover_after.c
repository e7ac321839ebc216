/* The handover once the pilot is accepted, or a pass has begun: where the tool or the pull head is, what is
 * left and how long it takes, what the rig showed in this shift, returns and releases, the pipe string, and
 * what the pull waits for. Words and figures are those of pass, fluid, string and pull.
 */
#include "base/measure.h"
#include "draw/axis.h"
#include "io/opening.h"
#include "io/pipe_string.h"
#include "io/pullback.h"
#include "io/timeline.h"
#include "model/fact.h"
#include "model/returns.h"

#include <math.h>
#include <stdio.h>

#include "handover_parts.h"

#define RELEASES 2 /* that are told one by one */

bool handover_is_after(const struct job *job)
{
	if (sb_job_accepted(job))
		return true;
	for (size_t i = 0; i < job->pass_count; i++)
		if (!job->passes[i].struck)
			return true;
	for (size_t i = 0; i < job->pull_begin_count; i++)
		if (!job->pull_begins[i].struck)
			return true;
	return false;
}

static bool in_shift(const struct handover_page *p, const struct fact *f)
{
	return sb_period_holds(&p->when, f->at_ms, sb_job_offset_min(p->job, f->act, f->at_ms));
}

/* Without a shift it is the whole log. */
static const char *when(const struct handover_page *p)
{
	return p->begin ? "in this shift" : "so far";
}

/* ---- ranges of what the rig showed ---- */

static void widen(struct range *r, const struct number *n)
{
	if (!sb_number_given(n))
		return;
	*r = (struct range){ .known = true,
		.low = r->known ? fmin(r->low, n->value) : n->value,
		.high = r->known ? fmax(r->high, n->value) : n->value };
}

static void say_range(struct sb_str *out, const char *what, const struct range *r, const char *unit)
{
	if (!r->known)
		return;
	sb_str_add(out, "%s%s %.10g", out->length ? "  " : "", what, r->low);
	if (r->high > r->low)
		sb_str_add(out, " to %.10g", r->high);
	sb_str_add(out, " %s", unit);
}

/* Two lines of them at most. */
static void put_ranges(struct handover_page *p, const struct range ranges[OPENING_VALUES], const char *first)
{
	static const char *const names[OPENING_VALUES] = { NULL, "torque", "flow", "pump", "annular" };
	struct sb_str upper = { 0 }, lower = { 0 };

	for (int k = 0; k < OPENING_VALUES; k++)
		say_range(k < OPENING_FLOW ? &upper : &lower, k == 0 ? first : names[k], &ranges[k],
			sb_opening_value_unit(p->job, (enum opening_value)k));
	if (upper.length)
		handover_put(p, "rig", "%s", sb_str_get(&upper));
	if (lower.length)
		handover_put(p, upper.length ? "" : "rig", "%s", sb_str_get(&lower));
	sb_str_clear(&upper);
	sb_str_clear(&lower);
}

/* ---- the pass ---- */

static const char *station_at(const struct handover_page *p, double md_m, char text[SB_AXIS_TEXT])
{
	struct clearance_ask ask = sb_solution_clearance(p->job, p->s);
	struct bore_line line = { 0 };

	sb_bore_line_drilled(&ask, &line);
	sb_axis_station(sb_bore_line_station(&line, md_m), p->job->unit, 1, text);
	sb_bore_line_clear(&line);
	return text;
}

/* The tool stands where the joint begins that it goes into next, seen from where it comes. */
static void put_tool(struct handover_page *p, const struct opening *o, const struct opening_pass *pass)
{
	int at = pass->pass->to == PASS_TO_ENTRY ? pass->next : pass->next - 1;
	char station[SB_AXIS_TEXT];

	if (pass->next == 0)
		handover_put(p, "", "all %d joints are through: end the pass", o->bore_joints);
	else if ((size_t)at < p->s->path.count)
		handover_put(p, "", "tool at station %s; %d of %d joints through, %d left, joint %d next",
			station_at(p, p->s->path.rows[at].bit_md_m, station), pass->done, o->bore_joints,
			pass->left, pass->next);
}

static void put_pass(struct handover_page *p, const struct opening *o, const struct opening_pass *pass)
{
	char what[SB_OPENING_WHAT];
	struct sb_str words = { 0 };

	sb_opening_what_pass(p->job, pass->pass, what);
	handover_put(p, "pass", "%d, %s%s", pass->number, what, pass->end ? ": ended" : "");
	if (pass->end) {
		if (pass->left)
			handover_put(p, "", "%d of %d joints were left behind", pass->left, o->bore_joints);
		return;
	}
	put_tool(p, o, pass);
	sb_opening_left_words(&pass->best, &pass->likely, &words);
	handover_put(p, "left", "%s", sb_str_get(&words));
	sb_str_clear(&words);
}

static void put_none(struct handover_page *p)
{
	struct sb_str words = { 0 };

	sb_opening_final_words(p->job, &words);
	handover_put(p, "pass", "none has begun; final hole %s", sb_str_get(&words));
	sb_str_clear(&words);
}

/* What this shift opened. */
static void put_opened(struct handover_page *p, const struct opening *o)
{
	struct range ranges[OPENING_VALUES] = { { .known = false } };
	double metres = 0, minutes = 0;
	int joints = 0, timed = 0;

	for (size_t i = 0; i < o->joint_count; i++) {
		const struct opening_joint *j = &o->joints[i];
		if (!in_shift(p, &j->entry->fact))
			continue;
		joints++;
		metres += j->length_m;
		if (!isnan(j->minutes.whole_min)) {
			minutes += j->minutes.whole_min;
			timed++;
		}
		for (int k = 0; k < OPENING_VALUES; k++)
			widen(&ranges[k], sb_opening_value(j->entry, (enum opening_value)k));
	}
	if (joints == 0)
		return;
	if (timed)
		handover_put(p, "opened", "%d joint%s %s, %.1f %s; mean %.0f min a joint", joints,
			joints == 1 ? "" : "s", when(p), sb_frame_typed(&p->s->frame, metres), p->unit,
			minutes / timed);
	else
		handover_put(p, "opened", "%d joint%s %s, %.1f %s", joints, joints == 1 ? "" : "s", when(p),
			sb_frame_typed(&p->s->frame, metres), p->unit);
	put_ranges(p, ranges, "pull");
}

static void put_opening(struct handover_page *p, bool pulling)
{
	struct opening o;

	sb_opening_take(p->job, &o);
	if (o.running)
		put_pass(p, &o, o.running);
	else if (o.count && !pulling)
		put_pass(p, &o, &o.list[o.count - 1]);
	else if (o.count == 0)
		put_none(p);
	put_opened(p, &o);
	sb_opening_clear(&o);
}

/* ---- returns and releases ---- */

/* What was lost in this shift: "; 2 losses, 300 gal". */
static void say_losses(const struct handover_page *p, struct sb_str *out)
{
	double volume = 0;
	int losses = 0;

	for (size_t i = 0; i < p->job->fluid_event_count; i++) {
		const struct fluid_event *e = &p->job->fluid_events[i];
		if (e->kind != FLUID_LOSS || e->struck || !in_shift(p, &e->fact))
			continue;
		losses++;
		volume += sb_number_given(&e->volume) ? e->volume.value : 0;
	}
	if (losses)
		sb_str_add(out, "; %d loss%s %s", losses, losses == 1 ? "" : "es", when(p));
	if (volume > 0)
		sb_str_add(out, ", %.10g %s", volume, sb_measure_unit(p->job->unit, MEASURE_VOLUME));
}

static void put_returns(struct handover_page *p)
{
	struct returns_said last = sb_returns_last(p->job);
	const char *word = sb_returns_name(last.returns);
	struct sb_str words = { 0 };

	if (last.returns == RETURNS_UNSAID)
		sb_str_add(&words, "nothing was said of them");
	else if (last.entered)
		sb_str_add(&words, "%s, as last entered", word);
	else
		sb_str_add(&words, "%s, last said at joint %d", word, last.joint);
	say_losses(p, &words);
	handover_put(p, "returns", "%s", sb_str_get(&words));
	sb_str_clear(&words);
}

static void put_releases(struct handover_page *p)
{
	int all = 0, open = 0;

	for (size_t i = 0; i < p->job->fluid_event_count; i++) {
		const struct fluid_event *e = &p->job->fluid_events[i];
		char missing[96];
		if (e->kind != FLUID_RELEASE || e->struck)
			continue;
		all++;
		struct release r = sb_release_of(p->job, e, INT64_MAX);
		if (!sb_release_missing(&r, missing))
			continue;
		if (open++ < RELEASES)
			handover_put(p, open == 1 ? "release" : "", "%lld: its record lacks %s%s%s",
				(long long)e->fact.id, missing, *r.place ? "; " : "", r.place);
	}
	if (open > RELEASES)
		handover_put(p, "", "and %d more with something missing: sagbend fluid", open - RELEASES);
	if (all && open == 0)
		handover_put(p, "release", "%d came to the surface; the records are whole", all);
}

/* ---- string and pull ---- */

static void put_string(struct handover_page *p)
{
	struct pipe_string look;
	struct sb_str length = { 0 };

	sb_pipe_string_look(p->job, &look);
	if (look.count == 0)
		handover_put(p, "string", "no joint of it is laid out");
	else {
		sb_pipe_string_length(p->job, &look, &length);
		handover_put(p, "string", "%zu joint%s, %s", look.count, look.count == 1 ? "" : "s",
			sb_str_get(&length));
	}
	sb_str_clear(&length);
	sb_pipe_string_clear(&look);
}

static void put_waiting(struct handover_page *p)
{
	struct lacks lacks = { .count = 0 };

	sb_pullback_lacks(p->job, &lacks);
	if (lacks.count == 0)
		handover_put(p, "pull", "nothing is missing: it can begin");
	for (size_t i = 0; i < lacks.count && i < 3; i++)
		if (i == 2 && lacks.count > 3)
			handover_put(p, "", "and %zu more: sagbend pull", lacks.count - i);
		else
			handover_put(p, i ? "" : "pull", "%s%s", i ? "" : "waits: ", lacks.text[i]);
}

static void put_pulled(struct handover_page *p, const struct pullback *pull)
{
	struct range ranges[OPENING_VALUES] = { { .known = false } };
	int joints = 0;

	for (size_t i = 0; i < pull->count; i++) {
		const struct pull_joint *j = pull->list[i].entry;
		if (!in_shift(p, &j->fact))
			continue;
		joints++;
		widen(&ranges[OPENING_PULL], &j->force);
		widen(&ranges[OPENING_TORQUE], &j->torque);
		widen(&ranges[OPENING_FLOW], &j->flow);
		widen(&ranges[OPENING_ANNULAR], &j->annular);
	}
	if (joints == 0 && pull->ended)
		return;
	handover_put(p, "pulled", "%d joint%s %s", joints, joints == 1 ? "" : "s", when(p));
	put_ranges(p, ranges, "force");
}

static void put_sentence(struct handover_page *p, const char *label, struct sb_str *words)
{
	if (words->length)
		handover_put(p, label, "%s", sb_str_get(words));
	sb_str_clear(words);
}

/* Force, band and limit of the last joint. */
static void put_last(struct handover_page *p, const struct pullback *pull, const struct pull_bands *bands)
{
	struct sb_str words = { 0 };

	if (pull->count == 0)
		return;
	const struct pulled *last = &pull->list[pull->count - 1];
	sb_pullback_say(p->job, last, &words);
	put_sentence(p, "force", &words);
	sb_pullback_means(p->job, bands, last, &words);
	put_sentence(p, "", &words);
}

static void put_pull(struct handover_page *p, const struct pullback *pull, const struct pull_bands *bands)
{
	struct sb_str words = { 0 };

	if (pull->left) {
		char station[SB_AXIS_TEXT];
		handover_put(p, "pull", "%d of %d joints %s out; the head is at station %s, %.1f %s to go",
			pull->joints - pull->left, pull->joints,
			pull->joints - pull->left == 1 ? "is" : "are",
			station_at(p, pull->head_md_m, station), sb_frame_typed(&p->s->frame, pull->left_m),
			p->unit);
	} else {
		handover_put(p, "pull", "all %d joints are out: the head is at the entry", pull->joints);
	}
	if (pull->ended) {
		sb_pullback_end_say(p->job, pull, &words);
		put_sentence(p, "", &words);
	} else {
		sb_pullback_time(p->job, pull, &words);
		put_sentence(p, "left", &words);
		put_last(p, pull, bands);
	}
	put_pulled(p, pull);
}

void handover_after(struct handover_page *p)
{
	struct clearance_ask ask = sb_solution_clearance(p->job, p->s);
	struct pull_bands bands = { 0 };
	struct pullback pull;

	sb_pull_bands_make(&ask, &bands);
	sb_pullback_take(p->job, &bands, &pull);
	put_opening(p, pull.begun != NULL);
	if (pull.begun)
		put_pull(p, &pull, &bands);
	put_returns(p);
	put_releases(p);
	if (pull.begun == NULL) {
		put_string(p);
		put_waiting(p);
	}
	sb_pullback_clear(&pull);
	sb_pull_bands_clear(&bands);
}
