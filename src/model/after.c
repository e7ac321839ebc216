/* Which entries stand on which: a table of references, walked from the newest. */
#include "model/after.h"

#include "base/str.h"
#include "model/clock.h"
#include "model/opening.h"
#include "model/pullback.h"

#include <stdint.h>
#include <string.h>

#include "opening_parts.h"

static void *entry_of(const struct job *job, int64_t act, const struct act **a, const struct fact_sort **sort)
{
	*a = sb_job_act(job, act);
	*sort = *a ? sb_fact_sort((*a)->kind) : NULL;
	return *sort && (*sort)->struck_at ? sb_fact_of(job, (*a)->kind, act) : NULL;
}

bool sb_after_is(enum act_kind kind)
{
	const struct fact_sort *sort = sb_fact_sort(kind);

	return sort && sort->struck_at;
}

bool sb_after_struck(const struct job *job, const struct act *act)
{
	return sb_after_is(act->kind) && !sb_after_strikable(job, act->id);
}

bool sb_after_strikable(const struct job *job, int64_t act)
{
	const struct act *a;
	const struct fact_sort *sort;
	const void *fact = entry_of(job, act, &a, &sort);

	return fact && !sb_fact_struck(sort, fact);
}

/* ---- what an entry names ---- */

const struct fluid_event *sb_after_release(const struct job *job, const struct fluid_event *record)
{
	for (size_t i = 0; i < job->fluid_event_count; i++)
		if (job->fluid_events[i].fact.id == record->of && job->fluid_events[i].kind == FLUID_RELEASE)
			return &job->fluid_events[i];
	return NULL;
}

static int check_release(const struct job *job, const struct fluid_event *e, struct sb_err *err)
{
	if (e->kind != FLUID_RECORD)
		return e->of ? sb_fail(err, SB_RANGE, "Only a record names a release.") : 0;
	const struct fluid_event *r = sb_after_release(job, e);

	return r && !r->struck ? 0 : sb_fail(err, SB_MISSING, "There is no release %d to add to.", e->of);
}

static int check_pass(const struct job *job, int pass, struct sb_err *err)
{
	if (pass < 1 || (size_t)pass > job->pass_count || job->passes[pass - 1].struck)
		return sb_fail(err, SB_MISSING, "There is no pass %d.", pass);
	for (size_t i = 0; i < job->pass_end_count; i++)
		if (job->pass_ends[i].pass == pass && !job->pass_ends[i].struck)
			return sb_fail(err, SB_STATE, "Pass %d is ended (entry %lld).", pass,
				(long long)job->pass_ends[i].fact.act);
	return 0;
}

static int check_joint(const struct job *job, int joint, struct sb_err *err)
{
	int joints = sb_job_in_ground(job);

	return joint >= 1 && joint <= joints
		? 0
		: sb_fail(err, SB_RANGE, "There is no joint %d: the bore has joints 1 to %d.", joint, joints);
}

/* A joint takes half an hour, or half a shift where it is stuck; an end typed before its start reads as most
 * of a day. Common practice, no source: half a day parts them. */
#define LONG_MIN 720

static int check_times(int joint, const char *started, const char *ended, const char *why, struct sb_err *err)
{
	const struct clocked now = { started, ended, 0 };
	int minutes = *started && *ended ? (int)sb_clock_minutes(NULL, &now).work_min : 0;

	if (minutes <= LONG_MIN || (why && why[strspn(why, " \t")]))
		return 0;
	return sb_fail(err, SB_STATE,
		"From %s to %s joint %d takes %d h %d min. Look at the times; if it is so, say why in the remarks.",
		started, ended, joint, minutes / 60, minutes % 60);
}

int sb_after_check(
	const struct job *job, enum act_kind kind, const void *fact, const char *why, struct sb_err *err)
{
	switch ((int)kind) {
	case ACT_RETURNS:
		return check_release(job, fact, err);
	case ACT_PASS:
		return sb_opening_check_pass(job, err);
	case ACT_PASS_JOINT: {
		const struct pass_joint *j = fact;
		return check_pass(job, j->pass, err) || check_joint(job, j->joint, err) ||
				sb_opening_check_joint(job, j, why, err) ||
				check_times(j->joint, j->started, j->ended, why, err)
			? -1
			: 0;
	}
	case ACT_PASS_END:
		return check_pass(job, ((const struct pass_end *)fact)->pass, err) ||
				sb_opening_check_end(job, fact, why, err)
			? -1
			: 0;
	case ACT_PIPE:
		return sb_pipe_string_check_pipe(job, fact, why, err);
	case ACT_PIPE_RECORD:
		return sb_pipe_string_check_record(job, fact, err);
	case ACT_PULL:
		return sb_pullback_check_begin(job, fact, why, err);
	case ACT_PULL_JOINT: {
		const struct pull_joint *j = fact;
		return sb_pullback_check_joint(job, j, why, err) ||
				check_times(j->joint, j->started, j->ended, why, err)
			? -1
			: 0;
	}
	case ACT_PULL_END:
		return sb_pullback_check_end(job, why, err);
	default:
		return 0;
	}
}

int sb_after_tool_joint(const struct job *job)
{
	int bore = sb_job_in_ground(job), joint = bore;
	struct opening o;

	if (bore && sb_opening_pulled(job, INT64_MAX)) {
		joint = sb_pullback_next(job);
		return joint ? joint : 1;
	}
	sb_opening_stand(job, bore, INT64_MAX, &o);
	if (o.running && o.running->next)
		joint = o.running->next;
	else if (o.running && o.running->pass->to == PASS_TO_ENTRY && bore)
		joint = 1;
	sb_opening_clear(&o);
	return joint;
}

/* ---- what stands on it ---- */

/* Whether a later entry stands on an earlier one. */
static bool stands_on(const struct act *later, const void *fact, const struct act *earlier, const void *on)
{
	const struct fact *head = on;

	switch ((int)later->kind) {
	case ACT_RETURNS:
		return earlier->kind == ACT_RETURNS &&
			((const struct fluid_event *)fact)->kind == FLUID_RECORD &&
			((const struct fluid_event *)fact)->of == head->id;
	case ACT_PASS_JOINT:
		return earlier->kind == ACT_PASS && ((const struct pass_joint *)fact)->pass == head->id;
	case ACT_PASS_END: {
		int pass = ((const struct pass_end *)fact)->pass;
		return (earlier->kind == ACT_PASS && pass == head->id) ||
			(earlier->kind == ACT_PASS_JOINT && ((const struct pass_joint *)on)->pass == pass);
	}
	case ACT_PASS:
		return earlier->kind == ACT_PASS_END;
	case ACT_PIPE_RECORD: {
		const struct pipe_record *r = fact;
		int joint = earlier->kind == ACT_PIPE ? ((const struct pipe *)on)->joint : 0;
		return joint && (r->joint == joint || r->joint == joint - 1) && r->joint > 0;
	}
	case ACT_PULL:
		return earlier->kind == ACT_PIPE;
	case ACT_PULL_JOINT:
		return earlier->kind == ACT_PULL;
	case ACT_PULL_END:
		return earlier->kind == ACT_PULL || earlier->kind == ACT_PULL_JOINT;
	default:
		return false;
	}
}

static const struct act *stands_last(const struct job *job, const struct act *on, const void *fact)
{
	for (size_t i = job->act_count; i-- > 0 && job->acts[i].id > on->id;) {
		const struct act *a;
		const struct fact_sort *sort;
		const void *later = entry_of(job, job->acts[i].id, &a, &sort);
		if (later && !sb_fact_struck(sort, later) && stands_on(a, later, on, fact))
			return a;
	}
	return NULL;
}

int sb_after_check_strike(const struct job *job, int64_t act, struct sb_err *err)
{
	const struct act *a;
	const struct fact_sort *sort;
	const void *fact = entry_of(job, act, &a, &sort);

	if (a == NULL)
		return sb_fail(err, SB_MISSING,
			"There is no entry %lld: history lists them with their numbers.", (long long)act);
	if (fact == NULL)
		return sb_fail(err, SB_STATE,
			"Entry %lld (%s) cannot be struck out: a reading is corrected, a breach is taken back by its own act.",
			(long long)act, sb_act_name(a->kind));
	if (sb_fact_struck(sort, fact))
		return sb_fail(err, SB_STATE, "Entry %lld is struck out already.", (long long)act);
	const struct act *last = stands_last(job, a, fact);
	if (last)
		return sb_fail(err, SB_STATE,
			"Entry %lld cannot be struck out while entry %lld (%.20s%s%.60s) stands on it: strike that out first.",
			(long long)act, (long long)last->id, sb_act_name(last->kind), *last->text ? ", " : "",
			last->text);
	return 0;
}
