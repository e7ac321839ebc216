/* Between the files of the rehearsal: the true hole. */
#ifndef SB_SRC_MODEL_REHEARSAL_TRUTH_H
#define SB_SRC_MODEL_REHEARSAL_TRUTH_H

#include "chance.h"
#include "geom/steer.h"
#include "model/rehearsal.h"

/* The true hole at a depth. Stands lie so close that between two of them it is straight. */
struct stand {
	double md_m;
	struct vec3 at, heading;
};

/* A stretch of ground; it begins where the one before ends. */
struct zone {
	double end_m;
	double blend_m; /* over so much of its beginning it grows out of the one before; 0: a sharp change */
	double yield;	/* rad per m slid */
	double droop, walk;
};

/* A joint in the ground. */
struct rehearsed {
	struct number length; /* as logged */
	double bit_md_m, slid_m;
	size_t stands; /* how many there were when it was down */
};

struct rehearsal {
	struct job job; /* the sheet's, without a log */
	struct frame frame;
	struct design design;
	struct corridor corridor;
	struct rehearsal_ground ground; /* of this bore, after what `vary` shifts */
	double blended;			/* share of zones that change smoothly */
	uint64_t seed;
	int leg;
	uint64_t drilled; /* joints ever, those pulled back too */

	struct stand *stands;
	size_t stand_count, stand_room;
	struct rehearsed *joints; /* joints[j - 1] is joint j */
	size_t joint_count, joint_room;
	struct zone *zones;
	size_t zone_count, zone_room, zone_at;

	long wander_cell;	  /* the metre of hole that `wander` is of; -1 none */
	struct steer_pair wander; /* rad per m there */
};

/* Every use of chance has a stream of its own, so that two ways of drilling meet the same ground and the same
 * noise on one seed. */
enum { CHANCE_VARY, CHANCE_ZONE, CHANCE_WANDER, CHANCE_FACE, CHANCE_PUSH, CHANCE_NOISE, CHANCE_FIX };

struct setup rehearsal_setup(const struct rehearsal *r);

/* The ground at a depth. */
struct zone rehearsal_zone(struct rehearsal *r, double md_m);
struct steer_pair rehearsal_wander(struct rehearsal *r, double md_m);
/* Shifts the ground's figures at random, as `vary` asks. */
void rehearsal_shift(struct rehearsal *r);

/* The true hole at a depth; past its end, the end. */
struct stand rehearsal_at(const struct rehearsal *r, double md_m);

/* Where the hole came out: true, with the place and its station; false while it is in the ground. */
bool rehearsal_out(const struct rehearsal *r, struct stand *at, double *station_m);

/* Returned: an order for the next joint by the simple rule; guess is the sheet's response. Tool face as the
 * tool shows it. */
struct order {
	double tool_face_rad, slid_m;
};
struct order rehearsal_aim(
	const struct setup *setup, const struct path *path, const struct response *guess, double length_m);

#endif
