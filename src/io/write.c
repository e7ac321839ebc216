/* Writing results. A full disk shows at write, at fsync or at close, a limit on file sizes or a closed pipe
 * at write: all are asked, and the first failure is what the caller hears. Whoever runs this has SIGXFSZ and
 * SIGPIPE ignored (src/cli/main.c), or they end the program before it can speak.
 *
 * Steps: sb_write_begin opens, sb_write_put gathers and writes, sb_write_end flushes, syncs, renames and
 * syncs the folder; on any failure the file beside is removed and the target is as it was.
 */
#include "io/write.h"

#include "base/mem.h"
#include "base/str.h"

#include <assert.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <poll.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define GATHER 65536
#define TRIES 100

struct sb_write {
	int fd;
	bool beside; /* written to `temp`, to be renamed to `target` */
	bool replace;
	bool ours; /* fd is to be closed */
	char target[PATH_MAX], temp[PATH_MAX];
	char shown[200]; /* the target's name, for messages */
	size_t gathered;
	struct sb_err failed; /* the first failure; code SB_OK: none */
	char bytes[GATHER];
};

static int say_errno(const struct sb_write *w, int number, struct sb_err *err)
{
	const char *left =
		w->beside || !w->ours ? "Nothing was changed there." : "Not all of it was written.";

	if (w->fd == STDOUT_FILENO)
		left = "Not all of it was written.";
	switch (number) {
	case ENOSPC:
	case EDQUOT:
		return sb_fail(err, SB_FULL,
			"There is no room for '%s'. %s Make room, or give a file on another disk.", w->shown,
			left);
	case EFBIG:
		return sb_fail(err, SB_FULL,
			"'%s' would be larger than files may be here. %s Give a file on another disk.",
			w->shown, left);
	case EPIPE:
		return sb_fail(
			err, SB_IO, "Nobody reads '%s' any more: not all of it was written.", w->shown);
	case EACCES:
	case EPERM:
		return sb_fail(err, SB_DENIED,
			"You may not write '%s'. Give a file in a folder that is yours.", w->shown);
	case EROFS:
		return sb_fail(err, SB_DENIED,
			"'%s' is on a disk that can only be read. Give a file on another one.", w->shown);
	case ENOENT:
	case ENOTDIR:
		return sb_fail(err, SB_MISSING,
			"The folder of '%s' is not there. Make it first, or give another.", w->shown);
	case ENAMETOOLONG:
		return sb_fail(err, SB_RANGE, "The name '%s' is too long. Give a shorter one.", w->shown);
	default:
		return sb_fail(
			err, SB_IO, "'%s' could not be written: %s. %s", w->shown, strerror(number), left);
	}
}

static int exists_already(const char *shown, struct sb_err *err)
{
	return sb_fail(err, SB_STATE,
		"'%s' is there already and was left as it is. Give another name, or say that it may be replaced.",
		shown);
}

/* The folder of the target, "." if none is named. */
static void folder_of(const char *path, char folder[PATH_MAX])
{
	const char *slash = strrchr(path, '/');

	if (slash == NULL)
		sb_copy(folder, PATH_MAX, ".");
	else if (slash == path)
		sb_copy(folder, PATH_MAX, "/");
	else
		snprintf(folder, PATH_MAX, "%.*s", (int)(slash - path), path);
}

/* Opens a new file beside the target. Its name begins with a dot and says whose it is, so that one left by a
 * power cut can be known and deleted. */
static int open_beside(struct sb_write *w, struct sb_err *err)
{
	char folder[PATH_MAX];
	const char *slash = strrchr(w->target, '/');

	folder_of(w->target, folder);
	for (int i = 0; i < TRIES; i++) {
		int length = snprintf(w->temp, sizeof w->temp, "%s/.%.200s.sagbend-%ld-%d", folder,
			slash ? slash + 1 : w->target, (long)getpid(), i);
		if (length < 0 || (size_t)length >= sizeof w->temp)
			return say_errno(w, ENAMETOOLONG, err);
		w->fd = open(w->temp, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
		if (w->fd >= 0) {
			w->beside = w->ours = true;
			return 0;
		}
		if (errno != EEXIST)
			break;
	}
	return say_errno(w, errno, err);
}

static int open_as_it_is(struct sb_write *w, struct sb_err *err)
{
	w->fd = open(w->target, O_WRONLY | O_CLOEXEC | O_NOCTTY);
	if (w->fd < 0)
		return say_errno(w, errno, err);
	w->ours = true;
	return 0;
}

static int open_target(struct sb_write *w, const char *path, struct sb_err *err)
{
	struct stat what;
	size_t length = strlen(path);

	if (length == 0 || length >= sizeof w->target)
		return say_errno(w, length ? ENAMETOOLONG : ENOENT, err);
	sb_copy(w->target, sizeof w->target, path);
	if (stat(path, &what) != 0) {
		if (errno != ENOENT)
			return say_errno(w, errno, err);
		if (path[length - 1] == '/')
			return say_errno(w, ENOENT, err);
		if (lstat(path, &what) == 0)
			return sb_fail(err, SB_STATE,
				"'%s' is a link to a file that is not there. Give the file itself.",
				w->shown);
		return open_beside(w, err);
	}
	if (S_ISDIR(what.st_mode))
		return sb_fail(err, SB_STATE, "'%s' is a folder. Give the name of a file in it.", w->shown);
	if (!S_ISREG(what.st_mode))
		return open_as_it_is(w, err);
	if (!w->replace)
		return exists_already(w->shown, err);
	if (realpath(path, w->target) == NULL) /* what a link points at is replaced, not the link */
		return say_errno(w, errno, err);
	return open_beside(w, err);
}

int sb_write_begin(const char *path, bool replace, struct sb_write **out, struct sb_err *err)
{
	struct sb_write *w = sb_alloc(sizeof *w);
	bool output = path == NULL || sb_same(path, "-");

	w->replace = replace;
	sb_copy(w->shown, sizeof w->shown, output ? "standard output" : path);
	w->fd = output ? STDOUT_FILENO : -1;
	if (!output && open_target(w, path, err)) {
		sb_free(w);
		return -1;
	}
	*out = w;
	return 0;
}

static void flush(struct sb_write *w)
{
	size_t done = 0;

	while (done < w->gathered && w->failed.code == SB_OK) {
		ssize_t n = write(w->fd, w->bytes + done, w->gathered - done);
		if (n >= 0)
			done += (size_t)n;
		else if (errno == EAGAIN)
			poll(&(struct pollfd){ .fd = w->fd, .events = POLLOUT }, 1, -1);
		else if (errno != EINTR)
			say_errno(w, errno, &w->failed);
	}
	w->gathered = 0;
}

void sb_write_put(struct sb_write *w, const char *bytes, size_t length)
{
	while (length > 0 && w->failed.code == SB_OK) {
		size_t piece = GATHER - w->gathered < length ? GATHER - w->gathered : length;
		memcpy(w->bytes + w->gathered, bytes, piece);
		w->gathered += piece;
		bytes += piece;
		length -= piece;
		if (w->gathered == GATHER)
			flush(w);
	}
}

static void fail_with(struct sb_write *w, int number)
{
	if (w->failed.code == SB_OK)
		say_errno(w, number, &w->failed);
}

static void close_all(struct sb_write *w)
{
	if (w->beside && w->failed.code == SB_OK && fsync(w->fd) != 0)
		fail_with(w, errno);
	if (w->ours && close(w->fd) != 0)
		fail_with(w, errno);
	w->ours = false;
}

/* Gives the file its name. Without leave to replace, the kernel refuses when somebody else was quicker; a
 * file system that cannot (FAT) is asked by lstat first. */
static int give_name(struct sb_write *w)
{
	struct stat what;

	if (w->replace)
		return rename(w->temp, w->target);
	if (renameat2(AT_FDCWD, w->temp, AT_FDCWD, w->target, RENAME_NOREPLACE) == 0)
		return 0;
	if (errno != EINVAL && errno != ENOSYS)
		return -1;
	if (lstat(w->target, &what) == 0) {
		errno = EEXIST;
		return -1;
	}
	return rename(w->temp, w->target);
}

static void sync_folder(struct sb_write *w)
{
	char folder[PATH_MAX];

	folder_of(w->target, folder);
	int fd = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
	if (fd < 0)
		return; /* a folder that may be written but not read: the file is there, only its name's sync
			   is not */
	if (fsync(fd) != 0 && errno != EINVAL)
		sb_fail(&w->failed, SB_IO,
			"'%s' was written, but the disk does not say that its name is safe: %s.", w->shown,
			strerror(errno));
	close(fd);
}

int sb_write_end(struct sb_write *w, struct sb_err *err)
{
	flush(w);
	close_all(w);
	if (w->beside && w->failed.code == SB_OK) {
		if (give_name(w) == 0) {
			w->beside = false;
			sync_folder(w);
		} else if (errno == EEXIST) {
			exists_already(w->shown, &w->failed);
		} else {
			fail_with(w, errno);
		}
	}
	int failed = w->failed.code == SB_OK ? 0 : -1;
	if (failed && err)
		*err = w->failed;
	sb_write_abandon(w);
	return failed;
}

void sb_write_abandon(struct sb_write *w)
{
	if (w == NULL)
		return;
	if (w->ours)
		close(w->fd);
	if (w->beside)
		unlink(w->temp);
	sb_free(w);
}

int sb_write_whole(const char *path, bool replace, const char *bytes, size_t length, struct sb_err *err)
{
	struct sb_write *w;

	if (sb_write_begin(path, replace, &w, err))
		return -1;
	sb_write_put(w, bytes, length);
	return sb_write_end(w, err);
}
