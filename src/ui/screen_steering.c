/* What to do with the next joint, in full: the order and why, what the ground gives, the plan joint by joint,
 * and room to try an order of one's own before anything is drilled.
 */
#include "base/mem.h"
#include "base/str.h"
#include "draw/axis.h"
#include "draw/turns.h"
#include "geom/angle.h"
#include "io/courses.h"
#include "ui/answers.h"
#include "ui/app.h"
#include "ui/chart.h"
#include "ui/entry.h"
#include "ui/key.h"
#include "ui/log.h"
#include "ui/theme.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

struct steering {
	struct form form; /* own tool face and slid length, own joint to be back by */
	bool tried;	  /* the plan begins with that order */
	bool aimed;	  /* it is for that joint */
	struct plan plan;
	struct withdrawal withdrawal;
	bool looked_back;
	size_t first; /* joint of the plan on top of the table */
};

/* The plan anew: the program's, or what follows from the hand's own order. */
static void make_plan(struct view *v)
{
	struct steering *s = v->state;
	struct setup setup = sb_solution_setup(v->job, v->solution);
	struct number face = { 0 }, slid = { 0 }, joint = { 0 };
	struct own_plan own;

	s->tried = sb_number_parse(sb_form_text(&s->form, "slid"), &slid, NULL) == 0 &&
		(sb_number_parse(sb_form_text(&s->form, "tool_face"), &face, NULL) == 0 || slid.value == 0);
	s->aimed = sb_number_parse(sb_form_text(&s->form, "back_at"), &joint, NULL) == 0 &&
		joint.value >= 1 && joint.value <= 1000000;
	own = (struct own_plan){ .order = s->tried,
		.tool_face_rad = sb_rad(face.value),
		.slid_m = sb_frame_metres(&v->solution->frame, slid.value),
		.back_at = s->aimed ? (int)joint.value : 0 };
	sb_steering_try(&setup, &v->solution->path, &v->solution->response, &own, &s->plan);
	s->looked_back = s->plan.known && !s->plan.feasible && !s->tried;
	memset(&s->withdrawal, 0, sizeof s->withdrawal);
	if (s->looked_back)
		sb_steering_withdraw(&setup, &v->solution->path, &v->solution->response, &s->withdrawal);
	s->first = 0;
}

static int steering_open(struct view *v, const void *argument, struct sb_err *err)
{
	struct steering *s = v->state;

	(void)argument;
	(void)err;
	sb_entry_number(&s->form, "tool_face", "tool face", "deg", 6, false, "");
	sb_entry_number(&s->form, "slid", "slide", sb_unit_short(v->job->unit), 6, false, "");
	sb_entry_number(&s->form, "back_at", "on the line by joint", NULL, 5, false, "");
	s->form.by_enter = true;
	make_plan(v);
	return 0;
}

/* ---- drawing ---- */

static int draw_order(const struct view *v, struct cells *out)
{
	const struct steering *s = v->state;
	struct setup setup = sb_solution_setup(v->job, v->solution);
	char order[96], line[160];
	int row = 1;

	sb_cells_rule(out, 0,
		s->tried	   ? "your own order"
			: s->aimed ? "by a joint of your own"
				   : "the next joint");
	if (!s->plan.known || s->plan.count == 0) {
		sb_cells_text(
			out, row, 1, STYLE_STRONG, "The bit is past the exit: there is nothing to plan.");
		return row + 1;
	}
	sb_steering_order(&setup, &s->plan.joints[0], v->job->face_as == FACE_CLOCK, order);
	snprintf(line, sizeof line, "joint %d: %s", s->plan.joints[0].joint, order);
	if (s->plan.feasible || s->tried)
		sb_cells_text(out, row++, 1, s->tried || s->aimed ? STYLE_TRIAL : STYLE_STRONG, line);
	row += sb_cells_wrap(
		out, row, 1, out->columns - 2, s->plan.feasible ? STYLE_PLAIN : STYLE_BREACH, s->plan.words);
	if (s->withdrawal.joints)
		sb_cells_print(out, row++, 1, STYLE_STRONG,
			"Pull back %d joint%s, to joint %d: from there it can be done (below).",
			s->withdrawal.joints, s->withdrawal.joints == 1 ? "" : "s", s->withdrawal.to_joint);
	else if (s->looked_back)
		sb_cells_text(out, row++, 1, STYLE_STRONG,
			"Pulling back as far as can be seen does not help. Ask the engineer.");
	return row;
}

static int draw_ground(const struct view *v, struct cells *out, int row)
{
	const struct response *r = &v->solution->response;
	double per = sb_deg(1) * v->solution->frame.metre;
	const char *unit = sb_unit_short(v->job->unit);

	if (r->slides == 0) {
		char text[160];
		snprintf(text, sizeof text, "ground: %.3f deg per %s slid is %s; nothing is learnt yet",
			r->yield * per, unit,
			r->guess_given ? "the job sheet's guess" : "a guess from the bend limit");
		return row + sb_cells_wrap(out, row, 1, out->columns - 2, STYLE_DIM, text);
	}
	sb_cells_print(out, row, 1, STYLE_PLAIN,
		"ground: %.3f deg per %s slid (give or take %.3f), from %zu slides", r->yield * per, unit,
		r->yield_sigma * per, r->slides);
	sb_cells_print(out, row + 1, 1, STYLE_PLAIN,
		"tool face: the hole turns %.0f deg %s of it (give or take %.0f); counted in",
		fabs(sb_deg(r->face_error_rad)), r->face_error_rad >= 0 ? "clockwise" : "anticlockwise",
		sb_deg(r->face_error_sigma_rad));
	sb_cells_print(out, row + 2, 1, STYLE_PLAIN, "rotating drifts %.2f deg %s and %.2f deg %s in 10 %s",
		fabs(r->drift_up) * per * 10, r->drift_up < 0 ? "down" : "up",
		fabs(r->drift_right) * per * 10, r->drift_right < 0 ? "left" : "right", unit);
	return row + 3;
}

/* How far the path through slides lies from the arcs at the bit, where that can be seen. */
static int draw_by_slides(const struct view *v, struct cells *out, int row)
{
	const struct solution *s = v->solution;
	struct path_shift shift = sb_path_shift(&s->design, v->job->course, sb_solution_last_on_path(s));
	char words[SB_COURSES_TEXT];

	if (!sb_courses_words(v->job, &s->frame, &shift, words))
		return row;
	sb_cells_print(out, row, 1, STYLE_PLAIN, "by slides the bit lies %s of the arcs; %s are the record",
		words, v->job->course == COURSE_BY_SLIDES ? "slides" : "arcs");
	return row + 1;
}

/* The order in a table's width: "31 ft at 11:30", "rotate". */
static void short_order(const struct view *v, const struct plan_joint *j, char text[48])
{
	struct setup setup = sb_solution_setup(v->job, v->solution);
	char order[96];

	if (!(j->slid_m > 0)) {
		snprintf(text, 48, "rotate");
		return;
	}
	sb_steering_order(&setup, j, v->job->face_as == FACE_CLOCK, order);
	snprintf(text, 48, "%.*s", (int)strcspn(order, ","), order);
}

static void draw_joint(const struct view *v, const struct plan_joint *j, struct cells *out, int row)
{
	const struct frame *f = &v->solution->frame;
	char order[48], offset[32], height[32], station[SB_AXIS_TEXT];

	short_order(v, j, order);
	sb_answers_offset(v->job, f, j->deviation.offset_m, offset);
	sb_answers_height(v->job, f, j->deviation.height_m, height);
	sb_axis_station(j->deviation.station_m, v->job->unit, 1, station);
	sb_cells_print(out, row, 1, j->use.share > 1 ? STYLE_BREACH : STYLE_PLAIN,
		"%5d %5.1f %5.1f %8s %12s %11s  %s", j->joint, sb_frame_inc_typed(f, j->target.inc_rad),
		sb_frame_azi_typed(f, j->target.azi_rad), station, offset, height, order);
}

static void draw_plan(const struct view *v, struct cells *out)
{
	const struct steering *s = v->state;
	const struct plan *plan = s->withdrawal.joints ? &s->withdrawal.plan : &s->plan;

	sb_cells_rule(out, 0,
		s->withdrawal.joints ? "the plan after pulling back" : "the plan, at the end of each joint");
	sb_cells_text(out, 1, 1, STYLE_DIM, "joint  incl  azim  station       offset      height  order");
	for (int row = 2; row < out->rows; row++) {
		size_t i = s->first + (size_t)(row - 2);
		if (i < plan->count)
			draw_joint(v, &plan->joints[i], out, row);
	}
}

/* Degrees as they are shown with one decimal: what is next to nothing is not "-0.0". */
static double tenths(double radians)
{
	double degrees = sb_deg(radians);

	return fabs(degrees) < 0.05 ? 0 : degrees;
}

/* Ordered against got, course by course, the newest on top. */
static void draw_courses(const struct view *v, struct cells *out)
{
	sb_cells_rule(out, 0, "ordered against got, degrees");
	sb_cells_text(out, 1, 1, STYLE_DIM, "joint   ordered        got");
	int row = 2;
	for (size_t n = 0; n < v->solution->path.on_count && row < out->rows; n++) {
		const struct row *r = sb_path_back(&v->solution->path, n);
		const struct row_answer *a = &r->answer;
		if (!a->known || a->slid_m <= 0)
			continue;
		sb_cells_print(out, row++, 1, STYLE_PLAIN, "%5d %+5.1f %+5.1f  %+5.1f %+5.1f", r->joint,
			tenths(a->ordered_up), tenths(a->ordered_right), tenths(a->got_up),
			tenths(a->got_right));
	}
	if (row == 2)
		sb_cells_text(out, 2, 1, STYLE_DIM, "no slides written down yet");
}

static void draw_turns(const struct view *v, struct cells *out)
{
	struct scene scene;

	sb_cells_rule(out, 0, "the last slides");
	struct cells part = sb_cells_part(out, 1, 0, out->rows - 1, out->columns);
	sb_scene_init(&scene);
	sb_turns_scene(v->job, v->solution, 8, &scene);
	sb_chart_draw(&scene, v->glyphs, &part);
	sb_scene_clear(&scene);
}

static void steering_draw(const struct view *v, struct cells *out)
{
	const struct steering *s = v->state;
	int row = draw_order(v, out), foot = out->rows - 2;

	row = draw_by_slides(v, out, draw_ground(v, out, row));
	int left = foot - row, lower = left > 16 ? left / 2 : left > 9 ? 5 : 0;
	struct cells part = sb_cells_part(out, row, 0, left - lower, out->columns);
	draw_plan(v, &part);
	if (lower) {
		int half = out->columns / 2;
		part = sb_cells_part(out, foot - lower, 0, lower, half);
		draw_courses(v, &part);
		part = sb_cells_part(out, foot - lower, half, lower, out->columns - half);
		draw_turns(v, &part);
	}
	sb_cells_rule(out, foot, "try an order of your own: nothing is logged");
	int column = 1;
	for (size_t i = 0; i < s->form.count; i++)
		column = sb_form_draw_one(&s->form, i, out, foot + 1, column) + 2;
}

/* ---- keys ---- */

static enum follow steering_key(struct view *v, int key)
{
	struct steering *s = v->state;

	if ((key == SB_KEY_UP && s->first > 0) || (key == SB_KEY_DOWN && s->first + 1 < s->plan.count)) {
		s->first = key == SB_KEY_UP ? s->first - 1 : s->first + 1;
		return FOLLOW_REDRAW;
	}
	return sb_entry_key(v, &s->form, key, NULL, NULL, make_plan, NULL);
}

/* Pinning a plan is a decision: it goes into the journal as a note, and into the pictures until it is pinned
 * anew. */
static enum follow pin(struct view *v)
{
	const struct steering *s = v->state;
	struct view *log = sb_app_below(v);
	struct log_state *state = log->state;
	struct setup setup = sb_solution_setup(v->job, v->solution);
	struct sb_err err = { 0 };
	char order[96], text[SB_REMARK_TEXT * 2];

	if (!s->plan.known || s->plan.count == 0)
		return FOLLOW_NOTHING;
	sb_steering_order(&setup, &s->plan.joints[0], v->job->face_as == FACE_CLOCK, order);
	snprintf(text, sizeof text, "plan pinned%s, from joint %d on: %s; %s",
		s->tried	   ? " (own order)"
			: s->aimed ? " (own joint to be back by)"
				   : "",
		s->plan.joints[0].joint, order, s->plan.words);
	if (sb_store_note(v->store, v->who, text, &err))
		return sb_app_fail(v, &err);
	state->pinned = s->plan;
	state->pinned_known = true;
	sb_app_say(v, LEVEL_OK, "Pinned: it stays in the pictures, and a note says so.");
	return FOLLOW_JOB_CHANGED;
}

static enum follow clear(struct view *v)
{
	struct steering *s = v->state;

	sb_form_put(&s->form, "tool_face", "", false);
	sb_form_put(&s->form, "slid", "", false);
	sb_form_put(&s->form, "back_at", "", false);
	make_plan(v);
	return FOLLOW_REDRAW;
}

static const struct action steering_actions[] = {
	{ .name = "try-order",
		.keys = "Enter",
		.help = "Type a tool face, Enter, and a slide length: the plan then starts with your order. Or go on to the joint by whose end you "
			"want to be on the line; where that cannot be, the soonest is said." },
	{ .name = "pin-plan",
		.keys = "K F3",
		.label = "pin",
		.help = "Pin this plan: it stays in the pictures, and a note in the journal says so.",
		.act = pin,
		.writes = true },
	{ .name = "clear-order",
		.keys = "C F4",
		.label = "clear",
		.help = "Back from what is your own to the program's plan.",
		.act = clear },
	{ .name = "scroll-plan", .keys = "Up Down", .help = "Scroll the plan." },
	{ .name = "back-to-log",
		.keys = "T F12 Q Esc Ctrl-C",
		.label = "back",
		.help = "Back to the log.",
		.act = sb_app_close },
	{ 0 },
};

const struct screen sb_screen_steering = {
	.name = "steering",
	.title = "next joint",
	.about =
		"What to do with the next joint, the plan that stands behind it, and what the ground gives, learnt from the log. The tool face "
		"in an order is what the tool must show: the learnt error is in it. An order is advice: it knows nothing of what is not in "
		"the log and the sheet.",
	.state_size = sizeof(struct steering),
	.open = steering_open,
	.draw = steering_draw,
	.key = steering_key,
	.changed = make_plan,
	.actions = steering_actions,
	.widgets = { sb_form_line_keys },
};
