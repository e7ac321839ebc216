/* How near a hole comes to something in the ground: the smallest distance from a curve in space to a straight
 * stretch of a line or to a point, and the chance that the true distance is less than what is to be kept.
 */
#ifndef SB_GEOM_CLEAR_H
#define SB_GEOM_CLEAR_H

#include "geom/uncert.h"
#include "geom/vec3.h"

#include <stdbool.h>
#include <stddef.h>

/* Purpose:  the smallest distance between two straight stretches a-b and c-d; either may be a point.
 * Returned: the distance (m); first, second  the places where it is (may be NULL)
 * Notes:    exact: the square of the distance is convex over the two shares along them, so it is least at its
 *           stationary point or with one share at an end. Parallel ones have many nearest places: one is
 *           given.
 * Source:   derived. */
double sb_clear_straight(
	struct vec3 a, struct vec3 b, struct vec3 c, struct vec3 d, struct vec3 *first, struct vec3 *second);

/* A curve by its places, s_m from its start: 0..length_m. Along it a step of ds moves no further than
 * stretch ds. */
struct clear_curve {
	struct vec3 (*at)(const void *data, double s_m);
	const void *data;
	double length_m, stretch;
};

struct clear_nearest {
	double distance_m;
	double s_m; /* where on the curve */
	struct vec3 on_curve, on_line;
};

/* Purpose:  the smallest distance from a curve to the straight stretch a-b (a point: b = a).
 * Given:    within_m      only what is nearer than this is looked for; HUGE_VAL: anything
 *           tolerance_m   > 0; 1e-6 is as fine as the places are
 * Returned: true and out: a distance that is there, at most tolerance_m above the least. False, and out
 *           unchanged: the curve comes no nearer than within_m.
 * Notes:    halves the curve where the least could still be. A piece of length l between ends c apart lies
 *           within sqrt(l^2 - c^2)/2 of its chord, whatever its shape (the ellipse of a string with its ends
 *           fixed); for an arc that falls with the square of l. Nothing is assumed of the curve's bend.
 * Source:   derived. */
bool sb_clear_curve(const struct clear_curve *curve, struct vec3 a, struct vec3 b, double within_m,
	double tolerance_m, struct clear_nearest *out);

/* A straight stretch of something, and how far the hole's centre line must keep from its own. */
struct clear_stretch {
	struct vec3 a, b;
	double keep_m; /* > 0 */
};

/* Purpose:  the chance that a straight stretch of hole is nearer to any of the stretches than it must be.
 * Given:    at, heading    a place on the hole and its direction (unit)
 *           before_m, after_m   how far the hole reaches back and on from there, >= 0
 *           covariance     of the hole's place, m^2
 *           stretches      of one thing; those that are not beside this stretch of hole are left out
 * Returned: 0..1
 * Notes:    seen along the hole everything beside it is a shape in a plane and the hole a spread around a
 *           point: the share of that spread that is nearer than keep_m to any of them. Along the axis where
 *           the spread is wide in closed form, across it by quadrature; right to 1e-4. Only the hole errs.
 *           CLEAR_MOST stretches count each for itself, what is beyond them as one with the last: never less
 *           than it is.
 * Source:   derived. */
#define CLEAR_MOST 32
double sb_clear_chance(struct vec3 at, struct vec3 heading, double before_m, double after_m,
	const struct sym3 *covariance, const struct clear_stretch *stretches, size_t count);

#endif
