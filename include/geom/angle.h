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
double sb_wrap_half(double radians); /* into (-pi, pi]: exactly half a turn is +pi */

#endif
