/* What is measured of a rehearsed bore, against the long way round; and whole bores. */
#include "geom/angle.h"
#include "geom/bend.h"
#include "model/rehearsal.h"
#include "model/rehearsal_truth.h"
#include "support/jobs.h"
#include "support/near.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double foot = 0.3048, joint_m = 31 * 0.3048;

static struct job job;
static struct rehearsal *truth;

static int setup(void **state)
{
	(void)state;
	jobs_plain(&job);
	jobs_set(&job, "tool", "sensor_to_bit", "20");
	jobs_set(&job, "steering", "slide_turn", "0.08");
	jobs_set(&job, "steering", "droop", "0.004");
	truth = NULL;
	return 0;
}

static int teardown(void **state)
{
	(void)state;
	sb_rehearsal_free(truth);
	sb_job_clear(&job);
	return 0;
}

static const struct rehearsal_ground exact = { .yield_share = 1, .pushes = 1 };

static void begin(const struct rehearsal_ground *g, unsigned long long seed)
{
	struct sb_err err = { 0 };

	truth = sb_rehearsal_new(&job, g, seed, false, &err);
	assert_non_null(truth);
}

static void drill(double face_deg, double slid_m)
{
	struct reading r;

	sb_rehearsal_drill(truth, joint_m, sb_rad(face_deg), slid_m, &r);
}

/* A bore all over the place: through every limit. */
static void drill_wildly(int joints)
{
	struct rehearsal_ground g = sb_rehearsal_scenario("nominal")->ground;

	g.wander = sb_rad(0.1);
	begin(&g, 8);
	for (int i = 0; i < joints; i++)
		drill(137 * i, joint_m * (0.5 + 0.5 * cos(2.0 * i)));
}

/* ---- against the long way round ---- */

static void the_share_outside_is_that_of_a_walk_along_the_true_hole(void **state)
{
	struct rehearsal_figures f;
	const double step = 0.05;
	double worst = 0, outside = 0, length = 0, station = 0;

	(void)state;
	drill_wildly(30);
	sb_rehearsal_measure(truth, &f);
	assert_false(f.out);
	for (double md = 0; md <= 30 * joint_m; md += step) {
		struct stand s = rehearsal_at(truth, md);
		struct deviation d = sb_deviation(&truth->design, s.at, NULL, station);
		struct corridor_limits c = sb_corridor_at(&truth->corridor, d.station_m);
		double share = sb_corridor_use(&c, d.offset_m, d.height_m).share;
		station = d.station_m;
		worst = fmax(worst, share);
		outside += share > 1 ? step : 0;
		length += step;
	}
	assert_true(f.outside_share > 0.1 && f.outside_share < 0.95);
	/* Each crossing of a limit is found to half a metre. */
	assert_near(f.outside_share, outside / length, 4 * 0.5 / length);
	assert_near(f.worst_share, worst, 0.01 * worst);
	assert_false(f.clean);
}

static void a_hole_that_leaves_by_a_plain_curve_is_outside_from_there_on(void **state)
{
	struct rehearsal_figures f;

	(void)state;
	begin(&exact, 1);
	for (int i = 0; i < 20; i++)
		drill(0, 0);
	sb_rehearsal_measure(truth, &f);
	/* The sag of 1,200 ft begins 1,200 tan 5 = 104.99 ft before the point of intersection at 311.92.
	 * Straight on at 10 degrees, the height under it is 3 ft where the line has turned by t: 1200 (cos(10
	 * - t) - cos 10) - 1200 (sin 10 - sin(10 - t)) tan 10 = 3, t = 4.00 degrees, 82.4 ft on. */
	double leaves =
		(311.9205 - 104.9864 + 1200 * (sin(sb_rad(10)) - sin(sb_rad(10 - 4.0)))) / cos(sb_rad(10));
	assert_near(f.outside_share, 1 - leaves / (20 * 31), 0.004);
	assert_near(f.slid_share, 0, 0);
	assert_near(f.turning_rad, 0, 1e-9);
	assert_int_equal(f.joints, 20);
}

/* Windows and turning from true headings at the survey depths, for both methods and both kinds of window. */
static void check_windows(bool by_length, bool by_sum)
{
	struct rehearsal_figures f;
	const double gap = 20 * foot;
	int windows = 0, broken = 0;
	double turning = 0;

	jobs_set(&job, "bend", "method", by_sum ? "sum" : "ends");
	jobs_set(&job, "bend", "window_minimum", "2500");
	if (by_length)
		jobs_set(&job, "bend", "window_length", "93");
	drill_wildly(30);
	sb_rehearsal_measure(truth, &f);
	struct vec3 last = rehearsal_at(truth, 0).heading;
	for (int i = 1; i <= 30; i++) {
		double at = i * joint_m - gap, from = at - 3 * joint_m, sum = 0;
		struct vec3 here = rehearsal_at(truth, at).heading;
		turning += sb_vec3_angle(last, here);
		last = here;
		if (from < 0 && !(i == 3 && !by_length))
			continue;
		if (i == 3) /* three joints from the entry are a window that is shorter by the gap */
			from = 0;
		double begin = from;
		for (int k = i - 2; k <= i; k++) {
			double end = k * joint_m - gap;
			sum += sb_vec3_angle(
				rehearsal_at(truth, begin).heading, rehearsal_at(truth, end).heading);
			begin = end;
		}
		double angle = by_sum ? sum : sb_vec3_angle(rehearsal_at(truth, from).heading, here);
		windows++;
		broken += angle > (at - from) / (2500 * foot);
	}
	assert_int_equal(f.windows, windows);
	assert_int_equal(f.broken_windows, broken);
	assert_true(broken > 0 && broken < windows);
	assert_near(f.turning_rad, turning, 1e-6);
}

static void windows_of_joints_by_their_ends(void **state)
{
	(void)state;
	check_windows(false, false);
}

static void windows_of_joints_by_the_sum(void **state)
{
	(void)state;
	check_windows(false, true);
}

static void windows_by_length(void **state)
{
	(void)state;
	check_windows(true, false);
}

static void without_a_window_limit_none_is_broken(void **state)
{
	struct rehearsal_figures f;

	(void)state;
	memset(&job.window_minimum, 0, sizeof job.window_minimum);
	drill_wildly(10);
	sb_rehearsal_measure(truth, &f);
	assert_int_equal(f.windows, 0);
	assert_int_equal(f.broken_windows, 0);
	assert_true(f.turning_rad > 0);
}

/* ---- the exit ---- */

/* Straight from the entry towards the exit's side at some rise, in a job without curves. */
static void straight_job(const char *up_at_end)
{
	job.profile_count = 0;
	jobs_set(&job, "control", "exit", up_at_end ? "5620, 1000, 162" : "5620, 1000, 100");
	jobs_row(&job, "profile", (const char *const[]){ "0", "100", "" });
	jobs_row(&job, "profile", (const char *const[]){ "620", up_at_end ? up_at_end : "100", "" });
	jobs_set(&job, "corridor", "up", "90");
	jobs_set(&job, "corridor", "down", "90");
	jobs_set(&job, "corridor", "left", "90");
	jobs_set(&job, "corridor", "right", "90");
}

static void a_rising_hole_is_out_where_it_meets_the_exit_s_elevation(void **state)
{
	static const struct {
		const char *inclination, *azimuth;
		bool in_window; /* 30 ft long, 10 short, 10 to the sides */
	} cases[] = {
		{ "95.5", "90", true },	   /* 23.9 long */
		{ "95.4", "90", false },   /* 35.9 long */
		{ "95.8", "90", true },	   /* 9.6 short */
		{ "95.9", "90", false },   /* 20.0 short */
		{ "95.71", "90.8", true }, /* 8.7 right */
		{ "95.71", "91", false },  /* 10.8 right */
		{ "95.71", "89", false },
	};

	(void)state;
	straight_job("162");
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct rehearsal_figures f;
		jobs_set(&job, "entry", "inclination", cases[i].inclination);
		jobs_set(&job, "entry", "azimuth", cases[i].azimuth);
		begin(&exact, 1);
		for (int k = 0; k < 23; k++)
			drill(0, 0);
		sb_rehearsal_measure(truth, &f);
		double way = 62 / tan(sb_rad(atof(cases[i].inclination) - 90)),
		       aside = sb_rad(atof(cases[i].azimuth) - 90), miss = way * cos(aside) - 620;
		assert_true(f.out);
		assert_near(f.exit_long_m / foot, miss, 1e-3);
		assert_near(f.exit_right_m / foot, way * sin(aside), 1e-3);
		/* High over the line where short of the exit: 62 / 620 of the way. */
		assert_near(f.exit_high_m / foot, -miss / 10, 1e-3);
		assert_int_equal(f.exit_in_window, cases[i].in_window);
		assert_int_equal(f.clean, cases[i].in_window);
		sb_rehearsal_free(truth);
		truth = NULL;
	}
}

static void a_level_hole_is_out_where_it_passes_the_exit_s_station(void **state)
{
	struct rehearsal_figures f;

	(void)state;
	straight_job(NULL);
	jobs_set(&job, "entry", "inclination", "89.8");
	jobs_set(&job, "entry", "azimuth", "90");
	begin(&exact, 1);
	for (int k = 0; k < 19; k++)
		drill(0, 0);
	sb_rehearsal_measure(truth, &f);
	assert_false(f.out);
	drill(0, 0);
	drill(0, 0);
	sb_rehearsal_measure(truth, &f);
	assert_true(f.out);
	assert_near(f.exit_long_m, 0, 1e-6);
	assert_near(f.exit_high_m / foot, -620 * tan(sb_rad(0.2)), 1e-3);
}

static void a_hole_that_never_comes_out_is_not_clean(void **state)
{
	struct rehearsal_figures f;

	(void)state;
	straight_job("162");
	jobs_set(&job, "entry", "inclination", "90");
	begin(&exact, 1);
	for (int k = 0; k < 30; k++)
		drill(0, 0);
	sb_rehearsal_measure(truth, &f);
	assert_false(f.out);
	assert_false(f.exit_in_window);
	assert_false(f.clean);
}

/* ---- whole bores ---- */

static void drill_whole(
	enum rehearsal_by by, const char *ground, unsigned long long seed, struct rehearsal_figures *f)
{
	struct solution s = { 0 };
	struct sb_err err = { 0 };
	struct job log;

	sb_job_copy(&job, &log);
	truth = sb_rehearsal_new(&job, &sb_rehearsal_scenario(ground)->ground, seed, false, &err);
	assert_non_null(truth);
	assert_int_equal(sb_rehearsal_run(truth, &log, &s, by, f, &err), 0);
	assert_int_equal(sb_job_in_ground(&log), f->joints);
	assert_int_equal(s.path.count, f->joints + 1);
	for (int j = 1; j <= f->joints; j++)
		assert_non_null(strstr(sb_job_joint(&log, j)->remarks, "REHEARSAL"));
	sb_solution_clear(&s);
	sb_job_clear(&log);
	sb_rehearsal_free(truth);
	truth = NULL;
}

static void every_way_of_drilling_comes_out_near_the_exit(void **state)
{
	(void)state;
	for (enum rehearsal_by by = BY_ADVICE; by <= BY_SEEING; by++)
		for (unsigned long long seed = 1; seed <= 3; seed++) {
			struct rehearsal_figures f;
			drill_whole(by, "nominal", seed, &f);
			assert_true(f.out);
			assert_true(fabs(f.exit_long_m) < 10 && fabs(f.exit_right_m) < 4);
			assert_true(f.worst_share < 2);
		}
}

/* Readings that scatter two and a half times as much cannot mislead who sees the hole itself. */
static void told_where_the_bit_is_the_plan_keeps_nearer_to_the_line(void **state)
{
	struct rehearsal_figures informed, seeing;
	int nearer = 0;

	(void)state;
	for (unsigned long long seed = 1; seed <= 6; seed++) {
		drill_whole(BY_INFORMED, "noisy", seed, &informed);
		drill_whole(BY_SEEING, "noisy", seed, &seeing);
		assert_true(seeing.exit_in_window);
		nearer += seeing.worst_share < informed.worst_share;
	}
	assert_true(nearer >= 5);
}

static void the_same_seed_drills_the_same_bore(void **state)
{
	struct rehearsal_figures f, again, other;

	(void)state;
	for (enum rehearsal_by by = BY_ADVICE; by <= BY_SEEING; by++) {
		drill_whole(by, "face-error", 3, &f);
		drill_whole(by, "face-error", 3, &again);
		drill_whole(by, "face-error", 4, &other);
		assert_memory_equal(&f, &again, sizeof f);
		assert_true(f.turning_rad != other.turning_rad);
	}
}

/* The rule makes up for the droop that the sheet guesses, and follows a curve whose turn it is told right. */
static void the_simple_rule_holds_the_line_where_the_sheet_is_right(void **state)
{
	struct rehearsal_ground g = { .yield_share = 1, .pushes = 3, .droop = sb_rad(0.004) / foot };
	struct rehearsal_figures f;
	struct solution s = { 0 };
	struct sb_err err = { 0 };
	struct job log;

	(void)state;
	/* It cuts a curve of 1,200 ft by 4 L^2 / R = 3.2 ft (derived: it turns 1 / R a joint where the point
	 * lies as far off). */
	jobs_set(&job, "corridor", "up", "4");
	sb_job_copy(&job, &log);
	begin(&g, 1);
	assert_int_equal(sb_rehearsal_run(truth, &log, &s, BY_AIM, &f, &err), 0);
	assert_near(f.outside_share, 0, 0);
	assert_true(f.clean);
	sb_solution_clear(&s);
	sb_job_clear(&log);
}

/* It never orders more than the bend limits leave. */
static void the_simple_rule_keeps_the_bend_limits(void **state)
{
	struct solution s = { 0 };
	struct response guess;

	(void)state;
	jobs_set(&job, "steering", "slide_turn", "1");
	for (int i = 0; i < 4; i++)
		jobs_log(&job, "", "80", i < 2 ? "90" : "92");
	jobs_solve(&job, &s);
	struct setup at = sb_solution_setup(&job, &s);
	sb_response_begin(&at, &guess);
	struct order o = rehearsal_aim(&at, &s.path, &guess, joint_m);
	/* joint: 31 / 600 rad = 2.96 degrees; the window of 93 / 900 = 5.92 holds 2 to the right already, so
	 * left is free: what is turned is the joint's limit at most, and the droop of the rest beside it */
	double turn = o.slid_m / foot * 1.0;
	assert_true(turn <= sb_deg(31.0 / 600) + 31 * 0.004 + 1e-6);
	assert_true(o.slid_m > 0);
	assert_near(cos(o.tool_face_rad - sb_rad(270)), 1, 0.25);
	sb_solution_clear(&s);
}

static void a_log_that_has_joints_is_not_rehearsed_on(void **state)
{
	struct rehearsal_figures f;
	struct solution s = { 0 };
	struct sb_err err = { 0 };

	(void)state;
	begin(&exact, 1);
	jobs_log(&job, "", "80", "90");
	assert_int_equal(sb_rehearsal_run(truth, &job, &s, BY_AIM, &f, &err), -1);
	assert_non_null(strstr(err.text, "before the first joint"));
}

#define T(name) cmocka_unit_test_setup_teardown(name, setup, teardown)
static const struct CMUnitTest tests[] = {
	T(the_share_outside_is_that_of_a_walk_along_the_true_hole),
	T(a_hole_that_leaves_by_a_plain_curve_is_outside_from_there_on),
	T(windows_of_joints_by_their_ends),
	T(windows_of_joints_by_the_sum),
	T(windows_by_length),
	T(without_a_window_limit_none_is_broken),
	T(a_rising_hole_is_out_where_it_meets_the_exit_s_elevation),
	T(a_level_hole_is_out_where_it_passes_the_exit_s_station),
	T(a_hole_that_never_comes_out_is_not_clean),
	T(every_way_of_drilling_comes_out_near_the_exit),
	T(told_where_the_bit_is_the_plan_keeps_nearer_to_the_line),
	T(the_same_seed_drills_the_same_bore),
	T(the_simple_rule_holds_the_line_where_the_sheet_is_right),
	T(the_simple_rule_keeps_the_bend_limits),
	T(a_log_that_has_joints_is_not_rehearsed_on),
};

int main(void)
{
	return run_tests(tests);
}
