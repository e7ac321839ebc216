/* Going through the audit chain. A row that was changed is named with its table, id, act, who and when; the
 * walk goes on from the hash that stands in the file, so that one damage does not make all that follows look
 * bad.
 */
#include "store/audit.h"

#include "base/time.h"

#include <stdarg.h>
#include <stdio.h>

void sb_audit_clear(struct audit *a)
{
	sb_str_clear(&a->text);
	*a = (struct audit){ 0 };
}

void sb_audit_damage(struct audit *a, const char *format, ...)
{
	char line[500];
	va_list args;

	a->damages++;
	if (a->damages > SB_AUDIT_LINES)
		return;
	va_start(args, format);
	vsnprintf(line, sizeof line, format, args);
	va_end(args);
	sb_utf8_tame(line);
	sb_str_add(&a->text, "%s\n", line);
	if (a->damages == SB_AUDIT_LINES)
		sb_str_add(&a->text, "and more, which are counted but not listed\n");
}

/* A journal row and the act it names. */
struct entry {
	int64_t seq, act, row;
	const char *table, *digest, *chain; /* borrowed from the statement */
	char origin[200];		    /* "act 13, log by Ann, 25 Nov 14:32 +01:00" */
};

static void describe_act(const struct sb_query *q, struct entry *e)
{
	const char *at = sb_sql_text(q, 8);
	char when[SB_TIME_TEXT];
	int64_t ms, offset = sb_sql_int(q, 9);

	if (sb_sql_type(q, 6) == SQL_NULL) {
		snprintf(e->origin, sizeof e->origin, "act %lld, which is gone", (long long)e->act);
		return;
	}
	if (offset < -900 || offset > 900)
		offset = 0;
	if (sb_time_parse(at, &ms, NULL) == 0)
		sb_time_long(ms, (int)offset, when);
	else
		sb_copy(when, sizeof when, at);
	snprintf(e->origin, sizeof e->origin, "act %lld, %.20s by %.64s, %s", (long long)e->act,
		sb_sql_text(q, 6), sb_sql_text(q, 7), when);
}

static struct entry take_entry(const struct sb_query *q)
{
	struct entry e = { .seq = sb_sql_int(q, 0),
		.act = sb_sql_int(q, 1),
		.table = sb_sql_text(q, 2),
		.row = sb_sql_int(q, 3),
		.digest = sb_sql_text(q, 4),
		.chain = sb_sql_text(q, 5) };

	describe_act(q, &e);
	return e;
}

static void check_link(struct audit *a, const struct entry *e, struct chain_end *end)
{
	char hash[SB_CHAIN_HEX];

	if (e->seq != end->seq + 1)
		sb_audit_damage(a, "journal: rows %lld to %lld are missing", (long long)end->seq + 1,
			(long long)e->seq - 1);
	sb_chain_hash(end->hash, e->seq, e->act, e->table, e->row, e->digest, hash);
	if (!sb_same(hash, e->chain))
		sb_audit_damage(a,
			"journal row %lld (%.20s %lld; %s): the chain is broken here: this row or the one before was changed, "
			"or rows were taken out",
			(long long)e->seq, e->table, (long long)e->row, e->origin);
	end->seq = e->seq;
	sb_copy(end->hash, sizeof end->hash, e->chain);
}

static int check_fact(struct sb_sql *db, struct audit *a, const struct entry *e, struct sb_err *err)
{
	const struct fact_table *table = sb_chain_table(e->table);
	char digest[SB_CHAIN_HEX];

	if (table == NULL) {
		sb_audit_damage(
			a, "journal row %lld: '%.40s' is not a table of facts", (long long)e->seq, e->table);
		return 0;
	}
	int found = sb_chain_digest(db, table, e->row, digest, err);
	if (found < 0)
		return -1;
	if (found == 0)
		sb_audit_damage(a, "%s %lld (%s): is gone", e->table, (long long)e->row, e->origin);
	else if (!sb_same(digest, e->digest))
		sb_audit_damage(a, "%s %lld (%s): was changed after it was written", e->table,
			(long long)e->row, e->origin);
	return 0;
}

static int walk(struct sb_sql *db, struct audit *a, struct sb_err *err)
{
	struct sb_query *q = sb_sql_prepare(db,
		"SELECT j.seq, j.act, j.table_name, j.row_id, j.digest, j.chain, a.kind, a.who, a.at, a.utc_offset"
		" FROM journal j LEFT JOIN act a ON a.id = j.act ORDER BY j.seq");
	struct chain_end end;
	int status = 0;

	sb_chain_start(&end);
	while (status == 0 && sb_sql_row(q)) {
		struct entry e = take_entry(q);
		a->journal_rows++;
		check_link(a, &e, &end);
		status = check_fact(db, a, &e, err);
	}
	sb_copy(a->head, sizeof a->head, end.hash);
	return sb_sql_done(q, status ? NULL : err) || status ? -1 : 0;
}

/* Facts that came into the file without the journal. */
static int find_strangers(
	struct sb_sql *db, struct audit *a, const struct fact_table *table, struct sb_err *err)
{
	int64_t rows = 0;

	if (sb_sql_number(db, table->count, &rows, err))
		return -1;
	a->fact_rows += (size_t)rows;
	struct sb_query *q = sb_sql_prepare(db, table->strangers);
	while (sb_sql_row(q))
		sb_audit_damage(a, "%s %lld: no journal row knows it: it was not written by this program",
			table->name, (long long)sb_sql_int(q, 0));
	return sb_sql_done(q, err);
}

int sb_audit_run(struct sb_sql *db, int64_t version, struct audit *a, struct sb_err *err)
{
	if (walk(db, a, err))
		return -1;
	for (size_t i = 0; i < sb_chain_table_count; i++)
		if (sb_chain_tables[i].since <= version && find_strangers(db, a, &sb_chain_tables[i], err))
			return -1;
	return 0;
}
