/* The loop: waits for a key, the clock, a new size or another's commit, hands it to the screen on top, does
 * what must follow, and paints when there is nothing left to read.
 *
 * 1. A key is handled, and what it typed is kept by its screen, before anything is painted: a dead link
 *    cannot hold it back.
 * 2. Whatever ends the loop, every open screen is asked to keep what is half typed.
 */
#ifndef SB_UI_APP_H
#define SB_UI_APP_H

#include "ui/screen.h"
#include "ui/term.h"

struct app_options {
	struct sb_store *store; /* borrowed; NULL: no job (tests) */
	const char *who;	/* at the keyboard; may be "" */
	enum theme theme;
	const struct action *everywhere; /* keys that every screen has (ui/everywhere.h) */
	const struct screen *first;
	const void *argument; /* of first */
	/* How it was wanted last time, and who is told that it is wanted otherwise (NULL: nobody). */
	bool glyphs_known;
	enum glyphs glyphs;
	void (*theme_chosen)(enum theme theme);
	void (*glyphs_chosen)(enum glyphs glyphs);
};

#define SB_APP_ROWS 24
#define SB_APP_COLUMNS 80

/* Borrows the terminal. NULL when the first screen does not open; err says why. */
struct sb_app *sb_app_new(const struct sb_term *term, const struct app_options *o, struct sb_err *err);
void sb_app_free(struct sb_app *app); /* closes its screens */

/* Until it ends. Returned: exit status: 0, 129 after a hang-up, 128 + signal. */
int sb_app_run(struct sb_app *app);
/* One turn of it. False when it is over. */
bool sb_app_turn(struct sb_app *app);
int sb_app_status(const struct sb_app *app);
bool sb_app_gone(const struct sb_app *app);		   /* it ended by a hang-up: for sb_term's close */
const struct screen *sb_app_top(const struct sb_app *app); /* the screen that takes the next key */

/* For handlers; each returns what the handler may return. */
enum follow sb_app_open(struct view *v, const struct screen *screen, const void *argument);
enum follow sb_app_close(struct view *v); /* back to the screen below */
/* Says a sentence until the next key. */
enum follow sb_app_say(struct view *v, enum level level, const char *format, ...)
	__attribute__((format(printf, 3, 4)));
enum follow sb_app_fail(struct view *v, const struct sb_err *err);
enum follow sb_app_next_theme(struct view *v);
enum follow sb_app_next_glyphs(struct view *v);
enum follow sb_app_repaint(struct view *v);
enum follow sb_app_suspend(struct view *v);

void sb_app_set_who(struct view *v, const char *who);

/* The screen below; NULL when there is none. */
struct view *sb_app_below(struct view *v);
/* Closes the screen on top at once, so that a handler can go on as the one below. Its state is gone. */
void sb_app_close_top(struct sb_app *app);

#endif
