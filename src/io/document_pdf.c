/* A document as pages: blocks are laid from the top of the page down, and a page is begun where one does not
 * fit. It is laid twice, first to learn how many pages there are.
 *
 * 1. A heading has at least the beginning of what follows it on its page.
 * 2. A row of a table is not parted, unless it is longer than a page.
 * 3. Signatures stand together.
 */
#include "base/time.h"
#include "io/paper_table.h"
#include "io/paper_text.h"

#include "document_parts.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* Millimetres. */
#define SIDE 18.0
#define HEAD 12.0 /* baseline of the running head */
#define TOP 21.0
#define BOTTOM 17.0 /* from the lower edge */
#define FOOT 10.0
#define KEY_MOST 48.0
#define PAIR_GAP 4.0
#define TABLE_CAPITAL 1.9
#define SHORT_WORDS 20
#define HEAD_TEXT 64 /* bytes of a column's heading */
#define SIGN_HEIGHT 21.0
#define BEGINNING 3 /* lines or rows that stay with a heading */

/* A size of lettering, and from one line to the next. */
struct size {
	enum face face;
	double capital_mm, line_mm;
};
static const struct size title_size = { FACE_BOLD, 4.4, 8.4 };
static const struct size heading_size = { FACE_BOLD, 3.0, 6.0 };
static const struct size subheading_size = { FACE_BOLD, 2.3, 5.0 };
static const struct size body_size = { FACE_PLAIN, 2.2, 4.5 };
static const struct size key_size = { FACE_BOLD, 2.0, 4.5 };
static const struct size small_size = { FACE_PLAIN, 1.8, 3.6 };
static const struct ink grey = { 0.35, 0.35, 0.35 };

struct layout {
	const struct document *d;
	struct sb_paper *paper;
	double width, height, y; /* y: where the next line's top is */
	size_t page, pages;	 /* pages: 0 while they are counted */
	bool fresh;		 /* nothing stands on the page yet */
};

/* ---- pages ---- */

static void letter(struct layout *l, const struct size *size, enum hold hold, struct ink ink, double x,
	double baseline, const char *text)
{
	struct lettering as = { size->face, size->capital_mm, hold, 0, ink };

	sb_paper_text(l->paper, &as, (struct spot){ x, baseline }, text);
}

static void rule(struct layout *l, double y, double width_mm, struct ink ink)
{
	struct pen pen = { width_mm, ink, { 0 } };

	sb_paper_stroke(l->paper, &pen, SIDE, y, l->width - SIDE, y);
}

/* The mark in its box against the right, then whose report it is, as much as there is room for. */
static void put_running_head(struct layout *l)
{
	struct lettering bold = { FACE_BOLD, 2.3, HOLD_RIGHT, 0, SB_INK_BLACK };
	double right = l->width - SIDE;

	if (*l->d->head.mark) {
		double wide = sb_paper_width(l->paper, &bold, l->d->head.mark) + 4;
		struct paper box = { right - wide, HEAD - 4.4, wide, 6.2 };
		struct pen pen = { 0.5, SB_INK_BLACK, { 0 } };
		sb_paper_box(l->paper, &pen, &box);
		letter(l, &subheading_size, HOLD_RIGHT, SB_INK_BLACK, right - 2, HEAD - 0.15,
			l->d->head.mark);
		right -= wide + 4;
	}
	struct paper room = { SIDE, 0, right - SIDE, TOP };
	sb_paper_clip(l->paper, &room);
	letter(l, &small_size, HOLD_LEFT, grey, SIDE, HEAD, l->d->head.running);
	sb_paper_unclip(l->paper);
	rule(l, HEAD + 3, 0.2, grey);
}

static void put_foot(struct layout *l)
{
	char text[80], day[SB_TIME_TEXT];
	double y = l->height - FOOT;

	sb_time_day(l->d->head.at_ms, day);
	rule(l, y - 4, 0.2, grey);
	snprintf(text, sizeof text, "page %zu of %zu", l->page, l->pages ? l->pages : l->page);
	letter(l, &small_size, HOLD_RIGHT, grey, l->width - SIDE, y, text);
	struct sb_str who = { 0 };
	sb_str_add(&who, "%s%s%.60s%s", day, *l->d->head.author ? ", " : "", l->d->head.author,
		*l->d->head.program ? ", " : "");
	sb_str_add(&who, "%s", l->d->head.program);
	letter(l, &small_size, HOLD_LEFT, grey, SIDE, y, sb_str_get(&who));
	sb_str_clear(&who);
}

static void begin_page(struct layout *l, const char *name)
{
	sb_paper_page(l->paper, l->width, l->height, name);
	l->page++;
	put_running_head(l);
	put_foot(l);
	l->y = TOP;
	l->fresh = true;
}

static double left_of(const struct layout *l)
{
	return l->height - BOTTOM - l->y;
}

static bool fits(const struct layout *l, double height)
{
	return height <= left_of(l) + 1e-6;
}

static double room_of(const struct layout *l)
{
	return l->width - 2 * SIDE;
}

/* The baseline of the next line, whose height is taken. */
static double next_line(struct layout *l, const struct size *size)
{
	double baseline = l->y + (size->line_mm + size->capital_mm) / 2;

	l->y += size->line_mm;
	l->fresh = false;
	return baseline;
}

static void space(struct layout *l, double height)
{
	if (!l->fresh)
		l->y += height;
}

/* ---- words ---- */

static struct lettering lettering_of(const struct size *size)
{
	return (struct lettering){ size->face, size->capital_mm, HOLD_LEFT, 0, SB_INK_BLACK };
}

static size_t lines_of(
	struct layout *l, const struct size *size, double room, const char *text, struct sb_str *lines)
{
	struct lettering as = lettering_of(size);

	return sb_paper_break(l->paper, &as, room, text, lines);
}

/* A page is begun first where not even so many of its lines would stand on this one. */
static void put_lines(
	struct layout *l, const struct size *size, double x, double room, const char *text, size_t together)
{
	struct sb_str lines = { 0 };
	size_t count = lines_of(l, size, room, text, &lines);
	char *rest = lines.text;

	if (!fits(l, size->line_mm * (double)(count < together ? count : together)) && !l->fresh)
		begin_page(l, NULL);
	for (size_t i = 0; i < count; i++) {
		if (!fits(l, size->line_mm))
			begin_page(l, NULL);
		letter(l, size, HOLD_LEFT, SB_INK_BLACK, x, next_line(l, size), strsep(&rest, "\n"));
	}
	sb_str_clear(&lines);
}

static void put_paragraph(struct layout *l, const char *text)
{
	space(l, 1.5);
	put_lines(l, &body_size, SIDE, room_of(l), text, BEGINNING);
}

static double key_room(struct layout *l, const struct block *b)
{
	struct lettering as = lettering_of(&key_size);
	double widest = 0;

	for (size_t i = 0; i < b->count; i += 2)
		widest = fmax(widest, sb_paper_width(l->paper, &as, b->texts[i]));
	return fmin(widest, KEY_MOST);
}

/* A key stands beside the first line of its value; after values without one a key stands a little apart. */
static void put_pairs(struct layout *l, const struct block *b)
{
	double keys = key_room(l, b), x = SIDE + keys + PAIR_GAP, room = room_of(l) - keys - PAIR_GAP;

	bool grouped = false;
	for (size_t i = 0; i < b->count; i += 2)
		grouped = grouped || *b->texts[i] == '\0';
	space(l, 1.5);
	for (size_t i = 0; i < b->count; i += 2) {
		struct sb_str lines = { 0 };
		size_t count = lines_of(l, &body_size, room, b->texts[i + 1], &lines);
		sb_str_clear(&lines);
		if (i > 0 && grouped && *b->texts[i])
			space(l, 1.6);
		if (!fits(l, body_size.line_mm * (double)(count < BEGINNING ? count : BEGINNING)))
			begin_page(l, NULL);
		letter(l, &key_size, HOLD_LEFT, SB_INK_BLACK, SIDE,
			l->y + (body_size.line_mm + body_size.capital_mm) / 2, b->texts[i]);
		put_lines(l, &body_size, x, room, b->texts[i + 1], BEGINNING);
	}
}

/* ---- tables ---- */

/* Words that are short in every row keep to one line; long ones take what room is left. */
static bool is_long(const struct block *b, size_t column)
{
	for (size_t row = 0; row < document_rows(b); row++)
		if (strlen(document_at(b, row, column)) > SHORT_WORDS)
			return true;
	return false;
}

/* The words of a heading over figures stand one below the other. */
static void take_columns(const struct block *b, char heads[][HEAD_TEXT], struct paper_column *columns)
{
	for (size_t c = 0; c < b->column_count; c++) {
		bool words = b->columns[c].kind == TABLE_WORDS;
		sb_copy(heads[c], HEAD_TEXT, b->columns[c].head);
		for (char *at = heads[c]; *at && !words; at++)
			if (*at == ' ')
				*at = '\n';
		columns[c] = (struct paper_column){ heads[c], words ? HOLD_LEFT : HOLD_RIGHT,
			words && is_long(b, c) };
	}
}

static void put_table(struct layout *l, const struct block *b)
{
	char heads[SB_DOCUMENT_TABLE][HEAD_TEXT];
	struct paper_column columns[SB_DOCUMENT_TABLE];
	struct paper_table t = { .columns = columns,
		.column_count = b->column_count,
		.cells = (const char *const *)b->texts,
		.row_count = document_rows(b),
		.capital_mm = TABLE_CAPITAL };
	double used;

	take_columns(b, heads, columns);
	sb_paper_table_fit(l->paper, &t, room_of(l));
	space(l, 2);
	size_t first = 0, together = t.row_count < BEGINNING ? t.row_count : BEGINNING;
	if (!l->fresh && sb_paper_table_try(l->paper, &t, left_of(l), 0, &used) < together)
		begin_page(l, NULL);
	while (first < t.row_count) {
		if (first > 0)
			begin_page(l, NULL);
		struct paper box = { SIDE, l->y, room_of(l), left_of(l) };
		first = sb_paper_table(l->paper, &t, &box, first, &used);
		l->y += used;
		l->fresh = false;
	}
	l->y += 1.5;
}

/* ---- signatures ---- */

static void put_signatures(struct layout *l, const struct block *b)
{
	struct pen pen = { 0.25, SB_INK_BLACK, { 0 } };
	double all = SIGN_HEIGHT * (double)b->count, across = room_of(l);

	if (!fits(l, all) && !l->fresh)
		begin_page(l, NULL);
	for (size_t i = 0; i < b->count; i++) {
		if (!fits(l, SIGN_HEIGHT))
			begin_page(l, NULL);
		double y = l->y + SIGN_HEIGHT - 6;
		sb_paper_stroke(l->paper, &pen, SIDE, y, SIDE + across * 0.58, y);
		sb_paper_stroke(l->paper, &pen, SIDE + across * 0.66, y, SIDE + across, y);
		letter(l, &small_size, HOLD_LEFT, grey, SIDE, y + 3.4, b->texts[i]);
		letter(l, &small_size, HOLD_LEFT, grey, SIDE + across * 0.66, y + 3.4, "date");
		l->y += SIGN_HEIGHT;
		l->fresh = false;
	}
}

/* ---- blocks ---- */

static bool is_empty(const struct block *b)
{
	return b->kind == BLOCK_TABLE && document_rows(b) == 0;
}

/* Whether from this block on there are only words that are signed below. */
static bool is_signed(const struct layout *l, size_t i)
{
	while (i < l->d->count &&
		(l->d->blocks[i].kind == BLOCK_PAIRS || l->d->blocks[i].kind == BLOCK_PARAGRAPH))
		i++;
	return i < l->d->count && l->d->blocks[i].kind == BLOCK_SIGNATURES;
}

/* The height of what has to stand on a page with the heading before it: further headings and words that
 * introduce a table, and the beginning of what they are about; all of what is signed. */
static double beginning_of(const struct layout *l, size_t i)
{
	double height = 0;

	for (; i < l->d->count; i++) {
		const struct block *b = &l->d->blocks[i];
		switch (b->kind) {
		case BLOCK_SUBHEADING:
			height += 3 + subheading_size.line_mm;
			continue;
		case BLOCK_PARAGRAPH:
			height += 1.5 + body_size.line_mm * BEGINNING;
			if (is_signed(l, i) || (i + 1 < l->d->count && b[1].kind == BLOCK_TABLE))
				continue;
			return height;
		case BLOCK_TABLE:
			return height + 8 * TABLE_CAPITAL * SB_PAPER_LEADING;
		case BLOCK_SIGNATURES:
			return height + SIGN_HEIGHT * (double)b->count;
		case BLOCK_PAIRS:
			if (!is_signed(l, i))
				return height + 1.5 + BEGINNING * body_size.line_mm;
			height += 1.5 + body_size.line_mm * (double)(b->count / 2);
			continue;
		case BLOCK_HEADING:
		case BLOCK_PAGE:
			return height;
		}
	}
	return height;
}

static void put_heading(struct layout *l, size_t i)
{
	const char *text = l->d->blocks[i].texts[0];

	space(l, 6);
	if (!fits(l, heading_size.line_mm + 2 + beginning_of(l, i + 1)) && !l->fresh)
		begin_page(l, text);
	put_lines(l, &heading_size, SIDE, room_of(l), text, 1);
	rule(l, l->y + 0.2, 0.35, SB_INK_BLACK);
	l->y += 1.8;
}

static void put_subheading(struct layout *l, size_t i)
{
	space(l, 3);
	if (!fits(l, subheading_size.line_mm + beginning_of(l, i + 1)) && !l->fresh)
		begin_page(l, NULL);
	put_lines(l, &subheading_size, SIDE, room_of(l), l->d->blocks[i].texts[0], 1);
}

/* What a page that begins with this block is called in the list of contents. */
static const char *name_of(const struct layout *l, size_t i)
{
	bool heading = i < l->d->count && l->d->blocks[i].kind == BLOCK_HEADING;

	return heading ? l->d->blocks[i].texts[0] : NULL;
}

static void put_block(struct layout *l, size_t i)
{
	const struct block *b = &l->d->blocks[i];

	switch (b->kind) {
	case BLOCK_HEADING:
		put_heading(l, i);
		break;
	case BLOCK_SUBHEADING:
		put_subheading(l, i);
		break;
	case BLOCK_PARAGRAPH:
		put_paragraph(l, b->texts[0]);
		break;
	case BLOCK_PAIRS:
		put_pairs(l, b);
		break;
	case BLOCK_TABLE:
		put_table(l, b);
		break;
	case BLOCK_SIGNATURES:
		put_signatures(l, b);
		break;
	case BLOCK_PAGE:
		if (!l->fresh)
			begin_page(l, name_of(l, i + 1));
		break;
	}
}

static int lay(const struct document *d, size_t pages, struct layout *l, struct sb_err *err)
{
	struct paper_note note = { .title = d->head.title,
		.author = d->head.author,
		.subject = d->head.running,
		.program = d->head.program,
		.at_ms = d->head.at_ms };

	*l = (struct layout){ .d = d,
		.width = d->head.letter ? 215.9 : 210,
		.height = d->head.letter ? 279.4 : 297,
		.pages = pages };
	if (sb_paper_new(PAPER_PDF, &note, &l->paper, err))
		return -1;
	begin_page(l, d->head.title);
	put_lines(l, &title_size, SIDE, room_of(l), d->head.title, 1);
	for (size_t i = 0; i < d->count; i++)
		if (!is_empty(&d->blocks[i]))
			put_block(l, i);
	return 0;
}

int sb_document_pdf(const struct document *d, struct sb_str *out, size_t *pages, struct sb_err *err)
{
	struct layout l;

	if (lay(d, 0, &l, err))
		return -1;
	size_t count = l.page;
	sb_paper_abandon(l.paper);
	if (lay(d, count, &l, err))
		return -1;
	if (pages)
		*pages = count;
	return sb_paper_end(l.paper, out, err);
}
