/* Drawing into cells: clipping, numbers, wide characters, paragraphs. */
#include "support/near.h"
#include "ui/cells.h"

#include "base/str.h"

#include <locale.h>
#include <math.h>
#include <string.h>

static char text[512];

static const char *row(const struct cells *c, int r)
{
	return sb_cells_row(c, r, text, sizeof text);
}

static int grid(void **state)
{
	static struct cells c;

	setlocale(LC_CTYPE, "C.UTF-8"); /* widths come from it */
	sb_cells_init(&c, 4, 12);
	*state = &c;
	return 0;
}

static int grid_end(void **state)
{
	sb_cells_clear(*state);
	return 0;
}

static void text_is_clipped_on_all_four_sides(void **state)
{
	struct cells *c = *state;

	assert_int_equal(sb_cells_text(c, 1, 8, STYLE_PLAIN, "abcdefgh"), 16);
	sb_cells_text(c, 2, -3, STYLE_PLAIN, "abcdef");
	sb_cells_text(c, -1, 0, STYLE_PLAIN, "no");
	sb_cells_text(c, 4, 0, STYLE_PLAIN, "no");
	assert_string_equal(row(c, 0), "");
	assert_string_equal(row(c, 1), "        abcd");
	assert_string_equal(row(c, 2), "def");
	assert_string_equal(row(c, 3), "");
}

static void a_part_never_reaches_outside_itself(void **state)
{
	struct cells *c = *state, part = sb_cells_part(c, 1, 2, 2, 5);

	sb_cells_fill(&part, STYLE_OK);
	sb_cells_text(&part, 0, 0, STYLE_OK, "0123456789");
	sb_cells_text(&part, 5, 0, STYLE_OK, "no");
	assert_string_equal(row(c, 1), "  01234");
	assert_int_equal(c->at[1 * 12 + 1].style, STYLE_PLAIN);
	assert_int_equal(c->at[1 * 12 + 6].style, STYLE_OK);
	assert_int_equal(c->at[1 * 12 + 7].style, STYLE_PLAIN);
	assert_int_equal(c->at[3 * 12 + 2].style, STYLE_PLAIN);
}

static void parts_outside_or_turned_round_are_empty(void **state)
{
	struct cells *c = *state;
	static const int rectangles[][4] = { { 4, 0, 2, 2 }, { 0, 12, 2, 2 }, { -5, 0, 3, 3 }, { 0, 0, 0, 5 },
		{ 0, 0, 3, -1 }, { 9, 9, 9, 9 } };

	for (size_t i = 0; i < sizeof rectangles / sizeof *rectangles; i++) {
		const int *r = rectangles[i];
		struct cells part = sb_cells_part(c, r[0], r[1], r[2], r[3]);
		assert_int_equal(part.rows, 0);
		assert_int_equal(part.columns, 0);
		sb_cells_text(&part, 0, 0, STYLE_PLAIN, "x");
		sb_cells_box(&part, "x");
		sb_cells_rule(&part, 0, "x");
		sb_cells_upright(&part, 0);
		sb_cells_cursor(&part, 0, 0);
	}
	for (int r = 0; r < 4; r++)
		assert_string_equal(row(c, r), "");
	assert_false(c->cursor->shown);
}

static void a_part_that_begins_before_the_grid_is_cut_to_it(void **state)
{
	struct cells part = sb_cells_part(*state, -1, -2, 3, 6);

	assert_int_equal(part.rows, 2);
	assert_int_equal(part.columns, 4);
	part = sb_cells_part(*state, 1, 1, 2147483647, 2147483647);
	assert_int_equal(part.rows, 3);
	assert_int_equal(part.columns, 11);
}

static void text_that_does_not_fit_ends_in_an_ellipsis(void **state)
{
	struct cells *c = *state;

	sb_cells_fit(c, 0, 0, 6, STYLE_PLAIN, "Tern Slough");
	sb_cells_fit(c, 1, 0, 11, STYLE_PLAIN, "Tern Slough");
	sb_cells_right(c, 2, 0, 12, STYLE_PLAIN, "right");
	sb_cells_right(c, 3, 0, 4, STYLE_PLAIN, "right");
	assert_string_equal(row(c, 0), "Tern …");
	assert_string_equal(row(c, 1), "Tern Slough");
	assert_string_equal(row(c, 2), "       right");
	assert_string_equal(row(c, 3), "rig…");
}

static void a_number_loses_decimals_but_is_never_cut(void **state)
{
	struct cells *c = *state;
	static const struct {
		double value;
		int width, decimals;
		const char *want;
	} cases[] = { { 1268.44, 7, 2, "1268.44" }, { 1268.44, 6, 2, "1268.4" }, { 1268.44, 5, 2, " 1268" },
		{ 1268.44, 4, 2, "1268" }, { 1268.44, 3, 2, "###" }, { -0.04, 6, 1, "   0.0" },
		{ -0.06, 6, 1, "  -0.1" }, { NAN, 5, 1, "    -" }, { HUGE_VAL, 5, 1, "    -" },
		{ 9.99, 3, 1, " 10" }, { 1e300, 8, 1, "########" } };

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		sb_cells_fill(c, STYLE_PLAIN);
		sb_cells_number(c, 0, 0, cases[i].width, STYLE_PLAIN, cases[i].value, cases[i].decimals);
		assert_string_equal(row(c, 0), cases[i].want);
	}
}

static void a_wide_character_takes_two_columns_and_is_never_halved(void **state)
{
	struct cells *c = *state;

	assert_int_equal(sb_cells_text(c, 0, 0, STYLE_PLAIN, "a\u4E95b"), 4);
	assert_string_equal(row(c, 0), "a\u4E95b");
	sb_cells_put(c, 0, 2, STYLE_PLAIN, 'x'); /* over its right half */
	assert_string_equal(row(c, 0), "a xb");
	sb_cells_text(c, 1, 0, STYLE_PLAIN, "\u4E95");
	sb_cells_put(c, 1, 0, STYLE_PLAIN, 'x'); /* over its left half */
	assert_string_equal(row(c, 1), "x");
	sb_cells_text(c, 2, 11, STYLE_PLAIN, "\u4E95"); /* no room for both halves */
	assert_string_equal(row(c, 2), "");
}

static void an_accent_joins_the_letter_before_it(void **state)
{
	struct cells *c = *state;

	assert_int_equal(sb_cells_text(c, 0, 0, STYLE_PLAIN, "Jose\u0301!"), 5);
	assert_string_equal(row(c, 0), "Jose\u0301!");
	sb_cells_flatten(c);
	assert_string_equal(row(c, 0), "Jose!");
}

static void controls_never_reach_a_cell(void **state)
{
	struct cells *c = *state;

	sb_cells_text(c, 0, 0, STYLE_PLAIN,
		"a\033[2Jb\n\x9B"
		"c");
	assert_string_equal(row(c, 0), "a?[2Jb?\uFFFDc");
	for (int i = 0; i < 12; i++)
		assert_true(c->at[i].character >= ' ');
}

static void a_paragraph_breaks_between_words(void **state)
{
	struct cells *c = *state;

	assert_int_equal(sb_cells_wrap(c, 0, 0, 12, STYLE_PLAIN, "pull back to joint 3 and drill again"), 3);
	assert_string_equal(row(c, 0), "pull back to");
	assert_string_equal(row(c, 1), "joint 3 and");
	assert_string_equal(row(c, 2), "drill again");
}

static void a_word_wider_than_the_line_is_broken_and_nothing_is_lost(void **state)
{
	struct cells *c = *state;

	assert_int_equal(sb_cells_wrap(c, 0, 0, 5, STYLE_PLAIN, "abcdefghijkl m"), 3);
	assert_string_equal(row(c, 0), "abcde");
	assert_string_equal(row(c, 2), "kl m");
	assert_int_equal(sb_cells_wrapped("\u4E95\u4E95", 1), 2); /* ends, though nothing fits */
	assert_int_equal(sb_cells_wrapped("", 10), 0);
	assert_int_equal(sb_cells_wrapped("a", 0), 1);
}

static void rules_and_uprights_meet(void **state)
{
	struct cells *c = *state;

	sb_cells_rule(c, 0, NULL);
	sb_cells_rule(c, 2, "list");
	sb_cells_rule(c, 3, NULL);
	sb_cells_upright(c, 10);
	assert_string_equal(row(c, 0), "──────────┬─");
	assert_string_equal(row(c, 1), "          │");
	assert_string_equal(row(c, 2), "─ list ───┼─");
	assert_string_equal(row(c, 3), "──────────┴─");
}

static void a_box_goes_around_its_rectangle(void **state)
{
	struct cells *c = *state;

	sb_cells_box(c, "help");
	assert_string_equal(row(c, 0), "┌ help ────┐");
	assert_string_equal(row(c, 1), "│          │");
	assert_string_equal(row(c, 3), "└──────────┘");
	sb_cells_flatten(c);
	assert_string_equal(row(c, 0), "+ help ----+");
}

static void the_cursor_is_placed_from_inside_a_part(void **state)
{
	struct cells *c = *state, part = sb_cells_part(c, 1, 2, 2, 5),
		     inner = sb_cells_part(&part, 1, 1, 1, 3);

	sb_cells_cursor(&inner, 0, 2);
	assert_true(c->cursor->shown);
	assert_int_equal(c->cursor->row, 2);
	assert_int_equal(c->cursor->column, 5);
}

static void choosing_keeps_the_styles(void **state)
{
	struct cells *c = *state;

	sb_cells_text(c, 1, 0, STYLE_BREACH, "!!");
	sb_cells_choose(c, 1, 0, 99);
	assert_true(c->at[12].chosen && c->at[23].chosen);
	assert_false(c->at[11].chosen || c->at[24].chosen);
	assert_int_equal(c->at[12].style, STYLE_BREACH);
}

#define on_a_grid(test) cmocka_unit_test_setup_teardown(test, grid, grid_end)

int main(void)
{
	const struct CMUnitTest tests[] = {
		on_a_grid(text_is_clipped_on_all_four_sides),
		on_a_grid(a_part_never_reaches_outside_itself),
		on_a_grid(parts_outside_or_turned_round_are_empty),
		on_a_grid(a_part_that_begins_before_the_grid_is_cut_to_it),
		on_a_grid(text_that_does_not_fit_ends_in_an_ellipsis),
		on_a_grid(a_number_loses_decimals_but_is_never_cut),
		on_a_grid(a_wide_character_takes_two_columns_and_is_never_halved),
		on_a_grid(an_accent_joins_the_letter_before_it),
		on_a_grid(controls_never_reach_a_cell),
		on_a_grid(a_paragraph_breaks_between_words),
		on_a_grid(a_word_wider_than_the_line_is_broken_and_nothing_is_lost),
		on_a_grid(rules_and_uprights_meet),
		on_a_grid(a_box_goes_around_its_rectangle),
		on_a_grid(the_cursor_is_placed_from_inside_a_part),
		on_a_grid(choosing_keeps_the_styles),
	};
	return run_tests(tests);
}
