/* The three stages of the bore, and what is missing for them. */
#include "io/fluid_view.h"

#include "base/measure.h"
#include "base/str.h"

#include <math.h>
#include <stdio.h>

const char *const sb_fluid_view_words[FLUID_STAGES] = { "pilot", "opening", "pulling in" };

/* The last pass that counts; 0: none. */
static int last_pass(const struct job *job)
{
	for (size_t i = job->pass_count; i-- > 0;)
		if (!job->passes[i].struck)
			return (int)job->passes[i].fact.id;
	return 0;
}

static void begin(
	const struct job *job, const struct solution *s, int pass, bool design, struct fluid_view *out)
{
	*out = (struct fluid_view){ .job = job, .s = s, .ask = sb_solution_clearance(job, s) };
	(design ? sb_bore_line_design : sb_bore_line_drilled)(&out->ask, &out->bore);
	sb_fluid_line_build(&out->ask, &out->bore, STAGE_PILOT, 0, &out->lines[FLUID_PILOT]);
	sb_fluid_line_build(
		&out->ask, &out->bore, STAGE_PASS, pass ? pass : last_pass(job), &out->lines[FLUID_OPENING]);
	sb_fluid_line_build(&out->ask, &out->bore, STAGE_PULL, 0, &out->lines[FLUID_PULLING]);
}

void sb_fluid_view_begin(const struct job *job, const struct solution *s, int pass, struct fluid_view *out)
{
	begin(job, s, pass, false, out);
}

void sb_fluid_view_design(const struct job *job, const struct solution *s, int pass, struct fluid_view *out)
{
	begin(job, s, pass, true, out);
}

void sb_fluid_view_end(struct fluid_view *v)
{
	for (int k = 0; k < FLUID_STAGES; k++)
		sb_fluid_line_clear(&v->lines[k]);
	sb_bore_line_clear(&v->bore);
}

double sb_fluid_view_pressure(const struct fluid_view *v, double pascal)
{
	return sb_measure_typed(v->job->unit, MEASURE_PRESSURE, pascal);
}

const char *sb_fluid_view_unit(const struct fluid_view *v)
{
	return sb_measure_unit(v->job->unit, MEASURE_PRESSURE);
}

/* ---- notes ---- */

/* What is missing of a stage; the same thing of several sides is said once. */
static void note_stage(const struct fluid_stage *s, bool said[FLUID_NO_FLOW + 1], sb_fluid_put *put, void *to)
{
	const struct fluid_side *const sides[] = { &s->entry, &s->exit };
	char text[300];

	for (int i = 0; i < 2; i++) {
		enum fluid_known known = sides[i]->known;
		if (!sides[i]->open || known == FLUID_KNOWN || said[known])
			continue;
		/* of the sheet it holds for all stages; of sizes for this one */
		said[known] = known != FLUID_NO_HOLE && known != FLUID_NO_ROOM;
		snprintf(text, sizeof text, "%s%s%s", said[known] ? "" : s->name, said[known] ? "" : ": ",
			sb_fluid_known_words(known));
		put(to, text);
		if (!said[known])
			break;
	}
}

static void note_gaps(const struct fluid_view *v, sb_fluid_put *put, void *to)
{
	struct fluid_gap gap;
	char text[300];

	for (size_t at = 0; sb_fluid_line_gap(&v->ask, &v->lines[FLUID_PILOT], &at, &gap);) {
		snprintf(text, sizeof text, "No limit from station %.1f to %.1f: %s.",
			sb_frame_typed(&v->s->frame, gap.from_m), sb_frame_typed(&v->s->frame, gap.to_m),
			gap.text);
		put(to, text);
	}
}

/* Where the sheet left something open and the worse, or the likelier, was taken. */
static void note_taken(const struct fluid_view *v, sb_fluid_put *put, void *to)
{
	const struct fluid_line *line = &v->lines[FLUID_PILOT];
	bool water = false;
	double raised = 0, flooded = 0;
	char text[240];

	for (size_t i = 0; i < line->count; i++) {
		const struct formation *f = &line->points[i].annular.formation;
		water |= f->known == FORMATION_KNOWN && f->soil.water_assumed;
		if (f->known != FORMATION_KNOWN)
			continue;
		raised = fmax(raised, f->soil.raised_m);
		flooded = fmax(flooded, f->soil.flooded_m);
	}
	if (water)
		put(to, "A layer of soil.csv has no ground_water: its water is taken to stand at the ground, which bears least.");
	snprintf(text, sizeof text,
		"The uppermost layer of soil.csv is taken up to the ground, by up to %.1f %s.",
		sb_frame_typed(&v->s->frame, raised), sb_unit_short(v->job->unit));
	if (raised > 0)
		put(to, text);
	snprintf(text, sizeof text,
		"By soil.csv ground water stands over the ground, by up to %.1f %s: it counts as open water, which raises the limit. Where no water stands, put ground_water right.",
		sb_frame_typed(&v->s->frame, flooded), sb_unit_short(v->job->unit));
	if (flooded > 0)
		put(to, text);
}

void sb_fluid_view_notes(const struct fluid_view *v, sb_fluid_put *put, void *to)
{
	bool said[FLUID_NO_FLOW + 1] = { false };

	for (int k = 0; k < FLUID_STAGES; k++)
		note_stage(&v->lines[k].stage, said, put, to);
	if (sb_fluid_light(v->job))
		put(to, "[fluid] weight is less than that of water: is it in the right unit?");
	if (v->s->around.soil.count == 0)
		put(to, "The sheet has no soil.csv: what the ground bears is not known.");
	if (v->s->around.ground.count < 2)
		put(to, "The sheet has no ground.csv: cover, and what the ground bears, are not known.");
	if (v->s->around.soil.count && v->s->around.ground.count >= 2)
		note_gaps(v, put, to);
	note_taken(v, put, to);
}
