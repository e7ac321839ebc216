/* The rehearsed truth against closed forms, its readings, and that it can be repeated. */
#include "model/rehearsal.h"

#include "geom/angle.h"
#include "model/rehearsal_truth.h"
#include "support/jobs.h"
#include "support/near.h"

#include <math.h>
#include <string.h>

static const double foot = 0.3048, joint_m = 31 * 0.3048;

static struct job job;
static struct rehearsal *truth;

static int setup(void **state)
{
	(void)state;
	jobs_plain(&job);
	jobs_set(&job, "steering", "slide_turn", "0.06");
	truth = NULL;
	return 0;
}

static int teardown(void **state)
{
	(void)state;
	sb_rehearsal_free(truth);
	sb_job_clear(&job);
	return 0;
}

/* Ground that answers exactly as the sheet guesses, all alike, with readings without error. */
static const struct rehearsal_ground exact = { .yield_share = 1, .pushes = 1 };

static void begin(const struct rehearsal_ground *g, unsigned long long seed)
{
	struct sb_err err = { 0 };

	sb_rehearsal_free(truth);
	truth = sb_rehearsal_new(&job, g, seed, false, &err);
	assert_non_null(truth);
}

static struct stand end(void)
{
	return truth->stands[truth->stand_count - 1];
}

static struct reading drill(double length_m, double face_deg, double slid_m)
{
	struct reading r;

	sb_rehearsal_drill(truth, length_m, sb_rad(face_deg), slid_m, &r);
	return r;
}

/* ---- the hole ---- */

static void slid_all_through_towards_high_side_is_a_circle_of_the_yield(void **state)
{
	const double yield = sb_rad(0.06) / foot, radius = 1 / yield, from = sb_rad(80);
	double inc, azi;

	(void)state;
	begin(&exact, 1);
	for (int i = 0; i < 5; i++)
		drill(joint_m, 0, joint_m);
	struct stand s = end();
	sb_vec3_attitude(s.heading, &inc, &azi);
	assert_near(s.md_m, 5 * joint_m, 1e-9);
	assert_near(inc, from + 5 * joint_m * yield, 1e-12);
	assert_near(azi, sb_rad(90), 1e-12);
	/* The hole heads (e, u) = (sin i, -cos i), and i grows by a radian each radius. */
	assert_near(s.at.e, radius * (cos(from) - cos(inc)), 1e-9);
	assert_near(s.at.u, 100 * foot - radius * (sin(inc) - sin(from)), 1e-9);
	assert_near(s.at.n, 0, 1e-9);
}

static void slid_level_towards_the_right_is_a_circle_in_plan(void **state)
{
	const double yield = sb_rad(0.06) / foot, radius = 1 / yield;

	(void)state;
	jobs_set(&job, "entry", "inclination", "90");
	begin(&exact, 1);
	for (int i = 0; i < 5; i++)
		drill(joint_m, 90, joint_m);
	double turn = 5 * joint_m * yield;
	struct stand s = end();
	/* From due east, right is south. */
	assert_near(s.at.e, radius * sin(turn), 1e-9);
	assert_near(s.at.n, -radius * (1 - cos(turn)), 1e-9);
	assert_near(s.at.u, 100 * foot, 1e-9);
}

static void rotating_droops_and_walks_by_the_length(void **state)
{
	struct rehearsal_ground g = exact;
	double inc, azi;

	(void)state;
	g.droop = 1e-4;
	begin(&g, 1);
	for (int i = 0; i < 10; i++)
		drill(30 * foot, 0, 0);
	sb_vec3_attitude(end().heading, &inc, &azi);
	assert_near(inc, sb_rad(80) - 300 * foot * 1e-4, 1e-12);
	assert_near(azi, sb_rad(90), 1e-12);
	/* Walk turns to the right in the plane square to the hole: a bearing turns faster, by 1 / sin i,
	 * which itself changes little over so short a way. */
	g.droop = 0;
	g.walk = 1e-4;
	begin(&g, 1);
	for (int i = 0; i < 10; i++)
		drill(30 * foot, 0, 0);
	sb_vec3_attitude(end().heading, &inc, &azi);
	assert_near(azi - sb_rad(90), 300 * foot * 1e-4 / sin(sb_rad(80)), 1e-6);
}

static void drift_belongs_to_what_is_rotated_and_turn_to_what_is_slid(void **state)
{
	struct rehearsal_ground g = exact;
	double inc, azi;

	(void)state;
	g.droop = 2e-4;
	for (g.pushes = 0; g.pushes < 6; g.pushes++) {
		begin(&g, 3);
		drill(joint_m, 0, 10 * foot);
		sb_vec3_attitude(end().heading, &inc, &azi);
		assert_near(inc, sb_rad(80) + sb_rad(0.6) - 21 * foot * 2e-4, 1e-12);
	}
}

static void a_slide_at_the_joint_s_start_bends_early(void **state)
{
	struct rehearsal_ground g = exact;
	const double turn = sb_rad(0.6), slid = 10 * foot;

	(void)state;
	begin(&g, 1);
	drill(joint_m, 0, slid);
	/* Height over the straight course, along its normal to first order: half the slide's length of the
	 * turn, and the whole turn over the rest. */
	struct stand s = end();
	double along = joint_m * sin(sb_rad(80)), down = joint_m * cos(sb_rad(80));
	double normal = (s.at.u - 100 * foot + down) * sin(sb_rad(80)) + (s.at.e - along) * cos(sb_rad(80));
	assert_near(normal, turn * (slid / 2 + joint_m - slid), 1e-4);
}

static void a_tool_face_error_and_the_sheet_s_offset_turn_the_slide_clockwise(void **state)
{
	struct rehearsal_ground g = exact;
	double inc, azi;

	(void)state;
	jobs_set(&job, "tool", "tool_face_offset", "12");
	jobs_set(&job, "entry", "inclination", "90");
	g.face_error_rad = sb_rad(20);
	begin(&g, 1);
	drill(joint_m, 328, joint_m); /* 328 + 12 + 20 = straight up */
	sb_vec3_attitude(end().heading, &inc, &azi);
	assert_near(inc, sb_rad(90 + 31 * 0.06), 1e-12);
	assert_near(azi, sb_rad(90), 1e-12);
}

static void wander_grows_with_the_root_of_the_length(void **state)
{
	struct rehearsal_ground g = exact;
	const int bores = 400;
	double up = 0, right = 0;

	(void)state;
	g.wander = sb_rad(0.05);
	jobs_set(&job, "entry", "inclination", "90");
	for (int i = 0; i < bores; i++) {
		double inc, azi;
		begin(&g, (unsigned long long)i);
		drill(16, 0, 0);
		sb_vec3_attitude(end().heading, &inc, &azi);
		up += (inc - sb_rad(90)) * (inc - sb_rad(90));
		right += (azi - sb_rad(90)) * (azi - sb_rad(90));
	}
	/* 16 m: four times a metre's; four sigma of a root mean square of 400 */
	assert_near(sb_deg(sqrt(up / bores)), 0.2, 0.2 * 4 / sqrt(2.0 * bores));
	assert_near(sb_deg(sqrt(right / bores)), 0.2, 0.2 * 4 / sqrt(2.0 * bores));
}

static void zones_scatter_about_the_mean_that_the_informed_are_told(void **state)
{
	struct rehearsal_ground g = exact;
	struct response told;
	double sum = 0, inc, azi, first = 0;
	int unlike = 0;

	(void)state;
	jobs_set(&job, "entry", "inclination", "90");
	g.yield_share = 0.6;
	g.yield_scatter = 0.2;
	g.zone_length_m = 20;
	g.droop = 1e-4;
	g.walk = -2e-4;
	g.face_error_rad = 0.3;
	const int bores = 400;
	for (int i = 0; i < bores; i++) {
		begin(&g, (unsigned long long)i);
		drill(5, sb_deg(-0.3), 5);
		sb_vec3_attitude(end().heading, &inc, &azi);
		sum += hypot(inc - sb_rad(90), azi - sb_rad(90));
		unlike += i > 0 && fabs(inc - first) > 1e-6;
		first = inc;
	}
	struct setup s = rehearsal_setup(truth);
	sb_response_begin(&s, &told);
	sb_rehearsal_true_response(truth, &told);
	assert_near(told.yield, 0.6 * sb_rad(0.06) / foot, 1e-12);
	assert_near(told.face_error_rad, 0.3, 1e-12);
	assert_near(told.drift_up, -1e-4, 1e-12);
	assert_near(told.drift_right, -2e-4, 1e-12);
	assert_near(sum / bores / (5 * told.yield), 1, 4 * 0.2 / sqrt(bores));
	assert_true(unlike > bores * 9 / 10);
}

/* ---- readings ---- */

static void what_is_drilled_is_what_the_log_says(void **state)
{
	double inc, azi;

	(void)state;
	jobs_set(&job, "entry", "inclination", "90");
	begin(&exact, 1);
	struct reading r = drill(joint_m, 89.6, 10.04 * foot);
	assert_string_equal(r.joint_length.text, "31");
	assert_string_equal(r.tool_face.text, "90");
	assert_string_equal(r.slid.text, "10.0");
	sb_vec3_attitude(end().heading, &inc, &azi);
	assert_near(azi, sb_rad(90 + 10.0 * 0.06), 1e-12);
	assert_near(inc, sb_rad(90), 1e-12);
	r = drill(joint_m, 123, 0);
	assert_string_equal(r.slid.text, "0.0");
	assert_false(sb_number_given(&r.tool_face));
	r = drill(joint_m, 0, 2 * joint_m);
	assert_string_equal(r.slid.text, "31");
	r = drill(joint_m, (double)NAN, 0);
	assert_false(sb_number_given(&r.tool_face));
}

static void a_reading_can_never_pass_for_a_record(void **state)
{
	(void)state;
	begin(&exact, 42);
	struct reading r = drill(joint_m, 0, 0);
	assert_non_null(strstr(r.remarks, "REHEARSAL"));
	assert_non_null(strstr(r.remarks, "42"));
	assert_string_equal(r.who, "rehearsal");
	assert_int_equal(r.joint, 1);
	assert_int_equal(r.leg, 1);
}

static void the_sensor_reads_the_hole_behind_the_bit_and_the_entry_until_it_is_in(void **state)
{
	(void)state;
	jobs_set(&job, "tool", "sensor_to_bit", "41");
	begin(&exact, 1);
	struct reading r = drill(joint_m, 0, joint_m);
	assert_string_equal(r.inclination.text, "80.0");
	r = drill(joint_m, 0, 0); /* bit at 62 ft, sensor at 21 */
	assert_near(r.inclination.value, 80 + 21 * 0.06, 0.0501);
	r = drill(joint_m, 0, 0); /* sensor past the slide */
	assert_near(r.inclination.value, 80 + 31 * 0.06, 0.0501);
}

static void readings_have_the_digits_that_the_display_shows(void **state)
{
	struct rehearsal_ground g = sb_rehearsal_scenario("nominal")->ground;

	(void)state;
	begin(&g, 1);
	struct reading r = drill(joint_m, 0, 0);
	assert_non_null(strchr(r.inclination.text, '.'));
	assert_int_equal(strlen(strchr(r.inclination.text, '.')), 2);
	assert_int_equal(strlen(strchr(r.azimuth.text, '.')), 2);
	sb_job_clear(&job);
	jobs_curved(&job);
	begin(&g, 1);
	r = drill(9.6, 30, 3.333);
	assert_int_equal(strlen(strchr(r.inclination.text, '.')), 3);
	assert_string_equal(r.slid.text, "3.33");
	assert_true(r.azimuth.value >= 0 && r.azimuth.value < 360);
}

static void readings_scatter_and_lean_as_the_ground_says(void **state)
{
	struct rehearsal_ground g = exact;
	double sums[2] = { 0 }, squares[2] = { 0 }, product = 0;
	const int n = 4000;

	(void)state;
	g.noise_inc_rad = sb_rad(0.3);
	g.noise_azi_rad = sb_rad(0.5);
	g.bias_azi_rad = sb_rad(0.4);
	g.bias_inc_rad = sb_rad(-0.2);
	begin(&g, 5);
	for (int i = 0; i < n; i++) {
		struct reading r = drill(0.5, 0, 0);
		double off[2] = { r.inclination.value - 80, r.azimuth.value - 90 };
		for (int k = 0; k < 2; k++) {
			sums[k] += off[k] / n;
			squares[k] += off[k] * off[k] / n;
		}
		product += off[0] * off[1] / n;
	}
	/* The display's tenth adds 0.1 / sqrt(12). */
	double inc = sqrt(0.3 * 0.3 + 0.01 / 12), azi = sqrt(0.5 * 0.5 + 0.01 / 12);
	assert_near(sums[0], -0.2, 4 * inc / sqrt(n));
	assert_near(sums[1], 0.4, 4 * azi / sqrt(n));
	assert_near(sqrt(squares[0] - sums[0] * sums[0]), inc, 4 * inc / sqrt(2.0 * n));
	assert_near(sqrt(squares[1] - sums[1] * sums[1]), azi, 4 * azi / sqrt(2.0 * n));
	assert_near(product - sums[0] * sums[1], 0, 4 * inc * azi / sqrt(n));
}

static void steel_pulls_the_azimuth_within_its_reach_alone(void **state)
{
	struct rehearsal_ground g = exact;

	(void)state;
	jobs_set(&job, "entry", "inclination", "90");
	g.steel_at = 50 / (1200 * foot);
	g.steel_reach_m = 10;
	g.steel_azi_rad = sb_rad(3);
	begin(&g, 1);
	for (int i = 1; i <= 20; i++) {
		struct reading r = drill(5, 0, 0);
		double t = (5 * i - 50) / 10.0, pull = fabs(t) < 1 ? 3 * (1 - t * t) * (1 - t * t) : 0;
		assert_near(r.azimuth.value, 90 + pull, 0.0501);
	}
}

/* ---- repeating ---- */

static void one_seed_gives_the_same_readings_and_another_others(void **state)
{
	struct rehearsal_ground g = sb_rehearsal_scenario("noisy")->ground;
	static const unsigned long long seeds[] = { 9, 9, 10 };
	char texts[3][20][32];

	(void)state;
	for (int k = 0; k < 3; k++) {
		struct sb_err err = { 0 };
		sb_rehearsal_free(truth);
		truth = sb_rehearsal_new(&job, &g, seeds[k], true, &err);
		assert_non_null(truth);
		for (int i = 0; i < 20; i++) {
			struct reading r = drill(joint_m, 30 * i, i % 3 * 2.0);
			snprintf(texts[k][i], sizeof texts[k][i], "%.10s %.10s", r.inclination.text,
				r.azimuth.text);
		}
	}
	int same = 0;
	for (int i = 0; i < 20; i++) {
		assert_string_equal(texts[0][i], texts[1][i]);
		same += strcmp(texts[0][i], texts[2][i]) == 0;
	}
	assert_true(same < 5);
}

/* Whoever drills on one seed meets the same ground and the same noise: only the orders differ. */
static void other_orders_meet_the_same_noise(void **state)
{
	struct rehearsal_ground g = { .yield_share = 1, .pushes = 3, .noise_inc_rad = sb_rad(0.5) };
	double off[2][30];

	(void)state;
	for (int k = 0; k < 2; k++) {
		begin(&g, 77);
		for (int i = 0; i < 30; i++) {
			struct reading r = drill(joint_m, k ? 90 : 0, k ? 3 : 1);
			double inc, azi;
			sb_vec3_attitude(end().heading, &inc, &azi);
			off[k][i] = r.inclination.value - sb_deg(inc);
		}
	}
	for (int i = 0; i < 30; i++)
		assert_near(off[0][i], off[1][i], 0.1001);
}

static void shifted_ground_differs_from_bore_to_bore(void **state)
{
	struct rehearsal_ground g = sb_rehearsal_scenario("face-error")->ground;
	int clockwise = 0, pushes[6] = { 0 };
	const int bores = 200;

	(void)state;
	for (int i = 0; i < bores; i++) {
		struct sb_err err = { 0 };
		sb_rehearsal_free(truth);
		truth = sb_rehearsal_new(&job, &g, (unsigned long long)i, true, &err);
		assert_non_null(truth);
		clockwise += truth->ground.face_error_rad > 0;
		assert_in_range(truth->ground.pushes, 0, 5);
		pushes[truth->ground.pushes]++;
		assert_true(truth->ground.yield_share >= 0.8 && truth->ground.yield_share <= 1.25);
	}
	assert_in_range(clockwise, 70, 130);
	for (int k = 0; k < 6; k++)
		assert_true(pushes[k] > 10);
}

static void pulling_back_leaves_the_hole_that_stays_and_new_noise(void **state)
{
	struct rehearsal_ground g = { .yield_share = 1, .pushes = 1, .noise_azi_rad = sb_rad(2) };
	struct reading first[6], again[6];

	(void)state;
	begin(&g, 4);
	for (int i = 0; i < 6; i++)
		first[i] = drill(joint_m, 0, 2);
	struct stand kept = rehearsal_at(truth, 2 * joint_m);
	sb_rehearsal_withdraw(truth, 2);
	assert_near(end().md_m, 2 * joint_m, 1e-9);
	assert_near(end().at.u, kept.at.u, 1e-12);
	int same = 0;
	for (int i = 2; i < 6; i++) {
		again[i] = drill(joint_m, 0, 2);
		assert_int_equal(again[i].joint, i + 1);
		assert_int_equal(again[i].leg, 2);
		assert_string_equal(again[i].inclination.text, first[i].inclination.text);
		same += strcmp(again[i].azimuth.text, first[i].azimuth.text) == 0;
	}
	assert_true(same < 4);
	sb_rehearsal_withdraw(truth, 6); /* nothing lies past it */
	assert_near(end().md_m, 6 * joint_m, 1e-9);
	sb_rehearsal_withdraw(truth, 0);
	assert_near(end().md_m, 0, 0);
}

static void a_scenario_is_found_by_its_name(void **state)
{
	static const char *const names[] = { "nominal", "face-error", "weak-soil", "noisy", "azimuth-bias",
		"steel-nearby" };

	(void)state;
	assert_int_equal(sb_rehearsal_scenario_count, 6);
	assert_int_equal(sb_rehearsal_measured_count, 5);
	for (size_t i = 0; i < 6; i++) {
		assert_string_equal(sb_rehearsal_scenarios[i].name, names[i]);
		assert_ptr_equal(sb_rehearsal_scenario(names[i]), &sb_rehearsal_scenarios[i]);
	}
	assert_null(sb_rehearsal_scenario("swamp"));
	assert_near(sb_deg(sb_rehearsal_scenario("face-error")->ground.face_error_rad), 20, 1e-9);
	assert_near(sb_rehearsal_scenario("weak-soil")->ground.yield_share, 0.6, 1e-12);
	assert_near(sb_deg(sb_rehearsal_scenario("azimuth-bias")->ground.bias_azi_rad), 0.4, 1e-9);
	assert_near(sb_rehearsal_scenario("noisy")->ground.noise_azi_rad /
			sb_rehearsal_scenario("nominal")->ground.noise_azi_rad,
		2.5, 1e-9);
}

static void a_sheet_that_does_not_hold_together_is_refused(void **state)
{
	struct sb_err err = { 0 };

	(void)state;
	job.profile_count = 1;
	truth = sb_rehearsal_new(&job, &exact, 1, false, &err);
	assert_null(truth);
	assert_non_null(strstr(err.text, "profile.csv"));
}

/* ---- a fix ---- */

/* The plain job's entry and exit are equally high: the depth is what the hole has fallen by. */
static void a_fix_scatters_about_the_hole_as_it_says(void **state)
{
	const struct fix_accuracy accuracy = { .level_m = 0.4, .up_m = 0.05, .up_of_depth = 0.02 };
	const int fixes = 2000;
	double across = 0, up = 0, depth = 0;

	(void)state;
	for (int i = 0; i < fixes; i++) {
		struct fix fix;
		double easting, northing, elevation;
		begin(&exact, (unsigned long long)i);
		for (int j = 0; j < 6; j++)
			drill(31 * foot, 0, 0);
		sb_rehearsal_fix(truth, &accuracy, &fix);
		double md = end().md_m - truth->frame.sensor_to_bit_m;
		struct vec3 at = rehearsal_at(truth, md).at;
		sb_frame_grid(&truth->frame, at, &easting, &northing, &elevation);
		depth = truth->stands[0].at.u - at.u;
		across += pow((fix.northing.value - northing) * foot, 2);
		up += pow((fix.elevation.value - elevation) * foot, 2);
		assert_near(fix.depth.value * foot, md, 1e-3);
		assert_near(fix.sigma_across.value * foot, 0.4, 1e-4);
		assert_near(fix.sigma_up.value * foot, 0.02 * depth, 1e-4);
	}
	assert_true(depth > 5 && depth < 15);
	/* Of n squares the mean is the variance give or take its root of 2 / n: four of those. */
	assert_near(across / fixes / (0.4 * 0.4), 1, 4 * sqrt(2.0 / fixes));
	assert_near(up / fixes / pow(0.02 * depth, 2), 1, 4 * sqrt(2.0 / fixes));
	/* Near the surface no better than it can be at all. */
	struct fix fix;
	begin(&exact, 1);
	drill(31 * foot, 0, 0);
	sb_rehearsal_fix(truth, &accuracy, &fix);
	assert_near(fix.sigma_up.value * foot, 0.05, 1e-4);
}

#define T(name) cmocka_unit_test_setup_teardown(name, setup, teardown)
static const struct CMUnitTest tests[] = {
	T(slid_all_through_towards_high_side_is_a_circle_of_the_yield),
	T(slid_level_towards_the_right_is_a_circle_in_plan),
	T(rotating_droops_and_walks_by_the_length),
	T(drift_belongs_to_what_is_rotated_and_turn_to_what_is_slid),
	T(a_slide_at_the_joint_s_start_bends_early),
	T(a_tool_face_error_and_the_sheet_s_offset_turn_the_slide_clockwise),
	T(wander_grows_with_the_root_of_the_length),
	T(zones_scatter_about_the_mean_that_the_informed_are_told),
	T(what_is_drilled_is_what_the_log_says),
	T(a_reading_can_never_pass_for_a_record),
	T(the_sensor_reads_the_hole_behind_the_bit_and_the_entry_until_it_is_in),
	T(readings_have_the_digits_that_the_display_shows),
	T(readings_scatter_and_lean_as_the_ground_says),
	T(steel_pulls_the_azimuth_within_its_reach_alone),
	T(one_seed_gives_the_same_readings_and_another_others),
	T(other_orders_meet_the_same_noise),
	T(shifted_ground_differs_from_bore_to_bore),
	T(pulling_back_leaves_the_hole_that_stays_and_new_noise),
	T(a_fix_scatters_about_the_hole_as_it_says),
	T(a_scenario_is_found_by_its_name),
	T(a_sheet_that_does_not_hold_together_is_refused),
};

int main(void)
{
	return run_tests(tests);
}
