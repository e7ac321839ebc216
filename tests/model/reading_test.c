/* What a row of the log can carry: put in as typed, given back as typed, and refused in words. */
#include "model/reading.h"

#include "base/str.h"
#include "support/near.h"

#include <string.h>

static int put(const char *field, struct reading *r, const char *typed, struct sb_err *err)
{
	return sb_row_field_put(sb_row_field(field), r, INCLINE_DOWN, typed, err);
}

static const char *got(const char *field, const struct reading *r)
{
	return sb_row_field_get(sb_row_field(field), r);
}

static void every_field_goes_in_and_comes_back_as_typed(void **state)
{
	static const char *const typed[][2] = { { "joint_length", "31.20" }, { "inclination", "88.40" },
		{ "azimuth", "007.5" }, { "tool_face", "330" }, { "slid", "12.0" }, { "thrust", "-500" },
		{ "torque", "2050" }, { "flow", "285" }, { "standpipe", "375" }, { "annular", "3" },
		{ "returns", "partial" }, { "started", "06:45" }, { "ended", "06:58" },
		{ "remarks", "past the water main" }, { "azimuth_by", "gyro" }, { "pushes", "0:8@60" },
		{ "total_gravity", "1.0002" }, { "total_field", "50210" }, { "dip", "-61.20" },
		{ "gravity_x", "0.98" }, { "gravity_y", "-0.02" }, { "gravity_z", "-0.17" },
		{ "field_x", "-12450" }, { "field_y", "300" }, { "field_z", "48010" } };
	struct reading r = { 0 }, empty = { 0 };
	struct sb_err err;

	(void)state;
	assert_int_equal(sb_row_field_count, sizeof typed / sizeof *typed);
	for (size_t i = 0; i < sb_row_field_count; i++) {
		assert_string_equal(sb_row_fields[i].name, typed[i][0]);
		assert_string_equal(got(typed[i][0], &r), "");
		assert_int_equal(put(typed[i][0], &r, typed[i][1], &err), 0);
		assert_string_equal(got(typed[i][0], &r), typed[i][1]);
	}
	assert_near(r.joint_length.value, 31.2, 0);
	assert_near(r.azimuth.value, 7.5, 0);
	assert_int_equal(r.returns, RETURNS_PARTIAL);
	for (size_t i = 0; i < sb_row_field_count; i++)
		assert_int_equal(put(typed[i][0], &r, i % 2 ? "" : " \t", &err), 0);
	assert_memory_equal(&r, &empty, sizeof r);
}

static void a_field_is_known_by_its_column_and_by_its_option(void **state)
{
	(void)state;
	assert_ptr_equal(sb_row_field("joint_length"), sb_row_field("joint-length"));
	assert_ptr_equal(sb_row_field("tool-face"), sb_row_field("tool_face"));
	assert_null(sb_row_field("tool face"));
	assert_null(sb_row_field(""));
	for (size_t i = 0; i < sb_row_field_count; i++) {
		const struct row_field *f = &sb_row_fields[i];
		assert_ptr_equal(sb_row_field(f->name), f);
		assert_ptr_equal(sb_row_field(f->option), f);
		assert_true(strlen(f->label) > 0 && strlen(f->help) > 0);
	}
}

static void units_follow_the_jobs(void **state)
{
	(void)state;
	assert_string_equal(sb_row_field_unit(sb_row_field("slid"), UNIT_M), "m");
	assert_string_equal(sb_row_field_unit(sb_row_field("slid"), UNIT_FTUS), "ft");
	assert_string_equal(sb_row_field_unit(sb_row_field("thrust"), UNIT_M), "kN");
	assert_string_equal(sb_row_field_unit(sb_row_field("thrust"), UNIT_FT), "lbf");
	assert_string_equal(sb_row_field_unit(sb_row_field("azimuth"), UNIT_M), "deg");
	assert_string_equal(sb_row_field_unit(sb_row_field("remarks"), UNIT_FT), "");
}

static void a_reading_is_taken_when_both_angles_are_there(void **state)
{
	struct reading r = { 0 };

	(void)state;
	assert_false(sb_reading_taken(&r));
	put("inclination", &r, "88", NULL);
	assert_false(sb_reading_taken(&r));
	put("azimuth", &r, "0", NULL);
	assert_true(sb_reading_taken(&r));
	put("inclination", &r, "", NULL);
	assert_false(sb_reading_taken(&r));
}

static void refuse(const char *field, enum incline incline, const char *typed, const char *says)
{
	struct reading r, before;
	struct sb_err err = { 0 };

	memset(&r, 0x41, sizeof r);
	before = r;
	assert_int_equal(sb_row_field_put(sb_row_field(field), &r, incline, typed, &err), -1);
	assert_string_equal(err.text, says);
	assert_memory_equal(&r, &before, sizeof r);
}

static void a_number_that_cannot_be_is_refused_by_its_name(void **state)
{
	(void)state;
	refuse("azimuth", INCLINE_DOWN, "361", "azimuth 361 cannot be: it lies between 0 and 360.");
	refuse("azimuth", INCLINE_DOWN, "-0.1", "azimuth -0.1 cannot be: it lies between 0 and 360.");
	refuse("azimuth", INCLINE_DOWN, "360.0000001",
		"azimuth 360.0000001 cannot be: it lies between 0 and 360.");
	refuse("azimuth", INCLINE_DOWN, "east", "azimuth: 'east' is not a number. Type it like 88.4.");
	refuse("tool_face", INCLINE_DOWN, "-30", "tool face -30 cannot be: it lies between 0 and 360.");
	refuse("joint_length", INCLINE_DOWN, "0", "joint length 0 cannot be: it lies between 0.01 and 1000.");
	refuse("slid", INCLINE_DOWN, "12 ft",
		"slid: '12 ft' is not a number: leave out 'ft' and type the number alone.");
	/* Once it read 'between -1e+07 and 1e+07'. */
	refuse("thrust", INCLINE_DOWN, "99999999",
		"thrust 99999999 cannot be: it lies between -10000000 and 10000000.");
}

static void an_inclination_is_judged_in_the_jobs_convention(void **state)
{
	static const struct {
		enum incline incline;
		const char *low, *high;
	} ends[] = { { INCLINE_DOWN, "0", "180" }, { INCLINE_LEVEL, "-90", "90" },
		{ INCLINE_GRADE, "-50000", "50000" } };

	(void)state;
	refuse("inclination", INCLINE_DOWN, "-1",
		"inclination -1 cannot be: this job reads it from straight down, 0 to 180, and 90 is level. If it was read "
		"from level, it is 89 here.");
	refuse("inclination", INCLINE_DOWN, "-91",
		"inclination -91 cannot be: this job reads it from straight down, 0 to 180, and 90 is level.");
	/* Once the value was rounded to six digits, and 180 was said not to be. */
	refuse("inclination", INCLINE_DOWN, "180.00001",
		"inclination 180.00001 cannot be: this job reads it from straight down, 0 to 180, and 90 is level.");
	refuse("inclination", INCLINE_LEVEL, "91.5",
		"inclination 91.5 cannot be: this job reads it from level, -90 to 90, rising positive. If it was read from "
		"straight down, it is 1.5 here.");
	refuse("inclination", INCLINE_GRADE, "60000",
		"inclination 60000 % cannot be: this job reads it in percent of grade, -50000 to 50000.");
	refuse("inclination", INCLINE_GRADE, "10 %",
		"inclination: '10 %' is not a number: leave out '%' and type the number alone.");
	for (size_t i = 0; i < 3; i++) {
		struct reading r = { 0 };
		const struct row_field *f = sb_row_field("inclination");
		assert_int_equal(sb_row_field_put(f, &r, ends[i].incline, ends[i].low, NULL), 0);
		assert_int_equal(sb_row_field_put(f, &r, ends[i].incline, ends[i].high, NULL), 0);
		assert_string_equal(r.inclination.text, ends[i].high);
	}
}

static void times_of_day_are_read_as_hands_write_them(void **state)
{
	static const char *const good[][2] = { { "14:32", "14:32" }, { "7:05", "07:05" },
		{ "07:05", "07:05" }, { "0705", "07:05" }, { "705", "07:05" }, { " 14:32\t", "14:32" },
		{ "00:00", "00:00" }, { "23:59", "23:59" }, { "000", "00:00" } };
	/* 01:2 was once taken for twelve past midnight, and 12:3 for 01:23. */
	static const char *const bad[] = { "24:00", "14:60", "1", "14", "14:", ":14", "14:3", "1:2", "01:2",
		"12:3", "1:234", "14:32:10", "14.32", "14h32", "-1:30", "12345", "noon", "7:05pm", "7 :05",
		"0x12" };
	struct reading r = { 0 };
	struct sb_err err;

	(void)state;
	for (size_t i = 0; i < sizeof good / sizeof *good; i++) {
		assert_int_equal(put("started", &r, good[i][0], &err), 0);
		assert_string_equal(r.started, good[i][1]);
	}
	for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
		char says[100];
		snprintf(says, sizeof says, "ended: '%s' is not a time of day: write it as 14:32.", bad[i]);
		refuse("ended", INCLINE_DOWN, bad[i], says);
	}
}

static void returns_are_full_partial_or_none(void **state)
{
	struct reading r = { 0 };

	(void)state;
	assert_string_equal(sb_returns_name(RETURNS_UNSAID), "");
	assert_string_equal(sb_returns_name(RETURNS_FULL), "full");
	assert_string_equal(sb_returns_name(RETURNS_PARTIAL), "partial");
	assert_string_equal(sb_returns_name(RETURNS_NONE), "none");
	assert_int_equal(put("returns", &r, "Full", NULL), 0);
	assert_int_equal(r.returns, RETURNS_FULL);
	assert_int_equal(put("returns", &r, " NONE ", NULL), 0);
	assert_int_equal(r.returns, RETURNS_NONE);
	refuse("returns", INCLINE_DOWN, "some", "returns 'some' is not known: write full, partial or none.");
	refuse("returns", INCLINE_DOWN, "full returns at the pit",
		"returns 'full returns at the ' is not known: write full, partial or none.");
}

static void remarks_are_kept_whole_or_refused(void **state)
{
	char text[SB_REMARK_TEXT + 10];
	struct reading r = { 0 };
	struct sb_err err;

	(void)state;
	memset(text, 'r', sizeof text);
	text[SB_REMARK_TEXT - 1] = '\0';
	assert_int_equal(put("remarks", &r, text, &err), 0);
	assert_string_equal(r.remarks, text);
	text[SB_REMARK_TEXT - 1] = 'r';
	text[SB_REMARK_TEXT + 2] = '\0';
	refuse("remarks", INCLINE_DOWN, text, "remarks: too long by 3 characters; 255 fit.");
	refuse("remarks", INCLINE_DOWN, "gr\xfcn", "remarks: this is not UTF-8 text.");
	assert_int_equal(put("remarks", &r, "gr\xc3\xbcn\nbell\a", &err), 0);
	assert_string_equal(r.remarks, "gr\xc3\xbcn bell?");
}

static const struct CMUnitTest tests[] = {
	cmocka_unit_test(every_field_goes_in_and_comes_back_as_typed),
	cmocka_unit_test(a_field_is_known_by_its_column_and_by_its_option),
	cmocka_unit_test(units_follow_the_jobs),
	cmocka_unit_test(a_reading_is_taken_when_both_angles_are_there),
	cmocka_unit_test(a_number_that_cannot_be_is_refused_by_its_name),
	cmocka_unit_test(an_inclination_is_judged_in_the_jobs_convention),
	cmocka_unit_test(times_of_day_are_read_as_hands_write_them),
	cmocka_unit_test(returns_are_full_partial_or_none),
	cmocka_unit_test(remarks_are_kept_whole_or_refused),
};

int main(void)
{
	return run_tests(tests);
}
