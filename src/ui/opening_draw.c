/* The passes on top, the one that runs with its time and volumes, the worst rule that is not kept, the joints
 * of one pass, and the line that one types into. */
#include "base/measure.h"
#include "base/str.h"
#include "base/time.h"
#include "io/opening.h"
#include "model/fact.h"
#include "ui/app.h"
#include "ui/opening.h"
#include "ui/theme.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define ENTRY_ROWS 3 /* the rule over it, the fields, what is wrong or what to type */
#define VOLUME_ROWS 3
#define WIDE 128 /* columns from which the rest of a joint is shown too */

size_t sb_opening_shown(const struct opening_state *s, const struct opening *o)
{
	return s->back < o->count ? o->count - 1 - s->back : SIZE_MAX;
}

size_t sb_opening_joints_of(const struct opening *o, size_t pass)
{
	size_t count = 0;

	for (size_t i = 0; i < o->joint_count; i++)
		count += o->joints[i].pass == pass;
	return count;
}

const struct opening_joint *sb_opening_joint_at(const struct opening *o, size_t pass, size_t at)
{
	for (size_t i = o->joint_count; i-- > 0;)
		if (o->joints[i].pass == pass && at-- == 0)
			return &o->joints[i];
	return NULL;
}

/* ---- passes ---- */

static void draw_pass(const struct job *job, const struct opening_pass *p, struct cells *out, int row)
{
	enum style style = p->end ? STYLE_PLAIN : STYLE_STRONG;
	char what[64], cut[32], pumped[32];

	snprintf(what, sizeof what, "%s %s %s", sb_pass_kind_name(p->pass->kind), p->pass->diameter.text,
		sb_measure_unit(job->unit, MEASURE_SIZE));
	sb_opening_volume(job, p->cut_m3, cut);
	sb_opening_volume(job, p->pumped_m3, pumped);
	sb_cells_print(out, row, 1, style, "%4d", p->number);
	sb_cells_fit(out, row, 7, 14, style, what);
	sb_cells_fit(out, row, 22, 8, style, sb_pass_way_name(p->pass->to));
	sb_cells_print(out, row, 30, style, "%5d", p->done);
	sb_cells_print(out, row, 36, style, "%5d", p->left);
	sb_cells_right(out, row, 42, 12, style, cut);
	sb_cells_right(out, row, 55, 12, style, p->pumped ? pumped : "");
	sb_cells_fit(out, row, 69, out->columns - 70, style,
		p->end == NULL	  ? "runs"
			: p->left ? "ended early"
				  : "ended");
	if (out->columns >= 100)
		sb_cells_fit(out, row, 82, out->columns - 83, STYLE_DIM, p->pass->tool);
}

/* Returned: the rows it took. */
static int draw_passes(const struct view *v, const struct opening *o, int most, struct cells *out)
{
	int count = (int)o->count < most ? (int)o->count : most;
	struct sb_str title = { 0 };

	sb_str_add(&title, "final hole: ");
	sb_opening_final_words(v->job, &title);
	sb_cells_rule(out, 0, sb_str_get(&title));
	sb_str_clear(&title);
	sb_cells_text(out, 1, 1, STYLE_DIM,
		"pass  what           to     through  left   cut, in place      pumped  state");
	for (int i = 0; i < count; i++)
		draw_pass(v->job, &o->list[o->count - (size_t)count + (size_t)i], out, 2 + i);
	if (count == 0)
		sb_cells_text(out, 2, 1, STYLE_PLAIN,
			sb_job_accepted(v->job)
				? "No pass has begun: B begins one."
				: "The pilot is not accepted: that is a hold point, and no pass begins before it.");
	return 2 + (count ? count : 1);
}

/* ---- the one that runs ---- */

/* Returned: the rows it took. */
static int draw_running(const struct view *v, const struct opening *o, struct cells *out)
{
	const struct opening_pass *p = o->running;
	struct sb_str text = { 0 };
	char title[80];

	if (p == NULL) {
		sb_cells_rule(out, 0, "no pass runs");
		return 1;
	}
	if (p->next)
		snprintf(title, sizeof title, "pass %d: joint %d next, %d of %d through", p->number, p->next,
			p->done, o->bore_joints);
	else
		snprintf(title, sizeof title, "pass %d: all %d joints through, E ends it", p->number,
			o->bore_joints);
	sb_cells_rule(out, 0, title);
	if (p->left) {
		sb_str_add(&text, "%d joint%s left: ", p->left, p->left == 1 ? "" : "s");
		sb_opening_left_words(&p->best, &p->likely, &text);
	} else {
		sb_str_add(&text, "every joint is through");
	}
	sb_cells_fit(out, 1, 1, out->columns - 2, STYLE_STRONG, sb_str_get(&text));
	sb_str_clear(&text);
	sb_opening_volume_words(v->job, p, &text);
	struct cells part = sb_cells_part(out, 2, 0, VOLUME_ROWS, out->columns);
	int rows = sb_cells_wrap(&part, 0, 1, out->columns - 2, STYLE_DIM, sb_str_get(&text));
	sb_str_clear(&text);
	return 2 + (rows < VOLUME_ROWS ? rows : VOLUME_ROWS);
}

/* ---- the rules ---- */

static int draw_fault(const struct opening *o, struct cells *out)
{
	char text[400];

	if (o->fault_count == 0)
		return 0;
	const struct opening_fault *f = &o->faults[0];
	int written = snprintf(
		text, sizeof text, "%s %s: %s", sb_theme_mark(f->level), sb_level_word(f->level), f->text);
	if (o->fault_count > 1)
		snprintf(text + written, sizeof text - (size_t)written, " %zu more: A shows the warnings.",
			o->fault_count - 1);
	return sb_cells_wrap(out, 0, 1, out->columns - 2, sb_theme_level(f->level), text);
}

/* ---- joints ---- */

struct drawing {
	const struct view *v;
	const struct opening *o;
	size_t pass;
};

/* Where the numbers stand, right edge at the seventh column from it. */
static const int value_at[OPENING_VALUES] = { 26, 35, 43, 50, 58 };

static void draw_headings(struct cells *out)
{
	static const char *const heads[OPENING_VALUES] = { "pull", "torque", "flow", "pump", "annular" };
	struct cells part = sb_cells_part(out, 1, 1, 1, out->columns - 2); /* as the list's rows lie */

	sb_cells_text(&part, 0, 1, STYLE_DIM, "joint time");
	sb_cells_right(&part, 0, 21, 4, STYLE_DIM, "min");
	for (int k = 0; k < OPENING_VALUES; k++)
		sb_cells_right(&part, 0, value_at[k], 7, STYLE_DIM, heads[k]);
	sb_cells_text(&part, 0, 67, STYLE_DIM, "returns");
	if (part.columns >= WIDE) {
		sb_cells_text(&part, 0, 78, STYLE_DIM, "pull, torque before");
		sb_cells_text(&part, 0, 99, STYLE_DIM, "by");
		sb_cells_text(&part, 0, 112, STYLE_DIM, "remarks");
	}
}

/* The same joint in a pass before: what it took then says more than the number alone. NULL: there was none.
 */
static const struct opening_joint *earlier(const struct opening *o, const struct opening_joint *j)
{
	for (const struct opening_joint *e = j; e-- > o->joints;)
		if (e->entry->joint == j->entry->joint && e->pass < j->pass)
			return e;
	return NULL;
}

/* On a wide terminal: pull and torque of the pass before there, who entered it, and the remarks. */
static void draw_rest(const struct opening *o, const struct opening_joint *j, struct cells *out)
{
	const struct opening_joint *before = earlier(o, j);
	char what[SB_OPENING_WHAT];

	if (before) {
		sb_cells_right(out, 0, 78, 8, STYLE_DIM, before->entry->pull.text);
		sb_cells_right(out, 0, 88, 8, STYLE_DIM, before->entry->torque.text);
	}
	sb_cells_fit(out, 0, 99, 12, STYLE_DIM, j->entry->fact.who);
	sb_opening_what_joint(j->entry, what);
	size_t length = strlen(what);
	if (strncmp(j->entry->fact.words, what, length) == 0 && j->entry->fact.words[length] == ':')
		sb_cells_fit(out, 0, 112, out->columns - 113, STYLE_DIM, j->entry->fact.words + length + 2);
}

static void draw_joint(const void *context, size_t i, struct cells *out)
{
	static const char *const returns[] = { "", "full", "partial", "none" };
	const struct drawing *d = context;
	const struct opening_joint *j = sb_opening_joint_at(d->o, d->pass, i);
	const struct pass_joint *e = j->entry;
	char clock[2 * SB_CLOCK_TEXT + 8];

	sb_cells_print(out, 0, 1, j->again ? STYLE_DIM : STYLE_STRONG, "%5d", e->joint);
	snprintf(clock, sizeof clock, "%s%s%s", e->started, *e->started || *e->ended ? " to " : "", e->ended);
	sb_cells_fit(out, 0, 7, 14, STYLE_DIM, clock);
	if (!isnan(j->minutes.whole_min))
		sb_cells_number(out, 0, 21, 4, STYLE_PLAIN, j->minutes.whole_min, 0);
	for (int k = 0; k < OPENING_VALUES; k++)
		sb_cells_right(out, 0, value_at[k], 7, STYLE_PLAIN,
			sb_opening_value(e, (enum opening_value)k)->text);
	/* that the pass had been through it is said where nothing else is */
	sb_cells_fit(out, 0, 67, 10, e->returns > RETURNS_FULL ? STYLE_WATCH : STYLE_PLAIN,
		e->returns	   ? returns[e->returns]
			: j->again ? "again"
				   : "");
	if (out->columns >= WIDE)
		draw_rest(d->o, j, out);
}

static void draw_joints(const struct view *v, const struct opening *o, struct cells *out)
{
	struct opening_state *s = v->state;
	size_t pass = sb_opening_shown(s, o), count = pass == SIZE_MAX ? 0 : sb_opening_joints_of(o, pass);
	struct drawing d = { v, o, pass };
	char title[80];

	if (pass == SIZE_MAX || out->rows < 3)
		return;
	snprintf(title, sizeof title, "joints of pass %d: %s, %s, %s, %s%s", o->list[pass].number,
		sb_opening_value_unit(v->job, OPENING_PULL), sb_opening_value_unit(v->job, OPENING_TORQUE),
		sb_opening_value_unit(v->job, OPENING_FLOW), sb_opening_value_unit(v->job, OPENING_PRESSURE),
		o->count > 1 ? "; P shows another's" : "");
	sb_cells_rule(out, 0, title);
	draw_headings(out);
	sb_list_fit(&s->list, count);
	struct cells part = sb_cells_part(out, 2, 0, out->rows - 2, out->columns);
	if (count)
		sb_list_draw(&s->list, count, draw_joint, &d, &part);
	else
		sb_cells_text(&part, 0, 1, STYLE_PLAIN, "It went through no joint yet.");
}

/* ---- the entry line ---- */

static int filled(const struct form *f)
{
	int count = 0;

	for (size_t i = 0; i < f->count; i++)
		count += f->fields[i].text[0] != '\0' && !f->fields[i].offered;
	return count;
}

static const char *what_to_type(const struct view *v)
{
	const struct opening_state *s = v->state;

	if (!sb_store_writes(v->store))
		return "You are looking on: nothing that you type is entered.";
	if (s->pass == 0)
		return "No pass runs: there is no joint to enter.";
	if (s->joint == 0)
		return "The pass is through every joint. E ends it.";
	return "Pull, Enter, torque, Enter: it is entered. Tab: the others. M: times, remarks.";
}

static void draw_entry(const struct view *v, struct cells *out)
{
	const struct opening_state *s = v->state;
	int more = filled(&s->more), column;
	char title[80];

	snprintf(title, sizeof title, "%d more field%s filled in: M shows %s", more,
		more == 1 ? " is" : "s are", more == 1 ? "it" : "them");
	sb_cells_rule(out, 0, more ? title : NULL);
	if (s->pass) {
		const char *joint = sb_form_text(&s->more, "joint");
		column = sb_cells_print(out, 1, 1, STYLE_STRONG, "joint %s", *joint ? joint : "-") + 1;
		for (size_t i = 0; i < s->entry.count; i++)
			column = sb_form_draw_one(&s->entry, i, out, 1, column) + 1;
	}
	for (size_t i = 0; i < s->entry.count; i++)
		if (s->entry.fields[i].problem[0]) {
			column = sb_cells_text(out, 2, 1, STYLE_WATCH, "! ");
			sb_cells_fit(out, 2, column, out->columns - column - 1, STYLE_WATCH,
				s->entry.fields[i].problem);
			return;
		}
	sb_cells_fit(out, 2, 1, out->columns - 2, STYLE_DIM, what_to_type(v));
}

void sb_opening_draw(const struct view *v, const struct opening *o, struct cells *out)
{
	int row = draw_passes(v, o, out->rows >= 34 ? 8 : 4, out);
	struct cells part = sb_cells_part(out, row, 0, out->rows - row, out->columns);

	row += draw_running(v, o, &part);
	part = sb_cells_part(out, row, 0, out->rows - row - ENTRY_ROWS, out->columns);
	row += draw_fault(o, &part);
	part = sb_cells_part(out, row, 0, out->rows - row - ENTRY_ROWS, out->columns);
	draw_joints(v, o, &part);
	part = sb_cells_part(out, out->rows - ENTRY_ROWS, 0, ENTRY_ROWS, out->columns);
	draw_entry(v, &part);
}
