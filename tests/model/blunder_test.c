/* Slips of the pen on angles: which are caught, what is offered for them, and in what words. Lengths and
 * depths: blunder_depths_test.c; how often: blunder_rates_test.c. */
#include "model/blunder.h"

#include "base/str.h"
#include "drill.h"

static struct job job;
static struct solution solution;
static struct suspicion found[SB_SUSPICIONS];
static size_t count;

static int setup(void **state)
{
	(void)state;
	memset(&solution, 0, sizeof solution);
	memset(&job, 0, sizeof job);
	count = 0;
	return 0;
}

static int teardown(void **state)
{
	(void)state;
	sb_solution_clear(&solution);
	sb_job_clear(&job);
	return 0;
}

/* 36-inch pipe: the design turns at 3600 ft, 1800 ft is allowed over a joint of 31 ft. */
static const struct drill_pipe *const big = &pipes[5];

static void drill_joints(
	const struct drill_pipe *p, double bearing, const char *inclination, const char *azimuth, int joints)
{
	drill_job(&job, p, bearing);
	for (int i = 0; i < joints; i++)
		jobs_log(&job, "", inclination, azimuth);
	jobs_solve(&job, &solution);
}

/* A bore on the first tangent, reading the same every time. */
static void drill_straight(
	const struct drill_pipe *p, double bearing, const char *inclination, const char *azimuth)
{
	drill_joints(p, bearing, inclination, azimuth, 4);
}

static void look(const char *inclination, const char *azimuth)
{
	struct reading r = jobs_reading(&job, "", inclination, azimuth);

	count = sb_blunder_look(&job, &solution, &r, NULL, found);
}

static void assert_nothing_found(void)
{
	for (size_t i = 0; i < count; i++)
		print_error("%s\n", found[i].text);
	assert_int_equal(count, 0);
}

static void assert_held(const char *field, const char *slip, const char *likely)
{
	assert_int_equal(count, 1);
	if (!sb_same(found[0].slip, slip))
		print_error("%s\n", found[0].text);
	assert_string_equal(found[0].slip, slip);
	assert_string_equal(found[0].field, field);
	assert_true(found[0].held);
	assert_int_equal(found[0].has_likely, likely != NULL);
	if (likely)
		assert_string_equal(found[0].likely.text, likely);
}

/* ---- digits ---- */

/* A transposed azimuth: nine degrees in a joint, a radius of 197 ft. */
static void two_digits_of_an_azimuth_swapped_are_held_and_put_right(void **state)
{
	(void)state;
	drill_straight(big, 178.2, "82.0", "178.2");
	look("82.0", "178.4");
	assert_nothing_found();
	look("82.1", "187.2");
	assert_held("azimuth", "two digits swapped", "178.2");
	assert_string_equal(found[0].text,
		"Azimuth 187.2 would be a turn of 8.9 degrees since the last reading, more than this string can do. "
		"Meant 178.2? (two digits swapped)");
	assert_near(found[0].likely.value, 178.2, 0);
}

/* A transposed inclination: 0.9 degrees in a joint, 1974 ft on a design of 3600, within what a joint may
 * turn. */
static void two_digits_of_an_inclination_swapped_are_held_on_a_straight(void **state)
{
	(void)state;
	drill_straight(big, 178.2, "83.4", "178.2");
	look("83.5", "178.2");
	assert_nothing_found();
	look("84.3", "178.2");
	assert_held("inclination", "two digits swapped", "83.4");
	assert_string_equal(found[0].text,
		"Inclination 84.3 would be a turn of 0.9 degrees since the last reading. Meant 83.4? (two digits swapped)");
}

/* Half a degree a joint is what the design turns: 83.4 was due. */
static void and_in_a_curve(void **state)
{
	static const char *const built[] = { "82.0", "82.0", "82.0", "82.0", "82.4", "82.9" };

	(void)state;
	drill_job(&job, big, 178.2);
	for (size_t i = 0; i < sizeof built / sizeof *built; i++)
		jobs_log(&job, "", built[i], "178.2");
	jobs_solve(&job, &solution);
	look("83.4", "178.2");
	assert_nothing_found();
	look("84.3", "178.2");
	assert_held("inclination", "two digits swapped", "83.4");
}

static void digits_are_swapped_over_the_point_too(void **state)
{
	(void)state;
	drill_straight(big, 214.8, "82.0", "214.8");
	look("82.0", "218.4");
	assert_held("azimuth", "two digits swapped", "214.8");
}

static void a_point_left_out_is_put_back(void **state)
{
	(void)state;
	drill_straight(&pipes[9], 17.8, "-8.4", "17.8");
	look("-84", "17.8");
	assert_held("inclination", "decimal point left out", "-8.4");
	look("-8.4", "178");
	assert_held("azimuth", "decimal point left out", "17.8");
	/* 10.18 for 101.8 had been answered with 100.18. */
	look("-8.4", "1.78");
	assert_held("azimuth", "decimal point in the wrong place", "17.8");
}

static void a_digit_left_out_wrong_or_too_many_is_found_when_nothing_else_can_be(void **state)
{
	(void)state;
	drill_straight(big, 188.2, "82.0", "188.2");
	look("82.0", "18.2");
	assert_held("azimuth", "a digit left out", "188.2");
	look("82.0", "88.2");
	assert_held("azimuth", "a digit left out", "188.2");
	look("82.0", "138.2");
	assert_held("azimuth", "one digit wrong", "188.2");
	look("62.0", "188.2");
	assert_held("inclination", "one digit wrong", "82.0");
	sb_solution_clear(&solution);
	sb_job_clear(&job);
	drill_straight(big, 28.2, "82.0", "28.2");
	look("82.0", "288.2");
	assert_held("azimuth", "a digit too many", "28.2");
}

/* ---- conventions ---- */

static void a_sign_that_slipped_is_found_in_level_and_grade(void **state)
{
	(void)state;
	drill_straight(&pipes[9], 40, "-9.9", "40.0");
	look("9.9", "40.0");
	assert_held("inclination", "sign slipped", "-9.9");
	assert_string_equal(found[0].text,
		"Inclination 9.9 would be a turn of 19.8 degrees since the last reading, more than this string can do. "
		"Meant -9.9? (sign slipped)");
	sb_solution_clear(&solution);
	sb_job_clear(&job);
	drill_straight(&pipes[10], 40, "-17.6", "40.0");
	look("17.6", "40.0");
	assert_held("inclination", "sign slipped", "-17.6");
}

/* The same attitude, in the convention that the job does not have. */
static void one_convention_typed_for_another_is_put_into_the_jobs(void **state)
{
	static const struct {
		size_t pipe; /* down, level, grade */
		const char *right, *wrong, *likely, *slip;
	} table[] = {
		{ 5, "82.0", "8.0", "82.0", "read from level, sign lost" },
		{ 5, "97.5", "7.5", "97.5", "read from level, not from straight down" },
		{ 9, "-9.9", "80.1", "-9.9", "read from straight down, not from level" },
		{ 10, "-17.6", "80.0", "-17.6", "read from straight down, not in percent" },
	};

	(void)state;
	for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
		drill_straight(&pipes[table[i].pipe], 40, table[i].right, "40.0");
		look(table[i].wrong, "40.0");
		assert_held("inclination", table[i].slip, table[i].likely);
		sb_solution_clear(&solution);
		sb_job_clear(&job);
	}
}

static void degrees_and_percent_are_told_apart_where_it_shows(void **state)
{
	(void)state;
	drill_straight(&pipes[10], 40, "-26.0", "40.0"); /* percent; 14.6 degrees */
	look("-14.6", "40.0");
	assert_held("inclination", "in degrees, not in percent", "-26.0");
	sb_solution_clear(&solution);
	sb_job_clear(&job);
	drill_straight(&pipes[8], 40, "-14.6", "40.0"); /* degrees; 26 percent */
	look("-26.0", "40.0");
	assert_held("inclination", "in percent, not in degrees", "-14.6");
}

static void angles_in_each_others_place_are_held(void **state)
{
	(void)state;
	drill_straight(big, 103.2, "82.0", "103.2");
	look("103.2", "82.0");
	assert_held("inclination", "inclination and azimuth exchanged", "82.0");
	assert_string_equal(found[0].text,
		"Inclination 103.2 and azimuth 82.0 would be a turn of 29.9 degrees since the last reading, more than "
		"this string can do. Meant inclination 82.0 and azimuth 103.2? (exchanged)");
}

static void an_azimuth_read_back_to_front_is_turned_round(void **state)
{
	(void)state;
	drill_straight(big, 103.2, "82.0", "103.2");
	look("82.0", "283.2");
	assert_held("azimuth", "read back to front, 180 degrees round", "103.2");
	sb_solution_clear(&solution);
	sb_job_clear(&job);
	drill_straight(big, 283.2, "82.0", "283.2");
	look("82.0", "103.2");
	assert_held("azimuth", "read back to front, 180 degrees round", "283.2");
}

static void a_declination_put_in_already_is_taken_out(void **state)
{
	(void)state;
	drill_job(&job, big, 103);
	jobs_set(&job, "azimuth", "reference", "magnetic");
	jobs_set(&job, "azimuth", "declination", "14.5");
	jobs_set(&job, "azimuth", "convergence", "0");
	for (int i = 0; i < 5; i++)
		jobs_log(&job, "", "82.0", "88.5");
	jobs_solve(&job, &solution);
	look("82.0", "103.0");
	assert_held("azimuth", "declination put in already", "88.5");
	look("82.0", "74.0");
	assert_held("azimuth", "declination taken out already", "88.5");
}

/* ---- what cannot be, and what can ---- */

static void a_turn_that_no_slip_explains_is_to_be_read_again(void **state)
{
	(void)state;
	drill_straight(big, 178.2, "82.0", "178.2");
	look("69.7", "301.5");
	assert_held("azimuth", "turns further than it can", NULL);
	assert_string_equal(found[0].text,
		"Turned 117.5 degrees since the last reading, a radius of 15 ft: more than this string can do. Read it "
		"again.");
}

/* Over north, 359.8 and 0.2 are 0.4 apart. */
static void north_is_crossed_without_a_word(void **state)
{
	(void)state;
	drill_straight(big, 359.8, "82.0", "359.8");
	look("82.0", "0.2");
	assert_nothing_found();
	look("82.0", "360");
	assert_nothing_found();
	look("82.0", "0");
	assert_nothing_found();
}

/* 31 ft at 600 ft are 3 degrees: with noise 3.5 pass over one joint, and over two twice as much. */
static void a_course_over_a_missing_joint_may_turn_twice_as_far(void **state)
{
	(void)state;
	drill_straight(big, 178.2, "82.0", "178.2");
	look("77.5", "178.2");
	assert_held("inclination", "turns further than it can", NULL);
	jobs_log(&job, "", "", "");
	sb_solution_clear(&solution);
	jobs_solve(&job, &solution);
	look("77.5", "178.2");
	assert_nothing_found();
}

static void where_the_sheet_has_no_radius_five_degrees_a_joint_can_be(void **state)
{
	(void)state;
	drill_straight(&pipes[10], 40, "-17.6", "40.0");
	look("-17.6", "44.9");
	assert_nothing_found();
	look("-17.6", "47.0");
	assert_int_equal(count, 1);
	assert_true(found[0].held);
	assert_non_null(strstr(found[0].text, "more than this string can do"));
}

static void the_first_reading_is_measured_against_the_design(void **state)
{
	(void)state;
	drill_job(&job, big, 103.2);
	jobs_solve(&job, &solution);
	look("80.0", "108.0"); /* staked a little off the drawing */
	assert_nothing_found();
	look("82.0", "283.2");
	assert_held("azimuth", "read back to front, 180 degrees round", "103.2");
	assert_string_equal(found[0].text,
		"Azimuth 283.2 would be a turn of 164.0 degrees from the design's heading at the entry. Meant 103.2? "
		"(read back to front, 180 degrees round)");
	look("69.7", "223.8");
	assert_held("azimuth", "turns further than it can", NULL);
	assert_string_equal(found[0].text,
		"This is 115.1 degrees away from the design's heading at the entry. Read it again; if it holds, look at "
		"the azimuth reference and the inclination convention.");
}

static void or_against_the_heading_that_was_staked(void **state)
{
	(void)state;
	drill_job(&job, big, 103.2);
	jobs_set(&job, "entry", "inclination", "82");
	jobs_set(&job, "entry", "azimuth", "103.2");
	jobs_solve(&job, &solution);
	look("82.1", "102.9");
	assert_nothing_found();
	look("82.0", "130.2");
	assert_held("azimuth", "two digits swapped", "103.2");
	assert_non_null(strstr(found[0].text, "from the heading staked at the entry, more than"));
}

/* A slip that was logged as it is would make nine degrees ordinary, if it counted in full. */
static void a_slip_that_was_logged_does_not_excuse_the_next(void **state)
{
	(void)state;
	drill_straight(big, 178.2, "83.4", "178.2");
	jobs_log(&job, "", "83.4", "187.2");
	jobs_log(&job, "", "83.4", "178.2");
	sb_solution_clear(&solution);
	jobs_solve(&job, &solution);
	look("83.4", "187.2");
	assert_held("azimuth", "two digits swapped", "178.2");
}

/* As if the joints after it had not been drilled: it is measured against the joint before it, not the last.
 */
static void a_correction_is_looked_at_where_it_stands(void **state)
{
	(void)state;
	drill_job(&job, big, 178.2);
	jobs_log(&job, "", "82.0", "178.2");
	jobs_log(&job, "", "82.1", "178.2");
	jobs_log(&job, "", "82.2", "178.2");
	for (int i = 3; i < 40; i++)
		jobs_log(&job, "", typed(82.2 + 0.2 * (i - 2), 1), "178.2");
	const struct reading *old = sb_job_joint(&job, 3);
	struct reading r = *old;
	count = sb_blunder_look_again(&job, old, &r, found);
	assert_nothing_found();
	assert_int_equal(sb_number_parse("187.2", &r.azimuth, NULL), 0);
	count = sb_blunder_look_again(&job, old, &r, found);
	assert_held("azimuth", "two digits swapped", "178.2");
	/* a joint that is not in the ground any more has no place to be looked at in */
	jobs_withdraw(&job, 2);
	old = sb_job_joint_in_leg(&job, 1, 3);
	assert_non_null(old);
	assert_int_equal(sb_blunder_look_again(&job, old, &r, found), 0);
}

static void a_joint_without_a_reading_has_no_angles_to_look_at(void **state)
{
	(void)state;
	drill_straight(big, 178.2, "83.4", "178.2");
	look("", "");
	assert_nothing_found();
}

#define HERE(name) cmocka_unit_test_setup_teardown(name, setup, teardown)

static const struct CMUnitTest tests[] = {
	HERE(two_digits_of_an_azimuth_swapped_are_held_and_put_right),
	HERE(two_digits_of_an_inclination_swapped_are_held_on_a_straight),
	HERE(and_in_a_curve),
	HERE(digits_are_swapped_over_the_point_too),
	HERE(a_point_left_out_is_put_back),
	HERE(a_digit_left_out_wrong_or_too_many_is_found_when_nothing_else_can_be),
	HERE(a_sign_that_slipped_is_found_in_level_and_grade),
	HERE(one_convention_typed_for_another_is_put_into_the_jobs),
	HERE(degrees_and_percent_are_told_apart_where_it_shows),
	HERE(angles_in_each_others_place_are_held),
	HERE(an_azimuth_read_back_to_front_is_turned_round),
	HERE(a_declination_put_in_already_is_taken_out),
	HERE(a_turn_that_no_slip_explains_is_to_be_read_again),
	HERE(north_is_crossed_without_a_word),
	HERE(a_course_over_a_missing_joint_may_turn_twice_as_far),
	HERE(where_the_sheet_has_no_radius_five_degrees_a_joint_can_be),
	HERE(the_first_reading_is_measured_against_the_design),
	HERE(or_against_the_heading_that_was_staked),
	HERE(a_slip_that_was_logged_does_not_excuse_the_next),
	HERE(a_correction_is_looked_at_where_it_stands),
	HERE(a_joint_without_a_reading_has_no_angles_to_look_at),
};

int main(void)
{
	return run_tests(tests);
}
