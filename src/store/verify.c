/* Is the job file whole? Everything is gone through, and what is wrong is a line of the report, not the end
 * of the check: the rest of a damaged job is worth knowing about.
 */
#include "store/audit.h"
#include "store/backup.h"
#include "store/gate.h"
#include "store/publish.h"
#include "store/recall.h"

#include <string.h>

static void check_schema(struct sb_sql *db, int64_t version, struct audit *a)
{
	struct sb_err err = { 0 };

	if (sb_schema_compare(db, &sb_schema, version, &err))
		sb_audit_damage(a, "schema: %s", err.text);
}

/* SQLite's own checks: pages, indexes, CHECK and NOT NULL; then rows that name rows which are not there. */
static void check_pages(struct sb_sql *db, const char *path, struct audit *a)
{
	struct sb_err err = { 0 };

	if (sb_gate_length(db, path, &err))
		sb_audit_damage(a, "file: %s", err.text);
	struct sb_query *q = sb_sql_prepare(db, "PRAGMA integrity_check");

	while (sb_sql_row(q))
		if (!sb_same(sb_sql_text(q, 0), "ok"))
			sb_audit_damage(a, "file: %.200s", sb_sql_text(q, 0));
	if (sb_sql_done(q, &err))
		sb_audit_damage(a, "file: %s", err.text);
	q = sb_sql_prepare(db, "PRAGMA foreign_key_check");
	while (sb_sql_row(q))
		sb_audit_damage(a, "%.40s %lld: names a row of %.40s that is not there", sb_sql_text(q, 0),
			(long long)sb_sql_int(q, 1), sb_sql_text(q, 2));
	if (sb_sql_done(q, &err))
		sb_audit_damage(a, "file: %s", err.text);
}

static void add_lines(struct audit *a, const struct sb_str *lines)
{
	const char *line = sb_str_get(lines);

	for (const char *end; (end = strchr(line, '\n')) != NULL; line = end + 1)
		sb_audit_damage(a, "%.*s", (int)(end - line), line);
}

static void check_computed(struct sb_sql *db, struct audit *a)
{
	struct sb_err err = { 0 };
	struct sb_str lines = { 0 };
	struct solution solution = { 0 };
	struct job job;

	if (sb_recall_job(db, &job, &err)) {
		sb_audit_damage(a, "facts: %s", err.text);
		return;
	}
	if (sb_solve(&job, &solution, NULL, &err) ||
		sb_publish_compare(db, &job, &solution, &lines, &err) < 0)
		sb_audit_damage(a, "computed tables: %s", err.text);
	add_lines(a, &lines);
	sb_str_clear(&lines);
	sb_solution_clear(&solution);
	sb_job_clear(&job);
}

static void check_all(struct sb_sql *db, const char *path, int64_t version, struct audit *a)
{
	struct sb_err err = { 0 };

	check_schema(db, version, a);
	check_pages(db, path, a);
	if (sb_audit_run(db, version, a, &err))
		sb_audit_damage(a, "journal: %s", err.text);
	/* The tables of an older version are checked when it has been brought to this one. */
	if (version == (int64_t)sb_schema.count)
		check_computed(db, a);
}

int sb_store_verify(const char *path, struct verify_report *report, struct sb_err *err)
{
	struct audit a = { 0 };
	struct sb_sql *db;
	int64_t version;

	if (sb_gate_look(path, false, &sb_gate_usual, &db, &version, err))
		return -1;
	int status = sb_sql_begin_read(db, "verify", err);
	if (status == 0) {
		check_all(db, path, version, &a);
		sb_sql_rollback(db);
		*report = (struct verify_report){ a.journal_rows, a.fact_rows, a.damages, a.text, "" };
		sb_copy(report->head, sizeof report->head, a.head);
	}
	sb_sql_close(db);
	return status;
}

void sb_verify_report_clear(struct verify_report *r)
{
	sb_str_clear(&r->text);
	*r = (struct verify_report){ 0 };
}
