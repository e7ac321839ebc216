/* A copy of an open job file that is known to be whole. */
#ifndef SB_STORE_COPY_H
#define SB_STORE_COPY_H

#include "store/gate.h"

/* Copies the job of an open connection, whatever others do with it meanwhile, to a target that must not
 * exist: made beside, synced, put through the gate, its facts compared with the source's, then given its
 * name. */
int sb_copy_make(
	struct sb_sql *db, const struct gate *gate, int64_t version, const char *target, struct sb_err *err);

/* Whether something by that name, or a journal left from another file of that name, is in the way: SQLite
 * would take such a journal for the new file's and destroy it. 0: free; -1: SB_EXISTS saying what is there.
 */
int sb_copy_free(const char *target, struct sb_err *err);

/* Removes a file that did not come to be, and what SQLite left beside it. */
void sb_copy_discard(const char *made);

#endif
