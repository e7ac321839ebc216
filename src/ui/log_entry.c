/* What is typed for the next joint, from the first key to the disk.
 *
 * 1. Every key goes to the draft file before it is painted.
 * 2. Enter looks for slips first; one that is held asks (screen_held.c) before anything is logged.
 * 3. The forms are emptied only after the store says that the joint is on disk.
 * 4. What is typed in a what-if is gone when it ends: made-up angles must not lie ready for the next Enter.
 */
#include "base/str.h"
#include "base/time.h"
#include "model/slides.h"
#include "ui/app.h"
#include "ui/entry.h"
#include "ui/kept.h"
#include "ui/log.h"

#include <stdio.h>
#include <string.h>

static const char *const entry_names[] = { "joint_length", "inclination", "azimuth", "tool_face", "slid" };
static const char *const entry_labels[] = { "length", "incl", "azim", "face", "slid" };
static const int entry_widths[] = { 6, 6, 6, 4, 5 };
#define ENTRY_FIELDS 5

static const char *unit_of(const struct row_field *f, const struct job *job)
{
	if (f->type == FIELD_CLOCK)
		return "as 14:32 or 1432";
	return sb_same(f->name, "inclination") ? sb_incline_mark(job->incline)
					       : sb_row_field_unit(f, job->unit);
}

struct form_field sb_log_field(const struct row_field *f, const struct job *job, int width)
{
	struct form_field field = {
		.name = f->name,
		.label = f->label,
		.unit = unit_of(f, job),
		.whole = f->type == FIELD_CLOCK,
		.kind = f->type == FIELD_NUMBER	  ? ENTRY_NUMBER
			: f->type == FIELD_CHOICE ? ENTRY_CHOICE
						  : ENTRY_TEXT,
		.choices = f->choices,
		.width = width,
	};

	return field;
}

static bool in_entry(const char *name)
{
	for (size_t i = 0; i < ENTRY_FIELDS; i++)
		if (sb_same(entry_names[i], name))
			return true;
	return false;
}

static void build_forms(struct log_state *s, const struct job *job)
{
	memset(&s->entry, 0, sizeof s->entry);
	memset(&s->more, 0, sizeof s->more);
	for (size_t i = 0; i < ENTRY_FIELDS; i++) {
		struct form_field field = sb_log_field(sb_row_field(entry_names[i]), job, entry_widths[i]);
		field.label = entry_labels[i];
		field.unit = NULL;
		field.required = i == 1 || i == 2;
		struct number length = sb_job_tally(job, s->joint);
		sb_form_add(&s->entry, field, i == 0 ? length.text : "");
	}
	s->entry.focus = 1;
	s->more.by_enter = true; /* a number meant for the next field must not land among the angles */
	for (size_t i = 0; i < sb_row_field_count; i++) {
		const struct row_field *f = &sb_row_fields[i];
		if (!in_entry(f->name) && !f->instrument && !sb_same(f->name, "remarks"))
			sb_form_add(&s->more, sb_log_field(f, job, f->type == FIELD_TEXT ? 44 : 10), "");
	}
	sb_form_add(
		&s->more, sb_log_field(sb_row_field("remarks"), job, 44), ""); /* one key up from the top */
}

void sb_log_begin(struct view *v)
{
	struct log_state *s = v->state;

	s->leg = sb_job_leg(v->job);
	s->joint = sb_job_in_ground(v->job) + 1;
	s->known = s->trial = false;
	build_forms(s, v->job);
}

int sb_log_check(const struct form *f, size_t field, const void *context, struct sb_err *err)
{
	const struct row_field *row_field = sb_row_field(f->fields[field].name);
	const struct job *job = context;
	struct reading r = { 0 };

	return row_field ? sb_row_field_put(row_field, &r, job->incline, f->fields[field].text, err) : 0;
}

int sb_log_take(const struct form *f, enum incline incline, struct reading *r, struct sb_err *err)
{
	for (size_t i = 0; i < f->count; i++) {
		const struct row_field *row_field = sb_row_field(f->fields[i].name);
		if (row_field && sb_row_field_put(row_field, r, incline, f->fields[i].text, err))
			return -1;
	}
	return 0;
}

int sb_log_reading(const struct view *v, bool taken, struct reading *r, struct sb_err *err)
{
	const struct log_state *s = v->state;
	struct form entry = s->entry;

	memset(r, 0, sizeof *r);
	if (!taken) {
		sb_form_put(&entry, "inclination", "", false);
		sb_form_put(&entry, "azimuth", "", false);
	}
	if (sb_log_take(&entry, v->job->incline, r, err) || sb_log_take(&s->more, v->job->incline, r, err))
		return -1;
	if (!sb_number_given(&r->joint_length))
		r->joint_length = sb_job_tally(v->job, s->joint);
	r->leg = s->leg;
	r->joint = s->joint;
	r->at_ms = sb_time_now();
	return sb_slides_check(r, err);
}

size_t sb_log_look(const struct view *v, const struct reading *r, struct suspicion found[SB_SUSPICIONS])
{
	return sb_blunder_look(v->job, v->solution, r, NULL, found);
}

static void preview(struct view *v)
{
	struct log_state *s = v->state;
	struct reading r;

	s->known = sb_log_reading(v, true, &r, NULL) == 0 && sb_reading_taken(&r) &&
		sb_solve_preview(v->job, v->solution, &r, &s->preview, NULL) == 0;
	s->followed = false;
	if (s->known && s->trial)
		sb_log_plan_then(v, &r);
}

void sb_log_trial(struct view *v, bool on)
{
	struct log_state *s = v->state;

	if (on == s->trial)
		return;
	if (on)
		s->before = s->entry;
	else
		s->entry = s->before;
	s->trial = on;
	preview(v);
}

/* ---- the draft ---- */

static struct kept kept_of(struct log_state *s, struct form *entry)
{
	return (struct kept){ "", s->leg, s->joint, { entry, &s->more } };
}

void sb_log_save_draft(const struct view *v, bool sync)
{
	struct log_state *s = v->state;
	struct kept k = kept_of(s, s->trial ? &s->before : &s->entry);

	sb_kept_save(v, &k, sync);
}

void sb_log_changed(struct view *v)
{
	sb_log_save_draft(v, false);
	preview(v);
}

void sb_log_load_draft(struct view *v)
{
	struct log_state *s = v->state;
	struct kept k = kept_of(s, &s->entry);
	char when[SB_TIME_TEXT];

	if (!sb_kept_load(v, &k, when))
		return;
	preview(v);
	sb_app_say(v, LEVEL_OK,
		"What was half typed for joint %d at %s is back. Nothing of it is logged yet.", k.joint,
		when);
}

/* ---- to disk ---- */

/* What is not held but worth a word: a slide without a tool face, a joint that is not as long as its tally.
 */
static void remark_on(const struct view *v, const struct reading *r, char *text, size_t size)
{
	struct suspicion found[SB_SUSPICIONS];
	size_t count = sb_log_look(v, r, found);

	text[0] = '\0';
	for (size_t i = 0; i < count; i++)
		if (!found[i].held) {
			snprintf(text, size, " %s", found[i].text);
			return;
		}
}

static enum follow say_logged(struct view *v, int joint, const char *remark, const struct stood *before)
{
	const struct warning *worst = sb_entry_brought(v, before);
	enum level level = worst ? worst->level : *remark ? LEVEL_WATCH : LEVEL_OK;
	sb_app_say(v, level, "Joint %d is on disk.%s%s%s", joint, remark, worst ? " " : "",
		worst ? worst->text : "");
	return FOLLOW_JOB_CHANGED;
}

enum follow sb_log_commit(struct view *v, bool taken, const char *reason)
{
	struct log_state *s = v->state;
	struct stood before = sb_entry_stood(v);
	struct sb_err err = { 0 };
	struct reading r;
	char remark[400];
	int joint = s->joint;

	if (sb_log_reading(v, taken, &r, &err))
		return sb_app_fail(v, &err);
	sb_copy(r.reason, sizeof r.reason, reason);
	remark_on(v, &r, remark, sizeof remark);
	/* What is typed is safe on disk, half typed, before it is tried for good. */
	sb_log_save_draft(v, true);
	if (sb_store_log(v->store, v->who, &r, &err))
		return sb_app_say(v, LEVEL_WATCH, "Not logged; what you typed is kept. %s", err.text);
	struct kept k = kept_of(s, &s->entry);
	sb_kept_discard(v, &k);
	s->marked = false;
	s->back = 0;
	s->joint = 0; /* begun anew by what follows a change of the job */
	return say_logged(v, joint, remark, &before);
}
