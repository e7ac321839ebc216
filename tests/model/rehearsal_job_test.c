/* Rehearsals that a person drills: taken up again from the log alone. */
#include "geom/angle.h"
#include "model/rehearsal.h"
#include "model/rehearsal_truth.h"
#include "support/jobs.h"
#include "support/near.h"

#include <string.h>

static struct job job;

static int setup(void **state)
{
	(void)state;
	jobs_plain(&job);
	jobs_set(&job, "steering", "slide_turn", "0.06");
	return 0;
}

static int teardown(void **state)
{
	(void)state;
	sb_job_clear(&job);
	return 0;
}

static struct rehearsal *taken_up(void)
{
	struct sb_err err = { 0 };
	struct rehearsal *r = sb_rehearsal_of(&job, &err);

	assert_non_null(r);
	return r;
}

/* Drills the next joint of the job and logs what the sensor gives, as the screen does. */
static struct stand drill_and_log(double face_deg, double slid_m)
{
	struct rehearsal *r = taken_up();
	struct reading reading;

	sb_rehearsal_drill(r, 31 * 0.3048, sb_rad(face_deg), slid_m, &reading);
	struct stand end = r->stands[r->stand_count - 1];
	sb_rehearsal_free(r);
	reading.leg = sb_job_leg(&job);
	reading.joint = sb_job_in_ground(&job) + 1;
	reading.id = job.reading_count ? job.readings[job.reading_count - 1].id + 1 : 1;
	sb_job_add_reading(&job, &reading);
	return end;
}

static void the_truth_drilled_again_from_the_log_is_the_same_to_the_last_bit(void **state)
{
	struct sb_err err = { 0 };

	(void)state;
	assert_int_equal(sb_rehearsal_mark(&job, sb_rehearsal_scenario("nominal"), 42, &err), 0);
	assert_string_equal(job.name, "REHEARSAL Plain");
	for (int i = 0; i < 8; i++) {
		/* Orders with more digits than anybody sets: the hole is drilled by what the log will say. */
		struct stand end = drill_and_log(30.456 + 40 * i, i % 2 ? 3.0481234 : 0);
		struct rehearsal *r = taken_up();
		assert_int_equal(r->joint_count, i + 1);
		assert_memory_equal(&r->stands[r->stand_count - 1], &end, sizeof end);
		sb_rehearsal_free(r);
	}
}

static void asked_twice_for_the_same_joint_it_gives_the_same_reading(void **state)
{
	struct reading first, again;
	struct sb_err err = { 0 };

	(void)state;
	assert_int_equal(sb_rehearsal_mark(&job, sb_rehearsal_scenario("noisy"), 7, &err), 0);
	drill_and_log(0, 3);
	struct rehearsal *r = taken_up();
	sb_rehearsal_drill(r, 9, 1, 4, &first);
	sb_rehearsal_free(r);
	r = taken_up();
	sb_rehearsal_drill(r, 9, 1, 4, &again);
	sb_rehearsal_free(r);
	assert_string_equal(first.inclination.text, again.inclination.text);
	assert_string_equal(first.azimuth.text, again.azimuth.text);
}

static void joints_pulled_back_are_pulled_back_of_the_truth_too(void **state)
{
	struct sb_err err = { 0 };
	struct stand kept = { 0 };

	(void)state;
	assert_int_equal(sb_rehearsal_mark(&job, sb_rehearsal_scenario("nominal"), 3, &err), 0);
	for (int i = 0; i < 7; i++) {
		struct stand end = drill_and_log(15 * i, 2);
		if (i == 3)
			kept = end;
	}
	jobs_withdraw(&job, 4);
	struct rehearsal *r = taken_up();
	assert_int_equal(r->joint_count, 4);
	assert_memory_equal(&r->stands[r->stand_count - 1], &kept, sizeof kept);
	sb_rehearsal_free(r);
	struct stand end = drill_and_log(0, 5);
	r = taken_up();
	assert_int_equal(r->joint_count, 5);
	assert_memory_equal(&r->stands[r->stand_count - 1], &end, sizeof end);
	sb_rehearsal_free(r);
}

static void a_real_job_is_no_rehearsal(void **state)
{
	struct sb_err err = { 0 };

	(void)state;
	assert_null(sb_rehearsal_of(&job, &err));
	assert_non_null(strstr(err.text, "no rehearsal"));
	jobs_set(&job, "job", "rehearsal", "moon 3");
	assert_null(sb_rehearsal_of(&job, &err));
	jobs_set(&job, "job", "rehearsal", "nominal");
	assert_null(sb_rehearsal_of(&job, &err));
}

#define T(name) cmocka_unit_test_setup_teardown(name, setup, teardown)
static const struct CMUnitTest tests[] = {
	T(the_truth_drilled_again_from_the_log_is_the_same_to_the_last_bit),
	T(asked_twice_for_the_same_joint_it_gives_the_same_reading),
	T(joints_pulled_back_are_pulled_back_of_the_truth_too),
	T(a_real_job_is_no_rehearsal),
};

int main(void)
{
	return run_tests(tests);
}
