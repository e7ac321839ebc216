/* Distances against closed forms, brute force and a second way; chances against closed forms and Monte Carlo.
 */
#include "geom/clear.h"

#include "geom/angle.h"
#include "geom/arc.h"
#include "geom/spread.h"
#include "random.h"
#include "support/near.h"

static struct vec3 anywhere(struct random *r, double reach)
{
	return (struct vec3){ random_between(r, -reach, reach), random_between(r, -reach, reach),
		random_between(r, -reach, reach) };
}

static struct vec3 on_line(struct vec3 a, struct vec3 b, double share)
{
	return sb_vec3_add(a, sb_vec3_scale(sb_vec3_sub(b, a), share));
}

static double apart(struct vec3 a, struct vec3 b)
{
	return sb_vec3_length(sb_vec3_sub(a, b));
}

/* An arc as a curve. */
static struct vec3 arc_at(const void *data, double s_m)
{
	struct vec3 at;

	sb_arc_at(data, s_m, &at, NULL);
	return at;
}

static struct clear_curve curve_of(const struct arc *arc)
{
	return (struct clear_curve){ arc_at, arc, arc->length_m, 1 };
}

static struct arc arc_of(double inc_1, double azi_1, double inc_2, double azi_2, double length)
{
	struct attitude from = sb_attitude(sb_rad(inc_1), sb_rad(azi_1));
	struct attitude to = sb_attitude(sb_rad(inc_2), sb_rad(azi_2));
	struct arc arc;

	assert_int_equal(sb_arc_between(&from, &to, length, &arc), ARC_OK);
	return arc;
}

/* ---- straight stretches ---- */

/* Derived: two lines square to one another, 3 apart in height, crossing in plan. */
static void skew_lines_are_as_far_apart_as_their_common_normal(void **state)
{
	struct vec3 one, other;

	(void)state;
	assert_near(sb_clear_straight((struct vec3){ -10, 0, 0 }, (struct vec3){ 10, 0, 0 },
			    (struct vec3){ 2, -10, 3 }, (struct vec3){ 2, 10, 3 }, &one, &other),
		3, 1e-15);
	assert_near(one.n, 2, 1e-15);
	assert_near(other.e, 0, 1e-15);
	assert_near(other.u, 3, 0);
}

/* The distance of two straight lines: |(c - a) . (u x v)| / |u x v|, where the feet lie on both stretches. */
static void the_formula_of_skew_lines_holds_wherever_the_feet_are_inside(void **state)
{
	struct random r = { 11 };
	int inside = 0;

	(void)state;
	for (int i = 0; i < 5000; i++) {
		struct vec3 a = anywhere(&r, 10), b = anywhere(&r, 10), c = anywhere(&r, 10),
			    d = anywhere(&r, 10), one, other;
		double got = sb_clear_straight(a, b, c, d, &one, &other);
		struct vec3 u = sb_vec3_sub(b, a), v = sb_vec3_sub(d, c);
		struct vec3 cross = { u.e * v.u - u.u * v.e, u.u * v.n - u.n * v.u, u.n * v.e - u.e * v.n };
		double line = fabs(sb_vec3_dot(sb_vec3_sub(c, a), cross)) / sb_vec3_length(cross);
		assert_near(apart(one, other), got, 1e-12);
		assert_true(got >= line - 1e-9);
		if (apart(one, a) < 1e-9 || apart(one, b) < 1e-9 || apart(other, c) < 1e-9 ||
			apart(other, d) < 1e-9)
			continue;
		inside++;
		assert_near(got, line, 1e-9);
	}
	assert_true(inside > 1000);
}

static void no_place_on_two_stretches_is_nearer(void **state)
{
	struct random r = { 12 };

	(void)state;
	for (int i = 0; i < 300; i++) {
		struct vec3 a = anywhere(&r, 5), b = anywhere(&r, 5), c = anywhere(&r, 5),
			    d = anywhere(&r, 5);
		double got = sb_clear_straight(a, b, c, d, NULL, NULL), best = HUGE_VAL;
		for (int j = 0; j <= 100; j++)
			for (int k = 0; k <= 100; k++)
				best = fmin(best, apart(on_line(a, b, j / 100.0), on_line(c, d, k / 100.0)));
		assert_true(got <= best + 1e-12);
		assert_near(got, best, 0.15); /* a hundredth of both lengths */
	}
}

static void parallel_stretches_and_points_are_no_special_case(void **state)
{
	struct vec3 a = { 0, 0, 0 }, b = { 10, 0, 0 };

	(void)state;
	assert_near(sb_clear_straight(a, b, (struct vec3){ 2, 3, 4 }, (struct vec3){ 8, 3, 4 }, NULL, NULL),
		5, 1e-15);
	/* one behind the other */
	assert_near(sb_clear_straight(a, b, (struct vec3){ 13, 4, 0 }, (struct vec3){ 20, 4, 0 }, NULL, NULL),
		5, 1e-15);
	assert_near(sb_clear_straight(a, b, (struct vec3){ 7, 2, 0 }, (struct vec3){ 7, 2, 0 }, NULL, NULL),
		2, 1e-15);
	assert_near(sb_clear_straight(a, a, b, b, NULL, NULL), 10, 0);
}

/* ---- curves ---- */

/* A level arc of radius 100 m about a centre, seen from points in its plane and above it: closed form. */
static void a_point_is_as_far_from_an_arc_as_the_radius_says(void **state)
{
	double radius = 100, turn = 30;
	struct arc arc = arc_of(90, 0, 90, turn, radius * sb_rad(turn));
	struct clear_curve curve = curve_of(&arc);
	struct random r = { 13 };

	(void)state;
	/* starts at 0,0 to the north and turns right: the centre lies 100 m east */
	for (int i = 0; i < 500; i++) {
		double from_centre = random_between(&r, 1, 250), height = random_between(&r, -20, 20);
		double angle = sb_rad(random_between(&r, 0.5, turn - 0.5));
		struct vec3 p = { from_centre * sin(angle), radius - from_centre * cos(angle), height };
		struct clear_nearest got;
		assert_true(sb_clear_curve(&curve, p, p, HUGE_VAL, 1e-6, &got));
		assert_near(got.distance_m, hypot(from_centre - radius, height), 1e-6);
		if (from_centre > 50 && hypot(from_centre - radius, height) > 1)
			assert_near(got.s_m, radius * angle, 0.05);
	}
}

/* A sheet pile in a vertical arc's plane, a pipe that crosses over it: closed forms at the lowest place. */
static void a_line_across_the_lowest_place_of_a_sag(void **state)
{
	struct arc arc = arc_of(80, 90, 100, 90, 200 * sb_rad(20));
	struct clear_curve curve = curve_of(&arc);
	double lowest = -200 * (1 - cos(sb_rad(10))), along = 200 * sin(sb_rad(10));
	struct clear_nearest got;

	(void)state;
	struct vec3 a = { -50, along, lowest - 3 }, b = { 50, along, lowest - 3 };
	assert_true(sb_clear_curve(&curve, a, b, HUGE_VAL, 1e-6, &got));
	assert_near(got.distance_m, 3, 1e-6);
	assert_near(got.s_m, arc.length_m / 2, 0.05);
	/* above it the ends of the sag are no nearer: 2 m, over the middle */
	a.u = b.u = lowest + 2;
	assert_true(sb_clear_curve(&curve, a, b, HUGE_VAL, 1e-6, &got));
	assert_near(got.distance_m, 2, 1e-6);
	/* and a line that the arc runs through */
	a.u = b.u = lowest;
	assert_true(sb_clear_curve(&curve, a, b, HUGE_VAL, 1e-6, &got));
	assert_near(got.distance_m, 0, 2e-6);
}

/* Every place of the arc, a centimetre apart: nothing is nearer than what was found, and that is there. */
static void brute_force_finds_nothing_nearer(void **state)
{
	struct random r = { 14 };

	(void)state;
	for (int i = 0; i < 400; i++) {
		double inc = random_between(&r, 60, 110), azi = random_between(&r, 0, 360);
		struct arc arc = arc_of(inc, azi, inc + random_between(&r, -12, 12),
			azi + random_between(&r, -12, 12), random_between(&r, 1, 20));
		struct clear_curve curve = curve_of(&arc);
		struct vec3 a = anywhere(&r, 15), b = i % 4 ? anywhere(&r, 15) : a;
		struct clear_nearest got;
		double best = HUGE_VAL;
		assert_true(sb_clear_curve(&curve, a, b, HUGE_VAL, 1e-6, &got));
		for (int k = 0; k <= 2000; k++) {
			struct vec3 p = arc_at(&arc, arc.length_m * k / 2000);
			best = fmin(best, sb_clear_straight(p, p, a, b, NULL, NULL));
		}
		assert_true(got.distance_m <= best + 1e-6);
		assert_near(got.distance_m, best, 0.011);
		assert_near(apart(got.on_curve, got.on_line), got.distance_m, 1e-12);
		assert_near(apart(arc_at(&arc, got.s_m), got.on_curve), 0, 1e-12);
	}
}

static void what_is_further_than_asked_is_not_looked_for(void **state)
{
	struct arc arc = arc_of(90, 0, 90, 3, 10);
	struct clear_curve curve = curve_of(&arc);
	struct vec3 p = { 5, -8, 0 };
	struct clear_nearest got = { .s_m = -1 };

	(void)state;
	assert_false(sb_clear_curve(&curve, p, p, 7.9, 1e-6, &got));
	assert_near(got.s_m, -1, 0);
	assert_true(sb_clear_curve(&curve, p, p, 9, 1e-6, &got));
}

/* ---- chances ---- */

static struct sym3 sigmas(double n, double e, double u)
{
	return (struct sym3){ n * n, e * e, u * u, 0, 0, 0 };
}

/* A long pipe square across, 3 m above a hole to the north: only height counts, and it is a band. */
static void a_crossing_counts_in_height_alone(void **state)
{
	struct clear_stretch pipe = { { 0, -1000, 3 }, { 0, 1000, 3 }, 2 };
	struct sym3 c = sigmas(1, 5, 0.7);

	(void)state;
	double want = sb_spread_below((5 - 0) / 0.7) - sb_spread_below((1 - 0) / 0.7);
	assert_near(sb_clear_chance((struct vec3){ 0, 0, 0 }, (struct vec3){ 1, 0, 0 }, 5, 5, &c, &pipe, 1),
		want, 1e-4);
}

/* A pipe along the hole, in the middle of a round spread: 1 - exp(-keep^2 / 2 sigma^2) (Rayleigh). */
static void a_parallel_pipe_in_the_middle_by_rayleigh(void **state)
{
	struct sym3 c = sigmas(0.3, 1.5, 1.5);

	(void)state;
	for (double keep = 0.1; keep < 6; keep += 0.3) {
		struct clear_stretch pipe = { { -50, 0, 0 }, { 50, 0, 0 }, keep };
		assert_near(sb_clear_chance(
				    (struct vec3){ 0, 0, 0 }, (struct vec3){ 1, 0, 0 }, 5, 5, &c, &pipe, 1),
			1 - exp(-keep * keep / (2 * 1.5 * 1.5)), 1e-6);
	}
}

static void what_is_not_beside_this_stretch_does_not_count(void **state)
{
	struct clear_stretch pipe = { { 30, -50, 1 }, { 30, 50, 1 }, 2 };
	struct sym3 c = sigmas(1, 1, 1);

	(void)state;
	assert_near(sb_clear_chance((struct vec3){ 0, 0, 0 }, (struct vec3){ 1, 0, 0 }, 5, 5, &c, &pipe, 1),
		0, 0);
	assert_true(sb_clear_chance((struct vec3){ 0, 0, 0 }, (struct vec3){ 1, 0, 0 }, 5, 35, &c, &pipe, 1) >
		0.5);
}

static void a_hole_that_cannot_err_keeps_it_or_does_not(void **state)
{
	struct clear_stretch pipe = { { 0, -5, 3 }, { 0, 5, 3 }, 2.9 };
	struct sym3 sure = { 0 }, height = sigmas(0, 0, 1);
	struct vec3 at = { 0, 0, 0 }, north = { 1, 0, 0 };

	(void)state;
	assert_near(sb_clear_chance(at, north, 1, 1, &sure, &pipe, 1), 0, 0);
	pipe.keep_m = 3.1;
	assert_near(sb_clear_chance(at, north, 1, 1, &sure, &pipe, 1), 1, 0);
	/* with height alone: a band */
	assert_near(sb_clear_chance(at, north, 1, 1, &height, &pipe, 1),
		sb_spread_below(6.1) - sb_spread_below(-0.1), 1e-9);
}

/* A line of three points bends over the hole: its two stretches overlap at the corner, and count once. */
static void a_corner_over_the_hole_counts_once(void **state)
{
	struct clear_stretch two[] = { { { 0, -90, 2 }, { 0, 0, 2 }, 2.5 },
		{ { 0, 0, 2 }, { 0, 90, 2 }, 2.5 } };
	struct clear_stretch one = { { 0, -90, 2 }, { 0, 90, 2 }, 2.5 };
	struct sym3 c = sigmas(1, 3, 0.8);
	struct vec3 at = { 0, 0.4, 0 }, north = { 1, 0, 0 };

	(void)state;
	assert_near(sb_clear_chance(at, north, 2, 2, &c, two, 2),
		sb_clear_chance(at, north, 2, 2, &c, &one, 1), 1e-6);
}

static double chance_by_trials(struct random *r, struct vec3 heading, const struct sym3 *c,
	const struct clear_stretch *list, size_t count)
{
	/* Cholesky of the covariance */
	double l00 = sqrt(c->nn), l10 = c->ne / l00, l20 = c->nu / l00;
	double l11 = sqrt(c->ee - l10 * l10), l21 = (c->eu - l20 * l10) / l11;
	double l22 = sqrt(c->uu - l20 * l20 - l21 * l21);
	int hits = 0, trials = 40000;

	for (int i = 0; i < trials; i++) {
		double z0 = random_normal(r), z1 = random_normal(r), z2 = random_normal(r);
		struct vec3 off = { l00 * z0, l10 * z0 + l11 * z1, l20 * z0 + l21 * z1 + l22 * z2 };
		struct vec3 a = sb_vec3_sub(off, sb_vec3_scale(heading, 400)),
			    b = sb_vec3_add(off, sb_vec3_scale(heading, 400));
		bool hit = false;
		for (size_t k = 0; k < count && !hit; k++)
			hit = sb_clear_straight(a, b, list[k].a, list[k].b, NULL, NULL) < list[k].keep_m;
		hits += hit;
	}
	return (double)hits / trials;
}

/* Any obstacle of up to four stretches near a straight hole, any covariance: within 2 percent, of which the
 * trials themselves take a half (four sigma of 40,000). */
static void chances_are_those_of_monte_carlo(void **state)
{
	struct random r = { 15 };
	int middling = 0;

	(void)state;
	for (int i = 0; i < 60; i++) {
		struct vec3 heading =
			sb_vec3_heading(random_between(&r, 1.2, 1.9), random_between(&r, 0, 6.28));
		double n = random_between(&r, 0.2, 2), e = random_between(&r, 0.2, 2),
		       u = random_between(&r, 0.1, 1);
		double p = random_between(&r, -0.5, 0.5), q = random_between(&r, -0.5, 0.5);
		struct sym3 c = { n * n, e * e, u * u, p * n * e, q * n * u, p * q * e * u };
		struct clear_stretch list[4];
		size_t count = 1 + (size_t)i % 4;
		struct vec3 from = anywhere(&r, 6);
		for (size_t k = 0; k < count; k++) {
			struct vec3 to = sb_vec3_add(from, anywhere(&r, 8));
			list[k] = (struct clear_stretch){ from, i % 5 ? to : from,
				random_between(&r, 0.3, 2.5) };
			from = to;
		}
		double want = chance_by_trials(&r, heading, &c, list, count);
		double got = sb_clear_chance((struct vec3){ 0, 0, 0 }, heading, 400, 400, &c, list, count);
		assert_near(got, want, 0.02 * fmax(want, 0.5));
		middling += want > 0.02 && want < 0.98;
	}
	assert_true(middling > 20);
}

static void more_stretches_than_there_is_room_for_are_never_less(void **state)
{
	static struct clear_stretch many[CLEAR_MOST + 40];
	size_t count = sizeof many / sizeof *many;
	struct sym3 c = sigmas(1, 1, 1);
	struct vec3 at = { 0, 0, 0 }, north = { 1, 0, 0 };

	(void)state;
	for (size_t i = 0; i < count; i++)
		many[i] = (struct clear_stretch){ { 0, -3.6 + 0.1 * (double)i, 1.5 },
			{ 0, -3.5 + 0.1 * (double)i, 1.5 }, 0.8 };
	struct clear_stretch whole = { many[0].a, many[count - 1].b, 0.8 };
	double most = sb_clear_chance(at, north, 1, 1, &c, &whole, 1);
	double got = sb_clear_chance(at, north, 1, 1, &c, many, count);
	assert_true(got >= most - 1e-4 && got <= 1);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(skew_lines_are_as_far_apart_as_their_common_normal),
		cmocka_unit_test(the_formula_of_skew_lines_holds_wherever_the_feet_are_inside),
		cmocka_unit_test(no_place_on_two_stretches_is_nearer),
		cmocka_unit_test(parallel_stretches_and_points_are_no_special_case),
		cmocka_unit_test(a_point_is_as_far_from_an_arc_as_the_radius_says),
		cmocka_unit_test(a_line_across_the_lowest_place_of_a_sag),
		cmocka_unit_test(brute_force_finds_nothing_nearer),
		cmocka_unit_test(what_is_further_than_asked_is_not_looked_for),
		cmocka_unit_test(a_crossing_counts_in_height_alone),
		cmocka_unit_test(a_parallel_pipe_in_the_middle_by_rayleigh),
		cmocka_unit_test(what_is_not_beside_this_stretch_does_not_count),
		cmocka_unit_test(a_hole_that_cannot_err_keeps_it_or_does_not),
		cmocka_unit_test(a_corner_over_the_hole_counts_once),
		cmocka_unit_test(chances_are_those_of_monte_carlo),
		cmocka_unit_test(more_stretches_than_there_is_room_for_are_never_less),
	};

	return run_tests(tests);
}
