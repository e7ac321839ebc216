/* Whether the drilling fluid comes back, and what came to the surface elsewhere: the returns of the joints,
 * and the entries of `fluid`.
 *
 * A release to the surface is a breach whatever the contract says. Of each must be recorded where it came up,
 * how much, what it ran into, who was told and when, and what was done; until then nobody can accept it.
 */
#ifndef SB_MODEL_RETURNS_H
#define SB_MODEL_RETURNS_H

#include "model/clearance.h"

/* What returns say. joint: where the bore, or the tool, was. */
void sb_returns_judge(enum returns returns, int joint, struct verdict *out);
/* The same of an entry: full, partial, none, or a loss (which is a watch too). */
void sb_returns_judge_entry(const struct setup *setup, const struct fluid_event *e, struct verdict *out);

/* What was last said of the returns: of a joint in the ground, by a joint of a pass, or by an entry of
 * `fluid`; in the order in which they were entered. */
struct returns_said {
	enum returns returns; /* RETURNS_UNSAID: nothing was said */
	int joint;	      /* where the bore, or the tool, was */
	bool entered;	      /* by an entry of `fluid`, not with a joint */
	int64_t act;
};
struct returns_said sb_returns_last(const struct job *job);

/* A release with what was added to it since: the last text given of each. Borrowed from the job. */
struct release {
	const struct fluid_event *event;
	const struct number *volume;
	const char *place, *receiving, *told, *done; /* "": missing */
};
/* As it was known after an act; INT64_MAX: now. Entries that are struck out do not count. */
struct release sb_release_of(const struct job *job, const struct fluid_event *e, int64_t until_act);
/* What is missing of its record: "volume, who was told and when"; "" and false: nothing. */
bool sb_release_missing(const struct release *r, char text[96]);

/* All releases while the bore stood at a joint of a leg, after an act: value is how many there are. */
void sb_release_judge(const struct job *job, int leg, int joint, int64_t until_act, struct verdict *out);

/* A release there whose record is not whole: its number (fact.id), and what is missing; 0: none. */
int sb_release_unrecorded(const struct job *job, int leg, int joint, char text[96]);

#endif
