/* The day's report as blocks: what inspectors' and contractors' daily reports ask for, as far as a log knows
 * it. Source of the fields and their order: what agencies' inspection manuals and handbooks ask (common
 * practice; no one specification). */
#include "base/mem.h"
#include "io/day.h"
#include "io/history.h"
#include "io/timeline.h"
#include "model/fact.h"
#include "model/nonconformance.h"

#include <math.h>
#include <stdio.h>

#include "day_parts.h"

#define COUNT(columns) (sizeof(columns) / sizeof *(columns))

static bool holds(const struct day *day, int64_t act, int64_t at_ms)
{
	return sb_period_holds(&day->span, at_ms, sb_job_offset_min(day->job, act, at_ms));
}

/* ---- who, how much ---- */

/* The crew of the shift that ran into the day, and those that began on it. */
static void put_crews(struct report *r, const struct day *day)
{
	const struct act *before = NULL;
	bool any = false;

	for (size_t i = 0; i < day->job->act_count; i++) {
		const struct act *a = &day->job->acts[i];
		bool here = sb_period_holds(&day->span, a->at_ms, a->offset_min);
		if (sb_period_day(a->at_ms, a->offset_min) < day->span.day && a->kind == ACT_SHIFT_BEGIN)
			before = a;
		if (sb_period_day(a->at_ms, a->offset_min) < day->span.day && a->kind == ACT_SHIFT_END)
			before = NULL;
		if (here && a->kind == ACT_SHIFT_BEGIN) {
			if (before)
				sb_document_pair(
					r->d, any ? "" : "crews", "%s (from the day before)", before->text);
			any = any || before != NULL;
			before = NULL;
			sb_document_pair(r->d, any ? "" : "crews", "%s", a->text);
			any = true;
		}
	}
	if (before)
		sb_document_pair(r->d, any ? "" : "crews", "%s (from the day before)", before->text);
	else if (!any)
		sb_document_pair(r->d, "crews", "no shift was begun");
}

static void put_hours(struct report *r, const struct day *day)
{
	const struct period *p = &day->period;
	char whole[SB_TIMELINE_TEXT], drill[SB_TIMELINE_TEXT], stop[SB_TIMELINE_TEXT], rest[SB_TIMELINE_TEXT];

	if (p->joints == 0)
		return;
	if (!p->timed) {
		sb_document_pair(r->d, "hours", "not known: times were not logged with every joint");
		return;
	}
	sb_timeline_minutes(p->minutes, whole);
	sb_timeline_minutes(p->drill_min, drill);
	sb_timeline_minutes(p->stop_min, stop);
	sb_timeline_minutes(p->minutes - p->drill_min - p->stop_min, rest);
	sb_document_pair(r->d, "hours",
		"%s from the start of the first joint to the end of the last: drilling %s, stops %s, between joints %s",
		whole, drill, stop, rest);
	if (p->minutes > 0)
		sb_document_pair(r->d, "rate", "%.1f %s an hour, stops included", p->length / p->minutes * 60,
			r->unit);
}

static void put_progress(struct report *r, const struct day *day)
{
	const struct period *p = &day->period;
	double left = report_typed(r, day->left_m), joint = day->job->joint_length.value;

	report_heading(r, "Progress");
	if (p->joints == 0)
		sb_document_pair(r->d, "this day", "no joint was drilled");
	else
		sb_document_pair(r->d, "this day", "%zu joint%s, %.2f %s (joints %d to %d)", p->joints,
			p->joints == 1 ? "" : "s", p->length, r->unit, p->first, p->last);
	if (p->withdrawn)
		sb_document_pair(r->d, "of them withdrawn", "%zu, by now", p->withdrawn);
	sb_document_pair(r->d, "to date",
		"%.2f %s in %zu joints in the ground; %.2f %s in %zu drilled in all", day->in_ground_length,
		r->unit, day->in_ground, day->drilled_length, r->unit, day->drilled);
	if (day->left_known && left > 0 && joint > 0)
		sb_document_pair(r->d, "remaining", "%.1f %s of station to the exit, about %.0f joints", left,
			r->unit, ceil(left / joint));
	else if (day->left_known)
		sb_document_pair(r->d, "remaining", "nothing: the exit is reached");
	put_hours(r, day);
	if (day->last) {
		struct sb_str words = { 0 };
		sb_timeline_out_words(&day->out, &words);
		sb_document_pair(r->d, "pilot out", "%s", sb_str_get(&words));
		sb_str_clear(&words);
		sb_timeline_out_method(day->job, &day->timeline, &day->out, &words);
		sb_document_pair(r->d, "how found", "%s", sb_str_get(&words));
		sb_str_clear(&words);
	}
}

/* ---- where, how far off, how tight ---- */

static void put_place(struct report *r, const char *key, const struct row *row)
{
	char station[REPORT_WORDS], offset[REPORT_WORDS], height[REPORT_WORDS];

	if (row == NULL)
		return;
	if (!row->on_path) {
		sb_document_pair(r->d, key, "joint %d: no position was read there", row->joint);
		return;
	}
	sb_document_pair(r->d, key, "%s%.0d: station %s, offset %s, height %s, elevation %.2f",
		row->joint ? "joint " : "the entry", row->joint,
		report_station(r, row->deviation.station_m, station),
		report_side(r, row->deviation.offset_m, "right", "left", offset),
		report_side(r, row->deviation.height_m, "high", "low", height), report_typed(r, row->at.u));
}

static void put_far(struct report *r, const char *key, const struct row *row, double metres)
{
	if (row) {
		char station[REPORT_WORDS];
		sb_document_pair(r->d, key, "%.2f %s at joint %d, station %s", report_typed(r, metres),
			r->unit, row->joint, report_station(r, row->deviation.station_m, station));
	}
}

static void put_tight(
	struct report *r, const char *key, const struct row *row, double radius_m, const struct number *limit)
{
	char station[REPORT_WORDS], radius[REPORT_WORDS];

	if (row == NULL)
		return;
	sb_document_pair(r->d, key, "%s %s at joint %d, station %s (%s%s)",
		report_radius(r, radius_m, radius), r->unit, row->joint,
		report_station(r, row->deviation.station_m, station),
		sb_number_given(limit) ? "at least " : "no limit is set", limit->text);
}

static void put_position(struct report *r, const struct day *day)
{
	const struct period *p = &day->period;

	report_heading(r, "Position and bend");
	if (p->end == NULL) {
		sb_document_paragraph(r->d, "No joint of this day is in the ground.");
		return;
	}
	put_place(r, "start of the day", p->start);
	put_place(r, "end of the day", p->end);
	put_far(r, "farthest right", p->right, p->right ? p->right->deviation.offset_m : 0);
	put_far(r, "farthest left", p->left, p->left ? -p->left->deviation.offset_m : 0);
	put_far(r, "farthest high", p->high, p->high ? p->high->deviation.height_m : 0);
	put_far(r, "farthest low", p->low, p->low ? -p->low->deviation.height_m : 0);
	if (p->farthest && isfinite(p->farthest->use.limit_m))
		sb_document_pair(r->d, "corridor", "%.0f %% used at joint %d",
			fmin(p->farthest->use.share, 9.99) * 100, p->farthest->joint);
	put_tight(r, "tightest window", p->tightest, p->tightest ? p->tightest->window.radius_m : 0,
		&day->job->window_minimum);
	put_tight(r, "tightest joint", p->tightest_joint, p->tightest_joint ? p->tightest_joint->radius_m : 0,
		&day->job->joint_minimum);
}

/* ---- the rig ---- */

static void put_range(struct report *r, const char *name, const struct range *range)
{
	const struct row_field *f = sb_row_field(name);

	const char *unit = sb_row_field_unit(f, r->job->unit);

	if (!range->known)
		sb_document_pair(r->d, f->label, "not logged");
	else if (range->low < range->high)
		sb_document_pair(r->d, f->label, "%.10g to %.10g %s", range->low, range->high, unit);
	else
		sb_document_pair(r->d, f->label, "%.10g %s", range->low, unit);
}

static void put_rig(struct report *r, const struct day *day)
{
	const struct period *p = &day->period;

	report_heading(r, "Rig and returns");
	put_range(r, "thrust", &p->thrust);
	put_range(r, "torque", &p->torque);
	put_range(r, "flow", &p->flow);
	put_range(r, "standpipe", &p->standpipe);
	put_range(r, "annular", &p->annular);
	if (p->returns == RETURNS_UNSAID)
		sb_document_pair(r->d, "returns", "not logged");
	else if (p->returns_joint)
		sb_document_pair(r->d, "returns",
			"%s at the end; less than full last at joint %d, at worst %s",
			sb_returns_name(p->returns), p->returns_joint, sb_returns_name(p->worst_returns));
	else
		sb_document_pair(r->d, "returns", "%s", sb_returns_name(p->returns));
}

/* ---- joints ---- */

static void put_joint(struct report *r, const struct joint_time *j)
{
	const struct reading *at = j->reading;
	const struct row *row =
		j->in_ground && (size_t)at->joint < r->s->path.count ? &r->s->path.rows[at->joint] : NULL;
	bool placed = row && row->on_path;
	char text[REPORT_WORDS];

	sb_document_cell(r->d, at->leg > 1 ? "%d/%d" : "%d", at->joint, at->leg);
	sb_document_cell(r->d, "%s", at->started);
	sb_document_cell(r->d, "%s", at->ended);
	sb_document_cell(r->d, "%s", at->joint_length.text);
	sb_document_cell(r->d, "%s", placed ? report_station(r, row->deviation.station_m, text) : "");
	sb_document_cell(
		r->d, "%s", placed ? report_side(r, row->deviation.offset_m, "right", "left", text) : "");
	sb_document_cell(
		r->d, "%s", placed ? report_side(r, row->deviation.height_m, "high", "low", text) : "");
	sb_document_cell(
		r->d, "%s", placed && row->window.joints ? report_radius(r, row->window.radius_m, text) : "");
	sb_document_cell(r->d, "%s", j->in_ground ? sb_returns_name(at->returns) : "withdrawn");
}

static void put_joints(struct report *r, const struct day *day)
{
	static const struct table_column columns[] = { { "joint", TABLE_FIGURES }, { "begun", TABLE_FIGURES },
		{ "ended", TABLE_FIGURES }, { "length", TABLE_FIGURES }, { "station", TABLE_FIGURES },
		{ "offset", TABLE_FIGURES }, { "height", TABLE_FIGURES }, { "window radius", TABLE_FIGURES },
		{ "returns", TABLE_WORDS } };

	if (day->period.joints == 0)
		return;
	report_heading(r, "Joints of this day");
	sb_document_paragraph(r->d,
		"Lengths in %s; station, offset and height of the sensor at each joint's reading.",
		sb_unit_long(day->job->unit));
	sb_document_table(r->d, columns, COUNT(columns));
	for (size_t i = 0; i < day->timeline.count; i++)
		if (sb_period_holds(
			    &day->span, day->timeline.list[i].at_ms, day->timeline.list[i].offset_min))
			put_joint(r, &day->timeline.list[i]);
}

static void put_stops(struct report *r, const struct day *day)
{
	size_t first = day->timeline.count, last = 0;

	for (size_t i = 0; i < day->timeline.count; i++) {
		if (!sb_period_holds(
			    &day->span, day->timeline.list[i].at_ms, day->timeline.list[i].offset_min))
			continue;
		first = i < first ? i : first;
		last = i + 1;
	}
	report_heading(r, "Stops");
	if (!sb_timeline_stops(r->d, day->job, &day->timeline, first + 1, last))
		sb_document_paragraph(r->d,
			day->period.timed ? "None longer than usual between joints of this day."
					  : "Not known, or none longer than usual.");
}

/* ---- fixes, limits, decisions ---- */

static void put_fixes(struct report *r, const struct day *day)
{
	struct sb_str words = { 0 };
	bool any = false;

	report_heading(r, "Independent fixes");
	for (size_t i = 0; i < r->s->fixes.count; i++) {
		const struct fix_view *v = &r->s->fixes.list[i];
		const struct fix *f = sb_job_fix(day->job, v->fix);
		if (!holds(day, f->fact.act, f->fact.at_ms))
			continue;
		words.length = 0;
		sb_fixes_say(&r->setup, &r->s->fixes, v, &words);
		sb_document_pair(r->d, any ? "" : "fixes", "%s (%s)", sb_str_get(&words), f->fact.who);
		any = true;
	}
	if (!any)
		sb_document_paragraph(r->d, "None was taken on this day.");
	sb_str_clear(&words);
}

/* When the joint was logged with which the breach began. */
static bool began_here(const struct day *day, const struct nonconformance *n)
{
	for (size_t i = 0; i < day->timeline.count; i++) {
		const struct joint_time *j = &day->timeline.list[i];
		if (j->reading->leg == n->warning->leg && j->reading->joint == n->warning->joint)
			return sb_period_holds(&day->span, j->at_ms, j->offset_min);
	}
	return false;
}

static void put_nonconformances(struct report *r, const struct day *day)
{
	static const struct table_column columns[] = { { "no.", TABLE_FIGURES }, { "what", TABLE_WORDS },
		{ "what came of it", TABLE_WORDS } };
	struct nonconformance *list;
	size_t count = sb_nonconformances(day->job, r->s, &list), put = 0;
	struct sb_str state = { 0 };

	report_heading(r, "Non-conformances that began on this day");
	for (size_t i = 0; i < count; i++) {
		if (!began_here(day, &list[i]))
			continue;
		if (put++ == 0)
			sb_document_table(r->d, columns, COUNT(columns));
		state.length = 0;
		sb_nonconformance_say(&list[i], &state);
		sb_document_cell(r->d, "%d", list[i].number);
		sb_document_cell(r->d, "%s", list[i].warning->text);
		sb_document_cell(r->d, "%s", sb_str_get(&state));
	}
	if (put == 0)
		sb_document_paragraph(r->d, "None.");
	sb_str_clear(&state);
	sb_free(list);
}

static void put_acts(struct report *r, const struct day *day)
{
	static const struct table_column columns[] = { { "time", TABLE_WORDS }, { "by", TABLE_WORDS },
		{ "what", TABLE_WORDS }, { "joint", TABLE_FIGURES }, { "words", TABLE_WORDS } };
	char time[SB_TIME_TEXT];
	size_t put = 0;

	report_heading(r, "Corrections, redrills, decisions and notes");
	for (size_t i = 0; i < day->job->act_count; i++) {
		const struct act *a = &day->job->acts[i];
		if (!sb_history_is(a, HISTORY_DECISIONS) || a->kind == ACT_NEW ||
			!sb_period_holds(&day->span, a->at_ms, a->offset_min))
			continue;
		if (put++ == 0)
			sb_document_table(r->d, columns, COUNT(columns));
		sb_time_short(a->at_ms, a->offset_min, time);
		sb_document_cell(r->d, "%s", time);
		sb_document_cell(r->d, "%s", a->who);
		sb_document_cell(r->d, "%s", sb_history_word(a->kind));
		sb_document_cell(r->d, "%d", a->joint);
		sb_document_cell(r->d, "%s", a->text);
	}
	if (put == 0)
		sb_document_paragraph(r->d, "None.");
}

static void put_end(struct report *r)
{
	report_heading(r, "What this report rests on, and who signs it");
	sb_document_pair(r->d, "job file", "%s", r->about->file);
	sb_document_pair(r->d, "its digest", "%s", r->about->head);
	sb_document_pair(r->d, "made by", "%s", r->about->who);
	sb_document_paragraph(r->d, "%s", sb_caution);
	sb_document_sign(r->d, "contractor");
	sb_document_sign(r->d, "inspector");
}

static void begin(const struct day *day, const struct about *about, struct document *out)
{
	char title[SB_NAME_TEXT + 64], running[2 * SB_NAME_TEXT + 64];

	snprintf(title, sizeof title, "Daily report: %s, %s", day->job->name, day->date);
	snprintf(running, sizeof running, "%s%s%s, pilot bore, daily report of %s", day->job->name,
		*day->job->owner ? ", " : "", day->job->owner, day->date);
	sb_document_begin(out,
		&(struct document_head){ .title = title,
			.running = running,
			.mark = sb_about_mark(day->job),
			.author = about->who,
			.program = about->program,
			.at_ms = about->at_ms,
			.letter = day->job->unit != UNIT_M });
}

void sb_day_document(const struct day *day, const struct about *about, struct document *out)
{
	struct report r = { .job = day->job,
		.s = day->s,
		.about = about,
		.d = out,
		.setup = sb_solution_setup(day->job, day->s),
		.unit = sb_unit_short(day->job->unit) };

	begin(day, about, out);
	sb_document_pair(out, "crossing", "%s", day->job->name);
	sb_document_pair(out, "owner", "%s", day->job->owner);
	sb_document_pair(out, "contractor", "%s", day->job->contractor);
	put_crews(&r, day);
	put_progress(&r, day);
	put_position(&r, day);
	put_rig(&r, day);
	day_after_document(&r, day);
	put_fixes(&r, day);
	put_nonconformances(&r, day);
	put_acts(&r, day);
	put_stops(&r, day);
	put_joints(&r, day);
	put_end(&r);
}
