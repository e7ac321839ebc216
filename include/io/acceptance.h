/* Non-conformances and the pilot's acceptance, for people and for scripts. */
#ifndef SB_IO_ACCEPTANCE_H
#define SB_IO_ACCEPTANCE_H

#include "io/json.h"
#include "model/acceptance.h"

/* Every non-conformance with its number, and what came of it. */
void sb_nonconformances_text(const struct job *job, const struct solution *s, struct sb_str *out);
/* {"open", "nonconformances": [{"number", "kind", "leg", "joint", "last_joint", "worst_joint", "station",
 * "value", "limit", "text", "disposition", "by", "reference", "reason", "at", "grown", "redrilled_on_leg"}]}
 */
void sb_nonconformances_json(const struct job *job, const struct solution *s, struct sb_str *out);
/* The member "nonconformances" of it. */
void sb_nonconformances_put(struct sb_json *j, const struct job *job, const struct solution *s);

/* What is asked before the pilot is accepted, what of it is done, and whether somebody signed. */
void sb_acceptance_text(const struct job *job, const struct solution *s, struct sb_str *out);
/* {"accepted", "by", "capacity", "statement", "at", "ready", "missing", "points": [{"point", "asked", "done",
 * "text", "state"}], "exit": null or {"fix", "long", "right", "high", "misclosure": {"along", "right",
 * "up"}}}; point: the number to tick, null where it is judged from the log. Lengths in the job's unit; long,
 * right, high and up are positive so, misclosure is survey less path. */
void sb_acceptance_json(const struct job *job, const struct solution *s, struct sb_str *out);

#endif
