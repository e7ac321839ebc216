/* What all export formats walk over: every reading of the log, where it stands, and its row of the path. */
#ifndef SB_SRC_IO_EXPORT_H
#define SB_SRC_IO_EXPORT_H

#include "io/format.h"
#include "io/rows.h"
#include "io/standing.h"
#include "model/solve.h"

struct export_line {
	enum standing standing;
	const struct row *row;	       /* NULL: a replaced reading has no place on the path */
	const struct reading *reading; /* NULL: the entry */
};

/* In order of leg and joint; a replaced reading comes just before the one that replaced it, the oldest first.
 * For sb_free. Returns how many. */
size_t export_lines(const struct job *job, const struct solution *s, struct export_line **out);

/* Whether a row's field has a column of the path already. */
bool export_is_path_column(const char *name);

/* The path's cells of a line; a replaced reading has its angles only. */
void export_cells(const struct job *job, const struct solution *s, const struct export_line *line,
	struct path_cell cells[PATH_COLUMNS]);

/* A table of lines that end in CR LF, with what it is about put behind them in two columns more.
 * Given: columns, of the table. */
void export_beside(const struct export *e, const char *table, int columns, struct sb_str *out);

int export_csv(const struct export *e, struct sb_str *out, struct sb_err *err);
int export_json(const struct export *e, struct sb_str *out, struct sb_err *err);
int export_sheet(const struct export *e, struct sb_str *out, struct sb_err *err);
int export_drawing(const struct export *e, struct sb_str *out, struct sb_err *err);
int export_geojson(const struct export *e, struct sb_str *out, struct sb_err *err);
int export_gpkg(const struct export *e, struct sb_str *out, struct sb_err *err);
int export_dxf(const struct export *e, struct sb_str *out, struct sb_err *err);
int export_dxf_profile(const struct export *e, struct sb_str *out, struct sb_err *err);
int export_landxml(const struct export *e, struct sb_str *out, struct sb_err *err);
int export_segments(const struct export *e, struct sb_str *out, struct sb_err *err);
int export_stations(const struct export *e, struct sb_str *out, struct sb_err *err);
int export_report(const struct export *e, struct sb_str *out, struct sb_err *err);
int export_report_text(const struct export *e, struct sb_str *out, struct sb_err *err);

#endif
