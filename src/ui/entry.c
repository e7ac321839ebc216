/* What the screens share that enter an act. */
#include "ui/entry.h"

#include "model/after.h"
#include "model/history.h"
#include "ui/app.h"
#include "ui/prompt.h"

#include <stdio.h>

enum follow sb_entry_key(struct view *v, struct form *f, int key, form_check check, const void *context,
	void (*changed)(struct view *v), enum follow (*done)(struct view *v))
{
	switch (sb_form_key(f, key, check, context)) {
	case FORM_DONE:
		return done ? done(v) : FOLLOW_REDRAW;
	case FORM_CHANGED:
		if (changed)
			changed(v);
		return FOLLOW_REDRAW;
	case FORM_MOVED:
		return FOLLOW_REDRAW;
	case FORM_PASS:
		break;
	}
	return FOLLOW_PASS;
}

void sb_entry_number(struct form *f, const char *name, const char *label, const char *unit, int width,
	bool required, const char *offered)
{
	sb_form_add(f,
		(struct form_field){ .name = name,
			.label = label,
			.unit = unit,
			.kind = ENTRY_NUMBER,
			.width = width,
			.required = required },
		offered);
}

void sb_entry_words(struct form *f, const char *name, const char *label, int width, bool required)
{
	sb_form_add(f,
		(struct form_field){ .name = name,
			.label = label,
			.kind = ENTRY_TEXT,
			.width = width,
			.required = required },
		"");
}

void sb_entry_who(struct form *f, const struct view *v)
{
	sb_form_add(f,
		(struct form_field){
			.name = "who", .label = "name", .kind = ENTRY_TEXT, .width = 30, .required = true },
		v->who);
}

static bool is_column(const struct form_field *f, const struct fact_sort *sort)
{
	return f->text[0] != '\0' && sb_fact_has(sort, f->name);
}

int sb_entry_check(const struct form *f, size_t field, const void *sort, struct sb_err *err)
{
	const struct form_field *at = &f->fields[field];
	union any_fact trial = { 0 };

	return is_column(at, sort) ? sb_fact_put(sort, &trial, at->name, at->text, err) : 0;
}

int sb_entry_take(const struct form *f, const struct fact_sort *sort, void *fact, struct sb_err *err)
{
	for (size_t i = 0; i < f->count; i++) {
		const struct form_field *at = &f->fields[i];
		if (is_column(at, sort) && sb_fact_put(sort, fact, at->name, at->text, err))
			return -1;
	}
	return 0;
}

/* ---- what an act brought ---- */

struct stood sb_entry_stood(const struct view *v)
{
	const struct solution *s = v->solution;
	struct stood stood = { .count = s->warning_count };

	for (int k = 0; k < WARNING_KINDS; k++)
		stood.level[k] = s->open[k] < 0 ? LEVEL_OK : s->warnings[s->open[k]].level;
	return stood;
}

const struct warning *sb_entry_brought(const struct view *v, const struct stood *before)
{
	const struct job *job = sb_store_job(v->store);
	const struct solution *s = sb_store_solution(v->store);
	int64_t act = job->act_count ? job->acts[job->act_count - 1].id : 0;
	const struct warning *worst = NULL;

	for (size_t i = 0; i < s->warning_count; i++) {
		const struct warning *w = &s->warnings[i];
		bool brought = i >= before->count || (w->act && w->act == act) ||
			(s->open[w->kind] == (int)i && w->level > before->level[w->kind]);
		if (brought && (worst == NULL || w->level > worst->level))
			worst = w;
	}
	return worst;
}

enum follow sb_entry_said(struct view *v, const char *what, const struct stood *before)
{
	const struct warning *worst = sb_entry_brought(v, before);

	sb_app_say(v, worst ? worst->level : LEVEL_OK, "On disk: %s.%s%s", what, worst ? " " : "",
		worst ? worst->text : "");
	return FOLLOW_JOB_CHANGED;
}

/* ---- striking out ---- */

static enum follow strike_it(struct view *v, const struct form *given, int64_t subject)
{
	struct sb_err err = { 0 };

	if (sb_store_strike(
		    v->store, sb_form_text(given, "who"), subject, sb_form_text(given, "reason"), &err)) {
		sb_app_fail(v, &err);
		return FOLLOW_PASS;
	}
	sb_app_say(v, LEVEL_OK,
		"On disk: entry %lld is struck out. It stays readable, and counts for nothing.",
		(long long)subject);
	return FOLLOW_JOB_CHANGED;
}

enum follow sb_entry_strike(struct view *v, int64_t act)
{
	struct prompt p = { .answer = strike_it, .subject = act };
	const struct act *a = sb_job_act(v->job, act);
	struct sb_err err = { 0 };

	if (sb_after_check_strike(v->job, act, &err))
		return sb_app_fail(v, &err);
	snprintf(p.question, sizeof p.question, "Strike out entry %lld: %s%s%.240s. Why?", (long long)act,
		sb_history_word(a->kind), *a->text ? ", " : "", a->text);
	sb_entry_words(&p.form, "reason", "why", 60, true);
	sb_entry_who(&p.form, v);
	return sb_prompt_ask(v, &p);
}
