/* The shipped program in a pseudo-terminal, from the first joint to the reopened file. */
#include "store/backup.h"
#include "support/files.h"
#include "support/jobs.h"
#include "support/near.h"
#include "support/pty.h"

#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static struct files files;

static int setup(void **state)
{
	(void)state;
	files_make(&files, jobs_plain, 0);
	return 0;
}

static int teardown(void **state)
{
	(void)state;
	files_remove(&files);
	return 0;
}

static struct pty *start_in(const char *term, const char *lang, const char *option)
{
	const char *program = getenv("SAGBEND");
	const char *const argv[] = { program ? program : "build/sagbend", "open", files.job, "--by", "Ida",
		option, NULL };

	return pty_start(&(struct pty_options){ .argv = argv, .term = term, .lang = lang });
}

static struct pty *start(void)
{
	return start_in("xterm-256color", "C.UTF-8", NULL);
}

/* Types one joint and waits until the screen says that it is on disk. */
static void log_joint(struct pty *p, const char *inclination, const char *azimuth, const char *said)
{
	pty_type(p, inclination);
	pty_type(p, "\r");
	pty_type(p, azimuth);
	pty_type(p, "\r");
	assert_pty_sees(p, said);
}

static size_t joints_on_disk(void)
{
	struct verify_report report = { 0 };
	struct sb_store *store = NULL;
	struct sb_err err = { 0 };

	assert_int_equal(sb_store_verify(files.job, &report, &err), 0);
	assert_int_equal(report.damages, 0);
	sb_verify_report_clear(&report);
	assert_int_equal(sb_store_open(files.job, STORE_READ, "", &store, &err), 0);
	size_t count = sb_store_job(store)->joint_count;
	sb_store_close(store);
	return count;
}

static void a_shift_from_start_to_reopening(void **state)
{
	struct pty *p = start();

	(void)state;
	assert_pty_sees(p, "No joint yet");
	log_joint(p, "80.0", "90.0", "Joint 1 is on disk");
	log_joint(p, "80.1", "90.2", "Joint 2 is on disk");
	log_joint(p, "77.2", "90.0", "Joint 3 is on disk");
	log_joint(p, "74.0", "90.0", "Joint 4 is on disk");
	log_joint(p, "72.0", "90.0", "Joint 5 is on disk");
	assert_pty_sees(p, "breach");
	/* A slip of the pen is held, and the likely value offered. */
	pty_type(p, "27.4\r90.0\r");
	assert_pty_sees(p, "looks like a slip");
	assert_pty_sees(p, "put 72.4 in");
	pty_type(p, "\r");
	assert_pty_sees(p, "[72.4");
	pty_type(p, "\r");
	assert_pty_sees(p, "Joint 6 is on disk");
	/* Too small a window says so and loses nothing; half a reading is typed meanwhile. */
	pty_type(p, "73");
	assert_pty_sees(p, "[73");
	pty_resize(p, 60, 20);
	assert_pty_sees(p, "Needs 80 x 24");
	pty_resize(p, 100, 30);
	assert_pty_sees(p, "[73");
	/* The line goes dead. */
	pty_hang_up(p);
	assert_int_equal(pty_end(p), 129);
	pty_free(p);
	assert_int_equal(joints_on_disk(), 6);
	p = start();
	assert_pty_sees(p, "What was half typed for joint 7");
	assert_pty_sees(p, "[73");
	pty_type(p, ".5\r90.1\r");
	assert_pty_sees(p, "Joint 7 is on disk");
	pty_type(p, "qy");
	assert_int_equal(pty_end(p), 0);
	assert_true(pty_line_mode(p));
	pty_free(p);
	assert_int_equal(joints_on_disk(), 7);
}

static void a_kill_in_the_middle_of_a_reading_loses_nothing(void **state)
{
	struct pty *p = start();

	(void)state;
	log_joint(p, "80.0", "90.0", "Joint 1 is on disk");
	pty_type(p, "80.3\r90.4");
	assert_pty_sees(p, "logs it: bit");
	pty_signal(p, SIGKILL);
	assert_int_equal(pty_end(p), 128 + SIGKILL);
	pty_free(p);
	p = start();
	assert_pty_sees(p, "What was half typed for joint 2");
	assert_pty_sees(p, "[90.4");
	pty_free(p);
	assert_int_equal(joints_on_disk(), 1);
}

static void the_draft_of_a_joint_that_was_logged_after_all_does_not_come_back(void **state)
{
	struct pty *p = start();

	(void)state;
	log_joint(p, "80.0", "90.0", "Joint 1 is on disk");
	pty_free(p);
	p = start();
	assert_pty_sees(p, "joint 2");
	assert_pty_sees(p, "Type inclination");
	pty_free(p);
}

static void a_second_person_looks_on_and_sees_what_is_logged(void **state)
{
	struct pty *first = start(), *second;

	(void)state;
	assert_pty_sees(first, "No joint yet");
	second = start();
	assert_pty_sees(second, "You are looking on");
	assert_pty_sees(second, "Ida");
	log_joint(first, "80.0", "90.0", "Joint 1 is on disk");
	assert_pty_sees(second, "joint 2");
	pty_type(second, "80.0\r90.0\r");
	assert_pty_sees(second, "Nothing was logged");
	pty_free(second);
	pty_free(first);
	assert_int_equal(joints_on_disk(), 1);
}

static void it_works_without_colour_and_without_utf8(void **state)
{
	(void)state;
	static const char *const terms[][2] = { { "vt100", "C" }, { "xterm", "C" }, { "linux", "C.UTF-8" },
		{ "screen", "C.UTF-8" } };
	for (size_t i = 0; i < 4; i++) {
		struct pty *p = start_in(terms[i][0], terms[i][1], NULL);
		assert_pty_sees(p, "incl [");
		pty_type(p, "?");
		assert_pty_sees(p, "Every row is on disk");
		pty_type(p, "q");
		assert_pty_sees(p, "incl [");
		pty_free(p);
	}
}

static struct pty *start_remembering(const char *term, const char *colour, const char *option)
{
	static char state[128], no_colour[32];
	const char *program = getenv("SAGBEND");
	const char *const argv[] = { program ? program : "build/sagbend", "open", files.job, "--by", "Ida",
		option, NULL };
	const char *const env[] = { state, no_colour, NULL };

	snprintf(state, sizeof state, "XDG_STATE_HOME=%s", files.folder);
	snprintf(no_colour, sizeof no_colour, "NO_COLOR=%s", colour);
	return pty_start(&(struct pty_options){ .argv = argv, .term = term, .env = env });
}

/* The ground of a daylight screen is sent as colour 255 of the palette, that of the night as 16. */
static void colours_and_characters_are_as_they_were_chosen_last(void **state)
{
	char path[160];

	(void)state;
	struct pty *p = start_remembering("xterm-256color", "", NULL);
	assert_pty_sees(p, "No joint yet");
	assert_pty_sees(p, "─ profile");
	assert_null(strstr(pty_raw(p), "48;5;255"));
	pty_type(p, "d");
	assert_pty_sees(p, "Colours: day.");
	pty_type(p, "g");
	assert_pty_sees(p, "- profile");
	pty_type(p, "qy");
	assert_int_equal(pty_end(p), 0);
	pty_free(p);
	p = start_remembering("xterm-256color", "", NULL);
	assert_pty_sees(p, "- profile");
	assert_non_null(strstr(pty_raw(p), "48;5;255"));
	pty_free(p);
	p = start_remembering("xterm-256color", "", "--theme=night"); /* for once */
	assert_pty_sees(p, "- profile");
	assert_null(strstr(pty_raw(p), "48;5;255"));
	pty_free(p);
	/* another terminal has another font; and who wants no colours gets none */
	p = start_remembering("tmux-256color", "1", NULL);
	assert_pty_sees(p, "─ profile");
	assert_null(strstr(pty_raw(p), "48;5;"));
	pty_free(p);
	snprintf(path, sizeof path, "%s/sagbend/screen", files.folder);
	assert_int_equal(unlink(path), 0);
	snprintf(path, sizeof path, "%s/sagbend", files.folder);
	assert_int_equal(rmdir(path), 0);
}

static void a_terminal_that_cannot_place_text_is_refused_in_a_sentence(void **state)
{
	struct pty *p = start_in("dumb", "C.UTF-8", NULL);

	(void)state;
	int status = pty_end(p);
	assert_true(status >= 64 && status < 128);
	assert_non_null(strstr(pty_raw(p), "sagbend:"));
	pty_free(p);
}

static const struct CMUnitTest tests[] = {
	cmocka_unit_test_setup_teardown(a_shift_from_start_to_reopening, setup, teardown),
	cmocka_unit_test_setup_teardown(a_kill_in_the_middle_of_a_reading_loses_nothing, setup, teardown),
	cmocka_unit_test_setup_teardown(
		the_draft_of_a_joint_that_was_logged_after_all_does_not_come_back, setup, teardown),
	cmocka_unit_test_setup_teardown(a_second_person_looks_on_and_sees_what_is_logged, setup, teardown),
	cmocka_unit_test_setup_teardown(colours_and_characters_are_as_they_were_chosen_last, setup, teardown),
	cmocka_unit_test_setup_teardown(it_works_without_colour_and_without_utf8, setup, teardown),
	cmocka_unit_test_setup_teardown(
		a_terminal_that_cannot_place_text_is_refused_in_a_sentence, setup, teardown),
};

int main(void)
{
	return run_tests(tests);
}
