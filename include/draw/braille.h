/* A scene as character cells: in braille dots, in half blocks, or in plain characters.
 *
 * Numbers stand in a margin on the left and in a row below; the exaggeration is in the corner between them.
 */
#ifndef SB_DRAW_BRAILLE_H
#define SB_DRAW_BRAILLE_H

#include "base/str.h"
#include "draw/axis.h"
#include "draw/raster.h"
#include "draw/scene.h"

/* The axis for a raster's size, with room for the scale where the raster is large enough for one (from 20
 * columns and 4 rows) and the scene wants one. */
void sb_braille_fit(const struct scene *scene, const struct raster *r, struct axis *out);

/* Fills the raster. Work and memory are bounded by the raster's size and the number of strokes. */
void sb_braille_draw(
	const struct scene *scene, const struct axis *axis, enum raster_mode mode, struct raster *out);

/* What the strokes of a scene look like, the most important first: "O bit  * drilled  - design". */
void sb_braille_legend(const struct scene *scene, enum raster_mode mode, struct sb_str *out);

#endif
