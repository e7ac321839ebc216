/* Between the files of the handover: the next joints, and the page. */
#ifndef SB_SRC_IO_HANDOVER_PARTS_H
#define SB_SRC_IO_HANDOVER_PARTS_H

#include "model/solve.h"

/* The next joints as columns of figures: where each shall head at its end. From the plan where there is one,
 * else where the design heads at the sensor. joints "": none is left before the exit. */
struct next_joints {
	bool planned;
	char joints[80], inclinations[80], azimuths[80];
};
void next_take(const struct job *job, const struct solution *s, struct next_joints *out);

#endif
