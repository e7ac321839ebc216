/* One writer. A lock of the system (flock) on JOB.bore.lock, a file of its own: opening and closing the job
 * file itself would drop SQLite's locks on it (https://www.sqlite.org/howtocorrupt.html section 2.2).
 *
 * The lock alone decides; it goes when its process ends, however that ends. What stands in the file is only
 * for people, so what a killed program left there does no harm.
 */
#include "store/lock.h"

#include "base/beside.h"
#include "base/mem.h"
#include "base/str.h"
#include "base/time.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#define TRIES 20

struct sb_lock {
	int fd;
	char *path;
};

/* Who holds it, as their program wrote it; "" for what is not there. */
struct holder {
	char who[64], pid[16], host[64], since[SB_TIME_TEXT];
};

static void take_line(struct holder *h, const char *line)
{
	if (strncmp(line, "who=", 4) == 0)
		sb_copy(h->who, sizeof h->who, line + 4);
	else if (strncmp(line, "pid=", 4) == 0)
		sb_copy(h->pid, sizeof h->pid, line + 4);
	else if (strncmp(line, "host=", 5) == 0)
		sb_copy(h->host, sizeof h->host, line + 5);
	else if (strncmp(line, "since=", 6) == 0)
		sb_copy(h->since, sizeof h->since, line + 6);
}

static struct holder read_holder(int fd)
{
	struct holder h = { "", "", "", "" };
	char text[512];
	ssize_t size = pread(fd, text, sizeof text - 1, 0);

	text[size > 0 ? size : 0] = '\0';
	char *rest = text;
	for (char *line; (line = strsep(&rest, "\n")) != NULL;)
		take_line(&h, line);
	return h;
}

static void host_name(char host[64])
{
	if (gethostname(host, 64) != 0)
		sb_copy(host, 64, "an unnamed machine");
	host[63] = '\0';
}

static int say_busy(int fd, const char *path, struct sb_err *err)
{
	struct holder h = read_holder(fd);
	char here[64], since[SB_TIME_TEXT] = "a moment ago";
	const char *slash = strrchr(path, '/');
	int64_t ms;

	host_name(here);
	if (sb_time_parse(h.since, &ms, NULL) == 0)
		sb_time_long(ms, sb_time_offset(ms), since);
	return sb_fail(err, SB_BUSY,
		"%s has %s open for writing (on %s, process %s, since %s). Only one can write: look on with --read-only, or ask them to close it.",
		*h.who ? h.who : "Somebody", slash ? slash + 1 : path,
		sb_same(h.host, here) ? "this machine"
			: *h.host     ? h.host
				      : "a machine not named",
		*h.pid ? h.pid : "not named", since);
}

static void write_holder(int fd, const char *who)
{
	struct sb_str text = { 0 };
	char host[64], since[SB_TIME_TEXT];

	host_name(host);
	sb_time_iso(sb_time_now(), since);
	sb_str_add(&text, "who=%s\npid=%ld\nhost=%s\nsince=%s\n", who, (long)getpid(), host, since);
	/* Only for people: that it could not be written (a full disk) does not matter to the lock. */
	if (ftruncate(fd, 0) != 0 || pwrite(fd, text.text, text.length, 0) < 0)
		(void)!ftruncate(fd, 0);
	sb_str_clear(&text);
}

/* Whether the file that was locked is still the one under its name: its last holder may have removed it
 * between our opening and our locking. */
static bool still_there(int fd, const char *path)
{
	struct stat ours, there;

	return fstat(fd, &ours) == 0 && stat(path, &there) == 0 && ours.st_ino == there.st_ino &&
		ours.st_dev == there.st_dev;
}

/* Opens the lock file. One that another user's killed program left may not be written; as nobody holds it, it
 * is removed to make room for ours. Returns -1 with errno. */
static int open_file(const char *path)
{
	int flags = O_CREAT | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK | O_NOCTTY;
	int fd = open(path, O_RDWR | flags, 0666);

	if (fd >= 0 || errno != EACCES)
		return fd;
	fd = open(path, O_RDONLY | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK | O_NOCTTY);
	if (fd < 0) {
		errno = EACCES;
		return -1;
	}
	if (flock(fd, LOCK_EX | LOCK_NB) != 0)
		return fd; /* held: the caller finds that out too, and reads who holds it */
	int gone = still_there(fd, path) ? unlink(path) : 0;
	close(fd);
	errno = EACCES;
	return gone == 0 ? open(path, O_RDWR | flags, 0666) : -1;
}

/* 1: locked; 0: try again; -1: err. */
static int try_lock(const char *path, const char *job, int *out, struct sb_err *err)
{
	struct stat info;
	int fd = open_file(path);

	if (fd < 0)
		return sb_beside_say(errno, path, err);
	if (fstat(fd, &info) != 0 || !S_ISREG(info.st_mode)) {
		close(fd);
		return sb_fail(
			err, SB_STATE, "%s is not a file, but a job cannot be locked without it.", path);
	}
	if (flock(fd, LOCK_EX | LOCK_NB) != 0) {
		int status = errno == EWOULDBLOCK ? say_busy(fd, job, err) : sb_beside_say(errno, path, err);
		close(fd);
		return status;
	}
	if (!still_there(fd, path)) {
		close(fd);
		return 0;
	}
	*out = fd;
	return 1;
}

int sb_lock_take(const char *path, const char *who, struct sb_lock **out, struct sb_err *err)
{
	struct sb_str name = { 0 };
	int fd = -1, status = 0;

	sb_str_add(&name, "%s.lock", path);
	for (int i = 0; i < TRIES && status == 0; i++)
		status = try_lock(name.text, path, &fd, err);
	if (status == 0)
		sb_fail(err, SB_BUSY, "Others keep opening and closing %s. Try again.", path);
	if (status != 1) {
		sb_str_clear(&name);
		return -1;
	}
	write_holder(fd, who);
	*out = sb_alloc(sizeof **out);
	**out = (struct sb_lock){ fd, name.text };
	return 0;
}

void sb_lock_drop(struct sb_lock *lock)
{
	if (lock == NULL)
		return;
	/* While it is still held, so that nobody's else's can be meant. */
	if (still_there(lock->fd, lock->path))
		unlink(lock->path);
	close(lock->fd);
	sb_free(lock->path);
	sb_free(lock);
}
