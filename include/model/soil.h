/* The ground by its layers (soil.csv): what presses on a place in it from above, and how strong it is there.
 *
 * A layer lies under its top as far down as the next top at that station, the lowest one without end. The
 * uppermost is taken up to the ground where its top lies below that; what would lie over the ground is not
 * there. Where the ground water of the uppermost layer stands over the ground, it is a river: its weight
 * counts.
 */
#ifndef SB_MODEL_SOIL_H
#define SB_MODEL_SOIL_H

#include "model/frame.h"

/* SI; NAN where the sheet does not say. */
struct soil_bed {
	double from_m, to_m; /* stations */
	double top_m, water_m;
	double weight_nm3, cohesion_pa, friction_rad, shear_pa;
	const char *name; /* the job's */
};

struct soil {
	struct soil_bed *beds; /* by their tops, the highest first */
	size_t count;
};

void sb_soil_build(const struct job *job, const struct frame *f, struct soil *out);
void sb_soil_clear(struct soil *s);

enum soil_known {
	SOIL_KNOWN,
	SOIL_NO_LAYER,	/* none at the station, or none that reaches so high */
	SOIL_NO_WEIGHT, /* a layer over the place has no unit weight */
	SOIL_ABOVE,	/* the place is above the ground */
};

struct soil_place {
	enum soil_known known;
	const struct soil_bed *bed; /* the place lies in it; SOIL_NO_WEIGHT: the one that lacks it */
	double total_pa;	    /* of ground and river above */
	double pore_pa;
	bool water_assumed; /* the layer does not say where its water stands: taken at the ground, which is
			     * the worst */
	double raised_m;    /* by how much the uppermost layer was taken up to the ground */
	double flooded_m;   /* how high its ground water stands over the ground: a river, or a slip */
};

/* What lies over a place: station, its elevation and that of the ground there. O(layers). */
struct soil_place sb_soil_at(const struct soil *s, double station_m, double elevation_m, double ground_m);

#endif
