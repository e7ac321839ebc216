/* Single characters: how many columns one takes, its bytes, and what stands for it on a terminal that has
 * nothing but ASCII.
 */
#ifndef SB_UI_GLYPH_H
#define SB_UI_GLYPH_H

#include <stddef.h>

/* What a terminal can show. A picture asks for the best of these that is allowed. */
enum glyphs {
	GLYPHS_ASCII,	/* letters, digits, + - | and the like */
	GLYPHS_LINES,	/* UTF-8, but a font of a few hundred characters: accents, box lines */
	GLYPHS_BRAILLE, /* UTF-8 with braille dots */
};
#define SB_GLYPHS_COUNT 3
const char *sb_glyph_word(enum glyphs g); /* "plain characters", "lines", "dots" */

#define SB_GLYPH_BYTES 5 /* room for one character in UTF-8 and its NUL */

/* Writes the character; returns its bytes. */
size_t sb_glyph_encode(unsigned character, char text[SB_GLYPH_BYTES]);

/* 0 for a mark that combines with the character before, 1, or 2. The same as sb_utf8_columns. */
int sb_glyph_columns(unsigned character);

/* Whether it may go to a terminal at all: no controls, no marks that turn the direction of text. */
int sb_glyph_safe(unsigned character);

/* One ASCII character that stands for it; '?' when nothing does. */
char sb_glyph_plain(unsigned character);

#endif
