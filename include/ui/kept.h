/* What is half typed on a screen, kept beside the job file and taken up again.
 *
 * Each sort has a name of its own, so that none discards another's: the pilot's next joint lies in
 * JOB.bore.draft, the pass's in JOB.bore.pass.draft. Onlookers keep nothing.
 */
#ifndef SB_UI_KEPT_H
#define SB_UI_KEPT_H

#include "base/time.h"
#include "ui/form.h"
#include "ui/screen.h"

#define SB_KEPT_FORMS 2

struct kept {
	const char *name;		   /* "": the pilot's next joint */
	int leg, joint;			   /* what it is typed for, as the owner numbers it; leg 1 or more */
	struct form *forms[SB_KEPT_FORMS]; /* the first has the hand; NULL: no more */
};

/* To disk, as it stands; without anything typed there is none. sync: a power cut must not lose it either. */
void sb_kept_save(const struct view *v, const struct kept *k, bool sync);
/* Fills the forms with what was kept: true, and when it was typed. What was kept for another leg or joint
 * was entered after all, or the bore has moved on: it is discarded. Without forms: only whether there is
 * any. */
bool sb_kept_load(const struct view *v, const struct kept *k, char when[SB_TIME_TEXT]);
void sb_kept_discard(const struct view *v, const struct kept *k);

#endif
