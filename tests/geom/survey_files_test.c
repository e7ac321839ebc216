/* Whole published surveys, file by file, walked and compared with the publisher's own coordinates. The files
 * are read where they are, beside this repository; where they are not, the test says so and is skipped. */
#include "course.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

#define FOLDER "../shared/data/surveys/"

enum { MD, INC, AZI, TVD, NORTH, EAST, DLS, COLUMNS };

/* What the walk was off by, at most. */
struct misfit {
	int stations, north_crossings;
	double tvd, north, east, dls;
};

/* One row of plain numbers; what is blank becomes NAN. */
static int split_row(char *line, double row[COLUMNS])
{
	char *field = line;
	int count = 0;

	line[strcspn(line, "\r\n")] = '\0';
	while (field != NULL && count < COLUMNS) {
		char *comma = strchr(field, ',');
		if (comma != NULL)
			*comma++ = '\0';
		char *end;
		row[count] = strtod(field, &end);
		assert_true(*end == '\0');
		if (end == field)
			row[count] = NAN;
		count++;
		field = comma;
	}
	return field == NULL ? count : -1;
}

static void take_worse(double *worst, double got, double want)
{
	if (!isnan(want))
		*worst = fmax(*worst, fabs(got - want));
}

static struct misfit walk_file(FILE *file)
{
	char line[256];
	double row[COLUMNS], before[COLUMNS];
	struct vec3 at = { 0, 0, 0 };
	struct misfit worst = { 0 };

	assert_non_null(fgets(line, sizeof line, file));
	assert_string_equal(line, "md,inc,azi,tvd,north,east,dls\n");
	while (fgets(line, sizeof line, file) != NULL) {
		assert_int_equal(split_row(line, row), COLUMNS);
		if (worst.stations++ == 0) {
			at = (struct vec3){ row[NORTH], row[EAST], -row[TVD] };
		} else {
			double length = row[MD] - before[MD];
			struct arc arc = course_of(before[INC], before[AZI], row[INC], row[AZI], length);
			at = sb_vec3_add(at, arc.step);
			take_worse(&worst.dls, sb_deg(arc.dogleg_rad) * 100 / length, row[DLS]);
			worst.north_crossings += fabs(row[AZI] - before[AZI]) > 180;
		}
		take_worse(&worst.tvd, -at.u, row[TVD]);
		take_worse(&worst.north, at.n, row[NORTH]);
		take_worse(&worst.east, at.e, row[EAST]);
		memcpy(before, row, sizeof before);
	}
	return worst;
}

static FILE *open_or_skip(const char *path)
{
	FILE *file = fopen(path, "r");

	if (file == NULL) {
		print_message("not here, so not compared: %s (%s)\n", path, strerror(errno));
		skip();
	}
	return file;
}

/* Well 16A(78)-32: Utah FORGE, US DOE Geothermal Data Repository submission 1283, CC BY 4.0. Feet, printed
 * to 0.01; 422 stations, from straight down to 69 degrees, so the publisher's rounding adds up to 0.006. */
static void the_forge_well_ends_where_its_publisher_says(void **state)
{
	FILE *file = open_or_skip(FOLDER "forge_16a78_32.csv");
	struct misfit worst = walk_file(file);

	(void)state;
	fclose(file);
	assert_int_equal(worst.stations, 422);
	assert_near(worst.tvd, 0, 0.0061);
	assert_near(worst.north, 0, 0.0061);
	assert_near(worst.east, 0, 0.0061);
	assert_near(worst.dls, 0, 0.0051);
}

/* US Bureau of Safety and Environmental Enforcement, public domain: depths in whole feet. */
static void the_bsee_well_ends_as_deep_as_its_publisher_says(void **state)
{
	FILE *file = open_or_skip(FOLDER "bsee_608124011101.csv");
	struct misfit worst = walk_file(file);

	(void)state;
	fclose(file);
	assert_int_equal(worst.stations, 186);
	assert_int_equal(worst.north_crossings, 13);
	assert_near(worst.tvd, 0, 0.6);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_forge_well_ends_where_its_publisher_says),
		cmocka_unit_test(the_bsee_well_ends_as_deep_as_its_publisher_says),
	};

	return run_tests(tests);
}
