/* What a cell means. Styles are meanings, never colours: ui/theme.h alone knows how each one looks.
 *
 * A style is the third sign at most: what it says stands there as a word or a mark too.
 */
#ifndef SB_UI_STYLE_H
#define SB_UI_STYLE_H

#define SB_STYLES(X) \
	X(PLAIN, "plain") \
	X(DIM, "dim")	      /* labels, units: what one reads once */ \
	X(TITLE, "title")     /* the line at the head of the screen */ \
	X(STRONG, "strong")   /* the big answers */ \
	X(RULE, "rule")	      /* lines between parts of a screen */ \
	X(KEY, "key")	      /* the name of a key */ \
	X(ENTRY, "entry")     /* a place to type in */ \
	X(CURSOR, "cursor")   /* the place that takes what is typed now */ \
	X(OFFERED, "offered") /* a value that stands there until something else is typed */ \
	X(OK, "ok")	      /* normal */ \
	X(WATCH, "watch")     /* abnormal; also what is wrong with a typed value */ \
	X(BREACH, "breach")   /* hazardous: a limit is broken */ \
	X(SCALE, "scale")     /* of a picture: ticks and their numbers */ \
	X(GROUND, "ground")   /* of a picture, from here on: ground and river bed */ \
	X(CORRIDOR, "corridor") \
	X(WITHDRAWN, "withdrawn") /* legs that were pulled back */ \
	X(DESIGN, "design") \
	X(OBSTACLE, "obstacle") \
	X(AHEAD, "ahead") /* where the bore would go */ \
	X(DRILLED, "drilled") \
	X(TRIAL, "trial") /* what if */ \
	X(BIT, "bit")

#define SB_STYLE_ENUM(name, word) STYLE_##name,
enum style { SB_STYLES(SB_STYLE_ENUM) STYLES };
#undef SB_STYLE_ENUM

const char *sb_style_name(enum style s); /* "watch" */

#endif
