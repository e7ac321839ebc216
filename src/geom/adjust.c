/* Least squares in white noise: everything is divided by the Cholesky factor of C first, so that each
 * equation counts alike and is on its own; the priors are equations like the others. What is left is QR.
 *
 * Layout of the work memory, in doubles: factor [count][count] (L of the correlations, lower half),
 * scale [count] (sigmas), terms [terms][ADJUST_TERMS] (V, the root of the estimate's covariance), white
 * [count][terms] (L^-1 A), root [count][terms] (L^-1 A V), rest [count] (L^-1 residual), columns [3][count],
 * system [count + terms][terms + 1].
 */
#include "geom/adjust.h"

#include "geom/odds.h"

#include <math.h>
#include <stdbool.h>
#include <string.h>

/* Below this share of its column a pivot is rounding, not a number. */
#define NOTHING 1e-11

struct memory {
	double *factor, *scale;
	double (*terms)[ADJUST_TERMS];
	double *white, *root, *rest, *columns, *system;
};

static struct memory lay_out(double *work, size_t n, size_t m)
{
	struct memory w = { .factor = work };

	w.scale = w.factor + n * n;
	w.terms = (double(*)[ADJUST_TERMS])(w.scale + n);
	w.white = w.scale + n + m * ADJUST_TERMS;
	w.root = w.white + n * m;
	w.rest = w.root + n * m;
	w.columns = w.rest + n;
	w.system = w.columns + 3 * n;
	return w;
}

size_t sb_adjust_work(size_t n, size_t m)
{
	return n * n + n + m * ADJUST_TERMS + 2 * n * m + n + 3 * n + (n + m) * (m + 1);
}

static bool fixes_in_order(const struct adjust_problem *p)
{
	int parts = 0;

	for (size_t i = 0; i < p->count; i++) {
		int before = i ? p->fix[i - 1] : -1;
		parts = p->fix[i] == before ? parts + 1 : 1;
		if (p->fix[i] < before || p->fix[i] > before + 1 || parts > 3 || p->fix[i] >= ADJUST_FIXES)
			return false;
	}
	return true;
}

static bool in_range(const struct adjust_problem *p)
{
	bool good = p->terms >= 1 && p->terms <= ADJUST_TERMS && p->count >= 1 && p->count <= ADJUST_COUNT &&
		p->false_alarm > 0 && p->false_alarm < 1 && fixes_in_order(p);

	for (size_t j = 0; good && j < p->terms; j++)
		good = p->prior[j] > 0;
	for (size_t i = 0; good && i < p->count; i++) {
		good = isfinite(p->observed[i]);
		for (size_t j = 0; good && j < p->terms; j++)
			good = isfinite(p->effect[i * p->terms + j]);
		for (size_t k = 0; good && k <= i; k++)
			good = isfinite(p->covariance[i * p->count + k]);
	}
	return good;
}

/* ---- white noise ---- */

/* L of the correlation matrix, and the sigmas. */
static bool factorise(const struct adjust_problem *p, struct memory *w)
{
	size_t n = p->count;

	for (size_t i = 0; i < n; i++) {
		if (!(p->covariance[i * n + i] > 0))
			return false;
		w->scale[i] = sqrt(p->covariance[i * n + i]);
	}
	for (size_t i = 0; i < n; i++)
		for (size_t j = 0; j <= i; j++) {
			double sum = p->covariance[i * n + j] / (w->scale[i] * w->scale[j]);
			for (size_t k = 0; k < j; k++)
				sum -= w->factor[i * n + k] * w->factor[j * n + k];
			if (i == j && !(sum > NOTHING))
				return false;
			w->factor[i * n + j] = i == j ? sqrt(sum) : sum / w->factor[j * n + j];
		}
	return true;
}

/* v = L^-1 (v / scale), in place; the first `from` of v are 0. */
static void whiten(const struct memory *w, size_t n, size_t from, double *v, size_t stride)
{
	for (size_t i = from; i < n; i++) {
		double sum = v[i * stride] / w->scale[i];
		for (size_t k = from; k < i; k++)
			sum -= w->factor[i * n + k] * v[k * stride];
		v[i * stride] = sum / w->factor[i * n + i];
	}
}

static void whiten_all(const struct adjust_problem *p, struct memory *w)
{
	memcpy(w->white, p->effect, p->count * p->terms * sizeof *w->white);
	memcpy(w->rest, p->observed, p->count * sizeof *w->rest);
	for (size_t j = 0; j < p->terms; j++)
		whiten(w, p->count, 0, w->white + j, p->terms);
	whiten(w, p->count, 0, w->rest, 1);
}

/* ---- QR ---- */

/* The unit that each term is counted in: its prior, or what makes its column one long. */
static bool term_units(const struct adjust_problem *p, const struct memory *w, double *unit)
{
	for (size_t j = 0; j < p->terms; j++) {
		double square = 0;
		unit[j] = p->prior[j];
		if (isfinite(unit[j]))
			continue;
		for (size_t i = 0; i < p->count; i++)
			square += w->white[i * p->terms + j] * w->white[i * p->terms + j];
		if (!(square > 0))
			return false;
		unit[j] = 1 / sqrt(square);
	}
	return true;
}

/* The equations, then the priors as such: x / unit = 0 +- 1. Returned: rows. */
static size_t set_up(const struct adjust_problem *p, struct memory *w, const double *unit)
{
	size_t m = p->terms, wide = m + 1, rows = p->count;

	for (size_t i = 0; i < p->count; i++) {
		for (size_t j = 0; j < m; j++)
			w->system[i * wide + j] = w->white[i * m + j] * unit[j];
		w->system[i * wide + m] = w->rest[i];
	}
	for (size_t j = 0; j < m; j++)
		if (isfinite(p->prior[j])) {
			memset(w->system + rows * wide, 0, wide * sizeof *w->system);
			w->system[rows++ * wide + j] = 1;
		}
	return rows;
}

static double column_square(const double *a, size_t wide, size_t from, size_t rows, size_t column)
{
	double square = 0;

	for (size_t i = from; i < rows; i++)
		square += a[i * wide + column] * a[i * wide + column];
	return square;
}

/* Householder's reflections: R ends in the upper triangle, Q' of the right side in the last column. */
static bool reflect(double *a, size_t rows, size_t m)
{
	size_t wide = m + 1;

	for (size_t j = 0; j < m; j++) {
		double whole = column_square(a, wide, 0, rows, j), below = column_square(a, wide, j, rows, j);
		if (j >= rows || !(below > NOTHING * NOTHING * whole))
			return false;
		double length = a[j * wide + j] > 0 ? -sqrt(below) : sqrt(below);
		double first = a[j * wide + j] - length, half = length * first;
		a[j * wide + j] = first;
		for (size_t k = j + 1; k < wide; k++) {
			double along = 0;
			for (size_t i = j; i < rows; i++)
				along += a[i * wide + j] * a[i * wide + k];
			for (size_t i = j; i < rows; i++)
				a[i * wide + k] += along / half * a[i * wide + j];
		}
		a[j * wide + j] = length;
	}
	return true;
}

/* The estimate from R and Q' y; the root V = unit R^-1, so that V V' is its covariance. */
static void solve_back(
	const double *a, const double *unit, size_t m, double root[][ADJUST_TERMS], struct adjust_answer *out)
{
	size_t wide = m + 1;

	for (size_t c = 0; c < m; c++)
		for (size_t j = m; j-- > 0;) {
			double sum = j == c ? 1 : 0;
			for (size_t k = j + 1; k <= c; k++)
				sum -= a[j * wide + k] * root[k][c];
			root[j][c] = j > c ? 0 : sum / a[j * wide + j];
		}
	for (size_t j = 0; j < m; j++) {
		out->estimate[j] = 0;
		for (size_t c = j; c < m; c++) {
			out->estimate[j] += unit[j] * root[j][c] * a[c * wide + m];
			root[j][c] *= unit[j];
		}
	}
	for (size_t j = 0; j < m; j++)
		for (size_t k = 0; k < m; k++) {
			out->covariance[j][k] = 0;
			for (size_t c = j > k ? j : k; c < m; c++)
				out->covariance[j][k] += root[j][c] * root[k][c];
		}
}

/* ---- what is left over ---- */

static void residuals(const struct adjust_problem *p, struct memory *w, struct adjust_answer *out)
{
	size_t m = p->terms;

	out->chi_square = 0;
	for (size_t i = 0; i < p->count; i++) {
		double explained = 0;
		out->residual[i] = p->observed[i];
		for (size_t c = 0; c < m; c++) {
			double whole = 0;
			w->root[i * m + c] = 0;
			for (size_t j = 0; j <= c; j++) {
				whole += p->effect[i * m + j] * w->terms[j][c];
				w->root[i * m + c] += w->white[i * m + j] * w->terms[j][c];
			}
			explained += whole * whole;
			out->residual[i] -= p->effect[i * m + c] * out->estimate[c];
			w->rest[i] -= w->white[i * m + c] * out->estimate[c];
		}
		double variance = w->scale[i] * w->scale[i], left = variance - explained;
		out->residual_sigma[i] = left > NOTHING * variance ? sqrt(left) : 0;
		out->chi_square += w->rest[i] * w->rest[i];
	}
	out->freedom = (int)p->count;
	for (size_t j = 0; j < m; j++) {
		bool known = isfinite(p->prior[j]);
		double share = known ? out->estimate[j] / p->prior[j] : 0;
		out->chi_square += share * share;
		out->freedom -= known ? 0 : 1;
	}
	out->probability = out->freedom > 0 ? sb_odds_chi_square(out->chi_square, out->freedom) : 1;
}

static double dot(const double *a, const double *b, size_t from, size_t n)
{
	double sum = 0;

	for (size_t i = from; i < n; i++)
		sum += a[i] * b[i];
	return sum;
}

/* One observation's column of L^-1, and what the terms take of it. */
struct shift {
	double *column; /* [count] */
	double taken[ADJUST_TERMS];
	double score; /* its share of C^-1 residual */
	double whole; /* C^-1 on the diagonal */
};

static struct shift shift_of(const struct adjust_problem *p, const struct memory *w, size_t i, double *column)
{
	size_t n = p->count, m = p->terms;
	struct shift s = { .column = column };

	memset(column, 0, n * sizeof *column);
	column[i] = 1;
	whiten(w, n, i, column, 1);
	for (size_t k = i; k < n; k++)
		for (size_t c = 0; c < m; c++)
			s.taken[c] += w->root[k * m + c] * column[k];
	s.score = dot(column, w->rest, i, n);
	s.whole = dot(column, column, i, n);
	return s;
}

/* How much of a blunder in an observation the terms take up: row i of A times the root, times `taken`. */
static double share_taken(
	const struct adjust_problem *p, const struct memory *w, size_t i, const struct shift *s)
{
	size_t n = p->count, m = p->terms;
	double share = 0;

	for (size_t k = 0; k <= i; k++)
		share += w->scale[i] * w->factor[i * n + k] * dot(w->root + k * m, s->taken, 0, m);
	return share;
}

static double information(
	const struct adjust_problem *p, const struct shift *a, const struct shift *b, size_t from)
{
	return dot(a->column, b->column, from, p->count) - dot(a->taken, b->taken, 0, p->terms);
}

/* score' N^-1 score by Cholesky, leaving out what nothing else checks. */
static struct adjust_test test_of(
	const struct adjust_problem *p, const struct shift *s, size_t parts, size_t at)
{
	double l[3][3] = { { 0 } }, y[3] = { 0 };
	struct adjust_test t = { 0, 0, 1 };

	for (size_t i = 0; i < parts; i++) {
		double pivot = information(p, &s[i], &s[i], at), rest = s[i].score;
		for (size_t k = 0; k < i; k++) {
			l[i][k] = information(p, &s[i], &s[k], at);
			for (size_t c = 0; c < k; c++)
				l[i][k] -= l[i][c] * l[k][c];
			l[i][k] = l[k][k] > 0 ? l[i][k] / l[k][k] : 0;
			pivot -= l[i][k] * l[i][k];
			rest -= l[i][k] * y[k];
		}
		if (!(pivot > 1e-9 * s[i].whole))
			continue;
		l[i][i] = sqrt(pivot);
		y[i] = rest / l[i][i];
		t.statistic += y[i] * y[i];
		t.freedom++;
	}
	if (t.freedom > 0)
		t.probability = sb_odds_chi_square(t.statistic, t.freedom);
	return t;
}

static void test_fixes(const struct adjust_problem *p, const struct memory *w, struct adjust_answer *out)
{
	int tested = 0;

	out->fixes = 0;
	for (size_t at = 0, parts; at < p->count; at += parts) {
		struct shift s[3];
		for (parts = 0; at + parts < p->count && p->fix[at + parts] == p->fix[at]; parts++) {
			size_t i = at + parts;
			s[parts] = shift_of(p, w, i, w->columns + parts * p->count);
			double own = information(p, &s[parts], &s[parts], i);
			bool checked = own > 1e-9 * s[parts].whole;
			out->normalised[i] = checked ? s[parts].score / sqrt(own) : 0;
			out->redundancy[i] = 1 - share_taken(p, w, i, &s[parts]);
		}
		out->tests[out->fixes] = test_of(p, s, parts, at);
		tested += out->tests[out->fixes++].freedom > 0;
	}
	out->critical = sb_odds_each(p->false_alarm, tested > 0 ? tested : 1);
	out->outlier = -1;
	double least = out->critical;
	for (size_t k = 0; k < out->fixes; k++)
		if (out->tests[k].freedom > 0 && out->tests[k].probability < least) {
			least = out->tests[k].probability;
			out->outlier = (int)k;
		}
}

enum adjust_status sb_adjust_solve(const struct adjust_problem *p, double *work, struct adjust_answer *out)
{
	double unit[ADJUST_TERMS];

	if (!in_range(p))
		return ADJUST_RANGE;
	struct memory w = lay_out(work, p->count, p->terms);
	if (!factorise(p, &w))
		return ADJUST_COVARIANCE;
	whiten_all(p, &w);
	if (!term_units(p, &w, unit) || !reflect(w.system, set_up(p, &w, unit), p->terms))
		return ADJUST_SINGULAR;
	solve_back(w.system, unit, p->terms, w.terms, out);
	residuals(p, &w, out);
	test_fixes(p, &w, out);
	return ADJUST_OK;
}

/* ---- a point of the path ---- */

/* Along one axis, as rows of white noise: the point's own noise with the observations; what the terms add to
 * it, times V; what the estimate takes of its noise; and the difference. */
struct axis {
	const double *white; /* [count] */
	double effect[ADJUST_TERMS], taken[ADJUST_TERMS], left[ADJUST_TERMS];
};

static struct axis axis_of(
	const struct adjust_problem *p, const struct memory *w, const double *effect, double *white)
{
	struct axis a = { .white = white };

	whiten(w, p->count, 0, white, 1);
	for (size_t c = 0; c < p->terms; c++) {
		for (size_t j = 0; j <= c; j++)
			a.effect[c] += effect[j] * w->terms[j][c];
		for (size_t i = 0; i < p->count; i++)
			a.taken[c] += w->root[i * p->terms + c] * white[i];
		a.left[c] = a.effect[c] - a.taken[c];
	}
	return a;
}

void sb_adjust_point(const struct adjust_problem *p, double *work, const struct adjust_answer *answer,
	const struct adjust_point *point, double corrected[3][3], double best[3][3], double shift[3])
{
	struct memory w = lay_out(work, p->count, p->terms);
	size_t n = p->count, m = p->terms;
	struct axis axes[3];

	memcpy(w.columns, point->with, 3 * n * sizeof *w.columns);
	for (size_t k = 0; k < 3; k++) {
		axes[k] = axis_of(p, &w, point->effect[k], w.columns + k * n);
		if (shift)
			shift[k] = dot(point->effect[k], answer->estimate, 0, m) +
				dot(axes[k].white, w.rest, 0, n);
	}
	for (size_t k = 0; k < 3; k++)
		for (size_t l = 0; l < 3; l++) {
			const struct axis *a = &axes[k], *b = &axes[l];
			if (corrected)
				corrected[k][l] = point->noise[k][l] + dot(a->effect, b->left, 0, m) -
					dot(a->taken, b->effect, 0, m);
			if (best)
				best[k][l] = point->noise[k][l] - dot(a->white, b->white, 0, n) +
					dot(a->left, b->left, 0, m);
		}
}
