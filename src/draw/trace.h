/* What was drilled, what was given up, where the bit is, and where it goes: in any plane. */
#ifndef SB_DRAW_TRACE_H
#define SB_DRAW_TRACE_H

#include "draw/plane.h"

void sb_trace_drilled(const struct plane *p); /* the path as it is in the ground, to the last reading */
/* How far off it may be, at the contract's confidence: a dotted line on each side of it. */
void sb_trace_doubt(const struct plane *p);
void sb_trace_superseded(const struct plane *p); /* stretches that were withdrawn, each from where it left */
void sb_trace_bit(const struct plane *p);	 /* from the last reading to the bit */
void sb_trace_fixes(const struct plane *p);	 /* where independent fixes put the hole */
void sb_trace_held(const struct plane *p);	 /* ahead of the bit, straight on */
void sb_trace_plan(const struct plane *p);	 /* the window's plan, and the one that was pinned */
void sb_trace_trial(const struct plane *p, const struct preview *trial); /* nothing if it is NULL */

#endif
