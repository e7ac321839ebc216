/* A copy of the job that is known to be whole, made while it is in use. */
#include "store/copy.h"
#include "store/stranger.h"
#include "support/fault.h"

#include <signal.h>
#include <sys/resource.h>

static const char *target(void)
{
	static char path[PATH_MAX];

	sb_copy(path, sizeof path, scratch("stick.bore"));
	return path;
}

static void backup_equals_job(void)
{
	struct sb_store *job = book_open(STORE_READ), *copy;
	char a[65], b[65];

	must(sb_store_open(target(), STORE_READ, "", &copy, &book_err));
	book_same(sb_store_job(job), sb_store_solution(job), sb_store_job(copy), sb_store_solution(copy));
	sb_store_head(job, a);
	sb_store_head(copy, b);
	assert_string_equal(a, b);
	sb_store_close(copy);
	sb_store_close(job);
}

static void a_copy_made_while_the_job_is_in_use_is_the_job(void **state)
{
	(void)state;
	book_new(jobs_plain);
	struct sb_store *store = book_open(STORE_WRITE);
	book_drill(store, 6);
	must(sb_store_backup(book_path(), target(), &book_err));
	backup_equals_job();
	/* and the writer's lock on the file has not been lost by it */
	struct sb_store *second;
	refused(sb_store_open(book_path(), STORE_WRITE, "Jo", &second, &book_err), SB_BUSY);
	must(book_log(store, "80", "90"));
	sb_store_close(store);
	struct verify_report report = { 0 };
	must(sb_store_verify(target(), &report, &book_err));
	assert_int_equal(report.damages, 0);
	sb_verify_report_clear(&report);
	assert_int_equal(scratch_count(), 2);
}

static void a_copy_can_be_worked_on_as_a_job_of_its_own(void **state)
{
	(void)state;
	book_new(jobs_plain);
	struct sb_store *store = book_open(STORE_WRITE);
	book_drill(store, 3);
	sb_store_close(store);
	must(sb_store_backup(book_path(), target(), &book_err));
	assert_int_equal(rename(target(), book_path()), 0);
	store = book_open(STORE_WRITE);
	must(book_log(store, "80", "90"));
	sb_store_close(store);
	book_verify(0);
}

static void what_is_there_is_never_overwritten(void **state)
{
	(void)state;
	book_new(jobs_plain);
	scratch_text("stick.bore", "another job");
	refused(sb_store_backup(book_path(), target(), &book_err), SB_EXISTS);
	char *text = scratch_read(target());
	assert_string_equal(text, "another job");
	free(text);
	refused(sb_store_backup(book_path(), book_path(), &book_err), SB_EXISTS);
	assert_int_equal(unlink(target()), 0);
	scratch_text("stick.bore-journal", "left over");
	refused(sb_store_backup(book_path(), target(), &book_err), SB_EXISTS);
	refused(sb_store_backup(book_path(), scratch("nowhere/stick.bore"), &book_err), SB_MISSING);
	assert_int_equal(scratch_count(), 2);
}

static void a_disk_without_room_gets_no_half_a_copy(void **state)
{
	(void)state;
	struct rlimit old, limit;
	book_new(jobs_plain);
	signal(SIGXFSZ, SIG_IGN);
	assert_int_equal(getrlimit(RLIMIT_FSIZE, &old), 0);
	limit = old;
	limit.rlim_cur = 20000;
	assert_int_equal(setrlimit(RLIMIT_FSIZE, &limit), 0);
	int status = sb_store_backup(book_path(), target(), &book_err);
	assert_int_equal(setrlimit(RLIMIT_FSIZE, &old), 0);
	assert_int_equal(status, -1);
	assert_int_equal(book_err.code, SB_FULL);
	assert_int_equal(scratch_count(), 1);
}

/* It may be all there is, so it is copied; but the copy says the same of itself. */
static void a_job_with_a_damaged_row_can_be_copied_and_the_copy_tells(void **state)
{
	(void)state;
	book_new(jobs_plain);
	struct sb_store *store = book_open(STORE_WRITE);
	book_drill(store, 3);
	sb_store_close(store);
	stranger_tampers("UPDATE reading SET torque = '4' WHERE id = 2");
	must(sb_store_backup(book_path(), target(), &book_err));
	struct verify_report report = { 0 };
	must(sb_store_verify(target(), &report, &book_err));
	assert_int_equal(report.damages, 1);
	assert_non_null(strstr(sb_str_get(&report.text), "reading 2"));
	sb_verify_report_clear(&report);
}

static void a_damaged_file_is_not_copied(void **state)
{
	(void)state;
	book_new(jobs_plain);
	stranger_does("CREATE TABLE zebra (a)");
	refused(sb_store_backup(book_path(), target(), &book_err), SB_DAMAGED);
	assert_int_equal(scratch_count(), 1);
}

/* Whatever step of the copy fails, there is none. */
static void a_stick_that_fails_gets_no_half_a_copy(void **state)
{
	(void)state;
	const struct gate failing = { .schema = &sb_schema, .vfs = FAULT_VFS, .wait_ms = 10 };
	fault_register();
	book_new(jobs_plain);
	for (int kind = 0; kind < FAULT_KINDS; kind++) {
		bool fired = true;
		/* VACUUM INTO deletes nothing that was there. */
		for (int n = 1; fired && kind != FAULT_DELETE; n++) {
			struct sb_sql *db;
			int64_t version;
			must(sb_gate_open(book_path(), false, &failing, &db, &version, &book_err));
			fault_arm((enum fault_kind)kind, n, n & 1, false);
			int status = sb_copy_make(db, &failing, version, target(), &book_err);
			fired = fault_disarm();
			sb_sql_close(db);
			assert_int_equal(scratch_count(), status == 0 ? 2 : 1);
			if (status == 0)
				backup_equals_job();
			unlink(target());
			assert_true(fired || n > 1);
		}
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_copy_made_while_the_job_is_in_use_is_the_job),
		cmocka_unit_test(a_copy_can_be_worked_on_as_a_job_of_its_own),
		cmocka_unit_test(what_is_there_is_never_overwritten),
		cmocka_unit_test(a_disk_without_room_gets_no_half_a_copy),
		cmocka_unit_test(a_job_with_a_damaged_row_can_be_copied_and_the_copy_tells),
		cmocka_unit_test(a_damaged_file_is_not_copied),
		cmocka_unit_test(a_stick_that_fails_gets_no_half_a_copy),
	};

	return run_tests(tests);
}
