/* The simple rule that the program's advice is measured against. It is what a good hand does in the head:
 *
 *   where the bit is and heads, by the last reading and the hand's own orders since, with the sheet's guess;
 *   straight from there at the design point four joints ahead: the next joint turns the heading that way,
 *   but no more than the bend limits leave and a joint's slide gives;
 *   droop and walk made up for; what is hardly a slide is left out.
 *
 * It knows the design, the limits and the sheet's guess, and learns nothing.
 */
#include "geom/angle.h"
#include "geom/bend.h"
#include "rehearsal_truth.h"

#include <math.h>

static const double joints_ahead = 4, least_slide = 0.08;

static struct attitude turned(const struct attitude *from, struct steer_pair turn)
{
	return sb_attitude(fmin(fmax(from->inc_rad + turn.up, 0), SB_PI),
		from->azi_rad + turn.right / fmax(from->sin_inc, 0.05));
}

static double radius_limit(const struct setup *s, const struct number *radius, double length_m)
{
	return radius->value > 0 ? length_m / sb_frame_metres(s->frame, radius->value) : HUGE_VAL;
}

/* The part of the turn that the window which ends with the joint leaves, by bisection: the angle from the
 * window's beginning to the end of the joint. */
static double window_part(const struct setup *s, const struct path *p, const struct attitude *now,
	struct steer_pair turn, double length_m)
{
	const struct job *job = s->job;
	double length = sb_number_given(&job->window_length)
		? sb_frame_metres(s->frame, job->window_length.value)
		: length_m * job->window_joints.value;
	double begin = p->rows[p->count - 1].bit_md_m + length_m - length, inc, azi;
	double limit = radius_limit(s, &job->window_minimum, length), low = 0, high = 1;
	struct vec3 heading;

	if (isinf(limit) || begin < 0)
		return 1;
	sb_path_at(p, begin, NULL, &heading);
	sb_vec3_attitude(heading, &inc, &azi);
	struct attitude from = sb_attitude(inc, azi);
	double before = job->method == METHOD_SUM ? sb_arc_dogleg(&from, now) : 0;
	for (int i = 0; i < 20; i++) {
		double part = i ? (low + high) / 2 : 1;
		struct attitude end = turned(now, (struct steer_pair){ turn.up * part, turn.right * part });
		double angle = job->method == METHOD_SUM ? before + sb_arc_dogleg(now, &end)
							 : sb_arc_dogleg(&from, &end);
		*(angle <= limit ? &low : &high) = part;
	}
	return low;
}

/* The least slide that turns a joint so far, drift of the rotated rest counted: |turn - (L - s) d| = y s. */
static struct order order_for(
	const struct setup *s, const struct response *g, struct steer_pair turn, double length_m)
{
	struct steer_pair rest = { turn.up - length_m * g->drift_up, turn.right - length_m * g->drift_right };
	double a = g->yield * g->yield - g->drift_up * g->drift_up - g->drift_right * g->drift_right;
	double b = rest.up * g->drift_up + rest.right * g->drift_right;
	double c = rest.up * rest.up + rest.right * rest.right;
	double slid = a > 0 ? fmin((b + sqrt(b * b + a * c)) / a, length_m) : length_m;

	if (slid < least_slide * length_m)
		return (struct order){ 0, 0 };
	rest.up += slid * g->drift_up;
	rest.right += slid * g->drift_right;
	return (struct order){ sb_response_face(s, g->face_error_rad, rest.up, rest.right), slid };
}

struct order rehearsal_aim(
	const struct setup *s, const struct path *p, const struct response *guess, double length_m)
{
	struct attitude heading;
	struct vec3 bit;
	double inc, azi;

	sb_response_bit(s, p, guess, &bit, &heading);
	double near = sb_path_back(p, 0)->deviation.station_m;
	struct deviation d = sb_deviation(s->design, bit, &heading.heading, near);
	double level = hypot(heading.heading.n, heading.heading.e);
	struct design_place to = sb_design_at(s->design, d.station_m + joints_ahead * length_m * level);
	sb_vec3_attitude(sb_vec3_sub(to.at, bit), &inc, &azi);
	struct steer_pair turn = { inc - heading.inc_rad,
		sb_wrap_half(azi - heading.azi_rad) * heading.sin_inc };
	double most = fmin(radius_limit(s, &s->job->joint_minimum, length_m),
		radius_limit(s, &s->job->drill_pipe_minimum_radius, length_m));
	double size = hypot(turn.up, turn.right), cut = size > most ? most / size : 1;
	turn = (struct steer_pair){ turn.up * cut, turn.right * cut };
	double left = window_part(s, p, &heading, turn, length_m);
	turn = (struct steer_pair){ turn.up * left, turn.right * left };
	return order_for(s, guess, turn, length_m);
}
