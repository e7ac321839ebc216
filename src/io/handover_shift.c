/* The figures of a shift. A joint belongs to the shift in which it was first logged, whatever was corrected
 * later. Hours come from the times logged with the joints where every joint has them, because a log brought
 * in from a file is minutes old; else from the clock of the shift.
 *
 * A wait is longer than usual when it is three times the shift's middle one and at least a quarter of an
 * hour: common practice, no source.
 */
#include "handover_parts.h"

#include "base/mem.h"

#include <stdlib.h>
#include <string.h>

#define USUAL_TIMES 3
#define USUAL_LEAST 15
#define DAY 1440

bool shift_holds(const struct shift *t, int64_t at_ms)
{
	return at_ms >= t->from_ms && at_ms <= t->to_ms;
}

static void find_shift(const struct job *job, int64_t now_ms, struct shift *t)
{
	t->from_ms = INT64_MIN;
	t->to_ms = now_ms;
	for (size_t i = job->act_count; i-- > 0;) {
		const struct act *a = &job->acts[i];
		if (a->kind == ACT_SHIFT_END && t->begin == NULL && !t->runs)
			t->to_ms = a->at_ms < t->to_ms ? a->at_ms : t->to_ms;
		if (a->kind == ACT_SHIFT_BEGIN) {
			t->begin = a;
			t->from_ms = a->at_ms;
			break;
		}
	}
	t->runs = sb_job_shift(job) != NULL;
}

/* When the joint was first logged. */
static int64_t first_logged(const struct job *job, const struct reading *r)
{
	while (r->corrects) {
		const struct reading *old = sb_job_reading(job, r->corrects);
		if (old == NULL)
			break;
		r = old;
	}
	return r->at_ms;
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

static void take_returns(struct shift *t, const struct reading *r)
{
	if (r->returns == RETURNS_UNSAID)
		return;
	t->returns = r->returns;
	if (r->returns == RETURNS_FULL)
		return;
	t->returns_joint = r->joint;
	if (r->returns > t->worst_returns)
		t->worst_returns = r->returns;
}

static void take_row(struct shift *t, const struct row *row)
{
	if (!row->on_path)
		return;
	if (row->window.joints > 0 &&
		(t->tightest == NULL || row->window.radius_m < t->tightest->window.radius_m))
		t->tightest = row;
	if (t->tightest_joint == NULL || row->radius_m < t->tightest_joint->radius_m)
		t->tightest_joint = row;
	if (t->farthest == NULL || row->use.share > t->farthest->use.share)
		t->farthest = row;
}

static bool in_ground(const struct job *job, const struct reading *r)
{
	return sb_job_joint(job, r->joint) == r;
}

/* ---- time ---- */

static int minutes_of(const char *clock)
{
	if (clock[0] == '\0')
		return -1;
	return (clock[0] - '0') * 600 + (clock[1] - '0') * 60 + (clock[3] - '0') * 10 + (clock[4] - '0');
}

static int since(int from, int to)
{
	return (to - from + DAY) % DAY;
}

struct clock_walk {
	int *gaps, *joints;
	size_t count;
	int before; /* end of the joint before; -1: the first is to come */
	bool whole;
	double minutes;
};

static void take_clock(struct clock_walk *c, const struct reading *r)
{
	int start = minutes_of(r->started), end = minutes_of(r->ended);

	if (start < 0 || end < 0) {
		c->whole = false;
		return;
	}
	if (c->before >= 0) {
		c->gaps[c->count] = since(c->before, start);
		c->joints[c->count] = r->joint;
		c->minutes += c->gaps[c->count++];
	}
	c->minutes += since(start, end);
	c->before = end;
}

static int by_size(const void *a, const void *b)
{
	int x = *(const int *)a, y = *(const int *)b;

	return (x > y) - (x < y);
}

static int usual_gap(const int *gaps, size_t count)
{
	int *sorted = sb_alloc(count * sizeof *sorted);

	memcpy(sorted, gaps, count * sizeof *sorted);
	qsort(sorted, count, sizeof *sorted, by_size);
	int middle = sorted[count / 2] * USUAL_TIMES;
	sb_free(sorted);
	return middle > USUAL_LEAST ? middle : USUAL_LEAST;
}

static void keep_gap(struct shift *t, int joint, int minutes)
{
	struct shift_gap gap = { joint, minutes };

	t->lost += minutes;
	for (size_t i = 0; i < SHIFT_GAPS; i++)
		if (gap.minutes > t->gaps[i].minutes) {
			struct shift_gap pushed = t->gaps[i];
			t->gaps[i] = gap;
			gap = pushed;
		}
}

static void finish_clock(struct clock_walk *c, struct shift *t)
{
	t->timed = c->whole && t->joints > 0;
	if (t->timed)
		t->minutes = c->minutes;
	else
		t->minutes = t->begin ? (double)(t->to_ms - t->from_ms) / 60000 : -1;
	if (c->count == 0)
		return;
	int usual = usual_gap(c->gaps, c->count);
	for (size_t i = 0; i < c->count; i++)
		if (c->gaps[i] > usual)
			keep_gap(t, c->joints[i], c->gaps[i]);
}

/* ---- the shift ---- */

static void take_joint(const struct job *job, struct shift *t, const struct reading *r)
{
	if (t->joints++ == 0)
		t->first = r->joint;
	t->last = r->joint;
	t->length += r->joint_length.value;
	t->withdrawn += !in_ground(job, r);
	widen(&t->standpipe, &r->standpipe);
	widen(&t->annular, &r->annular);
	take_returns(t, r);
}

void shift_take(const struct job *job, const struct solution *s, int64_t now_ms, struct shift *out)
{
	struct clock_walk c = { .gaps = sb_alloc((job->joint_count + 1) * sizeof(int)),
		.joints = sb_alloc((job->joint_count + 1) * sizeof(int)),
		.before = -1,
		.whole = true };

	memset(out, 0, sizeof *out);
	find_shift(job, now_ms, out);
	for (size_t i = 0; i < job->joint_count; i++) {
		const struct reading *r = &job->readings[job->joints[i]];
		if (!shift_holds(out, first_logged(job, r)))
			continue;
		take_joint(job, out, r);
		take_clock(&c, r);
		if (in_ground(job, r) && (size_t)r->joint < s->path.count)
			take_row(out, &s->path.rows[r->joint]);
	}
	finish_clock(&c, out);
	sb_free(c.gaps);
	sb_free(c.joints);
}
