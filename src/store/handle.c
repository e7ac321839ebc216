/* An open job.
 *
 * 1. job and solution equal what is on disk, or the store is lost (db is NULL) and they are what was on disk
 *    last; nothing is written by a lost store before it has been read again.
 * 2. The lock is held as long as the store writes, lost or not.
 */
#include "store/handle.h"

#include "base/beside.h"
#include "base/mem.h"
#include "base/str.h"
#include "store/recall.h"
#include "store/upgrade.h"

#include <assert.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>

const char *sb_handle_name(const struct sb_store *store)
{
	const char *slash = strrchr(store->path, '/');

	return slash ? slash + 1 : store->path;
}

int sb_handle_check_who(const char *who, struct sb_err *err)
{
	char tame[SB_WHO_TEXT];

	if (who == NULL || who[strspn(who, " \t")] == '\0')
		return sb_fail(
			err, SB_USAGE, "Nobody's name was given: every act needs the name of who does it.");
	if (!sb_copy(tame, sizeof tame, who))
		return sb_fail(err, SB_RANGE, "The name '%.40s...' is too long: %d bytes fit.", who,
			SB_WHO_TEXT - 1);
	sb_utf8_tame(tame);
	if (!sb_same(tame, who))
		return sb_fail(err, SB_FORMAT, "The name '%s' holds characters that are not text.", tame);
	return 0;
}

int sb_handle_there(const struct sb_store *store, struct sb_err *err)
{
	if (!sb_sql_moved(store->db))
		return 0;
	return sb_fail(err, SB_MISSING,
		"%s was moved, deleted or replaced while it was open. Nothing was written. Put it back where it was, or open it where it is now.",
		sb_handle_name(store));
}

/* ---- reading the file ---- */

/* All that is read of the file at one moment. */
struct view {
	struct job job;
	struct solution solution;
	struct chain_end end;
	int64_t seen;
	bool stale;
};

static void clear_view(struct view *v)
{
	sb_solution_clear(&v->solution);
	sb_job_clear(&v->job);
}

static int read_view(struct sb_store *store, struct view *v, struct sb_err *err)
{
	if (sb_sql_changed(store->db, &v->seen, err) || sb_recall_job(store->db, &v->job, err) ||
		sb_chain_read(store->db, &v->end, err))
		return -1;
	if (sb_solve(&v->job, &v->solution, NULL, err)) {
		if (err)
			err->code = SB_DAMAGED; /* it did when the file was made */
		return sb_fail_within(
			err, "The job sheet in %s does not hold together: ", sb_handle_name(store));
	}
	if (!store->writes)
		return 0;
	int64_t differ = sb_publish_compare(store->db, &v->job, &v->solution, NULL, err);
	v->stale = differ > 0;
	return differ < 0 ? -1 : 0;
}

/* Somebody else's write may have brought a trigger with it: so the schema is compared again. */
static int read_again(struct sb_store *store, struct view *v, struct sb_err *err)
{
	int64_t version = (int64_t)store->gate.schema->count;

	if (store->seen && sb_schema_compare(store->db, store->gate.schema, version, err))
		return -1;
	return read_view(store, v, err);
}

int sb_handle_load(struct sb_store *store, struct sb_err *err)
{
	struct view v = { 0 };

	if (sb_sql_begin_read(store->db, "load", err))
		return -1;
	int status = read_again(store, &v, err);
	sb_sql_rollback(store->db);
	if (status) {
		clear_view(&v);
		return -1;
	}
	sb_solution_clear(&store->solution);
	sb_job_clear(&store->job);
	store->job = v.job;
	store->solution = v.solution;
	store->end = v.end;
	store->seen = v.seen;
	store->stale = v.stale;
	sb_publish_known(&store->published, &store->solution);
	return 0;
}

int sb_handle_reopen(struct sb_store *store, struct sb_err *err)
{
	sb_sql_close(store->db);
	store->db = NULL;
	store->seen = 0; /* the gate compares the schema */
	if (sb_upgrade_open(store->path, store->writes, &store->gate, &store->db, err))
		return -1;
	if (sb_handle_load(store, err) == 0)
		return 0;
	sb_sql_close(store->db);
	store->db = NULL;
	return -1;
}

int sb_handle_find(struct sb_store *store, const char *uid, struct sb_err *err)
{
	struct sb_query *q = sb_sql_kept(store->db, "SELECT 1 FROM act WHERE uid = :uid");

	sb_sql_bind_text(q, ":uid", uid);
	int found = sb_sql_row(q);
	return sb_sql_done(q, err) ? -1 : found;
}

int sb_handle_revive(struct sb_store *store, struct sb_err *err)
{
	if (store->db)
		return 0;
	if (sb_handle_reopen(store, err))
		return -1;
	if (store->unclear[0] == '\0')
		return 0;
	int found = sb_handle_find(store, store->unclear, err);
	if (found < 0)
		return -1;
	store->unclear[0] = '\0';
	if (found == 0)
		return 0;
	return sb_fail(err, SB_STATE,
		"The last entry, of which it was not clear whether it was saved, is in %s after all. Look at it before entering anything again.",
		sb_handle_name(store));
}

/* ---- opening ---- */

int sb_handle_open(const char *path, bool write, const char *who, const struct gate *gate,
	struct sb_store **out, struct sb_err *err)
{
	if (write && sb_handle_check_who(who, err))
		return -1;
	struct sb_store *store = sb_alloc(sizeof *store);
	store->writes = write;
	store->gate = *gate;
	char *real = realpath(path, NULL);
	int status = real ? 0 : sb_beside_say(errno, path, err);
	store->path = sb_strdup(real ? real : path);
	free(real);
	if (status == 0 && write)
		status = sb_lock_take(store->path, who, &store->lock, err);
	if (status == 0)
		status = sb_handle_reopen(store, err);
	if (status) {
		sb_handle_close(store);
		return -1;
	}
	*out = store;
	return 0;
}

void sb_handle_close(struct sb_store *store)
{
	if (store == NULL)
		return;
	sb_sql_close(store->db);
	sb_lock_drop(store->lock);
	sb_solution_clear(&store->solution);
	sb_job_clear(&store->job);
	sb_publish_clear(&store->published);
	sb_free(store->path);
	sb_free(store);
}
