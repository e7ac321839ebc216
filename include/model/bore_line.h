/* The bore from end to end as a chain of stretches: what a pipe is pulled through and fluid flows along.
 *
 * Of what was drilled: from the entry along the record's path (arcs or slides) to the last reading, from
 * there to the bit, and from the bit back to the design line and along it to the exit. What no reading has
 * seen is marked projected. Once the bore is out it ends at the bit. Of the design: along its tangents and
 * curves.
 */
#ifndef SB_MODEL_BORE_LINE_H
#define SB_MODEL_BORE_LINE_H

#include "model/clearance.h"

/* A stretch that bends evenly, seen from the entry. Places are ground metres from the entry, u elevation. */
struct bore_stretch {
	double md_m, station_m; /* where it begins, along the hole and along the alignment */
	double length_m;	/* along the hole, > 0 */
	struct vec3 from, to;
	struct vec3 heading_from, heading_to; /* unit, towards the exit */
	double turn_rad;		      /* >= 0 */
	double radius_m;		      /* HUGE_VAL straight */
	int joint; /* whose reading ends it; past the bit: the joint that would be drilled; 0: of the design
		    */
	int part;  /* of the design: its tangent or curve, from 0; else -1 */
	bool projected; /* past the last reading: nobody has read it */
};

struct bore_line {
	struct bore_stretch *stretches; /* from the entry to the exit, each where the one before it ends */
	size_t count, room;
	double length_m;
	bool design;		 /* of the design line */
	bool out;		 /* drilled to the surface: nothing past the bit is projected */
	double projected_from_m; /* measured depth of the last reading on the path; length_m of the design */
	double bit_m;		 /* measured depth of the bit; length_m of the design */
};

/* The line of what was drilled, and of the design.
 * Given:    ask   of sb_solution_clearance
 * Returned: out   (cleared first; sb_bore_line_clear when done), of at least one stretch
 * Notes:    past the bit the line comes back to the design by the exit, along a cubic that begins with the
 *           bit's place and heading and ends with the design's; with less than three joints to go, or off
 *           the end of the design, the bit's heading is held to the exit's elevation, or the line ends at
 *           the bit where it does not rise. No stretch is longer than the nominal joint and a half. */
void sb_bore_line_drilled(const struct clearance_ask *ask, struct bore_line *out);
void sb_bore_line_design(const struct clearance_ask *ask, struct bore_line *out);
void sb_bore_line_clear(struct bore_line *line);

/* The stretch at a depth (the first or last one outside), and place and heading there; either may be NULL. */
size_t sb_bore_line_find(const struct bore_line *line, double md_m);
void sb_bore_line_at(const struct bore_line *line, double md_m, struct vec3 *at, struct vec3 *heading);
double sb_bore_line_station(const struct bore_line *line, double md_m);

#endif
