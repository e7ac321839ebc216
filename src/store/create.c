/* Making a job file: all of it beside its place in one transaction, then given its name. Whoever finds the
 * name finds a whole job; when anything fails nothing stays behind.
 */
#include "base/beside.h"
#include "base/mem.h"
#include "base/str.h"
#include "base/time.h"
#include "store/copy.h"
#include "store/facts.h"
#include "store/handle.h"
#include "store/recall.h"

#include <unistd.h>

static int write_facts(struct sb_sql *db, const struct job *sheet, const char *who, struct sb_err *err)
{
	struct act act = { .id = 1, .kind = ACT_NEW, .leg = 1, .at_ms = sb_time_now() };
	struct chain_end end;
	char uid[SB_CHAIN_UID];

	act.offset_min = sb_time_offset(act.at_ms);
	sb_copy(act.who, sizeof act.who, who);
	sb_chain_start(&end);
	sb_chain_uid(act.at_ms, uid);
	if (sb_facts_act(db, &end, &act, uid, err))
		return -1;
	return sb_facts_sheet(db, &end, sheet, act.id, err);
}

/* What is published is solved from what the file gives back, not from what was put in. */
static int publish(struct sb_sql *db, struct sb_err *err)
{
	struct job job;
	struct solution solution = { 0 };
	struct published published = { 0 };

	if (sb_recall_job(db, &job, err))
		return -1;
	int status = sb_solve(&job, &solution, NULL, err);
	if (status == 0)
		status = sb_publish_all(db, &job, &solution, &published, err);
	sb_publish_clear(&published);
	sb_solution_clear(&solution);
	sb_job_clear(&job);
	return status;
}

static int fill(struct sb_sql *db, const struct job *sheet, const char *who, const struct gate *gate,
	struct sb_err *err)
{
	if (sb_sql_durable(db, err) || sb_sql_begin(db, "new", err))
		return -1;
	if (sb_schema_migrate(db, gate->schema, 0, err) || write_facts(db, sheet, who, err) ||
		publish(db, err)) {
		sb_sql_rollback(db);
		return -1;
	}
	return sb_sql_commit(db, err);
}

static int make(const char *made, const struct job *sheet, const char *who, const struct gate *gate,
	struct sb_err *err)
{
	struct sql_options options = { .mode = SQL_WRITE, .vfs = gate->vfs, .unsynced = gate->unsynced };
	struct sb_sql *db;

	if (sb_sql_open(made, &options, &db, err))
		return -1;
	int status = fill(db, sheet, who, gate, err);
	sb_sql_close(db);
	return status;
}

int sb_handle_create(const char *path, const struct job *sheet, const char *who, const struct gate *gate,
	struct sb_err *err)
{
	int fd;

	if (sb_handle_check_who(who, err) || sb_copy_free(path, err))
		return -1;
	char *made = sb_beside_make(path, &fd, err);
	if (made == NULL)
		return -1;
	close(fd);
	int status =
		make(made, sheet, who, gate, err) || sb_beside_place(made, path, false, !gate->unsynced, err);
	if (status)
		sb_copy_discard(made);
	sb_free(made);
	return status ? -1 : 0;
}
