/* Tables of actions: keys, the footer, and that the program's own tables hold together. */
#include "support/near.h"
#include "support/script.h"
#include "ui/action.h"

#include "base/str.h"
#include "ui/everywhere.h"
#include "ui/help.h"
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

/* The row of a screen, its own or a widget's, that takes the key; other than the row that asks. */
static const struct action *other_row(const struct screen *s, int key, const struct action *than)
{
	const struct action *tables[SB_SCREEN_WIDGETS + 1] = { s->actions };

	for (size_t i = 0; i < SB_SCREEN_WIDGETS; i++)
		tables[i + 1] = s->widgets[i];
	for (size_t i = 0; i < SB_SCREEN_WIDGETS + 1; i++)
		for (const struct action *a = tables[i]; a && a->name; a++)
			if (a != than && sb_action_takes(a, key))
				return a;
	return NULL;
}

/* A screen may close, or explain itself, by the keys that do so everywhere; no other of those keys is its
 * own. */
static void check_key(const struct screen *s, const struct action *a, int key)
{
	const struct action *other = other_row(s, key, a), *theirs = sb_everywhere;

	if (other)
		fail_msg("%s: %s and %s share a key", s->name, a->name, other->name);
	if (s->letters && sb_key_types(key))
		fail_msg("%s: %s: this key is typed into its fields", s->name, a->name);
	while (theirs->name && !sb_action_takes(theirs, key))
		theirs++;
	if (theirs->name && !sb_same(theirs->name, "leave") && !sb_same(theirs->name, "help"))
		fail_msg("%s: %s takes a key of %s", s->name, a->name, theirs->name);
}

static void no_key_means_two_things_on_one_screen(void **state)
{
	(void)state;
	for (const struct screen *const *s = sb_screens; *s; s++) {
		const struct action *tables[SB_SCREEN_WIDGETS + 1] = { (*s)->actions };
		for (size_t i = 0; i < SB_SCREEN_WIDGETS; i++)
			tables[i + 1] = (*s)->widgets[i];
		for (size_t i = 0; i < SB_SCREEN_WIDGETS + 1; i++)
			for (const struct action *a = tables[i]; a && a->name; a++) {
				const char *keys = a->keys;
				for (int key; (key = sb_key_next(&keys)) != SB_KEY_NONE;)
					check_key(*s, a, key);
			}
	}
}

static const char *footer_of_screen(const struct screen *s, size_t *left_out)
{
	static char text[512];
	struct cells c;

	sb_cells_init(&c, 1, 80);
	*left_out =
		sb_action_footer(&c, &(struct action_tables){ s->actions, sb_everywhere, s->letters, true });
	sb_cells_row(&c, 0, text, sizeof text);
	sb_cells_clear(&c);
	return text;
}

/* The main screen has more acts than room; what a shift needs is there. */
static void at_80_columns_the_footer_has_all_that_a_shift_needs(void **state)
{
	size_t left_out;

	(void)state;
	assert_string_equal(footer_of_screen(sb_screens[0], &left_out),
		" W what if M more C correct B pull back A warnings T steer N note S shift ? help");
	for (const struct screen *const *s = sb_screens + 1; *s; s++) {
		const char *footer = footer_of_screen(*s, &left_out);
		if (left_out)
			fail_msg("%s: there is no room for all of its footer: %s", (*s)->name, footer);
	}
}

static void what_a_shift_needs_has_a_function_key(void **state)
{
	static const char *const acts[] = { "what-if", "more", "correct", "pull-back", "acknowledge",
		"steering", "note", "shift", "history" };

	(void)state;
	for (size_t i = 0; i < sizeof acts / sizeof *acts; i++) {
		const struct action *a = sb_screens[0]->actions;
		int found = 0;
		while (a->name && !sb_same(a->name, acts[i]))
			a++;
		assert_non_null(a->name);
		for (int key = SB_KEY_F1; key <= SB_KEY_F12; key++)
			found += sb_action_takes(a, key);
		assert_int_equal(found, 1);
	}
}

/* Draws the help page of a screen as long as it is, and joins its lines. */
static void help_text(const struct screen *s, struct sb_str *out)
{
	struct help_topic topic = { s, sb_everywhere };
	struct app_options o = {
		.who = "", .everywhere = sb_everywhere, .first = &sb_screen_help, .argument = &topic
	};
	struct script script;

	script_init(&script, 250, 120);
	script_start(&script, &o);
	for (int row = 0; row < 120; row++)
		sb_str_add(out, "%s\n", script_row(&script, row));
	script_end(&script);
}

static void help_explains_every_row_with_the_keys_that_reach_it(void **state)
{
	(void)state;
	for (const struct screen *const *s = sb_screens; *s; s++) {
		struct action_tables tables = { (*s)->actions, sb_everywhere, (*s)->letters, true };
		struct sb_str page = { 0 };
		help_text(*s, &page);
		for (int of_all = 0; of_all < 2; of_all++)
			for (const struct action *a = of_all ? sb_everywhere : (*s)->actions; a && a->name;
				a++) {
				const char *keys = a->keys;
				char key[SB_KEY_TEXT], line[300];
				int first = sb_action_next_key(&tables, of_all, &keys);
				if (first == SB_KEY_NONE)
					continue;
				snprintf(line, sizeof line, "  %s", sb_key_name(first, key));
				if (!strstr(sb_str_get(&page), line) || !strstr(sb_str_get(&page), a->help))
					fail_msg("%s: help says nothing of %s", (*s)->name, a->name);
			}
		sb_str_clear(&page);
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
		cmocka_unit_test(no_key_means_two_things_on_one_screen),
		cmocka_unit_test(at_80_columns_the_footer_has_all_that_a_shift_needs),
		cmocka_unit_test(what_a_shift_needs_has_a_function_key),
		cmocka_unit_test(help_explains_every_row_with_the_keys_that_reach_it),
		cmocka_unit_test(every_screen_has_a_name_a_word_about_it_and_draws),
	};
	return run_tests(tests);
}
