/* sagbend ahead: what to do with the next joint. */
#include "base/str.h"
#include "cli/acting.h"
#include "cli/commands.h"
#include "geom/angle.h"
#include "io/ahead.h"
#include "io/write.h"

#include <math.h>

static const struct option options[] = {
	{ "tool-face", "VALUE", "try this tool face in the next joint, degrees as the tool shows it", false },
	{ "slid", "VALUE", "and slide this much of it", false },
	{ "back-at", "JOINT",
		"be on the line by the end of this joint; where that cannot be, the soonest is said", false },
	{ "json", NULL, "as JSON", false },
	OPTION_END,
};

static int take_try(const struct invocation *in, struct number *face, struct number *slid, struct sb_err *err)
{
	const char *f = sb_command_value(in, "tool-face"), *s = sb_command_value(in, "slid");

	if ((f == NULL) != (s == NULL))
		return sb_fail(err, SB_USAGE, "--tool-face and --slid go together: which way, and how far.");
	if (f == NULL)
		return 0;
	if (sb_number_parse(f, face, err) || sb_number_parse(s, slid, err))
		return sb_fail_within(err, "--tool-face and --slid: ");
	if (!(fabs(face->value) <= 360) || !(slid->value >= 0))
		return sb_fail(
			err, SB_RANGE, "A tool face from 0 to 360 and a length of 0 or more are right.");
	return 0;
}

static int take_joint(const struct invocation *in, int *joint, struct sb_err *err)
{
	return sb_command_value(in, "back-at") ? sb_acting_whole(in, "back-at", 1, 1000000, joint, err) : 0;
}

static int fits(const struct job *job, const struct number *slid, struct sb_err *err)
{
	int joint = sb_job_in_ground(job) + 1;
	struct number length = sb_job_tally(job, joint);

	if (sb_number_given(slid) && slid->value > length.value)
		return sb_fail(err, SB_RANGE,
			"--slid %s: joint %d is %s %s long, and no more of it can be slid.", slid->text,
			joint, length.text, sb_unit_short(job->unit));
	return 0;
}

static int run(const struct invocation *in)
{
	struct number face = { 0 }, slid = { 0 };
	struct sb_store *store = NULL;
	struct sb_err err = { 0 };
	struct sb_str text = { 0 };
	struct withdrawal w = { 0 };
	struct own_plan own = { 0 };
	struct plan plan;

	if (take_try(in, &face, &slid, &err) || take_joint(in, &own.back_at, &err) ||
		sb_acting_read(in, &store, &err))
		return sb_command_fail(&err);
	const struct job *job = sb_store_job(store);
	const struct solution *s = sb_store_solution(store);
	if (fits(job, &slid, &err)) {
		sb_store_close(store);
		return sb_command_fail(&err);
	}
	struct setup setup = sb_solution_setup(job, s);
	own.order = sb_number_given(&slid);
	own.tool_face_rad = sb_rad(face.value);
	own.slid_m = sb_frame_metres(&s->frame, slid.value);
	sb_steering_try(&setup, &s->path, &s->response, &own, &plan);
	bool look_back = plan.known && !plan.feasible;
	if (look_back)
		sb_steering_withdraw(&setup, &s->path, &s->response, &w);
	(sb_command_flag(in, "json") ? sb_ahead_json : sb_ahead_text)(
		job, s, &plan, look_back ? &w : NULL, &text);
	sb_store_close(store);
	int status = sb_write_whole("-", false, sb_str_get(&text), text.length, &err);
	sb_str_clear(&text);
	return status ? sb_command_fail(&err) : EXIT_OK;
}

const struct command sb_cmd_ahead = {
	.name = "ahead",
	.arguments = "JOB.bore [--tool-face VALUE --slid VALUE] [--back-at JOINT] [--json]",
	.summary = "what to do with the next joint: hold, steer or pull back, and the plan behind it",
	.detail =
		"Joint by joint: target inclination and azimuth, tool face and slid length, and where that puts the bit. If there is no "
		"way back inside every limit: which one stands in it, and the fewest joints to pull back. tool face: what the tool must "
		"show, degrees clockwise from high side looking ahead, with the learnt error in it.",
	.least = 1,
	.most = 1,
	.options = options,
	.run = run,
};
