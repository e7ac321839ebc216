/* sagbend earth: the magnetic field and the map's grid at a place, or at both ends of a job. Reads only. */
#include "base/str.h"
#include "base/time.h"
#include "cli/acting.h"
#include "cli/commands.h"
#include "geom/angle.h"
#include "io/earth.h"

#include <stdio.h>
#include <string.h>

static const struct option options[] = {
	{ "crs", "EPSG:n", "the map projection that --at is on", false },
	{ "at", "E,N,H", "easting, northing and height, in the projection's unit; a height left out is 0",
		false },
	{ "latitude", "LAT", "in degrees, north positive", false },
	{ "longitude", "LON", "in degrees, east positive", false },
	{ "height", "H", "above the ellipsoid, in metres; with --latitude, 0 when left out", false },
	{ "height-unit", "m|ft|ftUS", "what H is in, when not that", false },
	{ "date", "DAY", "as 2026-11-25; today when left out", false },
	{ "json", NULL, "as JSON", false },
	OPTION_END,
};

/* What was typed, as numbers. */
struct wish {
	const char *crs, *at, *latitude, *longitude;
	bool of_job;
	int64_t ms;
};

static int check_wish(const struct invocation *in, const struct wish *w, struct sb_err *err)
{
	int ways = w->of_job + (w->crs || w->at) + (w->latitude || w->longitude);

	if (ways == 0)
		return sb_fail(err, SB_USAGE,
			"Where? Name a job file, or --crs with --at, or --latitude with --longitude. See: sagbend earth --help");
	if (ways > 1)
		return sb_fail(err, SB_USAGE,
			"One place at a time: a job file, or --crs with --at, or --latitude with --longitude.");
	if ((w->crs == NULL) != (w->at == NULL))
		return sb_fail(err, SB_USAGE, "--crs and --at go together: which map, and where on it.");
	if ((w->latitude == NULL) != (w->longitude == NULL))
		return sb_fail(err, SB_USAGE, "--latitude and --longitude go together.");
	if (sb_command_flag(in, "height") && w->latitude == NULL)
		return sb_fail(err, SB_USAGE,
			"--height goes with --latitude and --longitude; --at and a job have heights of their own.");
	if (sb_command_flag(in, "height-unit") && w->of_job)
		return sb_fail(err, SB_USAGE, "--height-unit is not for a job: its unit is in its file.");
	return 0;
}

static int take_wish(const struct invocation *in, struct wish *w, struct sb_err *err)
{
	const char *day = sb_command_value(in, "date");

	*w = (struct wish){ .crs = sb_command_value(in, "crs"),
		.at = sb_command_value(in, "at"),
		.latitude = sb_command_value(in, "latitude"),
		.longitude = sb_command_value(in, "longitude"),
		.of_job = in->count > 0,
		.ms = sb_time_now() };
	if (check_wish(in, w, err))
		return -1;
	if (day && sb_time_parse_day(day, &w->ms, err))
		return sb_fail_within(err, "--date: ");
	return 0;
}

static int take_height_unit(const struct invocation *in, enum unit *unit, struct sb_err *err)
{
	const char *typed = sb_command_value(in, "height-unit");

	return typed && sb_unit_parse(typed, unit, err) ? sb_fail_within(err, "--height-unit: ") : 0;
}

/* "E,N,H" or "E,N": semicolons between where commas are decimal ones. */
static int take_at(const char *typed, struct number parts[3], struct sb_err *err)
{
	const char *between = strchr(typed, ';') ? ";" : ",";
	char copy[120];
	char *from = copy;
	int count = 0;

	parts[2] = sb_number_of(0, 0);
	if (!sb_copy(copy, sizeof copy, typed))
		return sb_fail(err, SB_FORMAT, "--at is too long: write easting,northing,height.");
	for (char *part; (part = strsep(&from, between)) != NULL; count++)
		if (count < 3 && sb_number_parse(part, &parts[count], err))
			return sb_fail_within(err, "--at, number %d: ", count + 1);
	if (count == 2 || count == 3)
		return 0;
	return sb_fail(err, SB_FORMAT,
		"--at '%.60s' is not two or three numbers: write easting,northing,height with decimal points, like "
		"3120099.09,13841900.86,12.",
		typed);
}

static int on_grid(const struct invocation *in, const struct wish *w, struct sb_crs **crs,
	struct earth_page *page, struct sb_err *err)
{
	struct number at[3] = { 0 };

	if (take_at(w->at, at, err) || sb_crs_open(w->crs, crs, err))
		return -1;
	if (sb_crs_is_local(*crs))
		return sb_fail(err, SB_RANGE,
			"A local grid is nowhere on earth: say --latitude and --longitude instead.");
	page->crs = sb_crs_about(*crs);
	enum unit unit = page->crs->unit;
	if (take_height_unit(in, &unit, err))
		return -1;
	page->count = 1;
	return sb_earth_at_grid(*crs, at[0].value, at[1].value, at[2].value * sb_unit_metres(unit), w->ms,
		&page->points[0], err);
}

static int take_angle(
	const char *name, const char *typed, double low, double high, double *radians, struct sb_err *err)
{
	struct number n;

	if (sb_number_parse(typed, &n, err))
		return sb_fail_within(err, "--%s: ", name);
	if (!(n.value >= low && n.value <= high))
		return sb_fail(err, SB_RANGE, "--%s %s cannot be: %.0f to %.0f degrees are right.", name,
			n.text, low, high);
	*radians = sb_rad(n.value);
	return 0;
}

static int at_place(
	const struct invocation *in, const struct wish *w, struct earth_page *page, struct sb_err *err)
{
	const char *typed = sb_command_value(in, "height");
	struct number height = sb_number_of(0, 0);
	struct geographic place = { 0 };
	enum unit unit = UNIT_M;

	if (take_angle("latitude", w->latitude, -90, 90, &place.latitude_rad, err) ||
		take_angle("longitude", w->longitude, -180, 360, &place.longitude_rad, err) ||
		take_height_unit(in, &unit, err))
		return -1;
	if (typed && sb_number_parse(typed, &height, err))
		return sb_fail_within(err, "--height: ");
	place.longitude_rad = sb_wrap_half(place.longitude_rad);
	page->count = 1;
	return sb_earth_at_place(&place, height.value * sb_unit_metres(unit), w->ms, &page->points[0], err);
}

static int at_ends(const struct job *job, const struct wish *w, struct sb_crs **crs, struct earth_page *page,
	struct sb_err *err)
{
	const struct place *const ends[] = { &job->entry, &job->exit };
	static const char *const names[] = { "entry", "exit" };

	if (sb_crs_open(job->crs, crs, err))
		return -1;
	if (sb_crs_is_local(*crs))
		return sb_fail(err, SB_RANGE,
			"The job's coordinates are local: nothing ties them to the earth. Say where it is with: sagbend earth "
			"--latitude LAT --longitude LON");
	if (sb_crs_takes_unit(*crs, job->unit, err))
		return -1;
	page->crs = sb_crs_about(*crs);
	page->job = job;
	for (; page->count < 2; page->count++) {
		const struct place *p = ends[page->count];
		struct earth *e = &page->points[page->count];
		if (sb_earth_at_grid(*crs, p->easting.value, p->northing.value,
			    p->elevation.value * sb_unit_metres(job->unit), w->ms, e, err))
			return sb_fail_within(err, "The job's %s: ", names[page->count]);
		e->name = names[page->count];
	}
	return 0;
}

static int find(const struct invocation *in, const struct wish *w, struct sb_store **store,
	struct sb_crs **crs, struct earth_page *page, struct sb_err *err)
{
	if (w->crs)
		return on_grid(in, w, crs, page, err);
	if (w->latitude)
		return at_place(in, w, page, err);
	if (sb_acting_read(in, store, err))
		return -1;
	return at_ends(sb_store_job(*store), w, crs, page, err);
}

/* Of a job with the settings that hold now. */
static void write_page(const struct invocation *in, const struct earth_page *found, struct sb_str *out)
{
	void (*write)(const struct earth_page *page, struct sb_str *out) =
		sb_command_flag(in, "json") ? sb_earth_json : sb_earth_text;

	if (found->job == NULL) {
		write(found, out);
		return;
	}
	struct job as = sb_frame_settings(found->job, NULL);
	struct earth_page page = *found;
	page.job = &as;
	write(&page, out);
}

static int run(const struct invocation *in)
{
	struct sb_store *store = NULL;
	struct sb_crs *crs = NULL;
	struct earth_page page = { 0 };
	struct sb_str text = { 0 };
	struct sb_err err = { 0 };
	struct wish w;

	if (take_wish(in, &w, &err))
		return sb_command_fail(&err);
	page.ms = w.ms;
	int failed = find(in, &w, &store, &crs, &page, &err);
	if (!failed)
		write_page(in, &page, &text);
	sb_crs_close(crs);
	sb_store_close(store);
	return failed ? sb_command_fail(&err) : sb_acting_put(&text, false);
}

const struct command sb_cmd_earth = {
	.name = "earth",
	.arguments =
		"[JOB.bore] [--crs EPSG:n --at E,N,H] [--latitude LAT --longitude LON] [--height H] [--height-unit m|ft|ftUS] "
		"[--date DAY] [--json]",
	.summary = "the magnetic field and the map's grid at a place, or at both ends of a job",
	.detail =
		"Declination, dip and total field by the World Magnetic Model 2025, each with its one sigma and yearly change; "
		"convergence, scale and the factor between grid and ground by the job's map projection; and the one number that turns a "
		"magnetic azimuth into a grid azimuth. Of a job, also what its sheet says of each. Nothing is written, and no network is "
		"used. The model holds from 2025-01-01 to 2029-12-31.",
	.least = 0,
	.most = 1,
	.options = options,
	.run = run,
};
