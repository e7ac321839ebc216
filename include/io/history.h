/* The acts on a job, all or those that pass a filter: for people and for scripts.
 */
#ifndef SB_IO_HISTORY_H
#define SB_IO_HISTORY_H

#include "base/str.h"
#include "model/history.h"

/* "every act", "what was edited, by A. Lund, in shift 2" */
void sb_history_say(const struct history_filter *f, struct sb_str *out);

/* In the order of time, with the local time as the clock stood there. 80 columns. */
void sb_history_text(const struct job *job, const struct history_filter *f, struct sb_str *out);
/* {"job", "which", "who", "shift", "acts": [{"act", "kind", "at", "offset_min", "leg", "joint", "shift",
 * "who", "text"}]}; who and shift null when everybody and all are meant; the shift of an act null outside
 * any. */
void sb_history_json(const struct job *job, const struct history_filter *f, struct sb_str *out);

#endif
