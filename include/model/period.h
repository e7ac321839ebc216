/* What happened in a stretch of time: a shift, a day, the whole log. A joint belongs to the one in which it
 * was first logged, whatever was corrected later.
 */
#ifndef SB_MODEL_PERIOD_H
#define SB_MODEL_PERIOD_H

#include "model/timeline.h"

/* Which stretch: between two moments, or a local day. */
struct span {
	int64_t from_ms, to_ms; /* UTC, both inside */
	bool by_day;		/* instead: the day that local time had, by the offset kept with each act */
	int64_t day;		/* days since 1970 */
};
bool sb_period_holds(const struct span *t, int64_t at_ms, int offset_min);
int64_t sb_period_day(int64_t at_ms, int offset_min); /* the local day */

/* The shift that runs at a moment, else the last one; without any, the whole log.
 * Returned: begin   the act that began it; NULL: there was none
 *           runs    it has not ended yet */
struct span sb_period_shift(const struct job *job, int64_t now_ms, const struct act **begin, bool *runs);

struct range {
	bool known;
	double low, high;
};

#define SB_PERIOD_STOPS 3 /* the longest, kept by name */
struct period_stop {
	size_t at;  /* timeline's list[] */
	int before; /* the joint that had to wait */
	double minutes;
};

/* Lengths in the job's unit, as typed and summed. Rows are of the present path. */
struct period {
	size_t joints, withdrawn; /* drilled; of them no longer in the ground */
	int first, last;	  /* joints */
	double length;
	bool timed;	/* minutes are from the times that were typed with every joint */
	double minutes; /* from the start of the first joint to the end of the last; negative: not known */
	double drill_min,
		stop_min; /* of the joints that say so; stops before the first joint are not in it */
	size_t stop_count;
	struct period_stop stops[SB_PERIOD_STOPS]; /* longest first */
	struct range thrust, torque, flow, standpipe, annular;
	enum returns returns; /* last said */
	int returns_joint;    /* of the last joint with less than full returns; 0: none */
	enum returns worst_returns;
	const struct row *start, *end; /* where the path stood before the first joint and after the last */
	const struct row *tightest;    /* smallest window radius */
	const struct row *tightest_joint;
	const struct row *farthest;		     /* largest share of the corridor */
	const struct row *right, *left, *high, *low; /* the largest to each side; NULL: none to that side */
};

void sb_period_take(
	const struct solution *s, const struct timeline *t, const struct span *when, struct period *out);

#endif
