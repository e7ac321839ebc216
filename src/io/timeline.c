/* One walk over the timeline for text, one for JSON; words for the forecast that pages and screens share. */
#include "io/timeline.h"

#include "base/time.h"
#include "io/about.h"
#include "io/json.h"

#include <math.h>
#include <stdio.h>

void sb_timeline_minutes(double minutes, char text[SB_TIMELINE_TEXT])
{
	double whole = round(minutes);

	if (isnan(minutes))
		snprintf(text, SB_TIMELINE_TEXT, "not known");
	else if (whole < 120)
		snprintf(text, SB_TIMELINE_TEXT, "%.0f min", whole);
	else
		snprintf(text, SB_TIMELINE_TEXT, "%.0f h %.0f min", floor(whole / 60), fmod(whole, 60));
}

void sb_timeline_moment(int64_t ms, char text[SB_TIMELINE_TEXT])
{
	char day[SB_TIME_TEXT], clock[SB_TIME_TEXT];
	int offset = sb_time_offset(ms);

	sb_time_day(ms + (int64_t)offset * 60000, day);
	sb_time_short(ms, offset, clock);
	snprintf(text, SB_TIMELINE_TEXT, "%.10s %.5s", day, clock);
}

/* ---- the forecast ---- */

void sb_timeline_out_words(const struct pilot_out *o, struct sb_str *out)
{
	char best[SB_TIMELINE_TEXT], likely[SB_TIMELINE_TEXT];

	if (o->reached) {
		sb_str_add(out, "the exit is reached");
	} else if (!o->known) {
		sb_str_add(out, "not known: fewer than %d joints were timed", SB_TIMELINE_LEAST);
	} else {
		sb_timeline_moment(o->best_ms, best);
		sb_timeline_moment(o->likely_ms, likely);
		sb_str_add(out, "best %s, likely %s", best, likely);
	}
}

void sb_timeline_out_method(
	const struct job *job, const struct timeline *t, const struct pilot_out *o, struct sb_str *out)
{
	char from[SB_TIMELINE_TEXT];

	if (!o->known)
		return;
	sb_timeline_moment(o->from_ms, from);
	sb_str_add(out,
		"%d joints of %s %s are left, from %s on. Best: %.0f min each, as the middle joint without a stop. Likely: "
		"%.0f min each, as the mean of %zu joints with their stops",
		o->joints_left, job->joint_length.text, sb_unit_short(job->unit), from, o->best_joint_min,
		o->likely_joint_min, t->timed);
	if (t->in_ground < t->count)
		sb_str_add(out, ", %zu drilled for %zu in the ground", t->count, t->in_ground);
	sb_str_add(out, ".");
}

/* ---- text ---- */

static void put_minutes(struct document *d, double minutes)
{
	if (isnan(minutes))
		sb_document_cell(d, "%s", "");
	else
		sb_document_cell(d, "%.0f", minutes);
}

static double rate(const struct joint_time *j)
{
	return j->whole_min > 0 ? j->reading->joint_length.value / j->whole_min * 60 : (double)NAN;
}

static void put_joint(struct document *d, const struct joint_time *j)
{
	const struct reading *r = j->reading;
	char clock[SB_TIME_TEXT] = "";

	sb_document_cell(d, r->leg > 1 ? "%d/%d" : "%d", r->joint, r->leg);
	if (j->source == TIME_LOGGED)
		sb_time_short(j->at_ms, j->offset_min, clock);
	sb_document_cell(d, "%s", r->started);
	sb_document_cell(d, "%s", r->ended[0] ? r->ended : clock);
	put_minutes(d, j->wait_min);
	put_minutes(d, j->drill_min);
	put_minutes(d, j->whole_min);
	if (isnan(rate(j)))
		sb_document_cell(d, "%s", "");
	else
		sb_document_cell(d, "%.1f", rate(j));
	sb_document_cell(d, "%s%s%s", j->stop_min > 0 ? "stop" : "",
		j->stop_min > 0 && !j->in_ground ? ", " : "", j->in_ground ? "" : "withdrawn");
}

static void put_joints(struct document *d, const struct timeline *t)
{
	static const struct table_column columns[] = { { "joint", TABLE_FIGURES }, { "begun", TABLE_FIGURES },
		{ "ended", TABLE_FIGURES }, { "waited min", TABLE_FIGURES }, { "drilled min", TABLE_FIGURES },
		{ "whole min", TABLE_FIGURES }, { "per hour", TABLE_FIGURES }, { "marks", TABLE_WORDS } };

	sb_document_heading(d, "Joints");
	if (t->count == 0)
		sb_document_paragraph(d, "No joint was drilled yet.");
	sb_document_table(d, columns, sizeof columns / sizeof *columns);
	for (size_t i = 0; i < t->count; i++)
		put_joint(d, &t->list[i]);
}

bool sb_timeline_stops(
	struct document *d, const struct job *job, const struct timeline *t, size_t first, size_t last)
{
	static const struct table_column columns[] = { { "before joint", TABLE_FIGURES },
		{ "how long", TABLE_FIGURES }, { "what the log says of it", TABLE_WORDS } };
	struct sb_str why = { 0 };
	char minutes[SB_TIMELINE_TEXT];
	bool any = false;

	for (size_t i = first; i < last && i < t->count; i++) {
		if (!(t->list[i].stop_min > 0))
			continue;
		if (!any)
			sb_document_table(d, columns, sizeof columns / sizeof *columns);
		any = true;
		why.length = 0;
		sb_timeline_why(job, t, i, &why);
		sb_timeline_minutes(t->list[i].stop_min, minutes);
		sb_document_cell(d, "%d", t->list[i].reading->joint);
		sb_document_cell(d, "%s", minutes);
		sb_document_cell(d, "%s", why.length ? sb_str_get(&why) : "nothing was noted");
	}
	sb_str_clear(&why);
	return any;
}

static void put_pace(struct document *d, const struct job *job, const struct timeline *t)
{
	char whole[SB_TIMELINE_TEXT], stops[SB_TIMELINE_TEXT], usual[SB_TIMELINE_TEXT];

	sb_timeline_minutes(t->whole_min, whole);
	sb_timeline_minutes(t->stop_min, stops);
	sb_timeline_minutes(t->middle_min, usual);
	sb_document_pair(
		d, "joints", "%zu drilled, %zu in the ground, %zu timed", t->count, t->in_ground, t->timed);
	if (t->timed == 0)
		return;
	sb_document_pair(d, "time", "%s in all, %s of it in %zu stop%s", whole, stops, t->stops,
		t->stops == 1 ? "" : "s");
	sb_document_pair(
		d, "usual joint", "%s from the end of the one before to its own, without a stop", usual);
	if (!isnan(t->usual_wait_min))
		sb_document_pair(d, "a stop", "a wait longer than %.0f min", t->usual_wait_min);
	else
		sb_document_pair(d, "a stop", "a joint that took far longer than the middle one of %s",
			*job->name ? job->name : "this bore");
}

static void put_forecast(
	struct document *d, const struct job *job, const struct timeline *t, const struct pilot_out *o)
{
	struct sb_str words = { 0 }, method = { 0 };

	sb_timeline_out_words(o, &words);
	sb_timeline_out_method(job, t, o, &method);
	sb_document_pair(d, "pilot out", "%s", sb_str_get(&words));
	sb_document_pair(d, "how found", "%s", sb_str_get(&method));
	sb_str_clear(&words);
	sb_str_clear(&method);
}

void sb_timeline_text(const struct job *job, const struct solution *s, int64_t now_ms, struct sb_str *out)
{
	struct document d;
	struct timeline t;
	char title[SB_NAME_TEXT + 16];

	sb_timeline_take(job, &t);
	struct pilot_out o = sb_timeline_out(job, s, &t, now_ms);
	snprintf(title, sizeof title, "Timeline: %s", job->name);
	sb_document_begin(&d, &(struct document_head){ .title = title, .mark = sb_about_mark(job) });
	put_pace(&d, job, &t);
	put_forecast(&d, job, &t, &o);
	if (t.stops > 0)
		sb_document_heading(&d, "Stops");
	sb_timeline_stops(&d, job, &t, 0, t.count);
	put_joints(&d, &t);
	sb_document_text(&d, out);
	sb_document_clear(&d);
	sb_timeline_clear(&t);
}

/* ---- JSON ---- */

static void json_minutes(struct sb_json *j, const char *name, double minutes)
{
	sb_json_fixed(j, name, minutes, 3);
}

static void json_time(struct sb_json *j, const char *name, bool known, int64_t ms)
{
	char text[SB_TIME_TEXT] = "";

	if (known)
		sb_time_iso(ms, text);
	sb_json_text_or_null(j, name, text);
}

static void json_joint(struct sb_json *j, const struct job *job, const struct timeline *t, size_t i)
{
	static const char *const sources[] = { "", "typed", "logged" };
	const struct joint_time *at = &t->list[i];
	struct sb_str why = { 0 };

	sb_json_object(j, NULL);
	sb_json_whole(j, "joint", at->reading->joint);
	sb_json_whole(j, "leg", at->reading->leg);
	sb_json_bool(j, "in_ground", at->in_ground);
	json_time(j, "logged_at", true, at->at_ms);
	sb_json_text_or_null(j, "started", at->reading->started);
	sb_json_text_or_null(j, "ended", at->reading->ended);
	sb_json_typed(j, "length", &at->reading->joint_length);
	sb_json_text_or_null(j, "source", sources[at->source]);
	json_minutes(j, "wait_min", at->wait_min);
	json_minutes(j, "drill_min", at->drill_min);
	json_minutes(j, "whole_min", at->whole_min);
	sb_json_fixed(j, "per_hour", rate(at), 3);
	json_minutes(j, "stop_min", at->stop_min);
	if (at->stop_min > 0)
		sb_timeline_why(job, t, i, &why);
	sb_json_text_or_null(j, "why", sb_str_get(&why));
	sb_json_end(j);
	sb_str_clear(&why);
}

static void json_forecast(struct sb_json *j, const struct solution *s, const struct pilot_out *o)
{
	double unknown = (double)NAN;

	sb_json_object(j, "forecast");
	sb_json_bool(j, "known", o->known);
	sb_json_bool(j, "reached", o->reached);
	sb_json_fixed(j, "length_left", sb_frame_typed(&s->frame, o->length_left_m), 3);
	sb_json_whole(j, "joints_left", o->joints_left);
	json_time(j, "from", true, o->from_ms);
	json_minutes(j, "best_joint_min", o->known ? o->best_joint_min : unknown);
	json_minutes(j, "likely_joint_min", o->known ? o->likely_joint_min : unknown);
	json_minutes(j, "best_min", o->known ? o->best_min : unknown);
	json_minutes(j, "likely_min", o->known ? o->likely_min : unknown);
	json_time(j, "best", o->known, o->best_ms);
	json_time(j, "likely", o->known, o->likely_ms);
	sb_json_end(j);
}

void sb_timeline_json(const struct job *job, const struct solution *s, int64_t now_ms, struct sb_str *out)
{
	struct sb_json j = { .text = *out };
	struct timeline t;

	sb_timeline_take(job, &t);
	struct pilot_out o = sb_timeline_out(job, s, &t, now_ms);
	sb_json_object(&j, NULL);
	sb_json_text(&j, "unit", sb_unit_name(job->unit));
	sb_json_text_or_null(&j, "rehearsal", job->rehearsal);
	sb_json_array(&j, "joints");
	for (size_t i = 0; i < t.count; i++)
		json_joint(&j, job, &t, i);
	sb_json_end(&j);
	json_minutes(&j, "usual_wait_min", t.usual_wait_min);
	json_minutes(&j, "middle_min", t.middle_min);
	json_minutes(&j, "whole_min", t.whole_min);
	json_minutes(&j, "stop_min", t.stop_min);
	json_forecast(&j, s, &o);
	sb_json_end(&j);
	*out = j.text;
	sb_timeline_clear(&t);
}
