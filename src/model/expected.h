/* What the next reading should be, by what was drilled since the last one and what the ground gives, and how
 * far a reading is from that. Private to the model.
 */
#ifndef SB_MODEL_EXPECTED_H
#define SB_MODEL_EXPECTED_H

#include "model/solve.h"

struct expected {
	struct attitude from;	  /* the reading that the course starts from */
	struct forecast forecast; /* of a reading typed as finely as this one */
	struct drilled drilled;
	double length_m; /* of the course */
	bool azimuth;	 /* there is one to judge: not held */
	int freedom;	 /* how many surprises the sigmas rest on */
};

/* Purpose:  the reading that is to be expected where the trial was taken.
 * Given:    setup      in whose frame the trial is read
 *           survey_m   depth of the sensor with the trial's joint drilled
 * Returned: false when nothing is expected: no attitude to start from, the sensor still behind the entry or
 *           where it has read before, or slides that were not written down. */
bool sb_expected_of(const struct setup *setup, const struct solution *s, const struct reading *trial,
	double survey_m, struct expected *out);

/* The same for other explanations of the reading: the string did not move on since the last one; another
 * joint was drilled that is not in the log; what the joints left blank was slid, any way. */
struct forecast sb_expected_again(const struct setup *setup, const struct solution *s,
	const struct expected *e, const struct reading *trial);
struct forecast sb_expected_further(const struct setup *setup, const struct solution *s,
	const struct expected *e, const struct reading *trial, double joint_m);
struct forecast sb_expected_slid(const struct setup *setup, const struct solution *s,
	const struct expected *e, const struct reading *trial);

/* The last digit of an angle as it was typed, rad (of a degree; 82.0: a tenth). */
double sb_expected_step(const struct number *typed);

/* How far an attitude is from a forecast: up and right, and the sum of squares of both by their sigmas. */
struct surprise {
	double up_rad, right_rad, square;
};
struct surprise sb_expected_surprise(
	const struct expected *e, const struct forecast *f, const struct attitude *a);

/* How likely noise and ground are to make a reading at least so surprising, 0..1. */
double sb_expected_chance(const struct expected *e, double square);

/* The density of readings at a surprise, per rad^2 (per rad where the azimuth is held). widen: as if all
 * sigmas were so many times as large. */
double sb_expected_density(const struct expected *e, const struct forecast *f, double square, double widen);

#endif
