/* The documents say what the program's tables say. */
#include "man/pages.h"

#include "support/near.h"

#include <string.h>

/* The first line that differs, for a test that fails. */
static void say_difference(const char *path, const char *old, const char *new)
{
	int line = 1;

	while (*old && *old == *new) {
		line += *old == '\n';
		old++;
		new ++;
	}
	while (line > 1 && old[-1] != '\n') {
		old--;
		new --;
	}
	print_error("%s line %d is\n\t%.*s\nand by the program's tables it should be\n\t%.*s\n", path, line,
		(int)strcspn(old, "\n"), old, (int)strcspn(new, "\n"), new);
}

static void the_documents_say_what_the_programs_tables_say(void **state)
{
	size_t differ = 0;

	(void)state;
	for (size_t i = 0; pages[i]; i++) {
		struct sb_str old = { 0 }, new = { 0 };
		pages_fill(pages[i], &old, &new);
		if (!sb_same(sb_str_get(&old), sb_str_get(&new))) {
			say_difference(pages[i], sb_str_get(&old), sb_str_get(&new));
			differ++;
		}
		sb_str_clear(&old);
		sb_str_clear(&new);
	}
	if (differ)
		fail_msg("run: make man");
}

static void a_section_that_lost_its_words_is_written_again(void **state)
{
	struct sb_str old = { 0 }, new = { 0 };
	const char *mark = ".\\\" make man: exits\n";

	(void)state;
	pages_fill("man/sagbend.1", &old, &new);
	const char *exits = strstr(sb_str_get(&new), mark);
	assert_non_null(exits);
	assert_non_null(strstr(exits, ".It 75\n"));
	assert_true(strstr(exits, ".It 75\n") < strstr(exits, "make man: end"));
	sb_str_clear(&old);
	sb_str_clear(&new);
}

/* Both ends of a table's words: nothing in them may be taken for a command, and nothing may be lost. */
static void words_of_a_table_are_text_and_nothing_else(void **state)
{
	struct sb_str out = { 0 };

	(void)state;
	mdoc_text(&out, ".Sh is no heading. Nor 'this'. A \\ stays, --by too.");
	assert_string_equal(
		sb_str_get(&out), "\\&.Sh is no heading.\nNor 'this'.\nA \\e stays, \\-\\-by too.\n");
	sb_str_clear(&out);
	mdoc_text(&out,
		"'Quoted' words, so many of them that they take more than one line of the page, marked ! in it.");
	assert_string_equal(sb_str_get(&out),
		"\\&'Quoted' words, so many of them that they take more than one line of the page,\nmarked ! in it.\n");
	sb_str_clear(&out);
	mdoc_text(&out,
		"A line that happens to break after a mark, which would look like an end: so !! goes on.");
	assert_string_equal(sb_str_get(&out),
		"A line that happens to break after a mark, which would look like an end: so !!\\&\ngoes on.\n");
	sb_str_clear(&out);
	mdoc_sentence(&out, "steel or pe");
	assert_string_equal(sb_str_get(&out), "Steel or pe.\n");
	sb_str_clear(&out);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_documents_say_what_the_programs_tables_say),
		cmocka_unit_test(a_section_that_lost_its_words_is_written_again),
		cmocka_unit_test(words_of_a_table_are_text_and_nothing_else),
	};

	return run_tests(tests);
}
