/* Fixes and the correction that they propose, for people and for scripts. */
#ifndef SB_IO_FIXES_H
#define SB_IO_FIXES_H

#include "base/str.h"
#include "model/solve.h"

/* All fixes, each with its misclosure and whether it agrees. Lengths in the job's unit; in JSON along, across
 * (right positive) and up are fix minus path. */
void sb_fixes_text(const struct job *job, const struct solution *s, struct sb_str *out);
void sb_fixes_json(const struct job *job, const struct solution *s, struct sb_str *out);

/* The proposal, its residuals, the correction in force, and where the bit is now and would be. -1 with err
 * when the corrected path cannot be solved. */
int sb_adjust_text(const struct job *job, const struct solution *s, struct sb_str *out, struct sb_err *err);
int sb_adjust_json(const struct job *job, const struct solution *s, struct sb_str *out, struct sb_err *err);

#endif
