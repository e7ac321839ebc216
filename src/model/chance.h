/* Chance that every machine repeats: the same seed, stream and number give the same draws, and a draw more in
 * one stream moves nothing in another.
 */
#ifndef SB_SRC_MODEL_CHANCE_H
#define SB_SRC_MODEL_CHANCE_H

#include <stdint.h>

struct chance {
	uint64_t state;
};

/* Given: seed      of the bore
 *        stream    what it is for (ground, noise ...)
 *        number    of the zone, joint, cell ... that it belongs to */
struct chance sb_chance_begin(uint64_t seed, uint64_t stream, uint64_t number);

double sb_chance_unit(struct chance *c); /* [0, 1) */
double sb_chance_between(struct chance *c, double low, double high);
int sb_chance_whole(struct chance *c, int count); /* 0 .. count - 1 */

/* Mean 0, sigma 1. By comparisons, sums and products of uniform draws alone, which are exact to the last bit
 * everywhere; no logarithm, no cosine. */
double sb_chance_normal(struct chance *c);

#endif
