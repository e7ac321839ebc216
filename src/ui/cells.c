/* Drawing into cells.
 *
 * All drawing ends in set_cell, which clips; so nothing above it has to. A wide character fills two cells:
 * the right one has character 0. Whoever overwrites one half blanks the other, so that a row's columns
 * always add up.
 */
#include "ui/cells.h"

#include "base/mem.h"
#include "base/str.h"
#include "ui/glyph.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define RULE_ACROSS 0x2500
#define RULE_DOWN 0x2502
#define ELLIPSIS 0x2026

const char *sb_style_name(enum style s)
{
#define STYLE_NAME(name, word) word,
	static const char *const names[STYLES] = { SB_STYLES(STYLE_NAME) };
#undef STYLE_NAME
	return names[s];
}

void sb_cells_init(struct cells *c, int rows, int columns)
{
	memset(c, 0, sizeof *c);
	c->rows = rows > 0 ? rows : 0;
	c->columns = columns > 0 ? columns : 0;
	c->stride = c->columns;
	c->at = sb_alloc((size_t)c->rows * (size_t)c->columns * sizeof *c->at);
	c->cursor = sb_alloc(sizeof *c->cursor);
	sb_cells_fill(c, STYLE_PLAIN);
}

void sb_cells_clear(struct cells *c)
{
	sb_free(c->at);
	sb_free(c->cursor);
	memset(c, 0, sizeof *c);
}

static int most(int a, int b)
{
	return a > b ? a : b;
}

static int least(int a, int b)
{
	return a < b ? a : b;
}

struct cells sb_cells_part(const struct cells *c, int row, int column, int rows, int columns)
{
	struct cells part = *c;
	int first_row = least(most(row, 0), c->rows), first_column = least(most(column, 0), c->columns);

	/* in long, so that a part "down to the end" may be asked for with INT_MAX */
	long end_row = (long)row + rows, end_column = (long)column + columns;
	part.rows = most((int)(end_row < c->rows ? end_row : c->rows) - first_row, 0);
	part.columns = most((int)(end_column < c->columns ? end_column : c->columns) - first_column, 0);
	if (part.rows == 0 || part.columns == 0)
		part.rows = part.columns = 0;
	else
		part.at = c->at + (ptrdiff_t)first_row * c->stride + first_column;
	part.top = c->top + first_row;
	part.left = c->left + first_column;
	return part;
}

static struct cell *cell_at(const struct cells *c, int row, int column)
{
	if (row < 0 || column < 0 || row >= c->rows || column >= c->columns)
		return NULL;
	return c->at + (ptrdiff_t)row * c->stride + column;
}

/* Blanks what is left of a wide character when one of its halves is written over. */
static void part_halves(const struct cells *c, int row, int column)
{
	struct cell *here = cell_at(c, row, column), *left = cell_at(c, row, column - 1),
		    *right = cell_at(c, row, column + 1);

	if (here->character == 0 && left)
		left->character = ' ';
	if (right && right->character == 0)
		right->character = ' ';
}

static void set_cell(const struct cells *c, int row, int column, enum style style, unsigned character)
{
	struct cell *here = cell_at(c, row, column);

	if (here == NULL)
		return;
	part_halves(c, row, column);
	*here = (struct cell){ .character = character, .style = (unsigned char)style };
}

/* Returns how many columns it took. */
static int put_character(const struct cells *c, int row, int column, enum style style, unsigned character)
{
	if (!sb_glyph_safe(character))
		character = '?';
	int columns = sb_glyph_columns(character);
	if (columns == 0) {
		struct cell *before = cell_at(c, row, column - 1);
		if (before && before->character != 0)
			before->mark = character;
		return 0;
	}
	bool cut = columns == 2 && (column < 0 || column + 1 >= c->columns);
	set_cell(c, row, column, style, cut ? ' ' : character);
	if (columns == 2) {
		set_cell(c, row, column + 1, style, ' ');
		if (!cut && cell_at(c, row, column + 1))
			cell_at(c, row, column + 1)->character = 0;
	}
	return columns;
}

void sb_cells_fill(struct cells *c, enum style style)
{
	for (int row = 0; row < c->rows; row++)
		for (int column = 0; column < c->columns; column++)
			set_cell(c, row, column, style, ' ');
}

void sb_cells_put(struct cells *c, int row, int column, enum style style, unsigned character)
{
	put_character(c, row, column, style, character);
}

/* At most `bytes` of text. */
static int put_bytes(
	const struct cells *c, int row, int column, enum style style, const char *text, size_t bytes)
{
	const char *end = text + bytes;
	unsigned character;

	while (text < end && *text) {
		text += sb_utf8_next(text, &character);
		column += put_character(c, row, column, style, character);
	}
	return column;
}

int sb_cells_text(struct cells *c, int row, int column, enum style style, const char *text)
{
	return put_bytes(c, row, column, style, text, strlen(text));
}

int sb_cells_print(struct cells *c, int row, int column, enum style style, const char *format, ...)
{
	char text[1024];
	va_list args;

	va_start(args, format);
	vsnprintf(text, sizeof text, format, args);
	va_end(args);
	return sb_cells_text(c, row, column, style, text);
}

/* Columns as this file counts them: what is not safe is shown as '?', one column. */
static int columns_of(const char *text)
{
	int columns = 0;

	for (unsigned character; *text;) {
		text += sb_utf8_next(text, &character);
		columns += sb_glyph_safe(character) ? sb_glyph_columns(character) : 1;
	}
	return columns;
}

/* The bytes of text that fit into so many columns. */
static size_t bytes_within(const char *text, int columns)
{
	size_t bytes = 0;

	for (unsigned character; text[bytes];) {
		size_t one = sb_utf8_next(text + bytes, &character);
		columns -= sb_glyph_safe(character) ? sb_glyph_columns(character) : 1;
		if (columns < 0)
			break;
		bytes += one;
	}
	return bytes;
}

static void blank(struct cells *c, int row, int column, int width, enum style style)
{
	for (int i = 0; i < width; i++)
		set_cell(c, row, column + i, style, ' ');
}

void sb_cells_fit(struct cells *c, int row, int column, int width, enum style style, const char *text)
{
	blank(c, row, column, width, style);
	if (width <= 0)
		return;
	if (columns_of(text) <= width) {
		sb_cells_text(c, row, column, style, text);
		return;
	}
	int end = put_bytes(c, row, column, style, text, bytes_within(text, width - 1));
	set_cell(c, row, end, style, ELLIPSIS);
}

void sb_cells_right(struct cells *c, int row, int column, int width, enum style style, const char *text)
{
	int columns = columns_of(text);

	if (columns > width) {
		sb_cells_fit(c, row, column, width, style, text);
		return;
	}
	blank(c, row, column, width, style);
	sb_cells_text(c, row, column + width - columns, style, text);
}

void sb_cells_number(
	struct cells *c, int row, int column, int width, enum style style, double value, int decimals)
{
	char text[400];

	if (!isfinite(value)) {
		sb_cells_right(c, row, column, width, style, "-");
		return;
	}
	do
		snprintf(text, sizeof text, "%.*f", decimals, value);
	while ((int)strlen(text) > width && decimals-- > 0);
	if (strtod(text, NULL) == 0 && text[0] == '-') /* never "-0.0" */
		memmove(text, text + 1, strlen(text));
	if ((int)strlen(text) > width)
		for (int i = 0; i < width; i++)
			set_cell(c, row, column + i, style, '#');
	else
		sb_cells_right(c, row, column, width, style, text);
}

/* The next line of a paragraph: its bytes, and where the one after begins. */
static size_t next_line(const char *text, int width, const char **rest)
{
	size_t fits = bytes_within(text, width);

	if (text[fits] == '\0') {
		*rest = text + fits;
		return fits;
	}
	size_t end = fits;
	while (end > 0 && text[end] != ' ')
		end--;
	if (end == 0) { /* one word wider than the line; a character at least, or it would never end */
		unsigned character;
		end = fits ? fits : sb_utf8_next(text, &character);
	}
	*rest = text + end;
	while (**rest == ' ')
		(*rest)++;
	return end;
}

static int wrap(const struct cells *c, int row, int column, int width, enum style style, const char *text)
{
	int lines = 0;

	if (width < 1)
		width = 1;
	while (*text) {
		const char *line = text;
		size_t bytes = next_line(line, width, &text);
		if (c)
			put_bytes(c, row + lines, column, style, line, bytes);
		lines++;
	}
	return lines;
}

int sb_cells_wrap(struct cells *c, int row, int column, int width, enum style style, const char *text)
{
	return wrap(c, row, column, width, style, text);
}

int sb_cells_wrapped(const char *text, int width)
{
	return wrap(NULL, 0, 0, width, STYLE_PLAIN, text);
}

void sb_cells_rule(struct cells *c, int row, const char *title)
{
	for (int column = 0; column < c->columns; column++)
		set_cell(c, row, column, STYLE_RULE, RULE_ACROSS);
	if (title)
		sb_cells_print(c, row, 1, STYLE_DIM, " %s ", title);
}

void sb_cells_upright(struct cells *c, int column)
{
	for (int row = 0; row < c->rows; row++) {
		const struct cell *here = cell_at(c, row, column);
		unsigned character = RULE_DOWN;
		if (here && here->character == RULE_ACROSS)
			character = row == 0 ? 0x252C : row == c->rows - 1 ? 0x2534 : 0x253C;
		set_cell(c, row, column, STYLE_RULE, character);
	}
}

void sb_cells_box(struct cells *c, const char *title)
{
	int right = c->columns - 1, bottom = c->rows - 1;

	for (int column = 1; column < right; column++)
		set_cell(c, bottom, column, STYLE_RULE, RULE_ACROSS);
	sb_cells_rule(c, 0, title);
	for (int row = 1; row < bottom; row++) {
		set_cell(c, row, 0, STYLE_RULE, RULE_DOWN);
		set_cell(c, row, right, STYLE_RULE, RULE_DOWN);
	}
	set_cell(c, 0, 0, STYLE_RULE, 0x250C);
	set_cell(c, 0, right, STYLE_RULE, 0x2510);
	set_cell(c, bottom, 0, STYLE_RULE, 0x2514);
	set_cell(c, bottom, right, STYLE_RULE, 0x2518);
}

void sb_cells_choose(struct cells *c, int row, int column, int width)
{
	for (int i = 0; i < width; i++) {
		struct cell *here = cell_at(c, row, column + i);
		if (here)
			here->chosen = true;
	}
}

void sb_cells_cursor(struct cells *c, int row, int column)
{
	if (cell_at(c, row, column) == NULL)
		return;
	*c->cursor = (struct cells_cursor){ c->top + row, c->left + column, true };
}

void sb_cells_flatten(struct cells *c)
{
	for (int row = 0; row < c->rows; row++) {
		struct cell *cell = c->at + (ptrdiff_t)row * c->stride;
		for (int column = 0; column < c->columns; column++) {
			unsigned wide = cell[column].character;
			cell[column].character = wide ? (unsigned char)sb_glyph_plain(wide) : ' ';
			cell[column].mark = 0;
		}
	}
}

char *sb_cells_row(const struct cells *c, int row, char *text, size_t size)
{
	struct sb_str s = { 0 };

	for (int column = 0; column < c->columns; column++) {
		const struct cell *here = cell_at(c, row, column);
		char bytes[SB_GLYPH_BYTES];
		if (here == NULL || here->character == 0)
			continue;
		sb_str_append(&s, bytes, sb_glyph_encode(here->character, bytes));
		if (here->mark)
			sb_str_append(&s, bytes, sb_glyph_encode(here->mark, bytes));
	}
	while (s.length > 0 && s.text[s.length - 1] == ' ')
		s.text[--s.length] = '\0';
	sb_copy(text, size, sb_str_get(&s));
	sb_str_clear(&s);
	return text;
}
