/* The answer on the real geometry: every joint as an arc in space, its order, its place beside the design,
 * and the share that it uses of the corridor and of the window's bend limit there.
 */
#include "steering_parts.h"

#include "geom/angle.h"
#include "geom/bend.h"

/* Slides shorter than this share of a joint are not worth orienting the tool for; they are left to add up. */
static const double least_slide = 0.08;

/* What has to be slid so that a joint turns by n: |n - (L - s) d| = y s, the least s >= 0. */
static double slide_for(const struct steer_stage *s, struct steer_pair n, struct steer_pair *way)
{
	struct steer_pair rest = { n.up - s->length * s->drift.up, n.right - s->length * s->drift.right };
	double a = s->yield * s->yield - s->drift.up * s->drift.up - s->drift.right * s->drift.right;
	double b = rest.up * s->drift.up + rest.right * s->drift.right,
	       c = rest.up * rest.up + rest.right * rest.right;
	double slid = a > 0 ? (b + sqrt(fmax(b * b + a * c, 0))) / a : s->length;

	slid = fmin(fmax(slid, 0), s->length);
	*way = (struct steer_pair){ rest.up + slid * s->drift.up, rest.right + slid * s->drift.right };
	return slid;
}

/* Lays a joint from where the bit is: attitude off the design by h at its end. */
static void lay_joint(const struct laying *l, const struct steer_stage *s, struct steer_pair h,
	struct plan_joint *j, struct vec3 *at, struct attitude *heading, double *station)
{
	struct arc arc;
	struct steer_pair way;

	/* The design is met where the joint ends, not where it was expected to: found by one step from there.
	 */
	double ahead = *station + s->length * hypot(heading->heading.n, heading->heading.e);
	struct design_place place = sb_design_at(l->setup->design, ahead);
	struct attitude target = sb_attitude(fmin(fmax(place.inc_rad + h.up, 0), SB_PI),
		place.azi_rad + h.right / fmax(sin(place.inc_rad), 0.05));
	struct steer_pair turn = sb_steering_turn(heading, &target);
	j->slid_m = slide_for(s, turn, &way);
	if (j->slid_m < least_slide * s->length)
		j->slid_m = 0;
	j->tool_face_rad =
		j->slid_m > 0 ? sb_response_face(l->setup, l->response, way.up, way.right) : (double)NAN;
	if (j->slid_m == 0) /* what is left out of the order is left out of the prediction too */
		turn = (struct steer_pair){ s->length * s->drift.up, s->length * s->drift.right };
	target = sb_attitude(fmin(fmax(heading->inc_rad + turn.up, 0), SB_PI),
		heading->azi_rad + turn.right / fmax(sin(heading->inc_rad + turn.up / 2), 0.05));
	j->turn_up = turn.up;
	j->turn_right = turn.right;
	j->length_m = s->length;
	if (sb_arc_between(heading, &target, s->length, &arc) != ARC_RANGE)
		*at = sb_vec3_add(*at, arc.step);
	*heading = j->target = target;
	j->at = *at;
	j->deviation = sb_deviation(l->setup->design, *at, &target.heading, *station);
	*station = j->deviation.station_m;
	struct corridor_limits c = sb_corridor_at(l->setup->corridor, *station);
	j->use = sb_corridor_use(&c, j->deviation.offset_m, j->deviation.height_m);
}

/* The largest bend over a window of joints ending at k, as a share of the contract's limit. */
static double window_share(
	const struct laying *l, const struct steer_problem *p, const struct plan *plan, size_t k)
{
	const struct job *job = l->setup->job;
	size_t joints = (size_t)job->window_joints.value;
	struct steer_pair sum = { 0, 0 };
	double total = 0, length = 0;

	if (!sb_number_given(&job->window_minimum) || sb_number_given(&job->window_length))
		return 0;
	for (size_t n = 0; n < joints; n++) {
		size_t back = n > k ? n - k - 1 : 0;
		if (n > k && back >= p->past_count)
			break;
		struct steer_pair t = n <= k
			? (struct steer_pair){ plan->joints[k - n].turn_up, plan->joints[k - n].turn_right }
			: p->past[back];
		sum.up += t.up;
		sum.right += t.right;
		total += sb_steering_size(t);
		length += p->stages[0].length;
	}
	double limit = length / sb_frame_metres(l->setup->frame, job->window_minimum.value);
	return (p->by_sum ? total : sb_steering_size(sum)) / limit;
}

/* Lays all joints; those past the answer's end follow the design. Returned: the worst share of a limit that
 * is used. */
double sb_steering_lay(const struct laying *l, const struct steer_problem *p, const struct steer_answer *a,
	size_t count, struct plan *out)
{
	struct vec3 at = l->bit;
	struct attitude heading = l->heading;
	double station = l->deviation.station_m, worst = 0;

	out->count = count;
	for (size_t k = 0; k < count; k++) {
		struct plan_joint *j = &out->joints[k];
		struct steer_problem one = { 0 };
		const struct steer_stage *s = &p->stages[k];
		struct steer_pair h = { 0, 0 };
		if (k < p->count) {
			h = a->steps[k].heading;
		} else {
			one.stages[0] = p->stages[0];
			one.stages[0].length = sb_steering_joint_length(l, (int)k);
			s = &one.stages[0];
		}
		j->joint = l->joint + 1 + (int)k;
		lay_joint(l, s, h, j, &at, &heading, &station);
		worst = fmax(worst, j->use.share);
		worst = fmax(worst, window_share(l, p, out, k));
	}
	return worst;
}
