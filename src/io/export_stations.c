/* The path at fixed stations, for owners whose maps want one every so many feet: the table of `path --every`,
 * with what the file is about in its last two columns. */
#include "base/str.h"
#include "io/rows.h"

#include "export.h"

/* Common practice, no source: 25 feet, or 10 metres. */
static double usual(enum unit unit)
{
	return unit == UNIT_M ? 10 : 25;
}

int export_stations(const struct export *e, struct sb_str *out, struct sb_err *err)
{
	struct rows_ask ask = { .every = sb_number_given(&e->every) ? e->every.value : usual(e->job->unit) };
	struct sb_str table = { 0 };
	int status = sb_rows_table(e->job, e->solution, &ask, ROWS_CSV, &table, err);

	if (status == 0)
		export_beside(e, sb_str_get(&table), PATH_COLUMNS, out);
	sb_str_clear(&table);
	return status;
}
