/* A document as pages: blocks are laid from the top of the page down, and a page is begun where one does not
 * fit. It is laid twice, first to learn how many pages there are.
 *
 * 1. A heading has at least the beginning of what follows it on its page.
 * 2. A row of a table is not parted, unless it is longer than a page.
 * 3. Signatures stand together.
 */
#include "io/paper_table.h"
#include "io/paper_text.h"

#include "document_page.h"
#include "document_parts.h"

#include <math.h>
#include <string.h>

/* Millimetres. */
#define KEY_MOST 48.0
#define PAIR_GAP 4.0
#define TABLE_CAPITAL 1.9
#define SHORT_WORDS 20
#define HEAD_TEXT 64 /* bytes of a column's heading */
#define SIGN_HEIGHT 21.0
#define BEGINNING 3 /* lines or rows that stay with a heading */

static void put_paragraph(struct layout *l, const char *text)
{
	page_space(l, 1.5);
	page_lines(l, &page_body, PAGE_SIDE, page_room(l), text, BEGINNING);
}

static double key_room(struct layout *l, const struct block *b)
{
	struct lettering as = page_lettering(&page_key);
	double widest = 0;

	for (size_t i = 0; i < b->count; i += 2)
		widest = fmax(widest, sb_paper_width(l->paper, &as, b->texts[i]));
	return fmin(widest, KEY_MOST);
}

/* A key stands beside the first line of its value; after values without one a key stands a little apart. */
static void put_pairs(struct layout *l, const struct block *b)
{
	double keys = key_room(l, b), x = PAGE_SIDE + keys + PAIR_GAP, room = page_room(l) - keys - PAIR_GAP;

	bool grouped = false;
	for (size_t i = 0; i < b->count; i += 2)
		grouped = grouped || *b->texts[i] == '\0';
	page_space(l, 1.5);
	for (size_t i = 0; i < b->count; i += 2) {
		struct sb_str lines = { 0 };
		size_t count = page_lines_of(l, &page_body, room, b->texts[i + 1], &lines);
		sb_str_clear(&lines);
		if (i > 0 && grouped && *b->texts[i])
			page_space(l, 1.6);
		if (!page_fits(l, page_body.line_mm * (double)(count < BEGINNING ? count : BEGINNING)))
			page_begin(l, NULL);
		page_letter(l, &page_key, HOLD_LEFT, SB_INK_BLACK, PAGE_SIDE,
			l->y + (page_body.line_mm + page_body.capital_mm) / 2, b->texts[i]);
		page_lines(l, &page_body, x, room, b->texts[i + 1], BEGINNING);
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
	sb_paper_table_fit(l->paper, &t, page_room(l));
	page_space(l, 2);
	size_t first = 0, rows = document_rows(b);
	size_t fit = l->fresh ? rows : sb_paper_table_try(l->paper, &t, page_left(l), 0, &used);
	if (fit < rows && fit < BEGINNING)
		page_begin(l, NULL);
	while (first < rows) {
		if (first > 0)
			page_begin(l, NULL);
		struct paper box = { PAGE_SIDE, l->y, page_room(l), page_left(l) };
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
	double all = SIGN_HEIGHT * (double)b->count, across = page_room(l);

	if (!page_fits(l, all) && !l->fresh)
		page_begin(l, NULL);
	for (size_t i = 0; i < b->count; i++) {
		if (!page_fits(l, SIGN_HEIGHT))
			page_begin(l, NULL);
		double y = l->y + SIGN_HEIGHT - 6;
		sb_paper_stroke(l->paper, &pen, PAGE_SIDE, y, PAGE_SIDE + across * 0.58, y);
		sb_paper_stroke(l->paper, &pen, PAGE_SIDE + across * 0.66, y, PAGE_SIDE + across, y);
		page_letter(l, &page_small, HOLD_LEFT, page_grey, PAGE_SIDE, y + 3.4, b->texts[i]);
		page_letter(l, &page_small, HOLD_LEFT, page_grey, PAGE_SIDE + across * 0.66, y + 3.4, "date");
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
			height += 3 + page_subheading.line_mm;
			continue;
		case BLOCK_PARAGRAPH:
			height += 1.5 + page_body.line_mm * BEGINNING;
			if (is_signed(l, i) || (i + 1 < l->d->count && b[1].kind == BLOCK_TABLE))
				continue;
			return height;
		case BLOCK_TABLE:
			return height + 8 * TABLE_CAPITAL * SB_PAPER_LEADING;
		case BLOCK_SIGNATURES:
			return height + SIGN_HEIGHT * (double)b->count;
		case BLOCK_PAIRS:
			if (!is_signed(l, i))
				return height + 1.5 + BEGINNING * page_body.line_mm;
			size_t lines = b->count / 2;
			height += 1.5 + page_body.line_mm * (double)lines;
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

	page_space(l, 6);
	if (!page_fits(l, page_heading.line_mm + 2 + beginning_of(l, i + 1)) && !l->fresh)
		page_begin(l, text);
	page_lines(l, &page_heading, PAGE_SIDE, page_room(l), text, 1);
	page_rule(l, l->y + 0.2, 0.35, SB_INK_BLACK);
	l->y += 1.8;
}

static void put_subheading(struct layout *l, size_t i)
{
	page_space(l, 3);
	if (!page_fits(l, page_subheading.line_mm + beginning_of(l, i + 1)) && !l->fresh)
		page_begin(l, NULL);
	page_lines(l, &page_subheading, PAGE_SIDE, page_room(l), l->d->blocks[i].texts[0], 1);
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
			page_begin(l, name_of(l, i + 1));
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
	page_begin(l, d->head.title);
	page_lines(l, &page_title, PAGE_SIDE, page_room(l), d->head.title, 1);
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
