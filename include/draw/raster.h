/* A picture as character cells, whatever was drawn into them. */
#ifndef SB_DRAW_RASTER_H
#define SB_DRAW_RASTER_H

#include "base/str.h"
#include "draw/scene.h"

/* Three ways because fonts differ: braille shows 2 x 4 dots a cell but is missing from most console fonts;
 * half blocks (1 x 2) are in nearly all; plain characters are in every one, and there each meaning has its
 * own. Plain is complete: nothing is said by the others that it leaves out. */
enum raster_mode { RASTER_BRAILLE, RASTER_BLOCKS, RASTER_PLAIN };

struct raster_cell {
	unsigned code; /* Unicode; a space where nothing is. Always one column wide */
	enum meaning meaning;
	bool written; /* a character of a text, a mark or the scale, rather than dots */
};

struct raster {
	int width, height;
	struct raster_cell *cells; /* row by row from the top */
	size_t room;
	unsigned char *dots; /* working memory */
	size_t dot_room;
};

#define SB_RASTER_MOST 1000 /* columns, and rows */

/* Sets the size, 1..SB_RASTER_MOST each way (what is beyond is brought in), and empties the cells. A raster
 * of zeroes is a good one to begin with. */
void sb_raster_resize(struct raster *r, int width, int height);
void sb_raster_clear(struct raster *r);

/* Within the raster's size; borrowed. */
struct raster_cell *sb_raster_cell(const struct raster *r, int column, int row);

/* The raster as lines of UTF-8, spaces at their ends left out. */
void sb_raster_text(const struct raster *r, struct sb_str *out);

/* One character as UTF-8, at the end of a text. */
void sb_raster_add(struct sb_str *out, unsigned code);

#endif
