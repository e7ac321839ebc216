/* Slips of the pen, caught at the keyboard: what looks wrong with a reading, and what was likely meant.
 *
 * Nothing is changed silently and nothing forbidden: a suspicion that is `held` needs a reason to be
 * logged as it is; the others are only said.
 */
#ifndef SB_MODEL_BLUNDER_H
#define SB_MODEL_BLUNDER_H

#include "model/solve.h"

struct suspicion {
	bool held;	   /* needs a reason; else a remark only */
	const char *field; /* the row field it is about: "azimuth" */
	bool has_likely;
	struct number likely; /* the value that was likely meant, as one would type it */
	char slip[48];	      /* what kind of slip: "two digits swapped" */
	char text[320];	      /* one or two sentences for the hand */
};

#define SB_SUSPICIONS 6

/* Given:    trial      the reading about to be logged; joint_length given
 *           bit_depth, survey_depth   as read on the rig, job unit, if somebody gave one to compare
 * Returned: how many suspicions were put into out, held ones first. */
struct depth_check {
	struct number bit_depth, survey_depth;
};
size_t sb_blunder_look(const struct job *job, const struct solution *s, const struct reading *trial,
	const struct depth_check *depths, struct suspicion out[SB_SUSPICIONS]);

/* The same for a joint of the present path that is about to be corrected: `corrected` is looked at as if the
 * joints after `old` had not been drilled yet. A correction has its reason, so it is for the caller to say
 * what was found or to ask. Returned: how many; 0 for a joint of a leg that was withdrawn. */
size_t sb_blunder_look_again(const struct job *job, const struct reading *old,
	const struct reading *corrected, struct suspicion out[SB_SUSPICIONS]);

#endif
