/* The loop: dispatch, screens on screens, messages, small windows, keeping drafts, whatever ends it. */
#include "support/near.h"
#include "support/script.h"
#include "support/tiny.h"

#include "base/str.h"
#include "base/time.h"
#include "ui/everywhere.h"
#include "ui/help.h"
#include "ui/screens.h"

#include <stdlib.h>
#include <string.h>

static struct script s;

static void start(int columns, int rows)
{
	struct app_options o = {
		.who = "A. Hand", .theme = THEME_NIGHT, .everywhere = sb_everywhere, .first = &tiny_screen
	};

	setenv("TZ", "UTC", 1);
	sb_time_freeze(INT64_C(1795596720000)); /* 2026-11-25 08:52 UTC */
	memset(&tiny_counts, 0, sizeof tiny_counts);
	script_init(&s, columns, rows);
	script_start(&s, &o);
}

static int begin(void **state)
{
	(void)state;
	start(80, 24);
	return 0;
}

static int end(void **state)
{
	(void)state;
	script_end(&s);
	return 0;
}

static void the_first_frame_shows_head_screen_and_footer(void **state)
{
	(void)state;
	assert_string_equal(script_row(&s, 0),
		"Tiny                                                              A. Hand  08:52");
	assert_string_equal(script_row(&s, 1), "café at 88.1° · 22 rows, 80 columns");
	assert_string_equal(
		script_row(&s, 23), " A ask  X write  F fill  B again  R refused  W breach  Q leave  ? help");
	assert_true(s.shown.cursor->shown);
	assert_int_equal(s.frames, 2); /* the first, and the one after a pause */
}

static void a_key_goes_to_the_field_before_the_table(void **state)
{
	(void)state;
	script_keys(&s, "8 8");
	assert_sees(&s, "[88      ]");
	script_keys(&s, "Tab Tab A"); /* a letter in a text field is typed */
	assert_sees(&s, "[A           ]");
	assert_sees_not(&s, "Why is the reading");
	script_keys(&s, "F2");
	assert_sees(&s, "Why is the reading of joint 7 logged as it is?");
}

static void many_keys_at_once_are_painted_once(void **state)
{
	int frames = s.frames;

	(void)state;
	script_keys(&s, "8 8 . 1 2 3");
	assert_int_equal(s.frames - frames, 2); /* once, and once at the pause */
	assert_sees(&s, "[88.123  ]");
}

static void a_question_leaves_the_screen_below_in_sight(void **state)
{
	(void)state;
	script_keys(&s, "A");
	assert_sees(&s, "café at 88.1° · 18 rows, 80 columns");
	assert_sees(&s, "> reason [");
	script_type(&s, "rock");
	script_keys(&s, "Enter");
	assert_sees(&s, "last: rock for 7");
	assert_sees(&s, "22 rows");
	assert_sees_not(&s, "> reason [");
}

static void a_question_taken_back_does_nothing(void **state)
{
	(void)state;
	script_keys(&s, "A r o c k Esc");
	assert_sees_not(&s, "> reason [");
	assert_sees(&s, "last:");
	assert_sees_not(&s, "rock");
	script_keys(&s, "A Ctrl-C");
	assert_sees_not(&s, "> reason [");
	assert_false(s.over);
}

static void an_answer_not_taken_keeps_the_question_and_what_was_typed(void **state)
{
	(void)state;
	script_keys(&s, "A b a d Enter");
	assert_sees(&s, "! That is no reason.");
	assert_sees(&s, "[bad ");
	script_keys(&s, "l y Enter");
	assert_sees(&s, "last: badly for 7");
}

static void an_answer_that_is_needed_cannot_be_blank(void **state)
{
	(void)state;
	script_keys(&s, "A Enter");
	assert_sees(&s, "! This cannot stay blank.");
	assert_sees(&s, "> reason [");
}

static void screens_stack_and_close_one_by_one(void **state)
{
	(void)state;
	script_keys(&s, "B 7 B");
	assert_int_equal(tiny_counts.opened, 3);
	script_keys(&s, "Q");
	assert_sees(&s, "[7       ]"); /* its state is as it was */
	script_keys(&s, "Esc");
	assert_int_equal(tiny_counts.closed, 2);
	assert_sees_not(&s, "[7       ]");
}

static void too_many_screens_are_refused_in_words(void **state)
{
	(void)state;
	script_keys(&s, "B B B B B B B B B B");
	assert_sees(&s, "! Too many screens are open. Close one first.");
	assert_int_equal(tiny_counts.opened, 8);
	script_keys(&s, "Q");
	assert_int_equal(tiny_counts.closed, 1);
}

static void a_screen_that_does_not_open_says_why_and_is_not_there(void **state)
{
	(void)state;
	script_keys(&s, "R");
	assert_sees(&s, "! The tiny screen does not open today.");
	assert_int_equal(script_style(&s, "! The tiny"), STYLE_WATCH);
	script_keys(&s, "5");
	assert_sees(&s, "[5       ]");
	assert_sees_not(&s, "does not open");
}

static void the_first_screen_that_does_not_open_is_an_error_of_the_start(void **state)
{
	static const struct tiny_argument refuse = { .refuse = 1 };
	struct app_options o = {
		.who = "", .everywhere = sb_everywhere, .first = &tiny_screen, .argument = &refuse
	};
	struct sb_err err = { 0 };

	(void)state;
	assert_null(sb_app_new(&s.term, &o, &err));
	assert_string_equal(err.text, "The tiny screen does not open today.");
}

static void a_long_message_takes_rows_from_the_screen_and_hides_nothing(void **state)
{
	(void)state;
	script_keys(&s, "W");
	assert_sees(&s, "!! The corridor is broken at joint 4: 5.2 ft low where 5.0 ft is allowed. Note");
	assert_sees(&s, "why, or pull back to joint 3 and drill it again; then tell the engineer.");
	assert_sees(&s, "21 rows");
	assert_int_equal(script_style(&s, "!! The corridor"), STYLE_BREACH);
	assert_sees_not(&s, "? help");
	script_keys(&s, "Left"); /* any key takes it away */
	assert_sees(&s, "? help");
	assert_sees(&s, "22 rows");
}

static void leaving_the_first_screen_is_asked_about(void **state)
{
	(void)state;
	script_keys(&s, "Q");
	assert_sees(&s, "Leave sagbend?");
	script_keys(&s, "7 Enter N");
	assert_false(s.over);
	assert_sees_not(&s, "Leave sagbend?");
	script_keys(&s, "Ctrl-C y");
	assert_true(s.over);
	assert_int_equal(s.status, 0);
	assert_true(tiny_counts.kept > 0);
}

static void help_shows_the_keys_of_the_screen_it_was_asked_on(void **state)
{
	(void)state;
	script_keys(&s, "?");
	assert_sees(&s, "A screen for tests.");
	assert_sees(&s, "A, F2");
	assert_sees(&s, "Write something.");
	assert_sees_not(&s, "Q, Esc, Ctrl-C");
	script_keys(&s, "PgDn");
	assert_sees(&s, "Q, Esc, Ctrl-C");
	script_keys(&s, "?");
	assert_sees(&s, "café");
}

static void help_scrolls_no_further_than_its_ends(void **state)
{
	char top[200], bottom[200];

	(void)state;
	script_keys(&s, "?");
	sb_copy(top, sizeof top, script_row(&s, 1));
	script_keys(&s, "PgDn PgDn PgDn PgDn");
	sb_copy(bottom, sizeof bottom, script_row(&s, 21));
	assert_non_null(strstr(bottom, "This page."));
	assert_sees(&s, "PgUp: more above");
	script_keys(&s, "Down PgDn End Space");
	assert_string_equal(script_row(&s, 21), bottom);
	script_keys(&s, "Up");
	assert_sees(&s, "PgUp, PgDn: more above and below");
	script_keys(&s, "PgUp PgUp PgUp PgUp");
	assert_string_equal(script_row(&s, 1), top);
	assert_sees(&s, "PgDn: more below");
	script_keys(&s, "End Home");
	assert_string_equal(script_row(&s, 1), top);
}

static void colours_and_characters_go_round(void **state)
{
	(void)state;
	assert_int_equal(s.theme, THEME_NIGHT);
	script_keys(&s, "D");
	assert_int_equal(s.theme, THEME_DAY);
	assert_sees(&s, "Colours: day.");
	script_keys(&s, "F9 D");
	assert_int_equal(s.theme, THEME_NIGHT);
	script_keys(&s, "G");
	assert_sees(&s, "cafe at 88.1d - 22 rows");
	script_keys(&s, "G");
	assert_sees(&s, "café at 88.1° · 22 rows");
}

static void without_colours_the_theme_stays_and_it_is_said_why(void **state)
{
	(void)state;
	s.facts.colours = 0;
	script_resize(&s, 80, 24);
	script_keys(&s, "D");
	assert_sees(&s, "No colours here");
	assert_int_equal(s.theme, THEME_NIGHT);
}

static void a_terminal_of_ascii_gets_nothing_else(void **state)
{
	struct app_options o = { .who = "", .everywhere = sb_everywhere, .first = &tiny_screen };

	(void)state;
	script_end(&s);
	script_init(&s, 80, 24);
	s.facts.best = s.facts.glyphs = GLYPHS_ASCII;
	script_start(&s, &o);
	script_keys(&s, "G ?");
	for (int key = 0; key < 2; key++) {
		for (int i = 0; i < 24 * 80; i++)
			assert_in_range(s.shown.at[i].character, ' ', '~');
		script_keys(&s, "Q");
	}
}

static void a_window_too_small_says_so_and_types_nothing(void **state)
{
	(void)state;
	script_keys(&s, "8 8");
	script_resize(&s, 79, 24);
	assert_string_equal(script_row(&s, 0), "Needs 80 x 24, has 79 x 24. What you typed is kept.");
	assert_false(s.shown.cursor->shown);
	script_keys(&s, "9 Q Esc A");
	script_resize(&s, 80, 24);
	assert_sees(&s, "[88      ]");
	assert_sees_not(&s, "Leave");
	script_resize(&s, 10, 2);
	assert_string_equal(script_row(&s, 0), "Needs 80 x");
	script_resize(&s, 1, 1);
	script_resize(&s, 0, 0);
	script_keys(&s, "Ctrl-C"); /* the way out stays open */
	assert_true(s.over);
}

static void a_larger_window_is_used(void **state)
{
	(void)state;
	script_resize(&s, 132, 50);
	assert_sees(&s, "48 rows, 132 columns");
}

static void a_pause_keeps_what_is_half_typed_once(void **state)
{
	(void)state;
	int kept = tiny_counts.kept;
	script_keys(&s, "8 8 . 1");
	assert_int_equal(tiny_counts.kept, kept + 1);
	script_tick(&s);
	script_tick(&s);
	assert_int_equal(tiny_counts.kept, kept + 1);
}

static void whatever_ends_it_every_open_screen_keeps_its_draft(void **state)
{
	static const struct {
		enum event_kind kind;
		int status;
	} ends[] = { { EVENT_STOP, 143 }, { EVENT_GONE, 129 } };

	(void)state;
	for (size_t i = 0; i < 2; i++) {
		script_end(&s);
		start(80, 24);
		script_keys(&s, "B B");
		int kept = tiny_counts.kept;
		script_event(&s, ends[i].kind);
		assert_true(s.over);
		assert_int_equal(s.status, ends[i].status);
		assert_int_equal(tiny_counts.kept, kept + 3);
		assert_int_equal(sb_app_gone(s.app), ends[i].kind == EVENT_GONE);
	}
}

static void suspending_keeps_first_and_paints_after(void **state)
{
	(void)state;
	int kept = tiny_counts.kept;
	script_keys(&s, "5 Ctrl-Z");
	assert_int_equal(s.suspensions, 1);
	assert_true(tiny_counts.kept > kept);
	script_event(&s, EVENT_SUSPEND);
	assert_int_equal(s.suspensions, 2);
	assert_sees(&s, "[5       ]");
	script_keys(&s, "Ctrl-L");
	assert_int_equal(s.repaints, 1);
}

static void a_stalled_link_loses_no_key_and_catches_up(void **state)
{
	(void)state;
	s.stalled = true;
	script_keys(&s, "8 8");
	script_keys(&s, ". 1");
	assert_sees(&s, "[        ]");
	int kept = tiny_counts.kept;
	assert_true(kept >= 2);
	s.stalled = false;
	script_tick(&s);
	assert_sees(&s, "[88.1    ]");
}

static void the_clock_in_the_head_line_goes_on(void **state)
{
	(void)state;
	sb_time_freeze(INT64_C(1795596720000) + 60000);
	script_tick(&s);
	assert_non_null(strstr(script_row(&s, 0), "08:53"));
}

static void an_act_that_writes_tells_every_screen(void **state)
{
	(void)state;
	script_keys(&s, "B X");
	assert_int_equal(tiny_counts.written, 1);
	assert_int_equal(tiny_counts.changed, 2);
}

static void the_keys_of_all_screens_become_a_man_page(void **state)
{
	static const struct screen *const screens[] = { &tiny_screen, &sb_screen_help, NULL };
	struct sb_str out = { 0 };

	(void)state;
	sb_help_mdoc(screens, sb_everywhere, &out);
	const char *page = sb_str_get(&out);
	assert_non_null(strstr(page, ".Ss tiny\nA screen for tests.\n.Bl -tag"));
	assert_non_null(strstr(page, ".It Ic \"\\&A\" , Ic \"\\&F2\"\nAsk something.\n"));
	assert_non_null(strstr(page, ".Ss on every screen\n"));
	assert_non_null(strstr(page, "Ic \"\\&?\" , Ic \"\\&F1\""));
	sb_str_clear(&out);
}

/* Words that would be a command, a quote or an escape in the page's own language stay words. */
static void words_of_help_are_never_commands_of_the_page(void **state)
{
	static const struct action odd[] = {
		{ .name = "odd",
			.keys = "\\ \" .",
			.help = ".odd begins so. 'so' does this, and \\fB is no bold." },
		{ 0 },
	};
	static const struct screen screen = { .name = "odd",
		.about =
			"One sentence. Another one that is so long that it does not fit into one line of eighty "
			"characters at all.",
		.actions = odd };
	static const struct screen *const screens[] = { &screen, NULL };
	struct sb_str out = { 0 };

	(void)state;
	sb_help_mdoc(screens, NULL, &out);
	const char *page = sb_str_get(&out);
	assert_non_null(strstr(page, "\nOne sentence.\nAnother one"));
	assert_non_null(strstr(page, ".It Ic \"\\&\\e\" , Ic \"\\&\\(dq\" , Ic \"\\&.\"\n"));
	assert_non_null(strstr(page, "\n\\&.odd begins so.\n\\&'so' does this, and \\efB is no bold.\n"));
	for (const char *line = page; *line; line += strcspn(line, "\n") + 1)
		assert_true(strcspn(line, "\n") <= 80);
	sb_str_clear(&out);
}

#define on_the_screen(test) cmocka_unit_test_setup_teardown(test, begin, end)

int main(void)
{
	const struct CMUnitTest tests[] = {
		on_the_screen(the_first_frame_shows_head_screen_and_footer),
		on_the_screen(a_key_goes_to_the_field_before_the_table),
		on_the_screen(many_keys_at_once_are_painted_once),
		on_the_screen(a_question_leaves_the_screen_below_in_sight),
		on_the_screen(a_question_taken_back_does_nothing),
		on_the_screen(an_answer_not_taken_keeps_the_question_and_what_was_typed),
		on_the_screen(an_answer_that_is_needed_cannot_be_blank),
		on_the_screen(screens_stack_and_close_one_by_one),
		on_the_screen(too_many_screens_are_refused_in_words),
		on_the_screen(a_screen_that_does_not_open_says_why_and_is_not_there),
		on_the_screen(the_first_screen_that_does_not_open_is_an_error_of_the_start),
		on_the_screen(a_long_message_takes_rows_from_the_screen_and_hides_nothing),
		on_the_screen(leaving_the_first_screen_is_asked_about),
		on_the_screen(help_shows_the_keys_of_the_screen_it_was_asked_on),
		on_the_screen(help_scrolls_no_further_than_its_ends),
		on_the_screen(colours_and_characters_go_round),
		on_the_screen(without_colours_the_theme_stays_and_it_is_said_why),
		on_the_screen(a_terminal_of_ascii_gets_nothing_else),
		on_the_screen(a_window_too_small_says_so_and_types_nothing),
		on_the_screen(a_larger_window_is_used),
		on_the_screen(a_pause_keeps_what_is_half_typed_once),
		on_the_screen(whatever_ends_it_every_open_screen_keeps_its_draft),
		on_the_screen(suspending_keeps_first_and_paints_after),
		on_the_screen(a_stalled_link_loses_no_key_and_catches_up),
		on_the_screen(the_clock_in_the_head_line_goes_on),
		on_the_screen(an_act_that_writes_tells_every_screen),
		on_the_screen(the_keys_of_all_screens_become_a_man_page),
		cmocka_unit_test(words_of_help_are_never_commands_of_the_page),
	};
	return run_tests(tests);
}
