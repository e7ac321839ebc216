/* Pens as civil drawings have them: what was drilled is the heaviest line, the design a centre line of long
 * and short dashes, limits dashed, what was given up dashed and grey, what is doubtful dotted. Each can be
 * told from the others in black and white by its weight and dashes alone; grey only puts it farther back.
 */
#include "base/mem.h"
#include "base/str.h"
#include "geom/angle.h"

#include <math.h>

#include "drawing_parts.h"

#define ELLIPSE_PIECES 24

struct pen drawing_pen(enum meaning m, enum line_kind line)
{
	static const struct pen pens[MEANINGS] = {
		[MEANING_GROUND] = { 0.5, { 0.25, 0.25, 0.25 }, { 0 } },
		[MEANING_CORRIDOR] = { 0.25, { 0, 0, 0 }, { 2.4, 1.2 } },
		[MEANING_DOUBT] = { 0.18, { 0.2, 0.2, 0.2 }, { 0.25, 0.75 } },
		[MEANING_SUPERSEDED] = { 0.4, { 0.45, 0.45, 0.45 }, { 1.4, 0.9 } },
		[MEANING_DESIGN] = { 0.3, { 0, 0, 0 }, { 7, 1.2, 1.6, 1.2 } },
		[MEANING_OBSTACLE] = { 0.4, { 0, 0, 0 }, { 0 } },
		[MEANING_ESTIMATE] = { 0.3, { 0, 0, 0 }, { 0 } },
		[MEANING_LIMIT] = { 0.3, { 0, 0, 0 }, { 5, 1.4 } },
		[MEANING_DRILLED] = { 0.7, { 0, 0, 0 }, { 0 } },
		[MEANING_JOINT] = { 0.18, { 0, 0, 0 }, { 0 } },
	};
	struct pen pen = pens[m];

	if (m == MEANING_OBSTACLE && line == LINE_DOTTED)
		pen = (struct pen){ 0.18, { 0, 0, 0 }, { 0.9, 0.9 } };
	if (m == MEANING_CORRIDOR && line == LINE_SOLID) /* the window at the exit */
		pen.dash_mm[0] = 0;
	if (m == MEANING_LIMIT && line == LINE_DASHED)
		pen.dash_mm[0] = pen.dash_mm[1] = 1.2;
	if (m == MEANING_LIMIT && line == LINE_DOTTED) /* cover */
		pen = (struct pen){ 0.25, { 0, 0, 0 }, { 1.6, 0.7, 0.3, 0.7 } };
	if (m == MEANING_ESTIMATE && line == LINE_HEAVY)
		pen.width_mm = 0.7;
	if (m == MEANING_ESTIMATE && line == LINE_DASHED)
		pen.dash_mm[0] = 2.4, pen.dash_mm[1] = 0.9;
	if (m == MEANING_ESTIMATE && line == LINE_DOTTED)
		pen.dash_mm[0] = 0.4, pen.dash_mm[1] = 0.7;
	if (m == MEANING_DRILLED && line == LINE_SOLID) /* from the last reading to the bit */
		pen = (struct pen){ 0.7, { 0, 0, 0 }, { 0.9, 0.7 } };
	return pen;
}

/* How hard names try to keep off it. */
static int heavy(enum meaning m)
{
	return m == MEANING_DRILLED ? 9 : m == MEANING_DESIGN || m == MEANING_OBSTACLE ? 5 : 2;
}

static void mark_joint(struct sb_paper *p, struct spot at)
{
	const struct pen pen = { 0.18, SB_INK_BLACK, { 0 } };

	sb_paper_disc(p, SB_INK_WHITE, at, 0.55);
	sb_paper_ellipse(p, &pen, at, (struct spot){ 0.55, 0 }, (struct spot){ 0, 0.55 });
}

/* A triangle with a point in it, as surveyors mark their stations. */
static void mark_fix(struct sb_paper *p, struct spot at)
{
	const struct pen pen = { 0.3, SB_INK_BLACK, { 0 } };
	const struct spot corners[] = { { at.x, at.y - 1.6 }, { at.x + 1.4, at.y + 0.8 },
		{ at.x - 1.4, at.y + 0.8 }, { at.x, at.y - 1.6 } };

	sb_paper_area(p, SB_INK_WHITE, corners, 3);
	sb_paper_line(p, &pen, corners, 4);
	sb_paper_disc(p, SB_INK_BLACK, at, 0.3);
}

static void mark_end(struct sb_paper *p, struct spot at, bool entry)
{
	const struct pen pen = { 0.35, SB_INK_BLACK, { 0 } };

	sb_paper_disc(p, entry ? SB_INK_BLACK : SB_INK_WHITE, at, 1.3);
	sb_paper_ellipse(p, &pen, at, (struct spot){ 1.3, 0 }, (struct spot){ 0, 1.3 });
	if (!entry)
		sb_paper_disc(p, SB_INK_BLACK, at, 0.5);
}

static void mark_bit(struct sb_paper *p, struct spot at)
{
	const struct spot corners[] = { { at.x - 1.1, at.y }, { at.x, at.y - 1.1 }, { at.x + 1.1, at.y },
		{ at.x, at.y + 1.1 } };

	sb_paper_area(p, SB_INK_BLACK, corners, 4);
}

void drawing_mark(struct sb_paper *p, enum meaning m, struct spot at)
{
	const struct pen pen = { 0.3, SB_INK_BLACK, { 0 } };

	if (m == MEANING_JOINT || m == MEANING_MEASURED)
		mark_joint(p, at);
	else if (m == MEANING_FIX)
		mark_fix(p, at);
	else if (m == MEANING_ENTRY || m == MEANING_EXIT)
		mark_end(p, at, m == MEANING_ENTRY);
	else if (m == MEANING_BIT)
		mark_bit(p, at);
	else if (m == MEANING_DESIGN) /* a curve's end: a stroke across */
		sb_paper_stroke(p, &pen, at.x, at.y - 1.6, at.x, at.y + 1.6);
	else if (m == MEANING_NONCONFORMANCE) {
		sb_paper_stroke(p, &pen, at.x - 1, at.y - 1, at.x + 1, at.y + 1);
		sb_paper_stroke(p, &pen, at.x - 1, at.y + 1, at.x + 1, at.y - 1);
	}
}

static struct spot on_paper(const struct axis *a, struct spot s)
{
	return (struct spot){ sb_axis_x(a, s.x), sb_axis_y(a, s.y) };
}

static void draw_line(struct sb_paper *p, const struct scene *scene, const struct stroke *stroke,
	const struct axis *a, struct drawing_labels *labels)
{
	const struct pen pen = drawing_pen(stroke->meaning, stroke->line);
	struct spot *points = sb_alloc((stroke->count + 1) * sizeof *points);

	for (size_t i = 0; i < stroke->count; i++) {
		points[i] = on_paper(a, scene->points[stroke->first + i]);
		if (i > 0 && labels)
			drawing_labels_stroke(labels, points[i - 1], points[i], heavy(stroke->meaning));
	}
	sb_paper_line(p, &pen, points, stroke->count);
	sb_free(points);
}

/* Small rings keep a size that can be seen. */
static void draw_ellipse(struct sb_paper *p, const struct scene *scene, const struct stroke *stroke,
	const struct axis *a, struct drawing_labels *labels)
{
	const struct spot *points = &scene->points[stroke->first];
	const struct pen pen = drawing_pen(stroke->meaning, stroke->line);
	struct spot centre = on_paper(a, points[0]), half[2];

	for (int i = 0; i < 2; i++) {
		half[i] = (struct spot){ points[i + 1].x * a->scale,
			-points[i + 1].y * a->scale * a->exaggeration };
		double length = hypot(half[i].x, half[i].y);
		if (length > 0 && length < 0.4)
			half[i] = (struct spot){ half[i].x * 0.4 / length, half[i].y * 0.4 / length };
	}
	sb_paper_ellipse(p, &pen, centre, half[0], half[1]);
	for (int i = 0; i < ELLIPSE_PIECES && labels; i++) {
		struct spot ends[2];
		for (int k = 0; k < 2; k++) {
			double turn = (i + k) * (2 * SB_PI / ELLIPSE_PIECES);
			ends[k] = (struct spot){ centre.x + half[0].x * cos(turn) + half[1].x * sin(turn),
				centre.y + half[0].y * cos(turn) + half[1].y * sin(turn) };
		}
		drawing_labels_stroke(labels, ends[0], ends[1], heavy(stroke->meaning));
	}
}

/* Names keep off marks as far as they can: a mark that is half hidden is another mark. */
static void draw_mark(struct sb_paper *p, enum meaning m, struct spot at, struct drawing_labels *labels)
{
	double reach = m == MEANING_JOINT ? 0.5 : 1.4;

	drawing_mark(p, m, at);
	for (double y = -reach; y <= reach + 0.01 && labels; y += reach / 3)
		drawing_labels_stroke(labels, (struct spot){ at.x - reach, at.y + y },
			(struct spot){ at.x + reach, at.y + y }, m == MEANING_JOINT ? 9 : 60);
}

static void add_name(struct drawing_labels *labels, const struct scene *scene, const struct stroke *stroke,
	const struct axis *a)
{
	static const int weights[MEANINGS] = { [MEANING_NONCONFORMANCE] = 9,
		[MEANING_LABEL] = 8,
		[MEANING_OBSTACLE] = 7,
		[MEANING_FIX] = 6,
		[MEANING_SUPERSEDED] = 5,
		[MEANING_DESIGN] = 4,
		[MEANING_LIMIT] = 4,
		[MEANING_JOINT] = 2 };
	struct drawing_label label = { .as = { FACE_PLAIN, DRAWING_SMALL, HOLD_LEFT, 0, SB_INK_BLACK },
		.at = on_paper(a, scene->points[stroke->first]),
		.side = stroke->anchor,
		.weight = weights[stroke->meaning],
		.ringed = stroke->meaning == MEANING_NONCONFORMANCE };

	if (label.ringed || stroke->meaning == MEANING_LABEL)
		label.as.face = FACE_BOLD;
	sb_copy(label.text, sizeof label.text, sb_scene_text_get(scene, stroke));
	drawing_labels_add(labels, &label);
}

static bool is_left_out(const struct stroke *s, unsigned left_out)
{
	return (left_out >> s->meaning & 1u) != 0;
}

void drawing_scene(struct sb_paper *p, const struct scene *scene, const struct axis *a, unsigned left_out,
	struct drawing_labels *labels)
{
	sb_paper_clip(p, &a->paper);
	for (int m = 0; m < MEANINGS; m++) /* a later meaning hides an earlier one */
		for (size_t i = 0; i < scene->stroke_count; i++) {
			const struct stroke *s = &scene->strokes[i];
			if ((int)s->meaning != m || is_left_out(s, left_out))
				continue;
			if (s->kind == STROKE_LINE)
				draw_line(p, scene, s, a, labels);
			else if (s->kind == STROKE_ELLIPSE)
				draw_ellipse(p, scene, s, a, labels);
			else if (s->kind == STROKE_MARK)
				draw_mark(p, s->meaning, on_paper(a, scene->points[s->first]), labels);
		}
	sb_paper_unclip(p);
	for (size_t i = 0; i < scene->stroke_count && labels; i++) {
		const struct stroke *s = &scene->strokes[i];
		if (s->kind == STROKE_TEXT && !is_left_out(s, left_out))
			add_name(labels, scene, s, a);
	}
}
