/* Pushes as a hand writes them, and the stretches of a joint that follow from them. */
#include "model/slides.h"

#include "base/str.h"
#include "geom/angle.h"
#include "support/near.h"

#include <string.h>

static void the_pushes_of_the_manual_are_read(void **state)
{
	(void)state;
	struct pushes p;

	assert_int_equal(sb_pushes_parse("0:8@60; 20:6@75", &p, NULL), 0);
	assert_int_equal(p.count, 2);
	assert_near(p.list[1].from.value, 20, 0);
	assert_near(p.list[1].length.value, 6, 0);
	assert_near(p.list[1].face.value, 75, 0);
	assert_near(sb_pushes_slid(&p), 14, 0);
	assert_near(sb_pushes_end(&p), 26, 0);
}

static void blanks_a_decimal_comma_and_a_last_semicolon_do_no_harm(void **state)
{
	(void)state;
	struct pushes p;

	assert_int_equal(sb_pushes_parse(" 0 : 2,5 @ 350 ;2.5:1@0; ", &p, NULL), 0);
	assert_int_equal(p.count, 2);
	assert_near(sb_pushes_slid(&p), 3.5, 1e-12);
	assert_int_equal(sb_pushes_parse("", &p, NULL), 0);
	assert_int_equal(p.count, 0);
}

static void what_is_wrong_is_said_with_its_push(void **state)
{
	static const struct {
		const char *text, *words;
	} wrong[] = {
		{ "8", "push 1, '8', cannot be understood" },
		{ "0:8", "push 1, '0:8', cannot be understood" },
		{ "0@60:8", "cannot be understood" },
		{ "0:8@60; x:6@75", "the beginning of push 2, 'x', is not a number" },
		{ "0:@60", "the length of push 1" },
		{ "0:8@north", "the tool face of push 1, 'north', is not a number" },
		{ "-1:8@60", "push 1 begins at -1, before the joint does" },
		{ "0:0@60", "push 1 is 0 long" },
		{ "0:8@361", "a tool face of 361: it lies between 0 and 360" },
		{ "0:8@60; 6:4@60", "push 2 begins at 6, but push 1 ends at 8" },
		{ "20:6@75; 0:8@60", "push 2 begins at 0, but push 1 ends at 26" },
		{ "0:nan@60", "is not a number" },
	};
	struct pushes p;

	(void)state;
	for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
		struct sb_err err = { 0 };
		assert_int_equal(sb_pushes_parse(wrong[i].text, &p, &err), -1);
		if (!strstr(err.text, wrong[i].words))
			fail_msg("'%s': %s", wrong[i].text, err.text);
	}
}

static void more_pushes_than_can_be_are_refused(void **state)
{
	(void)state;
	char text[600] = "";
	struct pushes p;

	for (int i = 0; i < SB_PUSHES; i++)
		snprintf(text + strlen(text), sizeof text - strlen(text), "%d:1@0;", i);
	assert_int_equal(sb_pushes_parse(text, &p, NULL), 0);
	strcat(text, "90:1@0");
	assert_int_equal(sb_pushes_parse(text, &p, NULL), -1);
}

/* ---- with their row ---- */

static struct reading row(const char *length, const char *slid, const char *face, const char *pushes)
{
	static const char *const names[] = { "joint_length", "slid", "tool_face", "pushes" };
	const char *const texts[] = { length, slid, face, pushes };
	struct reading r = { 0 };
	struct sb_err err;

	for (size_t i = 0; i < 4; i++)
		if (sb_row_field_put(sb_row_field(names[i]), &r, INCLINE_DOWN, texts[i], &err))
			fail_msg("%s", err.text);
	return r;
}

static void the_field_refuses_what_it_cannot_read_and_keeps_what_it_had(void **state)
{
	(void)state;
	struct reading r = row("31", "", "", "0:8@60");
	struct sb_err err;

	assert_int_equal(sb_row_field_put(sb_row_field("pushes"), &r, INCLINE_DOWN, "0:8@400", &err), -1);
	assert_string_equal(r.pushes, "0:8@60");
}

static void a_push_past_the_joints_end_is_refused(void **state)
{
	(void)state;
	struct reading r = row("31", "", "", "0:8@60; 20:12@75");
	struct sb_err err;

	assert_int_equal(sb_slides_check(&r, &err), -1);
	assert_non_null(strstr(err.text, "push 2 ends at 32, past the end of the joint, which is 31 long"));
	r = row("31", "", "", "0:8@60; 20:11@75");
	assert_int_equal(sb_slides_check(&r, &err), 0);
}

static void a_length_slid_that_is_not_their_sum_is_refused(void **state)
{
	(void)state;
	struct reading r = row("31", "15", "60", "0:8@60; 20:6@75");
	struct sb_err err;

	assert_int_equal(sb_slides_check(&r, &err), -1);
	assert_non_null(strstr(err.text, "together they are 14, but 15 is written as slid"));
	r = row("31", "14", "60", "0:8.2@60; 20:6.2@75"); /* 14.4, rounded */
	assert_int_equal(sb_slides_check(&r, &err), 0);
	r = row("31", "14.0", "60", "0:8.2@60; 20:6.2@75");
	assert_int_equal(sb_slides_check(&r, &err), -1);
}

static void without_a_length_slid_their_sum_stands_for_it(void **state)
{
	(void)state;
	struct reading r = row("31", "", "", "0:8.5@60; 20:6@75"), plain = row("31", "9", "60", ""),
		       none = row("31", "", "", "");

	assert_string_equal(sb_slides_total(&r).text, "14.5");
	assert_true(sb_slides_written(&r));
	assert_string_equal(sb_slides_total(&plain).text, "9");
	assert_false(sb_slides_written(&none));
	assert_string_equal(sb_slides_total(&none).text, "");
}

/* ---- stretches ---- */

static const struct frame feet = { .metre = 0.3048, .scale = 1, .tool_face_offset_rad = 0.1 };

static void pushes_and_the_rotations_between_them_fill_the_joint(void **state)
{
	(void)state;
	struct reading r = row("31", "", "", "0:8@60; 20:6@75");
	struct stretch s[SB_STRETCHES];

	assert_int_equal(sb_slides_of(&r, &feet, false, s), 4);
	static const double ends[] = { 0, 8, 20, 26, 31 }, slid[] = { 8, 0, 6, 0 };
	for (int i = 0; i < 4; i++) {
		assert_near(s[i].from_m, ends[i] * 0.3048, 1e-12);
		assert_near(s[i].to_m, ends[i + 1] * 0.3048, 1e-12);
		assert_near(s[i].slid_m, slid[i] * 0.3048, 1e-12);
	}
	assert_near(s[2].face_rad, sb_rad(75) + 0.1, 1e-15);
}

static void a_length_slid_alone_is_spread_evenly(void **state)
{
	(void)state;
	struct reading r = row("30", "12", "90", "");
	struct ground_gives g = { true, 0.01, 0, -0.001, 0.0005 };
	struct stretch s[SB_STRETCHES];
	double up, right;

	assert_int_equal(sb_slides_of(&r, &feet, false, s), 1);
	s[0].face_rad = sb_rad(90);
	sb_slides_rate(&g, s, &up, &right);
	/* two fifths slid to the right, three rotated */
	assert_near(up, 0.6 * -0.001, 1e-15);
	assert_near(right, 0.4 * 0.01 + 0.6 * 0.0005, 1e-15);
}

static void a_blank_is_a_rotated_joint_only_where_slides_are_written_down(void **state)
{
	(void)state;
	struct reading blank = row("30", "", "", ""), nowhere = row("30", "12", "", "");
	struct stretch s[SB_STRETCHES];

	assert_int_equal(sb_slides_of(&blank, &feet, false, s), 0);
	assert_int_equal(sb_slides_of(&blank, &feet, true, s), 1);
	assert_near(s[0].slid_m, 0, 0);
	assert_int_equal(sb_slides_of(&nowhere, &feet, true, s), 0); /* slid, but which way? */
}

static void a_face_error_turns_the_slide_clockwise(void **state)
{
	(void)state;
	struct ground_gives g = { true, 0.01 * cos(0.2), 0.01 * sin(0.2), 0, 0 };
	struct stretch s = { 0, 3, 3, 0.5 };
	double up, right;

	sb_slides_rate(&g, &s, &up, &right);
	assert_near(up, 0.01 * cos(0.7), 1e-15);
	assert_near(right, 0.01 * sin(0.7), 1e-15);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_pushes_of_the_manual_are_read),
		cmocka_unit_test(blanks_a_decimal_comma_and_a_last_semicolon_do_no_harm),
		cmocka_unit_test(what_is_wrong_is_said_with_its_push),
		cmocka_unit_test(more_pushes_than_can_be_are_refused),
		cmocka_unit_test(the_field_refuses_what_it_cannot_read_and_keeps_what_it_had),
		cmocka_unit_test(a_push_past_the_joints_end_is_refused),
		cmocka_unit_test(a_length_slid_that_is_not_their_sum_is_refused),
		cmocka_unit_test(without_a_length_slid_their_sum_stands_for_it),
		cmocka_unit_test(pushes_and_the_rotations_between_them_fill_the_joint),
		cmocka_unit_test(a_length_slid_alone_is_spread_evenly),
		cmocka_unit_test(a_blank_is_a_rotated_joint_only_where_slides_are_written_down),
		cmocka_unit_test(a_face_error_turns_the_slide_clockwise),
	};
	return run_tests(tests);
}
