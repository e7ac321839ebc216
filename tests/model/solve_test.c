/* The whole flow, from readings to positions, bends and warnings. */
#include "base/str.h"
#include "geom/angle.h"
#include "support/jobs.h"
#include "support/near.h"

#include <math.h>
#include <string.h>

static struct job job;
static struct solution solution;

static int setup(void **state)
{
	(void)state;
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
	return sb_frame_typed(&solution.frame, metres);
}

static const struct row *row(int joint)
{
	return &solution.path.rows[joint];
}

static const struct warning *find(enum warning_kind kind, size_t nth)
{
	for (size_t i = 0; i < solution.warning_count; i++)
		if (solution.warnings[i].kind == kind && nth-- == 0)
			return &solution.warnings[i];
	return NULL;
}

/* Computed independently from the formulas there: a line due east, entry at elevation 100. */
static void the_worked_five_joints_come_out(void **state)
{
	static const struct {
		const char *length, *inclination, *azimuth;
		double station, elevation, offset, radius, ends, sum;
	} joints[] = {
		{ "31.20", "80.0", "90.0", 30.726, 94.582, 0.000, HUGE_VAL, 0, 0 },
		{ "31.35", "80.6", "90.3", 61.628, 89.300, 0.081, 2685, 0, 0 },
		{ "31.15", "81.4", "90.4", 92.393, 84.427, 0.269, 2214, 3691, 3640 },
		{ "31.35", "82.1", "90.2", 123.418, 79.929, 0.431, 2469, 2549, 2441 },
		{ "31.25", "82.9", "89.8", 154.400, 75.850, 0.431, 2005, 2283, 2214 },
	};

	(void)state;
	jobs_plain(&job);
	for (size_t i = 0; i < 5; i++)
		jobs_log(&job, joints[i].length, joints[i].inclination, joints[i].azimuth);
	jobs_solve(&job, &solution);
	for (int i = 0; i < 5; i++) {
		const struct row *r = row(i + 1);
		assert_near(feet(r->deviation.station_m), joints[i].station, 5e-4);
		assert_near(feet(r->at.u), joints[i].elevation, 5e-4);
		assert_near(feet(r->deviation.offset_m), joints[i].offset, 5e-4);
		assert_near(feet(r->radius_m), joints[i].radius, 0.5);
		assert_int_equal(r->window.joints, i >= 2 ? 3 : 0);
		if (i >= 2) {
			assert_near(feet(r->window.radius_ends_m), joints[i].ends, 0.5);
			assert_near(feet(r->window.radius_sum_m), joints[i].sum, 0.5);
		}
	}
}

static void a_bore_that_follows_the_design_is_ok_to_its_exit(void **state)
{
	static void (*const make[])(struct job *) = { jobs_plain, jobs_curved };

	(void)state;
	for (size_t i = 0; i < 2; i++) {
		make[i](&job);
		jobs_follow(&job, i == 0 ? 38 : 40);
		jobs_solve(&job, &solution);
		assert_int_equal(solution.level, LEVEL_OK);
		assert_int_equal(solution.warning_count, 0);
		const struct row *last = sb_solution_last(&solution);
		assert_near(last->deviation.offset_m, 0, 0.02);
		assert_near(last->deviation.height_m, 0, 0.03);
		assert_true(solution.ahead.exit_known);
		assert_near(solution.ahead.exit_right_m, 0, 0.02);
		assert_near(solution.ahead.exit_long_m, 0, 0.2);
		sb_solution_clear(&solution);
		sb_job_clear(&job);
	}
	jobs_plain(&job); /* for the teardown */
}

static void same_bytes(const struct solution *a, const struct solution *b)
{
	assert_int_equal(a->path.count, b->path.count);
	assert_int_equal(a->path.old_count, b->path.old_count);
	assert_int_equal(a->path.on_count, b->path.on_count);
	assert_int_equal(a->warning_count, b->warning_count);
	for (size_t i = 0; i < a->path.count; i++) {
		const struct row *x = &a->path.rows[i], *y = &b->path.rows[i];
		assert_memory_equal(&x->at, &y->at, sizeof x->at);
		assert_memory_equal(&x->deviation.station_m, &y->deviation.station_m, 4 * sizeof(double));
		assert_memory_equal(&x->dogleg_rad, &y->dogleg_rad, sizeof(double));
		assert_memory_equal(&x->window.ends_rad, &y->window.ends_rad, 3 * sizeof(double));
	}
	for (size_t i = 0; i < a->warning_count; i++) {
		assert_string_equal(a->warnings[i].text, b->warnings[i].text);
		assert_int_equal(a->warnings[i].open, b->warnings[i].open);
		assert_int_equal(a->warnings[i].joint, b->warnings[i].joint);
		assert_int_equal(a->warnings[i].last_joint, b->warnings[i].last_joint);
	}
	assert_int_equal(a->level, b->level);
	assert_memory_equal(&a->bit.at, &b->bit.at, sizeof a->bit.at);
	assert_memory_equal(&a->budget.up_rad, &b->budget.up_rad, 4 * sizeof(double));
}

static void adding_joints_one_by_one_gives_the_same_bytes_as_solving_again(void **state)
{
	struct solution again = { 0 };
	unsigned seed = 7;

	(void)state;
	jobs_graded(&job);
	jobs_solve(&job, &solution);
	for (int i = 0; i < 60; i++) {
		char inclination[16], azimuth[16];
		seed = seed * 1103515245u + 12345u;
		snprintf(inclination, sizeof inclination, "%.1f",
			-10 + (double)(seed >> 16 & 127) / 40 + i * 0.3);
		seed = seed * 1103515245u + 12345u;
		snprintf(azimuth, sizeof azimuth, "%.1f", 4 + (double)(seed >> 16 & 127) / 100);
		size_t changed;
		if (i % 11 == 5)
			jobs_log(&job, "", "", "");
		else
			jobs_log(&job, "", inclination, azimuth);
		assert_int_equal(sb_solve_joint(&job, &solution, &changed, NULL), 0);
		assert_true(changed <= solution.warning_count);
		jobs_solve(&job, &again);
		same_bytes(&solution, &again);
	}
	assert_true(solution.warning_count > 3);
	sb_solution_clear(&again);
}

static void a_correction_far_back_moves_all_that_follows(void **state)
{
	(void)state;
	jobs_plain(&job);
	jobs_follow(&job, 10);
	jobs_solve(&job, &solution);
	double before = row(10)->at.u;
	jobs_correct(&job, 3, "79.0", "90");
	jobs_solve(&job, &solution);
	/* One degree steeper over half of each of two joints of 31 ft. */
	assert_near(feet(row(10)->at.u - before), -31 * sb_rad(1), 0.02);
	assert_int_equal(job.joint_count, 10);
	assert_int_equal(job.reading_count, 11);
	assert_string_equal(sb_job_joint(&job, 3)->inclination.text, "79.0");
	assert_true(sb_job_replaced(&job, sb_job_reading(&job, 3)));
}

static void pulling_back_begins_a_leg_and_keeps_the_old_one(void **state)
{
	(void)state;
	jobs_plain(&job);
	jobs_follow(&job, 6);
	jobs_log(&job, "", "78", "90");
	jobs_log(&job, "", "75", "90");
	jobs_solve(&job, &solution);
	assert_int_equal(solution.level, LEVEL_BREACH);
	jobs_withdraw(&job, 6);
	jobs_solve(&job, &solution);
	assert_int_equal(solution.path.count, 7);
	assert_int_equal(solution.path.old_count, 2);
	assert_int_equal(solution.level, LEVEL_OK);
	assert_true(find(WARNING_CORRIDOR, 0) == NULL || find(WARNING_CORRIDOR, 0)->superseded);
	jobs_log(&job, "", "80.2", "90");
	jobs_solve(&job, &solution);
	assert_int_equal(row(7)->leg, 2);
	assert_int_equal(row(6)->leg, 1);
	assert_near(feet(row(7)->bit_md_m), 7 * 31, 1e-9);
}

static void an_episode_that_begins_before_the_pull_back_is_judged_by_what_is_left(void **state)
{
	(void)state;
	jobs_plain(&job);
	jobs_follow(&job, 4);
	jobs_log(&job, "", "77", "90");
	jobs_log(&job, "", "77", "90");
	jobs_log(&job, "", "76", "90");
	jobs_log(&job, "", "76", "90");
	jobs_solve(&job, &solution);
	const struct warning *w = find(WARNING_CORRIDOR, 0);
	assert_non_null(w);
	assert_int_equal(w->level, LEVEL_BREACH);
	int first = w->joint;
	jobs_withdraw(&job, first);
	jobs_solve(&job, &solution);
	const struct warning *old = find(WARNING_CORRIDOR, 0), *left = find(WARNING_CORRIDOR, 1);
	assert_true(old->superseded);
	assert_non_null(left);
	assert_false(left->superseded);
	assert_true(left->open);
	assert_int_equal(left->joint, first);
	assert_int_equal(left->last_joint, first);
}

/* Found on drawings: such a mark stood at the withdrawn joint of the leg in which the episode began. */
static void an_episode_that_goes_on_in_the_next_leg_was_worst_where_that_leg_drilled(void **state)
{
	(void)state;
	jobs_plain(&job);
	jobs_follow(&job, 4);
	for (int i = 0; i < 6; i++)
		jobs_log(&job, "", "77", "90");
	jobs_solve(&job, &solution);
	int first = find(WARNING_CORRIDOR, 0)->joint;
	assert_true(first < 9);
	jobs_withdraw(&job, first);
	for (int i = first; i < 10; i++)
		jobs_log(&job, "", "75", "90");
	jobs_solve(&job, &solution);
	const struct warning *w = find(WARNING_CORRIDOR, 1);
	assert_false(w->superseded);
	assert_int_equal(w->leg, 1);
	assert_int_equal(w->worst_joint, 10);
	assert_int_equal(sb_path_row(&solution.path, 1, 10)->leg, 1); /* there is such a joint of leg 1 too */
	assert_ptr_equal(sb_warning_row(&solution.path, w), &solution.path.rows[10]);
	assert_ptr_equal(sb_warning_row(&solution.path, find(WARNING_CORRIDOR, 0)),
		sb_path_row(&solution.path, 1, 10));
	/* and when that leg is withdrawn as well */
	jobs_withdraw(&job, 4);
	jobs_solve(&job, &solution);
	w = find(WARNING_CORRIDOR, 1);
	assert_true(w->superseded);
	assert_int_equal(w->leg, 1);
	assert_ptr_equal(sb_warning_row(&solution.path, w), sb_path_row(&solution.path, 2, 10));
	assert_near(sb_warning_row(&solution.path, w)->deviation.station_m, w->station_m, 0);
}

static void an_episode_whose_end_alone_was_withdrawn_was_worst_at_a_joint_in_the_ground(void **state)
{
	(void)state;
	jobs_plain(&job);
	jobs_follow(&job, 4);
	jobs_log(&job, "", "76", "90");
	jobs_log(&job, "", "76", "90");
	for (int i = 0; i < 2; i++)
		jobs_log(&job, "", "86", "90");
	jobs_solve(&job, &solution);
	int worst = find(WARNING_CORRIDOR, 0)->worst_joint;
	assert_true(worst < find(WARNING_CORRIDOR, 0)->last_joint);
	jobs_withdraw(&job, worst);
	jobs_solve(&job, &solution);
	assert_true(find(WARNING_CORRIDOR, 0)->superseded);
	assert_ptr_equal(
		sb_warning_row(&solution.path, find(WARNING_CORRIDOR, 0)), &solution.path.rows[worst]);
}

static void a_reading_behind_the_entry_does_not_move_the_path(void **state)
{
	(void)state;
	jobs_graded(&job);
	jobs_log(&job, "", "-12", "4.5");
	jobs_log(&job, "", "-11", "4.5");
	jobs_solve(&job, &solution);
	assert_false(row(1)->on_path);
	assert_false(row(2)->on_path); /* 40 ft of hole, the sensor 40 ft behind: just at the entry */
	assert_int_equal(solution.path.on_count, 1);
	assert_near(feet(row(2)->survey_md_m), 0, 1e-9);
	/* The bit is carried on by the newest reading, there being no staked entry. */
	assert_true(solution.bit.known);
	assert_near(feet(solution.bit.at.u), 50 - 40 * sin(atan(0.11)), 1e-9);
	jobs_log(&job, "", "-10", "4.5");
	jobs_solve(&job, &solution);
	assert_true(row(3)->on_path);
	/* The entry takes the first reading on the path: a straight course. */
	assert_near(row(3)->dogleg_rad, 0, 0);
	assert_near(feet(row(3)->at.u), 50 - 20 * sin(atan(0.10)), 1e-9);
}

static void a_joint_without_a_reading_is_carried_over_and_said(void **state)
{
	(void)state;
	jobs_plain(&job);
	jobs_log(&job, "", "80", "90");
	jobs_log(&job, "", "", "");
	jobs_log(&job, "", "80", "90");
	jobs_solve(&job, &solution);
	assert_false(row(2)->on_path);
	assert_near(feet(row(3)->course_m), 62, 1e-9);
	assert_near(feet(row(3)->deviation.station_m), 93 * cos(sb_rad(10)), 1e-6);
	const struct warning *w = find(WARNING_MISSING, 0);
	assert_non_null(w);
	assert_int_equal(w->level, LEVEL_WATCH);
	assert_int_equal(w->joint, 2);
	assert_false(w->open);
}

static void azimuths_go_through_declination_and_convergence_to_the_grid(void **state)
{
	(void)state;
	jobs_curved(&job);
	jobs_solve(&job, &solution);
	/* grid = magnetic + declination - convergence = magnetic + 3.4 + 1.2 */
	assert_near(sb_deg(sb_frame_azi(&solution.frame, 32.2)), 36.8, 1e-9);
	assert_near(sb_frame_azi_typed(&solution.frame, sb_rad(2)), 357.4, 1e-9);
	sb_solution_clear(&solution);
	sb_job_clear(&job);
	jobs_graded(&job);
	jobs_solve(&job, &solution);
	/* The tool read 4.5 on a line due north. */
	assert_near(sb_deg(sb_frame_azi(&solution.frame, 5.0)), 0.5, 1e-9);
}

static void grid_distances_become_ground_distances(void **state)
{
	(void)state;
	jobs_curved(&job);
	jobs_solve(&job, &solution);
	/* Alignment on the grid 386.563, in the ground over 0.9996. */
	struct vec3 exit = sb_frame_ground(&solution.frame, 300280, 5000260, 20);
	assert_near(exit.e, 280 / 0.9996, 1e-9);
	assert_near(exit.n, 260 / 0.9996, 1e-9);
	double e, n, u;
	sb_frame_grid(&solution.frame, exit, &e, &n, &u);
	assert_near(e, 300280, 1e-8);
	assert_near(n, 5000260, 1e-8);
	assert_near(u, 20, 1e-12);
}

static void the_two_ways_to_the_bore_azimuth_are_compared(void **state)
{
	double apart;

	(void)state;
	jobs_curved(&job);
	/* Design bearing atan(120 / 160) = 36.870; the chain turns 32.0 into 36.6. */
	jobs_set(&job, "azimuth", "bore_azimuth_read", "32.0");
	jobs_solve(&job, &solution);
	assert_true(sb_frame_azimuth_disagrees(&job, &solution.frame, &apart));
	assert_near(apart, 36.6 - 36.8698976, 1e-6);
	assert_int_equal(solution.level, LEVEL_OK);
	jobs_set(&job, "azimuth", "bore_azimuth_read", "28.2"); /* declination put in twice */
	jobs_solve(&job, &solution);
	assert_non_null(find(WARNING_AZIMUTH, 0));
	assert_int_equal(solution.level, LEVEL_WATCH);
}

static void an_acknowledged_watch_that_becomes_a_breach_is_open_again(void **state)
{
	struct acknowledgement a = {
		.kind = "corridor", .leg = 1, .level = LEVEL_WATCH, .who = "Ida", .reason = "seen"
	};

	(void)state;
	jobs_plain(&job);
	jobs_follow(&job, 1);
	do {
		jobs_log(&job, "", "78.6", "90"); /* 0.76 ft lower a joint; 3 are allowed, 2.1 are near */
		jobs_solve(&job, &solution);
	} while (find(WARNING_CORRIDOR, 0) == NULL);
	const struct warning *w = find(WARNING_CORRIDOR, 0);
	assert_int_equal(w->level, LEVEL_WATCH);
	a.joint = w->joint;
	sb_job_add_acknowledgement(&job, &a);
	sb_solve_acknowledged(&job, &solution);
	assert_true(find(WARNING_CORRIDOR, 0)->acknowledged);
	assert_string_equal(find(WARNING_CORRIDOR, 0)->acknowledged_by, "Ida");
	for (int i = 0; i < 4; i++)
		jobs_log(&job, "", "78", "90");
	jobs_solve(&job, &solution);
	assert_int_equal(find(WARNING_CORRIDOR, 0)->level, LEVEL_BREACH);
	assert_false(find(WARNING_CORRIDOR, 0)->acknowledged);
}

static void what_if_says_what_logging_would_and_changes_nothing(void **state)
{
	struct solution before = { 0 };
	struct preview p;
	size_t changed;

	(void)state;
	jobs_plain(&job);
	jobs_follow(&job, 9);
	jobs_solve(&job, &solution);
	jobs_solve(&job, &before);
	struct reading trial = jobs_reading(&job, "", "82.1", "91.4");
	assert_int_equal(sb_solve_preview(&job, &solution, &trial, &p, NULL), 0);
	same_bytes(&solution, &before);
	jobs_log(&job, "", "82.1", "91.4");
	assert_int_equal(sb_solve_joint(&job, &solution, &changed, NULL), 0);
	assert_memory_equal(&p.row.at, &row(10)->at, sizeof p.row.at);
	assert_memory_equal(&p.row.window.ends_rad, &row(10)->window.ends_rad, sizeof(double));
	assert_memory_equal(&p.bit.at, &solution.bit.at, sizeof p.bit.at);
	assert_int_equal(p.ahead.leaves_held, solution.ahead.leaves_held);
	assert_near(p.budget.least_rad, solution.budget.least_rad, 0);
	sb_solution_clear(&before);
}

static const struct CMUnitTest tests[] = {
	cmocka_unit_test_setup_teardown(the_worked_five_joints_come_out, setup, teardown),
	cmocka_unit_test_setup_teardown(a_bore_that_follows_the_design_is_ok_to_its_exit, setup, teardown),
	cmocka_unit_test_setup_teardown(
		adding_joints_one_by_one_gives_the_same_bytes_as_solving_again, setup, teardown),
	cmocka_unit_test_setup_teardown(a_correction_far_back_moves_all_that_follows, setup, teardown),
	cmocka_unit_test_setup_teardown(pulling_back_begins_a_leg_and_keeps_the_old_one, setup, teardown),
	cmocka_unit_test_setup_teardown(
		an_episode_that_begins_before_the_pull_back_is_judged_by_what_is_left, setup, teardown),
	cmocka_unit_test_setup_teardown(
		an_episode_that_goes_on_in_the_next_leg_was_worst_where_that_leg_drilled, setup, teardown),
	cmocka_unit_test_setup_teardown(
		an_episode_whose_end_alone_was_withdrawn_was_worst_at_a_joint_in_the_ground, setup, teardown),
	cmocka_unit_test_setup_teardown(a_reading_behind_the_entry_does_not_move_the_path, setup, teardown),
	cmocka_unit_test_setup_teardown(a_joint_without_a_reading_is_carried_over_and_said, setup, teardown),
	cmocka_unit_test_setup_teardown(
		azimuths_go_through_declination_and_convergence_to_the_grid, setup, teardown),
	cmocka_unit_test_setup_teardown(grid_distances_become_ground_distances, setup, teardown),
	cmocka_unit_test_setup_teardown(the_two_ways_to_the_bore_azimuth_are_compared, setup, teardown),
	cmocka_unit_test_setup_teardown(
		an_acknowledged_watch_that_becomes_a_breach_is_open_again, setup, teardown),
	cmocka_unit_test_setup_teardown(what_if_says_what_logging_would_and_changes_nothing, setup, teardown),
};

int main(void)
{
	return run_tests(tests);
}
