#include "geom/angle.h"

#include "support/near.h"

static void quarter_turns_in_degrees_are_the_nearest_doubles(void **state)
{
	(void)state;
	for (int k = -8; k <= 8; k++)
		assert_true(sb_rad(90.0 * k) == k * (SB_PI / 2));
	assert_near(sb_deg(sb_rad(57.3)), 57.3, 1e-14);
}

static void a_turn_wraps_into_nought_to_one(void **state)
{
	static const double table[][2] = { { 0, 0 }, { 1, 1 }, { 359.5, 359.5 }, { 360, 0 }, { 361, 1 },
		{ -1, 359 }, { -360, 0 }, { -361, 359 }, { 725, 5 }, { -725, 355 } };

	(void)state;
	for (size_t i = 0; i < sizeof table / sizeof *table; i++)
		assert_near(sb_wrap_turn(sb_rad(table[i][0])), sb_rad(table[i][1]), 2e-15);
	assert_true(sb_wrap_turn(2 * SB_PI) == 0);
}

static void a_hair_below_north_is_north_not_a_whole_turn(void **state)
{
	(void)state;
	assert_true(sb_wrap_turn(-1e-20) == 0);
	assert_true(sb_wrap_turn(-1e-12) < 2 * SB_PI);
	assert_near(sb_wrap_turn(-1e-12), 2 * SB_PI, 2e-12);
	assert_false(signbit(sb_wrap_turn(-0.0)));
	assert_false(signbit(sb_wrap_half(-0.0)));
}

static void a_half_turn_wraps_to_both_sides_of_north(void **state)
{
	static const double table[][2] = { { 0, 0 }, { 179, 179 }, { 181, -179 }, { -179, -179 },
		{ -181, 179 }, { 359, -1 }, { -359, 1 }, { 539, 179 }, { 541, -179 }, { 720, 0 } };

	(void)state;
	for (size_t i = 0; i < sizeof table / sizeof *table; i++)
		assert_near(sb_wrap_half(sb_rad(table[i][0])), sb_rad(table[i][1]), 2e-15);
}

static void exactly_half_a_turn_is_always_positive(void **state)
{
	(void)state;
	assert_true(sb_wrap_half(SB_PI) == SB_PI);
	assert_true(sb_wrap_half(-SB_PI) == SB_PI);
	for (int degrees = 0; degrees <= 180; degrees++) {
		double a = sb_rad(degrees), b = sb_rad(degrees + 180);
		assert_near(sb_wrap_half(a - b), SB_PI, 2e-15);
		assert_near(sb_wrap_half(b - a), SB_PI, 2e-15);
		assert_near(sb_wrap_half(a - b - 2 * SB_PI), SB_PI, 4e-15);
	}
}

static void what_is_not_a_number_stays_so(void **state)
{
	(void)state;
	assert_true(isnan(sb_wrap_turn(NAN)));
	assert_true(isnan(sb_wrap_half(NAN)));
	assert_true(isnan(sb_wrap_half(INFINITY)));
}

static void sines_of_quarter_turns_are_whole(void **state)
{
	static const double want[4][2] = { { 0, 1 }, { 1, 0 }, { 0, -1 }, { -1, 0 } };

	(void)state;
	for (int k = -4; k <= 8; k++) {
		double sine, cosine;
		sb_sin_cos(sb_rad(90.0 * k), &sine, &cosine);
		assert_true(sine == want[(k + 4) % 4][0]);
		assert_true(cosine == want[(k + 4) % 4][1]);
	}
}

static void sines_beside_quarter_turns_keep_their_smallness(void **state)
{
	double sine, cosine;

	(void)state;
	sb_sin_cos(1e-12, &sine, &cosine);
	assert_near(sine, 1e-12, 1e-27);
	sb_sin_cos(SB_PI / 2 - 1e-12, &sine, &cosine);
	assert_near(cosine, 1e-12, 3e-16);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(quarter_turns_in_degrees_are_the_nearest_doubles),
		cmocka_unit_test(a_turn_wraps_into_nought_to_one),
		cmocka_unit_test(a_hair_below_north_is_north_not_a_whole_turn),
		cmocka_unit_test(a_half_turn_wraps_to_both_sides_of_north),
		cmocka_unit_test(exactly_half_a_turn_is_always_positive),
		cmocka_unit_test(what_is_not_a_number_stays_so),
		cmocka_unit_test(sines_of_quarter_turns_are_whole),
		cmocka_unit_test(sines_beside_quarter_turns_keep_their_smallness),
	};

	return run_tests(tests);
}
