/* One reader for every sort of entry: the table of a fact's columns says what a row can hold. */
#include "io/entries.h"

#include "base/mem.h"
#include "base/str.h"
#include "io/csv.h"
#include "io/nearest.h"
#include "model/after.h"

#include <limits.h>
#include <string.h>

struct reader {
	struct entries *out;
	struct sb_problems *problems;
	struct sb_csv *csv;
	const struct fact_sort *sort;
	size_t errors;		/* when it began */
	int at[SB_CSV_COLUMNS]; /* the sort's column of a column of the file; -1: none, -2: remarks */
};

enum { NOT_USED = -1, REMARKS = -2 };

/* ---- columns ---- */

static int column_of(const struct fact_sort *sort, const char *name)
{
	for (size_t i = 0; i < sort->column_count; i++)
		if (sb_nearest_same(name, sort->columns[i].name))
			return (int)i;
	return sb_nearest_same(name, "remarks") ? REMARKS : NOT_USED;
}

/* How well the file's columns go with the sort: those that it knows, less those that it asks for and that are
 * not there. */
static int fits(const struct sb_csv *csv, const struct fact_sort *sort, const char **missing)
{
	int fit = 0;

	*missing = NULL;
	for (size_t i = 0; i < sort->column_count; i++) {
		const struct sheet_column *c = &sort->columns[i];
		bool there = sb_csv_find(csv, c->name) >= 0;
		fit += there ? 1 : c->required ? -1 : 0;
		if (!there && c->required && *missing == NULL)
			*missing = c->name;
	}
	return fit;
}

static bool choose_sort(struct reader *r, const enum act_kind *acts, size_t count)
{
	const char *missing = NULL, *first;
	int best = INT_MIN;

	for (size_t i = 0; i < count; i++) {
		int fit = fits(r->csv, sb_fact_sort(acts[i]), &first);
		if (fit <= best)
			continue;
		best = fit;
		missing = first;
		r->sort = sb_fact_sort(acts[i]);
		r->out->act = acts[i];
	}
	if (missing)
		sb_csv_wrong(r->csv, 0, missing, "the column '%s' is missing. Every row has one.", missing);
	return missing == NULL;
}

static void look_at_stranger(struct reader *r, const char *file, const char *name)
{
	struct nearest n = sb_nearest_without_unit(name);

	for (size_t i = 0; i < r->sort->column_count; i++)
		if (sb_csv_find(r->csv, r->sort->columns[i].name) < 0)
			sb_nearest_try(&n, r->sort->columns[i].name);
	if (n.best)
		sb_csv_wrong(
			r->csv, 0, name, "there is no column '%.40s'. '%s' is probably meant.", name, n.best);
	else
		sb_problems_add(r->problems, 1, file, 0, name, "the column '%.40s' is not used.", name);
}

static bool map_columns(struct reader *r, const char *file)
{
	size_t before = r->problems->errors;

	for (size_t i = 0; i < sb_csv_columns(r->csv); i++) {
		r->at[i] = column_of(r->sort, sb_csv_column(r->csv, i));
		if (r->at[i] == NOT_USED)
			look_at_stranger(r, file, sb_csv_column(r->csv, i));
	}
	return r->problems->errors == before;
}

/* ---- rows ---- */

static bool put_cell(struct reader *r, const struct csv_row *row, size_t i, struct entry *e)
{
	const struct sheet_column *c = r->at[i] >= 0 ? &r->sort->columns[r->at[i]] : NULL;
	const char *cell = sb_csv_text(row->cells[i]);
	struct sb_err err;

	if (r->at[i] == REMARKS) {
		if (!sb_copy(e->remarks, sizeof e->remarks, cell))
			sb_csv_wrong(r->csv, row->line, "remarks", "this is too long: %zu bytes fit.",
				sizeof e->remarks - 1);
		sb_utf8_tame(e->remarks);
	}
	if (c == NULL)
		return true;
	if (c->type == COLUMN_NUMBER && !sb_csv_decimal(r->csv, row, i))
		return false;
	if (sb_sheet_cell_put(c, &e->fact, cell, &err) == 0)
		return true;
	sb_csv_wrong(r->csv, row->line, c->name, "%s", err.text);
	return false;
}

static void take_row(struct reader *r, struct job *trial, const struct csv_row *row)
{
	struct entries *out = r->out;
	struct sb_err err;
	bool fine = true;

	if (out->count >= SB_ENTRIES_MOST) {
		sb_csv_wrong(r->csv, row->line, NULL, "more than %d rows: split the file.", SB_ENTRIES_MOST);
		return;
	}
	out->list = sb_grow(out->list, out->count, &out->room, sizeof *out->list);
	struct entry *e = &out->list[out->count++];
	*e = (struct entry){ .line = row->line };
	for (size_t i = 0; i < sb_csv_columns(r->csv); i++)
		fine &= put_cell(r, row, i, e);
	/* Behind a row that is not taken others seem out of order: they are held against it again when it is
	 * mended. */
	if (!fine || r->problems->errors > r->errors)
		return;
	if (sb_after_check(trial, out->act, &e->fact, e->remarks, &err))
		sb_csv_wrong(r->csv, row->line, NULL, "%s", err.text);
	else
		sb_fact_add(trial, out->act, &e->fact);
}

/* Both ways that a header can be wrong are said. */
static bool read_header(struct reader *r, const char *file, const enum act_kind *acts, size_t act_count)
{
	bool known = choose_sort(r, acts, act_count);

	return map_columns(r, file) && known;
}

int sb_entries_read(const char *path, const struct job *job, const enum act_kind *acts, size_t act_count,
	struct entries *out, struct sb_problems *problems)
{
	struct reader r = { .out = out, .problems = problems, .errors = problems->errors };
	const char *slash = strrchr(path, '/');
	const char *file = sb_same(path, "-") ? "standard input" : slash ? slash + 1 : path;
	size_t before = problems->errors;
	struct job trial;

	memset(out, 0, sizeof *out);
	sb_job_copy(job, &trial);
	if (sb_csv_open(path, file, &r.csv, problems) == 0 && read_header(&r, file, acts, act_count))
		for (const struct csv_row *row; (row = sb_csv_next(r.csv)) != NULL;)
			take_row(&r, &trial, row);
	sb_csv_close(r.csv);
	sb_job_clear(&trial);
	if (problems->errors == before)
		return 0;
	sb_entries_clear(out);
	return -1;
}

void sb_entries_clear(struct entries *e)
{
	sb_free(e->list);
	memset(e, 0, sizeof *e);
}
