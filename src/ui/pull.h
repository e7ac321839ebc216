/* The pull on the screen, in parts: the line where the next joint's force is typed, from the first key to the
 * disk (pull_entry.c), how all of it looks (pull_draw.c), and the screen that holds them with the acts that
 * ask first (screen_pull.c).
 */
#ifndef UI_PULL_H
#define UI_PULL_H

#include "io/pullback.h"
#include "model/after.h"
#include "ui/form.h"
#include "ui/screen.h"

struct pull_state {
	struct form entry;
	int joint;		 /* it is typed for; 0: all are out */
	struct pull_bands bands; /* made when the job changes */
};

/* Begun, and not ended. */
bool sb_pull_runs(const struct view *v);

/* ---- what is typed ---- */

/* Empties the line for the joint that comes next. */
void sb_pull_entry_begin(struct pull_state *s, const struct job *job);
/* After each change: the draft to disk. */
void sb_pull_entry_keep(const struct view *v, bool sync);
/* Takes up again what was half typed, while there is anything to type it for. Says so. */
void sb_pull_entry_resume(struct view *v);
enum follow sb_pull_entry_key(struct view *v, int key);
/* Enters what is typed, with remarks that are asked for. */
enum follow sb_pull_entry_with_remarks(struct view *v);
/* The line, and what is to be done there: three rows. */
void sb_pull_entry_draw(const struct view *v, struct cells *out);

/* ---- how it looks ---- */

void sb_pull_draw(const struct view *v, struct cells *out);

#endif
