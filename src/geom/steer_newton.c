/* Newton's method on the sum of all terms. Every term reaches over one joint, or over one window, so with the
 * unknowns interleaved joint by joint the matrix is banded and is factorised in its band; the border of t is
 * eliminated by one more solution.
 */
#include "geom/steer.h"

#include <math.h>
#include <string.h>

#include "steer_parts.h"

static const double tie_slack = 1e-17; /* keeps the factorisation regular; taken out again by refinement */

/* Positions tied to headings, as rows of the multipliers; unknowns that are not used stay where they are. */
static void add_ties(struct steer_work *w)
{
	int last = (int)w->p->count - 1;

	for (int k = 0; k <= last; k++) {
		const struct steer_stage *g = &w->p->stages[k];
		for (int axis = 0; axis < 2; axis++) {
			int me = k * SLOTS + TIE + axis;
			double half = g->length * axis_of(g->gain, axis) / 2;
			struct row tie;
			sb_steer_row_begin(&tie);
			sb_steer_row_position(w, &tie, k, axis, 1);
			sb_steer_row_position(w, &tie, k - 1, axis, -1);
			sb_steer_row_heading(w, &tie, k, axis, -half);
			sb_steer_row_heading(w, &tie, k - 1, axis, -half);
			for (int i = 0; i < tie.count; i++) {
				if (tie.at[i] <= me)
					w->matrix[me][tie.at[i] - me + w->band] += tie.by[i];
				else
					w->matrix[tie.at[i]][me - tie.at[i] + w->band] += tie.by[i];
			}
			w->matrix[me][w->band] -= tie_slack;
			w->residual[me] = sb_steer_row_value(w, &tie);
		}
		if (!w->p->by_sum)
			w->matrix[k * SLOTS + SIZE][w->band] += 1;
	}
	for (int i = 0; w->line && i < 4; i++)
		w->matrix[last * SLOTS + i][w->band] += 1;
}

/* Four sums at a time: the additions need not wait for one another. */
static inline double dot(const double *restrict a, const double *restrict b, int n)
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
 * needed. Most rows begin well inside the band, and L begins where the matrix does: from w->first on. (George
 * and Liu, Computer Solution of Large Sparse Positive Definite Systems, 1981, chapter 4.) */
static bool factorise(struct steer_work *w)
{
	int b = w->band;

	for (int i = 0; i < w->size; i++) {
		int first = i > b ? i - b : 0;
		double *row = w->factor[i];
		memcpy(row, w->matrix[i], (size_t)(b + 1) * sizeof(double));
		while (first < i && row[first - i + b] == 0)
			first++;
		w->first[i] = first;
		for (int j = first; j < i; j++) {
			const double *other = w->factor[j];
			int from = w->first[j] > first ? w->first[j] : first;
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
		int first = w->first[i];
		x[i] -= dot(&w->factor[i][first - i + b], &x[first], i - first);
	}
	for (int i = 0; i < w->size; i++)
		x[i] /= w->factor[i][b];
	for (int i = w->size - 1; i >= 0; i--)
		for (int j = w->first[i]; j < i; j++)
			x[j] -= w->factor[i][j - i + b] * x[i];
}

/* y = matrix x, without the slack that the ties were given. */
static void multiply(const struct steer_work *w, const double *x, double *y)
{
	int b = w->band;

	for (int i = 0; i < w->size; i++)
		y[i] = 0;
	for (int i = 0; i < w->size; i++) {
		for (int j = w->first[i]; j < i; j++) {
			y[i] += w->matrix[i][j - i + b] * x[j];
			y[j] += w->matrix[i][j - i + b] * x[i];
		}
		double slack = i % SLOTS >= TIE ? tie_slack : 0;
		y[i] += (w->matrix[i][b] + slack) * x[i];
	}
}

static void solve_refined(const struct steer_work *w, const double *right, int rounds, double *x)
{
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

/* Solves for the step with so many rounds of refinement. Returned: the decrement squared. */
static double solve_step(struct steer_work *w, bool move_t, int rounds)
{
	double right[MOST] = { 0 }, with_t[MOST] = { 0 }, dt = 0;

	for (int i = 0; i < w->size; i++)
		right[i] = i % SLOTS >= TIE ? -w->residual[i] : -w->gradient[i];
	solve_refined(w, right, rounds, w->step);
	if (move_t) {
		solve_refined(w, w->border, rounds, with_t);
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
	return decrement;
}

double sb_steer_newton_step(struct steer_work *w, bool move_t)
{
	static const int careful = 6;

	memset(w->residual, 0, sizeof w->residual);
	add_ties(w);
	if (!factorise(w))
		return -HUGE_VAL;
	for (int k = 0; k < (int)w->p->count; k++) /* the multipliers start from nothing at each step */
		w->x[k * SLOTS + TIE] = w->x[k * SLOTS + TIE + 1] = 0;
	double decrement = solve_step(w, move_t, move_t ? 0 : 1); /* the way there need not be exact */
	if (decrement < 0)
		decrement = solve_step(w, move_t, careful);
	return isfinite(decrement) ? decrement : -HUGE_VAL;
}

void sb_steer_newton_move(struct steer_work *w, const double *from, double share)
{
	for (int i = 0; i < w->size; i++)
		if (i % SLOTS < TIE)
			w->x[i] = from[i] + share * w->step[i];
	w->x[T] = from[T] + share * w->step[T];
}

int sb_steer_newton_centre(struct steer_work *w, double stop_below, double close_enough)
{
	double from[MOST + 1];

	for (int n = 1; n <= 300; n++) {
		struct sum here = sb_steer_terms_evaluate(w, true, true);
		double decrement = sb_steer_newton_step(w, w->easing);
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
			sb_steer_newton_move(w, from, share);
			struct sum there = sb_steer_terms_evaluate(w, false, true);
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
