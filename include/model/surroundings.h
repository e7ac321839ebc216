/* What lies around the bore, in metres: the hole's own size, the obstacles, the ground above and the cover
 * that is asked for. Made once from the sheet; borrows the names from the job.
 *
 * The final hole is taken to be centred on the pilot. Reaming can ride up or down; how far is not known while
 * the pilot is drilled, and nothing here makes room for it.
 */
#ifndef SB_MODEL_SURROUNDINGS_H
#define SB_MODEL_SURROUNDINGS_H

#include "geom/clear.h"
#include "geom/cover.h"
#include "model/design.h"
#include "model/soil.h"

/* Radii. By `judged_m` everything is judged: the final hole's, else the pilot's, else 0. */
struct hole {
	bool pilot_given, final_given;
	double pilot_m, final_m, judged_m; /* 0 where not given */
};
struct hole sb_hole_of(const struct job *job);
/* "the final hole", "the pilot hole", "the hole's centre line": what is judged. */
const char *sb_hole_word(const struct hole *h);

/* One obstacle: its rows in the order of the sheet, each pair of neighbours a straight stretch; a single row
 * is a point. */
struct obstacle {
	const char *name, *kind; /* the job's */
	size_t first, count;	 /* of the stretches */
	bool sized;		 /* every row says a diameter; one that does not counts as none */
	bool limited;		 /* some row says a clearance: it is judged */
	bool line;		 /* more than a point */
};

/* Between two rows that differ the larger diameter and the larger clearance hold. */
struct obstacle_stretch {
	struct vec3 a, b; /* of its centre line */
	double radius_m, required_m;
};

/* Where so much cover is asked for, and the ground over it as far as it is known. */
struct cover_range {
	double from_m, to_m; /* stations, within the design line */
	double minimum_m;
	struct cover_ground ground; /* count 0: not known at all */
};

struct surroundings {
	struct hole hole;
	struct obstacle *obstacles; /* in the order of the sheet */
	size_t count;
	struct obstacle_stretch *stretches;
	struct clear_stretch *keeps; /* the same, and how far the judged hole's centre line must keep away */
	struct cover_ground ground;
	struct soil soil;
	struct cover_range *ranges; /* of corridor.csv, and of [cover] where that says nothing; by station */
	size_t range_count;
	double clearance_spare_m, cover_spare_m; /* NAN: as much as the give or take */
	double alignment_bend;			 /* of the alignment, the most: 1/m */
	struct cover_point *points;		 /* of all grounds */
};

void sb_surroundings_build(
	const struct job *job, const struct frame *f, const struct design *design, struct surroundings *out);
void sb_surroundings_clear(struct surroundings *s);

/* The cover that is asked for at a station; NAN: none. Where two ranges meet, the larger. */
double sb_surroundings_cover(const struct surroundings *s, double station_m);

/* Stretches where cover is asked for and the ground is not known. Returned: how many, of which at most `room`
 * are put into from and to. */
size_t sb_surroundings_unknown(const struct surroundings *s, double *from_m, double *to_m, size_t room);

#endif
