/* Independent fixes: how far each lies from the computed path, whether that is within what both sides claim,
 * and which correction of azimuth, inclination and depth all of them together propose.
 *
 * A fix never moves the path. Only a correction that somebody takes does (struct adjustment of the job), and
 * the path as it was read can always be laid again. Fixes are held against the path as read; whether they
 * agree is judged on the path in force.
 */
#ifndef SB_MODEL_FIXES_H
#define SB_MODEL_FIXES_H

#include "base/str.h"
#include "geom/adjust.h"
#include "geom/uncert.h"
#include "model/warning.h"

enum fix_standing {
	FIX_STANDS,
	FIX_ASIDE,	 /* set aside by an act */
	FIX_PULLED_BACK, /* on a stretch that was withdrawn since */
	FIX_BEYOND,	 /* past the bit: a joint's length was corrected since */
	FIX_NO_PATH,	 /* nothing was read yet that says where the hole goes */
	FIX_AT_ENTRY,	 /* at depth 0, where the path is certain already */
};

/* The directions in which a fix speaks: along the alignment, to the right of it, up. */
enum { FIX_ALONG, FIX_ACROSS, FIX_UP, FIX_AXES };

struct fix_view {
	int64_t fix; /* its number */
	enum fix_standing standing;
	int joint;		    /* in which it lies */
	double md_m;		    /* where it lies along the hole */
	struct vec3 at;		    /* of the path as read, there */
	struct vec3 axis[FIX_AXES]; /* unit */
	double station_m;	    /* of the path in force, there */
	bool seen[FIX_AXES];	    /* which components were observed */
	bool ahead;		    /* past the last reading: the path is carried on to it */
	struct vec3 fixed;	    /* the position that it gives; the path's where it gives none */
	/* fix minus path, m: as read, and with the correction in force (the same where there is none) */
	double read_m[FIX_AXES], off_m[FIX_AXES];
	double own_sigma_m[FIX_AXES];	/* of the fix */
	double both_sigma_m[FIX_AXES];	/* of off_m: what fix and path in force claim together */
	double chi_square, probability; /* of off_m; 1 when it cannot be judged */
	int freedom;
	bool agrees;
};

/* What may be corrected, in this order. */
enum { CORRECT_AZIMUTH, CORRECT_INCLINATION, CORRECT_STRETCH, CORRECT_TERMS };

enum proposal_status {
	PROPOSAL_NO_FIX, /* none that stands */
	PROPOSAL_MADE,
	PROPOSAL_CERTAIN,  /* the sheet claims that the readings share no error */
	PROPOSAL_UNSOLVED, /* the adjustment refused it: a fix that claims to be without error */
};

struct proposal {
	enum proposal_status status;
	/* rad, rad, 1: what is to be added; 0 and not told where these fixes say nothing of it */
	double estimate[CORRECT_TERMS], sigma[CORRECT_TERMS];
	bool told[CORRECT_TERMS];
	size_t count; /* fixes that it rests on: list[] indices, and of each the residual */
	struct proposal_fix {
		size_t view;
		double left_m[FIX_AXES];  /* fix minus corrected path */
		double sigma_m[FIX_AXES]; /* what that scatters by */
		double normalised[FIX_AXES];
		double probability; /* of the fix, held against all others */
		bool suspect;
	} fixes[ADJUST_FIXES];
	double chi_square, probability;
	int freedom;
	bool fits;	 /* all agree, within the confidence */
	size_t suspects; /* 1: that fix stands out. More: each of them may be the one that is wrong. 0 and it
			  * does not fit: no single fix explains it */
};

struct fixes {
	struct fix_view *list; /* one for each fix of the job, in its order */
	size_t count;
	double confidence, factor; /* 0..1; sigmas of give or take */
	struct proposal proposal;
	bool settled; /* every fix that stands lies behind a reading: joints to come change nothing here */
};

/* What fixes are held against. Borrowed. */
struct fixes_ask {
	const struct setup *setup;
	const struct path *path; /* in force */
	const struct uncert_model *model;
	double confidence;  /* 0..1 */
	int64_t before_act; /* only fixes entered before this act count; INT64_MAX: all */
};

/* Solves all. Returned: out (cleared first; sb_fixes_clear when done). */
void sb_fixes_solve(const struct fixes_ask *ask, struct fixes *out);
void sb_fixes_clear(struct fixes *f);

/* The path as it was read: without the correction in force. out is begun here; the caller clears it. */
void sb_fixes_as_read(const struct setup *setup, const struct path *in_force, struct path *out);

/* The proposal as the fact that taking it makes. */
void sb_fixes_adjustment(const struct fixes *f, struct adjustment *out);

/* Whether a fix does not agree, and how long there was none: for the row that is judged.
 * Given: last   the row is the end of the path, so that fixes entered later count too */
void sb_fixes_judge(const struct setup *setup, const struct fixes *f, const struct row *row, bool last,
	struct verdict verdicts[WARNING_KINDS]);

/* What the fixes behind the correction in force say of the rest of the path: how sure a place is once it is
 * corrected. It shrinks at a fix and grows after it.
 *
 * Made from the path as far as it was drilled when the correction was taken: joints to come change nothing in
 * it. NULL: no correction is in force, or none of its fixes stands any more. */
struct fixes_tie *sb_fixes_tie_new(
	const struct setup *setup, const struct uncert_model *model, double confidence);
void sb_fixes_tie_free(struct fixes_tie *t);

/* Purpose:  the covariance of a place of the corrected path.
 * Given:    tie       a struct fixes_tie
 *           reading   of the row that it is at; 0: of none (the bit, a trial)
 *           md_m, at  its depth, and the sums there
 * Returned: north, east, up; m^2 */
struct sym3 sb_fixes_tied(const void *tie, int64_t reading, double md_m, const struct uncert *at);

/* ---- in words ---- */

/* "the coil at 310.00 ft (fix 2)" */
void sb_fixes_name(const struct job *job, const struct fix *fix, struct sb_str *out);
/* "1.2 ft right and 0.3 ft low" */
void sb_fixes_off(const struct setup *setup, const bool seen[FIX_AXES], const double off_m[FIX_AXES],
	struct sb_str *out);
/* One or two sentences: where it puts the hole, what both claim, whether they agree. */
void sb_fixes_say(
	const struct setup *setup, const struct fixes *f, const struct fix_view *v, struct sb_str *out);
/* "agrees", "does not agree", "set aside", "pulled back" ... */
const char *sb_fixes_verdict(const struct fix_view *v);
/* The proposal: each correction with its give or take, one a line. */
void sb_fixes_say_term(const struct fixes *f, int term, struct sb_str *out);
/* Whether the fixes fit together; which stands out, or which contradict one another. */
void sb_fixes_say_fit(const struct job *job, const struct fixes *f, struct sb_str *out);

#endif
