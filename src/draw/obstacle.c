/* Obstacles come as rows; rows of one name are one line. There are a few, seldom a hundred.
 */
#include "draw/obstacle.h"

#include "base/str.h"
#include "geom/angle.h"

#include <math.h>
#include <stdio.h>

/* The flattest crossing that is drawn stretched: flatter ones would fill the picture. */
static const double flattest_rad = 15 * (SB_PI / 180);

/* One row as a place in the ground and beside the line. */
struct spot_on_line {
	struct vec3 at;
	double station_m, offset_m;
	double radius_m, keep_m; /* of the thing; of the thing and its clearance */
};

static bool place(const struct plane *p, size_t i, struct spot_on_line *out)
{
	const struct obstacle_point *o = &p->job->obstacles[i];
	const struct frame *f = &p->s->frame;

	out->at = sb_frame_ground(f, o->easting.value, o->northing.value, o->elevation.value);
	out->radius_m = sb_frame_metres(f, o->diameter.value) / 2;
	out->keep_m = out->radius_m + sb_frame_metres(f, o->clearance.value);
	out->station_m = 0;
	out->offset_m = sb_plane_offset(p, out->at, &out->station_m);
	return isfinite(out->station_m) && isfinite(out->offset_m) && isfinite(out->at.u);
}

/* The next row of the same name, or the count. */
static size_t next_of(const struct job *job, size_t i)
{
	size_t k = i + 1;

	while (k < job->obstacle_count && !sb_same(job->obstacles[k].name, job->obstacles[i].name))
		k++;
	return k;
}

static bool is_first(const struct job *job, size_t i)
{
	for (size_t k = 0; k < i; k++)
		if (sb_same(job->obstacles[k].name, job->obstacles[i].name))
			return false;
	return true;
}

static void ring(const struct plane *p, enum line_kind line, struct spot at, double wide, double tall)
{
	sb_scene_ellipse(
		p->scene, MEANING_OBSTACLE, line, at, (struct spot){ wide, 0 }, (struct spot){ 0, tall });
}

static void name(const struct plane *p, const char *text, struct spot at)
{
	sb_scene_text(p->scene, MEANING_OBSTACLE, ANCHOR_ABOVE, at, text);
}

/* "12 ft left: water main": what is not on the line says so, and first, for a long name is cut. */
static void name_aside(const struct plane *p, const char *text, struct spot at, double offset_m)
{
	char words[SB_NAME_TEXT + 40];

	snprintf(words, sizeof words, "%.0f %s %s: %s", fabs(sb_frame_typed(&p->s->frame, offset_m)),
		sb_unit_short(p->job->unit), offset_m < 0 ? "left" : "right", text);
	name(p, words, at);
}

static double elevation_in(const struct plane *p, double station_m, double elevation_m)
{
	if (p->kind == PLANE_ELEVATION)
		return elevation_m;
	const struct design *d = &p->s->design;
	return elevation_m - sb_chain_height(d->profile, d->profile_count, station_m).y;
}

/* Between two rows on either side of the line. */
static void crossing(
	const struct plane *p, const char *text, const struct spot_on_line *a, const struct spot_on_line *b)
{
	double t = a->offset_m / (a->offset_m - b->offset_m);
	double station = a->station_m + t * (b->station_m - a->station_m);
	double along = fabs(b->station_m - a->station_m), across = fabs(b->offset_m - a->offset_m);
	double stretch = 1 / fmax(across / hypot(along, across), sin(flattest_rad));
	double elevation = a->at.u + t * (b->at.u - a->at.u);
	struct spot at = { station, elevation_in(p, station, elevation) };

	if (!sb_plane_near(p, station))
		return;
	ring(p, LINE_SOLID, at, a->radius_m * stretch, a->radius_m);
	if (a->keep_m > a->radius_m)
		ring(p, LINE_DOTTED, at, a->keep_m * stretch, a->keep_m);
	name(p, text, at);
}

static void aside(const struct plane *p, const char *text, const struct spot_on_line *a)
{
	struct spot at = { a->station_m, elevation_in(p, a->station_m, a->at.u) };

	if (!sb_plane_near(p, a->station_m))
		return;
	bool on_line = fabs(a->offset_m) <= a->keep_m;
	ring(p, on_line ? LINE_SOLID : LINE_DOTTED, at, a->radius_m, a->radius_m);
	if (on_line)
		name(p, text, at);
	else
		name_aside(p, text, at, a->offset_m);
}

/* A line beside the bore that never crosses it: its own run, dotted, named at its nearest row. */
static void alongside(const struct plane *p, size_t first)
{
	const struct job *job = p->job;
	struct spot_on_line row, nearest = { .offset_m = HUGE_VAL };

	sb_scene_line(p->scene, MEANING_OBSTACLE, LINE_DOTTED);
	for (size_t i = first; i < job->obstacle_count; i = next_of(job, i)) {
		if (!place(p, i, &row))
			continue;
		sb_scene_point(p->scene, row.station_m, elevation_in(p, row.station_m, row.at.u));
		if (fabs(row.offset_m) < fabs(nearest.offset_m))
			nearest = row;
	}
	if (isfinite(nearest.offset_m) && sb_plane_near(p, nearest.station_m))
		name_aside(p, job->obstacles[first].name,
			(struct spot){ nearest.station_m, elevation_in(p, nearest.station_m, nearest.at.u) },
			nearest.offset_m);
}

static void upright(const struct plane *p, size_t first)
{
	const struct job *job = p->job;
	const char *text = job->obstacles[first].name;
	struct spot_on_line a, b;
	bool have = place(p, first, &a), crossed = false;

	if (next_of(job, first) >= job->obstacle_count) {
		if (have)
			aside(p, text, &a);
		return;
	}
	for (size_t i = next_of(job, first); i < job->obstacle_count; i = next_of(job, i)) {
		bool next = place(p, i, &b);
		if (have && next && (a.offset_m < 0) != (b.offset_m < 0)) {
			crossing(p, text, &a, &b);
			crossed = true;
		}
		a = b;
		have = next;
	}
	if (!crossed)
		alongside(p, first);
}

static struct spot seen_from_above(const struct plane *p, const struct spot_on_line *o)
{
	if (p->kind == PLANE_MAP)
		return (struct spot){ o->at.e, o->at.n };
	return (struct spot){ o->station_m, -o->offset_m };
}

/* Where a line is named: where it crosses the alignment, else at its row nearest to it. */
static void nearer(
	struct spot_on_line *best, const struct spot_on_line *row, const struct spot_on_line *before)
{
	if (fabs(row->offset_m) < fabs(best->offset_m))
		*best = *row;
	if (before == NULL || (before->offset_m < 0) == (row->offset_m < 0))
		return;
	double t = before->offset_m / (before->offset_m - row->offset_m);
	struct vec3 step = sb_vec3_sub(row->at, before->at);
	*best = (struct spot_on_line){
		.at = sb_vec3_add(before->at, sb_vec3_scale(step, t)),
		.station_m = before->station_m + t * (row->station_m - before->station_m),
	};
}

static void draw_run(const struct plane *p, size_t first)
{
	struct spot_on_line row;

	sb_scene_line(p->scene, MEANING_OBSTACLE, LINE_SOLID);
	for (size_t i = first; i < p->job->obstacle_count; i = next_of(p->job, i)) {
		if (!place(p, i, &row))
			continue;
		struct spot at = seen_from_above(p, &row);
		sb_scene_point(p->scene, at.x, at.y);
	}
}

/* How near one may come, seen from above: a ring about each row, and both sides of the line between two. */
static void keep_clear(
	const struct plane *p, const struct spot_on_line *row, const struct spot_on_line *before)
{
	struct spot at = seen_from_above(p, row);

	if (!p->window.detailed || row->keep_m <= row->radius_m)
		return;
	ring(p, LINE_DOTTED, at, row->keep_m, row->keep_m);
	if (before == NULL)
		return;
	struct spot from = seen_from_above(p, before);
	double x = at.x - from.x, y = at.y - from.y, length = hypot(x, y);
	for (int side = -1; side <= 1 && length > 0; side += 2) {
		double share = side * row->keep_m / length;
		sb_scene_line(p->scene, MEANING_OBSTACLE, LINE_DOTTED);
		sb_scene_point(p->scene, from.x - y * share, from.y + x * share);
		sb_scene_point(p->scene, at.x - y * share, at.y + x * share);
	}
}

static void from_above(const struct plane *p, size_t first)
{
	const struct job *job = p->job;
	struct spot_on_line row, before, best = { .offset_m = HUGE_VAL };
	bool is_line = next_of(job, first) < job->obstacle_count, have = false;

	if (is_line)
		draw_run(p, first);
	for (size_t i = first; i < job->obstacle_count; i = next_of(job, i)) {
		if (!place(p, i, &row))
			continue;
		if (!is_line && sb_plane_near(p, row.station_m))
			ring(p, LINE_SOLID, seen_from_above(p, &row), row.radius_m, row.radius_m);
		if (is_line || sb_plane_near(p, row.station_m))
			keep_clear(p, &row, have ? &before : NULL);
		nearer(&best, &row, have ? &before : NULL);
		before = row;
		have = true;
	}
	if (isfinite(best.offset_m) && sb_plane_near(p, best.station_m))
		name(p, job->obstacles[first].name, seen_from_above(p, &best));
}

void sb_obstacle_draw(const struct plane *p)
{
	for (size_t i = 0; i < p->job->obstacle_count; i++) {
		if (!is_first(p->job, i))
			continue;
		if (p->kind == PLANE_ELEVATION || p->kind == PLANE_HEIGHT)
			upright(p, i);
		else
			from_above(p, i);
	}
}
