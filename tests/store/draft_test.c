/* What is half typed comes back, whatever was typed and whatever happened to the file. */
#include "store/book.h"
#include "store/draft.h"

static struct draft sample(void)
{
	struct draft d = { .leg = 2, .joint = 41, .at_ms = 1764060592123 };

	sb_copy(d.fields[0].name, sizeof d.fields[0].name, "inclination");
	sb_copy(d.fields[0].text, sizeof d.fields[0].text, "88.");
	sb_copy(d.fields[1].name, sizeof d.fields[1].name, "remarks");
	sb_copy(d.fields[1].text, sizeof d.fields[1].text, "lost = \\returns\\\nend\r\n=Büchse ");
	sb_copy(d.fields[2].name, sizeof d.fields[2].name, "azimuth");
	d.count = 3;
	return d;
}

static void same(const struct draft *a, const struct draft *b)
{
	assert_int_equal(a->leg, b->leg);
	assert_int_equal(a->joint, b->joint);
	assert_true(a->at_ms == b->at_ms);
	assert_int_equal(a->count, b->count);
	for (size_t i = 0; i < a->count; i++) {
		assert_string_equal(a->fields[i].name, b->fields[i].name);
		assert_string_equal(a->fields[i].text, b->fields[i].text);
	}
}

static void what_was_typed_comes_back_to_the_letter(void **state)
{
	(void)state;
	for (int sync = 0; sync < 2; sync++) {
		struct draft d = sample(), back;
		scratch("");
		must(sb_draft_save(book_path(), &d, sync, &book_err));
		assert_int_equal(sb_draft_load(book_path(), &back, &book_err), 1);
		same(&d, &back);
	}
	assert_int_equal(scratch_count(), 1);
}

static void the_newest_draft_is_the_one_that_counts(void **state)
{
	(void)state;
	struct draft d = sample(), back;
	must(sb_draft_save(book_path(), &d, false, &book_err));
	sb_copy(d.fields[0].text, sizeof d.fields[0].text, "88.4");
	d.count = 1;
	must(sb_draft_save(book_path(), &d, false, &book_err));
	assert_int_equal(sb_draft_load(book_path(), &back, &book_err), 1);
	same(&d, &back);
}

static void without_a_draft_there_is_none(void **state)
{
	(void)state;
	struct draft d = sample(), back;
	must(sb_draft_save(book_path(), &d, true, &book_err));
	sb_draft_discard(book_path());
	sb_draft_discard(book_path());
	assert_int_equal(sb_draft_load(book_path(), &back, &book_err), 0);
	assert_int_equal(back.count, 0);
	assert_int_equal(scratch_count(), 0);
}

static void a_draft_cut_off_anywhere_is_set_aside(void **state)
{
	(void)state;
	struct draft d = sample(), back;
	must(sb_draft_save(book_path(), &d, false, &book_err));
	char *text = scratch_read(scratch("tern.bore.draft"));
	size_t length = strlen(text);
	for (size_t cut = 0; cut < length; cut++) {
		scratch_empty();
		scratch_bytes("tern.bore.draft", text, cut);
		assert_int_equal(sb_draft_load(book_path(), &back, &book_err), 0);
		assert_int_equal(access(scratch("tern.bore.draft.bad"), F_OK), 0);
		assert_int_equal(access(scratch("tern.bore.draft"), F_OK), -1);
	}
	free(text);
}

static void what_is_no_draft_is_set_aside_and_harms_nobody(void **state)
{
	(void)state;
	static const char *const rubbish[] = {
		"draft 2 leg 1 joint 1 at 2026-11-25T08:49:52.123Z\nend\n",
		"draft 1 leg 0 joint 1 at 2026-11-25T08:49:52.123Z\nend\n",
		"draft 1 leg 1 joint 1 at yesterday\nend\n",
		"draft 1 leg 1 joint 1 at 2026-11-25T08:49:52.123Z\nno equals sign\nend\n",
		"draft 1 leg 1 joint 1 at 2026-11-25T08:49:52.123Z\na=\\x\nend\n",
		"draft 1 leg 1 joint 1 at 2026-11-25T08:49:52.123Z\na=\xff\nend\n",
		"draft 1 leg 1 joint 1 at 2026-11-25T08:49:52.123Z\n=a\nend\n",
		"draft 1 leg 1 joint 1 at 2026-11-25T08:49:52.123Z\nend\nmore\n",
		"draft 1 leg 1 joint 1 at 2026-11-25T08:49:52.123Z\na_name_that_is_longer_than_any_field_has=1\nend\n",
	};
	struct draft back;
	for (size_t i = 0; i < sizeof rubbish / sizeof *rubbish; i++) {
		scratch_empty();
		scratch_text("tern.bore.draft", rubbish[i]);
		assert_int_equal(sb_draft_load(book_path(), &back, &book_err), 0);
		assert_int_equal(access(scratch("tern.bore.draft.bad"), F_OK), 0);
	}
	/* too many fields, a field too long, a file too large, not a file */
	struct sb_str many = { 0 };
	sb_str_add(&many, "draft 1 leg 1 joint 1 at 2026-11-25T08:49:52.123Z\n");
	for (int i = 0; i <= SB_DRAFT_FIELDS; i++)
		sb_str_add(&many, "f%d=1\n", i);
	sb_str_add(&many, "end\n");
	scratch_text("tern.bore.draft", many.text);
	assert_int_equal(sb_draft_load(book_path(), &back, &book_err), 0);
	sb_str_clear(&many);
	sb_str_add(&many, "draft 1 leg 1 joint 1 at 2026-11-25T08:49:52.123Z\na=%0300d\nend\n", 1);
	scratch_text("tern.bore.draft", many.text);
	assert_int_equal(sb_draft_load(book_path(), &back, &book_err), 0);
	sb_str_clear(&many);
	char *large = calloc(1, 100000);
	memset(large, 'x', 99999);
	scratch_text("tern.bore.draft", large);
	free(large);
	assert_int_equal(sb_draft_load(book_path(), &back, &book_err), 0);
	scratch_empty();
	assert_int_equal(symlink("/etc/passwd", scratch("tern.bore.draft")), 0);
	assert_int_equal(sb_draft_load(book_path(), &back, &book_err), 0);
	assert_int_equal(access("/etc/passwd", F_OK), 0);
}

static void where_nothing_can_be_written_that_is_said(void **state)
{
	(void)state;
	struct draft d = sample();
	refused(sb_draft_save(scratch("nowhere/tern.bore"), &d, false, &book_err), SB_MISSING);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(what_was_typed_comes_back_to_the_letter),
		cmocka_unit_test(the_newest_draft_is_the_one_that_counts),
		cmocka_unit_test(without_a_draft_there_is_none),
		cmocka_unit_test(a_draft_cut_off_anywhere_is_set_aside),
		cmocka_unit_test(what_is_no_draft_is_set_aside_and_harms_nobody),
		cmocka_unit_test(where_nothing_can_be_written_that_is_said),
	};

	return run_tests(tests);
}
