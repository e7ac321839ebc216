/* SQLite behind one door: connections, statements, transactions.
 *
 * Statements are bound by name and remember their first failure: later calls on them do nothing, and
 * sb_sql_done says at the end what went wrong, so that a loop stays two lines:
 *
 *	struct sb_query *q = sb_sql_prepare(db, "SELECT name FROM t WHERE id = :id");
 *	sb_sql_bind_int(q, ":id", id);
 *	while (sb_sql_row(q))
 *		take(sb_sql_text(q, 0));
 *	return sb_sql_done(q, err);
 *
 * Every connection is opened as if the file came from an enemy: nothing in its schema is trusted, no
 * extension, limits on sizes and depths, foreign keys on.
 */
#ifndef SB_BASE_SQL_H
#define SB_BASE_SQL_H

#include "base/err.h"
#include "base/str.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct sb_sql;	 /* a connection */
struct sb_query; /* a statement */

enum sql_mode { SQL_READ, SQL_WRITE, SQL_MEMORY };

struct sql_options {
	enum sql_mode mode;
	int busy_ms;	 /* how long to wait for another program's lock */
	const char *vfs; /* a registered SQLite VFS; NULL: the system's. Tests give one that fails. */
	bool unsynced;	 /* measurements only: sb_sql_durable does not sync */
};

/* Opens a file that is there (one of no bytes is an empty database); never makes one. Nothing of its
 * content is read yet. path: NULL with SQL_MEMORY. */
int sb_sql_open(const char *path, const struct sql_options *options, struct sb_sql **out, struct sb_err *err);
void sb_sql_close(struct sb_sql *db); /* NULL is fine; statements in use and open transactions are not */

/* Sets journal_mode=DELETE and synchronous=EXTRA and reads both back: with less, a power cut can take the
 * last commit away again (the unlinked journal comes back). Touches the file, so: after it was checked. */
int sb_sql_durable(struct sb_sql *db, struct sb_err *err);

/* A statement, always to be ended by sb_sql_done. Never NULL: a failure waits in it. Text after the first
 * statement is a failure. sb_sql_kept keeps it prepared for the next time; when it is in use already, the
 * caller gets a spare one that sb_sql_done finalises. */
struct sb_query *sb_sql_prepare(struct sb_sql *db, const char *text);
struct sb_query *sb_sql_kept(struct sb_sql *db, const char *text);

/* By name (":id"). Every parameter must be bound before the first row: what is left out is a mistake. */
void sb_sql_bind_int(struct sb_query *q, const char *name, int64_t value);
void sb_sql_bind_real(struct sb_query *q, const char *name, double value);     /* not finite: NULL */
void sb_sql_bind_text(struct sb_query *q, const char *name, const char *text); /* NULL: NULL; copied */

void sb_sql_bind_bytes(struct sb_query *q, const char *name, const void *bytes, size_t size); /* copied */

bool sb_sql_row(struct sb_query *q);			 /* steps; true while there is a row */
int sb_sql_done(struct sb_query *q, struct sb_err *err); /* q is gone afterwards */
int sb_sql_run(struct sb_query *q, struct sb_err *err);	 /* steps to the end, then done */

/* Columns of the present row, from 0. Text is borrowed until the next step. */
enum sql_type { SQL_NULL, SQL_INT, SQL_REAL, SQL_TEXT, SQL_BLOB };
int sb_sql_columns(const struct sb_query *q);
const char *sb_sql_name(const struct sb_query *q, int column);
enum sql_type sb_sql_type(const struct sb_query *q, int column);
int64_t sb_sql_int(const struct sb_query *q, int column);
double sb_sql_real(const struct sb_query *q, int column);
const char *sb_sql_text(const struct sb_query *q, int column); /* "" for NULL */
const void *sb_sql_bytes(const struct sb_query *q, int column, size_t *size);

int sb_sql_do(struct sb_sql *db, const char *text, struct sb_err *err); /* one statement, no rows wanted */
int sb_sql_script(struct sb_sql *db, const char *text, struct sb_err *err); /* many, as a migration has */
int sb_sql_number(struct sb_sql *db, const char *text, int64_t *out, struct sb_err *err); /* its first cell */

/* Transactions nest by counting; only the outermost talks to SQLite. `what` names the act in messages. When
 * an inner one was rolled back, the outermost commit rolls back too and fails. A commit that fails leaves no
 * transaction behind; whether it is on disk is then open (the last sync may be what failed). */
int sb_sql_begin(struct sb_sql *db, const char *what, struct sb_err *err); /* takes the write lock at once */
int sb_sql_begin_read(struct sb_sql *db, const char *what, struct sb_err *err); /* one view of the file */
int sb_sql_commit(struct sb_sql *db, struct sb_err *err);
void sb_sql_rollback(struct sb_sql *db);
bool sb_sql_within(const struct sb_sql *db); /* a transaction is open */

/* The database as the bytes that its file would have, added to out. */
int sb_sql_image(struct sb_sql *db, struct sb_str *out, struct sb_err *err);

bool sb_sql_moved(struct sb_sql *db); /* the file was deleted, renamed or replaced since it was opened */
/* A number that grows when another connection has committed. */
int sb_sql_changed(struct sb_sql *db, int64_t *version, struct sb_err *err);

/* From now on a statement is stopped (SB_DAMAGED) once the connection has done this many steps of SQLite's
 * machine: against files built to be read for ever. 0: no limit. */
void sb_sql_limit(struct sb_sql *db, int64_t steps);

#endif
