/* The pipe string: what is missing of it, in which words, and what may not be entered. */
#include "model/pipe_string.h"

#include "base/str.h"
#include "model/fact.h"

#include "support/jobs.h"
#include "support/near.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static struct job job;
static struct pipe_string string;
static struct sb_err err;

static int begin(void **state)
{
	(void)state;
	jobs_plain(&job);
	return 0;
}

static int tidy(void **state)
{
	(void)state;
	sb_pipe_string_clear(&string);
	sb_job_clear(&job);
	return 0;
}

static void lay_out(int joints)
{
	for (int i = 1; i <= joints; i++) {
		struct pipe p = { .joint = (int)job.pipe_count + 1, .length = sb_number_of(40, 2) };
		p.fact.act = (int64_t)job.pipe_count + 1;
		assert_int_equal(sb_pipe_string_check_pipe(&job, &p, "", &err), 0);
		sb_fact_add(&job, ACT_PIPE, &p);
	}
}

static void record(enum pipe_record_kind kind, int joint, enum outcome outcome)
{
	struct pipe_record r = { .kind = kind, .joint = joint, .outcome = outcome };

	if (sb_pipe_string_check_record(&job, &r, &err))
		fail_msg("%s", err.text);
	sb_fact_add(&job, ACT_PIPE_RECORD, &r);
}

static void record_all(int joints)
{
	for (int i = 1; i <= joints; i++) {
		if (i < joints) {
			record(RECORD_WELD, i, OUTCOME_GOOD);
			record(RECORD_INSPECTION, i, OUTCOME_GOOD);
		}
		record(RECORD_COATING, i, OUTCOME_GOOD);
	}
	record(RECORD_TEST, 0, OUTCOME_GOOD);
	record(RECORD_DRAG, 0, OUTCOME_GOOD);
}

static const char *missing(void)
{
	static char text[600];

	sb_pipe_string_clear(&string);
	sb_pipe_string_look(&job, &string);
	sb_lacks_say(&string.lacks, text, sizeof text);
	return text;
}

static void numbers_are_said_as_people_say_them(void **state)
{
	(void)state;
	char text[SB_NUMBERS_TEXT];
	static const int some[] = { 3, 7, 9, 10, 12, 13, 14, 15, 20, 22, 24, 26, 28 };
	struct {
		size_t from, count;
		const char *text;
	} cases[] = {
		{ 0, 0, "" },
		{ 0, 1, "3" },
		{ 0, 2, "3 and 7" },
		{ 0, 4, "3, 7, 9 and 10" },
		{ 2, 6, "9, 10 and 12 to 15" },
		{ 4, 4, "12 to 15" },
		{ 0, 13, "3, 7, 9, 10, 12 to 15, 20 and 4 more" },
	};

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		sb_numbers_say(some + cases[i].from, cases[i].count, text);
		assert_string_equal(text, cases[i].text);
	}
	int many[400];
	for (int i = 0; i < 400; i++)
		many[i] = 100000 + 2 * i;
	sb_numbers_say(many, 400, text);
	assert_string_equal(text, "100000, 100002, 100004, 100006, 100008, 100010 and 394 more");
}

/* What does not fit is counted: a long list is never cut in a word. */
static void sentences_that_do_not_fit_are_counted(void **state)
{
	(void)state;
	struct lacks l = { 0 };
	char text[60];

	sb_lacks_add(&l, "weld %d is bad", 4);
	sb_lacks_say(&l, text, sizeof text);
	assert_string_equal(text, "weld 4 is bad");
	sb_lacks_add(&l, "joints 1 to 7 have no coating test");
	sb_lacks_add(&l, "the drag section has no record");
	sb_lacks_say(&l, text, sizeof text);
	assert_string_equal(text, "weld 4 is bad; and 2 more");
	for (int i = 0; i < 2 * SB_LACKS; i++)
		sb_lacks_add(&l, "and so on");
	assert_int_equal(l.count, SB_LACKS);
	char room[2000];
	for (size_t size = 1; size < sizeof room; size++) {
		memset(room, 'x', sizeof room);
		sb_lacks_say(&l, room, size);
		assert_true(strlen(room) < size);
		assert_int_equal(room[size], 'x');
	}
}

/* 1 % or 5 ft, whichever is greater, where the contract says nothing. Source: common practice of a
 * handbook. 400 ft: 5 ft; 310 joints of 31 ft = 9,610 ft: 96.1 ft. */
static void extra_pipe_is_a_hundredth_of_the_bore_but_five_feet_at_least(void **state)
{
	(void)state;
	assert_near(sb_pipe_string_extra_m(&job, 400 * 0.3048), 5 * 0.3048, 1e-12);
	assert_near(sb_pipe_string_extra_m(&job, 9610 * 0.3048), 96.1 * 0.3048, 1e-9);
	assert_true(isnan(sb_pipe_string_extra_m(&job, (double)NAN)));
	jobs_set(&job, "pull", "extra", "20");
	assert_near(sb_pipe_string_extra_m(&job, 400 * 0.3048), 20 * 0.3048, 1e-12);
}

static void the_string_is_held_against_the_bore_and_what_is_pulled_past_it(void **state)
{
	(void)state;
	jobs_follow(&job, 4); /* 124 ft */
	lay_out(3);	      /* 120 ft */
	record_all(3);
	assert_string_equal(
		missing(), "the string is 120.0 ft long, 9.0 short of the bore and the 5.0 past it");
	assert_near(string.length_m, 120 * 0.3048, 1e-9);
	assert_near(string.needed_m, 129 * 0.3048, 1e-9);
	assert_near(string.list[2].from_m, 80 * 0.3048, 1e-9);
	lay_out(1);
	record(RECORD_WELD, 3, OUTCOME_GOOD);
	record(RECORD_INSPECTION, 3, OUTCOME_GOOD);
	record(RECORD_COATING, 4, OUTCOME_GOOD);
	assert_string_equal(missing(), "");
}

static void what_the_contract_does_not_ask_for_is_not_missing(void **state)
{
	(void)state;
	lay_out(2);
	assert_string_equal(missing(),
		"weld 1 has no record; weld 1 has no inspection; joints 1 and 2 have no coating test; the pressure test has no record; the drag section has no record");
	static const char *const keys[] = { "weld", "inspection", "coating", "test", "drag" };
	for (size_t i = 0; i < 5; i++) {
		size_t before = string.lacks.count;
		jobs_set(&job, "string", keys[i], "no");
		missing();
		assert_int_equal(string.lacks.count, before - 1);
	}
	assert_string_equal(missing(), "");
}

static void polyethylene_has_fusions_and_no_coating(void **state)
{
	(void)state;
	jobs_set(&job, "product_pipe", "material", "pe");
	lay_out(2);
	assert_string_equal(missing(),
		"weld 1 has no record; weld 1 has no inspection; the pressure test has no record; the drag section has no record");
}

static void the_last_word_on_a_thing_holds(void **state)
{
	(void)state;
	lay_out(3);
	record_all(3);
	assert_string_equal(missing(), "");
	record(RECORD_COATING, 2, OUTCOME_BAD);
	assert_string_equal(missing(), "the coating of joint 2 is bad");
	record(RECORD_COATING, 2, OUTCOME_GOOD);
	assert_string_equal(missing(), "");
	record(RECORD_INSPECTION, 1, OUTCOME_BAD);
	record(RECORD_INSPECTION, 2, OUTCOME_BAD);
	assert_string_equal(missing(), "the inspections of welds 1 and 2 are bad");
	job.pipe_records[job.pipe_record_count - 1].struck = true;
	assert_string_equal(missing(), "the inspection of weld 1 is bad");
}

/* A weld that was bad is cut out: what was inspected is no more. */
static void a_weld_made_again_is_inspected_again(void **state)
{
	(void)state;
	lay_out(2);
	record_all(2);
	record(RECORD_WELD, 1, OUTCOME_BAD);
	assert_string_equal(missing(), "weld 1 is bad; weld 1 has no inspection");
	record(RECORD_WELD, 1, OUTCOME_GOOD);
	assert_string_equal(missing(), "weld 1 has no inspection");
	record(RECORD_INSPECTION, 1, OUTCOME_GOOD);
	assert_string_equal(missing(), "");
}

static void the_pressure_test_is_held_against_the_contract(void **state)
{
	(void)state;
	struct pipe_record t = { .kind = RECORD_TEST, .outcome = OUTCOME_GOOD };
	lay_out(1);
	record(RECORD_COATING, 1, OUTCOME_GOOD);
	record(RECORD_DRAG, 0, OUTCOME_GOOD);
	jobs_set(&job, "string", "test_pressure", "1500");
	jobs_set(&job, "string", "test_hours", "8");
	sb_fact_add(&job, ACT_PIPE_RECORD, &t);
	assert_string_equal(missing(),
		"the pressure test has no pressure, 1500 psi is asked; the pressure test has no hours, 8 are asked");
	t.pressure = sb_number_of(1499.9, 1);
	t.hours = sb_number_of(8, 0);
	sb_fact_add(&job, ACT_PIPE_RECORD, &t);
	assert_string_equal(missing(), "the pressure test held 1499.9 psi, 1500 is asked");
	t.pressure = sb_number_of(1500, 0);
	t.outcome = OUTCOME_BAD;
	sb_fact_add(&job, ACT_PIPE_RECORD, &t);
	assert_string_equal(missing(), "the pressure test was bad");
	t.outcome = OUTCOME_GOOD;
	sb_fact_add(&job, ACT_PIPE_RECORD, &t);
	assert_string_equal(missing(), "");
}

/* Struck out in the middle, a joint leaves a gap without welds, until it is laid out again. */
static void a_joint_struck_out_leaves_a_gap(void **state)
{
	(void)state;
	lay_out(4);
	record_all(4);
	job.pipes[1].struck = true;
	assert_string_equal(missing(), "joint 2 is struck out and not laid out again");
	job.pipes[0].struck = true;
	assert_string_equal(missing(), "joints 1 and 2 are struck out and not laid out again");
	assert_false(sb_pipe_string_weld_at(&string, 1));
	struct pipe again = { .joint = 2, .length = sb_number_of(38, 1) };
	assert_int_equal(sb_pipe_string_check_pipe(&job, &again, "", &err), 0);
	sb_fact_add(&job, ACT_PIPE, &again);
	assert_string_equal(missing(), "joint 1 is struck out and not laid out again");
	assert_near(string.length_m, 118 * 0.3048, 1e-9);
	assert_int_equal(string.list[0].pipe->joint, 2);
	again.joint = 6;
	assert_int_equal(sb_pipe_string_check_pipe(&job, &again, "", &err), -1);
	assert_non_null(strstr(err.text, "joint 5 is next"));
}

static void a_length_with_a_digit_too_many_needs_a_reason(void **state)
{
	(void)state;
	struct pipe p = { .joint = 1, .length = sb_number_of(400, 0) };
	assert_int_equal(sb_pipe_string_check_pipe(&job, &p, "", &err), 0); /* nothing to hold it against */
	lay_out(2);
	p.joint = 3;
	assert_int_equal(sb_pipe_string_check_pipe(&job, &p, " ", &err), -1);
	assert_string_equal(err.text,
		"Joint 3 of 400 ft is far longer than any other of the string, 40 at most. Look whether a digit is too many; if it is so, say why in the remarks.");
	assert_int_equal(sb_pipe_string_check_pipe(&job, &p, "ten joints welded in the yard", &err), 0);
	p.length = sb_number_of(120, 0); /* three at once */
	assert_int_equal(sb_pipe_string_check_pipe(&job, &p, "", &err), 0);
	p.length = sb_number_of(4, 0);
	assert_int_equal(sb_pipe_string_check_pipe(&job, &p, "", &err), 0);
}

static void records_of_what_is_not_there_are_refused(void **state)
{
	(void)state;
	static const struct {
		struct pipe_record record;
		const char *words;
	} cases[] = {
		{ { .kind = RECORD_WELD, .joint = 2 }, "joint 3 is not in the string" },
		{ { .kind = RECORD_INSPECTION, .joint = 5 }, "joint 5 is not in the string" },
		{ { .kind = RECORD_COATING, .joint = 3 }, "There is no joint 3" },
		{ { .kind = RECORD_COATING, .joint = 0 }, "There is no joint 0" },
		{ { .kind = RECORD_TEST, .joint = 1 }, "the whole string's" },
		{ { .kind = RECORD_COATING, .joint = 1, .hours = { 2, "2" } }, "Only the pressure test" },
	};

	lay_out(2);
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		assert_int_equal(sb_pipe_string_check_record(&job, &cases[i].record, &err), -1);
		assert_non_null(strstr(err.text, cases[i].words));
	}
}

static void an_entry_says_what_it_is(void **state)
{
	(void)state;
	char text[SB_STRING_WHAT];
	struct pipe p = { .joint = 4, .length = sb_number_of(40.15, 2), .mark = "H 7731" };
	struct pipe_record r = { .kind = RECORD_TEST, .reference = "T-4" };

	sb_pipe_string_what_pipe(&job, &p, text);
	assert_string_equal(text, "joint 4, 40.15 ft, H 7731");
	r.pressure = sb_number_of(1500, 0);
	r.hours = sb_number_of(8, 0);
	sb_pipe_string_what_record(&job, &r, text);
	assert_string_equal(text, "the pressure test good, 1500 psi, 8 hours, T-4");
	r = (struct pipe_record){ .kind = RECORD_INSPECTION, .joint = 3, .outcome = OUTCOME_BAD };
	sb_pipe_string_what_record(&job, &r, text);
	assert_string_equal(text, "the inspection of weld 3 bad");
	memset(p.mark, 'm', sizeof p.mark - 1);
	sb_pipe_string_what_pipe(&job, &p, text);
	assert_true(strlen(text) < sizeof text);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, begin, tidy)

int main(void)
{
	const struct CMUnitTest tests[] = {
		TEST(numbers_are_said_as_people_say_them),
		TEST(sentences_that_do_not_fit_are_counted),
		TEST(extra_pipe_is_a_hundredth_of_the_bore_but_five_feet_at_least),
		TEST(the_string_is_held_against_the_bore_and_what_is_pulled_past_it),
		TEST(what_the_contract_does_not_ask_for_is_not_missing),
		TEST(polyethylene_has_fusions_and_no_coating),
		TEST(the_last_word_on_a_thing_holds),
		TEST(a_weld_made_again_is_inspected_again),
		TEST(the_pressure_test_is_held_against_the_contract),
		TEST(a_joint_struck_out_leaves_a_gap),
		TEST(a_length_with_a_digit_too_many_needs_a_reason),
		TEST(records_of_what_is_not_there_are_refused),
		TEST(an_entry_says_what_it_is),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
