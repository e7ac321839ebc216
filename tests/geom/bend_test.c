/* Radius, its noise, and how much turn is left. */
#include "course.h"
#include "random.h"

#include "geom/bend.h"

static void a_straight_has_no_end_of_a_radius(void **state)
{
	(void)state;
	assert_true(sb_bend_radius(30, 0) == HUGE_VAL);
	assert_true(sb_bend_radius(0, 0) == HUGE_VAL);
	assert_true(sb_bend_radius(0, 0.1) == 0);
	assert_near(sb_bend_radius(31, 31 / 2400.0), 2400, 1e-12);
}

/* A district-heating pipe maker's page on 12 m bars. Printed, coarsely rounded: 690 345 230 140 98 86 76 69
 * 34 23.2 17.2; held to 2 percent, and to the recomputed figures in their digits. */
static void a_deflection_gives_its_radius(void **state)
{
	static const double table[][3] = { { 1, 690, 687.5 }, { 2, 345, 343.8 }, { 3, 230, 229.2 },
		{ 5, 140, 137.5 }, { 7, 98, 98.2 }, { 8, 86, 85.9 }, { 9, 76, 76.4 }, { 10, 69, 68.8 },
		{ 20, 34, 34.4 }, { 30, 23.2, 22.9 }, { 40, 17.2, 17.2 } };

	(void)state;
	for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
		double radius = sb_bend_radius(12, sb_rad(table[i][0]));
		assert_near(radius / table[i][1], 1, 0.02);
		assert_near(radius, table[i][2], 0.051);
	}
}

/* Derived, no publication. */
static void a_joint_turns_its_length_over_the_radius(void **state)
{
	struct arc arc = course_of(88, 40, 88.5, 40, 9.6);

	(void)state;
	assert_near(sb_bend_radius(9.6, arc.dogleg_rad), 1100.08, 5e-3);
	assert_near(sb_bend_radius(31.5, course_of(88, 40, 88.7520, 40, 31.5).dogleg_rad), 2400, 0.5);
}

/* Derived, no publication: 0.9 up, 0.9 down, 0.9 up over 93 ft. */
static void an_s_bend_hides_between_its_ends(void **state)
{
	struct attitude a = attitude_of(88, 0), b = attitude_of(88.9, 0);
	double joint = sb_arc_dogleg(&a, &b);

	(void)state;
	assert_near(sb_bend_radius(93, joint), 5921, 0.5);
	assert_near(sb_bend_radius(93, 3 * joint), 1974, 0.5);
}

/* What the angle between two noisy readings really scatters by. */
static double sampled_noise(
	struct random *r, const struct attitude *from, const struct attitude *to, double inc, double azi)
{
	enum { SAMPLES = 40000 };
	double sum = 0, squares = 0, about = sb_arc_dogleg(from, to);

	for (int i = 0; i < SAMPLES; i++) {
		struct attitude a = sb_attitude(
			from->inc_rad + inc * random_normal(r), from->azi_rad + azi * random_normal(r));
		struct attitude b = sb_attitude(
			to->inc_rad + inc * random_normal(r), to->azi_rad + azi * random_normal(r));
		double d = sb_arc_dogleg(&a, &b) - about;
		sum += d;
		squares += d * d;
	}
	return sqrt(squares / SAMPLES - sum / SAMPLES * (sum / SAMPLES));
}

/* 40,000 samples scatter by 0.35 percent, one sigma. */
static void noise_is_what_the_samples_scatter_by(void **state)
{
	static const struct {
		double i1, a1, i2, a2, sigma_inc, sigma_azi;
	} table[] = {
		{ 85, 40, 88, 40, 0.1, 0.3 },	/* up */
		{ 88, 40, 85, 40, 0.1, 0.3 },	/* down */
		{ 85, 40, 85, 45, 0.1, 0.3 },	/* aside */
		{ 85, 40, 88, 43, 0.1, 0.3 },	/* both */
		{ 92, 359, 95, 1, 0.3, 0.1 },	/* over north, past level, inclination the worse */
		{ 85, 40, 86, 40, 0.05, 0.05 }, /* alike */
		{ 30, 40, 35, 80, 0.1, 0.3 },	/* steep, where the meridians run together */
		{ 5, 40, 6, 90, 0.1, 0.5 },	/* nearly straight down */
		{ 60, 10, 120, 150, 0.2, 0.4 }, /* nearly back */
	};
	struct random r = { 41 };

	(void)state;
	for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
		struct attitude from = attitude_of(table[i].i1, table[i].a1),
				to = attitude_of(table[i].i2, table[i].a2);
		double inc = sb_rad(table[i].sigma_inc), azi = sb_rad(table[i].sigma_azi);
		double noise = sb_bend_noise(&from, &to, inc, azi);
		assert_near(noise / sampled_noise(&r, &from, &to, inc, azi), 1, 0.025);
		assert_near(sb_bend_noise(&to, &from, inc, azi), noise, noise * 1e-12);
	}
}

/* Where the turn is lost in the noise: at most what the noisier axis gives, never less than the truth. */
static void noise_of_a_vanishing_turn_is_never_understated(void **state)
{
	static const double turns[] = { 0, 1e-9, 0.01, 0.05, 0.1, 0.2, 0.3, 0.49, 0.7, 1, 1.5 };
	static const double ways[] = { 0, 30, 60, 80, 90 }; /* from the high side */
	struct random r = { 42 };
	struct attitude from = attitude_of(85, 40);

	(void)state;
	for (size_t i = 0; i < sizeof turns / sizeof *turns; i++)
		for (size_t k = 0; k < sizeof ways / sizeof *ways; k++) {
			double up = turns[i] * cos(sb_rad(ways[k])), right = turns[i] * sin(sb_rad(ways[k]));
			struct attitude to = attitude_of(85 + up, 40 + right / sin(sb_rad(85)));
			double inc = sb_rad(0.1), azi = sb_rad(0.3);
			double noise = sb_bend_noise(&from, &to, inc, azi);
			assert_true(noise >= 0.985 * sampled_noise(&r, &from, &to, inc, azi));
			assert_true(noise <= sqrt(2) * azi + 1e-15);
		}
}

static void noise_without_a_turn_is_that_of_the_noisier_axis(void **state)
{
	struct attitude level = attitude_of(90, 200), slope = attitude_of(30, 200), down = attitude_of(0, 0);

	(void)state;
	assert_near(sb_bend_noise(&level, &level, 0.001, 0.003), sqrt(2) * 0.003, 1e-15);
	assert_near(sb_bend_noise(&level, &level, 0.004, 0.003), sqrt(2) * 0.004, 1e-15);
	assert_near(sb_bend_noise(&slope, &slope, 0.001, 0.003), sqrt(2) * 0.0015, 1e-15);
	assert_near(sb_bend_noise(&down, &down, 0.001, 0.003), sqrt(2) * 0.001, 1e-15);
	assert_true(sb_bend_noise(&level, &slope, 0, 0) == 0);
	assert_true(sb_bend_noise(&level, &level, 0, 0) == 0);
}

static void noise_of_half_a_turn_is_finite(void **state)
{
	struct attitude from = attitude_of(90, 40), to = attitude_of(90, 220);
	double noise = sb_bend_noise(&from, &to, 0.001, 0.003);

	(void)state;
	assert_true(isfinite(noise) && noise <= sqrt(2) * 0.003 + 1e-15);
}

/* R 2880 ft over three 31-ft joints is 1.85 degrees; two joints used 1.5, so 0.35 are left. Derived, no
 * publication; likewise 2.78 at 1920 ft and 5.55 at 960 ft. */
static void a_turn_budget_of_three_joints(void **state)
{
	struct attitude from = attitude_of(84, 90), to = attitude_of(85.5, 90);
	struct bend_room room = sb_bend_room(&from, &to, 93 / 2880.0);

	(void)state;
	assert_near(sb_deg(room.least), 0.35, 5e-3);
	assert_near(room.up, room.least, 1e-15);
	assert_near(sb_deg(room.down), 1.85 + 1.5, 5e-3);
	assert_near(room.left, room.right, 1e-15);
	assert_near(sb_deg(sb_bend_room(&from, &from, 93 / 1920.0).least), 2.78, 6e-3);
	assert_near(sb_deg(sb_bend_room(&from, &from, 93 / 960.0).least), 5.55, 6e-3);
}

/* The attitude after turning an angle towards a direction: 0 up, 90 right, seen looking ahead. */
static struct attitude turned(const struct attitude *a, double angle, double toward_deg)
{
	struct vec3 up = sb_vec3_heading(a->inc_rad + SB_PI / 2, a->azi_rad);
	struct vec3 right = { -sin(a->azi_rad), cos(a->azi_rad), 0 };
	struct vec3 way = sb_vec3_add(
		sb_vec3_scale(up, cos(sb_rad(toward_deg))), sb_vec3_scale(right, sin(sb_rad(toward_deg))));
	double inc, azi;

	sb_vec3_attitude(sb_vec3_add(sb_vec3_scale(a->heading, cos(angle)), sb_vec3_scale(way, sin(angle))),
		&inc, &azi);
	return sb_attitude(inc, azi);
}

/* The largest turn that ends within the limit, by trying. */
static double searched_room(
	const struct attitude *from, const struct attitude *to, double limit, double toward_deg)
{
	enum { TRIES = 4000 };
	double most = 0, step = (limit + sb_arc_dogleg(from, to)) * 1.01 / TRIES;

	for (int i = 1; i <= TRIES; i++) {
		struct attitude end = turned(to, i * step, toward_deg);
		if (sb_arc_dogleg(from, &end) <= limit)
			most = i * step;
	}
	return most;
}

static void check_room(const struct attitude *from, const struct attitude *to, double limit, double tolerance)
{
	struct bend_room room = sb_bend_room(from, to, limit);

	assert_near(room.least, limit - sb_arc_dogleg(from, to), 0);
	assert_near(room.up, searched_room(from, to, limit, 0), tolerance);
	assert_near(room.right, searched_room(from, to, limit, 90), tolerance);
	assert_near(room.down, searched_room(from, to, limit, 180), tolerance);
	assert_near(room.left, searched_room(from, to, limit, 270), tolerance);
}

/* A search step is up to 0.25 percent of the reach; the plane itself is out by the angle cubed. */
static void room_is_what_a_search_over_turns_finds(void **state)
{
	struct random r = { 43 };

	(void)state;
	for (int i = 0; i < 60; i++) {
		struct attitude from = attitude_of(random_between(&r, 70, 110), random_between(&r, 0, 360));
		double used = sb_rad(random_between(&r, 0, 3));
		struct attitude to = turned(&from, used, random_between(&r, 0, 360));
		double limit = used + sb_rad(random_between(&r, 0.05, 3)), reach = used + limit;
		check_room(&from, &to, limit, reach * 4e-4 + reach * reach * reach);
	}
}

static void past_the_limit_there_is_room_only_on_the_way_back(void **state)
{
	struct attitude from = attitude_of(85, 40), to = attitude_of(87, 40);
	struct bend_room room = sb_bend_room(&from, &to, sb_rad(1.5));

	(void)state;
	assert_near(sb_deg(room.least), -0.5, 1e-12);
	assert_true(room.up == 0 && room.left == 0 && room.right == 0);
	assert_near(sb_deg(room.down), 3.5, 1e-12); /* through the middle to the far side */
	check_room(&from, &to, sb_rad(1.5), sb_rad(3.5) * 4e-4);
}

static void with_nothing_used_there_is_as_much_room_every_way(void **state)
{
	struct attitude a = attitude_of(85, 40);
	struct bend_room room = sb_bend_room(&a, &a, 0.03), none = sb_bend_room(&a, &a, 0);

	(void)state;
	assert_true(room.least == 0.03 && room.up == 0.03 && room.down == 0.03);
	assert_true(room.left == 0.03 && room.right == 0.03);
	assert_true(none.least == 0 && none.up == 0 && none.right == 0);
}

static void a_limit_that_cannot_be_leaves_no_room(void **state)
{
	struct attitude a = attitude_of(85, 40);
	struct bend_room room = sb_bend_room(&a, &a, -0.01);

	(void)state;
	assert_true(room.least == -0.01);
	assert_true(room.up == 0 && room.down == 0 && room.left == 0 && room.right == 0);
}

static void without_a_limit_there_is_no_end_of_room(void **state)
{
	struct attitude from = attitude_of(85, 40), to = attitude_of(87, 41);
	struct bend_room room = sb_bend_room(&from, &to, HUGE_VAL);

	(void)state;
	assert_true(room.least == HUGE_VAL && room.up == HUGE_VAL && room.down == HUGE_VAL);
	assert_true(room.left == HUGE_VAL && room.right == HUGE_VAL);
}

static void right_is_right_looking_ahead_across_north_too(void **state)
{
	struct attitude from = attitude_of(90, 359.5), to = attitude_of(90, 0.5);
	struct bend_room room = sb_bend_room(&from, &to, sb_rad(1.5));

	(void)state;
	assert_near(sb_deg(room.right), 0.5, 1e-12);
	assert_near(sb_deg(room.left), 2.5, 1e-12);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_straight_has_no_end_of_a_radius),
		cmocka_unit_test(a_deflection_gives_its_radius),
		cmocka_unit_test(a_joint_turns_its_length_over_the_radius),
		cmocka_unit_test(an_s_bend_hides_between_its_ends),
		cmocka_unit_test(noise_is_what_the_samples_scatter_by),
		cmocka_unit_test(noise_of_a_vanishing_turn_is_never_understated),
		cmocka_unit_test(noise_without_a_turn_is_that_of_the_noisier_axis),
		cmocka_unit_test(noise_of_half_a_turn_is_finite),
		cmocka_unit_test(a_turn_budget_of_three_joints),
		cmocka_unit_test(room_is_what_a_search_over_turns_finds),
		cmocka_unit_test(past_the_limit_there_is_room_only_on_the_way_back),
		cmocka_unit_test(with_nothing_used_there_is_as_much_room_every_way),
		cmocka_unit_test(a_limit_that_cannot_be_leaves_no_room),
		cmocka_unit_test(without_a_limit_there_is_no_end_of_room),
		cmocka_unit_test(right_is_right_looking_ahead_across_north_too),
	};

	return run_tests(tests);
}
