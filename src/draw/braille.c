/* From strokes to cells, in this order, each over the one before: dots of the lines; marks; texts, where they
 * cover least; the scale outside of it all.
 *
 * A cell has one colour, so it takes the meaning of the most important of its dots. A cell counts two paper
 * units high and one wide: terminal fonts are close to that, and there is no way to ask.
 */
#include "draw/braille.h"

#include "draw/dots.h"
#include "draw/overlay.h"
#include "geom/angle.h"

#include <math.h>
#include <string.h>

#define SCALE_COLUMNS 20 /* the least raster that gets a scale */
#define SCALE_ROWS 4

static const struct {
	int across, down; /* dots in a cell */
} grains[] = {
	[RASTER_BRAILLE] = { 2, 4 },
	[RASTER_BLOCKS] = { 1, 2 },
	[RASTER_PLAIN] = { 1, 1 },
};

static int margin_for(const struct axis *a)
{
	struct tick ticks[SB_AXIS_TICKS];
	size_t widest, count = sb_overlay_ticks_up(a, ticks);
	char exaggeration[SB_AXIS_TEXT];

	sb_axis_exaggeration(a, exaggeration);
	widest = strlen(exaggeration);
	for (size_t i = 0; i < count; i++)
		widest = strlen(ticks[i].text) > widest ? strlen(ticks[i].text) : widest;
	return (int)widest + 1;
}

void sb_braille_fit(const struct scene *scene, const struct raster *r, struct axis *out)
{
	bool scaled = r->width >= SCALE_COLUMNS && r->height >= SCALE_ROWS && !scene->bare;
	int rows = scaled ? r->height - 1 : r->height;
	struct paper paper = { 0, 0, r->width, rows * SB_CELL_TALL };

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

static struct spot to_dots(const struct axis *a, enum raster_mode mode, struct spot p)
{
	return (struct spot){ sb_axis_x(a, p.x) * grains[mode].across,
		sb_axis_y(a, p.y) * grains[mode].down / SB_CELL_TALL };
}

static void draw_piece(struct dots *d, const struct axis *a, enum raster_mode mode, const struct stroke *s,
	struct spot from, struct spot to)
{
	if (isfinite(from.x) && isfinite(from.y) && isfinite(to.x) && isfinite(to.y))
		sb_dots_line(d, to_dots(a, mode, from), to_dots(a, mode, to), s->meaning, s->line);
}

/* Whether a line that goes along another one is far enough from it to be told apart: three dots of braille.
 */
static bool apart(const struct axis *a, const struct stroke *s)
{
	return s->beside_m == 0 || s->beside_m * a->scale * a->exaggeration >= SB_CELL_TALL * 3 / 4;
}

static void draw_ellipse(struct dots *d, const struct axis *a, enum raster_mode mode, const struct stroke *s,
	const struct spot p[3])
{
	const int pieces = 48;
	struct spot before = { p[0].x + p[1].x, p[0].y + p[1].y };

	for (int i = 1; i <= pieces; i++) {
		double turn = 2 * SB_PI * i / pieces, c = cos(turn), n = sin(turn);
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
		return (unsigned char)sb_scene_plain(m);
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
	double across = grains[mode].across, down = grains[mode].down / SB_CELL_TALL;
	d.clip.low.x = fmax(d.clip.low.x, a->paper.left * across);
	d.clip.high.x = fmin(d.clip.high.x, (a->paper.left + a->paper.width) * across);
	d.clip.low.y = fmax(d.clip.low.y, a->paper.top * down);
	d.clip.high.y = fmin(d.clip.high.y, (a->paper.top + a->paper.height) * down);
	for (size_t i = 0; i < scene->stroke_count; i++)
		draw_stroke(&d, a, mode, scene, &scene->strokes[i]);
	dots_to_cells(&d, mode, out);
	out->dots = d.meaning;
	out->dot_room = d.room;
}

void sb_braille_draw(
	const struct scene *scene, const struct axis *axis, enum raster_mode mode, struct raster *out)
{
	draw_lines(scene, axis, mode, out);
	sb_overlay_draw(scene, axis, mode, out);
}

/* A piece of line as it is drawn, one dash and gap long: six dots. */
static void add_sample(const struct stroke *s, enum raster_mode mode, struct sb_str *out)
{
	int cells = 6 / grains[mode].across;
	struct raster r = { 0 };
	struct scene scene;
	struct axis a = { .paper = { 0, 0, cells, SB_CELL_TALL },
		.view = { { 0, 0 }, { cells, 2 } },
		.scale = 1,
		.exaggeration = 1 };

	sb_scene_init(&scene);
	sb_raster_resize(&r, cells, 1);
	sb_scene_line(&scene, s->meaning, s->line);
	sb_scene_point(&scene, 0, 1);
	sb_scene_point(&scene, cells, 1);
	draw_lines(&scene, &a, mode, &r);
	if (mode == RASTER_PLAIN)
		cells = 1;
	while (cells > 1 && sb_raster_cell(&r, cells - 1, 0)->code == ' ')
		cells--;
	for (int i = 0; i < cells; i++)
		sb_raster_add(out, sb_raster_cell(&r, i, 0)->code);
	sb_raster_clear(&r);
	sb_scene_clear(&scene);
}

void sb_braille_legend(const struct scene *scene, enum raster_mode mode, struct sb_str *out)
{
	for (int m = MEANINGS - 1; m > MEANING_NONE; m--)
		for (size_t i = 0; i < scene->stroke_count; i++) {
			const struct stroke *s = &scene->strokes[i];
			bool nothing = s->kind == STROKE_TEXT || (s->kind == STROKE_LINE && s->count < 2);
			if ((int)s->meaning != m || nothing)
				continue;
			if (out->length > 0)
				sb_str_add(out, "  ");
			if (s->kind == STROKE_MARK)
				sb_raster_add(out, sb_overlay_mark(s->meaning));
			else
				add_sample(s, mode, out);
			sb_str_add(out, " %s", sb_scene_word(s->meaning));
			break;
		}
}
