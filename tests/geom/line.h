/* Lines of tangents and curves for the tests, built and walked. */
#ifndef TESTS_GEOM_LINE_H
#define TESTS_GEOM_LINE_H

#include "geom/angle.h"
#include "geom/chain.h"

#include "random.h"
#include "support/near.h"

#define LINE_PIS 64

struct line {
	struct chain_pi pis[LINE_PIS];
	size_t pi_count;
	struct chain_part parts[2 * LINE_PIS];
	size_t count;
	double length;
};

/* Builds what its pis say; the line may have corners. */
static inline void line_build(struct line *l)
{
	assert_true(sb_chain_build(l->pis, l->pi_count, l->parts, &l->count, NULL, NULL) >= CHAIN_OK);
	assert_true(l->count >= 1 && l->count <= 2 * l->pi_count - 1);
	l->length = sb_chain_length(l->parts, l->count);
}

static inline struct chain_place line_at(const struct line *l, double at)
{
	return sb_chain_at(l->parts, l->count, at);
}

/* The point `offset` off the line, to the side of growing bearing. */
static inline void line_beside(const struct line *l, double at, double offset, double *x, double *y)
{
	struct chain_place p = line_at(l, at);
	*x = p.x - offset * sin(p.bearing);
	*y = p.y + offset * cos(p.bearing);
}

/* Legs of 60 to 300, each within `swing` radians of the first bearing; curves that take up to nine tenths
 * of the room there is, none where `corners` says and chance has it. */
static inline void line_random(struct random *r, struct line *l, size_t pi_count, double swing, int corners)
{
	double bearing = random_between(r, -SB_PI, SB_PI), lengths[LINE_PIS], bearings[LINE_PIS];

	l->pi_count = pi_count;
	l->pis[0] = (struct chain_pi){ random_between(r, -500, 500), random_between(r, -500, 500), 0 };
	for (size_t i = 0; i + 1 < pi_count; i++) {
		lengths[i] = random_between(r, 60, 300);
		bearings[i] = bearing + random_between(r, -swing, swing);
		l->pis[i + 1] = (struct chain_pi){ l->pis[i].x + lengths[i] * cos(bearings[i]),
			l->pis[i].y + lengths[i] * sin(bearings[i]), 0 };
	}
	for (size_t i = 1; i + 1 < pi_count; i++) {
		double room = fmin(lengths[i - 1], lengths[i]) / 2 * random_between(r, 0.1, 0.9);
		double turn = fabs(sb_wrap_half(bearings[i] - bearings[i - 1]));
		l->pis[i].radius = corners && random_unit(r) < 0.4 ? 0 : room / tan(turn / 2);
	}
	line_build(l);
}

#endif
