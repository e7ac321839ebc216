/* What else a joint of a pass can carry, typed for the joint that is on the entry line of the opening: it is
 * kept with that line's draft, and entered with its Enter. */
#include "ui/app.h"
#include "ui/opening.h"

#include "more.h"

static int opening_more_open(struct view *v, const void *argument, struct sb_err *err)
{
	struct opening_state *line = sb_app_below(v)->state;

	(void)argument;
	(void)err;
	((struct more *)v->state)->form = &line->more;
	return 0;
}

static void opening_more_draw(const struct view *v, struct cells *out)
{
	more_draw(v, "what else was seen", out);
}

static void changed(struct view *v)
{
	sb_opening_entry_keep(sb_app_below(v), false);
}

static enum follow opening_more_key(struct view *v, int key)
{
	return more_key(v, key, sb_opening_entry_check, NULL, changed);
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
	.open = opening_more_open,
	.draw = opening_more_draw,
	.key = opening_more_key,
	.rows = more_rows,
	.letters = true,
	.actions = more_actions,
	.widgets = { sb_form_keys },
};
