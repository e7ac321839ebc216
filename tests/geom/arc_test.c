/* The edges of a course, and points along it. */
#include "course.h"
#include "random.h"

static double dogleg_of(double i1, double a1, double i2, double a2)
{
	struct attitude from = sb_attitude(i1, a1), to = sb_attitude(i2, a2);
	return sb_arc_dogleg(&from, &to);
}

static void straight_courses_go_exactly_where_they_point(void **state)
{
	(void)state;
	assert_vector_near(course_of(0, 0, 0, 0, 9.6).step, ((struct vec3){ 0, 0, -9.6 }), 0);
	assert_vector_near(course_of(180, 0, 180, 0, 9.6).step, ((struct vec3){ 0, 0, 9.6 }), 0);
	assert_vector_near(course_of(90, 0, 90, 0, 9.6).step, ((struct vec3){ 9.6, 0, 0 }), 0);
	assert_vector_near(course_of(90, 90, 90, 90, 9.6).step, ((struct vec3){ 0, 9.6, 0 }), 0);
	assert_vector_near(course_of(90, 180, 90, 180, 9.6).step, ((struct vec3){ -9.6, 0, 0 }), 0);
	assert_vector_near(course_of(90, 270, 90, 270, 9.6).step, ((struct vec3){ 0, -9.6, 0 }), 0);
	assert_true(course_of(82.3, 41.7, 82.3, 41.7, 9.6).dogleg_rad == 0);
	assert_near(sb_vec3_length(course_of(82.3, 41.7, 82.3, 41.7, 9.6).step), 9.6, 2e-15);
}

static void straight_down_and_up_need_no_azimuth(void **state)
{
	(void)state;
	assert_true(course_of(0, 10, 0, 250, 30).dogleg_rad == 0);
	assert_true(course_of(180, 10, 180, 250, 30).dogleg_rad == 0);
	for (int azimuth = 0; azimuth < 360; azimuth += 15) {
		struct arc down = course_of(0, azimuth, 30, 75, 30),
			   up = course_of(150, 75, 180, azimuth, 30);
		assert_near(down.dogleg_rad, sb_rad(30), 2e-16);
		assert_near(up.dogleg_rad, sb_rad(30), 4e-16);
		assert_vector_near(down.step, course_of(0, 75, 30, 75, 30).step, 1e-14);
		assert_vector_near(up.step, course_of(150, 75, 180, 75, 30).step, 1e-14);
	}
}

/* Derived, no publication: the same survey either side of level is a mirror image of itself. */
static void a_sag_bend_through_level_ends_at_the_height_it_began(void **state)
{
	struct arc arc = course_of(85, 0, 95, 0, 30);

	(void)state;
	assert_near(arc.step.n, 29.961937, 5e-7);
	assert_near(arc.step.u, 0, 2e-15);
	assert_near(arc.length_m / arc.dogleg_rad, 171.887339, 5e-7);
	assert_near(course_of(90, 0, 100, 0, 30).step.u, 30 / sb_rad(10) * (1 - cos(sb_rad(10))), 1e-14);
}

static void north_is_crossed_without_a_jump(void **state)
{
	struct arc arc = course_of(88, 359.5, 88, 0.5, 10), back = course_of(88, 0.5, 88, 359.5, 10);

	(void)state;
	assert_near(sb_deg(arc.dogleg_rad), 0.99939081, 5e-9); /* derived, no publication */
	assert_near(arc.step.n, 9.993781, 5e-7);
	assert_near(arc.step.e, 0, 1e-14);
	assert_near(arc.step.u, -0.349004, 5e-7);
	assert_near(arc.length_m / arc.dogleg_rad, 573.3070, 5e-5);
	assert_near(back.dogleg_rad, arc.dogleg_rad, 1e-16);
	assert_vector_near(back.step, arc.step, 1e-14);
	assert_near(sb_deg(course_of(90, 359.8, 90, 0.2, 10).dogleg_rad), 0.4, 1e-13);
}

static void azimuth_0_and_360_are_one_direction(void **state)
{
	(void)state;
	assert_true(course_of(88, 0, 88, 360, 10).dogleg_rad == 0);
	assert_true(course_of(88, 360, 88, 0, 10).dogleg_rad == 0);
	assert_near(course_of(88, -30, 88, 330, 10).dogleg_rad, 0, 2e-15);
	assert_near(course_of(88, 725, 88, 5, 10).dogleg_rad, 0, 3e-15);
}

/* The angle is the difference itself when only one of the two changes; acos of a cosine gives 0 below
 * 1e-8. The steps are powers of two, so that the difference of the angles is exact. */
static void the_dogleg_of_the_smallest_turns_is_exact(void **state)
{
	(void)state;
	for (int power = -10; power >= -48; power--) {
		double turn = ldexp(1, power);
		assert_near(dogleg_of(1.5, 0.7, 1.5 + turn, 0.7), turn, turn * 4e-16);
		assert_near(
			dogleg_of(1.5, 1.5, 1.5, 1.5 + turn), turn * sin(1.5), turn * (2e-15 + turn * turn));
	}
}

static void the_dogleg_of_nearly_half_a_turn_is_exact(void **state)
{
	(void)state;
	assert_true(sb_deg(dogleg_of(SB_PI / 2, 0, SB_PI / 2, SB_PI)) == 180);
	assert_true(dogleg_of(0, 0, SB_PI, 0) == SB_PI);
	for (int power = -10; power >= -40; power--) {
		double short_of = ldexp(1, power); /* over straight up, the angles add up */
		assert_near(dogleg_of(1, 0, SB_PI - 1 - short_of, SB_PI), SB_PI - short_of, 1e-15);
		assert_near(dogleg_of(1, 0, SB_PI - 1 + short_of, SB_PI), SB_PI - short_of, 1e-15);
	}
}

static void the_dogleg_is_the_angle_between_the_headings(void **state)
{
	struct random r = { 2 };

	(void)state;
	for (int i = 0; i < 5000; i++) {
		struct attitude a = sb_attitude(random_between(&r, 0, SB_PI), random_between(&r, -7, 7));
		struct attitude b = sb_attitude(random_between(&r, 0, SB_PI), random_between(&r, -7, 7));
		double dogleg = sb_arc_dogleg(&a, &b);
		assert_near(dogleg, sb_vec3_angle(a.heading, b.heading), 2e-15);
		assert_true(dogleg == sb_arc_dogleg(&b, &a));
	}
}

static void a_course_of_no_length_moves_nothing_and_still_turns(void **state)
{
	struct arc arc = course_of(88, 10, 92, 30, 0);
	struct vec3 offset, heading;

	(void)state;
	assert_vector_near(arc.step, ((struct vec3){ 0, 0, 0 }), 0);
	assert_true(arc.dogleg_rad > sb_rad(20));
	sb_arc_at(&arc, 0, &offset, &heading);
	assert_vector_near(offset, ((struct vec3){ 0, 0, 0 }), 0);
	assert_vector_near(heading, arc.end, 0);
	sb_arc_at(&arc, 2, &offset, &heading); /* nothing is known of a circle: straight on */
	assert_vector_near(offset, sb_vec3_scale(arc.end, 2), 0);
	assert_vector_near(heading, arc.end, 0);
	sb_arc_at(&arc, -2, &offset, &heading);
	assert_vector_near(offset, sb_vec3_scale(arc.start, -2), 0);
	assert_vector_near(heading, arc.start, 0);
}

static enum arc_status turn_back(double i1, double a1, double i2, double a2, struct arc *arc)
{
	struct attitude from = attitude_of(i1, a1), to = attitude_of(i2, a2);
	return sb_arc_between(&from, &to, SB_PI, arc);
}

static void turning_right_back_goes_through_straight_up_and_says_so(void **state)
{
	struct arc arc;
	struct vec3 heading;

	(void)state;
	assert_int_equal(turn_back(90, 40, 90, 220, &arc), ARC_AMBIGUOUS);
	assert_vector_near(arc.step, ((struct vec3){ 0, 0, 2 }), 1e-15);
	assert_near(arc.dogleg_rad, SB_PI, 0);
	sb_arc_at(&arc, SB_PI / 2, NULL, &heading);
	assert_vector_near(heading, ((struct vec3){ 0, 0, 1 }), 1e-15);
	assert_int_equal(turn_back(60, 0, 120, 180, &arc), ARC_AMBIGUOUS);
	sb_arc_at(&arc, sb_rad(120), NULL, &heading);
	assert_vector_near(heading, ((struct vec3){ 0, 0, 1 }), 1e-15);
	assert_int_equal(turn_back(88, 10, 92, 190, &arc), ARC_AMBIGUOUS);
	assert_near(sb_vec3_length(arc.step), 2, 1e-15);
}

static void turning_from_straight_down_to_straight_up_goes_through_north(void **state)
{
	struct arc arc;

	(void)state;
	assert_int_equal(turn_back(0, 123, 180, 45, &arc), ARC_AMBIGUOUS);
	assert_vector_near(arc.step, ((struct vec3){ 2, 0, 0 }), 1e-15);
	assert_int_equal(turn_back(180, 123, 0, 45, &arc), ARC_AMBIGUOUS);
	assert_vector_near(arc.step, ((struct vec3){ 2, 0, 0 }), 1e-15);
}

/* 1e-10 degrees short of half a turn the plane is still known: to the right, level. */
static void a_hair_short_of_turning_back_the_plane_is_known(void **state)
{
	struct arc arc = course_of(90, 0, 90, 180 - 1e-10, SB_PI);

	(void)state;
	assert_near(arc.step.e, 2, 1e-11);
	assert_near(arc.step.n, 0, 1e-11);
	assert_near(arc.step.u, 0, 0);
	arc = course_of(90, 0, 90, 180 + 1e-10, SB_PI);
	assert_near(arc.step.e, -2, 1e-11);
	/* from a slope, under and over: no part of the sum of the headings may be lost to rounding */
	arc = course_of(60, 0, 120 - 1e-9, 180, SB_PI);
	assert_vector_near(arc.step, ((struct vec3){ -1, 0, -sqrt(3) }), 1e-10);
	arc = course_of(60, 0, 120 + 1e-9, 180, SB_PI);
	assert_vector_near(arc.step, ((struct vec3){ 1, 0, sqrt(3) }), 1e-10);
}

static void what_cannot_be_is_refused_and_nothing_is_touched(void **state)
{
	static const struct {
		double i1, a1, i2, a2, length;
	} table[] = { { -1e-9, 0, 1, 0, 9 }, { 1, 0, -1, 0, 9 }, { SB_PI + 1e-9, 0, 1, 0, 9 },
		{ 1, 0, 4, 0, 9 }, { NAN, 0, 1, 0, 9 }, { 1, 0, NAN, 0, 9 }, { 1, NAN, 1, 0, 9 },
		{ 1, 0, 1, INFINITY, 9 }, { 1, 0, 1, 0, -1e-9 }, { 1, 0, 1, 0, NAN },
		{ 1, 0, 1, 0, INFINITY } };

	(void)state;
	for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
		struct attitude from = sb_attitude(table[i].i1, table[i].a1),
				to = sb_attitude(table[i].i2, table[i].a2);
		struct arc arc = { .length_m = 77, .dogleg_rad = 78, .step = { 1, 2, 3 } };
		assert_int_equal(sb_arc_between(&from, &to, table[i].length, &arc), ARC_RANGE);
		assert_true(arc.length_m == 77 && arc.dogleg_rad == 78 && arc.step.u == 3);
	}
}

/* The chord of an arc of 1 radius-length b is 2 sin(b/2), whatever the formula that gives it: the series
 * below 0.02 rad, the ratio factor, the bisector beyond 90 degrees. */
static void the_formulae_meet_where_they_change(void **state)
{
	static const double at[] = { 1e-9, 0.001, 0.0199999, 0.02, 0.0200001, 0.5, 1.5707, 1.5708, 3,
		3.1415926 };

	(void)state;
	for (size_t i = 0; i < sizeof at / sizeof *at; i++) {
		struct attitude from = sb_attitude(0, 0), to = sb_attitude(at[i], 1);
		struct arc arc;
		assert_int_equal(sb_arc_between(&from, &to, at[i], &arc), ARC_OK);
		assert_near(arc.dogleg_rad, at[i], at[i] * 4e-16);
		assert_near(sb_vec3_length(arc.step) / (2 * sin(at[i] / 2)), 1, 1e-15);
	}
}

/* Derived, no publication. */
static void ratio_factors_are_those_of_the_tangent(void **state)
{
	struct attitude down = sb_attitude(0, 0), a = sb_attitude(0.001, 0), level = attitude_of(90, 0);
	struct arc arc;

	(void)state;
	assert_int_equal(sb_arc_between(&down, &a, 2, &arc), ARC_OK);
	assert_near(arc.step.n / sin(0.001), 1.000000083333342, 5e-16);
	assert_int_equal(sb_arc_between(&down, &level, 2, &arc), ARC_OK);
	assert_near(arc.step.n, 1.273239545, 5e-10);
}

static void both_ends_of_a_course_are_met_to_the_last_bit(void **state)
{
	struct random r = { 3 };

	(void)state;
	for (int i = 0; i < 1000; i++) {
		struct arc arc = course_of(random_between(&r, 0, 180), random_between(&r, 0, 360),
			random_between(&r, 0, 180), random_between(&r, 0, 360), random_between(&r, 1, 40));
		struct vec3 offset, heading;
		sb_arc_at(&arc, arc.length_m, &offset, &heading);
		assert_vector_near(offset, arc.step, 0);
		assert_vector_near(heading, arc.end, 0);
		sb_arc_at(&arc, 0, &offset, &heading);
		assert_vector_near(offset, ((struct vec3){ 0, 0, 0 }), 0);
		assert_vector_near(heading, arc.start, 3e-16);
		/* and are come to without a jump */
		sb_arc_at(&arc, nextafter(arc.length_m, 0), &offset, &heading);
		assert_vector_near(offset, arc.step, 1e-12);
		assert_vector_near(heading, arc.end, 1e-13);
	}
}

/* In a vertical plane the arc is known outright: R (sin, 1 - cos). */
static void a_course_goes_on_along_its_circle_both_ways(void **state)
{
	static const double turns[] = { 1e-13, 1e-9, 1e-5, 0.01, 0.3, 1.5, 1.6, 3.1 };
	static const double shares[] = { -3, -1, -1e-6, 0, 0.25, 0.5, 0.999, 1.001, 2, 7 };

	(void)state;
	for (size_t i = 0; i < sizeof turns / sizeof *turns; i++)
		for (size_t k = 0; k < sizeof shares / sizeof *shares; k++) {
			struct attitude from = sb_attitude(0, 0), to = sb_attitude(turns[i], 0);
			struct arc arc;
			double angle = turns[i] * shares[k], radius = 10 / turns[i], half = angle / 2;
			struct vec3 offset, heading;
			assert_int_equal(sb_arc_between(&from, &to, 10, &arc), ARC_OK);
			sb_arc_at(&arc, 10 * shares[k], &offset, &heading);
			assert_near(offset.n, 2 * radius * sin(half) * sin(half),
				3e-15 * (1 + fabs(shares[k])) * 10);
			assert_near(offset.u, -radius * sin(angle), 3e-15 * (1 + fabs(shares[k])) * 10);
			assert_near(heading.n, sin(angle), 2e-15 * (1 + fabs(shares[k])));
			assert_near(heading.u, -cos(angle), 2e-15 * (1 + fabs(shares[k])));
		}
}

static void a_straight_course_goes_on_straight(void **state)
{
	struct arc arc = course_of(80, 33, 80, 33, 10);
	static const double at[] = { -25, 0, 4, 10, 1000 };

	(void)state;
	for (size_t i = 0; i < sizeof at / sizeof *at; i++) {
		struct vec3 offset, heading;
		sb_arc_at(&arc, at[i], &offset, &heading);
		assert_vector_near(offset, sb_vec3_scale(arc.start, at[i]), fabs(at[i]) * 3e-16);
		assert_vector_near(heading, arc.start, 0);
	}
}

static void either_answer_may_be_left_out(void **state)
{
	struct arc arc = course_of(80, 33, 84, 30, 10);
	struct vec3 both_offset, both_heading, offset, heading;

	(void)state;
	sb_arc_at(&arc, 4, &both_offset, &both_heading);
	sb_arc_at(&arc, 4, &offset, NULL);
	sb_arc_at(&arc, 4, NULL, &heading);
	assert_vector_near(offset, both_offset, 0);
	assert_vector_near(heading, both_heading, 0);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(straight_courses_go_exactly_where_they_point),
		cmocka_unit_test(straight_down_and_up_need_no_azimuth),
		cmocka_unit_test(a_sag_bend_through_level_ends_at_the_height_it_began),
		cmocka_unit_test(north_is_crossed_without_a_jump),
		cmocka_unit_test(azimuth_0_and_360_are_one_direction),
		cmocka_unit_test(the_dogleg_of_the_smallest_turns_is_exact),
		cmocka_unit_test(the_dogleg_of_nearly_half_a_turn_is_exact),
		cmocka_unit_test(the_dogleg_is_the_angle_between_the_headings),
		cmocka_unit_test(a_course_of_no_length_moves_nothing_and_still_turns),
		cmocka_unit_test(turning_right_back_goes_through_straight_up_and_says_so),
		cmocka_unit_test(turning_from_straight_down_to_straight_up_goes_through_north),
		cmocka_unit_test(a_hair_short_of_turning_back_the_plane_is_known),
		cmocka_unit_test(what_cannot_be_is_refused_and_nothing_is_touched),
		cmocka_unit_test(the_formulae_meet_where_they_change),
		cmocka_unit_test(ratio_factors_are_those_of_the_tangent),
		cmocka_unit_test(both_ends_of_a_course_are_met_to_the_last_bit),
		cmocka_unit_test(a_course_goes_on_along_its_circle_both_ways),
		cmocka_unit_test(a_straight_course_goes_on_straight),
		cmocka_unit_test(either_answer_may_be_left_out),
	};

	return run_tests(tests);
}
