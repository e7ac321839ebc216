/* The chance that a hole is nearer to something than it must be: the share of a normal spread in a plane that
 * lies within given distances of straight stretches. */
#include "geom/clear.h"

#include "geom/angle.h"
#include "geom/spread.h"

#include <math.h>

/* Beyond so many sigmas a normal spread has less than 1e-15 of itself. */
#define FAR 8.0
/* Places of the quadrature: over 16 sigmas they lie half a sigma apart where most of the spread is. */
#define PLACES 64

/* A stretch seen along the hole, in the axes of the spread: x where it is narrow, y where it is wide. */
struct shape {
	double ax, ay, bx, by, keep;
};

struct sight {
	struct shape shapes[CLEAR_MOST];
	size_t count;
	double sigma_x, sigma_y;
};

struct interval {
	double low, high;
};

/* ---- the plane across the hole ---- */

/* Two directions square to the heading and to one another. */
static void axes_across(struct vec3 h, struct vec3 *one, struct vec3 *other)
{
	double level = hypot(h.n, h.e);

	*one = level > 1e-9 ? (struct vec3){ -h.e / level, h.n / level, 0 } : (struct vec3){ 1, 0, 0 };
	*other = (struct vec3){ h.e * one->u - h.u * one->e, h.u * one->n - h.n * one->u,
		h.n * one->e - h.e * one->n };
}

/* Turns the axes so that the spread's are x and y. Returned: their sigmas. */
static void turn_axes(const struct sym3 *c, struct vec3 *x, struct vec3 *y, struct sight *out)
{
	struct spread s = { sb_uncert_between(c, *x, *x), sb_uncert_between(c, *y, *y),
		sb_uncert_between(c, *x, *y) };
	struct spread_ellipse e = sb_spread_ellipse(&s, 1);
	struct vec3 one = *x, other = *y;

	out->sigma_y = hypot(e.major_x, e.major_y);
	out->sigma_x = hypot(e.minor_x, e.minor_y);
	if (!(out->sigma_y > 0))
		return;
	double cosine = e.major_x / out->sigma_y, sine = e.major_y / out->sigma_y;
	*y = sb_vec3_add(sb_vec3_scale(one, cosine), sb_vec3_scale(other, sine));
	*x = sb_vec3_add(sb_vec3_scale(one, -sine), sb_vec3_scale(other, cosine));
}

/* The part of a stretch that lies beside the hole, from `low` to `high` along it; false when none does. */
static bool clip(struct clear_stretch *s, struct vec3 at, struct vec3 heading, double low, double high)
{
	double from = sb_vec3_dot(sb_vec3_sub(s->a, at), heading);
	double to = sb_vec3_dot(sb_vec3_sub(s->b, at), heading);
	struct vec3 way = sb_vec3_sub(s->b, s->a), a = s->a;

	if (fmax(from, to) < low || fmin(from, to) > high)
		return false;
	double run = to - from;
	if (run == 0)
		return true;
	double first = fmin(fmax(((run > 0 ? low : high) - from) / run, 0), 1);
	double last = fmin(fmax(((run > 0 ? high : low) - from) / run, 0), 1);
	s->a = sb_vec3_add(a, sb_vec3_scale(way, first));
	s->b = sb_vec3_add(a, sb_vec3_scale(way, last));
	return true;
}

/* ---- along one line across the plane ---- */

static void include(struct interval *to, double low, double high)
{
	to->low = fmin(to->low, low);
	to->high = fmax(to->high, high);
}

static void include_disc(const struct shape *s, double cx, double cy, double x, struct interval *to)
{
	double square = s->keep * s->keep - (x - cx) * (x - cx);

	if (square >= 0)
		include(to, cy - sqrt(square), cy + sqrt(square));
}

/* The two straight sides, keep away from the stretch: where they pass x. */
static void include_sides(const struct shape *s, double x, struct interval *to)
{
	double dx = s->bx - s->ax, dy = s->by - s->ay, length = hypot(dx, dy);

	if (!(fabs(dx) > 1e-12) || !(length > 0))
		return;
	for (int side = -1; side <= 1; side += 2) {
		double ox = -side * s->keep * dy / length, oy = side * s->keep * dx / length;
		double share = (x - s->ax - ox) / dx;
		if (share >= 0 && share <= 1)
			include(to, s->ay + oy + share * dy, s->ay + oy + share * dy);
	}
}

/* Where a line at x passes what is nearer than keep to a stretch; the shape bulges nowhere inwards, so it is
 * one interval. low > high: not at all. */
static struct interval across(const struct shape *s, double x)
{
	struct interval in = { HUGE_VAL, -HUGE_VAL };

	include_disc(s, s->ax, s->ay, x, &in);
	include_disc(s, s->bx, s->by, x, &in);
	include_sides(s, x, &in);
	/* A stretch along y: between its ends as well. */
	if (fabs(s->bx - s->ax) <= 1e-12 && fabs(x - s->ax) <= s->keep)
		include(&in, fmin(s->ay, s->by), fmax(s->ay, s->by));
	return in;
}

static double share_between(double low, double high)
{
	double sign = low > 0 ? 1 : -1; /* on the side where the small digits are kept */

	if (low > 0 || high < 0)
		return fabs(erfc(sign * low / sqrt(2)) - erfc(sign * high / sqrt(2))) / 2;
	return 1 - erfc(-low / sqrt(2)) / 2 - erfc(high / sqrt(2)) / 2;
}

static double share_of(const struct sight *s, struct interval in)
{
	if (s->sigma_y > 0)
		return share_between(in.low / s->sigma_y, in.high / s->sigma_y);
	return in.low <= 0 && in.high >= 0 ? 1 : 0;
}

/* How much of the spread along the line at x is in any of the shapes. */
static double share_at(const struct sight *s, double x)
{
	struct interval in[CLEAR_MOST];
	size_t count = 0;
	double sum = 0, done = -HUGE_VAL;

	for (size_t i = 0; i < s->count; i++) {
		struct interval next = across(&s->shapes[i], x);
		size_t k = count;
		if (next.low > next.high)
			continue;
		for (; k > 0 && in[k - 1].low > next.low; k--)
			in[k] = in[k - 1];
		in[k] = next;
		count++;
	}
	for (size_t i = 0; i < count; i++) {
		struct interval rest = { fmax(in[i].low, done), in[i].high };
		if (rest.low < rest.high)
			sum += share_of(s, rest);
		done = fmax(done, in[i].high);
	}
	return fmin(sum, 1);
}

/* ---- over the plane ---- */

/* x = middle + half sin(angle): at the ends of a shape, where the share grows as a root, the places crowd. */
static double integrate_part(const struct sight *s, double low, double high)
{
	double middle = (low + high) / 2, half = (high - low) / 2, sum = 0;

	for (int i = 0; i < PLACES; i++) {
		double angle = SB_PI * ((i + 0.5) / PLACES - 0.5);
		double x = middle + half * sin(angle), z = x / s->sigma_x;
		sum += share_at(s, x) * exp(-z * z / 2) * cos(angle);
	}
	return sum * half / s->sigma_x * SB_PI / PLACES / sqrt(2 * SB_PI);
}

static void add_edge(double edges[], size_t *count, double most, double edge)
{
	size_t k = *count;

	edge = fmin(fmax(edge, -most), most);
	for (; k > 0 && edges[k - 1] > edge; k--)
		edges[k] = edges[k - 1];
	edges[k] = edge;
	(*count)++;
}

/* From where a shape begins or ends to where the next one does. */
static double integrate(const struct sight *s)
{
	double edges[2 * CLEAR_MOST], sum = 0;
	size_t count = 0;

	for (size_t i = 0; i < s->count; i++) {
		const struct shape *p = &s->shapes[i];
		add_edge(edges, &count, FAR * s->sigma_x, fmin(p->ax, p->bx) - p->keep);
		add_edge(edges, &count, FAR * s->sigma_x, fmax(p->ax, p->bx) + p->keep);
	}
	for (size_t i = 1; i < count; i++)
		if (edges[i] > edges[i - 1])
			sum += integrate_part(s, edges[i - 1], edges[i]);
	return sum;
}

/* Whether a stretch is near enough to matter. */
static bool matters(const struct sight *s, const struct shape *p)
{
	struct vec3 a = { p->ax, p->ay, 0 }, b = { p->bx, p->by, 0 }, hole = { 0, 0, 0 };

	return sb_clear_straight(a, b, hole, hole, NULL, NULL) <= p->keep + FAR * s->sigma_y;
}

static void take_shape(struct sight *s, struct shape p)
{
	if (!matters(s, &p))
		return;
	if (s->count < CLEAR_MOST) {
		s->shapes[s->count++] = p;
		return;
	}
	struct shape *last = &s->shapes[CLEAR_MOST - 1];
	double reach = hypot(p.ax - last->ax, p.ay - last->ay) + hypot(p.bx - p.ax, p.by - p.ay);
	last->keep = fmax(last->keep, reach + p.keep);
}

double sb_clear_chance(struct vec3 at, struct vec3 heading, double before_m, double after_m,
	const struct sym3 *covariance, const struct clear_stretch *stretches, size_t count)
{
	struct sight s = { .count = 0 };
	struct vec3 x, y;

	axes_across(heading, &x, &y);
	turn_axes(covariance, &x, &y, &s);
	for (size_t i = 0; i < count; i++) {
		struct clear_stretch part = stretches[i];
		if (!clip(&part, at, heading, -before_m - part.keep_m, after_m + part.keep_m))
			continue;
		struct vec3 a = sb_vec3_sub(part.a, at), b = sb_vec3_sub(part.b, at);
		take_shape(&s,
			(struct shape){ sb_vec3_dot(a, x), sb_vec3_dot(a, y), sb_vec3_dot(b, x),
				sb_vec3_dot(b, y), part.keep_m });
	}
	if (s.count == 0)
		return 0;
	return s.sigma_x > 0 ? fmin(integrate(&s), 1) : share_at(&s, 0);
}
