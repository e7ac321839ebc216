/* SQLite behind one door.
 *
 * 1. A statement's first failure stays in it until sb_sql_done; its words are taken when it happens.
 * 2. After a failed commit or any rollback no transaction is open, whatever SQLite did by itself.
 * 3. Every connection is hardened before anything of the file is read (https://www.sqlite.org/security.html).
 */
#include "base/sql.h"

#include "base/beside.h"
#include "base/mem.h"
#include "base/str.h"

#include <assert.h>
#include <errno.h>
#include <math.h>
#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* SQLite may not hold more than this in memory at once, whatever a file claims. A job of 100,000 joints needs
 * a tenth of it. */
#define HEAP_LIMIT (256 << 20)
#define WORK_STRIDE 10000 /* machine steps between two looks at the limit */

struct sb_query {
	struct sb_sql *db;
	sqlite3_stmt *stmt;
	char *text;	/* kept ones only */
	bool busy;	/* between being handed out and sb_sql_done */
	bool begun;	/* stepped at least once */
	uint64_t bound; /* bit i: parameter i+1 has its value */
	int rc;		/* the first failure; SQLITE_OK none */
	char why[256];	/* SQLite's words for it */
	int system;	/* the system's error number behind it */
};

struct sb_sql {
	sqlite3 *handle;
	char name[128]; /* of the file, without its folder, for messages */
	bool unsynced;
	struct sb_query **kept;
	size_t kept_count, kept_room;
	int depth;	  /* of transactions */
	bool doomed;	  /* an inner one was rolled back */
	const char *what; /* where the outermost began */
	int64_t work, work_limit;
};

/* ---- failures in words ---- */

#define IN_USE "Another program is using %s at this moment. Try again, or find out which and close it"
#define WAL_BESIDE \
	"%s has changes beside it (-wal) that cannot be read here. Open it once where it can be written"

static const struct saying {
	int rc; /* extended code, or a primary one that stands for all of its kind */
	enum sb_code code;
	const char *words; /* %s: the file's name */
} sayings[] = {
	{ SQLITE_FULL, SB_FULL, "The disk that holds %s is full. Make room, then try again" },
	{ SQLITE_READONLY_DBMOVED, SB_MISSING,
		"%s was moved, deleted or replaced while it was open. Put it back, or open it where it is now" },
	{ SQLITE_READONLY_ROLLBACK, SB_DENIED,
		"%s was cut off in the middle of a write, and may only be read here. Open it once where it can be written; do not delete its -journal" },
	{ SQLITE_READONLY_RECOVERY, SB_DENIED, WAL_BESIDE },
	{ SQLITE_READONLY_CANTINIT, SB_DENIED, WAL_BESIDE },
	{ SQLITE_READONLY_DIRECTORY, SB_DENIED,
		"Files cannot be made in the folder of %s. Ask for permission to write there" },
	{ SQLITE_READONLY, SB_DENIED, "%s may only be read" },
	{ SQLITE_CANTOPEN_SYMLINK, SB_DENIED,
		"%s is a link, which is not followed. Give the file's own name" },
	{ SQLITE_CANTOPEN, SB_IO,
		"%s, or the -journal beside it, cannot be opened. See that the folder is there and may be written" },
	{ SQLITE_NOTADB, SB_FOREIGN, "%s is not a job file: it is not an SQLite database" },
	{ SQLITE_CORRUPT, SB_DAMAGED,
		"%s is damaged. Go back to the last good copy; keep this file as it is" },
	{ SQLITE_INTERRUPT, SB_DAMAGED, "%s does not end when it is read: it was not made by this program" },
	{ SQLITE_TOOBIG, SB_DAMAGED, "%s holds something larger than a job file can" },
	{ SQLITE_NOMEM, SB_IO, "Reading %s needs more memory than a job file can" },
	{ SQLITE_BUSY, SB_BUSY, IN_USE }, { SQLITE_LOCKED, SB_BUSY, IN_USE },
	{ SQLITE_PROTOCOL, SB_BUSY, IN_USE }, { SQLITE_PERM, SB_DENIED, "There is no permission to open %s" },
	{ SQLITE_AUTH, SB_DENIED, "There is no permission to do this in %s" },
	{ SQLITE_CONSTRAINT, SB_STATE, "%s does not take this" },
	{ SQLITE_MISMATCH, SB_STATE, "%s does not take this" },
	{ SQLITE_IOERR, SB_IO,
		"The disk that holds %s failed. Try again; if it fails again, go on with a copy on another disk" },
	{ SQLITE_ERROR, SB_DAMAGED, "%s is not built as it should be" }, /* last: for all that is not here */
};

static const struct saying *find_saying(int rc, int system)
{
	/* Past a size limit or a quota is as good as full, but SQLite only knows ENOSPC. */
	if ((rc & 0xff) == SQLITE_IOERR && (system == EFBIG || system == EDQUOT || system == ENOSPC))
		rc = SQLITE_FULL;
	for (int pass = 0; pass < 2; pass++, rc &= 0xff)
		for (size_t i = 0; i < sizeof sayings / sizeof *sayings; i++)
			if (sayings[i].rc == rc)
				return &sayings[i];
	return &sayings[sizeof sayings / sizeof *sayings - 1];
}

static int fail(const struct sb_sql *db, int rc, int system, const char *why, struct sb_err *err)
{
	const struct saying *s = find_saying(rc, system);
	char words[400];

	/* The one format that is not a literal here comes from the table above. */
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral"
	snprintf(words, sizeof words, s->words, db->name);
#pragma GCC diagnostic pop
	if (system != 0 && (s->code == SB_IO || s->code == SB_FULL))
		return sb_fail(err, s->code, "%s. (%s; SQLite %d: %s)", words, strerror(system), rc, why);
	return sb_fail(err, s->code, "%s. (SQLite %d: %s)", words, rc, why);
}

/* The system's error number behind the last failure. A commit that fails leaves it with the file alone. */
static int system_error(const struct sb_sql *db)
{
	int number = 0;

	if (sqlite3_file_control(db->handle, "main", SQLITE_FCNTL_LAST_ERRNO, &number) != SQLITE_OK ||
		number == 0)
		number = sqlite3_system_errno(db->handle);
	return number;
}

static int fail_now(const struct sb_sql *db, struct sb_err *err)
{
	if (db->handle == NULL)
		return fail(db, SQLITE_NOMEM, 0, "no connection", err);
	return fail(
		db, sqlite3_extended_errcode(db->handle), system_error(db), sqlite3_errmsg(db->handle), err);
}

/* ---- opening ---- */

static const struct {
	int limit, most;
} limits[] = {
	{ SQLITE_LIMIT_LENGTH, 1 << 20 },
	{ SQLITE_LIMIT_SQL_LENGTH, 1 << 18 },
	{ SQLITE_LIMIT_COLUMN, 100 },
	{ SQLITE_LIMIT_EXPR_DEPTH, 100 },
	{ SQLITE_LIMIT_COMPOUND_SELECT, 20 },
	{ SQLITE_LIMIT_VDBE_OP, 1 << 18 },
	{ SQLITE_LIMIT_FUNCTION_ARG, 20 },
	{ SQLITE_LIMIT_ATTACHED, 1 }, /* VACUUM INTO needs one */
	{ SQLITE_LIMIT_LIKE_PATTERN_LENGTH, 100 },
	{ SQLITE_LIMIT_VARIABLE_NUMBER, 64 },
	{ SQLITE_LIMIT_TRIGGER_DEPTH, 8 },
	{ SQLITE_LIMIT_WORKER_THREADS, 0 },
};

static const struct {
	int setting, on;
} switches[] = {
	{ SQLITE_DBCONFIG_DEFENSIVE, 1 },
	{ SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0 },
	{ SQLITE_DBCONFIG_DQS_DML, 0 },
	{ SQLITE_DBCONFIG_DQS_DDL, 0 },
	{ SQLITE_DBCONFIG_WRITABLE_SCHEMA, 0 },
	{ SQLITE_DBCONFIG_ENABLE_LOAD_EXTENSION, 0 },
	{ SQLITE_DBCONFIG_ENABLE_FTS3_TOKENIZER, 0 },
	{ SQLITE_DBCONFIG_ENABLE_FKEY, 1 },
	{ SQLITE_DBCONFIG_ENABLE_TRIGGER, 1 },
	{ SQLITE_DBCONFIG_ENABLE_VIEW, 1 },
};

static int set_and_see(struct sb_sql *db, const char *set, const char *see, int64_t want, struct sb_err *err)
{
	int64_t got = -1;

	if (sb_sql_do(db, set, err) || sb_sql_number(db, see, &got, err))
		return -1;
	if (got != want)
		return sb_fail(err, SB_IO, "This SQLite does not obey '%s'.", set);
	return 0;
}

static int harden(struct sb_sql *db, struct sb_err *err)
{
	for (size_t i = 0; i < sizeof limits / sizeof *limits; i++)
		sqlite3_limit(db->handle, limits[i].limit, limits[i].most);
	for (size_t i = 0; i < sizeof switches / sizeof *switches; i++) {
		int now = -1;
		if (sqlite3_db_config(db->handle, switches[i].setting, switches[i].on, &now) ||
			now != switches[i].on)
			return sb_fail(err, SB_IO, "This SQLite lacks a safeguard (setting %d).",
				switches[i].setting);
	}
	if (set_and_see(db, "PRAGMA foreign_keys = ON", "PRAGMA foreign_keys", 1, err) ||
		set_and_see(db, "PRAGMA recursive_triggers = ON", "PRAGMA recursive_triggers", 1, err) ||
		set_and_see(db, "PRAGMA cell_size_check = ON", "PRAGMA cell_size_check", 1, err) ||
		set_and_see(db, "PRAGMA temp_store = MEMORY", "PRAGMA temp_store", 2, err))
		return -1;
	return sb_sql_do(db, "PRAGMA mmap_size = 0", err);
}

/* The path without links in it, so that SQLite can be told to follow none, and nobody can slip one in. NULL
 * with err. */
static char *real_path(const char *path, struct sb_err *err)
{
	struct stat info;
	char *real = realpath(path, NULL);

	if (real == NULL || stat(real, &info)) {
		sb_beside_say(errno, path, err);
		free(real);
		return NULL;
	}
	if (!S_ISREG(info.st_mode)) {
		free(real);
		sb_fail(err, SB_FOREIGN, "%.300s is not a file.", path);
		return NULL;
	}
	/* SQLite would only say that it cannot be opened. */
	if (access(real, R_OK) != 0) {
		free(real);
		sb_fail(err, SB_DENIED, "There is no permission to read %.300s.", path);
		return NULL;
	}
	return real;
}

static const char *base_name(const char *path)
{
	const char *slash = strrchr(path, '/');

	return slash ? slash + 1 : path;
}

static int open_handle(
	struct sb_sql *db, const char *path, const struct sql_options *options, struct sb_err *err)
{
	int flags =
		SQLITE_OPEN_NOFOLLOW | SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_PRIVATECACHE | SQLITE_OPEN_EXRESCODE;

	flags |= options->mode == SQL_READ ? SQLITE_OPEN_READONLY : SQLITE_OPEN_READWRITE;
	if (options->mode == SQL_MEMORY)
		flags |= SQLITE_OPEN_MEMORY | SQLITE_OPEN_CREATE;
	sqlite3_hard_heap_limit64(HEAP_LIMIT);
	if (sqlite3_open_v2(path, &db->handle, flags, options->vfs))
		return fail_now(db, err);
	sqlite3_busy_timeout(db->handle, options->busy_ms);
	if (harden(db, err))
		return -1;
	/* SQLite opens what it may not write to read only, and says nothing. */
	if (options->mode == SQL_WRITE && sqlite3_db_readonly(db->handle, "main") != 0)
		return sb_fail(err, SB_DENIED, "There is no permission to write %s.", db->name);
	return 0;
}

int sb_sql_open(const char *path, const struct sql_options *options, struct sb_sql **out, struct sb_err *err)
{
	char *real = NULL;

	if (options->mode != SQL_MEMORY && (real = real_path(path, err)) == NULL)
		return -1;
	struct sb_sql *db = sb_alloc(sizeof *db);
	db->unsynced = options->unsynced;
	sb_copy(db->name, sizeof db->name, real ? base_name(real) : "memory");
	int status = open_handle(db, real ? real : ":memory:", options, err);
	free(real);
	if (status) {
		sb_sql_close(db);
		return -1;
	}
	*out = db;
	return 0;
}

static void free_query(struct sb_query *q)
{
	sqlite3_finalize(q->stmt);
	sb_free(q->text);
	sb_free(q);
}

void sb_sql_close(struct sb_sql *db)
{
	if (db == NULL)
		return;
	assert(db->depth == 0);
	for (size_t i = 0; i < db->kept_count; i++) {
		assert(!db->kept[i]->busy);
		free_query(db->kept[i]);
	}
	sb_free(db->kept);
	assert(db->handle == NULL || sqlite3_next_stmt(db->handle, NULL) == NULL);
	sqlite3_close(db->handle);
	sb_free(db);
}

int sb_sql_durable(struct sb_sql *db, struct sb_err *err)
{
	struct sb_query *q = sb_sql_prepare(db, "PRAGMA journal_mode = DELETE");
	bool deleting = sb_sql_row(q) && sb_same(sb_sql_text(q, 0), "delete");

	if (sb_sql_done(q, err))
		return -1;
	if (!deleting)
		return sb_fail(err, SB_BUSY,
			"%s is in use by another program that keeps its changes beside it (-wal). Close it there first.",
			db->name);
	if (db->unsynced)
		return set_and_see(db, "PRAGMA synchronous = OFF", "PRAGMA synchronous", 0, err);
	return set_and_see(db, "PRAGMA synchronous = EXTRA", "PRAGMA synchronous", 3, err);
}

/* ---- statements ---- */

static void note_failure(struct sb_query *q, int rc)
{
	if (q->rc != SQLITE_OK)
		return;
	q->rc = rc;
	q->system = system_error(q->db);
	sb_copy(q->why, sizeof q->why, sqlite3_errmsg(q->db->handle));
}

static struct sb_query *new_query(struct sb_sql *db, const char *text, unsigned flags)
{
	struct sb_query *q = sb_alloc(sizeof *q);
	const char *rest = "";

	q->db = db;
	q->busy = true;
	int rc = sqlite3_prepare_v3(db->handle, text, -1, flags, &q->stmt, &rest);
	if (rc != SQLITE_OK) {
		note_failure(q, rc);
	} else if (q->stmt == NULL || rest[strspn(rest, " \t\n;")] != '\0') {
		q->rc = SQLITE_ERROR;
		sb_copy(q->why, sizeof q->why, "not exactly one statement");
	}
	return q;
}

struct sb_query *sb_sql_prepare(struct sb_sql *db, const char *text)
{
	return new_query(db, text, 0);
}

struct sb_query *sb_sql_kept(struct sb_sql *db, const char *text)
{
	for (size_t i = 0; i < db->kept_count; i++) {
		struct sb_query *q = db->kept[i];
		if (!sb_same(q->text, text))
			continue;
		if (q->busy)
			return sb_sql_prepare(db, text);
		q->busy = true;
		return q;
	}
	struct sb_query *q = new_query(db, text, SQLITE_PREPARE_PERSISTENT);
	if (q->rc != SQLITE_OK)
		return q;
	q->text = sb_strdup(text);
	db->kept = sb_grow(db->kept, db->kept_count, &db->kept_room, sizeof(struct sb_query *));
	return db->kept[db->kept_count++] = q;
}

/* The parameter's number; a name that the statement does not have is a programmer's mistake. */
static int parameter(struct sb_query *q, const char *name)
{
	if (q->rc != SQLITE_OK)
		return 0;
	int at = sqlite3_bind_parameter_index(q->stmt, name);
	assert(at > 0 && at <= 64 && !q->begun);
	q->bound |= UINT64_C(1) << (at - 1);
	return at;
}

static void bind_said(struct sb_query *q, int rc)
{
	if (rc != SQLITE_OK)
		note_failure(q, rc);
}

void sb_sql_bind_int(struct sb_query *q, const char *name, int64_t value)
{
	int at = parameter(q, name);

	if (at)
		bind_said(q, sqlite3_bind_int64(q->stmt, at, value));
}

void sb_sql_bind_real(struct sb_query *q, const char *name, double value)
{
	int at = parameter(q, name);

	if (at)
		bind_said(q,
			isfinite(value) ? sqlite3_bind_double(q->stmt, at, value)
					: sqlite3_bind_null(q->stmt, at));
}

void sb_sql_bind_text(struct sb_query *q, const char *name, const char *text)
{
	int at = parameter(q, name);

	if (at)
		bind_said(q, sqlite3_bind_text(q->stmt, at, text, -1, SQLITE_TRANSIENT));
}

void sb_sql_bind_bytes(struct sb_query *q, const char *name, const void *bytes, size_t size)
{
	int at = parameter(q, name);

	if (at)
		bind_said(q, sqlite3_bind_blob64(q->stmt, at, bytes, size, SQLITE_TRANSIENT));
}

bool sb_sql_row(struct sb_query *q)
{
	if (q->rc != SQLITE_OK)
		return false;
	if (!q->begun) {
		int parameters = sqlite3_bind_parameter_count(q->stmt);
		assert(parameters == 0 || q->bound == UINT64_MAX >> (64 - parameters));
		q->begun = true;
	}
	int rc = sqlite3_step(q->stmt);
	if (rc == SQLITE_ROW)
		return true;
	if (rc != SQLITE_DONE)
		note_failure(q, rc);
	return false;
}

int sb_sql_done(struct sb_query *q, struct sb_err *err)
{
	int status = q->rc == SQLITE_OK ? 0 : fail(q->db, q->rc, q->system, q->why, err);

	assert(q->busy);
	if (q->text == NULL) {
		free_query(q);
		return status;
	}
	sqlite3_reset(q->stmt);
	sqlite3_clear_bindings(q->stmt);
	q->busy = q->begun = false;
	q->bound = 0;
	q->rc = SQLITE_OK;
	return status;
}

int sb_sql_run(struct sb_query *q, struct sb_err *err)
{
	while (sb_sql_row(q))
		;
	return sb_sql_done(q, err);
}

int sb_sql_columns(const struct sb_query *q)
{
	return sqlite3_column_count(q->stmt);
}

const char *sb_sql_name(const struct sb_query *q, int column)
{
	const char *name = sqlite3_column_name(q->stmt, column);

	assert(name);
	return name;
}

enum sql_type sb_sql_type(const struct sb_query *q, int column)
{
	static const enum sql_type types[] = { [SQLITE_INTEGER] = SQL_INT,
		[SQLITE_FLOAT] = SQL_REAL,
		[SQLITE_TEXT] = SQL_TEXT,
		[SQLITE_BLOB] = SQL_BLOB,
		[SQLITE_NULL] = SQL_NULL };

	assert(column >= 0 && column < sqlite3_data_count(q->stmt));
	return types[sqlite3_column_type(q->stmt, column)];
}

int64_t sb_sql_int(const struct sb_query *q, int column)
{
	assert(column >= 0 && column < sqlite3_data_count(q->stmt));
	return sqlite3_column_int64(q->stmt, column);
}

double sb_sql_real(const struct sb_query *q, int column)
{
	assert(column >= 0 && column < sqlite3_data_count(q->stmt));
	return sqlite3_column_double(q->stmt, column);
}

const char *sb_sql_text(const struct sb_query *q, int column)
{
	assert(column >= 0 && column < sqlite3_data_count(q->stmt));
	const unsigned char *text = sqlite3_column_text(q->stmt, column);
	return text ? (const char *)text : "";
}

const void *sb_sql_bytes(const struct sb_query *q, int column, size_t *size)
{
	assert(column >= 0 && column < sqlite3_data_count(q->stmt));
	const void *bytes = sqlite3_column_blob(q->stmt, column);
	*size = (size_t)sqlite3_column_bytes(q->stmt, column);
	return bytes ? bytes : "";
}

int sb_sql_do(struct sb_sql *db, const char *text, struct sb_err *err)
{
	return sb_sql_run(sb_sql_prepare(db, text), err);
}

int sb_sql_script(struct sb_sql *db, const char *text, struct sb_err *err)
{
	if (sqlite3_exec(db->handle, text, NULL, NULL, NULL) != SQLITE_OK)
		return fail_now(db, err);
	return 0;
}

int sb_sql_number(struct sb_sql *db, const char *text, int64_t *out, struct sb_err *err)
{
	struct sb_query *q = sb_sql_prepare(db, text);

	if (sb_sql_row(q))
		*out = sb_sql_int(q, 0);
	return sb_sql_done(q, err);
}

/* ---- transactions ---- */

static int begin(struct sb_sql *db, const char *text, const char *what, struct sb_err *err)
{
	if (db->depth == 0) {
		if (sb_sql_run(sb_sql_kept(db, text), err))
			return -1;
		db->what = what;
		db->doomed = false;
	}
	db->depth++;
	return 0;
}

int sb_sql_begin(struct sb_sql *db, const char *what, struct sb_err *err)
{
	return begin(db, "BEGIN IMMEDIATE", what, err);
}

int sb_sql_begin_read(struct sb_sql *db, const char *what, struct sb_err *err)
{
	return begin(db, "BEGIN", what, err);
}

/* After some failures SQLite has rolled back already, after others not; ROLLBACK's own failure says nothing
 * new (https://www.sqlite.org/lang_transaction.html, "Response To Errors Within A Transaction"). */
static void roll_back_now(struct sb_sql *db)
{
	if (!sqlite3_get_autocommit(db->handle))
		sqlite3_exec(db->handle, "ROLLBACK", NULL, NULL, NULL);
}

int sb_sql_commit(struct sb_sql *db, struct sb_err *err)
{
	assert(db->depth > 0);
	if (--db->depth > 0)
		return 0;
	if (db->doomed) {
		roll_back_now(db);
		return sb_fail(err, SB_STATE, "A part of '%s' failed, so none of it was done.", db->what);
	}
	int status = sb_sql_run(sb_sql_kept(db, "COMMIT"), err);
	if (status)
		roll_back_now(db);
	return status;
}

void sb_sql_rollback(struct sb_sql *db)
{
	assert(db->depth > 0);
	if (--db->depth > 0)
		db->doomed = true;
	else
		roll_back_now(db);
}

bool sb_sql_within(const struct sb_sql *db)
{
	return db->depth > 0;
}

/* ---- the file under the connection ---- */

int sb_sql_image(struct sb_sql *db, struct sb_str *out, struct sb_err *err)
{
	sqlite3_int64 size = 0;
	unsigned char *bytes = sqlite3_serialize(db->handle, "main", &size, 0);

	if (bytes == NULL)
		return sb_fail(
			err, SB_IO, "The database could not be put into bytes: there is no memory for it.");
	sb_str_append(out, (const char *)bytes, (size_t)size);
	sqlite3_free(bytes);
	return 0;
}

bool sb_sql_moved(struct sb_sql *db)
{
	int moved = 0;

	return sqlite3_file_control(db->handle, "main", SQLITE_FCNTL_HAS_MOVED, &moved) == SQLITE_OK &&
		moved != 0;
}

int sb_sql_changed(struct sb_sql *db, int64_t *version, struct sb_err *err)
{
	struct sb_query *q = sb_sql_kept(db, "PRAGMA data_version");

	if (sb_sql_row(q))
		*version = sb_sql_int(q, 0);
	return sb_sql_done(q, err);
}

static int look_at_work(void *data)
{
	struct sb_sql *db = data;

	db->work += WORK_STRIDE;
	return db->work > db->work_limit;
}

void sb_sql_limit(struct sb_sql *db, int64_t steps)
{
	db->work = 0;
	db->work_limit = steps;
	if (steps)
		sqlite3_progress_handler(db->handle, WORK_STRIDE, look_at_work, db);
	else
		sqlite3_progress_handler(db->handle, 0, NULL, NULL);
}
