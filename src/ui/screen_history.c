/* Every act so far, the newest on top: who, when, what and why. */
#include "base/mem.h"
#include "base/str.h"
#include "base/time.h"
#include "ui/app.h"
#include "ui/list.h"
#include "ui/log.h"

#include <stdio.h>
#include <string.h>

struct history {
	struct list list;
	bool decisions; /* leaves out plain logging */
};

struct drawing {
	const struct job *job;
	const size_t *shown;
};

static bool plain(const struct act *a)
{
	return a->kind == ACT_LOG && a->text[0] == '\0';
}

/* Indices of the acts that are shown, newest first. Returned: for sb_free. */
static size_t *choose(const struct job *job, bool decisions, size_t *count)
{
	size_t *out = sb_alloc((job->act_count + 1) * sizeof *out);

	*count = 0;
	for (size_t i = job->act_count; i-- > 0;)
		if (!decisions || !plain(&job->acts[i]))
			out[(*count)++] = i;
	return out;
}

/* The act as people say it. */
static const char *act_word(enum act_kind kind)
{
	switch (kind) {
	case ACT_NEW:
		return "job made";
	case ACT_LOG:
		return "logged";
	case ACT_CORRECT:
		return "corrected";
	case ACT_WITHDRAW:
		return "pulled back";
	case ACT_NOTE:
		return "note";
	case ACT_ACKNOWLEDGE:
		return "acknowledged";
	case ACT_SHIFT_BEGIN:
		return "shift begun";
	case ACT_SHIFT_END:
		return "shift ended";
	case ACT_CHANGE:
		return "changed";
	case ACT_REPEAT:
		return "read again";
	case ACT_FIX:
		return "fix";
	case ACT_FIX_USE:
		return "use of a fix";
	case ACT_ADJUST:
		return "adjusted";
	case ACT_ADJUST_BACK:
		return "taken back";
	case ACT_ACCEPT:
		return "accepted";
	case ACT_ACCEPT_BACK:
		return "not accepted";
	case ACT_TICK:
		return "ticked off";
	case ACT_TICK_BACK:
		return "not done";
	case ACT_SIGN:
		return "signed";
	case ACT_REOPEN:
		return "reopened";
	}
	return "";
}

static void draw_line(const void *context, size_t i, struct cells *out)
{
	const struct drawing *d = context;
	const struct act *a = &d->job->acts[d->shown[i]];
	char text[SB_TIME_TEXT], joint[24];

	sb_time_long(a->at_ms, a->offset_min, text);
	text[strcspn(text, "+-")] = '\0'; /* day and time; the offset stands below the list */
	sb_cells_fit(out, 0, 2, 13, STYLE_DIM, text);
	sb_cells_fit(out, 0, 16, 14, STYLE_PLAIN, a->who);
	sb_cells_fit(out, 0, 31, 12, STYLE_STRONG, act_word(a->kind));
	snprintf(joint, sizeof joint, "joint %d", a->joint);
	sb_cells_fit(out, 0, 44, 10, STYLE_PLAIN, a->joint ? joint : "");
	sb_cells_fit(out, 0, 55, out->columns - 56, STYLE_PLAIN, a->text);
}

/* The chosen act in full. */
static void draw_chosen(const struct act *a, struct cells *out)
{
	char when[SB_TIME_TEXT];

	sb_cells_rule(out, 0, NULL);
	sb_time_long(a->at_ms, a->offset_min, when);
	sb_cells_print(out, 1, 1, STYLE_DIM, "%s, %s, leg %d, joint %d", when, a->who, a->leg, a->joint);
	sb_cells_wrap(out, 2, 1, out->columns - 2, STYLE_PLAIN, a->text);
}

static void history_draw(const struct view *v, struct cells *out)
{
	struct history *h = v->state;
	size_t count, *shown = choose(v->job, h->decisions, &count);
	struct drawing d = { v->job, shown };
	const int below = 5;

	sb_cells_rule(out, 0, h->decisions ? "what was decided, edited and noted" : "every act");
	sb_list_fit(&h->list, count);
	struct cells part = sb_cells_part(out, 1, 0, out->rows - 1 - below, out->columns);
	sb_list_draw(&h->list, count, draw_line, &d, &part);
	part = sb_cells_part(out, out->rows - below, 0, below, out->columns);
	if (count)
		draw_chosen(&v->job->acts[shown[h->list.chosen]], &part);
	sb_free(shown);
}

static enum follow history_key(struct view *v, int key)
{
	struct history *h = v->state;
	size_t count;

	sb_free(choose(v->job, h->decisions, &count));
	return sb_list_key(&h->list, key, count) ? FOLLOW_REDRAW : FOLLOW_PASS;
}

static enum follow filter(struct view *v)
{
	struct history *h = v->state;

	h->decisions = !h->decisions;
	h->list = (struct list){ 0 };
	return FOLLOW_REDRAW;
}

static const struct action history_actions[] = {
	{ .name = "decisions",
		.keys = "F",
		.label = "all or decisions",
		.help = "Leave out plain logging, or show it again.",
		.act = filter },
	{ .name = "back-to-log",
		.keys = "H Enter F11 Q Esc Ctrl-C",
		.label = "back",
		.help = "Back to the log.",
		.act = sb_app_close },
	{ 0 },
};

const struct screen sb_screen_history = {
	.name = "history",
	.title = "history",
	.about = "Every act on this job, in the order of time. Nothing here can be changed.",
	.state_size = sizeof(struct history),
	.draw = history_draw,
	.key = history_key,
	.actions = history_actions,
	.widgets = { sb_list_keys },
};
