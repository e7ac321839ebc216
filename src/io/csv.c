/* CSV. libcsv splits cells; this file feeds it line by line, so that a row knows its line and a quote that is
 * never closed cannot take the rest of the file into one cell.
 *
 * What holds: at most the file (64 MiB), one row (256 cells) and one cell (64 KiB and a piece) are in memory.
 * A row comes out only when it is as wide as the header, all of it is UTF-8, and quotes stand where RFC 4180
 * puts them.
 */
#include "io/csv.h"

#include "base/mem.h"
#include "io/figure.h"
#include "io/load.h"
#include "io/nearest.h"

#include <assert.h>
#include <csv.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#define PIECE 16384

struct sb_csv {
	char name[64];
	struct sb_problems *problems;
	size_t listed; /* problems of this file */
	bool ended;
	struct sb_str text;
	struct load_lines lines;
	struct csv_parser parser;
	char separator;

	/* the row being put together */
	int line;
	struct sb_str bytes; /* its cells, each ended by NUL */
	size_t starts[SB_CSV_COLUMNS];
	const char *cells[SB_CSV_COLUMNS];
	size_t count;
	bool whole;
	struct csv_row row;

	char *header[SB_CSV_COLUMNS];
	size_t columns;

	/* how numbers are written: the first line with each */
	int comma_line, point_line, doubt_line;
	bool comma_sure, mixed;
};

void sb_csv_wrong(struct sb_csv *csv, int line, const char *column, const char *format, ...)
{
	char text[400];
	va_list args;

	if (csv->listed > SB_CSV_PROBLEMS)
		return;
	va_start(args, format);
	vsnprintf(text, sizeof text, format, args);
	va_end(args);
	if (csv->listed++ < SB_CSV_PROBLEMS) {
		sb_problems_add(csv->problems, 0, csv->name, line, column, "%s", text);
		return;
	}
	sb_problems_add(csv->problems, 0, csv->name, line, NULL,
		"more than %d problems are in this file. Put the ones above right first.", SB_CSV_PROBLEMS);
	csv->ended = true;
}

/* ---- rows ---- */

static void take_cell(void *cell, size_t length, void *data)
{
	struct sb_csv *csv = data;

	if (csv->count < SB_CSV_COLUMNS) {
		csv->starts[csv->count] = csv->bytes.length;
		sb_str_append(&csv->bytes, cell ? cell : "", length);
		sb_str_append(&csv->bytes, "", 1);
	}
	csv->count++;
}

static void take_end(int c, void *data)
{
	(void)c;
	((struct sb_csv *)data)->whole = true;
}

static void begin_row(struct sb_csv *csv)
{
	csv->bytes.length = 0;
	csv->count = 0;
	csv->whole = false;
	csv->line = 0;
}

static void start_parser(struct sb_csv *csv)
{
	int failed = csv_init(&csv->parser, CSV_STRICT | CSV_STRICT_FINI);

	assert(!failed);
	(void)failed;
	csv_set_blk_size(&csv->parser, 4096);
	csv_set_delim(&csv->parser, (unsigned char)csv->separator);
	begin_row(csv);
}

static void restart_parser(struct sb_csv *csv)
{
	csv_free(&csv->parser);
	start_parser(csv);
}

static bool feed(struct sb_csv *csv, const char *bytes, size_t length)
{
	while (length > 0) {
		size_t piece = length < PIECE ? length : PIECE;
		if (csv_parse(&csv->parser, bytes, piece, take_cell, take_end, csv) != piece) {
			sb_csv_wrong(csv, csv->lines.number, NULL,
				"a double quote stands where it may not. A cell with quotes in it is written "
				"\"like \"\"this\"\"\".");
			return false;
		}
		if (csv->parser.entry_pos > SB_CSV_CELL) {
			sb_csv_wrong(csv, csv->line, NULL,
				"a cell that begins in this line is longer than %u bytes. A double quote is "
				"probably not closed.",
				SB_CSV_CELL);
			csv->ended = true;
			return false;
		}
		bytes += piece;
		length -= piece;
	}
	return true;
}

static void finish(struct sb_csv *csv)
{
	csv->ended = true;
	if (csv_fini(&csv->parser, take_cell, take_end, csv) == 0)
		return;
	sb_csv_wrong(csv, csv->line, NULL,
		"the double quote that is opened in this row is never closed: the rest of the file would be one cell.");
	begin_row(csv);
}

/* Reads up to the end of one row; false when there is none. */
static bool read_row(struct sb_csv *csv)
{
	const char *line;
	size_t length, whole;

	begin_row(csv);
	while (!csv->ended && !csv->whole) {
		if (!sb_load_next(&csv->lines, &line, &length, &whole)) {
			finish(csv);
			break;
		}
		if (csv->count == 0 && csv->parser.entry_pos == 0)
			csv->line = csv->lines.number;
		const char *wrong = sb_load_wrong(line, length);
		if (wrong)
			sb_csv_wrong(csv, csv->lines.number, NULL, "%s", wrong);
		if (wrong || !feed(csv, line, whole))
			restart_parser(csv);
	}
	for (size_t i = 0; i < csv->count && i < SB_CSV_COLUMNS; i++)
		csv->cells[i] = csv->bytes.text + csv->starts[i];
	return csv->whole;
}

static bool is_blank(const char *cell)
{
	return cell[strspn(cell, " \t\r\n")] == '\0';
}

/* Cells without those at the end that are blank: spreadsheets add them. */
static size_t filled(const struct sb_csv *csv)
{
	size_t count = csv->count < SB_CSV_COLUMNS ? csv->count : SB_CSV_COLUMNS;

	while (count > 0 && is_blank(csv->cells[count - 1]))
		count--;
	return count;
}

static void say_width(struct sb_csv *csv)
{
	const char *hint = "";

	if (csv->separator == ',' && csv->count > csv->columns)
		hint = " If numbers have decimal commas, put semicolons between the cells.";
	sb_csv_wrong(csv, csv->line, NULL, "this row has %zu cells, the header has %zu.%s", csv->count,
		csv->columns, hint);
}

static void close_decimals(struct sb_csv *csv)
{
	if (csv->doubt_line == 0 || csv->comma_sure || csv->separator == ';')
		return;
	sb_csv_wrong(csv, csv->doubt_line, NULL,
		"a number like 1,234 may be a decimal comma or a thousand. Write it with a decimal point, or "
		"without the comma.");
	csv->doubt_line = 0;
}

const struct csv_row *sb_csv_next(struct sb_csv *csv)
{
	while (!csv->ended) {
		if (!read_row(csv))
			break;
		size_t used = filled(csv);
		if (used == 0 && csv->count <= SB_CSV_COLUMNS)
			continue;
		if (csv->count < csv->columns || used > csv->columns || csv->count > SB_CSV_COLUMNS) {
			say_width(csv);
			continue;
		}
		csv->row = (struct csv_row){ csv->line, csv->columns, csv->cells };
		return &csv->row;
	}
	close_decimals(csv);
	return NULL;
}

/* ---- the header ---- */

static size_t count_bare(const char *line, size_t length, char what)
{
	bool quoted = false;
	size_t count = 0;

	for (size_t i = 0; i < length; i++) {
		if (line[i] == '"')
			quoted = !quoted;
		else if (line[i] == what && !quoted)
			count++;
	}
	return count;
}

/* A first line "sep=;" is how some spreadsheets say what separates. */
static bool take_sep(struct sb_csv *csv, const char *line, size_t length)
{
	if (length != 5 || memcmp(line, "sep=", 4) != 0 || !strchr(",;\t", line[4]))
		return false;
	csv->separator = line[4];
	return true;
}

/* Looks at the first line that is not blank, without taking it. */
static int find_separator(struct sb_csv *csv)
{
	const char *line;
	size_t length, kinds = 0;

	for (;;) {
		struct load_lines before = csv->lines;
		if (!sb_load_next(&csv->lines, &line, &length, NULL)) {
			sb_csv_wrong(csv, 0, NULL,
				"there is nothing in this file. It begins with a line of column names.");
			return -1;
		}
		if (before.number == 0 && take_sep(csv, line, length))
			return 0;
		if (count_bare(line, length, ' ') + count_bare(line, length, '\t') == length)
			continue;
		csv->lines = before;
		break;
	}
	csv->separator = ',';
	for (const char *c = "\t;,"; *c; c++)
		if (count_bare(line, length, *c) > 0) {
			csv->separator = *c;
			kinds++;
		}
	if (kinds < 2)
		return 0;
	sb_csv_wrong(csv, csv->lines.number + 1, NULL,
		"the header has more than one of comma, semicolon and tab between its names, so the columns are not clear. Use one of them.");
	return -1;
}

static bool check_names(struct sb_csv *csv)
{
	size_t before = csv->listed;

	for (size_t i = 0; i < csv->columns; i++) {
		if (is_blank(csv->header[i]))
			sb_csv_wrong(csv, csv->line, NULL, "column %zu has no name in the header.", i + 1);
		for (size_t j = 0; j < i; j++)
			if (!is_blank(csv->header[i]) && sb_nearest_same(csv->header[i], csv->header[j])) {
				sb_csv_wrong(csv, csv->line, csv->header[i],
					"this column is there twice. Take one of them out.");
				break;
			}
	}
	return csv->listed == before;
}

static int read_header(struct sb_csv *csv)
{
	do {
		if (csv->ended || !read_row(csv)) {
			if (csv->listed == 0)
				sb_csv_wrong(csv, 0, NULL,
					"there is nothing in this file. It begins with a line of column names.");
			return -1;
		}
		if (csv->listed)
			return -1; /* the header was damaged: do not take a later row for it */
	} while (filled(csv) == 0);
	if (csv->count > SB_CSV_COLUMNS) {
		sb_csv_wrong(csv, csv->line, NULL, "the header has more than %d columns.", SB_CSV_COLUMNS);
		return -1;
	}
	csv->columns = filled(csv);
	for (size_t i = 0; i < csv->columns; i++) {
		csv->header[i] = sb_strdup(csv->cells[i]);
		sb_utf8_tame(csv->header[i]);
	}
	return check_names(csv) ? 0 : -1;
}

int sb_csv_open(const char *path, const char *name, struct sb_csv **out, struct sb_problems *problems)
{
	struct sb_csv *csv = sb_alloc(sizeof *csv);
	struct sb_err err;

	sb_copy(csv->name, sizeof csv->name, name);
	csv->problems = problems;
	csv->separator = ',';
	if (sb_load(path, SB_CSV_FILE, &csv->text, &err)) {
		sb_csv_wrong(csv, 0, NULL, "%s", err.text);
		sb_free(csv);
		return -1;
	}
	csv->lines = sb_load_lines(&csv->text);
	int failed = find_separator(csv);
	start_parser(csv);
	if (!failed)
		failed = read_header(csv);
	if (failed) {
		sb_csv_close(csv);
		return -1;
	}
	*out = csv;
	return 0;
}

void sb_csv_close(struct sb_csv *csv)
{
	if (csv == NULL)
		return;
	csv_free(&csv->parser);
	for (size_t i = 0; i < csv->columns; i++)
		sb_free(csv->header[i]);
	sb_str_clear(&csv->bytes);
	sb_str_clear(&csv->text);
	sb_free(csv);
}

size_t sb_csv_columns(const struct sb_csv *csv)
{
	return csv->columns;
}

const char *sb_csv_column(const struct sb_csv *csv, size_t i)
{
	return csv->header[i];
}

int sb_csv_find(const struct sb_csv *csv, const char *name)
{
	for (size_t i = 0; i < csv->columns; i++)
		if (sb_nearest_same(csv->header[i], name))
			return (int)i;
	return -1;
}

/* ---- numbers ---- */

/* 1,234 and 12,345: what a thousands separator looks like too. 0,125 and 1,25 do not. */
static bool like_thousands(const char *cell)
{
	cell += strspn(cell, " \t+-");
	size_t before = strspn(cell, "0123456789");
	size_t after = cell[before] == ',' ? strspn(cell + before + 1, "0123456789") : 0;

	return before >= 1 && before <= 3 && after == 3 && cell[0] != '0';
}

static bool say_mixed(struct sb_csv *csv, int line, const char *column, int other)
{
	if (!csv->mixed)
		sb_csv_wrong(csv, line, column,
			"line %d and this one write decimals differently: one has a decimal comma, the other a "
			"decimal point. Use one of them in the whole file.",
			other);
	csv->mixed = true;
	return false;
}

bool sb_csv_decimal(struct sb_csv *csv, const struct csv_row *row, size_t column)
{
	const char *cell = row->cells[column], *name = csv->header[column];
	bool comma = strchr(cell, ',') != NULL, point = strchr(cell, '.') != NULL;

	if (!comma && !point)
		return true;
	if (comma && point) {
		sb_csv_wrong(csv, row->line, name,
			"'%.30s' has a comma and a point. Write it without thousands separators.", cell);
		return false;
	}
	if (comma && csv->separator == ',') {
		sb_csv_wrong(csv, row->line, name,
			"'%.30s' has a comma in it, in a file that has commas between its cells. Write it with a "
			"decimal point.",
			cell);
		return false;
	}
	int *mine = comma ? &csv->comma_line : &csv->point_line;
	int other = comma ? csv->point_line : csv->comma_line;
	if (*mine == 0)
		*mine = row->line;
	if (comma && !like_thousands(cell))
		csv->comma_sure = true;
	else if (comma && csv->doubt_line == 0)
		csv->doubt_line = row->line;
	return other == 0 || say_mixed(csv, row->line, name, other);
}

/* ---- writing ---- */

static bool needs_quotes(const char *text)
{
	size_t length = strlen(text);

	return text[strcspn(text, ",\"\r\n")] != '\0' ||
		(length > 0 && (strchr(" \t", text[0]) || strchr(" \t", text[length - 1])));
}

void sb_csv_cell(struct csv_out *out, const char *text)
{
	if (out->begun)
		sb_str_append(&out->text, ",", 1);
	out->begun = true;
	if (!needs_quotes(text)) {
		sb_str_append(&out->text, text, strlen(text));
		return;
	}
	sb_str_append(&out->text, "\"", 1);
	for (; *text; text++)
		sb_str_append(&out->text, *text == '"' ? "\"\"" : text, *text == '"' ? 2 : 1);
	sb_str_append(&out->text, "\"", 1);
}

/* The apostrophe itself is in the list, so that taking one off always gives back what was typed. */
static bool like_formula(char c)
{
	return c != '\0' && strchr("=+-@\t\r'", c) != NULL;
}

void sb_csv_cell_text(struct csv_out *out, const char *text)
{
	struct sb_str guarded = { 0 };

	if (!like_formula(text[0])) {
		sb_csv_cell(out, text);
		return;
	}
	sb_str_add(&guarded, "'%s", text);
	sb_csv_cell(out, guarded.text);
	sb_str_clear(&guarded);
}

const char *sb_csv_text(const char *cell)
{
	return cell[0] == '\'' && like_formula(cell[1]) ? cell + 1 : cell;
}

void sb_csv_cell_fixed(struct csv_out *out, double value, int decimals)
{
	char text[SB_FIGURE_TEXT];

	sb_csv_cell(out, sb_figure_fixed(value, decimals, text));
}

void sb_csv_cell_whole(struct csv_out *out, long long value)
{
	char text[SB_FIGURE_TEXT];

	snprintf(text, sizeof text, "%lld", value);
	sb_csv_cell(out, text);
}

void sb_csv_end(struct csv_out *out)
{
	sb_str_append(&out->text, "\r\n", 2);
	out->begun = false;
}
