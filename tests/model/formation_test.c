/* Layers, what presses on a place in them, and the limit that follows: reckoned by hand in a level hole. */
#include "model/formation.h"

#include "base/measure.h"
#include "geom/angle.h"
#include "level_hole.h"

#define PSF 47.88026 /* a pound-force by square foot, Pa (NIST SP 811) */
#define WATER 9.81e3

/* from, to, top, name, unit weight, cohesion, friction, shear modulus, ground water */
static void layer(const char *from, const char *to, const char *top, const char *name, const char *weight,
	const char *cohesion, const char *friction, const char *shear, const char *water)
{
	jobs_row(&job, "soil",
		(const char *const[]){ from, to, top, name, weight, cohesion, friction, shear, water });
}

static void flat_ground(const char *elevation)
{
	jobs_row(&job, "ground", (const char *const[]){ "0", elevation });
	jobs_row(&job, "ground", (const char *const[]){ "1000", elevation });
}

static struct soil_place at(double station_ft, double elevation_ft, double ground_ft)
{
	struct frame f;
	struct soil soil;

	assert_int_equal(sb_frame_init(&job, &f, NULL), 0);
	sb_soil_build(&job, &f, &soil);
	struct soil_place p = sb_soil_at(&soil, station_ft * foot, elevation_ft * foot, ground_ft * foot);
	/* beds are gone when this returns: what is needed of one is asked before */
	p.bed = NULL;
	sb_soil_clear(&soil);
	return p;
}

/* 10 ft of 110, 15 of 125 and 5 of 130 lb/ft3. */
static void layers_press_by_their_weight_and_water_by_its_height(void **state)
{
	(void)state;
	layer("0", "1000", "130", "fill", "110", "0", "30", "500", "124");
	layer("0", "1000", "105", "sand", "130", "0", "35", "900", "120");
	layer("0", "1000", "120", "clay", "125", "5", "0", "300", "");
	struct soil_place p = at(500, 100, 130);
	assert_int_equal(p.known, SOIL_KNOWN);
	assert_near(p.total_pa, (10 * 110 + 15 * 125 + 5 * 130) * PSF, 1);
	assert_near(p.pore_pa, WATER * 20 * foot, 1e-6); /* of the layer that it lies in */
	assert_false(p.water_assumed);
	p = at(500, 110, 130);
	assert_true(p.water_assumed); /* the clay does not say */
	assert_near(p.pore_pa, WATER * 20 * foot, 1e-6);
	assert_near(p.total_pa, (10 * 110 + 10 * 125) * PSF, 1);
	assert_near(at(500, 127, 130).pore_pa, 0, 0); /* above its water */
}

static void the_ground_cuts_layers_off_or_takes_the_uppermost_up(void **state)
{
	(void)state;
	layer("0", "1000", "130", "fill", "110", "0", "30", "500", "90");
	layer("0", "1000", "120", "clay", "125", "5", "0", "300", "90");
	/* dug down to 115: the fill is gone and some of the clay */
	assert_near(at(500, 100, 115).total_pa, 15 * 125 * PSF, 1);
	assert_near(at(500, 100, 115).raised_m, 0, 0);
	/* banked up to 140: the fill goes up */
	assert_near(at(500, 100, 140).total_pa, (20 * 110 + 20 * 125) * PSF, 1);
	assert_near(at(500, 100, 140).raised_m, 10 * foot, 1e-9);
}

/* Bed at 110, river at 118: 8 ft of water press on the bed and stand in the pores. */
static void a_river_presses_on_its_bed_and_stands_in_the_pores(void **state)
{
	(void)state;
	layer("0", "1000", "130", "sand", "125", "0", "35", "900", "118");
	struct soil_place p = at(500, 100, 110);
	assert_near(p.total_pa, 10 * 125 * PSF + WATER * 8 * foot, 1);
	assert_near(p.pore_pa, WATER * 18 * foot, 1e-6);
	assert_near(p.flooded_m, 8 * foot, 1e-9);
	assert_near(at(500, 100, 118).flooded_m, 0, 0);
}

static void what_is_not_known_of_the_ground_is_said(void **state)
{
	(void)state;
	layer("100", "400", "130", "fill", "", "0", "30", "500", "");
	layer("100", "400", "115", "sand", "125", "0", "35", "900", "");
	assert_int_equal(at(500, 100, 130).known, SOIL_NO_LAYER);
	assert_int_equal(at(50, 100, 130).known, SOIL_NO_LAYER);
	assert_int_equal(at(200, 100, 130).known, SOIL_NO_WEIGHT);
	assert_int_equal(at(200, 100, 115).known, SOIL_KNOWN); /* the fill is not there */
	assert_int_equal(at(200, 131, 130).known, SOIL_ABOVE);
	assert_int_equal(at(200, 130, 130).known, SOIL_ABOVE);
}

/* ---- the limit ---- */

static struct formation of_joint(int joint, double hole_ft)
{
	struct clearance_ask ask = sb_solution_clearance(&job, &s);
	const struct row *row = &s.path.rows[joint];
	struct formation_place place = sb_formation_place(
		row->survey_md_m, row->deviation.station_m, row->at, row->attitude.heading);

	return sb_formation_at(&ask, hole_ft * foot, &place);
}

/* The formula of the sources, written as they write it, for sand: friction 30 degrees, so (1 + sin) is 1.5
 * and the exponent 1/3. */
static void sand_under_its_cover_by_hand(void **state)
{
	(void)state;
	flat_ground("130");
	layer("0", "1000", "130", "sand", "120", "0", "30", "1000", "115");
	drill(4);
	struct formation f = of_joint(4, 0.5);
	double pore = WATER * 15 * foot, stress = 30 * 120 * PSF - pore, shear = 1000 * 6894.757;
	double plastic = 0.667 * 29.5, q = stress * 0.5 / shear;
	assert_int_equal(f.known, FORMATION_KNOWN);
	assert_near(f.cover_m, 29.5 * foot, 1e-9);
	assert_near(f.limit.limit_pa, pore + stress * 1.5 * pow(pow(0.5 / plastic, 2) + q, -1.0 / 3), 20);
}

/* The same for clay: half of the cover, no friction. */
static void clay_under_its_cover_by_hand(void **state)
{
	(void)state;
	flat_ground("130");
	layer("0", "1000", "130", "clay", "120", "6", "", "600", "115");
	drill(4);
	struct formation f = of_joint(4, 0.5);
	double pore = WATER * 15 * foot, stress = 30 * 120 * PSF - pore, psi = 6894.757;
	assert_int_equal(f.known, FORMATION_KNOWN);
	assert_near(f.limit.limit_pa,
		pore + stress + 6 * psi - 6 * psi * log(pow(0.5 / (0.5 * 29.5), 2) + 6.0 / 600), 20);
	jobs_set(&job, "fluid", "clay_share", "0.25");
	assert_true(of_joint(4, 0.5).limit.limit_pa < f.limit.limit_pa);
	jobs_set(&job, "fluid", "tension_cutoff", "0");
	assert_int_equal(of_joint(4, 0.5).limit.rule, CAVITY_PLASTIC);
}

static void assert_missing(const struct formation *f, enum formation_known known, const char *words)
{
	char text[200];

	assert_int_equal(f->known, known);
	sb_formation_missing(f, text);
	if (strstr(text, words) == NULL)
		fail_msg("'%s' is not in '%s'", words, text);
}

static void each_thing_that_is_missing_is_named(void **state)
{
	(void)state;
	jobs_row(&job, "ground", (const char *const[]){ "0", "130" });
	jobs_row(&job, "ground", (const char *const[]){ "150", "130" });
	jobs_row(&job, "ground", (const char *const[]){ "170", "100" });
	jobs_row(&job, "ground", (const char *const[]){ "200", "100" });
	layer("0", "40", "130", "peat", "70", "", "", "100", "");
	layer("50", "70", "130", "silt", "100", "1", "0", "", "");
	layer("80", "100", "130", "loess", "", "1", "0", "100", "");
	layer("110", "130", "130", "ooze", "60", "0", "0", "100", "140");
	drill(8);
	struct formation f = of_joint(1, 0.5);
	assert_missing(&f, FORMATION_NO_STRENGTH, "'peat' has no cohesion or friction");
	f = of_joint(2, 0.5);
	assert_missing(&f, FORMATION_NO_SHEAR, "'silt' has no shear_modulus");
	f = of_joint(3, 0.5);
	assert_missing(&f, FORMATION_NO_WEIGHT, "'loess' has no unit_weight");
	f = of_joint(4, 0.5);
	assert_missing(&f, FORMATION_AFLOAT, "water carries");
	f = of_joint(5, 0.5); /* station 155, ground on its way down: still under it, no layer */
	assert_missing(&f, FORMATION_NO_LAYER, "no layer");
	f = of_joint(6, 0.5);
	assert_missing(&f, FORMATION_ABOVE, "not under the ground");
	f = of_joint(8, 0.5);
	assert_missing(&f, FORMATION_NO_GROUND, "ground.csv");
	f = of_joint(1, 0);
	assert_missing(&f, FORMATION_NO_HOLE, "diameter");
}

static void a_sheet_without_soil_is_told_that_not_of_a_layer(void **state)
{
	(void)state;
	jobs_row(&job, "ground", (const char *const[]){ "0", "130" });
	jobs_row(&job, "ground", (const char *const[]){ "150", "130" });
	drill(2);
	struct formation f = of_joint(1, 0.5);
	assert_missing(&f, FORMATION_NO_SOIL, "the sheet has no soil.csv");
}

/* Neither friction nor cohesion, and both said to be 0: what the ground bears is the stress around it. */
static void ground_without_strength_bears_its_own_stress(void **state)
{
	(void)state;
	flat_ground("130");
	layer("0", "1000", "130", "slurry", "100", "0", "0", "100", "100");
	drill(4);
	struct formation f = of_joint(4, 0.5);
	assert_int_equal(f.known, FORMATION_KNOWN);
	assert_near(f.limit.limit_pa, 30 * 100 * PSF, 1);
}

static void it_is_judged_between_the_stations_of_the_sheet(void **state)
{
	(void)state;
	drill(1);
	struct setup of = sb_solution_setup(&job, &s);
	assert_true(sb_formation_judged(&of, 0) && sb_formation_judged(&of, 300));
	jobs_set(&job, "cover", "from", "150");
	jobs_set(&job, "cover", "to", "800");
	assert_false(sb_formation_judged(&of, 149.9 * foot));
	assert_true(sb_formation_judged(&of, 150 * foot) && sb_formation_judged(&of, 800 * foot));
	assert_false(sb_formation_judged(&of, 800.1 * foot));
	jobs_set(&job, "fluid", "from", "100");
	jobs_set(&job, "fluid", "to", "900");
	assert_true(sb_formation_judged(&of, 100 * foot) && sb_formation_judged(&of, 900 * foot));
	assert_false(sb_formation_judged(&of, 99 * foot));
}

#define each(test) cmocka_unit_test_setup_teardown(test, setup, teardown)

int main(void)
{
	const struct CMUnitTest tests[] = {
		each(layers_press_by_their_weight_and_water_by_its_height),
		each(the_ground_cuts_layers_off_or_takes_the_uppermost_up),
		each(a_river_presses_on_its_bed_and_stands_in_the_pores),
		each(what_is_not_known_of_the_ground_is_said),
		each(sand_under_its_cover_by_hand),
		each(clay_under_its_cover_by_hand),
		each(each_thing_that_is_missing_is_named),
		each(a_sheet_without_soil_is_told_that_not_of_a_layer),
		each(ground_without_strength_bears_its_own_stress),
		each(it_is_judged_between_the_stations_of_the_sheet),
	};

	return run_tests(tests);
}
