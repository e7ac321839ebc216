/* The page of `stress`, and what both pages begin and end with. */
#include "io/pipe_load.h"

#include "base/measure.h"
#include "draw/axis.h"
#include "geom/angle.h"

#include <math.h>
#include <stdio.h>

#include "pipe_load_parts.h"

int sb_pipe_loads_make(
	const struct job *job, const struct solution *s, struct pipe_loads *out, struct sb_err *err)
{
	struct clearance_ask ask = sb_solution_clearance(job, s);

	sb_pipe_loads_clear(out);
	if (sb_pipe_load_make(&ask, false, &out->drilled, err) ||
		sb_pipe_load_make(&ask, true, &out->design, err)) {
		sb_pipe_loads_clear(out);
		return -1;
	}
	return 0;
}

void sb_pipe_loads_clear(struct pipe_loads *l)
{
	sb_pipe_load_clear(&l->drilled);
	sb_pipe_load_clear(&l->design);
}

/* ---- figures ---- */

/* Three digits are more than such an estimate knows; four are kept, so that columns add up. */
const char *sb_pipe_load_force(enum unit u, double newton, char text[SB_LOAD_TEXT])
{
	double typed = sb_measure_typed(u, MEASURE_FORCE, newton);

	if (isnan(newton))
		return "-";
	if (u == UNIT_M)
		snprintf(text, SB_LOAD_TEXT, "%.1f kN", typed);
	else
		snprintf(text, SB_LOAD_TEXT, "%.0f lbf", 10 * round(typed / 10));
	return text;
}

static int stress_decimals(const struct job *job)
{
	if (job->unit != UNIT_M)
		return 0;
	return job->material == MATERIAL_STEEL ? 1 : 2;
}

const char *sb_pipe_load_stress(const struct job *job, double pascal, char text[SB_LOAD_TEXT])
{
	if (isnan(pascal))
		return "-";
	snprintf(text, SB_LOAD_TEXT, "%.*f %s", stress_decimals(job),
		sb_measure_typed(job->unit, MEASURE_STRESS, pascal),
		sb_measure_unit(job->unit, MEASURE_STRESS));
	return text;
}

const char *load_page_station(const struct load_page *p, double metres, char text[SB_LOAD_TEXT])
{
	sb_axis_station(metres, p->job->unit, 1, text);
	return text;
}

const char *load_page_radius(const struct load_page *p, double metres, char text[SB_LOAD_TEXT])
{
	if (metres > 1e5)
		return "straight";
	snprintf(text, SB_LOAD_TEXT, "%.0f", sb_frame_typed(&p->s->frame, metres));
	return text;
}

/* ---- head and foot ---- */

static void say_pipe(const struct load_page *p, const struct load_given *g)
{
	const struct job *job = p->job;
	const char *size = sb_measure_unit(job->unit, MEASURE_SIZE);
	double weight = sb_frame_metres(&p->s->frame, 1) * g->section.air_n_m;

	sb_str_add(p->out, "pipe     %s, %s %s by %s %s", g->steel ? "steel" : "polyethylene",
		job->outside_diameter.text, size, job->wall.text, size);
	if (g->section.outer_m > g->section.outside_m)
		sb_str_add(p->out, ", coat %s %s", job->coating_thickness.text, size);
	sb_str_add(p->out, "; in air %.*f %s/%s; hole %s %s\n", job->unit == UNIT_M ? 3 : 1,
		sb_measure_typed(job->unit, MEASURE_FORCE, weight), sb_measure_unit(job->unit, MEASURE_FORCE),
		sb_unit_short(job->unit), job->final_diameter.text, size);
}

static void say_fluid(const struct load_page *p, const struct load_given *g)
{
	const struct job *job = p->job;
	const struct frame *f = &p->s->frame;

	sb_str_add(p->out, "fluid    %s %s, to elevation %.1f; the pipe is ", job->fluid_weight.text,
		sb_measure_unit(job->unit, MEASURE_DENSITY), sb_frame_typed(f, g->level_m));
	if (!g->water)
		sb_str_add(p->out, "empty\n");
	else if (isinf(g->water_to_m))
		sb_str_add(p->out, "full of water\n");
	else
		sb_str_add(p->out, "filled with water to %s\n", job->pull_water_to.text);
}

static void say_line(const struct load_page *p, const struct bore_line *line)
{
	const struct frame *f = &p->s->frame;
	const char *unit = sb_unit_short(p->job->unit);

	if (line->design)
		sb_str_add(p->out, "line     the design, %.1f %s long\n", sb_frame_typed(f, line->length_m),
			unit);
	else if (line->out)
		sb_str_add(p->out, "line     as drilled, %.1f %s long, read to %.1f\n",
			sb_frame_typed(f, line->length_m), unit, sb_frame_typed(f, line->projected_from_m));
	else
		sb_str_add(p->out, "line     as drilled to %.1f %s, then PROJECTED to the exit at %.1f\n",
			sb_frame_typed(f, line->projected_from_m), unit, sb_frame_typed(f, line->length_m));
}

void load_page_head(const struct load_page *p, const struct pipe_load *load)
{
	sb_str_add(p->out, "AN ESTIMATE, for the engineer to verify; what it rests on stands below.\n");
	say_pipe(p, &load->given);
	say_fluid(p, &load->given);
	say_line(p, &load->line);
}

void load_page_assumptions(const struct load_page *p, const struct load_given *g)
{
	const char *const *says = sb_pipe_load_assumptions(g);

	sb_str_add(p->out, "\nwhat it rests on\n");
	for (size_t i = 0; says[i]; i++)
		sb_str_wrap(p->out, says[i], 2, 80);
}

/* ---- the largest ---- */

/* "0.59 at 11+22.0, joint 36". */
static void say_worst(
	const struct load_page *p, const struct pipe_load *load, enum pipe_check check, char text[96])
{
	char station[SB_LOAD_TEXT];
	size_t at = load->worst[check];

	if (at == SIZE_MAX) {
		snprintf(text, 96, "not judged");
		return;
	}
	const struct load_station *s = &load->stations[at];
	load_page_station(p, s->station_m, station);
	if (s->joint > 0)
		snprintf(text, 96, "%.2f at %s, joint %d%s", s->ratio[check], station, s->joint,
			s->projected ? " (projected)" : "");
	else
		snprintf(text, 96, "%.2f at %s", s->ratio[check], station);
}

static void say_ratios(const struct load_page *p, const struct pipe_loads *l)
{
	char drilled[96], design[96];

	sb_str_add(p->out, "\n%-20s  %-32s  %s\n", "share of what is", "as drilled", "design");
	sb_str_add(p->out, "allowed, largest\n");
	for (int k = 0; k < PIPE_CHECKS; k++) {
		if (k == CHECK_ALL && !l->drilled.given.steel)
			continue;
		say_worst(p, &l->drilled, (enum pipe_check)k, drilled);
		say_worst(p, &l->design, (enum pipe_check)k, design);
		sb_str_add(p->out, "  %-20s%-32s  %s\n", sb_pipe_check_words[k], drilled, design);
	}
}

/* Of bending, over the window: D / (2 R). */
static const char *strain(const struct pipe_load *load, char text[SB_LOAD_TEXT])
{
	double most = 0;

	for (size_t i = 0; i < load->count; i++)
		most = fmax(most, load->stations[i].bending_pa);
	snprintf(text, SB_LOAD_TEXT, "%.3f %% by bending", 100 * most / load->given.section.modulus_pa);
	return text;
}

static void say_force_and_turn(const struct load_page *p, const struct pipe_loads *l)
{
	char a[SB_LOAD_TEXT], b[SB_LOAD_TEXT], one[64], other[64];

	sb_str_add(p->out, "%-20s  %-32s  %s\n", "largest force",
		sb_pipe_load_force(p->job->unit, l->drilled.stations[l->drilled.most].force_n, a),
		sb_pipe_load_force(p->job->unit, l->design.stations[l->design.most].force_n, b));
	sb_str_add(p->out, "%-20s  %-32s  %s\n", "largest strain", strain(&l->drilled, a),
		strain(&l->design, b));
	snprintf(one, sizeof one, "%.1f degrees in %zu legs", sb_deg(l->drilled.turn_rad),
		l->drilled.leg_count);
	snprintf(other, sizeof other, "%.1f degrees in %zu", sb_deg(l->design.turn_rad), l->design.leg_count);
	sb_str_add(p->out, "%-20s  %-32s  %s\n", "turns", one, other);
}

/* Why nothing is judged. */
static void say_not_judged(const struct load_page *p, const struct load_given *g)
{
	if (g->steel && isnan(g->yield_pa))
		sb_str_add(p->out, "Not judged: the sheet does not say [product_pipe] yield.\n");
	if (!g->steel && isnan(g->pull_stress_pa))
		sb_str_add(p->out,
			"Tension is not judged, nor its part in buckling: the sheet does not say\n[product_pipe] pull_stress.\n");
	if (!g->steel && isnan(g->minimum_radius_m))
		sb_str_add(p->out,
			"Bending is not judged: the sheet does not say [product_pipe] minimum_radius.\n");
	if (g->steel && g->yield_pa > 0 && sb_pipe_steel_allows(&g->section, g->yield_pa).outside)
		sb_str_add(p->out, "The wall is thinner than the checks are made for: D/t is over 300.\n");
}

/* ---- station by station ---- */

/* Five columns hold it; a hundred times what is allowed is no closer figure. */
static void say_share(const struct load_page *p, double ratio)
{
	if (isnan(ratio))
		sb_str_add(p->out, "    -");
	else if (ratio > 99)
		sb_str_add(p->out, "  >99");
	else
		sb_str_add(p->out, "%5.2f", ratio);
}

static void say_station(const struct load_page *p, const struct pipe_load *load, const struct load_station *s)
{
	const struct job *job = p->job;
	int d = stress_decimals(job);
	char station[SB_LOAD_TEXT], one[SB_LOAD_TEXT], window[SB_LOAD_TEXT], joint[16] = "-";

	if (s->joint > 0)
		snprintf(joint, sizeof joint, "%d%s", s->joint, s->projected ? "p" : "");
	sb_str_add(p->out, "%5s %9s %8s %6.*f %8s %6.*f %7.*f", joint,
		load_page_station(p, s->station_m, station), load_page_radius(p, s->radius_joint_m, one), d,
		sb_measure_typed(job->unit, MEASURE_STRESS, s->bending_joint_pa),
		load_page_radius(p, s->radius_m, window), d,
		sb_measure_typed(job->unit, MEASURE_STRESS, s->bending_pa), job->unit == UNIT_M ? 1 : 0,
		sb_measure_typed(job->unit, MEASURE_FORCE, s->force_n));
	for (int k = 0; k < PIPE_CHECKS; k++)
		if (k != CHECK_ALL || load->given.steel)
			say_share(p, s->ratio[k]);
	sb_str_add(p->out, "\n");
}

static void say_stations(const struct load_page *p, const struct pipe_load *load)
{
	const char *stress = sb_measure_unit(p->job->unit, MEASURE_STRESS),
		   *force = sb_measure_unit(p->job->unit, MEASURE_FORCE), *unit = sb_unit_short(p->job->unit);

	sb_str_add(
		p->out, "\n%31s%16s%33s\n", "over the joint", "over the window", "share of what is allowed");
	sb_str_add(p->out, "%5s %9s %8s %6s %8s %6s %7s%5s%5s%5s%5s%s\n", "joint", "station", "radius",
		"stress", "radius", "stress", "force", "tens", "bend", "pres", "t+b",
		load->given.steel ? "  all" : "");
	sb_str_add(p->out, "%24s %6s %8s %6s %7s\n", unit, stress, unit, stress, force);
	for (size_t i = 0; i < load->count; i++)
		say_station(p, load, &load->stations[i]);
	if (!load->line.out && !load->line.design)
		sb_str_add(p->out, "p: projected; nobody has read it yet.\n");
}

void sb_pipe_load_stress_text(const struct job *job, const struct solution *s, const struct pipe_loads *l,
	bool design, struct sb_str *out)
{
	const struct load_page p = { job, s, out };
	const struct pipe_load *load = design ? &l->design : &l->drilled;

	sb_str_add(out, "%s: the product pipe in this hole, %s\n", job->name,
		design ? "by design" : "as drilled");
	load_page_head(&p, load);
	say_ratios(&p, l);
	say_force_and_turn(&p, l);
	say_not_judged(&p, &load->given);
	say_stations(&p, load);
	load_page_assumptions(&p, &load->given);
}
