/* Readings as vectors and totals: what is worked out of them, what is held, and what a reason releases. */
#include "model/sixaxis.h"

#include "base/str.h"
#include "geom/angle.h"
#include "model/setting.h"
#include "model/solve.h"
#include "support/jobs.h"
#include "support/near.h"

#include <string.h>

static struct job job;
static struct solution solution;
static struct reading r;
static struct sb_err err;

static int setup(void **state)
{
	(void)state;
	memset(&job, 0, sizeof job);
	memset(&solution, 0, sizeof solution);
	memset(&r, 0, sizeof r);
	memset(&err, 0, sizeof err);
	jobs_plain(&job);
	return 0;
}

static int teardown(void **state)
{
	(void)state;
	sb_solution_clear(&solution);
	sb_job_clear(&job);
	return 0;
}

static void put(const char *field, const char *text)
{
	if (sb_row_field_put(sb_row_field(field), &r, job.incline, text, &err))
		fail_msg("%s: %s", field, err.text);
}

/* Derived (relations of geom/sensor.h): inclination 90, azimuth 1, mark 40 degrees right of high side;
 * gravity 1 g, field 49,200 nT, dip 66.1 degrees. */
static const char *const gravity[] = { "-0.76604", "0.64279", "0.00000" };
static const char *const field[] = { "-34681.3", "28646.9", "19929.9" };

static void put_vectors(const char *const g[3], const char *const f[3])
{
	static const char *const names[] = { "gravity_x", "gravity_y", "gravity_z", "field_x", "field_y",
		"field_z" };

	for (int i = 0; i < 3; i++) {
		put(names[i], g[i]);
		put(names[3 + i], f[i]);
	}
}

static void site(const char *total, const char *dip)
{
	jobs_set(&job, "azimuth", "total_field", total);
	jobs_set(&job, "azimuth", "dip", dip);
}

static void assert_held(const char *words)
{
	memset(&err, 0, sizeof err);
	assert_int_equal(sb_sixaxis_fill(&job, &r, &err), -1);
	if (err.code != SB_HELD || strstr(err.text, words) == NULL)
		fail_msg("'%s' (%d) lacks '%s'", err.text, err.code, words);
}

static void assert_refused(const char *words)
{
	memset(&err, 0, sizeof err);
	assert_int_equal(sb_sixaxis_fill(&job, &r, &err), -1);
	if (err.code != SB_RANGE || strstr(err.text, words) == NULL)
		fail_msg("'%s' (%d) lacks '%s'", err.text, err.code, words);
}

static void vectors_give_what_was_not_typed(void **state)
{
	(void)state;
	put_vectors(gravity, field);
	put("slid", "12");
	assert_int_equal(sb_sixaxis_fill(&job, &r, &err), 0);
	assert_string_equal(r.inclination.text, "90.00");
	assert_string_equal(r.azimuth.text, "1.00");
	assert_string_equal(r.tool_face.text, "40.0");
	assert_string_equal(r.total_gravity.text, "1.0000");
	assert_string_equal(r.total_field.text, "49200");
	assert_string_equal(r.dip.text, "66.10");
}

static void a_tool_with_other_axes_and_a_bias_gives_the_same(void **state)
{
	(void)state;
	/* its x is our y, its y is our -x; a bias of 0.01 g and 100 nT on our x */
	const char *const turned_g[] = { "0.64279", "0.75604", "0.00000" };
	const char *const turned_f[] = { "28646.9", "34581.3", "19929.9" };
	jobs_set(&job, "tool", "sensor_axes", "-y x z");
	jobs_set(&job, "tool", "gravity_bias_x", "0.01");
	jobs_set(&job, "tool", "field_bias_x", "100");
	put_vectors(turned_g, turned_f);
	assert_int_equal(sb_sixaxis_fill(&job, &r, &err), 0);
	assert_string_equal(r.inclination.text, "90.00");
	assert_string_equal(r.azimuth.text, "1.00");
	assert_string_equal(r.total_field.text, "49200");
}

static void angles_that_contradict_the_vectors_are_held_until_somebody_says_why(void **state)
{
	(void)state;
	put_vectors(gravity, field);
	put("azimuth", "96");
	assert_held("Azimuth 96 was typed, but the vectors say 1.00.");
	put("azimuth", "1.08"); /* rounding and all */
	assert_int_equal(sb_sixaxis_fill(&job, &r, &err), 0);
	put("inclination", "88");
	assert_held("Inclination 88 was typed");
	sb_copy(r.reason, sizeof r.reason, "the display said so");
	assert_int_equal(sb_sixaxis_fill(&job, &r, &err), 0);
	assert_string_equal(r.inclination.text, "88");
}

static void units_and_exchanged_vectors_are_named_whether_the_sheet_has_a_field_or_not(void **state)
{
	const char *const micro[] = { "-34.6813", "28.6469", "19.9299" };
	const char *const metres[] = { "-7.5123", "6.3036", "0.0001" };
	const char *const milligal[] = { "-751230", "630360", "10" };

	(void)state;
	for (int sited = 0; sited < 2; sited++) {
		if (sited)
			site("49200", "66.1");
		memset(&r, 0, sizeof r);
		put_vectors(gravity, micro);
		assert_held("in uT");
		put_vectors(metres, field);
		assert_held("metres per second squared");
		put_vectors(milligal, field);
		assert_held("milligal");
		put_vectors(field, gravity);
		assert_held("Gravity and field are exchanged");
		/* with a reason it is logged as it is, and what it was held for stays to be seen */
		sb_copy(r.reason, sizeof r.reason, "so the tool shows it");
		assert_int_equal(sb_sixaxis_fill(&job, &r, &err), 0);
		struct sixaxis_verdict v;
		assert_true(sb_sixaxis_judge(&job, &r, &v));
		assert_int_equal(v.field.cause, CAUSE_EXCHANGED);
		/* the angles of the other unit are right: a direction has no size */
		memset(&r, 0, sizeof r);
		sb_copy(r.reason, sizeof r.reason, "so the tool shows it");
		put_vectors(gravity, micro);
		assert_int_equal(sb_sixaxis_fill(&job, &r, &err), 0);
		assert_string_equal(r.azimuth.text, "1.00");
	}
}

static void what_cannot_be_is_refused_whatever_the_reason(void **state)
{
	const char *const nothing[] = { "0", "0", "0" };
	const char *const plumb[] = { "0", "0", "1" };

	(void)state;
	sb_copy(r.reason, sizeof r.reason, "as it is");
	put_vectors(nothing, field);
	assert_refused("no length");
	put_vectors(gravity, nothing);
	assert_refused("no length");
	put_vectors(plumb, field);
	assert_refused("straight up or down");
	put("field_z", "");
	assert_refused("5 of the six components");
}

/* ---- the gate, as a joint meets it ---- */

static const struct warning *logged(
	const char *total_gravity, const char *total_field, const char *dip, enum azimuth_by by)
{
	r = jobs_reading(&job, "", "80.0", "90.0");
	put("total_gravity", total_gravity);
	put("total_field", total_field);
	put("dip", dip);
	r.azimuth_by = by;
	r.id = (int64_t)job.reading_count + 1;
	r.leg = 1;
	r.joint = sb_job_in_ground(&job) + 1;
	sb_job_add_reading(&job, &r);
	sb_solution_clear(&solution);
	jobs_solve(&job, &solution);
	for (size_t i = solution.warning_count; i-- > 0;)
		if (solution.warnings[i].kind == WARNING_FIELD)
			return &solution.warnings[i];
	return NULL;
}

static void the_gate_says_what_is_off_and_what_to_do(void **state)
{
	(void)state;
	site("49200", "66.1");
	const struct warning *w = logged("1.0000", "50640", "66.1", AZIMUTH_BY_TOOL);
	assert_non_null(w);
	assert_string_equal(w->text,
		"Total field is 50640 nT where it must be 49200 nT, dip is right, gravity is right: steel likely near, the azimuth off. Read again; "
		"if it stays, azimuth by gyro, coil or hold.");
	/* 1440 nT of a gate of 300 */
	assert_near(w->value, 4.8, 1e-9);
	assert_near(w->limit, 1, 0);
}

static void the_value_is_of_what_is_furthest_beyond_its_gate(void **state)
{
	(void)state;
	site("49200", "66.1");
	/* dip 1.2 degrees of 0.3; field right */
	const struct warning *w = logged("", "49200", "67.3", AZIMUTH_BY_TOOL);
	assert_near(w->value, 4, 1e-9);
	assert_non_null(strstr(w->text, "Dip is 67.3 degrees where it must be 66.1, total field is right"));
	teardown(NULL);
	setup(NULL);
	/* gravity alone needs no field in the sheet: 0.02 of a gate of 0.005 */
	w = logged("1.02", "", "", AZIMUTH_BY_TOOL);
	assert_near(w->value, 4, 1e-9);
	assert_non_null(strstr(w->text, "moved or shook"));
}

static void a_dip_a_little_off_is_not_said_to_be_what_it_must_be(void **state)
{
	(void)state;
	site("49200", "66.10");
	jobs_set(&job, "tool", "dip_gate", "0.02");
	const struct warning *w = logged("", "49200", "66.13", AZIMUTH_BY_TOOL);
	assert_non_null(strstr(w->text, "Dip is 66.13 degrees where it must be 66.10"));
}

static void an_azimuth_that_does_not_hang_on_the_field_is_not_warned_of_for_steel(void **state)
{
	(void)state;
	const enum azimuth_by others[] = { AZIMUTH_BY_GYRO, AZIMUTH_BY_COIL, AZIMUTH_BY_HOLD };
	for (size_t i = 0; i < 3; i++) {
		site("49200", "66.1");
		jobs_set(&job, "azimuth", "convergence", "0");
		assert_null(logged("1.0000", "50640", "66.1", others[i]));
		/* moved while read spoils the inclination too, whoever gave the azimuth */
		assert_non_null(logged("1.0300", "49200", "66.1", others[i]));
		teardown(NULL);
		setup(NULL);
	}
}

static void a_total_that_the_earth_has_nowhere_needs_no_field_in_the_sheet(void **state)
{
	(void)state;
	assert_null(logged("1.0000", "31000", "", AZIMUTH_BY_TOOL));
	const struct warning *w = logged("1.0000", "99000", "", AZIMUTH_BY_TOOL);
	assert_non_null(w);
	assert_non_null(strstr(w->text, "Total field is 99000 nT, which the earth has nowhere"));
	teardown(NULL);
	setup(NULL);
	w = logged("1.0000", "49.2", "", AZIMUTH_BY_TOOL);
	assert_non_null(strstr(w->text, "it is right in microtesla"));
}

int main(void)
{
#define fresh(test) cmocka_unit_test_setup_teardown(test, setup, teardown)
	const struct CMUnitTest tests[] = {
		fresh(vectors_give_what_was_not_typed),
		fresh(a_tool_with_other_axes_and_a_bias_gives_the_same),
		fresh(angles_that_contradict_the_vectors_are_held_until_somebody_says_why),
		fresh(units_and_exchanged_vectors_are_named_whether_the_sheet_has_a_field_or_not),
		fresh(what_cannot_be_is_refused_whatever_the_reason),
		fresh(the_gate_says_what_is_off_and_what_to_do),
		fresh(the_value_is_of_what_is_furthest_beyond_its_gate),
		fresh(a_dip_a_little_off_is_not_said_to_be_what_it_must_be),
		fresh(an_azimuth_that_does_not_hang_on_the_field_is_not_warned_of_for_steel),
		fresh(a_total_that_the_earth_has_nowhere_needs_no_field_in_the_sheet),
	};
	return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
