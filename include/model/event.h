/* What an entry beside or after the pilot says of the limits: the spine (model/solve.c) asks it of every such
 * act, in the order of time, and opens the warnings that follow.
 *
 * Judges here, and all that they ask, know the parts of the solution (struct clearance_ask) and never
 * model/solve.h, which stands on them.
 */
#ifndef SB_MODEL_EVENT_H
#define SB_MODEL_EVENT_H

#include "model/clearance.h"

/* A kind of EVENT_EPISODE (struct warning_sort) is one episode while it lasts: a verdict of LEVEL_OK ends it.
 * One of EVENT_ALONE stands for itself; at the same joint the newest verdict takes the place of the one
 * before. */
struct finding {
	enum warning_kind kind;
	int leg;   /* 0: that of the act, or of the joint */
	int joint; /* of the pilot, where it happened */
	double station_m;
	struct verdict verdict;
};

#define SB_FINDINGS 6

/* Returned: how many events the act brings. Acts whose entry is struck out bring none. */
size_t sb_event_judge(
	const struct clearance_ask *ask, const struct act *act, struct finding out[SB_FINDINGS]);

/* The same of a joint of the pilot as it is logged, for kinds that are both of entries and of joints (struct
 * warning_sort). Said once: joints that stay in the ground when others are pulled back are not asked again.
 * r: its reading. */
size_t sb_event_judge_joint(const struct clearance_ask *ask, const struct row *row, const struct reading *r,
	struct finding out[SB_FINDINGS]);

#endif
