/* The rehearsal's truth, shared by drilling and measuring. */
#ifndef MODEL_REHEARSAL_PARTS_H
#define MODEL_REHEARSAL_PARTS_H

#include "model/rehearsal.h"

/* A station of the true hole. */
struct true_station {
	double md_m;
	struct vec3 at;
	double inc_rad, azi_rad;
	double turn_rad; /* turned so far, all told */
	double slid_m;	 /* slid so far */
};

/* What the ground does from here to its end. */
struct zone {
	double end_m, yield, droop, walk;
};

struct rehearsal {
	const struct job *job; /* the sheet's; borrowed */
	struct frame frame;
	struct design design;
	struct corridor corridor;
	struct rehearsal_ground ground;
	double guess_yield; /* rad per m: what the sheet hopes for */
	unsigned long long seed, state;
	struct zone zone;
	struct true_station *stations;
	size_t count, room;
	double *joint_ends; /* measured depths where joints ended; [0] is the entry */
	size_t joint_count, joint_room;
};

double sb_rehearsal_uniform(struct rehearsal *r); /* [0, 1) */
double sb_rehearsal_normal(struct rehearsal *r);
/* The hole's true attitude at a depth. */
struct attitude sb_rehearsal_attitude(const struct rehearsal *r, double md_m);

#endif
