/* How a figure came about: the figures that there are at a joint, and the page of the chosen one.
 *
 * 1. From a warning it opens with the page of the warning's own figure, and there is no list.
 * 2. The page is made when it is first drawn and when the job changes, not at every key: a plan takes a
 * while.
 */
#include "base/mem.h"
#include "base/str.h"
#include "ui/app.h"
#include "ui/explain.h"
#include "ui/key.h"
#include "ui/list.h"
#include "ui/page.h"

#include <stdio.h>

#define NAME 18 /* columns of a figure's name in the list */

struct explain_screen {
	struct explain_ask ask; /* figure NULL: the list is in sight */
	bool listed;		/* there is a list to go back to */
	struct list list;
	struct page page;
	bool made;
	struct explanation e;
	struct sb_err err; /* why there is none */
};

struct explain_ask sb_explain_reading(const struct reading *r)
{
	return (struct explain_ask){ NULL, r ? r->joint : 0, r ? r->leg : 0, 0 };
}

enum follow sb_explain_open(struct view *v, const struct explain_ask *ask)
{
	return sb_app_open(v, &sb_screen_explain, ask);
}

enum follow sb_explain_warning_open(struct view *v, const struct warning *w)
{
	struct explain_ask ask = sb_explain_warning(v->solution, w);

	if (ask.figure == NULL)
		return sb_app_say(v, LEVEL_OK,
			"There is nothing to work out behind this warning: it says all there is.");
	return sb_explain_open(v, &ask);
}

static int explain_open(struct view *v, const void *argument, struct sb_err *err)
{
	struct explain_screen *x = v->state;

	(void)err;
	x->ask = *(const struct explain_ask *)argument;
	x->listed = x->ask.figure == NULL;
	return 0;
}

static void explain_close(struct view *v)
{
	sb_explanation_clear(&((struct explain_screen *)v->state)->e);
}

static void explain_changed(struct view *v)
{
	((struct explain_screen *)v->state)->made = false;
}

/* ---- drawing ---- */

static enum style style_of(enum explain_kind kind)
{
	switch (kind) {
	case EXPLAIN_RESULT:
		return STYLE_STRONG;
	case EXPLAIN_ALARM:
		return STYLE_BREACH;
	case EXPLAIN_NOTE:
	case EXPLAIN_SOURCE:
		return STYLE_DIM;
	case EXPLAIN_FORMULA:
	case EXPLAIN_INPUT:
	case EXPLAIN_STEP:
	case EXPLAIN_CHECK:
	case EXPLAIN_LIMIT:
	case EXPLAIN_KINDS:
		break;
	}
	return STYLE_PLAIN;
}

struct drawing {
	struct cells *out;
	int row;
};

static void draw_line(void *data, enum explain_kind kind, const char *line)
{
	struct drawing *d = data;

	sb_cells_text(d->out, d->row++, 1, style_of(kind), line);
}

static int draw_lines(const void *context, struct cells *out, int row)
{
	const struct explain_screen *x = context;
	struct drawing d = { out, row + 1 };
	char title[160];

	if (!x->e.figure) {
		sb_cells_rule(out, row, x->ask.figure->name);
		return row + 1 + sb_cells_wrap(out, row + 1, 1, out->columns - 2, STYLE_PLAIN, x->err.text);
	}
	snprintf(title, sizeof title, "%s: %s", x->e.figure->title, x->e.about);
	sb_cells_rule(out, row, title);
	sb_explain_lay(&x->e, out->columns - 2, draw_line, &d);
	return d.row;
}

static void draw_row(const void *context, size_t i, struct cells *out)
{
	(void)context;
	sb_cells_fit(out, 0, 2, NAME - 1, STYLE_PLAIN, sb_explain_figures[i].name);
	sb_cells_fit(out, 0, 2 + NAME, out->columns - NAME - 3, STYLE_DIM, sb_explain_figures[i].title);
}

static void draw_list(struct explain_screen *x, struct cells *out)
{
	struct cells part = sb_cells_part(out, 1, 0, out->rows - 1, out->columns);
	char title[80];

	if (x->ask.joint > 0)
		snprintf(title, sizeof title, "how did it come about? at joint %d, leg %d", x->ask.joint,
			x->ask.leg);
	else
		snprintf(title, sizeof title, "how did it come about? at the entry");
	sb_cells_rule(out, 0, title);
	sb_list_draw(&x->list, sb_explain_figure_count, draw_row, NULL, &part);
}

static void explain_draw(const struct view *v, struct cells *out)
{
	struct explain_screen *x = v->state;

	if (x->ask.figure == NULL) {
		draw_list(x, out);
		return;
	}
	if (!x->made && sb_explain(v->job, v->solution, &x->ask, &x->e, &x->err) == 0)
		x->err.text[0] = '\0';
	x->made = true;
	sb_page_draw(&x->page, draw_lines, x, out);
}

/* ---- keys ---- */

static void show(struct explain_screen *x, size_t figure)
{
	x->list.chosen = figure;
	x->ask.figure = &sb_explain_figures[figure];
	x->page = (struct page){ 0 };
	x->made = false;
}

static bool turn_page(struct explain_screen *x, int key)
{
	size_t at = x->list.chosen, last = sb_explain_figure_count - 1;

	if (!x->listed || (key != SB_KEY_LEFT && key != SB_KEY_RIGHT))
		return false;
	show(x, key == SB_KEY_LEFT ? (at ? at - 1 : last) : (at < last ? at + 1 : 0));
	return true;
}

static enum follow explain_key(struct view *v, int key)
{
	struct explain_screen *x = v->state;

	if (x->ask.figure ? turn_page(x, key) || sb_page_key(&x->page, key)
			  : sb_list_key(&x->list, key, sb_explain_figure_count))
		return FOLLOW_REDRAW;
	return FOLLOW_PASS;
}

static enum follow back(struct view *v)
{
	struct explain_screen *x = v->state;

	if (x->ask.figure == NULL || !x->listed)
		return sb_app_close(v);
	x->ask.figure = NULL;
	return FOLLOW_REDRAW;
}

static enum follow choose(struct view *v)
{
	struct explain_screen *x = v->state;

	if (x->ask.figure)
		return back(v);
	show(x, x->list.chosen);
	return FOLLOW_REDRAW;
}

static const struct action explain_actions[] = {
	{ .name = "show-figure",
		.keys = "Enter",
		.label = "show",
		.help = "In the list: how the chosen figure came about. On its page: back.",
		.act = choose },
	{ .name = "other-figure",
		.keys = "Left Right",
		.help = "On a page: the figure before, or the next one." },
	{ .name = "back-one",
		.keys = "Y Esc Q Ctrl-C",
		.label = "back",
		.help = "Back to the list, and from there to where you came from.",
		.act = back },
	{ 0 },
};

const struct screen sb_screen_explain = {
	.name = "explain",
	.title = "why",
	.about =
		"How a figure came about: its formula, what went into it and who said so, each step, its limit, and the source of the "
		"method. It is worked out again from the readings while you look; where that is not what the program shows, it says ALARM.",
	.state_size = sizeof(struct explain_screen),
	.open = explain_open,
	.draw = explain_draw,
	.key = explain_key,
	.changed = explain_changed,
	.close = explain_close,
	.actions = explain_actions,
	.widgets = { sb_list_keys, sb_page_keys },
};
