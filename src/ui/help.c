/* Help on the screen, and the same words for the man page.
 *
 * The page says what holds on its screen: a key that is typed into a field there is not listed as an act. */
#include "ui/help.h"

#include "ui/app.h"
#include "ui/key.h"
#include "ui/page.h"

#include <string.h>

#define KEYS_COLUMNS 22

struct help {
	struct help_topic topic;
	struct page page;
};

static int help_open(struct view *v, const void *argument, struct sb_err *err)
{
	struct help *h = v->state;

	(void)err;
	memcpy(&h->topic, argument, sizeof h->topic);
	return 0;
}

static struct action_tables tables_of(const struct help_topic *t)
{
	return (struct action_tables){ t->screen->actions, t->everywhere, t->screen->letters, true };
}

/* The keys of a row as people read them: "Q, Esc, Ctrl-C"; those that reach it on this screen. */
static void key_list(const struct help_topic *t, const struct action *a, bool everywhere, struct sb_str *out)
{
	struct action_tables tables = tables_of(t);
	const char *keys = a->keys;
	char name[SB_KEY_TEXT];

	for (int key; (key = sb_action_next_key(&tables, everywhere, &keys)) != SB_KEY_NONE;)
		sb_str_add(out, "%s%s", out->length ? ", " : "", sb_key_name(key, name));
}

static int draw_action(
	const struct help_topic *t, const struct action *a, bool everywhere, struct cells *out, int line)
{
	const int column = 2 + KEYS_COLUMNS + 1;
	struct sb_str keys = { 0 };

	key_list(t, a, everywhere, &keys);
	if (keys.length > 0) {
		sb_cells_fit(out, line, 2, KEYS_COLUMNS, STYLE_KEY, sb_str_get(&keys));
		line += sb_cells_wrap(out, line, column, out->columns - column - 1, STYLE_PLAIN, a->help);
	}
	sb_str_clear(&keys);
	return line;
}

static int draw_table(const struct help_topic *t, const struct action *table, struct cells *out, int line)
{
	for (const struct action *a = table; a && a->name; a++)
		line = draw_action(t, a, table == t->everywhere, out, line);
	return line;
}

static int draw_lines(const void *context, struct cells *out, int line)
{
	const struct help_topic *t = context;
	const struct screen *s = t->screen;

	if (s->about)
		line += sb_cells_wrap(out, line, 1, out->columns - 2, STYLE_PLAIN, s->about) + 1;
	sb_cells_rule(out, line++, s->title ? s->title : "keys here");
	line = draw_table(t, s->actions, out, line);
	for (size_t i = 0; i < SB_SCREEN_WIDGETS; i++)
		line = draw_table(t, s->widgets[i], out, line);
	sb_cells_rule(out, ++line, "on every screen");
	return draw_table(t, t->everywhere, out, line + 1);
}

static void help_draw(const struct view *v, struct cells *out)
{
	struct help *h = v->state;

	sb_page_draw(&h->page, draw_lines, &h->topic, out);
}

static enum follow help_key(struct view *v, int key)
{
	struct help *h = v->state;

	return sb_page_key(&h->page, key) ? FOLLOW_REDRAW : FOLLOW_PASS;
}

static const struct action help_actions[] = {
	{ .name = "back",
		.keys = "Enter ? F1 Q Esc Ctrl-C",
		.label = "back",
		.help = "Back to where help was asked for.",
		.act = sb_app_close },
	{ 0 },
};

const struct screen sb_screen_help = {
	.name = "help",
	.title = "help",
	.about = "What the keys do on the screen that help was asked for.",
	.state_size = sizeof(struct help),
	.open = help_open,
	.draw = help_draw,
	.key = help_key,
	.actions = help_actions,
	.widgets = { sb_page_keys },
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
	mdoc_begin(out, "on every screen",
		"Where letters are typed into fields, the function keys, Esc and Ctrl-C are left.");
	mdoc_table(out, everywhere);
	sb_str_add(out, ".El\n");
}
