/* Angles wrapped into a decided range. Rounding must not decide which end of a range an angle falls on: a
 * difference of half a turn is +pi however it came about, and a hair below 0 is 0, not a whole turn.
 */
#include "geom/angle.h"

#include <math.h>

#define TURN (2 * SB_PI)

/* What subtracting two azimuths may be out by, radians: two units in the last place of a whole turn. */
#define ROUNDING 2e-15

double sb_wrap_turn(double radians)
{
	double r = radians >= 0 && radians < TURN ? radians : fmod(radians, TURN);
	if (r < 0)
		r += TURN;
	return r >= TURN ? 0 : r + 0.0; /* + 0.0: no minus zero */
}

double sb_wrap_half(double radians)
{
	double r = fabs(radians) < SB_PI - ROUNDING ? radians : remainder(radians, TURN);
	return r <= -SB_PI + ROUNDING ? SB_PI : r + 0.0;
}

static double quarter_exact(double x)
{
	return fabs(x) < 5e-16 ? 0 : x;
}

void sb_sin_cos(double radians, double *sine, double *cosine)
{
	*sine = quarter_exact(sin(radians));
	*cosine = quarter_exact(cos(radians));
}
