/* Values along the bore, each with its name beside it: without colours nothing else tells them apart. */
#include "ui/curves.h"

#include "base/mem.h"
#include "ui/chart.h"

#include <math.h>
#include <string.h>

struct along_point *sb_curves_add(
	struct curves *c, enum meaning meaning, enum line_kind kind, const char *name, size_t count)
{
	struct along_point *points = sb_alloc((count + 1) * sizeof *points);

	c->points[c->count] = points;
	c->names[c->count] = name;
	c->lines[c->count++] =
		(struct along_line){ .meaning = meaning, .line = kind, .points = points, .count = count };
	return points;
}

struct along_point *sb_curves_marks(struct curves *c, enum meaning meaning, const char *name, size_t count)
{
	struct along_point *points = sb_curves_add(c, meaning, LINE_SOLID, name, count);

	c->lines[c->count - 1].marks = true;
	return points;
}

/* The point that a name stands at: each line's further along the bore, so that none hides another. */
static const struct along_point *named_at(const struct curves *c, size_t line)
{
	const struct along_line *l = &c->lines[line];
	size_t at = l->count > 2 ? l->count * (line + 1) / (c->count + 2) : l->count - 1;

	for (size_t i = at; i < l->count; i++)
		if (isfinite(l->points[i].value))
			return &l->points[i];
	for (size_t i = at; i-- > 0;)
		if (isfinite(l->points[i].value))
			return &l->points[i];
	return NULL;
}

static void write_names(const struct curves *c, double most, double to_m, struct scene *scene)
{
	for (size_t i = 0; i < c->count; i++) {
		const struct along_point *p = c->lines[i].count ? named_at(c, i) : NULL;
		if (p == NULL)
			continue;
		double y = most > 0 ? fmin(p->value, most) : p->value;
		sb_scene_text(scene, MEANING_LABEL, p->station_m < to_m ? ANCHOR_ABOVE : ANCHOR_LEFT,
			(struct spot){ p->station_m, y }, c->names[i]);
	}
}

void sb_curves_draw(const struct curves *c, double from_m, double to_m, const char *unit, double most,
	enum unit length, enum glyphs glyphs, struct cells *out)
{
	struct scene scene;

	sb_scene_init(&scene);
	sb_along_scene(from_m, to_m, unit, most, c->lines, c->count, length, &scene);
	write_names(c, most, to_m, &scene);
	sb_chart_draw(&scene, glyphs, out);
	sb_scene_clear(&scene);
}

void sb_curves_clear(struct curves *c)
{
	for (size_t i = 0; i < c->count; i++)
		sb_free(c->points[i]);
	memset(c, 0, sizeof *c);
}
