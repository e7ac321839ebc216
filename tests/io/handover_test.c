/* The page for the next shift. */
#include "io/handover.h"

#include "io/bore.h"
#include "model/steering.h"
#include "support/jobs.h"

#include <stdlib.h>
#include <time.h>

static struct job job;
static struct solution s;
static struct sb_str text;
static const char head[] = "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef";

static int tidy(void **state)
{
	(void)state;
	sb_str_clear(&text);
	sb_solution_clear(&s);
	sb_job_clear(&job);
	return 0;
}

/* Writes the page at so many minutes after the clock of the sample bores, and checks that it is one page. */
static const char *page(int minutes)
{
	int lines = 0;

	sb_solution_clear(&s);
	bore_solve(&job, &s);
	text.length = 0;
	sb_handover(&job, &s, head, BORE_CLOCK + minutes * 60000LL, &text);
	for (const char *at = text.text; *at; lines++) {
		char line[400];
		size_t length = strcspn(at, "\n");
		snprintf(line, sizeof line, "%.*s", (int)length, at);
		if (sb_utf8_columns(line) > SB_HANDOVER_COLUMNS)
			fail_msg("%zu columns: %s", sb_utf8_columns(line), line);
		assert_int_equal(at[length], '\n');
		at += length + 1;
	}
	if (lines > SB_HANDOVER_LINES)
		fail_msg("%d lines:\n%s", lines, text.text);
	return text.text;
}

#define assert_says(words) \
	do { \
		if (strstr(text.text, words) == NULL) \
			fail_msg("'%s' is not in:\n%s", words, text.text); \
	} while (0)
#define assert_silent(words) \
	do { \
		if (strstr(text.text, words) != NULL) \
			fail_msg("'%s' is in:\n%s", words, text.text); \
	} while (0)

static void the_nine_points_are_there_in_their_order(void **state)
{
	(void)state;
	static const char *const labels[] = { "Handover Tern Slough", "\nshift", "\nbit", "\nworst",
		"\ndrilled", "\nreturns", "\nfix", "\nedits", "\nopen", "\nwaits", "\nnext", "\nfile",
		"\nA help to trained people" };
	bore_sheet(TERN, &job);
	bore_act(&job, ACT_SHIFT_BEGIN, 0, "P. Ortega", "Ortega, Lund");
	bore_surveys(&job, TERN "/surveys.csv");
	const char *from = page(60);
	for (size_t i = 0; i < sizeof labels / sizeof *labels; i++) {
		const char *found = strstr(from, labels[i]);
		if (found == NULL)
			fail_msg("'%s' is not in its place in:\n%s", labels[i], text.text);
		from = found + 1;
	}
	assert_says("(runs)   Ortega, Lund");
	assert_says("station 11+78.9  1.3 ft right  0.1 ft low  elev -46.6  corridor 26 % ok");
	assert_says("bend over 3 joints: 1314 ft at joint 38 (limit 1500, 12 % too tight)");
	assert_says("off line: 3.8 ft low at joint 36 (limit 5.0, 77 % used)");
	assert_says("none taken");
	assert_says("breach: bend over the window, joint 38");
	assert_says("now full; less than full last at joint 28, at worst partial");
	assert_says("832 min: 780 before joint 27, 52 before 13");
	assert_says(head);
}

/* The sums equal the tally. */
static void footage_is_the_sum_of_the_tally(void **state)
{
	(void)state;
	char want[64];
	double sum = 0;
	bore_sheet(TERN, &job);
	bore_surveys(&job, TERN "/surveys.csv");
	for (int joint = 1; joint <= 38; joint++)
		sum += sb_job_tally(&job, joint).value;
	page(60);
	snprintf(want, sizeof want, "38 joints, %.2f ft in", sum);
	assert_says(want);
}

static void a_shift_holds_what_was_logged_in_it_and_no_more(void **state)
{
	(void)state;
	bore_sheet(TERN, &job);
	bore_act(&job, ACT_SHIFT_BEGIN, 0, "P. Ortega", "day crew");
	bore_surveys(&job, TERN "/surveys.csv");
	bore_act(&job, ACT_SHIFT_BEGIN, 38, "K. Mbeki", "night crew");
	page(60);
	assert_says("night crew");
	assert_says("no joint in this shift");
	assert_says("no bend was measured in this shift");
	bore_withdraw(&job, 33, "three joints too tight");
	bore_surveys(&job, TERN "/surveys-redrill.csv");
	bore_correct(&job, 12, "82.2",
		"read again"); /* of the day crew's joints: an edit, not a joint of this shift */
	bore_act(&job, ACT_SHIFT_END, 68, "K. Mbeki", "quiet");
	bore_act(&job, ACT_NOTE, 68, "K. Mbeki", "washed down");
	page(600);
	assert_says("35 joints, ");
	assert_says("notes    at the end (K. Mbeki): quiet");
	assert_silent("washed down");
	assert_silent("withdrawn)");
	assert_silent("(runs)");
	assert_says("corrected joint 12 (A. Lund): read again");
	assert_says("withdrawn to joint 33 (P. Ortega): three joints too tight");
	assert_says("off line: 3.1 ft low at joint 34");
	assert_says("the exit is reached");
	assert_says("no joint before the exit");
}

/* What the shift wrote down is the first thing that the next one asks for. */
static void notes_and_closing_words_are_on_the_page(void **state)
{
	(void)state;
	bore_sheet(TERN, &job);
	bore_act(&job, ACT_SHIFT_BEGIN, 0, "P. Ortega", "day crew");
	page(60);
	assert_silent("\nnotes");
	bore_act(&job, ACT_NOTE, 0, "P. Ortega", "seal of pump 2 leaks");
	page(60);
	assert_says("\nnotes    at joint 0 (P. Ortega): seal of pump 2 leaks\n");
	for (int i = 0; i < 40; i++)
		bore_act(&job, ACT_NOTE, 0, "P. Ortega", "one of so many notes that they do not fit");
	bore_act(&job, ACT_SHIFT_END, 0, "P. Ortega", "fresh mud is mixed");
	page(60);
	assert_says("\nnotes    at the end (P. Ortega): fresh mud is mixed\n"
		    "         and 41 more: they are in the file\n");
	bore_act(&job, ACT_SHIFT_BEGIN, 0, "K. Mbeki", "night crew");
	page(60);
	assert_silent("\nnotes");
}

static void take_next(double inclination[5])
{
	const char *line = strstr(text.text, "inclination ");

	assert_non_null(line);
	assert_int_equal(sscanf(line, "inclination %lf %lf %lf %lf %lf", &inclination[0], &inclination[1],
				 &inclination[2], &inclination[3], &inclination[4]),
		5);
}

static void the_next_joints_follow_the_plan(void **state)
{
	(void)state;
	static struct plan plan;
	double inclination[5];
	bore_sheet(TERN, &job);
	page(1);
	assert_says("joint             1       2       3       4       5\n");
	assert_says("no joint in this shift");
	bore_surveys(&job, TERN "/surveys.csv");
	bore_withdraw(&job, 33, "");
	bore_surveys(&job, TERN "/surveys-redrill.csv");
	bore_withdraw(&job, 47, "");
	page(600);
	struct setup setup = sb_solution_setup(&job, &s);
	sb_steering_make(&setup, &s.path, &s.response, &plan);
	assert_true(plan.feasible);
	take_next(inclination);
	for (int i = 0; i < 5; i++)
		assert_near(
			inclination[i], sb_frame_inc_typed(&s.frame, plan.joints[i].target.inc_rad), 0.0501);
	assert_says("(plan)\n");
}

static void without_a_plan_the_next_joints_follow_the_design(void **state)
{
	(void)state;
	double inclination[5];
	bore_sheet(TERN, &job);
	bore_surveys(&job, TERN "/surveys.csv"); /* bent too tight to come back from, on the level stretch */
	page(600);
	assert_says("(design)\n");
	take_next(inclination);
	for (int i = 0; i < 5; i++)
		assert_near(inclination[i], 90, 1e-9);
}

static void much_to_say_is_cut_with_how_much_more_there_is(void **state)
{
	(void)state;
	char reason[100];
	bore_sheet(TERN, &job);
	bore_surveys(&job, TERN "/surveys.csv");
	for (int joint = 2; joint <= 12; joint++) {
		snprintf(reason, sizeof reason,
			"a long reason, as long as hands with time to write make them: no. %d", joint);
		bore_correct(&job, joint, sb_job_joint(&job, joint)->inclination.text, reason);
	}
	page(600);
	assert_says("more: they are in the file");
	assert_says("corrected joint 12 (A. Lund)"); /* the newest is said */
	assert_says("breach: bend over the window");
}

static void hostile_names_do_not_break_the_page(void **state)
{
	(void)state;
	bore_sheet(TERN, &job);
	memset(job.name, 'W', sizeof job.name - 1);
	bore_act(&job, ACT_SHIFT_BEGIN, 0, "x",
		"two\nlines \x1B[2J and \xC3\xA4\xC3\xB6 and a very long list of names that goes on and on and on");
	bore_surveys(&job, TERN "/surveys.csv");
	page(600);
	assert_silent("\x1B");
}

static void nothing_logged_is_a_page_too(void **state)
{
	(void)state;
	jobs_plain(&job);
	memset(&job.entry_inclination, 0, sizeof job.entry_inclination);
	memset(&job.entry_azimuth, 0, sizeof job.entry_azimuth);
	page(1);
	assert_says("no reading was taken and no entry was staked");
	assert_says("not logged");
	assert_says("no decision is open");
}

static void what_slides_shift_is_said_with_the_record(void **state)
{
	(void)state;
	jobs_plain(&job);
	jobs_set(&job, "entry", "inclination", "90");
	jobs_set(&job, "steering", "slide_turn", "0.1");
	for (int i = 0; i < 3; i++) {
		char azimuth[16];
		snprintf(azimuth, sizeof azimuth, "%d", 91 + i);
		struct reading r = jobs_reading(&job, "30", "90", azimuth);
		r.id = i + 1;
		snprintf(r.pushes, sizeof r.pushes, "0:10@90");
		sb_job_add_reading(&job, &r);
	}
	page(1);
	/* three times b (L - l) / 2 = 0.17 ft, or a little over it */
	assert_says("by slides 0.5 ft right");
	assert_says("of arcs; arcs are the record");
	jobs_set(&job, "survey", "course", "slides");
	page(1);
	assert_says("of arcs; slides are the record");
}

int main(void)
{
#define T(f) cmocka_unit_test_teardown(f, tidy)
	const struct CMUnitTest tests[] = {
		T(the_nine_points_are_there_in_their_order),
		T(footage_is_the_sum_of_the_tally),
		T(a_shift_holds_what_was_logged_in_it_and_no_more),
		T(notes_and_closing_words_are_on_the_page),
		T(the_next_joints_follow_the_plan),
		T(without_a_plan_the_next_joints_follow_the_design),
		T(much_to_say_is_cut_with_how_much_more_there_is),
		T(hostile_names_do_not_break_the_page),
		T(nothing_logged_is_a_page_too),
		T(what_slides_shift_is_said_with_the_record),
	};

	setenv("TZ", "UTC", 1);
	tzset();
	return run_tests(tests);
}
