/* Whether the design itself keeps clear of what lies around it: said when the job is made, while a drawing
 * can still be changed.
 */
#ifndef SB_MODEL_DESIGN_ROOM_H
#define SB_MODEL_DESIGN_ROOM_H

#include "model/design.h"

/* Warnings (no errors) for each obstacle whose clearance the design line does not keep, and for cover: of the
 * final hole drilled along it. Problems name obstacles.csv and ground.csv. */
void sb_design_room_check(
	const struct job *job, const struct frame *f, const struct design *d, struct sb_problems *problems);

#endif
