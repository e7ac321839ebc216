/* A screen of no use but to prove what screens stand on: a list, a form, a question, an act that writes, and
 * a way to change every cell at once.
 *
 * What is in the form is kept, at each key, in a file of one line (`path`), as a real screen keeps its draft;
 * at a pause the word "kept" is added to it.
 */
#ifndef SUPPORT_TINY_H
#define SUPPORT_TINY_H

#include "ui/screen.h"

struct tiny_argument {
	const char *path; /* NULL: kept nowhere */
	int refuse;	  /* 1: it does not open */
};

extern const struct screen tiny_screen;

/* How often each was called since the program began. */
struct tiny_counts {
	int opened, closed, changed, kept, written;
};
extern struct tiny_counts tiny_counts;

#endif
