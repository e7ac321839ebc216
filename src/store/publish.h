/* The computed tables: the as-drilled path and the warnings, for any reader of the file. The program itself
 * reads them back only to see that solving again gives the same.
 */
#ifndef SB_STORE_PUBLISH_H
#define SB_STORE_PUBLISH_H

#include "base/sql.h"
#include "base/str.h"
#include "model/solve.h"

/* The warnings as the file has them, so that only those that changed are written. */
struct published {
	struct warning *warnings;
	size_t count, room;
};
void sb_publish_clear(struct published *p);
/* Says that the file has the solution's warnings. */
void sb_publish_known(struct published *p, const struct solution *s);

/* The row of the joint added last; O(1). */
int sb_publish_joint(struct sb_sql *db, const struct job *job, const struct solution *s, struct sb_err *err);
/* The warnings from index `from` on, those that differ from what is published. */
int sb_publish_warnings(
	struct sb_sql *db, const struct solution *s, size_t from, struct published *p, struct sb_err *err);
/* Both tables, afresh. */
int sb_publish_all(struct sb_sql *db, const struct job *job, const struct solution *s, struct published *p,
	struct sb_err *err);

/* How many rows differ from the solution; a line for each is added to lines (may be NULL). -1 with err when
 * the tables cannot be read. */
int64_t sb_publish_compare(struct sb_sql *db, const struct job *job, const struct solution *s,
	struct sb_str *lines, struct sb_err *err);

#endif
