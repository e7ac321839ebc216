/* Least squares with correlated observations the plain way, for tests: the inverse of C, normal equations,
 * all in long double by Gauss and Jordan with full pivoting. Nothing of geom/adjust.c is in it. */
#ifndef TESTS_GEOM_PLAIN_SQUARES_H
#define TESTS_GEOM_PLAIN_SQUARES_H

#include "geom/adjust.h"

#include <math.h>
#include <string.h>

enum { PLAIN = ADJUST_COUNT + ADJUST_TERMS };
struct plain {
	long double at[PLAIN][PLAIN];
};

/* a becomes its inverse. */
static inline void plain_invert(struct plain *a, int n)
{
	static struct plain b;
	int row_of[PLAIN], used[PLAIN] = { 0 };

	memset(&b, 0, sizeof b);
	for (int i = 0; i < n; i++)
		b.at[i][i] = 1;
	for (int step = 0; step < n; step++) {
		int row = -1, column = -1;
		for (int i = 0; i < n; i++)
			for (int j = 0; j < n && !used[i]; j++)
				if (row < 0 || fabsl(a->at[i][j]) > fabsl(a->at[row][column])) {
					row = i;
					column = j;
				}
		used[row] = 1;
		row_of[column] = row;
		long double pivot = a->at[row][column];
		for (int j = 0; j < n; j++) {
			a->at[row][j] /= pivot;
			b.at[row][j] /= pivot;
		}
		for (int i = 0; i < n; i++) {
			long double f = a->at[i][column];
			for (int j = 0; j < n && i != row; j++) {
				a->at[i][j] -= f * a->at[row][j];
				b.at[i][j] -= f * b.at[row][j];
			}
		}
	}
	for (int i = 0; i < n; i++)
		memcpy(a->at[i], b.at[row_of[i]], sizeof a->at[i]);
}

struct plain_answer {
	long double estimate[ADJUST_TERMS], covariance[ADJUST_TERMS][ADJUST_TERMS];
	long double residual[ADJUST_COUNT], chi_square;
	struct plain weight; /* C^-1 */
};

static inline void plain_solve(const struct adjust_problem *p, struct plain_answer *out)
{
	static struct plain normal;
	int n = (int)p->count, m = (int)p->terms;
	long double right[ADJUST_TERMS] = { 0 };

	for (int i = 0; i < n; i++)
		for (int k = 0; k < n; k++)
			out->weight.at[i][k] = p->covariance[i * n + k];
	plain_invert(&out->weight, n);
	memset(&normal, 0, sizeof normal);
	for (int a = 0; a < m; a++) {
		for (int i = 0; i < n; i++)
			for (int k = 0; k < n; k++) {
				long double w = p->effect[i * m + a] * out->weight.at[i][k];
				right[a] += w * p->observed[k];
				for (int b = 0; b < m; b++)
					normal.at[a][b] += w * p->effect[k * m + b];
			}
		if (isfinite(p->prior[a]))
			normal.at[a][a] += 1 / ((long double)p->prior[a] * p->prior[a]);
	}
	plain_invert(&normal, m);
	out->chi_square = 0;
	for (int a = 0; a < m; a++) {
		out->estimate[a] = 0;
		for (int b = 0; b < m; b++) {
			out->covariance[a][b] = normal.at[a][b];
			out->estimate[a] += normal.at[a][b] * right[b];
		}
		if (isfinite(p->prior[a]))
			out->chi_square += out->estimate[a] * out->estimate[a] / p->prior[a] / p->prior[a];
	}
	for (int i = 0; i < n; i++) {
		out->residual[i] = p->observed[i];
		for (int a = 0; a < m; a++)
			out->residual[i] -= p->effect[i * m + a] * out->estimate[a];
	}
	for (int i = 0; i < n; i++)
		for (int k = 0; k < n; k++)
			out->chi_square += out->residual[i] * out->weight.at[i][k] * out->residual[k];
}

#endif
