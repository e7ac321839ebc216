/* The path at fixed stations, for owners whose maps want one every so many feet: the table of `path --every`,
 * with what the file is about in its last two columns. */
#include "base/str.h"
#include "io/csv.h"
#include "io/rows.h"

#include <stdlib.h>
#include <string.h>

#include "export.h"

/* Common practice, no source: 25 feet, or 10 metres. */
static double usual(enum unit unit)
{
	return unit == UNIT_M ? 10 : 25;
}

/* The table's lines, each with one line of what it is about put behind it. */
static void put_beside(const struct export *e, const char *table, struct sb_str *out)
{
	struct about_line notes[SB_ABOUT_LINES];
	size_t count = sb_about_lines(e->job, e->about, notes), line = 0;

	for (const char *end; *table || line <= count; line++) {
		end = strstr(table, "\r\n");
		size_t length = end ? (size_t)(end - table) : strlen(table);
		struct csv_out more = { 0 };
		if (*table)
			sb_str_append(out, table, length);
		else
			for (int i = 0; i < PATH_COLUMNS - 1; i++)
				sb_str_add(out, ",");
		table += end ? length + 2 : length;
		bool any = line > 0 && line <= count;
		sb_csv_cell(&more, line == 0 ? "about" : any ? notes[line - 1].key : "");
		sb_csv_cell_text(&more, line == 0 ? "about_value" : any ? notes[line - 1].text : "");
		sb_csv_end(&more);
		sb_str_add(out, ",%s", sb_str_get(&more.text));
		sb_str_clear(&more.text);
	}
}

int export_stations(const struct export *e, struct sb_str *out, struct sb_err *err)
{
	struct rows_ask ask = { .every = sb_number_given(&e->every) ? e->every.value : usual(e->job->unit) };
	struct sb_str table = { 0 };
	int status = sb_rows_table(e->job, e->solution, &ask, ROWS_CSV, &table, err);

	if (status == 0)
		put_beside(e, sb_str_get(&table), out);
	sb_str_clear(&table);
	return status;
}
