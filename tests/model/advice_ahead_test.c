/* Where the bore goes from the bit: the joint in which it would leave the corridor, against walking there
 * step by step, and where it would come out. And what is said of it.
 */
#include "model/advice.h"

#include "drill.h"
#include "model/solve.h"

static struct job job;
static struct solution solution;

static int setup(void **state)
{
	(void)state;
	memset(&job, 0, sizeof job);
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

static double feet(double metres)
{
	return metres / 0.3048;
}

static const struct warning *open_warning(enum warning_kind kind)
{
	int at = solution.open[kind];

	return at < 0 ? NULL : &solution.warnings[at];
}

/* ---- walking ---- */

enum way { HELD, CURVED, KEPT };

enum { STEPS = 250 }; /* a joint */

static bool outside(const struct solution *s, struct vec3 at, double *station_m)
{
	struct deviation d = sb_deviation(&s->design, at, NULL, *station_m);
	struct corridor_limits l = sb_corridor_at(&s->corridor, d.station_m);

	*station_m = d.station_m;
	return d.height_m > l.up_m + 1e-9 || -d.height_m > l.down_m + 1e-9 || d.offset_m > l.right_m + 1e-9 ||
		-d.offset_m > l.left_m + 1e-9;
}

/* The axis that the last course turns about, times the turn per metre; none where it does not bend. */
static struct vec3 turning(const struct path *p)
{
	struct vec3 a = sb_path_back(p, 1)->attitude.heading, b = sb_path_back(p, 0)->attitude.heading;
	struct vec3 cross = { a.e * b.u - a.u * b.e, a.u * b.n - a.n * b.u, a.n * b.e - a.e * b.n };
	double sine = sb_vec3_length(cross);

	return sine > 0
		? sb_vec3_scale(cross, sb_path_back(p, 0)->dogleg_rad / sb_path_back(p, 0)->course_m / sine)
		: cross;
}

static struct vec3 heading_on(const struct solution *s, enum way way, struct vec3 heading, struct vec3 axis,
	double station, double step)
{
	if (way == KEPT) {
		struct design_place p = sb_design_at(&s->design, station);
		return sb_vec3_heading(
			p.inc_rad + s->bit.deviation.inc_off_rad, p.azi_rad + s->bit.deviation.azi_off_rad);
	}
	if (way == CURVED) {
		struct vec3 turn = { axis.e * heading.u - axis.u * heading.e,
			axis.u * heading.n - axis.n * heading.u, axis.n * heading.e - axis.e * heading.n };
		heading = sb_vec3_add(heading, sb_vec3_scale(turn, step));
		heading = sb_vec3_scale(heading, 1 / sb_vec3_length(heading));
	}
	return heading;
}

static int walk(const struct job *j, const struct solution *s, enum way way)
{
	struct vec3 at = s->bit.at, heading = s->bit.attitude.heading, axis = turning(&s->path);
	double station = s->bit.deviation.station_m;
	int joint = sb_job_in_ground(j);

	if (outside(s, at, &station))
		return joint;
	for (int k = 1; k <= SB_AHEAD_SIGHT; k++) {
		double step = sb_frame_metres(&s->frame, sb_job_tally(j, joint + k).value) / STEPS;
		for (int i = 0; i < STEPS; i++) {
			struct vec3 next = heading_on(s, way, heading, axis, station, step);
			at = sb_vec3_add(at, sb_vec3_scale(sb_vec3_add(heading, next), step / 2));
			heading = next;
			bool left = outside(s, at, &station);
			if (station > s->design.length_m)
				return 0;
			if (left)
				return joint + k;
		}
	}
	return 0;
}

/* A corridor that is left for less than a quarter of a joint may be passed over: then a later joint is named.
 */
static void compare(int got, int want, size_t *same, size_t *all)
{
	(*all)++;
	*same += got == want;
	if (got != want)
		assert_true(got == 0 || got > want);
}

static void drill_and_walk(size_t i, bool curve, struct random *r, size_t same[3], size_t all[3])
{
	struct bore b;

	bore_begin(&b, &pipes[i], random_between(r, 0, 360), 0.8);
	double wide = b.pipe->joint / 12;
	jobs_set(&b.job, "corridor", "up", typed(wide, 2));
	jobs_set(&b.job, "corridor", "down", typed(1.5 * wide, 2));
	jobs_set(&b.job, "corridor", "left", typed(2 * wide, 2));
	jobs_set(&b.job, "corridor", "right", typed(wide, 2));
	jobs_row(&b.job, "corridor",
		(const char *const[]){ typed(8 * b.pipe->joint, 0), typed(12 * b.pipe->joint, 0),
			typed(wide / 2, 2), "", typed(wide / 2, 2), "", "" });
	jobs_set(&b.job, "tool", "projection", curve ? "curve" : "hold");
	jobs_solve(&b.job, &b.s);
	while (bore_goes_on(&b)) {
		bore_drill(&b, r);
		struct reading reading = bore_read(&b, r);
		bore_log(&b, &reading);
		if (b.s.path.on_count < 2)
			continue;
		compare(b.s.ahead.leaves_held, walk(&b.job, &b.s, HELD), &same[HELD], &all[HELD]);
		compare(b.s.ahead.leaves_curved, walk(&b.job, &b.s, CURVED), &same[CURVED], &all[CURVED]);
		compare(b.s.ahead.leaves_kept, walk(&b.job, &b.s, KEPT), &same[KEPT], &all[KEPT]);
	}
	bore_end(&b);
}

static void the_joint_in_which_the_corridor_is_left_is_found_by_walking_too(void **state)
{
	static const char *const names[] = { "held", "curved", "kept" };
	struct random r = { 55 };
	size_t same[3] = { 0 }, all[3] = { 0 };

	(void)state;
	for (size_t i = 0; i < PIPES; i += 2)
		drill_and_walk(i, i % 4 == 0, &r, same, all);
	for (size_t i = 0; i < 3; i++) {
		print_message("%s: %zu of %zu alike, the others later\n", names[i], same[i], all[i]);
		assert_true(all[i] > 300);
		assert_true((double)same[i] > 0.97 * (double)all[i]);
	}
}

/* ---- by hand ---- */

/* Level and straight for ever, 3 ft up and down, 2 left and right; the bit at the sensor. */
static void level_job(void)
{
	sb_setting_init(&job);
	jobs_set(&job, "job", "unit", "ft");
	jobs_set(&job, "job", "inclination", "down");
	jobs_set(&job, "control", "entry", "0, 0, 0");
	jobs_set(&job, "control", "exit", "3000, 0, 0");
	jobs_set(&job, "azimuth", "reference", "grid");
	jobs_set(&job, "tool", "sensor_to_bit", "0");
	jobs_set(&job, "drill_pipe", "joint_length", "30");
	jobs_set(&job, "corridor", "up", "3");
	jobs_set(&job, "corridor", "down", "3");
	jobs_set(&job, "corridor", "left", "2");
	jobs_set(&job, "corridor", "right", "2");
	jobs_set(&job, "entry", "inclination", "90");
	jobs_set(&job, "entry", "azimuth", "90");
	jobs_row(&job, "profile", (const char *const[]){ "0", "0", "" });
	jobs_row(&job, "profile", (const char *const[]){ "3000", "0", "" });
}

static void a_held_heading_leaves_by_the_sine_of_its_angle(void **state)
{
	(void)state;
	level_job();
	jobs_log(&job, "", "90", "90.0");
	jobs_log(&job, "", "90", "90.5");
	jobs_solve(&job, &solution);
	/* 0.13 ft right after the turn, then 0.2618 a joint: 1.87 are left, 7.14 joints. */
	assert_int_equal(solution.ahead.leaves_held, 2 + 8);
	assert_int_equal(solution.ahead.leaves_kept, 2 + 8);
	/* Turning half a degree a joint it has 0.13 n^2 + 0.26 n: four joints. */
	assert_int_equal(solution.ahead.leaves_curved, 2 + 3);
	assert_null(open_warning(WARNING_LEAVES));
}

static void what_is_not_left_within_sight_is_not_said(void **state)
{
	(void)state;
	level_job();
	jobs_log(&job, "", "90", "90.05");
	jobs_solve(&job, &solution);
	/* 2 ft at 0.0262 a joint: 76 joints, and 40 are looked at */
	assert_int_equal(solution.ahead.leaves_held, 0);
	assert_int_equal(solution.ahead.leaves_kept, 0);
}

static void what_is_not_left_before_the_exit_is_not_said(void **state)
{
	(void)state;
	level_job();
	jobs_set(&job, "control", "exit", "180, 0, 0");
	job.profile_count = 0;
	jobs_row(&job, "profile", (const char *const[]){ "0", "0", "" });
	jobs_row(&job, "profile", (const char *const[]){ "180", "0", "" });
	jobs_log(&job, "", "90", "90.0");
	jobs_log(&job, "", "90", "90.5");
	jobs_solve(&job, &solution);
	assert_int_equal(solution.ahead.leaves_held, 0);
	assert_int_equal(solution.ahead.leaves_kept, 0);
}

/* Once the drift was looked at where joints end, and a place of 10 ft between was passed over. */
static void a_narrow_place_within_a_joint_is_not_passed_over(void **state)
{
	(void)state;
	level_job();
	jobs_row(&job, "corridor", (const char *const[]){ "165", "175", "0.1", "0.1", "0.1", "0.1", "" });
	jobs_log(&job, "", "90.4", "90");
	jobs_log(&job, "", "90.4", "90");
	jobs_log(&job, "", "90.4", "90");
	jobs_solve(&job, &solution);
	assert_int_equal(solution.ahead.leaves_kept, 6);
	assert_int_equal(solution.ahead.leaves_held, 6);
	assert_non_null(open_warning(WARNING_LEAVES));
	assert_string_equal(open_warning(WARNING_LEAVES)->text,
		"If it keeps heading off the design as it does, the corridor is left in joint 6, 3 ahead. Turn back now.");
	assert_near(open_warning(WARNING_LEAVES)->value, 3, 0);
	assert_near(open_warning(WARNING_LEAVES)->limit, 3, 0);
	assert_int_equal(open_warning(WARNING_LEAVES)->level, LEVEL_WATCH);
	/* As far as the contract's look ahead, and no further. */
	jobs_set(&job, "corridor", "look_ahead", "2");
	jobs_solve(&job, &solution);
	assert_null(open_warning(WARNING_LEAVES));
}

static void a_bit_outside_before_its_reading_is_said_so(void **state)
{
	(void)state;
	level_job();
	jobs_set(&job, "tool", "sensor_to_bit", "60");
	for (int i = 0; i < 3; i++)
		jobs_log(&job, "", "90", "90");
	jobs_log(&job, "", "86", "90");
	jobs_solve(&job, &solution);
	assert_int_equal(solution.ahead.leaves_held, 4);
	assert_int_equal(solution.ahead.leaves_kept, 4);
	assert_string_equal(open_warning(WARNING_LEAVES)->text,
		"The bit itself is outside the corridor by now: 5.2 ft low, carried on from the reading. Stop and look.");
	assert_near(open_warning(WARNING_LEAVES)->value, 0, 0);
}

/* At the entry there is no joint to name but the first. */
static void a_rig_outside_the_corridor_leaves_in_joint_one(void **state)
{
	(void)state;
	level_job();
	jobs_row(&job, "alignment", (const char *const[]){ "0", "3", "" });
	jobs_row(&job, "alignment", (const char *const[]){ "3000", "3", "" });
	jobs_solve(&job, &solution);
	assert_int_equal(solution.ahead.leaves_held, 1);
	assert_int_equal(solution.ahead.leaves_kept, 1);
	assert_null(open_warning(WARNING_LEAVES)); /* nothing is drilled that could be steered back */
}

/* ---- coming out ---- */

/* The plain job drilled along its design up the last tangent, and a reading there; the bit some feet ahead.
 */
static void come_up(const char *inclination, const char *azimuth, const char *to_bit)
{
	jobs_plain(&job);
	jobs_set(&job, "tool", "sensor_to_bit", to_bit);
	jobs_follow(&job, 35);
	jobs_log(&job, "", inclination, azimuth);
	jobs_solve(&job, &solution);
}

static void where_it_comes_out_is_where_its_heading_meets_the_exits_elevation(void **state)
{
	static const struct {
		const char *inclination, *azimuth;
	} table[] = { { "100", "90" }, { "103", "90" }, { "97", "90" }, { "100", "92" }, { "100", "87" } };

	(void)state;
	for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
		come_up(table[i].inclination, table[i].azimuth, "0");
		const struct bit *bit = &solution.bit;
		double up = 100 - feet(bit->at.u), rise = atof(table[i].inclination) - 90;
		double reach = up / tan(sb_rad(rise)), aside = atof(table[i].azimuth) - 90;
		assert_true(solution.ahead.exit_known);
		assert_near(feet(solution.ahead.exit_long_m),
			feet(bit->at.e) + reach * cos(sb_rad(aside)) - 1200, 1e-6);
		assert_near(feet(solution.ahead.exit_right_m),
			feet(bit->at.n) * -1 + reach * sin(sb_rad(aside)), 1e-6);
		sb_solution_clear(&solution);
		sb_job_clear(&job);
	}
}

static void an_exit_outside_its_window_is_said_by_its_side(void **state)
{
	static const struct {
		const char *inclination, *azimuth, *side, *limit;
	} table[] = { { "97", "90", "long", "30.0" }, { "103", "90", "short", "10.0" },
		{ "100", "98", "right", "10.0" }, { "100", "82", "left", "10.0" } };

	(void)state;
	for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
		char says[120];
		come_up(table[i].inclination, table[i].azimuth, "0");
		const struct warning *w = open_warning(WARNING_EXIT);
		const struct ahead *a = &solution.ahead;
		double values[] = { a->exit_long_m, -a->exit_long_m, a->exit_right_m, -a->exit_right_m };
		assert_non_null(w);
		assert_int_equal(w->level, LEVEL_WATCH);
		assert_near(w->value, feet(values[i]), 1e-9);
		assert_true(w->value > w->limit);
		snprintf(says, sizeof says,
			"As it heads, the bore comes out %.1f ft %s; %s is allowed. Steer for the exit.",
			w->value, table[i].side, table[i].limit);
		assert_string_equal(w->text, says);
		sb_solution_clear(&solution);
		sb_job_clear(&job);
	}
}

static void an_exit_within_its_window_is_not_said(void **state)
{
	(void)state;
	come_up("100", "90", "0");
	assert_true(solution.ahead.exit_known);
	assert_null(open_warning(WARNING_EXIT));
	/* Where the contract sets no window there is none to miss. */
	sb_solution_clear(&solution);
	sb_job_clear(&job);
	come_up("100", "98", "0");
	memset(&job.exit_right, 0, sizeof job.exit_right);
	jobs_solve(&job, &solution);
	assert_null(open_warning(WARNING_EXIT));
}

/* In metres to the centimetre: once 0.83 of 0.80 read '0.8 m right; 0.8 is allowed'. */
static void metres_are_said_to_the_centimetre(void **state)
{
	(void)state;
	jobs_curved(&job);
	jobs_set(&job, "corridor", "exit_right", "0.8");
	jobs_follow(&job, 39);
	struct reading r = jobs_reading(&job, "", "", "");
	char says[120];
	const char *azimuth = sb_job_joint(&job, 39)->azimuth.text;
	for (double turn = 0; turn < 20; turn += 0.5) {
		struct preview p;
		r = jobs_reading(
			&job, "", sb_job_joint(&job, 39)->inclination.text, typed(atof(azimuth) + turn, 4));
		jobs_solve(&job, &solution);
		assert_int_equal(sb_solve_preview(&job, &solution, &r, &p, NULL), 0);
		for (size_t i = 0; i < p.warning_count; i++)
			if (p.warnings[i].kind == WARNING_EXIT) {
				snprintf(says, sizeof says,
					"As it heads, the bore comes out %.2f m right; 0.80 is allowed. Steer for the exit.",
					p.warnings[i].value);
				assert_string_equal(p.warnings[i].text, says);
				return;
			}
	}
	fail();
}

static void before_the_last_tangent_nothing_is_said_of_the_exit(void **state)
{
	(void)state;
	jobs_plain(&job);
	jobs_follow(&job, 30);
	jobs_solve(&job, &solution);
	assert_false(solution.ahead.exit_known);
	jobs_log(&job, "", "95", "90");
	jobs_solve(&job, &solution);
	assert_false(solution.ahead.exit_known);
}

static void a_heading_that_does_not_rise_meets_no_exit(void **state)
{
	(void)state;
	come_up("90", "90", "0");
	assert_false(solution.ahead.exit_known);
	sb_solution_clear(&solution);
	sb_job_clear(&job);
	come_up("85", "90", "0");
	assert_false(solution.ahead.exit_known);
}

static void a_bore_that_came_out_wrong_is_a_breach(void **state)
{
	(void)state;
	come_up("103.5", "90", "0");
	jobs_log(&job, "", "106", "90");
	jobs_log(&job, "", "106", "90");
	jobs_log(&job, "", "106", "90");
	jobs_solve(&job, &solution);
	const struct row *last = sb_solution_last(&solution);
	assert_true(feet(last->at.u) > 100);
	const struct warning *w = open_warning(WARNING_EXIT);
	assert_non_null(w);
	assert_int_equal(w->level, LEVEL_BREACH);
	/* Between the last reading below the ground and the next, and not where the bit is by now. */
	struct vec3 at = { 0 };
	for (double md = 0; md < last->survey_md_m && feet(at.u) < 99.9999; md += 0.001)
		if (md > 0.8 * last->survey_md_m)
			sb_path_at(&solution.path, md, &at, NULL);
	assert_near(w->value, 1200 - feet(at.e), 0.05);
	char says[120];
	snprintf(says, sizeof says, "The bore came out %.1f ft short; 10.0 is allowed. Ask the engineer.",
		w->value);
	assert_string_equal(w->text, says);
}

/* ---- the azimuth reference ---- */

static void two_ways_to_the_bore_azimuth_may_be_half_a_degree_apart(void **state)
{
	(void)state;
	jobs_plain(&job);
	jobs_set(&job, "azimuth", "bore_azimuth_read", "90.5");
	jobs_solve(&job, &solution);
	assert_null(open_warning(WARNING_AZIMUTH));
	jobs_set(&job, "azimuth", "bore_azimuth_read", "89.26");
	jobs_solve(&job, &solution);
	assert_string_equal(open_warning(WARNING_AZIMUTH)->text,
		"Two ways to the bore's azimuth differ by 0.74 degrees: the tool on the staked line, and declination with "
		"convergence. Settle which holds before drilling on.");
	assert_int_equal(open_warning(WARNING_AZIMUTH)->level, LEVEL_WATCH);
	/* It is one episode, from the entry on. */
	jobs_follow(&job, 3);
	jobs_solve(&job, &solution);
	assert_int_equal(open_warning(WARNING_AZIMUTH)->joint, 0);
	assert_int_equal(open_warning(WARNING_AZIMUTH)->last_joint, 3);
}

#define HERE(name) cmocka_unit_test_setup_teardown(name, setup, teardown)

static const struct CMUnitTest tests[] = {
	cmocka_unit_test(the_joint_in_which_the_corridor_is_left_is_found_by_walking_too),
	HERE(a_held_heading_leaves_by_the_sine_of_its_angle),
	HERE(what_is_not_left_within_sight_is_not_said),
	HERE(what_is_not_left_before_the_exit_is_not_said),
	HERE(a_narrow_place_within_a_joint_is_not_passed_over),
	HERE(a_bit_outside_before_its_reading_is_said_so),
	HERE(a_rig_outside_the_corridor_leaves_in_joint_one),
	HERE(where_it_comes_out_is_where_its_heading_meets_the_exits_elevation),
	HERE(an_exit_outside_its_window_is_said_by_its_side),
	HERE(an_exit_within_its_window_is_not_said),
	HERE(metres_are_said_to_the_centimetre),
	HERE(before_the_last_tangent_nothing_is_said_of_the_exit),
	HERE(a_heading_that_does_not_rise_meets_no_exit),
	HERE(a_bore_that_came_out_wrong_is_a_breach),
	HERE(two_ways_to_the_bore_azimuth_may_be_half_a_degree_apart),
};

int main(void)
{
	return run_tests(tests);
}
