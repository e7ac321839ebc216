/* The whole log as one CSV table (RFC 4180): the columns of `path --csv`, then everything else of the row.
 *
 * What the file is about (job, units, datum, method, who, when, digest, signs, caution) must travel with it,
 * and must not break a reader that knows only CSV. So it stands in the last two columns, about and
 * about_value, one line of it beside each row: a spreadsheet shows it at the right, a script finds it by
 * name, and an import passes over it. Where there are more of its lines than rows, rows with nothing else
 * follow.
 */
#include "base/mem.h"
#include "base/str.h"
#include "base/time.h"
#include "io/about.h"
#include "io/csv.h"
#include "io/rows.h"

#include "export.h"

static const char *const before_fields[] = { "standing", "corrected" };
static const char *const after_fields[] = { "reason", "who", "time", "reading", "corrects", "about",
	"about_value" };

static void put_header(struct csv_out *out)
{
	for (size_t i = 0; i < PATH_COLUMNS; i++)
		sb_csv_cell(out, sb_path_columns[i].name);
	for (size_t i = 0; i < sizeof before_fields / sizeof *before_fields; i++)
		sb_csv_cell(out, before_fields[i]);
	for (size_t i = 0; i < sb_row_field_count; i++)
		if (!export_is_path_column(sb_row_fields[i].name))
			sb_csv_cell(out, sb_row_fields[i].name);
	for (size_t i = 0; i < sizeof after_fields / sizeof *after_fields; i++)
		sb_csv_cell(out, after_fields[i]);
	sb_csv_end(out);
}

static void put_id(struct csv_out *out, int64_t id)
{
	if (id)
		sb_csv_cell_whole(out, id);
	else
		sb_csv_cell(out, "");
}

static void put_field(struct csv_out *out, const struct row_field *f, const struct reading *r)
{
	(f->type == FIELD_TEXT ? sb_csv_cell_text : sb_csv_cell)(out, sb_row_field_get(f, r));
}

static void put_reading(struct csv_out *out, const struct reading *r)
{
	static const struct reading none;
	char time[SB_TIME_TEXT] = "";

	if (r == NULL)
		r = &none;
	else
		sb_time_iso(r->at_ms, time);
	for (size_t i = 0; i < sb_row_field_count; i++)
		if (!export_is_path_column(sb_row_fields[i].name))
			put_field(out, &sb_row_fields[i], r);
	sb_csv_cell_text(out, r->reason);
	sb_csv_cell_text(out, r->who);
	sb_csv_cell(out, time);
	put_id(out, r->id);
	put_id(out, r->corrects);
}

static void put_about(struct csv_out *out, const struct about_line *about)
{
	sb_csv_cell(out, about ? about->key : "");
	sb_csv_cell_text(out, about ? about->text : "");
	sb_csv_end(out);
}

static void put_line(struct csv_out *out, const struct job *job, const struct solution *s,
	const struct export_line *line, const struct about_line *about)
{
	struct path_cell cells[PATH_COLUMNS];
	bool corrected = line->reading && line->reading->corrects && line->standing != STANDING_REPLACED;

	export_cells(job, s, line, cells);
	sb_rows_csv_cells(out, cells);
	sb_csv_cell(out, sb_standing_name(line->standing));
	sb_csv_cell(out, corrected ? "yes" : "no");
	put_reading(out, line->reading);
	put_about(out, about);
}

/* A row that holds nothing but what the file is about. */
static void put_rest(struct csv_out *out, const struct about_line *about)
{
	size_t cells = PATH_COLUMNS + sizeof before_fields / sizeof *before_fields +
		sizeof after_fields / sizeof *after_fields - 2;

	for (size_t i = 0; i < sb_row_field_count; i++)
		cells += !export_is_path_column(sb_row_fields[i].name);
	for (size_t i = 0; i < cells; i++)
		sb_csv_cell(out, "");
	put_about(out, about);
}

int export_csv(const struct export *e, struct sb_str *out, struct sb_err *err)
{
	const struct job *job = e->job;
	const struct solution *s = e->solution;
	struct about_line notes[SB_ABOUT_LINES];
	size_t note_count = sb_about_lines(job, e->about, notes), note = 0;
	struct csv_out csv = { .text = *out };
	struct export_line *lines;
	size_t count = export_lines(job, s, &lines);

	(void)err; /* it can always be made */
	put_header(&csv);
	for (size_t i = 0; i < count; i++, note++)
		put_line(&csv, job, s, &lines[i], note < note_count ? &notes[note] : NULL);
	for (; note < note_count; note++)
		put_rest(&csv, &notes[note]);
	sb_free(lines);
	*out = csv.text;
	return 0;
}
