/* Readings taken again, held against the path where they were taken: they say what the noise of one reading
 * is worth, and whether something disturbs the azimuth. They never move the path.
 */
#ifndef SB_MODEL_REPEATS_H
#define SB_MODEL_REPEATS_H

#include "base/str.h"
#include "model/solve.h"

struct repeat_difference {
	double inc_rad, azi_rad; /* repeat minus path at its depth; azi_rad NAN when there is no azimuth */
	double inc_sigma_rad, azi_sigma_rad; /* of the differences, from the noise of two readings */
	bool agrees;			     /* both within 3 sigma */
	bool stands; /* false: the hole there was given up since, and drilled again; nothing to compare */
	int joint;   /* in which it lies */
};

/* r: of the job, or a trial (fact.act 0) read as the next joint would be. */
struct repeat_difference sb_repeat_compare(
	const struct job *job, const struct solution *s, const struct repeat *r);

/* "Joint 12, sensor at 310.00 ft, read again. Against the path there: inclination 0.10 deg more, azimuth
 * 0.40 deg less. The noise of two readings explains that; ..." */
void sb_repeat_words(
	const struct job *job, const struct solution *s, const struct repeat *r, struct sb_str *words);

/* One sigma of a single reading, from the scatter of repeats and path at each place, radians; count: how many
 * independent differences that rests on. NAN for fewer than two. What was taken again at one place shares the
 * place's own errors: this is noise alone. */
struct repeat_noise {
	double inc_rad, azi_rad;
	int inc_count, azi_count;
};
struct repeat_noise sb_repeat_noise(const struct job *job, const struct solution *s);

/* What that noise says of the sheet's sigmas: nothing where three differences or fewer stand against a sigma,
 * or where chance explains it: of all honest tools one in 200 scatters so much, one in 200 so little.
 * Returned: whether something was said. */
bool sb_repeat_noise_words(const struct job *job, const struct solution *s, struct sb_str *words);

#endif
