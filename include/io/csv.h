/* CSV in and out.
 *
 * In: as spreadsheets write it: a byte order mark, CR LF, quotes, commas, semicolons with decimal commas, or
 * tabs. What could be read in two ways is refused. Out: RFC 4180.
 */
#ifndef SB_IO_CSV_H
#define SB_IO_CSV_H

#include "base/err.h"
#include "base/str.h"

#include <stdbool.h>
#include <stddef.h>

#define SB_CSV_FILE (64u << 20) /* bytes of a file */
#define SB_CSV_CELL 65536u	/* bytes of a cell */
#define SB_CSV_COLUMNS 256
#define SB_CSV_PROBLEMS 100 /* listed of one file; the rest is counted in one sentence */

struct sb_csv; /* a file being read */

struct csv_row {
	int line; /* where it starts */
	size_t count;
	const char *const *cells; /* as many as the header has; borrowed until the next row */
};

/* Opens a file (path "-": standard input) and reads its header: the first line that is not blank, names in
 * any order. Given: name, for the problems. 0: out, to be closed; -1: problems say why. problems is kept and
 * added to until the file is closed. */
int sb_csv_open(const char *path, const char *name, struct sb_csv **out, struct sb_problems *problems);
void sb_csv_close(struct sb_csv *csv); /* NULL is fine */

size_t sb_csv_columns(const struct sb_csv *csv);
const char *sb_csv_column(const struct sb_csv *csv, size_t i); /* its name, fit to be shown */
/* The column of that name, case, spaces, '_' and '-' aside; -1 if there is none. */
int sb_csv_find(const struct sb_csv *csv, const char *name);

/* The next row that is not blank; NULL when there are no more, or when the file cannot be read on. A row that
 * is not as wide as the header is a problem and skipped. */
const struct csv_row *sb_csv_next(struct sb_csv *csv);

/* Whether a cell that holds a number can be read in one way only; if not it is a problem. To be asked of
 * every number cell, so that a file that mixes decimal points and commas is found. */
bool sb_csv_decimal(struct sb_csv *csv, const struct csv_row *row, size_t column);

/* Adds a problem of this file; column may be NULL. After SB_CSV_PROBLEMS of them sb_csv_next ends. */
void sb_csv_wrong(struct sb_csv *csv, int line, const char *column, const char *format, ...)
	__attribute__((format(printf, 4, 5)));

/* Writing: cells, then the end of the row. */
struct csv_out {
	struct sb_str text; /* sb_str_clear when done */
	bool begun;	    /* the row has a cell already */
};
void sb_csv_cell(struct csv_out *out, const char *text);
/* Text that somebody typed. A spreadsheet would take one that begins with = + - or @ for a formula and run
 * it: it gets an apostrophe in front, which sb_csv_text takes off again. */
void sb_csv_cell_text(struct csv_out *out, const char *text);
const char *sb_csv_text(const char *cell); /* borrowed from the cell */
void sb_csv_cell_fixed(
	struct csv_out *out, double value, int decimals); /* io/figure.h; blank if not finite */
void sb_csv_cell_whole(struct csv_out *out, long long value);
void sb_csv_end(struct csv_out *out);

#endif
