/* The plan: what to do with the next joint and those after it, so that the bore comes back to the design line
 * and tangent to it, inside every limit, with what this ground gives; and if there is no such way, what
 * stands in it and how many joints to pull back.
 *
 * Solved as a convex problem along the design (geom/steer.h), then laid through the real geometry: every
 * joint's place, corridor and bend is what comes out there.
 */
#ifndef SB_MODEL_STEERING_H
#define SB_MODEL_STEERING_H

#include "geom/steer.h"
#include "model/response.h"

/* One joint of the plan. Angles as inside; all at the end of the joint, at the bit. */
struct plan_joint {
	int joint;
	double length_m;
	struct attitude target;
	double tool_face_rad; /* what the tool must show while sliding, learnt error and offset in it; NAN
				 when slid is 0 */
	double slid_m;	      /* the rest is rotated */
	double turn_up, turn_right; /* that this joint shall bring, rad */
	struct vec3 at;
	struct deviation deviation;
	struct corridor_use use;
	struct ground_ahead ground; /* that it is planned with */
};

struct plan {
	bool known; /* false: there is no attitude to start from, or no design left: the bit is past the exit
		     */
	bool feasible;	      /* inside every limit, proven on the real geometry */
	int rejoins_at_joint; /* the first at whose end the bore is on the line and tangent to it; 0: it goes
			       * for the exit window instead, or does not get back */
	bool for_exit;
	size_t count;
	struct plan_joint joints[STEER_STAGES];
	/* when it is not feasible: the joints above are the best that can be done with the limits eased that
	 * far */
	enum steer_limit limit;
	int limit_joint;
	double short_by; /* share of the limit that is missing */
	char words[256]; /* why: one or two sentences */
	/* the bit that it starts from */
	struct vec3 bit;
	struct attitude heading;
	double seconds; /* spent on solving */
};

/* A plan from the end of the present path. */
void sb_steering_make(const struct setup *setup, const struct path *path, const struct response *response,
	struct plan *out);

/* What a hand would rather do; all of it 0: nothing, and the plan is the program's. */
struct own_plan {
	bool order;		      /* the next joint's order is given, and the plan goes on from there: */
	double tool_face_rad, slid_m; /* as the tool shows it; what is longer than the joint is all of it */
	int back_at; /* the joint at whose end the bore is to be on the line; 0: as the program chooses. Where
		      * that cannot be, the plan is of the soonest joint that can, and its words say so */
};

/* The same with that. */
void sb_steering_try(const struct setup *setup, const struct path *path, const struct response *response,
	const struct own_plan *own, struct plan *out);

/* The fewest joints to pull back from where there is a feasible plan; joints 0: none within sight. */
struct withdrawal {
	int joints, to_joint;
	struct plan plan;
	double seconds;
};
void sb_steering_withdraw(const struct setup *setup, const struct path *path, const struct response *response,
	struct withdrawal *out);

/* What plans count on a slide to turn, rad per m: what is not known of the yield is taken at its poorer side.
 */
double sb_steering_yield(const struct ground_ahead *ground);

/* "slide 14 ft at 2 o'clock, rotate 17 ft", "rotate the joint". clock: o'clock to the nearest half hour, else
 * degrees. */
void sb_steering_order(const struct setup *setup, const struct plan_joint *j, bool clock, char text[96]);

/* "the corridor", "the bend limit over the window"; "" for none. */
const char *sb_steering_limit_word(enum steer_limit limit);

#endif
