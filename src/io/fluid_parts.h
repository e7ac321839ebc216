/* Between the files of the fluid's page: the three stages, worked out once. */
#ifndef SB_SRC_IO_FLUID_PARTS_H
#define SB_SRC_IO_FLUID_PARTS_H

#include "io/fluid.h"
#include "model/fluid_line.h"
#include "model/returns.h"

enum { FLUID_PILOT, FLUID_OPENING, FLUID_PULLING, FLUID_STAGES };

struct fluid_view {
	const struct job *job;
	const struct solution *s;
	struct clearance_ask ask;
	struct bore_line bore;
	struct fluid_line lines[FLUID_STAGES];
};
/* pass: as sb_fluid_text. */
void fluid_view_begin(const struct job *job, const struct solution *s, int pass, struct fluid_view *out);
void fluid_view_end(struct fluid_view *v);

/* What somebody must know who reads the figures, a sentence each, given to `put` one by one. */
typedef void fluid_put(void *to, const char *sentence);
void fluid_notes(const struct fluid_view *v, fluid_put *put, void *to);

/* In the job's units; NAN stays. */
double fluid_pressure(const struct fluid_view *v, double pascal);
const char *fluid_pressure_unit(const struct fluid_view *v);

/* src/io/fluid_events.c */
void fluid_events_blocks(struct document *d, const struct job *job);
void fluid_events_json(struct sb_json *j, const struct job *job);

#endif
