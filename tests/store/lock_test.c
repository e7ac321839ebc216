/* One writer: the lock goes with its process, and what stands in its file does no harm. */
#include "store/book.h"
#include "store/lock.h"

#include <signal.h>
#include <sys/wait.h>

static int take(const char *who, struct sb_lock **out)
{
	return sb_lock_take(book_path(), who, out, &book_err);
}

static void the_lock_file_says_who_and_goes_away(void **state)
{
	(void)state;
	struct sb_lock *lock;
	scratch("");
	must(take("Ida", &lock));
	char *text = scratch_read(scratch("tern.bore.lock"));
	assert_non_null(strstr(text, "who=Ida\n"));
	assert_non_null(strstr(text, "pid="));
	assert_non_null(strstr(text, "host="));
	assert_non_null(strstr(text, "since=2"));
	free(text);
	sb_lock_drop(lock);
	assert_int_equal(scratch_count(), 0);
	sb_lock_drop(NULL);
}

static void what_a_killed_program_left_does_no_harm(void **state)
{
	(void)state;
	struct sb_lock *lock, *second;
	int ready[2];
	assert_int_equal(pipe(ready), 0);
	pid_t child = fork();
	if (child == 0) {
		char done = take("Jo", &lock) ? 'n' : 'y';
		(void)!write(ready[1], &done, 1);
		pause();
		_exit(0);
	}
	char done = 'n';
	assert_int_equal(read(ready[0], &done, 1), 1);
	assert_int_equal(done, 'y');
	refused(take("Ida", &lock), SB_BUSY);
	assert_non_null(strstr(book_err.text, "Jo has"));
	kill(child, SIGKILL);
	waitpid(child, NULL, 0);
	assert_int_equal(access(scratch("tern.bore.lock"), F_OK), 0);
	must(take("Ida", &lock));
	refused(take("Uma", &second), SB_BUSY);
	assert_non_null(strstr(book_err.text, "Ida has"));
	sb_lock_drop(lock);
	close(ready[0]);
	close(ready[1]);
}

static void rubbish_in_the_lock_file_is_made_harmless(void **state)
{
	(void)state;
	static const char *const rubbish[] = {
		"", "\n\n\n", "who=", "who=\x1b[2J\xff\xfe\nsince=yesterday\npid",
		"no equals sign at all but a long line that goes on and on and on and on and on and on and on"
	};
	struct sb_lock *lock;
	for (size_t i = 0; i < sizeof rubbish / sizeof *rubbish; i++) {
		scratch_text("tern.bore.lock", rubbish[i]);
		must(take("Ida", &lock));
		scratch_text("tern.bore.lock", rubbish[i]);
		struct sb_lock *second;
		refused(take("Jo", &second), SB_BUSY);
		assert_null(strchr(book_err.text, '\x1b'));
		assert_true(sb_utf8_valid(book_err.text, strlen(book_err.text)));
		sb_lock_drop(lock);
	}
}

static void something_else_in_the_place_of_the_lock_file_is_refused(void **state)
{
	(void)state;
	struct sb_lock *lock;
	scratch_empty();
	assert_int_equal(mkfifo(scratch("tern.bore.lock"), 0600), 0);
	refused(take("Ida", &lock), SB_STATE);
	scratch_empty();
	assert_int_equal(symlink("/etc/passwd", scratch("tern.bore.lock")), 0);
	refused(take("Ida", &lock), SB_DENIED);
	scratch_empty();
	refused(sb_lock_take(scratch("nowhere/tern.bore"), "Ida", &lock, &book_err), SB_MISSING);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_lock_file_says_who_and_goes_away),
		cmocka_unit_test(what_a_killed_program_left_does_no_harm),
		cmocka_unit_test(rubbish_in_the_lock_file_is_made_harmless),
		cmocka_unit_test(something_else_in_the_place_of_the_lock_file_is_refused),
	};

	return run_tests(tests);
}
