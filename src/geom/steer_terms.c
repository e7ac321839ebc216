/* The terms, joint by joint: what is asked of a joint's slide, its turn, the window that ends with it and the
 * place where it ends, each limit eased by the share t of itself; and what it costs.
 */
#include "geom/steer.h"

#include <math.h>
#include <string.h>

#include "steer_parts.h"

static const double least_ease =
	0.3; /* m: what a share of a corridor limit counts as at least, so that limits of 0 can give */
static const double least_heading = 0.005; /* rad: likewise of the heading at the end */
static const double low_t = -0.9;	   /* nobody needs more room than this */

static void slide_terms(struct sum *s, int k)
{
	struct steer_work *w = s->w;
	const struct steer_stage *g = &w->p->stages[k];
	struct row cone[3], rest;

	sb_steer_rows_begin(cone, 3);
	sb_steer_row_begin(&rest);
	sb_steer_row_add(&cone[0], k * SLOTS + SLID, g->yield);
	for (int axis = 0; axis < 2; axis++) {
		double drift = axis_of(g->drift, axis);
		sb_steer_row_turn(w, &cone[1 + axis], k, axis, 1);
		cone[1 + axis].rest -= g->length * drift;
		sb_steer_row_add(&cone[1 + axis], k * SLOTS + SLID, drift);
	}
	sb_steer_row_cone(s, cone, STEER_LIMIT_NONE, k);
	rest.rest = g->length;
	sb_steer_row_add(&rest, k * SLOTS + SLID, -1);
	sb_steer_row_add(&rest, T, g->length);
	sb_steer_row_log(s, &rest, STEER_LIMIT_SLIDE, k);
}

static void limit_ball(struct sum *s, struct row rows[3], double limit, enum steer_limit kind, int k)
{
	rows[0].rest = limit;
	sb_steer_row_add(&rows[0], T, limit);
	sb_steer_row_cone(s, rows, kind, k);
}

static void joint_terms(struct sum *s, int k)
{
	struct row rows[3];

	if (isinf(s->w->p->stages[k].joint_limit))
		return;
	sb_steer_rows_begin(rows, 3);
	for (int axis = 0; axis < 2; axis++)
		sb_steer_row_turn(s->w, &rows[1 + axis], k, axis, 1);
	limit_ball(s, rows, s->w->p->stages[k].joint_limit, STEER_LIMIT_JOINT, k);
}

static void window_by_ends(struct sum *s, int k)
{
	const struct steer_stage *g = &s->w->p->stages[k];
	struct row rows[3];

	sb_steer_rows_begin(rows, 3);
	for (int axis = 0; axis < 2; axis++) {
		sb_steer_row_turns(s->w, &rows[1 + axis], g->window_from, k, axis);
		if (g->window_part > 0)
			sb_steer_row_turn(s->w, &rows[1 + axis], g->window_from - 1, axis, g->window_part);
	}
	limit_ball(s, rows, g->window_limit, STEER_LIMIT_WINDOW, k);
}

static double past_size(const struct steer_problem *p, int k)
{
	size_t back = (size_t)(-1 - k);

	return back < p->past_count ? hypot(p->past[back].up, p->past[back].right) : 0;
}

static void window_by_sum(struct sum *s, int k)
{
	const struct steer_stage *g = &s->w->p->stages[k];
	struct row left;

	sb_steer_row_begin(&left);
	left.rest = g->window_limit;
	sb_steer_row_add(&left, T, g->window_limit);
	for (int j = g->window_part > 0 ? g->window_from - 1 : g->window_from; j <= k; j++) {
		double part = j < g->window_from ? g->window_part : 1;
		if (j < 0)
			left.rest -= part * past_size(s->w->p, j);
		else
			sb_steer_row_add(&left, j * SLOTS + SIZE, -part * radian);
	}
	sb_steer_row_log(s, &left, STEER_LIMIT_WINDOW, k);
}

/* The size of a turn, from below: no less than the turn. From above: no joint turns more than its whole
 * length slid with all of the drift, and a size that no window holds down must stop somewhere; that it is
 * twice as much takes nothing from any answer.
 */
static void size_terms(struct sum *s, int k)
{
	const struct steer_stage *g = &s->w->p->stages[k];
	double most = g->length * (g->yield + hypot(g->drift.up, g->drift.right));
	struct row rows[3], room;

	sb_steer_rows_begin(rows, 3);
	sb_steer_row_begin(&room);
	sb_steer_row_add(&rows[0], k * SLOTS + SIZE, radian);
	for (int axis = 0; axis < 2; axis++)
		sb_steer_row_turn(s->w, &rows[1 + axis], k, axis, 1);
	sb_steer_row_cone(s, rows, STEER_LIMIT_NONE, k);
	room.rest = 2 * most;
	sb_steer_row_add(&room, T, most);
	sb_steer_row_add(&room, k * SLOTS + SIZE, -radian);
	sb_steer_row_log(s, &room, STEER_LIMIT_NONE, k);
}

/* sign (p - from) <= limit (1 + t) */
static void side_term(
	struct sum *s, int k, int axis, double sign, double from, double limit, enum steer_limit kind)
{
	struct row left;

	if (isinf(limit))
		return;
	sb_steer_row_begin(&left);
	left.rest = sign * from + fmax(limit, 1e-6);
	sb_steer_row_add(&left, T, fmax(limit, least_ease));
	sb_steer_row_position(s->w, &left, k, axis, -sign);
	if (left.count == 1 && left.at[0] == T)
		return; /* nothing in it can move */
	sb_steer_row_log(s, &left, kind, k);
}

static void end_terms(struct sum *s, int k)
{
	const struct steer_problem *p = s->w->p;

	side_term(s, k, UP, 1, p->end_at.up, p->end_up, STEER_LIMIT_END);
	side_term(s, k, UP, -1, p->end_at.up, p->end_down, STEER_LIMIT_END);
	side_term(s, k, RIGHT, 1, p->end_at.right, p->end_right, STEER_LIMIT_END);
	side_term(s, k, RIGHT, -1, p->end_at.right, p->end_left, STEER_LIMIT_END);
	for (int side = 0; side < 4 && p->end == STEER_NEAR; side++) {
		double limit = axis_of(p->end_heading, side / 2);
		struct row left;
		sb_steer_row_begin(&left);
		left.rest = fmax(limit, 1e-6);
		sb_steer_row_add(&left, T, fmax(limit, least_heading));
		sb_steer_row_heading(s->w, &left, k, side / 2, side % 2 ? 1 : -1);
		sb_steer_row_log(s, &left, STEER_LIMIT_END, k);
	}
}

static void place_terms(struct sum *s, int k)
{
	const struct steer_problem *p = s->w->p;
	const struct steer_stage *g = &p->stages[k];

	side_term(s, k, UP, 1, 0, g->up, STEER_LIMIT_CORRIDOR);
	side_term(s, k, UP, -1, 0, g->down, STEER_LIMIT_CORRIDOR);
	side_term(s, k, RIGHT, 1, 0, g->right, STEER_LIMIT_CORRIDOR);
	side_term(s, k, RIGHT, -1, 0, g->left, STEER_LIMIT_CORRIDOR);
	for (size_t i = 0; i < g->plane_count; i++) {
		struct row left;
		sb_steer_row_begin(&left);
		left.rest = g->planes[i].b;
		sb_steer_row_add(&left, T, fmax(fabs(g->planes[i].b), least_ease));
		sb_steer_row_position(s->w, &left, k, UP, -g->planes[i].a.up);
		sb_steer_row_position(s->w, &left, k, RIGHT, -g->planes[i].a.right);
		if (left.count > 1)
			sb_steer_row_log(s, &left, STEER_LIMIT_PLANE, k);
	}
	if ((p->end == STEER_WINDOW || p->end == STEER_NEAR) && k == (int)p->count - 1)
		end_terms(s, k);
}

static void cost_terms(struct sum *s, int k)
{
	const struct steer_problem *p = s->w->p;
	struct row slid;

	sb_steer_row_begin(&slid);
	sb_steer_row_add(&slid, k * SLOTS + SLID, 1);
	sb_steer_row_linear(s, &slid, 1);
	for (int axis = 0; axis < 2; axis++) {
		struct row turn, off;
		sb_steer_row_begin(&turn);
		sb_steer_row_begin(&off);
		sb_steer_row_turn(s->w, &turn, k, axis, 1);
		turn.rest -= axis_of(p->stages[k].design, axis);
		sb_steer_row_square(s, &turn, 2 * p->turn_weight);
		sb_steer_row_position(s->w, &off, k, axis, 1);
		sb_steer_row_square(s, &off, 2 * p->line_weight);
	}
}

/* Where only t counts: a trace of what keeps every unknown tied down. */
static void regular_terms(struct sum *s, int k)
{
	for (int axis = 0; axis < 2; axis++) {
		struct row turn, off;
		sb_steer_row_begin(&turn);
		sb_steer_row_begin(&off);
		sb_steer_row_turn(s->w, &turn, k, axis, 1);
		sb_steer_row_square(s, &turn, 1e-3);
		sb_steer_row_position(s->w, &off, k, axis, 1);
		sb_steer_row_square(s, &off, 1e-7);
	}
}

struct sum sb_steer_terms_evaluate(struct steer_work *w, bool derivatives, bool barriers)
{
	bool with_cost = !w->easing || !barriers;
	struct sum s = { w, derivatives, true, 0 };
	struct row t;

	if (derivatives) {
		memset(w->gradient, 0, sizeof w->gradient);
		memset(w->border, 0, sizeof w->border);
		memset(w->pull, 0, sizeof w->pull);
		memset(w->pull_stage, 0, sizeof w->pull_stage);
		w->corner = 0;
		w->terms = 0;
		for (int i = 0; i < w->size; i++)
			memset(w->matrix[i], 0, (size_t)(w->band + 1) * sizeof(double));
	}
	for (int k = 0; k < (int)w->p->count && s.inside; k++) {
		if (with_cost)
			cost_terms(&s, k);
		else
			regular_terms(&s, k);
		if (!barriers)
			continue;
		slide_terms(&s, k);
		joint_terms(&s, k);
		if (!isinf(w->p->stages[k].window_limit))
			(w->p->by_sum ? window_by_sum : window_by_ends)(&s, k);
		if (w->p->by_sum)
			size_terms(&s, k);
		place_terms(&s, k);
	}
	if (!barriers || !s.inside || !w->easing)
		return s;
	sb_steer_row_begin(&t);
	sb_steer_row_add(&t, T, 1);
	sb_steer_row_linear(&s, &t, 1);
	t.rest = -low_t;
	sb_steer_row_log(&s, &t, STEER_LIMIT_NONE, 0);
	return s;
}
