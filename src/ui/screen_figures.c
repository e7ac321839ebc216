/* Which figure is asked how it came about: all that there are, for the joint that is looked at. */
#include "ui/app.h"
#include "ui/explain.h"
#include "ui/list.h"

#include <stdio.h>

#define NAME 18 /* columns of a figure's name */

struct figures {
	struct explain_ask ask; /* the joint */
	struct list list;
};

enum follow sb_explain_choose(struct view *v, const struct reading *r)
{
	struct explain_ask ask = { NULL, r ? r->joint : 0, r ? r->leg : 0, 0 };

	return sb_app_open(v, &sb_screen_figures, &ask);
}

static int figures_open(struct view *v, const void *argument, struct sb_err *err)
{
	(void)err;
	((struct figures *)v->state)->ask = *(const struct explain_ask *)argument;
	return 0;
}

static void draw_row(const void *context, size_t i, struct cells *out)
{
	(void)context;
	sb_cells_fit(out, 0, 2, NAME - 1, STYLE_PLAIN, sb_explain_figures[i].name);
	sb_cells_fit(out, 0, 2 + NAME, out->columns - NAME - 3, STYLE_DIM, sb_explain_figures[i].title);
}

static void figures_draw(const struct view *v, struct cells *out)
{
	struct figures *f = v->state;
	struct cells part = sb_cells_part(out, 1, 0, out->rows - 1, out->columns);
	char title[80];

	if (f->ask.joint > 0)
		snprintf(title, sizeof title, "how did it come about? at joint %d, leg %d", f->ask.joint,
			f->ask.leg);
	else
		snprintf(title, sizeof title, "how did it come about? at the entry");
	sb_cells_rule(out, 0, title);
	sb_list_draw(&f->list, sb_explain_figure_count, draw_row, NULL, &part);
}

static enum follow figures_key(struct view *v, int key)
{
	struct figures *f = v->state;

	return sb_list_key(&f->list, key, sb_explain_figure_count) ? FOLLOW_REDRAW : FOLLOW_PASS;
}

static enum follow show(struct view *v)
{
	const struct figures *f = v->state;
	struct explain_ask ask = f->ask;

	ask.figure = &sb_explain_figures[f->list.chosen];
	return sb_app_open(v, &sb_screen_explain, &ask);
}

static const struct action figures_actions[] = {
	{ .name = "show-figure",
		.keys = "Enter",
		.label = "show",
		.help = "How the chosen figure came about: formula, inputs, steps, source.",
		.act = show },
	{ .name = "back-from-figures",
		.keys = "Y Q Esc Ctrl-C",
		.label = "back",
		.help = "Back to where you came from.",
		.act = sb_app_close },
	{ 0 },
};

const struct screen sb_screen_figures = {
	.name = "figures",
	.title = "why",
	.about =
		"Every figure can be asked how it came about. This is the list of them, for the joint at the head of the screen.",
	.state_size = sizeof(struct figures),
	.open = figures_open,
	.draw = figures_draw,
	.key = figures_key,
	.actions = figures_actions,
	.widgets = { sb_list_keys },
};
