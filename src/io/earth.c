/* The earth at a place: what is computed, and the words that turn signs into sides. */
#include "io/earth.h"

#include "base/time.h"
#include "geom/angle.h"

#include <math.h>
#include <stdio.h>

/* ---- at a place ---- */

static int fail_magnet(enum magnet_status status, double height_m, int64_t ms, struct sb_err *err)
{
	char day[SB_TIME_TEXT];

	sb_time_day(ms, day);
	switch (status) {
	case MAGNET_DATE:
		return sb_fail(err, SB_RANGE,
			"%s is outside the years of the magnetic model %s: 2025-01-01 to 2029-12-31. Its successor is "
			"needed for another day.",
			day, SB_MAGNET_MODEL);
	case MAGNET_HEIGHT:
		return sb_fail(err, SB_RANGE,
			"A height of %.0f m is outside those of the magnetic model %s: %.0f to %.0f m.",
			height_m, SB_MAGNET_MODEL, SB_MAGNET_LOWEST_M, SB_MAGNET_HIGHEST_M);
	case MAGNET_PLACE:
	case MAGNET_OK:
		break;
	}
	return sb_fail(err, SB_RANGE, "A latitude is from -90 to 90 degrees, south negative.");
}

static void warn_of_zone(struct earth *e)
{
	char *text = e->warnings[e->warning_count];
	double level = e->magnet.field.level_nt;

	if (e->magnet.zone == MAGNET_CLEAR)
		return;
	e->warning_count++;
	if (e->magnet.zone == MAGNET_CAUTION)
		snprintf(text, SB_CRS_WARNING_TEXT,
			"The level part of the field is only %.0f nT here (under 6000, the model's caution zone): a magnetic "
			"azimuth is less accurate than elsewhere.",
			level);
	else
		snprintf(text, SB_CRS_WARNING_TEXT,
			"The level part of the field is only %.0f nT here (under 2000, the model's blackout zone): a "
			"magnetic azimuth is of no use. Take the azimuth from a gyro or a surface coil.",
			level);
}

static int find_field(struct earth *e, int64_t ms, struct sb_err *err)
{
	e->year = sb_time_year(ms);
	enum magnet_status status =
		sb_magnet_at(e->place.latitude_rad, e->place.longitude_rad, e->height_m, e->year, &e->magnet);
	if (status != MAGNET_OK)
		return fail_magnet(status, e->height_m, ms, err);
	warn_of_zone(e);
	return 0;
}

int sb_earth_at_grid(struct sb_crs *crs, double easting, double northing, double height_m, int64_t ms,
	struct earth *out, struct sb_err *err)
{
	struct earth e = {
		.name = "", .height_m = height_m, .mapped = true, .easting = easting, .northing = northing
	};

	if (sb_crs_at(crs, easting, northing, height_m, &e.grid, err))
		return -1;
	e.place = e.grid.world;
	e.warning_count = sb_crs_warnings(crs, &e.grid, e.warnings);
	if (find_field(&e, ms, err))
		return -1;
	*out = e;
	return 0;
}

int sb_earth_at_place(
	const struct geographic *place, double height_m, int64_t ms, struct earth *out, struct sb_err *err)
{
	struct earth e = { .name = "", .height_m = height_m, .place = *place };

	if (find_field(&e, ms, err))
		return -1;
	*out = e;
	return 0;
}

/* ---- words ---- */

static double two_decimals(double radians)
{
	return round(sb_deg(radians) * 100) / 100 + 0.0; /* and never -0 */
}

static void north_words(const char *north, double radians, char text[SB_EARTH_WORDS])
{
	double degrees = two_decimals(radians);

	if (degrees == 0)
		snprintf(text, SB_EARTH_WORDS, "%s and true north are the same, to 0.005 degrees", north);
	else
		snprintf(text, SB_EARTH_WORDS, "%s lies %.2f degrees %s of true north", north, fabs(degrees),
			degrees > 0 ? "east" : "west");
}

void sb_earth_declination_words(double declination_rad, char text[SB_EARTH_WORDS])
{
	north_words("magnetic north", declination_rad, text);
}

void sb_earth_convergence_words(double convergence_rad, char text[SB_EARTH_WORDS])
{
	north_words("grid north", convergence_rad, text);
}

double sb_earth_turn(double declination_rad, double convergence_rad)
{
	return sb_wrap_half(declination_rad - convergence_rad);
}

/* A figure that stands after a word: a west one in brackets, so that its sign is not taken for the sum's. */
static const char *signed_figure(double degrees, char text[16])
{
	snprintf(text, 16, degrees < 0 ? "(%.2f)" : "%.2f", degrees);
	return text;
}

void sb_earth_turn_words(double declination_rad, double convergence_rad, char text[SB_EARTH_WORDS])
{
	double d = two_decimals(declination_rad), g = two_decimals(convergence_rad), turn = d - g;
	char first[16], second[16];

	if (turn > 180)
		turn -= 360;
	if (turn <= -180)
		turn += 360;
	snprintf(text, SB_EARTH_WORDS, "%s %.2f degrees: declination %s less convergence %s",
		turn < 0 ? "take off" : "add", fabs(turn), signed_figure(d, first), signed_figure(g, second));
}
