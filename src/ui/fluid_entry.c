/* What is entered of the drilling fluid: each sort has its own short question, so that nobody is asked for
 * what it does not have. Nothing but the place is asked of a release when it is seen: what is not known then
 * is added later, and until then stands on the screen as still to be recorded. */
#include "base/measure.h"
#include "io/fluid.h"
#include "model/returns.h"
#include "store/store.h"
#include "ui/app.h"
#include "ui/entry.h"
#include "ui/fluid.h"
#include "ui/kept.h"
#include "ui/prompt.h"

#include <stdio.h>

#define RELEASE "release" /* as what it is kept */

/* ---- to disk ---- */

static int check(const struct form *f, size_t field, const void *context, struct sb_err *err)
{
	(void)context;
	return sb_entry_check(f, field, sb_fact_sort(ACT_RETURNS), err);
}

static enum follow enter(struct view *v, const struct form *given, struct fluid_event *e)
{
	struct fluid_state *s = v->state;
	struct stood before = sb_entry_stood(v);
	char what[SB_FLUID_WHAT];
	struct sb_err err = { 0 };

	if (sb_entry_take(given, sb_fact_sort(ACT_RETURNS), e, &err)) {
		sb_app_fail(v, &err);
		return FOLLOW_PASS;
	}
	sb_fluid_what(v->job, e, what);
	if (sb_store_enter(v->store, sb_form_text(given, "who"), ACT_RETURNS, e, what,
		    sb_form_text(given, "remarks"), &err)) {
		sb_app_fail(v, &err);
		return FOLLOW_PASS;
	}
	s->list = (struct list){ 0 };
	return sb_entry_said(v, what, &before);
}

/* subject: the kind; the form may say it too. */
static enum follow enter_kind(struct view *v, const struct form *given, int64_t subject)
{
	struct fluid_event e = { .kind = (enum fluid_event_kind)subject };

	return enter(v, given, &e);
}

/* subject: the release that it adds to. */
static enum follow enter_record(struct view *v, const struct form *given, int64_t subject)
{
	struct fluid_event e = { .kind = FLUID_RECORD, .of = (int)subject };
	bool typed = false;

	for (size_t i = 0; i < given->count; i++)
		typed |= given->fields[i].text[0] != '\0' &&
			sb_fact_has(sb_fact_sort(ACT_RETURNS), given->fields[i].name);
	if (!typed) {
		sb_app_say(v, LEVEL_WATCH, "Nothing was typed: type what is known now, or Esc.");
		return FOLLOW_PASS;
	}
	return enter(v, given, &e);
}

/* ---- the questions ---- */

static void add_station(struct form *f, const struct job *job)
{
	sb_entry_number(f, "station", "station",
		job->unit == UNIT_M ? "m; blank: at the bit or the tool"
				    : "ft; blank: at the bit or the tool",
		8, false, "");
}

static void add_volume(struct form *f, const struct job *job)
{
	sb_entry_number(f, "volume", "how much", sb_measure_unit(job->unit, MEASURE_VOLUME), 8, false, "");
}

static void add_end(struct form *f, const struct view *v)
{
	sb_entry_words(f, "remarks", "remarks", 50, false);
	sb_entry_who(f, v);
}

enum follow sb_fluid_returns(struct view *v)
{
	struct prompt p = { .answer = enter_kind, .check = check, .subject = FLUID_FULL };

	snprintf(p.question, sizeof p.question, "How does the drilling fluid come back?");
	sb_form_add(&p.form,
		(struct form_field){ .name = "kind",
			.label = "returns",
			.kind = ENTRY_CHOICE,
			.choices = "full|partial|none",
			.width = 8,
			.required = true },
		"");
	add_station(&p.form, v->job);
	add_end(&p.form, v);
	return sb_prompt_ask(v, &p);
}

enum follow sb_fluid_loss(struct view *v)
{
	struct prompt p = { .answer = enter_kind, .check = check, .subject = FLUID_LOSS };

	snprintf(p.question, sizeof p.question,
		"Drilling fluid goes into the ground. If it came up somewhere, Esc, then F.");
	add_volume(&p.form, v->job);
	add_station(&p.form, v->job);
	add_end(&p.form, v);
	return sb_prompt_ask(v, &p);
}

/* What must be recorded of a release. */
static void add_texts(struct form *f, const struct release *r)
{
	if (r == NULL || !*r->receiving)
		sb_entry_words(f, "receiving", "ran into (land, water)", 40, false);
	if (r == NULL || !*r->told)
		sb_entry_words(f, "told", "who was told, when", 40, false);
	if (r == NULL || !*r->done)
		sb_entry_words(f, "done", "contained, cleaned up", 40, false);
}

/* One that was entered after all is another than the next. */
static int next_release(const struct job *job)
{
	int next = 1;

	for (size_t i = 0; i < job->fluid_event_count; i++)
		next += job->fluid_events[i].kind == FLUID_RELEASE;
	return next;
}

bool sb_fluid_release_waits(const struct view *v, char when[SB_TIME_TEXT])
{
	struct kept k = { RELEASE, 1, next_release(v->job), { NULL } };

	return sb_kept_load(v, &k, when);
}

enum follow sb_fluid_release(struct view *v)
{
	struct prompt p = { .answer = enter_kind,
		.check = check,
		.subject = FLUID_RELEASE,
		.kept = RELEASE,
		.number = next_release(v->job) };

	snprintf(p.question, sizeof p.question,
		"Fluid came up: stop, contain it. Say where, then Enter; the rest now, or later with M.");
	sb_entry_words(&p.form, "place", "where it came up", 40, true);
	add_volume(&p.form, v->job);
	add_texts(&p.form, NULL);
	add_station(&p.form, v->job);
	add_end(&p.form, v);
	return sb_prompt_ask(v, &p);
}

/* The release that M adds to: the chosen one, or that of the chosen record; else the newest whose record is
 * not whole, else the newest. NULL: there is none. */
static const struct fluid_event *release_for(const struct view *v)
{
	const struct fluid_state *s = v->state;
	const struct fluid_event *chosen = sb_fluid_event_at(v->job, s->list.chosen), *newest = NULL;
	char missing[96];

	if (chosen && chosen->kind == FLUID_RECORD && !chosen->struck)
		chosen = &v->job->fluid_events[chosen->of - 1];
	if (chosen && chosen->kind == FLUID_RELEASE && !chosen->struck)
		return chosen;
	for (size_t i = 0; sb_fluid_event_at(v->job, i); i++) {
		const struct fluid_event *e = sb_fluid_event_at(v->job, i);
		if (e->kind != FLUID_RELEASE || e->struck)
			continue;
		struct release r = sb_release_of(v->job, e, INT64_MAX);
		if (sb_release_missing(&r, missing))
			return e;
		newest = newest ? newest : e;
	}
	return newest;
}

enum follow sb_fluid_record(struct view *v)
{
	struct prompt p = { .answer = enter_record, .check = check };
	const struct fluid_event *e = release_for(v);
	char missing[96];

	if (e == NULL)
		return sb_app_say(v, LEVEL_OK, "There is no release to add to. F enters one.");
	struct release r = sb_release_of(v->job, e, INT64_MAX);
	bool open = sb_release_missing(&r, missing);
	p.subject = e->fact.id;
	p.kept = "release-record";
	p.number = (int)e->fact.act;
	if (open)
		snprintf(p.question, sizeof p.question, "Release %lld, %.60s: what is known now?",
			(long long)e->fact.id, *r.place ? r.place : "place not known");
	else
		snprintf(p.question, sizeof p.question,
			"Release %lld, %.60s, is recorded whole. What is typed here takes the place of what was said.",
			(long long)e->fact.id, r.place);
	if (!open || !*r.place)
		sb_entry_words(&p.form, "place", "where it came up", 40, false);
	if (!open || !sb_number_given(r.volume))
		add_volume(&p.form, v->job);
	add_texts(&p.form, open ? &r : NULL);
	add_end(&p.form, v);
	return sb_prompt_ask(v, &p);
}
