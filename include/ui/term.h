/* The terminal, as little of it as the loop needs: wait for an event, show cells. Functions in a struct, so
 * that tests script it (tests/support/script.h); src/ui/term.c is the real one, and the only file that
 * knows curses.
 */
#ifndef SB_UI_TERM_H
#define SB_UI_TERM_H

#include "base/err.h"
#include "ui/cells.h"
#include "ui/glyph.h"
#include "ui/theme.h"

#include <stdbool.h>

enum event_kind {
	EVENT_TIME,    /* nothing came within the time given */
	EVENT_KEY,     /* key */
	EVENT_RESIZE,  /* the size may have changed */
	EVENT_SUSPEND, /* asked from outside to make way for a shell */
	EVENT_STOP,    /* asked from outside to end: signal */
	EVENT_GONE,    /* hang-up: nobody is there any more */
};

struct event {
	enum event_kind kind;
	int key;    /* ui/key.h */
	int signal; /* of EVENT_STOP */
};

struct term_facts {
	int rows, columns;
	int colours;	    /* 0: none, or none wanted */
	enum glyphs best;   /* what it can show at all */
	enum glyphs glyphs; /* what to begin with: its font may not have the rest */
};

struct sb_term {
	void *self;
	void (*wait)(void *self, int timeout_ms, struct event *out);
	void (*facts)(void *self, struct term_facts *out);
	/* False when the link takes nothing now: nothing was sent; show it again later. */
	bool (*show)(void *self, const struct cells *cells, enum theme theme);
	void (*repaint)(void *self); /* the next show sends everything: something wrote over the screen */
	void (*suspend)(void *self); /* gives the terminal back, stops; returns when it has it again */
	void (*close)(void *self, bool gone); /* gives the terminal back; gone: there is none to give */
};

enum colour_wish {
	COLOUR_AUTO, /* unless NO_COLOR is set */
	COLOUR_NEVER,
	COLOUR_ALWAYS,
};

/* Takes over standard input and output. Refuses, in a sentence, what is no terminal or cannot place text.
 * Sets the locale's character type alone (never its decimal point). Returned: out; close it. */
int sb_term_open(enum colour_wish colour, struct sb_term *out, struct sb_err *err);

#endif
