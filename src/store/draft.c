/* What is half typed. The file is made beside and renamed at every key, so a kill at any moment leaves the
 *old draft or the new one; its last line says that it is whole.
 *
 *	draft 1 leg 1 joint 42 at 2026-11-25T14:32:05.120Z
 *	inclination=88.
 *	remarks=first line\nsecond
 *	end
 *
 * A backslash stands before n (line end), r and another backslash.
 */
#include "store/draft.h"

#include "base/beside.h"
#include "base/mem.h"
#include "base/time.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define MOST_BYTES 65536

static struct sb_str name_of(const char *job_path, const char *end)
{
	struct sb_str name = { 0 };

	sb_str_add(&name, "%s.draft%s", job_path, end);
	return name;
}

/* ---- writing ---- */

static void add_escaped(struct sb_str *to, const char *text)
{
	for (; *text; text++)
		switch (*text) {
		case '\\':
			sb_str_add(to, "\\\\");
			break;
		case '\n':
			sb_str_add(to, "\\n");
			break;
		case '\r':
			sb_str_add(to, "\\r");
			break;
		default:
			sb_str_append(to, text, 1);
		}
}

static void compose(const struct draft *d, struct sb_str *text)
{
	char at[SB_TIME_TEXT];

	sb_time_iso(d->at_ms, at);
	sb_str_add(text, "draft 1 leg %d joint %d at %s\n", d->leg, d->joint, at);
	for (size_t i = 0; i < d->count && i < SB_DRAFT_FIELDS; i++) {
		sb_str_add(text, "%s=", d->fields[i].name);
		add_escaped(text, d->fields[i].text);
		sb_str_add(text, "\n");
	}
	sb_str_add(text, "end\n");
}

static int write_all(int fd, const struct sb_str *text, bool sync)
{
	size_t done = 0;

	while (done < text->length) {
		ssize_t n = write(fd, text->text + done, text->length - done);
		if (n < 0 && errno == EINTR)
			continue;
		if (n < 0)
			return -1;
		done += (size_t)n;
	}
	return sync ? fsync(fd) : 0;
}

int sb_draft_save(const char *job_path, const struct draft *d, bool sync, struct sb_err *err)
{
	struct sb_str text = { 0 }, name = name_of(job_path, "");
	int fd;
	char *made = sb_beside_make(name.text, &fd, err);
	int status = made ? 0 : -1;

	if (made) {
		compose(d, &text);
		if (write_all(fd, &text, sync))
			status = sb_beside_say(errno, name.text, err);
		if (close(fd) != 0 && status == 0)
			status = sb_beside_say(errno, name.text, err);
		if (status == 0)
			status = sb_beside_place(made, name.text, true, sync, err);
		if (status)
			unlink(made);
	}
	sb_free(made);
	sb_str_clear(&text);
	sb_str_clear(&name);
	return status;
}

/* ---- reading ---- */

static bool take_escaped(char *to, size_t size, const char *from)
{
	size_t used = 0;

	for (; *from; from++) {
		char c = *from;
		if (c == '\\') {
			from++;
			if (*from != 'n' && *from != 'r' && *from != '\\')
				return false;
			if (*from == 'n')
				c = '\n';
			else if (*from == 'r')
				c = '\r';
		}
		if (used + 1 >= size)
			return false;
		to[used++] = c;
	}
	to[used] = '\0';
	return sb_utf8_valid(to, used);
}

static bool take_field(struct draft *d, char *line)
{
	char *equals = strchr(line, '=');

	if (equals == NULL || d->count >= SB_DRAFT_FIELDS)
		return false;
	*equals = '\0';
	size_t i = d->count++;
	return *line && sb_copy(d->fields[i].name, sizeof d->fields[i].name, line) &&
		take_escaped(d->fields[i].text, sizeof d->fields[i].text, equals + 1);
}

/* A label and a number after it; *line moves past both. */
static bool take_number(const char **line, const char *label, int *number)
{
	char *end;
	size_t length = strlen(label);

	if (strncmp(*line, label, length) != 0)
		return false;
	errno = 0;
	long value = strtol(*line + length, &end, 10);
	if (errno || end == *line + length || value < 0 || value > 1000000)
		return false;
	*number = (int)value;
	*line = end;
	return true;
}

static bool take_head(struct draft *d, const char *line)
{
	return take_number(&line, "draft 1 leg ", &d->leg) && take_number(&line, " joint ", &d->joint) &&
		strncmp(line, " at ", 4) == 0 && d->leg >= 1 && sb_time_parse(line + 4, &d->at_ms, NULL) == 0;
}

/* False when it is not a whole draft. */
static bool take_apart(struct draft *d, char *text)
{
	char *rest = text, *line = strsep(&rest, "\n");

	if (line == NULL || !take_head(d, line))
		return false;
	while ((line = strsep(&rest, "\n")) != NULL) {
		if (sb_same(line, "end"))
			return rest != NULL && *rest == '\0';
		if (!take_field(d, line))
			return false;
	}
	return false;
}

/* Reads the file's text: 1, 0 when it is not one of ours by its size or kind, -1 with errno. */
static int read_text(const char *name, char *text)
{
	struct stat info;
	int fd = open(name, O_RDONLY | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK);

	if (fd < 0)
		return errno == ELOOP ? 0 : -1;
	int status = fstat(fd, &info);
	if (status == 0 && S_ISREG(info.st_mode) && info.st_size < MOST_BYTES) {
		ssize_t size = read(fd, text, MOST_BYTES - 1);
		text[size > 0 ? size : 0] = '\0';
		/* A NUL within would hide what follows it. */
		status = size < 0 ? -1 : (size_t)size == strlen(text);
	}
	int number = errno;
	close(fd);
	errno = number;
	return status;
}

static void set_aside(const char *job_path, const char *name)
{
	struct sb_str bad = name_of(job_path, ".bad");

	if (rename(name, bad.text) != 0)
		unlink(name);
	sb_str_clear(&bad);
}

int sb_draft_load(const char *job_path, struct draft *d, struct sb_err *err)
{
	struct sb_str name = name_of(job_path, "");
	char *text = sb_alloc(MOST_BYTES);
	int status = read_text(name.text, text);

	memset(d, 0, sizeof *d);
	if (status < 0) {
		status = errno == ENOENT ? 0 : sb_beside_say(errno, name.text, err);
	} else if (status == 0 || !take_apart(d, text)) {
		memset(d, 0, sizeof *d);
		set_aside(job_path, name.text);
		status = 0;
	}
	sb_free(text);
	sb_str_clear(&name);
	return status;
}

void sb_draft_discard(const char *job_path)
{
	struct sb_str name = name_of(job_path, "");

	unlink(name.text);
	sb_str_clear(&name);
}
