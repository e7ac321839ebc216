/* Correcting a joint: its row as it stands, to be typed over, with a reason and a name. The old row stays in
 * the file and on the joint's page.
 */
#include "base/str.h"
#include "model/slides.h"
#include "ui/app.h"
#include "ui/entry.h"
#include "ui/log.h"
#include "ui/prompt.h"

#include <stdio.h>

struct correcting {
	int64_t reading;
	int joint, leg;
	struct form form;
};

/* argument: the reading. */
static int correct_open(struct view *v, const void *argument, struct sb_err *err)
{
	struct correcting *c = v->state;
	const struct reading *r = argument;

	(void)err;
	c->reading = r->id;
	c->joint = r->joint;
	c->leg = r->leg;
	for (size_t i = 0; i < sb_row_field_count; i++) {
		const struct row_field *f = &sb_row_fields[i];
		if (!f->instrument && !sb_same(f->name, "remarks"))
			sb_form_add(&c->form, sb_log_field(f, v->job, f->type == FIELD_TEXT ? 44 : 10),
				sb_row_field_get(f, r));
	}
	const struct row_field *remarks = sb_row_field("remarks");
	sb_form_add(&c->form, sb_log_field(remarks, v->job, 44), sb_row_field_get(remarks, r));
	sb_entry_words(&c->form, "reason", "why corrected", 44, true);
	sb_entry_who(&c->form, v);
	sb_form_focus(&c->form, sb_form_index(&c->form, "inclination"));
	return 0;
}

static void correct_draw(const struct view *v, struct cells *out)
{
	const struct correcting *c = v->state;
	const struct reading *r = sb_job_reading(v->job, c->reading);
	char title[128];

	snprintf(title, sizeof title, "correct joint %d of leg %d, %s by %s", c->joint, c->leg,
		r && r->corrects ? "last corrected" : "logged", r ? r->who : "");
	sb_cells_rule(out, 0, title);
	sb_cells_fit(out, 1, 1, out->columns - 2, STYLE_DIM,
		"Tab to what is wrong, type it anew; Enter goes on to why. The old row stays.");
	struct cells part = sb_cells_part(out, 2, 0, out->rows - 2, out->columns);
	sb_form_draw(&c->form, &part);
}

static bool same_row(const struct reading *a, const struct reading *b)
{
	for (size_t i = 0; i < sb_row_field_count; i++)
		if (!sb_same(sb_row_field_get(&sb_row_fields[i], a), sb_row_field_get(&sb_row_fields[i], b)))
			return false;
	return true;
}

/* What the form makes of the joint: 0, or -1 after it was said why nothing can be done with it. */
static int read_form(struct view *v, const struct reading *old, struct reading *r)
{
	const struct correcting *c = v->state;
	struct sb_err err = { 0 };

	*r = *old;
	if (sb_log_take(&c->form, v->job->incline, r, &err) || sb_slides_check(r, &err)) {
		sb_app_fail(v, &err);
		return -1;
	}
	if (same_row(old, r)) {
		sb_app_say(v, LEVEL_OK, "Nothing is different from what was logged. Esc leaves it as it is.");
		return -1;
	}
	sb_copy(r->reason, sizeof r->reason, sb_form_text(&c->form, "reason"));
	return 0;
}

static enum follow put_on_disk(struct view *v)
{
	struct correcting *c = v->state;
	const struct reading *old = sb_job_reading(v->job, c->reading);
	struct view *below = sb_app_below(v);
	struct sb_err err = { 0 };
	struct reading r;
	int joint = c->joint;

	if (old == NULL)
		return FOLLOW_CLOSE;
	if (read_form(v, old, &r))
		return FOLLOW_REDRAW;
	if (sb_store_correct(v->store, sb_form_text(&c->form, "who"), c->reading, &r, &err))
		return sb_app_fail(v, &err);
	sb_app_close_top(v->app);
	sb_app_say(below, LEVEL_OK,
		"The correction of joint %d is on disk, and everything after it is computed anew. It is marked c in the table.",
		joint);
	return FOLLOW_JOB_CHANGED;
}

static enum follow correct_all_the_same(struct view *asker, const struct form *given, int64_t subject)
{
	(void)given;
	(void)subject;
	return put_on_disk(asker);
}

/* A correction can be mistyped as well as a reading. */
static enum follow take(struct view *v)
{
	const struct correcting *c = v->state;
	const struct reading *old = sb_job_reading(v->job, c->reading);
	struct suspicion found[SB_SUSPICIONS];
	struct prompt p = { .answer = correct_all_the_same };
	struct reading r;

	if (old == NULL)
		return FOLLOW_CLOSE;
	if (read_form(v, old, &r))
		return FOLLOW_REDRAW;
	if (sb_blunder_look_again(v->job, old, &r, found) == 0 || !found[0].held)
		return put_on_disk(v);
	snprintf(p.question, sizeof p.question, "%.200s Correct it to this all the same?", found[0].text);
	return sb_prompt_ask(v, &p);
}

static enum follow correct_key(struct view *v, int key)
{
	struct correcting *c = v->state;

	return sb_entry_key(v, &c->form, key, sb_log_check, v->job, NULL, take);
}

static const struct action correct_actions[] = {
	{ .name = "take-correction",
		.keys = "Enter",
		.label = "correct it",
		.help = "Go on to why it is corrected; once there is a reason, put the correction on disk." },
	{ .name = "give-up",
		.keys = "Esc Ctrl-C",
		.label = "leave it as it is",
		.help = "Go back; nothing is corrected.",
		.act = sb_app_close },
	{ 0 },
};

const struct screen sb_screen_correct = {
	.name = "correct",
	.title = "correct",
	.about =
		"A correction is a new row beside the old one, with a reason and a name. The path is computed anew from it.",
	.state_size = sizeof(struct correcting),
	.open = correct_open,
	.draw = correct_draw,
	.key = correct_key,
	.letters = true,
	.actions = correct_actions,
	.widgets = { sb_form_keys },
};
