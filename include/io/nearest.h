/* "Did you mean": the known name that is nearest to one that is not known. */
#ifndef SB_IO_NEAREST_H
#define SB_IO_NEAREST_H

#include <stdbool.h>
#include <stddef.h>

#define SB_NEAREST_TEXT 64

struct nearest {
	char word[SB_NEAREST_TEXT]; /* as compared: lower case, without spaces, '_' and '-' */
	const char *best;	    /* borrowed; NULL until something was near enough */
	size_t slips;
};

/* Whether two names are the same but for case, spaces, '_' and '-'. */
bool sb_nearest_same(const char *a, const char *b);

struct nearest sb_nearest_to(const char *word);
/* The same for a column's name that may have a unit behind it: "thrust (kN)" is near to "thrust". */
struct nearest sb_nearest_without_unit(const char *word);
/* Offers one known name. Near enough: letters left out, added, changed or swapped, up to a third of the
 * name. */
void sb_nearest_try(struct nearest *n, const char *name);

#endif
