/* Opening the hole on the screen, in parts: what is typed for the joint that comes next, from the first key
 * to the disk (opening_entry.c), how all of it looks (opening_draw.c), and the screen that holds them with
 * the acts that ask first (screen_opening.c).
 */
#ifndef UI_OPENING_H
#define UI_OPENING_H

#include "model/opening.h"
#include "ui/form.h"
#include "ui/list.h"
#include "ui/screen.h"

struct opening_state {
	struct form entry; /* the numbers of the entry line */
	struct form more;  /* which joint, times, returns, remarks */
	int pass, joint;   /* what it is typed for; pass 0: none runs, joint 0: all are through */
	struct list list;  /* of the joints that are shown, the newest on top */
	size_t back;	   /* of which pass: counted from the newest */
};

/* ---- what is typed ---- */

/* Empties both forms for the joint that comes next in the pass that runs, if it is another than before. */
void sb_opening_entry_begin(struct view *v, const struct opening *o);
/* After each change: the draft to disk. */
void sb_opening_entry_keep(const struct view *v, bool sync);
/* Takes a draft up again, if there is one for this joint of this pass. Says so. */
void sb_opening_entry_resume(struct view *v);
/* form_check of both forms. */
int sb_opening_entry_check(const struct form *f, size_t field, const void *context, struct sb_err *err);
/* Enters what is typed. FOLLOW_JOB_CHANGED when it is on disk; else it said why not, and all still stands. */
enum follow sb_opening_entry_commit(struct view *v);

/* ---- how it looks ---- */

/* The pass whose joints are shown; SIZE_MAX where there is none. */
size_t sb_opening_shown(const struct opening_state *s, const struct opening *o);
/* Its i-th joint, the newest first; NULL past the last. */
const struct opening_joint *sb_opening_joint_at(const struct opening *o, size_t pass, size_t i);
size_t sb_opening_joints_of(const struct opening *o, size_t pass);
void sb_opening_draw(const struct view *v, const struct opening *o, struct cells *out);

extern const struct screen sb_screen_opening, sb_screen_opening_more;

#endif
