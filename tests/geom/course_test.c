/* The course through slides and rotations: against closed forms in a plane, against fine numerical
 * integration of the equations in space, and what must hold for every course. No figure here is published;
 * all are derived beside the test. */
#include "geom/angle.h"
#include "geom/course.h"
#include "random.h"
#include "support/near.h"

#include <string.h>

static const double joint = 9.6; /* metres */

static struct attitude degrees(double inc, double azi)
{
	return sb_attitude(sb_rad(inc), sb_rad(azi));
}

/* A level hole due north that a slide turns by b, towards (up, right): where it ends. */
static struct attitude turned(double b, double up, double right)
{
	return sb_attitude(SB_PI / 2 + b * up, b * right);
}

/* A slide of `slid` that begins at `from`, on a joint that is else rotated straight. */
static struct course slide(double from, double slid, double b, double up, double right)
{
	struct attitude start = degrees(90, 0), end = turned(b, up, right);
	const struct course_stretch s[] = { { from, 0, 0 }, { slid, b / slid * up, b / slid * right },
		{ joint - from - slid, 0, 0 } };
	struct course c;

	assert_int_equal(sb_course_between(&start, &end, joint, s, 3, &c), COURSE_OK);
	return c;
}

/* ---- in a plane ---- */

/* An arc of length l and turn b, then straight for the rest, against the arc of the whole length:
 *   ahead  (l/b) sin b + (L - l) cos b - (L/b) sin b,  up  (l/b)(1 - cos b) + (L - l) sin b - (L/b)(1 - cos
 * b) */
static void a_slide_at_the_start_shifts_as_two_pieces_of_a_plane_curve_do(void **state)
{
	(void)state;
	for (double b = 0.001; b < 0.2; b *= 3)
		for (double l = 1; l < joint; l += 2.5) {
			struct vec3 shift = slide(0, l, b, 1, 0).shift;
			double ahead = (l - joint) / b * sin(b) + (joint - l) * cos(b);
			double up = (l - joint) / b * (1 - cos(b)) + (joint - l) * sin(b);
			assert_near(shift.n, ahead, 1e-12);
			assert_near(shift.u, up, 1e-12);
			assert_near(shift.e, 0, 1e-15);
			/* b (L - l) / 2, and what is left over is of the third order in b */
			assert_near(shift.u, b * (joint - l) / 2, joint * b * b * b / 4);
		}
}

static void a_slide_of_a_tenth_of_a_radian_in_the_first_third_shifts_by_a_third_of_a_metre(void **state)
{
	(void)state;
	assert_near(slide(0, 3.2, 0.1, 1, 0).shift.u, 0.32, 0.001);
}

static void a_slide_in_the_middle_shifts_nothing_sideways(void **state)
{
	(void)state;
	for (double l = 1; l < joint; l += 2) {
		struct vec3 shift = slide((joint - l) / 2, l, 0.05, 1, 0).shift;
		/* square to the chord of a symmetric course; along it the corner is longer by b^2 L / 24 or
		 * less */
		assert_near(shift.u * cos(0.025) - shift.n * sin(0.025), 0, 1e-13);
		assert_true(fabs(shift.n) < 0.05 * 0.05 * joint / 12);
	}
}

static void a_slide_at_the_end_shifts_as_much_the_other_way(void **state)
{
	(void)state;
	struct vec3 early = slide(0, 4, 0.03, 0, 1).shift, late = slide(joint - 4, 4, 0.03, 0, 1).shift;

	/* the late course is the early one drilled backwards: to the second order in the turn */
	assert_near(late.e, -early.e, 2e-6 * joint);
	assert_true(early.e > 0.08);
}

static void the_shift_is_mirrored_with_the_tool_face(void **state)
{
	(void)state;
	struct vec3 right = slide(0, 5, 0.04, 0.6, 0.8).shift, left = slide(0, 5, 0.04, 0.6, -0.8).shift;

	assert_near(left.n, right.n, 1e-15);
	assert_near(left.e, -right.e, 1e-15);
	assert_near(left.u, right.u, 1e-15);
}

/* ---- what the readings say besides ---- */

static void what_was_expected_wrongly_is_made_up_evenly(void **state)
{
	(void)state;
	struct attitude start = degrees(90, 0), end = turned(0.03, 1, 0);
	const struct course_stretch s[] = { { 4, 0.01, 0 }, { joint - 4, 0, 0 } };
	struct course c;

	assert_int_equal(sb_course_between(&start, &end, joint, s, 2, &c), COURSE_OK);
	/* 0.04 was expected and 0.03 came: 0.01 less over the length */
	assert_near(c.up, -0.01 / joint, 1e-15);
	assert_near(c.right, 0, 1e-15);
	/* curvature k1 over 4 m, k2 over the rest: two arcs in a plane */
	double k1 = 0.01 - 0.01 / joint, k2 = -0.01 / joint, b = 4 * k1;
	assert_near(c.step.n, sin(b) / k1 + (sin(0.03) - sin(b)) / k2, 1e-12);
	assert_near(c.step.u, (1 - cos(b)) / k1 + (cos(b) - cos(0.03)) / k2, 1e-12);
}

static void a_slide_that_did_not_turn_the_hole_still_bends_it_early_and_back(void **state)
{
	(void)state;
	struct attitude level = degrees(90, 0);
	const struct course_stretch s[] = { { 4, 0, 0.01 }, { joint - 4, 0, 0 } };
	struct course c;

	assert_int_equal(sb_course_between(&level, &level, joint, s, 2, &c), COURSE_OK);
	/* integral of (L/2 - s) k over the slide: k l (L - l) / 2 */
	assert_near(c.shift.e, 0.01 * 4 * (joint - 4) / 2, 1e-4);
}

static void with_nothing_known_it_is_the_arc_to_the_last_bit(void **state)
{
	(void)state;
	struct random r = { 7 };
	const struct course_stretch s[] = { { 3, 0.01, 0.002 }, { 6, 0.01, 0.002 } };

	for (int i = 0; i < 1000; i++) {
		double inc = random_between(&r, 1, 179), azi = random_between(&r, 0, 360);
		struct attitude a = degrees(inc, azi), b = degrees(inc + random_between(&r, -1, 1), azi + 2);
		struct course c;
		struct arc arc;
		sb_arc_between(&a, &b, 9, &arc);
		assert_int_equal(sb_course_between(&a, &b, 9, s, (size_t)i % 3, &c), COURSE_EVEN);
		assert_memory_equal(&c.step, &arc.step, sizeof arc.step);
		assert_true(c.shift.n == 0 && c.shift.e == 0 && c.shift.u == 0);
	}
}

/* ---- in space ---- */

struct state {
	struct vec3 at, ahead, up, right; /* up and right turn only as the hole does */
};

static struct vec3 plus(struct vec3 a, struct vec3 b, double k)
{
	return sb_vec3_add(a, sb_vec3_scale(b, k));
}

static struct state move(const struct state *s, const struct state *rate, double h)
{
	return (struct state){ plus(s->at, rate->at, h), plus(s->ahead, rate->ahead, h),
		plus(s->up, rate->up, h), plus(s->right, rate->right, h) };
}

/* ahead' = k, up' = -(up . k) ahead, right' = -(right . k) ahead, at' = ahead; k of the stretch from the high
 * side and the right as they lie, and what the course adds in the axes that do not spin. */
static struct state rate_of(
	const struct state *s, const struct course_stretch *stretch, const struct course *c)
{
	double inc, azi;

	sb_vec3_attitude(s->ahead, &inc, &azi);
	struct vec3 high = { cos(inc) * cos(azi), cos(inc) * sin(azi), sin(inc) },
		    side = { -sin(azi), cos(azi), 0 };
	struct vec3 k = plus(plus(plus(sb_vec3_scale(high, stretch->up), side, stretch->right), s->up, c->up),
		s->right, c->right);
	return (struct state){ s->ahead, k, sb_vec3_scale(s->ahead, -sb_vec3_dot(s->up, k)),
		sb_vec3_scale(s->ahead, -sb_vec3_dot(s->right, k)) };
}

static void integrate(
	struct state *s, const struct course_stretch *stretch, const struct course *c, int steps)
{
	double h = stretch->length_m / steps;

	for (int i = 0; i < steps; i++) {
		struct state k1 = rate_of(s, stretch, c), s2 = move(s, &k1, h / 2);
		struct state k2 = rate_of(&s2, stretch, c), s3 = move(s, &k2, h / 2);
		struct state k3 = rate_of(&s3, stretch, c), s4 = move(s, &k3, h);
		struct state k4 = rate_of(&s4, stretch, c);
		*s = move(s, &k1, h / 6);
		*s = move(s, &k2, h / 3);
		*s = move(s, &k3, h / 3);
		*s = move(s, &k4, h / 6);
	}
}

#define STRETCHES 5

/* A course of a pilot bore: steep at times, slid every which way, with readings that say otherwise. */
static void make(struct random *r, struct attitude *from, struct attitude *to, struct course_stretch *s)
{
	double inc = random_between(r, 60, 120), azi = random_between(r, 0, 360);

	*from = degrees(inc, azi);
	*to = degrees(inc + random_between(r, -3, 3), azi + random_between(r, -3, 3));
	for (int i = 0; i < STRETCHES; i++) {
		double face = random_between(r, 0, 2 * SB_PI), k = random_between(r, 0, sb_rad(0.8));
		s[i] = (struct course_stretch){ random_between(r, 0.2, 4), k * cos(face), k * sin(face) };
	}
}

static double length_of(const struct course_stretch *s)
{
	double length = 0;

	for (int i = 0; i < STRETCHES; i++)
		length += s[i].length_m;
	return length;
}

static void fine_integration_ends_at_the_same_place_and_heading(void **state)
{
	(void)state;
	struct random r = { 3 };
	struct attitude from, to;
	struct course_stretch s[STRETCHES];
	struct course c;

	for (int round = 0; round < 300; round++) {
		make(&r, &from, &to, s);
		assert_int_equal(sb_course_between(&from, &to, length_of(s), s, STRETCHES, &c), COURSE_OK);
		double i = from.inc_rad, a = from.azi_rad;
		struct state w = { { 0 }, from.heading, { cos(i) * cos(a), cos(i) * sin(a), sin(i) },
			{ -sin(a), cos(a), 0 } };
		for (int k = 0; k < STRETCHES; k++)
			integrate(&w, &s[k], &c, 200);
		/* the header: error under 1e-5 of the length */
		assert_near(sb_vec3_length(sb_vec3_sub(w.at, c.step)), 0, 1e-5 * length_of(s));
		assert_near(sb_vec3_length(sb_vec3_sub(w.ahead, to.heading)), 0, 1e-5);
	}
}

static void the_parts_of_a_course_add_up_to_it(void **state)
{
	(void)state;
	struct random r = { 11 };
	struct attitude from, to;
	struct course_stretch s[STRETCHES];
	struct course whole, first, second;
	struct vec3 at, heading;
	double inc, azi;

	for (int round = 0; round < 300; round++) {
		make(&r, &from, &to, s);
		double length = length_of(s), head = s[0].length_m + s[1].length_m;
		assert_int_equal(sb_course_between(&from, &to, length, s, STRETCHES, &whole), COURSE_OK);
		sb_course_at(&from, &whole, s, STRETCHES, head, &at, &heading);
		sb_vec3_attitude(heading, &inc, &azi);
		struct attitude middle = sb_attitude(inc, azi);
		assert_int_equal(sb_course_between(&from, &middle, head, s, 2, &first), COURSE_OK);
		assert_int_equal(
			sb_course_between(&middle, &to, length - head, s + 2, 3, &second), COURSE_OK);
		assert_near(sb_vec3_length(sb_vec3_sub(first.step, at)), 0, 1e-9);
		struct vec3 sum = sb_vec3_add(first.step, second.step);
		assert_near(sb_vec3_length(sb_vec3_sub(sum, whole.step)), 0, 1e-8);
	}
}

static void the_end_of_a_course_is_its_step_to_the_last_bit(void **state)
{
	(void)state;
	struct random r = { 5 };
	struct attitude from, to;
	struct course_stretch s[STRETCHES];
	struct course c;
	struct vec3 at, heading;

	make(&r, &from, &to, s);
	sb_course_between(&from, &to, length_of(s), s, STRETCHES, &c);
	sb_course_at(&from, &c, s, STRETCHES, c.length_m, &at, &heading);
	assert_memory_equal(&at, &c.step, sizeof at);
	assert_memory_equal(&heading, &to.heading, sizeof heading);
	sb_course_at(&from, &c, s, STRETCHES, 0, &at, &heading);
	assert_near(sb_vec3_length(at), 0, 0);
	assert_near(sb_vec3_length(sb_vec3_sub(heading, from.heading)), 0, 1e-15);
	/* and just before it, there is no jump */
	sb_course_at(&from, &c, s, STRETCHES, c.length_m * (1 - 1e-9), &at, &heading);
	assert_near(sb_vec3_length(sb_vec3_sub(at, c.step)), 0, 1e-7);
}

/* The constant is the least: of others that lead to the same attitude, here one that grows along the hole,
 * none has a smaller mean square. In a plane the turn is the integral of the curvature, so the sum is exact.
 */
static void no_other_correction_is_smaller(void **state)
{
	(void)state;
	struct attitude start = degrees(90, 0), end = turned(0.03, 1, 0);
	const struct course_stretch s[] = { { 4, 0.01, 0 }, { joint - 4, 0, 0 } };
	struct course c;
	const int n = 1000;

	sb_course_between(&start, &end, joint, s, 2, &c);
	for (double slope = -0.01; slope < 0.011; slope += 0.004) {
		double mean = 0, square = 0;
		for (int i = 0; i < n; i++) {
			double k = c.up + slope * ((i + 0.5) / n - 0.5);
			mean += k / n;
			square += k * k / n;
		}
		assert_near(mean, c.up, 1e-15);
		assert_true(square > c.up * c.up);
	}
}

/* ---- edges ---- */

static void upright_there_is_no_high_side_and_it_is_the_arc(void **state)
{
	(void)state;
	struct attitude down = degrees(0, 30), past = degrees(2, 210), steep = degrees(5, 30),
			up = degrees(178, 30);
	const struct course_stretch s[] = { { 5, 0.004, 0 }, { 5, 0.001, 0.002 } };
	struct course c;

	assert_int_equal(sb_course_between(&down, &past, 10, s, 2, &c), COURSE_WILD);
	assert_near(c.step.u, -10, 0.01);
	assert_int_equal(sb_course_between(&steep, &past, 10, s, 2, &c), COURSE_WILD);
	assert_int_equal(sb_course_between(&up, &up, 10, s, 2, &c), COURSE_WILD);
	assert_int_equal(sb_course_between(&steep, &steep, 10, s, 2, &c), COURSE_OK);
}

static void a_course_that_turns_as_no_string_can_is_the_arc(void **state)
{
	(void)state;
	struct attitude a = degrees(90, 0), b = degrees(90, 40), back = degrees(90, 180),
			near = degrees(90, 1);
	const struct course_stretch little[] = { { 5, 0.01, 0 }, { 5, 0, 0 } };
	const struct course_stretch much[] = { { 5, 0.2, 0 }, { 5, 0, 0 } };
	struct course c;

	assert_int_equal(sb_course_between(&a, &b, 10, little, 2, &c), COURSE_WILD);
	assert_near(sb_vec3_length(c.shift), 0, 0);
	assert_int_equal(sb_course_between(&a, &back, 10, little, 2, &c), COURSE_WILD);
	assert_int_equal(sb_course_between(&a, &near, 10, much, 2, &c), COURSE_WILD);
}

static void what_is_no_number_is_refused_and_nothing_is_touched(void **state)
{
	(void)state;
	struct attitude a = degrees(90, 0), b = degrees(90, 1);
	const struct course_stretch bad[][2] = { { { -1, 0, 0 }, { 5, 0, 0 } },
		{ { 5, NAN, 0 }, { 5, 0, 0 } }, { { HUGE_VAL, 0, 0 }, { 5, 1e-3, 0 } },
		{ { NAN, 0, 0 }, { 5, 0, 0 } }, { { 5, 0, HUGE_VAL }, { 5, 0, 0 } } };
	struct course c, before;

	memset(&c, 0x5a, sizeof c);
	before = c;
	for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
		assert_int_equal(sb_course_between(&a, &b, 10, bad[i], 2, &c), COURSE_RANGE);
	assert_int_equal(sb_course_between(&a, &b, NAN, bad[0], 0, &c), COURSE_RANGE);
	assert_int_equal(sb_course_between(&a, &b, -1, bad[0], 0, &c), COURSE_RANGE);
	assert_memory_equal(&c, &before, sizeof c);
}

static void a_course_of_no_length_goes_nowhere(void **state)
{
	(void)state;
	struct attitude a = degrees(90, 0), b = degrees(90, 1);
	const struct course_stretch s[] = { { 0, 0.01, 0 }, { 0, 0, 0 } };
	struct course c;

	assert_int_equal(sb_course_between(&a, &b, 0, s, 2, &c), COURSE_EVEN);
	assert_near(sb_vec3_length(c.step), 0, 0);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_slide_at_the_start_shifts_as_two_pieces_of_a_plane_curve_do),
		cmocka_unit_test(
			a_slide_of_a_tenth_of_a_radian_in_the_first_third_shifts_by_a_third_of_a_metre),
		cmocka_unit_test(a_slide_in_the_middle_shifts_nothing_sideways),
		cmocka_unit_test(a_slide_at_the_end_shifts_as_much_the_other_way),
		cmocka_unit_test(the_shift_is_mirrored_with_the_tool_face),
		cmocka_unit_test(what_was_expected_wrongly_is_made_up_evenly),
		cmocka_unit_test(a_slide_that_did_not_turn_the_hole_still_bends_it_early_and_back),
		cmocka_unit_test(with_nothing_known_it_is_the_arc_to_the_last_bit),
		cmocka_unit_test(fine_integration_ends_at_the_same_place_and_heading),
		cmocka_unit_test(the_parts_of_a_course_add_up_to_it),
		cmocka_unit_test(the_end_of_a_course_is_its_step_to_the_last_bit),
		cmocka_unit_test(no_other_correction_is_smaller),
		cmocka_unit_test(upright_there_is_no_high_side_and_it_is_the_arc),
		cmocka_unit_test(a_course_that_turns_as_no_string_can_is_the_arc),
		cmocka_unit_test(what_is_no_number_is_refused_and_nothing_is_touched),
		cmocka_unit_test(a_course_of_no_length_goes_nowhere),
	};
	return run_tests(tests);
}
