/* Angles: radians everywhere; degrees only at the edges. */
#ifndef SB_GEOM_ANGLE_H
#define SB_GEOM_ANGLE_H

#define SB_PI 3.14159265358979323846

/* Exact at multiples of 90 degrees: 90 becomes the double nearest pi/2. */
static inline double sb_rad(double degrees)
{
	return degrees * (SB_PI / 180);
}

static inline double sb_deg(double radians)
{
	return radians * (180 / SB_PI);
}

double sb_wrap_turn(double radians); /* into [0, 2 pi) */
double sb_wrap_half(double radians); /* into (-pi, pi]: half a turn, within rounding, is +pi */

/* Both at once, exact at quarter turns: where one of them is 0 but for the rounding of the angle (below
 * 5e-16), it is 0, so that a level course stays level and one due east goes no way north. */
void sb_sin_cos(double radians, double *sine, double *cosine);

#endif
