/* The product pipe in this hole: what it bears and what it takes to pull it in, as drilled beside the design.
 */
#include "base/str.h"
#include "ui/app.h"
#include "ui/stress.h"
#include "ui/whole.h"

static void make(struct view *v)
{
	struct stress_state *s = v->state;
	struct sb_err err = { 0 };

	s->known = sb_pipe_loads_make(v->job, v->solution, &s->loads, &err) == 0;
	sb_copy(s->why, sizeof s->why, s->known ? "" : err.text);
}

static int stress_open(struct view *v, const void *argument, struct sb_err *err)
{
	(void)argument;
	(void)err;
	make(v);
	return 0;
}

static void stress_close(struct view *v)
{
	sb_pipe_loads_clear(&((struct stress_state *)v->state)->loads);
}

/* ---- pages ---- */

static void write_stations(const struct job *job, const struct solution *s, struct sb_str *out)
{
	struct pipe_loads loads = { 0 };
	struct sb_err err = { 0 };

	if (sb_pipe_loads_make(job, s, &loads, &err))
		sb_str_wrap(out, err.text, 0, 80);
	else
		sb_pipe_load_stress_text(job, s, &loads, false, out);
	sb_pipe_loads_clear(&loads);
}

static void write_basis(const struct job *job, const struct solution *s, struct sb_str *out)
{
	struct clearance_ask ask = sb_solution_clearance(job, s);
	struct load_given given;
	struct sb_err err = { 0 };

	if (sb_load_given(&ask, &given, &err)) {
		sb_str_wrap(out, err.text, 0, 80);
		return;
	}
	for (const char *const *says = sb_pipe_load_assumptions(&given); *says; says++) {
		sb_str_wrap(out, *says, 1, 80);
		sb_str_add(out, "\n");
	}
}

static enum follow stations(struct view *v)
{
	static const struct whole page = { write_stations };

	return sb_app_open(v, &sb_screen_whole, &page);
}

static enum follow legs(struct view *v)
{
	static const struct whole page = { sb_pipe_load_pull_text };

	return sb_app_open(v, &sb_screen_whole, &page);
}

static enum follow basis(struct view *v)
{
	static const struct whole page = { write_basis };

	return sb_app_open(v, &sb_screen_whole, &page);
}

static enum follow next_picture(struct view *v)
{
	struct stress_state *s = v->state;

	if (!s->known)
		return FOLLOW_NOTHING;
	s->picture = (s->picture + 1) % sb_stress_pictures(s);
	return FOLLOW_REDRAW;
}

static const struct action stress_actions[] = {
	{ .name = "next-picture-of-pipe",
		.keys = "P",
		.label = "picture",
		.help = "The pull force by the place of the head, then each check along the bore.",
		.act = next_picture },
	{ .name = "stations",
		.keys = "S",
		.label = "stations",
		.help = "Every station: radius, bending, force, and each check.",
		.act = stations },
	{ .name = "legs",
		.keys = "L",
		.label = "pull",
		.help = "The pull leg by leg, with other friction, fluid and drag, and with the head at each joint.",
		.act = legs },
	{ .name = "basis",
		.keys = "B",
		.label = "rests on",
		.help = "What the estimate rests on, in full.",
		.act = basis },
	{ .name = "back-from-pipe",
		.keys = "T Q Esc Ctrl-C",
		.label = "back",
		.help = "Back to what was entered after the pilot.",
		.act = sb_app_close },
	{ 0 },
};

const struct screen sb_screen_stress = {
	.name = "stress",
	.title = "pipe",
	.about =
		"The product pipe in this hole, as drilled beside the design: the largest share of each check, the pull at the rig with "
		"its likely band, and what the pilot's own bends cost. An estimate, for the engineer to verify. Over 1 is a breach; a "
		"watch is from [pull] watch on, or would be over 1 at the top of the band.",
	.state_size = sizeof(struct stress_state),
	.open = stress_open,
	.draw = sb_stress_draw,
	.changed = make,
	.close = stress_close,
	.actions = stress_actions,
};
