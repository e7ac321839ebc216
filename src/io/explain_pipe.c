/* The product pipe in the hole: the stress of bending, the force of the pull, and what both come to with
 * outside pressure. */
#include "base/measure.h"
#include "geom/angle.h"
#include "geom/bend.h"
#include "model/pipe_load.h"

#include <math.h>
#include <stdio.h>

#include "explain_parts.h"

/* ---- the pipe's figures, in the job's units: numbers, with the unit in the words ---- */

struct pipe_about {
	struct explaining *x;
	struct pipe_load load;
	const struct load_station *at;
	size_t station;
};

static const char *unit_of(const struct explaining *x, enum measure m)
{
	return sb_measure_unit(x->job->unit, m);
}

static double typed(const struct explaining *x, enum measure m, double si)
{
	return sb_measure_typed(x->job->unit, m, si);
}

/* A note in place of the figure where the sheet does not give enough, or the joint is no longer in the hole.
 */
static bool begin(struct explaining *x, struct pipe_about *p)
{
	struct clearance_ask ask = sb_solution_clearance(x->job, x->s);
	const struct path *path = &x->s->path;
	struct sb_err err = { 0 };

	*p = (struct pipe_about){ .x = x };
	if (x->row < path->rows || x->row >= path->rows + path->count) {
		explain_words(
			x, EXPLAIN_NOTE, "This joint was pulled back: the pipe does not go through it.");
		return false;
	}
	if (sb_pipe_load_make(&ask, false, &p->load, &err)) {
		explain_words(x, EXPLAIN_NOTE, "%s", err.text);
		return false;
	}
	p->station = sb_pipe_load_find(&p->load, x->row->survey_md_m);
	p->at = &p->load.stations[p->station];
	return true;
}

static void end(struct pipe_about *p)
{
	sb_pipe_load_clear(&p->load);
}

static void put_size(struct explaining *x)
{
	char where[EXPLAIN_WHERE];

	explain_typed(x, "D", &x->job->outside_diameter, unit_of(x, MEASURE_SIZE), "%s",
		explain_key(x, "product_pipe", "outside_diameter", where));
	explain_typed(x, "t", &x->job->wall, unit_of(x, MEASURE_SIZE), "%s",
		explain_key(x, "product_pipe", "wall", where));
}

static void put_modulus(struct explaining *x, const struct pipe_section *s)
{
	if (sb_number_given(&x->job->pipe_modulus)) {
		char where[EXPLAIN_WHERE];
		explain_typed(x, "E", &x->job->pipe_modulus, unit_of(x, MEASURE_STRESS), "%s",
			explain_key(x, "product_pipe", "modulus", where));
		return;
	}
	explain_input(x, "E", AS_NUMBER, typed(x, MEASURE_STRESS, s->modulus_pa),
		"%s, of steel: [product_pipe] modulus is left out", unit_of(x, MEASURE_STRESS));
}

/* ---- bending ---- */

void explain_bending(struct explaining *x)
{
	struct explain_course c = explain_course(x, x->trail_count - 1);
	struct explain_window w = explain_window(x, x->trail_count - 1, 0);
	double angle = x->job->method == METHOD_SUM ? w.sum_rad : w.ends_rad;
	double joint_m = sb_bend_radius(c.length_m, c.dogleg_rad);
	const char *unit = unit_of(x, MEASURE_STRESS);
	struct pipe_about p;

	explain_words(x, EXPLAIN_FORMULA, "f = E D / (2 R)");
	if (begin(x, &p)) {
		const struct pipe_section *s = &p.load.given.section;
		put_size(x);
		put_modulus(x, s);
		explain_input(x, "R", AS_LENGTH, joint_m, "of this joint (explain radius-joint)");
		double stress = s->modulus_pa * s->outside_m / (2 * joint_m);
		explain_result(x, "bending_joint", AS_NUMBER, typed(x, MEASURE_STRESS, stress),
			typed(x, MEASURE_STRESS, sb_pipe_bending(s, x->row->radius_m)), "%s, E D / (2 R)",
			unit);
		/* the strain of the outermost fibre of an arc: its length over that of the axis, less one */
		double outer =
			c.length_m > 0 ? c.dogleg_rad * (joint_m + s->outside_m / 2) / c.length_m - 1 : 0;
		if (c.dogleg_rad > 0)
			explain_check(x, AS_NUMBER, typed(x, MEASURE_STRESS, outer * s->modulus_pa),
				typed(x, MEASURE_STRESS, stress),
				"E times the strain of the outermost fibre, (R + D/2) b / L - 1");
		if (w.full && x->row->window.joints > 0)
			explain_result(x, "bending_window", AS_NUMBER,
				typed(x, MEASURE_STRESS,
					sb_pipe_bending(s, sb_bend_radius(w.length_m, angle))),
				typed(x, MEASURE_STRESS, sb_pipe_bending(s, x->row->window.radius_m)),
				"%s, with R over the contract's window (explain radius-window): this one goes into the checks",
				unit);
		end(&p);
	}
	explain_words(x, EXPLAIN_NOTE,
		"One joint's radius is mostly reading noise; the pipe bridges it, and the window judges.");
	explain_words(x, EXPLAIN_SOURCE, "elastic bending of a tube: f = E e, e = (D/2) / R");
}

/* ---- the pull ---- */

/* N by X and Y as they are printed, which loses digits where there is little tension. */
static double by_x_and_y(
	const struct pipe_load *load, const struct pull_leg *leg, double tension, double press)
{
	double ei = load->given.section.stiffness, l = leg->length_m;
	double j = sqrt(ei / tension), u = l / j;
	double big_x = l / 4 - j / 2 * tanh(u / 2), big_y = l * l / 8 - j * j * (1 - 1 / cosh(u / 2));

	return (tension * leg->aside_m - press * big_y) / big_x;
}

/* What a stretch of the hole weighs and lifts: the same sums, from its stations. */
struct passed {
	double length_m, wet_m, weight_n, lift_n;
};

static double below(double a, double b, double level)
{
	double low = fmin(a, b), high = fmax(a, b);

	if (high <= level)
		return 1;
	return low >= level ? 0 : (level - low) / (high - low);
}

static struct passed pass(const struct pipe_load *load, size_t from, size_t to)
{
	const struct load_given *g = &load->given;
	struct passed p = { 0, 0, 0, 0 };

	for (size_t i = to; i < from; i++) {
		const struct load_station *a = &load->stations[i], *b = &load->stations[i + 1];
		double length = b->md_m - a->md_m, wet = below(a->at.u, b->at.u, g->level_m);
		double full = g->water ? below(a->at.u, b->at.u, g->water_to_m) : 0;
		double weight = sb_pipe_weight(&g->section, g->fluid[DEGREE_GIVEN], wet, full);
		p.length_m += length;
		p.wet_m += wet * length;
		p.weight_n += weight * length;
		p.lift_n += weight * (a->at.u - b->at.u);
	}
	return p;
}

/* Steel: the tension that comes out is where both sides agree; by halving, which needs no convergence. */
static double by_halving(
	const struct pipe_load *load, const struct load_leg *leg, const struct passed *p, double in)
{
	const struct load_given *g = &load->given;
	double w = p->weight_n / p->length_m, inside = leg->leg.turn_rad > 1e-9 ? leg->leg.inside.u : 0;
	double flat = w * w * (1 - leg->leg.along.u * leg->leg.along.u);
	double across = sqrt(fmax(flat - w * inside * w * inside, 0));
	double fixed = SB_PI * g->section.outer_m * g->drag_pa[DEGREE_GIVEN] * p->wet_m + p->lift_n;
	double low = 0, high = 1e9;

	for (int i = 0; i < 200; i++) {
		double out = (low + high) / 2, mean = fmax((in + out) / 2, 1e-3);
		double press = leg->leg.bent
			? 2 * by_x_and_y(load, &leg->leg, mean, w * inside) / leg->leg.length_m
			: mean * leg->leg.turn_rad / leg->leg.length_m - w * inside;
		double wanted = in + g->friction[DEGREE_GIVEN] * hypot(press, across) * p->length_m + fixed;
		if (wanted > out)
			low = out;
		else
			high = out;
	}
	return (low + high) / 2;
}

static double by_capstan(
	const struct pipe_load *load, const struct load_leg *leg, const struct passed *p, double in)
{
	double mu = load->given.friction[DEGREE_GIVEN];
	double turn = leg->leg.turn_rad * p->length_m / leg->leg.length_m;

	return fmax(exp(mu * turn) * (in + mu * fabs(p->weight_n) + p->lift_n), 0);
}

static double put_outside(struct pipe_about *p)
{
	struct explaining *x = p->x;
	const struct load_given *g = &p->load.given;
	double rest = fmax(g->string_m - (p->load.line.length_m - p->at->md_m), 0);
	double edge = asin(fmin(fmax(p->load.line.stretches[p->load.line.count - 1].heading_to.u, 0), 1));
	double mr = g->rollers[DEGREE_GIVEN];
	double force = mr * g->section.air_n_m * rest * (g->steel ? 1 : exp(mr * edge));
	char where[EXPLAIN_WHERE];

	explain_typed(x, "mr", &x->job->friction_rollers, "", "friction outside: %s",
		explain_key(x, "pull", "friction_rollers", where));
	explain_input(x, "rest", AS_LENGTH, rest, "of the string that still lies outside");
	explain_step(x, "T0", AS_NUMBER, typed(x, MEASURE_FORCE, force), "%s, %s", unit_of(x, MEASURE_FORCE),
		g->steel ? "mr times its weight in air"
			 : "mr times its weight in air, times e^(mr a) around the edge of the hole");
	return force;
}

static void put_friction(struct pipe_about *p)
{
	struct explaining *x = p->x;
	const struct load_given *g = &p->load.given;
	char where[EXPLAIN_WHERE];

	explain_typed(x, "mu", &x->job->friction_hole, "", "friction in the hole: %s",
		explain_key(x, "pull", "friction_hole", where));
	explain_input(x, "drag", AS_NUMBER, typed(x, MEASURE_PRESSURE, g->drag_pa[DEGREE_GIVEN]), "%s, %s",
		unit_of(x, MEASURE_PRESSURE),
		g->steel ? "of the fluid on the pipe's surface" : "by which the fluid is driven out");
	explain_input(x, "w", AS_NUMBER,
		typed(x, MEASURE_FORCE, p->at->weight_n_m) * sb_frame_metres(&x->s->frame, 1),
		"%s per %s of the pipe in the hole here; negative: it floats", unit_of(x, MEASURE_FORCE),
		sb_unit_short(x->job->unit));
}

static double put_legs(struct pipe_about *p, double force)
{
	struct explaining *x = p->x;
	char symbol[24];

	for (size_t i = 0; i < p->load.leg_count && p->load.legs[i].last > p->station; i++) {
		const struct load_leg *leg = &p->load.legs[i];
		size_t to = leg->first > p->station ? leg->first : p->station;
		struct passed passed = pass(&p->load, leg->last, to);
		force = p->load.given.steel ? by_halving(&p->load, leg, &passed, force)
					    : by_capstan(&p->load, leg, &passed, force);
		snprintf(symbol, sizeof symbol, "T%zu", i + 1);
		explain_step(x, symbol, AS_NUMBER, typed(x, MEASURE_FORCE, force),
			"%s, after %.1f %s that turn %.2f degrees%s", unit_of(x, MEASURE_FORCE),
			sb_frame_typed(&x->s->frame, passed.length_m), sb_unit_short(x->job->unit),
			sb_deg(leg->leg.turn_rad * passed.length_m / leg->leg.length_m),
			!p->load.given.steel	? ""
				: leg->leg.bent ? ", a curve that bends the pipe"
						: ", within the room of the hole");
	}
	return force;
}

void explain_pull(struct explaining *x)
{
	struct pipe_about p;
	bool known = begin(x, &p), steel = x->job->material == MATERIAL_STEEL;

	explain_words(x, EXPLAIN_FORMULA,
		steel ? "leg by leg: T2 = T1 + mu q L + pi D drag L + lift; in a curve q L = 2 N, N = (T h - w Y) / X, T the mean of T1 and T2"
		      : "leg by leg: T2 = e^(mu a) (T1 + mu |w| L + lift), and the drag of the fluid once");
	if (known) {
		double force = put_outside(&p);
		put_friction(&p);
		force = put_legs(&p, force);
		if (!steel && p.station + 1 < p.load.count) {
			const struct load_given *g = &p.load.given;
			double d = g->section.outer_m,
			       drag = g->drag_pa[DEGREE_GIVEN] * SB_PI / 8 * (g->hole_m * g->hole_m - d * d);
			explain_step(x, "Th", AS_NUMBER, typed(x, MEASURE_FORCE, drag),
				"%s, drag (pi/8) (Dh^2 - D^2)", unit_of(x, MEASURE_FORCE));
			force += drag;
		}
		/* Halving and iterating end where their own rounding does, some 1e-13 of the force apart. */
		if (fabs(force - p.at->force_n) <= 1e-10 * force)
			force = p.at->force_n;
		explain_result(x, "force", AS_NUMBER, typed(x, MEASURE_FORCE, force),
			typed(x, MEASURE_FORCE, p.at->force_n), "%s, with the pull head here",
			unit_of(x, MEASURE_FORCE));
		end(&p);
	}
	explain_words(x, EXPLAIN_NOTE,
		"An estimate, for the engineer to verify: at the pull head, without what drill pipe and reamer take. `pull` has its band and what it rests on.");
	explain_words(x, EXPLAIN_SOURCE,
		steel ? "PRCI L51730 (1995); Huey, Hair and McLeod (1996), from memory; the beam checked by integrating its equation"
		      : "ASTM F1962, as in Najafi, Trenchless Technology Piping (2010), p. 217; carried leg by leg here");
}

/* ---- all together ---- */

static void put_steel(struct pipe_about *p)
{
	struct explaining *x = p->x;
	const struct load_given *g = &p->load.given;
	const struct load_station *s = p->at;
	const char *unit = unit_of(x, MEASURE_STRESS);
	struct steel_allows a = sb_pipe_steel_allows(&g->section, g->yield_pa);
	double ft = s->force_n / g->section.area_m2, fb = s->bending_pa, fy = g->yield_pa;
	double fh = fmax(s->pressure_pa, 0) * g->section.outside_m / (2 * g->section.wall_m);
	char where[EXPLAIN_WHERE];

	explain_typed(x, "Fy", &x->job->yield, unit, "%s", explain_key(x, "product_pipe", "yield", where));
	explain_step(
		x, "ft", AS_NUMBER, typed(x, MEASURE_STRESS, ft), "%s, force over wall (explain pull)", unit);
	explain_step(
		x, "fb", AS_NUMBER, typed(x, MEASURE_STRESS, fb), "%s, of bending (explain bending)", unit);
	explain_step(x, "fh", AS_NUMBER, typed(x, MEASURE_STRESS, fh), "%s, p D / (2 t) of p %.3f %s outside",
		unit, typed(x, MEASURE_PRESSURE, s->pressure_pa), unit_of(x, MEASURE_PRESSURE));
	explain_step(x, "Fb", AS_NUMBER, typed(x, MEASURE_STRESS, a.bending_pa), "%s, allowed at D/t %.1f",
		unit, g->section.outside_m / g->section.wall_m);
	explain_step(x, "Fhc", AS_NUMBER, typed(x, MEASURE_STRESS, a.hoop_critical_pa),
		"%s, at which the hoop buckles", unit);
	explain_result(x, "tension_bending", AS_NUMBER, ft / (0.9 * fy) + fb / a.bending_pa,
		s->ratio[CHECK_TENSION_BENDING], "ft/(0.9 Fy) + fb/Fb");
	double one = 1.25 * (ft + fb - 0.5 * fh) / fy, other = 1.5 * fh / a.hoop_critical_pa;
	explain_step(x, "A", AS_NUMBER, one, "1.25 (ft + fb - 0.5 fh) / Fy");
	explain_step(x, "B", AS_NUMBER, other, "1.5 fh / Fhc");
	double all = one * one + other * other + 2 * g->poisson * fabs(one) * other;
	explain_result(
		x, "all", AS_NUMBER, all, s->ratio[CHECK_ALL], "A^2 + B^2 + 2 v |A| B, v %g", g->poisson);
	/* the same as the square of one side of a triangle with the angle pi - acos v between the others */
	double side = hypot(fabs(one) + g->poisson * other, other * sqrt(1 - g->poisson * g->poisson));
	explain_check(x, AS_NUMBER, side * side, all,
		"as the square of a triangle's side: (|A| + v B)^2 + (1 - v^2) B^2");
	double worst = fmax(all, s->ratio[CHECK_TENSION_BENDING]);
	explain_words(x, EXPLAIN_LIMIT, worst > 1 ? "Over 1: not kept." : "At most 1: kept.");
}

static void put_pe(struct pipe_about *p)
{
	struct explaining *x = p->x;
	const struct load_given *g = &p->load.given;
	const struct load_station *s = p->at;
	const char *unit = unit_of(x, MEASURE_STRESS);
	double ft = s->force_n / g->section.area_m2;
	char where[EXPLAIN_WHERE];

	explain_typed(x, "S", &x->job->pull_stress, unit, "%s",
		explain_key(x, "product_pipe", "pull_stress", where));
	explain_step(
		x, "ft", AS_NUMBER, typed(x, MEASURE_STRESS, ft), "%s, force over wall (explain pull)", unit);
	explain_step(x, "fb", AS_NUMBER, typed(x, MEASURE_STRESS, s->bending_pa),
		"%s, of bending (explain bending)", unit);
	explain_result(x, "tension_bending", AS_NUMBER, (ft + s->bending_pa) / g->pull_stress_pa,
		s->ratio[CHECK_TENSION_BENDING], "(ft + fb) / S");
	explain_step(x, "fo", AS_NUMBER, sb_pipe_pe_ovality(g->ovality), "for an ovality of %g %%",
		g->ovality * 100);
	explain_step(x, "fr", AS_NUMBER, sb_pipe_pe_tension(ft, g->pull_stress_pa), "for the tension");
	double thin = g->section.wall_m / (g->section.outside_m - g->section.wall_m);
	double buckles = 2 * g->section.modulus_pa / (1 - g->poisson * g->poisson) * pow(thin, 3) *
		sb_pipe_pe_ovality(g->ovality) * sb_pipe_pe_tension(ft, g->pull_stress_pa);
	explain_step(x, "Pcr", AS_NUMBER, typed(x, MEASURE_PRESSURE, buckles),
		"%s, 2 E / (1 - v^2) (1 / (DR - 1))^3 fo fr", unit_of(x, MEASURE_PRESSURE));
	explain_result(x, "outside_pressure", AS_NUMBER, fmax(s->pressure_pa, 0) / buckles,
		s->ratio[CHECK_HOOP], "of %.2f %s outside", typed(x, MEASURE_PRESSURE, s->pressure_pa),
		unit_of(x, MEASURE_PRESSURE));
}

void explain_pipe_share(struct explaining *x)
{
	bool steel = x->job->material == MATERIAL_STEEL;
	struct pipe_about p;

	explain_words(x, EXPLAIN_FORMULA,
		steel ? "ft/(0.9 Fy) + fb/Fb, and A^2 + B^2 + 2 v |A| B: each at most 1"
		      : "(ft + fb) / S, and outside pressure over Pcr: each at most 1");
	if (begin(x, &p)) {
		const struct load_given *g = &p.load.given;
		put_size(x);
		if (steel ? g->yield_pa > 0 : g->pull_stress_pa > 0)
			(steel ? put_steel : put_pe)(&p);
		else
			explain_words(x, EXPLAIN_NOTE,
				"Not judged: the sheet does not say [product_pipe] %s.",
				steel ? "yield" : "pull_stress");
		end(&p);
	}
	explain_words(x, EXPLAIN_NOTE, "An estimate, for the engineer to verify.");
	explain_words(x, EXPLAIN_SOURCE,
		steel ? "API RP 2A-WSD, section 3, as PRCI L51730 takes it; from memory"
		      : "PPI Handbook of PE Pipe, chapter 12; ovality as in ASTM F1216, appendix X1; from memory");
}
