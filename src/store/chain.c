/* The audit chain. What is digested is the row as SQLite gives it back, so that writing and verifying read
 * the same bytes, and what never reached the file cannot be vouched for.
 *
 * The text that is digested is described in the file itself (table journal), and can be made again with any
 * SQLite tool and `b2sum -l 256`. Columns that are NULL are left out of it, so that a column which a later
 * version adds leaves the digests of old rows as they are; each value has its length before it, so that no
 * two rows have the same text.
 */
#include "store/chain.h"

#include "base/str.h"

#include <assert.h>
#include <sodium.h>
#include <stdio.h>
#include <string.h>

#define HASH 32 /* bytes */

#define FACTS(table, since) \
	{ \
		table, since, "SELECT * FROM " table " WHERE id = :id", "SELECT count(*) FROM " table, \
			"SELECT id FROM " table \
			" WHERE id NOT IN (SELECT row_id FROM journal WHERE table_name = '" table \
			"') ORDER BY id" \
	}

const struct fact_table sb_chain_tables[] = {
	FACTS("act", 1),
	FACTS("setting", 1),
	FACTS("alignment", 1),
	FACTS("profile", 1),
	FACTS("corridor", 1),
	FACTS("ground", 1),
	FACTS("obstacles", 1),
	FACTS("tally", 1),
	FACTS("soil", 1),
	FACTS("reading", 1),
	FACTS("leg", 1),
	FACTS("acknowledgement", 1),
	FACTS("repeat", 2),
	FACTS("fix", 2),
	FACTS("fix_use", 2),
	FACTS("adjustment", 2),
	FACTS("checklist", 3),
	FACTS("disposition", 3),
	FACTS("ticked", 3),
	FACTS("acceptance", 3),
	FACTS("fluid_event", 4),
	FACTS("pass", 4),
	FACTS("pass_joint", 4),
	FACTS("pass_end", 4),
	FACTS("pipe", 4),
	FACTS("pipe_record", 4),
	FACTS("pull_begin", 4),
	FACTS("pull_joint", 4),
	FACTS("pull_end", 4),
	FACTS("strike", 4),
};
const size_t sb_chain_table_count = sizeof sb_chain_tables / sizeof *sb_chain_tables;

const struct fact_table *sb_chain_table(const char *name)
{
	for (size_t i = 0; i < sb_chain_table_count; i++)
		if (sb_same(sb_chain_tables[i].name, name))
			return &sb_chain_tables[i];
	return NULL;
}

void sb_chain_start(struct chain_end *end)
{
	end->seq = 0;
	memset(end->hash, '0', SB_CHAIN_HEX - 1);
	end->hash[SB_CHAIN_HEX - 1] = '\0';
}

int sb_chain_read(struct sb_sql *db, struct chain_end *end, struct sb_err *err)
{
	struct sb_query *q = sb_sql_prepare(db, "SELECT seq, chain FROM journal ORDER BY seq DESC LIMIT 1");

	sb_chain_start(end);
	if (sb_sql_row(q)) {
		end->seq = sb_sql_int(q, 0);
		sb_copy(end->hash, sizeof end->hash, sb_sql_text(q, 1));
	}
	return sb_sql_done(q, err);
}

static void finish(crypto_generichash_state *state, char hex[SB_CHAIN_HEX])
{
	unsigned char hash[HASH];

	crypto_generichash_final(state, hash, sizeof hash);
	sodium_bin2hex(hex, SB_CHAIN_HEX, hash, sizeof hash);
}

static void take(crypto_generichash_state *state, const void *bytes, size_t size)
{
	crypto_generichash_update(state, bytes, size);
}

/* One column: name:kind length:value and a line end. */
static void take_column(crypto_generichash_state *state, const struct sb_query *q, int column)
{
	static const char kinds[] = { [SQL_INT] = 'i', [SQL_REAL] = 'r', [SQL_TEXT] = 't', [SQL_BLOB] = 'b' };
	enum sql_type type = sb_sql_type(q, column);
	char before[96], number[32];
	const void *value;
	size_t size;

	if (type == SQL_NULL)
		return;
	if (type == SQL_INT) {
		size = (size_t)snprintf(number, sizeof number, "%lld", (long long)sb_sql_int(q, column));
		value = number;
	} else {
		/* No column of a fact is REAL or BLOB (STRICT sees to it); should a file have one all the
		 * same, its bytes count. */
		value = sb_sql_bytes(q, column, &size);
	}
	int length =
		snprintf(before, sizeof before, "%.60s:%c%zu:", sb_sql_name(q, column), kinds[type], size);
	take(state, before, (size_t)length);
	take(state, value, size);
	take(state, "\n", 1);
}

int sb_chain_digest(struct sb_sql *db, const struct fact_table *table, int64_t id, char hex[SB_CHAIN_HEX],
	struct sb_err *err)
{
	struct sb_query *q = sb_sql_kept(db, table->one);
	crypto_generichash_state state;

	sb_sql_bind_int(q, ":id", id);
	bool found = sb_sql_row(q);
	if (found) {
		crypto_generichash_init(&state, NULL, 0, HASH);
		take(&state, table->name, strlen(table->name));
		take(&state, "\n", 1);
		for (int i = 0; i < sb_sql_columns(q); i++)
			take_column(&state, q, i);
		finish(&state, hex);
	}
	return sb_sql_done(q, err) ? -1 : found;
}

void sb_chain_hash(const char *before, int64_t seq, int64_t act, const char *table, int64_t id,
	const char *digest, char hex[SB_CHAIN_HEX])
{
	struct sb_str text = { 0 };
	unsigned char hash[HASH];

	sb_str_add(&text, "%s\n%lld\n%lld\n%s\n%lld\n%s\n", before, (long long)seq, (long long)act, table,
		(long long)id, digest);
	crypto_generichash(hash, sizeof hash, (const unsigned char *)text.text, text.length, NULL, 0);
	sodium_bin2hex(hex, SB_CHAIN_HEX, hash, sizeof hash);
	sb_str_clear(&text);
}

int sb_chain_add(struct sb_sql *db, struct chain_end *end, int64_t act, const char *table, int64_t id,
	struct sb_err *err)
{
	char digest[SB_CHAIN_HEX];
	int found = sb_chain_digest(db, sb_chain_table(table), id, digest, err);

	if (found < 0)
		return -1;
	if (found == 0)
		return sb_fail(err, SB_IO, "The row just written to %s cannot be read back.", table);
	struct chain_end next = { .seq = end->seq + 1 };
	sb_chain_hash(end->hash, next.seq, act, table, id, digest, next.hash);
	struct sb_query *q = sb_sql_kept(db,
		"INSERT INTO journal (seq, act, table_name, row_id, digest, chain)"
		" VALUES (:seq, :act, :table, :row, :digest, :chain)");
	sb_sql_bind_int(q, ":seq", next.seq);
	sb_sql_bind_int(q, ":act", act);
	sb_sql_bind_text(q, ":table", table);
	sb_sql_bind_int(q, ":row", id);
	sb_sql_bind_text(q, ":digest", digest);
	sb_sql_bind_text(q, ":chain", next.hash);
	if (sb_sql_run(q, err))
		return -1;
	*end = next;
	return 0;
}

void sb_chain_uid(int64_t at_ms, char uid[SB_CHAIN_UID])
{
	unsigned char bytes[16];

	/* Ready or, when nobody called it yet, making it so: needed once before anything random. */
	if (sodium_init() < 0)
		assert(!"libsodium finds no source of randomness");
	randombytes_buf(bytes, sizeof bytes);
	for (size_t i = 0; i < 6; i++)
		bytes[i] = (unsigned char)((uint64_t)at_ms >> (8 * (5 - i)));
	sodium_bin2hex(uid, SB_CHAIN_UID, bytes, sizeof bytes);
}
