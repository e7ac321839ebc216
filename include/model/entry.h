/* Entries beside and after the pilot: what the drilling fluid did, the passes, the pipe string, the pull. A
 * slip in one is struck out by a later act, and entered again; it stays readable, and counts for nothing.
 */
#ifndef SB_MODEL_ENTRY_H
#define SB_MODEL_ENTRY_H

#include "model/fact.h"

/* Whether the act brought an entry of these that is not struck out. */
bool sb_entry_strikable(const struct job *job, int64_t act);

/* May it be struck out? -1 with err where there is no such entry, or others stand on it: a pass with joints,
 * a pull with joints, a release with records. Those go first; err names one of them by its number. */
int sb_entry_check_strike(const struct job *job, int64_t act, struct sb_err *err);

#endif
