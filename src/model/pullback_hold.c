/* The hold point of the pull: what it waits for, and what may be entered of it. */
#include "base/measure.h"
#include "model/opening.h"
#include "model/pullback.h"

#include <string.h>

/* Sizes that differ by less are the same: a thousandth of a millimetre is arithmetic. */
#define SAME_M 1e-6

/* ---- what is missing ---- */

static void look_at_size(const struct job *job, const struct opening *o, struct lacks *out)
{
	double narrowest = o->size.least_m - SAME_M;
	int at = 0;

	for (int joint = 1; joint <= o->bore_joints; joint++)
		if (o->hole_m[joint] > 0 && o->hole_m[joint] < narrowest) {
			narrowest = o->hole_m[joint];
			at = joint;
		}
	if (at)
		sb_lacks_add(out, "the hole is %.5g %s wide at joint %d, %.5g is asked",
			sb_measure_typed(job->unit, MEASURE_SIZE, narrowest),
			sb_measure_unit(job->unit, MEASURE_SIZE), at,
			sb_measure_typed(job->unit, MEASURE_SIZE, o->size.least_m));
}

static void look_at_hole(const struct job *job, struct lacks *out)
{
	struct opening o;

	sb_opening_take(job, &o);
	const struct opening_pass *last = o.count ? &o.list[o.count - 1] : NULL;
	if (last == NULL)
		sb_lacks_add(out, "no pass of a reamer is entered: the hole is the pilot's");
	if (o.running)
		sb_lacks_add(out, "pass %d is not ended, %d joint%s left", o.running->number, o.running->left,
			o.running->left == 1 ? "" : "s");
	if (last)
		look_at_size(job, &o, out);
	if (last && last->pass->kind != PASS_SWAB)
		sb_lacks_add(out, "no swab went through the hole since pass %d", last->number);
	sb_opening_clear(&o);
}

void sb_pullback_lacks(const struct job *job, struct lacks *out)
{
	struct pipe_string string;

	memset(out, 0, sizeof *out);
	if (sb_job_accepted(job) == NULL)
		sb_lacks_add(out, "the pilot is not accepted");
	look_at_hole(job, out);
	sb_pipe_string_look(job, &string);
	for (size_t i = 0; i < string.lacks.count; i++)
		sb_lacks_add(out, "%s", string.lacks.text[i]);
	sb_pipe_string_clear(&string);
}

/* ---- what may be entered ---- */

static bool said(const char *why)
{
	return why && why[strspn(why, " \t")] != '\0';
}

static bool begun(const struct job *job)
{
	for (size_t i = 0; i < job->pull_begin_count; i++)
		if (!job->pull_begins[i].struck)
			return true;
	return false;
}

/* -1 where it is over. */
static int check_runs(const struct job *job, struct sb_err *err)
{
	for (size_t i = 0; i < job->pull_end_count; i++)
		if (!job->pull_ends[i].struck)
			return sb_fail(err, SB_STATE, "The pull is ended (entry %lld).",
				(long long)job->pull_ends[i].fact.act);
	return begun(job) ? 0 : sb_fail(err, SB_STATE, "The pull has not begun.");
}

int sb_pullback_check_begin(
	const struct job *job, const struct pull_begin *b, const char *why, struct sb_err *err)
{
	char missing[600];
	struct lacks lacks;

	if (begun(job))
		return sb_fail(err, SB_STATE, "The pull has begun already.");
	if (sb_job_in_ground(job) == 0)
		return sb_fail(err, SB_STATE, "There is no hole to pull through: no joint was drilled.");
	sb_pullback_lacks(job, &lacks);
	if (lacks.count == 0 || (said(why) && *b->missing))
		return 0;
	sb_lacks_say(&lacks, missing, sizeof missing);
	return sb_fail(err, SB_STATE,
		"The pull cannot begin: %s. If it begins all the same, somebody says why, with a name.",
		missing);
}

int sb_pullback_next(const struct job *job)
{
	int next = sb_job_in_ground(job);

	for (size_t i = 0; i < job->pull_joint_count; i++)
		if (!job->pull_joints[i].struck && job->pull_joints[i].joint <= next)
			next = job->pull_joints[i].joint - 1;
	return next;
}

static const struct pull_joint *entry_of(const struct job *job, int joint)
{
	for (size_t i = job->pull_joint_count; i-- > 0;)
		if (job->pull_joints[i].joint == joint && !job->pull_joints[i].struck)
			return &job->pull_joints[i];
	return NULL;
}

int sb_pullback_check_joint(
	const struct job *job, const struct pull_joint *j, const char *why, struct sb_err *err)
{
	int joints = sb_job_in_ground(job), next = sb_pullback_next(job);
	const struct pull_joint *there = entry_of(job, j->joint);

	if (check_runs(job, err))
		return -1;
	if (j->joint < 1 || j->joint > joints)
		return sb_fail(err, SB_RANGE,
			"There is no joint %d: the bore has joints %d to 1, and they come out in that order.",
			j->joint, joints);
	if (there && there->fact.act == 0) /* an earlier row of the same file */
		return sb_fail(err, SB_STATE, "Joint %d stands here twice.", j->joint);
	if (there)
		return sb_fail(err, SB_STATE,
			"Joint %d is out already (entry %lld): to change it, strike that out first.",
			j->joint, (long long)there->fact.act);
	if (j->joint >= next || said(why)) /* above it: one that was struck out or passed over */
		return 0;
	return sb_fail(err, SB_STATE,
		"Joint %d comes out next, not joint %d. If %s passed over, say why in the remarks.", next,
		j->joint, next - j->joint == 1 ? "it was" : "those between were");
}

int sb_pullback_check_end(const struct job *job, const char *why, struct sb_err *err)
{
	int left = sb_pullback_next(job);

	if (check_runs(job, err))
		return -1;
	if (left == 0 || said(why))
		return 0;
	return sb_fail(err, SB_STATE,
		"The pull head is still in the hole: %d joint%s left to come out, joint %d first. If the pull ends all the same, say why in the remarks.",
		left, left == 1 ? " is" : "s are", left);
}
