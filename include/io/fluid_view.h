/* The drilling fluid along the whole bore, worked out once for whoever shows it: the pilot, the pass that
 * opens it, the pull; and what somebody must know who reads the figures.
 */
#ifndef SB_IO_FLUID_VIEW_H
#define SB_IO_FLUID_VIEW_H

#include "model/fluid_line.h"
#include "model/solve.h"

enum { FLUID_PILOT, FLUID_OPENING, FLUID_PULLING, FLUID_STAGES };
extern const char *const sb_fluid_view_words[FLUID_STAGES]; /* "pilot", "opening", "pulling in" */

/* Borrows job and solution. */
struct fluid_view {
	const struct job *job;
	const struct solution *s;
	struct clearance_ask ask;
	struct bore_line bore;
	struct fluid_line lines[FLUID_STAGES];
};
/* pass: as sb_fluid_text. */
void sb_fluid_view_begin(const struct job *job, const struct solution *s, int pass, struct fluid_view *out);
/* The same along the design line: nothing of it is drilled or measured, and there are no joints. */
void sb_fluid_view_design(const struct job *job, const struct solution *s, int pass, struct fluid_view *out);
void sb_fluid_view_end(struct fluid_view *v);

/* What is missing, and what was taken in its place: a sentence each, given to `put` one by one. */
typedef void sb_fluid_put(void *to, const char *sentence);
void sb_fluid_view_notes(const struct fluid_view *v, sb_fluid_put *put, void *to);

/* In the job's units; NAN stays. */
double sb_fluid_view_pressure(const struct fluid_view *v, double pascal);
const char *sb_fluid_view_unit(const struct fluid_view *v);

#endif
