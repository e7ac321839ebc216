/* Graphs along the stations on pages of their own: pressure, force, shares of what is allowed. The whole bore
 * is on one page, so the scale along is not that of the sheets; each graph says above itself which line is
 * which, with a sample of it, and its levels at its side.
 */
#include "drawing_graphs.h"

#include "base/mem.h"
#include "base/str.h"

#include <math.h>
#include <stdio.h>

#define EACH_PAGE 3
#define HEAD_MM 12.0 /* title, and the line of samples */
#define TITLE_MM 7.0 /* of it, the title's */
#define FOOT_MM 6.0  /* the stations */
#define SAMPLE_MM 9.0
#define SAMPLE_GAP 2.0
#define NAME_GAP 6.0
#define LEVEL_MM 6.0   /* between two levels */
#define ABOVE 1.06     /* of the highest value that is shown */
#define MOST_HIGH 75.0 /* of a graph: on large paper it would only be taller */

/* ---- gathering ---- */

struct drawing_graph *drawing_graph_begin(struct drawing_graphs *all)
{
	if (all->count == DRAWING_GRAPHS)
		return NULL;
	struct drawing_graph *g = &all->list[all->count++];
	*g = (struct drawing_graph){ .most = 0 };
	return g;
}

struct along_point *drawing_graph_add(struct drawing_graph *g, enum meaning meaning, enum line_kind line,
	bool marks, size_t points, const char *name)
{
	size_t at = g->count++;

	g->points[at] = sb_alloc((points + 1) * sizeof *g->points[at]);
	g->lines[at] = (struct along_line){
		.meaning = meaning, .line = line, .points = g->points[at], .count = points, .marks = marks
	};
	sb_copy(g->names[at], sizeof g->names[0], name);
	return g->points[at];
}

static bool any_point(const struct along_line *l)
{
	for (size_t i = 0; i < l->count; i++)
		if (isfinite(l->points[i].station_m) && isfinite(l->points[i].value))
			return true;
	return false;
}

static void clear_graph(struct drawing_graph *g)
{
	for (size_t i = 0; i < g->count; i++)
		sb_free(g->points[i]);
	g->count = 0;
}

void drawing_graph_finish(struct drawing_graphs *all, struct drawing_graph *g)
{
	for (size_t i = 0; i < g->count; i++)
		if (g->lines[i].meaning != MEANING_LIMIT && any_point(&g->lines[i]))
			return;
	clear_graph(g);
	all->count--;
}

struct drawing_graphs *drawing_graphs_new(struct drawing *d)
{
	struct drawing_graphs *all = sb_alloc(sizeof *all);

	*all = (struct drawing_graphs){ 0 };
	drawing_lines_fill(d, all);
	return all;
}

void drawing_graphs_free(struct drawing_graphs *all)
{
	for (size_t i = 0; all && i < all->count; i++)
		clear_graph(&all->list[i]);
	sb_free(all);
}

size_t drawing_graphs_pages(const struct drawing_graphs *all)
{
	return (all->count + EACH_PAGE - 1) / EACH_PAGE;
}

/* ---- one graph ---- */

static double put_sample(struct drawing *d, const struct along_line *l, const char *name, struct spot at)
{
	struct lettering as = { FACE_PLAIN, DRAWING_SMALL, HOLD_LEFT, 0, SB_INK_BLACK };
	struct pen pen = drawing_pen(l->meaning, l->line);
	double middle = at.y - DRAWING_SMALL / 2;

	if (l->marks)
		drawing_mark(d->paper, l->meaning, (struct spot){ at.x + SAMPLE_MM / 2, middle });
	else
		sb_paper_stroke(d->paper, &pen, at.x, middle, at.x + SAMPLE_MM, middle);
	at.x += SAMPLE_MM + SAMPLE_GAP;
	sb_paper_text(d->paper, &as, at, name);
	return SAMPLE_MM + SAMPLE_GAP + sb_paper_width(d->paper, &as, name) + NAME_GAP;
}

static void put_head(struct drawing *d, const struct drawing_graph *g, const struct paper *box)
{
	struct paper above = *box;
	double x = box->left;

	above.top -= HEAD_MM - TITLE_MM;
	drawing_picture_title(d, &above, g->title, g->words, 0);
	for (size_t i = 0; i < g->count; i++)
		if (g->names[i][0] && any_point(&g->lines[i]))
			x += put_sample(d, &g->lines[i], g->names[i], (struct spot){ x, box->top - 1.6 });
}

/* Round values, at the left side; the unit above them. */
static void put_levels(struct drawing *d, const struct axis *axis)
{
	const struct pen thin = { 0.1, { 0.55, 0.55, 0.55 }, { 0 } };
	struct lettering as = { FACE_PLAIN, DRAWING_SMALL, HOLD_RIGHT, 0, SB_INK_BLACK };
	const struct paper *box = &axis->paper;
	struct tick ticks[SB_AXIS_TICKS];
	size_t count = sb_axis_ticks_up(axis, LEVEL_MM, ticks);

	for (size_t i = 0; i < count; i++) {
		double y = ticks[i].paper;
		sb_paper_stroke(d->paper, &thin, box->left, y, box->left + box->width, y);
		sb_paper_text(d->paper, &as, (struct spot){ box->left - 1.2, y + DRAWING_SMALL / 2 },
			ticks[i].text);
	}
	sb_paper_text(d->paper, &as, (struct spot){ box->left - 1.2, box->top - HEAD_MM + TITLE_MM - 1.4 },
		axis->value_unit);
}

/* The scene in the box: the stations across are the page's, zero and the highest value its edges. */
static void set_axis(struct drawing *d, const struct drawing_sheet *sheet, struct scene *scene,
	const struct paper *box, struct axis *out)
{
	double low = fmin(scene->view.low.y, 0), high = scene->view.high.y;

	if (!(high > low))
		high = low + 1;
	scene->view.low.y = low;
	scene->view.high.y = low + (high - low) * ABOVE;
	drawing_set_axis(
		d, sheet, scene, box, box->height / (scene->view.high.y - scene->view.low.y) / d->scale, out);
}

static void draw_graph(struct drawing *d, const struct drawing_sheet *sheet, const struct drawing_graph *g,
	const struct paper *box)
{
	struct scene scene;
	struct axis axis;

	sb_scene_init(&scene);
	sb_along_scene(
		sheet->from_m, sheet->to_m, g->unit, g->most, g->lines, g->count, d->job->unit, &scene);
	set_axis(d, sheet, &scene, box, &axis);
	put_levels(d, &axis);
	drawing_stations(d, sheet, box);
	drawing_scene(d->paper, &scene, &axis, 0, NULL);
	drawing_frame(d, box);
	put_head(d, g, box);
	drawing_station_names(d, sheet, box->top + box->height + 3.2);
	sb_scene_clear(&scene);
}

/* ---- pages ---- */

/* The whole bore across the page. */
static struct drawing whole(const struct drawing *d, struct drawing_sheet *sheet)
{
	struct drawing g = *d;

	g.each_m = d->to_m - d->from_m;
	g.sheets = 1;
	g.scale = (d->profile.width - 2 * DRAWING_PAD) / g.each_m;
	*sheet = drawing_sheet_at(&g, 1);
	return g;
}

/* As many on each page as can be. */
static size_t first_on(const struct drawing_graphs *all, size_t page)
{
	return page * all->count / drawing_graphs_pages(all);
}

static void draw_page(struct drawing *d, const struct drawing_graphs *all, size_t first, size_t end)
{
	double room = (d->block.top - 2 - d->inner.top) / (double)(end - first);
	struct paper box = d->profile;
	struct drawing_sheet sheet;
	struct drawing g = whole(d, &sheet);

	box.height = fmin(room - HEAD_MM - FOOT_MM, MOST_HIGH);
	for (size_t i = first; i < end; i++) {
		box.top = d->inner.top + (double)(i - first) * room + HEAD_MM;
		draw_graph(&g, &sheet, &all->list[i], &box);
	}
}

void drawing_graphs_draw(struct drawing *d, const struct drawing_graphs *all)
{
	for (size_t page = 0; page < drawing_graphs_pages(all); page++) {
		drawing_page(
			d, "The hole after the pilot: along the bore", "estimated and measured, whole bore");
		draw_page(d, all, first_on(all, page), first_on(all, page + 1));
	}
}
