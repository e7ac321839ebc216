/* The bit ahead of the sensor, how much the next joint may still turn, and what is said of where the bore
 * goes. The look ahead itself, against walking it step by step: advice_ahead_test.c. */
#include "model/advice.h"

#include "drill.h"
#include "geom/bend.h"
#include "model/solve.h"

static struct job job;
static struct solution solution;

static int setup(void **state)
{
	(void)state;
	memset(&job, 0, sizeof job);
	memset(&solution, 0, sizeof solution);
	return 0;
}

static int teardown(void **state)
{
	(void)state;
	sb_solution_clear(&solution);
	sb_job_clear(&job);
	return 0;
}

static double feet(double metres)
{
	return metres / 0.3048;
}

static void flat_job(void)
{
	sb_setting_init(&job);
	jobs_set(&job, "job", "unit", "ft");
	jobs_set(&job, "job", "inclination", "down");
	jobs_set(&job, "control", "entry", "0, 0, 0");
	jobs_set(&job, "control", "exit", "3000, 0, 0");
	jobs_set(&job, "azimuth", "reference", "grid");
	jobs_set(&job, "tool", "sensor_to_bit", "0");
	jobs_set(&job, "drill_pipe", "joint_length", "31");
	jobs_row(&job, "profile", (const char *const[]){ "0", "0", "" });
	jobs_row(&job, "profile", (const char *const[]){ "3000", "0", "" });
}

static void stake(const char *inclination, const char *azimuth)
{
	jobs_set(&job, "entry", "inclination", inclination);
	jobs_set(&job, "entry", "azimuth", azimuth);
}

/* ---- the bit ---- */

/* 50 ft ahead: 0.35 ft between holding and going on at 3600 ft, 1.04 ft at 1200 ft. Derived, no publication.
 */
static void the_bit_is_where_the_heading_or_the_curve_goes_on(void **state)
{
	static const struct {
		double radius, apart;
	} table[] = { { 3600, 0.35 }, { 1200, 1.04 } };

	(void)state;
	for (size_t i = 0; i < 2; i++)
		for (int curve = 0; curve < 2; curve++) {
			flat_job();
			jobs_set(&job, "tool", "sensor_to_bit", "50");
			jobs_set(&job, "tool", "projection", curve ? "curve" : "hold");
			stake("80", "90");
			for (int j = 2; j <= 4; j++) {
				double md = 31 * j - 50;
				jobs_log(&job, j == 2 ? "62" : "",
					typed(80 + sb_deg(md / table[i].radius), 9), "90");
			}
			jobs_solve(&job, &solution);
			const struct bit *bit = &solution.bit;
			double r = table[i].radius, turn = 50 / r, exact = 2 * r * sin(turn / 2);
			assert_true(bit->known);
			assert_int_equal(bit->by, curve ? PROJECTION_CURVE : PROJECTION_HOLD);
			assert_near(feet(bit->apart_m), table[i].apart, 0.005);
			assert_near(feet(bit->md_m), 124, 1e-9);
			const struct row *last = sb_solution_last_on_path(&solution);
			struct vec3 step = sb_vec3_sub(bit->at, last->at);
			assert_near(feet(sb_vec3_length(step)), curve ? exact : 50, 1e-6);
			assert_near(bit->attitude.inc_rad, last->attitude.inc_rad + (curve ? turn : 0), 1e-9);
			assert_near(sb_vec3_angle(step, last->attitude.heading), curve ? turn / 2 : 0, 1e-9);
			assert_near(bit->deviation.height_m, bit->at.u, 1e-9);
			sb_solution_clear(&solution);
			sb_job_clear(&job);
		}
}

static void over_a_joint_without_a_reading_the_bit_is_carried_further(void **state)
{
	(void)state;
	flat_job();
	stake("80", "90");
	jobs_log(&job, "", "80", "90");
	jobs_log(&job, "", "", "");
	jobs_solve(&job, &solution);
	assert_near(feet(solution.bit.at.u), -62 * cos(sb_rad(80)), 1e-9);
	assert_near(feet(solution.bit.deviation.station_m), 62 * sin(sb_rad(80)), 1e-9);
	assert_near(solution.bit.apart_m, 0, 1e-12);
}

static void before_any_reading_the_bit_is_at_the_entry(void **state)
{
	(void)state;
	flat_job();
	jobs_solve(&job, &solution);
	assert_false(solution.bit.known);
	assert_near(sb_vec3_length(solution.bit.at), 0, 0);
	assert_int_equal(solution.ahead.leaves_held, 0);
	assert_false(solution.budget.known);
	/* A joint drilled without a reading is somewhere: it heads as the design until somebody knows better.
	 */
	jobs_log(&job, "", "", "");
	jobs_solve(&job, &solution);
	assert_false(solution.bit.known);
	assert_near(feet(solution.bit.deviation.station_m), 31, 1e-9);
}

static void the_bits_share_of_the_corridor_has_its_level(void **state)
{
	(void)state;
	flat_job();
	jobs_set(&job, "corridor", "down", "10");
	stake("90", "90");
	jobs_log(&job, "", "90", "90");
	jobs_solve(&job, &solution);
	assert_int_equal(solution.bit.level, LEVEL_OK);
	jobs_log(&job, "", "76", "90"); /* an arc down: 3.8 ft a joint */
	jobs_log(&job, "", "", "");
	jobs_solve(&job, &solution);
	assert_int_equal(solution.bit.level, LEVEL_BREACH);
	assert_int_equal(solution.bit.use.side, SIDE_DOWN);
	jobs_set(&job, "corridor", "down", "12");
	jobs_solve(&job, &solution);
	assert_int_equal(solution.bit.level, LEVEL_WATCH);
}

/* ---- the budget ---- */

/* Three joints of 31 ft at 2880 ft are 1.85 degrees; two have used 1.5. Derived, no publication. */
static void what_is_left_of_the_bend_is_what_the_window_leaves(void **state)
{
	(void)state;
	flat_job();
	jobs_set(&job, "bend", "window_minimum", "2880");
	stake("80", "90");
	for (int j = 1; j <= 3; j++)
		jobs_log(&job, "", typed(80 + (j > 1 ? 0.75 * (j - 1) : 0), 2), "90");
	jobs_solve(&job, &solution);
	const struct budget *b = &solution.budget;
	double all = sb_deg(93.0 / 2880);
	assert_true(b->known);
	assert_string_equal(b->by, "window limit");
	assert_near(sb_deg(b->least_rad), 0.35, 0.005);
	assert_near(sb_deg(b->up_rad), all - 1.5, 1e-6);
	assert_near(sb_deg(b->down_rad), all + 1.5, 1e-6);
	assert_near(sb_deg(b->left_rad), sqrt(all * all - 1.5 * 1.5), 1e-3);
	assert_near(sb_deg(b->right_rad), sb_deg(b->left_rad), 1e-9);
	/* By the sum no way back is free. */
	jobs_set(&job, "bend", "method", "sum");
	jobs_solve(&job, &solution);
	assert_near(sb_deg(b->down_rad), all - 1.5, 1e-6);
	assert_near(sb_deg(b->left_rad), all - 1.5, 1e-6);
}

static void a_budget_that_is_overdrawn_is_negative_and_no_way_is_open(void **state)
{
	(void)state;
	flat_job();
	jobs_set(&job, "bend", "window_minimum", "2880");
	stake("80", "90");
	for (int j = 1; j <= 3; j++)
		jobs_log(&job, "", typed(80 + (j > 1 ? 2.0 * (j - 1) : 0), 2), "90");
	jobs_solve(&job, &solution);
	const struct budget *b = &solution.budget;
	assert_near(sb_deg(b->least_rad), sb_deg(93.0 / 2880) - 4, 1e-6);
	assert_near(b->up_rad, 0, 0);
	assert_near(b->left_rad, 0, 0);
	/* Turning back far enough is within it again. */
	assert_near(sb_deg(b->down_rad), sb_deg(93.0 / 2880) + 4, 1e-6);
}

static void the_tightest_limit_says_so(void **state)
{
	(void)state;
	flat_job();
	stake("80", "90");
	jobs_log(&job, "", "80", "90");
	jobs_solve(&job, &solution);
	assert_false(solution.budget.known);
	jobs_set(&job, "drill_pipe", "minimum_radius", "300");
	jobs_solve(&job, &solution);
	assert_string_equal(solution.budget.by, "drill pipe");
	assert_near(solution.budget.least_rad, 31.0 / 300, 1e-12);
	jobs_set(&job, "bend", "joint_minimum", "1200");
	jobs_row(&job, "tally", (const char *const[]){ "2", "30" }); /* the next joint is shorter */
	jobs_solve(&job, &solution);
	assert_string_equal(solution.budget.by, "joint limit");
	assert_near(solution.budget.least_rad, 30.0 / 1200, 1e-12);
	assert_near(solution.budget.left_rad, 30.0 / 1200, 1e-12);
	/* A window has nothing to say before it is full. */
	jobs_set(&job, "bend", "window_minimum", "5000");
	jobs_solve(&job, &solution);
	assert_string_equal(solution.budget.by, "joint limit");
	jobs_log(&job, "", "80", "90");
	jobs_solve(&job, &solution);
	assert_string_equal(solution.budget.by, "window limit");
	assert_near(solution.budget.least_rad, 92.0 / 5000, 1e-12);
}

/* The heading after a turn some way: 0 up, 1 down, 2 left, 3 right. */
static struct vec3 turned(const struct attitude *from, int way, double angle)
{
	static const double clock[] = { 0, 180, 270, 90 }; /* from the high side */
	double c = cos(sb_rad(clock[way])), z = sin(sb_rad(clock[way]));
	struct vec3 up = sb_vec3_heading(from->inc_rad + SB_PI / 2, from->azi_rad),
		    right = sb_vec3_heading(SB_PI / 2, from->azi_rad + SB_PI / 2);

	return sb_vec3_add(sb_vec3_scale(from->heading, cos(angle)),
		sb_vec3_scale(sb_vec3_add(sb_vec3_scale(up, c), sb_vec3_scale(right, z)), sin(angle)));
}

/* What the reading after such a turn would be judged by: the radius over the window. */
static double window_after(int way, double angle)
{
	struct attitude now;
	struct preview p;
	struct sb_err err;
	double inc, azi;

	assert_true(sb_path_attitude(&solution.path, &now));
	sb_vec3_attitude(turned(&now, way, angle), &inc, &azi);
	struct reading r = jobs_reading(&job, "", typed(sb_deg(inc), 9), typed(sb_deg(azi), 9));
	assert_int_equal(sb_solve_preview(&job, &solution, &r, &p, &err), 0);
	assert_true(p.row.window.joints > 0);
	return feet(p.row.window.radius_m);
}

/* The second derivation: turn as far as the budget says, and the window is at its limit. */
static void a_turn_to_the_end_of_the_budget_is_a_window_at_its_limit(void **state)
{
	struct random r = { 19 };
	size_t checked = 0;

	(void)state;
	for (int i = 0; i < 60; i++) {
		flat_job();
		jobs_set(&job, "bend", "window_minimum", "1500");
		jobs_set(&job, "bend", "method", i % 2 ? "sum" : "ends");
		if (i % 3 == 0)
			jobs_set(&job, "bend", "window_length", typed(60 + i, 0));
		else
			jobs_set(&job, "bend", "window_joints", typed(1 + i % 4, 0));
		stake("80", "90");
		for (int j = 1; j <= 6; j++)
			jobs_log(&job, typed(random_between(&r, 29, 33), 2),
				typed(84 + random_between(&r, -0.3, 0.3), 2),
				typed(90 + random_between(&r, -0.3, 0.3), 2));
		jobs_solve(&job, &solution);
		const struct budget *b = &solution.budget;
		const double ways[] = { b->up_rad, b->down_rad, b->left_rad, b->right_rad };
		assert_string_equal(b->by, "window limit");
		for (int way = 0; way < 4; way++) {
			if (ways[way] <= 0)
				continue;

			assert_near(window_after(way, ways[way]), 1500, 1.5);
			assert_true(window_after(way, ways[way] * 1.02) < 1499);
			checked++;
		}
		assert_near(
			fmin(fmin(ways[0], ways[1]), fmin(ways[2], ways[3])), fmax(0, b->least_rad), 0.02);
		sb_solution_clear(&solution);
		sb_job_clear(&job);
	}
	assert_true(checked > 200);
}

/* Once what-if took the window to begin with the design's heading where the first reading stands for it. */
static void what_if_before_the_first_reading_says_what_logging_it_would(void **state)
{
	struct preview p;
	size_t changed;

	(void)state;
	for (int by_length = 0; by_length < 2; by_length++) {
		flat_job();
		jobs_set(&job, "bend", "window_minimum", "1500");
		jobs_set(&job, "bend", by_length ? "window_length" : "window_joints", by_length ? "50" : "2");
		jobs_solve(&job, &solution);
		struct reading r = jobs_reading(&job, "", "75", "99");
		assert_int_equal(sb_solve_preview(&job, &solution, &r, &p, NULL), 0);
		jobs_log(&job, "", "75", "99");
		assert_int_equal(sb_solve_joint(&job, &solution, &changed, NULL), 0);
		assert_true(p.budget.known && solution.budget.known);
		assert_near(p.budget.least_rad, solution.budget.least_rad, 0);
		assert_near(p.budget.up_rad, solution.budget.up_rad, 0);
		assert_near(p.budget.right_rad, solution.budget.right_rad, 0);
		assert_string_equal(p.budget.by, solution.budget.by);
		assert_true(p.budget.least_rad > 0);
		sb_solution_clear(&solution);
		sb_job_clear(&job);
	}
}

/* What if, and logging: everything alike, in any bore, at any joint. */
static void what_if_is_what_logging_says_at_every_joint(void **state)
{
	struct random r = { 20 };

	(void)state;
	for (size_t i = 0; i < PIPES; i++) {
		struct bore b;
		bore_begin(&b, &pipes[i], 31 * (double)i, 0.8);
		if (i % 2)
			jobs_set(&b.job, "tool", "projection", "curve");
		for (int j = 0; j < 25; j++) {
			struct preview p;
			bore_drill(&b, &r);
			struct reading reading = bore_read(&b, &r);
			if (j % 7 == 3)
				memset(&reading.inclination, 0, sizeof reading.inclination);
			assert_int_equal(sb_solve_preview(&b.job, &b.s, &reading, &p, NULL), 0);
			bore_log(&b, &reading);
			const struct row *row = sb_solution_last(&b.s);
			assert_memory_equal(&p.row.at, &row->at, sizeof row->at);
			assert_memory_equal(&p.bit.at, &b.s.bit.at, sizeof p.bit.at);
			assert_memory_equal(&p.ahead.exit_long_m, &b.s.ahead.exit_long_m, sizeof(double));
			assert_int_equal(p.ahead.leaves_held, b.s.ahead.leaves_held);
			assert_int_equal(p.ahead.leaves_curved, b.s.ahead.leaves_curved);
			assert_int_equal(p.ahead.leaves_kept, b.s.ahead.leaves_kept);
			assert_int_equal(p.ahead.exit_known, b.s.ahead.exit_known);
			assert_int_equal(p.budget.known, b.s.budget.known);
			assert_near(p.budget.least_rad, b.s.budget.least_rad, 0);
			assert_near(p.budget.down_rad, b.s.budget.down_rad, 0);
			size_t open = 0;
			for (size_t k = 0; k < b.s.warning_count; k++)
				open += b.s.warnings[k].open;
			assert_int_equal(p.warning_count, open);
		}
		bore_end(&b);
	}
}

#define HERE(name) cmocka_unit_test_setup_teardown(name, setup, teardown)

static const struct CMUnitTest tests[] = {
	HERE(the_bit_is_where_the_heading_or_the_curve_goes_on),
	HERE(over_a_joint_without_a_reading_the_bit_is_carried_further),
	HERE(before_any_reading_the_bit_is_at_the_entry),
	HERE(the_bits_share_of_the_corridor_has_its_level),
	HERE(what_is_left_of_the_bend_is_what_the_window_leaves),
	HERE(a_budget_that_is_overdrawn_is_negative_and_no_way_is_open),
	HERE(the_tightest_limit_says_so),
	HERE(a_turn_to_the_end_of_the_budget_is_a_window_at_its_limit),
	HERE(what_if_before_the_first_reading_says_what_logging_it_would),
	HERE(what_if_is_what_logging_says_at_every_joint),
};

int main(void)
{
	return run_tests(tests);
}
