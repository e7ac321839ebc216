/* The sheet's obstacles, ground and hole in metres. Rows of one name make a line wherever they stand in the
 * sheet, so they are sorted by name once. */
#include "model/surroundings.h"

#include "base/mem.h"
#include "base/str.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Sizes of holes and pipes are in millimetres where lengths are in metres, else in inches. */
static double radius(const struct job *job, const struct number *diameter)
{
	double unit = job->unit == UNIT_M ? 0.001 : 0.0254;

	return sb_number_given(diameter) ? diameter->value * unit / 2 : 0;
}

struct hole sb_hole_of(const struct job *job)
{
	struct hole h = {
		.pilot_given = sb_number_given(&job->pilot_diameter),
		.final_given = sb_number_given(&job->final_diameter),
		.pilot_m = radius(job, &job->pilot_diameter),
		.final_m = radius(job, &job->final_diameter),
	};

	h.judged_m = h.final_given ? h.final_m : h.pilot_m;
	return h;
}

const char *sb_hole_word(const struct hole *h)
{
	return h->final_given	 ? "the final hole"
		: h->pilot_given ? "the pilot hole"
				 : "the hole's centre line";
}

/* ---- obstacles ---- */

static const struct obstacle_point *row_of(const void *entry)
{
	return *(const struct obstacle_point *const *)entry;
}

static int by_name(const void *a, const void *b)
{
	const struct obstacle_point *x = row_of(a), *y = row_of(b);
	int order = strcmp(x->name, y->name);

	return order ? order : (x > y) - (x < y);
}

static int by_first_row(const void *a, const void *b)
{
	const char *x = ((const struct obstacle *)a)->name, *y = ((const struct obstacle *)b)->name;

	return (x > y) - (x < y);
}

static struct vec3 place_of(const struct frame *f, const struct obstacle_point *o)
{
	return sb_frame_ground(f, o->easting.value, o->northing.value, o->elevation.value);
}

/* The stretch between two rows; a row and itself: a point. */
static struct obstacle_stretch stretch_of(
	const struct frame *f, const struct obstacle_point *a, const struct obstacle_point *b)
{
	return (struct obstacle_stretch){
		.a = place_of(f, a),
		.b = place_of(f, b),
		.radius_m = sb_frame_metres(f, fmax(a->diameter.value, b->diameter.value)) / 2,
		.required_m = sb_frame_metres(f, fmax(a->clearance.value, b->clearance.value)),
	};
}

/* The rows of one name. */
static void add_obstacle(const struct frame *f, const struct obstacle_point *const *rows, size_t count,
	size_t *stretches, struct surroundings *out)
{
	struct obstacle *o = &out->obstacles[out->count++];

	*o = (struct obstacle){ .name = rows[0]->name,
		.kind = rows[0]->kind,
		.first = *stretches,
		.sized = true,
		.line = count > 1 };
	for (size_t i = 0; i < count; i++) {
		o->sized &= sb_number_given(&rows[i]->diameter);
		o->limited |= sb_number_given(&rows[i]->clearance);
		if (i > 0 || count == 1)
			out->stretches[(*stretches)++] = stretch_of(f, rows[i > 0 ? i - 1 : 0], rows[i]);
	}
	o->count = *stretches - o->first;
}

static void build_obstacles(const struct job *job, const struct frame *f, struct surroundings *out)
{
	size_t count = job->obstacle_count, from = 0, stretches = 0;

	if (count == 0)
		return;
	const struct obstacle_point **rows = sb_alloc(count * sizeof(void *));
	for (size_t i = 0; i < count; i++)
		rows[i] = &job->obstacles[i];
	qsort(rows, count, sizeof(void *), by_name);
	out->obstacles = sb_alloc(count * sizeof *out->obstacles);
	out->stretches = sb_alloc(count * sizeof *out->stretches);
	out->keeps = sb_alloc(count * sizeof *out->keeps);
	for (size_t i = 1; i <= count; i++)
		if (i == count || !sb_same(rows[i]->name, rows[from]->name)) {
			add_obstacle(f, rows + from, i - from, &stretches, out);
			from = i;
		}
	qsort(out->obstacles, out->count, sizeof *out->obstacles, by_first_row);
	for (size_t i = 0; i < stretches; i++) {
		const struct obstacle_stretch *s = &out->stretches[i];
		out->keeps[i] = (struct clear_stretch){ s->a, s->b,
			s->radius_m + s->required_m + out->hole.judged_m };
	}
	sb_free(rows);
}

/* ---- ground and cover ---- */

/* Rows that do not go on are left out: the sheet refuses them, a file from elsewhere may have them. */
static void build_ground(const struct job *job, const struct frame *f, struct surroundings *out)
{
	size_t count = 0;

	for (size_t i = 0; i < job->ground_count; i++) {
		struct cover_point p = { sb_frame_metres(f, job->ground[i].station.value),
			sb_frame_metres(f, job->ground[i].elevation.value) };
		if (count == 0 || p.x_m > out->points[count - 1].x_m)
			out->points[count++] = p;
	}
	out->ground = (struct cover_ground){ out->points, count };
}

/* The ground between two stations: its ends, and the points between. Returned: how many were put to `out`, at
 * most `room`. */
static size_t cut_ground(
	const struct cover_ground *g, double from, double to, struct cover_point *out, size_t room)
{
	size_t count = 0;
	double y;

	if (g->count < 2)
		return 0;
	from = fmax(from, g->points[0].x_m);
	to = fmin(to, g->points[g->count - 1].x_m);
	if (!(from < to) || room < 2)
		return 0;
	if (sb_cover_ground(g, from, &y, NULL))
		out[count++] = (struct cover_point){ from, y };
	for (size_t i = 0; i < g->count && count + 1 < room; i++)
		if (g->points[i].x_m > from && g->points[i].x_m < to)
			out[count++] = g->points[i];
	if (sb_cover_ground(g, to, &y, NULL))
		out[count++] = (struct cover_point){ to, y };
	return count;
}

static double length_or(const struct frame *f, const struct number *n, double otherwise)
{
	return sb_number_given(n) ? sb_frame_metres(f, n->value) : otherwise;
}

/* The points that are not taken yet. */
struct spare_points {
	struct cover_point *points;
	size_t room;
};

static void add_range(struct surroundings *s, struct cover_range r, struct spare_points *spare)
{
	if (!(r.from_m < r.to_m))
		return;
	size_t count = cut_ground(&s->ground, r.from_m, r.to_m, spare->points, spare->room);
	r.ground = (struct cover_ground){ spare->points, count };
	spare->points += count;
	spare->room -= count;
	s->ranges[s->range_count++] = r;
}

static int by_from(const void *a, const void *b)
{
	const struct cover_range *x = a, *y = b;

	return (x->from_m > y->from_m) - (x->from_m < y->from_m);
}

/* What [cover] says holds between the ranges of corridor.csv. */
static void fill_between(const struct job *job, const struct frame *f, double length_m,
	const struct cover_range *own, size_t count, struct surroundings *s, struct spare_points *spare)
{
	struct cover_range general = { fmax(length_or(f, &job->cover_from, 0), 0),
		fmin(length_or(f, &job->cover_to, length_m), length_m),
		sb_frame_metres(f, job->cover_minimum.value), { NULL, 0 } };
	double to = general.to_m;

	if (!sb_number_given(&job->cover_minimum))
		return;
	for (size_t i = 0; i < count; i++) {
		general.to_m = fmin(own[i].from_m, to);
		add_range(s, general, spare);
		general.from_m = fmax(general.from_m, own[i].to_m);
	}
	general.to_m = to;
	add_range(s, general, spare);
}

static void build_cover(const struct job *job, const struct frame *f, double length_m,
	struct spare_points *spare, struct surroundings *out)
{
	size_t count = 0;

	out->ranges = sb_alloc((2 * job->range_count + 1) * sizeof *out->ranges);
	for (size_t i = 0; i < job->range_count; i++) {
		const struct corridor_range *r = &job->ranges[i];
		struct cover_range own = { fmax(sb_frame_metres(f, r->from.value), 0),
			fmin(sb_frame_metres(f, r->to.value), length_m), sb_frame_metres(f, r->cover.value),
			{ NULL, 0 } };
		if (sb_number_given(&r->cover))
			add_range(out, own, spare);
	}
	count = out->range_count;
	qsort(out->ranges, count, sizeof *out->ranges, by_from);
	fill_between(job, f, length_m, out->ranges, count, out, spare);
	qsort(out->ranges, out->range_count, sizeof *out->ranges, by_from);
}

/* A billionth of a metre outside is arithmetic. */
static bool within(const struct cover_range *r, double station_m)
{
	const double touch = 1e-9;

	return station_m >= r->from_m - touch && station_m <= r->to_m + touch;
}

double sb_surroundings_cover(const struct surroundings *s, double station_m)
{
	double required = (double)NAN;

	for (size_t i = 0; i < s->range_count; i++)
		if (within(&s->ranges[i], station_m))
			required =
				fmax(required, s->ranges[i].minimum_m); /* of a NAN and a number the number */
	return required;
}

static void note_unknown(double from, double to, double *from_m, double *to_m, size_t room, size_t *count)
{
	const double touch = 1e-6;

	if (!(to - from > touch))
		return;
	/* one that goes on from the last is the same stretch */
	if (*count > 0 && *count <= room && fabs(to_m[*count - 1] - from) <= touch) {
		to_m[*count - 1] = to;
		return;
	}
	if (*count < room) {
		from_m[*count] = from;
		to_m[*count] = to;
	}
	(*count)++;
}

size_t sb_surroundings_unknown(const struct surroundings *s, double *from_m, double *to_m, size_t room)
{
	size_t count = 0;

	for (size_t i = 0; i < s->range_count; i++) {
		const struct cover_range *r = &s->ranges[i];
		size_t n = r->ground.count;
		if (!(r->minimum_m > 0))
			continue;
		note_unknown(r->from_m, n ? r->ground.points[0].x_m : r->to_m, from_m, to_m, room, &count);
		if (n)
			note_unknown(r->ground.points[n - 1].x_m, r->to_m, from_m, to_m, room, &count);
	}
	return count;
}

void sb_surroundings_build(
	const struct job *job, const struct frame *f, const struct design *design, struct surroundings *out)
{
	memset(out, 0, sizeof *out);
	out->hole = sb_hole_of(job);
	out->cover_spare_m = length_or(f, &job->cover_spare, (double)NAN);
	out->clearance_spare_m = length_or(f, &job->clearance_spare, (double)NAN);
	build_obstacles(job, f, out);
	sb_soil_build(job, f, &out->soil);
	/* the ground once whole, and once more cut at the ends of the ranges, which do not overlap */
	size_t room = 2 * job->ground_count + 4 * job->range_count + 2;
	out->points = sb_alloc(room * sizeof *out->points);
	build_ground(job, f, out);
	struct spare_points spare = { out->points + out->ground.count, room - out->ground.count };
	build_cover(job, f, design->length_m, &spare, out);
	for (size_t i = 0; i < design->alignment_count; i++)
		out->alignment_bend = fmax(out->alignment_bend, fabs(design->alignment[i].curvature));
}

void sb_surroundings_clear(struct surroundings *s)
{
	sb_free(s->obstacles);
	sb_free(s->stretches);
	sb_free(s->keeps);
	sb_free(s->ranges);
	sb_free(s->points);
	sb_soil_clear(&s->soil);
	memset(s, 0, sizeof *s);
}
