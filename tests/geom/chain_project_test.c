/* A point's distance along the line and square off: the edges, and any line against a search. */
#include "line.h"

struct foot {
	double at, offset;
	int doubtful;
};

static struct foot foot_of(const struct line *l, double x, double y, double near)
{
	struct foot f;

	f.doubtful = sb_chain_project(l->parts, l->count, x, y, near, &f.at, &f.offset);
	return f;
}

static void assert_foot(const struct line *l, double x, double y, double near, struct foot want)
{
	struct foot got = foot_of(l, x, y, near);

	assert_near(got.at, want.at, 1e-11);
	assert_near(got.offset, want.offset, 1e-11);
	assert_int_equal(got.doubtful, want.doubtful);
}

static void right_of_a_line_north_is_east_and_positive(void **state)
{
	struct line l = { .pis = { { 10, 20, 0 }, { 110, 20, 0 } }, .pi_count = 2 }; /* x north, y east */

	(void)state;
	line_build(&l);
	assert_foot(&l, 40, 23, 0, (struct foot){ 30, 3, 0 });
	assert_foot(&l, 40, 17, 0, (struct foot){ 30, -3, 0 });
	assert_foot(&l, 40, 20, 0, (struct foot){ 30, 0, 0 });
}

static void before_the_start_and_past_the_end_the_tangent_counts(void **state)
{
	struct line l = { .pis = { { 0, 0, 0 }, { 100, 0, 50 }, { 100, 200, 0 } }, .pi_count = 3 };

	(void)state;
	line_build(&l);
	assert_foot(&l, -30, 4, 0, (struct foot){ -30, 4, 0 });
	assert_foot(&l, 97, 260, 0, (struct foot){ l.length + 60, 3, 0 });
	assert_foot(&l, 0, -4, 0, (struct foot){ 0, -4, 0 });
	assert_foot(&l, 97, 200, 0, (struct foot){ l.length, 3, 0 });
}

static void a_line_that_is_one_curve_has_tangents_too(void **state)
{
	struct line l = { .pis = { { 0, 0, 0 }, { 50, 0, 50 }, { 50, 50, 0 } }, .pi_count = 3 };

	(void)state;
	line_build(&l);
	assert_int_equal(l.count, 1);
	assert_foot(&l, -30, 4, 0, (struct foot){ -30, 4, 0 });
	assert_foot(&l, 54, 80, 0, (struct foot){ l.length + 30, -4, 0 });
	assert_foot(&l, 0, 10, 0, (struct foot){ 0, 10, 0 });
	assert_foot(&l, 40, 50, 0, (struct foot){ l.length, 10, 0 });
}

static void a_point_on_a_joint_of_parts_has_one_foot(void **state)
{
	struct line l = { .pis = { { 0, 0, 0 }, { 100, 0, 50 }, { 300, 200, 90 }, { 500, 200, 0 } },
		.pi_count = 4 };

	(void)state;
	line_build(&l);
	for (size_t i = 0; i < l.count; i++)
		for (double off = -30; off <= 30; off += 7.5)
			for (double hair = -2e-9; hair <= 2e-9; hair += 2.5e-10) {
				double x, y, at = l.parts[i].at + hair;
				line_beside(&l, at, off, &x, &y);
				assert_foot(&l, x, y, 0, (struct foot){ at, off, 0 });
			}
}

/* A right angle at (100, 0), turning to +y. */
static struct line corner(void)
{
	struct line l = { .pis = { { 0, 0, 0 }, { 100, 0, 0 }, { 100, 100, 0 } }, .pi_count = 3 };

	line_build(&l);
	return l;
}

static void outside_a_corner_the_corner_is_nearest(void **state)
{
	struct line l = corner(),
		    mirrored = { .pis = { { 0, 0, 0 }, { 100, 0, 0 }, { 100, -100, 0 } }, .pi_count = 3 };

	(void)state;
	line_build(&mirrored);
	assert_foot(&l, 103, -4, 0, (struct foot){ 100, -5, 0 });
	assert_foot(&l, 104, -3, 0, (struct foot){ 100, -5, 0 });
	assert_foot(&mirrored, 103, 4, 0, (struct foot){ 100, 5, 0 });
	assert_foot(&l, 100, -4, 0, (struct foot){ 100, -4, 0 });
	assert_foot(&l, 104, 0, 0, (struct foot){ 100, -4, 0 });
	assert_foot(&l, 100, 0, 0, (struct foot){ 100, 0, 0 });
}

static void inside_a_corner_the_nearer_leg_counts(void **state)
{
	struct line l = corner();

	(void)state;
	assert_foot(&l, 80, 10, 0, (struct foot){ 80, 10, 0 });
	assert_foot(&l, 90, 20, 0, (struct foot){ 120, 10, 0 });
}

static void of_two_equal_feet_the_one_near_the_last_is_taken(void **state)
{
	struct line l = corner();

	(void)state;
	assert_foot(&l, 80, 20, 75, (struct foot){ 80, 20, 1 });
	assert_foot(&l, 80, 20, 115, (struct foot){ 120, 20, 1 });
	assert_foot(&l, 80, 20 * (1 + 1e-11), 115, (struct foot){ 120 + 2e-10, 20, 1 });
	/* not equal: the nearer one, whatever was near before */
	assert_foot(&l, 80, 20 - 1e-6, 115, (struct foot){ 80, 20 - 1e-6, 0 });
	assert_foot(&l, 80 + 1e-6, 20, 75, (struct foot){ 120, 20 - 1e-6, 0 });
}

/* Out, round half a circle, and back 100 beside. */
static struct line hairpin(void)
{
	struct line l = { .pis = { { 0, 0, 0 }, { 200, 0, 50 }, { 200, 100, 50 }, { 0, 100, 0 } },
		.pi_count = 4 };

	line_build(&l);
	return l;
}

static void half_way_between_two_legs_both_feet_are_kept_apart(void **state)
{
	struct line l = hairpin();

	(void)state;
	assert_near(l.length, 300 + 50 * SB_PI, 1e-11);
	assert_foot(&l, 100, 50, 90, (struct foot){ 100, 50, 1 });
	assert_foot(&l, 100, 50, 300, (struct foot){ l.length - 100, 50, 1 });
	assert_foot(&l, 100, 49, 300, (struct foot){ 100, 49, 0 });
	assert_foot(&l, 100, 51, 90, (struct foot){ l.length - 100, 49, 0 });
}

static void at_the_centre_of_a_curve_the_foot_stays_where_it_was(void **state)
{
	struct line l = hairpin();

	(void)state;
	for (double near = 150; near <= 150 + 50 * SB_PI; near += 10)
		assert_foot(&l, 150, 50, near, (struct foot){ near, 50, 1 });
	assert_foot(&l, 150, 50, 0, (struct foot){ 150, 50, 1 });
	assert_foot(&l, 150, 50, 1e9, (struct foot){ 150 + 50 * SB_PI, 50, 1 });
	assert_int_equal(foot_of(&l, 150, 50 + 1e-6, 200).doubtful, 0);
}

/* A turn too small for a corner leaves a wedge of 90 nanometres at this distance that no part lies square to.
 */
static void outside_a_bend_too_small_for_a_corner_there_is_a_foot(void **state)
{
	struct line l = { .pis = { { 0, 0, 0 }, { 100, 0, 0 }, { 200, 9e-8, 0 } }, .pi_count = 3 };

	(void)state;
	assert_int_equal(sb_chain_build(l.pis, 3, l.parts, &l.count, NULL, NULL), CHAIN_OK);
	struct foot f = foot_of(&l, 100 + 4e-8, -100, 0);
	assert_near(f.at, 100, 1e-7);
	assert_near(f.offset, -100, 1e-11);
	assert_int_equal(f.doubtful, 0);
}

static void on_a_line_that_crosses_itself_the_last_place_decides(void **state)
{
	struct line l = { .pis = { { 0, 0, 0 }, { 200, 0, 20 }, { 200, 100, 20 }, { 100, 100, 20 },
				  { 100, -100, 0 } },
		.pi_count = 5 };

	(void)state;
	line_build(&l);
	struct foot first = foot_of(&l, 100, 0, 90), second = foot_of(&l, 100, 0, l.length);
	assert_near(first.at, 100, 1e-11);
	assert_near(second.at, l.length - 100, 1e-11);
	assert_near(first.offset, 0, 1e-11);
	assert_near(second.offset, 0, 1e-11);
	assert_true(first.doubtful && second.doubtful);
}

static void what_is_not_a_number_has_no_foot(void **state)
{
	struct line l = hairpin();
	struct foot f = foot_of(&l, NAN, 3, 0);

	(void)state;
	assert_true(isnan(f.at) && isnan(f.offset));
}

static void a_built_point_comes_back(void **state)
{
	struct random r = { 31 };

	(void)state;
	for (int i = 0; i < 300; i++) {
		struct line l; /* swings up to 40 degrees, so it never comes near itself */
		line_random(&r, &l, i % 25 ? 2 + (size_t)i % 10 : LINE_PIS, sb_rad(40), 0);
		double tightest = 20;
		for (size_t k = 0; k < l.count; k++)
			if (l.parts[k].curvature != 0)
				tightest = fmin(tightest, 0.9 / fabs(l.parts[k].curvature));
		for (int k = 0; k < 40; k++) {
			double at = random_between(&r, -200, l.length + 200), x, y;
			double off = random_between(&r, -tightest, tightest);
			line_beside(&l, at, off, &x, &y);
			struct foot f = foot_of(&l, x, y, at);
			assert_near(f.at, at, 1e-9);
			assert_near(f.offset, off, 1e-10);
			assert_int_equal(f.doubtful, 0);
		}
	}
}

static double distance_at(const struct line *l, double at, double x, double y)
{
	struct chain_place p = line_at(l, at);
	return hypot(p.x - x, p.y - y);
}

/* The least distance by trying places a unit apart, then narrowing down around the best of them. */
static double searched_distance(const struct line *l, double x, double y, double reach)
{
	double best = HUGE_VAL, at = 0;

	for (double s = -reach; s <= l->length + reach; s += 1) {
		double d = distance_at(l, s, x, y);
		if (d < best) {
			best = d;
			at = s;
		}
	}
	for (double step = 0.5; step > 1e-9; step *= 0.7)
		for (int k = -2; k <= 2; k++)
			if (distance_at(l, at + k * step, x, y) < best) {
				at += k * step;
				best = distance_at(l, at, x, y);
			}
	return best;
}

/* Sharp swings, corners, points anywhere: nothing is nearer, and the foot is square below the point. */
static void no_place_is_nearer_than_the_foot(void **state)
{
	struct random r = { 32 };

	(void)state;
	for (int i = 0; i < 60; i++) {
		struct line l;
		line_random(&r, &l, 3 + (size_t)i % 8, 1.5, i % 2);
		for (int k = 0; k < 12; k++) {
			double x, y;
			line_beside(&l, random_between(&r, -100, l.length + 100),
				random_between(&r, -300, 300), &x, &y);
			struct foot f = foot_of(&l, x, y, 0);
			double searched = searched_distance(&l, x, y, 500);
			assert_true(fabs(f.offset) <= searched + 1e-9);
			assert_near(distance_at(&l, f.at, x, y), fabs(f.offset), 1e-8);
			if (searched < 390)
				assert_near(fabs(f.offset), searched, 1e-6);
		}
	}
}

static void far_from_the_line_there_is_still_a_foot(void **state)
{
	struct random r = { 33 };

	(void)state;
	for (int i = 0; i < 200; i++) {
		struct line l;
		line_random(&r, &l, 12, 1.2, i % 2);
		for (int k = 0; k < 20; k++) {
			double angle = random_between(&r, 0, 2 * SB_PI);
			double far = pow(10, random_between(&r, 3, 7));
			double x = far * cos(angle), y = far * sin(angle);
			struct foot f = foot_of(&l, x, y, 0);
			assert_true(isfinite(f.at) && isfinite(f.offset));
			assert_near(distance_at(&l, f.at, x, y) / fabs(f.offset), 1, 1e-9);
		}
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(right_of_a_line_north_is_east_and_positive),
		cmocka_unit_test(before_the_start_and_past_the_end_the_tangent_counts),
		cmocka_unit_test(a_line_that_is_one_curve_has_tangents_too),
		cmocka_unit_test(a_point_on_a_joint_of_parts_has_one_foot),
		cmocka_unit_test(outside_a_corner_the_corner_is_nearest),
		cmocka_unit_test(inside_a_corner_the_nearer_leg_counts),
		cmocka_unit_test(of_two_equal_feet_the_one_near_the_last_is_taken),
		cmocka_unit_test(half_way_between_two_legs_both_feet_are_kept_apart),
		cmocka_unit_test(at_the_centre_of_a_curve_the_foot_stays_where_it_was),
		cmocka_unit_test(outside_a_bend_too_small_for_a_corner_there_is_a_foot),
		cmocka_unit_test(on_a_line_that_crosses_itself_the_last_place_decides),
		cmocka_unit_test(what_is_not_a_number_has_no_foot),
		cmocka_unit_test(a_built_point_comes_back),
		cmocka_unit_test(no_place_is_nearer_than_the_foot),
		cmocka_unit_test(far_from_the_line_there_is_still_a_foot),
	};

	return run_tests(tests);
}
