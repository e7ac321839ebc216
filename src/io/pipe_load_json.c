/* The product pipe's loads as JSON. What is not known is null. */
#include "base/measure.h"
#include "geom/angle.h"
#include "io/pipe_load.h"

#include <math.h>

#include "json_after.h"

struct put {
	struct sb_json *j;
	const struct job *job;
	const struct frame *f;
};

static void put_length(const struct put *p, const char *name, double metres)
{
	sb_json_exact(p->j, name, sb_frame_typed(p->f, metres));
}

static void put_measure(const struct put *p, const char *name, enum measure m, double si)
{
	sb_json_exact(p->j, name, sb_measure_typed(p->job->unit, m, si));
}

static const struct json_unit units[] = {
	{ "force", MEASURE_FORCE },
	{ "stress", MEASURE_STRESS },
	{ "pressure", MEASURE_PRESSURE },
};

static void put_assumptions(const struct put *p, const struct load_given *g)
{
	const char *const *says = sb_pipe_load_assumptions(g);

	sb_json_array(p->j, "assumptions");
	for (size_t i = 0; says[i]; i++)
		sb_json_text(p->j, NULL, says[i]);
	sb_json_end(p->j);
}

/* As in the order of enum pipe_check. */
static const char *const check_names[] = { "tension", "bending", "outside_pressure", "tension_bending",
	"all" };

static void put_station(
	const struct put *p, const char *name, const struct pipe_load *load, const struct load_station *s)
{
	sb_json_object(p->j, name);
	if (s->joint > 0)
		sb_json_whole(p->j, "joint", s->joint);
	else
		sb_json_null(p->j, "joint");
	put_length(p, "depth", s->md_m);
	put_length(p, "station", s->station_m);
	put_length(p, "elevation", s->at.u);
	sb_json_bool(p->j, "projected", s->projected);
	put_measure(p, "force", MEASURE_FORCE, s->force_n);
	put_measure(p, "force_low", MEASURE_FORCE, s->low_n);
	put_measure(p, "force_high", MEASURE_FORCE, s->high_n);
	put_length(p, "radius_joint", s->radius_joint_m);
	put_measure(p, "bending_joint", MEASURE_STRESS, s->bending_joint_pa);
	put_length(p, "radius_window", s->radius_m);
	put_measure(p, "bending_window", MEASURE_STRESS, s->bending_pa);
	sb_json_exact(p->j, "strain_window", s->bending_pa / load->given.section.modulus_pa);
	put_measure(p, "pressure", MEASURE_PRESSURE, s->pressure_pa);
	put_measure(p, "buckles_at", MEASURE_PRESSURE, s->buckles_pa);
	sb_json_object(p->j, "shares");
	for (int k = 0; k < PIPE_CHECKS; k++)
		sb_json_exact(p->j, check_names[k], s->ratio[k]);
	sb_json_end(p->j);
	sb_json_end(p->j);
}

static void put_worst(const struct put *p, const struct pipe_load *load)
{
	sb_json_object(p->j, "largest");
	put_station(p, "force", load, &load->stations[load->most]);
	for (int k = 0; k < PIPE_CHECKS; k++) {
		if (load->worst[k] == SIZE_MAX)
			sb_json_null(p->j, check_names[k]);
		else
			put_station(p, check_names[k], load, &load->stations[load->worst[k]]);
	}
	sb_json_end(p->j);
}

static void put_line(const struct put *p, const struct pipe_load *load)
{
	put_length(p, "length", load->line.length_m);
	put_length(p, "read_to", load->line.projected_from_m);
	sb_json_bool(p->j, "out", load->line.out);
	sb_json_exact(p->j, "turn", sb_deg(load->turn_rad));
}

void sb_pipe_load_stress_json(const struct job *job, const struct solution *s, const struct pipe_loads *l,
	bool design, struct sb_str *out)
{
	struct sb_json j = { 0 };
	const struct put p = { &j, job, &s->frame };
	const struct pipe_load *load = design ? &l->design : &l->drilled;

	sb_json_object(&j, NULL);
	sb_json_text(&j, "unit", sb_unit_name(job->unit));
	json_after_units(&j, job, units, sizeof units / sizeof *units);
	sb_json_text(&j, "of", design ? "design" : "drilled");
	sb_json_bool(&j, "estimate", true);
	put_line(&p, load);
	put_worst(&p, load);
	sb_json_array(&j, "stations");
	for (size_t i = 0; i < load->count; i++)
		put_station(&p, NULL, load, &load->stations[i]);
	sb_json_end(&j);
	sb_json_object(&j, "design");
	put_line(&p, &l->design);
	put_worst(&p, &l->design);
	sb_json_end(&j);
	put_assumptions(&p, &load->given);
	sb_json_end(&j);
	sb_str_append(out, sb_str_get(&j.text), j.text.length);
	sb_str_clear(&j.text);
}

/* ---- the pull ---- */

static void put_varied(const struct put *p, const struct pipe_load *load)
{
	static const char *const names[] = { "friction", "fluid", "drag", "rollers" };
	static const char *const degrees[] = { "low", "given", "high" };
	const struct load_given *g = &load->given;

	sb_json_object(p->j, "sensitivity");
	for (int k = 0; k < LOAD_VARIES; k++) {
		enum measure in;
		const double *values = sb_load_varied(g, (enum load_vary)k, &in);
		sb_json_object(p->j, names[k]);
		for (int d = 0; d < LOAD_DEGREES; d++) {
			sb_json_object(p->j, degrees[d]);
			if (in == MEASURES)
				sb_json_exact(p->j, "value", values[d]);
			else
				put_measure(p, "value", in, values[d]);
			put_measure(p, "force", MEASURE_FORCE, load->vary_n[k][d]);
			sb_json_end(p->j);
		}
		sb_json_end(p->j);
	}
	sb_json_end(p->j);
}

static void put_legs(const struct put *p, const struct pipe_load *load)
{
	sb_json_array(p->j, "legs");
	for (size_t i = 0; i < load->leg_count; i++) {
		const struct load_leg *leg = &load->legs[i];
		sb_json_object(p->j, NULL);
		put_length(p, "from", load->stations[leg->last].md_m);
		put_length(p, "to", load->stations[leg->first].md_m);
		sb_json_exact(p->j, "turn", sb_deg(leg->leg.turn_rad));
		put_length(p, "radius", leg->radius_m);
		sb_json_bool(p->j, "bends_pipe", leg->leg.bent);
		put_measure(p, "force", MEASURE_FORCE, load->stations[leg->first].force_n);
		sb_json_end(p->j);
	}
	sb_json_end(p->j);
}

static void put_heads(const struct put *p, const struct solution *s, const struct pipe_load *load)
{
	sb_json_array(p->j, "heads");
	for (size_t i = s->path.count; i-- > 1;) {
		double md = s->path.rows[i - 1].bit_md_m, value, low, high;
		if (!sb_pipe_load_at(load, md, &value, &low, &high))
			continue;
		sb_json_object(p->j, NULL);
		sb_json_whole(p->j, "joint", s->path.rows[i].joint);
		put_length(p, "depth", md);
		put_measure(p, "force", MEASURE_FORCE, value);
		put_measure(p, "low", MEASURE_FORCE, low);
		put_measure(p, "high", MEASURE_FORCE, high);
		sb_json_end(p->j);
	}
	sb_json_end(p->j);
}

static void put_f1962(const struct put *p, const struct pipe_load *load)
{
	static const char *const names[] = { "a", "b", "c", "d" };

	if (load->given.steel || load->f1962_status != F1962_OK) {
		sb_json_null(p->j, "astm_f1962");
		return;
	}
	sb_json_object(p->j, "astm_f1962");
	for (int k = 0; k < 4; k++)
		put_measure(p, names[k], MEASURE_FORCE, load->f1962_forces.force_n[k]);
	put_measure(p, "hydrokinetic", MEASURE_FORCE, load->hydrokinetic_n);
	sb_json_end(p->j);
}

void sb_pipe_load_pull_put(struct sb_json *j, const struct job *job, const struct solution *s)
{
	const struct put p = { j, job, &s->frame };
	struct pipe_loads l = { 0 };
	struct sb_err err = { 0 };

	if (sb_pipe_loads_make(job, s, &l, &err)) {
		sb_json_null(j, "estimate");
		return;
	}
	const struct load_station *most = &l.drilled.stations[l.drilled.most];
	sb_json_object(j, "estimate");
	put_line(&p, &l.drilled);
	put_measure(&p, "force", MEASURE_FORCE, most->force_n);
	put_measure(&p, "low", MEASURE_FORCE, most->low_n);
	put_measure(&p, "high", MEASURE_FORCE, most->high_n);
	put_length(&p, "head", most->md_m);
	put_measure(&p, "design_force", MEASURE_FORCE, l.design.stations[l.design.most].force_n);
	put_measure(&p, "safe_force", MEASURE_FORCE, l.drilled.given.safe_n);
	put_varied(&p, &l.drilled);
	put_legs(&p, &l.drilled);
	put_heads(&p, s, &l.drilled);
	put_f1962(&p, &l.drilled);
	put_assumptions(&p, &l.drilled.given);
	sb_json_end(j);
	sb_pipe_loads_clear(&l);
}
