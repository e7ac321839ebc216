#include "draw/scene.h"

#include "draw/picture.h"
#include "support/near.h"

#include <math.h>
#include <string.h>

static void strokes_keep_their_points_in_order(void **state)
{
	struct scene s;

	(void)state;
	sb_scene_init(&s);
	sb_scene_line(&s, MEANING_DESIGN, LINE_DASHED);
	for (int i = 0; i < 100; i++)
		sb_scene_point(&s, i, -i);
	sb_scene_mark(&s, MEANING_BIT, (struct spot){ 7, 8 });
	sb_scene_text(&s, MEANING_LABEL, ANCHOR_LEFT, (struct spot){ 1, 2 }, "exit");
	assert_int_equal(s.stroke_count, 3);
	assert_int_equal(s.strokes[0].count, 100);
	assert_near(picture_point(&s, &s.strokes[0], 99).y, -99, 0);
	assert_near(picture_point(&s, &s.strokes[1], 0).x, 7, 0);
	assert_string_equal(sb_scene_text_get(&s, &s.strokes[2]), "exit");
	assert_string_equal(sb_scene_text_get(&s, &s.strokes[0]), "");
	sb_scene_clear(&s);
	assert_int_equal(s.stroke_count, 0);
	assert_null(s.points);
}

static void a_scene_used_again_keeps_its_memory_and_nothing_else(void **state)
{
	struct scene s;

	(void)state;
	sb_scene_init(&s);
	s.bare = true;
	sb_scene_box(&s, MEANING_CORRIDOR, LINE_SOLID, (struct spot){ 0, 0 }, (struct spot){ 1, 1 });
	sb_scene_see(&s, 0, 0);
	const struct spot *before = s.points;
	sb_scene_reset(&s);
	assert_false(s.bare);
	assert_false(sb_scene_seen(&s));
	assert_int_equal(s.stroke_count + s.point_count + s.text_count, 0);
	sb_scene_mark(&s, MEANING_BIT, (struct spot){ 3, 4 });
	assert_ptr_equal(s.points, before);
	assert_near(picture_point(&s, &s.strokes[0], 0).x, 3, 0);
	sb_scene_clear(&s);
}

static void texts_are_tamed_and_empty_ones_left_out(void **state)
{
	struct scene s;

	(void)state;
	sb_scene_init(&s);
	sb_scene_text(&s, MEANING_LABEL, ANCHOR_ABOVE, (struct spot){ 0, 0 }, "");
	assert_int_equal(s.stroke_count, 0);
	sb_scene_text(&s, MEANING_LABEL, ANCHOR_ABOVE, (struct spot){ 0, 0 }, "a\033[31m\xff\tb");
	sb_scene_text(&s, MEANING_LABEL, ANCHOR_ABOVE, (struct spot){ 0, 0 }, "Größe");
	assert_string_equal(sb_scene_text_get(&s, &s.strokes[0]), "a?[31m? b");
	assert_string_equal(sb_scene_text_get(&s, &s.strokes[1]), "Größe");
	sb_scene_clear(&s);
}

static void every_meaning_has_a_word_and_a_character_of_its_own(void **state)
{
	(void)state;
	for (int m = MEANING_TICK; m < MEANING_LABEL; m++) {
		assert_true(strlen(sb_scene_word((enum meaning)m)) > 0);
		assert_true(sb_scene_plain((enum meaning)m) > ' ' && sb_scene_plain((enum meaning)m) <= '~');
		for (int other = MEANING_TICK; other < m; other++)
			assert_true(sb_scene_plain((enum meaning)m) != sb_scene_plain((enum meaning)other));
	}
}

static void the_view_ignores_what_is_not_a_number(void **state)
{
	struct scene s;

	(void)state;
	sb_scene_init(&s);
	sb_scene_see(&s, NAN, 1);
	sb_scene_see(&s, 1, HUGE_VAL);
	assert_false(sb_scene_seen(&s));
	sb_scene_see(&s, 2, 3);
	assert_true(sb_scene_seen(&s));
	assert_near(s.view.low.x, 2, 0);
	assert_near(s.view.high.y, 3, 0);
	sb_scene_clear(&s);
}

static void a_line_is_seen_where_it_enters_and_leaves_the_stretch(void **state)
{
	struct scene s;

	(void)state;
	sb_scene_init(&s);
	sb_scene_line(&s, MEANING_GROUND, LINE_SOLID);
	sb_scene_point(&s, 100, 50);
	sb_scene_point(&s, 0, 0); /* runs backwards: no matter */
	sb_scene_line(&s, MEANING_GROUND, LINE_SOLID);
	sb_scene_point(&s, NAN, 500);
	sb_scene_point(&s, 30, 600);
	sb_scene_line(&s, MEANING_DESIGN, LINE_SOLID);
	sb_scene_point(&s, 0, -700);
	sb_scene_point(&s, 100, -700);
	s.view.low.x = 20;
	s.view.high.x = 40;
	sb_scene_see_between(&s, MEANING_GROUND, 20, 40);
	assert_near(s.view.low.y, 10, 1e-12);
	assert_near(s.view.high.y, 20, 1e-12);
	assert_near(s.view.low.x, 20, 0);
	sb_scene_clear(&s);
}

static void an_ellipse_is_seen_to_its_rim(void **state)
{
	struct scene s;

	(void)state;
	sb_scene_init(&s);
	sb_scene_ellipse(&s, MEANING_OBSTACLE, LINE_SOLID, (struct spot){ 50, 10 }, (struct spot){ 4, 0 },
		(struct spot){ 0, 3 });
	sb_scene_see_between(&s, MEANING_OBSTACLE, 0, 100);
	assert_near(s.view.low.y, 7, 1e-12);
	assert_near(s.view.high.y, 13, 1e-12);
	sb_scene_see_between(&s, MEANING_OBSTACLE, 60, 100);
	assert_near(s.view.high.y, 13, 1e-12);
	sb_scene_clear(&s);
}

static void a_scene_is_turned_about_a_point_with_its_ellipses(void **state)
{
	struct scene s;

	(void)state;
	sb_scene_init(&s);
	sb_scene_line(&s, MEANING_DESIGN, LINE_SOLID);
	sb_scene_point(&s, 10, 20);
	sb_scene_point(&s, 13, 20);
	sb_scene_ellipse(&s, MEANING_OBSTACLE, LINE_SOLID, (struct spot){ 10, 25 }, (struct spot){ 4, 0 },
		(struct spot){ 0, 3 });
	sb_scene_turn(&s, 1.57079632679489661923, (struct spot){ 10, 20 }); /* a quarter, counterclockwise */
	const struct spot want[] = { { 10, 20 }, { 10, 23 }, { 5, 20 }, { 0, 4 }, { -3, 0 } };
	for (size_t i = 0; i < sizeof want / sizeof *want; i++) {
		assert_near(s.points[i].x, want[i].x, 1e-12);
		assert_near(s.points[i].y, want[i].y, 1e-12);
	}
	sb_scene_clear(&s);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(strokes_keep_their_points_in_order),
		cmocka_unit_test(a_scene_used_again_keeps_its_memory_and_nothing_else),
		cmocka_unit_test(texts_are_tamed_and_empty_ones_left_out),
		cmocka_unit_test(every_meaning_has_a_word_and_a_character_of_its_own),
		cmocka_unit_test(the_view_ignores_what_is_not_a_number),
		cmocka_unit_test(a_line_is_seen_where_it_enters_and_leaves_the_stretch),
		cmocka_unit_test(an_ellipse_is_seen_to_its_rim),
		cmocka_unit_test(a_scene_is_turned_about_a_point_with_its_ellipses),
	};
	return run_tests(tests);
}
