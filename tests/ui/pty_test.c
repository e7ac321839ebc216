/* The harness of the pseudo-terminal itself, on programs that every machine has. */
#include "support/near.h"
#include "support/pty.h"

#include <signal.h>
#include <stdlib.h>
#include <string.h>

static struct pty *shell(const char *script, const char *term, const char *lang)
{
	const char *argv[] = { "sh", "-c", script, NULL };

	return pty_start(&(struct pty_options){ .argv = argv, .term = term, .lang = lang });
}

static void what_a_program_writes_stands_on_the_screen(void **state)
{
	struct pty *p =
		shell("printf '\\033[2J\\033[5;10Hcaf\\303\\251 \\342\\240\\277'; read x", NULL, NULL);

	(void)state;
	assert_pty_sees(p, "café ⠿");
	assert_string_equal(pty_row(p, 4), "         café ⠿");
	assert_string_equal(pty_row(p, 0), "");
	int row, column;
	assert_true(pty_cursor(p, &row, &column));
	assert_int_equal(row, 4);
	assert_int_equal(column, 15);
	assert_int_equal(pty_bytes(p), strlen(pty_raw(p)));
	pty_free(p);
}

static void what_is_typed_arrives(void **state)
{
	const char *argv[] = { "cat", NULL };
	struct pty *p = pty_start(&(struct pty_options){ .argv = argv });

	(void)state;
	pty_type(p, "88.1\r");
	assert_pty_sees(p, "88.1");
	assert_true(pty_line_mode(p));
	pty_type(p, "\004");
	assert_int_equal(pty_end(p), 0);
	pty_free(p);
}

static void size_and_environment_are_set_and_nothing_else_is(void **state)
{
	setenv("LINES", "7", 1);
	struct pty *p = shell("stty size; echo $TERM,$LANG,$TZ,$LINES.", "vt100", "C");

	(void)state;
	assert_pty_sees(p, "24 80");
	assert_pty_sees(p, "vt100,C,UTC,.");
	assert_int_equal(pty_end(p), 0);
	pty_free(p);
	unsetenv("LINES");
}

static void a_new_size_is_told(void **state)
{
	struct pty *p = shell("trap 'stty size' WINCH; echo ready; while :; do read x; done", NULL, NULL);

	(void)state;
	assert_pty_sees(p, "ready");
	pty_resize(p, 100, 30);
	assert_pty_sees(p, "30 100");
	pty_free(p);
}

static void how_a_program_ended_is_known(void **state)
{
	struct pty *p = shell("exit 3", NULL, NULL);

	(void)state;
	assert_int_equal(pty_end(p), 3);
	pty_free(p);
	p = shell("echo ready; read x", NULL, NULL);
	assert_pty_sees(p, "ready");
	pty_signal(p, SIGKILL);
	assert_int_equal(pty_end_unread(p), 137);
	pty_free(p);
	p = shell("echo ready; read x; read y", NULL, NULL);
	assert_pty_sees(p, "ready");
	pty_hang_up(p);
	assert_int_equal(pty_end(p), 129);
	pty_free(p);
}

static void words_that_never_come_are_not_waited_for_once_it_ended(void **state)
{
	struct pty *p = shell("echo done", NULL, NULL);

	(void)state;
	assert_false(pty_sees(p, "never"));
	assert_true(pty_sees(p, "done"));
	pty_free(p);
}

static void what_goes_away_is_seen_to_go(void **state)
{
	struct pty *p = shell("echo here; read x; printf '\\033[2J'; read x", NULL, NULL);

	(void)state;
	assert_pty_sees(p, "here");
	pty_type(p, "\r");
	assert_true(pty_loses(p, "here"));
	pty_free(p);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(what_a_program_writes_stands_on_the_screen),
		cmocka_unit_test(what_is_typed_arrives),
		cmocka_unit_test(size_and_environment_are_set_and_nothing_else_is),
		cmocka_unit_test(a_new_size_is_told),
		cmocka_unit_test(how_a_program_ended_is_known),
		cmocka_unit_test(words_that_never_come_are_not_waited_for_once_it_ended),
		cmocka_unit_test(what_goes_away_is_seen_to_go),
	};
	return run_tests(tests);
}
