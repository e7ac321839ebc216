/* What may be entered of the opening as things stand, and what only with a reason: a pass out of turn, a
 * joint that is not the next one, and figures that look like a slip of a digit. */
#include "model/opening.h"

#include <stdint.h>
#include <string.h>

#include "opening_parts.h"

int sb_opening_check_pass(const struct job *job, struct sb_err *err)
{
	const struct pull_begin *pull = sb_opening_pulled(job, INT64_MAX);
	struct opening o;
	int running = 0, left = 0;

	if (sb_job_accepted(job) == NULL)
		return sb_fail(err, SB_STATE,
			"The pilot is not accepted: that is a hold point, and no pass begins before it. See acceptance.");
	if (pull)
		return sb_fail(err, SB_STATE, "The pull has begun (entry %lld): no pass begins any more.",
			(long long)pull->fact.act);
	sb_opening_stand(job, sb_job_in_ground(job), INT64_MAX, &o);
	if (o.running) {
		running = o.running->number;
		left = o.running->left;
	}
	sb_opening_clear(&o);
	if (running == 0)
		return 0;
	return sb_fail(err, SB_STATE, "Pass %d runs, %d joint%s left: end it first.", running, left,
		left == 1 ? " is" : "s are");
}

static const struct opening_joint *entry_of(const struct opening *o, size_t pass, int joint)
{
	for (size_t i = o->joint_count; i-- > 0;)
		if (o->joints[i].pass == pass && o->joints[i].entry->joint == joint)
			return &o->joints[i];
	return NULL;
}

static bool said(const char *why)
{
	return why && why[strspn(why, " \t")] != '\0';
}

/* ---- a digit too many or too few ---- */

/* A pull or torque changes with the ground, by half or threefold from joint to joint; a digit too many or too
 * few is ten times. Common practice, no source: eight parts them. */
#define LEAP 8.0

/* Whether a value leaps above or below all that the pass has of it. */
static int check_leap(const struct pass_joint *j, const struct opening_pass *p, enum opening_value value,
	struct sb_err *err)
{
	const struct number *typed = sb_opening_value(j, value);
	const struct opening_span *span = &p->values[value];
	bool over = typed->value > LEAP * span->high, under = LEAP * typed->value < span->low;

	if (!sb_number_given(typed) || span->count == 0 || span->low <= 0 || !(over || under))
		return 0;
	return sb_fail(err, SB_STATE,
		"The %s of joint %d, %s, is far %s what pass %d took so far, %.10g to %.10g. Look whether a digit is %s; if it is so, say why in the remarks.",
		sb_opening_value_name(value), j->joint, typed->text, over ? "above" : "below", p->number,
		span->low, span->high, over ? "too many" : "missing");
}

/* The pass itself, and that the joint is of the bore, was looked at before (model/after.h). */
int sb_opening_check_joint(
	const struct job *job, const struct pass_joint *j, const char *why, struct sb_err *err)
{
	struct opening o;
	size_t at = SIZE_MAX;
	int status = 0;

	if (said(why))
		return 0;
	sb_opening_stand(job, sb_job_in_ground(job), INT64_MAX, &o);
	if (sb_opening_find(&o, j->pass, &at) && j->joint != o.list[at].next) {
		const struct opening_joint *before = entry_of(&o, at, j->joint);
		if (before)
			status = sb_fail(err, SB_STATE,
				"Pass %d went through joint %d already (entry %lld). If it did so again, say why in the remarks.",
				j->pass, j->joint, (long long)before->entry->fact.act);
		else
			status = sb_fail(err, SB_STATE,
				"Joint %d comes next in pass %d, not joint %d. If it is so, say why in the remarks.",
				o.list[at].next, j->pass, j->joint);
	}
	for (int k = OPENING_PULL; status == 0 && at < o.count && k <= OPENING_TORQUE; k++)
		status = check_leap(j, &o.list[at], (enum opening_value)k, err);
	sb_opening_clear(&o);
	return status;
}

int sb_opening_check_end(const struct job *job, const struct pass_end *e, const char *why, struct sb_err *err)
{
	struct opening o;
	size_t at;
	int status = 0;

	if (said(why))
		return 0;
	sb_opening_stand(job, sb_job_in_ground(job), INT64_MAX, &o);
	if (sb_opening_find(&o, e->pass, &at) && o.list[at].left > 0)
		status = sb_fail(err, SB_STATE,
			"Pass %d has %d joint%s left, joint %d first. If it ends all the same, say why in the remarks.",
			e->pass, o.list[at].left, o.list[at].left == 1 ? "" : "s", o.list[at].next);
	sb_opening_clear(&o);
	return status;
}
