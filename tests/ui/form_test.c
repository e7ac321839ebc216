/* Typing into fields. */
#include "support/near.h"
#include "ui/form.h"

#include "base/str.h"
#include "base/unit.h"
#include "ui/key.h"

#include <stdlib.h>
#include <string.h>

static struct form form;

static int fill(void **state)
{
	(void)state;
	memset(&form, 0, sizeof form);
	sb_form_add(&form,
		(struct form_field){ .name = "length",
			.label = "length",
			.unit = "ft",
			.kind = ENTRY_NUMBER,
			.width = 6,
			.required = true },
		"31.0");
	sb_form_add(&form,
		(struct form_field){ .name = "inclination",
			.label = "inclination",
			.kind = ENTRY_NUMBER,
			.width = 6,
			.required = true },
		"");
	sb_form_add(&form,
		(struct form_field){ .name = "azimuth",
			.label = "azimuth",
			.kind = ENTRY_NUMBER,
			.width = 6,
			.required = true },
		"");
	sb_form_add(&form,
		(struct form_field){ .name = "remarks", .label = "remarks", .kind = ENTRY_TEXT, .width = 8 },
		"");
	sb_form_add(&form,
		(struct form_field){ .name = "returns",
			.label = "returns",
			.choices = "full|partial|none",
			.kind = ENTRY_CHOICE,
			.width = 8 },
		"");
	return 0;
}

static int below_180(const struct form *f, size_t field, const void *context, struct sb_err *err)
{
	(void)context;
	if (sb_same(f->fields[field].name, "inclination") && strtod(f->fields[field].text, NULL) > 180)
		return sb_fail(err, SB_RANGE,
			"An inclination is from 0 to 180 degrees, counted from straight down.");
	return 0;
}

/* Presses keys given as words; returns the last step. */
static enum form_step press(const char *keys)
{
	enum form_step step = FORM_PASS;

	for (int key; (key = sb_key_next(&keys)) != SB_KEY_NONE;)
		step = sb_form_key(&form, key, below_180, NULL);
	return step;
}

static const char *text(const char *name)
{
	return sb_form_text(&form, name);
}

static void two_numbers_and_enter_are_enough(void **state)
{
	(void)state;
	form.focus = 1;
	assert_int_equal(press("8 8 . 1 Enter"), FORM_MOVED);
	assert_int_equal(form.focus, 2);
	assert_int_equal(press("4 1 . 7 Enter"), FORM_DONE);
	assert_string_equal(text("length"), "31.0");
	assert_string_equal(text("inclination"), "88.1");
	assert_string_equal(text("azimuth"), "41.7");
}

static void what_is_offered_gives_way_to_the_first_character_typed(void **state)
{
	(void)state;
	assert_true(form.fields[0].offered);
	assert_int_equal(press("2"), FORM_CHANGED);
	assert_string_equal(text("length"), "2");
	assert_false(form.fields[0].offered);
}

static void what_is_offered_can_be_mended_instead(void **state)
{
	(void)state;
	press("Backspace 4");
	assert_string_equal(text("length"), "31.4");
}

/* A hand that comes back to a number means another one: "88.1" was once made into "88.189.3". */
static void a_number_that_the_focus_comes_back_to_gives_way_to_the_first_digit(void **state)
{
	(void)state;
	form.focus = 1;
	press("8 8 . 1 Tab Shift-Tab 8 9 . 3");
	assert_string_equal(text("inclination"), "89.3");
	press("Tab Shift-Tab Backspace 4");
	assert_string_equal(text("inclination"), "89.4");
	press("Tab Shift-Tab Home Del 7");
	assert_string_equal(text("inclination"), "79.4");
	press("Tab Shift-Tab -");
	assert_string_equal(text("inclination"), "-");
}

static void after_enter_a_number_begins_anew(void **state)
{
	(void)state;
	form.focus = 1;
	press("8 8 1 Enter");
	assert_int_equal(form.focus, 1);
	press("8 8 . 1");
	assert_string_equal(text("inclination"), "88.1");
}

static void a_text_is_added_to_but_a_time_of_day_is_typed_anew(void **state)
{
	(void)state;
	form.focus = 3;
	press("s a n d Tab Shift-Tab y");
	assert_string_equal(text("remarks"), "sandy");
	form.fields[3].whole = true;
	press("Tab Shift-Tab 7 Tab Shift-Tab Left 9");
	assert_string_equal(text("remarks"), "97");
}

static void enter_can_go_from_field_to_field(void **state)
{
	(void)state;
	form.by_enter = true;
	form.fields[1].required = form.fields[2].required = false;
	assert_int_equal(press("3 0 Enter Enter Enter"), FORM_MOVED);
	assert_int_equal(form.focus, 3);
	form.focus = 1;
	press("2 0 0 Enter"); /* a wrong number holds it */
	assert_int_equal(form.focus, 1);
	press("2 0");
	assert_int_equal(press("Enter Enter Enter Enter"), FORM_DONE);
}

static void a_comma_becomes_a_point_in_sight(void **state)
{
	(void)state;
	form.focus = 1;
	press("8 8 , 1");
	assert_string_equal(text("inclination"), "88.1");
}

static void letters_are_not_taken_by_a_number(void **state)
{
	(void)state;
	assert_int_equal(press("w"), FORM_PASS);
	assert_int_equal(press("?"), FORM_PASS);
	assert_int_equal(press("F1"), FORM_PASS);
	assert_string_equal(text("length"), "31.0");
}

static void text_takes_letters_and_is_mended_by_whole_characters(void **state)
{
	(void)state;
	form.focus = 3;
	press("c a f \303\251 Left Left Backspace 4 End Backspace !");
	assert_string_equal(text("remarks"), "c4f!");
	press("Home Del");
	assert_string_equal(text("remarks"), "4f!");
	press("Ctrl-U");
	assert_string_equal(text("remarks"), "");
	assert_int_equal(press("Backspace"), FORM_MOVED);
	assert_int_equal(press("Del"), FORM_MOVED);
}

static void a_full_field_takes_no_more(void **state)
{
	(void)state;
	form.focus = 3;
	for (int i = 0; i < 2 * SB_FORM_TEXT; i++)
		press("\303\251");
	assert_true(strlen(text("remarks")) < SB_FORM_TEXT);
	assert_true(sb_utf8_valid(text("remarks"), strlen(text("remarks"))));
	form.focus = 1;
	for (int i = 0; i < 99; i++)
		press("5");
	assert_true(strlen(text("inclination")) < SB_NUMBER_TEXT);
}

static void a_choice_goes_round_and_goes_by_its_first_letter(void **state)
{
	(void)state;
	form.focus = 4;
	press("Right");
	assert_string_equal(text("returns"), "full");
	press("Right Space");
	assert_string_equal(text("returns"), "none");
	press("Right");
	assert_string_equal(text("returns"), "");
	press("Left");
	assert_string_equal(text("returns"), "none");
	press("P");
	assert_string_equal(text("returns"), "partial");
	press("Backspace");
	assert_string_equal(text("returns"), "");
	assert_int_equal(press("x"), FORM_PASS);
}

static void enter_does_not_leave_a_wrong_number(void **state)
{
	(void)state;
	form.focus = 1;
	press("8 . 8 . 1 Enter");
	assert_int_equal(form.focus, 1);
	assert_true(form.fields[1].problem[0] != '\0');
	press("Backspace"); /* the next change takes the words away */
	assert_string_equal(form.fields[1].problem, "");
}

static void the_owner_may_refuse_more(void **state)
{
	(void)state;
	form.focus = 1;
	press("8 8 1 Tab");
	assert_int_equal(form.focus, 2); /* one may go on, but it is said */
	assert_non_null(strstr(form.fields[1].problem, "0 to 180"));
	assert_int_equal(press("4 1 Enter"), FORM_MOVED);
	assert_int_equal(form.focus, 1);
}

static void what_is_needed_and_blank_is_said_only_on_enter(void **state)
{
	(void)state;
	press("Tab Tab Tab");
	assert_string_equal(form.fields[1].problem, "");
	form.focus = 1;
	press("Enter");
	assert_string_equal(form.fields[1].problem, "This cannot stay blank.");
	assert_int_equal(form.focus, 1);
}

static void tab_goes_round_both_ways(void **state)
{
	(void)state;
	press("Shift-Tab");
	assert_int_equal(form.focus, 4);
	press("Tab");
	assert_int_equal(form.focus, 0);
	press("Down Down Up");
	assert_int_equal(form.focus, 1);
}

/* What is offered is not typed, and so no draft. */
static void a_draft_holds_what_was_typed_and_brings_it_back(void **state)
{
	struct draft d = { 0 };

	(void)state;
	assert_false(sb_form_touched(&form));
	form.focus = 1;
	press("8 8 . 1 Tab Tab r o c k");
	assert_true(sb_form_touched(&form));
	sb_form_to_draft(&form, &d);
	assert_int_equal(d.count, 2);
	assert_string_equal(d.fields[0].name, "inclination");
	assert_string_equal(d.fields[1].text, "rock");
	strcpy(d.fields[1].name, "nowhere");
	fill(NULL);
	sb_form_from_draft(&form, &d);
	assert_string_equal(text("inclination"), "88.1");
	assert_string_equal(text("remarks"), "");
	assert_string_equal(text("length"), "31.0");
	form.focus = 1;
	press("5"); /* what comes back half typed is gone on with */
	assert_string_equal(text("inclination"), "88.15");
}

static void what_comes_from_outside_is_tamed(void **state)
{
	(void)state;
	sb_form_put(&form, "remarks", "a\033[2Jb", false);
	assert_string_equal(text("remarks"), "a?[2Jb");
	sb_form_put(&form, "nowhere", "x", false);
	assert_string_equal(sb_form_text(&form, "nowhere"), "");
}

/* Drawing */

static const char *drawn_row(int rows, int columns, int row, struct cells_cursor *cursor)
{
	static char line[256];
	struct cells c;

	sb_cells_init(&c, rows, columns);
	sb_form_draw(&form, &c);
	sb_cells_row(&c, row, line, sizeof line);
	if (cursor)
		*cursor = *c.cursor;
	sb_cells_clear(&c);
	return line;
}

static void each_field_has_a_row_and_the_focus_a_mark(void **state)
{
	struct cells_cursor cursor;

	(void)state;
	form.focus = 1;
	press("8 8");
	assert_string_equal(drawn_row(6, 60, 0, NULL), "  length      [31.0  ] ft");
	assert_string_equal(drawn_row(6, 60, 1, &cursor), "> inclination [88    ]");
	assert_true(cursor.shown);
	assert_int_equal(cursor.row, 1);
	assert_int_equal(cursor.column, 17);
}

static void long_text_is_moved_so_that_its_end_is_in_sight(void **state)
{
	struct cells_cursor cursor;

	(void)state;
	form.focus = 3;
	press("a b c d e f g h i j");
	assert_string_equal(drawn_row(6, 60, 3, &cursor), "> remarks     [<efghij ]");
	assert_int_equal(cursor.column, 22);
	press("Tab");
	assert_string_equal(drawn_row(6, 60, 3, NULL), "  remarks     [abcdefg…]");
}

static void a_problem_stands_beside_its_field_or_in_full_below(void **state)
{
	(void)state;
	form.focus = 1;
	press("8 8 1 Enter");
	assert_non_null(strstr(drawn_row(8, 100, 1, NULL),
		"! An inclination is from 0 to 180 degrees, counted from straight down."));
	assert_string_equal(drawn_row(8, 50, 1, NULL), "> inclination [881   ]  !");
	assert_string_equal(drawn_row(8, 50, 5, NULL), "! An inclination is from 0 to 180 degrees, counted");
	assert_string_equal(drawn_row(8, 50, 6, NULL), "  from straight down.");
}

static void with_too_few_rows_the_focus_stays_in_sight(void **state)
{
	(void)state;
	form.focus = 4;
	assert_string_equal(drawn_row(2, 60, 1, NULL), "> returns     [        ] f full  p partial  n none");
	assert_string_equal(drawn_row(2, 60, 0, NULL), "  remarks     [        ]");
	drawn_row(0, 60, 0, NULL); /* and nothing happens without any */
}

static void one_field_can_be_placed_by_itself(void **state)
{
	struct cells c;
	char line[64];

	(void)state;
	sb_cells_init(&c, 1, 40);
	assert_int_equal(sb_form_draw_one(&form, 0, &c, 0, 2), 20);
	assert_string_equal(sb_cells_row(&c, 0, line, sizeof line), "  length [31.0  ] ft");
	sb_cells_clear(&c);
}

/* The table of keys, which is only read, against what the form does. */
static void every_key_in_its_table_is_taken(void **state)
{
	(void)state;
	for (int t = 0; t < 2; t++)
		for (const struct action *a = t ? sb_form_line_keys : sb_form_keys; a->name; a++) {
			const char *keys = a->keys;
			for (int key; (key = sb_key_next(&keys)) != SB_KEY_NONE;) {
				form.focus = 3;
				assert_int_not_equal(sb_form_key(&form, key, NULL, NULL), FORM_PASS);
			}
		}
}

#define fresh(test) cmocka_unit_test_setup(test, fill)

int main(void)
{
	const struct CMUnitTest tests[] = {
		fresh(two_numbers_and_enter_are_enough),
		fresh(what_is_offered_gives_way_to_the_first_character_typed),
		fresh(what_is_offered_can_be_mended_instead),
		fresh(a_number_that_the_focus_comes_back_to_gives_way_to_the_first_digit),
		fresh(after_enter_a_number_begins_anew),
		fresh(a_text_is_added_to_but_a_time_of_day_is_typed_anew),
		fresh(enter_can_go_from_field_to_field),
		fresh(a_comma_becomes_a_point_in_sight),
		fresh(letters_are_not_taken_by_a_number),
		fresh(text_takes_letters_and_is_mended_by_whole_characters),
		fresh(a_full_field_takes_no_more),
		fresh(a_choice_goes_round_and_goes_by_its_first_letter),
		fresh(enter_does_not_leave_a_wrong_number),
		fresh(the_owner_may_refuse_more),
		fresh(what_is_needed_and_blank_is_said_only_on_enter),
		fresh(tab_goes_round_both_ways),
		fresh(a_draft_holds_what_was_typed_and_brings_it_back),
		fresh(what_comes_from_outside_is_tamed),
		fresh(each_field_has_a_row_and_the_focus_a_mark),
		fresh(long_text_is_moved_so_that_its_end_is_in_sight),
		fresh(a_problem_stands_beside_its_field_or_in_full_below),
		fresh(with_too_few_rows_the_focus_stays_in_sight),
		fresh(one_field_can_be_placed_by_itself),
		fresh(every_key_in_its_table_is_taken),
	};
	return run_tests(tests);
}
