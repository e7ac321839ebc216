/* The units that tools show gravity and magnetic field in. Inside, gravity is in g (9.80665 m/s2) and field
 * in nanotesla; both tables are for the job sheet, for words, and for telling one unit taken for another.
 */
#ifndef SB_MODEL_TOOL_UNIT_H
#define SB_MODEL_TOOL_UNIT_H

#include <stddef.h>

struct tool_unit {
	const char *name; /* in the job sheet: "m/s2" */
	const char *word; /* in a sentence: "metres per second squared" */
	double size;	  /* in g, or in nT */
	int decimals;	  /* to show a total with */
};

extern const struct tool_unit sb_gravity_units[]; /* the usual one first, here and there */
extern const size_t sb_gravity_unit_count;
extern const struct tool_unit sb_field_units[];
extern const size_t sb_field_unit_count;

/* By name, case counts where it must (mg is not mG); NULL: none. */
const struct tool_unit *sb_gravity_unit(const char *name);
const struct tool_unit *sb_field_unit(const char *name);

#endif
