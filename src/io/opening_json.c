/* The opening for scripts. Sizes, volumes and lengths are in the job's units; "units" says which. */
#include "base/measure.h"
#include "io/opening.h"
#include "model/fact.h"

#include <math.h>

#include "json_after.h"

static double volume(const struct job *job, double m3)
{
	return sb_measure_typed(job->unit, MEASURE_VOLUME, m3);
}

static double size(const struct job *job, double metres)
{
	return metres > 0 && !isinf(metres) ? sb_measure_typed(job->unit, MEASURE_SIZE, metres) : (double)NAN;
}

static double length(const struct job *job, double metres)
{
	return metres / sb_unit_metres(job->unit);
}

static const char *const names[OPENING_VALUES] = { "pull", "torque", "flow", "pressure", "annular" };

static const struct json_unit units[] = {
	{ "size", MEASURE_SIZE },
	{ "volume", MEASURE_VOLUME },
	{ "pull", MEASURE_FORCE },
	{ "torque", MEASURE_TORQUE },
	{ "flow", MEASURE_FLOW },
	{ "pressure", MEASURE_PRESSURE },
	{ "annular", MEASURE_PRESSURE },
};

static void put_final(struct sb_json *j, const struct job *job, const struct opening *o)
{
	double low = HUGE_VAL, high = 0;

	for (int joint = 1; joint <= o->bore_joints; joint++) {
		low = fmin(low, o->hole_m[joint]);
		high = fmax(high, o->hole_m[joint]);
	}
	sb_json_object(j, "final");
	sb_json_fixed(j, "least", size(job, o->size.least_m), 3);
	sb_json_fixed(j, "most", size(job, o->size.most_m), 3);
	sb_json_bool(j, "contract", o->size.contract);
	sb_json_end(j);
	sb_json_typed(j, "pilot", &job->pilot_diameter);
	sb_json_fixed(j, "hole_least", size(job, low), 3);
	sb_json_fixed(j, "hole_most", size(job, high), 3);
}

static void put_pace(struct sb_json *j, const char *name, const struct opening_pace *p)
{
	static const char *const sources[] = { "", "sheet", "measured" };

	sb_json_object(j, name);
	sb_json_text_or_null(j, "source", sources[p->source]);
	sb_json_fixed(j, "joint_min", p->joint_min, 3);
	sb_json_fixed(j, "left_min", p->left_min, 3);
	sb_json_end(j);
}

static void put_whole(struct sb_json *j, const char *name, const struct job *job, const struct opening *o,
	enum pass_kind kind)
{
	struct opening_pace best, likely;

	sb_opening_whole(o, job, kind, &best, &likely);
	sb_json_object(j, name);
	put_pace(j, "best", &best);
	put_pace(j, "likely", &likely);
	sb_json_end(j);
}

static void put_joint(struct sb_json *j, const struct job *job, const struct opening_joint *at)
{
	static const char *const returns[] = { "", "full", "partial", "none" };
	const struct pass_joint *e = at->entry;

	sb_json_object(j, NULL);
	sb_json_whole(j, "joint", e->joint);
	sb_json_whole(j, "entry", e->fact.act);
	for (int k = 0; k < OPENING_VALUES; k++)
		sb_json_typed(j, names[k], sb_opening_value(e, (enum opening_value)k));
	sb_json_text_or_null(j, "started", e->started);
	sb_json_text_or_null(j, "ended", e->ended);
	sb_json_text_or_null(j, "returns", returns[e->returns]);
	sb_json_fixed(j, "minutes", at->minutes.whole_min, 3);
	sb_json_fixed(j, "cut", volume(job, at->cut_m3), 4);
	sb_json_bool(j, "again", at->again);
	sb_json_text(j, "by", e->fact.who);
	sb_json_end(j);
}

static void put_ranges(struct sb_json *j, const struct opening_pass *p)
{
	sb_json_object(j, "ranges");
	for (int k = 0; k < OPENING_VALUES; k++) {
		const struct opening_span *s = &p->values[k];
		double unknown = (double)NAN;
		sb_json_object(j, names[k]);
		sb_json_whole(j, "joints", s->count);
		sb_json_exact(j, "low", s->count ? s->low : unknown);
		sb_json_exact(j, "high", s->count ? s->high : unknown);
		sb_json_fixed(j, "mean", s->count ? s->mean : unknown, 6);
		sb_json_end(j);
	}
	sb_json_end(j);
}

static void put_pass(struct sb_json *j, const struct job *job, const struct opening *o, size_t k)
{
	const struct opening_pass *p = &o->list[k];

	sb_json_object(j, NULL);
	sb_json_whole(j, "pass", p->number);
	sb_json_whole(j, "entry", p->pass->fact.act);
	sb_json_text(j, "kind", sb_pass_kind_name(p->pass->kind));
	sb_json_text(j, "to", sb_pass_way_name(p->pass->to));
	sb_json_typed(j, "diameter", &p->pass->diameter);
	sb_json_text_or_null(j, "tool", p->pass->tool);
	sb_json_time(j, "begun_at", p->pass->fact.at_ms);
	sb_json_text(j, "by", p->pass->fact.who);
	sb_json_bool(j, "ended", p->end != NULL);
	sb_json_whole(j, "done", p->done);
	sb_json_whole(j, "left", p->left);
	if (p->next)
		sb_json_whole(j, "next", p->next);
	else
		sb_json_null(j, "next");
	sb_json_fixed(j, "length_done", length(job, p->done_m), 3);
	sb_json_fixed(j, "length_left", length(job, p->left_m), 3);
	sb_json_fixed(j, "cut", volume(job, p->cut_m3), 4);
	sb_json_fixed(j, "cut_left", volume(job, p->cut_left_m3), 4);
	sb_json_fixed(j, "fluid", volume(job, p->fluid_m3), 4);
	sb_json_fixed(j, "fluid_left", volume(job, p->fluid_left_m3), 4);
	sb_json_fixed(j, "pumped", volume(job, p->pumped_m3), 4);
	sb_json_whole(j, "pumped_joints", p->pumped);
	put_ranges(j, p);
	put_pace(j, "best", &p->best);
	put_pace(j, "likely", &p->likely);
	sb_json_array(j, "joints");
	for (size_t i = 0; i < o->joint_count; i++)
		if (o->joints[i].pass == k)
			put_joint(j, job, &o->joints[i]);
	sb_json_end(j);
	sb_json_end(j);
}

static void put_checks(struct sb_json *j, const struct opening *o)
{
	sb_json_array(j, "checks");
	for (size_t i = 0; i < o->fault_count; i++) {
		const struct opening_fault *f = &o->faults[i];
		sb_json_object(j, NULL);
		sb_json_text(j, "level", sb_level_word(f->level));
		if (f->pass)
			sb_json_whole(j, "pass", f->pass);
		else
			sb_json_null(j, "pass");
		sb_json_text(j, "text", f->text);
		sb_json_end(j);
	}
	sb_json_end(j);
}

/* What a slip left behind: it counts for nothing. */
static const enum act_kind entered[] = { ACT_PASS, ACT_PASS_JOINT, ACT_PASS_END };

void sb_opening_json(const struct job *job, struct sb_str *out)
{
	struct sb_json j = { .text = *out };
	struct opening o;

	sb_opening_take(job, &o);
	sb_json_object(&j, NULL);
	sb_json_text(&j, "unit", sb_unit_name(job->unit));
	json_after_units(&j, job, units, sizeof units / sizeof *units);
	sb_json_text_or_null(&j, "rehearsal", job->rehearsal);
	put_final(&j, job, &o);
	sb_json_whole(&j, "joints", o.bore_joints);
	sb_json_fixed(&j, "length", length(job, o.bore_m), 3);
	if (o.running)
		sb_json_whole(&j, "running", o.running->number);
	else
		sb_json_null(&j, "running");
	sb_json_fixed(&j, "cut", volume(job, o.cut_m3), 4);
	sb_json_fixed(&j, "fluid", volume(job, o.fluid_m3), 4);
	sb_json_fixed(&j, "pumped", volume(job, o.pumped_m3), 4);
	put_whole(&j, "whole_ream", job, &o, PASS_REAM);
	put_whole(&j, "whole_swab", job, &o, PASS_SWAB);
	sb_json_array(&j, "passes");
	for (size_t k = 0; k < o.count; k++)
		put_pass(&j, job, &o, k);
	sb_json_end(&j);
	put_checks(&j, &o);
	json_after_struck(&j, job, entered, sizeof entered / sizeof *entered);
	sb_json_end(&j);
	*out = j.text;
	sb_opening_clear(&o);
}
