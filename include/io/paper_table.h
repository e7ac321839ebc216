/* A table on paper: a head that comes again on every page, ruled rows, columns as wide as what is in them.
 */
#ifndef SB_IO_PAPER_TABLE_H
#define SB_IO_PAPER_TABLE_H

#include "io/paper.h"

struct paper_column {
	const char *title; /* of the head; '\n' parts its lines */
	enum hold hold;
	bool breaks; /* words that go on in a second line: such columns share the width that is left over */
};

enum row_look { ROW_PLAIN, ROW_FAINT, ROW_STRONG }; /* faint: grey; strong: bold */

#define SB_PAPER_COLUMNS 32

/* Texts are borrowed. */
struct paper_table {
	const struct paper_column *columns;
	size_t column_count;	    /* at most SB_PAPER_COLUMNS */
	const char *const *cells;   /* row by row; NULL and "" are blank */
	const enum row_look *looks; /* of each row; NULL: all plain */
	size_t row_count;
	double capital_mm; /* of the lettering */
	/* laid out by sb_paper_table_fit: */
	double widths_mm[SB_PAPER_COLUMNS], head_mm;
};

/* Lays the columns out over a width, by all rows: once, before the others are called. */
void sb_paper_table_fit(struct sb_paper *p, struct paper_table *t, double width_mm);

/* Draws the head and as many rows from `first` on as the box is high for, one at least. What does not fit
 * into its column is drawn smaller, then cut, with three dots. Returned: used_mm   the height that it took
 * (may be NULL); returns the first row that is left, row_count when it is done. */
size_t sb_paper_table(struct sb_paper *p, const struct paper_table *t, const struct paper *box, size_t first,
	double *used_mm);

/* The same, and nothing drawn: how many pages there will be is known before the first is begun. */
size_t sb_paper_table_try(
	struct sb_paper *p, const struct paper_table *t, double high_mm, size_t first, double *used_mm);

#endif
