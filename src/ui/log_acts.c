/* The acts of the main screen that ask something first. Each question stands at the foot of the screen, with
 * the bore still in sight above it; an answer that the job does not allow leaves the question as it was
 * typed. */
#include "ui/app.h"
#include "ui/entry.h"
#include "ui/log.h"
#include "ui/prompt.h"

#include <stdio.h>

static const char *joints(int count)
{
	return count == 1 ? "joint" : "joints";
}

/* ---- pulling back ---- */

static int check_stays(const struct form *f, size_t field, const void *context, struct sb_err *err)
{
	const struct view *asker = context;
	int in_ground = sb_job_in_ground(asker->job);
	struct number n;

	if (field != 0 || sb_number_parse(f->fields[0].text, &n, err))
		return 0;
	if (!(n.value >= 0 && n.value < in_ground))
		return sb_fail(err, SB_RANGE, "That is a joint from 0 to %d.", in_ground - 1);
	if (n.value != (double)(int)n.value)
		return sb_fail(err, SB_RANGE, "A joint has a whole number.");
	return 0;
}

static enum follow take_pull_back(struct view *v, const struct form *given, int64_t subject)
{
	struct sb_err err = { 0 };
	struct number n = { 0 };

	(void)subject;
	struct log_state *s = v->state;
	int out = sb_job_in_ground(v->job);
	if (sb_number_parse(sb_form_text(given, "joint"), &n, &err) ||
		sb_store_withdraw(v->store, v->who, (int)n.value, sb_form_text(given, "reason"), &err)) {
		sb_app_fail(v, &err);
		return FOLLOW_PASS;
	}
	s->marked = false;
	s->back = 0;
	out -= (int)n.value;
	sb_app_say(v, LEVEL_OK,
		"On disk: %d %s pulled back, joint %d is the last in the ground. Leg %d begins. What was pulled back stays in the table, marked x.",
		out, joints(out), (int)n.value, sb_job_leg(sb_store_job(v->store)));
	return FOLLOW_JOB_CHANGED;
}

enum follow sb_log_pull_back(struct view *v)
{
	struct prompt p = { .answer = take_pull_back, .check = check_stays };
	const struct reading *r = sb_log_table_chosen(v);
	const struct log_state *s = v->state;
	int in_ground = sb_job_in_ground(v->job);
	char offered[16] = "";

	if (in_ground == 0)
		return sb_app_say(v, LEVEL_OK, "Nothing is in the ground yet.");
	if (s->marked && r && sb_job_joint(v->job, r->joint) == r && r->joint < in_ground)
		snprintf(offered, sizeof offered, "%d", r->joint);
	snprintf(p.question, sizeof p.question,
		"Pull back to drill again. %d %s in the ground. Which is the last one that stays? (0: all come out)",
		in_ground, in_ground == 1 ? "joint is" : "joints are");
	sb_entry_number(&p.form, "joint", "last joint that stays", NULL, 6, true, offered);
	sb_entry_words(&p.form, "reason", "why", 50, true);
	return sb_prompt_ask(v, &p);
}

/* ---- notes ---- */

static enum follow take_note(struct view *v, const struct form *given, int64_t subject)
{
	struct sb_err err = { 0 };

	(void)subject;
	if (sb_store_note(v->store, v->who, sb_form_text(given, "note"), &err)) {
		sb_app_fail(v, &err);
		return FOLLOW_PASS;
	}
	sb_app_say(v, LEVEL_OK,
		"The note is on disk. It is on the page for the next shift; H shows all of them.");
	return FOLLOW_JOB_CHANGED;
}

enum follow sb_log_note(struct view *v)
{
	struct prompt p = { .answer = take_note };
	int joint = sb_job_in_ground(v->job);

	if (joint > 0)
		snprintf(p.question, sizeof p.question, "A note, kept with joint %d:", joint);
	else
		snprintf(p.question, sizeof p.question, "A note, kept with the entry:");
	sb_entry_words(&p.form, "note", "note", 50, true);
	return sb_prompt_ask(v, &p);
}

/* ---- a joint without a reading ---- */

static enum follow take_no_reading(struct view *v, const struct form *given, int64_t subject)
{
	(void)given;
	(void)subject;
	return sb_log_commit(v, false, "");
}

enum follow sb_log_no_reading(struct view *v)
{
	struct prompt p = { .answer = take_no_reading };
	const struct log_state *s = v->state;

	sb_log_trial(v, false);
	snprintf(p.question, sizeof p.question,
		"Log joint %d as drilled without a reading? The path is carried over it, and a warning opens.",
		s->joint);
	return sb_prompt_ask(v, &p);
}
