/* Along the bore: the pull force by the place of the head, within its band; or one check, as drilled beside
 * the design. */
#include "base/measure.h"
#include "base/mem.h"
#include "draw/along.h"
#include "draw/axis.h"
#include "ui/chart.h"
#include "ui/stress.h"

#include <math.h>
#include <stdio.h>

/* The check of each picture after the first, the one that is asked for most first. */
static const enum pipe_check checks[PIPE_CHECKS] = { CHECK_TENSION_BENDING, CHECK_BENDING, CHECK_HOOP,
	CHECK_TENSION, CHECK_ALL };

enum value { VALUE_FORCE, VALUE_LOW, VALUE_HIGH, VALUE_CHECK };

struct lines {
	const struct job *job;
	struct along_line list[6];
	const char *names[6]; /* written beside it; "" none */
	struct along_point *points[6];
	size_t count;
};

static double value_of(const struct load_station *s, enum value value, int check)
{
	switch (value) {
	case VALUE_FORCE:
		return s->force_n;
	case VALUE_LOW:
		return s->low_n;
	case VALUE_HIGH:
		return s->high_n;
	case VALUE_CHECK:
		break;
	}
	return s->ratio[check];
}

static struct along_point *add(
	struct lines *l, enum meaning meaning, enum line_kind kind, const char *name, size_t count)
{
	struct along_point *points = sb_alloc(count * sizeof *points);

	l->points[l->count] = points;
	l->names[l->count] = name;
	l->list[l->count++] =
		(struct along_line){ .meaning = meaning, .line = kind, .points = points, .count = count };
	return points;
}

static void add_load(struct lines *l, const struct pipe_load *load, enum value value, int check,
	enum meaning meaning, enum line_kind kind, const char *name)
{
	struct along_point *points = add(l, meaning, kind, name, load->count);

	for (size_t i = 0; i < load->count; i++) {
		double one = value_of(&load->stations[i], value, check);
		points[i] = (struct along_point){ load->stations[i].station_m,
			value == VALUE_CHECK ? one : sb_measure_typed(l->job->unit, MEASURE_FORCE, one) };
	}
}

static void add_limit(struct lines *l, const struct pipe_load *load, double limit, const char *name)
{
	struct along_point *points = add(l, MEANING_LIMIT, LINE_DASHED, name, 2);

	points[0] = (struct along_point){ load->stations[0].station_m, limit };
	points[1] = (struct along_point){ load->stations[load->count - 1].station_m, limit };
}

static void take_force(struct lines *l, const struct stress_state *s)
{
	const struct pipe_load *drilled = &s->loads.drilled;

	if (drilled->given.safe_n > 0)
		add_limit(l, drilled, sb_measure_typed(l->job->unit, MEASURE_FORCE, drilled->given.safe_n),
			"safe force");
	add_load(l, drilled, VALUE_LOW, 0, MEANING_DOUBT, LINE_SOLID, "low");
	add_load(l, drilled, VALUE_HIGH, 0, MEANING_DOUBT, LINE_SOLID, "high");
	add_load(l, drilled, VALUE_FORCE, 0, MEANING_ESTIMATE, LINE_HEAVY, "estimate");
}

static void take_check(struct lines *l, const struct stress_state *s, int check)
{
	add_limit(l, &s->loads.drilled, 1, "allowed");
	add_load(l, &s->loads.design, VALUE_CHECK, check, MEANING_DESIGN, LINE_SOLID, "design");
	add_load(l, &s->loads.drilled, VALUE_CHECK, check, MEANING_DRILLED, LINE_HEAVY, "drilled");
}

/* Each name stands by its line, one after the other along the bore so that none hides another. */
static void write_names(struct scene *scene, const struct lines *l)
{
	for (size_t i = 0; i < l->count; i++) {
		const struct along_line *line = &l->list[i];
		size_t at = line->count > 2 ? (line->count - 1) * (i + 1) / (l->count + 2) : line->count - 1;
		struct along_point p = line->points[at];
		sb_scene_text(scene, MEANING_LABEL, at + 1 == line->count ? ANCHOR_LEFT : ANCHOR_ABOVE,
			(struct spot){ p.station_m, p.value }, l->names[i]);
	}
}

static void draw_lines(const struct view *v, const struct stress_state *s, const struct lines *l,
	const char *unit, struct cells *out)
{
	const struct pipe_load *load = &s->loads.drilled;
	struct scene scene;

	sb_scene_init(&scene);
	sb_along_scene(load->stations[0].station_m, load->stations[load->count - 1].station_m, unit, 0,
		l->list, l->count, v->job->unit, &scene);
	write_names(&scene, l);
	sb_chart_draw(&scene, v->glyphs, out);
	sb_scene_clear(&scene);
}

int sb_stress_pictures(const struct stress_state *s)
{
	return s->loads.drilled.given.steel ? SB_STRESS_PICTURES : SB_STRESS_PICTURES - 1;
}

void sb_stress_picture(const struct view *v, int picture, struct cells *out)
{
	const struct stress_state *s = v->state;
	struct lines l = { .job = v->job };
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
		take_check(&l, s, checks[picture - 1]);
	else
		take_force(&l, s);
	draw_lines(v, s, &l, unit, &part);
	for (size_t i = 0; i < l.count; i++)
		sb_free(l.points[i]);
}
