/* The words for keys. */
#include "support/near.h"
#include "ui/key.h"

#include <string.h>

static void every_name_comes_back(void **state)
{
	char name[SB_KEY_TEXT];

	(void)state;
	for (int key = SB_KEY_BEFORE_FIRST + 1; key < SB_KEY_AFTER_LAST; key++) {
		sb_key_name(key, name);
		assert_int_equal(sb_key_parse(name, strlen(name)), key);
	}
	for (int key = 1; key < 0x7F; key++) {
		sb_key_name(key, name);
		assert_true(sb_key_same(sb_key_parse(name, strlen(name)), key));
	}
}

static void a_list_of_keys_is_read_word_by_word(void **state)
{
	const char *list = "  a 1 . TAB enter Ctrl-l Space \303\251 F12 ";
	static const int want[] = { 'a', '1', '.', SB_KEY_TAB, SB_KEY_ENTER, 12, ' ', 0xE9, SB_KEY_F12,
		SB_KEY_NONE, SB_KEY_NONE };

	(void)state;
	for (size_t i = 0; i < sizeof want / sizeof *want; i++)
		assert_int_equal(sb_key_next(&list), want[i]);
}

static void what_is_no_key_is_said_so(void **state)
{
	static const char *const words[] = { "", "ab", "F13", "Ctrl-", "Ctrl-5", "Ctrl-ab", "Entre",
		"averylongwordthatisnokey", "\033" };

	(void)state;
	for (size_t i = 0; i < sizeof words / sizeof *words; i++)
		assert_int_equal(sb_key_parse(words[i], strlen(words[i])), SB_KEY_NONE);
}

static void letters_match_whatever_their_case_and_nothing_else_does(void **state)
{
	(void)state;
	assert_true(sb_key_same('a', 'A'));
	assert_false(sb_key_same('a', 'B'));
	assert_false(sb_key_same('[', '{'));
	assert_false(sb_key_same('@', '`'));
}

static void only_characters_type(void **state)
{
	(void)state;
	assert_true(sb_key_types('a') && sb_key_types(' ') && sb_key_types(0xE9));
	assert_false(
		sb_key_types(3) || sb_key_types(0x7F) || sb_key_types(SB_KEY_UP) || sb_key_types(0x202E));
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(every_name_comes_back),
		cmocka_unit_test(a_list_of_keys_is_read_word_by_word),
		cmocka_unit_test(what_is_no_key_is_said_so),
		cmocka_unit_test(letters_match_whatever_their_case_and_nothing_else_does),
		cmocka_unit_test(only_characters_type),
	};
	return run_tests(tests);
}
