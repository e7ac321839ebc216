/* Pictures: scenes in metres, rastered to the room there is. A wide terminal shows profile and plan one above
 * the other beside the cross-section; a narrow one shows the one that was chosen. */
#include "ui/pictures.h"

#include "draw/plan.h"
#include "draw/profile.h"
#include "draw/section.h"
#include "draw/window.h"
#include "ui/chart.h"

#include <stdio.h>

static const char *const names[] = { "profile", "height over design", "plan along the line", "map" };
static const char *const reaches[] = { "whole bore", "near the bit", "close to the bit" };

const char *sb_pictures_name(enum picture p)
{
	return names[p];
}

const char *sb_pictures_reach(enum reach r)
{
	return reaches[r];
}

void sb_pictures_clear(struct pictures *p)
{
	sb_scene_clear(&p->scene);
}

static struct draw_window window_of(
	const struct job *job, const struct solution *s, enum reach reach, int columns)
{
	double joint = sb_frame_metres(&s->frame, job->joint_length.value);
	struct draw_window w;

	switch (reach) {
	case REACH_WHOLE:
		return sb_window_whole(s, columns * 2);
	case REACH_NEAR:
		w = sb_window_near(s, 12 * joint, 8 * joint, columns * 2);
		w.close = true;
		return w;
	case REACH_CLOSE:
		break;
	}
	w = sb_window_near(s, 5 * joint, 4 * joint, columns * 2);
	w.close = true;
	return w;
}

static void draw_along(struct pictures *p, const struct job *job, const struct solution *s,
	const struct preview *trial, enum picture picture, enum reach reach, enum glyphs glyphs,
	struct cells *out)
{
	struct draw_window w = window_of(job, s, reach, out->columns);

	w.plan = p->plan;
	w.pinned = p->pinned;

	switch (picture) {
	case PICTURE_PROFILE:
		sb_profile_scene(job, s, &w, trial, &p->scene);
		break;
	case PICTURE_HEIGHTS:
		sb_profile_heights(job, s, &w, trial, &p->scene);
		break;
	case PICTURE_PLAN:
		sb_plan_along(job, s, &w, trial, &p->scene);
		break;
	case PICTURE_MAP:
		sb_plan_map(job, s, &w, trial, &p->scene);
		break;
	}
	sb_chart_draw(&p->scene, glyphs, out);
}

/* Which second picture goes below the first where there is room: the other direction. */
static enum picture companion(enum picture p)
{
	return p == PICTURE_PLAN || p == PICTURE_MAP ? PICTURE_PROFILE : PICTURE_PLAN;
}

static void titled(struct cells *out, int row, int columns, enum picture picture, enum reach reach)
{
	struct cells rule = sb_cells_part(out, row, 0, 1, columns);
	char title[80];

	snprintf(title, sizeof title, "%s, %s", names[picture], reaches[reach]);
	sb_cells_rule(&rule, 0, title);
}

void sb_pictures_draw(struct pictures *p, const struct job *job, const struct solution *s,
	const struct preview *trial, enum picture picture, enum reach reach, enum glyphs glyphs,
	struct cells *out)
{
	const int two = 18; /* rows from which two pictures go one above the other */
	int section = out->columns / 3 > 44 ? 44 : out->columns / 3, along = out->columns - section - 1;
	int first = out->rows >= two ? out->rows / 2 : out->rows;

	titled(out, 0, out->columns, picture, reach);
	struct cells area = sb_cells_part(out, 1, 0, first - 1, along);
	draw_along(p, job, s, trial, picture, reach, glyphs, &area);
	if (first < out->rows) {
		titled(out, first, along, companion(picture), reach);
		area = sb_cells_part(out, first + 1, 0, out->rows - first - 1, along);
		draw_along(p, job, s, trial, companion(picture), reach, glyphs, &area);
	}
	struct cells rule = sb_cells_part(out, 0, along + 1, 1, section);
	sb_cells_rule(&rule, 0, "across, looking ahead");
	sb_cells_upright(out, along);
	area = sb_cells_part(out, 1, along + 1, out->rows - 1, section);
	sb_section_scene(job, s, trial, &p->scene);
	if (p->plan)
		sb_section_plan(p->plan, &p->scene);
	sb_chart_draw(&p->scene, glyphs, &area);
}
