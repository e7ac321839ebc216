/* How sure a place is, term by term, and the chance that it is outside the corridor. */
#include "geom/angle.h"
#include "geom/odds.h"
#include "io/rows.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "explain_parts.h"

#define SOURCE_DOUBT \
	"structure of the ISCWSA error model (Williamson, SPE 67616, 2000), cut to the terms that matter in a near-level bore; derivative of the course: derived"

/* The running sums along the path, from the readings, by one model of errors. */
struct uncert explain_sums(const struct explaining *x, const struct uncert_model *model)
{
	struct uncert at = sb_uncert_begin();

	for (size_t i = 1; i < x->trail_count; i++) {
		if (!x->trail[i]->on_path)
			continue;
		struct explain_course c = explain_course(x, i);
		const struct row *from = x->trail[c.from], *to = x->trail[i];
		struct uncert_station begin = { &c.start, explain_survey_depth(x, c.from), from->carried,
			c.borrowed };
		struct uncert_station end = { &c.end, explain_survey_depth(x, i), to->carried, false };
		at = sb_uncert_next(model, &at, &begin, &end, &c.arc, to->joint - from->joint);
	}
	return at;
}

struct explain_beside explain_beside(const struct explaining *x, double station_m)
{
	struct design_place d = sb_design_at(&x->s->design, station_m);
	double sine = sin(d.azi_rad), cosine = cos(d.azi_rad), slope = -1 / tan(d.inc_rad);

	return (struct explain_beside){ d.heading, { -sine, cosine, 0 },
		{ -slope * cosine, -slope * sine, 1 } };
}

static const char *const term_keys[UNCERT_TERMS] = {
	[UNCERT_INCLINATION_BIAS] = "[tool] bias_inclination",
	[UNCERT_AZIMUTH_BIAS] = "[tool] bias_azimuth",
	[UNCERT_DECLINATION] = "[uncertainty] declination_sigma, declination_by_field",
	[UNCERT_INTERFERENCE] = "[uncertainty] string_field over horizontal_field",
	[UNCERT_CARRIED_BIAS] = "[uncertainty] carried_bias",
	[UNCERT_DEPTH_SCALE] = "[uncertainty] depth_scale",
	[UNCERT_INCLINATION_NOISE] = "[tool] sigma_inclination",
	[UNCERT_AZIMUTH_NOISE] = "[tool] sigma_azimuth",
	[UNCERT_CARRIED_NOISE] = "[uncertainty] carried_noise",
	[UNCERT_DEPTH_NOISE] = "[uncertainty] reading_depth",
	[UNCERT_LENGTH_NOISE] = "[tool] sigma_depth",
};

static void put_sigma(struct explaining *x, int term)
{
	bool length = term == UNCERT_DEPTH_NOISE || term == UNCERT_LENGTH_NOISE;
	bool plain = term == UNCERT_DEPTH_SCALE || term == UNCERT_INTERFERENCE;
	char symbol[24];

	snprintf(symbol, sizeof symbol, "s%d", term + 1);
	explain_input(x, symbol,
		length		? AS_LENGTH
			: plain ? AS_NUMBER
				: AS_ANGLE,
		x->s->uncertainty.model.sigma[term], "%s, one sigma: %s, job sheet",
		sb_uncert_sorts[term].name, term_keys[term]);
}

/* What each term alone would do; returns the sum of their squares. */
static struct doubt put_terms(struct explaining *x, const struct explain_beside *b)
{
	struct doubt sum = { 0 };

	for (int term = 0; term < UNCERT_TERMS; term++) {
		struct uncert_model alone = { .to_magnetic_rad = x->s->uncertainty.model.to_magnetic_rad };
		char along[EXPLAIN_VALUE], across[EXPLAIN_VALUE], symbol[24];
		alone.sigma[term] = x->s->uncertainty.model.sigma[term];
		if (alone.sigma[term] == 0)
			continue;
		struct uncert at = explain_sums(x, &alone);
		struct sym3 c = sb_uncert_covariance(&alone, &at);
		double one[3] = { sb_uncert_along(&c, b->along), sb_uncert_along(&c, b->right),
			sb_uncert_along(&c, b->up) };
		snprintf(symbol, sizeof symbol, "by s%d", term + 1);
		explain_step(x, symbol, AS_LENGTH, one[2], "in height by %s; %s across, %s along",
			sb_uncert_sorts[term].name, explain_value(x, AS_LENGTH, one[1], across),
			explain_value(x, AS_LENGTH, one[0], along));
		sum.along_m += one[0] * one[0];
		sum.across_m += one[1] * one[1];
		sum.up_m += one[2] * one[2];
	}
	return sum;
}

/* The covariance of the place, from the readings: by the sheet's terms, or as the fixes behind a correction
 * in force know better. */
struct sym3 explain_covariance(const struct explaining *x, const struct row *of, int64_t reading, double md_m,
	const struct uncert *at)
{
	const struct uncertainty *u = &x->s->uncertainty;
	struct sym3 c;

	if (u->better)
		return u->better(u->known, reading, md_m, at);
	c = sb_uncert_covariance(&u->model, at);
	if (x->job->course == COURSE_BY_ARC) {
		struct vec3 s = of->slides.shifted;
		c = (struct sym3){ c.nn + s.n * s.n, c.ee + s.e * s.e, c.uu + s.u * s.u, c.ne + s.n * s.e,
			c.nu + s.n * s.u, c.eu + s.e * s.u };
	}
	return c;
}

struct doubt explain_doubt(const struct sym3 *c, const struct explain_beside *b)
{
	struct doubt d = { sb_uncert_along(c, b->along), sb_uncert_along(c, b->right),
		sb_uncert_along(c, b->up), 0 };

	if (d.across_m > 0 && d.up_m > 0)
		d.correlation =
			fmin(fmax(sb_uncert_between(c, b->right, b->up) / (d.across_m * d.up_m), -1), 1);
	return d;
}

/* Arcs are the record and the slides lie elsewhere: by so much they may be wrong. Returns the squares. */
static struct doubt put_shift(struct explaining *x, const struct explain_beside *b)
{
	struct vec3 s = x->row->slides.shifted;
	struct doubt square = { 0 };

	if (x->job->course != COURSE_BY_ARC || !(sb_vec3_length(s) > 0))
		return square;
	double along = sb_vec3_dot(s, b->along), across = sb_vec3_dot(s, b->right),
	       up = sb_vec3_dot(s, b->up);
	char a[EXPLAIN_VALUE], c[EXPLAIN_VALUE];
	explain_step(x, "by slides", AS_LENGTH, fabs(up),
		"in height: so far the path through slides lies beside the arcs, which are the record; %s across, %s along (explain shift)",
		explain_value(x, AS_LENGTH, fabs(across), c), explain_value(x, AS_LENGTH, fabs(along), a));
	return (struct doubt){ along * along, across * across, up * up, 0 };
}

static void put_reach(struct explaining *x, const struct doubt *d)
{
	char across[EXPLAIN_VALUE], up[EXPLAIN_VALUE], along[EXPLAIN_VALUE], where[EXPLAIN_WHERE];
	double k = x->s->uncertainty.line_factor;

	explain_typed(x, "confidence", &x->job->confidence, "%", "%s",
		explain_key(x, "uncertainty", "confidence", where));
	explain_step(x, "k", AS_NUMBER, k,
		"sigmas to both sides that hold so much of a normal spread; the chance beyond them is %.4g %%",
		100 * sb_odds_normal(k));
	explain_words(x, EXPLAIN_NOTE, "So the screen says: give or take %s across, %s in height, %s along.",
		explain_value(x, AS_LENGTH, k * d->across_m, across),
		explain_value(x, AS_LENGTH, k * d->up_m, up),
		explain_value(x, AS_LENGTH, k * d->along_m, along));
}

void explain_give(struct explaining *x)
{
	struct uncert at = explain_sums(x, &x->s->uncertainty.model);
	struct sym3 c = explain_covariance(
		x, x->row, x->row->reading, explain_survey_depth(x, x->trail_count - 1), &at);
	struct explain_beside b = explain_beside(x, x->row->deviation.station_m);
	struct doubt d = explain_doubt(&c, &b);

	explain_words(x, EXPLAIN_FORMULA,
		"sigma^2 = sum over the terms of (what one sigma of the term moves the place)^2; give or take = k sigma");
	for (int term = 0; term < UNCERT_TERMS; term++)
		if (x->s->uncertainty.model.sigma[term] > 0)
			put_sigma(x, term);
	struct doubt squares = put_terms(x, &b);
	if (x->s->uncertainty.better) {
		explain_words(x, EXPLAIN_NOTE,
			"A correction that rests on independent fixes is in force: what they have told of these errors is taken off, and what follows is smaller than the sum above.");
	} else {
		struct doubt more = put_shift(x, &b);
		squares = (struct doubt){ squares.along_m + more.along_m, squares.across_m + more.across_m,
			squares.up_m + more.up_m, 0 };
	}
	explain_result(x, sb_path_columns[PATH_SIGMA_ALONG].name, AS_LENGTH, d.along_m, x->row->doubt.along_m,
		"one sigma along the design line");
	explain_result(x, sb_path_columns[PATH_SIGMA_ACROSS].name, AS_LENGTH, d.across_m,
		x->row->doubt.across_m, "of the offset");
	explain_result(x, sb_path_columns[PATH_SIGMA_UP].name, AS_LENGTH, d.up_m, x->row->doubt.up_m,
		"of the height, at the place's own station");
	if (!x->s->uncertainty.better) {
		explain_check(x, AS_LENGTH, sqrt(squares.along_m), d.along_m,
			"along: the root of the sum of the squares above");
		explain_check(x, AS_LENGTH, sqrt(squares.across_m), d.across_m, "across: likewise");
		explain_check(x, AS_LENGTH, sqrt(squares.up_m), d.up_m, "in height: likewise");
	}
	put_reach(x, &d);
	explain_words(x, EXPLAIN_SOURCE, SOURCE_DOUBT);
}

/* ---- the chance ---- */

/* How much of a normal spread lies beyond two limits. */
static double beyond(double mean, double sigma, double low, double high)
{
	if (!(sigma > 0))
		return mean < low || mean > high;
	return erfc((high - mean) / (sigma * sqrt(2))) / 2 + erfc((mean - low) / (sigma * sqrt(2))) / 2;
}

/* Whatever the two have in common, the chance of either lies between the larger and the sum. */
static void check_bounds(struct explaining *x, double chance, double across, double up)
{
	double least = fmax(across, up), most = fmin(across + up, 1);
	char low[EXPLAIN_VALUE], high[EXPLAIN_VALUE];

	explain_words(x, EXPLAIN_CHECK,
		"By sides alone: between %s (the larger of the two) and %s (both added), whatever goes together.",
		explain_value(x, AS_NUMBER, least, low), explain_value(x, AS_NUMBER, most, high));
	if (chance < least - 1e-8 || chance > most + 1e-8)
		explain_words(
			x, EXPLAIN_ALARM, "The chance lies outside what its two sides allow. Report it.");
}

static void put_chance_verdict(struct explaining *x, double chance)
{
	const struct setup setup = { x->job, &x->then, &x->s->design, &x->s->corridor };
	struct chance_limit limit = sb_uncertainty_limit(&setup);
	char most[EXPLAIN_VALUE];

	if (x->job->judge == JUDGE_MEAN) {
		char where[EXPLAIN_WHERE];
		explain_words(x, EXPLAIN_LIMIT,
			"None: this contract judges the place itself, not its chance (%s). Explain corridor-share.",
			explain_key(x, "uncertainty", "judge", where));
		return;
	}
	explain_words(x, EXPLAIN_LIMIT, "At most %s: what a confidence of %s %% leaves. %s",
		explain_value(x, AS_NUMBER, limit.limit, most), x->job->confidence.text,
		chance > limit.limit	      ? "breach: it is more."
			: chance > limit.near ? "watch: it is near that."
					      : "ok: it is less.");
}

double explain_outside(struct explaining *x, const struct deviation *off, const struct doubt *d, double kept)
{
	struct corridor_limits l = explain_limits(x, off->station_m);
	struct spread spread = { d->across_m * d->across_m, d->up_m * d->up_m,
		d->correlation * d->across_m * d->up_m };
	struct spread_box box = { -l.left_m, l.right_m, -l.down_m, l.up_m };
	double across = beyond(off->offset_m, d->across_m, box.low_x, box.high_x),
	       up = beyond(off->height_m, d->up_m, box.low_y, box.high_y);
	double chance = sb_spread_outside(off->offset_m, off->height_m, &spread, &box);

	explain_step(x, "across", AS_NUMBER, across, "chance of being beyond the left or the right limit");
	explain_step(x, "in height", AS_NUMBER, up, "chance of being beyond the upper or the lower limit");
	explain_result(
		x, sb_path_columns[PATH_CHANCE_OUTSIDE].name, AS_NUMBER, chance, kept, "of either, 0 to 1");
	check_bounds(x, chance, across, up);
	return chance;
}

void explain_chance(struct explaining *x)
{
	struct uncert at = explain_sums(x, &x->s->uncertainty.model);
	struct sym3 c = explain_covariance(
		x, x->row, x->row->reading, explain_survey_depth(x, x->trail_count - 1), &at);
	struct explain_beside b = explain_beside(x, x->row->deviation.station_m);
	struct doubt d = explain_doubt(&c, &b);
	const struct deviation *off = &x->row->deviation;

	explain_words(x, EXPLAIN_FORMULA,
		"1 - integral over the corridor of the normal spread around (offset, height)");
	explain_input(x, "offset", AS_LENGTH, off->offset_m, "right positive (explain offset)");
	explain_input(x, "height", AS_LENGTH, off->height_m, "high positive (explain height)");
	explain_input(x, "sx", AS_LENGTH, d.across_m, "one sigma of the offset (explain give-or-take)");
	explain_input(x, "sz", AS_LENGTH, d.up_m, "one sigma of the height");
	explain_input(x, "r", AS_NUMBER, d.correlation, "how the two go together, -1 to 1");
	put_chance_verdict(x, explain_outside(x, off, &d, x->row->outside));
	explain_words(x, EXPLAIN_SOURCE,
		"bivariate normal distribution, by Gauss and Legendre's rule (geom/spread.h); derived");
}
