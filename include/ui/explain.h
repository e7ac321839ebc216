/* The screen that explains figures. */
#ifndef SB_UI_EXPLAIN_H
#define SB_UI_EXPLAIN_H

#include "io/explain.h"
#include "ui/screen.h"

extern const struct screen sb_screen_explain;

/* Opens it. ask: one figure, or figure NULL for a list of those that there are at its joint. */
enum follow sb_explain_open(struct view *v, const struct explain_ask *ask);

/* The figure that a warning's value is; says so when it measures nothing. */
enum follow sb_explain_warning_open(struct view *v, const struct warning *w);

/* What there is at a joint's reading; NULL: at the entry. */
struct explain_ask sb_explain_reading(const struct reading *r);

#endif
