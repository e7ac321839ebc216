/* JSON out: nothing but JSON. Read back by SQLite's own reader, which no one here wrote. */
#include "io/json.h"

#include "io/figure.h"
#include "support/near.h"

#include <float.h>
#include <sqlite3.h>
#include <stdlib.h>
#include <string.h>

/* Evaluates an SQL expression on the JSON text; the result as text, to be freed. */
static char *ask(const char *expression, const char *json)
{
	sqlite3 *db;
	sqlite3_stmt *q;
	char sql[256];

	snprintf(sql, sizeof sql, "SELECT %s FROM (SELECT ? AS j)", expression);
	assert_int_equal(sqlite3_open(":memory:", &db), SQLITE_OK);
	assert_int_equal(sqlite3_prepare_v2(db, sql, -1, &q, NULL), SQLITE_OK);
	sqlite3_bind_text(q, 1, json, -1, SQLITE_STATIC);
	assert_int_equal(sqlite3_step(q), SQLITE_ROW);
	const char *text = (const char *)sqlite3_column_text(q, 0);
	char *copy = strdup(text ? text : "NULL");
	sqlite3_finalize(q);
	sqlite3_close(db);
	return copy;
}

static void assert_ask(const char *expression, const struct sb_json *j, const char *want)
{
	char *got = ask(expression, sb_str_get(&j->text));

	assert_string_equal(got, want);
	free(got);
}

static void objects_arrays_and_values_nest(void **state)
{
	(void)state;
	struct sb_json j = { 0 };
	struct number typed = { 12.3, "12.30" }, odd = { 0.5, ".5" }, none = { 0, "" };
	sb_json_object(&j, NULL);
	sb_json_text(&j, "name", "Tern Slough");
	sb_json_array(&j, "rows");
	for (int i = 1; i <= 2; i++) {
		sb_json_object(&j, NULL);
		sb_json_whole(&j, "joint", i);
		sb_json_bool(&j, "taken", i == 1);
		sb_json_end(&j);
	}
	sb_json_end(&j);
	sb_json_array(&j, "empty");
	sb_json_end(&j);
	sb_json_typed(&j, "typed", &typed);
	sb_json_typed(&j, "odd", &odd);
	sb_json_typed(&j, "none", &none);
	sb_json_text_or_null(&j, "crs", "");
	sb_json_end(&j);
	assert_string_equal(sb_str_get(&j.text),
		"{\n  \"name\": \"Tern Slough\",\n  \"rows\": [\n    {\"joint\": 1, \"taken\": true},\n"
		"    {\"joint\": 2, \"taken\": false}\n  ],\n  \"empty\": [],\n  \"typed\": 12.30,\n  \"odd\": 0.5,\n"
		"  \"none\": null,\n  \"crs\": null\n}\n");
	assert_ask("json_valid(j)", &j, "1");
	assert_ask("json_extract(j, '$.rows[1].joint')", &j, "2");
	sb_str_clear(&j.text);
}

static void text_is_escaped_and_broken_utf8_mended(void **state)
{
	(void)state;
	struct sb_json j = { 0 };
	sb_json_array(&j, NULL);
	sb_json_text(&j, NULL, "a\"b\\c\nd\te\x1B\x7F");
	sb_json_text(&j, NULL, "\xC3\xA4\xF0\x9F\x9A\xA9");
	sb_json_text(&j, NULL, "x\xE4y");
	sb_json_end(&j);
	assert_ask("json_valid(j)", &j, "1");
	assert_ask("json_extract(j, '$[0]')", &j, "a\"b\\c\nd\te\x1B\x7F");
	assert_ask("json_extract(j, '$[1]')", &j, "\xC3\xA4\xF0\x9F\x9A\xA9");
	assert_ask("json_extract(j, '$[2]')", &j, "x\xEF\xBF\xBDy");
	sb_str_clear(&j.text);
}

static void a_number_that_is_none_becomes_null(void **state)
{
	(void)state;
	struct sb_json j = { 0 };
	sb_json_array(&j, NULL);
	sb_json_exact(&j, NULL, NAN);
	sb_json_exact(&j, NULL, HUGE_VAL);
	sb_json_fixed(&j, NULL, -HUGE_VAL, 3);
	sb_json_fixed(&j, NULL, -0.0, 3);
	sb_json_exact(&j, NULL, -0.0);
	sb_json_end(&j);
	assert_string_equal(sb_str_get(&j.text), "[\n  null,\n  null,\n  null,\n  0,\n  0\n]\n");
	assert_ask("json_valid(j)", &j, "1");
	sb_str_clear(&j.text);
}

static void exact_figures_read_back_as_the_same_number(void **state)
{
	(void)state;
	static const double values[] = { 0.1, 1.0 / 3, 1e300, 5e-324, DBL_MAX, 13841900.858123457, -2.5, 1e22,
		268.4, 0.30480000000000002 };
	char text[SB_FIGURE_TEXT];
	for (size_t i = 0; i < sizeof values / sizeof *values; i++)
		assert_true(strtod(sb_figure_exact(values[i], text), NULL) == values[i]);
	assert_string_equal(sb_figure_exact(0.1, text), "0.1");
	assert_string_equal(sb_figure_exact(100, text), "100");
}

static void fixed_figures_are_rounded_and_trimmed(void **state)
{
	(void)state;
	char text[SB_FIGURE_TEXT];
	assert_string_equal(sb_figure_fixed(1268.4000000000001, 6, text), "1268.4");
	assert_string_equal(sb_figure_fixed(1200, 0, text), "1200");
	assert_string_equal(sb_figure_fixed(-0.0000004, 6, text), "0");
	assert_string_equal(sb_figure_fixed(-0.0000006, 6, text), "-0.000001");
	assert_string_equal(sb_figure_fixed(1e15, 6, text), "");
	assert_string_equal(sb_figure_fixed(999999999999999.0, 12, text), "999999999999999");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(objects_arrays_and_values_nest),
		cmocka_unit_test(text_is_escaped_and_broken_utf8_mended),
		cmocka_unit_test(a_number_that_is_none_becomes_null),
		cmocka_unit_test(exact_figures_read_back_as_the_same_number),
		cmocka_unit_test(fixed_figures_are_rounded_and_trimmed),
	};

	return run_tests(tests);
}
