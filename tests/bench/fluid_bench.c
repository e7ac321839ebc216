/* What the drilling fluid costs: the whole bore of 300 joints from end to end, for pilot, opening and pull,
 * and what judging annular pressure adds to a joint, which does not grow with the joints in the ground.
 *
 * A level bore of 3000 m in 10 layers of soil under 300 points of ground, joints of 10 m read with scatter,
 * each with its own flow and a measured pressure; solved joint by joint as the cabin does it. The same bore
 * without soil is the measure of one. The quickest of 9 rounds; the machine's own times are said beside the
 * ratios.
 */
#include "model/fluid_line.h"

#include "geom/random.h"
#include "model/setting.h"
#include "support/jobs.h"
#include "support/near.h"

#include <stdio.h>
#include <string.h>
#include <time.h>

enum { JOINTS = 299, PART = 40, GROUND = 300, LAYERS = 10, ROUNDS = 9 };

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

static void fill(struct job *job)
{
	char a[32], b[32];

	for (int i = 0; i < LAYERS; i++)
		jobs_row(job, "soil",
			(const char *const[]){ "-5", "3005", figure(140 - 3 * i, a), i % 2 ? "clay" : "sand",
				"19", i % 2 ? "20" : "0", i % 2 ? "0" : "33", "5000", "130" });
	for (int i = 0; i < GROUND; i++)
		jobs_row(job, "ground",
			(const char *const[]){ figure(10.1 * i - 1, a), figure(135 + i % 7 * 0.2, b) });
	jobs_set(job, "hole", "pilot_diameter", "300");
	jobs_set(job, "hole", "final_diameter", "900");
	jobs_set(job, "drill_pipe", "outside_diameter", "127");
	jobs_set(job, "product_pipe", "outside_diameter", "610");
	jobs_set(job, "fluid", "weight", "1100");
	jobs_set(job, "fluid", "plastic_viscosity", "15");
	jobs_set(job, "fluid", "yield_point", "9");
	jobs_set(job, "fluid", "flow", "1500");
}

static void begin(struct job *job, bool around)
{
	sb_setting_init(job);
	jobs_set(job, "job", "unit", "m");
	jobs_set(job, "job", "inclination", "down");
	jobs_set(job, "control", "entry", "0, 0, 100");
	jobs_set(job, "control", "exit", "3000, 0, 100");
	jobs_set(job, "azimuth", "reference", "grid");
	jobs_set(job, "tool", "sensor_to_bit", "10");
	jobs_set(job, "drill_pipe", "joint_length", "10");
	jobs_set(job, "entry", "inclination", "90");
	jobs_set(job, "entry", "azimuth", "90");
	jobs_row(job, "profile", (const char *const[]){ "0", "100", "" });
	jobs_row(job, "profile", (const char *const[]){ "3000", "100", "" });
	if (around)
		fill(job);
}

static void log_joint(struct job *job, struct random *r)
{
	char inc[32], azi[32];
	struct reading reading = jobs_reading(job, "", figure(90 + random_between(r, -0.2, 0.2), inc),
		figure(90 + random_between(r, -0.3, 0.3), azi));

	reading.flow = sb_number_of(random_between(r, 1300, 1600), 0);
	reading.annular = sb_number_of(random_between(r, 10, 400), 0);
	reading.id = (int64_t)job->reading_count + 1;
	sb_job_add_reading(job, &reading);
}

/* Seconds a joint over the first PART joints, and over the last; then the whole bore's three lines. */
static void drill(bool around, double *first, double *last, double *lines)
{
	static const enum fluid_stage_kind stages[] = { STAGE_PILOT, STAGE_PASS, STAGE_PULL };
	struct random r = { 5 };
	struct solution s = { 0 };
	struct job job;
	size_t changed;
	double spent[JOINTS];

	begin(&job, around);
	jobs_solve(&job, &s);
	for (int i = 0; i < JOINTS; i++) {
		log_joint(&job, &r);
		double start = seconds();
		assert_int_equal(sb_solve_joint(&job, &s, &changed, NULL), 0);
		spent[i] = seconds() - start;
	}
	*first = *last = 0;
	for (int i = 0; i < PART; i++) {
		*first += spent[i] / PART;
		*last += spent[JOINTS - 1 - i] / PART;
	}
	struct clearance_ask ask = sb_solution_clearance(&job, &s);
	struct bore_line bore = { 0 };
	double start = seconds();
	sb_bore_line_drilled(&ask, &bore);
	for (int k = 0; k < 3; k++) {
		struct fluid_line line;
		sb_fluid_line_build(&ask, &bore, stages[k], 0, &line);
		assert_true(line.count >= JOINTS - 1 && (line.tightest != NULL) == around);
		sb_fluid_line_clear(&line);
	}
	*lines = seconds() - start;
	sb_bore_line_clear(&bore);
	sb_solution_clear(&s);
	sb_job_clear(&job);
}

/* Of several rounds the quickest: what else runs on the machine only ever adds. */
struct times {
	double first, last, lines;
};

static struct times quickest(bool around)
{
	struct times best = { HUGE_VAL, HUGE_VAL, HUGE_VAL };

	for (int round = 0; round < ROUNDS; round++) {
		struct times t;
		drill(around, &t.first, &t.last, &t.lines);
		best.first = fmin(best.first, t.first);
		best.last = fmin(best.last, t.last);
		best.lines = fmin(best.lines, t.lines);
	}
	return best;
}

static void measure(void **state)
{
	struct times bare = quickest(false), soil = quickest(true);

	(void)state;
	print_message("fluid: a joint judged in 10 layers of soil takes %.2f times one without soil\n",
		soil.last / bare.last);
	print_message("what it adds at joint 260 to 299 is %.1f times what it adds at joint 1 to 40\n",
		(soil.last - bare.last) / fmax(soil.first - bare.first, 1e-9));
	print_message(
		"the whole bore of %d joints, pilot, opening and pull: %.2f ms here, %.0f times one joint\n",
		JOINTS, soil.lines * 1e3, soil.lines / bare.last);
}

int main(void)
{
	const struct CMUnitTest tests[] = { cmocka_unit_test(measure) };

	return run_tests(tests);
}
