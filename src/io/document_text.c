/* A document as text: 80 columns that any editor shows, headings underlined, tables in columns. */
#include "document_parts.h"

#include <string.h>

#define COLUMNS SB_DOCUMENT_COLUMNS
#define GAP 2
#define SIGN 56 /* columns of the line to sign on, and of the date beside it */
#define DATE 18
#define KEY_MOST 24 /* columns of a key; a longer one has its value below it */

static size_t width_of(const char *text)
{
	return document_columns(text, strlen(text));
}

static void put_times(struct sb_str *out, const char *sign, size_t count)
{
	while (count-- > 0)
		sb_str_append(out, sign, strlen(sign));
}

static void end_line(struct sb_str *out)
{
	while (out->length > 0 && out->text[out->length - 1] == ' ')
		out->length--;
	sb_str_append(out, "\n", 1);
}

/* A text in lines, each after so many blanks; the first line is begun already. */
static void put_wrapped(struct sb_str *out, const char *text, size_t indent)
{
	const char *at = text;

	do {
		const char *line = at;
		if (at != text)
			put_times(out, " ", indent);
		size_t bytes = document_line(line, COLUMNS - indent, &at);
		sb_str_append(out, line, bytes);
		end_line(out);
	} while (*at);
}

static void put_heading(struct sb_str *out, const char *text, const char *line)
{
	size_t widest = width_of(text);

	put_wrapped(out, text, 0);
	put_times(out, line, widest < COLUMNS ? widest : COLUMNS);
	sb_str_append(out, "\n", 1);
}

static void put_pairs(struct sb_str *out, const struct block *b)
{
	size_t widest = 0;

	for (size_t i = 0; i < b->count; i += 2) {
		size_t width = width_of(b->texts[i]);
		if (width <= KEY_MOST && width > widest)
			widest = width;
	}
	for (size_t i = 0; i < b->count; i += 2) {
		size_t width = width_of(b->texts[i]);
		sb_str_append(out, b->texts[i], strlen(b->texts[i]));
		if (width > widest) {
			end_line(out);
			width = 0;
		}
		put_times(out, " ", widest + GAP - width);
		put_wrapped(out, b->texts[i + 1], widest + GAP);
	}
}

static void put_cell(struct sb_str *out, enum table_kind kind, const char *line, size_t bytes, size_t width)
{
	size_t taken = document_columns(line, bytes), rest = width > taken ? width - taken : 0;

	if (kind == TABLE_FIGURES)
		put_times(out, " ", rest);
	sb_str_append(out, line, bytes);
	if (kind == TABLE_WORDS)
		put_times(out, " ", rest);
}

static void put_row(struct sb_str *out, const struct block *b, size_t row, const struct document_grid *g)
{
	const char *at[SB_DOCUMENT_TABLE];
	size_t lines = 1;

	for (size_t c = 0; c < b->column_count; c++) {
		at[c] = document_at(b, row, c);
		size_t needs = document_lines(at[c], g->widths[c]);
		lines = needs > lines ? needs : lines;
	}
	for (size_t i = 0; i < lines; i++) {
		for (size_t c = 0; c < b->column_count; c++) {
			const char *line = at[c];
			size_t bytes = document_line(line, g->widths[c], &at[c]);
			put_times(out, " ", c ? g->gap : 0);
			put_cell(out, b->columns[c].kind, line, bytes, g->widths[c]);
		}
		end_line(out);
	}
}

static void put_table(struct sb_str *out, const struct block *b)
{
	struct document_grid g;

	document_grid(b, &g);
	put_row(out, b, DOCUMENT_HEAD, &g);
	put_times(out, "-", g.all < COLUMNS ? g.all : COLUMNS);
	end_line(out);
	for (size_t row = 0; row < document_rows(b); row++)
		put_row(out, b, row, &g);
}

static void put_signatures(struct sb_str *out, const struct block *b)
{
	for (size_t i = 0; i < b->count; i++) {
		sb_str_add(out, "%s\n\n", i ? "\n" : "");
		sb_str_add(out, "  ");
		put_times(out, "_", SIGN);
		sb_str_add(out, "  ");
		put_times(out, "_", DATE);
		sb_str_add(out, "\n  %s", b->texts[i]);
		size_t taken = width_of(b->texts[i]);
		put_times(out, " ", taken < SIGN ? SIGN + 2 - taken : 2);
		sb_str_add(out, "date\n");
	}
}

static void put_block(struct sb_str *out, const struct block *b)
{
	switch (b->kind) {
	case BLOCK_HEADING:
		sb_str_add(out, "\n");
		put_heading(out, b->texts[0], "=");
		break;
	case BLOCK_SUBHEADING:
		put_heading(out, b->texts[0], "-");
		break;
	case BLOCK_PARAGRAPH:
		put_wrapped(out, b->texts[0], 0);
		break;
	case BLOCK_PAIRS:
		put_pairs(out, b);
		break;
	case BLOCK_TABLE:
		put_table(out, b);
		break;
	case BLOCK_SIGNATURES:
		put_signatures(out, b);
		break;
	case BLOCK_PAGE:
		break;
	}
}

void sb_document_text(const struct document *d, struct sb_str *out)
{
	put_wrapped(out, d->head.title, 0);
	put_times(out, "=", width_of(d->head.title) < COLUMNS ? width_of(d->head.title) : COLUMNS);
	end_line(out);
	if (*d->head.mark)
		put_wrapped(out, d->head.mark, 0);
	for (size_t i = 0; i < d->count; i++) {
		const struct block *b = &d->blocks[i];
		if (b->kind == BLOCK_PAGE || (b->kind == BLOCK_TABLE && document_rows(b) == 0))
			continue;
		sb_str_append(out, "\n", 1);
		put_block(out, b);
	}
}
