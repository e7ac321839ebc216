/* The figures of a stretch of time, gathered joint by joint. Hours come from the times typed with the joints
 * where every joint has them; else they are not known here (a shift has a clock of its own). */
#include "model/period.h"

#include <math.h>
#include <string.h>

#define DAY_MS INT64_C(86400000)

int64_t sb_period_day(int64_t at_ms, int offset_min)
{
	int64_t local = at_ms + (int64_t)offset_min * 60000;

	return (local - (local % DAY_MS + DAY_MS) % DAY_MS) / DAY_MS;
}

bool sb_period_holds(const struct span *t, int64_t at_ms, int offset_min)
{
	if (t->by_day)
		return sb_period_day(at_ms, offset_min) == t->day;
	return at_ms >= t->from_ms && at_ms <= t->to_ms;
}

struct span sb_period_shift(const struct job *job, int64_t now_ms, const struct act **begin, bool *runs)
{
	struct span t = { .from_ms = INT64_MIN, .to_ms = now_ms };

	*begin = NULL;
	*runs = sb_job_shift(job) != NULL;
	for (size_t i = job->act_count; i-- > 0;) {
		const struct act *a = &job->acts[i];
		if (a->kind == ACT_SHIFT_END && !*runs && a->at_ms < t.to_ms)
			t.to_ms = a->at_ms;
		if (a->kind == ACT_SHIFT_BEGIN) {
			*begin = a;
			t.from_ms = a->at_ms;
			break;
		}
	}
	return t;
}

static void widen(struct range *r, const struct number *n)
{
	if (!sb_number_given(n))
		return;
	if (!r->known || n->value < r->low)
		r->low = n->value;
	if (!r->known || n->value > r->high)
		r->high = n->value;
	r->known = true;
}

static void take_returns(struct period *p, const struct reading *r)
{
	if (r->returns == RETURNS_UNSAID)
		return;
	p->returns = r->returns;
	if (r->returns == RETURNS_FULL)
		return;
	p->returns_joint = r->joint;
	if (r->returns > p->worst_returns)
		p->worst_returns = r->returns;
}

/* Keeps the row in which a value is larger than in the one kept; not 0 and less. */
static void keep(const struct row **kept, const struct row *row, double value, double kept_value)
{
	if (value > 0 && (*kept == NULL || value > kept_value))
		*kept = row;
}

static void take_sides(struct period *p, const struct row *row)
{
	const struct deviation *d = &row->deviation;

	keep(&p->right, row, d->offset_m, p->right ? p->right->deviation.offset_m : 0);
	keep(&p->left, row, -d->offset_m, p->left ? -p->left->deviation.offset_m : 0);
	keep(&p->high, row, d->height_m, p->high ? p->high->deviation.height_m : 0);
	keep(&p->low, row, -d->height_m, p->low ? -p->low->deviation.height_m : 0);
}

static void take_row(struct period *p, const struct row *row)
{
	if (!row->on_path)
		return;
	if (row->window.joints > 0 &&
		(p->tightest == NULL || row->window.radius_m < p->tightest->window.radius_m))
		p->tightest = row;
	if (p->tightest_joint == NULL || row->radius_m < p->tightest_joint->radius_m)
		p->tightest_joint = row;
	if (p->farthest == NULL || row->use.share > p->farthest->use.share)
		p->farthest = row;
	take_sides(p, row);
}

static void keep_stop(struct period *p, size_t at, const struct joint_time *j)
{
	struct period_stop stop = { at, j->reading->joint, j->stop_min };

	p->stop_min += j->stop_min;
	p->stop_count++;
	for (size_t i = 0; i < SB_PERIOD_STOPS; i++)
		if (stop.minutes > p->stops[i].minutes) {
			struct period_stop pushed = p->stops[i];
			p->stops[i] = stop;
			stop = pushed;
		}
}

/* What lies before the first joint of a stretch is not its time. */
static void take_time(struct period *p, size_t at, const struct joint_time *j)
{
	bool first = p->joints == 1, typed = j->source == TIME_TYPED;

	p->timed = (first || p->timed) && typed && (first || !isnan(j->wait_min));
	if (typed)
		p->drill_min += j->drill_min;
	p->minutes += first ? (typed ? j->drill_min : 0) : isnan(j->whole_min) ? 0 : j->whole_min;
	if (!first && j->stop_min > 0)
		keep_stop(p, at, j);
}

static void take_joint(struct period *p, const struct joint_time *j)
{
	const struct reading *r = j->reading;

	if (p->joints++ == 0)
		p->first = r->joint;
	p->last = r->joint;
	p->length += r->joint_length.value;
	p->withdrawn += !j->in_ground;
	widen(&p->thrust, &r->thrust);
	widen(&p->torque, &r->torque);
	widen(&p->flow, &r->flow);
	widen(&p->standpipe, &r->standpipe);
	widen(&p->annular, &r->annular);
	take_returns(p, r);
}

/* The rows of the present path between which the joints lie that are still in the ground. */
static void take_ends(struct period *p, const struct solution *s, int joint)
{
	if (p->start == NULL)
		p->start = &s->path.rows[joint - 1];
	p->end = &s->path.rows[joint];
}

void sb_period_take(
	const struct solution *s, const struct timeline *t, const struct span *when, struct period *out)
{
	memset(out, 0, sizeof *out);
	for (size_t i = 0; i < t->count; i++) {
		const struct joint_time *j = &t->list[i];
		int joint = j->reading->joint;
		if (!sb_period_holds(when, j->at_ms, j->offset_min))
			continue;
		take_joint(out, j);
		take_time(out, i, j);
		if (!j->in_ground || joint < 1 || (size_t)joint >= s->path.count)
			continue;
		take_row(out, &s->path.rows[joint]);
		take_ends(out, s, joint);
	}
	if (!out->timed)
		out->minutes = -1;
}
