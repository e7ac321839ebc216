/* Lines as they are given; what cannot be drawn breaks them. */
#include "draw/along.h"

#include "base/str.h"

#include <math.h>

static void add_point(struct scene *out, const struct along_point *p, double most, double from_m, double to_m)
{
	double y = most > 0 ? fmin(p->value, most) : p->value;

	sb_scene_point(out, p->station_m, y);
	if (p->station_m >= from_m && p->station_m <= to_m)
		sb_scene_see(out, p->station_m, y);
}

static void add_line(struct scene *out, const struct along_line *l, double most, double from_m, double to_m)
{
	bool drawing = false;

	for (size_t i = 0; i < l->count; i++) {
		const struct along_point *p = &l->points[i];
		if (!isfinite(p->station_m) || !isfinite(p->value)) {
			drawing = false;
			continue;
		}
		if (l->marks) {
			double y = most > 0 ? fmin(p->value, most) : p->value;
			sb_scene_mark(out, l->meaning, (struct spot){ p->station_m, y });
			sb_scene_see(out, p->station_m, y);
			continue;
		}
		if (!drawing)
			sb_scene_line(out, l->meaning, l->line);
		drawing = true;
		add_point(out, p, most, from_m, to_m);
	}
}

void sb_along_scene(double from_m, double to_m, const char *unit, double most, const struct along_line *lines,
	size_t count, enum unit length, struct scene *out)
{
	sb_scene_reset(out);
	out->across = QUANTITY_STATION;
	out->up = QUANTITY_VALUE;
	out->unit = length;
	sb_copy(out->value_unit, sizeof out->value_unit, unit);
	sb_scene_see(out, from_m, 0);
	sb_scene_see(out, to_m, 0);
	for (size_t i = 0; i < count; i++)
		add_line(out, &lines[i], most, from_m, to_m);
}
