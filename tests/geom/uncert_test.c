/* Covariance along a path: the worked straight bore, the course's derivative against differences, sums
 * against Monte Carlo, and what holds for every bore. */
#include "geom/uncert.h"

#include "course.h"
#include "random.h"

#include <stdlib.h>
#include <string.h>

enum { MOST = 101 };

/* A bore as its readings. borrowed: the entry was not staked. */
struct bore {
	int count; /* stations, the entry among them */
	double inc[MOST], azi[MOST], md[MOST];
	bool carried[MOST];
	bool borrowed;
};

static struct uncert_model model_of(enum uncert_term term, double sigma)
{
	struct uncert_model m = { .sigma = { 0 } };

	m.sigma[term] = sigma;
	return m;
}

/* The sums at every station; returns the last. */
static struct uncert run(const struct uncert_model *m, const struct bore *b, struct uncert *all)
{
	struct attitude attitude[MOST];
	struct uncert u = sb_uncert_begin();

	all[0] = u;
	for (int i = 0; i < b->count; i++)
		attitude[i] = sb_attitude(b->inc[i], b->azi[i]);
	for (int i = 1; i < b->count; i++) {
		struct uncert_station from = { &attitude[i - 1], b->md[i - 1], b->carried[i - 1],
			i == 1 && b->borrowed };
		struct uncert_station to = { &attitude[i], b->md[i], b->carried[i], false };
		struct arc arc;
		assert_int_equal(
			sb_arc_between(&attitude[i - 1], &attitude[i], to.md_m - from.md_m, &arc), ARC_OK);
		all[i] = u = sb_uncert_next(m, &u, &from, &to, &arc, 1);
	}
	return u;
}

/* The straight bore of the check: 600 m, inclination 88, azimuth 30, 61 stations 10 m apart. */
static struct bore straight(double length, int courses)
{
	struct bore b = { .count = courses + 1 };

	for (int i = 0; i <= courses; i++) {
		b.inc[i] = sb_rad(88);
		b.azi[i] = sb_rad(30);
		b.md[i] = length * i / courses;
	}
	return b;
}

struct axes {
	double along, high, lateral;
};

static struct axes axes_of(const struct uncert_model *m, const struct uncert *u, double inc, double azi)
{
	struct sym3 c = sb_uncert_covariance(m, u);

	return (struct axes){
		.along = sb_uncert_along(&c, sb_vec3_heading(inc, azi)),
		.high = sb_uncert_along(&c, sb_vec3_heading(inc + SB_PI / 2, azi)),
		.lateral = sb_uncert_along(&c, sb_vec3_heading(SB_PI / 2, azi + SB_PI / 2)),
	};
}

static struct axes end_of(const struct bore *b, enum uncert_term term, double sigma)
{
	static struct uncert all[MOST];
	struct uncert_model m = model_of(term, sigma);
	struct uncert u = run(&m, b, all);

	return axes_of(&m, &u, b->inc[b->count - 1], b->azi[b->count - 1]);
}

/* Derived, by numerical derivative of minimum curvature and by closed forms that agree to the digits shown:
 * L s, L sin I s, L s, d s sqrt(n - 1/2) for n courses of d, likewise times sin I, sqrt 2 s. */
static void the_worked_straight_bore_has_the_digits_of_its_check(void **state)
{
	const struct {
		enum uncert_term term;
		double sigma;
		struct axes want;
	} rows[] = {
		{ UNCERT_INCLINATION_BIAS, sb_rad(0.1), { 0, 1.04720, 0 } },
		{ UNCERT_AZIMUTH_BIAS, sb_rad(0.3), { 0, 0, 3.13968 } },
		{ UNCERT_DECLINATION, sb_rad(0.3), { 0, 0, 3.13968 } },
		{ UNCERT_DEPTH_SCALE, 1e-3, { 0.60000, 0, 0 } },
		{ UNCERT_INCLINATION_NOISE, sb_rad(0.1), { 0, 0.13463, 0 } },
		{ UNCERT_AZIMUTH_NOISE, sb_rad(0.3), { 0, 0, 0.40364 } },
		{ UNCERT_DEPTH_NOISE, 0.05, { 0.07071, 0, 0 } },
	};
	struct bore b = straight(600, 60);

	(void)state;
	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
		struct axes got = end_of(&b, rows[i].term, rows[i].sigma);
		assert_near(got.along, rows[i].want.along, 5e-6);
		assert_near(got.high, rows[i].want.high, 5e-6);
		assert_near(got.lateral, rows[i].want.lateral, 5e-6);
	}
}

/* Derived: 0.3 degrees of azimuth over 1,000 ft of level bore is 5.236 ft. */
static void a_bias_of_three_tenths_of_a_degree_is_five_feet_in_a_thousand(void **state)
{
	struct bore b = straight(304.8, 32);

	(void)state;
	for (int i = 0; i < b.count; i++)
		b.inc[i] = SB_PI / 2;
	assert_near(end_of(&b, UNCERT_AZIMUTH_BIAS, sb_rad(0.3)).lateral / 0.3048, 5.2, 0.05);
	assert_near(end_of(&b, UNCERT_AZIMUTH_BIAS, sb_rad(0.3)).lateral / 0.3048, 1000 * sb_rad(0.3), 1e-9);
}

/* Derived: 60 joints each uncertain by 0.05 m are uncertain by sqrt(60) 0.05 together. */
static void lengths_of_joints_add_up_and_depths_of_readings_do_not(void **state)
{
	struct bore b = straight(600, 60);

	(void)state;
	assert_near(end_of(&b, UNCERT_LENGTH_NOISE, 0.05).along, sqrt(60) * 0.05, 1e-12);
	assert_near(end_of(&b, UNCERT_DEPTH_NOISE, 0.05).along, sqrt(2) * 0.05, 1e-12);
}

static void shared_errors_grow_with_the_length_and_noise_with_its_root(void **state)
{
	struct bore near = straight(250, 25), far = straight(1000, 100);

	(void)state;
	for (int t = 0; t < UNCERT_SHARED; t++) {
		if (t == UNCERT_CARRIED_BIAS)
			continue;
		struct axes a = end_of(&near, (enum uncert_term)t, 1e-3);
		struct axes c = end_of(&far, (enum uncert_term)t, 1e-3);
		assert_near((c.along + c.high + c.lateral) / (a.along + a.high + a.lateral), 4, 1e-7);
	}
	double grown = end_of(&far, UNCERT_AZIMUTH_NOISE, 1e-3).lateral /
		end_of(&near, UNCERT_AZIMUTH_NOISE, 1e-3).lateral;
	assert_near(grown, sqrt(99.5 / 24.5), 1e-9);
	assert_near(grown, 2, 0.02);
}

/* Derived: a straight bore due east lies across the field: sin 90. Due north it lies along it: none. */
static void magnetism_of_the_string_is_felt_across_the_field_only(void **state)
{
	struct bore b = straight(600, 60);

	(void)state;
	for (int i = 0; i < b.count; i++)
		b.inc[i] = b.azi[i] = SB_PI / 2;
	assert_near(end_of(&b, UNCERT_INTERFERENCE, 0.01).lateral, 6, 1e-9);
	for (int i = 0; i < b.count; i++)
		b.azi[i] = 0;
	assert_near(end_of(&b, UNCERT_INTERFERENCE, 0.01).lateral, 0, 1e-9);
}

static void a_carried_azimuth_has_its_own_errors_and_none_of_the_compass(void **state)
{
	struct bore b = straight(600, 60);
	const enum uncert_term compass[] = { UNCERT_AZIMUTH_BIAS, UNCERT_DECLINATION, UNCERT_INTERFERENCE,
		UNCERT_AZIMUTH_NOISE };

	(void)state;
	assert_near(end_of(&b, UNCERT_CARRIED_BIAS, 0.01).lateral, 0, 0);
	for (int i = 0; i < b.count; i++)
		b.carried[i] = true;
	for (int i = 0; i < 4; i++)
		assert_near(end_of(&b, compass[i], 0.01).lateral, 0, 0);
	assert_near(end_of(&b, UNCERT_CARRIED_BIAS, sb_rad(0.3)).lateral, 3.13968, 5e-6);
	assert_near(end_of(&b, UNCERT_CARRIED_NOISE, sb_rad(0.3)).lateral, 0.40364, 5e-6);
}

/* Derived: the first reading stands at both ends of its course, so its noise counts for all of that course
 * and half of the next: d s sqrt((3/2)^2 + (n - 2) + 1/4). */
static void an_entry_that_was_not_staked_errs_as_the_first_reading_does(void **state)
{
	struct bore b = straight(600, 60);

	(void)state;
	b.borrowed = true;
	double want = 10 * sb_rad(0.3) * sin(sb_rad(88)) * sqrt(2.25 + 58 + 0.25);
	assert_near(end_of(&b, UNCERT_AZIMUTH_NOISE, sb_rad(0.3)).lateral, want, 1e-9);
	assert_near(end_of(&b, UNCERT_AZIMUTH_BIAS, sb_rad(0.3)).lateral, 3.13968, 5e-6);
}

/* Derived: s m past the last station it is (d/2 + s) times that station's noise, and d that of the others
 * but the first. */
static void a_bit_on_a_held_heading_errs_with_the_last_reading(void **state)
{
	static struct uncert all[MOST];
	struct bore b = straight(600, 60);
	struct uncert_model m = model_of(UNCERT_INCLINATION_NOISE, 0.001);
	struct uncert at = run(&m, &b, all);
	struct attitude heading = sb_attitude(b.inc[60], b.azi[60]);
	struct uncert_station from = { &heading, 600, false, false }, to = { &heading, 618, false, true };
	struct arc arc;

	(void)state;
	assert_int_equal(sb_arc_between(&heading, &heading, 18, &arc), ARC_OK);
	struct uncert bit = sb_uncert_next(&m, &at, &from, &to, &arc, 0);
	struct axes got = axes_of(&m, &bit, heading.inc_rad, heading.azi_rad);
	assert_near(got.high, 0.001 * sqrt(25 + 59 * 100.0 + 23 * 23), 1e-9);
	struct uncert_model depth = model_of(UNCERT_DEPTH_NOISE, 0.05);
	at = run(&depth, &b, all);
	bit = sb_uncert_next(&depth, &at, &from, &to, &arc, 0);
	got = axes_of(&depth, &bit, heading.inc_rad, heading.azi_rad);
	assert_near(got.along, sqrt(2) * 0.05, 1e-12);
}

/* ---- the derivative ---- */

static struct vec3 step_of(double i1, double a1, double i2, double a2, double length)
{
	struct attitude from = sb_attitude(i1, a1), to = sb_attitude(i2, a2);
	struct arc arc = { 0 };

	sb_arc_between(&from, &to, length, &arc);
	return arc.step;
}

/* By central differences at two widths and Richardson's step: good to about 1e-10 of the length. */
static struct vec3 difference(const double x[4], int which, double length)
{
	struct vec3 d[2];

	for (int k = 0; k < 2; k++) {
		double h = 1e-3 / (k + 1), up[4], down[4];
		memcpy(up, x, sizeof up);
		memcpy(down, x, sizeof down);
		up[which] += h;
		down[which] -= h;
		d[k] = sb_vec3_scale(sb_vec3_sub(step_of(up[0], up[1], up[2], up[3], length),
					     step_of(down[0], down[1], down[2], down[3], length)),
			1 / (2 * h));
	}
	return sb_vec3_scale(sb_vec3_sub(sb_vec3_scale(d[1], 4), d[0]), 1 / 3.0);
}

static void check_derivative(const double x[4], double length)
{
	struct attitude from = sb_attitude(x[0], x[1]), to = sb_attitude(x[2], x[3]);
	struct arc arc;

	assert_int_equal(sb_arc_between(&from, &to, length, &arc), ARC_OK);
	struct uncert_course c = sb_uncert_course(&from, &to, &arc);
	assert_vector_near(c.by_inc_from, difference(x, 0, length), 1e-9 * length);
	assert_vector_near(c.by_azi_from, difference(x, 1, length), 1e-9 * length);
	assert_vector_near(c.by_inc_to, difference(x, 2, length), 1e-9 * length);
	assert_vector_near(c.by_azi_to, difference(x, 3, length), 1e-9 * length);
}

static void the_derivative_of_a_course_is_that_of_small_differences(void **state)
{
	struct random r = { 20 };

	(void)state;
	for (int i = 0; i < 2000; i++) {
		/* from no bend at all to some 60 degrees, most of them small */
		double bend = pow(10, random_between(&r, -9, -0.3)), inc = random_between(&r, 0.6, 2.5);
		double azi = random_between(&r, 0, 6.28);
		const double x[4] = { inc, azi, inc + bend * random_between(&r, -1, 1),
			azi + bend * random_between(&r, -1, 1) };
		check_derivative(x, random_between(&r, 0.1, 40));
	}
	const double level[4] = { SB_PI / 2, 0, SB_PI / 2, 0 };
	check_derivative(level, 10);
}

static void series_and_formula_meet_where_they_change_over(void **state)
{
	(void)state;
	for (int i = -1; i <= 1; i++) {
		const double x[4] = { 1.5, 1, 1.6 + 1e-6 * i, 1 };
		check_derivative(x, 10);
	}
}

static void a_course_that_turns_right_back_has_a_finite_derivative(void **state)
{
	struct attitude from = attitude_of(90, 0), to = attitude_of(90, 180);
	struct arc arc;

	(void)state;
	sb_arc_between(&from, &to, 10, &arc);
	struct uncert_course c = sb_uncert_course(&from, &to, &arc);
	assert_vector_near(c.by_inc_from, ((struct vec3){ 0, 0, 5 }), 1e-12);
	assert_vector_near(c.by_azi_to, ((struct vec3){ 0, -5, 0 }), 1e-12);
}

static void a_vertical_station_and_a_course_of_no_length_are_finite(void **state)
{
	struct attitude down = attitude_of(0, 45);
	struct arc arc;

	(void)state;
	sb_arc_between(&down, &down, 10, &arc);
	struct uncert_course c = sb_uncert_course(&down, &down, &arc);
	assert_vector_near(c.by_inc_from, ((struct vec3){ 5 * sqrt(0.5), 5 * sqrt(0.5), 0 }), 1e-12);
	assert_vector_near(c.by_azi_from, ((struct vec3){ 0, 0, 0 }), 0);
	struct uncert_model m = model_of(UNCERT_DEPTH_NOISE, 1);
	struct uncert_station s = { &down, 0, false, false };
	struct uncert u = sb_uncert_begin();
	sb_arc_between(&down, &down, 0, &arc);
	u = sb_uncert_next(&m, &u, &s, &s, &arc, 1);
	struct sym3 noise = sb_uncert_noise(&u);
	assert_near(noise.uu, 2, 1e-12);
}

/* ---- Monte Carlo ---- */

/* All terms at once, larger than in life where that does not yet bend the answer. */
static const struct uncert_model everything = {
	.sigma = { [UNCERT_INCLINATION_BIAS] = 0.002,
		[UNCERT_AZIMUTH_BIAS] = 0.004,
		[UNCERT_DECLINATION] = 0.005,
		[UNCERT_INTERFERENCE] = 0.006,
		[UNCERT_CARRIED_BIAS] = 0.003,
		[UNCERT_DEPTH_SCALE] = 0.001,
		[UNCERT_INCLINATION_NOISE] = 0.004,
		[UNCERT_AZIMUTH_NOISE] = 0.01,
		[UNCERT_CARRIED_NOISE] = 0.006,
		[UNCERT_DEPTH_NOISE] = 0.05,
		[UNCERT_LENGTH_NOISE] = 0.03 },
	.to_magnetic_rad = 0.2,
};

/* A crossing: down at 12 degrees, level, up again, bending left on the way, some azimuths carried. */
static struct bore crossing(int courses, double joint)
{
	struct bore b = { .count = courses + 1 };

	for (int i = 0; i <= courses; i++) {
		double x = 2.0 * i / courses - 1;
		b.inc[i] = SB_PI / 2 + 0.21 * x * x * x + 0.002 * sin(2.3 * i);
		b.azi[i] = 1.1 - 0.15 * (1 + x) + 0.003 * sin(3.1 * i);
		b.md[i] = joint * i;
		b.carried[i] = i > courses / 3 && i < courses / 2;
	}
	return b;
}

/* The bore as its readings would be with one draw of every error. `length`: what has come together of the
 * joints. */
static void err(const struct uncert_model *m, const struct bore *b, struct random *r, struct bore *out)
{
	double shared[UNCERT_SHARED], length = 0;

	*out = *b;
	for (int t = 0; t < UNCERT_SHARED; t++)
		shared[t] = m->sigma[t] * random_normal(r);
	for (int i = 0; i < b->count; i++) {
		double across = sin(b->inc[i]) * sin(b->azi[i] + m->to_magnetic_rad);
		double noise = m->sigma[b->carried[i] ? UNCERT_CARRIED_NOISE : UNCERT_AZIMUTH_NOISE];
		out->inc[i] += shared[UNCERT_INCLINATION_BIAS] +
			m->sigma[UNCERT_INCLINATION_NOISE] * random_normal(r);
		out->azi[i] += noise * random_normal(r);
		out->azi[i] += b->carried[i] ? shared[UNCERT_CARRIED_BIAS]
					     : shared[UNCERT_AZIMUTH_BIAS] + shared[UNCERT_DECLINATION] +
				across * shared[UNCERT_INTERFERENCE];
		length += i > 0 ? m->sigma[UNCERT_LENGTH_NOISE] * random_normal(r) : 0;
		out->md[i] += shared[UNCERT_DEPTH_SCALE] * b->md[i] + length +
			m->sigma[UNCERT_DEPTH_NOISE] * random_normal(r);
	}
	if (b->borrowed) {
		out->inc[0] = out->inc[1];
		out->azi[0] = out->azi[1];
	}
}

/* Positions of two stations of a bore: `mark` and the last. */
static void places(const struct bore *b, int mark, double at[6])
{
	struct vec3 p = { 0, 0, 0 };
	struct attitude from = sb_attitude(b->inc[0], b->azi[0]);

	for (int i = 1; i < b->count; i++) {
		struct attitude to = sb_attitude(b->inc[i], b->azi[i]);
		struct arc arc = { 0 };
		sb_arc_between(&from, &to, b->md[i] - b->md[i - 1], &arc);
		p = sb_vec3_add(p, arc.step);
		from = to;
		if (i == mark) {
			at[0] = p.n;
			at[1] = p.e;
			at[2] = p.u;
		}
	}
	at[3] = p.n;
	at[4] = p.e;
	at[5] = p.u;
}

static void expected(const struct bore *b, int mark, double want[6][6])
{
	static struct uncert all[MOST];
	struct uncert end = run(&everything, b, all), at = all[mark];
	const struct uncert *ends[2] = { &at, &end };
	double common[3][3];

	sb_uncert_common(&at, &all[mark + 1], common);
	for (int k = 0; k < 2; k++) {
		struct sym3 c = sb_uncert_covariance(&everything, ends[k]);
		const double full[3][3] = { { c.nn, c.ne, c.nu }, { c.ne, c.ee, c.eu },
			{ c.nu, c.eu, c.uu } };
		for (int i = 0; i < 9; i++)
			want[3 * k + i / 3][3 * k + i % 3] = full[i / 3][i % 3];
	}
	for (int t = 0; t < UNCERT_SHARED; t++) {
		const struct vec3 *p = &at.shared[t], *q = &end.shared[t];
		const double a[3] = { p->n, p->e, p->u }, c[3] = { q->n, q->e, q->u };
		for (int i = 0; i < 9; i++)
			common[i / 3][i % 3] +=
				everything.sigma[t] * everything.sigma[t] * a[i / 3] * c[i % 3];
	}
	for (int i = 0; i < 9; i++) {
		want[i / 3][3 + i % 3] = common[i / 3][i % 3];
		want[3 + i % 3][i / 3] = common[i / 3][i % 3];
	}
}

/* A covariance from n draws is itself uncertain by sqrt((1 + r^2) / n) of the two sigmas: 0.45 percent at
 * most with 100,000. */
static void check_draws(const struct bore *b, int mark, int draws, double share, uint64_t seed)
{
	struct random r = { seed };
	struct bore drawn;
	double mean[6], sum[6] = { 0 }, squares[6][6] = { { 0 } }, want[6][6];

	places(b, mark, mean);
	expected(b, mark, want);
	for (int n = 0; n < draws; n++) {
		double at[6];
		err(&everything, b, &r, &drawn);
		places(&drawn, mark, at);
		for (int i = 0; i < 6; i++) {
			at[i] -= mean[i];
			sum[i] += at[i];
			for (int j = 0; j <= i; j++)
				squares[i][j] += at[i] * at[j];
		}
	}
	for (int i = 0; i < 6; i++)
		for (int j = 0; j <= i; j++) {
			double got = squares[i][j] / draws - sum[i] / draws * (sum[j] / draws);
			double scale = sqrt(want[i][i] * want[j][j]);
			assert_near(got / scale, want[i][j] / scale, share);
		}
}

static void a_crossing_errs_as_a_hundred_thousand_draws_do(void **state)
{
	struct bore b = crossing(40, 10);

	(void)state;
	check_draws(&b, 13, 100000, 0.02, 1);
}

/* Four and a half times sqrt(2 / 20000). */
static void other_crossings_err_as_twenty_thousand_draws_do(void **state)
{
	(void)state;
	for (int i = 0; i < 3; i++) {
		struct bore b = crossing(12 + 9 * i, 9.6 - i);
		b.borrowed = i > 0;
		check_draws(&b, 1 + 5 * i, 20000, 0.045, (uint64_t)(100 + i));
	}
}

/* ---- what holds for every bore ---- */

static void a_station_more_changes_nothing_behind_it(void **state)
{
	static struct uncert some[MOST], all[MOST];
	struct bore b = crossing(40, 10), shorter = b;

	(void)state;
	shorter.count = 20;
	run(&everything, &b, all);
	run(&everything, &shorter, some);
	assert_memory_equal(all, some, 20 * sizeof *all);
}

static void a_bore_turned_about_the_vertical_is_as_uncertain(void **state)
{
	static struct uncert all[MOST];
	struct bore b = crossing(40, 10), turned = b;
	struct uncert_model m = everything, m2 = everything;

	(void)state;
	for (int i = 0; i < b.count; i++)
		turned.azi[i] += 0.7;
	m2.to_magnetic_rad -= 0.7; /* north turns with it */
	struct uncert u = run(&m, &b, all), v = run(&m2, &turned, all);
	struct axes one = axes_of(&m, &u, b.inc[40], b.azi[40]);
	struct axes other = axes_of(&m2, &v, turned.inc[40], turned.azi[40]);
	assert_near(one.along, other.along, 1e-12);
	assert_near(one.high, other.high, 1e-12);
	assert_near(one.lateral, other.lateral, 1e-12);
}

static void every_term_has_a_name_of_its_own(void **state)
{
	(void)state;
	for (int t = 0; t < UNCERT_TERMS; t++) {
		assert_non_null(sb_uncert_sorts[t].name);
		assert_int_equal(sb_uncert_sorts[t].spread == UNCERT_RANDOM, t >= UNCERT_SHARED);
		for (int other = 0; other < t; other++)
			assert_string_not_equal(sb_uncert_sorts[t].name, sb_uncert_sorts[other].name);
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_worked_straight_bore_has_the_digits_of_its_check),
		cmocka_unit_test(a_bias_of_three_tenths_of_a_degree_is_five_feet_in_a_thousand),
		cmocka_unit_test(lengths_of_joints_add_up_and_depths_of_readings_do_not),
		cmocka_unit_test(shared_errors_grow_with_the_length_and_noise_with_its_root),
		cmocka_unit_test(magnetism_of_the_string_is_felt_across_the_field_only),
		cmocka_unit_test(a_carried_azimuth_has_its_own_errors_and_none_of_the_compass),
		cmocka_unit_test(an_entry_that_was_not_staked_errs_as_the_first_reading_does),
		cmocka_unit_test(a_bit_on_a_held_heading_errs_with_the_last_reading),
		cmocka_unit_test(the_derivative_of_a_course_is_that_of_small_differences),
		cmocka_unit_test(series_and_formula_meet_where_they_change_over),
		cmocka_unit_test(a_course_that_turns_right_back_has_a_finite_derivative),
		cmocka_unit_test(a_vertical_station_and_a_course_of_no_length_are_finite),
		cmocka_unit_test(a_crossing_errs_as_a_hundred_thousand_draws_do),
		cmocka_unit_test(other_crossings_err_as_twenty_thousand_draws_do),
		cmocka_unit_test(a_station_more_changes_nothing_behind_it),
		cmocka_unit_test(a_bore_turned_about_the_vertical_is_as_uncertain),
		cmocka_unit_test(every_term_has_a_name_of_its_own),
	};

	return run_tests(tests);
}
