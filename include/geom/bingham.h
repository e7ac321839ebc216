/* What it takes to push a drilling fluid back along the hole, around a pipe: a Bingham plastic, which does
 * not move until its yield stress is passed and is sheared in proportion from there on, in the annulus of two
 * circles with one centre.
 *
 * SI; gradients are losses of pressure by length, Pa/m, >= 0. A pipe on the bottom of the hole loses less
 * than one in the middle of it: what comes out here is on the high side of that.
 */
#ifndef SB_GEOM_BINGHAM_H
#define SB_GEOM_BINGHAM_H

#include <stdbool.h>

struct bingham {
	double yield_pa;      /* yield point, >= 0; 0: a Newtonian fluid */
	double viscosity_pas; /* plastic viscosity, >= 0 */
	double density_kgm3;  /* > 0; only for telling laminar from turbulent */
};

struct annulus {
	double inner_m, outer_m; /* radii, 0 < inner < outer */
};

enum bingham_status {
	BINGHAM_OK = 0,
	BINGHAM_NO_ROOM = 1, /* the pipe fills the hole, or there is none */
	BINGHAM_BAD = 2,     /* a fluid or a flow that cannot be */
};

/* Purpose:  the loss of a laminar flow in the annulus, exact: with the plug that moves unsheared.
 * Given:    flow_m3s   >= 0; next to 0 the loss is next to what sets the fluid in motion, 2 yield / gap
 * Returned: gradient_pam, unchanged unless BINGHAM_OK
 * Notes:    right to 1e-6 of itself, in all but the narrowest gaps to 1e-9. The stress is G/2 (r - k/r);
 *           the plug is where it stays below the yield stress, 2 yield / G wide; it is placed so that both
 *           sides of it move at one speed, and G so that the flow is that given.
 * Source:   derived; the problem is Fredrickson and Bird's (1958). */
enum bingham_status sb_bingham_annulus(
	const struct bingham *fluid, const struct annulus *a, double flow_m3s, double *gradient_pam);

/* The same between two plates as far apart as the gap and as wide as the annulus is round at its middle: the
 * root of a cubic, in closed form. At or above the annulus, by less the narrower the gap. Source: Buckingham
 * 1921 for the pipe; for plates derived. */
enum bingham_status sb_bingham_slot(
	const struct bingham *fluid, const struct annulus *a, double flow_m3s, double *gradient_pam);

/* The usual formula of the field: the slot's without its third term. Too high for slow flow: half as much
 * again as it takes to set the fluid in motion. Source: Guo and Liu, Applied Drilling Circulation Systems,
 * 2011, eq. 2.59, which rounds the same to PV v/(1000 d^2) + YP/(200 d). */
enum bingham_status sb_bingham_field(
	const struct bingham *fluid, const struct annulus *a, double flow_m3s, double *gradient_pam);

/* What is taken for the loss. reynolds: 12 density speed^2 / stress on the wall (Metzner and Reed's, for a
 * slot). Above 2100 (common practice, no source) the flow may be turbulent: then the larger holds of the
 * laminar loss and that of a smooth wall, friction 0.0791 Re^-1/4 by plastic viscosity (Blasius, from
 * memory). */
struct bingham_loss {
	double gradient_pam;
	double laminar_pam, slot_pam, field_pam;
	double speed_ms; /* mean, along the annulus */
	double reynolds; /* 0 at rest */
	bool turbulent;
};
enum bingham_status sb_bingham_loss(
	const struct bingham *fluid, const struct annulus *a, double flow_m3s, struct bingham_loss *out);

/* The flow that a loss drives, m3/s; 0 where it does not set the fluid in motion. viscosity_pas > 0. */
double sb_bingham_flow(const struct bingham *fluid, const struct annulus *a, double gradient_pam);

#endif
