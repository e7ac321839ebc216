/* The pilot's acceptance: a hold point. What the contract asks before it, which of that is done, and who
 * signed.
 *
 * Some points are judged from the log: that the bore is out, that its exit was surveyed and lies in its
 * window, that no non-conformance is open. The others are the contract's own (checklist.csv), ticked off by
 * name. It can be signed when nothing that is asked for is missing; signing closes the pilot.
 */
#ifndef SB_MODEL_ACCEPTANCE_H
#define SB_MODEL_ACCEPTANCE_H

#include "model/exit.h"
#include "model/nonconformance.h"

struct hold_point {
	int tick;   /* number of the contract's point, from 1; 0: judged from the log */
	bool asked; /* false: said for who signs, and keeps nobody from it */
	bool done;
	char text[SB_NAME_TEXT];		   /* what is asked: "No non-conformance is open" */
	char state[SB_REMARK_TEXT + SB_NAME_TEXT]; /* how it stands, a sentence */
};

struct hold_points {
	struct hold_point *list;
	size_t count;
	size_t missing; /* asked for, and not done */
	struct exit_survey exit;
};

/* Returned: out (cleared first; sb_acceptance_clear when done). */
void sb_acceptance_look(const struct job *job, const struct solution *s, struct hold_points *out);
void sb_acceptance_clear(struct hold_points *h);

/* Who accepted it, in which capacity, when and with which words; that it is open; or that it was and is
 * again.
 */
void sb_acceptance_say(const struct job *job, struct sb_str *out);

#endif
