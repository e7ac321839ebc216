/* What else a row can carry, typed for the joint that is on the entry line. It belongs to that line: it is
 * kept with its draft and logged with its Enter.
 */
#include "base/str.h"
#include "ui/app.h"
#include "ui/log.h"

#include <stdio.h>

/* Its whole state: where the other fields of the entry line are. The line lies below and outlives it. */
struct more {
	struct log_state *line;
};

static int more_open(struct view *v, const void *argument, struct sb_err *err)
{
	struct more *m = v->state;

	(void)argument;
	(void)err;
	m->line = sb_app_below(v)->state;
	return 0;
}

static struct log_state *entry_of(const struct view *v)
{
	return ((const struct more *)v->state)->line;
}

static int more_rows(const struct view *v, int columns)
{
	(void)columns;
	return 1 + (int)entry_of(v)->more.count;
}

static void more_draw(const struct view *v, struct cells *out)
{
	const struct log_state *s = entry_of(v);
	char title[64];

	snprintf(title, sizeof title, "joint %d: what else was seen", s->joint);
	sb_cells_rule(out, 0, title);
	struct cells part = sb_cells_part(out, 1, 0, out->rows - 1, out->columns);
	sb_form_draw(&s->more, &part);
}

static enum follow more_key(struct view *v, int key)
{
	struct view *log = sb_app_below(v);

	switch (sb_form_key(&entry_of(v)->more, key, sb_log_check, v->job)) {
	case FORM_DONE:
		return FOLLOW_CLOSE;
	case FORM_CHANGED:
		sb_log_changed(log);
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
		.label = "back to the angles",
		.help = "Back to the entry line; what was typed here stays, and is logged with the joint.",
		.act = sb_app_close },
	{ 0 },
};

const struct screen sb_screen_more = {
	.name = "more",
	.about =
		"What else the row of this joint can carry. It is kept with the entry line and logged with it.",
	.state_size = sizeof(struct more),
	.open = more_open,
	.draw = more_draw,
	.key = more_key,
	.rows = more_rows,
	.letters = true,
	.actions = more_actions,
	.widgets = { sb_form_keys },
};
