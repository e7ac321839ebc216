/* From the meanings of a scene's strokes to styles. Entry and exit share the style of the scale;
 * their characters differ. */
#include "ui/chart.h"

enum raster_mode sb_chart_mode(enum glyphs glyphs)
{
	switch (glyphs) {
	case GLYPHS_BRAILLE:
		return RASTER_BRAILLE;
	case GLYPHS_LINES:
		return RASTER_BLOCKS;
	case GLYPHS_ASCII:
		break;
	}
	return RASTER_PLAIN;
}

enum style sb_chart_style(enum meaning m)
{
	static const enum style styles[MEANINGS] = {
		[MEANING_NONE] = STYLE_PLAIN,
		[MEANING_TICK] = STYLE_SCALE,
		[MEANING_GROUND] = STYLE_GROUND,
		[MEANING_CORRIDOR] = STYLE_CORRIDOR,
		[MEANING_DOUBT] = STYLE_DIM,
		[MEANING_SUPERSEDED] = STYLE_WITHDRAWN,
		[MEANING_DESIGN] = STYLE_DESIGN,
		[MEANING_OBSTACLE] = STYLE_OBSTACLE,
		[MEANING_HELD] = STYLE_AHEAD,
		[MEANING_PINNED] = STYLE_DIM,
		[MEANING_PLAN] = STYLE_TRIAL,
		[MEANING_ESTIMATE] = STYLE_TRIAL,
		[MEANING_LIMIT] = STYLE_CORRIDOR,
		[MEANING_DRILLED] = STYLE_DRILLED,
		[MEANING_JOINT] = STYLE_DRILLED,
		[MEANING_TRIAL] = STYLE_TRIAL,
		[MEANING_MEASURED] = STYLE_DRILLED,
		[MEANING_FIX] = STYLE_STRONG,
		[MEANING_ENTRY] = STYLE_SCALE,
		[MEANING_EXIT] = STYLE_SCALE,
		[MEANING_BIT] = STYLE_BIT,
		[MEANING_NONCONFORMANCE] = STYLE_STRONG,
		[MEANING_LABEL] = STYLE_DIM,
	};

	return styles[m];
}

void sb_chart_place(const struct raster *picture, struct cells *out)
{
	for (int row = 0; row < picture->height && row < out->rows; row++)
		for (int column = 0; column < picture->width && column < out->columns; column++) {
			const struct raster_cell *cell = sb_raster_cell(picture, column, row);
			sb_cells_put(out, row, column, sb_chart_style(cell->meaning), cell->code);
		}
}

void sb_chart_draw(const struct scene *scene, enum glyphs glyphs, struct cells *out)
{
	struct raster picture = { 0 };
	struct axis axis;

	if (out->rows == 0 || out->columns == 0)
		return;
	sb_raster_resize(&picture, out->columns, out->rows);
	sb_braille_fit(scene, &picture, &axis);
	sb_braille_draw(scene, &axis, sb_chart_mode(glyphs), &picture);
	sb_chart_place(&picture, out);
	sb_raster_clear(&picture);
}
