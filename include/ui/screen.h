/* A screen: a few functions and a table of actions. It holds a cursor and a scroll, never data; it draws
 * into a rectangle of cells from a job and a solution that it may not change.
 */
#ifndef SB_UI_SCREEN_H
#define SB_UI_SCREEN_H

#include "model/job.h"
#include "model/solve.h"
#include "store/store.h"
#include "ui/action.h"
#include "ui/glyph.h"

struct sb_app;
struct screen;

/* What a screen's functions are given. All but state is set anew before each call. */
struct view {
	struct sb_app *app;
	const struct screen *screen;
	void *state;		/* screen->state_size bytes of its own, zero at first, gone after close */
	struct sb_store *store; /* for acts */
	const struct job *job;	/* these two are NULL only where there is no store */
	const struct solution *solution; /* borrowed: not to be kept in state */
	const char *who;
	enum glyphs glyphs; /* the most that may be drawn with */
};

#define SB_SCREEN_WIDGETS 3

struct screen {
	const char *name;  /* "corrections": in the man page */
	const char *title; /* at the head of the screen; NULL: the job alone */
	const char *about; /* one to three sentences, on the help screen and in the man page */
	size_t state_size;

	/* argument is what sb_app_open was given, valid during the call. -1: it does not open, err says
	 * why. May be NULL. */
	int (*open)(struct view *v, const void *argument, struct sb_err *err);
	void (*draw)(const struct view *v, struct cells *out);
	/* Keys before the table of actions sees them: what is typed into a field. FOLLOW_PASS: not taken.
	 * May be NULL. */
	enum follow (*key)(struct view *v, int key);
	/* The job changed, by an act here or by somebody else. May be NULL. */
	void (*changed)(struct view *v);
	/* What is half typed goes to disk for good: the hand pauses, or the program is about to end,
	 * whatever the reason. May be NULL. */
	void (*keep)(struct view *v);
	void (*close)(struct view *v); /* may be NULL */

	/* How many rows it needs at the foot of the screen below it, which stays in sight; NULL: all. */
	int (*rows)(const struct view *v, int columns);

	bool letters; /* its fields take letters: no letter is an act here */
	const struct action *actions;
	const struct action
		*widgets[SB_SCREEN_WIDGETS]; /* the keys that its widgets take, to be read in its help */
};

#endif
