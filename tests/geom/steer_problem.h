/* Steering problems by chance that every run repeats, and what an answer to one must hold: the hole follows
 * from the turns, and every limit is kept. Ranges are those of crossings, and somewhat past them; all
 * invented.
 */
#ifndef TESTS_GEOM_STEER_PROBLEM_H
#define TESTS_GEOM_STEER_PROBLEM_H

#include "geom/random.h"
#include "geom/steer.h"
#include "support/near.h"

#include <string.h>

static inline struct steer_pair random_pair(struct random *r, double size)
{
	double up = size * random_normal(r);

	return (struct steer_pair){ up, size * random_normal(r) };
}

/* A plain problem: straight design, no limit but the joint's length. */
static inline void plain_problem(
	struct steer_problem *p, size_t count, double length, double yield, enum steer_end end)
{
	memset(p, 0, sizeof *p);
	p->count = count;
	p->end = end;
	p->turn_weight = p->line_weight = 1e-9;
	p->end_up = p->end_down = p->end_left = p->end_right = HUGE_VAL;
	for (size_t k = 0; k < count; k++)
		p->stages[k] = (struct steer_stage){ .length = length,
			.gain = { 1, 1 },
			.yield = yield,
			.joint_limit = HUGE_VAL,
			.window_limit = HUGE_VAL,
			.up = HUGE_VAL,
			.down = HUGE_VAL,
			.left = HUGE_VAL,
			.right = HUGE_VAL };
}

static inline double random_side(struct random *r)
{
	double u = random_unit(r), some = random_between(r, 0.1, 6);

	return u < 0.1 ? 0 : u < 0.25 ? HUGE_VAL : some;
}

/* The limits that all joints of a problem share. turn: what a joint can be turned at most. */
static inline void random_limits(struct random *r, struct steer_problem *p, double turn)
{
	double joint = random_unit(r) < 0.2 ? HUGE_VAL : random_between(r, 0.2, 1.5) * turn;
	int joints = 1 + (int)(random_unit(r) * 6);
	double window = random_unit(r) < 0.2 ? HUGE_VAL : random_between(r, 0.3, 1.2) * joints * turn;
	double part = random_unit(r) < 0.5 ? 0 : random_unit(r);
	double up = random_side(r), down = random_side(r), left = random_side(r), right = random_side(r);

	for (size_t k = 0; k < p->count; k++) {
		struct steer_stage *s = &p->stages[k];
		s->joint_limit = joint;
		s->window_limit = window;
		s->window_from = (int)k - joints + 1;
		s->window_part = part;
		s->up = up;
		s->down = down;
		s->left = left;
		s->right = right;
	}
}

/* Any problem of at most so many joints. */
static inline void random_problem(struct random *r, size_t most, struct steer_problem *p)
{
	size_t count = 1 + (size_t)(random_unit(r) * (double)most);
	double length = random_between(r, 3, 15), yield = 5e-4 * pow(40, random_unit(r));
	double turn = yield * length;

	plain_problem(
		p, count < most ? count : most, length, yield, (enum steer_end)(int)(random_unit(r) * 4));
	p->by_sum = random_unit(r) < 0.4;
	if (random_unit(r) < 0.9) {
		p->start = random_pair(r, pow(10, random_between(r, -3, 1)));
		p->heading = random_pair(r, pow(10, random_between(r, -4, -1)));
	}
	p->turn_weight = random_unit(r) < 0.5 ? 3000 : 1e-6;
	p->line_weight = random_unit(r) < 0.5 ? 1 : 1e-6;
	random_limits(r, p, turn);
	p->past_count = (size_t)(random_unit(r) * 8);
	for (size_t i = 0; i < p->past_count; i++)
		p->past[i] = random_pair(r, 0.2 * turn);
	struct steer_pair drift = random_pair(r, random_unit(r) < 0.3 ? 0 : 0.15 * yield), design = { 0, 0 };
	for (size_t k = 0; k < p->count; k++) {
		struct steer_stage *s = &p->stages[k];
		if (random_unit(r) < 0.1)
			s->length = random_between(r, 3, 15);
		if (random_unit(r) < 0.1)
			design = random_pair(r, random_unit(r) < 0.5 ? 0 : 0.25 * turn);
		s->gain.up = random_between(r, 1, 1.1);
		s->design = design;
		s->drift = drift;
		if (random_unit(r) < 0.03) {
			s->plane_count = 1;
			s->planes[0] = (struct steer_plane){ { 0.6, 0.8 }, random_between(r, 0, 2) };
		}
	}
	p->end_up = p->end_down = random_between(r, 0.1, 5);
	p->end_left = p->end_right = 2 * p->end_up;
	if (random_unit(r) < 0.5)
		p->end_at = random_pair(r, 2);
	double off = random_unit(r) < 0.2 ? 0 : random_between(r, 0, 0.02);
	p->end_heading = (struct steer_pair){ off, 1.5 * off };
}

/* ---- what must hold ---- */

/* The turn over joint k of the answer, or of the past; nothing further back. */
static inline struct steer_pair turn_at(const struct steer_problem *p, const struct steer_step *steps, int k)
{
	if (k >= 0)
		return steps[k].turn;
	return (size_t)(-1 - k) < p->past_count ? p->past[-1 - k] : (struct steer_pair){ 0, 0 };
}

static inline double window_turn(const struct steer_problem *p, const struct steer_step *steps, int k)
{
	const struct steer_stage *s = &p->stages[k];
	struct steer_pair ends = { 0, 0 };
	double sum = 0;

	for (int j = s->window_from - 1; j <= k; j++) {
		double share = j < s->window_from ? s->window_part : 1;
		struct steer_pair t = turn_at(p, steps, j);
		ends.up += share * t.up;
		ends.right += share * t.right;
		sum += share * hypot(t.up, t.right);
	}
	return p->by_sum ? sum : hypot(ends.up, ends.right);
}

/* By how much of itself a limit is passed; less than nothing inside. least: what the limit counts as at
 * least. */
static inline double passed(double value, double limit, double least)
{
	return isinf(limit) ? -1 : (value - limit) / fmax(limit, least);
}

static inline double box_passed(struct steer_pair at, double up, double down, double left, double right)
{
	return fmax(fmax(passed(at.up, up, 0.3), passed(-at.up, down, 0.3)),
		fmax(passed(at.right, right, 0.3), passed(-at.right, left, 0.3)));
}

/* The largest share that any limit is passed by. */
static inline double worst_passed(const struct steer_problem *p, const struct steer_step *steps)
{
	double worst = -1;

	for (size_t k = 0; k < p->count; k++) {
		const struct steer_stage *s = &p->stages[k];
		const struct steer_step *a = &steps[k];
		struct steer_pair at = a->position;
		bool fixed = p->end == STEER_LINE && k + 1 == p->count; /* on the line itself */
		worst = fmax(worst, passed(hypot(a->turn.up, a->turn.right), s->joint_limit, 0));
		worst = fmax(worst, passed(window_turn(p, steps, (int)k), s->window_limit, 0));
		worst = fmax(worst, passed(a->slid, s->length, 0));
		if (fixed)
			continue;
		worst = fmax(worst, box_passed(at, s->up, s->down, s->left, s->right));
		for (size_t i = 0; i < s->plane_count; i++)
			worst = fmax(worst,
				passed(s->planes[i].a.up * at.up + s->planes[i].a.right * at.right,
					s->planes[i].b, 0.3));
	}
	struct steer_pair end = steps[p->count - 1].position;
	end = (struct steer_pair){ end.up - p->end_at.up, end.right - p->end_at.right };
	if (p->end == STEER_WINDOW || p->end == STEER_NEAR)
		worst = fmax(worst, box_passed(end, p->end_up, p->end_down, p->end_left, p->end_right));
	struct steer_pair heading = steps[p->count - 1].heading;
	if (p->end == STEER_NEAR)
		worst = fmax(worst,
			fmax(passed(fabs(heading.up), fmax(p->end_heading.up, 1e-6), 0.005),
				passed(fabs(heading.right), fmax(p->end_heading.right, 1e-6), 0.005)));
	return worst;
}

/* Positions and headings from the turns alone, beginning at the start. */
static inline void follow_turns(const struct steer_problem *p, struct steer_step *steps)
{
	struct steer_pair h = p->heading, at = p->start;

	for (size_t k = 0; k < p->count; k++) {
		const struct steer_stage *s = &p->stages[k];
		struct steer_pair next = { h.up + steps[k].turn.up - s->design.up,
			h.right + steps[k].turn.right - s->design.right };
		at.up += s->length * s->gain.up * (h.up + next.up) / 2;
		at.right += s->length * s->gain.right * (h.right + next.right) / 2;
		steps[k].position = at;
		steps[k].heading = h = next;
	}
}

/* The least that must be slid for a turn: |n - (L - s) d| = y s, found by halving. */
static inline double least_slide(const struct steer_stage *s, struct steer_pair n)
{
	double low = 0, high = 1e6;

	for (int i = 0; i < 100; i++) {
		double slid = (low + high) / 2, rotated = s->length - slid;
		double rest = hypot(n.up - rotated * s->drift.up, n.right - rotated * s->drift.right);
		*(rest <= s->yield * slid ? &high : &low) = slid;
	}
	return high;
}

static inline double cost_of_steps(const struct steer_problem *p, const struct steer_step *steps)
{
	double sum = 0;

	for (size_t k = 0; k < p->count; k++) {
		double up = steps[k].turn.up - p->stages[k].design.up,
		       right = steps[k].turn.right - p->stages[k].design.right;
		sum += steps[k].slid + p->turn_weight * (up * up + right * right) +
			p->line_weight * (pow(steps[k].position.up, 2) + pow(steps[k].position.right, 2));
	}
	return sum;
}

#endif
