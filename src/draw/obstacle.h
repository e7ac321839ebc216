/* What the bore must keep clear of, where it meets or comes near the plane. */
#ifndef SB_DRAW_OBSTACLE_H
#define SB_DRAW_OBSTACLE_H

#include "draw/plane.h"

/* Upright planes: a line that crosses the alignment is a section through it where it crosses, as wide as it
 * is cut there; one that does not, or a single point, is drawn where it stands, dotted, with how far off
 * the line it is. Planes seen from above: as it lies. With a dotted ring for the clearance to keep. */
void sb_obstacle_draw(const struct plane *p);

#endif
