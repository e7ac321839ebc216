/* The bore seen from above: along its line, or as a map.
 */
#ifndef SB_DRAW_PLAN_H
#define SB_DRAW_PLAN_H

#include "draw/scene.h"
#include "draw/window.h"

/* Along the line: x station, rig on the left; y offset, metres, LEFT of the line upwards: one looks down on
 * the ground, drilling to the right. Exaggerated, up to a hundred times: a corridor of some metres beside a
 * bore of a thousand. Other words as in draw/profile.h. */
void sb_plan_along(const struct job *job, const struct solution *s, const struct draw_window *window,
	const struct preview *trial, struct scene *out);

/* The map: x east, y north, metres in the ground from the entry, true proportions. */
void sb_plan_map(const struct job *job, const struct solution *s, const struct draw_window *window,
	const struct preview *trial, struct scene *out);

#endif
