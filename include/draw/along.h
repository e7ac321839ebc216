/* Values along the bore: station against a force, a pressure, a ratio, with what they are held against.
 */
#ifndef SB_DRAW_ALONG_H
#define SB_DRAW_ALONG_H

#include "draw/scene.h"

struct along_point {
	double station_m, value; /* not finite: the line is broken there */
};

/* One of the picture's lines, or marks; drawn in the order given. */
struct along_line {
	enum meaning
		meaning; /* MEANING_ESTIMATE, _MEASURED, _LIMIT, _DOUBT (one line each for low and high) */
	enum line_kind line;
	const struct along_point *points;
	size_t count;
	bool marks; /* a mark at each point instead of a line */
};

/* Given:    from_m, to_m   stations that are seen, entry first
 *           unit           of the values, a few characters: "psi"
 *           most           what is higher is drawn along the upper edge; not above 0: nothing is cut
 * Returned: out            reset first. Zero and all values are in the view */
void sb_along_scene(double from_m, double to_m, const char *unit, double most, const struct along_line *lines,
	size_t count, enum unit length, struct scene *out);

#endif
