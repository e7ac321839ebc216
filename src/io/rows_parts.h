/* Between the files that write the path as a table. */
#ifndef SB_SRC_IO_ROWS_PARTS_H
#define SB_SRC_IO_ROWS_PARTS_H

#include "io/rows.h"

/* One row of the table; row is NULL for a point between joints. */
typedef void rows_take(void *data, const struct row *row, const struct path_cell cells[PATH_COLUMNS]);

/* Hands over every row that is asked for, in order. */
int rows_walk(const struct job *job, const struct solution *s, const struct rows_ask *ask, rows_take *take,
	void *data, struct sb_err *err);

/* src/io/rows_text.c */
int rows_text(const struct job *job, const struct solution *s, const struct rows_ask *ask, struct sb_str *out,
	struct sb_err *err);

/* The members value and limit; null for kinds that measure nothing. */
void rows_warning_values(struct sb_json *j, const struct warning *w);

#endif
