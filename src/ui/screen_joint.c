/* One joint, all that is known of it: what was typed, by whom, what it was before each correction, and what
 * was computed.
 */
#include "base/str.h"
#include "base/time.h"
#include "geom/angle.h"
#include "ui/answers.h"
#include "ui/app.h"
#include "ui/log.h"
#include "ui/theme.h"

#include <stdio.h>

struct looking {
	int64_t reading;
};

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
		sb_cells_fit(out, row, 1, 18, STYLE_DIM, f->label);
		int column = sb_cells_text(out, row, 20, STYLE_STRONG, text);
		sb_cells_text(out, row++, column + 1, STYLE_DIM, sb_row_field_unit(f, v->job->unit));
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
				sb_cells_print(out, row++, 1, STYLE_WITHDRAWN, "%s was %s, typed by %s",
					sb_row_fields[i].label, *was ? was : "blank", old->who);
		}
	}
	return row;
}

static int line(struct cells *out, int row, const char *label, const char *text)
{
	sb_cells_fit(out, row, 1, 18, STYLE_DIM, label);
	sb_cells_text(out, row, 20, STYLE_PLAIN, text);
	return row + 1;
}

static int draw_computed(const struct view *v, const struct row *row, struct cells *out, int at)
{
	const struct frame *f = &v->solution->frame;
	double e, n, u;
	char text[96], part[32];

	if (!row->on_path) {
		return line(out, at, "position",
			row->taken ? "the sensor was still behind the entry"
				   : "no reading: the path is carried over it");
	}
	snprintf(text, sizeof text, "%.2f %s (sensor)", sb_frame_typed(f, row->survey_md_m),
		sb_unit_short(v->job->unit));
	at = line(out, at, "survey depth", text);
	sb_frame_grid(f, row->at, &e, &n, &u);
	snprintf(text, sizeof text, "E %.2f  N %.2f  elevation %.2f", e, n, u);
	at = line(out, at, "position", text);
	sb_answers_offset(v->job, f, row->deviation.offset_m, "right", "left", part);
	snprintf(text, sizeof text, "station %.2f, %s, ", sb_frame_typed(f, row->deviation.station_m), part);
	size_t used = sb_utf8_columns(text);
	sb_answers_offset(v->job, f, row->deviation.height_m, "high", "low", part);
	snprintf(text + used, sizeof text - used, "%s", part);
	at = line(out, at, "against design", text);
	sb_answers_radius(v->job, f, row->radius_m, part);
	snprintf(text, sizeof text, "%.2f deg, give or take %.2f, in %.2f %s: radius %s",
		sb_deg(row->dogleg_rad), sb_deg(row->dogleg_sigma_rad), sb_frame_typed(f, row->course_m),
		sb_unit_short(v->job->unit), part);
	at = line(out, at, "bend", text);
	if (row->window.joints) {
		sb_answers_radius(v->job, f, row->window.radius_ends_m, part);
		snprintf(text, sizeof text, "radius %s between the ends, ", part);
		used = sb_utf8_columns(text);
		sb_answers_radius(v->job, f, row->window.radius_sum_m, part);
		snprintf(text + used, sizeof text - used, "%s by the sum of doglegs", part);
		at = line(out, at, "over the window", text);
	}
	return at;
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

static void joint_draw(const struct view *v, struct cells *out)
{
	const struct looking *l = v->state;
	const struct reading *r = sb_job_reading(v->job, l->reading);
	char title[64];
	int row = 1;

	if (r == NULL)
		return;
	const struct row *solved = sb_log_table_row(v->solution, r);
	bool present = solved && (size_t)r->joint < v->solution->path.count &&
		solved == &v->solution->path.rows[r->joint];
	snprintf(title, sizeof title, "joint %d, leg %d%s", r->joint, r->leg, present ? "" : ", withdrawn");
	sb_cells_rule(out, 0, title);
	row = draw_fields(v, r, out, row);
	row = draw_who(r, out, row);
	row = draw_before(v, r, out, row);
	if (solved == NULL)
		return;
	row = draw_computed(v, solved, out, row);
	draw_warnings(v, solved, out, row);
}

static const struct action joint_actions[] = {
	{ .name = "back-to-log",
		.keys = "J Enter",
		.label = "back",
		.help = "Back to the log.",
		.act = NULL },
	{ 0 },
};

static enum follow joint_key(struct view *v, int key)
{
	(void)v;
	return sb_action_takes(&joint_actions[0], key) ? FOLLOW_CLOSE : FOLLOW_PASS;
}

const struct screen sb_screen_joint = {
	.name = "joint",
	.title = "joint",
	.about =
		"All that is known of one joint: what was typed and by whom, what stood there before, and what was computed from it.",
	.state_size = sizeof(struct looking),
	.open = joint_open,
	.draw = joint_draw,
	.key = joint_key,
	.actions = joint_actions,
};
