/* Comparing pictures as text. */
#ifndef DRAW_PICTURE_H
#define DRAW_PICTURE_H

#include "draw/braille.h"
#include "support/near.h"

#include <string.h>

static inline void picture_text(
	const struct scene *scene, int width, int height, enum raster_mode mode, struct sb_str *out)
{
	struct raster r = { 0 };
	struct axis a;

	sb_raster_resize(&r, width, height);
	sb_braille_fit(scene, &r, &a);
	sb_braille_draw(scene, &a, mode, &r);
	sb_raster_text(&r, out);
	sb_raster_clear(&r);
}

static inline void picture_check(const struct scene *scene, int width, int height, enum raster_mode mode,
	const char *want, const char *file, int line)
{
	struct sb_str got = { 0 };

	picture_text(scene, width, height, mode, &got);
	if (strcmp(sb_str_get(&got), want) != 0) {
		print_error("got\n%swanted\n%s", sb_str_get(&got), want);
		sb_str_clear(&got);
		_fail(file, line);
	}
	sb_str_clear(&got);
}

/* want: the rows, each with its line end. */
#define assert_picture(scene, width, height, mode, want) \
	picture_check(scene, width, height, mode, want, __FILE__, __LINE__)

/* Whether the picture has the words somewhere. */
static inline bool picture_says(
	const struct scene *scene, int width, int height, enum raster_mode mode, const char *words)
{
	struct sb_str got = { 0 };

	picture_text(scene, width, height, mode, &got);
	bool found = strstr(sb_str_get(&got), words) != NULL;
	sb_str_clear(&got);
	return found;
}

/* The stroke of a meaning, counted from 0; NULL if there is none. */
static inline const struct stroke *picture_stroke(const struct scene *s, enum meaning m, size_t nth)
{
	for (size_t i = 0; i < s->stroke_count; i++)
		if (s->strokes[i].meaning == m && s->strokes[i].kind != STROKE_TEXT && nth-- == 0)
			return &s->strokes[i];
	return NULL;
}

static inline struct spot picture_point(const struct scene *s, const struct stroke *stroke, size_t i)
{
	assert_true(i < stroke->count);
	return s->points[stroke->first + i];
}

#endif
