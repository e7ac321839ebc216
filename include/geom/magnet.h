/* The earth's magnetic field: the World Magnetic Model 2025, for the declination that turns a compass reading
 * into a true azimuth, and for the total field and dip that steel nearby would spoil.
 *
 * It is a model of the earth's core, smooth over hundreds of kilometres: it knows nothing of iron in the
 * ground, of steel nearby, or of the day's magnetic storms. What that costs is its sigma.
 *
 * Source: NOAA NCEI and British Geological Survey, "The US/UK World Magnetic Model for 2025-2030", Technical
 * Report (2024); public domain (17 USC 403).
 */
#ifndef SB_GEOM_MAGNET_H
#define SB_GEOM_MAGNET_H

#define SB_MAGNET_MODEL "WMM2025" /* World Magnetic Model 2025 */
#define SB_MAGNET_EPOCH 2025.0	  /* decimal years, this and the next included */
#define SB_MAGNET_END 2030.0
/* Heights above the ellipsoid that the model is meant for, metres (its report's own range). */
#define SB_MAGNET_LOWEST_M (-1000.0)
#define SB_MAGNET_HIGHEST_M 850000.0

enum magnet_status {
	MAGNET_OK = 0,
	MAGNET_DATE = -1,   /* outside the years of the model, or not a number */
	MAGNET_HEIGHT = -2, /* outside the heights of the model, or not a number */
	MAGNET_PLACE = -3,  /* latitude beyond a pole, or an angle that is not a number */
};

/* How far a compass can be trusted there, by the level part of the field (the report's zones). */
enum magnet_zone {
	MAGNET_CLEAR,	 /* 6000 nT or more */
	MAGNET_CAUTION,	 /* under 6000 nT: a compass is less accurate */
	MAGNET_BLACKOUT, /* under 2000 nT: a compass is of no use */
};

/* The elements of a field; or their change in a year; or their one-sigma. */
struct magnet_field {
	double north_nt, east_nt, down_nt;
	double level_nt;	/* H, the part that turns a compass; >= 0 */
	double total_nt;	/* F */
	double declination_rad; /* magnetic north from true north, east positive, (-pi, pi] */
	double dip_rad;		/* down from level positive, -pi/2..pi/2 */
};

struct magnet {
	struct magnet_field field;
	struct magnet_field yearly;
	struct magnet_field sigma; /* of the model as a whole, against the field of a place: one sigma */
	enum magnet_zone zone;
};

/* Purpose:  the earth's field at a place and a time.
 * Given:    latitude_rad   geodetic (WGS84), -pi/2..pi/2, both poles included
 *           longitude_rad  east positive, any turn
 *           height_m       above the WGS84 ellipsoid, -1000..850000
 *           year           decimal year, 2025.0..2030.0 (sb_time_year)
 * Returned: out            unchanged unless MAGNET_OK
 * Status:   MAGNET_OK, MAGNET_DATE, MAGNET_HEIGHT, MAGNET_PLACE
 * Notes:    north and east are those of the geodetic place; at a pole they are along the given longitude. No
 *           trigonometric function of the order, no division by the cosine of latitude: nothing special
 *           happens at a pole. Where the level part is nothing the declination is 0 and changes by 0.
 *           sigma of declination is sqrt(0.26^2 + (5417 nT / H)^2) degrees, half a turn at most; the others
 *           are one figure for the globe: X 137, Y 89, Z 141, H 133, F 138 nT, dip 0.20 degrees.
 * Source:   as at the head of this file; sections 1.2 (equations), 3.4 (uncertainty). */
enum magnet_status sb_magnet_at(
	double latitude_rad, double longitude_rad, double height_m, double year, struct magnet *out);

/* A vector in the axes of a place: north, east, down. */
struct magnet_vector {
	double north_nt, east_nt, down_nt;
};

/* Purpose:  the same on the sphere: the sum of the terms alone, for those who know the distance from the
 *           earth's centre, and for the checks of the model's report.
 * Given:    latitude_rad   geocentric, -pi/2..pi/2; longitude_rad any
 *           radius_m       from the earth's centre, > 0
 *           years          since SB_MAGNET_EPOCH
 * Returned: field, yearly  north, east and down of the sphere (not of the ellipsoid), nT and nT a year
 * Note:     no check of the arguments. */
void sb_magnet_on_sphere(double latitude_rad, double longitude_rad, double radius_m, double years,
	struct magnet_vector *field, struct magnet_vector *yearly);

/* Geodetic to geocentric latitude, and the distance from the earth's centre, on WGS84 (a 6378137 m,
 * 1/f 298.257223563). */
void sb_magnet_geocentric(double latitude_rad, double height_m, double *geocentric_rad, double *radius_m);

#endif
