/* The screens that explain figures: the list to choose one from, and its page. */
#ifndef SB_UI_EXPLAIN_H
#define SB_UI_EXPLAIN_H

#include "io/explain.h"
#include "ui/screen.h"

/* Each is opened with a struct explain_ask; that of the list names no figure. */
extern const struct screen sb_screen_figures, sb_screen_explain;

/* Opens the list for a joint's reading; NULL: for the entry. */
enum follow sb_explain_choose(struct view *v, const struct reading *r);

/* Opens the page of the figure that a warning's value is; says so when it measures nothing. */
enum follow sb_explain_value_of(struct view *v, const struct warning *w);

#endif
