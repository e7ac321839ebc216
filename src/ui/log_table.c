/* The table of joints: every one that was drilled, in the order of time, withdrawn ones among them. */
#include "base/str.h"
#include "base/time.h"
#include "draw/axis.h"
#include "geom/angle.h"
#include "model/slides.h"
#include "ui/answers.h"
#include "ui/log.h"
#include "ui/theme.h"

#include <math.h>
#include <stdio.h>

#define WIDE 132	 /* columns from which the rest of a row is shown too */
#define REMARKS_LEAST 12 /* columns worth having */

/* Columns: where each begins and how wide it is, text against the right. From LEG on a wide terminal. */
enum {
	JOINT,
	DEPTH,
	INCLINATION,
	AZIMUTH,
	STATION,
	OFFSET,
	HEIGHT,
	RADIUS,
	WINDOW,
	FLAG,
	LEG,
	FACE,
	SLID,
	RETURNS,
	TIME,
	WHO,
	REMARKS
};
static const struct {
	int at, width;
} columns[] = {
	[JOINT] = { 1, 5 },
	[DEPTH] = { 7, 8 },
	[INCLINATION] = { 16, 6 },
	[AZIMUTH] = { 23, 6 },
	[STATION] = { 30, 9 },
	[OFFSET] = { 40, 10 },
	[HEIGHT] = { 51, 9 },
	[RADIUS] = { 61, 7 },
	[WINDOW] = { 69, 7 },
	[FLAG] = { 77, 3 },
	[LEG] = { 82, 3 },
	[FACE] = { 87, 5 },
	[SLID] = { 94, 5 },
	[RETURNS] = { 101, 7 },
	[TIME] = { 110, 5 },
	[WHO] = { 117, 14 },
	[REMARKS] = { 132, 0 }, /* what room there is */
};

static const struct reading *nth_back(const struct job *job, size_t back)
{
	return back < job->joint_count ? &job->readings[job->joints[job->joint_count - 1 - back]] : NULL;
}

bool sb_log_table_newest_stands(const struct job *job)
{
	const struct reading *newest = nth_back(job, 0);

	return newest && sb_job_joint(job, sb_job_in_ground(job)) == newest;
}

const struct reading *sb_log_table_chosen(const struct view *v)
{
	const struct log_state *s = v->state;
	int in_ground = sb_job_in_ground(v->job);

	return s->marked || in_ground == 0 ? nth_back(v->job, s->back) : sb_job_joint(v->job, in_ground);
}

const struct row *sb_log_table_row(const struct solution *s, const struct reading *r)
{
	if ((size_t)r->joint < s->path.count && s->path.rows[r->joint].reading == r->id)
		return &s->path.rows[r->joint];
	for (size_t i = s->path.old_count; i-- > 0;)
		if (s->path.old[i].reading == r->id)
			return &s->path.old[i];
	return NULL;
}

static void put(struct cells *out, int column, enum style style, const char *text)
{
	sb_cells_right(out, 0, columns[column].at, columns[column].width, style, text);
}

/* "1.6 left" without the unit: the column's head carries it. */
static void side(const struct job *job, double value, const char *positive, const char *negative,
	const char *zero, char text[32])
{
	int decimals = job->unit == UNIT_M ? 2 : 1;

	if (fabs(value) < 0.5 * pow(10, -decimals))
		snprintf(text, 32, "%s", zero);
	else
		snprintf(text, 32, "%.*f %s", decimals, fabs(value), value > 0 ? positive : negative);
}

static void radius(const struct frame *f, double metres, char text[32])
{
	double r = sb_frame_typed(f, metres);

	if (r < 100000)
		snprintf(text, 32, "%.0f", r);
	else
		snprintf(text, 32, "-");
}

static void draw_place(const struct view *v, const struct row *row, enum style style, struct cells *out)
{
	const struct frame *f = &v->solution->frame;
	char text[SB_AXIS_TEXT];

	if (!row->on_path) {
		sb_cells_text(out, 0, columns[STATION].at, STYLE_DIM,
			row->taken ? "sensor still behind the entry" : "no reading taken");
		return;
	}
	sb_axis_station(row->deviation.station_m, v->job->unit, 1, text);
	put(out, STATION, style, text);
	side(v->job, sb_frame_typed(f, row->deviation.offset_m), "right", "left", "on line", text);
	put(out, OFFSET, style, text);
	side(v->job, sb_frame_typed(f, row->deviation.height_m), "high", "low", "on grade", text);
	put(out, HEIGHT, style, text);
	radius(f, row->radius_m, text);
	put(out, RADIUS, style, text);
	if (row->window.joints) {
		radius(f, row->window.radius_m, text);
		put(out, WINDOW, style, text);
	}
}

/* The worst that a warning says of this joint. */
static enum level level_at(const struct solution *s, const struct row *row)
{
	enum level worst = LEVEL_OK;

	for (size_t i = 0; i < s->warning_count; i++) {
		const struct warning *w = &s->warnings[i];
		bool here = row->joint >= w->joint && row->joint <= w->last_joint && !w->superseded;
		if (here && !sb_warning_sorts[w->kind].passing && w->level > worst)
			worst = w->level;
	}
	return worst;
}

static void draw_wide(const struct reading *r, enum style style, struct cells *out)
{
	struct number slid = sb_slides_total(r);
	char text[SB_TIME_TEXT];

	snprintf(text, sizeof text, "%d", r->leg);
	put(out, LEG, style, text);
	put(out, FACE, style, r->tool_face.text);
	put(out, SLID, style, slid.text);
	put(out, RETURNS, style, sb_returns_name(r->returns));
	sb_time_short(r->at_ms, sb_time_offset(r->at_ms), text);
	put(out, TIME, style, text);
	sb_cells_fit(out, 0, columns[WHO].at, columns[WHO].width, STYLE_DIM, r->who);
	int room = out->columns - columns[REMARKS].at - 1;
	if (room >= REMARKS_LEAST)
		sb_cells_fit(out, 0, columns[REMARKS].at, room, style, r->remarks);
}

static void draw_row(const struct view *v, size_t back, struct cells *out)
{
	const struct reading *r = nth_back(v->job, back);
	const struct row *row = sb_log_table_row(v->solution, r);
	char text[32];

	if (row == NULL)
		return;
	bool old = row != &v->solution->path.rows[r->joint];
	bool last = !old && r->joint == sb_job_in_ground(v->job);
	enum style style = old ? STYLE_WITHDRAWN : last ? STYLE_STRONG : STYLE_PLAIN;
	snprintf(text, sizeof text, "%d", r->joint);
	put(out, JOINT, style, text);
	snprintf(text, sizeof text, "%.2f", sb_frame_typed(&v->solution->frame, row->bit_md_m));
	put(out, DEPTH, style, text);
	put(out, INCLINATION, style, r->inclination.text);
	put(out, AZIMUTH, style, r->azimuth.text);
	draw_place(v, row, style, out);
	/* x withdrawn, c corrected, ! watch, !! breach: explained on the help page */
	enum level level = old ? LEVEL_OK : level_at(v->solution, row);
	snprintf(text, sizeof text, "%s%s%s", old ? "x" : "", r->corrects ? "c" : "", sb_theme_mark(level));
	put(out, FLAG, level == LEVEL_OK ? style : sb_theme_level(level), text);
	if (out->columns >= WIDE)
		draw_wide(r, style, out);
}

static void draw_head(const struct view *v, struct cells *out)
{
	static const char *const names[] = { "joint", "depth", "incl", "azim", "station", "offset", "height",
		"radius", "", "", "leg", "face", "slid", "returns", "time" };
	char text[48];

	for (int c = JOINT; c <= (out->columns >= WIDE ? TIME : FLAG); c++)
		put(out, c, STYLE_DIM, names[c]);
	if (out->columns >= WIDE)
		sb_cells_text(out, 0, columns[WHO].at, STYLE_DIM, "who");
	if (out->columns - columns[REMARKS].at - 1 >= REMARKS_LEAST)
		sb_cells_text(out, 0, columns[REMARKS].at, STYLE_DIM, "remarks");
	if (sb_number_given(&v->job->window_length))
		snprintf(text, sizeof text, "in %s %s", v->job->window_length.text,
			sb_unit_short(v->job->unit));
	else
		snprintf(text, sizeof text, "over %s", v->job->window_joints.text);
	put(out, WINDOW, STYLE_DIM, text);
}

void sb_log_table_draw(const struct view *v, struct cells *out)
{
	const struct log_state *s = v->state;
	int rows = out->rows - 1;
	size_t count = v->job->joint_count, below = 0;

	struct cells head = sb_cells_part(out, 0, 0, 1, out->columns);
	draw_head(v, &head);
	/* The newest stands at the foot; scrolling back brings older ones in from above. */
	if (s->back >= (size_t)rows)
		below = s->back - (size_t)rows + 1;
	for (int i = 0; i < rows; i++) {
		size_t back = below + (size_t)(rows - 1 - i);
		if (back >= count)
			continue;
		struct cells line = sb_cells_part(out, 1 + i, 0, 1, out->columns);
		draw_row(v, back, &line);
		if (s->marked && back == s->back) {
			sb_cells_text(&line, 0, 0, STYLE_KEY, ">");
			sb_cells_choose(&line, 0, 0, line.columns);
		}
	}
	if (count == 0)
		sb_cells_text(out, 1, 1, STYLE_DIM,
			"No joint yet. Type inclination and azimuth of joint 1, then Enter.");
}
