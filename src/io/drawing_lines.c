/* What is drawn along the bore behind the sheets: annular pressure against the limit, the pull, and what the
 * product pipe bears. All figures are those of the commands fluid, pull and stress.
 */
#include "base/measure.h"
#include "base/str.h"
#include "io/fluid_view.h"
#include "io/pipe_load.h"
#include "model/pullback.h"

#include <math.h>
#include <stdio.h>

#include "drawing_graphs.h"

#define FAR_OVER 3.0  /* times the largest force: a safe force over that would flatten everything else */
#define ROOM_OVER 1.6 /* of a limit far above all pressures so much is shown, times the highest pressure */

/* ---- fluid ---- */

static double typed(const struct drawing *d, enum measure m, double si)
{
	return sb_measure_typed(d->job->unit, m, si);
}

static struct along_point *add(struct drawing_graph *g, enum meaning m, enum line_kind line, bool marks,
	const struct fluid_line *of, const char *name)
{
	struct along_point *points = drawing_graph_add(g, m, line, marks, of->count, name);

	for (size_t i = 0; i < of->count; i++)
		points[i].station_m = of->points[i].annular.place.station_m;
	return points;
}

/* Where the limit is judged: next to its ends a hole breaks out in any case. */
static void fill_pressure(struct drawing *d, struct drawing_graph *g, const struct fluid_line *line)
{
	struct along_point *limit = add(g, MEANING_LIMIT, LINE_SOLID, false, line, "what the ground bears");
	struct along_point *estimate = add(g, MEANING_ESTIMATE, LINE_SOLID, false, line, "estimated");
	struct along_point *measured = add(g, MEANING_MEASURED, LINE_SOLID, true, line, "measured");
	double highest = 0;

	for (size_t i = 0; i < line->count; i++) {
		const struct annular *a = &line->points[i].annular;
		limit[i].value =
			a->judged ? typed(d, MEASURE_PRESSURE, a->formation.limit.limit_pa) : (double)NAN;
		estimate[i].value = typed(d, MEASURE_PRESSURE, a->estimate.total_pa);
		measured[i].value = typed(d, MEASURE_PRESSURE, a->measured_pa);
		highest = fmax(highest, fmax(estimate[i].value, measured[i].value));
	}
	g->most = 10 * ceil(highest * ROOM_OVER / 10);
	sb_copy(g->unit, sizeof g->unit, sb_measure_unit(d->job->unit, MEASURE_PRESSURE));
}

static void add_pressure(
	struct drawing *d, struct drawing_graphs *all, const struct fluid_line *line, const char *title)
{
	struct drawing_graph *g = drawing_graph_begin(all);

	if (g == NULL)
		return;
	fill_pressure(d, g, line);
	sb_copy(g->title, sizeof g->title, title);
	snprintf(g->words, sizeof g->words,
		"%s; an estimate but for what was measured. A limit over %.4g %s is drawn at that",
		line->stage.name, g->most, g->unit);
	drawing_graph_finish(all, g);
}

static bool went_through(const struct job *job, const struct pass *pass)
{
	for (size_t i = 0; i < job->pass_joint_count; i++)
		if (!job->pass_joints[i].struck && job->pass_joints[i].pass == pass->fact.id)
			return !pass->struck;
	return false;
}

static void add_passes(struct drawing *d, struct drawing_graphs *all, const struct bore_line *bore)
{
	for (size_t i = 0; i < d->job->pass_count; i++) {
		const struct pass *pass = &d->job->passes[i];
		struct fluid_line line;
		char title[64];
		if (!went_through(d->job, pass))
			continue;
		sb_fluid_line_build(&d->clear, bore, STAGE_PASS, (int)pass->fact.id, &line);
		snprintf(title, sizeof title, "ANNULAR PRESSURE, PASS %lld", (long long)pass->fact.id);
		add_pressure(d, all, &line, title);
		sb_fluid_line_clear(&line);
	}
}

static void add_fluid(struct drawing *d, struct drawing_graphs *all)
{
	struct fluid_view v;

	sb_fluid_view_begin(d->job, d->s, 0, &v);
	add_pressure(d, all, &v.lines[FLUID_PILOT], "ANNULAR PRESSURE, PILOT");
	add_passes(d, all, &v.bore);
	add_pressure(d, all, &v.lines[FLUID_PULLING], "ANNULAR PRESSURE, PULLING IN");
	sb_fluid_view_end(&v);
}

/* ---- the pull ---- */

static const char pull_words[] =
	"by the place of the pull head, which comes from the exit; an estimate as drilled, for the engineer to verify";

enum of_station { FORCE, LOW, HIGH };

static void fill_forces(
	struct drawing *d, struct along_point *points, const struct pipe_load *load, enum of_station which)
{
	for (size_t i = 0; i < load->count; i++) {
		const struct load_station *s = &load->stations[i];
		double force = which == LOW ? s->low_n : which == HIGH ? s->high_n : s->force_n;
		points[i] = (struct along_point){ s->station_m, typed(d, MEASURE_FORCE, force) };
	}
}

static void add_level(struct drawing *d, struct drawing_graph *g, double value, const char *name)
{
	struct along_point *points = drawing_graph_add(g, MEANING_LIMIT, LINE_SOLID, false, 2, name);

	points[0] = (struct along_point){ d->from_m, value };
	points[1] = (struct along_point){ d->to_m, value };
}

/* Where it would flatten all others its line is not drawn, but told of. */
static void add_safe(struct drawing *d, struct drawing_graph *g, const struct pipe_load *load)
{
	double highest = fmax(load->stations[load->highest].high_n, load->stations[load->most].force_n);
	const char *force = d->job->safe_force.text;
	char name[DRAWING_GRAPH_NAME];

	if (!(load->given.safe_n > 0))
		return;
	if (load->given.safe_n > FAR_OVER * highest) {
		snprintf(g->words, sizeof g->words,
			"%s; the safe force of the contract, %.20s %s, lies far above", pull_words, force,
			g->unit);
		return;
	}
	snprintf(name, sizeof name, "safe force of the contract, %.20s %s", force, g->unit);
	add_level(d, g, typed(d, MEASURE_FORCE, load->given.safe_n), name);
}

static void add_measured(struct drawing *d, struct drawing_graph *g)
{
	struct pull_bands bands = { 0 };
	struct pullback p;

	sb_pull_bands_make(&d->clear, &bands);
	sb_pullback_take(d->job, &bands, &p);
	struct along_point *points =
		drawing_graph_add(g, MEANING_MEASURED, LINE_SOLID, true, p.count, "measured at the rig");
	for (size_t i = 0; i < p.count; i++)
		points[i] = (struct along_point){ p.list[i].station_m,
			typed(d, MEASURE_FORCE, p.list[i].force_n) };
	sb_pullback_clear(&p);
	sb_pull_bands_clear(&bands);
}

static void add_pull(struct drawing *d, struct drawing_graphs *all, const struct pipe_load *load)
{
	struct drawing_graph *g = drawing_graph_begin(all);

	if (g == NULL)
		return;
	sb_copy(g->title, sizeof g->title, "PULL FORCE");
	sb_copy(g->words, sizeof g->words, pull_words);
	sb_copy(g->unit, sizeof g->unit, sb_measure_unit(d->job->unit, MEASURE_FORCE));
	fill_forces(d, drawing_graph_add(g, MEANING_ESTIMATE, LINE_HEAVY, false, load->count, "estimated"),
		load, FORCE);
	fill_forces(d, drawing_graph_add(g, MEANING_DOUBT, LINE_DOTTED, false, load->count, "its band"), load,
		LOW);
	fill_forces(d, drawing_graph_add(g, MEANING_DOUBT, LINE_DOTTED, false, load->count, ""), load, HIGH);
	add_safe(d, g, load);
	add_measured(d, g);
	drawing_graph_finish(all, g);
}

/* ---- what the pipe bears ---- */

/* Of steel the pull alone is in the graph of the force, and its small share is left out. */
static void add_shares(struct drawing *d, struct drawing_graphs *all, const struct pipe_load *load)
{
	static const struct {
		enum pipe_check check;
		enum line_kind line;
	} steel[] = { { CHECK_TENSION_BENDING, LINE_HEAVY }, { CHECK_BENDING, LINE_SOLID },
		{ CHECK_HOOP, LINE_DASHED }, { CHECK_ALL, LINE_DOTTED } },
	  plastic[] = { { CHECK_TENSION_BENDING, LINE_HEAVY }, { CHECK_BENDING, LINE_SOLID },
		  { CHECK_HOOP, LINE_DASHED }, { CHECK_TENSION, LINE_DOTTED } };
	struct drawing_graph *g = drawing_graph_begin(all);

	if (g == NULL)
		return;
	sb_copy(g->title, sizeof g->title, "SHARES OF WHAT THE PIPE BEARS");
	sb_copy(g->words, sizeof g->words,
		"as drilled, over the window; an estimate, for the engineer to verify");
	sb_copy(g->unit, sizeof g->unit, "share");
	for (size_t k = 0; k < sizeof steel / sizeof *steel; k++) {
		enum pipe_check check = load->given.steel ? steel[k].check : plastic[k].check;
		struct along_point *points = drawing_graph_add(
			g, MEANING_ESTIMATE, steel[k].line, false, load->count, sb_pipe_check_words[check]);
		for (size_t i = 0; i < load->count; i++)
			points[i] = (struct along_point){ load->stations[i].station_m,
				load->stations[i].ratio[check] };
	}
	add_level(d, g, 1, "all that is allowed");
	drawing_graph_finish(all, g);
}

static void add_pipe(struct drawing *d, struct drawing_graphs *all)
{
	struct pipe_load load = { 0 };
	struct sb_err err = { 0 };

	if (sb_pipe_load_make(&d->clear, false, &load, &err) == 0) {
		add_pull(d, all, &load);
		add_shares(d, all, &load);
	}
	sb_pipe_load_clear(&load);
}

void drawing_lines_fill(struct drawing *d, struct drawing_graphs *all)
{
	if (sb_job_accepted(d->job) == NULL && d->job->pass_count == 0 && d->job->pull_begin_count == 0)
		return;
	add_fluid(d, all);
	add_pipe(d, all);
}
