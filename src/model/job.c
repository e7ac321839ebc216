/* The job's facts and the bookkeeping of which reading stands for which joint. Appending is O(1); a
 * correction looks for the joint that it corrects. */
#include "model/job.h"

#include "base/mem.h"
#include "base/str.h"
#include "base/time.h"

#include <assert.h>
#include <string.h>

/* Every list that a job owns. */
#define LIST(rows, count, room) \
	{ \
		offsetof(struct job, rows), offsetof(struct job, count), offsetof(struct job, room), \
			sizeof *((struct job *)0)->rows \
	}
static const struct list {
	size_t rows, count, room, row_size;
} lists[] = {
	LIST(profile, profile_count, profile_room),
	LIST(alignment, alignment_count, alignment_room),
	LIST(ranges, range_count, range_room),
	LIST(ground, ground_count, ground_room),
	LIST(obstacles, obstacle_count, obstacle_room),
	LIST(tally, tally_count, tally_room),
	LIST(soil, soil_count, soil_room),
	LIST(checklist, checklist_count, checklist_room),
	LIST(readings, reading_count, reading_room),
	LIST(joints, joint_count, joint_room),
	LIST(ground_joints, in_ground, in_ground_room),
	LIST(legs, leg_count, leg_room),
	LIST(acts, act_count, act_room),
	LIST(acknowledgements, acknowledgement_count, acknowledgement_room),
	LIST(changes, change_count, change_room),
	LIST(repeats, repeat_count, repeat_room),
	LIST(fixes, fix_count, fix_room),
	LIST(fix_uses, fix_use_count, fix_use_room),
	LIST(adjustments, adjustment_count, adjustment_room),
	LIST(dispositions, disposition_count, disposition_room),
	LIST(ticked, ticked_count, ticked_room),
	LIST(acceptances, acceptance_count, acceptance_room),
	LIST(fluid_events, fluid_event_count, fluid_event_room),
	LIST(passes, pass_count, pass_room),
	LIST(pass_joints, pass_joint_count, pass_joint_room),
	LIST(pass_ends, pass_end_count, pass_end_room),
	LIST(pipes, pipe_count, pipe_room),
	LIST(pipe_records, pipe_record_count, pipe_record_room),
	LIST(pull_begins, pull_begin_count, pull_begin_room),
	LIST(pull_joints, pull_joint_count, pull_joint_room),
	LIST(pull_ends, pull_end_count, pull_end_room),
	LIST(strikes, strike_count, strike_room),
};
#define LISTS (sizeof lists / sizeof *lists)

static void **rows_of(const struct list *l, struct job *job)
{
	return (void **)(void *)((char *)job + l->rows);
}

static size_t *size_at(struct job *job, size_t offset)
{
	return (size_t *)(void *)((char *)job + offset);
}

void sb_job_clear(struct job *job)
{
	for (size_t i = 0; i < LISTS; i++)
		sb_free(*rows_of(&lists[i], job));
	memset(job, 0, sizeof *job);
}

void sb_job_copy(const struct job *from, struct job *to)
{
	*to = *from;
	for (size_t i = 0; i < LISTS; i++) {
		void **rows = rows_of(&lists[i], to);
		size_t count = *size_at(to, lists[i].count);
		const void *theirs = *rows;
		*rows = count ? memcpy(sb_alloc(count * lists[i].row_size), theirs, count * lists[i].row_size)
			      : NULL;
		*size_at(to, lists[i].room) = count;
	}
}

static void replace(const struct job *job, size_t *list, size_t count, int64_t old, size_t by)
{
	for (size_t i = count; i-- > 0;)
		if (job->readings[list[i]].id == old) {
			list[i] = by;
			return;
		}
}

void sb_job_add_reading(struct job *job, const struct reading *r)
{
	size_t at = job->reading_count;

	job->readings = sb_grow(job->readings, at, &job->reading_room, sizeof *job->readings);
	job->readings[at] = *r;
	job->reading_count++;
	const struct reading *first = r->corrects ? sb_job_reading(job, r->corrects) : r;
	job->readings[at].logged = first == NULL ? r->act : first == r ? r->act : first->logged;
	if (r->corrects) {
		replace(job, job->joints, job->joint_count, r->corrects, at);
		replace(job, job->ground_joints, job->in_ground, r->corrects, at);
		return;
	}
	job->joints = sb_grow(job->joints, job->joint_count, &job->joint_room, sizeof *job->joints);
	job->joints[job->joint_count++] = at;
	job->ground_joints =
		sb_grow(job->ground_joints, job->in_ground, &job->in_ground_room, sizeof *job->ground_joints);
	job->ground_joints[job->in_ground++] = at;
}

void sb_job_add_leg(struct job *job, const struct leg *leg)
{
	job->legs = sb_grow(job->legs, job->leg_count, &job->leg_room, sizeof *job->legs);
	job->legs[job->leg_count++] = *leg;
	if ((size_t)leg->to_joint < job->in_ground)
		job->in_ground = (size_t)leg->to_joint;
}

void sb_job_add_act(struct job *job, const struct act *act)
{
	job->acts = sb_grow(job->acts, job->act_count, &job->act_room, sizeof *job->acts);
	job->acts[job->act_count++] = *act;
}

void sb_job_add_acknowledgement(struct job *job, const struct acknowledgement *a)
{
	job->acknowledgements = sb_grow(job->acknowledgements, job->acknowledgement_count,
		&job->acknowledgement_room, sizeof *job->acknowledgements);
	job->acknowledgements[job->acknowledgement_count++] = *a;
}

void sb_job_add_change(struct job *job, const struct change *c)
{
	job->changes = sb_grow(job->changes, job->change_count, &job->change_room, sizeof *job->changes);
	job->changes[job->change_count++] = *c;
}

/* Whether the reading's joint was in the ground when the change was made. */
static bool was_in_ground(const struct job *job, const struct change *c, const struct reading *r)
{
	for (size_t i = 0; i < job->leg_count; i++) {
		const struct leg *l = &job->legs[i];
		if (l->number > r->leg && l->act < c->fact.act && r->joint > l->to_joint)
			return false;
	}
	return true;
}

bool sb_job_change_holds(const struct job *job, const struct change *c, const struct reading *r)
{
	if (r->logged == 0 || r->logged > c->fact.act)
		return true;
	return r->joint >= c->from_joint && was_in_ground(job, c, r);
}

const struct adjustment *sb_job_adjustment(const struct job *job)
{
	const struct adjustment *last =
		job->adjustment_count ? &job->adjustments[job->adjustment_count - 1] : NULL;

	return last && last->taken ? last : NULL;
}

const struct acceptance *sb_job_accepted(const struct job *job)
{
	const struct acceptance *last =
		job->acceptance_count ? &job->acceptances[job->acceptance_count - 1] : NULL;

	return last && last->accepted ? last : NULL;
}

const struct ticked *sb_job_tick(const struct job *job, int point)
{
	for (size_t i = job->ticked_count; i-- > 0;)
		if (job->ticked[i].point == point)
			return &job->ticked[i];
	return NULL;
}

struct fix *sb_job_fix(const struct job *job, int64_t id)
{
	for (size_t i = 0; i < job->fix_count; i++)
		if (job->fixes[i].fact.id == id)
			return &job->fixes[i];
	return NULL;
}

int sb_job_leg(const struct job *job)
{
	return job->leg_count ? job->legs[job->leg_count - 1].number : 1;
}

int sb_job_in_ground(const struct job *job)
{
	return (int)job->in_ground;
}

const struct reading *sb_job_joint(const struct job *job, int joint)
{
	if (joint < 1 || (size_t)joint > job->in_ground)
		return NULL;
	return &job->readings[job->ground_joints[joint - 1]];
}

const struct reading *sb_job_joint_in_leg(const struct job *job, int leg, int joint)
{
	for (size_t i = job->joint_count; i-- > 0;) {
		const struct reading *r = &job->readings[job->joints[i]];
		if (r->leg == leg && r->joint == joint)
			return r;
	}
	return NULL;
}

const struct reading *sb_job_reading(const struct job *job, int64_t id)
{
	size_t low = 0, high = job->reading_count;

	while (low < high) {
		size_t middle = low + (high - low) / 2;
		if (job->readings[middle].id < id)
			low = middle + 1;
		else
			high = middle;
	}
	return low < job->reading_count && job->readings[low].id == id ? &job->readings[low] : NULL;
}

const struct act *sb_job_act(const struct job *job, int64_t id)
{
	size_t low = 0, high = job->act_count;

	while (low < high) {
		size_t middle = low + (high - low) / 2;
		if (job->acts[middle].id < id)
			low = middle + 1;
		else
			high = middle;
	}
	return low < job->act_count && job->acts[low].id == id ? &job->acts[low] : NULL;
}

int sb_job_offset_min(const struct job *job, int64_t act, int64_t at_ms)
{
	const struct act *a = sb_job_act(job, act);

	return a ? a->offset_min : sb_time_offset(at_ms);
}

bool sb_job_replaced(const struct job *job, const struct reading *r)
{
	for (size_t i = job->reading_count; i-- > 0 && job->readings[i].id > r->id;)
		if (job->readings[i].corrects == r->id)
			return true;
	return false;
}

struct number sb_job_tally(const struct job *job, int joint)
{
	/* Tallies are kept in order, so the joint is nearly always at its own place. */
	size_t guess = (size_t)joint - 1;

	if (joint >= 1 && guess < job->tally_count && job->tally[guess].joint == joint)
		return job->tally[guess].length;
	for (size_t i = 0; i < job->tally_count; i++)
		if (job->tally[i].joint == joint)
			return job->tally[i].length;
	return job->joint_length;
}

const struct act *sb_job_shift(const struct job *job)
{
	for (size_t i = job->act_count; i-- > 0;) {
		if (job->acts[i].kind == ACT_SHIFT_END)
			return NULL;
		if (job->acts[i].kind == ACT_SHIFT_BEGIN)
			return &job->acts[i];
	}
	return NULL;
}

static const char *const act_names[] = { "new", "log", "correct", "withdraw", "note", "acknowledge",
	"shift-begin", "shift-end", "change", "repeat", "fix", "fix-use", "adjust", "adjust-back", "accept",
	"accept-back", "tick", "tick-back", "sign", "reopen", "returns", "pass", "pass-joint", "pass-end",
	"pipe", "pipe-record", "pull", "pull-joint", "pull-end", "strike" };

const char *sb_act_name(enum act_kind kind)
{
	return act_names[kind];
}

int sb_act_parse(const char *name, enum act_kind *kind)
{
	for (size_t i = 0; i < sizeof act_names / sizeof *act_names; i++)
		if (sb_same(act_names[i], name)) {
			*kind = (enum act_kind)i;
			return 0;
		}
	return -1;
}
