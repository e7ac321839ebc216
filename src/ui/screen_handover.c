/* The page for the next shift, and the acts that begin and end one. */
#include "base/str.h"
#include "base/time.h"
#include "io/handover.h"
#include "ui/app.h"
#include "ui/entry.h"
#include "ui/log.h"
#include "ui/page.h"
#include "ui/prompt.h"

/* The page as it was made: it holds a plan, which is not made anew for every key. */
struct handover {
	struct page page;
	struct sb_str text;
	int64_t minute; /* that it speaks of; 0: to be made */
};

static void handover_draw(const struct view *v, struct cells *out)
{
	struct handover *h = v->state;
	int64_t now = sb_time_now(), minute = now / 60000;

	if (h->minute != minute) {
		char head[65];

		sb_str_clear(&h->text);
		sb_store_head(v->store, head);
		sb_handover(v->job, v->solution, head, now, &h->text);
		h->minute = minute;
	}
	sb_page_draw(&h->page, sb_page_text, sb_str_get(&h->text), out);
}

static void handover_changed(struct view *v)
{
	((struct handover *)v->state)->minute = 0;
}

static void handover_close(struct view *v)
{
	sb_str_clear(&((struct handover *)v->state)->text);
}

static enum follow handover_key(struct view *v, int key)
{
	struct handover *h = v->state;

	return sb_page_key(&h->page, key) ? FOLLOW_REDRAW : FOLLOW_PASS;
}

static enum follow take_begin(struct view *v, const struct form *given, int64_t subject)
{
	struct sb_err err = { 0 };

	(void)subject;
	if (sb_store_shift_begin(v->store, sb_form_text(given, "who"), sb_form_text(given, "names"), &err)) {
		sb_app_fail(v, &err);
		return FOLLOW_PASS;
	}
	sb_app_set_who(v, sb_form_text(given, "who"));
	sb_app_say(v, LEVEL_OK, "On disk: the shift has begun. From now on what is done is signed %s.",
		sb_form_text(given, "who"));
	return FOLLOW_JOB_CHANGED;
}

static enum follow begin(struct view *v)
{
	struct prompt p = { .answer = take_begin };

	sb_copy(p.question, sizeof p.question,
		sb_job_shift(v->job) ? "Take over: the shift that runs ends, and a new one begins. Who is on?"
				     : "Begin a shift. Who is on?");
	sb_entry_words(&p.form, "names", "the crew", 50, true);
	sb_entry_words(&p.form, "who", "who logs", 50, true);
	sb_form_put(&p.form, "who", v->who, true);
	return sb_prompt_ask(v, &p);
}

static enum follow take_end(struct view *v, const struct form *given, int64_t subject)
{
	struct sb_err err = { 0 };

	(void)subject;
	if (sb_store_shift_end(v->store, v->who, sb_form_text(given, "remarks"), &err)) {
		sb_app_fail(v, &err);
		return FOLLOW_PASS;
	}
	sb_app_say(v, LEVEL_OK, "On disk: the shift has ended. The next one begins with B.");
	return FOLLOW_JOB_CHANGED;
}

static enum follow end(struct view *v)
{
	struct prompt p = { .answer = take_end };

	if (sb_job_shift(v->job) == NULL)
		return sb_app_say(v, LEVEL_OK, "No shift is running.");
	sb_copy(p.question, sizeof p.question, "Hand over: what should the next shift know?");
	sb_entry_words(&p.form, "remarks", "remarks", 50, true);
	return sb_prompt_ask(v, &p);
}

static enum follow timeline(struct view *v)
{
	return sb_app_open(v, &sb_screen_timeline, NULL);
}

static const struct action handover_actions[] = {
	{ .name = "begin-shift",
		.keys = "B",
		.label = "begin a shift",
		.help = "Begin a shift with the names of the crew; one that runs ends.",
		.act = begin,
		.writes = true },
	{ .name = "end-shift",
		.keys = "E",
		.label = "end it",
		.help = "End the shift with remarks for the next one.",
		.act = end,
		.writes = true },
	{ .name = "timeline",
		.keys = "T",
		.label = "timeline",
		.help = "Joints, waits and stops, and when the pilot is out.",
		.act = timeline },
	{ .name = "back-to-log",
		.keys = "S Enter F10 Q Esc Ctrl-C",
		.label = "back",
		.help = "Back to the log.",
		.act = sb_app_close },
	{ 0 },
};

const struct screen sb_screen_handover = {
	.name = "handover",
	.title = "handover",
	.about =
		"One page with what the next shift must know, made from the log; the handover command prints the same.",
	.state_size = sizeof(struct handover),
	.draw = handover_draw,
	.key = handover_key,
	.changed = handover_changed,
	.close = handover_close,
	.actions = handover_actions,
	.widgets = { sb_page_keys },
};
