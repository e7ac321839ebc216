/* What the readings mean for the bit and the next joint: where the bit is, where the bore goes, and how
 * much it may still turn.
 */
#ifndef SB_MODEL_ADVICE_H
#define SB_MODEL_ADVICE_H

#include "model/path.h"
#include "model/response.h"
#include "model/uncertainty.h"
#include "model/warning.h"

/* The bit, ahead of the sensor. */
struct bit {
	double md_m;
	struct vec3 at;
	struct attitude attitude;
	struct deviation deviation;
	struct corridor_use use;
	struct doubt doubt; /* carried from the reading, and that of the projection itself */
	double outside;	    /* chance that the bit is outside the corridor, 0..1 */
	enum level level;   /* of the corridor, at the bit */
	enum projection by; /* how it was projected */
	double apart_m;	    /* how far the other way of projecting puts it */
	bool known;	    /* false: no attitude at all yet (no reading, and no staked entry) */
};

/* Where the bore goes from the bit. */
struct ahead {
	int leaves_held;    /* joint at which the corridor would be left if the heading is held; 0: not within
			     * sight (SB_AHEAD_SIGHT joints, or the exit) */
	int leaves_curved;  /* likewise if the last curvature goes on */
	int leaves_kept;    /* likewise if the design's own bends are followed and only the difference to its
			     * heading is kept: what is warned of, since a held heading leaves every curve */
	bool exit_known;    /* heading up, and reaching the exit's elevation within sight */
	double exit_long_m; /* past the exit point positive, short of it negative; at the exit's elevation */
	double exit_right_m; /* right positive */
};
#define SB_AHEAD_SIGHT 40

/* How many radians the next joint may still turn (geom/bend.h), and which limit says so. */
struct budget {
	bool known;	  /* false: no bend limit at all */
	double least_rad; /* in the worst direction; negative: the limit is passed already */
	double up_rad, down_rad, left_rad, right_rad;
	const char *by; /* "joint limit", "window limit", "drill pipe" */
};

/* All look from the end of the path, or as if `trial` (which may be NULL) had been appended to it. */

struct bit sb_advice_bit(const struct setup *setup, const struct path *p, const struct row *trial);
/* How sure the bit's place is: the reading's doubt carried on to it, and what the hole may have turned since
 * (half that turn over that length, in the mean). Where the contract judges on confidence, the level too. */
void sb_advice_doubt(const struct setup *setup, const struct uncertainty *u, const struct response *response,
	const struct path *p, const struct row *trial, struct bit *bit);
/* Looks ahead from the bit over at most `sight` joints. joints: how many are in the ground. */
struct ahead sb_advice_ahead(const struct setup *setup, const struct bit *bit, const struct path *p,
	const struct row *trial, int sight);
struct budget sb_advice_budget(const struct setup *setup, const struct path *p, const struct row *trial);

/* Leaving the corridor ahead. The exit window is model/exit.h's. */
void sb_advice_judge(const struct setup *setup, const struct bit *bit, const struct ahead *ahead, int joint,
	struct verdict verdicts[WARNING_KINDS]);

#endif
