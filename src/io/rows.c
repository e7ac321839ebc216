/* The path as a table. One function fills the cells of a row and one the cells of a point between two; CSV
 * and JSON are two ways of writing the same cells, so they cannot disagree.
 */
#include "io/rows.h"

#include "base/mem.h"
#include "geom/angle.h"
#include "geom/bend.h"
#include "io/figure.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "rows_parts.h"

/* A radius beyond this, in the job's unit, is rounding of a straight line. */
#define STRAIGHT 1e9

const struct path_column_sort sb_path_columns[PATH_COLUMNS] = {
	[PATH_JOINT] = { "joint", "", "number of the joint; 0 is the entry" },
	[PATH_LEG] = { "leg", "", "the leg that it was drilled in" },
	[PATH_BIT_DEPTH] = { "bit_depth", "length",
		"measured depth of the bit: the joints in the ground; blank for a row between joints" },
	[PATH_SURVEY_DEPTH] = { "survey_depth", "length",
		"measured depth of the sensor, to which inclination, azimuth and position belong" },
	[PATH_INCLINATION] = { "inclination", "convention", "as read, in the job's convention" },
	[PATH_AZIMUTH] = { "azimuth", "degrees", "as the tool read it" },
	[PATH_STATION] = { "station", "length", "along the design alignment from the entry, horizontal" },
	[PATH_OFFSET] = { "offset", "length",
		"from the design alignment, right positive, looking from entry to exit" },
	[PATH_ELEVATION] = { "elevation", "length", "in the job's vertical datum" },
	[PATH_HEIGHT] = { "height", "length", "above the design line at that station, high positive" },
	[PATH_NORTHING] = { "northing", "length", "grid, in the job's coordinate system" },
	[PATH_EASTING] = { "easting", "length", "grid, in the job's coordinate system" },
	[PATH_DOGLEG] = { "dogleg", "degrees", "turned since the reading before" },
	[PATH_RADIUS_JOINT] = { "radius_joint", "length",
		"radius since the reading before; blank where straight" },
	[PATH_RADIUS_WINDOW] = { "radius_window", "length",
		"radius over the contract's window, by its method; blank where straight or not yet full" },
	[PATH_CORRIDOR_SHARE] = { "corridor_share", "",
		"share of the corridor used on the worst side; 1 is the limit" },
	[PATH_SIGMA_ALONG] = { "sigma_along", "length",
		"one sigma of the position along the design line, from the sheet's error terms" },
	[PATH_SIGMA_ACROSS] = { "sigma_across", "length", "one sigma of the offset" },
	[PATH_SIGMA_UP] = { "sigma_up", "length", "one sigma of the height" },
	[PATH_CHANCE_OUTSIDE] = { "chance_outside", "",
		"chance that the hole is outside the corridor here, 0 to 1" },
	[PATH_SHIFT_STATION] = { "shift_station", "length",
		"the path through slides less the path by arcs, along the design; blank where the course's slides were not written down" },
	[PATH_SHIFT_OFFSET] = { "shift_offset", "length", "likewise of the offset, right positive" },
	[PATH_SHIFT_HEIGHT] = { "shift_height", "length", "likewise of the height, high positive" },
	[PATH_COVER] = { "cover", "length",
		"ground over the top of the final hole here; blank where the ground is not known" },
	[PATH_COVER_LEAST] = { "cover_least", "length",
		"the least since the reading before; of the present path" },
	[PATH_CLEARANCE] = { "clearance", "length",
		"least distance since the reading before to the nearest obstacle, wall to wall of the final hole, negative where they overlap; of the present path" },
};

/* ---- cells ---- */

static void put_whole(struct path_cell *c, int value)
{
	c->kind = CELL_WHOLE;
	c->value = value;
}

static void put_number(struct path_cell *c, double value)
{
	c->kind = isfinite(value) ? CELL_NUMBER : CELL_BLANK;
	c->value = value;
}

static void put_typed(struct path_cell *c, const struct number *n)
{
	c->kind = sb_number_given(n) ? CELL_TYPED : CELL_BLANK;
	c->value = n->value;
	c->typed = *n;
}

static void put_length(struct path_cell *c, const struct frame *f, double metres)
{
	put_number(c, sb_frame_typed(f, metres));
}

static void put_radius(struct path_cell *c, const struct frame *f, double metres)
{
	double radius = sb_frame_typed(f, metres);

	put_number(c, radius < STRAIGHT ? radius : HUGE_VAL);
}

static void fill_attitude(
	const struct frame *f, const struct attitude *attitude, struct path_cell cells[PATH_COLUMNS])
{
	put_number(&cells[PATH_INCLINATION], sb_frame_inc_typed(f, attitude->inc_rad));
	put_number(&cells[PATH_AZIMUTH], sb_frame_azi_typed(f, attitude->azi_rad));
}

/* Angles as typed where somebody typed them. */
static void fill_angles(const struct job *job, const struct solution *s, const struct row *row,
	struct path_cell cells[PATH_COLUMNS])
{
	const struct reading *r = row->reading ? sb_job_reading(job, row->reading) : NULL;

	if (r) {
		put_typed(&cells[PATH_INCLINATION], &r->inclination);
		put_typed(&cells[PATH_AZIMUTH], &r->azimuth);
	} else if (row->joint == 0 && sb_number_given(&job->entry_inclination)) {
		put_typed(&cells[PATH_INCLINATION], &job->entry_inclination);
		put_typed(&cells[PATH_AZIMUTH], &job->entry_azimuth);
	} else if (row->joint == 0 ? s->path.entry_known : row->taken) {
		fill_attitude(&s->frame, &row->attitude, cells);
	}
}

static void fill_doubt(
	const struct solution *s, const struct doubt *d, double outside, struct path_cell cells[PATH_COLUMNS])
{
	put_length(&cells[PATH_SIGMA_ALONG], &s->frame, d->along_m);
	put_length(&cells[PATH_SIGMA_ACROSS], &s->frame, d->across_m);
	put_length(&cells[PATH_SIGMA_UP], &s->frame, d->up_m);
	put_number(&cells[PATH_CHANCE_OUTSIDE], outside);
}

/* The course is an arc in both paths where nothing is known of its slides: a blank marks it. */
static void fill_shift(const struct job *job, const struct solution *s, const struct row *row,
	struct path_cell cells[PATH_COLUMNS])
{
	if (!row->slides.known)
		return;
	struct path_shift shift = sb_path_shift(&s->design, job->course, row);
	put_length(&cells[PATH_SHIFT_STATION], &s->frame, shift.station_m);
	put_length(&cells[PATH_SHIFT_OFFSET], &s->frame, shift.offset_m);
	put_length(&cells[PATH_SHIFT_HEIGHT], &s->frame, shift.height_m);
}

/* What lies around the hole: over the sensor, and over the course that ends there. */
static void fill_room(const struct job *job, const struct solution *s, const struct row *row,
	struct path_cell cells[PATH_COLUMNS])
{
	struct clearance_ask ask = sb_solution_clearance(job, s);
	struct cover cover = sb_cover_at(&ask, row);
	double nearest = HUGE_VAL;

	if (cover.known)
		put_length(&cells[PATH_COVER], &s->frame, cover.cover_m);
	if (row->joint == 0 || !sb_path_present(&s->path, row))
		return;
	cover = sb_cover_course(&ask, row);
	if (cover.known)
		put_length(&cells[PATH_COVER_LEAST], &s->frame, cover.cover_m);
	for (size_t i = 0; i < s->around.count; i++)
		nearest = fmin(nearest, sb_clearance_course(&ask, i, row).wall_m);
	if (s->around.count)
		put_length(&cells[PATH_CLEARANCE], &s->frame, nearest);
}

static void fill_place(const struct solution *s, struct vec3 at, const struct deviation *d, double share,
	struct path_cell cells[PATH_COLUMNS])
{
	double easting, northing, elevation;

	sb_frame_grid(&s->frame, at, &easting, &northing, &elevation);
	put_length(&cells[PATH_STATION], &s->frame, d->station_m);
	put_length(&cells[PATH_OFFSET], &s->frame, d->offset_m);
	put_length(&cells[PATH_HEIGHT], &s->frame, d->height_m);
	put_number(&cells[PATH_ELEVATION], elevation);
	put_number(&cells[PATH_NORTHING], northing);
	put_number(&cells[PATH_EASTING], easting);
	put_number(&cells[PATH_CORRIDOR_SHARE], share);
}

void sb_rows_fill(const struct job *job, const struct solution *s, const struct row *row,
	struct path_cell cells[PATH_COLUMNS])
{
	memset(cells, 0, PATH_COLUMNS * sizeof *cells);
	put_whole(&cells[PATH_JOINT], row->joint);
	put_whole(&cells[PATH_LEG], row->leg);
	put_length(&cells[PATH_BIT_DEPTH], &s->frame, row->bit_md_m);
	put_length(&cells[PATH_SURVEY_DEPTH], &s->frame, row->survey_md_m);
	fill_angles(job, s, row, cells);
	if (!row->on_path)
		return;
	fill_place(s, row->at, &row->deviation, row->use.share, cells);
	fill_doubt(s, &row->doubt, row->outside, cells);
	fill_room(job, s, row, cells);
	if (row->joint == 0)
		return;
	fill_shift(job, s, row, cells);
	put_number(&cells[PATH_DOGLEG], sb_deg(row->dogleg_rad));
	put_radius(&cells[PATH_RADIUS_JOINT], &s->frame, row->radius_m);
	if (row->window.joints > 0)
		put_radius(&cells[PATH_RADIUS_WINDOW], &s->frame, row->window.radius_m);
}

/* ---- rows by station ---- */

static double station_of(const struct solution *s, double md_m, double near_m)
{
	struct vec3 at;

	sb_path_at(&s->path, md_m, &at, NULL);
	return sb_design_station(&s->design, at, near_m, NULL);
}

/* The depth on a course at which a station is reached, by halving: far below what any file shows. */
static double depth_of(const struct solution *s, const struct row *from, const struct row *to, double target)
{
	double low = from->survey_md_m, high = to->survey_md_m;

	while (high - low > 1e-10) {
		double middle = low + (high - low) / 2;
		if (middle <= low || middle >= high)
			break;
		if (station_of(s, middle, target) < target)
			low = middle;
		else
			high = middle;
	}
	return high;
}

/* Sigmas in proportion between two readings: never less than they are, as a place between moves by a mean of
 * the two. */
static struct doubt doubt_between(const struct row *from, const struct row *to, double md_m)
{
	double length = to->survey_md_m - from->survey_md_m;
	double t = length > 0 ? (md_m - from->survey_md_m) / length : 0;
	const struct doubt *a = &from->doubt, *b = &to->doubt;

	return (struct doubt){
		.along_m = a->along_m + t * (b->along_m - a->along_m),
		.across_m = a->across_m + t * (b->across_m - a->across_m),
		.up_m = a->up_m + t * (b->up_m - a->up_m),
		.correlation = a->correlation + t * (b->correlation - a->correlation),
	};
}

static void fill_between(const struct job *job, const struct solution *s, const struct row *from,
	const struct row *to, double md_m, struct path_cell cells[PATH_COLUMNS])
{
	const struct setup setup = sb_solution_setup(job, s);
	struct vec3 at, heading;
	double inc, azi;

	memset(cells, 0, PATH_COLUMNS * sizeof *cells);
	sb_path_at(&s->path, md_m, &at, &heading);
	sb_vec3_attitude(heading, &inc, &azi);
	struct attitude attitude = sb_attitude(inc, azi);
	struct deviation d = sb_deviation(&s->design, at, &heading, to->deviation.station_m);
	struct corridor_limits limits = sb_corridor_at(&s->corridor, d.station_m);
	put_whole(&cells[PATH_JOINT], to->joint);
	put_whole(&cells[PATH_LEG], to->leg);
	put_length(&cells[PATH_SURVEY_DEPTH], &s->frame, md_m);
	fill_attitude(&s->frame, &attitude, cells);
	fill_place(s, at, &d, sb_corridor_use(&limits, d.offset_m, d.height_m).share, cells);
	struct doubt doubt = doubt_between(from, to, md_m);
	fill_doubt(s, &doubt, sb_uncertainty_outside(&setup, &d, &doubt), cells);
	struct clearance_ask ask = sb_solution_clearance(job, s);
	struct cover cover = sb_cover_between(&ask, from, to, md_m);
	if (cover.known)
		put_length(&cells[PATH_COVER], &s->frame, cover.cover_m);
	if (to->joint > 0)
		put_radius(&cells[PATH_RADIUS_JOINT], &s->frame, to->radius_m);
}

/* Each multiple of `every` once, where the path first comes past it. */
static void walk_stations(
	const struct job *job, const struct solution *s, double every_m, rows_take *take, void *data)
{
	const double touch = 1e-9;
	struct path_cell cells[PATH_COLUMNS];
	const struct row *entry = &s->path.rows[0];
	long long next = 1;

	fill_between(job, s, entry, entry, 0, cells);
	take(data, NULL, cells);
	for (size_t i = 1; i < s->path.on_count; i++) {
		const struct row *from = &s->path.rows[s->path.on_path[i - 1]],
				 *to = &s->path.rows[s->path.on_path[i]];
		for (; every_m * (double)next <= to->deviation.station_m + touch; next++) {
			fill_between(job, s, from, to, depth_of(s, from, to, every_m * (double)next), cells);
			take(data, NULL, cells);
		}
	}
}

static int check_every(const struct solution *s, double every, struct sb_err *err)
{
	double longest = sb_frame_typed(&s->frame, fmax(s->design.length_m, 1));

	if (isfinite(every) && every > 0 && longest / every <= SB_ROWS_MOST / 2.0)
		return 0;
	return sb_fail(err, SB_RANGE, "A row every %g cannot be. Give a length like 25.", every);
}

/* ---- rows by joint ---- */

static int by_leg(const void *a, const void *b)
{
	const struct row *x = *(const struct row *const *)a, *y = *(const struct row *const *)b;

	if (x->leg != y->leg)
		return x->leg < y->leg ? -1 : 1;
	return (x->joint > y->joint) - (x->joint < y->joint);
}

size_t sb_rows_list(const struct solution *s, bool all_legs, const struct row ***out)
{
	size_t old = all_legs ? s->path.old_count : 0, count = 0;
	const struct row **list = sb_alloc((s->path.count + old) * sizeof(void *));

	for (size_t i = 0; i < s->path.count; i++)
		list[count++] = &s->path.rows[i];
	for (size_t i = 0; i < old; i++)
		list[count++] = &s->path.old[i];
	if (all_legs)
		qsort(list, count, sizeof(void *), by_leg);
	*out = list;
	return count;
}

int rows_walk(const struct job *job, const struct solution *s, const struct rows_ask *ask, rows_take *take,
	void *data, struct sb_err *err)
{
	struct path_cell cells[PATH_COLUMNS];
	const struct row **list;

	if (ask->every != 0) {
		if (check_every(s, ask->every, err))
			return -1;
		walk_stations(job, s, sb_frame_metres(&s->frame, ask->every), take, data);
		return 0;
	}
	size_t count = sb_rows_list(s, ask->all_legs, &list);
	for (size_t i = 0; i < count; i++) {
		sb_rows_fill(job, s, list[i], cells);
		take(data, list[i], cells);
	}
	sb_free(list);
	return 0;
}

/* ---- CSV and JSON ---- */

/* Decimals: a micrometre, a microdegree. */
#define CSV_DECIMALS 6
#define JSON_DECIMALS 9

void sb_rows_csv_cells(struct csv_out *out, const struct path_cell cells[PATH_COLUMNS])
{
	for (size_t i = 0; i < PATH_COLUMNS; i++) {
		const struct path_cell *c = &cells[i];
		if (c->kind == CELL_TYPED)
			sb_csv_cell(out, c->typed.text);
		else if (c->kind == CELL_BLANK)
			sb_csv_cell(out, "");
		else
			sb_csv_cell_fixed(out, c->value, CSV_DECIMALS);
	}
}

void sb_rows_json_cells(struct sb_json *j, const struct path_cell cells[PATH_COLUMNS])
{
	for (size_t i = 0; i < PATH_COLUMNS; i++) {
		const struct path_cell *c = &cells[i];
		const char *name = sb_path_columns[i].name;
		if (c->kind == CELL_TYPED)
			sb_json_typed(j, name, &c->typed);
		else if (c->kind == CELL_BLANK)
			sb_json_null(j, name);
		else
			sb_json_fixed(j, name, c->value, JSON_DECIMALS);
	}
}

void sb_rows_json(struct sb_json *j, const struct job *job, const struct solution *s, const struct row *row)
{
	struct path_cell cells[PATH_COLUMNS];

	sb_rows_fill(job, s, row, cells);
	sb_rows_json_cells(j, cells);
}

void sb_rows_warning(struct sb_json *j, const struct warning *w)
{
	sb_json_object(j, NULL);
	sb_json_text(j, "kind", sb_warning_sorts[w->kind].name);
	sb_json_text(j, "level", sb_level_word(w->level));
	rows_warning_values(j, w);
	sb_json_text(j, "text", w->text);
	sb_json_end(j);
}

/* Some kinds measure nothing. */
void rows_warning_values(struct sb_json *j, const struct warning *w)
{
	if (w->kind == WARNING_BLUNDER || w->kind == WARNING_MISSING) {
		sb_json_null(j, "value");
		sb_json_null(j, "limit");
		return;
	}
	sb_json_fixed(j, "value", w->value, JSON_DECIMALS);
	sb_json_fixed(j, "limit", w->limit, JSON_DECIMALS);
}

static void take_csv(void *data, const struct row *row, const struct path_cell cells[PATH_COLUMNS])
{
	(void)row;
	sb_rows_csv_cells(data, cells);
	sb_csv_end(data);
}

static int table_csv(const struct job *job, const struct solution *s, const struct rows_ask *ask,
	struct sb_str *out, struct sb_err *err)
{
	struct csv_out csv = { .text = *out };

	for (size_t i = 0; i < PATH_COLUMNS; i++)
		sb_csv_cell(&csv, sb_path_columns[i].name);
	sb_csv_end(&csv);
	int failed = rows_walk(job, s, ask, take_csv, &csv, err);
	*out = csv.text;
	return failed;
}

static void take_json(void *data, const struct row *row, const struct path_cell cells[PATH_COLUMNS])
{
	(void)row;
	sb_json_object(data, NULL);
	sb_rows_json_cells(data, cells);
	sb_json_end(data);
}

int sb_rows_put(struct sb_json *j, const char *name, const struct job *job, const struct solution *s,
	const struct rows_ask *ask, struct sb_err *err)
{
	sb_json_array(j, name);
	int failed = rows_walk(job, s, ask, take_json, j, err);
	sb_json_end(j);
	return failed;
}

static int table_json(const struct job *job, const struct solution *s, const struct rows_ask *ask,
	struct sb_str *out, struct sb_err *err)
{
	struct sb_json j = { .text = *out };

	sb_json_object(&j, NULL);
	sb_json_text(&j, "unit", sb_unit_name(job->unit));
	sb_json_text(&j, "inclination", sb_incline_name(job->incline));
	int failed = sb_rows_put(&j, "rows", job, s, ask, err);
	sb_json_end(&j);
	*out = j.text;
	return failed;
}

int sb_rows_table(const struct job *job, const struct solution *s, const struct rows_ask *ask,
	enum rows_format format, struct sb_str *out, struct sb_err *err)
{
	switch (format) {
	case ROWS_CSV:
		return table_csv(job, s, ask, out, err);
	case ROWS_JSON:
		return table_json(job, s, ask, out, err);
	case ROWS_TEXT:
		break;
	}
	return rows_text(job, s, ask, out, err);
}
