/* What comes through the gate and what does not: foreign, newer, damaged, cut off, hostile, read only. */
#include "base/sql.h"
#include "store/stranger.h"

#include <fcntl.h>
#include <pwd.h>
#include <signal.h>
#include <sys/mount.h>
#include <sys/wait.h>

static int try_open(enum store_mode mode)
{
	struct sb_store *store;
	int status = sb_store_open(book_path(), mode, "Ida", &store, &book_err);

	if (status == 0)
		sb_store_close(store);
	return status;
}

static void both_refused(enum sb_code code, const char *words)
{
	refused(try_open(STORE_READ), code);
	assert_non_null(strstr(book_err.text, words));
	refused(try_open(STORE_WRITE), code);
	assert_non_null(strstr(book_err.text, words));
}

static void a_file_that_is_not_there_is_missing(void **state)
{
	(void)state;
	book_new(jobs_plain);
	assert_int_equal(unlink(book_path()), 0);
	both_refused(SB_MISSING, "no such file");
}

static void files_of_others_are_foreign(void **state)
{
	(void)state;
	book_new(jobs_plain);
	scratch_bytes("tern.bore", "", 0);
	both_refused(SB_FOREIGN, "empty");
	scratch_text("tern.bore", "name = Tern Slough\n");
	both_refused(SB_FOREIGN, "not a job file");
	scratch_bytes("tern.bore", "", 0);
	stranger_does(
		"PRAGMA application_id = 1196444487; PRAGMA user_version = 10300; CREATE TABLE gpkg_contents (a)");
	both_refused(SB_FOREIGN, "another program");
	assert_int_equal(unlink(book_path()), 0);
	assert_int_equal(mkdir(book_path(), 0700), 0);
	both_refused(SB_FOREIGN, "not a file");
}

static void a_file_of_a_later_version_is_refused_by_name_and_left_alone(void **state)
{
	(void)state;
	book_new(jobs_plain);
	stranger_does("PRAGMA user_version = 5");
	both_refused(SB_NEWER, "later version");
	stranger_does("PRAGMA user_version = 4");
	must(try_open(STORE_WRITE));
	stranger_tampers("INSERT INTO setting VALUES (900, 1, 'gravity', 'strength', '1', NULL)");
	both_refused(SB_NEWER, "gravity");
}

static void a_file_without_a_version_is_damaged(void **state)
{
	(void)state;
	book_new(jobs_plain);
	stranger_does("PRAGMA user_version = 0");
	both_refused(SB_DAMAGED, "version");
}

static void a_schema_that_is_not_ours_word_for_word_is_refused(void **state)
{
	(void)state;
	static const struct {
		const char *sql, *words;
	} cases[] = {
		{ "CREATE TRIGGER helpful AFTER INSERT ON reading BEGIN DELETE FROM path; END", "helpful" },
		{ "CREATE TABLE zebra (a)", "zebra" },
		{ "CREATE VIEW aardvark AS SELECT 1", "aardvark" },
		{ "CREATE INDEX extra ON reading (joint)", "extra" },
		{ "DROP TRIGGER reading_is_not_changed", "reading_is_not_changed" },
		{ "DROP VIEW as_drilled; CREATE VIEW as_drilled AS SELECT 1 AS joint", "as_drilled" },
		{ "ALTER TABLE reading ADD COLUMN mood TEXT", "reading" },
		{ "PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = replace(sql, 'unlikely', 'x') WHERE name = 'x';"
		  "UPDATE sqlite_schema SET sql = replace(sql, 'joint INTEGER', 'joint  INTEGER') WHERE name = 'path'",
			"path" },
	};
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		book_new(jobs_plain);
		stranger_does(cases[i].sql);
		both_refused(SB_DAMAGED, cases[i].words);
	}
}

static void notes_that_sqlite_keeps_for_itself_do_no_harm(void **state)
{
	(void)state;
	book_new(jobs_plain);
	stranger_does("ANALYZE");
	must(try_open(STORE_WRITE));
	book_verify(0);
}

static void a_view_that_never_ends_does_not_hold_us_up(void **state)
{
	(void)state;
	book_new(jobs_plain);
	stranger_does("DROP TABLE reading; CREATE VIEW reading AS WITH RECURSIVE r(id) AS"
		      " (SELECT 1 UNION ALL SELECT id + 1 FROM r) SELECT * FROM r");
	both_refused(SB_DAMAGED, "reading");
	struct verify_report report = { 0 };
	must(sb_store_verify(book_path(), &report, &book_err));
	assert_true(report.damages > 0);
	sb_verify_report_clear(&report);
}

/* Cut at every 61st byte, and at each of the first 200 and the last 50: refused with a sentence, or whole. */
static void a_file_cut_off_anywhere_is_refused_or_whole(void **state)
{
	(void)state;
	book_new(jobs_plain);
	struct sb_store *store = book_open(STORE_WRITE);
	book_drill(store, 12);
	sb_store_close(store);
	struct stat info;
	assert_int_equal(stat(book_path(), &info), 0);
	int fd = open(book_path(), O_RDONLY);
	char *bytes = malloc((size_t)info.st_size);
	assert_int_equal(read(fd, bytes, (size_t)info.st_size), info.st_size);
	close(fd);
	size_t size = (size_t)info.st_size;
	for (size_t cut = 0; cut <= size; cut += cut < 200 || cut + 50 > size ? 1 : 61) {
		scratch_empty();
		scratch_bytes("tern.bore", bytes, cut);
		book_err = (struct sb_err){ 0 };
		int status = try_open(cut & 1 ? STORE_READ : STORE_WRITE);
		assert_int_equal(status, cut == size ? 0 : -1);
		if (status) {
			assert_true(book_err.code == SB_DAMAGED || book_err.code == SB_FOREIGN);
			assert_true(strlen(book_err.text) > 20);
		}
	}
	free(bytes);
}

/* A bad byte anywhere: never a crash, and what opens is still a job. */
static void a_file_with_any_byte_changed_never_crashes_anything(void **state)
{
	(void)state;
	book_new(jobs_plain);
	struct sb_store *store = book_open(STORE_WRITE);
	book_drill(store, 5);
	sb_store_close(store);
	struct stat info;
	assert_int_equal(stat(book_path(), &info), 0);
	int fd = open(book_path(), O_RDWR);
	int opened = 0, found = 0;
	for (off_t at = 0; at < info.st_size; at += at < 120 ? 1 : 211) {
		unsigned char old, bad;
		assert_int_equal(pread(fd, &old, 1, at), 1);
		bad = (unsigned char)(old ^ (1u << (at % 8)));
		assert_int_equal(pwrite(fd, &bad, 1, at), 1);
		struct verify_report report = { 0 };
		if (sb_store_verify(book_path(), &report, &book_err) == 0)
			found += report.damages > 0;
		sb_verify_report_clear(&report);
		opened += try_open(STORE_READ) == 0;
		assert_int_equal(pwrite(fd, &old, 1, at), 1);
	}
	close(fd);
	assert_true(opened > 0 && found > 0);
	book_verify(0);
}

/* A stranger is killed in the middle of a write, so that a journal is left that has to be played back. */
static void leave_hot_journal(void)
{
	pid_t child = fork();

	if (child == 0) {
		sqlite3 *db = stranger_open();
		sqlite3_exec(db,
			"PRAGMA cache_size = 1; PRAGMA cache_spill = 1; BEGIN; DELETE FROM path; DELETE FROM warning;"
			"INSERT INTO warning SELECT value, 'x', 'watch', 1, 1, 1, 1, 0, 0, 0, 0, 0, 0, NULL,"
			" hex(zeroblob(500)) FROM (WITH RECURSIVE r(value) AS (SELECT 1 UNION ALL"
			" SELECT value + 1 FROM r WHERE value < 60) SELECT value FROM r)",
			NULL, NULL, NULL);
		raise(SIGKILL);
	}
	waitpid(child, NULL, 0);
	assert_int_equal(access(scratch("tern.bore-journal"), F_OK), 0);
}

static void a_write_that_was_cut_off_is_taken_back(void **state)
{
	(void)state;
	for (int mode = STORE_WRITE; mode <= STORE_READ; mode++) {
		book_new(jobs_plain);
		struct sb_store *store = book_open(STORE_WRITE);
		book_drill(store, 3);
		sb_store_close(store);
		leave_hot_journal();
		must(try_open((enum store_mode)mode));
		book_verify(0);
		assert_int_equal(scratch_count(), 1);
	}
}

static void an_onlooker_goes_on_when_the_writer_was_killed(void **state)
{
	(void)state;
	bool changed;
	book_new(jobs_plain);
	struct sb_store *store = book_open(STORE_WRITE);
	book_drill(store, 3);
	sb_store_close(store);
	store = book_open(STORE_READ);
	leave_hot_journal();
	must(sb_store_refresh(store, &changed, &book_err));
	assert_int_equal(sb_job_in_ground(sb_store_job(store)), 3);
	book_equals_file(store);
	sb_store_close(store);
	book_verify(0);
	assert_int_equal(scratch_count(), 1);
}

/* Some tools turn it on for every file they open. */
static void a_file_that_another_program_left_in_wal_mode_is_turned_back(void **state)
{
	(void)state;
	book_new(jobs_plain);
	stranger_does("PRAGMA journal_mode = WAL; UPDATE path SET height = height");
	must(try_open(STORE_READ));
	must(try_open(STORE_WRITE));
	assert_string_equal(stranger_reads("PRAGMA journal_mode"), "delete");
	book_verify(0);
	assert_int_equal(scratch_count(), 1);
}

static void a_journal_that_names_another_file_is_not_played_back(void **state)
{
	(void)state;
	book_new(jobs_plain);
	leave_hot_journal();
	scratch_text("treasure", "keep me");
	const char *victim = scratch("treasure");
	FILE *f = fopen(scratch("tern.bore-journal"), "ab");
	unsigned char end[] = { 0, 0, 0, 0, 0xd9, 0xd5, 0x05, 0xf9, 0x20, 0xa1, 0x63, 0xd7 };
	fwrite(victim, 1, strlen(victim), f);
	fwrite(end, 1, sizeof end, f);
	fclose(f);
	both_refused(SB_DAMAGED, "-journal");
	assert_int_equal(access(scratch("treasure"), F_OK), 0);
}

/* As somebody who may read but not write; as root, permissions do not bind, so it becomes nobody. */
static int as_reader(int (*act)(void))
{
	pid_t child = fork();

	if (child == 0) {
		struct passwd *nobody = getpwnam("nobody");
		if (getuid() == 0 && (nobody == NULL || setgid(nobody->pw_gid) || setuid(nobody->pw_uid)))
			_exit(99);
		_exit(act());
	}
	int status = 0;
	waitpid(child, &status, 0);
	return WIFEXITED(status) ? WEXITSTATUS(status) : 98;
}

static int read_all(void)
{
	struct sb_store *store;

	if (sb_store_open(book_path(), STORE_READ, "", &store, &book_err))
		return 1;
	int joints = sb_job_in_ground(sb_store_job(store));
	bool changed;
	int status = sb_store_refresh(store, &changed, &book_err);
	sb_store_close(store);
	return joints == 3 && status == 0 ? 0 : 2;
}

static int write_is_denied(void)
{
	return try_open(STORE_WRITE) == -1 && book_err.code == SB_DENIED ? 0 : 1;
}

static int mending_is_denied(void)
{
	return try_open(STORE_READ) == -1 && book_err.code == SB_DENIED && strstr(book_err.text, "-journal")
		? 0
		: 1;
}

static void a_job_can_be_read_without_leave_to_write(void **state)
{
	(void)state;
	book_new(jobs_plain);
	struct sb_store *store = book_open(STORE_WRITE);
	book_drill(store, 3);
	sb_store_close(store);
	assert_int_equal(chmod(book_path(), 0444), 0);
	assert_int_equal(chmod(scratch_folder, 0555), 0);
	assert_int_equal(as_reader(read_all), 0);
	assert_int_equal(as_reader(write_is_denied), 0);
	assert_int_equal(chmod(scratch_folder, 0700), 0);
	assert_int_equal(chmod(book_path(), 0644), 0);
	leave_hot_journal();
	assert_int_equal(chmod(scratch_folder, 0555), 0);
	assert_int_equal(as_reader(mending_is_denied), 0);
	assert_int_equal(chmod(scratch_folder, 0700), 0);
	must(try_open(STORE_WRITE));
}

/* Needs the right to mount; where there is none it is skipped with a word. */
static void a_job_can_be_read_from_a_disk_that_may_only_be_read(void **state)
{
	(void)state;
	book_new(jobs_plain);
	struct sb_store *store = book_open(STORE_WRITE);
	book_drill(store, 3);
	sb_store_close(store);
	const char *disk = scratch("disk"), *path = scratch("disk/tern.bore");
	assert_int_equal(mkdir(disk, 0700), 0);
	if (mount(scratch_folder, disk, "none", MS_BIND, NULL) != 0 ||
		mount("none", disk, "none", MS_BIND | MS_REMOUNT | MS_RDONLY, NULL) != 0) {
		umount(disk);
		print_message("no leave to mount: not tried\n");
		skip();
	}
	int status = sb_store_open(path, STORE_READ, "", &store, &book_err);
	int joints = status ? -1 : sb_job_in_ground(sb_store_job(store));
	if (status == 0)
		sb_store_close(store);
	struct sb_err denied = { 0 };
	int write = sb_store_open(path, STORE_WRITE, "Ida", &store, &denied);
	umount(disk);
	must(status);
	assert_int_equal(joints, 3);
	assert_int_equal(write, -1);
	assert_int_equal(denied.code, SB_DENIED);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_file_that_is_not_there_is_missing),
		cmocka_unit_test(files_of_others_are_foreign),
		cmocka_unit_test(a_file_of_a_later_version_is_refused_by_name_and_left_alone),
		cmocka_unit_test(a_file_without_a_version_is_damaged),
		cmocka_unit_test(a_schema_that_is_not_ours_word_for_word_is_refused),
		cmocka_unit_test(notes_that_sqlite_keeps_for_itself_do_no_harm),
		cmocka_unit_test(a_view_that_never_ends_does_not_hold_us_up),
		cmocka_unit_test(a_file_cut_off_anywhere_is_refused_or_whole),
		cmocka_unit_test(a_file_with_any_byte_changed_never_crashes_anything),
		cmocka_unit_test(a_write_that_was_cut_off_is_taken_back),
		cmocka_unit_test(an_onlooker_goes_on_when_the_writer_was_killed),
		cmocka_unit_test(a_file_that_another_program_left_in_wal_mode_is_turned_back),
		cmocka_unit_test(a_journal_that_names_another_file_is_not_played_back),
		cmocka_unit_test(a_job_can_be_read_without_leave_to_write),
		cmocka_unit_test(a_job_can_be_read_from_a_disk_that_may_only_be_read),
	};

	return run_tests(tests);
}
