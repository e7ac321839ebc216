/* Seeded chance. The generator is splitmix64 (Steele, Lea and Flood, "Fast splittable pseudorandom number
 * generators", 2014; constants from memory); the stream and the number are mixed into the seed by the same
 * function. Normal draws by von Neumann's rejections ("Various techniques used in connection with random
 * digits", 1951).
 */
#include "chance.h"

#include <stdbool.h>

static uint64_t mix(uint64_t z)
{
	z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
	z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
	return z ^ (z >> 31);
}

struct chance sb_chance_begin(uint64_t seed, uint64_t stream, uint64_t number)
{
	const uint64_t step = 0x9e3779b97f4a7c15u;

	return (struct chance){ mix(mix(mix(seed + step) + step * (stream + 1)) + step * (number + 1)) };
}

double sb_chance_unit(struct chance *c)
{
	return (double)(mix(c->state += 0x9e3779b97f4a7c15u) >> 11) * 0x1p-53;
}

double sb_chance_between(struct chance *c, double low, double high)
{
	return low + (high - low) * sb_chance_unit(c);
}

int sb_chance_whole(struct chance *c, int count)
{
	return (int)(sb_chance_unit(c) * count);
}

/* Exponential, mean 1: the first run of falling draws that is odd in length; its first draw is the fraction,
 * and every even run before it adds 1. */
static double exponential(struct chance *c)
{
	for (double whole = 0;; whole++) {
		double first = sb_chance_unit(c), last = first;
		int run = 1;
		for (double next = sb_chance_unit(c); next < last; next = sb_chance_unit(c)) {
			last = next;
			run++;
		}
		if (run % 2 == 1)
			return whole + first;
	}
}

/* x from the exponential is kept with the chance exp(-(x - 1)^2 / 2), which another exponential decides. */
double sb_chance_normal(struct chance *c)
{
	for (;;) {
		double x = exponential(c), y = exponential(c);
		if (2 * y < (x - 1) * (x - 1))
			continue;
		bool minus = sb_chance_unit(c) < 0.5;
		return minus ? -x : x;
	}
}
