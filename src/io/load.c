/* Reading a file whole, with a limit, because what follows looks at it more than once and because a file
 * from outside must not decide how much memory is taken: never more than about twice the limit.
 */
#include "io/load.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define PIECE 65536

static int cannot_open(const char *path, struct sb_err *err)
{
	switch (errno) {
	case ENOENT:
	case ENOTDIR:
		return sb_fail(
			err, SB_MISSING, "There is no file '%.300s'. Check its name and folder.", path);
	case EACCES:
	case EPERM:
		return sb_fail(err, SB_DENIED, "You may not read '%.300s'. Ask its owner to let you.", path);
	default:
		return sb_fail(
			err, SB_IO, "'%.300s' cannot be opened: %s. Try again.", path, strerror(errno));
	}
}

static int too_large(size_t limit, struct sb_err *err)
{
	if (limit >= (1u << 20))
		return sb_fail(err, SB_RANGE,
			"The file is larger than %zu MiB, which no file of this kind is. Check that it is the right one.",
			limit >> 20);
	return sb_fail(err, SB_RANGE,
		"The file is larger than %zu bytes, which no file of this kind is. Check that it is the right one.",
		limit);
}

static int read_all(int fd, size_t limit, struct sb_str *out, struct sb_err *err)
{
	char piece[PIECE];

	for (;;) {
		ssize_t got = read(fd, piece, sizeof piece);
		if (got < 0 && errno == EINTR)
			continue;
		if (got < 0)
			return sb_fail(err, SB_IO, "The file cannot be read: %s. Try a copy of it.",
				strerror(errno));
		if (got == 0)
			return 0;
		if ((size_t)got > limit - out->length)
			return too_large(limit, err);
		sb_str_append(out, piece, (size_t)got);
	}
}

static int look_at_start(struct sb_str *text, struct sb_err *err)
{
	const char *t = sb_str_get(text);

	if (text->length >= 2 && (memcmp(t, "\xFF\xFE", 2) == 0 || memcmp(t, "\xFE\xFF", 2) == 0))
		return sb_fail(err, SB_FORMAT,
			"The file is UTF-16 ('Unicode') text. Save it again as UTF-8 (in a spreadsheet: 'CSV UTF-8').");
	if (text->length >= 3 && memcmp(t, "\xEF\xBB\xBF", 3) == 0) {
		text->length -= 3;
		memmove(text->text, text->text + 3, text->length + 1);
	}
	return 0;
}

int sb_load(const char *path, size_t limit, struct sb_str *out, struct sb_err *err)
{
	struct stat what;
	bool input = sb_same(path, "-");
	int fd = input ? STDIN_FILENO : open(path, O_RDONLY | O_CLOEXEC | O_NOCTTY);

	if (fd < 0)
		return cannot_open(path, err);
	int failed = fstat(fd, &what);
	if (failed)
		failed = cannot_open(path, err);
	else if (S_ISDIR(what.st_mode))
		failed = sb_fail(err, SB_FORMAT, "'%.300s' is a folder, not a file.", path);
	else if (S_ISREG(what.st_mode) && what.st_size > (off_t)limit)
		failed = too_large(limit, err);
	else
		failed = read_all(fd, limit, out, err);
	if (!input)
		close(fd);
	if (!failed)
		failed = look_at_start(out, err);
	if (failed)
		sb_str_clear(out);
	return failed;
}

struct load_lines sb_load_lines(const struct sb_str *text)
{
	const char *start = sb_str_get(text);

	return (struct load_lines){ start, start + text->length, 0 };
}

bool sb_load_next(struct load_lines *l, const char **line, size_t *length, size_t *whole)
{
	const char *c = l->at;

	if (c == l->end)
		return false;
	while (c < l->end && *c != '\n' && *c != '\r')
		c++;
	*line = l->at;
	*length = (size_t)(c - l->at);
	if (c < l->end)
		c += c[0] == '\r' && c + 1 < l->end && c[1] == '\n' ? 2 : 1;
	if (whole)
		*whole = (size_t)(c - l->at);
	l->at = c;
	l->number++;
	return true;
}

const char *sb_load_wrong(const char *line, size_t length)
{
	if (memchr(line, '\0', length))
		return "this line holds a NUL byte, which text never does. The file is damaged, or not text.";
	if (!sb_utf8_valid(line, length))
		return "this line is not UTF-8 text. Save the file again as UTF-8 (in a spreadsheet: 'CSV UTF-8').";
	for (size_t i = 0; i < length; i++)
		if (((unsigned char)line[i] < 0x20 && line[i] != '\t') || line[i] == 0x7F)
			return "this line holds a control character. Take it out.";
	return NULL;
}
