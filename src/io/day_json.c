/* The day's report for scripts: the same figures, signed numbers, null for what is not known. */
#include "base/time.h"
#include "io/day.h"
#include "io/json.h"
#include "io/timeline.h"
#include "model/fact.h"
#include "model/history.h"

#include <math.h>

#include "day_parts.h"

static double typed(const struct day *day, double metres)
{
	return sb_frame_typed(&day->s->frame, metres);
}

static void put_place(struct sb_json *j, const struct day *day, const char *name, const struct row *row)
{
	if (row == NULL) {
		sb_json_null(j, name);
		return;
	}
	double unknown = (double)NAN;
	sb_json_object(j, name);
	sb_json_whole(j, "joint", row->joint);
	sb_json_fixed(j, "depth", typed(day, row->survey_md_m), 6);
	sb_json_fixed(j, "station", row->on_path ? typed(day, row->deviation.station_m) : unknown, 6);
	sb_json_fixed(j, "offset", row->on_path ? typed(day, row->deviation.offset_m) : unknown, 6);
	sb_json_fixed(j, "height", row->on_path ? typed(day, row->deviation.height_m) : unknown, 6);
	sb_json_fixed(j, "elevation", row->on_path ? typed(day, row->at.u) : unknown, 6);
	sb_json_end(j);
}

/* value: metres, of that row; limit: NULL where there is none. */
static void put_worst(struct sb_json *j, const struct day *day, const char *name, const struct row *row,
	const char *what, double metres, const struct number *limit)
{
	if (row == NULL) {
		sb_json_null(j, name);
		return;
	}
	sb_json_object(j, name);
	sb_json_fixed(j, what, typed(day, metres), 6);
	sb_json_whole(j, "joint", row->joint);
	sb_json_fixed(j, "station", typed(day, row->deviation.station_m), 6);
	if (limit)
		sb_json_typed(j, "limit", limit);
	sb_json_end(j);
}

static void put_sides(struct sb_json *j, const struct day *day)
{
	const struct period *p = &day->period;

	sb_json_object(j, "farthest");
	put_worst(j, day, "right", p->right, "value", p->right ? p->right->deviation.offset_m : 0, NULL);
	put_worst(j, day, "left", p->left, "value", p->left ? -p->left->deviation.offset_m : 0, NULL);
	put_worst(j, day, "high", p->high, "value", p->high ? p->high->deviation.height_m : 0, NULL);
	put_worst(j, day, "low", p->low, "value", p->low ? -p->low->deviation.height_m : 0, NULL);
	sb_json_end(j);
	sb_json_object(j, "tightest");
	put_worst(j, day, "joint", p->tightest_joint, "radius",
		p->tightest_joint ? p->tightest_joint->radius_m : 0, &day->job->joint_minimum);
	put_worst(j, day, "window", p->tightest, "radius", p->tightest ? p->tightest->window.radius_m : 0,
		&day->job->window_minimum);
	sb_json_end(j);
}

static void put_hours(struct sb_json *j, const struct period *p)
{
	double unknown = (double)NAN;

	sb_json_object(j, "hours");
	sb_json_bool(j, "timed", p->timed);
	sb_json_fixed(j, "minutes", p->timed ? p->minutes : unknown, 3);
	sb_json_fixed(j, "drill_min", p->timed ? p->drill_min : unknown, 3);
	sb_json_fixed(j, "stop_min", p->timed ? p->stop_min : unknown, 3);
	sb_json_fixed(j, "between_min", p->timed ? p->minutes - p->drill_min - p->stop_min : unknown, 3);
	sb_json_fixed(j, "per_hour", p->timed && p->minutes > 0 ? p->length / p->minutes * 60 : unknown, 3);
	sb_json_end(j);
}

static void put_range(struct sb_json *j, const struct day *day, const char *name, const struct range *r)
{
	if (!r->known) {
		sb_json_null(j, name);
		return;
	}
	sb_json_object(j, name);
	sb_json_exact(j, "low", r->low);
	sb_json_exact(j, "high", r->high);
	sb_json_text(j, "unit", sb_row_field_unit(sb_row_field(name), day->job->unit));
	sb_json_end(j);
}

static void put_rig(struct sb_json *j, const struct day *day)
{
	const struct period *p = &day->period;

	sb_json_object(j, "ranges");
	put_range(j, day, "thrust", &p->thrust);
	put_range(j, day, "torque", &p->torque);
	put_range(j, day, "flow", &p->flow);
	put_range(j, day, "standpipe", &p->standpipe);
	put_range(j, day, "annular", &p->annular);
	sb_json_end(j);
	sb_json_object(j, "returns");
	sb_json_text_or_null(j, "last", sb_returns_name(p->returns));
	sb_json_text_or_null(j, "worst", sb_returns_name(p->worst_returns));
	sb_json_whole(j, "joint", p->returns_joint);
	sb_json_end(j);
}

static void put_stops(struct sb_json *j, const struct day *day)
{
	bool first = true;

	sb_json_array(j, "stops");
	for (size_t i = 0; i < day->timeline.count; i++) {
		const struct joint_time *at = &day->timeline.list[i];
		if (!sb_period_holds(&day->span, at->at_ms, at->offset_min))
			continue;
		if (!first && at->stop_min > 0) {
			struct sb_str why = { 0 };
			sb_timeline_why(day->job, &day->timeline, i, &why);
			sb_json_object(j, NULL);
			sb_json_whole(j, "joint", at->reading->joint);
			sb_json_fixed(j, "minutes", at->stop_min, 3);
			sb_json_text_or_null(j, "why", sb_str_get(&why));
			sb_json_end(j);
			sb_str_clear(&why);
		}
		first = false;
	}
	sb_json_end(j);
}

static void put_fixes(struct sb_json *j, const struct day *day)
{
	sb_json_array(j, "fixes");
	for (size_t i = 0; i < day->s->fixes.count; i++) {
		const struct fix_view *v = &day->s->fixes.list[i];
		const struct fix *f = sb_job_fix(day->job, v->fix);
		const struct act *a = sb_job_act(day->job, f->fact.act);
		if (a == NULL || !sb_period_holds(&day->span, a->at_ms, a->offset_min))
			continue;
		sb_json_object(j, NULL);
		sb_json_whole(j, "fix", v->fix);
		sb_json_text(j, "kind", sb_fix_kind_name(f->kind));
		sb_json_typed(j, "depth", &f->depth);
		sb_json_text(j, "verdict", sb_fixes_verdict(v));
		sb_json_text(j, "who", f->fact.who);
		sb_json_end(j);
	}
	sb_json_end(j);
}

static void put_acts(struct sb_json *j, const struct day *day)
{
	char at[SB_TIME_TEXT];

	sb_json_array(j, "acts");
	for (size_t i = 0; i < day->job->act_count; i++) {
		const struct act *a = &day->job->acts[i];
		if (!sb_history_is(a, HISTORY_DECISIONS) || a->kind == ACT_NEW ||
			!sb_period_holds(&day->span, a->at_ms, a->offset_min))
			continue;
		sb_time_iso(a->at_ms, at);
		sb_json_object(j, NULL);
		sb_json_text(j, "kind", sb_act_name(a->kind));
		sb_json_text(j, "at", at);
		sb_json_whole(j, "joint", a->joint);
		sb_json_text(j, "who", a->who);
		sb_json_text(j, "text", a->text);
		sb_json_end(j);
	}
	sb_json_end(j);
}

static void put_left(struct sb_json *j, const struct day *day)
{
	double left = typed(day, day->left_m), joint = day->job->joint_length.value;

	sb_json_object(j, "in_ground");
	sb_json_whole(j, "joints", (long long)day->in_ground);
	sb_json_fixed(j, "length", day->in_ground_length, 6);
	sb_json_end(j);
	if (!day->left_known) {
		sb_json_null(j, "left");
		return;
	}
	sb_json_object(j, "left");
	sb_json_fixed(j, "length", fmax(left, 0), 6);
	sb_json_fixed(j, "joints", joint > 0 ? ceil(fmax(left, 0) / joint) : (double)NAN, 0);
	sb_json_end(j);
}

static void put_forecast(struct sb_json *j, const struct pilot_out *o)
{
	char best[SB_TIME_TEXT], likely[SB_TIME_TEXT];

	if (!o->known) {
		sb_json_null(j, "forecast");
		return;
	}
	sb_time_iso(o->best_ms, best);
	sb_time_iso(o->likely_ms, likely);
	sb_json_object(j, "forecast");
	sb_json_text(j, "best", best);
	sb_json_text(j, "likely", likely);
	sb_json_end(j);
}

static void put_progress(struct sb_json *j, const struct day *day)
{
	const struct period *p = &day->period;

	sb_json_whole(j, "joints", (long long)p->joints);
	sb_json_whole(j, "first", p->first);
	sb_json_whole(j, "last", p->last);
	sb_json_fixed(j, "length", p->length, 6);
	sb_json_whole(j, "withdrawn", (long long)p->withdrawn);
	sb_json_whole(j, "drilled_to_date", (long long)day->drilled);
	put_left(j, day);
	put_hours(j, p);
	put_place(j, day, "start", p->start);
	put_place(j, day, "end", p->end);
}

void sb_day_json(const struct day *day, const struct about *about, struct sb_str *out)
{
	struct sb_json j = { .text = *out };

	sb_json_object(&j, NULL);
	sb_json_text(&j, "job", day->job->name);
	sb_json_text_or_null(&j, "rehearsal", day->job->rehearsal);
	sb_json_text(&j, "date", day->date);
	sb_json_text(&j, "unit", sb_unit_name(day->job->unit));
	put_progress(&j, day);
	put_sides(&j, day);
	put_rig(&j, day);
	day_after_json(&j, day);
	put_stops(&j, day);
	put_fixes(&j, day);
	put_acts(&j, day);
	put_forecast(&j, &day->out);
	sb_json_text(&j, "file", about->file);
	sb_json_text(&j, "file_digest", about->head);
	sb_json_text(&j, "exported_by", about->who);
	sb_json_text(&j, "caution", sb_caution);
	sb_json_end(&j);
	*out = j.text;
}
