/* The earth at a place: its magnetic field and how the map's grid lies there, in words and as JSON.
 *
 * True north is what both are told from: magnetic north by the declination, grid north by the convergence,
 * each positive when it lies east. Three norths and two signs are where azimuths go wrong, so people read
 * words here, and the one number that a magnetic azimuth needs stands with its sum.
 */
#ifndef SB_IO_EARTH_H
#define SB_IO_EARTH_H

#include "base/crs.h"
#include "base/str.h"
#include "geom/magnet.h"
#include "model/job.h"

#include <stdint.h>

#define SB_EARTH_WORDS 160
#define SB_EARTH_WARNINGS (SB_CRS_WARNINGS + 1)

struct earth {
	const char *name; /* "entry", "exit"; "" of a place alone. A literal. */
	double year;	  /* decimal */
	double height_m;  /* as given: taken for the height above the ellipsoid */
	bool mapped;	  /* given on a grid; the next three hold */
	double easting, northing;
	struct crs_point grid;
	struct geographic place; /* WGS84 */
	struct magnet magnet;
	char warnings[SB_EARTH_WARNINGS][SB_CRS_WARNING_TEXT]; /* sentences */
	size_t warning_count;
};

/* Both at a moment. name is set by the caller. -1 with err: the place, the height (SB_RANGE), the moment
 * outside 2025 to 2030 (SB_RANGE), or what sb_crs_at refuses. out is unchanged on failure. */
int sb_earth_at_grid(struct sb_crs *crs, double easting, double northing, double height_m, int64_t ms,
	struct earth *out, struct sb_err *err);
int sb_earth_at_place(
	const struct geographic *place, double height_m, int64_t ms, struct earth *out, struct sb_err *err);

/* "magnetic north lies 3.38 degrees east of true north", "grid north lies 1.78 degrees east of true north".
 */
void sb_earth_declination_words(double declination_rad, char text[SB_EARTH_WORDS]);
void sb_earth_convergence_words(double convergence_rad, char text[SB_EARTH_WORDS]);

/* What is added to a magnetic azimuth to make it a grid azimuth: declination - convergence, (-pi, pi]. */
double sb_earth_turn(double declination_rad, double convergence_rad);
/* "add 1.60 degrees: declination 3.38 less convergence 1.78". The sum is that of the figures shown. */
void sb_earth_turn_words(double declination_rad, double convergence_rad, char text[SB_EARTH_WORDS]);

/* A page about one place, or about the two ends of a job. */
struct earth_page {
	int64_t ms;		     /* the day */
	const struct crs_about *crs; /* NULL: by latitude and longitude */
	const struct job *job;	     /* NULL: a place alone; its own figures are held against those found */
	struct earth points[2];
	size_t count;
};

void sb_earth_text(const struct earth_page *page, struct sb_str *out);
/* {"model", "model_from", "model_to", "date", "year", "crs", "job", "points": [...], "caution"}: degrees, nT,
 * metres; coordinates in the system's unit; declination and convergence east positive. */
void sb_earth_json(const struct earth_page *page, struct sb_str *out);

#endif
