/* How a figure came about: its page. It is made when it is first drawn and when the job changes, not at every
 * key: a plan takes a while. */
#include "ui/app.h"
#include "ui/explain.h"
#include "ui/key.h"
#include "ui/page.h"

#include <stdio.h>

struct explain_screen {
	struct explain_ask ask;
	struct page page;
	bool made;
	struct explanation e;
	struct sb_err err; /* why there is none */
};

enum follow sb_explain_value_of(struct view *v, const struct warning *w)
{
	struct explain_ask ask = sb_explain_warning(v->solution, w);

	if (ask.figure == NULL)
		return sb_app_say(v, LEVEL_OK,
			"There is nothing to work out behind this warning: it says all there is.");
	return sb_app_open(v, &sb_screen_explain, &ask);
}

static int explain_open(struct view *v, const void *argument, struct sb_err *err)
{
	(void)err;
	((struct explain_screen *)v->state)->ask = *(const struct explain_ask *)argument;
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

static void explain_draw(const struct view *v, struct cells *out)
{
	struct explain_screen *x = v->state;

	if (!x->made && sb_explain(v->job, v->solution, &x->ask, &x->e, &x->err) == 0)
		x->err.text[0] = '\0';
	x->made = true;
	sb_page_draw(&x->page, draw_lines, x, out);
}

/* ---- keys ---- */

/* To the figure before or after, round and round. */
static enum follow turn(struct view *v, bool on)
{
	struct explain_screen *x = v->state;
	size_t at = (size_t)(x->ask.figure - sb_explain_figures), count = sb_explain_figure_count;

	x->ask.figure = &sb_explain_figures[(at + (on ? 1 : count - 1)) % count];
	x->page = (struct page){ 0 };
	x->made = false;
	return FOLLOW_REDRAW;
}

static enum follow figure_before(struct view *v)
{
	return turn(v, false);
}

static enum follow figure_after(struct view *v)
{
	return turn(v, true);
}

static enum follow explain_key(struct view *v, int key)
{
	struct explain_screen *x = v->state;

	return sb_page_key(&x->page, key) ? FOLLOW_REDRAW : FOLLOW_PASS;
}

static const struct action explain_actions[] = {
	{ .name = "figure-before",
		.keys = "Left",
		.label = "before",
		.help = "The figure before this one, at the same joint.",
		.act = figure_before },
	{ .name = "figure-after",
		.keys = "Right",
		.label = "next",
		.help = "The next figure, at the same joint.",
		.act = figure_after },
	{ .name = "back-from-figure",
		.keys = "Y Enter Q Esc Ctrl-C",
		.label = "back",
		.help = "Back to where you came from.",
		.act = sb_app_close },
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
	.widgets = { sb_page_keys },
};
