/* Straight and curved runs found again in a surveyed line. */
#include "geom/runs.h"

#include "support/near.h"

#include <math.h>
#include <stdlib.h>

#define MOST 400
static struct run_point points[MOST];
static struct run runs[MOST];
static size_t made;

/* A line in the plane of north and up from runs of length and curvature, a point every step. */
static size_t lay(const double (*parts)[2], size_t count, double step)
{
	double heading = -0.2, s = 0, left = 0;
	struct vec3 at = { 0, 0, 0 };
	size_t n = 1;

	points[0] = (struct run_point){ .s_m = 0, .at = at };
	for (size_t k = 0; k < count; k++)
		for (double done = 0; done < parts[k][0] - 1e-9; done += 0.01) {
			heading += parts[k][1] * 0.005;
			at.n += 0.01 * cos(heading);
			at.u += 0.01 * sin(heading);
			heading += parts[k][1] * 0.005;
			s += 0.01;
			left += 0.01;
			if (left >= step - 1e-9) {
				points[n++] = (struct run_point){ .s_m = s, .at = at };
				left = 0;
			}
		}
	return n;
}

static const double crossing[][2] = { { 40, 0 }, { 160, 1.0 / 800 }, { 300, 0 }, { 140, 1.0 / 800 },
	{ 60, 0 } };

static void tangents_and_curves_are_found_again(void **state)
{
	(void)state;
	size_t n = lay(crossing, 5, 10);
	assert_int_equal(sb_runs_find(points, n, 0.05, runs, &made), RUNS_OK);
	assert_int_equal(made, 5);
	double ends[] = { 40, 200, 500, 640, 700 };
	for (size_t k = 0; k < 5; k++) {
		assert_near(points[runs[k].last].s_m, ends[k], 10.01);
		double bend = sb_vec3_length(runs[k].bend);
		assert_near(bend, crossing[k][1], 1e-4);
		assert_true(runs[k].off_m <= 0.05);
	}
	/* the inside of a sag is up */
	assert_true(runs[1].bend.u > 0);
	assert_int_equal(runs[0].first, 0);
	for (size_t k = 1; k < 5; k++)
		assert_int_equal(runs[k].first, runs[k - 1].last);
}

/* Wavers of a few centimetres are not bends; a waver of half a metre is. */
static void wavers_within_the_room_make_no_run(void **state)
{
	(void)state;
	size_t n = lay(crossing, 5, 10);
	srand(7);
	for (size_t i = 0; i < n; i++)
		points[i].at.e += 0.04 * (rand() / (double)RAND_MAX - 0.5);
	assert_int_equal(sb_runs_find(points, n, 0.08, runs, &made), RUNS_OK);
	assert_int_equal(made, 5);
	for (size_t i = 30; i <= 36; i++)
		points[i].at.e += 0.5 * sin((double)(i - 30) / 6 * 3.14159);
	assert_int_equal(sb_runs_find(points, n, 0.08, runs, &made), RUNS_OK);
	assert_true(made > 5);
}

/* Points twice or four times as dense find the same runs. */
static void density_does_not_matter(void **state)
{
	(void)state;
	for (double step = 10; step > 2; step /= 2) {
		size_t n = lay(crossing, 5, step);
		assert_int_equal(sb_runs_find(points, n, 0.05, runs, &made), RUNS_OK);
		assert_int_equal(made, 5);
		assert_near(sb_vec3_length(runs[1].bend), 1.0 / 800, 3e-5);
	}
}

/* Curves sideways, and two points alone. */
static void short_and_sideways_lines_are_taken_too(void **state)
{
	(void)state;
	size_t n = lay(crossing, 5, 10);
	for (size_t i = 0; i < n; i++)
		points[i].at = (struct vec3){ points[i].at.n, points[i].at.u, 5 };
	assert_int_equal(sb_runs_find(points, n, 0.05, runs, &made), RUNS_OK);
	assert_int_equal(made, 5);
	assert_true(runs[1].bend.e > 0);
	assert_near(runs[1].bend.u, 0, 1e-12);
	assert_int_equal(sb_runs_find(points, 2, 0.05, runs, &made), RUNS_OK);
	assert_int_equal(made, 1);
	assert_near(sb_vec3_length(runs[0].bend), 0, 0);
	assert_int_equal(sb_runs_find(points, 1, 0.05, runs, &made), RUNS_RANGE);
	assert_int_equal(sb_runs_find(points, 2, 0, runs, &made), RUNS_RANGE);
	points[1].at.u = (double)NAN;
	assert_int_equal(sb_runs_find(points, 2, 0.05, runs, &made), RUNS_RANGE);
	points[1].at.u = 5;
	points[1].s_m = HUGE_VAL;
	assert_int_equal(sb_runs_find(points, 2, 0.05, runs, &made), RUNS_RANGE);
	points[1].s_m = points[0].s_m;
	assert_int_equal(sb_runs_find(points, 2, 0.05, runs, &made), RUNS_RANGE);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(tangents_and_curves_are_found_again),
		cmocka_unit_test(wavers_within_the_room_make_no_run),
		cmocka_unit_test(density_does_not_matter),
		cmocka_unit_test(short_and_sideways_lines_are_taken_too),
	};
	return run_tests(tests);
}
