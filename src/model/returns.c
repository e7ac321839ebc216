/* Returns and releases. Nothing is kept of a release but its entries: what is missing follows from them. */
#include "model/returns.h"

#include "base/measure.h"
#include "base/str.h"

#include <stdio.h>

static const enum returns as_returns[] = {
	[FLUID_FULL] = RETURNS_FULL, [FLUID_PARTIAL] = RETURNS_PARTIAL, [FLUID_NONE] = RETURNS_NONE
};

void sb_returns_judge(enum returns returns, int joint, struct verdict *out)
{
	*out = (struct verdict){ .level = LEVEL_OK };
	if (returns == RETURNS_PARTIAL)
		snprintf(out->text, sizeof out->text,
			"Joint %d: only a part of the drilling fluid comes back. Clean the hole and bring the returns back before going on; watch annular pressure and walk the line.",
			joint);
	else if (returns == RETURNS_NONE)
		snprintf(out->text, sizeof out->text,
			"Joint %d: no drilling fluid comes back. Stop; walk the line for fluid at the surface, bring the returns back, and tell whom the contract names.",
			joint);
	if (*out->text)
		out->level = LEVEL_WATCH;
}

static void judge_loss(const struct setup *setup, const struct fluid_event *e, struct verdict *out)
{
	char volume[64] = "";

	if (sb_number_given(&e->volume))
		snprintf(volume, sizeof volume, "%.24s %s of ", e->volume.text,
			sb_measure_unit(setup->job->unit, MEASURE_VOLUME));
	out->level = LEVEL_WATCH;
	snprintf(out->text, sizeof out->text,
		"Joint %d: %sdrilling fluid went into the ground. Find where it goes: walk the line; clean the hole, and say when returns are full again.",
		e->fact.joint, volume);
}

void sb_returns_judge_entry(const struct setup *setup, const struct fluid_event *e, struct verdict *out)
{
	*out = (struct verdict){ .level = LEVEL_OK };
	if (e->kind == FLUID_LOSS)
		judge_loss(setup, e, out);
	else if (e->kind <= FLUID_NONE)
		sb_returns_judge(as_returns[e->kind], e->fact.joint, out);
}

/* ---- what was said last ---- */

static void said(struct returns_said *last, enum returns returns, int joint, int64_t act)
{
	if (returns != RETURNS_UNSAID && act >= last->act)
		*last = (struct returns_said){ .returns = returns, .joint = joint, .act = act };
}

struct returns_said sb_returns_last(const struct job *job)
{
	struct returns_said last = { .returns = RETURNS_UNSAID };

	for (int i = sb_job_in_ground(job); i > 0 && last.returns == RETURNS_UNSAID; i--) {
		const struct reading *r = sb_job_joint(job, i);
		said(&last, r->returns, i, r->logged ? r->logged : r->act);
	}
	for (size_t i = 0; i < job->pass_joint_count; i++) {
		const struct pass_joint *j = &job->pass_joints[i];
		if (!j->struck)
			said(&last, j->returns, j->joint, j->fact.act);
	}
	for (size_t i = 0; i < job->fluid_event_count; i++) {
		const struct fluid_event *e = &job->fluid_events[i];
		if (e->struck || e->kind > FLUID_NONE)
			continue;
		said(&last, as_returns[e->kind], e->fact.joint, e->fact.act);
		last.entered = last.act == e->fact.act;
	}
	return last;
}

/* ---- releases ---- */

static void take(const char **to, const char *from)
{
	if (*from)
		*to = from;
}

struct release sb_release_of(const struct job *job, const struct fluid_event *e, int64_t until_act)
{
	struct release r = { e, &e->volume, e->place, e->receiving, e->told, e->done };

	for (size_t i = 0; i < job->fluid_event_count; i++) {
		const struct fluid_event *more = &job->fluid_events[i];
		if (more->kind != FLUID_RECORD || more->of != e->fact.id || more->struck ||
			more->fact.act > until_act)
			continue;
		if (sb_number_given(&more->volume))
			r.volume = &more->volume;
		take(&r.place, more->place);
		take(&r.receiving, more->receiving);
		take(&r.told, more->told);
		take(&r.done, more->done);
	}
	return r;
}

static size_t put(char text[96], size_t at, const char *what)
{
	return at + (size_t)snprintf(text + at, 96 - at, "%s%s", at ? ", " : "", what);
}

bool sb_release_missing(const struct release *r, char text[96])
{
	size_t at = 0;

	*text = '\0';
	if (!*r->place)
		at = put(text, at, "where it came up");
	if (!sb_number_given(r->volume))
		at = put(text, at, "how much");
	if (!*r->receiving)
		at = put(text, at, "what it ran into");
	if (!*r->told)
		at = put(text, at, "who was told and when");
	if (!*r->done)
		at = put(text, at, "what was done");
	return at > 0;
}

static bool is_release(const struct fluid_event *e, int leg, int joint, int64_t until_act)
{
	return e->kind == FLUID_RELEASE && !e->struck && e->fact.leg == leg && e->fact.joint == joint &&
		e->fact.act <= until_act;
}

static int unrecorded(const struct job *job, int leg, int joint, int64_t until_act, char text[96])
{
	*text = '\0';
	for (size_t i = 0; i < job->fluid_event_count; i++) {
		const struct fluid_event *e = &job->fluid_events[i];
		if (!is_release(e, leg, joint, until_act))
			continue;
		struct release r = sb_release_of(job, e, until_act);
		if (sb_release_missing(&r, text))
			return (int)e->fact.id;
	}
	return 0;
}

int sb_release_unrecorded(const struct job *job, int leg, int joint, char text[96])
{
	return unrecorded(job, leg, joint, INT64_MAX, text);
}

void sb_release_judge(const struct job *job, int leg, int joint, int64_t until_act, struct verdict *out)
{
	int count = 0;
	char missing[96], what[32];

	*out = (struct verdict){ .level = LEVEL_OK };
	for (size_t i = 0; i < job->fluid_event_count; i++)
		if (is_release(&job->fluid_events[i], leg, joint, until_act)) {
			count++;
			snprintf(what, sizeof what, "Release %lld", (long long)job->fluid_events[i].fact.id);
		}
	if (count == 0)
		return;
	if (count > 1)
		snprintf(what, sizeof what, "%d releases", count);
	out->level = LEVEL_BREACH;
	out->value = count;
	int open = unrecorded(job, leg, joint, until_act, missing);
	if (open)
		snprintf(out->text, sizeof out->text,
			"%s to the surface at joint %d. Stop, contain it, tell whom the contract names. To be recorded of release %d: %s.",
			what, joint, open, missing);
	else
		snprintf(out->text, sizeof out->text,
			"%s to the surface at joint %d. What must be recorded is there; the engineer decides.",
			what, joint);
}
