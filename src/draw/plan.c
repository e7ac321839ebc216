/* Along the line the view holds the stretch, the corridor and the bore. On the map it holds design and bore
 * within the stretch; what lies farther off is there to be seen if the paper reaches it.
 */
#include "draw/plan.h"

#include "draw/detail.h"
#include "draw/line.h"
#include "draw/obstacle.h"
#include "draw/trace.h"

#define MOST_EXAGGERATED 100

static void strokes(const struct plane *p, const struct preview *trial)
{
	sb_trace_doubt(p);
	sb_line_corridor(p);
	sb_line_exit_window(p);
	sb_line_design(p);
	sb_obstacle_draw(p);
	sb_trace_superseded(p);
	sb_trace_held(p);
	sb_trace_plan(p);
	sb_trace_drilled(p);
	sb_trace_bit(p);
	sb_trace_fixes(p);
	sb_trace_trial(p, trial);
	sb_detail_draw(p);
	sb_line_ends(p);
}

static bool drawable(const struct solution *s)
{
	return s->design.alignment_count > 0 && s->design.profile_count > 0;
}

static const enum meaning seen[] = { MEANING_DESIGN, MEANING_CORRIDOR, MEANING_DRILLED, MEANING_BIT,
	MEANING_TRIAL };
#define SEEN (sizeof seen / sizeof *seen)

void sb_plan_along(const struct job *job, const struct solution *s, const struct draw_window *window,
	const struct preview *trial, struct scene *out)
{
	struct plane p = { PLANE_ALONG, job, s, sb_window_sound(window, s), out };

	sb_scene_reset(out);
	out->across = QUANTITY_STATION;
	out->up = QUANTITY_LEFT;
	out->unit = job->unit;
	out->exaggerated = MOST_EXAGGERATED;
	if (drawable(s))
		strokes(&p, trial);
	out->view.low.x = p.window.from_m;
	out->view.high.x = p.window.to_m;
	for (size_t i = 0; i < SEEN; i++)
		sb_scene_see_between(out, seen[i], p.window.from_m, p.window.to_m);
}

static bool is_seen(const struct stroke *stroke)
{
	for (size_t i = 0; i < SEEN; i++)
		if (stroke->meaning == seen[i])
			return true;
	return false;
}

/* With room for the marks at the ends: a fiftieth of the stretch. */
static void see_around(struct scene *out, struct spot at, double stretch_m)
{
	sb_scene_see(out, at.x - stretch_m / 50, at.y - stretch_m / 50);
	sb_scene_see(out, at.x + stretch_m / 50, at.y + stretch_m / 50);
}

void sb_plan_map(const struct job *job, const struct solution *s, const struct draw_window *window,
	const struct preview *trial, struct scene *out)
{
	struct plane p = { PLANE_MAP, job, s, sb_window_sound(window, s), out };

	sb_scene_reset(out);
	out->across = QUANTITY_EAST;
	out->up = QUANTITY_NORTH;
	out->unit = job->unit;
	out->exaggerated = 1;
	if (drawable(s))
		strokes(&p, trial);
	for (size_t i = 0; i < out->stroke_count; i++)
		for (size_t k = 0; is_seen(&out->strokes[i]) && k < out->strokes[i].count; k++)
			see_around(
				out, out->points[out->strokes[i].first + k], p.window.to_m - p.window.from_m);
}
