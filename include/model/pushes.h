/* The pushes of a joint, as a hand writes them: slides that were not even, each FROM:LENGTH@FACE from the
 * joint's start, with ; between: "0:8@60; 20:6@75". Lengths in the job's unit; the face in degrees clockwise
 * from high side, looking ahead, as the tool showed it.
 */
#ifndef SB_MODEL_PUSHES_H
#define SB_MODEL_PUSHES_H

#include "base/err.h"
#include "base/unit.h"

#include <stddef.h>

#define SB_PUSHES 48 /* more do not fit into the field */

struct noted_push {
	struct number from, length, face;
};

struct pushes {
	struct noted_push list[SB_PUSHES];
	size_t count;
};

/* Returned: out   the pushes in their order along the joint; none for blank text. -1 with err in words when
 *                 the text is not like that: not a number, no length, a face out of range, one that begins
 *                 before the one before it ended. out is then not to be used. */
int sb_pushes_parse(const char *text, struct pushes *out, struct sb_err *err);

double sb_pushes_slid(const struct pushes *p); /* their lengths together */
double sb_pushes_end(const struct pushes *p);  /* where the last one ends */

#endif
