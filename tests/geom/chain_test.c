/* Laying out a line and walking it. */
#include "line.h"

static enum chain_status build(const struct chain_pi *pis, size_t count, size_t *where, double *by)
{
	struct chain_part parts[32], untouched[32];
	size_t made = 777;

	for (size_t i = 0; i < 32; i++)
		parts[i] = untouched[i] = (struct chain_part){ .at = 77 };
	*where = 999;
	*by = 999;
	enum chain_status status = sb_chain_build(pis, count, parts, &made, where, by);
	if (status < 0) {
		assert_int_equal(made, 777);
		assert_memory_equal(parts, untouched, sizeof parts);
	}
	/* where and by may be left out */
	assert_int_equal(sb_chain_build(pis, count, parts, &made, NULL, NULL), status);
	return status;
}

static void a_straight_line_is_one_part(void **state)
{
	struct line l = { .pis = { { 3, 4, 99 }, { 33, 44, 99 } }, .pi_count = 2 };

	(void)state;
	line_build(&l);
	assert_int_equal(l.count, 1);
	assert_near(l.length, 50, 1e-14);
	assert_true(l.parts[0].curvature == 0);
	assert_near(l.parts[0].bearing, atan2(4, 3), 0);
	assert_near(line_at(&l, 25).x, 18, 1e-14);
	assert_near(line_at(&l, 25).y, 24, 1e-14);
}

static void a_curve_begins_and_ends_a_tangent_from_its_point(void **state)
{
	struct line l = { .pis = { { 0, 0, 0 }, { 100, 0, 50 }, { 100, 200, 0 } }, .pi_count = 3 };

	(void)state;
	line_build(&l);
	assert_int_equal(l.count, 3);
	assert_near(l.parts[1].at, 50, 1e-13);
	assert_near(l.parts[1].length, 50 * SB_PI / 2, 1e-13);
	assert_near(l.parts[1].curvature, 1 / 50.0, 1e-16);
	assert_near(l.parts[2].x, 100, 1e-13);
	assert_near(l.parts[2].y, 50, 1e-13);
	assert_near(l.parts[2].bearing, SB_PI / 2, 0);
	assert_near(l.length, 50 + 25 * SB_PI + 150, 1e-12);
}

static void a_curve_the_other_way_has_negative_curvature(void **state)
{
	struct line l = { .pis = { { 0, 0, 0 }, { 100, 0, 50 }, { 100, -200, 0 } }, .pi_count = 3 };

	(void)state;
	line_build(&l);
	assert_near(l.parts[1].curvature, -1 / 50.0, 1e-16);
	assert_near(line_at(&l, 50 + 25 * SB_PI / 2).y, -50 * (1 - sqrt(0.5)), 1e-13);
}

static void fewer_than_two_points_are_no_line(void **state)
{
	const struct chain_pi one[] = { { 1, 2, 0 } };
	size_t where;
	double by;

	(void)state;
	assert_int_equal(build(one, 0, &where, &by), CHAIN_FEW);
	assert_int_equal(build(one, 1, &where, &by), CHAIN_FEW);
}

static void a_point_given_twice_is_found(void **state)
{
	const struct chain_pi pis[] = { { 0, 0, 0 }, { 9, 0, 0 }, { 20, 3, 4 }, { 20, 3, 4 }, { 30, 0, 0 } };
	size_t where;
	double by;

	(void)state;
	assert_int_equal(build(pis, 5, &where, &by), CHAIN_SAME);
	assert_int_equal(where, 2);
}

static void numbers_that_cannot_be_are_found(void **state)
{
	static const struct chain_pi bad[] = { { NAN, 0, 0 }, { 0, INFINITY, 0 }, { 50, 50, NAN },
		{ 50, 50, -1e-9 }, { 50, 50, INFINITY }, { 1.7e308, -1.7e308, 0 } };

	(void)state;
	for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
		struct chain_pi pis[] = { { 0, 0, 0 }, { 40, 0, 0 }, bad[i], { -1.7e308, 100, 0 } };
		size_t where;
		double by;
		assert_int_equal(build(pis, 4, &where, &by), CHAIN_RANGE);
		assert_int_equal(where, 2);
	}
}

static void the_radius_of_the_ends_is_ignored(void **state)
{
	const struct chain_pi pis[] = { { 0, 0, NAN }, { 40, 0, 10 }, { 80, 30, -5 } };
	size_t where;
	double by;

	(void)state;
	assert_int_equal(build(pis, 3, &where, &by), CHAIN_OK);
}

static void a_line_that_turns_right_back_is_found(void **state)
{
	const struct chain_pi pis[] = { { 0, 0, 0 }, { 40, 30, 0 }, { 100, 75, 10 }, { 20, 15, 0 } };
	size_t where;
	double by;

	(void)state;
	assert_int_equal(build(pis, 4, &where, &by), CHAIN_REVERSED);
	assert_int_equal(where, 2);
}

static void the_sharpest_corner_is_named(void **state)
{
	const struct chain_pi pis[] = { { 0, 0, 0 }, { 100, 0, 0 }, { 200, 10, 0 }, { 300, 110, 0 },
		{ 400, 200, 20 }, { 500, 200, 0 } };
	size_t where;
	double by;

	(void)state;
	assert_int_equal(build(pis, 6, &where, &by), CHAIN_BREAKS);
	assert_int_equal(where, 2);
	assert_near(by, sb_rad(45) - atan(0.1), 1e-15);
}

static void a_point_on_a_straight_is_no_corner(void **state)
{
	struct line l = { .pis = { { 0, 0, 0 }, { 10, 7, 0 }, { 30, 21, 500 }, { 100, 70, 0 } },
		.pi_count = 4 };
	size_t where;
	double by;

	(void)state;
	assert_int_equal(build(l.pis, 4, &where, &by), CHAIN_OK);
	line_build(&l);
	assert_int_equal(l.count, 3); /* and a radius there makes no curve */
	assert_near(l.length, hypot(100, 70), 1e-12);
}

/* A right angle needs its radius for a tangent. */
static void a_curve_that_does_not_fit_is_named_with_what_is_missing(void **state)
{
	struct chain_pi pis[] = { { 0, 0, 0 }, { 100, 0, 60 }, { 100, 100, 45 }, { 300, 100, 0 } };
	size_t where;
	double by;

	(void)state;
	assert_int_equal(build(pis, 4, &where, &by), CHAIN_OVERLAP); /* before the next point */
	assert_int_equal(where, 1);
	assert_near(by, 5, 1e-12);
	pis[1].radius = 101; /* after the start */
	pis[2].radius = 0;
	assert_int_equal(build(pis, 4, &where, &by), CHAIN_OVERLAP);
	assert_int_equal(where, 1);
	assert_near(by, 1, 1e-12);
	pis[1].radius = 20; /* before the end */
	pis[2].radius = 80;
	pis[3].x = 170;
	assert_int_equal(build(pis, 4, &where, &by), CHAIN_OVERLAP);
	assert_int_equal(where, 2);
	assert_near(by, 10, 1e-12);
	pis[1].radius = 0; /* after a corner */
	pis[2].radius = 103;
	pis[3].x = 300;
	assert_int_equal(build(pis, 4, &where, &by), CHAIN_OVERLAP);
	assert_int_equal(where, 2);
	assert_near(by, 3, 1e-12);
}

static void assert_joined(const struct line *l, double tolerance)
{
	for (size_t i = 0; i + 1 < l->count; i++) {
		const struct chain_part *p = &l->parts[i], *next = &l->parts[i + 1];
		struct chain_part alone = *p;
		struct chain_place end = sb_chain_at(&alone, 1, p->at + p->length);
		assert_near(next->at, p->at + p->length, 0);
		assert_near(end.x, next->x, tolerance);
		assert_near(end.y, next->y, tolerance);
		assert_near(cos(next->bearing), next->cos_bearing, 4e-16);
		assert_near(sin(next->bearing), next->sin_bearing, 4e-16);
		assert_true(p->length > 0);
	}
}

static void curves_that_abut_have_no_straight_between(void **state)
{
	struct line l = { .pis = { { 0, 0, 0 }, { 100, 0, 60 }, { 100, 100, 40 }, { 300, 100, 0 } },
		.pi_count = 4 };

	(void)state;
	line_build(&l);
	assert_int_equal(l.count, 4);
	assert_true(l.parts[1].curvature > 0 && l.parts[2].curvature < 0);
	assert_joined(&l, 1e-12);
}

static void curves_that_fill_all_their_legs_leave_curves_alone(void **state)
{
	struct line l = { .pis = { { 0, 0, 0 }, { 60, 0, 60 }, { 60, 100, 40 }, { 100, 100, 0 } },
		.pi_count = 4 };

	(void)state;
	line_build(&l);
	assert_int_equal(l.count, 2);
	assert_joined(&l, 1e-12);
	assert_near(l.length, 50 * SB_PI, 1e-12);
	assert_near(line_at(&l, l.length).x, 100, 1e-12);
	assert_near(line_at(&l, l.length).y, 100, 1e-12);
}

static void curves_that_overlap_by_a_hair_abut(void **state)
{
	struct chain_pi pis[] = { { 0, 0, 0 }, { 100, 0, 60 }, { 100, 100 - 9e-5, 40 },
		{ 300, 100 - 9e-5, 0 } };
	struct line l = { .pi_count = 4 };
	size_t where;
	double by;

	(void)state;
	for (size_t i = 0; i < 4; i++)
		l.pis[i] = pis[i];
	line_build(&l);
	assert_joined(&l, 1e-12);
	assert_near(1 / l.parts[1].curvature, 60, 1e-4);
	assert_near(line_at(&l, l.length).x, 300, 1e-12);
	assert_near(line_at(&l, l.length).y, 100 - 9e-5, 1e-12);
	pis[2].y = pis[3].y = 100 - 1.1e-4; /* more than a millionth of 100 */
	assert_int_equal(build(pis, 4, &where, &by), CHAIN_OVERLAP);
	assert_near(by, 1.1e-4, 1e-12);
}

static void any_line_runs_from_its_first_point_to_its_last_without_a_gap(void **state)
{
	struct random r = { 21 };

	(void)state;
	for (int i = 0; i < 500; i++) {
		struct line l;
		line_random(&r, &l, 2 + (size_t)i % 12, 1.4, i % 3 == 0);
		assert_joined(&l, 1e-11);
		assert_near(line_at(&l, 0).x, l.pis[0].x, 1e-12);
		assert_near(line_at(&l, 0).y, l.pis[0].y, 1e-12);
		assert_near(line_at(&l, l.length).x, l.pis[l.pi_count - 1].x, 1e-11);
		assert_near(line_at(&l, l.length).y, l.pis[l.pi_count - 1].y, 1e-11);
	}
}

/* A place against the integral of the bearing, by Simpson's rule over each part. */
static void a_place_is_the_integral_of_the_bearing(void **state)
{
	struct random r = { 22 };

	(void)state;
	for (int i = 0; i < 60; i++) {
		struct line l;
		double x, y;
		line_random(&r, &l, 8, 1.4, 0);
		x = l.pis[0].x;
		y = l.pis[0].y;
		for (size_t k = 0; k < l.count; k++) {
			const struct chain_part *p = &l.parts[k];
			enum { STEPS = 400 };
			for (int j = 0; j <= STEPS; j++) {
				double b = p->bearing + p->curvature * p->length * j / STEPS;
				double weight = j == 0 || j == STEPS ? 1 : j % 2 ? 4 : 2;
				x += cos(b) * weight * p->length / STEPS / 3;
				y += sin(b) * weight * p->length / STEPS / 3;
			}
			struct chain_place end = line_at(&l, p->at + p->length);
			assert_near(end.x, x, 1e-8);
			assert_near(end.y, y, 1e-8);
			assert_near(end.cos_bearing, cos(end.bearing), 1e-15);
			assert_near(end.sin_bearing, sin(end.bearing), 1e-15);
		}
	}
}

static void beyond_the_ends_the_line_goes_on_straight(void **state)
{
	struct line l = { .pis = { { 0, 0, 0 }, { 50, 0, 50 }, { 50, 50, 0 } }, .pi_count = 3 };

	(void)state;
	line_build(&l); /* one curve and nothing else */
	assert_int_equal(l.count, 1);
	struct chain_place before = line_at(&l, -7), past = line_at(&l, l.length + 7);
	assert_near(before.x, -7, 1e-14);
	assert_near(before.y, 0, 0);
	assert_true(before.bearing == 0 && before.curvature == 0);
	assert_near(past.x, 50, 1e-13);
	assert_near(past.y, 57, 1e-13);
	assert_near(past.bearing, SB_PI / 2, 1e-15);
	assert_true(past.curvature == 0);
}

static void where_parts_meet_the_curvature_is_that_of_the_next(void **state)
{
	struct line l = { .pis = { { 0, 0, 0 }, { 100, 0, 50 }, { 100, 200, 0 } }, .pi_count = 3 };

	(void)state;
	line_build(&l);
	assert_true(line_at(&l, 0).curvature == 0);
	assert_true(line_at(&l, l.parts[1].at).curvature > 0);
	assert_true(line_at(&l, l.parts[2].at).curvature == 0);
	assert_true(line_at(&l, nextafter(l.parts[2].at, 0)).curvature > 0);
}

static void bearings_stay_within_half_a_turn_either_side(void **state)
{
	struct line l = { .pis = { { 0, 0, 0 }, { -100, -1, 50 }, { -200, 20, 0 } }, .pi_count = 3 };

	(void)state;
	line_build(&l);
	for (double at = -20; at < l.length + 20; at += 0.5) {
		double bearing = line_at(&l, at).bearing;
		assert_true(bearing > -SB_PI && bearing <= SB_PI);
		assert_true(fabs(bearing) > 2.9);
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_straight_line_is_one_part),
		cmocka_unit_test(a_curve_begins_and_ends_a_tangent_from_its_point),
		cmocka_unit_test(a_curve_the_other_way_has_negative_curvature),
		cmocka_unit_test(fewer_than_two_points_are_no_line),
		cmocka_unit_test(a_point_given_twice_is_found),
		cmocka_unit_test(numbers_that_cannot_be_are_found),
		cmocka_unit_test(the_radius_of_the_ends_is_ignored),
		cmocka_unit_test(a_line_that_turns_right_back_is_found),
		cmocka_unit_test(the_sharpest_corner_is_named),
		cmocka_unit_test(a_point_on_a_straight_is_no_corner),
		cmocka_unit_test(a_curve_that_does_not_fit_is_named_with_what_is_missing),
		cmocka_unit_test(curves_that_abut_have_no_straight_between),
		cmocka_unit_test(curves_that_fill_all_their_legs_leave_curves_alone),
		cmocka_unit_test(curves_that_overlap_by_a_hair_abut),
		cmocka_unit_test(any_line_runs_from_its_first_point_to_its_last_without_a_gap),
		cmocka_unit_test(a_place_is_the_integral_of_the_bearing),
		cmocka_unit_test(beyond_the_ends_the_line_goes_on_straight),
		cmocka_unit_test(where_parts_meet_the_curvature_is_that_of_the_next),
		cmocka_unit_test(bearings_stay_within_half_a_turn_either_side),
	};

	return run_tests(tests);
}
