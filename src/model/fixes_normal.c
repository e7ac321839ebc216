/* The fixes as one adjustment: which terms may be corrected, one observation for each component of each fix,
 * and the covariance of them all. geom/adjust.h solves it. */
#include "base/mem.h"

#include <math.h>

#include "fixes_parts.h"

void sb_normal_clear(struct normal *n)
{
	sb_free(n->observed);
	sb_free(n->effect);
	sb_free(n->covariance);
	sb_free(n->fix);
	sb_free(n->axis);
	sb_free(n->view);
	sb_free(n->places);
	sb_free(n->work);
}

static void add_fix(const struct carried_path *c, const struct fix_view *v, size_t at, struct normal *n)
{
	struct adjust_problem *p = &n->problem;

	n->view[n->fixes] = at;
	n->places[n->fixes] = sb_carried_place(c, v->md_m);
	for (int k = 0; k < FIX_AXES; k++) {
		if (!v->seen[k])
			continue;
		n->observed[p->count] = v->read_m[k];
		n->fix[p->count] = (int)n->fixes;
		n->axis[p->count] = k;
		for (size_t j = 0; j < p->terms; j++)
			n->effect[p->count * p->terms + j] = sb_vec3_dot(
				v->axis[k], sb_carried_effect(c, &n->places[n->fixes], n->term[j]));
		p->count++;
	}
	n->fixes++;
}

static void fill_covariance(const struct carried_path *c, const struct fix_view *list, struct normal *n)
{
	size_t count = n->problem.count;

	for (size_t i = 0; i < count; i++)
		for (size_t k = 0; k <= i; k++) {
			const struct fix_view *a = &list[n->view[n->fix[i]]], *b = &list[n->view[n->fix[k]]];
			double rest[3][3];
			sb_carried_rest(c, &n->places[n->fix[i]], &n->places[n->fix[k]], rest);
			double own = i == k ? a->own_sigma_m[n->axis[i]] : 0;
			n->covariance[i * count + k] = n->covariance[k * count + i] =
				sb_carried_between(rest, a->axis[n->axis[i]], b->axis[n->axis[k]]) +
				own * own;
		}
}

static void make_room(struct normal *n)
{
	n->observed = sb_alloc((size_t)ADJUST_COUNT * sizeof *n->observed);
	n->effect = sb_alloc((size_t)ADJUST_COUNT * CORRECT_TERMS * sizeof *n->effect);
	n->fix = sb_alloc((size_t)ADJUST_COUNT * sizeof *n->fix);
	n->axis = sb_alloc((size_t)ADJUST_COUNT * sizeof *n->axis);
	n->view = sb_alloc((size_t)ADJUST_FIXES * sizeof *n->view);
	n->places = sb_alloc((size_t)ADJUST_FIXES * sizeof *n->places);
}

void sb_normal_solve(
	const struct carried_path *c, const struct fixes *f, const bool *wanted, struct normal *n)
{
	size_t skip = 0;

	*n = (struct normal){ .status = ADJUST_RANGE };
	make_room(n);
	for (int t = 0; t < CORRECT_TERMS; t++) {
		double prior = sb_carried_prior(c, t);
		if (!(prior > 0))
			continue;
		n->prior[n->problem.terms] = prior;
		n->term[n->problem.terms++] = t;
	}
	for (size_t i = 0; i < f->count; i++)
		skip += wanted[i];
	skip = skip > ADJUST_FIXES ? skip - ADJUST_FIXES : 0;
	for (size_t i = 0; i < f->count; i++)
		if (wanted[i] && skip-- == 0) {
			skip = 0;
			add_fix(c, &f->list[i], i, n);
		}
	n->covariance = sb_alloc((n->problem.count * n->problem.count + 1) * sizeof *n->covariance);
	fill_covariance(c, f->list, n);
	n->work = sb_alloc(sb_adjust_work(n->problem.count, n->problem.terms) * sizeof *n->work);
	n->problem.prior = n->prior;
	n->problem.observed = n->observed;
	n->problem.effect = n->effect;
	n->problem.covariance = n->covariance;
	n->problem.fix = n->fix;
	n->problem.false_alarm = 1 - f->confidence;
	if (n->problem.terms > 0 && n->problem.count > 0)
		n->status = sb_adjust_solve(&n->problem, n->work, &n->answer);
}
