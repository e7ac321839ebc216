/* The minimum curvature course. The method is old and short; the care is in its edges:
 *
 * 1. The dogleg comes from half-angle sines of the differences in the readings, never from the product of
 *    two headings: a joint that turns a millionth of a degree still has the right radius.
 * 2. What blows up (the ratio factor at half a turn) or is 0/0 (at none) is rewritten or taken by series.
 * 3. A course costs two small sines and two roots on top of its attitude's sines, which the next course uses
 *    again: the angle by series, and no tangent, since sine and cosine of half the dogleg are at hand.
 */
#include "geom/arc.h"

#include "geom/angle.h"

#include <math.h>
#include <stdbool.h>
#include <stddef.h>

/* Below this sine of half the dogleg the series are exact to 1e-18 (a dogleg of 0.02 rad, 1.1 degrees). */
#define SINE_SMALL 0.01

/* A cosine of half the dogleg below this: within 1e-12 rad of turning right back. */
#define COSINE_BACK 0.5e-12

struct half_turn {
	double angle, sine, cosine; /* of half the dogleg */
	double ratio;		    /* tan(angle) / angle; not finite for a full half turn */
};

struct attitude sb_attitude(double inc_rad, double azi_rad)
{
	struct attitude a = { .inc_rad = inc_rad, .azi_rad = azi_rad };
	double sin_azi, cos_azi;
	sb_sin_cos(inc_rad, &a.sin_inc, &a.cos_inc);
	sb_sin_cos(azi_rad, &sin_azi, &cos_azi);
	a.heading = (struct vec3){ a.sin_inc * cos_azi, a.sin_inc * sin_azi, 0 - a.cos_inc };
	return a;
}

static struct half_turn small_turn(double square)
{
	double sine = sqrt(square);
	double angle = sine * (1 + square * (1 / 6.0 + square * (3 / 40.0 + square * (5 / 112.0))));
	double y = angle * angle;
	return (struct half_turn){
		.angle = angle,
		.sine = sine,
		.cosine = sqrt(1 - square),
		.ratio = 1 + y * (1 / 3.0 + y * (2 / 15.0 + y * (17 / 315.0))),
	};
}

static struct half_turn half_turn(const struct attitude *from, const struct attitude *to)
{
	double level = from->sin_inc * to->sin_inc;
	double half_azi = sb_wrap_half(to->azi_rad - from->azi_rad) / 2;
	double si = sin((to->inc_rad - from->inc_rad) / 2), sa = sin(half_azi);
	double square = si * si + level * sa * sa;
	if (square < SINE_SMALL * SINE_SMALL)
		return small_turn(square);
	struct half_turn h = { .sine = sqrt(square) };
	if (square <= 0.5) {
		h.cosine = sqrt(1 - square);
	} else {
		double ci = cos((from->inc_rad + to->inc_rad) / 2), ca = cos(half_azi);
		h.cosine = sqrt(ci * ci + level * ca * ca);
	}
	h.angle = atan2(h.sine, h.cosine);
	h.ratio = h.sine / (h.cosine * h.angle);
	return h;
}

double sb_arc_dogleg(const struct attitude *from, const struct attitude *to)
{
	return 2 * half_turn(from, to).angle;
}

/* Half the sum of the two headings, as products of half-angle sines: the sum itself would cancel. */
static struct vec3 half_sum(const struct attitude *from, const struct attitude *to)
{
	double half_azi = sb_wrap_half(to->azi_rad - from->azi_rad) / 2;
	double sin_mean, cos_mean, sin_half, cos_half, sin_side, cos_side, sin_azi, cos_azi;
	sb_sin_cos((from->inc_rad + to->inc_rad) / 2, &sin_mean, &cos_mean);
	sb_sin_cos((to->inc_rad - from->inc_rad) / 2, &sin_half, &cos_half);
	sb_sin_cos(half_azi, &sin_side, &cos_side);
	sb_sin_cos(from->azi_rad + half_azi, &sin_azi, &cos_azi);
	double ahead = sin_mean * cos_half * cos_side;
	double aside = cos_mean * sin_half * sin_side;
	return (struct vec3){ ahead * cos_azi - aside * sin_azi, ahead * sin_azi + aside * cos_azi,
		0 - cos_mean * cos_half };
}

/* Square to the heading, as far up as that goes. */
static struct vec3 high_side(const struct attitude *a)
{
	if (a->sin_inc <= 0)
		return (struct vec3){ 1, 0, 0 };
	double level = a->cos_inc / a->sin_inc;
	return (struct vec3){ a->heading.n * level, a->heading.e * level, a->sin_inc };
}

/* The direction of the chord of a turn of more than 90 degrees. */
static struct vec3 bisector(
	const struct attitude *from, const struct attitude *to, const struct half_turn *h, bool *known)
{
	*known = h->cosine > COSINE_BACK;
	if (!*known)
		return high_side(from);
	struct vec3 sum = half_sum(from, to);
	return sb_vec3_scale(sum, 1 / sb_vec3_length(sum));
}

static bool in_range(const struct attitude *a)
{
	return a->inc_rad >= 0 && a->inc_rad <= SB_PI && isfinite(a->azi_rad);
}

enum arc_status sb_arc_between(
	const struct attitude *from, const struct attitude *to, double length_m, struct arc *out)
{
	if (!in_range(from) || !in_range(to) || !(length_m >= 0) || !isfinite(length_m))
		return ARC_RANGE;
	struct half_turn h = half_turn(from, to);
	bool known = true;
	struct vec3 step;
	if (h.sine <= h.cosine)
		step = sb_vec3_scale(sb_vec3_add(from->heading, to->heading), length_m / 2 * h.ratio);
	else
		step = sb_vec3_scale(bisector(from, to, &h, &known), length_m * h.sine / h.angle);
	*out = (struct arc){
		.length_m = length_m,
		.dogleg_rad = 2 * h.angle,
		.step = step,
		.start = from->heading,
		.end = to->heading,
	};
	return known ? ARC_OK : ARC_AMBIGUOUS;
}

/* The heading after turning an angle from the start, in the plane of the arc.
 *
 * With the side direction p square to the start in that plane it is t1 cos a + p sin a. Up to 90 degrees p
 * comes from t2 - t1, which is exact where both are close; beyond, from the chord, where t2 - t1 still has
 * a length but sin b, which it would be divided by, has none left at half a turn. */
static struct vec3 turned(const struct arc *arc, double angle)
{
	double b = arc->dogleg_rad;
	if (b <= SB_PI / 2) {
		double share = b > 0 ? sin(angle) / sin(b) : 0;
		double own = cos(angle - b / 2) / cos(b / 2);
		return sb_vec3_add(sb_vec3_scale(arc->start, own),
			sb_vec3_scale(sb_vec3_sub(arc->end, arc->start), share));
	}
	double share = sin(angle) / sin(b / 2);
	double own = cos(angle) - share * cos(b / 2);
	double chord = arc->length_m * sin(b / 2) / (b / 2);
	return sb_vec3_add(sb_vec3_scale(arc->start, own), sb_vec3_scale(arc->step, share / chord));
}

static struct vec3 offset_at(const struct arc *arc, double s_m, double angle)
{
	double half = angle / 2;
	double chord = fabs(half) > 0 ? s_m * (sin(half) / half) : s_m;
	return sb_vec3_scale(turned(arc, half), chord);
}

void sb_arc_at(const struct arc *arc, double s_m, struct vec3 *offset, struct vec3 *heading)
{
	struct vec3 at = arc->step, towards = arc->end; /* the end itself to the last bit */
	if (!(arc->length_m > 0)) {
		towards = s_m < 0 ? arc->start : arc->end;
		at = sb_vec3_scale(towards, s_m);
	} else if (s_m != arc->length_m) {
		double angle = arc->dogleg_rad * (s_m / arc->length_m);
		at = offset_at(arc, s_m, angle);
		towards = turned(arc, angle);
	}
	if (offset != NULL)
		*offset = at;
	if (heading != NULL)
		*heading = towards;
}
