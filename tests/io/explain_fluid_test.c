/* Pressure and limit explained: at every joint of both sample bores they are the ones that the program shows,
 * by two ways each; in clay, under a river, with a cut-off, and where something is missing. */
#include "io/explain.h"

#include "base/measure.h"
#include "io/bore.h"
#include "model/annular.h"
#include "support/jobs.h"

#include <math.h>

static struct job job;
static struct solution s;
static struct explanation e;
static struct sb_err err;

static int tidy(void **state)
{
	(void)state;
	sb_explanation_clear(&e);
	sb_solution_clear(&s);
	sb_job_clear(&job);
	return 0;
}

static void explained(const char *figure, int joint)
{
	struct explain_ask a = { sb_explain_figure(figure, &err), joint, 0, 0 };
	struct sb_str text = { 0 };

	assert_non_null(a.figure);
	if (sb_explain(&job, &s, &a, &e, &err))
		fail_msg("%s of joint %d: %s", figure, joint, err.text);
	if (e.differs) {
		sb_explain_text(&e, &text);
		fail_msg("%s", text.text);
	}
}

static const struct explain_line *find(enum explain_kind kind, const char *symbol)
{
	for (size_t i = 0; i < e.count; i++)
		if (e.lines[i].kind == kind && sb_same(e.lines[i].symbol, symbol))
			return &e.lines[i];
	return NULL;
}

static size_t count(enum explain_kind kind)
{
	size_t n = 0;

	for (size_t i = 0; i < e.count; i++)
		n += e.lines[i].kind == kind;
	return n;
}

static bool says(const char *words)
{
	for (size_t i = 0; i < e.count; i++)
		if (strstr(e.lines[i].words, words))
			return true;
	return false;
}

static double typed(double pascal)
{
	return sb_measure_typed(job.unit, MEASURE_PRESSURE, pascal);
}

/* Returned: at how many joints there was a limit. */
static size_t every_joint(void)
{
	struct clearance_ask ask = sb_solution_clearance(&job, &s);
	size_t limits = 0;

	for (size_t i = 1; i < s.path.count; i++) {
		const struct row *row = &s.path.rows[i];
		if (!row->on_path)
			continue;
		struct annular a = sb_annular_pilot(&ask, row, sb_job_joint(&job, row->joint));
		explained("fluid-pressure", row->joint);
		assert_near(
			find(EXPLAIN_RESULT, "annular_estimate")->number, typed(a.estimate.total_pa), 1e-9);
		assert_int_equal(count(EXPLAIN_CHECK), 1);
		explained("formation-limit", row->joint);
		if (a.formation.known != FORMATION_KNOWN)
			continue;
		assert_near(find(EXPLAIN_RESULT, "formation_limit")->number,
			typed(a.formation.limit.limit_pa), 1e-9);
		assert_int_equal(count(EXPLAIN_CHECK), 1);
		limits++;
	}
	return limits;
}

static void pressure_and_limit_of_tern_slough_are_the_ones_shown(void **state)
{
	(void)state;
	bore_tern(&job);
	bore_solve(&job, &s);
	assert_true(every_joint() > 60);
	explained("formation-limit", 30); /* under the slough */
	assert_true(find(EXPLAIN_STEP, "river") != NULL);
	explained("formation-limit", 8);
	assert_true(says("clay_share"));
}

static void pressure_and_limit_of_kestrel_road_are_the_ones_shown(void **state)
{
	(void)state;
	bore_sheet(KESTREL, &job);
	bore_surveys(&job, KESTREL "/surveys.csv");
	bore_solve(&job, &s);
	assert_true(every_joint() > 40);
}

static void bore_of(const char *cohesion, const char *friction)
{
	jobs_plain(&job);
	jobs_set(&job, "hole", "pilot_diameter", "12.25");
	jobs_set(&job, "fluid", "weight", "9.2");
	jobs_row(&job, "soil",
		(const char *const[]){ "0", "1200", "100", "clay", "110", cohesion, friction, "800", "" });
	jobs_follow(&job, 12);
	jobs_solve(&job, &s);
}

static void ground_that_parts_is_said_to(void **state)
{
	(void)state;
	bore_of("60", "");
	jobs_set(&job, "fluid", "tension_cutoff", "2");
	explained("formation-limit", 12);
	assert_true(says("parts before it yields"));
	assert_true(says("the layer does not say"));
	assert_non_null(find(EXPLAIN_RESULT, "formation_limit"));
	explained("fluid-pressure", 12); /* no viscosity */
	assert_true(says("only the fluid's own weight counts"));
}

static void what_is_missing_is_said_in_place_of_a_figure(void **state)
{
	(void)state;
	bore_of("", "");
	explained("formation-limit", 12);
	assert_true(says("'clay' has no cohesion or friction"));
	assert_null(find(EXPLAIN_RESULT, "formation_limit"));
	memset(&job.fluid_weight, 0, sizeof job.fluid_weight);
	explained("fluid-pressure", 12);
	assert_true(says("[fluid] weight is missing"));
}

#define each(test) cmocka_unit_test_teardown(test, tidy)

int main(void)
{
	const struct CMUnitTest tests[] = {
		each(pressure_and_limit_of_tern_slough_are_the_ones_shown),
		each(pressure_and_limit_of_kestrel_road_are_the_ones_shown),
		each(ground_that_parts_is_said_to),
		each(what_is_missing_is_said_in_place_of_a_figure),
	};

	return run_tests(tests);
}
