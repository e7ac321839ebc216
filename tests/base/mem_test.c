/* Memory that is there or ends the program, with the terminal put right first. */
#include "base/mem.h"

#include "support/near.h"

#include <stdint.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

static void new_memory_is_empty(void **state)
{
	unsigned char *p = sb_alloc(4096);

	(void)state;
	for (size_t i = 0; i < 4096; i++)
		assert_int_equal(p[i], 0);
	sb_free(p);
	p = sb_alloc(0);
	assert_non_null(p);
	sb_free(p);
	sb_free(NULL);
}

static void a_copy_of_text_is_its_own(void **state)
{
	char text[] = "Tern Slough";
	char *copy = sb_strdup(text), *empty = sb_strdup("");

	(void)state;
	text[0] = 'F';
	assert_string_equal(copy, "Tern Slough");
	assert_string_equal(empty, "");
	sb_free(copy);
	sb_free(empty);
}

static void an_array_grows_seldom_and_keeps_what_it_holds(void **state)
{
	struct item {
		int number;
		char rest[20];
	} *list = NULL;
	size_t room = 0, moves = 0;

	(void)state;
	for (size_t i = 0; i < 10000; i++) {
		size_t before = room;
		list = sb_grow(list, i, &room, sizeof *list);
		assert_true(room > i);
		moves += room != before;
		for (size_t k = 0; k < sizeof list[i]; k++)
			assert_int_equal(((const char *)&list[i])[k], 0);
		list[i].number = (int)i;
		memset(list[i].rest, 'x', sizeof list[i].rest);
	}
	assert_true(moves <= 12);
	for (int i = 0; i < 10000; i++)
		assert_int_equal(list[i].number, i);
	assert_ptr_equal(sb_grow(list, 9999, &room, sizeof *list), list);
	sb_free(list);
}

/* ---- the end ---- */

static void restore(void)
{
	fputs("restored. ", stderr);
}

static void grow_beyond_all_memory(void)
{
	size_t room = SIZE_MAX / 16;

	sb_grow(NULL, room, &room, 8);
}

static void grow_where_doubling_would_wrap(void)
{
	size_t room = SIZE_MAX / 2 + 1;

	sb_grow(NULL, room, &room, 1);
}

#ifndef __SANITIZE_ADDRESS__ /* which ends the program itself, in its own words */
static void ask_for_too_much(void)
{
	volatile size_t size = SIZE_MAX / 2;

	sb_free(sb_alloc(size));
}
#endif

/* Runs it in a child; returns its exit status, and what it said. */
static int end_of(void (*ask)(void), char *said, size_t size)
{
	int pipes[2], status;
	size_t used = 0;

	assert_int_equal(pipe(pipes), 0);
	pid_t child = fork();
	assert_true(child >= 0);
	if (child == 0) {
		dup2(pipes[1], 2);
		sb_mem_hook(restore);
		ask();
		_exit(0);
	}
	close(pipes[1]);
	for (ssize_t got; (got = read(pipes[0], said + used, size - 1 - used)) > 0;)
		used += (size_t)got;
	said[used] = '\0';
	close(pipes[0]);
	assert_int_equal(waitpid(child, &status, 0), child);
	assert_true(WIFEXITED(status));
	return WEXITSTATUS(status);
}

static void without_memory_it_restores_the_terminal_says_so_and_ends(void **state)
{
	static void (*const asks[])(void) = {
		grow_beyond_all_memory,
		grow_where_doubling_would_wrap,
#ifndef __SANITIZE_ADDRESS__
		ask_for_too_much,
#endif
	};

	(void)state;
	for (size_t i = 0; i < sizeof asks / sizeof *asks; i++) {
		char said[400];
		assert_int_equal(end_of(asks[i], said, sizeof said), 71);
		assert_string_equal(said,
			"restored. sagbend: this machine has no memory left. Everything acknowledged is in the "
			"job file.\n");
	}
}

static const struct CMUnitTest tests[] = {
	cmocka_unit_test(new_memory_is_empty),
	cmocka_unit_test(a_copy_of_text_is_its_own),
	cmocka_unit_test(an_array_grows_seldom_and_keeps_what_it_holds),
	cmocka_unit_test(without_memory_it_restores_the_terminal_says_so_and_ends),
};

int main(void)
{
	return run_tests(tests);
}
