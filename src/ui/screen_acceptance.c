/* The pilot's hold point: what is asked before it is accepted, how each point stands, and the signature that
 * closes it. */
#include "base/str.h"
#include "model/acceptance.h"
#include "ui/acceptance.h"
#include "ui/app.h"
#include "ui/entry.h"
#include "ui/list.h"
#include "ui/prompt.h"
#include "ui/theme.h"

#include <stdio.h>

struct point_list {
	struct list list;
};

static enum level level_of(const struct hold_point *p)
{
	return p->done ? LEVEL_OK : p->asked ? LEVEL_BREACH : LEVEL_WATCH;
}

static const char *word_of(const struct hold_point *p)
{
	return p->done ? "done" : p->asked ? "missing" : "open";
}

static void draw_line(const void *context, size_t i, struct cells *out)
{
	const struct hold_point *p = &((const struct hold_points *)context)->list[i];
	char state[16];

	snprintf(state, sizeof state, "%-2s %s", p->done ? "" : sb_theme_mark(level_of(p)), word_of(p));
	sb_cells_fit(out, 0, 2, 11, sb_theme_level(level_of(p)), state);
	sb_cells_fit(out, 0, 14, out->columns - 15, STYLE_PLAIN, p->text);
}

static void draw_exit(const struct view *v, const struct exit_survey *e, struct cells *out, int row)
{
	struct setup setup = sb_solution_setup(v->job, v->solution);
	struct sb_str text = { 0 };

	if (!e->known)
		return;
	sb_str_add(&text, "Exit by land survey: ");
	sb_exit_say(&setup, e, &text);
	sb_str_add(&text, " of the design's exit; ");
	sb_fixes_off(&setup, e->seen, e->off_m, &text);
	sb_str_add(&text, " from the computed path.");
	sb_cells_wrap(out, row, 1, out->columns - 2, STYLE_PLAIN, sb_str_get(&text));
	sb_str_clear(&text);
}

/* The chosen point, the exit, and who signed. */
static void draw_below(const struct view *v, const struct hold_points *h, size_t at, struct cells *out)
{
	const struct hold_point *p = &h->list[at];
	struct sb_str text = { 0 };
	char line[300];
	int row = 1;

	sb_cells_rule(out, 0, "the chosen point, the exit, and the signature");
	snprintf(line, sizeof line, "%.120s: %.170s", p->text, p->state);
	row += sb_cells_wrap(out, row, 1, out->columns - 2, sb_theme_level(level_of(p)), line);
	sb_acceptance_say(v->job, &text);
	if (sb_job_accepted(v->job) == NULL)
		sb_str_add(&text,
			h->missing ? " It cannot be accepted yet: %zu missing."
				   : " Nothing is missing: S signs.",
			h->missing);
	row += sb_cells_wrap(out, row, 1, out->columns - 2, STYLE_STRONG, sb_str_get(&text));
	draw_exit(v, &h->exit, out, row);
	sb_str_clear(&text);
}

static void acceptance_draw(const struct view *v, struct cells *out)
{
	struct point_list *l = v->state;
	struct hold_points h = { 0 };
	int below = out->rows / 2 > 9 ? 9 : out->rows / 2;

	sb_acceptance_look(v->job, v->solution, &h);
	sb_cells_rule(out, 0, "asked before the pilot is accepted");
	sb_list_fit(&l->list, h.count);
	struct cells part = sb_cells_part(out, 1, 0, out->rows - 1 - below, out->columns);
	sb_list_draw(&l->list, h.count, draw_line, &h, &part);
	part = sb_cells_part(out, out->rows - below, 0, below, out->columns);
	draw_below(v, &h, l->list.chosen, &part);
	sb_acceptance_clear(&h);
}

static enum follow acceptance_key(struct view *v, int key)
{
	struct point_list *l = v->state;
	struct hold_points h = { 0 };

	sb_acceptance_look(v->job, v->solution, &h);
	bool taken = sb_list_key(&l->list, key, h.count);
	sb_acceptance_clear(&h);
	return taken ? FOLLOW_REDRAW : FOLLOW_PASS;
}

static enum follow done_or_failed(struct view *v, int status, const struct sb_err *err, const char *words)
{
	if (status) {
		sb_app_fail(v, err);
		return FOLLOW_PASS;
	}
	sb_app_say(v, LEVEL_OK, "%s", words);
	return FOLLOW_JOB_CHANGED;
}

/* ---- ticking off ---- */

static enum follow tick_it(struct view *v, const struct form *given, int64_t subject)
{
	const struct ticked *t = sb_job_tick(v->job, (int)subject);
	bool done = !(t && t->done);
	struct sb_err err = { 0 };
	int status = sb_store_tick(v->store, sb_form_text(given, "who"), (int)subject, done,
		done ? sb_form_text(given, "reference") : "", sb_form_text(given, "reason"), &err);

	return done_or_failed(v, status, &err, done ? "On disk: ticked off." : "On disk: it is open again.");
}

static enum follow tick(struct view *v)
{
	const struct point_list *l = v->state;
	struct prompt p = { .answer = tick_it };
	struct hold_points h = { 0 };

	sb_acceptance_look(v->job, v->solution, &h);
	struct hold_point chosen = h.list[l->list.chosen];
	sb_acceptance_clear(&h);
	if (chosen.tick == 0)
		return sb_app_say(v, LEVEL_OK,
			"This point is judged from the log. The contract's own points are ticked off by hand.");
	p.subject = chosen.tick;
	snprintf(p.question, sizeof p.question, chosen.done ? "Not done after all: %s. Why?" : "Done: %s.",
		chosen.text);
	if (!chosen.done)
		sb_entry_words(&p.form, "reference", "where it is kept", 40, false);
	sb_entry_words(&p.form, "reason", chosen.done ? "why" : "remark", 60, chosen.done);
	sb_entry_who(&p.form, v);
	return sb_prompt_ask(v, &p);
}

/* ---- the signature ---- */

static enum follow sign_it(struct view *v, const struct form *given, int64_t subject)
{
	struct sb_err err = { 0 };
	int status = sb_store_sign(v->store, sb_form_text(given, "who"), sb_form_text(given, "capacity"),
		sb_form_text(given, "statement"), &err);

	(void)subject;
	return done_or_failed(v, status, &err,
		"On disk: the pilot is accepted, and closed. O opens it again, with a reason.");
}

static enum follow sign(struct view *v)
{
	struct prompt p = { .answer = sign_it };
	struct hold_points h = { 0 };

	sb_acceptance_look(v->job, v->solution, &h);
	size_t missing = h.missing;
	sb_acceptance_clear(&h);
	if (sb_job_accepted(v->job))
		return sb_app_say(v, LEVEL_OK, "The pilot is accepted already.");
	if (missing)
		return sb_app_say(v, LEVEL_WATCH,
			"It cannot be accepted yet: %zu missing, marked !! in the list.", missing);
	snprintf(p.question, sizeof p.question,
		"Accept the pilot. It is closed from then on: who has to change it opens it again first, with a reason.");
	sb_entry_words(&p.form, "capacity", "as what you sign", 40, true);
	sb_entry_words(&p.form, "statement", "statement", 60, true);
	sb_entry_who(&p.form, v);
	return sb_prompt_ask(v, &p);
}

static enum follow reopen_it(struct view *v, const struct form *given, int64_t subject)
{
	struct sb_err err = { 0 };
	int status =
		sb_store_reopen(v->store, sb_form_text(given, "who"), sb_form_text(given, "reason"), &err);

	(void)subject;
	return done_or_failed(v, status, &err, "On disk: the pilot is open again.");
}

static enum follow reopen(struct view *v)
{
	struct prompt p = { .answer = reopen_it };

	if (sb_job_accepted(v->job) == NULL)
		return sb_app_say(v, LEVEL_OK, "The pilot is open: nobody has accepted it.");
	snprintf(p.question, sizeof p.question,
		"Open the pilot again. The acceptance stays in the file, and is no longer in force. Why?");
	sb_entry_words(&p.form, "reason", "why", 60, true);
	sb_entry_who(&p.form, v);
	return sb_prompt_ask(v, &p);
}

static enum follow open_breaches(struct view *v)
{
	return sb_app_open(v, &sb_screen_nonconformances, NULL);
}

static const struct action acceptance_actions[] = {
	{ .name = "tick-point",
		.keys = "Enter",
		.label = "tick off",
		.help = "The chosen point of the contract's checklist is done, or is not after all; with a name.",
		.act = tick,
		.writes = true },
	{ .name = "open-nonconformances",
		.keys = "N",
		.label = "non-conformances",
		.help = "Every breach, and the engineer's word on it.",
		.act = open_breaches },
	{ .name = "sign-pilot",
		.keys = "S",
		.label = "sign",
		.help = "Accept the pilot, with a statement and a name. It is closed from then on.",
		.act = sign,
		.writes = true },
	{ .name = "reopen-pilot",
		.keys = "O",
		.label = "open again",
		.help = "Open an accepted pilot again, with a reason and a name.",
		.act = reopen,
		.writes = true },
	{ .name = "back-to-log",
		.keys = "X Q Esc Ctrl-C",
		.label = "back",
		.help = "Back to the log.",
		.act = sb_app_close },
	{ 0 },
};

const struct screen sb_screen_acceptance = {
	.name = "acceptance",
	.title = "acceptance",
	.about =
		"The pilot is a hold point: nothing follows until it is accepted. Some points are judged from the log, the contract's "
		"own are ticked off by name. Signing closes the pilot; notes, warnings and shifts go on.",
	.state_size = sizeof(struct point_list),
	.draw = acceptance_draw,
	.key = acceptance_key,
	.actions = acceptance_actions,
	.widgets = { sb_list_keys },
};
