/* The words of the three norths, and what turns one azimuth into another. */
#include "io/earth.h"

#include "base/time.h"
#include "geom/angle.h"
#include "support/near.h"

#include <string.h>

static int64_t day(const char *text)
{
	int64_t ms = 0;

	assert_int_equal(sb_time_parse_day(text, &ms, NULL), 0);
	return ms;
}

static double dms(double degrees, double minutes, double seconds)
{
	return sb_rad(degrees + minutes / 60 + seconds / 3600);
}

static void a_sign_is_read_as_a_side(void **state)
{
	static const struct {
		double degrees;
		const char *declination, *convergence;
	} table[] = {
		{ 3.4, "magnetic north lies 3.40 degrees east of true north",
			"grid north lies 3.40 degrees east of true north" },
		{ -1.776, "magnetic north lies 1.78 degrees west of true north",
			"grid north lies 1.78 degrees west of true north" },
		{ 0.0049, "magnetic north and true north are the same, to 0.005 degrees",
			"grid north and true north are the same, to 0.005 degrees" },
		{ -0.0049, "magnetic north and true north are the same, to 0.005 degrees",
			"grid north and true north are the same, to 0.005 degrees" },
		{ -0.0051, "magnetic north lies 0.01 degrees west of true north",
			"grid north lies 0.01 degrees west of true north" },
		{ 179.999, "magnetic north lies 180.00 degrees east of true north",
			"grid north lies 180.00 degrees east of true north" },
	};
	char text[SB_EARTH_WORDS];

	(void)state;
	for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
		sb_earth_declination_words(sb_rad(table[i].degrees), text);
		assert_string_equal(text, table[i].declination);
		sb_earth_convergence_words(sb_rad(table[i].degrees), text);
		assert_string_equal(text, table[i].convergence);
	}
}

/* Derived: Flinders Peak's bearing with a declination made up of 10 degrees. */
static void magnetic_becomes_grid_by_declination_less_convergence(void **state)
{
	(void)state;
	double turn = sb_earth_turn(sb_rad(10), sb_rad(1.584346));
	assert_near(296.868158 + sb_deg(turn), 305.283812, 1e-9);
	/* half a turn is kept within one */
	assert_near(sb_deg(sb_earth_turn(sb_rad(170), sb_rad(-20))), -170, 1e-12);
	assert_near(sb_deg(sb_earth_turn(sb_rad(-170), sb_rad(20))), 170, 1e-12);
}

/* Texas DOT survey manual, appendix B: from a geodetic azimuth, convergence 3 01 39.5 and the second
 * term 2.36e-10 19000 (-391000) = -1.8 seconds, to the grid azimuth 107 25 51.2. */
static void true_becomes_grid_as_the_texan_manual_has_it(void **state)
{
	(void)state;
	double grid = dms(110, 27, 32.5) + sb_earth_turn(0, dms(3, 1, 39.5));
	double second = 2.36e-10 * 19000 * -391000;
	assert_near(second, -1.8, 0.05);
	assert_near(grid + dms(0, 0, second), dms(107, 25, 51.2), dms(0, 0, 0.06));
}

static void the_sum_shown_is_that_of_its_figures(void **state)
{
	char text[SB_EARTH_WORDS];

	(void)state;
	sb_earth_turn_words(sb_rad(14.64), sb_rad(-1.8), text);
	assert_string_equal(text, "add 16.44 degrees: declination 14.64 less convergence (-1.80)");
	sb_earth_turn_words(sb_rad(-2), sb_rad(1.5), text);
	assert_string_equal(text, "take off 3.50 degrees: declination (-2.00) less convergence 1.50");
	/* 1.006 less 0.004 is 1.002; what is shown is 1.01 less 0.00 */
	sb_earth_turn_words(sb_rad(1.006), sb_rad(0.004), text);
	assert_string_equal(text, "add 1.01 degrees: declination 1.01 less convergence 0.00");
	sb_earth_turn_words(sb_rad(-0.001), sb_rad(0.001), text);
	assert_string_equal(text, "add 0.00 degrees: declination 0.00 less convergence 0.00");
	sb_earth_turn_words(sb_rad(170), sb_rad(-20), text);
	assert_string_equal(text, "take off 170.00 degrees: declination 170.00 less convergence (-20.00)");
}

static void a_day_outside_the_model_is_refused_with_the_days_inside(void **state)
{
	struct geographic g = { 0.9, 0.1 };
	struct earth e = { .height_m = 7 };
	struct sb_err err;

	(void)state;
	assert_int_equal(sb_earth_at_place(&g, 0, day("2024-12-31"), &e, &err), -1);
	assert_int_equal(err.code, SB_RANGE);
	assert_non_null(strstr(err.text, "2024-12-31 is outside"));
	assert_non_null(strstr(err.text, "2025-01-01 to 2029-12-31"));
	assert_int_equal(sb_earth_at_place(&g, 0, day("2030-01-02"), &e, &err), -1);
	assert_int_equal(sb_earth_at_place(&g, -2000, day("2026-01-01"), &e, &err), -1);
	assert_non_null(strstr(err.text, "height"));
	g.latitude_rad = 2;
	assert_int_equal(sb_earth_at_place(&g, 0, day("2026-01-01"), &e, &err), -1);
	assert_non_null(strstr(err.text, "latitude"));
	assert_near(e.height_m, 7, 0);
}

static void a_weak_level_field_is_warned_of(void **state)
{
	struct geographic clear = { sb_rad(50), 0 }, caution = { sb_rad(81.5), 0 },
			  none = { sb_rad(86), sb_rad(140) };
	struct earth e;

	(void)state;
	assert_int_equal(sb_earth_at_place(&clear, 0, day("2026-01-01"), &e, NULL), 0);
	assert_int_equal(e.warning_count, 0);
	assert_int_equal(sb_earth_at_place(&caution, 0, day("2026-01-01"), &e, NULL), 0);
	assert_int_equal(e.warning_count, 1);
	assert_non_null(strstr(e.warnings[0], "caution zone"));
	assert_int_equal(sb_earth_at_place(&none, 0, day("2026-01-01"), &e, NULL), 0);
	assert_int_equal(e.warning_count, 1);
	assert_non_null(strstr(e.warnings[0], "blackout zone"));
}

/* Given on the grid and given by latitude and longitude: one place. */
static void both_ways_to_a_place_find_the_same_field(void **state)
{
	struct sb_crs *crs = NULL;
	struct earth grid, place;
	struct sb_err err = { 0 };

	(void)state;
	if (sb_crs_open("EPSG:32615", &crs, &err))
		fail_msg("%s", err.text);
	assert_int_equal(
		sb_earth_at_grid(crs, 270857.8362, 3294589.2586, 12, day("2026-11-25"), &grid, &err), 0);
	assert_int_equal(sb_earth_at_place(&grid.place, 12, day("2026-11-25"), &place, &err), 0);
	assert_near(grid.magnet.field.declination_rad, place.magnet.field.declination_rad, 1e-15);
	assert_near(sb_deg(grid.place.latitude_rad), 29.7604, 1e-9);
	assert_true(grid.mapped && !place.mapped);
	assert_int_equal(sb_earth_at_grid(crs, 0, 0, 12, day("2026-11-25"), &grid, &err), -1);
	sb_crs_close(crs);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_sign_is_read_as_a_side),
		cmocka_unit_test(magnetic_becomes_grid_by_declination_less_convergence),
		cmocka_unit_test(true_becomes_grid_as_the_texan_manual_has_it),
		cmocka_unit_test(the_sum_shown_is_that_of_its_figures),
		cmocka_unit_test(a_day_outside_the_model_is_refused_with_the_days_inside),
		cmocka_unit_test(a_weak_level_field_is_warned_of),
		cmocka_unit_test(both_ways_to_a_place_find_the_same_field),
	};

	return run_tests(tests);
}
