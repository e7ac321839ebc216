/* Rehearsals: the truth against closed forms, and that it can be repeated. */
#include "../src/model/rehearsal_parts.h"
#include "geom/angle.h"
#include "geom/bend.h"
#include "model/rehearsal.h"
#include "support/jobs.h"
#include "support/near.h"

#include <math.h>
#include <string.h>

static struct job job;
static struct rehearsal *truth;

static int setup(void **state)
{
	(void)state;
	jobs_plain(&job);
	jobs_set(&job, "steering", "slide_turn", "0.06");
	truth = NULL;
	return 0;
}

static int teardown(void **state)
{
	(void)state;
	if (truth)
		sb_rehearsal_free(truth);
	sb_job_clear(&job);
	return 0;
}

/* Ground that answers exactly as the sheet hopes; nothing at random. */
static const struct rehearsal_ground exact = { .yield_share = 1, .zone_length_m = 60, .pushes = 1 };

static void begin(const struct rehearsal_ground *g, unsigned long long seed)
{
	struct sb_err err = { 0 };

	truth = sb_rehearsal_new(&job, g, seed, false, &err);
	assert_non_null(truth);
}

static struct true_station end(void)
{
	return truth->stations[truth->count - 1];
}

static void a_joint_slid_all_through_is_a_circle_of_the_yield_s_radius(void **state)
{
	struct reading r;

	(void)state;
	begin(&exact, 1);
	double yield = sb_rad(0.06) / 0.3048, length = 31 * 0.3048;
	for (int i = 0; i < 5; i++)
		sb_rehearsal_drill(truth, length, 0, length, &r);
	struct true_station s = end();
	assert_near(s.inc_rad, sb_rad(80) + 5 * length * yield, 1e-12);
	/* Turning straight up from 10 degrees down: height by the circle. */
	double radius = 1 / yield, from = sb_rad(80);
	assert_near(s.at.u, 100 * 0.3048 - radius * (sin(s.inc_rad) - sin(from)), 1e-9);
	assert_near(s.at.e, radius * (cos(from) - cos(s.inc_rad)), 1e-9);
	assert_near(s.slid_m, 5 * length, 1e-9);
}

static void rotating_droops_and_walks(void **state)
{
	struct rehearsal_ground g = exact;
	struct reading r;

	(void)state;
	g.droop = 1e-4;
	g.walk = 5e-5;
	begin(&g, 1);
	for (int i = 0; i < 10; i++)
		sb_rehearsal_drill(truth, 9, 0, 0, &r);
	struct true_station s = end();
	assert_near(s.inc_rad, sb_rad(80) - 90 * 1e-4, 1e-12);
	assert_true(s.azi_rad > sb_rad(90) + 90 * 5e-5 && s.azi_rad < sb_rad(90) + 90 * 5.2e-5);
}

static void the_sensor_reads_what_lies_behind_the_bit(void **state)
{
	struct reading r;

	(void)state;
	jobs_set(&job, "tool", "sensor_to_bit", "15.5");
	begin(&exact, 1);
	double length = 31 * 0.3048;
	/* All the slide at the joint's start: half a joint back the hole has turned by what was slid until
	 * there. */
	sb_rehearsal_drill(truth, length, 0, length / 4, &r);
	assert_near(r.inclination.value, 80 + 31.0 / 4 * 0.06, 0.08);
	sb_rehearsal_drill(truth, length, 0, 0, &r);
	assert_near(r.inclination.value, 80 + 31.0 / 4 * 0.06, 0.08);
	assert_near(r.slid.value, 0, 1e-12);
	assert_false(sb_number_given(&r.tool_face));
}

static void readings_scatter_as_the_ground_says(void **state)
{
	struct rehearsal_ground g = exact;
	double sum = 0, squares = 0;
	const int n = 4000;
	struct reading r;

	(void)state;
	g.noise_azi_rad = sb_rad(0.5);
	g.bias_azi_rad = sb_rad(0.4);
	begin(&g, 5);
	for (int i = 0; i < n; i++) {
		sb_rehearsal_drill(truth, 0.5, 0, 0, &r);
		sum += r.azimuth.value - 90;
		squares += (r.azimuth.value - 90) * (r.azimuth.value - 90);
	}
	assert_near(sum / n, 0.4, 0.04);
	assert_near(sqrt(squares / n - sum / n * sum / n), 0.5, 0.03);
}

static void steel_shows_only_near_it(void **state)
{
	struct rehearsal_ground g = exact;
	struct reading r;

	(void)state;
	g.steel_station_m = 50;
	g.steel_reach_m = 10;
	g.steel_azi_rad = sb_rad(3);
	begin(&g, 1);
	for (int i = 1; i <= 10; i++) {
		sb_rehearsal_drill(truth, 10, 0, 0, &r);
		assert_near(r.azimuth.value, i == 5 ? 93 : 90, 0.051);
	}
}

static void the_same_seed_gives_the_same_bytes_and_another_does_not(void **state)
{
	const struct rehearsal_scenario *s = sb_rehearsal_scenario("noisy");
	struct rehearsal_figures f[3];
	static const unsigned long long seeds[] = { 11, 11, 12 };

	(void)state;
	for (int i = 0; i < 3; i++) {
		struct solution solution = { 0 };
		struct sb_err err = { 0 };
		struct job log;
		sb_job_copy(&job, &log);
		truth = sb_rehearsal_new(&job, &s->ground, seeds[i], true, &err);
		assert_int_equal(sb_rehearsal_run(truth, &log, &solution, BY_ADVICE, &f[i], &err), 0);
		sb_rehearsal_free(truth);
		truth = NULL;
		sb_solution_clear(&solution);
		sb_job_clear(&log);
	}
	assert_int_equal(f[0].joints, f[1].joints);
	assert_near(f[0].turning_rad, f[1].turning_rad, 0);
	assert_near(f[0].exit_long_m, f[1].exit_long_m, 0);
	assert_true(f[0].turning_rad != f[2].turning_rad);
}

static void pulling_back_leaves_the_hole_that_stays(void **state)
{
	struct reading r;

	(void)state;
	begin(&exact, 1);
	for (int i = 0; i < 4; i++)
		sb_rehearsal_drill(truth, 9, 0, i == 3 ? 9 : 0, &r);
	sb_rehearsal_withdraw(truth, 3);
	struct true_station s = end();
	assert_near(s.md_m, 27, 1e-9);
	assert_near(s.inc_rad, sb_rad(80), 1e-12);
	sb_rehearsal_drill(truth, 9, 0, 0, &r);
	assert_int_equal(r.joint, 4);
}

static void what_is_measured_is_the_true_hole(void **state)
{
	struct rehearsal_figures f;
	struct reading r;

	(void)state;
	begin(&exact, 1);
	/* Straight on at 10 degrees down: it leaves the corridor below the sag where the design has turned
	 * away by 3 ft. */
	for (int i = 0; i < 20; i++)
		sb_rehearsal_drill(truth, 31 * 0.3048, 0, 0, &r);
	sb_rehearsal_measure(truth, &f);
	assert_false(f.out);
	assert_false(f.clean);
	/* The sag begins at 206.93 ft of station (PC); 3 ft below a curve of 1,200 ft is about sqrt(2 * 1200
	 * * 3) = 84.9 ft on. */
	double begins = (206.93 + 84.9) / cos(sb_rad(10)), share = 1 - begins / (20 * 31);
	assert_near(f.outside_share, share, 0.02);
	assert_int_equal(f.broken_windows, 0);
	assert_near(f.slid_share, 0, 0);
}

static void advice_drills_clean_bores_where_the_ground_is_as_hoped(void **state)
{
	struct rehearsal_ground g = sb_rehearsal_scenario("nominal")->ground;
	int clean = 0;

	(void)state;
	jobs_set(&job, "corridor", "up", "4");
	for (unsigned long long seed = 1; seed <= 10; seed++) {
		struct rehearsal_figures f;
		struct solution s = { 0 };
		struct sb_err err = { 0 };
		struct job log;
		sb_job_copy(&job, &log);
		truth = sb_rehearsal_new(&job, &g, seed, false, &err);
		assert_int_equal(sb_rehearsal_run(truth, &log, &s, BY_ADVICE, &f, &err), 0);
		assert_true(f.out);
		clean += f.clean;
		sb_rehearsal_free(truth);
		truth = NULL;
		sb_solution_clear(&s);
		sb_job_clear(&log);
	}
	assert_true(clean >= 8);
}

/* Logs what the truth gives to the last order, as the screen does. */
static void log_reading(struct reading r)
{
	r.leg = sb_job_leg(&job);
	r.joint = sb_job_in_ground(&job) + 1;
	r.id = job.reading_count ? job.readings[job.reading_count - 1].id + 1 : 1;
	sb_job_add_reading(&job, &r);
}

static void a_rehearsal_taken_up_again_stands_where_its_log_ends(void **state)
{
	struct sb_err err = { 0 };
	struct reading r, again;

	(void)state;
	assert_int_equal(sb_rehearsal_mark(&job, sb_rehearsal_scenario("nominal"), 42, &err), 0);
	assert_string_equal(job.name, "REHEARSAL Plain");
	for (int i = 0; i < 6; i++) {
		truth = sb_rehearsal_of(&job, &err);
		assert_non_null(truth);
		assert_int_equal(truth->joint_count, i + 1);
		sb_rehearsal_drill(truth, 31 * 0.3048, sb_rad(30), i % 2 ? 3.048 : 0, &r);
		struct true_station s = end();
		sb_rehearsal_free(truth);
		/* Asked twice for the same joint it gives the same reading. */
		truth = sb_rehearsal_of(&job, &err);
		sb_rehearsal_drill(truth, 31 * 0.3048, sb_rad(30), i % 2 ? 3.048 : 0, &again);
		assert_string_equal(r.inclination.text, again.inclination.text);
		assert_string_equal(r.azimuth.text, again.azimuth.text);
		log_reading(r);
		sb_rehearsal_free(truth);
		truth = sb_rehearsal_of(&job, &err);
		assert_near(end().at.u, s.at.u, 1e-9);
		sb_rehearsal_free(truth);
		truth = NULL;
	}
	jobs_withdraw(&job, 4);
	truth = sb_rehearsal_of(&job, &err);
	assert_int_equal(truth->joint_count, 5);
}

static void a_real_job_is_no_rehearsal(void **state)
{
	struct sb_err err = { 0 };

	(void)state;
	assert_null(sb_rehearsal_of(&job, &err));
	assert_non_null(strstr(err.text, "no rehearsal"));
	jobs_set(&job, "job", "rehearsal", "moon 3");
	assert_null(sb_rehearsal_of(&job, &err));
	jobs_set(&job, "job", "rehearsal", "nominal");
	assert_null(sb_rehearsal_of(&job, &err));
}

static const struct CMUnitTest tests[] = {
	cmocka_unit_test_setup_teardown(
		a_rehearsal_taken_up_again_stands_where_its_log_ends, setup, teardown),
	cmocka_unit_test_setup_teardown(a_real_job_is_no_rehearsal, setup, teardown),
	cmocka_unit_test_setup_teardown(
		a_joint_slid_all_through_is_a_circle_of_the_yield_s_radius, setup, teardown),
	cmocka_unit_test_setup_teardown(rotating_droops_and_walks, setup, teardown),
	cmocka_unit_test_setup_teardown(the_sensor_reads_what_lies_behind_the_bit, setup, teardown),
	cmocka_unit_test_setup_teardown(readings_scatter_as_the_ground_says, setup, teardown),
	cmocka_unit_test_setup_teardown(steel_shows_only_near_it, setup, teardown),
	cmocka_unit_test_setup_teardown(
		the_same_seed_gives_the_same_bytes_and_another_does_not, setup, teardown),
	cmocka_unit_test_setup_teardown(pulling_back_leaves_the_hole_that_stays, setup, teardown),
	cmocka_unit_test_setup_teardown(what_is_measured_is_the_true_hole, setup, teardown),
	cmocka_unit_test_setup_teardown(
		advice_drills_clean_bores_where_the_ground_is_as_hoped, setup, teardown),
};

int main(void)
{
	return run_tests(tests);
}
