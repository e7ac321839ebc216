/* Numbers three rows high, to be read from across the cabin. */
#ifndef UI_BIG_H
#define UI_BIG_H

#include "ui/cells.h"
#include "ui/glyph.h"

#define SB_BIG_ROWS 3

/* text: digits and decimal points. Returns the column after it. */
int sb_big_number(
	struct cells *out, int row, int column, enum style style, enum glyphs glyphs, const char *text);
int sb_big_columns(const char *text);

#endif
