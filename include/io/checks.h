/* What `check` says: each limit that was neared or broken on the present path, and the kinds that were not.
 */
#ifndef SB_IO_CHECKS_H
#define SB_IO_CHECKS_H

#include "base/str.h"
#include "model/solve.h"

struct check {
	enum warning_kind kind;
	enum level level;
	const struct warning *warning; /* the solution's; NULL for a kind with nothing to say: ok */
};

/* The list in order of kind, then as the warnings opened; `out` for sb_free. Returns how many: at least one a
 * kind. The worst level of it is the solution's level: withdrawn joints do not count, and kinds that speak of
 * what would come count only while they do. */
size_t sb_checks_list(const struct solution *s, struct check **out);

/* {"level", "checks": [{"kind", "level", "joint", "station", "value", "limit", "text", "leg", "open",
 * "acknowledged_by"}]}; joint is where it was worst. For a kind that is ok there is no joint, station, value,
 * limit, leg: null; value and limit are null also where the kind measures nothing. */
void sb_checks_json(const struct job *job, const struct solution *s, struct sb_str *out);
/* For people. */
void sb_checks_text(const struct job *job, const struct solution *s, struct sb_str *out);

#endif
