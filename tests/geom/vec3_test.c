#include "geom/angle.h"
#include "geom/vec3.h"

#include "random.h"
#include "support/near.h"

static void assert_vector(struct vec3 got, double n, double e, double u, double tolerance)
{
	assert_near(got.n, n, tolerance);
	assert_near(got.e, e, tolerance);
	assert_near(got.u, u, tolerance);
}

static void a_heading_points_where_the_tool_points(void **state)
{
	(void)state;
	assert_vector(sb_vec3_heading(0, sb_rad(77)), 0, 0, -1, 0);
	assert_vector(sb_vec3_heading(sb_rad(180), sb_rad(77)), 0, 0, 1, 0);
	assert_vector(sb_vec3_heading(sb_rad(90), 0), 1, 0, 0, 0);
	assert_vector(sb_vec3_heading(sb_rad(90), sb_rad(90)), 0, 1, 0, 0);
	assert_vector(sb_vec3_heading(sb_rad(90), sb_rad(180)), -1, 0, 0, 0);
	assert_vector(sb_vec3_heading(sb_rad(90), sb_rad(270)), 0, -1, 0, 0);
	assert_vector(sb_vec3_heading(sb_rad(60), sb_rad(30)), 0.75, sqrt(3) / 4, -0.5, 1e-15);
	assert_vector(sb_vec3_heading(sb_rad(100), 0), cos(sb_rad(10)), 0, sin(sb_rad(10)), 1e-15);
}

static void an_attitude_comes_back_from_its_heading(void **state)
{
	struct random r = { 1 };

	(void)state;
	for (int i = 0; i < 2000; i++) {
		double inc = random_between(&r, 1e-6, SB_PI - 1e-6), azi = random_between(&r, 0, 2 * SB_PI);
		double k = random_between(&r, 0.001, 1000), inc_back, azi_back;
		sb_vec3_attitude(sb_vec3_scale(sb_vec3_heading(inc, azi), k), &inc_back, &azi_back);
		assert_near(inc_back, inc, 1e-15 * 4);
		assert_near(sb_wrap_half(azi_back - azi), 0, 4e-15);
		assert_true(azi_back >= 0 && azi_back < 2 * SB_PI);
	}
}

static void straight_down_and_up_have_no_azimuth(void **state)
{
	double inc, azi;

	(void)state;
	sb_vec3_attitude((struct vec3){ 0, 0, -5 }, &inc, &azi);
	assert_true(inc == 0 && azi == 0);
	sb_vec3_attitude((struct vec3){ 0, -0.0, 5 }, &inc, &azi);
	assert_true(inc == SB_PI && azi == 0);
	sb_vec3_attitude(sb_vec3_heading(SB_PI, 4), &inc, &azi);
	assert_true(inc == SB_PI && azi == 0);
	/* rounding beside the plumb line is not a direction */
	sb_vec3_attitude((struct vec3){ -1e-16, 1e-16, -1 }, &inc, &azi);
	assert_true(azi == 0);
}

static void level_due_west_is_270_degrees(void **state)
{
	double inc, azi;

	(void)state;
	sb_vec3_attitude((struct vec3){ 0, -2, 0 }, &inc, &azi);
	assert_near(inc, sb_rad(90), 0);
	assert_near(azi, sb_rad(270), 1e-15);
}

static void a_hair_west_of_north_is_below_a_whole_turn(void **state)
{
	double inc, azi;

	(void)state;
	sb_vec3_attitude((struct vec3){ 1, -1e-17, 0 }, &inc, &azi);
	assert_true(azi >= 0 && azi < 2 * SB_PI);
}

static void angles_are_exact_where_acos_is_not(void **state)
{
	struct vec3 a = { 3, -4, 12 };

	(void)state;
	assert_true(sb_vec3_angle(a, a) == 0);
	assert_true(sb_vec3_angle(a, sb_vec3_scale(a, -1)) == SB_PI);
	assert_near(sb_vec3_angle((struct vec3){ 1, 0, 0 }, (struct vec3){ 1, 1e-12, 0 }), 1e-12, 1e-27);
	assert_near(
		sb_vec3_angle((struct vec3){ 1, 0, 0 }, (struct vec3){ -1, 1e-12, 0 }), SB_PI - 1e-12, 1e-15);
	assert_near(sb_vec3_angle((struct vec3){ 2, 0, 0 }, (struct vec3){ 0, 0, 500 }), SB_PI / 2, 0);
}

static void lengths_sums_and_products_are_as_ever(void **state)
{
	struct vec3 a = { 3, -4, 12 }, b = { 1, 2, 3 };

	(void)state;
	assert_true(sb_vec3_length(a) == 13);
	assert_vector(sb_vec3_add(a, b), 4, -2, 15, 0);
	assert_vector(sb_vec3_sub(a, b), 2, -6, 9, 0);
	assert_vector(sb_vec3_scale(a, -2), -6, 8, -24, 0);
	assert_true(sb_vec3_dot(a, b) == 31);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_heading_points_where_the_tool_points),
		cmocka_unit_test(an_attitude_comes_back_from_its_heading),
		cmocka_unit_test(straight_down_and_up_have_no_azimuth),
		cmocka_unit_test(level_due_west_is_270_degrees),
		cmocka_unit_test(a_hair_west_of_north_is_below_a_whole_turn),
		cmocka_unit_test(angles_are_exact_where_acos_is_not),
		cmocka_unit_test(lengths_sums_and_products_are_as_ever),
	};

	return run_tests(tests);
}
