/* The stretches for the engineer's own sheet: their lengths add up to the bore's, and laid one behind another
 * by nothing but length and angles they come out where the next one begins.
 */
#include "bore.h"
#include "io/format.h"
#include "model/bore_line.h"

#include "geom/angle.h"

#include <math.h>
#include <stdlib.h>

#define COLUMNS 17
enum {
	LINE,
	JOINT,
	PROJECTED,
	MD,
	LENGTH,
	STATION,
	NORTHING,
	EASTING,
	ELEVATION,
	INC,
	AZI,
	INC_TO,
	AZI_TO,
	TURN,
	UP,
	RIGHT,
	RADIUS
};

static struct job job;
static struct solution s;
static struct sb_str text;

static void export_of(const char *folder, const char *surveys)
{
	struct about about = { .who = "A. Lund", .file = "t.bore" };

	bore_sheet(folder, &job);
	bore_surveys(&job, surveys);
	bore_solve(&job, &s);
	struct export e = { .job = &job, .solution = &s, .about = &about };
	sb_str_clear(&text);
	assert_int_equal(sb_format("segments")->write(&e, &text, NULL), 0);
}

static void done(void)
{
	sb_solution_clear(&s);
	sb_job_clear(&job);
	sb_str_clear(&text);
}

/* The next row of a line; false at its end. None of the cells read here is quoted. */
static bool next_row(const char **at, const char *line, double cells[COLUMNS])
{
	size_t length = strlen(line);

	while (**at && (strncmp(*at, line, length) != 0 || (*at)[length] != ',')) {
		const char *end = strstr(*at, "\r\n");
		*at = end ? end + 2 : *at + strlen(*at);
	}
	if (**at == '\0')
		return false;
	const char *cell = *at;
	for (int i = 0; i < COLUMNS; i++) {
		cells[i] = *cell == ',' ? (double)NAN : strtod(cell, NULL);
		cell = strchr(cell, ',') + 1;
	}
	*at = strstr(*at, "\r\n") + 2;
	return true;
}

static struct attitude attitude_of(double inc, double azi)
{
	return sb_attitude(sb_frame_inc(&s.frame, inc), sb_rad(azi));
}

/* Minimum curvature from the angles alone; job units, easting and northing on the grid. */
static void lay(const double *c, double *northing, double *easting, double *elevation)
{
	struct attitude from = attitude_of(c[INC], c[AZI]), to = attitude_of(c[INC_TO], c[AZI_TO]);
	struct arc arc;

	assert_int_equal(sb_arc_between(&from, &to, c[LENGTH], &arc), ARC_OK);
	struct vec3 offset;
	sb_arc_at(&arc, c[LENGTH], &offset, NULL);
	*northing = c[NORTHING] + offset.n * s.frame.scale;
	*easting = c[EASTING] + offset.e * s.frame.scale;
	*elevation = c[ELEVATION] + offset.u;
}

static void check_line(const char *name, const struct bore_line *line)
{
	const char *at = sb_str_get(&text);
	double cells[COLUMNS], sum = 0, n = NAN, e = NAN, u = NAN;
	size_t rows = 0;
	bool projected = false;

	for (; next_row(&at, name, cells); rows++) {
		assert_near(cells[MD], sum, 1e-4);
		/* what nobody has read is put together of longer pieces */
		double tolerance = projected ? 0.15 : 3e-4;
		if (rows) {
			assert_near(cells[NORTHING], n, tolerance);
			assert_near(cells[EASTING], e, tolerance);
			assert_near(cells[ELEVATION], u, tolerance);
		}
		projected = cells[PROJECTED] > 0;
		assert_near(hypot(cells[UP], cells[RIGHT]), cells[TURN], 1e-5);
		if (!isnan(cells[RADIUS]))
			assert_near(sb_rad(cells[TURN]) * cells[RADIUS], cells[LENGTH],
				2e-6 * cells[RADIUS] + 1e-5);
		lay(cells, &n, &e, &u);
		sum += cells[LENGTH];
	}
	assert_int_equal(rows, line->count);
	assert_near(sum, sb_frame_typed(&s.frame, line->length_m), 1e-4);
}

static void check_bore(const char *folder, const char *surveys)
{
	struct bore_line line = { 0 };

	export_of(folder, surveys);
	const struct clearance_ask ask = sb_solution_clearance(&job, &s);
	sb_bore_line_drilled(&ask, &line);
	check_line("drilled", &line);
	sb_bore_line_design(&ask, &line);
	check_line("design", &line);
	sb_bore_line_clear(&line);
	assert_non_null(strstr(sb_str_get(&text), "does not replace"));
	done();
}

static void stretches_laid_one_behind_another_are_the_hole(void **state)
{
	(void)state;
	check_bore(TERN, TERN "/surveys.csv");
	check_bore(KESTREL, KESTREL "/surveys.csv");
}

/* Right is clockwise seen from above, up is towards the sky, wherever the hole heads. */
static void turns_have_their_sides(void **state)
{
	(void)state;
	export_of(KESTREL, KESTREL "/surveys.csv");
	const char *at = sb_str_get(&text);
	double c[COLUMNS];
	size_t seen = 0;
	while (next_row(&at, "drilled", c)) {
		double up = c[INC_TO] - c[INC], right = (c[AZI_TO] - c[AZI]) * cos(sb_rad(c[INC]));
		assert_near(c[UP], up, 0.02 * fabs(c[TURN]) + 2e-5);
		assert_near(c[RIGHT], right, 0.02 * fabs(c[TURN]) + 2e-5);
		seen += fabs(right) > 0.5;
	}
	assert_true(seen > 3); /* it is a bore with a curve to the right */
	done();
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(stretches_laid_one_behind_another_are_the_hole),
		cmocka_unit_test(turns_have_their_sides),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
