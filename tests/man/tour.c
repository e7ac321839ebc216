/* The tour of the sources: one line a module, in the words of its own opening comment. The order is the
 * document's: a reading order, which nobody can read off the tree; a module that it does not have yet goes to
 * the end of its folder's list, to be moved by hand. */
#include "man/pages.h"

#include "io/load.h"

#include <ctype.h>
#include <glob.h>
#include <stdio.h>
#include <string.h>

#define MODULES 300
#define SHORT 12 /* letters that are no sentence yet: "job.ini." */

struct modules {
	char names[MODULES][48];
	size_t count;
};

static bool has(const struct modules *m, const char *name)
{
	for (size_t i = 0; i < m->count; i++)
		if (sb_same(m->names[i], name))
			return true;
	return false;
}

static void add(struct modules *m, const char *name, size_t length)
{
	char copy[48];

	snprintf(copy, sizeof copy, "%.*s", (int)length, name);
	if (has(m, copy))
		return;
	if (m->count == MODULES)
		pages_die("tests/man/tour.c: more than %d modules in a folder", MODULES);
	sb_copy(m->names[m->count++], sizeof copy, copy);
}

/* Every name of a source or header in the folder, in the order of the alphabet. */
static void find_modules(const char *folder, struct modules *m)
{
	char pattern[64];
	glob_t found;

	snprintf(pattern, sizeof pattern, "{src,include}/%.32s/*.[ch]", folder);
	if (glob(pattern, GLOB_BRACE, NULL, &found))
		pages_die("tests/man/tour.c: no sources in %s (run this from the top of the tree)", folder);
	for (size_t i = 0; i < found.gl_pathc; i++) {
		const char *name = strrchr(found.gl_pathv[i], '/') + 1;
		add(m, name, strcspn(name, "."));
	}
	globfree(&found);
}

/* The names that stand in the list as it is: "- `name` ...". */
static void read_order(const char *old, struct modules *m)
{
	for (const char *line = old; *line; line += strcspn(line, "\n"), line += *line == '\n')
		if (strncmp(line, "- `", 3) == 0)
			add(m, line + 3, strcspn(line + 3, "`"));
}

/* The first sentence of the comment that the text begins with. */
static void first_sentence(const char *text, struct sb_str *out)
{
	const char *at = strncmp(text, "/*", 2) == 0 ? text + 2 : "";

	while (isspace((unsigned char)*at))
		at++;
	for (; *at && strncmp(at, "*/", 2) != 0; at++) {
		if (*at == '\n') {
			at += strspn(at, "\n \t");
			at += *at == '*' && at[1] != '/';
			at += strspn(at, " \t");
			if (*at == '\n') /* a blank line ends it */
				break;
			sb_str_add(out, " ");
			at--;
			continue;
		}
		sb_str_append(out, at, 1);
		if ((*at == '.' || *at == '?') && isspace((unsigned char)at[1]) && out->length > SHORT)
			break;
	}
	while (out->length && out->text[out->length - 1] == ' ')
		out->text[--out->length] = '\0';
}

/* A module opens with its contract: the header that others see, else the one in its folder, else the source.
 */
static void opening(const char *folder, const char *name, struct sb_str *out)
{
	struct sb_str text = { 0 };
	char path[128];

	for (size_t i = 0; i < 3 && out->length == 0; i++) {
		if (i == 0)
			snprintf(path, sizeof path, "include/%.32s/%.48s.h", folder, name);
		else
			snprintf(path, sizeof path, "src/%.32s/%.48s.%c", folder, name, i == 1 ? 'h' : 'c');
		if (sb_load(path, 1u << 20, &text, NULL) == 0)
			first_sentence(sb_str_get(&text), out);
		sb_str_clear(&text);
	}
	if (out->length == 0)
		pages_die("%s/%s: a file opens with its reason, in a comment", folder, name);
}

static void write_files(const char *folder, const char *old, struct sb_str *out)
{
	struct modules there = { .count = 0 }, order = { .count = 0 };

	find_modules(folder, &there);
	read_order(old, &order);
	for (size_t i = 0; i < there.count; i++)
		add(&order, there.names[i], strlen(there.names[i]));
	for (size_t i = 0; i < order.count; i++) {
		struct sb_str words = { 0 };
		if (!has(&there, order.names[i]))
			continue;
		opening(folder, order.names[i], &words);
		sb_str_add(out, "- `%s` %s\n", order.names[i], words.text);
		sb_str_clear(&words);
	}
}

const struct page_section tour_sections[] = {
	{ .name = "files", .fill = write_files },
	{ .name = NULL },
};
