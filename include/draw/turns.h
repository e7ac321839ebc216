/* Ordered against got: how far each course was meant to turn, and how far it did, square on, looking ahead.
 */
#ifndef SB_DRAW_TURNS_H
#define SB_DRAW_TURNS_H

#include "draw/scene.h"
#include "model/solve.h"

/* The last courses that were slid in, at most so many: a line from the middle to what was ordered (design),
 * and from there to what was got (drilled). Degrees instead of metres; right is right, up is up; true
 * proportions. */
void sb_turns_scene(const struct job *job, const struct solution *s, size_t most, struct scene *out);

#endif
