/* The roll test against made tools: exact without noise, the same as a general solver with it, and as sure as
 * it says. */
#include "geom/angle.h"
#include "geom/roll.h"

#include "random.h"
#include "support/near.h"

#include <string.h>

#define READINGS 16

/* A tool with faults, in a bore that falls 8 degrees to the magnetic south-east. */
struct tool {
	struct roll_values gravity, field; /* bias, ratio and lean of each */
	double gravity_noise, field_noise;
};

static const struct tool faulty = {
	.gravity = { .bias_x = 0.0021,
		.bias_y = -0.0013,
		.ratio = 1.0008,
		.lean_x = 0.002,
		.lean_y = -0.0015 },
	.field = { .bias_x = 140, .bias_y = -95, .ratio = 0.998, .lean_x = -0.003, .lean_y = 0.001 },
	.gravity_noise = 3e-4,
	.field_noise = 30,
};

static struct triad spoil(const struct roll_values *v, struct triad t, double noise, struct random *r)
{
	struct triad out = { v->bias_x + t.x, v->bias_y + v->ratio * t.y,
		t.z + v->lean_x * t.x + v->lean_y * t.y };

	if (noise > 0) {
		out.x += noise * random_normal(r);
		out.y += noise * random_normal(r);
		out.z += noise * random_normal(r);
	}
	return out;
}

static void read_tool(const struct tool *tool, const double *faces, size_t count, struct random *noise,
	struct sensor_vectors *out)
{
	for (size_t i = 0; i < count; i++) {
		struct sensor_attitude a = { .inc_rad = sb_rad(82),
			.azi_rad = sb_rad(130),
			.face_rad = sb_rad(faces[i]),
			.gravity = 1,
			.field = 50000,
			.dip_rad = sb_rad(66) };
		struct sensor_vectors v;
		assert_int_equal(sb_sensor_vectors(&a, &v), SENSOR_OK);
		out[i].gravity = spoil(&tool->gravity, v.gravity, noise ? tool->gravity_noise : 0, noise);
		out[i].field = spoil(&tool->field, v.field, noise ? tool->field_noise : 0, noise);
	}
}

static void spread_evenly(double first, size_t count, double *faces)
{
	for (size_t i = 0; i < count; i++)
		faces[i] = first + 360.0 * (double)i / (double)count;
}

static void assert_found(
	const struct roll_values *got, const struct roll_values *want, double unit, double tolerance)
{
	assert_near(got->bias_x, want->bias_x, tolerance * unit);
	assert_near(got->bias_y, want->bias_y, tolerance * unit);
	assert_near(got->ratio, want->ratio, tolerance);
	assert_near(got->lean_x, want->lean_x, tolerance);
	assert_near(got->lean_y, want->lean_y, tolerance);
}

static struct roll_fit fit(
	const struct sensor_vectors *v, size_t count, enum roll_sensor sensor, double sigma)
{
	struct roll_fit out;

	memset(&out, 0, sizeof out);
	assert_int_equal(sb_roll_fit(v, count, sensor, sigma, &out, NULL), ROLL_OK);
	return out;
}

/* ---- without noise ---- */

static void what_is_wrong_with_a_tool_comes_back_exactly(void **state)
{
	static const double uneven[] = { 10, 40, 95, 100, 170, 215, 230, 300, 335 };
	struct sensor_vectors v[READINGS];

	(void)state;
	read_tool(&faulty, uneven, 9, NULL, v);
	struct roll_fit gravity = fit(v, 9, ROLL_GRAVITY, 0), field = fit(v, 9, ROLL_FIELD, 0);
	assert_true(gravity.ratio_seen && field.ratio_seen);
	assert_found(&gravity.found, &faulty.gravity, 1, 1e-12);
	assert_found(&field.found, &faulty.field, 50000, 1e-12);
	assert_near(gravity.found.radius, sin(sb_rad(82)), 1e-12);
	assert_near(gravity.found.along, cos(sb_rad(82)), 1e-12);
	assert_near(gravity.noise, 0, 1e-14);
}

static void four_quarter_turns_tell_bias_and_lean_but_not_the_ratio(void **state)
{
	struct tool tool = faulty;
	struct sensor_vectors v[READINGS];
	double faces[READINGS];

	(void)state;
	tool.gravity.ratio = 1;
	for (int first = 0; first < 90; first += 15) {
		spread_evenly(first, 4, faces);
		read_tool(&tool, faces, 4, NULL, v);
		struct roll_fit got = fit(v, 4, ROLL_GRAVITY, 0);
		assert_false(got.ratio_seen);
		assert_found(&got.found, &tool.gravity, 1, 1e-12);
		/* closed form: turned by quarters, the true components cancel in the mean */
		double mean = (v[0].gravity.x + v[1].gravity.x + v[2].gravity.x + v[3].gravity.x) / 4;
		assert_near(got.found.bias_x, mean, 1e-12);
	}
}

static void corrected_readings_agree_at_every_roll(void **state)
{
	struct sensor_vectors v[READINGS];
	double faces[READINGS], first_azi = 0;

	(void)state;
	spread_evenly(7, 12, faces);
	read_tool(&faulty, faces, 12, NULL, v);
	struct roll_fit gravity = fit(v, 12, ROLL_GRAVITY, 0), field = fit(v, 12, ROLL_FIELD, 0);
	for (size_t i = 0; i < 12; i++) {
		struct sensor_vectors c = { sb_roll_correct(&gravity.found, v[i].gravity),
			sb_roll_correct(&field.found, v[i].field) };
		struct sensor_attitude raw, a;
		assert_int_equal(sb_sensor_attitude(&c, &a), SENSOR_OK);
		assert_int_equal(sb_sensor_attitude(&v[i], &raw), SENSOR_OK);
		assert_near(sb_deg(a.inc_rad), 82, 1e-9);
		assert_near(sb_deg(a.azi_rad), 130, 1e-9);
		first_azi = fmax(first_azi, fabs(sb_deg(raw.azi_rad) - 130));
	}
	assert_true(first_azi > 0.2); /* it was worth while */
}

/* ---- with noise: the same as a general solver ---- */

/* Levenberg and Marquardt with slopes by differences: every roll is an unknown like the others, and nothing
 * of the problem's own shape is used. Unknowns: bias x, y, radius, ratio, then along and leans if z is in it,
 * then the rolls. */
#define UNKNOWNS (7 + READINGS)
struct general {
	const struct sensor_vectors *v;
	size_t count;
	bool with_z;
};

static size_t misfit(const struct general *g, const double *u, double *out)
{
	size_t m = 0, rolls = g->with_z ? 7 : 4;

	for (size_t i = 0; i < g->count; i++) {
		double x = -u[2] * cos(u[rolls + i]), y = u[2] * sin(u[rolls + i]);
		struct triad t = g->v[i].gravity;
		out[m++] = t.x - u[0] - x;
		out[m++] = t.y - u[1] - u[3] * y;
		if (g->with_z)
			out[m++] = t.z - u[4] - u[5] * x - u[6] * y;
	}
	return m;
}

static double square(const double *r, size_t m)
{
	double sum = 0;
	for (size_t i = 0; i < m; i++)
		sum += r[i] * r[i];
	return sum;
}

static void eliminate(double a[UNKNOWNS][UNKNOWNS + 1], size_t n)
{
	for (size_t i = 0; i < n; i++) {
		size_t pivot = i;
		for (size_t k = i + 1; k < n; k++)
			if (fabs(a[k][i]) > fabs(a[pivot][i]))
				pivot = k;
		for (size_t j = 0; j <= n; j++) {
			double swap = a[i][j];
			a[i][j] = a[pivot][j];
			a[pivot][j] = swap;
		}
		for (size_t k = 0; k < n; k++) {
			double times = a[k][i] / a[i][i];
			for (size_t j = i; k != i && j <= n; j++)
				a[k][j] -= times * a[i][j];
		}
	}
}

static void general_step(const struct general *g, const double *u, size_t n, double damping, double *step)
{
	static double slope[3 * READINGS][UNKNOWNS], low[3 * READINGS], high[3 * READINGS], now[3 * READINGS];
	double a[UNKNOWNS][UNKNOWNS + 1] = { { 0 } }, w[UNKNOWNS];
	size_t m = misfit(g, u, now);

	for (size_t k = 0; k < n; k++) {
		memcpy(w, u, n * sizeof *w);
		w[k] = u[k] - 1e-5;
		misfit(g, w, low);
		w[k] = u[k] + 1e-5;
		misfit(g, w, high);
		for (size_t i = 0; i < m; i++)
			slope[i][k] = (high[i] - low[i]) / 2e-5;
	}
	for (size_t r = 0; r < n; r++) {
		for (size_t c = 0; c < n; c++)
			for (size_t i = 0; i < m; i++)
				a[r][c] += slope[i][r] * slope[i][c];
		a[r][r] *= 1 + damping;
		for (size_t i = 0; i < m; i++)
			a[r][n] -= slope[i][r] * now[i];
	}
	eliminate(a, n);
	for (size_t k = 0; k < n; k++)
		step[k] = a[k][n] / a[k][k];
}

static void general_solve(const struct general *g, const double *faces, double *u)
{
	size_t first = g->with_z ? 7 : 4, n = first + g->count;
	double damping = 1e-3, step[UNKNOWNS], trial[UNKNOWNS], r[3 * READINGS];

	memset(u, 0, UNKNOWNS * sizeof *u);
	u[2] = 0.9;
	u[3] = 1;
	for (size_t i = 0; i < g->count; i++)
		u[first + i] = sb_rad(faces[i]) + 0.1;
	for (int round = 0; round < 200; round++) {
		double before = square(r, misfit(g, u, r));
		general_step(g, u, n, damping, step);
		for (size_t k = 0; k < n; k++)
			trial[k] = u[k] + step[k];
		bool better = square(r, misfit(g, trial, r)) <= before;
		if (better)
			memcpy(u, trial, n * sizeof *u);
		damping = better ? damping / 10 : damping * 10;
	}
}

static void the_circle_is_that_of_a_general_solver(void **state)
{
	struct random r = { 21 };

	(void)state;
	for (int n = 0; n < 20; n++) {
		struct sensor_vectors v[READINGS];
		double faces[READINGS], u[UNKNOWNS];
		size_t count = 7 + (size_t)n % 6;
		spread_evenly(random_between(&r, 0, 360), count, faces);
		for (size_t i = 0; i < count; i++)
			faces[i] += random_between(&r, -10, 10);
		struct tool rough = faulty;
		rough.gravity_noise = 0.003;
		rough.gravity.ratio = random_between(&r, 0.97, 1.03);
		read_tool(&rough, faces, count, &r, v);
		struct roll_fit got = fit(v, count, ROLL_GRAVITY, 0);
		general_solve(&(struct general){ v, count, false }, faces, u);
		assert_true(got.ratio_seen);
		assert_near(got.found.bias_x, u[0], 1e-9);
		assert_near(got.found.bias_y, u[1], 1e-9);
		assert_near(got.found.radius, u[2], 1e-9);
		assert_near(got.found.ratio, u[3], 1e-9);
	}
}

/* Fitted all at once, z bears on the circle too, by the square of its lean: not to be seen beside the noise.
 */
static void circle_and_lean_one_after_the_other_are_as_good_as_all_at_once(void **state)
{
	struct random r = { 22 };

	(void)state;
	for (int n = 0; n < 20; n++) {
		struct sensor_vectors v[READINGS];
		double faces[READINGS], u[UNKNOWNS];
		spread_evenly(random_between(&r, 0, 360), 8, faces);
		read_tool(&faulty, faces, 8, &r, v);
		struct roll_fit got = fit(v, 8, ROLL_GRAVITY, faulty.gravity_noise);
		general_solve(&(struct general){ v, 8, true }, faces, u);
		assert_near(got.found.bias_x, u[0], 0.02 * got.sigma.bias_x);
		assert_near(got.found.bias_y, u[1], 0.02 * got.sigma.bias_y);
		assert_near(got.found.ratio, u[3], 0.02 * got.sigma.ratio);
		assert_near(got.found.along, u[4], 0.02 * got.sigma.along);
		assert_near(got.found.lean_x, u[5], 0.02 * got.sigma.lean_x);
		assert_near(got.found.lean_y, u[6], 0.02 * got.sigma.lean_y);
	}
}

/* ---- how sure ---- */

/* Derived: for n rolls spread evenly, noise sqrt(2/n) for a bias and so on; to first order in noise. */
static void the_sigmas_of_rolls_spread_evenly_are_the_closed_form(void **state)
{
	(void)state;
	for (size_t n = 6; n <= READINGS; n++) {
		struct sensor_vectors v[READINGS];
		struct tool tool = faulty;
		double faces[READINGS], radius = sin(sb_rad(82)), even = 3e-4 / sqrt((double)n);
		tool.gravity.ratio = 1;
		spread_evenly(11, n, faces);
		read_tool(&tool, faces, n, NULL, v);
		struct roll_fit got = fit(v, n, ROLL_GRAVITY, 3e-4);
		assert_near(got.sigma.bias_x / (even * sqrt(2)), 1, 1e-9);
		assert_near(got.sigma.bias_y / (even * sqrt(2)), 1, 1e-9);
		assert_near(got.sigma.lean_x * radius / (even * sqrt(2)), 1, 1e-9);
		assert_near(got.sigma.lean_y * radius / (even * sqrt(2)), 1, 1e-9);
		assert_near(got.sigma.ratio * radius / (even * sqrt(8)), 1, 1e-9);
		assert_near(got.sigma.along / even, 1, 1e-9);
	}
}

struct tally {
	double bias_x, bias_y, radius, ratio, along, lean_x, lean_y;
};

static void count_up(
	struct tally *t, const struct roll_fit *f, const struct roll_values *true_ones, double along)
{
	t->bias_x += pow((f->found.bias_x - true_ones->bias_x) / f->sigma.bias_x, 2);
	t->bias_y += pow((f->found.bias_y - true_ones->bias_y) / f->sigma.bias_y, 2);
	t->radius += pow((f->found.radius - true_ones->radius) / f->sigma.radius, 2);
	t->ratio += pow((f->found.ratio - true_ones->ratio) / f->sigma.ratio, 2);
	t->along += pow((f->found.along - along) / f->sigma.along, 2);
	t->lean_x += pow((f->found.lean_x - true_ones->lean_x) / f->sigma.lean_x, 2);
	t->lean_y += pow((f->found.lean_y - true_ones->lean_y) / f->sigma.lean_y, 2);
}

/* 20,000 roll tests: the mean square of error over sigma is 1 within 1 % (sqrt(2 / 20,000)); asked within 4.
 */
static void errors_are_as_large_as_the_sigmas_say(void **state)
{
	static const double uneven[] = { 3, 40, 110, 150, 190, 200, 255, 320 };
	struct random r = { 23 };
	struct sensor_vectors v[READINGS];
	struct tally gravity = { 0 }, field = { 0 };
	struct tool exact = faulty;
	const double draws = 20000;

	(void)state;
	read_tool(&exact, uneven, 8, NULL, v);
	struct roll_values true_gravity = fit(v, 8, ROLL_GRAVITY, 0).found,
			   true_field = fit(v, 8, ROLL_FIELD, 0).found;
	for (int n = 0; n < (int)draws; n++) {
		read_tool(&faulty, uneven, 8, &r, v);
		struct roll_fit g = fit(v, 8, ROLL_GRAVITY, faulty.gravity_noise);
		struct roll_fit f = fit(v, 8, ROLL_FIELD, faulty.field_noise);
		count_up(&gravity, &g, &true_gravity, true_gravity.along);
		count_up(&field, &f, &true_field, true_field.along);
	}
	const double *sums[] = { &gravity.bias_x, &field.bias_x };
	for (int s = 0; s < 2; s++)
		for (int k = 0; k < 7; k++)
			assert_near(sums[s][k] / draws, 1, 0.04);
}

/* Where no noise is stated it is taken from what is left over: right on the average, in the square. */
static void noise_that_nobody_stated_is_found(void **state)
{
	struct random r = { 24 };
	struct sensor_vectors v[READINGS];
	double faces[READINGS], circle = 0, along = 0, bias = 0, error = 0;
	const int draws = 10000;

	(void)state;
	spread_evenly(20, 8, faces);
	for (int n = 0; n < draws; n++) {
		read_tool(&faulty, faces, 8, &r, v);
		struct roll_fit f = fit(v, 8, ROLL_FIELD, 0);
		circle += f.noise * f.noise;
		along += f.noise_along * f.noise_along;
		bias += f.sigma.bias_x * f.sigma.bias_x;
		error += pow(f.found.bias_x - faulty.field.bias_x, 2);
	}
	assert_near(sqrt(circle / draws) / 30, 1, 0.02);
	assert_near(sqrt(along / draws) / 30, 1, 0.02);
	assert_near(bias / error, 1, 0.05);
}

/* What ROLL_GAP_MOST is: the sigma of a bias with all readings spread over what the widest gap leaves,
 * against spread over the whole turn. */
static void a_gap_at_its_widest_costs_half_of_the_sigma_again(void **state)
{
	struct sensor_vectors v[READINGS];
	double even[READINGS], gap[READINGS], most = 0;

	(void)state;
	for (size_t n = ROLL_LEAST; n <= READINGS; n++) {
		spread_evenly(0, n, even);
		for (size_t i = 0; i < n; i++)
			gap[i] = 67.5 + 225.0 * (double)i / (double)(n - 1);
		struct tool sound = { .gravity = { .ratio = 1 }, .field = { .ratio = 1 } };
		read_tool(&sound, even, n, NULL, v);
		double best = fit(v, n, ROLL_GRAVITY, 3e-4).sigma.bias_x;
		read_tool(&sound, gap, n, NULL, v);
		struct roll_fit f = fit(v, n, ROLL_GRAVITY, 3e-4);
		most = fmax(most, fmax(f.sigma.bias_x, f.sigma.bias_y) / best);
	}
	assert_near(most, 1.5, 0.05);
}

/* ---- what is refused ---- */

static enum roll_status try_faces(
	const double *faces, size_t count, enum roll_sensor sensor, struct roll_gap *gap)
{
	struct sensor_vectors v[READINGS];
	struct roll_fit out = { .worst = 99 };

	read_tool(&faulty, faces, count, NULL, v);
	enum roll_status status = sb_roll_fit(v, count, sensor, 0, &out, gap);
	assert_true((status == ROLL_OK) == (out.worst != 99));
	return status;
}

static void rolls_that_do_not_spread_are_refused_and_the_missing_one_is_named(void **state)
{
	static const double half[] = { 300, 330, 0, 30, 60, 90 }, one[] = { 45, 45, 45, 45 };
	struct roll_gap gap = { 0, 0 };

	(void)state;
	assert_int_equal(try_faces(half, 6, ROLL_FIELD, &gap), ROLL_GAP);
	assert_near(sb_deg(gap.width_rad), 210, 0.5); /* the bias itself moves tool faces a little */
	assert_near(sb_deg(gap.middle_rad), 195, 0.5);
	assert_int_equal(try_faces(half, 6, ROLL_GRAVITY, NULL), ROLL_GAP);
	assert_int_equal(try_faces(one, 4, ROLL_GRAVITY, &gap), ROLL_GAP);
	assert_near(sb_deg(gap.middle_rad), 225, 0.5);
}

static void three_readings_are_too_few(void **state)
{
	static const double faces[] = { 0, 120, 240 };

	(void)state;
	assert_int_equal(try_faces(faces, 3, ROLL_GRAVITY, NULL), ROLL_FEW);
}

static void a_tool_hung_down_shows_no_roll(void **state)
{
	struct sensor_vectors v[4];
	struct roll_fit out;

	(void)state;
	for (int i = 0; i < 4; i++)
		v[i] = (struct sensor_vectors){ { 0.01, 0.02 * i, 1 }, { 100, 200, 50000 } };
	assert_int_equal(sb_roll_fit(v, 4, ROLL_GRAVITY, 0, &out, NULL), ROLL_STEEP);
}

static void a_field_along_the_hole_or_a_dead_sensor_draws_no_circle(void **state)
{
	struct random r = { 25 };
	struct sensor_vectors v[READINGS], dead[READINGS];
	double faces[READINGS];
	struct roll_fit out;

	(void)state;
	spread_evenly(0, 8, faces);
	read_tool(&faulty, faces, 8, &r, v);
	memcpy(dead, v, sizeof v);
	for (int i = 0; i < 8; i++) {
		v[i].field = (struct triad){ 30 * random_normal(&r), 30 * random_normal(&r), 50000 };
		dead[i].field.x = dead[i].field.y = 0;
	}
	assert_int_equal(sb_roll_fit(v, 8, ROLL_FIELD, 30, &out, NULL), ROLL_FLAT);
	assert_int_equal(sb_roll_fit(dead, 8, ROLL_FIELD, 30, &out, NULL), ROLL_FLAT);
}

static void readings_that_are_no_numbers_are_refused(void **state)
{
	struct sensor_vectors v[READINGS];
	double faces[READINGS];
	struct roll_fit out;

	(void)state;
	spread_evenly(0, 8, faces);
	read_tool(&faulty, faces, 8, NULL, v);
	assert_int_equal(sb_roll_fit(v, 8, ROLL_FIELD, -1, &out, NULL), ROLL_RANGE);
	assert_int_equal(sb_roll_fit(v, 8, ROLL_FIELD, NAN, &out, NULL), ROLL_RANGE);
	v[3].gravity.z = NAN;
	assert_int_equal(sb_roll_fit(v, 8, ROLL_FIELD, 0, &out, NULL), ROLL_RANGE);
}

static void a_reading_taken_while_something_passed_is_pointed_out(void **state)
{
	struct random r = { 26 };
	struct sensor_vectors v[READINGS];
	double faces[READINGS];

	(void)state;
	spread_evenly(0, 12, faces);
	read_tool(&faulty, faces, 12, &r, v);
	v[5].field = sb_triad_scale(v[5].field, 1.03);
	struct roll_fit got = fit(v, 12, ROLL_FIELD, 30);
	assert_int_equal(got.worst, 5);
	assert_true(got.noise > 5 * 30 && got.worst_off > 5 * 30);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(what_is_wrong_with_a_tool_comes_back_exactly),
		cmocka_unit_test(four_quarter_turns_tell_bias_and_lean_but_not_the_ratio),
		cmocka_unit_test(corrected_readings_agree_at_every_roll),
		cmocka_unit_test(the_circle_is_that_of_a_general_solver),
		cmocka_unit_test(circle_and_lean_one_after_the_other_are_as_good_as_all_at_once),
		cmocka_unit_test(the_sigmas_of_rolls_spread_evenly_are_the_closed_form),
		cmocka_unit_test(errors_are_as_large_as_the_sigmas_say),
		cmocka_unit_test(noise_that_nobody_stated_is_found),
		cmocka_unit_test(a_gap_at_its_widest_costs_half_of_the_sigma_again),
		cmocka_unit_test(rolls_that_do_not_spread_are_refused_and_the_missing_one_is_named),
		cmocka_unit_test(three_readings_are_too_few),
		cmocka_unit_test(a_tool_hung_down_shows_no_roll),
		cmocka_unit_test(a_field_along_the_hole_or_a_dead_sensor_draws_no_circle),
		cmocka_unit_test(readings_that_are_no_numbers_are_refused),
		cmocka_unit_test(a_reading_taken_while_something_passed_is_pointed_out),
	};
	return run_tests(tests);
}
