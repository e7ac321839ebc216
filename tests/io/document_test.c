/* Documents: blocks as text. */
#include "io/document.h"

#include "support/near.h"

#include <string.h>

static struct document d;
static struct sb_str text;

static int begin(void **state)
{
	(void)state;
	sb_document_begin(&d, &(struct document_head){ .title = "A report", .running = "Level Meadow" });
	return 0;
}

static int tidy(void **state)
{
	(void)state;
	sb_document_clear(&d);
	sb_str_clear(&text);
	return 0;
}

/* The document as text, each line of it no longer than the page and without blanks at its end. */
static const char *written(void)
{
	text.length = 0;
	sb_document_text(&d, &text);
	for (const char *at = text.text; *at;) {
		char line[400];
		size_t length = strcspn(at, "\n");
		snprintf(line, sizeof line, "%.*s", (int)length, at);
		if (sb_utf8_columns(line) > SB_DOCUMENT_COLUMNS || (length && line[length - 1] == ' '))
			fail_msg("'%s' in:\n%s", line, text.text);
		assert_int_equal(at[length], '\n');
		at += length + 1;
	}
	return text.text;
}

#define assert_is(wanted) assert_string_equal(written(), wanted)

static void every_kind_of_block_has_its_shape(void **state)
{
	(void)state;
	static const struct table_column columns[] = { { "joint", TABLE_FIGURES },
		{ "survey depth", TABLE_FIGURES }, { "remarks", TABLE_WORDS } };
	sb_document_heading(&d, "1. What was drilled");
	sb_document_paragraph(&d, "To %d joints.", 2);
	sb_document_pair(&d, "length", "%.2f m", 20.5);
	sb_document_pair(&d, "nothing", "%s", "");
	sb_document_pair(&d, "datum", "%s", "site");
	sb_document_subheading(&d, "Joints");
	sb_document_table(&d, columns, 3);
	for (int i = 9; i <= 10; i++) {
		sb_document_cell(&d, "%d", i);
		sb_document_cell(&d, "%.2f", 10.25 * i);
		sb_document_cell(&d, "%s", i == 9 ? "sandy" : "");
	}
	sb_document_page(&d);
	sb_document_sign(&d, "The engineer");
	assert_is("A report\n"
		  "========\n"
		  "\n"
		  "\n"
		  "1. What was drilled\n"
		  "===================\n"
		  "\n"
		  "To 2 joints.\n"
		  "\n"
		  "length  20.50 m\n"
		  "datum   site\n"
		  "\n"
		  "Joints\n"
		  "------\n"
		  "\n"
		  "joint  survey  remarks\n"
		  "        depth\n"
		  "----------------------\n"
		  "    9   92.25  sandy\n"
		  "   10  102.50\n"
		  "\n"
		  "\n"
		  "\n"
		  "  "
		  "________________________________________________________"
		  "  __________________\n"
		  "  The engineer                                              date\n");
}

static void a_mark_stands_under_the_title(void **state)
{
	(void)state;
	sb_document_clear(&d);
	sb_document_begin(
		&d, &(struct document_head){ .title = "A report", .mark = "REHEARSAL: nothing was drilled" });
	sb_document_paragraph(&d, "one");
	assert_is("A report\n========\nREHEARSAL: nothing was drilled\n\none\n");
}

static void a_table_without_rows_is_not_shown(void **state)
{
	(void)state;
	static const struct table_column columns[] = { { "joint", TABLE_FIGURES } };
	sb_document_paragraph(&d, "one");
	sb_document_table(&d, columns, 1);
	assert_is("A report\n========\n\none\n");
}

/* Words share what figures leave; every word of a cell is there. */
static void words_share_what_figures_leave(void **state)
{
	(void)state;
	static const struct table_column columns[] = { { "joint", TABLE_FIGURES }, { "why", TABLE_WORDS },
		{ "what was done about it then", TABLE_WORDS } };
	static const char why[] =
		"read again after the string had stood still for a minute and the field was "
		"steady, as the second reading shows";
	sb_document_table(&d, columns, 3);
	sb_document_cell(&d, "1234567");
	sb_document_cell(&d, "%s", why);
	sb_document_cell(&d, "%s", why);
	written();
	char copy[sizeof why];
	strcpy(copy, why);
	for (char *word = strtok(copy, " "); word; word = strtok(NULL, " ")) {
		const char *first = strstr(text.text, word);
		assert_non_null(first);
		assert_non_null(strstr(first + 1, word));
	}
	assert_non_null(strstr(text.text, "1234567  read again"));
}

static void hostile_texts_stay_inside_the_page(void **state)
{
	(void)state;
	static const struct table_column columns[] = { { "a", TABLE_WORDS }, { "b", TABLE_WORDS } };
	char lang[600];
	for (size_t i = 0; i + 2 < sizeof lang; i += 2)
		memcpy(lang + i, "\xC3\xA4\0", 3);
	lang[598] = '\0';
	sb_document_heading(&d, "%s", lang);
	sb_document_paragraph(&d, "%s", lang);
	sb_document_paragraph(&d, "two\nlines \x1B[2J");
	sb_document_pair(&d, "key", "%s", lang);
	sb_document_table(&d, columns, 2);
	sb_document_cell(&d, "%s", lang);
	sb_document_cell(&d, "%s", lang);
	written();
	assert_null(strchr(text.text, '\x1B'));
	assert_true(sb_utf8_valid(text.text, text.length));
}

int main(void)
{
#define T(f) cmocka_unit_test_setup_teardown(f, begin, tidy)
	const struct CMUnitTest tests[] = {
		T(every_kind_of_block_has_its_shape),
		T(a_mark_stands_under_the_title),
		T(a_table_without_rows_is_not_shown),
		T(words_share_what_figures_leave),
		T(hostile_texts_stay_inside_the_page),
	};

	return run_tests(tests);
}
