/* The scripted terminal, and the small language of tests/screens. */
#include "support/script.h"

#include "base/mem.h"
#include "base/str.h"
#include "support/near.h"
#include "ui/key.h"

#include <stdlib.h>
#include <string.h>

#define PRESSED_MOST 4096

static struct {
	const char *screen; /* borrowed from its table */
	int key;
} pressed[PRESSED_MOST];
static size_t pressed_count;

bool script_pressed(const char *screen, int key)
{
	for (size_t i = 0; i < pressed_count; i++)
		if (sb_same(pressed[i].screen, screen) && sb_key_same(pressed[i].key, key))
			return true;
	return false;
}

static void note_key(const struct script *s, const struct event *e)
{
	const char *screen = sb_app_top(s->app)->name;

	if (e->kind != EVENT_KEY || script_pressed(screen, e->key))
		return;
	assert_true(pressed_count < PRESSED_MOST);
	pressed[pressed_count].screen = screen;
	pressed[pressed_count++].key = e->key;
}

static void script_wait(void *self, int timeout_ms, struct event *out)
{
	struct script *s = self;

	if (s->next < s->count) {
		*out = s->events[s->next++];
		note_key(s, out);
		return;
	}
	if (timeout_ms > 0)
		s->idle = true;
	*out = (struct event){ .kind = EVENT_TIME };
}

static void script_facts(void *self, struct term_facts *out)
{
	*out = ((struct script *)self)->facts;
}

static bool script_show(void *self, const struct cells *cells, enum theme theme)
{
	struct script *s = self;

	if (s->stalled)
		return false;
	sb_cells_clear(&s->shown);
	sb_cells_init(&s->shown, cells->rows, cells->columns);
	for (int row = 0; row < cells->rows; row++)
		memcpy(s->shown.at + (ptrdiff_t)row * s->shown.stride,
			cells->at + (ptrdiff_t)row * cells->stride,
			(size_t)cells->columns * sizeof *cells->at);
	*s->shown.cursor = *cells->cursor;
	s->theme = theme;
	s->frames++;
	return true;
}

static void script_repaint(void *self)
{
	((struct script *)self)->repaints++;
}

static void script_suspend(void *self)
{
	((struct script *)self)->suspensions++;
}

static void script_close(void *self, bool gone)
{
	(void)self;
	(void)gone;
}

void script_init(struct script *s, int columns, int rows)
{
	memset(s, 0, sizeof *s);
	s->facts = (struct term_facts){ rows, columns, 256, GLYPHS_BRAILLE, GLYPHS_BRAILLE };
	s->term = (struct sb_term){ s, script_wait, script_facts, script_show, script_repaint, script_suspend,
		script_close };
	sb_cells_init(&s->shown, rows, columns);
}

static void settle(struct script *s)
{
	s->idle = false;
	while (!s->idle && !s->over)
		if (!sb_app_turn(s->app)) {
			s->over = true;
			s->status = sb_app_status(s->app);
		}
	s->next = s->count = 0;
}

void script_start(struct script *s, const struct app_options *o)
{
	struct sb_err err = { 0 };

	s->app = sb_app_new(&s->term, o, &err);
	if (s->app == NULL)
		fail_msg("the first screen does not open: %s", err.text);
	settle(s);
}

void script_end(struct script *s)
{
	if (s->app)
		sb_app_free(s->app);
	sb_cells_clear(&s->shown);
	memset(s, 0, sizeof *s);
}

static void add_event(struct script *s, struct event e)
{
	assert_true(s->count < SCRIPT_EVENTS);
	s->events[s->count++] = e;
}

void script_keys(struct script *s, const char *keys)
{
	while (*(keys += strspn(keys, " "))) {
		const char *word = keys;
		int key = sb_key_next(&keys);
		if (key == SB_KEY_NONE)
			fail_msg("'%.*s' is no key", (int)(keys - word), word);
		add_event(s, (struct event){ .kind = EVENT_KEY, .key = key });
	}
	settle(s);
}

void script_type(struct script *s, const char *text)
{
	for (unsigned character; *text;) {
		text += sb_utf8_next(text, &character);
		add_event(s, (struct event){ .kind = EVENT_KEY, .key = (int)character });
	}
	settle(s);
}

void script_event(struct script *s, enum event_kind kind)
{
	add_event(s, (struct event){ .kind = kind, .signal = 15 });
	settle(s);
}

void script_tick(struct script *s)
{
	settle(s);
}

void script_resize(struct script *s, int columns, int rows)
{
	s->facts.columns = columns;
	s->facts.rows = rows;
	script_event(s, EVENT_RESIZE);
}

const char *script_row(struct script *s, int row)
{
	return sb_cells_row(&s->shown, row, s->text, sizeof s->text);
}

bool script_find(struct script *s, const char *text, int *row, int *column)
{
	for (int at = 0; at < s->shown.rows; at++) {
		char *found = strstr(script_row(s, at), text);
		if (found == NULL)
			continue;
		*found = '\0';
		*row = at;
		*column = (int)sb_utf8_columns(s->text);
		return true;
	}
	return false;
}

bool script_sees(struct script *s, const char *text)
{
	int row, column;

	return script_find(s, text, &row, &column);
}

enum style script_style(struct script *s, const char *text)
{
	int row, column;

	if (!script_find(s, text, &row, &column))
		return STYLES;
	return (enum style)s->shown.at[row * s->shown.stride + column].style;
}

void script_print(struct script *s)
{
	for (int row = 0; row < s->shown.rows; row++)
		print_error("%3d |%s\n", row, script_row(s, row));
}

void script_assert(struct script *s, const char *text, bool there, const char *file, int line)
{
	if (script_sees(s, text) == there)
		return;
	print_error("\"%s\" is %son the screen:\n", text, there ? "not " : "");
	script_print(s);
	_fail(file, line);
}

/* Files */

struct play {
	struct script *s;
	const char *path;
	int line, columns, rows;
	bool started;
	void (*begin)(struct script *s, const char *words, void *context);
	void *context;
	char why[3000];
};

/* A number, a word or a string in quotes; moves past it. */
static int take_number(const char **rest)
{
	char *end;
	long number = strtol(*rest, &end, 10);

	*rest = end;
	return (int)number;
}

static bool take_string(const char **rest, char *text, size_t size)
{
	const char *from = *rest + strspn(*rest, " ");
	size_t length = 0;

	if (*from++ != '"')
		return false;
	for (; *from && *from != '"'; from++) {
		if (*from == '\\' && from[1])
			from++;
		if (length + 1 < size)
			text[length++] = *from;
	}
	text[length] = '\0';
	*rest = from + (*from == '"');
	return *from == '"';
}

static void take_word(const char **rest, char *text, size_t size)
{
	*rest += strspn(*rest, " ");
	size_t length = strcspn(*rest, " ");
	snprintf(text, size, "%.*s", (int)length, *rest);
	*rest += length;
}

static bool do_size(struct play *p, const char *rest)
{
	p->columns = take_number(&rest);
	p->rows = take_number(&rest);
	return true;
}

static bool do_start(struct play *p, const char *rest)
{
	script_init(p->s, p->columns, p->rows);
	p->begin(p->s, rest + strspn(rest, " "), p->context);
	p->started = true;
	return true;
}

static bool do_keys(struct play *p, const char *rest)
{
	script_keys(p->s, rest);
	return true;
}

static bool do_type(struct play *p, const char *rest)
{
	char text[512];

	if (!take_string(&rest, text, sizeof text))
		return false;
	script_type(p->s, text);
	return true;
}

static bool do_tick(struct play *p, const char *rest)
{
	(void)rest;
	script_tick(p->s);
	return true;
}

static bool do_resize(struct play *p, const char *rest)
{
	int columns = take_number(&rest), rows = take_number(&rest);

	script_resize(p->s, columns, rows);
	return true;
}

static bool do_act(struct play *p, const char *rest)
{
	snprintf(p->why, sizeof p->why, "this did not go as it should");
	return p->s->act && p->s->act(p->s, rest + strspn(rest, " "), p->context);
}

static bool do_show(struct play *p, const char *rest)
{
	(void)rest;
	print_error("%s:%d:\n", p->path, p->line);
	script_print(p->s);
	return true;
}

static bool do_theme(struct play *p, const char *rest)
{
	const char *theme = sb_theme_name(p->s->theme);

	snprintf(p->why, sizeof p->why, "the theme is %s", theme);
	return sb_same(rest + strspn(rest, " "), theme);
}

static bool do_row(struct play *p, const char *rest)
{
	char text[2048];
	int row = take_number(&rest);

	if (!take_string(&rest, text, sizeof text))
		return false;
	if (row >= 0 && row < p->s->shown.rows && sb_same(script_row(p->s, row), text))
		return true;
	snprintf(p->why, sizeof p->why, "row %d is not \"%.900s\"\n  but \"%.900s\"", row, text,
		row >= 0 && row < p->s->shown.rows ? script_row(p->s, row) : "");
	return false;
}

static bool look(struct play *p, const char *rest, bool there)
{
	char text[512];

	if (!take_string(&rest, text, sizeof text))
		return false;
	if (script_sees(p->s, text) == there)
		return true;
	snprintf(p->why, sizeof p->why, "\"%s\" is %son the screen", text, there ? "not " : "");
	return false;
}

static bool do_see(struct play *p, const char *rest)
{
	return look(p, rest, true);
}

static bool do_not(struct play *p, const char *rest)
{
	return look(p, rest, false);
}

static bool do_style(struct play *p, const char *rest)
{
	char text[512], word[32];

	if (!take_string(&rest, text, sizeof text))
		return false;
	take_word(&rest, word, sizeof word);
	enum style style = script_style(p->s, text);
	if (style < STYLES && sb_same(sb_style_name(style), word))
		return true;
	snprintf(p->why, sizeof p->why, "\"%s\" is %s", text,
		style < STYLES ? sb_style_name(style) : "not on the screen");
	return false;
}

static bool do_cursor(struct play *p, const char *rest)
{
	const struct cells_cursor *c = p->s->shown.cursor;

	rest += strspn(rest, " ");
	if (sb_same(rest, "none") && !c->shown)
		return true;
	int row = take_number(&rest), column = take_number(&rest);
	if (c->shown && c->row == row && c->column == column)
		return true;
	snprintf(p->why, sizeof p->why, "the cursor is %s at row %d, column %d",
		c->shown ? "shown" : "hidden", c->row, c->column);
	return false;
}

static bool do_over(struct play *p, const char *rest)
{
	int status = take_number(&rest);

	snprintf(p->why, sizeof p->why, p->s->over ? "it ended with status %d" : "it goes on", p->s->status);
	return p->s->over && p->s->status == status;
}

static const struct {
	const char *word;
	bool before; /* may come before start */
	bool (*act)(struct play *p, const char *rest);
} commands[] = {
	{ "size", true, do_size },
	{ "start", true, do_start },
	{ "keys", false, do_keys },
	{ "type", false, do_type },
	{ "tick", false, do_tick },
	{ "resize", false, do_resize },
	{ "do", false, do_act },
	{ "theme", false, do_theme },
	{ "show", false, do_show },
	{ "row", false, do_row },
	{ "see", false, do_see },
	{ "not", false, do_not },
	{ "style", false, do_style },
	{ "cursor", false, do_cursor },
	{ "over", false, do_over },
};

static bool play_line(struct play *p, const char *line)
{
	char word[16];

	take_word(&line, word, sizeof word);
	if (word[0] == '\0' || word[0] == '#')
		return true;
	snprintf(p->why, sizeof p->why, "'%s' is no command, or not complete", word);
	for (size_t i = 0; i < sizeof commands / sizeof *commands; i++) {
		if (!sb_same(commands[i].word, word))
			continue;
		if (commands[i].before == p->started) {
			snprintf(p->why, sizeof p->why, "'%s' stands on the wrong side of start", word);
			return false;
		}
		return commands[i].act(p, line);
	}
	return false;
}

static bool play_file(struct play *p, FILE *file)
{
	char line[2500];

	while (fgets(line, sizeof line, file)) {
		p->line++;
		line[strcspn(line, "\r\n")] = '\0';
		if (!play_line(p, line))
			return false;
	}
	snprintf(p->why, sizeof p->why, "nothing was started");
	return p->started;
}

int script_play(const char *path, void (*begin)(struct script *s, const char *words, void *context),
	void (*end)(struct script *s, void *context), void *context)
{
	struct script s = { 0 };
	struct play p = {
		.s = &s, .path = path, .columns = 80, .rows = 24, .begin = begin, .context = context
	};
	FILE *file = fopen(path, "r");

	if (file == NULL) {
		print_error("%s: cannot be read\n", path);
		return -1;
	}
	bool good = play_file(&p, file);
	fclose(file);
	if (!good) {
		print_error("%s:%d: %s\n", path, p.line, p.why);
		script_print(&s);
	}
	if (p.started) {
		script_end(&s);
		if (end)
			end(&s, context);
	}
	return good ? 0 : -1;
}
