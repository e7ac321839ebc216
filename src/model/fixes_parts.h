/* Between the files of the fixes: where a fix lies among the readings, and what errors do to the path there.
 */
#ifndef SB_MODEL_FIXES_PARTS_H
#define SB_MODEL_FIXES_PARTS_H

#include "model/fixes.h"

/* The path as read, and of each of its rows on the path what the readings' errors add up to. */
struct carried_path {
	const struct setup *setup;
	const struct uncert_model *model;
	const struct path *path; /* as read */
	struct path own;	 /* it, where a correction is in force */
	struct uncert *sums;	 /* [path->on_count] */
	/* The string's magnetism turns azimuths by much the same all along a bore that hardly turns: so much
	 * of it, in the mean, is an error of the azimuth like any other, and what is left is noise. */
	double lean;
};

/* A place along it: between two rows on the path, or past the last. */
struct carried_place {
	double md_m;
	size_t before; /* on_path[] index of the row at or before it */
	double share;  /* how far it is to the next one, 0..1; 0 past the last */
	bool ahead;
	struct uncert beyond; /* the sums there, where it is past the last row */
};

void sb_carried_begin(const struct fixes_ask *ask, struct carried_path *c);
/* Takes that mean over the path down to a depth. */
void sb_carried_lean(struct carried_path *c, double md_m);
void sb_carried_clear(struct carried_path *c);
struct carried_place sb_carried_place(const struct carried_path *c, double md_m);

/* How far one unit of a shared term moves the place. */
struct vec3 sb_carried_shared(
	const struct carried_path *c, const struct carried_place *p, enum uncert_term term);

/* The covariance of two places' positions (north, east, up) from all that no correction takes away: noise,
 * and the shared terms that are none of the three. */
void sb_carried_rest(const struct carried_path *c, const struct carried_place *a,
	const struct carried_place *b, double out[3][3]);

/* The three that a correction can take away: prior one-sigma, and how far one unit moves the place. */
double sb_carried_prior(const struct carried_path *c, int term);
struct vec3 sb_carried_effect(const struct carried_path *c, const struct carried_place *p, int term);

#endif
