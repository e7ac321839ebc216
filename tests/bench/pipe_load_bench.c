/* What the product pipe's loads cost: every place of the head, with friction, fluid and drag each at low and
 * high.
 *
 * A bore of 300 joints of 10 m: down 12 degrees, level, up 10, read with scatter along the design; 24 in
 * steel in a hole of 36. The measure of one is the same bore solved once from its readings.
 */
#include "geom/angle.h"
#include "geom/random.h"
#include "model/pipe_load.h"
#include "model/setting.h"
#include "support/jobs.h"
#include "support/near.h"

#include <stdio.h>
#include <time.h>

enum { JOINTS = 300, ROUNDS = 7 };

static double seconds(void)
{
	struct timespec t;

	clock_gettime(CLOCK_MONOTONIC, &t);
	return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static const char *figure(double value, char text[32])
{
	snprintf(text, 32, "%.3f", value);
	return text;
}

static void begin(struct job *job)
{
	char x[32], text[32];

	sb_setting_init(job);
	jobs_set(job, "job", "unit", "m");
	jobs_set(job, "job", "inclination", "down");
	jobs_set(job, "control", "entry", "0, 0, 100");
	jobs_set(job, "control", "exit", "3000, 0, 100");
	jobs_set(job, "azimuth", "reference", "grid");
	jobs_set(job, "tool", "sensor_to_bit", "0");
	jobs_set(job, "drill_pipe", "joint_length", "10");
	jobs_set(job, "entry", "inclination", "78");
	jobs_set(job, "entry", "azimuth", "90");
	jobs_set(job, "product_pipe", "material", "steel");
	jobs_set(job, "product_pipe", "outside_diameter", "610");
	jobs_set(job, "product_pipe", "wall", "12.7");
	jobs_set(job, "product_pipe", "yield", "414");
	jobs_set(job, "hole", "final_diameter", "914");
	jobs_set(job, "fluid", "weight", "1080");
	jobs_row(job, "profile", (const char *const[]){ "0", "100", "" });
	jobs_row(job, "profile", (const char *const[]){ figure(40 / tan(12 * SB_PI / 180), x), "60", "800" });
	jobs_row(job, "profile",
		(const char *const[]){ figure(3000 - 40 / tan(10 * SB_PI / 180), text), "60", "800" });
	jobs_row(job, "profile", (const char *const[]){ "3000", "100", "" });
}

/* Each reading is the design's attitude at its depth, with scatter. */
static void drill(struct job *job, const struct design *d, int joints)
{
	struct random r = { 5 };
	char inc[32], azi[32];
	double station = 0;

	for (int i = 0; i < joints; i++) {
		for (int k = 0; k < 20; k++) {
			struct design_place p = sb_design_at(d, station);
			station += 0.5 * hypot(p.heading.n, p.heading.e);
		}
		struct design_place p = sb_design_at(d, station);
		jobs_log(job, "", figure(p.inc_rad * 180 / SB_PI + random_between(&r, -0.15, 0.15), inc),
			figure(p.azi_rad * 180 / SB_PI + random_between(&r, -0.3, 0.3), azi));
	}
}

struct cost {
	double solve, drilled, design;
	size_t stations, legs;
};

static struct cost cost_of(int joints)
{
	struct cost c = { HUGE_VAL, HUGE_VAL, HUGE_VAL, 0, 0 };
	struct solution s = { 0 };
	struct pipe_load load = { 0 };
	struct job job;

	begin(&job);
	jobs_solve(&job, &s);
	drill(&job, &s.design, joints);
	for (int round = 0; round < ROUNDS; round++) {
		double start = seconds();
		jobs_solve(&job, &s);
		c.solve = fmin(c.solve, seconds() - start);
		struct clearance_ask ask = sb_solution_clearance(&job, &s);
		start = seconds();
		assert_int_equal(sb_pipe_load_make(&ask, true, &load, NULL), 0);
		c.design = fmin(c.design, seconds() - start);
		start = seconds();
		assert_int_equal(sb_pipe_load_make(&ask, false, &load, NULL), 0);
		c.drilled = fmin(c.drilled, seconds() - start);
	}
	c.stations = load.count;
	c.legs = load.leg_count;
	sb_pipe_load_clear(&load);
	sb_solution_clear(&s);
	sb_job_clear(&job);
	return c;
}

static void measure(void **state)
{
	(void)state;
	struct cost whole = cost_of(JOINTS), quarter = cost_of(JOINTS / 4);
	print_message(
		"pull of %d joints, %zu stations, %zu legs, with its sensitivity (7 pulls for every place of the head): %.2f ms drilled, %.2f ms by design\n",
		JOINTS, whole.stations, whole.legs, 1e3 * whole.drilled, 1e3 * whole.design);
	print_message(
		"that is %.2f times what solving the bore takes; with a quarter of the joints read %.2f times as much\n",
		whole.drilled / whole.solve, quarter.drilled / whole.drilled);
}

int main(void)
{
	const struct CMUnitTest tests[] = { cmocka_unit_test(measure) };

	return run_tests(tests);
}
