/* The keys of a job sheet and the columns of its tables: each goes in, comes back as written, and is refused
 * in words that say what would be right.
 */
#include "model/setting.h"

#include "base/str.h"
#include "support/near.h"

#include <stdlib.h>
#include <string.h>

static struct job job;

static int setup(void **state)
{
	(void)state;
	sb_setting_init(&job);
	return 0;
}

static int teardown(void **state)
{
	(void)state;
	sb_job_clear(&job);
	return 0;
}

static void put(const char *section, const char *key, const char *text)
{
	struct sb_err err;

	if (sb_setting_put(sb_setting(section, key), &job, text, &err)) {
		print_error("%s.%s: %s\n", section, key, err.text);
		fail();
	}
}

static void refuse(const char *section, const char *key, const char *text, const char *says)
{
	struct job before = job;
	struct sb_err err = { 0 };

	assert_int_equal(sb_setting_put(sb_setting(section, key), &job, text, &err), -1);
	assert_string_equal(err.text, says);
	assert_memory_equal(&job, &before, sizeof job);
}

/* ---- keys ---- */

static void an_empty_job_has_the_presets(void **state)
{
	static const struct {
		const char *section, *key, *text;
	} presets[] = { { "azimuth", "scale_factor", "1" }, { "tool", "sensor_axes", "x y z" },
		{ "tool", "gravity_unit", "g" }, { "tool", "field_unit", "nT" },
		{ "tool", "gravity_gate", "0.005" }, { "tool", "field_gate", "300" },
		{ "tool", "dip_gate", "0.3" }, { "tool", "sigma_inclination", "0.1" },
		{ "tool", "sigma_azimuth", "0.3" }, { "tool", "bias_inclination", "0.1" },
		{ "tool", "bias_azimuth", "0.3" }, { "tool", "projection", "hold" },
		{ "survey", "course", "arc" }, { "uncertainty", "declination", "0.26" },
		{ "uncertainty", "declination_by_field", "5417" },
		{ "uncertainty", "horizontal_field", "20000" }, { "uncertainty", "string_field", "220" },
		{ "uncertainty", "carried_bias", "0.5" }, { "uncertainty", "carried_noise", "0.5" },
		{ "uncertainty", "depth_scale", "0.001" }, { "uncertainty", "confidence", "95" },
		{ "uncertainty", "judge", "mean" }, { "bend", "window_joints", "3" },
		{ "bend", "method", "ends" }, { "corridor", "near", "0.7" },
		{ "corridor", "look_ahead", "3" }, { "opening", "ratio", "1.5" },
		{ "opening", "forward_ream", "yes" }, { "opening", "fluid_ratio", "3" },
		{ "steering", "tool_face_as", "clock" }, { "acceptance", "exit_survey", "yes" },
		{ "acceptance", "warnings_acknowledged", "no" }, { "fluid", "watch", "0.8" },
		{ "fluid", "sand_share", "0.667" }, { "fluid", "clay_share", "0.5" },
		{ "string", "weld", "yes" }, { "string", "inspection", "yes" },
		{ "string", "coating", "yes" }, { "string", "test", "yes" }, { "string", "drag", "yes" },
		{ "pull", "friction_hole", "0.3" }, { "pull", "friction_hole_low", "0.2" },
		{ "pull", "friction_hole_high", "0.4" }, { "pull", "friction_rollers", "0.1" },
		{ "pull", "contents", "empty" }, { "pull", "watch", "0.9" } };
	size_t count = 0;
	char text[64];

	(void)state;
	for (size_t i = 0; i < sb_setting_count; i++)
		count += sb_settings[i].preset != NULL;
	assert_int_equal(count, sizeof presets / sizeof *presets);
	for (size_t i = 0; i < count; i++) {
		const struct setting *s = sb_setting(presets[i].section, presets[i].key);
		assert_string_equal(s->preset, presets[i].text);
		assert_true(sb_setting_get(s, &job, text, sizeof text));
		assert_string_equal(text, presets[i].text);
	}
	assert_false(sb_setting_get(sb_setting("bend", "window_minimum"), &job, text, sizeof text));
	assert_false(sb_setting_get(sb_setting("job", "name"), &job, text, sizeof text));
	assert_false(sb_setting_get(sb_setting("control", "entry"), &job, text, sizeof text));
}

/* A value that the setting takes, with a zero at its end where it may have one: it must still be there. */
static void written(const struct setting *s, char *text, size_t size)
{
	switch (s->type) {
	case SETTING_TEXT:
		snprintf(text, size, "of %s", s->key);
		return;
	case SETTING_NUMBER:
		snprintf(text, size, "%.2f", s->low + (fmin(s->high, s->low + 40) - s->low) * 0.75);
		return;
	case SETTING_PLACE:
		snprintf(text, size, "655412.30, 1566208.70, 38.50");
		return;
	case SETTING_AXES:
		snprintf(text, size, "-y x z");
		return;
	case SETTING_CHOICE:
		break;
	}
	snprintf(text, size, "%s", strrchr(s->choices, '|') + 1);
}

static void every_key_goes_in_and_comes_back_as_written(void **state)
{
	char want[200], got[200];

	(void)state;
	for (size_t i = 0; i < sb_setting_count; i++) {
		const struct setting *s = &sb_settings[i];
		written(s, want, sizeof want);
		put(s->section, s->key, want);
	}
	/* After all are in: none has been written over by another. */
	for (size_t i = 0; i < sb_setting_count; i++) {
		const struct setting *s = &sb_settings[i];
		written(s, want, sizeof want);
		assert_true(sb_setting_get(s, &job, got, sizeof got));
		assert_string_equal(got, want);
		assert_ptr_equal(sb_setting(s->section, s->key), s);
		assert_true(strlen(s->help) > 0);
	}
	assert_null(sb_setting("bend", "up"));
	assert_null(sb_setting("", "name"));
	assert_near(job.entry.northing.value, 1566208.7, 0);
	assert_int_equal(job.unit, UNIT_FTUS);
	assert_int_equal(job.incline, INCLINE_GRADE);
	assert_int_equal(job.reference, REFERENCE_BORE);
	assert_int_equal(job.material, MATERIAL_PE);
	assert_int_equal(job.method, METHOD_SUM);
	assert_int_equal(job.projection, PROJECTION_CURVE);
}

static void the_ends_of_a_range_are_within_it(void **state)
{
	(void)state;
	for (size_t i = 0; i < sb_setting_count; i++) {
		const struct setting *s = &sb_settings[i];
		char text[64];
		if (s->type != SETTING_NUMBER)
			continue;
		snprintf(text, sizeof text, "%.10g", s->low);
		put(s->section, s->key, text);
		snprintf(text, sizeof text, "%.0f", s->high);
		if (s->high >= 1)
			put(s->section, s->key, text);
	}
}

static void a_choice_is_one_of_those_there_are(void **state)
{
	(void)state;
	refuse("job", "unit", "feet", "'feet' is not one of m|ft|ftUS.");
	refuse("job", "unit", "FT", "'FT' is not one of m|ft|ftUS.");
	refuse("job", "unit", "f", "'f' is not one of m|ft|ftUS.");
	refuse("job", "unit", "m|ft", "'m|ft' is not one of m|ft|ftUS.");
	refuse("azimuth", "reference", "", "'' is not one of grid|true|magnetic|bore.");
	put("azimuth", "reference", "magnetic");
	assert_int_equal(job.reference, REFERENCE_MAGNETIC);
}

/* Read aloud: once it was 'between 0 and 1e+09 length is right'. */
static void a_number_out_of_range_is_refused_with_the_range(void **state)
{
	(void)state;
	refuse("tool", "sensor_to_bit", "-3", "-3 cannot be: between 0 and 1000 is right (length).");
	refuse("azimuth", "declination", "181", "181 cannot be: between -180 and 180 is right (degrees).");
	refuse("azimuth", "scale_factor", "99.96", "99.96 cannot be: between 0.9 and 1.1 is right.");
	refuse("corridor", "up", "-2", "-2 cannot be: 0 or more is right (length).");
	refuse("drill_pipe", "minimum_radius", "0.05", "0.05 cannot be: 0.1 or more is right (length).");
	refuse("drill_pipe", "minimum_radius", "2000000000",
		"2000000000 cannot be: it is too far from 0 (length).");
	refuse("product_pipe", "yield", "2000000",
		"2000000 cannot be: between 0.1 and 1000000 is right (MPa or psi).");
	refuse("corridor", "near", "0", "0 cannot be: between 0.01 and 1 is right.");
	refuse("corridor", "near", "70 %",
		"'70 %' is not a number: leave out '%' and type the number alone.");
	refuse("corridor", "near", "", "There is no number here. Type one, like 88.4.");
}

/* A minimum radius of 1.2 for 1200 would never warn. */
static void a_comma_that_may_be_a_thousand_is_asked_about(void **state)
{
	static const char *const doubtful[] = { "1,200", "12,500", "999,999", "+1,200", "-1,200" };

	(void)state;
	for (size_t i = 0; i < sizeof doubtful / sizeof *doubtful; i++) {
		char says[200];
		snprintf(says, sizeof says,
			"'%s' may be a decimal comma or a thousand. Write it with a decimal point, or without the "
			"comma.",
			doubtful[i]);
		refuse("drill_pipe", "minimum_radius", doubtful[i], says);
	}
	put("drill_pipe", "minimum_radius", "1,2");
	assert_string_equal(job.drill_pipe_minimum_radius.text, "1.2");
	put("drill_pipe", "minimum_radius", "1234,500"); /* nobody groups thousands like this */
	assert_string_equal(job.drill_pipe_minimum_radius.text, "1234.500");
	put("tool", "sigma_inclination", "0,125");
	assert_string_equal(job.sigma_inclination.text, "0.125");
}

static void text_is_kept_whole_or_refused(void **state)
{
	char text[SB_NAME_TEXT + 8];

	(void)state;
	memset(text, 'n', sizeof text);
	text[SB_NAME_TEXT - 1] = '\0';
	put("job", "name", text);
	assert_string_equal(job.name, text);
	text[SB_NAME_TEXT - 1] = 'n';
	text[SB_NAME_TEXT] = '\0';
	refuse("job", "name", text, "this is too long: 127 characters fit.");
	refuse("job", "name", "", "nothing is written here. It should say the crossing's name.");
	refuse("job", "name", "\xff", "this is not UTF-8 text.");
	put("job", "name", "Kestrel\tRoad");
	assert_string_equal(job.name, "Kestrel Road");
}

static void a_place_is_easting_northing_elevation(void **state)
{
	(void)state;
	put("control", "entry", "5000,1000,100");
	assert_near(job.entry.easting.value, 5000, 0);
	assert_near(job.entry.northing.value, 1000, 0);
	assert_near(job.entry.elevation.value, 100, 0);
	put("control", "entry", "5000,25; 1000,5; -12,12"); /* semicolons let decimal commas be */
	assert_string_equal(job.entry.easting.text, "5000.25");
	refuse("control", "exit", "5000, 1000",
		"'5000, 1000' has 2 of 3 numbers: write easting, northing, elevation, like 2500.00, 41200.00, 12.5.");
	refuse("control", "exit", "5000,25, 1000,50, 100",
		"'5000,25, 1000,50, 100' has more than 3 numbers: write easting, northing, elevation with decimal points.");
	refuse("control", "exit", "5000, north, 100",
		"number 2 of 3: 'north' is not a number. Type it like 88.4.");
	refuse("control", "exit", "5000,, 100",
		"number 2 of 3: There is no number here. Type one, like 88.4.");
	refuse("control", "exit", "5000, 2000000000, 100",
		"number 2 of 3: 2000000000 cannot be: it is too far from 0.");
	refuse("control", "exit", "100; 5,000; 100",
		"number 2 of 3: '5,000' may be a decimal comma or a thousand. Write it with a decimal point, or without "
		"the comma.");
	refuse("control", "exit", "", "number 1 of 3: There is no number here. Type one, like 88.4.");
	char longest[300];
	memset(longest, '1', sizeof longest - 1);
	longest[sizeof longest - 1] = '\0';
	refuse("control", "exit", longest, "this is too long: write easting, northing, elevation.");
}

/* ---- tables ---- */

static const char *const table_names[] = { "alignment", "profile", "corridor", "ground", "obstacles", "tally",
	"soil", "checklist" };

static void cell_text(const struct sheet_column *c, size_t row, char *text, size_t size)
{
	if (c->type == COLUMN_TEXT)
		snprintf(text, size, "%s %zu", c->name, row);
	else if (c->type == COLUMN_WHOLE)
		snprintf(text, size, "%zu", row + 1);
	else
		snprintf(text, size, "%.2f", fmax(c->low, 0.01) + (double)row / 4 + 0.1);
}

static void every_table_keeps_its_rows_as_written(void **state)
{
	char want[64], buffer[SB_NUMBER_TEXT];
	struct sb_err err;

	(void)state;
	assert_int_equal(sb_sheet_table_count, sizeof table_names / sizeof *table_names);
	for (size_t t = 0; t < sb_sheet_table_count; t++) {
		const struct sheet_table *table = sb_sheet_table(table_names[t]);
		assert_ptr_equal(table, &sb_sheet_tables[t]);
		assert_int_equal(sb_sheet_rows(table, &job), 0);
		for (size_t i = 0; i < 40; i++) {
			void *row = sb_sheet_row_new(table, &job);
			for (size_t k = 0; k < table->column_count; k++) {
				const struct sheet_column *c = &table->columns[k];
				assert_string_equal(sb_sheet_cell_get(c, row, buffer),
					c->type == COLUMN_WHOLE ? "0" : "");
				cell_text(c, i, want, sizeof want);
				assert_int_equal(sb_sheet_cell_put(c, row, want, &err), 0);
			}
		}
	}
	for (size_t t = 0; t < sb_sheet_table_count; t++) {
		const struct sheet_table *table = &sb_sheet_tables[t];
		assert_int_equal(sb_sheet_rows(table, &job), 40);
		for (size_t i = 0; i < 40; i++)
			for (size_t k = 0; k < table->column_count; k++) {
				cell_text(&table->columns[k], i, want, sizeof want);
				assert_string_equal(sb_sheet_cell_get(&table->columns[k],
							    sb_sheet_row(table, &job, i), buffer),
					want);
			}
	}
	assert_int_equal(job.tally[39].joint, 40);
	assert_string_equal(job.soil[3].name, "name 3");
	assert_null(sb_sheet_table("files"));
}

static void refuse_cell(const char *table, const char *column, const char *text, const char *says)
{
	const struct sheet_table *t = sb_sheet_table(table);
	struct sb_err err = { 0 };

	for (size_t k = 0; k < t->column_count; k++)
		if (sb_same(t->columns[k].name, column)) {
			assert_int_equal(
				sb_sheet_cell_put(&t->columns[k], sb_sheet_row_new(t, &job), text, &err), -1);
			assert_string_equal(err.text, says);
			return;
		}
	fail();
}

static void a_cell_that_cannot_be_is_refused(void **state)
{
	char text[SB_NAME_TEXT + 1];

	(void)state;
	refuse_cell("profile", "station", "",
		"nothing is written here. It should say: horizontal distance from the entry.");
	refuse_cell("profile", "radius", "-5", "-5 cannot be: 0 or more is right (length).");
	refuse_cell("profile", "radius", "six", "'six' is not a number. Type it like 88.4.");
	refuse_cell("tally", "joint", "0", "0 cannot be: between 1 and 100000 is right.");
	refuse_cell("tally", "joint", "1.5", "1.5 is not a whole number.");
	refuse_cell("tally", "length", "0", "0 cannot be: between 0.01 and 1000 is right (length).");
	refuse_cell("soil", "friction", "70", "70 cannot be: between 0 and 60 is right (degrees).");
	refuse_cell("obstacles", "name", " ",
		"nothing is written here. It should say: two or more rows of one name make a line.");
	refuse_cell("obstacles", "kind", "\xff", "this should be UTF-8 text of at most 127 characters.");
	memset(text, 'k', sizeof text - 1);
	text[sizeof text - 1] = '\0';
	refuse_cell("obstacles", "kind", text, "this should be UTF-8 text of at most 127 characters.");
	/* Blank where it may be is blank. */
	const struct sheet_table *t = sb_sheet_table("corridor");
	void *row = sb_sheet_row_new(t, &job);
	assert_int_equal(sb_sheet_cell_put(&t->columns[2], row, "  ", NULL), 0);
	assert_false(sb_number_given(&job.ranges[job.range_count - 1].up));
}

#define HERE(name) cmocka_unit_test_setup_teardown(name, setup, teardown)

static const struct CMUnitTest tests[] = {
	HERE(an_empty_job_has_the_presets),
	HERE(every_key_goes_in_and_comes_back_as_written),
	HERE(the_ends_of_a_range_are_within_it),
	HERE(a_choice_is_one_of_those_there_are),
	HERE(a_number_out_of_range_is_refused_with_the_range),
	HERE(a_comma_that_may_be_a_thousand_is_asked_about),
	HERE(text_is_kept_whole_or_refused),
	HERE(a_place_is_easting_northing_elevation),
	HERE(every_table_keeps_its_rows_as_written),
	HERE(a_cell_that_cannot_be_is_refused),
};

int main(void)
{
	return run_tests(tests);
}
