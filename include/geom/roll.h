/* The roll test: a tool turned in place shows what is wrong with its sensors. Whatever the hole's direction,
 * the true components square to it run round a circle about nothing; where the readings' circle has its
 * centre, there is the bias of x and y; where it is no circle, their scales differ; and what of the turning
 * shows on z is z leaning.
 *
 *     x = bias_x + X      y = bias_y + ratio Y      z = along + lean_x X + lean_y Y,     X^2 + Y^2 = radius^2
 *
 * X and Y are true components along the tool's axes, their roll is unknown, and each reading has its own.
 * Gravity and field are fitted each for itself, so that trouble of the one cannot hide in the other.
 *
 * What it cannot see: bias and scale of z, the scale of x and y together, and a shift of the mark: none of
 * them changes with roll. If not z alone but the whole set leans in its barrel, x and y are shifted by about
 * -lean_x along and -lean_y along as well, which one direction of the hole cannot tell from bias; read with
 * the tool level and across the field, where `along` is small, it is bias.
 */
#ifndef SB_GEOM_ROLL_H
#define SB_GEOM_ROLL_H

#include "geom/sensor.h"

#include <stddef.h>

#define ROLL_LEAST 4 /* readings: three make any circle, the fourth shows whether it is one */

enum roll_sensor { ROLL_GRAVITY, ROLL_FIELD };

/* What was found, in the unit of the readings; leans in radians (small), positive towards +x and +y. */
struct roll_values {
	double bias_x, bias_y, radius, ratio, along, lean_x, lean_y;
};

struct roll_fit {
	struct roll_values found, sigma; /* sigma: one standard deviation of each */
	bool ratio_seen;		 /* false: too few rolls to tell; ratio is 1, its sigma 0 */
	double noise, noise_along;	 /* from what is left over: square to the circle, and of z */
	size_t worst;			 /* the reading that is farthest off its circle */
	double worst_off;		 /* by how much, outwards positive */
};

enum roll_status {
	ROLL_OK = 0,
	ROLL_FEW = -1,	 /* fewer than ROLL_LEAST readings */
	ROLL_STEEP = -2, /* the tool lies within 3 degrees of plumb: gravity does not show its roll */
	ROLL_GAP = -3,	 /* the rolls leave a gap wider than ROLL_GAP_MOST */
	ROLL_FLAT = -4,	 /* no circle to be seen: this vector lies along the hole, or a sensor is dead */
	ROLL_STUCK = -5, /* readings that no circle comes near: the tool was not turned in place */
	ROLL_RANGE = -6, /* a component that is not finite, or a sigma that is negative */
};

/* Three eighths of a turn: as many readings spread over what it leaves know the bias by one and a half times
 * the sigma of an even spread (derived: tests/geom/roll_test.c); beyond, bias and radius soon hide in one
 * another. Our choice, no source. */
#define ROLL_GAP_MOST 2.3561944901923449

/* The widest turn without a reading, and its middle as a tool face: where one more is wanted. */
struct roll_gap {
	double width_rad, middle_rad;
};

/* Purpose:  finds bias, scale ratio and lean from readings turned in place.
 * Given:    readings, count   in our axes, in any order of roll
 *           sensor            which of the two vectors
 *           sigma             noise of one component, or 0: it is taken from what is left over
 * Returned: out               unchanged unless ROLL_OK
 *           gap               set for ROLL_OK and ROLL_GAP; may be NULL
 * Status:   any
 * Notes:    least squares of the distances square to the circle, which is the most likely circle for equal
 *           noise of x and y (Gauss and Newton, from the circle through all points that is linear least
 *           squares); then linear least squares for z. For n readings spread evenly the sigmas are, to first
 *           order, noise times sqrt(2/n) for a bias, sqrt(2/n)/radius for a lean, sqrt(8/n)/radius for the
 *           ratio (derived).
 * Source:   the method of least squares alone. */
enum roll_status sb_roll_fit(const struct sensor_vectors *readings, size_t count, enum roll_sensor sensor,
	double sigma, struct roll_fit *out, struct roll_gap *gap);

/* A vector freed from what was found (x is taken to have the right scale). */
struct triad sb_roll_correct(const struct roll_values *found, struct triad t);

#endif
