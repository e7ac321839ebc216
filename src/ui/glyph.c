/* Characters one by one.
 *
 * The ASCII stand-ins cover what this program itself draws and Latin letters with accents, which names are
 * written with. Braille dots and blocks become '*' and '#'; pictures are drawn with plain characters from
 * the start where braille is not allowed, so that this is only the last resort.
 */
#include "ui/glyph.h"

#include "base/str.h"

#include <string.h>

const char *sb_glyph_word(enum glyphs g)
{
	static const char *const words[SB_GLYPHS_COUNT] = { "plain characters", "lines", "dots" };

	return words[g];
}

size_t sb_glyph_encode(unsigned c, char text[SB_GLYPH_BYTES])
{
	size_t n = 0;

	if (c < 0x80) {
		text[n++] = (char)c;
	} else if (c < 0x800) {
		text[n++] = (char)(0xC0 | c >> 6);
		text[n++] = (char)(0x80 | (c & 0x3F));
	} else if (c < 0x10000) {
		text[n++] = (char)(0xE0 | c >> 12);
		text[n++] = (char)(0x80 | (c >> 6 & 0x3F));
		text[n++] = (char)(0x80 | (c & 0x3F));
	} else {
		text[n++] = (char)(0xF0 | (c >> 18 & 0x07));
		text[n++] = (char)(0x80 | (c >> 12 & 0x3F));
		text[n++] = (char)(0x80 | (c >> 6 & 0x3F));
		text[n++] = (char)(0x80 | (c & 0x3F));
	}
	text[n] = '\0';
	return n;
}

int sb_glyph_columns(unsigned c)
{
	char text[SB_GLYPH_BYTES];

	if (c >= 0x20 && c < 0x7F)
		return 1;
	sb_glyph_encode(c, text);
	return (int)sb_utf8_columns(text);
}

int sb_glyph_safe(unsigned c)
{
	return c >= 0x20 && (c < 0x7F || c >= 0xA0) && !(c >= 0x200B && c <= 0x200F) &&
		!(c >= 0x2028 && c <= 0x202E) && !(c >= 0x2060 && c <= 0x206F) &&
		!(c >= 0xD800 && c <= 0xDFFF) && c != 0xFEFF && c <= 0x10FFFF;
}

struct stand_in {
	unsigned character;
	char plain;
};

static const struct stand_in stand_ins[] = {
	{ 0x00B0, 'd' }, /* degree */
	{ 0x00B1, '~' }, /* plus-minus */
	{ 0x00B7, '-' }, /* middle dot, between the parts of a line */
	{ 0x2013, '-' }, /* dashes */
	{ 0x2014, '-' },
	{ 0x2018, '\'' },
	{ 0x2019, '\'' },
	{ 0x201C, '"' },
	{ 0x201D, '"' },
	{ 0x2026, '~' }, /* ellipsis: a single column, so not three dots */
	{ 0x2190, '<' },
	{ 0x2191, '^' },
	{ 0x2192, '>' },
	{ 0x2193, 'v' },
	{ 0x2212, '-' },
	{ 0x2264, '<' },
	{ 0x2265, '>' },
	{ 0x25B2, '^' },
	{ 0x25BC, 'v' },
	{ 0x25B6, '>' },
	{ 0x25C0, '<' },
	{ 0x25CF, 'o' },
	{ 0x25CB, 'o' },
};

/* Latin letters with accents, U+00C0 to U+017E, to the letter under the accent. */
static const char latin[] = "AAAAAAACEEEEIIIIDNOOOOOxOUUUUYTsaaaaaaaceeeeiiiidnooooo/ouuuuyty"
			    "AaAaAaCcCcCcCcDdDdEeEeEeEeEeGgGgGgGgHhHhIiIiIiIiIiIiJjKkkLlLlLlLlLl"
			    "NnNnNnnNnOoOoOoOoRrRrRrSsSsSsSsTtTtTtUuUuUuUuUuUuWwYyYZzZzZz";

static char box_plain(unsigned c)
{
	if (c == 0x2500 || c == 0x2501 || c == 0x2504 || c == 0x2505 || c == 0x2508 || c == 0x2509 ||
		c == 0x2550)
		return '-';
	if (c == 0x2502 || c == 0x2503 || c == 0x2506 || c == 0x2507 || c == 0x250A || c == 0x250B ||
		c == 0x2551)
		return '|';
	return '+';
}

char sb_glyph_plain(unsigned c)
{
	if (c >= 0x20 && c < 0x7F)
		return (char)c;
	if (c == 0xA0)
		return ' ';
	for (size_t i = 0; i < sizeof stand_ins / sizeof *stand_ins; i++)
		if (stand_ins[i].character == c)
			return stand_ins[i].plain;
	if (c >= 0xC0 && c - 0xC0 < strlen(latin))
		return latin[c - 0xC0];
	if (c >= 0x2500 && c < 0x2580)
		return box_plain(c);
	if (c >= 0x2580 && c < 0x25A0)
		return '#';
	if (c >= 0x2800 && c < 0x2900)
		return c == 0x2800 ? ' ' : '*';
	return '?';
}
