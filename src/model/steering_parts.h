/* What the parts of the plan share: where it starts, and what is known there. steering_stages.c lays out the
 * stages along the design ahead, steering_past.c what lies behind the bit, steering_lay.c lays an answer
 * through the real geometry, steering.c leads from one to the other and searches for where to pull back to,
 * steering_own.c takes what a hand would rather do, steering_words.c says it. Nothing here is for others than
 * these six files.
 */
#ifndef SB_MODEL_STEERING_PARTS_H
#define SB_MODEL_STEERING_PARTS_H

#include "model/steering.h"

#include <math.h>

enum {
	SIGHT = 40, /* joints that a plan looks ahead, or a withdrawal back */
	FUNNEL = 8, /* joints that a bore outside the corridor is given to come back inside */
	BEYOND = 4, /* joints past the end of the answer that are laid along the design */
};

struct laying {
	const struct setup *setup;
	const struct path *path;
	const struct response *response;
	double bit_md_m; /* where the plan starts */
	int joint;	 /* the joint drilled last there */
	struct vec3 bit;
	struct attitude heading;
	struct deviation deviation;
	double stations[STEER_STAGES + 1];
	struct design_place places[STEER_STAGES + 1];
	struct ground_ahead ground[SIGHT]; /* halfway along each joint */
	/* Headings at the last readings, smoothed, the last first. */
	struct smoothed past[STEER_PAST];
	size_t past_count;
	/* Of what the window that ends with the next joint has turned when the bit stands where it does, up
	 * and right, rad^2. */
	double turned_var[2];
	double sure; /* share of the sigmas that are kept free of the bend limit over the window, 1 at first
		      */
	int to_exit; /* joints until the exit's station is passed; 0: further than can be seen */
	double tighten;			/* further share of the limits kept free, 0 at first */
	const struct plan_joint *given; /* a hand's order for the joint before the plan's first; NULL: none */
};

static inline double sb_steering_size(struct steer_pair p)
{
	return hypot(p.up, p.right);
}

/* The turn from one attitude to the other: in the vertical plane, and square to it. */
struct steer_pair sb_steering_turn(const struct attitude *from, const struct attitude *to);

/* The length of the joint that is k joints after the next. */
double sb_steering_joint_length(const struct laying *l, int k);

/* The length of joint n, of the path or of the order that was given. */
double sb_steering_drilled_length(const struct laying *l, int n);

/* Smooths the headings behind the bit. What begins on one path shares them. */
void sb_steering_look_back(struct laying *l);

/* How far the plan's start lies past the last reading, m. */
double sb_steering_past_reading(const struct laying *l);

/* The turns behind the bit, and how far the window that ends with the next joint has turned, give or take. */
void sb_steering_set_past(const struct laying *l, struct steer_problem *p);
void sb_steering_set_turned(struct laying *l);

/* The heading at a depth up to the last reading. */
struct attitude sb_steering_heading_at(const struct laying *l, double md_m);

/* Finds the bit beside the design, and the joints' ends along it. Returned: false when no design is left. */
bool sb_steering_begin(struct laying *l);

/* Stands at the end of the path: where the bit is and heads. Returned: as sb_steering_begin. */
bool sb_steering_stand(struct laying *l);

/* The problem of being back after `count` joints; the stages of those BEYOND are set too. */
void sb_steering_stages(const struct laying *l, size_t count, struct steer_problem *p);

/* In how many joints the bore is back without haste, and how many there are to the exit or in sight. */
size_t sb_steering_comfortable(const struct laying *l, const struct steer_problem *p);
size_t sb_steering_farthest(const struct laying *l);

/* The limit that a plan uses the largest share of, on the real geometry. */
struct used {
	double share; /* of the contract's limit, without the plan's margin */
	enum steer_limit limit;
	size_t stage;
};

/* Lays `count` joints; those past the answer's end follow the design. What a bore that starts outside the
 * corridor is still outside by, within the funnel, is not counted. */
struct used sb_steering_lay(const struct laying *l, const struct steer_problem *p,
	const struct steer_answer *a, size_t count, struct plan *out);

/* What the first joint of a plan uses, laid by other means; the corridor counts wherever it starts. */
struct used sb_steering_first_use(
	const struct laying *l, const struct steer_problem *p, const struct plan *plan);

/* Where the plan begins. */
void sb_steering_set_out(const struct laying *l, struct plan *out);

/* A plan that is back after `count` joints, inside every limit on the real geometry. p, work: memory of its
 * own. Returned: false when there is none: a says which limit stands in it. */
bool sb_steering_make_at(struct laying *l, size_t count, struct steer_problem *p, void *work,
	struct steer_answer *a, struct plan *out);

/* The program's plan, in full. */
void sb_steering_make_from(struct laying *l, void *work, struct plan *out);

/* Says why, in out->words. */
void sb_steering_explain(const struct laying *l, struct plan *out);
/* The same of a hand's own order: what it breaks, or that the bore ends with it. */
void sb_steering_explain_order(struct plan *out);

#endif
