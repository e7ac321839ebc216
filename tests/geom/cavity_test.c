/* The limit of cavity expansion against derived cases, against integrating the yielded zone, and at its ends.
 * No published example with figures could be read; the cases are derived, no publication. */
#include "geom/cavity.h"

#include "geom/angle.h"
#include "random.h"
#include "support/near.h"

static struct cavity kpa(double u, double s, double c, double phi, double g)
{
	return (struct cavity){ u * 1e3, s * 1e3, c * 1e3, sb_rad(phi), g * 1e3, 0.15, 5, HUGE_VAL };
}

static double limit_kpa(struct cavity c)
{
	struct cavity_limit l;

	assert_int_equal(sb_cavity_limit(&c, &l), CAVITY_OK);
	return l.limit_pa / 1e3;
}

static void sand_clay_and_between(void **state)
{
	(void)state;
	assert_near(limit_kpa(kpa(98.1, 101.9, 0, 35, 7000)), 982.0338, 5e-5);
	assert_near(limit_kpa(kpa(98.1, 101.9, 10, 25, 5000)), 740.8443, 5e-5);
	assert_near(limit_kpa(kpa(98.1, 81.9, 40, 0, 4000)), 400.7597, 5e-5);
}

static void friction_that_vanishes_comes_to_clay(void **state)
{
	double clay = limit_kpa(kpa(98.1, 81.9, 40, 0, 4000));

	(void)state;
	assert_near(limit_kpa(kpa(98.1, 81.9, 40, 0.001, 4000)), 400.7734, 5e-5);
	for (int e = -4; e > -300; e--) {
		double phi = pow(10, e);
		assert_near(limit_kpa(kpa(98.1, 81.9, 40, phi, 4000)), clay, 14 * phi + 1e-9);
	}
}

/* The second way: from the rim of the yielded zone, where the stress is that at yield, inwards to the hole's
 * wall, d stress / dr = -(stress - hoop stress)/r with Mohr and Coulomb's hoop stress, Runge and Kutta in ln
 * r; the wall lies where the area that moved at the rim says (its square left out, as in the formula). */
static double slope(double stress, double phi, double cohesion)
{
	double hoop = (stress * (1 - sin(phi)) - 2 * cohesion * cos(phi)) / (1 + sin(phi));

	return stress - hoop;
}

static double integrated(const struct cavity *c)
{
	double strength = c->stress_pa * sin(c->friction_rad) + c->cohesion_pa * cos(c->friction_rad);
	double wall2 = c->hole_m * c->hole_m + c->plastic_m * c->plastic_m * strength / c->shear_pa;
	double p = c->stress_pa + strength, phi = c->friction_rad, coh = c->cohesion_pa;
	int steps = 2000;
	double h = log(c->plastic_m / sqrt(wall2)) / steps;

	for (int i = 0; i < steps; i++) {
		double a = slope(p, phi, coh), b = slope(p + h / 2 * a, phi, coh);
		double d = slope(p + h / 2 * b, phi, coh), e = slope(p + h * d, phi, coh);
		p += h / 6 * (a + 2 * b + 2 * d + e);
	}
	return c->pore_pa + p;
}

static void integrating_the_yielded_zone_gives_the_same(void **state)
{
	struct random r = { 21 };

	(void)state;
	for (int i = 0; i < 300; i++) {
		struct cavity c =
			kpa(random_between(&r, 0, 200), random_between(&r, 5, 300), random_between(&r, 0, 60),
				i % 3 ? random_between(&r, 0, 45) : 0, random_between(&r, 1500, 2e4));
		c.hole_m = random_between(&r, 0.05, 0.5);
		c.plastic_m = random_between(&r, 1, 12);
		if (c.cohesion_pa == 0 && c.friction_rad == 0)
			continue;
		assert_near(limit_kpa(c), integrated(&c) / 1e3, 1e-9 * integrated(&c) / 1e3);
	}
}

static void more_stress_strength_stiffness_and_room_bear_more(void **state)
{
	(void)state;
	for (int i = 1; i < 40; i++) {
		struct cavity a = kpa(50, 40 + 5 * i, 5, 20, 3000), b = kpa(50, 45 + 5 * i, 5, 20, 3000);
		assert_true(limit_kpa(b) > limit_kpa(a));
		a = kpa(50, 100, i, 20, 3000), b = kpa(50, 100, i + 1, 20, 3000);
		assert_true(limit_kpa(b) > limit_kpa(a));
		a = kpa(50, 100, 5, i, 3000), b = kpa(50, 100, 5, i + 1, 3000);
		assert_true(limit_kpa(b) > limit_kpa(a));
		a = kpa(50, 100, 5, 20, 500 * i), b = kpa(50, 100, 5, 20, 500 * i + 500);
		assert_true(limit_kpa(b) > limit_kpa(a));
		a = b = kpa(50, 100, 5, 20, 3000);
		a.plastic_m = 0.2 * i, b.plastic_m = 0.2 * i + 0.2;
		assert_true(limit_kpa(b) > limit_kpa(a) - 1e-9);
	}
}

/* Pore pressure counts once whatever the ground. */
static void water_adds_its_own_pressure(void **state)
{
	(void)state;
	assert_near(limit_kpa(kpa(98.1, 60, 5, 25, 3000)) - limit_kpa(kpa(0, 60, 5, 25, 3000)), 98.1, 1e-9);
}

static void with_no_room_to_yield_the_wall_alone_counts(void **state)
{
	struct cavity c = kpa(20, 10, 0, 30, 3000);
	struct cavity_limit l;

	(void)state;
	c.plastic_m = 0.05;
	assert_int_equal(sb_cavity_limit(&c, &l), CAVITY_OK);
	assert_int_equal(l.rule, CAVITY_WALL);
	assert_near(l.limit_pa, 20e3 + 10e3 * 1.5, 1e-6);
	assert_near(l.limit_pa, l.yield_pa, 1e-9);
	c.shear_pa = 1; /* ground like soup: no more than its yield */
	c.plastic_m = 5;
	assert_int_equal(sb_cavity_limit(&c, &l), CAVITY_OK);
	assert_near(l.limit_pa, 35e3, 1e-6);
}

/* Kirsch 1898: in elastic ground of even stress s the hoop stress at a hole's wall is 2 s - p. */
static void stiff_clay_near_the_surface_parts_before_it_yields(void **state)
{
	struct cavity c = kpa(10, 30, 60, 0, 8000);
	struct cavity_limit l;

	(void)state;
	c.tension_pa = 5e3;
	assert_int_equal(sb_cavity_limit(&c, &l), CAVITY_OK);
	assert_int_equal(l.rule, CAVITY_TENSION);
	assert_near(2 * 30e3 - (l.limit_pa - 10e3), -5e3, 1e-6);
	assert_true(l.limit_pa < l.yield_pa);
	/* just where yielding comes first the two meet */
	c.tension_pa = 30e3;
	assert_int_equal(sb_cavity_limit(&c, &l), CAVITY_OK);
	assert_int_equal(l.rule, CAVITY_PLASTIC);
	c.tension_pa = 30e3 - 1e-6;
	double yield = l.yield_pa;
	assert_int_equal(sb_cavity_limit(&c, &l), CAVITY_OK);
	assert_int_equal(l.rule, CAVITY_TENSION);
	assert_near(l.limit_pa, yield, 1e-3);
	/* sand never does: half of its stress is always left */
	c = kpa(10, 30, 0, 35, 8000);
	c.tension_pa = 0;
	assert_int_equal(sb_cavity_limit(&c, &l), CAVITY_OK);
	assert_int_equal(l.rule, CAVITY_PLASTIC);
}

static void ground_that_floats_bears_nothing_and_bad_values_are_refused(void **state)
{
	struct cavity_limit l = { .limit_pa = 7 };
	struct cavity c = kpa(98.1, 0, 10, 25, 5000);

	(void)state;
	assert_int_equal(sb_cavity_limit(&c, &l), CAVITY_AFLOAT);
	c.stress_pa = -5e3;
	assert_int_equal(sb_cavity_limit(&c, &l), CAVITY_AFLOAT);
	c = kpa(98.1, 101.9, 10, 25, 0);
	assert_int_equal(sb_cavity_limit(&c, &l), CAVITY_BAD);
	c = kpa(98.1, 101.9, 10, 90, 5000);
	assert_int_equal(sb_cavity_limit(&c, &l), CAVITY_BAD);
	c = kpa(98.1, (double)NAN, 10, 25, 5000);
	assert_int_equal(sb_cavity_limit(&c, &l), CAVITY_BAD);
	c = kpa(98.1, 101.9, -1, 25, 5000);
	assert_int_equal(sb_cavity_limit(&c, &l), CAVITY_BAD);
	c = kpa(98.1, 101.9, 10, 25, 5000);
	c.hole_m = 0;
	assert_int_equal(sb_cavity_limit(&c, &l), CAVITY_BAD);
	c = kpa(98.1, 101.9, 0, 0, 5000); /* nothing holds it, and no end to where it may yield */
	c.plastic_m = HUGE_VAL;
	assert_int_equal(sb_cavity_limit(&c, &l), CAVITY_BAD);
	assert_near(l.limit_pa, 7, 0);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(sand_clay_and_between),
		cmocka_unit_test(friction_that_vanishes_comes_to_clay),
		cmocka_unit_test(integrating_the_yielded_zone_gives_the_same),
		cmocka_unit_test(more_stress_strength_stiffness_and_room_bear_more),
		cmocka_unit_test(water_adds_its_own_pressure),
		cmocka_unit_test(with_no_room_to_yield_the_wall_alone_counts),
		cmocka_unit_test(stiff_clay_near_the_surface_parts_before_it_yields),
		cmocka_unit_test(ground_that_floats_bears_nothing_and_bad_values_are_refused),
	};

	return run_tests(tests);
}
