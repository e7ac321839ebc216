/* Slips of the pen on joints: their lengths, the depths that somebody read on the rig, what was slid. */
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

static void look_at_depth(const char *bit, const char *survey)
{
	struct reading r = jobs_reading(&job, "", "", "");
	struct depth_check depths = { 0 };

	assert_int_equal(*bit ? sb_number_parse(bit, &depths.bit_depth, NULL) : 0, 0);
	assert_int_equal(*survey ? sb_number_parse(survey, &depths.survey_depth, NULL) : 0, 0);
	count = sb_blunder_look(&job, &solution, &r, &depths, found);
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

/* ---- lengths ---- */

static void look_at_joint(const char *length)
{
	struct reading r = jobs_reading(&job, length, "82.0", "178.2");

	count = sb_blunder_look(&job, &solution, &r, NULL, found);
}

static void two_joints_in_one_and_half_of_one_are_held(void **state)
{
	(void)state;
	drill_joints(big, 178.2, "82.0", "178.2", 7);
	jobs_row(&job, "tally", (const char *const[]){ "8", "30.4" });
	look_at_joint("");
	assert_nothing_found();
	look_at_joint("61.4");
	assert_held("joint_length", "two joints in one", "30.4");
	assert_string_equal(found[0].text,
		"Joint 8 is 30.4 ft by the tally, and 61.4 ft was typed. Was a joint forgotten? Log each joint by itself.");
	look_at_joint("12");
	assert_held("joint_length", "less than a joint", "30.4");
	assert_string_equal(
		found[0].text, "Joint 8 is 30.4 ft by the tally, and 12 ft was typed. Is the joint down?");
	look_at_joint("304");
	assert_held("joint_length", "two joints in one", "30.4");
}

static void a_length_that_is_not_the_tallys_is_only_said(void **state)
{
	(void)state;
	drill_joints(big, 178.2, "82.0", "178.2", 7);
	look_at_joint("31.5");
	assert_nothing_found(); /* within 2 percent of 31 */
	look_at_joint("32.5");
	assert_int_equal(count, 1);
	assert_false(found[0].held);
	assert_string_equal(found[0].text, "Joint 8 is 31.00 ft by the tally, and 32.5 ft was typed.");
	assert_string_equal(found[0].likely.text, "31.00");
}

static void a_reading_without_a_length_has_the_tallys(void **state)
{
	(void)state;
	drill_joints(big, 178.2, "82.0", "178.2", 7);
	struct reading r = jobs_reading(&job, "", "82.0", "187.2");
	memset(&r.joint_length, 0, sizeof r.joint_length);
	count = sb_blunder_look(&job, &solution, &r, NULL, found);
	assert_held("azimuth", "two digits swapped", "178.2");
}

/* ---- depths: 7 joints of 31 ft are in the ground, and the sensor is 31 ft behind the bit ---- */

static void depths_that_fit_pass(void **state)
{
	(void)state;
	drill_joints(big, 178.2, "82.0", "178.2", 7);
	look_at_depth("248", "217");
	assert_nothing_found();
	look_at_depth("248.4", "216.6"); /* 0.15 m: a counter is no tape */
	assert_nothing_found();
	look_at_depth("", "");
	assert_nothing_found();
}

static void each_way_to_get_a_depth_wrong_has_its_name(void **state)
{
	static const struct {
		const char *bit, *survey, *field, *slip, *likely, *text;
	} table[] = {
		{ "235.5", "", "bit_depth", "sensor depth given as bit depth", "248.00",
			"Bit depth 235.5 ft is the depth of the sensor: the bit is at 248.00." },
		{ "", "248", "survey_depth", "bit depth given as sensor depth", "235.50",
			"Survey depth 248 ft is the depth of the bit: the sensor is at 235.50." },
		{ "279.1", "", "bit_depth", "a joint forgotten", "248.00",
			"Bit depth 279.1 ft is one joint deeper than the log: 8 joints make 248.00. Was joint 8 forgotten? Log "
			"it first." },
		{ "", "266.5", "survey_depth", "a joint forgotten", "235.50",
			"Survey depth 266.5 ft is one joint deeper than the log: 8 joints make 235.50. Was joint 8 forgotten? "
			"Log it first." },
		{ "217.0", "", "bit_depth", "a joint logged twice", "248.00",
			"Bit depth 217.0 ft is where joint 7 ended: that joint is logged already. To change it, correct joint 7." },
		{ "186", "", "bit_depth", "depth goes back", "248.00",
			"Bit depth 186 ft goes back: 8 joints make 248.00. Count the joints in the ground." },
		{ "310", "", "bit_depth", "depth and joints disagree", "248.00",
			"Bit depth 310 ft does not fit the tally: 8 joints make 248.00. Count the joints in the ground." },
	};

	(void)state;
	drill_job(&job, big, 178.2);
	jobs_set(&job, "tool", "sensor_to_bit", "12.5");
	for (int i = 0; i < 7; i++)
		jobs_log(&job, "", "82.0", "178.2");
	jobs_solve(&job, &solution);
	for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
		look_at_depth(table[i].bit, table[i].survey);
		assert_held(table[i].field, table[i].slip, table[i].likely);
		assert_string_equal(found[0].text, table[i].text);
	}
}

/* With the sensor a joint behind, where the sensor is and where the bit was last time are the same place. The
 * nearer one is named. */
static void of_two_explanations_the_nearer_is_named(void **state)
{
	(void)state;
	drill_job(&job, big, 178.2);
	jobs_set(&job, "tool", "sensor_to_bit", "32.5");
	for (int i = 0; i < 7; i++)
		jobs_log(&job, "", "82.0", "178.2");
	jobs_solve(&job, &solution);
	look_at_depth("215.5", "");
	assert_held("bit_depth", "sensor depth given as bit depth", "248.00");
	look_at_depth("217.0", "");
	assert_held("bit_depth", "a joint logged twice", "248.00");
}

/* Once any difference over 0.15 m was held, at every joint from then on. */
static void a_counter_that_drifts_is_only_said(void **state)
{
	(void)state;
	drill_joints(big, 178.2, "82.0", "178.2", 7);
	look_at_depth("252", "");
	assert_int_equal(count, 1);
	assert_false(found[0].held);
	assert_string_equal(found[0].slip, "depth and joints disagree");
	look_at_depth("258", "");
	assert_held("bit_depth", "depth and joints disagree", "248.00");
}

static void before_the_sensor_is_in_the_ground_its_depth_is_nothing(void **state)
{
	(void)state;
	drill_job(&job, big, 178.2);
	jobs_set(&job, "tool", "sensor_to_bit", "45");
	jobs_solve(&job, &solution);
	look_at_depth("31", "0");
	assert_nothing_found();
	look_at_depth("31", "-14");
	assert_nothing_found();
	look_at_depth("62", "");
	assert_held("bit_depth", "a joint forgotten", "31.00");
	assert_string_equal(found[0].text,
		"Bit depth 62 ft is one joint deeper than the log: one joint makes 31.00. Was joint 1 forgotten? Log it "
		"first.");
	look_at_depth("0.5", "");
	assert_held("bit_depth", "a joint logged twice", "31.00");
	assert_string_equal(found[0].text,
		"Bit depth 0.5 ft does not fit the tally: one joint makes 31.00. Count the joints in the ground.");
}

/* ---- sliding ---- */

static void what_was_slid_is_no_more_than_the_joint(void **state)
{
	static const struct {
		const char *face, *slid, *field, *text;
		bool held;
	} table[] = {
		{ "330", "12", NULL, NULL, false },
		{ "", "0", NULL, NULL, false },
		{ "", "", NULL, NULL, false },
		{ "330", "31.5", "slid", "Slid 31.5 ft of a joint of 31.00: more than there is.", true },
		{ "", "12", "tool_face", "Slid 12 ft, but no tool face: which way is not known.", false },
		{ "330", "", "slid", "A tool face of 330, but nothing slid: how far is not known.", false },
	};

	(void)state;
	drill_joints(big, 178.2, "82.0", "178.2", 7);
	for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
		struct reading r = jobs_reading(&job, "", "82.0", "178.2");
		assert_int_equal(
			sb_row_field_put(sb_row_field("tool_face"), &r, job.incline, table[i].face, NULL), 0);
		assert_int_equal(
			sb_row_field_put(sb_row_field("slid"), &r, job.incline, table[i].slid, NULL), 0);
		count = sb_blunder_look(&job, &solution, &r, NULL, found);
		if (table[i].field == NULL) {
			assert_nothing_found();
			continue;
		}
		assert_int_equal(count, 1);
		assert_string_equal(found[0].field, table[i].field);
		assert_string_equal(found[0].text, table[i].text);
		assert_int_equal(found[0].held, table[i].held);
	}
}

static void everything_at_once_is_said_what_is_held_first(void **state)
{
	struct depth_check depths = { 0 };

	(void)state;
	drill_joints(big, 178.2, "82.0", "178.2", 7);
	struct reading r = jobs_reading(&job, "33", "82.0", "187.2");
	sb_row_field_put(sb_row_field("slid"), &r, job.incline, "40", NULL);
	sb_number_parse("252", &depths.bit_depth, NULL);
	sb_number_parse("100", &depths.survey_depth, NULL);
	count = sb_blunder_look(&job, &solution, &r, &depths, found);
	assert_int_equal(count, 5);
	static const char *const fields[] = { "azimuth", "survey_depth", "slid", "bit_depth",
		"joint_length" };
	for (size_t i = 0; i < count; i++) {
		assert_string_equal(found[i].field, fields[i]);
		assert_int_equal(found[i].held, i < 3);
	}
}

#define HERE(name) cmocka_unit_test_setup_teardown(name, setup, teardown)

static const struct CMUnitTest tests[] = {
	HERE(two_joints_in_one_and_half_of_one_are_held),
	HERE(a_length_that_is_not_the_tallys_is_only_said),
	HERE(a_reading_without_a_length_has_the_tallys),
	HERE(depths_that_fit_pass),
	HERE(each_way_to_get_a_depth_wrong_has_its_name),
	HERE(of_two_explanations_the_nearer_is_named),
	HERE(a_counter_that_drifts_is_only_said),
	HERE(before_the_sensor_is_in_the_ground_its_depth_is_nothing),
	HERE(what_was_slid_is_no_more_than_the_joint),
	HERE(everything_at_once_is_said_what_is_held_first),
};

int main(void)
{
	return run_tests(tests);
}
