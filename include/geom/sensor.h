/* Three accelerometers and three magnetometers in one tool: from their six readings to the attitude of the
 * hole, and back; and what noise of the six makes of it.
 *
 * Frame and sign: geom/axes.h. z ahead along the hole, x at the tool's mark, y completes the right hand;
 * gravity points down, field as the magnetic field does (to the north, and on the northern half of the earth
 * down). Both in any unit.
 *
 * Seen from behind, looking ahead, hole level:
 *
 *            high side                 gravity x = -g sin(inc) cos(face)
 *                |   x (mark)          gravity y =  g sin(inc) sin(face)
 *                | /                   gravity z =  g cos(inc)
 *                |/  face, clockwise
 *                +------ right         field high side = F (cos dip cos inc cos azi - sin dip sin inc)
 *                 \                    field right     = -F cos dip sin azi
 *                  \ y                 field ahead     = F (cos dip sin inc cos azi + sin dip cos inc)
 *
 * Azimuth here is always magnetic. Source of the relations: Williamson, "Accuracy Prediction for Directional
 * Measurement While Drilling", SPE 67616 (2000), appendix; that paper's axes are `y -x z` in ours.
 */
#ifndef SB_GEOM_SENSOR_H
#define SB_GEOM_SENSOR_H

#include "geom/axes.h"

#include <stdbool.h>

struct sensor_vectors {
	struct triad gravity, field;
};

struct sensor_attitude {
	double inc_rad;		  /* 0 straight down .. pi straight up */
	double azi_rad;		  /* of the hole from magnetic north, clockwise, [0, 2 pi) */
	double face_rad;	  /* of the mark from the high side, clockwise looking ahead, [0, 2 pi) */
	double magnetic_face_rad; /* of the mark from the field square to the hole, likewise: in a hole
				   * straight down the mark's own magnetic azimuth */
	double gravity, field;	  /* totals, in the unit of the vectors */
	double dip_rad;		  /* of the field below level, -pi/2..pi/2 */
	/* False: cannot be told from these vectors, and is 0. */
	bool azi_known, face_known, magnetic_face_known;
};

enum sensor_status {
	SENSOR_OK = 0,
	SENSOR_PLUMB =
		1, /* done, but the hole is straight up or down: no azimuth, no tool face from gravity */
	SENSOR_POLAR = 2,	/* done, but the field is straight up or down: no azimuth */
	SENSOR_ALONG = 3,	/* done, but the field lies along the hole: no magnetic tool face */
	SENSOR_NO_GRAVITY = -1, /* gravity of no length */
	SENSOR_NO_FIELD = -2,	/* field of no length */
	SENSOR_RANGE = -3,	/* a component that is not a finite number; a length, inclination or dip out
				 * of range */
};

/* A tool's vectors in our axes. */
struct sensor_vectors sb_sensor_turn(const struct sensor_axes *axes, const struct sensor_vectors *tool);

/* Purpose:  attitude, tool faces, totals and dip from the six components.
 * Given:    v     vectors in our axes
 * Returned: out   unchanged when the status is negative
 * Status:   any; where several of the positive ones hold, the first
 * Notes:    all angles by atan2 of the components, so exact at any roll and inclination. A direction within
 *           1e-12 rad of another counts as lying on it. Real sensors stop telling long before: near plumb the
 *           azimuth's noise grows as 1/sin(inc), which sb_sensor_sigmas says.
 * Source:   as at the head of this file. */
enum sensor_status sb_sensor_attitude(const struct sensor_vectors *v, struct sensor_attitude *out);

/* Purpose:  the six components that a perfect tool shows.
 * Given:    a     inclination 0..pi, azimuth, tool face, gravity and field > 0, dip -pi/2..pi/2; the rest of
 *                 it plays no part
 * Returned: out   unchanged on failure
 * Status:   SENSOR_OK, SENSOR_NO_GRAVITY, SENSOR_NO_FIELD, SENSOR_RANGE. */
enum sensor_status sb_sensor_vectors(const struct sensor_attitude *a, struct sensor_vectors *out);

/* How much each angle moves for a component: radians per unit of gravity, and per unit of field. */
struct sensor_slopes {
	struct sensor_vectors inc, azi, face, dip;
};

/* Given:    v     as above
 * Returned: out   unchanged unless SENSOR_OK or SENSOR_ALONG (no slope is infinite there)
 * Status:   as sb_sensor_attitude.
 * Note:     the azimuth's slope to the field along the hole is -sin(inc) sin(azi) / (F cos dip): greatest on
 *           a level bore to magnetic east or west, where the string's own steel does most harm. */
enum sensor_status sb_sensor_slopes(const struct sensor_vectors *v, struct sensor_slopes *out);

/* One sigma of each angle, from one of each component, all independent; first order. */
struct sensor_sigmas {
	double inc_rad, azi_rad, face_rad, dip_rad;
};
enum sensor_status sb_sensor_sigmas(
	const struct sensor_vectors *v, const struct sensor_vectors *sigma, struct sensor_sigmas *out);

#endif
