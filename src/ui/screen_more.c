/* What else a row can carry, typed for the joint that is on the entry line. It belongs to that line: it is
 * kept with its draft and logged with its Enter.
 */
#include "base/str.h"
#include "ui/app.h"
#include "ui/log.h"

#include <stdio.h>

#include "more.h"

struct log_more {
	struct more more; /* first: the shared functions find it there */
	const struct log_state *line;
};

static int log_more_open(struct view *v, const void *argument, struct sb_err *err)
{
	struct log_state *line = sb_app_below(v)->state;

	(void)argument;
	(void)err;
	*(struct log_more *)v->state = (struct log_more){ { &line->more }, line };
	return 0;
}

static void log_more_draw(const struct view *v, struct cells *out)
{
	const struct log_state *line = ((const struct log_more *)v->state)->line;
	char title[64];

	snprintf(title, sizeof title, "joint %d: what else was seen", line->joint);
	more_draw(v, title, out);
}

static void changed(struct view *v)
{
	sb_log_changed(sb_app_below(v));
}

static enum follow log_more_key(struct view *v, int key)
{
	return more_key(v, key, sb_log_check, v->job, changed);
}

static const struct action more_actions[] = {
	{ .name = "next",
		.keys = "Enter",
		.label = "next",
		.help = "Go to the next field; from the last one, back to the entry line." },
	{ .name = "done",
		.keys = "Esc Ctrl-C F3",
		.label = "back to the angles",
		.help = "Back to the entry line; what was typed here stays, and is logged with the joint.",
		.act = sb_app_close },
	{ 0 },
};

const struct screen sb_screen_more = {
	.name = "more",
	.about =
		"What else the row of this joint can carry. It is kept with the entry line and logged with it.",
	.state_size = sizeof(struct log_more),
	.open = log_more_open,
	.draw = log_more_draw,
	.key = log_more_key,
	.rows = more_rows,
	.letters = true,
	.actions = more_actions,
	.widgets = { sb_form_keys },
};
