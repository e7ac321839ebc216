/* Older files. The copy comes first and is kept: a step that goes wrong, or a later wish to use the older
 * program again, must not cost the job.
 */
#include "store/upgrade.h"

#include "base/str.h"
#include "store/copy.h"

#include <stdio.h>

#define NAMES 100

/* A free name for the copy: JOB.bore.v1, JOB.bore.v1-2 ... */
static int name_copy(const char *path, int64_t version, struct sb_str *name, struct sb_err *err)
{
	for (int i = 1; i <= NAMES; i++) {
		sb_str_clear(name);
		sb_str_add(name, "%s.v%lld", path, (long long)version);
		if (i > 1)
			sb_str_add(name, "-%d", i);
		if (sb_copy_free(name->text, err) == 0)
			return 0;
	}
	return sb_fail_within(err, "No name is free for a copy of the job as it was: ");
}

static int upgrade(
	struct sb_sql *db, const char *path, const struct gate *gate, int64_t version, struct sb_err *err)
{
	struct sb_str name = { 0 };
	int status = name_copy(path, version, &name, err);

	if (status == 0 && sb_copy_make(db, gate, version, name.text, err))
		status = sb_fail_within(err,
			"The job is of an earlier version, and no copy of it could be kept, so it was left as it is. ");
	if (status == 0 && sb_schema_migrate(db, gate->schema, version, err))
		status = sb_fail_within(err,
			"The job could not be brought to this version; a copy of it as it was is %s. ",
			name.text);
	sb_str_clear(&name);
	return status;
}

int sb_upgrade_open(
	const char *path, bool write, const struct gate *gate, struct sb_sql **out, struct sb_err *err)
{
	struct sb_sql *db;
	int64_t version;
	int status = 0;

	if (sb_gate_open(path, write, gate, &db, &version, err))
		return -1;
	bool older = version < (int64_t)gate->schema->count;
	if (older && !write)
		status = sb_fail(err, SB_STATE,
			"%s is of an earlier version of this program. Open it once to write: it is brought to this version, and a copy as it was is kept.",
			path);
	if (write && status == 0)
		status = sb_sql_durable(db, err);
	if (older && status == 0)
		status = upgrade(db, path, gate, version, err);
	if (status)
		sb_sql_close(db);
	else
		*out = db;
	return status;
}
