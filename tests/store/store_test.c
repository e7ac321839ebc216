/* The job file through its public door: what is entered is there, in memory and on disk alike. */
#include "base/time.h"
#include "model/setting.h"
#include "store/book.h"

static void a_joint_logged_is_there_when_the_file_is_opened_again(void **state)
{
	(void)state;
	book_new(jobs_plain);
	struct sb_store *store = book_open(STORE_WRITE);
	struct reading r = book_reading(store, "80.10", "90.30");
	must(sb_row_field_put(
		sb_row_field("remarks"), &r, INCLINE_DOWN, "gravel, \"loud\"; Büchse", &book_err));
	must(sb_row_field_put(sb_row_field("returns"), &r, INCLINE_DOWN, "partial", &book_err));
	must(sb_row_field_put(sb_row_field("started"), &r, INCLINE_DOWN, "7:05", &book_err));
	sb_copy(r.reason, sizeof r.reason, "read twice");
	must(sb_store_log(store, "Ida", &r, &book_err));
	book_equals_file(store);
	sb_store_close(store);
	store = book_open(STORE_READ);
	const struct reading *got = sb_job_joint(sb_store_job(store), 1);
	assert_string_equal(got->inclination.text, "80.10");
	assert_string_equal(got->azimuth.text, "90.30");
	assert_string_equal(got->joint_length.text, "31");
	assert_string_equal(got->remarks, "gravel, \"loud\"; Büchse");
	assert_string_equal(got->started, "07:05");
	assert_int_equal(got->returns, RETURNS_PARTIAL);
	assert_string_equal(got->reason, "read twice");
	assert_string_equal(got->who, "Ida");
	sb_store_close(store);
	book_verify(0);
}

static void every_act_leaves_memory_equal_to_the_file(void **state)
{
	(void)state;
	sb_time_freeze(1764060592123);
	book_new(jobs_plain);
	struct sb_store *store = book_open(STORE_WRITE);
	must(sb_store_shift_begin(store, "Ida", "Ida, Jo", &book_err));
	book_drill(store, 6);
	must(book_log(store, "60", "110"));
	struct reading r = book_reading(store, "80.5", "90.2");
	sb_copy(r.reason, sizeof r.reason, "digits swapped");
	must(sb_store_correct(store, "Jo", sb_job_joint(sb_store_job(store), 7)->id, &r, &book_err));
	book_equals_file(store);
	must(sb_store_withdraw(store, "Ida", 4, "off line", &book_err));
	book_equals_file(store);
	book_drill(store, 2);
	must(book_log(store, "70", "99"));
	assert_true(sb_store_solution(store)->warning_count > 0);
	must(sb_store_acknowledge(store, "Uma", 0, "seen", &book_err));
	must(sb_store_note(store, "Ida", "rain\nall day", &book_err));
	must(sb_store_shift_end(store, "Ida", "", &book_err));
	book_equals_file(store);
	sb_store_close(store);
	book_verify(0);
	sb_time_freeze(-1);
}

static void the_sheet_comes_back_as_it_was_written(void **state)
{
	(void)state;
	static void (*const ready[])(struct job *) = { jobs_plain, jobs_curved, jobs_graded };
	for (size_t i = 0; i < sizeof ready / sizeof *ready; i++) {
		struct job sheet;
		ready[i](&sheet);
		jobs_row(
			&sheet, "corridor", (const char *const[]){ "10", "20.50", "1", "", "2", "", "3.50" });
		jobs_row(&sheet, "tally", (const char *const[]){ "1", "9.61" });
		jobs_row(&sheet, "tally", (const char *const[]){ "2", "9.59" });
		jobs_row(&sheet, "obstacles",
			(const char *const[]){ "gas main", "", "1", "-2.0", "3", "0.30", "" });
		jobs_row(&sheet, "soil",
			(const char *const[]){ "0", "9", "8", "clay, blue", "", "2", "", "", "1" });
		scratch("");
		scratch_empty();
		must(sb_store_create(book_path(), &sheet, "Ida", &book_err));
		struct sb_store *store = book_open(STORE_READ);
		const struct job *job = sb_store_job(store);
		for (size_t k = 0; k < sb_setting_count; k++) {
			char want[300] = "", got[300] = "";
			assert_int_equal(sb_setting_get(&sb_settings[k], &sheet, want, sizeof want),
				sb_setting_get(&sb_settings[k], job, got, sizeof got));
			assert_string_equal(want, got);
		}
		for (size_t t = 0; t < sb_sheet_table_count; t++) {
			const struct sheet_table *table = &sb_sheet_tables[t];
			assert_int_equal(sb_sheet_rows(table, &sheet), sb_sheet_rows(table, job));
			for (size_t r = 0; r < sb_sheet_rows(table, job); r++)
				for (size_t c = 0; c < table->column_count; c++) {
					char want[SB_NUMBER_TEXT], got[SB_NUMBER_TEXT];
					assert_string_equal(sb_sheet_cell_get(&table->columns[c],
								    sb_sheet_row(table, &sheet, r), want),
						sb_sheet_cell_get(&table->columns[c],
							sb_sheet_row(table, job, r), got));
				}
		}
		sb_store_close(store);
		sb_job_clear(&sheet);
		book_verify(0);
	}
}

static void a_job_is_never_made_over_another_file(void **state)
{
	(void)state;
	struct job job;
	book_new(jobs_plain);
	jobs_plain(&job);
	refused(sb_store_create(book_path(), &job, "Ida", &book_err), SB_EXISTS);
	assert_int_equal(unlink(book_path()), 0);
	/* SQLite would play this into the new file */
	scratch_text("tern.bore-journal", "left over");
	refused(sb_store_create(book_path(), &job, "Ida", &book_err), SB_EXISTS);
	assert_non_null(strstr(book_err.text, "-journal"));
	assert_int_equal(scratch_count(), 1);
	refused(sb_store_create(scratch("nowhere/tern.bore"), &job, "Ida", &book_err), SB_MISSING);
	refused(sb_store_create(scratch("b.bore"), &job, "", &book_err), SB_USAGE);
	job.profile_count = 1;
	refused(sb_store_create(scratch("b.bore"), &job, "Ida", &book_err), SB_FORMAT);
	assert_int_equal(scratch_count(), 1);
	sb_job_clear(&job);
}

static void every_act_needs_a_name_that_is_one(void **state)
{
	(void)state;
	book_new(jobs_plain);
	struct sb_store *store = book_open(STORE_WRITE);
	refused(sb_store_note(store, "", "x", &book_err), SB_USAGE);
	refused(sb_store_note(store, NULL, "x", &book_err), SB_USAGE);
	refused(sb_store_note(store, "  ", "x", &book_err), SB_USAGE);
	refused(sb_store_note(store, "Ida\x1b[31m", "x", &book_err), SB_FORMAT);
	refused(sb_store_note(store, "Ida\xff", "x", &book_err), SB_FORMAT);
	refused(sb_store_note(store,
			"Ida, who has a name that goes on and on and on and on until it does not fit any more",
			"x", &book_err),
		SB_RANGE);
	assert_int_equal(sb_store_job(store)->act_count, 1);
	sb_store_close(store);
	book_verify(0);
}

static void acts_that_the_job_does_not_allow_are_refused_and_leave_nothing(void **state)
{
	(void)state;
	char long_text[600];
	memset(long_text, 'x', sizeof long_text - 1);
	long_text[sizeof long_text - 1] = '\0';
	book_new(jobs_plain);
	struct sb_store *store = book_open(STORE_WRITE);
	refused(sb_store_withdraw(store, "Ida", 0, "off line", &book_err), SB_STATE);
	refused(sb_store_shift_end(store, "Ida", "", &book_err), SB_STATE);
	refused(sb_store_acknowledge(store, "Ida", 999, "seen", &book_err), SB_MISSING);
	book_drill(store, 2);
	must(book_log(store, "60", "110"));
	refused(sb_store_withdraw(store, "Ida", 3, "off line", &book_err), SB_RANGE);
	refused(sb_store_withdraw(store, "Ida", -1, "off line", &book_err), SB_RANGE);
	refused(sb_store_withdraw(store, "Ida", 1, "  ", &book_err), SB_RANGE);
	refused(sb_store_withdraw(store, "Ida", 1, long_text, &book_err), SB_RANGE);
	refused(sb_store_note(store, "Ida", "", &book_err), SB_RANGE);
	refused(sb_store_note(store, "Ida", long_text, &book_err), SB_RANGE);
	refused(sb_store_note(store, "Ida", "caf\xe9", &book_err), SB_FORMAT);
	refused(sb_store_shift_begin(store, "Ida", NULL, &book_err), SB_RANGE);
	refused(sb_store_acknowledge(store, "Ida", 0, "", &book_err), SB_RANGE);
	must(sb_store_acknowledge(store, "Ida", 0, "seen", &book_err));
	refused(sb_store_acknowledge(store, "Jo", 0, "seen", &book_err), SB_STATE);
	struct reading r = book_reading(store, "80", "90");
	refused(sb_store_correct(store, "Ida", 1, &r, &book_err), SB_RANGE); /* no reason */
	r.joint_length = (struct number){ 0, "" };
	refused(sb_store_log(store, "Ida", &r, &book_err), SB_RANGE);
	r = book_reading(store, "80", "90");
	r.inclination = (struct number){ 400, "400" };
	refused(sb_store_log(store, "Ida", &r, &book_err), SB_RANGE);
	r.inclination = (struct number){ 80, "eighty" };
	refused(sb_store_log(store, "Ida", &r, &book_err), SB_FORMAT);
	assert_int_equal(sb_store_job(store)->reading_count, 3);
	assert_int_equal(sb_store_job(store)->act_count, 5);
	book_equals_file(store);
	sb_store_close(store);
	book_verify(0);
}

static void what_the_caller_puts_into_the_bookkeeping_does_not_count(void **state)
{
	(void)state;
	book_new(jobs_plain);
	struct sb_store *store = book_open(STORE_WRITE);
	struct reading r = book_reading(store, "80", "90");
	r.id = 99;
	r.corrects = 98;
	r.act = 97;
	r.leg = 7;
	r.joint = 12;
	r.at_ms = 5;
	sb_copy(r.who, sizeof r.who, "Eve");
	r.inclination.value = 12; /* the text counts */
	must(sb_store_log(store, "Ida", &r, &book_err));
	const struct reading *got = &sb_store_job(store)->readings[0];
	assert_true(got->id == 1 && got->corrects == 0 && got->act == 2 && got->leg == 1 && got->joint == 1);
	assert_string_equal(got->who, "Ida");
	assert_near(got->inclination.value, 80, 0);
	book_equals_file(store);
	sb_store_close(store);
	book_verify(0);
}

static void a_correction_on_a_leg_that_was_pulled_back_stays_there(void **state)
{
	(void)state;
	book_new(jobs_plain);
	struct sb_store *store = book_open(STORE_WRITE);
	book_drill(store, 5);
	must(sb_store_withdraw(store, "Ida", 2, "off line", &book_err));
	book_drill(store, 2);
	struct reading r = book_reading(store, "80.7", "90.4");
	sb_copy(r.reason, sizeof r.reason, "misread");
	must(sb_store_correct(
		store, "Jo", sb_job_joint_in_leg(sb_store_job(store), 1, 4)->id, &r, &book_err));
	assert_string_equal(sb_job_joint(sb_store_job(store), 4)->inclination.text, "80.4");
	assert_string_equal(sb_job_joint_in_leg(sb_store_job(store), 1, 4)->inclination.text, "80.7");
	book_equals_file(store);
	sb_store_close(store);
	book_verify(0);
}

static void a_second_writer_is_told_who_has_the_job(void **state)
{
	(void)state;
	book_new(jobs_plain);
	struct sb_store *store = book_open(STORE_WRITE), *second;
	refused(sb_store_open(book_path(), STORE_WRITE, "Jo", &second, &book_err), SB_BUSY);
	assert_non_null(strstr(book_err.text, "Ida has tern.bore open"));
	assert_non_null(strstr(book_err.text, "this machine"));
	char pid[32];
	snprintf(pid, sizeof pid, "process %ld", (long)getpid());
	assert_non_null(strstr(book_err.text, pid));
	/* by another way to the same file, too */
	assert_int_equal(symlink(book_path(), scratch("other.bore")), 0);
	refused(sb_store_open(scratch("other.bore"), STORE_WRITE, "Jo", &second, &book_err), SB_BUSY);
	must(sb_store_open(book_path(), STORE_READ, "Jo", &second, &book_err));
	assert_false(sb_store_writes(second));
	refused(sb_store_note(second, "Jo", "hello", &book_err), SB_DENIED);
	sb_store_close(second);
	must(sb_store_note(store, "Ida", "hello", &book_err));
	sb_store_close(store);
	must(sb_store_open(book_path(), STORE_WRITE, "Jo", &second, &book_err));
	sb_store_close(second);
	assert_int_equal(scratch_count(), 2); /* the job and the link: no lock file stays */
}

static void an_onlooker_sees_each_joint_after_a_refresh(void **state)
{
	(void)state;
	bool changed = true;
	book_new(jobs_plain);
	struct sb_store *store = book_open(STORE_WRITE), *onlooker = book_open(STORE_READ);
	must(sb_store_refresh(onlooker, &changed, &book_err));
	assert_false(changed);
	for (int i = 1; i <= 3; i++) {
		book_drill(store, 1);
		assert_int_equal(sb_job_in_ground(sb_store_job(onlooker)), i - 1);
		must(sb_store_refresh(onlooker, &changed, &book_err));
		assert_true(changed);
		assert_int_equal(sb_job_in_ground(sb_store_job(onlooker)), i);
		book_equals_file(onlooker);
	}
	must(sb_store_refresh(store, &changed, &book_err));
	assert_false(changed);
	sb_store_close(onlooker);
	sb_store_close(store);
}

static void a_job_moved_or_replaced_while_open_is_noticed_and_not_written(void **state)
{
	(void)state;
	bool changed;
	book_new(jobs_plain);
	struct sb_store *store = book_open(STORE_WRITE);
	book_drill(store, 1);
	assert_int_equal(rename(book_path(), scratch("moved.bore")), 0);
	refused(book_log(store, "80", "90"), SB_MISSING);
	refused(sb_store_refresh(store, &changed, &book_err), SB_MISSING);
	scratch_text("tern.bore", "something else");
	refused(book_log(store, "80", "90"), SB_MISSING);
	assert_int_equal(sb_job_in_ground(sb_store_job(store)), 1);
	assert_int_equal(rename(scratch("moved.bore"), book_path()), 0);
	must(book_log(store, "80", "90"));
	assert_int_equal(unlink(book_path()), 0);
	refused(book_log(store, "80", "90"), SB_MISSING);
	sb_store_close(store);
}

static void room_and_path_are_told(void **state)
{
	(void)state;
	book_new(jobs_plain);
	struct sb_store *store = book_open(STORE_READ);
	assert_true(sb_store_room(store) >= 0);
	assert_string_equal(sb_store_path(store), book_path());
	sb_store_close(store);
	sb_store_close(NULL);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_joint_logged_is_there_when_the_file_is_opened_again),
		cmocka_unit_test(every_act_leaves_memory_equal_to_the_file),
		cmocka_unit_test(the_sheet_comes_back_as_it_was_written),
		cmocka_unit_test(a_job_is_never_made_over_another_file),
		cmocka_unit_test(every_act_needs_a_name_that_is_one),
		cmocka_unit_test(acts_that_the_job_does_not_allow_are_refused_and_leave_nothing),
		cmocka_unit_test(what_the_caller_puts_into_the_bookkeeping_does_not_count),
		cmocka_unit_test(a_correction_on_a_leg_that_was_pulled_back_stays_there),
		cmocka_unit_test(a_second_writer_is_told_who_has_the_job),
		cmocka_unit_test(an_onlooker_sees_each_joint_after_a_refresh),
		cmocka_unit_test(a_job_moved_or_replaced_while_open_is_noticed_and_not_written),
		cmocka_unit_test(room_and_path_are_told),
	};

	return run_tests(tests);
}
