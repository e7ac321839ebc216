/* The one kind of name that differs from run to run is `surface` and a number, as an id or as what refers to
 * one; it stands between a quote or a # and a quote. Lettering is outlines, so no text of the drawing can
 * look like it.
 */
#include "paper_svg.h"

#include "base/mem.h"
#include "io/figure.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

static void add_text(struct sb_str *out, const char *text)
{
	for (; *text; text++) {
		if (*text == '<')
			sb_str_add(out, "&lt;");
		else if (*text == '>')
			sb_str_add(out, "&gt;");
		else if (*text == '&')
			sb_str_add(out, "&amp;");
		else
			sb_str_append(out, text, 1);
	}
}

static void add_element(struct sb_str *out, const char *name, const char *text)
{
	if (text == NULL || *text == '\0')
		return;
	char *tame = sb_strdup(text);
	sb_utf8_tame(tame);
	sb_str_add(out, "<%s>", name);
	add_text(out, tame);
	sb_str_add(out, "</%s>\n", name);
	sb_free(tame);
}

void paper_svg_head(const struct paper_note *note, struct sb_str *out)
{
	add_element(out, "title", note->title);
	add_element(out, "desc", note->subject);
}

#define NAME "surface"

struct names {
	unsigned long *old; /* as cairo counts, in the order in which they come */
	size_t count, room;
};

static size_t renamed(struct names *n, unsigned long old)
{
	for (size_t i = 0; i < n->count; i++)
		if (n->old[i] == old)
			return i + 1;
	n->old = sb_grow(n->old, n->count, &n->room, sizeof *n->old);
	n->old[n->count++] = old;
	return n->count;
}

static void add_renamed(const char *text, struct sb_str *out)
{
	struct names names = { 0 };
	const char *name;

	while ((name = strstr(text, NAME)) != NULL) {
		name += strlen(NAME);
		size_t digits = strspn(name, "0123456789");
		sb_str_append(out, text, (size_t)(name - text));
		if (digits > 0)
			sb_str_add(out, "%zu", renamed(&names, strtoul(name, NULL, 10)));
		text = name + digits;
	}
	sb_str_append(out, text, strlen(text));
	sb_free(names.old);
}

/* In the place of cairo's own, which has another size. */
static void add_root(double width_pt, double height_pt, struct sb_str *out)
{
	char width[SB_FIGURE_TEXT], height[SB_FIGURE_TEXT];

	sb_figure_fixed(width_pt, 6, width);
	sb_figure_fixed(height_pt, 6, height);
	sb_str_add(out,
		"<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" "
		"width=\"%spt\" height=\"%spt\" viewBox=\"0 0 %s %s\" version=\"1.1\">\n",
		width, height, width, height);
}

void paper_svg_finish(const struct sb_str *drawn, const struct sb_str *head, double width_pt,
	double height_pt, struct sb_str *out)
{
	const char *text = sb_str_get(drawn), *root = strstr(text, "<svg ");
	const char *body = root ? strchr(root, '\n') : NULL;

	assert(body);
	sb_str_append(out, text, (size_t)(root - text));
	add_root(width_pt, height_pt, out);
	sb_str_append(out, sb_str_get(head), head->length);
	add_renamed(body + 1, out);
}
