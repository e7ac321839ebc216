/* Every joint with its place, as a table: the cells of `path`, with sides in words.
 */
#include "base/mem.h"
#include "base/str.h"
#include "io/rows.h"

#include <math.h>
#include <stdio.h>

#include "drawing_tables.h"

static void put_number(struct drawing_table *t, const struct path_cell *c, int decimals)
{
	char text[40] = "";

	if (c->kind == CELL_WHOLE)
		snprintf(text, sizeof text, "%.0f", c->value);
	else if (c->kind == CELL_TYPED)
		sb_copy(text, sizeof text, c->typed.text);
	else if (c->kind == CELL_NUMBER)
		snprintf(text, sizeof text, "%.*f", decimals, drawing_shown(c->value, decimals));
	drawing_table_put(t, text);
}

static void put_station(struct drawing *d, struct drawing_table *t, const struct path_cell *c)
{
	char text[SB_AXIS_TEXT] = "";

	if (c->kind != CELL_BLANK)
		sb_axis_station(sb_frame_metres(&d->s->frame, c->value), d->job->unit, 2, text);
	drawing_table_put(t, text);
}

static void put_side(
	struct drawing_table *t, const struct path_cell *c, const char *positive, const char *negative)
{
	char text[48] = "";

	if (c->kind != CELL_BLANK)
		snprintf(text, sizeof text, "%.2f%s", fabs(c->value),
			fabs(c->value) < 0.005 ? ""
				: c->value > 0 ? positive
					       : negative);
	drawing_table_put(t, text);
}

static void put_radius(struct drawing_table *t, const struct path_cell *c, bool known)
{
	char text[40] = "";

	if (c->kind == CELL_NUMBER && c->value < 99999)
		snprintf(text, sizeof text, "%.0f", c->value);
	else if (known)
		sb_copy(text, sizeof text, "straight");
	drawing_table_put(t, text);
}

static void fill_joint(struct drawing *d, struct drawing_table *t, const struct row *row, bool present)
{
	struct path_cell c[PATH_COLUMNS];

	sb_rows_fill(d->job, d->s, row, c);
	bool bends = c[PATH_STATION].kind != CELL_BLANK && row->joint > 0;
	put_number(t, &c[PATH_JOINT], 0);
	put_number(t, &c[PATH_LEG], 0);
	put_number(t, &c[PATH_BIT_DEPTH], 2);
	put_number(t, &c[PATH_SURVEY_DEPTH], 2);
	put_number(t, &c[PATH_INCLINATION], 2);
	put_number(t, &c[PATH_AZIMUTH], 2);
	put_station(d, t, &c[PATH_STATION]);
	put_side(t, &c[PATH_OFFSET], " right", " left");
	put_number(t, &c[PATH_ELEVATION], 2);
	put_side(t, &c[PATH_HEIGHT], " high", " low");
	put_number(t, &c[PATH_NORTHING], 2);
	put_number(t, &c[PATH_EASTING], 2);
	put_radius(t, &c[PATH_RADIUS_JOINT], bends);
	put_radius(t, &c[PATH_RADIUS_WINDOW], bends && row->window.joints > 0);
	struct cover cover = present ? sb_cover_at(&d->clear, row) : (struct cover){ 0 };
	drawing_table_put_length(d, t, cover.known, cover.cover_m);
	drawing_table_put(t, present ? row->joint == 0 ? "entry" : "" : "withdrawn");
	drawing_table_end_row(t, present ? ROW_PLAIN : ROW_FAINT);
}

void drawing_joints_fill(struct drawing *d, struct drawing_tables *all)
{
	static const struct paper_column columns[] = { { "Joint", HOLD_RIGHT, false },
		{ "Leg", HOLD_RIGHT, false }, { "Depth of\nthe bit", HOLD_RIGHT, false },
		{ "Depth of\nthe reading", HOLD_RIGHT, false }, { "Inclination\nas read", HOLD_RIGHT, false },
		{ "Azimuth\nas read", HOLD_RIGHT, false }, { "Station", HOLD_RIGHT, false },
		{ "Offset", HOLD_RIGHT, false }, { "Elevation", HOLD_RIGHT, false },
		{ "Height against\nthe design", HOLD_RIGHT, false }, { "Northing", HOLD_RIGHT, false },
		{ "Easting", HOLD_RIGHT, false }, { "Radius,\njoint", HOLD_RIGHT, false },
		{ "Radius,\nwindow", HOLD_RIGHT, false }, { "Cover", HOLD_RIGHT, false },
		{ "", HOLD_LEFT, false } };
	struct drawing_table *t = drawing_table_begin(
		all, "JOINTS: PLACE OF EACH READING", columns, sizeof columns / sizeof *columns);
	const struct path *path = &d->s->path;
	const struct row **rows;
	size_t count = sb_rows_list(d->s, true, &rows);
	for (size_t i = 0; i < count; i++)
		fill_joint(d, t, rows[i], sb_path_present(path, rows[i]));
	sb_free(rows);
	drawing_table_finish(d, all, t);
}
