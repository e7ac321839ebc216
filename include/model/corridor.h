/* What the contract allows beside the design line, station by station, and at the exit. */
#ifndef SB_MODEL_CORRIDOR_H
#define SB_MODEL_CORRIDOR_H

#include "model/frame.h"

/* Four distances from the design line, metres, each >= 0; HUGE_VAL: the contract sets none. */
struct corridor_limits {
	double up_m, down_m, left_m, right_m;
};

struct corridor_piece {
	double from_m, to_m;
	struct corridor_limits limits;
};

struct corridor {
	struct corridor_limits general;
	struct corridor_piece *pieces; /* by station; pieces do not overlap */
	size_t count;
	double near;						     /* share from which it is a watch */
	double exit_long_m, exit_short_m, exit_left_m, exit_right_m; /* HUGE_VAL: none */
};

int sb_corridor_build(
	const struct job *job, const struct frame *f, struct corridor *out, struct sb_problems *problems);
void sb_corridor_clear(struct corridor *c);

/* The limits at a station; where two pieces meet, the narrower on each side. */
struct corridor_limits sb_corridor_at(const struct corridor *c, double station_m);

enum side { SIDE_NONE, SIDE_UP, SIDE_DOWN, SIDE_LEFT, SIDE_RIGHT };
const char *sb_side_word(enum side s); /* "high", "low", "left", "right" */

/* How much of the corridor is used: offset right positive, height high positive, metres.
 * share 1 is the limit itself; a limit of 0 that is passed counts as SB_SHARE_MOST. */
#define SB_SHARE_MOST 999.0
struct corridor_use {
	double share;
	enum side side;		 /* the worst */
	double value_m, limit_m; /* on that side, both positive */
};
struct corridor_use sb_corridor_use(const struct corridor_limits *l, double offset_m, double height_m);

#endif
