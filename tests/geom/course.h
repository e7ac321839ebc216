/* Courses in degrees, and vectors compared. */
#ifndef TESTS_GEOM_COURSE_H
#define TESTS_GEOM_COURSE_H

#include "geom/angle.h"
#include "geom/arc.h"

#include "support/near.h"

static inline struct attitude attitude_of(double inc_deg, double azi_deg)
{
	return sb_attitude(sb_rad(inc_deg), sb_rad(azi_deg));
}

/* A course whose angles are in range and which does not turn right back. */
static inline struct arc course_of(double i1, double a1, double i2, double a2, double length)
{
	struct attitude from = attitude_of(i1, a1), to = attitude_of(i2, a2);
	struct arc arc = { 0 };

	assert_int_equal(sb_arc_between(&from, &to, length, &arc), ARC_OK);
	return arc;
}

#define assert_vector_near(got, want, tolerance) \
	vector_near_check((got), (want), (tolerance), #got, __FILE__, __LINE__)

static inline void vector_near_check(
	struct vec3 got, struct vec3 want, double tolerance, const char *what, const char *file, int line)
{
	near_check(got.n, want.n, tolerance, what, file, line);
	near_check(got.e, want.e, tolerance, what, file, line);
	near_check(got.u, want.u, tolerance, what, file, line);
}

#endif
