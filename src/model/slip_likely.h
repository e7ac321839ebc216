/* Which slip, if any, explains a reading that was not expected. Private to the model.
 *
 * Every explanation is weighed by how usual it is, by the choice that the hand had in making it, and by how
 * well the reading that was then meant fits what was expected (Bayes). One that outweighs all others together
 * is named.
 */
#ifndef SB_MODEL_SLIP_LIKELY_H
#define SB_MODEL_SLIP_LIKELY_H

#include "expected.h"
#include "model/slip.h"

enum likely {
	LIKELY_NONE,	/* nothing stands out */
	LIKELY_SLIP,	/* `slip`: of pen or convention */
	LIKELY_AGAIN,	/* the last joint's reading once more */
	LIKELY_FURTHER, /* a joint forgotten: the string is further in */
	LIKELY_SLID,	/* a slide that was not written down */
};

struct likely_slip {
	enum likely kind;
	struct slip slip;
	double share; /* of all explanations together, 0..1: of what is named, else of the heaviest */
};

struct likely_slip sb_slip_likely(const struct setup *setup, const struct solution *s,
	const struct expected *e, const struct slip_case *c, double joint_m);

#endif
