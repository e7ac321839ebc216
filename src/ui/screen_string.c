/* The pipe string: every joint with its weld, inspection and coating, and what of it the pull waits for.
 * Joints and records are entered here one by one; files of them come in by the command.
 */
#include "base/measure.h"
#include "base/str.h"
#include "io/pipe_string.h"
#include "ui/after.h"
#include "ui/app.h"
#include "ui/entry.h"
#include "ui/list.h"
#include "ui/prompt.h"
#include "ui/theme.h"

#include <stdio.h>

struct string_state {
	struct list list;
};

struct drawing {
	const struct job *job;
	const struct pipe_string *string;
};

/* ---- drawing ---- */

static void draw_record(
	struct cells *out, int row, int column, const struct pipe_record *r, bool asked, bool there)
{
	bool bad = r ? r->outcome == OUTCOME_BAD : asked;
	char text[24];

	if (!there)
		return;
	snprintf(text, sizeof text, "%-2s %s", bad ? sb_theme_mark(LEVEL_BREACH) : "",
		sb_pipe_string_word(r, asked));
	sb_cells_fit(out, row, column, 12, bad ? STYLE_BREACH : r ? STYLE_PLAIN : STYLE_DIM, text);
}

static void draw_line(const void *context, size_t i, struct cells *out)
{
	const struct drawing *d = context;
	const struct job *job = d->job;
	const struct string_joint *j = &d->string->list[i];
	bool weld = sb_pipe_string_weld_at(d->string, i);
	bool coated = job->material == MATERIAL_STEEL;

	sb_cells_print(out, 0, 2, STYLE_STRONG, "%4d", j->pipe->joint);
	sb_cells_right(out, 0, 7, 8, STYLE_PLAIN, j->pipe->length.text);
	sb_cells_number(out, 0, 16, 8, STYLE_DIM, j->from_m / sb_unit_metres(job->unit), 1);
	sb_cells_fit(out, 0, 26, 13, STYLE_PLAIN, j->pipe->mark);
	draw_record(out, 0, 40, j->weld, job->string_weld == ASKED_YES, weld);
	draw_record(out, 0, 53, j->inspection, job->string_inspection == ASKED_YES, weld);
	draw_record(out, 0, 66, j->coating, job->string_coating == ASKED_YES && coated,
		coated || j->coating != NULL);
}

static int draw_whole(struct cells *out, int column, const char *name, const struct pipe_record *r,
	bool asked, const struct job *job)
{
	bool bad = r ? r->outcome == OUTCOME_BAD : asked;

	column = sb_cells_text(out, 0, column, STYLE_DIM, name);
	column = sb_cells_print(out, 0, column, bad ? STYLE_BREACH : STYLE_PLAIN, " %s%s%s",
		bad ? sb_theme_mark(LEVEL_BREACH) : "", bad ? " " : "", sb_pipe_string_word(r, asked));
	if (r && sb_number_given(&r->pressure))
		column = sb_cells_print(out, 0, column, STYLE_PLAIN, ", %s %s", r->pressure.text,
			sb_measure_unit(job->unit, MEASURE_PRESSURE));
	if (r && sb_number_given(&r->hours))
		column = sb_cells_print(out, 0, column, STYLE_PLAIN, ", %s hours", r->hours.text);
	return column + 3;
}

static void draw_lacks(const struct lacks *l, struct cells *out)
{
	char text[2000];

	sb_cells_rule(out, 0, "what the pull waits for");
	if (l->count == 0) {
		sb_cells_text(out, 1, 1, STYLE_OK, "Nothing of the string is missing.");
		return;
	}
	sb_lacks_say(l, text, sizeof text);
	sb_cells_wrap(out, 1, 1, out->columns - 2, STYLE_PLAIN, text);
}

static void string_draw(const struct view *v, struct cells *out)
{
	struct string_state *s = v->state;
	const struct job *job = v->job;
	struct sb_str title = { 0 };
	struct pipe_string string;
	const int head = 3, foot = out->rows / 2 > 8 ? 8 : out->rows / 2;

	sb_pipe_string_look(job, &string);
	struct drawing d = { job, &string };
	sb_cells_rule(out, 0, "the pipe string");
	sb_str_add(&title, "%zu joint%s, ", string.count, string.count == 1 ? "" : "s");
	sb_pipe_string_length(job, &string, &title);
	sb_cells_fit(out, 1, 1, out->columns - 2, STYLE_STRONG, sb_str_get(&title));
	sb_cells_text(out, 2, 0, STYLE_DIM,
		" joint   length  from head  mark            weld         inspection   coating");
	sb_list_fit(&s->list, string.count);
	struct cells part = sb_cells_part(out, head, 0, out->rows - head - foot, out->columns);
	if (string.count)
		sb_list_draw(&s->list, string.count, draw_line, &d, &part);
	else
		sb_cells_text(&part, 0, 1, STYLE_PLAIN, "No joint is laid out yet. A enters the first one.");
	part = sb_cells_part(out, out->rows - foot, 0, 1, out->columns);
	int column = draw_whole(&part, 1, "pressure test", string.test, job->string_test == ASKED_YES, job);
	draw_whole(&part, column, "drag section", string.drag, job->string_drag == ASKED_YES, job);
	part = sb_cells_part(out, out->rows - foot + 1, 0, foot - 1, out->columns);
	draw_lacks(&string.lacks, &part);
	sb_str_clear(&title);
	sb_pipe_string_clear(&string);
}

/* ---- keys ---- */

static enum follow string_key(struct view *v, int key)
{
	struct string_state *s = v->state;
	struct pipe_string string;

	sb_pipe_string_look(v->job, &string);
	size_t count = string.count;
	sb_pipe_string_clear(&string);
	return sb_list_key(&s->list, key, count) ? FOLLOW_REDRAW : FOLLOW_PASS;
}

/* The number of the chosen joint; 0: there is none. last: of the last one. */
static int chosen_joint(const struct view *v, int *last)
{
	const struct string_state *s = v->state;
	struct pipe_string string;
	int joint = 0;

	sb_pipe_string_look(v->job, &string);
	if (string.count) {
		size_t at = s->list.chosen < string.count ? s->list.chosen : string.count - 1;
		joint = string.list[at].pipe->joint;
		*last = string.list[string.count - 1].pipe->joint;
	} else {
		*last = 0;
	}
	sb_pipe_string_clear(&string);
	return joint;
}

static enum follow entered(struct view *v, int status, const struct sb_err *err, const char *what)
{
	if (status) {
		sb_app_fail(v, err);
		return FOLLOW_PASS;
	}
	sb_app_say(v, LEVEL_OK, "On disk: %s.", what);
	return FOLLOW_JOB_CHANGED;
}

/* ---- a joint ---- */

static enum follow lay_out_it(struct view *v, const struct form *given, int64_t subject)
{
	const struct fact_sort *sort = sb_fact_sort(ACT_PIPE);
	struct pipe p = { .joint = (int)subject };
	char what[SB_STRING_WHAT] = "";
	struct sb_err err = { 0 };

	int status = sb_entry_take(given, sort, &p, &err);
	if (status == 0) {
		sb_pipe_string_what_pipe(v->job, &p, what);
		status = sb_store_enter(v->store, sb_form_text(given, "who"), ACT_PIPE, &p, what,
			sb_form_text(given, "remarks"), &err);
	}
	if (status == 0)
		((struct string_state *)v->state)->list.chosen = SIZE_MAX;
	return entered(v, status, &err, what);
}

static enum follow lay_out(struct view *v)
{
	struct prompt p = { .answer = lay_out_it };
	int last;

	chosen_joint(v, &last);
	p.subject = last + 1;
	snprintf(p.question, sizeof p.question, "Joint %d of the string, counted from the pull head.",
		last + 1);
	sb_entry_number(&p.form, "length", "measured length", sb_unit_short(v->job->unit), 10, true, "");
	sb_entry_words(&p.form, "mark", "mark", 30, false);
	sb_entry_words(&p.form, "remarks", "remarks", 50, false);
	sb_entry_who(&p.form, v);
	return sb_prompt_ask(v, &p);
}

/* ---- records ---- */

/* What a record is of is in the subject: its kind, and the joint. */
#define KINDS 8

static enum follow record_it(struct view *v, const struct form *given, int64_t subject)
{
	const struct fact_sort *sort = sb_fact_sort(ACT_PIPE_RECORD);
	struct pipe_record r = { .kind = (enum pipe_record_kind)(subject % KINDS),
		.joint = (int)(subject / KINDS) };
	char what[SB_STRING_WHAT] = "";
	struct sb_err err = { 0 };

	int status = sb_entry_take(given, sort, &r, &err);
	if (status == 0) {
		sb_pipe_string_what_record(v->job, &r, what);
		status = sb_store_enter(v->store, sb_form_text(given, "who"), ACT_PIPE_RECORD, &r, what,
			sb_form_text(given, "remarks"), &err);
	}
	return entered(v, status, &err, what);
}

static enum follow record(struct view *v, enum pipe_record_kind kind, const char *of)
{
	struct prompt p = { .answer = record_it };
	bool whole = kind == RECORD_TEST || kind == RECORD_DRAG;
	int last, joint = chosen_joint(v, &last);

	if (joint == 0)
		return sb_app_say(v, LEVEL_OK, "No joint is laid out yet. A enters the first one.");
	if (joint == last && (kind == RECORD_WELD || kind == RECORD_INSPECTION))
		return sb_app_say(v, LEVEL_OK,
			"Joint %d is the last one: its weld comes with the next joint. Choose the joint before the weld.",
			joint);
	p.subject = (int64_t)(whole ? 0 : joint) * KINDS + (int64_t)kind;
	if (whole)
		snprintf(p.question, sizeof p.question, "The record of %s.", of);
	else
		snprintf(p.question, sizeof p.question, "The record of %s %d.", of, joint);
	sb_form_add(&p.form,
		(struct form_field){ .name = "outcome",
			.label = "outcome",
			.kind = ENTRY_CHOICE,
			.choices = "good|bad",
			.width = 6,
			.required = true },
		"");
	if (kind == RECORD_TEST) {
		sb_entry_number(&p.form, "pressure", "pressure held",
			sb_measure_unit(v->job->unit, MEASURE_PRESSURE), 10, false, "");
		sb_entry_number(&p.form, "hours", "for how long", "hours", 10, false, "");
	}
	sb_entry_words(&p.form, "reference", "where it is kept", 40, false);
	sb_entry_words(&p.form, "remarks", "remarks", 50, false);
	sb_entry_who(&p.form, v);
	return sb_prompt_ask(v, &p);
}

static enum follow record_weld(struct view *v)
{
	return record(v, RECORD_WELD,
		v->job->material == MATERIAL_PE ? "the fusion behind joint" : "the weld behind joint");
}

static enum follow record_inspection(struct view *v)
{
	return record(v, RECORD_INSPECTION, "the inspection of the weld behind joint");
}

static enum follow record_coating(struct view *v)
{
	return record(v, RECORD_COATING, "the coating of joint");
}

static enum follow record_test(struct view *v)
{
	return record(v, RECORD_TEST, "the string's pressure test");
}

static enum follow record_drag(struct view *v)
{
	return record(v, RECORD_DRAG, "the drag section");
}

static const struct action string_actions[] = {
	{ .name = "lay-out",
		.keys = "A",
		.label = "add joint",
		.help = "Enter the next joint of the string: its measured length, and its mark.",
		.act = lay_out,
		.writes = true },
	{ .name = "record-weld",
		.keys = "W",
		.label = "weld",
		.help = "The record of the weld or fusion between the chosen joint and the next one.",
		.act = record_weld,
		.writes = true },
	{ .name = "record-inspection",
		.keys = "I",
		.label = "inspection",
		.help = "The record of that weld's inspection.",
		.act = record_inspection,
		.writes = true },
	{ .name = "record-coating",
		.keys = "C",
		.label = "coating",
		.help = "The record of the test of the chosen joint's coating.",
		.act = record_coating,
		.writes = true },
	{ .name = "record-test",
		.keys = "T",
		.label = "test",
		.help = "The record of the string's pressure test: pressure, hours.",
		.act = record_test,
		.writes = true },
	{ .name = "record-drag",
		.keys = "R",
		.label = "drag section",
		.help = "The record of the drag section: a piece of coated pipe drawn through the hole and looked at.",
		.act = record_drag,
		.writes = true },
	{ .name = "back-to-after",
		.keys = "S Q Esc Ctrl-C",
		.label = "back",
		.help = "Back to what was entered after the pilot.",
		.act = sb_app_close },
	{ 0 },
};

const struct screen sb_screen_string = {
	.name = "string",
	.title = "pipe string",
	.about =
		"The product pipe's joints as they are laid out, counted from the pull head, with the last word on each weld, inspection "
		"and coating. What is missing is listed below: the pull waits for it. A slip is struck out on the screen before this one.",
	.state_size = sizeof(struct string_state),
	.draw = string_draw,
	.key = string_key,
	.actions = string_actions,
	.widgets = { sb_list_keys },
};
