/* What lies around the way to come: from the last reading through the bit and on as it heads, over the joints
 * that the contract looks ahead. */
#include "io/rows.h"

#include <math.h>

#include "explain_parts.h"

#define PLACES 1000 /* of a curve to the bit */

/* The way: from the sensor to the bit, then straight on. */
static struct vec3 way_at(const struct explaining *x, const struct explain_bit *b, double md_m, double *level)
{
	double from_m = x->bit_depth_m[x->trail_count - 1] - b->gap_m, in = md_m - from_m;
	struct vec3 step = sb_vec3_scale(b->held.heading, in), heading = b->held.heading;

	if (in > b->gap_m) {
		step = sb_vec3_add(
			sb_vec3_sub(b->at, b->sensor), sb_vec3_scale(b->attitude.heading, in - b->gap_m));
		heading = b->attitude.heading;
	} else if (b->bends && x->job->projection == PROJECTION_CURVE) {
		sb_arc_at(&b->arc, b->arc.length_m + in, &step, &heading);
		step = sb_vec3_sub(step, b->arc.step);
	}
	*level = hypot(heading.n, heading.e);
	return sb_vec3_add(b->sensor, step);
}

static double obstacle_from(
	const struct explaining *x, const struct obstacle *o, struct vec3 a, struct vec3 b)
{
	double best = HUGE_VAL;

	for (size_t i = o->first; i < o->first + o->count; i++) {
		const struct obstacle_stretch *s = &x->s->around.stretches[i];
		best = fmin(best, sb_clear_straight(a, b, s->a, s->b, NULL, NULL) - s->radius_m);
	}
	return best;
}

/* Wall of the obstacle to centre line of the hole, over the whole way, piece by piece. */
static double nearest_on_way(
	const struct explaining *x, const struct explain_bit *b, const struct obstacle *o)
{
	bool straight = x->job->projection == PROJECTION_HOLD || !b->bends;
	double best = HUGE_VAL, bit_m = x->bit_depth_m[x->trail_count - 1], level;
	struct vec3 from = b->at;
	struct deviation at = b->deviation;

	for (int k = 1; k <= PLACES && !straight; k++) {
		struct vec3 a = way_at(x, b, bit_m - b->gap_m * (k - 1) / PLACES, &level),
			    c = way_at(x, b, bit_m - b->gap_m * k / PLACES, &level);
		best = fmin(best, obstacle_from(x, o, a, c));
	}
	if (straight)
		best = obstacle_from(x, o, b->sensor, b->at);
	for (int k = 1; k <= (int)x->job->look_ahead.value && at.station_m < x->s->design.length_m; k++) {
		double length = sb_frame_metres(&x->s->frame, sb_job_tally(x->job, x->row->joint + k).value);
		struct vec3 to = sb_vec3_add(from, sb_vec3_scale(b->attitude.heading, length));
		best = fmin(best, obstacle_from(x, o, from, to));
		at = sb_deviation(&x->s->design, to, NULL, at.station_m);
		from = to;
	}
	return best;
}

/* The obstacle that is passed with least to spare; where nothing is asked for, nearest. */
static struct passing find_worst(const struct clearance_ask *ask, size_t *which)
{
	struct passing worst = { 0 };
	double least = HUGE_VAL;

	for (size_t i = 0; i < ask->around->count; i++) {
		struct passing p = sb_clearance_held(ask, i, (int)ask->setup.job->look_ahead.value);
		double spare = isnan(p.required_m) ? p.wall_m + 1e6 : p.wall_m - p.required_m;
		if (!p.known || spare >= least)
			continue;
		least = spare;
		worst = p;
		*which = i;
	}
	return worst;
}

static void put_way(struct explaining *x, const struct explain_bit *b)
{
	char where[EXPLAIN_WHERE];

	explain_input(x, "z", AS_LENGTH, b->at.u, "elevation of the bit (explain bit)");
	explain_input(x, "i", AS_ANGLE, b->attitude.inc_rad, "its heading, from straight down");
	explain_input(x, "a", AS_ANGLE, b->attitude.azi_rad, "from grid north");
	explain_typed(x, "ahead", &x->job->look_ahead, "joints", "that are looked over: %s",
		explain_key(x, "corridor", "look_ahead", where));
}

static void put_required(struct explaining *x, double value_m, double required_m, enum level level)
{
	if (isnan(required_m)) {
		explain_words(x, EXPLAIN_LIMIT, "The sheet asks for none there: not judged.");
		return;
	}
	explain_input(x, "required", AS_LENGTH, required_m, "there, by the job sheet");
	explain_words(x, EXPLAIN_LIMIT, "%s: %s in the mean, if the heading is held.", sb_level_word(level),
		value_m < required_m ? "less than that" : "that is kept");
}

/* Whether there is a way to speak of; the note says why not. */
static bool known_way(struct explaining *x, const struct explain_bit *b)
{
	if (!b->known)
		explain_words(x, EXPLAIN_NOTE,
			"Nothing was read yet, and nothing staked: it is not known where the bore heads.");
	return b->known;
}

void explain_clearance_ahead(struct explaining *x)
{
	struct clearance_ask ask = sb_solution_clearance(x->job, x->s);
	struct explain_bit b = explain_bit_place(x);
	double radius = x->s->around.hole.judged_m, level;
	size_t which = 0;
	char side[48];

	explain_words(x, EXPLAIN_FORMULA,
		"clearance = D - ro - r, wall to wall, where that is least on the way from the last reading through the bit and on");
	if (!known_way(x, &b))
		return;
	struct passing p = find_worst(&ask, &which);
	if (!p.known) {
		explain_words(x, EXPLAIN_NOTE, "The sheet has no obstacle that the way comes by.");
		return;
	}
	const struct obstacle *o = &x->s->around.obstacles[which];
	put_way(x, &b);
	explain_hole(x);
	struct vec3 at = way_at(x, &b, p.md_m, &level);
	double wall = obstacle_from(x, o, at, at);
	explain_step(x, "depth", AS_LENGTH, p.md_m, "of the place that is nearest, station %.2f",
		sb_frame_typed(&x->s->frame, p.station_m));
	explain_step(x, "D - ro", AS_LENGTH, wall,
		"from the hole's centre line there to the wall of %.60s, obstacles.csv, job sheet", o->name);
	sb_passing_side(&p, side);
	explain_result(x, "clearance_ahead", AS_LENGTH, wall - radius, p.wall_m,
		"%s %.60s: the obstacle with least to spare", side, o->name);
	explain_check(x, AS_LENGTH, nearest_on_way(x, &b, o) - radius, p.wall_m,
		"the way in straight pieces, each against each stretch of the obstacle in closed form");
	put_required(x, p.wall_m, p.required_m, p.level);
	explain_words(
		x, EXPLAIN_SOURCE, "smallest distance of two straight lines, or of an arc and one; derived");
}

void explain_cover_ahead(struct explaining *x)
{
	struct clearance_ask ask = sb_solution_clearance(x->job, x->s);
	struct explain_bit b = explain_bit_place(x);
	double level, ground = (double)NAN;

	explain_words(x, EXPLAIN_FORMULA,
		"cover = ground - z - r / level, where least is to spare on the way from the last reading through the bit and on");
	if (!known_way(x, &b))
		return;
	struct cover c = sb_cover_held(&ask, (int)x->job->look_ahead.value);
	if (!c.known) {
		explain_words(x, EXPLAIN_NOTE,
			"No cover is asked for on the way, or the ground over it is not known.");
		return;
	}
	put_way(x, &b);
	explain_hole(x);
	struct vec3 at = way_at(x, &b, c.md_m, &level);
	sb_cover_ground(&x->s->around.ground, c.station_m, &ground, NULL);
	explain_step(x, "depth", AS_LENGTH, c.md_m, "of that place, station %.2f",
		sb_frame_typed(&x->s->frame, c.station_m));
	explain_input(x, "ground", AS_LENGTH, ground,
		"elevation there, between its points in ground.csv, job sheet");
	explain_step(x, "z there", AS_LENGTH, at.u, "elevation of the hole there");
	explain_step(x, "level", AS_NUMBER, level, "how level it runs: the cosine of its slope");
	explain_result(x, "cover_ahead", AS_LENGTH, c.cover_m, c.cover_m, "at that place");
	explain_check(x, AS_LENGTH, ground - at.u - x->s->around.hole.judged_m / level, c.cover_m,
		"by the formula, at that depth");
	put_required(x, c.cover_m, c.required_m, c.level);
	explain_words(x, EXPLAIN_SOURCE, "definition of this program");
}
