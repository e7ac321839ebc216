/* Steering in a plane is a linear program: turns and slides along one axis, every limit a straight line. So
 * the barrier method is held against a simplex method, which shares nothing with it: what is least, whether
 * there is a way, and how much is missing.
 */
#include "geom/simplex.h"
#include "geom/steer_problem.h"

#include <stdlib.h>

/* Unknowns: turn up and turn down of each joint in hundredths of a radian, length slid, and t last. */
static const double unit = 0.01;
static struct lp lp;

struct line {
	double turn[STEER_STAGES], rest;
};

static void add_limit(const struct steer_problem *p, const struct line *l, double sign, double limit,
	double ease, bool eased)
{
	double *row = lp.a[lp.rows];

	if (isinf(limit))
		return;
	assert_true(lp.rows < LP_ROWS);
	memset(row, 0, sizeof lp.a[0]);
	for (size_t k = 0; k < p->count; k++) {
		row[2 * k] = sign * l->turn[k] * unit;
		row[2 * k + 1] = -row[2 * k];
	}
	row[3 * p->count] = eased ? -ease : 0;
	lp.b[lp.rows++] = limit - sign * l->rest;
}

static struct line heading_at(const struct steer_problem *p, int k)
{
	struct line l = { .rest = p->heading.up };

	for (int j = 0; j <= k; j++) {
		l.turn[j] = 1;
		l.rest -= p->stages[j].design.up;
	}
	return l;
}

static struct line place_at(const struct steer_problem *p, int k)
{
	struct line l = { .rest = p->start.up };

	for (int j = 0; j <= k; j++) {
		double half = p->stages[j].length * p->stages[j].gain.up / 2;
		struct line from = heading_at(p, j - 1), to = heading_at(p, j);
		for (int i = 0; i <= j; i++)
			l.turn[i] += half * (from.turn[i] + to.turn[i]);
		l.rest += half * (from.rest + to.rest);
	}
	return l;
}

static void add_slide(const struct steer_problem *p, int k, bool eased)
{
	const struct steer_stage *s = &p->stages[k];
	struct line n = { .turn = { 0 }, .rest = -s->length * s->drift.up }, none = { .rest = 0 };
	size_t slid = 2 * p->count + (size_t)k;

	n.turn[k] = 1;
	for (int sign = -1; sign <= 1; sign += 2) { /* sign (n - (L - s) d) <= y s */
		add_limit(p, &n, sign, 0, 0, false);
		lp.a[lp.rows - 1][slid] = sign * s->drift.up - s->yield;
	}
	add_limit(p, &none, 1, s->length, s->length, eased);
	lp.a[lp.rows - 1][slid] = 1;
}

static void add_window(const struct steer_problem *p, int k, bool eased)
{
	const struct steer_stage *s = &p->stages[k];
	struct line l = { .rest = 0 };
	double past = 0;

	for (int j = s->window_from - 1; j <= k; j++) {
		double share = j < s->window_from ? s->window_part : 1;
		if (j >= 0)
			l.turn[j] = share;
		else if ((size_t)(-1 - j) < p->past_count) {
			l.rest += share * p->past[-1 - j].up;
			past += share * fabs(p->past[-1 - j].up);
		}
	}
	if (p->by_sum)
		l.rest = past;
	add_limit(p, &l, 1, s->window_limit, s->window_limit, eased);
	if (p->by_sum) /* what is turned up and what is turned down both count */
		for (size_t j = 0; !isinf(s->window_limit) && j < p->count; j++)
			lp.a[lp.rows - 1][2 * j + 1] = lp.a[lp.rows - 1][2 * j];
	else
		add_limit(p, &l, -1, s->window_limit, s->window_limit, eased);
}

static void add_box(const struct steer_problem *p, const struct line *at, double up, double down, bool eased)
{
	/* What is eased counts as 0.3 m at least, and no limit is less than a micrometre: as the header says.
	 */
	add_limit(p, at, 1, fmax(up, 1e-6), fmax(up, 0.3), eased);
	add_limit(p, at, -1, fmax(down, 1e-6), fmax(down, 0.3), eased);
}

/* eased: what is least is t; else the length slid, and t is left out. */
static bool solve_linear(const struct steer_problem *p, bool eased)
{
	int last = (int)p->count - 1;

	memset(&lp, 0, sizeof lp);
	lp.columns = (int)(3 * p->count + 1);
	for (int k = 0; k <= last; k++) {
		const struct steer_stage *s = &p->stages[k];
		struct line turn = { .rest = 0 }, at = place_at(p, k);
		turn.turn[k] = 1;
		add_slide(p, k, eased);
		add_limit(p, &turn, 1, s->joint_limit, s->joint_limit, eased);
		add_limit(p, &turn, -1, s->joint_limit, s->joint_limit, eased);
		if (!isinf(s->window_limit))
			add_window(p, k, eased);
		if (p->end != STEER_LINE || k < last)
			add_box(p, &at, s->up, s->down, eased);
		lp.c[2 * p->count + (size_t)k] = eased ? 0 : 1;
	}
	lp.c[3 * p->count] = eased ? 1 : 0;
	struct line at = place_at(p, last), heading = heading_at(p, last);
	struct line in_box = at;
	in_box.rest -= p->end_at.up;
	if (p->end == STEER_WINDOW || p->end == STEER_NEAR)
		add_box(p, &in_box, p->end_up, p->end_down, eased);
	double most = p->end_heading.up;
	for (int sign = -1; p->end == STEER_NEAR && sign <= 1; sign += 2)
		add_limit(p, &heading, sign, fmax(most, 1e-6), fmax(most, 0.005), eased);
	for (int sign = -1; p->end == STEER_LINE && sign <= 1; sign += 2) {
		add_limit(p, &at, sign, 0, 0, false);
		add_limit(p, &heading, sign, 0, 0, false);
	}
	return lp_solve(&lp);
}

/* A problem by chance that has only its upward axis. */
static void planar_problem(uint64_t seed, struct steer_problem *p)
{
	struct random r = { seed };

	random_problem(&r, 10, p);
	p->turn_weight = p->line_weight = 1e-6;
	p->start.right = p->heading.right = p->end_at.right = 0;
	p->end_left = p->end_right = HUGE_VAL;
	for (size_t i = 0; i < p->past_count; i++)
		p->past[i].right = 0;
	for (size_t k = 0; k < p->count; k++) {
		struct steer_stage *s = &p->stages[k];
		s->design.right = s->drift.right = 0;
		s->left = s->right = HUGE_VAL;
		s->plane_count = 0;
	}
}

/* The steps of the linear answer. */
static void follow_linear(const struct steer_problem *p, struct steer_step *steps)
{
	memset(steps, 0, STEER_STAGES * sizeof *steps);
	for (size_t k = 0; k < p->count; k++) {
		steps[k].turn.up = (lp.x[2 * k] - lp.x[2 * k + 1]) * unit;
		steps[k].slid = lp.x[2 * p->count + k];
	}
	follow_turns(p, steps);
}

/* Lengths slid are compared both ways: the simplex method knows nothing of the small weights on turning and
 * on distance, so its least is no more than what the answer slides; and what its own steps cost with those
 * weights is no less than the answer's bound. */
static void compare_least(const struct steer_problem *p, const struct steer_answer *a)
{
	struct steer_step steps[STEER_STAGES];
	double slid = 0, reach = 0;

	assert_true(solve_linear(p, false));
	follow_linear(p, steps);
	for (size_t k = 0; k < p->count; k++) {
		slid += a->steps[k].slid;
		reach += p->stages[k].length;
	}
	double slack = 1e-6 * (1 + a->cost);
	assert_true(lp.value <= slid + slack);
	assert_true(cost_of_steps(p, steps) >= a->cost - a->gap - slack);
	assert_true(a->gap <= 1.3e-4 * reach); /* and the bound is worth something */
}

static void the_least_and_what_is_missing_are_what_a_simplex_method_finds(void **state)
{
	struct steer_problem p;
	struct steer_answer a;
	void *work = malloc(sb_steer_work_size());
	int optimal = 0, infeasible = 0;

	(void)state;
	for (uint64_t seed = 1; seed <= 500; seed++) {
		planar_problem(seed * 7907, &p);
		if (p.count == 1 && p.end == STEER_LINE)
			continue;
		enum steer_status status = sb_steer_solve(&p, work, &a);
		assert_true(status == STEER_OPTIMAL || status == STEER_INFEASIBLE);
		assert_true(solve_linear(&p, true));
		double t = lp.value;
		if (status == STEER_INFEASIBLE) {
			infeasible++;
			assert_true(a.short_by >= t * (1 - 1e-5) - 1e-6);
			assert_true(t >= 0.9 * a.short_by - 1e-6);
			continue;
		}
		optimal++;
		assert_near(t, 0, 1e-6);
		compare_least(&p, &a);
	}
	assert_true(optimal > 200 && infeasible > 80);
	free(work);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_least_and_what_is_missing_are_what_a_simplex_method_finds),
	};

	return run_tests(tests);
}
