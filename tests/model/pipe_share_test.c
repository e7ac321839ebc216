/* The warning of the product pipe: what its estimate says where it is asked, when a pass begins or ends and
 * when the pull begins, and nowhere else. The yield of the steel is what makes it breach, watch or ok; the
 * shares themselves are tested in pipe_load_test.c against derived cases. */
#include "model/pullback.h"

#include "base/str.h"
#include "io/explain.h"
#include "model/fact.h"
#include "profile_b.h"
#include "support/near.h"

#include <string.h>

#define JOINTS 78 /* of 31 ft: through the whole bore */

static struct job job;
static struct solution s;
static int64_t acts; /* so many, in the order of time */

static int begin(void **state)
{
	(void)state;
	acts = 0;
	profile_b(&job);
	jobs_set(&job, "product_pipe", "outside_diameter", "24");
	jobs_set(&job, "product_pipe", "wall", "0.5");
	jobs_set(&job, "product_pipe", "yield", "52000");
	jobs_set(&job, "hole", "final_diameter", "36");
	jobs_set(&job, "fluid", "weight", "12");
	jobs_set(&job, "pull", "fluid_drag", "0.025");
	jobs_follow(&job, JOINTS);
	return 0;
}

static int tidy(void **state)
{
	(void)state;
	sb_solution_clear(&s);
	sb_job_clear(&job);
	return 0;
}

static int64_t enter(enum act_kind kind, void *fact)
{
	struct act a = { .id = ++acts,
		.kind = kind,
		.joint = sb_job_in_ground(&job),
		.leg = sb_job_leg(&job),
		.who = "Ida" };
	struct fact *head = fact;

	sb_job_add_act(&job, &a);
	head->act = a.id;
	head->id = (int64_t)sb_fact_count(sb_fact_sort(kind), &job) + 1;
	sb_fact_add(&job, kind, fact);
	return a.id;
}

static int64_t pass_begins(void)
{
	struct pass p = { .kind = PASS_REAM, .to = PASS_TO_ENTRY, .diameter = sb_number_of(36, 0) };

	return enter(ACT_PASS, &p);
}

/* The newest of its kind; NULL: none. */
static const struct warning *solved(void)
{
	const struct warning *newest = NULL;

	jobs_solve(&job, &s);
	for (size_t i = 0; i < s.warning_count; i++)
		if (s.warnings[i].kind == WARNING_PIPE_SHARE)
			newest = &s.warnings[i];
	return newest;
}

static struct pipe_verdict estimated(enum pipe_check *check, struct load_station *at)
{
	struct clearance_ask ask;
	struct pipe_load load = { 0 };
	struct sb_err err = { 0 };

	jobs_solve(&job, &s);
	ask = sb_solution_clearance(&job, &s);
	assert_int_equal(sb_pipe_load_make(&ask, false, &load, &err), 0);
	struct pipe_verdict v = sb_pipe_verdict_worst(&load, check);
	*at = load.stations[v.at];
	sb_pipe_load_clear(&load);
	return v;
}

static void says(const struct warning *w, const char *words)
{
	assert_non_null(w);
	if (strstr(w->text, words) == NULL)
		fail_msg("\"%s\" does not say \"%s\"", w->text, words);
	assert_true(strlen(w->text) < sizeof w->text - 1);
}

static void a_pass_that_begins_asks_what_the_pipe_may_bear(void **state)
{
	enum pipe_check check = CHECK_HOOP;
	struct load_station at;
	char words[80];

	(void)state;
	jobs_set(&job, "product_pipe", "yield", "12000");
	assert_null(solved());
	int64_t act = pass_begins();
	struct pipe_verdict v = estimated(&check, &at);
	const struct warning *w = solved();
	assert_true(v.ratio > 1);
	assert_non_null(w);
	assert_int_equal(w->level, LEVEL_BREACH);
	assert_true(w->open);
	assert_true(w->act == act);
	assert_near(w->value, v.ratio, 0);
	assert_near(w->limit, 1, 0);
	assert_near(w->station_m, at.station_m, 0);
	/* both checks of bending are beyond what is allowed: the sum of squares is the larger share */
	assert_int_equal(check, CHECK_ALL);
	snprintf(words, sizeof words, "Estimate: %.2f of what the product pipe may bear (tension, bending",
		v.ratio);
	says(w, words);
	says(w, "The engineer decides before pipe goes in");
	assert_int_equal(s.level, LEVEL_BREACH);
}

/* What is said is found again where the figure is explained: at the end of the same joint. */
static void its_figure_explains_its_value(void **state)
{
	struct explanation e = { 0 };
	struct sb_err err = { 0 };
	double found = 0;

	(void)state;
	jobs_set(&job, "product_pipe", "yield", "12000");
	pass_begins();
	const struct warning *w = solved();
	struct explain_ask ask = sb_explain_warning(&s, w);
	assert_non_null(ask.figure);
	assert_string_equal(ask.figure->name, "pipe-share");
	assert_int_equal(sb_explain(&job, &s, &ask, &e, &err), 0);
	for (size_t i = 0; i < e.count; i++)
		if (e.lines[i].kind == EXPLAIN_RESULT)
			found = fmax(found, e.lines[i].number);
	assert_near(found, w->value, 1e-9);
	sb_explanation_clear(&e);
}

static void near_the_limit_is_a_watch_and_well_below_it_nothing(void **state)
{
	enum pipe_check check;
	struct load_station at;

	(void)state;
	pass_begins();
	assert_null(solved());
	struct pipe_verdict v = estimated(&check, &at);
	assert_true(v.ratio < 0.9 && v.high < 1);
	char share[32];
	snprintf(share, sizeof share, "%.3f", v.ratio - 0.01);
	jobs_set(&job, "pull", "watch", share);
	const struct warning *w = solved();
	says(w, "; a watch from 0.");
	assert_int_equal(w->level, LEVEL_WATCH);
	assert_near(w->limit, v.ratio - 0.01, 1e-3);
}

static void what_the_top_of_the_band_would_break_is_a_watch(void **state)
{
	enum pipe_check check;
	struct load_station at;

	(void)state;
	jobs_set(&job, "pull", "watch", "1");
	pass_begins();
	double yield = 52000;
	struct pipe_verdict v = estimated(&check, &at);
	for (; v.high <= 1; v = estimated(&check, &at)) {
		char text[32];
		snprintf(text, sizeof text, "%.0f", yield -= 250);
		jobs_set(&job, "product_pipe", "yield", text);
	}
	assert_true(v.ratio < 1);
	const struct warning *w = solved();
	says(w, "with more friction, drag or other fluid");
	assert_int_equal(w->level, LEVEL_WATCH);
	assert_near(w->value, v.high, 0);
}

static void one_episode_lasts_over_passes_and_the_pull(void **state)
{
	struct pass_end e = { .pass = 1 };
	struct pull_begin b = { 0 };

	(void)state;
	jobs_set(&job, "product_pipe", "yield", "12000");
	int64_t act = pass_begins();
	enter(ACT_PASS_END, &e);
	enter(ACT_PULL, &b);
	const struct warning *w = solved();
	assert_non_null(w);
	size_t count = 0;
	for (size_t i = 0; i < s.warning_count; i++)
		count += s.warnings[i].kind == WARNING_PIPE_SHARE;
	assert_int_equal(count, 1);
	assert_true(w->open);
	assert_true(w->act == act); /* what was acknowledged of it still is */
}

/* The pilot is opened again: six joints after joint 30, bent or not. */
static void drill_anew(const char *there, const char *back)
{
	jobs_withdraw(&job, 30);
	job.legs[job.leg_count - 1].act = ++acts;
	for (int i = 0; i < 6; i++) {
		jobs_log(&job, "", i < 3 ? there : back, "90");
		job.readings[job.reading_count - 1].logged = ++acts;
	}
}

static void a_hole_that_was_mended_ends_the_episode(void **state)
{
	(void)state;
	drill_anew("96", "84");
	pass_begins();
	const struct warning *w = solved();
	says(w, "1 is allowed");
	drill_anew("90", "90");
	w = solved();
	assert_non_null(w);
	assert_true(w->open); /* nobody asked again yet */
	pass_begins();
	w = solved();
	assert_non_null(w);
	assert_false(w->open);
	assert_false(sb_warning_counts(w));
}

static void without_what_the_estimate_needs_nothing_is_said(void **state)
{
	(void)state;
	jobs_set(&job, "product_pipe", "yield", "12000");
	pass_begins();
	job.fluid_weight = (struct number){ 0, "" };
	assert_null(solved());
	jobs_set(&job, "fluid", "weight", "12");
	assert_non_null(solved());
	job.yield = (struct number){ 0, "" };
	assert_null(solved());
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, begin, tidy)

int main(void)
{
	const struct CMUnitTest tests[] = {
		TEST(a_pass_that_begins_asks_what_the_pipe_may_bear),
		TEST(its_figure_explains_its_value),
		TEST(near_the_limit_is_a_watch_and_well_below_it_nothing),
		TEST(what_the_top_of_the_band_would_break_is_a_watch),
		TEST(one_episode_lasts_over_passes_and_the_pull),
		TEST(a_hole_that_was_mended_ends_the_episode),
		TEST(without_what_the_estimate_needs_nothing_is_said),
	};

	return run_tests(tests);
}
