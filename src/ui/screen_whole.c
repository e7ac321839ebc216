/* A page of a command on the screen. */
#include "ui/whole.h"

#include "ui/app.h"
#include "ui/page.h"

struct whole_state {
	const struct whole *whole;
	struct page page;
	struct sb_str text;
};

static void write_anew(struct view *v)
{
	struct whole_state *w = v->state;

	sb_str_clear(&w->text);
	w->whole->write(v->job, v->solution, &w->text);
}

static int whole_open(struct view *v, const void *argument, struct sb_err *err)
{
	(void)err;
	((struct whole_state *)v->state)->whole = argument;
	write_anew(v);
	return 0;
}

static void whole_close(struct view *v)
{
	sb_str_clear(&((struct whole_state *)v->state)->text);
}

static void whole_draw(const struct view *v, struct cells *out)
{
	struct whole_state *w = v->state;

	sb_page_draw(&w->page, sb_page_text, sb_str_get(&w->text), out);
}

static enum follow whole_key(struct view *v, int key)
{
	return sb_page_key(&((struct whole_state *)v->state)->page, key) ? FOLLOW_REDRAW : FOLLOW_PASS;
}

static const struct action whole_actions[] = {
	{ .name = "back-from-page",
		.keys = "Enter Q Esc Ctrl-C",
		.label = "back",
		.help = "Back to where the page was opened from.",
		.act = sb_app_close },
	{ 0 },
};

const struct screen sb_screen_whole = {
	.name = "page",
	.title = "in full",
	.about =
		"A page in full, as its command prints it: every station or joint, and what the estimate rests on.",
	.state_size = sizeof(struct whole_state),
	.open = whole_open,
	.draw = whole_draw,
	.key = whole_key,
	.changed = write_anew,
	.close = whole_close,
	.actions = whole_actions,
	.widgets = { sb_page_keys },
};
