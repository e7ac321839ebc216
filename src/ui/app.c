/* The loop.
 *
 * A turn waits for one event and takes it. The wait is short (REST_MS) after a key, so that the pause in
 * the typing is noticed and what is half typed goes to disk for good; else one second, the clock's tick, at
 * which another's commits are looked for too. While something is to be painted the wait is none: keys that
 * are there already are read first, and the frame is painted once.
 *
 * When the link takes nothing (`stalled`), frames are left out until it does; keys are still read.
 */
#include "ui/app.h"

#include "base/mem.h"
#include "base/str.h"
#include "ui/banner.h"
#include "ui/key.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#define DEPTH 8
#define REST_MS 250
#define TICK_MS 1000
#define MESSAGE_ROWS 11 /* the longest message at 80 columns */
#define CTRL_C 3

struct sb_app {
	struct sb_term term;
	struct app_options o;
	struct term_facts facts;
	enum glyphs glyphs;
	char who[SB_WHO_TEXT];
	struct view views[DEPTH];
	int depth;
	struct cells cells;
	char message[800];
	enum level message_level;
	char refresh_said[800]; /* a failure that goes on is said once */
	bool dirty, stalled, rested, done, gone;
	int status;
};

/* Every view looks at what the store holds now. */
static void renew(struct sb_app *a)
{
	for (int i = 0; i < a->depth; i++) {
		struct view *v = &a->views[i];
		v->store = a->o.store;
		v->job = a->o.store ? sb_store_job(a->o.store) : NULL;
		v->solution = a->o.store ? sb_store_solution(a->o.store) : NULL;
		v->who = a->who;
		v->glyphs = a->glyphs;
	}
}

static struct view *top(struct sb_app *a)
{
	return &a->views[a->depth - 1];
}

static int push(struct sb_app *a, const struct screen *screen, const void *argument, struct sb_err *err)
{
	if (a->depth == DEPTH)
		return sb_fail(err, SB_STATE, "Too many screens are open. Close one first.");
	struct view *v = &a->views[a->depth++];
	*v = (struct view){ .app = a, .screen = screen, .state = sb_alloc(screen->state_size) };
	renew(a);
	if (screen->open && screen->open(v, argument, err)) {
		sb_free(v->state);
		a->depth--;
		return -1;
	}
	return 0;
}

void sb_app_close_top(struct sb_app *a)
{
	struct view *v = top(a);

	if (v->screen->close)
		v->screen->close(v);
	sb_free(v->state);
	a->depth--;
	a->dirty = true;
}

static void measure(struct sb_app *a)
{
	a->term.facts(a->term.self, &a->facts);
	if (a->facts.rows != a->cells.rows || a->facts.columns != a->cells.columns) {
		sb_cells_clear(&a->cells);
		sb_cells_init(&a->cells, a->facts.rows, a->facts.columns);
	}
	a->dirty = true;
}

struct sb_app *sb_app_new(const struct sb_term *term, const struct app_options *o, struct sb_err *err)
{
	struct sb_app *a = sb_alloc(sizeof *a);

	a->term = *term;
	a->o = *o;
	sb_copy(a->who, sizeof a->who, o->who);
	sb_cells_init(&a->cells, 0, 0);
	measure(a);
	a->glyphs = a->facts.glyphs;
	if (o->glyphs_known)
		a->glyphs = o->glyphs < a->facts.best ? o->glyphs : a->facts.best;
	a->rested = true;
	if (push(a, o->first, o->argument, err)) {
		sb_app_free(a);
		return NULL;
	}
	return a;
}

void sb_app_free(struct sb_app *a)
{
	while (a->depth > 0)
		sb_app_close_top(a);
	sb_cells_clear(&a->cells);
	sb_free(a);
}

/* Painting */

static bool small(const struct sb_app *a)
{
	return a->facts.rows < SB_APP_ROWS || a->facts.columns < SB_APP_COLUMNS;
}

static void draw_small(struct sb_app *a)
{
	char text[160];

	snprintf(text, sizeof text, "Needs %d x %d, has %d x %d. What you typed is kept.", SB_APP_COLUMNS,
		SB_APP_ROWS, a->facts.columns, a->facts.rows);
	sb_cells_wrap(&a->cells, 0, 0, a->facts.columns, STYLE_STRONG, text);
}

static bool writes(const struct sb_app *a)
{
	return a->o.store == NULL || sb_store_writes(a->o.store);
}

/* The message or the footer, at the foot; returns the rows it took. */
static int draw_foot(struct sb_app *a)
{
	struct cells *c = &a->cells;
	char text[sizeof a->message + 8];

	if (a->message[0] == '\0') {
		struct cells row = sb_cells_part(c, c->rows - 1, 0, 1, c->columns);
		sb_action_footer(&row,
			&(struct action_tables){ top(a)->screen->actions, a->o.everywhere,
				top(a)->screen->letters, writes(a) });
		return 1;
	}
	const char *mark = sb_theme_mark(a->message_level);
	snprintf(text, sizeof text, "%s%s%s", mark, *mark ? " " : "", a->message);
	int rows = sb_cells_wrapped(text, c->columns - 1);
	if (rows > MESSAGE_ROWS)
		rows = MESSAGE_ROWS;
	struct cells part = sb_cells_part(c, c->rows - rows, 0, rows, c->columns);
	enum style style = a->message_level == LEVEL_OK ? STYLE_STRONG : sb_theme_level(a->message_level);
	sb_cells_fill(&part, STYLE_PLAIN);
	sb_cells_wrap(&part, 0, 0, c->columns - 1, style, text);
	return rows;
}

/* The screens from the topmost whole one up; each that needs a few rows takes them from the foot. */
static void draw_screens(struct sb_app *a, int rows)
{
	int from = a->depth - 1;

	while (from > 0 && a->views[from].screen->rows)
		from--;
	int left = rows, taken[DEPTH] = { 0 };
	for (int i = a->depth - 1; i > from; i--) {
		taken[i] = a->views[i].screen->rows(&a->views[i], a->cells.columns);
		taken[i] = taken[i] > left ? left : taken[i];
		left -= taken[i];
	}
	struct cells banner = sb_cells_part(&a->cells, 0, 0, 1, a->cells.columns);
	sb_banner_draw(&a->views[from], a->views[from].screen->title, &banner);
	taken[from] = left;
	for (int i = from, row = 1; i < a->depth; row += taken[i++]) {
		struct cells part = sb_cells_part(&a->cells, row, 0, taken[i], a->cells.columns);
		a->cells.cursor->shown = false; /* the topmost screen's cursor is the one that counts */
		a->views[i].screen->draw(&a->views[i], &part);
	}
}

static void paint(struct sb_app *a)
{
	renew(a);
	sb_cells_fill(&a->cells, STYLE_PLAIN);
	a->cells.cursor->shown = false;
	if (small(a))
		draw_small(a);
	else
		draw_screens(a, a->cells.rows - 1 - draw_foot(a));
	if (a->glyphs == GLYPHS_ASCII)
		sb_cells_flatten(&a->cells);
	a->stalled = !a->term.show(a->term.self, &a->cells, a->o.theme);
	a->dirty = a->stalled;
}

/* Taking events */

static void keep_all(struct sb_app *a)
{
	renew(a);
	for (int i = 0; i < a->depth; i++)
		if (a->views[i].screen->keep)
			a->views[i].screen->keep(&a->views[i]);
	a->rested = true;
}

static void finish(struct sb_app *a, int status)
{
	keep_all(a);
	a->status = status;
	a->done = true;
}

static void tell_changed(struct sb_app *a)
{
	renew(a);
	for (int i = 0; i < a->depth; i++)
		if (a->views[i].screen->changed)
			a->views[i].screen->changed(&a->views[i]);
	a->dirty = true;
}

static void do_follow(struct sb_app *a, enum follow follow)
{
	switch (follow) {
	case FOLLOW_NOTHING:
	case FOLLOW_PASS:
		return;
	case FOLLOW_REDRAW:
		a->dirty = true;
		return;
	case FOLLOW_JOB_CHANGED:
		tell_changed(a);
		return;
	case FOLLOW_CLOSE:
		if (a->depth == 1)
			finish(a, 0);
		else
			sb_app_close_top(a);
		return;
	case FOLLOW_QUIT:
		finish(a, 0);
		return;
	}
}

static enum follow act(struct sb_app *a, const struct action *action)
{
	if (action->writes && !writes(a))
		return sb_app_say(top(a), LEVEL_WATCH,
			"You are looking on: this job was opened to read only. Nothing was changed.");
	return action->act(top(a));
}

static enum follow dispatch(struct sb_app *a, int key)
{
	const struct screen *screen = top(a)->screen;
	enum follow follow = screen->key ? screen->key(top(a), key) : FOLLOW_PASS;

	if (follow != FOLLOW_PASS)
		return follow;
	/* A letter that this field does not take must not close the page with all that was typed. */
	if (screen->letters && sb_key_types(key))
		return FOLLOW_NOTHING;
	const struct action *action = sb_action_find(screen->actions, key);
	if (action == NULL)
		action = sb_action_find(a->o.everywhere, key);
	return action ? act(a, action) : FOLLOW_NOTHING;
}

static void take_key(struct sb_app *a, int key)
{
	a->rested = false;
	if (small(a)) { /* nobody sees what a key would do: only the way out is open */
		if (key == CTRL_C)
			finish(a, 0);
		return;
	}
	if (a->message[0]) {
		a->message[0] = '\0';
		a->dirty = true;
	}
	renew(a);
	do_follow(a, dispatch(a, key));
}

/* What others wrote. */
static void refresh(struct sb_app *a)
{
	struct sb_err err;
	bool changed = false;

	if (a->o.store == NULL)
		return;
	if (sb_store_refresh(a->o.store, &changed, &err)) {
		renew(a);
		if (!sb_same(a->refresh_said, err.text))
			sb_app_fail(top(a), &err);
		sb_copy(a->refresh_said, sizeof a->refresh_said, err.text);
		return;
	}
	a->refresh_said[0] = '\0';
	if (changed)
		tell_changed(a);
}

static void take_time(struct sb_app *a)
{
	if (a->dirty && !a->stalled) {
		paint(a);
		return;
	}
	if (!a->rested)
		keep_all(a);
	refresh(a);
	paint(a);
}

static void suspend(struct sb_app *a)
{
	keep_all(a);
	a->term.suspend(a->term.self);
	measure(a);
}

static void take(struct sb_app *a, const struct event *e)
{
	switch (e->kind) {
	case EVENT_TIME:
		take_time(a);
		return;
	case EVENT_KEY:
		take_key(a, e->key);
		return;
	case EVENT_RESIZE:
		measure(a);
		return;
	case EVENT_SUSPEND:
		suspend(a);
		return;
	case EVENT_STOP:
		finish(a, 128 + e->signal);
		return;
	case EVENT_GONE:
		a->gone = true;
		finish(a, 129);
		return;
	}
}

bool sb_app_turn(struct sb_app *a)
{
	struct event e = { .kind = EVENT_TIME };
	int patience = a->dirty && !a->stalled ? 0 : a->rested ? TICK_MS : REST_MS;

	a->term.wait(a->term.self, patience, &e);
	take(a, &e);
	return !a->done;
}

int sb_app_run(struct sb_app *a)
{
	bool goes_on;

	do
		goes_on = sb_app_turn(a);
	while (goes_on);
	return a->status;
}

int sb_app_status(const struct sb_app *a)
{
	return a->status;
}

bool sb_app_gone(const struct sb_app *a)
{
	return a->gone;
}

/* For handlers */

enum follow sb_app_open(struct view *v, const struct screen *screen, const void *argument)
{
	struct sb_err err;

	if (push(v->app, screen, argument, &err))
		return sb_app_fail(v, &err);
	return FOLLOW_REDRAW;
}

enum follow sb_app_close(struct view *v)
{
	(void)v;
	return FOLLOW_CLOSE;
}

enum follow sb_app_say(struct view *v, enum level level, const char *format, ...)
{
	struct sb_app *a = v->app;
	va_list args;

	va_start(args, format);
	vsnprintf(a->message, sizeof a->message, format, args);
	va_end(args);
	a->message_level = level;
	a->dirty = true;
	return FOLLOW_REDRAW;
}

enum follow sb_app_fail(struct view *v, const struct sb_err *err)
{
	return sb_app_say(v, LEVEL_WATCH, "%s", err->text);
}

enum follow sb_app_next_theme(struct view *v)
{
	struct sb_app *a = v->app;

	if (a->facts.colours < 8)
		return sb_app_say(v, LEVEL_OK, "No colours here: the terminal has none, or NO_COLOR is set.");
	a->o.theme = (enum theme)((a->o.theme + 1) % SB_THEMES);
	if (a->o.theme_chosen)
		a->o.theme_chosen(a->o.theme);
	return sb_app_say(v, LEVEL_OK, "Colours: %s.", sb_theme_name(a->o.theme));
}

enum follow sb_app_next_glyphs(struct view *v)
{
	struct sb_app *a = v->app;

	a->glyphs = a->glyphs >= a->facts.best ? GLYPHS_ASCII : (enum glyphs)(a->glyphs + 1);
	if (a->o.glyphs_chosen)
		a->o.glyphs_chosen(a->glyphs);
	return sb_app_say(v, LEVEL_OK, "Pictures in %s%s", sb_glyph_word(a->glyphs),
		a->glyphs == GLYPHS_BRAILLE
			? ": \u28FF\u2809\u28C0 should be dots. If not, press the key again."
			: ".");
}

enum follow sb_app_repaint(struct view *v)
{
	v->app->term.repaint(v->app->term.self);
	return FOLLOW_REDRAW;
}

enum follow sb_app_suspend(struct view *v)
{
	suspend(v->app);
	return FOLLOW_REDRAW;
}

void sb_app_set_who(struct view *v, const char *who)
{
	sb_copy(v->app->who, sizeof v->app->who, who);
}

const struct screen *sb_app_top(const struct sb_app *a)
{
	return a->views[a->depth - 1].screen;
}

struct view *sb_app_below(struct view *v)
{
	return v > v->app->views ? v - 1 : NULL;
}
