/* The course between two readings where it is known with what each stretch of it was drilled: the path
 * through slides and rotations.
 *
 * The minimum curvature arc spreads what a course turned evenly over its length. A slide early in a joint
 * bends the hole early, and everything after it lies further over; made joint after joint, that is a shift
 * which grows along the bore. Here each stretch turns as it is expected to, and what the two readings say
 * besides is added evenly: the course begins and ends exactly at both.
 *
 * Why evenly: of all curvatures that lead from the one attitude to the other, the expected one plus a
 * constant is the nearest to what was expected, by the mean square along the hole. (Least of the integral of
 * |k - expected|^2 where the integral of k is given: the multiplier is the difference, and it is one
 * constant. To the first order in what the course turns; a joint turns a few hundredths of a radian.) With
 * nothing expected it is the arc. Source: derived here.
 */
#ifndef SB_GEOM_COURSE_H
#define SB_GEOM_COURSE_H

#include "geom/arc.h"

#include <stddef.h>

/* A stretch that is expected to turn evenly: rad per m towards the high side and to the right of it, seen
 * looking ahead, both as they lie where the bit is just then. */
struct course_stretch {
	double length_m; /* >= 0 */
	double up, right;
};

enum course_status {
	COURSE_OK = 0,
	COURSE_EVEN = 1, /* no stretch is expected to turn otherwise than another: it is the arc */
	COURSE_WILD = 2, /* the arc was taken: it turns, or was expected to turn, more than SB_COURSE_MOST, or
			    begins or ends so upright that there is no high side to speak of */
	COURSE_RANGE = -1, /* what sb_arc_between refuses, or a stretch that is not a number */
};

/* rad: no string turns so far in a course; then something else is wrong, and slides do not explain it. */
#define SB_COURSE_MOST 0.5
/* Sine of the inclination, from straight up or down: three degrees. */
#define SB_COURSE_UPRIGHT 0.05

struct course {
	double length_m;
	double up, right;  /* what was added, rad per m, in axes that start as high side and right and turn
			      only as  the hole itself does */
	struct vec3 step;  /* from start to end */
	struct vec3 shift; /* step less the arc's: where the end lies beside the one of minimum curvature */
	struct vec3 end;   /* heading */
};

/* Purpose:  the course through its stretches between two attitudes.
 * Given:    from, to     attitudes
 *           length_m     of the course, > 0; the stretches are fitted to it in proportion
 *           stretch[count]   in the order drilled, of some length together; count 0: nothing is known
 * Returned: out          the course; unchanged on COURSE_RANGE. Status other than COURSE_OK: the step is the
 *                        arc's to the last bit, and the shift is 0
 * Notes:    each stretch is an arc of a circle, exact while it turns in one plane; a tool face follows the
 * high side, which itself turns about a sloping hole that turns sideways, so such a stretch is laid in pieces
 * (error under 1e-9 of the length). Straight up and down there is no high side: the axes are carried over. A
 * slide of length l at the start of a course of length L that turns b in all, rotated straight after it,
 * shifts the end by b (L - l) / 2 towards its tool face; in the middle by nothing; at the end by as much the
 * other way. */
enum course_status sb_course_between(const struct attitude *from, const struct attitude *to, double length_m,
	const struct course_stretch *stretch, size_t count, struct course *out);

/* A point of a course that was COURSE_OK, s_m from its start, 0..length_m: offset from the start, heading.
 * At length_m it is the end to the last bit. Either pointer may be NULL. */
void sb_course_at(const struct attitude *from, const struct course *course,
	const struct course_stretch *stretch, size_t count, double s_m, struct vec3 *offset,
	struct vec3 *heading);

#endif
