/* Job sheets: good ones whole, bad ones with every error at once. */
#include "io/sheet.h"

#include "base/mem.h"
#include "io/bore.h"
#include "io/scratch.h"
#include "model/solve.h"

static struct sb_problems problems;
static struct job job;

static int tidy(void **state)
{
	(void)state;
	sb_problems_clear(&problems);
	sb_job_clear(&job);
	scratch("x");
	scratch_empty();
	return 0;
}

static const char good_ini[] =
	"[job]\nname = Test\nowner = O\ncontractor = C\nunit = m\ninclination = level\n"
	"[control]\ncrs = local\nvertical_datum = site\nentry = 0, 0, 10\nexit = 0, 100, 10\n"
	"[azimuth]\nreference = grid\n[tool]\nsensor_to_bit = 1\n[drill_pipe]\njoint_length = 5\n"
	"[product_pipe]\nmaterial = pe\noutside_diameter = 315\nwall = 28\n"
	"[bend]\njoint_minimum = 50\n[corridor]\nup = 1\ndown = 1\nleft = 1\nright = 1\n"
	"[files]\nprofile = profile.csv\n";
static const char good_profile[] = "station,elevation,radius\n0,10,\n30,4,60\n70,4,60\n100,10,\n";

static int read_sheet(void)
{
	sb_problems_clear(&problems);
	sb_job_clear(&job);
	return sb_sheet_read(scratch_folder, &job, &problems);
}

static void assert_problem(const char *file, int line, const char *column, const char *words)
{
	for (size_t i = 0; i < problems.count; i++) {
		const struct sb_problem *p = &problems.list[i];
		if (strcmp(p->file, file) == 0 && p->line == line && strcmp(p->column, column) == 0 &&
			strstr(p->text, words))
			return;
	}
	struct sb_str text = { 0 };
	for (size_t i = 0; i < problems.count; i++)
		sb_sheet_say(&problems.list[i], &text);
	fail_msg("none says \"%s line %d, %s: ...%s...\" among:\n%s", file, line, column, words,
		sb_str_get(&text));
}

/* The good sheet with one line of job.ini replaced: from is a part of it. */
static int read_with(const char *from, const char *to)
{
	struct sb_str ini = { 0 };
	const char *at = strstr(good_ini, from);

	assert_non_null(at);
	sb_str_add(&ini, "%.*s%s%s", (int)(at - good_ini), good_ini, to, at + strlen(from));
	scratch_text("job.ini", ini.text);
	scratch_text("profile.csv", good_profile);
	sb_str_clear(&ini);
	return read_sheet();
}

static void a_good_sheet_is_read(void **state)
{
	(void)state;
	assert_int_equal(read_with("", ""), 0);
	assert_int_equal(problems.count, 0);
	assert_string_equal(job.name, "Test");
	assert_string_equal(job.joint_minimum.text, "50");
	assert_int_equal(job.profile_count, 4);
	assert_string_equal(job.profile[1].radius.text, "60");
	assert_int_equal(job.profile[1].line, 0);
	assert_string_equal(job.near.text, "0.7"); /* what holds when it is left out */
}

static void the_sample_sheets_have_nothing_to_say(void **state)
{
	(void)state;
	struct job tern, kestrel;
	bore_sheet(TERN, &tern);
	bore_sheet(KESTREL, &kestrel);
	assert_int_equal(tern.unit, UNIT_FT);
	assert_int_equal(kestrel.unit, UNIT_M);
	assert_true(tern.tally_count > 68 && kestrel.tally_count > 44);
	assert_int_equal(kestrel.alignment_count, 3);
	assert_true(tern.obstacle_count > 4 && tern.soil_count > 3 && tern.range_count == 2);
	sb_job_clear(&tern);
	sb_job_clear(&kestrel);
}

static void every_error_is_listed_at_once_by_line_and_key(void **state)
{
	(void)state;
	scratch_text("job.ini",
		"unit = m\n[job]\nname = A\nname = B\nunits = m\nunit = yards\n[contrl]\ncrs = local\n"
		"[tool]\nsensor_to_bit = 31 ft\nnot a key\n[bend]\njoint_minimum = -5\nsensor_to_bit = 3\n"
		"[corridor] up = 3\n[steering\n[azimuth]\nreference = magnetic\n[files]\nprofil = profile.csv\n"
		"ground = ../ground.csv\ntally = tally.csv\nsoil = none.csv\n");
	scratch_text("tally.csv", "joint,lenght\n1,31\n");
	assert_int_equal(read_sheet(), -1);
	assert_problem("job.ini", 1, "unit", "before any section");
	assert_problem("job.ini", 4, "name", "already in line 3");
	assert_problem("job.ini", 5, "units", "'unit' is probably meant");
	assert_problem("job.ini", 6, "unit", "not one of m|ft|ftUS");
	assert_problem("job.ini", 7, "", "[control] is probably meant");
	assert_problem("job.ini", 10, "sensor_to_bit", "leave out 'ft'");
	assert_problem("job.ini", 11, "", "neither a section");
	assert_problem("job.ini", 13, "joint_minimum", "cannot be");
	assert_problem("job.ini", 14, "sensor_to_bit", "belongs under [tool]");
	assert_problem("job.ini", 15, "", "nothing else stands in its line");
	assert_problem("job.ini", 16, "", "no closing ]");
	assert_problem("job.ini", 18, "declination", "needs declination");
	assert_problem("job.ini", 18, "convergence", "needs convergence");
	assert_problem("job.ini", 20, "profil", "'profile' is probably meant");
	assert_problem("job.ini", 21, "ground", "not the name of a file in this folder");
	assert_problem("job.ini", 0, "owner", "[job] owner is missing");
	assert_problem("job.ini", 0, "profile", "[files] profile is missing");
	assert_problem("tally.csv", 0, "lenght", "'length' is probably meant");
	assert_problem("none.csv", 0, "", "There is no file");
	assert_null(job.tally);
	assert_int_equal(job.name[0], '\0');
}

static void cells_are_refused_by_line_and_column(void **state)
{
	(void)state;
	assert_int_equal(read_with("profile = profile.csv\n",
				 "profile = profile.csv\nobstacles = o.csv\ntally = tally.csv\n"),
		-1);
	scratch_text("profile.csv", "Station;ELEVATION;radius\n0;10;\n30;4,5;six\n;4;60\n100;10;\n");
	scratch_text("o.csv", "easting,northing,elevation,name,colour\n1,2,3,,red\n1,\"2,5\",3,pipe,red\n");
	scratch_text("tally.csv", "joint,length\n1,5\n2,5.1\n2.5,5\n3,5.0\n5,5.2\n6,50\n");
	assert_int_equal(read_sheet(), -1);
	assert_problem("profile.csv", 3, "radius", "'six' is not a number");
	assert_problem("profile.csv", 4, "station", "nothing is written here");
	assert_problem("o.csv", 2, "name", "nothing is written here");
	assert_problem("o.csv", 3, "northing", "comma");
	assert_problem("o.csv", 0, "colour", "not used");
	assert_problem("tally.csv", 4, "joint", "not a whole number");
}

static void what_shows_only_together_is_found(void **state)
{
	(void)state;
	assert_int_equal(
		read_with("[files]\n", "[entry]\ninclination = 99\n[files]\ntally = t.csv\nground = g.csv\n"),
		-1);
	scratch_text("t.csv", "joint,length\n1,5\n3,5\n4,9\n");
	scratch_text("g.csv", "station,elevation\n0,10\n50,8\n50,9\n");
	assert_int_equal(read_sheet(), -1);
	assert_problem("job.ini", 30, "azimuth", "not azimuth");
	assert_problem("job.ini", 30, "inclination", "lies between -90 and 90");
	assert_problem("t.csv", 3, "joint", "joint 3 follows joint 1");
	assert_problem("t.csv", 4, "length", "Measure it again");
	assert_problem("g.csv", 4, "station", "not past the station before");
	assert_int_equal(read_with("wall = 28", "wall = 160"), -1);
	assert_problem("job.ini", 21, "wall", "leaves no bore");
	assert_int_equal(read_with("crs = local", "crs = UTM 32"), -1);
	assert_problem("job.ini", 8, "crs", "EPSG:32615");
}

static void the_design_line_is_built_and_its_faults_named_by_the_file_of_the_sheet(void **state)
{
	(void)state;
	assert_int_equal(read_with("profile = profile.csv", "profile = rev B.csv"), -1);
	scratch_text("rev B.csv", "station,elevation,radius\n0,10,\n30,4,600\n70,4,600\n100,10,\n");
	assert_int_equal(read_sheet(), -1);
	assert_problem("rev B.csv", 3, "radius", "does not fit");
}

static void doubts_are_said_and_do_not_refuse(void **state)
{
	(void)state;
	assert_int_equal(read_with("[bend]\njoint_minimum = 50\n", ""), 0);
	assert_int_equal(problems.errors, 0);
	assert_problem("job.ini", 0, "window_minimum", "no bend will be judged");
	scratch_text("ground.csv", "station,elevation\n0,10\n");
	assert_int_equal(read_with("left = 1\n", ""), 0);
	assert_problem("ground.csv", 0, "", "does not name it");
	assert_problem("job.ini", 0, "left", "not judged");
}

static void no_folder_and_no_job_ini_are_one_sentence(void **state)
{
	(void)state;
	assert_int_equal(sb_sheet_read("/nonexistent", &job, &problems), -1);
	assert_int_equal(problems.count, 1);
	assert_problem("job.ini", 0, "", "There is no file");
	scratch_text("file", "x");
	sb_problems_clear(&problems);
	assert_int_equal(sb_sheet_read(scratch("file"), &job, &problems), -1);
	assert_int_equal(problems.count, 1);
}

static void long_lines_bad_text_and_indented_keys_are_seen(void **state)
{
	(void)state;
	char ini[700];
	snprintf(ini, sizeof ini, "[job]\r\nname = %0300d\r\n  owner = O\r\n\towner = P\ncontractor = \xE4\n",
		1);
	scratch_text("job.ini", ini);
	assert_int_equal(read_sheet(), -1);
	assert_problem("job.ini", 2, "", "longer than 198 characters");
	assert_problem("job.ini", 4, "owner", "already in line 3");
	assert_problem("job.ini", 5, "", "not UTF-8");
	scratch_bytes("job.ini", "\xEF\xBB\xBF[job]\nname = a\0b\n", 20);
	assert_int_equal(read_sheet(), -1);
	assert_problem("job.ini", 2, "", "NUL");
}

static void a_comment_behind_a_value_is_taken_off(void **state)
{
	(void)state;
	assert_int_equal(read_with("joint_minimum = 50", "joint_minimum : 50 ; the contract, 4.2"), 0);
	assert_string_equal(job.joint_minimum.text, "50");
}

static void a_file_of_rubbish_takes_a_bounded_list(void **state)
{
	(void)state;
	struct sb_str text = { 0 };
	for (int i = 0; i < 20000; i++)
		sb_str_add(&text, "rubbish %d\n", i);
	scratch_text("job.ini", text.text);
	assert_int_equal(read_sheet(), -1);
	assert_true(problems.count < SB_SHEET_INI_PROBLEMS + 20);
	text.length = 0;
	sb_str_add(&text, "station,elevation\n");
	for (int i = 0; i < SB_SHEET_ROWS + 10; i++)
		sb_str_add(&text, "1,1\n");
	assert_int_equal(read_with("[files]\n", "[files]\nground = g.csv\n"), -1);
	scratch_text("g.csv", text.text);
	assert_int_equal(read_sheet(), -1);
	assert_problem("g.csv", SB_SHEET_ROWS + 2, "", "more than 100000 rows");
	sb_str_clear(&text);
}

/* Copies of a sample sheet, cut short anywhere or with bytes changed: a sheet or problems, never a crash. */
static void broken_sheets_never_crash_it(void **state)
{
	(void)state;
	static const char *const files[] = { "job.ini", "alignment.csv", "profile.csv", "corridor.csv",
		"ground.csv", "obstacles.csv", "tally.csv", "soil.csv" };
	char *whole[8], path[PATH_MAX];
	unsigned seed = 11;
	size_t refused = 0;
	for (size_t i = 0; i < 8; i++) {
		snprintf(path, sizeof path, KESTREL "/%s", files[i]);
		whole[i] = scratch_read(path);
		assert_non_null(whole[i]);
		scratch_text(files[i], whole[i]);
	}
	assert_int_equal(read_sheet(), 0);
	for (int round = 0; round < 400; round++) {
		size_t which = (size_t)round % 8, length = strlen(whole[which]);
		char *copy = strdup(whole[which]);
		seed = seed * 1664525u + 1013904223u;
		if (round % 3 == 0)
			length = (seed >> 8) % length;
		for (int k = 0; round % 3 != 0 && k < round % 5 + 1; k++) {
			seed = seed * 1664525u + 1013904223u;
			copy[(seed >> 8) % length] = "\";,=[]\n\0\xC3-9."[(seed >> 24) % 13];
		}
		scratch_bytes(files[which], copy, length);
		int status = read_sheet();
		assert_int_equal(status != 0, problems.errors > 0);
		refused += status != 0;
		scratch_text(files[which], whole[which]);
		free(copy);
	}
	assert_true(refused > 100);
	for (size_t i = 0; i < 8; i++)
		free(whole[i]);
}

static void a_drawing_in_place_of_a_table_is_sent_to_design(void **state)
{
	(void)state;
	assert_int_equal(read_with("profile = profile.csv", "profile = crossing.XML"), -1);
	assert_int_equal(problems.errors, 1);
	assert_problem("job.ini", problems.list[0].line, "profile", "`sagbend design` reads it");
}

/* The settings alone, for a design that is still to come: of the tables what can be read of the line, and no
 * word about what is missing. */
static void settings_are_read_before_there_is_a_design(void **state)
{
	(void)state;
	read_with("[files]\nprofile = profile.csv\n", "");
	sb_job_clear(&job);
	sb_problems_clear(&problems);
	assert_int_equal(sb_sheet_settings(scratch("."), &job, &problems), 0);
	assert_int_equal(problems.count, 0);
	assert_string_equal(job.name, "Test");
	assert_int_equal(job.profile_count, 0);
	sb_job_clear(&job);
	read_with("", "");
	sb_job_clear(&job);
	assert_int_equal(sb_sheet_settings(scratch("."), &job, &problems), 0);
	assert_int_equal(job.profile_count, 4);
	sb_job_clear(&job);
	scratch_text("profile.csv", "station,elevation\n0,deep\n");
	assert_int_equal(sb_sheet_settings(scratch("."), &job, &problems), 0);
	assert_int_equal(job.profile_count, 0);
	assert_int_equal(problems.count, 0);
	sb_job_clear(&job);
	read_with("unit = ", "unit = cu");
	sb_job_clear(&job);
	sb_problems_clear(&problems);
	assert_int_equal(sb_sheet_settings(scratch("."), &job, &problems), -1);
	assert_true(problems.errors > 0);
	assert_int_equal(sb_sheet_settings(scratch("nowhere"), &job, &problems), -1);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test_teardown(a_good_sheet_is_read, tidy),
		cmocka_unit_test_teardown(the_sample_sheets_have_nothing_to_say, tidy),
		cmocka_unit_test_teardown(every_error_is_listed_at_once_by_line_and_key, tidy),
		cmocka_unit_test_teardown(cells_are_refused_by_line_and_column, tidy),
		cmocka_unit_test_teardown(what_shows_only_together_is_found, tidy),
		cmocka_unit_test_teardown(
			the_design_line_is_built_and_its_faults_named_by_the_file_of_the_sheet, tidy),
		cmocka_unit_test_teardown(doubts_are_said_and_do_not_refuse, tidy),
		cmocka_unit_test_teardown(no_folder_and_no_job_ini_are_one_sentence, tidy),
		cmocka_unit_test_teardown(long_lines_bad_text_and_indented_keys_are_seen, tidy),
		cmocka_unit_test_teardown(a_comment_behind_a_value_is_taken_off, tidy),
		cmocka_unit_test_teardown(a_file_of_rubbish_takes_a_bounded_list, tidy),
		cmocka_unit_test_teardown(broken_sheets_never_crash_it, tidy),
		cmocka_unit_test_teardown(a_drawing_in_place_of_a_table_is_sent_to_design, tidy),
		cmocka_unit_test_teardown(settings_are_read_before_there_is_a_design, tidy),
	};

	scratch("x");
	return run_tests(tests);
}
