/* The main screen: answers, pictures, table, and the line that one types into. Numbers go to the entry line;
 * letters are acts, so nothing has to be opened before the next joint can be typed.
 */
#include "base/str.h"
#include "ui/acceptance.h"
#include "ui/after.h"
#include "ui/answers.h"
#include "ui/app.h"
#include "ui/azimuth.h"
#include "ui/explain.h"
#include "ui/fixes.h"
#include "ui/key.h"
#include "ui/log.h"

#include <stdio.h>
#include <string.h>

#define PAGE 10 /* rows that PgUp and PgDn go */

static int log_open(struct view *v, const void *argument, struct sb_err *err)
{
	const char *said = argument; /* what to say at the start; NULL or "": nothing */

	(void)err;
	((struct log_state *)v->state)->rows = v->job->joint_count;
	sb_log_begin(v);
	sb_log_load_draft(v);
	sb_log_plan(v);
	if (said && *said)
		sb_app_say(v, LEVEL_WATCH, "%s", said);
	return 0;
}

static void log_close(struct view *v)
{
	struct log_state *s = v->state;

	sb_pictures_clear(&s->pictures);
}

static void log_keep(struct view *v)
{
	sb_log_save_draft(v, true);
}

static void log_job_changed(struct view *v)
{
	struct log_state *s = v->state;
	size_t rows = v->job->joint_count;

	if (s->joint != sb_job_in_ground(v->job) + 1 || s->leg != sb_job_leg(v->job))
		sb_log_begin(v);
	else
		sb_log_changed(v);
	/* an older row that is looked at stays chosen when somebody logs another joint */
	if (s->marked && rows > s->rows)
		s->back += rows - s->rows;
	s->rows = rows;
	sb_log_plan(v);
}

/* ---- drawing ---- */

/* How the rows are shared out; the pictures take what is left. */
struct shares {
	int answers, warning, pictures, table, entry;
};

static struct shares share_out(int rows, int warning)
{
	struct shares s = { .answers = SB_ANSWERS_ROWS,
		.warning = rows >= 30 && warning < 2 ? 2 : warning,
		.entry = SB_LOG_LINE_ROWS };

	s.table = 1 + (rows >= 44 ? 12 : rows >= 34 ? 8 : rows >= 27 ? 5 : 3);
	s.pictures = rows - s.answers - s.warning - s.table - s.entry;
	if (s.pictures < 6 && s.answers == SB_ANSWERS_ROWS) {
		s.answers--;
		s.pictures++;
	}
	if (s.pictures < 6) { /* a question below has taken rows: the pictures give way first */
		s.pictures = 0;
		s.table = rows - s.answers - s.warning - s.entry;
	}
	if (s.table < 2)
		s.table = 0;
	return s;
}

static struct cells next_part(struct cells *out, int *row, int rows)
{
	struct cells part = sb_cells_part(out, *row, 0, rows, out->columns);

	*row += rows;
	return part;
}

static void log_draw(const struct view *v, struct cells *out)
{
	struct log_state *s = v->state; /* for the pictures' memory alone */
	struct shares r = share_out(out->rows, sb_log_warning_rows(v, out->columns));
	const struct preview *tried = s->trial && s->known ? &s->preview : NULL;
	struct answers a =
		tried ? sb_answers_trial(v->job, v->solution, tried) : sb_answers_now(v->job, v->solution);
	int row = 0;

	a.plan = !tried ? &s->plan : s->followed ? &s->then : NULL;
	a.withdrawal = tried ? &s->then_back : &s->withdrawal;
	a.guess = (tried ? s->then_slides : v->solution->response.slides) == 0;
	s->pictures.plan = a.plan;
	s->pictures.pinned = s->pinned_known ? &s->pinned : NULL;
	struct cells part = next_part(out, &row, r.answers);
	sb_answers_draw(&a, v->glyphs, &part);
	part = next_part(out, &row, r.warning);
	sb_log_warning_draw(v, &part);
	part = next_part(out, &row, r.pictures);
	if (r.pictures > 0)
		sb_pictures_draw(
			&s->pictures, v->job, v->solution, tried, s->picture, s->reach, v->glyphs, &part);
	part = next_part(out, &row, r.table);
	if (r.table > 0)
		sb_log_table_draw(v, &part);
	part = next_part(out, &row, r.entry);
	sb_log_line_draw(v, &part);
}

/* ---- keys ---- */

/* Choosing a row. Without a choice the acts are about the last joint in the ground, so the first step up goes
 * to the row above it; where the newest row was pulled back, to that one. */
static bool scroll(const struct view *v, int key)
{
	struct log_state *s = v->state;
	int first = sb_log_table_newest_stands(v->job) ? 1 : 0, last = (int)v->job->joint_count - 1;
	int at = s->marked ? (int)s->back : first - 1;

	if (key == SB_KEY_UP || key == SB_KEY_DOWN)
		at += key == SB_KEY_UP ? 1 : -1;
	else if (key == SB_KEY_PAGE_UP || key == SB_KEY_PAGE_DOWN)
		at += key == SB_KEY_PAGE_UP ? PAGE : -PAGE;
	else
		return false;
	at = at > last ? last : at;
	s->marked = at >= first;
	s->back = s->marked ? (size_t)at : 0;
	return true;
}

static enum follow try_to_log(struct view *v)
{
	const struct log_state *s = v->state;
	struct suspicion found[SB_SUSPICIONS];
	struct sb_err err = { 0 };
	struct reading r;

	if (s->trial)
		return sb_app_say(v, LEVEL_OK,
			"What if: nothing is logged. W goes back to the log, and Enter logs there.");
	if (!sb_store_writes(v->store))
		return sb_app_say(v, LEVEL_WATCH,
			"You are looking on: this job was opened to read only. Nothing was logged.");
	if (sb_log_reading(v, true, &r, &err))
		return sb_app_fail(v, &err);
	size_t count = sb_log_look(v, &r, found);
	if (count > 0 && found[0].held)
		return sb_log_hold(v, found, count);
	return sb_log_commit(v, true, "");
}

static bool step_back(struct view *v)
{
	struct log_state *s = v->state;

	if (s->trial) {
		sb_log_trial(v, false);
		return true;
	}
	bool was = s->marked;
	s->marked = false;
	s->back = 0;
	return was;
}

/* The entry line has one row for what is wrong with it: what does not fit there is said in full at the foot.
 */
static enum follow say_long_problem(struct view *v)
{
	const int fits = 76; /* of 80 columns, after its mark */
	const struct log_state *s = v->state;

	for (size_t i = 0; i < s->entry.count; i++)
		if ((int)sb_utf8_columns(s->entry.fields[i].problem) > fits)
			return sb_app_say(v, LEVEL_WATCH, "%s", s->entry.fields[i].problem);
	return FOLLOW_REDRAW;
}

static enum follow log_key(struct view *v, int key)
{
	struct log_state *s = v->state;

	if (scroll(v, key) || (key == SB_KEY_ESCAPE && step_back(v)))
		return FOLLOW_REDRAW;
	switch (sb_form_key(&s->entry, key, sb_log_check, v->job)) {
	case FORM_DONE:
		return try_to_log(v);
	case FORM_CHANGED:
		sb_log_changed(v);
		return FOLLOW_REDRAW;
	case FORM_MOVED:
		return key == SB_KEY_ENTER ? say_long_problem(v) : FOLLOW_REDRAW;
	case FORM_PASS:
		break;
	}
	return FOLLOW_PASS;
}

static enum follow what_if(struct view *v)
{
	const struct log_state *s = v->state;

	sb_log_trial(v, !s->trial);
	return FOLLOW_REDRAW;
}

static enum follow more_fields(struct view *v)
{
	return sb_app_open(v, &sb_screen_more, NULL);
}

static enum follow correct(struct view *v)
{
	if (sb_log_table_chosen(v) == NULL)
		return sb_app_say(v, LEVEL_OK, "There is no joint to correct yet.");
	return sb_app_open(v, &sb_screen_correct, sb_log_table_chosen(v));
}

static enum follow look_closer(struct view *v)
{
	if (sb_log_table_chosen(v) == NULL)
		return sb_app_say(v, LEVEL_OK, "There is no joint to look at yet.");
	return sb_app_open(v, &sb_screen_joint, sb_log_table_chosen(v));
}

static enum follow explain(struct view *v)
{
	return sb_explain_choose(v, sb_log_table_chosen(v));
}

static enum follow acknowledge(struct view *v)
{
	return sb_app_open(v, &sb_screen_warnings, NULL);
}

static enum follow history(struct view *v)
{
	return sb_app_open(v, &sb_screen_history, NULL);
}

static enum follow shift(struct view *v)
{
	return sb_app_open(v, &sb_screen_handover, NULL);
}

static enum follow next_picture(struct view *v)
{
	struct log_state *s = v->state;

	s->picture = (enum picture)((s->picture + 1) % SB_PICTURES_COUNT);
	return FOLLOW_REDRAW;
}

static enum follow next_reach(struct view *v)
{
	struct log_state *s = v->state;

	s->reach = (enum reach)((s->reach + 1) % SB_REACH_COUNT);
	return FOLLOW_REDRAW;
}

static enum follow repeat(struct view *v)
{
	return sb_app_open(v, &sb_screen_repeat, NULL);
}

static enum follow steering(struct view *v)
{
	return sb_app_open(v, &sb_screen_steering, NULL);
}

static enum follow clearance(struct view *v)
{
	return sb_app_open(v, &sb_screen_clearance, NULL);
}

static enum follow after(struct view *v)
{
	return sb_app_open(v, &sb_screen_after, NULL);
}

static enum follow acceptance(struct view *v)
{
	return sb_app_open(v, &sb_screen_acceptance, NULL);
}

static enum follow fixes(struct view *v)
{
	return sb_app_open(v, &sb_screen_fixes, NULL);
}

static enum follow azimuth(struct view *v)
{
	return sb_app_open(v, &sb_screen_azimuth, NULL);
}

/* In the order of need: at 80 columns the footer has room for those down to the shift. What Enter does stands
 * above the footer. */
static const struct action log_actions[] = {
	{ .name = "log",
		.keys = "Enter",
		.help = "Log the joint, once both angles are typed. A reading that looks like a slip asks first.",
		.writes = true },
	{ .name = "what-if",
		.keys = "W F2",
		.label = "what if",
		.help = "Type a reading and see all answers and pictures for it; nothing is logged. W again goes back.",
		.act = what_if },
	{ .name = "more",
		.keys = "M F3",
		.label = "more",
		.help = "What else the row can carry: thrust, torque, flow, pressures, returns, times, remarks.",
		.act = more_fields },
	{ .name = "correct",
		.keys = "C F4",
		.label = "correct",
		.help = "Correct the joint marked >, or else the last one in the ground: a new row beside the old one, with a reason.",
		.act = correct,
		.writes = true },
	{ .name = "pull-back",
		.keys = "B F5",
		.label = "pull back",
		.help = "Pull the string back to drill again. A new leg begins; nothing is erased.",
		.act = sb_log_pull_back,
		.writes = true },
	{ .name = "acknowledge",
		.keys = "A F7",
		.label = "warnings",
		.help = "The warnings: read them whole, acknowledge one with a name and a reason.",
		.act = acknowledge },
	{ .name = "steering",
		.keys = "T F12",
		.label = "steer",
		.help = "What to do with the next joint in full: the plan, what the ground gives, and an order of your own to try.",
		.act = steering },
	{ .name = "note",
		.keys = "N F6",
		.label = "note",
		.help = "Keep a note with the joint drilled last.",
		.act = sb_log_note,
		.writes = true },
	{ .name = "shift",
		.keys = "S F10",
		.label = "shift",
		.help = "The page for the next shift; begin and end a shift.",
		.act = shift },
	{ .name = "history",
		.keys = "H F11",
		.label = "history",
		.help = "Every act so far: who, when, what and why.",
		.act = history },
	{ .name = "look-closer",
		.keys = "J",
		.label = "joint",
		.help = "All that is known of the joint marked >, or else of the last one in the ground.",
		.act = look_closer },
	{ .name = "drill",
		.keys = "E",
		.help = "In a rehearsal only: drill the joint with the order that is typed, or the plan's, and read the sensor.",
		.act = sb_log_drill,
		.writes = true },
	{ .name = "picture",
		.keys = "P",
		.label = "picture",
		.help = "Another picture: profile, height over the design, plan along the line, map.",
		.act = next_picture },
	{ .name = "clearance",
		.keys = "L",
		.label = "clearance",
		.help = "Obstacles and cover: how the bore passes each, drilled, on its heading, and by the plan.",
		.act = clearance },
	{ .name = "fixes",
		.keys = "F",
		.label = "fixes",
		.help = "Independent fixes: a coil, a beacon, the exit survey; whether they agree, and the correction they propose.",
		.act = fixes },
	{ .name = "acceptance",
		.keys = "X",
		.label = "accept",
		.help = "The pilot's hold point: non-conformances, the contract's checklist, the exit, the signature.",
		.act = acceptance },
	{ .name = "after",
		.keys = "V",
		.label = "after",
		.help = "The hole after the pilot: the fluid, the passes, the pipe string, the pull.",
		.act = after },
	{ .name = "repeat",
		.keys = "R",
		.label = "again",
		.help = "Readings taken again, here or on the way out: what they say of the noise and of the azimuth.",
		.act = repeat,
		.writes = true },
	{ .name = "azimuth",
		.keys = "K",
		.help = "How a reading becomes an azimuth on the grid; what map, model and staked line say of it; another tool.",
		.act = azimuth },
	{ .name = "reach",
		.keys = "Z",
		.label = "near",
		.help = "How much the picture shows: the whole bore, near the bit, close to it.",
		.act = next_reach },
	{ .name = "no-reading",
		.keys = "O",
		.label = "no reading",
		.help = "Log the joint as drilled without a reading.",
		.act = sb_log_no_reading,
		.writes = true },
	{ .name = "why",
		.keys = "Y",
		.label = "why",
		.help = "How a figure came about at the joint marked >, or else the last one: formula, inputs, steps, source.",
		.act = explain },
	{ .name = "choose",
		.keys = "Up Down PgUp PgDn",
		.help = "Choose an older joint in the table. Marks there: x pulled back, c corrected, ! watch, !! breach." },
	{ .name = "step-back",
		.keys = "Esc",
		.help = "Back one step: out of what if, then from the joint marked > to the newest; then leave." },
	{ 0 },
};

const struct screen sb_screen_log = {
	.name = "log",
	.title = NULL,
	.about =
		"Type inclination and azimuth of the joint, each with Enter. The answers at the top speak of the bit, carried on from "
		"the sensor; the table speaks of the sensor. Every row is on disk before the screen says so. Letters are acts.",
	.state_size = sizeof(struct log_state),
	.open = log_open,
	.draw = log_draw,
	.key = log_key,
	.changed = log_job_changed,
	.keep = log_keep,
	.close = log_close,
	.actions = log_actions,
	.widgets = { sb_form_line_keys },
};
