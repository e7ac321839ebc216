/* The profile, its grid, and what it shares with the pictures below it: the frame, the title, the lines of
 * the stations, the match lines.
 */
#include "draw/profile.h"

#include "base/str.h"

#include <math.h>
#include <stdio.h>

#include "drawing_parts.h"

#define STATION_MM 22.0 /* between two lines of the grid, at least */
#define LEVEL_MM 7.0
#define HATCH_MM 9.0 /* between two tufts of the ground's hatching */

static const struct pen thin = { 0.1, { 0.55, 0.55, 0.55 }, { 0 } };
static const struct pen edge = { 0.35, { 0, 0, 0 }, { 0 } };

void drawing_frame(struct drawing *d, const struct paper *box)
{
	sb_paper_box(d->paper, &edge, box);
}

void drawing_picture_title(
	struct drawing *d, const struct paper *box, const char *title, const char *words, size_t without)
{
	struct lettering as = { FACE_BOLD, DRAWING_TITLE, HOLD_LEFT, 0, SB_INK_BLACK };
	struct spot at = { box->left, box->top - 1.4 };
	char all[256];

	sb_paper_text(d->paper, &as, at, title);
	at.x += sb_paper_width(d->paper, &as, title) + 4;
	as.face = FACE_PLAIN;
	as.capital_mm = DRAWING_SMALL;
	snprintf(all, sizeof all, "%s", words);
	if (without > 0)
		snprintf(all, sizeof all, "%s; %zu name%s found no room", words, without,
			without > 1 ? "s" : "");
	sb_paper_text(d->paper, &as, at, all);
}

/* The round stations of a sheet: the k-th is k times the step. */
static double station_step(const struct drawing *d)
{
	double metre = sb_unit_metres(d->job->unit);

	return drawing_round_down(2.5 * STATION_MM / d->scale / metre) * metre;
}

static void match_line(struct drawing *d, const struct paper *box, double x)
{
	const struct pen pen = { 0.5, SB_INK_BLACK, { 8, 1.5, 1.5, 1.5, 1.5, 1.5 } };

	sb_paper_stroke(d->paper, &pen, x, box->top, x, box->top + box->height);
}

void drawing_stations(struct drawing *d, const struct drawing_sheet *sheet, const struct paper *box)
{
	double step = station_step(d);

	for (double k = ceil(sheet->from_m / step - 1e-9); k * step <= sheet->to_m + 1e-6 * step; k++) {
		double x = drawing_x(d, sheet, k * step);
		sb_paper_stroke(d->paper, &thin, x, box->top, x, box->top + box->height);
	}
	if (!sheet->first)
		match_line(d, box, drawing_x(d, sheet, sheet->from_m));
	if (!sheet->last)
		match_line(d, box, drawing_x(d, sheet, sheet->to_m));
}

void drawing_station_names(struct drawing *d, const struct drawing_sheet *sheet, double baseline_mm)
{
	struct lettering as = { FACE_BOLD, DRAWING_SMALL, HOLD_MIDDLE, 0, SB_INK_BLACK };
	double step = station_step(d);
	char text[SB_AXIS_TEXT];

	for (double k = ceil(sheet->from_m / step - 1e-9); k * step <= sheet->to_m + 1e-6 * step; k++) {
		sb_axis_station(k * step, d->job->unit, 0, text);
		sb_paper_text(
			d->paper, &as, (struct spot){ drawing_x(d, sheet, k * step), baseline_mm }, text);
	}
	as.hold = HOLD_RIGHT;
	sb_paper_text(d->paper, &as, (struct spot){ d->profile.left - 1.5, baseline_mm }, "stations");
}

/* Round elevations, written at both sides. */
static void draw_levels(struct drawing *d, const struct axis *axis)
{
	struct lettering as = { FACE_PLAIN, DRAWING_SMALL, HOLD_RIGHT, 0, SB_INK_BLACK };
	struct tick ticks[SB_AXIS_TICKS];
	const struct paper *box = &d->profile;
	size_t count = sb_axis_ticks_up(axis, LEVEL_MM, ticks);

	for (size_t i = 0; i < count; i++) {
		double y = ticks[i].paper;
		sb_paper_stroke(d->paper, &thin, box->left, y, box->left + box->width, y);
		if (y < box->top + 1.2 || y > box->top + box->height - 0.5)
			continue;
		as.hold = HOLD_RIGHT;
		sb_paper_text(d->paper, &as, (struct spot){ box->left - 1.2, y + DRAWING_SMALL / 2 },
			ticks[i].text);
		as.hold = HOLD_LEFT;
		sb_paper_text(d->paper, &as,
			(struct spot){ box->left + box->width + 1.2, y + DRAWING_SMALL / 2 }, ticks[i].text);
	}
}

/* Tufts of three strokes below the ground line, as drawings mark what is earth. */
static void hatch_ground(struct drawing *d, const struct drawing_sheet *sheet, const struct axis *axis)
{
	const struct pen pen = { 0.13, { 0.25, 0.25, 0.25 }, { 0 } };
	double from = drawing_x(d, sheet, sheet->from_m), to = drawing_x(d, sheet, sheet->to_m), ground;

	for (double x = from + HATCH_MM / 2; x < to; x += HATCH_MM)
		for (int i = 0; i < 3; i++) {
			double at = x + 0.9 * i;
			if (!sb_design_ground(d->job, &d->s->frame, sb_axis_x_metres(axis, at), &ground))
				continue;
			double y = sb_axis_y(axis, ground);
			sb_paper_stroke(d->paper, &pen, at, y, at - 1.3, y + 1.6);
		}
}

void drawing_set_axis(struct drawing *d, const struct drawing_sheet *sheet, const struct scene *scene,
	const struct paper *box, double exaggeration, struct axis *out)
{
	double wide = box->width / d->scale, left = sheet->from_m - DRAWING_PAD / d->scale;
	bool seen = sb_scene_seen(scene);
	struct spot middle = { left + wide / 2, seen ? (scene->view.low.y + scene->view.high.y) / 2 : 0 };

	sb_axis_scaled(scene, box, d->scale, exaggeration, middle, out);
}

struct paper drawing_inside(struct drawing *d, const struct drawing_sheet *sheet, const struct paper *box)
{
	double left = sheet->first ? box->left : drawing_x(d, sheet, sheet->from_m);
	double right = sheet->last ? box->left + box->width : drawing_x(d, sheet, sheet->to_m);

	return (struct paper){ left, box->top, right - left, box->height };
}

static void title(struct drawing *d, size_t without)
{
	char along[DRAWING_SCALE_TEXT], up[DRAWING_SCALE_TEXT], words[3 * DRAWING_SCALE_TEXT + 64];

	drawing_scale_words(d, d->denominator, along);
	drawing_scale_words(d, d->denominator / d->exaggeration, up);
	if (d->exaggeration > 1)
		snprintf(words, sizeof words, "along %s, up %s: heights are drawn %.3g times as large", along,
			up, d->exaggeration);
	else
		snprintf(words, sizeof words, "%s along and up: true proportions", along);
	drawing_picture_title(d, &d->profile, "PROFILE", words, without);
}

void drawing_profile(struct drawing *d, const struct drawing_sheet *sheet)
{
	struct drawing_sheet all = *sheet;
	struct paper clip = drawing_inside(d, sheet, &d->profile);
	struct drawing_labels *labels = drawing_labels_new(d->paper, &clip);
	struct scene scene;
	struct axis axis;

	sb_scene_init(&scene);
	all.window.close = false; /* the ground is to be seen */
	sb_profile_scene(d->job, d->s, &all.window, NULL, &scene);
	drawing_set_axis(d, sheet, &scene, &d->profile, d->exaggeration, &axis);
	draw_levels(d, &axis);
	sb_paper_clip(d->paper, &clip);
	drawing_stations(d, sheet, &d->profile);
	hatch_ground(d, sheet, &axis);
	drawing_scene(d->paper, &scene, &axis, DRAWING_BIT(HELD) | DRAWING_BIT(PLAN), labels);
	size_t without = drawing_labels_draw(labels);
	sb_paper_unclip(d->paper);
	drawing_frame(d, &d->profile);
	sb_scene_clear(&scene);
	title(d, without);
}
