/* The plan among limits: bends already in the ground, obstacles, limits that leave no way and are named, and
 * how far to pull back then.
 */
#include "plan.h"

static double window_feet(double up_rad, double right_rad, double feet)
{
	double turned = hypot(up_rad, right_rad);

	return turned > 0 ? feet / turned : HUGE_VAL;
}

/* ---- bends in the ground ---- */

/* Two joints turned to the right, by so many degrees each, and the sensor at the bit. */
static void turned_right(double degrees)
{
	level_job(NULL);
	jobs_set(&job, "bend", "window_minimum", "900");
	log_course(90, 90);
	log_course(90, 90);
	log_course(90, 90 + degrees);
	log_course(90, 90 + 2 * degrees);
}

/* 93 ft at 900 ft are 5.92 degrees over three joints. After 2.5 and 2.5 to the right, what the next joint may
 * turn is known by hand: to the left as much as it likes, and any turn at all must keep each window of three.
 */
static void windows_count_the_joints_that_are_in_the_ground(void **state)
{
	(void)state;
	turned_right(2.5);
	plan_make();
	assert_true(plan.feasible && plan.count >= 3);
	double before[2] = { sb_rad(2.5), sb_rad(2.5) }; /* to the right, the older one first */
	double up[2] = { 0, 0 };
	for (size_t k = 0; k < plan.count; k++) {
		const struct plan_joint *j = &plan.joints[k];
		double radius =
			window_feet(up[0] + up[1] + j->turn_up, before[0] + before[1] + j->turn_right, 93);
		assert_true(radius >= 900);
		before[0] = before[1];
		before[1] = j->turn_right;
		up[0] = up[1];
		up[1] = j->turn_up;
	}
	assert_true(plan.joints[0].turn_right < 0); /* heading 5 degrees off, it turns back at once */
}

static void by_the_sum_the_joints_in_the_ground_use_up_the_window(void **state)
{
	(void)state;
	turned_right(2.5);
	jobs_set(&job, "bend", "method", "sum");
	plan_make();
	assert_true(plan.feasible);
	/* 5 of 5.92 degrees are used: the next joint has 0.92 for either way. */
	assert_true(turn_size(&plan.joints[0]) <= sb_rad(0.921));
	assert_true(sb_rad(2.5) + turn_size(&plan.joints[0]) + turn_size(&plan.joints[1]) <= 93.0 / 900);
	for (size_t k = 2; k < plan.count; k++)
		assert_true(turn_size(&plan.joints[k]) + turn_size(&plan.joints[k - 1]) +
				turn_size(&plan.joints[k - 2]) <=
			93.0 / 900);
}

/* Windows of 100 ft over joints of 31 ft: three whole ones and 7 of 31 of the fourth. */
static void a_window_by_length_takes_its_share_of_the_joint_it_reaches_into(void **state)
{
	double turns[64] = { 0 };

	(void)state;
	turned_right(2.5);
	jobs_set(&job, "bend", "window_length", "100");
	jobs_set(&job, "bend", "method", "sum");
	plan_make();
	assert_true(plan.feasible && plan.count + 4 <= 64);
	turns[2] = turns[3] = sb_rad(2.5);
	for (size_t k = 0; k < plan.count; k++)
		turns[4 + k] = turn_size(&plan.joints[k]);
	for (size_t k = 4; k < 4 + plan.count; k++)
		assert_true(turns[k] + turns[k - 1] + turns[k - 2] + 7.0 / 31 * turns[k - 3] <=
			100.0 / 900 + 1e-6);
}

/* The largest turn of three joints in a row that the plan makes or leaves in the ground, rad. */
static double sharpest_window(void)
{
	double right[3] = { 0, sb_rad(2.5), sb_rad(2.5) }, up[3] = { 0 }, most = 0;

	for (size_t k = 0; k < plan.count; k++) {
		for (int i = 0; i < 2; i++) {
			right[i] = right[i + 1];
			up[i] = up[i + 1];
		}
		right[2] = plan.joints[k].turn_right;
		up[2] = plan.joints[k].turn_up;
		most = fmax(most, hypot(right[0] + right[1] + right[2], up[0] + up[1] + up[2]));
	}
	return most;
}

/* Turned 5 degrees to the right, the plan turns back as hard as the windows let it: what is not known of the
 * yield is kept free of the limit. A joint of three has a third of the window's turn, so of a yield that is
 * known to a share of itself the 99 % are 2.326 times a third of that share of it. */
static void what_is_not_known_of_the_yield_is_kept_free_of_the_window(void **state)
{
	const double limit = 93.0 / 900;

	(void)state;
	turned_right(2.5);
	jobs_set(&job, "corridor", "right", "9");
	plan_make();
	assert_true(plan.feasible);
	double known = sharpest_window();
	struct setup s = plan_setup();
	solution.response.told = false;
	solution.response.all.scatter = 2.5; /* ground that differs much from stretch to stretch */
	struct ground_ahead next = sb_response_ahead(&solution.response, 15.5 * foot);
	double share = next.yield_sigma / next.yield;
	assert_true(share > 0.15);
	sb_steering_make(&s, &solution.path, &solution.response, &plan);
	assert_true(plan.feasible);
	double unknown = sharpest_window();
	assert_true(known <= limit && unknown * (1 + 2.326 * share / 3) <= limit);
	assert_true(unknown < known - 0.05 * limit);
}

/* ---- obstacles ---- */

static double least_distance(struct vec3 a, struct vec3 b)
{
	struct vec3 at = plan.bit, from = unit_of(&plan.heading);
	struct vec3 along = { b.n - a.n, b.e - a.e, b.u - a.u };
	double square = along.n * along.n + along.e * along.e + along.u * along.u, least = HUGE_VAL;

	for (size_t k = 0; k < plan.count; k++) {
		struct vec3 to = unit_of(&plan.joints[k].target);
		for (double share = 0; share <= 1; share += 0.05) {
			struct vec3 p = walked(at, from, to, plan.joints[k].length_m, share);
			double t = square > 0
				? ((p.n - a.n) * along.n + (p.e - a.e) * along.e + (p.u - a.u) * along.u) /
					square
				: 0;
			t = fmin(fmax(t, 0), 1);
			least = fmin(least,
				sqrt(pow(p.n - a.n - t * along.n, 2) + pow(p.e - a.e - t * along.e, 2) +
					pow(p.u - a.u - t * along.u, 2)));
		}
		at = walked(at, from, to, plan.joints[k].length_m, 1);
		from = to;
	}
	return least / foot;
}

/* 5 ft right of the line, and five joints ahead something 7 ft right of it: 1 ft wide, to be 3.9 ft clear of.
 */
static void the_plan_keeps_clear_of_a_pile(void **state)
{
	(void)state;
	level_job("1800");
	jobs_set(&job, "steering", "slide_turn", "0.06");
	log_beside(5);
	plan_make();
	const struct vec3 pile = { -6.8 * foot, 340 * foot, 100 * foot };
	assert_true(plan.feasible && least_distance(pile, pile) < 4.2);
	jobs_row(&job, "obstacles",
		(const char *const[]){ "pier pile", "pile", "5340", "993.2", "100", "1", "3.9" });
	plan_make();
	assert_true(plan.feasible);
	/* Kept at the joints' ends; between two of them the hole bends by an inch at most. */
	assert_true(least_distance(pile, pile) >= 4.4 - 0.1);
	assert_lands_where_it_says(&plan);
}

/* A main square under the line, 40 ft to either side of it, 5 ft below: only the line between its two rows
 * comes near. The bore is 2 ft low and must keep 3.6 ft from its middle: 1.4 ft low at most. */
static void the_plan_keeps_clear_of_a_line_that_crosses_under_it(void **state)
{
	const struct vec3 left = { 40 * foot, 218 * foot, 95 * foot },
			  right = { -40 * foot, 218 * foot, 95 * foot };

	(void)state;
	level_job("1800");
	jobs_set(&job, "steering", "slide_turn", "0.06");
	log_course(90, 90);
	log_course(90 - sb_deg(2.0 / 31), 90); /* down, and level again */
	for (int i = 0; i < 3; i++)
		log_course(90, 90);
	plan_make();
	assert_near(plan.bit.u / foot, 98, 0.1);
	assert_true(plan.feasible && least_distance(left, right) < 3.5);
	jobs_row(&job, "obstacles",
		(const char *const[]){ "water main", "main", "5218", "1040", "95", "1", "3.1" });
	jobs_row(&job, "obstacles",
		(const char *const[]){ "water main", "main", "5218", "960", "95", "1", "3.1" });
	plan_make();
	assert_true(plan.feasible);
	assert_true(least_distance(left, right) >= 3.6 - 0.05);
}

/* ---- no way ---- */

static void assert_no_way(enum steer_limit limit)
{
	char wanted[128];

	assert_true(plan.known && !plan.feasible);
	if (plan.limit != limit)
		assert_int_equal(plan.limit, limit);
	assert_true(plan.short_by > 0 && plan.limit_joint > sb_job_in_ground(&job));
	assert_int_equal(plan.rejoins_at_joint, 0);
	snprintf(wanted, sizeof wanted,
		"There is no way back inside every limit: %s stands in it at joint %d, short by %.0f %%.",
		sb_steering_limit_word(limit), plan.limit_joint, plan.short_by * 100);
	assert_string_equal(plan.words, wanted);
}

/* Limits that contradict one another: the design's own curves bend at 1200 ft. */
static void a_bend_limit_that_the_design_itself_breaks_is_named(void **state)
{
	static const struct {
		const char *section, *key;
		enum steer_limit limit;
	} limits[] = {
		{ "bend", "joint_minimum", STEER_LIMIT_JOINT },
		{ "bend", "window_minimum", STEER_LIMIT_WINDOW },
		{ "drill_pipe", "minimum_radius", STEER_LIMIT_JOINT },
	};

	(void)state;
	for (size_t i = 0; i < sizeof limits / sizeof *limits; i++) {
		jobs_plain(&job);
		jobs_set(&job, "steering", "slide_turn", "0.15");
		jobs_follow(&job, 7);
		jobs_set(&job, limits[i].section, limits[i].key, "2000");
		plan_make();
		assert_no_way(limits[i].limit);
		plan_end(state);
	}
}

static void ground_that_cannot_turn_the_design_s_curve_is_named(void **state)
{
	(void)state;
	jobs_plain(&job);
	jobs_set(&job, "steering", "slide_turn", "0.02"); /* 31 ft bring 0.62 degrees, the curve needs 1.48 */
	jobs_follow(&job, 7);
	plan_make();
	assert_no_way(STEER_LIMIT_SLIDE);
}

/* Heading 7 degrees to the right, 1 ft right of the line, no tighter than 1800 ft: to head along it again
 * takes 1800 (1 - cos 7), 13.4 ft more; the corridor has 5. */
static void log_off_line(int joints)
{
	jobs_plain(&job);
	jobs_set(&job, "steering", "slide_turn", "0.15");
	jobs_set(&job, "tool", "sigma_inclination", "0.001");
	jobs_set(&job, "tool", "sigma_azimuth", "0.001");
	jobs_set(&job, "bend", "joint_minimum", "1150"); /* no tighter than the design, nearly */
	jobs_set(&job, "bend", "window_minimum", "1150");
	jobs_follow(&job, joints < 15 ? joints : 15); /* past the first curve: level */
	for (int i = 1; i <= joints - 15; i++)
		log_course(90, 90 + 1.4 * i);
}

static void a_heading_that_the_corridor_has_no_room_for_is_named_with_the_best_that_can_be_done(void **state)
{
	(void)state;
	log_off_line(20);
	plan_make();
	assert_true(plan.known && !plan.feasible);
	/* More room or tighter bends: either would do, and the one that is short by less is named. */
	assert_true(plan.limit == STEER_LIMIT_CORRIDOR || plan.limit == STEER_LIMIT_JOINT ||
		plan.limit == STEER_LIMIT_WINDOW);
	assert_true(plan.short_by > 0.1);
	/* The bore goes on all the same: what is best, laid as any plan. */
	assert_true(plan.count > 0 && plan.joints[0].turn_right < 0);
	assert_lands_where_it_says(&plan);
	/* It leaves the corridor before it bends tighter than it may. */
	for (size_t k = 0; k < plan.count; k++)
		assert_true(turn_size(&plan.joints[k]) <= 31.0 / 1150 * 1.001);
}

/* ---- pulling back ---- */

static void the_fewest_joints_are_pulled_back_as_looking_at_every_smaller_number_shows(void **state)
{
	struct withdrawal w;
	struct setup s = plan_setup();

	(void)state;
	log_off_line(20);
	plan_make();
	assert_false(plan.feasible);
	sb_steering_withdraw(&s, &solution.path, &solution.response, &w);
	assert_true(w.joints >= 2 && w.joints < 12);
	assert_int_equal(w.to_joint, 20 - w.joints);
	assert_true(w.plan.known && w.plan.feasible);
	assert_int_equal(w.plan.joints[0].joint, w.to_joint + 1);
	assert_lands_where_it_says(&w.plan);
	for (int back = 0; back <= w.joints; back++) { /* a log that ends there has a plan, or has none */
		plan_end(state);
		log_off_line(20 - back);
		plan_make();
		assert_true(plan.feasible == (back == w.joints));
	}
}

/* Outside from the first joint on, with hardly any bend allowed: no place of the bore is a better one. */
static void where_pulling_back_does_not_help_none_is_named(void **state)
{
	struct withdrawal w;
	struct setup s = plan_setup();

	(void)state;
	level_job("1200");
	jobs_set(&job, "corridor", "right", "0.01");
	jobs_set(&job, "corridor", "left", "0.01");
	log_course(90, 93);
	log_course(90, 96);
	jobs_set(&job, "bend", "joint_minimum", "100000");
	plan_make();
	assert_false(plan.feasible);
	sb_steering_withdraw(&s, &solution.path, &solution.response, &w);
	assert_int_equal(w.joints, 0);
	assert_false(w.plan.feasible);
}

int main(void)
{
#define TEST(name) cmocka_unit_test_setup_teardown(name, plan_begin, plan_end)
	const struct CMUnitTest tests[] = {
		TEST(windows_count_the_joints_that_are_in_the_ground),
		TEST(by_the_sum_the_joints_in_the_ground_use_up_the_window),
		TEST(a_window_by_length_takes_its_share_of_the_joint_it_reaches_into),
		TEST(what_is_not_known_of_the_yield_is_kept_free_of_the_window),
		TEST(the_plan_keeps_clear_of_a_pile),
		TEST(the_plan_keeps_clear_of_a_line_that_crosses_under_it),
		TEST(a_bend_limit_that_the_design_itself_breaks_is_named),
		TEST(ground_that_cannot_turn_the_design_s_curve_is_named),
		TEST(a_heading_that_the_corridor_has_no_room_for_is_named_with_the_best_that_can_be_done),
		TEST(where_pulling_back_does_not_help_none_is_named),
		TEST(the_fewest_joints_are_pulled_back_as_looking_at_every_smaller_number_shows),
	};

	return run_tests(tests);
}
