/* The main screen: answers, pictures, table, and the line that one types into. Numbers go to the entry line;
 * letters are acts, so nothing has to be opened before the next joint can be typed.
 */
#include "base/str.h"
#include "geom/angle.h"
#include "ui/answers.h"
#include "ui/app.h"
#include "ui/key.h"
#include "ui/log.h"
#include "ui/prompt.h"
#include "ui/theme.h"

#include <stdio.h>
#include <string.h>

static int log_open(struct view *v, const void *argument, struct sb_err *err)
{
	const char *said = argument; /* what to say at the start; NULL or "": nothing */

	(void)err;
	sb_log_begin(v);
	sb_log_load_draft(v);
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

	if (s->joint != sb_job_in_ground(v->job) + 1 || s->leg != sb_job_leg(v->job))
		sb_log_begin(v);
	else
		sb_log_changed(v);
	if (s->back >= v->job->joint_count)
		s->back = 0;
}

/* ---- drawing ---- */

static void draw_warning(const struct view *v, struct cells *out)
{
	size_t waiting;
	const struct warning *w = sb_log_waiting(v->solution, &waiting);
	char text[400], more[32] = "";

	if (w == NULL) {
		sb_cells_text(out, 0, 1, STYLE_DIM, "no warning waits");
		return;
	}
	if (waiting > 1)
		snprintf(more, sizeof more, " (+%zu more)", waiting - 1);
	snprintf(text, sizeof text, "%s %s%s: %s", sb_theme_mark(w->level), sb_level_word(w->level), more,
		w->text);
	if (out->rows > 1)
		sb_cells_wrap(out, 0, 1, out->columns - 2, sb_theme_level(w->level), text);
	else
		sb_cells_fit(out, 0, 1, out->columns - 2, sb_theme_level(w->level), text);
}

/* What is typed would mean this: shown as soon as both angles stand there. */
static void draw_meaning(const struct view *v, struct cells *out)
{
	const struct log_state *s = v->state;
	const struct preview *p = &s->preview;
	char offset[32], height[32], radius[32];

	for (size_t i = 0; i < s->entry.count; i++)
		if (s->entry.fields[i].problem[0]) {
			sb_cells_fit(out, 0, 1, out->columns - 2, STYLE_WATCH, s->entry.fields[i].problem);
			return;
		}
	if (!s->known) {
		sb_cells_text(out, 0, 1, STYLE_DIM,
			sb_store_writes(v->store) ? "type inclination, Enter, azimuth, Enter"
						  : "looking on: nothing that you type is logged");
		return;
	}
	const struct frame *f = &v->solution->frame;
	sb_answers_offset(v->job, f, p->bit.deviation.offset_m, "right", "left", offset);
	sb_answers_offset(v->job, f, p->bit.deviation.height_m, "high", "low", height);
	sb_answers_radius(v->job, f, p->row.radius_m, radius);
	int column = sb_cells_print(out, 0, 1, STYLE_TRIAL, "would put the bit %s, %s; joint radius %s  ",
		offset, height, radius);
	const char *mark = sb_theme_mark(p->level);
	sb_cells_print(out, 0, column, sb_theme_level(p->level), "%s%s%s", mark, *mark ? " " : "",
		sb_level_word(p->level));
}

static void draw_entry(const struct view *v, struct cells *out)
{
	const struct log_state *s = v->state;

	sb_cells_rule(out, 0, s->trial ? "WHAT IF - nothing is logged" : NULL);
	int column = sb_cells_print(out, 1, 1, STYLE_STRONG, "joint %d", s->joint) + 1;
	for (size_t i = 0; i < s->entry.count; i++)
		column = sb_form_draw_one(&s->entry, i, out, 1, column) + 1;
	struct cells line = sb_cells_part(out, 2, 0, 1, out->columns);
	draw_meaning(v, &line);
}

/* How the rows are shared out; the pictures take what is left. */
struct shares {
	int answers, warning, pictures, table, entry;
};

static struct shares share_out(int rows)
{
	struct shares s = { .answers = SB_ANSWERS_ROWS, .warning = rows >= 30 ? 2 : 1, .entry = 3 };

	s.table = 1 + (rows >= 44 ? 12 : rows >= 34 ? 8 : rows >= 27 ? 5 : 3);
	s.pictures = rows - s.answers - s.warning - s.table - s.entry;
	if (s.pictures < 6) { /* a question below has taken rows: the pictures give way first */
		s.pictures = 0;
		s.table = rows - s.answers - s.warning - s.entry;
	}
	return s;
}

static void log_draw(const struct view *v, struct cells *out)
{
	struct log_state *s = v->state; /* for the pictures' memory alone */
	struct shares r = share_out(out->rows);
	struct answers a = s->trial ? sb_answers_trial(v->job, v->solution, &s->preview)
				    : sb_answers_now(v->job, v->solution);
	int row = 0;

	struct cells part = sb_cells_part(out, row, 0, r.answers, out->columns);
	sb_answers_draw(&a, &part);
	part = sb_cells_part(out, row += r.answers, 0, r.warning, out->columns);
	draw_warning(v, &part);
	row += r.warning;
	if (r.pictures > 0) {
		part = sb_cells_part(out, row, 0, r.pictures, out->columns);
		sb_pictures_draw(&s->pictures, v->job, v->solution, s->trial ? &s->preview : NULL, s->picture,
			s->reach, v->glyphs, &part);
	}
	row += r.pictures;
	if (r.table > 1) {
		part = sb_cells_part(out, row, 0, r.table, out->columns);
		sb_log_table_draw(v, &part);
	}
	part = sb_cells_part(out, row + (r.table > 0 ? r.table : 0), 0, r.entry, out->columns);
	draw_entry(v, &part);
}

/* ---- keys ---- */

static bool scroll(struct log_state *s, size_t count, int key)
{
	const size_t page = 10;
	size_t last = count ? count - 1 : 0;

	switch (key) {
	case SB_KEY_UP:
		s->back += s->back < last;
		return true;
	case SB_KEY_DOWN:
		s->back -= s->back > 0;
		return true;
	case SB_KEY_PAGE_UP:
		s->back = s->back + page < last ? s->back + page : last;
		return true;
	case SB_KEY_PAGE_DOWN:
		s->back = s->back > page ? s->back - page : 0;
		return true;
	default:
		return false;
	}
}

static enum follow try_to_log(struct view *v)
{
	struct suspicion found[SB_SUSPICIONS];
	struct sb_err err = { 0 };
	struct reading r;

	if (!sb_store_writes(v->store))
		return sb_app_say(v, LEVEL_WATCH,
			"You are looking on: this job was opened to read only. Nothing was logged.");
	if (sb_log_reading(v, &r, &err))
		return sb_app_fail(v, &err);
	size_t count = sb_log_look(v, &r, found);
	if (count > 0 && found[0].held)
		return sb_app_open(v, &sb_screen_held, NULL);
	return sb_log_commit(v, "");
}

static enum follow log_key(struct view *v, int key)
{
	struct log_state *s = v->state;

	if (scroll(s, v->job->joint_count, key))
		return FOLLOW_REDRAW;
	switch (sb_form_key(&s->entry, key, sb_log_check, v->job)) {
	case FORM_DONE:
		return try_to_log(v);
	case FORM_CHANGED:
		sb_log_changed(v);
		return FOLLOW_REDRAW;
	case FORM_MOVED:
		return FOLLOW_REDRAW;
	case FORM_PASS:
		break;
	}
	return FOLLOW_PASS;
}

static enum follow what_if(struct view *v)
{
	struct log_state *s = v->state;

	if (!s->known)
		return sb_app_say(v, LEVEL_OK,
			"What if: type inclination and azimuth first, then W shows what they would mean.");
	s->trial = !s->trial;
	return FOLLOW_REDRAW;
}

static enum follow more(struct view *v)
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

static void add_text(struct prompt *p, const char *name, const char *label, const char *offered)
{
	sb_form_add(&p->form,
		(struct form_field){
			.name = name, .label = label, .kind = ENTRY_TEXT, .width = 56, .required = true },
		offered);
}

static enum follow take_pull_back(struct view *v, const struct form *given, int64_t subject)
{
	struct sb_err err = { 0 };
	struct number n;

	(void)subject;
	if (sb_number_parse(sb_form_text(given, "joint"), &n, &err) == 0 && n.value != (double)(int)n.value)
		sb_fail(&err, SB_RANGE, "Joints are whole.");
	if (err.code ||
		sb_store_withdraw(v->store, v->who, (int)n.value, sb_form_text(given, "reason"), &err)) {
		sb_app_fail(v, &err);
		return FOLLOW_PASS;
	}
	sb_app_say(v, LEVEL_OK,
		"Pulled back to joint %d. Leg %d begins; the joints withdrawn stay in the table, marked x.",
		(int)n.value, sb_job_leg(sb_store_job(v->store)));
	return FOLLOW_JOB_CHANGED;
}

static enum follow pull_back(struct view *v)
{
	struct prompt p = { .answer = take_pull_back };
	const struct reading *r = sb_log_table_chosen(v);
	const struct log_state *s = v->state;
	int in_ground = sb_job_in_ground(v->job);
	char offered[16] = "";

	if (in_ground == 0)
		return sb_app_say(v, LEVEL_OK, "Nothing is in the ground yet.");
	if (s->back > 0 && r && r->joint < in_ground)
		snprintf(offered, sizeof offered, "%d", r->joint);
	snprintf(p.question, sizeof p.question,
		"Pull back to drill again. %d joints are in the ground. Which is the last one that stays? (0: all come out)",
		in_ground);
	sb_form_add(&p.form,
		(struct form_field){ .name = "joint",
			.label = "last joint that stays",
			.kind = ENTRY_NUMBER,
			.width = 6,
			.required = true },
		offered);
	add_text(&p, "reason", "why", "");
	return sb_prompt_ask(v, &p);
}

static enum follow take_note(struct view *v, const struct form *given, int64_t subject)
{
	struct sb_err err = { 0 };

	(void)subject;
	if (sb_store_note(v->store, v->who, sb_form_text(given, "note"), &err)) {
		sb_app_fail(v, &err);
		return FOLLOW_PASS;
	}
	sb_app_say(v, LEVEL_OK, "Noted.");
	return FOLLOW_JOB_CHANGED;
}

static enum follow note(struct view *v)
{
	struct prompt p = { .answer = take_note };

	snprintf(p.question, sizeof p.question, "A note, kept with joint %d:", sb_job_in_ground(v->job));
	add_text(&p, "note", "note", "");
	return sb_prompt_ask(v, &p);
}

static enum follow take_no_reading(struct view *v, const struct form *given, int64_t subject)
{
	struct log_state *s = v->state;

	(void)given;
	(void)subject;
	sb_form_put(&s->entry, "inclination", "", false);
	sb_form_put(&s->entry, "azimuth", "", false);
	return sb_log_commit(v, "");
}

static enum follow no_reading(struct view *v)
{
	struct prompt p = { .answer = take_no_reading };
	const struct log_state *s = v->state;

	snprintf(p.question, sizeof p.question,
		"Log joint %d as drilled without a reading? The path is carried over it.", s->joint);
	return sb_prompt_ask(v, &p);
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

static const struct action log_actions[] = {
	{ .name = "log",
		.keys = "Enter",
		.label = "log",
		.help = "Log the joint that is typed. A reading that looks like a slip asks first.",
		.writes = true },
	{ .name = "what-if",
		.keys = "W F2",
		.label = "what if",
		.help = "Show all answers and pictures for what is typed; nothing is logged. W again goes back.",
		.act = what_if },
	{ .name = "more",
		.keys = "M F3",
		.label = "more",
		.help = "What else the row can carry: thrust, torque, flow, pressures, returns, times, remarks.",
		.act = more },
	{ .name = "correct",
		.keys = "C F4",
		.label = "correct",
		.help = "Correct the chosen joint (the newest, or the one marked >): a new row beside the old one, with a reason.",
		.act = correct,
		.writes = true },
	{ .name = "pull-back",
		.keys = "B F5",
		.label = "pull back",
		.help = "Pull the string back to drill again. A new leg begins; nothing is erased.",
		.act = pull_back,
		.writes = true },
	{ .name = "note",
		.keys = "N F6",
		.label = "note",
		.help = "Keep a note with the joint drilled last.",
		.act = note,
		.writes = true },
	{ .name = "acknowledge",
		.keys = "A F7",
		.label = "warnings",
		.help = "The warnings: read them whole, acknowledge one with a name and a reason.",
		.act = acknowledge },
	{ .name = "shift",
		.keys = "S",
		.label = "shift",
		.help = "The page for the next shift; begin and end a shift.",
		.act = shift },
	{ .name = "history",
		.keys = "H",
		.help = "Every act so far: who, when, what and why.",
		.act = history },
	{ .name = "look-closer",
		.keys = "J",
		.help = "All that is known of the chosen joint, with what was typed before a correction.",
		.act = look_closer },
	{ .name = "no-reading",
		.keys = "O",
		.help = "Log the joint as drilled without a reading.",
		.act = no_reading,
		.writes = true },
	{ .name = "picture",
		.keys = "P",
		.help = "Another picture: profile, height over the design, plan along the line, map.",
		.act = next_picture },
	{ .name = "reach",
		.keys = "Z",
		.help = "How much the picture shows: the whole bore, near the bit, close to it.",
		.act = next_reach },
	{ .name = "choose",
		.keys = "Up Down PgUp PgDn",
		.help = "Choose an older joint in the table. Marks there: x withdrawn, c corrected, ! watch, !! breach." },
	{ 0 },
};

const struct screen sb_screen_log = {
	.name = "log",
	.title = NULL,
	.about =
		"Type inclination and azimuth of the joint, each with Enter. The answers at the top speak of the bit, carried on from "
		"the sensor; the table speaks of the sensor. Every row is on disk before the screen says so.",
	.state_size = sizeof(struct log_state),
	.open = log_open,
	.draw = log_draw,
	.key = log_key,
	.changed = log_job_changed,
	.keep = log_keep,
	.close = log_close,
	.actions = log_actions,
	.widgets = { sb_form_keys },
};
