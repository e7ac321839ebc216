/* The steering solver against searches that know nothing of convexity: every order of a grid of slides and
 * tool faces in space, and points by chance that creep towards the least. No order inside the limits may cost
 * less than the solver's bound, the best found must come near it, and where the solver says that there is no
 * way, no point may come closer to one than it says.
 */
#include "geom/steer_problem.h"

#include <stdlib.h>

enum { SLIDES = 16, FACES = 24, MOST = 4 };

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

/* The turn that a slide at a tool face brings, droop and walk of the rest in it. */
static struct steer_pair turn_by(const struct steer_stage *s, double slid, double face)
{
	return (struct steer_pair){ s->yield * slid * cos(face) + (s->length - slid) * s->drift.up,
		s->yield * slid * sin(face) + (s->length - slid) * s->drift.right };
}

/* ---- every order of a grid ---- */

static void set_order(const struct steer_stage *s, int order, struct steer_step *step)
{
	int slide = order == 0 ? 0 : 1 + (order - 1) / FACES, face = order == 0 ? 0 : (order - 1) % FACES;

	step->slid = s->length * slide / SLIDES;
	step->turn = turn_by(s, step->slid, 2 * acos(-1) * face / FACES);
}

/* Returned: the least cost over all orders of two joints that keep the limits; HUGE_VAL when none does. */
static double least_on_grid(const struct steer_problem *p, struct steer_step *best)
{
	struct steer_step steps[STEER_STAGES] = { { .slid = 0 } };
	double least = HUGE_VAL;

	for (int first = 0; first <= SLIDES * FACES; first++) {
		set_order(&p->stages[0], first, &steps[0]);
		for (int second = 0; second <= SLIDES * FACES; second++) {
			set_order(&p->stages[1], second, &steps[1]);
			follow_turns(p, steps);
			double cost = cost_of_steps(p, steps);
			if (cost < least && worst_passed(p, steps) <= 0) {
				least = cost;
				memcpy(best, steps, 2 * sizeof *steps);
			}
		}
	}
	return least;
}

/* From a point inside the limits, by chance and ever closer, with the least slide that each turn needs. */
static double creep(const struct steer_problem *p, struct random *r, struct steer_step *steps, double size)
{
	double least = cost_of_steps(p, steps);
	struct steer_step tried[MOST];

	for (int n = 0; n < 4000; n++) {
		memcpy(tried, steps, p->count * sizeof *tried);
		for (size_t k = 0; k < p->count; k++) {
			struct steer_pair by = random_pair(r, size);
			tried[k].turn.up += by.up;
			tried[k].turn.right += by.right;
			tried[k].slid = least_slide(&p->stages[k], tried[k].turn);
		}
		follow_turns(p, tried);
		double cost = cost_of_steps(p, tried);
		if (cost < least && worst_passed(p, tried) <= 0) {
			least = cost;
			memcpy(steps, tried, p->count * sizeof *tried);
		} else if (n % 8 == 7) {
			size *= 0.985;
		}
	}
	return least;
}

/* Two joints that must come into a box, past a droop. */
static void grid_problem(struct random *r, struct steer_problem *p)
{
	plain_problem(p, 2, 10, 0.004, STEER_WINDOW);
	p->by_sum = random_unit(r) < 0.5;
	p->turn_weight = random_unit(r) < 0.5 ? 3000 : 1e-6;
	p->line_weight = random_unit(r) < 0.5 ? 1 : 1e-6;
	p->start = random_pair(r, 0.4);
	p->heading = random_pair(r, 0.02);
	struct steer_pair drift = random_pair(r, 0.0004), design = random_pair(r, 0.004);
	for (size_t k = 0; k < p->count; k++) {
		struct steer_stage *s = &p->stages[k];
		s->drift = drift;
		s->design = design;
		s->joint_limit = 0.034;
		s->window_limit = 0.055;
		s->window_from = (int)k - 1;
		s->up = s->down = s->left = s->right = 1;
	}
	p->past_count = 1;
	p->past[0] = random_pair(r, 0.01);
	p->end_up = p->end_down = 0.15;
	p->end_left = p->end_right = 0.25;
	p->end_at = random_pair(r, 0.2);
}

static void no_order_of_a_grid_is_cheaper_and_the_best_that_is_found_comes_near(void **state)
{
	struct steer_problem p;
	struct steer_answer a;
	struct steer_step best[STEER_STAGES];
	struct random r = { 20260101 };
	int compared = 0;

	(void)state;
	for (int n = 0; n < 8; n++) {
		grid_problem(&r, &p);
		enum steer_status status = sb_steer_solve(&p, work, &a);
		double least = least_on_grid(&p, best);
		if (status == STEER_INFEASIBLE) {
			assert_true(isinf(least));
			continue;
		}
		assert_int_equal(status, STEER_OPTIMAL);
		if (isinf(least))
			continue; /* the way is narrower than the grid */
		compared++;
		assert_true(least >= a.cost - a.gap);
		double crept = creep(&p, &r, best, 0.002);
		assert_true(crept >= a.cost - a.gap - 1e-9);
		assert_near(crept, a.cost, 0.02 + 0.01 * a.cost);
	}
	assert_true(compared >= 4);
}

/* ---- two equal arcs ---- */

/* The farthest from the line that a bore comes back from over so many joints, with nothing but the bend of
 * one joint in its way. */
static double farthest_offset(int count, double length, double radius)
{
	struct steer_problem p;
	struct steer_answer a;
	double low = 0, high = 20;

	plain_problem(&p, (size_t)count, length, 1, STEER_LINE);
	for (int k = 0; k < count; k++)
		p.stages[k].joint_limit = length / radius;
	for (int n = 0; n < 16; n++) {
		p.start.right = (low + high) / 2;
		*(sb_steer_feasible(&p, work, &a) == STEER_OPTIMAL ? &low : &high) = p.start.right;
	}
	return low;
}

/* Two equal arcs of radius R bring a bore from y beside its line back onto it and tangent to it over
 * s = 2 sqrt(R y - y^2 / 4). (Derived: plane geometry; figures to the nearest foot.) */
static void a_bore_comes_back_over_the_length_of_two_equal_arcs_and_over_no_less(void **state)
{
	static const struct {
		double radius, y, distance;
	} rows[] = { { 3600, 2, 170 }, { 3600, 5, 268 }, { 3600, 10, 379 }, { 1200, 2, 98 }, { 1200, 5, 155 },
		{ 1200, 10, 219 } };

	(void)state;
	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
		double distance = 2 * sqrt(rows[i].radius * rows[i].y - rows[i].y * rows[i].y / 4);
		assert_near(distance, rows[i].distance, 0.5);
		/* To first order in the headings, which takes a part in 4 R / y of the offset: 0.2 % at most.
		 * The way has to be a thousandth wide. */
		assert_near(farthest_offset(12, distance / 12, rows[i].radius), rows[i].y, 4e-3 * rows[i].y);
		assert_true(farthest_offset(8, distance / 10, rows[i].radius) < 0.65 * rows[i].y);
	}
}

/* ---- points by chance ---- */

/* On the line and tangent to it: the last two turns of an axis are what the others leave. */
static double close_axis(
	double length1, double length2, double gain1, double gain2, double at, double heading)
{
	/* at + L1 g1 (h + x) / 2 + L2 g2 x / 2 = 0, x the heading between the two */
	return -(at + length1 * gain1 * heading / 2) / (length1 * gain1 / 2 + length2 * gain2 / 2);
}

static void close_on_line(const struct steer_problem *p, struct steer_step *steps)
{
	size_t last = p->count - 1;
	const struct steer_stage *one = &p->stages[last - 1], *two = &p->stages[last];
	struct steer_pair h = p->heading, at = p->start;

	if (last >= 2) {
		h = steps[last - 2].heading;
		at = steps[last - 2].position;
	}
	struct steer_pair middle = { close_axis(one->length, two->length, one->gain.up, two->gain.up, at.up,
					     h.up),
		close_axis(one->length, two->length, one->gain.right, two->gain.right, at.right, h.right) };
	steps[last - 1].turn = (struct steer_pair){ middle.up - h.up + one->design.up,
		middle.right - h.right + one->design.right };
	steps[last].turn =
		(struct steer_pair){ two->design.up - middle.up, two->design.right - middle.right };
}

static double passed_by(const struct steer_problem *p, struct steer_step *steps)
{
	follow_turns(p, steps);
	if (p->end == STEER_LINE) {
		close_on_line(p, steps);
		follow_turns(p, steps);
	}
	for (size_t k = 0; k < p->count; k++)
		steps[k].slid = least_slide(&p->stages[k], steps[k].turn);
	return worst_passed(p, steps);
}

/* The least that limits are passed by, over points by chance around the best so far, ever closer. start:
 * where to begin. */
static double least_passed(
	const struct steer_problem *p, struct random *r, struct steer_step *best, double size)
{
	double least = passed_by(p, best);
	struct steer_step tried[MOST];

	for (int n = 0; n < 600; n++) {
		memcpy(tried, best, p->count * sizeof *tried);
		for (size_t k = 0; k < p->count; k++) {
			struct steer_pair by = random_pair(r, size);
			tried[k].turn.up += by.up;
			tried[k].turn.right += by.right;
		}
		double passed = passed_by(p, tried);
		if (passed < least) {
			least = passed;
			memcpy(best, tried, p->count * sizeof *tried);
		} else if (n % 8 == 7) {
			size *= 0.92;
		}
	}
	return least;
}

static void where_there_is_no_way_no_search_finds_one_and_none_comes_closer_than_is_said(void **state)
{
	struct steer_problem p;
	struct steer_answer a;
	int seen = 0;

	(void)state;
	for (uint64_t seed = 1; seen < 60; seed++) {
		struct random r = { seed * 6700417 };
		struct steer_step best[MOST] = { { .slid = 0 } }, answer[MOST];
		random_problem(&r, MOST, &p);
		if ((p.count == 1 && p.end == STEER_LINE) || sb_steer_solve(&p, work, &a) != STEER_INFEASIBLE)
			continue;
		seen++;
		double turn = p.stages[0].yield * p.stages[0].length;
		double found = least_passed(&p, &r, best, turn);
		assert_true(found > 0);
		assert_true(found >= 0.9 * a.short_by - 1e-6);
		/* And what the solver ended with does come so close: from there, every limit given that much.
		 */
		memcpy(answer, a.steps, sizeof answer);
		assert_true(passed_by(&p, answer) <= a.short_by * (1 + 1e-6) + 1e-5);
	}
}

static void where_there_is_a_way_no_search_finds_a_cheaper_one(void **state)
{
	struct steer_problem p;
	struct steer_answer a;
	int seen = 0;

	(void)state;
	for (uint64_t seed = 1; seen < 25; seed++) {
		struct random r = { seed * 998244353 };
		struct steer_step steps[MOST];
		random_problem(&r, MOST, &p);
		if (p.end == STEER_LINE || sb_steer_solve(&p, work, &a) != STEER_OPTIMAL)
			continue;
		seen++;
		memcpy(steps, a.steps, sizeof steps);
		assert_true(passed_by(&p, steps) <= 1e-5);
		double turn = p.stages[0].yield * p.stages[0].length;
		assert_true(creep(&p, &r, steps, 0.3 * turn) >= a.cost - a.gap - 1e-9 * (1 + a.cost));
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_bore_comes_back_over_the_length_of_two_equal_arcs_and_over_no_less),
		cmocka_unit_test(no_order_of_a_grid_is_cheaper_and_the_best_that_is_found_comes_near),
		cmocka_unit_test(
			where_there_is_no_way_no_search_finds_one_and_none_comes_closer_than_is_said),
		cmocka_unit_test(where_there_is_a_way_no_search_finds_a_cheaper_one),
	};

	return cmocka_run_group_tests_name(__FILE__, tests, make_work, free_work) == 0 ? 0 : 1;
}
