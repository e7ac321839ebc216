/* How much pressure a hole in the ground bears before the fluid in it may break out: a cylindrical cavity
 * that is blown up in elastic, perfectly plastic ground (Mohr and Coulomb), until the ground has yielded out
 * to a given radius.
 *
 * Source: Luger and Hergarden 1988; Van Brussel and Hergarden, USACE CPAR-GL-98-1 (from memory; the tests
 * hold it against integrating the yielded zone). The stress around is taken as the same all ways, as large as
 * that from above. It is an estimate: ground has been seen to break out below it, in sand and along cracks.
 *
 * Pa, m, rad; effective stresses are those of the grains, without the pore pressure.
 */
#ifndef SB_GEOM_CAVITY_H
#define SB_GEOM_CAVITY_H

struct cavity {
	double pore_pa;	     /* pore pressure */
	double stress_pa;    /* effective, before the hole, > 0 */
	double cohesion_pa;  /* >= 0 */
	double friction_rad; /* 0 <= friction < pi/2 */
	double shear_pa;     /* shear modulus, > 0 */
	double hole_m;	     /* radius of the hole before, > 0, finite */
	double plastic_m;  /* how far from its centre the ground may yield; as little as the hole: none may */
	double tension_pa; /* tension at which the ground parts, >= 0; HUGE_VAL: it yields before it parts */
};

enum cavity_status {
	CAVITY_OK = 0,
	CAVITY_AFLOAT = 1, /* the water carries the ground: no effective stress is left, nothing is borne */
	CAVITY_BAD = 2,	   /* values that cannot be */
};

enum cavity_rule {
	CAVITY_PLASTIC, /* the ground has yielded out to plastic_m */
	CAVITY_WALL,	/* nothing but the wall of the hole may yield */
	CAVITY_TENSION, /* the wall of the hole parts before it yields */
};

struct cavity_limit {
	double limit_pa;  /* of the fluid, pore pressure and all */
	double yield_pa;  /* at which the wall begins to yield, pore pressure and all */
	double stretched; /* Q: (stress sin + cohesion cos) / shear modulus */
	enum cavity_rule rule;
};

/* Purpose:  the limit.
 * Returned: out, unchanged unless CAVITY_OK
 * Notes:    one formula for all friction, 0 too: c cot(phi) (x^-m - 1), m = sin/(1 + sin), is written with
 *           (e^y - 1)/y. Tension: where stress (1 - sin) - cohesion cos < -tension, the wall parts at
 *           2 stress + tension, the ground still elastic (derived). */
enum cavity_status sb_cavity_limit(const struct cavity *c, struct cavity_limit *out);

#endif
