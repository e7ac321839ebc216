/* Between the files of the handover: the figures of a shift, the next joints, and the page. */
#ifndef SB_SRC_IO_HANDOVER_PARTS_H
#define SB_SRC_IO_HANDOVER_PARTS_H

#include "model/solve.h"

#define SHIFT_GAPS 3 /* of lost time that are named */

struct shift_gap {
	int before; /* the joint that had to wait */
	int minutes;
};

struct range {
	bool known;
	double low, high;
};

/* What happened in a shift. Lengths in the job's unit, as typed and summed. */
struct shift {
	const struct act *begin; /* NULL: no shift was ever begun, so it is the whole log */
	int64_t from_ms, to_ms;
	bool runs;
	size_t joints, withdrawn; /* drilled; of them no longer in the ground */
	int first, last;	  /* joints */
	double length;
	bool timed;			   /* minutes are from the times that were logged with the joints */
	double minutes;			   /* negative: not known */
	struct shift_gap gaps[SHIFT_GAPS]; /* the longest, longest first; minutes 0: none */
	int lost;			   /* minutes of all gaps that are longer than usual */
	struct range standpipe, annular;
	enum returns returns; /* last said */
	int returns_joint;    /* of the last joint with less than full returns; 0: none */
	enum returns worst_returns;
	const struct row *tightest; /* smallest window radius, of rows on the present path */
	const struct row *tightest_joint;
	const struct row *farthest; /* largest share of the corridor */
};

void shift_take(const struct job *job, const struct solution *s, int64_t now_ms, struct shift *out);
/* The next joints as columns of figures: where each shall head at its end. From the plan where there is one,
 * else where the design heads at the sensor. joints "": none is left before the exit. */
struct next_joints {
	bool planned;
	char joints[80], inclinations[80], azimuths[80];
};
void next_take(const struct job *job, const struct solution *s, struct next_joints *out);

/* Whether something at that time belongs to the shift. */
bool shift_holds(const struct shift *t, int64_t at_ms);

#endif
