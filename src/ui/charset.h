/* Which characters may be sent. */
#ifndef UI_CHARSET_H
#define UI_CHARSET_H

#include "ui/glyph.h"

/* Sets the locale's character type from the environment, and says what terminal `term` can show at all
 * (best) and what its font may be trusted with. */
void sb_charset_choose(const char *term, enum glyphs *best, enum glyphs *safe);

#endif
