/* How the screen was last wanted: colours, and which characters pictures are drawn with. Kept from one run to
 * the next in one small file of the user's own, $XDG_STATE_HOME/sagbend/screen.
 *
 * Nothing depends on it: a file that is not there, cannot be written or makes no sense is passed over.
 */
#ifndef SB_UI_REMEMBERED_H
#define SB_UI_REMEMBERED_H

#include "ui/glyph.h"
#include "ui/theme.h"

#include <stdbool.h>

struct remembered {
	bool theme_known, glyphs_known;
	enum theme theme;
	enum glyphs glyphs; /* wanted on this type of terminal ($TERM): another one has another font */
};

void sb_remembered_load(struct remembered *out);
void sb_remembered_theme(enum theme theme);
void sb_remembered_glyphs(enum glyphs glyphs);

#endif
