/* The plan: a map in true proportions, turned so that the line goes from left to right, with grid north, a
 * scale bar and the corners of the coordinate grid. The profile below it is stretched along its stations;
 * where the alignment is straight the two stand under one another.
 */
#include "draw/plan.h"

#include "base/str.h"
#include "geom/angle.h"

#include <math.h>
#include <stdio.h>

#include "drawing_parts.h"

#define GRID_MM 45.0 /* between two corners of the grid, at least */
#define BEYOND 3.0   /* a match line what is drawn goes on, for it is seldom quite upright */

struct view {
	struct drawing *d;
	const struct drawing_sheet *sheet;
	struct axis axis;
	double turn_rad; /* counterclockwise, of the map on paper */
	struct spot about;
	struct drawing_labels *labels;
};

static struct spot place(const struct view *v, struct spot map)
{
	double x = map.x - v->about.x, y = map.y - v->about.y;
	struct spot turned = { v->about.x + x * cos(v->turn_rad) - y * sin(v->turn_rad),
		v->about.y + x * sin(v->turn_rad) + y * cos(v->turn_rad) };

	return (struct spot){ sb_axis_x(&v->axis, turned.x), sb_axis_y(&v->axis, turned.y) };
}

static struct spot beside(const struct view *v, double station_m, double offset_m)
{
	struct design_place at = sb_design_at(&v->d->s->design, station_m);

	return place(v,
		(struct spot){ at.at.e + offset_m * cos(at.azi_rad), at.at.n - offset_m * sin(at.azi_rad) });
}

/* Turns the scene, and puts the sheet's first station where the profile has it, the line in the middle. */
static void set_view(struct view *v, struct scene *scene)
{
	const struct design *design = &v->d->s->design;
	struct design_place a = sb_design_at(design, v->sheet->from_m),
			    b = sb_design_at(design, v->sheet->to_m);
	const struct paper *paper = &v->d->plan;
	double low = 0, high = 0, cosine, sine;

	v->about = (struct spot){ a.at.e, a.at.n };
	v->turn_rad = -atan2(b.at.n - a.at.n, b.at.e - a.at.e);
	cosine = cos(v->turn_rad);
	sine = sin(v->turn_rad);
	for (int i = 0; i <= 20; i++) {
		struct vec3 at =
			sb_design_at(design, v->sheet->from_m + (v->sheet->to_m - v->sheet->from_m) * i / 20)
				.at;
		double y = (at.e - a.at.e) * sine + (at.n - a.at.n) * cosine;
		low = fmin(low, y);
		high = fmax(high, y);
	}
	sb_scene_turn(scene, v->turn_rad, v->about);
	struct spot middle = { v->about.x + (paper->width / 2 - DRAWING_PAD) / v->d->scale,
		v->about.y + (low + high) / 2 };
	sb_axis_scaled(scene, paper, v->d->scale, 1, middle, &v->axis);
}

/* A stroke across the line at each round station, its name beside it. */
static void draw_stations(struct view *v)
{
	const struct pen pen = { 0.25, SB_INK_BLACK, { 0 } };
	double metre = sb_unit_metres(v->d->job->unit), tick = 1.4 / v->d->scale;
	double step = drawing_round_down(60 / v->d->scale / metre) * metre;
	const struct drawing_sheet *s = v->sheet;

	for (double k = ceil(s->from_m / step - 1e-9); k * step <= s->to_m + 1e-6 * step; k++) {
		struct spot from = beside(v, k * step, -tick), to = beside(v, k * step, tick);
		struct drawing_label label = { .as = { FACE_PLAIN, DRAWING_SMALL, HOLD_LEFT, 0,
						       SB_INK_BLACK },
			.at = to,
			.side = ANCHOR_BELOW,
			.weight = 3 };
		sb_paper_stroke(v->d->paper, &pen, from.x, from.y, to.x, to.y);
		sb_axis_station(k * step, v->d->job->unit, 0, label.text);
		drawing_labels_add(v->labels, &label);
	}
}

/* Small crosses where round coordinates meet, and what they are. Map: ground metres east and north of the
 * entry; the grid's are the job's own. */
static void draw_grid(struct view *v)
{
	const struct pen pen = { 0.13, { 0.3, 0.3, 0.3 }, { 0 } };
	const struct frame *f = &v->d->s->frame;
	const struct paper *paper = &v->d->plan;
	double step = drawing_round_down(2 * GRID_MM / v->d->scale / f->metre), easting, northing, up;
	double reach = hypot(paper->width, paper->height) / v->d->scale / f->metre + step;
	struct vec3 near = { v->about.y, v->about.x, 0 };

	sb_frame_grid(f, near, &easting, &northing, &up);
	for (double e = floor((easting - reach) / step); e * step <= easting + reach; e++)
		for (double n = floor((northing - reach) / step); n * step <= northing + reach; n++) {
			struct vec3 ground = sb_frame_ground(f, e * step, n * step, 0);
			struct spot at = place(v, (struct spot){ ground.e, ground.n });
			struct drawing_label label = { .as = { FACE_PLAIN, DRAWING_SMALL, HOLD_LEFT, 0,
							       { 0.3, 0.3, 0.3 } },
				.at = at,
				.side = ANCHOR_RIGHT,
				.weight = 1 };
			if (at.x < paper->left + 3 || at.x > paper->left + paper->width - 3 ||
				at.y < paper->top + 3 || at.y > paper->top + paper->height - 3)
				continue;
			sb_paper_stroke(v->d->paper, &pen, at.x - 2, at.y, at.x + 2, at.y);
			sb_paper_stroke(v->d->paper, &pen, at.x, at.y - 2, at.x, at.y + 2);
			snprintf(label.text, sizeof label.text, "E %.10g  N %.10g", e * step, n * step);
			drawing_labels_add(v->labels, &label);
		}
}

/* An arrow with an N, left of the picture, where nothing is hidden by it. */
static void draw_north(const struct view *v)
{
	const struct pen pen = { 0.35, SB_INK_BLACK, { 0 } };
	const struct paper *box = &v->d->plan;
	struct spot middle = { box->left - 9.5, box->top + 10 };
	double up = v->turn_rad + SB_PI / 2, x = cos(up), y = -sin(up); /* of north on paper */
	const struct spot west[] = { { middle.x + 6 * x, middle.y + 6 * y },
		{ middle.x - 4 * x + 2 * y, middle.y - 4 * y - 2 * x },
		{ middle.x - 2 * x, middle.y - 2 * y }, { middle.x + 6 * x, middle.y + 6 * y } };
	const struct spot east[] = { west[0], { middle.x - 4 * x - 2 * y, middle.y - 4 * y + 2 * x }, west[2],
		west[0] };
	struct lettering as = { FACE_BOLD, DRAWING_TITLE, HOLD_MIDDLE, 0, SB_INK_BLACK };
	struct spot letter = { middle.x + 8 * x, middle.y + 8 * y + DRAWING_TITLE / 2 };

	sb_paper_area(v->d->paper, SB_INK_BLACK, west, 3);
	sb_paper_line(v->d->paper, &pen, west, 4);
	sb_paper_line(v->d->paper, &pen, east, 4);
	sb_paper_text(v->d->paper, &as, letter, "N");
	as.face = FACE_PLAIN;
	as.capital_mm = DRAWING_SMALL;
	sb_paper_text(v->d->paper, &as, (struct spot){ middle.x, box->top + 22 },
		sb_same_word(v->d->job->crs, "local") ? "plan north" : "grid north");
}

/* Five pieces, black and white in turn, above the picture: a copy of another size can still be measured on.
 */
static void draw_bar(const struct view *v)
{
	const struct pen pen = { 0.25, SB_INK_BLACK, { 0 } };
	const struct paper *box = &v->d->plan;
	double metre = sb_unit_metres(v->d->job->unit);
	double piece = drawing_round_down(14 / v->d->scale / metre), wide = piece * metre * v->d->scale;
	double left = box->left + box->width - 5 * wide - 10, top = box->top - 2.4;
	struct lettering as = { FACE_PLAIN, DRAWING_SMALL, HOLD_MIDDLE, 0, SB_INK_BLACK };
	char text[48];

	for (int i = 0; i < 5; i++) {
		struct paper part = { left + i * wide, top, wide, 1.4 };
		if (i % 2 == 0)
			sb_paper_fill(v->d->paper, SB_INK_BLACK, &part);
		sb_paper_box(v->d->paper, &pen, &part);
	}
	sb_paper_text(v->d->paper, &as, (struct spot){ left, top - 0.9 }, "0");
	snprintf(text, sizeof text, "%.10g", 2 * piece);
	sb_paper_text(v->d->paper, &as, (struct spot){ left + 2 * wide, top - 0.9 }, text);
	snprintf(text, sizeof text, "%.10g %s", 5 * piece, sb_unit_short(v->d->job->unit));
	sb_paper_text(v->d->paper, &as, (struct spot){ left + 5 * wide, top - 0.9 }, text);
}

static void match_line(const struct view *v, double station_m, bool ahead)
{
	const struct pen pen = { 0.5, SB_INK_BLACK, { 8, 1.5, 1.5, 1.5, 1.5, 1.5 } };
	double half = v->d->plan.height / v->d->scale;
	struct spot from = beside(v, station_m, -half), to = beside(v, station_m, half),
		    on = beside(v, station_m, 0);
	struct drawing_label label = { .as = { FACE_BOLD, DRAWING_SMALL, HOLD_LEFT, 0, SB_INK_BLACK },
		.at = { on.x + (ahead ? -1 : 1), v->d->plan.top + 6 },
		.side = ahead ? ANCHOR_LEFT : ANCHOR_RIGHT,
		.weight = 10 };
	char station[SB_AXIS_TEXT];

	sb_paper_stroke(v->d->paper, &pen, from.x, from.y, to.x, to.y);
	drawing_labels_stroke(v->labels, from, to, 9);
	sb_axis_station(station_m, v->d->job->unit, 0, station);
	snprintf(label.text, sizeof label.text, "match line %s, see sheet %zu", station,
		v->sheet->number + (ahead ? 1 : (size_t)-1));
	drawing_labels_add(v->labels, &label);
}

static void draw_surroundings(struct view *v)
{
	draw_grid(v);
	if (!v->sheet->first)
		match_line(v, v->sheet->from_m, false);
	if (!v->sheet->last)
		match_line(v, v->sheet->to_m, true);
	draw_stations(v);
}

void drawing_plan(struct drawing *d, const struct drawing_sheet *sheet)
{
	struct paper inside = drawing_inside(d, sheet, &d->plan);
	struct view v = { .d = d, .sheet = sheet, .labels = drawing_labels_new(d->paper, &inside) };
	char scale[DRAWING_SCALE_TEXT];
	struct scene scene;

	sb_scene_init(&scene);
	sb_plan_map(d->job, d->s, &sheet->window, NULL, &scene);
	set_view(&v, &scene);
	sb_paper_clip(d->paper, &d->plan);
	draw_surroundings(&v);
	sb_paper_clip(d->paper,
		&(struct paper){
			inside.left - BEYOND, inside.top, inside.width + 2 * BEYOND, inside.height });
	drawing_scene(d->paper, &scene, &v.axis, DRAWING_BIT(HELD) | DRAWING_BIT(PLAN), v.labels);
	sb_paper_unclip(d->paper);
	size_t without = drawing_labels_draw(v.labels);
	sb_paper_unclip(d->paper);
	draw_north(&v);
	draw_bar(&v);
	sb_scene_clear(&scene);
	drawing_frame(d, &d->plan);
	drawing_scale_words(d, d->denominator, scale);
	drawing_picture_title(d, &d->plan, "PLAN", scale, without);
}
