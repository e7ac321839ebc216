/* Which stretch of a bore a picture shows, and how finely.
 */
#ifndef SB_DRAW_WINDOW_H
#define SB_DRAW_WINDOW_H

#include "model/solve.h"
#include "model/steering.h"

struct draw_window {
	double from_m, to_m; /* stations */
	double dot_m; /* the smallest length that the paper will show: curves are drawn to a tenth of it */
	bool close;   /* fits corridor and bore rather than the ground above */
	const struct plan *plan, *pinned; /* drawn ahead of the bit; NULL: none. Borrowed */
	bool detailed; /* with all that a drawing on paper carries and a screen has no room for: joints, curve
			* points, clearances seen from above, names of fixes and legs, non-conformances */
};

/* The whole crossing, a little beyond both ends, and the bit wherever it is.
 * Given:    dots   how many dots the paper has across (two a cell in braille) */
struct draw_window sb_window_whole(const struct solution *s, int dots);

/* Around the bit: so far behind it and so far ahead, metres; the entry while there is no bit. Near the ends
 * of the bore it is moved inwards, but keeps its length. */
struct draw_window sb_window_near(const struct solution *s, double behind_m, double ahead_m, int dots);

/* What can be drawn: a window that is not finite, or backwards, becomes the whole crossing. */
struct draw_window sb_window_sound(const struct draw_window *w, const struct solution *s);

#endif
