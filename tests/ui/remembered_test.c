/* What is remembered of the screen from one run to the next: and that nothing in its file can do harm. */
#include "io/scratch.h"
#include "support/near.h"
#include "ui/remembered.h"

#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static struct remembered got;

static int begin(void **state)
{
	(void)state;
	setenv("XDG_STATE_HOME", scratch("state"), 1);
	setenv("TERM", "xterm-256color", 1);
	return 0;
}

static int end(void **state)
{
	(void)state;
	scratch_empty();
	return 0;
}

static void write_file(const char *text)
{
	mkdir(scratch("state"), 0700);
	mkdir(scratch("state/sagbend"), 0700);
	scratch_text("state/sagbend/screen", text);
}

static void nothing_is_known_at_first(void **state)
{
	(void)state;
	sb_remembered_load(&got);
	assert_false(got.theme_known);
	assert_false(got.glyphs_known);
}

static void what_was_chosen_comes_back(void **state)
{
	struct stat about;

	(void)state;
	sb_remembered_theme(THEME_DAY);
	sb_remembered_load(&got);
	assert_true(got.theme_known);
	assert_int_equal(got.theme, THEME_DAY);
	assert_false(got.glyphs_known);
	sb_remembered_glyphs(GLYPHS_ASCII);
	sb_remembered_theme(THEME_PLAIN);
	sb_remembered_load(&got);
	assert_int_equal(got.theme, THEME_PLAIN);
	assert_true(got.glyphs_known);
	assert_int_equal(got.glyphs, GLYPHS_ASCII);
	/* the folder is the user's own */
	assert_int_equal(stat(scratch("state/sagbend"), &about), 0);
	assert_int_equal(about.st_mode & 0777, 0700);
}

/* Whether dots look well is a matter of the font, and so of the terminal. */
static void characters_are_remembered_for_their_terminal(void **state)
{
	(void)state;
	sb_remembered_glyphs(GLYPHS_BRAILLE);
	setenv("TERM", "linux", 1);
	sb_remembered_load(&got);
	assert_false(got.glyphs_known);
	sb_remembered_glyphs(GLYPHS_LINES);
	sb_remembered_load(&got);
	assert_int_equal(got.glyphs, GLYPHS_LINES);
	unsetenv("TERM");
	sb_remembered_load(&got);
	assert_false(got.glyphs_known);
	sb_remembered_glyphs(GLYPHS_LINES);
}

static void a_broken_file_is_passed_over(void **state)
{
	static const char *const broken[] = { "", "\n\n", "theme", "theme \n",
		"theme purple\npictures dust\n", "theme dayy\n", "THEME day\n", " theme day\n",
		"terminal xterm-256color\n", "pictures dots\nterminal xterm\n", "theme \001\002\377\n" };

	(void)state;
	for (size_t i = 0; i < sizeof broken / sizeof *broken; i++) {
		write_file(broken[i]);
		sb_remembered_load(&got);
		if (got.theme_known || got.glyphs_known)
			fail_msg("something was believed of '%s'", broken[i]);
	}
	write_file("later words\ntheme day\n");
	sb_remembered_load(&got);
	assert_true(got.theme_known);
}

static void a_file_of_any_length_is_read_as_far_as_it_can_make_sense(void **state)
{
	char *text = malloc(100001);

	(void)state;
	assert_non_null(text);
	memset(text, 'x', 100000);
	text[100000] = '\0';
	memcpy(text, "theme day\n", 10);
	write_file(text);
	free(text);
	sb_remembered_load(&got);
	assert_int_equal(got.theme, THEME_DAY);
}

/* A pipe would be waited for until somebody writes into it; a folder in its place cannot be written over. */
static void what_is_no_file_does_no_harm(void **state)
{
	(void)state;
	mkdir(scratch("state"), 0700);
	mkdir(scratch("state/sagbend"), 0700);
	assert_int_equal(mkfifo(scratch("state/sagbend/screen"), 0600), 0);
	sb_remembered_load(&got);
	assert_false(got.theme_known);
	unlink(scratch("state/sagbend/screen"));
	mkdir(scratch("state/sagbend/screen"), 0700);
	sb_remembered_load(&got);
	sb_remembered_theme(THEME_DAY);
	sb_remembered_load(&got);
	assert_false(got.theme_known);
	rmdir(scratch("state/sagbend/screen"));
	assert_int_equal(rmdir(scratch("state/sagbend")), 0); /* and nothing is left beside it */
}

static void without_a_place_for_it_nothing_is_remembered(void **state)
{
	(void)state;
	setenv("XDG_STATE_HOME", "/dev/null", 1);
	sb_remembered_theme(THEME_DAY);
	sb_remembered_load(&got);
	assert_false(got.theme_known);
	setenv("XDG_STATE_HOME", "not/absolute", 1);
	unsetenv("HOME");
	sb_remembered_theme(THEME_DAY);
	assert_int_equal(access("not", F_OK), -1);
	unsetenv("XDG_STATE_HOME");
	sb_remembered_theme(THEME_DAY);
	sb_remembered_load(&got);
	assert_false(got.theme_known);
}

static void home_is_the_place_where_no_other_is_named(void **state)
{
	(void)state;
	unsetenv("XDG_STATE_HOME");
	setenv("HOME", scratch("state"), 1);
	sb_remembered_theme(THEME_DAY);
	assert_int_equal(access(scratch("state/.local/state/sagbend/screen"), F_OK), 0);
	sb_remembered_load(&got);
	assert_int_equal(got.theme, THEME_DAY);
}

#define with_a_folder(test) cmocka_unit_test_setup_teardown(test, begin, end)

int main(void)
{
	const struct CMUnitTest tests[] = {
		with_a_folder(nothing_is_known_at_first),
		with_a_folder(what_was_chosen_comes_back),
		with_a_folder(characters_are_remembered_for_their_terminal),
		with_a_folder(a_broken_file_is_passed_over),
		with_a_folder(a_file_of_any_length_is_read_as_far_as_it_can_make_sense),
		with_a_folder(what_is_no_file_does_no_harm),
		with_a_folder(without_a_place_for_it_nothing_is_remembered),
		with_a_folder(home_is_the_place_where_no_other_is_named),
	};
	return run_tests(tests);
}
