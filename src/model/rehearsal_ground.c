/* The ground that a rehearsed bore is drilled in: the scenarios, zones along the bore, and wander. All of it
 * hangs on the seed and the depth alone, never on the orders: every way of drilling a seed meets the same
 * ground.
 */
#include "base/mem.h"
#include "base/str.h"
#include "geom/angle.h"
#include "rehearsal_truth.h"

#include <math.h>

static const double wander_cell_m = 1;

#define DEG(x) ((x) * (SB_PI / 180))
/* Means of a fair bore with a bent sub in soft to firm ground. Noise as in the trade's own table of what
 * readings scatter (a tenth of a degree in inclination, three tenths in azimuth); the rest chosen, no source:
 * a fair guess in the sheet, zones of two to ten joints that give a sixth more or less, a tool face that sits
 * within some degrees, a tenth of a degree of wander over a joint. */
#define GROUND(yield, noise) \
	.yield_share = (yield), .yield_scatter = 0.15, .zone_length_m = 60, .droop = DEG(0.013), \
	.walk = DEG(0.004), .drift_scatter = DEG(0.006), .face_scatter_rad = DEG(6), .wander = DEG(0.033), \
	.pushes = 3, .noise_inc_rad = DEG(0.1 * (noise)), .noise_azi_rad = DEG(0.3 * (noise))

const struct rehearsal_scenario sb_rehearsal_scenarios[] = {
	{ "nominal", "ground and tool about as the sheet guesses", { GROUND(1, 1) } },
	{ "face-error", "the hole turns 20 degrees clockwise of the tool face that is shown",
		{ GROUND(1, 1), .face_error_rad = DEG(20) } },
	{ "weak-soil", "slides turn 60 % of what the sheet guesses", { GROUND(0.6, 1) } },
	{ "noisy", "readings scatter two and a half times as much", { GROUND(1, 2.5) } },
	{ "azimuth-bias", "every azimuth reads 0.4 degrees too high",
		{ GROUND(1, 1), .bias_azi_rad = DEG(0.4) } },
	/* A sheet pile wall beside the line; how far and how much: chosen, no source. */
	{ "steel-nearby", "azimuths are pulled, 4 degrees at most, over 24 m around two fifths of the way",
		{ GROUND(1, 1), .steel_at = 0.4, .steel_reach_m = 12, .steel_azi_rad = DEG(4) } },
};
const size_t sb_rehearsal_scenario_count = sizeof sb_rehearsal_scenarios / sizeof *sb_rehearsal_scenarios,
	     sb_rehearsal_measured_count = sizeof sb_rehearsal_scenarios / sizeof *sb_rehearsal_scenarios - 1;

const struct rehearsal_scenario *sb_rehearsal_scenario(const char *name)
{
	for (size_t i = 0; i < sb_rehearsal_scenario_count; i++)
		if (sb_same(sb_rehearsal_scenarios[i].name, name))
			return &sb_rehearsal_scenarios[i];
	return NULL;
}

/* ---- of one bore ---- */

/* Other ground, another tool, another hand: by so much may a bore differ from its scenario. Chosen wide, no
 * source. */
void rehearsal_shift(struct rehearsal *r)
{
	struct rehearsal_ground *g = &r->ground;
	struct chance c = sb_chance_begin(r->seed, CHANCE_VARY, 0);

	g->yield_share *= sb_chance_between(&c, 0.8, 1.25);
	g->yield_scatter *= sb_chance_between(&c, 0.3, 2);
	g->zone_length_m *= sb_chance_between(&c, 0.4, 2);
	g->droop *= sb_chance_between(&c, -0.3, 2);
	g->walk *= sb_chance_between(&c, -2, 2);
	g->drift_scatter *= sb_chance_between(&c, 0.5, 1.6);
	g->face_error_rad *= sb_chance_between(&c, 0.7, 1.2) * (sb_chance_whole(&c, 2) ? 1 : -1);
	g->face_scatter_rad *= sb_chance_between(&c, 0.5, 1.6);
	g->wander *= sb_chance_between(&c, 0.5, 1.6);
	g->pushes = sb_chance_whole(&c, 6);
	g->noise_inc_rad *= sb_chance_between(&c, 0.7, 1.4);
	g->noise_azi_rad *= sb_chance_between(&c, 0.7, 1.4);
	g->bias_inc_rad *= sb_chance_whole(&c, 2) ? 1 : -1;
	g->bias_azi_rad *= sb_chance_whole(&c, 2) ? 1 : -1;
	r->blended = sb_chance_unit(&c);
	g->steel_at *= sb_chance_between(&c, 0.6, 1.6);
	g->steel_azi_rad *= sb_chance_between(&c, 0.5, 1.5) * (sb_chance_whole(&c, 2) ? 1 : -1);
}

static double guess_yield(const struct rehearsal *r)
{
	struct setup setup = rehearsal_setup(r);
	struct response guess;

	sb_response_begin(&setup, &guess);
	return guess.guess_yield;
}

static void add_zone(struct rehearsal *r)
{
	const struct rehearsal_ground *g = &r->ground;
	struct chance c = sb_chance_begin(r->seed, CHANCE_ZONE, r->zone_count);
	double begin = r->zone_count ? r->zones[r->zone_count - 1].end_m : 0;
	double length = g->zone_length_m > 0 ? g->zone_length_m * sb_chance_between(&c, 0.5, 1.5) : HUGE_VAL;
	struct zone z = { .end_m = begin + length };

	/* However soft, a quarter of the mean is left. */
	double share = fmax(1 + g->yield_scatter * sb_chance_normal(&c), 0.25);
	z.yield = guess_yield(r) * g->yield_share * share;
	z.droop = g->droop + g->drift_scatter * sb_chance_normal(&c);
	z.walk = g->walk + g->drift_scatter * sb_chance_normal(&c);
	if (sb_chance_unit(&c) < r->blended)
		z.blend_m = length * sb_chance_between(&c, 0.3, 0.9);
	r->zones = sb_grow(r->zones, r->zone_count, &r->zone_room, sizeof *r->zones);
	r->zones[r->zone_count++] = z;
}

struct zone rehearsal_zone(struct rehearsal *r, double md_m)
{
	while (r->zone_count == 0 || r->zones[r->zone_count - 1].end_m <= md_m)
		add_zone(r);
	while (r->zone_at > 0 && r->zones[r->zone_at - 1].end_m > md_m)
		r->zone_at--;
	while (r->zones[r->zone_at].end_m <= md_m)
		r->zone_at++;
	struct zone z = r->zones[r->zone_at];
	if (r->zone_at == 0 || z.blend_m == 0)
		return z;
	const struct zone *before = &r->zones[r->zone_at - 1];
	double t = fmin((md_m - before->end_m) / z.blend_m, 1), k = t * t * (3 - 2 * t);
	z.yield = before->yield + k * (z.yield - before->yield);
	z.droop = before->droop + k * (z.droop - before->droop);
	z.walk = before->walk + k * (z.walk - before->walk);
	return z;
}

/* One draw a metre of hole, so that the sum over any length has the variance that it should. */
struct steer_pair rehearsal_wander(struct rehearsal *r, double md_m)
{
	long cell = (long)(md_m / wander_cell_m);

	if (cell != r->wander_cell) {
		struct chance c = sb_chance_begin(r->seed, CHANCE_WANDER, (uint64_t)cell);
		double rate = r->ground.wander / sqrt(wander_cell_m);
		r->wander.up = rate * sb_chance_normal(&c);
		r->wander.right = rate * sb_chance_normal(&c);
		r->wander_cell = cell;
	}
	return r->wander;
}
