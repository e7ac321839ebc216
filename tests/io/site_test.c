/* A job's own figures beside what is found at its place; and a map that cannot be asked is a sentence. */
#include "io/site.h"

#include "base/time.h"
#include "geom/angle.h"
#include "support/jobs.h"
#include "support/near.h"

#include <stdlib.h>
#include <string.h>

static struct job job;
static struct frame frame;
static struct site site;
static struct comparison held[HELD_COUNT];

/* Metres on UTM zone 32N, due north from a point of which PROJ's own program and GeographicLib are asked in
 * tests/cli/earth.sh; here only what is made of the figures counts. */
static int setup(void **state)
{
	(void)state;
	jobs_curved(&job);
	jobs_set(&job, "control", "crs", "EPSG:25832");
	jobs_set(&job, "control", "entry", "563210.40, 5932845.20, 21.40");
	jobs_set(&job, "control", "exit", "563210.40, 5933245.20, 21.40");
	job.alignment_count = 0;
	jobs_set(&job, "azimuth", "reference", "magnetic");
	jobs_set(&job, "azimuth", "declination", "4.31");
	jobs_set(&job, "azimuth", "convergence", "0.77");
	jobs_set(&job, "azimuth", "scale_factor", "0.99965");
	return 0;
}

static int teardown(void **state)
{
	(void)state;
	sb_job_clear(&job);
	return 0;
}

static void look(const char *date)
{
	int64_t ms = 0;

	assert_int_equal(sb_time_parse_day(date, &ms, NULL), 0);
	assert_int_equal(sb_frame_init(&job, &frame, NULL), 0);
	sb_site_find(&job, ms, &site);
	sb_site_compare(&job, &frame, &site, held);
}

static size_t warnings(char first[480])
{
	struct sb_problems problems = { 0 };

	sb_site_warn(&job, &site, &problems);
	size_t count = problems.count;
	assert_int_equal(problems.errors, 0);
	first[0] = '\0';
	if (count)
		snprintf(first, 480, "%s: %s", problems.list[0].column, problems.list[0].text);
	sb_problems_clear(&problems);
	return count;
}

static void figures_that_fit_their_place_are_ok(void **state)
{
	char text[480];

	(void)state;
	look("2026-11-25");
	assert_true(site.mapped && site.magnetic && !site.local);
	for (int i = HELD_DECLINATION; i <= HELD_SCALE; i++) {
		assert_true(held[i].known);
		assert_int_equal(held[i].level, LEVEL_OK);
	}
	assert_false(held[HELD_LINE].known);
	assert_string_equal(
		held[HELD_LINE].words, "not compared: nobody has laid the tool on the staked line");
	assert_int_equal(warnings(text), 0);
}

static void half_a_degree_of_declination_is_the_limit(void **state)
{
	(void)state;
	look("2026-11-25");
	double found = sb_deg(site.magnet.field.declination_rad);
	char typed[SB_NUMBER_TEXT];
	snprintf(typed, sizeof typed, "%.6f", found + 0.4999);
	jobs_set(&job, "azimuth", "declination", typed);
	look("2026-11-25");
	assert_int_equal(held[HELD_DECLINATION].level, LEVEL_OK);
	snprintf(typed, sizeof typed, "%.6f", found - 0.5001);
	jobs_set(&job, "azimuth", "declination", typed);
	look("2026-11-25");
	assert_int_equal(held[HELD_DECLINATION].level, LEVEL_WATCH);
	assert_near(held[HELD_DECLINATION].apart, 0.5001, 2e-6);
}

static void convergence_and_scale_have_limits_of_their_own(void **state)
{
	(void)state;
	jobs_set(&job, "azimuth", "convergence", "-0.77"); /* the sense slipped */
	jobs_set(&job, "azimuth", "scale_factor", "0.9996");
	look("2026-11-25");
	assert_near(held[HELD_CONVERGENCE].apart, 1.54, 0.01);
	assert_int_equal(held[HELD_CONVERGENCE].level, LEVEL_WATCH);
	assert_int_equal(held[HELD_SCALE].level, LEVEL_WATCH);
	assert_near(held[HELD_SCALE].apart, 45.7e-6, 1e-6);
	jobs_set(&job, "azimuth", "scale_factor", "0.99963");
	look("2026-11-25");
	assert_int_equal(held[HELD_SCALE].level, LEVEL_OK);
}

/* The line bears due north on the grid: the compass reads convergence less declination there, 356.46. */
static void the_tool_on_the_line_is_turned_by_both(void **state)
{
	(void)state;
	jobs_set(&job, "azimuth", "bore_azimuth_read", "356.46");
	look("2026-11-25");
	assert_near(held[HELD_LINE].apart, 0, 1e-9);
	assert_near(held[HELD_LINE_FOUND].apart, 0, 0.02);
	/* a declination put in with the wrong sign is seen by the line, and by the model */
	jobs_set(&job, "azimuth", "declination", "-4.31");
	look("2026-11-25");
	assert_near(held[HELD_LINE].apart, 8.62, 1e-9);
	assert_int_equal(held[HELD_LINE].level, LEVEL_WATCH);
	assert_int_equal(held[HELD_LINE_FOUND].level, LEVEL_OK);
	assert_non_null(strstr(
		held[HELD_LINE].words, "356.46 as read makes 351.38 on the grid, where the line bears 0.00"));
	jobs_set(&job, "azimuth", "reference", "grid");
	look("2026-11-25");
	assert_string_equal(held[HELD_LINE_FOUND].words, "not compared: readings refer to grid north");
}

static void outside_the_models_years_the_map_still_speaks(void **state)
{
	char text[480];

	(void)state;
	look("2031-06-01");
	assert_true(site.mapped && !site.magnetic);
	assert_true(held[HELD_CONVERGENCE].known);
	assert_false(held[HELD_DECLINATION].known);
	assert_int_equal(warnings(text), 1);
	assert_non_null(
		strstr(text, "declination: not held against the model: 2031-06-01 is outside the years"));
}

static void a_local_job_says_what_cannot_be_known_and_warns_of_nothing(void **state)
{
	char text[480];

	(void)state;
	jobs_set(&job, "control", "crs", "local");
	look("2026-11-25");
	assert_true(site.local && !site.mapped && !site.magnetic);
	assert_non_null(strstr(site.map_says, "cannot be known"));
	assert_false(held[HELD_SCALE].known);
	assert_int_equal(warnings(text), 0);
	/* but the tool on the line and the job's own figures are its own matter */
	jobs_set(&job, "azimuth", "bore_azimuth_read", "10");
	look("2026-11-25");
	assert_int_equal(warnings(text), 1);
	assert_non_null(strstr(text, "bore_azimuth_read: 10 as read makes 13.54"));
}

static void a_map_that_does_not_fit_is_said_once(void **state)
{
	static const struct {
		const char *crs, *words;
	} table[] = { { "EPSG:2278", "The job is in metres" }, { "EPSG:4326", "not a grid" },
		{ "EPSG:2193", "The job's entry: " }, { "EPSG:999999", "is not in the table" } };
	char text[480];

	(void)state;
	for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
		jobs_set(&job, "control", "crs", table[i].crs);
		look("2026-11-25");
		assert_false(site.mapped);
		assert_int_equal(warnings(text), 1);
		assert_non_null(strstr(text, table[i].words));
		assert_non_null(strstr(text, "were held against nothing"));
	}
}

static void without_the_table_of_systems_it_is_a_sentence(void **state)
{
	char text[480];

	(void)state;
	setenv("PROJ_DATA", "/nonexistent", 1);
	setenv("PROJ_LIB", "/nonexistent", 1);
	look("2026-11-25");
	unsetenv("PROJ_DATA");
	unsetenv("PROJ_LIB");
	assert_false(site.mapped || site.magnetic);
	assert_non_null(strstr(site.map_says, "proj-data"));
	assert_int_equal(warnings(text), 1);
	/* and once it is there again, it is asked again */
	look("2026-11-25");
	assert_true(site.mapped && site.magnetic);
}

#define HERE(name) cmocka_unit_test_setup_teardown(name, setup, teardown)

int main(void)
{
	static const struct CMUnitTest tests[] = {
		HERE(figures_that_fit_their_place_are_ok),
		HERE(half_a_degree_of_declination_is_the_limit),
		HERE(convergence_and_scale_have_limits_of_their_own),
		HERE(the_tool_on_the_line_is_turned_by_both),
		HERE(outside_the_models_years_the_map_still_speaks),
		HERE(a_local_job_says_what_cannot_be_known_and_warns_of_nothing),
		HERE(a_map_that_does_not_fit_is_said_once),
		HERE(without_the_table_of_systems_it_is_a_sentence),
	};

	return run_tests(tests);
}
