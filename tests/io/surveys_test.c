/* Surveys from files: what people's tables look like, and what must not be guessed. */
#include "io/surveys.h"

#include "base/mem.h"
#include "io/bore.h"
#include "io/scratch.h"
#include "support/jobs.h"

static struct job job;
static struct surveys surveys;
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
	sb_surveys_clear(&surveys);
	sb_problems_clear(&problems);
	sb_job_clear(&job);
	return 0;
}

static int read_text(const char *text)
{
	sb_surveys_clear(&surveys);
	sb_problems_clear(&problems);
	return sb_surveys_read(scratch_text("s.csv", text), &job, &surveys, &problems);
}

static void assert_problem(size_t i, int line, const char *column, const char *words)
{
	assert_true(i < problems.count);
	const struct sb_problem *p = &problems.list[i];
	if (p->line != line || strcmp(p->column, column) != 0 || strstr(p->text, words) == NULL)
		fail_msg("line %d, %s: %s", p->line, p->column, p->text);
	assert_string_equal(p->file, "s.csv");
}

static void columns_stand_in_any_order_and_lengths_come_from_the_tally(void **state)
{
	(void)state;
	assert_int_equal(read_text("Azimuth,inclination,Returns,tool face,slid,started\n"
				   "90.1,80.2,partial,350,12,7:05\n89.9,80.40,,,,\n"),
		0);
	assert_int_equal(surveys.count, 2);
	const struct reading *r = &surveys.list[0].reading;
	assert_int_equal(r->joint, 1);
	assert_string_equal(r->joint_length.text, "31");
	assert_string_equal(r->azimuth.text, "90.1");
	assert_string_equal(r->tool_face.text, "350");
	assert_int_equal(r->returns, RETURNS_PARTIAL);
	assert_string_equal(r->started, "07:05");
	assert_string_equal(surveys.list[1].reading.inclination.text, "80.40");
	assert_int_equal(surveys.list[1].reading.joint, 2);
	assert_int_equal(surveys.list[1].line, 3);
}

static void a_joint_without_a_reading_is_taken_and_half_a_reading_refused(void **state)
{
	(void)state;
	assert_int_equal(read_text("inclination,azimuth,remarks\n,,wire parted\n80,,\n,90,\n"), -1);
	assert_int_equal(problems.errors, 2);
	assert_problem(0, 3, "azimuth", "the other angle is given");
	assert_problem(1, 4, "inclination", "the other angle is given");
	assert_int_equal(read_text("inclination,azimuth,remarks\n,,wire parted\n"), 0);
	assert_false(sb_reading_taken(&surveys.list[0].reading));
}

static void lengths_come_from_bit_depths_or_sensor_depths(void **state)
{
	(void)state;
	assert_int_equal(read_text("bit_depth,inclination,azimuth\n31.2,80,90\n62.55,80,90\n"), 0);
	assert_string_equal(surveys.list[0].reading.joint_length.text, "31.2");
	assert_string_equal(surveys.list[1].reading.joint_length.text, "31.35");
	assert_string_equal(surveys.list[1].depths.bit_depth.text, "62.55");
	jobs_set(&job, "tool", "sensor_to_bit", "10.5");
	assert_int_equal(read_text("survey_depth;inclination;azimuth\n20,5;80;90\n52,00;80;90\n"), 0);
	assert_near(surveys.list[0].reading.joint_length.value, 31, 1e-9);
	assert_near(surveys.list[1].reading.joint_length.value, 31.5, 1e-9);
	assert_int_equal(read_text("bit_depth,inclination,azimuth\n31,80,90\n30,80,90\n"), -1);
	assert_problem(0, 3, "bit_depth", "does not lie past the joint before");
	assert_int_equal(read_text("md,inclination,azimuth\n31,80,90\n"), -1);
	assert_problem(0, 0, "md", "bit_depth or survey_depth");
}

static void depths_go_on_from_what_is_in_the_ground(void **state)
{
	(void)state;
	jobs_log(&job, "30.5", "80", "90");
	assert_int_equal(read_text("joint,bit_depth,inclination,azimuth\n2,61.75,80,90\n"), 0);
	assert_string_equal(surveys.list[0].reading.joint_length.text, "31.25");
	assert_int_equal(surveys.list[0].reading.joint, 2);
}

static void joints_that_do_not_follow_one_another_are_refused(void **state)
{
	(void)state;
	jobs_log(&job, "", "80", "90");
	assert_int_equal(read_text("joint,inclination,azimuth\n1,80,90\n2,80,90\n4,80,90\n5,80,90\n3,80,90\n"
				   "2.5,80,90\nx,80,90\n"),
		-1);
	assert_problem(0, 2, "joint", "joint 1 is in the log already");
	assert_problem(1, 4, "joint", "joint 4 comes here, but joint 3 is next");
	assert_problem(2, 6, "joint", "joint 3 comes after joint 5");
	assert_problem(3, 7, "joint", "they are 1, 2, 3");
	assert_problem(4, 8, "joint", "not a number");
	assert_int_equal(problems.errors, 5);
}

static void every_wrong_cell_is_listed(void **state)
{
	(void)state;
	assert_int_equal(read_text("inclination,azimuth,returns,started,slid\n80,361,some,25:00,\n"
				   "199,90 deg,full,7:00,-1\n"),
		-1);
	assert_int_equal(problems.errors, 6);
	assert_problem(0, 2, "azimuth", "between 0 and 360");
	assert_problem(2, 2, "started", "not a time of day");
	assert_problem(3, 3, "inclination", "0 to 180");
	assert_problem(5, 3, "slid", "between 0");
	assert_null(surveys.list);
}

static void columns_are_required_known_and_told_apart(void **state)
{
	(void)state;
	assert_int_equal(read_text("inclnation,azimuth\n80,90\n"), -1);
	assert_problem(0, 0, "inclnation", "'inclination' is probably meant");
	assert_int_equal(read_text("inclination,azimuth,Thrust (kN)\n80,90,5\n"), -1);
	assert_problem(0, 0, "Thrust (kN)", "'thrust' is probably meant, in lbf");
	assert_int_equal(read_text("inclination,azimuth,weather,station,leg\n80,90,dry,31,1\n"), 0);
	assert_int_equal(problems.count, 1);
	assert_problem(0, 0, "weather", "not used");
}

static void a_mix_of_decimal_signs_is_refused(void **state)
{
	(void)state;
	assert_int_equal(read_text("inclination;azimuth\n80,5;90\n80.5;90\n"), -1);
	assert_problem(0, 3, "inclination", "write decimals differently");
}

static void who_when_and_why_are_taken(void **state)
{
	(void)state;
	assert_int_equal(read_text("inclination,azimuth,who,time,reason\n"
				   "80,90,A. Lund,2026-11-25T14:32:00Z,read twice\n"),
		0);
	const struct reading *r = &surveys.list[0].reading;
	assert_string_equal(r->who, "A. Lund");
	assert_string_equal(r->reason, "read twice");
	assert_true(r->at_ms == 1795617120000);
	assert_int_equal(read_text("inclination,azimuth,time\n80,90,yesterday\n"), -1);
	assert_problem(0, 2, "time", "not a time");
}

static void rows_that_stand_for_nothing_in_the_ground_are_passed_over(void **state)
{
	(void)state;
	assert_int_equal(
		read_text("joint,inclination,azimuth,standing,about\n0,79,90,entry,a\n1,80,90,path,b\n"
			  "2,81,90,withdrawn,\n2,82,90,replaced,\n2,80.5,90,path,\n,,,,c\n"),
		0);
	assert_int_equal(surveys.count, 2);
	assert_int_equal(surveys.skipped, 4);
	assert_string_equal(surveys.list[1].reading.inclination.text, "80.5");
	assert_int_equal(read_text("joint,inclination,azimuth,standing\n1,80,90,lying\n"), -1);
	assert_problem(0, 2, "standing", "not known");
}

static void the_sample_surveys_are_read_whole_and_none_is_held(void **state)
{
	(void)state;
	struct solution s;
	struct suspicion found[SB_SUSPICIONS];
	int remarks = 0;
	static const char *const folders[] = { TERN, KESTREL };
	for (size_t k = 0; k < 2; k++) {
		char path[256];
		sb_job_clear(&job);
		bore_sheet(folders[k], &job);
		snprintf(path, sizeof path, "%s/surveys.csv", folders[k]);
		sb_surveys_read(path, &job, &surveys, &problems);
		bore_no_problems(&problems);
		assert_true(surveys.count > 30);
		for (size_t i = 0; i < surveys.count; i++) {
			bore_solve(&job, &s);
			size_t count = sb_blunder_look(
				&job, &s, &surveys.list[i].reading, &surveys.list[i].depths, found);
			if (count && found[0].held)
				fail_msg("%s: %s", path, found[0].text);
			remarks += count > 0;
			sb_solution_clear(&s);
			struct surveys one = { &surveys.list[i], 1, 1, 0 };
			bore_log(&job, &one);
		}
		sb_surveys_clear(&surveys);
	}
	/* Joint 36 of Tern Slough: its slide was made ahead of the sensor, and the reading shows it already.
	 */
	assert_int_equal(remarks, 1);
}

static void the_sample_bores_tell_their_story(void **state)
{
	(void)state;
	struct solution s;
	sb_job_clear(&job);
	bore_sheet(TERN, &job);
	bore_surveys(&job, TERN "/surveys.csv");
	bore_solve(&job, &s);
	assert_int_equal(s.level, LEVEL_BREACH); /* three joints too tight */
	assert_true(s.open[WARNING_WINDOW_BEND] >= 0);
	bool low = false;
	for (size_t i = 0; i < s.warning_count; i++)
		low |= s.warnings[i].kind == WARNING_CORRIDOR && s.warnings[i].level == LEVEL_WATCH;
	assert_true(low); /* the drift to the low side */
	sb_solution_clear(&s);
	bore_withdraw(&job, 33, "too tight");
	bore_surveys(&job, TERN "/surveys-redrill.csv");
	bore_solve(&job, &s);
	assert_int_equal(s.level, LEVEL_WATCH);		     /* joint 57 has no reading */
	assert_true(s.bit.at.u > s.design.exit_elevation_m); /* out, inside the window */
	assert_int_equal(s.open[WARNING_EXIT], -1);
	sb_solution_clear(&s);
	sb_job_clear(&job);
	bore_sheet(KESTREL, &job);
	bore_surveys(&job, KESTREL "/surveys.csv");
	bore_solve(&job, &s);
	assert_int_equal(s.level, LEVEL_OK);
	assert_near(s.bit.deviation.station_m, s.design.length_m, 1);
	sb_solution_clear(&s);
}

static void broken_files_never_crash_it(void **state)
{
	(void)state;
	char *whole = scratch_read(KESTREL "/surveys.csv");
	size_t length = strlen(whole), refused = 0;
	unsigned seed = 3;
	sb_job_clear(&job);
	bore_sheet(KESTREL, &job);
	for (int round = 0; round < 500; round++) {
		char *copy = strdup(whole);
		size_t used = length;
		seed = seed * 1664525u + 1013904223u;
		if (round % 2)
			used = (seed >> 8) % length;
		for (int k = 0; round % 2 == 0 && k < 4; k++) {
			seed = seed * 1664525u + 1013904223u;
			copy[(seed >> 8) % length] = "\";,\n\r\0\xC3-9."[(seed >> 24) % 10];
		}
		sb_problems_clear(&problems);
		sb_surveys_clear(&surveys);
		int status = sb_surveys_read(scratch_bytes("s.csv", copy, used), &job, &surveys, &problems);
		assert_int_equal(status != 0, problems.errors > 0);
		refused += status != 0;
		for (size_t i = 0; i < surveys.count; i++)
			assert_int_equal(surveys.list[i].reading.joint, i + 1);
		free(copy);
	}
	assert_true(refused > 100);
	free(whole);
}

/* Due east on the level from 5000, 1000, 100 in the plain job: 31 ft on is easting 5031. A file that puts
 * joint 2 elsewhere by 3 and 4 ft is 5 ft off. */
static void places_of_the_file_are_held_against_those_that_its_readings_make(void **state)
{
	char text[SB_SURVEYS_PLACES];
	struct surveys_places places;
	struct solution s = { 0 };
	struct sb_err err;

	(void)state;
	jobs_set(&job, "entry", "inclination", "90");
	assert_int_equal(read_text("inclination,azimuth,easting,northing,elevation\n90,90,5031,1000,100\n"
				   "90,90,5062,1003,104\n90,90,,,\n90,90,5124,n/a,100\n"),
		0);
	for (size_t i = 0; i < surveys.count; i++)
		jobs_log(&job, "31", "90", "90");
	assert_int_equal(sb_solve(&job, &s, NULL, &err), 0);
	sb_surveys_compare(&surveys, &s, &places);
	assert_int_equal(places.compared, 2);
	assert_int_equal(places.off, 1);
	assert_int_equal(places.first, 2);
	assert_near(places.worst, 5, 1e-6);
	assert_true(sb_surveys_places_say(&places, job.unit, text));
	assert_non_null(strstr(text, "1 of 2 come out elsewhere, from joint 2 on, by up to 5.00 ft"));
	assert_int_equal(read_text("inclination,azimuth\n90,90\n"), 0);
	sb_surveys_compare(&surveys, &s, &places);
	assert_false(sb_surveys_places_say(&places, job.unit, text));
	sb_solution_clear(&s);
}

int main(void)
{
#define T(f) cmocka_unit_test_setup_teardown(f, begin, tidy)
	const struct CMUnitTest tests[] = {
		T(columns_stand_in_any_order_and_lengths_come_from_the_tally),
		T(a_joint_without_a_reading_is_taken_and_half_a_reading_refused),
		T(lengths_come_from_bit_depths_or_sensor_depths),
		T(depths_go_on_from_what_is_in_the_ground),
		T(joints_that_do_not_follow_one_another_are_refused),
		T(every_wrong_cell_is_listed),
		T(columns_are_required_known_and_told_apart),
		T(a_mix_of_decimal_signs_is_refused),
		T(who_when_and_why_are_taken),
		T(rows_that_stand_for_nothing_in_the_ground_are_passed_over),
		T(the_sample_surveys_are_read_whole_and_none_is_held),
		T(the_sample_bores_tell_their_story),
		T(broken_files_never_crash_it),
		cmocka_unit_test_setup_teardown(
			places_of_the_file_are_held_against_those_that_its_readings_make, begin, tidy),
	};

	return run_tests(tests);
}
