/* Tables of actions: keys, the footer, and that the program's own tables hold together. */
#include "support/near.h"
#include "ui/action.h"

#include "base/str.h"
#include "ui/everywhere.h"
#include "ui/key.h"
#include "ui/screens.h"

#include <string.h>

static enum follow nothing(struct view *v)
{
	(void)v;
	return FOLLOW_NOTHING;
}

static const struct action table[] = {
	{ .name = "log", .keys = "Enter", .label = "log", .help = "Log it.", .act = nothing, .writes = true },
	{ .name = "what-if", .keys = "W F4", .label = "what if", .help = "Look.", .act = nothing },
	{ .name = "typing", .keys = "Tab", .help = "A widget's." },
	{ .name = "note", .keys = "N", .label = "note", .help = "Note it.", .act = nothing, .writes = true },
	{ 0 },
};

static const struct action everywhere[] = {
	{ .name = "leave", .keys = "Q Esc", .label = "leave", .help = "Leave.", .act = nothing },
	{ .name = "help", .keys = "? F1", .label = "help", .help = "Help.", .act = nothing },
	{ 0 },
};

static const struct action typing_table[] = {
	{ .name = "take", .keys = "Enter", .label = "take it", .help = "Take it." },
	{ .name = "leave-it", .keys = "Esc", .label = "leave it", .help = "Leave it.", .act = nothing },
	{ 0 },
};

static const char *footer_of(
	const struct action *own, bool letters, int columns, bool writes, size_t *left_out)
{
	static char text[256];
	struct cells c;

	sb_cells_init(&c, 1, columns);
	*left_out = sb_action_footer(&c, &(struct action_tables){ own, everywhere, letters, writes });
	sb_cells_row(&c, 0, text, sizeof text);
	sb_cells_clear(&c);
	return text;
}

static const char *footer(int columns, bool writes, size_t *left_out)
{
	return footer_of(table, false, columns, writes, left_out);
}

static void a_key_finds_its_action_whatever_the_case(void **state)
{
	(void)state;
	assert_ptr_equal(sb_action_find(table, 'w'), &table[1]);
	assert_ptr_equal(sb_action_find(table, 'W'), &table[1]);
	assert_ptr_equal(sb_action_find(table, SB_KEY_F4), &table[1]);
	assert_null(sb_action_find(table, 'x'));
	assert_null(sb_action_find(NULL, 'x'));
}

static void rows_that_a_widget_handles_are_only_read(void **state)
{
	(void)state;
	assert_null(sb_action_find(table, SB_KEY_TAB));
}

static void the_footer_shows_keys_and_labels_and_help_at_its_end(void **state)
{
	size_t left_out;

	(void)state;
	assert_string_equal(footer(60, true, &left_out), " Enter log  W what if  N note  Q leave  ? help");
	assert_int_equal(left_out, 0);
}

static void what_finds_no_room_in_the_footer_is_counted_and_help_stays(void **state)
{
	size_t left_out;

	(void)state;
	assert_string_equal(footer(30, true, &left_out), " Enter log W what if ? help");
	assert_int_equal(left_out, 2);
	assert_string_equal(footer(8, true, &left_out), " ? help");
	assert_int_equal(left_out, 4);
}

static void an_onlooker_is_not_offered_what_writes(void **state)
{
	size_t left_out;

	(void)state;
	assert_string_equal(footer(60, false, &left_out), " W what if  Q leave  ? help");
}

/* Q and ? are typed there, and Esc is the screen's own: nothing may be promised that a key does not do. */
static void where_letters_are_typed_the_footer_names_the_keys_that_are_left(void **state)
{
	size_t left_out;

	(void)state;
	assert_string_equal(
		footer_of(typing_table, true, 60, true, &left_out), " Enter take it  Esc leave it  F1 help");
	assert_string_equal(footer_of(typing_table, false, 60, true, &left_out),
		" Enter take it  Esc leave it  Q leave  ? help");
}

/* The program's own tables. */

static void check_table(const char *screen, const struct action *t)
{
	for (const struct action *a = t; a && a->name; a++) {
		const char *keys = a->keys, *word = keys;
		int count = 0;
		for (int key; word = keys + strspn(keys, " "), (key = sb_key_next(&keys)) != SB_KEY_NONE;
			count++)
			for (const struct action *b = t; b < a; b++)
				if (a->act && b->act && sb_action_takes(b, key))
					fail_msg("%s: %s and %s share a key", screen, a->name, b->name);
		if (*word)
			fail_msg("%s: %s: '%s' is no key", screen, a->name, word);
		if (count == 0 || a->help == NULL || strlen(a->help) < 4)
			fail_msg("%s: %s has no key or no help", screen, a->name);
		if (a->help[strlen(a->help) - 1] != '.')
			fail_msg("%s: %s: the help is no sentence", screen, a->name);
		if (a->label && strlen(a->label) > 20)
			fail_msg("%s: %s: the label is too long for a footer", screen, a->name);
	}
}

static void every_table_names_real_keys_once_and_explains_them(void **state)
{
	(void)state;
	check_table("everywhere", sb_everywhere);
	for (const struct screen *const *s = sb_screens; *s; s++) {
		check_table((*s)->name, (*s)->actions);
		for (size_t i = 0; i < SB_SCREEN_WIDGETS; i++)
			check_table((*s)->name, (*s)->widgets[i]);
	}
}

static void every_screen_has_a_name_a_word_about_it_and_draws(void **state)
{
	(void)state;
	for (const struct screen *const *s = sb_screens; *s; s++) {
		assert_non_null((*s)->name);
		assert_non_null((*s)->about);
		assert_non_null((*s)->draw);
		for (const struct screen *const *t = sb_screens; t < s; t++)
			assert_false(sb_same((*s)->name, (*t)->name));
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_key_finds_its_action_whatever_the_case),
		cmocka_unit_test(rows_that_a_widget_handles_are_only_read),
		cmocka_unit_test(the_footer_shows_keys_and_labels_and_help_at_its_end),
		cmocka_unit_test(what_finds_no_room_in_the_footer_is_counted_and_help_stays),
		cmocka_unit_test(an_onlooker_is_not_offered_what_writes),
		cmocka_unit_test(where_letters_are_typed_the_footer_names_the_keys_that_are_left),
		cmocka_unit_test(every_table_names_real_keys_once_and_explains_them),
		cmocka_unit_test(every_screen_has_a_name_a_word_about_it_and_draws),
	};
	return run_tests(tests);
}
