/* When the bore was drilled: how long each joint took, how long the hole stood before it, which of that was
 * longer than usual, and when the pilot will be out if it goes on like that.
 *
 * Times come from the clock that was typed with the joints ("started", "ended") where there is one: a log
 * that was brought in from a file is minutes old. Else from the moments at which the joints were logged.
 */
#ifndef SB_MODEL_TIMELINE_H
#define SB_MODEL_TIMELINE_H

#include "base/str.h"
#include "model/clock.h"
#include "model/solve.h"

/* One joint. Minutes are NAN where they are not known. */
struct joint_time {
	const struct reading *reading; /* borrowed from the job */
	int64_t at_ms;		       /* when it was first logged, UTC */
	int offset_min;		       /* of local time then */
	bool in_ground;
	enum time_source source;
	double wait_min;  /* from the end of the joint before to its start */
	double drill_min; /* from its start to its end */
	double whole_min; /* from the end of the joint before to its end */
	double stop_min;  /* of that, what counts as a stop; 0: none */
};

/* A wait is a stop when it is longer than three times the bore's middle one, and than a quarter of an hour.
 * Where only whole joints are timed, what a joint took over the middle one is a stop when it is longer than
 * twice that and than a quarter of an hour.  Source: common practice, no source. */
struct timeline {
	struct joint_time *list; /* every joint that was drilled, in the order of time */
	size_t count, timed;	 /* timed: whole_min is known */
	size_t stops;
	double usual_wait_min;	    /* a wait longer than this is a stop; NAN: no wait is known */
	double middle_min;	    /* of the joints that were timed and had no stop; NAN: none */
	double whole_min, stop_min; /* sums of what is known */
	size_t in_ground;
};

void sb_timeline_take(const struct job *job, struct timeline *out); /* sb_timeline_clear when done */
void sb_timeline_clear(struct timeline *t);

/* What the log says about the stop before a joint: notes, shifts, a pulling back, remarks. "" when nothing.
 */
void sb_timeline_why(const struct job *job, const struct timeline *t, size_t joint, struct sb_str *out);

/* When the pilot is out, counted from a moment, by the bore's own pace.
 *
 * best: each joint that is left takes what the middle one of the joints without a stop took, and there is no
 * stop. likely: each takes the mean of all, stops included, times the joints drilled over those in the
 * ground: what was pulled back had to be drilled again. */
#define SB_TIMELINE_LEAST 3 /* joints that must be timed before a pace is told */
struct pilot_out {
	bool known;
	bool reached;	      /* the bit is at the exit, or past it */
	double length_left_m; /* along the design line from the bit */
	int joints_left;
	double best_joint_min, likely_joint_min;
	double best_min, likely_min; /* for all of them */
	int64_t from_ms, best_ms, likely_ms;
};
struct pilot_out sb_timeline_out(
	const struct job *job, const struct solution *s, const struct timeline *t, int64_t from_ms);

#endif
