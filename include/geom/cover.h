/* How much ground lies above a hole: the smallest cover between the top of the hole and a ground line that is
 * drawn by straight pieces.
 */
#ifndef SB_GEOM_COVER_H
#define SB_GEOM_COVER_H

#include <stdbool.h>
#include <stddef.h>

/* The ground line by its points, x growing from each to the next. Before the first and past the last it is
 * not known. */
struct cover_ground {
	const struct cover_point {
		double x_m, y_m; /* station, elevation */
	} * points;
	size_t count;
};

/* The elevation of the ground at x; false where it is not known. slope may be NULL: that of the piece there
 * (at a point where two meet: of the one that follows; at the last point of the one before). */
bool sb_cover_ground(const struct cover_ground *g, double x_m, double *y_m, double *slope);

/* The top of a hole, s_m from the start of it: 0..length_m. */
struct cover_hole {
	void (*at)(const void *data, double s_m, double *x_m, double *top_m);
	const void *data;
	double length_m;
	double bend; /* neither x nor top turns more than this along it: most of |second derivative|, 1/m */
};

enum cover_known {
	COVER_KNOWN = 0, /* all along the hole */
	COVER_PART = 1,	 /* along a part of it only: the least is of that part */
	COVER_NONE = 2,	 /* nowhere, or nowhere less than within_m */
};

struct cover_least {
	double cover_m; /* negative: the hole is above the ground */
	double s_m, x_m;
	double slope; /* of the ground there */
};

/* Purpose:  where the cover over a hole is least, at its ends or between.
 * Given:    within_m      only what is less than this is looked for; HUGE_VAL: whatever it is
 *           tolerance_m   > 0
 * Returned: out   a cover that is there, at most tolerance_m above the least; unchanged on COVER_NONE
 * Notes:    halves the hole where the least could still be. Over a piece of length l both x and top lie
 *           within bend l^2/8 of going evenly from end to end; against that the ground's own corners are
 *           looked at one by one, so the least under a corner of the river bed is found as well as that of a
 *           bend.
 * Source:   derived. */
enum cover_known sb_cover_least(const struct cover_ground *g, const struct cover_hole *hole, double within_m,
	double tolerance_m, struct cover_least *out);

#endif
