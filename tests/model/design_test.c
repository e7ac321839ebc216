/* The design line: what the drawing says, point by point, and what is wrong with a drawing. */
#include "model/design.h"

#include "geom/angle.h"
#include "geom/random.h"
#include "model/setting.h"
#include "support/jobs.h"
#include "support/near.h"

#include <math.h>
#include <string.h>

static struct job job;
static struct frame frame;
static struct design design;
static struct sb_problems problems;

static int setup(void **state)
{
	(void)state;
	memset(&job, 0, sizeof job);
	memset(&design, 0, sizeof design);
	memset(&problems, 0, sizeof problems);
	return 0;
}

static int teardown(void **state)
{
	(void)state;
	sb_design_clear(&design);
	sb_problems_clear(&problems);
	sb_job_clear(&job);
	return 0;
}

static int build(void)
{
	sb_design_clear(&design);
	sb_problems_clear(&problems);
	assert_int_equal(sb_frame_init(&job, &frame, NULL), 0);
	return sb_design_build(&job, &frame, &design, &problems);
}

static void build_well(void)
{
	int status = build();

	for (size_t i = 0; i < problems.count; i++)
		print_error("%s %d %s: %s\n", problems.list[i].file, problems.list[i].line,
			problems.list[i].column, problems.list[i].text);
	assert_int_equal(status, 0);
	assert_int_equal(problems.count, 0);
}

/* A line due north in metres, entry at 0, 0, 100; the profile is the test's. */
static void north(const char *exit)
{
	sb_setting_init(&job);
	jobs_set(&job, "job", "unit", "m");
	jobs_set(&job, "control", "entry", "0, 0, 100");
	jobs_set(&job, "control", "exit", exit);
	jobs_set(&job, "azimuth", "reference", "grid");
	jobs_set(&job, "drill_pipe", "joint_length", "9.6");
}

static void point(const char *station, const char *elevation, const char *radius)
{
	jobs_row(&job, "profile", (const char *const[]){ station, elevation, radius });
	job.profile[job.profile_count - 1].line = (int)job.profile_count + 1;
}

static void turn(const char *easting, const char *northing, const char *radius)
{
	jobs_row(&job, "alignment", (const char *const[]){ easting, northing, radius });
	job.alignment[job.alignment_count - 1].line = (int)job.alignment_count + 1;
}

/* ---- the line ---- */

/* Downward entry at 12 degrees, R 800, level bottom at 75, up at 10 degrees. Derived, no publication: PC1
 * (35.369788, 92.481919), PT1 (201.699141, 75), PC2 (499.569587, 75), PT2 (638.488129, 87.153798). */
static void a_profile_passes_where_its_curves_begin_and_end(void **state)
{
	static const struct {
		double station, elevation, inclination, radius;
	} points[] = {
		{ 0, 100, 78, HUGE_VAL }, { 35.369788, 92.481919, 78, 0 }, { 35.37 + 80, 0, 0, 800 },
		{ 201.699141, 75, 90, 0 }, { 350, 75, 90, HUGE_VAL }, { 499.569587, 75, 90, 0 },
		{ 600, 0, 0, 800 }, { 638.488129, 87.153798, 100, 0 }, { 700, 98, 100, HUGE_VAL },
		{ 710, 98 + 10 * 0.17632698, 100, HUGE_VAL }, /* past the exit: on the tangent */
		{ -10, 100 + 10 * 0.21255656, 78, HUGE_VAL }, /* and before the entry */
	};

	(void)state;
	north("0, 700, 98");
	point("0", "100", "");
	point("117.615753", "75", "800"); /* 25 / tan 12 */
	point("569.560518", "75", "800"); /* 700 - 23 / tan 10 */
	point("700", "98", "");
	build_well();
	for (size_t i = 0; i < sizeof points / sizeof *points; i++) {
		struct design_place p = sb_design_at(&design, points[i].station);
		assert_near(p.station_m, points[i].station, 0);
		assert_near(p.at.n, points[i].station, 1e-9);
		assert_near(p.at.e, 0, 1e-9);
		assert_near(p.azi_rad, 0, 1e-12);
		if (points[i].elevation != 0)
			assert_near(p.at.u, points[i].elevation, 2e-6);
		if (points[i].inclination != 0)
			assert_near(sb_deg(p.inc_rad), points[i].inclination, 1e-6);
		if (points[i].radius != 0)
			assert_near(p.radius_m, points[i].radius, 1e-6);
	}
	assert_near(design.length_m, 700, 1e-9);
	assert_near(design.exit_elevation_m, 98, 0);
	assert_near(design.tightest_m, 800, 1e-6);
}

/* A curve to the right of radius 300 while the profile goes down, turns up at R 400 within it, and goes up.
 */
static void crossing_with_overlapping_curves(void)
{
	north("520, 500, 101.5");
	turn("0", "0", "");
	turn("0", "400", "300");
	turn("520", "500", "");
	point("0", "100", "");
	point("300", "60", "400");
	point("843.66", "101.5", "");
	job.exit.elevation = sb_number_of(101.5, 1);
}

/* P x P' over the cube of the speed, by differences: no formula of the program's. */
static double curvature_by_differences(double station)
{
	const double h = 0.02;
	struct vec3 a = sb_design_at(&design, station - h).at, b = sb_design_at(&design, station).at,
		    c = sb_design_at(&design, station + h).at;
	struct vec3 first = sb_vec3_scale(sb_vec3_sub(c, a), 1 / (2 * h));
	struct vec3 second = sb_vec3_scale(sb_vec3_add(sb_vec3_sub(c, b), sb_vec3_sub(a, b)), 1 / (h * h));
	struct vec3 cross = { first.e * second.u - first.u * second.e,
		first.u * second.n - first.n * second.u, first.n * second.e - first.e * second.n };
	return sb_vec3_length(cross) / pow(sb_vec3_length(first), 3);
}

static void both_curvatures_together_are_those_of_the_line_in_space(void **state)
{
	size_t both = 0;

	(void)state;
	crossing_with_overlapping_curves();
	build();
	double tightest = HUGE_VAL, where = 0;
	for (double s = 1.3; s < design.length_m; s += 0.77) {
		double k = curvature_by_differences(s);
		struct design_place p = sb_design_at(&design, s);
		bool at_a_joint = false;
		for (size_t i = 0; i < design.alignment_count; i++)
			at_a_joint |= fabs(design.alignment[i].at - s) < 0.05;
		for (size_t i = 0; i < design.profile_count; i++)
			at_a_joint |= fabs(design.profile[i].x - s) < 0.05;
		if (at_a_joint)
			continue;
		assert_near(1 / p.radius_m, k, 2e-6);
		both += p.radius_m < 299;
		if (1 / k < tightest) {
			tightest = 1 / k;
			where = s;
		}
	}
	assert_true(both > 20); /* where they overlap it is tighter than either */
	assert_near(design.tightest_m, tightest, 0.1);
	assert_near(design.tightest_station_m, where, 40);
	assert_near(design.tightest_m, 1 / hypot(1 / 300.0, 1 / 400.0), 0.5);
	assert_near(sb_design_at(&design, design.tightest_station_m).radius_m, design.tightest_m, 1e-9);
}

/* Where a profile turns under a curve in plan, the tightest place is the level one, though no part begins
 * there. */
static void the_tightest_place_is_found_within_a_curve(void **state)
{
	(void)state;
	crossing_with_overlapping_curves();
	build();
	double least = HUGE_VAL;
	for (double s = 0; s < design.length_m; s += 0.01)
		least = fmin(least, sb_design_at(&design, s).radius_m);
	assert_near(design.tightest_m, least, 1e-3);
	assert_true(design.tightest_m <= least + 1e-9);
}

static void headings_are_those_of_the_line(void **state)
{
	struct random r = { 5 };

	(void)state;
	crossing_with_overlapping_curves();
	build();
	for (int i = 0; i < 2000; i++) {
		double s = random_between(&r, -30, design.length_m + 30), h = 1e-3;
		struct design_place p = sb_design_at(&design, s);
		struct vec3 step =
			sb_vec3_sub(sb_design_at(&design, s + h).at, sb_design_at(&design, s - h).at);
		assert_near(sb_vec3_angle(step, p.heading), 0, 1e-5);
		assert_near(sb_vec3_length(p.heading), 1, 1e-12);
		assert_near(sb_vec3_angle(p.heading, sb_vec3_heading(p.inc_rad, p.azi_rad)), 0, 1e-9);
		/* A station is a length in plan. */
		assert_near(hypot(step.n, step.e), 2 * h, 1e-8);
	}
}

/* What the drawing has in grid feet is laid out in ground metres. */
static void a_drawing_in_feet_on_a_grid_is_laid_out_in_ground_metres(void **state)
{
	(void)state;
	north("0, 2000, 100");
	jobs_set(&job, "job", "unit", "ftUS");
	jobs_set(&job, "azimuth", "scale_factor", "0.9999");
	point("0", "100", "");
	point("500", "40", "1200");
	point("1500", "40", "1200");
	point("2000.20", "100", "");
	build_well();
	assert_near(design.length_m, 2000 / 0.9999 * 1200 / 3937.0, 1e-9);
	assert_near(design.tightest_m, 1200 * 1200 / 3937.0, 1e-6); /* a radius is in the ground already */
	assert_near(sb_design_at(&design, 1000 * 1200 / 3937.0).at.u, 40 * 1200 / 3937.0, 1e-9);
}

/* ---- what is wrong with a drawing ---- */

static void assert_problem(const char *file, int line, const char *column, int warning, const char *says)
{
	for (size_t i = 0; i < problems.count; i++) {
		const struct sb_problem *p = &problems.list[i];
		if (strcmp(p->text, says) == 0) {
			assert_string_equal(p->file, file);
			assert_string_equal(p->column, column);
			assert_int_equal(p->line, line);
			assert_int_equal(p->warning, warning);
			return;
		}
	}
	for (size_t i = 0; i < problems.count; i++)
		print_error("%s\n", problems.list[i].text);
	print_error("and not: %s\n", says);
	fail();
}

static void a_profile_without_points_is_refused(void **state)
{
	(void)state;
	north("0, 500, 100");
	assert_int_equal(build(), -1);
	assert_problem(
		"profile.csv", 0, "", 0, "fewer than two points: a line needs its beginning and its end.");
	point("0", "100", "");
	assert_int_equal(build(), -1);
	assert_int_equal(problems.errors, 1);
}

static void stations_that_do_not_grow_are_refused(void **state)
{
	(void)state;
	north("0, 500, 100");
	point("0", "100", "");
	point("200", "90", "500");
	point("200", "80", "500");
	point("500", "100", "");
	assert_int_equal(build(), -1);
	assert_problem("profile.csv", 3, "station", 0, "station does not grow after point 2.");
}

static void a_curve_that_does_not_fit_is_refused_with_what_is_missing(void **state)
{
	(void)state;
	north("0, 500, 100");
	point("0", "100", "");
	point("100", "80", "2000");
	point("400", "80", "200");
	point("500", "100", "");
	assert_int_equal(build(), -1);
	/* R tan(delta / 2) = 2000 * 0.0990195 = 198.039, and the tangent to the entry is 101.980 long */
	assert_problem("profile.csv", 3, "radius", 0,
		"the curve at point 2 does not fit: its tangent is 96.059 too long. A smaller radius, or points further "
		"apart.");
}

static void curves_that_overlap_are_refused(void **state)
{
	(void)state;
	north("0, 500, 100");
	turn("0", "0", "");
	turn("0", "200", "400");
	turn("60", "300", "400");
	turn("0", "500", "");
	point("0", "100", "");
	point("500", "100", "");
	assert_int_equal(build(), -1);
	assert_int_equal(problems.errors, 1);
	assert_string_equal(problems.list[0].file, "alignment.csv");
	assert_non_null(strstr(problems.list[0].text, "does not fit"));
}

static void curves_that_abut_are_one_after_the_other(void **state)
{
	/* Tangents of 60 and 60 on a leg of 120: R = 60 / tan(delta / 2) */
	double delta = atan2(50, 150), radius = 60 / tan(delta / 2);

	(void)state;
	north("0, 500, 100");
	point("0", "100", "");
	point("150", "50", "");
	point("270", "50", "");
	point("500", "100", "");
	job.profile[1].radius.value = radius;
	job.profile[2].radius.value = 60 / tan(atan2(50, 230) / 2);
	build_well();
	assert_int_equal(design.profile_count, 4);
	assert_true(sb_design_at(&design, 209.9).radius_m < 1000);
	assert_true(sb_design_at(&design, 210.1).radius_m < 1000);
}

static void a_corner_is_said_and_does_not_refuse(void **state)
{
	(void)state;
	north("0, 500, 100");
	point("0", "100", "");
	point("150", "80", "");
	point("500", "100", "");
	assert_int_equal(build(), 0);
	assert_int_equal(problems.errors, 0);
	assert_problem("profile.csv", 3, "radius", 1,
		"the line has a corner at point 2: no hole turns on the spot. Give it a radius.");
}

static void points_that_are_the_same_and_lines_that_turn_back_are_refused(void **state)
{
	(void)state;
	north("0, 500, 100");
	turn("0", "0", "");
	turn("0", "200", "300");
	turn("0", "200", "300");
	turn("0", "500", "");
	point("0", "100", "");
	point("500", "100", "");
	assert_int_equal(build(), -1);
	assert_problem("alignment.csv", 3, "", 0, "points 2 and 3 are the same.");
	job.alignment_count = 0;
	turn("0", "0", "");
	turn("0", "600", "300");
	turn("0", "500", "");
	assert_int_equal(build(), -1);
	assert_problem("alignment.csv", 3, "", 0, "the line turns right back at point 2.");
}

static void ends_that_miss_by_the_rounding_of_a_drawing_pass(void **state)
{
	(void)state;
	north("0, 500, 100");
	turn("0", "0.005", "");
	turn("0.004", "500", "");
	point("0.005", "100.009", "");
	point("500.004", "99.992", "");
	build_well();
}

static void ends_that_miss_by_little_are_said_and_by_much_refused(void **state)
{
	(void)state;
	north("0, 500, 100");
	point("0", "100.5", "");
	point("502", "96", "");
	assert_int_equal(build(), 0);
	assert_problem("profile.csv", 0, "station", 1,
		"the last station is 502.000, but the alignment ends at station 500.000: 2.000 apart. They must agree.");
	assert_problem("profile.csv", 0, "elevation", 1,
		"the first elevation is 100.500, but [control] entry says 100.000: 0.500 apart. They must agree.");
	assert_problem("profile.csv", 0, "elevation", 1,
		"the last elevation is 96.000, but [control] exit says 100.000: 4.000 apart. They must agree.");
	job.profile_count = 0;
	point("3", "100", "");
	point("506", "100", "");
	assert_int_equal(build(), -1);
	assert_problem("profile.csv", 0, "station", 1,
		"the first station is 3.000, but the entry is at station 0.000: 3.000 apart. They must agree.");
	assert_problem("profile.csv", 0, "station", 0,
		"the last station is 506.000, but the alignment ends at station 500.000: 6.000 apart. They must agree.");
	job.profile_count = 0;
	point("0", "100", "");
	point("500", "100", "");
	turn("0", "-20", "");
	turn("0.5", "500", "");
	assert_int_equal(build(), -1);
	assert_problem("alignment.csv", 0, "", 0,
		"the first point lies 20.000 from the entry in [control]: they must be the same place.");
	assert_problem("alignment.csv", 0, "", 1,
		"the last point lies 0.500 from the exit in [control]: they must be the same place.");
}

static void a_design_tighter_than_a_pipe_is_said_with_its_station(void **state)
{
	(void)state;
	crossing_with_overlapping_curves();
	jobs_set(&job, "product_pipe", "minimum_radius", "280");
	jobs_set(&job, "drill_pipe", "minimum_radius", "110");
	assert_int_equal(build(), 0);
	char says[300];
	snprintf(says, sizeof says,
		"the design bends to a radius of 240 near station %.1f, horizontal and vertical curve together; the product "
		"pipe takes 280 at least. Ask the engineer before drilling.",
		design.tightest_station_m);
	assert_problem("profile.csv", 0, "radius", 1, says);
	/* A thousandth less is the rounding of a drawing. */
	jobs_set(&job, "product_pipe", "minimum_radius", "240.1");
	assert_int_equal(build(), 0);
	for (size_t i = 0; i < problems.count; i++)
		assert_null(strstr(problems.list[i].text, "Ask the engineer"));
}

static void everything_wrong_is_listed_at_once(void **state)
{
	(void)state;
	north("0, 500, 100");
	turn("0", "0", "");
	turn("0", "0", "");
	turn("0", "500", "");
	point("0", "100", "");
	job.entry.easting = sb_number_of(1, 0); /* so that the first tangent has a bearing */
	job.alignment[1].northing = sb_number_of(0, 0);
	sb_design_clear(&design);
	frame = (struct frame){ .metre = 1, .scale = 1 };
	assert_int_equal(sb_design_build(&job, &frame, &design, &problems), -1);
	assert_problem("alignment.csv", 2, "", 0, "points 1 and 2 are the same.");
	assert_problem(
		"profile.csv", 0, "", 0, "fewer than two points: a line needs its beginning and its end.");
	sb_design_clear(&design);
	assert_int_equal(sb_design_build(&job, &frame, &design, NULL), -1);
}

/* ---- the ground ---- */

static void the_ground_is_known_between_its_points(void **state)
{
	double u;

	(void)state;
	jobs_plain(&job);
	assert_int_equal(sb_frame_init(&job, &frame, NULL), 0);
	assert_true(sb_design_ground(&job, &frame, 0, &u));
	assert_near(u, 100 * 0.3048, 1e-12);
	assert_true(sb_design_ground(&job, &frame, 150 * 0.3048, &u));
	assert_near(u, 92.5 * 0.3048, 1e-12);
	assert_true(sb_design_ground(&job, &frame, 600 * 0.3048, &u));
	assert_near(u, 70 * 0.3048, 1e-12);
	u = 77;
	assert_false(sb_design_ground(&job, &frame, -0.01, &u));
	assert_false(sb_design_ground(&job, &frame, 1200.1 * 0.3048, &u));
	assert_near(u, 77, 0);
	/* Once the last point was not known where feet to metres and back came out a hair more. */
	for (int i = 1; i <= 1200; i++) {
		job.ground[2].station = sb_number_of(600 + i / 7.0, 3);
		assert_true(sb_design_ground(
			&job, &frame, sb_frame_metres(&frame, job.ground[2].station.value), &u));
		assert_near(u, 100 * 0.3048, 1e-9);
	}
}

/* A bank: two elevations at one station. */
static void a_step_in_the_ground_is_no_gap(void **state)
{
	double u;

	(void)state;
	north("0, 500, 100");
	jobs_row(&job, "ground", (const char *const[]){ "0", "100" });
	jobs_row(&job, "ground", (const char *const[]){ "200", "100" });
	jobs_row(&job, "ground", (const char *const[]){ "200", "90" });
	jobs_row(&job, "ground", (const char *const[]){ "500", "90" });
	assert_int_equal(sb_frame_init(&job, &frame, NULL), 0);
	assert_true(sb_design_ground(&job, &frame, 199.9, &u));
	assert_near(u, 100, 1e-9);
	assert_true(sb_design_ground(&job, &frame, 200.1, &u));
	assert_near(u, 90, 1e-9);
	assert_true(sb_design_ground(&job, &frame, 200, &u));
	job.ground_count = 1;
	assert_false(sb_design_ground(&job, &frame, 0, &u));
	job.ground_count = 0;
	assert_false(sb_design_ground(&job, &frame, 0, &u));
}

#define HERE(name) cmocka_unit_test_setup_teardown(name, setup, teardown)

static const struct CMUnitTest tests[] = {
	HERE(a_profile_passes_where_its_curves_begin_and_end),
	HERE(both_curvatures_together_are_those_of_the_line_in_space),
	HERE(the_tightest_place_is_found_within_a_curve),
	HERE(headings_are_those_of_the_line),
	HERE(a_drawing_in_feet_on_a_grid_is_laid_out_in_ground_metres),
	HERE(a_profile_without_points_is_refused),
	HERE(stations_that_do_not_grow_are_refused),
	HERE(a_curve_that_does_not_fit_is_refused_with_what_is_missing),
	HERE(curves_that_overlap_are_refused),
	HERE(curves_that_abut_are_one_after_the_other),
	HERE(a_corner_is_said_and_does_not_refuse),
	HERE(points_that_are_the_same_and_lines_that_turn_back_are_refused),
	HERE(ends_that_miss_by_the_rounding_of_a_drawing_pass),
	HERE(ends_that_miss_by_little_are_said_and_by_much_refused),
	HERE(a_design_tighter_than_a_pipe_is_said_with_its_station),
	HERE(everything_wrong_is_listed_at_once),
	HERE(the_ground_is_known_between_its_points),
	HERE(a_step_in_the_ground_is_no_gap),
};

int main(void)
{
	return run_tests(tests);
}
