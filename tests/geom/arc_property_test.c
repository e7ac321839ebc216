/* What holds for every course, on random ones with a seed; and the course against a second derivation, the
 * heading turned about a fixed axis and integrated numerically. */
#include "course.h"
#include "random.h"

struct ends {
	double i1, a1, i2, a2, length;
};

static struct ends random_ends(struct random *r)
{
	return (struct ends){ random_between(r, 0, 180), random_between(r, 0, 360), random_between(r, 0, 180),
		random_between(r, 0, 360), random_between(r, 0.1, 40) };
}

/* A joint of a pilot bore: near level, turning a degree or so. */
static struct ends random_joint(struct random *r)
{
	double inc = random_between(r, 70, 105), azi = random_between(r, 0, 360);
	return (struct ends){ inc, azi, inc + random_between(r, -1, 1), azi + random_between(r, -1, 1),
		random_between(r, 5, 12) };
}

static struct arc arc_of(struct ends e)
{
	return course_of(e.i1, e.a1, e.i2, e.a2, e.length);
}

static struct vec3 cross(struct vec3 a, struct vec3 b)
{
	return (struct vec3){ a.e * b.u - a.u * b.e, a.u * b.n - a.n * b.u, a.n * b.e - a.e * b.n };
}

static struct vec3 plus(struct vec3 a, struct vec3 b, double k)
{
	return sb_vec3_add(a, sb_vec3_scale(b, k));
}

/* t' = w x t, r' = t by classical Runge-Kutta: position and heading after `length`. */
static void integrate(
	struct vec3 start, struct vec3 w, double length, int steps, struct vec3 *at, struct vec3 *t)
{
	double h = length / steps;

	*at = (struct vec3){ 0, 0, 0 };
	*t = start;
	for (int i = 0; i < steps; i++) {
		struct vec3 k1 = cross(w, *t), t2 = plus(*t, k1, h / 2);
		struct vec3 k2 = cross(w, t2), t3 = plus(*t, k2, h / 2);
		struct vec3 k3 = cross(w, t3), t4 = plus(*t, k3, h);
		struct vec3 k4 = cross(w, t4);
		*at = plus(
			*at, sb_vec3_add(sb_vec3_add(*t, t4), sb_vec3_scale(sb_vec3_add(t2, t3), 2)), h / 6);
		*t = plus(*t, sb_vec3_add(sb_vec3_add(k1, k4), sb_vec3_scale(sb_vec3_add(k2, k3), 2)), h / 6);
	}
}

static void check_integral(struct ends e)
{
	struct arc arc = arc_of(e);
	struct vec3 axis = cross(
		sb_vec3_heading(sb_rad(e.i1), sb_rad(e.a1)), sb_vec3_heading(sb_rad(e.i2), sb_rad(e.a2)));
	double sine = sb_vec3_length(axis);
	/* Near nothing and near half a turn this derivation loses the axis; the course does not. */
	if (sine < 1e-3)
		return;
	double angle = atan2(sine, sb_vec3_dot(arc.start, arc.end));
	struct vec3 w = sb_vec3_scale(axis, angle / sine / e.length), at, t, offset, heading;

	integrate(arc.start, w, e.length, 800, &at, &t);
	assert_vector_near(arc.step, at, 1e-9);
	assert_vector_near(arc.end, t, 1e-10);
	integrate(arc.start, w, e.length * 0.3, 400, &at, &t);
	sb_arc_at(&arc, e.length * 0.3, &offset, &heading);
	assert_vector_near(offset, at, 1e-9);
	assert_vector_near(heading, t, 1e-10);
	integrate(arc.start, w, e.length * 1.7, 1200, &at, &t);
	sb_arc_at(&arc, e.length * 1.7, &offset, &heading);
	assert_vector_near(offset, at, 1e-9);
	assert_vector_near(heading, t, 1e-10);
}

static void a_course_is_the_integral_of_its_curvature(void **state)
{
	struct random r = { 11 };

	(void)state;
	for (int i = 0; i < 150; i++) {
		check_integral(random_ends(&r));
		check_integral(random_joint(&r));
	}
}

/* Splits at a share of the length, by attitudes as a tool would have read them there. */
static void check_split(struct ends e, double share)
{
	struct arc whole = arc_of(e), first, second;
	struct attitude from = attitude_of(e.i1, e.a1), to = attitude_of(e.i2, e.a2);
	struct vec3 offset, heading;
	double inc, azi, s = e.length * share;

	sb_arc_at(&whole, s, &offset, &heading);
	sb_vec3_attitude(heading, &inc, &azi);
	struct attitude middle = sb_attitude(inc, azi);
	assert_int_equal(sb_arc_between(&from, &middle, s, &first), ARC_OK);
	assert_int_equal(sb_arc_between(&middle, &to, e.length - s, &second), ARC_OK);
	assert_vector_near(first.step, offset, 2e-13);
	assert_vector_near(sb_vec3_add(first.step, second.step), whole.step, 2e-13);
	assert_near(first.dogleg_rad + second.dogleg_rad, whole.dogleg_rad, 2e-14);
	assert_near(first.dogleg_rad, whole.dogleg_rad * share, 2e-14);
}

static void a_course_split_anywhere_ends_at_the_same_place(void **state)
{
	struct random r = { 12 };

	(void)state;
	for (int i = 0; i < 2000; i++) {
		check_split(random_joint(&r), random_between(&r, 0.001, 0.999));
		struct ends e = random_ends(&r);
		/* within a hair of half a turn the attitude read in the middle decides the plane */
		if (arc_of(e).dogleg_rad < 3)
			check_split(e, random_between(&r, 0.001, 0.999));
	}
}

static void a_mirrored_course_ends_at_the_mirror_image(void **state)
{
	struct random r = { 13 };

	(void)state;
	for (int i = 0; i < 2000; i++) {
		struct ends e = random_ends(&r), aside = e, over = e;
		struct vec3 step = arc_of(e).step;
		aside.a1 = -e.a1;
		aside.a2 = -e.a2;
		assert_vector_near(arc_of(aside).step, ((struct vec3){ step.n, -step.e, step.u }), 1e-12);
		over.i1 = 180 - e.i1;
		over.i2 = 180 - e.i2;
		assert_vector_near(arc_of(over).step, ((struct vec3){ step.n, step.e, -step.u }), 1e-12);
	}
}

static void a_course_turned_about_the_vertical_ends_at_the_turned_place(void **state)
{
	struct random r = { 14 };

	(void)state;
	for (int i = 0; i < 2000; i++) {
		struct ends e = random_ends(&r), turned = e;
		struct vec3 step = arc_of(e).step;
		double by = random_between(&r, -720, 720), c = cos(sb_rad(by)), s = sin(sb_rad(by));
		turned.a1 += by;
		turned.a2 += by;
		assert_vector_near(arc_of(turned).step,
			((struct vec3){ step.n * c - step.e * s, step.n * s + step.e * c, step.u }), 1e-11);
	}
}

static void there_and_back_ends_where_it_began(void **state)
{
	struct random r = { 15 };

	(void)state;
	for (int i = 0; i < 2000; i++) {
		struct ends e = i % 2 ? random_ends(&r) : random_joint(&r);
		struct ends back = { 180 - e.i2, e.a2 + 180, 180 - e.i1, e.a1 + 180, e.length };
		struct arc out = arc_of(e), home = arc_of(back);
		struct vec3 offset, heading;
		assert_vector_near(sb_vec3_add(out.step, home.step), ((struct vec3){ 0, 0, 0 }), 1e-11);
		assert_near(out.dogleg_rad, home.dogleg_rad, 4e-15);
		sb_arc_at(&home, e.length * 0.25, &offset, &heading);
		struct vec3 met, against;
		sb_arc_at(&out, e.length * 0.75, &met, &against);
		assert_vector_near(sb_vec3_add(out.step, offset), met, 1e-11);
		assert_vector_near(heading, sb_vec3_scale(against, -1), 1e-12);
	}
}

static void every_point_lies_on_one_circle(void **state)
{
	struct random r = { 16 };

	(void)state;
	for (int i = 0; i < 1000; i++) {
		struct arc arc = arc_of(random_ends(&r));
		double radius = arc.length_m / arc.dogleg_rad;
		struct vec3 toward; /* the side of the centre: the heading a quarter turn on */
		sb_arc_at(&arc, radius * SB_PI / 2, NULL, &toward);
		struct vec3 centre = sb_vec3_scale(toward, radius), at, heading;
		for (double share = -2; share < 3; share += 0.37) {
			sb_arc_at(&arc, arc.length_m * share, &at, &heading);
			struct vec3 spoke = sb_vec3_sub(at, centre);
			assert_near(sb_vec3_length(spoke) / radius, 1, 1e-12);
			assert_near(sb_vec3_dot(spoke, heading) / radius, 0, 1e-12);
			assert_near(sb_vec3_length(heading), 1, 1e-12);
		}
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_course_is_the_integral_of_its_curvature),
		cmocka_unit_test(a_course_split_anywhere_ends_at_the_same_place),
		cmocka_unit_test(a_mirrored_course_ends_at_the_mirror_image),
		cmocka_unit_test(a_course_turned_about_the_vertical_ends_at_the_turned_place),
		cmocka_unit_test(there_and_back_ends_where_it_began),
		cmocka_unit_test(every_point_lies_on_one_circle),
	};

	return run_tests(tests);
}
