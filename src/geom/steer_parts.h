/* What the parts of the solver share. The problem's limits become expressions of the unknowns (steer_row.c),
 * the expressions barrier terms, joint by joint (steer_terms.c); Newton's method finds where their sum is
 * least (steer_newton.c); steer.c leads through the two phases and reads the answer off.
 *
 * Unknowns, SLOTS of them a joint: heading off the design (2, in hundredths of a radian), position (2),
 * length slid, the size of the turn when windows go by the sum, and two multipliers that tie positions to
 * headings. After them all comes t. Nothing here is for others than these four files.
 */
#ifndef SB_GEOM_STEER_PARTS_H
#define SB_GEOM_STEER_PARTS_H

#include "geom/steer.h"

enum { SLOTS = 8, UP = 0, RIGHT = 1, POSITION = 2, SLID = 4, SIZE = 5, TIE = 6 };
enum { MOST = STEER_STAGES * SLOTS, T = MOST, NOWHERE = -1 };
/* Rows an odd number of cache lines apart, so that those of a band do not fight for the same places of the
 * cache. */
enum { STRIDE = MOST + 8 };
enum { ROW = 2 * STEER_STAGES + 8, KINDS = STEER_LIMIT_END + 1 };

static const double radian = 0.01; /* of the heading unknowns */

/* A linear expression of the unknowns. Begun with sb_steer_row_begin, which leaves the room that is not used
 * as it is: most expressions have a few unknowns, and setting all of it to nothing took as long as solving.
 */
struct row {
	int count;
	double rest;
	int at[ROW];
	double by[ROW];
};

static inline void sb_steer_row_begin(struct row *r)
{
	r->count = 0;
	r->rest = 0;
}

static inline void sb_steer_rows_begin(struct row *rows, int count)
{
	for (int i = 0; i < count; i++)
		sb_steer_row_begin(&rows[i]);
}

struct steer_work {
	const struct steer_problem *p;
	int size, band;
	bool line;   /* ends on the line: the last heading and position are nothing */
	bool easing; /* looking for a way at all: only t counts; else t is 0 and stays there */
	double theta;
	double x[MOST + 1];
	double gradient[MOST + 1], step[MOST + 1], residual[MOST], border[MOST], side[MOST];
	double corner;	    /* of the border */
	double pull[KINDS]; /* what each kind of limit adds to the gradient of t */
	double pull_stage[KINDS][STEER_STAGES];
	int terms;		     /* barrier parameter: the gap is this over theta */
	int first[MOST];	     /* column of each row where it begins */
	double factor[MOST][STRIDE]; /* lower band of the matrix: factor[i][j - i + band] */
	double matrix[MOST][STRIDE];
};

/* What is asked of the terms: their value alone, or all there is. */
struct sum {
	struct steer_work *w;
	bool derivatives;
	bool inside; /* no barrier was crossed */
	double total;
};

static inline double axis_of(struct steer_pair v, int axis)
{
	return axis == UP ? v.up : v.right;
}

/* Expressions: adds `by` times an unknown, a heading off the design at the end of joint k (-1: the start), a
 * position, the turn over joint k (negative: the past). */
void sb_steer_row_add(struct row *r, int at, double by);
void sb_steer_row_heading(const struct steer_work *w, struct row *r, int k, int axis, double by);
void sb_steer_row_position(const struct steer_work *w, struct row *r, int k, int axis, double by);
void sb_steer_row_turn(const struct steer_work *w, struct row *r, int k, int axis, double by);
/* The turns from joint `from` to joint `to`, both whole: what lies between cancels out. */
void sb_steer_row_turns(const struct steer_work *w, struct row *r, int from, int to, int axis);
double sb_steer_row_value(const struct steer_work *w, const struct row *r);

/* Terms of an expression: theta/2 weight r^2; theta weight r; -log r, so that r stays above nothing;
 * -log (a^2 - b^2 - c^2), so that the pair (b, c) stays shorter than a. */
void sb_steer_row_square(struct sum *s, const struct row *r, double weight);
void sb_steer_row_linear(struct sum *s, const struct row *r, double weight);
void sb_steer_row_log(struct sum *s, const struct row *r, enum steer_limit kind, int stage);
void sb_steer_row_cone(struct sum *s, const struct row rows[3], enum steer_limit kind, int stage);

/* All terms. barriers: false for the start, which knows no limits. */
struct sum sb_steer_terms_evaluate(struct steer_work *w, bool derivatives, bool barriers);

/* The step of all unknowns. move_t: false keeps t. Returned: Newton's decrement squared; negative when it
 * failed. */
double sb_steer_newton_step(struct steer_work *w, bool move_t);
/* Goes so large a share of the step, from there. */
void sb_steer_newton_move(struct steer_work *w, const double *from, double share);
/* Newton to the centre for this theta. Returned: iterations; negative when it got stuck. stop_below: ends as
 * soon as t is. */
int sb_steer_newton_centre(struct steer_work *w, double stop_below, double close_enough);

#endif
