/* The tables behind the sheets: filled by drawing_records.c, drawing_after.c, drawing_design.c and
 * drawing_joints.c, put on pages by drawing_tables.c.
 */
#ifndef SB_SRC_IO_DRAWING_TABLES_H
#define SB_SRC_IO_DRAWING_TABLES_H

#include "io/paper_table.h"

#include "drawing_parts.h"

/* A table that owns its texts. */
struct drawing_table {
	char title[96];
	struct paper_table paper;
	char **cells;
	enum row_look *looks;
	size_t cell_count, cell_room, look_count, look_room;
};

#define DRAWING_TABLES 12
struct drawing_tables {
	struct drawing_table list[DRAWING_TABLES];
	size_t count;
	size_t new_page; /* from this table on, each begins a page */
};

/* Begins the next table, adds its cells row by row, and ends it. A table without rows is none. */
struct drawing_table *drawing_table_begin(
	struct drawing_tables *all, const char *title, const struct paper_column *columns, size_t count);
void drawing_table_put(struct drawing_table *t, const char *text);
/* A length in the job's unit, two decimals; blank where it is not known, or not finite. */
void drawing_table_put_length(struct drawing *d, struct drawing_table *t, bool known, double metres);
void drawing_table_end_row(struct drawing_table *t, enum row_look look);
void drawing_table_finish(struct drawing *d, struct drawing_tables *all, struct drawing_table *t);

/* Notes, non-conformances, legs, obstacles, fixes: what was said and done. */
void drawing_records_fill(struct drawing *d, struct drawing_tables *all);
/* The passes, and the pull joint by joint: nothing of either that was not begun. */
void drawing_after_fill(struct drawing *d, struct drawing_tables *all);
/* The design line in its parts. */
void drawing_design_fill(struct drawing *d, struct drawing_tables *all);
/* Every joint with its place, withdrawn ones too. */
void drawing_joints_fill(struct drawing *d, struct drawing_tables *all);

#endif
