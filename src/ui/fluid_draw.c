/* Where the pressure is tightest at each stage, whether the fluid comes back, what is still to be recorded of
 * what came up; the pictures; and the list of all that was entered. */
#include "base/measure.h"
#include "base/str.h"
#include "base/time.h"
#include "draw/axis.h"
#include "io/fluid.h"
#include "model/nonconformance.h"
#include "model/returns.h"
#include "ui/answers.h"
#include "ui/fluid.h"
#include "ui/theme.h"

#include <stdio.h>

/* Columns of the answers. */
enum {
	NAME_AT = 1,
	SHARE_AT = 12,
	VALUE_AT = 14,
	MEASURED_AT = 21,
	ESTIMATE_AT = 30,
	LIMIT_AT = 39,
	WHERE_AT = 50,
	MORE_AT = 108,
	NUMBER = 8, /* their width */
};

#define NOTES 3	   /* of what is missing, rows at most */
#define RELEASES 2 /* that are not recorded, rows at most */

const struct fluid_event *sb_fluid_event_at(const struct job *job, size_t i)
{
	return i < job->fluid_event_count ? &job->fluid_events[job->fluid_event_count - 1 - i] : NULL;
}

/* ---- pressure ---- */

static void draw_number(const struct fluid_view *v, double pascal, struct cells *out, int row, int column)
{
	sb_cells_number(out, row, column, NUMBER, STYLE_PLAIN, sb_fluid_view_pressure(v, pascal), 1);
}

static void draw_point(
	const struct view *v, const char *name, const struct fluid_point *p, struct cells *out, int row)
{
	const struct fluid_state *s = v->state;
	const struct annular *a = &p->annular;
	char station[SB_AXIS_TEXT], where[SB_AXIS_TEXT + 24], share[16];
	struct verdict verdict;

	sb_annular_judge(&s->view.ask.setup, a, p->joint, &verdict);
	sb_cells_text(out, row, NAME_AT, STYLE_DIM, name);
	snprintf(share, sizeof share, "%.0f %%", sb_annular_share(a) * 100);
	sb_cells_right(out, row, SHARE_AT, NUMBER, STYLE_STRONG, share);
	draw_number(&s->view, a->measured_pa, out, row, MEASURED_AT);
	draw_number(&s->view, a->estimate.total_pa, out, row, ESTIMATE_AT);
	draw_number(&s->view, a->formation.limit.limit_pa, out, row, LIMIT_AT);
	sb_axis_station(a->place.station_m, v->job->unit, 1, station);
	if (p->projected)
		snprintf(where, sizeof where, "ahead, %s", station);
	else
		snprintf(where, sizeof where, "joint %d, %s", p->joint, station);
	sb_cells_text(out, row, WHERE_AT, STYLE_PLAIN, where);
	if (out->columns >= MORE_AT + 40)
		sb_cells_print(out, row, MORE_AT, STYLE_DIM, "cover %.1f %s, %s",
			sb_frame_typed(&v->solution->frame, a->formation.cover_m),
			sb_unit_short(v->job->unit), a->formation.soil.bed->name);
	sb_answers_verdict(out, row, verdict.level);
}

/* The tightest of a stage, and of what was measured where that is another. Returned: the row after them. */
static int draw_stage(const struct view *v, int stage, struct cells *out, int row)
{
	const struct fluid_state *s = v->state;
	const struct fluid_line *line = &s->view.lines[stage];
	const char *name = sb_fluid_view_words[stage];

	if (line->tightest)
		draw_point(v, name, line->tightest, out, row++);
	if (line->measured && line->measured != line->tightest)
		draw_point(v, name, line->measured, out, row++);
	if (line->tightest)
		return row;
	sb_cells_text(out, row, NAME_AT, STYLE_DIM, name);
	sb_cells_text(out, row, VALUE_AT, STYLE_WATCH, "not judged");
	return row + 1;
}

static void draw_heads(const struct view *v, struct cells *out, int row)
{
	const struct fluid_state *s = v->state;
	char text[40];

	sb_cells_text(out, row, NAME_AT, STYLE_DIM, "tightest");
	sb_cells_right(out, row, SHARE_AT, NUMBER, STYLE_DIM, "share");
	sb_cells_right(out, row, MEASURED_AT, NUMBER, STYLE_DIM, "measured");
	sb_cells_right(out, row, ESTIMATE_AT, NUMBER, STYLE_DIM, "estimate");
	sb_cells_right(out, row, LIMIT_AT, NUMBER, STYLE_DIM, "limit");
	snprintf(text, sizeof text, "%s; watch from %.0f %%", sb_fluid_view_unit(&s->view),
		v->job->fluid_watch.value * 100);
	sb_cells_text(out, row, WHERE_AT, STYLE_DIM, text);
}

struct notes {
	struct cells *out;
	int row, left;
};

static void draw_note(void *to, const char *sentence)
{
	struct notes *n = to;
	int rows = sb_cells_wrapped(sentence, n->out->columns - 2);

	if (rows > n->left)
		return;
	sb_cells_wrap(n->out, n->row, NAME_AT, n->out->columns - 2, STYLE_WATCH, sentence);
	n->row += rows;
	n->left -= rows;
}

static int draw_pressure(const struct view *v, struct cells *out, int row)
{
	const struct fluid_state *s = v->state;
	struct notes notes = { out, 0, out->rows >= 34 ? 2 * NOTES : NOTES };
	bool judged = true;

	draw_heads(v, out, row++);
	for (int k = 0; k < FLUID_STAGES; k++) {
		row = draw_stage(v, k, out, row);
		judged &= s->view.lines[k].tightest != NULL;
	}
	notes.row = row;
	if (!judged)
		sb_fluid_view_notes(&s->view, draw_note, &notes);
	return notes.row;
}

/* ---- returns and releases ---- */

static int draw_returns(const struct view *v, struct cells *out, int row)
{
	static const char *const words[] = { "nothing was said of them", "full", "only a part comes back",
		"none comes back" };
	struct returns_said last = sb_returns_last(v->job);
	int open = v->solution->open[WARNING_RETURNS];
	enum level level = open >= 0 ? v->solution->warnings[open].level : LEVEL_OK;

	sb_cells_text(out, row, NAME_AT, STYLE_DIM, "returns");
	int column = sb_cells_text(out, row, VALUE_AT, STYLE_STRONG, words[last.returns]);
	if (last.returns != RETURNS_UNSAID)
		column = sb_cells_print(out, row, column, STYLE_PLAIN, ", said at joint %d", last.joint);
	if (open >= 0 && last.returns <= RETURNS_FULL)
		sb_cells_text(out, row, column, STYLE_PLAIN, "; a loss is open");
	if (open >= 0 || last.returns != RETURNS_UNSAID)
		sb_answers_verdict(out, row, level);
	return row + 1;
}

static int draw_releases(const struct view *v, struct cells *out, int row)
{
	const struct job *job = v->job;
	int open = 0, count = 0;
	char missing[96], text[200];

	for (size_t i = 0; sb_fluid_event_at(job, i); i++) {
		const struct fluid_event *e = sb_fluid_event_at(job, i);
		if (e->kind != FLUID_RELEASE || e->struck)
			continue;
		struct release r = sb_release_of(job, e, INT64_MAX);
		count++;
		if (!sb_release_missing(&r, missing) || ++open > RELEASES)
			continue;
		snprintf(text, sizeof text, "release %lld", (long long)e->fact.id);
		sb_cells_text(out, row, NAME_AT, STYLE_DIM, text);
		snprintf(text, sizeof text, "to be recorded: %s", missing);
		sb_answers_verdict(out, row, LEVEL_BREACH);
		row += sb_cells_wrap(out, row, VALUE_AT, 55, STYLE_STRONG, text);
	}
	if (open > RELEASES)
		sb_cells_print(out, row++, VALUE_AT, STYLE_STRONG, "and %d more: M adds to the chosen one",
			open - RELEASES);
	else if (count && open == 0) {
		bool decided = sb_nonconformances_open_of(v->job, v->solution, WARNING_RELEASE) == 0;
		sb_cells_text(out, row, NAME_AT, STYLE_DIM, count == 1 ? "release" : "releases");
		sb_cells_print(out, row, VALUE_AT, STYLE_PLAIN, "%d, recorded whole; the engineer %s", count,
			decided ? "accepted" : "decides");
		sb_answers_verdict(out, row++, decided ? LEVEL_OK : LEVEL_BREACH);
	}
	return row;
}

/* ---- the list ---- */

static void draw_event(const void *context, size_t i, struct cells *out)
{
	const struct job *job = context;
	const struct fluid_event *e = sb_fluid_event_at(job, i);
	const struct act *a = sb_job_act(job, e->fact.act);
	enum style style = e->struck ? STYLE_WITHDRAWN : STYLE_PLAIN;
	const char *struck = e->struck ? "struck out: " : "";
	char when[SB_TIME_TEXT], what[SB_FLUID_WHAT], text[SB_FLUID_WHAT + 64];

	sb_time_long(e->fact.at_ms, a ? a->offset_min : 0, when);
	when[12] = '\0'; /* day and time */
	sb_fluid_what(job, e, what);
	if (e->kind == FLUID_RELEASE) /* with the number that M and the record ask for */
		snprintf(text, sizeof text, "%srelease %lld%s", struck, (long long)e->fact.id,
			what + sizeof "release to the surface" - 1);
	else
		snprintf(text, sizeof text, "%s%s", struck, what);
	sb_cells_fit(out, 0, 2, 12, STYLE_DIM, when);
	sb_cells_fit(out, 0, 15, 12, style, e->fact.who);
	sb_cells_print(out, 0, 28, style, "joint %d", e->fact.joint);
	sb_cells_fit(out, 0, 38, out->columns - 39, style, text);
}

static void draw_list(const struct view *v, struct cells *out)
{
	struct fluid_state *s = v->state;
	size_t count = v->job->fluid_event_count;

	sb_cells_rule(out, 0, "returns, losses and releases, the newest on top");
	sb_list_fit(&s->list, count);
	struct cells part = sb_cells_part(out, 1, 0, out->rows - 1, out->columns);
	if (count)
		sb_list_draw(&s->list, count, draw_event, v->job, &part);
	else
		sb_cells_text(&part, 0, NAME_AT, STYLE_PLAIN,
			"Nothing was entered but what the joints say of their returns.");
}

/* ---- all ---- */

/* One picture, or two where each has the room. */
static void draw_pictures(const struct view *v, struct cells *out)
{
	const struct fluid_state *s = v->state;
	int first = out->rows >= 24 ? out->rows / 2 : out->rows;
	struct cells part = sb_cells_part(out, 0, 0, first, out->columns);

	sb_fluid_picture(v, s->picture, &part);
	if (first == out->rows)
		return;
	part = sb_cells_part(out, first, 0, out->rows - first, out->columns);
	sb_fluid_picture(v, (s->picture + 1) % FLUID_STAGES, &part);
}

void sb_fluid_draw(const struct view *v, struct cells *out)
{
	size_t count = v->job->fluid_event_count;
	int most = out->rows >= 34 ? 8 : 3, list = 1 + (count == 0 ? 1 : count < 8 ? (int)count : 8);

	sb_cells_rule(out, 0, "estimates but for what was measured, for the engineer to verify (B)");
	int row = draw_pressure(v, out, 1);
	row = draw_returns(v, out, row);
	row = draw_releases(v, out, row);
	list = list > 1 + most ? 1 + most : list;
	struct cells part = sb_cells_part(out, row, 0, out->rows - row - list, out->columns);
	draw_pictures(v, &part);
	part = sb_cells_part(out, out->rows - list, 0, list, out->columns);
	draw_list(v, &part);
}
