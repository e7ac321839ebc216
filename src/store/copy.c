/* A copy that is known to be whole. VACUUM INTO reads one moment of the job and writes it compact; copying
 * the file by other means could catch it in the middle of a write. A job whose chain has a damage can be
 * copied too (it may be all there is), but the copy must have the same damage and no other.
 */
#include "store/copy.h"

#include "base/beside.h"
#include "base/mem.h"
#include "base/str.h"
#include "store/audit.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define TRIES 5

int sb_copy_free(const char *target, struct sb_err *err)
{
	static const char *const ends[] = { "", "-journal", "-wal" };
	struct stat what;

	for (size_t i = 0; i < sizeof ends / sizeof *ends; i++) {
		struct sb_str name = { 0 };
		sb_str_add(&name, "%s%s", target, ends[i]);
		bool there = lstat(name.text, &what) == 0;
		if (there && i == 0)
			sb_fail(err, SB_EXISTS,
				"%s is there already and was left as it is. Give another name.", name.text);
		else if (there)
			sb_fail(err, SB_EXISTS,
				"%s lies there, left from another file of that name. Move it away, or give another name.",
				name.text);
		sb_str_clear(&name);
		if (there)
			return -1;
	}
	return 0;
}

void sb_copy_discard(const char *made)
{
	struct sb_str journal = { 0 };

	sb_str_add(&journal, "%s-journal", made);
	unlink(journal.text);
	unlink(made);
	sb_str_clear(&journal);
}

static int audit_now(struct sb_sql *db, int64_t version, struct audit *a, struct sb_err *err)
{
	sb_audit_clear(a);
	if (sb_sql_begin_read(db, "audit", err))
		return -1;
	int status = sb_audit_run(db, version, a, err);
	sb_sql_rollback(db);
	return status;
}

/* Writes the copy and audits its source; again when somebody wrote in between. */
static int write_copy(
	struct sb_sql *db, int64_t version, const char *made, struct audit *source, struct sb_err *err)
{
	for (int i = 0; i < TRIES; i++) {
		int64_t before, after;
		if (truncate(made, 0) != 0)
			return sb_beside_say(errno, made, err);
		if (sb_sql_changed(db, &before, err))
			return -1;
		struct sb_query *q = sb_sql_prepare(db, "VACUUM INTO :target");
		sb_sql_bind_text(q, ":target", made);
		if (sb_sql_run(q, err) || audit_now(db, version, source, err) ||
			sb_sql_changed(db, &after, err))
			return -1;
		if (before == after)
			return 0;
	}
	return sb_fail(err, SB_BUSY, "The job is being written to all the time. Try again.");
}

static int sync_file(const char *path, struct sb_err *err)
{
	int fd = open(path, O_RDWR | O_CLOEXEC | O_NOFOLLOW);
	int status = fd < 0 || fsync(fd) != 0 ? sb_beside_say(errno, path, err) : 0;

	if (fd >= 0)
		close(fd);
	return status;
}

static int check_copy(const char *made, const struct gate *gate, int64_t version, const struct audit *source,
	struct sb_err *err)
{
	struct gate plain = { .schema = gate->schema };
	struct audit copy = { 0 };
	struct sb_sql *db;
	int64_t got = 0;

	if (sb_gate_open(made, false, &plain, &db, &got, err))
		return sb_fail_within(err, "The copy is not whole and was removed: ");
	int status = audit_now(db, version, &copy, err);
	bool same = got == version && copy.fact_rows == source->fact_rows &&
		copy.journal_rows == source->journal_rows && copy.damages == source->damages &&
		sb_same(copy.head, source->head) &&
		sb_same(sb_str_get(&copy.text), sb_str_get(&source->text));
	sb_sql_close(db);
	sb_audit_clear(&copy);
	if (status == 0 && !same)
		status = sb_fail(
			err, SB_IO, "The copy is not the same as the job and was removed. Try another disk.");
	return status;
}

int sb_copy_make(
	struct sb_sql *db, const struct gate *gate, int64_t version, const char *target, struct sb_err *err)
{
	struct audit source = { 0 };
	int fd;

	if (sb_copy_free(target, err))
		return -1;
	char *made = sb_beside_make(target, &fd, err);
	if (made == NULL)
		return -1;
	close(fd);
	int status = write_copy(db, version, made, &source, err) || sync_file(made, err) ||
		check_copy(made, gate, version, &source, err) ||
		sb_beside_place(made, target, false, !gate->unsynced, err);
	if (status)
		sb_copy_discard(made);
	sb_audit_clear(&source);
	sb_free(made);
	return status ? -1 : 0;
}
