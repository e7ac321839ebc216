/* One writer: who has the job open for writing, known to everybody else. */
#ifndef SB_STORE_LOCK_H
#define SB_STORE_LOCK_H

#include "base/err.h"

struct sb_lock;

/* Takes the job for this process, at once or not at all: SB_BUSY says who has it, since when and where.
 * Given: path of the job file, without links in it */
int sb_lock_take(const char *path, const char *who, struct sb_lock **out, struct sb_err *err);
void sb_lock_drop(struct sb_lock *lock); /* NULL is fine */

#endif
