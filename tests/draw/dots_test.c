#include "draw/dots.h"

#include "support/near.h"

#include <float.h>
#include <math.h>
#include <string.h>

static const struct box field = { { 2, 3 }, { 12, 9 } };

static bool clip(double ax, double ay, double bx, double by, struct spot *a, struct spot *b)
{
	*a = (struct spot){ ax, ay };
	*b = (struct spot){ bx, by };
	return sb_dots_clip(&field, a, b);
}

static void a_piece_inside_stays_as_it_is(void **state)
{
	struct spot a, b;

	(void)state;
	assert_true(clip(3, 4, 11, 8, &a, &b));
	assert_near(a.x, 3, 0);
	assert_near(b.y, 8, 0);
	assert_true(clip(5, 5, 5, 5, &a, &b));
}

static void a_piece_across_is_cut_at_both_edges(void **state)
{
	struct spot a, b;

	(void)state;
	assert_true(clip(0, 0, 14, 14, &a, &b));
	assert_near(a.x, 3, 1e-12);
	assert_near(a.y, 3, 1e-12);
	assert_near(b.x, 9, 1e-12);
	assert_near(b.y, 9, 1e-12);
	assert_true(clip(-100, 5, 100, 5, &a, &b));
	assert_near(a.x, 2, 1e-12);
	assert_near(b.x, 12, 1e-12);
}

static void a_piece_that_misses_is_left_unchanged(void **state)
{
	struct spot a, b;

	(void)state;
	assert_false(clip(0, 8, 4, 14, &a, &b)); /* past a corner */
	assert_near(a.x, 0, 0);
	assert_near(b.y, 14, 0);
	assert_false(clip(0, 0, 1, 20, &a, &b));
	assert_false(clip(3, 20, 9, 10, &a, &b));
}

static unsigned seed = 12345;

static double any(double from, double to)
{
	seed = seed * 1103515245u + 12345u;
	return from + (to - from) * (seed >> 8 & 0xFFFF) / 65535.0;
}

static void what_is_left_is_inside_and_on_the_piece(void **state)
{
	(void)state;
	for (int i = 0; i < 5000; i++) {
		struct spot from = { any(-10, 25), any(-10, 25) }, to = { any(-10, 25), any(-10, 25) };
		struct spot a = from, b = to;
		if (!sb_dots_clip(&field, &a, &b))
			continue;
		struct spot ends[] = { a, b };
		for (int k = 0; k < 2; k++) {
			assert_true(ends[k].x >= 2 - 1e-9 && ends[k].x <= 12 + 1e-9);
			assert_true(ends[k].y >= 3 - 1e-9 && ends[k].y <= 9 + 1e-9);
			double cross = (to.x - from.x) * (ends[k].y - from.y) -
				(to.y - from.y) * (ends[k].x - from.x);
			assert_near(cross, 0, 1e-9);
		}
	}
}

/* The grid as text: '.' for nothing, the meaning's character for a dot. */
static void picture(const struct dots *d, char *out)
{
	for (int y = 0; y < d->height; y++) {
		for (int x = 0; x < d->width; x++) {
			enum meaning m = (enum meaning)d->meaning[y * d->width + x];
			*out++ = m == MEANING_NONE ? '.' : sb_scene_plain(m);
		}
		*out++ = '\n';
	}
	*out = '\0';
}

static void assert_line(
	double ax, double ay, double bx, double by, bool patterns, enum line_kind line, const char *want)
{
	struct dots d = { .patterns = patterns };
	char got[200];

	sb_dots_start(&d, 8, 4);
	sb_dots_line(&d, (struct spot){ ax, ay }, (struct spot){ bx, by }, MEANING_DRILLED, line);
	picture(&d, got);
	assert_string_equal(got, want);
	sb_dots_clear(&d);
}

static void lines_are_one_dot_thick_in_every_direction(void **state)
{
	(void)state;
	assert_line(0, 1.5, 8, 1.5, true, LINE_SOLID, "........\n********\n........\n........\n");
	assert_line(2.5, 0, 2.5, 4, true, LINE_SOLID, "..*.....\n..*.....\n..*.....\n..*.....\n");
	assert_line(0, 0, 8, 4, true, LINE_SOLID, "**......\n..**....\n....**..\n......**\n");
	assert_line(8, 4, 0, 0, true, LINE_SOLID, "**......\n..**....\n....**..\n......**\n");
	assert_line(0.5, 3.5, 3.5, 0.5, true, LINE_SOLID, "...*....\n..*.....\n.*......\n*.......\n");
	assert_line(3.2, 2.2, 3.2, 2.2, true, LINE_SOLID, "........\n........\n...*....\n........\n");
}

static void patterns_hang_on_the_grid(void **state)
{
	(void)state;
	assert_line(0, 1.5, 8, 1.5, true, LINE_DASHED, "........\n****..**\n........\n........\n");
	assert_line(1, 1.5, 8, 1.5, true, LINE_DASHED, "........\n.***..**\n........\n........\n");
	assert_line(0, 1.5, 8, 1.5, true, LINE_DOTTED, "........\n*..*..*.\n........\n........\n");
	assert_line(0, 1.5, 8, 1.5, true, LINE_HEAVY, "........\n********\n********\n........\n");
	assert_line(0, 1.5, 8, 1.5, false, LINE_DOTTED, "........\n********\n........\n........\n");
	assert_line(0, 1.5, 8, 1.5, false, LINE_HEAVY, "........\n********\n........\n........\n");
}

/* 5.999999 as a dot index left gaps in dashes: found in a corridor drawn in two pieces. */
static void a_line_in_many_pieces_has_the_same_dashes_as_one(void **state)
{
	struct dots whole = { .patterns = true }, pieces = { .patterns = true };
	double step = 197.0 / 71;

	(void)state;
	sb_dots_start(&whole, 200, 50);
	sb_dots_start(&pieces, 200, 50);
	sb_dots_line(&whole, (struct spot){ 0, 7 }, (struct spot){ 197, 31 }, MEANING_DESIGN, LINE_DASHED);
	for (int i = 0; i < 71; i++)
		sb_dots_line(&pieces, (struct spot){ i * step, 7 + i * 24.0 / 71 },
			(struct spot){ (i + 1) * step, 7 + (i + 1) * 24.0 / 71 }, MEANING_DESIGN,
			LINE_DASHED);
	/* Rows may differ by rounding where the line passes between two dots; columns may not. */
	for (int x = 0; x < 200; x++) {
		int a = 0, b = 0;
		for (int y = 0; y < 50; y++) {
			a += whole.meaning[y * 200 + x] != MEANING_NONE;
			b += pieces.meaning[y * 200 + x] != MEANING_NONE;
		}
		assert_int_equal(a, x < 198 && x % 6 < 4 && x < 197);
		assert_int_equal(b > 0, a > 0);
	}
	sb_dots_clear(&whole);
	sb_dots_clear(&pieces);
}

static void the_more_important_meaning_stays(void **state)
{
	struct dots d = { 0 };

	(void)state;
	sb_dots_start(&d, 8, 1);
	sb_dots_line(&d, (struct spot){ 0, 0 }, (struct spot){ 4, 0 }, MEANING_DRILLED, LINE_SOLID);
	sb_dots_line(&d, (struct spot){ 0, 0 }, (struct spot){ 8, 0 }, MEANING_GROUND, LINE_SOLID);
	assert_int_equal(d.meaning[1], MEANING_DRILLED);
	assert_int_equal(d.meaning[6], MEANING_GROUND);
	sb_dots_start(&d, 8, 1);
	assert_int_equal(d.meaning[1], MEANING_NONE);
	sb_dots_clear(&d);
}

static void the_far_edge_belongs_to_the_last_dot(void **state)
{
	(void)state;
	assert_line(0, 4, 8, 4, true, LINE_SOLID, "........\n........\n........\n********\n");
	assert_line(8, 0, 8, 4, true, LINE_SOLID, ".......*\n.......*\n.......*\n.......*\n");
}

static void no_point_is_too_far_and_none_need_be_a_number(void **state)
{
	const double wild[] = { NAN, HUGE_VAL, -HUGE_VAL, DBL_MAX, -DBL_MAX, 1e18, -1e18, 0, 3 };
	const size_t count = sizeof wild / sizeof *wild;
	struct dots d = { .patterns = true };

	(void)state;
	sb_dots_start(&d, 8, 4);
	for (size_t i = 0; i < count * count * count * count; i++) {
		struct spot a = { wild[i % count], wild[i / count % count] };
		struct spot b = { wild[i / count / count % count], wild[i / count / count / count] };
		sb_dots_line(&d, a, b, MEANING_DESIGN, (enum line_kind)(i % 4));
	}
	sb_dots_clear(&d);
	assert_line(-1e300, 1.5, 1e300, 1.5, true, LINE_SOLID, "........\n********\n........\n........\n");
	assert_line(NAN, 1.5, 8, 1.5, true, LINE_SOLID, "........\n........\n........\n........\n");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_piece_inside_stays_as_it_is),
		cmocka_unit_test(a_piece_across_is_cut_at_both_edges),
		cmocka_unit_test(a_piece_that_misses_is_left_unchanged),
		cmocka_unit_test(what_is_left_is_inside_and_on_the_piece),
		cmocka_unit_test(lines_are_one_dot_thick_in_every_direction),
		cmocka_unit_test(patterns_hang_on_the_grid),
		cmocka_unit_test(a_line_in_many_pieces_has_the_same_dashes_as_one),
		cmocka_unit_test(the_more_important_meaning_stays),
		cmocka_unit_test(the_far_edge_belongs_to_the_last_dot),
		cmocka_unit_test(no_point_is_too_far_and_none_need_be_a_number),
	};
	return run_tests(tests);
}
