/* The plan where there is a way: how soon it is back, where it lands, what it counts, near the exit and past
 * it, with one joint, with a hand's own order.
 */
#include "plan.h"

/* ---- back to the line ---- */

/* Two equal arcs of radius R bring a bore from y beside its line back onto it and tangent to it in
 * 2 sqrt(R y - y^2/4); no path that bends no tighter is shorter. (Derived: plane geometry.) */
static double two_arcs(double radius, double y)
{
	return 2 * sqrt(radius * y - y * y / 4);
}

static const struct recovery {
	double radius, y, distance; /* ft; to the nearest foot (computed for this project) */
} recoveries[] = {
	{ 3600, 2, 170 },
	{ 3600, 5, 268 },
	{ 3600, 10, 379 },
	{ 1200, 2, 98 },
	{ 1200, 5, 155 },
	{ 1200, 10, 219 },
};

/* From the bit, in feet, to the end of the first joint of the plan that is within half a foot of the line and
 * heads along it but for what is left too short to be slid: 0.08 of 31 ft at 0.06 degrees a foot. */
static double back_after(void)
{
	double length = 0;

	for (size_t k = 0; k < plan.count; k++) {
		const struct plan_joint *j = &plan.joints[k];
		length += j->length_m / foot;
		if (fabs(j->deviation.offset_m) < 0.5 * foot &&
			fabs(j->target.azi_rad - SB_PI / 2) <= sb_rad(0.15))
			return length;
	}
	fail_msg("the plan does not get back");
	return 0;
}

static double tightest_radius(void)
{
	double most = 0;

	for (size_t k = 0; k < plan.count; k++)
		most = fmax(most, turn_size(&plan.joints[k]) / plan.joints[k].length_m);
	return 1 / most / foot;
}

/* The plan leaves a share of the bend limit free, takes half as long again as it could, and ends with a
 * joint: so it is later than two arcs of the limit, and it is no later than this says. It never bends tighter
 * than the limit, and is never sooner than its own tightest bend allows. How few joints can do it at all is
 * in tests/geom/steer_search_test.c. */
static void back_on_the_line_no_sooner_than_two_equal_arcs_and_not_much_later(void **state)
{
	(void)state;
	for (size_t i = 0; i < sizeof recoveries / sizeof *recoveries; i++) {
		const struct recovery *r = &recoveries[i];
		char radius[16];
		assert_near(two_arcs(r->radius, r->y), r->distance, 0.5);
		snprintf(radius, sizeof radius, "%.0f", r->radius);
		level_job(radius);
		jobs_set(&job, "steering", "slide_turn", "0.06");
		log_beside(r->y);
		plan_make();
		assert_true(plan.known && plan.feasible && !plan.for_exit && plan.rejoins_at_joint > 0);
		assert_near(plan.joints[0].deviation.offset_m / foot, r->y, 0.6);
		double back = back_after();
		assert_true(tightest_radius() >= r->radius);
		/* Half a foot and the last joint are what it may be sooner by. */
		assert_true(back >= two_arcs(tightest_radius(), r->y - 0.5) - 31);
		assert_true(back >= two_arcs(r->radius, r->y - 0.5) - 31);
		assert_true(back <= 1.5 * two_arcs(r->radius / 0.7, r->y) + 5 * 31);
		plan_end(state);
	}
}

/* In ground that answers strongly the slides that it would take are too short to orient the tool for. */
static void what_is_too_little_to_steer_for_is_held_and_said(void **state)
{
	(void)state;
	level_job("3600");
	jobs_set(&job, "steering", "slide_turn", "0.5");
	log_beside(1);
	plan_make();
	assert_true(plan.feasible && plan.rejoins_at_joint == 0);
	assert_near(plan.joints[0].slid_m, 0, 0);
	assert_string_equal(
		plan.words, "Hold: the bit is 0.0 ft high and 1.0 ft right; too little to steer for.");
}

static void a_bore_on_its_line_is_left_alone(void **state)
{
	(void)state;
	level_job("1200");
	for (int i = 0; i < 4; i++)
		log_course(90, 90);
	plan_make();
	assert_true(plan.feasible);
	for (size_t k = 0; k < plan.count; k++) {
		assert_near(plan.joints[k].slid_m, 0, 0);
		assert_true(isnan(plan.joints[k].tool_face_rad));
	}
	assert_string_equal(plan.words, "The bit is on the line: hold it there.");
}

static double slid_in_all(void)
{
	double sum = 0;

	for (size_t k = 0; k < plan.count; k++)
		sum += plan.joints[k].slid_m;
	return sum;
}

/* What the readings share is what a place is unsure by. */
static void share_error(const char *degrees)
{
	static const char *const none[] = { "declination", "declination_by_field", "string_field" };

	for (size_t i = 0; i < sizeof none / sizeof *none; i++)
		jobs_set(&job, "uncertainty", none[i], "0");
	jobs_set(&job, "tool", "bias_inclination", degrees);
	jobs_set(&job, "tool", "bias_azimuth", degrees);
}

static void beside(double feet, const char *shared_error)
{
	level_job("1200");
	jobs_set(&job, "steering", "slide_turn", "0.01");
	share_error(shared_error);
	log_beside(feet);
	plan_make();
	assert_true(plan.feasible);
}

/* A quarter of a foot beside the line: who knows that goes back, who may as well be on it does not. A foot
 * beside it, everybody does. */
static void what_is_off_by_less_than_is_known_is_not_steered_for(void **state)
{
	(void)state;
	beside(0.25, "0");
	assert_true(slid_in_all() > 0);
	assert_true(fabs(plan.joints[plan.count - 1].deviation.offset_m) < 0.1 * foot);
	plan_end(state);
	beside(0.25, "0.5");
	assert_near(slid_in_all(), 0, 0);
	plan_end(state);
	beside(1, "0.5");
	assert_true(slid_in_all() > 0);
}

static void left_and_right_high_and_low_are_alike(void **state)
{
	double slid[2];

	(void)state;
	for (int side = 0; side < 2; side++) {
		level_job("1200");
		log_beside(side ? -5 : 5);
		plan_make();
		slid[side] = 0;
		for (size_t k = 0; k < plan.count; k++)
			slid[side] += plan.joints[k].slid_m;
		/* Right of the line the first slide is at nine o'clock, left of it at three. */
		assert_near(sb_deg(plan.joints[0].tool_face_rad), side ? 90 : 270, 1);
		plan_end(state);
	}
	assert_near(slid[0], slid[1], 0.05);
	level_job("1200");
	log_course(90 - sb_deg(3.0 / 31), 90); /* down, in this convention: less than level */
	for (int i = 0; i < 4; i++)
		log_course(90, 90);
	plan_make();
	assert_true(plan.feasible && plan.bit.u < 100 * foot);
	assert_near(cos(plan.joints[0].tool_face_rad), 1, 1e-3); /* twelve o'clock */
}

/* ---- where it lands ---- */

static void the_plan_lands_where_its_joints_say(void **state)
{
	(void)state;
	level_job("1200");
	log_beside(5);
	plan_make();
	assert_lands_where_it_says(&plan);
	for (size_t k = 0; k < plan.count; k++) { /* beside a line due east at the entry's northing */
		const struct plan_joint *j = &plan.joints[k];
		assert_near(j->deviation.offset_m, -j->at.n, 1e-9);
		assert_near(j->deviation.height_m, j->at.u - 100 * foot, 1e-9);
		assert_near(j->deviation.station_m, j->at.e, 1e-9);
	}
	plan_end(state);
	jobs_plain(&job); /* through the curve of the plain job */
	jobs_set(&job, "steering", "slide_turn", "0.15");
	jobs_follow(&job, 7);
	plan_make();
	assert_true(plan.feasible && plan.count > 3);
	assert_lands_where_it_says(&plan);
}

/* The orders alone, through the ground as it answers: slid at the tool face that is shown, the rest drifts.
 */
static void every_order_brings_the_turn_that_the_plan_counts_on(void **state)
{
	(void)state;
	level_job("1200");
	jobs_set(&job, "steering", "droop", "0.004");
	jobs_set(&job, "tool", "tool_face_offset", "25");
	log_beside(5);
	jobs_solve(&job, &solution);
	struct setup s = plan_setup();
	struct response *r = &solution.response;
	r->face_error_rad = sb_rad(12);
	r->drift_right = sb_rad(0.002) / foot;
	sb_response_tell(r);
	sb_steering_make(&s, &solution.path, r, &plan);
	assert_true(plan.feasible);
	struct attitude before = plan.heading;
	for (size_t k = 0; k < plan.count; k++) {
		const struct plan_joint *j = &plan.joints[k];
		double face = j->slid_m > 0 ? j->tool_face_rad + sb_rad(25 + 12) : 0,
		       rest = j->length_m - j->slid_m;
		double up = sb_rad(0.2) / foot * j->slid_m * cos(face) - sb_rad(0.004) / foot * rest;
		double right = sb_rad(0.2) / foot * j->slid_m * sin(face) + sb_rad(0.002) / foot * rest;
		assert_near(j->turn_up, up, 1e-9);
		assert_near(j->turn_right, right, 1e-9);
		assert_near(j->target.inc_rad - before.inc_rad, up, 1e-9);
		assert_near((j->target.azi_rad - before.azi_rad) * sin(before.inc_rad + up / 2), right, 1e-9);
		before = j->target;
	}
}

static void joints_follow_one_another_at_their_tally_length(void **state)
{
	(void)state;
	level_job("1200");
	jobs_row(&job, "tally", (const char *const[]){ "9", "29.40" });
	log_beside(2);
	plan_make();
	assert_int_equal(plan.joints[0].joint, 7);
	for (size_t k = 0; k < plan.count; k++) {
		assert_int_equal(plan.joints[k].joint, 7 + (int)k);
		assert_near(plan.joints[k].length_m / foot, k == 2 ? 29.40 : 31, 1e-9);
	}
}

/* ---- near the exit, at the entry, past it ---- */

/* Where the plan's last joint meets the exit's elevation: feet past the exit point, and feet right. */
static bool comes_out(double *past, double *right)
{
	struct vec3 at = plan.bit, from = unit_of(&plan.heading), place = at;

	for (size_t k = 0; k < plan.count; k++) {
		const struct plan_joint *j = &plan.joints[k];
		struct vec3 to = unit_of(&j->target);
		for (double share = 0; share <= 2; share += 0.005) { /* on past the last, as it heads there */
			if (share > 1 && k + 1 < plan.count)
				break;
			place = walked(at, from, to, j->length_m, share);
			if (place.u >= 100 * foot && place.e > 600 * foot) {
				*past = place.e / foot - 1200;
				*right = -place.n / foot;
				return true;
			}
		}
		at = walked(at, from, to, j->length_m, 1);
		from = to;
	}
	return false;
}

static void near_the_exit_its_window_is_the_target(void **state)
{
	double past = NAN, right = NAN;

	(void)state;
	jobs_plain(&job);
	jobs_set(&job, "steering", "slide_turn", "0.15");
	jobs_follow(&job, 33);
	log_course(100, 90.8); /* to the right, and still turning as the design does */
	log_course(100, 91.0);
	plan_make();
	assert_true(plan.known && plan.feasible && plan.for_exit);
	assert_int_equal(plan.rejoins_at_joint, 0);
	assert_true(comes_out(&past, &right));
	assert_true(past > -10 && past < 30 && fabs(right) < 10);
	assert_string_equal(plan.words, "The exit is 4 joints ahead: the plan goes for its window.");
	assert_lands_where_it_says(&plan);
}

/* Along the design to 3 joints from the exit, with readings of no noise and such a bias of the inclination.
 * Returned: feet past the exit point where the plan comes out. */
static double comes_out_past(const char *bias, const char *exit_long)
{
	double past = NAN, right = NAN;

	sb_job_clear(&job);
	sb_solution_clear(&solution);
	memset(&job, 0, sizeof job);
	jobs_plain(&job);
	jobs_set(&job, "steering", "slide_turn", "0.15");
	jobs_set(&job, "tool", "sigma_inclination", "0.001");
	jobs_set(&job, "tool", "bias_inclination", bias);
	jobs_set(&job, "corridor", "exit_long", exit_long);
	jobs_set(&job, "corridor", "up", "6");
	jobs_set(&job, "corridor", "down", "6");
	jobs_follow(&job, 36);
	plan_make();
	assert_true(plan.known && plan.feasible && plan.for_exit);
	assert_true(comes_out(&past, &right));
	return past;
}

/* The window leaves 10 ft short of the exit and 30 ft past it: its middle is 10 ft past. The target is a
 * tenth of the window, 2 ft to either side, and a slide too short to be made is left out. (Derived.) */
static void who_is_unsure_of_the_height_comes_out_in_the_middle_of_the_window_and_who_is_sure_on_the_line(
	void **state)
{
	(void)state;
	assert_near(comes_out_past("0", "30"), 0, 3);
	assert_near(comes_out_past("0.5", "30"), 10, 3);
	assert_near(
		comes_out_past("0.5", "10"), 0, 3); /* as much on either side: nothing to move away from */
}

static void with_one_joint_left_there_is_still_a_plan(void **state)
{
	(void)state;
	jobs_plain(&job);
	jobs_set(&job, "steering", "slide_turn", "0.15");
	jobs_follow(&job, 38);
	plan_make();
	assert_true(plan.known && plan.feasible && plan.for_exit);
	assert_int_equal(plan.count, 1);
	assert_int_equal(plan.joints[0].joint, 39);
}

static void past_the_exit_there_is_nothing_to_plan(void **state)
{
	struct setup s = plan_setup();

	(void)state;
	jobs_plain(&job);
	jobs_follow(&job, 39);
	log_course(100, 90);
	plan_make();
	assert_false(plan.known);
	assert_false(plan.feasible);
	assert_int_equal(plan.count, 0);
	sb_steering_try(&s, &solution.path, &solution.response,
		&(struct own_plan){ .order = true, .tool_face_rad = 0, .slid_m = 1 }, &plan);
	assert_false(plan.known);
}

static void before_the_first_joint_and_after_one_the_plan_starts_from_the_staked_entry(void **state)
{
	(void)state;
	jobs_plain(&job);
	plan_make();
	assert_true(plan.known && plan.feasible);
	assert_int_equal(plan.joints[0].joint, 1);
	assert_near(sb_deg(plan.heading.inc_rad), 80, 1e-9);
	assert_near(plan.bit.u, 100 * foot, 1e-9);
	assert_lands_where_it_says(&plan);
	jobs_follow(&job, 1);
	plan_make();
	assert_true(plan.known && plan.feasible);
	assert_int_equal(plan.joints[0].joint, 2);
	assert_lands_where_it_says(&plan);
}

/* ---- what the log lacks ---- */

static void a_log_without_tool_faces_is_planned_with_the_guess(void **state)
{
	(void)state;
	jobs_plain(&job);
	jobs_set(&job, "steering", "slide_turn", "0.12");
	jobs_follow(&job, 10);
	struct setup s = plan_setup();
	jobs_solve(&job, &solution);
	assert_int_equal(solution.response.slides, 0);
	assert_near(solution.response.yield, sb_rad(0.12) / foot, 1e-12);
	sb_steering_make(&s, &solution.path, &solution.response, &plan);
	assert_true(plan.known && plan.feasible);
	bool slides = false;
	for (size_t k = 0; k < plan.count; k++)
		slides = slides || plan.joints[k].slid_m > 0;
	assert_true(slides); /* the design's curve has to be turned */
	assert_lands_where_it_says(&plan);
}

/* ---- a hand's own order ---- */

static void an_order_of_one_s_own_is_laid_as_it_is_and_the_plan_goes_on_from_its_end(void **state)
{
	struct setup s = plan_setup();

	(void)state;
	level_job("1200");
	jobs_set(&job, "tool", "tool_face_offset", "30");
	log_beside(5);
	plan_solve();
	/* 5 ft at 240 as shown are 5 ft at 270: one degree to the left, and not a trace up. */
	sb_steering_try(&s, &solution.path, &solution.response,
		&(struct own_plan){ .order = true, .tool_face_rad = sb_rad(240), .slid_m = 5 * foot }, &plan);
	assert_true(plan.known && plan.feasible);
	const struct plan_joint *first = &plan.joints[0];
	assert_int_equal(first->joint, 7);
	assert_int_equal(plan.joints[1].joint, 8);
	assert_near(first->slid_m / foot, 5, 1e-9);
	assert_near(sb_deg(first->tool_face_rad), 240, 1e-9);
	assert_near(sb_deg(first->turn_right), -1, 1e-6);
	assert_near(sb_deg(first->turn_up), 0, 1e-6);
	assert_near(sb_deg(first->target.azi_rad), 89, 1e-3);
	/* An arc of one degree over 31 ft swings out 31 tan 0.5 degrees: 0.271 ft. */
	assert_near(first->deviation.offset_m / foot, 5 - 0.271, 5e-3);
	struct vec3 at = first->at, from = unit_of(&first->target);
	for (size_t k = 1; k < plan.count; k++) {
		at = walked(at, from, unit_of(&plan.joints[k].target), plan.joints[k].length_m, 1);
		from = unit_of(&plan.joints[k].target);
		assert_near(at.n, plan.joints[k].at.n, 1e-6);
		assert_near(at.e, plan.joints[k].at.e, 1e-6);
	}
}

static void an_order_longer_than_the_joint_slides_all_of_it(void **state)
{
	struct setup s = plan_setup();

	(void)state;
	level_job("300");
	log_beside(2);
	plan_solve();
	sb_steering_try(&s, &solution.path, &solution.response,
		&(struct own_plan){ .order = true, .tool_face_rad = sb_rad(270), .slid_m = 100 * foot },
		&plan);
	assert_near(plan.joints[0].slid_m / foot, 31, 1e-9);
	sb_steering_try(&s, &solution.path, &solution.response,
		&(struct own_plan){ .order = true, .tool_face_rad = sb_rad(270), .slid_m = -5 }, &plan);
	assert_near(plan.joints[0].slid_m, 0, 0);
}

/* 31 ft at a fifth of a degree a foot are 6.2 degrees: 286 ft of radius, where 1200 is the least. */
static void an_order_that_goes_past_a_limit_is_said_to(void **state)
{
	struct setup s = plan_setup();

	(void)state;
	level_job("1200");
	log_beside(5);
	plan_solve();
	sb_steering_try(&s, &solution.path, &solution.response,
		&(struct own_plan){ .order = true, .tool_face_rad = sb_rad(270), .slid_m = 31 * foot },
		&plan);
	assert_true(plan.known && !plan.feasible);
	assert_int_equal(plan.limit, STEER_LIMIT_JOINT);
	assert_int_equal(plan.limit_joint, 7);
	assert_near(plan.short_by, 1200 * sb_rad(6.2) / 31 - 1, 1e-6);
	assert_string_equal(plan.words,
		"This order goes past a limit: the bend limit of one joint, at joint 7, by 319 %.");
	assert_lands_where_it_says(&plan); /* from the bit, the order's joint first */
}

static void the_last_joint_of_a_bore_can_be_tried_too(void **state)
{
	struct setup s = plan_setup();

	(void)state;
	jobs_plain(&job);
	jobs_set(&job, "steering", "slide_turn", "0.15");
	jobs_follow(&job, 38);
	plan_make();
	assert_true(plan.known && plan.count == 1);
	sb_steering_try(&s, &solution.path, &solution.response,
		&(struct own_plan){ .order = true, .tool_face_rad = 0, .slid_m = 0 }, &plan);
	assert_true(plan.known && plan.feasible && plan.for_exit);
	assert_int_equal(plan.count, 1);
	assert_string_equal(plan.words, "This joint comes to the exit.");
}

static void the_plan_s_own_first_order_tried_by_hand_is_that_joint_again(void **state)
{
	struct setup s = plan_setup();
	struct plan tried;

	(void)state;
	level_job("1200");
	log_beside(5);
	plan_make();
	const struct plan_joint *j = &plan.joints[0];
	sb_steering_try(&s, &solution.path, &solution.response,
		&(struct own_plan){ .order = true, .tool_face_rad = j->tool_face_rad, .slid_m = j->slid_m },
		&tried);
	assert_true(tried.feasible);
	assert_near(tried.joints[0].at.n, j->at.n, 1e-6);
	assert_near(tried.joints[0].at.e, j->at.e, 1e-6);
	assert_near(tried.joints[0].target.azi_rad, j->target.azi_rad, 1e-9);
}

/* ---- a joint of one's own to be back by ---- */

static void aim_for(int joint)
{
	struct setup s = plan_setup();

	sb_steering_try(
		&s, &solution.path, &solution.response, &(struct own_plan){ .back_at = joint }, &plan);
}

/* The plan is on the line by that joint, and a later joint takes no more sliding. */
static void a_joint_of_one_s_own_is_when_it_is_back(void **state)
{
	double before = HUGE_VAL;

	(void)state;
	level_job("1200");
	jobs_set(&job, "steering", "slide_turn", "0.06");
	log_beside(5);
	plan_solve();
	for (int joint = 14; joint <= 26; joint += 4) {
		aim_for(joint);
		assert_true(plan.feasible && plan.rejoins_at_joint > 0 && plan.rejoins_at_joint <= joint);
		assert_true(fabs(plan.joints[joint - 7].deviation.offset_m) < 0.5 * foot);
		assert_true(slid_in_all() <= before + 0.1);
		before = slid_in_all();
		assert_lands_where_it_says(&plan);
	}
}

/* Two equal arcs of 1200 ft from 5 ft beside the line take 155 ft: five joints of 31 ft, and one more for
 * what a plan leaves free of the limit. Sooner cannot be, and the soonest that is said is what trying every
 * joint in turn finds. */
static void a_joint_too_soon_is_said_to_be_and_the_soonest_is_named(void **state)
{
	char wanted[64];
	int soonest = 7;

	(void)state;
	level_job("1200");
	jobs_set(&job, "steering", "slide_turn", "0.2");
	log_beside(5);
	plan_solve();
	for (bool made = false; !made; soonest += !made) {
		aim_for(soonest);
		made = strstr(plan.words, "soonest") == NULL;
		assert_true(plan.feasible && soonest < 20);
	}
	assert_true(soonest >= 6 + 5 && soonest <= 6 + 7);
	snprintf(wanted, sizeof wanted, "Joint %d is the soonest.", soonest);
	aim_for(8);
	assert_non_null(
		strstr(plan.words, "Not on the line by joint 8: the bend limit of one joint stands in it"));
	assert_non_null(strstr(plan.words, wanted));
	assert_true(plan.feasible && plan.rejoins_at_joint <= soonest);
	/* The same after an order of one's own. */
	struct setup s = plan_setup();
	sb_steering_try(&s, &solution.path, &solution.response,
		&(struct own_plan){ .order = true, .back_at = 8 }, &plan);
	assert_int_equal(plan.joints[0].joint, 7);
	assert_near(plan.joints[0].slid_m, 0, 0);
	assert_non_null(strstr(plan.words, "Not on the line by joint 8"));
}

static void a_joint_behind_or_past_the_exit_is_no_aim_and_the_plan_is_the_program_s(void **state)
{
	struct plan own;

	(void)state;
	level_job("1200");
	log_beside(2);
	plan_make();
	own = plan;
	aim_for(6);
	assert_string_equal(plan.words, "Joint 6 is not ahead any more; the plan is the program's.");
	assert_int_equal(plan.count, own.count);
	assert_near(plan.joints[0].slid_m, own.joints[0].slid_m, 1e-12);
	aim_for(47);
	assert_string_equal(plan.words,
		"Joint 47 is past joint 46, the last that is planned; the plan is the program's.");
	jobs_follow(&job, 70);
	plan_solve();
	aim_for(200);
	assert_non_null(strstr(plan.words, "before joint 200; the plan is the program's."));
	assert_true(plan.feasible);
	/* By the exit itself: its window is the target. */
	int last = 0;
	sscanf(plan.words, "The bore comes out with joint %d", &last);
	assert_true(last > sb_job_in_ground(&job));
	aim_for(last);
	assert_true(plan.feasible && plan.for_exit && strstr(plan.words, "exit") != NULL);
}

int main(void)
{
#define TEST(name) cmocka_unit_test_setup_teardown(name, plan_begin, plan_end)
	const struct CMUnitTest tests[] = {
		TEST(back_on_the_line_no_sooner_than_two_equal_arcs_and_not_much_later),
		TEST(what_is_too_little_to_steer_for_is_held_and_said),
		TEST(a_bore_on_its_line_is_left_alone),
		TEST(what_is_off_by_less_than_is_known_is_not_steered_for),
		TEST(left_and_right_high_and_low_are_alike),
		TEST(the_plan_lands_where_its_joints_say),
		TEST(every_order_brings_the_turn_that_the_plan_counts_on),
		TEST(joints_follow_one_another_at_their_tally_length),
		TEST(near_the_exit_its_window_is_the_target),
		TEST(who_is_unsure_of_the_height_comes_out_in_the_middle_of_the_window_and_who_is_sure_on_the_line),
		TEST(with_one_joint_left_there_is_still_a_plan),
		TEST(past_the_exit_there_is_nothing_to_plan),
		TEST(before_the_first_joint_and_after_one_the_plan_starts_from_the_staked_entry),
		TEST(a_log_without_tool_faces_is_planned_with_the_guess),
		TEST(an_order_of_one_s_own_is_laid_as_it_is_and_the_plan_goes_on_from_its_end),
		TEST(an_order_longer_than_the_joint_slides_all_of_it),
		TEST(an_order_that_goes_past_a_limit_is_said_to),
		TEST(the_last_joint_of_a_bore_can_be_tried_too),
		TEST(a_joint_of_one_s_own_is_when_it_is_back),
		TEST(a_joint_too_soon_is_said_to_be_and_the_soonest_is_named),
		TEST(a_joint_behind_or_past_the_exit_is_no_aim_and_the_plan_is_the_program_s),
		TEST(the_plan_s_own_first_order_tried_by_hand_is_that_joint_again),
	};

	return run_tests(tests);
}
