/* The two paths against the truth: bores drilled by simulation, whose true hole is known at every inch, by a
 * hand who makes each slide at the start of its joint and writes down where. The simulated ground differs
 * from what the sheet guesses, its tool face is wrong, and its readings are rounded to a tenth of a degree:
 * the path by slides has to find out for itself. The simulation knows nothing of the courses that are laid
 * here. */
#include "model/rehearsal_truth.h"

#include "geom/angle.h"
#include "support/jobs.h"
#include "support/near.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { JOINTS = 30, BORES = 20 };

static const double foot = 0.3048;

/* Where the hole truly is at a depth. */
static struct vec3 true_place(const struct rehearsal *r, double md_m)
{
	size_t i = 1;

	while (i + 1 < r->stand_count && r->stands[i].md_m < md_m)
		i++;
	const struct stand *a = &r->stands[i - 1], *b = &r->stands[i];
	double share = (md_m - a->md_m) / (b->md_m - a->md_m);
	return sb_vec3_add(a->at, sb_vec3_scale(sb_vec3_sub(b->at, a->at), share));
}

static double miss(struct vec3 a, struct vec3 b)
{
	return sb_vec3_length(sb_vec3_sub(a, b));
}

/* Drills a bore that climbs by slides of ten feet and measures how far each path ends from the true hole. */
static void bore(const struct rehearsal_ground *ground, bool at_start, unsigned long long seed,
	double *by_arcs, double *by_slides)
{
	struct job job;
	struct solution s = { 0 };
	size_t changed;

	jobs_plain(&job);
	jobs_set(&job, "steering", "slide_turn", "0.06");
	jobs_set(&job, "tool", "sensor_to_bit", "20");
	struct rehearsal *truth = sb_rehearsal_new(&job, ground, seed, false, NULL);
	assert_non_null(truth);
	jobs_solve(&job, &s);
	for (int i = 0; i < JOINTS; i++) {
		struct reading r;
		sb_rehearsal_drill(truth, 31 * foot, sb_rad(i % 3 ? 20 : 330), 10 * foot, &r);
		r.id = i + 1;
		if (at_start)
			snprintf(r.pushes, sizeof r.pushes, "0:%.20s@%.20s", r.slid.text, r.tool_face.text);
		sb_job_add_reading(&job, &r);
		assert_int_equal(sb_solve_joint(&job, &s, &changed, NULL), 0);
	}
	const struct row *row = sb_solution_last_on_path(&s);
	struct vec3 place = true_place(truth, row->survey_md_m);
	*by_arcs = miss(row->at, place);
	*by_slides = miss(sb_vec3_add(row->at, row->slides.shifted), place);
	sb_rehearsal_free(truth);
	sb_solution_clear(&s);
	sb_job_clear(&job);
}

static void mean_of(const struct rehearsal_ground *ground, bool at_start, double *by_arcs, double *by_slides)
{
	*by_arcs = *by_slides = 0;
	for (unsigned long long seed = 1; seed <= BORES; seed++) {
		double arcs, slides;
		bore(ground, at_start, seed, &arcs, &slides);
		*by_arcs += arcs / BORES;
		*by_slides += slides / BORES;
	}
}

/* Slides of 0.6 degrees or less at the start of each of thirty joints: b (L - l) / 2 is 0.11 ft a joint,
 * three feet in all. */
static void in_ground_as_guessed_the_path_by_slides_finds_what_the_arcs_miss(void **state)
{
	(void)state;
	const struct rehearsal_ground ground = { .yield_share = 1, .pushes = 1 };
	double arcs, slides;

	mean_of(&ground, true, &arcs, &slides);
	assert_true(arcs > 2 * foot);
	if (!(slides < 0.1 * arcs))
		fail_msg("by arcs %.3f m, by slides %.3f m", arcs, slides);
}

static void in_other_ground_with_a_wrong_tool_face_and_noise_it_still_does(void **state)
{
	(void)state;
	const struct rehearsal_ground ground = { .yield_share = 0.8,
		.yield_scatter = 0.2,
		.zone_length_m = 60,
		.droop = 2e-4,
		.face_error_rad = 0.35,
		.wander = 3e-4,
		.pushes = 1,
		.noise_inc_rad = 1.7e-3,
		.noise_azi_rad = 1.7e-3 };
	double arcs, slides;

	mean_of(&ground, true, &arcs, &slides);
	if (!(slides < 0.4 * arcs))
		fail_msg("by arcs %.3f m, by slides %.3f m", arcs, slides);
}

static void where_slides_were_even_neither_is_worse_than_the_readings(void **state)
{
	(void)state;
	const struct rehearsal_ground ground = { .yield_share = 1, .pushes = 6 };
	double arcs, slides;

	mean_of(&ground, false, &arcs, &slides);
	/* readings rounded to a tenth of a degree: 0.029 degrees a joint, root of 30 joints: 0.03 m an axis
	 */
	assert_true(arcs < 0.1);
	assert_true(slides < 0.1);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(in_ground_as_guessed_the_path_by_slides_finds_what_the_arcs_miss),
		cmocka_unit_test(in_other_ground_with_a_wrong_tool_face_and_noise_it_still_does),
		cmocka_unit_test(where_slides_were_even_neither_is_worse_than_the_readings),
	};
	return run_tests(tests);
}
