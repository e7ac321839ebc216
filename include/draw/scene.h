/* A picture as strokes: what is drawn, what each stroke means, in metres in a plane. No paper yet: the same
 * scene goes to terminal cells (draw/braille.h) and to vector drawings, through an axis (draw/axis.h).
 *
 * x grows to the right of the picture, y upwards. Points may be anything, also not a number: whoever draws
 * leaves those out. A scene is used again from frame to frame: sb_scene_reset keeps its memory.
 */
#ifndef SB_DRAW_SCENE_H
#define SB_DRAW_SCENE_H

#include "base/unit.h"

#include <stdbool.h>
#include <stddef.h>

/* What a stroke stands for: its word for people, and its character where there is nothing but plain
 * characters. A later one hides an earlier one. */
#define SB_MEANINGS(X) \
	X(NONE, "", ' ') \
	X(TICK, "scale", '|') \
	X(GROUND, "ground", '=') \
	X(CORRIDOR, "corridor", '.') \
	X(DOUBT, "give or take", '\'') \
	X(SUPERSEDED, "withdrawn", 'x') \
	X(DESIGN, "design", '-') \
	X(OBSTACLE, "obstacle", '#') \
	X(HELD, "if held", '~') \
	X(PINNED, "pinned", ',') \
	X(PLAN, "plan", ':') \
	X(ESTIMATE, "estimate", '+') \
	X(LIMIT, "limit", '_') \
	X(DRILLED, "drilled", '*') \
	X(JOINT, "joint", 'o') \
	X(TRIAL, "what if", '?') \
	X(MEASURED, "measured", 'm') \
	X(FIX, "fix", 'F') \
	X(ENTRY, "entry", '>') \
	X(EXIT, "exit", '<') \
	X(BIT, "bit", 'O') \
	X(NONCONFORMANCE, "non-conformance", '!') \
	X(LABEL, "label", ' ')

#define SB_MEANING_ENUM(name, word, plain) MEANING_##name,
enum meaning { SB_MEANINGS(SB_MEANING_ENUM) MEANINGS };
#undef SB_MEANING_ENUM

const char *sb_scene_word(enum meaning m);
char sb_scene_plain(enum meaning m);

enum stroke_kind {
	STROKE_LINE,	/* polyline */
	STROKE_BOX,	/* two opposite corners */
	STROKE_ELLIPSE, /* centre, and two half axes as vectors from it */
	STROKE_MARK,	/* one point, known by its meaning */
	STROKE_TEXT,	/* one point, and words beside it */
};

enum line_kind { LINE_SOLID, LINE_HEAVY, LINE_DASHED, LINE_DOTTED };

/* On which side of its point a text would rather stand (or upon it, as a dimension stands in its line); it
 * may be moved to another side for room. */
enum anchor { ANCHOR_RIGHT, ANCHOR_LEFT, ANCHOR_ABOVE, ANCHOR_BELOW, ANCHOR_UPON };

struct spot {
	double x, y;
};

struct box {
	struct spot low, high;
};

struct stroke {
	enum stroke_kind kind;
	enum meaning meaning;
	enum line_kind line;
	enum anchor anchor;
	size_t first, count; /* into points */
	size_t text;	     /* into texts; of STROKE_TEXT */
	double beside_m;     /* upwards from the line that it goes along; 0: it stands alone. On a paper too
			      * small to tell the two apart it only blurs the line, and is left out */
};

/* What the numbers along a side of the picture are, so that its scale can be written. */
enum quantity {
	QUANTITY_STATION,
	QUANTITY_ELEVATION,
	QUANTITY_RIGHT,	 /* offset, right positive */
	QUANTITY_LEFT,	 /* offset, left positive: the picture's upwards when looking down on the line */
	QUANTITY_HEIGHT, /* against the design, high positive */
	QUANTITY_EAST,
	QUANTITY_NORTH, /* from the entry */
	QUANTITY_BEND,	/* curvature, 1/m: 0 is straight; no round figures of it are written */
	QUANTITY_VALUE, /* anything else, of which the scene says the unit: fills the height whatever it is */
};

struct scene {
	enum quantity across, up;
	enum unit unit;	     /* in which its scale is written */
	char value_unit[16]; /* of QUANTITY_VALUE: "psi" */
	double exaggerated;  /* the most that y may be drawn larger than x; 1: true proportions only */
	bool bare;	     /* says its own sizes: needs no scale beside it */
	struct box view;     /* what must be seen; low > high: nothing yet */
	struct spot *points;
	size_t point_count, point_room;
	struct stroke *strokes;
	size_t stroke_count, stroke_room;
	char *texts; /* one after the other, each with its NUL */
	size_t text_count, text_room;
};

void sb_scene_init(struct scene *s);
void sb_scene_reset(struct scene *s); /* empty, memory kept */
void sb_scene_clear(struct scene *s);

/* A polyline, point by point: begin, then points. One that got fewer than two points stays and draws
 * nothing (a mark draws one). Returned: the stroke's index. */
size_t sb_scene_line(struct scene *s, enum meaning m, enum line_kind line);
void sb_scene_point(struct scene *s, double x, double y); /* goes to the last stroke begun */

/* The last stroke begun goes along another line, so far from it at most. */
void sb_scene_beside(struct scene *s, double metres);

void sb_scene_box(struct scene *s, enum meaning m, enum line_kind line, struct spot a, struct spot b);
void sb_scene_ellipse(struct scene *s, enum meaning m, enum line_kind line, struct spot centre,
	struct spot half_axis, struct spot other_half_axis);
void sb_scene_mark(struct scene *s, enum meaning m, struct spot at);
/* text: UTF-8, tamed on the way in; an empty one is left out. */
void sb_scene_text(struct scene *s, enum meaning m, enum anchor anchor, struct spot at, const char *text);

/* Turns all of it counterclockwise about a point. The view is not turned: it is to be made anew. */
void sb_scene_turn(struct scene *s, double angle_rad, struct spot about);

const char *sb_scene_text_get(const struct scene *s, const struct stroke *stroke); /* borrowed */

/* Widens the view to hold a point (left out if not a finite one), or all strokes of a meaning as far as
 * they lie between two x; only the view's y grows then. */
void sb_scene_see(struct scene *s, double x, double y);
void sb_scene_see_between(struct scene *s, enum meaning m, double from_x, double to_x);
bool sb_scene_seen(const struct scene *s); /* false: the view holds nothing yet */

#endif
