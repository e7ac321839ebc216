/* How sure the bore's places are: the job's error terms carried along the path, and what they come to beside
 * the design line.
 *
 * Each row keeps its own running sums (geom/uncert.h), so a row more is one step from the row before, a trial
 * changes nothing, and after pulling back the row that is left knows where it was.
 */
#ifndef SB_MODEL_UNCERTAINTY_H
#define SB_MODEL_UNCERTAINTY_H

#include "geom/spread.h"
#include "model/path.h"

struct uncertainty {
	struct uncert_model model;
	double confidence;   /* 0..1: the contract's */
	double line_factor;  /* sigmas of "give or take" at that confidence: to both sides of one figure */
	double plane_factor; /* likewise of an ellipse */
	/* Who knows better how sure a place is: the fixes behind a correction of the path that is in force
	 * (model/fixes.h). NULL: nobody. Both are set, and owned, by the solution. */
	struct sym3 (*better)(const void *known, int64_t reading, double md_m, const struct uncert *at);
	const void *known;
};

/* The terms of the sheet. A reference of `bore` knows no declination: what the tool read on the staked
 * centreline stands for the design bearing, and its error is the bias of the azimuth. */
void sb_uncertainty_begin(const struct setup *setup, struct uncertainty *u);

/* The row that was appended to the path, or would be: its sums, its doubt, its chance of being outside.
 * Given:    before   the row on the path before it
 * Note:     a row that is not on the path stands where the path ended before. O(1). */
void sb_uncertainty_row(
	const struct setup *setup, const struct uncertainty *u, const struct row *before, struct row *row);

/* Purpose:  the doubt of a place ahead of the sensor, on a held heading.
 * Given:    from       the row that it is carried on from
 *           held       the heading; its errors are those of the row's reading
 *           length_m   how far, >= 0
 *           own_up_m, own_right_m   one sigma of what carrying on adds by itself
 *           deviation  of that place */
struct doubt sb_uncertainty_ahead(const struct setup *setup, const struct uncertainty *u,
	const struct row *from, const struct attitude *held, double length_m, double own_up_m,
	double own_right_m, const struct deviation *deviation);

/* The covariance of the place of a row on the path, and of a place ahead of it on a held heading, m^2. */
struct sym3 sb_uncertainty_place(
	const struct setup *setup, const struct uncertainty *u, const struct row *row);
struct sym3 sb_uncertainty_carried(const struct setup *setup, const struct uncertainty *u,
	const struct row *from, const struct attitude *held, double length_m);

/* The chance that a place is outside the corridor, 0..1. */
double sb_uncertainty_outside(
	const struct setup *setup, const struct deviation *deviation, const struct doubt *doubt);

/* What the contract makes of that chance where it judges on confidence: a breach when it is more than the
 * confidence leaves, a watch from the corridor's `near` share of that. */
struct chance_limit {
	double limit; /* the most that the chance may be, 0..1; 1 when the mean judges */
	double near;  /* from here on it is a watch */
};
struct chance_limit sb_uncertainty_limit(const struct setup *setup);

#endif
