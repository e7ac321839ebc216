/* The loop over a real job file: the head line, another's commits, an onlooker. */
#include "support/jobs.h"
#include "support/near.h"
#include "support/script.h"
#include "support/tiny.h"

#include "base/str.h"
#include "base/time.h"
#include "store/store.h"
#include "ui/everywhere.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define NOON INT64_C(1795608000000) /* 2026-11-25 12:00 UTC */

static char folder[64], path[128];
static struct sb_store *writer, *reader;
static struct script s;

static void must(int result, const struct sb_err *err)
{
	if (result)
		fail_msg("%s", err->text);
}

static int make_job(void **state)
{
	struct sb_err err = { 0 };
	struct job job;

	(void)state;
	setenv("TZ", "UTC", 1);
	sb_time_freeze(NOON);
	memset(&tiny_counts, 0, sizeof tiny_counts);
	snprintf(folder, sizeof folder, "/tmp/live_test.XXXXXX");
	assert_non_null(mkdtemp(folder));
	snprintf(path, sizeof path, "%s/a.bore", folder);
	jobs_plain(&job);
	must(sb_store_create(path, &job, "A. Hand", &err), &err);
	sb_job_clear(&job);
	must(sb_store_open(path, STORE_WRITE, "A. Hand", &writer, &err), &err);
	must(sb_store_open(path, STORE_READ, "B. Looker", &reader, &err), &err);
	return 0;
}

static int end_job(void **state)
{
	char command[160];

	(void)state;
	if (s.app)
		script_end(&s);
	sb_store_close(reader);
	sb_store_close(writer);
	snprintf(command, sizeof command, "rm -rf '%s'", folder);
	return system(command);
}

static void begin(struct sb_store *store)
{
	struct app_options o = { .store = store,
		.who = "A. Hand",
		.theme = THEME_DAY,
		.everywhere = sb_everywhere,
		.first = &tiny_screen };

	script_init(&s, 80, 24);
	script_start(&s, &o);
}

static void log_joint(const char *inclination, const char *azimuth)
{
	struct sb_err err = { 0 };
	struct reading r = jobs_reading(sb_store_job(writer), "", inclination, azimuth);

	must(sb_store_log(writer, "A. Hand", &r, &err), &err);
}

static const char *head(void)
{
	return script_row(&s, 0);
}

static void the_head_line_says_where_the_bore_stands_and_who_is_on(void **state)
{
	struct sb_err err = { 0 };
	char want[160];

	(void)state;
	log_joint("78.0", "90.0");
	must(sb_store_shift_begin(writer, "A. Hand", "Night crew: Hand, Looker", &err), &err);
	begin(writer);
	const struct job *job = sb_store_job(writer);
	snprintf(want, sizeof want, " · pilot · leg 1 · joint 1 · bit %.1f ft · Tiny",
		sb_solution_last(sb_store_solution(writer))->bit_md_m / 0.3048);
	assert_sees(&s, want);
	assert_int_equal(strncmp(head(), job->name, 4), 0);
	assert_non_null(strstr(head(), "Night crew: Hand,…"));
	assert_string_equal(head() + strlen(head()) - 5, "12:00");
}

static void a_long_name_gives_way_but_nothing_else_does(void **state)
{
	struct sb_err err = { 0 };
	struct sb_store *other = NULL;
	struct job job;
	char file[160];

	(void)state;
	jobs_plain(&job);
	sb_copy(job.name, sizeof job.name,
		"The second crossing of the river below the old bridge at the mill, relaid for the county");
	snprintf(file, sizeof file, "%s/b.bore", folder);
	must(sb_store_create(file, &job, "A. Hand", &err), &err);
	sb_job_clear(&job);
	must(sb_store_open(file, STORE_READ, "B. Looker", &other, &err), &err);
	begin(other);
	assert_non_null(strstr(head(), "… · pilot · leg 1 · joint 0 · bit 0.0 ft · Tiny"));
	assert_non_null(strstr(head(), "looking on"));
	script_end(&s);
	sb_store_close(other);
}

static void what_another_logs_is_seen_within_a_tick(void **state)
{
	(void)state;
	begin(reader);
	assert_sees(&s, "joint 0 · bit 0.0 ft");
	log_joint("78.0", "90.0");
	script_tick(&s);
	assert_sees(&s, "joint 1 · bit");
	assert_int_equal(tiny_counts.changed, 1);
	script_tick(&s);
	assert_int_equal(tiny_counts.changed, 1);
}

static void an_onlooker_is_told_so_and_writes_nothing(void **state)
{
	(void)state;
	begin(reader);
	assert_sees(&s, "looking on");
	assert_sees_not(&s, "X write");
	script_keys(&s, "X");
	assert_sees(&s, "! You are looking on: this job was opened to read only.");
	assert_int_equal(tiny_counts.written, 0);
}

static void whoever_writes_may(void **state)
{
	(void)state;
	begin(writer);
	assert_sees(&s, "X write");
	script_keys(&s, "X");
	assert_int_equal(tiny_counts.written, 1);
	assert_int_equal(tiny_counts.changed, 1);
}

/* The file is gone from under an onlooker: said, and not again each second over whatever else is said. */
static void a_file_that_cannot_be_read_again_is_said_once(void **state)
{
	FILE *file;

	(void)state;
	begin(reader);
	file = fopen(path, "r+");
	assert_non_null(file);
	for (int i = 0; i < 2000; i++)
		fputs("not a job file any more", file);
	fclose(file);
	script_tick(&s);
	assert_sees(&s, "! a.bore is not a job file");
	assert_sees_not(&s, "? help");
	script_keys(&s, "Left"); /* takes the message away */
	script_tick(&s);
	assert_sees(&s, "? help");
	assert_sees(&s, "café"); /* and the screen still stands */
}

#define with_a_job(test) cmocka_unit_test_setup_teardown(test, make_job, end_job)

int main(void)
{
	const struct CMUnitTest tests[] = {
		with_a_job(the_head_line_says_where_the_bore_stands_and_who_is_on),
		with_a_job(a_long_name_gives_way_but_nothing_else_does),
		with_a_job(what_another_logs_is_seen_within_a_tick),
		with_a_job(an_onlooker_is_told_so_and_writes_nothing),
		with_a_job(whoever_writes_may),
		with_a_job(a_file_that_cannot_be_read_again_is_said_once),
	};
	return run_tests(tests);
}
