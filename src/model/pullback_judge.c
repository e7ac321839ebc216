/* What the pull's entries say of the limits, in warnings of at most 255 bytes. */
#include "base/measure.h"
#include "base/str.h"
#include "model/fact.h"
#include "model/pullback.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* ---- before the pull ---- */

#define DECIDES "The engineer decides before pipe goes in: see stress."

/* A share of what may be borne is not known closer than to the hundredth; over 1 must not read 1.00. */
static void say_share(double share, char text[16])
{
	int decimals = 2;
	double scale = 100;

	for (; decimals < 4 && fabs(share - 1) > 1e-9 && round(share * scale) == scale; scale *= 10)
		decimals++;
	snprintf(text, 16, "%.*f", decimals, share);
}

bool sb_pullback_judge_share(
	const struct frame *f, const struct job *job, const struct pull_bands *bands, struct verdict *out)
{
	const struct pull_share *w = &bands->worst;
	const struct pipe_verdict *v = &w->verdict;
	/* "all three" stands in a list of them elsewhere, here alone */
	const char *check = w->check == CHECK_ALL ? "tension, bending and outside pressure"
						  : sb_pipe_check_words[w->check];
	char share[16], high[16], where[64] = "at the rig";

	*out = (struct verdict){ .level = v->level, .value = v->ratio, .limit = 1 };
	say_share(v->ratio, share);
	say_share(v->high, high);
	if (w->joint)
		snprintf(where, sizeof where, "at station %.1f, joint %d", sb_frame_typed(f, w->station_m),
			w->joint);
	if (v->level == LEVEL_BREACH) {
		snprintf(out->text, sizeof out->text,
			"Estimate: %s of what the product pipe may bear (%s), %s; 1 is allowed. Ballast, fluid, pipe or a mended hole may bring it down. " DECIDES,
			share, check, where);
	} else if (v->level == LEVEL_WATCH && v->high > 1) {
		out->value = v->high;
		snprintf(out->text, sizeof out->text,
			"Estimate: %s of what the product pipe may bear (%s), %s, and up to %s with more friction, drag or other fluid. " DECIDES,
			share, check, where, high);
	} else if (v->level == LEVEL_WATCH) {
		out->limit = job->pull_watch.value;
		snprintf(out->text, sizeof out->text,
			"Estimate: %s of what the product pipe may bear (%s), %s; a watch from %.8s. " DECIDES,
			share, check, where, job->pull_watch.text);
	}
	return v->judged;
}

/* ---- the beginning ---- */

static void judge_begin(const struct pull_begin *b, struct verdict *v)
{
	if (*b->missing == '\0')
		return;
	v->level = LEVEL_WATCH;
	snprintf(v->text, sizeof v->text,
		"The pull began with this missing: %.130s%s %.40s says why: see history. Make up for it.",
		b->missing, strlen(b->missing) > 130 ? " ..." : ".", b->fact.who);
}

/* ---- a joint ---- */

/* "52300" with no more digits than a rig's gauge. */
static double shown(const struct job *job, double newton)
{
	double value = sb_measure_typed(job->unit, MEASURE_FORCE, newton);

	return job->unit == UNIT_M ? round(10 * value) / 10 : 100 * round(value / 100);
}

static void judge_force(const struct job *job, const struct pulled *p, struct verdict *v)
{
	const char *unit = sb_measure_unit(job->unit, MEASURE_FORCE), *force = p->entry->force.text;
	int joint = p->entry->joint;

	v->value = p->entry->force.value;
	if (p->share > 1) {
		v->level = LEVEL_BREACH;
		v->limit = job->safe_force.value;
		snprintf(v->text, sizeof v->text,
			"Joint %d: %s %s at the rig, over the safe pull limit of %s. Stop pulling, and have the engineer say how to go on.",
			joint, force, unit, job->safe_force.text);
	} else if (p->side == BAND_ABOVE) {
		v->level = LEVEL_WATCH;
		v->limit = shown(job, p->band.high_n);
		snprintf(v->text, sizeof v->text,
			"Joint %d: %s %s at the rig, above the estimate's band up to %.10g. It may be friction, cuttings, ground closing in, a tight bend, buoyancy or ballast not as assumed: see pull.",
			joint, force, unit, v->limit);
	} else if (p->side == BAND_BELOW) {
		v->level = LEVEL_WATCH;
		v->limit = shown(job, p->band.low_n);
		snprintf(v->text, sizeof v->text,
			"Joint %d: %s %s at the rig, below the estimate's band from %.10g. It may be less friction, more lift than assumed, or the gauge; look whether all pipe comes along: see pull.",
			joint, force, unit, v->limit);
	}
}

/* ---- the end ---- */

/* The coating is the product pipe's only witness of what lies inside; pipe that was not pulled out bears
 * none. */
static void judge_coating(const struct job *job, const struct pull_end *e, struct verdict *v)
{
	double asked = sb_pipe_string_extra_m(job, sb_pipe_string_bore_m(job)) / sb_unit_metres(job->unit);

	v->value = e->coating;
	if (e->coating == COATING_DAMAGED) {
		v->level = LEVEL_BREACH;
		sb_copy(v->text, sizeof v->text,
			"The coating came out damaged. Pull on until sound pipe shows, if the string is long enough; have the engineer judge what stays in the hole.");
		return;
	}
	if (e->coating == COATING_SCRATCHED) {
		v->level = LEVEL_WATCH;
		sb_copy(v->text, sizeof v->text,
			"The coating came out scratched. Measure how deep, and pull on until sound pipe shows; test the coating of what stays in the hole.");
		return;
	}
	if (!sb_number_given(&e->extra) || e->extra.value + 1e-9 >= asked)
		return;
	v->level = LEVEL_WATCH;
	snprintf(v->text, sizeof v->text,
		"Only %s %s of pipe were pulled out past the entry to be looked at, %.1f asked. Pull on, if the string is long enough.",
		e->extra.text, sb_unit_short(job->unit), asked);
}

void sb_pullback_judge(const struct job *job, const struct pull_bands *bands, const struct act *act,
	struct verdict *out, int *joint)
{
	const void *fact = sb_fact_of(job, act->kind, act->id);

	*out = (struct verdict){ 0 };
	*joint = 0;
	if (act->kind == ACT_PULL) {
		*joint = act->joint;
		judge_begin(fact, out);
	} else if (act->kind == ACT_PULL_JOINT) {
		struct pulled p = sb_pullback_joint(job, bands, fact);
		*joint = p.entry->joint;
		judge_force(job, &p, out);
	} else {
		judge_coating(job, fact, out);
	}
}
