/* What went on in the hole after the pilot on one day: joints that passes went through, what the drilling
 * fluid did, joints and records of the pipe string, the pull. An entry belongs to the day on which it was
 * entered.
 */
#include "base/str.h"
#include "io/fluid.h"
#include "io/opening.h"
#include "model/fact.h"
#include "model/pullback.h"

#include <math.h>
#include <stdio.h>

#include "day_parts.h"

static bool here(const struct day *day, const struct fact *f)
{
	return sb_period_holds(&day->span, f->at_ms, sb_job_offset_min(day->job, f->act, f->at_ms));
}

static void widen(struct range *r, const struct number *n)
{
	if (!sb_number_given(n))
		return;
	*r = (struct range){ .known = true,
		.low = r->known ? fmin(r->low, n->value) : n->value,
		.high = r->known ? fmax(r->high, n->value) : n->value };
}

/* ---- gathering ---- */

/* Joints of a pass, or of the pull, on the day. */
struct day_joints {
	int joints, first, last; /* as they were gone through */
	double metres;
	struct range ranges[OPENING_VALUES]; /* of the pull: force, torque, flow, none, annular */
	int timed;
	double minutes;
};

static void count_joint(struct day_joints *d, int joint, double metres, double minutes)
{
	if (d->joints++ == 0)
		d->first = joint;
	d->last = joint;
	d->metres += metres;
	if (!isnan(minutes)) {
		d->timed++;
		d->minutes += minutes;
	}
}

static struct day_joints joints_of_pass(const struct day *day, const struct opening *o, size_t pass)
{
	struct day_joints d = { .joints = 0 };

	for (size_t i = 0; i < o->joint_count; i++) {
		const struct opening_joint *j = &o->joints[i];
		if (j->pass != pass || !here(day, &j->entry->fact))
			continue;
		count_joint(&d, j->entry->joint, j->length_m, j->minutes.whole_min);
		for (int k = 0; k < OPENING_VALUES; k++)
			widen(&d.ranges[k], sb_opening_value(j->entry, (enum opening_value)k));
	}
	return d;
}

static struct day_joints joints_of_pull(const struct day *day, const struct pullback *p)
{
	struct day_joints d = { .joints = 0 };

	for (size_t i = 0; i < p->count; i++) {
		const struct pull_joint *j = p->list[i].entry;
		if (!here(day, &j->fact))
			continue;
		count_joint(&d, j->joint, p->list[i].length_m, p->list[i].minutes.whole_min);
		widen(&d.ranges[OPENING_PULL], &j->force);
		widen(&d.ranges[OPENING_TORQUE], &j->torque);
		widen(&d.ranges[OPENING_FLOW], &j->flow);
		widen(&d.ranges[OPENING_ANNULAR], &j->annular);
	}
	return d;
}

struct day_string {
	int joints, records, bad;
	double metres;
};

static struct day_string string_of(const struct day *day)
{
	struct day_string d = { .joints = 0 };

	for (size_t i = 0; i < day->job->pipe_count; i++) {
		const struct pipe *p = &day->job->pipes[i];
		if (p->struck || !here(day, &p->fact))
			continue;
		d.joints++;
		d.metres += p->length.value * sb_unit_metres(day->job->unit);
	}
	for (size_t i = 0; i < day->job->pipe_record_count; i++) {
		const struct pipe_record *record = &day->job->pipe_records[i];
		if (record->struck || !here(day, &record->fact))
			continue;
		d.records++;
		d.bad += record->outcome == OUTCOME_BAD;
	}
	return d;
}

/* ---- for people ---- */

/* "68 joints (68 to 1), 2123.1 ft, 35 min a joint; pull 9300 to 17500 lbf, torque ..." */
static void say_joints(struct report *r, const struct day_joints *d, bool pull, struct sb_str *out)
{
	static const char *const names[OPENING_VALUES] = { "pull", "torque", "flow", "pump", "annular" };

	sb_str_add(out, "%d joint%s", d->joints, d->joints == 1 ? "" : "s");
	sb_str_add(out, d->joints == 1 ? " (%d)" : " (%d to %d)", d->first, d->last);
	sb_str_add(out, ", %.1f %s", d->metres / sb_unit_metres(r->job->unit), r->unit);
	if (d->timed)
		sb_str_add(out, ", %.0f min a joint", d->minutes / d->timed);
	for (int k = 0; k < OPENING_VALUES; k++) {
		const struct range *range = &d->ranges[k];
		if (!range->known)
			continue;
		sb_str_add(out, "; %s %.10g", pull && k == OPENING_PULL ? "force" : names[k], range->low);
		if (range->low < range->high)
			sb_str_add(out, " to %.10g", range->high);
		sb_str_add(out, " %s", sb_opening_value_unit(r->job, (enum opening_value)k));
	}
}

static void put_passes_and_pull(struct report *r, const struct day *day)
{
	struct pull_bands none = { 0 };
	struct opening o;
	struct pullback p;
	bool begun = false;

	sb_opening_take(day->job, &o);
	sb_pullback_take(day->job, &none, &p);
	for (size_t i = 0; i <= o.count; i++) {
		struct day_joints d = i < o.count ? joints_of_pass(day, &o, i) : joints_of_pull(day, &p);
		struct sb_str words = { 0 };
		char key[32] = "pull";
		if (d.joints == 0)
			continue;
		if (!begun)
			report_heading(r, "Passes and pull of this day");
		begun = true;
		if (i < o.count) {
			char what[SB_OPENING_WHAT];
			snprintf(key, sizeof key, "pass %d", o.list[i].number);
			sb_opening_what_pass(day->job, o.list[i].pass, what);
			sb_str_add(&words, "%s: ", what);
		}
		say_joints(r, &d, i == o.count, &words);
		sb_document_pair(r->d, key, "%s", sb_str_get(&words));
		sb_str_clear(&words);
	}
	sb_opening_clear(&o);
	sb_pullback_clear(&p);
}

static void put_fluid(struct report *r, const struct day *day)
{
	char what[SB_FLUID_WHAT], time[SB_TIME_TEXT];
	bool begun = false;

	for (size_t i = 0; i < day->job->fluid_event_count; i++) {
		const struct fluid_event *e = &day->job->fluid_events[i];
		if (!here(day, &e->fact))
			continue;
		if (!begun)
			report_heading(r, "What the drilling fluid did on this day");
		begun = true;
		sb_fluid_what(day->job, e, what);
		sb_time_short(e->fact.at_ms, sb_job_offset_min(day->job, e->fact.act, e->fact.at_ms), time);
		sb_document_pair(r->d, time, "%s%s (%s)", e->struck ? "struck out: " : "", what, e->fact.who);
	}
}

static void put_string(struct report *r, const struct day *day)
{
	struct day_string d = string_of(day);

	if (d.joints == 0 && d.records == 0)
		return;
	report_heading(r, "Pipe string on this day");
	sb_document_pair(r->d, "laid out", "%d joint%s, %.1f %s", d.joints, d.joints == 1 ? "" : "s",
		d.metres / sb_unit_metres(day->job->unit), r->unit);
	sb_document_pair(r->d, "records", "%d of welds, inspections, coating and tests; %d of them bad",
		d.records, d.bad);
}

void day_after_document(struct report *r, const struct day *day)
{
	put_passes_and_pull(r, day);
	put_fluid(r, day);
	put_string(r, day);
}

/* ---- for scripts ---- */

static void put_joints_json(struct sb_json *j, const struct job *job, const struct day_joints *d,
	const char *const names[OPENING_VALUES])
{
	sb_json_whole(j, "joints", d->joints);
	sb_json_whole(j, "first", d->first);
	sb_json_whole(j, "last", d->last);
	sb_json_fixed(j, "length", d->metres / sb_unit_metres(job->unit), 6);
	for (int k = 0; k < OPENING_VALUES; k++) {
		if (names[k] && d->ranges[k].known) {
			sb_json_object(j, names[k]);
			sb_json_exact(j, "low", d->ranges[k].low);
			sb_json_exact(j, "high", d->ranges[k].high);
			sb_json_text(j, "unit", sb_opening_value_unit(job, (enum opening_value)k));
			sb_json_end(j);
		} else if (names[k]) {
			sb_json_null(j, names[k]);
		}
	}
	sb_json_fixed(j, "minutes_a_joint", d->timed ? d->minutes / d->timed : (double)NAN, 3);
}

static void put_passes_json(struct sb_json *j, const struct day *day)
{
	static const char *const names[OPENING_VALUES] = { "pull", "torque", "flow", "pressure", "annular" };
	struct opening o;

	sb_opening_take(day->job, &o);
	sb_json_array(j, "passes");
	for (size_t i = 0; i < o.count; i++) {
		struct day_joints d = joints_of_pass(day, &o, i);
		if (d.joints == 0)
			continue;
		sb_json_object(j, NULL);
		sb_json_whole(j, "pass", o.list[i].number);
		sb_json_text(j, "kind", sb_pass_kind_name(o.list[i].pass->kind));
		sb_json_typed(j, "diameter", &o.list[i].pass->diameter);
		put_joints_json(j, day->job, &d, names);
		sb_json_end(j);
	}
	sb_json_end(j);
	sb_opening_clear(&o);
}

static void put_pull_json(struct sb_json *j, const struct day *day)
{
	static const char *const names[OPENING_VALUES] = { "force", "torque", "flow", NULL, "annular" };
	struct pull_bands none = { 0 };
	struct pullback p;

	sb_pullback_take(day->job, &none, &p);
	struct day_joints d = joints_of_pull(day, &p);
	if (d.joints) {
		sb_json_object(j, "pull");
		put_joints_json(j, day->job, &d, names);
		sb_json_end(j);
	} else {
		sb_json_null(j, "pull");
	}
	sb_pullback_clear(&p);
}

static void put_fluid_json(struct sb_json *j, const struct day *day)
{
	char what[SB_FLUID_WHAT];

	sb_json_array(j, "fluid");
	for (size_t i = 0; i < day->job->fluid_event_count; i++) {
		const struct fluid_event *e = &day->job->fluid_events[i];
		if (!here(day, &e->fact))
			continue;
		sb_fluid_what(day->job, e, what);
		sb_json_object(j, NULL);
		sb_json_whole(j, "entry", e->fact.act);
		sb_json_text(j, "kind", sb_fluid_event_name(e->kind));
		sb_json_text(j, "text", what);
		sb_json_bool(j, "struck", e->struck);
		sb_json_text(j, "who", e->fact.who);
		sb_json_end(j);
	}
	sb_json_end(j);
}

void day_after_json(struct sb_json *j, const struct day *day)
{
	struct day_string d = string_of(day);

	put_passes_json(j, day);
	put_fluid_json(j, day);
	sb_json_object(j, "string");
	sb_json_whole(j, "joints", d.joints);
	sb_json_fixed(j, "length", d.metres / sb_unit_metres(day->job->unit), 6);
	sb_json_whole(j, "records", d.records);
	sb_json_whole(j, "bad", d.bad);
	sb_json_end(j);
	put_pull_json(j, day);
}
