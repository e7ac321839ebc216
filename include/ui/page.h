/* A page that may be longer than the screen: drawn whole at each frame, of which the part in sight stays.
 */
#ifndef SB_UI_PAGE_H
#define SB_UI_PAGE_H

#include "ui/action.h"

struct page {
	int first;	 /* the line at the top */
	int rows, lines; /* in sight; in all: as last drawn */
};

extern const struct action sb_page_keys[]; /* to be read in help */

/* Scrolls for a key; false when it is none of the page's. */
bool sb_page_key(struct page *p, int key);

/* Draws the page. `lines` draws all of it from a row on, which may lie above the rectangle (what is out of
 * sight is clipped away), and returns the row after the last. A page that is longer than the rectangle gives
 * its last row to a word of how to see the rest. */
void sb_page_draw(struct page *p, int (*lines)(const void *context, struct cells *out, int row),
	const void *context, struct cells *out);

/* For sb_page_draw: the lines of a text (the context), plain. */
int sb_page_text(const void *text, struct cells *out, int row);

#endif
