/* Where lines break, and how wide a table's columns are, in columns of text. */
#include <string.h>

#include "document_parts.h"

#define ROOM ((size_t)SB_DOCUMENT_COLUMNS)
#define WORD_MOST 28  /* a longer word is broken inside */
#define SHORT_MOST 18 /* words that are no longer than this keep to one line, where there is room */
#define HEAD_MOST 16  /* a heading over words may ask for so much to stand in one line */
#define GAP 2

static size_t least(size_t a, size_t b)
{
	return a < b ? a : b;
}

static size_t most(size_t a, size_t b)
{
	return a > b ? a : b;
}

size_t document_columns(const char *text, size_t bytes)
{
	size_t columns = 0, at = 0, one;
	unsigned c;

	while (at < bytes && (one = sb_utf8_next(text + at, &c)) > 0) {
		columns++;
		at += one;
	}
	return columns;
}

static size_t width_of(const char *text)
{
	return document_columns(text, strlen(text));
}

/* The bytes of so many columns; at least one character. */
static size_t cut_inside(const char *text, size_t bytes, size_t width)
{
	size_t at = 0, columns = 0, one;
	unsigned c;

	while (at < bytes && (columns < width || at == 0) && (one = sb_utf8_next(text + at, &c)) > 0) {
		columns++;
		at += one;
	}
	return at;
}

size_t document_line(const char *text, size_t width, const char **next)
{
	size_t end = 0, at = 0, columns = 0;

	while (text[at]) {
		size_t word = at + strcspn(text + at, " ");
		columns += document_columns(text + at, word - at);
		if (columns > width)
			break;
		end = word;
		at = word + strspn(text + word, " ");
		columns += at - word;
	}
	if (end == 0 && *text)
		end = cut_inside(text, strcspn(text, " "), width);
	*next = text + end + strspn(text + end, " ");
	return end;
}

size_t document_lines(const char *text, size_t width)
{
	size_t lines = 0;

	for (const char *at = text; *at; lines++)
		document_line(at, width, &at);
	return most(lines, 1);
}

size_t document_rows(const struct block *table)
{
	return table->column_count ? table->count / table->column_count : 0;
}

const char *document_at(const struct block *table, size_t row, size_t column)
{
	return row == DOCUMENT_HEAD ? table->columns[column].head
				    : table->texts[row * table->column_count + column];
}

static size_t longest_word(const char *text)
{
	size_t widest = 0;

	for (const char *at = text + strspn(text, " "); *at;) {
		size_t word = strcspn(at, " ");
		widest = most(widest, document_columns(at, word));
		at += word;
		at += strspn(at, " ");
	}
	return widest;
}

struct need {
	size_t least, whole; /* with words broken between lines; all in one line */
};

/* short_whole: short words keep to one line. */
static struct need need_of(const struct block *table, size_t column, bool short_whole)
{
	const char *head = table->columns[column].head;
	bool words = table->columns[column].kind == TABLE_WORDS;
	struct need n = { 0, 0 };

	for (size_t row = 0; row < document_rows(table); row++) {
		const char *text = document_at(table, row, column);
		n.whole = most(n.whole, width_of(text));
		n.least = most(n.least, longest_word(text));
	}
	if (!words || (short_whole && n.whole <= SHORT_MOST))
		n.least = n.whole;
	else
		n.least = least(n.least, WORD_MOST);
	n.least = most(n.least, longest_word(head));
	if (words)
		n.whole = most(n.whole, least(width_of(head), HEAD_MOST));
	n.whole = most(n.whole, n.least);
	return n;
}

/* Shares out; false when not even the least of all fits. */
static bool share(const struct block *table, size_t gap, bool short_whole, struct document_grid *g)
{
	struct need needs[SB_DOCUMENT_TABLE] = { 0 };
	size_t taken = gap * (table->column_count - 1), wish = 0;

	for (size_t c = 0; c < table->column_count; c++) {
		needs[c] = need_of(table, c, short_whole);
		taken += needs[c].least;
		wish += needs[c].whole - needs[c].least;
	}
	size_t left = taken < ROOM ? least(ROOM - taken, wish) : 0;
	g->gap = gap;
	g->all = gap * (table->column_count - 1);
	for (size_t c = 0; c < table->column_count; c++) {
		size_t more = wish ? left * (needs[c].whole - needs[c].least) / wish : 0;
		g->widths[c] = needs[c].least + more;
		g->all += g->widths[c];
	}
	return taken <= ROOM;
}

/* Where much stands in a row, first short words are broken, then one blank between columns has to do. */
void document_grid(const struct block *table, struct document_grid *g)
{
	if (!share(table, GAP, true, g) && !share(table, GAP, false, g))
		share(table, 1, false, g);
}
