/* The pull's joints in the order in which they come out, each with the estimate for where the head was, its
 * time, and what is left after it. */
#include "model/pullback.h"

#include "base/measure.h"
#include "base/mem.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define STOP_TIMES 3 /* of the middle wait, and a quarter of an hour at least: see model/pullback.h */
#define STOP_LEAST 15
#define JUMP_LEAST 0.2 /* of the estimate: a joint begins with a surge. Common practice, no source */
#define TIMED_LEAST 3  /* joints that must be timed before a pace is told */

/* ---- entries ---- */

static void take_ends(const struct job *job, struct pullback *out)
{
	for (size_t i = 0; i < job->pull_begin_count; i++)
		if (!job->pull_begins[i].struck)
			out->begun = &job->pull_begins[i];
	for (size_t i = 0; i < job->pull_end_count; i++)
		if (!job->pull_ends[i].struck)
			out->ended = &job->pull_ends[i];
}

/* The later one of two entries of a joint, which only a file that was written by another hand has, stands
 * behind the earlier. */
static int by_coming_out(const void *one, const void *other)
{
	const struct pull_joint *a = ((const struct pulled *)one)->entry;
	const struct pull_joint *b = ((const struct pulled *)other)->entry;

	if (a->joint != b->joint)
		return a->joint > b->joint ? -1 : 1;
	return (a->fact.act > b->fact.act) - (a->fact.act < b->fact.act);
}

static void take_joints(const struct job *job, struct pullback *out)
{
	out->list = sb_alloc((job->pull_joint_count + 1) * sizeof *out->list);
	for (size_t i = 0; i < job->pull_joint_count; i++)
		if (!job->pull_joints[i].struck && job->pull_joints[i].joint <= out->joints)
			out->list[out->count++] = (struct pulled){ .entry = &job->pull_joints[i] };
	qsort(out->list, out->count, sizeof *out->list, by_coming_out);
}

/* ---- places and forces ---- */

/* Of a joint that was pulled back since, by a pilot that was opened again: 0. */
static double length_of(const struct job *job, int joint)
{
	const struct reading *r = sb_job_joint(job, joint);

	return r ? r->joint_length.value * sb_unit_metres(job->unit) : 0;
}

/* Where a joint begins. */
static double begins_at(const struct job *job, int joint)
{
	double depth = 0;

	for (int k = 1; k < joint; k++)
		depth += length_of(job, k);
	return depth;
}

static double safe_force(const struct job *job)
{
	return sb_number_given(&job->safe_force)
		? sb_measure_si(job->unit, MEASURE_FORCE, job->safe_force.value)
		: (double)NAN;
}

static enum band_side side_of(const struct pulled *p)
{
	if (isnan(p->band.force_n))
		return BAND_UNKNOWN;
	return p->force_n > p->band.high_n   ? BAND_ABOVE
		: p->force_n < p->band.low_n ? BAND_BELOW
					     : BAND_WITHIN;
}

static void weigh(const struct job *job, const struct pull_bands *bands, double head_md_m, struct pulled *p)
{
	p->length_m = length_of(job, p->entry->joint);
	p->head_md_m = head_md_m;
	p->station_m = bands->line.count ? sb_bore_line_station(&bands->line, head_md_m) : (double)NAN;
	p->force_n = sb_measure_si(job->unit, MEASURE_FORCE, p->entry->force.value);
	p->band = sb_pull_band_at(bands, head_md_m);
	p->side = side_of(p);
	p->share = p->force_n / safe_force(job);
	p->jump_n = (double)NAN;
}

/* Joints that were passed over lie between: what happened there is not one joint's doing. */
static bool follows(const struct pulled *before, const struct pulled *p)
{
	return before->entry->joint == p->entry->joint + 1;
}

static void look_for_jump(const struct pulled *before, struct pulled *p)
{
	if (!follows(before, p))
		return;
	p->jump_n = p->force_n - before->force_n - (p->band.force_n - before->band.force_n);
	p->jumped =
		fabs(p->jump_n) > fmax((p->band.high_n - p->band.low_n) / 2, JUMP_LEAST * p->band.force_n);
}

struct pulled sb_pullback_joint(
	const struct job *job, const struct pull_bands *bands, const struct pull_joint *entry)
{
	struct pulled p = { .entry = entry };

	weigh(job, bands, begins_at(job, entry->joint), &p);
	return p;
}

static void weigh_joints(const struct job *job, const struct pull_bands *bands, struct pullback *out)
{
	double depth = begins_at(job, out->joints + 1);
	int joint = out->joints;

	out->next = out->left = joint;
	out->head_md_m = depth;
	out->safe_n = safe_force(job);
	for (size_t i = 0; i < out->count; i++) {
		struct pulled *p = &out->list[i];
		for (; joint >= p->entry->joint; joint--)
			depth -= length_of(job, joint);
		weigh(job, bands, joint ? depth : 0, p);
		if (i)
			look_for_jump(p - 1, p);
		out->next = out->left = p->entry->joint - 1;
		out->head_md_m = out->left ? depth : 0;
	}
	out->left_m = out->head_md_m;
}

/* ---- times ---- */

static struct clocked clock_of(const struct pull_joint *j)
{
	return (struct clocked){ j->started, j->ended, j->fact.at_ms };
}

static void find_stops(struct pullback *out, double *room)
{
	size_t waits = 0;

	for (size_t i = 0; i < out->count; i++)
		if (!isnan(out->list[i].minutes.wait_min))
			room[waits++] = out->list[i].minutes.wait_min;
	double usual = fmax(STOP_TIMES * sb_clock_middle(room, waits), STOP_LEAST);
	for (size_t i = 0; i < out->count; i++) {
		struct pulled *p = &out->list[i];
		if (!(p->minutes.wait_min > usual))
			continue;
		p->stop_min = p->minutes.wait_min;
		out->stops++;
		out->stop_min += p->stop_min;
	}
}

static void find_pace(struct pullback *out, double *room)
{
	double whole = 0, pulled_m = 0, pulling = 0;
	size_t clean = 0;

	for (size_t i = 0; i < out->count; i++) {
		const struct pulled *p = &out->list[i];
		if (!isnan(p->speed_m_by_min)) {
			pulled_m += p->length_m;
			pulling += p->minutes.work_min;
		}
		if (isnan(p->minutes.whole_min))
			continue;
		out->timed++;
		whole += p->minutes.whole_min;
		if (p->stop_min == 0)
			room[clean++] = p->minutes.whole_min;
	}
	bool known = out->timed >= TIMED_LEAST;
	out->best_min = known ? out->left * sb_clock_middle(room, clean) : (double)NAN;
	out->likely_min = known ? out->left * whole / out->timed : (double)NAN;
	out->speed_m_by_min = pulling > 0 ? pulled_m / pulling : (double)NAN;
}

static void time_joints(struct pullback *out)
{
	double *room = sb_alloc((out->count + 1) * sizeof *room);

	for (size_t i = 0; i < out->count; i++) {
		struct pulled *p = &out->list[i];
		struct clocked now = clock_of(p->entry), before = { 0 };
		bool next = i > 0 && follows(p - 1, p);
		if (next)
			before = clock_of(p[-1].entry);
		p->minutes = sb_clock_minutes(next ? &before : NULL, &now);
		p->speed_m_by_min = p->minutes.work_min > 0 ? p->length_m / p->minutes.work_min : (double)NAN;
	}
	find_stops(out, room);
	find_pace(out, room);
	sb_free(room);
}

void sb_pullback_take(const struct job *job, const struct pull_bands *bands, struct pullback *out)
{
	memset(out, 0, sizeof *out);
	out->joints = sb_job_in_ground(job);
	take_ends(job, out);
	take_joints(job, out);
	weigh_joints(job, bands, out);
	time_joints(out);
	out->asked_m = sb_pipe_string_extra_m(job, sb_pipe_string_bore_m(job));
}

void sb_pullback_clear(struct pullback *p)
{
	sb_free(p->list);
	memset(p, 0, sizeof *p);
}
