/* Steering as a convex problem, by a barrier method.
 *
 * Two phases. The first looks for a way at all: every limit is eased by a share t of itself, and only t
 * counts. Where t cannot come below nothing there is no way, t is how much the limits are short by, and what
 * pulls on t says which limit it is. The second starts from the point that the first found strictly inside
 * every limit, and looks for the least cost. A start for the first is always at hand: the gentlest line that
 * meets the ends, and t large enough for it.
 *
 * Source: Boyd and Vandenberghe, Convex Optimization (2004), 9.5, 10.2, 11.2-11.3.
 */
#include "geom/steer.h"

#include <math.h>
#include <string.h>

#include "steer_parts.h"

/* The barrier's weight grows by this from centre to centre: boldly, and where that got stuck, carefully. */
static const double grow = 40, grow_carefully = 5;
static const double accuracy = 1e-4, enough_room = 1e-3;
/* The gap at a centre of m terms is m / theta; at one that is met only nearly, Newton's decrement d below
 * 0.22, it is (m + d (d + sqrt m) / (1 - d)) / theta at most: a fifth more, from three terms up. (Nesterov,
 * Introductory Lectures on Convex Optimization, 2004, 4.2.) */
static const double nearly = 1.2;

size_t sb_steer_work_size(void)
{
	return sizeof(struct steer_work);
}

static bool finite_pair(struct steer_pair v)
{
	return isfinite(v.up) && isfinite(v.right);
}

static bool sound_stage(const struct steer_stage *s, int k)
{
	bool good = s->length > 0 && s->yield > hypot(s->drift.up, s->drift.right) && isfinite(s->length) &&
		isfinite(s->yield) && finite_pair(s->design) && finite_pair(s->drift) && s->gain.up > 0 &&
		s->gain.right > 0 && finite_pair(s->gain);

	good = good && s->joint_limit > 0 && s->window_limit > 0 && s->up >= 0 && s->down >= 0 &&
		s->left >= 0 && s->right >= 0 && s->window_from <= k && s->window_from >= -STEER_PAST &&
		s->window_part >= 0 && s->window_part <= 1 && s->plane_count <= 2;
	for (size_t i = 0; good && i < s->plane_count; i++)
		good = finite_pair(s->planes[i].a) && isfinite(s->planes[i].b);
	return good;
}

static bool sound(const struct steer_problem *p)
{
	bool good = p->count >= 1 && p->count <= STEER_STAGES && p->past_count <= STEER_PAST &&
		p->turn_weight > 0 && isfinite(p->turn_weight) && p->line_weight > 0 &&
		isfinite(p->line_weight) && finite_pair(p->start) && finite_pair(p->heading);

	if (p->end == STEER_WINDOW || p->end == STEER_NEAR)
		good = good && p->end_up >= 0 && p->end_down >= 0 && p->end_left >= 0 && p->end_right >= 0 &&
			finite_pair(p->end_at);
	if (p->end == STEER_NEAR)
		good = good && p->end_heading.up >= 0 && p->end_heading.right >= 0 &&
			finite_pair(p->end_heading);
	for (size_t i = 0; good && i < p->past_count; i++)
		good = finite_pair(p->past[i]);
	for (size_t k = 0; good && k < p->count; k++)
		good = sound_stage(&p->stages[k], (int)k);
	return good;
}

static void set_band(struct steer_work *w)
{
	int reach = 1;

	for (int k = 0; k < (int)w->p->count; k++) {
		const struct steer_stage *s = &w->p->stages[k];
		if (isinf(s->window_limit))
			continue;
		int from = s->window_from - 1 - (s->window_part > 0);
		int far = k - (from < 0 ? 0 : from);
		reach = far > reach ? far : reach;
	}
	w->size = (int)w->p->count * SLOTS;
	w->band = reach * SLOTS + SLOTS - 1;
	if (w->band > w->size - 1)
		w->band = w->size - 1;
}

static struct steer_pair turn_of(const struct steer_work *w, int k)
{
	struct row rows[2];

	sb_steer_rows_begin(rows, 2);
	for (int axis = 0; axis < 2; axis++)
		sb_steer_row_turn(w, &rows[axis], k, axis, 1);
	return (struct steer_pair){ sb_steer_row_value(w, &rows[0]), sb_steer_row_value(w, &rows[1]) };
}

/* The gentlest line that meets the ends, slides to match with room to spare, and t to let all of it pass. */
static bool start(struct steer_work *w)
{
	memset(w->x, 0, sizeof w->x);
	w->theta = 1;
	sb_steer_terms_evaluate(w, true, false);
	for (int k = 0; k < (int)w->p->count; k++) { /* slides and sizes have no say in it */
		w->matrix[k * SLOTS + SLID][w->band] += 1;
		if (w->p->by_sum)
			w->matrix[k * SLOTS + SIZE][w->band] += 1;
	}
	/* It does not keep the ties yet, so the step may well go uphill. */
	if (isinf(sb_steer_newton_step(w, false)))
		return false;
	double from[MOST + 1];
	memcpy(from, w->x, sizeof from);
	sb_steer_newton_move(w, from, 1);
	for (int k = 0; k < (int)w->p->count; k++) {
		const struct steer_stage *s = &w->p->stages[k];
		struct steer_pair n = turn_of(w, k);
		double rest = hypot(n.up - s->length * s->drift.up, n.right - s->length * s->drift.right);
		double slid = rest / (s->yield - hypot(s->drift.up, s->drift.right));
		w->x[k * SLOTS + SLID] = 1.2 * slid + 0.1 * s->length;
		if (w->p->by_sum)
			w->x[k * SLOTS + SIZE] = (1.2 * hypot(n.up, n.right) + 1e-3) / radian;
	}
	for (double t = 0.5; t < 1e7; t *= 2) {
		w->x[T] = t;
		if (sb_steer_terms_evaluate(w, false, true).inside)
			return true;
	}
	return false;
}

static void write_steps(const struct steer_work *w, struct steer_answer *a)
{
	const struct steer_problem *p = w->p;
	struct steer_pair h = p->heading, at = p->start;

	for (int k = 0; k < (int)p->count; k++) {
		const struct steer_stage *s = &p->stages[k];
		struct steer_step *out = &a->steps[k];
		bool end = w->line && k == (int)p->count - 1;
		struct steer_pair next = { end ? 0 : w->x[k * SLOTS + UP] * radian,
			end ? 0 : w->x[k * SLOTS + RIGHT] * radian };
		out->turn = (struct steer_pair){ next.up - h.up + s->design.up,
			next.right - h.right + s->design.right };
		at.up += s->length * s->gain.up * (h.up + next.up) / 2;
		at.right += s->length * s->gain.right * (h.right + next.right) / 2;
		out->position = at;
		out->heading = h = next;
		out->slid = fmin(w->x[k * SLOTS + SLID], s->length * (1 + fmax(w->x[T], 0)));
		double rotated = s->length - out->slid;
		out->slide = (struct steer_pair){ (out->turn.up - rotated * s->drift.up) / s->yield,
			(out->turn.right - rotated * s->drift.right) / s->yield };
	}
}

static double cost_of(const struct steer_work *w, const struct steer_answer *a)
{
	const struct steer_problem *p = w->p;
	double sum = 0;

	for (size_t k = 0; k < p->count; k++) {
		const struct steer_step *s = &a->steps[k];
		double up = s->turn.up - p->stages[k].design.up,
		       right = s->turn.right - p->stages[k].design.right;
		sum += s->slid + p->turn_weight * (up * up + right * right);
		sum += p->line_weight *
			(s->position.up * s->position.up + s->position.right * s->position.right);
	}
	return sum;
}

/* Which kind of limit pulls hardest on t, and where first. To be near the line is the aim, not what stands in
 * its way. */
static void name_limit(const struct steer_work *w, struct steer_answer *a)
{
	int kinds = w->p->end == STEER_NEAR ? STEER_LIMIT_END : KINDS;

	a->limit = STEER_LIMIT_NONE;
	a->stage = 0;
	for (int kind = 1; kind < kinds; kind++)
		if (w->pull[kind] > (a->limit == STEER_LIMIT_NONE ? 0 : w->pull[a->limit]))
			a->limit = (enum steer_limit)kind;
	double most = 0;
	for (size_t k = 0; k < w->p->count; k++)
		most = fmax(most, w->pull_stage[a->limit][k]);
	while (a->stage + 1 < w->p->count && w->pull_stage[a->limit][a->stage] < 0.3 * most)
		a->stage++;
}

static enum steer_status no_way(const struct steer_work *w, struct steer_answer *out)
{
	out->short_by = w->x[T];
	name_limit(w, out);
	return STEER_INFEASIBLE;
}

/* Whether there is a way at all. The point it ends at is strictly inside every limit if there is. */
static enum steer_status find_way(struct steer_work *w, double growth, struct steer_answer *out)
{
	bool proven = false;

	w->easing = true;
	if (!start(w))
		return STEER_STUCK;
	sb_steer_terms_evaluate(w, true, true);
	for (w->theta = w->terms / fmax(w->x[T], 0.1); w->theta < 1e10; w->theta *= growth) {
		int n = sb_steer_newton_centre(w, -enough_room, 1e-2);
		if (n < 0)
			return proven ? no_way(w, out) : STEER_STUCK;
		out->iterations += n;
		/* Twice the gap of the central path, which is met only nearly. */
		double least = w->x[T] - 2 * w->terms / w->theta;
		if (w->x[T] < -enough_room || (w->x[T] < 0 && least > -2 * enough_room))
			return STEER_OPTIMAL;
		proven = proven || least > 0;
		if (least > 0.9 * w->x[T])
			return no_way(w, out);
	}
	/* Else there may be a way, but only along the very limits: too narrow to drill. */
	return w->x[T] < 0 ? STEER_OPTIMAL : no_way(w, out);
}

/* One joint has no freedom left when it must end on the line and tangent to it: it does, or it does not. */
static bool one_joint_misses(const struct steer_problem *p)
{
	const struct steer_stage *s = &p->stages[0];

	return p->end == STEER_LINE && p->count == 1 &&
		hypot(p->start.up + s->length * s->gain.up * p->heading.up / 2,
			p->start.right + s->length * s->gain.right * p->heading.right / 2) > 1e-9;
}

static enum steer_status look(const struct steer_problem *p, struct steer_work *w, struct steer_answer *out)
{
	if (!sound(p))
		return STEER_RANGE;
	w->p = p;
	w->line = p->end == STEER_LINE;
	set_band(w);
	out->iterations = 0;
	out->short_by = 0;
	out->limit = STEER_LIMIT_NONE;
	out->cost = out->gap = 0;
	out->stage = 0;
	if (one_joint_misses(p)) {
		memset(w->x, 0, sizeof w->x);
		out->limit = STEER_LIMIT_END;
		out->short_by = 1;
		return STEER_INFEASIBLE;
	}
	enum steer_status status = find_way(w, grow, out);
	return status == STEER_STUCK ? find_way(w, grow_carefully, out) : status;
}

enum steer_status sb_steer_feasible(const struct steer_problem *p, void *work, struct steer_answer *out)
{
	struct steer_work *w = work;
	enum steer_status status = look(p, w, out);

	if (status == STEER_INFEASIBLE)
		write_steps(w, out);
	return status;
}

enum steer_status sb_steer_solve(const struct steer_problem *p, void *work, struct steer_answer *out)
{
	struct steer_work *w = work;
	enum steer_status status = sb_steer_feasible(p, work, out);
	double reach = 0, kept[MOST + 1];

	if (status != STEER_OPTIMAL)
		return status;
	for (size_t k = 0; k < p->count; k++)
		reach += p->stages[k].length;
	w->easing = false;
	w->x[T] = 0;
	write_steps(w, out);
	w->theta = 1;
	sb_steer_terms_evaluate(w, true, true);
	w->theta = w->terms / fmax(cost_of(w, out), 0.01 * reach);
	for (bool last = false; !last; w->theta *= grow) {
		last = w->terms / w->theta < accuracy * reach;
		memcpy(kept, w->x, sizeof kept);
		int n = sb_steer_newton_centre(w, 0, last ? 1e-6 : 1e-2);
		if (n < 0) {
			/* Rounding ends it early: the centre before holds, with its wider gap. */
			memcpy(w->x, kept, sizeof kept);
			break;
		}
		out->iterations += n;
		out->gap = nearly * w->terms / w->theta;
	}
	if (out->gap == 0)
		return STEER_STUCK;
	write_steps(w, out);
	out->cost = cost_of(w, out);
	return STEER_OPTIMAL;
}
