/* The job file through its public door: what is entered is there, in memory and on disk alike. */
#include "base/time.h"
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

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_joint_logged_is_there_when_the_file_is_opened_again),
		cmocka_unit_test(every_act_leaves_memory_equal_to_the_file),
	};

	return run_tests(tests);
}
