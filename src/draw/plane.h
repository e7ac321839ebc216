/* The plane of a picture: how places in the ground, and places beside the design line, fall into it. Every
 * stroke of a profile or plan goes through here, so that they cannot disagree.
 */
#ifndef SB_DRAW_PLANE_H
#define SB_DRAW_PLANE_H

#include "draw/scene.h"
#include "draw/window.h"
#include "model/solve.h"

enum plane_kind {
	PLANE_ELEVATION, /* x station, y elevation */
	PLANE_HEIGHT,	 /* x station, y height against the design */
	PLANE_ALONG,	 /* x station, y offset, left upwards: the line seen from above, rig on the left */
	PLANE_MAP,	 /* x east, y north, from the entry */
};

struct plane {
	enum plane_kind kind;
	const struct job *job;
	const struct solution *s;
	struct draw_window window; /* sound */
	struct scene *scene;
};

/* A place beside the design line: offset right positive, height against the design high positive. */
struct spot sb_plane_beside(const struct plane *p, double station_m, double offset_m, double height_m);

/* A row's own place: its deviation is known already. */
struct spot sb_plane_row(const struct plane *p, const struct row *row);
struct spot sb_plane_bit(const struct plane *p, const struct bit *bit);

/* One sigma of a place in the direction that the plane shows beside the line, m; and the spot so many of them
 * off it, right or high positive. */
double sb_plane_sigma(const struct plane *p, const struct doubt *d);
struct spot sb_plane_off(
	const struct plane *p, struct spot at, double station_m, const struct doubt *d, double factor);

/* Any place in the ground. station_m: where to look first, and where it was found. */
struct spot sb_plane_ground(const struct plane *p, struct vec3 at, double *station_m);

/* Offset of a place; station as above. */
double sb_plane_offset(const struct plane *p, struct vec3 at, double *station_m);

/* Whether a station is in the window, or within a tenth of it. */
bool sb_plane_near(const struct plane *p, double station_m);

#endif
