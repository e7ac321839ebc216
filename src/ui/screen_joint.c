/* One joint, all that is known of it: what was typed, by whom, what it was before each correction, and what
 * was computed.
 */
#include "base/str.h"
#include "base/time.h"
#include "geom/angle.h"
#include "io/courses.h"
#include "io/links.h"
#include "io/passings.h"
#include "model/slides.h"
#include "ui/answers.h"
#include "ui/app.h"
#include "ui/explain.h"
#include "ui/log.h"
#include "ui/page.h"
#include "ui/theme.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

struct looking {
	int64_t reading;
	struct page page;
};

#define LABEL 19 /* columns of the label */

static int joint_open(struct view *v, const void *argument, struct sb_err *err)
{
	struct looking *l = v->state;

	(void)err;
	l->reading = ((const struct reading *)argument)->id;
	return 0;
}

/* One line a field that is said; returns the next row. */
static int draw_fields(const struct view *v, const struct reading *r, struct cells *out, int row)
{
	for (size_t i = 0; i < sb_row_field_count; i++) {
		const struct row_field *f = &sb_row_fields[i];
		const char *text = sb_row_field_get(f, r);
		if (*text == '\0')
			continue;
		sb_cells_fit(out, row, 1, LABEL - 1, STYLE_DIM, f->label);
		if (f->type == FIELD_TEXT) {
			row += sb_cells_wrap(
				out, row, 1 + LABEL, out->columns - LABEL - 2, STYLE_STRONG, text);
			continue;
		}
		int column = sb_cells_text(out, row, 1 + LABEL, STYLE_STRONG, text);
		bool inclination = sb_same(f->name, "inclination");
		sb_cells_text(out, row++, column + 1, STYLE_DIM,
			inclination ? sb_incline_mark(v->job->incline) : sb_row_field_unit(f, v->job->unit));
	}
	return row;
}

static int draw_who(const struct reading *r, struct cells *out, int row)
{
	char when[SB_TIME_TEXT];

	sb_time_long(r->at_ms, sb_time_offset(r->at_ms), when);
	sb_cells_print(out, row++, 1, STYLE_PLAIN, "%s by %s, %s", r->corrects ? "corrected" : "logged",
		r->who, when);
	if (r->reason[0])
		row += sb_cells_wrap(out, row, 1, out->columns - 2, STYLE_PLAIN, r->reason);
	return row;
}

/* What stood there before: the chain of rows that this one replaced. */
static int draw_before(const struct view *v, const struct reading *r, struct cells *out, int row)
{
	for (; r && r->corrects; r = sb_job_reading(v->job, r->corrects)) {
		const struct reading *old = sb_job_reading(v->job, r->corrects);
		if (old == NULL)
			break;
		for (size_t i = 0; i < sb_row_field_count; i++) {
			const char *was = sb_row_field_get(&sb_row_fields[i], old),
				   *is = sb_row_field_get(&sb_row_fields[i], r);
			if (!sb_same(was, is))
				sb_cells_print(out, row++, 1, STYLE_WITHDRAWN, "%s was %s, as typed by %s",
					sb_row_fields[i].label, *was ? was : "blank", old->who);
		}
	}
	return row;
}

static int line(struct cells *out, int row, const char *label, const char *text)
{
	sb_cells_fit(out, row, 1, LABEL - 1, STYLE_DIM, label);
	return row + sb_cells_wrap(out, row, 1 + LABEL, out->columns - LABEL - 2, STYLE_PLAIN, text);
}

/* The slope of the hole in the words of the conventions that this job does not use. */
static void slope_words(enum incline typed, const struct row *row, char text[96])
{
	double from_level = sb_deg(row->attitude.inc_rad) - 90;
	const char *way = from_level > 0 ? "rises" : "falls";
	char level[40], down[40], grade[24];

	snprintf(level, sizeof level, "%s %.2f deg from level", way, fabs(from_level));
	snprintf(down, sizeof down, "%.2f deg from straight down", from_level + 90);
	snprintf(grade, sizeof grade, "%s %.2f %%", way, fabs(100 * tan(sb_rad(from_level))));
	if (typed == INCLINE_GRADE)
		snprintf(text, 96, "%s, %s", level, down);
	else if (fabs(from_level) > 80) /* a grade says nothing any more */
		snprintf(text, 96, "%s", typed == INCLINE_DOWN ? level : down);
	else
		snprintf(text, 96, "%s, %s", typed == INCLINE_DOWN ? level : down, grade);
}

static int draw_window(const struct view *v, const struct row *row, struct cells *out, int at)
{
	const struct frame *f = &v->solution->frame;
	char ends[32], sum[32], text[128], label[32];

	if (row->window.joints == 0)
		return at;
	sb_answers_radius(v->job, f, row->window.radius_ends_m, ends);
	sb_answers_radius(v->job, f, row->window.radius_sum_m, sum);
	snprintf(text, sizeof text, "%s between the ends, %s by sum of doglegs", ends, sum);
	if (sb_number_given(&v->job->window_length))
		snprintf(label, sizeof label, "radius in %.8s %s", v->job->window_length.text,
			sb_unit_short(v->job->unit));
	else
		snprintf(label, sizeof label, "radius, %d joints", row->window.joints);
	return line(out, at, label, text);
}

static int draw_place(const struct view *v, const struct row *row, struct cells *out, int at)
{
	const struct frame *f = &v->solution->frame;
	char text[128], offset[32], height[32];
	double e, n, u;

	snprintf(text, sizeof text, "%.2f %s to the sensor", sb_frame_typed(f, row->survey_md_m),
		sb_unit_short(v->job->unit));
	at = line(out, at, "survey depth", text);
	sb_frame_grid(f, row->at, &e, &n, &u);
	snprintf(text, sizeof text, "E %.2f  N %.2f  elevation %.2f", e, n, u);
	at = line(out, at, "position", text);
	sb_answers_offset(v->job, f, row->deviation.offset_m, offset);
	sb_answers_height(v->job, f, row->deviation.height_m, height);
	snprintf(text, sizeof text, "station %.2f, %s, %s", sb_frame_typed(f, row->deviation.station_m),
		offset, height);
	at = line(out, at, "against design", text);
	double factor = v->solution->uncertainty.line_factor;
	const char *unit = sb_unit_short(v->job->unit);
	snprintf(text, sizeof text, "%.2f %s across, %.2f %s in height, %.2f %s along (%s %%)",
		sb_frame_typed(f, factor * row->doubt.across_m), unit,
		sb_frame_typed(f, factor * row->doubt.up_m), unit,
		sb_frame_typed(f, factor * row->doubt.along_m), unit, v->job->confidence.text);
	at = line(out, at, "give or take", text);
	snprintf(text, sizeof text, "%.2g %% of being outside the corridor", row->outside * 100);
	return line(out, at, "chance", text);
}

static int draw_cover(const struct view *v, const struct clearance_ask *ask, const struct row *row,
	struct cells *out, int at)
{
	const struct frame *f = &v->solution->frame;
	struct cover here = sb_cover_at(ask, row), least = sb_cover_course(ask, row);
	int d = v->job->unit == UNIT_M ? 2 : 1;
	char text[128], required[48] = "";

	if (!here.known || !least.known)
		return at;
	if (!isnan(least.required_m))
		snprintf(
			required, sizeof required, "; %.*f required", d, sb_frame_typed(f, least.required_m));
	snprintf(text, sizeof text, "%.*f %s, least %.*f since the reading before%s", d,
		sb_frame_typed(f, here.cover_m), sb_unit_short(v->job->unit), d,
		sb_frame_typed(f, least.cover_m), required);
	return line(out, at, "cover", text);
}

/* The obstacle that the course comes nearest to. */
static int draw_nearest(const struct view *v, const struct clearance_ask *ask, const struct row *row,
	struct cells *out, int at)
{
	struct passing nearest = { .wall_m = HUGE_VAL };
	const char *name = "";
	char words[SB_PASSINGS_TEXT], text[256];

	for (size_t i = 0; i < ask->around->count; i++) {
		struct passing p = sb_clearance_course(ask, i, row);
		if (p.known && p.wall_m < nearest.wall_m) {
			nearest = p;
			name = ask->around->obstacles[i].name;
		}
	}
	if (!nearest.known)
		return at;
	sb_passings_words(v->job, v->solution, &nearest, words);
	snprintf(text, sizeof text, "%.60s: %s, wall to wall", name, words);
	return line(out, at, "clearance", text);
}

/* What lies around its course; of the present path. */
static int draw_around(const struct view *v, const struct row *row, struct cells *out, int at)
{
	struct clearance_ask ask = sb_solution_clearance(v->job, v->solution);

	if (row->joint == 0 || row != &v->solution->path.rows[row->joint])
		return at;
	return draw_nearest(v, &ask, row, out, draw_cover(v, &ask, row, out, at));
}

/* What the joint's slides do to the path beside the arc. */
static int draw_slides(const struct view *v, const struct row *row, struct cells *out, int at)
{
	const struct frame *f = &v->solution->frame;
	char own[SB_COURSES_TEXT], all[SB_COURSES_TEXT], text[320];
	struct row course = *row;

	if (!row->slides.known) {
		if (!row->slides.written)
			return at;
		return line(out, at, "by slides",
			"not known for all of this course: it is laid as the arc between the readings");
	}
	course.slides.shifted = row->slides.shift;
	struct path_shift one = sb_path_shift(&v->solution->design, v->job->course, &course);
	struct path_shift so_far = sb_path_shift(&v->solution->design, v->job->course, row);
	const char *record = v->job->course == COURSE_BY_SLIDES ? "slides" : "arcs";
	bool apart = sb_courses_words(v->job, f, &one, own);
	apart |= sb_courses_words(v->job, f, &so_far, all);
	if (apart)
		snprintf(text, sizeof text,
			"%s by this course, %s so far, beside the arcs; %s are the record", own, all, record);
	else
		snprintf(text, sizeof text, "in the same place as by arcs; %s are the record", record);
	return line(out, at, "by slides", text);
}

static int draw_computed(const struct view *v, const struct row *row, struct cells *out, int at)
{
	const struct frame *f = &v->solution->frame;
	char text[128], radius[32];

	if (row->taken) {
		slope_words(v->job->incline, row, text);
		at = line(out, at, "slope", text);
	}
	if (!row->on_path)
		return line(out, at, "position",
			row->taken ? "the sensor was still behind the entry"
				   : "no reading: the path is carried over it");
	at = draw_slides(v, row, out, draw_place(v, row, out, at));
	at = draw_around(v, row, out, at);
	sb_answers_radius(v->job, f, row->radius_m, radius);
	snprintf(text, sizeof text, "%.2f deg in %.2f %s, give or take %.2f: radius %s",
		sb_deg(row->dogleg_rad), sb_frame_typed(f, row->course_m), sb_unit_short(v->job->unit),
		sb_deg(row->dogleg_sigma_rad), radius);
	at = line(out, at, "bend", text);
	return draw_window(v, row, out, at);
}

static int draw_warnings(const struct view *v, const struct row *row, struct cells *out, int at)
{
	for (size_t i = 0; i < v->solution->warning_count; i++) {
		const struct warning *w = &v->solution->warnings[i];
		if (row->joint < w->joint || row->joint > w->last_joint || w->superseded)
			continue;
		char text[400];
		snprintf(text, sizeof text, "%s %s%s%s: %s", sb_theme_mark(w->level), sb_level_word(w->level),
			w->acknowledged ? ", acknowledged by " : "", w->acknowledged_by, w->text);
		at += sb_cells_wrap(out, at, 1, out->columns - 2, sb_theme_level(w->level), text);
	}
	return at;
}

/* The settings that were others than the sheet's when it was read. */
static int draw_changed(const struct view *v, const struct reading *r, struct cells *out, int row)
{
	struct sb_str lines = { 0 };

	sb_links_changed(v->job, r, &lines);
	char *rest = lines.text;
	for (char *one; rest && (one = strsep(&rest, "\n")) != NULL;)
		row = line(out, row, "read with", one);
	sb_str_clear(&lines);
	return row;
}

static int draw_lines(const void *context, struct cells *out, int row)
{
	const struct view *v = context;
	const struct looking *l = v->state;
	const struct reading *r = sb_job_reading(v->job, l->reading);
	char title[64];

	if (r == NULL)
		return row;
	const struct row *solved = sb_log_table_row(v->solution, r);
	bool present = solved && sb_path_present(&v->solution->path, solved);
	snprintf(title, sizeof title, "joint %d, leg %d%s", r->joint, r->leg, present ? "" : ", pulled back");
	sb_cells_rule(out, row++, title);
	row = draw_fields(v, r, out, row);
	row = draw_who(r, out, row);
	row = draw_before(v, r, out, row);
	row = draw_changed(v, r, out, row);
	if (solved == NULL)
		return row;
	row = draw_computed(v, solved, out, row);
	return present ? draw_warnings(v, solved, out, row) : row;
}

static void joint_draw(const struct view *v, struct cells *out)
{
	struct looking *l = v->state;

	sb_page_draw(&l->page, draw_lines, v, out);
}

/* Somebody corrected it meanwhile: the page goes on with the newest. */
static void joint_changed(struct view *v)
{
	struct looking *l = v->state;

	for (size_t i = 0; i < v->job->reading_count; i++)
		if (v->job->readings[i].corrects == l->reading)
			l->reading = v->job->readings[i].id;
}

static enum follow joint_key(struct view *v, int key)
{
	struct looking *l = v->state;

	return sb_page_key(&l->page, key) ? FOLLOW_REDRAW : FOLLOW_PASS;
}

static enum follow joint_why(struct view *v)
{
	const struct looking *l = v->state;

	return sb_explain_choose(v, sb_job_reading(v->job, l->reading));
}

static const struct action joint_actions[] = {
	{ .name = "why",
		.keys = "Y",
		.label = "why",
		.help = "How a figure of this joint came about: formula, inputs, steps, source.",
		.act = joint_why },
	{ .name = "back-to-log",
		.keys = "J Enter Q Esc Ctrl-C",
		.label = "back",
		.help = "Back to the log.",
		.act = sb_app_close },
	{ 0 },
};

const struct screen sb_screen_joint = {
	.name = "joint",
	.title = "joint",
	.about =
		"All that is known of one joint: what was typed and by whom, what stood there before, and what was computed from it.",
	.state_size = sizeof(struct looking),
	.open = joint_open,
	.draw = joint_draw,
	.key = joint_key,
	.changed = joint_changed,
	.actions = joint_actions,
	.widgets = { sb_page_keys },
};
