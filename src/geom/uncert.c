/* Errors of readings carried into positions, to first order.
 *
 * 1. A station's angles bend two courses, the one that ends there and the one that begins there. So at the
 *    last station only half of what it will do has been done: `last` keeps that half by itself, and the next
 *    course adds the other half before it is squared into `settled`.
 * 2. The length between two depths is an error of both with opposite signs; a joint's own length is an error
 *    of one course and moves all that follows by the same vector: it is settled at once.
 * 3. A borrowed attitude is no second error: what it does is added to the reading that it was borrowed from.
 *    So is the depth of a bit, which lies a known length ahead of its sensor.
 */
#include "geom/uncert.h"

#include "geom/angle.h"

#include <assert.h>
#include <math.h>

const struct uncert_sort sb_uncert_sorts[UNCERT_TERMS] = {
	[UNCERT_INCLINATION_BIAS] = { "inclination bias", UNCERT_SYSTEMATIC },
	[UNCERT_AZIMUTH_BIAS] = { "azimuth bias", UNCERT_SYSTEMATIC },
	[UNCERT_DECLINATION] = { "declination", UNCERT_GLOBAL },
	[UNCERT_INTERFERENCE] = { "magnetism of the string", UNCERT_SYSTEMATIC },
	[UNCERT_CARRIED_BIAS] = { "bias of carried azimuths", UNCERT_SYSTEMATIC },
	[UNCERT_DEPTH_SCALE] = { "depth scale", UNCERT_SYSTEMATIC },
	[UNCERT_INCLINATION_NOISE] = { "inclination noise", UNCERT_RANDOM },
	[UNCERT_AZIMUTH_NOISE] = { "azimuth noise", UNCERT_RANDOM },
	[UNCERT_CARRIED_NOISE] = { "noise of carried azimuths", UNCERT_RANDOM },
	[UNCERT_DEPTH_NOISE] = { "depth noise", UNCERT_RANDOM },
	[UNCERT_LENGTH_NOISE] = { "joint lengths", UNCERT_RANDOM },
};

/* ---- the course ---- */

/* The ratio factor tan(h)/h of half a dogleg h, and G = RF'(2h)/sin(2h) = (h - sin h cos h) / (4 h^2 sin h
 * cos^3 h). The difference on top is rewritten by its series where it would cancel. */
struct bend_factor {
	double ratio, slope;
};

static struct bend_factor bend_factor(double dogleg_rad)
{
	double h = dogleg_rad / 2, y = h * h;

	if (h < 0.05) {
		double top = 2 / 3.0 - y * (2 / 15.0 - y * (4 / 315.0 - y * (2 / 2835.0)));
		double sinc = 1 - y * (1 / 6.0 - y * (1 / 120.0 - y / 5040.0));
		double cosine = 1 - y * (0.5 - y * (1 / 24.0 - y / 720.0));
		return (struct bend_factor){ sinc / cosine, top / (4 * sinc * cosine * cosine * cosine) };
	}
	double s = sin(h), c = cos(h);
	return (struct bend_factor){ s / (c * h), (h - s * c) / (4 * y * s * c * c * c) };
}

/* How a heading moves as its inclination and its azimuth do. */
static void heading_moves(const struct attitude *a, struct vec3 *by_inc, struct vec3 *by_azi)
{
	double sin_azi, cos_azi;

	*by_azi = (struct vec3){ -a->heading.e, a->heading.n, 0 };
	if (a->sin_inc > 0) {
		double level = a->cos_inc / a->sin_inc;
		*by_inc = (struct vec3){ a->heading.n * level, a->heading.e * level, a->sin_inc };
		return;
	}
	sb_sin_cos(a->azi_rad, &sin_azi, &cos_azi);
	*by_inc = (struct vec3){ a->cos_inc * cos_azi, a->cos_inc * sin_azi, 0 };
}

static struct vec3 step_moves(const struct arc *arc, const struct bend_factor *f, struct vec3 sum,
	struct vec3 heading_move, struct vec3 other)
{
	struct vec3 straight = sb_vec3_scale(heading_move, f->ratio);
	struct vec3 bend = sb_vec3_scale(sum, f->slope * sb_vec3_dot(heading_move, other));

	return sb_vec3_scale(sb_vec3_sub(straight, bend), arc->length_m / 2);
}

struct uncert_course sb_uncert_course(
	const struct attitude *from, const struct attitude *to, const struct arc *arc)
{
	struct bend_factor f = { 1, 0 };
	struct vec3 sum = sb_vec3_add(arc->start, arc->end), from_inc, from_azi, to_inc, to_azi;

	if (arc->dogleg_rad <= SB_PI / 2)
		f = bend_factor(arc->dogleg_rad);
	heading_moves(from, &from_inc, &from_azi);
	heading_moves(to, &to_inc, &to_azi);
	return (struct uncert_course){
		.by_inc_from = step_moves(arc, &f, sum, from_inc, arc->end),
		.by_azi_from = step_moves(arc, &f, sum, from_azi, arc->end),
		.by_inc_to = step_moves(arc, &f, sum, to_inc, arc->start),
		.by_azi_to = step_moves(arc, &f, sum, to_azi, arc->start),
	};
}

/* The step for one metre more of depth at its end. */
static struct vec3 by_depth(const struct arc *arc)
{
	if (arc->length_m > 0)
		return sb_vec3_scale(arc->step, 1 / arc->length_m);
	return sb_vec3_scale(sb_vec3_add(arc->start, arc->end), 0.5);
}

/* ---- sums ---- */

static void add_square(struct sym3 *c, struct vec3 v)
{
	c->nn += v.n * v.n;
	c->ee += v.e * v.e;
	c->uu += v.u * v.u;
	c->ne += v.n * v.e;
	c->nu += v.n * v.u;
	c->eu += v.e * v.u;
}

static void add_own(struct sym3 *c, const struct uncert_own *own)
{
	add_square(c, own->inc);
	add_square(c, own->azi);
	add_square(c, own->depth);
}

static void add_scaled(struct vec3 *to, struct vec3 v, double k)
{
	to->n += v.n * k;
	to->e += v.e * k;
	to->u += v.u * k;
}

/* What an error at one end of a course does to its step, m per rad and m per m of depth. */
struct course_end {
	struct vec3 inc, azi, depth;
};

static void add_noise(const struct uncert_model *m, const struct uncert_station *s,
	const struct course_end *e, struct uncert_own *own)
{
	add_scaled(&own->inc, e->inc, m->sigma[UNCERT_INCLINATION_NOISE]);
	add_scaled(&own->azi, e->azi, m->sigma[s->carried ? UNCERT_CARRIED_NOISE : UNCERT_AZIMUTH_NOISE]);
}

/* The weights of the shared terms at one end, whose attitude s read. */
static void add_shared(const struct uncert_model *m, const struct uncert_station *s,
	const struct course_end *e, double md_m, struct vec3 shared[UNCERT_SHARED])
{
	add_scaled(&shared[UNCERT_INCLINATION_BIAS], e->inc, 1);
	add_scaled(&shared[UNCERT_DEPTH_SCALE], e->depth, md_m);
	if (s->carried) {
		add_scaled(&shared[UNCERT_CARRIED_BIAS], e->azi, 1);
		return;
	}
	double across = s->attitude->sin_inc * sin(s->attitude->azi_rad + m->to_magnetic_rad);
	add_scaled(&shared[UNCERT_AZIMUTH_BIAS], e->azi, 1);
	add_scaled(&shared[UNCERT_DECLINATION], e->azi, 1);
	add_scaled(&shared[UNCERT_INTERFERENCE], e->azi, across);
}

struct uncert sb_uncert_begin(void)
{
	return (struct uncert){ .settled = { 0 } };
}

struct uncert sb_uncert_next(const struct uncert_model *m, const struct uncert *at,
	const struct uncert_station *from, const struct uncert_station *to, const struct arc *arc, int joints)
{
	assert(!(from->borrowed && to->borrowed));
	struct uncert next = *at;
	struct uncert_course course = sb_uncert_course(from->attitude, to->attitude, arc);
	struct vec3 longer = by_depth(arc);
	struct course_end begins = { course.by_inc_from, course.by_azi_from, sb_vec3_scale(longer, -1) };
	struct course_end ends = { course.by_inc_to, course.by_azi_to, longer };
	const struct uncert_station *read_from = from->borrowed ? to : from;
	const struct uncert_station *read_to = to->borrowed ? from : to;

	add_shared(m, read_from, &begins, from->md_m, next.shared);
	add_shared(m, read_to, &ends, to->md_m, next.shared);
	next.before = at->last;
	next.last = (struct uncert_own){ .inc = { 0 } };
	add_noise(m, read_from, &begins, from->borrowed ? &next.last : &next.before);
	add_noise(m, read_to, &ends, to->borrowed ? &next.before : &next.last);
	add_scaled(&next.before.depth, begins.depth, m->sigma[UNCERT_DEPTH_NOISE]);
	add_scaled(to->borrowed ? &next.before.depth : &next.last.depth, ends.depth,
		m->sigma[UNCERT_DEPTH_NOISE]);
	add_own(&next.settled, &next.before);
	double length = m->sigma[UNCERT_LENGTH_NOISE];
	add_square(&next.settled, sb_vec3_scale(longer, length * sqrt((double)joints)));
	return next;
}

struct sym3 sb_uncert_noise(const struct uncert *at)
{
	struct sym3 c = at->settled;

	add_own(&c, &at->last);
	return c;
}

struct sym3 sb_uncert_covariance(const struct uncert_model *m, const struct uncert *at)
{
	struct sym3 c = sb_uncert_noise(at);

	for (int t = 0; t < UNCERT_SHARED; t++)
		add_square(&c, sb_vec3_scale(at->shared[t], m->sigma[t]));
	return c;
}

static void add_outer(double c[3][3], struct vec3 row, struct vec3 column)
{
	const double r[3] = { row.n, row.e, row.u }, k[3] = { column.n, column.e, column.u };

	for (int i = 0; i < 3; i++)
		for (int j = 0; j < 3; j++)
			c[i][j] += r[i] * k[j];
}

void sb_uncert_common(const struct uncert *at, const struct uncert *next, double c[3][3])
{
	const struct sym3 *s = &at->settled;
	const double settled[3][3] = { { s->nn, s->ne, s->nu }, { s->ne, s->ee, s->eu },
		{ s->nu, s->eu, s->uu } };

	for (int i = 0; i < 3; i++)
		for (int j = 0; j < 3; j++)
			c[i][j] = settled[i][j];
	add_outer(c, at->last.inc, next->before.inc);
	add_outer(c, at->last.azi, next->before.azi);
	add_outer(c, at->last.depth, next->before.depth);
}

double sb_uncert_between(const struct sym3 *c, struct vec3 a, struct vec3 b)
{
	return c->nn * a.n * b.n + c->ee * a.e * b.e + c->uu * a.u * b.u + c->ne * (a.n * b.e + a.e * b.n) +
		c->nu * (a.n * b.u + a.u * b.n) + c->eu * (a.e * b.u + a.u * b.e);
}

double sb_uncert_along(const struct sym3 *c, struct vec3 direction)
{
	return sqrt(fmax(sb_uncert_between(c, direction, direction), 0));
}
