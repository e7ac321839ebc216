/* Text in its space, and tables over pages, read back with poppler's pdftotext. */
#include "io/paper_table.h"

#include "io/paper_text.h"
#include "io/scratch.h"

static const struct lettering plain = { FACE_PLAIN, 2.5, HOLD_LEFT, 0, { 0, 0, 0 } };
static struct sb_paper *paper;

static int begin(void **state)
{
	(void)state;
	struct sb_err err = { 0 };
	const struct paper_note note = { .title = "table" };

	if (sb_paper_new(PAPER_PDF, &note, &paper, &err))
		fail_msg("%s", err.text);
	sb_paper_page(paper, 210, 297, NULL);
	return 0;
}

static int tidy(void **state)
{
	(void)state;
	sb_paper_abandon(paper);
	return 0;
}

/* Ends the paper and reads it with pdftotext; to be freed. Another is begun, for tidy. */
static char *read_back(void)
{
	struct sb_str bytes = { 0 };
	struct sb_err err = { 0 };
	char command[PATH_MAX + 64];

	assert_int_equal(sb_paper_end(paper, &bytes, &err), 0);
	snprintf(command, sizeof command, "pdftotext -layout %s",
		scratch_bytes("t.pdf", bytes.text, bytes.length));
	sb_str_clear(&bytes);
	begin(NULL);
	assert_int_equal(system(command), 0); /* NOLINT: our own folder */
	char *text = scratch_read(scratch("t.txt"));
	assert_non_null(text);
	return text;
}

static void lines_are_broken_at_spaces_and_hold_every_word(void **state)
{
	(void)state;
	struct sb_str out = { 0 };
	const char *text = "The bore  is drilled\nfrom the rig side to the exit, and the pipe enters there.";
	double width = sb_paper_width(paper, &plain, "from the rig side");
	size_t lines = sb_paper_break(paper, &plain, width, text, &out);

	assert_string_equal(out.text,
		"The bore is\ndrilled\nfrom the rig side\nto the exit, and\nthe pipe enters\nthere.\n");
	assert_int_equal(lines, 6);
	assert_near(sb_paper_paragraph_high(paper, &plain, width, text), 6 * 2.5 * SB_PAPER_LEADING, 1e-9);
	sb_str_clear(&out);
	assert_int_equal(sb_paper_break(paper, &plain, width, "", &out), 0);
	assert_int_equal(sb_paper_break(paper, &plain, width, "\n\n", &out), 2);
	sb_str_clear(&out);
}

static void a_word_longer_than_a_line_is_broken_between_its_characters(void **state)
{
	(void)state;
	struct sb_str out = { 0 };
	double width = sb_paper_width(paper, &plain, "\xc3\xa4\xc3\xa4\xc3\xa4\xc3\xa4") + 0.01;

	sb_paper_break(paper, &plain, width, "a \xc3\xa4\xc3\xa4\xc3\xa4\xc3\xa4\xc3\xa4\xc3\xa4 b", &out);
	assert_string_equal(out.text, "a\n\xc3\xa4\xc3\xa4\xc3\xa4\xc3\xa4\n\xc3\xa4\xc3\xa4 b\n");
	out.length = 0;
	sb_paper_break(paper, &plain, 0.1, "ab", &out); /* no width at all: a character a line, and an end */
	assert_string_equal(out.text, "a\nb\n");
	sb_str_clear(&out);
}

static void a_line_is_made_smaller_and_then_cut_to_its_space(void **state)
{
	(void)state;
	double whole = sb_paper_width(paper, &plain, "Harrow Bend Gas District");
	struct spot at = { 20, 20 };

	assert_near(sb_paper_text_within(paper, &plain, 1.8, whole + 1, at, "Harrow Bend Gas District"),
		whole, 1e-9);
	at.y = 30; /* at 1.8 of 2.5 mm it would still be too long by a little */
	double cut = sb_paper_text_within(paper, &plain, 1.8, whole * 0.6, at, "Harrow Bend Gas District");
	assert_true(cut <= whole * 0.6 && cut > whole * 0.5);
	at.y = 40;
	assert_near(sb_paper_text_within(paper, &plain, 1.8, whole * 0.8, at, "Harrow Bend Gas Distriqt"),
		whole * 0.8, whole * 0.01);
	at.y = 50;
	sb_paper_text_within(paper, &plain, 1.8, 0.1, at, "Nothing of it");
	char *text = read_back();
	assert_non_null(strstr(text, "Harrow Bend Gas District\n"));
	assert_non_null(strstr(text, "\xe2\x80\xa6"));
	assert_non_null(strstr(text, "Harrow Bend Gas Distriqt"));
	assert_null(strstr(text, "Nothing"));
	free(text);
}

#define ROWS 100
static const struct paper_column columns[] = {
	{ "joint", HOLD_RIGHT, false },
	{ "station\nft", HOLD_RIGHT, false },
	{ "what was said", HOLD_LEFT, true },
};
static char texts[ROWS][2][32];
static const char *cells[ROWS * 3];
static enum row_look looks[ROWS];

static struct paper_table table(void)
{
	for (int i = 0; i < ROWS; i++) {
		snprintf(texts[i][0], sizeof texts[i][0], "%d", i);
		snprintf(texts[i][1], sizeof texts[i][1], "%d+%02d.%d", i / 3, i, i % 10);
		cells[3 * i] = texts[i][0];
		cells[3 * i + 1] = texts[i][1];
		cells[3 * i + 2] = i % 10 == 0
			? "a long word on what happened at this joint, with all that was decided, and by whom, and why, "
			  "so that it must go on in a second line"
			: i % 3 == 0 ? NULL
				     : "as ordered";
		looks[i] = (enum row_look)(i % 3);
	}
	return (struct paper_table){ columns, 3, cells, looks, ROWS, 2, { 0 }, 0 };
}

static void a_table_goes_over_pages_with_its_head_on_each_and_no_row_lost(void **state)
{
	(void)state;
	struct paper_table t = table();
	struct paper box = { 20, 20, 120, 200 };
	size_t row = 0, pages = 0, counted = 0;
	double used, tried;

	sb_paper_table_fit(paper, &t, box.width);
	assert_near(t.widths_mm[0] + t.widths_mm[1] + t.widths_mm[2], 120, 1e-6);
	for (size_t next = 0; next < ROWS; counted++)
		next = sb_paper_table_try(paper, &t, box.height, next, NULL);
	while (row < ROWS) {
		size_t would = sb_paper_table_try(paper, &t, box.height, row, &tried);
		if (pages++ > 0)
			sb_paper_page(paper, 210, 297, NULL);
		row = sb_paper_table(paper, &t, &box, row, &used);
		assert_int_equal(row, would);
		assert_near(used, tried, 1e-9);
		assert_true(used <= 200 + 1e-6);
	}
	assert_int_equal(pages, counted);
	assert_true(pages > 1);
	char *text = read_back();
	for (int i = 0; i < ROWS; i++)
		assert_non_null(strstr(text, texts[i][1]));
	size_t heads = 0;
	for (const char *at = text; (at = strstr(at, "what was said")) != NULL; at++)
		heads++;
	assert_int_equal(heads, pages);
	free(text);
}

static void a_table_without_room_still_ends(void **state)
{
	(void)state;
	struct paper_table t = table();
	struct paper box = { 20, 20, 8, 1 };
	size_t calls = 0;

	sb_paper_table_fit(paper, &t, box.width);
	assert_near(t.widths_mm[0] + t.widths_mm[1] + t.widths_mm[2], 8, 1e-6);
	for (size_t row = 0; row < 5; calls++)
		row = sb_paper_table(paper, &t, &box, row, NULL);
	assert_int_equal(calls, 5);
	t.row_count = 0; /* and one without rows is its head */
	assert_int_equal(sb_paper_table(paper, &t, &box, 0, NULL), 0);
}

int main(void)
{
#define TEST(t) cmocka_unit_test_setup_teardown(t, begin, tidy)
	const struct CMUnitTest tests[] = {
		TEST(lines_are_broken_at_spaces_and_hold_every_word),
		TEST(a_word_longer_than_a_line_is_broken_between_its_characters),
		TEST(a_line_is_made_smaller_and_then_cut_to_its_space),
		TEST(a_table_goes_over_pages_with_its_head_on_each_and_no_row_lost),
		TEST(a_table_without_room_still_ends),
	};
#undef TEST

	return run_tests(tests);
}
