/* The pull: where the head is, the force beside the estimate and its band, times, the hold point, and what
 * all of it says in words. The estimate itself is model/pipe_load's: here a plain one stands for it. */
#include "model/pullback.h"

#include "base/mem.h"
#include "base/str.h"
#include "model/after.h"
#include "model/fact.h"

#include "support/jobs.h"
#include "support/near.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define NOON INT64_C(1795608000000) /* 2026-11-25 12:00 UTC */
#define JOINTS 10		    /* of 31 ft */
#define LBF 4.4482216152605	    /* N, NIST SP 811 */
#define FOOT 0.3048

static struct job job;
static struct pull_bands bands;
static struct pullback pull;
static struct sb_str words;
static struct sb_err err;

static int begin(void **state)
{
	(void)state;
	jobs_plain(&job);
	jobs_follow(&job, JOINTS);
	return 0;
}

static int tidy(void **state)
{
	(void)state;
	sb_str_clear(&words);
	sb_pullback_clear(&pull);
	sb_pull_bands_clear(&bands);
	sb_job_clear(&job);
	return 0;
}

/* From 10,000 lbf with the head at the exit (310 ft) to 41,000 lbf at the entry: 100 lbf a foot; give or take
 * a fifth. */
static void estimate(void)
{
	bands.made = true;
	bands.count = 2;
	bands.list = sb_alloc(2 * sizeof *bands.list);
	bands.list[0] = (struct pull_band){ 310 * FOOT, 10000 * LBF, 8000 * LBF, 12000 * LBF };
	bands.list[1] = (struct pull_band){ 0, 41000 * LBF, 32800 * LBF, 49200 * LBF };
}

static int64_t act(enum act_kind kind, int minute)
{
	struct act a = { .id = (int64_t)job.act_count + 1,
		.kind = kind,
		.at_ms = NOON + minute * INT64_C(60000),
		.joint = JOINTS,
		.leg = 1,
		.who = "Ida" };

	sb_job_add_act(&job, &a);
	return a.id;
}

static void came_out(int joint, double force, int minute, const char *started, const char *ended)
{
	struct pull_joint j = { .joint = joint, .force = sb_number_of(force, 0) };

	j.fact.act = act(ACT_PULL_JOINT, minute);
	j.fact.at_ms = NOON + minute * INT64_C(60000);
	snprintf(j.started, sizeof j.started, "%s", started);
	snprintf(j.ended, sizeof j.ended, "%s", ended);
	sb_fact_add(&job, ACT_PULL_JOINT, &j);
}

static void began(const char *missing)
{
	struct pull_begin b = { .fact = { .who = "Ida" } };

	b.fact.act = act(ACT_PULL, 0);
	snprintf(b.missing, sizeof b.missing, "%s", missing);
	sb_fact_add(&job, ACT_PULL, &b);
}

static void take(void)
{
	sb_pullback_clear(&pull);
	sb_pullback_take(&job, &bands, &pull);
}

static const char *means(size_t i)
{
	sb_str_clear(&words);
	sb_pullback_means(&job, &bands, &pull.list[i], &words);
	return sb_str_get(&words);
}

#define assert_has(text, part) \
	do { \
		if (strstr((text), (part)) == NULL) \
			fail_msg("'%s' is not in '%s'", (part), (text)); \
	} while (0)

/* ---- where the head is ---- */

static void with_each_joint_the_head_stands_where_the_joint_began(void **state)
{
	(void)state;
	take();
	assert_null(pull.begun);
	assert_near(pull.head_md_m, 310 * FOOT, 1e-9);
	assert_int_equal(pull.next, 10);
	for (int joint = 10; joint >= 8; joint--)
		came_out(joint, 10000, joint, "", "");
	take();
	assert_int_equal(pull.count, 3);
	assert_near(pull.list[0].head_md_m, 279 * FOOT, 1e-9);
	assert_near(pull.list[2].head_md_m, 217 * FOOT, 1e-9);
	assert_near(pull.head_md_m, 217 * FOOT, 1e-9);
	assert_near(pull.left_m, 217 * FOOT, 1e-9);
	assert_int_equal(pull.next, 7);
	assert_int_equal(pull.left, 7);
	for (int joint = 7; joint >= 1; joint--)
		came_out(joint, 10000, joint, "", "");
	take();
	assert_int_equal(pull.left, 0);
	assert_near(pull.head_md_m, 0, 0);
	assert_near(pull.list[9].head_md_m, 0, 0);
}

/* Struck out, a joint is not out; entered again later, it stands where it came out. */
static void joints_stand_in_the_order_in_which_they_come_out(void **state)
{
	(void)state;
	came_out(10, 11000, 0, "", "");
	came_out(9, 99000, 10, "", "");
	came_out(8, 15000, 20, "", "");
	job.pull_joints[1].struck = true;
	came_out(9, 14000, 30, "", "");
	take();
	assert_int_equal(pull.count, 3);
	assert_near(pull.list[1].entry->force.value, 14000, 0);
	assert_near(pull.list[1].head_md_m, 248 * FOOT, 1e-9);
	struct pulled alone = sb_pullback_joint(&job, &bands, pull.list[1].entry);
	assert_near(alone.head_md_m, pull.list[1].head_md_m, 1e-12);
}

/* The pilot is opened again, and its end pulled back: what came out of it then is nowhere now. */
static void joints_that_are_no_more_count_for_nothing(void **state)
{
	(void)state;
	estimate();
	came_out(10, 15000, 0, "", "");
	came_out(9, 17000, 0, "", "");
	jobs_withdraw(&job, 9);
	take();
	assert_int_equal(pull.count, 1);
	assert_int_equal(pull.next, 8);
	assert_near(pull.list[0].head_md_m, 248 * FOOT, 1e-9);
	struct pulled gone = sb_pullback_joint(&job, &bands, &job.pull_joints[0]);
	assert_near(gone.length_m, 0, 0);
	assert_near(gone.head_md_m, 279 * FOOT, 1e-9);
}

/* ---- force and band ---- */

static void between_its_points_the_estimate_runs_straight(void **state)
{
	(void)state;
	assert_true(isnan(sb_pull_band_at(&bands, 100).force_n));
	estimate();
	struct pull_band b = sb_pull_band_at(&bands, 155 * FOOT);
	assert_near(b.force_n, 25500 * LBF, 1e-6);
	assert_near(b.low_n, 20400 * LBF, 1e-6);
	assert_near(b.high_n, 30600 * LBF, 1e-6);
	assert_near(sb_pull_band_at(&bands, 400 * FOOT).force_n, 10000 * LBF, 1e-9);
	assert_near(sb_pull_band_at(&bands, 310 * FOOT).force_n, 10000 * LBF, 1e-9);
	assert_near(sb_pull_band_at(&bands, 0).force_n, 41000 * LBF, 1e-9);
	assert_near(sb_pull_band_at(&bands, -5).force_n, 41000 * LBF, 1e-9);
}

/* Joint 10 out: head at 279 ft, estimate 13,100 lbf, band 10,480 to 15,720; a joint adds 3,100. */
static void a_force_is_told_from_its_band(void **state)
{
	(void)state;
	estimate();
	jobs_set(&job, "pull", "safe_force", "20000");
	came_out(10, 15719, 0, "", ""); /* band to 15,720 */
	came_out(9, 19441, 10, "", ""); /* band to 19,440 */
	came_out(7, 17919, 20, "", ""); /* band from 17,920; joint 8 was passed over */
	take();
	assert_int_equal(pull.list[0].side, BAND_WITHIN);
	assert_int_equal(pull.list[1].side, BAND_ABOVE);
	assert_int_equal(pull.list[2].side, BAND_BELOW);
	assert_near(pull.list[0].share, 0.78595, 1e-12);
	assert_near(pull.list[0].band.force_n, 13100 * LBF, 1e-6);
	assert_string_equal(means(0), "");
	assert_has(means(1), "may be more friction than assumed, cuttings in the hole, ground that closes");
	assert_has(means(2), "may be less friction than assumed");
	sb_str_clear(&words);
	sb_pullback_say(&job, &pull.list[1], &words);
	assert_string_equal(sb_str_get(&words),
		"Joint 9: 19441 lbf at the rig, 97 % of the safe pull limit of 20000. The estimate is 16200; it is above its band of 13000 to 19400.");
}

static void without_an_estimate_or_a_limit_nothing_is_said_of_them(void **state)
{
	(void)state;
	came_out(10, 15720, 0, "", "");
	came_out(9, 91000, 0, "", "");
	take();
	assert_int_equal(pull.list[1].side, BAND_UNKNOWN);
	assert_true(isnan(pull.list[1].share) && isnan(pull.safe_n));
	assert_false(pull.list[1].jumped);
	assert_string_equal(means(1), "");
	sb_pullback_say(&job, &pull.list[1], &words);
	assert_string_equal(sb_str_get(&words), "Joint 9: 91000 lbf at the rig.");
}

/* Half the band's width at joint 9 is 3,240 lbf; the estimate rises by 3,100 a joint. */
static void a_jump_is_told_by_what_the_estimate_does_not_do(void **state)
{
	(void)state;
	estimate();
	came_out(10, 12000, 0, "", "");
	came_out(9, 12000 + 3100 + 3239, 0, "", "");
	came_out(8, 12000 + 6200 + 3239 - 3861, 0, "", ""); /* half the band: 3,860 */
	came_out(6, 40000, 0, "", "");			    /* joint 7 was passed over */
	take();
	assert_near(pull.list[1].jump_n, 3239 * LBF, 1e-6);
	assert_false(pull.list[1].jumped);
	assert_true(pull.list[2].jumped);
	assert_has(means(2), "It fell by 3900 lbf more than was estimated, in one joint.");
	assert_has(means(2), "may have parted");
	assert_true(isnan(pull.list[3].jump_n));
	came_out(5, 50000, 0, "", "");
	take();
	assert_has(means(4), "It jumped up by 6900 lbf more");
	assert_has(means(4), "cuttings heaped before it");
}

/* The tightest stretch behind the head is named by its station. */
static void a_bend_that_may_hold_the_pipe_is_named_by_its_station(void **state)
{
	(void)state;
	struct bore_stretch stretches[3] = { { .md_m = 0, .length_m = 60, .radius_m = 100, .station_m = 0 },
		{ .md_m = 60, .length_m = 20, .radius_m = 300 * FOOT, .station_m = 190 * FOOT },
		{ .md_m = 80, .length_m = 20, .radius_m = HUGE_VAL, .station_m = 250 * FOOT } };

	estimate();
	came_out(10, 49000, 0, "", "");
	take();
	assert_has(means(0), "a bend that no reading shows");
	bands.line = (struct bore_line){ .stretches = stretches, .count = 3, .length_m = 100 };
	for (int joint = 9; joint >= 8; joint--)
		came_out(joint, 49000, 0, "", "");
	take();
	assert_has(means(2), "radius 300 ft at station 190");
	bands.line = (struct bore_line){ 0 };
}

/* ---- times ---- */

static void times_tell_speed_stops_and_what_is_left(void **state)
{
	(void)state;
	came_out(10, 1e4, 20, "12:00", "12:20");
	came_out(9, 1e4, 45, "12:25", "12:45");
	came_out(8, 1e4, 70, "12:50", "13:10");
	came_out(7, 1e4, 150, "14:10", "14:30"); /* an hour's wait; the middle one is 5 min */
	take();
	assert_int_equal(pull.timed, 3);
	assert_int_equal(pull.stops, 1);
	assert_near(pull.stop_min, 60, 1e-9);
	assert_near(pull.list[3].stop_min, 60, 1e-9);
	assert_near(pull.speed_m_by_min, 31 * FOOT / 20, 1e-9);
	assert_near(pull.best_min, 6 * 25, 1e-9);		      /* 25 min each, no stop */
	assert_near(pull.likely_min, 6 * (25 + 25 + 80) / 3.0, 1e-9); /* the mean with it */
}

static void fewer_than_three_timed_joints_tell_no_pace(void **state)
{
	(void)state;
	came_out(10, 1e4, 20, "", "");
	came_out(9, 1e4, 45, "", "");
	came_out(8, 1e4, 70, "", "");
	take();
	assert_int_equal(pull.timed, 2);
	assert_true(isnan(pull.best_min) && isnan(pull.likely_min) && isnan(pull.speed_m_by_min));
	assert_int_equal(pull.stops, 0);
}

/* ---- the hold point ---- */

static int check(enum act_kind kind, const void *fact, const char *why)
{
	err = (struct sb_err){ 0 };
	return sb_after_check(&job, kind, fact, why, &err);
}

static void the_pull_waits_until_somebody_says_why_not(void **state)
{
	(void)state;
	struct pull_begin b = { 0 };
	struct lacks lacks;

	assert_int_equal(check(ACT_PULL, &b, ""), -1);
	assert_has(
		err.text, "The pull cannot begin: the pilot is not accepted; no pass of a reamer is entered");
	assert_int_equal(check(ACT_PULL, &b, "the river rises"), -1); /* what is missing is kept with it */
	sb_pullback_lacks(&job, &lacks);
	sb_lacks_say(&lacks, b.missing, sizeof b.missing);
	assert_int_equal(check(ACT_PULL, &b, "  "), -1);
	assert_int_equal(check(ACT_PULL, &b, "the river rises"), 0);
	began(b.missing);
	assert_int_equal(check(ACT_PULL, &b, "again"), -1);
	assert_has(err.text, "has begun already");
}

static void lack(const char *part, bool there)
{
	struct lacks lacks;
	bool found = false;

	sb_pullback_lacks(&job, &lacks);
	for (size_t i = 0; i < lacks.count; i++)
		found |= strstr(lacks.text[i], part) != NULL;
	if (found != there)
		fail_msg("'%s' is %smissing", part, there ? "not " : "");
}

static void passed(int id, enum pass_kind kind, double inches, int joints)
{
	struct pass p = { .kind = kind, .diameter = sb_number_of(inches, 2) };
	struct pass_end e = { .pass = id };

	p.fact.id = id;
	p.fact.act = act(ACT_PASS, 0);
	sb_fact_add(&job, ACT_PASS, &p);
	for (int joint = JOINTS; joint > JOINTS - joints; joint--) {
		struct pass_joint j = { .pass = id, .joint = joint };
		j.fact.act = act(ACT_PASS_JOINT, 0);
		sb_fact_add(&job, ACT_PASS_JOINT, &j);
	}
	e.fact.act = act(ACT_PASS_END, 0);
	if (joints == JOINTS)
		sb_fact_add(&job, ACT_PASS_END, &e);
}

/* The pipe is 12.75 in: 1.5 times that, 19.125 in, is less than 12 in more, and is asked for. */
static void the_hole_is_open_when_it_is_wide_enough_and_swabbed(void **state)
{
	(void)state;
	lack("no pass of a reamer", true);
	passed(1, PASS_REAM, 18, JOINTS);
	lack("no pass of a reamer", false);
	lack("the hole is 18 in wide at joint", true);
	lack("no swab went through the hole since pass 1", true);
	passed(2, PASS_REAM, 20, JOINTS);
	lack("wide at joint", false);
	passed(3, PASS_SWAB, 16, 4);
	lack("no swab", false);
	lack("pass 3 is not ended, 6 joints left", true);
	lack("the pilot is not accepted", true);
	struct acceptance a = { .accepted = 1 };
	sb_fact_add(&job, ACT_SIGN, &a);
	lack("the pilot is not accepted", false);
}

static void joints_come_out_one_after_the_other(void **state)
{
	(void)state;
	struct pull_joint j = { .joint = 10, .force = { 9000, "9000" } };

	assert_int_equal(check(ACT_PULL_JOINT, &j, ""), -1);
	assert_has(err.text, "has not begun");
	began("");
	assert_int_equal(check(ACT_PULL_JOINT, &j, ""), 0);
	j.joint = 11;
	assert_int_equal(check(ACT_PULL_JOINT, &j, "why"), -1);
	assert_has(err.text, "There is no joint 11: the bore has joints 10 to 1");
	j.joint = 0;
	assert_int_equal(check(ACT_PULL_JOINT, &j, "why"), -1);
	j.joint = 8;
	assert_int_equal(check(ACT_PULL_JOINT, &j, ""), -1);
	assert_has(err.text, "Joint 10 comes out next, not joint 8");
	assert_int_equal(check(ACT_PULL_JOINT, &j, "gauge was off"), 0);
	came_out(8, 9000, 0, "", "");
	assert_int_equal(check(ACT_PULL_JOINT, &j, "why"), -1);
	assert_has(err.text, "Joint 8 is out already");
	j.joint = 9; /* passed over, and found after all */
	assert_int_equal(check(ACT_PULL_JOINT, &j, ""), 0);
}

static void the_pull_ends_when_the_head_is_out_or_somebody_says_why(void **state)
{
	(void)state;
	struct pull_end e = { .coating = COATING_SOUND };

	began("");
	for (int joint = 10; joint >= 2; joint--)
		came_out(joint, 9000, 0, "", "");
	assert_int_equal(check(ACT_PULL_END, &e, ""), -1);
	assert_has(err.text, "1 joint is left to come out, joint 1 first");
	assert_int_equal(check(ACT_PULL_END, &e, "stuck"), 0);
	came_out(1, 9000, 0, "", "");
	assert_int_equal(check(ACT_PULL_END, &e, ""), 0);
	sb_fact_add(&job, ACT_PULL_END, &e);
	assert_int_equal(check(ACT_PULL_END, &e, ""), -1);
	assert_has(err.text, "is ended");
	struct pull_joint j = { .joint = 10, .force = { 9000, "9000" } };
	assert_int_equal(check(ACT_PULL_JOINT, &j, ""), -1);
	assert_has(err.text, "is ended");
}

/* ---- what it says of the limits ---- */

static struct verdict judged(void)
{
	struct verdict v;
	int joint;

	sb_pullback_judge(&job, &bands, &job.acts[job.act_count - 1], &v, &joint);
	assert_true(strlen(v.text) < sizeof v.text);
	if (v.level != LEVEL_OK)
		assert_int_equal(v.text[strlen(v.text) - 1], '.');
	return v;
}

static void over_the_safe_limit_is_a_breach_and_outside_the_band_a_watch(void **state)
{
	(void)state;
	estimate();
	jobs_set(&job, "pull", "safe_force", "30000");
	came_out(10, 13100, 0, "", "");
	assert_int_equal(judged().level, LEVEL_OK);
	came_out(9, 19500, 0, "", "");
	struct verdict v = judged();
	assert_int_equal(v.level, LEVEL_WATCH);
	assert_near(v.value, 19500, 0);
	assert_near(v.limit, 19400, 0);
	assert_has(v.text, "above the estimate's band up to 19400. It may be friction");
	came_out(8, 15400, 0, "", "");
	assert_int_equal(judged().level, LEVEL_WATCH);
	assert_has(judged().text, "below the estimate's band from 15400. It may be less friction");
	came_out(7, 30000, 0, "", ""); /* at the limit is not over it */
	assert_int_equal(judged().level, LEVEL_WATCH);
	came_out(6, 30001, 0, "", "");
	assert_int_equal(judged().level, LEVEL_BREACH);
	assert_near(judged().limit, 30000, 0);
	assert_has(judged().text, "over the safe pull limit of 30000. Stop pulling");
}

static void a_pull_that_began_with_something_missing_is_a_watch(void **state)
{
	(void)state;
	char missing[256];

	began("");
	assert_int_equal(judged().level, LEVEL_OK);
	memset(missing, 'w', sizeof missing);
	missing[255] = '\0';
	began(missing);
	assert_int_equal(judged().level, LEVEL_WATCH);
	assert_has(judged().text, "Ida says why");
}

static struct verdict ended(enum coating_seen coating, const char *extra)
{
	struct pull_end e = { .coating = coating };

	e.fact.act = act(ACT_PULL_END, 0);
	if (*extra)
		assert_int_equal(sb_number_parse(extra, &e.extra, &err), 0);
	sb_fact_add(&job, ACT_PULL_END, &e);
	return judged();
}

/* 1 % of 310 ft is less than 5 ft: 5 ft are asked for. */
static void the_coating_and_the_pipe_that_was_looked_at_are_judged(void **state)
{
	(void)state;
	assert_int_equal(ended(COATING_SOUND, "5").level, LEVEL_OK);
	assert_int_equal(ended(COATING_SOUND, "").level, LEVEL_OK);
	assert_int_equal(ended(COATING_SOUND, "4.9").level, LEVEL_WATCH);
	assert_has(judged().text,
		"Only 4.9 ft of pipe were pulled out past the entry to be looked at, 5.0 asked.");
	assert_int_equal(ended(COATING_SCRATCHED, "12").level, LEVEL_WATCH);
	assert_int_equal(ended(COATING_DAMAGED, "12").level, LEVEL_BREACH);
	take();
	sb_pullback_end_say(&job, &pull, &words);
	assert_has(sb_str_get(&words), "12 ft of pipe were pulled out past the entry, 5.0 asked.");
	assert_has(sb_str_get(&words), "The coating came out damaged. No final survey is named.");
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, begin, tidy)

int main(void)
{
	const struct CMUnitTest tests[] = {
		TEST(with_each_joint_the_head_stands_where_the_joint_began),
		TEST(joints_stand_in_the_order_in_which_they_come_out),
		TEST(joints_that_are_no_more_count_for_nothing),
		TEST(between_its_points_the_estimate_runs_straight),
		TEST(a_force_is_told_from_its_band),
		TEST(without_an_estimate_or_a_limit_nothing_is_said_of_them),
		TEST(a_jump_is_told_by_what_the_estimate_does_not_do),
		TEST(a_bend_that_may_hold_the_pipe_is_named_by_its_station),
		TEST(times_tell_speed_stops_and_what_is_left),
		TEST(fewer_than_three_timed_joints_tell_no_pace),
		TEST(the_pull_waits_until_somebody_says_why_not),
		TEST(the_hole_is_open_when_it_is_wide_enough_and_swabbed),
		TEST(joints_come_out_one_after_the_other),
		TEST(the_pull_ends_when_the_head_is_out_or_somebody_says_why),
		TEST(over_the_safe_limit_is_a_breach_and_outside_the_band_a_watch),
		TEST(a_pull_that_began_with_something_missing_is_a_watch),
		TEST(the_coating_and_the_pipe_that_was_looked_at_are_judged),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
