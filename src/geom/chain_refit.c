/* Moving a line to where it fits points best, by Levenberg's and Marquardt's method: every point of
 * intersection and every radius that is not held moves, and the distance of a point from the line is that of
 * geom/chain.h itself, so what is fitted is what will be drilled along.
 *
 * 1. A line is always laid with radii eased to what its legs have room for: curves that abut stay so.
 * 2. The two ends move square to the line only (or up and down): along it the points say nothing.
 */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "chain_fit_parts.h"

#define KNOBS (3 * CHAIN_FIT_PIS)
#define PARTS (2 * CHAIN_FIT_PIS)
#define MOST_USED 2000 /* points that are used to move the line; all are used to judge it */

enum knob_kind { MOVE_X, MOVE_Y, MOVE_ACROSS, MOVE_RADIUS };
struct knob {
	enum knob_kind kind;
	size_t pi;
};

struct line {
	struct chain_part parts[PARTS];
	size_t count;
};

struct fitting {
	struct fit_points points;
	size_t step; /* every so many points are used */
	bool heights;
	struct chain_fit *fit;
	struct knob knobs[KNOBS];
	size_t knob_count;
	double scale;				  /* of a small step, unit of length */
	double normal[KNOBS][KNOBS], pull[KNOBS]; /* J'J and J'r */
	double squares;
};

static void list_knobs(struct fitting *f)
{
	const struct chain_fit *fit = f->fit;

	f->knob_count = 0;
	for (size_t i = 0; i < fit->count; i++) {
		bool end = i == 0 || i + 1 == fit->count;
		if (end) {
			f->knobs[f->knob_count++] = (struct knob){ f->heights ? MOVE_Y : MOVE_ACROSS, i };
			continue;
		}
		f->knobs[f->knob_count++] = (struct knob){ MOVE_X, i };
		f->knobs[f->knob_count++] = (struct knob){ MOVE_Y, i };
		if (fit->pis[i].radius > 0 && !fit->held[i])
			f->knobs[f->knob_count++] = (struct knob){ MOVE_RADIUS, i };
	}
}

static void move(struct chain_pi *pis, size_t count, const struct knob *k, double by)
{
	struct chain_pi *pi = &pis[k->pi];
	const struct chain_pi *next = k->pi + 1 < count ? pi + 1 : pi, *from = next == pi ? pi - 1 : pi;
	double dx = next->x - from->x, dy = next->y - from->y, length = hypot(dx, dy);

	switch (k->kind) {
	case MOVE_X:
		pi->x += by;
		return;
	case MOVE_Y:
		pi->y += by;
		return;
	case MOVE_ACROSS:
		pi->x -= by * dy / length;
		pi->y += by * dx / length;
		return;
	case MOVE_RADIUS:
		break;
	}
	pi->radius *= exp(by); /* stays positive */
}

/* Radii are eased first; those that are held too, so a line of round radii that do not fit shows as off. */
static bool lay(const struct chain_pi *pis, size_t count, struct line *out)
{
	struct chain_pi eased[CHAIN_FIT_PIS];

	memcpy(eased, pis, count * sizeof *pis);
	sb_chain_ease(eased, count);
	return sb_chain_build(eased, count, out->parts, &out->count, NULL, NULL) >= CHAIN_OK;
}

static double off(const struct fitting *f, const struct line *l, size_t i, double *near)
{
	double offset;

	sb_chain_project(l->parts, l->count, f->points.x[i], f->points.y[i], *near, near, &offset);
	return offset;
}

static double squares_of(const struct fitting *f, const struct line *l)
{
	double sum = 0, near = 0;

	for (size_t i = 0; i < f->points.n; i += f->step) {
		double r = off(f, l, i, &near);
		sum += r * r;
	}
	return sum;
}

static double step_of(const struct fitting *f, const struct knob *k)
{
	return k->kind == MOVE_RADIUS ? 1e-5 : 1e-5 * f->scale;
}

/* The line with one knob turned; when it cannot be laid that way, turned the other way. */
static double turned(const struct fitting *f, const struct knob *k, struct line *out)
{
	for (int sign = 1; sign >= -1; sign -= 2) {
		struct chain_pi pis[CHAIN_FIT_PIS];
		double by = sign * step_of(f, k);
		memcpy(pis, f->fit->pis, f->fit->count * sizeof *pis);
		move(pis, f->fit->count, k, by);
		if (lay(pis, f->fit->count, out))
			return by;
	}
	return 0;
}

/* J'J and J'r. The rows of J are kept for a strip of points at a time, so that room does not grow with the
 * points. */
#define STRIP 64
struct strip {
	double rows[STRIP][KNOBS], r[STRIP], near[STRIP];
	size_t first, count;
};

static void begin_strip(const struct fitting *f, const struct line *base, struct strip *s)
{
	size_t left = (f->points.n - s->first + f->step - 1) / f->step;
	double near = 0;

	s->count = left < STRIP ? left : STRIP;
	for (size_t i = 0; i < s->count; i++) {
		s->r[i] = off(f, base, s->first + i * f->step, &near);
		s->near[i] = near;
	}
}

/* What turning one knob does to each residual. */
static void fill_column(const struct fitting *f, size_t k, struct strip *s)
{
	struct line other;
	double by = turned(f, &f->knobs[k], &other);

	for (size_t i = 0; i < s->count; i++) {
		double near = s->near[i];
		s->rows[i][k] = by != 0 ? (off(f, &other, s->first + i * f->step, &near) - s->r[i]) / by : 0;
	}
}

static void add_strip(struct fitting *f, const struct strip *s)
{
	for (size_t i = 0; i < s->count; i++) {
		for (size_t a = 0; a < f->knob_count; a++) {
			f->pull[a] += s->rows[i][a] * s->r[i];
			for (size_t b = 0; b <= a; b++)
				f->normal[a][b] += s->rows[i][a] * s->rows[i][b];
		}
		f->squares += s->r[i] * s->r[i];
	}
}

static void linearise(struct fitting *f, const struct line *base)
{
	struct strip s;

	memset(f->normal, 0, sizeof f->normal);
	memset(f->pull, 0, sizeof f->pull);
	f->squares = 0;
	for (s.first = 0; s.first < f->points.n; s.first += STRIP * f->step) {
		begin_strip(f, base, &s);
		for (size_t k = 0; k < f->knob_count; k++)
			fill_column(f, k, &s);
		add_strip(f, &s);
	}
}

/* Cholesky, in the lower half of a; false when it is not positive definite. */
static bool decompose(double a[KNOBS][KNOBS], size_t n)
{
	for (size_t i = 0; i < n; i++)
		for (size_t j = 0; j <= i; j++) {
			double sum = a[i][j];
			for (size_t k = 0; k < j; k++)
				sum -= a[i][k] * a[j][k];
			if (i == j && !(sum > 0))
				return false;
			a[i][j] = i == j ? sqrt(sum) : sum / a[j][j];
		}
	return true;
}

static void back_solve(double a[KNOBS][KNOBS], size_t n, double *b)
{
	for (size_t i = 0; i < n; i++) {
		for (size_t k = 0; k < i; k++)
			b[i] -= a[i][k] * b[k];
		b[i] /= a[i][i];
	}
	for (size_t i = n; i-- > 0;) {
		for (size_t k = i + 1; k < n; k++)
			b[i] -= a[k][i] * b[k];
		b[i] /= a[i][i];
	}
}

/* J'J with its diagonal grown by a share, decomposed. */
static bool damped(const struct fitting *f, double damping, double a[KNOBS][KNOBS])
{
	memcpy(a, f->normal, sizeof f->normal);
	for (size_t i = 0; i < f->knob_count; i++)
		a[i][i] += damping * a[i][i] + 1e-12;
	return decompose(a, f->knob_count);
}

/* One step downhill; false when there is none any more. */
static bool descend(struct fitting *f, double *damping)
{
	double a[KNOBS][KNOBS], by[KNOBS];
	struct line base, next;

	if (!lay(f->fit->pis, f->fit->count, &base))
		return false;
	linearise(f, &base);
	for (int tries = 0; tries < 12; tries++, *damping *= 10) {
		struct chain_pi pis[CHAIN_FIT_PIS];
		if (!damped(f, *damping, a))
			continue;
		memcpy(pis, f->fit->pis, f->fit->count * sizeof *pis);
		for (size_t k = 0; k < f->knob_count; k++)
			by[k] = -f->pull[k];
		back_solve(a, f->knob_count, by);
		for (size_t k = 0; k < f->knob_count; k++)
			move(pis, f->fit->count, &f->knobs[k], by[k]);
		if (!lay(pis, f->fit->count, &next))
			continue;
		double squares = squares_of(f, &next);
		if (!(squares < f->squares))
			continue;
		memcpy(f->fit->pis, pis, f->fit->count * sizeof *pis);
		*damping = fmax(*damping / 10, 1e-9);
		return squares < f->squares * (1 - 1e-9) && squares > 0;
	}
	return false;
}

/* ---- what came of it ---- */

static void find_sigmas(struct fitting *f)
{
	double a[KNOBS][KNOBS];
	struct line base;
	struct chain_fit *fit = f->fit;

	memset(fit->radius_sigma, 0, sizeof fit->radius_sigma);
	if (!lay(fit->pis, fit->count, &base))
		return;
	linearise(f, &base);
	size_t used = 1 + (f->points.n - 1) / f->step;
	if (used <= f->knob_count || !damped(f, 0, a))
		return;
	double variance = f->squares / (double)(used - f->knob_count);
	for (size_t k = 0; k < f->knob_count; k++) {
		double unit[KNOBS] = { 0 };
		if (f->knobs[k].kind != MOVE_RADIUS)
			continue;
		unit[k] = 1;
		back_solve(a, f->knob_count, unit);
		size_t pi = f->knobs[k].pi;
		fit->radius_sigma[pi] = fit->pis[pi].radius * sqrt(fmax(variance * unit[k], 0));
	}
}

static enum fit_status judge(const struct fitting *f, double within)
{
	struct chain_fit *fit = f->fit;
	struct line l;
	double sum = 0, near = 0;

	fit->worst = 0;
	fit->worst_at = 0;
	if (!lay(fit->pis, fit->count, &l)) {
		fit->worst = HUGE_VAL;
		return FIT_OFF;
	}
	for (size_t i = 0; i < f->points.n; i++) {
		double r = fabs(off(f, &l, i, &near));
		sum += r * r;
		if (r > fit->worst) {
			fit->worst = r;
			fit->worst_at = i;
		}
	}
	fit->rms = sqrt(sum / (double)f->points.n);
	return fit->worst <= within ? FIT_OK : FIT_OFF;
}

/* An end that only ever moved across is brought back beside its point: to the foot of the square to it. */
static void foot_of(struct chain_pi *end, const struct chain_pi *inner, double x, double y)
{
	double dx = inner->x - end->x, dy = inner->y - end->y, l2 = dx * dx + dy * dy;
	double along = ((x - end->x) * dx + (y - end->y) * dy) / l2;

	end->x += along * dx;
	end->y += along * dy;
}

static void put_ends(struct fitting *f)
{
	struct chain_fit *fit = f->fit;
	size_t last = fit->count - 1, n = f->points.n;

	if (f->heights)
		return;
	foot_of(&fit->pis[0], &fit->pis[1], f->points.x[0], f->points.y[0]);
	foot_of(&fit->pis[last], &fit->pis[last - 1], f->points.x[n - 1], f->points.y[n - 1]);
}

enum fit_status sb_chain_refit(
	const double *x, const double *y, size_t n, bool heights, double within, struct chain_fit *fit)
{
	struct fitting f = { .points = { x, y, n }, .heights = heights, .fit = fit };
	double damping = 1e-3;

	assert(n > 1 && fit->count > 1);
	f.step = (n + MOST_USED - 1) / MOST_USED;
	f.scale = hypot(x[n - 1] - x[0], y[n - 1] - y[0]) / 1000 + 1e-3;
	list_knobs(&f);
	for (int i = 0; i < 100 && descend(&f, &damping); i++)
		;
	put_ends(&f);
	find_sigmas(&f);
	sb_chain_ease(fit->pis, fit->count);
	return judge(&f, within);
}
