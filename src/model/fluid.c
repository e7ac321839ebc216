/* What is in the hole at each stage, and the pressure that follows. A stage is made once and asked for every
 * place, so that the loss by length is solved once a side. */
#include "model/fluid.h"

#include "base/measure.h"

#include <math.h>
#include <stdio.h>

#define GRAVITY 9.80665
/* Fresh and cold, kg/m3. */
#define WATER 1000.0

const char *sb_fluid_known_words(enum fluid_known known)
{
	static const char *const words[] = {
		[FLUID_KNOWN] = "",
		[FLUID_NO_WEIGHT] = "[fluid] weight is missing: no annular pressure can be estimated.",
		[FLUID_NO_VISCOSITY] =
			"[fluid] plastic_viscosity or yield_point is missing: only the fluid's own weight counts, which is too low.",
		[FLUID_NO_HOLE] =
			"[hole] pilot_diameter, or the tool's diameter, is missing: only the fluid's own weight counts, which is too low.",
		[FLUID_NO_PIPE] =
			"[drill_pipe] outside_diameter is missing: only the fluid's own weight counts, which is too low.",
		[FLUID_NO_ROOM] =
			"The pipe leaves no room for fluid in the hole: only its weight counts, which is too low. Look at the diameters.",
		[FLUID_NO_FLOW] =
			"[fluid] flow is missing, and the log does not say what was pumped: only the fluid's own weight counts, which is too low.",
	};

	return words[known];
}

static double measured(const struct job *job, enum measure m, const struct number *n)
{
	return sb_number_given(n) ? sb_measure_si(job->unit, m, n->value) : (double)NAN;
}

/* A radius; 0: not given. */
static double radius_of(const struct job *job, const struct number *diameter)
{
	return sb_number_given(diameter) ? sb_measure_si(job->unit, MEASURE_SIZE, diameter->value) / 2 : 0;
}

bool sb_fluid_light(const struct job *job)
{
	return measured(job, MEASURE_DENSITY, &job->fluid_weight) < WATER; /* false of NAN */
}

/* ---- a side ---- */

static enum fluid_known side_known(
	const struct job *job, const struct fluid_stage *s, const struct fluid_side *side)
{
	if (isnan(s->density_kgm3))
		return FLUID_NO_WEIGHT;
	if (!sb_number_given(&job->plastic_viscosity) || !sb_number_given(&job->yield_point))
		return FLUID_NO_VISCOSITY;
	if (!(side->annulus.outer_m > 0))
		return FLUID_NO_HOLE;
	if (!(side->annulus.inner_m > 0))
		return FLUID_NO_PIPE;
	if (!(side->annulus.outer_m > side->annulus.inner_m))
		return FLUID_NO_ROOM;
	return isnan(s->flow_m3s) ? FLUID_NO_FLOW : FLUID_KNOWN;
}

/* With the pumps off nothing is lost; what yield stress then holds back is not counted. */
static void open_side(const struct job *job, const struct fluid_stage *s, double inner_m, double outer_m,
	double level_m, struct fluid_side *side)
{
	const struct bingham mud = {
		.yield_pa = measured(job, MEASURE_YIELD_POINT, &job->yield_point),
		.viscosity_pas = measured(job, MEASURE_VISCOSITY, &job->plastic_viscosity),
		.density_kgm3 = s->density_kgm3,
	};

	*side = (struct fluid_side){ .open = true, .level_m = level_m, .annulus = { inner_m, outer_m } };
	side->known = side_known(job, s, side);
	if (side->known == FLUID_KNOWN && s->flow_m3s > 0 &&
		sb_bingham_loss(&mud, &side->annulus, s->flow_m3s, &side->loss) != BINGHAM_OK)
		side->known = FLUID_NO_ROOM;
}

/* ---- the stages ---- */

/* "12.25 in", as typed; "a size that is not given". */
static const char *size_words(const struct job *job, const struct number *diameter, char text[48])
{
	if (sb_number_given(diameter))
		snprintf(text, 48, "%.24s %s", diameter->text, sb_measure_unit(job->unit, MEASURE_SIZE));
	else
		snprintf(text, 48, "a size that is not given");
	return text;
}

static struct fluid_stage stage_of(const struct job *job, enum fluid_stage_kind kind,
	const struct number *flow, const struct number *otherwise)
{
	const struct number *weight = &job->fluid_return_weight;

	return (struct fluid_stage){
		.kind = kind,
		.flow_m3s = measured(job, MEASURE_FLOW, flow && sb_number_given(flow) ? flow : otherwise),
		.density_kgm3 =
			measured(job, MEASURE_DENSITY, sb_number_given(weight) ? weight : &job->fluid_weight),
	};
}

static double level_of(const struct frame *f, const struct place *p)
{
	return sb_frame_metres(f, p->elevation.value);
}

static const struct number *ream_flow(const struct job *job)
{
	return sb_number_given(&job->ream_flow) ? &job->ream_flow : &job->fluid_flow;
}

struct fluid_stage sb_fluid_pilot(const struct job *job, const struct frame *f, const struct number *flow)
{
	struct fluid_stage s = stage_of(job, STAGE_PILOT, flow, &job->fluid_flow);

	s.hole_m = radius_of(job, &job->pilot_diameter);
	open_side(job, &s, radius_of(job, &job->drill_pipe_diameter), s.hole_m, level_of(f, &job->entry),
		&s.entry);
	char size[48];
	snprintf(s.name, sizeof s.name, "pilot hole of %s", size_words(job, &job->pilot_diameter, size));
	return s;
}

/* How wide the passes before one left the hole; a swab leaves it as it is. */
static double opened_before(const struct job *job, int pass)
{
	double widest = radius_of(job, &job->pilot_diameter);

	for (size_t i = 0; i < job->pass_count; i++) {
		const struct pass *p = &job->passes[i];
		if (p->fact.id < pass && !p->struck && p->kind == PASS_REAM)
			widest = fmax(widest, radius_of(job, &p->diameter));
	}
	return widest;
}

static const struct pass *pass_of(const struct job *job, int pass)
{
	for (size_t i = 0; i < job->pass_count; i++)
		if (job->passes[i].fact.id == pass)
			return &job->passes[i];
	return NULL;
}

struct fluid_stage sb_fluid_pass(
	const struct job *job, const struct frame *f, int pass, const struct number *flow, double length_m)
{
	struct fluid_stage s = stage_of(job, STAGE_PASS, flow, ream_flow(job));
	const struct pass *p = pass_of(job, pass);
	const struct number *diameter = p ? &p->diameter : &job->final_diameter;
	double before = opened_before(job, p ? pass : 1), rod = radius_of(job, &job->drill_pipe_diameter);
	bool to_exit = p && p->to == PASS_TO_EXIT;

	s.pass = p ? pass : 0;
	s.length_m = length_m;
	s.hole_m = radius_of(job, diameter) > 0 ? fmax(radius_of(job, diameter), before) : 0;
	open_side(job, &s, rod, to_exit ? s.hole_m : before, level_of(f, &job->entry), &s.entry);
	open_side(job, &s, rod, to_exit ? before : s.hole_m, level_of(f, &job->exit), &s.exit);
	char size[48];
	size_words(job, diameter, size);
	if (p)
		snprintf(s.name, sizeof s.name, "pass %d, %s of %s", pass,
			p->kind == PASS_SWAB ? "swab" : "reamer", size);
	else
		snprintf(s.name, sizeof s.name, "opening the pilot hole to %s", size);
	return s;
}

struct fluid_stage sb_fluid_pull(
	const struct job *job, const struct frame *f, const struct number *flow, double length_m)
{
	struct fluid_stage s = stage_of(job, STAGE_PULL, flow, ream_flow(job));
	bool opened = job->pass_count > 0;

	s.length_m = length_m;
	s.hole_m =
		opened ? opened_before(job, (int)job->pass_count + 1) : radius_of(job, &job->final_diameter);
	open_side(job, &s, radius_of(job, &job->drill_pipe_diameter), s.hole_m, level_of(f, &job->entry),
		&s.entry);
	open_side(
		job, &s, radius_of(job, &job->outside_diameter), s.hole_m, level_of(f, &job->exit), &s.exit);
	struct number hole = { 0 };
	snprintf(
		hole.text, sizeof hole.text, "%.5g", sb_measure_typed(job->unit, MEASURE_SIZE, 2 * s.hole_m));
	char size[48];
	snprintf(s.name, sizeof s.name, "pulling in the pipe, hole of %s",
		size_words(job, s.hole_m > 0 ? &hole : &job->final_diameter, size));
	return s;
}

/* ---- the pressure ---- */

static struct fluid_pressure by_side(
	const struct fluid_stage *s, const struct fluid_side *side, double way_m, double elevation_m)
{
	struct fluid_pressure p = { .known = side->known, .to_exit = side == &s->exit };

	if (p.known == FLUID_NO_WEIGHT) {
		p.total_pa = p.weight_pa = (double)NAN;
		return p;
	}
	p.weight_pa = s->density_kgm3 * GRAVITY * fmax(side->level_m - elevation_m, 0);
	p.loss_pa = side->loss.gradient_pam * fmax(way_m, 0);
	p.total_pa = p.weight_pa + p.loss_pa;
	return p;
}

struct fluid_pressure sb_fluid_pressure(const struct fluid_stage *s, double md_m, double elevation_m)
{
	struct fluid_pressure entry = by_side(s, &s->entry, md_m, elevation_m);

	if (!s->exit.open)
		return entry;
	struct fluid_pressure exit = by_side(s, &s->exit, s->length_m - md_m, elevation_m);
	/* of two ways the one that is known all the way: the other is too low */
	if ((entry.known == FLUID_KNOWN) != (exit.known == FLUID_KNOWN))
		return entry.known == FLUID_KNOWN ? entry : exit;
	return exit.total_pa < entry.total_pa ? exit : entry;
}
