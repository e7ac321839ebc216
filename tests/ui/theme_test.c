/* Looks: contrast of every pair, and that colour is never the only sign. */
#include "support/near.h"
#include "ui/theme.h"

static double contrast_256(enum theme theme, enum style style, bool chosen)
{
	struct look look = sb_theme_look(theme, 256, style, chosen);

	return sb_theme_contrast(sb_theme_rgb(look.ink), sb_theme_rgb(look.ground));
}

/* WCAG 2.1: black on white is 21:1, equal colours 1:1; #777777 on white is 4.48:1 (derived from the formula
 * there, no table). */
static void contrast_is_computed_as_published(void **state)
{
	(void)state;
	assert_near(sb_theme_contrast(0x000000, 0xFFFFFF), 21, 1e-9);
	assert_near(sb_theme_contrast(0xFFFFFF, 0x000000), 21, 1e-9);
	assert_near(sb_theme_contrast(0x123456, 0x123456), 1, 1e-9);
	assert_near(sb_theme_contrast(0x777777, 0xFFFFFF), 4.478, 1e-3);
}

/* xterm's palette of 256: 16 + 36 r + 6 g + b, levels 0 95 135 175 215 255; greys 8 + 10 i from 232 on. */
static void the_palette_is_the_usual_one(void **state)
{
	(void)state;
	assert_int_equal(sb_theme_rgb(16), 0x000000);
	assert_int_equal(sb_theme_rgb(21), 0x0000FF);
	assert_int_equal(sb_theme_rgb(67), 0x5F87AF);
	assert_int_equal(sb_theme_rgb(196), 0xFF0000);
	assert_int_equal(sb_theme_rgb(231), 0xFFFFFF);
	assert_int_equal(sb_theme_rgb(232), 0x080808);
	assert_int_equal(sb_theme_rgb(255), 0xEEEEEE);
}

static void every_pair_of_256_lies_between_3_and_15(void **state)
{
	(void)state;
	for (int theme = THEME_NIGHT; theme <= THEME_DAY; theme++)
		for (int style = 0; style < STYLES; style++)
			for (int chosen = 0; chosen < 2; chosen++) {
				double c = contrast_256((enum theme)theme, (enum style)style, chosen);
				if (c < 3 || c > 15)
					fail_msg("%s %s%s: %.2f", sb_theme_name((enum theme)theme),
						sb_style_name((enum style)style), chosen ? " chosen" : "", c);
			}
}

static void what_is_read_most_lies_near_7(void **state)
{
	static const enum style read_most[] = { STYLE_PLAIN, STYLE_ENTRY, STYLE_CURSOR, STYLE_OK, STYLE_WATCH,
		STYLE_BREACH };

	(void)state;
	for (int theme = THEME_NIGHT; theme <= THEME_DAY; theme++)
		for (size_t i = 0; i < sizeof read_most / sizeof *read_most; i++)
			assert_near(contrast_256((enum theme)theme, read_most[i], false), 7, 2);
}

/* Two ideas of the first eight colours: xterm's own, and the Linux console's (VGA). What is above 15:1 there
 * is the terminal's own white on black, and not ours to change. */
static void every_pair_of_8_reads_on_the_usual_terminals(void **state)
{
	static const unsigned palettes[][8] = {
		{ 0x000000, 0xCD0000, 0x00CD00, 0xCDCD00, 0x0000EE, 0xCD00CD, 0x00CDCD, 0xE5E5E5 },
		{ 0x000000, 0xAA0000, 0x00AA00, 0xAA5500, 0x0000AA, 0xAA00AA, 0x00AAAA, 0xAAAAAA },
	};

	(void)state;
	for (size_t p = 0; p < 2; p++)
		for (int theme = THEME_NIGHT; theme <= THEME_DAY; theme++)
			for (int style = 0; style < STYLES; style++) {
				struct look l = sb_theme_look((enum theme)theme, 8, (enum style)style, false);
				double c = sb_theme_contrast(palettes[p][l.ink], palettes[p][l.ground]);
				if (c < 3)
					fail_msg("%s %s: %.2f", sb_theme_name((enum theme)theme),
						sb_style_name((enum style)style), c);
			}
}

static bool is_hue(int number, int *hue)
{
	unsigned rgb = sb_theme_rgb(number);
	unsigned r = rgb >> 16, g = rgb >> 8 & 0xFF, b = rgb & 0xFF;

	*hue = r > 2 * g && r > 2 * b ? 'r' : g > r && g > b ? 'g' : r > 2 * b && g > 2 * b ? 'y' : 0;
	return *hue != 0;
}

/* IEC 60073: green normal, yellow abnormal, red hazardous. */
static void green_yellow_and_red_mean_what_they_must_and_nothing_else_has_them(void **state)
{
	static const struct {
		enum style style;
		int hue;
	} levels[] = { { STYLE_OK, 'g' }, { STYLE_WATCH, 'y' }, { STYLE_BREACH, 'r' } };

	(void)state;
	for (int theme = THEME_NIGHT; theme <= THEME_DAY; theme++) {
		for (size_t i = 0; i < 3; i++) {
			struct look l = sb_theme_look((enum theme)theme, 256, levels[i].style, false);
			int ink = 0, ground = 0;
			assert_true(is_hue(l.ink, &ink) || is_hue(l.ground, &ground));
			assert_int_equal(ink ? ink : ground, levels[i].hue);
		}
		for (int style = 0; style < STYLES; style++) {
			int hue;
			if (style == STYLE_OK || style == STYLE_WATCH || style == STYLE_BREACH)
				continue;
			struct look l = sb_theme_look((enum theme)theme, 256, (enum style)style, false);
			assert_false(is_hue(l.ink, &hue) || is_hue(l.ground, &hue));
		}
	}
}

static void without_colours_no_colour_is_asked_for(void **state)
{
	(void)state;
	for (int style = 0; style < STYLES; style++) {
		struct look plain = sb_theme_look(THEME_PLAIN, 256, (enum style)style, false);
		struct look none = sb_theme_look(THEME_NIGHT, 0, (enum style)style, true);
		assert_true(plain.ink < 0 && plain.ground < 0 && none.ink < 0 && none.ground < 0);
		assert_true(none.reverse);
	}
	assert_true(sb_theme_look(THEME_PLAIN, 0, STYLE_BREACH, false).reverse);
	assert_true(sb_theme_look(THEME_PLAIN, 0, STYLE_WATCH, false).bold);
	assert_true(sb_theme_look(THEME_PLAIN, 0, STYLE_CURSOR, false).reverse);
	assert_true(sb_theme_look(THEME_PLAIN, 0, STYLE_ENTRY, false).underline);
}

static void each_level_but_ok_has_a_mark_of_its_own(void **state)
{
	(void)state;
	assert_string_equal(sb_theme_mark(LEVEL_OK), "");
	assert_string_equal(sb_theme_mark(LEVEL_WATCH), "!");
	assert_string_equal(sb_theme_mark(LEVEL_BREACH), "!!");
	assert_int_equal(sb_theme_level(LEVEL_BREACH), STYLE_BREACH);
}

static void a_theme_is_known_by_its_name(void **state)
{
	enum theme theme = THEME_NIGHT;

	(void)state;
	assert_int_equal(sb_theme_parse("Day", &theme), 0);
	assert_int_equal(theme, THEME_DAY);
	assert_int_equal(sb_theme_parse("dusk", &theme), -1);
	assert_int_equal(theme, THEME_DAY);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(contrast_is_computed_as_published),
		cmocka_unit_test(the_palette_is_the_usual_one),
		cmocka_unit_test(every_pair_of_256_lies_between_3_and_15),
		cmocka_unit_test(what_is_read_most_lies_near_7),
		cmocka_unit_test(every_pair_of_8_reads_on_the_usual_terminals),
		cmocka_unit_test(green_yellow_and_red_mean_what_they_must_and_nothing_else_has_them),
		cmocka_unit_test(without_colours_no_colour_is_asked_for),
		cmocka_unit_test(each_level_but_ok_has_a_mark_of_its_own),
		cmocka_unit_test(a_theme_is_known_by_its_name),
	};
	return run_tests(tests);
}
