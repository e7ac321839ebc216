/* Documents, section by section. */
#include "man/pages.h"

#include "io/load.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define MARK "make man: "

const char *const pages[] = {
	"man/sagbend.1",
	"man/sagbend-job.5",
	"src/cli/completion.bash",
	"DEVELOPERS.md",
	"README.md",
	NULL,
};

void pages_die(const char *format, ...)
{
	va_list args;

	va_start(args, format);
	vfprintf(stderr, format, args);
	va_end(args);
	fputc('\n', stderr);
	exit(1);
}

/* Whether the line is a mark; what it says goes to words, up to the end of the comment. */
static bool is_mark(const char *line, size_t length, char words[64])
{
	static const char *const comments[] = { ".\\\" ", "# ", "<!-- " };

	words[0] = '\0';
	while (length > 0 && *line == '\t') {
		line++;
		length--;
	}
	for (size_t i = 0; i < sizeof comments / sizeof *comments; i++) {
		size_t begin = strlen(comments[i]) + strlen(MARK);
		if (length <= begin || strncmp(line, comments[i], strlen(comments[i])) != 0 ||
			strncmp(line + strlen(comments[i]), MARK, strlen(MARK)) != 0)
			continue;
		snprintf(words, 64, "%.*s", (int)(length - begin), line + begin);
		char *end = strstr(words, " -->");
		if (end)
			*end = '\0';
		return true;
	}
	return false;
}

static const struct page_section *find(const char *name)
{
	const struct page_section *const lists[] = { program_sections, sheet_sections, schema_sections,
		completion_sections, tour_sections };

	for (size_t i = 0; i < sizeof lists / sizeof *lists; i++)
		for (const struct page_section *s = lists[i]; s->name; s++)
			if (sb_same(s->name, name))
				return s;
	return NULL;
}

static void write_section(const char *path, char *words, const char *old, struct sb_str *out)
{
	char *argument = strchr(words, ' ');

	if (argument)
		*argument++ = '\0';
	const struct page_section *s = find(words);
	if (s == NULL)
		pages_die("%s: there is no section '%s'", path, words);
	if (s->fill)
		s->fill(argument ? argument : "", old, out);
	else
		s->write(out);
}

void pages_fill(const char *path, struct sb_str *old, struct sb_str *new)
{
	struct sb_str inside = { 0 };
	struct sb_err err;
	char open[64] = "", words[64];
	const char *line;
	size_t length, whole;

	if (sb_load(path, 1u << 20, old, &err))
		pages_die("%s: %s (run this from the top of the tree)", path, err.text);
	struct load_lines lines = sb_load_lines(old);
	while (sb_load_next(&lines, &line, &length, &whole)) {
		bool mark = is_mark(line, length, words);
		if (open[0] && !mark) {
			sb_str_append(&inside, line, whole);
			continue;
		}
		if (mark && (open[0] != '\0') != sb_same(words, "end"))
			pages_die("%s line %d: a section in another one, or an end without one", path,
				lines.number);
		if (open[0])
			write_section(path, open, sb_str_get(&inside), new);
		sb_str_clear(&inside);
		sb_copy(open, sizeof open, mark && !open[0] ? words : "");
		sb_str_append(new, line, whole);
	}
	if (open[0])
		pages_die("%s: the section '%s' has no end", path, open);
}
