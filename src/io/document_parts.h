/* Between the files of a document: rows and cells of a table, and how text is laid out in columns. */
#ifndef SB_SRC_IO_DOCUMENT_PARTS_H
#define SB_SRC_IO_DOCUMENT_PARTS_H

#include "io/document.h"

#define DOCUMENT_HEAD SIZE_MAX /* the row of the headings */

size_t document_rows(const struct block *table); /* full rows */
const char *document_at(const struct block *table, size_t row, size_t column);

size_t document_columns(const char *text, size_t bytes); /* of the terminal */

/* The next line of a text: how many of its bytes fit into so many columns, broken between words, inside one
 * only if it must be. *next: where the line after it begins. 0 at the end of the text alone. */
size_t document_line(const char *text, size_t width, const char **next);
size_t document_lines(const char *text, size_t width); /* how many; at least 1 */

/* A table as it is laid out in 80 columns. */
struct document_grid {
	size_t widths[SB_DOCUMENT_TABLE];
	size_t gap; /* blanks between two columns */
	size_t all; /* of the table */
};

/* Figures and short words have what they need, long words share what is left. */
void document_grid(const struct block *table, struct document_grid *g);

#endif
