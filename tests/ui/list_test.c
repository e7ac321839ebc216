/* Selecting and scrolling. */
#include "support/near.h"
#include "ui/list.h"

#include "base/str.h"
#include "ui/key.h"

#include <string.h>

static void number_row(const void *context, size_t i, struct cells *out)
{
	(void)context;
	sb_cells_print(out, 0, 0, STYLE_PLAIN, "row %zu", i);
}

/* The list in a rectangle of 10 columns, its rows with '/' between. */
static const char *drawn(struct list *l, size_t count, int rows)
{
	static struct sb_str s;
	struct cells c;
	char text[64];

	sb_str_clear(&s);
	sb_cells_init(&c, rows, 10);
	sb_list_draw(l, count, number_row, NULL, &c);
	for (int row = 0; row < rows; row++)
		sb_str_add(&s, "%s%s", row ? "/" : "", sb_cells_row(&c, row, text, sizeof text));
	sb_cells_clear(&c);
	return sb_str_get(&s);
}

static void the_selected_row_has_a_mark_and_the_rest_has_arrows(void **state)
{
	struct list l = { 0 };

	(void)state;
	assert_string_equal(drawn(&l, 5, 3), ">row 0/ row 1/ row 2   ↓");
	assert_string_equal(drawn(&l, 2, 3), ">row 0/ row 1/");
	l.chosen = 4;
	assert_string_equal(drawn(&l, 5, 3), " row 2   ↑/ row 3/>row 4");
}

static void it_scrolls_no_further_than_it_must(void **state)
{
	struct list l = { 0 };

	(void)state;
	drawn(&l, 9, 3);
	for (int i = 0; i < 3; i++)
		assert_true(sb_list_key(&l, SB_KEY_DOWN, 9));
	assert_string_equal(drawn(&l, 9, 3), " row 1   ↑/ row 2/>row 3   ↓");
	sb_list_key(&l, SB_KEY_UP, 9);
	assert_string_equal(drawn(&l, 9, 3), " row 1   ↑/>row 2/ row 3   ↓");
}

static void every_key_stops_at_the_ends(void **state)
{
	static const int keys[] = { SB_KEY_UP, SB_KEY_DOWN, SB_KEY_PAGE_UP, SB_KEY_PAGE_DOWN, SB_KEY_HOME,
		SB_KEY_END };

	(void)state;
	for (size_t count = 0; count < 5; count++)
		for (size_t i = 0; i < 6; i++) {
			struct list l = { .page = 3 };
			for (int times = 0; times < 9; times++)
				assert_true(sb_list_key(&l, keys[i], count));
			bool forward = i % 2 == 1;
			assert_int_equal(l.chosen, forward && count ? count - 1 : 0);
		}
}

static void a_page_keeps_one_row_in_sight(void **state)
{
	struct list l = { 0 };

	(void)state;
	drawn(&l, 20, 5);
	sb_list_key(&l, SB_KEY_PAGE_DOWN, 20);
	assert_int_equal(l.chosen, 4);
	sb_list_key(&l, SB_KEY_PAGE_UP, 20);
	assert_int_equal(l.chosen, 0);
}

static void other_keys_are_not_the_lists(void **state)
{
	struct list l = { 0 };

	(void)state;
	assert_false(sb_list_key(&l, 'j', 5));
	assert_false(sb_list_key(&l, SB_KEY_ENTER, 5));
}

static void rows_that_went_away_take_the_selection_with_them(void **state)
{
	struct list l = { .chosen = SIZE_MAX };

	(void)state;
	sb_list_fit(&l, 7);
	assert_int_equal(l.chosen, 6);
	assert_string_equal(drawn(&l, 7, 2), " row 5   ↑/>row 6");
	assert_string_equal(drawn(&l, 1, 2), ">row 0/");
	assert_string_equal(drawn(&l, 0, 2), "/");
	assert_string_equal(drawn(&l, 3, 0), "");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_selected_row_has_a_mark_and_the_rest_has_arrows),
		cmocka_unit_test(it_scrolls_no_further_than_it_must),
		cmocka_unit_test(every_key_stops_at_the_ends),
		cmocka_unit_test(a_page_keeps_one_row_in_sight),
		cmocka_unit_test(other_keys_are_not_the_lists),
		cmocka_unit_test(rows_that_went_away_take_the_selection_with_them),
	};
	return run_tests(tests);
}
