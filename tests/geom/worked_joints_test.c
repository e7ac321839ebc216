/* Five joints of a bore worked by hand: station, elevation, offset, and the radius of each joint and of
 * each three. Derived, no publication; line azimuth 90, entry at elevation 100, lengths in feet. */
#include "course.h"

#include "geom/bend.h"
#include "geom/chain.h"

struct joint {
	double md, inc, azi;
	double station, elevation, offset;
	double radius, ends, sum; /* 0: not given */
};

static const struct joint joints[] = {
	{ 0.00, 80.0, 90.0, 0.000, 100.000, 0.000, 0, 0, 0 },
	{ 31.20, 80.0, 90.0, 30.726, 94.582, 0.000, HUGE_VAL, 0, 0 },
	{ 62.55, 80.6, 90.3, 61.628, 89.300, 0.081, 2685, 0, 0 },
	{ 93.70, 81.4, 90.4, 92.393, 84.427, 0.269, 2214, 3691, 3640 },
	{ 125.05, 82.1, 90.2, 123.418, 79.929, 0.431, 2469, 2549, 2441 },
	{ 156.30, 82.9, 89.8, 154.400, 75.850, 0.431, 2005, 2283, 2214 },
};

enum { JOINTS = sizeof joints / sizeof *joints };

static struct attitude read_at(size_t i)
{
	return attitude_of(joints[i].inc, joints[i].azi);
}

static void five_joints_come_to_their_stations(void **state)
{
	const struct chain_pi pis[] = { { 1000, 5000, 0 }, { 1000, 6000, 0 } };
	struct chain_part line[3];
	size_t made;
	struct vec3 at = { 1000, 5000, 100 };

	(void)state;
	assert_int_equal(sb_chain_build(pis, 2, line, &made, NULL, NULL), CHAIN_OK);
	for (size_t i = 1; i < JOINTS; i++) {
		const struct joint *a = &joints[i - 1], *b = &joints[i];
		double station, offset;
		at = sb_vec3_add(at, course_of(a->inc, a->azi, b->inc, b->azi, b->md - a->md).step);
		assert_int_equal(sb_chain_project(line, made, at.n, at.e, a->station, &station, &offset), 0);
		assert_near(station, b->station, 5e-4);
		assert_near(offset, b->offset, 5e-4);
		assert_near(at.u, b->elevation, 5e-4);
	}
}

static void five_joints_bend_as_worked(void **state)
{
	(void)state;
	for (size_t i = 1; i < JOINTS; i++) {
		struct attitude from = read_at(i - 1), to = read_at(i);
		assert_near(sb_bend_radius(joints[i].md - joints[i - 1].md, sb_arc_dogleg(&from, &to)),
			joints[i].radius, 0.5);
	}
}

static void three_joints_bend_as_worked_by_both_methods(void **state)
{
	(void)state;
	for (size_t i = 3; i < JOINTS; i++) {
		double length = joints[i].md - joints[i - 3].md, sum = 0;
		for (size_t k = i - 2; k <= i; k++) {
			struct attitude from = read_at(k - 1), to = read_at(k);
			sum += sb_arc_dogleg(&from, &to);
		}
		struct attitude first = read_at(i - 3), last = read_at(i);
		assert_near(sb_bend_radius(length, sb_arc_dogleg(&first, &last)), joints[i].ends, 0.5);
		assert_near(sb_bend_radius(length, sum), joints[i].sum, 0.5);
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(five_joints_come_to_their_stations),
		cmocka_unit_test(five_joints_bend_as_worked),
		cmocka_unit_test(three_joints_bend_as_worked_by_both_methods),
	};

	return run_tests(tests);
}
