/* Numbers three rows high. */
#include "support/near.h"
#include "ui/big.h"

static char rows[SB_BIG_ROWS][256];

static int draw(enum glyphs glyphs, const char *number)
{
	struct cells c;

	sb_cells_init(&c, SB_BIG_ROWS, 50);
	int column = sb_big_number(&c, 0, 0, STYLE_STRONG, glyphs, number);
	for (int i = 0; i < SB_BIG_ROWS; i++)
		sb_cells_row(&c, i, rows[i], sizeof rows[i]);
	sb_cells_clear(&c);
	return column;
}

static void every_digit_has_its_shape_in_blocks(void **state)
{
	(void)state;
	assert_int_equal(draw(GLYPHS_BRAILLE, "0123456789."), 42);
	assert_string_equal(rows[0], "█▀█ ▄█  ▀▀█ ▀▀█ █ █ █▀▀ █▀▀ ▀▀█ █▀█ █▀█");
	assert_string_equal(rows[1], "█ █  █  █▀▀  ▀█ ▀▀█ ▀▀█ █▀█   █ █▀█ ▀▀█");
	assert_string_equal(rows[2], "█▄█ ▄█▄ █▄▄ ▄▄█   █ ▄▄█ █▄█   █ █▄█ ▄▄█ ▄");
}

static void and_in_plain_characters(void **state)
{
	(void)state;
	assert_int_equal(draw(GLYPHS_ASCII, "0123456789."), 42);
	assert_string_equal(rows[0], " _       _   _       _   _   _   _   _");
	assert_string_equal(rows[1], "| |   |  _|  _| |_| |_  |_    | |_| |_|");
	assert_string_equal(rows[2], "|_|   | |_   _|   |  _| |_|   | |_|  _| .");
}

static void its_width_is_known_beforehand(void **state)
{
	(void)state;
	assert_int_equal(sb_big_columns("12.4"), draw(GLYPHS_LINES, "12.4"));
	assert_int_equal(sb_big_columns(""), 0);
}

static void no_two_digits_look_alike(void **state)
{
	char one[2] = "", seen[10][3 * 16];

	(void)state;
	for (int ascii = 0; ascii < 2; ascii++)
		for (int i = 0; i < 10; i++) {
			one[0] = (char)('0' + i);
			draw(ascii ? GLYPHS_ASCII : GLYPHS_LINES, one);
			snprintf(seen[i], sizeof seen[i], "%.15s|%.15s|%.15s", rows[0], rows[1], rows[2]);
			for (int j = 0; j < i; j++)
				assert_string_not_equal(seen[i], seen[j]);
		}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(every_digit_has_its_shape_in_blocks),
		cmocka_unit_test(and_in_plain_characters),
		cmocka_unit_test(its_width_is_known_beforehand),
		cmocka_unit_test(no_two_digits_look_alike),
	};
	return run_tests(tests);
}
