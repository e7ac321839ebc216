/* Where the path lies against the design: signs, edges, the least distance by a second derivation, and the
 * properties that must hold whatever the numbers are.
 */
#include "model/path.h"

#include "drill.h"

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

/* ---- against the design ---- */

static void signs_are_right_and_high(void **state)
{
	struct vec3 heading = sb_vec3_heading(sb_rad(91), sb_rad(92));

	(void)state;
	flat_job("3000, 0, 0"); /* due east: right is south */
	jobs_solve(&job, &solution);
	struct deviation d = sb_deviation(&solution.design, (struct vec3){ -2, 100, 3 }, &heading, 90);
	assert_near(d.station_m, 100, 1e-9);
	assert_near(d.offset_m, 2, 1e-9);
	assert_near(d.height_m, 3, 1e-9);
	assert_near(d.square_m, sqrt(13), 1e-9);
	assert_near(sb_deg(d.inc_off_rad), 1, 1e-9);
	assert_near(sb_deg(d.azi_off_rad), 2, 1e-9);
	assert_false(d.doubtful);
	d = sb_deviation(&solution.design, (struct vec3){ 2, 100, -3 }, NULL, 90);
	assert_near(d.offset_m, -2, 1e-9);
	assert_near(d.height_m, -3, 1e-9);
	assert_near(d.inc_off_rad, 0, 0);
}

static void before_the_entry_and_past_the_exit_the_tangents_go_on(void **state)
{
	(void)state;
	jobs_plain(&job);
	jobs_solve(&job, &solution);
	double slope = tan(sb_rad(10));
	struct deviation d = sb_deviation(&solution.design, (struct vec3){ 1, -20, 100 * 0.3048 }, NULL, 0);
	assert_near(d.station_m, -20, 1e-9);
	assert_near(d.offset_m, -1, 1e-9);
	assert_near(d.height_m, -20 * slope, 1e-4); /* the design comes from above */
	double exit = 1200 * 0.3048;
	d = sb_deviation(&solution.design, (struct vec3){ 0, exit + 20, 100 * 0.3048 }, NULL, exit);
	assert_near(d.station_m, exit + 20, 1e-9);
	assert_near(d.height_m, -20 * slope, 1e-4);
}

/* In the bend of a line that turns right round, a point may be as near to the one leg as to the other. */
static void of_two_nearest_points_the_one_close_to_the_last_is_taken(void **state)
{
	(void)state;
	flat_job("1000, 1000, 0");
	jobs_row(&job, "alignment", (const char *const[]){ "0", "0", "" });
	jobs_row(&job, "alignment", (const char *const[]){ "0", "1000", "300" });
	jobs_row(&job, "alignment", (const char *const[]){ "1000", "1000", "" });
	job.profile_count = 0;
	jobs_row(&job, "profile", (const char *const[]){ "0", "0", "" });
	jobs_row(&job, "profile", (const char *const[]){ "1871.24", "0", "" });
	jobs_solve(&job, &solution);
	struct vec3 at = { 500 * 0.3048, 500 * 0.3048, 0 };
	struct deviation near_start = sb_deviation(&solution.design, at, NULL, 100),
			 near_end = sb_deviation(&solution.design, at, NULL, 500);
	assert_true(near_start.doubtful && near_end.doubtful);
	assert_near(feet(near_start.station_m), 500, 1e-6);
	assert_near(feet(near_start.offset_m), 500, 1e-6);
	assert_near(feet(near_end.station_m), feet(solution.design.length_m) - 500, 1e-6);
	assert_near(feet(near_end.offset_m), 500, 1e-6);
	assert_false(sb_deviation(&solution.design, (struct vec3){ 100, 10, 0 }, NULL, 100).doubtful);
}

/* Straight up or down there is no azimuth to differ. */
static void a_plumb_heading_has_no_azimuth_off(void **state)
{
	struct vec3 down = sb_vec3_heading(0, sb_rad(40)), up = sb_vec3_heading(SB_PI, sb_rad(40));

	(void)state;
	flat_job("3000, 0, 0");
	jobs_solve(&job, &solution);
	assert_near(sb_deviation(&solution.design, (struct vec3){ 0 }, &down, 0).azi_off_rad, 0, 0);
	assert_near(
		sb_deg(sb_deviation(&solution.design, (struct vec3){ 0 }, &down, 0).inc_off_rad), -90, 1e-9);
	assert_near(sb_deviation(&solution.design, (struct vec3){ 0 }, &up, 0).azi_off_rad, 0, 0);
	assert_near(sb_deg(sb_deviation(&solution.design, (struct vec3){ 0 }, &up, 0).inc_off_rad), 90, 1e-9);
}

/* The least distance to any point of the line, by trying them all and then all between the best. */
static double least_distance(const struct design *d, struct vec3 at, double from, double to)
{
	double best = HUGE_VAL, where = from;

	for (double step = (to - from) / 3000; step > 1e-7; step /= 50) {
		for (double s = from; s <= to; s += step) {
			double distance = sb_vec3_length(sb_vec3_sub(at, sb_design_at(d, s).at));
			if (distance < best) {
				best = distance;
				where = s;
			}
		}
		from = where - 2 * step;
		to = where + 2 * step;
	}
	return best;
}

static void the_square_distance_is_the_least_there_is(void **state)
{
	static void (*const make[])(struct job *) = { jobs_plain, jobs_curved, jobs_graded };
	struct random r = { 6 };

	(void)state;
	for (size_t k = 0; k < 3; k++) {
		make[k](&job);
		jobs_solve(&job, &solution);
		double length = solution.design.length_m;
		for (int i = 0; i < 150; i++) {
			double s = random_between(&r, -20, length + 20), wide = i % 3 == 0 ? 15 : 1.5;
			struct design_place p = sb_design_at(&solution.design, s);
			double level = hypot(p.heading.n, p.heading.e), off = random_between(&r, -wide, wide);
			struct vec3 at = sb_vec3_add(p.at,
				(struct vec3){ -off * p.heading.e / level, off * p.heading.n / level,
					random_between(&r, -wide, wide) });
			struct deviation d = sb_deviation(&solution.design, at, NULL, s);
			assert_near(d.station_m, s, 1e-6);
			assert_near(d.offset_m, off, 1e-6);
			assert_near(d.square_m, least_distance(&solution.design, at, s - 40, s + 40), 1e-6);
		}
		sb_solution_clear(&solution);
		sb_job_clear(&job);
	}
}

/* Newton's method has no slope to go by at a corner: once the distance there came out too long. */
static void and_at_a_corner_of_the_line_too(void **state)
{
	struct random r = { 7 };

	(void)state;
	flat_job("3000, 0, 0");
	job.profile_count = 0;
	jobs_row(&job, "profile", (const char *const[]){ "0", "0", "" });
	jobs_row(&job, "profile", (const char *const[]){ "1000", "-300", "" });
	jobs_row(&job, "profile", (const char *const[]){ "3000", "0", "" });
	jobs_solve(&job, &solution);
	for (int i = 0; i < 200; i++) {
		double s = 1000 * 0.3048 + random_between(&r, -1, 1);
		struct vec3 at = sb_design_at(&solution.design, s).at;
		at.n += random_between(&r, -2, 2);
		at.u += random_between(&r, -2, 0); /* outside the corner, where it is nearest */
		assert_near(sb_deviation(&solution.design, at, NULL, s).square_m,
			least_distance(&solution.design, at, s - 10, s + 10), 1e-6);
	}
}

/* ---- properties ---- */

/* A crossing as numbers, so that it can be turned, mirrored and measured in other units. */
struct crossing {
	double east[3], north[3], radius, station[4], elevation[4], profile_radius;
	double inc[30], azi[30], length[30];
	int joints;
};

static void make_crossing(struct random *r, struct crossing *c)
{
	*c = (struct crossing){ .radius = random_between(r, 250, 500), .profile_radius = 300, .joints = 30 };
	c->east[1] = random_between(r, -40, 40);
	c->north[1] = 200;
	c->east[2] = random_between(r, -80, 80);
	c->north[2] = 400;
	double delta = fabs(atan2(c->east[2] - c->east[1], 200) - atan2(c->east[1], 200));
	double length = hypot(c->east[1], 200) + hypot(c->east[2] - c->east[1], 200) +
		c->radius * (delta - 2 * tan(delta / 2));
	for (int i = 0; i < 4; i++) {
		c->station[i] = (double[]){ 0, 90, length - 90, length }[i];
		c->elevation[i] = (double[]){ 20, 4, 4, 20 }[i];
	}
	for (int i = 0; i < c->joints; i++) {
		c->length[i] = random_between(r, 9, 10);
		c->inc[i] = 80 + 0.6 * i + random_between(r, -1, 1);
		c->azi[i] = sb_deg(atan2(c->east[1], 200)) + random_between(r, -3, 3);
	}
}

/* How a crossing is laid: turned by an angle about its entry, seen in a mirror, in a unit of so many metres.
 */
struct laid {
	double turn_deg;
	int side; /* 1, or -1: mirrored */
	const char *unit;
	double per_metre;
};

static const char *place(const struct crossing *c, const struct laid *l, int i, char text[100])
{
	double e = l->side * c->east[i], n = c->north[i], s = sin(sb_rad(l->turn_deg)),
	       k = cos(sb_rad(l->turn_deg));

	snprintf(text, 100, "%.8f, %.8f, %.8f", (e * k + n * s) * l->per_metre,
		(n * k - e * s) * l->per_metre, 20 * l->per_metre);
	return text;
}

static void lay(const struct crossing *c, const struct laid *l, struct job *to, struct solution *s)
{
	char text[100];
	double k = l->per_metre;

	sb_setting_init(to);
	jobs_set(to, "job", "unit", l->unit);
	jobs_set(to, "control", "entry", place(c, l, 0, text));
	jobs_set(to, "control", "exit", place(c, l, 2, text));
	jobs_set(to, "azimuth", "reference", "grid");
	jobs_set(to, "tool", "sensor_to_bit", typed(3 * k, 8));
	jobs_set(to, "drill_pipe", "joint_length", typed(9.5 * k, 8));
	jobs_set(to, "bend", "window_length", typed(30 * k, 8));
	jobs_set(to, "bend", "window_minimum", typed(150 * k, 8));
	for (int i = 0; i < 3; i++) {
		char *rest = text, *east, *north;
		place(c, l, i, text);
		east = strsep(&rest, ",");
		north = strsep(&rest, ",");
		jobs_row(to, "alignment", (const char *const[]){ east, north, typed(c->radius * k, 8) });
	}
	for (int i = 0; i < 4; i++)
		jobs_row(to, "profile",
			(const char *const[]){ typed(c->station[i] * k, 8), typed(c->elevation[i] * k, 8),
				typed(c->profile_radius * k, 8) });
	for (int i = 0; i < c->joints; i++) {
		double azimuth = fmod(l->side * c->azi[i] + l->turn_deg + 720, 360);
		jobs_log(to, typed(c->length[i] * k, 8), typed(c->inc[i], 9), typed(azimuth, 9));
	}
	memset(s, 0, sizeof *s);
	struct sb_err err;
	if (sb_solve(to, s, NULL, &err)) {
		print_error("%s\n", err.text);
		fail();
	}
}

static void same_but_for_the_side(
	const struct solution *a, const struct solution *b, int side, double tolerance)
{
	assert_int_equal(a->path.count, b->path.count);
	for (size_t i = 0; i < a->path.count; i++) {
		const struct row *x = &a->path.rows[i], *y = &b->path.rows[i];
		assert_near(x->deviation.station_m, y->deviation.station_m, tolerance);
		assert_near(x->deviation.offset_m, side * y->deviation.offset_m, tolerance);
		assert_near(x->deviation.height_m, y->deviation.height_m, tolerance);
		assert_near(x->deviation.square_m, y->deviation.square_m, tolerance);
		assert_near(x->deviation.inc_off_rad, y->deviation.inc_off_rad, tolerance);
		assert_near(x->deviation.azi_off_rad, side * y->deviation.azi_off_rad, tolerance);
		assert_near(x->dogleg_rad, y->dogleg_rad, tolerance);
		assert_int_equal(x->window.joints, y->window.joints);
		assert_near(x->window.ends_rad, y->window.ends_rad, tolerance);
		assert_near(x->window.sum_rad, y->window.sum_rad, tolerance);
		assert_near(x->survey_md_m, y->survey_md_m, tolerance);
	}
	assert_near(a->bit.deviation.offset_m, side * b->bit.deviation.offset_m, tolerance);
	assert_int_equal(a->warning_count, b->warning_count);
}

static void a_property(uint64_t seed, const struct laid *(*other)(struct random *, struct laid *))
{
	const struct laid plain = { 0, 1, "m", 1 };
	struct random r = { seed };

	for (int i = 0; i < 40; i++) {
		struct solution again;
		struct job twin;
		struct crossing c;
		struct laid l;
		make_crossing(&r, &c);
		lay(&c, &plain, &job, &solution);
		lay(&c, other(&r, &l), &twin, &again);
		same_but_for_the_side(&solution, &again, l.side, 2e-7);
		sb_solution_clear(&again);
		sb_job_clear(&twin);
		sb_solution_clear(&solution);
		sb_job_clear(&job);
	}
}

static const struct laid *mirrored(struct random *r, struct laid *l)
{
	(void)r;
	*l = (struct laid){ 0, -1, "m", 1 };
	return l;
}

static const struct laid *turned(struct random *r, struct laid *l)
{
	*l = (struct laid){ random_between(r, 0, 360), 1, "m", 1 };
	return l;
}

static const struct laid *in_feet(struct random *r, struct laid *l)
{
	*l = random_unit(r) < 0.5 ? (struct laid){ 0, 1, "ft", 1 / 0.3048 }
				  : (struct laid){ 0, 1, "ftUS", 3937.0 / 1200 };
	return l;
}

static void a_crossing_in_a_mirror_has_its_offsets_on_the_other_side(void **state)
{
	(void)state;
	a_property(31, mirrored);
}

static void a_crossing_turned_to_any_bearing_has_the_same_stations_and_offsets(void **state)
{
	(void)state;
	a_property(32, turned);
}

static void a_crossing_in_feet_is_the_same_as_in_metres(void **state)
{
	(void)state;
	a_property(33, in_feet);
}

#define HERE(name) cmocka_unit_test_setup_teardown(name, setup, teardown)

static const struct CMUnitTest tests[] = {
	HERE(signs_are_right_and_high),
	HERE(before_the_entry_and_past_the_exit_the_tangents_go_on),
	HERE(of_two_nearest_points_the_one_close_to_the_last_is_taken),
	HERE(a_plumb_heading_has_no_azimuth_off),
	HERE(the_square_distance_is_the_least_there_is),
	HERE(and_at_a_corner_of_the_line_too),
	HERE(a_crossing_in_a_mirror_has_its_offsets_on_the_other_side),
	HERE(a_crossing_turned_to_any_bearing_has_the_same_stations_and_offsets),
	HERE(a_crossing_in_feet_is_the_same_as_in_metres),
};

int main(void)
{
	return run_tests(tests);
}
