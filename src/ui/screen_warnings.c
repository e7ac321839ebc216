/* The warnings: those that wait first, in the order in which the main screen would show them, and the chosen
 * one in full. */
#include "base/mem.h"
#include "base/str.h"
#include "model/history.h"
#include "ui/app.h"
#include "ui/entry.h"
#include "ui/explain.h"
#include "ui/key.h"
#include "ui/list.h"
#include "ui/log.h"
#include "ui/prompt.h"
#include "ui/theme.h"

#include <stdio.h>
#include <string.h>

/* What is shown: all, or those that wait, or those that were acknowledged; of one person; of one shift. */
enum shown { SHOWN_ALL, SHOWN_WAITING, SHOWN_ACKNOWLEDGED, SHOWN_COUNT };

struct warning_list {
	struct list list;
	enum shown shown;
	size_t person; /* who acknowledged, from 1 in the order of their first acts; 0: all */
	int shift;     /* in which it began, from 1; 0: all */
};

/* The shift in which the episode's first joint was logged; 0: none. */
static int shift_of(const struct job *job, const struct warning *w)
{
	const struct reading *r = sb_job_joint_in_leg(job, w->leg, w->joint);
	const struct act *a = r ? sb_job_act(job, r->logged ? r->logged : r->act) : NULL;

	return a ? sb_history_shift_of(job, (size_t)(a - job->acts)) : 0;
}

static bool passes(
	const struct job *job, const struct warning_list *l, const char *person, const struct warning *w)
{
	bool waits = !w->superseded && !w->acknowledged;

	if ((l->shown == SHOWN_WAITING && !waits) || (l->shown == SHOWN_ACKNOWLEDGED && !w->acknowledged))
		return false;
	if (person && !sb_same(person, w->acknowledged_by))
		return false;
	return l->shift == 0 || l->shift == shift_of(job, w);
}

/* Where a warning stands: waiting before acknowledged before pulled back; what holds now before what is past;
 * then the worse. */
static int rank(const struct warning *w)
{
	int group = w->superseded ? 0 : w->acknowledged ? 1 : 2;

	return (group * 2 + w->open) * 4 + (int)w->level;
}

/* The warnings that are shown, in their order, as indices of the solution's: by rank, each newest first.
 * Returned: for sb_free. */
static size_t *order(const struct view *v, size_t *count)
{
	const struct warning_list *l = v->state;
	const struct solution *s = v->solution;
	const char **people;
	size_t *out = sb_alloc((s->warning_count + 1) * sizeof *out);
	size_t names = sb_history_people(v->job, &people);
	const char *person = l->person && l->person <= names ? people[l->person - 1] : NULL;

	*count = 0;
	for (size_t i = s->warning_count; i-- > 0;) {
		if (!passes(v->job, l, person, &s->warnings[i]))
			continue;
		size_t at = (*count)++;
		for (; at > 0 && rank(&s->warnings[out[at - 1]]) < rank(&s->warnings[i]); at--)
			out[at] = out[at - 1];
		out[at] = i;
	}
	sb_free(people);
	return out;
}

/* "warnings that wait, acknowledged by Ida, begun in shift 2" */
static void say_filter(const struct view *v, struct sb_str *out)
{
	static const char *const words[SHOWN_COUNT] = { "warnings", "warnings that wait",
		"warnings that were acknowledged" };
	const struct warning_list *l = v->state;
	const char **people;
	size_t names = sb_history_people(v->job, &people);

	sb_str_add(out, "%s", words[l->shown]);
	if (l->person && l->person <= names)
		sb_str_add(out, "%s %s", l->shown == SHOWN_ACKNOWLEDGED ? " by" : ", acknowledged by",
			people[l->person - 1]);
	if (l->shift)
		sb_str_add(out, ", begun in shift %d", l->shift);
	sb_free(people);
}

struct drawing {
	const struct view *v;
	const size_t *order;
};

static const char *state_of(const struct warning *w)
{
	if (w->superseded)
		return "pulled back";
	if (w->acknowledged)
		return "acknowledged";
	return w->open ? "waits" : "waits, past";
}

static void draw_line(const void *context, size_t i, struct cells *out)
{
	const struct drawing *d = context;
	const struct warning *w = &d->v->solution->warnings[d->order[i]];
	char level[16], joints[32];

	snprintf(level, sizeof level, "%-2s %s", sb_theme_mark(w->level), sb_level_word(w->level));
	if (w->last_joint == 0)
		snprintf(joints, sizeof joints, "at the entry");
	else if (w->last_joint > w->joint)
		snprintf(joints, sizeof joints, "joints %d-%d", w->joint, w->last_joint);
	else
		snprintf(joints, sizeof joints, "joint %d", w->joint);
	sb_cells_fit(out, 0, 2, 10, w->superseded ? STYLE_WITHDRAWN : sb_theme_level(w->level), level);
	sb_cells_fit(out, 0, 13, 28, w->superseded ? STYLE_WITHDRAWN : STYLE_PLAIN,
		sb_warning_sorts[w->kind].label);
	sb_cells_fit(out, 0, 42, 14, STYLE_PLAIN, joints);
	sb_cells_fit(out, 0, 57, out->columns - 58, STYLE_DIM, state_of(w));
}

static void draw_chosen(const struct view *v, const struct warning *w, struct cells *out)
{
	char text[420];
	int row = 1;

	sb_cells_rule(out, 0, sb_warning_sorts[w->kind].label);
	row += sb_cells_wrap(out, row, 1, out->columns - 2, sb_theme_level(w->level), w->text);
	snprintf(text, sizeof text, "What is judged: %s.", sb_warning_sorts[w->kind].help);
	row += sb_cells_wrap(out, row, 1, out->columns - 2, STYLE_DIM, text);
	for (size_t i = v->job->acknowledgement_count; i-- > 0;) {
		const struct acknowledgement *a = &v->job->acknowledgements[i];
		if (a->leg != w->leg || a->joint != w->joint ||
			!sb_same(a->kind, sb_warning_sorts[w->kind].name))
			continue;
		snprintf(text, sizeof text, "acknowledged as %s by %s: %s",
			sb_level_word((enum level)a->level), a->who, a->reason);
		row += sb_cells_wrap(out, row, 1, out->columns - 2, STYLE_PLAIN, text);
	}
}

static void warnings_draw(const struct view *v, struct cells *out)
{
	struct warning_list *l = v->state;
	size_t count, *by = order(v, &count);
	struct drawing d = { v, by };
	struct sb_str title = { 0 };
	int below = out->rows / 2 > 9 ? 9 : out->rows / 2;

	say_filter(v, &title);
	sb_cells_rule(out, 0, sb_str_get(&title));
	sb_str_clear(&title);
	if (v->solution->warning_count == 0) {
		sb_cells_text(out, 2, 1, STYLE_OK, "ok: there has been no warning.");
	} else if (count == 0) {
		sb_cells_text(out, 2, 1, STYLE_PLAIN, "None of these. F, P and S show others.");
	} else {
		sb_list_fit(&l->list, count);
		struct cells part = sb_cells_part(out, 1, 0, out->rows - 1 - below, out->columns);
		sb_list_draw(&l->list, count, draw_line, &d, &part);
		part = sb_cells_part(out, out->rows - below, 0, below, out->columns);
		draw_chosen(v, &v->solution->warnings[by[l->list.chosen]], &part);
	}
	sb_free(by);
}

static enum follow warnings_key(struct view *v, int key)
{
	struct warning_list *l = v->state;
	size_t count;

	sb_free(order(v, &count));
	return sb_list_key(&l->list, key, count) ? FOLLOW_REDRAW : FOLLOW_PASS;
}

static enum follow chosen_anew(struct warning_list *l)
{
	l->list = (struct list){ 0 };
	return FOLLOW_REDRAW;
}

static enum follow next_shown(struct view *v)
{
	struct warning_list *l = v->state;

	l->shown = (enum shown)((l->shown + 1) % SHOWN_COUNT);
	return chosen_anew(l);
}

static enum follow next_person(struct view *v)
{
	struct warning_list *l = v->state;
	const char **people;
	size_t count = sb_history_people(v->job, &people);

	sb_free(people);
	l->person = l->person >= count ? 0 : l->person + 1;
	return chosen_anew(l);
}

static enum follow next_shift(struct view *v)
{
	struct warning_list *l = v->state;
	int count = sb_history_shifts(v->job);

	if (count == 0)
		return sb_app_say(v, LEVEL_OK, "No shift was begun on this job yet.");
	l->shift = l->shift == 0 ? count : l->shift - 1;
	return chosen_anew(l);
}

static enum follow take(struct view *v, const struct form *given, int64_t subject)
{
	struct sb_err err = { 0 };

	if (sb_store_acknowledge(v->store, sb_form_text(given, "who"), (size_t)subject,
		    sb_form_text(given, "reason"), &err)) {
		sb_app_fail(v, &err);
		return FOLLOW_PASS;
	}
	sb_app_say(v, LEVEL_OK,
		"On disk: acknowledged. It stays in every report; if it grows to a breach it waits again.");
	return FOLLOW_JOB_CHANGED;
}

static enum follow acknowledge(struct view *v)
{
	const struct warning_list *l = v->state;
	struct prompt p = { .answer = take };
	size_t count, *by = order(v, &count);

	p.subject = l->list.chosen < count ? (int64_t)by[l->list.chosen] : -1;
	sb_free(by);
	if (p.subject < 0)
		return FOLLOW_NOTHING;
	const struct warning *w = &v->solution->warnings[p.subject];
	if (w->superseded)
		return sb_app_say(
			v, LEVEL_OK, "Its joints were pulled back: there is nothing to acknowledge.");
	if (w->acknowledged)
		return sb_app_say(v, LEVEL_OK, "%s has acknowledged it already.", w->acknowledged_by);
	snprintf(p.question, sizeof p.question, "Acknowledge: %s", w->text);
	sb_entry_words(&p.form, "reason", "why", 60, true);
	sb_entry_who(&p.form, v);
	return sb_prompt_ask(v, &p);
}

static enum follow warnings_why(struct view *v)
{
	const struct warning_list *l = v->state;
	size_t count, *by = order(v, &count);
	enum follow follow = FOLLOW_NOTHING;

	if (l->list.chosen < count)
		follow = sb_explain_value_of(v, &v->solution->warnings[by[l->list.chosen]]);
	sb_free(by);
	return follow;
}

static const struct action warnings_actions[] = {
	{ .name = "acknowledge-it",
		.keys = "Enter",
		.label = "acknowledge",
		.help = "Acknowledge the chosen warning with a reason and a name.",
		.act = acknowledge,
		.writes = true },
	{ .name = "why",
		.keys = "Y",
		.label = "why",
		.help = "How the value of the chosen warning came about: formula, inputs, steps, limit, source.",
		.act = warnings_why },
	{ .name = "which",
		.keys = "F",
		.label = "which",
		.help = "All warnings, those that wait, those that were acknowledged.",
		.act = next_shown },
	{ .name = "person",
		.keys = "P",
		.label = "person",
		.help = "Only what one person acknowledged: the next of those who did something; after the last, all.",
		.act = next_person },
	{ .name = "one-shift",
		.keys = "S",
		.label = "shift",
		.help = "Only what began in one shift, the newest first; after the first of all, all of them.",
		.act = next_shift },
	{ .name = "back-to-log",
		.keys = "A F7 Q Esc Ctrl-C",
		.label = "back",
		.help = "Back to the log.",
		.act = sb_app_close },
	{ 0 },
};

const struct screen sb_screen_warnings = {
	.name = "warnings",
	.title = "warnings",
	.about =
		"Each warning opens once for a stretch of joints. It waits until somebody acknowledges it with a name and a reason. "
		"Acknowledged is not undone: it counts in check and stands in every report.",
	.state_size = sizeof(struct warning_list),
	.draw = warnings_draw,
	.key = warnings_key,
	.actions = warnings_actions,
	.widgets = { sb_list_keys },
};
