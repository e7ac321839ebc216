/* What judging clearance and cover adds to a joint, and that it does not grow with the joints in the ground.
 *
 * A straight level bore of 3000 m, joints of 10 m, read with scatter; 40 obstacles of two rows near it, a
 * ground of 300 points, cover asked for all along. Each joint is added alone (sb_solve_joint), as the cabin
 * does it. The same bore without obstacles and ground is the measure of one.
 */
#include "geom/random.h"
#include "model/setting.h"
#include "support/jobs.h"
#include "support/near.h"

#include <stdio.h>
#include <string.h>
#include <time.h>

enum { JOINTS = 290, PART = 40, OBSTACLES = 40, GROUND = 300 };

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

static void surround(struct job *job)
{
	char e[32], n[32], u[32];

	for (int i = 0; i < OBSTACLES; i++)
		for (int k = -1; k <= 1; k += 2) {
			char name[16];
			snprintf(name, sizeof name, "main %d", i);
			jobs_row(job, "obstacles",
				(const char *const[]){ name, "main", figure(70.0 * i + 20, e),
					figure(30 * k, n), figure(102 + i % 3, u), "0.4", "1" });
		}
	for (int i = 0; i < GROUND; i++)
		jobs_row(job, "ground",
			(const char *const[]){ figure(10.1 * i - 1, e), figure(106 + i % 7 * 0.2, u) });
	jobs_set(job, "cover", "minimum", "4");
	jobs_set(job, "hole", "final_diameter", "600");
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
		surround(job);
}

/* Seconds a joint over the first PART joints, and over the last. */
static void drill(bool around, double *first, double *last, size_t *warnings)
{
	struct random r = { 5 };
	struct solution s = { 0 };
	struct job job;
	char inc[32], azi[32];
	size_t changed;
	double spent[JOINTS + 1];

	begin(&job, around);
	jobs_solve(&job, &s);
	for (int i = 0; i < JOINTS; i++) {
		jobs_log(&job, "", figure(90 + random_between(&r, -0.2, 0.2), inc),
			figure(90 + random_between(&r, -0.3, 0.3), azi));
		double start = seconds();
		assert_int_equal(sb_solve_joint(&job, &s, &changed, NULL), 0);
		spent[i] = seconds() - start;
	}
	*first = *last = 0;
	for (int i = 0; i < PART; i++) {
		*first += spent[i] / PART;
		*last += spent[JOINTS - 1 - i] / PART;
	}
	*warnings = s.warning_count;
	sb_solution_clear(&s);
	sb_job_clear(&job);
}

static void measure(void **state)
{
	double first, last, bare_first, bare_last, best = HUGE_VAL, grown = HUGE_VAL;
	size_t warnings, none;

	(void)state;
	for (int round = 0; round < 5; round++) {
		drill(false, &bare_first, &bare_last, &none);
		drill(true, &first, &last, &warnings);
		best = fmin(best, last / bare_last);
		grown = fmin(grown, (last - bare_last) / fmax(first - bare_first, 1e-9));
	}
	print_message(
		"clearance and cover: a joint with 40 obstacles and 300 points of ground takes %.1f times one without\n",
		best);
	print_message(
		"what they add at joint 250 to 290 is %.1f times what they add at joint 1 to 40 (%zu warnings)\n",
		grown, warnings);
}

int main(void)
{
	const struct CMUnitTest tests[] = { cmocka_unit_test(measure) };

	return run_tests(tests);
}
