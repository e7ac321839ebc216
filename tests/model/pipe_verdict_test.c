/* The words for the product pipe: each limit put below, into and above the band of its force. */
#include "model/pipe_verdict.h"

#include "base/measure.h"
#include "profile_b.h"
#include "support/near.h"

#include <stdio.h>

static const double psi = 6894.757293168361, lbf = 0.45359237 * 9.80665;

static struct job job;
static struct solution s;
static struct pipe_load load;

static int begin(void **state)
{
	(void)state;
	profile_b(&job);
	jobs_set(&job, "product_pipe", "outside_diameter", "24");
	jobs_set(&job, "product_pipe", "wall", "0.5");
	jobs_set(&job, "product_pipe", "yield", "52000");
	jobs_set(&job, "hole", "final_diameter", "36");
	jobs_set(&job, "fluid", "weight", "12");
	jobs_set(&job, "pull", "fluid_drag", "0.025");
	return 0;
}

static int end(void **state)
{
	(void)state;
	sb_pipe_load_clear(&load);
	sb_solution_clear(&s);
	sb_job_clear(&job);
	return 0;
}

static void make(void)
{
	struct sb_err err = { 0 };

	jobs_solve(&job, &s);
	struct clearance_ask ask = sb_solution_clearance(&job, &s);
	if (sb_pipe_load_make(&ask, true, &load, &err)) {
		print_error("%s\n", err.text);
		fail();
	}
}

static void set(const char *section, const char *key, double value)
{
	char text[32];

	snprintf(text, sizeof text, "%.3f", value);
	jobs_set(&job, section, key, text);
}

/* Not always where the force itself is largest. */
static double top_of_band(void)
{
	double top = 0;

	for (size_t i = 0; i < load.count; i++)
		top = fmax(top, load.stations[i].high_n);
	return top;
}

static struct pipe_verdict with_safe_force(double newton)
{
	set("pull", "safe_force", newton / lbf);
	make();
	return sb_pipe_verdict_force(&load);
}

static void the_safe_force_is_a_watch_inside_the_band_and_a_breach_below_it(void **state)
{
	(void)state;
	make();
	assert_false(sb_pipe_verdict_force(&load).judged);
	double given = load.stations[load.most].force_n, high = top_of_band();
	assert_true(high > given);
	struct pipe_verdict v = with_safe_force(1.01 * high);
	assert_true(v.judged);
	assert_int_equal(v.level, LEVEL_OK);
	assert_near(v.high, 1 / 1.01, 1e-6);
	v = with_safe_force((given + high) / 2);
	assert_int_equal(v.level, LEVEL_WATCH);
	assert_near(v.ratio, given / ((given + high) / 2), 1e-6);
	v = with_safe_force(0.99 * given);
	assert_int_equal(v.level, LEVEL_BREACH);
	assert_int_equal(v.at, load.most);
}

/* Tension is allowed 0.9 of the yield: the yield that is just kept by a force is known. */
static struct pipe_verdict with_yield_for(double newton)
{
	double area = load.given.section.area_m2;

	set("product_pipe", "yield", newton / area / 0.9 / psi);
	make();
	return sb_pipe_verdict_check(&load, CHECK_TENSION);
}

static void a_check_is_a_watch_where_the_band_would_break_it(void **state)
{
	enum pipe_check worst = CHECK_HOOP;

	(void)state;
	make();
	double given = load.stations[load.most].force_n, high = top_of_band();
	struct pipe_verdict v = with_yield_for(1.01 * high);
	assert_int_equal(v.level, LEVEL_OK);
	v = with_yield_for((given + high) / 2);
	assert_int_equal(v.level, LEVEL_WATCH);
	assert_true(v.ratio < 1 && v.high > 1);
	assert_near(v.high / v.ratio, high / given, 1e-6);
	v = with_yield_for(0.99 * given);
	assert_int_equal(v.level, LEVEL_BREACH);
	/* bending comes on top of it: the sum is worse */
	v = sb_pipe_verdict_worst(&load, &worst);
	assert_int_equal(v.level, LEVEL_BREACH);
	assert_true(worst == CHECK_TENSION_BENDING || worst == CHECK_ALL);
	assert_near(v.ratio, load.stations[v.at].ratio[worst], 0);
	for (int k = 0; k < PIPE_CHECKS; k++)
		assert_true(sb_pipe_verdict_check(&load, (enum pipe_check)k).ratio <= v.ratio);
}

/* From the sheet's share on, though the whole band keeps the limit; the presets' 0.9 is above what is there.
 */
static void near_the_limit_is_a_watch_by_the_share_of_the_sheet(void **state)
{
	(void)state;
	make();
	struct pipe_verdict v = with_yield_for(1.01 * top_of_band());
	assert_true(v.ratio < 0.9 && v.high < 1);
	assert_int_equal(v.level, LEVEL_OK);
	set("pull", "watch", v.ratio + 0.001);
	make();
	assert_int_equal(sb_pipe_verdict_check(&load, CHECK_TENSION).level, LEVEL_OK);
	set("pull", "watch", v.ratio - 0.001);
	make();
	assert_int_equal(sb_pipe_verdict_check(&load, CHECK_TENSION).level, LEVEL_WATCH);
}

static void without_a_yield_no_word_is_given(void **state)
{
	enum pipe_check worst = CHECK_HOOP;

	(void)state;
	job.yield = (struct number){ 0, "" };
	make();
	for (int k = 0; k < PIPE_CHECKS; k++)
		assert_false(sb_pipe_verdict_check(&load, (enum pipe_check)k).judged);
	assert_false(sb_pipe_verdict_worst(&load, &worst).judged);
	assert_int_equal(worst, CHECK_HOOP);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test_setup_teardown(
			the_safe_force_is_a_watch_inside_the_band_and_a_breach_below_it, begin, end),
		cmocka_unit_test_setup_teardown(a_check_is_a_watch_where_the_band_would_break_it, begin, end),
		cmocka_unit_test_setup_teardown(
			near_the_limit_is_a_watch_by_the_share_of_the_sheet, begin, end),
		cmocka_unit_test_setup_teardown(without_a_yield_no_word_is_given, begin, end),
	};
	return run_tests(tests);
}
