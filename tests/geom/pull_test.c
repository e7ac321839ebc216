/* The pull of a pipe: against numerical integration, limits by hand, and published figures. */
#include "geom/pull.h"

#include "geom/angle.h"
#include "geom/pipe.h"
#include "support/near.h"

#include <string.h>

static const double inch = 0.0254, foot = 0.3048, psi = 6894.757293168361, pound = 0.45359237;
static const double lbf = 0.45359237 * 9.80665;

/* ---- the beam ---- */

/* Half of E I y'' = T y + M(s), y(0) = 0, y'(L/2) = 0, y(L/2) = h, by shooting with Runge and Kutta: pinned
 * at the ends, N in the middle upwards, w upwards too. Reaction at each end, downwards: (N + w L)/2. The
 * moment at s, sagging positive as y'' is: E I y'' = T y - (N + w L)/2 s + w s^2/2. */
struct state {
	double y, slope;
};

static struct state flow(struct state at, double s, double ei, double t, double n, double w, double length)
{
	double moment = t * at.y - (n + w * length) / 2 * s + w * s * s / 2;

	return (struct state){ at.slope, moment / ei };
}

static struct state run(double slope, double ei, double t, double n, double w, double length)
{
	struct state y = { 0, slope };
	int steps = 4000;
	double d = length / 2 / steps;

	for (int i = 0; i < steps; i++) {
		double s = i * d;
		struct state a = flow(y, s, ei, t, n, w, length);
		struct state b = flow((struct state){ y.y + d / 2 * a.y, y.slope + d / 2 * a.slope },
			s + d / 2, ei, t, n, w, length);
		struct state c = flow((struct state){ y.y + d / 2 * b.y, y.slope + d / 2 * b.slope },
			s + d / 2, ei, t, n, w, length);
		struct state e = flow(
			(struct state){ y.y + d * c.y, y.slope + d * c.slope }, s + d, ei, t, n, w, length);
		y.y += d / 6 * (a.y + 2 * b.y + 2 * c.y + e.y);
		y.slope += d / 6 * (a.slope + 2 * b.slope + 2 * c.slope + e.slope);
	}
	return y;
}

/* How far aside the middle comes under N: the slope at the end is chosen so that the middle is level; both
 * are linear, so two shots find it. */
static double aside(double ei, double t, double n, double w, double length)
{
	struct state none = run(0, ei, t, n, w, length), one = run(1, ei, t, n, w, length);
	double slope = -none.slope / (one.slope - none.slope);

	return none.y + slope * (one.y - none.y);
}

static double by_integration(double ei, double t, double length, double h, double w)
{
	double at_0 = aside(ei, t, 0, w, length), at_1 = aside(ei, t, 1e4, w, length);

	return 1e4 * (h - at_0) / (at_1 - at_0);
}

static void the_beam_is_what_integrating_its_equation_gives(void **state)
{
	static const double tensions[] = { 0, 1e-6, 1, 1e3, 4e4, 2e5, 1e6 };

	(void)state;
	for (size_t i = 0; i < sizeof tensions / sizeof *tensions; i++)
		for (int load = -2; load <= 2; load++) {
			double ei = 2.1e8, length = 60, h = 1.5, w = 900.0 * load;
			double n = sb_pull_beam(ei, tensions[i], length, h, w);
			assert_near(n, by_integration(ei, tensions[i], length, h, w), 1e-6 * fabs(n) + 0.01);
		}
}

/* No tension: a simple beam with a load in its middle. Much: a rope, T h / (L/4) and half the load. */
static void the_beam_has_its_limits(void **state)
{
	double ei = 2.1e8, length = 60, h = 1.5, w = 900;

	(void)state;
	double stiff = 48 * ei * h / pow(length, 3) - 5.0 / 8 * w * length;
	assert_near(sb_pull_beam(ei, 0, length, h, w), stiff, 1e-9 * stiff);
	assert_near(sb_pull_beam(ei, -5, length, h, w), stiff, 1e-9 * stiff);
	assert_near(sb_pull_beam(ei, 1e-300, length, h, w), stiff, 1e-9 * stiff);
	double t = 1e14;
	assert_near(sb_pull_beam(ei, t, length, h, w) / (4 * t * h / length - w * length / 2), 1, 1e-3);
	/* where the series hands over to the closed form: x = 0.05 */
	double x = 0.05, edge = 4 * x * x * ei / length / length;
	double below = sb_pull_beam(ei, edge * (1 - 1e-9), length, h, w),
	       above = sb_pull_beam(ei, edge * (1 + 1e-9), length, h, w);
	assert_near(below / above, 1, 1e-8);
}

/* ---- the regression case: derived, no publication; 24 x 0.5 in, 12 lb/gal, profile 7.2 B ----
 */

static struct vec3 slope(double degrees)
{
	return (struct vec3){ 0, cos(degrees * SB_PI / 180), sin(degrees * SB_PI / 180) };
}

static void the_pull_of_the_regression_case(void **state)
{
	static const struct {
		double length_ft, from, to, want, n;
	} legs[] = {
		{ 234.552257, -8, -8, 21321.1, 0 },
		{ 335.103216, -8, 0, 56153.6, 39323.3 },
		{ 1283.465245, 0, 0, 145450.6, 0 },
		{ 418.879020, 0, 10, 184047.5, 58060.4 },
		{ 135.553437, 10, 10, 189697.7, 0 },
	};
	struct pipe_given g = { 24 * inch, 0.5 * inch,
		10.68 / (SB_PI * 12) * 1728 * pound / (foot * foot * foot), 29e6 * psi, 0, 0 };
	struct pipe_section p;
	double t = 0;

	(void)state;
	assert_int_equal(sb_pipe_section(&g, &p), PIPE_OK);
	double weight = -156.518 * lbf / foot;
	struct pull_terms terms = { 0.30, SB_PI * p.outside_m * 0.025 * psi, p.stiffness };
	for (size_t i = 0; i < 5; i++) {
		double length = legs[i].length_ft * foot, before = t;
		struct pull_leg leg = sb_pull_leg(length, slope(legs[i].from), slope(legs[i].to), 0.1524);
		double lift = weight * length * leg.along.u;
		assert_int_equal(leg.bent, legs[i].from != legs[i].to);
		t = sb_pull_across(&leg, &terms, t, length, weight, lift);
		assert_near(t / lbf, legs[i].want, 0.4);
		if (legs[i].n > 0) {
			double n = sb_pull_beam(p.stiffness, (before + t) / 2, length, leg.aside_m,
				weight * cos((legs[i].from + legs[i].to) / 2 * SB_PI / 180));
			assert_near(n / lbf, legs[i].n, 0.5);
		}
	}
}

/* ---- limits ---- */

/* Straight and without friction or drag: the weight's part along the hole, and nothing else. */
static void a_straight_hole_without_friction_takes_the_plain_weight(void **state)
{
	struct pull_terms none = { 0, 0, 2e8 };

	(void)state;
	for (double degrees = 0; degrees <= 20; degrees += 2.5) {
		struct pull_leg up = sb_pull_leg(100, slope(degrees), slope(degrees), 0.1);
		double weight = 700, lift = weight * 100 * sin(degrees * SB_PI / 180);
		assert_near(sb_pull_across(&up, &none, 5000, 100, weight, lift), 5000 + lift, 1e-9);
		/* and with friction, mu times its part across */
		struct pull_terms rubs = { 0.3, 50, 2e8 };
		assert_near(sb_pull_across(&up, &rubs, 5000, 100, weight, lift),
			5000 + lift + 0.3 * 700 * 100 * cos(degrees * SB_PI / 180) + 5000, 1e-6);
	}
}

/* A weightless rope around a bend, cut into ever more legs, is the capstan: e^(mu a). */
static void many_legs_of_a_rope_are_the_capstan(void **state)
{
	struct pull_terms terms = { 0.25, 0, 1 };
	double last = 1;

	(void)state;
	for (int pieces = 2; pieces <= 512; pieces *= 4) {
		double t = 10000, turn = 0.6;
		for (int i = 0; i < pieces; i++) {
			double a = turn * i / pieces, b = turn * (i + 1) / pieces;
			struct pull_leg leg = sb_pull_leg(300.0 / pieces, (struct vec3){ cos(a), sin(a), 0 },
				(struct vec3){ cos(b), sin(b), 0 }, 1e9);
			t = sb_pull_across(&leg, &terms, t, 300.0 / pieces, 0, 0);
		}
		double off = fabs(t / (10000 * exp(0.25 * 0.6)) - 1);
		assert_true(off < last);
		last = off;
	}
	assert_near(last, 0, 1e-7);
	struct pull_leg whole =
		sb_pull_leg(300, (struct vec3){ 1, 0, 0 }, (struct vec3){ cos(0.6), sin(0.6), 0 }, 0);
	assert_near(sb_pull_capstan(&whole, 0.25, 10000, 300, 0, 0), 10000 * exp(0.15), 1e-6);
}

/* A level curve: the bend presses sideways and the weight down, square to one another. A crest adds the
 * weight to the tension's press, a sag takes it off. */
static void tension_and_weight_press_as_vectors(void **state)
{
	struct pull_terms terms = { 0.3, 0, 2e8 };
	double turn = 0.1, w = 500, t = 80000, length = 100;
	struct vec3 north = { 1, 0, 0 };

	(void)state;
	struct pull_leg level = sb_pull_leg(length, north, (struct vec3){ cos(turn), sin(turn), 0 }, 1e9);
	struct pull_leg sag = sb_pull_leg(length, north, (struct vec3){ cos(turn), 0, sin(turn) }, 1e9);
	struct pull_leg crest = sb_pull_leg(length, north, (struct vec3){ cos(turn), 0, -sin(turn) }, 1e9);
	assert_near(sb_pull_contact(&level, &terms, t, w), hypot(t * turn / length, w), 1e-6);
	double across = w * cos(turn / 2);
	assert_near(sb_pull_contact(&sag, &terms, t, w), fabs(t * turn / length - across), 1e-6);
	assert_near(sb_pull_contact(&crest, &terms, t, w), t * turn / length + across, 1e-6);
	/* the same bent legs, by the beam */
	level.bent = sag.bent = crest.bent = 1;
	assert_near(sb_pull_contact(&sag, &terms, t, w),
		2 / length * fabs(sb_pull_beam(2e8, t, length, sag.aside_m, across)), 1e-6);
	assert_near(sb_pull_contact(&crest, &terms, t, w),
		2 / length * sb_pull_beam(2e8, t, length, sag.aside_m, -across), 1e-6);
	assert_near(sb_pull_contact(&level, &terms, t, w),
		hypot(2 / length * sb_pull_beam(2e8, t, length, level.aside_m, 0), w), 1e-6);
}

/* A curve that goes less far aside than the hole leaves room does not bend the pipe. */
static void a_curve_within_the_room_of_the_hole_does_not_bend_the_pipe(void **state)
{
	struct vec3 end = { cos(0.02), sin(0.02), 0 };

	(void)state;
	struct pull_leg leg = sb_pull_leg(30, (struct vec3){ 1, 0, 0 }, end, 0.08);
	assert_near(leg.aside_m, 30 * 0.02 / 8, 1e-5);
	assert_false(leg.bent);
	assert_true(sb_pull_leg(30, (struct vec3){ 1, 0, 0 }, end, 0.07).bent);
}

/* Down a steep slope a heavy pipe runs by itself: the force does not fall below nothing. */
static void a_pipe_that_runs_by_itself_is_not_pushed(void **state)
{
	struct pull_terms terms = { 0.1, 0, 2e8 };

	(void)state;
	struct pull_leg down = sb_pull_leg(100, slope(-30), slope(-30), 0.1);
	assert_near(sb_pull_across(&down, &terms, 1000, 100, 500, -25000), 0, 0);
	assert_near(sb_pull_capstan(&down, 0.1, 1000, 100, 500, -25000), 0, 0);
}

/* ---- polyethylene: PPI handbook, chapter 12, appendix B, example 1, from memory; met within a unit of the
 * last recalled digit, so 1e-3 relative ---- */

static void astm_f1962_as_the_handbook_works_it(void **state)
{
	double od = 24 * inch, dr = 11, rho = 0.0361 * pound / (inch * inch * inch);
	double wa = SB_PI * od * od * (dr - 1) / (dr * dr) * rho * 0.95 * SB_GRAVITY;
	double wb = SB_PI / 4 * od * od * rho * 1.5 * SB_GRAVITY - wa;
	struct f1962 in = { 10 * SB_PI / 180, 15 * SB_PI / 180, 35 * foot, 870 * foot, 100 * foot, 0.4, 0.25,
		wa, wb };
	struct f1962_forces out;
	static const double length_ft[] = { 100, 401.070, 201.549, 267.380 };
	static const double recalled[] = { 2.561e4, 4.853e4, 5.468e4, 5.841e4 };
	static const double recomputed[] = { 25606.5, 48529.3, 54682.2, 58410.9 };

	(void)state;
	assert_near(wa / lbf * foot, 61.54, 61.54e-3);
	assert_near(wb / lbf * foot, 232.41, 232e-3);
	assert_int_equal(sb_pull_f1962(&in, &out), F1962_OK);
	for (int k = 0; k < 4; k++) {
		assert_near(out.length_m[k] / foot, length_ft[k], 6e-4);
		assert_near(out.force_n[k] / lbf, recalled[k], 1e-3 * recalled[k]);
		assert_near(out.force_n[k] / lbf, recomputed[k], 0.2);
	}
	assert_near(sb_pull_hydrokinetic(10 * psi, 36 * inch, 24 * inch) / lbf, 2827.4, 0.05);
	/* breakaway, 1150 psi on the wall: 1.72e5 lb */
	assert_near(1150 * SB_PI * 24 * 24 * (1 / dr - 1 / dr / dr), 171983, 1);
}

/* The same crossing, leg by leg: three legs, each with the force of what still lies outside, are F1962 to the
 * digit; cut ever finer, they come to what it rounds. */
static double carried(const struct f1962 *f, const struct f1962_forces *o, int pieces)
{
	const double turns[] = { f->in_rad, 0, f->out_rad }, rises[] = { f->depth_m, 0, -f->depth_m };
	double outside = exp(f->friction_ground * f->in_rad) * f->friction_ground * f->air_n_m * f->extra_m;
	double t = outside;

	for (int k = 0; k < 3; k++)
		for (int i = 0; i < pieces; i++) {
			double length = o->length_m[k + 1] / pieces;
			struct pull_leg leg = { .length_m = length, .turn_rad = turns[k] / pieces };
			/* a weight that floats is negative, and so is the rise on the way down */
			t = sb_pull_capstan(&leg, f->friction_hole, t, length, -f->float_n_m,
				f->float_n_m * rises[k] / pieces);
		}
	return t;
}

static void polyethylene_leg_by_leg_is_f1962(void **state)
{
	struct f1962 in = { 0.17, 0.25, 11, 270, 30, 0.4, 0.25, 900, 3400 };
	struct f1962_forces out;

	(void)state;
	assert_int_equal(sb_pull_f1962(&in, &out), F1962_OK);
	assert_near(carried(&in, &out, 1) / out.force_n[3], 1, 1e-12);
	double coarse = carried(&in, &out, 50), fine = carried(&in, &out, 400);
	assert_near(coarse / fine, 1, 1e-3);
	assert_near(fine / out.force_n[3], 1, 0.05);
}

static void f1962_refuses_what_its_shape_cannot_be(void **state)
{
	struct f1962 in = { 0.17, 0.25, 11, 200, 30, 0.4, 0.25, 900, 3400 };
	struct f1962_forces out = { { 7, 7, 7, 7 }, { 7, 7, 7, 7 } };

	(void)state;
	assert_int_equal(sb_pull_f1962(&in, &out), F1962_SHORT);
	in.in_rad = 0;
	assert_int_equal(sb_pull_f1962(&in, &out), F1962_RANGE);
	in.in_rad = 0.17;
	in.float_n_m = NAN;
	assert_int_equal(sb_pull_f1962(&in, &out), F1962_RANGE);
	in.float_n_m = 3400;
	in.friction_hole = NAN;
	assert_int_equal(sb_pull_f1962(&in, &out), F1962_RANGE);
	in.friction_hole = -0.1;
	assert_int_equal(sb_pull_f1962(&in, &out), F1962_RANGE);
	in.friction_hole = 0.25;
	in.extra_m = HUGE_VAL;
	assert_int_equal(sb_pull_f1962(&in, &out), F1962_RANGE);
	assert_near(out.force_n[3], 7, 0);
}

/* A force of 0 would pass every limit. */
static void what_is_no_number_makes_no_force(void **state)
{
	const struct vec3 ahead = { 1, 0, 0 };
	const struct pull_leg straight = sb_pull_leg(100, ahead, ahead, 0.1);
	const struct pull_leg curve = sb_pull_leg(100, ahead, (struct vec3){ cos(0.2), 0, sin(0.2) }, 0.1);
	const struct pull_terms terms = { 0.3, 50, 4e7 };

	(void)state;
	assert_true(curve.bent);
	for (int bent = 0; bent < 2; bent++) {
		const struct pull_leg *leg = bent ? &curve : &straight;
		assert_true(isnan(sb_pull_across(leg, &terms, NAN, 100, 500, 0)));
		assert_true(isnan(sb_pull_across(leg, &terms, 1e4, 100, NAN, 0)));
		assert_true(isnan(sb_pull_across(leg, &terms, 1e4, 100, 500, NAN)));
		assert_true(isnan(sb_pull_capstan(leg, 0.3, NAN, 100, 500, 0)));
	}
	assert_true(isnan(sb_pull_beam(4e7, NAN, 100, 1, 500)));
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_beam_is_what_integrating_its_equation_gives),
		cmocka_unit_test(the_beam_has_its_limits),
		cmocka_unit_test(the_pull_of_the_regression_case),
		cmocka_unit_test(a_straight_hole_without_friction_takes_the_plain_weight),
		cmocka_unit_test(many_legs_of_a_rope_are_the_capstan),
		cmocka_unit_test(tension_and_weight_press_as_vectors),
		cmocka_unit_test(a_curve_within_the_room_of_the_hole_does_not_bend_the_pipe),
		cmocka_unit_test(a_pipe_that_runs_by_itself_is_not_pushed),
		cmocka_unit_test(astm_f1962_as_the_handbook_works_it),
		cmocka_unit_test(polyethylene_leg_by_leg_is_f1962),
		cmocka_unit_test(f1962_refuses_what_its_shape_cannot_be),
		cmocka_unit_test(what_is_no_number_makes_no_force),
	};
	return run_tests(tests);
}
