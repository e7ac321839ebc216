/* Linear expressions of the unknowns, and the terms that are made of one: what each adds to the value, the
 * gradient and the banded matrix of second derivatives. t stands apart, as a border of one row.
 */
#include "geom/steer.h"

#include <math.h>

#include "steer_parts.h"

/* ---- expressions ---- */

void sb_steer_row_add(struct row *r, int at, double by)
{
	if (at == NOWHERE || by == 0)
		return;
	for (int i = 0; i < r->count; i++)
		if (r->at[i] == at) {
			r->by[i] += by;
			return;
		}
	r->at[r->count] = at;
	r->by[r->count++] = by;
}

/* Heading off the design at the end of joint k (-1: the start). */
void sb_steer_row_heading(const struct steer_work *w, struct row *r, int k, int axis, double by)
{
	if (k < 0)
		r->rest += by * axis_of(w->p->heading, axis);
	else if (!(w->line && k == (int)w->p->count - 1))
		sb_steer_row_add(r, k * SLOTS + axis, by * radian);
}

void sb_steer_row_position(const struct steer_work *w, struct row *r, int k, int axis, double by)
{
	if (k < 0)
		r->rest += by * axis_of(w->p->start, axis);
	else if (!(w->line && k == (int)w->p->count - 1))
		sb_steer_row_add(r, k * SLOTS + POSITION + axis, by);
}

static double past_turn(const struct steer_problem *p, int k, int axis)
{
	size_t back = (size_t)(-1 - k);

	return back < p->past_count ? axis_of(p->past[back], axis) : 0;
}

/* The turn over joint k, planned or past. */
void sb_steer_row_turn(const struct steer_work *w, struct row *r, int k, int axis, double by)
{
	if (k < 0) {
		r->rest += by * past_turn(w->p, k, axis);
		return;
	}
	sb_steer_row_heading(w, r, k, axis, by);
	sb_steer_row_heading(w, r, k - 1, axis, -by);
	r->rest += by * axis_of(w->p->stages[k].design, axis);
}

void sb_steer_row_turns(const struct steer_work *w, struct row *r, int from, int to, int axis)
{
	int first = from > 0 ? from : 0;

	for (int k = from; k < 0 && k <= to; k++)
		r->rest += past_turn(w->p, k, axis);
	if (to < first)
		return;
	sb_steer_row_heading(w, r, to, axis, 1);
	sb_steer_row_heading(w, r, first - 1, axis, -1);
	for (int k = first; k <= to; k++)
		r->rest += axis_of(w->p->stages[k].design, axis);
}

double sb_steer_row_value(const struct steer_work *w, const struct row *r)
{
	double sum = r->rest;

	for (int i = 0; i < r->count; i++)
		sum += r->by[i] * w->x[r->at[i]];
	return sum;
}

/* ---- gathering gradient and matrix ---- */

static void add_entry(struct steer_work *w, int i, int j, double v)
{
	if (i == T && j == T) {
		w->corner += v;
	} else if (i == T || j == T) {
		if (j == T)
			w->border[i] += v; /* each pair comes twice; once is kept */
	} else if (j <= i) {
		w->matrix[i][j - i + w->band] += v;
	}
}

static void add_outer(struct steer_work *w, const struct row *a, const struct row *b, double v)
{
	if (v == 0)
		return;
	for (int i = 0; i < a->count; i++)
		for (int j = 0; j < b->count; j++)
			add_entry(w, a->at[i], b->at[j], v * a->by[i] * b->by[j]);
}

static void add_slope(struct steer_work *w, const struct row *r, double v)
{
	for (int i = 0; i < r->count; i++)
		w->gradient[r->at[i]] += v * r->by[i];
}

static void note_pull(struct steer_work *w, const struct row *r, double v, enum steer_limit kind, int stage)
{
	for (int i = 0; i < r->count; i++)
		if (r->at[i] == T) {
			w->pull[kind] -= v * r->by[i];
			w->pull_stage[kind][stage] -= v * r->by[i];
		}
}

/* theta/2 weight r^2 */
void sb_steer_row_square(struct sum *s, const struct row *r, double weight)
{
	double v = sb_steer_row_value(s->w, r), k = s->w->theta * weight;

	s->total += k * v * v / 2;
	if (s->derivatives) {
		add_slope(s->w, r, k * v);
		add_outer(s->w, r, r, k);
	}
}

void sb_steer_row_linear(struct sum *s, const struct row *r, double weight)
{
	s->total += s->w->theta * weight * sb_steer_row_value(s->w, r);
	if (s->derivatives)
		add_slope(s->w, r, s->w->theta * weight);
}

/* -log r: r stays above nothing. */
void sb_steer_row_log(struct sum *s, const struct row *r, enum steer_limit kind, int stage)
{
	double v = sb_steer_row_value(s->w, r);

	if (!(v > 0)) {
		s->inside = false;
		return;
	}
	s->total -= log(v);
	if (!s->derivatives)
		return;
	s->w->terms++;
	add_slope(s->w, r, -1 / v);
	add_outer(s->w, r, r, 1 / (v * v));
	note_pull(s->w, r, -1 / v, kind, stage);
}

/* -log (a^2 - b^2 - c^2): the pair (b, c) stays shorter than a. */
void sb_steer_row_cone(struct sum *s, const struct row rows[3], enum steer_limit kind, int stage)
{
	double v[3], g[3];

	for (int i = 0; i < 3; i++)
		v[i] = sb_steer_row_value(s->w, &rows[i]);
	double pair = sqrt(v[1] * v[1] + v[2] * v[2]), room = (v[0] - pair) * (v[0] + pair);
	if (!(v[0] > 0 && room > 0)) {
		s->inside = false;
		return;
	}
	s->total -= log(room);
	if (!s->derivatives)
		return;
	s->w->terms += 2;
	for (int i = 0; i < 3; i++)
		g[i] = (i == 0 ? -2 : 2) * v[i] / room;
	for (int i = 0; i < 3; i++) {
		add_slope(s->w, &rows[i], g[i]);
		for (int j = 0; j < 3; j++)
			add_outer(s->w, &rows[i], &rows[j],
				g[i] * g[j] +
					(i != j			 ? 0
							: i == 0 ? -2 / room
								 : 2 / room));
	}
	note_pull(s->w, &rows[0], g[0], kind, stage);
}
