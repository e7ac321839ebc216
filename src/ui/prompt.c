/* The question is a screen of its own on top of the one that asks, so that it needs nothing special from
 * the loop. It is closed before its answer is given, so that the answer may open the next screen. */
#include "ui/prompt.h"

#include "base/mem.h"
#include "ui/app.h"
#include "ui/kept.h"

#include <string.h>

#define FIELD_ROWS_MOST 8

static int prompt_open(struct view *v, const void *argument, struct sb_err *err)
{
	(void)err;
	memcpy(v->state, argument, sizeof(struct prompt));
	return 0;
}

/* ---- what is half typed ---- */

static struct kept kept_of(struct prompt *p)
{
	return (struct kept){ p->kept, 1, p->number, { &p->form } };
}

static void keep(const struct view *v, bool sync)
{
	struct prompt *p = v->state;
	struct kept k = kept_of(p);

	if (p->kept)
		sb_kept_save(v, &k, sync);
}

static void prompt_keep(struct view *v)
{
	keep(v, true);
}

static void discard(const struct view *v, struct prompt *p)
{
	struct kept k = kept_of(p);

	if (p->kept)
		sb_kept_discard(v, &k);
}

static enum follow take_back(struct view *v)
{
	discard(v, v->state);
	return FOLLOW_CLOSE;
}

/* ---- the question, and fields for the answer ---- */

static int question_rows(const struct prompt *p, int columns)
{
	return sb_cells_wrapped(p->question, columns - 2);
}

static int prompt_rows(const struct view *v, int columns)
{
	const struct prompt *p = v->state;
	int fields = p->form.count < FIELD_ROWS_MOST ? (int)p->form.count : FIELD_ROWS_MOST;

	/* one row more: for what is wrong with a field */
	return 1 + question_rows(p, columns) + fields + 1;
}

static int draw_question(const struct prompt *p, struct cells *out)
{
	sb_cells_rule(out, 0, NULL);
	return 1 + sb_cells_wrap(out, 1, 1, out->columns - 2, STYLE_STRONG, p->question);
}

static void prompt_draw(const struct view *v, struct cells *out)
{
	const struct prompt *p = v->state;
	int row = draw_question(p, out);
	struct cells part = sb_cells_part(out, row, 0, out->rows - row, out->columns);

	sb_form_draw(&p->form, &part);
}

static enum follow ask(struct view *asker, const struct prompt *p)
{
	return sb_app_open(asker, p->form.count ? &sb_screen_prompt : &sb_screen_confirm, p);
}

static enum follow give_answer(struct view *v)
{
	struct prompt *p = sb_alloc(sizeof *p);
	struct view *asker = sb_app_below(v);

	/* What is typed is safe on disk, half typed, before it is tried for good. */
	keep(v, true);
	memcpy(p, v->state, sizeof *p);
	sb_app_close_top(v->app);
	enum follow follow = p->answer(asker, &p->form, p->subject);
	if (follow == FOLLOW_PASS)
		follow = ask(asker, p);
	else
		discard(asker, p);
	sb_free(p);
	return follow;
}

static enum follow prompt_key(struct view *v, int key)
{
	struct prompt *p = v->state;

	switch (sb_form_key(&p->form, key, p->check, v)) {
	case FORM_DONE:
		return give_answer(v);
	case FORM_CHANGED:
		keep(v, false);
		return FOLLOW_REDRAW;
	case FORM_MOVED:
		return FOLLOW_REDRAW;
	case FORM_PASS:
		break;
	}
	return FOLLOW_PASS;
}

static const struct action prompt_actions[] = {
	{ .name = "answer",
		.keys = "Enter",
		.label = "answer",
		.help = "Go on to the next field that is needed; with all of them filled, give the answer." },
	{ .name = "take-back",
		.keys = "Esc Ctrl-C",
		.label = "take back",
		.help = "Take the question back: nothing is done.",
		.act = take_back },
	{ 0 },
};

const struct screen sb_screen_prompt = {
	.name = "question",
	.title = "question",
	.about = "A question at the foot of the screen that asks it.",
	.state_size = sizeof(struct prompt),
	.open = prompt_open,
	.draw = prompt_draw,
	.key = prompt_key,
	.keep = prompt_keep,
	.rows = prompt_rows,
	.letters = true,
	.actions = prompt_actions,
	.widgets = { sb_form_keys },
};

/* ---- yes or no ---- */

static int confirm_rows(const struct view *v, int columns)
{
	return 1 + question_rows(v->state, columns) + 1;
}

static void confirm_draw(const struct view *v, struct cells *out)
{
	int row = draw_question(v->state, out);
	int column = sb_cells_text(out, row, 1, STYLE_KEY, "Y");

	column = sb_cells_text(out, row, column + 1, STYLE_PLAIN, "yes");
	column = sb_cells_text(out, row, column + 3, STYLE_KEY, "N");
	sb_cells_text(out, row, column + 1, STYLE_PLAIN, "no");
}

/* Enter is not among them: a hand that presses it once too often must not answer. */
static const struct action confirm_actions[] = {
	{ .name = "yes", .keys = "Y", .label = "yes", .help = "Yes: it is done.", .act = give_answer },
	{ .name = "no",
		.keys = "N Q Esc Ctrl-C",
		.label = "no",
		.help = "No: nothing is done.",
		.act = sb_app_close },
	{ 0 },
};

const struct screen sb_screen_confirm = {
	.name = "yes-or-no",
	.title = "yes or no",
	.about = "A question that is answered with yes or no, at the foot of the screen that asks it.",
	.state_size = sizeof(struct prompt),
	.open = prompt_open,
	.draw = confirm_draw,
	.rows = confirm_rows,
	.actions = confirm_actions,
};

enum follow sb_prompt_ask(struct view *asker, const struct prompt *p)
{
	struct prompt *anew = sb_alloc(sizeof *anew);
	char when[SB_TIME_TEXT];

	memcpy(anew, p, sizeof *anew);
	struct kept k = kept_of(anew);
	if (p->kept && sb_kept_load(asker, &k, when))
		sb_app_say(asker, LEVEL_OK,
			"What was half typed here at %s is back. Nothing of it is on disk yet.", when);
	enum follow follow = ask(asker, anew);
	sb_free(anew);
	return follow;
}
