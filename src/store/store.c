/* The job file as the rest of the program sees it: opened, lent, refreshed. The acts are in acts.c, how it is
 * opened and read in handle.c.
 */
#include "store/store.h"

#include "base/str.h"
#include "store/handle.h"

#include <sys/statvfs.h>

int sb_store_create(const char *path, const struct job *sheet, const char *who, struct sb_err *err)
{
	return sb_handle_create(path, sheet, who, &sb_gate_usual, err);
}

int sb_store_open(
	const char *path, enum store_mode mode, const char *who, struct sb_store **out, struct sb_err *err)
{
	return sb_handle_open(path, mode == STORE_WRITE, who, &sb_gate_usual, out, err);
}

void sb_store_close(struct sb_store *store)
{
	sb_handle_close(store);
}

const struct job *sb_store_job(const struct sb_store *store)
{
	return &store->job;
}

const struct solution *sb_store_solution(const struct sb_store *store)
{
	return &store->solution;
}

const char *sb_store_path(const struct sb_store *store)
{
	return store->path;
}

bool sb_store_writes(const struct sb_store *store)
{
	return store->writes;
}

void sb_store_head(const struct sb_store *store, char hex[65])
{
	sb_copy(hex, SB_CHAIN_HEX, store->end.hash);
}

static int refresh(struct sb_store *store, bool *changed, struct sb_err *err)
{
	int64_t seen;

	if (store->db == NULL) {
		int status = sb_handle_revive(store, err);
		*changed = store->db != NULL;
		return status;
	}
	if (sb_handle_there(store, err))
		return -1;
	if (sb_sql_changed(store->db, &seen, err)) {
		/* The writer was killed in the middle: opening again takes back what it left. */
		if (store->writes || err->code != SB_DENIED || sb_handle_reopen(store, err))
			return -1;
		*changed = true;
		return 0;
	}
	if (seen == store->seen)
		return 0;
	if (sb_handle_load(store, err))
		return -1;
	*changed = true;
	return 0;
}

int sb_store_refresh(struct sb_store *store, bool *changed, struct sb_err *err)
{
	struct sb_err own = { 0 };

	*changed = false;
	int status = refresh(store, changed, &own);
	/* Somebody is writing at this moment: there will be a next time. */
	if (status && own.code == SB_BUSY)
		return 0;
	if (status && err)
		*err = own;
	return status;
}

long long sb_store_room(const struct sb_store *store)
{
	struct statvfs disk;

	if (statvfs(store->path, &disk) != 0)
		return -1;
	return (long long)disk.f_bavail * (long long)disk.f_frsize;
}
