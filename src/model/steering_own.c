/* What a hand would rather do: an order of its own for the next joint, a joint of its own to be back on the
 * line by. Both are laid as they are, held against every limit, and the plan goes on from there.
 */
#include "steering_parts.h"

#include "base/mem.h"
#include "base/time.h"
#include "geom/angle.h"

#include <stdio.h>
#include <string.h>

/* A hand's order for the next joint, as the response expects it. The plan goes on from its end. */
static struct plan_joint lay_order(struct laying *l, double tool_face_rad, double slid_m)
{
	struct plan_joint j = { .joint = l->joint + 1,
		.length_m = sb_steering_joint_length(l, 0),
		.tool_face_rad = tool_face_rad };
	double face = tool_face_rad + l->setup->frame->tool_face_offset_rad;
	struct arc arc;

	j.slid_m = fmin(fmax(slid_m, 0), j.length_m);
	struct drilled d = { j.slid_m * cos(face), j.slid_m * sin(face), j.slid_m, j.length_m - j.slid_m, 0,
		true };
	sb_response_expect_ahead(
		l->response, &d, sb_steering_past_reading(l) + j.length_m / 2, &j.turn_up, &j.turn_right);
	j.ground = l->ground[0];
	j.target = sb_attitude(fmin(fmax(l->heading.inc_rad + j.turn_up, 0), SB_PI),
		l->heading.azi_rad + j.turn_right / fmax(sin(l->heading.inc_rad), 0.05));
	if (sb_arc_between(&l->heading, &j.target, j.length_m, &arc) != ARC_RANGE)
		l->bit = sb_vec3_add(l->bit, arc.step);
	j.at = l->bit;
	l->heading = j.target;
	l->bit_md_m += j.length_m;
	l->joint++;
	l->to_exit = 0;
	return j;
}

/* Puts the order before the plan that goes on from it. */
static void put_first(const struct laying *start, const struct plan_joint *first, struct plan *out)
{
	if (out->count == STEER_STAGES)
		out->count--;
	memmove(&out->joints[1], &out->joints[0], out->count * sizeof *out->joints);
	out->joints[0] = *first;
	out->count++;
	out->bit = start->bit;
	out->heading = start->heading;
}

/* An order that takes all of a limit is within it, however its arc rounds. */
static const double rounding = 1e-6;

/* What the order itself breaks comes before anything that follows from it. */
static void judge_order(const struct laying *start, struct plan *out)
{
	struct steer_problem *p = sb_alloc(sizeof *p);

	sb_steering_stages(start, 1, p);
	struct used used = sb_steering_first_use(start, p, out);
	sb_free(p);
	if (used.share <= 1 + rounding)
		return;
	out->feasible = false;
	out->rejoins_at_joint = 0;
	out->limit = used.limit;
	out->limit_joint = out->joints[0].joint;
	out->short_by = used.share - 1;
	sb_steering_explain_order(out);
}

/* ---- back by a joint of one's own ---- */

/* Whether that joint can be aimed for at all; words: why not. */
static bool in_sight(const struct laying *l, int back_at, char words[256])
{
	int last = l->joint + (int)sb_steering_farthest(l);

	if (back_at <= l->joint)
		snprintf(words, 256, "Joint %d is not ahead any more; the plan is the program's.", back_at);
	else if (back_at > last && l->to_exit)
		snprintf(words, 256,
			"The bore comes out with joint %d, before joint %d; the plan is the program's.", last,
			back_at);
	else if (back_at > last)
		snprintf(words, 256,
			"Joint %d is past joint %d, the last that is planned; the plan is the program's.",
			back_at, last);
	return back_at > l->joint && back_at <= last;
}

/* Back by that joint; or by the soonest after it that there is a plan for; or the program's plan. */
static void make_by(struct laying *l, int back_at, void *work, struct plan *out)
{
	struct steer_problem *p = sb_alloc(sizeof *p);
	struct steer_answer *a = sb_alloc(sizeof *a), *missed = sb_alloc(sizeof *missed);
	size_t most = sb_steering_farthest(l), wanted = (size_t)(back_at - l->joint), count = wanted;
	char tail[64] = "The plan is the program's.";

	sb_steering_set_out(l, out);
	bool made = sb_steering_make_at(l, wanted, p, work, a, out);
	*missed = *a;
	while (!made && count < most)
		made = sb_steering_make_at(l, ++count, p, work, a, out);
	if (made)
		sb_steering_explain(l, out);
	else
		sb_steering_make_from(l, work, out);
	if (made && count > wanted)
		snprintf(tail, sizeof tail, "Joint %d is the soonest.", l->joint + (int)count);
	if (out->feasible && (!made || count > wanted))
		snprintf(out->words, sizeof out->words,
			"Not on the line by joint %d: %s stands in it at joint %d, short by %.0f %%. %s",
			back_at, sb_steering_limit_word(missed->limit), l->joint + 1 + (int)missed->stage,
			missed->short_by * 100, tail);
	sb_free(missed);
	sb_free(a);
	sb_free(p);
}

static void make_own(struct laying *l, int back_at, struct plan *out)
{
	void *work = sb_alloc(sb_steer_work_size());
	char words[256] = "";

	if (back_at && in_sight(l, back_at, words))
		make_by(l, back_at, work, out);
	else
		sb_steering_make_from(l, work, out);
	if (words[0] && out->feasible)
		memcpy(out->words, words, sizeof words);
	sb_free(work);
}

/* ---- both ---- */

static void try_order(const struct laying *start, const struct own_plan *own, struct plan *out)
{
	struct laying l = *start;
	struct plan_joint first = lay_order(&l, own->tool_face_rad, own->slid_m);

	l.given = &first;
	if (sb_steering_begin(&l)) {
		make_own(&l, own->back_at, out);
	} else { /* the last joint of the bore */
		out->known = out->feasible = out->for_exit = true;
		sb_steering_explain_order(out);
	}
	first.deviation = l.deviation;
	struct corridor_limits c = sb_corridor_at(l.setup->corridor, l.deviation.station_m);
	first.use = sb_corridor_use(&c, l.deviation.offset_m, l.deviation.height_m);
	put_first(start, &first, out);
	judge_order(start, out);
}

void sb_steering_try(const struct setup *setup, const struct path *path, const struct response *response,
	const struct own_plan *own, struct plan *out)
{
	struct laying l = { .setup = setup, .path = path, .response = response };
	double begun = sb_time_tick();

	memset(out, 0, sizeof *out);
	if (!sb_steering_stand(&l))
		return;
	if (own->order)
		try_order(&l, own, out);
	else
		make_own(&l, own->back_at, out);
	out->seconds = sb_time_tick() - begun;
}
