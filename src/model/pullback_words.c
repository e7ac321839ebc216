/* The pull in words: what was measured, what was estimated, and what it may mean where they part. Nothing
 * here knows the hole: every meaning is a possibility to look into, in the order in which it is quickly
 * looked into.
 */
#include "base/measure.h"
#include "model/fact.h"
#include "model/pullback.h"

#include <math.h>
#include <stdio.h>

#define NEAR_JOINTS 3 /* behind the head: what it has just come through */

static double force(const struct job *job, double newton)
{
	return sb_measure_typed(job->unit, MEASURE_FORCE, newton);
}

static const char *unit(const struct job *job)
{
	return sb_measure_unit(job->unit, MEASURE_FORCE);
}

void sb_pullback_force(const struct job *job, double newton, char text[SB_PULL_FORCE])
{
	double value = force(job, newton);

	if (job->unit == UNIT_M)
		snprintf(text, SB_PULL_FORCE, "%.1f", value);
	else
		snprintf(text, SB_PULL_FORCE, "%.0f", 100 * round(value / 100));
}

static void say_force(const struct job *job, double newton, struct sb_str *out)
{
	char text[SB_PULL_FORCE];

	sb_pullback_force(job, newton, text);
	sb_str_add(out, "%s", text);
}

const char *sb_pullback_side(enum band_side side)
{
	static const char *const words[] = { "", "within", "above", "below" };

	return words[side];
}

static void say_band(const struct job *job, const struct pulled *p, struct sb_str *out)
{
	if (p->side == BAND_UNKNOWN)
		return;
	sb_str_add(out, " The estimate is ");
	say_force(job, p->band.force_n, out);
	sb_str_add(out, "; it is %s its band of ", sb_pullback_side(p->side));
	say_force(job, p->band.low_n, out);
	sb_str_add(out, " to ");
	say_force(job, p->band.high_n, out);
	sb_str_add(out, ".");
}

void sb_pullback_say(const struct job *job, const struct pulled *p, struct sb_str *out)
{
	sb_str_add(out, "Joint %d: %s %s at the rig", p->entry->joint, p->entry->force.text, unit(job));
	if (!isnan(p->share))
		sb_str_add(
			out, ", %.0f %% of the safe pull limit of %s", 100 * p->share, job->safe_force.text);
	sb_str_add(out, ".");
	say_band(job, p, out);
}

/* The tightest stretch between two depths. */
static const struct bore_stretch *tightest(const struct bore_line *line, double from_m, double to_m)
{
	const struct bore_stretch *found = NULL;

	for (size_t i = 0; i < line->count; i++) {
		const struct bore_stretch *b = &line->stretches[i];
		if (b->md_m + b->length_m > from_m && b->md_m < to_m && isfinite(b->radius_m) &&
			(found == NULL || b->radius_m < found->radius_m))
			found = b;
	}
	return found;
}

static void say_bend(
	const struct job *job, const struct pull_bands *bands, double from_m, double to_m, struct sb_str *out)
{
	const struct bore_stretch *b = tightest(&bands->line, from_m, to_m);
	double metre = sb_unit_metres(job->unit);

	if (b)
		sb_str_add(out, "a tight bend (the tightest there: radius %.0f %s at station %.0f)",
			b->radius_m / metre, sb_unit_short(job->unit), b->station_m / metre);
	else
		sb_str_add(out, "a bend that no reading shows");
}

static void say_jump(
	const struct job *job, const struct pull_bands *bands, const struct pulled *p, struct sb_str *out)
{
	double near_m = NEAR_JOINTS * job->joint_length.value * sb_unit_metres(job->unit);

	sb_str_add(out, "%sIt %s by ", out->length ? " " : "", p->jump_n > 0 ? "jumped up" : "fell");
	say_force(job, fabs(p->jump_n), out);
	sb_str_add(out, " %s more than was estimated, in one joint. ", unit(job));
	if (p->jump_n > 0) {
		sb_str_add(out,
			"Something at the head may hold it: cuttings heaped before it, a ledge or a stone, ground that closed in, ");
		say_bend(job, bands, p->head_md_m, p->head_md_m + near_m, out);
		sb_str_add(out, ".");
	} else {
		sb_str_add(out,
			"What held it may have come free; or pipe, swivel or head may have parted: look at the tail of the string and at the gauge.");
	}
}

void sb_pullback_means(
	const struct job *job, const struct pull_bands *bands, const struct pulled *p, struct sb_str *out)
{
	if (p->share > 1)
		sb_str_add(out,
			"Over the safe pull limit: stop pulling, and have the engineer say how to go on.");
	if (p->jumped) {
		say_jump(job, bands, p, out);
	} else if (p->side == BAND_ABOVE) {
		sb_str_add(out,
			"%sA force above the band may be more friction than assumed, cuttings in the hole, ground that closes on the pipe, ",
			out->length ? " " : "");
		say_bend(job, bands, p->head_md_m, HUGE_VAL, out);
		sb_str_add(out,
			", buoyancy or ballast not as assumed, or what drill pipe and reamer take, which the estimate leaves out. Look at returns and rollers.");
	} else if (p->side == BAND_BELOW) {
		sb_str_add(out,
			"A force below the band may be less friction than assumed, pipe nearer to floating than assumed, or a gauge that shows too little.");
	}
}

/* ---- the end ---- */

static void say_extra(const struct job *job, const struct pullback *p, struct sb_str *out)
{
	const struct number *extra = &p->ended->extra;
	const char *length = sb_unit_short(job->unit);
	double asked = p->asked_m / sb_unit_metres(job->unit);

	if (!sb_number_given(extra))
		sb_str_add(out, " How much pipe was pulled out past the entry is not said; %.1f %s is asked.",
			asked, length);
	else
		sb_str_add(out, " %s%s %s of pipe were pulled out past the entry, %.1f asked.",
			extra->value + 1e-9 < asked ? "Only " : "", extra->text, length, asked);
}

void sb_pullback_end_say(const struct job *job, const struct pullback *p, struct sb_str *out)
{
	if (p->ended == NULL)
		return;
	sb_str_add(out, "The pull is ended, by %s.", p->ended->fact.who);
	if (p->left)
		sb_str_add(out, " The head was left in the hole, %d joint%s short of the entry: %s.", p->left,
			p->left == 1 ? "" : "s", p->ended->fact.words);
	say_extra(job, p, out);
	sb_str_add(out, " The coating came out %s.", sb_coating_name(p->ended->coating));
	if (*p->ended->survey)
		sb_str_add(out, " Final survey: %s.", p->ended->survey);
	else
		sb_str_add(out, " No final survey is named.");
}

void sb_pullback_what_joint(const struct job *job, const struct pull_joint *j, char text[SB_PULL_WHAT])
{
	snprintf(text, SB_PULL_WHAT, "joint %d, %s %s", j->joint, j->force.text, unit(job));
}

void sb_pullback_what_end(const struct job *job, const struct pull_end *e, char text[SB_PULL_WHAT])
{
	bool extra = sb_number_given(&e->extra);

	snprintf(text, SB_PULL_WHAT, "coating %s%s%s%s%s%s%s%.80s", sb_coating_name(e->coating),
		extra ? ", " : "", e->extra.text, extra ? " " : "", extra ? sb_unit_short(job->unit) : "",
		extra ? " past the entry" : "", *e->survey ? ", survey " : "", e->survey);
}
