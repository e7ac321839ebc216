/* Where the bore comes out: as it heads, and by land survey once it has; against the contract's exit window.
 *
 * The land survey is a fix of kind exit, the newest that stands. It is the one place where the truth can be
 * seen, so it judges the exit window from then on, whatever the readings say.
 */
#ifndef SB_MODEL_EXIT_H
#define SB_MODEL_EXIT_H

#include "model/advice.h"
#include "model/fixes.h"

/* Past the exit point of the design, to the right of it, above it, in metres. */
struct exit_miss {
	double long_m, right_m, high_m; /* short, left and low are negative */
};

struct exit_survey {
	bool known;
	bool plan, level;	/* what was observed: its place seen from above; its elevation */
	int64_t fix;		/* its number */
	struct exit_miss miss;	/* of the design's exit */
	double off_m[FIX_AXES]; /* misclosure: survey minus path in force, along, to the right, up; 0 where
				   not observed */
	bool seen[FIX_AXES];
};

/* Given: row   the path's end as far as it is judged; last: fixes entered later count too. */
struct exit_survey sb_exit_survey(
	const struct setup *setup, const struct fixes *f, const struct row *row, bool last);

/* Purpose:  holds a miss against the exit window.
 * Returned: value, limit   metres, both positive: of the side that is furthest out, or nearest to it
 *           word           "long", "short", "right", "left"; "" where the contract sets no window
 *           true when it is outside (by more than a nanometre: what is exactly on the limit is inside) */
bool sb_exit_outside(const struct corridor *c, const struct exit_miss *miss, double *value_m, double *limit_m,
	const char **word);

/* The exit window: by land survey, else as the bore heads or as its own path says that it came out. */
void sb_exit_judge(const struct setup *setup, const struct fixes *f, const struct row *row, bool last,
	const struct bit *bit, const struct ahead *ahead, struct verdict *v);

/* "0.8 ft long, 1.2 ft right and 0.1 ft high"; what was not observed is left out. */
void sb_exit_say(const struct setup *setup, const struct exit_survey *e, struct sb_str *out);

#endif
