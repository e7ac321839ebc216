/* Joints, waits, stops, and when the pilot is out; and the figures of a shift or a day. */
#include "model/period.h"

#include "geom/angle.h"

#include "support/jobs.h"
#include "support/near.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define NOON INT64_C(1795608000000) /* 2026-11-25 12:00 UTC */

static struct job job;
static struct solution s;
static struct timeline t;
static struct sb_str words;

static int begin(void **state)
{
	(void)state;
	jobs_plain(&job);
	return 0;
}

static int tidy(void **state)
{
	(void)state;
	sb_str_clear(&words);
	sb_timeline_clear(&t);
	sb_solution_clear(&s);
	sb_job_clear(&job);
	return 0;
}

static int64_t add_act(enum act_kind kind, int64_t at_ms, int offset_min, const char *text)
{
	struct act a = {
		.id = (int64_t)job.act_count + 1, .kind = kind, .at_ms = at_ms, .offset_min = offset_min
	};

	a.joint = sb_job_in_ground(&job);
	snprintf(a.text, sizeof a.text, "%s", text);
	snprintf(a.who, sizeof a.who, "Ida");
	sb_job_add_act(&job, &a);
	return a.id;
}

/* A joint on the design's own first slope, logged at a minute after noon; times "" or as typed. */
static void drill(int minute, const char *started, const char *ended)
{
	struct reading r = jobs_reading(&job, "31", "80", "90");

	r.at_ms = NOON + minute * INT64_C(60000);
	r.id = (int64_t)job.reading_count + 1;
	snprintf(r.started, sizeof r.started, "%s", started);
	snprintf(r.ended, sizeof r.ended, "%s", ended);
	r.act = r.logged = add_act(ACT_LOG, r.at_ms, 0, "");
	sb_job_add_reading(&job, &r);
}

static void take(void)
{
	sb_timeline_clear(&t);
	sb_solution_clear(&s);
	sb_timeline_take(&job, &t);
	jobs_solve(&job, &s);
}

static void without_a_clock_the_log_itself_tells_the_time(void **state)
{
	(void)state;
	for (int i = 0; i < 6; i++)
		drill(i * 30 + (i > 3 ? 100 : 0), "", "");
	take();
	assert_int_equal(t.timed, 5);
	assert_int_equal(t.list[1].source, TIME_LOGGED);
	assert_true(isnan(t.list[0].whole_min) && isnan(t.list[2].wait_min));
	assert_near(t.list[1].whole_min, 30, 1e-9);
	assert_near(t.list[4].whole_min, 130, 1e-9);
	assert_int_equal(t.stops, 1);
	assert_near(t.list[4].stop_min, 100, 1e-9);
	assert_near(t.middle_min, 30, 1e-9);
}

static void the_typed_clock_goes_before_the_logs(void **state)
{
	(void)state;
	drill(0, "08:00", "08:20");
	drill(0, "08:25", "08:45");
	drill(0, "08:50", "09:10");
	drill(0, "10:40", "11:00"); /* 90 minutes stood */
	drill(0, "23:50", "00:10"); /* and 770, and past midnight */
	take();
	assert_int_equal(t.timed, 4);
	assert_near(t.list[1].wait_min, 5, 0);
	assert_near(t.list[1].drill_min, 20, 0);
	assert_near(t.list[4].drill_min, 20, 0);
	assert_near(t.list[4].wait_min, 770, 0);
	assert_int_equal(t.stops, 2);
	assert_near(t.stop_min, 860, 0);
}

/* A clock without a date cannot say how many days a rig stood; the log can. */
static void days_between_are_taken_from_the_log(void **state)
{
	(void)state;
	drill(0, "11:40", "12:00");
	drill(30, "12:10", "12:30");
	drill(30 + 3 * 1440 + 40, "12:50", "13:10");
	take();
	assert_near(t.list[2].wait_min, 20 + 3 * 1440, 0);
}

/* "ended 12:30", and the next joint "started 12:25": not a day lost. */
static void a_slip_of_the_clock_is_no_lost_day(void **state)
{
	(void)state;
	drill(0, "11:40", "12:00");
	drill(30, "12:10", "12:30");
	drill(50, "12:25", "12:50");
	take();
	assert_near(t.list[2].wait_min, 0, 0);
	assert_int_equal(t.stops, 0);
}

static void joints_that_came_from_a_file_have_no_times(void **state)
{
	(void)state;
	for (int i = 0; i < 5; i++)
		drill(0, "", "");
	take();
	assert_int_equal(t.timed, 0);
	assert_true(isnan(t.middle_min));
	assert_false(sb_timeline_out(&job, &s, &t, NOON).known);
}

static void an_empty_log_has_no_pace(void **state)
{
	(void)state;
	take();
	assert_int_equal(t.count, 0);
	struct pilot_out o = sb_timeline_out(&job, &s, &t, NOON);
	assert_false(o.known);
	assert_false(o.reached);
	assert_true(o.joints_left > 0);
}

/* With one pace and no stop, best and likely are one; what is left is the design line's own length. */
static void at_an_even_pace_best_and_likely_are_one(void **state)
{
	(void)state;
	for (int i = 0; i < 5; i++)
		drill(i * 24, "", "");
	take();
	struct pilot_out o = sb_timeline_out(&job, &s, &t, NOON);
	assert_true(o.known);
	double arc = sb_chain_length(s.design.profile, s.design.profile_count);
	assert_near(o.length_left_m + s.bit.deviation.station_m / sin(80 * SB_PI / 180), arc, 0.05);
	assert_int_equal(o.joints_left, (int)ceil(o.length_left_m / (job.joint_length.value * 0.3048)));
	assert_near(o.best_min, o.joints_left * 24, 1e-6);
	assert_near(o.likely_min, o.best_min, 1e-6);
	assert_int_equal(o.best_ms, NOON + (int64_t)o.joints_left * 24 * 60000);
}

/* Four waits of 10 and one of 100, each with 20 of drilling: the middle joint takes 30, the mean 48. */
static void stops_are_in_the_likely_time_and_not_in_the_best(void **state)
{
	(void)state;
	static const char *const clock[][2] = { { "08:00", "08:20" }, { "08:30", "08:50" },
		{ "09:00", "09:20" }, { "11:00", "11:20" }, { "11:30", "11:50" }, { "12:00", "12:20" } };
	for (int i = 0; i < 6; i++)
		drill(0, clock[i][0], clock[i][1]);
	take();
	struct pilot_out o = sb_timeline_out(&job, &s, &t, NOON);
	assert_near(o.best_joint_min, 30, 1e-9);
	assert_near(o.likely_joint_min, (4 * 30 + 120) / 5.0, 1e-9);
}

/* Two of eight joints were drilled for nothing: the likely pace is a third slower than the mean of all. */
static void what_was_pulled_back_is_in_the_likely_time(void **state)
{
	(void)state;
	for (int i = 0; i < 6; i++)
		drill(i * 20, "", "");
	jobs_withdraw(&job, 4);
	for (int i = 6; i < 8; i++)
		drill(i * 20, "", "");
	take();
	assert_int_equal(t.count, 8);
	assert_int_equal(t.in_ground, 6);
	struct pilot_out o = sb_timeline_out(&job, &s, &t, NOON);
	assert_near(o.best_joint_min, 20, 1e-9);
	assert_near(o.likely_joint_min, 20 * 8.0 / 6, 1e-9);
}

static void what_the_log_says_of_a_stop_stands_beside_it(void **state)
{
	(void)state;
	drill(0, "", "");
	add_act(ACT_NOTE, NOON, 0, "an old note");
	drill(30, "", "");
	add_act(ACT_NOTE, NOON, 0, "pump 2 fails");
	add_act(ACT_SHIFT_END, NOON, 0, "");
	add_act(ACT_SHIFT_BEGIN, NOON, 0, "night crew");
	drill(330, "", "");
	take();
	sb_timeline_why(&job, &t, 2, &words);
	assert_string_equal(sb_str_get(&words), "pump 2 fails; the shift ended; a shift began: night crew");
}

/* A day is the one that people had, not that of Greenwich. */
static void a_day_is_the_local_one(void **state)
{
	(void)state;
	int64_t late = NOON + INT64_C(11) * 3600000 + 1800000; /* 23:30 UTC */
	int64_t day = sb_period_day(NOON, 0);
	assert_int_equal(sb_period_day(late, 0), day);
	assert_int_equal(sb_period_day(late, 60), day + 1);
	assert_int_equal(sb_period_day(late, -600), day);
	assert_int_equal(sb_period_day(NOON - INT64_C(11) * 3600000, -120), day - 1);
	assert_int_equal(sb_period_day(-1, 0), -1);
	struct span span = { .by_day = true, .day = day + 1 };
	assert_true(sb_period_holds(&span, late, 60));
	assert_false(sb_period_holds(&span, late, 0));
}

static void a_period_knows_where_it_began_and_ended(void **state)
{
	(void)state;
	struct period p;
	for (int i = 0; i < 6; i++)
		drill(i * 30, "", "");
	take();
	struct span span = { .from_ms = NOON + 55 * 60000, .to_ms = NOON + 125 * 60000 }; /* joints 3, 4, 5 */
	sb_period_take(&s, &t, &span, &p);
	assert_int_equal(p.joints, 3);
	assert_int_equal(p.first, 3);
	assert_int_equal(p.last, 5);
	assert_int_equal(p.start->joint, 2);
	assert_int_equal(p.end->joint, 5);
	assert_near(p.length, 93, 1e-9);
	assert_false(p.timed);
	assert_true(p.minutes < 0);
}

static void each_side_has_its_largest(void **state)
{
	(void)state;
	struct period p;
	struct span all = { INT64_MIN, INT64_MAX, false, 0 };
	for (int i = 0; i < 4; i++)
		drill(i * 30, "", "");
	take();
	for (int i = 1; i <= 4; i++)
		s.path.rows[i].deviation.offset_m = i == 2 ? -3 : 0.1 * i;
	sb_period_take(&s, &t, &all, &p);
	assert_int_equal(p.left->joint, 2);
	assert_int_equal(p.right->joint, 4);
}

int main(void)
{
#define T(f) cmocka_unit_test_setup_teardown(f, begin, tidy)
	const struct CMUnitTest tests[] = {
		T(without_a_clock_the_log_itself_tells_the_time),
		T(the_typed_clock_goes_before_the_logs),
		T(days_between_are_taken_from_the_log),
		T(a_slip_of_the_clock_is_no_lost_day),
		T(joints_that_came_from_a_file_have_no_times),
		T(an_empty_log_has_no_pace),
		T(at_an_even_pace_best_and_likely_are_one),
		T(stops_are_in_the_likely_time_and_not_in_the_best),
		T(what_was_pulled_back_is_in_the_likely_time),
		T(what_the_log_says_of_a_stop_stands_beside_it),
		T(a_day_is_the_local_one),
		T(a_period_knows_where_it_began_and_ended),
		T(each_side_has_its_largest),
	};

	return run_tests(tests);
}
