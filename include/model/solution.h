/* Everything that is known about the bore: what the job's facts come to (model/solve.h). Const to everybody
 * but those who solve it.
 */
#ifndef SB_MODEL_SOLUTION_H
#define SB_MODEL_SOLUTION_H

#include "model/advice.h"
#include "model/clearance.h"
#include "model/corridor.h"
#include "model/cover.h"
#include "model/design.h"
#include "model/fixes.h"
#include "model/frame.h"
#include "model/job.h"
#include "model/path.h"
#include "model/response.h"
#include "model/uncertainty.h"
#include "model/warning.h"

struct solution {
	struct frame frame;
	struct design design;
	struct corridor corridor;
	struct surroundings around;	/* the hole's size, obstacles, ground, the cover that is asked for */
	struct uncertainty uncertainty; /* what the readings may err */
	struct path path;
	struct warning *warnings; /* in the order they opened */
	size_t warning_count, warning_room;
	int open[WARNING_KINDS];  /* warnings[] index of the open episode of a kind, -1 if none */
	size_t changes, acts;	  /* of the job's, taken into account so far */
	struct fixes_tie *tie;	  /* how sure the corrected path is; NULL: no correction is in force */
	struct fixes fixes;	  /* independent positions against the path, and what they propose */
	struct response response; /* what the ground gives, as learnt so far */
	struct bit bit;
	struct ahead ahead;
	struct budget budget;
	enum level level; /* of the whole: what `check` says */
};

/* What the next reading would be laid against. Borrowed from both. */
struct setup sb_solution_setup(const struct job *job, const struct solution *s);

/* What clearance and cover are asked of (model/clearance.h, model/cover.h). Borrowed from both. */
struct clearance_ask sb_solution_clearance(const struct job *job, const struct solution *s);

void sb_solution_clear(struct solution *s);

/* The last row, the last row on the path. The entry's when nothing was drilled. */
const struct row *sb_solution_last(const struct solution *s);
const struct row *sb_solution_last_on_path(const struct solution *s);
size_t sb_solution_unacknowledged(
	const struct solution *s); /* open or past, not acknowledged, not superseded */

#endif
