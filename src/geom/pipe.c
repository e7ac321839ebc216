/* Sections, weights and checks of a pipe. */
#include "geom/pipe.h"

#include "geom/angle.h"

#include <math.h>

static int positive(double value)
{
	return value > 0 && value < HUGE_VAL;
}

static int not_negative(double value)
{
	return value >= 0 && value < HUGE_VAL;
}

/* Not below 0. What is no number stays none: fmax would make 0 of it, and a check that is kept. */
static double from_0(double value)
{
	return value < 0 ? 0 : value;
}

enum pipe_status sb_pipe_section(const struct pipe_given *g, struct pipe_section *out)
{
	if (!positive(g->outside_m) || !positive(g->wall_m) || !positive(g->density) ||
		!positive(g->modulus_pa) || !not_negative(g->coating_m) || !not_negative(g->coating_density))
		return PIPE_RANGE;
	if (g->wall_m >= g->outside_m / 2)
		return PIPE_THICK;
	double d = g->outside_m, in = d - 2 * g->wall_m, outer = d + 2 * g->coating_m;
	/* (D^2 - d^2) as (D - d)(D + d): thin walls lose no digits */
	double squares = 2 * g->wall_m * (d + in);
	*out = (struct pipe_section){
		.outside_m = d,
		.wall_m = g->wall_m,
		.inside_m = in,
		.outer_m = outer,
		.area_m2 = SB_PI / 4 * squares,
		.bore_m2 = SB_PI / 4 * in * in,
		.displaced_m2 = SB_PI / 4 * outer * outer,
		.inertia_m4 = SB_PI / 64 * squares * (d * d + in * in),
		.modulus_pa = g->modulus_pa,
	};
	out->stiffness = out->modulus_pa * out->inertia_m4;
	double coating_m2 = SB_PI * g->coating_m * (d + g->coating_m);
	out->air_n_m = SB_GRAVITY * (out->area_m2 * g->density + coating_m2 * g->coating_density);
	return PIPE_OK;
}

double sb_pipe_weight(const struct pipe_section *p, double fluid, double in_fluid, double filled)
{
	return p->air_n_m -
		SB_GRAVITY * (in_fluid * fluid * p->displaced_m2 - filled * SB_WATER * p->bore_m2);
}

double sb_pipe_bending(const struct pipe_section *p, double radius_m)
{
	return p->modulus_pa * p->outside_m / (2 * radius_m);
}

/* ---- steel ---- */

/* US customary limits of the code, psi, over Fy in psi; D/t has no unit, so the limits are turned into Pa. */
#define PSI 6894.757293168361

static double allowed_bending(double slender, double fy, double modulus)
{
	double share = fy * slender / modulus;

	if (slender <= 1.5e6 * PSI / fy)
		return 0.75 * fy;
	return slender <= 3e6 * PSI / fy ? (0.84 - 1.74 * share) * fy : (0.72 - 0.58 * share) * fy;
}

static double critical_hoop(double elastic, double fy)
{
	if (elastic <= 0.55 * fy)
		return elastic;
	if (elastic <= 1.6 * fy)
		return 0.45 * fy + 0.18 * elastic;
	return elastic < 6.2 * fy ? 1.31 * fy / (1.15 + fy / elastic) : fy;
}

struct steel_allows sb_pipe_steel_allows(const struct pipe_section *p, double yield_pa)
{
	double slender = p->outside_m / p->wall_m, elastic = 0.88 * p->modulus_pa / (slender * slender);
	struct steel_allows a = {
		.tension_pa = 0.9 * yield_pa,
		.bending_pa = allowed_bending(fmin(slender, 300), yield_pa, p->modulus_pa),
		.hoop_critical_pa = critical_hoop(elastic, yield_pa),
		.outside = slender > 300,
	};

	a.hoop_pa = a.hoop_critical_pa / 1.5;
	return a;
}

void sb_pipe_steel_checks(const struct pipe_section *p, double yield_pa, double poisson, double tension_n,
	double bending_pa, double pressure_pa, double ratio[PIPE_CHECKS])
{
	struct steel_allows allows = sb_pipe_steel_allows(p, yield_pa);
	double ft = tension_n / p->area_m2;
	double fh = from_0(pressure_pa) * p->outside_m / (2 * p->wall_m);
	double a = 1.25 * (ft + bending_pa - 0.5 * fh) / yield_pa, b = 1.5 * fh / allows.hoop_critical_pa;

	ratio[CHECK_TENSION] = ft / allows.tension_pa;
	ratio[CHECK_BENDING] = bending_pa / allows.bending_pa;
	ratio[CHECK_HOOP] = fh / allows.hoop_pa;
	ratio[CHECK_TENSION_BENDING] = ratio[CHECK_TENSION] + ratio[CHECK_BENDING];
	ratio[CHECK_ALL] = a * a + b * b + 2 * poisson * fabs(a) * b;
}

/* ---- polyethylene ---- */

double sb_pipe_pe_ovality(double ovality)
{
	return pow((1 - ovality) / ((1 + ovality) * (1 + ovality)), 3);
}

/* The formula ends where its root does; it is 1.0006 at no tension. */
double sb_pipe_pe_tension(double tension_pa, double pull_stress_pa)
{
	double r = from_0(tension_pa) / (2 * pull_stress_pa) + 1.09;

	return fmin(fmax(sqrt(fmax(5.57 - r * r, 0)) - 1.09, 0), 1);
}

double sb_pipe_pe_buckles(const struct pipe_section *p, double poisson, double ovality, double tension_pa,
	double pull_stress_pa)
{
	double thin = 1 / (p->outside_m / p->wall_m - 1);

	return 2 * p->modulus_pa / (1 - poisson * poisson) * thin * thin * thin *
		sb_pipe_pe_ovality(ovality) * sb_pipe_pe_tension(tension_pa, pull_stress_pa);
}
