/* The pull of the product pipe, as it was measured: force and time joint by joint, beside what is estimated
 * for that position, and what it may mean where the two part.
 *
 * The pipe goes in at the exit and is pulled to the rig at the entry. With each joint of drill pipe that
 * comes out the pull head stands where that joint began; so the joints come in falling order, the bore's last
 * one first. Estimates are model/pipe_load.h's, with the band of its sensitivity: a measured force inside it
 * says that nothing unforeseen shows, not that nothing is wrong.
 */
#ifndef SB_MODEL_PULLBACK_H
#define SB_MODEL_PULLBACK_H

#include "model/bore_line.h"
#include "model/clock.h"
#include "model/pipe_string.h"
#include "model/pipe_verdict.h"

/* ---- the estimate, for every place of the head ---- */

/* The worst share of what the pipe may bear, and where. */
struct pull_share {
	struct pipe_verdict verdict;
	enum pipe_check check;
	double station_m;
	int joint; /* at the end of which it is; 0: the entry, at the rig */
};

/* Made once for a bore; sb_pull_bands_clear when done. */
struct pull_bands {
	bool made;
	char unknown[240];     /* what is missing for an estimate, a sentence; "": there is one */
	struct bore_line line; /* of what was drilled */
	struct pull_band {
		double head_md_m; /* of the pull head */
		double force_n, low_n, high_n;
	} * list; /* head from the exit to the entry */
	size_t count;
	struct pull_share worst;
};
void sb_pull_bands_make(const struct clearance_ask *ask, struct pull_bands *out);
void sb_pull_bands_clear(struct pull_bands *b);
/* With the head at a depth; all NAN where there is no estimate. */
struct pull_band sb_pull_band_at(const struct pull_bands *b, double head_md_m);

/* ---- what was measured ---- */

enum band_side { BAND_UNKNOWN, BAND_WITHIN, BAND_ABOVE, BAND_BELOW };

/* A joint of drill pipe that came out. NAN where a number is not known. */
struct pulled {
	const struct pull_joint *entry; /* borrowed from the job */
	double length_m;
	double head_md_m, station_m; /* of the pull head, the joint out */
	double force_n;
	struct pull_band band;
	enum band_side side;
	double share;  /* of the contract's limit */
	double jump_n; /* how much more the force rose than the estimate did, since the joint before */
	bool jumped;   /* by more than half the width of the band, and a fifth of the estimate */
	struct clock_minutes minutes;
	double stop_min;       /* how long the pipe stood before it, where that is a stop; else 0 */
	double speed_m_by_min; /* while it was pulled */
};

/* A wait is a stop when it is longer than three times the pull's middle one and than a quarter of an hour,
 * as in the pilot (model/timeline.h).  Source: common practice, no source. */
struct pullback {
	const struct pull_begin *begun; /* NULL: it has not */
	const struct pull_end *ended;	/* NULL: it has not */
	struct pulled *list;		/* in the order in which joints come out */
	size_t count;
	double safe_n;		     /* the contract's limit; NAN: it gives none */
	int joints, next;	     /* of the bore; the joint that comes out next, 0: the head is out */
	int left;		     /* joints that are still to come out */
	double left_m;		     /* that the head has to go to the entry */
	double head_md_m;	     /* where it stands; at the exit before the first joint */
	int timed;		     /* joints whose whole minutes are known */
	double best_min, likely_min; /* for what is left: by the middle joint without a stop, by the mean with
				      * stops; NAN: fewer than three were timed */
	int stops;
	double stop_min;
	double speed_m_by_min; /* mean while pulling; NAN not known */
	double asked_m;	       /* extra pipe to be pulled out past the entry; NAN not known */
};

/* Returned: out (cleared first; sb_pullback_clear when done). */
void sb_pullback_take(const struct job *job, const struct pull_bands *bands, struct pullback *out);
void sb_pullback_clear(struct pullback *p);

/* One joint alone: all but its time, and whether the force jumped. */
struct pulled sb_pullback_joint(
	const struct job *job, const struct pull_bands *bands, const struct pull_joint *entry);

/* The joint that comes out next; 0: none is left. */
int sb_pullback_next(const struct job *job);

/* What the pull waits for: the pilot's acceptance, the opened hole, the string. */
void sb_pullback_lacks(const struct job *job, struct lacks *out);

/* ---- in words ---- */

/* kN to the tenth, lbf to the hundred: no force at a rig is known closer. */
#define SB_PULL_FORCE 32
void sb_pullback_force(const struct job *job, double newton, char text[SB_PULL_FORCE]);
const char *sb_pullback_side(enum band_side side); /* "", "within", "above", "below" */
/* How the last joint stands: force, the contract's limit, the estimate. One or two sentences. */
void sb_pullback_say(const struct job *job, const struct pulled *p, struct sb_str *out);
/* What to do about a force over the limit; what it may mean that a force jumped, else that it left the band;
 * "" where none of it. All of it is a 'may be'. */
void sb_pullback_means(
	const struct job *job, const struct pull_bands *bands, const struct pulled *p, struct sb_str *out);
/* After it: extra pipe, coating, survey. */
void sb_pullback_end_say(const struct job *job, const struct pullback *p, struct sb_str *out);

/* For the act's line: "joint 41, 52300 lbf", "sound, 12 ft past the entry". */
#define SB_PULL_WHAT 160
void sb_pullback_what_joint(const struct job *job, const struct pull_joint *j, char text[SB_PULL_WHAT]);
void sb_pullback_what_end(const struct job *job, const struct pull_end *e, char text[SB_PULL_WHAT]);

/* ---- what may be entered: -1 with a sentence ---- */

/* With something missing it begins only with a reason, and says in fact->missing what. */
int sb_pullback_check_begin(
	const struct job *job, const struct pull_begin *b, const char *why, struct sb_err *err);
/* A joint that passes others over needs a reason; one that is out already is refused. */
int sb_pullback_check_joint(
	const struct job *job, const struct pull_joint *j, const char *why, struct sb_err *err);
/* With the head still in the hole it ends only with a reason. */
int sb_pullback_check_end(const struct job *job, const char *why, struct sb_err *err);

/* ---- the spine ---- */

/* What the estimate says of the pipe before the pull, of the bore as it is. False: the sheet does not give
 * what it needs, or nothing of what the pipe may bear. frame: of the job. */
bool sb_pullback_judge_share(
	const struct frame *f, const struct job *job, const struct pull_bands *bands, struct verdict *out);

/* What an act of the pull says: that something was missing when it began; a joint's force; the coating, and
 * the pipe that was pulled out to be looked at. joint: where it was. bands: made for the bore. */
void sb_pullback_judge(const struct job *job, const struct pull_bands *bands, const struct act *act,
	struct verdict *out, int *joint);

#endif
