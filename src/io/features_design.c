/* The design line, the corridor beside it, and the ground above it, with as many vertices as their curves
 * need. */
#include "base/mem.h"

#include <math.h>
#include <stdlib.h>

#include "features_parts.h"

/* A chord of a curve may lie so far beside it, m: a tenth of what a survey can tell. */
#define CHORD_OFF 0.005

/* Stations at which the design line, or a line beside it, needs a vertex. */
struct stations {
	double *list;
	size_t count, room;
};

static void put_station(struct stations *at, double station_m)
{
	at->list = sb_grow(at->list, at->count, &at->room, sizeof *at->list);
	at->list[at->count++] = station_m;
}

static void add_station(struct stations *at, double station_m, double length_m)
{
	if (station_m >= 0 && station_m <= length_m)
		put_station(at, station_m);
}

/* Even pieces whose chords leave the curve by no more than that: chord squared over 8 radii. */
static void add_parts(
	struct stations *at, const struct chain_part *parts, size_t count, bool profile, double length_m)
{
	for (size_t i = 0; i < count; i++) {
		const struct chain_part *p = &parts[i];
		double from = profile ? p->x : p->at;
		double run = profile ? sb_chain_at(p, 1, p->at + p->length).x - p->x : p->length;
		double step = p->curvature != 0 ? sqrt(8 * CHORD_OFF / fabs(p->curvature)) : p->length;
		size_t pieces = step > 0 ? (size_t)ceil(1.1 * p->length / step) : 1;
		for (size_t k = 0; k < pieces && (p->curvature != 0 || k == 0); k++)
			add_station(at, from + run * (double)k / (double)pieces, length_m);
	}
}

static int by_size(const void *a, const void *b)
{
	double x = *(const double *)a, y = *(const double *)b;

	return x < y ? -1 : x > y;
}

static void find_stations(const struct solution *s, struct stations *at)
{
	const struct design *d = &s->design;
	size_t kept = 0;

	add_parts(at, d->alignment, d->alignment_count, false, d->length_m);
	add_parts(at, d->profile, d->profile_count, true, d->length_m);
	add_station(at, 0, d->length_m);
	add_station(at, d->length_m, d->length_m);
	/* a limit steps where its range ends: a vertex on either side */
	for (size_t i = 0; i < s->corridor.count; i++) {
		const struct corridor_piece *c = &s->corridor.pieces[i];
		const double ends[] = { c->from_m - 1e-6, c->from_m + 1e-6, c->to_m - 1e-6, c->to_m + 1e-6 };
		for (size_t k = 0; k < 4; k++)
			add_station(at, ends[k], d->length_m);
	}
	if (at->count)
		qsort(at->list, at->count, sizeof *at->list, by_size);
	for (size_t i = 0; i < at->count; i++)
		if (kept == 0 || at->list[i] > at->list[kept - 1] + 1e-9)
			at->list[kept++] = at->list[i];
	at->count = kept;
}

static void walk_design(struct walk *w, const struct stations *at)
{
	features_begin(w, LAYER_DESIGN);
	for (size_t i = 0; i < at->count; i++) {
		w->near_m = at->list[i];
		features_put_place(w, sb_design_at(&w->s->design, at->list[i]).at);
	}
	features_put_length(w, w->s->design.length_m);
}

static double limit_on(const struct corridor_limits *l, enum side side)
{
	switch (side) {
	case SIDE_UP:
		return l->up_m;
	case SIDE_DOWN:
		return l->down_m;
	case SIDE_LEFT:
		return l->left_m;
	case SIDE_RIGHT:
		return l->right_m;
	case SIDE_NONE:
		break;
	}
	return HUGE_VAL;
}

static struct vec3 beside(const struct solution *s, double station_m, enum side side, double by_m)
{
	struct vec3 at = sb_design_at(&s->design, station_m).at;
	struct chain_place line = sb_chain_at(s->design.alignment, s->design.alignment_count, station_m);

	if (side == SIDE_UP || side == SIDE_DOWN) {
		at.u += side == SIDE_UP ? by_m : -by_m;
		return at;
	}
	double right = side == SIDE_RIGHT ? by_m : -by_m;
	return (struct vec3){ at.n - right * line.sin_bearing, at.e + right * line.cos_bearing, at.u };
}

/* A line for each stretch on which the contract sets a limit on that side. */
static void walk_side(struct walk *w, const struct stations *at, enum side side, const char *word)
{
	bool open = false;

	for (size_t i = 0; i < at->count; i++) {
		struct corridor_limits l = sb_corridor_at(&w->s->corridor, at->list[i]);
		double by_m = limit_on(&l, side);
		if (isinf(by_m)) {
			open = false;
			continue;
		}
		if (!open) {
			features_begin(w, LAYER_CORRIDOR);
			features_put_text(w, word);
			open = true;
		}
		w->near_m = at->list[i];
		features_put_place(w, beside(w->s, at->list[i], side, by_m));
	}
}

/* The ground is known along the alignment only; between two points of it the line follows the curves. */
static void walk_ground(struct walk *w, const struct stations *at)
{
	const struct job *job = w->job;
	const struct frame *f = &w->s->frame;
	const struct design *d = &w->s->design;
	struct stations own = { 0 };
	double elevation_m;

	if (job->ground_count < 2)
		return;
	double first = sb_frame_metres(f, job->ground[0].station.value);
	double last = sb_frame_metres(f, job->ground[job->ground_count - 1].station.value);
	for (size_t i = 0; i < at->count; i++)
		if (at->list[i] > first && at->list[i] < last)
			put_station(&own, at->list[i]);
	for (size_t i = 0; i < job->ground_count; i++)
		put_station(&own, sb_frame_metres(f, job->ground[i].station.value));
	if (own.count)
		qsort(own.list, own.count, sizeof *own.list, by_size);
	features_begin(w, LAYER_GROUND);
	for (size_t i = 0; i < own.count; i++) {
		if ((i > 0 && own.list[i] - own.list[i - 1] < 1e-5) ||
			!sb_design_ground(job, f, own.list[i], &elevation_m))
			continue;
		struct chain_place on = sb_chain_at(d->alignment, d->alignment_count, own.list[i]);
		w->near_m = own.list[i];
		features_put_place(w, (struct vec3){ on.x, on.y, elevation_m });
	}
	features_put_length(w, first);
	features_put_length(w, last);
	sb_free(own.list);
}

void features_design(struct walk *w)
{
	struct stations at = { 0 };

	find_stations(w->s, &at);
	walk_design(w, &at);
	walk_side(w, &at, SIDE_UP, "up");
	walk_side(w, &at, SIDE_DOWN, "down");
	if (w->plane == PLANE_MAP) {
		walk_side(w, &at, SIDE_LEFT, "left");
		walk_side(w, &at, SIDE_RIGHT, "right");
	}
	walk_ground(w, &at);
	sb_free(at.list);
}
