/* Between the files of a document: breaking lines, and sharing a table's room among its columns. Both measure
 * by a function, so that text counts columns and pages count millimetres. */
#ifndef SB_SRC_IO_DOCUMENT_PARTS_H
#define SB_SRC_IO_DOCUMENT_PARTS_H

#include "io/document.h"

/* How wide so many bytes of text are. */
struct measure {
	double (*width)(const void *context, const char *text, size_t bytes);
	const void *context;
};

/* The next line of a text: how many of its bytes fit into so much room, broken between words, inside one only
 * if it must be. *next: where the line after it begins. 0 at the end of the text alone. */
size_t document_line(const struct measure *m, const char *text, double room, const char **next);
size_t document_lines(const struct measure *m, const char *text, double room); /* how many; at least 1 */

/* Purpose:  the widths of a table's columns.
 * Given:    room   for all of them and what is between
 *           gap    between two
 * Returned: widths, one a column. Columns of figures have what they need; columns of words share what is
 *           left when not all of it fits. */
void document_widths(const struct measure *m, const struct block *table, double room, double gap,
	double widths[SB_DOCUMENT_TABLE]);

size_t document_rows(const struct block *table); /* full rows */
const char *document_at(const struct block *table, size_t row, size_t column);
/* Lines that a row needs, and its headings (row SIZE_MAX). */
size_t document_row_lines(const struct measure *m, const struct block *table, size_t row,
	const double widths[SB_DOCUMENT_TABLE]);

#endif
