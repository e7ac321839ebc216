/* Map projections: from the job's grid coordinates to latitude and longitude and back, and how the grid lies
 * there: its north against true north, its lengths against those on the ground.
 *
 * The one door to PROJ. It never uses the network, and says itself what PROJ would pass over: a system whose
 * axes are not east and north, a point far outside the area that a system is made for, a shift between datums
 * that is good to metres only. A local grid, "local", is a system too, one that has no geography; it needs no
 * table of systems (proj.db) at all.
 */
#ifndef SB_BASE_CRS_H
#define SB_BASE_CRS_H

#include "base/err.h"
#include "base/str.h"
#include "base/unit.h"

#include <stdbool.h>

struct sb_crs;

#define SB_CRS_TEXT 128

/* What a system says of itself. Names are PROJ's own, tamed for a terminal. */
struct crs_about {
	char code[16];		 /* "EPSG:2278", "local" */
	char name[SB_CRS_TEXT];	 /* "NAD83 / Texas South Central (ftUS)"; "" of a local one */
	char datum[SB_CRS_TEXT]; /* "North American Datum 1983" */
	enum unit unit;		 /* of easting and northing; of a local one metres */
	char area[SB_CRS_TEXT];	 /* in words; "" where the table does not say */
	bool bounded;		 /* the four edges are known, in degrees; west > east across 180 degrees */
	double west, south, east, north;
	bool withdrawn; /* its keepers advise against further use */
	char table[48]; /* version of the table of systems: "EPSG v10.076" */
};

/* Degrees are for people; east and north positive. */
struct geographic {
	double latitude_rad, longitude_rad;
};

/* How the grid lies at a point. */
struct crs_point {
	struct geographic own;	 /* on the system's own datum, longitude from Greenwich */
	struct geographic world; /* on WGS84 */
	double accuracy_m;	 /* of world against own; 0 exact; NAN: nobody knows, and world is own */
	double convergence_rad;	 /* grid north from true north, positive when grid north lies east;
				  * grid bearing = true bearing - convergence */
	double scale;		 /* a length on the grid over that on the ellipsoid, along the meridian */
	bool conformal;		 /* the scale is the same in every direction */
	double height_factor;	 /* on the ellipsoid over that in the ground: R / (R + height) */
	double combined;	 /* on the grid over that in the ground: scale times height_factor */
	bool outside;		 /* of the area that the system is made for, though not far */
};

/* Given:    code   "EPSG:n" of a projected system with axes east and north in m, ft or ftUS; or "local"
 * Returned: out    sb_crs_close when done; unchanged on failure
 * -1: not such a code (SB_FORMAT); not in the table, geographic, other axes, other units (SB_RANGE); no table
 * (SB_MISSING). */
int sb_crs_open(const char *code, struct sb_crs **out, struct sb_err *err);
void sb_crs_close(struct sb_crs *c); /* NULL is fine */

const struct crs_about *sb_crs_about(const struct sb_crs *c); /* borrowed */
bool sb_crs_is_local(const struct sb_crs *c);

/* The system as text (WKT of the first kind, which most readers know), added to out; -1 (SB_STATE): a local
 * one, or one that cannot be written so. */
int sb_crs_wkt(struct sb_crs *c, struct sb_str *out, struct sb_err *err);

/* -1 (SB_RANGE) unless the job's unit is that of the system. A local one takes every unit. */
int sb_crs_takes_unit(const struct sb_crs *c, enum unit job, struct sb_err *err);

/* Grid coordinates in the system's unit to latitude and longitude on its own datum, and on WGS84, and back.
 * -1 (SB_RANGE): a local system, no number, or a point more than a degree outside the system's area;
 * (SB_STATE) to and from WGS84, when how the datums lie to one another is not known. out is unchanged on
 * failure. */
int sb_crs_to_own(
	struct sb_crs *c, double easting, double northing, struct geographic *out, struct sb_err *err);
int sb_crs_to_world(
	struct sb_crs *c, double easting, double northing, struct geographic *out, struct sb_err *err);
int sb_crs_from_own(
	struct sb_crs *c, const struct geographic *at, double *easting, double *northing, struct sb_err *err);
int sb_crs_from_world(
	struct sb_crs *c, const struct geographic *at, double *easting, double *northing, struct sb_err *err);

/* Purpose:  all that the grid is at a point.
 * Given:    easting, northing   in the system's unit
 *           height_m            above the ellipsoid; an elevation above sea level does for it: the 30 m or so
 *                               between them change the factor by 5 in a million
 * Returned: out                 unchanged on failure
 * Notes:    convergence and scale are taken from the projection itself: two points 20 m up and down the
 *           meridian, projected. Error under 1e-9 rad and 1e-9. R is the mean radius of curvature there.
 * -1: as sb_crs_to_own. */
int sb_crs_at(struct sb_crs *c, double easting, double northing, double height_m, struct crs_point *out,
	struct sb_err *err);

/* What somebody should know who uses the point: sentences; returns how many. */
#define SB_CRS_WARNINGS 5
#define SB_CRS_WARNING_TEXT 320
size_t sb_crs_warnings(
	const struct sb_crs *c, const struct crs_point *p, char text[SB_CRS_WARNINGS][SB_CRS_WARNING_TEXT]);

#endif
