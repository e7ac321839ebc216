/* Pages: their heads and feet, and lines from the top down. */
#include "base/time.h"
#include "io/paper_text.h"

#include <stdio.h>
#include <string.h>

#include "document_page.h"

/* Millimetres. */
#define HEAD 12.0 /* baseline of the running head */
#define TOP 21.0
#define BOTTOM 17.0 /* from the lower edge */
#define FOOT 10.0

const struct size page_title = { FACE_BOLD, 4.4, 8.4 };
const struct size page_heading = { FACE_BOLD, 3.0, 6.0 };
const struct size page_subheading = { FACE_BOLD, 2.3, 5.0 };
const struct size page_body = { FACE_PLAIN, 2.2, 4.5 };
const struct size page_key = { FACE_BOLD, 2.0, 4.5 };
const struct size page_small = { FACE_PLAIN, 1.8, 3.6 };
const struct ink page_grey = { 0.35, 0.35, 0.35 };

void page_letter(struct layout *l, const struct size *size, enum hold hold, struct ink ink, double x,
	double baseline, const char *text)
{
	struct lettering as = { size->face, size->capital_mm, hold, 0, ink };

	sb_paper_text(l->paper, &as, (struct spot){ x, baseline }, text);
}

void page_rule(struct layout *l, double y, double width_mm, struct ink ink)
{
	struct pen pen = { width_mm, ink, { 0 } };

	sb_paper_stroke(l->paper, &pen, PAGE_SIDE, y, l->width - PAGE_SIDE, y);
}

/* The mark in its box against the right, then whose report it is, as much as there is room for. */
static void put_running_head(struct layout *l)
{
	struct lettering bold = { FACE_BOLD, 2.3, HOLD_RIGHT, 0, SB_INK_BLACK };
	double right = l->width - PAGE_SIDE;

	if (*l->d->head.mark) {
		double wide = sb_paper_width(l->paper, &bold, l->d->head.mark) + 4;
		struct paper box = { right - wide, HEAD - 4.4, wide, 6.2 };
		struct pen pen = { 0.5, SB_INK_BLACK, { 0 } };
		sb_paper_box(l->paper, &pen, &box);
		page_letter(l, &page_subheading, HOLD_RIGHT, SB_INK_BLACK, right - 2, HEAD - 0.15,
			l->d->head.mark);
		right -= wide + 4;
	}
	struct paper room = { PAGE_SIDE, 0, right - PAGE_SIDE, TOP };
	sb_paper_clip(l->paper, &room);
	page_letter(l, &page_small, HOLD_LEFT, page_grey, PAGE_SIDE, HEAD, l->d->head.running);
	sb_paper_unclip(l->paper);
	page_rule(l, HEAD + 3, 0.2, page_grey);
}

static void put_foot(struct layout *l)
{
	char text[80], day[SB_TIME_TEXT];
	double y = l->height - FOOT;

	sb_time_day(l->d->head.at_ms, day);
	page_rule(l, y - 4, 0.2, page_grey);
	snprintf(text, sizeof text, "page %zu of %zu", l->page, l->pages ? l->pages : l->page);
	page_letter(l, &page_small, HOLD_RIGHT, page_grey, l->width - PAGE_SIDE, y, text);
	struct sb_str who = { 0 };
	sb_str_add(&who, "%s%s%.60s%s", day, *l->d->head.author ? ", " : "", l->d->head.author,
		*l->d->head.program ? ", " : "");
	sb_str_add(&who, "%s", l->d->head.program);
	page_letter(l, &page_small, HOLD_LEFT, page_grey, PAGE_SIDE, y, sb_str_get(&who));
	sb_str_clear(&who);
}

void page_begin(struct layout *l, const char *name)
{
	sb_paper_page(l->paper, l->width, l->height, name);
	l->page++;
	put_running_head(l);
	put_foot(l);
	l->y = TOP;
	l->fresh = true;
}

double page_left(const struct layout *l)
{
	return l->height - BOTTOM - l->y;
}

bool page_fits(const struct layout *l, double height)
{
	return height <= page_left(l) + 1e-6;
}

double page_room(const struct layout *l)
{
	return l->width - 2 * PAGE_SIDE;
}

/* The baseline of the next line, whose height is taken. */
double page_line(struct layout *l, const struct size *size)
{
	double baseline = l->y + (size->line_mm + size->capital_mm) / 2;

	l->y += size->line_mm;
	l->fresh = false;
	return baseline;
}

void page_space(struct layout *l, double height)
{
	if (!l->fresh)
		l->y += height;
}

struct lettering page_lettering(const struct size *size)
{
	return (struct lettering){ size->face, size->capital_mm, HOLD_LEFT, 0, SB_INK_BLACK };
}

size_t page_lines_of(
	struct layout *l, const struct size *size, double room, const char *text, struct sb_str *lines)
{
	struct lettering as = page_lettering(size);

	return sb_paper_break(l->paper, &as, room, text, lines);
}

/* A page is begun first where not even so many of its lines would stand on this one. */
void page_lines(
	struct layout *l, const struct size *size, double x, double room, const char *text, size_t together)
{
	struct sb_str lines = { 0 };
	size_t count = page_lines_of(l, size, room, text, &lines);
	char *rest = lines.text;

	if (!page_fits(l, size->line_mm * (double)(count < together ? count : together)) && !l->fresh)
		page_begin(l, NULL);
	for (size_t i = 0; i < count; i++) {
		if (!page_fits(l, size->line_mm))
			page_begin(l, NULL);
		page_letter(l, size, HOLD_LEFT, SB_INK_BLACK, x, page_line(l, size), strsep(&rest, "\n"));
	}
	sb_str_clear(&lines);
}
