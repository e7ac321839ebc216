/* The page of the drilling fluid. Every figure on it is an estimate but what was measured, and says so. */
#include "io/fluid.h"

#include "base/measure.h"
#include "draw/axis.h"
#include "io/about.h"
#include "io/fluid_view.h"

#include <math.h>
#include <stdio.h>

#include "fluid_events.h"

const char *const sb_fluid_assumptions[] = {
	"Estimates, for the engineer to verify. Ground has been seen to break out below the limit: as-drilled data showed that cavity expansion gives too much in most cases (NASTT 2019).",
	"Pressure: the fluid's own weight, and the loss of a Bingham plastic in a clean round hole with the pipe in its middle. Cuttings that lie in the hole, ground that closes on the pipe, a pipe that turns or surges are not in it.",
	"While the hole is opened and the pipe pulled in, all the fluid goes to the side of less pressure.",
	"Limit: cavity expansion (Luger and Hergarden 1988; USACE CPAR-GL-98-1), the stress around the hole the same all ways and as large as that from above; the ground may yield to a share of the cover.",
	"Ground and soil lie over the hole as the sheet has them over the design line. A layer with cohesion counts as clay; a strength that is left out counts as none.",
	NULL,
};

static const char *station_text(const struct fluid_view *v, double station_m, char text[SB_AXIS_TEXT])
{
	sb_axis_station(station_m, v->job->unit, 1, text);
	return text;
}

/* ---- the fluid and its loss ---- */

static void put_fluid(struct document *d, const struct fluid_view *v)
{
	const struct job *job = v->job;
	const char *weight = sb_measure_unit(job->unit, MEASURE_DENSITY);

	if (sb_number_given(&job->fluid_return_weight))
		sb_document_pair(d, "fluid", "%s %s coming back with its cuttings%s%s",
			job->fluid_return_weight.text, weight,
			sb_number_given(&job->fluid_weight) ? ", mixed at " : "", job->fluid_weight.text);
	else if (sb_number_given(&job->fluid_weight))
		sb_document_pair(d, "fluid",
			"%s %s, cuttings not counted ([fluid] return_weight is left out)",
			job->fluid_weight.text, weight);
	if (sb_number_given(&job->plastic_viscosity) && sb_number_given(&job->yield_point))
		sb_document_pair(d, "Bingham plastic", "plastic viscosity %s mPa s, yield point %s %s",
			job->plastic_viscosity.text, job->yield_point.text,
			sb_measure_unit(job->unit, MEASURE_YIELD_POINT));
}

static void say_side(
	const struct fluid_view *v, const struct fluid_side *side, const char *to, struct sb_str *out)
{
	const struct bingham_loss *l = &side->loss;
	enum unit u = v->job->unit;

	if (side->known != FLUID_KNOWN)
		return;
	sb_str_add(out, "; %s, hole %.4g around pipe %.4g: ", to,
		sb_measure_typed(u, MEASURE_SIZE, 2 * side->annulus.outer_m),
		sb_measure_typed(u, MEASURE_SIZE, 2 * side->annulus.inner_m));
	if (!(l->gradient_pam > 0)) {
		sb_str_add(out, "at rest");
		return;
	}
	sb_str_add(out, "%.2f %s, %s at Reynolds %.0f, loses %.4f %s",
		sb_measure_typed(u, MEASURE_SPEED, l->speed_ms), sb_measure_unit(u, MEASURE_SPEED),
		l->turbulent ? "turbulent (the larger of both losses is taken)" : "laminar", l->reynolds,
		sb_measure_typed(u, MEASURE_GRADIENT, l->gradient_pam), sb_measure_unit(u, MEASURE_GRADIENT));
	sb_str_add(out, " (between plates %.4f; by the field's formula %.4f, %.0f %% over it)",
		sb_measure_typed(u, MEASURE_GRADIENT, l->slot_pam),
		sb_measure_typed(u, MEASURE_GRADIENT, l->field_pam),
		(l->field_pam / l->laminar_pam - 1) * 100);
}

static void put_stage(struct document *d, const struct fluid_view *v, int which)
{
	const struct fluid_stage *s = &v->lines[which].stage;
	struct sb_str words = { 0 };

	say_side(v, &s->entry, "to the entry", &words);
	if (s->exit.open)
		say_side(v, &s->exit, "to the exit", &words);
	if (isnan(s->flow_m3s))
		sb_document_pair(d, sb_fluid_view_words[which], "%s%s", s->name, sb_str_get(&words));
	else
		sb_document_pair(d, sb_fluid_view_words[which], "%s, %.4g %s%s", s->name,
			sb_measure_typed(v->job->unit, MEASURE_FLOW, s->flow_m3s),
			sb_measure_unit(v->job->unit, MEASURE_FLOW), sb_str_get(&words));
	sb_str_clear(&words);
}

/* ---- where it is tightest ---- */

static void put_tightest(struct document *d, const struct fluid_view *v, const char *key,
	const struct fluid_point *p, const char *how)
{
	const struct annular *a = &p->annular;
	struct verdict verdict;
	char station[SB_AXIS_TEXT], where[32] = "the design line";

	if (!v->bore.design)
		snprintf(where, sizeof where, "joint %d", p->joint);
	sb_annular_judge(&v->ask.setup, a, p->joint, &verdict);
	sb_document_pair(d, key,
		"%s: %.0f %% of the limit at %s%s, station %s: %s %.1f of %.1f %s; cover %.1f %s, %s",
		sb_level_word(verdict.level), sb_annular_share(a) * 100, where,
		p->projected ? " (no reading yet)" : "", station_text(v, a->place.station_m, station), how,
		sb_fluid_view_pressure(v, sb_annular_pressure(a)),
		sb_fluid_view_pressure(v, a->formation.limit.limit_pa), sb_fluid_view_unit(v),
		sb_frame_typed(&v->s->frame, a->formation.cover_m), sb_unit_short(v->job->unit),
		a->formation.soil.bed->name);
}

static void put_margins(struct document *d, const struct fluid_view *v)
{

	for (int k = 0; k < FLUID_STAGES; k++) {
		const struct fluid_line *line = &v->lines[k];
		if (line->tightest && line->tightest != line->measured)
			put_tightest(d, v, sb_fluid_view_words[k], line->tightest,
				isnan(line->tightest->annular.measured_pa) ? "estimated" : "measured");
		if (line->measured)
			put_tightest(d, v, k == FLUID_PILOT ? "pilot, measured" : sb_fluid_view_words[k],
				line->measured, "measured");
		if (!line->tightest)
			sb_document_pair(d, sb_fluid_view_words[k], "not known: see what is missing");
	}
	sb_document_pair(d, "watch",
		"from %.0f %% of the limit; a breach where more than the limit is measured",
		v->job->fluid_watch.value * 100);
}

static void put_note(void *to, const char *sentence)
{
	sb_document_paragraph(to, "%s", sentence);
}

static void put_blocks(struct document *d, const struct fluid_view *v)
{
	put_fluid(d, v);
	for (int k = 0; k < FLUID_STAGES; k++)
		put_stage(d, v, k);
	sb_document_heading(d, "Where it is tightest");
	put_margins(d, v);
	sb_fluid_view_notes(v, put_note, d);
	fluid_events_blocks(d, v->job);
	sb_document_heading(d, "What these figures rest on");
	for (const char *const *a = sb_fluid_assumptions; *a; a++)
		sb_document_paragraph(d, "%s", *a);
}

/* ---- joint by joint ---- */

static void put_pressure(struct document *d, const struct fluid_view *v, double pascal)
{
	sb_document_cell(d, isnan(pascal) ? "" : "%.1f", sb_fluid_view_pressure(v, pascal));
}

static void put_share(struct document *d, const struct annular *a)
{
	double share = sb_annular_share(a);

	sb_document_cell(d, isnan(share) ? "" : share < 9.995 ? "%.0f %%" : "10 x", share * 100);
}

static void put_row(struct document *d, const struct fluid_view *v, size_t i)
{
	const struct fluid_point *p = &v->lines[FLUID_PILOT].points[i];
	const struct formation *f = &p->annular.formation;
	char station[SB_AXIS_TEXT];

	sb_document_cell(d, v->bore.design ? "" : "%d%s", p->joint, p->projected ? "*" : "");
	sb_document_cell(d, "%s", station_text(v, p->annular.place.station_m, station));
	sb_document_cell(d, f->known == FORMATION_NO_GROUND || f->known == FORMATION_NO_HOLE ? "" : "%.1f",
		sb_frame_typed(&v->s->frame, f->cover_m));
	put_pressure(d, v, f->known == FORMATION_KNOWN ? f->limit.limit_pa : (double)NAN);
	put_pressure(d, v, p->annular.estimate.total_pa);
	put_pressure(d, v, p->annular.measured_pa);
	put_share(d, &p->annular);
	for (int k = FLUID_OPENING; k < FLUID_STAGES; k++) {
		const struct annular *a = &v->lines[k].points[i].annular;
		put_pressure(d, v, sb_annular_pressure(a));
		put_share(d, a);
	}
}

static void put_table(struct document *d, const struct fluid_view *v)
{
	static const struct table_column columns[] = { { "joint", TABLE_FIGURES },
		{ "station", TABLE_FIGURES }, { "cover", TABLE_FIGURES }, { "limit", TABLE_FIGURES },
		{ "pilot estimate", TABLE_FIGURES }, { "measured", TABLE_FIGURES },
		{ "of limit", TABLE_FIGURES }, { "opening", TABLE_FIGURES }, { "of limit", TABLE_FIGURES },
		{ "pulling in", TABLE_FIGURES }, { "of limit", TABLE_FIGURES } };

	sb_document_heading(d, "Joint by joint, %s", sb_fluid_view_unit(v));
	sb_document_paragraph(d,
		"The limit is that of the pilot hole; shares of the opening and the pull are of the limit of their own hole, and of what was measured where it was. * no reading yet. A blank share is not judged: next to the ends any hole breaks out, into its own pits.");
	sb_document_table(d, columns, sizeof columns / sizeof *columns);
	for (size_t i = 0; i < v->lines[FLUID_PILOT].count; i++)
		put_row(d, v, i);
}

/* ---- */

void sb_fluid_blocks(struct document *d, const struct job *job, const struct solution *s, int pass)
{
	struct fluid_view v;

	sb_fluid_view_begin(job, s, pass, &v);
	put_blocks(d, &v);
	sb_fluid_view_end(&v);
}

void sb_fluid_table(struct document *d, const struct job *job, const struct solution *s, int pass)
{
	struct fluid_view v;

	sb_fluid_view_begin(job, s, pass, &v);
	put_table(d, &v);
	sb_fluid_view_end(&v);
}

void sb_fluid_text(const struct job *job, const struct solution *s, int pass, bool design, struct sb_str *out)
{
	struct fluid_view v;
	struct document d;
	char title[SB_NAME_TEXT + 48];

	if (design)
		sb_fluid_view_design(job, s, pass, &v);
	else
		sb_fluid_view_begin(job, s, pass, &v);
	snprintf(title, sizeof title, design ? "Drilling fluid, along the design: %s" : "Drilling fluid: %s",
		job->name);
	sb_document_begin(&d, &(struct document_head){ .title = title, .mark = sb_about_mark(job) });
	sb_document_paragraph(&d, "An estimate, but for what was measured: for the engineer to verify.");
	put_blocks(&d, &v);
	put_table(&d, &v);
	sb_document_text(&d, out);
	sb_document_clear(&d);
	sb_fluid_view_end(&v);
}
