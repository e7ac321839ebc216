/* The path: exact arcs, every edge of the angles, windows by both methods, and what is left of it after
 * pulling back. Where it lies against the design: path_design_test.c. */
#include "model/path.h"

#include "drill.h"
#include "geom/bend.h"

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

static const struct row *row(int joint)
{
	return &solution.path.rows[joint];
}

static double feet(double metres)
{
	return metres / 0.3048;
}

/* A line in feet along a bearing, 100 deep in the middle and without curves: what is drilled is the test's.
 */
static void flat_job(const char *exit)
{
	sb_setting_init(&job);
	jobs_set(&job, "job", "unit", "ft");
	jobs_set(&job, "job", "inclination", "down");
	jobs_set(&job, "control", "entry", "0, 0, 0");
	jobs_set(&job, "control", "exit", exit);
	jobs_set(&job, "azimuth", "reference", "grid");
	jobs_set(&job, "tool", "sensor_to_bit", "0");
	jobs_set(&job, "drill_pipe", "joint_length", "31");
	jobs_row(&job, "profile", (const char *const[]){ "0", "0", "" });
	jobs_row(&job, "profile", (const char *const[]){ "3000", "0", "" });
}

static void stake(const char *inclination, const char *azimuth)
{
	jobs_set(&job, "entry", "inclination", inclination);
	jobs_set(&job, "entry", "azimuth", azimuth);
}

/* ---- points between the readings ---- */

/* A circle in a plane that is neither level nor upright: its start, its first heading, and square to that the
 * way to its centre. */
struct circle {
	struct vec3 heading, aside;
	double radius_ft;
};

static struct vec3 circle_heading(const struct circle *c, double md_ft)
{
	double a = md_ft / c->radius_ft;

	return sb_vec3_add(sb_vec3_scale(c->heading, cos(a)), sb_vec3_scale(c->aside, sin(a)));
}

static struct vec3 circle_at(const struct circle *c, double md_ft)
{
	double a = md_ft / c->radius_ft;

	return sb_vec3_scale(
		sb_vec3_add(sb_vec3_scale(c->heading, sin(a)), sb_vec3_scale(c->aside, 1 - cos(a))),
		c->radius_ft);
}

static void log_heading(struct vec3 heading)
{
	double inc, azi;

	sb_vec3_attitude(heading, &inc, &azi);
	jobs_log(&job, "", typed(sb_deg(inc), 9), typed(fmod(sb_deg(azi), 360), 9));
}

/* A table of stations every 25 ft: on an arc within 0.01 ft of exact. Ours are within a millionth. */
static void points_every_25_ft_lie_on_the_exact_arc(void **state)
{
	static const double radii[] = { 3600, 1200, 600, 250 };
	static const double tilts[] = { 0, 30, 90, 215 }; /* of the plane, from upright */

	(void)state;
	for (size_t i = 0; i < 4; i++)
		for (size_t k = 0; k < 4; k++) {
			struct vec3 up = sb_vec3_heading(sb_rad(170), sb_rad(37)), /* square to the start */
				right = sb_vec3_heading(sb_rad(90), sb_rad(127));
			struct circle c = { .heading = sb_vec3_heading(sb_rad(80), sb_rad(37)),
				.radius_ft = radii[i] };
			c.aside = sb_vec3_add(sb_vec3_scale(up, cos(sb_rad(tilts[k]))),
				sb_vec3_scale(right, sin(sb_rad(tilts[k]))));
			flat_job("1805, 2396, 0");
			stake("80", "37");
			for (int j = 1; j <= 15; j++)
				log_heading(circle_heading(&c, 31 * j));
			jobs_solve(&job, &solution);
			for (double md = 0; md <= 465; md += 25) {
				struct vec3 at, heading, want = circle_at(&c, md),
							 course = circle_heading(&c, md);
				int joint = sb_path_at(&solution.path, md * 0.3048, &at, &heading);
				assert_int_equal(joint, 1 + (int)(md / 31));
				assert_near(feet(at.n), want.n, 1e-6);
				assert_near(feet(at.e), want.e, 1e-6);
				assert_near(feet(at.u), want.u, 1e-6);
				assert_near(sb_vec3_angle(heading, course), 0, 1e-9);
			}
			sb_solution_clear(&solution);
			sb_job_clear(&job);
		}
}

static void at_the_readings_the_path_is_where_the_rows_say(void **state)
{
	struct vec3 at, heading;

	(void)state;
	jobs_curved(&job);
	jobs_follow(&job, 12);
	jobs_solve(&job, &solution);
	for (size_t i = 1; i < solution.path.on_count; i++) {
		const struct row *r = &solution.path.rows[solution.path.on_path[i]];
		sb_path_at(&solution.path, r->survey_md_m, &at, &heading);
		assert_near(sb_vec3_length(sb_vec3_sub(at, r->at)), 0, 1e-9);
		assert_near(sb_vec3_angle(heading, r->attitude.heading), 0, 1e-9);
		/* a hair before: on the course that ends there */
		assert_int_equal(sb_path_at(&solution.path, r->survey_md_m - 1e-6, &at, NULL), r->joint);
		assert_near(sb_vec3_length(sb_vec3_sub(at, r->at)), 0, 2e-6);
	}
}

static void past_the_last_reading_the_heading_is_held(void **state)
{
	struct vec3 at, heading;

	(void)state;
	flat_job("3000, 0, 0");
	stake("80", "90");
	jobs_log(&job, "", "84", "90");
	jobs_solve(&job, &solution);
	const struct row *last = row(1);
	assert_int_equal(sb_path_at(&solution.path, last->survey_md_m + 10, &at, &heading), 1);
	assert_near(at.u - last->at.u, -10 * cos(sb_rad(84)), 1e-12);
	assert_near(at.e - last->at.e, 10 * sin(sb_rad(84)), 1e-12);
	assert_near(sb_vec3_angle(heading, last->attitude.heading), 0, 0);
	/* Before the entry, back along the first course. */
	sb_path_at(&solution.path, -1, &at, NULL);
	assert_near(sb_vec3_length(at), 1, 1e-3);
	assert_true(at.e < 0 && at.u > 0);
	sb_path_at(&solution.path, 0, &at, &heading);
	assert_near(sb_vec3_length(at), 0, 1e-12);
}

static void over_a_missing_reading_the_course_goes_on(void **state)
{
	struct vec3 at;

	(void)state;
	flat_job("3000, 0, 0");
	stake("80", "90");
	jobs_log(&job, "", "80", "90");
	jobs_log(&job, "", "", "");
	jobs_log(&job, "", "84", "90");
	jobs_solve(&job, &solution);
	assert_false(row(2)->on_path);
	assert_memory_equal(&row(2)->at, &row(1)->at, sizeof row(1)->at);
	assert_near(feet(row(3)->course_m), 62, 1e-12);
	assert_near(feet(row(3)->radius_m), 62 / sb_rad(4), 1e-6);
	assert_int_equal(sb_path_at(&solution.path, 45 * 0.3048, &at, NULL), 3);
	assert_int_equal(sb_path_at(&solution.path, 20 * 0.3048, &at, NULL), 1);
}

/* ---- the edges of the angles ---- */

static void past_level_straight_down_and_straight_up(void **state)
{
	static const struct {
		const char *from, *to;
		double east, up; /* of a joint of 31 */
	} table[] = {
		{ "90", "90", 31, 0 }, { "85", "95", 0, 0 }, { "0", "0", 0, -31 }, { "180", "180", 0, 31 },
		{ "0", "90", 31 / (SB_PI / 2), -31 / (SB_PI / 2) }, /* a quarter circle */
		{ "90", "180", 31 / (SB_PI / 2), 31 / (SB_PI / 2) },
		{ "0", "180", 31 / (SB_PI / 2), 0 }, /* right back: its plane is that of the azimuth */
	};

	(void)state;
	for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
		flat_job("3000, 0, 0");
		stake(table[i].from, "90");
		jobs_log(&job, "", table[i].to, "90");
		jobs_solve(&job, &solution);
		const struct row *r = row(1);
		assert_near(feet(r->at.u), table[i].up, 1e-9);
		if (i != 1 && i != 6)
			assert_near(feet(r->at.e), table[i].east, 1e-9);
		assert_true(isfinite(r->deviation.square_m) && isfinite(r->deviation.azi_off_rad));
		assert_int_equal(r->turned_back, i == 6);
		sb_solution_clear(&solution);
		sb_job_clear(&job);
	}
}

static void straight_down_needs_no_azimuth(void **state)
{
	struct vec3 ends[3];
	static const char *const azimuths[] = { "0", "137.3", "360" };

	(void)state;
	for (size_t i = 0; i < 3; i++) {
		flat_job("3000, 0, 0");
		stake("0", azimuths[i]);
		jobs_log(&job, "", "10", "90");
		jobs_solve(&job, &solution);
		ends[i] = row(1)->at;
		sb_solution_clear(&solution);
		sb_job_clear(&job);
	}
	for (size_t i = 1; i < 3; i++)
		assert_near(sb_vec3_length(sb_vec3_sub(ends[i], ends[0])), 0, 1e-12);
	assert_true(ends[0].e > 0);
}

/* 359.8 and 0.2 are 0.4 apart, and 360 is 0. */
static void north_is_crossed_the_short_way(void **state)
{
	(void)state;
	flat_job("0, 3000, 0");
	stake("90", "359.8");
	jobs_log(&job, "", "90", "0.2");
	jobs_log(&job, "", "90", "360");
	jobs_log(&job, "", "90", "0");
	jobs_solve(&job, &solution);
	assert_near(sb_deg(row(1)->dogleg_rad), 0.4, 1e-9);
	assert_near(sb_deg(row(2)->dogleg_rad), 0.2, 1e-9);
	assert_near(row(3)->dogleg_rad, 0, 0);
	assert_true(row(3)->radius_m == HUGE_VAL);
	assert_near(row(1)->deviation.offset_m, 0, 1e-9);
	assert_near(sb_deg(row(1)->deviation.azi_off_rad), 0.2, 1e-9);
	assert_near(row(3)->deviation.azi_off_rad, 0, 1e-12);
}

static void turning_right_back_is_done_and_said(void **state)
{
	(void)state;
	flat_job("0, 3000, 0");
	stake("90", "0");
	jobs_log(&job, "", "90", "180");
	jobs_solve(&job, &solution);
	assert_true(row(1)->turned_back);
	assert_near(sb_deg(row(1)->dogleg_rad), 180, 1e-9);
	assert_near(feet(sb_vec3_length(row(1)->at)), 2 * 31 / SB_PI, 1e-9);
	assert_near(feet(row(1)->radius_m), 31 / SB_PI, 1e-9);
}

/* ---- windows ---- */

/* 0.9 up, 0.9 down, 0.9 up in 93 ft: 5,921 ft by its ends and 1,974 ft by the sum. Derived, no publication.
 */
static void an_s_bend_is_hidden_by_the_ends_and_found_by_the_sum(void **state)
{
	(void)state;
	for (int sum = 0; sum < 2; sum++) {
		flat_job("3000, 0, 0");
		jobs_set(&job, "bend", "method", sum ? "sum" : "ends");
		stake("88", "90");
		jobs_log(&job, "", "88.9", "90");
		jobs_log(&job, "", "88", "90");
		jobs_log(&job, "", "88.9", "90");
		jobs_solve(&job, &solution);
		const struct window *w = &row(3)->window;
		assert_int_equal(w->joints, 3);
		assert_near(feet(w->length_m), 93, 1e-9);
		assert_near(feet(w->radius_ends_m), 5921, 0.5);
		assert_near(feet(w->radius_sum_m), 1974, 0.5);
		assert_near(w->radius_m, sum ? w->radius_sum_m : w->radius_ends_m, 0);
		assert_int_equal(row(2)->window.joints, 0);
		assert_true(row(2)->window.radius_m == HUGE_VAL);
		sb_solution_clear(&solution);
		sb_job_clear(&job);
	}
}

static void a_window_holds_as_many_joints_as_the_contract_says(void **state)
{
	(void)state;
	for (int n = 1; n <= 6; n++) {
		flat_job("3000, 0, 0");
		jobs_set(&job, "bend", "window_joints", typed(n, 0));
		stake("80", "90");
		for (int j = 1; j <= 7; j++)
			jobs_log(&job, "", typed(80 + 0.1 * j * j, 1), "90");
		jobs_solve(&job, &solution);
		for (int j = 1; j <= 7; j++) {
			const struct window *w = &row(j)->window;
			assert_int_equal(w->joints, j >= n ? n : 0);
			if (j < n)
				continue;
			double turn = 0.1 * (j * j - (j - n) * (j - n));
			assert_near(sb_deg(w->ends_rad), turn, 1e-9);
			assert_near(sb_deg(w->sum_rad), turn, 1e-9);
			assert_near(feet(w->radius_m), 31 * n / sb_rad(turn), 1e-6);
		}
		sb_solution_clear(&solution);
		sb_job_clear(&job);
	}
}

/* The heading at a depth, by walking the path; and the turn of all pieces between two depths (a piece over a
 * reading cuts its corner, by less than it turns itself). */
static struct vec3 heading_at(double md_m)
{
	struct vec3 heading;

	sb_path_at(&solution.path, md_m, NULL, &heading);
	return heading;
}

static double summed_turn(double from_m, double to_m)
{
	const int pieces = 20000;
	double sum = 0;

	for (int i = 0; i < pieces; i++)
		sum += sb_vec3_angle(heading_at(from_m + (to_m - from_m) * i / pieces),
			heading_at(from_m + (to_m - from_m) * (i + 1) / pieces));
	return sum;
}

/* 100 ft of joints of 31 begin within a joint. */
static void a_window_of_100_ft_begins_within_a_joint(void **state)
{
	struct random r = { 8 };

	(void)state;
	flat_job("3000, 0, 0");
	jobs_set(&job, "bend", "window_length", "100");
	stake("80", "90");
	for (int j = 1; j <= 20; j++)
		jobs_log(&job, typed(31 + random_between(&r, -1, 1), 2),
			typed(80 + 0.5 * j + random_between(&r, -0.8, 0.8), 1),
			typed(90 + random_between(&r, -0.8, 0.8), 1));
	jobs_solve(&job, &solution);
	for (int j = 1; j <= 20; j++) {
		const struct row *w = row(j);
		if (feet(w->survey_md_m) < 100) {
			assert_int_equal(w->window.joints, 0);
			continue;
		}
		double from = w->survey_md_m - 30.48;
		assert_int_equal(w->window.joints, 4);
		assert_near(feet(w->window.length_m), 100, 1e-9);
		assert_near(w->window.ends_rad, sb_vec3_angle(heading_at(from), w->attitude.heading), 1e-9);
		assert_near(w->window.sum_rad, summed_turn(from, w->survey_md_m), 1.5e-5);
		assert_near(w->window.radius_ends_m, 30.48 / w->window.ends_rad, 1e-6);
	}
}

/* Once rounding had it that five joints of 20 ft are shorter than 100, or longer. */
static void a_window_that_ends_on_a_joint_holds_whole_joints(void **state)
{
	static const char *const units[] = { "m", "ft", "ftUS" };

	(void)state;
	for (size_t u = 0; u < 3; u++)
		for (int length = 9; length <= 33; length++) {
			flat_job("3000, 0, 0");
			jobs_set(&job, "job", "unit", units[u]);
			jobs_set(&job, "drill_pipe", "joint_length", typed(length + 0.1, 1));
			jobs_set(&job, "bend", "window_length", typed(5 * (length + 0.1), 1));
			stake("80", "90");
			for (int j = 1; j <= 12; j++)
				jobs_log(&job, "", typed(80 + 0.3 * j, 1), "90");
			jobs_solve(&job, &solution);
			for (int j = 1; j <= 12; j++) {
				assert_int_equal(row(j)->window.joints, j < 5 ? 0 : 5);
				if (j >= 5)
					assert_near(sb_deg(row(j)->window.sum_rad), 1.5, 1e-9);
			}
			sb_solution_clear(&solution);
			sb_job_clear(&job);
		}
}

static void a_window_shorter_than_a_joint_is_its_end(void **state)
{
	(void)state;
	flat_job("3000, 0, 0");
	jobs_set(&job, "bend", "window_length", "10");
	stake("80", "90");
	jobs_log(&job, "", "83.1", "90");
	jobs_solve(&job, &solution);
	assert_int_equal(row(1)->window.joints, 1);
	assert_near(sb_deg(row(1)->window.ends_rad), 1, 1e-9);
	assert_near(sb_deg(row(1)->window.sum_rad), 1, 1e-9);
	assert_near(feet(row(1)->window.radius_m), 31 / sb_rad(3.1), 1e-6);
}

/* Once a window over the first joint began with the design's heading where none was staked, and bent. */
static void the_first_reading_stands_for_the_entry_in_the_window_too(void **state)
{
	(void)state;
	for (int by_length = 0; by_length < 2; by_length++) {
		flat_job("3000, 0, 0");
		jobs_set(&job, "bend", by_length ? "window_length" : "window_joints", by_length ? "20" : "1");
		jobs_log(&job, "", "78", "93");
		jobs_log(&job, "", "78", "93");
		jobs_solve(&job, &solution);
		for (int j = 1; j <= 2; j++) {
			assert_int_equal(row(j)->window.joints, 1);
			assert_near(row(j)->window.ends_rad, 0, 1e-12);
			assert_near(row(j)->window.sum_rad, 0, 0);
		}
		assert_near(row(1)->dogleg_rad, 0, 0);
		assert_near(sb_deg(row(0)->attitude.inc_rad), 78, 1e-12);
		sb_solution_clear(&solution);
		sb_job_clear(&job);
	}
}

static void the_noise_is_that_of_the_readings_at_the_ends(void **state)
{
	(void)state;
	flat_job("3000, 0, 0");
	stake("80", "90");
	jobs_log(&job, "", "80.6", "90.3");
	jobs_log(&job, "", "81.4", "90.4");
	jobs_log(&job, "", "82.1", "90.2");
	jobs_solve(&job, &solution);
	struct attitude from = sb_attitude(sb_rad(80), sb_rad(90)),
			to = sb_attitude(sb_rad(82.1), sb_rad(90.2)),
			before = sb_attitude(sb_rad(81.4), sb_rad(90.4));
	assert_near(row(3)->window.sigma_rad, sb_bend_noise(&from, &to, sb_rad(0.1), sb_rad(0.3)), 1e-15);
	assert_near(row(3)->dogleg_sigma_rad, sb_bend_noise(&before, &to, sb_rad(0.1), sb_rad(0.3)), 1e-15);
}

/* ---- pulling back ---- */

/* Once the heading of a reading that was pulled back stayed at the entry. */
static void with_nothing_left_in_the_ground_the_entry_is_open_again(void **state)
{
	(void)state;
	flat_job("3000, 0, 0");
	jobs_solve(&job, &solution);
	struct row fresh = *row(0);
	jobs_log(&job, "", "78", "95");
	jobs_log(&job, "", "79", "95");
	jobs_withdraw(&job, 0);
	jobs_solve(&job, &solution);
	assert_int_equal(solution.path.count, 1);
	assert_int_equal(solution.path.on_count, 1);
	assert_int_equal(solution.path.old_count, 2);
	assert_false(solution.path.entry_known);
	assert_memory_equal(&row(0)->attitude, &fresh.attitude, sizeof fresh.attitude);
	assert_false(solution.bit.known);
	struct attitude none;
	assert_false(sb_path_attitude(&solution.path, &none));
	jobs_log(&job, "", "82", "88");
	jobs_solve(&job, &solution);
	assert_near(row(1)->dogleg_rad, 0, 0);
	assert_near(sb_deg(row(0)->attitude.inc_rad), 82, 1e-12);
	assert_int_equal(row(1)->leg, 2);
}

static void a_staked_entry_stays_staked(void **state)
{
	struct attitude now;

	(void)state;
	flat_job("3000, 0, 0");
	stake("80", "90");
	jobs_log(&job, "", "78", "95");
	jobs_withdraw(&job, 0);
	jobs_solve(&job, &solution);
	assert_true(sb_path_attitude(&solution.path, &now));
	assert_near(sb_deg(now.inc_rad), 80, 1e-12);
	assert_true(solution.bit.known);
}

static void pulled_back_rows_are_kept_in_the_order_drilled(void **state)
{
	(void)state;
	flat_job("3000, 0, 0");
	for (int i = 0; i < 6; i++)
		jobs_log(&job, "", typed(80 + i, 0), "90");
	jobs_withdraw(&job, 4);
	jobs_log(&job, "", "70", "90");
	jobs_withdraw(&job, 2);
	jobs_solve(&job, &solution);
	static const int joints[] = { 5, 6, 3, 4, 5 }, legs[] = { 1, 1, 1, 1, 2 };
	assert_int_equal(solution.path.old_count, 5);
	for (size_t i = 0; i < 5; i++) {
		assert_int_equal(solution.path.old[i].joint, joints[i]);
		assert_int_equal(solution.path.old[i].leg, legs[i]);
	}
	assert_int_equal(solution.path.count, 3);
	assert_int_equal(sb_path_back(&solution.path, 0)->joint, 2);
	assert_int_equal(sb_path_back(&solution.path, 2)->joint, 0);
}

#define HERE(name) cmocka_unit_test_setup_teardown(name, setup, teardown)

static const struct CMUnitTest tests[] = {
	HERE(points_every_25_ft_lie_on_the_exact_arc),
	HERE(at_the_readings_the_path_is_where_the_rows_say),
	HERE(past_the_last_reading_the_heading_is_held),
	HERE(over_a_missing_reading_the_course_goes_on),
	HERE(past_level_straight_down_and_straight_up),
	HERE(straight_down_needs_no_azimuth),
	HERE(north_is_crossed_the_short_way),
	HERE(turning_right_back_is_done_and_said),
	HERE(an_s_bend_is_hidden_by_the_ends_and_found_by_the_sum),
	HERE(a_window_holds_as_many_joints_as_the_contract_says),
	HERE(a_window_of_100_ft_begins_within_a_joint),
	HERE(a_window_that_ends_on_a_joint_holds_whole_joints),
	HERE(a_window_shorter_than_a_joint_is_its_end),
	HERE(the_first_reading_stands_for_the_entry_in_the_window_too),
	HERE(the_noise_is_that_of_the_readings_at_the_ends),
	HERE(with_nothing_left_in_the_ground_the_entry_is_open_again),
	HERE(a_staked_entry_stays_staked),
	HERE(pulled_back_rows_are_kept_in_the_order_drilled),
};

int main(void)
{
	return run_tests(tests);
}
