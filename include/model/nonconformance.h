/* Non-conformances: every breach of a limit that the contract sets, and what came of it.
 *
 * A breach opens one by itself, and nothing removes it. It is closed by the new leg where its joints were
 * pulled back and drilled again, or accepted by the engineer with a name and a reference; else it is open,
 * and the pilot cannot be accepted. What was accepted and has grown since is open again.
 */
#ifndef SB_MODEL_NONCONFORMANCE_H
#define SB_MODEL_NONCONFORMANCE_H

#include "base/str.h"
#include "model/solve.h"

enum disposition_state { DISPOSITION_OPEN, DISPOSITION_ACCEPTED, DISPOSITION_REDRILLED };
const char *sb_disposition_word(enum disposition_state state); /* "open", "accepted", "redrilled" */

struct nonconformance {
	int number; /* from 1, by leg, joint and kind */
	enum disposition_state state;
	const struct warning *warning; /* the breach: kind, joints, station, value, limit, words; borrowed */
	const struct disposition
		*accepted;	     /* by whom, when, with which reference and reason; NULL if never */
	bool grown;		     /* it was accepted, and is worse now: open again */
	const struct leg *redrilled; /* the leg that took its joints out; NULL if none; borrowed */
};

/* All of them. Returned: out, for sb_free (NULL if none); how many. */
size_t sb_nonconformances(const struct job *job, const struct solution *s, struct nonconformance **out);
size_t sb_nonconformances_open(const struct job *job, const struct solution *s);
size_t sb_nonconformances_open_of(const struct job *job, const struct solution *s, enum warning_kind kind);

/* "joint 12", "joints 12 to 15" */
void sb_nonconformance_joints(const struct nonconformance *n, struct sb_str *out);
/* What came of it: "open", "accepted by B. Hale: ...", "redrilled on leg 2". */
void sb_nonconformance_say(const struct nonconformance *n, struct sb_str *out);

#endif
