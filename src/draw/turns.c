/* Turns as arrows from a common middle: a tool face that is off shows as a fan that is turned, soil that
 * gives little as a fan that is short. */
#include "draw/turns.h"

#include "geom/angle.h"

#include <math.h>

static void draw_course(const struct row *row, struct scene *out)
{
	const struct row_answer *a = &row->answer;
	struct spot ordered = { sb_deg(a->ordered_right), sb_deg(a->ordered_up) };
	struct spot got = { sb_deg(a->got_right), sb_deg(a->got_up) };

	sb_scene_line(out, MEANING_DESIGN, LINE_DASHED);
	sb_scene_point(out, 0, 0);
	sb_scene_point(out, ordered.x, ordered.y);
	sb_scene_line(out, MEANING_DRILLED, LINE_SOLID);
	sb_scene_point(out, 0, 0);
	sb_scene_point(out, got.x, got.y);
	sb_scene_see(out, ordered.x, ordered.y);
	sb_scene_see(out, got.x, got.y);
}

void sb_turns_scene(const struct job *job, const struct solution *s, size_t most, struct scene *out)
{
	sb_scene_reset(out);
	out->unit = job->unit;
	out->exaggerated = 1;
	out->bare = true;
	sb_scene_see(out, -0.2, -0.2);
	sb_scene_see(out, 0.2, 0.2);
	for (size_t n = 0; n < s->path.on_count && most > 0; n++) {
		const struct row *row = sb_path_back(&s->path, n);
		if (!row->answer.known || row->answer.slid_m <= 0)
			continue;
		draw_course(row, out);
		most--;
	}
	sb_scene_mark(out, MEANING_BIT, (struct spot){ 0, 0 });
}
