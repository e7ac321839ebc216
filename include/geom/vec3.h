/* Vectors in the ground: north, east, up, in metres or as directions. */
#ifndef SB_GEOM_VEC3_H
#define SB_GEOM_VEC3_H

struct vec3 {
	double n, e, u;
};

static inline struct vec3 sb_vec3_add(struct vec3 a, struct vec3 b)
{
	return (struct vec3){ a.n + b.n, a.e + b.e, a.u + b.u };
}

static inline struct vec3 sb_vec3_sub(struct vec3 a, struct vec3 b)
{
	return (struct vec3){ a.n - b.n, a.e - b.e, a.u - b.u };
}

static inline struct vec3 sb_vec3_scale(struct vec3 a, double k)
{
	return (struct vec3){ a.n * k, a.e * k, a.u * k };
}

static inline double sb_vec3_dot(struct vec3 a, struct vec3 b)
{
	return a.n * b.n + a.e * b.e + a.u * b.u;
}

double sb_vec3_length(struct vec3 a);

/* Given:    a, b   vectors, not zero, of any length
 * Returned: the angle between them, 0..pi, from atan2: exact near 0 and near pi, where acos is not. */
double sb_vec3_angle(struct vec3 a, struct vec3 b);

/* The direction of drilling: inclination from straight down, azimuth clockwise from north.
 * (sin i cos a, sin i sin a, -cos i) */
struct vec3 sb_vec3_heading(double inc_rad, double azi_rad);

/* The attitude of a direction (not zero): inclination 0..pi, azimuth [0, 2 pi); straight down or up has
 * azimuth 0. */
void sb_vec3_attitude(struct vec3 heading, double *inc_rad, double *azi_rad);

#endif
