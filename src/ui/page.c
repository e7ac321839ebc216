/* Scrolling a page. How long it is shows only when it is drawn, so it is drawn once to be measured, and again
 * where the end of it would leave rows blank. */
#include "ui/page.h"

#include "base/mem.h"
#include "ui/key.h"

#include <string.h>

const struct action sb_page_keys[] = {
	{ .name = "page-line", .keys = "Up Down", .help = "One line up or down, where there is more." },
	{ .name = "page-screenful", .keys = "PgUp PgDn Space", .help = "A screenful up or down." },
	{ .name = "page-ends", .keys = "Home End", .help = "To the first line, or the last one." },
	{ 0 },
};

static int most(const struct page *p)
{
	return p->lines > p->rows ? p->lines - p->rows : 0;
}

bool sb_page_key(struct page *p, int key)
{
	int by;

	if (key == SB_KEY_UP || key == SB_KEY_DOWN)
		by = key == SB_KEY_UP ? -1 : 1;
	else if (key == SB_KEY_PAGE_UP)
		by = 1 - p->rows;
	else if (key == SB_KEY_PAGE_DOWN || key == ' ')
		by = p->rows - 1;
	else if (key == SB_KEY_HOME || key == SB_KEY_END)
		by = key == SB_KEY_HOME ? -p->lines : p->lines;
	else
		return false;
	p->first += by;
	p->first = p->first > most(p) ? most(p) : p->first < 0 ? 0 : p->first;
	return true;
}

static void say_where(const struct page *p, struct cells *out)
{
	bool above = p->first > 0, below = p->first < most(p);

	sb_cells_rule(out, out->rows - 1,
		above && below	? "PgUp, PgDn: more above and below"
			: above ? "PgUp: more above"
				: "PgDn: more below");
}

void sb_page_draw(struct page *p, int (*lines)(const void *context, struct cells *out, int row),
	const void *context, struct cells *out)
{
	struct cells nothing = *out;

	nothing.rows = 0;

	p->lines = lines(context, &nothing, 0);
	p->rows = p->lines > out->rows ? out->rows - 1 : out->rows;
	p->first = p->first > most(p) ? most(p) : p->first;
	struct cells part = sb_cells_part(out, 0, 0, p->rows, out->columns);
	lines(context, &part, -p->first);
	if (p->lines > out->rows)
		say_where(p, out);
}

int sb_page_text(const void *text, struct cells *out, int row)
{
	char *at = sb_strdup(text), *rest = at;

	for (char *line; (line = strsep(&rest, "\n")) != NULL;)
		if (rest || *line) /* what stands after the last line end is no line */
			sb_cells_text(out, row++, 0, STYLE_PLAIN, line);
	sb_free(at);
	return row;
}
