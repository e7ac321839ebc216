/* A line in a plane made of tangents and circular curves, given by points of intersection (PI) as
 * drawings give them. One construction serves both the horizontal alignment (x north, y east) and the
 * vertical profile (x station, y elevation).
 *
 * The words: a curve of radius R at a PI begins at the PC and ends at the PT, each R tan(delta/2) from
 * the PI. Source: route surveying, e.g. US Army TM 3-34.55, chapter 3 (circular curves).
 */
#ifndef SB_GEOM_CHAIN_H
#define SB_GEOM_CHAIN_H

#include <stddef.h>

struct chain_pi {
	double x, y;
	double radius; /* 0: no curve, the line breaks here */
};

/* A straight piece (curvature 0) or an arc. */
struct chain_part {
	double at; /* distance along the line where it starts */
	double length;
	double x, y;	  /* start point */
	double bearing;	  /* at the start: angle from +x towards +y, radians */
	double curvature; /* 1/R, positive when the bearing grows; 0 straight */
	double cos_bearing, sin_bearing;
};

enum chain_status {
	CHAIN_OK = 0,
	CHAIN_BREAKS = 1,    /* done; the line has a corner at pi `where` (the sharpest; `by` radians) */
	CHAIN_FEW = -1,	     /* fewer than two points */
	CHAIN_SAME = -2,     /* pi `where` and the next are the same point */
	CHAIN_OVERLAP = -3,  /* the curve at pi `where` does not fit: `by` is how much tangent is missing
			      * towards the next PI, or the one before */
	CHAIN_REVERSED = -4, /* the line turns right back at pi `where` */
	CHAIN_RANGE = -5,    /* a coordinate or radius that is not finite, or a negative radius */
	CHAIN_STEEP = -6,    /* profiles: x does not grow from pi `where` on; for callers, which know a
			      * profile from an alignment: sb_chain_build does not */
};

/* Given:    pis, count    points in order; radius of the first and last is ignored
 *           parts         room for 2 count - 1 parts
 * Returned: made          how many parts; straight parts of no length are left out (curves that abut)
 *           where, by     what the status speaks of; may be NULL
 * Note:     overlap up to 1e-6 of the tangents (or 1e-6 m) counts as abutting: the curves give up that
 *           share of their radii. Points within 1e-9 m are the same; a turn below 1e-9 rad is no corner
 *           and makes no curve. */
enum chain_status sb_chain_build(const struct chain_pi *pis, size_t count, struct chain_part *parts,
	size_t *made, size_t *where, double *by);

/* All below need at least one part.
 *
 * The place at a distance along the line; before the start and past the end, on the end's tangent. */
struct chain_place {
	double x, y;
	double bearing;	  /* radians, in (-pi, pi] */
	double curvature; /* at a joint of parts: of the part that begins there */
	double cos_bearing, sin_bearing;
};
struct chain_place sb_chain_at(const struct chain_part *parts, size_t count, double at);
double sb_chain_length(const struct chain_part *parts, size_t count);

/* Purpose:  the foot of the square from a point to the line: distance along, and offset.
 * Given:    x, y     the point
 *           near     where along the line to prefer when two feet are equally near (within 1e-9 of the
 *                    distance): the one closest to it along the line; pass the last one's `at`
 * Returned: at       along the line; below 0 or past the length when the foot is on the end's tangent
 *           offset   distance, positive on the side of growing bearing (to the right, if x is north and
 *                    y is east)
 *           returns 1 when two feet were equally near (doubtful), else 0. */
int sb_chain_project(const struct chain_part *parts, size_t count, double x, double y, double near,
	double *at, double *offset);

/* For a profile (x grows along it): the height and slope at x. Before and past the ends: the tangent.
 * slope is dy/dx, curvature is that of the arc (positive: turning upwards). */
struct chain_height {
	double y, slope, curvature;
};
struct chain_height sb_chain_height(const struct chain_part *parts, size_t count, double x);

#endif
