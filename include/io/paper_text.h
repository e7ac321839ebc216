/* Text that has to go into a space: broken into lines, or made smaller and cut.
 */
#ifndef SB_IO_PAPER_TEXT_H
#define SB_IO_PAPER_TEXT_H

#include "io/paper.h"

#define SB_PAPER_LEADING 1.75 /* from baseline to baseline, of the height of a capital */

/* Breaks text at its spaces, and at its line ends, into lines of at most width_mm; a word that is longer is
 * broken where it must be. Returned: out   the lines are added, each with its '\n'; returns how many. */
size_t sb_paper_break(struct sb_paper *p, const struct lettering *as, double width_mm, const char *text,
	struct sb_str *out);

/* Draws it so from the upper left corner down, held at the left, in the middle or at the right of the width.
 * Returned: the height that it took, mm: as many leadings as lines. */
double sb_paper_paragraph(struct sb_paper *p, const struct lettering *as, struct spot corner, double width_mm,
	const char *text);
/* The same height, and nothing drawn. */
double sb_paper_paragraph_high(
	struct sb_paper *p, const struct lettering *as, double width_mm, const char *text);

/* One line at a point, not longer than width_mm: lettering down to least_mm if it must be, then cut, with
 * three dots. Turned and held as `as` says. Returned: its width. */
double sb_paper_text_within(struct sb_paper *p, const struct lettering *as, double least_mm, double width_mm,
	struct spot at, const char *text);

#endif
