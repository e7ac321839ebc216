/* The independent fixes: how far each lies from the path and whether that is within what both sides claim,
 * the correction that they propose, and the acts on it: take, take back, set aside, use again.
 */
#include "base/mem.h"
#include "base/str.h"
#include "model/fact.h"
#include "ui/app.h"
#include "ui/entry.h"
#include "ui/fixes.h"
#include "ui/list.h"
#include "ui/prompt.h"
#include "ui/theme.h"

#include <stdio.h>

struct fix_list {
	struct list list;
};

/* The newest on top. */
static const struct fix_view *view_at(const struct view *v, size_t i)
{
	return &v->solution->fixes.list[v->solution->fixes.count - 1 - i];
}

static enum style style_of(const struct fix_view *f)
{
	if (f->standing != FIX_STANDS)
		return STYLE_WITHDRAWN;
	return sb_theme_level(f->agrees ? LEVEL_OK : LEVEL_WATCH);
}

static void draw_row(const void *context, size_t i, struct cells *out)
{
	const struct view *v = context;
	const struct fix_view *f = view_at(v, i);
	const struct fix *fix = sb_job_fix(v->job, f->fix);
	struct setup setup = sb_solution_setup(v->job, v->solution);
	struct sb_str off = { 0 };
	char verdict[40];

	snprintf(verdict, sizeof verdict, "%s%s", f->standing == FIX_STANDS && !f->agrees ? "! " : "",
		sb_fixes_verdict(f));
	sb_fixes_off(&setup, f->seen, f->off_m, &off);
	sb_cells_print(out, 0, 2, STYLE_PLAIN, "%3lld", (long long)f->fix);
	sb_cells_fit(out, 0, 7, 10, STYLE_PLAIN, sb_fix_kind_name(fix->kind));
	sb_cells_right(out, 0, 17, 9, STYLE_PLAIN, fix->depth.text);
	sb_cells_fit(out, 0, 28, out->columns - 46, STYLE_PLAIN, sb_str_get(&off));
	sb_cells_fit(out, 0, out->columns - 17, 16, style_of(f), verdict);
	sb_str_clear(&off);
}

/* Text on rows of its own; returns the row after it. */
static int put(struct cells *out, int row, enum style style, struct sb_str *text)
{
	row += sb_cells_wrap(out, row, 1, out->columns - 2, style, sb_str_get(text));
	sb_str_clear(text);
	return row;
}

static int draw_in_force(const struct view *v, struct cells *out, int row)
{
	const struct adjustment *a = sb_job_adjustment(v->job);
	struct sb_str text = { 0 };

	if (a)
		sb_str_add(&text, "In force, taken by %s: %s.", a->fact.who, a->fact.words);
	else
		sb_str_add(&text, "No correction is in force: the path is as it was read.");
	return put(out, row, a ? STYLE_PLAIN : STYLE_DIM, &text);
}

static void draw_proposal(const struct view *v, struct cells *out)
{
	const struct fixes *f = &v->solution->fixes;
	const struct proposal *p = &f->proposal;
	struct sb_str text = { 0 };
	int row = 1;

	sb_cells_rule(out, 0, "what the fixes propose");
	sb_fixes_say_fit(v->job, f, &text);
	row = put(out, row,
		p->status == PROPOSAL_MADE && !p->fits ? sb_theme_level(LEVEL_WATCH) : STYLE_PLAIN, &text);
	for (int t = 0; t < CORRECT_TERMS && p->status == PROPOSAL_MADE; t++) {
		sb_fixes_say_term(f, t, &text);
		row = put(out, row, STYLE_PLAIN, &text);
	}
	draw_in_force(v, out, row);
}

/* The chosen fix in full, and what it would still be off by. */
static void draw_chosen(const struct view *v, const struct fix_view *chosen, struct cells *out)
{
	const struct fixes *f = &v->solution->fixes;
	const struct fix *fix = sb_job_fix(v->job, chosen->fix);
	struct setup setup = sb_solution_setup(v->job, v->solution);
	struct sb_str text = { 0 };
	int row = 1;

	sb_cells_rule(out, 0, NULL);
	sb_fixes_say(&setup, f, chosen, &text);
	row = put(out, row, STYLE_PLAIN, &text);
	for (size_t k = 0; k < f->proposal.count; k++)
		if (&f->list[f->proposal.fixes[k].view] == chosen) {
			sb_str_add(&text, "Corrected as proposed it would be off by ");
			sb_fixes_off(&setup, chosen->seen, f->proposal.fixes[k].left_m, &text);
			sb_str_add(&text, ".");
			row = put(out, row, STYLE_PLAIN, &text);
		}
	sb_str_add(&text, "Entered by %s: %s", fix->fact.who, fix->fact.words);
	put(out, row, STYLE_DIM, &text);
}

#define PROPOSAL_ROWS 8
#define CHOSEN_ROWS 6

static void fixes_draw(const struct view *v, struct cells *out)
{
	struct fix_list *l = v->state;
	size_t count = v->solution->fixes.count;
	int list_rows = out->rows - 1 - PROPOSAL_ROWS - (count ? CHOSEN_ROWS : 0);

	sb_cells_rule(out, 0, "fix, kind, depth, and where it puts the hole beside the path");
	if (count == 0) {
		sb_cells_wrap(out, 2, 1, out->columns - 2, STYLE_PLAIN,
			"There is no independent fix yet. N enters one: a coil, a beacon, a walk-over, a gyro, or the exit by land survey.");
	} else {
		sb_list_fit(&l->list, count);
		struct cells part = sb_cells_part(out, 1, 0, list_rows, out->columns);
		sb_list_draw(&l->list, count, draw_row, v, &part);
		part = sb_cells_part(out, 1 + list_rows, 0, CHOSEN_ROWS, out->columns);
		draw_chosen(v, view_at(v, l->list.chosen), &part);
	}
	struct cells part = sb_cells_part(out, out->rows - PROPOSAL_ROWS, 0, PROPOSAL_ROWS, out->columns);
	draw_proposal(v, &part);
}

static enum follow fixes_key(struct view *v, int key)
{
	struct fix_list *l = v->state;

	return sb_list_key(&l->list, key, v->solution->fixes.count) ? FOLLOW_REDRAW : FOLLOW_PASS;
}

/* ---- acts ---- */

static void ask_why(struct prompt *p, const struct view *v)
{
	sb_entry_words(&p->form, "reason", "why", 60, true);
	sb_entry_who(&p->form, v);
}

static enum follow enter_new(struct view *v)
{
	return sb_app_open(v, &sb_screen_fix, NULL);
}

static enum follow use_it(struct view *v, const struct form *given, int64_t subject)
{
	const struct fix *f = sb_job_fix(v->job, subject);
	bool use = f && !f->used;
	struct sb_err err = { 0 };

	if (sb_store_fix_use(v->store, sb_form_text(given, "who"), subject, use,
		    sb_form_text(given, "reason"), &err)) {
		sb_app_fail(v, &err);
		return FOLLOW_PASS;
	}
	sb_app_say(v, LEVEL_OK, "On disk: fix %lld is %s.", (long long)subject,
		use ? "used again" : "set aside");
	return FOLLOW_JOB_CHANGED;
}

static enum follow set_aside(struct view *v)
{
	const struct fix_list *l = v->state;
	struct prompt p = { .answer = use_it };

	if (v->solution->fixes.count == 0)
		return FOLLOW_NOTHING;
	p.subject = view_at(v, l->list.chosen)->fix;
	const struct fix *f = sb_job_fix(v->job, p.subject);
	snprintf(p.question, sizeof p.question,
		f->used ? "Set fix %lld aside: it stays in the file and in this list, and counts no more. Why?"
			: "Use fix %lld again. Why?",
		(long long)p.subject);
	ask_why(&p, v);
	return sb_prompt_ask(v, &p);
}

static enum follow take_it(struct view *v, const struct form *given, int64_t subject)
{
	struct adjustment a;
	struct sb_err err = { 0 };

	(void)subject;
	sb_fixes_adjustment(&v->solution->fixes, &a);
	if (sb_store_adjust(v->store, sb_form_text(given, "who"), &a, sb_form_text(given, "reason"), &err)) {
		sb_app_fail(v, &err);
		return FOLLOW_PASS;
	}
	sb_app_say(
		v, LEVEL_OK, "The correction is on disk, and the path is solved with it. B takes it back.");
	return FOLLOW_JOB_CHANGED;
}

static enum follow take(struct view *v)
{
	const struct fixes *f = &v->solution->fixes;
	struct prompt p = { .answer = take_it };
	struct sb_str fit = { 0 };

	sb_fixes_say_fit(v->job, f, &fit);
	if (f->proposal.status != PROPOSAL_MADE)
		sb_app_say(v, LEVEL_WATCH, "%s", sb_str_get(&fit));
	snprintf(p.question, sizeof p.question, "Take the proposed correction of all readings%s%.250s Why?",
		f->proposal.fits ? "." : ", although this is so? ", f->proposal.fits ? "" : sb_str_get(&fit));
	sb_str_clear(&fit);
	if (f->proposal.status != PROPOSAL_MADE)
		return FOLLOW_REDRAW;
	ask_why(&p, v);
	return sb_prompt_ask(v, &p);
}

static enum follow take_back_it(struct view *v, const struct form *given, int64_t subject)
{
	struct sb_err err = { 0 };

	(void)subject;
	if (sb_store_adjust_back(v->store, sb_form_text(given, "who"), sb_form_text(given, "reason"), &err)) {
		sb_app_fail(v, &err);
		return FOLLOW_PASS;
	}
	sb_app_say(v, LEVEL_OK, "The correction is taken back, on disk: the path is as it was read.");
	return FOLLOW_JOB_CHANGED;
}

static enum follow take_back(struct view *v)
{
	struct prompt p = { .answer = take_back_it };

	if (sb_job_adjustment(v->job) == NULL)
		return sb_app_say(v, LEVEL_OK, "No correction is in force that could be taken back.");
	snprintf(p.question, sizeof p.question,
		"Take the correction back: the path is then as it was read. Why?");
	ask_why(&p, v);
	return sb_prompt_ask(v, &p);
}

static const struct action fixes_actions[] = {
	{ .name = "new-fix",
		.keys = "N",
		.label = "new fix",
		.help = "Enter an independent position.",
		.act = enter_new,
		.writes = true },
	{ .name = "take-proposal",
		.keys = "T",
		.label = "take",
		.help = "Take the proposed correction with a reason and a name: the path is solved with it.",
		.act = take,
		.writes = true },
	{ .name = "take-back",
		.keys = "B",
		.label = "take back",
		.help = "Take the correction in force back, with a reason and a name.",
		.act = take_back,
		.writes = true },
	{ .name = "set-aside",
		.keys = "X Enter",
		.label = "set aside / use",
		.help = "Set the chosen fix aside, or use it again, with a reason and a name.",
		.act = set_aside,
		.writes = true },
	{ .name = "back-to-log",
		.keys = "F Q Esc Ctrl-C",
		.label = "back",
		.help = "Back to the log.",
		.act = sb_app_close },
	{ 0 },
};

const struct screen sb_screen_fixes = {
	.name = "fixes",
	.title = "fixes",
	.about =
		"An independent fix stands beside the path and never moves it. Where fixes and readings tell of an error that all "
		"readings share, a correction is proposed; it holds once somebody takes it, and can be taken back.",
	.state_size = sizeof(struct fix_list),
	.draw = fixes_draw,
	.key = fixes_key,
	.actions = fixes_actions,
	.widgets = { sb_list_keys },
};
