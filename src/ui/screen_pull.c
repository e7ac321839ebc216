/* The pull of the product pipe: the force at the rig in figures that are read across the cabin, what it is
 * beside the limit and the estimate, what it may mean; the picture of all of it; and the line where the next
 * joint's force is typed.
 */
#include "base/measure.h"
#include "base/str.h"
#include "io/pullback.h"
#include "model/after.h"
#include "ui/after.h"
#include "ui/app.h"
#include "ui/big.h"
#include "ui/curves.h"
#include "ui/entry.h"
#include "ui/kept.h"
#include "ui/prompt.h"
#include "ui/theme.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define ENTRY_ROWS 3
#define HEAD_ROWS 5 /* the rule, three rows of figures, and where the head is */

struct pull_state {
	struct form entry;
	int joint;		 /* it is typed for; 0: all are out */
	struct pull_bands bands; /* made when the job changes */
};

/* ---- what is typed ---- */

static void add_field(
	struct form *f, const char *name, const char *label, int width, bool required, const char *offered)
{
	sb_form_add(f,
		(struct form_field){ .name = name,
			.label = label,
			.kind = ENTRY_NUMBER,
			.width = width,
			.required = required },
		offered);
}

static void build_form(struct pull_state *s, const struct job *job)
{
	int next = sb_pullback_next(job);
	char offered[16];

	snprintf(offered, sizeof offered, "%d", next);
	s->joint = next;
	memset(&s->entry, 0, sizeof s->entry);
	add_field(&s->entry, "joint", "joint", 5, true, next ? offered : "");
	add_field(&s->entry, "force", "force", 8, true, "");
	add_field(&s->entry, "torque", "torque", 7, false, "");
	add_field(&s->entry, "started", "from", 5, false, "");
	add_field(&s->entry, "ended", "to", 5, false, "");
	s->entry.focus = 1;
}

static bool runs(const struct view *v)
{
	const struct pull_state *s = v->state;
	struct pullback p;

	sb_pullback_take(v->job, &s->bands, &p);
	bool running = p.begun && p.ended == NULL;
	sb_pullback_clear(&p);
	return running;
}

static struct kept kept_of(const struct view *v)
{
	struct pull_state *s = v->state;

	return (struct kept){ "pull", 1, s->joint, { &s->entry } };
}

static void keep(const struct view *v, bool sync)
{
	struct kept k = kept_of(v);

	sb_kept_save(v, &k, sync);
}

static void pull_keep(struct view *v)
{
	keep(v, true);
}

/* Takes up again what was half typed, while there is anything to type it for. */
static void resume(struct view *v)
{
	struct kept k = kept_of(v);
	char when[SB_TIME_TEXT];

	if (runs(v) && sb_kept_load(v, &k, when))
		sb_app_say(v, LEVEL_OK,
			"What was half typed for joint %s is back. Nothing of it is on disk yet.",
			sb_form_text(k.forms[0], "joint"));
}

static int pull_open(struct view *v, const void *argument, struct sb_err *err)
{
	struct pull_state *s = v->state;
	struct clearance_ask ask = sb_solution_clearance(v->job, v->solution);

	(void)argument;
	(void)err;
	sb_pull_bands_make(&ask, &s->bands);
	build_form(s, v->job);
	resume(v);
	return 0;
}

static void pull_changed(struct view *v)
{
	struct pull_state *s = v->state;
	struct clearance_ask ask = sb_solution_clearance(v->job, v->solution);

	sb_pull_bands_make(&ask, &s->bands);
	if (!sb_form_touched(&s->entry))
		build_form(s, v->job);
	keep(v, false);
}

static void pull_close(struct view *v)
{
	struct pull_state *s = v->state;

	sb_pull_bands_clear(&s->bands);
}

/* ---- the answers ---- */

static enum level level_of(const struct pulled *p)
{
	return p->share > 1						      ? LEVEL_BREACH
		: p->jumped || p->side == BAND_ABOVE || p->side == BAND_BELOW ? LEVEL_WATCH
									      : LEVEL_OK;
}

static void draw_force(const struct view *v, const struct pulled *p, struct cells *out)
{
	const struct job *job = v->job;
	const char *unit = sb_measure_unit(job->unit, MEASURE_FORCE);
	enum level level = level_of(p);
	char big[16], band[3][SB_PULL_FORCE];

	/* what was typed, unless it has more digits than there is room for */
	if (!sb_copy(big, 8, p->entry->force.text))
		snprintf(big, sizeof big, "%.0f", p->entry->force.value);
	int column = sb_big_number(out, 0, 1, sb_theme_level(level), v->glyphs, big) + 2;
	sb_cells_print(out, 0, column, STYLE_STRONG, "%s at the rig, joint %d", unit, p->entry->joint);
	sb_cells_print(out, 0, out->columns - 10, sb_theme_level(level), "%-2s %s", sb_theme_mark(level),
		sb_level_word(level));
	if (isnan(p->share))
		sb_cells_text(out, 1, column, STYLE_DIM, "the contract gives no safe pull limit");
	else
		sb_cells_print(out, 1, column, p->share > 1 ? STYLE_BREACH : STYLE_PLAIN,
			"%.0f %% of the safe pull limit of %s", 100 * p->share, job->safe_force.text);
	if (p->side == BAND_UNKNOWN) {
		sb_cells_text(out, 2, column, STYLE_DIM, "no estimate");
		return;
	}
	sb_pullback_force(job, p->band.force_n, band[0]);
	sb_pullback_force(job, p->band.low_n, band[1]);
	sb_pullback_force(job, p->band.high_n, band[2]);
	sb_cells_print(out, 2, column, p->side == BAND_WITHIN ? STYLE_PLAIN : STYLE_WATCH,
		"estimate %s; %s its band, %s to %s", band[0], sb_pullback_side(p->side), band[1], band[2]);
}

/* Where the head is, and how long it takes yet. */
static void draw_stand(const struct view *v, const struct pullback *p, struct cells *out)
{
	struct sb_str words = { 0 };

	sb_pullback_stand(v->job, p, &words);
	sb_str_add(&words, ".");
	sb_cells_fit(out, 0, 1, out->columns - 2, STYLE_STRONG, sb_str_get(&words));
	sb_str_clear(&words);
}

/* What it may mean, else how long it takes yet, else why there is no estimate. Returned: rows that it takes.
 */
static int draw_meaning(const struct view *v, const struct pullback *p, struct cells *out)
{
	const struct pull_state *s = v->state;
	struct sb_str words = { 0 };
	int rows = 0;

	sb_pullback_time(v->job, p, &words);
	if (words.length) {
		sb_str_add(&words, ".");
		rows += sb_cells_wrap(out, rows, 1, out->columns - 2, STYLE_PLAIN, sb_str_get(&words));
		sb_str_clear(&words);
	}
	if (p->count)
		sb_pullback_means(v->job, &s->bands, &p->list[p->count - 1], &words);
	if (words.length)
		rows += sb_cells_wrap(out, rows, 1, out->columns - 2, STYLE_WATCH, sb_str_get(&words));
	else if (*s->bands.unknown)
		rows += sb_cells_wrap(out, rows, 1, out->columns - 2, STYLE_DIM, s->bands.unknown);
	sb_str_clear(&words);
	return rows;
}

/* ---- the picture ---- */

static double typed_force(const struct job *job, double newton)
{
	return sb_measure_typed(job->unit, MEASURE_FORCE, newton);
}

enum which { WHICH_LOW, WHICH_HIGH, WHICH_ESTIMATE };

/* The estimate, or an end of its band. */
static void add_band(struct curves *c, const struct pull_state *s, const struct job *job, enum which which)
{
	static const char *const names[] = { "low", "high", "estimate" };
	const struct pull_bands *b = &s->bands;
	struct along_point *to = sb_curves_add(c, which == WHICH_ESTIMATE ? MEANING_ESTIMATE : MEANING_DOUBT,
		which == WHICH_ESTIMATE ? LINE_SOLID : LINE_DOTTED, names[which], b->count);

	for (size_t i = 0; i < b->count; i++) {
		const struct pull_band *at = &b->list[i];
		double newton = which == WHICH_LOW ? at->low_n
			: which == WHICH_HIGH	   ? at->high_n
						   : at->force_n;
		to[i] = (struct along_point){ sb_bore_line_station(&b->line, at->head_md_m),
			typed_force(job, newton) };
	}
}

static void add_measured(struct curves *c, const struct job *job, const struct pullback *p)
{
	struct along_point *to = p->count < 2
		? sb_curves_marks(c, MEANING_MEASURED, "measured", p->count)
		: sb_curves_add(c, MEANING_MEASURED, LINE_SOLID, "measured", p->count);

	for (size_t i = 0; i < p->count; i++)
		to[i] = (struct along_point){ p->list[i].station_m, typed_force(job, p->list[i].force_n) };
}

static void draw_picture(const struct view *v, const struct pullback *p, struct cells *out)
{
	const struct pull_state *s = v->state;
	const struct bore_line *line = &s->bands.line;
	struct curves c = { 0 };

	if (out->rows < 4 || line->count == 0)
		return;
	double from = line->stretches[0].station_m, to = sb_bore_line_station(line, line->length_m);
	double limit = typed_force(v->job, p->safe_n);
	for (enum which which = WHICH_LOW; which <= WHICH_ESTIMATE; which++)
		add_band(&c, s, v->job, which);
	struct along_point *limits = sb_curves_add(&c, MEANING_LIMIT, LINE_DASHED, "limit", 2);
	limits[0] = (struct along_point){ from, limit };
	limits[1] = (struct along_point){ to, limit };
	add_measured(&c, v->job, p);
	sb_cells_rule(
		out, 0, "force at the rig by where the head is: measured, estimate with its band, limit");
	struct cells area = sb_cells_part(out, 1, 0, out->rows - 1, out->columns);
	sb_curves_draw(&c, from, to, sb_measure_unit(v->job->unit, MEASURE_FORCE), 0, v->job->unit, v->glyphs,
		&area);
	sb_curves_clear(&c);
}

/* ---- before, after, and the line where it is typed ---- */

static void draw_waiting(const struct view *v, struct cells *out)
{
	struct lacks lacks;
	int row = 3;

	sb_pullback_lacks(v->job, &lacks);
	sb_cells_text(out, 1, 1, STYLE_STRONG, "The pull has not begun.");
	if (lacks.count == 0)
		sb_cells_text(out, row++, 1, STYLE_OK, "Nothing is missing: B begins it.");
	else
		sb_cells_text(out, row++, 1, STYLE_PLAIN,
			"It waits for this; B begins it all the same, with a reason and a name:");
	for (size_t i = 0; i < lacks.count; i++) {
		sb_cells_text(out, row, 1, STYLE_BREACH, sb_theme_mark(LEVEL_BREACH));
		row += sb_cells_wrap(out, row, 4, out->columns - 5, STYLE_PLAIN, lacks.text[i]);
	}
}

static void draw_ended(const struct view *v, const struct pullback *p, struct cells *out)
{
	struct sb_str words = { 0 };

	sb_cells_rule(out, 0, "the end");
	sb_pullback_end_say(v->job, p, &words);
	sb_cells_wrap(out, 1, 1, out->columns - 2, STYLE_STRONG, sb_str_get(&words));
	sb_str_clear(&words);
}

static void draw_entry(const struct view *v, struct cells *out)
{
	const struct pull_state *s = v->state;
	const char *problem = "";
	int column = 1;

	sb_cells_rule(out, 0, NULL);
	for (size_t i = 0; i < s->entry.count; i++) {
		column = sb_form_draw_one(&s->entry, i, out, 1, column) + 1;
		if (*s->entry.fields[i].problem)
			problem = s->entry.fields[i].problem;
	}
	if (*problem)
		sb_cells_print(out, 2, 1, STYLE_WATCH, "! %s", problem);
	else if (!sb_store_writes(v->store))
		sb_cells_text(out, 2, 1, STYLE_DIM, "You are looking on: nothing that you type is entered.");
	else if (sb_pullback_next(v->job) == 0)
		sb_cells_text(out, 2, 1, STYLE_DIM, "All joints are out: E ends the pull.");
	else
		sb_cells_print(out, 2, 1, STYLE_DIM,
			"Type the force in %s as the joint came out, Enter. Times as 0912.",
			sb_measure_unit(v->job->unit, MEASURE_FORCE));
}

static void pull_draw(const struct view *v, struct cells *out)
{
	struct pull_state *s = v->state;
	struct pullback p;

	sb_pullback_take(v->job, &s->bands, &p);
	sb_cells_rule(out, 0, "the pull");
	int foot = p.begun == NULL ? 0 : p.ended ? 5 : ENTRY_ROWS;
	if (p.begun == NULL) {
		draw_waiting(v, out);
	} else {
		struct cells part = sb_cells_part(out, 1, 0, 3, out->columns);
		if (p.count)
			draw_force(v, &p.list[p.count - 1], &part);
		else
			sb_cells_text(&part, 1, 1, STYLE_PLAIN, "No joint is out yet.");
		part = sb_cells_part(out, 4, 0, 1, out->columns);
		draw_stand(v, &p, &part);
		part = sb_cells_part(out, HEAD_ROWS, 0, out->rows - HEAD_ROWS - foot, out->columns);
		int row = HEAD_ROWS + draw_meaning(v, &p, &part);
		part = sb_cells_part(out, row, 0, out->rows - row - foot, out->columns);
		draw_picture(v, &p, &part);
		part = sb_cells_part(out, out->rows - foot, 0, foot, out->columns);
		if (p.ended)
			draw_ended(v, &p, &part);
		else
			draw_entry(v, &part);
	}
	sb_pullback_clear(&p);
}

/* ---- a joint ---- */

/* FOLLOW_PASS: it was not taken, and what was typed stands. */
static enum follow enter_joint(struct view *v, const char *who, const char *why)
{
	struct pull_state *s = v->state;
	struct pull_joint j = { 0 };
	struct sb_err err = { 0 };

	if (sb_entry_take(&s->entry, sb_fact_sort(ACT_PULL_JOINT), &j, &err) == 0) {
		char what[SB_PULL_WHAT];
		sb_pullback_what_joint(v->job, &j, what);
		struct stood before = sb_entry_stood(v);
		/* What is typed is safe on disk, half typed, before it is tried for good. */
		keep(v, true);
		if (sb_store_enter(v->store, who, ACT_PULL_JOINT, &j, what, why, &err) == 0) {
			memset(&s->entry, 0, sizeof s->entry);
			return sb_entry_said(v, what, &before);
		}
	}
	sb_app_fail(v, &err);
	return FOLLOW_PASS;
}

static enum follow try_to_enter(struct view *v)
{
	if (!sb_store_writes(v->store))
		return sb_app_say(v, LEVEL_WATCH,
			"You are looking on: this job was opened to read only. Nothing was entered.");
	enum follow follow = enter_joint(v, v->who, "");
	return follow == FOLLOW_PASS ? FOLLOW_REDRAW : follow;
}

static enum follow pull_key(struct view *v, int key)
{
	struct pull_state *s = v->state;

	if (!runs(v))
		return FOLLOW_PASS;
	enum follow follow =
		sb_entry_key(v, &s->entry, key, sb_entry_check, sb_fact_sort(ACT_PULL_JOINT), try_to_enter);
	if (follow == FOLLOW_REDRAW)
		keep(v, false);
	return follow;
}

static enum follow with_remarks_it(struct view *v, const struct form *given, int64_t subject)
{
	(void)subject;
	return enter_joint(v, sb_form_text(given, "who"), sb_form_text(given, "remarks"));
}

static enum follow with_remarks(struct view *v)
{
	struct pull_state *s = v->state;
	struct prompt p = { .answer = with_remarks_it };

	if (!runs(v))
		return sb_app_say(v, LEVEL_OK, "The pull does not run.");
	if (sb_form_check(&s->entry, sb_entry_check, sb_fact_sort(ACT_PULL_JOINT)))
		return FOLLOW_REDRAW;
	snprintf(p.question, sizeof p.question, "Joint %s, %s %s, with remarks.",
		sb_form_text(&s->entry, "joint"), sb_form_text(&s->entry, "force"),
		sb_measure_unit(v->job->unit, MEASURE_FORCE));
	sb_entry_words(&p.form, "remarks", "remarks", 60, true);
	sb_entry_who(&p.form, v);
	return sb_prompt_ask(v, &p);
}

/* ---- the beginning and the end ---- */

static enum follow refused(struct view *v, const struct sb_err *err)
{
	sb_app_fail(v, err);
	return FOLLOW_PASS;
}

static enum follow begin_it(struct view *v, const struct form *given, int64_t subject)
{
	struct stood before = sb_entry_stood(v);
	struct pull_begin b = { 0 };
	struct lacks lacks;
	struct sb_err err = { 0 };

	(void)subject;
	sb_pullback_lacks(v->job, &lacks);
	sb_lacks_say(&lacks, b.missing, sizeof b.missing);
	if (sb_store_enter(v->store, sb_form_text(given, "who"), ACT_PULL, &b, "",
		    sb_form_text(given, "reason"), &err))
		return refused(v, &err);
	return sb_entry_said(v, "the pull has begun", &before);
}

static enum follow begin(struct view *v)
{
	struct pull_state *s = v->state;
	struct prompt p = { .answer = begin_it };
	struct pullback pull;
	struct lacks lacks;

	sb_pullback_take(v->job, &s->bands, &pull);
	bool begun = pull.begun != NULL;
	sb_pullback_clear(&pull);
	if (begun)
		return sb_app_say(v, LEVEL_OK, "The pull has begun already.");
	sb_pullback_lacks(v->job, &lacks);
	if (lacks.count)
		snprintf(p.question, sizeof p.question,
			"The pull begins although %zu thing%s missing. Who says so, and why?", lacks.count,
			lacks.count == 1 ? " is" : "s are");
	else
		snprintf(p.question, sizeof p.question, "The pull begins: nothing is missing.");
	sb_entry_words(&p.form, "reason", lacks.count ? "why" : "remarks", 60, lacks.count > 0);
	sb_entry_who(&p.form, v);
	return sb_prompt_ask(v, &p);
}

static enum follow end_it(struct view *v, const struct form *given, int64_t subject)
{
	struct stood before = sb_entry_stood(v);
	struct pull_end e = { 0 };
	char what[SB_PULL_WHAT] = "";
	struct sb_err err = { 0 };

	(void)subject;
	int status = sb_entry_take(given, sb_fact_sort(ACT_PULL_END), &e, &err);
	if (status == 0) {
		sb_pullback_what_end(v->job, &e, what);
		status = sb_store_enter(v->store, sb_form_text(given, "who"), ACT_PULL_END, &e, what,
			sb_form_text(given, "remarks"), &err);
	}
	return status ? refused(v, &err) : sb_entry_said(v, what, &before);
}

static enum follow end(struct view *v)
{
	struct prompt p = { .answer = end_it };
	int left = sb_pullback_next(v->job);

	if (!runs(v))
		return sb_app_say(v, LEVEL_OK, "The pull does not run.");
	if (left)
		snprintf(p.question, sizeof p.question,
			"The head is still in the hole, joint %d is next. If the pull ends all the same, say why.",
			left);
	else
		snprintf(p.question, sizeof p.question, "The pipe is through.");
	sb_form_add(&p.form,
		(struct form_field){ .name = "coating",
			.label = "coating",
			.kind = ENTRY_CHOICE,
			.choices = "sound|scratched|damaged",
			.width = 10,
			.required = true },
		"");
	add_field(&p.form, "extra", "pulled out past the entry", 8, false, "");
	p.kept = "pull-end";
	sb_entry_words(&p.form, "survey", "final survey kept", 40, false);
	sb_entry_words(&p.form, "remarks", left ? "why" : "remarks", 50, left > 0);
	sb_entry_who(&p.form, v);
	return sb_prompt_ask(v, &p);
}

/* The newest of the pull's own entries: its end, its last joint, else its begin. */
static enum follow strike(struct view *v)
{
	const struct job *job = v->job;

	for (size_t i = job->act_count; i-- > 0;) {
		const struct act *a = &job->acts[i];
		bool own = a->kind == ACT_PULL || a->kind == ACT_PULL_JOINT || a->kind == ACT_PULL_END;
		if (own && sb_after_strikable(job, a->id))
			return sb_entry_strike(v, a->id);
	}
	return sb_app_say(v, LEVEL_OK, "There is nothing to strike out.");
}

static const struct action pull_actions[] = {
	{ .name = "enter-pulled",
		.keys = "Enter",
		.help = "Enter the joint, once its force is typed.",
		.writes = true },
	{ .name = "begin-pull",
		.keys = "B",
		.label = "begin",
		.help = "The pull begins; with something missing it asks who says so, and why.",
		.act = begin,
		.writes = true },
	{ .name = "enter-with-remarks",
		.keys = "M",
		.label = "with remarks",
		.help = "Enter the joint with remarks: where others were passed over they say why.",
		.act = with_remarks,
		.writes = true },
	{ .name = "end-pull",
		.keys = "E",
		.label = "end",
		.help = "The pipe is through: coating, extra pipe, final survey.",
		.act = end,
		.writes = true },
	{ .name = "strike-out-of-pull",
		.keys = "K",
		.label = "strike out",
		.help = "A slip: strikes out the end of the pull, else the joint entered last, else its begin; with a reason.",
		.act = strike,
		.writes = true },
	{ .name = "back-to-after",
		.keys = "P Q Esc Ctrl-C",
		.label = "back",
		.help = "Back to what was entered after the pilot; what is half typed is kept.",
		.act = sb_app_close },
	{ 0 },
};

const struct screen sb_screen_pull = {
	.name = "pull",
	.title = "pull",
	.about =
		"The product pipe is pulled in. With each joint of drill pipe that comes out its force is typed; it stands beside the "
		"contract's safe pull limit and the estimate for that place of the head, with the band of its sensitivity. What a force "
		"outside the band may mean is a possibility to look into, no more. The estimate is for the engineer to verify.",
	.state_size = sizeof(struct pull_state),
	.open = pull_open,
	.draw = pull_draw,
	.key = pull_key,
	.changed = pull_changed,
	.keep = pull_keep,
	.close = pull_close,
	.actions = pull_actions,
	.widgets = { sb_form_line_keys },
};
