/* A terminal made of a list: events in, cells out. The real loop runs over it inside the test program, so
 * that a screen is tested as text, with no terminal and no waiting.
 *
 * After each call below the loop has taken all events, the hand has paused (so drafts are kept and the store
 * was looked at again), and the last frame stands in `shown`. Rows and columns count from 0.
 */
#ifndef SUPPORT_SCRIPT_H
#define SUPPORT_SCRIPT_H

#include "ui/app.h"

#define SCRIPT_EVENTS 1024

struct script {
	struct sb_term term;
	struct sb_app *app;
	struct term_facts facts;
	struct event events[SCRIPT_EVENTS];
	size_t next, count;
	struct cells shown;
	enum theme theme; /* that it was shown in */
	int frames;	  /* how often something was shown */
	int repaints, suspensions;
	bool stalled; /* set: the terminal takes no frames */
	bool idle;
	bool over; /* the loop ended; its status: */
	int status;
	/* What `do` does, set by whoever begins a script: false, having said why, when it did not go as it
	 * should. */
	bool (*act)(struct script *s, const char *words, void *context);
	char text[2048];
};

void script_init(struct script *s, int columns, int rows);
/* Starts the loop; ends the test if the first screen does not open. */
void script_start(struct script *s, const struct app_options *o);
void script_end(struct script *s);

void script_keys(struct script *s, const char *keys); /* words: "A 1 2 . 5 Tab Enter" */
void script_type(struct script *s, const char *text); /* each character as a key */
void script_event(struct script *s, enum event_kind kind);
void script_tick(struct script *s); /* a second passes */
void script_resize(struct script *s, int columns, int rows);

const char *script_row(struct script *s, int row); /* borrowed until the next call */
bool script_find(struct script *s, const char *text, int *row, int *column); /* first place it stands at */
bool script_sees(struct script *s, const char *text);
enum style script_style(struct script *s, const char *text); /* of its first character; STYLES if not there */
void script_print(struct script *s);			     /* the screen, for a test that fails */

/* Whether a key was ever pressed while this screen was to take it, in all scripts of this program. */
bool script_pressed(const char *screen, int key);

#define assert_sees(s, text) script_assert((s), (text), true, __FILE__, __LINE__)
#define assert_sees_not(s, text) script_assert((s), (text), false, __FILE__, __LINE__)
void script_assert(struct script *s, const char *text, bool there, const char *file, int line);

/* Plays a file of tests/screens. One command a line, # begins a comment:
 *   size 100 30          columns and rows; before start
 *   start plain 12       what to begin with: the caller's words, given to `begin`
 *   keys A 1 2 . 5 Tab Enter
 *   type "text"
 *   tick                 a second passes
 *   resize 70 20
 *   do words             what else can happen: the caller's words, given to `act`
 *   row 4 "text"         the whole row, without the blanks at its end
 *   see "text"           somewhere
 *   not "text"           nowhere
 *   style "text" watch   its first character's meaning
 *   cursor 20 34         row and column; or: cursor none
 *   theme day            the colours that it is shown in
 *   over 0               the program ended, with this status
 *   show                 prints the screen, for whoever writes a script
 * Strings may hold \" and \\.
 * begin starts the script (script_start) or ends the test. Returned: 0; else it said file, line and why. */
int script_play(const char *path, void (*begin)(struct script *s, const char *words, void *context),
	void (*end)(struct script *s, void *context), void *context);

#endif
