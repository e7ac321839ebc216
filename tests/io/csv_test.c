/* CSV as people's spreadsheets write it, and as nobody should. */
#include "io/csv.h"

#include "base/mem.h"
#include "io/scratch.h"

static struct sb_problems problems;
static struct sb_csv *csv;

static int open_text(const char *text, size_t length)
{
	sb_problems_clear(&problems);
	sb_csv_close(csv);
	csv = NULL;
	return sb_csv_open(scratch_bytes("t.csv", text, length), "t.csv", &csv, &problems);
}

static int finish(void **state)
{
	(void)state;
	sb_csv_close(csv);
	csv = NULL;
	sb_problems_clear(&problems);
	return 0;
}

#define OPEN(text) open_text(text, sizeof(text) - 1)

static const char *problem(size_t i)
{
	assert_true(i < problems.count);
	return problems.list[i].text;
}

#define assert_says(i, words) \
	do { \
		if (strstr(problem(i), words) == NULL) \
			fail_msg("'%s' does not say '%s'", problem(i), words); \
	} while (0)

static void rows_come_out_with_their_lines(void **state)
{
	(void)state;
	assert_int_equal(OPEN("a,b\n1,2\n\n\"x\ny\",\"say \"\"no\"\"\"\n3,4"), 0);
	assert_int_equal(sb_csv_columns(csv), 2);
	const struct csv_row *r = sb_csv_next(csv);
	assert_non_null(r);
	assert_int_equal(r->line, 2);
	assert_string_equal(r->cells[1], "2");
	r = sb_csv_next(csv);
	assert_non_null(r);
	assert_int_equal(r->line, 4);
	assert_string_equal(r->cells[0], "x\ny");
	assert_string_equal(r->cells[1], "say \"no\"");
	r = sb_csv_next(csv);
	assert_non_null(r);
	assert_int_equal(r->line, 6);
	assert_string_equal(r->cells[1], "4");
	assert_null(sb_csv_next(csv));
	assert_null(sb_csv_next(csv));
	assert_int_equal(problems.count, 0);
}

static void a_byte_order_mark_crlf_semicolons_and_decimal_commas_are_understood(void **state)
{
	(void)state;
	assert_int_equal(OPEN("\xEF\xBB\xBF"
			      "Joint Length; Azimuth ;remarks\r\n 9,60 ;42,5;\"a;b\"\r\n;;\r\n"),
		0);
	assert_int_equal(sb_csv_find(csv, "joint_length"), 0);
	assert_int_equal(sb_csv_find(csv, "AZIMUTH"), 1);
	assert_int_equal(sb_csv_find(csv, "inclination"), -1);
	const struct csv_row *r = sb_csv_next(csv);
	assert_non_null(r);
	assert_true(sb_csv_decimal(csv, r, 0));
	assert_true(sb_csv_decimal(csv, r, 1));
	assert_string_equal(r->cells[0], "9,60");
	assert_string_equal(r->cells[2], "a;b");
	assert_null(sb_csv_next(csv));
	assert_int_equal(problems.count, 0);
}

static void tabs_old_line_ends_and_a_sep_line_are_understood(void **state)
{
	(void)state;
	assert_int_equal(OPEN("a\tb\r1\t2\r3\t\r"), 0);
	const struct csv_row *r = sb_csv_next(csv);
	assert_string_equal(r->cells[1], "2");
	r = sb_csv_next(csv);
	assert_int_equal(r->line, 3);
	assert_string_equal(r->cells[1], "");
	assert_int_equal(OPEN("sep=;\r\na,x;b\r\n1;2\r\n"), 0);
	assert_int_equal(sb_csv_columns(csv), 2);
	assert_string_equal(sb_csv_column(csv, 0), "a,x");
	r = sb_csv_next(csv);
	assert_int_equal(r->line, 3);
}

static void a_header_with_two_kinds_of_separators_is_refused(void **state)
{
	(void)state;
	assert_int_equal(OPEN("a,b;c\n1,2;3\n"), -1);
	assert_int_equal(problems.list[0].line, 1);
	assert_says(0, "more than one of comma, semicolon and tab");
}

static void a_mixture_of_decimal_points_and_commas_is_refused_once(void **state)
{
	(void)state;
	assert_int_equal(OPEN("a;b\n1,5;2\n3;2.25\n4,5;1\n"), 0);
	bool clear = true;
	for (const struct csv_row *r; (r = sb_csv_next(csv)) != NULL;)
		for (size_t i = 0; i < 2; i++)
			clear &= sb_csv_decimal(csv, r, i);
	assert_false(clear);
	assert_int_equal(problems.count, 1);
	assert_int_equal(problems.list[0].line, 3);
	assert_string_equal(problems.list[0].column, "b");
	assert_says(0, "line 2 and this one");
}

static void thousands_are_never_taken_for_decimals(void **state)
{
	(void)state;
	assert_int_equal(OPEN("a,b\n\"1,234\",2\n\"1,234.5\",3\n"), 0);
	const struct csv_row *r = sb_csv_next(csv);
	assert_false(sb_csv_decimal(csv, r, 0));
	assert_true(sb_csv_decimal(csv, r, 1));
	assert_false(sb_csv_decimal(csv, sb_csv_next(csv), 0));
	assert_says(0, "commas between its cells");
	assert_says(1, "thousands");
	/* With tabs, 1,234 alone is doubtful; beside 2,5 it is not. */
	assert_int_equal(OPEN("a\tb\n1,234\t2\n"), 0);
	assert_true(sb_csv_decimal(csv, sb_csv_next(csv), 0));
	assert_null(sb_csv_next(csv));
	assert_int_equal(problems.errors, 1);
	assert_int_equal(problems.list[0].line, 2);
	assert_says(0, "may be a decimal comma or a thousand");
	assert_int_equal(OPEN("a\tb\n1,234\t2,5\n"), 0);
	r = sb_csv_next(csv);
	assert_true(sb_csv_decimal(csv, r, 0) && sb_csv_decimal(csv, r, 1));
	assert_null(sb_csv_next(csv));
	assert_int_equal(problems.errors, 0);
}

static void a_decimal_comma_between_commas_is_found_by_the_width_of_the_row(void **state)
{
	(void)state;
	assert_int_equal(OPEN("a,b\n1,5,2\n7\n3,4\n5,6,,\n"), 0);
	const struct csv_row *r = sb_csv_next(csv);
	assert_int_equal(r->line, 4);
	r = sb_csv_next(csv);
	assert_int_equal(r->line, 5);
	assert_null(sb_csv_next(csv));
	assert_int_equal(problems.errors, 2);
	assert_int_equal(problems.list[0].line, 2);
	assert_says(0, "3 cells, the header has 2");
	assert_says(0, "semicolons");
	assert_int_equal(problems.list[1].line, 3);
}

static void a_column_twice_or_without_a_name_is_refused(void **state)
{
	(void)state;
	assert_int_equal(OPEN("a,,b,A \n1,2,3,4\n"), -1);
	assert_int_equal(problems.errors, 2);
	assert_says(0, "column 2 has no name");
	assert_says(1, "twice");
	assert_int_equal(OPEN("a,b,,\n1,2,,\n"), 0);
	assert_int_equal(sb_csv_columns(csv), 2);
	assert_non_null(sb_csv_next(csv));
}

static void an_empty_file_and_a_header_alone_are_told_apart(void **state)
{
	(void)state;
	assert_int_equal(OPEN(""), -1);
	assert_says(0, "nothing in this file");
	assert_int_equal(OPEN("\n \n\n"), -1);
	assert_says(0, "nothing in this file");
	assert_int_equal(OPEN("\n\na,b\n"), 0);
	assert_null(sb_csv_next(csv));
	assert_int_equal(problems.errors, 0);
}

static void quotes_out_of_place_are_named_by_line_and_the_next_rows_are_read(void **state)
{
	(void)state;
	assert_int_equal(OPEN("a,b\n1,x\"y\n2,\"z\"z\n3,4\n"), 0);
	const struct csv_row *r = sb_csv_next(csv);
	assert_non_null(r);
	assert_int_equal(r->line, 4);
	assert_int_equal(problems.errors, 2);
	assert_int_equal(problems.list[0].line, 2);
	assert_int_equal(problems.list[1].line, 3);
	assert_says(0, "double quote");
}

static void a_quote_that_is_never_closed_is_named_where_it_opens(void **state)
{
	(void)state;
	assert_int_equal(OPEN("a,b\n1,2\n3,\"4\n5,6\n7,8\n"), 0);
	assert_non_null(sb_csv_next(csv));
	assert_null(sb_csv_next(csv));
	assert_int_equal(problems.errors, 1);
	assert_int_equal(problems.list[0].line, 3);
	assert_says(0, "never closed");
}

static void nul_bytes_bad_utf8_and_control_characters_are_refused_by_line(void **state)
{
	(void)state;
	assert_int_equal(OPEN("a,b\n1,\0002\n3,\xE4\n4,\x1B[2J\n5,\xC3\xA4\n"), 0);
	const struct csv_row *r = sb_csv_next(csv);
	assert_non_null(r);
	assert_int_equal(r->line, 5);
	assert_string_equal(r->cells[1], "\xC3\xA4");
	assert_int_equal(problems.errors, 3);
	assert_says(0, "NUL");
	assert_says(1, "UTF-8");
	assert_says(2, "control character");
	assert_int_equal(OPEN("\xFF\xFEh\0i\0"), -1);
	assert_says(0, "UTF-16");
}

static void what_is_no_file_is_said(void **state)
{
	(void)state;
	assert_int_equal(sb_csv_open(scratch("none.csv"), "none.csv", &csv, &problems), -1);
	assert_says(0, "There is no file");
	scratch("x");
	assert_int_equal(sb_csv_open(scratch_folder, "folder", &csv, &problems), -1);
	assert_says(1, "is a folder");
	assert_int_equal(sb_csv_open("/dev/zero", "zero", &csv, &problems), -1);
	assert_says(2, "larger than 64 MiB");
}

static void too_many_columns_and_too_long_cells_are_refused(void **state)
{
	(void)state;
	struct sb_str text = { 0 };
	for (int i = 0; i < 300; i++)
		sb_str_add(&text, "%sc%d", i ? "," : "", i);
	sb_str_add(&text, "\n");
	assert_int_equal(open_text(text.text, text.length), -1);
	assert_says(0, "more than 256 columns");
	text.length = 0;
	sb_str_add(&text, "a,b\n1,\"");
	for (int i = 0; i < 20000; i++)
		sb_str_add(&text, "hello\n");
	assert_int_equal(open_text(text.text, text.length), 0);
	assert_null(sb_csv_next(csv));
	assert_int_equal(problems.errors, 1);
	assert_int_equal(problems.list[0].line, 2);
	assert_says(0, "longer than 65536 bytes");
	text.length = 0;
	sb_str_add(&text, "a,b\n");
	for (int i = 0; i < 300; i++)
		sb_str_add(&text, "1,");
	sb_str_add(&text, "\n1,2\n");
	assert_int_equal(open_text(text.text, text.length), 0);
	const struct csv_row *r = sb_csv_next(csv);
	assert_int_equal(r->line, 3);
	assert_says(0, "301 cells");
	sb_str_clear(&text);
}

static void the_list_of_problems_ends(void **state)
{
	(void)state;
	struct sb_str text = { 0 };
	sb_str_add(&text, "a,b\n");
	for (int i = 0; i < 5000; i++)
		sb_str_add(&text, "1\n");
	assert_int_equal(open_text(text.text, text.length), 0);
	assert_null(sb_csv_next(csv));
	assert_int_equal(problems.count, SB_CSV_PROBLEMS + 1);
	assert_says(SB_CSV_PROBLEMS, "more than 100 problems");
	sb_str_clear(&text);
}

static const char *const awkward[] = { "", "plain", "a,b", "say \"no\"", "two\nlines", " led by a space",
	"trailing ", "\xC3\xA4\xE2\x82\xAC", "1.5", "'", "\"", "\t" };

static void what_is_written_comes_back(void **state)
{
	(void)state;
	struct csv_out out = { 0 };
	sb_csv_cell(&out, "a");
	sb_csv_cell(&out, "b");
	sb_csv_end(&out);
	for (size_t i = 0; i < sizeof awkward / sizeof *awkward; i++) {
		sb_csv_cell(&out, awkward[i]);
		sb_csv_cell(&out, "x");
		sb_csv_end(&out);
	}
	assert_int_equal(open_text(out.text.text, out.text.length), 0);
	for (size_t i = 0; i < sizeof awkward / sizeof *awkward; i++) {
		const struct csv_row *r = sb_csv_next(csv);
		assert_non_null(r);
		assert_string_equal(r->cells[0], awkward[i]);
	}
	sb_str_clear(&out.text);
}

static void rows_are_written_as_rfc_4180_says(void **state)
{
	(void)state;
	struct csv_out out = { 0 };
	sb_csv_cell(&out, "");
	sb_csv_cell_fixed(&out, 12.3, 6);
	sb_csv_cell_fixed(&out, HUGE_VAL, 6);
	sb_csv_cell_fixed(&out, -0.0000001, 6);
	sb_csv_cell_whole(&out, -7);
	sb_csv_cell(&out, "a \"b\", c");
	sb_csv_end(&out);
	assert_string_equal(out.text.text, ",12.3,,0,-7,\"a \"\"b\"\", c\"\r\n");
	sb_str_clear(&out.text);
}

static void text_that_a_spreadsheet_would_run_is_guarded_and_comes_back(void **state)
{
	(void)state;
	static const char *const typed[] = { "=1+1", "+3", "-3 deg off", "@x", "'quoted'", "''", "plain", "",
		"'", "it's" };
	struct csv_out out = { 0 };
	sb_csv_cell(&out, "a");
	sb_csv_cell(&out, "b");
	sb_csv_end(&out);
	for (size_t i = 0; i < sizeof typed / sizeof *typed; i++) {
		sb_csv_cell_text(&out, typed[i]);
		sb_csv_cell(&out, "x");
		sb_csv_end(&out);
	}
	assert_int_equal(open_text(out.text.text, out.text.length), 0);
	for (size_t i = 0; i < sizeof typed / sizeof *typed; i++) {
		const struct csv_row *r = sb_csv_next(csv);
		assert_non_null(r);
		assert_true(r->cells[0][0] == '\0' || strchr("=+-@", r->cells[0][0]) == NULL);
		assert_string_equal(sb_csv_text(r->cells[0]), typed[i]);
	}
	sb_str_clear(&out.text);
}

/* Every cut and many changed bytes of a file: a row or a problem, never a crash (run under ASan too). */
static void broken_files_never_crash_it(void **state)
{
	(void)state;
	static const char text[] =
		"\xEF\xBB\xBFjoint;\"in\"\"cl\";az\r\n1;\"8\n8,4\";42,0\r\n2;;\"x\"\r\n\xC3\xA4;1;2\r\n";
	char copy[sizeof text];
	unsigned seed = 7;
	for (size_t i = 0; i < 4000; i++) {
		memcpy(copy, text, sizeof text);
		size_t length = i < sizeof text ? i : sizeof text - 1;
		for (int k = 0; i >= sizeof text && k < 3; k++) {
			seed = seed * 1664525u + 1013904223u;
			copy[(seed >> 8) % length] = "\";,\r\n\0\xC3x"[(seed >> 24) % 9];
		}
		if (open_text(copy, length))
			assert_true(problems.errors > 0);
		else
			for (const struct csv_row *r; (r = sb_csv_next(csv)) != NULL;)
				for (size_t c = 0; c < r->count; c++) {
					assert_true(sb_utf8_valid(r->cells[c], strlen(r->cells[c])));
					sb_csv_decimal(csv, r, c);
				}
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test_teardown(rows_come_out_with_their_lines, finish),
		cmocka_unit_test_teardown(
			a_byte_order_mark_crlf_semicolons_and_decimal_commas_are_understood, finish),
		cmocka_unit_test_teardown(tabs_old_line_ends_and_a_sep_line_are_understood, finish),
		cmocka_unit_test_teardown(a_header_with_two_kinds_of_separators_is_refused, finish),
		cmocka_unit_test_teardown(a_mixture_of_decimal_points_and_commas_is_refused_once, finish),
		cmocka_unit_test_teardown(thousands_are_never_taken_for_decimals, finish),
		cmocka_unit_test_teardown(
			a_decimal_comma_between_commas_is_found_by_the_width_of_the_row, finish),
		cmocka_unit_test_teardown(a_column_twice_or_without_a_name_is_refused, finish),
		cmocka_unit_test_teardown(an_empty_file_and_a_header_alone_are_told_apart, finish),
		cmocka_unit_test_teardown(
			quotes_out_of_place_are_named_by_line_and_the_next_rows_are_read, finish),
		cmocka_unit_test_teardown(a_quote_that_is_never_closed_is_named_where_it_opens, finish),
		cmocka_unit_test_teardown(
			nul_bytes_bad_utf8_and_control_characters_are_refused_by_line, finish),
		cmocka_unit_test_teardown(what_is_no_file_is_said, finish),
		cmocka_unit_test_teardown(too_many_columns_and_too_long_cells_are_refused, finish),
		cmocka_unit_test_teardown(the_list_of_problems_ends, finish),
		cmocka_unit_test_teardown(what_is_written_comes_back, finish),
		cmocka_unit_test_teardown(rows_are_written_as_rfc_4180_says, finish),
		cmocka_unit_test_teardown(
			text_that_a_spreadsheet_would_run_is_guarded_and_comes_back, finish),
		cmocka_unit_test_teardown(broken_files_never_crash_it, finish),
	};

	return run_tests(tests);
}
