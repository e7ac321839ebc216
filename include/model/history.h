/* Who did what: the acts on a job, all or some of them. A supervisor asks what was edited, what was accepted,
 * by one person, in one shift.
 */
#ifndef SB_MODEL_HISTORY_H
#define SB_MODEL_HISTORY_H

#include "model/job.h"

enum history_which {
	HISTORY_ALL,
	HISTORY_DECISIONS, /* all but plain logging */
	HISTORY_EDITS,	   /* what was corrected, withdrawn, changed, set aside, taken back */
	HISTORY_ACCEPTED,  /* what was let stand: acknowledged, accepted, signed, logged although it looked
			    * like a slip
			    */
	HISTORY_WHICH
};
const char *sb_history_name(enum history_which w); /* "all", "decisions", "edits", "accepted" */

struct history_filter {
	enum history_which which;
	const char *who; /* "" or NULL: everybody */
	int shift; /* from 1, in the order in which they were begun; 0: all, and what lies between them */
};

/* The acts that pass, in the order of time, as indices of job->acts. Returned: out, for sb_free; how many. */
size_t sb_history_pick(const struct job *job, const struct history_filter *f, size_t **out);

/* Whether one act is of that sort. */
bool sb_history_is(const struct act *a, enum history_which which);
/* The shift in which an act was done, from 1: the one that runs, also at the act that ends it; 0: none. */
int sb_history_shift_of(const struct job *job, size_t act);
/* The act that began a shift, from 1; NULL if there are not so many. */
const struct act *sb_history_shift(const struct job *job, int shift);
int sb_history_shifts(const struct job *job);

/* Everybody who did something, in the order of their first acts. Returned: out, for sb_free, its names
 * borrowed; how many. */
size_t sb_history_people(const struct job *job, const char ***out);

/* The act as people say it: "pulled back". */
const char *sb_history_word(enum act_kind kind);

#endif
