/* The as-drilled path as a table: what `path` gives as CSV, JSON and for people, and what exports begin with.
 *
 * Signs and units: lengths in the job's unit; inclination in the job's convention and azimuth as the tool
 * reads it; offset right positive, height high positive; dogleg in degrees over the course. A cell is blank
 * (null) where there is nothing to say: a radius where the hole is straight, a position while the sensor is
 * behind the entry or where no reading was taken.
 */
#ifndef SB_IO_ROWS_H
#define SB_IO_ROWS_H

#include "io/csv.h"
#include "io/json.h"
#include "model/solve.h"

/* In exactly this order in files. */
enum path_column {
	PATH_JOINT,
	PATH_LEG,
	PATH_BIT_DEPTH,
	PATH_SURVEY_DEPTH,
	PATH_INCLINATION,
	PATH_AZIMUTH,
	PATH_STATION,
	PATH_OFFSET,
	PATH_ELEVATION,
	PATH_HEIGHT,
	PATH_NORTHING,
	PATH_EASTING,
	PATH_DOGLEG,
	PATH_RADIUS_JOINT,
	PATH_RADIUS_WINDOW,
	PATH_CORRIDOR_SHARE,
	PATH_SIGMA_ALONG,
	PATH_SIGMA_ACROSS,
	PATH_SIGMA_UP,
	PATH_CHANCE_OUTSIDE,
	PATH_SHIFT_STATION,
	PATH_SHIFT_OFFSET,
	PATH_SHIFT_HEIGHT,
	PATH_COVER,
	PATH_COVER_LEAST,
	PATH_CLEARANCE,
	PATH_COLUMNS
};

struct path_column_sort {
	const char *name;
	const char *unit; /* "length", "degrees", "convention", "" */
	const char *help; /* with the sign, where there is one */
};
extern const struct path_column_sort sb_path_columns[PATH_COLUMNS];

/* One cell: nothing, a whole number, a number as typed, or a computed one. */
struct path_cell {
	enum { CELL_BLANK, CELL_WHOLE, CELL_TYPED, CELL_NUMBER } kind;
	double value;
	struct number typed;
};

/* A row of the path: of the solution's, or of a preview. */
void sb_rows_fill(const struct job *job, const struct solution *s, const struct row *row,
	struct path_cell cells[PATH_COLUMNS]);
void sb_rows_csv_cells(struct csv_out *out, const struct path_cell cells[PATH_COLUMNS]);
void sb_rows_json_cells(struct sb_json *j, const struct path_cell cells[PATH_COLUMNS]); /* members */

/* One row as members of the object that is open. */
void sb_rows_json(struct sb_json *j, const struct job *job, const struct solution *s, const struct row *row);
/* One row in words, a few lines of at most 80 columns; bit: as projected from it, NULL to leave it out. */
void sb_rows_say(const struct job *job, const struct solution *s, const struct row *row,
	const struct bit *bit, struct sb_str *out);
/* One warning as an object of the array that is open: kind, level, value, limit, text. */
void sb_rows_warning(struct sb_json *j, const struct warning *w);

enum rows_format { ROWS_TEXT, ROWS_CSV, ROWS_JSON };
struct rows_ask {
	bool all_legs; /* withdrawn joints too, in order of leg and joint */
	double every;  /* > 0: instead of the joints, a row every so much of station along the same arcs; job
			  unit */
};
#define SB_ROWS_MOST 1000000 /* rows of `every` */

/* The whole table. ROWS_TEXT is for people: words instead of signs, 80 columns. JSON: {"unit",
 * "inclination", "rows": [...]}. -1 with err only for an `every` that cannot be. */
int sb_rows_table(const struct job *job, const struct solution *s, const struct rows_ask *ask,
	enum rows_format format, struct sb_str *out, struct sb_err *err);

/* The rows of it as a member "rows" of the object that is open, or by another name. As sb_rows_table. */
int sb_rows_put(struct sb_json *j, const char *name, const struct job *job, const struct solution *s,
	const struct rows_ask *ask, struct sb_err *err);

/* Rows in order of leg and joint, withdrawn ones if asked: a list of the solution's own rows, for sb_free.
 * Returns how many. */
size_t sb_rows_list(const struct solution *s, bool all_legs, const struct row ***out);

#endif
