/* Every act so far, the newest on top: who, when, what and why. */
#include "base/mem.h"
#include "base/str.h"
#include "base/time.h"
#include "io/history.h"
#include "ui/app.h"
#include "ui/list.h"
#include "ui/log.h"

#include <stdio.h>
#include <string.h>

struct history {
	struct list list;
	enum history_which which;
	size_t person; /* from 1, in the order of their first acts; 0: everybody */
	int shift;     /* from 1; 0: all */
};

struct drawing {
	const struct job *job;
	const size_t *shown;
};

/* The filter that the screen stands for. people: for sb_free, once the filter is done with. */
static struct history_filter filter_of(const struct history *h, const struct job *job, const char ***people)
{
	size_t count = sb_history_people(job, people);

	return (struct history_filter){ h->which,
		h->person && h->person <= count ? (*people)[h->person - 1] : "", h->shift };
}

/* Indices of the acts that are shown, newest first. Returned: for sb_free. */
static size_t *choose(const struct job *job, const struct history_filter *f, size_t *count)
{
	size_t *out;

	*count = sb_history_pick(job, f, &out);
	for (size_t i = 0; i < *count / 2; i++) {
		size_t swap = out[i];
		out[i] = out[*count - 1 - i];
		out[*count - 1 - i] = swap;
	}
	return out;
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
	sb_cells_fit(out, 0, 31, 12, STYLE_STRONG, sb_history_word(a->kind));
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
	const char **people;
	struct history_filter f = filter_of(h, v->job, &people);
	size_t count, *shown = choose(v->job, &f, &count);
	struct drawing d = { v->job, shown };
	struct sb_str title = { 0 };
	const int below = 5;

	sb_history_say(&f, &title);
	sb_cells_rule(out, 0, sb_str_get(&title));
	if (count == 0)
		sb_cells_text(out, 2, 1, STYLE_PLAIN, "Nothing. F shows every act again.");
	sb_list_fit(&h->list, count);
	struct cells part = sb_cells_part(out, 1, 0, out->rows - 1 - below, out->columns);
	if (count)
		sb_list_draw(&h->list, count, draw_line, &d, &part);
	part = sb_cells_part(out, out->rows - below, 0, below, out->columns);
	if (count)
		draw_chosen(&v->job->acts[shown[h->list.chosen]], &part);
	sb_str_clear(&title);
	sb_free(shown);
	sb_free(people);
}

static enum follow history_key(struct view *v, int key)
{
	struct history *h = v->state;
	const char **people;
	struct history_filter f = filter_of(h, v->job, &people);
	size_t count;

	sb_free(choose(v->job, &f, &count));
	sb_free(people);
	return sb_list_key(&h->list, key, count) ? FOLLOW_REDRAW : FOLLOW_PASS;
}

/* The list begins at its top again. */
static enum follow chosen_anew(struct history *h)
{
	h->list = (struct list){ 0 };
	return FOLLOW_REDRAW;
}

/* From any filter back to every act; from every act to decisions. */
static enum follow show_all(struct view *v)
{
	struct history *h = v->state;
	bool all = h->which == HISTORY_ALL && h->person == 0 && h->shift == 0;

	h->which = all ? HISTORY_DECISIONS : HISTORY_ALL;
	h->person = 0;
	h->shift = 0;
	return chosen_anew(h);
}

static enum follow toggle(struct view *v, enum history_which which)
{
	struct history *h = v->state;

	h->which = h->which == which ? HISTORY_ALL : which;
	return chosen_anew(h);
}

static enum follow show_edits(struct view *v)
{
	return toggle(v, HISTORY_EDITS);
}

static enum follow show_accepted(struct view *v)
{
	return toggle(v, HISTORY_ACCEPTED);
}

static enum follow next_person(struct view *v)
{
	struct history *h = v->state;
	const char **people;
	size_t count = sb_history_people(v->job, &people);

	sb_free(people);
	h->person = h->person >= count ? 0 : h->person + 1;
	return chosen_anew(h);
}

/* The newest shift first: it is the one that is asked about. */
static enum follow next_shift(struct view *v)
{
	struct history *h = v->state;
	int count = sb_history_shifts(v->job);

	if (count == 0)
		return sb_app_say(v, LEVEL_OK, "No shift was begun on this job yet.");
	h->shift = h->shift == 0 ? count : h->shift - 1;
	return chosen_anew(h);
}

static const struct action history_actions[] = {
	{ .name = "decisions",
		.keys = "F",
		.label = "all or decisions",
		.help = "Every act, whatever was left out before; then, without plain logging.",
		.act = show_all },
	{ .name = "edits",
		.keys = "E",
		.label = "edits",
		.help = "Only what was corrected, pulled back, changed or taken back; E again shows all.",
		.act = show_edits },
	{ .name = "accepted",
		.keys = "A",
		.label = "accepted",
		.help = "Only what was acknowledged, accepted or signed, or logged although it looked like a slip; A again shows all.",
		.act = show_accepted },
	{ .name = "person",
		.keys = "P",
		.label = "person",
		.help = "Only what one person did: the next of those who did something; after the last, everybody.",
		.act = next_person },
	{ .name = "one-shift",
		.keys = "S",
		.label = "shift",
		.help = "Only one shift, the newest first; after the first of all, all of them.",
		.act = next_shift },
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
