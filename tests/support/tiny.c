/* The tiny screen. */
#include "support/tiny.h"

#include "base/str.h"
#include "ui/app.h"
#include "ui/form.h"
#include "ui/key.h"
#include "ui/list.h"
#include "ui/prompt.h"

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define ROWS 12

struct tiny_counts tiny_counts;

struct tiny {
	const char *path;
	struct list list;
	struct form form;
	int fill; /* 0: as usual, else all cells show this many-th letter */
	int keys;
	char last[64];
};

static int tiny_open(struct view *v, const void *argument, struct sb_err *err)
{
	const struct tiny_argument *a = argument;
	struct tiny *t = v->state;

	if (a && a->refuse)
		return sb_fail(err, SB_STATE, "The tiny screen does not open today.");
	t->path = a ? a->path : NULL;
	sb_form_add(&t->form,
		(struct form_field){ .name = "inclination",
			.label = "inclination",
			.unit = "deg",
			.kind = ENTRY_NUMBER,
			.width = 8,
			.required = true },
		"");
	sb_form_add(&t->form,
		(struct form_field){ .name = "azimuth",
			.label = "azimuth",
			.kind = ENTRY_NUMBER,
			.width = 8,
			.required = true },
		"45.0");
	sb_form_add(&t->form,
		(struct form_field){ .name = "remarks", .label = "remarks", .kind = ENTRY_TEXT, .width = 12 },
		"");
	sb_form_add(&t->form,
		(struct form_field){ .name = "returns",
			.label = "returns",
			.kind = ENTRY_CHOICE,
			.choices = "full|partial|none",
			.width = 8 },
		"");
	tiny_counts.opened++;
	return 0;
}

static void draw_list_row(const void *context, size_t i, struct cells *out)
{
	(void)context;
	sb_cells_print(out, 0, 0, STYLE_PLAIN, "joint %zu", i + 1);
	sb_cells_text(out, 0, 12, i == 3 ? STYLE_BREACH : STYLE_OK, i == 3 ? "!! breach" : "ok");
}

static void tiny_draw(const struct view *v, struct cells *out)
{
	struct tiny *t = v->state;

	for (int row = 0; t->fill && row < out->rows; row++)
		for (int column = 0; column < out->columns; column++)
			sb_cells_put(out, row, column, STYLE_PLAIN,
				(unsigned)('a' + (t->fill + row * 7 + column * (3 + t->fill % 5)) % 26));
	if (t->fill)
		return;
	sb_cells_print(
		out, 0, 0, STYLE_STRONG, "café at 88.1° · %d rows, %d columns", out->rows, out->columns);
	sb_cells_rule(out, 1, "form");
	struct cells form = sb_cells_part(out, 2, 0, 5, out->columns);
	sb_form_draw(&t->form, &form);
	sb_cells_rule(out, 7, "list");
	struct cells list = sb_cells_part(out, 8, 0, 5, out->columns);
	sb_list_draw(&t->list, ROWS, draw_list_row, NULL, &list);
	sb_cells_print(out, 14, 0, STYLE_WATCH, "last: %s", t->last);
}

static void write_draft(const struct tiny *t, const char *after)
{
	char text[600];

	if (t->path == NULL)
		return;
	snprintf(text, sizeof text, "%d keys, inclination=%s%s\n", t->keys,
		sb_form_text(&t->form, "inclination"), after);
	int fd = open(t->path, O_WRONLY | O_CREAT | O_TRUNC, 0600);
	if (fd < 0 || write(fd, text, strlen(text)) < 0 || close(fd) < 0)
		exit(99);
}

static int check_inclination(const struct form *f, size_t field, const void *context, struct sb_err *err)
{
	(void)context;
	if (strcmp(f->fields[field].name, "inclination") == 0 && strtod(f->fields[field].text, NULL) > 180)
		return sb_fail(err, SB_RANGE, "The inclination is from 0 to 180.");
	return 0;
}

static enum follow tiny_key(struct view *v, int key)
{
	struct tiny *t = v->state;

	t->keys++;
	enum follow follow = FOLLOW_PASS;
	if (key == SB_KEY_PAGE_DOWN || key == SB_KEY_PAGE_UP)
		follow = sb_list_key(&t->list, key, ROWS) ? FOLLOW_REDRAW : FOLLOW_PASS;
	else {
		enum form_step step = sb_form_key(&t->form, key, check_inclination, v);
		if (step == FORM_DONE)
			follow = sb_app_say(v, LEVEL_OK, "Took %s and %s.",
				sb_form_text(&t->form, "inclination"), sb_form_text(&t->form, "azimuth"));
		else if (step != FORM_PASS)
			follow = FOLLOW_REDRAW;
	}
	write_draft(t, "");
	return follow;
}

static void tiny_changed(struct view *v)
{
	(void)v;
	tiny_counts.changed++;
}

static void tiny_keep(struct view *v)
{
	tiny_counts.kept++;
	write_draft(v->state, " kept");
}

static void tiny_close(struct view *v)
{
	(void)v;
	tiny_counts.closed++;
}

static enum follow fill(struct view *v)
{
	((struct tiny *)v->state)->fill++;
	return FOLLOW_REDRAW;
}

static enum follow take_reason(struct view *asker, const struct form *given, int64_t subject)
{
	struct tiny *t = asker->state;

	if (sb_same(sb_form_text(given, "reason"), "bad")) {
		sb_app_say(asker, LEVEL_WATCH, "That is no reason.");
		return FOLLOW_PASS;
	}
	snprintf(t->last, sizeof t->last, "%s for %d", sb_form_text(given, "reason"), (int)subject);
	return FOLLOW_REDRAW;
}

static enum follow ask(struct view *v)
{
	struct prompt p = { .question = "Why is the reading of joint 7 logged as it is?",
		.subject = 7,
		.answer = take_reason };

	sb_form_add(&p.form,
		(struct form_field){ .name = "reason",
			.label = "reason",
			.kind = ENTRY_TEXT,
			.width = 30,
			.required = true },
		"");
	return sb_prompt_ask(v, &p);
}

static enum follow write_something(struct view *v)
{
	(void)v;
	tiny_counts.written++;
	return FOLLOW_JOB_CHANGED;
}

static enum follow again(struct view *v)
{
	return sb_app_open(v, &tiny_screen, NULL);
}

static enum follow refused(struct view *v)
{
	return sb_app_open(v, &tiny_screen, &(struct tiny_argument){ .refuse = 1 });
}

static enum follow breach(struct view *v)
{
	return sb_app_say(v, LEVEL_BREACH,
		"The corridor is broken at joint 4: 5.2 ft low where 5.0 ft is allowed. Note why, or pull back to "
		"joint 3 and drill it again; then tell the engineer.");
}

static enum follow crash(struct view *v)
{
	(void)v;
	abort();
}

static const struct action tiny_actions[] = {
	{ .name = "ask", .keys = "A F2", .label = "ask", .help = "Ask something.", .act = ask },
	{ .name = "write",
		.keys = "X",
		.label = "write",
		.help = "Write something.",
		.act = write_something,
		.writes = true },
	{ .name = "fill", .keys = "F F3", .label = "fill", .help = "Change every cell.", .act = fill },
	{ .name = "again", .keys = "B", .label = "again", .help = "Open one more.", .act = again },
	{ .name = "refused",
		.keys = "R",
		.label = "refused",
		.help = "Open one that refuses.",
		.act = refused },
	{ .name = "breach", .keys = "W", .label = "breach", .help = "Say something long.", .act = breach },
	{ .name = "crash", .keys = "Ctrl-K", .help = "Crash.", .act = crash },
	{ 0 },
};

const struct screen tiny_screen = {
	.name = "tiny",
	.title = "Tiny",
	.about = "A screen for tests.",
	.state_size = sizeof(struct tiny),
	.open = tiny_open,
	.draw = tiny_draw,
	.key = tiny_key,
	.changed = tiny_changed,
	.keep = tiny_keep,
	.close = tiny_close,
	.actions = tiny_actions,
	.widgets = { sb_form_keys, sb_list_keys },
};
