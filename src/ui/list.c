/* Selecting and scrolling. The first row in sight moves only as far as the selection forces it to, so that
 * the eye keeps its place. */
#include "ui/list.h"

#include "ui/key.h"

#include <string.h>

const struct action sb_list_keys[] = {
	{ .name = "list-move", .keys = "Up Down", .help = "Go to the row above or below." },
	{ .name = "list-page", .keys = "PgUp PgDn", .help = "Go a screenful up or down." },
	{ .name = "list-ends", .keys = "Home End", .help = "Go to the first or the last row." },
	{ 0 },
};

void sb_list_fit(struct list *l, size_t count)
{
	if (l->chosen >= count)
		l->chosen = count ? count - 1 : 0;
}

static size_t moved(size_t from, size_t by, bool back, size_t count)
{
	if (back)
		return from > by ? from - by : 0;
	return count - from > by ? from + by : count - 1;
}

bool sb_list_key(struct list *l, int key, size_t count)
{
	size_t page = l->page > 1 ? l->page - 1 : 1;
	bool back = key == SB_KEY_UP || key == SB_KEY_PAGE_UP || key == SB_KEY_HOME;
	size_t by;

	if (key == SB_KEY_UP || key == SB_KEY_DOWN)
		by = 1;
	else if (key == SB_KEY_PAGE_UP || key == SB_KEY_PAGE_DOWN)
		by = page;
	else if (key == SB_KEY_HOME || key == SB_KEY_END)
		by = count;
	else
		return false;
	sb_list_fit(l, count);
	if (count > 0)
		l->chosen = moved(l->chosen, by, back, count);
	return true;
}

static void scroll(struct list *l, size_t count, size_t page)
{
	l->page = page;
	sb_list_fit(l, count);
	if (l->chosen < l->first)
		l->first = l->chosen;
	if (l->chosen >= l->first + page)
		l->first = l->chosen - page + 1;
	if (l->first + page > count) /* no blank rows while there are rows for them */
		l->first = count > page ? count - page : 0;
}

void sb_list_draw(struct list *l, size_t count, void (*row)(const void *context, size_t i, struct cells *out),
	const void *context, struct cells *out)
{
	if (out->rows == 0)
		return;
	scroll(l, count, (size_t)out->rows);
	for (int at = 0; at < out->rows && l->first + (size_t)at < count; at++) {
		size_t i = l->first + (size_t)at;
		struct cells part = sb_cells_part(out, at, 1, 1, out->columns - 2);
		row(context, i, &part);
		if (i == l->chosen) {
			sb_cells_put(out, at, 0, STYLE_STRONG, '>');
			sb_cells_choose(out, at, 0, out->columns);
		}
	}
	if (l->first > 0)
		sb_cells_put(out, 0, out->columns - 1, STYLE_DIM, 0x2191);
	if (l->first + l->page < count)
		sb_cells_put(out, out->rows - 1, out->columns - 1, STYLE_DIM, 0x2193);
}
