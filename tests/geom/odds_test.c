/* Chances, against printed tables, other closed forms, and sums over the density. */
#include "support/near.h"

#include "geom/odds.h"

/* NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4, upper-tail critical values, three decimals. */
static void critical_values_are_those_of_the_table(void **state)
{
	static const struct {
		int freedom;
		double at_10, at_5, at_1, at_01; /* percent; the last is 0.1 */
	} table[] = {
		{ 1, 2.706, 3.841, 6.635, 10.828 },
		{ 2, 4.605, 5.991, 9.210, 13.816 },
		{ 3, 6.251, 7.815, 11.345, 16.266 },
		{ 4, 7.779, 9.488, 13.277, 18.467 },
		{ 5, 9.236, 11.070, 15.086, 20.515 },
		{ 10, 15.987, 18.307, 23.209, 29.588 },
		{ 30, 40.256, 43.773, 50.892, 59.703 },
		{ 100, 118.498, 124.342, 135.807, 149.449 },
	};

	(void)state;
	for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
		assert_near(sb_odds_chi_square_critical(0.1, table[i].freedom), table[i].at_10, 5.1e-4);
		assert_near(sb_odds_chi_square_critical(0.05, table[i].freedom), table[i].at_5, 5.1e-4);
		assert_near(sb_odds_chi_square_critical(0.01, table[i].freedom), table[i].at_1, 5.1e-4);
		assert_near(sb_odds_chi_square_critical(0.001, table[i].freedom), table[i].at_01, 5.1e-4);
	}
}

/* The density, summed by Simpson's rule in the root of x, where it is smooth at 0 for every freedom. */
static double summed(double x, int freedom)
{
	enum { STEPS = 40000 };
	double far = sqrt(x) + 14, near = sqrt(x), h = (far - near) / STEPS, sum = 0;

	for (int i = 0; i <= STEPS; i++) {
		double r = near + i * h;
		double density = 2 *
			exp((freedom - 1) * log(r) - r * r / 2 - freedom / 2.0 * log(2) -
				lgamma(freedom / 2.0));
		sum += density * (i == 0 || i == STEPS ? 1 : i % 2 ? 4 : 2);
	}
	return sum * h / 3;
}

static void the_chance_is_the_area_under_the_density(void **state)
{
	(void)state;
	for (int freedom = 1; freedom <= 120; freedom += freedom < 12 ? 1 : 9)
		for (double share = 0.2; share < 4; share += 0.37) {
			double x = share * freedom, want = summed(x, freedom);
			assert_near(sb_odds_chi_square(x, freedom) / want, 1, 1e-9);
		}
}

static void one_figure_squared_is_the_normal(void **state)
{
	(void)state;
	assert_near(sb_odds_normal(1.959963984540054), 0.05, 1e-15); /* quantile: printed everywhere */
	for (double z = 0.1; z < 12; z += 0.7)
		assert_near(sb_odds_chi_square(z * z, 1) / sb_odds_normal(-z), 1, 1e-12);
	assert_near(sb_odds_chi_square(0, 7), 1, 0);
	assert_near(sb_odds_chi_square(7, 2), exp(-3.5), 1e-16);
	assert_true(sb_odds_chi_square(5000, 120) < 1e-300);
}

static void many_tests_cry_wolf_as_often_as_one(void **state)
{
	(void)state;
	assert_near(1 - pow(1 - sb_odds_each(0.05, 12), 12), 0.05, 1e-14);
	assert_near(sb_odds_each(0.05, 1), 0.05, 1e-16);
}

/* NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.2, upper-tail critical values of Student's t,
 * three decimals; doubled here to both sides. */
static void a_sigma_from_few_readings_makes_far_ones_likelier(void **state)
{
	static const struct {
		int freedom;
		double t, both_sides;
	} table[] = { { 2, 4.303, 0.05 }, { 4, 2.776, 0.05 }, { 10, 2.228, 0.05 }, { 30, 2.042, 0.05 },
		{ 6, 5.208, 0.002 }, { 10, 4.144, 0.002 }, { 20, 3.552, 0.002 }, { 60, 3.232, 0.002 } };

	(void)state;
	for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
		double chance = sb_odds_student(table[i].t * table[i].t, 1, table[i].freedom);
		assert_near(chance / table[i].both_sides, 1, 2e-3);
	}
	assert_near(sb_odds_student(0, 1, 6), 1, 0);
	/* with a sigma that is as good as known it is the normal, and the chi-square of two */
	assert_near(sb_odds_student(16, 1, 200000) / sb_odds_normal(4), 1, 2e-3);
	assert_near(sb_odds_student(16, 2, 200000) / sb_odds_chi_square(16, 2), 1, 1e-3);
}

/* NIST/SEMATECH e-Handbook, 1.3.6.7.3, F distribution with 2 and n, at 5 and 1 percent; three decimals. */
static void two_figures_together_follow_the_f_distribution(void **state)
{
	static const struct {
		int freedom;
		double at_5, at_1;
	} table[] = { { 4, 6.944, 18.000 }, { 10, 4.103, 7.559 }, { 20, 3.493, 5.849 },
		{ 60, 3.150, 4.977 } };

	(void)state;
	for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
		assert_near(sb_odds_student(2 * table[i].at_5, 2, table[i].freedom) / 0.05, 1, 1e-3);
		assert_near(sb_odds_student(2 * table[i].at_1, 2, table[i].freedom) / 0.01, 1, 1e-3);
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(critical_values_are_those_of_the_table),
		cmocka_unit_test(the_chance_is_the_area_under_the_density),
		cmocka_unit_test(one_figure_squared_is_the_normal),
		cmocka_unit_test(a_sigma_from_few_readings_makes_far_ones_likelier),
		cmocka_unit_test(two_figures_together_follow_the_f_distribution),
		cmocka_unit_test(many_tests_cry_wolf_as_often_as_one),
	};
	return run_tests(tests);
}
