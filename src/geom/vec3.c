/* Directions in the ground and the attitude that a tool reads for them. */
#include "geom/vec3.h"

#include "geom/angle.h"

#include <math.h>

/* A direction this close to the plumb line has no azimuth: what is left beside it is rounding, radians. */
#define PLUMB 1e-15

double sb_vec3_length(struct vec3 a)
{
	return sqrt(sb_vec3_dot(a, a));
}

double sb_vec3_angle(struct vec3 a, struct vec3 b)
{
	struct vec3 cross = { a.e * b.u - a.u * b.e, a.u * b.n - a.n * b.u, a.n * b.e - a.e * b.n };
	return atan2(sb_vec3_length(cross), sb_vec3_dot(a, b));
}

struct vec3 sb_vec3_heading(double inc_rad, double azi_rad)
{
	double sin_inc, cos_inc, sin_azi, cos_azi;
	sb_sin_cos(inc_rad, &sin_inc, &cos_inc);
	sb_sin_cos(azi_rad, &sin_azi, &cos_azi);
	return (struct vec3){ sin_inc * cos_azi, sin_inc * sin_azi, 0 - cos_inc };
}

void sb_vec3_attitude(struct vec3 heading, double *inc_rad, double *azi_rad)
{
	double level = hypot(heading.n, heading.e);
	*inc_rad = atan2(level, -heading.u);
	*azi_rad = level <= PLUMB * fabs(heading.u) ? 0 : sb_wrap_turn(atan2(heading.e, heading.n));
}
