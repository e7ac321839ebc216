/* What lies around a course: the nearest obstacle, and the ground over it. The least of each is found by
 * halving (geom/clear.h, geom/cover.h); beside it stands the least of a thousand places along the course. */
#include "io/rows.h"

#include <math.h>

#include "explain_parts.h"

#define PLACES 1000

static struct clearance_ask ask_of(const struct explaining *x)
{
	return sb_solution_clearance(x->job, x->s);
}

static const struct row *row_before(const struct explaining *x)
{
	return x->trail[explain_before(x, x->trail_count - 1)];
}

/* A place of the course, `share` of it from its start, and how level the hole is there. */
static struct vec3 place_at(const struct explaining *x, double share, double *level)
{
	const struct row *before = row_before(x);
	struct vec3 offset, heading;

	sb_path_course_at(&x->s->path, before, x->row, share * x->row->course_m, &offset, &heading);
	*level = hypot(heading.n, heading.e);
	return sb_vec3_add(before->at, offset);
}

void explain_hole(struct explaining *x)
{
	const struct hole *h = &x->s->around.hole;
	char where[EXPLAIN_WHERE];

	if (h->final_given)
		explain_input(x, "r", AS_LENGTH, h->final_m, "half of the final hole's diameter, %s: %s",
			x->job->final_diameter.text, explain_key(x, "hole", "final_diameter", where));
	else if (h->pilot_given)
		explain_input(x, "r", AS_LENGTH, h->pilot_m, "half of the pilot hole's diameter, %s: %s",
			x->job->pilot_diameter.text, explain_key(x, "hole", "pilot_diameter", where));
	else
		explain_input(x, "r", AS_LENGTH, 0, "no [hole] diameter is given: from the centre line");
}

static void put_verdict(struct explaining *x, double spare_m, enum level level)
{
	const char *side = spare_m < 0 ? "less than that" : "that is kept";

	explain_words(x, EXPLAIN_LIMIT, "%s: %s in the mean%s.", sb_level_word(level), side,
		x->job->judge == JUDGE_CONFIDENCE
			? "; this contract judges by the chance ([uncertainty] judge)"
			: "");
	explain_words(x, EXPLAIN_LIMIT, "A watch where the give or take, or the sheet's spare, reaches it.");
}

/* The least of many places stands beside the one that was found, which is right to a hundredth of a
 * millimetre: it cannot be less by more. */
static void put_places(struct explaining *x, double places_m, double least_m)
{
	explain_step(x, "places", AS_LENGTH, places_m,
		"the least over %d places along the course: not less, but for 0.01 mm, and more by a hair",
		PLACES);
	if (places_m < least_m - 1.1e-5)
		explain_words(x, EXPLAIN_ALARM,
			"A place along the course is nearer than the nearest that was found. Report it.");
}

/* ---- clearance ---- */

/* The obstacle that the course passes nearest; its place in the list. */
static struct passing find_nearest(const struct explaining *x, size_t *which)
{
	struct clearance_ask ask = ask_of(x);
	struct passing nearest = { .wall_m = HUGE_VAL };

	for (size_t i = 0; i < ask.around->count; i++) {
		struct passing p = sb_clearance_between(&ask, i, row_before(x), x->row);
		if (p.known && p.wall_m < nearest.wall_m) {
			nearest = p;
			*which = i;
		}
	}
	return nearest;
}

/* Over a thousand places: never less than the least, and more by a hair. */
static double nearest_of_places(const struct explaining *x, const struct obstacle *o)
{
	double best = HUGE_VAL, level;

	for (int k = 0; k <= PLACES; k++) {
		struct vec3 at = place_at(x, (double)k / PLACES, &level);
		for (size_t i = o->first; i < o->first + o->count; i++) {
			const struct obstacle_stretch *s = &x->s->around.stretches[i];
			best = fmin(best, sb_clear_straight(at, at, s->a, s->b, NULL, NULL) - s->radius_m);
		}
	}
	return best;
}

void explain_clearance(struct explaining *x)
{
	const struct surroundings *a = &x->s->around;
	size_t which = 0;
	struct passing p = find_nearest(x, &which);
	char side[48];

	explain_words(x, EXPLAIN_FORMULA, "clearance = D - ro - r, wall to wall, where that is least");
	if (!p.known) {
		explain_words(x, EXPLAIN_NOTE, "The sheet has no obstacles.");
		return;
	}
	const struct obstacle *o = &a->obstacles[which];
	double radius = p.centres_m - p.wall_m - a->hole.judged_m;
	sb_passing_side(&p, side);
	explain_input(x, "ro", AS_LENGTH, radius, "half of the diameter of %.60s, obstacles.csv, job sheet%s",
		o->name, o->sized ? "" : " (a row without one counts as 0)");
	explain_hole(x);
	explain_step(x, "D", AS_LENGTH, p.centres_m,
		"from centre line to centre line, at depth %.2f, station %.2f",
		sb_frame_typed(&x->s->frame, p.md_m), sb_frame_typed(&x->s->frame, p.station_m));
	explain_step(x, "above", AS_LENGTH, p.above_m, "of the obstacle lies the hole, negative below");
	explain_step(x, "right", AS_LENGTH, p.right_m, "of it, as the hole heads, negative left");
	explain_result(x, sb_path_columns[PATH_CLEARANCE].name, AS_LENGTH,
		p.centres_m - radius - a->hole.judged_m, p.wall_m, "%s %.60s", side, o->name);
	put_places(x, nearest_of_places(x, o) - a->hole.judged_m, p.wall_m);
	explain_step(x, "sigma", AS_LENGTH, p.sigma_m, "one sigma of it (explain give-or-take)");
	if (o->limited) {
		explain_input(x, "required", AS_LENGTH, p.required_m, "obstacles.csv, job sheet");
		explain_step(x, "chance", AS_PERCENT, p.chance,
			"of less than required: the share of the hole's spread that is nearer, seen along the hole");
		put_verdict(x, p.wall_m - p.required_m, p.level);
	} else {
		explain_words(x, EXPLAIN_LIMIT, "The sheet asks for no clearance from it: not judged.");
	}
	explain_words(x, EXPLAIN_NOTE,
		"The final hole is taken as centred on the pilot, and the obstacle where the sheet has it.");
	explain_words(x, EXPLAIN_SOURCE, "smallest distance of an arc and a straight line; derived");
}

/* ---- cover ---- */

static double least_of_places(const struct explaining *x)
{
	double best = HUGE_VAL, level, ground;

	for (int k = 0; k <= PLACES; k++) {
		struct vec3 at = place_at(x, (double)k / PLACES, &level);
		double station = sb_design_station(&x->s->design, at, x->row->deviation.station_m, NULL);
		if (sb_cover_ground(&x->s->around.ground, station, &ground, NULL))
			best = fmin(best, ground - at.u - x->s->around.hole.judged_m / level);
	}
	return best;
}

static void put_here(struct explaining *x, const struct cover *here)
{
	const struct surroundings *a = &x->s->around;
	struct vec3 at = explain_place(x, x->trail_count - 1);
	struct attitude heading = explain_attitude(x, x->trail_count - 1);
	double ground = 0, level = hypot(heading.heading.n, heading.heading.e);

	sb_cover_ground(&a->ground, x->row->deviation.station_m, &ground, NULL);
	explain_input(x, "ground", AS_LENGTH, ground,
		"elevation over the sensor at station %.2f, between its points in ground.csv, job sheet",
		sb_frame_typed(&x->s->frame, x->row->deviation.station_m));
	explain_step(x, "z", AS_LENGTH, at.u, "elevation of the hole there (explain elevation)");
	explain_hole(x);
	explain_step(x, "level", AS_NUMBER, level, "how level it runs: the cosine of its slope");
	explain_result(x, sb_path_columns[PATH_COVER].name, AS_LENGTH,
		ground - at.u - a->hole.judged_m / level, here->cover_m, "over the sensor");
}

/* Over the course, where it is least, and what is asked for there. */
static void put_least(struct explaining *x, const struct cover *least)
{
	explain_result(x, sb_path_columns[PATH_COVER_LEAST].name, AS_LENGTH, least->cover_m, least->cover_m,
		"the least since the reading before, at station %.2f",
		sb_frame_typed(&x->s->frame, least->station_m));
	put_places(x, least_of_places(x), least->cover_m);
	explain_step(x, "sigma", AS_LENGTH, least->sigma_m,
		"one sigma of it: of the height, and of where along a ground that slopes (explain give-or-take)");
	if (isnan(least->required_m)) {
		explain_words(x, EXPLAIN_LIMIT, "The sheet asks for no cover there: not judged.");
	} else {
		explain_input(x, "required", AS_LENGTH, least->required_m,
			"there, of corridor.csv or [cover] minimum, job sheet");
		explain_step(x, "chance", AS_PERCENT, least->chance, "of less than required");
		put_verdict(x, least->cover_m - least->required_m, least->level);
	}
}

void explain_cover(struct explaining *x)
{
	struct clearance_ask ask = ask_of(x);
	struct cover here = sb_cover_at(&ask, x->row), least = { 0 };
	bool course = x->row->joint > 0;

	explain_words(x, EXPLAIN_FORMULA, "cover = ground - z - r / level");
	if (course)
		least = sb_cover_over(&ask, row_before(x), x->row);
	if (!here.known || (course && !least.known)) {
		explain_words(x, EXPLAIN_NOTE, "ground.csv says nothing of the ground %s.",
			course ? "over this course" : "at the entry");
		return;
	}
	put_here(x, &here);
	if (least.known)
		put_least(x, &least);
	explain_words(x, EXPLAIN_NOTE, "The ground is that over the design line; beside it is not known.");
	explain_words(x, EXPLAIN_SOURCE, "definition of this program");
}
