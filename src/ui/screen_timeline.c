/* The timeline: when the pilot is out, and below it every joint with its waits, the newest on top. */
#include "base/mem.h"
#include "base/str.h"
#include "base/time.h"
#include "io/timeline.h"
#include "ui/app.h"
#include "ui/list.h"
#include "ui/log.h"

#include <math.h>
#include <stdio.h>

#define HEAD_ROWS 6 /* rule, forecast, how it was found in three lines, headings */
#define FOOT_ROWS 4
#define BAR_LEFT 51

struct timeline_state {
	struct list list;
	bool stops; /* only joints before which the hole stood longer than usual */
};

struct drawing {
	const struct view *v;
	const struct timeline *t;
	const size_t *shown;
	double minutes; /* that one sign of a bar stands for */
};

/* Indices of the joints that are shown, newest first. Returned: for sb_free. */
static size_t *choose(const struct timeline *t, bool stops, size_t *count)
{
	size_t *out = sb_alloc((t->count + 1) * sizeof *out);

	*count = 0;
	for (size_t i = t->count; i-- > 0;)
		if (!stops || t->list[i].stop_min > 0)
			out[(*count)++] = i;
	return out;
}

static void put_minutes(struct cells *out, int column, double minutes)
{
	char text[SB_TIMELINE_TEXT] = "";

	if (!isnan(minutes))
		sb_timeline_minutes(minutes, text);
	sb_cells_right(out, 0, column, 10, STYLE_PLAIN, text);
}

/* A sign for so many minutes: points waited, crosses drilled; cut at the edge with an arrow. */
static void draw_bar(const struct drawing *d, const struct joint_time *j, struct cells *out)
{
	int room = out->columns - BAR_LEFT - 1, column = 0;
	int waited = isnan(j->wait_min) ? 0 : (int)fmin(round(j->wait_min / d->minutes), 1000);
	double drill = isnan(j->drill_min) ? j->whole_min : j->drill_min;
	int drilled = isnan(drill) ? 0 : (int)fmin(round(drill / d->minutes), 1000);

	for (; column < waited + drilled && column < room; column++)
		sb_cells_put(out, 0, BAR_LEFT + column, column < waited ? STYLE_DIM : STYLE_PLAIN,
			column == room - 1 && waited + drilled > room ? '>'
				: column < waited		      ? '.'
								      : '#');
}

static void draw_line(const void *context, size_t i, struct cells *out)
{
	const struct drawing *d = context;
	const struct joint_time *j = &d->t->list[d->shown[i]];
	const struct reading *r = j->reading;
	enum style style = j->in_ground ? STYLE_PLAIN : STYLE_WITHDRAWN;
	char joint[24], clock[2 * SB_TIME_TEXT], logged[SB_TIME_TEXT];

	snprintf(joint, sizeof joint, r->leg > 1 ? "%d/%d" : "%d", r->joint, r->leg);
	sb_cells_right(out, 0, 1, 6, style, joint);
	sb_time_short(j->at_ms, j->offset_min, logged);
	if (r->started[0] && r->ended[0])
		snprintf(clock, sizeof clock, "%s to %s", r->started, r->ended);
	else
		snprintf(clock, sizeof clock, "logged %s", logged);
	sb_cells_fit(out, 0, 9, 15, style, clock);
	put_minutes(out, 24, j->wait_min);
	put_minutes(out, 34, isnan(j->drill_min) ? j->whole_min : j->drill_min);
	sb_cells_text(out, 0, 45, STYLE_WATCH, j->stop_min > 0 ? "stop" : "");
	draw_bar(d, j, out);
}

static void draw_head(const struct view *v, const struct timeline *t, double minutes, struct cells *out)
{
	struct pilot_out o = sb_timeline_out(v->job, v->solution, t, sb_time_now());
	struct sb_str words = { 0 }, method = { 0 };
	char title[80], stops[SB_TIMELINE_TEXT];

	sb_timeline_minutes(t->stop_min, stops);
	if (t->timed == 0)
		snprintf(title, sizeof title, "%zu joints, their times are not known", t->count);
	else
		snprintf(title, sizeof title, "%zu joints, %zu stop%s%s%s", t->count, t->stops,
			t->stops == 1 ? "" : "s", t->stops ? ": " : "", t->stops ? stops : "");
	sb_cells_rule(out, 0, title);
	sb_timeline_out_words(&o, &words);
	sb_timeline_out_method(v->job, t, &o, &method);
	sb_cells_print(out, 1, 1, STYLE_STRONG, "pilot out: %s", sb_str_get(&words));
	struct cells part = sb_cells_part(out, 2, 0, 3, out->columns);
	sb_cells_wrap(&part, 0, 1, out->columns - 2, STYLE_DIM, sb_str_get(&method));
	sb_cells_print(out, HEAD_ROWS - 1, 0, STYLE_DIM, "%7s  %-14s %10s%10s%7s. waited # drilled, %.0f min",
		"joint", "when", "waited", "drilled", "", minutes);
	sb_str_clear(&words);
	sb_str_clear(&method);
}

static void draw_chosen(const struct view *v, const struct timeline *t, size_t i, struct cells *out)
{
	const struct joint_time *j = &t->list[i];
	struct sb_str why = { 0 };
	char title[48];

	snprintf(title, sizeof title, "joint %d", j->reading->joint);
	sb_cells_rule(out, 0, title);
	sb_timeline_why(v->job, t, i, &why);
	if (j->stop_min > 0) {
		char stop[SB_TIMELINE_TEXT];
		struct sb_str text = { 0 };
		sb_timeline_minutes(j->stop_min, stop);
		sb_str_add(&text, "The hole stood %s before it: %s.", stop,
			why.length ? sb_str_get(&why) : "nothing was noted");
		sb_cells_wrap(out, 1, 1, out->columns - 2, STYLE_PLAIN, sb_str_get(&text));
		sb_str_clear(&text);
	} else {
		sb_cells_wrap(out, 1, 1, out->columns - 2, STYLE_PLAIN,
			why.length ? sb_str_get(&why) : "No stop before it, and nothing was noted.");
	}
	sb_str_clear(&why);
}

/* So that a usual joint takes a third of the room at most. */
static double scale(const struct timeline *t, int room)
{
	if (isnan(t->middle_min) || room < 3)
		return 1;
	return fmax(1, ceil(3 * t->middle_min / room));
}

static void timeline_draw(const struct view *v, struct cells *out)
{
	struct timeline_state *s = v->state;
	struct timeline t;
	size_t count, *shown;

	sb_timeline_take(v->job, &t);
	shown = choose(&t, s->stops, &count);
	struct drawing d = { v, &t, shown, scale(&t, out->columns - BAR_LEFT - 1) };
	draw_head(v, &t, d.minutes, out);
	sb_list_fit(&s->list, count);
	struct cells part = sb_cells_part(out, HEAD_ROWS, 0, out->rows - HEAD_ROWS - FOOT_ROWS, out->columns);
	if (count == 0)
		sb_cells_text(&part, 0, 1, STYLE_PLAIN,
			t.count ? "No stop. F shows every joint." : "No joint was drilled yet.");
	else
		sb_list_draw(&s->list, count, draw_line, &d, &part);
	part = sb_cells_part(out, out->rows - FOOT_ROWS, 0, FOOT_ROWS, out->columns);
	if (count)
		draw_chosen(v, &t, shown[s->list.chosen], &part);
	sb_free(shown);
	sb_timeline_clear(&t);
}

static enum follow timeline_key(struct view *v, int key)
{
	struct timeline_state *s = v->state;
	struct timeline t;
	size_t count;

	sb_timeline_take(v->job, &t);
	sb_free(choose(&t, s->stops, &count));
	sb_timeline_clear(&t);
	return sb_list_key(&s->list, key, count) ? FOLLOW_REDRAW : FOLLOW_PASS;
}

static enum follow show_stops(struct view *v)
{
	struct timeline_state *s = v->state;

	s->stops = !s->stops;
	s->list = (struct list){ 0 };
	return FOLLOW_REDRAW;
}

static const struct action timeline_actions[] = {
	{ .name = "stops",
		.keys = "F",
		.label = "all or stops",
		.help = "Only joints before which the hole stood longer than usual, or every joint again.",
		.act = show_stops },
	{ .name = "back-to-handover",
		.keys = "T Enter Q Esc Ctrl-C",
		.label = "back",
		.help = "Back to the page for the next shift.",
		.act = sb_app_close },
	{ 0 },
};

const struct screen sb_screen_timeline = {
	.name = "timeline",
	.title = "timeline",
	.about =
		"How long each joint took and the hole stood before it, by the times typed with the joints, else by those of the "
		"log; and when the pilot is out if it goes on like that, best and likely.",
	.state_size = sizeof(struct timeline_state),
	.draw = timeline_draw,
	.key = timeline_key,
	.actions = timeline_actions,
	.widgets = { sb_list_keys },
};
