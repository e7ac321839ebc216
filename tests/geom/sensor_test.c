#include "geom/angle.h"
#include "geom/sensor.h"
#include "geom/vec3.h"

#include "random.h"
#include "support/near.h"

#include <float.h>

static struct sensor_attitude attitude(double inc, double azi, double face, double dip)
{
	return (struct sensor_attitude){ .inc_rad = sb_rad(inc),
		.azi_rad = sb_rad(azi),
		.face_rad = sb_rad(face),
		.dip_rad = sb_rad(dip),
		.gravity = 1,
		.field = 50000 };
}

static struct sensor_vectors vectors(const struct sensor_attitude *a)
{
	struct sensor_vectors v = { { 0, 0, 0 }, { 0, 0, 0 } };

	assert_int_equal(sb_sensor_vectors(a, &v), SENSOR_OK);
	return v;
}

static struct sensor_attitude back(const struct sensor_vectors *v)
{
	struct sensor_attitude a = { 0 };

	assert_int_equal(sb_sensor_attitude(v, &a), SENSOR_OK);
	return a;
}

static void assert_same_turn(double got, double want, double tolerance)
{
	assert_near(sb_wrap_half(got - want), 0, tolerance);
	assert_true(got >= 0 && got < 2 * SB_PI);
}

/* ---- by hand ---- */

static void a_tool_hung_straight_down_shows_gravity_on_z(void **state)
{
	struct sensor_attitude a = attitude(0, 0, 0, 60), got;
	struct sensor_vectors v = vectors(&a);

	(void)state;
	assert_near(v.gravity.z, 1, 0);
	assert_near(v.gravity.x, 0, 0);
	assert_near(v.gravity.y, 0, 0);
	assert_int_equal(sb_sensor_attitude(&v, &got), SENSOR_PLUMB);
	assert_true(!got.azi_known && !got.face_known && got.magnetic_face_known);
	assert_near(got.inc_rad, 0, 0);
}

static void level_with_the_mark_on_top_gravity_pulls_against_x_and_with_the_mark_right_along_y(void **state)
{
	struct sensor_attitude top = attitude(90, 0, 0, 60), right = attitude(90, 0, 90, 60);
	struct sensor_vectors v = vectors(&top), w = vectors(&right);

	(void)state;
	assert_near(v.gravity.x, -1, 0);
	assert_near(v.gravity.y, 0, 0);
	assert_near(w.gravity.x, 0, 0);
	assert_near(w.gravity.y, 1, 0);
}

/* Derived by hand: a level bore to magnetic east, field of 50,000 with 3 in 5 of it level. North is to the
 * left, so y (right) shows -30,000; down is against x, which shows -40,000; nothing lies along the hole. */
static void a_level_bore_to_magnetic_east_by_hand(void **state)
{
	struct sensor_vectors v = { .gravity = { -9.81, 0, 0 }, .field = { -40000, -30000, 0 } };
	struct sensor_attitude a = back(&v);

	(void)state;
	assert_near(sb_deg(a.inc_rad), 90, 1e-13);
	assert_near(sb_deg(a.azi_rad), 90, 1e-13);
	assert_near(a.face_rad, 0, 0);
	assert_near(a.gravity, 9.81, 0);
	assert_near(a.field, 50000, 1e-11);
	assert_near(a.dip_rad, atan2(4, 3), 1e-15);
}

/* Derived by hand with a 3-4-5 triangle: the bore falls 3 in 5 below level (cos inc 3/5, sin inc 4/5), to
 * magnetic north, mark 90 degrees right of high side; field level, 10. Right is west-east: 0. Ahead: 4/5 of
 * the field; high side of a falling bore leans ahead: 3/5 of it, and the high side is where -y points. */
static void a_falling_bore_to_magnetic_north_by_hand(void **state)
{
	struct sensor_vectors v = { .gravity = { 0, 0.8, 0.6 }, .field = { 0, -6, 8 } };
	struct sensor_attitude a = back(&v);

	(void)state;
	assert_near(a.inc_rad, atan2(4, 3), 1e-15);
	assert_near(a.azi_rad, 0, 0);
	assert_near(sb_deg(a.face_rad), 90, 1e-13);
	assert_near(a.dip_rad, 0, 1e-15);
	assert_near(a.field, 10, 1e-14);
}

static void straight_down_the_magnetic_face_is_the_marks_own_azimuth(void **state)
{
	/* mark to the east: north is then where -y points */
	struct sensor_vectors v = { .gravity = { 0, 0, 1 }, .field = { 0, -20000, 40000 } };
	struct sensor_attitude a;

	(void)state;
	assert_int_equal(sb_sensor_attitude(&v, &a), SENSOR_PLUMB);
	assert_near(sb_deg(a.magnetic_face_rad), 90, 1e-13);
}

/* ---- there and back ---- */

static void assert_round_trip(double inc, double azi, double face, double dip, double gravity, double field)
{
	struct sensor_attitude a = { .inc_rad = inc,
		.azi_rad = azi,
		.face_rad = face,
		.dip_rad = dip,
		.gravity = gravity,
		.field = field };
	struct sensor_vectors v = vectors(&a);
	struct sensor_attitude got = back(&v);

	/* rounding beside the plumb line, and beside a steep field, turns the azimuth by its inverse */
	double worse = 1 + 1e-4 / (sin(inc) * cos(dip));
	assert_near(got.inc_rad, inc, 1e-12);
	assert_same_turn(got.azi_rad, azi, 1e-12 * worse);
	assert_same_turn(got.face_rad, face, 1e-12);
	assert_near(got.dip_rad, dip, 1e-12);
	assert_near(got.gravity / gravity, 1, 1e-14);
	assert_near(got.field / field, 1, 1e-14);
}

static void every_roll_and_inclination_comes_back(void **state)
{
	struct random r = { 4 };

	(void)state;
	for (int inc = 1; inc < 180; inc++)
		for (int face = 0; face < 360; face += 5)
			assert_round_trip(sb_rad(inc), random_between(&r, 0, 2 * SB_PI), sb_rad(face),
				sb_rad(random_between(&r, -89, 89)), 1, 50000);
}

static void any_attitude_comes_back_in_any_unit(void **state)
{
	struct random r = { 5 };

	(void)state;
	for (int i = 0; i < 20000; i++)
		assert_round_trip(random_between(&r, 1e-5, SB_PI - 1e-5), random_between(&r, 0, 2 * SB_PI),
			random_between(&r, 0, 2 * SB_PI), random_between(&r, -1.57, 1.57),
			pow(10, random_between(&r, -12, 12)), pow(10, random_between(&r, -12, 12)));
}

static void close_to_the_plumb_line_inclination_and_tool_face_stay_exact(void **state)
{
	(void)state;
	for (double inc = 1e-11; inc < 1e-3; inc *= 10) {
		struct sensor_attitude a = attitude(0, 77, 133, 60);
		a.inc_rad = inc;
		struct sensor_vectors v = vectors(&a);
		struct sensor_attitude got = back(&v);
		assert_near(got.inc_rad, inc, 1e-15 * inc);
		assert_same_turn(got.face_rad, sb_rad(133), 1e-15 * 4);
		assert_same_turn(got.azi_rad, sb_rad(77), 1e-15 / inc);
	}
}

/* ---- another way to the same figures ---- */

static struct vec3 across(struct vec3 a, struct vec3 b)
{
	return (struct vec3){ a.e * b.u - a.u * b.e, a.u * b.n - a.n * b.u, a.n * b.e - a.e * b.n };
}

/* The ground's axes north, east, up are a left hand, so that products across them are, too.
 * The components by projecting plain vectors of the ground on the tool's three axes. */
static void the_components_are_projections_of_gravity_and_field(void **state)
{
	struct random r = { 6 };

	(void)state;
	for (int i = 0; i < 2000; i++) {
		double inc = random_between(&r, 0.01, 3.13), azi = random_between(&r, 0, 6.28),
		       face = random_between(&r, 0, 6.28), dip = random_between(&r, -1.5, 1.5);
		struct vec3 ahead = sb_vec3_heading(inc, azi), up = { 0, 0, 1 }, right = across(up, ahead);
		right = sb_vec3_scale(right, 1 / sb_vec3_length(right));
		struct vec3 high = across(ahead, right);
		struct vec3 x = sb_vec3_add(sb_vec3_scale(high, cos(face)), sb_vec3_scale(right, sin(face)));
		struct vec3 y = sb_vec3_add(sb_vec3_scale(right, cos(face)), sb_vec3_scale(high, -sin(face)));
		struct vec3 gravity = { 0, 0, -1 }, field = { cos(dip), 0, -sin(dip) };
		struct sensor_attitude a = { inc, azi, face, 0, 1, 1, dip, false, false, false };
		struct sensor_vectors v = vectors(&a);
		assert_near(v.gravity.x, sb_vec3_dot(gravity, x), 1e-14);
		assert_near(v.gravity.y, sb_vec3_dot(gravity, y), 1e-14);
		assert_near(v.gravity.z, sb_vec3_dot(gravity, ahead), 1e-14);
		assert_near(v.field.x, sb_vec3_dot(field, x), 1e-14);
		assert_near(v.field.y, sb_vec3_dot(field, y), 1e-14);
		assert_near(v.field.z, sb_vec3_dot(field, ahead), 1e-14);
	}
}

/* Williamson, SPE 67616 (2000), appendix: components, and inclination, azimuth and tool face from them, in
 * that paper's axes (from memory). Its y is at the mark and its x to the left. */
static void the_published_relations_hold(void **state)
{
	struct random r = { 7 };
	struct sensor_axes axes;

	(void)state;
	assert_int_equal(sb_axes_parse("y -x z", &axes), AXES_OK);
	for (int n = 0; n < 2000; n++) {
		double i = random_between(&r, 0.02, 3.12), a = random_between(&r, 0, 2 * SB_PI),
		       t = random_between(&r, 0, 2 * SB_PI), dip = random_between(&r, -1.5, 1.5), b = 48000;
		struct sensor_vectors tool = {
			.gravity = { -sin(i) * sin(t), -sin(i) * cos(t), cos(i) },
			.field = { b *
					(cos(dip) * cos(i) * cos(a) * sin(t) - sin(dip) * sin(i) * sin(t) +
						cos(dip) * sin(a) * cos(t)),
				b *
					(cos(dip) * cos(i) * cos(a) * cos(t) - sin(dip) * sin(i) * cos(t) -
						cos(dip) * sin(a) * sin(t)),
				b * (cos(dip) * sin(i) * cos(a) + sin(dip) * cos(i)) },
		};
		struct sensor_vectors v = sb_sensor_turn(&axes, &tool);
		struct sensor_attitude got = back(&v);
		assert_near(got.inc_rad, i, 1e-13);
		assert_same_turn(got.azi_rad, a, 1e-11);
		assert_same_turn(got.face_rad, t, 1e-13);
		struct triad g = tool.gravity, f = tool.field;
		double east = (g.x * f.y - g.y * f.x) * sqrt(g.x * g.x + g.y * g.y + g.z * g.z);
		double north = f.z * (g.x * g.x + g.y * g.y) - g.z * (g.x * f.x + g.y * f.y);
		assert_same_turn(got.azi_rad, sb_wrap_turn(atan2(east, north)), 1e-11);
	}
}

static void a_tool_that_shows_gravity_upwards_is_turned_over(void **state)
{
	struct sensor_attitude a = attitude(80, 40, 200, 65);
	struct sensor_vectors v = vectors(&a), tool = { sb_triad_scale(v.gravity, -1), v.field };
	struct sensor_axes axes;

	(void)state;
	assert_int_equal(sb_axes_parse("x y z up", &axes), AXES_OK);
	v = sb_sensor_turn(&axes, &tool);
	struct sensor_attitude got = back(&v);
	assert_near(sb_deg(got.inc_rad), 80, 1e-12);
	assert_near(sb_deg(got.azi_rad), 40, 1e-12);
	assert_near(sb_deg(got.dip_rad), 65, 1e-12);
}

static void turning_the_tool_in_its_hole_changes_tool_faces_alone(void **state)
{
	struct random r = { 8 };

	(void)state;
	for (int i = 0; i < 2000; i++) {
		struct sensor_vectors v = { { random_normal(&r), random_normal(&r), random_normal(&r) },
			{ random_normal(&r), random_normal(&r), random_normal(&r) } };
		double turn = random_between(&r, 0, 2 * SB_PI), c = cos(turn), s = sin(turn);
		struct sensor_vectors w = { { v.gravity.x * c + v.gravity.y * s,
						    v.gravity.y * c - v.gravity.x * s, v.gravity.z },
			{ v.field.x * c + v.field.y * s, v.field.y * c - v.field.x * s, v.field.z } };
		struct sensor_attitude a = back(&v), b = back(&w);
		assert_near(b.inc_rad, a.inc_rad, 1e-12);
		assert_same_turn(b.azi_rad, a.azi_rad, 1e-10);
		assert_near(b.dip_rad, a.dip_rad, 1e-11);
		assert_same_turn(b.face_rad, sb_wrap_turn(a.face_rad + turn), 1e-11);
		assert_same_turn(b.magnetic_face_rad, sb_wrap_turn(a.magnetic_face_rad + turn), 1e-11);
	}
}

/* ---- what cannot be told ---- */

static void vectors_without_length_or_number_are_refused_and_change_nothing(void **state)
{
	const struct triad some = { 1, 2, 3 }, none = { 0, -0.0, 0 };
	static const double bad[] = { NAN, INFINITY, -INFINITY };
	struct sensor_attitude a = { .inc_rad = 42 };
	struct sensor_slopes slopes = { .inc = { .gravity = { 42, 0, 0 } } };

	(void)state;
	assert_int_equal(sb_sensor_attitude(&(struct sensor_vectors){ none, some }, &a), SENSOR_NO_GRAVITY);
	assert_int_equal(sb_sensor_attitude(&(struct sensor_vectors){ some, none }, &a), SENSOR_NO_FIELD);
	for (int i = 0; i < 3; i++) {
		struct triad wrong = { 1, bad[i], 3 };
		assert_int_equal(
			sb_sensor_attitude(&(struct sensor_vectors){ wrong, some }, &a), SENSOR_RANGE);
		assert_int_equal(
			sb_sensor_slopes(&(struct sensor_vectors){ some, wrong }, &slopes), SENSOR_RANGE);
	}
	assert_int_equal(sb_sensor_attitude(&(struct sensor_vectors){ some, { DBL_MAX, DBL_MAX, 0 } }, &a),
		SENSOR_RANGE);
	assert_true(a.inc_rad == 42 && slopes.inc.gravity.x == 42);
}

static void attitudes_out_of_range_are_refused_and_change_nothing(void **state)
{
	struct sensor_vectors v = { { 42, 0, 0 }, { 0, 0, 0 } };
	struct sensor_attitude inc = attitude(181, 0, 0, 0), dip = attitude(90, 0, 0, 91),
			       azi = attitude(90, NAN, 0, 0), light = attitude(90, 0, 0, 0), none = light;

	(void)state;
	light.gravity = 0;
	none.field = -1;
	assert_int_equal(sb_sensor_vectors(&inc, &v), SENSOR_RANGE);
	assert_int_equal(sb_sensor_vectors(&dip, &v), SENSOR_RANGE);
	assert_int_equal(sb_sensor_vectors(&azi, &v), SENSOR_RANGE);
	assert_int_equal(sb_sensor_vectors(&light, &v), SENSOR_NO_GRAVITY);
	assert_int_equal(sb_sensor_vectors(&none, &v), SENSOR_NO_FIELD);
	assert_true(v.gravity.x == 42);
}

static void under_a_field_straight_down_there_is_no_azimuth(void **state)
{
	struct sensor_vectors v = { .gravity = { -1, 0, 0 }, .field = { -60000, 0, 0 } };
	struct sensor_attitude a;

	(void)state;
	assert_int_equal(sb_sensor_attitude(&v, &a), SENSOR_POLAR);
	assert_true(!a.azi_known && a.face_known && a.magnetic_face_known);
	assert_near(sb_deg(a.dip_rad), 90, 0);
}

static void along_the_field_there_is_an_azimuth_but_no_magnetic_face(void **state)
{
	struct sensor_attitude a = attitude(30, 0, 120, 60), got;
	struct sensor_vectors v = vectors(&a);
	struct sensor_slopes slopes;

	(void)state;
	assert_int_equal(sb_sensor_attitude(&v, &got), SENSOR_ALONG);
	assert_true(got.azi_known && got.face_known && !got.magnetic_face_known);
	assert_same_turn(got.azi_rad, 0, 1e-14);
	assert_int_equal(sb_sensor_slopes(&v, &slopes), SENSOR_ALONG);
}

/* ---- slopes and noise ---- */

static double *component(struct sensor_vectors *v, int k)
{
	double *const all[] = { &v->gravity.x, &v->gravity.y, &v->gravity.z, &v->field.x, &v->field.y,
		&v->field.z };
	return all[k];
}

/* By differences over a step both ways, extrapolated (Richardson): error of order step^4. */
static void numeric_slopes(const struct sensor_vectors *v, int k, double step, double out[4])
{
	double change[2][4];

	for (int half = 0; half < 2; half++, step /= 2) {
		struct sensor_vectors low = *v, high = *v;
		*component(&low, k) -= step;
		*component(&high, k) += step;
		struct sensor_attitude a = back(&low), b = back(&high);
		change[half][0] = (b.inc_rad - a.inc_rad) / (2 * step);
		change[half][1] = sb_wrap_half(b.azi_rad - a.azi_rad) / (2 * step);
		change[half][2] = sb_wrap_half(b.face_rad - a.face_rad) / (2 * step);
		change[half][3] = (b.dip_rad - a.dip_rad) / (2 * step);
	}
	for (int i = 0; i < 4; i++)
		out[i] = (4 * change[1][i] - change[0][i]) / 3;
}

static void the_slopes_are_those_of_small_steps(void **state)
{
	struct random r = { 9 };

	(void)state;
	for (int n = 0; n < 500; n++) {
		struct sensor_attitude a = attitude(random_between(&r, 10, 170), random_between(&r, 0, 360),
			random_between(&r, 0, 360), random_between(&r, -75, 75));
		struct sensor_vectors v = vectors(&a);
		struct sensor_slopes s;
		assert_int_equal(sb_sensor_slopes(&v, &s), SENSOR_OK);
		for (int k = 0; k < 6; k++) {
			double unit = k < 3 ? a.gravity : a.field, numeric[4];
			numeric_slopes(&v, k, 4e-4 * unit, numeric);
			assert_near(*component(&s.inc, k) * unit, numeric[0] * unit, 1e-8);
			assert_near(*component(&s.azi, k) * unit, numeric[1] * unit, 1e-7);
			assert_near(*component(&s.face, k) * unit, numeric[2] * unit, 1e-8);
			assert_near(*component(&s.dip, k) * unit, numeric[3] * unit, 1e-8);
		}
	}
}

/* The published weights of sensor biases, same paper and the error model that grew from it (from memory), in
 * its axes: its x is our -y, its y our x. */
static void the_slopes_are_the_published_weights(void **state)
{
	struct random r = { 10 };

	(void)state;
	for (int n = 0; n < 500; n++) {
		double i = random_between(&r, 0.1, 3), a = random_between(&r, 0, 6.28),
		       t = random_between(&r, 0, 6.28), dip = random_between(&r, -1.3, 1.3),
		       tan_dip = tan(dip), cot = cos(i) / sin(i);
		struct sensor_attitude att = { i, a, t, 0, 1, 1, dip, false, false, false };
		struct sensor_vectors v = vectors(&att);
		struct sensor_slopes s;
		assert_int_equal(sb_sensor_slopes(&v, &s), SENSOR_OK);
		assert_near(-s.inc.gravity.y, -cos(i) * sin(t), 1e-13);
		assert_near(s.inc.gravity.x, -cos(i) * cos(t), 1e-13);
		assert_near(s.inc.gravity.z, -sin(i), 1e-13);
		assert_near(-s.azi.gravity.y,
			(cos(i) * sin(a) * sin(t) - cos(a) * cos(t)) * tan_dip + cot * cos(t), 1e-11);
		assert_near(s.azi.gravity.x,
			(cos(i) * sin(a) * cos(t) + cos(a) * sin(t)) * tan_dip - cot * sin(t), 1e-11);
		assert_near(s.azi.gravity.z, sin(i) * sin(a) * tan_dip, 1e-11);
		assert_near(-s.azi.field.y, (cos(a) * cos(t) - cos(i) * sin(a) * sin(t)) / cos(dip), 1e-11);
		assert_near(s.azi.field.x, -(cos(a) * sin(t) + cos(i) * sin(a) * cos(t)) / cos(dip), 1e-11);
		assert_near(s.azi.field.z, -sin(i) * sin(a) / cos(dip), 1e-11);
	}
}

static const struct sensor_vectors noise = { { 3e-4, 3e-4, 3e-4 }, { 30, 30, 30 } };

static struct sensor_sigmas sigmas(double inc, double azi, double face, double dip)
{
	struct sensor_attitude a = attitude(inc, azi, face, dip);
	struct sensor_vectors v = vectors(&a);
	struct sensor_sigmas s = { 0 };

	assert_int_equal(sb_sensor_sigmas(&v, &noise, &s), SENSOR_OK);
	return s;
}

/* 100,000 draws each; a standard deviation from n draws is known within 1 / sqrt(2 n), 0.22 %. */
static void the_sigmas_are_those_of_a_hundred_thousand_draws(void **state)
{
	static const double cases[][4] = { { 90, 90, 0, 65 }, { 82, 10, 250, 65 }, { 5, 200, 33, 50 },
		{ 100, 270, 91, -40 } };
	struct random r = { 11 };
	const int draws = 100000;

	(void)state;
	for (int c = 0; c < 4; c++) {
		struct sensor_attitude a = attitude(cases[c][0], cases[c][1], cases[c][2], cases[c][3]);
		struct sensor_vectors v = vectors(&a);
		struct sensor_sigmas s = sigmas(cases[c][0], cases[c][1], cases[c][2], cases[c][3]);
		double inc = 0, azi = 0, face = 0, dip = 0;
		for (int n = 0; n < draws; n++) {
			struct sensor_vectors w = v;
			for (int k = 0; k < 6; k++)
				*component(&w, k) += (k < 3 ? 3e-4 : 30) * random_normal(&r);
			struct sensor_attitude b = back(&w);
			inc += pow(b.inc_rad - a.inc_rad, 2);
			azi += pow(sb_wrap_half(b.azi_rad - a.azi_rad), 2);
			face += pow(sb_wrap_half(b.face_rad - a.face_rad), 2);
			dip += pow(b.dip_rad - a.dip_rad, 2);
		}
		assert_near(sqrt(inc / draws) / s.inc_rad, 1, 0.01);
		assert_near(sqrt(azi / draws) / s.azi_rad, 1, 0.01);
		assert_near(sqrt(face / draws) / s.face_rad, 1, 0.01);
		assert_near(sqrt(dip / draws) / s.dip_rad, 1, 0.01);
	}
}

static void near_plumb_the_azimuth_is_lost_in_noise(void **state)
{
	double steep = sigmas(1, 90, 0, 65).azi_rad, steeper = sigmas(0.1, 90, 0, 65).azi_rad;

	(void)state;
	assert_near(steeper / steep, 10, 0.1);
	assert_true(steeper > sb_rad(9));
}

static void steel_along_the_hole_moves_a_bore_to_the_east_and_not_one_to_the_north(void **state)
{
	struct sensor_attitude east = attitude(90, 90, 30, 60), north = attitude(90, 0, 30, 60);
	struct sensor_vectors v = vectors(&east), w = vectors(&north);
	struct sensor_slopes s;

	(void)state;
	assert_int_equal(sb_sensor_slopes(&v, &s), SENSOR_OK);
	assert_near(s.azi.field.z, -1.0 / 25000, 1e-15);
	assert_int_equal(sb_sensor_slopes(&w, &s), SENSOR_OK);
	assert_near(s.azi.field.z, 0, 1e-18);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_tool_hung_straight_down_shows_gravity_on_z),
		cmocka_unit_test(
			level_with_the_mark_on_top_gravity_pulls_against_x_and_with_the_mark_right_along_y),
		cmocka_unit_test(a_level_bore_to_magnetic_east_by_hand),
		cmocka_unit_test(a_falling_bore_to_magnetic_north_by_hand),
		cmocka_unit_test(straight_down_the_magnetic_face_is_the_marks_own_azimuth),
		cmocka_unit_test(every_roll_and_inclination_comes_back),
		cmocka_unit_test(any_attitude_comes_back_in_any_unit),
		cmocka_unit_test(close_to_the_plumb_line_inclination_and_tool_face_stay_exact),
		cmocka_unit_test(the_components_are_projections_of_gravity_and_field),
		cmocka_unit_test(the_published_relations_hold),
		cmocka_unit_test(a_tool_that_shows_gravity_upwards_is_turned_over),
		cmocka_unit_test(turning_the_tool_in_its_hole_changes_tool_faces_alone),
		cmocka_unit_test(vectors_without_length_or_number_are_refused_and_change_nothing),
		cmocka_unit_test(attitudes_out_of_range_are_refused_and_change_nothing),
		cmocka_unit_test(under_a_field_straight_down_there_is_no_azimuth),
		cmocka_unit_test(along_the_field_there_is_an_azimuth_but_no_magnetic_face),
		cmocka_unit_test(the_slopes_are_those_of_small_steps),
		cmocka_unit_test(the_slopes_are_the_published_weights),
		cmocka_unit_test(the_sigmas_are_those_of_a_hundred_thousand_draws),
		cmocka_unit_test(near_plumb_the_azimuth_is_lost_in_noise),
		cmocka_unit_test(steel_along_the_hole_moves_a_bore_to_the_east_and_not_one_to_the_north),
	};
	return run_tests(tests);
}
