/* The product pipe in this hole, as drilled beside the design: the largest force and shares, what moves them,
 * and each station. An estimate, and so it says of itself. */
#include "base/measure.h"
#include "geom/angle.h"
#include "io/pipe_load.h"

#include <math.h>
#include <stdio.h>

#include "report_parts.h"

#define COUNT(columns) (sizeof(columns) / sizeof *(columns))

static double force_of(const struct report *r, double newton)
{
	return sb_measure_typed(r->job->unit, MEASURE_FORCE, newton);
}

static int decimals(const struct report *r)
{
	return r->job->unit == UNIT_M ? 1 : 0;
}

/* ---- what it rests on ---- */

static void put_given(struct report *r, const struct pipe_load *load)
{
	const struct load_given *g = &load->given;
	const struct job *job = r->job;
	const char *size = sb_measure_unit(job->unit, MEASURE_SIZE);
	const struct bore_line *line = &load->line;

	sb_document_pair(r->d, "pipe", "%s, %s by %s %s, hole of %s %s", g->steel ? "steel" : "polyethylene",
		job->outside_diameter.text, job->wall.text, size, job->final_diameter.text, size);
	sb_document_pair(r->d, "fluid", "%s %s, to elevation %.1f", job->fluid_weight.text,
		sb_measure_unit(job->unit, MEASURE_DENSITY), report_typed(r, g->level_m));
	if (g->water && !isinf(g->water_to_m))
		sb_document_pair(r->d, "in the pipe", "water to elevation %s", job->pull_water_to.text);
	else
		sb_document_pair(r->d, "in the pipe", "%s", g->water ? "full of water" : "nothing");
	if (line->out)
		sb_document_pair(r->d, "line", "as drilled, %.1f %s long, read to %.1f",
			report_typed(r, line->length_m), r->unit, report_typed(r, line->projected_from_m));
	else
		sb_document_pair(r->d, "line", "as drilled to %.1f %s, then PROJECTED to the exit at %.1f",
			report_typed(r, line->projected_from_m), r->unit, report_typed(r, line->length_m));
}

/* ---- drilled beside design ---- */

/* "0.59 at 11+22.00, joint 36" */
static void put_worst(struct report *r, const struct pipe_load *load, enum pipe_check check)
{
	char station[REPORT_WORDS];
	size_t at = load->worst[check];

	if (at == SIZE_MAX) {
		sb_document_cell(r->d, "not judged");
		return;
	}
	const struct load_station *s = &load->stations[at];
	report_station(r, s->station_m, station);
	if (s->joint > 0)
		sb_document_cell(r->d, "%.2f at %s, joint %d%s", s->ratio[check], station, s->joint,
			s->projected ? " (projected)" : "");
	else
		sb_document_cell(r->d, "%.2f at %s", s->ratio[check], station);
}

static void put_largest(struct report *r, const struct pipe_load *load)
{
	const struct load_station *s = &load->stations[load->most];
	char force[SB_LOAD_TEXT], low[SB_LOAD_TEXT], high[SB_LOAD_TEXT];

	sb_document_cell(r->d, "%s, likely %s to %s", sb_pipe_load_force(r->job->unit, s->force_n, force),
		sb_pipe_load_force(r->job->unit, s->low_n, low),
		sb_pipe_load_force(r->job->unit, s->high_n, high));
}

static void put_beside(struct report *r, const struct pipe_loads *l)
{
	static const struct table_column columns[] = { { "largest", TABLE_WORDS },
		{ "as drilled", TABLE_WORDS }, { "design", TABLE_WORDS } };

	sb_document_subheading(r->d, "Shares of what is allowed (over 1 is not kept), force and turns");
	sb_document_table(r->d, columns, COUNT(columns));
	for (int k = 0; k < PIPE_CHECKS; k++) {
		if (k == CHECK_ALL && !l->drilled.given.steel)
			continue;
		sb_document_cell(r->d, "%s", sb_pipe_check_words[k]);
		put_worst(r, &l->drilled, (enum pipe_check)k);
		put_worst(r, &l->design, (enum pipe_check)k);
	}
	sb_document_cell(r->d, "pull force");
	put_largest(r, &l->drilled);
	put_largest(r, &l->design);
	sb_document_cell(r->d, "turns");
	sb_document_cell(r->d, "%.1f degrees in %zu legs", sb_deg(l->drilled.turn_rad), l->drilled.leg_count);
	sb_document_cell(r->d, "%.1f degrees in %zu legs", sb_deg(l->design.turn_rad), l->design.leg_count);
}

/* The contract's limit; nothing of it is in the program. */
static void put_limit(struct report *r, const struct pipe_load *load)
{
	double safe = load->given.safe_n;

	if (safe > 0)
		sb_document_pair(r->d, "safe force",
			"%s %s by the contract: the estimate is %.0f %% of it, %.0f %% with all of the band",
			r->job->safe_force.text, sb_measure_unit(r->job->unit, MEASURE_FORCE),
			load->stations[load->most].force_n / safe * 100,
			load->stations[load->highest].high_n / safe * 100);
	else
		sb_document_pair(r->d, "safe force", "the sheet sets none ([pull] safe_force)");
	if (load->runs)
		sb_document_pair(r->d, "weight",
			"somewhere the pipe runs in by its own weight: there the force was held at 0");
}

/* ---- what moves it ---- */

static void put_sensitivity(struct report *r, const struct pipe_load *load)
{
	static const struct table_column columns[] = { { "with one thing varied", TABLE_WORDS },
		{ "low", TABLE_FIGURES }, { "as given", TABLE_FIGURES }, { "high", TABLE_FIGURES } };
	const struct load_given *g = &load->given;
	enum unit u = r->job->unit;

	sb_document_subheading(r->d, "What moves the largest force, %s", sb_measure_unit(u, MEASURE_FORCE));
	sb_document_table(r->d, columns, COUNT(columns));
	for (int k = 0; k < LOAD_VARIES; k++) {
		enum measure in;
		const double *values = sb_load_varied(g, (enum load_vary)k, &in);
		bool plain = in == MEASURES;
		sb_document_cell(r->d, "%s%s%s", sb_load_vary_words[k], plain ? "" : ", ",
			plain ? "" : sb_measure_unit(u, in));
		for (int d = 0; d < LOAD_DEGREES; d++)
			sb_document_cell(
				r->d, "%.4g", plain ? values[d] : sb_measure_typed(u, in, values[d]));
		sb_document_cell(r->d, "  force");
		for (int d = 0; d < LOAD_DEGREES; d++)
			sb_document_cell(r->d, "%.*f", decimals(r), force_of(r, load->vary_n[k][d]));
	}
}

/* ---- polyethylene: the four points of the standard ---- */

static void put_f1962(struct report *r, const struct pipe_load *load)
{
	static const char *const points[] = { "A, entering", "B, foot of ramp", "C, other foot",
		"D, coming out" };
	char text[SB_LOAD_TEXT];

	sb_document_subheading(r->d, "ASTM F1962: two ramps and a level bottom in place of this line");
	if (load->f1962_status != F1962_OK) {
		sb_document_paragraph(r->d, "%s",
			load->f1962_status == F1962_SHORT
				? "Not for this shape: its two ramps, twice the depth over the angle each, are longer than the crossing."
				: "Not for this shape: it wants the line to go down at the entry and up at the exit.");
		return;
	}
	for (int k = 0; k < 4; k++)
		sb_document_pair(r->d, points[k], "%s",
			sb_pipe_load_force(r->job->unit, load->f1962_forces.force_n[k], text));
	sb_document_pair(r->d, "fluid driven out", "%s, beside them",
		sb_pipe_load_force(r->job->unit, load->hydrokinetic_n, text));
}

/* ---- station by station ---- */

static const struct table_column station_columns[] = { { "joint", TABLE_FIGURES },
	{ "station", TABLE_FIGURES }, { "radius", TABLE_FIGURES }, { "bending stress", TABLE_FIGURES },
	{ "pull force", TABLE_FIGURES }, { "tension", TABLE_FIGURES }, { "bending", TABLE_FIGURES },
	{ "outside press.", TABLE_FIGURES }, { "tension and bending", TABLE_FIGURES },
	{ "all three", TABLE_FIGURES } };

static void put_station(struct report *r, const struct pipe_load *load, const struct load_station *s)
{
	char text[REPORT_WORDS];

	sb_document_cell(r->d, "%d%s", s->joint, s->projected ? "*" : "");
	sb_document_cell(r->d, "%s", report_station(r, s->station_m, text));
	sb_document_cell(r->d, "%s", report_radius(r, s->radius_m, text));
	sb_document_cell(r->d, "%.*f",
		r->job->unit != UNIT_M	    ? 0
			: load->given.steel ? 1
					    : 2,
		sb_measure_typed(r->job->unit, MEASURE_STRESS, s->bending_pa));
	sb_document_cell(r->d, "%.*f", decimals(r), force_of(r, s->force_n));
	for (int k = 0; k < PIPE_CHECKS; k++)
		if (k != CHECK_ALL || load->given.steel)
			sb_document_cell(r->d, isnan(s->ratio[k]) ? "" : "%.2f", s->ratio[k]);
}

static void put_stations(struct report *r, const struct pipe_load *load)
{
	sb_document_subheading(r->d,
		"At each station as drilled: radius over the window in %s, stress in %s, force in %s",
		sb_unit_long(r->job->unit), sb_measure_unit(r->job->unit, MEASURE_STRESS),
		sb_measure_unit(r->job->unit, MEASURE_FORCE));
	sb_document_paragraph(r->d,
		"The force is that at the pull head when it is there; shares are of what is allowed. A blank share is not "
		"judged: the sheet does not say what is allowed.%s",
		load->line.out ? "" : " * projected: nobody has read it yet.");
	sb_document_table(r->d, station_columns, COUNT(station_columns) - !load->given.steel);
	for (size_t i = 0; i < load->count; i++)
		put_station(r, load, &load->stations[i]);
}

/* ---- */

static void put_all(struct report *r, const struct pipe_loads *l)
{
	sb_document_paragraph(r->d,
		"An estimate, for the engineer to verify: published models disagree by more than their digits. What it "
		"rests on stands at its end.");
	put_given(r, &l->drilled);
	put_limit(r, &l->drilled);
	put_beside(r, l);
	put_sensitivity(r, &l->drilled);
	if (!l->drilled.given.steel)
		put_f1962(r, &l->drilled);
	put_stations(r, &l->drilled);
	sb_document_subheading(r->d, "What the estimate rests on");
	for (const char *const *a = sb_pipe_load_assumptions(&l->drilled.given); *a; a++)
		sb_document_paragraph(r->d, "%s", *a);
}

void report_pipe(struct report *r)
{
	struct pipe_loads l = { 0 };
	struct sb_err err = { 0 };
	bool asked = r->job->pass_count > 0 || sb_job_accepted(r->job) || r->job->pull_begin_count > 0;
	bool made = sb_pipe_loads_make(r->job, r->s, &l, &err) == 0;

	if (!made && !asked)
		return;
	report_heading(r, "The product pipe in this hole");
	if (made)
		put_all(r, &l);
	else
		sb_document_paragraph(r->d, "No estimate. %s", err.text);
	sb_pipe_loads_clear(&l);
}
