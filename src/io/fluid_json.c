/* The drilling fluid for scripts: lengths in the job's unit, all else in the units that "units" names. */
#include "base/measure.h"
#include "io/fluid.h"
#include "io/fluid_view.h"

#include <math.h>

#include "fluid_events.h"
#include "json_after.h"

static double measure(const struct fluid_view *v, enum measure m, double si)
{
	return sb_measure_typed(v->job->unit, m, si);
}

static double length(const struct fluid_view *v, double metres)
{
	return sb_frame_typed(&v->s->frame, metres);
}

static const struct json_unit units[] = {
	{ "pressure", MEASURE_PRESSURE },
	{ "gradient", MEASURE_GRADIENT },
	{ "size", MEASURE_SIZE },
	{ "flow", MEASURE_FLOW },
	{ "weight", MEASURE_DENSITY },
	{ "speed", MEASURE_SPEED },
	{ "volume", MEASURE_VOLUME },
};

static void put_side(
	struct sb_json *j, const struct fluid_view *v, const char *name, const struct fluid_side *side)
{
	const struct bingham_loss *l = &side->loss;

	if (!side->open) {
		sb_json_null(j, name);
		return;
	}
	sb_json_object(j, name);
	sb_json_text_or_null(j, "missing", sb_fluid_known_words(side->known));
	sb_json_exact(j, "level", length(v, side->level_m));
	sb_json_exact(j, "pipe", measure(v, MEASURE_SIZE, 2 * side->annulus.inner_m));
	sb_json_exact(j, "hole", measure(v, MEASURE_SIZE, 2 * side->annulus.outer_m));
	if (side->known == FLUID_KNOWN) {
		sb_json_exact(j, "speed", measure(v, MEASURE_SPEED, l->speed_ms));
		sb_json_exact(j, "reynolds", l->reynolds);
		sb_json_bool(j, "turbulent", l->turbulent);
		sb_json_exact(j, "loss", measure(v, MEASURE_GRADIENT, l->gradient_pam));
		sb_json_exact(j, "loss_between_plates", measure(v, MEASURE_GRADIENT, l->slot_pam));
		sb_json_exact(j, "loss_by_field_formula", measure(v, MEASURE_GRADIENT, l->field_pam));
	}
	sb_json_end(j);
}

static void put_limit(struct sb_json *j, const struct fluid_view *v, const struct formation *f)
{
	bool known = f->known == FORMATION_KNOWN;
	char missing[200];

	sb_formation_missing(f, missing);
	sb_json_exact(j, "limit", known ? sb_fluid_view_pressure(v, f->limit.limit_pa) : (double)NAN);
	sb_json_text_or_null(j, "limit_missing", missing);
	sb_json_text_or_null(j, "layer", known ? f->soil.bed->name : "");
	sb_json_exact(j, "pore_pressure", known ? sb_fluid_view_pressure(v, f->cavity.pore_pa) : (double)NAN);
	sb_json_exact(
		j, "effective_stress", known ? sb_fluid_view_pressure(v, f->cavity.stress_pa) : (double)NAN);
	sb_json_exact(j, "may_yield_to", known ? length(v, f->cavity.plastic_m) : (double)NAN);
}

static void put_point(struct sb_json *j, const struct fluid_view *v, const struct fluid_point *p)
{
	const struct annular *a = &p->annular;
	const struct formation *f = &a->formation;
	struct verdict verdict;
	bool covered = f->known != FORMATION_NO_GROUND && f->known != FORMATION_NO_HOLE;

	sb_annular_judge(&v->ask.setup, a, p->joint, &verdict);
	sb_json_object(j, NULL);
	sb_json_whole(j, "joint", p->joint);
	sb_json_bool(j, "projected", p->projected);
	sb_json_exact(j, "depth", length(v, a->place.md_m));
	sb_json_exact(j, "station", length(v, a->place.station_m));
	sb_json_exact(j, "elevation", length(v, a->place.elevation_m));
	sb_json_exact(j, "cover", covered ? length(v, f->cover_m) : (double)NAN);
	put_limit(j, v, f);
	sb_json_exact(j, "estimate", sb_fluid_view_pressure(v, a->estimate.total_pa));
	sb_json_exact(j, "of_weight", sb_fluid_view_pressure(v, a->estimate.weight_pa));
	sb_json_exact(j, "of_loss", sb_fluid_view_pressure(v, a->estimate.loss_pa));
	sb_json_bool(j, "estimate_whole", a->estimate.known == FLUID_KNOWN);
	sb_json_text(j, "to", a->estimate.to_exit ? "exit" : "entry");
	sb_json_exact(j, "measured", sb_fluid_view_pressure(v, a->measured_pa));
	sb_json_bool(j, "judged", a->judged);
	sb_json_exact(j, "share", sb_annular_share(a));
	sb_json_text(j, "level", sb_level_word(verdict.level));
	sb_json_end(j);
}

static void put_tightest(
	struct sb_json *j, const char *name, const struct fluid_line *line, const struct fluid_point *p)
{
	if (p)
		sb_json_whole(j, name, p - line->points);
	else
		sb_json_null(j, name);
}

static void put_stage(struct sb_json *j, const struct fluid_view *v, const struct fluid_line *line)
{
	static const char *const names[] = { "pilot", "opening", "pull" };
	const struct fluid_stage *s = &line->stage;

	sb_json_object(j, NULL);
	sb_json_text(j, "stage", names[s->kind]);
	if (s->pass)
		sb_json_whole(j, "pass", s->pass);
	else
		sb_json_null(j, "pass");
	sb_json_text(j, "name", s->name);
	sb_json_exact(j, "hole", s->hole_m > 0 ? measure(v, MEASURE_SIZE, 2 * s->hole_m) : (double)NAN);
	sb_json_exact(j, "flow", measure(v, MEASURE_FLOW, s->flow_m3s));
	sb_json_exact(j, "weight", measure(v, MEASURE_DENSITY, s->density_kgm3));
	put_side(j, v, "to_entry", &s->entry);
	put_side(j, v, "to_exit", &s->exit);
	put_tightest(j, "tightest_point", line, line->tightest);
	put_tightest(j, "tightest_measured_point", line, line->measured);
	sb_json_array(j, "points");
	for (size_t i = 0; i < line->count; i++)
		put_point(j, v, &line->points[i]);
	sb_json_end(j);
	sb_json_end(j);
}

static void put_sentence(void *to, const char *sentence)
{
	sb_json_text(to, NULL, sentence);
}

void sb_fluid_json(const struct job *job, const struct solution *s, int pass, bool design, struct sb_str *out)
{
	struct sb_json j = { .text = *out };
	struct fluid_view v;

	if (design)
		sb_fluid_view_design(job, s, pass, &v);
	else
		sb_fluid_view_begin(job, s, pass, &v);
	sb_json_object(&j, NULL);
	sb_json_text(&j, "unit", sb_unit_name(job->unit));
	json_after_units(&j, job, units, sizeof units / sizeof *units);
	sb_json_bool(&j, "design", design);
	sb_json_bool(&j, "rehearsal", job->rehearsal[0] != '\0');
	sb_json_bool(&j, "estimate", true);
	sb_json_array(&j, "assumptions");
	for (const char *const *a = sb_fluid_assumptions; *a; a++)
		sb_json_text(&j, NULL, *a);
	sb_json_end(&j);
	sb_json_array(&j, "notes");
	sb_fluid_view_notes(&v, put_sentence, &j);
	sb_json_end(&j);
	sb_json_exact(&j, "watch", job->fluid_watch.value);
	sb_json_array(&j, "stages");
	for (int k = 0; k < FLUID_STAGES; k++)
		put_stage(&j, &v, &v.lines[k]);
	sb_json_end(&j);
	fluid_events_json(&j, job);
	sb_json_end(&j);
	sb_fluid_view_end(&v);
	*out = j.text;
}
