/* Care of the job file: is it whole, and a copy that is known to be. */
#ifndef SB_STORE_BACKUP_H
#define SB_STORE_BACKUP_H

#include "base/err.h"
#include "base/str.h"

#include <stddef.h>
#include <stdint.h>

/* Goes through everything: SQLite's own integrity check, the schema text, every journal row's hash, every
 * fact against its journal row, facts that no journal row knows, and the computed tables against solving
 * again. */
struct verify_report {
	size_t journal_rows, fact_rows, damages;
	struct sb_str
		text;  /* a line for each damage: which row of which table, of which act, by whom, and how */
	char head[65]; /* last hash, hex */
};
/* 0 when the check could be made (damages may be > 0), -1 when the file cannot even be read. */
int sb_store_verify(const char *path, struct verify_report *report, struct sb_err *err);
void sb_verify_report_clear(struct verify_report *r);

/* A whole, checked copy, safe while the job is in use: written beside, synced, verified, renamed. Refuses an
 * existing target. */
int sb_store_backup(const char *path, const char *target, struct sb_err *err);

#endif
