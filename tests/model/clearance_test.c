/* Clearance by hand on a straight level hole, by brute force on the real path and plan, and the chance by
 * Monte Carlo over the readings' own errors.
 */
#include "level_hole.h"
#include "model/steering.h"

static void side_is(const struct passing *p, const char *want)
{
	char text[48];

	sb_passing_side(p, text);
	assert_string_equal(text, want);
}

/* ---- clearance by hand ---- */

/* A line 10 ft away, wall to wall, in a hole that is sure to some feet: the least and where. The
 * main is 1 ft across, the hole 2: 10 + 1 + 0.5 over the centre line, square across at 503 ft in joint 17. */
static void a_main_ten_feet_over_the_hole(void **state)
{
	(void)state;
	crossing(503, "111.5", "1", "5");
	jobs_set(&job, "uncertainty", "confidence", "95.45"); /* two sigma */
	drill(25);
	struct passing p = drilled(0);
	assert_true(p.known);
	assert_near(p.wall_m / foot, 10, 1e-4);
	assert_near(p.final_m / foot, 10, 1e-4);
	assert_near(p.pilot_m / foot, 10.5, 1e-4);
	assert_near(p.centres_m / foot, 11.5, 1e-4);
	assert_near(p.required_m / foot, 5, 1e-9);
	assert_near(p.station_m / foot, 503, 0.05);
	assert_int_equal(p.joint, 17);
	side_is(&p, "below");
	assert_false(p.at_end);
	/* its sigma is that of the height at 496 and at 527 ft in proportion, squares as squares */
	double at = (503 - 496) / 31.0, before = s.path.rows[16].doubt.up_m,
	       after = s.path.rows[17].doubt.up_m;
	assert_near(p.sigma_m, sqrt(before * before * (1 - at) + after * after * at), 1e-4);
	assert_near(s.uncertainty.line_factor, 2, 1e-4);
	/* 10 less two sigma is over 5: nothing to say */
	assert_true((p.wall_m - 2 * p.sigma_m) / foot > 5);
	assert_int_equal(p.level, LEVEL_OK);
	assert_null(warned(WARNING_CLEARANCE));
	assert_true(p.chance < 0.01);
}

static void within_two_sigma_of_what_is_required_is_a_watch(void **state)
{
	(void)state;
	crossing(503, "111.5", "1", "9.5");
	drill(25);
	struct passing p = drilled(0);
	assert_int_equal(p.level, LEVEL_WATCH);
	const struct warning *w = warned(WARNING_CLEARANCE);
	assert_non_null(w);
	assert_int_equal(w->level, LEVEL_WATCH);
	assert_int_equal(w->worst_joint, 17);
	assert_near(w->value, 10, 1e-3);
	assert_near(w->limit, 9.5, 1e-9);
	assert_non_null(strstr(w->text, "Joint 17 passes 10.0 ft below gas main, give or take"));
	assert_non_null(strstr(w->text, "9.5 is required."));
}

static void less_than_required_is_a_breach_that_says_what_to_do(void **state)
{
	(void)state;
	crossing(503, "104.7", "1", "5");
	drill(25);
	struct passing p = drilled(0);
	assert_near(p.wall_m / foot, 3.2, 1e-4);
	assert_int_equal(p.level, LEVEL_BREACH);
	const struct warning *w = warned(WARNING_CLEARANCE);
	assert_int_equal(w->level, LEVEL_BREACH);
	assert_near(w->station_m / foot, 17 * 31, 1e-6);
	assert_string_equal(w->text,
		"Joint 17 passes 3.2 ft below gas main, wall to wall of the final hole; 5.0 is required. Stop, tell the "
		"engineer and its owner; expose it, or pull back and redrill.");
	assert_int_equal(s.level, LEVEL_BREACH);
}

/* The final hole is wider than the gap: walls overlap, and the pilot hole alone would miss it by 0.1 ft. */
static void a_final_hole_that_does_not_fit_is_said_to_run_into_it(void **state)
{
	(void)state;
	crossing(503, "101.1", "1", "1");
	drill(25);
	struct passing p = drilled(0);
	assert_near(p.final_m / foot, -0.4, 1e-4);
	assert_near(p.pilot_m / foot, 0.1, 1e-4);
	assert_non_null(strstr(warned(WARNING_CLEARANCE)->text,
		"Joint 17 runs into gas main: with the final hole the walls overlap by 0.4 ft"));
}

static void the_sheets_own_spare_says_when_to_watch(void **state)
{
	(void)state;
	crossing(503, "111.5", "1", "8");
	jobs_set(&job, "clearance", "spare", "1.9");
	drill(25);
	assert_int_equal(drilled(0).level, LEVEL_OK);
	jobs_set(&job, "clearance", "spare", "2.1");
	jobs_solve(&job, &s);
	assert_int_equal(drilled(0).level, LEVEL_WATCH);
}

/* A post beside the line, one that stands over it askew, one behind the bit and one before it. */
static void sides_are_said_as_the_hole_heads(void **state)
{
	(void)state;
	obstacle("left post", "5100", "1010", "100", "", "");
	obstacle("right post", "5100", "990", "100", "", "");
	obstacle("askew", "5200", "1006", "106", "", "");
	obstacle("before", "5330", "1000", "100", "", "");
	obstacle("under", "5200", "1001", "90", "", "");
	drill(10);
	struct passing p = drilled(0);
	assert_near(p.wall_m / foot, 9, 1e-4);
	assert_true(isnan(p.required_m) && isnan(p.chance));
	side_is(&p, "right of");
	p = drilled(1);
	side_is(&p, "left of");
	p = drilled(2);
	side_is(&p, "below and right of");
	assert_near(p.wall_m / foot, sqrt(72) - 1, 1e-4);
	p = drilled(3);
	assert_true(p.at_end);
	assert_near(p.wall_m / foot, 20 - 1, 1e-4);
	side_is(&p, "short of");
	p = drilled(4);
	side_is(&p, "above");
	/* none of them asks for anything */
	assert_null(warned(WARNING_CLEARANCE));
}

/* Rows of one name make a line wherever they stand; between two that differ the larger figures hold. */
static void rows_of_one_name_are_one_line_with_the_larger_figures(void **state)
{
	(void)state;
	obstacle("drain", "5100", "900", "110", "1", "");
	obstacle("post", "5800", "1000", "150", "", "1");
	obstacle("drain", "5100", "1100", "110", "3", "2");
	drill(5);
	assert_int_equal(s.around.count, 2);
	assert_string_equal(s.around.obstacles[0].name, "drain");
	assert_true(
		s.around.obstacles[0].line && s.around.obstacles[0].sized && s.around.obstacles[0].limited);
	assert_false(s.around.obstacles[1].line || s.around.obstacles[1].sized);
	struct passing p = drilled(0);
	assert_near(p.wall_m / foot, 10 - 1.5 - 1, 1e-4);
	assert_near(p.required_m / foot, 2, 1e-9);
}

static void without_a_hole_in_the_sheet_the_centre_line_is_judged(void **state)
{
	(void)state;
	memset(&job.pilot_diameter, 0, sizeof job.pilot_diameter);
	memset(&job.final_diameter, 0, sizeof job.final_diameter);
	crossing(503, "103", "1", "3");
	drill(20);
	struct passing p = drilled(0);
	assert_true(isnan(p.pilot_m) && isnan(p.final_m));
	assert_near(p.wall_m / foot, 2.5, 1e-4);
	assert_non_null(strstr(warned(WARNING_CLEARANCE)->text, "of the hole's centre line"));
	jobs_set(&job, "hole", "pilot_diameter", "12");
	jobs_solve(&job, &s);
	assert_near(drilled(0).wall_m / foot, 2, 1e-4);
	assert_non_null(strstr(warned(WARNING_CLEARANCE)->text, "of the pilot hole"));
}

static void nothing_drilled_and_no_obstacles_are_no_trouble(void **state)
{
	(void)state;
	drill(0);
	assert_int_equal(s.around.count, 0);
	drill(5);
	assert_null(warned(WARNING_CLEARANCE));
	crossing(503, "103", "1", "3");
	job.joint_count = job.in_ground = job.reading_count = 0;
	jobs_solve(&job, &s);
	assert_false(drilled(0).known);
}

/* ---- ahead ---- */

/* At 100 ft heading up by one degree: 128 ft further, under the main at 248 ft, the hole is 2.6 ft higher. In
 * joint 8, from 217 to 248; the look-ahead is three joints. */
static void a_heading_that_would_break_it_is_a_watch_while_there_is_time_to_steer(void **state)
{
	(void)state;
	crossing(240, "105", "1", "2");
	drill(4);
	assert_null(warned(WARNING_CLEARANCE_AHEAD));
	jobs_log(&job, "", "91", "90");
	jobs_solve(&job, &s);
	const struct warning *w = warned(WARNING_CLEARANCE_AHEAD);
	assert_non_null(w);
	assert_int_equal(w->level, LEVEL_WATCH);
	/* the arc of joint 5 rises 31 sin(0.5 deg) = 0.27; then 85 ft at 1 degree rise 1.48 */
	double gap = (105 - 100 - 31 * sin(sb_rad(0.5)) - 85.002 * tan(sb_rad(1))) * cos(sb_rad(1)) - 1.5;
	assert_near(w->value, gap, 2e-3);
	assert_non_null(strstr(w->text,
		"If the heading is held, joint 8 passes 1.7 ft below gas main; 2.0 is required. Steer away now."));
	struct clearance_ask a = ask();
	struct passing p = sb_clearance_held(&a, 0, 3);
	assert_near(p.wall_m / foot, gap, 2e-3);
	assert_int_equal(p.joint, 8);
	/* it is not what was drilled, and it passes when the hole turns down again */
	assert_null(warned(WARNING_CLEARANCE));
	jobs_log(&job, "", "89.5", "90");
	jobs_solve(&job, &s);
	assert_false(warned(WARNING_CLEARANCE_AHEAD)->open);
	assert_int_equal(s.level, LEVEL_OK);
}

/* The sensor is 40 ft behind the bit: what lies between is not read yet, and may have run into it. */
static void what_the_bit_has_passed_by_now_is_ahead_of_the_reading(void **state)
{
	(void)state;
	jobs_set(&job, "tool", "sensor_to_bit", "40");
	crossing(140, "103", "1", "3");
	drill(5);
	const struct warning *w = warned(WARNING_CLEARANCE_AHEAD);
	assert_null(warned(WARNING_CLEARANCE));
	assert_non_null(strstr(w->text,
		"Carried on from the reading, the bit has come to 1.5 ft below gas main by now; 3.0 is required."));
	jobs_log(&job, "", "90", "90");
	jobs_solve(&job, &s);
	assert_non_null(warned(WARNING_CLEARANCE));
}

static void the_plan_passes_where_its_own_joints_do(void **state)
{
	static struct plan plan;

	(void)state;
	crossing(400, "104", "1", "1");
	jobs_set(&job, "steering", "slide_turn", "0.1");
	jobs_set(&job, "bend", "joint_minimum", "600");
	jobs_set(&job, "corridor", "up", "5");
	jobs_set(&job, "corridor", "down", "5");
	for (int i = 0; i < 6; i++)
		jobs_log(&job, "", i < 3 ? "90.8" : "90", "90");
	jobs_solve(&job, &s);
	struct clearance_ask a = ask();
	sb_steering_make(&a.setup, &s.path, &s.response, &plan);
	assert_true(plan.known && plan.count > 3);
	struct passing p = sb_clearance_planned(&a, 0, &plan);
	assert_true(p.known);
	/* from joint to joint in straight lines: a joint that turns half a degree bulges by under a tenth of
	 * a foot */
	struct vec3 m1 = { -100 * foot, 400 * foot, 104 * foot }, m2 = { 100 * foot, 400 * foot, 104 * foot };
	struct vec3 from = plan.bit;
	double best = HUGE_VAL;
	int joint = 0;
	for (size_t i = 0; i < plan.count; i++) {
		double d = sb_clear_straight(from, plan.joints[i].at, m1, m2, NULL, NULL);
		if (d < best) {
			best = d;
			joint = plan.joints[i].joint;
		}
		from = plan.joints[i].at;
	}
	assert_near(p.centres_m, best, 0.03);
	assert_int_equal(p.joint, joint);
}

/* ---- brute force and chance ---- */

/* Any bore, any obstacle: no place of the path, a tenth of a metre apart, is nearer than what was found. */
static void no_place_of_a_drilled_path_is_nearer(void **state)
{
	struct random r = { 31 };

	(void)state;
	for (size_t i = 0; i < PIPES; i++) {
		struct bore b;
		bore_begin(&b, &pipes[i], 90, 1.6);
		for (int k = 0; k < 8; k++)
			jobs_row(&b.job, "obstacles",
				(const char *const[]){ typed(k / 2, 0), "main",
					typed(5000 + random_between(&r, 0, 20 * b.pipe->joint), 3),
					typed(5000 + random_between(&r, -20, 20), 3),
					typed(100 - random_between(&r, 0, b.pipe->depth), 3), "1", "1" });
		jobs_solve(&b.job, &b.s);
		for (int k = 0; k < 20; k++) {
			bore_drill(&b, &r);
			struct reading reading = bore_read(&b, &r);
			bore_log(&b, &reading);
		}
		struct clearance_ask a = sb_solution_clearance(&b.job, &b.s);
		for (size_t o = 0; o < b.s.around.count; o++) {
			struct passing p = sb_clearance_drilled(&a, o);
			const struct obstacle *it = &b.s.around.obstacles[o];
			double best = HUGE_VAL, end = sb_path_back(&b.s.path, 0)->survey_md_m;
			for (double md = 0; md < end; md += 0.1) {
				struct vec3 at;
				sb_path_at(&b.s.path, md, &at, NULL);
				for (size_t k = it->first; k < it->first + it->count; k++)
					best = fmin(best,
						sb_clear_straight(at, at, b.s.around.stretches[k].a,
							b.s.around.stretches[k].b, NULL, NULL));
			}
			assert_true(p.centres_m <= best + 1e-4);
			assert_near(p.centres_m, best, 0.05);
		}
		bore_end(&b);
	}
}

/* One hole as it may really lie: every reading with the tool's bias and its own noise. Returned: how near its
 * centre line comes to any of the obstacles, m. */
static double true_distance(struct random *r, const struct surroundings *around)
{
	double inc_bias = sb_rad(0.1) * random_normal(r), azi_bias = sb_rad(0.3) * random_normal(r);
	struct vec3 at = { 0, 0, 100 * foot };
	struct attitude before = { 0 };
	double best = HUGE_VAL;

	for (int i = 0; i <= 20; i++) {
		struct attitude now = sb_attitude(SB_PI / 2 + inc_bias + sb_rad(0.1) * random_normal(r),
			SB_PI / 2 + azi_bias + sb_rad(0.3) * random_normal(r));
		struct arc arc;
		if (i > 0) {
			assert_int_equal(sb_arc_between(&before, &now, 31 * foot, &arc), ARC_OK);
			struct vec3 to = sb_vec3_add(at, arc.step);
			for (size_t k = 0; k < around->obstacles[0].count; k++)
				best = fmin(best,
					sb_clear_straight(at, to, around->stretches[k].a,
						around->stretches[k].b, NULL, NULL));
			at = to;
		}
		before = now;
	}
	return best;
}

/* The sheet's errors cut to those of the readings' angles, so that a trial can draw them. */
static void angles_only(void)
{
	jobs_set(&job, "tool", "sigma_inclination", "0.1");
	jobs_set(&job, "tool", "sigma_azimuth", "0.3");
	jobs_set(&job, "tool", "bias_inclination", "0.1");
	jobs_set(&job, "tool", "bias_azimuth", "0.3");
	jobs_set(&job, "tool", "sigma_depth", "0");
	jobs_set(&job, "uncertainty", "declination", "0");
	jobs_set(&job, "uncertainty", "declination_by_field", "0");
	jobs_set(&job, "uncertainty", "string_field", "0");
	jobs_set(&job, "uncertainty", "depth_scale", "0");
}

/* A main across, a post to the side, a bent line: within 2 percent of 20,000 holes each. The last is a duct
 * along five joints: a hole that keeps clear in the joint where it is likeliest not to may still come near in
 * another. */
static void the_chance_is_that_of_holes_drawn_from_the_readings_errors(void **state)
{
	static const struct {
		const char *rows[3][3]; /* easting, northing, elevation */
		int count;
		const char *clearance;
	} cases[] = {
		{ { { "5590", "900", "103.5" }, { "5600", "1100", "103.5" } }, 2, "2" },
		{ { { "5600", "1003", "100" } }, 1, "2" },
		{ { { "5600", "1003", "80" }, { "5600", "1003", "120" } }, 2, "1" },
		{ { { "5550", "960", "104" }, { "5600", "1002", "102" }, { "5610", "1060", "103" } }, 3,
			"1" },
		{ { { "5500", "1004", "98" }, { "5650", "1004", "98" } }, 2, "1.5" },
	};
	struct random r = { 77 };

	(void)state;
	angles_only();
	for (int i = 0; i < 20; i++)
		jobs_log(&job, "", "90", "90");
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		job.obstacle_count = 0;
		for (int k = 0; k < cases[i].count; k++)
			obstacle("it", cases[i].rows[k][0], cases[i].rows[k][1], cases[i].rows[k][2], "1",
				cases[i].clearance);
		jobs_solve(&job, &s);
		struct passing p = drilled(0);
		double keep = (atof(cases[i].clearance) + 0.5 + 1) * foot;
		int hits = 0, trials = 20000;
		for (int k = 0; k < trials; k++)
			hits += true_distance(&r, &s.around) < keep;
		double want = (double)hits / trials;
		print_message("chance %.4f, of %d holes %.4f\n", p.chance, trials, want);
		assert_true(want > 0.02 && want < 0.98);
		assert_near(p.chance, want, i < 4 ? 0.02 : 0.04);
	}
}

/* Where the contract judges on confidence the chance decides: here the mean keeps it, and 1 in 7 does not. */
static void on_confidence_the_chance_decides(void **state)
{
	(void)state;
	angles_only();
	crossing(600, "103.5", "1", "1");
	drill(20);
	assert_int_equal(drilled(0).level, LEVEL_WATCH);
	jobs_set(&job, "uncertainty", "judge", "confidence");
	jobs_solve(&job, &s);
	struct passing p = drilled(0);
	assert_int_equal(p.level, LEVEL_BREACH);
	const struct warning *w = warned(WARNING_CLEARANCE);
	assert_int_equal(w->level, LEVEL_BREACH);
	/* the clearance that is kept with 95 percent: 1.645 sigma less than the mean (any table of the
	 * normal) */
	const struct row *row = &s.path.rows[w->worst_joint];
	assert_true(w->value < w->limit);
	assert_near(w->value, (p.wall_m - 1.6449 * p.sigma_m) / foot, 1e-3);
	assert_true(row->joint == 19 || row->joint == 20);
	assert_non_null(
		strstr(w->text, "% chance of less than the 1.0 ft required from gas main; 5 % is left."));
}

#define HERE(test) cmocka_unit_test_setup_teardown(test, setup, teardown)

int main(void)
{
	const struct CMUnitTest tests[] = {
		HERE(a_main_ten_feet_over_the_hole),
		HERE(within_two_sigma_of_what_is_required_is_a_watch),
		HERE(less_than_required_is_a_breach_that_says_what_to_do),
		HERE(a_final_hole_that_does_not_fit_is_said_to_run_into_it),
		HERE(the_sheets_own_spare_says_when_to_watch),
		HERE(sides_are_said_as_the_hole_heads),
		HERE(rows_of_one_name_are_one_line_with_the_larger_figures),
		HERE(without_a_hole_in_the_sheet_the_centre_line_is_judged),
		HERE(nothing_drilled_and_no_obstacles_are_no_trouble),
		HERE(a_heading_that_would_break_it_is_a_watch_while_there_is_time_to_steer),
		HERE(what_the_bit_has_passed_by_now_is_ahead_of_the_reading),
		HERE(the_plan_passes_where_its_own_joints_do),
		cmocka_unit_test(no_place_of_a_drilled_path_is_nearer),
		HERE(the_chance_is_that_of_holes_drawn_from_the_readings_errors),
		HERE(on_confidence_the_chance_decides),
	};

	return run_tests(tests);
}
