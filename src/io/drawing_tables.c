/* The pages behind the sheets: what goes with every export, the non-conformances and what came of them, the
 * legs and fixes, and every joint with its place. Tables are filled before the first page is drawn, for each
 * sheet says of how many it is one.
 */
#include "base/mem.h"
#include "base/str.h"
#include "base/time.h"
#include "io/paper_table.h"
#include "io/rows.h"
#include "model/fixes.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "drawing_parts.h"

#define HEAD_MM 6.0   /* the title of a table */
#define APART_MM 7.0  /* between two tables on one page */
#define LEAST_MM 30.0 /* of a page that a table may begin on */
#define TABLES 5

/* A table that owns its texts. */
struct table {
	const char *title;
	struct paper_table paper;
	char **cells;
	enum row_look *looks;
	size_t cell_count, cell_room, look_count, look_room;
};

struct drawing_tables {
	struct table list[TABLES];
	size_t count;
	size_t new_page; /* from this table on, each begins a page */
};

static void put(struct table *t, const char *text)
{
	t->cells = sb_grow(t->cells, t->cell_count, &t->cell_room, sizeof *t->cells);
	t->cells[t->cell_count++] = sb_strdup(text);
}

static void end_row(struct table *t, enum row_look look)
{
	t->looks = sb_grow(t->looks, t->look_count, &t->look_room, sizeof *t->looks);
	t->looks[t->look_count++] = look;
}

/* A table with nothing in it says so. */
static void say_none(struct table *t, size_t column, const char *words)
{
	for (size_t i = 0; i < t->paper.column_count; i++)
		put(t, i == column ? words : "");
	end_row(t, ROW_PLAIN);
}

static struct table *begin(
	struct drawing_tables *all, const char *title, const struct paper_column *columns, size_t count)
{
	struct table *t = &all->list[all->count++];

	*t = (struct table){ .title = title };
	t->paper.columns = columns;
	t->paper.column_count = count;
	t->paper.capital_mm = DRAWING_SMALL;
	return t;
}

static void finish(struct drawing *d, struct drawing_tables *all, struct table *t)
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

/* ---- what goes with it ---- */

/* "file_digest" as "File digest" */
static void put_key(struct table *t, const char *key)
{
	char words[48];

	sb_copy(words, sizeof words, key);
	for (char *c = words; (c = strchr(c, '_')) != NULL;)
		*c = ' ';
	if (words[0] >= 'a' && words[0] <= 'z')
		words[0] = (char)(words[0] - 'a' + 'A');
	put(t, words);
}

static void fill_notes(struct drawing *d, struct drawing_tables *all)
{
	static const struct paper_column columns[] = { { "About", HOLD_LEFT, false },
		{ "Note", HOLD_LEFT, true } };
	struct table *t = begin(all, "NOTES", columns, 2);

	put(t, "Acceptance");
	put(t, d->acceptance.text);
	end_row(t, ROW_STRONG);
	for (size_t i = 0; i < d->line_count; i++) {
		put_key(t, d->lines[i].key);
		put(t, d->lines[i].text);
		end_row(t, ROW_PLAIN);
	}
	finish(d, all, t);
}

/* ---- non-conformances ---- */

static void fill_breaches(struct drawing *d, struct drawing_tables *all)
{
	static const struct paper_column columns[] = { { "No.", HOLD_RIGHT, false },
		{ "Kind", HOLD_LEFT, false }, { "Leg", HOLD_RIGHT, false }, { "Where", HOLD_LEFT, false },
		{ "Station", HOLD_RIGHT, false }, { "What was found", HOLD_LEFT, true },
		{ "Disposition", HOLD_LEFT, true } };
	struct table *t = begin(all, "NON-CONFORMANCES", columns, 7);

	if (d->breach_count == 0)
		say_none(t, 5, "None: no limit was broken.");
	for (size_t i = 0; i < d->breach_count; i++) {
		const struct nonconformance *n = &d->breaches[i];
		struct sb_str joints = { 0 }, came = { 0 };
		char text[SB_AXIS_TEXT];
		sb_nonconformance_joints(n, &joints);
		sb_nonconformance_say(n, &came);
		snprintf(text, sizeof text, "%d", n->number);
		put(t, text);
		put(t, sb_warning_sorts[n->warning->kind].label);
		snprintf(text, sizeof text, "%d", n->warning->leg);
		put(t, text);
		put(t, sb_str_get(&joints));
		sb_axis_station(n->warning->station_m, d->job->unit, 1, text);
		put(t, text);
		put(t, n->warning->text);
		put(t, sb_str_get(&came));
		end_row(t, n->state == DISPOSITION_OPEN ? ROW_STRONG : ROW_PLAIN);
		sb_str_clear(&joints);
		sb_str_clear(&came);
	}
	finish(d, all, t);
}

/* ---- legs ---- */

static void fill_legs(struct drawing *d, struct drawing_tables *all)
{
	static const struct paper_column columns[] = { { "Leg", HOLD_RIGHT, false },
		{ "Joints left in the ground", HOLD_LEFT, false }, { "Began", HOLD_LEFT, false },
		{ "By", HOLD_LEFT, false }, { "Because", HOLD_LEFT, true } };
	struct table *t = begin(all, "WITHDRAWN AND REDRILLED", columns, 5);

	for (size_t i = 0; i < d->job->leg_count; i++) {
		const struct leg *leg = &d->job->legs[i];
		char text[48];
		if (leg->number < 2)
			continue;
		snprintf(text, sizeof text, "%d", leg->number);
		put(t, text);
		snprintf(text, sizeof text, "1 to %d", leg->to_joint);
		put(t, leg->to_joint > 0 ? text : "none");
		sb_time_day(leg->at_ms, text);
		put(t, text);
		put(t, leg->who);
		put(t, leg->reason);
		end_row(t, ROW_PLAIN);
	}
	finish(d, all, t);
}

/* ---- fixes ---- */

static void fill_fixes(struct drawing *d, struct drawing_tables *all)
{
	static const struct paper_column columns[] = { { "Fix", HOLD_RIGHT, false },
		{ "Station", HOLD_RIGHT, false }, { "Verdict", HOLD_LEFT, false },
		{ "Against the path", HOLD_LEFT, true } };
	struct setup setup = { d->job, &d->s->frame, &d->s->design, &d->s->corridor };
	struct table *t = begin(all, "INDEPENDENT FIXES", columns, 4);

	if (d->s->fixes.count == 0)
		say_none(t, 3, "None: nothing but the readings says where the hole is.");
	for (size_t i = 0; i < d->s->fixes.count; i++) {
		const struct fix_view *v = &d->s->fixes.list[i];
		struct sb_str said = { 0 };
		char text[SB_AXIS_TEXT];
		snprintf(text, sizeof text, "%lld", (long long)v->fix);
		put(t, text);
		sb_axis_station(v->station_m, d->job->unit, 1, text);
		put(t, v->standing == FIX_STANDS ? text : "");
		put(t, sb_fixes_verdict(v));
		sb_fixes_say(&setup, &d->s->fixes, v, &said);
		put(t, sb_str_get(&said));
		end_row(t, v->standing == FIX_STANDS ? ROW_PLAIN : ROW_FAINT);
		sb_str_clear(&said);
	}
	finish(d, all, t);
}

/* ---- joints ---- */

static void put_number(struct table *t, const struct path_cell *c, int decimals)
{
	char text[40] = "";

	if (c->kind == CELL_WHOLE)
		snprintf(text, sizeof text, "%.0f", c->value);
	else if (c->kind == CELL_TYPED)
		sb_copy(text, sizeof text, c->typed.text);
	else if (c->kind == CELL_NUMBER)
		snprintf(text, sizeof text, "%.*f", decimals, c->value);
	put(t, text);
}

static void put_station(struct drawing *d, struct table *t, const struct path_cell *c)
{
	char text[SB_AXIS_TEXT] = "";

	if (c->kind != CELL_BLANK)
		sb_axis_station(sb_frame_metres(&d->s->frame, c->value), d->job->unit, 2, text);
	put(t, text);
}

static void put_side(struct table *t, const struct path_cell *c, const char *positive, const char *negative)
{
	char text[48] = "";

	if (c->kind != CELL_BLANK)
		snprintf(text, sizeof text, "%.2f%s", fabs(c->value),
			fabs(c->value) < 0.005 ? ""
				: c->value > 0 ? positive
					       : negative);
	put(t, text);
}

static void put_radius(struct table *t, const struct path_cell *c, bool known)
{
	char text[40] = "";

	if (c->kind == CELL_NUMBER && c->value < 99999)
		snprintf(text, sizeof text, "%.0f", c->value);
	else if (known)
		sb_copy(text, sizeof text, "straight");
	put(t, text);
}

static void fill_joint(struct drawing *d, struct table *t, const struct row *row, bool present)
{
	struct path_cell c[PATH_COLUMNS];

	sb_rows_fill(d->job, d->s, row, c);
	bool bends = c[PATH_STATION].kind != CELL_BLANK && row->joint > 0;
	put_number(t, &c[PATH_JOINT], 0);
	put_number(t, &c[PATH_LEG], 0);
	put_number(t, &c[PATH_BIT_DEPTH], 2);
	put_number(t, &c[PATH_SURVEY_DEPTH], 2);
	put_number(t, &c[PATH_INCLINATION], 2);
	put_number(t, &c[PATH_AZIMUTH], 2);
	put_station(d, t, &c[PATH_STATION]);
	put_side(t, &c[PATH_OFFSET], " right", " left");
	put_number(t, &c[PATH_ELEVATION], 2);
	put_side(t, &c[PATH_HEIGHT], " high", " low");
	put_number(t, &c[PATH_NORTHING], 2);
	put_number(t, &c[PATH_EASTING], 2);
	put_radius(t, &c[PATH_RADIUS_JOINT], bends);
	put_radius(t, &c[PATH_RADIUS_WINDOW], bends && row->window.joints > 0);
	put(t, present ? row->joint == 0 ? "entry" : "" : "withdrawn");
	end_row(t, present ? ROW_PLAIN : ROW_FAINT);
}

static void fill_joints(struct drawing *d, struct drawing_tables *all)
{
	static const struct paper_column columns[] = { { "Joint", HOLD_RIGHT, false },
		{ "Leg", HOLD_RIGHT, false }, { "Depth of\nthe bit", HOLD_RIGHT, false },
		{ "Depth of\nthe reading", HOLD_RIGHT, false }, { "Inclination\nas read", HOLD_RIGHT, false },
		{ "Azimuth\nas read", HOLD_RIGHT, false }, { "Station", HOLD_RIGHT, false },
		{ "Offset", HOLD_RIGHT, false }, { "Elevation", HOLD_RIGHT, false },
		{ "Height against\nthe design", HOLD_RIGHT, false }, { "Northing", HOLD_RIGHT, false },
		{ "Easting", HOLD_RIGHT, false }, { "Radius,\njoint", HOLD_RIGHT, false },
		{ "Radius,\nwindow", HOLD_RIGHT, false }, { "", HOLD_LEFT, false } };
	struct table *t =
		begin(all, "JOINTS: PLACE OF EACH READING", columns, sizeof columns / sizeof *columns);
	const struct path *path = &d->s->path;
	const struct row **rows;
	size_t count = sb_rows_list(d->s, true, &rows);

	for (size_t i = 0; i < count; i++)
		fill_joint(d, t, rows[i], rows[i] >= path->rows && rows[i] < path->rows + path->count);
	sb_free(rows);
	finish(d, all, t);
}

struct drawing_tables *drawing_tables_new(struct drawing *d)
{
	struct drawing_tables *all = sb_alloc(sizeof *all);

	fill_notes(d, all);
	fill_breaches(d, all);
	fill_legs(d, all);
	fill_fixes(d, all);
	all->new_page = all->count;
	fill_joints(d, all);
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

static void draw_title(struct drawing *d, const struct table *t, struct spot at, bool goes_on)
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
		const struct table *t = &all->list[i];
		if (i >= all->new_page)
			y = end;
		for (size_t row = 0; row < t->paper.row_count; y += APART_MM) {
			double used;
			if (row > 0 || y + LEAST_MM > end) {
				pages++;
				y = top;
				if (draw)
					drawing_page(d, "Pilot bore: tables", t->title);
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
