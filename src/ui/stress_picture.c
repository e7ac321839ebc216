/* Along the bore: the pull force by the place of the head, within its band; or one check, as drilled beside
 * the design. */
#include "base/measure.h"
#include "ui/curves.h"
#include "ui/stress.h"

#include <stdio.h>

/* The check of each picture after the first, the one that is asked for most first. */
static const enum pipe_check checks[PIPE_CHECKS] = { CHECK_TENSION_BENDING, CHECK_BENDING, CHECK_HOOP,
	CHECK_TENSION, CHECK_ALL };

enum value { VALUE_FORCE, VALUE_LOW, VALUE_HIGH };

static double force_of(const struct load_station *s, enum value value)
{
	return value == VALUE_LOW ? s->low_n : value == VALUE_HIGH ? s->high_n : s->force_n;
}

static void add_load(struct curves *c, enum unit unit, const struct pipe_load *load, enum value value,
	enum meaning meaning, const char *name)
{
	enum line_kind kind = value == VALUE_FORCE ? LINE_HEAVY : LINE_SOLID;
	struct along_point *points = sb_curves_add(c, meaning, kind, name, load->count);

	for (size_t i = 0; i < load->count; i++)
		points[i] = (struct along_point){ load->stations[i].station_m,
			sb_measure_typed(unit, MEASURE_FORCE, force_of(&load->stations[i], value)) };
}

static void add_check(struct curves *c, const struct pipe_load *load, enum pipe_check check,
	enum meaning meaning, const char *name)
{
	enum line_kind kind = meaning == MEANING_DRILLED ? LINE_HEAVY : LINE_SOLID;
	struct along_point *points = sb_curves_add(c, meaning, kind, name, load->count);

	for (size_t i = 0; i < load->count; i++)
		points[i] =
			(struct along_point){ load->stations[i].station_m, load->stations[i].ratio[check] };
}

static void add_limit(struct curves *c, const struct pipe_load *load, double limit, const char *name)
{
	struct along_point *points = sb_curves_add(c, MEANING_LIMIT, LINE_DASHED, name, 2);

	points[0] = (struct along_point){ load->stations[0].station_m, limit };
	points[1] = (struct along_point){ load->stations[load->count - 1].station_m, limit };
}

static void take_force(struct curves *c, enum unit unit, const struct pipe_load *load)
{
	if (load->given.safe_n > 0)
		add_limit(c, load, sb_measure_typed(unit, MEASURE_FORCE, load->given.safe_n), "safe force");
	add_load(c, unit, load, VALUE_LOW, MEANING_DOUBT, "low");
	add_load(c, unit, load, VALUE_HIGH, MEANING_DOUBT, "high");
	add_load(c, unit, load, VALUE_FORCE, MEANING_ESTIMATE, "estimate");
}

static void take_check(struct curves *c, const struct pipe_loads *l, enum pipe_check check)
{
	add_limit(c, &l->drilled, 1, "allowed");
	add_check(c, &l->design, check, MEANING_DESIGN, "design");
	add_check(c, &l->drilled, check, MEANING_DRILLED, "drilled");
}

int sb_stress_pictures(const struct stress_state *s)
{
	return s->loads.drilled.given.steel ? SB_STRESS_PICTURES : SB_STRESS_PICTURES - 1;
}

void sb_stress_picture(const struct view *v, int picture, struct cells *out)
{
	const struct stress_state *s = v->state;
	const struct pipe_load *load = &s->loads.drilled;
	struct curves c = { .count = 0 };
	const char *unit = picture ? "" : sb_measure_unit(v->job->unit, MEASURE_FORCE);
	char title[96];

	if (out->rows < 4)
		return;
	if (picture)
		snprintf(title, sizeof title, "%s, share of what is allowed; P: the next picture",
			sb_pipe_check_words[checks[picture - 1]]);
	else
		snprintf(title, sizeof title,
			"pull force, %s, with the head at each station; P: the next picture", unit);
	sb_cells_rule(out, 0, title);
	struct cells part = sb_cells_part(out, 1, 0, out->rows - 1, out->columns);
	if (picture)
		take_check(&c, &s->loads, checks[picture - 1]);
	else
		take_force(&c, v->job->unit, load);
	sb_curves_draw(&c, load->stations[0].station_m, load->stations[load->count - 1].station_m, unit, 0,
		v->job->unit, v->glyphs, &part);
	sb_curves_clear(&c);
}
