/* Help on the screen, and the same words for the man page.
 *
 * The page is made anew at each draw: a run of lines, of which those in sight are drawn. */
#include "ui/help.h"

#include "ui/key.h"

#include <string.h>

#define KEYS_COLUMNS 22

struct help {
	struct help_topic topic;
	int first, rows, lines; /* scrolled to; in sight; in all: as last drawn */
};

static int help_open(struct view *v, const void *argument, struct sb_err *err)
{
	struct help *h = v->state;

	(void)err;
	memcpy(&h->topic, argument, sizeof h->topic);
	return 0;
}

/* The keys of an action as people read them: "Q, Esc, Ctrl-C". */
static void key_list(const struct action *a, struct sb_str *out)
{
	const char *keys = a->keys;
	char name[SB_KEY_TEXT];

	for (int key; (key = sb_key_next(&keys)) != SB_KEY_NONE;)
		sb_str_add(out, "%s%s", out->length ? ", " : "", sb_key_name(key, name));
}

static int draw_action(const struct action *a, struct cells *out, int line)
{
	struct sb_str keys = { 0 };

	key_list(a, &keys);
	sb_cells_fit(out, line, 2, KEYS_COLUMNS, STYLE_KEY, sb_str_get(&keys));
	sb_str_clear(&keys);
	int column = 2 + KEYS_COLUMNS + 1;
	return line + sb_cells_wrap(out, line, column, out->columns - column - 1, STYLE_PLAIN, a->help);
}

static int draw_table(const struct action *table, struct cells *out, int line)
{
	for (; table && table->name; table++)
		line = draw_action(table, out, line);
	return line;
}

/* Draws all lines, those out of sight too (they are clipped away); returns the line after the last. */
static int draw_page(const struct help_topic *t, struct cells *out, int line)
{
	const struct screen *s = t->screen;

	if (s->about)
		line += sb_cells_wrap(out, line, 1, out->columns - 2, STYLE_PLAIN, s->about) + 1;
	sb_cells_rule(out, line++, s->title ? s->title : "keys here");
	line = draw_table(s->actions, out, line);
	for (size_t i = 0; i < SB_SCREEN_WIDGETS; i++)
		line = draw_table(s->widgets[i], out, line);
	sb_cells_rule(out, ++line, "on every screen");
	return draw_table(t->everywhere, out, line + 1);
}

static void help_draw(const struct view *v, struct cells *out)
{
	struct help *h = v->state;

	h->rows = out->rows;
	h->lines = draw_page(&h->topic, out, -h->first) + h->first;
}

static enum follow scroll(struct view *v, int by)
{
	struct help *h = v->state;
	int most = h->lines > h->rows ? h->lines - h->rows : 0;

	h->first += by;
	h->first = h->first > most ? most : h->first < 0 ? 0 : h->first;
	return FOLLOW_REDRAW;
}

static enum follow line_up(struct view *v)
{
	return scroll(v, -1);
}

static enum follow line_down(struct view *v)
{
	return scroll(v, 1);
}

static enum follow page_up(struct view *v)
{
	const struct help *h = v->state;

	return scroll(v, 1 - h->rows);
}

static enum follow page_down(struct view *v)
{
	const struct help *h = v->state;

	return scroll(v, h->rows - 1);
}

static const struct action help_actions[] = {
	{ .name = "line-up", .keys = "Up", .help = "One line up.", .act = line_up },
	{ .name = "line-down", .keys = "Down", .label = "more", .help = "One line down.", .act = line_down },
	{ .name = "page-up", .keys = "PgUp", .help = "A screenful up.", .act = page_up },
	{ .name = "page-down", .keys = "PgDn Space", .help = "A screenful down.", .act = page_down },
	{ 0 },
};

const struct screen sb_screen_help = {
	.name = "help",
	.title = "Help",
	.about = "What the keys do on the screen that help was asked for.",
	.state_size = sizeof(struct help),
	.open = help_open,
	.draw = help_draw,
	.actions = help_actions,
};

/* The man page */

/* One argument of an mdoc macro: quoted, and nothing in it is taken for a command. */
static void mdoc_word(struct sb_str *out, const char *text)
{
	sb_str_add(out, "\"\\&");
	for (; *text; text++)
		if (*text == '\\')
			sb_str_add(out, "\\e");
		else if (*text == '"')
			sb_str_add(out, "\\(dq");
		else
			sb_str_append(out, text, 1);
	sb_str_add(out, "\"");
}

/* Text as mdoc wants it: a sentence begins a line, lines are short, and none begins as a command does. */
static void mdoc_text(struct sb_str *out, const char *text)
{
	int column = 0;

	while (*text) {
		size_t length = strcspn(text, " ");
		if (column > 0 && column + (int)length > 76) {
			sb_str_add(out, "\n");
			column = 0;
		}
		sb_str_add(out, "%s", column ? " " : *text == '.' || *text == '\'' ? "\\&" : "");
		for (size_t i = 0; i < length; i++)
			if (text[i] == '\\')
				sb_str_add(out, "\\e");
			else
				sb_str_append(out, text + i, 1);
		column += (int)length + 1;
		bool ends = length > 0 && strchr(".?!", text[length - 1]) && text[length];
		if (ends) {
			sb_str_add(out, "\n");
			column = 0;
		}
		text += length;
		text += strspn(text, " ");
	}
	sb_str_add(out, "\n");
}

static void mdoc_table(struct sb_str *out, const struct action *table)
{
	char name[SB_KEY_TEXT];

	for (; table && table->name; table++) {
		const char *keys = table->keys;
		const char *macro = ".It";
		for (int key; (key = sb_key_next(&keys)) != SB_KEY_NONE; macro = " ,") {
			sb_str_add(out, "%s Ic ", macro);
			mdoc_word(out, sb_key_name(key, name));
		}
		sb_str_add(out, "\n");
		mdoc_text(out, table->help);
	}
}

static void mdoc_begin(struct sb_str *out, const char *heading, const char *about)
{
	sb_str_add(out, ".Ss ");
	mdoc_text(out, heading);
	if (about)
		mdoc_text(out, about);
	sb_str_add(out, ".Bl -tag -width Backspace\n");
}

void sb_help_mdoc(const struct screen *const *screens, const struct action *everywhere, struct sb_str *out)
{
	for (; *screens; screens++) {
		const struct screen *s = *screens;
		mdoc_begin(out, s->name, s->about);
		mdoc_table(out, s->actions);
		for (size_t i = 0; i < SB_SCREEN_WIDGETS; i++)
			mdoc_table(out, s->widgets[i]);
		sb_str_add(out, ".El\n");
	}
	mdoc_begin(out, "on every screen", NULL);
	mdoc_table(out, everywhere);
	sb_str_add(out, ".El\n");
}
