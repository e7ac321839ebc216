/* The big answers: where the bit is, how it heads, how tight it bends, what the next joint may do.
 */
#ifndef UI_ANSWERS_H
#define UI_ANSWERS_H

#include "model/solve.h"
#include "model/steering.h"
#include "ui/cells.h"
#include "ui/glyph.h"

#define SB_ANSWERS_ROWS 6 /* one less where there is no room: how sure the place is goes */

/* What they speak of: the end of the log, or a reading that is not logged. Borrowed. */
struct answers {
	const struct job *job;
	const struct solution *solution;
	const struct row *row;
	const struct bit *bit;
	const struct ahead *ahead;
	const struct budget *budget;
	const struct warning *warnings; /* those that hold */
	size_t warning_count;
	const struct plan *plan;	     /* what to do next; NULL: none for what is tried */
	const struct withdrawal *withdrawal; /* where to pull back to when the plan is not feasible */
	bool guess;			     /* nothing was learnt yet of what this ground gives */
	bool trial;
};

struct answers sb_answers_now(const struct job *job, const struct solution *s);
struct answers sb_answers_trial(const struct job *job, const struct solution *s, const struct preview *p);

/* Six rows, or five; where a wide screen has room beside them, how far off the bit is stands there in big
 * digits. */
void sb_answers_draw(const struct answers *a, enum glyphs glyphs, struct cells *out);

/* Mark and word at the right edge of a row, where a tired hand looks first; not so far out on a wide screen
 * that the eye loses the row. */
int sb_answers_verdict(struct cells *out, int row, enum level level); /* the column where it begins */

/* "1.8 ft left": decimals as people say them, words for signs. */
void sb_answers_offset(const struct job *job, const struct frame *f, double metres, char text[32]);
void sb_answers_height(const struct job *job, const struct frame *f, double metres, char text[32]);
/* "1480 ft", "straight". */
void sb_answers_radius(const struct job *job, const struct frame *f, double metres, char text[32]);

#endif
