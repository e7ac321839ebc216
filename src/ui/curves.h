/* Named values along the bore on the screen: lines that own their points, and what stands beside each.
 */
#ifndef UI_CURVES_H
#define UI_CURVES_H

#include "draw/along.h"
#include "ui/cells.h"
#include "ui/glyph.h"

#define SB_CURVES 6

struct curves {
	struct along_line lines[SB_CURVES];
	struct along_point *points[SB_CURVES]; /* owned */
	const char *names[SB_CURVES];	       /* borrowed */
	size_t count;
};

/* One line more, of so many points, for the caller to fill. name: written beside it; "" nothing. */
struct along_point *sb_curves_add(
	struct curves *c, enum meaning meaning, enum line_kind kind, const char *name, size_t count);
/* The same, as marks at each point. */
struct along_point *sb_curves_marks(struct curves *c, enum meaning meaning, const char *name, size_t count);

/* Between two stations; unit, most, length: as sb_along_scene. */
void sb_curves_draw(const struct curves *c, double from_m, double to_m, const char *unit, double most,
	enum unit length, enum glyphs glyphs, struct cells *out);
void sb_curves_clear(struct curves *c);

#endif
