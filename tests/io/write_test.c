/* A result is whole or not there. */
#include "io/write.h"

#include "base/mem.h"
#include "base/str.h"
#include "io/scratch.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <sys/resource.h>

static struct sb_err err;

#define assert_says(words) \
	do { \
		if (strstr(err.text, words) == NULL) \
			fail_msg("'%s' does not say '%s'", err.text, words); \
	} while (0)

static void assert_file(const char *path, const char *want)
{
	char *got = scratch_read(path);

	assert_non_null(got);
	assert_string_equal(got, want);
	free(got);
}

static int tidy(void **state)
{
	(void)state;
	scratch("x");
	scratch_empty();
	return 0;
}

static void a_new_file_holds_all_of_it_and_nothing_lies_beside(void **state)
{
	(void)state;
	char path[PATH_MAX];
	snprintf(path, sizeof path, "%s", scratch("out.csv"));
	struct sb_write *w;
	assert_int_equal(sb_write_begin(path, false, &w, &err), 0);
	sb_write_put(w, "one\n", 4);
	assert_int_equal(access(path, F_OK), -1); /* not there before it is whole */
	sb_write_put(w, "two\n", 4);
	assert_int_equal(sb_write_end(w, &err), 0);
	assert_file(path, "one\ntwo\n");
	assert_int_equal(scratch_count(), 1);
	struct stat s;
	mode_t mask = umask(0);
	umask(mask);
	assert_int_equal(stat(path, &s), 0);
	assert_int_equal(s.st_mode & 0777, 0666 & ~mask);
}

static void much_is_written_in_pieces(void **state)
{
	(void)state;
	char path[PATH_MAX];
	snprintf(path, sizeof path, "%s", scratch("big"));
	size_t size = 300000;
	char *big = malloc(size + 1);
	for (size_t i = 0; i < size; i++)
		big[i] = (char)('a' + i % 26);
	big[size] = '\0';
	assert_int_equal(sb_write_whole(path, false, big, size, &err), 0);
	assert_file(path, big);
	free(big);
}

static void a_file_that_is_there_is_left_as_it_is(void **state)
{
	(void)state;
	const char *path = scratch_text("out.csv", "old");
	struct sb_write *w;
	assert_int_equal(sb_write_begin(path, false, &w, &err), -1);
	assert_int_equal(err.code, SB_EXISTS);
	assert_says("is there already");
	assert_file(path, "old");
	assert_int_equal(sb_write_whole(path, true, "new", 3, &err), 0);
	assert_file(path, "new");
	assert_int_equal(scratch_count(), 1);
}

static void a_file_that_appears_meanwhile_is_left_as_it_is(void **state)
{
	(void)state;
	char path[PATH_MAX];
	snprintf(path, sizeof path, "%s", scratch("out.csv"));
	struct sb_write *w;
	assert_int_equal(sb_write_begin(path, false, &w, &err), 0);
	sb_write_put(w, "mine", 4);
	scratch_text("out.csv", "theirs");
	assert_int_equal(sb_write_end(w, &err), -1);
	assert_says("is there already");
	assert_file(path, "theirs");
	assert_int_equal(scratch_count(), 1);
}

static void an_abandoned_result_leaves_nothing(void **state)
{
	(void)state;
	struct sb_write *w;
	assert_int_equal(sb_write_begin(scratch("out.csv"), false, &w, &err), 0);
	sb_write_put(w, "half", 4);
	sb_write_abandon(w);
	sb_write_abandon(NULL);
	assert_int_equal(scratch_count(), 0);
}

static void folders_missing_folders_and_dangling_links_are_said(void **state)
{
	(void)state;
	struct sb_write *w;
	scratch("x");
	assert_int_equal(sb_write_begin(scratch_folder, true, &w, &err), -1);
	assert_says("is a folder");
	assert_int_equal(sb_write_begin(scratch("none/out.csv"), false, &w, &err), -1);
	assert_int_equal(err.code, SB_MISSING);
	assert_int_equal(sb_write_begin(scratch("out.csv/"), false, &w, &err), -1);
	assert_int_equal(sb_write_begin("", false, &w, &err), -1);
	scratch_text("file", "x");
	assert_int_equal(sb_write_begin(scratch("file/out.csv"), false, &w, &err), -1);
	assert_int_equal(err.code, SB_MISSING);
	assert_int_equal(symlink("nowhere", scratch("link")), 0);
	assert_int_equal(sb_write_begin(scratch("link"), true, &w, &err), -1);
	assert_says("link to a file that is not there");
	assert_int_equal(scratch_count(), 2);
}

static void what_a_link_points_at_is_replaced_and_the_link_stays(void **state)
{
	(void)state;
	struct stat s;
	scratch_text("real", "old");
	assert_int_equal(symlink("real", scratch("link")), 0);
	assert_int_equal(sb_write_whole(scratch("link"), true, "new", 3, &err), 0);
	assert_file(scratch("real"), "new");
	assert_int_equal(lstat(scratch("link"), &s), 0);
	assert_true(S_ISLNK(s.st_mode));
}

static void a_full_disk_is_said(void **state)
{
	(void)state;
	assert_int_equal(sb_write_whole("/dev/full", false, "x", 1, &err), -1);
	assert_int_equal(err.code, SB_FULL);
	assert_says("no room");
	assert_int_equal(sb_write_whole("/dev/null", false, "x", 1, &err), 0);
}

static void a_limit_on_file_sizes_leaves_the_old_file(void **state)
{
	(void)state;
	struct rlimit old, small = { 100, 100 };
	char many[400];
	memset(many, 'x', sizeof many);
	const char *path = scratch_text("out.csv", "old");
	assert_int_equal(getrlimit(RLIMIT_FSIZE, &old), 0);
	small.rlim_max = old.rlim_max;
	signal(SIGXFSZ, SIG_IGN);
	assert_int_equal(setrlimit(RLIMIT_FSIZE, &small), 0);
	int failed = sb_write_whole(path, true, many, sizeof many, &err);
	assert_int_equal(setrlimit(RLIMIT_FSIZE, &old), 0);
	assert_int_equal(failed, -1);
	assert_int_equal(err.code, SB_FULL);
	assert_file(path, "old");
	assert_int_equal(scratch_count(), 1);
}

/* Runs with standard output put elsewhere. */
static int write_to_output(int fd, const char *bytes, size_t length)
{
	fflush(stdout);
	int kept = dup(STDOUT_FILENO);
	assert_true(dup2(fd, STDOUT_FILENO) >= 0);
	int failed = sb_write_whole("-", false, bytes, length, &err);
	assert_true(dup2(kept, STDOUT_FILENO) >= 0);
	close(kept);
	return failed;
}

static void a_closed_pipe_and_a_full_standard_output_are_said(void **state)
{
	(void)state;
	int ends[2];
	char got[8] = "";
	signal(SIGPIPE, SIG_IGN);
	assert_int_equal(pipe(ends), 0);
	assert_int_equal(write_to_output(ends[1], "hello", 5), 0);
	assert_int_equal(read(ends[0], got, sizeof got), 5);
	assert_string_equal(got, "hello");
	close(ends[0]);
	assert_int_equal(write_to_output(ends[1], "hello", 5), -1);
	assert_says("Nobody reads 'standard output'");
	close(ends[1]);
	int full = open("/dev/full", O_WRONLY);
	assert_int_equal(write_to_output(full, "hello", 5), -1);
	assert_int_equal(err.code, SB_FULL);
	assert_says("Not all of it was written");
	close(full);
}

static void a_folder_that_may_not_be_written_is_said(void **state)
{
	(void)state;
	struct sb_write *w;
	if (geteuid() == 0) {
		/* root may write anywhere but where nobody can */
		assert_int_equal(sb_write_begin("/proc/sagbend.csv", false, &w, &err), -1);
		assert_int_equal(err.code, SB_MISSING);
		return;
	}
	assert_int_equal(mkdir(scratch("locked"), 0500), 0);
	assert_int_equal(sb_write_begin(scratch("locked/out.csv"), false, &w, &err), -1);
	assert_int_equal(err.code, SB_DENIED);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test_teardown(a_new_file_holds_all_of_it_and_nothing_lies_beside, tidy),
		cmocka_unit_test_teardown(much_is_written_in_pieces, tidy),
		cmocka_unit_test_teardown(a_file_that_is_there_is_left_as_it_is, tidy),
		cmocka_unit_test_teardown(a_file_that_appears_meanwhile_is_left_as_it_is, tidy),
		cmocka_unit_test_teardown(an_abandoned_result_leaves_nothing, tidy),
		cmocka_unit_test_teardown(folders_missing_folders_and_dangling_links_are_said, tidy),
		cmocka_unit_test_teardown(what_a_link_points_at_is_replaced_and_the_link_stays, tidy),
		cmocka_unit_test_teardown(a_full_disk_is_said, tidy),
		cmocka_unit_test_teardown(a_limit_on_file_sizes_leaves_the_old_file, tidy),
		cmocka_unit_test_teardown(a_closed_pipe_and_a_full_standard_output_are_said, tidy),
		cmocka_unit_test_teardown(a_folder_that_may_not_be_written_is_said, tidy),
	};

	return run_tests(tests);
}
