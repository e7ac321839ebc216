/* Typed numbers, kept as typed and never dependent on the locale; units and inclination conventions. */
#include "base/unit.h"

#include "base/str.h"
#include "geom/random.h"
#include "support/near.h"

#include <locale.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* ---- numbers ---- */

static void numbers_are_kept_as_typed(void **state)
{
	static const struct {
		const char *typed, *kept;
		double value;
	} table[] = {
		{ "12.30", "12.30", 12.3 },
		{ "88.4", "88.4", 88.4 },
		{ "0", "0", 0 },
		{ "007", "007", 7 },
		{ "-0.50", "-0.50", -0.5 },
		{ "+3", "3", 3 },
		{ " \t12,30\t ", "12.30", 12.3 }, /* a decimal comma */
		{ "9,600", "9.600", 9.6 },
		{ ".5", ".5", 0.5 },
		{ "-,5", "-.5", -0.5 },
		{ "5.", "5.", 5 },
		{ "0.1", "0.1", 0.1 },
		{ "5932845.20", "5932845.20", 5932845.2 },
		{ "12345678901234567890", "12345678901234567890", 12345678901234567890.0 },
		{ "-1234567890.12345678", "-1234567890.12345678", -1234567890.12345678 },
	};

	(void)state;
	for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
		struct number n = { 0 };
		struct sb_err err = { 0 };
		assert_int_equal(sb_number_parse(table[i].typed, &n, &err), 0);
		assert_string_equal(n.text, table[i].kept);
		assert_near(n.value, table[i].value, 0); /* the double nearest to what was typed */
		assert_true(sb_number_given(&n));
		assert_int_equal(err.code, SB_OK);
	}
	assert_false(sb_number_given(&(struct number){ .value = 4 }));
}

static void what_is_not_a_number_is_refused_with_what_would_be(void **state)
{
	static const struct {
		const char *typed, *says;
	} table[] = {
		{ "", "There is no number here. Type one, like 88.4." },
		{ " \t ", "There is no number here. Type one, like 88.4." },
		{ "six", "'six' is not a number. Type it like 88.4." },
		{ "-", "'-' is not a number. Type it like 88.4." },
		{ ".", "'.' is not a number. Type it like 88.4." },
		{ "--5", "'--5' is not a number. Type it like 88.4." },
		{ "+-5", "'+-5' is not a number. Type it like 88.4." },
		{ "- 5", "'- 5' is not a number. Type it like 88.4." },
		{ "nan", "'nan' is not a number. Type it like 88.4." },
		{ "-inf", "'-inf' is not a number. Type it like 88.4." },
		/* A minus sign as word processors set it: once the advice was to leave out the number. */
		{ "\xe2\x88\x92"
		  "5",
			"'\xe2\x88\x92"
			"5' is not a number. Type it like 88.4." },
		{ "88.4 deg", "'88.4 deg' is not a number: leave out 'deg' and type the number alone." },
		{ "88.4\xc2\xb0",
			"'88.4\xc2\xb0' is not a number: leave out '\xc2\xb0' and type the number alone." },
		{ "31ft", "'31ft' is not a number: leave out 'ft' and type the number alone." },
		{ "12%", "'12%' is not a number: leave out '%' and type the number alone." },
		{ "6'", "'6'' is not a number: leave out ''' and type the number alone." },
		/* Once the advice was to leave out 'e3', which would have made 1 of 1000. */
		{ "1e3", "'1e3' is a number with an exponent. Write it out, like 1500." },
		{ "1.5E+03", "'1.5E+03' is a number with an exponent. Write it out, like 1500." },
		{ "1,234.5",
			"'1,234.5' is not a number: it has more than one point or comma. Write thousands without "
			"any, like 1234.5." },
		{ "1.234.567",
			"'1.234.567' is not a number: it has more than one point or comma. Write thousands "
			"without any, like 1234.5." },
		{ "88.4 103.2",
			"'88.4 103.2' is not a number: it goes wrong at '103.2'. Type it like 88.4." },
		{ "1 234", "'1 234' is not a number: it goes wrong at '234'. Type it like 88.4." },
		{ "88-4", "'88-4' is not a number: it goes wrong at '-4'. Type it like 88.4." },
		{ "5 .5", "'5 .5' is not a number: it goes wrong at '.5'. Type it like 88.4." },
		{ "88.4\n", "'88.4 ' is not a number: it goes wrong at ' '. Type it like 88.4." },
		{ "123456789012345678901", "'123456789012345678901' has too many digits: 20 at most." },
		{ "0.1234567890123456789", "'0.1234567890123456789' has too many digits: 20 at most." },
	};

	(void)state;
	for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
		struct number n = { 5, "as it was" };
		struct sb_err err = { 0 };
		assert_int_equal(sb_number_parse(table[i].typed, &n, &err), -1);
		assert_int_equal(err.code, SB_FORMAT);
		assert_string_equal(err.text, table[i].says);
		assert_string_equal(n.text, "as it was");
		assert_near(n.value, 5, 0);
		assert_int_equal(sb_number_parse(table[i].typed, &n, NULL), -1);
	}
}

/* The same rule, said the other way about: blanks, a sign, digits with at most one decimal sign, blanks. */
static bool is_number(const char *s)
{
	size_t digits = 0, marks = 0, length = 0;

	s += strspn(s, " \t");
	if (*s == '+' || *s == '-')
		length += *s++ == '-';
	for (; *s && strchr("0123456789.,", *s); s++, length++) {
		digits += strchr(".,", *s) == NULL;
		marks += strchr(".,", *s) != NULL;
	}
	return s[strspn(s, " \t")] == '\0' && digits > 0 && marks <= 1 && length <= 20;
}

static void check_any(const char *typed)
{
	struct number n = { 5, "as it was" };
	struct sb_err err = { 0 };

	if (sb_number_parse(typed, &n, &err) == 0) {
		struct number again;
		assert_true(is_number(typed));
		assert_true(strlen(n.text) <= 20 && strspn(n.text, "-.0123456789") == strlen(n.text));
		assert_near(n.value, strtod(n.text, NULL), 0);
		assert_int_equal(sb_number_parse(n.text, &again, NULL), 0);
		assert_string_equal(again.text, n.text);
		return;
	}
	assert_false(is_number(typed));
	assert_int_equal(err.code, SB_FORMAT);
	assert_string_equal(n.text, "as it was");
	assert_true(strlen(err.text) > 20 && sb_utf8_valid(err.text, strlen(err.text)));
}

static void any_bytes_are_a_number_or_a_refusal(void **state)
{
	static const char likely[] = "0123456789012345678901234567890123456789.,.,+-- \teE%x\xc2\xb0";
	struct random r = { 23 };

	(void)state;
	for (int i = 0; i < 200000; i++) {
		char typed[40];
		size_t length = (size_t)random_between(&r, 0, i % 3 ? 8.9 : 30.9);
		for (size_t k = 0; k < length; k++)
			typed[k] = i % 7 == 0 ? (char)random_between(&r, 1, 255.9)
					      : likely[(size_t)random_between(&r, 0, sizeof likely - 1.01)];
		typed[length] = '\0';
		check_any(typed);
	}
}

static void numbers_that_nobody_typed_are_written_plainly(void **state)
{
	(void)state;
	assert_string_equal(sb_number_of(31.2, 2).text, "31.20");
	assert_near(sb_number_of(31.204, 2).value, 31.2, 0); /* what it says, not what it came from */
	assert_string_equal(sb_number_of(-0.001, 2).text, "0.00");
	assert_false(signbit(sb_number_of(-0.001, 2).value));
	assert_string_equal(sb_number_of(-12.345, 1).text, "-12.3");
	assert_string_equal(sb_number_of(7, 0).text, "7");
	assert_string_equal(sb_number_of(999999999999999.0, 0).text, "999999999999999");
	struct number none[] = { sb_number_of(NAN, 2), sb_number_of(HUGE_VAL, 2), sb_number_of(-1e15, 2) };
	for (size_t i = 0; i < 3; i++) {
		assert_false(sb_number_given(&none[i]));
		assert_near(none[i].value, 0, 0);
	}
}

/* ---- locales ---- */

/* A locale with decimal commas: one of this machine's, else one made for the occasion where the tools and
 * their sources are there. */
static bool comma_locale(char *folder)
{
	static const char *const names[] = { "de_DE.UTF-8", "de_DE.utf8", "de_DE", "fr_FR.UTF-8",
		"nl_NL.UTF-8", "pl_PL.UTF-8", "sagbend_comma" };
	char command[200];

	for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
		if (i == sizeof names / sizeof *names - 1 && mkdtemp(folder)) {
			snprintf(command, sizeof command,
				"localedef -i de_DE -f UTF-8 '%s/%s' >/dev/null 2>&1", folder, names[i]);
			if (system(command) != 0) /* NOLINT(cert-env33-c): a fixed command of the system */
				return false;
			setenv("LOCPATH", folder, 1);
		}
		if (setlocale(LC_NUMERIC, names[i]) && *localeconv()->decimal_point == ',')
			return true;
	}
	return false;
}

/* Once strtod and printf took the locale's decimal sign: 88.4 was read as 88, and 31.2 written as 31,20. */
static void numbers_do_not_depend_on_the_locale(void **state)
{
	char folder[] = "/tmp/sagbend-locale-XXXXXX", command[100], text[32];
	bool there = comma_locale(folder);
	struct number n = { 0 };

	(void)state;
	if (there) {
		snprintf(text, sizeof text, "%.1f", 88.4);
		assert_string_equal(text, "88,4"); /* it is in force */
		assert_int_equal(sb_number_parse("88.4", &n, NULL), 0);
		assert_near(n.value, 88.4, 0);
		assert_int_equal(sb_number_parse("88,4", &n, NULL), 0);
		assert_near(n.value, 88.4, 0);
		assert_string_equal(n.text, "88.4");
		n = sb_number_of(-31.2, 2);
		assert_string_equal(n.text, "-31.20");
		assert_near(n.value, -31.2, 0);
		snprintf(text, sizeof text, "%.1f", 88.4);
		assert_string_equal(text, "88,4"); /* and is left as it was */
	}
	setlocale(LC_NUMERIC, "C");
	if (strstr(folder, "XXXXXX") == NULL) {
		snprintf(command, sizeof command, "rm -rf '%s'", folder);
		assert_int_equal(system(command), 0); /* NOLINT(cert-env33-c): as above */
	}
	if (!there) {
		print_message("no locale with decimal commas here, and none can be made: skipped\n");
		skip();
	}
}

/* ---- units ---- */

static void units_are_exact_and_have_their_names(void **state)
{
	(void)state;
	assert_near(sb_unit_metres(UNIT_M), 1, 0);
	assert_near(sb_unit_metres(UNIT_FT), 0.3048, 0);
	assert_near(sb_unit_metres(UNIT_FTUS), 1200.0 / 3937.0, 0);
	assert_string_equal(sb_unit_short(UNIT_M), "m");
	assert_string_equal(sb_unit_short(UNIT_FT), "ft");
	assert_string_equal(sb_unit_short(UNIT_FTUS), "ft");
	assert_string_equal(sb_unit_long(UNIT_M), "metres");
	assert_string_equal(sb_unit_long(UNIT_FT), "international feet");
	assert_string_equal(sb_unit_long(UNIT_FTUS), "US survey feet");
	for (int i = UNIT_M; i <= UNIT_FTUS; i++) {
		enum unit back;
		assert_int_equal(sb_unit_parse(sb_unit_name((enum unit)i), &back, NULL), 0);
		assert_int_equal((int)back, i);
	}
}

static void a_unit_that_is_none_is_refused_with_those_there_are(void **state)
{
	static const char *const table[] = { "", "feet", "FT", "ftus", "metre", "m ", "mm" };

	(void)state;
	for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
		char want[200];
		struct sb_err err;
		enum unit u = UNIT_FTUS;
		assert_int_equal(sb_unit_parse(table[i], &u, &err), -1);
		assert_int_equal(u, UNIT_FTUS);
		assert_int_equal(err.code, SB_FORMAT);
		snprintf(want, sizeof want,
			"'%s' is not a unit. Write m, ft (international) or ftUS (US survey).", table[i]);
		assert_string_equal(err.text, want);
	}
}

/* ---- inclination ---- */

static void inclinations_go_into_radians_from_straight_down(void **state)
{
	static const struct {
		enum incline c;
		double typed, degrees;
	} table[] = {
		{ INCLINE_DOWN, 0, 0 },
		{ INCLINE_DOWN, 80, 80 },
		{ INCLINE_DOWN, 90, 90 },
		{ INCLINE_DOWN, 98.5, 98.5 },
		{ INCLINE_DOWN, 180, 180 },
		{ INCLINE_LEVEL, -90, 0 },
		{ INCLINE_LEVEL, -10, 80 },
		{ INCLINE_LEVEL, 0, 90 },
		{ INCLINE_LEVEL, 8.5, 98.5 },
		{ INCLINE_LEVEL, 90, 180 },
		{ INCLINE_GRADE, 0, 90 },
		{ INCLINE_GRADE, -100, 45 },
		{ INCLINE_GRADE, 100, 135 },
		{ INCLINE_GRADE, -17.632698070846497, 80 },
	};
	const double degree = 3.14159265358979323846 / 180;

	(void)state;
	for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
		double radians = sb_incline_radians(table[i].c, table[i].typed);
		assert_near(radians, table[i].degrees * degree, 1e-15);
		assert_near(sb_incline_typed(table[i].c, radians), table[i].typed, 1e-11);
	}
}

/* An angle a hair past straight up would be refused where courses are laid. */
static void the_ends_of_the_range_do_not_leave_it(void **state)
{
	double low, high;

	(void)state;
	for (int c = INCLINE_DOWN; c <= INCLINE_GRADE; c++) {
		sb_incline_range((enum incline)c, &low, &high);
		assert_true(sb_incline_radians((enum incline)c, low) >= 0);
		assert_true(sb_incline_radians((enum incline)c, high) <= 3.14159265358979323846);
		assert_true(low < high);
	}
	assert_near(sb_incline_radians(INCLINE_DOWN, 90), 3.14159265358979323846 / 2, 0);
	assert_near(sb_incline_radians(INCLINE_LEVEL, 0), 3.14159265358979323846 / 2, 0);
	sb_incline_range(INCLINE_GRADE, &low, &high);
	assert_near(sb_incline_radians(INCLINE_GRADE, high) / 3.14159265358979323846 * 180, 90 + 89.9, 0.02);
}

static void conventions_have_their_names_and_marks(void **state)
{
	static const char *const names[] = { "down", "level", "grade" },
				 *const marks[] = { "deg", "deg", "%" };
	struct sb_err err;
	enum incline c = INCLINE_GRADE;

	(void)state;
	for (int i = INCLINE_DOWN; i <= INCLINE_GRADE; i++) {
		enum incline back;
		assert_string_equal(sb_incline_name((enum incline)i), names[i]);
		assert_string_equal(sb_incline_mark((enum incline)i), marks[i]);
		assert_int_equal(sb_incline_parse(names[i], &back, NULL), 0);
		assert_int_equal((int)back, i);
	}
	assert_int_equal(sb_incline_parse("percent", &c, &err), -1);
	assert_int_equal(c, INCLINE_GRADE);
	assert_int_equal(err.code, SB_FORMAT);
	assert_string_equal(err.text,
		"'percent' is not an inclination convention. Write down (0 straight down, 90 level), level (0 level, "
		"rising positive) or grade (percent).");
}

static const struct CMUnitTest tests[] = {
	cmocka_unit_test(numbers_are_kept_as_typed),
	cmocka_unit_test(what_is_not_a_number_is_refused_with_what_would_be),
	cmocka_unit_test(any_bytes_are_a_number_or_a_refusal),
	cmocka_unit_test(numbers_that_nobody_typed_are_written_plainly),
	cmocka_unit_test(numbers_do_not_depend_on_the_locale),
	cmocka_unit_test(units_are_exact_and_have_their_names),
	cmocka_unit_test(a_unit_that_is_none_is_refused_with_those_there_are),
	cmocka_unit_test(inclinations_go_into_radians_from_straight_down),
	cmocka_unit_test(the_ends_of_the_range_do_not_leave_it),
	cmocka_unit_test(conventions_have_their_names_and_marks),
};

int main(void)
{
	return run_tests(tests);
}
