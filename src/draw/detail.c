/* Marks and their names beside the strokes that a screen has as well. Everything is looked for in the window
 * alone, so a sheet of a long bore costs what is on it.
 */
#include "draw/detail.h"

#include "base/mem.h"
#include "draw/axis.h"
#include "model/nonconformance.h"

#include <math.h>
#include <stdio.h>

#define NAMED_JOINT 5 /* each so many has its number */

static void named(const struct plane *p, enum meaning m, enum anchor anchor, struct spot at, const char *text)
{
	sb_scene_mark(p->scene, m, at);
	sb_scene_text(p->scene, m, anchor, at, text);
}

static void draw_joints(const struct plane *p)
{
	const struct path *path = &p->s->path;

	for (size_t i = 1; i < path->on_count; i++) {
		const struct row *row = &path->rows[path->on_path[i]];
		char text[16];
		if (!sb_plane_near(p, row->deviation.station_m))
			continue;
		snprintf(text, sizeof text, "%d", row->joint);
		sb_scene_mark(p->scene, MEANING_JOINT, sb_plane_row(p, row));
		if (row->joint % NAMED_JOINT == 0)
			sb_scene_text(p->scene, MEANING_JOINT, ANCHOR_BELOW, sb_plane_row(p, row), text);
	}
}

static void draw_fixes(const struct plane *p)
{
	const struct fixes *f = &p->s->fixes;

	for (size_t i = 0; i < f->count; i++) {
		double station = f->list[i].station_m;
		char text[32];
		if (f->list[i].standing != FIX_STANDS || !sb_plane_near(p, station))
			continue;
		snprintf(text, sizeof text, "fix %lld", (long long)f->list[i].fix);
		sb_scene_text(p->scene, MEANING_FIX, ANCHOR_ABOVE,
			sb_plane_ground(p, f->list[i].fixed, &station), text);
	}
}

static void name_withdrawn(const struct plane *p, const struct row *first, const struct row *last)
{
	char text[96];

	if (!last->on_path || !sb_plane_near(p, last->deviation.station_m))
		return;
	if (first->joint < last->joint)
		snprintf(text, sizeof text, "leg %d: joints %d to %d withdrawn", last->leg, first->joint,
			last->joint);
	else
		snprintf(text, sizeof text, "leg %d: joint %d withdrawn", last->leg, last->joint);
	sb_scene_text(p->scene, MEANING_SUPERSEDED, ANCHOR_ABOVE, sb_plane_row(p, last), text);
}

/* Each stretch at its last row. */
static void draw_withdrawn(const struct plane *p)
{
	const struct path *path = &p->s->path;

	for (size_t first = 0, i = 0; i < path->old_count; i++) {
		const struct row *row = &path->old[i];
		bool goes_on = i + 1 < path->old_count && row[1].leg == row->leg && row[1].joint > row->joint;
		if (goes_on)
			continue;
		name_withdrawn(p, &path->old[first], row);
		first = i + 1;
	}
}

/* Beside the line, only what is said of the place beside the line. */
static bool shown_here(const struct plane *p, enum warning_kind kind)
{
	return p->kind == PLANE_ELEVATION || p->kind == PLANE_MAP || kind == WARNING_CORRIDOR ||
		kind == WARNING_EXIT;
}

static void draw_breaches(const struct plane *p)
{
	struct nonconformance *list;
	size_t count = sb_nonconformances(p->job, p->s, &list);

	for (size_t i = 0; i < count; i++) {
		const struct warning *w = list[i].warning;
		const struct row *row = sb_warning_row(&p->s->path, w);
		char text[16];
		if (row == NULL || !shown_here(p, w->kind) || !sb_plane_near(p, row->deviation.station_m))
			continue;
		snprintf(text, sizeof text, "%d", list[i].number);
		named(p, MEANING_NONCONFORMANCE, ANCHOR_UPON, sb_plane_row(p, row), text);
	}
	sb_free(list);
}

/* A curve's ends and its radius, named on the side that it turns away from, where the line is not. */
static void draw_curve(const struct plane *p, double from_m, double to_m, double curvature)
{
	const char *const names[] = { "PC", "PT" };
	double metre = sb_unit_metres(p->job->unit), ends[] = { from_m, to_m };
	enum anchor away = curvature > 0 ? ANCHOR_BELOW : ANCHOR_ABOVE;
	char text[2 * SB_AXIS_TEXT + 16], station[SB_AXIS_TEXT];

	for (int i = 0; i < 2; i++) {
		if (!sb_plane_near(p, ends[i]))
			continue;
		struct spot at = sb_plane_beside(p, ends[i], 0, 0);
		sb_axis_station(ends[i], p->job->unit, 2, station);
		snprintf(text, sizeof text, "%s %s", names[i], station);
		if (p->kind == PLANE_ELEVATION)
			snprintf(text, sizeof text, "%s %s el %.2f", names[i], station,
				fabs(at.y / metre) < 0.005 ? 0 : at.y / metre);
		named(p, MEANING_DESIGN, away, at, text);
	}
	double middle = from_m + (to_m - from_m) / 2;
	if (!sb_plane_near(p, middle))
		return;
	snprintf(text, sizeof text, "R %.10g %s", round(100 / fabs(curvature) / metre) / 100,
		sb_unit_short(p->job->unit));
	sb_scene_text(p->scene, MEANING_DESIGN, away, sb_plane_beside(p, middle, 0, 0), text);
}

static void draw_curves(const struct plane *p)
{
	const struct design *d = &p->s->design;

	for (size_t i = 0; p->kind == PLANE_ELEVATION && i < d->profile_count; i++) {
		double to = i + 1 < d->profile_count ? d->profile[i + 1].x : d->length_m;
		if (d->profile[i].curvature != 0)
			draw_curve(p, d->profile[i].x, to, d->profile[i].curvature);
	}
	for (size_t i = 0; p->kind == PLANE_MAP && i < d->alignment_count; i++) {
		const struct chain_part *part = &d->alignment[i];
		if (part->curvature != 0) /* bearings grow clockwise: a curve to the right turns downwards */
			draw_curve(p, part->at, part->at + part->length, -part->curvature);
	}
}

/* How deep the top of the hole must lie, where cover is asked for and the ground is known. */
static void draw_cover(const struct plane *p)
{
	const struct surroundings *a = &p->s->around;

	for (size_t i = 0; i < a->range_count; i++) {
		const struct cover_range *r = &a->ranges[i];
		char text[64];
		double ground,
			middle = fmax(r->from_m, p->window.from_m) +
			(fmin(r->to_m, p->window.to_m) - fmax(r->from_m, p->window.from_m)) / 2;
		if (r->ground.count < 2)
			continue;
		sb_scene_line(p->scene, MEANING_LIMIT, LINE_DOTTED);
		for (size_t k = 0; k < r->ground.count; k++)
			sb_scene_point(
				p->scene, r->ground.points[k].x_m, r->ground.points[k].y_m - r->minimum_m);
		if (!sb_cover_ground(&r->ground, middle, &ground, NULL))
			continue;
		snprintf(text, sizeof text, "cover %.10g %s",
			round(sb_frame_typed(&p->s->frame, r->minimum_m) * 100) / 100,
			sb_unit_short(p->job->unit));
		sb_scene_text(p->scene, MEANING_LIMIT, ANCHOR_BELOW,
			(struct spot){ middle, ground - r->minimum_m }, text);
	}
}

void sb_detail_draw(const struct plane *p)
{
	if (!p->window.detailed)
		return;
	if (p->kind == PLANE_ELEVATION)
		draw_cover(p);
	if (p->kind == PLANE_ELEVATION || p->kind == PLANE_MAP) {
		draw_curves(p);
		draw_withdrawn(p);
		draw_joints(p);
		draw_fixes(p);
	}
	draw_breaches(p);
}
