#include "draw/braille.h"

#include "draw/picture.h"
#include "support/near.h"

#include <locale.h>
#include <math.h>
#include <string.h>

/* A bare scene of x 0..w, y 0..h: on w columns and h/2 rows a unit is a column. */
static void bare(struct scene *s, double w, double h)
{
	sb_scene_init(s);
	s->bare = true;
	sb_scene_see(s, 0, 0);
	sb_scene_see(s, w, h);
}

static void line(
	struct scene *s, enum meaning m, enum line_kind kind, double ax, double ay, double bx, double by)
{
	sb_scene_line(s, m, kind);
	sb_scene_point(s, ax, ay);
	sb_scene_point(s, bx, by);
}

static void a_line_falls_across_the_cells_in_each_mode(void **state)
{
	struct scene s;

	(void)state;
	bare(&s, 4, 4);
	line(&s, MEANING_DRILLED, LINE_SOLID, 0, 4, 4, 0);
	assert_picture(&s, 4, 2, RASTER_BRAILLE, "⠑⢄\n  ⠑⢄\n");
	assert_picture(&s, 4, 2, RASTER_BLOCKS, "▀▄\n  ▀▄\n");
	assert_picture(&s, 4, 2, RASTER_PLAIN, "**\n  **\n");
	sb_scene_clear(&s);
}

static void every_dot_of_a_braille_cell_is_the_right_one(void **state)
{
	static const unsigned bits[4][2] = { { 0x01, 0x08 }, { 0x02, 0x10 }, { 0x04, 0x20 }, { 0x40, 0x80 } };
	struct raster r = { 0 };
	struct axis a;

	(void)state;
	sb_raster_resize(&r, 1, 1);
	for (int y = 0; y < 4; y++)
		for (int x = 0; x < 2; x++) {
			struct scene s;
			double at_x = 0.25 + x * 0.5, at_y = 1.75 - y * 0.5;
			bare(&s, 1, 2);
			line(&s, MEANING_GROUND, LINE_SOLID, at_x, at_y, at_x, at_y);
			sb_braille_fit(&s, &r, &a);
			sb_braille_draw(&s, &a, RASTER_BRAILLE, &r);
			assert_int_equal(r.cells[0].code, 0x2800 + bits[y][x]);
			assert_int_equal(r.cells[0].meaning, MEANING_GROUND);
			sb_scene_clear(&s);
		}
	sb_raster_clear(&r);
}

static void boxes_and_ellipses_are_drawn_round(void **state)
{
	struct scene s;

	(void)state;
	bare(&s, 12, 8);
	sb_scene_box(&s, MEANING_CORRIDOR, LINE_SOLID, (struct spot){ 0, 0 }, (struct spot){ 12, 8 });
	sb_scene_ellipse(&s, MEANING_OBSTACLE, LINE_SOLID, (struct spot){ 6, 4 }, (struct spot){ 2.8, 0 },
		(struct spot){ 0, 2.8 });
	assert_picture(&s, 12, 4, RASTER_PLAIN,
		"....####....\n"
		".  ##  ##  .\n"
		".  ##  ##  .\n"
		"....####....\n");
	sb_scene_clear(&s);
}

static void a_thing_smaller_than_a_dot_is_still_a_dot(void **state)
{
	struct scene s;

	(void)state;
	bare(&s, 4, 4);
	sb_scene_ellipse(&s, MEANING_OBSTACLE, LINE_SOLID, (struct spot){ 1.5, 3 }, (struct spot){ 1e-3, 0 },
		(struct spot){ 0, 1e-3 });
	assert_picture(&s, 4, 2, RASTER_PLAIN, " #\n\n");
	sb_scene_clear(&s);
}

static void a_cell_means_the_most_important_of_its_dots(void **state)
{
	struct scene s;
	struct raster r = { 0 };
	struct axis a;

	(void)state;
	bare(&s, 4, 2);
	line(&s, MEANING_DRILLED, LINE_SOLID, 0, 0.2, 2, 0.2);
	line(&s, MEANING_GROUND, LINE_SOLID, 0, 1.8, 4, 1.8);
	sb_raster_resize(&r, 4, 1);
	sb_braille_fit(&s, &r, &a);
	sb_braille_draw(&s, &a, RASTER_BRAILLE, &r);
	assert_int_equal(sb_raster_cell(&r, 0, 0)->meaning, MEANING_DRILLED);
	assert_int_equal(sb_raster_cell(&r, 0, 0)->code, 0x28C9); /* both are dotted */
	assert_int_equal(sb_raster_cell(&r, 3, 0)->meaning, MEANING_GROUND);
	sb_raster_clear(&r);
	sb_scene_clear(&s);
}

static void the_most_important_mark_wins_whatever_the_order(void **state)
{
	struct scene s;

	(void)state;
	bare(&s, 4, 2);
	sb_scene_mark(&s, MEANING_BIT, (struct spot){ 1.5, 1 });
	sb_scene_mark(&s, MEANING_EXIT, (struct spot){ 1.5, 1 });
	sb_scene_mark(&s, MEANING_DESIGN, (struct spot){ 3.5, 1 });
	assert_picture(&s, 4, 1, RASTER_BRAILLE, " O +\n");
	sb_scene_clear(&s);
}

static void points_that_are_not_numbers_break_the_line_and_no_more(void **state)
{
	struct scene s;

	(void)state;
	bare(&s, 12, 2);
	sb_scene_line(&s, MEANING_DRILLED, LINE_SOLID);
	sb_scene_point(&s, 0, 1);
	sb_scene_point(&s, 3.5, 1);
	sb_scene_point(&s, NAN, 1);
	sb_scene_point(&s, 6, 1);
	sb_scene_point(&s, 7.5, 1);
	sb_scene_point(&s, 8, HUGE_VAL);
	sb_scene_point(&s, 10.1, 1);
	sb_scene_point(&s, 11.5, 1);
	sb_scene_mark(&s, MEANING_BIT, (struct spot){ NAN, 1 });
	sb_scene_text(&s, MEANING_LABEL, ANCHOR_RIGHT, (struct spot){ 3, -HUGE_VAL }, "lost");
	sb_scene_ellipse(&s, MEANING_OBSTACLE, LINE_SOLID, (struct spot){ NAN, 1 }, (struct spot){ 1, 0 },
		(struct spot){ 0, 1 });
	assert_picture(&s, 12, 1, RASTER_PLAIN, "****  **  **\n");
	sb_scene_clear(&s);
}

static void lines_from_beyond_are_cut_to_the_picture(void **state)
{
	struct scene s;

	(void)state;
	bare(&s, 6, 4);
	line(&s, MEANING_DRILLED, LINE_SOLID, -1e15, 3, 1e15, 3);
	line(&s, MEANING_DESIGN, LINE_SOLID, 3.5, -1e300, 3.5, 1e300);
	line(&s, MEANING_GROUND, LINE_SOLID, 10, 10, 20, 10);
	assert_picture(&s, 6, 2, RASTER_PLAIN, "******\n   -\n");
	sb_scene_clear(&s);
}

static void a_line_beside_another_is_left_out_where_it_would_only_blur_it(void **state)
{
	struct scene s;

	(void)state;
	bare(&s, 6, 12);
	line(&s, MEANING_DESIGN, LINE_SOLID, 0, 6, 6, 6);
	line(&s, MEANING_CORRIDOR, LINE_SOLID, 0, 8.5, 6, 8.5);
	sb_scene_beside(&s, 2.5);
	assert_picture(&s, 6, 6, RASTER_PLAIN, "\n......\n\n------\n\n\n");
	assert_picture(&s, 6, 3, RASTER_PLAIN, "\n ----\n\n"); /* 1.25 units away */
	sb_scene_clear(&s);
}

static void words_stand_beside_their_point_and_never_on_a_mark(void **state)
{
	struct scene s;

	(void)state;
	bare(&s, 16, 6);
	sb_scene_mark(&s, MEANING_ENTRY, (struct spot){ 0.5, 3 });
	sb_scene_text(&s, MEANING_LABEL, ANCHOR_RIGHT, (struct spot){ 0.5, 3 }, "entry");
	assert_picture(&s, 16, 3, RASTER_PLAIN, "\n> entry\n\n");
	sb_scene_mark(&s, MEANING_BIT, (struct spot){ 4.5, 3 });
	assert_picture(&s, 16, 3, RASTER_PLAIN, " entry\n>   O\n\n");
	sb_scene_clear(&s);
}

static void words_go_where_they_hide_least(void **state)
{
	struct scene s;

	(void)state;
	bare(&s, 16, 6);
	line(&s, MEANING_DESIGN, LINE_SOLID, 0, 3, 16, 3);
	line(&s, MEANING_GROUND, LINE_SOLID, 0, 5, 16, 5);
	sb_scene_text(&s, MEANING_LABEL, ANCHOR_RIGHT, (struct spot){ 5.5, 3 }, "here");
	assert_picture(&s, 16, 3, RASTER_PLAIN, "================\n----------------\n      here\n");
	sb_scene_clear(&s);
}

static void two_names_do_not_run_into_one_another(void **state)
{
	struct scene s;

	(void)state;
	bare(&s, 20, 2);
	sb_scene_text(&s, MEANING_OBSTACLE, ANCHOR_RIGHT, (struct spot){ 0.5, 1 }, "gas");
	sb_scene_text(&s, MEANING_OBSTACLE, ANCHOR_RIGHT, (struct spot){ 3.5, 1 }, "water");
	assert_picture(&s, 20, 1, RASTER_PLAIN, "  gas\n"); /* no room for the second */
	sb_scene_clear(&s);
	bare(&s, 20, 2);
	sb_scene_text(&s, MEANING_OBSTACLE, ANCHOR_RIGHT, (struct spot){ 0.5, 1 }, "gas");
	sb_scene_text(&s, MEANING_OBSTACLE, ANCHOR_RIGHT, (struct spot){ 4.5, 1 }, "water");
	assert_picture(&s, 20, 1, RASTER_PLAIN, "  gas water\n");
	sb_scene_clear(&s);
}

static void a_dimension_stands_in_its_line(void **state)
{
	struct scene s;

	(void)state;
	bare(&s, 16, 6);
	line(&s, MEANING_CORRIDOR, LINE_SOLID, 0, 3, 16, 3);
	sb_scene_text(&s, MEANING_TICK, ANCHOR_UPON, (struct spot){ 8, 3 }, " 6 ft ");
	assert_picture(&s, 16, 3, RASTER_PLAIN, "\n..... 6 ft .....\n\n");
	sb_scene_mark(&s, MEANING_BIT, (struct spot){ 8.5, 3 });
	assert_picture(&s, 16, 3, RASTER_PLAIN, "      6 ft\n........O.......\n\n");
	sb_scene_clear(&s);
}

static void long_names_are_cut_and_odd_characters_take_one_column(void **state)
{
	struct scene s;

	(void)state;
	bare(&s, 24, 2);
	sb_scene_text(
		&s, MEANING_OBSTACLE, ANCHOR_RIGHT, (struct spot){ 0.5, 1 }, "Trinkwasserleitung der Stadt");
	assert_picture(&s, 24, 1, RASTER_PLAIN, "  Trinkwasserleitu\n");
	sb_scene_clear(&s);
	bare(&s, 24, 2);
	/* one composed letter, a combining accent, a wide character */
	sb_scene_text(
		&s, MEANING_OBSTACLE, ANCHOR_RIGHT, (struct spot){ 0.5, 1 }, "Öl e\xcc\x81 \xe6\xb2\xb9");
	assert_picture(&s, 24, 1, RASTER_BRAILLE, "  Öl e ?\n");
	assert_picture(&s, 24, 1, RASTER_PLAIN, "  ?l e ?\n");
	sb_scene_clear(&s);
}

static struct scene with_scale(double most)
{
	struct scene s;

	sb_scene_init(&s);
	s.across = QUANTITY_STATION;
	s.up = QUANTITY_ELEVATION;
	s.exaggerated = most;
	sb_scene_see(&s, 0, 0);
	sb_scene_see(&s, 400, 20);
	line(&s, MEANING_GROUND, LINE_SOLID, 0, 20, 400, 20);
	line(&s, MEANING_DESIGN, LINE_SOLID, 0, 20, 400, 0);
	return s;
}

static void the_scale_stands_beside_the_picture_with_its_exaggeration(void **state)
{
	struct scene s = with_scale(5);

	(void)state;
	assert_picture(&s, 40, 8, RASTER_PLAIN,
		"\n"
		"20 ------===============================\n"
		"         --------\n"
		"10               --------\n"
		"                         --------\n"
		" 0                               -------\n"
		"\n"
		"x5 |0+00             |2+00             m\n");
	sb_scene_clear(&s);
}

static void the_exaggeration_is_said_even_where_there_is_no_room_for_a_scale(void **state)
{
	struct scene s = with_scale(20);

	(void)state;
	for (int width = 4; width < 60; width += 5)
		for (int height = 1; height < 20; height += 3) {
			struct raster r = { 0 };
			struct axis a;
			char text[SB_AXIS_TEXT];
			sb_raster_resize(&r, width, height);
			sb_braille_fit(&s, &r, &a);
			sb_axis_exaggeration(&a, text);
			if (a.exaggeration > 1)
				assert_true(picture_says(&s, width, height, RASTER_PLAIN, text));
			sb_raster_clear(&r);
		}
	sb_scene_clear(&s);
}

static void any_size_down_to_one_cell_is_drawn(void **state)
{
	struct scene s = with_scale(20);

	(void)state;
	sb_scene_text(&s, MEANING_LABEL, ANCHOR_RIGHT, (struct spot){ 200, 10 }, "a label that is long");
	sb_scene_mark(&s, MEANING_BIT, (struct spot){ 200, 10 });
	for (int width = -1; width < 50; width++)
		for (int height = -1; height < 12; height++)
			for (int mode = RASTER_BRAILLE; mode <= RASTER_PLAIN; mode++) {
				struct sb_str text = { 0 };
				picture_text(&s, width, height, (enum raster_mode)mode, &text);
				assert_true(text.length > 0);
				sb_str_clear(&text);
			}
	sb_scene_clear(&s);
}

/* An axis made for another size must not write outside the cells. */
static void an_axis_larger_than_the_raster_is_cut(void **state)
{
	struct scene s = with_scale(20);
	struct raster r = { 0 };
	struct axis a;

	(void)state;
	sb_raster_resize(&r, 90, 30);
	sb_braille_fit(&s, &r, &a);
	struct raster small = { 0 };
	sb_raster_resize(&small, 60, 20);
	for (int mode = RASTER_BRAILLE; mode <= RASTER_PLAIN; mode++)
		sb_braille_draw(&s, &a, (enum raster_mode)mode, &small);
	size_t grounds = 0;
	for (int i = 0; i < 60 * 20; i++)
		grounds += small.cells[i].meaning == MEANING_GROUND;
	assert_true(grounds > 40);
	a.paper = (struct paper){ -50, -50, 1e300, 1e300 };
	sb_braille_draw(&s, &a, RASTER_BRAILLE, &small);
	a.paper = (struct paper){ 500, 500, 10, 10 };
	sb_braille_draw(&s, &a, RASTER_BRAILLE, &small);
	sb_raster_clear(&r);
	sb_raster_clear(&small);
	sb_scene_clear(&s);
}

static void drawing_again_leaves_nothing_of_the_picture_before(void **state)
{
	struct scene s;
	struct raster r = { 0 };
	struct axis a;

	(void)state;
	bare(&s, 4, 2);
	sb_scene_mark(&s, MEANING_BIT, (struct spot){ 1.5, 1 });
	line(&s, MEANING_GROUND, LINE_SOLID, 0, 1, 4, 1);
	sb_raster_resize(&r, 4, 1);
	sb_braille_fit(&s, &r, &a);
	sb_braille_draw(&s, &a, RASTER_BRAILLE, &r);
	sb_scene_reset(&s);
	sb_braille_draw(&s, &a, RASTER_BRAILLE, &r);
	for (int i = 0; i < 4; i++) {
		assert_int_equal(r.cells[i].code, ' ');
		assert_int_equal(r.cells[i].meaning, MEANING_NONE);
		assert_false(r.cells[i].written);
	}
	sb_raster_clear(&r);
	sb_scene_clear(&s);
}

static void the_legend_names_what_is_drawn_as_it_is_drawn(void **state)
{
	struct scene s;
	struct sb_str text = { 0 };

	(void)state;
	bare(&s, 10, 10);
	line(&s, MEANING_CORRIDOR, LINE_DOTTED, 0, 0, 1, 1);
	line(&s, MEANING_DESIGN, LINE_DASHED, 0, 0, 1, 1);
	sb_scene_line(&s, MEANING_GROUND, LINE_SOLID); /* of no points: not in the picture */
	sb_scene_mark(&s, MEANING_BIT, (struct spot){ 1, 1 });
	sb_braille_legend(&s, RASTER_PLAIN, &text);
	assert_string_equal(sb_str_get(&text), "O bit  - design  . corridor");
	sb_str_clear(&text);
	sb_braille_legend(&s, RASTER_BLOCKS, &text);
	assert_string_equal(sb_str_get(&text), "O bit  ▄▄▄▄ design  ▄  ▄ corridor");
	sb_str_clear(&text);
	sb_braille_legend(&s, RASTER_BRAILLE, &text);
	assert_string_equal(sb_str_get(&text), "O bit  ⠤⠤ design  ⠄⠠ corridor");
	sb_str_clear(&text);
	sb_scene_clear(&s);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_line_falls_across_the_cells_in_each_mode),
		cmocka_unit_test(every_dot_of_a_braille_cell_is_the_right_one),
		cmocka_unit_test(boxes_and_ellipses_are_drawn_round),
		cmocka_unit_test(a_thing_smaller_than_a_dot_is_still_a_dot),
		cmocka_unit_test(a_cell_means_the_most_important_of_its_dots),
		cmocka_unit_test(the_most_important_mark_wins_whatever_the_order),
		cmocka_unit_test(points_that_are_not_numbers_break_the_line_and_no_more),
		cmocka_unit_test(lines_from_beyond_are_cut_to_the_picture),
		cmocka_unit_test(a_line_beside_another_is_left_out_where_it_would_only_blur_it),
		cmocka_unit_test(words_stand_beside_their_point_and_never_on_a_mark),
		cmocka_unit_test(words_go_where_they_hide_least),
		cmocka_unit_test(two_names_do_not_run_into_one_another),
		cmocka_unit_test(a_dimension_stands_in_its_line),
		cmocka_unit_test(long_names_are_cut_and_odd_characters_take_one_column),
		cmocka_unit_test(the_scale_stands_beside_the_picture_with_its_exaggeration),
		cmocka_unit_test(the_exaggeration_is_said_even_where_there_is_no_room_for_a_scale),
		cmocka_unit_test(any_size_down_to_one_cell_is_drawn),
		cmocka_unit_test(an_axis_larger_than_the_raster_is_cut),
		cmocka_unit_test(drawing_again_leaves_nothing_of_the_picture_before),
		cmocka_unit_test(the_legend_names_what_is_drawn_as_it_is_drawn),
	};
	setlocale(LC_CTYPE, "C.UTF-8"); /* how many columns a character takes */
	return run_tests(tests);
}
