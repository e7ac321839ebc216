/* The joints' minutes (model/clock.h), and what is long among them. */
#include "model/timeline.h"

#include "base/mem.h"
#include "base/time.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define USUAL_TIMES 3
#define USUAL_LEAST 15

/* ---- when a joint was logged ---- */

static const struct reading *first_of(const struct job *job, const struct reading *r)
{
	while (r->corrects) {
		const struct reading *old = sb_job_reading(job, r->corrects);
		if (old == NULL)
			break;
		r = old;
	}
	return r;
}

static void take_logged(const struct job *job, const struct reading *r, struct joint_time *out)
{
	const struct reading *first = first_of(job, r);

	out->reading = r;
	out->at_ms = first->at_ms;
	out->offset_min = sb_job_offset_min(job, first->act, first->at_ms);
	out->in_ground = sb_job_joint(job, r->joint) == r;
}

/* ---- minutes ---- */

static struct clocked clocked(const struct joint_time *t)
{
	return (struct clocked){ t->reading->started, t->reading->ended, t->at_ms };
}

static void take_minutes(const struct joint_time *before, struct joint_time *t)
{
	struct clocked now = clocked(t), last;

	if (before)
		last = clocked(before);
	struct clock_minutes m = sb_clock_minutes(before ? &last : NULL, &now);
	t->source = m.source;
	t->wait_min = m.wait_min;
	t->drill_min = m.work_min;
	t->whole_min = m.whole_min;
}

/* ---- stops ---- */

static void find_usual(struct timeline *t, double *room)
{
	size_t count = 0;

	for (size_t i = 0; i < t->count; i++)
		if (!isnan(t->list[i].wait_min))
			room[count++] = t->list[i].wait_min;
	t->usual_wait_min = fmax(sb_clock_middle(room, count) * USUAL_TIMES, USUAL_LEAST);
	if (count == 0)
		t->usual_wait_min = (double)NAN;
}

/* Of joints whose wait is not known apart. */
static void find_long(struct timeline *t, double *room)
{
	size_t count = 0;

	for (size_t i = 0; i < t->count; i++)
		if (isnan(t->list[i].wait_min) && !isnan(t->list[i].whole_min))
			room[count++] = t->list[i].whole_min;
	double usual = sb_clock_middle(room, count);
	for (size_t i = 0; i < t->count; i++) {
		struct joint_time *j = &t->list[i];
		double over = j->whole_min - usual;
		if (isnan(j->wait_min) && over > (USUAL_TIMES - 1) * usual && over > USUAL_LEAST)
			j->stop_min = over;
	}
}

static void find_stops(struct timeline *t)
{
	double *room = sb_alloc((t->count + 1) * sizeof *room);
	size_t count = 0;

	find_usual(t, room);
	find_long(t, room);
	for (size_t i = 0; i < t->count; i++) {
		struct joint_time *j = &t->list[i];
		if (j->wait_min > t->usual_wait_min)
			j->stop_min = j->wait_min;
		if (!isnan(j->whole_min) && j->stop_min == 0)
			room[count++] = j->whole_min;
	}
	t->middle_min = sb_clock_middle(room, count);
	sb_free(room);
}

void sb_timeline_take(const struct job *job, struct timeline *out)
{
	*out = (struct timeline){ .list = sb_alloc((job->joint_count + 1) * sizeof *out->list),
		.count = job->joint_count };
	for (size_t i = 0; i < out->count; i++) {
		take_logged(job, &job->readings[job->joints[i]], &out->list[i]);
		take_minutes(i ? &out->list[i - 1] : NULL, &out->list[i]);
	}
	find_stops(out);
	for (size_t i = 0; i < out->count; i++) {
		const struct joint_time *j = &out->list[i];
		out->in_ground += j->in_ground;
		out->timed += isnan(j->whole_min) ? 0 : 1;
		out->whole_min += isnan(j->whole_min) ? 0 : j->whole_min;
		out->stops += j->stop_min > 0;
		out->stop_min += j->stop_min;
	}
}

void sb_timeline_clear(struct timeline *t)
{
	sb_free(t->list);
	*t = (struct timeline){ 0 };
}

/* ---- why ---- */

static void add_why(struct sb_str *out, const char *what, const char *words)
{
	sb_str_add(out, "%s%s%s%s", out->length ? "; " : "", what, *what && *words ? ": " : "", words);
}

static void add_act(const struct act *a, struct sb_str *out)
{
	char what[64];

	if (a->kind == ACT_NOTE) {
		add_why(out, "", a->text);
	} else if (a->kind == ACT_WITHDRAW) {
		snprintf(what, sizeof what, "pulled back to joint %d", a->joint);
		add_why(out, what, a->text);
	} else if (a->kind == ACT_SHIFT_END) {
		add_why(out, "the shift ended", a->text);
	} else if (a->kind == ACT_SHIFT_BEGIN) {
		add_why(out, "a shift began", a->text);
	} else if (a->kind == ACT_CHANGE) {
		add_why(out, "changed", a->text);
	}
}

void sb_timeline_why(const struct job *job, const struct timeline *t, size_t joint, struct sb_str *out)
{
	const struct reading *r = first_of(job, t->list[joint].reading);
	int64_t from = joint ? first_of(job, t->list[joint - 1].reading)->act : 0;

	for (size_t i = 0; i < job->act_count; i++)
		if (job->acts[i].id > from && job->acts[i].id < r->act)
			add_act(&job->acts[i], out);
	if (r->remarks[0])
		add_why(out, "remarks of the joint", r->remarks);
}

/* ---- the end ---- */

/* Along the design line from a station to the exit: steps of a metre at most, each at its middle. */
static double length_left(const struct design *d, double from_m)
{
	double run = d->length_m - from_m, left = 0;
	int steps = (int)fmin(ceil(run), 100000);

	for (int i = 0; i < steps; i++) {
		struct design_place at = sb_design_at(d, from_m + run * (i + 0.5) / steps);
		left += run / steps / fmax(sin(at.inc_rad), 0.05);
	}
	return left;
}

struct pilot_out sb_timeline_out(
	const struct job *job, const struct solution *s, const struct timeline *t, int64_t from_ms)
{
	struct pilot_out o = { .from_ms = from_ms };
	double joint_m = sb_frame_metres(&s->frame, job->joint_length.value);

	o.length_left_m = length_left(&s->design, fmax(s->bit.deviation.station_m, 0));
	o.reached = s->bit.known && s->bit.deviation.station_m >= s->design.length_m;
	if (joint_m > 0)
		o.joints_left = (int)fmin(ceil(o.length_left_m / joint_m - 1e-9), 1e6);
	o.known = !o.reached && t->timed >= SB_TIMELINE_LEAST && t->in_ground > 0 && !isnan(t->middle_min);
	if (!o.known)
		return o;
	o.likely_joint_min = t->whole_min / (double)t->timed * ((double)t->count / (double)t->in_ground);
	o.best_joint_min = fmin(t->middle_min, o.likely_joint_min);
	o.best_min = o.joints_left * o.best_joint_min;
	o.likely_min = o.joints_left * o.likely_joint_min;
	o.best_ms = from_ms + (int64_t)(o.best_min * 60000);
	o.likely_ms = from_ms + (int64_t)(o.likely_min * 60000);
	return o;
}
