/* The tables, a row for each joint: position, bend, uncertainty, readings, and what was withdrawn. Their
 * figures come from the cells of `path` (io/rows.h) and from the row itself. */
#include "base/mem.h"
#include "io/rows.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "report_parts.h"

#define COUNT(columns) (sizeof(columns) / sizeof *(columns))

/* A row and its cells. */
struct line {
	const struct row *row;
	struct path_cell cells[PATH_COLUMNS];
};

static void put_fixed(struct report *r, const struct line *l, enum path_column column, int decimals)
{
	const struct path_cell *c = &l->cells[column];

	if (c->kind == CELL_BLANK)
		sb_document_cell(r->d, "%s", "");
	else if (c->kind == CELL_TYPED)
		sb_document_cell(r->d, "%s", c->typed.text);
	else
		sb_document_cell(r->d, "%.*f", decimals, c->value);
}

static void put_joint(struct report *r, const struct line *l)
{
	if (l->row->joint == 0)
		sb_document_cell(r->d, "entry");
	else
		sb_document_cell(r->d, "%d", l->row->joint);
}

static void put_station(struct report *r, const struct line *l)
{
	char text[REPORT_WORDS];

	sb_document_cell(
		r->d, "%s", l->row->on_path ? report_station(r, l->row->deviation.station_m, text) : "");
}

static void put_side(
	struct report *r, const struct line *l, double metres, const char *positive, const char *negative)
{
	char text[REPORT_WORDS];

	sb_document_cell(r->d, "%s", l->row->on_path ? report_side(r, metres, positive, negative, text) : "");
}

/* Puts the rows of the present path, or of withdrawn joints alone, each by `put`. */
static void walk(struct report *r, bool withdrawn, void (*put)(struct report *r, const struct line *l))
{
	const struct row **rows;
	size_t count = sb_rows_list(r->s, withdrawn, &rows);
	const struct path *p = &r->s->path;

	for (size_t i = 0; i < count; i++) {
		struct line l = { .row = rows[i] };
		bool present = sb_path_present(p, rows[i]);
		if (withdrawn && present)
			continue;
		sb_rows_fill(r->job, r->s, rows[i], l.cells);
		put(r, &l);
	}
	sb_free(rows);
}

/* ---- position ---- */

static const struct table_column position_columns[] = { { "joint", TABLE_FIGURES },
	{ "depth", TABLE_FIGURES }, { "incl", TABLE_FIGURES }, { "azim", TABLE_FIGURES },
	{ "station", TABLE_FIGURES }, { "offset", TABLE_FIGURES }, { "elev", TABLE_FIGURES },
	{ "height", TABLE_FIGURES } };

static void put_position_cells(struct report *r, const struct line *l)
{
	put_fixed(r, l, PATH_SURVEY_DEPTH, 2);
	put_fixed(r, l, PATH_INCLINATION, 2);
	put_fixed(r, l, PATH_AZIMUTH, 2);
	put_station(r, l);
	put_side(r, l, l->row->deviation.offset_m, "right", "left");
	put_fixed(r, l, PATH_ELEVATION, 2);
	put_side(r, l, l->row->deviation.height_m, "high", "low");
}

static void put_position(struct report *r, const struct line *l)
{
	put_joint(r, l);
	put_position_cells(r, l);
}

/* Joints of which nothing is known but that they are in the ground. */
static void say_unplaced(struct report *r)
{
	for (size_t i = 1; i < r->s->path.count; i++)
		if (!r->s->path.rows[i].on_path) {
			sb_document_paragraph(r->d,
				"Where a row has no position the sensor was still behind the entry, or no reading was taken "
				"there: the path runs on from the reading before.");
			return;
		}
}

void report_position(struct report *r)
{
	report_heading(r, "Position, joint by joint");
	sb_document_paragraph(r->d,
		"Of the sensor, in %s and degrees; inclination and azimuth as read. Depth is along the hole from the "
		"entry, station along the design's alignment. Offset: right or left of it, looking from entry to exit. "
		"Height: above (high) or below (low) the design line there.",
		sb_unit_long(r->job->unit));
	sb_document_table(r->d, position_columns, COUNT(position_columns));
	walk(r, false, put_position);
	say_unplaced(r);
}

/* ---- bend ---- */

static const struct table_column bend_columns[] = { { "joint", TABLE_FIGURES }, { "station", TABLE_FIGURES },
	{ "turned deg", TABLE_FIGURES }, { "radius of joint", TABLE_FIGURES },
	{ "of limit %", TABLE_FIGURES }, { "over joints", TABLE_FIGURES }, { "by ends", TABLE_FIGURES },
	{ "by sum", TABLE_FIGURES }, { "of limit %", TABLE_FIGURES }, { "verdict", TABLE_WORDS } };

static void put_share(struct report *r, double radius_m, bool known, const struct number *limit)
{
	double share = report_typed(r, radius_m) / limit->value * 100;

	if (!known || !sb_number_given(limit))
		sb_document_cell(r->d, "%s", "");
	else if (share > 999)
		sb_document_cell(r->d, "over 999");
	else
		sb_document_cell(r->d, "%.0f", share);
}

static bool too_tight(const struct report *r, double radius_m, bool known, const struct number *limit)
{
	return known && sb_number_given(limit) && radius_m < sb_frame_metres(&r->s->frame, limit->value);
}

static const char *verdict(const struct report *r, const struct row *row)
{
	const struct job *job = r->job;
	bool window = row->window.joints > 0;
	bool joint_fails = too_tight(r, row->radius_m, true, &job->joint_minimum);
	bool window_fails = too_tight(r, row->window.radius_m, window, &job->window_minimum);

	if (joint_fails || window_fails)
		return joint_fails && window_fails ? "FAIL both" : joint_fails ? "FAIL joint" : "FAIL window";
	if (!sb_number_given(&job->joint_minimum) && !sb_number_given(&job->window_minimum))
		return "no limit";
	return "pass";
}

static void put_bend(struct report *r, const struct line *l)
{
	const struct row *row = l->row;
	const struct window *w = &row->window;
	char text[REPORT_WORDS];

	if (!row->on_path || row->joint == 0)
		return;
	put_joint(r, l);
	put_station(r, l);
	put_fixed(r, l, PATH_DOGLEG, 2);
	sb_document_cell(r->d, "%s", report_radius(r, row->radius_m, text));
	put_share(r, row->radius_m, true, &r->job->joint_minimum);
	if (w->joints)
		sb_document_cell(r->d, "%d", w->joints);
	else
		sb_document_cell(r->d, "%s", "");
	sb_document_cell(r->d, "%s", w->joints ? report_radius(r, w->radius_ends_m, text) : "");
	sb_document_cell(r->d, "%s", w->joints ? report_radius(r, w->radius_sum_m, text) : "");
	put_share(r, w->radius_m, w->joints > 0, &r->job->window_minimum);
	sb_document_cell(r->d, "%s", verdict(r, row));
}

void report_bend(struct report *r)
{
	const struct job *job = r->job;

	report_heading(r, "Bend, joint by joint");
	sb_document_paragraph(r->d,
		"Radii in %s. A joint's radius is that of the hole since the reading before; it carries the noise of "
		"both readings. Over the window: by the angle between its ends, and by the sum of its doglegs; the "
		"contract judges by the %s, and the share of the limit is of that.",
		sb_unit_long(job->unit), job->method == METHOD_SUM ? "sum" : "ends");
	sb_document_pair(r->d, "limit of one joint", "%s",
		sb_number_given(&job->joint_minimum) ? job->joint_minimum.text : "none set");
	sb_document_pair(r->d, "limit of the window", "%s",
		sb_number_given(&job->window_minimum) ? job->window_minimum.text : "none set");
	sb_document_table(r->d, bend_columns, COUNT(bend_columns));
	walk(r, false, put_bend);
}

/* ---- coordinates and uncertainty ---- */

static const struct table_column sure_columns[] = { { "joint", TABLE_FIGURES }, { "easting", TABLE_FIGURES },
	{ "northing", TABLE_FIGURES }, { "elevation", TABLE_FIGURES }, { "along", TABLE_FIGURES },
	{ "across", TABLE_FIGURES }, { "up", TABLE_FIGURES }, { "corridor used %", TABLE_FIGURES },
	{ "chance outside %", TABLE_FIGURES } };

static void put_percent(struct report *r, const struct line *l, enum path_column column)
{
	const struct path_cell *c = &l->cells[column];

	if (c->kind == CELL_BLANK)
		sb_document_cell(r->d, "%s", "");
	else if (c->value > 9.99)
		sb_document_cell(r->d, "over 999");
	else
		sb_document_cell(r->d, "%.0f", c->value * 100);
}

static void put_sure(struct report *r, const struct line *l)
{
	if (!l->row->on_path)
		return;
	put_joint(r, l);
	put_fixed(r, l, PATH_EASTING, 2);
	put_fixed(r, l, PATH_NORTHING, 2);
	put_fixed(r, l, PATH_ELEVATION, 2);
	put_fixed(r, l, PATH_SIGMA_ALONG, 2);
	put_fixed(r, l, PATH_SIGMA_ACROSS, 2);
	put_fixed(r, l, PATH_SIGMA_UP, 2);
	put_percent(r, l, PATH_CORRIDOR_SHARE);
	put_percent(r, l, PATH_CHANCE_OUTSIDE);
}

void report_uncertainty(struct report *r)
{
	const struct job *job = r->job;

	report_heading(r, "Coordinates, and how sure they are");
	sb_document_paragraph(r->d,
		"On the grid %s, elevations in %s. Along the design line, across it and up: one sigma, from the error "
		"terms that section \"How it was measured\" lists. At %s %% confidence it is give or take %.2f of them.",
		job->crs, *job->vertical_datum ? job->vertical_datum : "no datum that was named",
		job->confidence.text, r->s->uncertainty.line_factor);
	sb_document_table(r->d, sure_columns, COUNT(sure_columns));
	walk(r, false, put_sure);
}

/* ---- what was withdrawn ---- */

static void put_leg_joint(struct report *r, const struct line *l)
{
	sb_document_cell(r->d, "%d/%d", l->row->joint, l->row->leg);
	put_position_cells(r, l);
}

static void put_legs(struct report *r)
{
	static const struct table_column columns[] = { { "leg", TABLE_FIGURES },
		{ "back to joint", TABLE_FIGURES }, { "when", TABLE_WORDS }, { "by", TABLE_WORDS },
		{ "why", TABLE_WORDS } };
	char time[REPORT_WORDS];

	sb_document_table(r->d, columns, COUNT(columns));
	for (size_t i = 0; i < r->job->leg_count; i++) {
		const struct leg *leg = &r->job->legs[i];
		sb_document_cell(r->d, "%d", leg->number);
		sb_document_cell(r->d, "%d", leg->to_joint);
		sb_document_cell(r->d, "%s", report_time(r->job, leg->act, leg->at_ms, time));
		sb_document_cell(r->d, "%s", leg->who);
		sb_document_cell(r->d, "%s", leg->reason);
	}
}

void report_withdrawn(struct report *r)
{
	report_heading(r, "Legs that were withdrawn");
	if (r->job->leg_count == 0) {
		sb_document_paragraph(r->d, "None: the hole was drilled in one leg.");
		return;
	}
	put_legs(r);
	if (r->s->path.old_count == 0)
		return;
	sb_document_subheading(r->d, "Where the withdrawn joints lay (joint/leg)");
	sb_document_table(r->d, position_columns, COUNT(position_columns));
	walk(r, true, put_leg_joint);
}
