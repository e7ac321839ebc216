/* A scene as character cells: in braille dots, in half blocks, or in plain characters.
 *
 * Three ways because fonts differ: braille shows 2 x 4 dots a cell but is missing from most console fonts;
 * half blocks (1 x 2) are in nearly all; plain characters are in every one, and there each meaning has its
 * own. Plain is complete: nothing is said by the others that it leaves out.
 *
 * Numbers stand in a margin on the left and in a row below; the exaggeration is in the corner between them.
 */
#ifndef SB_DRAW_BRAILLE_H
#define SB_DRAW_BRAILLE_H

#include "base/str.h"
#include "draw/axis.h"
#include "draw/scene.h"

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
void sb_braille_resize(struct raster *r, int width, int height);
void sb_braille_clear(struct raster *r);

/* The axis for a raster's size, with room for the scale where the raster is large enough for one: from 20
 * columns and 4 rows. */
void sb_braille_fit(const struct scene *scene, const struct raster *r, struct axis *out);

/* Fills the raster. Work and memory are bounded by the raster's size and the number of strokes. */
void sb_braille_draw(
	const struct scene *scene, const struct axis *axis, enum raster_mode mode, struct raster *out);

const struct raster_cell *sb_braille_cell(const struct raster *r, int column, int row);

/* What the strokes of a scene look like, in the order of importance: "* drilled  - design  . corridor". */
void sb_braille_legend(const struct scene *scene, enum raster_mode mode, struct sb_str *out);

/* The raster as lines of UTF-8, spaces at their ends left out. */
void sb_braille_text(const struct raster *r, struct sb_str *out);

#endif
