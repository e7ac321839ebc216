/* The line that a pipe takes through a hole that was surveyed joint by joint: the fewest straight and evenly
 * curved runs that keep within the room that the hole leaves beside the pipe.
 *
 * A hole's readings waver from joint to joint, by noise and by steering; a pipe that is stiffer and thinner
 * than the hole does not. Taken joint by joint, every waver would bend it. So the hole is cut into runs, each
 * with one curvature, at whose ends the curvature may change: as few as do, and among as few the closest.
 */
#ifndef SB_GEOM_RUNS_H
#define SB_GEOM_RUNS_H

#include "geom/vec3.h"

#include <stddef.h>

/* A point of the hole's centre line, and what the search keeps of it. */
struct run_point {
	double s_m; /* along the hole, growing */
	struct vec3 at;
	/* of the search */
	size_t runs, from;
	double squares;
};

struct run {
	size_t first, last; /* points */
	struct vec3 bend;   /* curvature: towards the inside, 1/m; square to the chord */
	double off_m;	    /* root mean square distance of its points from it */
};

enum runs_status {
	RUNS_OK = 0,
	RUNS_RANGE = -1, /* fewer than two points, a room that is not positive, s_m that does not grow, or a
			    number that is not finite */
};

/* Given:    points[count]   in order; room_m   root mean square distance allowed within a run, > 0
 *           runs            room for count - 1
 * Returned: made            how many runs; runs and made unchanged unless RUNS_OK
 * Notes:    each run is fitted by least squares, weighted by length, with one curvature along it;
 *           distances are square to its chord. Two or three points are met exactly. The search is a
 *           shortest path over all cuts: O(points x points in the longest run). A run that is out by twice
 *           the room is not tried any longer.
 * Source:   derived here. */
enum runs_status sb_runs_find(
	struct run_point *points, size_t count, double room_m, struct run *runs, size_t *made);

#endif
