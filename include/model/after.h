/* Entries beside and after the pilot: what the drilling fluid did, the passes, the pipe string, the pull. A
 * slip in one is struck out by a later act, and entered again; it stays readable, and counts for nothing.
 */
#ifndef SB_MODEL_AFTER_H
#define SB_MODEL_AFTER_H

#include "model/fact.h"

/* Whether the act is of these; its entry is struck out: */
bool sb_after_is(enum act_kind kind);
bool sb_after_struck(const struct job *job, const struct act *act);

/* Whether the act brought an entry of these that is not struck out. */
bool sb_after_strikable(const struct job *job, int64_t act);

/* The release that a record adds to, struck out or not; NULL: there is none. */
const struct fluid_event *sb_after_release(const struct job *job, const struct fluid_event *record);

/* Whether what an entry names is there and counts: the release of a record, the pass of a joint, a joint of
 * the bore, the pull that has begun; and whether it may be entered as things stand. Given: fact, its columns;
 * why, the remarks, "" none: some may be entered only with a reason. -1 with err. What the contract and the
 * trade ask of it beyond that is judged by the module that knows it. */
int sb_after_check(
	const struct job *job, enum act_kind kind, const void *fact, const char *why, struct sb_err *err);

/* The joint of the bore where the tool of the pass that runs, or the pull head, is at work: the one that
 * comes next, or the last one; where neither runs, the joint at which the bore ends. 0: no bore. */
int sb_after_tool_joint(const struct job *job);

/* May it be struck out? -1 with err where there is no such entry, or others stand on it: a pass with joints,
 * a pull with joints, a release with records. Those go first; err names one of them by its number. */
int sb_after_check_strike(const struct job *job, int64_t act, struct sb_err *err);

#endif
