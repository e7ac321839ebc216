/* What can be done: one row an action. The same rows feed dispatch, the footer, the help screen and the man
 * page.
 */
#ifndef SB_UI_ACTION_H
#define SB_UI_ACTION_H

#include "ui/cells.h"

#include <stdbool.h>
#include <stddef.h>

struct view;

/* What must follow an act; the loop does it. */
enum follow {
	FOLLOW_NOTHING,
	FOLLOW_REDRAW,
	FOLLOW_JOB_CHANGED, /* something was logged, corrected, noted ... */
	FOLLOW_CLOSE,	    /* this screen is done */
	FOLLOW_QUIT,	    /* the program is done */
	FOLLOW_PASS,	    /* of a key: not mine; look in the table of actions */
};

struct action {
	const char *name;		    /* "withdraw" */
	const char *keys;		    /* "B F7": words of ui/key.h; the first is shown */
	const char *label;		    /* in the footer, one or two words; NULL: not there */
	const char *help;		    /* one sentence */
	enum follow (*act)(struct view *v); /* NULL: a widget takes these keys; the row is there to be read */
	bool writes;			    /* refused to an onlooker, and not shown in the footer */
};
/* A table ends in a row { 0 }. */

bool sb_action_takes(const struct action *a, int key);

/* NULL when none takes it, or table is NULL. Rows that a widget handles are passed over. */
const struct action *sb_action_find(const struct action *table, int key);

/* What holds on a screen: its own table, and that of all screens. */
struct action_tables {
	const struct action *own, *everywhere;
	bool letters; /* letters are typed into fields: everywhere's are out of reach then */
	bool writes;  /* false: leave out what writes */
};

/* Takes the next of a row's keys that reaches it; SB_KEY_NONE at the end. Of the rows of everywhere those are
 * passed over that the screen itself takes, and letters where letters are typed. */
int sb_action_next_key(const struct action_tables *t, bool everywhere, const char **keys);

/* The footer: keys and labels, the screen's own first, on row 0 of the rectangle. The last label of all
 * always has its place.
 * Returned: how many labels found no room. */
size_t sb_action_footer(struct cells *out, const struct action_tables *tables);

#endif
