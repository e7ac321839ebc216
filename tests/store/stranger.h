/* Another program at the job file: plain SQLite, without any of our care. */
#ifndef TESTS_STORE_STRANGER_H
#define TESTS_STORE_STRANGER_H

#include "store/book.h"

#include <sqlite3.h>

static inline sqlite3 *stranger_open(void)
{
	sqlite3 *db;

	assert_int_equal(sqlite3_open_v2(book_path(), &db, SQLITE_OPEN_READWRITE, NULL), SQLITE_OK);
	return db;
}

/* Runs SQL; returns SQLite's own code. */
static inline int stranger_try(const char *sql)
{
	sqlite3 *db = stranger_open();
	int status = sqlite3_exec(db, sql, NULL, NULL, NULL);

	sqlite3_close(db);
	return status;
}

static inline void stranger_does(const char *sql)
{
	sqlite3 *db = stranger_open();
	char *why = NULL;

	if (sqlite3_exec(db, sql, NULL, NULL, &why) != SQLITE_OK) {
		print_error("%s: %s\n", sql, why);
		fail();
	}
	sqlite3_close(db);
}

/* The first cell of a query as text, in a buffer that the next call takes again. */
static inline const char *stranger_reads(const char *sql)
{
	static char text[65536];
	sqlite3 *db = stranger_open();
	sqlite3_stmt *q;

	assert_int_equal(sqlite3_prepare_v2(db, sql, -1, &q, NULL), SQLITE_OK);
	text[0] = '\0';
	if (sqlite3_step(q) == SQLITE_ROW && sqlite3_column_text(q, 0))
		snprintf(text, sizeof text, "%s", (const char *)sqlite3_column_text(q, 0));
	sqlite3_finalize(q);
	sqlite3_close(db);
	return text;
}

/* Changes what triggers forbid, and puts the triggers back word for word, so that only the rows tell. */
static inline void stranger_tampers(const char *sql)
{
	char *triggers = strdup(stranger_reads(
		"SELECT group_concat(sql, ';') || ';' FROM sqlite_schema WHERE type = 'trigger'"));
	char *drops = strdup(stranger_reads(
		"SELECT group_concat('DROP TRIGGER ' || name, ';') || ';' FROM sqlite_schema WHERE type = 'trigger'"));

	stranger_does(drops);
	stranger_does(sql);
	stranger_does(triggers);
	free(triggers);
	free(drops);
}

#endif
