/* The looks.
 *
 * With 256 colours the palette is known (numbers from 16 on are the same everywhere), so contrast is
 * computed: tests/ui/theme_test.c holds every pair between 3:1 and 15:1, and what is read most near 7:1
 * (common practice for displays on a ship's bridge). With 8 or 16 colours each terminal has its own idea of
 * them; only pairs that read on the usual ones are used, and never dark blue on black.
 */
#include "ui/theme.h"

#include "base/str.h"

#include <math.h>

const char *sb_theme_name(enum theme t)
{
	static const char *const names[SB_THEMES] = { "night", "day", "plain" };

	return names[t];
}

int sb_theme_parse(const char *name, enum theme *out)
{
	for (int i = 0; i < SB_THEMES; i++)
		if (sb_same_word(sb_theme_name((enum theme)i), name)) {
			*out = (enum theme)i;
			return 0;
		}
	return -1;
}

enum { BOLD = 1, LINE = 2, REVERSE = 4 };

struct entry {
	short ink, ground; /* ground 0 in the tables of 256: the theme's own */
	int how;
};

#define NIGHT_GROUND 16
#define NIGHT_BAND 236
#define NIGHT_BAND_INK 250
#define DAY_GROUND 255
#define DAY_BAND 251
#define DAY_BAND_INK 236

static const struct entry night_256[STYLES] = {
	[STYLE_PLAIN] = { 246, 0, 0 },
	[STYLE_DIM] = { 243, 0, 0 },
	[STYLE_TITLE] = { 249, 0, BOLD },
	[STYLE_STRONG] = { 251, 0, BOLD },
	[STYLE_RULE] = { 241, 0, 0 },
	[STYLE_KEY] = { 250, 0, BOLD },
	[STYLE_ENTRY] = { 250, 236, 0 },
	[STYLE_CURSOR] = { 16, 246, 0 },
	[STYLE_OFFERED] = { 246, 236, 0 },
	[STYLE_OK] = { 71, 0, 0 },
	[STYLE_WATCH] = { 142, 0, BOLD },
	[STYLE_BREACH] = { 16, 203, BOLD },
	[STYLE_SCALE] = { 243, 0, 0 },
	[STYLE_GROUND] = { 244, 0, 0 },
	[STYLE_CORRIDOR] = { 67, 0, 0 },
	[STYLE_WITHDRAWN] = { 242, 0, 0 },
	[STYLE_DESIGN] = { 74, 0, 0 },
	[STYLE_OBSTACLE] = { 176, 0, 0 },
	[STYLE_AHEAD] = { 146, 0, 0 },
	[STYLE_DRILLED] = { 252, 0, BOLD },
	[STYLE_TRIAL] = { 182, 0, BOLD },
	[STYLE_BIT] = { 252, 0, BOLD },
};

static const struct entry day_256[STYLES] = {
	[STYLE_PLAIN] = { 239, 0, 0 },
	[STYLE_DIM] = { 241, 0, 0 },
	[STYLE_TITLE] = { 236, 0, BOLD },
	[STYLE_STRONG] = { 235, 0, BOLD },
	[STYLE_RULE] = { 244, 0, 0 },
	[STYLE_KEY] = { 236, 0, BOLD },
	[STYLE_ENTRY] = { 236, 252, 0 },
	[STYLE_CURSOR] = { 255, 239, 0 },
	[STYLE_OFFERED] = { 240, 252, 0 },
	[STYLE_OK] = { 22, 0, 0 },
	[STYLE_WATCH] = { 238, 220, BOLD },
	[STYLE_BREACH] = { 255, 124, BOLD },
	[STYLE_SCALE] = { 241, 0, 0 },
	[STYLE_GROUND] = { 240, 0, 0 },
	[STYLE_CORRIDOR] = { 61, 0, 0 },
	[STYLE_WITHDRAWN] = { 243, 0, 0 },
	[STYLE_DESIGN] = { 25, 0, 0 },
	[STYLE_OBSTACLE] = { 90, 0, 0 },
	[STYLE_AHEAD] = { 60, 0, 0 },
	[STYLE_DRILLED] = { 235, 0, BOLD },
	[STYLE_TRIAL] = { 54, 0, BOLD },
	[STYLE_BIT] = { 235, 0, BOLD },
};

/* 0 black, 1 red, 2 green, 3 yellow, 4 blue, 5 magenta, 6 cyan, 7 white or light grey. */
static const struct entry night_8[STYLES] = {
	[STYLE_PLAIN] = { 7, 0, 0 },
	[STYLE_DIM] = { 7, 0, 0 },
	[STYLE_TITLE] = { 7, 0, BOLD },
	[STYLE_STRONG] = { 7, 0, BOLD },
	[STYLE_RULE] = { 7, 0, 0 },
	[STYLE_KEY] = { 7, 0, BOLD },
	[STYLE_ENTRY] = { 7, 0, LINE },
	[STYLE_CURSOR] = { 0, 7, 0 },
	[STYLE_OFFERED] = { 6, 0, LINE },
	[STYLE_OK] = { 2, 0, 0 },
	[STYLE_WATCH] = { 3, 0, BOLD },
	[STYLE_BREACH] = { 7, 1, BOLD },
	[STYLE_SCALE] = { 7, 0, 0 },
	[STYLE_GROUND] = { 7, 0, 0 },
	[STYLE_CORRIDOR] = { 6, 0, 0 },
	[STYLE_WITHDRAWN] = { 5, 0, 0 },
	[STYLE_DESIGN] = { 6, 0, BOLD },
	[STYLE_OBSTACLE] = { 5, 0, BOLD },
	[STYLE_AHEAD] = { 7, 0, 0 },
	[STYLE_DRILLED] = { 7, 0, BOLD },
	[STYLE_TRIAL] = { 5, 0, BOLD },
	[STYLE_BIT] = { 7, 0, BOLD },
};

static const struct entry day_8[STYLES] = {
	[STYLE_PLAIN] = { 0, 7, 0 },
	[STYLE_DIM] = { 0, 7, 0 },
	[STYLE_TITLE] = { 0, 7, BOLD },
	[STYLE_STRONG] = { 0, 7, BOLD },
	[STYLE_RULE] = { 0, 7, 0 },
	[STYLE_KEY] = { 0, 7, BOLD },
	[STYLE_ENTRY] = { 0, 7, LINE },
	[STYLE_CURSOR] = { 7, 0, 0 },
	[STYLE_OFFERED] = { 4, 7, LINE },
	[STYLE_OK] = { 0, 2, 0 },
	[STYLE_WATCH] = { 0, 3, BOLD },
	[STYLE_BREACH] = { 7, 1, BOLD },
	[STYLE_SCALE] = { 0, 7, 0 },
	[STYLE_GROUND] = { 0, 7, 0 },
	[STYLE_CORRIDOR] = { 4, 7, 0 },
	[STYLE_WITHDRAWN] = { 0, 7, 0 },
	[STYLE_DESIGN] = { 4, 7, 0 },
	[STYLE_OBSTACLE] = { 0, 7, BOLD },
	[STYLE_AHEAD] = { 4, 7, 0 },
	[STYLE_DRILLED] = { 0, 7, BOLD },
	[STYLE_TRIAL] = { 4, 7, BOLD },
	[STYLE_BIT] = { 0, 7, BOLD },
};

static const int plain_how[STYLES] = {
	[STYLE_TITLE] = BOLD,
	[STYLE_STRONG] = BOLD,
	[STYLE_KEY] = BOLD,
	[STYLE_ENTRY] = LINE,
	[STYLE_CURSOR] = REVERSE,
	[STYLE_OFFERED] = LINE,
	[STYLE_WATCH] = BOLD,
	[STYLE_BREACH] = BOLD | REVERSE,
	[STYLE_OBSTACLE] = BOLD,
	[STYLE_DRILLED] = BOLD,
	[STYLE_TRIAL] = BOLD,
	[STYLE_BIT] = BOLD,
};

static struct look look_of(int ink, int ground, int how)
{
	return (struct look){ ink, ground, (how & BOLD) != 0, (how & LINE) != 0, (how & REVERSE) != 0 };
}

/* On the band of the selected row a colour stays where it reads well there. */
static struct look look_256(bool day, enum style style, bool chosen)
{
	const struct entry *e = day ? &day_256[style] : &night_256[style];
	int band = day ? DAY_BAND : NIGHT_BAND;

	if (e->ground != 0)
		return look_of(e->ink, e->ground, e->how);
	if (!chosen)
		return look_of(e->ink, day ? DAY_GROUND : NIGHT_GROUND, e->how);
	bool reads = sb_theme_contrast(sb_theme_rgb(e->ink), sb_theme_rgb(band)) >= 4.5;
	return look_of(reads ? e->ink : day ? DAY_BAND_INK : NIGHT_BAND_INK, band, e->how);
}

struct look sb_theme_look(enum theme theme, int colours, enum style style, bool chosen)
{
	if (theme == THEME_PLAIN || colours < 8)
		return look_of(-1, -1, plain_how[style] | (chosen ? REVERSE : 0));
	if (colours >= 256)
		return look_256(theme == THEME_DAY, style, chosen);
	const struct entry *e = theme == THEME_DAY ? &day_8[style] : &night_8[style];
	bool block = e->ground != (theme == THEME_DAY ? 7 : 0);
	return look_of(e->ink, e->ground, e->how | (chosen && !block ? REVERSE : 0));
}

enum style sb_theme_level(enum level level)
{
	return level == LEVEL_BREACH ? STYLE_BREACH : level == LEVEL_WATCH ? STYLE_WATCH : STYLE_OK;
}

const char *sb_theme_mark(enum level level)
{
	return level == LEVEL_BREACH ? "!!" : level == LEVEL_WATCH ? "!" : "";
}

unsigned sb_theme_rgb(int number)
{
	static const unsigned steps[] = { 0, 95, 135, 175, 215, 255 };

	if (number >= 232) {
		unsigned grey = (unsigned)(8 + 10 * (number - 232));
		return grey << 16 | grey << 8 | grey;
	}
	int cube = number - 16;
	return steps[cube / 36] << 16 | steps[cube / 6 % 6] << 8 | steps[cube % 6];
}

static double linear(unsigned byte)
{
	double c = (byte & 0xFF) / 255.0;

	return c <= 0.03928 ? c / 12.92 : pow((c + 0.055) / 1.055, 2.4);
}

static double luminance(unsigned rgb)
{
	return 0.2126 * linear(rgb >> 16) + 0.7152 * linear(rgb >> 8) + 0.0722 * linear(rgb);
}

double sb_theme_contrast(unsigned rgb, unsigned other)
{
	double a = luminance(rgb) + 0.05, b = luminance(other) + 0.05;

	return a > b ? a / b : b / a;
}
