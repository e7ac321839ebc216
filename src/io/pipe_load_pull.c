/* The estimate of the pull for people. */
#include "base/measure.h"
#include "geom/angle.h"
#include "io/pipe_load.h"

#include <math.h>
#include <stdio.h>

#include "pipe_load_parts.h"

static const char *force(const struct load_page *p, double newton, char text[SB_LOAD_TEXT])
{
	return sb_pipe_load_force(p->job->unit, newton, text);
}

/* A force without its unit, for tables. */
static double bare(const struct load_page *p, double newton)
{
	return sb_measure_typed(p->job->unit, MEASURE_FORCE, newton);
}

static int decimals(const struct load_page *p)
{
	return p->job->unit == UNIT_M ? 1 : 0;
}

/* ---- the largest, and what the pilot cost ---- */

static void say_limit(const struct load_page *p, const struct pipe_load *load)
{
	double safe = load->given.safe_n, share = load->stations[load->most].force_n / safe;
	double high = load->stations[load->highest].high_n / safe;

	if (!(safe > 0)) {
		sb_str_add(p->out, "limit    the sheet sets none ([pull] safe_force)\n");
		return;
	}
	sb_str_add(p->out,
		"limit    %s %s, [pull] safe_force: %.0f %% of it, %.0f %% with all of the band%s\n",
		p->job->safe_force.text, sb_measure_unit(p->job->unit, MEASURE_FORCE), share * 100,
		high * 100,
		share > 1
			? ".\n         The estimate is OVER the limit. Ask the engineer before the pull begins."
			: high > 1
			? ".\n         The band passes the limit: ask the engineer before the pull begins."
			: "");
}

static void say_largest(const struct load_page *p, const struct pipe_load *load)
{
	const struct load_station *s = &load->stations[load->most];
	char most[SB_LOAD_TEXT], low[SB_LOAD_TEXT], high[SB_LOAD_TEXT], station[SB_LOAD_TEXT];

	sb_str_add(p->out,
		"largest  %s; %s to %s as friction, fluid and drag vary;\n         with the pull head at station %s\n",
		force(p, s->force_n, most), force(p, s->low_n, low), force(p, s->high_n, high),
		load_page_station(p, s->station_m, station));
	say_limit(p, load);
	if (load->given.pull_stress_pa > 0)
		sb_str_add(p->out, "pipe     takes %s at [product_pipe] pull_stress\n",
			force(p, load->given.pull_stress_pa * load->given.section.area_m2, most));
	if (load->runs)
		sb_str_add(p->out,
			"         Somewhere it runs in by its own weight: there the force was held at 0.\n");
}

static void say_cost(const struct load_page *p, const struct pipe_loads *l)
{
	double drilled = l->drilled.stations[l->drilled.most].force_n;
	double design = l->design.stations[l->design.most].force_n, more = drilled - design;
	char one[SB_LOAD_TEXT], other[SB_LOAD_TEXT];

	sb_str_add(p->out,
		"design   %s: the pilot's own bends cost %s %s (%.1f %%);\n         it turns %.1f degrees, the design %.1f\n",
		force(p, design, one), force(p, fabs(more), other), more < 0 ? "less" : "more",
		design > 0 ? fabs(more) / design * 100 : 0.0, sb_deg(l->drilled.turn_rad),
		sb_deg(l->design.turn_rad));
}

/* ---- tables ---- */

static void say_sensitivity(const struct load_page *p, const struct pipe_load *load)
{
	const struct load_given *g = &load->given;
	enum unit u = p->job->unit;

	sb_str_add(p->out, "\nlargest force, %s, with one thing varied       low    as given        high\n",
		sb_measure_unit(u, MEASURE_FORCE));
	for (int k = 0; k < LOAD_VARIES; k++) {
		enum measure in;
		const double *values = sb_load_varied(g, (enum load_vary)k, &in);
		const char *unit = in == MEASURES ? "" : sb_measure_unit(u, in);
		sb_str_add(p->out, "  %-22s%-9s", sb_load_vary_words[k], unit);
		for (int d = 0; d < LOAD_DEGREES; d++)
			sb_str_add(p->out, "%12.4g",
				in == MEASURES ? values[d] : sb_measure_typed(u, in, values[d]));
		sb_str_add(p->out, "\n  %-31s", "");
		for (int d = 0; d < LOAD_DEGREES; d++)
			sb_str_add(p->out, "%12.*f", decimals(p), bare(p, load->vary_n[k][d]));
		sb_str_add(p->out, "\n");
	}
}

static void say_legs(const struct load_page *p, const struct pipe_load *load)
{
	const struct frame *f = &p->s->frame;
	char from[SB_LOAD_TEXT], to[SB_LOAD_TEXT], radius[SB_LOAD_TEXT];

	sb_str_add(p->out, "\n%-41slength %2s%7s%9s%9s\n", "leg by leg, from the exit to the rig",
		sb_unit_short(p->job->unit), "turn", "radius", "force");
	for (size_t i = 0; i < load->leg_count; i++) {
		const struct load_leg *leg = &load->legs[i];
		sb_str_add(p->out, "  %9s to %-9s %-22s%7.1f%7.2f%9s%9.*f\n",
			load_page_station(p, load->stations[leg->last].station_m, from),
			load_page_station(p, load->stations[leg->first].station_m, to),
			leg->leg.bent			   ? "curve, bends the pipe"
				: leg->leg.turn_rad > 1e-6 ? "within the hole's room"
							   : "straight",
			sb_frame_typed(f, leg->leg.length_m), sb_deg(leg->leg.turn_rad),
			load_page_radius(p, leg->radius_m, radius), decimals(p),
			bare(p, load->stations[leg->first].force_n));
	}
}

static void say_f1962(const struct load_page *p, const struct pipe_load *load)
{
	static const char *const points[] = { "A where it enters", "B at the foot of the ramp",
		"C at the foot of the other", "D where it comes out" };
	char text[SB_LOAD_TEXT];

	sb_str_add(p->out, "\nASTM F1962, two ramps and a level bottom in place of this line\n");
	if (load->f1962_status != F1962_OK) {
		sb_str_wrap(p->out,
			load->f1962_status == F1962_SHORT
				? "Not for this shape: its two ramps, twice the depth over the angle each, are longer than the crossing."
				: "Not for this shape: it wants the line to go down at the entry and up at the exit.",
			2, 80);
		return;
	}
	for (int k = 0; k < 4; k++)
		sb_str_add(p->out, "  %-28s%s\n", points[k], force(p, load->f1962_forces.force_n[k], text));
	sb_str_add(p->out, "  %-28s%s\n", "plus fluid driven out", force(p, load->hydrokinetic_n, text));
}

/* One place of the head a joint: where the joint begins, as when it has come out at the rig. */
static void say_heads(const struct load_page *p, const struct pipe_load *load)
{
	const struct path *path = &p->s->path;
	char station[SB_LOAD_TEXT];

	sb_str_add(p->out, "\nwith the pull head at the beginning of a joint\n");
	sb_str_add(p->out, "  joint     depth    station       force         low        high\n");
	for (size_t i = path->count; i-- > 1;) {
		double md = path->rows[i - 1].bit_md_m, value, low, high;
		if (!sb_pipe_load_at(load, md, &value, &low, &high))
			continue;
		sb_str_add(p->out, "  %5d %9.1f %10s %11.*f %11.*f %11.*f\n", path->rows[i].joint,
			sb_frame_typed(&p->s->frame, md),
			load_page_station(p, sb_bore_line_station(&load->line, md), station), decimals(p),
			bare(p, value), decimals(p), bare(p, low), decimals(p), bare(p, high));
	}
}

void sb_pipe_load_pull_text(const struct job *job, const struct solution *s, struct sb_str *out)
{
	const struct load_page p = { job, s, out };
	struct pipe_loads l = { 0 };
	struct sb_err err = { 0 };

	sb_str_add(out, "%s: estimate of the pull, as drilled\n", job->name);
	if (sb_pipe_loads_make(job, s, &l, &err)) {
		struct sb_str why = { 0 };
		sb_str_add(&why, "There is none. %s", err.text);
		sb_str_wrap(out, sb_str_get(&why), 0, 80);
		sb_str_clear(&why);
		return;
	}
	load_page_head(&p, &l.drilled);
	sb_str_add(out, "\n");
	say_largest(&p, &l.drilled);
	say_cost(&p, &l);
	say_sensitivity(&p, &l.drilled);
	say_legs(&p, &l.drilled);
	if (!l.drilled.given.steel)
		say_f1962(&p, &l.drilled);
	say_heads(&p, &l.drilled);
	load_page_assumptions(&p, &l.drilled.given);
	sb_pipe_loads_clear(&l);
}
