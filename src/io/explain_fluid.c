/* The pressure around the pipe while a joint was drilled, and what the ground bears there. Both from the
 * sheet and the readings again; the closed forms stand beside sums over the annulus and over the ground that
 * yields. */
#include "geom/angle.h"
#include "model/annular.h"

#include <math.h>
#include <stdio.h>

#include "explain_parts.h"

#define GRAVITY 9.80665
#define WATER 9.81e3 /* of water, N/m3 */
#define STEPS 400

static struct annular annular_of(const struct explaining *x)
{
	struct clearance_ask ask = sb_solution_clearance(x->job, x->s);

	return sb_annular_pilot(&ask, x->row, x->r);
}

/* ---- the loss along the annulus ---- */

/* Simpson's rule of the shear times r^power between two radii; k: where the stress changes sign, squared. */
static double sum_shear(
	const struct bingham *mud, double gradient, double k, double from, double to, int power)
{
	double h = (to - from) / STEPS, sum = 0;

	for (int i = 0; i <= STEPS; i++) {
		double r = from + i * h, shear = fabs(gradient / 2 * (r - k / r)) - mud->yield_pa;
		double weight = i == 0 || i == STEPS ? 1 : i % 2 ? 4 : 2;
		sum += weight * fmax(shear, 0) * (power == 2 ? r * r : 1);
	}
	return sum * h / 3 / mud->viscosity_pas;
}

/* The flow that a loss drives: k is searched so that both sides of the plug move at one speed. */
static double summed_flow(const struct bingham *mud, const struct annulus *a, double gradient)
{
	double low = a->inner_m * a->inner_m, high = a->outer_m * a->outer_m;
	double width = 2 * mud->yield_pa / gradient, in = 0, out = 0, k = 0;

	for (int i = 0; i < 60; i++) {
		k = (low + high) / 2;
		in = fmin(fmax((sqrt(width * width + 4 * k) - width) / 2, a->inner_m), a->outer_m);
		out = fmin(fmax(in + width, a->inner_m), a->outer_m);
		if (sum_shear(mud, gradient, k, a->inner_m, in, 0) <
			sum_shear(mud, gradient, k, out, a->outer_m, 0))
			low = k;
		else
			high = k;
	}
	return SB_PI *
		(sum_shear(mud, gradient, k, out, a->outer_m, 2) -
			sum_shear(mud, gradient, k, a->inner_m, in, 2));
}

static void put_fluid(struct explaining *x, const struct bingham *mud, const struct annulus *a, double flow)
{
	bool said = x->r && sb_number_given(&x->r->flow);
	char where[EXPLAIN_WHERE];

	explain_input(x, "PV", AS_VISCOSITY, mud->viscosity_pas, "plastic viscosity: %s",
		explain_key(x, "fluid", "plastic_viscosity", where));
	explain_input(x, "YP", AS_YIELD_POINT, mud->yield_pa, "yield point: %s",
		explain_key(x, "fluid", "yield_point", where));
	explain_input(x, "hole", AS_SIZE, 2 * a->outer_m, "its diameter: %s",
		explain_key(x, "hole", "pilot_diameter", where));
	explain_input(x, "pipe", AS_SIZE, 2 * a->inner_m, "its outside diameter: %s",
		explain_key(x, "drill_pipe", "outside_diameter", where));
	explain_input(x, "Q", AS_FLOW, flow, "pumped: %s",
		said ? explain_reading(x->row, x->r, where) : explain_key(x, "fluid", "flow", where));
}

/* Returned: the loss by length. */
static double put_loss(struct explaining *x, const struct fluid_stage *s)
{
	const struct job *job = x->job;
	const struct annulus *a = &s->entry.annulus;
	const struct bingham mud = {
		sb_measure_si(job->unit, MEASURE_YIELD_POINT, job->yield_point.value),
		sb_measure_si(job->unit, MEASURE_VISCOSITY, job->plastic_viscosity.value),
		s->density_kgm3,
	};
	struct bingham_loss l;

	put_fluid(x, &mud, a, s->flow_m3s);
	if (!(s->flow_m3s > 0) || sb_bingham_loss(&mud, a, s->flow_m3s, &l) != BINGHAM_OK)
		return 0;
	explain_step(x, "v", AS_SPEED, l.speed_ms, "mean speed: Q over the annulus");
	explain_step(x, "G", AS_GRADIENT, l.laminar_pam,
		"loss by length of a Bingham plastic around a pipe in the middle of the hole, with its plug, exact");
	/* in a slit neither way has the digits to tell */
	if (mud.viscosity_pas > 0 && a->outer_m - a->inner_m > 0.02 * a->outer_m)
		explain_check(x, AS_FLOW, summed_flow(&mud, a, l.laminar_pam), s->flow_m3s,
			"the flow that G drives, summed up over the annulus");
	explain_step(
		x, "plates", AS_GRADIENT, l.slot_pam, "between two plates as far apart, exact: a hair more");
	explain_step(x, "field", AS_GRADIENT, l.field_pam,
		"by the usual formula of the field, PV v/(1000 d^2) + YP/(200 d) in its units: too much for slow flow");
	explain_step(x, "Re", AS_NUMBER, l.reynolds, "12 density v^2 / stress on the wall: %s",
		l.turbulent ? "over 2100, so the larger loss holds of this and a turbulent one"
			    : "laminar, as it is not over 2100");
	if (l.turbulent)
		explain_step(x, "G", AS_GRADIENT, l.gradient_pam, "that holds");
	return l.gradient_pam;
}

static void put_judgement(struct explaining *x, const struct annular *a)
{
	struct clearance_ask ask = sb_solution_clearance(x->job, x->s);
	struct verdict v;

	if (!a->judged) {
		explain_words(x, EXPLAIN_LIMIT, "Not judged: %s.",
			a->formation.known != FORMATION_KNOWN
				? "what the ground bears there is not known (explain formation-limit)"
				: "the station is not between from and to of [fluid], or else of [cover]");
		return;
	}
	sb_annular_judge(&ask.setup, a, x->row->joint, &v);
	explain_input(x, "limit", AS_PRESSURE, a->formation.limit.limit_pa,
		"what the ground is estimated to bear (explain formation-limit)");
	explain_step(x, "share", AS_PERCENT, sb_annular_share(a), "of the limit, %s",
		isnan(a->measured_pa) ? "estimated" : "measured");
	explain_words(x, EXPLAIN_LIMIT,
		"%s: a watch from %.0f %% of the limit, a breach where more than it is measured.",
		sb_level_word(v.level), x->job->fluid_watch.value * 100);
}

void explain_annular(struct explaining *x)
{
	struct annular a = annular_of(x);
	const struct fluid_stage *s = &a.stage;
	bool mixed = !sb_number_given(&x->job->fluid_return_weight);
	char where[EXPLAIN_WHERE];
	double z = explain_place(x, x->trail_count - 1).u,
	       z0 = sb_frame_metres(&x->s->frame, x->job->entry.elevation.value);
	double depth = explain_survey_depth(x, x->trail_count - 1);

	explain_words(x, EXPLAIN_FORMULA, "p = w g (z0 - z) + G L");
	if (a.estimate.known == FLUID_NO_WEIGHT) {
		explain_words(x, EXPLAIN_NOTE, "%s", sb_fluid_known_words(a.estimate.known));
		return;
	}
	explain_input(x, "w", AS_DENSITY, s->density_kgm3, "weight of what comes back: %s",
		explain_key(x, "fluid", mixed ? "weight" : "return_weight", where));
	explain_input(x, "z0", AS_LENGTH, z0, "elevation of the entry: %s",
		explain_key(x, "control", "entry", where));
	explain_step(x, "z", AS_LENGTH, z, "elevation of the hole at the sensor (explain elevation)");
	explain_step(x, "L", AS_LENGTH, depth, "along the hole from the entry to the sensor");
	double gradient = 0;
	if (a.estimate.known == FLUID_KNOWN)
		gradient = put_loss(x, s);
	else
		explain_words(x, EXPLAIN_NOTE, "%s", sb_fluid_known_words(a.estimate.known));
	double weight = s->density_kgm3 * GRAVITY * fmax(z0 - z, 0), loss = gradient * depth;
	explain_step(x, "of weight", AS_PRESSURE, weight, "w g (z0 - z); above the entry none");
	explain_step(x, "of loss", AS_PRESSURE, loss, "G L");
	explain_result(x, "annular_estimate", AS_PRESSURE, weight + loss, a.estimate.total_pa, "estimated");
	if (!isnan(a.measured_pa))
		explain_typed(x, "measured", &x->r->annular, sb_measure_unit(x->job->unit, MEASURE_PRESSURE),
			"%s", explain_reading(x->row, x->r, where));
	put_judgement(x, &a);
	explain_words(x, EXPLAIN_NOTE,
		"An estimate, for the engineer to verify: a clean round hole, the pipe in its middle, no cuttings lying in it.");
	explain_words(x, EXPLAIN_SOURCE,
		"Bingham plastic in an annulus: derived, as Fredrickson and Bird 1958; field formula: Guo and Liu 2011, eq. 2.59");
}

/* ---- what the ground bears ---- */

static bool covers(const struct explaining *x, const struct soil_layer *l, double station_m)
{
	const struct frame *f = &x->s->frame;

	return station_m >= sb_frame_metres(f, l->from.value) - 1e-6 &&
		station_m <= sb_frame_metres(f, l->to.value) + 1e-6;
}

/* The layer just below an elevation: of those whose tops are not under it the lowest, the one further down
 * the sheet of two; where there is none, the uppermost of all. */
static const struct soil_layer *layer_below(const struct explaining *x, double station_m, double elevation_m)
{
	const struct soil_layer *best = NULL, *highest = NULL;
	double level = sb_frame_typed(&x->s->frame, elevation_m) - 1e-9;

	for (size_t i = 0; i < x->job->soil_count; i++) {
		const struct soil_layer *l = &x->job->soil[i];
		if (!covers(x, l, station_m))
			continue;
		if (l->top.value >= level && (best == NULL || l->top.value <= best->top.value))
			best = l;
		if (highest == NULL || l->top.value > highest->top.value)
			highest = l;
	}
	return best ? best : highest;
}

/* The next top under an elevation. */
static double next_top(const struct explaining *x, double station_m, double elevation_m)
{
	double next = -HUGE_VAL;

	for (size_t i = 0; i < x->job->soil_count; i++) {
		double top = sb_frame_metres(&x->s->frame, x->job->soil[i].top.value);
		if (covers(x, &x->job->soil[i], station_m) && top < elevation_m - 1e-9)
			next = fmax(next, top);
	}
	return next;
}

/* Layer by layer down from the ground. Returned: the total stress. */
static double put_layers(struct explaining *x, double station_m, double ground_m, double z_m)
{
	const struct soil_layer *top = layer_below(x, station_m, ground_m);
	double river = sb_number_given(&top->ground_water)
		? sb_frame_metres(&x->s->frame, top->ground_water.value) - ground_m
		: 0;
	double total = WATER * fmax(river, 0);

	if (river > 0)
		explain_step(x, "river", AS_PRESSURE, total, "%.2f %s of water over the bed",
			sb_frame_typed(&x->s->frame, river), sb_unit_short(x->job->unit));
	for (double from = ground_m; from > z_m;) {
		const struct soil_layer *l = layer_below(x, station_m, from);
		double to = fmax(next_top(x, station_m, from), z_m);
		double part =
			sb_measure_si(x->job->unit, MEASURE_UNIT_WEIGHT, l->unit_weight.value) * (from - to);
		explain_step(x, "layer", AS_PRESSURE, part, "%.2f %s of %.60s, %s %s",
			sb_frame_typed(&x->s->frame, from - to), sb_unit_short(x->job->unit), l->name,
			l->unit_weight.text, sb_measure_unit(x->job->unit, MEASURE_UNIT_WEIGHT));
		total += part;
		from = to;
	}
	return total;
}

/* The yielded ground summed up from its rim inwards, d stress / d ln r = hoop stress - stress, by Runge and
 * Kutta. */
static double summed_limit(const struct cavity *c, double stretched)
{
	double sine = sin(c->friction_rad), cosine = cos(c->friction_rad);
	double rim = fmax(c->plastic_m, c->hole_m), narrow = c->hole_m / rim;
	double share = fmin(narrow * narrow + stretched, 1), h = -log(share) / 2 / STEPS;
	double p = c->stress_pa * (1 + sine) + c->cohesion_pa * cosine;

	for (int i = 0; i < STEPS; i++) {
		double slope[4], at = p;
		for (int k = 0; k < 4; k++) {
			double hoop = (at * (1 - sine) - 2 * c->cohesion_pa * cosine) / (1 + sine);
			slope[k] = at - hoop;
			at = p + (k == 2 ? h : h / 2) * slope[k];
		}
		p += h / 6 * (slope[0] + 2 * slope[1] + 2 * slope[2] + slope[3]);
	}
	return c->pore_pa + p;
}

static double put_cavity(
	struct explaining *x, const struct formation *f, double total, double water_m, double z)
{
	struct cavity c = f->cavity;
	struct cavity_limit l;
	static const char *const rules[] = { [CAVITY_PLASTIC] = "the ground yields out to Rp",
		[CAVITY_WALL] = "no room to yield: the wall of the hole alone",
		[CAVITY_TENSION] = "the wall parts before it yields: u + 2 s + the tension of the sheet" };

	c.pore_pa = WATER * fmax(water_m - z, 0);
	c.stress_pa = total - c.pore_pa;
	explain_step(x, "u", AS_PRESSURE, c.pore_pa, "pore pressure, the water standing at %.2f%s",
		sb_frame_typed(&x->s->frame, water_m),
		f->soil.water_assumed ? " (the layer does not say: the ground, which bears least)" : "");
	explain_step(x, "s", AS_PRESSURE, c.stress_pa, "effective stress: all of these less u");
	explain_input(x, "c", AS_PRESSURE, c.cohesion_pa, "cohesion of %.60s, soil.csv, job sheet",
		f->soil.bed->name);
	explain_input(x, "phi", AS_ANGLE, c.friction_rad, "its friction");
	explain_input(x, "G", AS_PRESSURE, c.shear_pa, "its shear modulus");
	explain_input(x, "R0", AS_LENGTH, c.hole_m, "half of the pilot hole's diameter");
	explain_step(x, "Rp", AS_LENGTH, c.plastic_m, "%.3g of the cover of %.2f %s: [fluid] %s", f->share,
		sb_frame_typed(&x->s->frame, f->cover_m), sb_unit_short(x->job->unit),
		c.cohesion_pa > 0 ? "clay_share, as it has cohesion" : "sand_share, as it has no cohesion");
	if (sb_cavity_limit(&c, &l) != CAVITY_OK)
		return (double)NAN;
	explain_step(x, "Q", AS_NUMBER, l.stretched, "(s sin phi + c cos phi) / G");
	explain_words(x, EXPLAIN_NOTE, "What decides: %s.", rules[l.rule]);
	if (l.rule != CAVITY_TENSION)
		explain_check(x, AS_PRESSURE, summed_limit(&c, l.stretched), l.limit_pa,
			"the ground that yields, summed up from its rim inwards");
	return l.limit_pa;
}

void explain_formation(struct explaining *x)
{
	struct annular a = annular_of(x);
	const struct formation *f = &a.formation;
	double z = explain_place(x, x->trail_count - 1).u;

	explain_words(x, EXPLAIN_FORMULA,
		"limit = u + (s (1 + sin phi) + c cos phi + c cot phi) ((R0/Rp)^2 + Q)^(-sin phi / (1 + sin phi)) - c cot phi");
	explain_words(x, EXPLAIN_FORMULA, "without friction: limit = u + s + c - c ln((R0/Rp)^2 + Q)");
	if (f->known != FORMATION_KNOWN) {
		char missing[200];
		sb_formation_missing(f, missing);
		explain_words(x, EXPLAIN_NOTE, "No limit here: %s.", missing);
		return;
	}
	double station = x->row->deviation.station_m, total = put_layers(x, station, f->ground_m, z);
	double water = f->soil.water_assumed ? f->ground_m : f->soil.bed->water_m;
	double limit = put_cavity(x, f, total, water, z);
	explain_result(x, "formation_limit", AS_PRESSURE, limit, f->limit.limit_pa, "estimated");
	explain_words(x, EXPLAIN_NOTE,
		"An estimate, for the engineer to verify: the stress the same all ways and as large as that from above. Ground has been seen to break out below it.");
	explain_words(x, EXPLAIN_SOURCE,
		"cavity expansion: Luger and Hergarden 1988; Van Brussel and Hergarden, USACE CPAR-GL-98-1 (from memory)");
}
