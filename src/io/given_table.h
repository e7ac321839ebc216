/* Between the files that read a design from a CSV: the table while it is read. */
#ifndef SB_SRC_IO_GIVEN_TABLE_H
#define SB_SRC_IO_GIVEN_TABLE_H

#include "io/csv.h"

#include "given_parts.h"

enum column { STATION, ELEVATION, NORTHING, EASTING, OFFSET, RADIUS, COLUMNS };

struct table {
	struct given_reading *r;
	struct sb_csv *csv;
	int at[COLUMNS];       /* of the file; -1 */
	int remark_at;	       /* likewise, of the words beside the numbers */
	int decimals[COLUMNS]; /* the most that a cell had */
	enum given_unit unit_said;
	enum unit unit;
	double *cells[COLUMNS]; /* NAN: blank */
	int *lines;
	enum given_mark *marks;
	size_t count, rooms[COLUMNS + 2];
};

/* src/io/given_columns.c: finds the columns by name, and their unit; then whether a line can be read from
 * them. Problems of the file say what is missing, or what could be read in two ways. */
void given_map_columns(struct table *t);
void given_check_columns(struct table *t);
bool given_has(const struct table *t, enum column c);
bool given_is_plan(const struct table *t); /* northing and easting */

#endif
