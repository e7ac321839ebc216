/* Readings taken again, against paths that are known; and the noise that they show, against chance. */
#include "model/repeats.h"

#include "geom/angle.h"
#include "geom/random.h"
#include "model/fact.h"
#include "support/jobs.h"
#include "support/near.h"

#include <stdlib.h>
#include <string.h>

static struct job job;
static struct solution solved;

static int setup(void **state)
{
	(void)state;
	jobs_plain(&job);
	return 0;
}

static int teardown(void **state)
{
	(void)state;
	sb_solution_clear(&solved);
	sb_job_clear(&job);
	return 0;
}

static void drill(int joints)
{
	for (int i = 0; i < joints; i++)
		jobs_log(&job, "", "80.0", "90.0");
	sb_solution_clear(&solved);
	jobs_solve(&job, &solved);
}

static struct repeat repeat_at(double depth, double inclination, double azimuth)
{
	struct repeat r = { .fact = { .act = 1000 + (int64_t)job.repeat_count,
				    .leg = sb_job_leg(&job),
				    .joint = sb_job_in_ground(&job) } };

	r.depth = sb_number_of(depth, 2);
	r.inclination = sb_number_of(inclination, 2);
	if (!isnan(azimuth))
		r.azimuth = sb_number_of(azimuth, 2);
	return r;
}

static void keep(double depth, double inclination, double azimuth)
{
	struct repeat r = repeat_at(depth, inclination, azimuth);

	sb_fact_add(&job, ACT_REPEAT, &r);
}

/* Noise of 0.1 and 0.3 degrees in the sheet: 3 sigmas of a difference are 0.42 and 1.27. */
static void a_repeat_is_held_against_the_path_where_it_was_taken(void **state)
{
	(void)state;
	drill(6);
	struct repeat r = repeat_at(155, 80.3, 89.0);
	struct repeat_difference d = sb_repeat_compare(&job, &solved, &r);
	assert_near(sb_deg(d.inc_rad), 0.3, 1e-9);
	assert_near(sb_deg(d.azi_rad), -1.0, 1e-9);
	assert_near(sb_deg(d.inc_sigma_rad), 0.1 * sqrt(2), 1e-9);
	assert_int_equal(d.joint, 5);
	assert_true(d.agrees && d.stands);
	r = repeat_at(155, 80.5, 90.0);
	assert_false(sb_repeat_compare(&job, &solved, &r).agrees);
	r = repeat_at(155, 80.0, 91.5);
	assert_false(sb_repeat_compare(&job, &solved, &r).agrees);
	r = repeat_at(155, 80.0, (double)NAN);
	d = sb_repeat_compare(&job, &solved, &r);
	assert_true(isnan(d.azi_rad) && d.agrees);
}

/* A redrilled hole lies elsewhere: what was read again in the one before has nothing to be held against. */
static void what_was_given_up_since_is_not_compared(void **state)
{
	struct sb_str words = { 0 };

	(void)state;
	drill(6);
	keep(155, 80.0, 90.0);
	keep(93, 80.1, 90.0); /* the last that is left */
	jobs_withdraw(&job, 3);
	drill(3);
	assert_false(sb_repeat_compare(&job, &solved, &job.repeats[0]).stands);
	assert_true(sb_repeat_compare(&job, &solved, &job.repeats[1]).stands);
	assert_int_equal(sb_repeat_noise(&job, &solved).inc_count, 1);
	sb_repeat_words(&job, &solved, &job.repeats[0], &words);
	assert_non_null(strstr(sb_str_get(&words), "given up since, and drilled again"));
	sb_str_clear(&words);
}

/* By hand: at one place the path reads 80.0, and 80.3 and 80.6 were read again: mean 80.3, squares 0.18, two
 * degrees of freedom: 0.3. Once the path's own error was counted in every pair. */
static void several_at_one_place_share_the_paths_reading(void **state)
{
	(void)state;
	drill(6);
	keep(155, 80.3, (double)NAN);
	assert_true(isnan(sb_repeat_noise(&job, &solved).inc_rad));
	keep(155, 80.6, (double)NAN);
	struct repeat_noise n = sb_repeat_noise(&job, &solved);
	assert_int_equal(n.inc_count, 2);
	assert_int_equal(n.azi_count, 0);
	assert_near(sb_deg(n.inc_rad), 0.3, 1e-9);
	/* one more elsewhere, 0.4 off: 0.08 of squares, one degree of freedom */
	keep(93, 79.6, (double)NAN);
	n = sb_repeat_noise(&job, &solved);
	assert_near(sb_deg(n.inc_rad), sqrt((0.18 + 0.08) / 3), 1e-9);
}

/* Readings by chance, the path's among them, of a tool as noisy as asked. The path is straight, but for that.
 */
static bool noise_is_remarked_on(struct random *r, double share, int places, int each)
{
	struct sb_str words = { 0 };

	teardown(NULL);
	setup(NULL);
	char inc[16], azi[16];
	for (int i = 0; i < places; i++) {
		snprintf(inc, sizeof inc, "%.2f", 80 + 0.1 * share * random_normal(r));
		snprintf(azi, sizeof azi, "%.2f", 90 + 0.3 * share * random_normal(r));
		jobs_log(&job, "", inc, azi);
	}
	jobs_solve(&job, &solved);
	for (int i = 0; i < places * each; i++)
		keep(31 * (1 + i % places), 80 + 0.1 * share * random_normal(r),
			90 + 0.3 * share * random_normal(r));
	bool said = sb_repeat_noise_words(&job, &solved, &words);
	assert_int_equal(said, words.length > 0);
	sb_str_clear(&words);
	return said;
}

/* Two angles, each at 1 percent: 2 percent of honest tools. Of 1,000, 20, give or take 4.4 (binomial). */
static void an_honest_tool_is_hardly_ever_remarked_on_and_a_noisy_one_is(void **state)
{
	struct random r = { 99 };
	int honest = 0, noisy = 0, calm = 0;

	(void)state;
	for (int i = 0; i < 1000; i++) {
		honest += noise_is_remarked_on(&r, 1, 6, 2);
		noisy += noise_is_remarked_on(&r, 2.5, 6, 2);
		calm += noise_is_remarked_on(&r, 0.3, 6, 2);
	}
	print_message("of 1,000 tools: honest %d, two and a half times as noisy %d, a third %d\n", honest,
		noisy, calm);
	assert_true(honest >= 7 && honest <= 34);
	assert_true(noisy > 990);
	assert_true(calm > 950);
}

static void the_words_name_the_sigma_that_is_wrong(void **state)
{
	struct sb_str words = { 0 };

	(void)state;
	drill(6);
	for (int i = 1; i <= 3; i++)
		keep(31 * i, 80.6, 90.2);
	assert_false(sb_repeat_noise_words(&job, &solved, &words)); /* three are few */
	keep(155, 79.4, 89.8);
	assert_true(sb_repeat_noise_words(&job, &solved, &words));
	assert_non_null(strstr(sb_str_get(&words),
		"Repeats show inclination noise of 0.42 deg (from 4 differences) where the sheet's sigma_inclination is 0.10: "
		"more than chance explains."));
	assert_null(strstr(sb_str_get(&words), "azimuth"));
	sb_str_clear(&words);
}

#define HERE(name) cmocka_unit_test_setup_teardown(name, setup, teardown)

int main(void)
{
	const struct CMUnitTest tests[] = {
		HERE(a_repeat_is_held_against_the_path_where_it_was_taken),
		HERE(what_was_given_up_since_is_not_compared),
		HERE(several_at_one_place_share_the_paths_reading),
		HERE(an_honest_tool_is_hardly_ever_remarked_on_and_a_noisy_one_is),
		HERE(the_words_name_the_sigma_that_is_wrong),
	};
	return run_tests(tests);
}
