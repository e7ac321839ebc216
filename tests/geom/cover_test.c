/* The least cover against closed forms and brute force: under corners of the ground, at ends, at the top of a
 * bend. */
#include "geom/cover.h"

#include "random.h"
#include "support/near.h"

/* A bed that falls to its lowest at 50 and rises: covers by hand. */
static const struct cover_point valley[] = { { 0, 30 }, { 40, 30 }, { 50, 20 }, { 60, 30 }, { 100, 30 } };
static const struct cover_ground bed = { valley, 5 };

/* A hole that runs straight in x; or as a circle of radius r whose top is at x0, y0 (r < 0: its bottom). */
struct line {
	double x0, y0, slope;
};
struct circle {
	double x0, y0, radius, from;
};

static void line_at(const void *data, double s, double *x, double *top)
{
	const struct line *l = data;

	*x = l->x0 + s;
	*top = l->y0 + l->slope * s;
}

static void circle_at(const void *data, double s, double *x, double *top)
{
	const struct circle *c = data;
	double angle = c->from + s / fabs(c->radius);

	*x = c->x0 + fabs(c->radius) * sin(angle);
	*top = c->y0 - c->radius * (1 - cos(angle));
}

static struct cover_least least(const struct cover_hole *hole, enum cover_known known)
{
	struct cover_least out = { -1e9, -1, -1, 0 };

	assert_int_equal(sb_cover_least(&bed, hole, HUGE_VAL, 1e-6, &out), known);
	return out;
}

static void a_level_hole_has_least_cover_under_the_lowest_corner(void **state)
{
	struct line l = { 30, 10, 0 };
	struct cover_hole hole = { line_at, &l, 31, 0 };

	(void)state;
	struct cover_least got = least(&hole, COVER_KNOWN);
	assert_near(got.cover_m, 10, 1e-9);
	assert_near(got.x_m, 50, 1e-6);
	assert_near(got.s_m, 20, 1e-6);
}

/* Rising 1 in 10 under level ground: least at its end. Rising so under the valley: cover is 20 - 10 - 2 at
 * 50, and on the far side the bed rises faster. */
static void the_least_may_be_at_an_end_or_between(void **state)
{
	struct line l = { 5, 10, 0.1 };
	struct cover_hole hole = { line_at, &l, 30, 0 };

	(void)state;
	assert_near(least(&hole, COVER_KNOWN).cover_m, 30 - 13, 1e-9);
	l.x0 = 30;
	struct cover_least got = least(&hole, COVER_KNOWN);
	assert_near(got.cover_m, 8, 1e-9);
	assert_near(got.slope, 1, 1e-9); /* of the piece that follows */
}

/* An arc whose top is at x 20, 22 high: cover 8 there; both its ends have more. */
static void the_top_of_a_bend_is_found_between_its_ends(void **state)
{
	struct circle c = { 20, 22, 100, -0.1 };
	struct cover_hole hole = { circle_at, &c, 20, 0.01 };

	(void)state;
	struct cover_least got = least(&hole, COVER_KNOWN);
	assert_near(got.cover_m, 8, 1e-6);
	assert_near(got.x_m, 20, 0.03);
}

/* A sag under the valley: at the corner, or where the bed is as steep as the hole; here at the corner. */
static void a_sag_under_the_corner(void **state)
{
	struct circle c = { 48, 5, -100, -0.15 };
	struct cover_hole hole = { circle_at, &c, 30, 0.01 };

	(void)state;
	double top = 5 + 100 * (1 - cos(asin(2 / 100.0)));
	assert_near(least(&hole, COVER_KNOWN).cover_m, 20 - top, 2e-6);
}

static void ground_that_is_shorter_than_the_hole_says_so(void **state)
{
	struct line l = { 90, 10, 0 };
	struct cover_hole hole = { line_at, &l, 31, 0 };

	(void)state;
	assert_near(least(&hole, COVER_PART).cover_m, 20, 1e-9);
	l.x0 = -20;
	assert_near(least(&hole, COVER_PART).cover_m, 20, 1e-9);
	l.x0 = 101;
	assert_near(least(&hole, COVER_NONE).cover_m, -1e9, 0);
	struct cover_ground none = { valley, 1 };
	struct cover_least out;
	assert_int_equal(sb_cover_least(&none, &hole, HUGE_VAL, 1e-6, &out), COVER_NONE);
	double y;
	assert_false(sb_cover_ground(&none, 0, &y, NULL));
	assert_false(sb_cover_ground(&bed, NAN, &y, NULL));
	assert_false(sb_cover_ground(&bed, 100.1, &y, NULL));
	assert_true(sb_cover_ground(&bed, 100, &y, NULL));
	assert_near(y, 30, 0);
}

static void what_is_more_than_asked_is_not_looked_for(void **state)
{
	struct line l = { 30, 10, 0 };
	struct cover_hole hole = { line_at, &l, 31, 0 };
	struct cover_least out;

	(void)state;
	assert_int_equal(sb_cover_least(&bed, &hole, 9.9, 1e-6, &out), COVER_NONE);
	assert_int_equal(sb_cover_least(&bed, &hole, 10.1, 1e-6, &out), COVER_KNOWN);
	assert_near(out.cover_m, 10, 1e-9);
}

static void a_hole_above_the_ground_has_negative_cover(void **state)
{
	struct line l = { 30, 25, 0 };
	struct cover_hole hole = { line_at, &l, 40, 0 };

	(void)state;
	assert_near(least(&hole, COVER_KNOWN).cover_m, -5, 1e-9);
}

static void a_hole_that_stands_upright_is_judged_at_its_top(void **state)
{
	struct circle c = { -80, 5, 100, 1.55 };
	struct cover_hole hole = { circle_at, &c, 5, 0.01 };
	double x, top;

	(void)state;
	circle_at(&c, 0, &x, &top);
	assert_near(least(&hole, COVER_KNOWN).cover_m, 30 - top, 1e-4);
}

/* Any ground, any bend: a thousand places have no less, and the one found is there. */
static void brute_force_finds_no_less(void **state)
{
	struct random r = { 21 };

	(void)state;
	for (int i = 0; i < 500; i++) {
		struct cover_point points[12];
		double x = -20;
		for (int k = 0; k < 12; k++) {
			points[k] = (struct cover_point){ x, random_between(&r, 0, 15) };
			x += random_between(&r, 0.1, 12);
		}
		struct cover_ground g = { points, 12 };
		double radius = random_between(&r, 30, 300) * (i % 2 ? 1 : -1);
		struct circle c = { random_between(&r, 0, 20), -5, radius, random_between(&r, -0.3, 0.2) };
		struct cover_hole hole = { circle_at, &c, random_between(&r, 1, 30), 1 / fabs(radius) };
		struct cover_least got;
		double best = HUGE_VAL, y;
		enum cover_known known = sb_cover_least(&g, &hole, HUGE_VAL, 1e-6, &got);
		for (int k = 0; k <= 1000; k++) {
			double top;
			circle_at(&c, hole.length_m * k / 1000, &x, &top);
			if (sb_cover_ground(&g, x, &y, NULL))
				best = fmin(best, y - top);
		}
		if (known == COVER_NONE) {
			assert_true(isinf(best));
			continue;
		}
		assert_true(got.cover_m <= best + 1e-6);
		double top;
		circle_at(&c, got.s_m, &x, &top);
		assert_true(sb_cover_ground(&g, x, &y, NULL));
		assert_near(y - top, got.cover_m, 1e-9);
	}
}

static int looks;

static void counted_at(const void *data, double s_m, double *x_m, double *top_m)
{
	looks++;
	circle_at(data, s_m, x_m, top_m);
}

/* A hole that has left the ground that is known is not searched for what cannot be there. */
static void past_the_ground_nothing_is_searched(void **state)
{
	(void)state;
	const struct cover_point points[] = { { 0, 10 }, { 50, 12 } };
	struct cover_ground g = { points, 2 };
	struct circle c = { 60, -5, 300, 0 };
	struct cover_hole hole = { counted_at, &c, 10, 1.0 / 300 };
	struct cover_least got;
	looks = 0;
	assert_int_equal(sb_cover_least(&g, &hole, HUGE_VAL, 1e-4, &got), COVER_NONE);
	assert_true(looks <= 4);
	/* half in, half out: the half outside costs a search for the edge alone */
	c.x0 = 45;
	looks = 0;
	assert_int_equal(sb_cover_least(&g, &hole, HUGE_VAL, 1e-4, &got), COVER_PART);
	assert_true(looks < 200);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_level_hole_has_least_cover_under_the_lowest_corner),
		cmocka_unit_test(the_least_may_be_at_an_end_or_between),
		cmocka_unit_test(the_top_of_a_bend_is_found_between_its_ends),
		cmocka_unit_test(a_sag_under_the_corner),
		cmocka_unit_test(ground_that_is_shorter_than_the_hole_says_so),
		cmocka_unit_test(what_is_more_than_asked_is_not_looked_for),
		cmocka_unit_test(a_hole_above_the_ground_has_negative_cover),
		cmocka_unit_test(a_hole_that_stands_upright_is_judged_at_its_top),
		cmocka_unit_test(brute_force_finds_no_less),
		cmocka_unit_test(past_the_ground_nothing_is_searched),
	};

	return run_tests(tests);
}
