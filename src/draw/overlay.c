/* A text may stand on any side of its point: places are tried in turn, and the one where it hides least of
 * the picture is taken; where no place is free it is left out, for a picture without a name is better than a
 * name over the bit.
 */
#include "draw/overlay.h"

#include <math.h>
#include <string.h>

size_t sb_overlay_ticks_up(const struct axis *a, struct tick out[SB_AXIS_TICKS])
{
	return sb_axis_ticks_up(a, fmax(2.2 * SB_CELL_TALL, a->paper.height / 4), out);
}

size_t sb_overlay_ticks_across(const struct axis *a, struct tick out[SB_AXIS_TICKS])
{
	return sb_axis_ticks_across(a, fmax(12, a->paper.width / 6), out);
}

/* The part of the raster inside the scale, in cells; right and bottom are past the end. */
struct inside {
	int left, top, right, bottom;
};

static int within(double at, int most)
{
	return at > 0 ? (int)fmin(at, most) : 0;
}

static struct inside inside_of(const struct axis *a, const struct raster *r)
{
	const struct paper *p = &a->paper;

	return (struct inside){
		.left = within(p->left, r->width),
		.top = within(p->top / SB_CELL_TALL, r->height),
		.right = within(p->left + p->width, r->width),
		.bottom = within((p->top + p->height) / SB_CELL_TALL, r->height),
	};
}

/* The cell of a point; false when it is not inside. The far edges belong to the last column and row. */
static bool find_cell(const struct axis *a, const struct inside *in, struct spot p, int *column, int *row)
{
	double across = sb_axis_x(a, p.x), down = sb_axis_y(a, p.y) / SB_CELL_TALL;
	double x = floor(across) - (across == in->right), y = floor(down) - (down == in->bottom);

	if (!(x >= in->left && x < in->right && y >= in->top && y < in->bottom))
		return false;
	*column = (int)x;
	*row = (int)y;
	return true;
}

unsigned sb_overlay_mark(enum meaning m)
{
	return m == MEANING_DESIGN ? '+' : (unsigned char)sb_scene_plain(m);
}

static void draw_marks(
	const struct scene *scene, const struct axis *a, const struct inside *in, struct raster *out)
{
	int column, row;

	for (size_t i = 0; i < scene->stroke_count; i++) {
		const struct stroke *s = &scene->strokes[i];
		if (s->kind != STROKE_MARK || !find_cell(a, in, scene->points[s->first], &column, &row))
			continue;
		struct raster_cell *c = sb_raster_cell(out, column, row);
		if (c->written && c->meaning > s->meaning)
			continue;
		*c = (struct raster_cell){ sb_overlay_mark(s->meaning), s->meaning, true };
	}
}

/* The next character of a text that takes one column; others become '?', and those of no width are left
 * out. 0 at the end. */
static unsigned next_character(const char **text, enum raster_mode mode)
{
	unsigned code;

	for (;;) {
		char one[5] = "";
		size_t bytes = sb_utf8_next(*text, &code);
		if (bytes == 0)
			return 0;
		memcpy(one, *text, bytes);
		*text += bytes;
		size_t columns = sb_utf8_columns(one);
		if (columns == 0)
			continue;
		return columns > 1 || (mode == RASTER_PLAIN && code > '~') ? '?' : code;
	}
}

static int columns_of(const char *text, int most)
{
	int columns = 0;

	while (columns < most && next_character(&text, RASTER_BRAILLE))
		columns++;
	return columns;
}

static void write_text(struct raster *r, int column, int row, const char *text, int columns, enum meaning m,
	enum raster_mode mode)
{
	for (int i = 0; i < columns && column + i < r->width; i++) {
		unsigned code = next_character(&text, mode);
		if (code == 0)
			return;
		*sb_raster_cell(r, column + i, row) = (struct raster_cell){ code, m, true };
	}
}

/* What a text would hide in a row; negative: it must not stand there. A column on each side stays free of
 * other words. */
static int hides(struct raster *r, const struct inside *in, int column, int row, int columns)
{
	int cost = 0;

	if (row < in->top || row >= in->bottom || column < in->left || column + columns > in->right)
		return -1;
	for (int i = -1; i <= columns; i++) {
		if (column + i < in->left || column + i >= in->right)
			continue;
		const struct raster_cell *c = sb_raster_cell(r, column + i, row);
		bool beside = i < 0 || i == columns;
		if (c->written && (!beside || c->meaning == MEANING_LABEL || c->meaning == MEANING_OBSTACLE))
			return -1;
		if (!beside && c->meaning != MEANING_NONE)
			cost += c->meaning >= MEANING_DESIGN ? 6 : 2;
	}
	return cost;
}

/* Places around a point, in columns and rows from it; columns count from the text's near end, or from its
 * middle. */
static const struct {
	enum anchor anchor;
	int columns, rows;
} places[] = {
	{ ANCHOR_RIGHT, 2, 0 },
	{ ANCHOR_LEFT, -2, 0 },
	{ ANCHOR_ABOVE, 0, -1 },
	{ ANCHOR_BELOW, 0, 1 },
	{ ANCHOR_RIGHT, 1, -1 },
	{ ANCHOR_RIGHT, 1, 1 },
	{ ANCHOR_LEFT, -1, -1 },
	{ ANCHOR_LEFT, -1, 1 },
	{ ANCHOR_ABOVE, 0, -2 },
	{ ANCHOR_BELOW, 0, 2 },
	{ ANCHOR_UPON, 0, 0 },
};

static int start_column(size_t place, int column, int columns, const struct inside *in)
{
	if (places[place].anchor == ANCHOR_RIGHT)
		return column + places[place].columns;
	if (places[place].anchor == ANCHOR_LEFT)
		return column + places[place].columns - columns + 1;
	int start = column - columns / 2, last = in->right - columns;
	if (places[place].anchor != ANCHOR_UPON)
		return start;
	return start < in->left ? in->left : start > last ? last : start;
}

/* Where the text hides least; of equals, where it would rather stand. */
static void place_text(const struct scene *scene, const struct axis *a, const struct inside *in,
	const struct stroke *s, enum raster_mode mode, struct raster *out)
{
	const char *text = sb_scene_text_get(scene, s);
	int room = in->right - in->left, most = room / 2 > 16 ? room / 2 : 16;
	int columns = columns_of(text, most), column, row, best = -1, least = 0;

	if (!find_cell(a, in, scene->points[s->first], &column, &row))
		return;
	for (size_t i = 0; i < sizeof places / sizeof *places; i++) {
		int cost =
			hides(out, in, start_column(i, column, columns, in), row + places[i].rows, columns);
		if (cost < 0 || (places[i].anchor == ANCHOR_UPON && s->anchor != ANCHOR_UPON))
			continue;
		if (places[i].anchor == s->anchor && s->anchor == ANCHOR_UPON)
			cost = 0; /* in its line is where it belongs */
		else
			cost = cost * 4 + (places[i].anchor == s->anchor ? 0 : 2) + (i >= 4);
		if (best < 0 || cost < least) {
			best = (int)i;
			least = cost;
		}
	}
	if (best >= 0)
		write_text(out, start_column((size_t)best, column, columns, in), row + places[best].rows,
			text, columns, s->meaning, mode);
}

/* The picture's own words first, names of things after. */
static void draw_texts(const struct scene *scene, const struct axis *a, const struct inside *in,
	enum raster_mode mode, struct raster *out)
{
	for (int names = 0; names <= 1; names++)
		for (size_t i = 0; i < scene->stroke_count; i++) {
			const struct stroke *s = &scene->strokes[i];
			if (s->kind == STROKE_TEXT && (s->meaning != MEANING_LABEL) == names)
				place_text(scene, a, in, s, mode, out);
		}
}

static void draw_scale(const struct axis *a, const struct inside *in, struct raster *out)
{
	struct tick ticks[SB_AXIS_TICKS];
	size_t count = sb_overlay_ticks_up(a, ticks);
	int free_from = in->left;

	for (size_t i = 0; i < count; i++) {
		double down = ticks[i].paper / SB_CELL_TALL;
		int row = (int)floor(down) - (down == in->bottom), columns = (int)strlen(ticks[i].text);
		if (row >= in->top && row < in->bottom && columns < in->left)
			write_text(out, in->left - 1 - columns, row, ticks[i].text, columns, MEANING_TICK,
				RASTER_PLAIN);
	}
	count = sb_overlay_ticks_across(a, ticks);
	for (size_t i = 0; i < count; i++) {
		int column = (int)floor(ticks[i].paper), columns = (int)strlen(ticks[i].text) + 1;
		if (column < free_from || column + columns > out->width)
			continue;
		write_text(out, column, in->bottom, "|", 1, MEANING_TICK, RASTER_PLAIN);
		write_text(
			out, column + 1, in->bottom, ticks[i].text, columns - 1, MEANING_TICK, RASTER_PLAIN);
		free_from = column + columns + 1;
	}
	const char *unit = sb_unit_short(a->unit);
	int columns = (int)strlen(unit);
	if (free_from + columns <= out->width)
		write_text(out, out->width - columns, in->bottom, unit, columns, MEANING_TICK, RASTER_PLAIN);
}

/* In the corner of the scale; without a scale over the picture. Never left out when it is not 1. */
static void draw_exaggeration(const struct axis *a, const struct inside *in, struct raster *out)
{
	char text[SB_AXIS_TEXT];
	bool scaled = in->bottom < out->height;

	sb_axis_exaggeration(a, text);
	int columns = (int)strlen(text);
	if (scaled || a->exaggeration > 1 || a->up == QUANTITY_VALUE)
		write_text(out, 0, scaled ? in->bottom : 0, text, columns, MEANING_TICK, RASTER_PLAIN);
}

void sb_overlay_draw(
	const struct scene *scene, const struct axis *a, enum raster_mode mode, struct raster *out)
{
	struct inside in = inside_of(a, out);

	draw_marks(scene, a, &in, out);
	draw_texts(scene, a, &in, mode, out);
	if (in.bottom < out->height)
		draw_scale(a, &in, out);
	draw_exaggeration(a, &in, out);
}
