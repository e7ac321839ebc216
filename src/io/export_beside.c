/* What a table is about, in two columns beside it: a file of one table has no other place that every reader
 * of CSV leaves alone.
 */
#include "base/str.h"
#include "io/csv.h"

#include <string.h>

#include "export.h"

void export_beside(const struct export *e, const char *table, int columns, struct sb_str *out)
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
			for (int i = 0; i < columns - 1; i++)
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
