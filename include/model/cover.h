/* Cover: the ground above the top of the hole, straight up from its centre line.
 *
 * The top lies the judged hole's radius over the centre line, square to it: on a slope a little more straight
 * up. The ground is the sheet's, right over the design line: what lies to the side of it is not known.
 */
#ifndef SB_MODEL_COVER_H
#define SB_MODEL_COVER_H

#include "model/clearance.h"

struct cover {
	bool known;
	int joint;
	double md_m, station_m;
	double cover_m;	   /* negative: the hole is above the ground */
	double required_m; /* NAN: none is asked for */
	double sigma_m;	   /* one sigma */
	double chance;	   /* that it is less than required, 0..1; NAN where none is */
	enum level level;
};

/* Right over the sensor of a row, of the present path or of another. */
struct cover sb_cover_at(const struct clearance_ask *ask, const struct row *row);
/* Between two rows of the present path that follow one another on it. */
struct cover sb_cover_between(
	const struct clearance_ask *ask, const struct row *before, const struct row *row, double md_m);

/* The least over the course that ends at a row of the present path, whatever is asked for. */
struct cover sb_cover_course(const struct clearance_ask *ask, const struct row *row);
/* The same with the row on the path before it: also of joints that were pulled back. */
struct cover sb_cover_over(const struct clearance_ask *ask, const struct row *before, const struct row *row);

/* Where it is least against what is asked for: from the entry to the last reading; through the bit and on
 * over so many joints as it heads; by a plan. Not known where nothing is asked for, or no ground is known. */
struct cover sb_cover_drilled(const struct clearance_ask *ask);
struct cover sb_cover_held(const struct clearance_ask *ask, int joints);
struct cover sb_cover_planned(const struct clearance_ask *ask, const struct plan *plan);

/* As sb_clearance_judge. */
void sb_cover_judge(const struct clearance_ask *ask, const struct row *before, const struct row *row,
	struct verdict *drilled, struct verdict *ahead);

#endif
