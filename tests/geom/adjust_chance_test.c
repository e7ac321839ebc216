/* The adjustment against chance itself: bores are drawn with biases and noise, fixes with errors, and what
 * the adjustment says of them is held against how they scatter. Seeds are fixed; each tolerance is over four
 * sigma of the scatter of the count or variance that is tested. */
#include "adjust_case.h"
#include "support/near.h"

#include "geom/odds.h"

/* A bore of 60 courses of 9.5 m, level and straight. Terms: azimuth (across, by the distance), inclination
 * (up), stretch (along). Noise: every reading's azimuth and inclination, every joint's length, which add up
 * to random walks of the heading's integral. Fixes at some joints, along, across and up. */
enum { JOINTS = 60, TERMS = 3, FIXES = 5 };
static const double joint_m = 9.5, prior[TERMS] = { 0.0087, 0.0035, 0.001 };
static const double noise_rad[2] = { 0.005, 0.002 }, noise_m = 0.03;
static const int at_joint[FIXES] = { 12, 20, 31, 44, 52 };
static const double sigma_m[FIXES][3] = { { 0.3, 0.5, 0.4 }, { 0.3, 0.3, 0.3 }, { 1, 0.4, 0.5 },
	{ 0.5, 0.5, 0.2 }, { 0.3, 0.6, 0.4 } };

static double effect_at(int joint, int axis, int term)
{
	return axis == (term == 0 ? 1 : term == 1 ? 2 : 0) ? joint * joint_m : 0;
}

/* The covariance of the noise of two joints along one axis. Each reading turns its own course. */
static double noise_between(int one, int other, int axis)
{
	int shared = one < other ? one : other;
	double each = axis == 0 ? noise_m : noise_rad[axis - 1] * joint_m;

	return shared * each * each;
}

static struct adjust_case *bore_case(void)
{
	struct adjust_case *c = adjust_case_new(3 * FIXES, TERMS, 3);

	memcpy(c->prior, prior, sizeof prior);
	for (int i = 0; i < 3 * FIXES; i++) {
		for (int j = 0; j < TERMS; j++)
			c->effect[i * TERMS + j] = effect_at(at_joint[i / 3], i % 3, j);
		for (int k = 0; k < 3 * FIXES; k++)
			if (i % 3 == k % 3)
				c->covariance[i * 3 * FIXES + k] =
					noise_between(at_joint[i / 3], at_joint[k / 3], i % 3) +
					(i == k ? sigma_m[i / 3][i % 3] * sigma_m[i / 3][i % 3] : 0);
	}
	return c;
}

/* What must be added to the drawn path at each joint, and what the fixes then observe. */
static void draw_bore(struct random *r, struct adjust_case *c, double truth[JOINTS + 1][3])
{
	double bias[TERMS], walk[3] = { 0 };

	for (int j = 0; j < TERMS; j++)
		bias[j] = prior[j] * random_normal(r);
	for (int k = 0; k <= JOINTS; k++)
		for (int axis = 0; axis < 3; axis++) {
			double each = axis == 0 ? noise_m : noise_rad[axis - 1] * joint_m;
			walk[axis] += k ? each * random_normal(r) : 0;
			truth[k][axis] = walk[axis];
			for (int j = 0; j < TERMS; j++)
				truth[k][axis] += effect_at(k, axis, j) * bias[j];
		}
	for (int i = 0; i < 3 * FIXES; i++)
		c->observed[i] = truth[at_joint[i / 3]][i % 3] + sigma_m[i / 3][i % 3] * random_normal(r);
}

static void point_at(int joint, struct adjust_point *point, double *with)
{
	memset(point, 0, sizeof *point);
	for (int axis = 0; axis < 3; axis++) {
		for (int j = 0; j < TERMS; j++)
			point->effect[axis][j] = effect_at(joint, axis, j);
		point->noise[axis][axis] = noise_between(joint, joint, axis);
		for (int i = 0; i < 3 * FIXES; i++)
			with[axis * 3 * FIXES + i] =
				i % 3 == axis ? noise_between(joint, at_joint[i / 3], axis) : 0;
	}
	point->with = with;
}

/* 20,000 draws: a variance scatters by 1 percent. */
enum { DRAWS = 20000 };

static void residuals_over_their_sigmas_have_unit_variance(void **state)
{
	struct adjust_case *c = bore_case();
	struct random r = { 61 };
	double truth[JOINTS + 1][3], plain[3 * FIXES] = { 0 }, weighted[3 * FIXES] = { 0 }, chi = 0,
					       tests[FIXES] = { 0 };
	int below_5 = 0, alarms = 0;

	(void)state;
	for (int round = 0; round < DRAWS; round++) {
		draw_bore(&r, c, truth);
		assert_int_equal(adjust_case_solve(c), ADJUST_OK);
		for (int i = 0; i < 3 * FIXES; i++) {
			double v = c->answer.residual[i] / c->answer.residual_sigma[i],
			       w = c->answer.normalised[i];
			plain[i] += v * v / DRAWS;
			weighted[i] += w * w / DRAWS;
		}
		for (int k = 0; k < FIXES; k++)
			tests[k] += c->answer.tests[k].statistic / DRAWS;
		chi += c->answer.chi_square / DRAWS;
		below_5 += c->answer.probability < 0.05;
		alarms += c->answer.outlier >= 0;
	}
	for (int i = 0; i < 3 * FIXES; i++) {
		assert_near(plain[i], 1, 0.04);
		assert_near(weighted[i], 1, 0.04);
	}
	for (int k = 0; k < FIXES; k++)
		assert_near(tests[k], 3, 0.1);
	assert_near(chi, 3 * FIXES, 0.16);
	assert_near(below_5 / (double)DRAWS, 0.05, 0.0065);
	/* The tests of five fixes go together a little, so that they cry wolf a little less often in all. */
	assert_true(alarms / (double)DRAWS < 0.0565 && alarms / (double)DRAWS > 0.035);
	adjust_case_free(c);
}

static void the_path_scatters_as_its_covariance_says(void **state)
{
	static const int joints[] = { 1, 6, 12, 25, 31, 52, 60 };
	enum { POINTS = sizeof joints / sizeof *joints };
	struct adjust_case *c = bore_case();
	struct random r = { 67 };
	struct adjust_point points[POINTS];
	static double with[POINTS][3 * 3 * FIXES];
	double truth[JOINTS + 1][3], corrected_square[POINTS][3] = { { 0 } },
				     best_square[POINTS][3] = { { 0 } };
	double corrected[3][3], best[3][3], shift[3], estimate_square[TERMS] = { 0 };

	(void)state;
	for (int p = 0; p < POINTS; p++)
		point_at(joints[p], &points[p], with[p]);
	for (int round = 0; round < DRAWS; round++) {
		draw_bore(&r, c, truth);
		assert_int_equal(adjust_case_solve(c), ADJUST_OK);
		for (int p = 0; p < POINTS; p++) {
			sb_adjust_point(&c->problem, c->work, &c->answer, &points[p], corrected, best, shift);
			for (int axis = 0; axis < 3; axis++) {
				double by_terms = 0;
				for (int j = 0; j < TERMS; j++)
					by_terms += points[p].effect[axis][j] * c->answer.estimate[j];
				double left = truth[joints[p]][axis] - by_terms,
				       least = truth[joints[p]][axis] - shift[axis];
				corrected_square[p][axis] += left * left / DRAWS;
				best_square[p][axis] += least * least / DRAWS;
			}
		}
		for (int j = 0; j < TERMS; j++)
			estimate_square[j] += c->answer.estimate[j] * c->answer.estimate[j] / DRAWS;
	}
	for (int p = 0; p < POINTS; p++) {
		sb_adjust_point(&c->problem, c->work, &c->answer, &points[p], corrected, best, NULL);
		for (int axis = 0; axis < 3; axis++) {
			assert_near(corrected_square[p][axis] / corrected[axis][axis], 1, 0.04);
			assert_near(best_square[p][axis] / best[axis][axis], 1, 0.04);
			assert_true(best[axis][axis] <= corrected[axis][axis] * (1 + 1e-9));
		}
	}
	/* What the estimates scatter by is what the prior had and the answer has no more. */
	for (int j = 0; j < TERMS; j++)
		assert_near(estimate_square[j] / (prior[j] * prior[j] - c->answer.covariance[j][j]), 1, 0.04);
	adjust_case_free(c);
}

/* It shrinks at the fix and grows from there. */
static void uncertainty_shrinks_at_a_fix_and_grows_after_it(void **state)
{
	struct adjust_case *c = bore_case();
	static double with[3 * 3 * FIXES];
	double corrected[3][3], before = 0;

	(void)state;
	assert_int_equal(adjust_case_solve(c), ADJUST_OK);
	for (int joint = 52; joint <= JOINTS; joint++) {
		struct adjust_point point;
		point_at(joint, &point, with);
		sb_adjust_point(&c->problem, c->work, &c->answer, &point, corrected, NULL, NULL);
		double alone = noise_between(joint, joint, 1) + pow(prior[0] * joint * joint_m, 2);
		assert_true(corrected[1][1] < 0.2 * alone);
		assert_true(corrected[1][1] > before);
		before = corrected[1][1];
	}
	adjust_case_free(c);
}

/* A fix that is wrong by twelve of its sigmas along and down: the depth was another, say. */
static void a_planted_outlier_is_named(void **state)
{
	struct adjust_case *c = bore_case();
	struct random r = { 71 };
	double truth[JOINTS + 1][3];
	int named[FIXES] = { 0 }, wrong = 0;
	enum { ROUNDS = 500 };

	(void)state;
	for (int planted = 0; planted < FIXES; planted++)
		for (int round = 0; round < ROUNDS; round++) {
			draw_bore(&r, c, truth);
			c->observed[3 * planted] += 12 * sigma_m[planted][0];
			c->observed[3 * planted + 2] -= 12 * sigma_m[planted][2];
			assert_int_equal(adjust_case_solve(c), ADJUST_OK);
			named[planted] += c->answer.outlier == planted;
			wrong += c->answer.outlier >= 0 && c->answer.outlier != planted;
		}
	for (int k = 0; k < FIXES; k++)
		assert_true(named[k] >= 0.98 * ROUNDS);
	assert_true(wrong <= 0.01 * FIXES * ROUNDS);
	adjust_case_free(c);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(residuals_over_their_sigmas_have_unit_variance),
		cmocka_unit_test(the_path_scatters_as_its_covariance_says),
		cmocka_unit_test(uncertainty_shrinks_at_a_fix_and_grows_after_it),
		cmocka_unit_test(a_planted_outlier_is_named),
	};
	return run_tests(tests);
}
