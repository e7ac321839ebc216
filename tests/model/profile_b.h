/* The crossing of which the pull was worked out by hand: feet, due east, entry at 500 falling 10 degrees,
 * exit at station 2400 and 496 rising 8, radius 2400 both, bottom 440. 24 x 0.500 in of X52 in 12 lb/gal.
 * Derived, no publication.
 */
#ifndef TESTS_MODEL_PROFILE_B_H
#define TESTS_MODEL_PROFILE_B_H

#include "geom/angle.h"
#include "support/jobs.h"

#include <math.h>
#include <stdio.h>

static inline void profile_b_point(struct job *job, double station, double elevation, const char *radius)
{
	char x[32], y[32];

	snprintf(x, sizeof x, "%.9f", station);
	snprintf(y, sizeof y, "%.9f", elevation);
	jobs_row(job, "profile", (const char *const[]){ x, y, radius });
}

static inline void profile_b(struct job *job)
{
	jobs_plain(job);
	job->profile_count = 0;
	jobs_set(job, "control", "entry", "5000, 1000, 500");
	jobs_set(job, "control", "exit", "7400, 1000, 496");
	jobs_set(job, "entry", "inclination", "80");
	profile_b_point(job, 0, 500, "0");
	profile_b_point(job, 60 / tan(10 * SB_PI / 180), 440, "2400");
	profile_b_point(job, 2400 - 56 / tan(8 * SB_PI / 180), 440, "2400");
	profile_b_point(job, 2400, 496, "0");
}

#endif
