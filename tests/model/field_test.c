/* The gates against made readings: each cause is named through realistic noise, and clean readings raise no
 * alarm. Noise of a reading: 0.0003 g and 30 nT on each component (common practice, no source). */
#include "model/field.h"

#include "geom/angle.h"
#include "geom/magnet.h"

#include "geom/random.h"
#include "support/near.h"

#include <string.h>

static const struct field_reference here = { .gravity_g = 1.0007,
	.field_nt = 50120,
	.dip_rad = 66.1 * SB_PI / 180,
	.sigma_field_nt = 50,
	.sigma_dip_rad = 0.05 * SB_PI / 180 };

static struct sensor_vectors true_vectors(double inc, double azi, double face)
{
	struct sensor_attitude a = { .inc_rad = sb_rad(inc),
		.azi_rad = sb_rad(azi),
		.face_rad = sb_rad(face),
		.gravity = here.gravity_g,
		.field = here.field_nt,
		.dip_rad = here.dip_rad };
	struct sensor_vectors v;

	assert_int_equal(sb_sensor_vectors(&a, &v), SENSOR_OK);
	return v;
}

static struct triad shaken(struct triad t, double noise, struct random *r)
{
	return (struct triad){ t.x + noise * random_normal(r), t.y + noise * random_normal(r),
		t.z + noise * random_normal(r) };
}

static struct sensor_vectors noisy(struct sensor_vectors v, struct random *r)
{
	return (struct sensor_vectors){ shaken(v.gravity, 3e-4, r), shaken(v.field, 30, r) };
}

/* Level and a little off it, as a crossing is. */
static struct sensor_vectors drawn(struct random *r)
{
	return noisy(true_vectors(random_between(r, 72, 104), random_between(r, 0, 360),
			     random_between(r, 0, 360)),
		r);
}

static struct field_verdict judge(const struct sensor_vectors *v)
{
	struct field_reading reading = sb_field_reading(v);
	struct field_verdict out = sb_field_judge(&reading, &here, &sb_field_gates_usual);

	assert_true(strlen(out.text) > 20 && strlen(out.text) < 250);
	assert_true(out.text[strlen(out.text) - 1] == '.');
	assert_null(strstr(out.text, "nan"));
	return out;
}

static void ten_thousand_clean_readings_raise_no_alarm(void **state)
{
	struct random r = { 31 };

	(void)state;
	for (int i = 0; i < 10000; i++) {
		struct sensor_vectors v =
			noisy(true_vectors(random_between(&r, 1, 179), random_between(&r, 0, 360),
				      random_between(&r, 0, 360)),
				&r);
		assert_int_equal(judge(&v).cause, CAUSE_NONE);
	}
}

static void the_gates_stand_where_they_are_set(void **state)
{
	struct field_reading reading = {
		.gravity_g = here.gravity_g, .field_nt = here.field_nt + 299, .dip_rad = here.dip_rad
	};
	struct field_gates gates = sb_field_gates_usual;

	(void)state;
	assert_near(gates.field_nt, 300, 0); /* common practice in the trade */
	assert_near(sb_deg(gates.dip_rad), 0.3, 1e-15);
	assert_int_equal(sb_field_judge(&reading, &here, &gates).cause, CAUSE_NONE);
	reading.field_nt += 2;
	assert_int_equal(sb_field_judge(&reading, &here, &gates).cause, CAUSE_STEEL);
	gates.field_nt = 500;
	assert_int_equal(sb_field_judge(&reading, &here, &gates).cause, CAUSE_NONE);
	reading.dip_rad -= sb_rad(0.31);
	assert_int_equal(sb_field_judge(&reading, &here, &gates).cause, CAUSE_STEEL);
	gates.dip_rad = sb_rad(0.4);
	reading.gravity_g *= 1.0031;
	assert_int_equal(sb_field_judge(&reading, &here, &gates).cause, CAUSE_MOVING);
	gates.gravity_share = 0.004;
	assert_int_equal(sb_field_judge(&reading, &here, &gates).cause, CAUSE_NONE);
}

static void steel_moves_the_field_and_leaves_gravity(void **state)
{
	struct random r = { 32 };
	int found = 0;

	(void)state;
	for (int i = 0; i < 2000; i++) {
		struct sensor_vectors v = drawn(&r);
		v.field = shaken(v.field, 1500, &r);
		struct field_verdict out = judge(&v);
		/* in some directions so little is seen that the gates hold */
		assert_true(out.cause == CAUSE_STEEL || out.cause == CAUSE_NONE || out.cause == CAUSE_AXES);
		assert_true(out.cause != CAUSE_AXES || fabs(sb_deg(out.dip_off_rad)) > 3);
		found += out.cause == CAUSE_STEEL;
	}
	assert_true(found > 1900);
}

static void a_string_that_moves_is_told_from_steel(void **state)
{
	struct random r = { 33 };

	(void)state;
	for (int i = 0; i < 2000; i++) {
		struct sensor_vectors v = drawn(&r);
		v.gravity = sb_triad_scale(v.gravity, random_unit(&r) < 0.5 ? 0.985 : 1.02);
		v.gravity = shaken(v.gravity, 0.003, &r);
		struct field_verdict out = judge(&v);
		assert_int_equal(out.cause, CAUSE_MOVING);
		assert_non_null(strstr(out.text, "moved"));
	}
}

static void both_off_without_one_explanation_is_said_to_be_unclear(void **state)
{
	struct sensor_vectors v = true_vectors(88, 130, 20);

	(void)state;
	v.gravity = sb_triad_scale(v.gravity, 1.03);
	v.field = sb_triad_scale(v.field, 1.05);
	assert_int_equal(judge(&v).cause, CAUSE_UNCLEAR);
}

/* ---- units ---- */

static void every_unit_of_gravity_taken_for_every_other_is_named(void **state)
{
	struct random r = { 34 };

	(void)state;
	for (size_t is = 0; is < sb_gravity_unit_count; is++)
		for (size_t taken = 0; taken < sb_gravity_unit_count; taken++) {
			struct sensor_vectors v = drawn(&r);
			v.gravity = sb_triad_scale(
				v.gravity, sb_gravity_units[taken].size / sb_gravity_units[is].size);
			struct field_reading reading = sb_field_reading(&v);
			reading.gravity = &sb_gravity_units[taken];
			struct field_verdict out = sb_field_judge(&reading, &here, &sb_field_gates_usual);
			assert_int_equal(out.cause, is == taken ? CAUSE_NONE : CAUSE_GRAVITY_UNIT);
			if (is != taken) {
				assert_ptr_equal(out.unit, &sb_gravity_units[is]);
				assert_non_null(strstr(out.text, sb_gravity_units[is].word));
			}
		}
}

static void every_unit_of_field_taken_for_every_other_is_named(void **state)
{
	struct random r = { 35 };

	(void)state;
	for (size_t is = 0; is < sb_field_unit_count; is++)
		for (size_t taken = 0; taken < sb_field_unit_count; taken++) {
			struct sensor_vectors v = drawn(&r);
			v.field =
				sb_triad_scale(v.field, sb_field_units[taken].size / sb_field_units[is].size);
			struct field_reading reading = sb_field_reading(&v);
			reading.field = &sb_field_units[taken];
			struct field_verdict out = sb_field_judge(&reading, &here, &sb_field_gates_usual);
			assert_int_equal(out.cause, is == taken ? CAUSE_NONE : CAUSE_FIELD_UNIT);
			if (is != taken)
				assert_ptr_equal(out.unit, &sb_field_units[is]);
		}
}

static void metres_per_second_squared_for_g_in_words(void **state)
{
	struct sensor_vectors v = true_vectors(90, 45, 0);

	(void)state;
	v.gravity = sb_triad_scale(v.gravity, 9.80665);
	assert_string_equal(judge(&v).text,
		"Total gravity of 9.8135 g cannot be: it is right in metres per second squared. Give the reading, or set "
		"the tool's unit, in m/s2.");
}

static void gravity_and_field_in_one_anothers_place_are_named(void **state)
{
	struct sensor_vectors v = true_vectors(85, 200, 10), w = { v.field, v.gravity };

	(void)state;
	assert_int_equal(judge(&w).cause, CAUSE_EXCHANGED);
}

/* ---- dead sensors ---- */

static void a_dead_sensor_is_named_where_it_matters(void **state)
{
	struct random r = { 36 };
	int asked = 0, named = 0;

	(void)state;
	for (int i = 0; i < 3000; i++) {
		struct sensor_vectors v = drawn(&r);
		bool gravity = i % 2;
		int axis = i % 3;
		struct triad *t = gravity ? &v.gravity : &v.field;
		double *dead = axis == 0 ? &t->x : axis == 1 ? &t->y : &t->z;
		double share = *dead / (gravity ? here.gravity_g : here.field_nt);
		*dead = 0;
		if (fabs(share) < 0.2)
			continue;
		struct field_verdict out = judge(&v);
		asked++;
		named += out.cause == (gravity ? CAUSE_GRAVITY_DEAD : CAUSE_FIELD_DEAD) && out.axis == axis;
	}
	assert_true(asked > 1500);
	assert_int_equal(named, asked);
}

static void a_set_that_shows_nothing_at_all_is_dead(void **state)
{
	struct sensor_vectors v = true_vectors(85, 200, 10), w = v;

	(void)state;
	v.gravity = (struct triad){ 0, 0, 0 };
	w.field = (struct triad){ 0, 0, 0 };
	struct field_verdict gravity = judge(&v), field = judge(&w);
	assert_int_equal(gravity.cause, CAUSE_GRAVITY_DEAD);
	assert_int_equal(gravity.axis, AXIS_ALL);
	assert_int_equal(field.cause, CAUSE_FIELD_DEAD);
	assert_int_equal(field.axis, AXIS_ALL);
}

static void a_zero_that_belongs_there_is_not_called_dead(void **state)
{
	struct sensor_vectors v = true_vectors(90, 140, 0);

	(void)state;
	v.gravity.z = v.gravity.y = 0; /* level, mark up: as one would type it */
	assert_int_equal(judge(&v).cause, CAUSE_NONE);
	v.gravity.x *= 1.01;
	assert_int_equal(judge(&v).cause, CAUSE_MOVING);
	v.gravity.x *= 0.98 / 1.01;
	assert_int_equal(judge(&v).cause, CAUSE_MOVING);
}

/* ---- axes ---- */

/* The set of axes that undoes another: the transpose. */
static struct sensor_axes undone(const struct sensor_axes *axes)
{
	struct sensor_axes back = AXES_OURS;

	for (int i = 0; i < 3; i++) {
		back.axis[axes->axis[i]] = i;
		back.sign[axes->axis[i]] = axes->sign[i];
	}
	return back;
}

/* Every set of axes that the field could have come in, other than the right one. */
static void axes_that_are_not_ours_are_named_or_explained_more_simply(void **state)
{
	struct random r = { 37 };
	int shown = 0, exact = 0;

	(void)state;
	for (int which = 1; which < AXES_COUNT; which++)
		for (int i = 0; i < 40; i++) {
			struct sensor_vectors v = drawn(&r);
			struct sensor_axes wrong = sb_axes_nth(which), right = undone(&wrong);
			v.field = sb_axes_turn(&wrong, v.field);
			struct field_verdict out = judge(&v);
			if (fabs(out.dip_off_rad) < sb_rad(3.1))
				continue; /* the exchange hardly shows at this attitude */
			shown++;
			assert_int_equal(out.cause, CAUSE_AXES);
			/* what is proposed does put all three right */
			struct sensor_vectors w = v;
			w.field = sb_axes_turn(&out.axes, v.field);
			w.gravity = sb_triad_scale(v.gravity, out.axes.gravity_up ? -1 : 1);
			assert_int_equal(judge(&w).cause, CAUSE_NONE);
			char named[AXES_TEXT], wanted[AXES_TEXT];
			sb_axes_text(&out.axes, named);
			sb_axes_text(&right, wanted);
			exact += strcmp(named, which == 7 ? "x y z up" : wanted) == 0;
		}
	assert_true(shown > 1500);
	assert_true(exact > 0.9 * shown);
}

static void a_single_sign_and_a_single_exchange_are_named_exactly(void **state)
{
	static const char *const faults[] = { "-x y z", "x -y z", "x y -z", "y x z", "x z y", "z y x" };
	struct sensor_vectors v = true_vectors(78, 130, 33);

	(void)state;
	for (size_t i = 0; i < 6; i++) {
		struct sensor_vectors w = v;
		for (int n = 0; n < AXES_COUNT; n++) {
			struct sensor_axes axes = sb_axes_nth(n);
			char text[AXES_TEXT];
			sb_axes_text(&axes, text);
			if (strcmp(text, faults[i]) == 0)
				w.field = sb_axes_turn(&axes, v.field);
		}
		struct field_verdict out = judge(&w);
		char text[AXES_TEXT];
		sb_axes_text(&out.axes, text);
		assert_int_equal(out.cause, CAUSE_AXES);
		assert_string_equal(text, faults[i]); /* each of these undoes itself */
		assert_int_equal(out.others, 0);
	}
}

static void gravity_shown_upwards_is_named(void **state)
{
	struct random r = { 38 };

	(void)state;
	for (int i = 0; i < 200; i++) {
		struct sensor_vectors v = drawn(&r);
		v.gravity = sb_triad_scale(v.gravity, -1);
		struct field_verdict out = judge(&v);
		assert_int_equal(out.cause, CAUSE_AXES);
		assert_true(out.axes.gravity_up || out.others > 0);
	}
	struct sensor_vectors v = true_vectors(78, 130, 33);
	v.gravity = sb_triad_scale(v.gravity, -1);
	assert_string_equal(judge(&v).text,
		"Gravity and field have the right size, but the dip is -66.1 degrees where it must be 66.1: it is right "
		"with gravity turned over (axes `x y z up`). Put the tool's axes right, or what was typed.");
}

/* ---- what was not shown ---- */

static void totals_alone_are_judged_by_what_there_is(void **state)
{
	struct field_reading reading = { .gravity_g = NAN, .field_nt = 51000, .dip_rad = NAN };
	struct field_verdict out = sb_field_judge(&reading, &here, &sb_field_gates_usual);

	(void)state;
	assert_int_equal(out.cause, CAUSE_STEEL);
	assert_string_equal(out.text,
		"Total field is 51000 nT where it must be 50120 nT: steel likely near, the azimuth off. Read again; "
		"if it stays, azimuth by gyro, coil or hold.");
	reading = (struct field_reading){ .gravity_g = 1.02, .field_nt = NAN, .dip_rad = NAN };
	out = sb_field_judge(&reading, &here, &sb_field_gates_usual);
	assert_int_equal(out.cause, CAUSE_MOVING);
	assert_null(strstr(out.text, "nan"));
	reading = (struct field_reading){ .gravity_g = NAN, .field_nt = NAN, .dip_rad = sb_rad(60) };
	out = sb_field_judge(&reading, &here, &sb_field_gates_usual);
	assert_int_equal(out.cause, CAUSE_STEEL);
	assert_null(strstr(out.text, "nan"));
	reading.dip_rad = NAN;
	assert_int_equal(sb_field_judge(&reading, &here, &sb_field_gates_usual).cause, CAUSE_NONE);
}

/* Every second degree of the globe at both ends of the model's years, at the ground and a mile under and over
 * it. */
static void no_place_on_earth_has_a_total_field_beyond_the_bounds(void **state)
{
	double least = HUGE_VAL, most = 0;

	(void)state;
	for (int latitude = -90; latitude <= 90; latitude += 2)
		for (int longitude = -180; longitude < 180; longitude += 2)
			for (int k = 0; k < 4; k++) {
				struct magnet m;
				assert_int_equal(sb_magnet_at(sb_rad(latitude), sb_rad(longitude),
							 k & 1 ? 5000 : -900, k & 2 ? 2025 : 2030, &m),
					MAGNET_OK);
				least = fmin(least, m.field.total_nt);
				most = fmax(most, m.field.total_nt);
			}
	assert_true(least > SB_FIELD_LEAST * 1.05 && least < 23000);
	assert_true(most < SB_FIELD_MOST * 0.97 && most > 66000);
}

/* WGS 84: normal gravity 9.7803253359 at the equator, 9.8321849378 m/s2 at the pole (NIMA TR8350.2,
 * table 3.4, from memory); at 45 degrees 9.806199 on GRS 80 (Moritz 2000, from memory), which lies 1.4e-6
 * above WGS 84 at the equator and the pole. */
static void gravity_of_the_latitude_is_the_published_one(void **state)
{
	(void)state;
	assert_near(sb_field_gravity_g(0, 0) * 9.80665, 9.7803253359, 1e-12);
	assert_near(sb_field_gravity_g(sb_rad(90), 0) * 9.80665, 9.8321849378, 1e-9);
	assert_near(sb_field_gravity_g(sb_rad(-45), 0) * 9.80665, 9.806199 - 1.4e-6, 3e-7);
	assert_near((sb_field_gravity_g(1, 0) - sb_field_gravity_g(1, 1000)) * 9.80665, 3.086e-3, 1e-12);
}

static void every_cause_has_its_word(void **state)
{
	(void)state;
	for (int i = CAUSE_NONE; i <= CAUSE_UNCLEAR; i++)
		assert_true(strlen(sb_field_cause_word((enum field_cause)i)) >= 2);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(ten_thousand_clean_readings_raise_no_alarm),
		cmocka_unit_test(the_gates_stand_where_they_are_set),
		cmocka_unit_test(steel_moves_the_field_and_leaves_gravity),
		cmocka_unit_test(a_string_that_moves_is_told_from_steel),
		cmocka_unit_test(both_off_without_one_explanation_is_said_to_be_unclear),
		cmocka_unit_test(every_unit_of_gravity_taken_for_every_other_is_named),
		cmocka_unit_test(every_unit_of_field_taken_for_every_other_is_named),
		cmocka_unit_test(metres_per_second_squared_for_g_in_words),
		cmocka_unit_test(gravity_and_field_in_one_anothers_place_are_named),
		cmocka_unit_test(a_dead_sensor_is_named_where_it_matters),
		cmocka_unit_test(a_set_that_shows_nothing_at_all_is_dead),
		cmocka_unit_test(a_zero_that_belongs_there_is_not_called_dead),
		cmocka_unit_test(axes_that_are_not_ours_are_named_or_explained_more_simply),
		cmocka_unit_test(a_single_sign_and_a_single_exchange_are_named_exactly),
		cmocka_unit_test(gravity_shown_upwards_is_named),
		cmocka_unit_test(totals_alone_are_judged_by_what_there_is),
		cmocka_unit_test(no_place_on_earth_has_a_total_field_beyond_the_bounds),
		cmocka_unit_test(gravity_of_the_latitude_is_the_published_one),
		cmocka_unit_test(every_cause_has_its_word),
	};
	return run_tests(tests);
}
