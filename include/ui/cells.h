/* A grid of character cells, and rectangles of it: what screens draw into. Plain data, no terminal.
 *
 * Every function clips: whatever lies outside the rectangle is not drawn, so that drawing never has to ask
 * first. Rows and columns count from 0 inside the rectangle. Text is UTF-8; what must not reach a terminal
 * becomes '?'.
 */
#ifndef SB_UI_CELLS_H
#define SB_UI_CELLS_H

#include "ui/style.h"

#include <stdbool.h>
#include <stddef.h>

struct cell {
	unsigned character; /* 0: the right half of the wide character before it */
	unsigned mark;	    /* combines with it; 0: none */
	unsigned char style;
	bool chosen; /* part of the row that is selected */
};

struct cells_cursor {
	int row, column; /* of the whole grid */
	bool shown;
};

/* A rectangle. The one that sb_cells_init made owns its cells; parts borrow them. */
struct cells {
	struct cell *at; /* its top left cell */
	int rows, columns;
	int stride;    /* cells from one row to the next */
	int top, left; /* where it lies in the whole grid */
	struct cells_cursor *cursor;
};

void sb_cells_init(struct cells *c, int rows, int columns); /* blank */
void sb_cells_clear(struct cells *c);			    /* frees an owner */

/* A part of it, clipped to it; may be empty. */
struct cells sb_cells_part(const struct cells *c, int row, int column, int rows, int columns);

void sb_cells_fill(struct cells *c, enum style style); /* with blanks */
void sb_cells_put(struct cells *c, int row, int column, enum style style, unsigned character);

/* Text from a column on. Returns the column after it, whether or not it was clipped. */
int sb_cells_text(struct cells *c, int row, int column, enum style style, const char *text);
int sb_cells_print(struct cells *c, int row, int column, enum style style, const char *format, ...)
	__attribute__((format(printf, 5, 6)));

/* Text in a field of so many columns, the rest blank; text that does not fit ends in an ellipsis. The
 * second one stands against the right. */
void sb_cells_fit(struct cells *c, int row, int column, int width, enum style style, const char *text);
void sb_cells_right(struct cells *c, int row, int column, int width, enum style style, const char *text);

/* A number against the right of a field. With too little room it loses decimals, and is all '#' when even
 * so it does not fit: never a number cut short. Not a number, or infinite: "-". */
void sb_cells_number(
	struct cells *c, int row, int column, int width, enum style style, double value, int decimals);

/* A paragraph in lines of so many columns, broken between words (inside one only if it must be).
 * Returned: how many lines it takes, also past the last row. */
int sb_cells_wrap(struct cells *c, int row, int column, int width, enum style style, const char *text);
int sb_cells_wrapped(const char *text, int width); /* the same, without drawing */

void sb_cells_rule(struct cells *c, int row, const char *title); /* across the rectangle; title may be NULL */
void sb_cells_upright(struct cells *c, int column);		 /* from top to bottom, meeting rules */
void sb_cells_box(struct cells *c, const char *title);		 /* around the rectangle, inside it */

/* Marks a stretch as selected, whatever its styles. */
void sb_cells_choose(struct cells *c, int row, int column, int width);

/* Where the terminal's cursor shall stand. */
void sb_cells_cursor(struct cells *c, int row, int column);

/* Puts ASCII characters in the place of all others. */
void sb_cells_flatten(struct cells *c);

/* The text of a row without the blanks at its end. Returned: text. */
char *sb_cells_row(const struct cells *c, int row, char *text, size_t size);

#endif
