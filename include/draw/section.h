/* Square on to the line at the bit, looking ahead: right is right.
 */
#ifndef SB_DRAW_SECTION_H
#define SB_DRAW_SECTION_H

#include "draw/scene.h"
#include "model/solve.h"
#include "model/steering.h"

/* x offset, right positive; y height against the design, high positive; metres, true proportions. The
 * corridor at the bit's station as a box (a side without a limit is left open), the design line as a cross
 * in its middle, the ellipse that holds the bit at the contract's confidence, the last joints as a trail that
 * ends at the bit, and where the bit would be in three joints if its heading is held. Without a bit: the box
 * at the entry. trial: as in draw/profile.h. */
void sb_section_scene(
	const struct job *job, const struct solution *s, const struct preview *trial, struct scene *out);

/* Adds where a plan goes, to a scene that sb_section_scene made: over its first joints. */
void sb_section_plan(const struct plan *plan, struct scene *out);

#endif
