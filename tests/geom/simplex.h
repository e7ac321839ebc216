/* A plain simplex method, for tests only: least c x with A x <= b, x >= 0. Two phases on a dense tableau,
 * Bland's rule, so that it ends. Source: Dantzig, Linear Programming and Extensions (1963); Bland (1977).
 */
#ifndef TESTS_GEOM_SIMPLEX_H
#define TESTS_GEOM_SIMPLEX_H

#include <math.h>
#include <stdbool.h>
#include <string.h>

enum { LP_ROWS = 160, LP_COLUMNS = 60, LP_ALL = LP_COLUMNS + 2 * LP_ROWS + 1 };

struct lp {
	int rows, columns;
	double a[LP_ROWS][LP_COLUMNS], b[LP_ROWS], c[LP_COLUMNS];
	double x[LP_COLUMNS], value; /* the answer */
	double tableau[LP_ROWS + 1][LP_ALL];
	int basis[LP_ROWS];
};

static inline void lp_pivot(struct lp *l, int row, int column)
{
	double by = l->tableau[row][column];

	for (int j = 0; j < LP_ALL; j++)
		l->tableau[row][j] /= by;
	for (int i = 0; i <= l->rows; i++) {
		double f = l->tableau[i][column];
		if (i == row || f == 0)
			continue;
		for (int j = 0; j < LP_ALL; j++)
			l->tableau[i][j] -= f * l->tableau[row][j];
	}
	l->basis[row] = column;
}

/* Works on the last row until nothing in it is below nothing, over the first `columns` columns. */
static inline void lp_improve(struct lp *l, int columns)
{
	for (;;) {
		int enter = 0, leave = -1;
		while (enter < columns && l->tableau[l->rows][enter] > -1e-9)
			enter++;
		if (enter == columns)
			return;
		double most = HUGE_VAL;
		for (int i = 0; i < l->rows; i++) {
			if (l->tableau[i][enter] < 1e-9)
				continue;
			double room = l->tableau[i][LP_ALL - 1] / l->tableau[i][enter];
			if (room < most - 1e-12 ||
				(room < most + 1e-12 && leave >= 0 && l->basis[i] < l->basis[leave])) {
				most = room;
				leave = i;
			}
		}
		if (leave < 0)
			return; /* without end: not in these problems */
		lp_pivot(l, leave, enter);
	}
}

static inline void lp_clear_basis(struct lp *l)
{
	for (int i = 0; i < l->rows; i++) {
		double f = l->tableau[l->rows][l->basis[i]];
		for (int j = 0; j < LP_ALL; j++)
			l->tableau[l->rows][j] -= f * l->tableau[i][j];
	}
}

/* False when there is no x at all. */
static inline bool lp_solve(struct lp *l)
{
	int made = l->columns + l->rows; /* the first artificial unknown */

	memset(l->tableau, 0, sizeof l->tableau);
	for (int i = 0; i < l->rows; i++) {
		double sign = l->b[i] < 0 ? -1 : 1;
		for (int j = 0; j < l->columns; j++)
			l->tableau[i][j] = sign * l->a[i][j];
		l->tableau[i][l->columns + i] = sign;
		l->tableau[i][LP_ALL - 1] = sign * l->b[i];
		l->basis[i] = sign > 0 ? l->columns + i : made + i;
		if (sign < 0) {
			l->tableau[i][made + i] = 1;
			l->tableau[l->rows][made + i] = 1;
		}
	}
	lp_clear_basis(l);
	lp_improve(l, made);
	if (l->tableau[l->rows][LP_ALL - 1] < -1e-7)
		return false;
	for (int i = 0; i < l->rows; i++) /* artificial ones that are nothing leave by any way */
		for (int j = 0; l->basis[i] >= made && j < made; j++)
			if (fabs(l->tableau[i][j]) > 1e-7)
				lp_pivot(l, i, j);
	memset(l->tableau[l->rows], 0, sizeof l->tableau[l->rows]);
	memcpy(l->tableau[l->rows], l->c, (size_t)l->columns * sizeof *l->c);
	lp_clear_basis(l);
	lp_improve(l, made);
	l->value = -l->tableau[l->rows][LP_ALL - 1];
	memset(l->x, 0, sizeof l->x);
	for (int i = 0; i < l->rows; i++)
		if (l->basis[i] < l->columns)
			l->x[l->basis[i]] = l->tableau[i][LP_ALL - 1];
	return true;
}

#endif
