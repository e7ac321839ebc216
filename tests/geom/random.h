/* Chance that every run repeats: splitmix64 (Steele, Lea and Flood 2014; constants from memory), seeded. */
#ifndef TESTS_GEOM_RANDOM_H
#define TESTS_GEOM_RANDOM_H

#include <math.h>
#include <stdint.h>

struct random {
	uint64_t state;
};

static inline double random_unit(struct random *r)
{
	uint64_t z = (r->state += 0x9e3779b97f4a7c15u);
	z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
	z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
	return (double)((z ^ (z >> 31)) >> 11) * 0x1p-53;
}

static inline double random_between(struct random *r, double low, double high)
{
	return low + (high - low) * random_unit(r);
}

/* Mean 0, sigma 1, by Box and Muller. */
static inline double random_normal(struct random *r)
{
	double radius = sqrt(-2 * log(1 - random_unit(r)));
	return radius * cos(6.283185307179586 * random_unit(r));
}

#endif
