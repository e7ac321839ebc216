/* A drawing read by what it is: a file that begins with < is XML, any other a CSV. */
#include "io/given.h"

#include "base/mem.h"
#include "io/load.h"

#include <fcntl.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "given_parts.h"

void given_add(struct given_line *l, double x, double y, double radius, int line)
{
	size_t rooms[4] = { l->room, l->room, l->room, l->room };

	l->pis = sb_grow(l->pis, l->count, &rooms[0], sizeof *l->pis);
	l->lines = sb_grow(l->lines, l->count, &rooms[1], sizeof *l->lines);
	l->found = sb_grow(l->found, l->count, &rooms[2], sizeof *l->found);
	l->sigma = sb_grow(l->sigma, l->count, &rooms[3], sizeof *l->sigma);
	l->room = rooms[0];
	l->pis[l->count] = (struct chain_pi){ x, y, radius };
	l->lines[l->count] = line;
	l->found[l->count] = radius;
	l->sigma[l->count++] = 0;
}

void given_line_clear(struct given_line *l)
{
	sb_free(l->pis);
	sb_free(l->lines);
	sb_free(l->found);
	sb_free(l->sigma);
	memset(l, 0, sizeof *l);
}

void given_points_add(struct given_points *p, double x, double y, int line)
{
	size_t rooms[4] = { p->room, p->room, p->room, p->room };

	p->x = sb_grow(p->x, p->count, &rooms[0], sizeof *p->x);
	p->y = sb_grow(p->y, p->count, &rooms[1], sizeof *p->y);
	p->lines = sb_grow(p->lines, p->count, &rooms[2], sizeof *p->lines);
	p->marks = sb_grow(p->marks, p->count, &rooms[3], sizeof *p->marks);
	p->room = rooms[0];
	p->marks[p->count] = MARK_NONE;
	p->x[p->count] = x;
	p->y[p->count] = y;
	p->lines[p->count++] = line;
}

void given_points_clear(struct given_points *p)
{
	sb_free(p->x);
	sb_free(p->y);
	sb_free(p->lines);
	sb_free(p->marks);
	memset(p, 0, sizeof *p);
}

double given_length(const struct given_line *l)
{
	struct chain_part *parts = sb_alloc((2 * l->count + 1) * sizeof *parts);
	size_t made = 0;
	double length = 0;

	if (l->count > 1 && sb_chain_build(l->pis, l->count, parts, &made, NULL, NULL) >= CHAIN_OK)
		length = sb_chain_length(parts, made);
	sb_free(parts);
	return length;
}

void given_note(struct given *d, const char *format, ...)
{
	char text[600];
	va_list args;

	va_start(args, format);
	vsnprintf(text, sizeof text, format, args);
	va_end(args);
	sb_utf8_tame(text);
	sb_str_add(&d->notes, "%s\n", text);
}

void sb_given_clear(struct given *d)
{
	given_line_clear(&d->alignment);
	given_line_clear(&d->profile);
	given_points_clear(&d->alignment_points);
	given_points_clear(&d->profile_points);
	sb_str_clear(&d->notes);
	memset(d, 0, sizeof *d);
}

/* Whether the first bytes are those of XML, in any encoding that a byte shows: <, or its UTF-16 halves. */
static bool looks_like_xml(const char *path)
{
	char first[64] = "";
	int fd = open(path, O_RDONLY | O_CLOEXEC | O_NOCTTY | O_NONBLOCK);
	ssize_t got = fd < 0 ? 0 : read(fd, first, sizeof first - 1);
	size_t at = 0;

	if (fd >= 0)
		close(fd);
	while (got > 0 && at < (size_t)got && strchr(" \t\r\n\xEF\xBB\xBF\xFE\xFF", first[at]))
		at++;
	return got > 0 && at < (size_t)got && first[at] == '<';
}

static const char *file_of(const char *path)
{
	const char *slash = strrchr(path, '/');

	return slash && slash[1] ? slash + 1 : path;
}

int sb_given_read(
	const char *path, const struct given_choice *choice, struct given *out, struct sb_problems *problems)
{
	struct given_reading r = {
		.path = path, .file = file_of(path), .choice = choice, .out = out, .problems = problems
	};

	if (looks_like_xml(path))
		return given_read_landxml(&r);
	return given_read_csv(&r);
}
