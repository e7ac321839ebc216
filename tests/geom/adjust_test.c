/* Least squares over bias terms: published figures, a plain solver, and what must be so. */
#include "adjust_case.h"
#include "plain_squares.h"
#include "support/near.h"

#include "geom/odds.h"

/* ---- published figures ---- */

/* NIST, Statistical Reference Datasets, linear regression: Longley, "higher level of difficulty". Data and
 * certified values of www.itl.nist.gov/div898/strd/lls/data/Longley.shtml. */
static const double longley[16][7] = { { 60323, 83.0, 234289, 2356, 1590, 107608, 1947 },
	{ 61122, 88.5, 259426, 2325, 1456, 108632, 1948 }, { 60171, 88.2, 258054, 3682, 1616, 109773, 1949 },
	{ 61187, 89.5, 284599, 3351, 1650, 110929, 1950 }, { 63221, 96.2, 328975, 2099, 3099, 112075, 1951 },
	{ 63639, 98.1, 346999, 1932, 3594, 113270, 1952 }, { 64989, 99.0, 365385, 1870, 3547, 115094, 1953 },
	{ 63761, 100.0, 363112, 3578, 3350, 116219, 1954 },
	{ 66019, 101.2, 397469, 2904, 3048, 117388, 1955 },
	{ 67857, 104.6, 419180, 2822, 2857, 118734, 1956 },
	{ 68169, 108.4, 442769, 2936, 2798, 120445, 1957 },
	{ 66513, 110.8, 444546, 4681, 2637, 121950, 1958 },
	{ 68655, 112.6, 482704, 3813, 2552, 123366, 1959 },
	{ 69564, 114.2, 502601, 3931, 2514, 125368, 1960 },
	{ 69331, 115.7, 518173, 4806, 2572, 127852, 1961 },
	{ 70551, 116.9, 554894, 4007, 2827, 130081, 1962 } };
static const double longley_certified[7][2] = { { -3482258.63459582, 890420.383607373 },
	{ 15.0618722713733, 84.9149257747669 }, { -0.358191792925910e-01, 0.334910077722432e-01 },
	{ -2.02022980381683, 0.488399681651699 }, { -1.03322686717359, 0.214274163161675 },
	{ -0.511041056535807e-01, 0.226073200069370 }, { 1829.15146461355, 455.478499142212 } };

static void a_hard_regression_meets_its_certified_values(void **state)
{
	const double sigma = 304.854073561965; /* certified residual standard deviation */
	struct adjust_case *c = adjust_case_new(16, 7, 1);

	(void)state;
	adjust_case_alike(c, sigma);
	for (int i = 0; i < 16; i++) {
		c->observed[i] = longley[i][0];
		for (int j = 0; j < 7; j++)
			c->effect[i * 7 + j] = j ? longley[i][j] : 1;
	}
	assert_int_equal(adjust_case_solve(c), ADJUST_OK);
	for (int j = 0; j < 7; j++) {
		assert_near(c->answer.estimate[j] / longley_certified[j][0], 1, 1e-9);
		assert_near(sqrt(c->answer.covariance[j][j]) / longley_certified[j][1], 1, 1e-9);
	}
	/* The certified deviation is what makes the chi-square equal to its freedom. */
	assert_int_equal(c->answer.freedom, 9);
	assert_near(c->answer.chi_square, 9, 1e-8);
	adjust_case_free(c);
}

/* The same source, Wampler1: y = 1 + x + ... + x^5 at 0, 1 ... 20; all coefficients are 1 and nothing is
 * left. */
static void a_polynomial_comes_back(void **state)
{
	struct adjust_case *c = adjust_case_new(21, 6, 1);

	(void)state;
	adjust_case_alike(c, 1);
	for (int i = 0; i < 21; i++)
		for (int j = 0; j < 6; j++) {
			c->effect[i * 6 + j] = pow(i, j);
			c->observed[i] += pow(i, j);
		}
	assert_int_equal(adjust_case_solve(c), ADJUST_OK);
	for (int j = 0; j < 6; j++)
		assert_near(c->answer.estimate[j], 1, 1e-8);
	assert_near(c->answer.chi_square, 0, 1e-12);
	adjust_case_free(c);
}

/* Eight levelled height differences between one known and three unknown points, 5 mm each, adjusted and
 * printed by a general network program (www.vrmapper.com/gama/1doutput.html, points 1a, 4, 3, 2): heights to
 * 0.01 mm, their sigmas 3.1, 3.5, 3.1 mm, [pvv] 146.625, largest normalised residual 1.68, of observation 6.
 */
static void a_levelling_net_meets_its_printed_adjustment(void **state)
{
	/* from, to (0 is the known one), difference in mm */
	static const double net[8][3] = { { 0, 1, -1225 }, { 1, 2, -848 }, { 2, 3, 1342 }, { 3, 0, 720 },
		{ 0, 3, -724 }, { 3, 2, -1335 }, { 2, 1, 842 }, { 1, 0, 1231 } };
	static const double heights[3] = { -1224.88, -2066.75, -725.13 }, sigmas[3] = { 3.1, 3.5, 3.1 };
	struct adjust_case *c = adjust_case_new(8, 3, 1);
	double weighted = 0, most = 0;
	int worst = -1;

	(void)state;
	adjust_case_alike(c, 5);
	for (int i = 0; i < 8; i++) {
		c->observed[i] = net[i][2];
		for (int j = 0; j < 3; j++)
			c->effect[i * 3 + j] = (net[i][1] == j + 1) - (net[i][0] == j + 1);
	}
	assert_int_equal(adjust_case_solve(c), ADJUST_OK);
	for (int j = 0; j < 3; j++) {
		assert_near(c->answer.estimate[j], heights[j], 5.1e-3);
		assert_near(sqrt(c->answer.covariance[j][j]), sigmas[j], 0.051);
	}
	for (int i = 0; i < 8; i++) {
		weighted += c->answer.residual[i] * c->answer.residual[i];
		if (fabs(c->answer.normalised[i]) > most) {
			most = fabs(c->answer.normalised[i]);
			worst = i;
		}
	}
	assert_near(weighted, 146.625, 5e-4);
	assert_near(most, 1.68, 5.1e-3);
	assert_int_equal(worst, 5);
	assert_int_equal(c->answer.outlier, -1);
	adjust_case_free(c);
}

/* ---- the plain solver ---- */

/* A covariance with correlations of every size, terms of sizes far apart, some with a prior. */
static struct adjust_case *wild_case(struct random *r, size_t fixes, size_t parts)
{
	size_t n = fixes * parts, m = 1 + (size_t)(random_unit(r) * (ADJUST_TERMS - 1));
	struct adjust_case *c = adjust_case_new(n, m, parts);
	static double root[ADJUST_COUNT][ADJUST_COUNT];

	for (size_t i = 0; i < n; i++)
		for (size_t k = 0; k < n; k++)
			root[i][k] = random_normal(r) * (i == k ? 1 : 0.3);
	for (size_t i = 0; i < n; i++)
		for (size_t k = 0; k < n; k++) {
			c->covariance[i * n + k] = i == k ? 0.05 : 0;
			for (size_t l = 0; l < n; l++)
				c->covariance[i * n + k] += root[i][l] * root[k][l];
		}
	for (size_t j = 0; j < m; j++) {
		double size = pow(10, random_between(r, -2, 3));
		c->prior[j] = random_unit(r) < 0.6 || m > n ? 2 / size : HUGE_VAL;
		for (size_t i = 0; i < n; i++)
			c->effect[i * m + j] = size * random_normal(r);
	}
	for (size_t i = 0; i < n; i++)
		c->observed[i] = 3 * random_normal(r);
	return c;
}

/* What is less likely by chance than that: the same from the plain weights, for one observation. */
static void check_tests(const struct adjust_case *c, const struct plain_answer *plain)
{
	size_t n = c->problem.count, m = c->problem.terms;

	for (size_t i = 0; i < n; i++) {
		long double score = 0, whole = plain->weight.at[i][i], taken[ADJUST_TERMS] = { 0 }, share = 0,
			    explained = 0;
		for (size_t k = 0; k < n; k++) {
			score += plain->weight.at[i][k] * plain->residual[k];
			for (size_t a = 0; a < m; a++)
				taken[a] += plain->weight.at[i][k] * c->effect[k * m + a];
		}
		for (size_t a = 0; a < m; a++)
			for (size_t b = 0; b < m; b++) {
				whole -= taken[a] * plain->covariance[a][b] * taken[b];
				share += c->effect[i * m + a] * plain->covariance[a][b] * taken[b];
				explained +=
					c->effect[i * m + a] * plain->covariance[a][b] * c->effect[i * m + b];
			}
		if (whole > 1e-6 * plain->weight.at[i][i])
			assert_near(c->answer.normalised[i], (double)(score / sqrtl(whole)), 1e-6);
		assert_near(c->answer.redundancy[i], (double)(1 - share), 1e-8);
		assert_near(c->answer.residual_sigma[i],
			sqrt(fmax(0, (double)(c->covariance[i * n + i] - explained))), 1e-5);
	}
}

static void it_agrees_with_normal_equations_in_more_digits(void **state)
{
	struct random r = { 41 };
	static struct plain_answer plain;

	(void)state;
	for (size_t round = 0; round < 60; round++) {
		struct adjust_case *c = wild_case(&r, 3 + round % 12, 1 + round % 3);
		size_t m = c->problem.terms;
		enum adjust_status status = adjust_case_solve(c);
		if (status == ADJUST_SINGULAR) { /* fewer observations than terms without a prior */
			assert_true(m > c->problem.count);
			adjust_case_free(c);
			continue;
		}
		assert_int_equal(status, ADJUST_OK);
		plain_solve(&c->problem, &plain);
		for (size_t a = 0; a < m; a++) {
			double sigma = (double)sqrtl(plain.covariance[a][a]);
			assert_near(c->answer.estimate[a] / sigma, (double)plain.estimate[a] / sigma, 1e-8);
			for (size_t b = 0; b < m; b++) {
				double other = (double)sqrtl(plain.covariance[b][b]);
				assert_near(c->answer.covariance[a][b] / sigma / other,
					(double)plain.covariance[a][b] / sigma / other, 1e-8);
			}
		}
		for (size_t i = 0; i < c->problem.count; i++)
			assert_near(c->answer.residual[i], (double)plain.residual[i], 1e-8);
		assert_near(c->answer.chi_square / (double)plain.chi_square, 1, 1e-8);
		check_tests(c, &plain);
		adjust_case_free(c);
	}
}

/* A fix is tested by what its leaving would do: solved again without it. */
static void a_test_is_what_leaving_the_fix_out_gains(void **state)
{
	struct random r = { 43 };

	(void)state;
	for (int round = 0; round < 40; round++) {
		struct adjust_case *all = wild_case(&r, 5, 3), *less;
		size_t n = 15, m = all->problem.terms, out = (size_t)(round % 5);
		assert_int_equal(adjust_case_solve(all), ADJUST_OK);
		less = adjust_case_new(12, m, 3);
		memcpy(less->prior, all->prior, sizeof less->prior);
		for (size_t i = 0; i < 12; i++) {
			size_t from = i < 3 * out ? i : i + 3;
			less->observed[i] = all->observed[from];
			memcpy(less->effect + i * m, all->effect + from * m, m * sizeof(double));
			for (size_t k = 0; k < 12; k++)
				less->covariance[i * 12 + k] =
					all->covariance[from * n + (k < 3 * out ? k : k + 3)];
		}
		assert_int_equal(adjust_case_solve(less), ADJUST_OK);
		assert_int_equal(all->answer.tests[out].freedom, 3);
		assert_near(all->answer.chi_square - all->answer.tests[out].statistic,
			less->answer.chi_square, 1e-7 * all->answer.chi_square);
		adjust_case_free(all);
		adjust_case_free(less);
	}
}

/* ---- what must be so ---- */

static void one_fix_and_one_term_are_a_weighted_mean(void **state)
{
	struct adjust_case *c = adjust_case_new(1, 1, 1);

	(void)state;
	/* 400 m out, 0.5 degrees of azimuth from the job, a coil that is good for 0.5 m reads 2 m to the
	 * side. */
	c->prior[0] = 0.5;
	c->effect[0] = 400 * 3.14159265358979 / 180;
	c->covariance[0] = 0.25;
	c->observed[0] = 2;
	assert_int_equal(adjust_case_solve(c), ADJUST_OK);
	double weight = c->effect[0] * c->effect[0] / 0.25, all = weight + 4;
	assert_near(c->answer.estimate[0], 2 / c->effect[0] * weight / all, 1e-15);
	assert_near(c->answer.covariance[0][0], 1 / all, 1e-15);
	assert_near(c->answer.chi_square, 4 / (0.25 + 0.25 * c->effect[0] * c->effect[0]), 1e-12);
	assert_near(c->answer.redundancy[0], 4 / all, 1e-15);
	adjust_case_free(c);
}

/* Nothing checks a fix that alone tells the terms: no test is made up. */
static void a_fix_that_nothing_checks_is_not_judged(void **state)
{
	struct adjust_case *c = adjust_case_new(2, 2, 2);

	(void)state;
	adjust_case_alike(c, 0.3);
	c->effect[0] = 350;
	c->effect[3] = 349;
	c->observed[0] = 12;
	c->observed[1] = -7;
	assert_int_equal(adjust_case_solve(c), ADJUST_OK);
	assert_int_equal(c->answer.freedom, 0);
	assert_near(c->answer.probability, 1, 0);
	assert_int_equal(c->answer.tests[0].freedom, 0);
	assert_int_equal(c->answer.outlier, -1);
	assert_near(c->answer.normalised[0], 0, 0);
	assert_near(c->answer.residual_sigma[0], 0, 0);
	assert_near(c->answer.redundancy[0], 0, 1e-12);
	adjust_case_free(c);
}

static void the_shares_of_redundancy_make_the_freedom(void **state)
{
	struct random r = { 47 };
	struct adjust_case *c = wild_case(&r, 6, 2);
	double sum = 0;

	(void)state;
	for (size_t j = 0; j < c->problem.terms; j++)
		c->prior[j] = HUGE_VAL;
	assert_int_equal(adjust_case_solve(c), ADJUST_OK);
	for (size_t i = 0; i < c->problem.count; i++)
		sum += c->answer.redundancy[i];
	assert_near(sum, c->answer.freedom, 1e-9);
	adjust_case_free(c);
}

static void metres_and_feet_give_one_answer(void **state)
{
	struct random r = { 53 };
	struct adjust_case *c = wild_case(&r, 4, 3);
	struct adjust_answer before;
	const double foot = 0.3048;

	(void)state;
	assert_int_equal(adjust_case_solve(c), ADJUST_OK);
	before = c->answer;
	for (size_t i = 0; i < 12; i++) {
		c->observed[i] /= foot;
		for (size_t j = 0; j < c->problem.terms; j++)
			c->effect[i * c->problem.terms + j] /= foot;
		for (size_t k = 0; k < 12; k++)
			c->covariance[i * 12 + k] /= foot * foot;
	}
	assert_int_equal(adjust_case_solve(c), ADJUST_OK);
	assert_near(c->answer.chi_square, before.chi_square, 1e-9);
	for (size_t j = 0; j < c->problem.terms; j++)
		assert_near(c->answer.estimate[j] / before.estimate[j], 1, 1e-9);
	for (size_t k = 0; k < 4; k++)
		assert_near(c->answer.tests[k].statistic, before.tests[k].statistic, 1e-9);
	adjust_case_free(c);
}

/* ---- refused ---- */

static void refuse(void (*spoil)(struct adjust_case *c), enum adjust_status want)
{
	struct random r = { 59 };
	struct adjust_case *c = wild_case(&r, 4, 3);
	struct adjust_answer untouched;

	for (size_t j = 0; j < c->problem.terms; j++)
		c->prior[j] = HUGE_VAL;
	spoil(c);
	memset(&c->answer, 0x5a, sizeof c->answer);
	untouched = c->answer;
	assert_int_equal(adjust_case_solve(c), want);
	assert_memory_equal(&c->answer, &untouched, sizeof untouched);
	adjust_case_free(c);
}

static void no_observation(struct adjust_case *c)
{
	c->problem.count = 0;
}
static void no_term(struct adjust_case *c)
{
	c->problem.terms = 0;
}
static void no_prior_width(struct adjust_case *c)
{
	c->prior[0] = 0;
}
static void not_a_number(struct adjust_case *c)
{
	c->observed[5] = NAN;
}
static void endless_effect(struct adjust_case *c)
{
	c->effect[2] = HUGE_VAL;
}
static void a_fix_left_out(struct adjust_case *c)
{
	c->fix[11] = 5;
}
static void a_fix_with_four(struct adjust_case *c)
{
	c->fix[3] = 0;
}
static void a_certain_alarm(struct adjust_case *c)
{
	c->problem.false_alarm = 1;
}
static void a_perfect_fix(struct adjust_case *c)
{
	for (int k = 0; k < 12; k++)
		c->covariance[4 * 12 + k] = c->covariance[k * 12 + 4] = 0;
}
static void the_same_fix_twice(struct adjust_case *c)
{
	for (int k = 0; k < 12; k++)
		c->covariance[4 * 12 + k] = c->covariance[3 * 12 + k];
	for (int k = 0; k < 12; k++)
		c->covariance[k * 12 + 4] = c->covariance[k * 12 + 3];
}
static void a_term_without_effect(struct adjust_case *c)
{
	for (size_t i = 0; i < 12; i++)
		c->effect[i * c->problem.terms] = 0;
}
static void two_terms_alike(struct adjust_case *c)
{
	assert_true(c->problem.terms > 1);
	for (size_t i = 0; i < 12; i++)
		c->effect[i * c->problem.terms + 1] = 3 * c->effect[i * c->problem.terms];
}

static void what_cannot_be_answered_is_refused(void **state)
{
	(void)state;
	refuse(no_observation, ADJUST_RANGE);
	refuse(no_term, ADJUST_RANGE);
	refuse(no_prior_width, ADJUST_RANGE);
	refuse(not_a_number, ADJUST_RANGE);
	refuse(endless_effect, ADJUST_RANGE);
	refuse(a_fix_left_out, ADJUST_RANGE);
	refuse(a_fix_with_four, ADJUST_RANGE);
	refuse(a_certain_alarm, ADJUST_RANGE);
	refuse(a_perfect_fix, ADJUST_COVARIANCE);
	refuse(the_same_fix_twice, ADJUST_COVARIANCE);
	refuse(a_term_without_effect, ADJUST_SINGULAR);
	refuse(two_terms_alike, ADJUST_SINGULAR);
}

/* With a prior neither of two terms alike needs telling from the other. */
static void a_prior_settles_what_the_fixes_cannot(void **state)
{
	struct random r = { 59 };
	struct adjust_case *c = wild_case(&r, 4, 3);

	(void)state;
	for (size_t j = 0; j < c->problem.terms; j++)
		c->prior[j] = 0.01;
	two_terms_alike(c);
	assert_int_equal(adjust_case_solve(c), ADJUST_OK);
	assert_near(c->answer.estimate[1], 3 * c->answer.estimate[0], 1e-9);
	adjust_case_free(c);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_hard_regression_meets_its_certified_values),
		cmocka_unit_test(a_polynomial_comes_back),
		cmocka_unit_test(a_levelling_net_meets_its_printed_adjustment),
		cmocka_unit_test(it_agrees_with_normal_equations_in_more_digits),
		cmocka_unit_test(a_test_is_what_leaving_the_fix_out_gains),
		cmocka_unit_test(one_fix_and_one_term_are_a_weighted_mean),
		cmocka_unit_test(a_fix_that_nothing_checks_is_not_judged),
		cmocka_unit_test(the_shares_of_redundancy_make_the_freedom),
		cmocka_unit_test(metres_and_feet_give_one_answer),
		cmocka_unit_test(what_cannot_be_answered_is_refused),
		cmocka_unit_test(a_prior_settles_what_the_fixes_cannot),
	};
	return run_tests(tests);
}
