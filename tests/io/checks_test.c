/* The list behind `check`. */
#include "io/checks.h"

#include "base/mem.h"
#include "io/bore.h"
#include "support/jobs.h"

static struct job job;
static struct solution s;
static struct sb_str text;
static struct check *list;

static int tidy(void **state)
{
	(void)state;
	sb_free(list);
	list = NULL;
	sb_str_clear(&text);
	sb_solution_clear(&s);
	sb_job_clear(&job);
	return 0;
}

static const char *json(void)
{
	text.length = 0;
	sb_checks_json(&job, &s, &text);
	return text.text;
}

#define assert_says(where, words) \
	do { \
		if (strstr(where, words) == NULL) \
			fail_msg("'%s' is not in:\n%s", words, where); \
	} while (0)

static void every_kind_is_there_and_the_worst_is_the_whole(void **state)
{
	(void)state;
	bool seen[WARNING_KINDS] = { false };
	enum level worst = LEVEL_OK;
	bore_sheet(TERN, &job);
	bore_surveys(&job, TERN "/surveys.csv");
	bore_solve(&job, &s);
	size_t count = sb_checks_list(&s, &list);
	for (size_t i = 0; i < count; i++) {
		seen[list[i].kind] = true;
		worst = list[i].level > worst ? list[i].level : worst;
		assert_int_equal(list[i].warning == NULL, list[i].level == LEVEL_OK);
	}
	for (size_t k = 0; k < WARNING_KINDS; k++)
		assert_int_equal(seen[k], !sb_warning_sorts[k].event || sb_warning_sorts[k].joints);
	assert_int_equal(worst, s.level);
	assert_int_equal(worst, LEVEL_BREACH);
	assert_says(json(), "\"level\": \"breach\"");
	assert_says(json(),
		"\"kind\": \"window-bend\", \"level\": \"breach\", \"joint\": 38, \"station\": 1146.4");
	assert_says(json(), "\"limit\": 1500");
	assert_says(json(),
		"{\"kind\": \"exit-window\", \"level\": \"ok\", \"joint\": null, \"station\": null, "
		"\"value\": null, \"limit\": null, \"text\": \"Nothing on the present path.\"");
}

static void what_was_withdrawn_does_not_count(void **state)
{
	(void)state;
	bore_tern(&job);
	bore_solve(&job, &s);
	assert_says(json(), "\"level\": \"watch\"");
	assert_says(json(), "\"kind\": \"window-bend\", \"level\": \"ok\"");
	/* nothing is measured where nothing was read */
	assert_says(json(), "\"kind\": \"missing-survey\", \"level\": \"watch\", \"joint\": 57,");
	assert_says(json(), "\"value\": null, \"limit\": null, \"text\": \"Joint 57");
}

static void what_would_come_counts_only_while_it_does(void **state)
{
	(void)state;
	jobs_plain(&job);
	jobs_log(&job, "", "80", "91.5"); /* heads right out of the corridor */
	jobs_log(&job, "", "80", "92.5");
	jobs_solve(&job, &s);
	assert_true(s.open[WARNING_LEAVES] >= 0);
	assert_says(json(), "\"kind\": \"leaves-corridor\", \"level\": \"watch\"");
	jobs_log(&job, "", "80", "90"); /* turned back */
	jobs_solve(&job, &s);
	assert_int_equal(s.open[WARNING_LEAVES], -1);
	assert_says(json(), "\"kind\": \"leaves-corridor\", \"level\": \"ok\"");
	size_t count = sb_checks_list(&s, &list);
	enum level worst = LEVEL_OK;
	for (size_t i = 0; i < count; i++)
		worst = list[i].level > worst ? list[i].level : worst;
	assert_int_equal(worst, s.level);
}

static void a_limit_that_is_not_set_is_said_to_be_not_judged(void **state)
{
	(void)state;
	jobs_plain(&job);
	memset(&job.joint_minimum, 0, sizeof job.joint_minimum);
	memset(&job.exit_long, 0, sizeof job.exit_long);
	memset(&job.exit_short, 0, sizeof job.exit_short);
	memset(&job.exit_left, 0, sizeof job.exit_left);
	memset(&job.exit_right, 0, sizeof job.exit_right);
	jobs_solve(&job, &s);
	assert_says(json(), "Not judged: the sheet sets no radius for one joint.");
	assert_says(json(), "Not judged: the sheet sets no exit window.");
}

static void an_acknowledged_warning_is_listed_with_its_name(void **state)
{
	(void)state;
	struct acknowledgement a = { .act = 1,
		.kind = "missing-survey",
		.leg = 1,
		.joint = 1,
		.to_joint = 1,
		.level = LEVEL_WATCH,
		.who = "P. Ortega",
		.reason = "seen" };
	jobs_plain(&job);
	jobs_log(&job, "", "", "");
	sb_job_add_acknowledgement(&job, &a);
	jobs_solve(&job, &s);
	assert_says(json(), "\"acknowledged_by\": \"P. Ortega\"");
	text.length = 0;
	sb_checks_text(&job, &s, &text);
	assert_says(text.text, "acknowledged by P. Ortega");
}

static void for_people_no_line_is_wider_than_eighty_columns(void **state)
{
	(void)state;
	bore_sheet(TERN, &job);
	bore_surveys(&job, TERN "/surveys.csv");
	bore_solve(&job, &s);
	sb_checks_text(&job, &s, &text);
	assert_says(text.text, "Tern Slough: breach\n");
	assert_says(text.text, "watch   corridor, joints 35-36, worst 36, station 10+83.7\n");
	for (const char *line = text.text; *line;) {
		size_t length = strcspn(line, "\n");
		assert_true(length <= 80);
		line += length + 1;
	}
}

int main(void)
{
#define T(f) cmocka_unit_test_teardown(f, tidy)
	const struct CMUnitTest tests[] = {
		T(every_kind_is_there_and_the_worst_is_the_whole),
		T(what_was_withdrawn_does_not_count),
		T(what_would_come_counts_only_while_it_does),
		T(a_limit_that_is_not_set_is_said_to_be_not_judged),
		T(an_acknowledged_warning_is_listed_with_its_name),
		T(for_people_no_line_is_wider_than_eighty_columns),
	};

	return run_tests(tests);
}
