/* Normal spreads against tables, closed forms, a second formula and Monte Carlo. */
#include "geom/spread.h"

#include "geom/angle.h"
#include "random.h"
#include "support/near.h"

#include <stdbool.h>

/* Any table of the normal and the chi-squared distribution; 2.4477 is sqrt(5.9915). */
static void factors_are_those_of_the_tables(void **state)
{
	(void)state;
	assert_near(sb_spread_line_factor(0.95), 1.959964, 1e-6);
	assert_near(sb_spread_line_factor(0.99), 2.575829, 1e-6);
	assert_near(sb_spread_line_factor(0.682689492), 1, 1e-8);
	assert_near(sb_spread_line_factor(0), 0, 1e-9);
	assert_near(sb_spread_plane_factor(0.95), 2.447747, 1e-6);
	assert_near(sb_spread_plane_factor(1 - exp(-0.5)), 1, 1e-12);
	assert_near(sb_spread_plane_factor(0), 0, 0);
}

/* Derived: half axes v with C v = |v|^2 / factor^2 v. */
static void half_axes_are_the_directions_that_a_spread_does_not_turn(void **state)
{
	struct random r = { 3 };

	(void)state;
	for (int i = 0; i < 1000; i++) {
		double a = random_between(&r, 0, 3), b = random_between(&r, 0, 3);
		struct spread s = { a * a, b * b, random_between(&r, -1, 1) * a * b };
		struct spread_ellipse e = sb_spread_ellipse(&s, 1);
		double long_2 = e.major_x * e.major_x + e.major_y * e.major_y;
		double short_2 = e.minor_x * e.minor_x + e.minor_y * e.minor_y;
		assert_near(s.xx * e.major_x + s.xy * e.major_y, long_2 * e.major_x, 1e-9);
		assert_near(s.xy * e.major_x + s.yy * e.major_y, long_2 * e.major_y, 1e-9);
		assert_near(long_2 + short_2, s.xx + s.yy, 1e-9);
		assert_near(e.major_x * e.minor_x + e.major_y * e.minor_y, 0, 1e-9);
		assert_true(long_2 >= short_2);
	}
}

static void without_correlation_the_sides_are_independent(void **state)
{
	struct random r = { 4 };

	(void)state;
	for (int i = 0; i < 500; i++) {
		double sx = random_between(&r, 0.01, 3), sy = random_between(&r, 0.01, 3);
		double x = random_between(&r, -3, 3), y = random_between(&r, -3, 3);
		struct spread s = { sx * sx, sy * sy, 0 };
		struct spread_box b = { -2, 1, -1, 3 };
		double in_x = 0.5 * (erf((1 - x) / sx / sqrt(2)) - erf((-2 - x) / sx / sqrt(2)));
		double in_y = 0.5 * (erf((3 - y) / sy / sqrt(2)) - erf((-1 - y) / sy / sqrt(2)));
		assert_near(sb_spread_outside(x, y, &s, &b), 1 - in_x * in_y, 1e-12);
	}
}

/* Sheppard 1899: the share of a quadrant about the mean is 1/4 + asin(r) / 2 pi. */
static void a_quadrant_has_its_share_by_sheppard(void **state)
{
	const double correlations[] = { -1, -0.9999999, -0.999, -0.5, 0, 0.3, 0.9, 0.99999, 1 };

	(void)state;
	for (size_t i = 0; i < sizeof correlations / sizeof *correlations; i++) {
		struct spread s = { 4, 9, 6 * correlations[i] };
		struct spread_box b = { 1, HUGE_VAL, -2, HUGE_VAL };
		/* at perfect correlation within the width that stands for a jump */
		double tolerance = fabs(correlations[i]) > 0.99999 ? 5e-7 : 1e-10;
		assert_near(sb_spread_outside(1, -2, &s, &b), 0.75 - asin(correlations[i]) / (2 * SB_PI),
			tolerance);
	}
}

/* P(X < h, Y < k), by the integral over the correlation (Sheppard 1899, Drezner and Wesolowsky 1990), in its
 * arc sine, with Simpson's rule. */
static double corner(double h, double k, double correlation)
{
	const int panels = 4000;
	double end = asin(correlation), step = end / panels, sum = 0;

	for (int i = 0; i <= panels; i++) {
		double s = sin(i * step), c = cos(i * step),
		       weight = i == 0 || i == panels ? 1
			: i % 2			      ? 4
						      : 2;
		sum += weight * exp(-(h * h + k * k - 2 * h * k * s) / (2 * c * c));
	}
	return 0.25 * erfc(-h / sqrt(2)) * erfc(-k / sqrt(2)) + sum * step / 3 / (2 * SB_PI);
}

static void a_box_has_the_share_that_the_other_formula_gives(void **state)
{
	struct random r = { 5 };

	(void)state;
	for (int i = 0; i < 300; i++) {
		double correlation = sin(random_between(&r, -1.5, 1.5));
		double x0 = random_between(&r, -4, 2), x1 = x0 + random_between(&r, 0, 5);
		double y0 = random_between(&r, -4, 2), y1 = y0 + random_between(&r, 0, 5);
		struct spread s = { 4, 0.25, correlation };
		struct spread_box b = { 7 + 2 * x0, 7 + 2 * x1, -3 + 0.5 * y0, -3 + 0.5 * y1 };
		double inside = corner(x1, y1, correlation) - corner(x0, y1, correlation) -
			corner(x1, y0, correlation) + corner(x0, y0, correlation);
		assert_near(sb_spread_outside(7, -3, &s, &b), 1 - inside, 1e-8);
	}
}

/* A share from n draws is uncertain by sqrt(p (1 - p) / n), 0.0011 at most with 200,000. */
static void boxes_hold_what_draws_say(void **state)
{
	struct random r = { 6 };
	const int draws = 200000;

	(void)state;
	for (int n = 0; n < 5; n++) {
		double sx = 1 + n * 0.3, sy = 2 - n * 0.35, correlation = -0.95 + 0.47 * n, x = 0.3 * n,
		       y = -0.4;
		struct spread s = { sx * sx, sy * sy, correlation * sx * sy };
		struct spread_box b = { -2, 2.5, n == 2 ? -HUGE_VAL : -1.5, 3 };
		int outside = 0;
		for (int i = 0; i < draws; i++) {
			double u = random_normal(&r), v = random_normal(&r);
			double at_x = x + sx * u;
			double at_y = y + sy * (correlation * u + sqrt(1 - correlation * correlation) * v);
			outside +=
				!(at_x >= b.low_x && at_x <= b.high_x && at_y >= b.low_y && at_y <= b.high_y);
		}
		assert_near(sb_spread_outside(x, y, &s, &b), (double)outside / draws, 4.5 * 0.0011);
	}
}

static void without_any_limit_nothing_is_outside(void **state)
{
	struct spread s = { 4, 9, 5.9 };
	struct spread_box b = { -HUGE_VAL, HUGE_VAL, -HUGE_VAL, HUGE_VAL };

	(void)state;
	assert_near(sb_spread_outside(100, -100, &s, &b), 0, 0);
}

static void without_any_spread_it_is_in_or_out(void **state)
{
	struct spread none = { 0, 0, 0 }, flat = { 1, 0, 0 };
	struct spread_box b = { -1, 1, -1, 1 };

	(void)state;
	assert_near(sb_spread_outside(0.5, 0.5, &none, &b), 0, 0);
	assert_near(sb_spread_outside(0.5, 1.5, &none, &b), 1, 0);
	assert_near(sb_spread_outside(0, 0.5, &flat, &b), erfc(1 / sqrt(2)), 1e-12);
	assert_near(sb_spread_outside(0, 1.5, &flat, &b), 1, 0);
}

/* Derived: 30 m inside on every side, at 6 sigma: twice erfc(6 / sqrt 2). */
static void a_small_share_keeps_its_digits(void **state)
{
	struct spread s = { 25, 25, 0 };
	struct spread_box b = { -30, 30, -30, 30 };
	double want = 2 * erfc(6 / sqrt(2));

	(void)state;
	assert_near(sb_spread_outside(0, 0, &s, &b) / want, 1, 1e-8);
	struct spread_box far = { 1000, 1001, -30, 30 };
	assert_near(sb_spread_outside(0, 0, &s, &far), 1, 1e-12);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(factors_are_those_of_the_tables),
		cmocka_unit_test(half_axes_are_the_directions_that_a_spread_does_not_turn),
		cmocka_unit_test(without_correlation_the_sides_are_independent),
		cmocka_unit_test(a_quadrant_has_its_share_by_sheppard),
		cmocka_unit_test(a_box_has_the_share_that_the_other_formula_gives),
		cmocka_unit_test(boxes_hold_what_draws_say),
		cmocka_unit_test(without_any_limit_nothing_is_outside),
		cmocka_unit_test(without_any_spread_it_is_in_or_out),
		cmocka_unit_test(a_small_share_keeps_its_digits),
	};

	return run_tests(tests);
}
