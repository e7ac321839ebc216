/* What of the contract and the trade the opening does not keep. Each rule is looked at afresh over all
 * passes as they stand, so that a slip that is struck out leaves nothing behind, and a hole that is opened
 * further after all is right again. */
#include "model/opening.h"

#include "base/measure.h"
#include "base/str.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "opening_parts.h"

/* Sizes that differ by less are the same: a thousandth of a millimetre is arithmetic. */
#define SAME_M 1e-6

void sb_opening_fault(struct opening *o, enum level level, int pass, const char *format, ...)
{
	size_t at = o->fault_count;
	struct opening_fault *f;
	va_list args;

	while (at > 0 && o->faults[at - 1].level <= level) /* the newest of its level first */
		at--;
	if (at == SB_OPENING_FAULTS)
		return;
	size_t after = o->fault_count - at;
	if (o->fault_count == SB_OPENING_FAULTS)
		after--;
	else
		o->fault_count++;
	f = &o->faults[at];
	memmove(f + 1, f, after * sizeof *f);
	*f = (struct opening_fault){ .level = level, .pass = pass };
	va_start(args, format);
	vsnprintf(f->text, sizeof f->text, format, args);
	va_end(args);
}

struct judging {
	const struct job *job;
	const char *unit;
	struct opening *o;
};

static double typed(const struct judging *w, double metres)
{
	return sb_measure_typed(w->job->unit, MEASURE_SIZE, metres);
}

/* How wide the tools begun before a pass have made the hole (count: all of them); the pilot's, 0 not known,
 * where there was no reamer. by: the pass of the largest reamer, NULL none. */
static double reamed_before(const struct opening *o, size_t pass, const struct opening_pass **by)
{
	*by = NULL;
	for (size_t k = 0; k < pass && k < o->count; k++)
		if (o->list[k].pass->kind == PASS_REAM &&
			(*by == NULL || o->list[k].diameter_m > (*by)->diameter_m))
			*by = &o->list[k];
	return *by ? fmax(o->size.pilot_m, (*by)->diameter_m) : o->size.pilot_m;
}

/* ---- a reamer ---- */

static void judge_ream(const struct judging *w, size_t at)
{
	const struct opening_pass *p = &w->o->list[at], *by;
	const struct opening_size *size = &w->o->size;
	const char *diameter = p->pass->diameter.text;
	double before = reamed_before(w->o, at, &by);
	/* one that goes on where a pass of its size was ended early opens what that left */
	bool goes_on = by && by->left > 0 && p->diameter_m >= before - SAME_M;

	if (before > 0 && p->diameter_m <= before + SAME_M && !goes_on) {
		char larger[32] = "the pilot";
		if (by && by->diameter_m >= before)
			snprintf(larger, sizeof larger, "pass %d", by->number);
		sb_opening_fault(w->o, LEVEL_WATCH, p->number,
			"Pass %d (%s %s) is no larger than %s (%.5g %s): it opens nothing. Check its size, and strike it out if it is a slip.",
			p->number, diameter, w->unit, larger, typed(w, before), w->unit);
	}
	if (p->diameter_m > size->most_m + SAME_M)
		sb_opening_fault(w->o, LEVEL_BREACH, p->number,
			"Pass %d opens the hole to %s %s; the contract takes %s at most. Stop it, and ask the engineer.",
			p->number, diameter, w->unit, w->job->opening_most.text);
	if (w->job->forward_ream == ASKED_NO && p->pass->to == PASS_TO_EXIT)
		sb_opening_fault(w->o, LEVEL_BREACH, p->number,
			"Pass %d reams towards the exit, which the contract forbids without a lead string ahead of the reamer. Stop it; if there is one, have the engineer accept it with a reference.",
			p->number);
}

/* ---- a swab ---- */

static void judge_swab(const struct judging *w, size_t at)
{
	const struct opening_pass *p = &w->o->list[at], *by;
	double hole = reamed_before(w->o, at, &by), pipe = w->o->size.coated_m;
	const char *diameter = p->pass->diameter.text;

	if (by == NULL)
		sb_opening_fault(w->o, LEVEL_WATCH, p->number,
			"Pass %d is a swab, and no reamer went before it. Check its kind, and strike it out if it is a slip.",
			p->number);
	else if (p->diameter_m >= hole - SAME_M)
		sb_opening_fault(w->o, LEVEL_WATCH, p->number,
			"The swab of pass %d (%s %s) is not smaller than the last reamer (%.5g %s): it would cut instead of clean. Take a smaller one.",
			p->number, diameter, w->unit, typed(w, hole), w->unit);
	if (p->diameter_m <= pipe + SAME_M)
		sb_opening_fault(w->o, LEVEL_WATCH, p->number,
			"The swab of pass %d (%s %s) is not larger than the product pipe (%.5g %s): that it passes does not show that the pipe will.",
			p->number, diameter, w->unit, typed(w, pipe), w->unit);
}

/* ---- what was left behind ---- */

/* Joints where the hole is narrower than a pass that is ended has made it elsewhere. */
static void judge_left(const struct judging *w, const struct opening_pass *p)
{
	int narrow = 0, first = 0;

	if (p->end == NULL || p->left == 0)
		return;
	if (p->pass->kind == PASS_SWAB) {
		if (p == &w->o->list[w->o->count - 1])
			sb_opening_fault(w->o, LEVEL_WATCH, p->number,
				"The swab of pass %d was ended with %d joint%s left, joint %d first. Swab them before the pull.",
				p->number, p->left, p->left == 1 ? "" : "s", p->next);
		return;
	}
	for (int joint = w->o->bore_joints; joint >= 1; joint--)
		if (w->o->hole_m[joint] < p->diameter_m - SAME_M) {
			narrow++;
			first = joint;
		}
	if (narrow)
		sb_opening_fault(w->o, LEVEL_WATCH, p->number,
			"Pass %d was ended with %d joint%s that it did not open, from joint %d on: the hole is narrower there. Open them before the pull.",
			p->number, narrow, narrow == 1 ? "" : "s", first);
}

/* ---- the hole as the pipe finds it ---- */

static void size_words(const struct judging *w, char text[80])
{
	const struct opening_size *size = &w->o->size;

	if (size->contract)
		snprintf(text, 80, "the contract asks for %s %s", w->job->opening_least.text, w->unit);
	else
		snprintf(text, 80, "%.5g %s is asked for round a pipe of %s", typed(w, size->least_m),
			w->unit, w->job->outside_diameter.text);
}

/* A swab, and the pull more so, says that the hole is open. */
static void judge_final(const struct judging *w, bool pulled)
{
	const struct opening_pass *by, *last = &w->o->list[w->o->count - 1];
	double largest = reamed_before(w->o, w->o->count, &by), least = w->o->size.least_m;
	bool swabbed = last->pass->kind == PASS_SWAB;
	char words[80];

	size_words(w, words);
	if ((swabbed || pulled) && by && largest < least - SAME_M)
		sb_opening_fault(w->o, LEVEL_BREACH, by->number,
			"The largest reamer was %s %s; %s. Ream on before the pipe is pulled.",
			by->pass->diameter.text, w->unit, words);
	if (!pulled)
		return;
	if (!swabbed)
		sb_opening_fault(w->o, LEVEL_WATCH, last->number,
			"The pull begins, and no swab went through the hole since pass %d reamed it. Swab it first.",
			last->number);
	if (last->end == NULL)
		sb_opening_fault(w->o, LEVEL_WATCH, last->number,
			"The pull begins, and pass %d is not ended: %d joint%s left of it.", last->number,
			last->left, last->left == 1 ? " is" : "s are");
}

static void judge_narrowest(const struct judging *w)
{
	double narrowest = HUGE_VAL, least = w->o->size.least_m;
	int at = 0;
	char words[80];

	for (int joint = w->o->bore_joints; joint >= 1; joint--)
		if (w->o->hole_m[joint] > 0 && w->o->hole_m[joint] <= narrowest) {
			narrowest = w->o->hole_m[joint];
			at = joint;
		}
	if (at == 0 || narrowest >= least - SAME_M)
		return;
	size_words(w, words);
	sb_opening_fault(w->o, LEVEL_BREACH, 0,
		"The pull begins, and the hole is %.5g %s at joint %d; %s. Open it there before the pipe comes to it.",
		typed(w, narrowest), w->unit, at, words);
}

void sb_opening_rules(const struct job *job, bool pulled, struct opening *o)
{
	struct judging w = { job, sb_measure_unit(job->unit, MEASURE_SIZE), o };

	for (size_t k = 0; k < o->count; k++) {
		(o->list[k].pass->kind == PASS_REAM ? judge_ream : judge_swab)(&w, k);
		judge_left(&w, &o->list[k]);
	}
	if (o->count)
		judge_final(&w, pulled);
	else if (pulled)
		sb_opening_fault(o, LEVEL_WATCH, 0,
			"The pull begins, and no pass was entered: the hole is the pilot's. Enter the passes that there were.");
	if (o->count && pulled)
		judge_narrowest(&w);
}

void sb_opening_sheet(const struct job *job, char text[256])
{
	struct opening_size size = sb_opening_size(job);
	double sheet_m = sb_opening_metres(job, &job->final_diameter);
	const char *unit = sb_measure_unit(job->unit, MEASURE_SIZE), *final = job->final_diameter.text;

	text[0] = '\0';
	if (!(sheet_m > 0))
		return;
	if (sheet_m < size.least_m - SAME_M && size.contract)
		snprintf(text, 256,
			"The final_diameter of [hole] is %s %s, and [opening] asks for %s or more: clearance and cover are judged by too small a hole. Have the sheet put right.",
			final, unit, job->opening_least.text);
	else if (sheet_m < size.least_m - SAME_M)
		snprintf(text, 256,
			"The final_diameter of [hole] is %s %s, and good practice asks for %.5g or more round a pipe of %s: clearance and cover are judged by too small a hole. Have the sheet put right.",
			final, unit, sb_measure_typed(job->unit, MEASURE_SIZE, size.least_m),
			job->outside_diameter.text);
	else if (sheet_m > size.most_m + SAME_M)
		snprintf(text, 256,
			"The final_diameter of [hole] is %s %s, and [opening] takes %s at most. Have the sheet put right.",
			final, unit, job->opening_most.text);
}

/* ---- the spine ---- */

const struct pull_begin *sb_opening_pulled(const struct job *job, int64_t until_act)
{
	for (size_t i = 0; i < job->pull_begin_count; i++)
		if (!job->pull_begins[i].struck && job->pull_begins[i].fact.act <= until_act)
			return &job->pull_begins[i];
	return NULL;
}

static int joint_of(const struct opening *o)
{
	const struct pass *last = o->count ? o->list[o->count - 1].pass : NULL;

	for (size_t i = o->joint_count; i-- > 0;)
		if (o->joints[i].pass == o->count - 1)
			return o->joints[i].entry->joint;
	return last && last->to == PASS_TO_EXIT ? 1 : o->bore_joints;
}

void sb_opening_judge(
	const struct job *job, const struct act *act, int bore_joints, struct verdict *out, int *joint)
{
	struct opening o;

	*out = (struct verdict){ 0 };
	sb_opening_stand(job, bore_joints, act->id, &o);
	sb_opening_rules(job, sb_opening_pulled(job, act->id) != NULL, &o);
	*joint = joint_of(&o);
	if (o.fault_count) {
		const struct opening_fault *worst = &o.faults[0];
		int alike = 0;
		for (size_t i = 0; i < o.fault_count; i++)
			alike += o.faults[i].level == worst->level;
		out->level = worst->level;
		out->value = alike;
		if (o.fault_count > 1)
			snprintf(out->text, sizeof out->text, "%.210s %zu more: see pass.", worst->text,
				o.fault_count - 1);
		else
			sb_copy(out->text, sizeof out->text, worst->text);
	}
	sb_opening_clear(&o);
}
