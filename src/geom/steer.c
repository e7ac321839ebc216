/* Steering as a convex problem, by a barrier method.
 *
 * One problem answers both questions. Every limit is eased by a share t >= 0 of itself, and t costs so much
 * that it is nothing wherever it can be: then the answer is the least sliding inside every limit. Where t
 * stays above nothing there is no such answer, t is how much the limits are short by, and what pulls on t
 * says which limit it is. A strictly feasible start is always at hand: the gentlest line that meets the ends,
 * and t large enough for it.
 *
 * Unknowns, joint by joint: heading off the design (2, in hundredths of a radian), position (2), length slid,
 * the size of the turn when windows go by the sum, and two multipliers that tie positions to headings. Every
 * barrier term reaches over one joint, or over one window, so Newton's matrix is banded when joints are
 * interleaved; t is a border of one row. Source: Boyd and Vandenberghe, Convex Optimization
 * (2004), 9.5, 10.2, 11.2-11.3.
 */
#include "geom/steer.h"

#include <math.h>
#include <string.h>

enum { SLOTS = 8, UP = 0, RIGHT = 1, POSITION = 2, SLID = 4, SIZE = 5, TIE = 6 };
enum { MOST = STEER_STAGES * SLOTS, T = MOST, NOWHERE = -1 };
enum { ROW = 2 * STEER_STAGES + 8, KINDS = STEER_LIMIT_END + 1 };

static const double radian = 0.01; /* of the heading unknowns */
static const double least_ease =
	0.3; /* m: what a share of a corridor limit counts as at least, so that limits of 0 can give */
static const double low_t = -0.9; /* nobody needs more room than this */
static const double grow = 40, accuracy = 1e-4, enough_room = 1e-3;
static const double tie_slack = 1e-11; /* keeps the factorisation regular; taken out again by refinement */

/* A linear expression of the unknowns. */
struct row {
	int count;
	int at[ROW];
	double by[ROW];
	double rest;
};

struct steer_work {
	const struct steer_problem *p;
	int size, band;
	bool line;   /* ends on the line: the last heading and position are nothing */
	bool easing; /* looking for a way at all: only t counts; else t is 0 and stays there */
	double theta;
	double x[MOST + 1];
	double gradient[MOST + 1], step[MOST + 1], residual[MOST], border[MOST], side[MOST];
	double corner;	    /* of the border */
	double pull[KINDS]; /* what each kind of limit adds to the gradient of t */
	double pull_stage[KINDS][STEER_STAGES];
	int terms;		   /* barrier parameter: the gap is this over theta */
	double factor[MOST][MOST]; /* lower band of the matrix: factor[i][j - i + band] */
	double matrix[MOST][MOST];
};

size_t sb_steer_work_size(void)
{
	return sizeof(struct steer_work);
}

/* ---- expressions ---- */

static void add(struct row *r, int at, double by)
{
	if (at == NOWHERE || by == 0)
		return;
	for (int i = 0; i < r->count; i++)
		if (r->at[i] == at) {
			r->by[i] += by;
			return;
		}
	r->at[r->count] = at;
	r->by[r->count++] = by;
}

static double axis_of(struct steer_pair v, int axis)
{
	return axis == UP ? v.up : v.right;
}

/* Heading off the design at the end of joint k (-1: the start). */
static void add_heading(const struct steer_work *w, struct row *r, int k, int axis, double by)
{
	if (k < 0)
		r->rest += by * axis_of(w->p->heading, axis);
	else if (!(w->line && k == (int)w->p->count - 1))
		add(r, k * SLOTS + axis, by * radian);
}

static void add_position(const struct steer_work *w, struct row *r, int k, int axis, double by)
{
	if (k < 0)
		r->rest += by * axis_of(w->p->start, axis);
	else if (!(w->line && k == (int)w->p->count - 1))
		add(r, k * SLOTS + POSITION + axis, by);
}

/* The turn over joint k, planned or past. */
static void add_turn(const struct steer_work *w, struct row *r, int k, int axis, double by)
{
	if (k < 0) {
		size_t back = (size_t)(-1 - k);
		if (back < w->p->past_count)
			r->rest += by * axis_of(w->p->past[back], axis);
		return;
	}
	add_heading(w, r, k, axis, by);
	add_heading(w, r, k - 1, axis, -by);
	r->rest += by * axis_of(w->p->stages[k].design, axis);
}

static double value(const struct steer_work *w, const struct row *r)
{
	double sum = r->rest;

	for (int i = 0; i < r->count; i++)
		sum += r->by[i] * w->x[r->at[i]];
	return sum;
}

/* ---- gathering gradient and matrix ---- */

static void add_entry(struct steer_work *w, int i, int j, double v)
{
	if (i == T && j == T) {
		w->corner += v;
	} else if (i == T || j == T) {
		if (j == T)
			w->border[i] += v; /* each pair comes twice; once is kept */
	} else if (j <= i) {
		w->matrix[i][j - i + w->band] += v;
	}
}

static void add_outer(struct steer_work *w, const struct row *a, const struct row *b, double v)
{
	if (v == 0)
		return;
	for (int i = 0; i < a->count; i++)
		for (int j = 0; j < b->count; j++)
			add_entry(w, a->at[i], b->at[j], v * a->by[i] * b->by[j]);
}

static void add_slope(struct steer_work *w, const struct row *r, double v)
{
	for (int i = 0; i < r->count; i++)
		w->gradient[r->at[i]] += v * r->by[i];
}

static void note_pull(struct steer_work *w, const struct row *r, double v, enum steer_limit kind, int stage)
{
	for (int i = 0; i < r->count; i++)
		if (r->at[i] == T) {
			w->pull[kind] -= v * r->by[i];
			w->pull_stage[kind][stage] -= v * r->by[i];
		}
}

/* What is asked of the terms: their value alone, or all there is. */
struct sum {
	struct steer_work *w;
	bool derivatives;
	bool inside; /* no barrier was crossed */
	double total;
};

/* theta/2 weight r^2 */
static void square_term(struct sum *s, const struct row *r, double weight)
{
	double v = value(s->w, r), k = s->w->theta * weight;

	s->total += k * v * v / 2;
	if (s->derivatives) {
		add_slope(s->w, r, k * v);
		add_outer(s->w, r, r, k);
	}
}

static void linear_term(struct sum *s, const struct row *r, double weight)
{
	s->total += s->w->theta * weight * value(s->w, r);
	if (s->derivatives)
		add_slope(s->w, r, s->w->theta * weight);
}

/* -log r: r stays above nothing. */
static void log_term(struct sum *s, const struct row *r, enum steer_limit kind, int stage)
{
	double v = value(s->w, r);

	if (!(v > 0)) {
		s->inside = false;
		return;
	}
	s->total -= log(v);
	if (!s->derivatives)
		return;
	s->w->terms++;
	add_slope(s->w, r, -1 / v);
	add_outer(s->w, r, r, 1 / (v * v));
	note_pull(s->w, r, -1 / v, kind, stage);
}

/* -log (a^2 - b^2 - c^2): the pair (b, c) stays shorter than a. */
static void cone_term(struct sum *s, const struct row rows[3], enum steer_limit kind, int stage)
{
	double v[3], g[3];

	for (int i = 0; i < 3; i++)
		v[i] = value(s->w, &rows[i]);
	double room = (v[0] - hypot(v[1], v[2])) * (v[0] + hypot(v[1], v[2]));
	if (!(v[0] > 0 && room > 0)) {
		s->inside = false;
		return;
	}
	s->total -= log(room);
	if (!s->derivatives)
		return;
	s->w->terms += 2;
	for (int i = 0; i < 3; i++)
		g[i] = (i == 0 ? -2 : 2) * v[i] / room;
	for (int i = 0; i < 3; i++) {
		add_slope(s->w, &rows[i], g[i]);
		for (int j = 0; j < 3; j++)
			add_outer(s->w, &rows[i], &rows[j],
				g[i] * g[j] +
					(i != j			 ? 0
							: i == 0 ? -2 / room
								 : 2 / room));
	}
	note_pull(s->w, &rows[0], g[0], kind, stage);
}

/* ---- the terms of a joint ---- */

static void slide_terms(struct sum *s, int k)
{
	struct steer_work *w = s->w;
	const struct steer_stage *g = &w->p->stages[k];
	struct row cone[3] = { { 0 } }, rest = { 0 };

	add(&cone[0], k * SLOTS + SLID, g->yield);
	for (int axis = 0; axis < 2; axis++) {
		double drift = axis_of(g->drift, axis);
		add_turn(w, &cone[1 + axis], k, axis, 1);
		cone[1 + axis].rest -= g->length * drift;
		add(&cone[1 + axis], k * SLOTS + SLID, drift);
	}
	cone_term(s, cone, STEER_LIMIT_NONE, k);
	rest.rest = g->length;
	add(&rest, k * SLOTS + SLID, -1);
	add(&rest, T, g->length);
	log_term(s, &rest, STEER_LIMIT_SLIDE, k);
}

static void limit_ball(struct sum *s, struct row rows[3], double limit, enum steer_limit kind, int k)
{
	rows[0].rest = limit;
	add(&rows[0], T, limit);
	cone_term(s, rows, kind, k);
}

static void joint_terms(struct sum *s, int k)
{
	struct row rows[3] = { { 0 } };

	if (isinf(s->w->p->stages[k].joint_limit))
		return;
	for (int axis = 0; axis < 2; axis++)
		add_turn(s->w, &rows[1 + axis], k, axis, 1);
	limit_ball(s, rows, s->w->p->stages[k].joint_limit, STEER_LIMIT_JOINT, k);
}

static void window_by_ends(struct sum *s, int k)
{
	const struct steer_stage *g = &s->w->p->stages[k];
	struct row rows[3] = { { 0 } };

	for (int axis = 0; axis < 2; axis++) {
		for (int j = g->window_from; j <= k; j++)
			add_turn(s->w, &rows[1 + axis], j, axis, 1);
		if (g->window_part > 0)
			add_turn(s->w, &rows[1 + axis], g->window_from - 1, axis, g->window_part);
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
	struct row left = { 0 };

	left.rest = g->window_limit;
	add(&left, T, g->window_limit);
	for (int j = g->window_part > 0 ? g->window_from - 1 : g->window_from; j <= k; j++) {
		double part = j < g->window_from ? g->window_part : 1;
		if (j < 0)
			left.rest -= part * past_size(s->w->p, j);
		else
			add(&left, j * SLOTS + SIZE, -part * radian);
	}
	log_term(s, &left, STEER_LIMIT_WINDOW, k);
}

static void size_terms(struct sum *s, int k)
{
	struct row rows[3] = { { 0 } };

	add(&rows[0], k * SLOTS + SIZE, radian);
	for (int axis = 0; axis < 2; axis++)
		add_turn(s->w, &rows[1 + axis], k, axis, 1);
	cone_term(s, rows, STEER_LIMIT_NONE, k);
}

/* sign p <= limit (1 + t) */
static void side_term(struct sum *s, int k, int axis, double sign, double limit, enum steer_limit kind)
{
	struct row left = { 0 };

	if (isinf(limit))
		return;
	left.rest = fmax(limit, 1e-6);
	add(&left, T, fmax(limit, least_ease));
	add_position(s->w, &left, k, axis, -sign);
	if (left.count == 1 && left.at[0] == T)
		return; /* nothing in it can move */
	log_term(s, &left, kind, k);
}

static void place_terms(struct sum *s, int k)
{
	const struct steer_problem *p = s->w->p;
	const struct steer_stage *g = &p->stages[k];

	side_term(s, k, UP, 1, g->up, STEER_LIMIT_CORRIDOR);
	side_term(s, k, UP, -1, g->down, STEER_LIMIT_CORRIDOR);
	side_term(s, k, RIGHT, 1, g->right, STEER_LIMIT_CORRIDOR);
	side_term(s, k, RIGHT, -1, g->left, STEER_LIMIT_CORRIDOR);
	for (size_t i = 0; i < g->plane_count; i++) {
		struct row left = { 0 };
		left.rest = g->planes[i].b;
		add(&left, T, fmax(fabs(g->planes[i].b), least_ease));
		add_position(s->w, &left, k, UP, -g->planes[i].a.up);
		add_position(s->w, &left, k, RIGHT, -g->planes[i].a.right);
		if (left.count > 1)
			log_term(s, &left, STEER_LIMIT_PLANE, k);
	}
	if (p->end == STEER_WINDOW && k == (int)p->count - 1) {
		side_term(s, k, UP, 1, p->end_up, STEER_LIMIT_END);
		side_term(s, k, UP, -1, p->end_down, STEER_LIMIT_END);
		side_term(s, k, RIGHT, 1, p->end_right, STEER_LIMIT_END);
		side_term(s, k, RIGHT, -1, p->end_left, STEER_LIMIT_END);
	}
}

static void cost_terms(struct sum *s, int k)
{
	const struct steer_problem *p = s->w->p;
	struct row slid = { 0 };

	add(&slid, k * SLOTS + SLID, 1);
	linear_term(s, &slid, 1);
	for (int axis = 0; axis < 2; axis++) {
		struct row turn = { 0 }, off = { 0 };
		add_turn(s->w, &turn, k, axis, 1);
		turn.rest -= axis_of(p->stages[k].design, axis);
		square_term(s, &turn, 2 * p->turn_weight);
		add_position(s->w, &off, k, axis, 1);
		square_term(s, &off, 2 * p->line_weight);
	}
}

/* Where only t counts: a trace of what keeps every unknown tied down. */
static void regular_terms(struct sum *s, int k)
{
	for (int axis = 0; axis < 2; axis++) {
		struct row turn = { 0 }, off = { 0 };
		add_turn(s->w, &turn, k, axis, 1);
		square_term(s, &turn, 1e-3);
		add_position(s->w, &off, k, axis, 1);
		square_term(s, &off, 1e-7);
	}
}

/* All terms. barriers: false for the start, which knows no limits. */
static struct sum evaluate(struct steer_work *w, bool derivatives, bool barriers)
{
	bool with_cost = !w->easing || !barriers;
	struct sum s = { w, derivatives, true, 0 };
	struct row t = { 0 };

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
		if (w->p->by_sum) { /* nothing else holds a size down where no window does */
			struct row size = { 0 };
			add(&size, k * SLOTS + SIZE, 1);
			linear_term(&s, &size, 1e-4);
		}
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
	add(&t, T, 1);
	linear_term(&s, &t, 1);
	t.rest = -low_t;
	log_term(&s, &t, STEER_LIMIT_NONE, 0);
	return s;
}

/* ---- Newton's step ---- */

/* Positions tied to headings, as rows of the multipliers; unknowns that are not used stay where they are. */
static void add_ties(struct steer_work *w)
{
	int last = (int)w->p->count - 1;

	for (int k = 0; k <= last; k++) {
		const struct steer_stage *g = &w->p->stages[k];
		for (int axis = 0; axis < 2; axis++) {
			int me = k * SLOTS + TIE + axis;
			double half = g->length * axis_of(g->gain, axis) / 2;
			struct row tie = { 0 };
			add_position(w, &tie, k, axis, 1);
			add_position(w, &tie, k - 1, axis, -1);
			add_heading(w, &tie, k, axis, -half);
			add_heading(w, &tie, k - 1, axis, -half);
			for (int i = 0; i < tie.count; i++) {
				if (tie.at[i] <= me)
					w->matrix[me][tie.at[i] - me + w->band] += tie.by[i];
				else
					w->matrix[tie.at[i]][me - tie.at[i] + w->band] += tie.by[i];
			}
			w->matrix[me][w->band] -= tie_slack;
			w->residual[me] = value(w, &tie);
		}
		if (!w->p->by_sum)
			w->matrix[k * SLOTS + SIZE][w->band] += 1;
	}
	for (int i = 0; w->line && i < 4; i++)
		w->matrix[last * SLOTS + i][w->band] += 1;
}

/* Four sums at a time: the additions need not wait for one another. */
static double dot(const double *a, const double *b, int n)
{
	double s0 = 0, s1 = 0, s2 = 0, s3 = 0;
	int i = 0;

	for (; i + 3 < n; i += 4) {
		s0 += a[i] * b[i];
		s1 += a[i + 1] * b[i + 1];
		s2 += a[i + 2] * b[i + 2];
		s3 += a[i + 3] * b[i + 3];
	}
	for (; i < n; i++)
		s0 += a[i] * b[i];
	return (s0 + s1) + (s2 + s3);
}

/* L D L' in place: the band of L below, D on the diagonal. The matrix is quasi-definite, so no pivoting is
 * needed. */
static bool factorise(struct steer_work *w)
{
	int b = w->band;

	for (int i = 0; i < w->size; i++) {
		int first = i > b ? i - b : 0;
		double *row = w->factor[i];
		memcpy(row, w->matrix[i], (size_t)(b + 1) * sizeof(double));
		for (int j = first; j < i; j++) {
			const double *other = w->factor[j];
			int from = j > b ? j - b : 0;
			from = from > first ? from : first;
			row[j - i + b] -= dot(
				&row[from - i + b], &other[from - j + b], j - from); /* L_ij D_j for now */
		}
		double d = row[b];
		for (int j = first; j < i; j++) {
			double scaled = row[j - i + b];
			row[j - i + b] = scaled / w->factor[j][b];
			d -= scaled * row[j - i + b];
		}
		if (!(fabs(d) > 1e-300) || !isfinite(d))
			return false;
		row[b] = d;
	}
	return true;
}

static void back_solve(const struct steer_work *w, double *x)
{
	int b = w->band;

	for (int i = 0; i < w->size; i++) {
		int first = i > b ? i - b : 0;
		x[i] -= dot(&w->factor[i][first - i + b], &x[first], i - first);
	}
	for (int i = 0; i < w->size; i++)
		x[i] /= w->factor[i][b];
	for (int i = w->size - 1; i >= 0; i--)
		for (int j = i > b ? i - b : 0; j < i; j++)
			x[j] -= w->factor[i][j - i + b] * x[i];
}

/* y = matrix x, without the slack that the ties were given. */
static void multiply(const struct steer_work *w, const double *x, double *y)
{
	int b = w->band;

	for (int i = 0; i < w->size; i++)
		y[i] = 0;
	for (int i = 0; i < w->size; i++) {
		for (int j = i > b ? i - b : 0; j < i; j++) {
			y[i] += w->matrix[i][j - i + b] * x[j];
			y[j] += w->matrix[i][j - i + b] * x[i];
		}
		double slack = i % SLOTS >= TIE ? tie_slack : 0;
		y[i] += (w->matrix[i][b] + slack) * x[i];
	}
}

static void solve_refined(struct steer_work *w, const double *right, double *x)
{
	static const int rounds = 1;
	double product[MOST] = { 0 }, correction[MOST];

	memcpy(x, right, (size_t)w->size * sizeof *x);
	back_solve(w, x);
	for (int n = 0; n < rounds; n++) {
		multiply(w, x, product);
		for (int i = 0; i < w->size; i++)
			correction[i] = right[i] - product[i];
		back_solve(w, correction);
		for (int i = 0; i < w->size; i++)
			x[i] += correction[i];
	}
}

/* The step of all unknowns. move_t: false keeps t. Returned: Newton's decrement squared; negative when it
 * failed. */
static double newton(struct steer_work *w, bool move_t)
{
	double right[MOST], with_t[MOST] = { 0 }, dt = 0;

	memset(w->residual, 0, sizeof w->residual);
	add_ties(w);
	if (!factorise(w))
		return -1;
	for (int i = 0; i < w->size; i++)
		right[i] = i % SLOTS >= TIE ? -w->residual[i] : -w->gradient[i];
	for (int k = 0; k < (int)w->p->count; k++) /* the multipliers start from nothing at each step */
		w->x[k * SLOTS + TIE] = w->x[k * SLOTS + TIE + 1] = 0;
	solve_refined(w, right, w->step);
	if (move_t) {
		solve_refined(w, w->border, with_t);
		double top = -w->gradient[T], bottom = w->corner;
		for (int i = 0; i < w->size; i++) {
			top -= w->border[i] * w->step[i];
			bottom -= w->border[i] * with_t[i];
		}
		dt = top / bottom;
		for (int i = 0; i < w->size; i++)
			w->step[i] -= dt * with_t[i];
	}
	w->step[T] = dt;
	double decrement = -w->gradient[T] * dt;
	for (int i = 0; i < w->size; i++)
		if (i % SLOTS < TIE)
			decrement -= w->gradient[i] * w->step[i];
	return isfinite(decrement) ? decrement : -1;
}

static void move(struct steer_work *w, const double *from, double share)
{
	for (int i = 0; i < w->size; i++)
		if (i % SLOTS < TIE)
			w->x[i] = from[i] + share * w->step[i];
	w->x[T] = from[T] + share * w->step[T];
}

/* Newton to the centre for this theta. Returned: iterations; negative when it got stuck. stop_below: ends as
 * soon as t is. */
static int centre(struct steer_work *w, double stop_below, double close_enough)
{
	double from[MOST + 1];

	for (int n = 1; n <= 300; n++) {
		struct sum here = evaluate(w, true, true);
		double decrement = newton(w, w->easing);
		if (!here.inside)
			return -1;
		if (decrement < 0) /* rounding, where it is as good as there */
			return fabs(decrement) < 0.05 && n > 3 ? n : -1;
		if (decrement < close_enough + 1e-10 * fabs(here.total))
			return n;
		memcpy(from, w->x, sizeof from);
		double share = 1;
		for (;; share /= 2) {
			if (share < 1e-9) {
				memcpy(w->x, from, sizeof from);
				return decrement < 0.05 ? n : -1;
			}
			move(w, from, share);
			struct sum there = evaluate(w, false, true);
			if (there.inside &&
				there.total <=
					here.total - 0.1 * share * decrement + 1e-12 * fabs(here.total))
				break;
		}
		if (w->easing && w->x[T] < stop_below)
			return n;
	}
	return -1;
}

/* ---- start, answer ---- */

static bool sound(const struct steer_problem *p)
{
	bool good = p->count >= 1 && p->count <= STEER_STAGES && p->past_count <= STEER_PAST &&
		p->turn_weight > 0 && p->line_weight > 0;

	good = good && isfinite(p->start.up + p->start.right + p->heading.up + p->heading.right);
	for (size_t k = 0; good && k < p->count; k++) {
		const struct steer_stage *s = &p->stages[k];
		good = s->length > 0 && s->yield > 0 &&
			isfinite(s->length + s->yield + s->design.up + s->design.right + s->drift.up +
				s->drift.right) &&
			s->joint_limit > 0 && s->window_limit > 0 && s->up >= 0 && s->down >= 0 &&
			s->left >= 0 && s->right >= 0 && s->window_from <= (int)k &&
			s->window_from >= -STEER_PAST && s->window_part >= 0 && s->window_part <= 1 &&
			s->plane_count <= 2;
	}
	return good;
}

static void set_band(struct steer_work *w)
{
	int reach = 1;

	for (int k = 0; k < (int)w->p->count; k++) {
		const struct steer_stage *s = &w->p->stages[k];
		if (isinf(s->window_limit))
			continue;
		int from = s->window_from - 1 - (s->window_part > 0);
		int far = k - (from < 0 ? 0 : from);
		reach = far > reach ? far : reach;
	}
	w->size = (int)w->p->count * SLOTS;
	w->band = reach * SLOTS + SLOTS - 1;
	if (w->band > w->size - 1)
		w->band = w->size - 1;
}

static struct steer_pair turn_of(const struct steer_work *w, int k)
{
	struct row rows[2] = { { 0 } };

	for (int axis = 0; axis < 2; axis++)
		add_turn(w, &rows[axis], k, axis, 1);
	return (struct steer_pair){ value(w, &rows[0]), value(w, &rows[1]) };
}

/* The gentlest line that meets the ends, slides to match with room to spare, and t to let all of it pass. */
static bool start(struct steer_work *w)
{
	memset(w->x, 0, sizeof w->x);
	w->theta = 1;
	evaluate(w, true, false);
	for (int k = 0; k < (int)w->p->count; k++) { /* slides and sizes have no say in it */
		w->matrix[k * SLOTS + SLID][w->band] += 1;
		if (w->p->by_sum)
			w->matrix[k * SLOTS + SIZE][w->band] += 1;
	}
	if (newton(w, false) < 0)
		return false;
	double from[MOST + 1];
	memcpy(from, w->x, sizeof from);
	move(w, from, 1);
	for (int k = 0; k < (int)w->p->count; k++) {
		const struct steer_stage *s = &w->p->stages[k];
		struct steer_pair n = turn_of(w, k);
		double drift = hypot(s->drift.up, s->drift.right),
		       rest = hypot(n.up - s->length * s->drift.up, n.right - s->length * s->drift.right);
		double slid = drift < 0.9 * s->yield ? rest / (s->yield - drift) : 10 * rest / s->yield;
		w->x[k * SLOTS + SLID] = 1.2 * slid + 0.1 * s->length;
		if (w->p->by_sum)
			w->x[k * SLOTS + SIZE] = (1.2 * hypot(n.up, n.right) + 1e-3) / radian;
	}
	for (double t = 0.5; t < 1e7; t *= 2) {
		w->x[T] = t;
		if (evaluate(w, false, true).inside)
			return true;
	}
	return false;
}

static void write_steps(const struct steer_work *w, struct steer_answer *a)
{
	const struct steer_problem *p = w->p;
	struct steer_pair h = p->heading, at = p->start;

	for (int k = 0; k < (int)p->count; k++) {
		const struct steer_stage *s = &p->stages[k];
		struct steer_step *out = &a->steps[k];
		bool end = w->line && k == (int)p->count - 1;
		struct steer_pair next = { end ? 0 : w->x[k * SLOTS + UP] * radian,
			end ? 0 : w->x[k * SLOTS + RIGHT] * radian };
		out->turn = (struct steer_pair){ next.up - h.up + s->design.up,
			next.right - h.right + s->design.right };
		at.up += s->length * s->gain.up * (h.up + next.up) / 2;
		at.right += s->length * s->gain.right * (h.right + next.right) / 2;
		out->position = at;
		out->heading = h = next;
		out->slid = fmin(w->x[k * SLOTS + SLID], s->length * (1 + fmax(w->x[T], 0)));
		double rotated = s->length - out->slid;
		out->slide = (struct steer_pair){ (out->turn.up - rotated * s->drift.up) / s->yield,
			(out->turn.right - rotated * s->drift.right) / s->yield };
	}
}

static double cost_of(const struct steer_work *w, const struct steer_answer *a)
{
	const struct steer_problem *p = w->p;
	double sum = 0;

	for (size_t k = 0; k < p->count; k++) {
		const struct steer_step *s = &a->steps[k];
		double up = s->turn.up - p->stages[k].design.up,
		       right = s->turn.right - p->stages[k].design.right;
		sum += s->slid + p->turn_weight * (up * up + right * right);
		sum += p->line_weight *
			(s->position.up * s->position.up + s->position.right * s->position.right);
	}
	return sum;
}

/* Which kind of limit pulls hardest on t, and where first. */
static void name_limit(const struct steer_work *w, struct steer_answer *a)
{
	a->limit = STEER_LIMIT_NONE;
	a->stage = 0;
	for (int kind = 1; kind < KINDS; kind++)
		if (w->pull[kind] > (a->limit == STEER_LIMIT_NONE ? 0 : w->pull[a->limit]))
			a->limit = (enum steer_limit)kind;
	double most = 0;
	for (size_t k = 0; k < w->p->count; k++)
		most = fmax(most, w->pull_stage[a->limit][k]);
	while (a->stage + 1 < w->p->count && w->pull_stage[a->limit][a->stage] < 0.3 * most)
		a->stage++;
}

/* Whether there is a way at all. The point it ends at is strictly inside every limit if there is. */
static enum steer_status find_way(struct steer_work *w, struct steer_answer *out)
{
	w->easing = true;
	if (!start(w))
		return STEER_STUCK;
	evaluate(w, true, true);
	for (w->theta = w->terms / fmax(w->x[T], 0.1); w->theta < 1e10; w->theta *= grow) {
		int n = centre(w, -enough_room, 1e-2);
		if (n < 0)
			return STEER_STUCK;
		out->iterations += n;
		/* Twice the gap of the central path, which is met only nearly. */
		double least = w->x[T] - 2 * w->terms / w->theta;
		if (w->x[T] < -enough_room || (w->x[T] < 0 && least > -2 * enough_room))
			return STEER_OPTIMAL;
		if (least > 0) {
			out->short_by = w->x[T];
			name_limit(w, out);
			return STEER_INFEASIBLE;
		}
	}
	return w->x[T] < 0 ? STEER_OPTIMAL : STEER_INFEASIBLE;
}

static enum steer_status look(const struct steer_problem *p, struct steer_work *w, struct steer_answer *out)
{
	if (!sound(p))
		return STEER_RANGE;
	w->p = p;
	w->line = p->end == STEER_LINE;
	set_band(w);
	out->iterations = 0;
	out->short_by = 0;
	out->limit = STEER_LIMIT_NONE;
	out->cost = out->gap = 0;
	out->stage = 0;
	return find_way(w, out);
}

enum steer_status sb_steer_feasible(const struct steer_problem *p, void *work, struct steer_answer *out)
{
	struct steer_work *w = work;
	enum steer_status status = look(p, w, out);

	if (status == STEER_INFEASIBLE)
		write_steps(w, out);
	return status;
}

enum steer_status sb_steer_solve(const struct steer_problem *p, void *work, struct steer_answer *out)
{
	struct steer_work *w = work;
	enum steer_status status = sb_steer_feasible(p, work, out);
	double reach = 0, kept[MOST + 1];

	if (status != STEER_OPTIMAL)
		return status;
	for (size_t k = 0; k < p->count; k++)
		reach += p->stages[k].length;
	w->easing = false;
	w->x[T] = 0;
	write_steps(w, out);
	w->theta = 1;
	evaluate(w, true, true);
	w->theta = w->terms / fmax(cost_of(w, out), 0.01 * reach);
	for (bool last = false; !last; w->theta *= grow) {
		last = w->terms / w->theta < accuracy * reach;
		memcpy(kept, w->x, sizeof kept);
		int n = centre(w, 0, last ? 1e-6 : 1e-2);
		if (n < 0) {
			/* Rounding ends it early: the centre before holds, with its wider gap. */
			memcpy(w->x, kept, sizeof kept);
			break;
		}
		out->iterations += n;
		out->gap = w->terms / w->theta;
	}
	if (out->gap == 0)
		return STEER_STUCK;
	write_steps(w, out);
	out->cost = cost_of(w, out);
	return STEER_OPTIMAL;
}
