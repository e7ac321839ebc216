/* Strokes in three growing arrays: points, strokes that own a run of them, and texts end to end. A whole
 * crossing is some hundred strokes and a few thousand points, so a frame costs no allocation once the
 * arrays have grown.
 */
#include "draw/scene.h"

#include "base/mem.h"
#include "base/str.h"

#include <assert.h>
#include <math.h>
#include <string.h>

static const struct {
	const char *word;
	char plain;
} meanings[MEANINGS] = {
#define SB_MEANING_ROW(name, word, plain) [MEANING_##name] = { word, plain },
	SB_MEANINGS(SB_MEANING_ROW)
#undef SB_MEANING_ROW
};

const char *sb_scene_word(enum meaning m)
{
	return meanings[m].word;
}

char sb_scene_plain(enum meaning m)
{
	return meanings[m].plain;
}

void sb_scene_init(struct scene *s)
{
	*s = (struct scene){ .exaggerated = 1 };
	sb_scene_reset(s);
}

void sb_scene_reset(struct scene *s)
{
	s->bare = false;
	s->view = (struct box){ { HUGE_VAL, HUGE_VAL }, { -HUGE_VAL, -HUGE_VAL } };
	s->point_count = s->stroke_count = s->text_count = 0;
}

void sb_scene_clear(struct scene *s)
{
	sb_free(s->points);
	sb_free(s->strokes);
	sb_free(s->texts);
	sb_scene_init(s);
}

static struct stroke *new_stroke(struct scene *s, enum stroke_kind kind, enum meaning m)
{
	s->strokes = sb_grow(s->strokes, s->stroke_count, &s->stroke_room, sizeof *s->strokes);
	struct stroke *stroke = &s->strokes[s->stroke_count++];
	*stroke = (struct stroke){ .kind = kind, .meaning = m, .first = s->point_count };
	return stroke;
}

size_t sb_scene_line(struct scene *s, enum meaning m, enum line_kind line)
{
	new_stroke(s, STROKE_LINE, m)->line = line;
	return s->stroke_count - 1;
}

void sb_scene_point(struct scene *s, double x, double y)
{
	assert(s->stroke_count > 0);
	s->points = sb_grow(s->points, s->point_count, &s->point_room, sizeof *s->points);
	s->points[s->point_count++] = (struct spot){ x, y };
	s->strokes[s->stroke_count - 1].count++;
}

void sb_scene_beside(struct scene *s, double metres)
{
	assert(s->stroke_count > 0);
	struct stroke *stroke = &s->strokes[s->stroke_count - 1];
	stroke->beside_m = fmax(stroke->beside_m, metres);
}

void sb_scene_box(struct scene *s, enum meaning m, enum line_kind line, struct spot a, struct spot b)
{
	new_stroke(s, STROKE_BOX, m)->line = line;
	sb_scene_point(s, a.x, a.y);
	sb_scene_point(s, b.x, b.y);
}

void sb_scene_ellipse(struct scene *s, enum meaning m, enum line_kind line, struct spot centre,
	struct spot half_axis, struct spot other_half_axis)
{
	new_stroke(s, STROKE_ELLIPSE, m)->line = line;
	sb_scene_point(s, centre.x, centre.y);
	sb_scene_point(s, half_axis.x, half_axis.y);
	sb_scene_point(s, other_half_axis.x, other_half_axis.y);
}

void sb_scene_mark(struct scene *s, enum meaning m, struct spot at)
{
	new_stroke(s, STROKE_MARK, m);
	sb_scene_point(s, at.x, at.y);
}

void sb_scene_text(struct scene *s, enum meaning m, enum anchor anchor, struct spot at, const char *text)
{
	size_t length = strlen(text);
	if (length == 0)
		return;
	struct stroke *stroke = new_stroke(s, STROKE_TEXT, m);
	stroke->anchor = anchor;
	stroke->text = s->text_count;
	for (size_t i = 0; i <= length; i++) {
		s->texts = sb_grow(s->texts, s->text_count, &s->text_room, 1);
		s->texts[s->text_count++] = text[i];
	}
	sb_utf8_tame(&s->texts[stroke->text]);
	sb_scene_point(s, at.x, at.y);
}

static struct spot turned(struct spot p, double cosine, double sine)
{
	return (struct spot){ p.x * cosine - p.y * sine, p.x * sine + p.y * cosine };
}

void sb_scene_turn(struct scene *s, double angle_rad, struct spot about)
{
	double cosine = cos(angle_rad), sine = sin(angle_rad);

	for (size_t i = 0; i < s->stroke_count; i++)
		for (size_t k = 0; k < s->strokes[i].count; k++) {
			struct spot *p = &s->points[s->strokes[i].first + k];
			bool is_axis = s->strokes[i].kind == STROKE_ELLIPSE && k > 0;
			struct spot from = is_axis ? (struct spot){ 0, 0 } : about;
			*p = turned((struct spot){ p->x - from.x, p->y - from.y }, cosine, sine);
			p->x += from.x;
			p->y += from.y;
		}
}

const char *sb_scene_text_get(const struct scene *s, const struct stroke *stroke)
{
	return stroke->kind == STROKE_TEXT ? &s->texts[stroke->text] : "";
}

static void see_height(struct scene *s, double y)
{
	if (!isfinite(y))
		return;
	s->view.low.y = fmin(s->view.low.y, y);
	s->view.high.y = fmax(s->view.high.y, y);
}

void sb_scene_see(struct scene *s, double x, double y)
{
	if (!isfinite(x) || !isfinite(y))
		return;
	s->view.low.x = fmin(s->view.low.x, x);
	s->view.high.x = fmax(s->view.high.x, x);
	see_height(s, y);
}

/* The part of a straight piece that lies between two x. A piece whose ends are not finite has none. */
static void see_piece(struct scene *s, struct spot a, struct spot b, double from, double to)
{
	if (a.x > b.x) {
		struct spot swap = a;
		a = b;
		b = swap;
	}
	if (!(a.x <= to && b.x >= from) || !isfinite(b.x - a.x))
		return;
	double slope = b.x > a.x ? (b.y - a.y) / (b.x - a.x) : 0;
	see_height(s, a.x < from ? a.y + (from - a.x) * slope : a.y);
	see_height(s, b.x > to ? a.y + (to - a.x) * slope : b.y);
}

void sb_scene_see_between(struct scene *s, enum meaning m, double from_x, double to_x)
{
	for (size_t i = 0; i < s->stroke_count; i++) {
		const struct stroke *stroke = &s->strokes[i];
		const struct spot *p = &s->points[stroke->first];
		if (stroke->meaning != m || stroke->kind == STROKE_TEXT || stroke->count == 0)
			continue;
		if (stroke->kind == STROKE_ELLIPSE) {
			double tall = hypot(p[1].y, p[2].y);
			double wide = hypot(p[1].x, p[2].x);
			see_piece(s, (struct spot){ p[0].x - wide, p[0].y - tall },
				(struct spot){ p[0].x + wide, p[0].y - tall }, from_x, to_x);
			see_piece(s, (struct spot){ p[0].x - wide, p[0].y + tall },
				(struct spot){ p[0].x + wide, p[0].y + tall }, from_x, to_x);
			continue;
		}
		if (stroke->count == 1)
			see_piece(s, p[0], p[0], from_x, to_x);
		for (size_t k = 1; k < stroke->count; k++)
			see_piece(s, p[k - 1], p[k], from_x, to_x);
	}
}

bool sb_scene_seen(const struct scene *s)
{
	return s->view.low.x <= s->view.high.x && s->view.low.y <= s->view.high.y;
}
