/* From strokes to cells, in this order, each over the one before: dots of the lines; marks; texts, where they
 * cover least; the scale outside of it all.
 *
 * A cell has one colour, so it takes the meaning of the most important of its dots. A cell counts two paper
 * units high and one wide: terminal fonts are close to that, and there is no way to ask.
 */
#include "draw/braille.h"

#include "base/mem.h"
#include "draw/dots.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define CELL_TALL 2.0	 /* paper units */
#define SCALE_COLUMNS 20 /* the least raster that gets a scale */
#define SCALE_ROWS 4

static const struct {
	int across, down; /* dots in a cell */
} grains[] = {
	[RASTER_BRAILLE] = { 2, 4 },
	[RASTER_BLOCKS] = { 1, 2 },
	[RASTER_PLAIN] = { 1, 1 },
};

void sb_braille_resize(struct raster *r, int width, int height)
{
	width = width < 1 ? 1 : width > SB_RASTER_MOST ? SB_RASTER_MOST : width;
	height = height < 1 ? 1 : height > SB_RASTER_MOST ? SB_RASTER_MOST : height;
	size_t count = (size_t)width * (size_t)height;

	if (count > r->room) {
		sb_free(r->cells);
		r->cells = sb_alloc(count * sizeof *r->cells);
		r->room = count;
	}
	r->width = width;
	r->height = height;
	for (size_t i = 0; i < count; i++)
		r->cells[i] = (struct raster_cell){ .code = ' ' };
}

void sb_braille_clear(struct raster *r)
{
	sb_free(r->cells);
	sb_free(r->dots);
	*r = (struct raster){ 0 };
}

static struct raster_cell *cell(struct raster *r, int column, int row)
{
	return &r->cells[(size_t)row * (size_t)r->width + (size_t)column];
}

const struct raster_cell *sb_braille_cell(const struct raster *r, int column, int row)
{
	return &r->cells[(size_t)row * (size_t)r->width + (size_t)column];
}

/* --- fitting --- */

static size_t ticks_up(const struct axis *a, struct tick out[SB_AXIS_TICKS])
{
	return sb_axis_ticks_up(a, fmax(2.2 * CELL_TALL, a->paper.height / 4), out);
}

static size_t ticks_across(const struct axis *a, struct tick out[SB_AXIS_TICKS])
{
	return sb_axis_ticks_across(a, fmax(12, a->paper.width / 6), out);
}

static int margin_for(const struct axis *a)
{
	struct tick ticks[SB_AXIS_TICKS];
	size_t widest = 3, count = ticks_up(a, ticks); /* room for "x20" */

	for (size_t i = 0; i < count; i++)
		widest = strlen(ticks[i].text) > widest ? strlen(ticks[i].text) : widest;
	return (int)widest + 1;
}

void sb_braille_fit(const struct scene *scene, const struct raster *r, struct axis *out)
{
	bool scaled = r->width >= SCALE_COLUMNS && r->height >= SCALE_ROWS && !scene->bare;
	int rows = scaled ? r->height - 1 : r->height;
	struct paper paper = { 0, 0, r->width, rows * CELL_TALL };

	sb_axis_fit(scene, &paper, out);
	/* The margin narrows the paper, which may change the numbers in the margin: twice is enough. */
	for (int i = 0; scaled && i < 2; i++) {
		int margin = margin_for(out);
		if (margin > r->width / 2)
			margin = r->width / 2;
		paper.left = margin;
		paper.width = r->width - margin;
		sb_axis_fit(scene, &paper, out);
	}
}

/* --- lines --- */

static struct spot to_dots(const struct axis *a, enum raster_mode mode, struct spot p)
{
	return (struct spot){ sb_axis_x(a, p.x) * grains[mode].across,
		sb_axis_y(a, p.y) * grains[mode].down / CELL_TALL };
}

static void draw_piece(struct dots *d, const struct axis *a, enum raster_mode mode, const struct stroke *s,
	struct spot from, struct spot to)
{
	if (isfinite(from.x) && isfinite(from.y) && isfinite(to.x) && isfinite(to.y))
		sb_dots_line(d, to_dots(a, mode, from), to_dots(a, mode, to), s->meaning, s->line);
}

/* Whether a line that goes along another one is a cell away from it, so that both can be told apart. */
static bool apart(const struct axis *a, const struct stroke *s)
{
	return s->beside_m == 0 || s->beside_m * a->scale * a->exaggeration >= CELL_TALL;
}

static void draw_ellipse(struct dots *d, const struct axis *a, enum raster_mode mode, const struct stroke *s,
	const struct spot p[3])
{
	const int pieces = 48;
	struct spot before = { p[0].x + p[1].x, p[0].y + p[1].y };

	for (int i = 1; i <= pieces; i++) {
		double turn = 2 * 3.14159265358979323846 * i / pieces, c = cos(turn), n = sin(turn);
		struct spot next = { p[0].x + p[1].x * c + p[2].x * n, p[0].y + p[1].y * c + p[2].y * n };
		draw_piece(d, a, mode, s, before, next);
		before = next;
	}
}

static void draw_stroke(struct dots *d, const struct axis *a, enum raster_mode mode,
	const struct scene *scene, const struct stroke *s)
{
	const struct spot *p = &scene->points[s->first];

	switch (s->kind) {
	case STROKE_LINE:
		for (size_t i = 1; i < s->count && apart(a, s); i++)
			draw_piece(d, a, mode, s, p[i - 1], p[i]);
		break;
	case STROKE_BOX:
		draw_piece(d, a, mode, s, p[0], (struct spot){ p[1].x, p[0].y });
		draw_piece(d, a, mode, s, (struct spot){ p[1].x, p[0].y }, p[1]);
		draw_piece(d, a, mode, s, p[1], (struct spot){ p[0].x, p[1].y });
		draw_piece(d, a, mode, s, (struct spot){ p[0].x, p[1].y }, p[0]);
		break;
	case STROKE_ELLIPSE:
		draw_ellipse(d, a, mode, s, p);
		break;
	case STROKE_MARK:
	case STROKE_TEXT:
		break;
	}
}

/* The dots of one cell, as a character. Braille patterns: The Unicode Standard, U+2800: dots 1-2-3-7 down the
 * left, 4-5-6-8 down the right, dot n is bit n-1. */
static unsigned glyph(const unsigned char *dots, size_t pitch, enum raster_mode mode, enum meaning m)
{
	static const unsigned bits[4][2] = { { 0x01, 0x08 }, { 0x02, 0x10 }, { 0x04, 0x20 }, { 0x40, 0x80 } };
	unsigned pattern = 0;

	if (mode == RASTER_PLAIN)
		return (unsigned)sb_scene_plain(m);
	if (mode == RASTER_BLOCKS) {
		bool top = dots[0] != MEANING_NONE, bottom = dots[pitch] != MEANING_NONE;
		return top && bottom ? 0x2588 : top ? 0x2580 : 0x2584;
	}
	for (size_t y = 0; y < 4; y++)
		for (size_t x = 0; x < 2; x++)
			if (dots[y * pitch + x] != MEANING_NONE)
				pattern |= bits[y][x];
	return 0x2800 + pattern;
}

static void dots_to_cells(const struct dots *d, enum raster_mode mode, struct raster *out)
{
	size_t pitch = (size_t)d->width, across = (size_t)grains[mode].across,
	       down = (size_t)grains[mode].down;

	for (size_t i = 0; i < (size_t)out->width * (size_t)out->height; i++) {
		size_t column = i % (size_t)out->width, row = i / (size_t)out->width;
		const unsigned char *first = &d->meaning[row * down * pitch + column * across];
		unsigned char most = MEANING_NONE;
		for (size_t k = 0; k < across * down; k++) {
			unsigned char one = first[k / across * pitch + k % across];
			most = one > most ? one : most;
		}
		out->cells[i] = (struct raster_cell){ .code = ' ' };
		if (most != MEANING_NONE)
			out->cells[i] = (struct raster_cell){
				.code = glyph(first, pitch, mode, (enum meaning)most),
				.meaning = (enum meaning)most,
			};
	}
}

static void draw_lines(
	const struct scene *scene, const struct axis *a, enum raster_mode mode, struct raster *out)
{
	struct dots d = { .meaning = out->dots, .room = out->dot_room, .patterns = mode != RASTER_PLAIN };

	sb_dots_start(&d, out->width * grains[mode].across, out->height * grains[mode].down);
	d.clip.low.x = a->paper.left * grains[mode].across;
	d.clip.high.x = (a->paper.left + a->paper.width) * grains[mode].across;
	d.clip.low.y = a->paper.top * grains[mode].down / CELL_TALL;
	d.clip.high.y = (a->paper.top + a->paper.height) * grains[mode].down / CELL_TALL;
	for (size_t i = 0; i < scene->stroke_count; i++)
		draw_stroke(&d, a, mode, scene, &scene->strokes[i]);
	dots_to_cells(&d, mode, out);
	out->dots = d.meaning;
	out->dot_room = d.room;
}

/* --- marks and words --- */

/* The part of the raster inside the scale, in cells; high is past the end. */
struct inside {
	int left, top, right, bottom;
};

static struct inside inside_of(const struct axis *a, const struct raster *r)
{
	int right = (int)(a->paper.left + a->paper.width),
	    bottom = (int)((a->paper.top + a->paper.height) / CELL_TALL);

	return (struct inside){ (int)a->paper.left, (int)(a->paper.top / CELL_TALL),
		right < r->width ? right : r->width, bottom < r->height ? bottom : r->height };
}

/* The cell of a point; false when it is not inside. The far edges belong to the last column and row. */
static bool find_cell(const struct axis *a, const struct inside *in, struct spot p, int *column, int *row)
{
	double across = sb_axis_x(a, p.x), down = sb_axis_y(a, p.y) / CELL_TALL;
	double x = floor(across) - (across == in->right), y = floor(down) - (down == in->bottom);

	if (!(x >= in->left && x < in->right && y >= in->top && y < in->bottom))
		return false;
	*column = (int)x;
	*row = (int)y;
	return true;
}

static void draw_marks(
	const struct scene *scene, const struct axis *a, const struct inside *in, struct raster *out)
{
	int column, row;

	for (size_t i = 0; i < scene->stroke_count; i++) {
		const struct stroke *s = &scene->strokes[i];
		if (s->kind != STROKE_MARK || !find_cell(a, in, scene->points[s->first], &column, &row))
			continue;
		struct raster_cell *c = cell(out, column, row);
		if (c->written && c->meaning > s->meaning)
			continue;
		char plain = s->meaning == MEANING_DESIGN ? '+' : sb_scene_plain(s->meaning);
		*c = (struct raster_cell){ (unsigned)plain, s->meaning, true };
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
		*cell(r, column + i, row) = (struct raster_cell){ code, m, true };
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
		const struct raster_cell *c = cell(r, column + i, row);
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
	int room = in->right - in->left, most = room / 3 > 16 ? room / 3 : 16;
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

/* --- scale --- */

static void draw_scale(const struct axis *a, const struct inside *in, struct raster *out)
{
	struct tick ticks[SB_AXIS_TICKS];
	size_t count = ticks_up(a, ticks);
	int free_from = in->left;

	for (size_t i = 0; i < count; i++) {
		int row = (int)floor(ticks[i].paper / CELL_TALL), columns = (int)strlen(ticks[i].text);
		if (row >= in->top && row < in->bottom && columns < in->left)
			write_text(out, in->left - 1 - columns, row, ticks[i].text, columns, MEANING_TICK,
				RASTER_PLAIN);
	}
	count = ticks_across(a, ticks);
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
	if (scaled || a->exaggeration > 1)
		write_text(out, 0, scaled ? in->bottom : 0, text, columns, MEANING_TICK, RASTER_PLAIN);
}

void sb_braille_draw(
	const struct scene *scene, const struct axis *axis, enum raster_mode mode, struct raster *out)
{
	struct inside in = inside_of(axis, out);

	draw_lines(scene, axis, mode, out);
	draw_marks(scene, axis, &in, out);
	draw_texts(scene, axis, &in, mode, out);
	if (in.bottom < out->height)
		draw_scale(axis, &in, out);
	draw_exaggeration(axis, &in, out);
}

/* --- text --- */

static void add_code(struct sb_str *out, unsigned code)
{
	char bytes[4];
	size_t count = 0;

	if (code < 0x80) {
		bytes[count++] = (char)code;
	} else if (code < 0x800) {
		bytes[count++] = (char)(0xC0 | code >> 6);
		bytes[count++] = (char)(0x80 | (code & 0x3F));
	} else if (code < 0x10000) {
		bytes[count++] = (char)(0xE0 | code >> 12);
		bytes[count++] = (char)(0x80 | (code >> 6 & 0x3F));
		bytes[count++] = (char)(0x80 | (code & 0x3F));
	} else {
		bytes[count++] = (char)(0xF0 | code >> 18);
		bytes[count++] = (char)(0x80 | (code >> 12 & 0x3F));
		bytes[count++] = (char)(0x80 | (code >> 6 & 0x3F));
		bytes[count++] = (char)(0x80 | (code & 0x3F));
	}
	sb_str_append(out, bytes, count);
}

void sb_braille_text(const struct raster *r, struct sb_str *out)
{
	for (int row = 0; row < r->height; row++) {
		int last = r->width;
		while (last > 0 && sb_braille_cell(r, last - 1, row)->code == ' ')
			last--;
		for (int column = 0; column < last; column++)
			add_code(out, sb_braille_cell(r, column, row)->code);
		sb_str_append(out, "\n", 1);
	}
}

/* A piece of line as it is drawn, one dash and gap long: six dots. */
static void add_sample(const struct stroke *s, enum raster_mode mode, struct sb_str *out)
{
	int cells = 6 / grains[mode].across;
	struct raster r = { 0 };
	struct scene scene;
	struct axis a = { .paper = { 0, 0, cells, CELL_TALL },
		.view = { { 0, 0 }, { cells, 2 } },
		.scale = 1,
		.exaggeration = 1 };

	sb_scene_init(&scene);
	sb_braille_resize(&r, cells, 1);
	sb_scene_line(&scene, s->meaning, s->line);
	sb_scene_point(&scene, 0, 1);
	sb_scene_point(&scene, cells, 1);
	draw_lines(&scene, &a, mode, &r);
	if (mode == RASTER_PLAIN)
		cells = 1;
	while (cells > 1 && sb_braille_cell(&r, cells - 1, 0)->code == ' ')
		cells--;
	for (int i = 0; i < cells; i++)
		add_code(out, sb_braille_cell(&r, i, 0)->code);
	sb_braille_clear(&r);
	sb_scene_clear(&scene);
}

void sb_braille_legend(const struct scene *scene, enum raster_mode mode, struct sb_str *out)
{
	for (int m = MEANINGS - 1; m > MEANING_NONE; m--)
		for (size_t i = 0; i < scene->stroke_count; i++) {
			const struct stroke *s = &scene->strokes[i];
			if ((int)s->meaning != m || s->kind == STROKE_TEXT)
				continue;
			if (out->length > 0)
				sb_str_add(out, "  ");
			if (s->kind == STROKE_MARK)
				add_code(out,
					(unsigned)(m == MEANING_DESIGN ? '+' : sb_scene_plain(s->meaning)));
			else
				add_sample(s, mode, out);
			sb_str_add(out, " %s", sb_scene_word(s->meaning));
			break;
		}
}
