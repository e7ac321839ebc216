/* What every answer of the steering solver must hold, over problems by chance: the hole follows from the
 * turns, every limit is kept, no slide is longer than its turn needs, the mirror image has the mirrored
 * answer; bad figures are refused with the answer untouched. What is least is held against searches in
 * steer_search_test.c, and in the plane against a linear program in steer_linear_test.c.
 */
#include "geom/steer_problem.h"

#include <stdlib.h>

enum { PROBLEMS = 400, JOINTS = 16 };

static void *work;

static int make_work(void **state)
{
	(void)state;
	work = malloc(sb_steer_work_size());
	return work == NULL;
}

static int free_work(void **state)
{
	(void)state;
	free(work);
	return 0;
}

/* ---- every answer ---- */

static void check_hole(const struct steer_problem *p, const struct steer_answer *a)
{
	struct steer_step again[STEER_STAGES];

	memcpy(again, a->steps, sizeof again);
	follow_turns(p, again);
	for (size_t k = 0; k < p->count; k++) {
		assert_near(again[k].position.up, a->steps[k].position.up, 1e-9);
		assert_near(again[k].position.right, a->steps[k].position.right, 1e-9);
		assert_near(again[k].heading.up, a->steps[k].heading.up, 1e-12);
		assert_near(again[k].heading.right, a->steps[k].heading.right, 1e-12);
	}
	if (p->end == STEER_LINE) {
		const struct steer_step *end = &a->steps[p->count - 1];
		assert_near(hypot(end->position.up, end->position.right), 0, 1e-8);
		assert_near(hypot(end->heading.up, end->heading.right), 0, 1e-12);
	}
}

/* A slide is no shorter than its turn needs; and since sliding more than is needed only costs, all that is
 * too much lies within the gap. */
static void check_slides(const struct steer_problem *p, const struct steer_answer *a)
{
	double too_much = 0;

	for (size_t k = 0; k < p->count; k++) {
		const struct steer_stage *s = &p->stages[k];
		const struct steer_step *step = &a->steps[k];
		double rotated = s->length - step->slid, least = least_slide(s, step->turn);
		assert_near(s->yield * step->slide.up + rotated * s->drift.up, step->turn.up, 1e-12);
		assert_near(s->yield * step->slide.right + rotated * s->drift.right, step->turn.right, 1e-12);
		assert_true(step->slid >= least - 1e-9 && step->slid <= s->length);
		too_much += step->slid - least;
	}
	assert_true(too_much <= a->gap + 1e-9 * (1 + a->cost));
}

static void every_answer_is_a_hole_inside_every_limit_that_slides_no_more_than_it_must(void **state)
{
	struct steer_problem p;
	struct steer_answer a;
	int optimal = 0, infeasible = 0;

	(void)state;
	for (uint64_t seed = 1; seed <= PROBLEMS; seed++) {
		struct random r = { seed * 7919 };
		random_problem(&r, JOINTS, &p);
		enum steer_status status = sb_steer_solve(&p, work, &a);
		/* Stuck, or out of range: never. */
		assert_true(status == STEER_OPTIMAL || status == STEER_INFEASIBLE);
		if (status == STEER_INFEASIBLE) {
			infeasible++;
			assert_true(a.short_by > 0 && a.limit != STEER_LIMIT_NONE && a.stage < p.count);
			continue;
		}
		optimal++;
		check_hole(&p, &a);
		check_slides(&p, &a);
		/* A limit of 0 counts as a micrometre, of the 0.3 m that shares are taken of. */
		assert_true(worst_passed(&p, a.steps) <= 1e-5);
		assert_near(a.cost, cost_of_steps(&p, a.steps), 1e-9 * (1 + a.cost));
		assert_true(a.gap > 0 && a.limit == STEER_LIMIT_NONE && a.short_by == 0);
	}
	assert_true(optimal > PROBLEMS / 2 && infeasible > PROBLEMS / 8);
}

static void the_first_phase_alone_says_the_same(void **state)
{
	struct steer_problem p;
	struct steer_answer a, alone;

	(void)state;
	for (uint64_t seed = 1; seed <= 200; seed++) {
		struct random r = { seed * 104729 };
		random_problem(&r, JOINTS, &p);
		enum steer_status status = sb_steer_solve(&p, work, &a);
		assert_int_equal(sb_steer_feasible(&p, work, &alone), status);
		if (status == STEER_INFEASIBLE) {
			assert_near(alone.short_by, a.short_by, 0);
			assert_int_equal(alone.limit, a.limit);
			assert_int_equal(alone.stage, a.stage);
		}
	}
}

/* ---- symmetry ---- */

static void mirror(struct steer_pair *v)
{
	v->right = -v->right;
}

static void mirror_problem(struct steer_problem *p)
{
	mirror(&p->start);
	mirror(&p->heading);
	mirror(&p->end_at);
	for (size_t i = 0; i < p->past_count; i++)
		mirror(&p->past[i]);
	for (size_t k = 0; k < p->count; k++) {
		struct steer_stage *s = &p->stages[k];
		double left = s->left;
		s->left = s->right;
		s->right = left;
		mirror(&s->design);
		mirror(&s->drift);
		for (size_t i = 0; i < s->plane_count; i++)
			mirror(&s->planes[i].a);
	}
	double left = p->end_left;
	p->end_left = p->end_right;
	p->end_right = left;
}

/* Short ones, so that there can be many: of 5 joints at most, whatever their limits leave. */
static void in_thousands_of_problems_it_is_never_stuck(void **state)
{
	struct steer_problem p;
	struct steer_answer a;
	int solved = 0;

	(void)state;
	for (uint64_t seed = 1; seed <= 3000; seed++) {
		struct random r = { seed * 15485863 };
		random_problem(&r, 5, &p);
		enum steer_status status = sb_steer_solve(&p, work, &a);
		if (status != STEER_OPTIMAL && status != STEER_INFEASIBLE)
			fail_msg("seed %d: status %d", (int)seed, (int)status);
		solved += status == STEER_OPTIMAL;
	}
	assert_true(solved > 1000 && solved < 2500);
}

static void the_mirror_image_has_the_mirrored_answer(void **state)
{
	struct steer_problem p;
	struct steer_answer a, b;
	int compared = 0;

	(void)state;
	for (uint64_t seed = 1; seed <= 200; seed++) {
		struct random r = { seed * 15485863 };
		random_problem(&r, JOINTS, &p);
		p.turn_weight = 3000; /* so that the answer is one, and not one of many that cost the same */
		p.line_weight = 1;
		enum steer_status status = sb_steer_solve(&p, work, &a);
		mirror_problem(&p);
		assert_int_equal(sb_steer_solve(&p, work, &b), status);
		if (status != STEER_OPTIMAL)
			continue;
		compared++;
		assert_near(b.cost, a.cost, fmax(a.gap, b.gap));
		for (size_t k = 0; k < p.count; k++) {
			assert_near(b.steps[k].position.up, a.steps[k].position.up, 1e-3);
			assert_near(b.steps[k].position.right, -a.steps[k].position.right, 1e-3);
		}
	}
	assert_true(compared > 100);
}

/* ---- windows ---- */

/* Level with the line, 2 m low, windows of three joints; two joints in the ground turned upwards. */
static void window_problem(struct steer_problem *p, double past, double part, bool by_sum)
{
	plain_problem(p, 12, 10, 0.004, STEER_LINE);
	p->start.up = -2;
	p->by_sum = by_sum;
	p->past_count = 2;
	p->past[0].up = p->past[1].up = past;
	for (size_t k = 0; k < p->count; k++) {
		p->stages[k].window_limit = 0.03;
		p->stages[k].window_from = (int)k - 2;
		p->stages[k].window_part = part;
	}
}

static void bends_in_the_ground_count_in_the_window(void **state)
{
	struct steer_problem p;
	struct steer_answer free_hand, bound;

	(void)state;
	for (int by_sum = 0; by_sum <= 1; by_sum++) {
		window_problem(&p, 0, 0, by_sum);
		assert_int_equal(sb_steer_solve(&p, work, &free_hand), STEER_OPTIMAL);
		assert_true(free_hand.steps[0].turn.up > 0.011);
		/* 0.01 and 0.01 of 0.03 are taken: a third is left for the first joint. */
		window_problem(&p, 0.01, 0, by_sum);
		assert_int_equal(sb_steer_solve(&p, work, &bound), STEER_OPTIMAL);
		assert_true(bound.steps[0].turn.up <= 0.01);
		assert_true(bound.cost > free_hand.cost + free_hand.gap);
	}
	/* Turns in the ground that already pass the limit leave no way but to turn back; by their sum, none.
	 */
	window_problem(&p, 0.02, 0, false);
	assert_int_equal(sb_steer_solve(&p, work, &bound), STEER_OPTIMAL);
	assert_true(bound.steps[0].turn.up <= -0.01);
	window_problem(&p, 0.02, 0, true);
	assert_int_equal(sb_steer_solve(&p, work, &bound), STEER_INFEASIBLE);
	assert_int_equal(bound.limit, STEER_LIMIT_WINDOW);
	assert_int_equal(bound.stage, 0);
}

static void the_part_of_a_joint_that_a_window_reaches_into_counts_in_its_share(void **state)
{
	struct steer_problem p;
	struct steer_answer a;

	(void)state;
	window_problem(&p, 0.01, 0.5, false);
	for (size_t k = 0; k < p.count; k++)
		p.stages[k].window_from = (int)k; /* this joint and half of the one before */
	p.stages[0].window_limit = 0.009;
	assert_int_equal(sb_steer_solve(&p, work, &a), STEER_OPTIMAL);
	assert_true(a.steps[0].turn.up <= 0.004 && a.steps[0].turn.up > 0.0035);
}

static void windows_that_reach_back_past_the_entry_count_what_there_is(void **state)
{
	struct steer_problem p;
	struct steer_answer a, b;

	(void)state;
	window_problem(&p, 0.01, 0, true);
	for (size_t k = 0; k < p.count; k++)
		p.stages[k].window_from = -STEER_PAST;
	assert_int_equal(sb_steer_feasible(&p, work, &a), STEER_INFEASIBLE); /* 0.02 and all of the plan */
	for (size_t k = 0; k < p.count; k++)
		p.stages[k].window_limit = 0.06;
	assert_int_equal(sb_steer_solve(&p, work, &a), STEER_OPTIMAL);
	p.past_count = STEER_PAST; /* joints of no turn add nothing */
	assert_int_equal(sb_steer_solve(&p, work, &b), STEER_OPTIMAL);
	assert_near(b.cost, a.cost, a.gap + b.gap);
}

/* ---- bad figures ---- */

struct bad {
	const char *what;
	size_t offset;
	double value;
};

#define AT(member) offsetof(struct steer_problem, member)

static const struct bad bad_figures[] = {
	{ "start", AT(start.up), NAN },
	{ "start", AT(start.right), HUGE_VAL },
	{ "heading", AT(heading.up), HUGE_VAL },
	{ "heading", AT(heading.right), NAN },
	{ "turn weight", AT(turn_weight), 0 },
	{ "turn weight", AT(turn_weight), HUGE_VAL },
	{ "line weight", AT(line_weight), -1 },
	{ "line weight", AT(line_weight), NAN },
	{ "past", AT(past[1].right), NAN },
	{ "past", AT(past[0].up), -HUGE_VAL },
	{ "end up", AT(end_up), -1 },
	{ "end down", AT(end_down), NAN },
	{ "end left", AT(end_left), -1e-9 },
	{ "end right", AT(end_right), NAN },
	{ "end's place", AT(end_at.up), HUGE_VAL },
	{ "end's place", AT(end_at.right), NAN },
	{ "end's heading", AT(end_heading.up), -1e-9 },
	{ "end's heading", AT(end_heading.right), HUGE_VAL },
	{ "end's heading", AT(end_heading.right), NAN },
	{ "length", AT(stages[2].length), 0 },
	{ "length", AT(stages[2].length), HUGE_VAL },
	{ "gain", AT(stages[0].gain.up), 0 },
	{ "gain", AT(stages[3].gain.right), NAN },
	{ "design", AT(stages[1].design.up), NAN },
	{ "design", AT(stages[1].design.right), HUGE_VAL },
	{ "yield", AT(stages[3].yield), 0 },
	{ "yield", AT(stages[3].yield), HUGE_VAL },
	{ "drift as strong as the yield", AT(stages[0].drift.up), 0.004 },
	{ "drift", AT(stages[0].drift.right), NAN },
	{ "joint limit", AT(stages[0].joint_limit), 0 },
	{ "joint limit", AT(stages[0].joint_limit), NAN },
	{ "window limit", AT(stages[3].window_limit), -0.01 },
	{ "window limit", AT(stages[3].window_limit), NAN },
	{ "window part", AT(stages[1].window_part), -0.1 },
	{ "window part", AT(stages[1].window_part), 1.1 },
	{ "corridor up", AT(stages[1].up), -1 },
	{ "corridor down", AT(stages[1].down), NAN },
	{ "corridor left", AT(stages[1].left), -1 },
	{ "corridor right", AT(stages[1].right), NAN },
	{ "plane", AT(stages[0].planes[0].a.up), NAN },
	{ "plane", AT(stages[0].planes[0].b), HUGE_VAL },
};

/* Sound as it stands. */
static void sound_problem(struct steer_problem *p)
{
	plain_problem(p, 4, 10, 0.004, STEER_NEAR);
	p->end_heading = (struct steer_pair){ 0.01, 0.01 };
	p->start.up = -0.1;
	p->past_count = 2;
	p->stages[0].plane_count = 1;
	p->stages[0].planes[0] = (struct steer_plane){ { 1, 0 }, 1 };
}

static void assert_refused(const struct steer_problem *p, const char *what)
{
	struct steer_answer a, untouched;

	memset(&a, 0x5a, sizeof a);
	memcpy(&untouched, &a, sizeof a);
	if (sb_steer_solve(p, work, &a) != STEER_RANGE || memcmp(&a, &untouched, sizeof a) != 0)
		fail_msg("%s: taken, or the answer touched", what);
	assert_int_equal(sb_steer_feasible(p, work, &a), STEER_RANGE);
	assert_memory_equal(&a, &untouched, sizeof a);
}

static void figures_that_make_no_sense_are_refused_and_the_answer_is_left_alone(void **state)
{
	struct steer_problem p;
	struct steer_answer a;

	(void)state;
	sound_problem(&p);
	assert_int_equal(sb_steer_solve(&p, work, &a), STEER_OPTIMAL);
	for (size_t i = 0; i < sizeof bad_figures / sizeof *bad_figures; i++) {
		sound_problem(&p);
		memcpy((char *)&p + bad_figures[i].offset, &bad_figures[i].value, sizeof(double));
		assert_refused(&p, bad_figures[i].what);
	}
}

static void counts_that_make_no_sense_are_refused_too(void **state)
{
	struct steer_problem p;

	(void)state;
	sound_problem(&p);
	p.count = 0;
	assert_refused(&p, "no joints");
	p.count = STEER_STAGES + 1;
	assert_refused(&p, "too many joints");
	sound_problem(&p);
	p.past_count = STEER_PAST + 1;
	assert_refused(&p, "too many past joints");
	sound_problem(&p);
	p.stages[1].plane_count = 3;
	assert_refused(&p, "too many planes");
	sound_problem(&p);
	p.stages[1].window_from = 2;
	assert_refused(&p, "a window that begins after its end");
	p.stages[1].window_from = -STEER_PAST - 1;
	assert_refused(&p, "a window that reaches back too far");
}

/* ---- one joint ---- */

static void one_joint_ends_on_the_line_only_if_it_leads_there(void **state)
{
	struct steer_problem p;
	struct steer_answer a;

	(void)state;
	plain_problem(&p, 1, 10, 0.004, STEER_LINE);
	p.heading.up = 0.02; /* 10 m at half of 0.02 rise 0.1 m */
	p.start.up = -0.1;
	assert_int_equal(sb_steer_solve(&p, work, &a), STEER_OPTIMAL);
	assert_near(a.steps[0].slid, 5, 0.01); /* 0.02 rad at 0.004 rad/m */
	p.start.up = -0.2;
	assert_int_equal(sb_steer_solve(&p, work, &a), STEER_INFEASIBLE);
	assert_int_equal(a.limit, STEER_LIMIT_END);
	assert_near(a.short_by, 1, 0);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(every_answer_is_a_hole_inside_every_limit_that_slides_no_more_than_it_must),
		cmocka_unit_test(the_first_phase_alone_says_the_same),
		cmocka_unit_test(in_thousands_of_problems_it_is_never_stuck),
		cmocka_unit_test(the_mirror_image_has_the_mirrored_answer),
		cmocka_unit_test(bends_in_the_ground_count_in_the_window),
		cmocka_unit_test(the_part_of_a_joint_that_a_window_reaches_into_counts_in_its_share),
		cmocka_unit_test(windows_that_reach_back_past_the_entry_count_what_there_is),
		cmocka_unit_test(figures_that_make_no_sense_are_refused_and_the_answer_is_left_alone),
		cmocka_unit_test(counts_that_make_no_sense_are_refused_too),
		cmocka_unit_test(one_joint_ends_on_the_line_only_if_it_leads_there),
	};

	return cmocka_run_group_tests_name(__FILE__, tests, make_work, free_work) == 0 ? 0 : 1;
}
