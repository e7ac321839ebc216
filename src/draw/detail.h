/* What a drawing on paper carries, and a screen has no room for. */
#ifndef SB_DRAW_DETAIL_H
#define SB_DRAW_DETAIL_H

#include "draw/plane.h"

/* Nothing unless the window is detailed. In all planes: non-conformances, each a mark with its number. Where
 * the line is drawn as it lies (elevation, map) also the places of the readings, every fifth with the number
 * of its joint; where the design's curves begin and end, and their radius; the number of each fix; which
 * joints of which leg were withdrawn. In elevation the cover that is asked for. */
void sb_detail_draw(const struct plane *p);

#endif
