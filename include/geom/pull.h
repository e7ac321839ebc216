/* The force that draws a pipe through a hole, leg by leg from where it enters to the rig.
 *
 * A leg is a straight or evenly curved run of the hole. A pipe that is bent by one touches at its ends and in
 * its middle (a beam under tension, held in three places); one that lies straight, or in a hole that turns
 * less than the room that it leaves, presses with its weight and with what tension and turn make of it. All
 * friction is Coulomb's, and the fluid's drag is by the pipe's surface.
 *
 * SI. Tension is >= 0. Directions are unit vectors, up is +u. `weight` is what the pipe weighs in the hole
 * per length, down positive; `lift` is the work of that weight: weight times how much higher the head comes.
 */
#ifndef SB_GEOM_PULL_H
#define SB_GEOM_PULL_H

#include "geom/vec3.h"

/* ---- the beam under tension ---- */

/* Purpose:  the force with which the middle of a beam is held aside.
 * Given:    stiffness   E I, N m2, > 0
 *           tension_n   >= 0 (a negative one counts as 0)
 *           length_m    between the ends, > 0; the beam is simply supported there
 *           aside_m     how far the middle is held aside
 *           load_n_m    even load towards that side
 * Returned: N, towards that side; negative: the load alone brings it further, and it
 *           must be held back.
 * Notes:    N = (T h - w Y) / X with j = sqrt(EI/T), U = L/j, X = L/4 - (j/2) tanh(U/2), Y = L^2/8 - j^2 (1 -
 *           1/cosh(U/2)). With x = U/2 all is in tanh(x)/x and 1/cosh(x), by series for small x, so that no
 *           tension gives N = 48 E I h / L^3 - 5 w L / 8, and none is divided by.
 * Source:   PRCI L51730 (1995); Huey, Hair and McLeod (1996), from memory; checked by numerical integration.
 */
double sb_pull_beam(double stiffness, double tension_n, double length_m, double aside_m, double load_n_m);

/* ---- legs ---- */

struct pull_leg {
	double length_m;
	struct vec3 along;  /* the mean direction */
	struct vec3 inside; /* towards the centre of its curve; any where it is straight */
	double turn_rad;    /* over the whole leg */
	double aside_m;	    /* R (1 - cos(turn/2)) */
	int bent; /* the pipe is bent by it: three-point contact; else it lies in it as a rope does */
};

/* Direction and turn of an even curve between two headings.
 * Given:    length_m                   > 0
 *           heading_from, heading_to   unit vectors, less than half a turn apart
 *           room_m                     what the hole leaves beside the pipe, >= 0; a curve that is less far
 *                                      aside does not bend it */
struct pull_leg sb_pull_leg(double length_m, struct vec3 heading_from, struct vec3 heading_to, double room_m);

struct pull_terms {
	double friction;  /* pipe on the hole's wall */
	double drag_n_m;  /* of the fluid, per length: pi D times its shear */
	double stiffness; /* of the pipe; counts in bent legs */
};

/* What presses on the wall per length, N/m, at a tension: along a bent leg 2 N / L and square to its plane
 * the weight; in any other the tension over its radius and the weight, added as vectors. */
double sb_pull_contact(
	const struct pull_leg *leg, const struct pull_terms *t, double tension_n, double weight_n_m);

/* The tension after length_m of a leg (0..its length), N, its mean within being iterated to convergence;
 * contact is that of the whole leg however much of it is passed. Not below 0: then the pipe runs ahead by its
 * own weight. What is given that is no number gives none. */
double sb_pull_across(const struct pull_leg *leg, const struct pull_terms *t, double tension_n,
	double length_m, double weight_n_m, double lift_n);

/* The same as ASTM F1962 has it for a pipe without stiffness: e^(v a) (T + v |w| L + lift). */
double sb_pull_capstan(const struct pull_leg *leg, double friction, double tension_n, double length_m,
	double weight_n_m, double lift_n);

/* ---- ASTM F1962 ---- */

struct f1962 {
	double in_rad, out_rad;		       /* a: where the pipe enters; b: where it comes out; > 0 */
	double depth_m, cross_m;	       /* H, >= 0; between the two ends, along the ground, > 0 */
	double extra_m;			       /* L1: pipe past what the hole takes, >= 0 */
	double friction_ground, friction_hole; /* va, vb; >= 0 */
	double air_n_m;			       /* wa, > 0 */
	double float_n_m;		       /* wb: up positive */
};

struct f1962_forces {
	double length_m[4]; /* L1, L2, L3, L4 */
	double force_n[4];  /* T_A: where it enters, T_B: at the foot, T_C: at the other, T_D: where it comes
			       out */
};

enum f1962_status {
	F1962_OK = 0,
	F1962_SHORT = -1, /* the two ramps, 2 H / angle each, are longer than the crossing */
	F1962_RANGE = -2, /* a value out of the ranges above, or not finite */
};

/* Source: ASTM F1962, as in Najafi, Trenchless Technology Piping (2010), p. 217, eqs 5.12a-d. The drag of the
 * fluid is not in it. */
enum f1962_status sb_pull_f1962(const struct f1962 *in, struct f1962_forces *out);

/* dP (pi/8) (Dh^2 - D^2): the drag of the fluid that the pipe drives out of the hole; same source. */
double sb_pull_hydrokinetic(double pressure_pa, double hole_m, double pipe_m);

#endif
