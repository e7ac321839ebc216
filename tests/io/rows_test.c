/* The path as a table: its order, its signs, its blanks, and the rows between joints. */
#include "io/rows.h"

#include "base/mem.h"
#include "io/bore.h"
#include "io/scratch.h"
#include "support/jobs.h"

static struct job job;
static struct solution s;
static struct sb_str text;
static struct sb_csv *csv;
static struct sb_problems problems;

static int tidy(void **state)
{
	(void)state;
	sb_csv_close(csv);
	csv = NULL;
	sb_str_clear(&text);
	sb_solution_clear(&s);
	sb_job_clear(&job);
	return 0;
}

/* The table as CSV, read back. */
static void table(bool all_legs, double every)
{
	struct rows_ask ask = { all_legs, every };

	sb_csv_close(csv);
	text.length = 0;
	assert_int_equal(sb_rows_table(&job, &s, &ask, ROWS_CSV, &text, NULL), 0);
	assert_int_equal(
		sb_csv_open(scratch_bytes("rows.csv", text.text, text.length), "rows.csv", &csv, &problems),
		0);
	assert_int_equal(problems.count, 0);
}

static double cell(const struct csv_row *row, enum path_column c)
{
	struct number n;

	if (sb_number_parse(row->cells[c], &n, NULL))
		fail_msg("%s is '%s'", sb_path_columns[c].name, row->cells[c]);
	return n.value;
}

static const struct csv_row *joint_row(int joint)
{
	for (const struct csv_row *r; (r = sb_csv_next(csv)) != NULL;)
		if (cell(r, PATH_JOINT) == joint)
			return r;
	fail_msg("no row of joint %d", joint);
	return NULL;
}

static void the_columns_stand_in_the_order_that_scripts_rely_on(void **state)
{
	(void)state;
	jobs_plain(&job);
	jobs_log(&job, "", "80", "90");
	jobs_solve(&job, &s);
	table(false, 0);
	const char *want =
		"joint,leg,bit_depth,survey_depth,inclination,azimuth,station,offset,elevation,height,"
		"northing,easting,dogleg,radius_joint,radius_window,corridor_share,"
		"sigma_along,sigma_across,sigma_up,chance_outside,shift_station,shift_offset,shift_height,"
		"cover,cover_least,clearance\r\n";
	assert_memory_equal(text.text, want, strlen(want));
}

/* Five worked joints along a line due east. Derived, no publication: the formulas of minimum curvature by
 * hand; station and elevation to a thousandth, radii to a foot. */
static void the_worked_joints_come_out_in_feet(void **state)
{
	(void)state;
	static const char *const typed[][3] = { { "31.20", "80.0", "90.0" }, { "31.35", "80.6", "90.3" },
		{ "31.15", "81.4", "90.4" }, { "31.35", "82.1", "90.2" }, { "31.25", "82.9", "89.8" } };
	static const double want[][6] = { { 31.20, 30.726, 94.582, 0, 0, 0 },
		{ 62.55, 61.628, 89.300, 0.081, 2685, 0 }, { 93.70, 92.393, 84.427, 0.269, 2214, 3691 },
		{ 125.05, 123.418, 79.929, 0.431, 2469, 2549 },
		{ 156.30, 154.400, 75.850, 0.431, 2005, 2283 } };
	jobs_plain(&job);
	for (size_t i = 0; i < 5; i++)
		jobs_log(&job, typed[i][0], typed[i][1], typed[i][2]);
	jobs_solve(&job, &s);
	table(false, 0);
	assert_int_equal((int)cell(sb_csv_next(csv), PATH_JOINT), 0);
	for (size_t i = 0; i < 5; i++) {
		const struct csv_row *r = sb_csv_next(csv);
		assert_string_equal(r->cells[PATH_INCLINATION], typed[i][1]);
		assert_near(cell(r, PATH_SURVEY_DEPTH), want[i][0], 1e-6);
		assert_near(cell(r, PATH_STATION), want[i][1], 1e-3);
		assert_near(cell(r, PATH_ELEVATION), want[i][2], 1e-3);
		assert_near(cell(r, PATH_OFFSET), want[i][3], 1e-3);
		assert_near(cell(r, PATH_EASTING), 5000 + want[i][1], 1e-3);
		assert_near(cell(r, PATH_NORTHING), 1000 - want[i][3], 1e-3);
		if (want[i][4] > 0)
			assert_near(cell(r, PATH_RADIUS_JOINT), want[i][4], 1);
		if (want[i][5] > 0)
			assert_near(cell(r, PATH_RADIUS_WINDOW), want[i][5], 1);
	}
}

static void signs_are_right_and_high_positive(void **state)
{
	(void)state;
	jobs_plain(&job);
	jobs_log(&job, "", "81", "91"); /* flatter than the design, to the right of due east */
	jobs_solve(&job, &s);
	table(false, 0);
	const struct csv_row *r = joint_row(1);
	assert_true(cell(r, PATH_OFFSET) > 0 && cell(r, PATH_HEIGHT) > 0);
	assert_near(cell(r, PATH_DOGLEG), 1.4, 0.1);
	assert_near(
		cell(r, PATH_CORRIDOR_SHARE), fmax(cell(r, PATH_OFFSET) / 5, cell(r, PATH_HEIGHT) / 2), 1e-5);
}

static void blanks_stand_where_there_is_nothing_to_say(void **state)
{
	(void)state;
	jobs_plain(&job);
	jobs_set(&job, "tool", "sensor_to_bit", "40");
	jobs_log(&job, "", "80", "90"); /* the sensor is still behind the entry */
	jobs_log(&job, "", "80", "90"); /* straight */
	jobs_log(&job, "", "", "");	/* no reading */
	jobs_solve(&job, &s);
	table(false, 0);
	const struct csv_row *r = joint_row(0);
	assert_string_equal(r->cells[PATH_INCLINATION], "80");
	assert_string_equal(r->cells[PATH_DOGLEG], "");
	assert_near(cell(r, PATH_ELEVATION), 100, 0);
	r = joint_row(1);
	assert_near(cell(r, PATH_SURVEY_DEPTH), -9, 1e-9);
	assert_string_equal(r->cells[PATH_AZIMUTH], "90");
	for (int c = PATH_STATION; c < PATH_COLUMNS; c++)
		assert_string_equal(r->cells[c], "");
	r = joint_row(2);
	assert_near(cell(r, PATH_DOGLEG), 0, 0);
	assert_string_equal(r->cells[PATH_RADIUS_JOINT], "");
	assert_string_equal(r->cells[PATH_RADIUS_WINDOW], "");
	r = joint_row(3);
	assert_string_equal(r->cells[PATH_INCLINATION], "");
	assert_string_equal(r->cells[PATH_STATION], "");
	assert_near(cell(r, PATH_BIT_DEPTH), 93, 1e-9);
}

static void withdrawn_joints_come_only_when_asked_and_in_order_of_leg(void **state)
{
	(void)state;
	bore_tern(&job);
	bore_solve(&job, &s);
	table(false, 0);
	int joint = 0;
	for (const struct csv_row *r; (r = sb_csv_next(csv)) != NULL; joint++) {
		assert_int_equal((int)cell(r, PATH_JOINT), joint);
		assert_int_equal((int)cell(r, PATH_LEG), joint <= 33 ? 1 : 2);
	}
	assert_int_equal(joint, 69);
	table(true, 0);
	int rows = 0, leg = 1, before = -1;
	for (const struct csv_row *r; (r = sb_csv_next(csv)) != NULL; rows++) {
		if ((int)cell(r, PATH_LEG) != leg) {
			assert_int_equal(before, 38);
			before = 33;
			leg = 2;
		}
		assert_int_equal((int)cell(r, PATH_JOINT), before + 1);
		before++;
	}
	assert_int_equal(rows, 69 + 5);
}

/* R = 1000, from level upwards in one arc: a point at station x lies at R - sqrt(R^2 - x^2), exactly. */
static void rows_between_joints_lie_on_the_same_arcs(void **state)
{
	(void)state;
	const double radius = 1000, turn = 0.1;
	char inclination[32], length[32];
	jobs_plain(&job);
	jobs_set(&job, "entry", "inclination", "90");
	for (int i = 1; i <= 3; i++) {
		snprintf(inclination, sizeof inclination, "%.13f",
			90 + turn * i * 180 / 3.14159265358979323846);
		snprintf(length, sizeof length, "%.13f", radius * turn);
		jobs_log(&job, length, inclination, "90");
	}
	jobs_solve(&job, &s);
	table(false, 25);
	int count = 0;
	for (const struct csv_row *r; (r = sb_csv_next(csv)) != NULL; count++) {
		double x = 25.0 * count;
		assert_near(cell(r, PATH_STATION), x, 1e-6);
		assert_near(cell(r, PATH_ELEVATION), 100 + radius - sqrt(radius * radius - x * x), 1e-6);
		assert_near(cell(r, PATH_INCLINATION), 90 + asin(x / radius) * 180 / 3.14159265358979323846,
			1e-6);
		assert_near(cell(r, PATH_SURVEY_DEPTH), radius * asin(x / radius), 1e-5);
		assert_string_equal(r->cells[PATH_BIT_DEPTH], "");
		if (count)
			assert_near(cell(r, PATH_RADIUS_JOINT), radius, 1e-3);
	}
	assert_int_equal(count, 12); /* 0 to 275; the path ends at 1000 sin 0.3 = 295.52 */
}

static void an_every_that_cannot_be_is_refused(void **state)
{
	(void)state;
	struct sb_err err;
	static const double wrong[] = { -1, 1e-9, NAN, HUGE_VAL };
	jobs_plain(&job);
	jobs_solve(&job, &s);
	for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
		struct rows_ask ask = { .every = wrong[i] };
		assert_int_equal(sb_rows_table(&job, &s, &ask, ROWS_CSV, &text, &err), -1);
		assert_int_equal(err.code, SB_RANGE);
	}
}

static void an_empty_log_has_the_entry_alone(void **state)
{
	(void)state;
	jobs_plain(&job);
	jobs_solve(&job, &s);
	table(false, 0);
	const struct csv_row *r = sb_csv_next(csv);
	assert_near(cell(r, PATH_STATION), 0, 0);
	assert_null(sb_csv_next(csv));
	table(false, 25);
	assert_non_null(sb_csv_next(csv));
	assert_null(sb_csv_next(csv));
}

static void json_holds_the_same_cells_with_null_for_blank(void **state)
{
	(void)state;
	struct sb_json j = { 0 };
	struct rows_ask ask = { 0 };
	jobs_plain(&job);
	jobs_log(&job, "31.20", "80.0", "90");
	jobs_solve(&job, &s);
	assert_int_equal(sb_rows_table(&job, &s, &ask, ROWS_JSON, &text, NULL), 0);
	assert_non_null(strstr(text.text, "\"unit\": \"ft\""));
	assert_non_null(strstr(text.text,
		"\"joint\": 1, \"leg\": 1, \"bit_depth\": 31.2, \"survey_depth\": 31.2, "
		"\"inclination\": 80.0, \"azimuth\": 90, \"station\": 30.7260"));
	assert_non_null(strstr(text.text, "\"radius_joint\": null, \"radius_window\": null"));
	sb_json_object(&j, NULL);
	sb_rows_json(&j, &job, &s, sb_solution_last(&s));
	sb_json_end(&j);
	assert_non_null(strstr(j.text.text, "\"joint\": 1,"));
	sb_str_clear(&j.text);
}

static size_t widest(const char *lines)
{
	size_t most = 0;

	while (*lines) {
		size_t length = strcspn(lines, "\n");
		char line[256];
		snprintf(line, sizeof line, "%.*s", (int)length, lines);
		if (sb_utf8_columns(line) > most)
			most = sb_utf8_columns(line);
		lines += length + (lines[length] == '\n');
	}
	return most;
}

static void for_people_there_are_words_in_eighty_columns(void **state)
{
	(void)state;
	struct rows_ask ask = { .all_legs = true };
	bore_tern(&job);
	bore_solve(&job, &s);
	assert_int_equal(sb_rows_table(&job, &s, &ask, ROWS_TEXT, &text, NULL), 0);
	assert_true(widest(text.text) <= 80);
	assert_non_null(strstr(text.text, "3.8 low"));
	assert_non_null(strstr(text.text, "0.1 L"));
	assert_non_null(strstr(text.text, "34/2"));
	assert_null(strstr(text.text, "-0.0"));
	text.length = 0;
	sb_rows_say(&job, &s, &s.path.rows[50], &s.bit, &text);
	assert_true(widest(text.text) <= 80);
	assert_non_null(strstr(text.text, "joint 50   leg 2"));
	assert_non_null(strstr(text.text, "0.7 ft right   0.2 ft high"));
	text.length = 0;
	sb_rows_say(&job, &s, &s.path.rows[57], NULL, &text);
	assert_non_null(strstr(text.text, "no reading was taken"));
	text.length = 0;
	sb_rows_say(&job, &s, &s.path.rows[1], NULL, &text);
	assert_non_null(strstr(text.text, "behind the entry"));
}

static void metres_level_inclination_and_grid_coordinates_come_back(void **state)
{
	(void)state;
	bore_sheet(KESTREL, &job);
	bore_surveys(&job, KESTREL "/surveys.csv");
	bore_solve(&job, &s);
	table(false, 0);
	const struct csv_row *r = joint_row(44);
	double scale = job.scale_factor.value;
	/* The end lies near the exit, seen in the grid. */
	assert_near(cell(r, PATH_EASTING), job.exit.easting.value, 4);
	assert_near(cell(r, PATH_NORTHING), job.exit.northing.value, 4);
	assert_near(cell(r, PATH_BIT_DEPTH) - cell(r, PATH_SURVEY_DEPTH), job.sensor_to_bit.value, 1e-6);
	struct vec3 at = s.path.rows[44].at;
	assert_near(cell(r, PATH_EASTING) - job.entry.easting.value, at.e * scale, 1e-6);
	assert_near(cell(r, PATH_ELEVATION), at.u, 1e-6);
}

int main(void)
{
#define T(f) cmocka_unit_test_teardown(f, tidy)
	const struct CMUnitTest tests[] = {
		T(the_columns_stand_in_the_order_that_scripts_rely_on),
		T(the_worked_joints_come_out_in_feet),
		T(signs_are_right_and_high_positive),
		T(blanks_stand_where_there_is_nothing_to_say),
		T(withdrawn_joints_come_only_when_asked_and_in_order_of_leg),
		T(rows_between_joints_lie_on_the_same_arcs),
		T(an_every_that_cannot_be_is_refused),
		T(an_empty_log_has_the_entry_alone),
		T(json_holds_the_same_cells_with_null_for_blank),
		T(for_people_there_are_words_in_eighty_columns),
		T(metres_level_inclination_and_grid_coordinates_come_back),
	};

	return run_tests(tests);
}
