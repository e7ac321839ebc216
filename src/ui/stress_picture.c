/* Along the bore: the pull force by the place of the head, within its band; or one check, as drilled beside
 * the design. */
#include "base/measure.h"
#include "model/pullback.h"
#include "ui/curves.h"
#include "ui/stress.h"

#include <math.h>
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

/* What was measured, by the place of the head. */
static void add_measured(struct curves *c, const struct job *job, const struct pipe_load *load)
{
	struct pull_bands bands = { .line = load->line }; /* borrowed: nothing is asked of it but places */
	struct pullback p = { 0 };

	sb_pullback_take(job, &bands, &p);
	struct along_point *points = sb_curves_marks(c, MEANING_MEASURED, "measured", p.count);
	for (size_t i = 0; i < p.count; i++)
		points[i] = (struct along_point){ p.list[i].station_m,
			sb_measure_typed(job->unit, MEASURE_FORCE, p.list[i].force_n) };
	sb_pullback_clear(&p);
}

static double top_of(const struct pipe_load *load)
{
	double top = 0;

	for (size_t i = 0; i < load->count; i++)
		top = fmax(top, load->stations[i].high_n);
	return top;
}

/* Returned: what is drawn along the upper edge where it is higher; 0: nothing is. A safe force many times the
 * estimate must not press it to the foot of the picture. */
static double take_force(struct curves *c, const struct job *job, const struct pipe_load *load, char safe[64])
{
	const double room = 2;
	double limit = load->given.safe_n, top = room * top_of(load);
	bool cut = limit > top; /* false for NAN */
	char force[SB_LOAD_TEXT];

	snprintf(safe, 64, "safe force %s%s", sb_pipe_load_force(job->unit, limit, force),
		cut ? ", above" : "");
	if (limit > 0)
		add_limit(c, load, sb_measure_typed(job->unit, MEASURE_FORCE, limit), safe);
	add_load(c, job->unit, load, VALUE_LOW, MEANING_DOUBT, "low");
	add_load(c, job->unit, load, VALUE_HIGH, MEANING_DOUBT, "high");
	add_load(c, job->unit, load, VALUE_FORCE, MEANING_ESTIMATE, "estimate");
	add_measured(c, job, load);
	return cut ? sb_measure_typed(job->unit, MEASURE_FORCE, top) : 0;
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

static void draw(
	const struct view *v, const struct curves *c, const char *unit, double most, struct cells *out)
{
	const struct pipe_load *load = &((const struct stress_state *)v->state)->loads.drilled;

	sb_curves_draw(c, load->stations[0].station_m, load->stations[load->count - 1].station_m, unit, most,
		v->job->unit, v->glyphs, out);
}

static void draw_force(const struct view *v, struct cells *out)
{
	const struct stress_state *s = v->state;
	struct curves c = { .count = 0 };
	char safe[64];
	double most = take_force(&c, v->job, &s->loads.drilled, safe);

	draw(v, &c, sb_measure_unit(v->job->unit, MEASURE_FORCE), most, out);
	sb_curves_clear(&c);
}

static void draw_check(const struct view *v, enum pipe_check check, struct cells *out)
{
	const struct stress_state *s = v->state;
	struct curves c = { .count = 0 };

	take_check(&c, &s->loads, check);
	draw(v, &c, "", 0, out);
	sb_curves_clear(&c);
}

void sb_stress_picture(const struct view *v, int picture, struct cells *out)
{
	char title[96];

	if (out->rows < 4)
		return;
	if (picture)
		snprintf(title, sizeof title, "%s, share of what is allowed; P: the next picture",
			sb_pipe_check_words[checks[picture - 1]]);
	else
		snprintf(title, sizeof title,
			"pull force, %s, with the head at each station; P: the next picture",
			sb_measure_unit(v->job->unit, MEASURE_FORCE));
	sb_cells_rule(out, 0, title);
	struct cells part = sb_cells_part(out, 1, 0, out->rows - 1, out->columns);
	if (picture)
		draw_check(v, checks[picture - 1], &part);
	else
		draw_force(v, &part);
}
