/* Widths come from all rows of the table, not only those on a page, so that columns stand alike on each. A
 * column of figures is as wide as its widest cell; what is left over goes to those whose words may break, or
 * evenly to all if there are none. Too little: all are narrowed alike.
 */
#include "io/paper_table.h"

#include "base/mem.h"
#include "io/paper_text.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "paper_parts.h"

#define GAP 1.6	    /* beside the words of a cell, on both sides together, capitals */
#define ABOVE 0.55  /* the words of a row, capitals */
#define LEAST 0.75  /* of the size of its lettering that a cell may be shrunk to */
#define HAIR 1e-6   /* mm */
#define THICK 0.35  /* rules, mm */
#define MIDDLE 0.18 /* each fifth, for the eye to go along */
#define THIN 0.09
#define BREAK_AT 30 /* capitals: a column whose words break asks for no more than this */

static const char *cell(const struct paper_table *t, size_t row, size_t column)
{
	const char *text = t->cells[row * t->column_count + column];

	return text ? text : "";
}

static struct lettering letters(const struct paper_table *t, enum row_look look, enum hold hold)
{
	struct lettering as = { look == ROW_STRONG ? FACE_BOLD : FACE_PLAIN, t->capital_mm, hold, 0,
		SB_INK_BLACK };

	if (look == ROW_FAINT)
		as.ink = (struct ink){ 0.4, 0.4, 0.4 };
	return as;
}

static enum row_look look_of(const struct paper_table *t, size_t row)
{
	return t->looks ? t->looks[row] : ROW_PLAIN;
}

/* The widest line of a head. */
static double head_wide(struct sb_paper *p, const struct paper_table *t, const char *title, int *lines)
{
	struct lettering as = letters(t, ROW_STRONG, HOLD_LEFT);
	char *words = sb_strdup(title), *rest = words;
	double width = 0;

	*lines = 0;
	for (char *line; (line = strsep(&rest, "\n")) != NULL; (*lines)++)
		width = fmax(width, sb_paper_width(p, &as, line));
	sb_free(words);
	return width;
}

static double wanted(struct sb_paper *p, const struct paper_table *t, size_t column, int *lines)
{
	double width = head_wide(p, t, t->columns[column].title, lines);

	for (size_t row = 0; row < t->row_count; row++) {
		struct lettering as = letters(t, look_of(t, row), HOLD_LEFT);
		width = fmax(width, sb_paper_width(p, &as, cell(t, row, column)));
	}
	if (t->columns[column].breaks)
		width = fmin(width, BREAK_AT * t->capital_mm);
	return width + GAP * t->capital_mm;
}

static void share_out(struct paper_table *t, double width_mm)
{
	size_t breaking = 0;
	double sum = 0;

	for (size_t i = 0; i < t->column_count; i++) {
		sum += t->widths_mm[i];
		breaking += t->columns[i].breaks;
	}
	for (size_t i = 0; i < t->column_count; i++) {
		if (sum > width_mm)
			t->widths_mm[i] *= width_mm / sum;
		else if (breaking == 0)
			t->widths_mm[i] += (width_mm - sum) / (double)t->column_count;
		else if (t->columns[i].breaks)
			t->widths_mm[i] += (width_mm - sum) / (double)breaking;
	}
}

/* The height of so many lines and the space around them. */
static double high(const struct paper_table *t, double lines_mm)
{
	return lines_mm + (1 - SB_PAPER_LEADING + 2 * ABOVE) * t->capital_mm;
}

void sb_paper_table_fit(struct sb_paper *p, struct paper_table *t, double width_mm)
{
	int most = 1;

	assert(t->column_count <= SB_PAPER_COLUMNS);
	for (size_t i = 0; i < t->column_count; i++) {
		int lines;
		t->widths_mm[i] = wanted(p, t, i, &lines);
		most = lines > most ? lines : most;
	}
	share_out(t, width_mm);
	t->head_mm = high(t, most * t->capital_mm * SB_PAPER_LEADING);
}

static double row_high(struct sb_paper *p, const struct paper_table *t, size_t row)
{
	double most = t->capital_mm * SB_PAPER_LEADING;

	for (size_t i = 0; i < t->column_count; i++) {
		struct lettering as = letters(t, look_of(t, row), HOLD_LEFT);
		double within = t->widths_mm[i] - GAP * t->capital_mm;
		if (t->columns[i].breaks)
			most = fmax(most, sb_paper_paragraph_high(p, &as, within, cell(t, row, i)));
	}
	return high(t, most);
}

size_t sb_paper_table_try(
	struct sb_paper *p, const struct paper_table *t, double high_mm, size_t first, double *used_mm)
{
	double used = t->head_mm;
	size_t row = first;

	for (; row < t->row_count; row++) {
		double more = row_high(p, t, row);
		if (row > first && used + more > high_mm + HAIR)
			break;
		used += more;
	}
	if (used_mm)
		*used_mm = used;
	return row;
}

static void rule(struct sb_paper *p, const struct paper *box, double y, double width_mm)
{
	struct pen pen = { width_mm, SB_INK_BLACK, { 0 } };

	sb_paper_stroke(p, &pen, box->left, y, box->left + box->width, y);
}

static void draw_cell(struct sb_paper *p, const struct lettering *as, bool breaks, struct spot corner,
	double width, const char *text)
{
	double within = width - GAP * as->capital_mm;

	corner.x += GAP / 2 * as->capital_mm;
	corner.y += ABOVE * as->capital_mm;
	if (breaks) {
		sb_paper_paragraph(p, as, corner, within, text);
		return;
	}
	corner.x += paper_held_at(as->hold) * within;
	corner.y += as->capital_mm;
	sb_paper_text_within(p, as, LEAST * as->capital_mm, within, corner, text);
}

static void draw_title(struct sb_paper *p, const struct paper_table *t, size_t column, struct spot corner)
{
	struct lettering as = letters(t, ROW_STRONG, t->columns[column].hold);
	char *words = sb_strdup(t->columns[column].title), *rest = words;

	for (char *line; (line = strsep(&rest, "\n")) != NULL; corner.y += t->capital_mm * SB_PAPER_LEADING)
		draw_cell(p, &as, false, corner, t->widths_mm[column], line);
	sb_free(words);
}

static void draw_row(struct sb_paper *p, const struct paper_table *t, size_t row, struct spot corner)
{
	for (size_t i = 0; i < t->column_count; i++) {
		struct lettering as = letters(t, look_of(t, row), t->columns[i].hold);
		draw_cell(p, &as, t->columns[i].breaks, corner, t->widths_mm[i], cell(t, row, i));
		corner.x += t->widths_mm[i];
	}
}

size_t sb_paper_table(struct sb_paper *p, const struct paper_table *t, const struct paper *box, size_t first,
	double *used_mm)
{
	struct spot corner = { box->left, box->top };
	size_t end = sb_paper_table_try(p, t, box->height, first, used_mm);

	for (size_t i = 0; i < t->column_count; i++) {
		draw_title(p, t, i, corner);
		corner.x += t->widths_mm[i];
	}
	rule(p, box, box->top, THICK);
	corner = (struct spot){ box->left, box->top + t->head_mm };
	rule(p, box, corner.y, THICK);
	for (size_t row = first; row < end; row++) {
		draw_row(p, t, row, corner);
		corner.y += row_high(p, t, row);
		rule(p, box, corner.y, row + 1 == end ? THICK : (row + 1) % 5 == 0 ? MIDDLE : THIN);
	}
	return end;
}
