/* "Did you mean". */
#include "io/nearest.h"

#include "support/near.h"

static const char *nearest(const char *word)
{
	static const char *const names[] = { "inclination", "azimuth", "unit", "wall", "crs", "name" };
	struct nearest n = sb_nearest_to(word);

	for (size_t i = 0; i < sizeof names / sizeof *names; i++)
		sb_nearest_try(&n, names[i]);
	return n.best ? n.best : "-";
}

static void a_slip_of_the_pen_finds_its_name(void **state)
{
	(void)state;
	assert_string_equal(nearest("inclinaton"), "inclination");
	assert_string_equal(nearest("azimtuh"), "azimuth");
	assert_string_equal(nearest("Units"), "unit");
	assert_string_equal(nearest("wal"), "wall");
	assert_string_equal(nearest("nane"), "name");
}

static void what_is_far_from_all_finds_none(void **state)
{
	(void)state;
	assert_string_equal(nearest("depth"), "-");
	assert_string_equal(nearest("xyz"), "-");
	assert_string_equal(
		nearest("a very long word indeed, much longer than any name that there is, by far"), "-");
	assert_string_equal(nearest(""), "-");
}

static void names_are_the_same_but_for_case_and_spacing(void **state)
{
	(void)state;
	assert_true(sb_nearest_same("Joint Length", "joint_length"));
	assert_true(sb_nearest_same("joint-length ", "JOINTLENGTH"));
	assert_false(sb_nearest_same("joint", "joints"));
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_slip_of_the_pen_finds_its_name),
		cmocka_unit_test(what_is_far_from_all_finds_none),
		cmocka_unit_test(names_are_the_same_but_for_case_and_spacing),
	};

	return run_tests(tests);
}
