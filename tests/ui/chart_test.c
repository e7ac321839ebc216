/* Pictures in cells. */
#include "support/near.h"
#include "ui/chart.h"

static struct scene scene;

static int make_scene(void **state)
{
	(void)state;
	sb_scene_init(&scene);
	sb_scene_line(&scene, MEANING_DESIGN, LINE_SOLID);
	sb_scene_point(&scene, 0, 0);
	sb_scene_point(&scene, 100, 0);
	sb_scene_mark(&scene, MEANING_BIT, (struct spot){ 50, 10 });
	sb_scene_see(&scene, 0, -20);
	sb_scene_see(&scene, 100, 20);
	return 0;
}

static int clear_scene(void **state)
{
	(void)state;
	sb_scene_clear(&scene);
	return 0;
}

static int count_style(const struct cells *c, enum style style)
{
	int count = 0;

	for (int i = 0; i < c->rows * c->columns; i++)
		count += c->at[i].style == style && c->at[i].character != ' ';
	return count;
}

static void a_scene_fills_its_rectangle_in_the_styles_of_its_meanings(void **state)
{
	struct cells c;

	(void)state;
	sb_cells_init(&c, 12, 60);
	struct cells part = sb_cells_part(&c, 1, 5, 10, 50);
	sb_chart_draw(&scene, GLYPHS_BRAILLE, &part);
	assert_in_range(count_style(&part, STYLE_DESIGN), 10, 50);
	assert_int_equal(count_style(&part, STYLE_BIT), 1);
	for (int column = 0; column < 60; column++) {
		assert_int_equal(c.at[column].character, ' ');
		assert_int_equal(c.at[11 * 60 + column].character, ' ');
	}
	sb_cells_clear(&c);
}

static void the_characters_are_those_that_are_allowed(void **state)
{
	struct cells c;
	bool dots = false;

	(void)state;
	sb_cells_init(&c, 10, 50);
	sb_chart_draw(&scene, GLYPHS_ASCII, &c);
	for (int i = 0; i < 500; i++)
		assert_in_range(c.at[i].character, ' ', '~');
	sb_chart_draw(&scene, GLYPHS_LINES, &c);
	for (int i = 0; i < 500; i++)
		assert_false(c.at[i].character >= 0x2800 && c.at[i].character < 0x2900);
	sb_chart_draw(&scene, GLYPHS_BRAILLE, &c);
	for (int i = 0; i < 500; i++)
		dots |= c.at[i].character > 0x2800 && c.at[i].character < 0x2900;
	assert_true(dots);
	sb_cells_clear(&c);
}

static void a_rectangle_of_any_size_is_drawn(void **state)
{
	(void)state;
	for (int rows = 0; rows < 4; rows++)
		for (int columns = 0; columns < 4; columns++) {
			struct cells c;
			sb_cells_init(&c, rows, columns);
			sb_chart_draw(&scene, GLYPHS_BRAILLE, &c);
			sb_cells_clear(&c);
		}
}

static void every_meaning_has_a_style_that_is_no_verdict(void **state)
{
	(void)state;
	for (int m = 0; m < MEANINGS; m++) {
		enum style style = sb_chart_style((enum meaning)m);
		assert_true(style < STYLES);
		assert_false(style == STYLE_OK || style == STYLE_WATCH || style == STYLE_BREACH);
		if (m != MEANING_NONE)
			assert_int_not_equal(style, STYLE_PLAIN);
	}
}

#define of_a_scene(test) cmocka_unit_test_setup_teardown(test, make_scene, clear_scene)

int main(void)
{
	const struct CMUnitTest tests[] = {
		of_a_scene(a_scene_fills_its_rectangle_in_the_styles_of_its_meanings),
		of_a_scene(the_characters_are_those_that_are_allowed),
		of_a_scene(a_rectangle_of_any_size_is_drawn),
		cmocka_unit_test(every_meaning_has_a_style_that_is_no_verdict),
	};
	return run_tests(tests);
}
