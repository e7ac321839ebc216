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
	j->tool_face_rad = j->slid_m > 0
		? sb_response_face(l->setup, j->ground.face_error_rad, way.up, way.right)
		: (double)NAN;
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

/* The bend over the window that ends with joint k, as a share of the contract's limit. */
static double window_share(
	const struct laying *l, const struct steer_problem *p, const struct plan *plan, size_t k)
{
	const struct steer_stage *s = &p->stages[k];
	struct steer_pair ends = { 0, 0 };
	double sum = 0, length = 0;

	if (isinf(s->window_limit))
		return 0;
	for (int j = s->window_part > 0 ? s->window_from - 1 : s->window_from; j <= (int)k; j++) {
		double part = j < s->window_from ? s->window_part : 1;
		struct steer_pair t = { 0, 0 };
		if (j >= 0)
			t = (struct steer_pair){ plan->joints[j].turn_up, plan->joints[j].turn_right };
		else if ((size_t)(-1 - j) < p->past_count)
			t = p->past[-1 - j];
		ends.up += part * t.up;
		ends.right += part * t.right;
		sum += part * sb_steering_size(t);
		length += part *
			(j >= 0 ? plan->joints[j].length_m : sb_steering_drilled_length(l, l->joint + 1 + j));
	}
	double limit = length / sb_frame_metres(l->setup->frame, l->setup->job->window_minimum.value);
	return (p->by_sum ? sum : sb_steering_size(ends)) / limit;
}

/* The bend of one joint, as a share of what contract and drill pipe allow. */
static double joint_share(const struct laying *l, const struct plan_joint *j)
{
	const struct job *job = l->setup->job;
	double radius = fmax(sb_number_given(&job->joint_minimum) ? job->joint_minimum.value : 0,
		sb_number_given(&job->drill_pipe_minimum_radius) ? job->drill_pipe_minimum_radius.value : 0);

	return hypot(j->turn_up, j->turn_right) * sb_frame_metres(l->setup->frame, radius) / j->length_m;
}

/* Past a keep-out's plane by so much, as the solver counts it; at 1 on the plane itself. */
static double plane_share(const struct steer_plane *plane, const struct deviation *d)
{
	double past = plane->a.up * d->height_m + plane->a.right * d->offset_m - plane->b;

	return 1 + (past - 1e-3) / fmax(plane->b, 0.3);
}

static bool starts_outside(const struct laying *l)
{
	struct corridor_limits c = sb_corridor_at(l->setup->corridor, l->deviation.station_m);

	return sb_corridor_use(&c, l->deviation.offset_m, l->deviation.height_m).share > 1;
}

static void note_use(struct used *worst, double share, enum steer_limit limit, size_t stage)
{
	if (share > worst->share)
		*worst = (struct used){ share, limit, stage };
}

/* A bore that starts outside the corridor is given the funnel to come back inside. */
static struct used use_of(const struct laying *l, const struct steer_problem *p, const struct plan *plan,
	size_t k, bool outside)
{
	const struct plan_joint *j = &plan->joints[k];
	struct used worst = { 0, STEER_LIMIT_NONE, 0 };

	if (!(outside && k < FUNNEL))
		note_use(&worst, j->use.share, STEER_LIMIT_CORRIDOR, k);
	note_use(&worst, window_share(l, p, plan, k), STEER_LIMIT_WINDOW, k);
	note_use(&worst, joint_share(l, j), STEER_LIMIT_JOINT, k);
	for (size_t i = 0; i < p->stages[k].plane_count; i++)
		note_use(&worst, plane_share(&p->stages[k].planes[i], &j->deviation), STEER_LIMIT_PLANE, k);
	return worst;
}

struct used sb_steering_first_use(
	const struct laying *l, const struct steer_problem *p, const struct plan *plan)
{
	return use_of(l, p, plan, 0, false);
}

struct used sb_steering_lay(const struct laying *l, const struct steer_problem *p,
	const struct steer_answer *a, size_t count, struct plan *out)
{
	struct vec3 at = l->bit;
	struct attitude heading = l->heading;
	double station = l->deviation.station_m;
	struct used worst = { 0, STEER_LIMIT_NONE, 0 };
	bool outside = starts_outside(l);

	out->count = count;
	for (size_t k = 0; k < count; k++) {
		struct plan_joint *j = &out->joints[k];
		const struct steer_pair on_line = { 0, 0 };
		j->joint = l->joint + 1 + (int)k;
		j->ground = l->ground[k];
		lay_joint(l, &p->stages[k], k < p->count ? a->steps[k].heading : on_line, j, &at, &heading,
			&station);
		struct used used = use_of(l, p, out, k, outside);
		note_use(&worst, used.share, used.limit, k);
	}
	return worst;
}
