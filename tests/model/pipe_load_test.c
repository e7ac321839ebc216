/* The product pipe in the hole: the derived regression case of the steel method through a whole job, what was
 * drilled beside the design, its band, and what is refused.
 */
#include "model/pipe_load.h"

#include "base/measure.h"
#include "geom/random.h"
#include "profile_b.h"
#include "support/near.h"

#include <string.h>

static const double foot = 0.3048, psi = 6894.757293168361;
static const double lbf = 0.45359237 * 9.80665;

static struct job job;
static struct solution s;
static struct pipe_load load;

static int begin(void **state)
{
	(void)state;
	profile_b(&job);
	jobs_set(&job, "product_pipe", "outside_diameter", "24");
	jobs_set(&job, "product_pipe", "wall", "0.5");
	jobs_set(&job, "product_pipe", "yield", "52000");
	/* 10.68 lb/ft per square inch of t (D - t) */
	jobs_set(&job, "product_pipe", "density", "489.524");
	jobs_set(&job, "hole", "final_diameter", "36");
	jobs_set(&job, "fluid", "weight", "12");
	jobs_set(&job, "pull", "fluid_drag", "0.025");
	jobs_set(&job, "pull", "friction_rollers", "0");
	return 0;
}

static int end(void **state)
{
	(void)state;
	sb_pipe_load_clear(&load);
	sb_solution_clear(&s);
	sb_job_clear(&job);
	return 0;
}

static void make(bool design)
{
	struct sb_err err = { 0 };

	jobs_solve(&job, &s);
	struct clearance_ask ask = sb_solution_clearance(&job, &s);
	if (sb_pipe_load_make(&ask, design, &load, &err)) {
		print_error("%s\n", err.text);
		fail();
	}
}

static double force_at(double md_ft)
{
	double force;

	assert_true(sb_pipe_load_at(&load, md_ft * foot, &force, NULL, NULL));
	return force / lbf;
}

/* Derived, no publication: its last leg takes the pipe above the fluid's level as if it lay in
 * it; here it does not, so it ends a little off. */
static void the_design_of_profile_b_takes_the_force_worked_out_by_hand(void **state)
{
	(void)state;
	make(true);
	assert_int_equal(load.leg_count, 5);
	assert_near(force_at(2407.553176 - 234.552257), 21321.1, 2);
	assert_near(force_at(135.553437 + 418.879020 + 1283.465245), 56153.6, 4);
	assert_near(force_at(135.553437 + 418.879020), 145450.6, 8);
	assert_near(force_at(135.553437), 184047.5, 10);
	assert_true(force_at(0) > 184047.5 && force_at(0) < 195000);
	const struct load_station *pc = &load.stations[sb_pipe_load_find(&load, 135.553437 * foot)];
	assert_near(pc->bending_pa / psi, 12083.3, 0.1);
	assert_near(pc->pressure_pa * 24 / psi, 292.3, 0.2);
	assert_near(pc->ratio[CHECK_TENSION_BENDING], 0.44319, 5e-5);
	assert_near(pc->ratio[CHECK_ALL], 0.17672, 5e-5);
	assert_near(load.turn_rad, 18 * SB_PI / 180, 1e-6);
	assert_int_equal(load.most, 0);
}

/* Drilled exactly as drawn, joint by joint: the runs are the tangents and curves again, and the force is the
 * design's within a twentieth. Wavering readings within the hole's room change it little; real bends cost. */
static void a_pilot_along_the_design_takes_about_the_designs_force(void **state)
{
	(void)state;
	make(true);
	double design = load.stations[0].force_n;
	jobs_follow(&job, 78);
	make(false);
	assert_int_equal(load.leg_count, 5);
	assert_near(load.stations[0].force_n / design, 1, 0.05);
}

/* Readings that scatter by their own noise (a tenth of a degree, three in azimuth) waver the line by inches:
 * over twenty such pilots the force stays near the design's, where taken joint by joint it would be many
 * times that. */
static void the_noise_of_readings_does_not_make_force(void **state)
{
	struct random r = { 11 };
	double design, most = 0, sum = 0;

	(void)state;
	make(true);
	design = load.stations[0].force_n;
	for (int pilot = 0; pilot < 20; pilot++) {
		end(NULL);
		begin(NULL);
		jobs_solve(&job, &s);
		double station = 0;
		for (int i = 0; i < 76; i++) {
			char inc[32], azi[32];
			for (int k = 0; k < 31; k++) {
				struct design_place p = sb_design_at(&s.design, station);
				station += foot * hypot(p.heading.n, p.heading.e);
			}
			struct design_place p = sb_design_at(&s.design, station);
			snprintf(inc, sizeof inc, "%.3f", sb_deg(p.inc_rad) + 0.1 * random_normal(&r));
			snprintf(azi, sizeof azi, "%.3f", 90 + 0.3 * random_normal(&r));
			jobs_log(&job, "", inc, azi);
		}
		make(false);
		double share = load.stations[0].force_n / design;
		most = fmax(most, fabs(share - 1));
		sum += share / 20;
	}
	print_message("noisy pilots: %.3f of the design's force in the mean, %.3f off at most\n", sum, most);
	assert_near(sum, 1, 0.02);
	assert_true(most < 0.06);
}

static void extra_bends_cost_force(void **state)
{
	(void)state;
	jobs_follow(&job, 30);
	make(false);
	double before = load.stations[0].force_n;
	jobs_log(&job, "", "90", "92.5");
	jobs_log(&job, "", "90", "95");
	jobs_log(&job, "", "90", "92.5");
	jobs_log(&job, "", "90", "90");
	jobs_log(&job, "", "90", "87");
	jobs_log(&job, "", "90", "87");
	jobs_log(&job, "", "90", "90");
	make(false);
	assert_true(load.stations[0].force_n > 1.05 * before);
	assert_true(load.turn_rad > 24 * SB_PI / 180);
	/* of each joint what its own row says; over the window the tighter of the two beside it */
	const struct row *row = &s.path.rows[31];
	const struct load_station *st = &load.stations[sb_pipe_load_find(&load, row->survey_md_m)];
	assert_near(st->radius_joint_m, row->radius_m, 1e-6 * row->radius_m);
	assert_near(st->radius_m, fmin(row->window.radius_m, s.path.rows[32].window.radius_m), 1e-6);
	assert_near(st->bending_pa, 29e6 * psi * 24 / 12 * foot / (2 * st->radius_m), 1e3);
}

/* Cutting the joints in two or four changes nothing but the stations. */
static void finer_joints_do_not_change_the_force(void **state)
{
	double first = 0;

	(void)state;
	for (int cut = 1; cut <= 4; cut *= 2) {
		char length[16];
		snprintf(length, sizeof length, "%g", 31.0 / cut);
		jobs_set(&job, "drill_pipe", "joint_length", length);
		make(true);
		double whole = load.stations[0].force_n;
		if (cut == 1)
			first = whole;
		assert_near(whole / first, 1, 1e-6);
	}
}

/* Water that weighs the pipe down to float little lowers the force; low and high hold the force between them;
 * what is varied moves it the way that it must. */
static void the_band_holds_the_force_and_moves_with_what_is_varied(void **state)
{
	(void)state;
	jobs_set(&job, "pull", "friction_rollers", "0.1");
	make(false);
	for (size_t i = 0; i < load.count; i++) {
		assert_true(load.stations[i].low_n <= load.stations[i].force_n);
		assert_true(load.stations[i].high_n >= load.stations[i].force_n);
	}
	/* most of the string is still outside: it is the rollers that are not known */
	const struct load_station *end = &load.stations[load.count - 1];
	assert_near(end->low_n, end->force_n / 2, 1e-6 * end->force_n);
	assert_near(end->high_n, 1.5 * end->force_n, 1e-6 * end->force_n);
	for (int k = 0; k < LOAD_VARIES; k++) {
		assert_true(load.vary_n[k][DEGREE_LOW] < load.vary_n[k][DEGREE_GIVEN]);
		assert_true(load.vary_n[k][DEGREE_HIGH] > load.vary_n[k][DEGREE_GIVEN]);
	}
	jobs_set(&job, "pull", "friction_rollers", "0");
	make(false);
	double empty = load.stations[0].force_n;
	jobs_set(&job, "pull", "contents", "water");
	make(false);
	assert_true(load.stations[0].force_n < 0.8 * empty);
	/* half way up: the ramps float */
	jobs_set(&job, "pull", "water_to", "470");
	make(false);
	double half = load.stations[0].force_n;
	assert_true(half < empty);
	const struct load_station *deep = &load.stations[sb_pipe_load_find(&load, 1000 * foot)];
	const struct load_station *high = &load.stations[1];
	assert_true(deep->weight_n_m > 0 || deep->weight_n_m > high->weight_n_m);
	assert_true(high->weight_n_m < 0 || high->at.u > load.given.level_m - 2);
}

/* The head just inside the exit: only the string on its rollers; then it grows. Outside the bore: nothing. */
static void every_place_of_the_head_has_a_force(void **state)
{
	double force, low, high;

	(void)state;
	jobs_set(&job, "pull", "friction_rollers", "0.1");
	make(true);
	double end_m = load.line.length_m;
	assert_true(sb_pipe_load_at(&load, end_m, &force, &low, &high));
	assert_near(force, 0.1 * load.given.section.air_n_m * end_m, 1);
	/* a longer string drags more until it is all in */
	jobs_set(&job, "pull", "string_length", "3000");
	make(true);
	assert_near(load.stations[load.count - 1].force_n, 0.1 * load.given.section.air_n_m * 3000 * foot, 1);
	assert_false(sb_pipe_load_at(&load, end_m + 1, &force, NULL, NULL));
	assert_false(sb_pipe_load_at(&load, -1, &force, NULL, NULL));
	assert_false(sb_pipe_load_at(&load, NAN, &force, NULL, NULL));
}

/* Without friction and drag only the weight works: 156.518 lbf/ft of lift over the 56 ft from the exit to the
 * bottom, by hand. It comes back on the way up to the fluid's level, and over the last 4 ft the pipe hangs in
 * air. */
static void without_friction_the_force_is_the_weights_work(void **state)
{
	(void)state;
	jobs_set(&job, "pull", "friction_hole", "0");
	jobs_set(&job, "pull", "fluid_drag", "0");
	make(true);
	assert_near(force_at(1000), 156.518 * 56, 3);
	assert_near(force_at(0), 125.490 * 4, 0.1);
	assert_false(load.runs);
	/* full of water it sinks by more than it floats: it runs in by itself, and is not pushed */
	jobs_set(&job, "pull", "contents", "water");
	make(true);
	assert_true(load.runs);
	assert_near(force_at(1000), 0, 1e-9);
}

/* However strange the sheet, forces and shares are numbers, and the band holds them. */
static void what_is_strange_still_gives_numbers(void **state)
{
	static const char *const sheets[][3] = {
		{ "hole", "final_diameter", "24.0001" },
		{ "hole", "final_diameter", "9000" },
		{ "pull", "friction_hole", "2" },
		{ "pull", "fluid_drag", "9000" },
		{ "product_pipe", "wall", "11.99" },
		{ "product_pipe", "wall", "0.011" },
		{ "fluid", "weight", "90" },
		{ "pull", "fluid_level", "-1000" },
		{ "pull", "fluid_level", "9000" },
		{ "pull", "string_length", "1" },
		{ "product_pipe", "yield", "0.1" },
	};

	(void)state;
	for (size_t k = 0; k < sizeof sheets / sizeof *sheets; k++) {
		end(NULL);
		begin(NULL);
		jobs_set(&job, sheets[k][0], sheets[k][1], sheets[k][2]);
		jobs_follow(&job, 20);
		jobs_log(&job, "", "95", "80");
		make(k % 2 == 0);
		for (size_t i = 0; i < load.count; i++) {
			const struct load_station *st = &load.stations[i];
			assert_true(isfinite(st->force_n) && isfinite(st->high_n));
			assert_true(0 <= st->low_n && st->low_n <= st->force_n && st->force_n <= st->high_n);
			for (int c = 0; c < PIPE_CHECKS; c++)
				assert_true(isfinite(st->ratio[c]));
		}
	}
}

/* ---- polyethylene ---- */

static void make_pe(void)
{
	jobs_set(&job, "product_pipe", "material", "pe");
	jobs_set(&job, "product_pipe", "wall", "2.1818");
	jobs_set(&job, "product_pipe", "density", "59.26");
	jobs_set(&job, "product_pipe", "modulus", "56500");
	jobs_set(&job, "product_pipe", "pull_stress", "1150");
	jobs_set(&job, "product_pipe", "ovality", "2");
	jobs_set(&job, "pull", "friction_hole", "0.25");
	jobs_set(&job, "pull", "friction_rollers", "0.4");
	jobs_set(&job, "pull", "hydrokinetic", "10");
}

/* On a design of two ramps and a level bottom the legs come near the standard's four points, which idealises
 * the same shape a little otherwise. */
static void polyethylene_leg_by_leg_comes_near_f1962(void **state)
{
	(void)state;
	make_pe();
	jobs_set(&job, "pull", "fluid_level", "510");
	make(true);
	assert_int_equal(load.f1962_status, F1962_OK);
	assert_near(load.hydrokinetic_n / lbf, 2827.4, 0.5);
	double here = load.stations[0].force_n - load.hydrokinetic_n;
	assert_near(here / load.f1962_forces.force_n[3], 1, 0.1);
	const struct load_station *st = &load.stations[0];
	assert_near(st->ratio[CHECK_TENSION], st->force_n / load.given.section.area_m2 / (1150 * psi), 1e-9);
	assert_true(isnan(st->ratio[CHECK_ALL]));
	assert_int_equal(load.worst[CHECK_ALL], SIZE_MAX);
	assert_true(load.worst[CHECK_HOOP] != SIZE_MAX);
}

/* ---- what is refused ---- */

static void refuses(const char *section, const char *key, const char *text, const char *says)
{
	struct sb_err err = { 0 };

	end(NULL);
	begin(NULL);
	if (strcmp(key, "modulus") == 0)
		jobs_set(&job, "product_pipe", "material", "pe");
	if (text)
		jobs_set(&job, section, key, text);
	else if (strcmp(key, "weight") == 0)
		job.fluid_weight = (struct number){ 0, "" };
	else if (strcmp(key, "final_diameter") == 0)
		job.final_diameter = (struct number){ 0, "" };
	jobs_solve(&job, &s);
	struct clearance_ask ask = sb_solution_clearance(&job, &s);
	assert_int_equal(sb_pipe_load_make(&ask, true, &load, &err), -1);
	assert_int_equal(err.code, SB_STATE);
	if (strstr(err.text, says) == NULL) {
		print_error("'%s' does not say '%s'\n", err.text, says);
		fail();
	}
	assert_int_equal(load.count, 0);
}

static void what_cannot_be_is_refused_in_a_sentence(void **state)
{
	(void)state;
	refuses("product_pipe", "wall", "12", "the pipe has no bore");
	refuses("product_pipe", "wall", "15", "takes half of 24 in or more");
	refuses("hole", "final_diameter", "24", "A final hole of 24 in does not take a pipe of 24 in");
	refuses("hole", "final_diameter", NULL, "does not say [hole] final_diameter");
	refuses("fluid", "weight", NULL, "does not say [fluid] weight");
	refuses("fluid", "weight", "8", "is lighter than water (8.345)");
	refuses("product_pipe", "modulus", NULL, "does not say [product_pipe] modulus");
	refuses("product_pipe", "coating_thickness", "0.1", "does not say [product_pipe] coating_density");
	refuses("pull", "water_to", "470", "contents is empty");
}

/* Without a yield there is a force, and no check of it. */
static void without_a_yield_nothing_is_judged(void **state)
{
	(void)state;
	job.yield = (struct number){ 0, "" };
	make(true);
	assert_near(force_at(135.553437), 184047.5, 10);
	for (int k = 0; k < PIPE_CHECKS; k++)
		assert_int_equal(load.worst[k], SIZE_MAX);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test_setup_teardown(
			the_design_of_profile_b_takes_the_force_worked_out_by_hand, begin, end),
		cmocka_unit_test_setup_teardown(
			a_pilot_along_the_design_takes_about_the_designs_force, begin, end),
		cmocka_unit_test_setup_teardown(the_noise_of_readings_does_not_make_force, begin, end),
		cmocka_unit_test_setup_teardown(extra_bends_cost_force, begin, end),
		cmocka_unit_test_setup_teardown(finer_joints_do_not_change_the_force, begin, end),
		cmocka_unit_test_setup_teardown(
			the_band_holds_the_force_and_moves_with_what_is_varied, begin, end),
		cmocka_unit_test_setup_teardown(every_place_of_the_head_has_a_force, begin, end),
		cmocka_unit_test_setup_teardown(without_friction_the_force_is_the_weights_work, begin, end),
		cmocka_unit_test_setup_teardown(what_is_strange_still_gives_numbers, begin, end),
		cmocka_unit_test_setup_teardown(polyethylene_leg_by_leg_comes_near_f1962, begin, end),
		cmocka_unit_test_setup_teardown(what_cannot_be_is_refused_in_a_sentence, begin, end),
		cmocka_unit_test_setup_teardown(without_a_yield_nothing_is_judged, begin, end),
	};
	return run_tests(tests);
}
