/* The hole after the pilot: everything that was entered of the fluid, the passes, the pipe string and the
 * pull, the newest on top, and striking out what was a slip. The screens of the stages are opened from here:
 * the letters of the main screen are taken.
 */
#include "base/mem.h"
#include "base/str.h"
#include "base/time.h"
#include "model/after.h"
#include "model/history.h"
#include "ui/after.h"
#include "ui/app.h"
#include "ui/entry.h"
#include "ui/fluid.h"
#include "ui/list.h"
#include "ui/opening.h"
#include "ui/prompt.h"
#include "ui/stages.h"
#include "ui/stress.h"

#include <stdio.h>

struct after {
	struct list list;
	struct stages stages;
};

struct drawing {
	const struct job *job;
	const size_t *shown;
};

/* Indices of the acts, newest first. Returned: for sb_free. */
static size_t *entries_of(const struct job *job, size_t *count)
{
	size_t *list = sb_alloc((job->act_count + 1) * sizeof *list);

	*count = 0;
	for (size_t i = job->act_count; i-- > 0;)
		if (sb_after_is(job->acts[i].kind) || job->acts[i].kind == ACT_STRIKE)
			list[(*count)++] = i;
	return list;
}

static void stand(struct view *v)
{
	sb_stages_make(v, &((struct after *)v->state)->stages);
}

static int after_open(struct view *v, const void *argument, struct sb_err *err)
{
	(void)argument;
	(void)err;
	stand(v);
	return 0;
}

static void draw_line(const void *context, size_t i, struct cells *out)
{
	const struct drawing *d = context;
	const struct act *a = &d->job->acts[d->shown[i]];
	bool struck = sb_after_struck(d->job, a);
	enum style style = struck ? STYLE_WITHDRAWN : STYLE_PLAIN;
	char when[SB_TIME_TEXT];

	sb_time_long(a->at_ms, a->offset_min, when);
	when[12] = '\0'; /* day and time */
	sb_cells_print(out, 0, 2, style, "%4lld", (long long)a->id);
	sb_cells_fit(out, 0, 7, 12, STYLE_DIM, when);
	sb_cells_fit(out, 0, 20, 12, style, a->who);
	sb_cells_fit(out, 0, 33, 12, struck ? style : STYLE_STRONG, sb_history_word(a->kind));
	sb_cells_fit(out, 0, 46, 11, style, struck ? "struck out" : "");
	sb_cells_fit(out, 0, struck ? 57 : 46, out->columns - (struck ? 58 : 47), style, a->text);
}

static void draw_chosen(const struct job *job, const struct act *a, struct cells *out)
{
	char when[SB_TIME_TEXT];

	sb_cells_rule(out, 0, NULL);
	sb_time_long(a->at_ms, a->offset_min, when);
	sb_cells_print(out, 1, 1, STYLE_DIM, "entry %lld, %s, %s%s", (long long)a->id, when, a->who,
		sb_after_struck(job, a) ? ", struck out: it counts for nothing" : "");
	sb_cells_wrap(out, 2, 1, out->columns - 2, STYLE_PLAIN, a->text);
}

static void after_draw(const struct view *v, struct cells *out)
{
	struct after *s = v->state;
	size_t count, *shown = entries_of(v->job, &count);
	struct drawing d = { v->job, shown };
	const int below = 4, top = SB_STAGES + 1;

	sb_cells_rule(out, 0, "how it stands");
	sb_stages_draw(&s->stages, out, 1);
	sb_cells_rule(out, top, "entered beside and after the pilot");
	if (count == 0)
		sb_cells_text(out, top + 1, 1, STYLE_PLAIN, "Nothing was entered yet.");
	sb_list_fit(&s->list, count);
	if (count) {
		struct cells part = sb_cells_part(out, top + 1, 0, out->rows - top - 1 - below, out->columns);
		sb_list_draw(&s->list, count, draw_line, &d, &part);
		part = sb_cells_part(out, out->rows - below, 0, below, out->columns);
		draw_chosen(v->job, &v->job->acts[shown[s->list.chosen]], &part);
	}
	sb_free(shown);
}

static enum follow after_key(struct view *v, int key)
{
	struct after *s = v->state;
	size_t count;

	sb_free(entries_of(v->job, &count));
	return sb_list_key(&s->list, key, count) ? FOLLOW_REDRAW : FOLLOW_PASS;
}

static enum follow strike(struct view *v)
{
	const struct after *s = v->state;
	size_t count, *shown = entries_of(v->job, &count);
	const struct act *a = count ? &v->job->acts[shown[s->list.chosen]] : NULL;

	sb_free(shown);
	return a ? sb_entry_strike(v, a->id) : FOLLOW_NOTHING;
}

static enum follow opening(struct view *v)
{
	return sb_app_open(v, &sb_screen_opening, NULL);
}

static enum follow open_string(struct view *v)
{
	return sb_app_open(v, &sb_screen_string, NULL);
}

static enum follow open_pull(struct view *v)
{
	return sb_app_open(v, &sb_screen_pull, NULL);
}

static enum follow fluid(struct view *v)
{
	return sb_app_open(v, &sb_screen_fluid, NULL);
}

static enum follow stress(struct view *v)
{
	return sb_app_open(v, &sb_screen_stress, NULL);
}

static const struct action after_actions[] = {
	{ .name = "fluid",
		.keys = "U",
		.label = "fluid",
		.help = "Pressure of the drilling fluid along the bore, returns, losses, and fluid that came up.",
		.act = fluid },
	{ .name = "opening",
		.keys = "O",
		.label = "open the hole",
		.help = "The passes of reamer and swab: begin one, enter its joints, what is left.",
		.act = opening },
	{ .name = "open-string",
		.keys = "S",
		.label = "pipe string",
		.help = "The product pipe's joints and records, and what of them the pull waits for.",
		.act = open_string },
	{ .name = "open-pull",
		.keys = "P",
		.label = "pull",
		.help = "The pull of the product pipe, joint by joint, beside the estimate.",
		.act = open_pull },
	{ .name = "stress",
		.keys = "T",
		.label = "pipe",
		.help = "The product pipe in this hole: what it bears, and what it takes to pull it in.",
		.act = stress },
	{ .name = "strike-out",
		.keys = "K",
		.label = "strike out",
		.help = "Strike out the chosen entry, with a reason and a name. It stays readable; enter it again as it should be.",
		.act = strike,
		.writes = true },
	{ .name = "back-to-the-pilot",
		.keys = "V Q Esc Ctrl-C",
		.label = "back",
		.help = "Back to the pilot.",
		.act = sb_app_close },
	{ 0 },
};

const struct screen sb_screen_after = {
	.name = "after",
	.title = "after",
	.about =
		"How each stage stands, in a line: the drilling fluid, the opening of the hole, the pipe string, the pull, the product pipe; "
		"its key opens it. Below, what was entered of them, the newest on top. A slip is struck out and entered again; nothing is "
		"erased.",
	.state_size = sizeof(struct after),
	.open = after_open,
	.draw = after_draw,
	.key = after_key,
	.changed = stand,
	.actions = after_actions,
	.widgets = { sb_list_keys },
};
