/* Adjustments for tests: random ones, and those of a bore with fixes. */
#ifndef TESTS_GEOM_ADJUST_CASE_H
#define TESTS_GEOM_ADJUST_CASE_H

#include "random.h"

#include "geom/adjust.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

struct adjust_case {
	struct adjust_problem problem;
	double prior[ADJUST_TERMS], observed[ADJUST_COUNT], effect[ADJUST_COUNT * ADJUST_TERMS];
	double covariance[ADJUST_COUNT * ADJUST_COUNT];
	int fix[ADJUST_COUNT];
	double *work;
	struct adjust_answer answer;
};

static inline struct adjust_case *adjust_case_new(size_t count, size_t terms, size_t parts)
{
	struct adjust_case *c = calloc(1, sizeof *c);

	assert(c);
	c->problem = (struct adjust_problem){ .terms = terms,
		.prior = c->prior,
		.count = count,
		.observed = c->observed,
		.effect = c->effect,
		.covariance = c->covariance,
		.fix = c->fix,
		.false_alarm = 0.05 };
	for (size_t i = 0; i < count; i++)
		c->fix[i] = (int)(i / parts);
	for (size_t j = 0; j < terms; j++)
		c->prior[j] = HUGE_VAL;
	c->work = malloc(sb_adjust_work(count, terms) * sizeof *c->work);
	assert(c->work);
	return c;
}

static inline void adjust_case_free(struct adjust_case *c)
{
	free(c->work);
	free(c);
}

static inline enum adjust_status adjust_case_solve(struct adjust_case *c)
{
	return sb_adjust_solve(&c->problem, c->work, &c->answer);
}

/* Every observation with the same sigma, on its own. */
static inline void adjust_case_alike(struct adjust_case *c, double sigma)
{
	for (size_t i = 0; i < c->problem.count; i++)
		c->covariance[i * c->problem.count + i] = sigma * sigma;
}

#endif
