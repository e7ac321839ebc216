/* The view of the whole crossing holds the ground; the close one holds corridor and bore, and the ground
 * only where it happens to be near: thirty feet of river over the bit would press the corridor flat.
 */
#include "draw/profile.h"

#include "draw/detail.h"
#include "draw/line.h"
#include "draw/obstacle.h"
#include "draw/trace.h"

#define MOST_EXAGGERATED 20
#define MOST_EXAGGERATED_HEIGHTS 100

static void draw_ground(const struct plane *p)
{
	const struct frame *f = &p->s->frame;

	sb_scene_line(p->scene, MEANING_GROUND, LINE_SOLID);
	for (size_t i = 0; i < p->job->ground_count; i++) {
		const struct ground_point *g = &p->job->ground[i];
		sb_scene_point(p->scene, sb_frame_metres(f, g->station.value),
			sb_frame_metres(f, g->elevation.value));
	}
}

static void see(const struct plane *p)
{
	static const enum meaning always[] = { MEANING_DESIGN, MEANING_CORRIDOR, MEANING_DRILLED, MEANING_BIT,
		MEANING_TRIAL };
	static const enum meaning whole[] = { MEANING_GROUND, MEANING_OBSTACLE, MEANING_SUPERSEDED };
	double from = p->window.from_m, to = p->window.to_m;

	p->scene->view.low.x = from;
	p->scene->view.high.x = to;
	for (size_t i = 0; i < sizeof always / sizeof *always; i++)
		sb_scene_see_between(p->scene, always[i], from, to);
	if (p->window.close || p->kind == PLANE_HEIGHT)
		return;
	for (size_t i = 0; i < sizeof whole / sizeof *whole; i++)
		sb_scene_see_between(p->scene, whole[i], from, to);
}

static void draw(enum plane_kind kind, const struct job *job, const struct solution *s,
	const struct draw_window *window, const struct preview *trial, struct scene *out)
{
	struct plane p = { kind, job, s, sb_window_sound(window, s), out };

	sb_scene_reset(out);
	out->across = QUANTITY_STATION;
	out->up = kind == PLANE_HEIGHT ? QUANTITY_HEIGHT : QUANTITY_ELEVATION;
	out->unit = job->unit;
	out->exaggerated = kind == PLANE_HEIGHT ? MOST_EXAGGERATED_HEIGHTS : MOST_EXAGGERATED;
	if (kind == PLANE_ELEVATION)
		draw_ground(&p);
	if (s->design.alignment_count == 0 || s->design.profile_count == 0) {
		see(&p);
		return;
	}
	sb_trace_doubt(&p);
	sb_line_corridor(&p);
	sb_line_design(&p);
	sb_obstacle_draw(&p);
	sb_trace_superseded(&p);
	sb_trace_held(&p);
	sb_trace_plan(&p);
	sb_trace_drilled(&p);
	sb_trace_bit(&p);
	sb_trace_fixes(&p);
	sb_trace_trial(&p, trial);
	sb_detail_draw(&p);
	sb_line_ends(&p);
	see(&p);
}

void sb_profile_scene(const struct job *job, const struct solution *s, const struct draw_window *window,
	const struct preview *trial, struct scene *out)
{
	draw(PLANE_ELEVATION, job, s, window, trial, out);
}

void sb_profile_heights(const struct job *job, const struct solution *s, const struct draw_window *window,
	const struct preview *trial, struct scene *out)
{
	draw(PLANE_HEIGHT, job, s, window, trial, out);
}
