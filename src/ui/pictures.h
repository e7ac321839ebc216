/* The pictures of the main screen: profile or plan along the bore, and the cross-section at the bit. */
#ifndef UI_PICTURES_H
#define UI_PICTURES_H

#include "draw/scene.h"
#include "model/solve.h"
#include "model/steering.h"
#include "ui/cells.h"
#include "ui/glyph.h"

enum picture { PICTURE_PROFILE, PICTURE_HEIGHTS, PICTURE_PLAN, PICTURE_MAP };
#define SB_PICTURES_COUNT 4
const char *sb_pictures_name(
	enum picture p); /* "profile", "height over design", "plan along the line", "map" */

enum reach { REACH_WHOLE, REACH_NEAR, REACH_CLOSE };
#define SB_REACH_COUNT 3
const char *sb_pictures_reach(enum reach r); /* "whole bore", "near the bit", "close to the bit" */

/* Memory that is kept from frame to frame; zero to begin with. */
struct pictures {
	struct scene scene;
	const struct plan *plan, *pinned; /* to be drawn too; NULL: none. Borrowed for one frame */
};
void sb_pictures_clear(struct pictures *p);

/* Draws into the rectangle: a titled rule, then the pictures. trial may be NULL. */
void sb_pictures_draw(struct pictures *p, const struct job *job, const struct solution *s,
	const struct preview *trial, enum picture picture, enum reach reach, enum glyphs glyphs,
	struct cells *out);

#endif
