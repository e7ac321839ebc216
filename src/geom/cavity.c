/* The limit of cavity expansion in one formula for sand and clay. */
#include "geom/cavity.h"

#include "geom/angle.h"

#include <math.h>
#include <stdbool.h>

/* (e^y - 1)/y, 1 at 0. */
static double grown(double y)
{
	return y == 0 ? 1 : expm1(y) / y;
}

static bool sound(const struct cavity *c)
{
	return c->cohesion_pa >= 0 && c->friction_rad >= 0 && c->friction_rad < SB_PI / 2 &&
		c->shear_pa > 0 && c->hole_m > 0 && c->plastic_m >= 0 && c->tension_pa >= 0 &&
		isfinite(c->stress_pa) && isfinite(c->pore_pa) && isfinite(c->cohesion_pa) &&
		isfinite(c->hole_m) && isfinite(c->plastic_m);
}

enum cavity_status sb_cavity_limit(const struct cavity *c, struct cavity_limit *out)
{
	if (!sound(c))
		return CAVITY_BAD;
	if (!(c->stress_pa > 0))
		return CAVITY_AFLOAT;
	double sine = sin(c->friction_rad), cosine = cos(c->friction_rad);
	double strength = c->stress_pa * sine + c->cohesion_pa * cosine; /* half the difference at yield */
	double yield = c->stress_pa + strength;
	double narrow = c->hole_m / fmax(c->plastic_m, c->hole_m), stretched = strength / c->shear_pa;
	/* the share of the yielded circle that the hole, as wide as it is then, takes up: not more than all
	 */
	double share = fmin(narrow * narrow + stretched, 1);
	double y = -sine / (1 + sine) * log(share);
	double plastic = yield * exp(y) - c->cohesion_pa * cosine * log(share) / (1 + sine) * grown(y);
	bool parts = strength - c->stress_pa > c->tension_pa;

	*out = (struct cavity_limit){
		.limit_pa = c->pore_pa + (parts ? 2 * c->stress_pa + c->tension_pa : plastic),
		.yield_pa = c->pore_pa + yield,
		.stretched = stretched,
		.rule = parts	    ? CAVITY_TENSION
			: share < 1 ? CAVITY_PLASTIC
				    : CAVITY_WALL,
	};
	return CAVITY_OK;
}
