/* The pages behind the sheets. Tables are filled before the first page is drawn, for each sheet says of how
 * many it is one; then one stands below another as long as there is room, and every joint on pages of their
 * own.
 */
#include "drawing_tables.h"

#include "base/mem.h"
#include "base/str.h"

#include <math.h>
#include <stdio.h>

#define HEAD_MM 6.0   /* the title of a table */
#define APART_MM 7.0  /* between two tables on one page */
#define LEAST_MM 30.0 /* of a page that a table may begin on */

void drawing_table_put(struct drawing_table *t, const char *text)
{
	t->cells = sb_grow(t->cells, t->cell_count, &t->cell_room, sizeof *t->cells);
	t->cells[t->cell_count++] = sb_strdup(text);
}

void drawing_table_end_row(struct drawing_table *t, enum row_look look)
{
	t->looks = sb_grow(t->looks, t->look_count, &t->look_room, sizeof *t->looks);
	t->looks[t->look_count++] = look;
}

void drawing_table_put_length(struct drawing *d, struct drawing_table *t, bool known, double metres)
{
	char text[40] = "";

	if (known && fabs(metres) < 1e9) /* what the sheet does not give is not a number */
		snprintf(text, sizeof text, "%.2f", drawing_shown(sb_frame_typed(&d->s->frame, metres), 2));
	drawing_table_put(t, text);
}

struct drawing_table *drawing_table_begin(
	struct drawing_tables *all, const char *title, const struct paper_column *columns, size_t count)
{
	struct drawing_table *t = &all->list[all->count++];

	*t = (struct drawing_table){ 0 };
	sb_copy(t->title, sizeof t->title, title);
	t->paper.columns = columns;
	t->paper.column_count = count;
	t->paper.capital_mm = DRAWING_SMALL;
	return t;
}

void drawing_table_finish(struct drawing *d, struct drawing_tables *all, struct drawing_table *t)
{
	if (t->look_count == 0) { /* nothing to tell: no table */
		all->count--;
		return;
	}
	t->paper.cells = (const char *const *)t->cells;
	t->paper.looks = t->looks;
	t->paper.row_count = t->look_count;
	sb_paper_table_fit(d->paper, &t->paper, d->inner.width - 8);
}

struct drawing_tables *drawing_tables_new(struct drawing *d)
{
	struct drawing_tables *all = sb_alloc(sizeof *all);

	drawing_records_fill(d, all);
	drawing_after_fill(d, all);
	drawing_design_fill(d, all);
	all->new_page = all->count;
	drawing_joints_fill(d, all);
	return all;
}

void drawing_tables_free(struct drawing_tables *all)
{
	for (size_t i = 0; all && i < all->count; i++) {
		for (size_t k = 0; k < all->list[i].cell_count; k++)
			sb_free(all->list[i].cells[k]);
		sb_free(all->list[i].cells);
		sb_free(all->list[i].looks);
	}
	sb_free(all);
}

/* ---- pages ---- */

static void draw_title(struct drawing *d, const struct drawing_table *t, struct spot at, bool goes_on)
{
	struct lettering as = { FACE_BOLD, DRAWING_TITLE, HOLD_LEFT, 0, SB_INK_BLACK };
	char words[96];

	snprintf(words, sizeof words, "%s%s", t->title, goes_on ? ", continued" : "");
	sb_paper_text(d->paper, &as, (struct spot){ at.x, at.y + HEAD_MM - 2 }, words);
}

/* Goes over all pages; draws them, or only counts. */
static size_t go_over(struct drawing *d, const struct drawing_tables *all, bool draw)
{
	double top = d->inner.top + 3, end = d->block.top - 3, y = end;
	struct paper box = { d->inner.left + 4, 0, d->inner.width - 8, 0 };
	size_t pages = 0;

	for (size_t i = 0; i < all->count; i++) {
		const struct drawing_table *t = &all->list[i];
		if (i >= all->new_page)
			y = end;
		for (size_t row = 0; row < t->paper.row_count; y += APART_MM) {
			double used;
			if (row > 0 || y + LEAST_MM > end) {
				pages++;
				y = top;
				if (draw)
					drawing_page(d,
						d->job->pass_count || d->job->pull_begin_count
							? "Pilot and hole: tables"
							: "Pilot bore: tables",
						t->title);
			}
			box.top = y + HEAD_MM;
			box.height = end - box.top;
			if (draw) {
				draw_title(d, t, (struct spot){ box.left, y }, row > 0);
				row = sb_paper_table(d->paper, &t->paper, &box, row, &used);
			} else {
				row = sb_paper_table_try(d->paper, &t->paper, box.height, row, &used);
			}
			y = box.top + used;
		}
	}
	return pages;
}

size_t drawing_tables_pages(struct drawing *d, const struct drawing_tables *all)
{
	return go_over(d, all, false);
}

void drawing_tables_draw(struct drawing *d, const struct drawing_tables *all)
{
	go_over(d, all, true);
}
