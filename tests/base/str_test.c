/* Text: grown, copied, compared, and made fit for a terminal. */
#include "base/str.h"

#include "geom/random.h"
#include "support/near.h"

#include <locale.h>
#include <string.h>

static void a_string_grows_by_words_and_bytes(void **state)
{
	struct sb_str s = { 0 };

	(void)state;
	assert_string_equal(sb_str_get(&s), "");
	sb_str_add(&s, "joint %d", 41);
	sb_str_append(&s, ", bit", 5);
	sb_str_add(&s, "%s", "");
	sb_str_append(&s, "never read", 0);
	assert_string_equal(sb_str_get(&s), "joint 41, bit");
	assert_int_equal(s.length, 13);
	for (int i = 0; i < 1000; i++)
		sb_str_add(&s, "%04d", i);
	assert_int_equal(s.length, 4013);
	assert_int_equal(strlen(s.text), 4013);
	assert_string_equal(s.text + 4005, "09980999");
	sb_str_clear(&s);
	assert_string_equal(sb_str_get(&s), "");
	assert_int_equal(s.length + s.room, 0);
	sb_str_append(&s, "", 0);
	assert_string_equal(s.text, "");
	sb_str_clear(&s);
}

static void bytes_with_nul_in_them_are_kept(void **state)
{
	struct sb_str s = { 0 };

	(void)state;
	sb_str_append(&s, "a\0b", 3);
	sb_str_add(&s, "c");
	assert_int_equal(s.length, 4);
	assert_memory_equal(s.text, "a\0bc", 5);
	sb_str_clear(&s);
}

static void a_copy_takes_what_fits_and_says_when_it_is_cut(void **state)
{
	char to[6] = "?????";

	(void)state;
	assert_true(sb_copy(to, sizeof to, "hello"));
	assert_string_equal(to, "hello");
	assert_false(sb_copy(to, sizeof to, "hello!"));
	assert_string_equal(to, "hello");
	assert_true(sb_copy(to, sizeof to, ""));
	assert_string_equal(to, "");
	assert_false(sb_copy(to, 1, "a"));
	assert_string_equal(to, "");
	assert_false(sb_copy(to, 0, "a"));
	assert_true(sb_copy(to, 1, ""));
}

static void a_copy_never_cuts_a_character(void **state)
{
	/* one, two, three and four bytes: a, a with two dots, euro, a clef */
	static const char text[] = "a\xc3\xa4\xe2\x82\xac\xf0\x9d\x84\x9e";
	static const size_t whole[] = { 0, 0, 1, 1, 3, 3, 3, 6, 6, 6, 6, 10 };
	char to[16];

	(void)state;
	for (size_t size = 1; size < sizeof whole / sizeof *whole; size++) {
		bool fits = sb_copy(to, size, text);
		assert_int_equal(strlen(to), whole[size]);
		assert_memory_equal(to, text, whole[size]);
		assert_true(sb_utf8_valid(to, strlen(to)));
		assert_int_equal(fits, size == 11);
	}
}

static void words_are_the_same_but_for_ascii_case(void **state)
{
	(void)state;
	assert_true(sb_same("ft", "ft"));
	assert_false(sb_same("ft", "ftUS"));
	assert_false(sb_same("ft", "FT"));
	assert_true(sb_same_word("Partial", "pARTIAL"));
	assert_true(sb_same_word("", ""));
	assert_false(sb_same_word("full", "ful"));
	assert_false(sb_same_word("ful", "full"));
	assert_false(sb_same_word("[", "{")); /* 32 apart, as letters are */
	assert_false(sb_same_word("\xc3\x84", "\xc3\xa4"));
}

/* ---- UTF-8: The Unicode Standard, table 3-7, well-formed byte sequences ---- */

static bool valid(const char *bytes)
{
	return sb_utf8_valid(bytes, strlen(bytes));
}

static void utf8_is_told_from_what_only_looks_like_it(void **state)
{
	static const char *const good[] = { "", "88.4", "\x7f", "\xc2\x80", "\xdf\xbf", "\xe0\xa0\x80",
		"\xed\x9f\xbf", "\xee\x80\x80", "\xef\xbf\xbf", "\xf0\x90\x80\x80", "\xf4\x8f\xbf\xbf" };
	static const char *const bad[] = { "\x80", "\xbf", "\xc0\x80", "\xc1\xbf", "\xc2", "\xc2 ",
		"\xe0\x9f\xbf", "\xe0\xa0", "\xed\xa0\x80", "\xed\xbf\xbf", "\xf0\x8f\xbf\xbf",
		"\xf0\x90\x80", "\xf4\x90\x80\x80", "\xf5\x80\x80\x80", "\xff", "\xe2\x28\xa1",
		"\xe2\x82\x28", "\xf0\x90\x28\xbc" };

	(void)state;
	for (size_t i = 0; i < sizeof good / sizeof *good; i++)
		assert_true(valid(good[i]));
	for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
		assert_false(valid(bad[i]));
	assert_false(sb_utf8_valid("a\0b", 3));
	assert_false(sb_utf8_valid("\xe2\x82\xac", 2));
	assert_true(sb_utf8_valid("\xe2\x82\xac!", 3));
}

static void characters_come_one_by_one(void **state)
{
	static const char text[] = "a\xc3\xa4\xe2\x82\xac\xf0\x9d\x84\x9e\xff\xe2\x82";
	static const struct {
		size_t bytes;
		unsigned character;
	} want[] = { { 1, 'a' }, { 2, 0xE4 }, { 3, 0x20AC }, { 4, 0x1D11E }, { 1, 0xFFFD }, { 1, 0xFFFD },
		{ 1, 0xFFFD } };
	const char *at = text;
	unsigned c = 7;

	(void)state;
	for (size_t i = 0; i < sizeof want / sizeof *want; i++) {
		assert_int_equal(sb_utf8_next(at, &c), want[i].bytes);
		assert_int_equal(c, want[i].character);
		at += want[i].bytes;
	}
	assert_int_equal(sb_utf8_next(at, &c), 0);
}

static void every_character_there_is_comes_back(void **state)
{
	(void)state;
	for (unsigned want = 1; want < 0x110000; want += want < 0x900 ? 1 : 13) {
		char text[5] = "";
		unsigned got;
		if (want >= 0xD800 && want < 0xE000)
			continue;
		size_t length = want < 0x80 ? 1 : want < 0x800 ? 2 : want < 0x10000 ? 3 : 4;
		static const unsigned lead[] = { 0, 0, 0xC0, 0xE0, 0xF0 };
		for (size_t i = length; i-- > 1;)
			text[i] = (char)(0x80 | (want >> 6 * (length - 1 - i) & 0x3F));
		text[0] = (char)(lead[length] | want >> 6 * (length - 1));
		assert_true(valid(text));
		assert_int_equal(sb_utf8_next(text, &got), length);
		assert_int_equal(got, want);
	}
}

static void what_would_move_a_cursor_is_tamed(void **state)
{
	static const struct {
		const char *from, *to;
	} table[] = {
		{ "88.4", "88.4" },
		{ "a\tb\nc\r\nd", "a b c  d" },
		{ "\033[31mred\a\b\x7f", "?[31mred???" },
		{ "\xc2\x9b"
		  "2J",
			"?2J" },		       /* C1: a control sequence in one character */
		{ "\xe2\x80\xaegpj.exe", "?gpj.exe" }, /* right to left from here on */
		{ "\xe2\x81\xa6x\xe2\x81\xa9", "?x?" },
		{ "\xff\xfe", "??" },
		{ "\xe2\x82", "??" },
		{ "\xef\xbf\xbd", "?" },
		{ "gr\xc3\xbc\xc3\x9f", "gr\xc3\xbc\xc3\x9f" },
		{ "", "" },
	};
	char text[64];

	(void)state;
	for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
		sb_copy(text, sizeof text, table[i].from);
		sb_utf8_tame(text);
		assert_string_equal(text, table[i].to);
	}
}

static void any_bytes_at_all_come_out_tame(void **state)
{
	struct random r = { 11 };

	(void)state;
	for (int i = 0; i < 20000; i++) {
		char text[40], again[40];
		size_t length = (size_t)random_between(&r, 0, 39.9);
		for (size_t k = 0; k < length; k++)
			text[k] = (char)random_between(&r, i % 2 ? 1 : 100, 255.9);
		text[length] = '\0';
		sb_utf8_tame(text);
		assert_true(strlen(text) <= length);
		assert_true(valid(text));
		for (const char *c = text; *c; c++)
			assert_true((unsigned char)*c >= 0x20 && *c != 0x7F);
		sb_copy(again, sizeof again, text);
		sb_utf8_tame(again);
		assert_string_equal(again, text);
	}
}

static void columns_are_those_of_a_terminal(void **state)
{
	(void)state;
	if (setlocale(LC_CTYPE, "C.UTF-8") == NULL) {
		print_message("no C.UTF-8 here: skipped\n");
		skip();
	}
	assert_int_equal(sb_utf8_columns(""), 0);
	assert_int_equal(sb_utf8_columns("88.4"), 4);
	assert_int_equal(sb_utf8_columns("gr\xc3\xbc\xc3\x9f"), 4);
	assert_int_equal(sb_utf8_columns("e\xcc\x81"), 1);		  /* e and an accent over it */
	assert_int_equal(sb_utf8_columns("\xe6\xb0\xb4\xe9\x81\x93"), 4); /* two wide ones */
	assert_int_equal(sb_utf8_columns("a\xff\x01"), 3);		  /* of unknown width: 1 each */
	setlocale(LC_CTYPE, "C");
}

static const struct CMUnitTest tests[] = {
	cmocka_unit_test(a_string_grows_by_words_and_bytes),
	cmocka_unit_test(bytes_with_nul_in_them_are_kept),
	cmocka_unit_test(a_copy_takes_what_fits_and_says_when_it_is_cut),
	cmocka_unit_test(a_copy_never_cuts_a_character),
	cmocka_unit_test(words_are_the_same_but_for_ascii_case),
	cmocka_unit_test(utf8_is_told_from_what_only_looks_like_it),
	cmocka_unit_test(characters_come_one_by_one),
	cmocka_unit_test(every_character_there_is_comes_back),
	cmocka_unit_test(what_would_move_a_cursor_is_tamed),
	cmocka_unit_test(any_bytes_at_all_come_out_tame),
	cmocka_unit_test(columns_are_those_of_a_terminal),
};

int main(void)
{
	return run_tests(tests);
}
