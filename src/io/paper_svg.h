/* What an SVG needs besides what cairo writes. */
#ifndef SB_SRC_IO_PAPER_SVG_H
#define SB_SRC_IO_PAPER_SVG_H

#include "io/paper.h"

/* The note as the elements title and desc, for search and for those who hear drawings read out. */
void paper_svg_head(const struct paper_note *note, struct sb_str *out);

/* Adds the drawing to out, cut to its size in points, the head in its place, and the names within it numbered
 * from 1: cairo counts them from the start of the program, so the second drawing of the same thing would be
 * other bytes. */
void paper_svg_finish(const struct sb_str *drawn, const struct sb_str *head, double width_pt,
	double height_pt, struct sb_str *out);

#endif
