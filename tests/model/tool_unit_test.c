#include "model/tool_unit.h"

#include "support/near.h"

static void every_unit_is_found_by_its_name_and_the_first_is_what_we_compute_in(void **state)
{
	(void)state;
	for (size_t i = 0; i < sb_gravity_unit_count; i++)
		assert_ptr_equal(sb_gravity_unit(sb_gravity_units[i].name), &sb_gravity_units[i]);
	for (size_t i = 0; i < sb_field_unit_count; i++)
		assert_ptr_equal(sb_field_unit(sb_field_units[i].name), &sb_field_units[i]);
	assert_near(sb_gravity_units[0].size, 1, 0);
	assert_near(sb_field_units[0].size, 1, 0);
	assert_null(sb_gravity_unit("nT"));
	assert_null(sb_field_unit("mg"));
	assert_null(sb_field_unit(""));
}

/* Standard gravity in each unit: 9.80665 m/s2 by definition; 32.17405 ft/s2 (9.80665 / 0.3048). */
static void standard_gravity_is_one_g_in_every_unit(void **state)
{
	static const struct {
		const char *unit;
		double standard;
	} cases[] = { { "g", 1 }, { "mg", 1000 }, { "m/s2", 9.80665 }, { "ft/s2", 32.1740485564 },
		{ "Gal", 980.665 }, { "mGal", 980665 } };

	(void)state;
	assert_int_equal(sizeof cases / sizeof *cases, sb_gravity_unit_count);
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
		assert_near(cases[i].standard * sb_gravity_unit(cases[i].unit)->size, 1, 1e-12);
}

/* 1 T = 10,000 G. */
static void half_a_gauss_is_fifty_thousand_nanotesla(void **state)
{
	static const struct {
		const char *unit;
		double value;
	} cases[] = { { "nT", 50000 }, { "uT", 50 }, { "mT", 0.05 }, { "T", 5e-5 }, { "mG", 500 },
		{ "G", 0.5 } };

	(void)state;
	assert_int_equal(sizeof cases / sizeof *cases, sb_field_unit_count);
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
		assert_near(cases[i].value * sb_field_unit(cases[i].unit)->size, 50000, 1e-9);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(every_unit_is_found_by_its_name_and_the_first_is_what_we_compute_in),
		cmocka_unit_test(standard_gravity_is_one_g_in_every_unit),
		cmocka_unit_test(half_a_gauss_is_fifty_thousand_nanotesla),
	};
	return run_tests(tests);
}
