/* Entries from files: which sort they are, what is refused by line and column, and that a broken file is
 * never more than a message. */
#include "io/entries.h"

#include "io/scratch.h"
#include "support/jobs.h"

static const enum act_kind string_acts[] = { ACT_PIPE, ACT_PIPE_RECORD };
static struct job job;
static struct entries entries;
static struct sb_problems problems;

static int begin(void **state)
{
	(void)state;
	jobs_plain(&job);
	return 0;
}

static int tidy(void **state)
{
	(void)state;
	sb_entries_clear(&entries);
	sb_problems_clear(&problems);
	sb_job_clear(&job);
	return 0;
}

static int read_bytes(const char *text, size_t length)
{
	const char *path = scratch("e.csv");
	FILE *f = fopen(path, "wb");

	assert_non_null(f);
	assert_int_equal(fwrite(text, 1, length, f), length);
	fclose(f);
	sb_entries_clear(&entries);
	sb_problems_clear(&problems);
	return sb_entries_read(path, &job, string_acts, 2, &entries, &problems);
}

static int read_text(const char *text)
{
	return read_bytes(text, strlen(text));
}

static void assert_problem(size_t i, int line, const char *column, const char *words)
{
	assert_true(i < problems.count);
	const struct sb_problem *p = &problems.list[i];
	if (p->line != line || strcmp(p->column, column) != 0 || strstr(p->text, words) == NULL)
		fail_msg("line %d, %s: %s", p->line, p->column, p->text);
}

static void the_header_tells_which_sort_it_is(void **state)
{
	(void)state;
	assert_int_equal(read_text("Mark,LENGTH,Joint\r\nH 1,40.10,1\r\n,40.2,2\r\n"), 0);
	assert_int_equal(entries.act, ACT_PIPE);
	assert_int_equal(entries.count, 2);
	assert_string_equal(entries.list[0].fact.pipe.length.text, "40.10");
	assert_string_equal(entries.list[0].fact.pipe.mark, "H 1");
	assert_int_equal(entries.list[1].line, 3);
	assert_int_equal(read_text("outcome,kind,remarks\ngood,drag,40 ft\n"), 0);
	assert_int_equal(entries.act, ACT_PIPE_RECORD);
	assert_int_equal(entries.list[0].fact.pipe_record.kind, RECORD_DRAG);
	assert_string_equal(entries.list[0].remarks, "40 ft");
}

/* Each row is looked at as if those before it had been entered: welds need the joints that the job has. */
static void rows_are_held_against_the_job_and_the_rows_before(void **state)
{
	(void)state;
	assert_int_equal(read_text("joint,length\n1,40\n1,41\n3,40\n2,39\n"), -1);
	assert_int_equal(problems.errors, 1); /* what comes behind it may be right once it is mended */
	assert_problem(0, 3, "", "Joint 1 is in the string already: to change it");
	assert_int_equal(read_text("joint,length\n1,40\n3,40\n"), -1);
	assert_problem(0, 3, "", "Joint 3 would leave a gap: joint 2 is next");
	assert_int_equal(entries.count, 0);
	assert_int_equal(job.pipe_count, 0);
	assert_int_equal(read_text("kind,joint,outcome\nweld,1,good\n"), -1);
	assert_problem(0, 2, "", "There is no weld 1");
}

static void what_spreadsheets_write_is_understood_and_nothing_is_guessed(void **state)
{
	(void)state;
	assert_int_equal(read_text("\xEF\xBB\xBFjoint;length\n1;40,25\n"), 0);
	assert_near(entries.list[0].fact.pipe.length.value, 40.25, 1e-12);
	assert_int_equal(read_text("joint,length\n1,\"1,234.5\"\n"), -1);
	assert_problem(0, 2, "length", "a comma and a point");
	assert_int_equal(read_text("joint,length\n1,forty\n"), -1);
	assert_int_equal(read_text("joint,length\n1,\n"), -1);
	assert_problem(0, 2, "length", "nothing is written here");
	assert_int_equal(read_text("joint,length\n1.5,40\n"), -1);
	assert_problem(0, 2, "joint", "not a whole number");
}

static void columns_that_are_missing_or_misspelt_are_named(void **state)
{
	(void)state;
	assert_int_equal(read_text("joint,lenght\n1,40\n"), -1);
	assert_problem(0, 0, "length", "the column 'length' is missing");
	assert_problem(1, 0, "lenght", "'length' is probably meant");
	assert_int_equal(read_text("joint,length,weather\n1,40,fair\n"), 0);
	assert_problem(0, 0, "weather", "is not used");
	assert_int_equal(read_text(""), -1);
	assert_int_equal(read_text("joint,length\n"), 0);
	assert_int_equal(entries.count, 0);
}

static void words_that_are_too_long_are_refused(void **state)
{
	(void)state;
	char text[1200];
	char long_words[600];

	memset(long_words, 'w', sizeof long_words - 1);
	long_words[sizeof long_words - 1] = '\0';
	snprintf(text, sizeof text, "joint,length,remarks\n1,40,%s\n", long_words);
	assert_int_equal(read_text(text), -1);
	assert_problem(0, 2, "remarks", "too long: 255 bytes fit");
	snprintf(text, sizeof text, "joint,length,mark\n1,40,%s\n", long_words);
	assert_int_equal(read_text(text), -1);
	assert_problem(0, 2, "mark", "at most 127 characters");
}

/* Cut anywhere, or with any byte spoilt, the file is read or refused with a sentence. */
static void a_broken_file_is_never_more_than_a_message(void **state)
{
	(void)state;
	static const char text[] =
		"kind,joint,outcome,pressure,hours,reference,remarks\ntest,,good,1500,8,\"T-4, \"\"held\"\"\",ok\ndrag,0,bad,,,D,x\n";
	char spoilt[sizeof text];

	for (size_t length = 0; length < sizeof text; length++)
		if (read_bytes(text, length))
			assert_true(problems.errors > 0);
	for (size_t at = 0; at < sizeof text - 1; at++)
		for (int byte = 0; byte < 256; byte += 51) {
			memcpy(spoilt, text, sizeof text);
			spoilt[at] = (char)byte;
			if (read_bytes(spoilt, sizeof text - 1))
				assert_true(problems.errors > 0);
		}
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, begin, tidy)

int main(void)
{
	const struct CMUnitTest tests[] = {
		TEST(the_header_tells_which_sort_it_is),
		TEST(rows_are_held_against_the_job_and_the_rows_before),
		TEST(what_spreadsheets_write_is_understood_and_nothing_is_guessed),
		TEST(columns_that_are_missing_or_misspelt_are_named),
		TEST(words_that_are_too_long_are_refused),
		TEST(a_broken_file_is_never_more_than_a_message),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
