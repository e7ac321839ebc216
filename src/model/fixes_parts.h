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

/* Over the asked path as it was read: where a correction is in force it is laid anew into own, which outlives
 * c and is the caller's to clear. Over: the asked path is as read already. */
void sb_carried_begin(const struct fixes_ask *ask, struct path *own, struct carried_path *c);
void sb_carried_over(const struct fixes_ask *ask, struct carried_path *c);
/* Takes that mean over the path down to a depth. */
void sb_carried_lean(struct carried_path *c, double md_m);
void sb_carried_clear(struct carried_path *c);
struct carried_place sb_carried_place(const struct carried_path *c, double md_m);

/* c along two directions. */
double sb_carried_between(double c[3][3], struct vec3 a, struct vec3 b);

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

/* A station anywhere from the place on, with its own sums: its covariance with the place (that of the place
 * in rows, of the station in columns), and with itself. Likewise of all that no correction takes away. */
void sb_carried_later(const struct carried_path *c, const struct carried_place *p, const struct uncert *at,
	double out[3][3]);
void sb_carried_itself(const struct carried_path *c, const struct uncert *at, double out[3][3]);

/* The terms that may be corrected, and which observation is what of which fix. */
struct normal {
	struct adjust_problem problem;
	double prior[CORRECT_TERMS];
	int term[CORRECT_TERMS]; /* of each column */
	double *observed, *effect, *covariance;
	int *fix, *axis;
	size_t *view;		      /* of each fix in it */
	struct carried_place *places; /* likewise */
	size_t fixes;
	double *work;
	struct adjust_answer answer;
	enum adjust_status status;
};

/* Sets up and solves over the fixes that are wanted; of more than fit, the newest. */
void sb_normal_solve(
	const struct carried_path *c, const struct fixes *f, const bool *wanted, struct normal *n);
void sb_normal_clear(struct normal *n);

void sb_fixes_look(
	const struct fixes_ask *ask, const struct carried_path *c, const struct fix *f, struct fix_view *v);
/* Whether a correction rests on a fix: its fixes are "1 2 5". */
bool sb_fixes_rest_on(const struct adjustment *a, int64_t fix);

#endif
