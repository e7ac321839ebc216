/* The course between two readings: an arc of a circle in space, the minimum curvature method.
 *
 * Source: Taylor and Mason, "A Systematic Approach to Well Surveying Calculations", SPE 3362 (1972);
 * Zaremba, "Directional Survey by the Circular Arc Method", SPE 3664 (1973).
 */
#ifndef SB_GEOM_ARC_H
#define SB_GEOM_ARC_H

#include "geom/vec3.h"

enum arc_status {
	ARC_OK = 0,
	ARC_AMBIGUOUS = 1, /* done, but the course turns right back: its plane was chosen, not known */
	ARC_RANGE = -1,	   /* an angle, the length or a fraction is out of range or not a number */
};

/* A direction with the sines and cosines that every course from it needs, taken once. */
struct attitude {
	double inc_rad, azi_rad;
	double sin_inc, cos_inc;
	struct vec3 heading;
};

struct arc {
	double length_m;	/* along the hole */
	double dogleg_rad;	/* 0..pi */
	struct vec3 step;	/* from start to end */
	struct vec3 start, end; /* unit headings */
};

/* Given:    inc_rad 0..pi, azi_rad any
 * Returned: the attitude. */
struct attitude sb_attitude(double inc_rad, double azi_rad);

/* The angle between two attitudes.
 * Note: beta = 2 atan2(s, c) with s^2 = sin^2(di/2) + sin i1 sin i2 sin^2(da/2) and
 *       c^2 = cos^2((i1+i2)/2) + sin i1 sin i2 cos^2(da/2): sums of squares, so exact from 1e-12 rad to
 *       exactly pi; straight up and down need no azimuth. */
double sb_arc_dogleg(const struct attitude *from, const struct attitude *to);

/* Purpose:  the arc between two attitudes a given length apart.
 * Given:    from, to   attitudes; length_m >= 0 along the hole (0 gives a step of 0)
 * Returned: out        the arc; unchanged on ARC_RANGE
 * Status:   ARC_OK, ARC_AMBIGUOUS, ARC_RANGE
 * Notes:    step = L/2 (t1 + t2) RF, RF = tan(b/2)/(b/2), by series below 0.02 rad (error < 1e-16);
 *           beyond 90 degrees as chord times unit bisector, so that it stays finite up to pi. At a
 *           dogleg within 1e-12 of pi the plane is unknown: the turn is taken through straight up (through
 *           north for a vertical start) and ARC_AMBIGUOUS says so.
 * Source:   as at the head of this file. */
enum arc_status sb_arc_between(
	const struct attitude *from, const struct attitude *to, double length_m, struct arc *out);

/* A point on the arc, s_m from its start: its offset from the start and its heading. s_m beyond the
 * length goes on along the same circle; negative goes back. At s_m = length_m it is the end to the last bit.
 * An arc of no length has no circle: on along its end heading, back along its start's. Either pointer may
 * be NULL. */
void sb_arc_at(const struct arc *arc, double s_m, struct vec3 *offset, struct vec3 *heading);

#endif
