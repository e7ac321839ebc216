/* Steering back to a line, joint by joint, as a convex problem: the least sliding that brings the bore back,
 * inside every limit, or the proof that none does.
 *
 * Along the design line and to first order in the angles between hole and design (a few degrees; who uses the
 * plan proves it on the real geometry), with two axes, up and right:
 *
 *     n_k = turn over joint k            h_k = heading off the design at the end of joint k
 *     h_k = h_(k-1) + n_k - design_k
 *     p_k = p_(k-1) + length_k * gain_k * (h_(k-1) + h_k) / 2        p: height and offset
 *     n_k = yield_k * v_k + (length_k - s_k) * drift_k,   |v_k| <= s_k <= length_k
 *
 * s_k is the length slid, v_k that length in the direction of the slide. |v| <= s is a cone, the limits of
 * turns are balls, corridors are boxes: the problem is convex, and a barrier method ends with a gap that
 * proves how far from the optimum it can be at most. Source of the method: Boyd and Vandenberghe, Convex
 * Optimization (2004), chapter 11.
 */
#ifndef SB_GEOM_STEER_H
#define SB_GEOM_STEER_H

#include <stdbool.h>
#include <stddef.h>

#define STEER_STAGES 48 /* joints of a plan at most */
#define STEER_PAST 100	/* joints before it that a window may reach back to */

struct steer_pair {
	double up, right;
};

/* One keep-out: a.up p.up + a.right p.right <= b at the end of the joint. */
struct steer_plane {
	struct steer_pair a;
	double b;
};

struct steer_stage {
	double length;		  /* m, > 0 */
	struct steer_pair gain;	  /* m of height and offset per m of length and radian of heading; near 1 */
	struct steer_pair design; /* the design's own turn over this joint, rad */
	double yield;		  /* rad per m slid, > 0 */
	struct steer_pair drift;  /* rad per m rotated; smaller than yield, or no slide holds against it */
	double joint_limit;	  /* |n_k| at most, rad; HUGE_VAL none */
	/* The window that ends with this joint: it holds joints window_from..k whole (index of stage;
	 * negative counts back into the past: -1 is the joint before the plan) and the share window_part
	 * (0..1) of the joint before window_from. HUGE_VAL none. */
	double window_limit;
	int window_from;
	double window_part;
	double up, down, left, right; /* the corridor at its end, m, >= 0; HUGE_VAL none; less than a
					 micrometre counts as one, as in the end box */
	struct steer_plane planes[2];
	size_t plane_count;
};

enum steer_end {
	STEER_LINE,   /* ends on the line and tangent to it: p = 0, h = 0 */
	STEER_NEAR,   /* ends inside the end box, and within end_heading of the line's heading */
	STEER_WINDOW, /* ends inside the end box */
	STEER_FREE,
};

struct steer_problem {
	struct steer_stage stages[STEER_STAGES];
	size_t count;
	struct steer_pair start, heading; /* p_0 (m) and h_0 (rad) */
	bool by_sum;			  /* windows: sum of |n| instead of |sum of n| */
	struct steer_pair
		past[STEER_PAST]; /* turns before the plan, rad: past[0] is the joint just before it */
	size_t past_count;	  /* windows that reach further back count what there is */
	enum steer_end end;
	/* The end box: its sides, m, >= 0, HUGE_VAL none; and where they are measured from, off the line. */
	double end_up, end_down, end_left, end_right;
	struct steer_pair end_at;
	struct steer_pair end_heading; /* |h| at the end at most, on each axis, rad, >= 0; less than a
					  microradian counts as one; for STEER_NEAR */
	/* What is least: slid length, plus this much per rad^2 of turning that the design does not ask for,
	 * plus this much per m^2 off the line at each joint. Both > 0 make the answer unique; small against 1
	 * they do not change what is least. */
	double turn_weight, line_weight;
};

struct steer_step {
	struct steer_pair turn;	    /* n_k, rad */
	struct steer_pair slide;    /* v_k, m */
	double slid;		    /* s_k, m */
	struct steer_pair position; /* p_k, m */
	struct steer_pair heading;  /* h_k, rad */
};

enum steer_status {
	STEER_OPTIMAL,	  /* solved; gap says how far from the least it can be */
	STEER_INFEASIBLE, /* proven: there is no way until every limit gives by `short_by`, or nearly */
	STEER_STUCK = -1, /* not solved within the iterations: never seen, never silent */
	STEER_RANGE = -2, /* a figure that is not finite, no stages or too many, a length, gain, yield or
			     weight that is not positive, a drift that is not smaller than the yield, a
			     limit below nothing, a window that begins after its end or too far back */
};

enum steer_limit {
	STEER_LIMIT_NONE,
	STEER_LIMIT_CORRIDOR,
	STEER_LIMIT_JOINT,
	STEER_LIMIT_WINDOW,
	STEER_LIMIT_SLIDE,
	STEER_LIMIT_PLANE,
	STEER_LIMIT_END
};

struct steer_answer {
	struct steer_step steps[STEER_STAGES];
	double cost, gap; /* cost - gap <= the least <= cost */
	/* Infeasible: */
	/* The kind that stands in the way: easing it alone costs least. To end near the line is never one. */
	enum steer_limit limit;
	size_t stage; /* where it binds first */
	/* How much every limit would have to give for a way, as a share of it; what is less than nine tenths
	 * of it is proven not to be enough. Corridor, keep-out and end box give as if they were 0.3 m where
	 * they are less, the heading at the end as if it were 5 mrad, so that 0 can. 1 for a single joint
	 * that cannot end on the line, whatever gives. */
	double short_by;
	int iterations;
};

/* Purpose:  solves it, or proves that there is no answer.
 * Given:    problem; work   memory of its own (sb_steer_work_size bytes), reused between calls
 * Returned: out             unchanged on STEER_RANGE
 * Note:     no allocation, no state; the time grows with count and with the square of the longest window. */
enum steer_status sb_steer_solve(const struct steer_problem *problem, void *work, struct steer_answer *out);
size_t sb_steer_work_size(void);

/* Whether it can be done at all, and if not what stands in the way: phase one alone, cheaper. */
enum steer_status sb_steer_feasible(
	const struct steer_problem *problem, void *work, struct steer_answer *out);

#endif
