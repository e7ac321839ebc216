/* Radii as they were solved, turned over. A window's figure stands at its end, where it was first known.
 */
#include "draw/bends.h"

#include "base/mem.h"
#include "draw/plane.h"
#include "model/nonconformance.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

static double curvature(double radius_m)
{
	return radius_m > 0 ? 1 / radius_m : HUGE_VAL;
}

static void step(struct scene *out, double from, double to, double y)
{
	sb_scene_point(out, from, y);
	sb_scene_point(out, to, y);
}

static void draw_limit(const struct plane *p, const struct number *radius, enum line_kind line)
{
	if (!sb_number_given(radius) || !(radius->value > 0))
		return;
	double y = curvature(sb_frame_metres(&p->s->frame, radius->value));
	sb_scene_line(p->scene, MEANING_LIMIT, line);
	step(p->scene, p->window.from_m, p->window.to_m, y);
	sb_scene_see(p->scene, p->window.from_m, y);
	sb_scene_see(p->scene, p->window.to_m, 0);
}

static int ascending(const void *a, const void *b)
{
	double x = *(const double *)a, y = *(const double *)b;

	return (x > y) - (x < y);
}

/* Between two neighbouring ends of curves the design's bend is told by its middle. */
static void draw_design(const struct plane *p)
{
	const struct design *d = &p->s->design;
	size_t count = 0;
	double *ends = sb_alloc((d->alignment_count + d->profile_count + 1) * sizeof *ends);

	for (size_t i = 0; i < d->alignment_count; i++)
		ends[count++] = d->alignment[i].at;
	for (size_t i = 0; i < d->profile_count; i++)
		ends[count++] = d->profile[i].x;
	ends[count++] = d->length_m;
	qsort(ends, count, sizeof *ends, ascending);
	sb_scene_line(p->scene, MEANING_DESIGN, LINE_DASHED);
	for (size_t i = 1; i < count; i++) {
		double from = fmax(ends[i - 1], p->window.from_m), to = fmin(ends[i], p->window.to_m);
		if (to > from)
			step(p->scene, from, to, curvature(sb_design_at(d, from + (to - from) / 2).radius_m));
	}
	sb_free(ends);
}

static void draw_drilled(const struct plane *p, bool window)
{
	const struct path *path = &p->s->path;

	sb_scene_line(p->scene, window ? MEANING_DRILLED : MEANING_JOINT, window ? LINE_HEAVY : LINE_SOLID);
	for (size_t i = 1; i < path->on_count; i++) {
		const struct row *row = &path->rows[path->on_path[i]],
				 *before = &path->rows[path->on_path[i - 1]];
		double to = row->deviation.station_m,
		       y = curvature(window ? row->window.radius_m : row->radius_m);
		if (!sb_plane_near(p, to) || (window && row->window.joints == 0))
			continue;
		if (window)
			sb_scene_point(p->scene, to, y);
		else
			step(p->scene, before->deviation.station_m, to, y);
		if (to >= p->window.from_m && to <= p->window.to_m)
			sb_scene_see(p->scene, to, y);
	}
}

static void draw_breaches(const struct plane *p)
{
	struct nonconformance *list;
	size_t count = sb_nonconformances(p->job, p->s, &list);

	for (size_t i = 0; i < count; i++) {
		const struct warning *w = list[i].warning;
		const struct row *row = sb_warning_row(&p->s->path, w);
		char text[16];
		if (row == NULL || (w->kind != WARNING_JOINT_BEND && w->kind != WARNING_WINDOW_BEND))
			continue;
		double radius = w->kind == WARNING_JOINT_BEND ? row->radius_m : row->window.radius_m;
		struct spot at = { row->deviation.station_m, curvature(radius) };
		if (!sb_plane_near(p, at.x))
			continue;
		snprintf(text, sizeof text, "%d", list[i].number);
		sb_scene_mark(p->scene, MEANING_NONCONFORMANCE, at);
		sb_scene_text(p->scene, MEANING_NONCONFORMANCE, ANCHOR_UPON, at, text);
		sb_scene_see(p->scene, at.x, at.y);
	}
	sb_free(list);
}

void sb_bends_scene(
	const struct job *job, const struct solution *s, const struct draw_window *window, struct scene *out)
{
	struct plane p = { PLANE_HEIGHT, job, s, sb_window_sound(window, s), out };

	sb_scene_reset(out);
	out->across = QUANTITY_STATION;
	out->up = QUANTITY_BEND;
	out->unit = job->unit;
	out->exaggerated = HUGE_VAL;
	sb_scene_see(out, p.window.from_m, 0);
	sb_scene_see(out, p.window.to_m, 0);
	draw_limit(&p, &job->joint_minimum, LINE_DASHED);
	draw_limit(&p, &job->window_minimum, LINE_SOLID);
	if (s->design.alignment_count == 0 || s->design.profile_count == 0)
		return;
	draw_design(&p);
	draw_drilled(&p, false);
	draw_drilled(&p, true);
	if (p.window.detailed)
		draw_breaches(&p);
}
