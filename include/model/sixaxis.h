/* Readings that come as vectors of gravity and magnetic field, or with the totals and the dip that the tool
 * showed: what they say, and whether they can be believed.
 *
 * The vectors are kept as the tool gave them. Inclination, azimuth and tool face are worked out when the
 * joint is entered and stand in the row beside them, as a tool that works them out by itself would have shown
 * them.
 */
#ifndef SB_MODEL_SIXAXIS_H
#define SB_MODEL_SIXAXIS_H

#include "model/field.h"
#include "model/frame.h"

/* Whether any, and whether all, of the six components are given. */
bool sb_sixaxis_any(const struct reading *r);
bool sb_sixaxis_all(const struct reading *r);

/* Purpose:  works out what the vectors say and was not typed: inclination, azimuth, tool face (of a slide
 *           too), totals and dip
 * Given:    job    the settings as they stand (the tool's axes, units, biases)
 * Returned: r      0; -1 with err when components are missing, have no length, or the hole is plumb. SB_HELD,
 *                  which r->reason releases: what was typed beside them says something else (by more than a
 *                  tenth of a degree), or they are in another unit, or exchanged; with a reason what was
 *                  typed stands, and the joint's warnings say it */
int sb_sixaxis_fill(const struct job *job, struct reading *r, struct sb_err *err);

struct sixaxis_verdict {
	struct field_verdict field; /* with words */
	double may_turn_rad;	    /* how far steel may have turned the azimuth, >= 0; NAN: not told */
};

/* Purpose:  judges totals and dip by the sheet's gates; a total field that the sheet names none for, by what
 *           the earth has at all.
 * Given:    job    the settings as they stood for the reading
 * Returned: out    cause CAUSE_NONE when all is well
 *           false when there is nothing to judge: no totals, and no dip that the sheet names one for */
bool sb_sixaxis_judge(const struct job *job, const struct reading *r, struct sixaxis_verdict *out);

#endif
