/* How tight the hole bends, along the bore: station against curvature.
 */
#ifndef SB_DRAW_BENDS_H
#define SB_DRAW_BENDS_H

#include "draw/scene.h"
#include "draw/window.h"

/* Returned: out   reset first. x station, m; y curvature, 1/m: 0 is straight, and what is higher is tighter,
 *                 so that a radius a thousand times the limit and a straight hole look as alike as they are.
 *                 The contract's two limits as lines, the design, each joint's own as a step, the window's as
 *                 a line through its ends; with a detailed window the non-conformances of bends. The view
 *                 holds the limits and the bore */
void sb_bends_scene(
	const struct job *job, const struct solution *s, const struct draw_window *window, struct scene *out);

#endif
