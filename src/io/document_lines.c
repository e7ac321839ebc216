/* Where lines break, and how wide columns are: for text and pages alike. */
#include "document_parts.h"

#include <math.h>
#include <string.h>

/* A word may take so much of the room before it is broken inside. */
#define WORD_SHARE 0.35
/* A heading over words may ask for so much of the room to stand in one line. */
#define HEAD_SHARE 0.2

/* The end of the longest part of a text that fits, at a character; at least one character. */
static size_t cut_inside(const struct measure *m, const char *text, size_t bytes, double room)
{
	size_t at = 0, one;
	unsigned c;

	while (at < bytes && (one = sb_utf8_next(text + at, &c)) > 0) {
		if (at > 0 && m->width(m->context, text, at + one) > room)
			break;
		at += one;
	}
	return at;
}

size_t document_line(const struct measure *m, const char *text, double room, const char **next)
{
	size_t end = 0, at = 0;

	while (text[at]) {
		size_t word = at + strcspn(text + at, " ");
		if (m->width(m->context, text, word) > room)
			break;
		end = word;
		at = word + strspn(text + word, " ");
	}
	if (end == 0 && *text)
		end = cut_inside(m, text, strcspn(text, " "), room);
	*next = text + end + strspn(text + end, " ");
	return end;
}

size_t document_lines(const struct measure *m, const char *text, double room)
{
	size_t lines = 0;

	for (const char *at = text; *at; lines++)
		document_line(m, at, room, &at);
	return lines ? lines : 1;
}

size_t document_rows(const struct block *table)
{
	return table->column_count ? table->count / table->column_count : 0;
}

const char *document_at(const struct block *table, size_t row, size_t column)
{
	return row == SIZE_MAX ? table->columns[column].head
			       : table->texts[row * table->column_count + column];
}

static double longest_word(const struct measure *m, const char *text)
{
	double widest = 0;

	for (const char *at = text + strspn(text, " "); *at;) {
		size_t word = strcspn(at, " ");
		widest = fmax(widest, m->width(m->context, at, word));
		at += word;
		at += strspn(at, " ");
	}
	return widest;
}

struct need {
	double least, whole; /* with words broken between lines; all in one line */
};

static struct need need_of(const struct measure *m, const struct block *table, size_t column, double room)
{
	const char *head = table->columns[column].head;
	bool words = table->columns[column].kind == TABLE_WORDS;
	struct need n = { 0 };

	for (size_t row = 0; row < document_rows(table); row++) {
		const char *text = document_at(table, row, column);
		n.whole = fmax(n.whole, m->width(m->context, text, strlen(text)));
		if (words)
			n.least = fmax(n.least, longest_word(m, text));
	}
	if (words)
		n.least = fmin(n.least, WORD_SHARE * room);
	else
		n.least = n.whole;
	n.least = fmax(n.least, longest_word(m, head));
	n.whole =
		fmax(n.whole, words ? fmin(m->width(m->context, head, strlen(head)), HEAD_SHARE * room) : 0);
	n.whole = fmax(n.whole, n.least);
	return n;
}

void document_widths(const struct measure *m, const struct block *table, double room, double gap,
	double widths[SB_DOCUMENT_TABLE])
{
	struct need needs[SB_DOCUMENT_TABLE];
	double least = gap * (double)(table->column_count - 1), wish = 0;

	for (size_t c = 0; c < table->column_count; c++) {
		needs[c] = need_of(m, table, c, room);
		least += needs[c].least;
		wish += needs[c].whole - needs[c].least;
	}
	double share = wish > 0 ? fmin(1, fmax(0, room - least) / wish) : 0;
	for (size_t c = 0; c < table->column_count; c++)
		widths[c] = needs[c].least + share * (needs[c].whole - needs[c].least);
}

size_t document_row_lines(const struct measure *m, const struct block *table, size_t row,
	const double widths[SB_DOCUMENT_TABLE])
{
	size_t lines = 1;

	for (size_t c = 0; c < table->column_count; c++) {
		size_t needs = document_lines(m, document_at(table, row, c), widths[c]);
		lines = needs > lines ? needs : lines;
	}
	return lines;
}
