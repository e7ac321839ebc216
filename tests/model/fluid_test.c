/* Pressure around the pipe at each stage, what a joint says of it, and returns and releases in the order of
 * time. */
#include "model/fluid_line.h"
#include "model/returns.h"

#include "base/measure.h"
#include "level_hole.h"
#include "model/fact.h"

#define PSI 6894.757293
#define POUND_GALLON 119.8264273

static void fluid(void)
{
	jobs_set(&job, "fluid", "weight", "9.5");
	jobs_set(&job, "fluid", "plastic_viscosity", "15");
	jobs_set(&job, "fluid", "yield_point", "20");
	jobs_set(&job, "fluid", "flow", "500");
	jobs_set(&job, "hole", "pilot_diameter", "12.25");
	jobs_set(&job, "drill_pipe", "outside_diameter", "5");
}

/* 30 ft of sand over the hole, that bears some 98 psi around the pilot. */
static void sand(void)
{
	jobs_row(&job, "ground", (const char *const[]){ "0", "130" });
	jobs_row(&job, "ground", (const char *const[]){ "1000", "130" });
	jobs_row(&job, "soil",
		(const char *const[]){ "0", "1000", "130", "sand", "120", "0", "30", "1000", "115" });
}

static struct frame frame(void)
{
	struct frame f;

	assert_int_equal(sb_frame_init(&job, &f, NULL), 0);
	return f;
}

/* Derived: 60 ft of 9.5 lb/gal are 29.6 psi. Derived from Guo and Liu: 1000 ft of annulus, exact
 * between plates 11.11 psi; the annulus lies a hair below. */
static void weight_and_loss_add_up_to_the_published_figures(void **state)
{
	(void)state;
	fluid();
	struct frame f = frame();
	struct fluid_stage s0 = sb_fluid_pilot(&job, &f, NULL);
	struct fluid_pressure p = sb_fluid_pressure(&s0, 1000 * foot, (100 - 60) * foot);
	assert_int_equal(p.known, FLUID_KNOWN);
	assert_near(p.weight_pa / PSI, 29.6, 0.05);
	assert_near(s0.entry.loss.slot_pam * 1000 * foot / PSI, 11.11, 0.005);
	assert_true(p.loss_pa < s0.entry.loss.slot_pam * 1000 * foot && p.loss_pa / PSI > 10.9);
	assert_near(p.total_pa, p.weight_pa + p.loss_pa, 1e-9);
	assert_near(sb_fluid_pressure(&s0, 1000 * foot, 110 * foot).weight_pa, 0, 0); /* above the entry */
	assert_false(p.to_exit);
	/* the weight that comes back, where the sheet says one */
	jobs_set(&job, "fluid", "return_weight", "10");
	s0 = sb_fluid_pilot(&job, &f, NULL);
	assert_near(
		sb_fluid_pressure(&s0, 0, 40 * foot).weight_pa, 10 * POUND_GALLON * 9.80665 * 60 * foot, 0.1);
}

static void a_joint_that_says_its_flow_is_reckoned_with_it(void **state)
{
	struct number none = sb_number_of(0, 0), much = sb_number_of(900, 0);

	(void)state;
	fluid();
	struct frame f = frame();
	double usual = sb_fluid_pilot(&job, &f, NULL).entry.loss.gradient_pam;
	struct fluid_stage rest = sb_fluid_pilot(&job, &f, &none);
	assert_true(sb_fluid_pilot(&job, &f, &much).entry.loss.gradient_pam > usual);
	assert_int_equal(rest.entry.known, FLUID_KNOWN);
	assert_near(sb_fluid_pressure(&rest, 1000, 0).loss_pa, 0, 0); /* pumps off */
}

static void what_is_missing_leaves_the_weight_alone_and_is_named(void **state)
{
	(void)state;
	struct frame f = frame();
	struct fluid_stage s0 = sb_fluid_pilot(&job, &f, NULL);
	assert_int_equal(s0.entry.known, FLUID_NO_WEIGHT);
	assert_true(isnan(sb_fluid_pressure(&s0, 100, 0).total_pa));
	jobs_set(&job, "fluid", "weight", "9.5");
	assert_int_equal(sb_fluid_pilot(&job, &f, NULL).entry.known, FLUID_NO_VISCOSITY);
	jobs_set(&job, "fluid", "plastic_viscosity", "15");
	jobs_set(&job, "fluid", "yield_point", "0");
	assert_int_equal(sb_fluid_pilot(&job, &f, NULL).entry.known, FLUID_NO_PIPE);
	jobs_set(&job, "drill_pipe", "outside_diameter", "12"); /* as wide as the pilot hole */
	assert_int_equal(sb_fluid_pilot(&job, &f, NULL).entry.known, FLUID_NO_ROOM);
	jobs_set(&job, "drill_pipe", "outside_diameter", "5");
	s0 = sb_fluid_pilot(&job, &f, NULL);
	assert_int_equal(s0.entry.known, FLUID_NO_FLOW);
	assert_near(sb_fluid_pressure(&s0, 100, 100 * foot - 1).total_pa, 9.5 * POUND_GALLON * 9.80665, 0.01);
	for (int k = FLUID_NO_WEIGHT; k <= FLUID_NO_FLOW; k++)
		assert_true(strlen(sb_fluid_known_words((enum fluid_known)k)) > 20);
	memset(&job.pilot_diameter, 0, sizeof job.pilot_diameter);
	assert_int_equal(sb_fluid_pilot(&job, &f, NULL).entry.known, FLUID_NO_HOLE);
	assert_false(sb_fluid_light(&job));
	jobs_set(&job, "fluid", "weight", "8.2");
	assert_true(sb_fluid_light(&job));
}

/* ---- opening and pull ---- */

static void pass(enum pass_kind kind, enum pass_way to, double inches)
{
	struct pass p = { .fact.id = (int64_t)job.pass_count + 1,
		.kind = kind,
		.to = to,
		.diameter = sb_number_of(inches, 0) };

	sb_fact_add(&job, ACT_PASS, &p);
}

static void an_opened_hole_has_two_sides_and_the_fluid_takes_the_easier(void **state)
{
	double inch = 0.0254 / 2;

	(void)state;
	fluid();
	struct frame f = frame();
	struct fluid_stage planned = sb_fluid_pass(&job, &f, 0, NULL, 1000 * foot);
	assert_near(planned.hole_m, 24 * inch, 1e-12); /* the sheet's final diameter */
	pass(PASS_REAM, PASS_TO_ENTRY, 18);
	pass(PASS_SWAB, PASS_TO_EXIT, 16);
	pass(PASS_REAM, PASS_TO_EXIT, 24);
	struct fluid_stage first = sb_fluid_pass(&job, &f, 1, NULL, 1000 * foot);
	struct fluid_stage third = sb_fluid_pass(&job, &f, 3, NULL, 1000 * foot);
	struct fluid_stage pull = sb_fluid_pull(&job, &f, NULL, 1000 * foot);
	assert_near(first.entry.annulus.outer_m, 12.25 * inch, 1e-12);
	assert_near(first.exit.annulus.outer_m, 18 * inch, 1e-12);
	assert_near(third.entry.annulus.outer_m, 24 * inch, 1e-12);
	assert_near(third.exit.annulus.outer_m, 18 * inch, 1e-12);
	assert_near(pull.hole_m, 24 * inch, 1e-12);
	assert_near(sb_fluid_pass(&job, &f, 2, NULL, 1).hole_m, 18 * inch, 1e-12); /* a swab opens nothing */
	/* level, both ends alike: near the exit the short way is the easier one */
	assert_true(sb_fluid_pressure(&first, 900 * foot, 100 * foot).to_exit);
	struct fluid_pressure p = sb_fluid_pressure(&first, 100 * foot, 100 * foot);
	assert_near(p.total_pa,
		fmin(first.entry.loss.gradient_pam * 100, first.exit.loss.gradient_pam * 900) * foot, 1e-6);
	/* a pass that is struck out opened nothing */
	job.passes[2].struck = true;
	assert_near(sb_fluid_pull(&job, &f, NULL, 1).hole_m, 18 * inch, 1e-12);
}

static void the_pull_has_the_pipe_behind_the_head(void **state)
{
	(void)state;
	fluid();
	jobs_set(&job, "product_pipe", "outside_diameter", "12");
	struct frame f = frame();
	struct fluid_stage pull = sb_fluid_pull(&job, &f, NULL, 1000 * foot);
	assert_near(pull.exit.annulus.inner_m, 6 * 0.0254, 1e-12);
	assert_near(pull.entry.annulus.inner_m, 2.5 * 0.0254, 1e-12);
	jobs_set(&job, "product_pipe", "outside_diameter", "24"); /* no less than the hole */
	assert_int_equal(sb_fluid_pull(&job, &f, NULL, 1000 * foot).exit.known, FLUID_NO_ROOM);
	assert_int_equal(sb_fluid_pull(&job, &f, NULL, 1000 * foot).entry.known, FLUID_KNOWN);
}

/* ---- joints ---- */

static void joint(const char *annular, enum returns returns)
{
	struct reading r = jobs_reading(&job, "", "90", "90");

	if (*annular)
		assert_int_equal(sb_number_parse(annular, &r.annular, NULL), 0);
	r.returns = returns;
	r.id = (int64_t)job.reading_count + 1;
	r.logged = r.id * 10;
	sb_job_add_reading(&job, &r);
}

static const struct warning *last_of(enum warning_kind kind)
{
	for (size_t i = s.warning_count; i-- > 0;)
		if (s.warnings[i].kind == kind)
			return &s.warnings[i];
	return NULL;
}

static double limit_psi(void)
{
	struct clearance_ask ask = sb_solution_clearance(&job, &s);

	return sb_annular_pilot(&ask, &s.path.rows[1], NULL).formation.limit.limit_pa / PSI;
}

static void measured_pressure_is_watched_from_the_share_and_broken_over_the_limit(void **state)
{
	char text[16];

	(void)state;
	sand();
	joint("10", RETURNS_UNSAID);
	jobs_solve(&job, &s);
	assert_null(last_of(WARNING_ANNULAR));
	double limit = limit_psi();
	snprintf(text, sizeof text, "%.1f", 0.85 * limit);
	joint(text, RETURNS_UNSAID);
	jobs_solve(&job, &s);
	const struct warning *w = last_of(WARNING_ANNULAR);
	assert_int_equal(w->level, LEVEL_WATCH);
	assert_true(strstr(w->text, "measured") && strstr(w->text, "estimated to bear"));
	assert_near(w->limit, limit, 0.01);
	snprintf(text, sizeof text, "%.1f", 1.05 * limit);
	joint(text, RETURNS_UNSAID);
	jobs_solve(&job, &s);
	w = last_of(WARNING_ANNULAR);
	assert_int_equal(w->level, LEVEL_BREACH);
	assert_int_equal(w->worst_joint, 3);
	assert_true(strstr(w->text, "Stop pumping"));
	/* it ends, stays a breach, and outlives the joint's being pulled back */
	joint("10", RETURNS_UNSAID);
	jobs_withdraw(&job, 1);
	jobs_solve(&job, &s);
	w = last_of(WARNING_ANNULAR);
	assert_int_equal(w->level, LEVEL_BREACH);
	assert_false(w->open || w->superseded);
	assert_int_equal(s.level, LEVEL_BREACH);
}

static void an_estimate_is_a_watch_at_most_and_says_so(void **state)
{
	(void)state;
	fluid();
	sand();
	jobs_set(&job, "fluid", "yield_point", "5000"); /* porridge */
	for (int i = 0; i < 20; i++)
		joint("", RETURNS_UNSAID);
	jobs_solve(&job, &s);
	const struct warning *w = last_of(WARNING_ANNULAR);
	assert_int_equal(w->level, LEVEL_WATCH);
	assert_true(w->value > w->limit);
	assert_true(strstr(w->text, "estimated") && strstr(w->text, "nothing was measured"));
}

static void nothing_is_judged_where_nothing_is_known(void **state)
{
	(void)state;
	joint("500", RETURNS_UNSAID); /* no ground */
	jobs_solve(&job, &s);
	assert_null(last_of(WARNING_ANNULAR));
	sand();
	jobs_set(&job, "fluid", "from", "200");
	jobs_solve(&job, &s);
	assert_null(last_of(WARNING_ANNULAR));
	jobs_set(&job, "fluid", "from", "0");
	jobs_solve(&job, &s);
	assert_int_equal(last_of(WARNING_ANNULAR)->level, LEVEL_BREACH);
}

static void returns_are_watched_until_they_are_full_again(void **state)
{
	(void)state;
	joint("", RETURNS_FULL);
	joint("", RETURNS_PARTIAL);
	joint("", RETURNS_UNSAID);
	joint("", RETURNS_NONE);
	jobs_solve(&job, &s);
	const struct warning *w = last_of(WARNING_RETURNS);
	assert_int_equal(w->joint, 2);
	assert_true(w->open && strstr(w->text, "no drilling fluid comes back"));
	assert_int_equal(s.level, LEVEL_WATCH);
	joint("", RETURNS_FULL);
	jobs_solve(&job, &s);
	assert_false(last_of(WARNING_RETURNS)->open);
	assert_int_equal(s.level, LEVEL_OK);
}

static void a_trial_shows_what_its_pressure_would_say(void **state)
{
	struct preview preview;

	(void)state;
	sand();
	joint("10", RETURNS_UNSAID);
	jobs_solve(&job, &s);
	struct reading r = jobs_reading(&job, "", "90", "90");
	assert_int_equal(sb_number_parse("500", &r.annular, NULL), 0);
	r.returns = RETURNS_PARTIAL;
	assert_int_equal(sb_solve_preview(&job, &s, &r, &preview, NULL), 0);
	assert_int_equal(preview.level, LEVEL_BREACH);
	assert_int_equal(preview.warning_count, 2);
}

/* ---- entries ---- */

static struct fluid_event *event(enum fluid_event_kind kind, int of)
{
	struct fluid_event e = { .kind = kind, .of = of };
	struct act a = { .kind = ACT_RETURNS, .leg = 1, .joint = sb_job_in_ground(&job), .who = "Ida" };

	a.id = 1000 + (int64_t)job.act_count;
	e.fact = (struct fact){
		.id = (int64_t)job.fluid_event_count + 1, .act = a.id, .leg = 1, .joint = a.joint
	};
	sb_job_add_act(&job, &a);
	sb_fact_add(&job, ACT_RETURNS, &e);
	return &job.fluid_events[job.fluid_event_count - 1];
}

static void what_was_said_last_of_the_returns_holds(void **state)
{
	(void)state;
	assert_int_equal(sb_returns_last(&job).returns, RETURNS_UNSAID);
	joint("", RETURNS_PARTIAL);
	joint("", RETURNS_UNSAID);
	struct returns_said last = sb_returns_last(&job);
	assert_int_equal(last.returns, RETURNS_PARTIAL);
	assert_int_equal(last.joint, 1);
	struct fluid_event *none = event(FLUID_NONE, 0);
	event(FLUID_LOSS, 0); /* says nothing of what comes back */
	last = sb_returns_last(&job);
	assert_int_equal(last.returns, RETURNS_NONE);
	assert_int_equal(last.joint, 2);
	assert_int_equal(last.act, none->fact.act);
	assert_true(last.entered);
	struct pass_joint full = { .fact = { .act = 2000 }, .pass = 1, .joint = 1, .returns = RETURNS_FULL };
	sb_fact_add(&job, ACT_PASS_JOINT, &full);
	assert_int_equal(sb_returns_last(&job).returns, RETURNS_FULL);
	assert_true(sb_returns_last(&job).act == 2000);
	job.pass_joints[0].struck = true;
	job.fluid_events[0].struck = true;
	assert_int_equal(sb_returns_last(&job).returns, RETURNS_PARTIAL);
}

static void a_release_is_a_breach_and_says_what_is_not_recorded(void **state)
{
	char missing[96];

	(void)state;
	joint("", RETURNS_UNSAID);
	strcpy(event(FLUID_RELEASE, 0)->place, "left bank");
	jobs_solve(&job, &s);
	const struct warning *w = last_of(WARNING_RELEASE);
	assert_int_equal(w->level, LEVEL_BREACH);
	assert_near(w->value, 1, 0);
	assert_true(strstr(w->text, "how much, what it ran into, who was told and when, what was done"));
	assert_int_equal(sb_release_unrecorded(&job, 1, 1, missing), 1);
	struct fluid_event *more = event(FLUID_RECORD, 1);
	more->volume = sb_number_of(40, 0);
	strcpy(more->receiving, "water");
	strcpy(more->told, "river authority, 14:10");
	jobs_solve(&job, &s);
	assert_true(strstr(last_of(WARNING_RELEASE)->text, "release 1: what was done"));
	strcpy(event(FLUID_RECORD, 1)->done, "bermed and pumped off");
	jobs_solve(&job, &s);
	assert_int_equal(sb_release_unrecorded(&job, 1, 1, missing), 0);
	assert_int_equal(last_of(WARNING_RELEASE)->level, LEVEL_BREACH);
	assert_true(strstr(last_of(WARNING_RELEASE)->text, "the engineer decides"));
	/* a record that is struck out counts for nothing */
	job.fluid_events[2].struck = true;
	assert_int_equal(sb_release_unrecorded(&job, 1, 1, missing), 1);
	assert_string_equal(missing, "what was done");
	/* one more there is worse than what was accepted */
	event(FLUID_RELEASE, 0);
	jobs_solve(&job, &s);
	assert_near(last_of(WARNING_RELEASE)->value, 2, 0);
}

static void a_release_that_is_struck_out_is_none(void **state)
{
	(void)state;
	joint("", RETURNS_UNSAID);
	event(FLUID_RELEASE, 0)->struck = true;
	jobs_solve(&job, &s);
	assert_null(last_of(WARNING_RELEASE));
}

static void a_loss_is_watched_until_somebody_says_that_returns_are_full(void **state)
{
	(void)state;
	joint("", RETURNS_UNSAID);
	event(FLUID_LOSS, 0)->volume = sb_number_of(300, 0);
	jobs_solve(&job, &s);
	assert_true(last_of(WARNING_RETURNS)->open && strstr(last_of(WARNING_RETURNS)->text, "300 gal of"));
	event(FLUID_FULL, 0);
	jobs_solve(&job, &s);
	assert_false(last_of(WARNING_RETURNS)->open);
}

static void a_pass_measures_against_the_limit_of_its_own_hole(void **state)
{
	struct act a = { .id = 2001, .kind = ACT_PASS_JOINT, .leg = 1, .joint = 3, .who = "Ida" };
	struct pass_joint j = { .fact = { .id = 1, .act = 2001, .leg = 1, .joint = 3 },
		.pass = 1,
		.joint = 2,
		.returns = RETURNS_PARTIAL };

	(void)state;
	fluid();
	sand();
	for (int i = 0; i < 3; i++)
		joint("", RETURNS_FULL);
	pass(PASS_REAM, PASS_TO_ENTRY, 24);
	assert_int_equal(sb_number_parse("500", &j.annular, NULL), 0);
	sb_job_add_act(&job, &a);
	sb_fact_add(&job, ACT_PASS_JOINT, &j);
	jobs_solve(&job, &s);
	const struct warning *w = last_of(WARNING_ANNULAR);
	assert_int_equal(w->level, LEVEL_BREACH);
	assert_int_equal(w->worst_joint, 2);
	assert_true(w->limit < limit_psi()); /* a wider hole bears less */
	assert_int_equal(last_of(WARNING_RETURNS)->joint, 2);
}

/* ---- the whole line ---- */

static void the_line_goes_from_end_to_end_and_finds_the_tightest(void **state)
{
	struct fluid_line line;
	struct bore_line bore = { 0 };
	struct fluid_gap gap;
	size_t at = 0;

	(void)state;
	fluid();
	jobs_row(&job, "ground", (const char *const[]){ "0", "130" });
	jobs_row(&job, "ground", (const char *const[]){ "1000", "130" });
	jobs_row(&job, "soil",
		(const char *const[]){ "0", "300", "130", "sand", "120", "0", "30", "1000", "" });
	jobs_row(&job, "soil",
		(const char *const[]){ "500", "1000", "130", "silt", "110", "1", "", "300", "" });
	for (int i = 0; i < 5; i++)
		joint(i == 3 ? "30" : "", RETURNS_FULL);
	jobs_solve(&job, &s);
	struct clearance_ask ask = sb_solution_clearance(&job, &s);
	sb_bore_line_drilled(&ask, &bore);
	sb_fluid_line_build(&ask, &bore, STAGE_PILOT, 0, &line);
	assert_true(line.count >= 5);
	assert_near(line.points[line.count - 1].annular.place.station_m, 1000 * foot, 0.5);
	for (size_t i = 1; i < line.count; i++)
		assert_true(line.points[i].annular.estimate.total_pa >=
			line.points[i - 1].annular.estimate.total_pa - 1e-6);
	assert_int_equal(line.measured->joint, 4);
	assert_ptr_equal(line.tightest->annular.formation.soil.bed->name, job.soil[1].name);
	assert_true(sb_fluid_line_gap(&ask, &line, &at, &gap));
	assert_true(gap.from_m > 200 * foot && gap.to_m < 500 * foot && strstr(gap.text, "no layer"));
	assert_false(sb_fluid_line_gap(&ask, &line, &at, &gap));
	sb_fluid_line_clear(&line);
	sb_bore_line_clear(&bore);
}

#define each(test) cmocka_unit_test_setup_teardown(test, setup, teardown)

int main(void)
{
	const struct CMUnitTest tests[] = {
		each(weight_and_loss_add_up_to_the_published_figures),
		each(a_joint_that_says_its_flow_is_reckoned_with_it),
		each(what_is_missing_leaves_the_weight_alone_and_is_named),
		each(an_opened_hole_has_two_sides_and_the_fluid_takes_the_easier),
		each(the_pull_has_the_pipe_behind_the_head),
		each(measured_pressure_is_watched_from_the_share_and_broken_over_the_limit),
		each(an_estimate_is_a_watch_at_most_and_says_so),
		each(nothing_is_judged_where_nothing_is_known),
		each(returns_are_watched_until_they_are_full_again),
		each(a_trial_shows_what_its_pressure_would_say),
		each(what_was_said_last_of_the_returns_holds),
		each(a_release_is_a_breach_and_says_what_is_not_recorded),
		each(a_release_that_is_struck_out_is_none),
		each(a_loss_is_watched_until_somebody_says_that_returns_are_full),
		each(a_pass_measures_against_the_limit_of_its_own_hole),
		each(the_line_goes_from_end_to_end_and_finds_the_tightest),
	};

	return run_tests(tests);
}
