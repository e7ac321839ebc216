/* How each meaning looks: by day, by night, and where there are no colours.
 *
 * Green is normal, yellow abnormal, red hazardous (IEC 60073), and nothing else is drawn in these three.
 * What is said by colour is said by a word or a mark too.
 */
#ifndef SB_UI_THEME_H
#define SB_UI_THEME_H

#include "model/warning.h"
#include "ui/style.h"

#include <stdbool.h>

enum theme {
	THEME_NIGHT, /* light on dark, with as little light as possible */
	THEME_DAY,   /* dark on light, for glare */
	THEME_PLAIN, /* bold, underline, reverse */
};
#define SB_THEMES 3
const char *sb_theme_name(enum theme t); /* "night", "day", "plain" */
int sb_theme_parse(const char *name, enum theme *out);

/* What a terminal is told. */
struct look {
	int ink, ground; /* numbers of the terminal's palette; -1: none, as it comes */
	bool bold, underline, reverse;
};

/* Given: colours   how many the terminal has: 256 or more, 8 or more, else none
 *        chosen    part of the selected row */
struct look sb_theme_look(enum theme theme, int colours, enum style style, bool chosen);

enum style sb_theme_level(enum level level); /* STYLE_OK, STYLE_WATCH, STYLE_BREACH */
const char *sb_theme_mark(enum level level); /* "", "!", "!!" */

/* The colour 0xRRGGBB of a number from 16 to 255 of a palette of 256 (6 x 6 x 6 cube, then 24 greys). */
unsigned sb_theme_rgb(int number);
/* From 1 to 21.  Source: WCAG 2.1, "contrast ratio" and "relative luminance". */
double sb_theme_contrast(unsigned rgb, unsigned other);

#endif
