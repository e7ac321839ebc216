/* How sure a position is: covariance along a minimum curvature path from named errors of the readings.
 *
 * An error shifts the inclination, azimuth or depth of a station by its weight there; the station moves all
 * positions from itself on, through the two courses that touch it. Errors that all stations share add up as
 * vectors, a term a vector; noise that each reading has of its own adds up as squares. Both are running
 * sums: one station costs the same at joint 10 and at joint 10,000, and trying one changes nothing.
 *
 * Source: the structure (weights, propagation modes, first order in the errors) of the ISCWSA model:
 * Williamson, "Accuracy Prediction for Directional MWD", SPE 67616 (2000), cut to the terms that matter in a
 * near-horizontal bore of a kilometre or two. The derivative of the course: derived.
 */
#ifndef SB_GEOM_UNCERT_H
#define SB_GEOM_UNCERT_H

#include "geom/arc.h"

#include <stdbool.h>

/* The terms. Those that a whole bore shares come first: they have a sensitivity. */
enum uncert_term {
	UNCERT_INCLINATION_BIAS, /* rad; sensor bias and sag: shifts every inclination by itself */
	UNCERT_AZIMUTH_BIAS,	 /* rad; sensor bias, line-up: every azimuth that the tool measured */
	UNCERT_DECLINATION,	 /* rad; likewise, where azimuths hang on magnetic north */
	UNCERT_INTERFERENCE, /* rad, field of the string along itself over horizontal field: such an azimuth
			      * by sin(inclination) sin(magnetic azimuth) */
	UNCERT_CARRIED_BIAS, /* rad; every azimuth that was carried there by gyro, coil or by holding it */
	UNCERT_DEPTH_SCALE,  /* 1; tally, stretch: every depth by itself times the depth */
	UNCERT_SHARED,	     /* how many of these there are */
	UNCERT_INCLINATION_NOISE = UNCERT_SHARED, /* rad, one reading */
	UNCERT_AZIMUTH_NOISE,			  /* rad, one reading */
	UNCERT_CARRIED_NOISE,			  /* rad, one azimuth that was carried there */
	UNCERT_DEPTH_NOISE,  /* m, where the sensor was at one reading: does not add up */
	UNCERT_LENGTH_NOISE, /* m, one joint's measured length: adds up */
	UNCERT_TERMS
};

/* How the errors of one term at two stations go together. */
enum uncert_spread {
	UNCERT_RANDOM,	   /* not at all */
	UNCERT_SYSTEMATIC, /* one error for all readings of this bore with this tool */
	UNCERT_GLOBAL,	   /* one error for all bores at this site */
};

struct uncert_sort {
	const char *name; /* for people: "declination" */
	enum uncert_spread spread;
};
extern const struct uncert_sort sb_uncert_sorts[UNCERT_TERMS];

struct uncert_model {
	double sigma[UNCERT_TERMS]; /* one sigma of each, >= 0, in the term's unit */
	double to_magnetic_rad;	    /* what is added to an azimuth of the path to make it magnetic */
};

/* A station as far as its errors go. Any depths will do, so long as they are counted from the entry. */
struct uncert_station {
	const struct attitude *attitude;
	double md_m;
	bool carried;  /* its azimuth is no magnetic reading */
	bool borrowed; /* it has no reading of its own: its attitude is the reading at the other end of the
			* course, error and all (an entry that was not staked; a bit on a held heading) */
};

/* Symmetric 3x3: north, east, up, m^2. */
struct sym3 {
	double nn, ee, uu, ne, nu, eu;
};

/* What the own errors of one station do to a position, at one sigma each. */
struct uncert_own {
	struct vec3 inc, azi, depth; /* m */
};

/* The running sums at one station. */
struct uncert {
	struct vec3 shared[UNCERT_SHARED]; /* how far one unit of the term moves this station, m per unit */
	struct sym3 settled;	  /* noise of all stations before this one, on this one and any later */
	struct uncert_own last;	  /* this station's own noise on itself: it has bent one course so far */
	struct uncert_own before; /* the noise of the station before this one, on this and any later */
};

/* Purpose:  the derivatives of a course's step by the attitudes at its two ends.
 * Given:    from, to   the attitudes that arc was laid between (sb_arc_between)
 * Returned: by_*       m per rad
 * Notes:    from step = L/2 RF (t1 + t2): L/2 (RF dt1 - G (dt1 . t2)(t1 + t2)), G = RF'(b) / sin b by series
 *           where b is small, so exact down to no bend at all. Beyond a dogleg of 90 degrees, where no bore
 *           goes and at half a turn no derivative is, L/2 dt1 stands for it.
 * Source:   derived. */
struct uncert_course {
	struct vec3 by_inc_from, by_azi_from, by_inc_to, by_azi_to;
};
struct uncert_course sb_uncert_course(
	const struct attitude *from, const struct attitude *to, const struct arc *arc);

/* The sums at the first station: its position is taken as certain. */
struct uncert sb_uncert_begin(void);

/* Purpose:  the sums at the next station.
 * Given:    at, from   the sums and the station where the course begins
 *           to, arc    the station where it ends, and the course
 *           joints     how many joints of pipe its length was measured in, >= 0
 * Notes:    at most one of the two stations is borrowed. To carry on to the bit on a held heading: a straight
 *           arc, to->borrowed, joints 0. O(1); nothing is changed, so it serves to preview as well. */
struct uncert sb_uncert_next(const struct uncert_model *model, const struct uncert *at,
	const struct uncert_station *from, const struct uncert_station *to, const struct arc *arc,
	int joints);

/* The covariance of the position: all of it, and the part from noise alone. */
struct sym3 sb_uncert_covariance(const struct uncert_model *model, const struct uncert *at);
struct sym3 sb_uncert_noise(const struct uncert *at);

/* Purpose:  the covariance, from noise alone, of a station's position with that of any later station.
 * Given:    next   the sums at the station that follows `at`
 * Returned: c      c[i][j]: axis i (north, east, up) of `at` with axis j of the later one; the same for all
 *                  that are later
 * Notes:    the shared terms add sigma^2 shared[at] (x) shared[later]. A place between two stations moves as
 *           the share-weighted mean of them, within millimetres. */
void sb_uncert_common(const struct uncert *at, const struct uncert *next, double c[3][3]);

/* One sigma along a direction (unit), and the covariance along two of them. m, m^2. */
double sb_uncert_along(const struct sym3 *c, struct vec3 direction);
double sb_uncert_between(const struct sym3 *c, struct vec3 one, struct vec3 other);

#endif
