#include "geom/axes.h"

#include "support/near.h"

#include <string.h>

static void the_axes_as_they_are_change_nothing(void **state)
{
	struct sensor_axes axes;

	(void)state;
	assert_int_equal(sb_axes_parse("x y z", &axes), AXES_OK);
	struct triad t = sb_axes_turn(&axes, (struct triad){ 1, -2, 3 });
	assert_true(t.x == 1 && t.y == -2 && t.z == 3 && !axes.gravity_up);
}

static void a_word_says_which_of_the_tools_axes_ours_is(void **state)
{
	struct sensor_axes axes;

	(void)state;
	assert_int_equal(sb_axes_parse("-y x z", &axes), AXES_OK);
	struct triad t = sb_axes_turn(&axes, (struct triad){ 1, 2, 3 });
	assert_true(t.x == -2 && t.y == 1 && t.z == 3);
}

static void axes_are_read_as_people_type_them(void **state)
{
	static const char *const same[] = { "Z,-X,-Y up", "  z -x  -y   up ", "+z, -x, -y, up" };

	(void)state;
	for (size_t i = 0; i < 3; i++) {
		struct sensor_axes axes;
		char text[AXES_TEXT];
		assert_int_equal(sb_axes_parse(same[i], &axes), AXES_OK);
		sb_axes_text(&axes, text);
		assert_string_equal(text, "z -x -y up");
	}
}

static void what_is_no_set_of_axes_is_refused_and_changes_nothing(void **state)
{
	static const struct {
		const char *text;
		enum axes_status status;
	} cases[] = {
		{ "", AXES_FORM },
		{ "x y", AXES_FORM },
		{ "x y w", AXES_FORM },
		{ "x y z z", AXES_FORM },
		{ "x y z upwards", AXES_FORM },
		{ "--x y z", AXES_FORM },
		{ "x y -", AXES_FORM },
		{ "x x z", AXES_TWICE },
		{ "z y -z", AXES_TWICE },
		{ "x y -z", AXES_MIRRORED },
		{ "y x z", AXES_MIRRORED },
		{ "-x -y -z", AXES_MIRRORED },
	};

	(void)state;
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct sensor_axes axes = AXES_OURS;
		assert_int_equal(sb_axes_parse(cases[i].text, &axes), cases[i].status);
		assert_true(strlen(sb_axes_fault(cases[i].status)) > 20);
		assert_true(axes.axis[0] == 0 && axes.axis[1] == 1 && axes.axis[2] == 2);
	}
	assert_string_equal(sb_axes_fault(AXES_OK), "");
}

/* The determinant by its definition, from the turned unit vectors. */
static double determinant(const struct sensor_axes *a)
{
	struct triad x = sb_axes_turn(a, (struct triad){ 1, 0, 0 }),
		     y = sb_axes_turn(a, (struct triad){ 0, 1, 0 }),
		     z = sb_axes_turn(a, (struct triad){ 0, 0, 1 });
	return x.x * (y.y * z.z - y.z * z.y) - x.y * (y.x * z.z - y.z * z.x) + x.z * (y.x * z.y - y.y * z.x);
}

static void half_of_all_signed_permutations_are_turns_and_come_back_from_their_text(void **state)
{
	int turns = 0;
	char texts[AXES_COUNT][AXES_TEXT];

	(void)state;
	for (int i = 0; i < AXES_COUNT; i++) {
		struct sensor_axes axes = sb_axes_nth(i), back = AXES_OURS;
		assert_near(sb_axes_hand(&axes), determinant(&axes), 0);
		sb_axes_text(&axes, texts[i]);
		for (int k = 0; k < i; k++)
			assert_string_not_equal(texts[k], texts[i]);
		enum axes_status status = sb_axes_parse(texts[i], &back);
		assert_int_equal(status, sb_axes_hand(&axes) > 0 ? AXES_OK : AXES_MIRRORED);
		if (status != AXES_OK)
			continue;
		turns++;
		assert_memory_equal(back.axis, axes.axis, sizeof axes.axis);
		assert_memory_equal(back.sign, axes.sign, sizeof axes.sign);
	}
	assert_int_equal(turns, 24);
}

static void the_first_permutation_changes_nothing(void **state)
{
	char text[AXES_TEXT];
	struct sensor_axes axes = sb_axes_nth(0);

	(void)state;
	sb_axes_text(&axes, text);
	assert_string_equal(text, "x y z");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_axes_as_they_are_change_nothing),
		cmocka_unit_test(a_word_says_which_of_the_tools_axes_ours_is),
		cmocka_unit_test(axes_are_read_as_people_type_them),
		cmocka_unit_test(what_is_no_set_of_axes_is_refused_and_changes_nothing),
		cmocka_unit_test(half_of_all_signed_permutations_are_turns_and_come_back_from_their_text),
		cmocka_unit_test(the_first_permutation_changes_nothing),
	};
	return run_tests(tests);
}
