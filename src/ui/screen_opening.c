/* Opening the hole: the passes, the joints of the one that runs, and its next joint on the line below. A pass
 * is begun and ended with a question; letters are acts, as on the main screen. */
#include "base/measure.h"
#include "base/str.h"
#include "io/opening.h"
#include "model/after.h"
#include "ui/app.h"
#include "ui/entry.h"
#include "ui/key.h"
#include "ui/log.h"
#include "ui/opening.h"
#include "ui/prompt.h"

#include <stdio.h>

static void look(struct view *v)
{
	struct opening o;

	sb_opening_take(v->job, &o);
	sb_opening_entry_begin(v, &o);
	sb_opening_clear(&o);
}

static int opening_open(struct view *v, const void *argument, struct sb_err *err)
{
	(void)argument;
	(void)err;
	look(v);
	sb_opening_entry_resume(v);
	return 0;
}

static void opening_changed(struct view *v)
{
	look(v);
	sb_opening_entry_keep(v, false);
}

static void opening_keep(struct view *v)
{
	sb_opening_entry_keep(v, true);
}

static void opening_draw(const struct view *v, struct cells *out)
{
	struct opening o;

	sb_opening_take(v->job, &o);
	sb_opening_draw(v, &o, out);
	sb_opening_clear(&o);
}

/* ---- keys ---- */

static bool scroll(struct view *v, int key)
{
	struct opening_state *s = v->state;
	struct opening o;

	if (key != SB_KEY_UP && key != SB_KEY_DOWN && key != SB_KEY_PAGE_UP && key != SB_KEY_PAGE_DOWN)
		return false;
	sb_opening_take(v->job, &o);
	size_t pass = sb_opening_shown(s, &o);
	size_t count = pass == SIZE_MAX ? 0 : sb_opening_joints_of(&o, pass);
	sb_opening_clear(&o);
	return sb_list_key(&s->list, key, count);
}

static void keep_typed(struct view *v)
{
	sb_opening_entry_keep(v, false);
}

static enum follow opening_key(struct view *v, int key)
{
	struct opening_state *s = v->state;

	if (scroll(v, key))
		return FOLLOW_REDRAW;
	if (s->pass == 0) /* there is nothing to type into */
		return FOLLOW_PASS;
	return sb_entry_key(
		v, &s->entry, key, sb_opening_entry_check, NULL, keep_typed, sb_opening_entry_commit);
}

/* ---- begin and end ---- */

static enum follow refused(struct view *v, const struct sb_err *err)
{
	sb_app_fail(v, err);
	return FOLLOW_PASS;
}

static int check_pass(const struct form *f, size_t field, const void *context, struct sb_err *err)
{
	(void)context;
	return sb_entry_check(f, field, sb_fact_sort(ACT_PASS), err);
}

static enum follow begin_it(struct view *v, const struct form *given, int64_t subject)
{
	struct stood before = sb_entry_stood(v);
	struct opening_state *s = v->state;
	struct pass p = { 0 };
	struct sb_err err = { 0 };
	char what[SB_OPENING_WHAT] = "";

	(void)subject;
	int status = sb_entry_take(given, sb_fact_sort(ACT_PASS), &p, &err);
	if (status == 0) {
		sb_opening_what_pass(v->job, &p, what);
		status = sb_store_enter(v->store, sb_form_text(given, "who"), ACT_PASS, &p, what,
			sb_form_text(given, "remarks"), &err);
	}
	if (status)
		return refused(v, &err);
	s->back = 0;
	return sb_entry_said(v, what, &before);
}

static enum follow begin(struct view *v)
{
	struct prompt p = { .answer = begin_it, .check = check_pass };
	struct sb_err err = { 0 };

	if (sb_opening_check_pass(v->job, &err))
		return sb_app_fail(v, &err);
	snprintf(p.question, sizeof p.question, "A pass begins. To the entry is towards the rig.");
	sb_form_add(&p.form,
		(struct form_field){ .name = "kind",
			.label = "what",
			.kind = ENTRY_CHOICE,
			.choices = "ream|swab",
			.width = 8,
			.required = true },
		"ream");
	sb_entry_number(
		&p.form, "diameter", "diameter", sb_measure_unit(v->job->unit, MEASURE_SIZE), 8, true, "");
	sb_form_add(&p.form,
		(struct form_field){ .name = "to",
			.label = "to the",
			.kind = ENTRY_CHOICE,
			.choices = "entry|exit",
			.width = 8,
			.required = true },
		"entry");
	sb_entry_words(&p.form, "tool", "tool", 40, false);
	sb_entry_words(&p.form, "remarks", "remarks", 50, false);
	sb_entry_who(&p.form, v);
	p.form.focus = 1;
	return sb_prompt_ask(v, &p);
}

static enum follow end_it(struct view *v, const struct form *given, int64_t subject)
{
	struct stood before = sb_entry_stood(v);
	struct pass_end e = { .pass = (int)subject };
	struct sb_err err = { 0 };
	char what[SB_OPENING_WHAT] = "";
	struct opening o;

	sb_opening_take(v->job, &o);
	if (o.running)
		sb_opening_what_end(o.running, what);
	sb_opening_clear(&o);
	if (sb_store_enter(v->store, sb_form_text(given, "who"), ACT_PASS_END, &e, what,
		    sb_form_text(given, "remarks"), &err))
		return refused(v, &err);
	return sb_entry_said(v, what, &before);
}

static enum follow end(struct view *v)
{
	struct prompt p = { .answer = end_it };
	struct opening o;
	int left = 0;

	sb_opening_take(v->job, &o);
	if (o.running) {
		p.subject = o.running->number;
		left = o.running->left;
	}
	sb_opening_clear(&o);
	if (p.subject == 0)
		return sb_app_say(v, LEVEL_OK, "No pass runs: there is none to end.");
	if (left)
		snprintf(p.question, sizeof p.question,
			"Pass %d has %d joint%s left. End it all the same? Why?", (int)p.subject, left,
			left == 1 ? "" : "s");
	else
		snprintf(p.question, sizeof p.question, "Pass %d is through the whole bore: end it.",
			(int)p.subject);
	sb_entry_words(&p.form, "remarks", left ? "why" : "remarks", 50, left > 0);
	sb_entry_who(&p.form, v);
	return sb_prompt_ask(v, &p);
}

/* ---- striking out ---- */

static enum follow strike_it(struct view *v, const struct form *given, int64_t subject)
{
	struct stood before = sb_entry_stood(v);
	struct sb_err err = { 0 };
	char what[64];

	if (sb_store_strike(
		    v->store, sb_form_text(given, "who"), subject, sb_form_text(given, "reason"), &err))
		return refused(v, &err);
	snprintf(what, sizeof what, "entry %lld is struck out, and counts for nothing", (long long)subject);
	return sb_entry_said(v, what, &before);
}

/* What K strikes out: the end of the pass that is shown, else the joint marked >, else the pass. 0: nothing.
 */
static int64_t to_strike(const struct view *v)
{
	const struct opening_state *s = v->state;
	struct opening o;
	int64_t act = 0;

	sb_opening_take(v->job, &o);
	size_t pass = sb_opening_shown(s, &o);
	if (pass != SIZE_MAX) {
		const struct opening_joint *j = sb_opening_joint_at(&o, pass, s->list.chosen);
		act = o.list[pass].end ? o.list[pass].end->fact.act
			: j	       ? j->entry->fact.act
				       : o.list[pass].pass->fact.act;
	}
	sb_opening_clear(&o);
	return act;
}

static enum follow strike(struct view *v)
{
	struct prompt p = { .answer = strike_it, .subject = to_strike(v) };
	const struct act *a = sb_job_act(v->job, p.subject);
	struct sb_err err = { 0 };

	if (a == NULL)
		return sb_app_say(v, LEVEL_OK, "There is nothing to strike out.");
	if (sb_after_check_strike(v->job, a->id, &err))
		return sb_app_fail(v, &err);
	snprintf(p.question, sizeof p.question, "Strike out entry %lld, %s: %.240s. Why?", (long long)a->id,
		a->kind == ACT_PASS		  ? "a pass that began"
			: a->kind == ACT_PASS_END ? "the end of a pass"
						  : "a joint",
		a->text);
	sb_entry_words(&p.form, "reason", "why", 60, true);
	sb_entry_who(&p.form, v);
	return sb_prompt_ask(v, &p);
}

/* ---- other screens ---- */

static enum follow another_pass(struct view *v)
{
	struct opening_state *s = v->state;
	struct opening o;

	sb_opening_take(v->job, &o);
	s->back = o.count ? (s->back + 1) % o.count : 0;
	s->list = (struct list){ 0 };
	sb_opening_clear(&o);
	return FOLLOW_REDRAW;
}

static enum follow more_fields(struct view *v)
{
	if (((const struct opening_state *)v->state)->pass == 0)
		return sb_app_say(v, LEVEL_OK, "No pass runs: B begins one.");
	return sb_app_open(v, &sb_screen_opening_more, NULL);
}

static enum follow warnings(struct view *v)
{
	return sb_app_open(v, &sb_screen_warnings, NULL);
}

static const struct action opening_actions[] = {
	{ .name = "enter-joint",
		.keys = "Enter",
		.help = "Enter the joint of the pass that runs, once pull and torque are typed.",
		.writes = true },
	{ .name = "more-of-joint",
		.keys = "M F3",
		.label = "more",
		.help = "What else the joint can carry: times, returns, remarks; or another joint than the next.",
		.act = more_fields,
		.writes = true },
	{ .name = "begin-pass",
		.keys = "B",
		.label = "begin",
		.help = "A reamer or a swab goes into the hole: its size, its direction, its tool.",
		.act = begin,
		.writes = true },
	{ .name = "end-pass",
		.keys = "E",
		.label = "end",
		.help = "The pass that runs is through, or is broken off with a reason.",
		.act = end,
		.writes = true },
	{ .name = "strike-out",
		.keys = "K",
		.label = "strike out",
		.help = "A slip: strikes out the end of the pass that is shown, else its joint marked >, else the pass; with a reason.",
		.act = strike,
		.writes = true },
	{ .name = "another-pass",
		.keys = "P",
		.label = "other pass",
		.help = "The joints of the pass before, and so on round to the newest.",
		.act = another_pass },
	{ .name = "warnings",
		.keys = "A F7",
		.label = "warnings",
		.help = "The warnings: read them whole, acknowledge one with a name and a reason.",
		.act = warnings },
	{ .name = "choose-joint", .keys = "Up Down PgUp PgDn", .help = "Choose a joint in the list." },
	{ .name = "back-from-opening",
		.keys = "O Q Esc Ctrl-C",
		.label = "back",
		.help = "Back to what was entered after the pilot; what is half typed is kept.",
		.act = sb_app_close },
	{ 0 },
};

const struct screen sb_screen_opening = {
	.name = "opening",
	.title = "opening",
	.about =
		"The passes of reamers and swabs: joints and hours left, ground cut and fluid pumped, and the rules that are not kept. "
		"Type pull and torque of the joint that comes next, each with Enter. Times left are estimates: rigging, tripping, tools "
		"and breaks are not in them.",
	.state_size = sizeof(struct opening_state),
	.open = opening_open,
	.draw = opening_draw,
	.key = opening_key,
	.changed = opening_changed,
	.keep = opening_keep,
	.actions = opening_actions,
	.widgets = { sb_form_line_keys },
};
