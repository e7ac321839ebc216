/* What the sheet gives of the pipe, the hole, the fluid and the pull, in SI; and what it must give. */
#include "model/pipe_load.h"

#include "base/measure.h"

#include <math.h>

/* kg/m3: common values, no source. */
#define STEEL_DENSITY 7850.0
#define PE_DENSITY 955.0

static const double none = (double)NAN;

static double si(const struct job *job, enum measure m, const struct number *n, double otherwise)
{
	return sb_number_given(n) ? sb_measure_si(job->unit, m, n->value) : otherwise;
}

static double plain(const struct number *n, double otherwise)
{
	return sb_number_given(n) ? n->value : otherwise;
}

static double metres(const struct clearance_ask *ask, const struct number *n, double otherwise)
{
	return sb_number_given(n) ? sb_frame_metres(ask->setup.frame, n->value) : otherwise;
}

/* kg/m3 or lb/ft3, which is the unit of unit weights without gravity. */
static double solid(const struct job *job, const struct number *n, double otherwise)
{
	if (!sb_number_given(n))
		return otherwise;
	return job->unit == UNIT_M ? n->value
				   : sb_measure_si(job->unit, MEASURE_UNIT_WEIGHT, n->value) / SB_GRAVITY;
}

static int missing(struct sb_err *err, const char *section, const char *key, const char *why)
{
	return sb_fail(err, SB_STATE, "The sheet does not say [%s] %s: %s.", section, key, why);
}

/* ---- the pipe ---- */

static int take_section(const struct job *job, struct load_given *g, struct sb_err *err)
{
	const char *unit = sb_measure_unit(job->unit, MEASURE_SIZE);
	/* 200 000 MPa; 29 000 000 psi where feet are used */
	double steel = job->unit == UNIT_M ? 200e9 : sb_measure_si(job->unit, MEASURE_STRESS, 29e6);

	if (!g->steel && !sb_number_given(&job->pipe_modulus))
		return missing(err, "product_pipe", "modulus",
			"polyethylene has none but for a duration and a temperature. Write the one for this pull");
	struct pipe_given p = {
		.outside_m = si(job, MEASURE_SIZE, &job->outside_diameter, none),
		.wall_m = si(job, MEASURE_SIZE, &job->wall, none),
		.density = solid(job, &job->pipe_density, g->steel ? STEEL_DENSITY : PE_DENSITY),
		.modulus_pa = si(job, MEASURE_STRESS, &job->pipe_modulus, steel),
		.coating_m = si(job, MEASURE_SIZE, &job->coating_thickness, 0),
		.coating_density = solid(job, &job->coating_density, 0),
	};
	if (p.coating_m > 0 && !sb_number_given(&job->coating_density))
		return missing(err, "product_pipe", "coating_density",
			"a coating of some thickness weighs something");
	switch (sb_pipe_section(&p, &g->section)) {
	case PIPE_OK:
		return 0;
	case PIPE_THICK:
		return sb_fail(err, SB_STATE,
			"A wall of %s %s takes half of %s %s or more: the pipe has no bore. Look at [product_pipe] wall and outside_diameter.",
			job->wall.text, unit, job->outside_diameter.text, unit);
	case PIPE_RANGE:
		break;
	}
	return sb_fail(err, SB_STATE,
		"[product_pipe] outside_diameter, wall, density, modulus or coating cannot be: each is more than 0.");
}

/* ---- the hole and the fluid ---- */

static int take_hole(const struct job *job, struct load_given *g, struct sb_err *err)
{
	const char *unit = sb_measure_unit(job->unit, MEASURE_SIZE);

	g->hole_m = si(job, MEASURE_SIZE, &job->final_diameter, none);
	if (isnan(g->hole_m))
		return missing(err, "hole", "final_diameter",
			"what room the hole leaves the pipe is not known without it");
	if (g->hole_m <= g->section.outer_m)
		return sb_fail(err, SB_STATE,
			"A final hole of %s %s does not take a pipe of %.4g %s over its coating. Look at [hole] final_diameter and [product_pipe].",
			job->final_diameter.text, unit,
			sb_measure_typed(job->unit, MEASURE_SIZE, g->section.outer_m), unit);
	return 0;
}

static int take_fluid(const struct clearance_ask *ask, struct load_given *g, struct sb_err *err)
{
	const struct job *job = ask->setup.job;
	const struct frame *f = ask->setup.frame;
	double given = si(job, MEASURE_DENSITY, &job->fluid_weight, none);
	double ends =
		fmin(sb_frame_metres(f, job->entry.elevation.value), ask->setup.design->exit_elevation_m);

	if (isnan(given))
		return missing(err, "fluid", "weight", "how much the pipe floats is not known without it");
	/* a thousandth of rounding: 8.34 lb/gal is water */
	if (given < SB_WATER * 0.998)
		return sb_fail(err, SB_STATE,
			"A drilling fluid of %s %s is lighter than water (%.4g): look at [fluid] weight and its unit.",
			job->fluid_weight.text, sb_measure_unit(job->unit, MEASURE_DENSITY),
			sb_measure_typed(job->unit, MEASURE_DENSITY, SB_WATER));
	g->fluid[DEGREE_GIVEN] = given;
	g->fluid[DEGREE_LOW] =
		si(job, MEASURE_DENSITY, &job->pull_fluid_low, fmin(fmax(0.9 * given, SB_WATER), given));
	g->fluid[DEGREE_HIGH] = si(job, MEASURE_DENSITY, &job->pull_fluid_high,
		fmax(si(job, MEASURE_DENSITY, &job->fluid_return_weight, 1.2 * given), given));
	g->level_m = metres(ask, &job->pull_fluid_level, ends);
	return 0;
}

/* ---- the pull ---- */

static void take_drag(const struct job *job, struct load_given *g)
{
	bool m = job->unit == UNIT_M;
	double shear = sb_measure_si(job->unit, MEASURE_PRESSURE, m ? 0.345 : 0.05);
	double driven = sb_measure_si(job->unit, MEASURE_PRESSURE, m ? 70 : 10);

	if (g->steel) {
		double given = si(job, MEASURE_PRESSURE, &job->fluid_drag, shear);
		g->drag_pa[DEGREE_GIVEN] = given;
		g->drag_pa[DEGREE_LOW] = si(job, MEASURE_PRESSURE, &job->fluid_drag_low, given / 2);
		g->drag_pa[DEGREE_HIGH] = si(job, MEASURE_PRESSURE, &job->fluid_drag_high, given * 2);
		return;
	}
	double given = si(job, MEASURE_PRESSURE, &job->hydrokinetic, driven);
	g->drag_pa[DEGREE_GIVEN] = given;
	g->drag_pa[DEGREE_LOW] = si(job, MEASURE_PRESSURE, &job->hydrokinetic_low, 0.4 * given);
	g->drag_pa[DEGREE_HIGH] = si(job, MEASURE_PRESSURE, &job->hydrokinetic_high, 2 * given);
}

static int take_pull(const struct clearance_ask *ask, struct load_given *g, struct sb_err *err)
{
	const struct job *job = ask->setup.job;

	g->friction[DEGREE_GIVEN] = job->friction_hole.value;
	g->friction[DEGREE_LOW] = fmin(job->friction_hole_low.value, job->friction_hole.value);
	g->friction[DEGREE_HIGH] = fmax(job->friction_hole_high.value, job->friction_hole.value);
	g->rollers[DEGREE_GIVEN] = job->friction_rollers.value;
	g->rollers[DEGREE_LOW] = fmin(plain(&job->friction_rollers_low, job->friction_rollers.value / 2),
		job->friction_rollers.value);
	g->rollers[DEGREE_HIGH] = fmax(plain(&job->friction_rollers_high, job->friction_rollers.value * 1.5),
		job->friction_rollers.value);
	take_drag(job, g);
	g->water = job->pull_contents == CONTENTS_WATER;
	g->water_to_m = metres(ask, &job->pull_water_to, HUGE_VAL);
	g->string_m = metres(ask, &job->pull_string_length, none);
	g->safe_n = si(job, MEASURE_FORCE, &job->safe_force, none);
	if (!g->water && sb_number_given(&job->pull_water_to))
		return sb_fail(err, SB_STATE,
			"[pull] water_to says how high water stands in the pipe, but contents is empty. Write contents = water, or take water_to out.");
	return 0;
}

const double *sb_load_varied(const struct load_given *g, enum load_vary what, enum measure *in)
{
	switch (what) {
	case VARY_FLUID:
		*in = MEASURE_DENSITY;
		return g->fluid;
	case VARY_DRAG:
		*in = MEASURE_PRESSURE;
		return g->drag_pa;
	case VARY_ROLLERS:
		*in = MEASURES;
		return g->rollers;
	case VARY_FRICTION:
	case LOAD_VARIES:
		break;
	}
	*in = MEASURES;
	return g->friction;
}

int sb_load_given(const struct clearance_ask *ask, struct load_given *out, struct sb_err *err)
{
	const struct job *job = ask->setup.job;
	struct load_given g = { .steel = job->material == MATERIAL_STEEL };

	g.yield_pa = si(job, MEASURE_STRESS, &job->yield, none);
	g.poisson = plain(&job->pipe_poisson, g.steel ? 0.3 : 0.45);
	g.ovality = plain(&job->pipe_ovality, 0) / 100;
	g.pull_stress_pa = si(job, MEASURE_STRESS, &job->pull_stress, none);
	g.watch = job->pull_watch.value;
	g.minimum_radius_m = metres(ask, &job->product_minimum_radius, none);
	if (take_section(job, &g, err) || take_hole(job, &g, err) || take_fluid(ask, &g, err) ||
		take_pull(ask, &g, err))
		return -1;
	*out = g;
	return 0;
}

/* ---- said with every figure ---- */

static const char *const steel_rests_on[] = {
	"An estimate, for the engineer to verify; published models of the pull disagree by more than its digits.",
	"Force at the pull head. What drill pipe and reamer take between it and the rig is not in it.",
	"The pipe takes the fewest straight and even runs within the room of the final hole, centred on the pilot; a run that goes further aside than that room bends it as a beam under tension held in three places (PRCI L51730, from memory).",
	"Friction by Coulomb, drag of the fluid by the pipe's surface, weight less the fluid that it displaces; above the fluid's level there is neither buoyancy nor drag. Water stands in the pipe in the hole alone; outside it is empty.",
	"Bending by the radius over the contract's window. Outside pressure of the standing fluid alone, without what flow adds.",
	"Checks after API RP 2A-WSD, from memory: tension 0.9 of yield, bending by slenderness, hoop buckling with 1.5.",
	NULL,
};

static const char *const pe_rests_on[] = {
	"An estimate, for the engineer to verify; published models of the pull disagree by more than its digits.",
	"Force at the pull head. What drill pipe and reamer take between it and the rig is not in it.",
	"The pipe takes the fewest straight and even runs within the room of the final hole, centred on the pilot. Leg by leg as ASTM F1962 has it, without stiffness; the drag of the fluid driven out is added once, at its full size.",
	"Weight less the fluid that it displaces; above the fluid's level there is no buoyancy. Water stands in the pipe in the hole alone; outside it is empty.",
	"Stress is held against pull_stress, which must be the one for this pull's duration and temperature, as must the modulus.",
	"Outside pressure of the standing fluid alone against buckling with ovality and tension, without a factor of safety.",
	NULL,
};

const char *const *sb_pipe_load_assumptions(const struct load_given *g)
{
	return g->steel ? steel_rests_on : pe_rests_on;
}
