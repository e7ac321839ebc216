/* Files that come into being whole. A rename within one folder is the only step that others can see; where
 * the kernel can refuse to replace (all Linux file systems but FAT) it does, so two who make the same file at
 * once cannot lose one of the two.
 */
#include "base/beside.h"

#include "base/mem.h"
#include "base/str.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define TRIES 100

static const struct {
	int number;
	enum sb_code code;
	const char *words; /* follow the file's name */
} sayings[] = {
	{ ENOSPC, SB_FULL, "There is no room on its disk. Make room, then try again." },
	{ EDQUOT, SB_FULL, "There is no room left for you on its disk. Make room, then try again." },
	{ EFBIG, SB_FULL, "It would be larger than files may be there." },
	{ EACCES, SB_DENIED, "There is no permission to do this there." },
	{ EPERM, SB_DENIED, "There is no permission to do this there." },
	{ EROFS, SB_DENIED, "It is on a disk that may only be read." },
	{ ENOENT, SB_MISSING, "There is no such file or folder." },
	{ ENOTDIR, SB_MISSING, "There is no such folder." },
	{ ENAMETOOLONG, SB_RANGE, "The name is too long." },
	{ EEXIST, SB_EXISTS, "It is there already and was left as it is. Give another name." },
	{ ELOOP, SB_DENIED, "It is a link, which is not followed." },
};

int sb_beside_say(int number, const char *path, struct sb_err *err)
{
	for (size_t i = 0; i < sizeof sayings / sizeof *sayings; i++)
		if (sayings[i].number == number)
			return sb_fail(err, sayings[i].code, "%.300s: %s", path, sayings[i].words);
	return sb_fail(err, SB_IO, "%.300s: the disk failed (%s).", path, strerror(number));
}

/* The length of the folder part with its last slash; 0 when there is none. */
static int folder_length(const char *path)
{
	const char *slash = strrchr(path, '/');

	return slash ? (int)(slash - path) + 1 : 0;
}

char *sb_beside_make(const char *target, int *fd, struct sb_err *err)
{
	int folder = folder_length(target);

	for (int i = 0; i < TRIES; i++) {
		struct sb_str name = { 0 };
		sb_str_add(&name, "%.*s.%.200s.sagbend-%ld-%d", folder, target, target + folder,
			(long)getpid(), i);
		*fd = open(name.text, O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
		if (*fd >= 0)
			return name.text;
		sb_str_clear(&name);
		if (errno != EEXIST)
			break;
	}
	sb_beside_say(errno, target, err);
	return NULL;
}

/* On a file system that cannot refuse to replace (FAT), looking first is all that can be done. */
static int move_to_free_place(const char *made, const char *target)
{
	struct stat what;

	if (renameat2(AT_FDCWD, made, AT_FDCWD, target, RENAME_NOREPLACE) == 0)
		return 0;
	if (errno != EINVAL && errno != ENOSYS)
		return -1;
	if (lstat(target, &what) == 0) {
		errno = EEXIST;
		return -1;
	}
	return rename(made, target);
}

int sb_beside_place(const char *made, const char *target, bool replace, bool sync, struct sb_err *err)
{
	int status = replace ? rename(made, target) : move_to_free_place(made, target);

	if (status)
		return sb_beside_say(errno, target, err);
	return sync ? sb_beside_sync(target, err) : 0;
}

int sb_beside_sync(const char *path, struct sb_err *err)
{
	struct sb_str folder = { 0 };

	sb_str_add(&folder, "%.*s.", folder_length(path), path);
	int fd = open(folder.text, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
	int status = fd < 0 ? -1 : fsync(fd);
	int number = errno;
	if (fd >= 0)
		close(fd);
	sb_str_clear(&folder);
	/* EINVAL: a file system that keeps no list of names to sync. EACCES: a folder that may be written but
	 * not read; nothing better can be done there. */
	if (status == 0 || number == EINVAL || number == EACCES)
		return 0;
	return sb_beside_say(number, path, err);
}
