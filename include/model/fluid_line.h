/* The drilling fluid from end to end of the bore: pressure and limit along the hole as it was drilled, for
 * the pilot, for a pass that opens it and for the pull; where it is tightest; and where no limit can be
 * given.
 */
#ifndef SB_MODEL_FLUID_LINE_H
#define SB_MODEL_FLUID_LINE_H

#include "model/annular.h"
#include "model/bore_line.h"

struct fluid_point {
	int joint;	/* whose reading ends there; past the bit: that would be drilled */
	bool projected; /* nobody has read it yet */
	struct annular annular;
};

struct fluid_line {
	struct fluid_stage stage;   /* with the flow of the sheet; a point may have had its own */
	struct fluid_point *points; /* from the entry to the exit, at the ends of the bore's stretches */
	size_t count;
	double length_m; /* of the bore */
	/* where the share of the limit is largest: of all that is judged, of what was measured; NULL: nowhere
	 */
	const struct fluid_point *tightest, *measured;
};

/* The pilot, pass `pass` (0: one to the sheet's final diameter), the pull. Where something was measured at a
 * joint, the last entry on it holds. Returned: out; sb_fluid_line_clear when done. */
void sb_fluid_line_build(const struct clearance_ask *ask, const struct bore_line *bore,
	enum fluid_stage_kind kind, int pass, struct fluid_line *out);
void sb_fluid_line_clear(struct fluid_line *line);

/* A stretch where no limit can be given, and why. */
struct fluid_gap {
	double from_m, to_m; /* stations */
	char text[200];
};
/* The next one from points[*at] on; false when there is none. *at goes past it. Only where pressure is
 * judged. */
bool sb_fluid_line_gap(
	const struct clearance_ask *ask, const struct fluid_line *line, size_t *at, struct fluid_gap *out);

#endif
