/* The job sheet. Three steps, each saying all that it finds: job.ini (sheet_ini.c), the tables (here), and
 * what shows only when values are seen together (sheet_check.c). A table is bounded in rows and in problems,
 * so a file that is not what its name says costs little.
 */
#include "io/sheet.h"

#include "base/mem.h"
#include "io/csv.h"
#include "io/nearest.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "sheet_parts.h"

#define TABLE_COLUMNS 16

struct table_reader {
	struct sheet *sheet;
	const struct sheet_table *table;
	struct sb_csv *csv;
	int at[TABLE_COLUMNS]; /* column of the file for each of the table's; -1: not there */
};

static void map_columns(struct table_reader *t)
{
	for (size_t i = 0; i < t->table->column_count; i++) {
		const struct sheet_column *c = &t->table->columns[i];
		t->at[i] = sb_csv_find(t->csv, c->name);
		if (t->at[i] < 0 && c->required)
			sb_csv_wrong(t->csv, 0, c->name, "the column '%s' is missing. It says: %s.", c->name,
				c->help);
	}
}

static bool is_mapped(const struct table_reader *t, size_t column)
{
	for (size_t i = 0; i < t->table->column_count; i++)
		if (t->at[i] == (int)column)
			return true;
	return false;
}

/* A column that is not known is a slip if one that is known is missing and near; else it is only said. */
static void look_at_strangers(struct table_reader *t, const char *file)
{
	for (size_t i = 0; i < sb_csv_columns(t->csv); i++) {
		const char *name = sb_csv_column(t->csv, i);
		struct nearest n = sb_nearest_without_unit(name);
		if (is_mapped(t, i))
			continue;
		for (size_t k = 0; k < t->table->column_count; k++)
			if (t->at[k] < 0)
				sb_nearest_try(&n, t->table->columns[k].name);
		if (n.best)
			sb_csv_wrong(t->csv, 0, name, "there is no column '%.40s'. '%s' is probably meant.",
				name, n.best);
		else
			sb_problems_add(t->sheet->problems, 1, file, 0, name,
				"the column '%.40s' is not used.", name);
	}
}

static void take_row(struct table_reader *t, const struct csv_row *from)
{
	char *row = sb_sheet_row_new(t->table, t->sheet->job);
	struct sb_err err;

	*(int *)(void *)(row + t->table->line_offset) = from->line;
	for (size_t i = 0; i < t->table->column_count; i++) {
		const struct sheet_column *c = &t->table->columns[i];
		if (t->at[i] < 0)
			continue;
		if (c->type != COLUMN_TEXT && !sb_csv_decimal(t->csv, from, (size_t)t->at[i]))
			continue;
		if (sb_sheet_cell_put(c, row, from->cells[t->at[i]], &err))
			sb_csv_wrong(t->csv, from->line, c->name, "%s", err.text);
	}
}

static void read_rows(struct table_reader *t, const char *file)
{
	size_t before = t->sheet->problems->errors;

	map_columns(t);
	look_at_strangers(t, file);
	if (t->sheet->problems->errors > before)
		return; /* every row would only repeat it */
	for (const struct csv_row *row; (row = sb_csv_next(t->csv)) != NULL;) {
		if (sb_sheet_rows(t->table, t->sheet->job) >= SB_SHEET_ROWS) {
			sb_csv_wrong(t->csv, row->line, NULL,
				"more than %d rows: this is not a table of a job sheet.", SB_SHEET_ROWS);
			return;
		}
		take_row(t, row);
	}
	if (sb_sheet_rows(t->table, t->sheet->job) == 0 && t->sheet->problems->errors == before)
		sb_problems_add(t->sheet->problems, !t->table->required, file, 0, NULL,
			"the table has a header but no rows.");
}

/* A LandXML file in place of a table: what is understood of it is to be looked at first. */
static bool is_drawing(struct sheet *s, size_t which)
{
	const struct sheet_source *source = &s->sources[which];
	size_t length = strlen(source->file);

	if (length < 4 || !sb_same_word(source->file + length - 4, ".xml"))
		return false;
	sb_problems_add(s->problems, 0, SHEET_FILE, source->line, sb_sheet_tables[which].name,
		"'%.60s' is a drawing, not a table. `sagbend design` reads it, shows what it understood, and with --into writes "
		"alignment.csv and profile.csv into this folder: name those here.",
		source->file);
	return true;
}

static void read_table(struct sheet *s, size_t which)
{
	struct table_reader t = { .sheet = s, .table = &sb_sheet_tables[which] };
	struct sheet_source *source = &s->sources[which];
	size_t before = s->problems->errors;
	char path[4096];

	if (source->file[0] == '\0' || is_drawing(s, which))
		return;
	snprintf(path, sizeof path, "%s/%s", s->folder, source->file);
	if (sb_csv_open(path, source->file, &t.csv, s->problems) == 0)
		read_rows(&t, source->file);
	sb_csv_close(t.csv);
	source->sound = s->problems->errors == before;
}

/* A table that lies in the folder but is not named is probably forgotten. */
static void look_for_forgotten(struct sheet *s)
{
	char path[4096], file[64];

	for (size_t i = 0; i < sb_sheet_table_count; i++) {
		if (s->sources[i].line)
			continue;
		s->sources[i].sound = true;
		snprintf(file, sizeof file, "%s.csv", sb_sheet_tables[i].name);
		snprintf(path, sizeof path, "%s/%s", s->folder, file);
		if (access(path, F_OK) == 0)
			sb_problems_add(s->problems, 1, file, 0, NULL,
				"this table lies in the folder, but [files] does not name it: it is not used.");
	}
}

/* Lines of files mean nothing once the sheet is read. */
static void forget_lines(struct job *job)
{
	for (size_t i = 0; i < sb_sheet_table_count; i++) {
		const struct sheet_table *t = &sb_sheet_tables[i];
		char *rows = *(char **)(void *)((char *)job + t->rows_offset);
		for (size_t k = 0; k < sb_sheet_rows(t, job); k++)
			*(int *)(void *)(rows + k * t->row_size + t->line_offset) = 0;
	}
}

int sb_sheet_read(const char *folder, struct job *out, struct sb_problems *problems)
{
	struct sheet s = { .folder = folder, .job = out, .problems = problems };
	size_t before = problems->errors;

	sb_setting_init(out);
	sheet_read_ini(&s);
	for (size_t i = 0; i < sb_sheet_table_count && s.loaded; i++)
		read_table(&s, i);
	if (s.loaded) {
		look_for_forgotten(&s);
		sheet_check(&s);
	}
	forget_lines(out);
	if (s.problems->errors > before) {
		sb_job_clear(out);
		return -1;
	}
	return 0;
}

/* Problems of job.ini but for a table that [files] does not name yet. */
static void hand_on(const struct sb_problems *from, struct sb_problems *to)
{
	for (size_t i = 0; i < from->count; i++) {
		const struct sb_problem *p = &from->list[i];
		if (p->line > 0 || sb_sheet_table(p->column) == NULL)
			sb_problems_add(to, p->warning, p->file, p->line, p->column, "%s", p->text);
	}
}

int sb_sheet_settings(const char *folder, struct job *out, struct sb_problems *problems)
{
	static const char *const tables[] = { "alignment", "profile" };
	struct sb_problems own = { 0 };
	struct sheet s = { .folder = folder, .job = out, .problems = &own };
	size_t before = problems->errors;

	sb_setting_init(out);
	sheet_read_ini(&s);
	hand_on(&own, problems);
	for (size_t i = 0; i < 2 && s.loaded; i++) {
		size_t which = (size_t)(sb_sheet_table(tables[i]) - sb_sheet_tables);
		read_table(&s, which);
		if (!s.sources[which].sound)
			*(size_t *)(void *)((char *)out + sb_sheet_tables[which].count_offset) = 0;
	}
	forget_lines(out);
	sb_problems_clear(&own);
	if (problems->errors == before)
		return 0;
	sb_job_clear(out);
	return -1;
}

void sb_sheet_say(const struct sb_problem *p, struct sb_str *out)
{
	sb_str_add(out, "%s", p->file);
	if (p->line)
		sb_str_add(out, " line %d", p->line);
	if (p->column[0])
		sb_str_add(out, ", %s", p->column);
	sb_str_add(out, ": %s%s\n", p->warning ? "warning: " : "", p->text);
}
