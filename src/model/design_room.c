/* The design line as a hole: against each obstacle, and under the ground. */
#include "model/design_room.h"

#include "base/unit.h"
#include "model/surroundings.h"

#include <math.h>

/* A tenth of a millimetre; what is short by less is rounding on the drawing. */
#define TOLERANCE 1e-4
#define ROUNDING 1e-3
/* Stations between which a piece of the line is looked at. */
#define PIECE 20.0

/* A piece of the design line by station. */
struct piece {
	const struct design *design;
	double from_m, length_m;
	double radius_m; /* of the hole */
};

static struct vec3 place_at(const void *data, double s_m)
{
	const struct piece *p = data;

	return sb_design_at(p->design, p->from_m + s_m).at;
}

static void top_at(const void *data, double s_m, double *x_m, double *top_m)
{
	const struct piece *p = data;
	struct design_place place = sb_design_at(p->design, p->from_m + s_m);

	*x_m = p->from_m + s_m;
	*top_m = place.at.u + p->radius_m / fmax(hypot(place.heading.n, place.heading.e), 0.2);
}

/* The steepest slope and the tightest bend of the profile, as a curve of height over station. */
static void steepest(const struct design *d, double *slope, double *bend)
{
	*slope = *bend = 0;
	for (size_t i = 0; i < d->profile_count; i++) {
		const struct chain_part *p = &d->profile[i];
		double at_start = fabs(tan(p->bearing));
		double at_end = fabs(tan(p->bearing + p->curvature * p->length));
		double most = fmax(at_start, at_end);
		*slope = fmax(*slope, most);
		*bend = fmax(*bend, fabs(p->curvature) * pow(1 + most * most, 1.5));
	}
}

static struct piece next_piece(const struct design *d, const struct hole *hole, double from_m)
{
	return (struct piece){ d, from_m, fmin(PIECE, d->length_m - from_m), hole->judged_m };
}

static void check_obstacle(const struct frame *f, const struct design *d, const struct surroundings *a,
	const struct obstacle *o, struct sb_problems *problems)
{
	double slope, bend, least = HUGE_VAL, station = 0, required = 0;

	steepest(d, &slope, &bend);
	for (double from = 0; from < d->length_m; from += PIECE) {
		struct piece p = next_piece(d, &a->hole, from);
		struct clear_curve curve = { place_at, &p, p.length_m, sqrt(1 + slope * slope) };
		for (size_t i = o->first; i < o->first + o->count; i++) {
			const struct obstacle_stretch *s = &a->stretches[i];
			struct clear_nearest at;
			double keep = a->keeps[i].keep_m;
			if (!sb_clear_curve(
				    &curve, s->a, s->b, fmin(keep - ROUNDING, least + keep), TOLERANCE, &at))
				continue;
			least = at.distance_m - keep;
			station = from + at.s_m;
			required = s->required_m;
		}
	}
	if (isinf(least))
		return;
	sb_problems_add(problems, 1, "obstacles.csv", 0, "clearance",
		"the design itself passes %.60s by %.2f, wall to wall of %s, near station %.1f; %.2f is asked for. Ask the engineer before drilling.",
		o->name, sb_frame_typed(f, least + required), sb_hole_word(&a->hole),
		sb_frame_typed(f, station), sb_frame_typed(f, required));
}

static void check_range(const struct frame *f, const struct design *d, const struct surroundings *a,
	const struct cover_range *r, struct sb_problems *problems)
{
	double slope, bend, short_of = r->minimum_m - ROUNDING, station = -1;
	struct cover_least least;

	steepest(d, &slope, &bend);
	for (double from = 0; from < d->length_m && r->minimum_m > 0; from += PIECE) {
		struct piece p = next_piece(d, &a->hole, from);
		struct cover_hole hole = { top_at, &p, p.length_m, 2 * bend };
		if (sb_cover_least(&r->ground, &hole, short_of, TOLERANCE, &least) == COVER_NONE)
			continue;
		short_of = least.cover_m;
		station = least.x_m;
	}
	if (station >= 0)
		sb_problems_add(problems, 1, "ground.csv", 0, "elevation",
			"the design itself has %.2f of cover at station %.1f, over %s; %.2f is asked for. Ask the engineer before drilling.",
			sb_frame_typed(f, short_of), sb_frame_typed(f, station), sb_hole_word(&a->hole),
			sb_frame_typed(f, r->minimum_m));
}

void sb_design_room_check(
	const struct job *job, const struct frame *f, const struct design *d, struct sb_problems *problems)
{
	struct surroundings a;

	sb_surroundings_build(job, f, d, &a);
	for (size_t i = 0; i < a.count; i++)
		if (a.obstacles[i].limited)
			check_obstacle(f, d, &a, &a.obstacles[i], problems);
	for (size_t i = 0; i < a.range_count; i++)
		check_range(f, d, &a, &a.ranges[i], problems);
	sb_surroundings_clear(&a);
}
