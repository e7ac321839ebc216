/* What the ground gives, learnt from made logs. */
#include "base/str.h"
#include "geom/angle.h"
#include "model/response_filter.h"
#include "support/jobs.h"
#include "support/near.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static struct job job;
static struct solution solution;

static int setup(void **state)
{
	(void)state;
	memset(&solution, 0, sizeof solution);
	return 0;
}

static int teardown(void **state)
{
	(void)state;
	sb_solution_clear(&solution);
	sb_job_clear(&job);
	return 0;
}

/* A small repeatable generator: sums of uniform numbers as normal ones. */
static unsigned long long seed;

static double uniform(void)
{
	seed = seed * 6364136223846793005ull + 1442695040888963407ull;
	return (double)(seed >> 11) / 9007199254740992.0;
}

static double normal(void)
{
	double sum = -6;

	for (int i = 0; i < 12; i++)
		sum += uniform();
	return sum;
}

/* Ground that answers exactly: degrees per foot. */
struct ground {
	double yield, face_error, droop, walk, noise_inc, noise_azi;
};

static double truth_inc, truth_azi;

/* Drills a joint of 31 ft in made ground and logs what is read; sensor at the bit. */
static void drill(const struct ground *g, double face, double slid)
{
	double turn = g->yield * slid, way = sb_rad(face + g->face_error);
	char inc[24], azi[24];

	truth_inc += turn * cos(way) - g->droop * (31 - slid);
	truth_azi += (turn * sin(way) + g->walk * (31 - slid)) / sin(sb_rad(truth_inc));
	snprintf(inc, sizeof inc, "%.4f", truth_inc + g->noise_inc * normal());
	snprintf(azi, sizeof azi, "%.4f", truth_azi + g->noise_azi * normal());
	struct reading r = jobs_reading(&job, "31", inc, azi);
	r.tool_face = sb_number_of(face, 1);
	r.slid = sb_number_of(slid, 2);
	r.id = job.reading_count ? job.readings[job.reading_count - 1].id + 1 : 1;
	sb_job_add_reading(&job, &r);
}

static void begin(void)
{
	jobs_plain(&job);
	jobs_set(&job, "steering", "slide_turn", "0.06");
	jobs_set(&job, "steering", "droop", "0.002");
	truth_inc = 80;
	truth_azi = 90;
	seed = 20261125;
}

static double per_foot(double rad_per_m)
{
	return sb_deg(rad_per_m) * 0.3048;
}

static void before_there_is_data_the_sheet_s_guess_stands(void **state)
{
	(void)state;
	begin();
	jobs_solve(&job, &solution);
	const struct response *r = &solution.response;
	assert_int_equal(r->slides, 0);
	assert_true(r->guess_given);
	assert_near(per_foot(r->yield), 0.06, 1e-12);
	assert_near(per_foot(r->drift_up), -0.002, 1e-12);
	assert_near(r->face_error_rad, 0, 1e-12);
	assert_true(r->face_error_sigma_rad > sb_rad(10));
}

static void without_a_guess_the_bend_limit_stands_for_it_and_it_says_so(void **state)
{
	(void)state;
	jobs_plain(&job);
	jobs_solve(&job, &solution);
	assert_false(solution.response.guess_given);
	assert_near(per_foot(solution.response.yield), sb_deg(1.0 / 600), 1e-9);
}

static void exact_ground_is_learnt(void **state)
{
	const struct ground g = { .yield = 0.045, .face_error = 12, .droop = 0.004, .walk = 0.003 };

	(void)state;
	begin();
	jobs_set(&job, "tool", "sigma_inclination", "0.005");
	jobs_set(&job, "tool", "sigma_azimuth", "0.005");
	for (int i = 0; i < 24; i++)
		drill(&g, i * 75 % 360, i % 3 ? 12 : 0);
	jobs_solve(&job, &solution);
	const struct response *r = &solution.response;
	assert_near(per_foot(r->yield), 0.045, 0.003);
	assert_near(sb_deg(r->face_error_rad), 12, 3);
	assert_near(per_foot(r->drift_up), -0.004, 0.001);
	assert_near(per_foot(r->drift_right), 0.003, 0.001);
}

static void noise_is_seen_through_and_the_truth_lies_within_what_is_claimed(void **state)
{
	const struct ground g = {
		.yield = 0.042, .face_error = -18, .droop = 0.003, .noise_inc = 0.1, .noise_azi = 0.3
	};
	int within[3] = { 0 };
	const int bores = 60;

	(void)state;
	for (int b = 0; b < bores; b++) {
		begin();
		seed += (unsigned long long)b * 7919;
		for (int i = 0; i < 20; i++)
			drill(&g, (b * 40 + i * 97) % 360, i % 3 ? 16 : 0);
		jobs_solve(&job, &solution);
		const struct response *r = &solution.response;
		within[0] += fabs(r->yield - sb_rad(0.042) / 0.3048) < 2 * r->yield_sigma;
		within[1] += fabs(r->face_error_rad - sb_rad(-18)) < 2 * r->face_error_sigma_rad;
		within[2] += fabs(r->drift_up + sb_rad(0.003) / 0.3048) < 2 * r->drift_up_sigma;
		sb_solution_clear(&solution);
		sb_job_clear(&job);
	}
	begin();
	/* Two sigma: nineteen of twenty; the filter also expects ground that changes, so it claims a little
	 * more. */
	for (int i = 0; i < 3; i++)
		assert_true(within[i] >= bores * 9 / 10);
}

/* The case of readings as noisy as the sheet says in ground that scatters as usual. */
static const struct response_case *as_the_sheet_says(void)
{
	for (size_t n = 0; n < RESPONSE_CASES; n++) {
		const struct response_case *c = &solution.response.cases[n];
		if (c->noise == 1 && c->scatter == 1)
			return c;
	}
	fail_msg("no case is as the sheet says");
	return NULL;
}

/* One slide, straight up, in closed form. Expected 1.86 deg, got 0.93. Prior of the yield 0.4 * 0.06 per foot
 * for the bore and 0.15 * 0.06 for the stretch (0.35 and 0.05 across, where nothing came); reading against
 * the staked entry: noise 0.1 up and 0.3 right on both ends, wander 0.1 deg a joint of 9.6 m and 0.15 of the
 * slide. Each case has its own gain, and weighs by the normal density of what came; before that the noise has
 * the chance that six surprises leave it. All slid: no drift in it. */
static void one_slide_moves_the_guess_as_far_as_least_squares_says(void **state)
{
	const struct ground g = { .yield = 0.03 };
	const double full = 0.06 * 31, off = 0.93 - full;
	double weights = 0, sum = 0;

	(void)state;
	begin();
	jobs_set(&job, "steering", "droop", "0");
	drill(&g, 0, 31);
	jobs_solve(&job, &solution);
	for (size_t n = 0; n < RESPONSE_CASES; n++) {
		const struct response_case *c = &solution.response.cases[n];
		double s = c->scatter * c->scatter, v = c->noise;
		double prior = (0.4 * 0.4 + s * 0.15 * 0.15) * full * full;
		double wander = s * (0.01 * (31 * 0.3048) / 9.598 + pow(0.15 * full, 2));
		double up = prior + 2 * v * 0.01 + wander;
		double right = (0.35 * 0.35 + s * 0.05 * 0.05) * full * full + wander +
			v * 0.09 * (1 + pow(sin(sb_rad(80.93)), 2));
		double weight = pow(v, -3) * exp(-3 / v - off * off / (2 * up)) / sqrt(up * right);
		assert_near(per_foot(c->state[ALONG]), 0.06 + prior / up * off / 31, 1e-5);
		weights += weight;
		sum += weight * (0.06 + prior / up * off / 31);
	}
	assert_near(per_foot(solution.response.yield), sum / weights, 2e-5);
}

/* Two slides, both headings read: the yield where the second was made, given both readings, from the normal
 * distribution of (yield there, reading 1, reading 2) in closed form. The wander of a slide is taken at the
 * yield known before it, as the filter takes it. */
static void two_slides_share_what_least_squares_says_between_stretch_and_bore(void **state)
{
	const struct ground g = { .yield = 0.03 };
	const double full = 0.06 * 31, whole = pow(0.4 * full, 2), stretch = pow(0.15 * full, 2);
	const double keeps = exp(-31 * 0.3048 / 25), both = whole + stretch * keeps, each = whole + stretch;

	(void)state;
	begin();
	jobs_set(&job, "steering", "droop", "0");
	drill(&g, 0, 31);
	jobs_solve(&job, &solution);
	double yield = per_foot(as_the_sheet_says()->state[ALONG]);
	sb_solution_clear(&solution);
	drill(&g, 0, 31);
	jobs_solve(&job, &solution);
	double wander1 = 0.01 * (31 * 0.3048) / 9.598 + pow(0.15 * full, 2);
	double wander2 = 0.01 * (31 * 0.3048) / 9.598 + pow(0.15 * yield * 31, 2);
	/* reading 1 = entry's error + turn 1 + noise; reading 2 = entry's error + turn 1 + turn 2 + noise */
	double v11 = 0.01 + each + wander1 + 0.01;
	double v12 = 0.01 + each + wander1 + both;
	double v22 = 0.01 + 2 * each + 2 * both + wander1 + wander2 + 0.01;
	double c1 = both, c2 = both + each, off1 = 0.93 - full, off2 = 1.86 - 2 * full;
	double det = v11 * v22 - v12 * v12;
	double moved = (c1 * (v22 * off1 - v12 * off2) + c2 * (v11 * off2 - v12 * off1)) / det;
	assert_near(per_foot(as_the_sheet_says()->state[ALONG]), (full + moved) / 31, 5e-5);
}

/* The sheet's tool reads two and a half times as badly as it says, or the ground scatters twice as much or
 * half as much as usual: the cases find it. Steps of the grid are two, so a case beside the truth counts. */
static void what_the_readings_and_the_ground_scatter_is_learnt_from_the_bore(void **state)
{
	double noisy = 0, fair = 0, steady = 0, restless = 0;
	const int bores = 20;

	(void)state;
	for (int b = 0; b < bores; b++)
		for (int kind = 0; kind < 4; kind++) {
			double noise = kind == 0 ? 2.5 : kind == 1 ? 1 : 0.7;
			begin();
			seed += (unsigned long long)b * 7919;
			for (int i = 0; i < 30; i++) {
				double share = kind == 3 ? 1 + 0.45 * normal() : 1;
				const struct ground g = { .yield = 0.06 * fmax(share, 0.1),
					.noise_inc = 0.1 * noise,
					.noise_azi = 0.3 * noise };
				drill(&g, i % 2 ? 180 : 0, 20);
			}
			jobs_solve(&job, &solution);
			const struct response_case *all = &solution.response.all;
			*(kind == 0		    ? &noisy
					: kind == 1 ? &fair
					: kind == 2 ? &steady
						    : &restless) +=
				(kind < 2 ? all->noise : all->scatter) / bores;
			sb_solution_clear(&solution);
			sb_job_clear(&job);
		}
	begin();
	assert_true(noisy > 6.25 / 2 && noisy < 6.25 * 2);
	assert_true(fair > 0.5 && fair < 2);
	assert_true(steady < 1);
	assert_true(restless > 1.5);
}

/* Headings of past readings are held against the truth that was drilled: nearer to it than the readings are,
 * and as near as is claimed. */
static void past_headings_are_smoothed_and_within_what_is_claimed(void **state)
{
	const struct ground g = { .yield = 0.05, .droop = 0.002, .noise_inc = 0.25, .noise_azi = 0.75 };
	enum { BORES = 40, JOINTS = 25, BACK = 8 };
	double raw = 0, smooth = 0;
	int within = 0, count = 0;

	(void)state;
	for (int b = 0; b < BORES; b++) {
		double truth[JOINTS];
		struct smoothed past[BACK];
		begin();
		jobs_set(&job, "tool", "sigma_inclination", "0.25");
		jobs_set(&job, "tool", "sigma_azimuth", "0.75");
		seed += (unsigned long long)b * 7919;
		for (int i = 0; i < JOINTS; i++) {
			drill(&g, (b * 40 + i * 97) % 360, i % 3 ? 16 : 0);
			truth[i] = truth_azi;
		}
		jobs_solve(&job, &solution);
		struct setup s = sb_solution_setup(&job, &solution);
		assert_int_equal(
			sb_response_smooth(&s, &solution.path, &solution.response, past, BACK), BACK);
		struct attitude now = sb_response_heading(&solution.path, &solution.response);
		assert_near(past[0].heading.azi_rad, now.azi_rad, 1e-12);
		for (size_t i = 1; i < BACK; i++) {
			const struct row *row = sb_path_back(&solution.path, i);
			double sine = sin(row->attitude.inc_rad), azi = sb_rad(truth[JOINTS - 1 - i]);
			double off = sine * sb_wrap_half(past[i].heading.azi_rad - azi);
			assert_near(past[i].md_m, row->survey_md_m, 1e-12);
			raw += pow(sine * sb_wrap_half(row->attitude.azi_rad - azi), 2);
			smooth += off * off;
			within += fabs(off) < 2 * sqrt(past[i].var[1]);
			count++;
		}
		sb_solution_clear(&solution);
		sb_job_clear(&job);
	}
	begin();
	assert_true(smooth < raw / 3); /* the variance; wander is expected that there is not */
	assert_true(within >= count * 9 / 10);
}

/* Thirty joints of ground that gives so much a foot, then some that give otherwise; the last ground. */
static struct ground drill_two_stretches(double yield, double then, int joints)
{
	struct ground g = { .yield = yield, .noise_inc = 0.03, .noise_azi = 0.05 };

	begin();
	for (int i = 0; i < 30; i++)
		drill(&g, i % 2 ? 180 : 0, 20);
	g.yield = then;
	for (int i = 0; i < joints; i++)
		drill(&g, i % 2 ? 180 : 0, 20);
	jobs_solve(&job, &solution);
	return g;
}

static void a_stretch_that_answers_otherwise_is_followed_and_the_bore_is_not_forgotten(void **state)
{
	(void)state;
	struct ground g = drill_two_stretches(0.05, 0.03, 6);
	double there = per_foot(solution.response.yield);
	assert_true(there < 0.04);
	sb_solution_clear(&solution);
	/* Nothing is slid for 90 m: what the bore gave on the whole is the better guess again. */
	for (int i = 0; i < 10; i++)
		drill(&g, 0, 0);
	jobs_solve(&job, &solution);
	assert_near(per_foot(solution.response.yield), 0.05, 0.006);
	assert_true(per_foot(solution.response.yield) > there + 0.005);
}

/* Of a Gauss-Markov process with a memory of 25 m about a mean that is itself not known: what is left of the
 * difference after d is k = exp(-d / 25), and the variance there is k^2 of here, (1 - k)^2 of the mean, twice
 * k (1 - k) of both, and what has come in since. (Gelb, Applied Optimal Estimation, 1974, 4.5, from memory.)
 */
static void further_on_the_ground_is_the_bore_s_on_the_whole_and_less_sure(void **state)
{
	(void)state;
	drill_two_stretches(0.06, 0.035, 5);
	const struct response *r = &solution.response;
	const struct response_case *c = &r->all;
	struct ground_ahead here = sb_response_ahead(r, 0), there = sb_response_ahead(r, 20),
			    far = sb_response_ahead(r, 1e4);
	assert_near(here.yield, r->yield, 1e-15);
	assert_near(here.yield_sigma, r->yield_sigma, 1e-15);
	assert_true(per_foot(here.yield) < 0.05 && per_foot(far.yield) > per_foot(here.yield) + 0.005);
	assert_near(far.yield, hypot(c->state[MEAN], c->state[MEAN + 1]), 1e-12);
	/* All of the turn is along the tool face here, so the yield is that one state but for a trifle. */
	double k = exp(-20.0 / 25), come_in = 0.15 * c->scatter * r->guess_yield;
	assert_near(there.yield, k * here.yield + (1 - k) * far.yield, 1e-4 * here.yield);
	double var = k * k * c->covariance[ALONG][ALONG] + 2 * k * (1 - k) * c->covariance[ALONG][MEAN] +
		(1 - k) * (1 - k) * c->covariance[MEAN][MEAN] + come_in * come_in * (1 - k * k);
	assert_near(there.yield_sigma / sqrt(var), 1, 0.01);
	/* And what a slide there turns is what the filter's own forecast carries its heading on by. */
	struct drilled d = { 4, 0, 4, 16, 0, true };
	struct setup s = sb_solution_setup(&job, &solution);
	struct forecast f =
		sb_response_forecast(&s, &sb_path_back(&solution.path, 0)->attitude, r, &d, 20, 0);
	double up, right;
	sb_response_expect_ahead(r, &d, 20, &up, &right);
	assert_near(up, f.up_rad - c->state[HEADING_UP], 1e-12);
	assert_near(right, f.right_rad - c->state[HEADING_RIGHT], 1e-12);
}

static void what_is_told_from_outside_holds_everywhere_and_for_sure(void **state)
{
	struct ground g = { .yield = 0.05 };

	(void)state;
	begin();
	for (int i = 0; i < 6; i++)
		drill(&g, 0, 15);
	jobs_solve(&job, &solution);
	struct response *r = &solution.response;
	r->yield = 0.004;
	r->face_error_rad = 0.2;
	r->drift_up = -1e-4;
	r->drift_right = 2e-4;
	sb_response_tell(r);
	for (double past = 0; past < 500; past += 100) {
		struct ground_ahead there = sb_response_ahead(r, past);
		assert_near(there.yield, 0.004, 1e-15);
		assert_near(there.face_error_rad, 0.2, 1e-14);
		assert_near(there.yield_sigma, 0, 0);
		assert_near(there.drift_up, -1e-4, 0);
		assert_near(there.drift_right, 2e-4, 0);
	}
}

static void a_wrong_tool_face_is_warned_of_by_name(void **state)
{
	const struct ground g = { .yield = 0.06, .face_error = 35, .noise_inc = 0.05, .noise_azi = 0.1 };

	(void)state;
	begin();
	for (int i = 0; i < 10; i++)
		drill(&g, i % 2 ? 180 : 0, 20);
	jobs_solve(&job, &solution);
	const struct warning *found = NULL;
	for (size_t i = 0; i < solution.warning_count; i++)
		if (solution.warnings[i].kind == WARNING_RESPONSE)
			found = &solution.warnings[i];
	assert_non_null(found);
	assert_int_equal(found->level, LEVEL_WATCH);
	assert_non_null(strstr(found->text, "clockwise of the tool face"));
	assert_near(found->value, 35, 10);
	/* The order takes it out: to turn straight up the tool must show 35 degrees less. */
	struct setup s = sb_solution_setup(&job, &solution);
	assert_near(
		sb_deg(sb_wrap_half(sb_response_face(&s, solution.response.face_error_rad, 1, 0))), -35, 10);
}

static void soil_that_no_longer_answers_is_warned_of(void **state)
{
	struct ground g = { .yield = 0.06, .noise_inc = 0.03, .noise_azi = 0.05 };

	(void)state;
	begin();
	for (int i = 0; i < 8; i++)
		drill(&g, i % 2 ? 180 : 0, 20);
	g.yield = 0.005;
	for (int i = 0; i < 3; i++)
		drill(&g, 0, 25);
	jobs_solve(&job, &solution);
	assert_true(solution.open[WARNING_RESPONSE] >= 0);
	assert_non_null(strstr(solution.warnings[solution.open[WARNING_RESPONSE]].text, "no longer answers"));
}

static void a_log_without_tool_faces_keeps_the_guess(void **state)
{
	(void)state;
	begin();
	jobs_follow(&job, 12);
	jobs_solve(&job, &solution);
	assert_int_equal(solution.response.slides, 0);
	assert_near(per_foot(solution.response.yield), 0.06, 1e-12);
	for (size_t i = 1; i < solution.path.count; i++)
		assert_false(solution.path.rows[i].answer.known);
}

static void the_sensor_answers_for_an_earlier_piece_of_hole(void **state)
{
	(void)state;
	begin();
	jobs_set(&job, "tool", "sensor_to_bit", "20");
	for (int i = 0; i < 4; i++) {
		struct reading r = jobs_reading(&job, "30", "80", "90");
		r.slid = sb_number_of(i == 1 ? 15 : 0, 2);
		r.tool_face = sb_number_of(90, 1);
		r.id = i + 1;
		sb_job_add_reading(&job, &r);
	}
	jobs_solve(&job, &solution);
	struct setup s = sb_solution_setup(&job, &solution);
	/* Readings at 10, 40, 70, 100 ft. Joint 2 lies from 30 to 60 and was slid half: the course to 40
	 * holds 10 ft of it, the course to 70 holds 20. */
	struct drilled d = sb_response_drilled(&s, &solution.path, 10 * 0.3048, 40 * 0.3048);
	assert_near(d.slid_m / 0.3048, 5, 1e-9);
	assert_near(d.rotated_m / 0.3048, 25, 1e-9);
	assert_near(d.slid_right / 0.3048, 5, 1e-9);
	d = sb_response_drilled(&s, &solution.path, 40 * 0.3048, 70 * 0.3048);
	assert_near(d.slid_m / 0.3048, 10, 1e-9);
	assert_near(solution.path.rows[3].answer.slid_m / 0.3048, 10, 1e-9);
}

static void pulling_back_keeps_what_was_learnt(void **state)
{
	const struct ground g = { .yield = 0.04, .noise_inc = 0.05, .noise_azi = 0.1 };

	(void)state;
	begin();
	for (int i = 0; i < 12; i++)
		drill(&g, i * 90 % 360, 18);
	jobs_solve(&job, &solution);
	double before = solution.response.yield;
	jobs_withdraw(&job, 8);
	jobs_solve(&job, &solution);
	assert_near(solution.response.yield, before, 1e-15);
	assert_int_equal(solution.response.slides, 12);
}

static const struct CMUnitTest tests[] = {
	cmocka_unit_test_setup_teardown(before_there_is_data_the_sheet_s_guess_stands, setup, teardown),
	cmocka_unit_test_setup_teardown(
		without_a_guess_the_bend_limit_stands_for_it_and_it_says_so, setup, teardown),
	cmocka_unit_test_setup_teardown(exact_ground_is_learnt, setup, teardown),
	cmocka_unit_test_setup_teardown(
		noise_is_seen_through_and_the_truth_lies_within_what_is_claimed, setup, teardown),
	cmocka_unit_test_setup_teardown(
		one_slide_moves_the_guess_as_far_as_least_squares_says, setup, teardown),
	cmocka_unit_test_setup_teardown(
		two_slides_share_what_least_squares_says_between_stretch_and_bore, setup, teardown),
	cmocka_unit_test_setup_teardown(
		what_the_readings_and_the_ground_scatter_is_learnt_from_the_bore, setup, teardown),
	cmocka_unit_test_setup_teardown(
		past_headings_are_smoothed_and_within_what_is_claimed, setup, teardown),
	cmocka_unit_test_setup_teardown(
		a_stretch_that_answers_otherwise_is_followed_and_the_bore_is_not_forgotten, setup, teardown),
	cmocka_unit_test_setup_teardown(
		further_on_the_ground_is_the_bore_s_on_the_whole_and_less_sure, setup, teardown),
	cmocka_unit_test_setup_teardown(
		what_is_told_from_outside_holds_everywhere_and_for_sure, setup, teardown),
	cmocka_unit_test_setup_teardown(a_wrong_tool_face_is_warned_of_by_name, setup, teardown),
	cmocka_unit_test_setup_teardown(soil_that_no_longer_answers_is_warned_of, setup, teardown),
	cmocka_unit_test_setup_teardown(a_log_without_tool_faces_keeps_the_guess, setup, teardown),
	cmocka_unit_test_setup_teardown(the_sensor_answers_for_an_earlier_piece_of_hole, setup, teardown),
	cmocka_unit_test_setup_teardown(pulling_back_keeps_what_was_learnt, setup, teardown),
};

int main(void)
{
	return run_tests(tests);
}
