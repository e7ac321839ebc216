/* From what is typed and drawn to what is computed with: units, scale, and the azimuth chain with all its
 * signs. */
#include "model/frame.h"

#include "geom/angle.h"
#include "geom/random.h"
#include "model/setting.h"
#include "support/jobs.h"
#include "support/near.h"

#include <math.h>
#include <string.h>

static struct job job;
static struct frame frame;

static int setup(void **state)
{
	(void)state;
	sb_setting_init(&job);
	jobs_set(&job, "job", "unit", "ft");
	jobs_set(&job, "job", "inclination", "down");
	jobs_set(&job, "control", "entry", "5000, 1000, 100");
	jobs_set(&job, "control", "exit", "6000, 2000, 90");
	jobs_set(&job, "tool", "sensor_to_bit", "12.5");
	memset(&frame, 0, sizeof frame);
	return 0;
}

static int teardown(void **state)
{
	(void)state;
	sb_job_clear(&job);
	return 0;
}

static void init(void)
{
	struct sb_err err;

	if (sb_frame_init(&job, &frame, &err)) {
		print_error("%s\n", err.text);
		fail();
	}
}

static void refuse(const char *says)
{
	struct frame before = frame;
	struct sb_err err = { 0 };

	assert_int_equal(sb_frame_init(&job, &frame, &err), -1);
	assert_int_equal(err.code, SB_FORMAT);
	assert_string_equal(err.text, says);
	assert_memory_equal(&frame, &before, sizeof frame);
}

static double grid_azimuth(double as_read)
{
	return sb_deg(sb_frame_azi(&frame, as_read));
}

/* ---- the azimuth chain ---- */

static void a_grid_azimuth_needs_nothing(void **state)
{
	(void)state;
	jobs_set(&job, "azimuth", "reference", "grid");
	init();
	assert_near(grid_azimuth(45), 45, 1e-12);
	assert_near(sb_deg(frame.design_bearing_rad), 45, 1e-12);
	jobs_set(&job, "tool", "azimuth_correction", "-0.5");
	init();
	assert_near(grid_azimuth(45), 44.5, 1e-12);
}

static void a_true_azimuth_loses_the_convergence(void **state)
{
	(void)state;
	jobs_set(&job, "azimuth", "reference", "true");
	refuse("[azimuth] reference = true needs convergence: write it, and write 0 only if somebody looked it up and "
	       "it is 0.");
	jobs_set(&job, "azimuth", "convergence", "1.5");
	init();
	assert_near(grid_azimuth(45), 43.5, 1e-12);
	jobs_set(&job, "azimuth", "convergence", "-1.5");
	init();
	assert_near(grid_azimuth(45), 46.5, 1e-12);
}

/* With a published grid bearing and a declination made up for it: grid = magnetic + D - gamma.
 * Derived, no publication. */
static void a_magnetic_azimuth_gains_the_declination_too(void **state)
{
	(void)state;
	jobs_set(&job, "azimuth", "reference", "magnetic");
	refuse("[azimuth] reference = magnetic needs declination: write it, and write 0 only if somebody looked it up "
	       "and it is 0.");
	jobs_set(&job, "azimuth", "declination", "10.00");
	refuse("[azimuth] reference = magnetic needs convergence: write it, and write 0 only if somebody looked it up "
	       "and it is 0.");
	jobs_set(&job, "azimuth", "convergence", "1.584346");
	init();
	assert_near(grid_azimuth(296.868158), 305.283812, 1e-9);
	jobs_set(&job, "tool", "azimuth_correction", "0.25");
	init();
	assert_near(grid_azimuth(296.868158), 305.533812, 1e-9);
}

/* A declination of 4 degrees with its sign slipped: 139 ft in 1000 on the grid, and nothing off the line
 * where the tool was laid on it. Derived, no publication. */
static void a_slipped_declination_moves_the_grid_but_not_a_bore_read_on_its_line(void **state)
{
	(void)state;
	jobs_set(&job, "azimuth", "reference", "magnetic");
	jobs_set(&job, "azimuth", "convergence", "0");
	jobs_set(&job, "azimuth", "declination", "4");
	init();
	double right = sb_frame_azi(&frame, 41);
	jobs_set(&job, "azimuth", "declination", "-4");
	init();
	assert_near(1000 * sin(right - sb_frame_azi(&frame, 41)), 139.17, 0.01);
	jobs_set(&job, "azimuth", "reference", "bore");
	jobs_set(&job, "azimuth", "bore_azimuth_read", "41");
	init();
	assert_near(grid_azimuth(41), 45, 1e-12);
	jobs_set(&job, "azimuth", "declination", "4");
	init();
	assert_near(grid_azimuth(41), 45, 1e-12);
}

static void a_bore_azimuth_stands_for_the_first_tangent(void **state)
{
	(void)state;
	jobs_set(&job, "azimuth", "reference", "bore");
	refuse("[azimuth] reference = bore needs bore_azimuth_read: write it, and write 0 only if somebody looked it up "
	       "and it is 0.");
	jobs_set(&job, "azimuth", "bore_azimuth_read", "358.5");
	/* What the tool shows too much it shows on the staked line as well. */
	jobs_set(&job, "tool", "azimuth_correction", "7");
	init();
	assert_near(grid_azimuth(358.5), 45, 1e-12);
	assert_near(grid_azimuth(0), 46.5, 1e-12);
	jobs_row(&job, "alignment", (const char *const[]){ "5000", "1000", "" });
	jobs_row(&job, "alignment", (const char *const[]){ "5600", "1000", "500" });
	jobs_row(&job, "alignment", (const char *const[]){ "6000", "2000", "" });
	init();
	assert_near(grid_azimuth(358.5), 90, 1e-12);
}

static void azimuths_come_back_as_read_between_0_and_360(void **state)
{
	struct random r = { 3 };

	(void)state;
	jobs_set(&job, "azimuth", "reference", "magnetic");
	jobs_set(&job, "azimuth", "convergence", "-1.2");
	jobs_set(&job, "azimuth", "declination", "-13.7");
	init();
	for (int i = 0; i < 10000; i++) {
		double azimuth = i < 361 ? i : random_between(&r, 0, 360);
		double inside = sb_frame_azi(&frame, azimuth), back = sb_frame_azi_typed(&frame, inside);
		assert_true(inside >= 0 && inside < 2 * SB_PI);
		assert_true(back >= 0 && back < 360);
		assert_near(remainder(back - azimuth, 360), 0, 1e-10);
		assert_near(
			remainder(sb_frame_azi_typed(&frame, inside - 4 * SB_PI) - azimuth, 360), 0, 1e-10);
		for (int by = AZIMUTH_BY_TOOL; by < AZIMUTH_BY_HOLD; by++) {
			inside = sb_frame_azi_by(&frame, (enum azimuth_by)by, azimuth);
			back = sb_frame_azi_typed_by(&frame, (enum azimuth_by)by, inside);
			assert_near(remainder(back - azimuth, 360), 0, 1e-10);
		}
	}
}

static void inclinations_go_by_the_jobs_convention(void **state)
{
	(void)state;
	jobs_set(&job, "azimuth", "reference", "grid");
	jobs_set(&job, "job", "inclination", "level");
	init();
	assert_near(sb_frame_inc(&frame, -10), sb_rad(80), 1e-15);
	assert_near(sb_frame_inc_typed(&frame, sb_rad(98.5)), 8.5, 1e-12);
	jobs_set(&job, "job", "inclination", "grade");
	init();
	assert_near(sb_frame_inc(&frame, 100), sb_rad(135), 1e-15);
}

/* ---- the two ways to the bore's azimuth ---- */

static bool disagrees(double *degrees)
{
	init();
	return sb_frame_azimuth_disagrees(&job, &frame, degrees);
}

static void two_ways_are_compared_whatever_the_readings_refer_to(void **state)
{
	static const struct {
		const char *reference;
		double apart; /* from 45, of 42 as read on the staked line */
	} table[] = { { "grid", -3 }, { "true", -4.5 }, { "magnetic", 2.5 }, { "bore", 2.5 } };

	(void)state;
	jobs_set(&job, "azimuth", "declination", "7");
	jobs_set(&job, "azimuth", "convergence", "1.5");
	jobs_set(&job, "azimuth", "bore_azimuth_read", "42");
	for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
		double apart;
		jobs_set(&job, "azimuth", "reference", table[i].reference);
		assert_true(disagrees(&apart));
		assert_near(apart, table[i].apart, 1e-9);
	}
	jobs_set(&job, "tool", "azimuth_correction", "-2.5");
	double apart;
	assert_true(disagrees(&apart));
	assert_near(apart, 0, 1e-9);
}

static void they_differ_the_short_way_round(void **state)
{
	double apart;

	(void)state;
	jobs_set(&job, "azimuth", "reference", "magnetic");
	jobs_set(&job, "azimuth", "declination", "10");
	jobs_set(&job, "azimuth", "convergence", "0");
	jobs_set(&job, "azimuth", "bore_azimuth_read", "349.6");
	jobs_set(&job, "control", "exit", "5000, 2000, 90"); /* due north */
	assert_true(disagrees(&apart));
	assert_near(apart, -0.4, 1e-9);
}

/* Once a job whose readings refer to the grid had to give a convergence that nobody uses. */
static void they_are_not_compared_where_one_is_missing(void **state)
{
	double apart = 77;

	(void)state;
	jobs_set(&job, "azimuth", "reference", "grid");
	assert_false(disagrees(&apart));
	jobs_set(&job, "azimuth", "bore_azimuth_read", "42");
	assert_true(disagrees(&apart));
	assert_near(apart, -3, 1e-9);
	apart = 77;
	jobs_set(&job, "azimuth", "reference", "bore");
	assert_false(disagrees(&apart));
	jobs_set(&job, "azimuth", "declination", "7");
	assert_false(disagrees(&apart));
	assert_near(apart, 77, 0);
	jobs_set(&job, "azimuth", "convergence", "0");
	assert_true(disagrees(&apart));
}

/* ---- lengths and coordinates ---- */

static void lengths_are_exact_both_ways(void **state)
{
	static const struct {
		const char *unit;
		double metre;
	} units[] = { { "m", 1 }, { "ft", 0.3048 }, { "ftUS", 1200.0 / 3937.0 } };

	(void)state;
	jobs_set(&job, "azimuth", "reference", "grid");
	for (size_t i = 0; i < 3; i++) {
		jobs_set(&job, "job", "unit", units[i].unit);
		init();
		assert_near(frame.metre, units[i].metre, 0);
		assert_near(frame.sensor_to_bit_m, 12.5 * units[i].metre, 1e-15);
		assert_near(sb_frame_metres(&frame, 3937), 3937 * units[i].metre, 1e-12);
		assert_near(sb_frame_typed(&frame, sb_frame_metres(&frame, 31.2)), 31.2, 1e-14);
	}
	assert_near(frame.sigma_inc_rad, sb_rad(0.1), 0);
	assert_near(frame.sigma_azi_rad, sb_rad(0.3), 0);
}

/* Grid over ground 0.9999: 0.4 ft in 4000. The survey foot and the international one are 2 parts in a million
 * apart, 10 ft at a northing of 5,000,000. */
static void drawings_are_grid_and_the_hole_is_in_the_ground(void **state)
{
	(void)state;
	jobs_set(&job, "azimuth", "reference", "grid");
	jobs_set(&job, "azimuth", "scale_factor", "0.9999");
	init();
	struct vec3 at = sb_frame_ground(&frame, 5000, 5000, 90);
	assert_near(at.n / 0.3048, 4000.40004, 1e-5);
	assert_near(at.e, 0, 0);
	assert_near(at.u, 90 * 0.3048, 1e-12); /* elevations are not scaled */
	assert_near(sb_unit_metres(UNIT_FTUS) / sb_unit_metres(UNIT_FT) * 5e6 - 5e6, 10, 1e-4);
}

static void coordinates_come_back(void **state)
{
	struct random r = { 4 };

	(void)state;
	jobs_set(&job, "azimuth", "reference", "grid");
	jobs_set(&job, "job", "unit", "ftUS");
	jobs_set(&job, "control", "entry", "655412.30, 15662081.75, 38.50");
	jobs_set(&job, "azimuth", "scale_factor", "0.99991");
	init();
	for (int i = 0; i < 1000; i++) {
		double e = 655412.30 + random_between(&r, -5000, 5000),
		       n = 15662081.75 + random_between(&r, -5000, 5000), u = random_between(&r, -200, 200);
		double e2, n2, u2;
		sb_frame_grid(&frame, sb_frame_ground(&frame, e, n, u), &e2, &n2, &u2);
		assert_near(e2, e, 1e-8);
		assert_near(n2, n, 1e-8);
		assert_near(u2, u, 1e-12);
	}
}

static void a_line_needs_two_points(void **state)
{
	(void)state;
	jobs_set(&job, "azimuth", "reference", "grid");
	jobs_set(&job, "control", "exit", "5000.0, 1000.00, 90");
	refuse("[control] entry and exit are the same point: there is no line to drill along.");
	/* Once entry and exit were blamed for this too. */
	jobs_set(&job, "control", "exit", "6000, 2000, 90");
	jobs_row(&job, "alignment", (const char *const[]){ "5000", "1000", "" });
	jobs_row(&job, "alignment", (const char *const[]){ "5000", "1000", "" });
	jobs_row(&job, "alignment", (const char *const[]){ "6000", "2000", "" });
	refuse("alignment.csv: the first two points are the same point: there is no line to drill along.");
}

#define HERE(name) cmocka_unit_test_setup_teardown(name, setup, teardown)

static const struct CMUnitTest tests[] = {
	HERE(a_grid_azimuth_needs_nothing),
	HERE(a_true_azimuth_loses_the_convergence),
	HERE(a_magnetic_azimuth_gains_the_declination_too),
	HERE(a_slipped_declination_moves_the_grid_but_not_a_bore_read_on_its_line),
	HERE(a_bore_azimuth_stands_for_the_first_tangent),
	HERE(azimuths_come_back_as_read_between_0_and_360),
	HERE(inclinations_go_by_the_jobs_convention),
	HERE(two_ways_are_compared_whatever_the_readings_refer_to),
	HERE(they_differ_the_short_way_round),
	HERE(they_are_not_compared_where_one_is_missing),
	HERE(lengths_are_exact_both_ways),
	HERE(drawings_are_grid_and_the_hole_is_in_the_ground),
	HERE(coordinates_come_back),
	HERE(a_line_needs_two_points),
};

int main(void)
{
	return run_tests(tests);
}
