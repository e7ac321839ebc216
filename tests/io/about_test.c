/* What goes with an export: what changed of the settings since the job began, and what holds now. */
#include "io/about.h"

#include "base/str.h"
#include "support/jobs.h"
#include "support/near.h"

#include <string.h>

static struct about_line lines[SB_ABOUT_LINES];
static size_t count;
static struct job job;

static const char *text_of(const char *key)
{
	for (size_t i = 0; i < count; i++)
		if (sb_same(lines[i].key, key))
			return lines[i].text;
	return NULL;
}

static void look(void)
{
	const struct about about = { .file = "curved.bore", .head = "", .who = "Ida", .program = "sagbend" };

	count = sb_about_lines(&job, &about, lines);
}

static void change(int n)
{
	struct change c = { .fact = { .act = 10 + n, .joint = n, .leg = 1 }, .from_joint = n + 1 };

	sb_copy(c.section, sizeof c.section, "azimuth");
	sb_copy(c.key, sizeof c.key, "declination");
	snprintf(c.value, sizeof c.value, "%d.5", n);
	sb_copy(c.fact.who, sizeof c.fact.who, "Bea");
	snprintf(c.fact.words, sizeof c.fact.words, "azimuth declination %d.5, from joint %d on: told so", n,
		n + 1);
	sb_job_add_change(&job, &c);
}

static void without_changes_nothing_is_said_of_them(void **state)
{
	(void)state;
	jobs_curved(&job);
	look();
	assert_null(text_of("changes"));
	assert_null(text_of("azimuth_to_grid_now"));
	assert_non_null(text_of("azimuth_to_grid"));
	sb_job_clear(&job);
}

static void each_change_is_a_line_and_what_holds_now_is_one_too(void **state)
{
	(void)state;
	jobs_curved(&job);
	change(1);
	change(4);
	look();
	assert_true(strncmp(text_of("changes"), "2 since the job began", 21) == 0);
	assert_string_equal(text_of("change_1"),
		"after joint 1 by Bea on 1970-01-01: azimuth declination 1.5, from joint 2 on: told so");
	assert_non_null(strstr(text_of("change_2"), "declination 4.5, from joint 5 on"));
	assert_null(text_of("change_3"));
	/* the sheet's 3.40 + 1.20, and 4.5 + 1.20 now */
	assert_true(strncmp(text_of("azimuth_to_grid"), "4.6000 ", 7) == 0);
	assert_true(strncmp(text_of("azimuth_to_grid_now"), "5.7000 ", 7) == 0);
	assert_true(strncmp(text_of("declination"), "3.40 ", 5) == 0);
	sb_job_clear(&job);
}

static void of_many_changes_the_newest_are_said_and_all_are_counted(void **state)
{
	(void)state;
	jobs_curved(&job);
	for (int n = 1; n <= 11; n++)
		change(n);
	look();
	assert_true(strncmp(text_of("changes"), "11 since", 8) == 0);
	assert_non_null(strstr(text_of("changes"), "the newest 8 follow"));
	assert_non_null(strstr(text_of("change_1"), "declination 4.5"));
	assert_non_null(strstr(text_of("change_8"), "declination 11.5"));
	assert_non_null(text_of("caution")); /* there is room for all lines after them */
	assert_true(count < SB_ABOUT_LINES);
	sb_job_clear(&job);
}

int main(void)
{
	static const struct CMUnitTest tests[] = {
		cmocka_unit_test(without_changes_nothing_is_said_of_them),
		cmocka_unit_test(each_change_is_a_line_and_what_holds_now_is_one_too),
		cmocka_unit_test(of_many_changes_the_newest_are_said_and_all_are_counted),
	};

	return run_tests(tests);
}
