/* The hole as stretches that bend evenly, for the engineer's own sheet: geometry alone, no force and no
 * stress. Lengths of one line add up to the bore's.
 */
#include "base/str.h"
#include "geom/angle.h"
#include "io/csv.h"
#include "model/bore_line.h"

#include <math.h>
#include <stdio.h>

#include "export.h"

#define COLUMNS 17

static void put_head(const struct export *e, struct csv_out *out)
{
	static const char *const lengths[] = { "md_from", "length", "station_from", "northing_from",
		"easting_from", "elevation_from" };
	static const char *const rest[] = { "inclination_from", "azimuth_from", "inclination_to",
		"azimuth_to", "turn_deg" };
	const char *unit = sb_unit_name(e->job->unit);
	char name[64];

	sb_csv_cell(out, "line");
	sb_csv_cell(out, "joint");
	sb_csv_cell(out, "projected");
	for (size_t i = 0; i < sizeof lengths / sizeof *lengths; i++) {
		snprintf(name, sizeof name, "%s_%s", lengths[i], unit);
		sb_csv_cell(out, name);
	}
	for (size_t i = 0; i < sizeof rest / sizeof *rest; i++)
		sb_csv_cell(out, rest[i]);
	sb_csv_cell(out, "turn_up_deg_up_pos");
	sb_csv_cell(out, "turn_right_deg_right_pos");
	snprintf(name, sizeof name, "radius_%s", unit);
	sb_csv_cell(out, name);
	sb_csv_end(out);
}

/* Inclination as the job has it, azimuth from grid north. */
static void put_heading(const struct frame *f, const struct vec3 *h, struct csv_out *out)
{
	double level = hypot(h->n, h->e), azimuth = sb_deg(atan2(h->e, h->n));

	sb_csv_cell_fixed(out, sb_frame_inc_typed(f, atan2(level, -h->u)), 6);
	sb_csv_cell_fixed(out, azimuth < 0 ? azimuth + 360 : azimuth, 6);
}

/* What it turns upwards, and to the right: along the two directions square to where it begins. */
static void put_turn(const struct bore_stretch *b, struct csv_out *out)
{
	const struct vec3 *h = &b->heading_from, *to = &b->heading_to;
	double level = hypot(h->n, h->e);
	struct vec3 right =
		level > 0 ? (struct vec3){ -h->e / level, h->n / level, 0 } : (struct vec3){ 0, 1, 0 };
	struct vec3 up = { -h->u * right.e, h->u * right.n, h->n * right.e - h->e * right.n };
	double y = sb_vec3_dot(*to, up), x = sb_vec3_dot(*to, right), off = hypot(x, y);

	sb_csv_cell_fixed(out, sb_deg(b->turn_rad), 6);
	sb_csv_cell_fixed(out, off > 0 ? sb_deg(b->turn_rad * y / off) : 0, 6);
	sb_csv_cell_fixed(out, off > 0 ? sb_deg(b->turn_rad * x / off) : 0, 6);
}

static void put_stretch(
	const struct export *e, const char *line, const struct bore_stretch *b, struct csv_out *out)
{
	const struct frame *f = &e->solution->frame;
	double easting, northing, elevation;

	sb_frame_grid(f, b->from, &easting, &northing, &elevation);
	sb_csv_cell(out, line);
	if (b->joint)
		sb_csv_cell_whole(out, b->joint);
	else
		sb_csv_cell(out, "");
	sb_csv_cell_whole(out, b->projected);
	sb_csv_cell_fixed(out, sb_frame_typed(f, b->md_m), 6);
	sb_csv_cell_fixed(out, sb_frame_typed(f, b->length_m), 6);
	sb_csv_cell_fixed(out, sb_frame_typed(f, b->station_m), 6);
	sb_csv_cell_fixed(out, northing, 6);
	sb_csv_cell_fixed(out, easting, 6);
	sb_csv_cell_fixed(out, elevation, 6);
	put_heading(f, &b->heading_from, out);
	put_heading(f, &b->heading_to, out);
	put_turn(b, out);
	sb_csv_cell_fixed(out, isfinite(b->radius_m) ? sb_frame_typed(f, b->radius_m) : (double)NAN, 6);
	sb_csv_end(out);
}

static void put_line(
	const struct export *e, const char *name, const struct bore_line *line, struct csv_out *out)
{
	for (size_t i = 0; i < line->count; i++)
		put_stretch(e, name, &line->stretches[i], out);
}

int export_segments(const struct export *e, struct sb_str *out, struct sb_err *err)
{
	const struct clearance_ask ask = sb_solution_clearance(e->job, e->solution);
	struct bore_line line = { 0 };
	struct csv_out table = { 0 };

	(void)err;
	put_head(e, &table);
	sb_bore_line_drilled(&ask, &line);
	put_line(e, "drilled", &line, &table);
	sb_bore_line_design(&ask, &line);
	put_line(e, "design", &line, &table);
	sb_bore_line_clear(&line);
	export_beside(e, sb_str_get(&table.text), COLUMNS, out);
	sb_str_clear(&table.text);
	return 0;
}
