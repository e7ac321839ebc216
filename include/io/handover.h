/* The page for the next shift: at most 24 lines of 80 columns.
 *
 * In order: where the bit is; the worst bend and offset of this shift; joints, length, hours, rate; returns
 * and pressures; the last independent fix; what was edited, withdrawn or accepted, by whom and why; the
 * shift's notes and closing words; what is open; where time went; the next joints; the caution. Source of the
 * order: owners' and consultants' practice.
 *
 * Once the pilot is accepted, or a pass has begun: where the tool or the pull head is, joints left, best and
 * likely hours, what the rig showed in this shift, returns, releases and what is missing of their records,
 * the pipe string, what the pull waits for; then edits, notes and what is open as before.
 */
#ifndef SB_IO_HANDOVER_H
#define SB_IO_HANDOVER_H

#include "base/str.h"
#include "io/about.h"
#include "io/document.h"
#include "model/solve.h"

#define SB_HANDOVER_LINES 24
#define SB_HANDOVER_COLUMNS 80

/* head: the file's last hash, hex; "" leaves it out. now_ms: the time that it is written. The shift is the
 * one that runs, else the last one; without any, the whole log. */
void sb_handover(const struct job *job, const struct solution *s, const char *head, int64_t now_ms,
	struct sb_str *out);

/* The same as one page to be printed and signed: the nine points by their numbers, in full words. most: of
 * edits, of notes and of what is open so many at most. The shift and the time are those of about->at_ms. */
void sb_handover_document(const struct job *job, const struct solution *s, const struct about *about,
	size_t most, struct document *out);
/* With as many of them as one page holds. */
int sb_handover_pdf(const struct job *job, const struct solution *s, const struct about *about,
	struct sb_str *out, struct sb_err *err);

#endif
