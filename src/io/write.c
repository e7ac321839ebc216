/* Writing results. A full disk shows at write, at fsync or at close, a limit on file sizes or a closed pipe
 * at write: all are asked, and the first failure is what the caller hears. Whoever runs this has SIGXFSZ and
 * SIGPIPE ignored, or they end the program before it can speak.
 *
 * Steps: sb_write_begin opens, sb_write_put gathers and writes, sb_write_end flushes, syncs and gives the
 * file its name; on any failure the file beside is removed and the target is as it was.
 */
#include "io/write.h"

#include "base/beside.h"
#include "base/mem.h"
#include "base/str.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <poll.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define GATHER 65536

struct sb_write {
	int fd;
	bool ours;    /* fd is to be closed */
	char *beside; /* written here, to be renamed to `target`; NULL: written as it is */
	bool replace;
	char target[PATH_MAX];
	size_t gathered;
	struct sb_err failed; /* the first failure; code SB_OK: none */
	char bytes[GATHER];
};

static int say(const struct sb_write *w, int number, struct sb_err *err)
{
	if (number == EPIPE)
		return sb_fail(
			err, SB_IO, "Nobody reads '%.300s' any more: not all of it was written.", w->target);
	if (number == EBADF)
		return sb_fail(err, SB_IO, "'%.300s' is closed: not all of it was written.", w->target);
	sb_beside_say(number, w->target, err);
	return w->beside ? -1 : sb_fail_within(err, "Not all of it was written. ");
}

static int open_as_it_is(struct sb_write *w, struct sb_err *err)
{
	w->fd = open(w->target, O_WRONLY | O_CLOEXEC | O_NOCTTY);
	if (w->fd < 0)
		return sb_beside_say(errno, w->target, err);
	w->ours = true;
	return 0;
}

static int open_beside(struct sb_write *w, struct sb_err *err)
{
	w->beside = sb_beside_make(w->target, &w->fd, err);
	w->ours = w->beside != NULL;
	return w->ours ? 0 : -1;
}

static int open_there(struct sb_write *w, const char *path, const struct stat *what, struct sb_err *err)
{
	if (S_ISDIR(what->st_mode))
		return sb_fail(err, SB_STATE, "'%.300s' is a folder. Give the name of a file in it.", path);
	if (!S_ISREG(what->st_mode))
		return open_as_it_is(w, err);
	if (!w->replace)
		return sb_beside_say(EEXIST, path, err);
	if (realpath(path, w->target) == NULL) /* what a link points at is replaced, not the link */
		return sb_beside_say(errno, path, err);
	return open_beside(w, err);
}

static int open_target(struct sb_write *w, const char *path, struct sb_err *err)
{
	struct stat what;
	size_t length = strlen(path);

	if (length == 0)
		return sb_fail(
			err, SB_USAGE, "The name of the file is empty. Give one, or - for standard output.");
	if (!sb_copy(w->target, sizeof w->target, path))
		return sb_beside_say(ENAMETOOLONG, path, err);
	if (stat(path, &what) == 0)
		return open_there(w, path, &what, err);
	if (errno != ENOENT || path[length - 1] == '/')
		return sb_beside_say(errno, path, err);
	if (lstat(path, &what) == 0)
		return sb_fail(err, SB_STATE,
			"'%.300s' is a link to a file that is not there. Give the file itself.", path);
	return open_beside(w, err);
}

int sb_write_begin(const char *path, bool replace, struct sb_write **out, struct sb_err *err)
{
	struct sb_write *w = sb_alloc(sizeof *w);
	bool output = path == NULL || sb_same(path, "-");

	w->replace = replace;
	w->fd = STDOUT_FILENO;
	if (output) {
		sb_copy(w->target, sizeof w->target, "standard output");
	} else if (open_target(w, path, err)) {
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
			say(w, errno, &w->failed);
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

static void sync_beside(struct sb_write *w)
{
	if (w->beside && w->failed.code == SB_OK && fsync(w->fd) != 0)
		say(w, errno, &w->failed);
}

int sb_write_sync(struct sb_write *w, struct sb_err *err)
{
	flush(w);
	sync_beside(w);
	if (w->failed.code == SB_OK)
		return 0;
	if (err)
		*err = w->failed;
	return -1;
}

static void close_all(struct sb_write *w)
{
	sync_beside(w);
	if (w->ours && close(w->fd) != 0 && w->failed.code == SB_OK)
		say(w, errno, &w->failed);
	w->ours = false;
}

int sb_write_end(struct sb_write *w, struct sb_err *err)
{
	flush(w);
	close_all(w);
	if (w->beside && w->failed.code == SB_OK)
		sb_beside_place(w->beside, w->target, w->replace, true, &w->failed);
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
		unlink(w->beside); /* gone already when it was given its name */
	sb_free(w->beside);
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
