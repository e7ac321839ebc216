/* Points told apart into tangents and curves, before anything is known of their sizes.
 *
 * A piece is fitted to a run of points by least squares in the frame of its chord, u along and v square to
 * it, as v = c0 + c1 u + k (u^2 + v^2) / 2: a circle of curvature k / sqrt(1 + c1^2 - 2 k c0), which for
 * k = 0 is a straight. Unlike a circle by its centre this neither divides by a curvature nor prefers small
 * circles when the points scatter.
 *
 * From every point the furthest one that a single tangent, and a single curve, reaches is found by doubling
 * and halving; then the cheapest way from the first point to the last is walked. What fits a run fits its
 * beginning too, so all shorter pieces are open as well.
 */
#include <math.h>
#include <stdint.h>

#include "chain_fit_parts.h"

/* Where a curve begins or ends between two points, neither piece reaches over: a gap of one interval. A
 * tangent of three points is cheaper than two gaps, a curve of four than three; a tangent and a gap are
 * cheaper than a curve that would have been both. */
enum { GAP_COSTS = 6, TANGENT_COSTS = 10, CURVE_COSTS = 17 };

/* A curve that a tangent would nearly do for is one: it only reached a little further. */
#define NEARLY 1.5

/* Sums of the normal equations of v over 1, u, q. */
struct sums {
	double n, u, q, uu, uq, qq, v, uv, qv;
};

struct chord {
	double x, y, c, s, length;
};

static struct chord chord_of(const struct fit_points *p, size_t from, size_t to)
{
	double dx = p->x[to] - p->x[from], dy = p->y[to] - p->y[from], length = hypot(dx, dy);

	return (struct chord){ p->x[from], p->y[from], dx / length, dy / length, length };
}

/* In chords: numbers near one, whatever the unit. */
static void in_frame(const struct fit_points *p, const struct chord *c, size_t i, double *u, double *v)
{
	double dx = p->x[i] - c->x, dy = p->y[i] - c->y;

	*u = (dx * c->c + dy * c->s) / c->length;
	*v = (dy * c->c - dx * c->s) / c->length;
}

static struct sums sum_up(const struct fit_points *p, const struct chord *c, size_t from, size_t to)
{
	struct sums s = { 0 };

	for (size_t i = from; i <= to; i++) {
		double u, v;
		in_frame(p, c, i, &u, &v);
		double q = (u * u + v * v) / 2;
		s.n += 1;
		s.u += u;
		s.q += q;
		s.uu += u * u;
		s.uq += u * q;
		s.qq += q * q;
		s.v += v;
		s.uv += u * v;
		s.qv += q * v;
	}
	return s;
}

/* c0, c1, k by elimination: each unknown in turn, its part taken out of what follows. */
static void solve(const struct sums *s, bool arc, double *c0, double *c1, double *k)
{
	double uu = s->uu - s->u * s->u / s->n, uq = s->uq - s->u * s->q / s->n;
	double uv = s->uv - s->u * s->v / s->n;
	double qq = s->qq - s->q * s->q / s->n - uq * uq / uu;
	double qv = s->qv - s->q * s->v / s->n - uq * uv / uu;

	*k = arc && qq > 0 ? qv / qq : 0;
	*c1 = (uv - *k * uq) / uu;
	*c0 = (s->v - *c1 * s->u - *k * s->q) / s->n;
}

static void turn_back(const struct chord *c, double u, double v, double *x, double *y)
{
	*x = u * c->c - v * c->s;
	*y = u * c->s + v * c->c;
}

/* The place nearest to a point, to first order, and the way it goes there. */
static void end_of(const struct chord *c, double c0, double c1, double k, double u, double v,
	struct fit_piece *out, int which)
{
	double fu = k * u + c1, fv = k * v - 1, g2 = fu * fu + fv * fv;
	double f = k * (u * u + v * v) / 2 + c1 * u - v + c0, x, y;
	double *way_x = which ? &out->end_x : &out->bearing_x;
	double *way_y = which ? &out->end_y : &out->bearing_y;

	turn_back(c, (u - f * fu / g2) * c->length, (v - f * fv / g2) * c->length, &x, &y);
	out->x[which] = c->x + x;
	out->y[which] = c->y + y;
	turn_back(c, -fv / sqrt(g2), fu / sqrt(g2), way_x, way_y);
}

/* Fits one piece to points from..to, of which there are two at least. */
static void fit_piece(const struct fit_points *p, size_t from, size_t to, bool arc, struct fit_piece *out)
{
	struct chord c = chord_of(p, from, to);
	double c0 = 0, c1 = 0, k = 0, u, v;

	*out = (struct fit_piece){ .from = from, .to = to, .arc = arc, .off = HUGE_VAL };
	if (!(c.length > 0))
		return;
	struct sums s = sum_up(p, &c, from, to);
	solve(&s, arc, &c0, &c1, &k);
	out->off = 0;
	for (size_t i = from; i <= to; i++) {
		in_frame(p, &c, i, &u, &v);
		double f = k * (u * u + v * v) / 2 + c1 * u - v + c0;
		double off = fabs(f) / hypot(k * u + c1, k * v - 1) * c.length;
		if (!(off <= out->off))
			out->off = off; /* what is not a number is off too */
	}
	out->curvature = k / sqrt(fmax(1 + c1 * c1 - 2 * k * c0, 1e-12)) / c.length;
	in_frame(p, &c, from, &u, &v);
	end_of(&c, c0, c1, k, u, v, out, 0);
	in_frame(p, &c, to, &u, &v);
	end_of(&c, c0, c1, k, u, v, out, 1);
}

static bool reaches(const struct fit_points *p, size_t from, size_t to, bool arc, double within)
{
	struct fit_piece piece;

	if (to >= p->n)
		return false;
	fit_piece(p, from, to, arc, &piece);
	return piece.off <= within;
}

/* The last point that one piece reaches: two points any tangent does, three any curve. */
static size_t reach_of(const struct fit_points *p, size_t from, bool arc, double within)
{
	size_t good = from + 1, step = 1;

	while (reaches(p, from, good + step, arc, within)) {
		good += step;
		step *= 2;
	}
	for (; step > 0; step /= 2)
		if (reaches(p, from, good + step, arc, within))
			good += step;
	return good;
}

static void find_way(const struct fit_points *p, double within, struct fit_room *room)
{
	for (size_t i = 0; i < p->n; i++)
		room[i] = (struct fit_room){ .cost = i ? SIZE_MAX : 0 };
	for (size_t i = 0; i + 1 < p->n; i++) {
		room[i].line_end = reach_of(p, i, false, within);
		room[i].arc_end = reach_of(p, i, true, within);
		for (size_t j = i + 1; j <= room[i].line_end || j <= room[i].arc_end; j++) {
			bool arc = j > room[i].line_end;
			size_t piece = j == i + 1 ? GAP_COSTS : arc ? CURVE_COSTS : TANGENT_COSTS;
			size_t cost = room[i].cost + piece;
			if (cost >= room[j].cost)
				continue;
			room[j].cost = cost;
			room[j].from = i;
			room[j].by_arc = arc && j > i + 1;
		}
	}
}

/* A gap at either end of the line is a tangent that two points lie on: had the curve gone on, it would have
 * reached the last point too. */
static bool is_piece(const struct fit_points *p, size_t from, size_t to)
{
	return to > from + 1 || from == 0 || to + 1 == p->n;
}

static void take_piece(const struct fit_points *p, const struct fit_room *room, size_t to, double within,
	struct fit_piece *out)
{
	fit_piece(p, room->from, to, false, out);
	if (room->by_arc && out->off > NEARLY * within)
		fit_piece(p, room->from, to, true, out);
}

size_t sb_fit_split(const struct fit_points *p, double within, struct fit_room *room,
	struct fit_piece pieces[CHAIN_FIT_PIECES])
{
	size_t count = 0;

	find_way(p, within, room);
	for (size_t at = p->n - 1; at > 0; at = room[at].from)
		count += is_piece(p, room[at].from, at);
	if (count > CHAIN_FIT_PIECES)
		return 0;
	for (size_t at = p->n - 1, i = count; at > 0; at = room[at].from)
		if (is_piece(p, room[at].from, at))
			take_piece(p, &room[at], at, within, &pieces[--i]);
	return count;
}
