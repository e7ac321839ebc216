/* A circle, or an ellipse along x and y, through points whose place on it is unknown. Each round puts every
 * point at its nearest place on the curve and solves the linear problem of the distances that are left; the
 * slope of a distance is that of the curve along its normal, because the nearest place itself moves along it.
 */
#include "geom/roll.h"

#include "geom/angle.h"

#include <math.h>
#include <string.h>

#define MOST 4	     /* unknowns of a linear problem */
#define ROUNDS 100   /* clean readings take about five */
#define STEEP 0.0523 /* sine of 3 degrees */
/* A circle below this many times its own noise is none. */
#define SEEN 5
/* The ratio is told when its variance is at most this times (noise / radius)^2: that of four readings at
 * their best places. */
#define RATIO_VARIANCE 2

/* ---- linear least squares, a few unknowns ---- */

struct normal {
	size_t n;
	double a[MOST][MOST], b[MOST];
};

static void normal_add(struct normal *m, const double row[MOST], double value)
{
	for (size_t i = 0; i < m->n; i++) {
		for (size_t k = 0; k < m->n; k++)
			m->a[i][k] += row[i] * row[k];
		m->b[i] += row[i] * value;
	}
}

/* Lower triangle L with L L' = a, in place; false when the unknowns cannot be told apart. */
static bool factor(struct normal *m)
{
	for (size_t i = 0; i < m->n; i++)
		for (size_t k = 0; k <= i; k++) {
			double rest = m->a[i][k];
			for (size_t j = 0; j < k; j++)
				rest -= m->a[i][j] * m->a[k][j];
			if (k == i && !(rest > 1e-10 * m->a[i][i]))
				return false;
			m->a[i][k] = k == i ? sqrt(rest) : rest / m->a[k][k];
		}
	return true;
}

static void substitute(const struct normal *m, double x[MOST])
{
	for (size_t i = 0; i < m->n; i++) {
		for (size_t k = 0; k < i; k++)
			x[i] -= m->a[i][k] * x[k];
		x[i] /= m->a[i][i];
	}
	for (size_t i = m->n; i-- > 0;) {
		for (size_t k = i + 1; k < m->n; k++)
			x[i] -= m->a[k][i] * x[k];
		x[i] /= m->a[i][i];
	}
}

/* The solution, and the inverse of the normal matrix: variances for noise of 1. */
static bool normal_solve(struct normal *m, double x[MOST], double inverse[MOST][MOST])
{
	if (!factor(m))
		return false;
	memcpy(x, m->b, sizeof m->b);
	substitute(m, x);
	for (size_t i = 0; i < m->n; i++) {
		double column[MOST] = { 0 };
		column[i] = 1;
		substitute(m, column);
		memcpy(inverse[i], column, sizeof column);
	}
	return true;
}

/* ---- the curve ---- */

struct points {
	const struct sensor_vectors *readings;
	size_t count;
	enum roll_sensor sensor;
};

static struct triad point(const struct points *p, size_t i)
{
	return p->sensor == ROLL_GRAVITY ? p->readings[i].gravity : p->readings[i].field;
}

struct curve {
	double x, y, a, b; /* centre, and half axes along x and y */
};

/* Kasa's circle: x^2 + y^2 - 2 cx x - 2 cy y = const, linear least squares; about the mean, in units of the
 * spread, so that it is as good for a small circle far out. */
static bool first_circle(const struct points *p, struct curve *out)
{
	double n = (double)p->count, mean_x = 0, mean_y = 0, spread = 0;
	for (size_t i = 0; i < p->count; i++) {
		mean_x += point(p, i).x / n;
		mean_y += point(p, i).y / n;
	}
	for (size_t i = 0; i < p->count; i++)
		spread = fmax(spread, hypot(point(p, i).x - mean_x, point(p, i).y - mean_y));
	struct normal m = { .n = 3 };
	for (size_t i = 0; i < p->count; i++) {
		double x = (point(p, i).x - mean_x) / spread, y = (point(p, i).y - mean_y) / spread;
		normal_add(&m, (double[MOST]){ 2 * x, 2 * y, 1 }, x * x + y * y);
	}
	double c[MOST], unused[MOST][MOST];
	if (!(spread > 0) || !normal_solve(&m, c, unused))
		return false;
	double radius = spread * sqrt(c[2] + c[0] * c[0] + c[1] * c[1]);
	*out = (struct curve){ mean_x + spread * c[0], mean_y + spread * c[1], radius, radius };
	return true;
}

/* Where on the curve a point is nearest: (-a cos t, b sin t) from the centre, t as tool face runs for
 * gravity. */
static double nearest(const struct curve *c, double x, double y)
{
	double t = atan2(y * c->a, -x * c->b);

	for (int i = 0; i < 20 && c->a != c->b; i++) {
		double s = sin(t), k = cos(t), off_x = -c->a * k - x, off_y = c->b * s - y;
		double along_x = c->a * s, along_y = c->b * k;
		double slope = along_x * along_x + along_y * along_y + off_x * c->a * k - off_y * c->b * s;
		double step = (off_x * along_x + off_y * along_y) / slope;
		if (!(slope > 0))
			break;
		t -= step;
		if (fabs(step) < 1e-15)
			break;
	}
	return t;
}

struct offset {
	double distance;  /* outwards positive */
	double row[MOST]; /* how much it shrinks as x, y, a, b of the curve grow */
};

static struct offset offset_of(const struct curve *c, struct triad p)
{
	double x = p.x - c->x, y = p.y - c->y, t = nearest(c, x, y), s = sin(t), k = cos(t);
	double norm = hypot(c->b * k, c->a * s), nx = -c->b * k / norm, ny = c->a * s / norm;

	return (struct offset){
		.distance = nx * (x + c->a * k) + ny * (y - c->b * s),
		.row = { nx, ny, -nx * k, ny * s },
	};
}

/* ---- the fit ---- */

struct fitted {
	struct curve curve;
	double inverse[MOST][MOST];
	size_t unknowns; /* 3: a circle */
};

static bool improve(const struct points *p, struct fitted *f, double *moved)
{
	struct normal m = { .n = f->unknowns };
	for (size_t i = 0; i < p->count; i++) {
		struct offset o = offset_of(&f->curve, point(p, i));
		if (f->unknowns == 3)
			o.row[2] += o.row[3];
		normal_add(&m, o.row, o.distance);
	}
	double step[MOST] = { 0 };
	if (!normal_solve(&m, step, f->inverse))
		return false;
	f->curve.x += step[0];
	f->curve.y += step[1];
	f->curve.a += step[2];
	f->curve.b += f->unknowns == 3 ? step[2] : step[3];
	*moved = fmax(fmax(fabs(step[0]), fabs(step[1])), fmax(fabs(step[2]), fabs(step[3])));
	return f->curve.a > 0 && f->curve.b > 0;
}

static bool settle(const struct points *p, struct fitted *f)
{
	double moved = HUGE_VAL;

	for (int i = 0; i < ROUNDS; i++) {
		if (!improve(p, f, &moved) || !isfinite(moved))
			return false;
		if (moved < 1e-14 * f->curve.a)
			return true;
	}
	return moved < 1e-9 * f->curve.a;
}

/* Variance of b / a for noise of 1. */
static double ratio_variance(const struct fitted *f)
{
	double ratio = f->curve.b / f->curve.a;
	double v = f->inverse[2][2] * ratio * ratio + f->inverse[3][3] - 2 * ratio * f->inverse[2][3];
	return v / (f->curve.a * f->curve.a);
}

/* With the ratio where the rolls tell it, and one reading is over to check it; else a circle. */
static bool fit_curve(const struct points *p, const struct curve *first, struct fitted *out)
{
	struct fitted ellipse = { .curve = *first, .unknowns = 4 };

	*out = (struct fitted){ .curve = *first, .unknowns = 3 };
	if (p->count > 5 && settle(p, &ellipse) &&
		ratio_variance(&ellipse) * ellipse.curve.a * ellipse.curve.a <= RATIO_VARIANCE) {
		*out = ellipse;
		return true;
	}
	return settle(p, out);
}

static void left_over(const struct points *p, const struct fitted *f, struct roll_fit *out)
{
	double sum = 0;

	out->worst_off = 0;
	for (size_t i = 0; i < p->count; i++) {
		double off = offset_of(&f->curve, point(p, i)).distance;
		sum += off * off;
		if (fabs(off) > fabs(out->worst_off)) {
			out->worst_off = off;
			out->worst = i;
		}
	}
	out->noise = sqrt(sum / (double)(p->count - f->unknowns));
}

static void take_curve(const struct fitted *f, double sigma, struct roll_fit *out)
{
	bool ratio = f->unknowns == 4;

	out->ratio_seen = ratio;
	out->found.bias_x = f->curve.x;
	out->found.bias_y = f->curve.y;
	out->found.radius = f->curve.a;
	out->found.ratio = ratio ? f->curve.b / f->curve.a : 1;
	out->sigma.bias_x = sigma * sqrt(f->inverse[0][0]);
	out->sigma.bias_y = sigma * sqrt(f->inverse[1][1]);
	out->sigma.radius = sigma * sqrt(f->inverse[2][2]);
	out->sigma.ratio = ratio ? sigma * sqrt(ratio_variance(f)) : 0;
}

/* z on X and Y, in units of the radius. */
static bool fit_along(const struct points *p, double sigma, struct roll_fit *out)
{
	struct roll_values *v = &out->found;
	struct normal m = { .n = 3 };
	double x[MOST], inverse[MOST][MOST], sum = 0, r = v->radius;

	for (size_t i = 0; i < p->count; i++) {
		struct triad t = point(p, i);
		double row[MOST] = { (t.x - v->bias_x) / r, (t.y - v->bias_y) / (v->ratio * r), 1 };
		normal_add(&m, row, t.z);
	}
	if (!normal_solve(&m, x, inverse))
		return false;
	v->lean_x = x[0] / r;
	v->lean_y = x[1] / r;
	v->along = x[2];
	for (size_t i = 0; i < p->count; i++) {
		double off = sb_roll_correct(v, point(p, i)).z - v->along;
		sum += off * off;
	}
	out->noise_along = sqrt(sum / (double)(p->count - 3));
	sigma = sigma > 0 ? sigma : out->noise_along;
	out->sigma.lean_x = sigma * sqrt(inverse[0][0]) / r;
	out->sigma.lean_y = sigma * sqrt(inverse[1][1]) / r;
	out->sigma.along = sigma * sqrt(inverse[2][2]);
	return true;
}

/* ---- what is refused ---- */

static double face_of(const struct sensor_vectors *v)
{
	return sb_wrap_turn(atan2(v->gravity.y, -v->gravity.x));
}

static struct roll_gap widest_gap(const struct points *p)
{
	struct roll_gap gap = { 0, 0 };

	for (size_t i = 0; i < p->count; i++) {
		double face = face_of(&p->readings[i]), next = 2 * SB_PI;
		for (size_t k = 0; k < p->count; k++) {
			double turn = sb_wrap_turn(face_of(&p->readings[k]) - face);
			if (turn > 0 && turn < next)
				next = turn;
		}
		if (next > gap.width_rad)
			gap = (struct roll_gap){ next, sb_wrap_turn(face + next / 2) };
	}
	return gap;
}

static bool all_finite(const struct points *p)
{
	for (size_t i = 0; i < p->count; i++) {
		const struct triad *g = &p->readings[i].gravity, *f = &p->readings[i].field;
		double sum = g->x + g->y + g->z + f->x + f->y + f->z;
		if (!isfinite(sum))
			return false;
	}
	return true;
}

static bool steep(const struct points *p)
{
	for (size_t i = 0; i < p->count; i++) {
		const struct triad *g = &p->readings[i].gravity;
		if (hypot(g->x, g->y) <= STEEP * sb_triad_length(*g))
			return true;
	}
	return false;
}

static enum roll_status refusal(const struct points *p, double sigma, struct roll_gap *gap)
{
	if (p->count < ROLL_LEAST)
		return ROLL_FEW;
	if (!all_finite(p) || !(sigma >= 0) || !isfinite(sigma))
		return ROLL_RANGE;
	if (steep(p))
		return ROLL_STEEP;
	struct roll_gap widest = widest_gap(p);
	if (gap)
		*gap = widest;
	return widest.width_rad > ROLL_GAP_MOST * (1 + 1e-12) ? ROLL_GAP : ROLL_OK;
}

enum roll_status sb_roll_fit(const struct sensor_vectors *readings, size_t count, enum roll_sensor sensor,
	double sigma, struct roll_fit *out, struct roll_gap *gap)
{
	struct points p = { readings, count, sensor };
	struct roll_fit fit = { .worst = 0 };
	struct curve first;
	struct fitted fitted;

	enum roll_status status = refusal(&p, sigma, gap);
	if (status != ROLL_OK)
		return status;
	if (!first_circle(&p, &first))
		return ROLL_FLAT;
	if (!fit_curve(&p, &first, &fitted))
		return ROLL_STUCK;
	left_over(&p, &fitted, &fit);
	double noise = sigma > 0 ? sigma : fit.noise;
	if (!(fitted.curve.a > SEEN * fmax(noise, fit.noise)))
		return ROLL_FLAT;
	take_curve(&fitted, noise, &fit);
	if (!fit_along(&p, sigma, &fit))
		return ROLL_FLAT;
	*out = fit;
	return ROLL_OK;
}

struct triad sb_roll_correct(const struct roll_values *found, struct triad t)
{
	double x = t.x - found->bias_x, y = (t.y - found->bias_y) / found->ratio;

	return (struct triad){ x, y, t.z - found->lean_x * x - found->lean_y * y };
}
