/* The computed tables. One list of columns serves writing and comparing. Angles and lengths are in the job's
 * terms; what is endless (the radius of a straight course) is NULL.
 */
#include "store/publish.h"

#include "base/mem.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define DEGREES (180 / 3.14159265358979323846) /* in a radian */

enum column {
	BIT_DEPTH,
	SURVEY_DEPTH,
	STATION,
	OFFSET,
	ELEVATION,
	HEIGHT,
	NORTHING,
	EASTING,
	DOGLEG,
	RADIUS_JOINT,
	RADIUS_WINDOW,
	CORRIDOR_SHARE,
	SIGMA_ALONG,
	SIGMA_ACROSS,
	SIGMA_UP,
	SHIFT_STATION,
	SHIFT_OFFSET,
	SHIFT_HEIGHT,
	COLUMNS
};

static const struct {
	const char *name, *parameter;
	bool bend; /* a radius: compared as a curvature */
} columns[COLUMNS] = {
	[BIT_DEPTH] = { "bit_depth", ":bit_depth", false },
	[SURVEY_DEPTH] = { "survey_depth", ":survey_depth", false },
	[STATION] = { "station", ":station", false },
	[OFFSET] = { "offset", ":offset", false },
	[ELEVATION] = { "elevation", ":elevation", false },
	[HEIGHT] = { "height", ":height", false },
	[NORTHING] = { "northing", ":northing", false },
	[EASTING] = { "easting", ":easting", false },
	[DOGLEG] = { "dogleg_deg", ":dogleg_deg", false },
	[RADIUS_JOINT] = { "radius_joint", ":radius_joint", true },
	[RADIUS_WINDOW] = { "radius_window", ":radius_window", true },
	[CORRIDOR_SHARE] = { "corridor_share", ":corridor_share", false },
	[SIGMA_ALONG] = { "sigma_along", ":sigma_along", false },
	[SIGMA_ACROSS] = { "sigma_across", ":sigma_across", false },
	[SIGMA_UP] = { "sigma_up", ":sigma_up", false },
	[SHIFT_STATION] = { "shift_station", ":shift_station", false },
	[SHIFT_OFFSET] = { "shift_offset", ":shift_offset", false },
	[SHIFT_HEIGHT] = { "shift_height", ":shift_height", false },
};

/* A row of the path as the file has it. */
struct line {
	int64_t reading;
	int leg, joint;
	bool on_path, superseded;
	const char *inclination, *azimuth; /* as read; "" when not read. Borrowed. */
	double values[COLUMNS];		   /* not finite: NULL */
};

static void take_read(const struct job *job, const struct row *row, struct line *line)
{
	const struct reading *r = row->reading ? sb_job_reading(job, row->reading) : NULL;

	if (row->reading == 0) {
		line->inclination = job->entry_inclination.text;
		line->azimuth = job->entry_azimuth.text;
	} else if (r) {
		line->inclination = r->inclination.text;
		line->azimuth = r->azimuth.text;
	}
}

/* NULL where the course is an arc for want of slides. */
static void put_shift(const struct job *job, const struct solution *s, const struct row *row, struct line *l)
{
	struct path_shift shift = sb_path_shift(&s->design, job->course, row);
	bool known = row->on_path && row->slides.known;

	l->values[SHIFT_STATION] = known ? sb_frame_typed(&s->frame, shift.station_m) : HUGE_VAL;
	l->values[SHIFT_OFFSET] = known ? sb_frame_typed(&s->frame, shift.offset_m) : HUGE_VAL;
	l->values[SHIFT_HEIGHT] = known ? sb_frame_typed(&s->frame, shift.height_m) : HUGE_VAL;
}

static struct line line_of(
	const struct job *job, const struct solution *s, const struct row *row, bool superseded)
{
	const struct frame *f = &s->frame;
	struct line l = { .reading = row->reading,
		.leg = row->leg,
		.joint = row->joint,
		.on_path = row->on_path,
		.superseded = superseded,
		.inclination = "",
		.azimuth = "" };

	take_read(job, row, &l);
	sb_frame_grid(f, row->at, &l.values[EASTING], &l.values[NORTHING], &l.values[ELEVATION]);
	l.values[BIT_DEPTH] = sb_frame_typed(f, row->bit_md_m);
	l.values[SURVEY_DEPTH] = sb_frame_typed(f, row->survey_md_m);
	l.values[STATION] = sb_frame_typed(f, row->deviation.station_m);
	l.values[OFFSET] = sb_frame_typed(f, row->deviation.offset_m);
	l.values[HEIGHT] = sb_frame_typed(f, row->deviation.height_m);
	l.values[DOGLEG] = row->dogleg_rad * DEGREES;
	l.values[RADIUS_JOINT] = sb_frame_typed(f, row->radius_m);
	l.values[RADIUS_WINDOW] = row->window.joints ? sb_frame_typed(f, row->window.radius_m) : HUGE_VAL;
	l.values[CORRIDOR_SHARE] = row->use.share;
	l.values[SIGMA_ALONG] = sb_frame_typed(f, row->doubt.along_m);
	l.values[SIGMA_ACROSS] = sb_frame_typed(f, row->doubt.across_m);
	l.values[SIGMA_UP] = sb_frame_typed(f, row->doubt.up_m);
	put_shift(job, s, row, &l);
	return l;
}

static int write_line(struct sb_sql *db, const struct line *l, struct sb_err *err)
{
	struct sb_query *q = sb_sql_kept(db,
		"INSERT INTO path (reading, leg, joint, bit_depth, survey_depth, inclination, azimuth, station, offset,"
		" elevation, height, northing, easting, dogleg_deg, radius_joint, radius_window, corridor_share,"
		" on_path, superseded, sigma_along, sigma_across, sigma_up, shift_station, shift_offset, shift_height)"
		" VALUES (:reading, :leg, :joint, :bit_depth, :survey_depth, nullif(:inclination, ''),"
		" nullif(:azimuth, ''), :station, :offset, :elevation, :height, :northing, :easting, :dogleg_deg,"
		" :radius_joint, :radius_window, :corridor_share, :on_path, :superseded, :sigma_along, :sigma_across,"
		" :sigma_up, :shift_station, :shift_offset, :shift_height)");

	sb_sql_bind_int(q, ":reading", l->reading);
	sb_sql_bind_int(q, ":leg", l->leg);
	sb_sql_bind_int(q, ":joint", l->joint);
	sb_sql_bind_text(q, ":inclination", l->inclination);
	sb_sql_bind_text(q, ":azimuth", l->azimuth);
	sb_sql_bind_int(q, ":on_path", l->on_path);
	sb_sql_bind_int(q, ":superseded", l->superseded);
	for (int i = 0; i < COLUMNS; i++)
		sb_sql_bind_real(q, columns[i].parameter, l->values[i]);
	return sb_sql_run(q, err);
}

int sb_publish_joint(struct sb_sql *db, const struct job *job, const struct solution *s, struct sb_err *err)
{
	struct line l = line_of(job, s, sb_solution_last(s), false);

	return write_line(db, &l, err);
}

/* ---- warnings ---- */

void sb_publish_clear(struct published *p)
{
	sb_free(p->warnings);
	memset(p, 0, sizeof *p);
}

static void remember(struct published *p, size_t i, const struct warning *w)
{
	p->warnings = sb_grow(p->warnings, i, &p->room, sizeof *p->warnings);
	p->warnings[i] = *w;
	if (i >= p->count)
		p->count = i + 1;
}

void sb_publish_known(struct published *p, const struct solution *s)
{
	p->count = 0;
	for (size_t i = 0; i < s->warning_count; i++)
		remember(p, i, &s->warnings[i]);
}

static bool same_warning(const struct warning *a, const struct warning *b)
{
	return a->kind == b->kind && a->level == b->level && a->leg == b->leg && a->joint == b->joint &&
		a->worst_joint == b->worst_joint && a->last_joint == b->last_joint &&
		a->station_m == b->station_m && a->value == b->value && a->limit == b->limit &&
		a->open == b->open && a->superseded == b->superseded && a->acknowledged == b->acknowledged &&
		sb_same(a->acknowledged_by, b->acknowledged_by) && sb_same(a->text, b->text);
}

/* Figures that are not finite have no place in a NOT NULL column; 0 stands for "none". */
static double or_zero(double value)
{
	return isfinite(value) ? value : 0;
}

static int write_warning(
	struct sb_sql *db, const struct solution *s, size_t i, const struct warning *w, struct sb_err *err)
{
	struct sb_query *q = sb_sql_kept(db,
		"INSERT OR REPLACE INTO warning (id, kind, level, leg, joint, worst_joint, last_joint, station, value,"
		" limit_value, open, superseded, acknowledged, acknowledged_by, words)"
		" VALUES (:id, :kind, :level, :leg, :joint, :worst_joint, :last_joint, :station, :value, :limit_value,"
		" :open, :superseded, :acknowledged, nullif(:acknowledged_by, ''), :words)");

	sb_sql_bind_int(q, ":id", (int64_t)i + 1);
	sb_sql_bind_text(q, ":kind", sb_warning_sorts[w->kind].name);
	sb_sql_bind_text(q, ":level", sb_level_word(w->level));
	sb_sql_bind_int(q, ":leg", w->leg);
	sb_sql_bind_int(q, ":joint", w->joint);
	sb_sql_bind_int(q, ":worst_joint", w->worst_joint);
	sb_sql_bind_int(q, ":last_joint", w->last_joint);
	sb_sql_bind_real(q, ":station", or_zero(sb_frame_typed(&s->frame, w->station_m)));
	sb_sql_bind_real(q, ":value", or_zero(w->value));
	sb_sql_bind_real(q, ":limit_value", or_zero(w->limit));
	sb_sql_bind_int(q, ":open", w->open);
	sb_sql_bind_int(q, ":superseded", w->superseded);
	sb_sql_bind_int(q, ":acknowledged", w->acknowledged);
	sb_sql_bind_text(q, ":acknowledged_by", w->acknowledged_by);
	sb_sql_bind_text(q, ":words", w->text);
	return sb_sql_run(q, err);
}

int sb_publish_warnings(
	struct sb_sql *db, const struct solution *s, size_t from, struct published *p, struct sb_err *err)
{
	for (size_t i = from; i < s->warning_count; i++) {
		const struct warning *w = &s->warnings[i];
		if (i < p->count && same_warning(w, &p->warnings[i]))
			continue;
		if (write_warning(db, s, i, w, err))
			return -1;
		remember(p, i, w);
	}
	if (s->warning_count >= p->count)
		return 0;
	p->count = s->warning_count;
	struct sb_query *q = sb_sql_kept(db, "DELETE FROM warning WHERE id > :count");
	sb_sql_bind_int(q, ":count", (int64_t)s->warning_count);
	return sb_sql_run(q, err);
}

/* ---- all of it ---- */

static int by_reading(const void *a, const void *b)
{
	const struct line *x = a, *y = b;

	return (x->reading > y->reading) - (x->reading < y->reading);
}

/* All rows, in the order in which the table keeps them. */
static struct line *all_lines(const struct job *job, const struct solution *s, size_t *count)
{
	const struct path *p = &s->path;
	struct line *lines = sb_alloc((p->count + p->old_count) * sizeof *lines);

	for (size_t i = 0; i < p->count; i++)
		lines[i] = line_of(job, s, &p->rows[i], false);
	for (size_t i = 0; i < p->old_count; i++)
		lines[p->count + i] = line_of(job, s, &p->old[i], true);
	*count = p->count + p->old_count;
	qsort(lines, *count, sizeof *lines, by_reading);
	return lines;
}

int sb_publish_all(struct sb_sql *db, const struct job *job, const struct solution *s, struct published *p,
	struct sb_err *err)
{
	size_t count;
	struct line *lines = all_lines(job, s, &count);
	int status = sb_sql_run(sb_sql_kept(db, "DELETE FROM path"), err) ||
		sb_sql_run(sb_sql_kept(db, "DELETE FROM warning"), err);

	for (size_t i = 0; i < count && status == 0; i++)
		status = write_line(db, &lines[i], err);
	sb_free(lines);
	p->count = 0;
	return status || sb_publish_warnings(db, s, 0, p, err) ? -1 : 0;
}

/* ---- comparing ---- */

/* Solving again on the same machine gives the same bits. Another machine's sine may differ in the last one,
 * which must not look like damage: so a billionth is let pass, and bends are compared as curvatures, which do
 * not blow up where a course is straight. */
static bool near(double a, double b)
{
	if (!isfinite(a) || !isfinite(b))
		return !isfinite(a) && !isfinite(b);
	return fabs(a - b) <= 1e-9 * (1 + fabs(a));
}

static double curvature(double radius)
{
	return isfinite(radius) && radius != 0 ? 1 / radius : 0;
}

static double real_or_none(const struct sb_query *q, int column)
{
	return sb_sql_type(q, column) == SQL_NULL ? HUGE_VAL : sb_sql_real(q, column);
}

#define FIRST_VALUE 7 /* column of the query below where columns[] begin */

static const char *line_differs(const struct sb_query *q, const struct line *l)
{
	if (sb_sql_int(q, 1) != l->leg || sb_sql_int(q, 2) != l->joint)
		return "joint";
	if (sb_sql_int(q, 3) != l->on_path || sb_sql_int(q, 4) != l->superseded)
		return "on_path or superseded";
	if (!sb_same(sb_sql_text(q, 5), l->inclination) || !sb_same(sb_sql_text(q, 6), l->azimuth))
		return "inclination or azimuth";
	for (int i = 0; i < COLUMNS; i++) {
		double got = real_or_none(q, FIRST_VALUE + i);
		bool same = columns[i].bend ? fabs(curvature(got) - curvature(l->values[i])) <= 1e-12
					    : near(got, l->values[i]);
		if (!same)
			return columns[i].name;
	}
	return NULL;
}

static int64_t compare_path(
	struct sb_sql *db, const struct line *lines, size_t count, struct sb_str *words, struct sb_err *err)
{
	struct sb_query *q = sb_sql_prepare(db,
		"SELECT reading, leg, joint, on_path, superseded, inclination, azimuth, bit_depth, survey_depth, station,"
		" offset, elevation, height, northing, easting, dogleg_deg, radius_joint, radius_window, corridor_share,"
		" sigma_along, sigma_across, sigma_up, shift_station, shift_offset, shift_height"
		" FROM path ORDER BY reading");
	int64_t wrong = 0;
	size_t i = 0;
	struct sb_str none = { 0 }, *to = words ? words : &none;

	while (sb_sql_row(q)) {
		int64_t reading = sb_sql_int(q, 0);
		for (; i < count && lines[i].reading < reading; i++, wrong++)
			sb_str_add(to, "path: joint %d (reading %lld) is missing\n", lines[i].joint,
				(long long)lines[i].reading);
		bool known = i < count && lines[i].reading == reading;
		const char *what = known ? line_differs(q, &lines[i]) : NULL;
		if (!known)
			sb_str_add(to, "path: reading %lld has a row that solving does not give\n",
				(long long)reading);
		else if (what)
			sb_str_add(to, "path: joint %d (reading %lld): %s is not what solving gives\n",
				lines[i].joint, (long long)reading, what);
		wrong += !known || what;
		i += known;
	}
	for (; i < count; i++, wrong++)
		sb_str_add(to, "path: joint %d (reading %lld) is missing\n", lines[i].joint,
			(long long)lines[i].reading);
	sb_str_clear(&none);
	return sb_sql_done(q, err) ? -1 : wrong;
}

static bool warning_differs(const struct sb_query *q, const struct solution *s, const struct warning *w)
{
	return !sb_same(sb_sql_text(q, 1), sb_warning_sorts[w->kind].name) ||
		!sb_same(sb_sql_text(q, 2), sb_level_word(w->level)) || sb_sql_int(q, 3) != w->leg ||
		sb_sql_int(q, 4) != w->joint || sb_sql_int(q, 5) != w->worst_joint ||
		sb_sql_int(q, 6) != w->last_joint ||
		!near(sb_sql_real(q, 7), or_zero(sb_frame_typed(&s->frame, w->station_m))) ||
		!near(sb_sql_real(q, 8), or_zero(w->value)) || !near(sb_sql_real(q, 9), or_zero(w->limit)) ||
		sb_sql_int(q, 10) != w->open || sb_sql_int(q, 11) != w->superseded ||
		sb_sql_int(q, 12) != w->acknowledged || !sb_same(sb_sql_text(q, 13), w->acknowledged_by) ||
		!sb_same(sb_sql_text(q, 14), w->text);
}

static int64_t compare_warnings(
	struct sb_sql *db, const struct solution *s, struct sb_str *words, struct sb_err *err)
{
	struct sb_query *q = sb_sql_prepare(db,
		"SELECT id, kind, level, leg, joint, worst_joint, last_joint, station, value, limit_value, open,"
		" superseded, acknowledged, acknowledged_by, words FROM warning ORDER BY id");
	int64_t wrong = 0;
	size_t i = 0;

	for (; sb_sql_row(q); i++) {
		if (i < s->warning_count && sb_sql_int(q, 0) == (int64_t)i + 1 &&
			!warning_differs(q, s, &s->warnings[i]))
			continue;
		wrong++;
		if (words)
			sb_str_add(words, "warning: row %lld is not what solving gives\n",
				(long long)sb_sql_int(q, 0));
	}
	for (; i < s->warning_count; i++, wrong++)
		if (words)
			sb_str_add(words, "warning: row %zu is missing\n", i + 1);
	return sb_sql_done(q, err) ? -1 : wrong;
}

int64_t sb_publish_compare(struct sb_sql *db, const struct job *job, const struct solution *s,
	struct sb_str *words, struct sb_err *err)
{
	size_t count;
	struct line *lines = all_lines(job, s, &count);
	int64_t path = compare_path(db, lines, count, words, err);

	sb_free(lines);
	if (path < 0)
		return -1;
	int64_t warnings = compare_warnings(db, s, words, err);
	return warnings < 0 ? -1 : path + warnings;
}
