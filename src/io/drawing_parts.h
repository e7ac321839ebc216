/* The plan-and-profile sheet in parts: how it is laid out (drawing_layout.c), strokes and names on paper
 * (drawing_strokes.c, drawing_labels.c), its pictures (drawing_plan.c, drawing_profile.c, drawing_strips.c,
 * drawing_band.c), title block and legend (drawing_block.c, drawing_legend.c), and behind the sheets the
 * pages of graphs (drawing_graphs.c, drawing_lines.c) and of tables (drawing_tables.c, drawing_records.c,
 * drawing_after.c, drawing_joints.c). drawing.c puts them together.
 *
 * Lengths on paper are millimetres, from the page's upper left corner; in the ground metres.
 */
#ifndef SB_SRC_IO_DRAWING_PARTS_H
#define SB_SRC_IO_DRAWING_PARTS_H

#include "draw/axis.h"
#include "draw/window.h"
#include "io/about.h"
#include "io/paper.h"
#include "model/nonconformance.h"
#include "model/solve.h"

#define DRAWING_SMALL 1.8 /* mm, capitals: the least lettering that ISO 3098-1 has */
#define DRAWING_TITLE 2.5 /* the next size of it */
#define DRAWING_PAD 9.0	  /* between the side of a picture and the first station, or a match line */

struct drawing_size {
	const char *name;
	double width_mm, height_mm;
};

struct drawing {
	struct sb_paper *paper;
	const struct job *job;
	const struct solution *s;
	const struct about *about;
	struct about_line lines[SB_ABOUT_LINES];
	size_t line_count;
	struct nonconformance *breaches;
	size_t breach_count;
	struct sb_str acceptance; /* of the pilot: a sentence */
	struct clearance_ask clear;

	/* the page */
	struct drawing_size size;
	struct paper inner; /* within the border */
	struct paper plan, profile, band, heights, offsets, bends, block;
	/* the ground on it */
	double denominator; /* 1:n along the bore, and both ways in plan */
	double scale;	    /* paper per metre, mm: 1000 / n */
	double exaggeration, heights_exaggeration, offsets_exaggeration;
	double from_m, to_m; /* stations of the whole */
	double each_m;	     /* stations on one sheet */
	size_t sheets;	     /* plan and profile */
	size_t pages;	     /* and what stands behind them */
	size_t page;	     /* being drawn, from 1 */
};

/* What one sheet shows. */
struct drawing_sheet {
	size_t number; /* from 1 */
	double from_m, to_m;
	bool first, last; /* there is no match line on that side */
	struct draw_window window;
};

/* ---- drawing_layout.c: pure arithmetic ---- */

/* The paper by its name ("A3", case aside); NULL: the usual one of a unit. NULL if there is none. */
const struct drawing_size *drawing_size(const char *name, enum unit unit);
void drawing_size_refuse(const char *name, struct sb_err *err); /* says which there are */

/* Fills the page and what is on it; job, solution and size are set. */
void drawing_lay_out(struct drawing *d);
struct drawing_sheet drawing_sheet_at(const struct drawing *d, size_t number);

/* 0 for what rounds to nothing, so that it has no sign. */
double drawing_shown(double value, int decimals);
/* Where a station is on a sheet, mm: alike in all pictures but the plan. */
double drawing_x(const struct drawing *d, const struct drawing_sheet *sheet, double station_m);
/* "1:500", "1 in = 40 ft (1:480)" */
#define DRAWING_SCALE_TEXT 48
void drawing_scale_words(const struct drawing *d, double denominator, char text[DRAWING_SCALE_TEXT]);
/* The largest of 1, 2, 5 times a power of ten that is not above a value > 0. */
double drawing_round_down(double value);

/* ---- drawing_labels.c: names beside what they name, none over another ---- */

#define DRAWING_NEEDED 4
struct drawing_labels;
struct drawing_label {
	char text[96];
	struct lettering as;
	struct spot at;
	enum anchor side; /* where it would rather stand */
	int weight;	  /* those with more are placed first; missed from DRAWING_NEEDED on */
	bool ringed;	  /* in a hexagon, with a line to its point: the number of a non-conformance */
};

/* Within a box of the page. */
struct drawing_labels *drawing_labels_new(struct sb_paper *p, const struct paper *box);
/* A stroke that is drawn: names keep off it as far as they can; heavy 1 to 255. */
void drawing_labels_stroke(struct drawing_labels *l, struct spot a, struct spot b, int heavy);
/* Room that no name may take. */
void drawing_labels_taken(struct drawing_labels *l, const struct paper *box);
void drawing_labels_add(struct drawing_labels *l, const struct drawing_label *label);
/* Places and draws all of them, and frees l. Returned: how many that are needed found no place. */
size_t drawing_labels_draw(struct drawing_labels *l);

/* ---- drawing_strokes.c: a scene on paper ---- */

/* The pen of a stroke of the scene, and of its sample in the legend. */
struct pen drawing_pen(enum meaning m, enum line_kind line);
void drawing_mark(struct sb_paper *p, enum meaning m, struct spot at);
/* Draws lines and ellipses, then marks, within the axis's paper, and hands names and strokes to labels.
 * left_out: meanings that are not drawn, as bits. */
void drawing_scene(struct sb_paper *p, const struct scene *scene, const struct axis *a, unsigned left_out,
	struct drawing_labels *labels);
#define DRAWING_BIT(m) (1u << MEANING_##m)

/* ---- pictures ---- */
void drawing_frame(struct drawing *d, const struct paper *box);
/* without: how many names found no room. */
void drawing_picture_title(
	struct drawing *d, const struct paper *box, const char *title, const char *words, size_t without);
/* Lines of the stations' grid through a picture; match lines where the sheet ends in the middle of the bore.
 */
void drawing_stations(struct drawing *d, const struct drawing_sheet *sheet, const struct paper *box);
void drawing_station_names(struct drawing *d, const struct drawing_sheet *sheet, double baseline_mm);
/* The part of a picture between the match lines. */
struct paper drawing_inside(struct drawing *d, const struct drawing_sheet *sheet, const struct paper *box);
/* The sheet's stations across, the middle of the scene's view in the middle of the box. */
void drawing_set_axis(struct drawing *d, const struct drawing_sheet *sheet, const struct scene *scene,
	const struct paper *box, double exaggeration, struct axis *out);
void drawing_plan(struct drawing *d, const struct drawing_sheet *sheet);
void drawing_profile(struct drawing *d, const struct drawing_sheet *sheet);
void drawing_heights(struct drawing *d, const struct drawing_sheet *sheet);
void drawing_offsets(struct drawing *d, const struct drawing_sheet *sheet);
void drawing_bends(struct drawing *d, const struct drawing_sheet *sheet);
double drawing_band_high(void);
void drawing_band(struct drawing *d, const struct drawing_sheet *sheet);

/* ---- border, title block, legend ---- */
/* Begins page d->page + 1 with its border, block and caution. */
void drawing_page(struct drawing *d, const char *title, const char *contents);
void drawing_legend(struct drawing *d, const struct paper *box);

/* ---- pages of graphs along the bore, likewise ---- */
struct drawing_graphs;
struct drawing_graphs *drawing_graphs_new(struct drawing *d);
size_t drawing_graphs_pages(const struct drawing_graphs *g);
void drawing_graphs_draw(struct drawing *d, const struct drawing_graphs *g);
void drawing_graphs_free(struct drawing_graphs *g);

/* ---- pages of tables: how many they take, and the pages themselves ---- */
struct drawing_tables;
struct drawing_tables *drawing_tables_new(struct drawing *d);
size_t drawing_tables_pages(struct drawing *d, const struct drawing_tables *t);
void drawing_tables_draw(struct drawing *d, const struct drawing_tables *t);
void drawing_tables_free(struct drawing_tables *t);

#endif
