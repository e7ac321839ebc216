/* The line where the force of the joint that comes out next is typed: kept half typed, held against what can
 * be, entered.
 */
#include "pull.h"

#include "base/measure.h"
#include "ui/app.h"
#include "ui/entry.h"
#include "ui/kept.h"
#include "ui/prompt.h"

#include <stdio.h>
#include <string.h>

void sb_pull_entry_begin(struct pull_state *s, const struct job *job)
{
	int next = sb_pullback_next(job);
	char offered[16];

	snprintf(offered, sizeof offered, "%d", next);
	s->joint = next;
	memset(&s->entry, 0, sizeof s->entry);
	sb_entry_number(&s->entry, "joint", "joint", NULL, 5, true, next ? offered : "");
	sb_entry_number(&s->entry, "force", "force", NULL, 8, true, "");
	sb_entry_number(&s->entry, "torque", "torque", NULL, 7, false, "");
	sb_entry_number(&s->entry, "started", "from", NULL, 5, false, "");
	sb_entry_number(&s->entry, "ended", "to", NULL, 5, false, "");
	s->entry.focus = 1;
}

bool sb_pull_runs(const struct view *v)
{
	const struct pull_state *s = v->state;
	struct pullback p;

	sb_pullback_take(v->job, &s->bands, &p);
	bool running = p.begun && p.ended == NULL;
	sb_pullback_clear(&p);
	return running;
}

static struct kept kept_of(const struct view *v)
{
	struct pull_state *s = v->state;

	return (struct kept){ "pull", 1, s->joint, { &s->entry } };
}

void sb_pull_entry_keep(const struct view *v, bool sync)
{
	struct kept k = kept_of(v);

	sb_kept_save(v, &k, sync);
}

void sb_pull_entry_resume(struct view *v)
{
	struct kept k = kept_of(v);
	char when[SB_TIME_TEXT];

	if (sb_pull_runs(v) && sb_kept_load(v, &k, when))
		sb_app_say(v, LEVEL_OK,
			"What was half typed for joint %s is back. Nothing of it is on disk yet.",
			sb_form_text(k.forms[0], "joint"));
}

void sb_pull_entry_draw(const struct view *v, struct cells *out)
{
	const struct pull_state *s = v->state;
	const char *problem = "";
	int column = 1;

	sb_cells_rule(out, 0, NULL);
	for (size_t i = 0; i < s->entry.count; i++) {
		column = sb_form_draw_one(&s->entry, i, out, 1, column) + 1;
		if (*s->entry.fields[i].problem)
			problem = s->entry.fields[i].problem;
	}
	if (*problem)
		sb_cells_print(out, 2, 1, STYLE_WATCH, "! %s", problem);
	else if (!sb_store_writes(v->store))
		sb_cells_text(out, 2, 1, STYLE_DIM, "You are looking on: nothing that you type is entered.");
	else if (sb_pullback_next(v->job) == 0)
		sb_cells_text(out, 2, 1, STYLE_DIM, "All joints are out: E ends the pull.");
	else
		sb_cells_print(out, 2, 1, STYLE_DIM,
			"Type the force in %s as the joint came out, Enter. Times as 0912.",
			sb_measure_unit(v->job->unit, MEASURE_FORCE));
}

/* ---- a joint ---- */

/* FOLLOW_PASS: it was not taken, and what was typed stands. */
static enum follow enter_joint(struct view *v, const char *who, const char *why)
{
	struct pull_state *s = v->state;
	struct pull_joint j = { 0 };
	struct sb_err err = { 0 };

	if (sb_entry_take(&s->entry, sb_fact_sort(ACT_PULL_JOINT), &j, &err) == 0) {
		char what[SB_PULL_WHAT];
		sb_pullback_what_joint(v->job, &j, what);
		struct stood before = sb_entry_stood(v);
		/* What is typed is safe on disk, half typed, before it is tried for good. */
		sb_pull_entry_keep(v, true);
		if (sb_store_enter(v->store, who, ACT_PULL_JOINT, &j, what, why, &err) == 0) {
			memset(&s->entry, 0, sizeof s->entry);
			return sb_entry_said(v, what, &before);
		}
	}
	sb_app_fail(v, &err);
	return FOLLOW_PASS;
}

static enum follow try_to_enter(struct view *v)
{
	if (!sb_store_writes(v->store))
		return sb_app_say(v, LEVEL_WATCH,
			"You are looking on: this job was opened to read only. Nothing was entered.");
	enum follow follow = enter_joint(v, v->who, "");
	return follow == FOLLOW_PASS ? FOLLOW_REDRAW : follow;
}

enum follow sb_pull_entry_key(struct view *v, int key)
{
	struct pull_state *s = v->state;

	if (!sb_pull_runs(v))
		return FOLLOW_PASS;
	enum follow follow = sb_entry_key(
		v, &s->entry, key, sb_entry_check, sb_fact_sort(ACT_PULL_JOINT), NULL, try_to_enter);
	if (follow == FOLLOW_REDRAW)
		sb_pull_entry_keep(v, false);
	return follow;
}

static enum follow with_remarks_it(struct view *v, const struct form *given, int64_t subject)
{
	(void)subject;
	return enter_joint(v, sb_form_text(given, "who"), sb_form_text(given, "remarks"));
}

enum follow sb_pull_entry_with_remarks(struct view *v)
{
	struct pull_state *s = v->state;
	struct prompt p = { .answer = with_remarks_it };

	if (!sb_pull_runs(v))
		return sb_app_say(v, LEVEL_OK, "The pull does not run.");
	if (sb_form_check(&s->entry, sb_entry_check, sb_fact_sort(ACT_PULL_JOINT)))
		return FOLLOW_REDRAW;
	snprintf(p.question, sizeof p.question, "Joint %s, %s %s, with remarks.",
		sb_form_text(&s->entry, "joint"), sb_form_text(&s->entry, "force"),
		sb_measure_unit(v->job->unit, MEASURE_FORCE));
	sb_entry_words(&p.form, "remarks", "remarks", 60, true);
	sb_entry_who(&p.form, v);
	return sb_prompt_ask(v, &p);
}
