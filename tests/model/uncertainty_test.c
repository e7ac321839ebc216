/* From the sheet's sigmas to what stands beside each row: closed forms on a straight bore, the axes of the
 * design, the bit, the chance of being outside and the contract that judges by it. */
#include "model/uncertainty.h"

#include "base/str.h"
#include "geom/angle.h"
#include "model/setting.h"
#include "support/jobs.h"
#include "support/near.h"

#include <string.h>

#define FOOT 0.3048

static struct job job;
static struct solution solution;

static int setup(void **state)
{
	(void)state;
	memset(&job, 0, sizeof job);
	memset(&solution, 0, sizeof solution);
	return 0;
}

static int teardown(void **state)
{
	(void)state;
	sb_solution_clear(&solution);
	sb_job_clear(&job);
	return 0;
}

/* Straight along a grade due east in feet, joints of 50, staked, no term but what a test sets. */
static void quiet_job(double grade)
{
	static const char *const terms[][2] = { { "tool", "sigma_inclination" }, { "tool", "sigma_azimuth" },
		{ "tool", "sigma_depth" }, { "tool", "bias_inclination" }, { "tool", "bias_azimuth" },
		{ "uncertainty", "declination" }, { "uncertainty", "declination_by_field" },
		{ "uncertainty", "string_field" }, { "uncertainty", "depth_scale" },
		{ "uncertainty", "carried_bias" }, { "uncertainty", "carried_noise" } };
	char end[32];

	sb_setting_init(&job);
	jobs_set(&job, "job", "unit", "ft");
	jobs_set(&job, "job", "inclination", "grade");
	jobs_set(&job, "control", "entry", "0, 0, 0");
	snprintf(end, sizeof end, "3000, 0, %.4f", 30 * grade);
	jobs_set(&job, "control", "exit", end);
	jobs_set(&job, "azimuth", "reference", "grid");
	jobs_set(&job, "tool", "sensor_to_bit", "0");
	jobs_set(&job, "drill_pipe", "joint_length", "50");
	jobs_set(&job, "corridor", "up", "3");
	jobs_set(&job, "corridor", "down", "3");
	jobs_set(&job, "corridor", "left", "4");
	jobs_set(&job, "corridor", "right", "4");
	snprintf(end, sizeof end, "%.2f", grade);
	jobs_set(&job, "entry", "inclination", end);
	jobs_set(&job, "entry", "azimuth", "90");
	jobs_row(&job, "profile", (const char *const[]){ "0", "0", "" });
	snprintf(end, sizeof end, "%.4f", 30 * grade);
	jobs_row(&job, "profile", (const char *const[]){ "3000", end, "" });
	for (size_t i = 0; i < sizeof terms / sizeof *terms; i++)
		jobs_set(&job, terms[i][0], terms[i][1], "0");
}

static void drill(int joints, const char *inclination)
{
	for (int i = 0; i < joints; i++)
		jobs_log(&job, "", inclination, "90");
	jobs_solve(&job, &solution);
}

static const struct row *last(void)
{
	return sb_solution_last(&solution);
}

/* Derived: 0.3 degrees over 1,000 ft is 5.236 ft. */
static void a_bias_of_the_azimuth_carries_the_bore_aside(void **state)
{
	(void)state;
	quiet_job(0);
	jobs_set(&job, "tool", "bias_azimuth", "0.3");
	drill(20, "0");
	assert_near(last()->doubt.across_m / FOOT, 5.236, 5e-4);
	assert_near(last()->doubt.along_m, 0, 1e-9);
	assert_near(last()->doubt.up_m, 0, 1e-9);
}

/* Derived: d s sqrt(n - 1/2), and L s. */
static void noise_and_bias_of_the_inclination_lift_it(void **state)
{
	(void)state;
	quiet_job(0);
	jobs_set(&job, "tool", "sigma_inclination", "0.1");
	jobs_set(&job, "tool", "bias_inclination", "0.2");
	drill(20, "0");
	double noise = 50 * sb_rad(0.1) * sqrt(19.5), bias = 1000 * sb_rad(0.2);
	assert_near(last()->doubt.up_m / FOOT, hypot(noise, bias), 1e-9);
}

/* Derived: joints of sigma 0.05 ft, 20 of them, and a thousandth of the depth. */
static void lengths_push_it_along(void **state)
{
	(void)state;
	quiet_job(0);
	jobs_set(&job, "tool", "sigma_depth", "0.05");
	jobs_set(&job, "uncertainty", "depth_scale", "0.001");
	drill(20, "0");
	assert_near(last()->doubt.along_m / FOOT, hypot(0.05 * sqrt(20), 1), 1e-9);
}

static void where_the_sheet_is_silent_a_joint_errs_by_a_thousandth(void **state)
{
	(void)state;
	quiet_job(0);
	memset(&job.sigma_depth, 0, sizeof job.sigma_depth);
	drill(16, "0");
	assert_near(last()->doubt.along_m / FOOT, 0.05 * 4, 1e-9);
}

/* WMM2025 report, section 3.4: 0.29 degrees at H = 41875 nT. Its figure has two decimals. */
static void the_declination_is_as_sure_as_the_field_model_says(void **state)
{
	(void)state;
	quiet_job(0);
	jobs_set(&job, "uncertainty", "declination", "0.26");
	jobs_set(&job, "uncertainty", "declination_by_field", "5417");
	jobs_set(&job, "uncertainty", "horizontal_field", "41875");
	drill(20, "0");
	assert_near(sb_deg(last()->doubt.across_m / (1000 * FOOT)), 0.29, 0.005);
	assert_near(sb_deg(last()->doubt.across_m / (1000 * FOOT)), 0.2904, 5e-5);
}

static void a_bore_read_on_its_own_line_knows_no_declination(void **state)
{
	(void)state;
	quiet_job(0);
	jobs_set(&job, "uncertainty", "declination", "5");
	jobs_set(&job, "azimuth", "reference", "bore");
	jobs_set(&job, "azimuth", "bore_azimuth_read", "90");
	drill(20, "0");
	assert_near(last()->doubt.across_m, 0, 1e-12);
}

/* Derived: 200 nT of the string over 20000 nT, due east by compass, is 0.01 rad; with 30 degrees of
 * declination the bore lies at 60 by compass. */
static void the_string_is_felt_by_the_compass_azimuth(void **state)
{
	(void)state;
	quiet_job(0);
	jobs_set(&job, "uncertainty", "string_field", "200");
	drill(20, "0");
	assert_near(last()->doubt.across_m / FOOT, 10, 1e-9);
	jobs_set(&job, "azimuth", "declination", "30");
	jobs_solve(&job, &solution);
	assert_near(last()->doubt.across_m / FOOT, 10 * sin(sb_rad(60)), 1e-9);
}

/* Derived: 20 joints of 50 ft by compass but the last 10 by gyro: each bias turns the courses between its own
 * readings, and half of the course where one takes over from the other. */
static void a_stretch_by_gyro_has_the_errors_of_the_gyro(void **state)
{
	(void)state;
	quiet_job(0);
	jobs_set(&job, "tool", "bias_azimuth", "1");
	jobs_set(&job, "uncertainty", "carried_bias", "0.5");
	jobs_set(&job, "azimuth", "convergence", "0");
	for (int i = 1; i <= 20; i++) {
		struct reading r = jobs_reading(&job, "", "0", "90");
		r.id = i;
		r.azimuth_by = i > 10 ? AZIMUTH_BY_GYRO : AZIMUTH_BY_TOOL;
		sb_job_add_reading(&job, &r);
	}
	jobs_solve(&job, &solution);
	assert_near(last()->doubt.across_m / FOOT, hypot(525 * sb_rad(1), 475 * sb_rad(0.5)), 1e-9);
}

/* Derived: a place that slips along a line of 20 percent stays on it: it is as high above the design as
 * before. */
static void slipping_along_a_slope_is_no_height(void **state)
{
	(void)state;
	quiet_job(-20);
	jobs_set(&job, "uncertainty", "depth_scale", "0.01");
	drill(20, "-20");
	assert_near(last()->doubt.along_m / FOOT, 10, 1e-6);
	assert_near(last()->doubt.up_m, 0, 1e-6);
}

/* Derived: an inclination bias turns the course by L s square to it: L s / cos of the slope as height. */
static void height_is_measured_plumb(void **state)
{
	(void)state;
	quiet_job(-20);
	jobs_set(&job, "tool", "bias_inclination", "0.1");
	drill(20, "-20");
	assert_near(last()->doubt.up_m / FOOT, 1000 * sb_rad(0.1) / cos(atan(0.2)), 1e-6);
}

static void a_trial_is_as_sure_as_the_joint_that_it_becomes(void **state)
{
	struct preview trial;
	struct reading r;
	struct sb_err err;

	(void)state;
	jobs_plain(&job);
	jobs_follow(&job, 12);
	jobs_solve(&job, &solution);
	r = jobs_reading(&job, "", "89", "91");
	assert_int_equal(sb_solve_preview(&job, &solution, &r, &trial, &err), 0);
	jobs_log(&job, "", "89", "91");
	jobs_solve(&job, &solution);
	assert_memory_equal(&trial.row.uncert, &last()->uncert, sizeof trial.row.uncert);
	assert_memory_equal(&trial.row.doubt, &last()->doubt, sizeof trial.row.doubt);
	assert_near(trial.row.outside, last()->outside, 0);
}

static void pulling_back_leaves_what_was_known_there(void **state)
{
	struct doubt before;

	(void)state;
	jobs_plain(&job);
	jobs_follow(&job, 8);
	jobs_solve(&job, &solution);
	before = last()->doubt;
	jobs_log(&job, "", "89", "91");
	jobs_log(&job, "", "88", "92");
	jobs_withdraw(&job, 8);
	jobs_solve(&job, &solution);
	assert_memory_equal(&before, &last()->doubt, sizeof before);
}

static void a_joint_without_a_reading_is_as_sure_as_where_the_path_ends(void **state)
{
	(void)state;
	jobs_plain(&job);
	jobs_follow(&job, 8);
	jobs_log(&job, "", "", "");
	jobs_solve(&job, &solution);
	const struct row *row = last();
	assert_memory_equal(&row[-1].doubt, &row->doubt, sizeof row->doubt);
	jobs_log(&job, "", "90", "90");
	jobs_solve(&job, &solution);
	assert_true(last()->doubt.across_m > last()[-1].doubt.across_m);
}

/* The bit is further on, and where it has turned since is not known. */
static void the_bit_is_less_sure_than_the_sensor(void **state)
{
	(void)state;
	jobs_plain(&job);
	jobs_set(&job, "tool", "sensor_to_bit", "40");
	jobs_follow(&job, 8);
	jobs_solve(&job, &solution);
	assert_true(solution.bit.doubt.across_m > last()->doubt.across_m);
	assert_true(solution.bit.doubt.up_m > last()->doubt.up_m);
}

/* Derived: a bore of no errors but the bias, held straight, has the bias's share of the whole length at the
 * bit, and beside it half of what 40 ft of drilling may turn, over 40 ft. */
static void the_bit_has_the_readings_doubt_carried_on_and_its_own(void **state)
{
	double up, right;

	(void)state;
	quiet_job(0);
	jobs_set(&job, "tool", "sensor_to_bit", "40");
	jobs_set(&job, "tool", "bias_azimuth", "0.3");
	drill(20, "0");
	struct setup s = sb_solution_setup(&job, &solution);
	sb_response_unsure(&s, &solution.path, &solution.response, 960 * FOOT, 1000 * FOOT, &up, &right);
	assert_true(right > 0);
	assert_near(solution.bit.doubt.across_m, hypot(1000 * FOOT * sb_rad(0.3), 20 * FOOT * right), 1e-9);
	assert_near(solution.bit.doubt.up_m, 20 * FOOT * up, 1e-9);
}

/* Derived: on the line with 5.236 ft across and nothing up, outside 4 ft: erfc(4 / 5.236 / sqrt 2). */
static void the_chance_of_being_outside_is_that_of_the_corridor(void **state)
{
	(void)state;
	quiet_job(0);
	jobs_set(&job, "tool", "bias_azimuth", "0.3");
	drill(20, "0");
	assert_near(last()->outside, erfc(4 / (1000 * sb_rad(0.3)) / sqrt(2)), 1e-9);
}

static void a_contract_that_judges_the_mean_warns_of_no_chance(void **state)
{
	(void)state;
	quiet_job(0);
	jobs_set(&job, "tool", "bias_azimuth", "0.3");
	drill(20, "0");
	assert_int_equal(solution.level, LEVEL_OK);
}

static const struct warning *corridor_warning(void)
{
	for (size_t i = 0; i < solution.warning_count; i++)
		if (solution.warnings[i].kind == WARNING_CORRIDOR)
			return &solution.warnings[i];
	return NULL;
}

/* Derived: 5 percent are outside 4 ft when one sigma is 4 / 1.95996 = 2.041 ft, at 389.8 ft: joint 8 is the
 * first past it; 3.5 percent (0.7 of that) when it is 4 / 2.1084, at 362.3 ft: joint 8 too. */
static void a_contract_that_judges_on_confidence_warns_of_the_chance(void **state)
{
	(void)state;
	quiet_job(0);
	jobs_set(&job, "tool", "bias_azimuth", "0.3");
	jobs_set(&job, "uncertainty", "judge", "confidence");
	drill(7, "0");
	assert_int_equal(solution.level, LEVEL_OK);
	jobs_log(&job, "", "0", "90");
	jobs_solve(&job, &solution);
	const struct warning *w = corridor_warning();
	assert_non_null(w);
	assert_int_equal(w->level, LEVEL_BREACH);
	assert_int_equal(w->joint, 8);
	assert_near(w->value, 100 * erfc(4 / (400 * sb_rad(0.3)) / sqrt(2)), 1e-6);
	assert_near(w->limit, 5, 1e-12);
	assert_string_equal(w->text,
		"Joint 8: 5.6 % chance of being outside the corridor, 5 % is left. It lies there give or take 4.1 ft "
		"across, 0.0 in height (95 %). Get an independent fix, or pull back and redrill.");
	assert_int_equal(solution.bit.level, LEVEL_BREACH);
}

/* A slide at the joint's start turns early what the readings show at its end. With arcs as the record that is
 * a doubt, as large as the shift; with slides as the record it is where the bore is. */
static void slides_early_in_a_joint_are_a_doubt_of_the_arc(void **state)
{
	(void)state;
	quiet_job(0);
	jobs_set(&job, "steering", "slide_turn", "0.05");
	struct reading r = jobs_reading(&job, "", "0", "90");
	r.leg = 1;
	r.joint = 1;
	r.id = 1;
	struct reading turned = jobs_reading(&job, "", "0", "91");
	turned.leg = 1;
	turned.joint = 2;
	turned.id = 2;
	sb_copy(turned.pushes, sizeof turned.pushes, "0:20@90");
	sb_job_add_reading(&job, &r);
	sb_job_add_reading(&job, &turned);
	jobs_solve(&job, &solution);
	const struct row *row = last();
	double shift = sb_path_shift(&solution.design, COURSE_BY_ARC, row).offset_m;
	assert_true(shift > 0.01 * FOOT);
	assert_near(row->doubt.across_m, shift, 1e-4);
	assert_near(solution.bit.doubt.across_m, row->doubt.across_m, 1e-9);
	jobs_set(&job, "survey", "course", "slides");
	sb_solution_clear(&solution);
	jobs_solve(&job, &solution);
	assert_near(last()->doubt.across_m, 0, 1e-9);
}

static void confidence_says_how_far_give_or_take_reaches(void **state)
{
	(void)state;
	quiet_job(0);
	jobs_set(&job, "uncertainty", "confidence", "90");
	drill(1, "0");
	assert_near(solution.uncertainty.line_factor, 1.644854, 1e-6);
	assert_near(solution.uncertainty.plane_factor, 2.145966, 1e-6);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
#define TEST(name) cmocka_unit_test_setup_teardown(name, setup, teardown)
		TEST(a_bias_of_the_azimuth_carries_the_bore_aside),
		TEST(noise_and_bias_of_the_inclination_lift_it),
		TEST(lengths_push_it_along),
		TEST(where_the_sheet_is_silent_a_joint_errs_by_a_thousandth),
		TEST(the_declination_is_as_sure_as_the_field_model_says),
		TEST(a_bore_read_on_its_own_line_knows_no_declination),
		TEST(the_string_is_felt_by_the_compass_azimuth),
		TEST(a_stretch_by_gyro_has_the_errors_of_the_gyro),
		TEST(slipping_along_a_slope_is_no_height),
		TEST(height_is_measured_plumb),
		TEST(a_trial_is_as_sure_as_the_joint_that_it_becomes),
		TEST(pulling_back_leaves_what_was_known_there),
		TEST(a_joint_without_a_reading_is_as_sure_as_where_the_path_ends),
		TEST(the_bit_is_less_sure_than_the_sensor),
		TEST(the_bit_has_the_readings_doubt_carried_on_and_its_own),
		TEST(the_chance_of_being_outside_is_that_of_the_corridor),
		TEST(a_contract_that_judges_the_mean_warns_of_no_chance),
		TEST(a_contract_that_judges_on_confidence_warns_of_the_chance),
		TEST(slides_early_in_a_joint_are_a_doubt_of_the_arc),
		TEST(confidence_says_how_far_give_or_take_reaches),
	};

	return run_tests(tests);
}
