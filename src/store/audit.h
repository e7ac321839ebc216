/* Going through the audit chain: every fact against its journal row, every journal row against the one
 * before.
 */
#ifndef SB_STORE_AUDIT_H
#define SB_STORE_AUDIT_H

#include "base/sql.h"
#include "base/str.h"
#include "store/chain.h"

#include <stddef.h>
#include <stdint.h>

struct audit {
	size_t journal_rows, fact_rows, damages;
	struct sb_str text;	 /* a line for each damage, up to SB_AUDIT_LINES */
	char head[SB_CHAIN_HEX]; /* the last hash */
};
#define SB_AUDIT_LINES 1000
void sb_audit_clear(struct audit *a);

/* Adds a damage. Its words are made fit to be shown: they hold text from the file. */
void sb_audit_damage(struct audit *a, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* To be called within a transaction. What is wrong with the file is a damage; -1 only when it cannot be read
 * on. */
int sb_audit_run(struct sb_sql *db, int64_t version, struct audit *a, struct sb_err *err);

#endif
