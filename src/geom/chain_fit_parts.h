/* Between the files of the fit: points cut into pieces that are straight or bent evenly. */
#ifndef SB_SRC_GEOM_CHAIN_FIT_PARTS_H
#define SB_SRC_GEOM_CHAIN_FIT_PARTS_H

#include "geom/chain_fit.h"

struct fit_points {
	const double *x, *y;
	size_t n;
};

/* One tangent or curve as the points alone show it. */
struct fit_piece {
	size_t from, to; /* first and last point; neighbours share one, or lie next to one another */
	bool arc;
	double curvature;	     /* positive when the bearing grows; 0 of a tangent */
	double off;		     /* the largest distance of its points from it */
	double x[2], y[2];	     /* a place on it at its beginning and its end */
	double bearing_x, bearing_y; /* the way it goes at its beginning, a unit vector */
	double end_x, end_y;	     /* and at its end */
};

/* Cuts the points into the cheapest row of pieces that all lie within a distance of their points: a tangent
 * costs less than a curve. Returns how many; 0 when there are none (every point is a corner) or more than
 * CHAIN_FIT_PIECES. */
#define CHAIN_FIT_PIECES ((size_t)4 * CHAIN_FIT_PIS)
size_t sb_fit_split(const struct fit_points *p, double within, struct fit_room *room,
	struct fit_piece pieces[CHAIN_FIT_PIECES]);

#endif
