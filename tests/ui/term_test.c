/* The real terminal, by running this program again as a child in a pseudo-terminal: painting, keys of several
 * terminals, sizes, signals, hang-up, a stalled link, and how many bytes a key costs.
 */
#include "support/near.h"
#include "support/pty.h"
#include "support/tiny.h"

#include "base/str.h"
#include "ui/app.h"
#include "ui/everywhere.h"
#include "ui/term.h"

#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static char self[512], draft[64];

/* The child */

static int run_child(const char *path)
{
	struct tiny_argument argument = { .path = path };
	struct app_options o = {
		.who = "A. Hand", .everywhere = sb_everywhere, .first = &tiny_screen, .argument = &argument
	};
	struct sb_err err = { 0 };
	struct sb_term term;

	if (sb_term_open(COLOUR_AUTO, &term, &err)) {
		fprintf(stderr, "%s\n", err.text);
		return 2;
	}
	struct sb_app *app = sb_app_new(&term, &o, &err);
	int status = app ? sb_app_run(app) : 3;
	bool gone = app && sb_app_gone(app);
	if (app)
		sb_app_free(app);
	term.close(term.self, gone);
	return status;
}

/* Helpers */

static struct pty *start_with(const char *term, const char *lang, const char *const *env)
{
	const char *argv[] = { self, "--child", draft, NULL };

	unlink(draft);
	return pty_start(&(struct pty_options){ .argv = argv, .term = term, .lang = lang, .env = env });
}

static struct pty *start(const char *term, const char *lang)
{
	struct pty *p = start_with(term, lang, NULL);

	assert_pty_sees(p, "? help");
	return p;
}

static const char *draft_text(void)
{
	static char text[700];
	int fd = open(draft, O_RDONLY);
	ssize_t got = fd < 0 ? -1 : read(fd, text, sizeof text - 1);

	if (fd >= 0)
		close(fd);
	text[got > 0 ? got : 0] = '\0';
	return text;
}

/* Waits until the draft holds the text; reading nothing from the terminal. */
static bool draft_holds(const char *text, int times)
{
	while (strstr(draft_text(), text) == NULL && times-- > 0)
		poll(NULL, 0, 10);
	return strstr(draft_text(), text) != NULL;
}

static void leave(struct pty *p)
{
	pty_type(p, "\003");
	assert_pty_sees(p, "Leave sagbend?");
	pty_type(p, "y");
	assert_int_equal(pty_end(p), 0);
	assert_true(pty_line_mode(p));
	pty_free(p);
}

/* Painting */

static void it_paints_in_utf8(void **state)
{
	struct pty *p = start(NULL, NULL);

	(void)state;
	assert_string_equal(pty_row(p, 1), "café at 88.1° · 22 rows, 80 columns");
	assert_string_equal(pty_row(p, 2),
		"─ form ─────────────────────────────────────────────────────────────────────────");
	int row, column;
	assert_true(pty_cursor(p, &row, &column));
	assert_int_equal(row, 3);
	assert_int_equal(column, 15);
	leave(p);
}

static void it_paints_in_ascii_where_the_language_has_nothing_else(void **state)
{
	static const char *const terms[] = { "xterm-256color", "vt100", "linux" };

	(void)state;
	for (size_t i = 0; i < 3; i++) {
		struct pty *p = start(terms[i], "C");
		assert_string_equal(pty_row(p, 1), "cafe at 88.1d - 22 rows, 80 columns");
		for (const char *c = pty_raw(p); *c; c++)
			assert_true(*c > 0);
		leave(p);
	}
}

/* A language that is not installed would fall into "C", where every accent vanishes. */
static void a_language_that_is_not_installed_still_gets_its_accents(void **state)
{
	struct pty *p = start(NULL, "xx_YY.UTF-8");

	(void)state;
	assert_string_equal(pty_row(p, 1), "café at 88.1° · 22 rows, 80 columns");
	leave(p);
}

static void a_terminal_of_the_vt_family_gets_plain_characters(void **state)
{
	struct pty *p = start("vt100", NULL);

	(void)state;
	assert_string_equal(pty_row(p, 1), "cafe at 88.1d - 22 rows, 80 columns");
	leave(p);
}

static void colours_depend_on_the_terminal_and_on_no_color(void **state)
{
	static const char *const no_color[] = { "NO_COLOR=1", NULL }, *const empty[] = { "NO_COLOR=", NULL };
	static const struct {
		const char *term;
		const char *const *env;
		const char *there, *not_there;
	} cases[] = {
		{ "xterm-256color", NULL, "\033[38;5;", "\033[37m" },
		{ "xterm-256color", empty, "\033[38;5;", "\033[37m" },
		{ "xterm-256color", no_color, ";7m", "\033[38;5;" },
		{ "xterm-256color", no_color, ";1m", "\033[48;5;" },
		{ "xterm", NULL, "\033[37m", "\033[38;5;" },
		{ "linux", NULL, "37", "\033[38;5;" },
		{ "vt100", NULL, ";7m", "\033[37m" },
	};

	(void)state;
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct pty *p = start_with(cases[i].term, NULL, cases[i].env);
		assert_pty_sees(p, "? help");
		if (strstr(pty_raw(p), cases[i].there) == NULL || strstr(pty_raw(p), cases[i].not_there))
			fail_msg("%s, case %zu: not the colours expected", cases[i].term, i);
		leave(p);
	}
}

/* A terminal whose colours are red, green and blue instead of numbers of a palette; described here, because
 * not every machine has such a description. */
static void a_terminal_of_all_colours_gets_the_same_ones(void **state)
{
	char folder[] = "/tmp/term_test.XXXXXX", command[900], variable[80];
	const char *const env[] = { variable, NULL };

	(void)state;
	assert_non_null(mkdtemp(folder));
	snprintf(command, sizeof command,
		"cd %s && cat >deep.src <<'END' && tic -x -o . deep.src\n"
		"deep|all colours,\n"
		"\tRGB, colors#0x1000000, pairs#0x7FFF,\n"
		"\tsetab=\\E[48;2;%%p1%%{65536}%%/%%d;%%p1%%{256}%%/%%{255}%%&%%d;%%p1%%{255}%%&%%dm,\n"
		"\tsetaf=\\E[38;2;%%p1%%{65536}%%/%%d;%%p1%%{256}%%/%%{255}%%&%%d;%%p1%%{255}%%&%%dm,\n"
		"\tuse=xterm-256color,\nEND\n",
		folder);
	assert_int_equal(system(command), 0);
	snprintf(variable, sizeof variable, "TERMINFO=%s", folder);
	struct pty *p = start_with("deep", NULL, env);
	assert_pty_sees(p, "? help");
	assert_non_null(strstr(pty_raw(p), "\033[38;2;148;148;148m")); /* 246 of the palette */
	leave(p);
	snprintf(command, sizeof command, "rm -r %s", folder);
	assert_int_equal(system(command), 0);
}

static void one_typed_digit_costs_less_than_100_bytes(void **state)
{
	static const char *const terms[] = { "xterm-256color", "vt100", "linux" };

	(void)state;
	for (size_t i = 0; i < 3; i++) {
		struct pty *p = start(terms[i], NULL);
		pty_type(p, "8");
		assert_pty_sees(p, "[8 ");
		pty_drain(p);
		size_t before = pty_bytes(p);
		pty_type(p, "7");
		assert_pty_sees(p, "[87 ");
		pty_drain(p);
		size_t cost = pty_bytes(p) - before;
		if (cost == 0 || cost >= 100)
			fail_msg("%s: one digit cost %zu bytes", terms[i], cost);
		leave(p);
	}
}

static void when_nothing_changes_nothing_is_sent(void **state)
{
	struct pty *p = start(NULL, NULL);

	(void)state;
	pty_drain(p);
	size_t before = pty_bytes(p);
	pty_type(p, "\033[99~"); /* no key at all */
	pty_type(p, "\007");	 /* one that does nothing */
	assert_true(draft_holds("1 keys", 1000));
	pty_drain(p);
	assert_int_equal(pty_bytes(p), before);
	leave(p);
}

/* Keys */

static void a_key_of_another_terminal_types_nothing(void **state)
{
	struct pty *p = start("xterm-256color", NULL);

	(void)state;
	pty_type(p, "8\033[200~8\033[201~\033[<0;5;5M\033[I\033[1;5C.\033[35~1");
	assert_pty_sees(p, "[88.1    ]");
	leave(p);
}

static void the_keypad_types_what_is_printed_on_it(void **state)
{
	static const char *const terms[] = { "xterm-256color", "vt100", "vt220", "linux" };

	(void)state;
	for (size_t i = 0; i < 4; i++) {
		struct pty *p = start(terms[i], NULL);
		pty_type(p, "\033Ox\033Ox\033On\033Oq"); /* 8 8 . 1 */
		assert_pty_sees(p, "[88.1    ]");
		pty_type(p, "\033OM");
		assert_pty_sees(p, "Took 88.1 and 45.0.");
		pty_type(p, "\025\033Op\033Ol\033Ov"); /* clear; 0 , 6 */
		assert_pty_sees(p, "[0.6     ]");
		leave(p);
	}
}

static void keys_come_one_by_one_over_a_slow_link(void **state)
{
	struct pty *p = start(NULL, NULL);

	(void)state;
	for (const char *c = "8\033[11~8\033OA"; *c; c++)
		pty_type(p, (char[]){ *c, '\0' });
	assert_pty_sees(p, "Enter back"); /* F1 */
	pty_type(p, "q");
	assert_pty_sees(p, "[8 ");
	leave(p);
}

static void an_escape_alone_closes(void **state)
{
	struct pty *p = start(NULL, NULL);

	(void)state;
	pty_type(p, "?");
	assert_pty_sees(p, "A screen for tests.");
	pty_type(p, "\033");
	assert_true(pty_loses(p, "A screen for tests."));
	leave(p);
}

static void ctrl_s_does_not_freeze_and_ctrl_v_quotes_nothing(void **state)
{
	struct pty *p = start(NULL, NULL);

	(void)state;
	pty_type(p,
		"\0238\0268\034.\0211\025\x0F"
		"7");
	assert_pty_sees(p, "[7 ");
	leave(p);
}

static void names_are_typed_with_their_accents(void **state)
{
	struct pty *p = start(NULL, NULL);

	(void)state;
	pty_type(p, "\t\tJos\303\251");
	assert_pty_sees(p, "[José ");
	leave(p);
}

/* Sizes */

static void a_new_size_is_used_at_once(void **state)
{
	struct pty *p = start(NULL, NULL);

	(void)state;
	pty_type(p, "88");
	assert_pty_sees(p, "[88 ");
	pty_resize(p, 132, 50);
	assert_pty_sees(p, "48 rows, 132 columns");
	pty_resize(p, 70, 20);
	assert_pty_sees(p, "Needs 80 x 24, has 70 x 20. What you typed is kept.");
	pty_resize(p, 80, 24);
	assert_pty_sees(p, "22 rows, 80 columns");
	assert_pty_sees(p, "[88 ");
	leave(p);
}

/* A terminal may wrap its old text anew for the new size: what curses believes to stand there is not there,
 * and pieces of the old screen once stayed. All of it is sent. */
static void a_new_size_is_painted_from_nothing(void **state)
{
	struct pty *p = start(NULL, NULL);

	(void)state;
	assert_pty_sees(p, "inclination");
	pty_drain(p);
	size_t before = pty_bytes(p);
	pty_resize(p, 80, 26);
	assert_pty_sees(p, "24 rows, 80 columns");
	pty_drain(p);
	assert_non_null(strstr(pty_raw(p) + before, "inclination"));
	leave(p);
}

/* Curses would believe the variables before the terminal itself. */
static void lines_and_columns_in_the_environment_are_not_believed(void **state)
{
	static const char *const env[] = { "LINES=50", "COLUMNS=200", NULL };
	struct pty *p = start_with(NULL, NULL, env);

	(void)state;
	assert_pty_sees(p, "22 rows, 80 columns");
	pty_resize(p, 100, 30);
	assert_pty_sees(p, "28 rows, 100 columns");
	leave(p);
}

/* What cannot */

static void what_cannot_show_a_screen_is_refused_in_a_sentence(void **state)
{
	static const struct {
		const char *term, *says;
	} cases[] = { { "dumb", "cannot place text" },
		{ "no-such-terminal", "does not know the terminal type" }, { "", "TERM is not set" } };

	(void)state;
	for (size_t i = 0; i < 3; i++) {
		struct pty *p = start_with(cases[i].term, NULL, NULL);
		assert_pty_sees(p, cases[i].says);
		assert_int_equal(pty_end(p), 2);
		assert_true(pty_line_mode(p));
		pty_free(p);
	}
}

static void a_pipe_is_refused_in_a_sentence(void **state)
{
	static const char *const ways[] = { "\"$0\" --child x | cat", "echo | \"$0\" --child x" };

	(void)state;
	for (size_t i = 0; i < 2; i++) {
		const char *argv[] = { "sh", "-c", ways[i], self, NULL };
		struct pty *p = pty_start(&(struct pty_options){ .argv = argv });
		assert_pty_sees(p, "The screen needs a terminal");
		pty_end(p);
		pty_free(p);
	}
}

/* Ends */

static void a_signal_to_end_keeps_the_draft_and_gives_the_terminal_back(void **state)
{
	static const struct {
		int signal, status;
	} cases[] = { { SIGTERM, 143 }, { SIGINT, 130 } };

	(void)state;
	for (size_t i = 0; i < 2; i++) {
		struct pty *p = start(NULL, NULL);
		pty_type(p, "88.1");
		assert_pty_sees(p, "[88.1 ");
		pty_signal(p, cases[i].signal);
		assert_int_equal(pty_end(p), cases[i].status);
		assert_true(pty_line_mode(p));
		assert_non_null(strstr(pty_raw(p), "\033[?1049l")); /* its own screen again */
		assert_string_equal(draft_text(), "4 keys, inclination=88.1 kept\n");
		pty_free(p);
	}
}

static void a_hang_up_keeps_the_draft_and_ends(void **state)
{
	struct pty *p = start(NULL, NULL);

	(void)state;
	pty_type(p, "88.1");
	assert_pty_sees(p, "[88.1 ");
	pty_hang_up(p);
	assert_int_equal(pty_end(p), 129);
	assert_string_equal(draft_text(), "4 keys, inclination=88.1 kept\n");
	pty_free(p);
}

/* With the signal ignored the dead terminal itself must be noticed, and not asked again and again. */
static void a_hang_up_is_noticed_without_its_signal(void **state)
{
	const char *argv[] = { "sh", "-c", "trap '' HUP; exec \"$0\" --child \"$1\"", self, draft, NULL };

	(void)state;
	unlink(draft);
	struct pty *p = pty_start(&(struct pty_options){ .argv = argv });
	assert_pty_sees(p, "? help");
	pty_type(p, "7");
	assert_pty_sees(p, "[7 ");
	pty_hang_up(p);
	assert_int_equal(pty_end(p), 129);
	assert_string_equal(draft_text(), "1 keys, inclination=7 kept\n");
	pty_free(p);
}

static void a_kill_loses_nothing_that_was_typed(void **state)
{
	struct pty *p = start(NULL, NULL);

	(void)state;
	pty_type(p, "88.1");
	assert_pty_sees(p, "[88.1 ");
	pty_signal(p, SIGKILL);
	assert_int_equal(pty_end(p), 137);
	assert_non_null(strstr(draft_text(), "inclination=88.1"));
	pty_free(p);
}

static void a_crash_gives_the_terminal_back(void **state)
{
	struct pty *p = start(NULL, NULL);

	(void)state;
	pty_type(p, "\013");
	assert_int_equal(pty_end(p), 128 + SIGABRT);
	assert_true(pty_line_mode(p));
	assert_non_null(strstr(pty_raw(p), "\033[?1049l"));
	pty_free(p);
}

/* Nobody reads what the program sends: it goes on taking keys and keeping them, or stands in a write that
 * never comes back; and can be ended either way. */
static void a_stalled_link_keeps_what_is_typed_and_can_be_ended(void **state)
{
	struct pty *p = start(NULL, NULL);
	char count[32];
	int keys = 0;

	(void)state;
	pty_resize(p, 200, 100);
	for (bool taken = true; taken && keys < 60; keys++) {
		pty_type(p, "f"); /* every cell changes */
		snprintf(count, sizeof count, "%d keys", keys + 1);
		taken = draft_holds(count, 50);
	}
	pty_signal(p, SIGTERM);
	assert_int_equal(pty_end_unread(p), 143);
	assert_true(pty_line_mode(p));
	snprintf(count, sizeof count, "%d keys", keys - 1);
	assert_true(draft_holds(count, 1) || draft_holds("60 keys", 1));
	pty_free(p);
}

static void stopping_gives_the_terminal_to_the_shell_and_comes_back(void **state)
{
	const char *argv[] = { "bash", "--norc", "--noprofile", "-i", NULL };
	static const char *const env[] = { "PS1=shell> ", NULL };
	char line[700];

	(void)state;
	unlink(draft);
	struct pty *p = pty_start(&(struct pty_options){ .argv = argv, .env = env });
	assert_pty_sees(p, "shell>");
	snprintf(line, sizeof line, "%s --child %s\r", self, draft);
	pty_type(p, line);
	assert_pty_sees(p, "? help");
	pty_type(p, "88");
	assert_pty_sees(p, "[88 ");
	pty_type(p, "\032");
	assert_pty_sees(p, "Stopped");
	pty_type(p, "fg\r");
	assert_pty_sees(p, "[88 ");
	pty_type(p, ".1");
	assert_pty_sees(p, "[88.1 ");
	pty_resize(p, 90, 30);
	assert_pty_sees(p, "28 rows, 90 columns");
	pty_type(p, "\003");
	assert_pty_sees(p, "Leave sagbend?");
	pty_type(p, "y");
	assert_true(pty_loses(p, "Leave sagbend?"));
	pty_type(p, "exit 5\r");
	assert_int_equal(pty_end(p), 5);
	pty_free(p);
}

static void painting_anew_mends_what_something_else_wrote(void **state)
{
	struct pty *p = start(NULL, NULL);

	(void)state;
	pty_drain(p);
	size_t before = pty_bytes(p);
	pty_type(p, "\014");
	pty_drain(p);
	assert_true(pty_bytes(p) - before > 500);
	leave(p);
}

int main(int argc, char **argv)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(it_paints_in_utf8),
		cmocka_unit_test(it_paints_in_ascii_where_the_language_has_nothing_else),
		cmocka_unit_test(a_language_that_is_not_installed_still_gets_its_accents),
		cmocka_unit_test(a_terminal_of_the_vt_family_gets_plain_characters),
		cmocka_unit_test(colours_depend_on_the_terminal_and_on_no_color),
		cmocka_unit_test(a_terminal_of_all_colours_gets_the_same_ones),
		cmocka_unit_test(one_typed_digit_costs_less_than_100_bytes),
		cmocka_unit_test(when_nothing_changes_nothing_is_sent),
		cmocka_unit_test(a_key_of_another_terminal_types_nothing),
		cmocka_unit_test(the_keypad_types_what_is_printed_on_it),
		cmocka_unit_test(keys_come_one_by_one_over_a_slow_link),
		cmocka_unit_test(an_escape_alone_closes),
		cmocka_unit_test(ctrl_s_does_not_freeze_and_ctrl_v_quotes_nothing),
		cmocka_unit_test(names_are_typed_with_their_accents),
		cmocka_unit_test(a_new_size_is_used_at_once),
		cmocka_unit_test(a_new_size_is_painted_from_nothing),
		cmocka_unit_test(lines_and_columns_in_the_environment_are_not_believed),
		cmocka_unit_test(what_cannot_show_a_screen_is_refused_in_a_sentence),
		cmocka_unit_test(a_pipe_is_refused_in_a_sentence),
		cmocka_unit_test(a_signal_to_end_keeps_the_draft_and_gives_the_terminal_back),
		cmocka_unit_test(a_hang_up_keeps_the_draft_and_ends),
		cmocka_unit_test(a_hang_up_is_noticed_without_its_signal),
		cmocka_unit_test(a_kill_loses_nothing_that_was_typed),
		cmocka_unit_test(a_crash_gives_the_terminal_back),
		cmocka_unit_test(a_stalled_link_keeps_what_is_typed_and_can_be_ended),
		cmocka_unit_test(stopping_gives_the_terminal_to_the_shell_and_comes_back),
		cmocka_unit_test(painting_anew_mends_what_something_else_wrote),
	};

	if (argc == 3 && sb_same(argv[1], "--child"))
		return run_child(argv[2]);
	if (readlink("/proc/self/exe", self, sizeof self - 1) < 0)
		return 1;
	snprintf(draft, sizeof draft, "/tmp/term_test.%d", (int)getpid());
	int result = run_tests(tests);
	unlink(draft);
	return result;
}
