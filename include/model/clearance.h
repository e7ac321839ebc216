/* How the hole passes the obstacles: the smallest distance, wall to wall, of what is drilled and of what is
 * to come, how sure that is, and the chance that the clearance that is asked for is not kept.
 *
 * Distances are from the hole's centre line to the obstacle's, less both radii: the pilot hole's, and the
 * final hole's, taken as centred on the pilot. An obstacle is where the sheet has it; only the hole errs.
 */
#ifndef SB_MODEL_CLEARANCE_H
#define SB_MODEL_CLEARANCE_H

#include "model/advice.h"
#include "model/fixes.h"
#include "model/steering.h"
#include "model/surroundings.h"

struct pull_bands; /* model/pullback.h */

/* What a clearance, a cover, or anything else of the hole is asked of. Borrowed; sb_solution_clearance fills
 * one (model/solve.h). */
struct clearance_ask {
	struct setup setup;
	const struct surroundings *around;
	const struct uncertainty *uncertainty;
	const struct path *path;
	const struct bit *bit;	   /* at the end of the path */
	const struct fixes *fixes; /* of that time; NULL: none are known */
	/* the pull\'s estimate, made when it is first asked for and kept from act to act; NULL: nobody asks
	 */
	struct pull_bands *bands;
};

/* How a stretch of hole passes one obstacle: where it comes nearest. */
struct passing {
	bool known; /* false: there is no such stretch, or it is further than was looked for */
	int joint;
	double md_m, station_m;
	double centres_m; /* between the centre lines */
	double pilot_m,
		final_m;   /* wall to wall; NAN where the sheet has no such hole. Negative: they overlap */
	double wall_m;	   /* of the judged hole (struct hole) */
	double required_m; /* NAN: the sheet asks for none */
	double sigma_m;	   /* of the distance, one sigma */
	double chance;	   /* that less than is required is kept, in the joint where that is
			    * likeliest, 0..1; NAN where nothing is required */
	double above_m, right_m,
		ahead_m; /* of the obstacle lies the hole; right and ahead as the hole heads */
	bool at_end;	 /* it is where the stretch ends: the hole may come nearer as it goes on */
	bool leaves;	 /* of what is to come: it is where that begins, and the hole goes away from there */
	enum level level;
	struct vec3 hole, obstacle; /* the two places */
};

/* From the entry to the last reading on the path. */
struct passing sb_clearance_drilled(const struct clearance_ask *ask, size_t obstacle);

/* Over the course that ends at a row of the present path. */
struct passing sb_clearance_course(const struct clearance_ask *ask, size_t obstacle, const struct row *row);

/* The same with the row on the path before it: also of joints that were pulled back, or are tried. */
struct passing sb_clearance_between(
	const struct clearance_ask *ask, size_t obstacle, const struct row *before, const struct row *row);

/* From the last reading through the bit, on the held heading, over so many joints; or by a plan. Ends with
 * the design line. Its level: LEVEL_WATCH where the mean does not keep what is required. */
struct passing sb_clearance_held(const struct clearance_ask *ask, size_t obstacle, int joints);
struct passing sb_clearance_planned(
	const struct clearance_ask *ask, size_t obstacle, const struct plan *plan);

/* Which side of the obstacle the hole is on: "below", "above and right of", "short of". */
void sb_passing_side(const struct passing *p, char text[48]);

/* What the course that ends at the row says (drilled), and the heading from its bit within the contract's
 * look-ahead (ahead). before: the row on the path before it; ask->bit is of the row's time. */
void sb_clearance_judge(const struct clearance_ask *ask, const struct row *before, const struct row *row,
	struct verdict *drilled, struct verdict *ahead);

#endif
