/* Pictures in cells: what a scene means, in this program's styles. */
#ifndef SB_UI_CHART_H
#define SB_UI_CHART_H

#include "draw/braille.h"
#include "draw/raster.h"
#include "ui/cells.h"
#include "ui/glyph.h"

enum raster_mode sb_chart_mode(enum glyphs glyphs);
enum style sb_chart_style(enum meaning m);

/* Draws a scene to fill the rectangle, with its scale where there is room for one. */
void sb_chart_draw(const struct scene *scene, enum glyphs glyphs, struct cells *out);

/* Puts a picture that is drawn already into the rectangle, from its top left. */
void sb_chart_place(const struct raster *picture, struct cells *out);

#endif
