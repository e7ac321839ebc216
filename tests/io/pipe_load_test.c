/* The pages of the product pipe: they fit 80 columns, say that they are estimates, and their figures are the
 * model's in the job's units. */
#include "io/pipe_load.h"

#include "base/measure.h"
#include "io/bore.h"
#include "support/jobs.h"

#include <string.h>

static struct job job;
static struct solution s;
static struct pipe_loads loads;
static struct sb_str out;
static struct sb_err err;

static int tidy(void **state)
{
	(void)state;
	sb_pipe_loads_clear(&loads);
	sb_str_clear(&out);
	sb_solution_clear(&s);
	sb_job_clear(&job);
	return 0;
}

static void tern(void)
{
	bore_tern(&job);
	bore_solve(&job, &s);
}

static void kestrel(void)
{
	bore_sheet(KESTREL, &job);
	bore_surveys(&job, KESTREL "/surveys.csv");
	bore_solve(&job, &s);
}

static void says(const char *words)
{
	if (strstr(sb_str_get(&out), words) == NULL)
		fail_msg("lacks '%s':\n%s", words, sb_str_get(&out));
}

static void fits(void)
{
	for (const char *at = sb_str_get(&out); *at;) {
		size_t length = strcspn(at, "\n");
		char line[200];
		snprintf(line, sizeof line, "%.*s", (int)length, at);
		if (sb_utf8_columns(line) > 80)
			fail_msg("wider than 80 columns: %s", line);
		at += length + (at[length] == '\n');
	}
}

static void both_pages_fit_and_say_that_they_are_estimates(void **state)
{
	void (*const bores[])(void) = { tern, kestrel };

	(void)state;
	for (size_t k = 0; k < 2; k++) {
		bores[k]();
		assert_int_equal(sb_pipe_loads_make(&job, &s, &loads, &err), 0);
		for (int design = 0; design < 2; design++) {
			sb_str_clear(&out);
			sb_pipe_load_stress_text(&job, &s, &loads, design, &out);
			fits();
			says("AN ESTIMATE, for the engineer to verify");
			says("what it rests on");
			says("largest strain");
		}
		sb_str_clear(&out);
		sb_pipe_load_pull_text(&job, &s, &out);
		fits();
		says("AN ESTIMATE, for the engineer to verify");
		says("the pilot's own bends cost");
		says("friction in the hole");
		says("with the pull head at the beginning of a joint");
		if (k == 0)
			says("PRCI L51730, from memory");
		else
			says("A where it enters");
		tidy(NULL);
	}
}

/* Figures on the page of the pull are those of the model. */
static void the_page_has_the_models_figures(void **state)
{
	char text[SB_LOAD_TEXT];

	(void)state;
	tern();
	assert_int_equal(sb_pipe_loads_make(&job, &s, &loads, &err), 0);
	sb_pipe_load_pull_text(&job, &s, &out);
	const struct load_station *most = &loads.drilled.stations[loads.drilled.most];
	says(sb_pipe_load_force(UNIT_FT, most->force_n, text));
	says(sb_pipe_load_force(UNIT_FT, loads.design.stations[loads.design.most].force_n, text));
	says("[pull] safe_force");
	/* 10 lbf are the finest that it says */
	assert_string_equal(sb_pipe_load_force(UNIT_FT, 4.4482216152605 * 12346, text), "12350 lbf");
	assert_string_equal(sb_pipe_load_force(UNIT_M, 12346, text), "12.3 kN");
	assert_string_equal(sb_pipe_load_force(UNIT_M, NAN, text), "-");
}

static void over_the_limit_it_says_so_in_words(void **state)
{
	(void)state;
	kestrel();
	jobs_set(&job, "pull", "safe_force", "10");
	sb_pipe_load_pull_text(&job, &s, &out);
	says("The estimate is OVER the limit");
	sb_str_clear(&out);
	jobs_set(&job, "pull", "safe_force", "16");
	sb_pipe_load_pull_text(&job, &s, &out);
	says("The band passes the limit");
	sb_str_clear(&out);
	job.safe_force = (struct number){ 0, "" };
	sb_pipe_load_pull_text(&job, &s, &out);
	says("the sheet sets none");
}

/* JSON: an object whose numbers are the model's; nothing known is null. */
static void scripts_get_null_and_a_sentence_where_there_is_none(void **state)
{
	struct sb_json j = { 0 };

	(void)state;
	kestrel();
	job.fluid_weight = (struct number){ 0, "" };
	assert_int_equal(sb_pipe_loads_make(&job, &s, &loads, &err), -1);
	assert_non_null(strstr(err.text, "The sheet does not say [fluid] weight"));
	sb_json_object(&j, NULL);
	sb_pipe_load_pull_put(&j, &job, &s);
	sb_json_end(&j);
	assert_non_null(strstr(sb_str_get(&j.text), "\"estimate\": null"));
	sb_str_clear(&j.text);
	sb_pipe_load_pull_text(&job, &s, &out);
	says("There is none. The sheet does not say [fluid] weight: how much the pipe floats\nis not known without it.\n");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test_teardown(both_pages_fit_and_say_that_they_are_estimates, tidy),
		cmocka_unit_test_teardown(the_page_has_the_models_figures, tidy),
		cmocka_unit_test_teardown(over_the_limit_it_says_so_in_words, tidy),
		cmocka_unit_test_teardown(scripts_get_null_and_a_sentence_where_there_is_none, tidy),
	};
	return run_tests(tests);
}
