/* The passes as they stand. One walk over their entries in the order of time carries the hole along, joint by
 * joint, so that what a pass cuts is the ring between its tool and what went through the joint before it. */
#include "model/opening.h"

#include "base/measure.h"
#include "base/mem.h"
#include "geom/angle.h"

#include <math.h>
#include <string.h>

#include "opening_parts.h"

/* ---- sizes ---- */

double sb_opening_metres(const struct job *job, const struct number *size)
{
	return sb_number_given(size) ? sb_measure_si(job->unit, MEASURE_SIZE, size->value) : 0;
}

struct opening_size sb_opening_size(const struct job *job)
{
	struct opening_size size = { .most_m = HUGE_VAL };
	double spare_m = sb_opening_metres(job, &job->opening_spare);

	size.pipe_m = sb_opening_metres(job, &job->outside_diameter);
	size.coated_m = size.pipe_m + 2 * sb_opening_metres(job, &job->coating_thickness);
	size.pilot_m = sb_opening_metres(job, &job->pilot_diameter);
	if (!sb_number_given(&job->opening_spare))
		spare_m = job->unit == UNIT_M ? 0.3 : 12 * 0.0254;
	size.contract = sb_number_given(&job->opening_least);
	size.least_m = size.contract ? sb_opening_metres(job, &job->opening_least)
				     : fmin(job->opening_ratio.value * size.pipe_m, size.pipe_m + spare_m);
	if (sb_number_given(&job->opening_most))
		size.most_m = sb_opening_metres(job, &job->opening_most);
	return size;
}

/* ---- values ---- */

static const struct {
	const char *name;
	enum measure measure;
	size_t offset;
} values[OPENING_VALUES] = {
	[OPENING_PULL] = { "pull", MEASURE_FORCE, offsetof(struct pass_joint, pull) },
	[OPENING_TORQUE] = { "torque", MEASURE_TORQUE, offsetof(struct pass_joint, torque) },
	[OPENING_FLOW] = { "flow", MEASURE_FLOW, offsetof(struct pass_joint, flow) },
	[OPENING_PRESSURE] = { "pressure", MEASURE_PRESSURE, offsetof(struct pass_joint, pressure) },
	[OPENING_ANNULAR] = { "annular pressure", MEASURE_PRESSURE, offsetof(struct pass_joint, annular) },
};

const struct number *sb_opening_value(const struct pass_joint *j, enum opening_value value)
{
	return (const struct number *)(const void *)((const char *)j + values[value].offset);
}

const char *sb_opening_value_name(enum opening_value value)
{
	return values[value].name;
}

const char *sb_opening_value_unit(const struct job *job, enum opening_value value)
{
	return sb_measure_unit(job->unit, values[value].measure);
}

static void span_add(struct opening_span *s, const struct number *n)
{
	if (!sb_number_given(n))
		return;
	s->low = s->count ? fmin(s->low, n->value) : n->value;
	s->high = s->count ? fmax(s->high, n->value) : n->value;
	s->mean += (n->value - s->mean) / ++s->count;
}

/* ---- the walk ---- */

static double area(double diameter_m)
{
	return SB_PI / 4 * diameter_m * diameter_m;
}

/* NAN where the hole before is not known. */
static double ring_m3(double before_m, double tool_m, double length_m)
{
	if (!(before_m > 0))
		return (double)NAN;
	return tool_m > before_m ? (area(tool_m) - area(before_m)) * length_m : 0;
}

static double length_of(const struct job *job, int joint)
{
	const struct reading *r = sb_job_joint(job, joint);

	return r ? r->joint_length.value * sb_unit_metres(job->unit) : 0;
}

static void take_passes(const struct job *job, int64_t until_act, struct opening *o)
{
	o->list = sb_alloc((job->pass_count + 1) * sizeof *o->list);
	for (size_t i = 0; i < job->pass_count; i++) {
		const struct pass *p = &job->passes[i];
		if (p->struck || p->fact.act > until_act)
			continue;
		o->list[o->count++] = (struct opening_pass){
			.pass = p,
			.number = (int)p->fact.id,
			.diameter_m = sb_opening_metres(job, &p->diameter),
		};
	}
	for (size_t i = 0; i < job->pass_end_count; i++)
		for (size_t k = 0; k < o->count; k++)
			if (!job->pass_ends[i].struck && job->pass_ends[i].fact.act <= until_act &&
				o->list[k].number == job->pass_ends[i].pass)
				o->list[k].end = &job->pass_ends[i];
	if (o->count && o->list[o->count - 1].end == NULL)
		o->running = &o->list[o->count - 1];
}

bool sb_opening_find(const struct opening *o, int number, size_t *at)
{
	for (*at = 0; *at < o->count; ++*at)
		if (o->list[*at].number == number)
			return true;
	return false;
}

static bool *through_of(const struct opening *o, bool *through, size_t pass)
{
	return through + pass * ((size_t)o->bore_joints + 1);
}

static void take_joint(
	const struct job *job, const struct pass_joint *j, size_t pass, bool *through, struct opening *o)
{
	struct opening_pass *p = &o->list[pass];
	struct opening_joint *out = &o->joints[o->joint_count++];
	double *hole = &o->hole_m[j->joint];

	*out = (struct opening_joint){ .entry = j,
		.pass = pass,
		.length_m = length_of(job, j->joint),
		.before_m = *hole,
		.again = through[j->joint] };
	out->cut_m3 = ring_m3(*hole, p->diameter_m, out->length_m);
	*hole = fmax(*hole, p->diameter_m);
	p->done += !out->again;
	p->done_m += out->again ? 0 : out->length_m;
	p->cut_m3 += out->cut_m3;
	through[j->joint] = true;
	for (int k = 0; k < OPENING_VALUES; k++)
		span_add(&p->values[k], sb_opening_value(j, (enum opening_value)k));
}

/* The next in the direction of the pass after its newest entry; where there is none, the first that was left
 * behind. */
static int next_joint(const struct opening *o, const struct pass *p, const bool *through, int last)
{
	int step = p->to == PASS_TO_ENTRY ? -1 : 1, first = p->to == PASS_TO_ENTRY ? o->bore_joints : 1;

	for (int joint = last ? last + step : first; joint >= 1 && joint <= o->bore_joints; joint += step)
		if (!through[joint])
			return joint;
	for (int joint = first; joint >= 1 && joint <= o->bore_joints; joint += step)
		if (!through[joint])
			return joint;
	return 0;
}

/* What is left, by the hole as it is when all entries are taken. */
static void take_left(const struct job *job, struct opening_pass *p, const bool *through, struct opening *o)
{
	for (int joint = 1; joint <= o->bore_joints; joint++) {
		if (through[joint])
			continue;
		double length_m = length_of(job, joint);
		p->left++;
		p->left_m += length_m;
		p->cut_left_m3 += ring_m3(o->hole_m[joint], p->diameter_m, length_m);
	}
}

void sb_opening_stand(const struct job *job, int bore_joints, int64_t until_act, struct opening *o)
{
	memset(o, 0, sizeof *o);
	o->bore_joints = bore_joints;
	o->size = sb_opening_size(job);
	o->joints = sb_alloc((job->pass_joint_count + 1) * sizeof *o->joints);
	o->hole_m = sb_alloc(((size_t)o->bore_joints + 1) * sizeof *o->hole_m);
	for (int joint = 1; joint <= o->bore_joints; joint++) {
		o->hole_m[joint] = o->size.pilot_m;
		o->bore_m += length_of(job, joint);
	}
	take_passes(job, until_act, o);
	bool *through = sb_alloc((o->count + 1) * ((size_t)o->bore_joints + 1) * sizeof *through);
	int *last = sb_alloc((o->count + 1) * sizeof *last);
	for (size_t i = 0; i < job->pass_joint_count; i++) {
		const struct pass_joint *j = &job->pass_joints[i];
		size_t at;
		if (j->struck || j->fact.act > until_act || j->joint < 1 || j->joint > o->bore_joints ||
			!sb_opening_find(o, j->pass, &at))
			continue;
		take_joint(job, j, at, through_of(o, through, at), o);
		last[at] = j->joint;
	}
	for (size_t k = 0; k < o->count; k++) {
		take_left(job, &o->list[k], through_of(o, through, k), o);
		o->list[k].next = next_joint(o, o->list[k].pass, through_of(o, through, k), last[k]);
	}
	sb_free(through);
	sb_free(last);
}

/* ---- times and volumes ---- */

static void take_minutes(const struct job *job, struct opening_pass *p, const struct clocked *before,
	struct clocked *now, struct opening_joint *j)
{
	*now = (struct clocked){ j->entry->started, j->entry->ended, j->entry->fact.at_ms };
	j->minutes = sb_clock_minutes(before, now);
	double pumping = isnan(j->minutes.work_min) ? j->minutes.whole_min : j->minutes.work_min;
	if (!isnan(j->minutes.whole_min)) {
		p->timed++;
		p->whole_min += j->minutes.whole_min;
	}
	if (!isnan(pumping) && sb_number_given(&j->entry->flow)) {
		p->pumped++;
		p->pumped_m3 += sb_measure_si(job->unit, MEASURE_FLOW, j->entry->flow.value) * 60 * pumping;
	}
}

static void take_times(const struct job *job, struct opening *o)
{
	for (size_t k = 0; k < o->count; k++) {
		struct clocked before, now;
		bool any = false;
		for (size_t i = 0; i < o->joint_count; i++) {
			if (o->joints[i].pass != k)
				continue;
			take_minutes(job, &o->list[k], any ? &before : NULL, &now, &o->joints[i]);
			before = now;
			any = true;
		}
	}
}

/* ---- pace ---- */

/* The whole minutes of the joints of the passes of a kind from one to another, both in it. */
static size_t gather(
	const struct opening *o, enum pass_kind kind, size_t from, size_t to, double *minutes, double *sum)
{
	size_t count = 0;

	*sum = 0;
	for (size_t i = 0; i < o->joint_count; i++) {
		const struct opening_joint *j = &o->joints[i];
		if (j->pass < from || j->pass > to || o->list[j->pass].pass->kind != kind ||
			isnan(j->minutes.whole_min))
			continue;
		minutes[count++] = j->minutes.whole_min;
		*sum += j->minutes.whole_min;
	}
	return count;
}

static struct opening_pace pace_of(const struct number *rate, double measured_min, int left)
{
	struct opening_pace p = { PACE_UNKNOWN, (double)NAN, (double)NAN };

	if (sb_number_given(rate)) {
		p.source = PACE_SHEET;
		p.joint_min = 60 / rate->value;
	} else if (!isnan(measured_min)) {
		p.source = PACE_MEASURED;
		p.joint_min = measured_min;
	}
	p.left_min = left ? p.joint_min * left : 0;
	return p;
}

/* from, to: the passes that are measured by. Returned: whether enough joints were timed. */
static bool take_pace(const struct opening *o, const struct job *job, enum pass_kind kind, size_t from,
	size_t to, int left, struct opening_pace *best, struct opening_pace *likely)
{
	double *minutes = sb_alloc((o->joint_count + 1) * sizeof *minutes), sum;
	size_t count = gather(o, kind, from, to, minutes, &sum);
	bool enough = count >= SB_OPENING_LEAST;
	double mean = enough ? sum / (double)count : (double)NAN;
	double middle = enough ? fmin(sb_clock_middle(minutes, count), mean) : (double)NAN;
	bool ream = kind == PASS_REAM;

	sb_free(minutes);
	*best = pace_of(ream ? &job->ream_best : &job->swab_best, middle, left);
	*likely = pace_of(ream ? &job->ream_likely : &job->swab_likely, mean, left);
	return enough;
}

static void take_paces(const struct job *job, struct opening *o)
{
	double *minutes = sb_alloc((o->joint_count + 1) * sizeof *minutes), sum;

	for (size_t k = 0; k < o->count; k++) {
		struct opening_pass *p = &o->list[k];
		p->middle_min = sb_clock_middle(minutes, gather(o, p->pass->kind, k, k, minutes, &sum));
		if (!take_pace(o, job, p->pass->kind, k, k, p->left, &p->best, &p->likely))
			take_pace(o, job, p->pass->kind, 0, k, p->left, &p->best, &p->likely);
	}
	sb_free(minutes);
}

void sb_opening_whole(const struct opening *o, const struct job *job, enum pass_kind kind,
	struct opening_pace *best, struct opening_pace *likely)
{
	take_pace(o, job, kind, 0, SIZE_MAX, o->bore_joints, best, likely);
}

static void take_sums(const struct job *job, struct opening *o)
{
	for (size_t k = 0; k < o->count; k++) {
		struct opening_pass *p = &o->list[k];
		p->fluid_m3 = p->cut_m3 * job->fluid_ratio.value;
		p->fluid_left_m3 = p->cut_left_m3 * job->fluid_ratio.value;
		o->cut_m3 += p->cut_m3;
		o->fluid_m3 += p->fluid_m3;
		o->pumped_m3 += p->pumped_m3;
	}
}

void sb_opening_take(const struct job *job, struct opening *out)
{
	char sheet[256];

	sb_opening_stand(job, sb_job_in_ground(job), INT64_MAX, out);
	take_times(job, out);
	take_paces(job, out);
	take_sums(job, out);
	sb_opening_sheet(job, sheet);
	if (*sheet)
		sb_opening_fault(out, LEVEL_WATCH, 0, "%s", sheet);
	sb_opening_rules(job, sb_opening_pulled(job, INT64_MAX) != NULL, out);
}

void sb_opening_clear(struct opening *o)
{
	sb_free(o->list);
	sb_free(o->joints);
	sb_free(o->hole_m);
	memset(o, 0, sizeof *o);
}
