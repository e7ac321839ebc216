/* Older files: brought to the present version after a checked copy was kept. Besides a file of the first
 * version as it was made then, later versions are made up here: one adds a column to a table of facts and a
 * view, the next breaks off.
 */
#include "store/audit.h"
#include "store/stranger.h"
#include "support/fault.h"

static const char *const next[] = {
	"PRAGMA user_version = 5",
	"ALTER TABLE reading ADD COLUMN gamma TEXT",
	"CREATE VIEW short AS SELECT joint FROM path",
	NULL,
};
static const char *const broken[] = {
	"PRAGMA user_version = 6",
	"CREATE TABLE more (id INTEGER PRIMARY KEY) STRICT",
	"ALTER TABLE nowhere ADD COLUMN x TEXT",
	NULL,
};

static struct migration steps[6];
static const struct schema next_one = { steps, 5 }, broken_one = { steps, 6 };

static int setup(void **state)
{
	(void)state;
	assert_int_equal(sb_schema.count, 4); /* a new version: make one up that follows on it */
	for (size_t i = 0; i < sb_schema.count; i++)
		steps[i] = sb_schema.steps[i];
	steps[4] = (struct migration){ "the next version", next, NULL };
	steps[5] = (struct migration){ "a broken version", broken, NULL };
	book_new(jobs_plain);
	struct sb_store *store = book_open(STORE_WRITE);
	book_drill(store, 3);
	sb_store_close(store);
	return 0;
}

static int open_as(const struct schema *schema, const char *vfs, bool write, struct sb_store **store)
{
	struct gate gate = { .schema = schema, .vfs = vfs, .wait_ms = 10 };

	return sb_handle_open(book_path(), write, "Ida", &gate, store, &book_err);
}

static void an_older_job_is_brought_up_and_a_copy_as_it_was_is_kept(void **state)
{
	(void)state;
	struct sb_store *store;
	must(open_as(&next_one, NULL, true, &store));
	assert_int_equal(sb_job_in_ground(sb_store_job(store)), 3);
	must(book_log(store, "80", "90"));
	sb_store_close(store);
	assert_string_equal(stranger_reads("PRAGMA user_version"), "5");
	/* the digests of rows written before the column was there still hold */
	struct sb_sql *db;
	struct audit audit = { 0 };
	int64_t version;
	must(sb_gate_open(
		book_path(), false, &(struct gate){ .schema = &next_one }, &db, &version, &book_err));
	must(sb_audit_run(db, version, &audit, &book_err));
	assert_int_equal(audit.damages, 0);
	sb_audit_clear(&audit);
	sb_sql_close(db);
	/* the copy opens in the older program */
	assert_int_equal(rename(scratch("tern.bore.v4"), book_path()), 0);
	store = book_open(STORE_WRITE);
	assert_int_equal(sb_job_in_ground(sb_store_job(store)), 3);
	sb_store_close(store);
	book_verify(0);
}

static void to_look_on_an_older_job_is_not_changed(void **state)
{
	(void)state;
	struct sb_store *store;
	refused(open_as(&next_one, NULL, false, &store), SB_STATE);
	assert_non_null(strstr(book_err.text, "earlier version"));
	assert_int_equal(scratch_count(), 1);
	book_verify(0);
}

static void the_job_brought_up_is_newer_for_the_older_program(void **state)
{
	(void)state;
	struct sb_store *store;
	must(open_as(&next_one, NULL, true, &store));
	sb_store_close(store);
	refused(sb_store_open(book_path(), STORE_READ, "", &store, &book_err), SB_NEWER);
}

static void a_step_that_fails_leaves_the_version_before_it(void **state)
{
	(void)state;
	struct sb_store *store;
	assert_int_equal(open_as(&broken_one, NULL, true, &store), -1);
	assert_non_null(strstr(book_err.text, "tern.bore.v4"));
	assert_string_equal(stranger_reads("PRAGMA user_version"), "5");
	assert_string_equal(stranger_reads("SELECT count(*) FROM sqlite_schema WHERE name = 'more'"), "0");
	must(open_as(&next_one, NULL, true, &store));
	sb_store_close(store);
}

static void the_name_of_a_copy_that_is_taken_is_not_taken_again(void **state)
{
	(void)state;
	struct sb_store *store;
	scratch_text("tern.bore.v4", "somebody else's");
	must(open_as(&next_one, NULL, true, &store));
	sb_store_close(store);
	char *text = scratch_read(scratch("tern.bore.v4"));
	assert_string_equal(text, "somebody else's");
	free(text);
	assert_int_equal(access(scratch("tern.bore.v4-2"), F_OK), 0);
}

/* Whatever fails on the way: the job is whole in one of the two versions, and never without its copy. */
static void a_disk_that_fails_on_the_way_loses_nothing(void **state)
{
	(void)state;
	fault_register();
	for (int kind = 0; kind < FAULT_KINDS; kind++) {
		bool fired = true;
		for (int n = 1; fired; n++) {
			struct sb_store *store;
			setup(NULL);
			fault_arm((enum fault_kind)kind, n, !(n & 1), false);
			int status = open_as(&next_one, FAULT_VFS, true, &store);
			fired = fault_disarm();
			if (status == 0)
				sb_store_close(store);
			must(open_as(&next_one, NULL, true, &store));
			assert_int_equal(sb_job_in_ground(sb_store_job(store)), 3);
			sb_store_close(store);
			assert_int_equal(rename(scratch("tern.bore.v4"), book_path()), 0);
			book_verify(0);
			assert_true(fired || n > 1);
		}
	}
}

static const char published[] =
	"SELECT group_concat(reading || ' ' || joint || ' ' || station || ' ' || northing || ' ' ||"
	" superseded) FROM path WHERE reading < %d";

/* A job as an earlier version wrote it: stations and northings are those that its own program had published.
 */
static void opens_as_it_was(
	const char *kept, const char *copy, int in_ground, int readings, const char *inclination)
{
	char *sql = scratch_read(kept), query[300];
	sqlite3 *db;
	struct sb_store *store;

	assert_non_null(sql);
	unlink(book_path());
	unlink(scratch(copy));
	assert_int_equal(sqlite3_open(book_path(), &db), SQLITE_OK);
	assert_int_equal(sqlite3_exec(db, sql, NULL, NULL, NULL), SQLITE_OK);
	sqlite3_close(db);
	free(sql);
	snprintf(query, sizeof query, published, readings + 1);
	char *before = strdup(stranger_reads(query));
	assert_true(strlen(before) > 100);
	must(sb_store_open(book_path(), STORE_WRITE, "Ida", &store, &book_err));
	const struct job *job = sb_store_job(store);
	assert_int_equal(sb_job_in_ground(job), in_ground);
	assert_int_equal(sb_job_leg(job), 2);
	assert_int_equal(job->reading_count, readings);
	must(book_log(store, inclination, "32.4"));
	sb_store_close(store);
	assert_string_equal(stranger_reads("PRAGMA user_version"), "4");
	assert_string_equal(stranger_reads(query), before);
	free(before);
	book_verify(0); /* digests and chain of the rows written then, and solving them again */
	assert_int_equal(access(scratch(copy), F_OK), 0);
}

static void a_job_of_the_first_version_opens_and_keeps_its_path(void **state)
{
	(void)state;
	opens_as_it_was("tests/store/version_1.sql", "tern.bore.v1", 3, 5, "-10.9");
}

/* With a fix, a correction in force, a repeat and another tool. */
static void a_job_of_the_second_version_opens_and_keeps_its_path(void **state)
{
	(void)state;
	opens_as_it_was("tests/store/version_2.sql", "tern.bore.v2", 6, 8, "-10.6");
	struct sb_store *store = book_open(STORE_READ);
	const struct job *job = sb_store_job(store);
	assert_non_null(sb_job_adjustment(job));
	assert_true(job->fix_count == 1 && job->repeat_count == 1 && job->change_count == 1);
	assert_string_equal(job->readings[7].total_field.text, "49000");
	sb_store_close(store);
}

/* With a breach redrilled, one accepted, one open, and a point of its checklist ticked off. */
static void a_job_of_the_third_version_opens_and_keeps_its_path(void **state)
{
	(void)state;
	opens_as_it_was("tests/store/version_3.sql", "tern.bore.v3", 7, 8, "1.4");
	struct sb_store *store = book_open(STORE_READ);
	const struct job *job = sb_store_job(store);
	assert_true(job->disposition_count == 1 && job->dispositions[0].accepted);
	assert_true(job->checklist_count == 2 && sb_job_tick(job, 1)->done && sb_job_tick(job, 2) == NULL);
	assert_int_equal(job->pass_count, 0);
	sb_store_close(store);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test_setup(an_older_job_is_brought_up_and_a_copy_as_it_was_is_kept, setup),
		cmocka_unit_test_setup(to_look_on_an_older_job_is_not_changed, setup),
		cmocka_unit_test_setup(the_job_brought_up_is_newer_for_the_older_program, setup),
		cmocka_unit_test_setup(a_step_that_fails_leaves_the_version_before_it, setup),
		cmocka_unit_test_setup(the_name_of_a_copy_that_is_taken_is_not_taken_again, setup),
		cmocka_unit_test(a_job_of_the_first_version_opens_and_keeps_its_path),
		cmocka_unit_test(a_job_of_the_second_version_opens_and_keeps_its_path),
		cmocka_unit_test(a_job_of_the_third_version_opens_and_keeps_its_path),
		cmocka_unit_test_setup(a_disk_that_fails_on_the_way_loses_nothing, setup),
	};

	book_in_memory();
	return run_tests(tests);
}
