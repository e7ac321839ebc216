/* The gate. In order: a regular file that SQLite opens; whose it is and of which version (from the header
 * alone, nothing of the schema is read yet); the schema, object for object; then SQLite's own check of every
 * page and row, which by then can only meet tables of ours. All of it under a limit of work, so that a file
 * built to be read for ever is not.
 */
#include "store/gate.h"

#include "base/mem.h"
#include "base/str.h"

#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* Other programs hold their locks for milliseconds; a hand should not wait longer than this without a word.
 */
#define WAIT_WRITE_MS 500
#define WAIT_READ_MS 250

/* Above this size the cheaper check is made: 0.05 s instead of 0.3 s at 100,000 joints. */
#define FULL_CHECK_BYTES (20 << 20)

/* Steps of SQLite's machine: the check takes some 10,000 for a page of short rows. */
#define WORK_BASE 20000000
#define WORK_PER_PAGE 100000
#define WORK_MOST 4000000000 /* a minute or so, whatever size a file says it has */

const struct gate sb_gate_usual = { .schema = &sb_schema };

static const char *name_of(const char *path)
{
	const char *slash = strrchr(path, '/');

	return slash ? slash + 1 : path;
}

/* A journal can name a second journal, and rolling it back can delete the file of that name. Journals of a
 * job never do; one that does was made to. Layout: https://www.sqlite.org/fileformat.html section 3. */
static int check_journal(const char *path, struct sb_err *err)
{
	static const unsigned char magic[8] = { 0xd9, 0xd5, 0x05, 0xf9, 0x20, 0xa1, 0x63, 0xd7 };
	unsigned char end[8];
	struct sb_str name = { 0 };

	sb_str_add(&name, "%s-journal", path);
	int fd = open(name.text, O_RDONLY | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK);
	sb_str_clear(&name);
	if (fd < 0)
		return 0; /* none, or one that SQLite will speak about */
	off_t size = lseek(fd, 0, SEEK_END);
	bool names_other = size >= 16 && pread(fd, end, sizeof end, size - 8) == 8 &&
		memcmp(end, magic, sizeof magic) == 0;
	close(fd);
	if (!names_other)
		return 0;
	return sb_fail(err, SB_DAMAGED,
		"The -journal beside %s names another file, which that of a job never does. Do not use this file; ask who gave it to you.",
		name_of(path));
}

static int open_limited(
	const char *path, bool write, const struct gate *gate, struct sb_sql **out, struct sb_err *err)
{
	struct sql_options options = {
		.mode = write ? SQL_WRITE : SQL_READ,
		.busy_ms = gate->wait_ms ? gate->wait_ms
			: write		 ? WAIT_WRITE_MS
					 : WAIT_READ_MS,
		.vfs = gate->vfs,
		.unsynced = gate->unsynced,
	};
	struct stat info;
	int64_t pages = stat(path, &info) == 0 ? info.st_size / 4096 + 1 : 1;

	if (check_journal(path, err) || sb_sql_open(path, &options, out, err))
		return -1;
	int64_t work = pages < WORK_MOST / WORK_PER_PAGE ? WORK_BASE + WORK_PER_PAGE * pages : WORK_MOST;
	sb_sql_limit(*out, work);
	return 0;
}

/* Lets SQLite take back a write that was cut off. */
static int mend(const char *path, const struct gate *gate, struct sb_err *err)
{
	struct sb_sql *db;
	int64_t ignored;

	if (open_limited(path, true, gate, &db, err))
		return -1;
	int status = sb_sql_number(db, "PRAGMA user_version", &ignored, err);
	sb_sql_close(db);
	return status;
}

static int judge_ids(
	const char *path, int64_t id, int64_t version, const struct gate *gate, struct sb_err *err)
{
	struct stat info;

	if (id != SB_SCHEMA_ID) {
		bool empty = stat(path, &info) == 0 && info.st_size == 0;
		return sb_fail(err, SB_FOREIGN,
			empty ? "%s is empty: it is not a job file."
			      : "%s is not a job file: it is a database of another program.",
			name_of(path));
	}
	if (version > (int64_t)gate->schema->count)
		return sb_fail(err, SB_NEWER,
			"%s was made by a later version of this program (its form is %lld, this one knows %zu). Nothing was changed. Use the later version.",
			name_of(path), (long long)version, gate->schema->count);
	if (version < 1)
		return sb_fail(err, SB_DAMAGED, "%s does not say which version made it: it is damaged.",
			name_of(path));
	return 0;
}

static int read_ids(struct sb_sql *db, int64_t *id, int64_t *version, struct sb_err *err)
{
	return sb_sql_number(db, "PRAGMA application_id", id, err) ||
			sb_sql_number(db, "PRAGMA user_version", version, err)
		? -1
		: 0;
}

int sb_gate_look(const char *path, bool write, const struct gate *gate, struct sb_sql **out, int64_t *version,
	struct sb_err *err)
{
	struct sb_err own = { 0 };
	struct sb_sql *db;
	int64_t id = 0;

	if (err == NULL)
		err = &own;
	if (open_limited(path, write, gate, &db, err))
		return -1;
	int status = read_ids(db, &id, version, err);
	if (status && !write && err->code == SB_DENIED) {
		struct sb_err first = *err;
		sb_sql_close(db);
		if (mend(path, gate, err)) {
			if (err->code == SB_DENIED)
				*err = first;
			return -1;
		}
		if (open_limited(path, write, gate, &db, err))
			return -1;
		status = read_ids(db, &id, version, err);
	}
	if (status || judge_ids(path, id, *version, gate, err)) {
		sb_sql_close(db);
		return -1;
	}
	*out = db;
	return 0;
}

static int say_damaged(const char *path, const char *what, struct sb_err *err)
{
	return sb_fail(err, SB_DAMAGED,
		"%s is damaged (%s). Nothing was changed. Go back to the last good copy, and keep this file: its readings may still be got out of it.",
		name_of(path), what);
}

int sb_gate_length(struct sb_sql *db, const char *path, struct sb_err *err)
{
	struct stat info;
	int64_t size = 4096;

	if (sb_sql_number(db, "PRAGMA page_size", &size, err))
		return -1;
	if (stat(path, &info) == 0 && info.st_size % size != 0)
		return say_damaged(path, "its end is cut off", err);
	return 0;
}

static int check_pages(struct sb_sql *db, const char *path, struct sb_err *err)
{
	int64_t pages = 0, size = 4096;
	char first[200] = "";

	if (sb_gate_length(db, path, err) || sb_sql_number(db, "PRAGMA page_count", &pages, err) ||
		sb_sql_number(db, "PRAGMA page_size", &size, err))
		return -1;
	struct sb_query *q = sb_sql_prepare(
		db, pages * size > FULL_CHECK_BYTES ? "PRAGMA quick_check(1)" : "PRAGMA integrity_check(1)");
	if (sb_sql_row(q))
		sb_copy(first, sizeof first, sb_sql_text(q, 0));
	if (sb_sql_done(q, err))
		return -1;
	return sb_same(first, "ok") ? 0 : say_damaged(path, first, err);
}

/* Schema and pages, all of one moment. */
static int check_whole(
	struct sb_sql *db, const char *path, const struct gate *gate, int64_t version, struct sb_err *err)
{
	if (sb_sql_begin_read(db, "check", err))
		return -1;
	int status = sb_schema_compare(db, gate->schema, version, err);
	if (status && err && err->code == SB_DAMAGED)
		sb_fail_within(err, "%s was changed by another program, or is damaged. ", name_of(path));
	if (status == 0)
		status = check_pages(db, path, err);
	sb_sql_rollback(db);
	return status;
}

int sb_gate_open(const char *path, bool write, const struct gate *gate, struct sb_sql **out, int64_t *version,
	struct sb_err *err)
{
	struct sb_sql *db;

	if (sb_gate_look(path, write, gate, &db, version, err))
		return -1;
	if (check_whole(db, path, gate, *version, err)) {
		sb_sql_close(db);
		return -1;
	}
	sb_sql_limit(db, 0);
	*out = db;
	return 0;
}
