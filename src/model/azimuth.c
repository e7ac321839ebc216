/* The choice between two ways to the azimuth, as a verdict, and whose it was. */
#include "model/azimuth.h"

#include "base/str.h"

#include <math.h>
#include <stdio.h>

static bool holds(const struct job *job, const struct change *c, const struct reading *r)
{
	return r == NULL || sb_job_change_holds(job, c, r);
}

const struct change *sb_azimuth_change(
	const struct job *job, const struct reading *r, const char *section, const char *key)
{
	for (size_t i = job->change_count; i-- > 0;) {
		const struct change *c = &job->changes[i];
		if (sb_same(c->section, section) && sb_same(c->key, key) && holds(job, c, r))
			return c;
	}
	return NULL;
}

static bool is_reference(const struct change *c)
{
	return sb_same(c->section, "azimuth") && sb_same(c->key, "reference");
}

/* One of the figures that the two ways are made of. */
static bool is_figure(const struct change *c)
{
	static const char *const keys[] = { "declination", "convergence", "bore_azimuth_read" };

	for (size_t i = 0; i < sizeof keys / sizeof *keys; i++)
		if (sb_same(c->section, "azimuth") && sb_same(c->key, keys[i]))
			return true;
	return sb_same(c->section, "tool") && sb_same(c->key, "azimuth_correction");
}

const struct change *sb_azimuth_choice(const struct job *job, const struct reading *r)
{
	const struct change *choice = NULL;

	for (size_t i = 0; i < job->change_count; i++) {
		const struct change *c = &job->changes[i];
		if (!holds(job, c, r))
			continue;
		if (is_reference(c))
			choice = c;
		else if (is_figure(c) && choice && c->fact.act > choice->fact.act)
			choice = NULL; /* what was chosen between is another now */
	}
	return choice;
}

static void judge(const struct setup *s, const struct job *job, const struct reading *r, struct verdict *v)
{
	double apart;

	v->limit = SB_AZIMUTH_APART;
	if (!sb_frame_azimuth_disagrees(job, s->frame, &apart))
		return;
	v->value = fabs(apart);
	if (v->value <= v->limit + 1e-9 || sb_azimuth_choice(job, r)) /* a billionth over is arithmetic */
		return;
	v->level = LEVEL_WATCH;
	snprintf(v->text, sizeof v->text,
		"Two ways to the bore's azimuth differ by %.2f degrees: the tool on the staked line, and declination with "
		"convergence. Settle which holds before drilling on.",
		v->value);
}

void sb_azimuth_judge(const struct setup *s, const struct reading *r, struct verdict *v)
{
	/* For the entry holds what the sheet says, and what was changed from joint 0 on. */
	const struct reading entry = { .leg = 1, .joint = 0, .logged = 1 };

	if (s->job->change_count == 0) {
		judge(s, s->job, NULL, v);
		return;
	}
	if (r == NULL)
		r = &entry;
	struct job as = sb_frame_settings(s->job, r);
	judge(s, &as, r, v);
}

void sb_azimuth_judge_next(const struct setup *s, int64_t before_act, struct verdict *v)
{
	struct job as = *s->job; /* borrows all its lists */

	while (as.change_count > 0 && as.changes[as.change_count - 1].fact.act >= before_act)
		as.change_count--;
	as = sb_frame_settings(&as, NULL);
	judge(s, &as, NULL, v);
}

const struct change *sb_azimuth_settled(const struct job *job, const struct warning *w)
{
	if (w->kind != WARNING_AZIMUTH || w->open || w->superseded)
		return NULL;
	for (size_t i = job->change_count; i-- > 0;) {
		const struct change *c = &job->changes[i];
		if ((is_reference(c) || is_figure(c)) && c->from_joint <= w->last_joint + 1)
			return c;
	}
	return NULL;
}

int sb_azimuth_check(
	const struct job *job, const struct reading *held, const struct reading *r, struct sb_err *err)
{
	if (r->azimuth_by != AZIMUTH_BY_GYRO || !sb_number_given(&r->azimuth))
		return 0;
	struct job as = sb_frame_settings(job, held);
	if (sb_number_given(&as.convergence))
		return 0;
	return sb_fail(err, SB_STATE,
		"A gyro reads from true north, and this job has no convergence to turn that to the grid. Change [azimuth] "
		"convergence first (sagbend earth finds it; 0 only if it is 0).");
}
