/* What the ground around a hole bears: at which pressure of the fluid in it the formation may break out,
 * under the cover that the hole has where it was drilled.
 *
 * An estimate, for the engineer to verify: cavity expansion (geom/cavity.h), the stress around taken as the
 * same all ways and as large as that from above. Ground has been seen to break out below it.
 */
#ifndef SB_MODEL_FORMATION_H
#define SB_MODEL_FORMATION_H

#include "geom/cavity.h"
#include "model/clearance.h"

/* A place in a hole. */
struct formation_place {
	double md_m, station_m, elevation_m; /* of its centre line */
	double level; /* how level the hole runs there: the horizontal part of its heading, 0..1 */
};
struct formation_place sb_formation_place(double md_m, double station_m, struct vec3 at, struct vec3 heading);

enum formation_known {
	FORMATION_KNOWN,
	FORMATION_NO_HOLE,     /* nothing says how wide the hole is */
	FORMATION_NO_GROUND,   /* ground.csv does not reach there */
	FORMATION_ABOVE,       /* the top of the hole is not under the ground */
	FORMATION_NO_SOIL,     /* the sheet has no soil.csv */
	FORMATION_NO_LAYER,    /* soil.csv has none there */
	FORMATION_NO_WEIGHT,   /* a layer there or above lacks its unit weight */
	FORMATION_NO_STRENGTH, /* the layer there lacks both cohesion and friction */
	FORMATION_NO_SHEAR,    /* ... its shear modulus */
	FORMATION_AFLOAT,      /* the water carries the ground */
};

struct formation {
	enum formation_known known;
	double ground_m;	/* its elevation over the place */
	double cover_m;		/* from there to the top of the hole */
	struct soil_place soil; /* its bed: what is missing, is missing of it */
	double share;		/* of the cover, that may yield */
	struct cavity cavity;	/* what the formula was asked */
	struct cavity_limit limit;
};

/* hole_m: radius of the hole, 0: not known. */
struct formation sb_formation_at(
	const struct clearance_ask *ask, double hole_m, const struct formation_place *place);

/* Why there is none, as the end of a sentence: "layer 'soft silt' has no shear_modulus in soil.csv". */
void sb_formation_missing(const struct formation *f, char text[200]);

/* Whether pressure is held against the limit at a station: between from and to of [fluid], or else of
 * [cover]. Next to its ends a hole breaks out in any case, into its own pits. */
bool sb_formation_judged(const struct setup *s, double station_m);

#endif
