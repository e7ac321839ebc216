/* The smallest distance from a curve in space to a straight stretch: pieces of the curve are halved until
 * none could be nearer than what was found. */
#include "geom/clear.h"

#include <assert.h>
#include <math.h>

/* Halving more often than this goes below the digits of a place. */
#define HALVINGS 40

static struct vec3 between(struct vec3 a, struct vec3 b, double share)
{
	return sb_vec3_add(a, sb_vec3_scale(sb_vec3_sub(b, a), share));
}

static double share_of(double value)
{
	return fmin(fmax(value, 0), 1);
}

/* The place on a-b that is nearest to a point. */
static struct vec3 foot(struct vec3 a, struct vec3 b, struct vec3 point)
{
	struct vec3 along = sb_vec3_sub(b, a);
	double square = sb_vec3_dot(along, along);

	if (!(square > 0))
		return a;
	return between(a, b, share_of(sb_vec3_dot(sb_vec3_sub(point, a), along) / square));
}

struct pair {
	struct vec3 first, second;
	double distance;
};

static void keep_nearer(struct pair *best, struct vec3 first, struct vec3 second)
{
	double distance = sb_vec3_length(sb_vec3_sub(first, second));

	if (distance < best->distance)
		*best = (struct pair){ first, second, distance };
}

/* Where both shares are free: the common normal of the two straight lines, if it meets both stretches. */
static void try_inside(struct vec3 a, struct vec3 b, struct vec3 c, struct vec3 d, struct pair *best)
{
	struct vec3 u = sb_vec3_sub(b, a), v = sb_vec3_sub(d, c), w = sb_vec3_sub(a, c);
	double uu = sb_vec3_dot(u, u), vv = sb_vec3_dot(v, v), uv = sb_vec3_dot(u, v);
	double uw = sb_vec3_dot(u, w), vw = sb_vec3_dot(v, w), det = uu * vv - uv * uv;

	/* Nearly parallel: an end is as near, to rounding. */
	if (!(det > 1e-14 * uu * vv))
		return;
	double s = (uv * vw - vv * uw) / det, t = (uu * vw - uv * uw) / det;
	if (s > 0 && s < 1 && t > 0 && t < 1)
		keep_nearer(best, between(a, b, s), between(c, d, t));
}

double sb_clear_straight(
	struct vec3 a, struct vec3 b, struct vec3 c, struct vec3 d, struct vec3 *first, struct vec3 *second)
{
	struct pair best = { a, c, HUGE_VAL };

	keep_nearer(&best, a, foot(c, d, a));
	keep_nearer(&best, b, foot(c, d, b));
	keep_nearer(&best, foot(a, b, c), c);
	keep_nearer(&best, foot(a, b, d), d);
	try_inside(a, b, c, d, &best);
	if (first)
		*first = best.first;
	if (second)
		*second = best.second;
	return best.distance;
}

/* ---- curves ---- */

struct search {
	const struct clear_curve *curve;
	struct vec3 a, b;
	double tolerance;
	struct clear_nearest best;
};

static void look(struct search *s, double s_m, struct vec3 at)
{
	struct vec3 on_line = foot(s->a, s->b, at);
	double distance = sb_vec3_length(sb_vec3_sub(at, on_line));

	if (distance < s->best.distance_m)
		s->best = (struct clear_nearest){ distance, s_m, at, on_line };
}

/* How far a piece of that length may lie from the chord between its ends. */
static double sway(double length, struct vec3 from, struct vec3 to)
{
	struct vec3 chord = sb_vec3_sub(to, from);

	return sqrt(fmax(length * length - sb_vec3_dot(chord, chord), 0)) / 2;
}

/* A piece of the curve; its ends were looked at. */
struct piece {
	double s0, s1;
	struct vec3 from, to;
	int halvings;
};

static bool may_be_nearer(const struct search *s, const struct piece *p)
{
	struct vec3 on_chord;
	double chord = sb_clear_straight(p->from, p->to, s->a, s->b, &on_chord, NULL);
	double most = sway((p->s1 - p->s0) * s->curve->stretch, p->from, p->to);

	return chord - most <= s->best.distance_m - s->tolerance && p->halvings < HALVINGS;
}

/* Depth first: of each length at most one piece waits. */
static void search_pieces(struct search *s, struct piece whole)
{
	struct piece waiting[HALVINGS + 2];
	size_t count = 0;

	waiting[count++] = whole;
	while (count > 0) {
		struct piece p = waiting[--count];
		if (!may_be_nearer(s, &p))
			continue;
		double middle = p.s0 + (p.s1 - p.s0) / 2;
		struct vec3 at = s->curve->at(s->curve->data, middle);
		look(s, middle, at);
		waiting[count++] = (struct piece){ middle, p.s1, at, p.to, p.halvings + 1 };
		waiting[count++] = (struct piece){ p.s0, middle, p.from, at, p.halvings + 1 };
	}
}

bool sb_clear_curve(const struct clear_curve *curve, struct vec3 a, struct vec3 b, double within_m,
	double tolerance_m, struct clear_nearest *out)
{
	struct search s = { curve, a, b, tolerance_m, { .distance_m = within_m } };
	struct vec3 from = curve->at(curve->data, 0), to = curve->at(curve->data, curve->length_m);

	assert(tolerance_m > 0);
	look(&s, 0, from);
	look(&s, curve->length_m, to);
	search_pieces(&s, (struct piece){ 0, curve->length_m, from, to, 0 });
	if (!(s.best.distance_m < within_m))
		return false;
	*out = s.best;
	return true;
}
