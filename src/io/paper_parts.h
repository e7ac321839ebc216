/* What pages (paper.c) and strokes (paper_draw.c) share. */
#ifndef SB_SRC_IO_PAPER_PARTS_H
#define SB_SRC_IO_PAPER_PARTS_H

#include "io/paper.h"

#include "paper_cairo.h"

struct sb_paper {
	const struct paper_cairo *cairo;
	enum paper_kind kind;
	struct sb_str bytes;
	struct sb_str head; /* of an SVG: its title and description */
	cairo_surface_t *surface;
	cairo_t *pen;	/* draws on the present page; NULL before the first */
	cairo_t *ruler; /* measures text, and is never drawn with */
	size_t page_count;
	double wide_mm, high_mm; /* of an SVG, so far */
	cairo_status_t failed;	 /* the first failure of what was given up meanwhile */
};

/* The advance of a text, as a share of the size of the font. */
double paper_measure(struct sb_paper *p, enum face face, const char *text);
/* Where along a text its point is, 0 at its beginning to 1. */
double paper_held_at(enum hold hold);
void paper_choose_face(struct sb_paper *p, cairo_t *pen, enum face face);

#endif
