/* Returns, losses and releases, for the page of the drilling fluid. */
#ifndef SB_SRC_IO_FLUID_EVENTS_H
#define SB_SRC_IO_FLUID_EVENTS_H

#include "io/document.h"
#include "io/json.h"
#include "model/job.h"

void fluid_events_blocks(struct document *d, const struct job *job);
void fluid_events_json(struct sb_json *j, const struct job *job);

#endif
