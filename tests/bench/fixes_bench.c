/* What fixes cost: the adjustment of 10 fixes with three components each on a bore of 1,000 joints.
 *
 * Against solving the same bore without fixes, in the same rounds; the quickest round of each counts. Fixes:
 * all of it, each held against the path, what both claim, the proposal with its tests. Alone: the least
 * squares and its tests, on what was set up. In force: solving the bore with the correction taken, where
 * every row asks the adjustment how sure it is.
 */
#include "geom/random.h"
#include "model/fact.h"
#include "support/jobs.h"

#include "model/fixes.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { JOINTS = 1000, FIXES = 10, ROUNDS = 15, COUNT = 3 * FIXES };

static double seconds(void)
{
	struct timespec t;

	clock_gettime(CLOCK_MONOTONIC, &t);
	return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static void put(struct fix *f, const char *column, double value)
{
	char text[32];

	snprintf(text, sizeof text, "%.3f", value);
	if (sb_fact_put(sb_fact_sort(ACT_FIX), f, column, text, NULL))
		exit(1);
}

static void add_fixes(struct job *job, const struct solution *s)
{
	for (int k = 1; k <= FIXES; k++) {
		const struct row *row = &s->path.rows[k * JOINTS / FIXES - 37];
		struct fix f = { .fact = { .id = k, .act = 1000 + k, .leg = 1, .joint = JOINTS } };
		put(&f, "depth", sb_frame_typed(&s->frame, row->survey_md_m) + 0.4);
		put(&f, "station", sb_frame_typed(&s->frame, row->deviation.station_m) + 0.45);
		put(&f, "offset", 0.0002 * sb_frame_typed(&s->frame, row->survey_md_m));
		put(&f, "elevation", sb_frame_typed(&s->frame, row->at.u) + 0.02);
		put(&f, "sigma_along", 0.5);
		put(&f, "sigma_across", 0.4);
		put(&f, "sigma_up", 0.3);
		sb_fact_add(job, ACT_FIX, &f);
	}
}

/* An adjustment of the same size, as numbers. */
static double least_squares(void)
{
	static double observed[COUNT], effect[COUNT * 3], covariance[COUNT * COUNT];
	static struct adjust_answer answer;
	static const double prior[3] = { 0.008, 0.002, 0.001 };
	int fix[COUNT];
	struct random r = { 5 };

	for (int i = 0; i < COUNT; i++) {
		fix[i] = i / 3;
		observed[i] = random_normal(&r);
		for (int j = 0; j < 3; j++)
			effect[i * 3 + j] = i % 3 == j ? 30.0 * (1 + i / 3) : 0;
		for (int k = 0; k < COUNT; k++)
			covariance[i * COUNT + k] =
				(i % 3 == k % 3 ? 0.01 * ((i < k ? i : k) / 3 + 1) : 0) + (i == k ? 0.02 : 0);
	}
	struct adjust_problem p = { 3, prior, COUNT, observed, effect, covariance, fix, 0.05 };
	double *work = malloc(sb_adjust_work(COUNT, 3) * sizeof *work);
	double from = seconds();
	for (int i = 0; i < 100 && work; i++)
		if (sb_adjust_solve(&p, work, &answer) != ADJUST_OK)
			exit(1);
	double took = (seconds() - from) / 100;
	free(work);
	return took;
}

static double solving(const struct job *job, struct solution *s)
{
	double from = seconds();

	jobs_solve(job, s);
	return seconds() - from;
}

static double fixing(const struct job *job, const struct solution *s, struct fixes *out)
{
	struct setup setup = sb_solution_setup(job, s);
	struct fixes_ask ask = { &setup, &s->path, &s->uncertainty.model, s->uncertainty.confidence,
		INT64_MAX };
	double from = seconds();

	sb_fixes_solve(&ask, out);
	return seconds() - from;
}

static void least(double *best, double took)
{
	*best = took < *best ? took : *best;
}

int main(void)
{
	struct job job, with;
	struct solution bare = { 0 }, fixed = { 0 }, in_force = { 0 };
	struct fixes fixes = { 0 };
	struct adjustment a;
	double solve = 1e9, fix = 1e9, alone = 1e9, forced = 1e9;

	jobs_plain(&job);
	jobs_set(&job, "drill_pipe", "joint_length", "1.1");
	jobs_follow(&job, JOINTS);
	jobs_solve(&job, &bare);
	sb_job_copy(&job, &with);
	add_fixes(&with, &bare);
	jobs_solve(&with, &fixed);
	sb_fixes_adjustment(&fixed.fixes, &a);
	a.fact = (struct fact){ .id = 1, .act = 2000, .leg = 1, .joint = JOINTS };
	for (int round = 0; round < ROUNDS; round++) {
		least(&solve, solving(&job, &bare));
		least(&fix, fixing(&with, &fixed, &fixes));
		least(&alone, least_squares());
		sb_fact_add(&with, ACT_ADJUST, &a);
		least(&forced, solving(&with, &in_force));
		with.adjustment_count = 0;
	}
	printf("fixes: %d fixes on %d joints: %.3f ms, %.2f of solving the bore without any (%.3f ms)\n",
		FIXES, JOINTS, fix * 1e3, fix / solve, solve * 1e3);
	printf("       the least squares alone, with all tests: %.3f ms\n", alone * 1e3);
	printf("       solving the bore with the correction in force: %.3f ms, %.2f of it\n", forced * 1e3,
		forced / solve);
	return 0;
}
