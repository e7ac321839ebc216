/* The bore as a chain: every stretch begins where the one before ends, whatever was drilled so far. */
#include "model/bore_line.h"
#include "model/solve.h"

#include "profile_b.h"
#include "support/near.h"

static const double foot = 0.3048;

static void holds_together(const struct bore_line *line)
{
	double md = 0;

	assert_true(line->count > 0);
	for (size_t i = 0; i < line->count; i++) {
		const struct bore_stretch *b = &line->stretches[i];
		assert_near(b->md_m, md, 1e-9);
		assert_near(sb_vec3_length(b->heading_from), 1, 1e-9);
		assert_near(sb_vec3_length(b->heading_to), 1, 1e-9);
		/* its chord is that of an arc of its length and turn, to a thousandth for the stretched and
		 * the blended */
		double chord = sb_vec3_length(sb_vec3_sub(b->to, b->from));
		double half = b->turn_rad / 2;
		assert_near(chord, b->length_m * (half > 1e-9 ? sin(half) / half : 1), 2e-3 * b->length_m);
		if (i > 0)
			assert_near(sb_vec3_length(sb_vec3_sub(b->from, line->stretches[i - 1].to)), 0, 1e-5);
		if (i > 0)
			assert_true(b->station_m >= line->stretches[i - 1].station_m);
		md += b->length_m;
	}
	assert_near(line->length_m, md, 1e-9);
}

/* Profile B: derived, no publication. */
static void the_design_is_its_tangents_and_curves(void **state)
{
	static const double lengths_ft[] = { 135.553437, 418.879020, 1283.465245, 335.103216, 234.552257 };
	double part_ft[5] = { 0 }, turn[5] = { 0 };
	struct job job;
	struct solution s = { 0 };
	struct bore_line line = { 0 };

	(void)state;
	profile_b(&job);
	jobs_solve(&job, &s);
	struct clearance_ask asked = sb_solution_clearance(&job, &s);
	sb_bore_line_design(&asked, &line);
	holds_together(&line);
	for (size_t i = 0; i < line.count; i++) {
		const struct bore_stretch *b = &line.stretches[i];
		assert_true(b->part >= 0 && b->part < 5);
		assert_false(b->projected);
		part_ft[b->part] += b->length_m / foot;
		turn[b->part] += b->turn_rad;
	}
	for (int k = 0; k < 5; k++)
		assert_near(part_ft[k], lengths_ft[k], 1e-5);
	assert_near(turn[1], 10 * SB_PI / 180, 1e-7);
	assert_near(turn[3], 8 * SB_PI / 180, 1e-7);
	assert_near(turn[0] + turn[2] + turn[4], 0, 1e-7);
	assert_near(line.length_m / foot, 2407.553176, 1e-5);
	sb_bore_line_clear(&line);
	sb_solution_clear(&s);
	sb_job_clear(&job);
}

/* Horizontal and vertical curves: the length in space is that of the profile, and the ends are the exit. */
static void a_design_in_a_curve_ends_at_the_exit(void **state)
{
	void (*const makers[])(struct job *) = { jobs_plain, jobs_curved, jobs_graded };

	(void)state;
	for (size_t k = 0; k < 3; k++) {
		struct job job;
		struct solution s = { 0 };
		struct bore_line line = { 0 };
		makers[k](&job);
		jobs_solve(&job, &s);
		struct clearance_ask asked = sb_solution_clearance(&job, &s);
		sb_bore_line_design(&asked, &line);
		holds_together(&line);
		struct design_place exit = sb_design_at(&s.design, s.design.length_m);
		struct vec3 end;
		sb_bore_line_at(&line, line.length_m, &end, NULL);
		assert_near(sb_vec3_length(sb_vec3_sub(end, exit.at)), 0, 1e-5);
		/* the curved sheet ends its profile 2 mm past its alignment */
		assert_near(line.length_m, sb_chain_length(s.design.profile, s.design.profile_count), 3e-3);
		assert_near(sb_bore_line_station(&line, line.length_m), s.design.length_m, 0.02);
		sb_bore_line_clear(&line);
		sb_solution_clear(&s);
		sb_job_clear(&job);
	}
}

/* Before the first joint the line is the design's; half way it goes through the readings and comes back to
 * it; drilled through, it ends at the bit. */
static void what_is_not_drilled_is_projected_and_says_so(void **state)
{
	static const int joints[] = { 0, 1, 12, 40, 77, 90 };

	(void)state;
	for (size_t k = 0; k < sizeof joints / sizeof *joints; k++) {
		struct job job;
		struct solution s = { 0 };
		struct bore_line line = { 0 };
		profile_b(&job);
		jobs_follow(&job, joints[k]);
		jobs_solve(&job, &s);
		struct clearance_ask asked = sb_solution_clearance(&job, &s);
		sb_bore_line_drilled(&asked, &line);
		holds_together(&line);
		assert_near(line.projected_from_m, s.path.rows[s.path.count - 1].survey_md_m, 1e-6);
		size_t projected = 0;
		for (size_t i = 0; i < line.count; i++) {
			projected += line.stretches[i].projected;
			assert_int_equal(line.stretches[i].projected,
				line.stretches[i].md_m > line.projected_from_m - 1e-6);
			assert_int_equal(line.stretches[i].part, -1);
		}
		assert_int_equal(line.out, joints[k] == 90);
		assert_int_equal(projected == 0, joints[k] == 90);
		if (joints[k] < 90)
			assert_near(line.length_m / foot, 2407.55, 1.5);
		sb_bore_line_clear(&line);
		sb_solution_clear(&s);
		sb_job_clear(&job);
	}
}

/* A bit that is off to the right and below heads back without a kink: no stretch bends tighter than the
 * blend. */
static void the_way_back_begins_with_the_bits_own_heading(void **state)
{
	struct job job;
	struct solution s = { 0 };
	struct bore_line line = { 0 };

	(void)state;
	profile_b(&job);
	jobs_follow(&job, 20);
	jobs_log(&job, "", "89", "91");
	jobs_solve(&job, &s);
	struct clearance_ask asked = sb_solution_clearance(&job, &s);
	sb_bore_line_drilled(&asked, &line);
	size_t i = sb_bore_line_find(&line, line.bit_m + 0.1);
	assert_near(sb_vec3_angle(line.stretches[i].heading_from, s.bit.attitude.heading), 0, 1e-9);
	assert_near(sb_vec3_length(sb_vec3_sub(line.stretches[i].from, s.bit.at)), 0, 1e-9);
	assert_true(s.bit.deviation.offset_m > 0);
	assert_near(sb_vec3_length(sb_vec3_sub(line.stretches[line.count - 1].to,
			    sb_design_at(&s.design, s.design.length_m).at)),
		0, 1e-6);
	assert_true(line.stretches[i].radius_m > 500);
	sb_bore_line_clear(&line);
	sb_solution_clear(&s);
	sb_job_clear(&job);
}

/* A place inside a stretch lies on its arc. */
static void a_place_in_a_stretch_is_on_its_arc(void **state)
{
	struct job job;
	struct solution s = { 0 };
	struct bore_line line = { 0 };

	(void)state;
	profile_b(&job);
	jobs_solve(&job, &s);
	struct clearance_ask asked = sb_solution_clearance(&job, &s);
	sb_bore_line_design(&asked, &line);
	for (double md = 1; md < line.length_m; md += 7.3) {
		struct vec3 at, heading;
		sb_bore_line_at(&line, md, &at, &heading);
		struct design_place p = sb_design_at(&s.design, at.e);
		assert_near(at.u, p.at.u, 1e-4);
		assert_near(sb_vec3_angle(heading, p.heading), 0, 1e-4);
		assert_near(sb_bore_line_station(&line, md), at.e, 5e-3);
	}
	sb_bore_line_clear(&line);
	sb_solution_clear(&s);
	sb_job_clear(&job);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_design_is_its_tangents_and_curves),
		cmocka_unit_test(a_design_in_a_curve_ends_at_the_exit),
		cmocka_unit_test(what_is_not_drilled_is_projected_and_says_so),
		cmocka_unit_test(the_way_back_begins_with_the_bits_own_heading),
		cmocka_unit_test(a_place_in_a_stretch_is_on_its_arc),
	};
	return run_tests(tests);
}
