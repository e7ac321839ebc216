/* The bore seen from the side: station against elevation, or against height over the design line.
 */
#ifndef SB_DRAW_PROFILE_H
#define SB_DRAW_PROFILE_H

#include "draw/scene.h"
#include "draw/window.h"

/* Given:    window   which stretch; window->close leaves the ground out of what must be seen
 *           trial    a reading that is not logged, drawn beside what is; NULL: none
 * Returned: out      reset first; its view is what must be seen. y is elevation in metres: ground and river
 *                    bed, corridor, design, obstacles, withdrawn stretches, path, bit, where it goes */
void sb_profile_scene(const struct job *job, const struct solution *s, const struct draw_window *window,
	const struct preview *trial, struct scene *out);

/* The same with the design line drawn straight: y is height against the design, high positive. What is two
 * feet low shows as two feet low, also where the design itself falls forty. Without the ground, which is far
 * outside and would be no ground's shape. */
void sb_profile_heights(const struct job *job, const struct solution *s, const struct draw_window *window,
	const struct preview *trial, struct scene *out);

#endif
