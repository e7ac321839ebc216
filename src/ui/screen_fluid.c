/* The drilling fluid: annular pressure along the bore against what the ground bears, whether it comes back,
 * and what came up; with what is seen of it entered at once. */
#include "base/str.h"
#include "io/fluid.h"
#include "ui/app.h"
#include "ui/entry.h"
#include "ui/fluid.h"
#include "ui/whole.h"

static void make(struct view *v)
{
	struct fluid_state *s = v->state;

	sb_fluid_view_end(&s->view);
	sb_fluid_view_begin(v->job, v->solution, 0, &s->view);
}

static int fluid_open(struct view *v, const void *argument, struct sb_err *err)
{
	char when[SB_TIME_TEXT];

	(void)argument;
	(void)err;
	make(v);
	if (sb_fluid_release_waits(v, when))
		sb_app_say(v, LEVEL_WATCH,
			"A release was half typed at %s, and is not on disk yet: F goes on with it.", when);
	return 0;
}

static void fluid_close(struct view *v)
{
	sb_fluid_view_end(&((struct fluid_state *)v->state)->view);
}

static enum follow fluid_key(struct view *v, int key)
{
	struct fluid_state *s = v->state;

	return sb_list_key(&s->list, key, v->job->fluid_event_count) ? FOLLOW_REDRAW : FOLLOW_PASS;
}

/* ---- pages ---- */

static void write_joints(const struct job *job, const struct solution *s, struct sb_str *out)
{
	sb_fluid_text(job, s, 0, false, out);
}

static void add_note(void *to, const char *sentence)
{
	sb_str_wrap(to, sentence, 1, 80);
	sb_str_add(to, "\n");
}

static void write_basis(const struct job *job, const struct solution *s, struct sb_str *out)
{
	struct fluid_view view;

	for (const char *const *says = sb_fluid_assumptions; *says; says++)
		add_note(out, *says);
	sb_fluid_view_begin(job, s, 0, &view);
	sb_fluid_view_notes(&view, add_note, out);
	sb_fluid_view_end(&view);
}

static enum follow joints(struct view *v)
{
	static const struct whole page = { write_joints };

	return sb_app_open(v, &sb_screen_whole, &page);
}

static enum follow basis(struct view *v)
{
	static const struct whole page = { write_basis };

	return sb_app_open(v, &sb_screen_whole, &page);
}

/* ---- keys ---- */

static enum follow next_stage(struct view *v)
{
	struct fluid_state *s = v->state;

	s->picture = (s->picture + 1) % FLUID_STAGES;
	return FOLLOW_REDRAW;
}

static enum follow strike(struct view *v)
{
	const struct fluid_state *s = v->state;
	const struct fluid_event *e = sb_fluid_event_at(v->job, s->list.chosen);

	if (e == NULL)
		return sb_app_say(v, LEVEL_OK, "There is nothing to strike out.");
	return sb_entry_strike(v, e->fact.act);
}

static const struct action fluid_actions[] = {
	{ .name = "fluid-came-up",
		.keys = "F",
		.label = "came up",
		.help = "Drilling fluid came to the surface: where, and what is known of it. It opens a non-conformance.",
		.act = sb_fluid_release,
		.writes = true },
	{ .name = "more-of-release",
		.keys = "M",
		.label = "more",
		.help = "Add what is still to be recorded of the chosen release, or of the newest that is not whole.",
		.act = sb_fluid_record,
		.writes = true },
	{ .name = "returns",
		.keys = "R",
		.label = "returns",
		.help = "How the fluid comes back: full, partial or none.",
		.act = sb_fluid_returns,
		.writes = true },
	{ .name = "loss",
		.keys = "L",
		.label = "loss",
		.help = "Fluid goes into the ground.",
		.act = sb_fluid_loss,
		.writes = true },
	{ .name = "strike-out-fluid",
		.keys = "K",
		.help = "A slip: strikes out the entry marked >, with a reason.",
		.act = strike,
		.writes = true },
	{ .name = "next-stage",
		.keys = "P",
		.label = "picture",
		.help = "The pressure while the pilot is drilled, while the hole is opened, while the pipe is pulled in.",
		.act = next_stage },
	{ .name = "fluid-joints",
		.keys = "J",
		.help = "The page in full: pressure and limit joint by joint.",
		.act = joints },
	{ .name = "fluid-basis",
		.keys = "B",
		.label = "rests on",
		.help = "What the estimates rest on, and what is missing.",
		.act = basis },
	{ .name = "back-from-fluid",
		.keys = "U Q Esc Ctrl-C",
		.label = "back",
		.help = "Back to what was entered after the pilot.",
		.act = sb_app_close },
	{ 0 },
};

const struct screen sb_screen_fluid = {
	.name = "fluid",
	.title = "fluid",
	.about =
		"The pressure of the drilling fluid around the pipe against what the ground is estimated to bear, where it is tightest: "
		"for the pilot, the opening and the pull. Then whether the fluid comes back, and what came up with what is still to be "
		"recorded. Ground has been seen to break out below the estimate.",
	.state_size = sizeof(struct fluid_state),
	.open = fluid_open,
	.draw = sb_fluid_draw,
	.key = fluid_key,
	.changed = make,
	.close = fluid_close,
	.actions = fluid_actions,
	.widgets = { sb_list_keys },
};
