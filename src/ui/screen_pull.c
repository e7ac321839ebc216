/* The pull of the product pipe, from its beginning to its end: the acts that ask first. The line where a
 * joint's force is typed is in pull_entry.c, how it looks in pull_draw.c.
 */
#include "pull.h"

#include "ui/after.h"
#include "ui/app.h"
#include "ui/entry.h"
#include "ui/prompt.h"

#include <stdio.h>

static void pull_keep(struct view *v)
{
	sb_pull_entry_keep(v, true);
}

static int pull_open(struct view *v, const void *argument, struct sb_err *err)
{
	struct pull_state *s = v->state;
	struct clearance_ask ask = sb_solution_clearance(v->job, v->solution);

	(void)argument;
	(void)err;
	sb_pull_bands_make(&ask, &s->bands);
	sb_pull_entry_begin(s, v->job);
	sb_pull_entry_resume(v);
	return 0;
}

static void pull_changed(struct view *v)
{
	struct pull_state *s = v->state;
	struct clearance_ask ask = sb_solution_clearance(v->job, v->solution);

	sb_pull_bands_make(&ask, &s->bands);
	if (!sb_form_touched(&s->entry))
		sb_pull_entry_begin(s, v->job);
	sb_pull_entry_keep(v, false);
}

static void pull_close(struct view *v)
{
	struct pull_state *s = v->state;

	sb_pull_bands_clear(&s->bands);
}

/* ---- the beginning and the end ---- */

static enum follow refused(struct view *v, const struct sb_err *err)
{
	sb_app_fail(v, err);
	return FOLLOW_PASS;
}

static enum follow begin_it(struct view *v, const struct form *given, int64_t subject)
{
	struct stood before = sb_entry_stood(v);
	struct pull_begin b = { 0 };
	struct lacks lacks;
	struct sb_err err = { 0 };

	(void)subject;
	sb_pullback_lacks(v->job, &lacks);
	sb_lacks_say(&lacks, b.missing, sizeof b.missing);
	if (sb_store_enter(v->store, sb_form_text(given, "who"), ACT_PULL, &b, "",
		    sb_form_text(given, "reason"), &err))
		return refused(v, &err);
	return sb_entry_said(v, "the pull has begun", &before);
}

static enum follow begin(struct view *v)
{
	struct pull_state *s = v->state;
	struct prompt p = { .answer = begin_it };
	struct pullback pull;
	struct lacks lacks;

	sb_pullback_take(v->job, &s->bands, &pull);
	bool begun = pull.begun != NULL;
	sb_pullback_clear(&pull);
	if (begun)
		return sb_app_say(v, LEVEL_OK, "The pull has begun already.");
	sb_pullback_lacks(v->job, &lacks);
	if (lacks.count)
		snprintf(p.question, sizeof p.question,
			"The pull begins although %zu thing%s missing. Who says so, and why?", lacks.count,
			lacks.count == 1 ? " is" : "s are");
	else
		snprintf(p.question, sizeof p.question, "The pull begins: nothing is missing.");
	sb_entry_words(&p.form, "reason", lacks.count ? "why" : "remarks", 60, lacks.count > 0);
	sb_entry_who(&p.form, v);
	return sb_prompt_ask(v, &p);
}

static enum follow end_it(struct view *v, const struct form *given, int64_t subject)
{
	struct stood before = sb_entry_stood(v);
	struct pull_end e = { 0 };
	char what[SB_PULL_WHAT] = "";
	struct sb_err err = { 0 };

	(void)subject;
	int status = sb_entry_take(given, sb_fact_sort(ACT_PULL_END), &e, &err);
	if (status == 0) {
		sb_pullback_what_end(v->job, &e, what);
		status = sb_store_enter(v->store, sb_form_text(given, "who"), ACT_PULL_END, &e, what,
			sb_form_text(given, "remarks"), &err);
	}
	return status ? refused(v, &err) : sb_entry_said(v, what, &before);
}

static enum follow end(struct view *v)
{
	struct prompt p = { .answer = end_it };
	int left = sb_pullback_next(v->job);

	if (!sb_pull_runs(v))
		return sb_app_say(v, LEVEL_OK, "The pull does not run.");
	if (left)
		snprintf(p.question, sizeof p.question,
			"The head is still in the hole, joint %d is next. If the pull ends all the same, say why.",
			left);
	else
		snprintf(p.question, sizeof p.question, "The pipe is through.");
	sb_form_add(&p.form,
		(struct form_field){ .name = "coating",
			.label = "coating",
			.kind = ENTRY_CHOICE,
			.choices = "sound|scratched|damaged",
			.width = 10,
			.required = true },
		"");
	sb_entry_number(&p.form, "extra", "pulled out past the entry", NULL, 8, false, "");
	p.kept = "pull-end";
	sb_entry_words(&p.form, "survey", "final survey kept", 40, false);
	sb_entry_words(&p.form, "remarks", left ? "why" : "remarks", 50, left > 0);
	sb_entry_who(&p.form, v);
	return sb_prompt_ask(v, &p);
}

/* The newest of the pull's own entries: its end, its last joint, else its begin. */
static enum follow strike(struct view *v)
{
	const struct job *job = v->job;

	for (size_t i = job->act_count; i-- > 0;) {
		const struct act *a = &job->acts[i];
		bool own = a->kind == ACT_PULL || a->kind == ACT_PULL_JOINT || a->kind == ACT_PULL_END;
		if (own && sb_after_strikable(job, a->id))
			return sb_entry_strike(v, a->id);
	}
	return sb_app_say(v, LEVEL_OK, "There is nothing to strike out.");
}

static const struct action pull_actions[] = {
	{ .name = "enter-pulled",
		.keys = "Enter",
		.help = "Enter the joint, once its force is typed.",
		.writes = true },
	{ .name = "begin-pull",
		.keys = "B",
		.label = "begin",
		.help = "The pull begins; with something missing it asks who says so, and why.",
		.act = begin,
		.writes = true },
	{ .name = "enter-with-remarks",
		.keys = "M",
		.label = "with remarks",
		.help = "Enter the joint with remarks: where others were passed over they say why.",
		.act = sb_pull_entry_with_remarks,
		.writes = true },
	{ .name = "end-pull",
		.keys = "E",
		.label = "end",
		.help = "The pipe is through: coating, extra pipe, final survey.",
		.act = end,
		.writes = true },
	{ .name = "strike-out-of-pull",
		.keys = "K",
		.label = "strike out",
		.help = "A slip: strikes out the end of the pull, else the joint entered last, else its begin; with a reason.",
		.act = strike,
		.writes = true },
	{ .name = "back-to-after",
		.keys = "P Q Esc Ctrl-C",
		.label = "back",
		.help = "Back to what was entered after the pilot; what is half typed is kept.",
		.act = sb_app_close },
	{ 0 },
};

const struct screen sb_screen_pull = {
	.name = "pull",
	.title = "pull",
	.about =
		"The product pipe is pulled in. With each joint of drill pipe that comes out its force is typed; it stands beside the "
		"contract's safe pull limit and the estimate for that place of the head, with the band of its sensitivity. What a force "
		"outside the band may mean is a possibility to look into, no more. The estimate is for the engineer to verify.",
	.state_size = sizeof(struct pull_state),
	.open = pull_open,
	.draw = sb_pull_draw,
	.key = sb_pull_entry_key,
	.changed = pull_changed,
	.keep = pull_keep,
	.close = pull_close,
	.actions = pull_actions,
	.widgets = { sb_form_line_keys },
};
