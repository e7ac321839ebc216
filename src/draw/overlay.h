/* What is written over the dots: marks, texts, and the scale around them. */
#ifndef SB_DRAW_OVERLAY_H
#define SB_DRAW_OVERLAY_H

#include "draw/axis.h"
#include "draw/raster.h"

#define SB_CELL_TALL 2.0 /* paper units; a cell is one wide */

/* The character of a mark: its meaning's own, but a cross where the design line is seen end on. */
unsigned sb_overlay_mark(enum meaning m);

/* What is written beside the picture. */
size_t sb_overlay_ticks_up(const struct axis *a, struct tick out[SB_AXIS_TICKS]);
size_t sb_overlay_ticks_across(const struct axis *a, struct tick out[SB_AXIS_TICKS]);

/* Marks, then texts where they hide least, then scale and exaggeration. The scale goes to the left of the
 * axis's paper and to the row below it, where the raster reaches farther than the paper. */
void sb_overlay_draw(
	const struct scene *scene, const struct axis *a, enum raster_mode mode, struct raster *out);

#endif
