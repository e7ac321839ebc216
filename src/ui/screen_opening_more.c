/* What else a joint of a pass can carry, typed for the joint that is on the entry line of the opening: it is
 * kept with that line's draft, and entered with its Enter. */
#include "ui/app.h"
#include "ui/opening.h"

/* Its whole state: where the fields are. The line lies below and outlives it. */
struct more {
	struct opening_state *line;
};

static int more_open(struct view *v, const void *argument, struct sb_err *err)
{
	(void)argument;
	(void)err;
	((struct more *)v->state)->line = sb_app_below(v)->state;
	return 0;
}

static struct opening_state *line_of(const struct view *v)
{
	return ((const struct more *)v->state)->line;
}

static int more_rows(const struct view *v, int columns)
{
	(void)columns;
	return 1 + (int)line_of(v)->more.count;
}

static void more_draw(const struct view *v, struct cells *out)
{
	struct cells part = sb_cells_part(out, 1, 0, out->rows - 1, out->columns);

	sb_cells_rule(out, 0, "what else was seen");
	sb_form_draw(&line_of(v)->more, &part);
}

static enum follow more_key(struct view *v, int key)
{
	switch (sb_form_key(&line_of(v)->more, key, sb_opening_entry_check, NULL)) {
	case FORM_DONE:
		return FOLLOW_CLOSE;
	case FORM_CHANGED:
		sb_opening_entry_keep(sb_app_below(v), false);
		return FOLLOW_REDRAW;
	case FORM_MOVED:
		return FOLLOW_REDRAW;
	case FORM_PASS:
		break;
	}
	return FOLLOW_PASS;
}

static const struct action more_actions[] = {
	{ .name = "next",
		.keys = "Enter",
		.label = "next",
		.help = "Go to the next field; from the last one, back to the entry line." },
	{ .name = "done",
		.keys = "Esc Ctrl-C F3",
		.label = "back to the numbers",
		.help = "Back to the entry line; what was typed here stays, and is entered with the joint.",
		.act = sb_app_close },
	{ 0 },
};

const struct screen sb_screen_opening_more = {
	.name = "opening-more",
	.about = "What else a joint of a pass can carry. It is kept with the entry line and entered with it.",
	.state_size = sizeof(struct more),
	.open = more_open,
	.draw = more_draw,
	.key = more_key,
	.rows = more_rows,
	.letters = true,
	.actions = more_actions,
	.widgets = { sb_form_keys },
};
