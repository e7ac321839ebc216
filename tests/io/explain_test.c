/* How figures came about: that every figure of every joint is the one that the program shows, that published
 * worked examples come out step by step, that a changed figure is called out, and what is said where there is
 * none. */
#include "base/measure.h"
#include "io/explain.h"
#include "model/fact.h"
#include "model/pipe_load.h"

#include "base/mem.h"
#include "geom/angle.h"
#include "io/bore.h"
#include "io/figure.h"
#include "io/rows.h"
#include "support/jobs.h"

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
	memset(&err, 0, sizeof err);
	return 0;
}

static int ask(const char *figure, int leg, int joint)
{
	struct explain_ask a = { sb_explain_figure(figure, &err), joint, leg, 0 };

	assert_non_null(a.figure);
	return sb_explain(&job, &s, &a, &e, &err);
}

/* Or ends the test, with all that was said. */
static void explained(const char *figure, int leg, int joint)
{
	struct sb_str text = { 0 };

	if (ask(figure, leg, joint))
		fail_msg("%s of joint %d: %s", figure, joint, err.text);
	assert_true(e.count > 0);
	if (e.differs) {
		sb_explain_text(&e, &text);
		fail_msg("%s", text.text);
	}
}

static const struct explain_line *line(enum explain_kind kind, const char *symbol)
{
	for (size_t i = 0; i < e.count; i++)
		if (e.lines[i].kind == kind && sb_same(e.lines[i].symbol, symbol))
			return &e.lines[i];
	fail_msg("%s has no line '%s'", e.figure->name, symbol);
	return NULL;
}

static double step(const char *symbol)
{
	return line(EXPLAIN_STEP, symbol)->number;
}

static double result(const char *name)
{
	return line(EXPLAIN_RESULT, name)->number;
}

static bool says(enum explain_kind kind, const char *words)
{
	for (size_t i = 0; i < e.count; i++)
		if (e.lines[i].kind == kind && strstr(e.lines[i].words, words))
			return true;
	return false;
}

/* ---- the same figures as elsewhere ---- */

/* Each column of the path, and the figure whose result it is. */
static const struct {
	enum path_column column;
	const char *figure;
} columns[] = {
	{ PATH_BIT_DEPTH, "depth" },
	{ PATH_SURVEY_DEPTH, "depth" },
	{ PATH_INCLINATION, "inclination" },
	{ PATH_AZIMUTH, "azimuth" },
	{ PATH_STATION, "station" },
	{ PATH_OFFSET, "offset" },
	{ PATH_ELEVATION, "elevation" },
	{ PATH_HEIGHT, "height" },
	{ PATH_NORTHING, "northing" },
	{ PATH_EASTING, "easting" },
	{ PATH_DOGLEG, "dogleg" },
	{ PATH_RADIUS_JOINT, "radius-joint" },
	{ PATH_RADIUS_WINDOW, "radius-window" },
	{ PATH_CORRIDOR_SHARE, "corridor-share" },
	{ PATH_SIGMA_ALONG, "give-or-take" },
	{ PATH_SIGMA_ACROSS, "give-or-take" },
	{ PATH_SIGMA_UP, "give-or-take" },
	{ PATH_CHANCE_OUTSIDE, "chance-outside" },
	{ PATH_CLEARANCE, "clearance" },
	{ PATH_COVER, "cover" },
	{ PATH_COVER_LEAST, "cover" },
	{ PATH_SHIFT_STATION, "shift" },
	{ PATH_SHIFT_OFFSET, "shift" },
	{ PATH_SHIFT_HEIGHT, "shift" },
};

/* As `path --json` would write it, and as the explanation does. */
static void same_as_the_path(const struct row *row, const struct path_cell *cell, const char *name)
{
	char want[SB_FIGURE_TEXT], got[SB_FIGURE_TEXT];
	double number = result(name);

	if (cell->kind == CELL_BLANK) {
		assert_true(!isfinite(number));
		return;
	}
	sb_figure_fixed(cell->value, 9, want);
	sb_figure_fixed(number, 9, got);
	if (!sb_same(want, got))
		fail_msg("%s of joint %d, leg %d: %s is explained, %s is shown", name, row->joint, row->leg,
			got, want);
}

static void every_figure_of_the_path(void)
{
	const struct row **list;
	size_t count = sb_rows_list(&s, true, &list), compared = 0;

	for (size_t i = 0; i < count; i++) {
		struct path_cell cells[PATH_COLUMNS];
		sb_rows_fill(&job, &s, list[i], cells);
		for (size_t k = 0; k < sizeof columns / sizeof *columns; k++) {
			const struct path_cell *cell = &cells[columns[k].column];
			if (cell->kind == CELL_BLANK && columns[k].column != PATH_RADIUS_WINDOW)
				continue;
			if (ask(columns[k].figure, list[i]->leg, list[i]->joint)) {
				assert_int_equal(cell->kind, CELL_BLANK);
				continue;
			}
			explained(columns[k].figure, list[i]->leg, list[i]->joint);
			same_as_the_path(list[i], cell, sb_path_columns[columns[k].column].name);
			compared++;
		}
	}
	assert_true(compared > 10 * count);
	sb_free(list);
}

static void every_figure_of_both_legs_of_tern_slough_is_the_one_shown(void **state)
{
	(void)state;
	bore_tern(&job);
	bore_solve(&job, &s);
	every_figure_of_the_path();
}

static void every_figure_of_kestrel_road_is_the_one_shown(void **state)
{
	(void)state;
	bore_sheet(KESTREL, &job);
	bore_surveys(&job, KESTREL "/surveys.csv");
	bore_solve(&job, &s);
	every_figure_of_the_path();
}

/* Grade, US survey feet, a window by length, the bore's azimuth, and an entry that nobody staked. */
static void figures_by_length_and_from_an_unstaked_entry_are_the_ones_shown(void **state)
{
	(void)state;
	static const char *const typed[][2] = { { "-10", "4" }, { "-10.5", "5" }, { "", "" }, { "-9", "4.6" },
		{ "-7", "4.5" }, { "-5", "4" }, { "-5.2", "3.5" }, { "-3", "5" }, { "-2", "5.2" },
		{ "-1", "4.5" } };
	jobs_graded(&job);
	for (size_t i = 0; i < sizeof typed / sizeof *typed; i++)
		jobs_log(&job, "", typed[i][0], typed[i][1]);
	jobs_withdraw(&job, 6);
	jobs_log(&job, "", "-6", "4.4");
	jobs_log(&job, "", "-6", "4.4");
	jobs_solve(&job, &s);
	every_figure_of_the_path();
}

/* Azimuths by gyro, by coil, and two held in a row; the tool and its declination change on the way. */
static void figures_read_by_other_means_and_after_a_change_are_the_ones_shown(void **state)
{
	(void)state;
	static const enum azimuth_by by[] = { AZIMUTH_BY_HOLD, AZIMUTH_BY_TOOL, AZIMUTH_BY_GYRO,
		AZIMUTH_BY_HOLD, AZIMUTH_BY_HOLD, AZIMUTH_BY_COIL, AZIMUTH_BY_TOOL };
	jobs_curved(&job);
	for (size_t i = 0; i < sizeof by / sizeof *by; i++) {
		struct reading r = jobs_reading(&job, "", "-8.5", i % 2 ? "36.5" : "35.9");
		r.azimuth_by = by[i];
		r.id = (int64_t)i + 1;
		sb_job_add_reading(&job, &r);
	}
	struct change declination = {
		.section = "azimuth", .key = "declination", .value = "3.9", .from_joint = 4
	};
	struct change tool = { .section = "tool", .key = "sensor_to_bit", .value = "5.1", .from_joint = 6 };
	sb_copy(tool.fact.who, sizeof tool.fact.who, "Ben");
	sb_job_add_change(&job, &declination);
	sb_job_add_change(&job, &tool);
	jobs_solve(&job, &s);
	every_figure_of_the_path();
	explained("depth", 0, 7);
	assert_true(says(EXPLAIN_INPUT, "[tool] sensor_to_bit, since joint 6, by Ben"));
	explained("azimuth", 0, 5);
	assert_true(says(EXPLAIN_NOTE, "kept and not used"));
}

/* A correction by fixes turns, tilts and stretches all readings; slides are the record. */
static void figures_of_a_corrected_path_are_the_ones_shown(void **state)
{
	(void)state;
	bore_tern(&job);
	struct adjustment a = { .taken = 1,
		.azimuth = sb_number_of(0.4, 2),
		.inclination = sb_number_of(-0.05, 2),
		.stretch = sb_number_of(0.0012, 4),
		.fixes = "" };
	sb_copy(a.fact.who, sizeof a.fact.who, "Ida");
	sb_fact_add(&job, ACT_ADJUST, &a);
	jobs_set(&job, "survey", "course", "slides");
	bore_solve(&job, &s);
	every_figure_of_the_path();
}

/* The product pipe, at every joint of the hole, by the stations of `stress`. */
static void the_pipe_at_every_joint(void)
{
	struct clearance_ask of = sb_solution_clearance(&job, &s);
	struct pipe_load load = { 0 };
	size_t told = 0;

	assert_int_equal(sb_pipe_load_make(&of, false, &load, &err), 0);
	for (int joint = 0; joint < (int)s.path.count; joint++) {
		const struct row *row = &s.path.rows[joint];
		if (!row->on_path)
			continue;
		const struct load_station *at = &load.stations[sb_pipe_load_find(&load, row->survey_md_m)];
		explained("pull", 0, joint);
		assert_near(result("force"), sb_measure_typed(job.unit, MEASURE_FORCE, at->force_n), 1e-6);
		explained("pipe-share", 0, joint);
		assert_near(result("tension_bending"), at->ratio[CHECK_TENSION_BENDING], 1e-9);
		if (joint > 0)
			explained("bending", 0, joint);
		told++;
	}
	assert_true(told > 30);
	sb_pipe_load_clear(&load);
}

static void the_product_pipe_is_explained_for_steel_and_for_polyethylene(void **state)
{
	(void)state;
	bore_tern(&job);
	bore_solve(&job, &s);
	the_pipe_at_every_joint();
	sb_solution_clear(&s);
	sb_job_clear(&job);
	bore_sheet(KESTREL, &job);
	bore_surveys(&job, KESTREL "/surveys.csv");
	bore_solve(&job, &s);
	the_pipe_at_every_joint();
	/* where the sheet does not say enough, it says what is missing, and shows no figure */
	job.fluid_weight = (struct number){ 0, "" };
	explained("pull", 0, 10);
	assert_non_null(strstr(e.lines[0].words, "[fluid] weight"));
	for (size_t i = 0; i < e.count; i++)
		assert_int_not_equal(e.lines[i].kind, EXPLAIN_RESULT);
}

/* Of the bore's end: as `ahead --json` has them, at the present end. */
static void same_as_ahead(void)
{
	double per_length = sb_deg(1) * s.frame.metre;

	explained("bit", 0, SB_EXPLAIN_LAST);
	assert_near(result("depth"), sb_frame_typed(&s.frame, s.bit.md_m), 1e-9);
	assert_near(result("offset"), sb_frame_typed(&s.frame, s.bit.deviation.offset_m), 1e-9);
	assert_near(result("share"), s.bit.use.share, 1e-9);
	explained("bit-give-or-take", 0, SB_EXPLAIN_LAST);
	assert_near(result("sigma_up"), sb_frame_typed(&s.frame, s.bit.doubt.up_m), 1e-9);
	assert_near(result("chance_outside"), s.bit.outside, 1e-9);
	explained("bend-budget", 0, SB_EXPLAIN_LAST);
	assert_near(result("degrees"), fmax(sb_deg(s.budget.least_rad), 0), 1e-9);
	assert_near(result("down"), sb_deg(s.budget.down_rad), 1e-9);
	explained("leaves-at", 0, SB_EXPLAIN_LAST);
	assert_int_equal(
		isnan(result("leaves_at_joint")) ? 0 : (int)result("leaves_at_joint"), s.ahead.leaves_held);
	explained("slide-turn", 0, SB_EXPLAIN_LAST);
	assert_near(result("slide_turn"), s.response.yield * per_length, 1e-12);
	explained("drift", 0, SB_EXPLAIN_LAST);
	assert_near(result("droop"), -s.response.drift_up * per_length, 1e-12);
	explained("face-error", 0, SB_EXPLAIN_LAST);
	assert_near(result("tool_face_error"), sb_deg(s.response.face_error_rad), 1e-12);
}

/* As it was when each joint was the last: the first dozen, and every fifth; a plan takes a while. */
static void every_figure_of_the_end(const char *const *figures)
{
	for (; *figures; figures++)
		for (int joint = 0; joint < (int)s.path.count; joint += joint < 12 ? 1 : 5)
			explained(*figures, 0, joint);
}

static const char *const of_the_end[] = { "bit", "bit-give-or-take", "bend-budget", "leaves-at",
	"clearance-ahead", "cover-ahead", "exit", "slide-turn", "drift", "face-error", "next-joint",
	"withdraw", NULL };

static void what_lies_ahead_is_explained_for_tern_slough_as_it_was_at_each_joint(void **state)
{
	(void)state;
	bore_tern(&job);
	bore_solve(&job, &s);
	same_as_ahead();
	every_figure_of_the_end(of_the_end);
	/* where the first leg had gone wrong */
	explained("withdraw", 1, 38);
	assert_true(result("joints") >= 1);
	explained("leaves-at", 1, 38);
	explained("bend-budget", 1, 38);
}

static void what_lies_ahead_is_explained_for_kestrel_road_as_it_was_at_each_joint(void **state)
{
	(void)state;
	bore_sheet(KESTREL, &job);
	bore_surveys(&job, KESTREL "/surveys.csv");
	bore_solve(&job, &s);
	same_as_ahead();
	every_figure_of_the_end(of_the_end);
}

/* ---- the job, fixes, the field ---- */

static void add_fix(double depth, double offset, double sigma)
{
	struct fix f = {
		.fact = { .id = (int64_t)job.fix_count + 1, .leg = 1, .joint = sb_job_in_ground(&job) },
		.kind = FIX_COIL,
		.used = true,
		.depth = sb_number_of(depth, 2),
		.station = sb_number_of(depth * cos(sb_rad(10)), 2),
		.offset = sb_number_of(offset, 2),
		.elevation = sb_number_of(100 - depth * sin(sb_rad(10)), 2),
		.sigma_across = sb_number_of(sigma, 2)
	};

	sb_copy(f.fact.who, sizeof f.fact.who, "Ben");
	sb_fact_add(&job, ACT_FIX, &f);
}

static void a_fix_is_explained_between_readings_and_past_the_last_one(void **state)
{
	(void)state;
	jobs_plain(&job);
	for (int i = 0; i < 6; i++)
		jobs_log(&job, "", "80", "90.4");
	add_fix(100, 1.2, 0.3);
	add_fix(180, -2, 0.3);
	jobs_solve(&job, &s);
	struct explain_ask a = { sb_explain_figure("misclosure", &err), SB_EXPLAIN_LAST, 0, 1 };
	assert_int_equal(sb_explain(&job, &s, &a, &e, &err), 0);
	assert_false(e.differs);
	assert_near(result("off_across"), sb_frame_typed(&s.frame, s.fixes.list[0].off_m[FIX_ACROSS]), 1e-9);
	assert_near(result("probability"), s.fixes.list[0].probability, 1e-12);
	a.fix = 0; /* the newest */
	assert_int_equal(sb_explain(&job, &s, &a, &e, &err), 0);
	assert_false(e.differs);
	assert_string_equal(e.about, "fix 2");
	a.fix = 3;
	assert_int_equal(sb_explain(&job, &s, &a, &e, &err), -1);
	assert_string_equal(err.text, "There is no fix 3: they go from 1 to 2.");
	explained("adjustment", 0, SB_EXPLAIN_LAST);
	assert_true(says(EXPLAIN_CHECK, "with the correction the bore laid anew leaves"));
	assert_near(step("azimuth"), sb_deg(s.fixes.proposal.estimate[CORRECT_AZIMUTH]), 1e-12);
}

static void without_a_fix_there_is_none_to_explain(void **state)
{
	(void)state;
	jobs_plain(&job);
	jobs_solve(&job, &s);
	assert_int_equal(ask("misclosure", 0, SB_EXPLAIN_LAST), -1);
	assert_true(strstr(err.text, "No independent fix was entered yet") != NULL);
	explained("adjustment", 0, SB_EXPLAIN_LAST);
	assert_true(says(EXPLAIN_NOTE, "nothing is proposed"));
}

static void enter_joint(int pass, int joint)
{
	struct pass_joint j = {
		.fact = { .act = 100 + (int64_t)job.pass_joint_count }, .pass = pass, .joint = joint
	};

	sb_fact_add(&job, ACT_PASS_JOINT, &j);
}

/* A pipe of 12.75 in takes 19.125; a pilot of 10, reamed to 16 over two joints of 31 ft and to 20 over one.
 */
static void the_final_hole_and_what_is_cut_are_explained(void **state)
{
	struct pass small = { .fact = { .id = 1, .act = 50 }, .diameter = sb_number_of(16, 0) };
	struct pass large = { .fact = { .id = 2, .act = 60 }, .diameter = sb_number_of(20, 0) };

	(void)state;
	jobs_plain(&job);
	for (int i = 0; i < 3; i++)
		jobs_log(&job, "", "80", "90");
	jobs_solve(&job, &s);
	explained("final-hole", 0, SB_EXPLAIN_LAST);
	assert_near(result("final hole"), 19.125, 1e-12);
	assert_near(step("by spare"), 24.75, 1e-12);
	explained("cuttings", 0, SB_EXPLAIN_LAST);
	assert_true(says(EXPLAIN_NOTE, "nothing is cut"));
	sb_fact_add(&job, ACT_PASS, &small);
	enter_joint(1, 3);
	enter_joint(1, 2);
	explained("cuttings", 0, SB_EXPLAIN_LAST);
	assert_true(says(EXPLAIN_NOTE, "no pilot_diameter"));
	jobs_set(&job, "hole", "pilot_diameter", "10");
	sb_fact_add(&job, ACT_PASS, &large);
	enter_joint(2, 3);
	enter_joint(2, 1);
	explained("cuttings", 0, SB_EXPLAIN_LAST);
	/* by hand: pi / 4 x ((400 - 256) + (400 - 100)) / 144 ft2 x 31 ft x 1728 / 231 gal per ft3 = 561.573
	 */
	assert_near(result("cuttings"), 561.5699, 5e-4);
	assert_true(says(EXPLAIN_CHECK, "Pappus"));
	jobs_set(&job, "opening", "final_least", "22");
	jobs_set(&job, "opening", "final_most", "26");
	explained("final-hole", 0, SB_EXPLAIN_LAST);
	assert_near(result("final hole"), 22, 1e-12);
	assert_true(says(EXPLAIN_LIMIT, "26 in at most"));
}

static void a_reading_off_its_gates_is_explained(void **state)
{
	(void)state;
	jobs_plain(&job);
	jobs_set(&job, "azimuth", "total_field", "50000");
	jobs_set(&job, "azimuth", "dip", "65");
	struct reading r = jobs_reading(&job, "", "80", "90");
	r.total_field = sb_number_of(50700, 0);
	r.dip = sb_number_of(65.6, 1);
	r.total_gravity = sb_number_of(1.001, 3);
	r.id = 1;
	sb_job_add_reading(&job, &r);
	jobs_log(&job, "", "80", "90");
	jobs_solve(&job, &s);
	explained("field-gate", 0, 1);
	assert_near(result("field off"), 700, 1e-9);
	assert_near(result("dip off"), 0.6, 1e-9);
	assert_near(result("gravity off"), 0.001, 1e-9);
	assert_true(says(EXPLAIN_LIMIT, "watch: "));
	explained("field-gate", 0, 2);
	assert_true(says(EXPLAIN_NOTE, "nothing to hold against the gates"));
}

static void a_local_job_has_no_map_to_ask(void **state)
{
	(void)state;
	jobs_plain(&job);
	jobs_solve(&job, &s);
	explained("convergence", 0, SB_EXPLAIN_LAST);
	assert_true(says(EXPLAIN_NOTE, "no map to ask"));
	explained("scale", 0, SB_EXPLAIN_LAST);
	assert_near(result("scale_factor"), 1, 0);
	explained("declination", 0, SB_EXPLAIN_LAST);
}

/* ---- warnings ---- */

static void every_warning_that_measures_something_is_explained_by_its_own_value(void **state)
{
	(void)state;
	size_t measured = 0;

	bore_tern(&job);
	bore_solve(&job, &s);
	for (size_t i = 0; i < s.warning_count; i++) {
		const struct warning *w = &s.warnings[i];
		struct explain_ask a = sb_explain_warning(&s, w);
		if (a.figure == NULL)
			continue;
		explained(a.figure->name, a.leg, a.joint);
		if (w->kind == WARNING_WINDOW_BEND)
			assert_near(result("radius_window"), w->value, 1e-9);
		if (w->kind == WARNING_JOINT_BEND)
			assert_near(result("radius_joint"), w->value, 1e-9);
		if (w->kind == WARNING_LEAVES && w->value > 0)
			assert_near(result("kept") - w->worst_joint, w->value, 0);
		measured++;
	}
	assert_true(measured >= 3);
}

/* ---- published worked examples, step by step ---- */

/* One course of 100 ft between two readings, due from an entry staked as the first. */
static void one_course(
	const char *length, const char *inc, const char *azi, const char *to_inc, const char *to_azi)
{
	jobs_plain(&job);
	jobs_set(&job, "tool", "sensor_to_bit", "0");
	jobs_set(&job, "entry", "inclination", inc);
	jobs_set(&job, "entry", "azimuth", azi);
	jobs_log(&job, length, to_inc, to_azi);
	jobs_solve(&job, &s);
}

/* After Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover, 2nd ed., as worked on a
 * page of drilling formulas: 3500 ft 15/20 to 3600 ft 25/45. Printed: 12.95 degrees, N 27.22, E 19.45; its
 * ratio factor of 1.00408 has a digit wrong, 1.004280 follows from its inputs. Tolerance: half of the last
 * digit. */
static void the_handbook_course_comes_out_step_by_step(void **state)
{
	(void)state;
	one_course("100", "15", "20", "25", "45");
	explained("northing", 0, 1);
	assert_near(step("b"), 12.95, 0.005);
	assert_near(step("RF"), 1.004280, 5e-7);
	assert_near(step("step"), 27.22, 0.005);
	explained("easting", 0, 1);
	assert_near(step("step"), 19.45, 0.005);
	explained("elevation", 0, 1);
	assert_near(step("step"), -94.01, 0.005);
	explained("dogleg", 0, 1);
	assert_near(result("dogleg"), 12.95, 0.005);
}

/* The same page's dogleg severity: 7500 ft 45/130 to 7595 ft 52/139, printed 10.22 degrees per 100 ft. */
static void the_handbook_severity_is_the_radius(void **state)
{
	(void)state;
	one_course("95", "45", "130", "52", "139");
	explained("radius-joint", 0, 1);
	assert_near(step("b") / 95 * 100, 10.22, 0.005);
	/* derived: 18000 / (pi 10.2168) = 560.80 */
	assert_near(result("radius_joint"), 560.80, 0.01);
}

/* Limits of the formula, derived: 10 m from 359.5 to 0.5 at 88 degrees turn 0.99939081, not 359. */
static void an_azimuth_through_north_turns_one_degree(void **state)
{
	(void)state;
	one_course("10", "88", "359.5", "88", "0.5");
	explained("dogleg", 0, 1);
	assert_near(result("dogleg"), 0.99939081, 5e-9);
}

/* ---- when something is wrong ---- */

static void a_figure_that_was_changed_is_called_out(void **state)
{
	(void)state;
	jobs_plain(&job);
	jobs_follow(&job, 4);
	jobs_log(&job, "", "81", "90.5");
	jobs_log(&job, "", "82", "91");
	jobs_solve(&job, &s);
	s.path.rows[5].radius_m *= 1 + 1e-8;
	assert_int_equal(ask("radius-joint", 0, 5), 0);
	assert_true(e.differs);
	assert_true(says(EXPLAIN_ALARM, "Run verify on the file"));
	s.path.rows[5].at.n += 1e-6;
	assert_int_equal(ask("northing", 0, 5), 0);
	assert_true(e.differs);
	/* the joints after it are laid from the readings, not from the row that was changed */
	explained("northing", 0, 6);
}

static void a_straight_course_has_no_radius_and_says_so(void **state)
{
	(void)state;
	jobs_plain(&job);
	jobs_log(&job, "", "80", "90");
	jobs_log(&job, "", "80", "90");
	jobs_solve(&job, &s);
	explained("radius-joint", 0, 2);
	assert_true(isinf(result("radius_joint")));
	assert_string_equal(line(EXPLAIN_RESULT, "radius_joint")->value, "straight");
	assert_true(says(EXPLAIN_RESULT, "did not turn"));
}

static void what_is_not_there_is_refused_in_words(void **state)
{
	(void)state;
	jobs_plain(&job);
	jobs_solve(&job, &s);
	assert_int_equal(ask("radius-joint", 0, SB_EXPLAIN_LAST), -1);
	assert_string_equal(
		err.text, "Radius since the reading before: nothing was drilled yet, so there is none.");
	explained("northing", 0, SB_EXPLAIN_LAST);
	assert_string_equal(e.about, "at the entry");
	sb_solution_clear(&s);
	jobs_log(&job, "", "80", "90");
	jobs_log(&job, "", "80", "90");
	jobs_log(&job, "", "", "");
	jobs_solve(&job, &s);
	assert_int_equal(ask("station", 0, 7), -1);
	assert_string_equal(err.text, "Joint 7 is not in the log: the last one is joint 3 in the ground.");
	assert_int_equal(ask("station", 0, 3), -1);
	assert_string_equal(err.text,
		"Station along the design alignment: joint 3 was drilled without a reading, and has none. Joint 2 is the last one before it that has.");
	assert_int_equal(ask("dogleg", 0, 0), -1);
	assert_true(strstr(err.text, "the entry has none") != NULL);
	assert_int_equal(ask("dogleg", 2, 1), -1);
	assert_string_equal(err.text, "Leg 2 has no joint 1.");
	/* left out, the last joint that has one */
	explained("station", 0, SB_EXPLAIN_LAST);
	assert_string_equal(e.about, "joint 2, leg 1");
	/* a joint without a reading has a depth, and says that it has no azimuth of its own */
	explained("depth", 0, 3);
	explained("azimuth", 0, 3);
	assert_true(says(EXPLAIN_NOTE, "drilled without a reading"));
}

static void a_leg_that_was_pulled_back_is_explained_from_its_own_joints(void **state)
{
	(void)state;
	jobs_plain(&job);
	jobs_follow(&job, 4);
	jobs_log(&job, "", "82", "91");
	jobs_withdraw(&job, 4);
	jobs_log(&job, "", "79", "89");
	jobs_solve(&job, &s);
	explained("dogleg", 1, 5);
	assert_string_equal(e.about, "joint 5, leg 1, pulled back");
	assert_near(line(EXPLAIN_INPUT, "i2")->number, 82, 1e-12);
	explained("dogleg", 2, 5);
	assert_near(line(EXPLAIN_INPUT, "i2")->number, 79, 1e-12);
}

static void a_wrong_name_offers_the_right_one(void **state)
{
	(void)state;
	assert_null(sb_explain_figure("radus-window", &err));
	assert_string_equal(err.text, "There is no figure 'radus-window'. Did you mean radius-window?");
	assert_null(sb_explain_figure("weather", &err));
	assert_true(strstr(err.text, "lists those that there are") != NULL);
	assert_non_null(sb_explain_figure("Radius_Window", &err));
}

/* ---- as text ---- */

static void take_line(void *data, enum explain_kind kind, const char *text)
{
	int width = *(const int *)data;

	(void)kind;
	if (sb_utf8_columns(text) > (size_t)width || (*text && text[strlen(text) - 1] == ' '))
		fail_msg("'%s' in %d columns", text, width);
}

static void every_line_keeps_within_the_width_that_it_is_given(void **state)
{
	(void)state;
	bore_tern(&job);
	bore_solve(&job, &s);
	for (int width = 60; width <= 160; width += 20)
		for (size_t i = 0; i < sb_explain_figure_count; i++) {
			struct explain_ask a = { &sb_explain_figures[i], SB_EXPLAIN_LAST, 0, 0 };
			if (sb_explain(&job, &s, &a, &e, &err) == 0)
				sb_explain_lay(&e, width, take_line, &width);
		}
}

#define TEST(name) cmocka_unit_test_teardown(name, tidy)

int main(void)
{
	const struct CMUnitTest tests[] = {
		TEST(every_figure_of_both_legs_of_tern_slough_is_the_one_shown),
		TEST(every_figure_of_kestrel_road_is_the_one_shown),
		TEST(the_product_pipe_is_explained_for_steel_and_for_polyethylene),
		TEST(figures_by_length_and_from_an_unstaked_entry_are_the_ones_shown),
		TEST(figures_read_by_other_means_and_after_a_change_are_the_ones_shown),
		TEST(figures_of_a_corrected_path_are_the_ones_shown),
		TEST(what_lies_ahead_is_explained_for_tern_slough_as_it_was_at_each_joint),
		TEST(what_lies_ahead_is_explained_for_kestrel_road_as_it_was_at_each_joint),
		TEST(a_fix_is_explained_between_readings_and_past_the_last_one),
		TEST(the_final_hole_and_what_is_cut_are_explained),
		TEST(without_a_fix_there_is_none_to_explain),
		TEST(a_reading_off_its_gates_is_explained),
		TEST(a_local_job_has_no_map_to_ask),
		TEST(every_warning_that_measures_something_is_explained_by_its_own_value),
		TEST(the_handbook_course_comes_out_step_by_step),
		TEST(the_handbook_severity_is_the_radius),
		TEST(an_azimuth_through_north_turns_one_degree),
		TEST(a_figure_that_was_changed_is_called_out),
		TEST(a_straight_course_has_no_radius_and_says_so),
		TEST(what_is_not_there_is_refused_in_words),
		TEST(a_leg_that_was_pulled_back_is_explained_from_its_own_joints),
		TEST(a_wrong_name_offers_the_right_one),
		TEST(every_line_keeps_within_the_width_that_it_is_given),
	};

	return run_tests(tests);
}
