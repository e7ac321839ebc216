/* The design line and the corridor along it, in any plane. */
#ifndef SB_DRAW_LINE_H
#define SB_DRAW_LINE_H

#include "draw/plane.h"

void sb_line_design(const struct plane *p);

/* Both edges that the plane can show (above and below, or left and right): stepped where the corridor
 * changes, left out where the contract sets no limit. */
void sb_line_corridor(const struct plane *p);

/* Where the contract lets the bore come out, seen from above; nothing unless all four sides are set. */
void sb_line_exit_window(const struct plane *p);

/* Marks and words at the two ends. */
void sb_line_ends(const struct plane *p);

#endif
