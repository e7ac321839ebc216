/* Annular pressure along the bore while the pilot is drilled, the hole is opened or the pipe is pulled in:
 * what the ground is estimated to bear, the contract's share of it, the estimate, and what was measured. */
#include "draw/axis.h"
#include "ui/curves.h"
#include "ui/fluid.h"

#include <math.h>
#include <stdio.h>

enum value { VALUE_LIMIT, VALUE_WATCH, VALUE_ESTIMATE, VALUE_MEASURED };

static double value_of(const struct fluid_view *v, const struct annular *a, enum value value)
{
	double limit = a->formation.known == FORMATION_KNOWN ? a->formation.limit.limit_pa : (double)NAN;

	switch (value) {
	case VALUE_LIMIT:
		return sb_fluid_view_pressure(v, limit);
	case VALUE_WATCH:
		return sb_fluid_view_pressure(v, limit * v->job->fluid_watch.value);
	case VALUE_ESTIMATE:
		return sb_fluid_view_pressure(v, a->estimate.total_pa);
	case VALUE_MEASURED:
		break;
	}
	return sb_fluid_view_pressure(v, a->measured_pa);
}

static void fill(const struct fluid_view *v, const struct fluid_line *line, enum value value,
	struct along_point *points)
{
	for (size_t i = 0; i < line->count; i++) {
		const struct annular *a = &line->points[i].annular;
		points[i] = (struct along_point){ a->place.station_m, value_of(v, a, value) };
	}
}

/* What the ground bears deep down may be many times the pressure, which must not become a line at the foot.
 * 0: nothing is cut. */
static double top_of(const struct along_line *pressures, size_t count)
{
	double most = 0;

	for (size_t k = 0; k < count; k++)
		for (size_t i = 0; i < pressures[k].count; i++)
			most = fmax(most, pressures[k].points[i].value); /* passes NAN over */
	return 2 * most;
}

static void draw_line(const struct view *v, const struct fluid_line *line, struct cells *out)
{
	const struct fluid_state *s = v->state;
	struct curves c = { .count = 0 };
	double from = line->points[0].annular.place.station_m,
	       to = line->points[line->count - 1].annular.place.station_m;

	fill(&s->view, line, VALUE_LIMIT, sb_curves_add(&c, MEANING_LIMIT, LINE_SOLID, "limit", line->count));
	fill(&s->view, line, VALUE_WATCH,
		sb_curves_add(&c, MEANING_DOUBT, LINE_DASHED, "watch", line->count));
	fill(&s->view, line, VALUE_ESTIMATE,
		sb_curves_add(&c, MEANING_ESTIMATE, LINE_HEAVY, "estimate", line->count));
	fill(&s->view, line, VALUE_MEASURED, sb_curves_marks(&c, MEANING_MEASURED, "measured", line->count));
	if (top_of(c.lines, c.count) > 0)
		sb_curves_draw(&c, from, to, sb_fluid_view_unit(&s->view), top_of(c.lines + 2, 2),
			v->job->unit, v->glyphs, out);
	else
		sb_cells_text(out, 0, 1, STYLE_PLAIN, "Nothing is known that could be drawn.");
	sb_curves_clear(&c);
}

void sb_fluid_picture(const struct view *v, int stage, struct cells *out)
{
	const struct fluid_state *s = v->state;
	const struct fluid_line *line = &s->view.lines[stage];
	char title[128];

	if (out->rows < 4 || line->count < 2)
		return;
	snprintf(title, sizeof title, "%s: %s around the pipe; P: %s", line->stage.name,
		sb_fluid_view_unit(&s->view), sb_fluid_view_words[(stage + 1) % FLUID_STAGES]);
	sb_cells_rule(out, 0, title);
	struct cells part = sb_cells_part(out, 1, 0, out->rows - 1, out->columns);
	draw_line(v, line, &part);
}
