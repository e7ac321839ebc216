/* The spine of the program. Facts go in on one side in the order of time; everything that is known about
 * the bore comes out on the other. Solving from the start and adding the last joint alone run through the
 * same steps, so they give the same bits. */
#include "model/solve.h"

#include "model/azimuth.h"
#include "model/event.h"
#include "model/exit.h"
#include "model/pullback.h"

#include <string.h>

#include "episode.h"

/* The setup as a reading met it: another tool, or another reference, may have come since. */
static struct setup setup_then(const struct setup *now, const struct reading *r, struct frame *then)
{
	struct setup setup = *now;

	sb_frame_for(now->job, now->frame, r, then);
	setup.frame = then;
	return setup;
}

void sb_solve_acknowledged(const struct job *job, struct solution *s)
{
	for (size_t i = 0; i < s->warning_count; i++)
		episode_mark_acknowledged(job, &s->warnings[i]);
}

/* What `check` says: a breach anywhere on the present path; a watch anywhere on it, but for kinds that speak
 * of what would come only while they do. */
static void judge_whole(struct solution *s)
{
	s->level = LEVEL_OK;
	for (size_t i = 0; i < s->warning_count; i++) {
		const struct warning *w = &s->warnings[i];
		if (sb_warning_counts(w) && w->level > s->level)
			s->level = w->level;
	}
}

/* ---- the steps ---- */

/* How far history looks ahead: as far as a warning reaches. Only the end of the path looks further. */
static int warning_sight(const struct job *job)
{
	return (int)job->look_ahead.value;
}

/* Clearance and cover of the course that ends at the row, and of what comes after it. before: the row on the
 * path before it. */
static void judge_room(const struct setup *setup, const struct solution *s, const struct row *before,
	const struct row *row, const struct bit *bit, struct verdict *verdicts)
{
	struct clearance_ask ask = { *setup, &s->around, &s->uncertainty, &s->path, bit, &s->fixes, NULL };

	sb_clearance_judge(
		&ask, before, row, &verdicts[WARNING_CLEARANCE], &verdicts[WARNING_CLEARANCE_AHEAD]);
	sb_cover_judge(&ask, before, row, &verdicts[WARNING_COVER], &verdicts[WARNING_COVER_AHEAD]);
}

/* response: NULL where a joint is judged again: what the ground answers is said once, when it does. */
static size_t judge_row(const struct setup *setup, struct solution *s, const struct row *row,
	const struct reading *r, const struct bit *bit, const struct ahead *ahead,
	const struct response *response)
{
	struct verdict verdicts[WARNING_KINDS] = { 0 };

	sb_warning_judge(setup, row, r, verdicts);
	sb_advice_judge(setup, bit, ahead, row->joint, verdicts);
	sb_azimuth_judge(setup, r, &verdicts[WARNING_AZIMUTH]);
	sb_fixes_judge(setup, &s->fixes, row, false, verdicts);
	sb_exit_judge(setup, &s->fixes, row, false, bit, ahead, &verdicts[WARNING_EXIT]);
	if (row->joint > 0)
		judge_room(setup, s, sb_path_back(&s->path, row->on_path), row, bit, verdicts);
	if (response)
		sb_response_judge(response, row->joint, &verdicts[WARNING_RESPONSE]);
	return episode_take_all(s, row, verdicts);
}

/* The fixes that were entered before an act, against the path as it is now. */
static void look_at_fixes(const struct setup *setup, struct solution *s, int64_t before_act)
{
	struct fixes_ask ask = { setup, &s->path, &s->uncertainty.model, s->uncertainty.confidence,
		before_act };

	sb_fixes_solve(&ask, &s->fixes);
}

/* Fixes come between joints: the end of the path is judged again when there is one more. */
static void judge_fixes(const struct setup *setup, struct solution *s)
{
	const struct row *row = &s->path.rows[s->path.count - 1];
	struct verdict verdicts[WARNING_KINDS] = { 0 };

	sb_fixes_judge(setup, &s->fixes, row, true, verdicts);
	episode_take(s, WARNING_FIX, row, &verdicts[WARNING_FIX]);
	episode_take(s, WARNING_NO_FIX, row, &verdicts[WARNING_NO_FIX]);
	if (sb_exit_survey(setup, &s->fixes, row, true).plan) {
		sb_exit_judge(setup, &s->fixes, row, true, &s->bit, &s->ahead, &verdicts[WARNING_EXIT]);
		episode_take(s, WARNING_EXIT, row, &verdicts[WARNING_EXIT]);
	}
}

static void take_fixes(const struct setup *setup, struct solution *s, int64_t before_act)
{
	size_t count = s->fixes.count;

	if (count == setup->job->fix_count || setup->job->fixes[count].fact.act >= before_act)
		return;
	look_at_fixes(setup, s, before_act);
	judge_fixes(setup, s);
}

/* Changes come between joints too: one may settle which way to the azimuth holds, or bring up the question.
 */
static void judge_changes(const struct setup *setup, struct solution *s, int64_t before_act)
{
	struct verdict v = { 0 };

	sb_azimuth_judge_next(setup, before_act, &v);
	episode_take(s, WARNING_AZIMUTH, &s->path.rows[s->path.count - 1], &v);
}

static void take_changes(const struct setup *setup, struct solution *s, int64_t before_act)
{
	size_t seen = s->changes;

	while (s->changes < setup->job->change_count && setup->job->changes[s->changes].fact.act < before_act)
		s->changes++;
	if (s->changes > seen)
		judge_changes(setup, s, before_act);
}

/* ---- entries beside and after the pilot ---- */

/* Kinds of entries that joints of the pilot bring too. Returned: as episode_take_all. */
static size_t take_joint_events(
	const struct setup *setup, struct solution *s, const struct row *row, const struct reading *r)
{
	struct clearance_ask ask = { *setup, &s->around, &s->uncertainty, &s->path, &s->bit, &s->fixes,
		NULL };
	struct finding findings[SB_FINDINGS];
	size_t count = sb_event_judge_joint(&ask, row, r, findings), first = SIZE_MAX;

	for (size_t i = 0; i < count; i++) {
		size_t touched = episode_take_finding(s, &findings[i], row->leg, 0);
		if (touched < first)
			first = touched;
	}
	return first;
}

static void take_events(const struct setup *setup, struct solution *s, int64_t before_act)
{
	const struct job *job = setup->job;
	struct pull_bands bands = { 0 };
	struct clearance_ask ask = { *setup, &s->around, &s->uncertainty, &s->path, &s->bit, &s->fixes,
		&bands };

	for (; s->acts < job->act_count && job->acts[s->acts].id < before_act; s->acts++) {
		const struct act *a = &job->acts[s->acts];
		struct finding findings[SB_FINDINGS];
		size_t count = sb_event_judge(&ask, a, findings);
		for (size_t i = 0; i < count; i++)
			episode_take_finding(s, &findings[i], a->leg, a->id);
	}
	sb_pull_bands_clear(&bands);
}

/* The bit and how sure its place is, seen from the path's end or from a trial. */
static struct bit find_bit(const struct setup *setup, const struct solution *s, const struct row *trial)
{
	struct bit bit = sb_advice_bit(setup, &s->path, trial);

	sb_advice_doubt(setup, &s->uncertainty, &s->response, &s->path, trial, &bit);
	return bit;
}

/* Appends a joint to path and warnings; the advice is left to the caller. */
static size_t add_joint(const struct setup *now, struct solution *s, const struct reading *r, int sight)
{
	struct frame then;
	struct setup setup = setup_then(now, r, &then);
	size_t at = (size_t)(sb_path_back(&s->path, 0) - s->path.rows);

	sb_path_append(&setup, &s->path, r);
	struct row *row = &s->path.rows[s->path.count - 1];
	sb_uncertainty_row(&setup, &s->uncertainty, &s->path.rows[at], row);
	if (!s->fixes.settled)
		look_at_fixes(now, s, r->logged);
	sb_response_course(&setup, &s->path, &s->response);
	s->path.gives = sb_response_gives(&s->response);
	s->bit = find_bit(&setup, s, NULL);
	s->ahead = sb_advice_ahead(&setup, &s->bit, &s->path, NULL, sight);
	size_t first = judge_row(&setup, s, row, r, &s->bit, &s->ahead, &s->response);
	size_t event = take_joint_events(&setup, s, row, r);
	return event < first ? event : first;
}

static void advise(const struct setup *setup, struct solution *s)
{
	s->bit = find_bit(setup, s, NULL);
	s->ahead = sb_advice_ahead(setup, &s->bit, &s->path, NULL, SB_AHEAD_SIGHT);
	s->budget = sb_advice_budget(setup, &s->path, NULL);
	judge_whole(s);
}

/* Judges the joints that stay in the ground afresh, as they were when each of them was the last: an episode
 * that the withdrawn joints had made longer or worse is cut to what is left. */
static void rejudge(const struct setup *setup, struct solution *s, int to_joint)
{
	size_t on_count = s->path.on_count;
	bool entry_known = s->path.entry_known;

	for (int k = 0; k < WARNING_KINDS; k++)
		s->open[k] = -1;
	episode_find_open(s);
	s->path.on_count = 0;
	for (int joint = 0; joint <= to_joint; joint++) {
		const struct row *row = &s->path.rows[joint];
		s->path.count = (size_t)joint + 1;
		if (row->on_path)
			s->path.on_count++;
		s->path.entry_known = s->path.rows[0].taken || s->path.on_count > 1;
		const struct reading *r = row->reading ? sb_job_reading(setup->job, row->reading) : NULL;
		struct frame frame;
		struct setup then = r ? setup_then(setup, r, &frame) : *setup;
		struct bit bit = sb_advice_bit(&then, &s->path, NULL);
		struct ahead ahead = sb_advice_ahead(&then, &bit, &s->path, NULL, warning_sight(setup->job));
		judge_row(&then, s, row, r, &bit, &ahead, NULL);
	}
	s->path.on_count = on_count;
	s->path.entry_known = entry_known;
}

static void withdraw(const struct setup *setup, struct solution *s, const struct leg *leg)
{
	size_t kept = 0;

	sb_path_withdraw(setup, &s->path, leg->to_joint);
	sb_response_withdrawn(setup, &s->response);
	for (size_t i = 0; i < s->warning_count; i++) {
		struct warning *w = &s->warnings[i];
		bool event = sb_warning_sorts[w->kind].event;
		if (!event && !w->superseded && w->last_joint <= leg->to_joint)
			continue; /* judged again below, and found again as it is */
		if (!event) {
			w->superseded = true;
			w->open = false;
		}
		s->warnings[kept++] = *w;
	}
	s->warning_count = kept;
	look_at_fixes(setup, s, leg->act);
	rejudge(setup, s, leg->to_joint);
	judge_fixes(setup, s);
	judge_changes(setup, s, leg->act);
}

/* All that came between two joints. */
static void take_between(const struct setup *setup, struct solution *s, int64_t before_act)
{
	take_fixes(setup, s, before_act);
	take_changes(setup, s, before_act);
	take_events(setup, s, before_act);
}

static void pull_back(const struct setup *setup, struct solution *s, const struct leg *leg)
{
	take_between(setup, s, leg->act);
	withdraw(setup, s, leg);
}

/* The sheet alone: frame, design, corridor, and the entry. */
static int begin(const struct job *job, struct solution *s, struct sb_problems *problems, struct sb_err *err)
{
	if (sb_frame_init(job, &s->frame, err)) {
		sb_problems_add(problems, 0, "job.ini", 0, "", "%s",
			err ? err->text : "the azimuth reference is not complete.");
		return -1;
	}
	int bad = sb_design_build(job, &s->frame, &s->design, problems);
	bad |= sb_corridor_build(job, &s->frame, &s->corridor, problems);
	if (bad)
		return sb_fail(err, SB_FORMAT, "The design or the corridor does not hold together.");
	for (int k = 0; k < WARNING_KINDS; k++)
		s->open[k] = -1;
	sb_frame_for(job, &s->frame, NULL, &s->frame);
	sb_surroundings_build(job, &s->frame, &s->design, &s->around);
	struct setup setup = sb_solution_setup(job, s);
	sb_path_begin(&setup, &s->path);
	sb_response_begin(&setup, &s->response);
	s->path.gives = sb_response_gives(&s->response);
	sb_uncertainty_begin(&setup, &s->uncertainty);
	s->tie = sb_fixes_tie_new(&setup, &s->uncertainty.model, s->uncertainty.confidence);
	s->uncertainty.known = s->tie;
	s->uncertainty.better = s->tie ? sb_fixes_tied : NULL;
	look_at_fixes(&setup, s, 0);
	s->bit = find_bit(&setup, s, NULL);
	judge_row(&setup, s, &s->path.rows[0], NULL, &s->bit, &(struct ahead){ 0 }, NULL);
	return 0;
}

static const struct sb_problem *first_error(const struct sb_problems *p)
{
	for (size_t i = 0; i < p->count; i++)
		if (!p->list[i].warning)
			return &p->list[i];
	return NULL;
}

int sb_solve(const struct job *job, struct solution *out, struct sb_problems *problems, struct sb_err *err)
{
	struct sb_problems own = { 0 };
	struct sb_err words = { 0 };
	size_t leg = 0;

	sb_solution_clear(out);
	if (begin(job, out, problems ? problems : &own, err ? err : &words)) {
		const struct sb_problem *first = first_error(&own);
		if (err && first)
			sb_fail(err, SB_FORMAT, "%s: %s", first->file, first->text);
		sb_problems_clear(&own);
		sb_solution_clear(out);
		return -1;
	}
	sb_problems_clear(&own);
	struct setup setup = sb_solution_setup(job, out);
	for (size_t i = 0; i < job->joint_count; i++) {
		const struct reading *r = &job->readings[job->joints[i]];
		while (leg < job->leg_count && job->legs[leg].number <= r->leg)
			pull_back(&setup, out, &job->legs[leg++]);
		take_between(&setup, out, r->logged);
		add_joint(&setup, out, r, warning_sight(job));
	}
	while (leg < job->leg_count)
		pull_back(&setup, out, &job->legs[leg++]);
	take_between(&setup, out, INT64_MAX);
	sb_solve_acknowledged(job, out);
	advise(&setup, out);
	return 0;
}

int sb_solve_with(const struct job *job, const struct adjustment *a, struct solution *out, struct sb_err *err)
{
	struct job trial = *job; /* borrows all its lists */
	struct adjustment own;

	trial.adjustment_count = 0;
	if (a) {
		own = *a;
		trial.adjustments = &own;
		trial.adjustment_count = 1;
	}
	return sb_solve(&trial, out, NULL, err);
}

int sb_solve_joint(const struct job *job, struct solution *out, size_t *changed_from, struct sb_err *err)
{
	struct setup setup = sb_solution_setup(job, out);

	if (job->in_ground != out->path.count)
		return sb_fail(err, SB_STATE,
			"the path has %zu joints and the log %zu: solve it from the start.",
			out->path.count - 1, job->in_ground);
	size_t first = add_joint(
		&setup, out, &job->readings[job->ground_joints[job->in_ground - 1]], warning_sight(job));
	if (first > out->warning_count)
		first = out->warning_count;
	for (size_t i = first; i < out->warning_count; i++)
		episode_mark_acknowledged(job, &out->warnings[i]);
	advise(&setup, out);
	*changed_from = first;
	return 0;
}

static void preview_warnings(const struct verdict *verdicts, struct preview *out)
{
	for (int k = 0; k < WARNING_KINDS; k++) {
		if (verdicts[k].level == LEVEL_OK)
			continue;
		struct warning *w = &out->warnings[out->warning_count++];
		*w = (struct warning){ .kind = (enum warning_kind)k,
			.leg = out->row.leg,
			.joint = out->row.joint,
			.last_joint = out->row.joint,
			.open = true };
		struct episode_at spot = episode_at(&out->row);
		episode_write(w, &spot, &verdicts[k]);
		if (verdicts[k].level > out->level)
			out->level = verdicts[k].level;
	}
}

int sb_solve_preview(const struct job *job, const struct solution *s, const struct reading *trial,
	struct preview *out, struct sb_err *err)
{
	struct setup setup = sb_solution_setup(job, s);
	struct verdict verdicts[WARNING_KINDS] = { 0 };
	struct reading r = *trial;

	if (!sb_number_given(&r.joint_length))
		r.joint_length = sb_job_tally(job, sb_job_in_ground(job) + 1);
	if (!(r.joint_length.value > 0))
		return sb_fail(err, SB_RANGE, "A joint of length %s cannot be.", r.joint_length.text);
	if (sb_azimuth_check(job, NULL, &r, err))
		return -1;
	r.leg = sb_job_leg(job);
	memset(out, 0, sizeof *out);
	out->row = sb_path_preview(&setup, &s->path, &r);
	sb_uncertainty_row(&setup, &s->uncertainty, sb_path_back(&s->path, 0), &out->row);
	out->bit = find_bit(&setup, s, &out->row);
	out->ahead = sb_advice_ahead(&setup, &out->bit, &s->path, &out->row, SB_AHEAD_SIGHT);
	out->budget = sb_advice_budget(&setup, &s->path, &out->row);
	sb_warning_judge(&setup, &out->row, &r, verdicts);
	sb_advice_judge(&setup, &out->bit, &out->ahead, out->row.joint, verdicts);
	sb_azimuth_judge(&setup, &r, &verdicts[WARNING_AZIMUTH]);
	sb_fixes_judge(&setup, &s->fixes, &out->row, false, verdicts);
	sb_exit_judge(&setup, &s->fixes, &out->row, false, &out->bit, &out->ahead, &verdicts[WARNING_EXIT]);
	judge_room(&setup, s, sb_path_back(&s->path, 0), &out->row, &out->bit, verdicts);
	struct clearance_ask ask = sb_solution_clearance(job, s);
	struct finding findings[SB_FINDINGS];
	size_t count = sb_event_judge_joint(&ask, &out->row, &r, findings);
	for (size_t i = 0; i < count; i++)
		verdicts[findings[i].kind] = findings[i].verdict;
	preview_warnings(verdicts, out);
	return 0;
}
