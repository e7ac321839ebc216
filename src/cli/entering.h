/* Entries beside and after the pilot from a file (io/entries.h): --read of the commands that take them. */
#ifndef SB_CLI_ENTERING_H
#define SB_CLI_ENTERING_H

#include "cli/acting.h"
#include "io/entries.h"

#define SB_ENTERED 160

/* Enters one row, with what it is for its act's line. */
typedef int entering_row(struct sb_store *store, const char *who, enum act_kind act, const struct entry *e,
	struct sb_err *err);

/* Enters every row of the file of --read, whose entries are of one of the acts. All of it is looked at before
 * the first row is entered, and what is wrong is said on standard error.
 * Returned: said   "56 joints of pipes.csv". -1 with err: nothing was entered, or err says how many rows were
 *                  and at which line it ended. */
int sb_entering_file(const struct invocation *in, struct sb_store *store, const char *who,
	const enum act_kind *acts, size_t act_count, entering_row *enter, char said[SB_ENTERED],
	struct sb_err *err);

#endif
