/* Exports: nothing is missing from them, and what comes out goes in again as the same bore. */
#include "io/format.h"

#include "base/mem.h"
#include "io/bore.h"
#include "io/csv.h"
#include "io/rows.h"
#include "io/scratch.h"
#include "io/standing.h"

#include <sqlite3.h>

static struct job job;
static struct solution s;
static struct sb_str text;
static struct sb_problems problems;
static const struct about about = { "tern-slough.bore", "00ff", "E. Engineer", BORE_CLOCK, "sagbend test" };

static int begin(void **state)
{
	(void)state;
	bore_tern(&job);
	sb_copy(job.readings[19].remarks, sizeof job.readings[19].remarks, "=1+1, \"quoted\"");
	bore_correct(&job, 12, "82.2", "read again: 82.1 was not at rest");
	bore_correct(&job, 12, "82.1", "no: the first was right");
	bore_solve(&job, &s);
	return 0;
}

static int tidy(void **state)
{
	(void)state;
	sb_str_clear(&text);
	sb_problems_clear(&problems);
	sb_solution_clear(&s);
	sb_job_clear(&job);
	return 0;
}

static struct sb_csv *export_and_open(void)
{
	struct sb_csv *csv = NULL;

	text.length = 0;
	assert_int_equal(
		sb_format("csv")->write(
			&(struct export){ .job = &job, .solution = &s, .about = &about }, &text, NULL),
		0);
	assert_int_equal(
		sb_csv_open(scratch_bytes("e.csv", text.text, text.length), "e.csv", &csv, &problems), 0);
	return csv;
}

static const char *at(const struct sb_csv *csv, const struct csv_row *row, const char *column)
{
	int i = sb_csv_find(csv, column);

	if (i < 0)
		fail_msg("no column %s", column);
	return row->cells[i];
}

static void formats_are_found_by_name(void **state)
{
	(void)state;
	assert_string_equal(sb_format("CSV")->extension, "csv");
	assert_string_equal(sb_format("json")->name, "json");
	assert_null(sb_format("xls"));
}

static void every_reading_ever_taken_is_in_the_csv(void **state)
{
	(void)state;
	struct sb_csv *csv = export_and_open();
	size_t count[SB_STANDINGS] = { 0 }, corrected = 0;
	for (const struct csv_row *r; (r = sb_csv_next(csv)) != NULL;) {
		const char *word = at(csv, r, "standing");
		for (enum standing k = STANDING_ENTRY; k <= STANDING_REPLACED; k++)
			count[k] += sb_same(word, sb_standing_name(k));
		corrected += sb_same(at(csv, r, "corrected"), "yes");
	}
	assert_int_equal(count[STANDING_ENTRY], 1);
	assert_int_equal(count[STANDING_PATH], 68);
	assert_int_equal(count[STANDING_WITHDRAWN], 5);
	assert_int_equal(count[STANDING_REPLACED], 2);
	assert_int_equal(corrected, 1);
	assert_int_equal(count[STANDING_PATH] + count[STANDING_WITHDRAWN] + count[STANDING_REPLACED],
		job.reading_count);
	sb_csv_close(csv);
}

static void a_row_holds_every_field_as_it_was_typed(void **state)
{
	(void)state;
	struct sb_csv *csv = export_and_open();
	const struct csv_row *r = NULL;
	for (int i = 0; i < 14; i++)
		r = sb_csv_next(csv); /* the entry, 11 joints, and of joint 12 the two that were replaced */
	assert_string_equal(at(csv, r, "standing"), "replaced");
	assert_string_equal(at(csv, r, "inclination"), "82.2");
	assert_string_equal(at(csv, r, "station"), "");
	r = sb_csv_next(csv);
	const struct reading *reading = sb_job_joint(&job, 12);
	assert_string_equal(at(csv, r, "standing"), "path");
	assert_string_equal(at(csv, r, "reason"), "no: the first was right");
	for (size_t i = 0; i < sb_row_field_count; i++)
		assert_string_equal(
			at(csv, r, sb_row_fields[i].name), sb_row_field_get(&sb_row_fields[i], reading));
	assert_string_equal(at(csv, r, "time"), "2026-09-21T15:30:20.000Z");
	sb_csv_close(csv);
}

static void a_remark_that_looks_like_a_formula_is_not_one_to_a_spreadsheet(void **state)
{
	(void)state;
	struct sb_csv *csv = export_and_open();
	sb_csv_close(csv);
	assert_non_null(strstr(text.text, ",\"'=1+1, \"\"quoted\"\"\","));
}

static const char *const keys[] = { "job", "owner", "contractor", "file", "file_digest", "exported_by",
	"exported_at", "program", "unit", "reading_units", "inclination", "azimuth", "declination",
	"convergence", "coordinate_system", "vertical_datum", "scale_factor", "entry", "exit", "method",
	"instrument", "uncertainty", "confidence", "bend_limits", "signs", "sides", "caution" };

static void the_csv_says_what_it_is_about(void **state)
{
	(void)state;
	struct sb_csv *csv = export_and_open();
	struct sb_str all = { 0 };
	for (const struct csv_row *r; (r = sb_csv_next(csv)) != NULL;)
		sb_str_add(&all, "[%s] %s\n", at(csv, r, "about"), at(csv, r, "about_value"));
	for (size_t i = 0; i < sizeof keys / sizeof *keys; i++) {
		char key[64];
		snprintf(key, sizeof key, "[%s] ", keys[i]);
		if (strstr(all.text, key) == NULL)
			fail_msg("%s is not in:\n%s", key, all.text);
	}
	assert_non_null(strstr(all.text, "[method] minimum curvature\n"));
	assert_non_null(strstr(all.text, "[file_digest] 00ff\n"));
	assert_non_null(strstr(all.text, "[unit] ft (international feet)\n"));
	assert_non_null(strstr(all.text, "[coordinate_system] EPSG:2992\n"));
	assert_non_null(strstr(all.text, "the product pipe enters at the bore's exit"));
	assert_non_null(strstr(all.text, sb_caution));
	sb_str_clear(&all);
	sb_csv_close(csv);
}

/* With fewer rows than there is to say, rows of nothing else follow, and an import passes over them. */
static void an_empty_log_still_says_what_it_is_about(void **state)
{
	(void)state;
	struct surveys surveys;
	sb_solution_clear(&s);
	sb_job_clear(&job);
	bore_sheet(KESTREL, &job);
	bore_solve(&job, &s);
	struct sb_csv *csv = export_and_open();
	size_t rows = 0;
	while (sb_csv_next(csv))
		rows++;
	sb_csv_close(csv);
	assert_true(rows >= sizeof keys / sizeof *keys);
	assert_int_equal(sb_surveys_read(scratch("e.csv"), &job, &surveys, &problems), 0);
	assert_int_equal(surveys.count, 0);
	assert_int_equal(surveys.skipped, rows);
	sb_surveys_clear(&surveys);
}

static void what_is_exported_and_imported_is_the_same_bore(void **state)
{
	(void)state;
	struct job again;
	struct solution s2;
	struct sb_csv *csv = export_and_open();
	sb_csv_close(csv);
	bore_sheet(TERN, &again);
	bore_surveys(&again, scratch("e.csv"));
	bore_solve(&again, &s2);
	assert_int_equal(s2.path.count, s.path.count);
	for (size_t i = 0; i < s.path.count; i++) {
		const struct row *a = &s.path.rows[i], *b = &s2.path.rows[i];
		/* bit by bit */
		assert_memory_equal(&a->at, &b->at, sizeof a->at);
		assert_memory_equal(&a->deviation.station_m, &b->deviation.station_m, sizeof(double));
		assert_memory_equal(&a->deviation.height_m, &b->deviation.height_m, sizeof(double));
		assert_memory_equal(&a->window.radius_m, &b->window.radius_m, sizeof(double));
	}
	for (int joint = 1; joint <= 68; joint++) {
		const struct reading *a = sb_job_joint(&job, joint), *b = sb_job_joint(&again, joint);
		for (size_t k = 0; k < sb_row_field_count; k++)
			assert_string_equal(sb_row_field_get(&sb_row_fields[k], a),
				sb_row_field_get(&sb_row_fields[k], b));
		assert_string_equal(a->who, b->who);
	}
	assert_int_equal(s2.level, s.level);
	sb_solution_clear(&s2);
	sb_job_clear(&again);
}

static void the_path_alone_goes_in_again_too(void **state)
{
	(void)state;
	struct job again;
	struct solution s2;
	struct rows_ask ask = { 0 };
	assert_int_equal(sb_rows_table(&job, &s, &ask, ROWS_CSV, &text, NULL), 0);
	bore_sheet(TERN, &again);
	bore_surveys(&again, scratch_bytes("p.csv", text.text, text.length));
	bore_solve(&again, &s2);
	assert_near(s2.bit.at.n, s.bit.at.n, 1e-6);
	assert_near(s2.bit.at.u, s.bit.at.u, 1e-6);
	assert_near(s2.bit.md_m, s.bit.md_m, 1e-6);
	sb_solution_clear(&s2);
	sb_job_clear(&again);
}

/* SQLite reads the JSON: no one here wrote that reader. */
static void assert_json(const char *expression, const char *want)
{
	sqlite3 *db;
	sqlite3_stmt *q;
	char sql[256];

	snprintf(sql, sizeof sql, "SELECT %s FROM (SELECT ? AS j)", expression);
	assert_int_equal(sqlite3_open(":memory:", &db), SQLITE_OK);
	assert_int_equal(sqlite3_prepare_v2(db, sql, -1, &q, NULL), SQLITE_OK);
	sqlite3_bind_text(q, 1, text.text, -1, SQLITE_STATIC);
	assert_int_equal(sqlite3_step(q), SQLITE_ROW);
	const char *got = (const char *)sqlite3_column_text(q, 0);
	if (got == NULL || strcmp(got, want) != 0)
		fail_msg("%s is %s, not %s", expression, got ? got : "null", want);
	sqlite3_finalize(q);
	sqlite3_close(db);
}

static void the_json_holds_everything(void **state)
{
	(void)state;
	struct acknowledgement a = { .act = 3,
		.kind = "missing-survey",
		.leg = 2,
		.joint = 57,
		.to_joint = 57,
		.level = LEVEL_WATCH,
		.at_ms = BORE_CLOCK,
		.who = "P. Ortega",
		.reason = "wire \"parted\"\nspliced" };
	sb_job_add_acknowledgement(&job, &a);
	sb_solution_clear(&s);
	bore_solve(&job, &s);
	assert_int_equal(
		sb_format("json")->write(
			&(struct export){ .job = &job, .solution = &s, .about = &about }, &text, NULL),
		0);
	assert_json("json_valid(j)", "1");
	assert_json("json_extract(j, '$.about.caution')", sb_caution);
	assert_json("json_extract(j, '$.settings.job.name')", "Tern Slough");
	assert_json("json_extract(j, '$.settings.control.entry')", "655412.30, 1566208.75, 38.50");
	assert_json("json_array_length(j, '$.tables.tally')", "76");
	assert_json("json_extract(j, '$.tables.profile[1].radius')", "2400");
	assert_json("json_array_length(j, '$.columns')", "26");
	assert_json("json_array_length(j, '$.rows')", "76");
	assert_json("json_extract(j, '$.rows[13].standing')", "replaced");
	assert_json("json_extract(j, '$.rows[14].corrected')", "1");
	assert_json("json_extract(j, '$.rows[14].thrust')", sb_job_joint(&job, 12)->thrust.text);
	assert_json("json_extract(j, '$.rows[14].returns')", "full");
	assert_json("json_extract(j, '$.legs[0].to_joint')", "33");
	assert_json("json_array_length(j, '$.acts')", "3");
	assert_json("json_extract(j, '$.acknowledgements[0].reason')", "wire \"parted\"\nspliced");
	char withdrawn[16];
	int count = 0;
	for (size_t i = 0; i < s.warning_count; i++)
		count += s.warnings[i].superseded;
	assert_true(count >= 2); /* the drift, the tight spot */
	snprintf(withdrawn, sizeof withdrawn, "%d", count);
	assert_json(
		"(SELECT count(*) FROM json_each(j, '$.warnings') WHERE json_extract(value, '$.withdrawn'))",
		withdrawn);
	assert_json("(SELECT json_extract(value, '$.acknowledged_by') FROM json_each(j, '$.warnings') WHERE "
		    "json_extract(value, '$.kind') = 'missing-survey')",
		"P. Ortega");
	char station[64], want[64];
	snprintf(station, sizeof station, "round(json_extract(j, '$.rows[75].station'), 6)");
	snprintf(want, sizeof want, "%.6f", sb_frame_typed(&s.frame, s.path.rows[68].deviation.station_m));
	assert_near(strtod(want, NULL), 2078.4, 0.1);
	for (size_t i = strlen(want); want[i - 1] == '0'; i--)
		want[i - 1] = '\0';
	assert_json(station, want);
}

int main(void)
{
#define T(f) cmocka_unit_test_setup_teardown(f, begin, tidy)
	const struct CMUnitTest tests[] = {
		T(formats_are_found_by_name),
		T(every_reading_ever_taken_is_in_the_csv),
		T(a_row_holds_every_field_as_it_was_typed),
		T(a_remark_that_looks_like_a_formula_is_not_one_to_a_spreadsheet),
		T(the_csv_says_what_it_is_about),
		T(an_empty_log_still_says_what_it_is_about),
		T(what_is_exported_and_imported_is_the_same_bore),
		T(the_path_alone_goes_in_again_too),
		T(the_json_holds_everything),
	};

	return run_tests(tests);
}
