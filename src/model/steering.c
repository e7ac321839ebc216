/* The plan, in four steps: lay out the stages along the design ahead of the bit; choose where to be back on
 * the line; solve (geom/steer.h); lay the answer through the real geometry and look at every limit there. If
 * the real geometry breaks a limit that the flat one kept, the limits are drawn in a little and it is solved
 * again.
 *
 * Margins: a plan uses nine tenths of a bend limit and of the corridor where the design leaves that much,
 * because readings are noisy and ground is not uniform: a plan that uses all of a limit breaks it every other
 * time.
 */
#include "model/steering.h"

#include "base/mem.h"
#include "base/time.h"
#include "geom/angle.h"
#include "geom/bend.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { SIGHT = 40 };

static const double bend_margin = 0.8, corridor_margin = 0.8;
/* Slides shorter than this share of a joint are not worth orienting the tool for; they are left to add up. */
static const double least_slide = 0.08;

struct laying {
	const struct setup *setup;
	const struct path *path;
	const struct response *response;
	double bit_md_m; /* where the plan starts */
	int joint;	 /* the joint drilled last there */
	struct vec3 bit;
	struct attitude heading;
	struct deviation deviation;
	double stations[STEER_STAGES + 1];
	struct design_place places[STEER_STAGES + 1];
	int to_exit;	/* joints until the exit's station is passed; 0: further than can be seen */
	double tighten; /* further share of the limits kept free, 0 at first */
	const struct plan_joint *given; /* a hand's order for the joint before the plan's first; NULL: none */
};

/* ---- the stages ---- */

static double joint_length(const struct laying *l, int k)
{
	return sb_frame_metres(l->setup->frame, sb_job_tally(l->setup->job, l->joint + 1 + k).value);
}

/* The length of joint n, of the path or of the order that was given. */
static double drilled_length(const struct laying *l, int n)
{
	if (l->given && n == l->given->joint)
		return l->given->length_m;
	return l->path->rows[n].bit_md_m - l->path->rows[n - 1].bit_md_m;
}

/* The heading of the hole at a bit depth of the present path: read off the arcs, or as the response carries
 * it on. */
static struct attitude heading_at(const struct laying *l, double md_m)
{
	const struct row *last = sb_path_back(l->path, 0);
	struct vec3 heading;
	double inc, azi;

	if (md_m >= l->bit_md_m)
		return l->heading;
	if (md_m <= last->survey_md_m) {
		sb_path_at(l->path, fmax(md_m, 0), NULL, &heading);
		sb_vec3_attitude(heading, &inc, &azi);
		return sb_attitude(inc, azi);
	}
	/* Between sensor and bit: in proportion. */
	double t = (md_m - last->survey_md_m) / (l->bit_md_m - last->survey_md_m);
	struct attitude from = sb_response_heading(l->path, l->response);
	return sb_attitude(from.inc_rad + t * (l->heading.inc_rad - from.inc_rad),
		from.azi_rad + t * sb_wrap_half(l->heading.azi_rad - from.azi_rad));
}

static struct steer_pair turn_between(const struct attitude *from, const struct attitude *to)
{
	return (struct steer_pair){ to->inc_rad - from->inc_rad,
		sb_wrap_half(to->azi_rad - from->azi_rad) * sin((from->inc_rad + to->inc_rad) / 2) };
}

static struct steer_pair design_turn(const struct design_place *from, const struct design_place *to)
{
	return (struct steer_pair){ to->inc_rad - from->inc_rad,
		sb_wrap_half(to->azi_rad - from->azi_rad) * sin((from->inc_rad + to->inc_rad) / 2) };
}

/* Stations of the joints' ends, following the design. */
static void walk_design(struct laying *l)
{
	const struct design *d = l->setup->design;

	l->stations[0] = l->deviation.station_m;
	l->places[0] = sb_design_at(d, l->stations[0]);
	for (int k = 0; k < SIGHT; k++) {
		double length = joint_length(l, k);
		const struct vec3 *h = &l->places[k].heading;
		double step = length * hypot(h->n, h->e);
		struct design_place middle = sb_design_at(d, l->stations[k] + step / 2);
		step = length * hypot(middle.heading.n, middle.heading.e);
		l->stations[k + 1] = l->stations[k] + step;
		l->places[k + 1] = sb_design_at(d, l->stations[k + 1]);
		if (l->to_exit == 0 && l->stations[k + 1] >= d->length_m - 0.25 * length)
			l->to_exit = k + 1;
	}
}

static double turn_limit(const struct laying *l, double length_m, const struct number *radius)
{
	return sb_number_given(radius) ? length_m / sb_frame_metres(l->setup->frame, radius->value)
				       : HUGE_VAL;
}

/* The limit with its margin, but never less than the design itself needs. */
static double with_margin(const struct laying *l, double limit, double design)
{
	double share = bend_margin * (1 - l->tighten);

	return fmin(limit, fmax(limit * share, design * 1.02));
}

static double size_of(struct steer_pair p)
{
	return hypot(p.up, p.right);
}

static void set_window(const struct laying *l, struct steer_problem *p, size_t k)
{
	const struct job *job = l->setup->job;
	struct steer_stage *s = &p->stages[k];
	double length = 0;
	bool by_length = sb_number_given(&job->window_length);
	double want = by_length ? sb_frame_metres(l->setup->frame, job->window_length.value) : HUGE_VAL;
	int joints = by_length ? STEER_PAST : (int)job->window_joints.value;
	struct steer_pair sum = { 0, 0 };
	int i = (int)k, first = -l->joint;

	s->window_limit = HUGE_VAL;
	if (!sb_number_given(&job->window_minimum))
		return;
	for (int n = 0; n < joints && i >= first && i >= -STEER_PAST && length < want; n++, i--) {
		double one = i >= 0 ? p->stages[i].length : drilled_length(l, l->joint + 1 + i);
		if (length + one > want) {
			s->window_part = (want - length) / one;
			length = want;
			break;
		}
		length += one;
		if (i >= 0) {
			sum.up += p->stages[i].design.up;
			sum.right += p->stages[i].design.right;
		}
	}
	s->window_from = i + 1;
	s->window_limit = with_margin(
		l, length / sb_frame_metres(l->setup->frame, job->window_minimum.value), size_of(sum));
}

/* The corridor at a joint's end. A bore that is outside, or nearly, gets a funnel that brings it in: what it
 * is outside by may shrink over so many joints. */
static double side_limit(const struct laying *l, double limit_m, double now_m, int k)
{
	const int funnel = 8;
	double inside = limit_m * corridor_margin * (1 - l->tighten);

	if (isinf(limit_m))
		return HUGE_VAL;
	if (now_m <= inside)
		return inside;
	/* At first nothing is asked beyond what already is, then ever more. */
	double most = fmax(now_m, limit_m) * 1.0 + 0.05 +
		size_of((struct steer_pair){ l->deviation.inc_off_rad, l->deviation.azi_off_rad }) *
			(l->stations[k] - l->stations[0]);
	double t = fmin((double)k / funnel, 1);
	return fmax(inside, most + t * (inside - most));
}

static void set_corridor(const struct laying *l, struct steer_stage *s, int k)
{
	struct corridor_limits c = sb_corridor_at(l->setup->corridor, l->stations[k]);
	double high = fmax(l->deviation.height_m, 0), low = fmax(-l->deviation.height_m, 0);
	double right = fmax(l->deviation.offset_m, 0), left = fmax(-l->deviation.offset_m, 0);

	s->up = side_limit(l, c.up_m, high, k);
	s->down = side_limit(l, c.down_m, low, k);
	s->right = side_limit(l, c.right_m, right, k);
	s->left = side_limit(l, c.left_m, left, k);
}

/* Keeps the hole on the design's side of an obstacle near this station: a plane square to the way from
 * obstacle to design. */
static void set_planes(const struct laying *l, struct steer_stage *s, int k)
{
	const struct job *job = l->setup->job;
	const struct frame *f = l->setup->frame;
	const struct design_place *at = &l->places[k];

	for (size_t i = 0; i < job->obstacle_count && s->plane_count < 2; i++) {
		const struct obstacle_point *o = &job->obstacles[i];
		struct vec3 place =
			sb_frame_ground(f, o->easting.value, o->northing.value, o->elevation.value);
		struct deviation d = sb_deviation(l->setup->design, place, NULL, at->station_m);
		double keep =
			sb_frame_metres(f, o->diameter.value) / 2 + sb_frame_metres(f, o->clearance.value);
		double apart = hypot(d.offset_m, d.height_m);
		if (fabs(d.station_m - at->station_m) > s->length / 2 + keep || apart < 1e-3 ||
			apart > keep + 10)
			continue;
		/* a . p <= apart - keep, a from the design towards the obstacle */
		struct steer_plane *plane = &s->planes[s->plane_count++];
		plane->a = (struct steer_pair){ d.height_m / apart, d.offset_m / apart };
		plane->b = fmax(apart - keep, 0);
	}
}

/* A curve of the design that is missed for want of turn costs more than one that is overdone: what is not
 * known of the yield is taken at its poorer side. */
static double careful_yield(const struct response *r)
{
	const double doubt = 0.6;

	return fmax(r->yield - doubt * r->yield_sigma, 0.4 * r->yield);
}

static void set_stage(const struct laying *l, struct steer_problem *p, size_t k)
{
	struct steer_stage *s = &p->stages[k];
	const struct job *job = l->setup->job;

	memset(s, 0, sizeof *s);
	s->length = joint_length(l, (int)k);
	double level = hypot(l->places[k].heading.n, l->places[k].heading.e);
	s->gain = (struct steer_pair){ 1 / fmax(level, 0.2), 1 };
	s->design = design_turn(&l->places[k], &l->places[k + 1]);
	s->yield = careful_yield(l->response);
	s->drift = (struct steer_pair){ l->response->drift_up, l->response->drift_right };
	double joint = fmin(turn_limit(l, s->length, &job->joint_minimum),
		turn_limit(l, s->length, &job->drill_pipe_minimum_radius));
	s->joint_limit = isinf(joint) ? joint : with_margin(l, joint, size_of(s->design));
	set_corridor(l, s, (int)k + 1);
	set_planes(l, s, (int)k + 1);
	set_window(l, p, k);
}

static void set_past(const struct laying *l, struct steer_problem *p)
{
	struct attitude after = l->heading;
	double md = l->bit_md_m;

	for (int i = 0; i < STEER_PAST && l->joint - i >= 1; i++) {
		md -= drilled_length(l, l->joint - i);
		struct attitude before = heading_at(l, md);
		p->past[i] = turn_between(&before, &after);
		after = before;
		p->past_count = (size_t)i + 1;
		if (!sb_number_given(&l->setup->job->window_length) &&
			i + 1 >= (int)l->setup->job->window_joints.value)
			break;
	}
}

static void set_exit(const struct laying *l, struct steer_problem *p)
{
	const struct corridor *c = l->setup->corridor;
	double slope = fabs(tan(l->places[l->to_exit].inc_rad - SB_PI / 2));

	/* High by h comes out h / slope short of the exit, low likewise long. */
	p->end = STEER_WINDOW;
	p->end_up = c->exit_short_m * slope * 0.2;
	p->end_down = c->exit_long_m * slope * 0.2;
	p->end_left = c->exit_left_m * 0.8;
	p->end_right = c->exit_right_m * 0.8;
}

static void set_problem(const struct laying *l, size_t count, struct steer_problem *p)
{
	memset(p, 0, sizeof *p);
	p->count = count;
	p->by_sum = l->setup->job->method == METHOD_SUM;
	p->start = (struct steer_pair){ l->deviation.height_m, l->deviation.offset_m };
	p->heading = (struct steer_pair){ l->heading.inc_rad - l->places[0].inc_rad,
		sb_wrap_half(l->heading.azi_rad - l->places[0].azi_rad) * sin(l->heading.inc_rad) };
	p->turn_weight = 3000;
	p->line_weight = 1;
	for (size_t k = 0; k < count; k++)
		set_stage(l, p, k);
	set_past(l, p);
	if (l->to_exit && (int)count >= l->to_exit)
		set_exit(l, p);
}

/* ---- where to be back ---- */

/* Two equal arcs bring the bore back from offset y in s = 2 sqrt(R y - y^2/4); turning the heading in takes R
 * |h| more. (Derived: plane geometry.) Half as long again is gentle. */
static size_t comfortable(const struct laying *l, const struct steer_problem *p)
{
	double radius = 0.6 / p->stages[0].yield;

	if (!isinf(p->stages[0].joint_limit))
		radius = fmax(radius, p->stages[0].length / p->stages[0].joint_limit);
	if (!isinf(p->stages[0].window_limit) && sb_number_given(&l->setup->job->window_minimum))
		radius = fmax(radius,
			sb_frame_metres(l->setup->frame, l->setup->job->window_minimum.value) / bend_margin);
	double y = size_of(p->start), h = size_of(p->heading);
	double distance = 2 * sqrt(fmax(radius * y - y * y / 4, 0)) + 2 * radius * h;
	return (size_t)ceil(1.5 * distance / p->stages[0].length) + 3;
}

static size_t farthest(const struct laying *l)
{
	return l->to_exit ? (size_t)l->to_exit : SIGHT;
}

/* ---- the answer on the real geometry ---- */

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
	struct steer_pair turn = turn_between(heading, &target);
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
		total += size_of(t);
		length += p->stages[0].length;
	}
	double limit = length / sb_frame_metres(l->setup->frame, job->window_minimum.value);
	return (p->by_sum ? total : size_of(sum)) / limit;
}

/* Lays all joints; those past the answer's end follow the design. Returned: the worst share of a limit that
 * is used. */
static double lay(const struct laying *l, const struct steer_problem *p, const struct steer_answer *a,
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
			one.stages[0].length = joint_length(l, (int)k);
			s = &one.stages[0];
		}
		j->joint = l->joint + 1 + (int)k;
		lay_joint(l, s, h, j, &at, &heading, &station);
		worst = fmax(worst, j->use.share);
		worst = fmax(worst, window_share(l, p, out, k));
	}
	return worst;
}

/* ---- words ---- */

const char *sb_steering_limit_word(enum steer_limit limit)
{
	static const char *const words[] = { "", "the corridor", "the bend limit of one joint",
		"the bend limit over the window", "what this ground gives", "an obstacle",
		"the exit window" };

	return words[limit];
}

static void explain(const struct laying *l, struct plan *out)
{
	const struct plan_joint *first = &out->joints[0];
	const char *unit = sb_unit_short(l->setup->job->unit);

	if (!out->feasible) {
		snprintf(out->words, sizeof out->words,
			"There is no way back inside every limit: %s stands in it at joint %d, short by %.0f %%.",
			sb_steering_limit_word(out->limit), out->limit_joint, out->short_by * 100);
		return;
	}
	double height = sb_frame_typed(l->setup->frame, l->deviation.height_m),
	       offset = sb_frame_typed(l->setup->frame, l->deviation.offset_m);
	if (out->rejoins_at_joint)
		snprintf(out->words, sizeof out->words,
			"%s: the bit is %.1f %s %s and %.1f %s %s; back on the line at joint %d.",
			first->slid_m > 0 ? "Turn" : "Hold", fabs(height), unit, height >= 0 ? "high" : "low",
			fabs(offset), unit, offset >= 0 ? "right" : "left", out->rejoins_at_joint);
	else
		snprintf(out->words, sizeof out->words,
			"The exit is %d joints ahead: the plan goes for its window.", l->to_exit);
}

/* ---- making it ---- */

static bool begin(struct laying *l)
{
	l->deviation = sb_deviation(
		l->setup->design, l->bit, &l->heading.heading, sb_path_back(l->path, 0)->deviation.station_m);
	if (l->deviation.station_m >= l->setup->design->length_m)
		return false;
	walk_design(l);
	return true;
}

/* Where the answer is on the line and tangent to it: within a twentieth of a metre and of a degree and a
 * half. */
static int find_rejoin(const struct laying *l, const struct plan *out, size_t from)
{
	for (size_t k = from; k < out->count; k++) {
		const struct plan_joint *j = &out->joints[k];
		if (hypot(j->deviation.height_m, j->deviation.offset_m) < 0.15)
			return j->joint;
	}
	(void)l;
	return 0;
}

static enum steer_status solve_for(
	struct laying *l, size_t count, struct steer_problem *p, void *work, struct steer_answer *a)
{
	set_problem(l, count, p);
	return sb_steer_solve(p, work, a);
}

/* Eases every limit until there is an answer: the best that can be done, for a bore that must go on all the
 * same. */
static enum steer_status solve_eased(
	struct laying *l, size_t count, struct steer_problem *p, void *work, struct steer_answer *a)
{
	enum steer_status status = STEER_STUCK;

	for (double ease = 1.3; ease < 200 && status != STEER_OPTIMAL; ease *= 2) {
		set_problem(l, count, p);
		p->end = STEER_FREE;
		p->line_weight = 1;
		for (size_t k = 0; k < count; k++) {
			struct steer_stage *s = &p->stages[k];
			s->up *= ease;
			s->down *= ease;
			s->left *= ease;
			s->right *= ease;
			s->plane_count = 0;
			s->window_limit *= fmin(ease, 4);
			s->joint_limit *= fmin(ease, 2);
		}
		status = sb_steer_solve(p, work, a);
	}
	return status;
}

static void fail_plan(const struct laying *l, const struct steer_answer *a, struct plan *out)
{
	out->feasible = false;
	out->limit = a->limit;
	out->limit_joint = l->joint + 1 + (int)a->stage;
	out->short_by = a->short_by;
}

/* Solves for the end at `count`, tightening until the real geometry keeps the limits too. */
static bool make_at(struct laying *l, size_t count, struct steer_problem *p, void *work,
	struct steer_answer *a, struct plan *out)
{
	for (l->tighten = 0; l->tighten < 0.25; l->tighten += 0.08) {
		if (solve_for(l, count, p, work, a) != STEER_OPTIMAL)
			return false;
		size_t all = farthest(l) < count + 4 ? farthest(l) : count + 4;
		double worst = lay(l, p, a, all, out);
		bool outside_already = l->deviation.station_m > 0 && worst > 1;
		if (worst <= 1 || outside_already)
			break;
	}
	out->feasible = true;
	out->for_exit = p->end == STEER_WINDOW;
	out->rejoins_at_joint = out->for_exit ? 0 : find_rejoin(l, out, count > 2 ? count - 2 : 0);
	return true;
}

static void make(struct laying *l, void *work, struct plan *out)
{
	struct steer_problem *p = sb_alloc(sizeof *p);
	struct steer_answer *a = sb_alloc(sizeof *a);
	size_t most = farthest(l);

	out->bit = l->bit;
	out->heading = l->heading;
	out->known = true;
	set_problem(l, 1, p);
	size_t count = comfortable(l, p);
	if (count > most)
		count = most;
	/* Gentle first; else as late as can be; else nothing can. */
	if (!make_at(l, count, p, work, a, out) && (count == most || !make_at(l, most, p, work, a, out))) {
		fail_plan(l, a, out);
		size_t some = most < 20 ? most : 20;
		l->tighten = 0;
		if (solve_eased(l, some, p, work, a) == STEER_OPTIMAL)
			lay(l, p, a, some, out);
		out->feasible = false;
	}
	explain(l, out);
	sb_free(a);
	sb_free(p);
}

void sb_steering_make(
	const struct setup *setup, const struct path *path, const struct response *response, struct plan *out)
{
	struct laying l = { .setup = setup, .path = path, .response = response };
	double begun = sb_time_tick();

	memset(out, 0, sizeof *out);
	l.joint = path->rows[path->count - 1].joint;
	l.bit_md_m = path->rows[path->count - 1].bit_md_m;
	sb_response_bit(setup, path, response, &l.bit, &l.heading);
	if (!begin(&l))
		return;
	void *work = sb_alloc(sb_steer_work_size());
	make(&l, work, out);
	sb_free(work);
	out->seconds = sb_time_tick() - begun;
}

void sb_steering_try(const struct setup *setup, const struct path *path, const struct response *response,
	double tool_face_rad, double slid_m, struct plan *out)
{
	struct laying l = { .setup = setup, .path = path, .response = response };
	double begun = sb_time_tick();

	memset(out, 0, sizeof *out);
	l.joint = path->rows[path->count - 1].joint;
	l.bit_md_m = path->rows[path->count - 1].bit_md_m;
	sb_response_bit(setup, path, response, &l.bit, &l.heading);
	if (!begin(&l))
		return;
	/* The hand's joint first, as the response expects it; the plan goes on from its end. */
	struct plan_joint first = {
		.joint = l.joint + 1, .length_m = joint_length(&l, 0), .tool_face_rad = tool_face_rad
	};
	first.slid_m = fmin(fmax(slid_m, 0), first.length_m);
	double face = tool_face_rad + sb_rad(setup->job->tool_face_offset.value);
	struct drilled d = { first.slid_m * cos(face), first.slid_m * sin(face), first.slid_m,
		first.length_m - first.slid_m, true };
	sb_response_expect(response, &d, &first.turn_up, &first.turn_right);
	struct attitude target = sb_attitude(fmin(fmax(l.heading.inc_rad + first.turn_up, 0), SB_PI),
		l.heading.azi_rad + first.turn_right / fmax(sin(l.heading.inc_rad), 0.05));
	struct arc arc;
	if (sb_arc_between(&l.heading, &target, first.length_m, &arc) != ARC_RANGE)
		l.bit = sb_vec3_add(l.bit, arc.step);
	l.heading = first.target = target;
	l.bit_md_m += first.length_m;
	l.joint++;
	l.given = &first;
	l.to_exit = 0;
	if (!begin(&l))
		return;
	first.at = l.bit;
	first.deviation = l.deviation;
	struct corridor_limits c = sb_corridor_at(setup->corridor, l.deviation.station_m);
	first.use = sb_corridor_use(&c, l.deviation.offset_m, l.deviation.height_m);
	void *work = sb_alloc(sb_steer_work_size());
	make(&l, work, out);
	sb_free(work);
	if (out->count == STEER_STAGES)
		out->count--;
	memmove(&out->joints[1], &out->joints[0], out->count * sizeof *out->joints);
	out->joints[0] = first;
	out->count++;
	if (first.use.share > 1)
		out->feasible = false;
	out->seconds = sb_time_tick() - begun;
}

/* From where joint `to` ended: the hole there is known, so the plan starts from the path itself. */
static bool stand_at(const struct setup *setup, const struct path *path, const struct response *response,
	int to, struct laying *l)
{
	const struct row *row = &path->rows[to];
	struct vec3 heading;
	double inc, azi;

	*l = (struct laying){
		.setup = setup, .path = path, .response = response, .joint = to, .bit_md_m = row->bit_md_m
	};
	if (row->bit_md_m > sb_path_back(path, 0)->survey_md_m)
		return false; /* not surveyed: as uncertain as the bit itself */
	sb_path_at(path, row->bit_md_m, &l->bit, &heading);
	sb_vec3_attitude(heading, &inc, &azi);
	l->heading = sb_attitude(inc, azi);
	return begin(l);
}

void sb_steering_withdraw(const struct setup *setup, const struct path *path, const struct response *response,
	struct withdrawal *out)
{
	struct steer_problem *p = sb_alloc(sizeof *p);
	struct steer_answer *a = sb_alloc(sizeof *a);
	void *work = sb_alloc(sb_steer_work_size());
	int last = path->rows[path->count - 1].joint;
	double begun = sb_time_tick();

	memset(out, 0, sizeof *out);
	for (int joints = 1; joints <= last && joints <= SIGHT && out->joints == 0; joints++) {
		struct laying l;
		if (!stand_at(setup, path, response, last - joints, &l))
			continue;
		struct corridor_use *use = &(struct corridor_use){ 0 };
		struct corridor_limits c = sb_corridor_at(setup->corridor, l.deviation.station_m);
		*use = sb_corridor_use(&c, l.deviation.offset_m, l.deviation.height_m);
		/* What is outside, or hardly inside, is no place to begin again from. */
		if (use->share > 1)
			continue;
		set_problem(&l, farthest(&l), p);
		if (sb_steer_feasible(p, work, a) != STEER_OPTIMAL)
			continue;
		make(&l, work, &out->plan);
		if (!out->plan.feasible)
			continue;
		out->joints = joints;
		out->to_joint = last - joints;
	}
	sb_free(work);
	sb_free(a);
	sb_free(p);
	out->seconds = sb_time_tick() - begun;
}

void sb_steering_order(const struct setup *setup, const struct plan_joint *j, bool clock, char text[96])
{
	const char *unit = sb_unit_short(setup->job->unit);
	double slid = sb_frame_typed(setup->frame, j->slid_m),
	       rest = sb_frame_typed(setup->frame, j->length_m - j->slid_m);
	int decimals = setup->job->unit == UNIT_M ? 1 : 0;
	char way[40], rotate[32] = "";

	if (!(j->slid_m > 0)) {
		snprintf(text, 96, "rotate the joint");
		return;
	}
	double degrees = sb_deg(sb_wrap_turn(j->tool_face_rad));
	if (clock) {
		int halves = (int)lround(degrees / 15) % 24, hour = halves / 2 ? halves / 2 : 12;
		snprintf(way, sizeof way, "%d%s", hour, halves % 2 ? ":30" : " o'clock");
	} else {
		snprintf(way, sizeof way, "tool face %.0f deg", fmod(round(degrees), 360));
	}
	if (rest >= (decimals ? 0.05 : 0.5))
		snprintf(rotate, sizeof rotate, ", rotate %.*f %s", decimals, rest, unit);
	snprintf(text, 96, "slide %.*f %s at %s%s", decimals, slid, unit, way, rotate);
}
