/* A reading is held: it looks like a slip of the pen. Nothing is changed silently and nothing is forbidden:
 * the likely value goes into the field, to be looked at and entered, or the reading is logged as it is with a
 * reason.
 */
#include "base/str.h"
#include "ui/app.h"
#include "ui/entry.h"
#include "ui/log.h"
#include "ui/prompt.h"

#include <stdio.h>
#include <string.h>

struct held {
	struct suspicion found[SB_SUSPICIONS];
	size_t count;
};

static int held_open(struct view *v, const void *argument, struct sb_err *err)
{
	struct held *h = v->state;
	struct reading r;
	struct view entry = *v;

	(void)argument;
	entry.state = sb_app_below(v)->state;
	if (sb_log_reading(&entry, true, &r, err))
		return -1;
	h->count = sb_log_look(&entry, &r, h->found);
	while (h->count > 0 && !h->found[h->count - 1].held)
		h->count--;
	return h->count ? 0 : sb_fail(err, SB_STATE, "Nothing is held.");
}

static const struct suspicion *offer(const struct held *h)
{
	for (size_t i = 0; i < h->count; i++)
		if (h->found[i].has_likely)
			return &h->found[i];
	return NULL;
}

static int held_rows(const struct view *v, int columns)
{
	const struct held *h = v->state;
	int rows = offer(h) ? 4 : 3;

	for (size_t i = 0; i < h->count; i++)
		rows += sb_cells_wrapped(h->found[i].text, columns - 2);
	return rows;
}

static bool exchanged(const struct suspicion *s)
{
	return sb_same(s->slip, "inclination and azimuth exchanged");
}

static void draw_key(struct cells *out, int row, const char *key, enum style style, const char *what)
{
	int column = sb_cells_text(out, row, 1, STYLE_KEY, key);

	sb_cells_text(out, row, column + 1, style, what);
}

static void held_draw(const struct view *v, struct cells *out)
{
	const struct held *h = v->state;
	const struct suspicion *s = offer(h);
	char text[96];
	int row = 1;

	sb_cells_rule(out, 0, "not logged yet: this looks like a slip");
	for (size_t i = 0; i < h->count; i++)
		row += sb_cells_wrap(out, row, 1, out->columns - 2, STYLE_WATCH, h->found[i].text);
	if (s && exchanged(s))
		draw_key(out, row++, "Enter", STYLE_STRONG, "exchange the two, and look again");
	else if (s) {
		snprintf(text, sizeof text, "put %s in, and look again", s->likely.text);
		draw_key(out, row++, "Enter", STYLE_STRONG, text);
	}
	draw_key(out, row++, "R", STYLE_PLAIN, "it is right: log it as it is typed, and say why");
	draw_key(out, row, "E", STYLE_PLAIN, "go back and type it again");
}

/* Back on the entry line, at the field that the suspicion is about; a digit there begins it anew. */
static enum follow go_to(struct log_state *state, const struct suspicion *s)
{
	size_t i = sb_form_index(&state->entry, s->field);

	sb_form_focus(&state->entry, i < state->entry.count ? i : 1);
	return FOLLOW_CLOSE;
}

static enum follow take_likely(struct view *v)
{
	const struct suspicion *s = offer(v->state);
	struct view *log = sb_app_below(v);
	struct log_state *state = log->state;

	if (s == NULL)
		return FOLLOW_CLOSE;
	if (exchanged(s)) {
		char azimuth[SB_FORM_TEXT];
		sb_copy(azimuth, sizeof azimuth, sb_form_text(&state->entry, "inclination"));
		sb_form_put(&state->entry, "azimuth", azimuth, false);
	}
	sb_form_put(&state->entry, s->field, s->likely.text, false);
	sb_log_changed(log);
	return go_to(state, s);
}

static enum follow log_as_it_is(struct view *asker, const struct form *given, int64_t subject)
{
	(void)subject;
	enum follow follow = sb_log_commit(asker, true, sb_form_text(given, "reason"));
	return follow == FOLLOW_JOB_CHANGED ? follow : FOLLOW_PASS;
}

static enum follow say_why(struct view *v)
{
	struct prompt p = { .answer = log_as_it_is };
	struct view *log = sb_app_below(v);

	sb_copy(p.question, sizeof p.question, "Log it as it is typed. Why is it right?");
	sb_entry_words(&p.form, "reason", "why", 60, true);
	sb_app_close_top(v->app);
	return sb_prompt_ask(log, &p);
}

static enum follow go_back(struct view *v)
{
	const struct held *h = v->state;

	return go_to(sb_app_below(v)->state, &h->found[0]);
}

static const struct action held_actions[] = {
	{ .name = "take-likely",
		.keys = "Enter",
		.label = "take it",
		.help = "Put the likely value in; it is logged only by the next Enter.",
		.act = take_likely },
	{ .name = "as-it-is",
		.keys = "R",
		.label = "as it is",
		.help = "Log the reading as it was typed, with a reason.",
		.act = say_why },
	{ .name = "type-again",
		.keys = "E Q Esc Ctrl-C",
		.label = "type again",
		.help = "Go back to the entry line; nothing is logged.",
		.act = go_back },
	{ 0 },
};

const struct screen sb_screen_held = {
	.name = "held",
	.title = "held",
	.about =
		"A reading that looks like a slip of the pen is held until somebody decides: take the likely value, type again, or log it "
		"as it is and say why.",
	.state_size = sizeof(struct held),
	.open = held_open,
	.draw = held_draw,
	.rows = held_rows,
	.actions = held_actions,
};

/* Without a likely value there is none to take. */
const struct screen sb_screen_doubted = {
	.name = "doubted",
	.title = "doubted",
	.about =
		"A reading that cannot well be is held until somebody decides: type again, or log it as it is and say why.",
	.state_size = sizeof(struct held),
	.open = held_open,
	.draw = held_draw,
	.rows = held_rows,
	.actions = &held_actions[1],
};

enum follow sb_log_hold(struct view *v, const struct suspicion *found, size_t count)
{
	for (size_t i = 0; i < count; i++)
		if (found[i].held && found[i].has_likely)
			return sb_app_open(v, &sb_screen_held, NULL);
	return sb_app_open(v, &sb_screen_doubted, NULL);
}
