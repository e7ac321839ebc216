/* What a joint was drilled with: its slides and rotations, stretch by stretch, and what each is expected to
 * turn.
 */
#ifndef SB_MODEL_SLIDES_H
#define SB_MODEL_SLIDES_H

#include "model/frame.h"
#include "model/pushes.h"
#include "model/reading.h"

/* What the ground gives, as far as it is known (model/response.h learns it): rad per m slid, along the tool
 * face and clockwise across it; rad per m rotated, up and right. */
struct ground_gives {
	bool known;
	double along, across, drift_up, drift_right;
};

/* A stretch of a joint, from its start: slid_m of it was slid, in even pushes along it; the rest rotated. */
struct stretch {
	double from_m, to_m, slid_m;
	double face_rad; /* from high side, with the tool's offset; 0 where nothing was slid */
};
#define SB_STRETCHES (2 * SB_PUSHES + 1)

/* Whether the hand wrote down what was slid: a length, or pushes. */
bool sb_slides_written(const struct reading *r);

/* What was slid in all, job unit: as written, else the sum of the pushes; not given when neither was. */
struct number sb_slides_total(const struct reading *r);

/* Pushes against the rest of their row: past the joint's end, or another sum than what was slid. The sum may
 * be rounded as far as the length slid is: 14 stands for 13.5 to 14.5. -1 with err in words. A length of the
 * joint that is not given is not looked at. */
int sb_slides_check(const struct reading *r, struct sb_err *err);

/* The stretches of a joint, from start to end; frame: in which the reading is understood.
 * Given:    blank_is_none   a reading that says nothing of slides was rotated all through: the hand's habit
 * Returned: how many; 0 when it is not known what was done. */
size_t sb_slides_of(const struct reading *r, const struct frame *frame, bool blank_is_none,
	struct stretch out[SB_STRETCHES]);

/* What a stretch is expected to turn, rad per m, up and right of the high side. */
void sb_slides_rate(const struct ground_gives *g, const struct stretch *s, double *up, double *right);

#endif
