/* Orders as they are called out at the rig: o'clock to the nearest half hour, degrees, feet and metres. */
#include "plan.h"

static const struct {
	double face_deg, slid, length; /* in the job's unit */
	const char *feet_clock, *feet_degrees;
} orders[] = {
	{ 0, 14, 31, "slide 14 ft at 12 o'clock, rotate 17 ft",
		"slide 14 ft at tool face 0 deg, rotate 17 ft" },
	{ 60, 14, 31, "slide 14 ft at 2 o'clock, rotate 17 ft",
		"slide 14 ft at tool face 60 deg, rotate 17 ft" },
	{ 45, 14, 31, "slide 14 ft at 1:30, rotate 17 ft", "slide 14 ft at tool face 45 deg, rotate 17 ft" },
	{ 15, 14, 31, "slide 14 ft at 12:30, rotate 17 ft", "slide 14 ft at tool face 15 deg, rotate 17 ft" },
	{ 60, 14.5, 31, "slide 15 ft at 2 o'clock, rotate 16 ft",
		"slide 15 ft at tool face 60 deg, rotate 16 ft" },
	{ 270, 31, 31, "slide 31 ft at 9 o'clock", "slide 31 ft at tool face 270 deg" },
	{ 270, 30.6, 31, "slide 31 ft at 9 o'clock", "slide 31 ft at tool face 270 deg" },
	{ 359.8, 5, 31, "slide 5 ft at 12 o'clock, rotate 26 ft",
		"slide 5 ft at tool face 0 deg, rotate 26 ft" },
	{ 352, 5, 31, "slide 5 ft at 11:30, rotate 26 ft", "slide 5 ft at tool face 352 deg, rotate 26 ft" },
	{ -90, 5, 31, "slide 5 ft at 9 o'clock, rotate 26 ft",
		"slide 5 ft at tool face 270 deg, rotate 26 ft" },
	{ NAN, 0, 31, "rotate the joint", "rotate the joint" },
};

static struct plan_joint order_of(double face_deg, double slid, double length)
{
	return (struct plan_joint){ .tool_face_rad = sb_rad(face_deg),
		.slid_m = sb_frame_metres(&solution.frame, slid),
		.length_m = sb_frame_metres(&solution.frame, length) };
}

static void orders_are_said_by_the_clock_and_in_degrees(void **state)
{
	struct setup s = plan_setup();
	char text[96];

	(void)state;
	jobs_plain(&job);
	jobs_solve(&job, &solution);
	for (size_t i = 0; i < sizeof orders / sizeof *orders; i++) {
		struct plan_joint j = order_of(orders[i].face_deg, orders[i].slid, orders[i].length);
		sb_steering_order(&s, &j, true, text);
		assert_string_equal(text, orders[i].feet_clock);
		sb_steering_order(&s, &j, false, text);
		assert_string_equal(text, orders[i].feet_degrees);
	}
}

static void metres_are_said_to_a_tenth(void **state)
{
	struct setup s = plan_setup();
	char text[96];

	(void)state;
	jobs_curved(&job);
	jobs_solve(&job, &solution);
	struct plan_joint j = order_of(90, 4.2, 9.6);
	sb_steering_order(&s, &j, true, text);
	assert_string_equal(text, "slide 4.2 m at 3 o'clock, rotate 5.4 m");
	j = order_of(90, 4.26, 9.6); /* what is called out adds up to the joint */
	sb_steering_order(&s, &j, true, text);
	assert_string_equal(text, "slide 4.3 m at 3 o'clock, rotate 5.3 m");
	j = order_of(90, 4.36, 9.6);
	sb_steering_order(&s, &j, true, text);
	assert_string_equal(text, "slide 4.4 m at 3 o'clock, rotate 5.2 m");
	j = order_of(90, 9.58, 9.6);
	sb_steering_order(&s, &j, true, text);
	assert_string_equal(text, "slide 9.6 m at 3 o'clock");
}

static void every_limit_has_words_and_none_has_none(void **state)
{
	(void)state;
	assert_string_equal(sb_steering_limit_word(STEER_LIMIT_NONE), "");
	for (int limit = STEER_LIMIT_NONE + 1; limit <= STEER_LIMIT_END; limit++)
		assert_true(strlen(sb_steering_limit_word((enum steer_limit)limit)) > 5);
	assert_string_equal(sb_steering_limit_word(STEER_LIMIT_END), "the exit window");
}

int main(void)
{
#define TEST(name) cmocka_unit_test_setup_teardown(name, plan_begin, plan_end)
	const struct CMUnitTest tests[] = {
		TEST(orders_are_said_by_the_clock_and_in_degrees),
		TEST(metres_are_said_to_a_tenth),
		TEST(every_limit_has_words_and_none_has_none),
	};

	return run_tests(tests);
}
