/* A list: a selected row and how far it is scrolled. The owner has the rows and draws each one. */
#ifndef SB_UI_LIST_H
#define SB_UI_LIST_H

#include "ui/action.h"

struct list {
	size_t chosen, first; /* first: the row at the top */
	size_t page;	      /* rows in sight when it was last drawn */
};

extern const struct action sb_list_keys[]; /* to be read in help */

/* Moves for a key; false when it is none of the list's. */
bool sb_list_key(struct list *l, int key, size_t count);

/* Brings the selection inside after the count changed; SIZE_MAX as chosen means the last row. */
void sb_list_fit(struct list *l, size_t count);

/* Draws the rows in sight, and where more are out of sight. Column 0 is the list's: '>' marks the selected
 * row. `row` draws one into a rectangle one row high. */
void sb_list_draw(struct list *l, size_t count, void (*row)(const void *context, size_t i, struct cells *out),
	const void *context, struct cells *out);

#endif
