/* What lies ahead, as `ahead` says it: the bit, the bend budget, the plan, and where to pull back to if there
 * is none.
 */
#ifndef SB_IO_AHEAD_H
#define SB_IO_AHEAD_H

#include "base/str.h"
#include "model/solve.h"
#include "model/steering.h"

/* withdrawal: NULL when it was not looked for. {"unit", "bit", "corridor", "bend_budget", "response", "plan",
 * "withdraw"}: angles in the job's convention, lengths in its unit, signs as in the path. */
void sb_ahead_json(const struct job *job, const struct solution *s, const struct plan *plan,
	const struct withdrawal *withdrawal, struct sb_str *out);
/* For people. */
void sb_ahead_text(const struct job *job, const struct solution *s, const struct plan *plan,
	const struct withdrawal *withdrawal, struct sb_str *out);

#endif
