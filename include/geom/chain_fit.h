/* The tangents and circular curves behind points of a line: the other way about from geom/chain.h, for
 * drawings that give stations at close intervals and not the points of intersection.
 *
 * The fewest tangents and curves that pass every point within a distance are looked for first, then all of
 * them together are moved to where the sum of the squared distances is least. What a drawing rounds away
 * cannot come back: a curve flatter than the rounding is a straight here, and one that lies between two
 * points is a corner.
 */
#ifndef SB_GEOM_CHAIN_FIT_H
#define SB_GEOM_CHAIN_FIT_H

#include "geom/chain.h"

#include <stdbool.h>
#include <stddef.h>

#define CHAIN_FIT_PIS 16 /* points of intersection, both ends among them */

enum fit_status {
	FIT_OK = 0,
	FIT_FEW = -1,  /* fewer than three points */
	FIT_SAME = -2, /* point `worst_at` is where the one before it is, or (heights) does not lie past it */
	FIT_RANGE = -3, /* point `worst_at` has a coordinate that is not finite */
	FIT_MANY = -4,	/* more than CHAIN_FIT_PIS are needed: these are no tangents and curves */
	FIT_OFF = -5,	/* point `worst_at` lies further off than `within`, by `worst` */
};

struct chain_fit {
	struct chain_pi pis[CHAIN_FIT_PIS];
	double radius_sigma[CHAIN_FIT_PIS]; /* one sigma of each radius, from what the points scatter; 0 held
					     */
	bool held[CHAIN_FIT_PIS];	    /* the radius is to stay as it is */
	size_t count;
	double worst, rms; /* distances of points from the line, unit of length */
	size_t worst_at;
};

/* Room for one point while tangents and curves are told apart. */
struct fit_room {
	size_t line_end, arc_end; /* the last point that one tangent, one curve reaches from here */
	size_t cost, from;	  /* of the best way here, and where its last piece began */
	bool by_arc;
};

/* Purpose:  points of intersection and radii from points of the line, in order.
 * Given:    x, y, n   the points, in one unit of length
 *           heights   y is a height over x: the ends of the line are straight above or below the first and
 *                     last point, and x has to grow; else they are at the feet of the squares to them
 *           within    how far a point may lie from the line
 *           room      n of them
 * Returned: out       FIT_OK: all of it. FIT_OFF: the best line that was found, if count is not 0. Otherwise
 *                     worst_at and worst where the status says so
 * Notes:    O(n^2) in the number of points at worst; a few thousand take a second. Curves turn less than
 *           half a turn. */
enum fit_status sb_chain_fit(const double *x, const double *y, size_t n, bool heights, double within,
	struct fit_room *room, struct chain_fit *out);

/* Moves a line that is near to the points to where it fits them best; radii that are held stay. The line has
 * to be one that sb_chain_build lays. FIT_OK or FIT_OFF. */
enum fit_status sb_chain_refit(
	const double *x, const double *y, size_t n, bool heights, double within, struct chain_fit *fit);

/* Takes radii back where two curves overlap, both by the same share, until their tangents just meet: for
 * curves that abut on a drawing and overlap by its rounding. Returns the largest share taken, 0 for none. */
double sb_chain_ease(struct chain_pi *pis, size_t count);

#endif
