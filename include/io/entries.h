/* Entries beside and after the pilot (model/after.h) from a CSV, read whole before the first is entered.
 *
 * Columns in any order, by the names of the entry's own columns, and: remarks. The header tells which of the
 * sorts that may stand there it is.
 */
#ifndef SB_IO_ENTRIES_H
#define SB_IO_ENTRIES_H

#include "model/fact.h"

#define SB_ENTRIES_MOST 5000 /* rows of one file */

struct entry {
	union any_fact fact;
	char remarks[SB_REMARK_TEXT];
	int line;
};

struct entries {
	enum act_kind act;
	struct entry *list; /* in the order of the file */
	size_t count, room;
};

/* Given: acts, whose entries may stand in the file. Each row is held against the job and the rows before it
 * (sb_after_check), up to the first that is wrong: what follows on it would only seem to be. 0: out (may hold
 * no row; problems may hold warnings). -1: problems say every error by line and column; out is empty.
 * sb_entries_clear when done. */
int sb_entries_read(const char *path, const struct job *job, const enum act_kind *acts, size_t act_count,
	struct entries *out, struct sb_problems *problems);
void sb_entries_clear(struct entries *e);

#endif
