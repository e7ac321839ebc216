/* Failures in words: kept whole, fit to be shown, and in the order they are read. */
#include "base/err.h"

#include "base/str.h"
#include "support/near.h"

#include <string.h>

static void a_refusal_is_one_line_and_fills_what_went_wrong(void **state)
{
	struct sb_err err = { 0 };

	(void)state;
	assert_int_equal(sb_fail(&err, SB_RANGE, "joint %d of %s", 4, "9.6"), -1);
	assert_int_equal(err.code, SB_RANGE);
	assert_string_equal(err.text, "joint 4 of 9.6");
	assert_int_equal(sb_fail(&err, SB_IO, "later"), -1);
	assert_int_equal(err.code, SB_IO);
	assert_string_equal(err.text, "later");
}

static void nobody_has_to_ask_why(void **state)
{
	(void)state;
	assert_int_equal(sb_fail(NULL, SB_FORMAT, "%s", "unheard"), -1);
	assert_int_equal(sb_fail_within(NULL, "%s", "unheard"), -1);
	sb_problems_add(NULL, 0, "job.ini", 1, "name", "unheard");
}

static void what_comes_from_outside_is_fit_to_be_shown(void **state)
{
	struct sb_err err = { 0 };

	(void)state;
	sb_fail(&err, SB_FORMAT, "'%s' is not a unit", "\033[2Jm\n\xff");
	assert_string_equal(err.text, "'?[2Jm ?' is not a unit");
	/* Once the words before came through untamed: a file's name could paint the screen. */
	sb_fail_within(&err, "%s: ", "a\033b");
	assert_string_equal(err.text, "a?b: '?[2Jm ?' is not a unit");
	assert_int_equal(err.code, SB_FORMAT);
}

static void words_are_put_before_what_is_said_already(void **state)
{
	struct sb_err err = { 0 };

	(void)state;
	sb_fail(&err, SB_MISSING, "no such key");
	assert_int_equal(sb_fail_within(&err, "line %d: ", 4), -1);
	assert_int_equal(sb_fail_within(&err, "job.ini "), -1);
	assert_string_equal(err.text, "job.ini line 4: no such key");
	assert_int_equal(err.code, SB_MISSING);
}

static void what_does_not_fit_loses_its_end(void **state)
{
	char long_text[2000];
	struct sb_err err = { 0 };

	(void)state;
	memset(long_text, 'x', sizeof long_text - 1);
	long_text[sizeof long_text - 1] = '\0';
	sb_fail(&err, SB_FORMAT, "begin %s", long_text);
	assert_int_equal(strlen(err.text), sizeof err.text - 1);
	assert_memory_equal(err.text, "begin xxx", 9);
	sb_fail_within(&err, "%s", "before: ");
	assert_memory_equal(err.text, "before: begin xxx", 17);
	assert_int_equal(strlen(err.text), sizeof err.text - 1);
	sb_fail_within(&err, "%s", long_text);
	assert_int_equal(strlen(err.text), sizeof err.text - 1);
	assert_null(strstr(err.text, "begin"));
	/* A character of two bytes that does not fit is not cut in two. */
	for (size_t i = 0; i + 1 < sizeof long_text; i++)
		long_text[i] = i % 2 ? '\xa4' : '\xc3';
	sb_fail(&err, SB_FORMAT, "%s", long_text);
	assert_true(sb_utf8_valid(err.text, strlen(err.text)));
}

static void problems_are_listed_in_order_and_errors_counted(void **state)
{
	struct sb_problems p = { 0 };

	(void)state;
	for (int i = 1; i <= 50; i++)
		sb_problems_add(&p, i % 5 == 0, "profile.csv", i, "radius", "row %d", i);
	assert_int_equal(p.count, 50);
	assert_int_equal(p.errors, 40);
	for (int i = 1; i <= 50; i++) {
		char text[16];
		snprintf(text, sizeof text, "row %d", i);
		assert_string_equal(p.list[i - 1].text, text);
		assert_int_equal(p.list[i - 1].line, i);
		assert_int_equal(p.list[i - 1].warning, i % 5 == 0);
		assert_string_equal(p.list[i - 1].file, "profile.csv");
		assert_string_equal(p.list[i - 1].column, "radius");
	}
	sb_problems_clear(&p);
	assert_null(p.list);
	assert_int_equal(p.count + p.room + p.errors, 0);
	sb_problems_add(&p, 0, NULL, 0, NULL, "again");
	assert_string_equal(p.list[0].file, "");
	assert_string_equal(p.list[0].column, "");
	sb_problems_clear(&p);
}

static void a_column_that_somebody_else_named_is_fit_to_be_shown(void **state)
{
	struct sb_problems p = { 0 };
	char name[200];

	(void)state;
	memset(name, 'n', sizeof name - 1);
	name[sizeof name - 1] = '\0';
	sb_problems_add(&p, 0, "a\tb\x9b.csv", 0, "col\033]0;x\a", "no\r\nsuch column");
	sb_problems_add(&p, 0, name, 0, name, "%s", name);
	assert_string_equal(p.list[0].file, "a b?.csv");
	assert_string_equal(p.list[0].column, "col?]0;x?");
	assert_string_equal(p.list[0].text, "no  such column");
	assert_int_equal(strlen(p.list[1].file), sizeof p.list[1].file - 1);
	assert_int_equal(strlen(p.list[1].column), sizeof p.list[1].column - 1);
	assert_string_equal(p.list[1].text, name);
	sb_problems_clear(&p);
}

static const struct CMUnitTest tests[] = {
	cmocka_unit_test(a_refusal_is_one_line_and_fills_what_went_wrong),
	cmocka_unit_test(nobody_has_to_ask_why),
	cmocka_unit_test(what_comes_from_outside_is_fit_to_be_shown),
	cmocka_unit_test(words_are_put_before_what_is_said_already),
	cmocka_unit_test(what_does_not_fit_loses_its_end),
	cmocka_unit_test(problems_are_listed_in_order_and_errors_counted),
	cmocka_unit_test(a_column_that_somebody_else_named_is_fit_to_be_shown),
};

int main(void)
{
	return run_tests(tests);
}
