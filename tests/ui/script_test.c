/* The little language of tests/screens: that it plays, and that what is wrong in a file is found. */
#include "support/near.h"
#include "support/script.h"
#include "support/tiny.h"

#include "base/time.h"
#include "ui/everywhere.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static int ended;

static void begin(struct script *s, const char *word, void *context)
{
	struct app_options o = { .who = "A. Hand", .everywhere = sb_everywhere, .first = &tiny_screen };

	(void)context;
	assert_string_equal(word, "tiny");
	setenv("TZ", "UTC", 1);
	sb_time_freeze(INT64_C(1795596720000));
	script_start(s, &o);
}

static void end(struct script *s, void *context)
{
	(void)s;
	(void)context;
	ended++;
}

static int play_text(const char *text)
{
	char path[] = "/tmp/script_test.XXXXXX";
	int fd = mkstemp(path);
	FILE *file = fdopen(fd, "w");

	assert_non_null(file);
	fputs(text, file);
	fclose(file);
	int result = script_play(path, begin, end, NULL);
	unlink(path);
	return result;
}

static void the_tiny_screen_plays(void **state)
{
	(void)state;
	assert_int_equal(script_play("tests/screens/tiny.scr", begin, end, NULL), 0);
	assert_int_equal(ended, 1);
}

static void each_expectation_can_fail(void **state)
{
	static const char *const wrong[] = {
		"",
		"size 80 24\n",
		"start tiny\nrow 0 \"Tiny\"\n",
		"start tiny\nrow 99 \"\"\n",
		"start tiny\nsee \"no such words\"\n",
		"start tiny\nnot \"Tiny\"\n",
		"start tiny\nstyle \"Tiny\" breach\n",
		"start tiny\nstyle \"no such words\" plain\n",
		"start tiny\ncursor 0 0\n",
		"start tiny\ncursor none\n",
		"start tiny\nover 0\n",
		"start tiny\nkeys Q Y\nover 1\n",
		"start tiny\nsee no quotes\n",
		"start tiny\nsee \"not closed\n",
		"start tiny\nlook \"Tiny\"\n",
		"start tiny\ntheme day\n",
		"start tiny\ndo something\n",
		"start tiny\nsize 90 30\n",
		"keys 8 8\nstart tiny\n",
	};

	(void)state;
	for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++)
		if (play_text(wrong[i]) == 0)
			fail_msg("passed, and should not: %s", wrong[i]);
}

static void a_file_that_is_not_there_is_a_failure(void **state)
{
	(void)state;
	assert_int_equal(script_play("tests/screens/none.scr", begin, end, NULL), -1);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_tiny_screen_plays),
		cmocka_unit_test(each_expectation_can_fail),
		cmocka_unit_test(a_file_that_is_not_there_is_a_failure),
	};
	return run_tests(tests);
}
