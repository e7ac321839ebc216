/* A page that may be longer than the screen. */
#include "support/near.h"
#include "ui/page.h"

#include "base/str.h"
#include "ui/key.h"

static struct page page;
static int length; /* lines of the page that is drawn */
static char text[160];

static int begin(void **state)
{
	(void)state;
	page = (struct page){ 0 };
	return 0;
}

static int draw(const void *context, struct cells *out, int row)
{
	(void)context;
	for (int i = 0; i < length; i++)
		sb_cells_print(out, row + i, 0, STYLE_PLAIN, "line %d", i + 1);
	return row + length;
}

/* Draws it into so many rows; returns one of them. */
static const char *drawn(int rows, int row)
{
	struct cells c;

	sb_cells_init(&c, rows, 40);
	sb_page_draw(&page, draw, NULL, &c);
	sb_cells_row(&c, row, text, sizeof text);
	sb_cells_clear(&c);
	return text;
}

static void press(const char *keys)
{
	for (int key; (key = sb_key_next(&keys)) != SB_KEY_NONE;) {
		assert_true(sb_page_key(&page, key));
		drawn(6, 0);
	}
}

static void a_page_that_fits_has_all_rows_and_stays(void **state)
{
	(void)state;
	length = 6;
	assert_string_equal(drawn(6, 5), "line 6");
	press("Down PgDn End Space");
	assert_string_equal(drawn(6, 0), "line 1");
}

static void a_longer_one_says_where_the_rest_is(void **state)
{
	(void)state;
	length = 7;
	assert_string_equal(drawn(6, 4), "line 5");
	assert_string_equal(drawn(6, 5), "─ PgDn: more below ─────────────────────");
	press("Down");
	assert_string_equal(drawn(6, 5), "─ PgUp, PgDn: more above and below ─────");
	press("Down");
	assert_string_equal(drawn(6, 4), "line 7");
	assert_string_equal(drawn(6, 5), "─ PgUp: more above ─────────────────────");
	press("Down PgDn");
	assert_string_equal(drawn(6, 0), "line 3");
	press("Home");
	assert_string_equal(drawn(6, 0), "line 1");
}

static void a_screenful_keeps_one_line_in_sight(void **state)
{
	(void)state;
	length = 30;
	drawn(6, 0);
	press("PgDn");
	assert_string_equal(drawn(6, 0), "line 5");
	press("Space Up");
	assert_string_equal(drawn(6, 0), "line 8");
	press("PgUp");
	assert_string_equal(drawn(6, 0), "line 4");
	press("End");
	assert_string_equal(drawn(6, 4), "line 30");
}

static void what_shrinks_leaves_no_blank_rows(void **state)
{
	(void)state;
	length = 30;
	drawn(6, 0);
	press("End");
	length = 10;
	assert_string_equal(drawn(6, 0), "line 6");
	assert_string_equal(drawn(9, 0), "line 3");
	assert_string_equal(drawn(20, 0), "line 1");
}

static void there_may_be_no_room_or_nothing_at_all(void **state)
{
	(void)state;
	length = 3;
	drawn(0, 0);
	drawn(1, 0);
	length = 0;
	assert_string_equal(drawn(6, 0), "");
	press("Down PgDn End Home");
}

static void other_keys_are_not_taken_and_those_in_its_table_are(void **state)
{
	(void)state;
	assert_false(sb_page_key(&page, 'x'));
	assert_false(sb_page_key(&page, SB_KEY_ENTER));
	for (const struct action *a = sb_page_keys; a->name; a++) {
		const char *keys = a->keys;
		for (int key; (key = sb_key_next(&keys)) != SB_KEY_NONE;)
			assert_true(sb_page_key(&page, key));
	}
}

#define fresh(test) cmocka_unit_test_setup(test, begin)

int main(void)
{
	const struct CMUnitTest tests[] = {
		fresh(a_page_that_fits_has_all_rows_and_stays),
		fresh(a_longer_one_says_where_the_rest_is),
		fresh(a_screenful_keeps_one_line_in_sight),
		fresh(what_shrinks_leaves_no_blank_rows),
		fresh(there_may_be_no_room_or_nothing_at_all),
		fresh(other_keys_are_not_taken_and_those_in_its_table_are),
	};
	return run_tests(tests);
}
