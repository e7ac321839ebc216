/* The height of a line that is a profile. */
#include "line.h"

static void a_profile_has_the_height_of_the_place_at_that_station(void **state)
{
	struct random r = { 23 };

	(void)state;
	for (int i = 0; i < 200; i++) {
		struct line l;
		do /* a profile goes forward */
			line_random(&r, &l, 2 + (size_t)i % 9, 0.6, 0);
		while (fabs(l.parts[0].bearing) > 0.3);
		for (int k = 0; k < 50; k++) {
			struct chain_place p = line_at(&l, random_between(&r, -100, l.length + 100));
			struct chain_height h = sb_chain_height(l.parts, l.count, p.x);
			assert_near(h.y, p.y, 1e-10);
			assert_near(h.slope, tan(p.bearing), 1e-12);
			assert_near(h.curvature, p.curvature, 0);
		}
	}
}

static void a_profile_turns_upwards_with_positive_curvature(void **state)
{
	struct line l = { .pis = { { 0, 10, 0 }, { 100, 0, 200 }, { 200, 10, 0 } }, .pi_count = 3 };

	(void)state;
	line_build(&l);
	assert_near(sb_chain_height(l.parts, l.count, 100).curvature, 0.005, 1e-17);
	assert_near(sb_chain_height(l.parts, l.count, 100).slope, 0, 1e-15);
	assert_near(sb_chain_height(l.parts, l.count, 0).slope, -0.1, 1e-16);
	assert_near(sb_chain_height(l.parts, l.count, -50).y, 15, 1e-14);
	assert_near(sb_chain_height(l.parts, l.count, 250).y, 15, 1e-13);
	assert_near(sb_chain_height(l.parts, l.count, 250).slope, 0.1, 1e-15);
}

static void a_profile_that_ends_in_a_curve_goes_on_along_its_tangent(void **state)
{
	double r = 800, angle = sb_rad(10);
	struct line l = { .pis = { { 0, 0, 0 }, { r * tan(angle / 2), 0, r },
				  { r * sin(angle), r * (1 - cos(angle)), 0 } },
		.pi_count = 3 };

	(void)state;
	line_build(&l);
	assert_int_equal(l.count, 1);
	struct chain_height past = sb_chain_height(l.parts, l.count, r * sin(angle) + 100);
	assert_near(past.y, r * (1 - cos(angle)) + 100 * tan(angle), 1e-11);
	assert_near(past.slope, tan(angle), 1e-14);
	assert_true(past.curvature == 0);
	assert_near(sb_chain_height(l.parts, l.count, -100).y, 0, 0);
	assert_true(sb_chain_height(l.parts, l.count, 70).curvature > 0);
}

static void a_curve_of_a_thousand_kilometres_keeps_its_digits(void **state)
{
	struct line l = { .pis = { { 0, 0, 0 }, { 100, 0, 1e6 }, { 200, 0.015, 0 } }, .pi_count = 3 };

	(void)state;
	line_build(&l);
	double from = l.parts[1].x, turn = atan(0.00015);

	assert_near(from, 100 - 1e6 * tan(turn / 2), 1e-9);
	for (double x = from; x < from + 140; x += 1.25) {
		double u = x - from, want = u * u / 2e6 + u * u * u * u / 8e18;
		struct chain_height h = sb_chain_height(l.parts, l.count, x);
		assert_near(h.y, want, 1e-15);
		assert_near(h.slope, u / 1e6 + u * u * u / 2e18, 1e-19);
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_profile_has_the_height_of_the_place_at_that_station),
		cmocka_unit_test(a_profile_turns_upwards_with_positive_curvature),
		cmocka_unit_test(a_profile_that_ends_in_a_curve_goes_on_along_its_tangent),
		cmocka_unit_test(a_curve_of_a_thousand_kilometres_keeps_its_digits),
	};

	return run_tests(tests);
}
