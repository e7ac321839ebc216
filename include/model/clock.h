/* Clock times without a date: how long a joint took, and how long the hole stood before it. Of the pilot
 * (model/timeline.h), of a pass (model/opening.h), of the pull.
 *
 * The date is taken from when the joints were entered: of the days that could lie between two joints the
 * number is taken that comes nearest to what lies between their acts.
 */
#ifndef SB_MODEL_CLOCK_H
#define SB_MODEL_CLOCK_H

#include <stddef.h>
#include <stdint.h>

enum time_source { TIME_UNKNOWN, TIME_TYPED, TIME_LOGGED };

/* A joint's times as they were typed, local hh:mm, "" where they were not; and when it was entered, UTC. */
struct clocked {
	const char *started, *ended;
	int64_t at_ms;
};

/* Minutes are NAN where they are not known. */
struct clock_minutes {
	enum time_source source;
	double wait_min;  /* from the end of the joint before to its start */
	double work_min;  /* from its start to its end */
	double whole_min; /* from the end of the joint before to its end */
};

/* By the clock where both times were typed, else by the moments of the two acts; those say nothing when they
 * are less than a minute apart: then the joints were brought in from a file, or written down later.
 * before: NULL for the first joint. */
struct clock_minutes sb_clock_minutes(const struct clocked *before, const struct clocked *joint);

/* The middle one, of an even number the lower of the two; NAN of none. Sorts the values. */
double sb_clock_middle(double *values, size_t count);

#endif
