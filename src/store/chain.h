/* The audit chain: a digest of every fact, and a hash over each digest and the hash before it. */
#ifndef SB_STORE_CHAIN_H
#define SB_STORE_CHAIN_H

#include "base/sql.h"

#include <stddef.h>
#include <stdint.h>

#define SB_CHAIN_HEX 65 /* 256 bits in hex, and NUL */
#define SB_CHAIN_UID 33

/* Where the chain ends: what the next row goes on from. */
struct chain_end {
	int64_t seq;
	char hash[SB_CHAIN_HEX];
};

/* The tables of facts. Statements are written out: SQL is never put together. */
struct fact_table {
	const char *name;
	int64_t since;	       /* version of the schema */
	const char *one;       /* the row of :id, all columns */
	const char *count;     /* how many rows */
	const char *strangers; /* ids without a row in journal */
};
extern const struct fact_table sb_chain_tables[];
extern const size_t sb_chain_table_count;
const struct fact_table *sb_chain_table(const char *name); /* NULL if there is none */

/* The chain that nothing was added to yet, and the one of the file as it is. */
void sb_chain_start(struct chain_end *end);
int sb_chain_read(struct sb_sql *db, struct chain_end *end, struct sb_err *err);

/* The digest of a row of `table` as it stands in the file. Returns 1; 0 when there is no such row; -1 with
 * err.
 */
int sb_chain_digest(struct sb_sql *db, const struct fact_table *table, int64_t id, char hex[SB_CHAIN_HEX],
	struct sb_err *err);

/* The hash of a journal row, given the one before. */
void sb_chain_hash(const char *before, int64_t seq, int64_t act, const char *table, int64_t id,
	const char *digest, char hex[SB_CHAIN_HEX]);

/* Adds the journal row of a fact that was just written; end moves on. */
int sb_chain_add(struct sb_sql *db, struct chain_end *end, int64_t act, const char *table, int64_t id,
	struct sb_err *err);

/* An id that no other act has, and that sorts by time: 12 hex digits of milliseconds, 20 at random. */
void sb_chain_uid(int64_t at_ms, char uid[SB_CHAIN_UID]);

#endif
