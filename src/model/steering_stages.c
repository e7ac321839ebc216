/* The stages: what each joint ahead is given to do it with, along the design line: the corridor at its end,
 * the bend limits with the bends already in the ground, obstacles, what the ground gives; and how far ahead
 * the bore is to be back on the line.
 *
 * Margins: a plan that uses all of a limit breaks it every other time, because readings are noisy and ground
 * is not uniform. Of a joint's bend limit and of the corridor it uses eight tenths where the design leaves
 * that much. Of the bend limit over the window it leaves free what the response itself says that is not
 * known: a limit on a chance is a limit drawn in by so many sigmas (Charnes and Cooper 1959,
 * "Chance-constrained programming", Management Science 6).
 */
#include "response_filter.h"
#include "steering_parts.h"

#include "base/str.h"
#include "geom/angle.h"
#include "model/surroundings.h"

#include <string.h>

static const double bend_margin = 0.8, corridor_margin = 0.8;
/* One window in a hundred, of those that use all they may, may come out too sharp: the normal distribution's
 * 99 %. */
static const double sigmas = 2.326;

double sb_steering_joint_length(const struct laying *l, int k)
{
	return sb_frame_metres(l->setup->frame, sb_job_tally(l->setup->job, l->joint + 1 + k).value);
}

struct steer_pair sb_steering_turn(const struct attitude *from, const struct attitude *to)
{
	return (struct steer_pair){ to->inc_rad - from->inc_rad,
		sb_wrap_half(to->azi_rad - from->azi_rad) * sin((from->inc_rad + to->inc_rad) / 2) };
}

static struct steer_pair design_turn(const struct design_place *from, const struct design_place *to)
{
	return (struct steer_pair){ to->inc_rad - from->inc_rad,
		sb_wrap_half(to->azi_rad - from->azi_rad) * sin((from->inc_rad + to->inc_rad) / 2) };
}

double sb_steering_past_reading(const struct laying *l)
{
	return fmax(l->bit_md_m - fmax(sb_path_back(l->path, 0)->survey_md_m, 0), 0);
}

/* What the ground gives to each joint ahead. */
static void look_ahead(struct laying *l)
{
	double past = sb_steering_past_reading(l);

	for (int k = 0; k < SIGHT; k++) {
		double length = sb_steering_joint_length(l, k);
		l->ground[k] = sb_response_ahead(l->response, past + length / 2);
		past += length;
	}
}

/* Stations of the joints' ends, following the design. */
static void walk_design(struct laying *l)
{
	const struct design *d = l->setup->design;

	l->stations[0] = l->deviation.station_m;
	l->places[0] = sb_design_at(d, l->stations[0]);
	for (int k = 0; k < SIGHT; k++) {
		double length = sb_steering_joint_length(l, k);
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

/* The limit with its margin, but never less than is needed in any case. */
static double with_margin(const struct laying *l, double limit, double needed)
{
	double share = bend_margin * (1 - l->tighten);

	return fmin(limit, fmax(limit * share, needed * 1.02));
}

/* What a window needs in any case: what the design turns in it, and by the sum what was turned in the ground
 * already too, which no joint to come takes back. */
static double window_need(const struct steer_problem *p, int k)
{
	const struct steer_stage *s = &p->stages[k];
	struct steer_pair ends = { 0, 0 };
	double sum = 0;

	for (int i = s->window_part > 0 ? s->window_from - 1 : s->window_from; i <= k; i++) {
		double part = i < s->window_from ? s->window_part : 1;
		struct steer_pair turn = { 0, 0 };
		if (i >= 0)
			turn = p->stages[i].design;
		else if (p->by_sum && (size_t)(-1 - i) < p->past_count)
			turn = p->past[-1 - i];
		ends.up += part * turn.up;
		ends.right += part * turn.right;
		sum += part * sb_steering_size(turn);
	}
	return p->by_sum ? sum : sb_steering_size(ends);
}

/* How far a window may turn by the plan, so that with what is not known it keeps the limit: the largest turn
 * T with more T + k sqrt(known + (share T)^2) <= limit. Not known, when its last joint is ordered, is how far
 * the window has turned until there and the wander, and of that joint's turn, its part of T at most, a share:
 * the yield and the slide; and it turns more than the plan says, which takes the yield at its poorer side. In
 * the way in which the design turns; where it does not, any way. Where even nothing is sure half the limit is
 * used all the same, for who may not steer leaves the corridor. */
static double sure_turn(
	const struct laying *l, const struct steer_problem *p, size_t stage, double limit, double part)
{
	const struct response *r = l->response;
	const struct ground_ahead *g = &l->ground[stage];
	const struct steer_stage *s = &p->stages[stage];
	double size = sb_steering_size(s->design), up = size > 0 ? s->design.up / size : sqrt(0.5);
	double yield = g->yield_sigma / s->yield, slide = r->all.scatter * response_wander_of_slide,
	       wander = r->all.scatter * response_wander, k = l->sure * sigmas;
	double known =
		up * up * l->turned_var[0] + (1 - up * up) * l->turned_var[1] + wander * wander * s->length;
	double more = 1 + part * (g->yield / s->yield - 1), q = k * part * hypot(yield, slide),
	       rest = limit * limit - k * k * known;

	if (rest <= 0)
		return limit / 2;
	double root = sqrt(more * more * limit * limit - (more * more - q * q) * rest);
	return fmax(rest / (more * limit + root), limit / 2);
}

static void set_window(const struct laying *l, struct steer_problem *p, size_t k)
{
	const struct job *job = l->setup->job;
	struct steer_stage *s = &p->stages[k];
	double length = 0;
	bool by_length = sb_number_given(&job->window_length);
	double want = by_length ? sb_frame_metres(l->setup->frame, job->window_length.value) : HUGE_VAL;
	int joints = by_length ? STEER_PAST : (int)job->window_joints.value;
	int i = (int)k, first = -l->joint;

	s->window_limit = HUGE_VAL;
	if (!sb_number_given(&job->window_minimum))
		return;
	for (int n = 0; n < joints && i >= first && i >= -STEER_PAST && length < want; n++, i--) {
		double one = i >= 0 ? p->stages[i].length : sb_steering_drilled_length(l, l->joint + 1 + i);
		if (length + one > want) {
			s->window_part = (want - length) / one;
			length = want;
			break;
		}
		length += one;
	}
	s->window_from = i + 1;
	double limit = length / sb_frame_metres(l->setup->frame, job->window_minimum.value);
	double free = sure_turn(l, p, k, limit, fmin(s->length / length, 1)) * (1 - l->tighten);
	s->window_limit = fmin(limit, fmax(free, window_need(p, (int)k) * 1.02));
}

/* The corridor at a joint's end. A bore that is outside, or nearly, gets a funnel that brings it in: what it
 * is outside by may shrink over so many joints. */
static double side_limit(const struct laying *l, double limit_m, double now_m, int k)
{
	double inside = limit_m * corridor_margin * (1 - l->tighten);

	if (isinf(limit_m))
		return HUGE_VAL;
	if (now_m <= inside)
		return inside;
	/* At first nothing is asked beyond what already is, then ever more. */
	double most = fmax(now_m, limit_m) * 1.0 + 0.05 +
		sb_steering_size((struct steer_pair){ l->deviation.inc_off_rad, l->deviation.azi_off_rad }) *
			(l->stations[k] - l->stations[0]);
	double t = fmin((double)k / FUNNEL, 1);
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

static struct vec3 obstacle_at(const struct frame *f, const struct obstacle_point *o)
{
	return sb_frame_ground(f, o->easting.value, o->northing.value, o->elevation.value);
}

/* The next row of the same name, which the stretch from row i leads to; i itself where there is none. */
static size_t obstacle_next(const struct job *job, size_t i)
{
	size_t next = i + 1;

	while (next < job->obstacle_count && !sb_same(job->obstacles[next].name, job->obstacles[i].name))
		next++;
	return next < job->obstacle_count ? next : i;
}

/* The place on obstacle i that is nearest to a point. Rows of one name make a line, and each row stands for
 * the stretch to the next. */
static struct vec3 obstacle_nearest(const struct laying *l, size_t i, struct vec3 to)
{
	const struct job *job = l->setup->job;
	struct vec3 at = obstacle_at(l->setup->frame, &job->obstacles[i]);
	struct vec3 along =
		sb_vec3_sub(obstacle_at(l->setup->frame, &job->obstacles[obstacle_next(job, i)]), at);
	double square = sb_vec3_dot(along, along), share = sb_vec3_dot(sb_vec3_sub(to, at), along);

	return sb_vec3_add(at, sb_vec3_scale(along, square > 0 ? fmin(fmax(share / square, 0), 1) : 0));
}

/* How far the hole's centre line must keep from it: of two rows that differ the larger figures, and the hole
 * as clearance is judged (model/surroundings.h). */
static double obstacle_keep(const struct laying *l, size_t i)
{
	const struct job *job = l->setup->job;
	const struct obstacle_point *a = &job->obstacles[i], *b = &job->obstacles[obstacle_next(job, i)];
	double typed =
		fmax(a->diameter.value, b->diameter.value) / 2 + fmax(a->clearance.value, b->clearance.value);

	return sb_frame_metres(l->setup->frame, typed) + sb_hole_of(job).judged_m;
}

/* Keeps the hole on the design's side of an obstacle near this station: a plane square to the way from
 * obstacle to design. */
static void set_planes(const struct laying *l, struct steer_stage *s, int k)
{
	const struct job *job = l->setup->job;
	const struct design_place *at = &l->places[k];

	for (size_t i = 0; i < job->obstacle_count && s->plane_count < 2; i++) {
		struct deviation d =
			sb_deviation(l->setup->design, obstacle_nearest(l, i, at->at), NULL, at->station_m);
		double keep = obstacle_keep(l, i), apart = hypot(d.offset_m, d.height_m);
		if (fabs(d.station_m - at->station_m) > s->length / 2 + keep || apart < 1e-3 ||
			apart > keep + 10)
			continue;
		/* a . p <= apart - keep, a from the design towards the obstacle */
		struct steer_plane *plane = &s->planes[s->plane_count++];
		plane->a = (struct steer_pair){ d.height_m / apart, d.offset_m / apart };
		plane->b = fmax(apart - keep, 0);
	}
}

/* A curve of the design that is missed for want of turn costs more than one that is overdone. */
double sb_steering_yield(const struct ground_ahead *g)
{
	const double doubt = 0.75;

	return fmax(g->yield - doubt * g->yield_sigma, 0.4 * g->yield);
}

static void set_stage(const struct laying *l, struct steer_problem *p, size_t k)
{
	struct steer_stage *s = &p->stages[k];
	const struct job *job = l->setup->job;

	memset(s, 0, sizeof *s);
	s->length = sb_steering_joint_length(l, (int)k);
	double level = hypot(l->places[k].heading.n, l->places[k].heading.e);
	s->gain = (struct steer_pair){ 1 / fmax(level, 0.2), 1 };
	s->design = design_turn(&l->places[k], &l->places[k + 1]);
	s->yield = sb_steering_yield(&l->ground[k]);
	s->drift = (struct steer_pair){ l->ground[k].drift_up, l->ground[k].drift_right };
	double joint = fmin(turn_limit(l, s->length, &job->joint_minimum),
		turn_limit(l, s->length, &job->drill_pipe_minimum_radius));
	s->joint_limit = isinf(joint) ? joint : with_margin(l, joint, sb_steering_size(s->design));
	set_corridor(l, s, (int)k + 1);
	set_planes(l, s, (int)k + 1);
	set_window(l, p, k);
}

/* The room that exit window and corridor leave on one side of the line where the design comes out. */
static double exit_room(double window_m, double slope, double corridor_m)
{
	/* High by h comes out h / slope short of the exit, low likewise long. */
	return isinf(window_m) ? HUGE_VAL : fmin(window_m * slope, corridor_m);
}

/* The height to come out at: on the line for who is sure of the place. One side of a window is often much
 * nearer to the line than the other, and what is not known of the place would end on that side: so the target
 * moves away from it until so many sigmas are free there, to the middle of the room at most. It is a tenth of
 * the room wide; where one side is open, the line, and two tenths of the other side. */
static void set_exit_height(const struct laying *l, struct steer_problem *p, double up, double down)
{
	double half = (up + down) / 20, unsure = sigmas * sb_path_back(l->path, 0)->doubt.up_m;

	if (isinf(up) || isinf(down)) {
		p->end_up = up * 0.2;
		p->end_down = down * 0.2;
		return;
	}
	double away = fmin(fmax(fmax(unsure, half) - fmin(up, down), 0), fabs(up - down) / 2);
	p->end_at.up = up < down ? -away : away;
	p->end_up = p->end_down = half;
}

static void set_exit(const struct laying *l, struct steer_problem *p)
{
	const struct corridor *c = l->setup->corridor;
	const struct design_place *exit = &l->places[l->to_exit];
	struct corridor_limits at = sb_corridor_at(c, exit->station_m);
	double slope = fabs(tan(exit->inc_rad - SB_PI / 2));

	p->end = STEER_WINDOW;
	set_exit_height(l, p, exit_room(c->exit_short_m, slope, at.up_m),
		exit_room(c->exit_long_m, slope, at.down_m));
	p->end_left = c->exit_left_m * 0.8;
	p->end_right = c->exit_right_m * 0.8;
}

/* Back on the line and tangent to it as far as matters: what is off by less than three tenths of a sigma of
 * place and heading is not steered for, or the bore would follow the noise of its readings. However little is
 * known, a quarter of a foot and three tenths of a degree are on the line and no more. */
static void set_line(const struct laying *l, struct steer_problem *p)
{
	const double share = 0.3, most_m = 0.08, most_rad = sb_rad(0.3);
	const struct doubt *d = &sb_path_back(l->path, 0)->doubt;
	const double(*heading)[RESPONSE_STATES] = l->response->all.covariance;

	p->end = STEER_NEAR;
	p->end_up = p->end_down = fmin(share * d->up_m, most_m);
	p->end_left = p->end_right = fmin(share * d->across_m, most_m);
	p->end_heading.up = fmin(share * sqrt(heading[HEADING_UP][HEADING_UP]), most_rad);
	p->end_heading.right = fmin(share * sqrt(heading[HEADING_RIGHT][HEADING_RIGHT]), most_rad);
}

/* What sliding is weighed against, in metres slid. Turning that the design does not ask for: it costs as much
 * again as its slide where that takes a whole joint, so a turn is rather spread over several. A metre off the
 * line: as two metres slid, every joint. (Chosen by how often rehearsed bores come out clean; no source.) */
static void set_weights(const struct laying *l, struct steer_problem *p)
{
	p->turn_weight = 1 / (l->ground[0].yield * l->ground[0].yield * sb_steering_joint_length(l, 0));
	p->line_weight = 2;
}

void sb_steering_stages(const struct laying *l, size_t count, struct steer_problem *p)
{
	memset(p, 0, sizeof *p);
	p->count = count;
	p->by_sum = l->setup->job->method == METHOD_SUM;
	p->start = (struct steer_pair){ l->deviation.height_m, l->deviation.offset_m };
	p->heading = (struct steer_pair){ l->heading.inc_rad - l->places[0].inc_rad,
		sb_wrap_half(l->heading.azi_rad - l->places[0].azi_rad) * sin(l->heading.inc_rad) };
	set_weights(l, p);
	sb_steering_set_past(l, p);
	for (size_t k = 0; k < count + BEYOND && k < SIGHT; k++)
		set_stage(l, p, k);
	if (l->to_exit && (int)count >= l->to_exit)
		set_exit(l, p);
	else
		set_line(l, p);
}

bool sb_steering_begin(struct laying *l)
{
	l->deviation = sb_deviation(
		l->setup->design, l->bit, &l->heading.heading, sb_path_back(l->path, 0)->deviation.station_m);
	if (l->deviation.station_m >= l->setup->design->length_m)
		return false;
	walk_design(l);
	look_ahead(l);
	sb_steering_set_turned(l);
	return true;
}
/* Two equal arcs bring the bore back from offset y in s = 2 sqrt(R y - y^2/4); turning the heading in takes R
 * |h| more. (Derived: plane geometry.) Half as long again is gentle. */
size_t sb_steering_comfortable(const struct laying *l, const struct steer_problem *p)
{
	double radius = 0.6 / p->stages[0].yield;

	if (!isinf(p->stages[0].joint_limit))
		radius = fmax(radius, p->stages[0].length / p->stages[0].joint_limit);
	if (!isinf(p->stages[0].window_limit) && sb_number_given(&l->setup->job->window_minimum))
		radius = fmax(radius,
			sb_frame_metres(l->setup->frame, l->setup->job->window_minimum.value) / bend_margin);
	double y = sb_steering_size(p->start), h = sb_steering_size(p->heading);
	double distance = 2 * sqrt(fmax(radius * y - y * y / 4, 0)) + 2 * radius * h;
	return (size_t)ceil(1.5 * distance / p->stages[0].length) + 3;
}

size_t sb_steering_farthest(const struct laying *l)
{
	return l->to_exit ? (size_t)l->to_exit : SIGHT;
}
