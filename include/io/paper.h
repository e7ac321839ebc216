/* Paper: pages in millimetres, drawn on once and given out as PDF or as SVG, in memory.
 *
 * The origin is a page's upper left corner, x to the right and y downwards, as draw/axis.h has it. Lettering
 * is DejaVu Sans and DejaVu Sans Mono, embedded in a PDF and drawn as outlines in an SVG; text keeps its
 * characters in a PDF, so that it can be searched and copied. The same calls with the same note give the same
 * bytes, on every machine with the same cairo and fonts.
 *
 * A PDF has each page at its own size. SVG has no pages that programs would open: there the pages lie one
 * below another in one drawing, as wide as the widest, a little apart on white.
 *
 * Nothing here opens a file: bytes go to io/write.h when they are whole, so that a full disk is seen. Cairo
 * is loaded when the first paper is made. What fails on the way is remembered, and sb_paper_end says it.
 */
#ifndef SB_IO_PAPER_H
#define SB_IO_PAPER_H

#include "base/err.h"
#include "base/str.h"
#include "draw/axis.h"

#include <stdbool.h>
#include <stdint.h>

enum paper_kind { PAPER_PDF, PAPER_SVG };

/* What the file says of itself, all borrowed until sb_paper_new returns; NULL or "" is left out. */
struct paper_note {
	const char *title, *author, *subject, *keywords;
	const char *program; /* that made it */
	int64_t at_ms;	     /* when, UTC: to the second, years 1 to 9999 */
};

struct ink {
	double red, green, blue; /* 0 to 1; all 0 is black */
};
#define SB_INK_BLACK ((struct ink){ 0, 0, 0 })
#define SB_INK_WHITE ((struct ink){ 1, 1, 1 })

#define SB_PEN_DASHES 6
struct pen {
	double width_mm;
	struct ink ink;
	double dash_mm[SB_PEN_DASHES]; /* drawn, left out, drawn ...; ends at the first 0; none: a full line
					*/
};

enum face { FACE_PLAIN, FACE_BOLD, FACE_MONO, FACE_MONO_BOLD, FACES };
enum hold { HOLD_LEFT, HOLD_MIDDLE, HOLD_RIGHT }; /* which end of the text is at its point */

struct lettering {
	enum face face;
	double capital_mm; /* height of a capital letter, as drawings give the size of lettering */
	enum hold hold;
	double turn_deg; /* counterclockwise: 90 reads upwards */
	struct ink ink;
};

struct sb_paper;

/* -1 with err: cairo or the fonts are not installed (SB_MISSING). Otherwise it has to be ended or abandoned.
 */
int sb_paper_new(
	enum paper_kind kind, const struct paper_note *note, struct sb_paper **out, struct sb_err *err);

/* Begins a page; what was drawn before is done with. The first call makes page 1. Nothing may be drawn before
 * it. name: in the PDF's list of contents; NULL: not there. Sizes from 10 mm to 5 m. */
void sb_paper_page(struct sb_paper *p, double width_mm, double height_mm, const char *name);

/* 0: the bytes are added to out. -1 with err: out is as it was. Frees p either way. At least one page. */
int sb_paper_end(struct sb_paper *p, struct sb_str *out, struct sb_err *err);
void sb_paper_abandon(struct sb_paper *p); /* NULL is fine */

/* A polyline. A point that is not finite, or lies farther off than SB_PAPER_FAR, parts it in two. */
#define SB_PAPER_FAR 20000.0 /* mm from the page's corner, in x or y */
void sb_paper_line(struct sb_paper *p, const struct pen *pen, const struct spot *points, size_t count);
void sb_paper_stroke(struct sb_paper *p, const struct pen *pen, double x0, double y0, double x1, double y1);
void sb_paper_box(struct sb_paper *p, const struct pen *pen, const struct paper *box);
/* Two half axes as vectors from the centre: a circle's are {r, 0} and {0, r}. */
void sb_paper_ellipse(struct sb_paper *p, const struct pen *pen, struct spot centre, struct spot half_axis,
	struct spot other_half_axis);

/* Filled, without an edge. A polygon with a point that cannot be is left out. */
void sb_paper_fill(struct sb_paper *p, struct ink ink, const struct paper *box);
void sb_paper_area(struct sb_paper *p, struct ink ink, const struct spot *points, size_t count);
void sb_paper_disc(struct sb_paper *p, struct ink ink, struct spot centre, double radius_mm);

/* One line of text, its baseline at the point. text: UTF-8, tamed on the way in. */
void sb_paper_text(struct sb_paper *p, const struct lettering *as, struct spot at, const char *text);
/* How long it is along its baseline, mm: in proportion to its size. */
double sb_paper_width(struct sb_paper *p, const struct lettering *as, const char *text);

/* Only inside the box is drawn on, until unclipped; may be nested. */
void sb_paper_clip(struct sb_paper *p, const struct paper *box);
void sb_paper_unclip(struct sb_paper *p);

#endif
