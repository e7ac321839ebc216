/* A grid of dots, each with the meaning of the most important stroke that touches it. */
#ifndef SB_DRAW_DOTS_H
#define SB_DRAW_DOTS_H

#include "draw/scene.h"

struct dots {
	int width, height;
	unsigned char *meaning; /* enum meaning, row by row from the top */
	size_t room;
	struct box clip; /* what may be drawn on, in dots, y downwards; within the grid */
	bool patterns;	 /* false: every line is solid and thin */
};

/* Empties the grid at a size; the clip is all of it. */
void sb_dots_start(struct dots *d, int width, int height);
void sb_dots_clear(struct dots *d);

/* Cuts a straight piece to a box. False when nothing of it is inside; then a and b are unchanged. Ends that
 * are not finite have no inside. */
bool sb_dots_clip(const struct box *to, struct spot *a, struct spot *b);

/* Points in dots. The work is bounded by the grid, whatever the points. */
void sb_dots_line(struct dots *d, struct spot a, struct spot b, enum meaning m, enum line_kind line);

#endif
