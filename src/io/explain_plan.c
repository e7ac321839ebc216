/* The plan of the next joint, laid again joint by joint, with the limits that bind it; and the way back where
 * there is none ahead. */
#include "base/mem.h"
#include "geom/angle.h"
#include "model/steering.h"

#include <math.h>
#include <stdio.h>

#include "explain_parts.h"

#define SOURCE_PLAN \
	"Boyd and Vandenberghe, Convex Optimization (2004), chapter 11: the least slid length inside all limits, to a proven gap (geom/steer.h); laid on the real geometry by minimum curvature"
#define TOLD 8

static void put_gives(struct explaining *x, const struct plan_joint *j)
{
	const struct ground_ahead *g = &j->ground;

	explain_input(x, "yield", AS_RATE, g->yield,
		"turned per length slid (explain slide-turn), as it is expected at joint %d: a stretch that differs from the bore on the whole is not counted on past its end",
		j->joint);
	explain_step(x, "careful", AS_RATE, sb_steering_yield(g),
		"the yield that plans count on: its poorer side, as a turn missed costs more than one overdone");
	explain_input(x, "drift up", AS_RATE, g->drift_up, "turned per length rotated there (explain drift)");
	explain_input(x, "drift right", AS_RATE, g->drift_right, "likewise");
	explain_input(x, "error", AS_ANGLE, g->face_error_rad, "of the tool face there (explain face-error)");
}

static void put_limit(struct explaining *x, const char *symbol, const char *section, const char *key,
	const struct number *n, const char *unit)
{
	if (sb_number_given(n)) {
		char where[EXPLAIN_WHERE];
		explain_typed(x, symbol, n, unit, "%s", explain_key(x, section, key, where));
	}
}

static void put_limits(struct explaining *x)
{
	const char *unit = sb_unit_short(x->job->unit);

	put_limit(x, "Rj", "bend", "joint_minimum", &x->job->joint_minimum, unit);
	put_limit(x, "Rp", "drill_pipe", "minimum_radius", &x->job->drill_pipe_minimum_radius, unit);
	put_limit(x, "Rw", "bend", "window_minimum", &x->job->window_minimum, unit);
	explain_words(x, EXPLAIN_NOTE,
		"The corridor at each joint's end is a limit too (explain corridor-share), and so are the obstacles' clearances.");
}

static void put_start(struct explaining *x, const struct plan *p)
{
	explain_step(x, "bit n", AS_LENGTH, p->bit.n,
		"north of the entry: the bit as the log's filter sees it, steadier than one reading");
	explain_step(x, "bit e", AS_LENGTH, p->bit.e, "east of the entry");
	explain_step(x, "bit z", AS_LENGTH, p->bit.u, "elevation");
	explain_step(x, "i", AS_ANGLE, p->heading.inc_rad, "its heading, from straight down");
	explain_step(x, "a", AS_ANGLE, p->heading.azi_rad, "from grid north");
}

/* How much a joint uses of the bend limits of one joint. */
static double joint_use(const struct explaining *x, const struct plan_joint *j)
{
	double least = fmax(x->job->joint_minimum.value, x->job->drill_pipe_minimum_radius.value);

	return hypot(j->turn_up, j->turn_right) * sb_frame_metres(&x->s->frame, least) / j->length_m;
}

static const char *binds(const struct explaining *x, const struct plan_joint *j)
{
	const double touching = 0.98;
	bool corridor = j->use.share > touching, bend = joint_use(x, j) > touching,
	     slide = j->slid_m > touching * j->length_m;

	return corridor ? "; the corridor binds"
		: bend	? "; the bend of one joint binds"
		: slide ? "; it is slid all through"
			: "";
}

/* The plan's joints as arcs from where it starts: each ends where the plan says. */
static double lay_again(struct explaining *x, const struct plan *p, double *slid_m)
{
	struct vec3 at = p->bit;
	struct attitude heading = p->heading;
	double apart = 0;
	char symbol[24], offset[EXPLAIN_VALUE], height[EXPLAIN_VALUE], slid[EXPLAIN_VALUE];

	*slid_m = 0;
	for (size_t i = 0; i < p->count; i++) {
		const struct plan_joint *j = &p->joints[i];
		struct arc arc;
		if (sb_arc_between(&heading, &j->target, j->length_m, &arc) != ARC_RANGE)
			at = sb_vec3_add(at, arc.step);
		heading = j->target;
		apart = fmax(apart, sb_vec3_length(sb_vec3_sub(at, j->at)));
		*slid_m += j->slid_m;
		if (i >= TOLD)
			continue;
		snprintf(symbol, sizeof symbol, "joint %d", j->joint);
		explain_step(x, symbol, AS_NUMBER, j->use.share,
			"share of the corridor at its end; %s slid, offset %s, height %s%s",
			explain_value(x, AS_LENGTH, j->slid_m, slid),
			explain_value(x, AS_LENGTH, j->deviation.offset_m, offset),
			explain_value(x, AS_LENGTH, j->deviation.height_m, height), binds(x, j));
	}
	return apart;
}

/* What has to be slid, and which way, for the turn that the next joint shall bring. */
static void check_order(struct explaining *x, const struct plan_joint *j)
{
	const struct ground_ahead *g = &j->ground;
	double rest = j->length_m - j->slid_m, up = j->turn_up - rest * g->drift_up,
	       right = j->turn_right - rest * g->drift_right;

	explain_step(x, "turn up", AS_ANGLE, j->turn_up, "that joint %d shall bring", j->joint);
	explain_step(x, "turn right", AS_ANGLE, j->turn_right, "likewise");
	if (j->slid_m == 0) {
		explain_check(x, AS_ANGLE, hypot(up, right), 0, "what rotating does not bring of it");
		return;
	}
	if (j->slid_m < j->length_m)
		explain_check(x, AS_LENGTH, hypot(up, right) / sb_steering_yield(g), j->slid_m,
			"slid: what rotating does not bring of the turn, over the yield that plans count on");
	explain_check(x, AS_NUMBER,
		cos(atan2(right, up) - g->face_error_rad - x->s->frame.tool_face_offset_rad -
			j->tool_face_rad),
		1,
		"tool face: the direction of that, less error and offset; the cosine of what is between the two");
}

static void put_order(struct explaining *x, const struct plan *p, const struct plan *kept)
{
	const struct setup setup = sb_solution_setup(x->job, x->s);
	const struct plan_joint *j = &p->joints[0], *k = &kept->joints[0];
	const struct frame *f = &x->s->frame;
	char order[96];

	sb_steering_order(&setup, j, x->job->face_as == FACE_CLOCK, order);
	explain_result(x, "slid", AS_LENGTH, j->slid_m, k->slid_m, "of joint %d: %s", j->joint, order);
	explain_result(x, "tool_face", AS_ANGLE, j->tool_face_rad, k->tool_face_rad,
		j->slid_m > 0 ? "as the tool must show it, clockwise from high side"
			      : "none: nothing is slid");
	explain_result(x, "inclination", AS_NUMBER, sb_frame_inc_typed(f, j->target.inc_rad),
		sb_frame_inc_typed(f, k->target.inc_rad), "target at its end, in the job's convention");
	explain_result(x, "azimuth", AS_NUMBER, sb_frame_azi_typed(f, j->target.azi_rad),
		sb_frame_azi_typed(f, k->target.azi_rad), "target at its end, as the tool would read it");
}

/* A plan in full: where it starts, its joints laid again, the order. */
static void put_plan(struct explaining *x, const struct plan *p, const struct plan *kept)
{
	double slid_m;

	put_start(x, p);
	double apart = lay_again(x, p, &slid_m);
	if (p->count == 0)
		return;
	put_order(x, p, kept);
	explain_check(x, AS_LENGTH, apart, 0,
		"the joints laid again as arcs end where the plan says, but for so much");
	check_order(x, &p->joints[0]);
	explain_step(x, "cost", AS_LENGTH, slid_m,
		"slid in all %zu joints of the plan: what is made least, with a little for turning that the design does not ask for and for being off the line",
		p->count);
	if (p->rejoins_at_joint)
		explain_words(x, EXPLAIN_NOTE,
			"The bore is back on the line, and tangent to it, at the end of joint %d.",
			p->rejoins_at_joint);
}

void explain_next_joint(struct explaining *x)
{
	struct setup setup = sb_solution_setup(x->job, x->s);
	struct plan *plans = sb_alloc(2 * sizeof *plans);

	explain_words(x, EXPLAIN_FORMULA,
		"least slid length over the joints to come, so that the bore ends on the line and tangent to it as far as the readings can tell, every joint inside corridor, bend limits and what a joint can be slid");
	for (int i = 0; i < 2; i++) /* made twice: the same log gives the same plan */
		sb_steering_make(&setup, &x->s->path, &x->s->response, &plans[i]);
	if (plans[0].count)
		put_gives(x, &plans[0].joints[0]);
	put_limits(x);
	if (!plans[0].known)
		explain_words(x, EXPLAIN_NOTE,
			"There is nothing to plan: the bit is past the exit, or nobody knows yet where the bore heads.");
	else
		put_plan(x, &plans[0], &plans[1]);
	if (plans[0].known && !plans[0].feasible)
		explain_words(x, EXPLAIN_LIMIT,
			"There is no way inside every limit: %s stands in it at joint %d, %.3g of it is missing. What stands above is the best with the limits eased so far (explain withdraw).",
			sb_steering_limit_word(plans[0].limit), plans[0].limit_joint, plans[0].short_by);
	if (plans[0].known)
		explain_words(x, EXPLAIN_NOTE, "%s", plans[0].words);
	explain_words(x, EXPLAIN_SOURCE, SOURCE_PLAN);
	sb_free(plans);
}

/* ---- pulling back ---- */

/* Why a place is none to begin again from. */
static void put_tried(struct explaining *x, int joints, bool found)
{
	size_t to = x->trail_count - 1 - (size_t)joints;
	size_t last = explain_before(x, x->trail_count);
	struct vec3 at;
	char symbol[24];

	if (x->bit_depth_m[to] > explain_survey_depth(x, last)) {
		explain_words(x, EXPLAIN_NOTE,
			"To joint %zu: its end was not surveyed yet, and is as unsure as the bit.", to);
		return;
	}
	sb_path_at(&x->s->path, x->bit_depth_m[to], &at, NULL);
	struct deviation d = sb_deviation(&x->s->design, at, NULL, x->trail[to]->deviation.station_m);
	struct corridor_limits l = sb_corridor_at(&x->s->corridor, d.station_m);
	double share = sb_corridor_use(&l, d.offset_m, d.height_m).share;
	snprintf(symbol, sizeof symbol, "joint %zu", to);
	explain_step(x, symbol, AS_NUMBER, share, "share of the corridor at its end: %s",
		found		    ? "from here there is a way"
			: share > 1 ? "outside, no place to begin again from"
				    : "no way inside every limit from here");
}

void explain_withdraw(struct explaining *x)
{
	struct setup setup = sb_solution_setup(x->job, x->s);
	struct plan *plan = sb_alloc(sizeof *plan);
	struct withdrawal *w = sb_alloc(2 * sizeof *w);

	explain_words(x, EXPLAIN_FORMULA,
		"the fewest joints to pull back, so that from the end of what is left there is a plan inside every limit");
	sb_steering_make(&setup, &x->s->path, &x->s->response, plan);
	if (!plan->known || plan->feasible) {
		explain_words(x, EXPLAIN_NOTE,
			plan->known
				? "Nothing need be pulled back: there is a way on from here (explain next-joint)."
				: "There is nothing to plan.");
	} else {
		if (plan->count)
			put_gives(x, &plan->joints[0]);
		put_limits(x);
		for (int i = 0; i < 2; i++)
			sb_steering_withdraw(&setup, &x->s->path, &x->s->response, &w[i]);
		for (int joints = 1; joints <= w[0].joints; joints++)
			put_tried(x, joints, joints == w[0].joints);
		if (w[0].joints == 0) {
			explain_words(x, EXPLAIN_NOTE,
				"Pulling back as far as is looked does not help: ask the engineer.");
		} else {
			explain_result(x, "joints", AS_NUMBER, w[0].joints, w[1].joints, "to pull back");
			explain_result(x, "to_joint", AS_NUMBER, w[0].to_joint, w[1].to_joint,
				"the last one that stays in the ground");
			put_plan(x, &w[0].plan, &w[1].plan);
		}
	}
	explain_words(x, EXPLAIN_SOURCE, SOURCE_PLAN);
	sb_free(plan);
	sb_free(w);
}
