/* The World Magnetic Model as a sum of 90 terms.
 *
 * 1. Legendre functions of order 1 and up are carried without their factor cos(latitude): what is divided by
 * it in the textbook (the east part, the slope) never has it, and a pole is a place like any other.
 * 2. Order by order, so that the functions of a degree come from the two before and no table is kept; the
 * sine and cosine of each order come from those of the order before.
 * 3. Field and yearly change are summed side by side from the coefficients as published; the change in time
 * is linear, so the field of the day is one step from both.
 */
#include "geom/magnet.h"

#include "geom/angle.h"
#include "geom/magnet_terms.h"

#include <math.h>

#define REFERENCE_RADIUS_M 6371200.0 /* of the model, not of the earth */

/* WGS84 */
#define EQUATOR_M 6378137.0
#define FLATTENING (1 / 298.257223563)

/* The report's zones, nT. */
#define CAUTION_NT 6000
#define BLACKOUT_NT 2000

/* What a sum needs to know of the place. */
struct spot {
	double sine, cosine;		  /* of the geocentric latitude */
	double shrink[MAGNET_DEGREE + 1]; /* (a / r)^(n + 2) */
};

/* What all degrees of one order share. */
struct order {
	int m;
	double sine, cosine; /* of m times the longitude */
	double top;	     /* the function of degree m, without its cos(latitude) */
};

/* Degrees m to 12 of one order, m > 0. The recursion is Schmidt's:
 *   P(n) sqrt(n^2 - m^2) = (2n - 1) sin(lat) P(n-1) - sqrt((n-1)^2 - m^2) P(n-2)
 *   dP(n)/dlat           = (sqrt(n^2 - m^2) P(n-1) - n sin(lat) P(n)) / cos(lat) */
static void add_order(const struct spot *s, const struct order *o, struct magnet_vector *field,
	struct magnet_vector *yearly)
{
	double before = 0, here = o->top, root_before = 0;

	for (int n = o->m; n <= MAGNET_DEGREE; n++) {
		double root = sqrt((double)((n - o->m) * (n + o->m)));
		if (n > o->m) {
			double next = ((2 * n - 1) * s->sine * here - root_before * before) / root;
			before = here;
			here = next;
		}
		const struct magnet_term *t = &sb_magnet_terms[sb_magnet_term(n, o->m)];
		double slope = s->shrink[n] * (root * before - n * s->sine * here);
		double value = s->shrink[n] * here;
		double across = o->m * value, down = (n + 1) * value * s->cosine;
		double even = t->g_nt * o->cosine + t->h_nt * o->sine;
		double even_year = t->g_nt_per_year * o->cosine + t->h_nt_per_year * o->sine;
		field->north_nt -= even * slope;
		field->east_nt += (t->g_nt * o->sine - t->h_nt * o->cosine) * across;
		field->down_nt -= even * down;
		yearly->north_nt -= even_year * slope;
		yearly->east_nt += (t->g_nt_per_year * o->sine - t->h_nt_per_year * o->cosine) * across;
		yearly->down_nt -= even_year * down;
		root_before = root;
	}
}

/* Order 0: the same functions with no factor to leave out. Their slope over latitude is cos(lat) times
 * P'(sin(lat)), and P'(n) = P'(n-2) + (2n - 1) P(n-1) divides by nothing. */
static void add_zonal(const struct spot *s, struct magnet_vector *field, struct magnet_vector *yearly)
{
	double before = 0, here = 1, slope_before = 0, slope = 0;

	for (int n = 1; n <= MAGNET_DEGREE; n++) {
		double next = ((2 * n - 1) * s->sine * here - (n - 1) * before) / n;
		double slope_next = slope_before + (2 * n - 1) * here;
		before = here;
		here = next;
		slope_before = slope;
		slope = slope_next;
		const struct magnet_term *t = &sb_magnet_terms[sb_magnet_term(n, 0)];
		double north = s->shrink[n] * slope * s->cosine, down = s->shrink[n] * (n + 1) * here;
		field->north_nt -= t->g_nt * north;
		field->down_nt -= t->g_nt * down;
		yearly->north_nt -= t->g_nt_per_year * north;
		yearly->down_nt -= t->g_nt_per_year * down;
	}
}

static void prepare(struct spot *s, double latitude_rad, double radius_m)
{
	double ratio = REFERENCE_RADIUS_M / radius_m;

	s->sine = sin(latitude_rad);
	s->cosine = cos(latitude_rad);
	s->shrink[0] = ratio * ratio;
	for (int n = 1; n <= MAGNET_DEGREE; n++)
		s->shrink[n] = s->shrink[n - 1] * ratio;
}

void sb_magnet_on_sphere(double latitude_rad, double longitude_rad, double radius_m, double years,
	struct magnet_vector *field, struct magnet_vector *yearly)
{
	double sine = sin(longitude_rad), cosine = cos(longitude_rad);
	struct magnet_vector at_epoch = { 0 }, change = { 0 };
	struct spot s;

	prepare(&s, latitude_rad, radius_m);
	add_zonal(&s, &at_epoch, &change);
	struct order o = { .m = 1, .sine = sine, .cosine = cosine, .top = 1 };
	for (;;) {
		add_order(&s, &o, &at_epoch, &change);
		if (o.m == MAGNET_DEGREE)
			break;
		double turned = o.sine * cosine + o.cosine * sine;
		o.cosine = o.cosine * cosine - o.sine * sine;
		o.sine = turned;
		o.m++;
		o.top *= s.cosine * sqrt((2 * o.m - 1) / (2.0 * o.m));
	}
	*yearly = change;
	*field = (struct magnet_vector){ at_epoch.north_nt + years * change.north_nt,
		at_epoch.east_nt + years * change.east_nt, at_epoch.down_nt + years * change.down_nt };
}

void sb_magnet_geocentric(double latitude_rad, double height_m, double *geocentric_rad, double *radius_m)
{
	const double square = FLATTENING * (2 - FLATTENING); /* of the eccentricity */
	double sine = sin(latitude_rad);
	double normal = EQUATOR_M / sqrt(1 - square * sine * sine);
	double across = (normal + height_m) * cos(latitude_rad);
	double up = (normal * (1 - square) + height_m) * sine;

	*geocentric_rad = atan2(up, across);
	*radius_m = hypot(across, up);
}

/* From the vertical of the sphere to that of the ellipsoid, turned by the difference of the latitudes. */
static struct magnet_vector tilt(struct magnet_vector v, double turn_rad)
{
	double sine = sin(turn_rad), cosine = cos(turn_rad);

	return (struct magnet_vector){ v.north_nt * cosine - v.down_nt * sine, v.east_nt,
		v.north_nt * sine + v.down_nt * cosine };
}

static struct magnet_field elements(struct magnet_vector v)
{
	double level = hypot(v.north_nt, v.east_nt);

	return (struct magnet_field){
		.north_nt = v.north_nt,
		.east_nt = v.east_nt,
		.down_nt = v.down_nt,
		.level_nt = level,
		.total_nt = hypot(level, v.down_nt),
		.declination_rad = level > 0 ? atan2(v.east_nt, v.north_nt) : 0,
		.dip_rad = atan2(v.down_nt, level),
	};
}

/* The derivative of each element. */
static struct magnet_field change_of(const struct magnet_field *f, struct magnet_vector d)
{
	struct magnet_field c = { .north_nt = d.north_nt, .east_nt = d.east_nt, .down_nt = d.down_nt };

	if (f->level_nt > 0) {
		c.level_nt = (f->north_nt * d.north_nt + f->east_nt * d.east_nt) / f->level_nt;
		c.declination_rad =
			(f->north_nt * d.east_nt - f->east_nt * d.north_nt) / (f->level_nt * f->level_nt);
	}
	c.total_nt = (f->level_nt * c.level_nt + f->down_nt * d.down_nt) / f->total_nt;
	c.dip_rad = (f->level_nt * d.down_nt - f->down_nt * c.level_nt) / (f->total_nt * f->total_nt);
	return c;
}

static struct magnet_field doubt(double level_nt)
{
	double declination = hypot(sb_rad(0.26), sb_rad(5417 / level_nt));

	return (struct magnet_field){
		.north_nt = 137,
		.east_nt = 89,
		.down_nt = 141,
		.level_nt = 133,
		.total_nt = 138,
		.declination_rad = fmin(declination, SB_PI),
		.dip_rad = sb_rad(0.20),
	};
}

static enum magnet_zone zone_of(double level_nt)
{
	if (level_nt < BLACKOUT_NT)
		return MAGNET_BLACKOUT;
	return level_nt < CAUTION_NT ? MAGNET_CAUTION : MAGNET_CLEAR;
}

enum magnet_status sb_magnet_at(
	double latitude_rad, double longitude_rad, double height_m, double year, struct magnet *out)
{
	struct magnet_vector field, yearly;
	double geocentric, radius;

	if (!(fabs(latitude_rad) <= SB_PI / 2) || !isfinite(longitude_rad))
		return MAGNET_PLACE;
	if (!(height_m >= SB_MAGNET_LOWEST_M && height_m <= SB_MAGNET_HIGHEST_M))
		return MAGNET_HEIGHT;
	if (!(year >= SB_MAGNET_EPOCH && year <= SB_MAGNET_END))
		return MAGNET_DATE;
	sb_magnet_geocentric(latitude_rad, height_m, &geocentric, &radius);
	sb_magnet_on_sphere(geocentric, longitude_rad, radius, year - SB_MAGNET_EPOCH, &field, &yearly);
	field = tilt(field, geocentric - latitude_rad);
	yearly = tilt(yearly, geocentric - latitude_rad);
	out->field = elements(field);
	out->yearly = change_of(&out->field, yearly);
	out->sigma = doubt(out->field.level_nt);
	out->zone = zone_of(out->field.level_nt);
	return MAGNET_OK;
}
