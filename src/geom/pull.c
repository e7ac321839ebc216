/* A pipe's pull through a hole. */
#include "geom/pull.h"

#include "geom/angle.h"

#include <math.h>

/* Not below 0. What is no number stays none: fmax would make 0 of it, a force that looks safe. */
static double from_0(double value)
{
	return value < 0 ? 0 : value;
}

/* ---- the beam under tension ---- */

/* f = 1 - tanh(x)/x, so X = (L/4) f; g = 1 - 2 (1 - 1/cosh x)/x^2, so Y = (L^2/8) g. Below 0.05 by series,
 * where the next term is under 1e-9 of the first: the closed forms lose digits as x^2. Returned over x^2. */
static void shapes(double x, double *f, double *g)
{
	double q = x * x;

	if (x < 0.05) {
		*f = 1.0 / 3 - q * (2.0 / 15 - q * (17.0 / 315 - q * 62.0 / 2835));
		*g = 5.0 / 12 - q * (61.0 / 360 - q * (277.0 / 4032 - q * 50521.0 / 1814400));
	} else {
		*f = (1 - tanh(x) / x) / q;
		*g = (1 - 2 * (1 - 1 / cosh(x)) / q) / q;
	}
}

/* T = 4 x^2 E I / L^2: T h / X = 16 E I h / (L^3 f/x^2), and w Y / X = w L g / (2 f). */
double sb_pull_beam(double stiffness, double tension_n, double length_m, double aside_m, double load_n_m)
{
	double x = length_m / 2 * sqrt(from_0(tension_n) / stiffness), f, g;

	shapes(x, &f, &g);
	return 16 * stiffness * aside_m / (length_m * length_m * length_m * f) -
		load_n_m * length_m * g / (2 * f);
}

/* ---- legs ---- */

static struct vec3 unit_or(struct vec3 a, struct vec3 other)
{
	double length = sb_vec3_length(a);

	return length > 1e-12 ? sb_vec3_scale(a, 1 / length) : other;
}

struct pull_leg sb_pull_leg(double length_m, struct vec3 heading_from, struct vec3 heading_to, double room_m)
{
	struct pull_leg leg = {
		.length_m = length_m,
		.along = unit_or(sb_vec3_add(heading_from, heading_to), heading_from),
		.inside = unit_or(sb_vec3_sub(heading_to, heading_from), (struct vec3){ 0, 0, 1 }),
		.turn_rad = sb_vec3_angle(heading_from, heading_to),
	};

	/* R (1 - cos(a/2)) = (L/a) 2 sin^2(a/4) */
	if (leg.turn_rad > 1e-9) {
		double quarter = sin(leg.turn_rad / 4);
		leg.aside_m = length_m / leg.turn_rad * 2 * quarter * quarter;
	}
	leg.bent = leg.turn_rad > 1e-9 && leg.aside_m > room_m;
	return leg;
}

double sb_pull_contact(
	const struct pull_leg *leg, const struct pull_terms *t, double tension_n, double weight_n_m)
{
	/* The weight square to the leg, in its plane towards the inside, and out of that plane. */
	double in_plane = leg->turn_rad > 1e-9 ? -weight_n_m * leg->inside.u : 0;
	double square = weight_n_m * weight_n_m * from_0(1 - leg->along.u * leg->along.u);
	double across = sqrt(from_0(square - in_plane * in_plane));
	double pressing = leg->bent
		? 2 * sb_pull_beam(t->stiffness, tension_n, leg->length_m, leg->aside_m, -in_plane) /
			leg->length_m
		: tension_n * leg->turn_rad / leg->length_m + in_plane;

	return hypot(pressing, across);
}

/* What comes out when the mean tension is that of `out`. */
struct crossing {
	const struct pull_leg *leg;
	const struct pull_terms *terms;
	double in, length_m, weight_n_m, fixed;
};

static double next_out(const struct crossing *c, double out)
{
	double mean = from_0((c->in + out) / 2);

	return c->in +
		c->terms->friction * sb_pull_contact(c->leg, c->terms, mean, c->weight_n_m) * c->length_m +
		c->fixed;
}

/* The next round is out by about mu turn / 2 of the one before, and so evenly that Aitken's step ends it: a
 * few rounds to the last digits. */
double sb_pull_across(const struct pull_leg *leg, const struct pull_terms *t, double tension_n,
	double length_m, double weight_n_m, double lift_n)
{
	const struct crossing c = { leg, t, tension_n, length_m, weight_n_m,
		t->drag_n_m * length_m + lift_n };
	double out = tension_n;

	for (int i = 0; i < 30; i++) {
		double once = next_out(&c, out), step = once - out;
		out = once;
		if (fabs(step) <= 1e-10 * fabs(once) + 1e-9)
			break;
		double twice = next_out(&c, once), second = twice - once;
		out = twice;
		if (fabs(second) < 0.9 * fabs(step))
			out = once + second * step / (step - second);
	}
	return from_0(out);
}

double sb_pull_capstan(const struct pull_leg *leg, double friction, double tension_n, double length_m,
	double weight_n_m, double lift_n)
{
	double turn = leg->turn_rad * length_m / leg->length_m;

	return from_0(exp(friction * turn) * (tension_n + friction * fabs(weight_n_m) * length_m + lift_n));
}

/* ---- ASTM F1962 ---- */

static int positive(double value)
{
	return value > 0 && value < HUGE_VAL;
}

static int not_negative(double value)
{
	return value >= 0 && value < HUGE_VAL;
}

enum f1962_status sb_pull_f1962(const struct f1962 *in, struct f1962_forces *out)
{
	if (!positive(in->in_rad) || !positive(in->out_rad) || !positive(in->cross_m) ||
		!positive(in->air_n_m) || !not_negative(in->depth_m) || !not_negative(in->extra_m) ||
		!not_negative(in->friction_ground) || !not_negative(in->friction_hole) ||
		!isfinite(in->float_n_m))
		return F1962_RANGE;
	double l2 = 2 * in->depth_m / in->in_rad, l4 = 2 * in->depth_m / in->out_rad;
	double l3 = in->cross_m - l2 - l4;
	if (l3 < 0)
		return F1962_SHORT;
	double va = in->friction_ground, vb = in->friction_hole, w = in->float_n_m, floats = fabs(w);
	double ground = exp(va * in->in_rad) * va * in->air_n_m; /* per length that still lies outside */
	double ea = exp(vb * in->in_rad), eb = exp(vb * in->out_rad);
	double ta = ground * (in->extra_m + l2 + l3 + l4);
	double tb = ea * (ta + vb * floats * l2 + w * in->depth_m - ground * l2);
	double tc = tb + vb * floats * l3 - ea * ground * l3;
	double td = eb * (tc + vb * floats * l4 - w * in->depth_m - ea * ground * l4);
	*out = (struct f1962_forces){ { in->extra_m, l2, l3, l4 }, { ta, tb, tc, td } };
	return F1962_OK;
}

double sb_pull_hydrokinetic(double pressure_pa, double hole_m, double pipe_m)
{
	return pressure_pa * SB_PI / 8 * (hole_m * hole_m - pipe_m * pipe_m);
}
