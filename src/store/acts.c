/* The acts of the log: joints, corrections, pulling back, words. Those on where the bore really is are in
 * acts_place.c; how an act is carried out is in deed.c. */
#include "base/str.h"
#include "model/azimuth.h"
#include "model/slides.h"
#include "store/deed.h"
#include "store/handle.h"

#include <string.h>

/* Takes the fields through the same door that reading the file back goes through, so that memory and file
 * hold the same and no reading is written that cannot be read. */
static int take_fields(
	const struct sb_store *store, const struct reading *from, struct reading *to, struct sb_err *err)
{
	if (!sb_number_given(&from->joint_length))
		return sb_fail(err, SB_RANGE, "The length of the joint is missing.");
	for (size_t i = 0; i < sb_row_field_count; i++) {
		const struct row_field *f = &sb_row_fields[i];
		if (sb_row_field_put(f, to, store->job.incline, sb_row_field_get(f, from), err))
			return -1;
	}
	return sb_slides_check(to, err);
}

static int64_t next_reading(const struct job *job)
{
	return job->reading_count ? job->readings[job->reading_count - 1].id + 1 : 1;
}

/* What a reading takes over from its act. */
static void sign(struct reading *r, struct deed *d)
{
	r->act = d->act.id;
	r->at_ms = d->act.at_ms;
	d->act.subject = r->id;
	d->act.leg = r->leg;
	d->act.joint = r->joint;
	sb_copy(r->who, sizeof r->who, d->act.who);
	sb_copy(r->reason, sizeof r->reason, d->act.text);
	d->reading = r;
}

int sb_store_log(struct sb_store *store, const char *who, const struct reading *r, struct sb_err *err)
{
	struct reading row = { 0 };
	struct deed d = { 0 };

	if (sb_deed_prepare(store, who, ACT_LOG, &d, err) || take_fields(store, r, &row, err) ||
		sb_azimuth_check(&store->job, NULL, &row, err) ||
		sb_deed_check_words(r->reason, SB_REMARK_TEXT, false, "The reason", err))
		return -1;
	sb_deed_put_words(&d, r->reason);
	row.id = next_reading(&store->job);
	row.leg = sb_job_leg(&store->job);
	row.joint = sb_job_in_ground(&store->job) + 1;
	sign(&row, &d);
	return sb_deed_carry_out(store, &d, err);
}

int sb_store_correct(
	struct sb_store *store, const char *who, int64_t reading, const struct reading *r, struct sb_err *err)
{
	struct reading row = { 0 };
	struct deed d = { 0 };

	if (sb_deed_prepare(store, who, ACT_CORRECT, &d, err) || take_fields(store, r, &row, err) ||
		sb_deed_check_words(r->reason, SB_REMARK_TEXT, true, "The reason for the correction", err))
		return -1;
	const struct reading *old = sb_job_reading(&store->job, reading);
	if (old == NULL)
		return sb_fail(err, SB_MISSING, "There is no reading %lld.", (long long)reading);
	if (sb_job_replaced(&store->job, old))
		return sb_fail(err, SB_STATE,
			"Reading %lld of joint %d was corrected already. Correct the newest one.",
			(long long)reading, old->joint);
	if (sb_azimuth_check(&store->job, old, &row, err))
		return -1;
	sb_deed_put_words(&d, r->reason);
	row.id = next_reading(&store->job);
	row.corrects = old->id;
	row.leg = old->leg;
	row.joint = old->joint;
	sign(&row, &d);
	return sb_deed_carry_out(store, &d, err);
}

int sb_store_withdraw(
	struct sb_store *store, const char *who, int to_joint, const char *reason, struct sb_err *err)
{
	struct deed d = { 0 };
	struct leg leg = { .to_joint = to_joint };

	if (sb_deed_prepare(store, who, ACT_WITHDRAW, &d, err) ||
		sb_deed_check_words(reason, SB_REMARK_TEXT, true, "The reason for pulling back", err))
		return -1;
	int in_ground = sb_job_in_ground(&store->job);
	if (in_ground == 0)
		return sb_fail(err, SB_STATE, "There is no joint in the ground to pull back.");
	if (to_joint < 0 || to_joint >= in_ground)
		return sb_fail(err, SB_RANGE,
			"The last joint to stay cannot be %d: %d %s in the ground, so it lies between 0 and %d.",
			to_joint, in_ground, in_ground == 1 ? "joint is" : "joints are", in_ground - 1);
	sb_deed_put_words(&d, reason);
	leg.number = sb_job_leg(&store->job) + 1;
	leg.act = d.act.id;
	leg.at_ms = d.act.at_ms;
	sb_copy(leg.who, sizeof leg.who, d.act.who);
	sb_copy(leg.reason, sizeof leg.reason, d.act.text);
	d.act.leg = leg.number;
	d.act.joint = to_joint;
	d.leg = &leg;
	return sb_deed_carry_out(store, &d, err);
}

/* An act that is words alone. */
static int say(struct sb_store *store, const char *who, enum act_kind kind, const char *words, bool required,
	const char *what, struct sb_err *err)
{
	struct deed d = { 0 };

	if (sb_deed_prepare(store, who, kind, &d, err) ||
		sb_deed_check_words(words, sizeof d.act.text, required, what, err))
		return -1;
	sb_deed_put_words(&d, words);
	return sb_deed_carry_out(store, &d, err);
}

int sb_store_note(struct sb_store *store, const char *who, const char *text, struct sb_err *err)
{
	return say(store, who, ACT_NOTE, text, true, "The text of the note", err);
}

int sb_store_shift_begin(struct sb_store *store, const char *who, const char *names, struct sb_err *err)
{
	return say(store, who, ACT_SHIFT_BEGIN, names, true, "The names of the crew", err);
}

int sb_store_shift_end(struct sb_store *store, const char *who, const char *remarks, struct sb_err *err)
{
	if (sb_job_shift(&store->job) == NULL)
		return sb_fail(err, SB_STATE, "No shift is running that could end.");
	return say(store, who, ACT_SHIFT_END, remarks, false, "The remarks", err);
}

int sb_store_acknowledge(
	struct sb_store *store, const char *who, size_t warning, const char *reason, struct sb_err *err)
{
	struct deed d = { 0 };
	struct acknowledgement a = { 0 };

	if (sb_deed_prepare(store, who, ACT_ACKNOWLEDGE, &d, err) ||
		sb_deed_check_words(reason, SB_REMARK_TEXT, true, "The reason for the acknowledgement", err))
		return -1;
	if (warning >= store->solution.warning_count)
		return sb_fail(err, SB_MISSING, "There is no such warning.");
	const struct warning *w = &store->solution.warnings[warning];
	if (w->acknowledged)
		return sb_fail(
			err, SB_STATE, "%.64s has acknowledged this warning already.", w->acknowledged_by);
	sb_deed_put_words(&d, reason);
	a = (struct acknowledgement){ .act = d.act.id,
		.leg = w->leg,
		.joint = w->joint,
		.to_joint = w->last_joint,
		.level = (int)w->level,
		.at_ms = d.act.at_ms };
	sb_copy(a.kind, sizeof a.kind, sb_warning_sorts[w->kind].name);
	sb_copy(a.who, sizeof a.who, d.act.who);
	sb_copy(a.reason, sizeof a.reason, d.act.text);
	d.act.leg = w->leg;
	d.act.joint = w->joint;
	d.acknowledgement = &a;
	return sb_deed_carry_out(store, &d, err);
}
