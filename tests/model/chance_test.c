/* Seeded chance: repeats, streams apart, and the shapes that it should have. */
#include "model/chance.h"

#include "support/near.h"

#include <math.h>

enum { MANY = 200000 };

static void the_same_seed_stream_and_number_give_the_same_draws(void **state)
{
	struct chance a = sb_chance_begin(7, 2, 40), b = sb_chance_begin(7, 2, 40);

	(void)state;
	for (int i = 0; i < 1000; i++)
		assert_true(sb_chance_normal(&a) == sb_chance_normal(&b));
}

static void another_seed_stream_or_number_gives_others(void **state)
{
	static const uint64_t others[][3] = { { 8, 2, 40 }, { 7, 3, 40 }, { 7, 2, 41 }, { 2, 7, 40 } };

	(void)state;
	for (size_t k = 0; k < 4; k++) {
		struct chance a = sb_chance_begin(7, 2, 40),
			      b = sb_chance_begin(others[k][0], others[k][1], others[k][2]);
		int same = 0;
		for (int i = 0; i < 1000; i++)
			same += sb_chance_unit(&a) == sb_chance_unit(&b);
		assert_int_equal(same, 0);
	}
}

/* The first draws of neighbouring numbers are as independent as those of one stream: a joint's noise says
 * nothing of the next one's. */
static void neighbours_are_not_alike(void **state)
{
	double sum = 0, last = 0;

	(void)state;
	for (uint64_t i = 0; i < MANY; i++) {
		struct chance c = sb_chance_begin(1, 5, i);
		double x = sb_chance_normal(&c);
		sum += x * last;
		last = x;
	}
	assert_near(sum / MANY, 0, 4 / sqrt(MANY));
}

static void normal_draws_have_the_moments_and_tails_of_the_normal(void **state)
{
	struct chance c = sb_chance_begin(3, 0, 0);
	double powers[5] = { 0 };
	int within[4] = { 0 };

	(void)state;
	for (int i = 0; i < MANY; i++) {
		double x = sb_chance_normal(&c), p = 1;
		for (int k = 0; k < 5; k++, p *= x)
			powers[k] += p / MANY;
		for (int k = 1; k < 4; k++)
			within[k] += fabs(x) < k;
	}
	/* four sigma of each mean: variances of x, x^2, x^3, x^4 are 1, 2, 15, 96 */
	assert_near(powers[1], 0, 4 * sqrt(1.0 / MANY));
	assert_near(powers[2], 1, 4 * sqrt(2.0 / MANY));
	assert_near(powers[3], 0, 4 * sqrt(15.0 / MANY));
	assert_near(powers[4], 3, 4 * sqrt(96.0 / MANY));
	assert_near((double)within[1] / MANY, 0.682689, 0.005);
	assert_near((double)within[2] / MANY, 0.954500, 0.003);
	assert_near((double)within[3] / MANY, 0.997300, 0.001);
}

static void whole_draws_are_even_and_in_range(void **state)
{
	struct chance c = sb_chance_begin(4, 0, 0);
	int counts[6] = { 0 };

	(void)state;
	for (int i = 0; i < MANY; i++) {
		int k = sb_chance_whole(&c, 6);
		assert_in_range(k, 0, 5);
		counts[k]++;
	}
	for (int k = 0; k < 6; k++)
		assert_near(counts[k], MANY / 6.0, 4 * sqrt(MANY * 5.0 / 36));
}

/* The first draws, written down: they must never change, or old seeds mean other bores. */
static void the_draws_are_what_they_always_were(void **state)
{
	struct chance c = sb_chance_begin(1, 0, 0);

	(void)state;
	assert_true(sb_chance_unit(&c) == 0x1.c5032bbbb3dc9p-1);
	assert_true(sb_chance_normal(&c) == 0x1.9cd7e8ce68bdp-2);
}

static const struct CMUnitTest tests[] = {
	cmocka_unit_test(the_same_seed_stream_and_number_give_the_same_draws),
	cmocka_unit_test(another_seed_stream_or_number_gives_others),
	cmocka_unit_test(neighbours_are_not_alike),
	cmocka_unit_test(normal_draws_have_the_moments_and_tails_of_the_normal),
	cmocka_unit_test(whole_draws_are_even_and_in_range),
	cmocka_unit_test(the_draws_are_what_they_always_were),
};

int main(void)
{
	return run_tests(tests);
}
