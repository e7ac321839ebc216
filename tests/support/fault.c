/* The VFS shim. Files hold the real file behind a struct of ours; what is not made to fail is handed on. */
#include "support/fault.h"

#include <sqlite3.h>
#include <stddef.h>
#include <string.h>

struct file {
	sqlite3_file base;
	sqlite3_file *real; /* right behind this struct */
};

static sqlite3_vfs *system_vfs, shim;

static struct {
	bool armed, for_good, late, fired;
	enum fault_kind kind;
	int left, seen;
} plan;

const char *fault_name(enum fault_kind kind)
{
	static const char *const names[FAULT_KINDS] = { "write", "sync", "open", "delete", "lock",
		"full disk" };

	return names[kind];
}

void fault_arm(enum fault_kind kind, int nth, bool for_good, bool late)
{
	plan.armed = true;
	plan.fired = false;
	plan.kind = kind;
	plan.left = nth;
	plan.seen = 0;
	plan.for_good = for_good;
	plan.late = late;
}

bool fault_disarm(void)
{
	plan.armed = false;
	return plan.fired;
}

int fault_seen(void)
{
	return plan.seen;
}

/* Whether the operation that is about to be done is one to fail. */
static bool fails(enum fault_kind kind)
{
	if (!plan.armed || plan.kind != kind)
		return false;
	plan.seen++;
	if (plan.left > 0 && --plan.left > 0)
		return false;
	if (plan.fired && !plan.for_good)
		return false;
	plan.fired = true;
	return true;
}

static sqlite3_file *real_of(sqlite3_file *f)
{
	return ((struct file *)(void *)f)->real;
}

static int file_close(sqlite3_file *f)
{
	sqlite3_file *real = real_of(f);

	return real->pMethods ? real->pMethods->xClose(real) : SQLITE_OK;
}

static int file_read(sqlite3_file *f, void *to, int size, sqlite3_int64 at)
{
	return real_of(f)->pMethods->xRead(real_of(f), to, size, at);
}

static int file_write(sqlite3_file *f, const void *from, int size, sqlite3_int64 at)
{
	sqlite3_file *real = real_of(f);

	if (fails(FAULT_FULL))
		return SQLITE_FULL;
	if (!fails(FAULT_WRITE))
		return real->pMethods->xWrite(real, from, size, at);
	if (plan.late)
		real->pMethods->xWrite(real, from, size / 2, at);
	return SQLITE_IOERR_WRITE;
}

static int file_truncate(sqlite3_file *f, sqlite3_int64 size)
{
	return real_of(f)->pMethods->xTruncate(real_of(f), size);
}

static int file_sync(sqlite3_file *f, int flags)
{
	if (!fails(FAULT_SYNC))
		return real_of(f)->pMethods->xSync(real_of(f), flags);
	if (plan.late)
		real_of(f)->pMethods->xSync(real_of(f), flags);
	return SQLITE_IOERR_FSYNC;
}

static int file_size(sqlite3_file *f, sqlite3_int64 *size)
{
	return real_of(f)->pMethods->xFileSize(real_of(f), size);
}

static int file_lock(sqlite3_file *f, int level)
{
	if (fails(FAULT_LOCK))
		return plan.late ? SQLITE_BUSY : SQLITE_IOERR_LOCK;
	return real_of(f)->pMethods->xLock(real_of(f), level);
}

static int file_unlock(sqlite3_file *f, int level)
{
	return real_of(f)->pMethods->xUnlock(real_of(f), level);
}

static int file_check_lock(sqlite3_file *f, int *held)
{
	return real_of(f)->pMethods->xCheckReservedLock(real_of(f), held);
}

static int file_control(sqlite3_file *f, int op, void *data)
{
	return real_of(f)->pMethods->xFileControl(real_of(f), op, data);
}

static int file_sector(sqlite3_file *f)
{
	return real_of(f)->pMethods->xSectorSize(real_of(f));
}

static int file_device(sqlite3_file *f)
{
	return real_of(f)->pMethods->xDeviceCharacteristics(real_of(f));
}

static const sqlite3_io_methods methods = { 1, file_close, file_read, file_write, file_truncate, file_sync,
	file_size, file_lock, file_unlock, file_check_lock, file_control, file_sector, file_device,
	/* no shared memory and no mapping: version 1 */
	NULL, NULL, NULL, NULL, NULL, NULL };

static int vfs_open(sqlite3_vfs *vfs, const char *name, sqlite3_file *f, int flags, int *out)
{
	struct file *file = (struct file *)(void *)f;

	(void)vfs;
	file->base.pMethods = NULL;
	if (fails(FAULT_OPEN))
		return SQLITE_CANTOPEN;
	file->real = (sqlite3_file *)(void *)(file + 1);
	int status = system_vfs->xOpen(system_vfs, name, file->real, flags, out);
	if (file->real->pMethods)
		file->base.pMethods = &methods;
	return status;
}

static int vfs_delete(sqlite3_vfs *vfs, const char *name, int sync)
{
	(void)vfs;
	if (!fails(FAULT_DELETE))
		return system_vfs->xDelete(system_vfs, name, sync);
	if (!plan.late)
		return SQLITE_IOERR_DELETE;
	system_vfs->xDelete(system_vfs, name, 0);
	return SQLITE_IOERR_DIR_FSYNC;
}

static int vfs_access(sqlite3_vfs *vfs, const char *name, int flags, int *out)
{
	(void)vfs;
	return system_vfs->xAccess(system_vfs, name, flags, out);
}

static int vfs_full_name(sqlite3_vfs *vfs, const char *name, int size, char *out)
{
	(void)vfs;
	return system_vfs->xFullPathname(system_vfs, name, size, out);
}

void fault_register(void)
{
	if (system_vfs)
		return;
	system_vfs = sqlite3_vfs_find(NULL);
	shim = *system_vfs;
	shim.zName = FAULT_VFS;
	shim.szOsFile = (int)sizeof(struct file) + system_vfs->szOsFile;
	shim.pNext = NULL;
	shim.xOpen = vfs_open;
	shim.xDelete = vfs_delete;
	shim.xAccess = vfs_access;
	shim.xFullPathname = vfs_full_name;
	sqlite3_vfs_register(&shim, 0);
}
