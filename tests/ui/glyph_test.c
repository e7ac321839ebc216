/* Single characters. */
#include "support/near.h"
#include "ui/glyph.h"

#include "base/str.h"

#include <string.h>

static void a_character_comes_back_from_its_bytes(void **state)
{
	static const unsigned some[] = { 'a', 0x7F, 0x80, 0xE9, 0x7FF, 0x800, 0x2500, 0xFFFD, 0x10000,
		0x10FFFF };
	char text[SB_GLYPH_BYTES];

	(void)state;
	for (size_t i = 0; i < sizeof some / sizeof *some; i++) {
		unsigned back = 0;
		size_t length = sb_glyph_encode(some[i], text);
		assert_int_equal(length, strlen(text));
		assert_int_equal(sb_utf8_next(text, &back), length);
		assert_int_equal(back, some[i]);
	}
}

static void controls_and_marks_that_turn_text_round_are_not_safe(void **state)
{
	static const unsigned bad[] = { 0, 7, 0x1B, 0x7F, 0x85, 0x9B, 0x200B, 0x200F, 0x2028, 0x202E, 0x2066,
		0xD800, 0xFEFF, 0x110000 };

	(void)state;
	for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
		assert_false(sb_glyph_safe(bad[i]));
	assert_true(sb_glyph_safe('a'));
	assert_true(sb_glyph_safe(0xE9));
	assert_true(sb_glyph_safe(0x28FF));
}

static void every_character_has_one_printable_ascii_stand_in(void **state)
{
	(void)state;
	for (unsigned c = 0; c < 0x3000; c++) {
		char plain = sb_glyph_plain(c);
		assert_true(plain >= ' ' && plain < 0x7F);
	}
}

static void accents_fall_to_their_letter_and_lines_to_dashes(void **state)
{
	static const struct {
		unsigned character;
		char plain;
	} some[] = { { 0xE9, 'e' }, { 0xD6, 'O' }, { 0xF1, 'n' }, { 0x159, 'r' }, { 0x142, 'l' },
		{ 0x17E, 'z' }, { 0xC0, 'A' }, { 0x2500, '-' }, { 0x2502, '|' }, { 0x253C, '+' },
		{ 0xB0, 'd' }, { 0xD7, 'x' }, { 0x2026, '~' }, { 0x28FF, '*' }, { 0x2800, ' ' },
		{ 0x2588, '#' }, { 0x4E00, '?' } };

	(void)state;
	for (size_t i = 0; i < sizeof some / sizeof *some; i++)
		assert_int_equal(sb_glyph_plain(some[i].character), some[i].plain);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_character_comes_back_from_its_bytes),
		cmocka_unit_test(controls_and_marks_that_turn_text_round_are_not_safe),
		cmocka_unit_test(every_character_has_one_printable_ascii_stand_in),
		cmocka_unit_test(accents_fall_to_their_letter_and_lines_to_dashes),
	};
	return run_tests(tests);
}
