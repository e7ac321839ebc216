/* The job's facts and the bookkeeping of which reading stands for which joint. Appending is O(1); a
 * correction looks for the joint that it corrects. */
#include "model/job.h"

#include "base/mem.h"
#include "base/str.h"

#include <assert.h>
#include <string.h>

void sb_job_clear(struct job *job)
{
	sb_free(job->profile);
	sb_free(job->alignment);
	sb_free(job->ranges);
	sb_free(job->ground);
	sb_free(job->obstacles);
	sb_free(job->tally);
	sb_free(job->soil);
	sb_free(job->checklist);
	sb_free(job->readings);
	sb_free(job->joints);
	sb_free(job->ground_joints);
	sb_free(job->legs);
	sb_free(job->acts);
	sb_free(job->acknowledgements);
	sb_free(job->changes);
	sb_free(job->repeats);
	sb_free(job->fixes);
	sb_free(job->fix_uses);
	sb_free(job->adjustments);
	sb_free(job->dispositions);
	sb_free(job->ticked);
	sb_free(job->acceptances);
	memset(job, 0, sizeof *job);
}

static void *copied(const void *list, size_t count, size_t size)
{
	return count ? memcpy(sb_alloc(count * size), list, count * size) : NULL;
}

void sb_job_copy(const struct job *from, struct job *to)
{
	*to = *from;
	to->profile = copied(from->profile, to->profile_room = from->profile_count, sizeof *to->profile);
	to->alignment =
		copied(from->alignment, to->alignment_room = from->alignment_count, sizeof *to->alignment);
	to->ranges = copied(from->ranges, to->range_room = from->range_count, sizeof *to->ranges);
	to->ground = copied(from->ground, to->ground_room = from->ground_count, sizeof *to->ground);
	to->obstacles =
		copied(from->obstacles, to->obstacle_room = from->obstacle_count, sizeof *to->obstacles);
	to->tally = copied(from->tally, to->tally_room = from->tally_count, sizeof *to->tally);
	to->soil = copied(from->soil, to->soil_room = from->soil_count, sizeof *to->soil);
	to->checklist =
		copied(from->checklist, to->checklist_room = from->checklist_count, sizeof *to->checklist);
	to->readings = copied(from->readings, to->reading_room = from->reading_count, sizeof *to->readings);
	to->joints = copied(from->joints, to->joint_room = from->joint_count, sizeof *to->joints);
	to->ground_joints =
		copied(from->ground_joints, to->in_ground_room = from->in_ground, sizeof *to->ground_joints);
	to->legs = copied(from->legs, to->leg_room = from->leg_count, sizeof *to->legs);
	to->acts = copied(from->acts, to->act_room = from->act_count, sizeof *to->acts);
	to->acknowledgements = copied(from->acknowledgements,
		to->acknowledgement_room = from->acknowledgement_count, sizeof *to->acknowledgements);
	to->changes = copied(from->changes, to->change_room = from->change_count, sizeof *to->changes);
	to->repeats = copied(from->repeats, to->repeat_room = from->repeat_count, sizeof *to->repeats);
	to->fixes = copied(from->fixes, to->fix_room = from->fix_count, sizeof *to->fixes);
	to->fix_uses = copied(from->fix_uses, to->fix_use_room = from->fix_use_count, sizeof *to->fix_uses);
	to->adjustments = copied(
		from->adjustments, to->adjustment_room = from->adjustment_count, sizeof *to->adjustments);
	to->dispositions = copied(
		from->dispositions, to->disposition_room = from->disposition_count, sizeof *to->dispositions);
	to->ticked = copied(from->ticked, to->ticked_room = from->ticked_count, sizeof *to->ticked);
	to->acceptances = copied(
		from->acceptances, to->acceptance_room = from->acceptance_count, sizeof *to->acceptances);
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

void sb_job_add_repeat(struct job *job, const struct repeat *r)
{
	job->repeats = sb_grow(job->repeats, job->repeat_count, &job->repeat_room, sizeof *job->repeats);
	job->repeats[job->repeat_count++] = *r;
}

void sb_job_add_fix(struct job *job, const struct fix *f)
{
	job->fixes = sb_grow(job->fixes, job->fix_count, &job->fix_room, sizeof *job->fixes);
	job->fixes[job->fix_count] = *f;
	job->fixes[job->fix_count++].used = true;
}

void sb_job_add_fix_use(struct job *job, const struct fix_use *u)
{
	job->fix_uses = sb_grow(job->fix_uses, job->fix_use_count, &job->fix_use_room, sizeof *job->fix_uses);
	job->fix_uses[job->fix_use_count++] = *u;
	struct fix *f = sb_job_fix(job, u->fix);
	if (f)
		f->used = u->used != 0;
}

void sb_job_add_adjustment(struct job *job, const struct adjustment *a)
{
	job->adjustments = sb_grow(
		job->adjustments, job->adjustment_count, &job->adjustment_room, sizeof *job->adjustments);
	job->adjustments[job->adjustment_count++] = *a;
}

void sb_job_add_disposition(struct job *job, const struct disposition *d)
{
	job->dispositions = sb_grow(
		job->dispositions, job->disposition_count, &job->disposition_room, sizeof *job->dispositions);
	job->dispositions[job->disposition_count++] = *d;
}

void sb_job_add_ticked(struct job *job, const struct ticked *t)
{
	job->ticked = sb_grow(job->ticked, job->ticked_count, &job->ticked_room, sizeof *job->ticked);
	job->ticked[job->ticked_count++] = *t;
}

void sb_job_add_acceptance(struct job *job, const struct acceptance *a)
{
	job->acceptances = sb_grow(
		job->acceptances, job->acceptance_count, &job->acceptance_room, sizeof *job->acceptances);
	job->acceptances[job->acceptance_count++] = *a;
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
	"accept-back", "tick", "tick-back", "sign", "reopen" };

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
