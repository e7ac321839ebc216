/* A copy on another disk, made while the job is in use. */
#include "store/backup.h"

#include "base/mem.h"
#include "store/copy.h"

int sb_store_backup(const char *path, const char *target, struct sb_err *err)
{
	struct sb_sql *db;
	int64_t version;

	if (sb_gate_open(path, false, &sb_gate_usual, &db, &version, err))
		return -1;
	int status = sb_copy_make(db, &sb_gate_usual, version, target, err);
	sb_sql_close(db);
	return status;
}
