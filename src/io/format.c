/* The table of formats, and the walk over the log that they share. A format is a row here and a file of its
 * own. */
#include "io/format.h"

#include "base/mem.h"
#include "io/rows.h"

#include <string.h>

#include "export.h"

const struct format sb_formats[] = {
	{ "csv", "csv",
		"every reading with its place, for a spreadsheet; what it is about stands in two columns at the right, and "
		"`import` makes the same bore of it",
		false, export_csv },
	{ "json", "json", "everything that the job file holds, and what was computed from it", false,
		export_json },
	{ "sheet", "pdf", "the plan-and-profile sheet, to be signed, with graphs and tables behind it", true,
		export_sheet },
	{ "drawing", "svg", "the same as one drawing, its pages one below another", false, export_drawing },
	{ "geojson", "geojson",
		"path, joints, design, corridor, obstacles, fixes, releases and non-conformances in longitude and latitude (RFC 7946)",
		false, export_geojson },
	{ "gpkg", "gpkg", "the same as layers of a GeoPackage (OGC), in the job's coordinates", true,
		export_gpkg },
	{ "dxf", "dxf",
		"the same as a drawing in plan, polylines in space in the job's coordinates (release 12)",
		false, export_dxf },
	{ "dxf-profile", "dxf",
		"the profile as a drawing: station, and elevation drawn larger, as its notes say", false,
		export_dxf_profile },
	{ "landxml", "xml",
		"design alignment and profile, the bore as drilled, and its joints as points (LandXML 1.2)",
		false, export_landxml },
	{ "stations", "csv",
		"the path at fixed stations, on the arcs between the readings; --every says how far apart",
		false, export_stations },
	{ "segments", "csv",
		"the hole as stretches from end to end, with length, angles and radius, drilled and designed: for who works out "
		"the pull and the stresses",
		false, export_segments },
	{ "report", "pdf", "the as-built report of the pilot and the hole after it, to be signed", true,
		export_report },
	{ "report-text", "txt", "the same report as text of 80 columns", false, export_report_text },
};
const size_t sb_format_count = sizeof sb_formats / sizeof *sb_formats;

const struct format *sb_format(const char *name)
{
	for (size_t i = 0; i < sb_format_count; i++)
		if (sb_same_word(sb_formats[i].name, name))
			return &sb_formats[i];
	return NULL;
}

bool export_is_path_column(const char *name)
{
	for (size_t i = 0; i < PATH_COLUMNS; i++)
		if (sb_same(sb_path_columns[i].name, name))
			return true;
	return false;
}

static size_t add_replaced(const struct job *job, const struct reading *r, struct export_line *to)
{
	size_t count = 0;

	for (const struct reading *old = r; old->corrects; count++) {
		old = sb_job_reading(job, old->corrects);
		if (old == NULL)
			break;
		to[count] = (struct export_line){ STANDING_REPLACED, NULL, old };
	}
	for (size_t i = 0; i < count / 2; i++) { /* the oldest first */
		struct export_line swap = to[i];
		to[i] = to[count - 1 - i];
		to[count - 1 - i] = swap;
	}
	return count;
}

size_t export_lines(const struct job *job, const struct solution *s, struct export_line **out)
{
	const struct row **rows;
	size_t row_count = sb_rows_list(s, true, &rows), count = 0;
	struct export_line *list = sb_alloc((row_count + job->reading_count) * sizeof *list);

	for (size_t i = 0; i < row_count; i++) {
		const struct reading *r = rows[i]->reading ? sb_job_reading(job, rows[i]->reading) : NULL;
		enum standing standing =
			sb_path_present(&s->path, rows[i]) ? STANDING_PATH : STANDING_WITHDRAWN;
		if (r)
			count += add_replaced(job, r, list + count);
		else if (rows[i]->joint == 0)
			standing = STANDING_ENTRY;
		list[count++] = (struct export_line){ standing, rows[i], r };
	}
	sb_free(rows);
	*out = list;
	return count;
}

/* A replaced reading keeps what was typed; it has no place. */
static void fill_replaced(const struct reading *r, struct path_cell cells[PATH_COLUMNS])
{
	memset(cells, 0, PATH_COLUMNS * sizeof *cells);
	cells[PATH_JOINT] = (struct path_cell){ .kind = CELL_WHOLE, .value = r->joint };
	cells[PATH_LEG] = (struct path_cell){ .kind = CELL_WHOLE, .value = r->leg };
	if (sb_number_given(&r->inclination))
		cells[PATH_INCLINATION] = (struct path_cell){ .kind = CELL_TYPED, .typed = r->inclination };
	if (sb_number_given(&r->azimuth))
		cells[PATH_AZIMUTH] = (struct path_cell){ .kind = CELL_TYPED, .typed = r->azimuth };
}

void export_cells(const struct job *job, const struct solution *s, const struct export_line *line,
	struct path_cell cells[PATH_COLUMNS])
{
	if (line->row)
		sb_rows_fill(job, s, line->row, cells);
	else
		fill_replaced(line->reading, cells);
}
