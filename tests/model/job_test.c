/* Which reading stands for which joint: through corrections, pull-backs and legs. */
#include "model/job.h"

#include "base/str.h"
#include "geom/random.h"
#include "support/jobs.h"
#include "support/near.h"

#include <string.h>

static struct job job;

static int setup(void **state)
{
	(void)state;
	jobs_plain(&job);
	return 0;
}

static int teardown(void **state)
{
	(void)state;
	sb_job_clear(&job);
	return 0;
}

static const char *inclination_of(int joint)
{
	const struct reading *r = sb_job_joint(&job, joint);

	return r ? r->inclination.text : "none";
}

static void joints_are_counted_from_one(void **state)
{
	(void)state;
	assert_int_equal(sb_job_in_ground(&job), 0);
	assert_int_equal(sb_job_leg(&job), 1);
	assert_null(sb_job_joint(&job, 1));
	jobs_log(&job, "", "80", "90");
	jobs_log(&job, "", "81", "90");
	assert_int_equal(sb_job_in_ground(&job), 2);
	assert_string_equal(inclination_of(1), "80");
	assert_string_equal(inclination_of(2), "81");
	assert_null(sb_job_joint(&job, 0));
	assert_null(sb_job_joint(&job, 3));
	assert_null(sb_job_joint(&job, -1));
}

static void a_correction_takes_its_joints_place_and_keeps_the_old_reading(void **state)
{
	(void)state;
	int64_t first = jobs_log(&job, "", "80", "90");
	int64_t second = jobs_log(&job, "", "18", "90");
	jobs_log(&job, "", "82", "90");
	int64_t third = jobs_correct(&job, 2, "81", "90");
	int64_t fourth = jobs_correct(&job, 2, "81.5", "90"); /* and is corrected itself */
	assert_int_equal(job.reading_count, 5);
	assert_int_equal(job.joint_count, 3);
	assert_int_equal(sb_job_in_ground(&job), 3);
	assert_string_equal(inclination_of(1), "80");
	assert_string_equal(inclination_of(2), "81.5");
	assert_string_equal(inclination_of(3), "82");
	assert_string_equal(sb_job_reading(&job, second)->inclination.text, "18");
	assert_true(sb_job_replaced(&job, sb_job_reading(&job, second)));
	assert_true(sb_job_replaced(&job, sb_job_reading(&job, third)));
	assert_false(sb_job_replaced(&job, sb_job_reading(&job, fourth)));
	assert_false(sb_job_replaced(&job, sb_job_reading(&job, first)));
	assert_null(sb_job_reading(&job, 0));
	assert_null(sb_job_reading(&job, 6));
}

static void pulled_back_joints_leave_the_ground_and_stay_in_the_log(void **state)
{
	(void)state;
	for (int i = 0; i < 6; i++)
		jobs_log(&job, "", "80", "90");
	jobs_withdraw(&job, 4);
	assert_int_equal(sb_job_in_ground(&job), 4);
	assert_int_equal(sb_job_leg(&job), 2);
	assert_null(sb_job_joint(&job, 5));
	jobs_log(&job, "", "81", "90");
	assert_string_equal(inclination_of(5), "81");
	assert_string_equal(inclination_of(4), "80");
	assert_int_equal(job.joint_count, 7);
	assert_string_equal(sb_job_joint_in_leg(&job, 1, 5)->inclination.text, "80");
	assert_string_equal(sb_job_joint_in_leg(&job, 2, 5)->inclination.text, "81");
	assert_null(sb_job_joint_in_leg(&job, 2, 4));
	assert_null(sb_job_joint_in_leg(&job, 3, 5));
	jobs_withdraw(&job, 0);
	assert_int_equal(sb_job_in_ground(&job), 0);
	assert_int_equal(sb_job_leg(&job), 3);
}

static void a_joint_of_an_old_leg_can_be_corrected(void **state)
{
	(void)state;
	for (int i = 0; i < 6; i++)
		jobs_log(&job, "", "80", "90");
	jobs_withdraw(&job, 4);
	jobs_log(&job, "", "81", "90");
	const struct reading *old = sb_job_joint_in_leg(&job, 1, 5);
	struct reading r = *old;
	r.id = 8;
	r.corrects = old->id;
	r.inclination = sb_number_of(79, 0);
	sb_job_add_reading(&job, &r);
	assert_string_equal(sb_job_joint_in_leg(&job, 1, 5)->inclination.text, "79");
	assert_string_equal(inclination_of(5), "81");
	assert_int_equal(sb_job_in_ground(&job), 5);
	assert_int_equal(job.joint_count, 7);
}

/* The store numbers readings by the order of time, with gaps. */
static void a_reading_is_found_by_its_number_with_gaps(void **state)
{
	int64_t id = 0;

	(void)state;
	for (int i = 0; i < 500; i++) {
		struct reading r = jobs_reading(&job, "", "80", "90");
		id += 1 + i % 7;
		r.id = id;
		sb_job_add_reading(&job, &r);
	}
	for (int64_t k = -1; k <= id + 1; k++) {
		const struct reading *r = sb_job_reading(&job, k), *want = NULL;
		for (size_t i = 0; i < job.reading_count; i++)
			if (job.readings[i].id == k)
				want = &job.readings[i];
		assert_ptr_equal(r, want);
	}
}

static void the_tally_gives_a_joints_length_else_the_nominal_one(void **state)
{
	(void)state;
	assert_string_equal(sb_job_tally(&job, 1).text, "31");
	jobs_row(&job, "tally", (const char *const[]){ "1", "31.20" });
	jobs_row(&job, "tally", (const char *const[]){ "2", "31.35" });
	jobs_row(&job, "tally", (const char *const[]){ "5", "30.10" }); /* a gap */
	jobs_row(&job, "tally", (const char *const[]){ "3", "30.90" }); /* out of order */
	assert_string_equal(sb_job_tally(&job, 1).text, "31.20");
	assert_string_equal(sb_job_tally(&job, 2).text, "31.35");
	assert_string_equal(sb_job_tally(&job, 3).text, "30.90");
	assert_string_equal(sb_job_tally(&job, 4).text, "31");
	assert_string_equal(sb_job_tally(&job, 5).text, "30.10");
	assert_string_equal(sb_job_tally(&job, 6).text, "31");
	assert_string_equal(sb_job_tally(&job, 0).text, "31");
}

static void add_act(enum act_kind kind, const char *who)
{
	struct act act = { .id = (int64_t)job.act_count + 1, .kind = kind };

	sb_copy(act.who, sizeof act.who, who);
	sb_job_add_act(&job, &act);
}

static void the_shift_that_runs_is_the_last_that_began_and_did_not_end(void **state)
{
	(void)state;
	assert_null(sb_job_shift(&job));
	add_act(ACT_NEW, "Ida");
	assert_null(sb_job_shift(&job));
	add_act(ACT_SHIFT_BEGIN, "Ida");
	add_act(ACT_LOG, "Ida");
	assert_string_equal(sb_job_shift(&job)->who, "Ida");
	add_act(ACT_SHIFT_END, "Ida");
	add_act(ACT_NOTE, "Ida");
	assert_null(sb_job_shift(&job));
	add_act(ACT_SHIFT_BEGIN, "Per");
	assert_string_equal(sb_job_shift(&job)->who, "Per");
	add_act(ACT_SHIFT_BEGIN, "Una"); /* nobody ended the one before */
	assert_string_equal(sb_job_shift(&job)->who, "Una");
}

static void acts_have_names_both_ways(void **state)
{
	static const char *const names[] = { "new", "log", "correct", "withdraw", "note", "acknowledge",
		"shift-begin", "shift-end" };

	(void)state;
	for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
		enum act_kind kind;
		assert_string_equal(sb_act_name((enum act_kind)i), names[i]);
		assert_int_equal(sb_act_parse(names[i], &kind), 0);
		assert_int_equal((int)kind, i);
	}
	enum act_kind kind = ACT_NOTE;
	assert_int_equal(sb_act_parse("erase", &kind), -1);
	assert_int_equal(kind, ACT_NOTE);
}

static void a_copy_is_a_job_of_its_own(void **state)
{
	struct job copy;

	(void)state;
	jobs_follow(&job, 5);
	jobs_withdraw(&job, 4);
	add_act(ACT_SHIFT_BEGIN, "Ida");
	sb_job_add_acknowledgement(&job, &(struct acknowledgement){ .kind = "corridor", .joint = 3 });
	jobs_row(&job, "tally", (const char *const[]){ "1", "31.20" });
	sb_job_copy(&job, &copy);
	assert_memory_equal(copy.profile, job.profile, job.profile_count * sizeof *job.profile);
	assert_memory_equal(copy.readings, job.readings, job.reading_count * sizeof *job.readings);
	assert_int_equal(copy.in_ground, 4);
	for (int i = 0; i < 20; i++) {
		jobs_log(&copy, "", "70", "90");
		add_act(ACT_LOG, "Ida");
	}
	jobs_row(&copy, "profile", (const char *const[]){ "1300", "100", "" });
	jobs_row(&copy, "soil", (const char *const[]){ "0", "10", "5", "clay", "", "", "", "", "" });
	jobs_withdraw(&copy, 1);
	assert_int_equal(sb_job_in_ground(&copy), 1);
	assert_int_equal(sb_job_in_ground(&job), 4);
	assert_int_equal(job.reading_count, 5);
	assert_int_equal(job.profile_count, 4);
	assert_int_equal(job.soil_count, 0);
	assert_int_equal(copy.act_count, 1);
	assert_int_equal(copy.acknowledgement_count, 1);
	sb_job_clear(&job);
	assert_string_equal(copy.tally[0].length.text, "31.20");
	assert_string_equal(sb_job_joint(&copy, 1)->azimuth.text, "90.0000");
	sb_job_clear(&copy);
	assert_int_equal(copy.reading_count, 0);
	assert_null(copy.readings);
}

/* The same bookkeeping the slow way: for each joint in the ground, look through everything there was. */
static void any_order_of_acts_leaves_the_right_joints_in_the_ground(void **state)
{
	struct random r = { 9 };
	int64_t stands[400]; /* the first reading of each joint in the ground */
	int in_ground = 0;

	(void)state;
	for (int i = 0; i < 400; i++) {
		double chance = random_unit(&r);
		if (chance < 0.6 || in_ground == 0) {
			stands[in_ground++] = jobs_log(&job, "", random_unit(&r) < 0.9 ? "80" : "", "90");
		} else if (chance < 0.9) {
			int joint = 1 + (int)(random_unit(&r) * in_ground);
			stands[joint - 1] = jobs_correct(&job, joint, "85", "90");
		} else {
			in_ground = (int)(random_unit(&r) * (in_ground + 1));
			jobs_withdraw(&job, in_ground);
		}
		assert_int_equal(sb_job_in_ground(&job), in_ground);
		for (int k = 0; k < in_ground; k++) {
			assert_int_equal(sb_job_joint(&job, k + 1)->id, stands[k]);
			assert_int_equal(sb_job_joint(&job, k + 1)->joint, k + 1);
		}
	}
}

#define HERE(name) cmocka_unit_test_setup_teardown(name, setup, teardown)

static const struct CMUnitTest tests[] = {
	HERE(joints_are_counted_from_one),
	HERE(a_correction_takes_its_joints_place_and_keeps_the_old_reading),
	HERE(pulled_back_joints_leave_the_ground_and_stay_in_the_log),
	HERE(a_joint_of_an_old_leg_can_be_corrected),
	HERE(a_reading_is_found_by_its_number_with_gaps),
	HERE(the_tally_gives_a_joints_length_else_the_nominal_one),
	HERE(the_shift_that_runs_is_the_last_that_began_and_did_not_end),
	HERE(acts_have_names_both_ways),
	HERE(a_copy_is_a_job_of_its_own),
	HERE(any_order_of_acts_leaves_the_right_joints_in_the_ground),
};

int main(void)
{
	return run_tests(tests);
}
