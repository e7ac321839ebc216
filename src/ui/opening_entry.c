/* What is typed for the next joint of the pass that runs. As on the main screen every key is kept before
 * it is painted, and the forms are emptied only after the store says that the joint is on disk. */
#include "io/opening.h"
#include "ui/app.h"
#include "ui/entry.h"
#include "ui/kept.h"
#include "ui/opening.h"

#include <stdio.h>
#include <string.h>

/* Two numbers that every gauge at the rig shows are asked for; Tab goes to the others. */
static const struct {
	const char *column, *label;
	int width;
	bool required;
} numbers[] = {
	{ "pull", "pull", 6, true },
	{ "torque", "torque", 5, true },
	{ "flow", "flow", 4, false },
	{ "pressure", "pump", 4, false },
	{ "annular", "annular", 4, false },
};

static void build_forms(struct opening_state *s)
{
	char next[16];

	memset(&s->entry, 0, sizeof s->entry);
	memset(&s->more, 0, sizeof s->more);
	for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++)
		sb_entry_number(&s->entry, numbers[i].column, numbers[i].label, NULL, numbers[i].width,
			numbers[i].required, "");
	snprintf(next, sizeof next, "%d", s->joint);
	s->more.by_enter = true; /* a number meant for the next field must not land among the loads */
	sb_entry_number(
		&s->more, "joint", "joint", "as numbered in the pilot", 6, false, s->joint ? next : "");
	for (int i = 0; i < 2; i++)
		sb_form_add(&s->more,
			(struct form_field){ .name = i ? "ended" : "started",
				.label = i ? "ended" : "started",
				.unit = "as 14:32 or 1432",
				.kind = ENTRY_TEXT,
				.whole = true,
				.width = 10 },
			"");
	sb_form_add(&s->more,
		(struct form_field){ .name = "returns",
			.label = "returns",
			.kind = ENTRY_CHOICE,
			.choices = "full|partial|none",
			.width = 10 },
		"");
	sb_entry_words(&s->more, "remarks", "remarks", 44, false);
	s->more.focus = 1;
}

void sb_opening_entry_begin(struct view *v, const struct opening *o)
{
	struct opening_state *s = v->state;
	int pass = o->running ? o->running->number : 0, joint = o->running ? o->running->next : 0;

	if (s->entry.count && s->pass == pass && s->joint == joint)
		return;
	s->pass = pass;
	s->joint = joint;
	build_forms(s);
}

int sb_opening_entry_check(const struct form *f, size_t field, const void *context, struct sb_err *err)
{
	(void)context;
	return sb_entry_check(f, field, sb_fact_sort(ACT_PASS_JOINT), err);
}

/* ---- the draft ---- */

static struct kept kept_of(const struct view *v)
{
	struct opening_state *s = v->state;

	return (struct kept){ "pass", s->pass, s->joint, { &s->entry, &s->more } };
}

void sb_opening_entry_keep(const struct view *v, bool sync)
{
	struct kept k = kept_of(v);

	sb_kept_save(v, &k, sync);
}

void sb_opening_entry_resume(struct view *v)
{
	struct kept k = kept_of(v);
	char when[SB_TIME_TEXT];

	if (sb_kept_load(v, &k, when))
		sb_app_say(v, LEVEL_OK,
			"What was half typed for joint %d of pass %d is back. Nothing of it is on disk yet.",
			k.joint, k.leg);
}

/* ---- to disk ---- */

enum follow sb_opening_entry_commit(struct view *v)
{
	struct opening_state *s = v->state;
	const struct fact_sort *sort = sb_fact_sort(ACT_PASS_JOINT);
	struct pass_joint j = { .pass = s->pass, .joint = s->joint };
	struct stood before = sb_entry_stood(v);
	char what[SB_OPENING_WHAT];
	struct sb_err err = { 0 };

	if (!sb_store_writes(v->store))
		return sb_app_say(v, LEVEL_WATCH,
			"You are looking on: this job was opened to read only. Nothing was entered.");
	if (s->pass == 0)
		return sb_app_say(v, LEVEL_WATCH, "No pass runs: B begins one. What you typed still stands.");
	if (sb_entry_take(&s->entry, sort, &j, &err) || sb_entry_take(&s->more, sort, &j, &err))
		return sb_app_fail(v, &err);
	if (j.joint == 0)
		return sb_app_say(v, LEVEL_WATCH,
			"Pass %d is through every joint: E ends it. One that was worked again: M, and its number.",
			s->pass);
	sb_opening_what_joint(&j, what);
	/* What is typed is safe on disk, half typed, before it is tried for good. */
	sb_opening_entry_keep(v, true);
	if (sb_store_enter(
		    v->store, v->who, ACT_PASS_JOINT, &j, what, sb_form_text(&s->more, "remarks"), &err))
		return sb_app_say(v, LEVEL_WATCH, "Not entered; what you typed is kept. %s", err.text);
	s->entry.count = 0; /* begun anew by what follows a change of the job */
	s->back = 0;
	s->list = (struct list){ 0 };
	return sb_entry_said(v, what, &before);
}
