/* The fewest runs of one curvature each: a shortest path over the points, with the cost of every run from
 * sums that grow point by point. */
#include "geom/runs.h"

#include <math.h>
#include <string.h>

/* Sums over the points of a run, relative to its first: s^0 .. s^4; each coordinate times s^0 .. s^2;
 * products of coordinates. */
struct sums {
	double s[5], p[3][3], pp[3][3];
};

static void coordinates(struct vec3 a, double c[3])
{
	c[0] = a.n;
	c[1] = a.e;
	c[2] = a.u;
}

static void take(struct sums *sum, double s, struct vec3 at, double weight)
{
	double c[3], power = weight;

	coordinates(at, c);
	for (int k = 0; k < 5; k++, power *= s) {
		sum->s[k] += power;
		for (int i = 0; k < 3 && i < 3; i++)
			sum->p[k][i] += power * c[i];
	}
	for (int i = 0; i < 3; i++)
		for (int k = 0; k < 3; k++)
			sum->pp[i][k] += weight * c[i] * c[k];
}

/* Least squares of 1, s, s^2 for the three coordinates at once, s in units of the run's length: a[k][i].
 * False when the points do not tell three terms apart. */
static int fit(const struct sums *sum, double length, double a[3][3])
{
	double m[3][6], scale[5] = { 1 };

	for (int k = 1; k < 5; k++)
		scale[k] = scale[k - 1] / length;
	for (int r = 0; r < 3; r++)
		for (int c = 0; c < 3; c++) {
			m[r][c] = sum->s[r + c] * scale[r + c];
			m[r][3 + c] = sum->p[r][c] * scale[r];
		}
	for (int r = 0; r < 3; r++) {
		if (!(m[r][r] > 1e-12 * sum->s[0]))
			return 0;
		for (int below = r + 1; below < 3; below++) {
			double by = m[below][r] / m[r][r];
			for (int c = r; c < 6; c++)
				m[below][c] -= by * m[r][c];
		}
	}
	for (int c = 0; c < 3; c++)
		for (int r = 2; r >= 0; r--) {
			a[r][c] = m[r][3 + c];
			for (int k = r + 1; k < 3; k++)
				a[r][c] -= m[r][k] * a[k][c];
			a[r][c] /= m[r][r];
		}
	return 1;
}

static struct vec3 square_to(struct vec3 a, struct vec3 chord)
{
	return sb_vec3_sub(a, sb_vec3_scale(chord, sb_vec3_dot(a, chord)));
}

/* Weighted sum of squared distances square to the chord. */
static double squares_of(const struct sums *sum, double length, double a[3][3], const double chord[3])
{
	const double power[3] = { 1, 1 / length, 1 / length / length };
	double total = 0, along = 0;

	for (int i = 0; i < 3; i++)
		for (int k = 0; k < 3; k++) {
			double left = sum->pp[i][k];
			for (int r = 0; r < 3; r++)
				left -= a[r][i] * sum->p[r][k] * power[r];
			total += i == k ? left : 0;
			along += chord[i] * chord[k] * left;
		}
	return fmax(total - along, 0);
}

struct trial {
	double squares, weight;
	struct vec3 bend;
};

/* The run between two points whose sums are known. */
static struct trial try_run(const struct run_point *p, size_t from, size_t to, const struct sums *sum)
{
	double length = p[to].s_m - p[from].s_m, a[3][3], c[3];
	struct vec3 span = sb_vec3_sub(p[to].at, p[from].at);
	struct trial t = { .weight = sum->s[0] };
	double chord = sb_vec3_length(span);

	if (to - from < 2 || !(chord > 0) || !fit(sum, length, a))
		return t;
	span = sb_vec3_scale(span, 1 / chord);
	coordinates(span, c);
	if (to - from > 2)
		t.squares = squares_of(sum, length, a, c);
	struct vec3 bend = { a[2][0], a[2][1], a[2][2] };
	t.bend = square_to(sb_vec3_scale(bend, 2 / (length * length)), span);
	return t;
}

/* Half of the lengths on both sides: what a point stands for. */
static double weight_of(const struct run_point *p, size_t count, size_t i)
{
	double before = i > 0 ? p[i].s_m - p[i - 1].s_m : 0;
	double after = i + 1 < count ? p[i + 1].s_m - p[i].s_m : 0;

	return (before + after) / 2;
}

static void reach_from(struct run_point *p, size_t count, size_t from, double room_m)
{
	struct sums sum;

	memset(&sum, 0, sizeof sum);
	take(&sum, 0, (struct vec3){ 0, 0, 0 }, weight_of(p, count, from));
	for (size_t to = from + 1; to < count; to++) {
		take(&sum, p[to].s_m - p[from].s_m, sb_vec3_sub(p[to].at, p[from].at),
			weight_of(p, count, to));
		/* reached with fewer runs already: no fit can better that */
		size_t runs = p[from].runs + 1;
		if (p[to].runs > 0 && runs > p[to].runs)
			continue;
		struct trial t = try_run(p, from, to, &sum);
		double allowed = room_m * room_m * t.weight;
		if (t.squares > 4 * allowed && to > from + 3)
			return;
		if (t.squares > allowed)
			continue;
		double squares = p[from].squares + t.squares;
		if (p[to].runs == 0 || runs < p[to].runs || (runs == p[to].runs && squares < p[to].squares)) {
			p[to].runs = runs;
			p[to].squares = squares;
			p[to].from = from;
		}
	}
}

static struct run run_of(const struct run_point *p, size_t count, size_t from, size_t to)
{
	struct sums sum;

	memset(&sum, 0, sizeof sum);
	for (size_t i = from; i <= to; i++)
		take(&sum, p[i].s_m - p[from].s_m, sb_vec3_sub(p[i].at, p[from].at), weight_of(p, count, i));
	struct trial t = try_run(p, from, to, &sum);
	return (struct run){ from, to, t.bend, sqrt(t.squares / t.weight) };
}

enum runs_status sb_runs_find(
	struct run_point *points, size_t count, double room_m, struct run *runs, size_t *made)
{
	if (count < 2 || !(room_m > 0))
		return RUNS_RANGE;
	for (size_t i = 0; i < count; i++)
		if (!isfinite(points[i].s_m) || !isfinite(sb_vec3_length(points[i].at)) ||
			(i > 0 && !(points[i].s_m > points[i - 1].s_m)))
			return RUNS_RANGE;
	for (size_t i = 0; i < count; i++) {
		points[i].runs = points[i].from = 0;
		points[i].squares = 0;
	}
	for (size_t from = 0; from + 1 < count; from++)
		reach_from(points, count, from, room_m);
	size_t n = points[count - 1].runs, to = count - 1;
	*made = n;
	while (n-- > 0) {
		runs[n] = run_of(points, count, points[to].from, to);
		to = points[to].from;
	}
	return RUNS_OK;
}
