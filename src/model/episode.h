/* Warnings as episodes: opened, made worse, ended; and those of entries beside and after the pilot, which are
 * kept when joints are pulled back. Indices are of the solution's warnings[]; SIZE_MAX is none.
 */
#ifndef SB_SRC_MODEL_EPISODE_H
#define SB_SRC_MODEL_EPISODE_H

#include "model/event.h"
#include "model/solution.h"

/* Where a verdict is spoken. act: of an entry beside or after the pilot; 0: of a joint. */
struct episode_at {
	int leg, joint;
	double station_m;
	int64_t act;
};
struct episode_at episode_at(const struct row *row);

/* The worst that an episode was is this. */
void episode_write(struct warning *w, const struct episode_at *at, const struct verdict *v);

/* What a row says of one kind. Returned: the index touched. */
size_t episode_take(
	struct solution *s, enum warning_kind kind, const struct row *row, const struct verdict *v);
/* Of all kinds that are not of entries. Returned: the first index touched. */
size_t episode_take_all(struct solution *s, const struct row *row, const struct verdict *verdicts);

/* What an entry says, or a joint of a kind that entries have too. leg: the act's or the joint's; act: that
 * brought it, 0: a joint did. Returned: the index touched. */
size_t episode_take_finding(struct solution *s, const struct finding *f, int leg, int64_t act);

/* After joints were pulled back: the episodes of entries that go on are open again. */
void episode_find_open(struct solution *s);

/* Whether somebody has acknowledged it as far as it went then. */
void episode_mark_acknowledged(const struct job *job, struct warning *w);

#endif
