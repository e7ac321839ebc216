/* The shape of a job file: as written down, append-only, and with a place for everything that the model has.
 */
#include "model/setting.h"
#include "store/chain.h"
#include "store/facts.h"
#include "store/schema.h"
#include "store/stranger.h"

/* tests/store/schema.sql is for reading. After a new migration: SCHEMA=write
 * build/release/tests/store/schema_test
 */
static void the_schema_is_the_one_that_is_kept_for_reading(void **state)
{
	(void)state;
	book_new(jobs_plain);
	const char *now =
		stranger_reads("SELECT group_concat(sql, ';' || char(10) || char(10)) || ';' || char(10) FROM"
			       " (SELECT sql FROM sqlite_schema WHERE sql IS NOT NULL ORDER BY rowid)");
	if (getenv("SCHEMA") && sb_same(getenv("SCHEMA"), "write")) {
		FILE *f = fopen("tests/store/schema.sql", "w");
		assert_non_null(f);
		fputs(now, f);
		fclose(f);
	}
	char *kept = scratch_read("tests/store/schema.sql");
	assert_non_null(kept);
	assert_string_equal(now, kept);
	free(kept);
}

/* So that opening a job need not make a model of it each time. */
static void the_digests_of_all_versions_are_those_that_the_steps_make(void **state)
{
	(void)state;
	for (size_t version = 1; version <= sb_schema.count; version++) {
		struct schema up_to = { sb_schema.steps, version };
		struct sb_sql *db;
		char hex[65];
		must(sb_sql_open(NULL, &(struct sql_options){ .mode = SQL_MEMORY }, &db, &book_err));
		must(sb_schema_migrate(db, &up_to, 0, &book_err));
		must(sb_schema_digest(db, hex, &book_err));
		assert_string_equal(sb_schema.steps[version - 1].made, hex);
		/* one object more, or one changed, makes another */
		char other[65];
		must(sb_sql_script(db, "CREATE VIEW more AS SELECT 1", &book_err));
		must(sb_schema_digest(db, other, &book_err));
		assert_string_not_equal(other, hex);
		sb_sql_close(db);
	}
}

static void every_table_is_strict_and_explains_itself(void **state)
{
	(void)state;
	book_new(jobs_plain);
	assert_string_equal(stranger_reads("SELECT count(*) FROM pragma_table_list WHERE schema = 'main'"
					   " AND type = 'table' AND name NOT LIKE 'sqlite%' AND strict = 0"),
		"0");
	assert_string_equal(
		stranger_reads("SELECT count(*) FROM sqlite_schema WHERE type IN ('table', 'view')"
			       " AND sql NOT LIKE '%-- %'"),
		"0");
	assert_string_equal(stranger_reads("PRAGMA application_id"), "1396854610");
	assert_string_equal(stranger_reads("PRAGMA user_version"), "4");
	assert_string_equal(stranger_reads("PRAGMA journal_mode"), "delete");
}

static void every_fact_table_refuses_change_removal_and_replacement(void **state)
{
	(void)state;
	static const struct {
		const char *before, *between;
		bool twice;
		const char *after;
	} attacks[] = {
		{ "UPDATE ", " SET rowid = rowid + 1000", false, "" },
		{ "UPDATE OR REPLACE ", " SET rowid = 1", false, "" },
		{ "DELETE FROM ", "", false, "" },
		{ "INSERT OR REPLACE INTO ", " SELECT * FROM ", true, "" },
		{ "REPLACE INTO ", " SELECT * FROM ", true, " LIMIT 1" },
	};
	book_new(jobs_curved);
	struct sb_store *store = book_open(STORE_WRITE);
	book_drill(store, 3);
	must(sb_store_withdraw(store, "Ida", 1, "off line", &book_err));
	must(book_log(store, "20", "50"));
	must(sb_store_acknowledge(
		store, "Ida", sb_store_solution(store)->warning_count - 1, "seen", &book_err));
	sb_store_close(store);
	/* the tables that this job has no rows for */
	stranger_does(
		"INSERT INTO corridor VALUES (1, 1, '0', '1', NULL, NULL, NULL, NULL, NULL);"
		"INSERT INTO ground VALUES (1, 1, '0', '1'); INSERT INTO tally VALUES (1, 1, 1, '9.6');"
		"INSERT INTO obstacles VALUES (1, 1, 'a', 'b', '0', '0', '0', '0', '0');"
		"INSERT INTO soil VALUES (1, 1, '0', '1', '2', 'clay', NULL, NULL, NULL, NULL, NULL);"
		"INSERT INTO repeat VALUES (1, 1, 'out', '20', '80', NULL, NULL, NULL, NULL, NULL);"
		"INSERT INTO fix VALUES (1, 1, 'coil', '20', NULL, NULL, NULL, '0.4', NULL, NULL, '0.2', NULL);"
		"INSERT INTO fix_use VALUES (1, 1, 1, 0);"
		"INSERT INTO adjustment VALUES (1, 1, 1, NULL, '0.3', NULL, '1');"
		"INSERT INTO checklist VALUES (1, 1, 'drawing');"
		"INSERT INTO disposition VALUES (1, 1, 'corridor', 1, 3, '2.5', 1, 'C-1');"
		"INSERT INTO ticked VALUES (1, 1, 1, 1, NULL); INSERT INTO acceptance VALUES (1, 1, 1, 'engineer');"
		"INSERT INTO fluid_event VALUES (1, 1, 'release', '10', '2', 'bank', 'water', 'Ida', 'dam', 0);"
		"INSERT INTO pass VALUES (1, 1, 'ream', 'entry', '24', 'fly cutter');"
		"INSERT INTO pass_joint VALUES (1, 1, 1, 2, '9', '1', '90', '5', NULL, '07:10', '07:30', 'full');"
		"INSERT INTO pass_end VALUES (1, 1, 1); INSERT INTO pipe VALUES (1, 1, 1, '12.1', 'H 7');"
		"INSERT INTO pipe_record VALUES (1, 1, 'test', 0, 'good', '100', '8', 'T-1');"
		"INSERT INTO pull_begin VALUES (1, 1, NULL); INSERT INTO pull_end VALUES (1, 1, '2', 'sound', 'S-1');"
		"INSERT INTO pull_joint VALUES (1, 1, 9, '120', NULL, NULL, NULL, NULL, NULL);"
		"INSERT INTO strike VALUES (1, 1, 1)");
	for (size_t t = 0; t <= sb_chain_table_count; t++) {
		const char *table = t < sb_chain_table_count ? sb_chain_tables[t].name : "journal";
		for (size_t i = 0; i < sizeof attacks / sizeof *attacks; i++) {
			char sql[200];
			snprintf(sql, sizeof sql, "%s%s%s%s%s", attacks[i].before, table, attacks[i].between,
				attacks[i].twice ? table : "", attacks[i].after);
			if (stranger_try(sql) != SQLITE_CONSTRAINT) {
				print_error("%s\n", sql);
				fail();
			}
		}
	}
	/* through the other unique columns */
	assert_int_equal(
		stranger_try(
			"INSERT OR REPLACE INTO act SELECT 99, uid, kind, at, utc_offset, who, leg, joint,"
			" words FROM act LIMIT 1"),
		SQLITE_CONSTRAINT);
}

static void a_reading_is_corrected_only_once(void **state)
{
	(void)state;
	book_new(jobs_plain);
	struct sb_store *store = book_open(STORE_WRITE);
	book_drill(store, 1);
	struct reading r = book_reading(store, "80.2", "90.1");
	sb_copy(r.reason, sizeof r.reason, "misread");
	must(sb_store_correct(store, "Ida", 1, &r, &book_err));
	refused(sb_store_correct(store, "Ida", 1, &r, &book_err), SB_STATE);
	refused(sb_store_correct(store, "Ida", 7, &r, &book_err), SB_MISSING);
	sb_store_close(store);
	assert_int_equal(
		stranger_try("INSERT OR REPLACE INTO reading (id, act, corrects, leg, joint, joint_length)"
			     " VALUES (9, 1, 1, 1, 1, '31')"),
		SQLITE_CONSTRAINT);
}

static void numbers_are_kept_as_typed_and_nothing_else_is_taken_for_one(void **state)
{
	(void)state;
	book_new(jobs_plain);
	assert_int_equal(
		stranger_try("INSERT INTO ground VALUES (9, 1, '12.30', 'deep')"), SQLITE_CONSTRAINT);
	assert_int_equal(stranger_try("INSERT INTO ground VALUES (9, 1, '12.30', '1e5')"), SQLITE_CONSTRAINT);
	assert_int_equal(stranger_try("INSERT INTO ground VALUES (9, 1, '12.30', '')"), SQLITE_CONSTRAINT);
	assert_int_equal(stranger_try("INSERT INTO ground VALUES (9, 1, '12.30', '-1.50')"), SQLITE_OK);
	assert_string_equal(stranger_reads("SELECT station FROM ground WHERE id = 9"), "12.30");
}

/* A field added to the model needs a migration; this says so before a hand finds out. */
static void there_is_a_column_for_every_field_of_the_model(void **state)
{
	(void)state;
	char sql[200];
	book_new(jobs_plain);
	assert_int_equal(sb_facts_sheet_count, sb_sheet_table_count);
	for (size_t t = 0; t < sb_sheet_table_count; t++)
		for (size_t c = 0; c < sb_sheet_tables[t].column_count; c++) {
			snprintf(sql, sizeof sql,
				"SELECT count(*) FROM pragma_table_info('%s') WHERE name = '%s'",
				sb_sheet_tables[t].name, sb_sheet_tables[t].columns[c].name);
			assert_string_equal(stranger_reads(sql), "1");
		}
	for (size_t s = 0; s < sb_fact_sort_count; s++)
		for (size_t c = 0; c < sb_fact_sorts[s].column_count; c++) {
			snprintf(sql, sizeof sql,
				"SELECT count(*) FROM pragma_table_info('%s') WHERE name = '%s'",
				sb_fact_sorts[s].table, sb_fact_sorts[s].columns[c].name);
			assert_string_equal(stranger_reads(sql), "1");
		}
	for (size_t f = 0; f < sb_row_field_count; f++) {
		snprintf(sql, sizeof sql,
			"SELECT count(*) FROM pragma_table_info('reading') WHERE name = '%s'",
			sb_row_fields[f].name);
		assert_string_equal(stranger_reads(sql), "1");
	}
}

static void strangers_see_the_bore_without_this_program(void **state)
{
	(void)state;
	book_new(jobs_plain);
	struct sb_store *store = book_open(STORE_WRITE);
	book_drill(store, 4);
	must(sb_store_withdraw(store, "Jo", 2, "off line", &book_err));
	must(book_log(store, "60", "100"));
	const struct row *last = sb_solution_last(sb_store_solution(store));
	double station = sb_frame_typed(&sb_store_solution(store)->frame, last->deviation.station_m);
	sb_store_close(store);
	assert_string_equal(stranger_reads("SELECT group_concat(joint) FROM as_drilled"), "0,1,2,3");
	assert_string_equal(stranger_reads("SELECT leg || ' ' || inclination || ' ' || unit || ' ' ||"
					   " inclination_convention FROM as_drilled WHERE joint = 3"),
		"2 60.0 ft down");
	assert_near(atof(stranger_reads("SELECT station FROM as_drilled WHERE joint = 3")), station, 1e-9);
	assert_string_equal(stranger_reads("SELECT group_concat(state) FROM log_book"),
		"stands,stands,pulled back,pulled back,stands");
	assert_string_equal(
		stranger_reads("SELECT who || ': ' || words FROM history WHERE kind = 'withdraw'"),
		"Jo: off line");
	assert_string_equal(stranger_reads("SELECT value FROM sheet WHERE key = 'owner'"), "Larkmoor Water");
	assert_true(atoi(stranger_reads("SELECT count(*) FROM open_warnings")) > 0);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_schema_is_the_one_that_is_kept_for_reading),
		cmocka_unit_test(the_digests_of_all_versions_are_those_that_the_steps_make),
		cmocka_unit_test(every_table_is_strict_and_explains_itself),
		cmocka_unit_test(every_fact_table_refuses_change_removal_and_replacement),
		cmocka_unit_test(a_reading_is_corrected_only_once),
		cmocka_unit_test(numbers_are_kept_as_typed_and_nothing_else_is_taken_for_one),
		cmocka_unit_test(there_is_a_column_for_every_field_of_the_model),
		cmocka_unit_test(strangers_see_the_bore_without_this_program),
	};

	return run_tests(tests);
}
