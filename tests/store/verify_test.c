/* Whatever is changed in a job file behind the program's back is found and named. */
#include "base/time.h"
#include "store/stranger.h"

#include <fcntl.h>

/* A job with a row in every table of the log. */
static void make_book(void)
{
	sb_time_freeze(1764060592123);
	book_new(jobs_plain);
	struct sb_store *store = book_open(STORE_WRITE);
	must(sb_store_shift_begin(store, "Ida", "Ida, Jo", &book_err));
	book_drill(store, 4);
	struct reading r = book_reading(store, "81.2", "90.1");
	sb_copy(r.reason, sizeof r.reason, "misread");
	must(sb_store_correct(store, "Jo", 2, &r, &book_err));
	must(sb_store_withdraw(store, "Ida", 2, "off line", &book_err));
	must(book_log(store, "60", "110"));
	must(sb_store_acknowledge(
		store, "Uma", sb_store_solution(store)->warning_count - 1, "seen", &book_err));
	sb_store_close(store);
	sb_time_freeze(-1);
}

/* Verify finds damage, and says each of these. */
static void finds(const char *first, const char *second)
{
	struct verify_report report = { 0 };

	must(sb_store_verify(book_path(), &report, &book_err));
	const char *text = sb_str_get(&report.text);
	if (report.damages == 0 || strstr(text, first) == NULL || strstr(text, second) == NULL) {
		print_error("wanted '%s' and '%s' in:\n%s", first, second, text);
		fail();
	}
	sb_verify_report_clear(&report);
}

static void a_whole_job_has_no_damage_and_a_head(void **state)
{
	(void)state;
	make_book();
	struct verify_report report = { 0 };
	must(sb_store_verify(book_path(), &report, &book_err));
	assert_int_equal(report.damages, 0);
	assert_int_equal(report.fact_rows, report.journal_rows);
	assert_int_equal(report.journal_rows, atoi(stranger_reads("SELECT count(*) FROM journal")));
	assert_string_equal(
		report.head, stranger_reads("SELECT chain FROM journal ORDER BY seq DESC LIMIT 1"));
	struct sb_store *store = book_open(STORE_READ);
	char head[65];
	sb_store_head(store, head);
	assert_string_equal(head, report.head);
	sb_store_close(store);
	sb_verify_report_clear(&report);
}

/* Exchanges bytes in the file itself, as a failing disk or a hex editor would. */
static void exchange(const char *old, const char *new)
{
	char *bytes = NULL;
	size_t length = strlen(old);
	int fd = open(book_path(), O_RDWR), found = 0;
	struct stat info;

	assert_int_equal(fstat(fd, &info), 0);
	bytes = malloc((size_t)info.st_size);
	assert_int_equal(pread(fd, bytes, (size_t)info.st_size, 0), info.st_size);
	for (size_t at = 0; at + length <= (size_t)info.st_size; at++)
		if (memcmp(bytes + at, old, length) == 0) {
			assert_int_equal(pwrite(fd, new, length, (off_t)at), length);
			found++;
		}
	close(fd);
	free(bytes);
	assert_true(found > 0);
}

static void a_byte_changed_in_a_row_names_the_row_the_act_and_who(void **state)
{
	(void)state;
	make_book();
	/* the first joint's inclination and azimuth, side by side in its row */
	exchange("3180.090.0", "3181.090.0");
	finds("reading 1 (act 3, log by Ida, 25 Nov 08:49 +00:00): was changed", "path: joint 1");
	make_book();
	exchange("off line", "off-line");
	finds("act 8 (act 8, withdraw by Ida", "was changed");
	make_book();
	exchange("Larkmoor", "Harkmoor");
	finds("setting 2 (act 1, new by Ida", "was changed");
}

static void a_change_through_sql_is_found_though_the_triggers_are_put_back(void **state)
{
	(void)state;
	static const struct {
		const char *sql, *first, *second;
	} cases[] = {
		{ "UPDATE act SET who = 'Eve' WHERE id = 4", "act 4 (act 4, log by Eve", "was changed" },
		{ "UPDATE reading SET slid = '9.0' WHERE id = 3", "reading 3 (act 5, log by Ida",
			"was changed" },
		{ "UPDATE leg SET to_joint = 1", "leg 2 (act 8, withdraw by Ida", "was changed" },
		{ "UPDATE acknowledgement SET level = 'ok'", "acknowledgement 1 (act 10, acknowledge by Uma",
			"was changed" },
		{ "UPDATE profile SET elevation = '46' WHERE id = 2", "profile 2 (act 1, new by Ida",
			"was changed" },
		{ "UPDATE act SET words = NULL WHERE id = 8", "act 8", "was changed" },
		{ "DELETE FROM ground WHERE id = 3", "ground 3 (act 1, new by Ida", "is gone" },
		{ "INSERT INTO ground VALUES (4, 1, '1300', '100')", "ground 4: no journal row",
			"not written" },
		{ "DELETE FROM acknowledgement", "acknowledgement 1", "is gone" },
		{ "DELETE FROM journal WHERE seq = 5", "journal: rows 5 to 5 are missing",
			"chain is broken" },
		{ "UPDATE journal SET digest = hex(zeroblob(32)) WHERE seq = 5", "journal row 5",
			"chain is broken" },
		{ "UPDATE journal SET chain = hex(zeroblob(32)) WHERE seq = 5", "journal row 5",
			"journal row 6" },
		{ "UPDATE journal SET act = 2 WHERE seq = 5", "journal row 5", "chain is broken" },
		{ "UPDATE journal SET table_name = 'sqlite_schema' WHERE seq = 5", "not a table of facts",
			"journal row 5" },
		{ "PRAGMA foreign_keys = OFF; UPDATE reading SET act = 999 WHERE id = 1", "reading 1",
			"names a row of act" },
	};
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		make_book();
		stranger_tampers(cases[i].sql);
		finds(cases[i].first, cases[i].second);
	}
}

static void a_computed_table_that_says_otherwise_is_found(void **state)
{
	(void)state;
	static const struct {
		const char *sql, *words;
	} cases[] = {
		{ "UPDATE path SET height = height + 0.001 WHERE joint = 2", "path: joint 2" },
		{ "UPDATE path SET radius_joint = radius_joint * 1.01 WHERE joint = 2 AND superseded = 0",
			"radius_joint" },
		{ "UPDATE path SET inclination = '80.09' WHERE joint = 1", "inclination" },
		{ "UPDATE path SET sigma_across = sigma_across / 2 WHERE joint = 2", "sigma_across" },
		{ "UPDATE path SET shift_offset = 0.5 WHERE joint = 1", "shift_offset" },
		{ "DELETE FROM path WHERE joint = 0", "joint 0 (reading 0) is missing" },
		{ "INSERT INTO path (reading, leg, joint, bit_depth, survey_depth, inclination, azimuth, station, offset,"
		  " elevation, height, northing, easting, dogleg_deg, radius_joint, radius_window, corridor_share, on_path,"
		  " superseded) SELECT 77, leg, joint, bit_depth, survey_depth, inclination, azimuth, station, offset,"
		  " elevation, height, northing, easting, dogleg_deg, radius_joint, radius_window, corridor_share, on_path,"
		  " superseded FROM path WHERE reading = 1",
			"reading 77" },
		{ "UPDATE warning SET level = 'watch' WHERE level = 'breach'", "warning: row" },
		{ "UPDATE warning SET words = 'all is well'", "warning: row 1" },
		{ "DELETE FROM warning", "warning: row 1 is missing" },
		{ "UPDATE warning SET acknowledged = 1 - acknowledged", "warning: row" },
	};
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		make_book();
		stranger_does(cases[i].sql);
		finds(cases[i].words, "");
	}
}

/* What another machine's last bit makes of a sine is not damage. */
static void the_last_bit_of_a_computed_figure_is_let_pass(void **state)
{
	(void)state;
	make_book();
	stranger_does(
		"UPDATE path SET station = station * (1 + 4e-16), radius_joint = radius_joint * (1 + 1e-14)");
	book_verify(0);
}

static void computed_tables_that_are_off_are_written_afresh_with_the_next_joint(void **state)
{
	(void)state;
	make_book();
	stranger_does("UPDATE path SET height = 7; DELETE FROM warning");
	struct sb_store *store = book_open(STORE_WRITE);
	must(book_log(store, "80.0", "90.0"));
	sb_store_close(store);
	book_verify(0);
}

static void facts_that_contradict_each_other_are_refused_when_opened(void **state)
{
	(void)state;
	static const char *const cases[] = {
		"UPDATE reading SET joint = 9 WHERE id = 3",
		"UPDATE reading SET leg = 4 WHERE id = 3",
		"UPDATE reading SET corrects = NULL WHERE id = 5",
		"UPDATE reading SET inclination = '480' WHERE id = 3",
		"UPDATE reading SET remarks = hex(zeroblob(400)) WHERE id = 3",
		"UPDATE reading SET remarks = CAST(x'c3' AS TEXT) WHERE id = 3",
		"UPDATE reading SET act = 4 WHERE id = 3",
		"DELETE FROM reading WHERE id = 1",
		"UPDATE leg SET to_joint = 8",
		"UPDATE act SET kind = 'dance' WHERE id = 3",
		"UPDATE act SET kind = 'note' WHERE id = 3",
		"UPDATE act SET kind = 'log' WHERE id = 2",
		"UPDATE act SET at = '2026-13-01T00:00:00Z' WHERE id = 3",
		"DELETE FROM setting WHERE key = 'unit'",
		"UPDATE setting SET value = 'furlong' WHERE key = 'unit'",
		"UPDATE setting SET value = '1, 2' WHERE key = 'entry'",
		"UPDATE acknowledgement SET kind = 'boredom'",
		"DELETE FROM profile",
		"UPDATE profile SET station = '.' WHERE id = 2",
	};
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct sb_store *store;
		make_book();
		stranger_tampers(cases[i]);
		int status = sb_store_open(book_path(), STORE_READ, "", &store, &book_err);
		if (status == 0)
			print_error("%s\n", cases[i]);
		assert_int_equal(status, -1);
		if (book_err.code != SB_DAMAGED)
			print_error("%s: %s\n", cases[i], book_err.text);
		assert_int_equal(book_err.code, SB_DAMAGED);
		finds("", "");
	}
}

/* The text that is digested is described in the file; this makes it by that description alone. */
static void the_chain_can_be_made_again_by_its_description(void **state)
{
	(void)state;
	make_book();
	const char *text = stranger_reads(
		"SELECT 'leg' || char(10) || 'id:i1:2' || char(10) || 'act:i1:8' || char(10) || 'to_joint:i1:2' || char(10)");
	char command[400], digest[80] = "";
	scratch_text("row", text);
	snprintf(command, sizeof command, "b2sum -l 256 < '%s'", scratch("row"));
	FILE *f = popen(command, "r");
	assert_int_equal(fscanf(f, "%64s", digest), 1);
	pclose(f);
	assert_string_equal(digest, stranger_reads("SELECT digest FROM journal WHERE table_name = 'leg'"));
	char *links = strdup(stranger_reads(
		"SELECT p.chain || char(10) || j.seq || char(10) || j.act || char(10) || j.table_name || char(10) ||"
		" j.row_id || char(10) || j.digest || char(10) FROM journal j JOIN journal p ON p.seq = j.seq - 1"
		" WHERE j.table_name = 'leg'"));
	scratch_text("row", links);
	free(links);
	f = popen(command, "r");
	assert_int_equal(fscanf(f, "%64s", digest), 1);
	pclose(f);
	assert_string_equal(digest, stranger_reads("SELECT chain FROM journal WHERE table_name = 'leg'"));
}

static void a_file_that_is_not_a_job_cannot_be_verified(void **state)
{
	(void)state;
	struct verify_report report = { 0 };
	book_new(jobs_plain);
	scratch_text("tern.bore", "name = Tern Slough\n");
	refused(sb_store_verify(book_path(), &report, &book_err), SB_FOREIGN);
	assert_int_equal(unlink(book_path()), 0);
	refused(sb_store_verify(book_path(), &report, &book_err), SB_MISSING);
}

static void a_changed_schema_is_named(void **state)
{
	(void)state;
	make_book();
	stranger_does("CREATE TRIGGER helpful AFTER INSERT ON path BEGIN DELETE FROM warning; END");
	finds("schema: It holds a trigger 'helpful'", "");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_whole_job_has_no_damage_and_a_head),
		cmocka_unit_test(a_byte_changed_in_a_row_names_the_row_the_act_and_who),
		cmocka_unit_test(a_change_through_sql_is_found_though_the_triggers_are_put_back),
		cmocka_unit_test(a_computed_table_that_says_otherwise_is_found),
		cmocka_unit_test(the_last_bit_of_a_computed_figure_is_let_pass),
		cmocka_unit_test(computed_tables_that_are_off_are_written_afresh_with_the_next_joint),
		cmocka_unit_test(facts_that_contradict_each_other_are_refused_when_opened),
		cmocka_unit_test(the_chain_can_be_made_again_by_its_description),
		cmocka_unit_test(a_file_that_is_not_a_job_cannot_be_verified),
		cmocka_unit_test(a_changed_schema_is_named),
	};

	setenv("TZ", "UTC", 1);
	return run_tests(tests);
}
