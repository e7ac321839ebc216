/* The string's joints by number, and the last word on each record of them. */
#include "model/pipe_string.h"

#include "base/measure.h"
#include "base/mem.h"
#include "model/fact.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "pipe_string_parts.h"

#define EXTRA_SHARE 0.01    /* of the bore: common practice, see sb_settings */
#define EXTRA_LEAST_M 1.524 /* 5 ft */

/* ---- joints ---- */

static int by_number(const void *one, const void *other)
{
	int a = ((const struct string_joint *)one)->pipe->joint;
	int b = ((const struct string_joint *)other)->pipe->joint;

	return (a > b) - (a < b);
}

static void take_joints(const struct job *job, struct pipe_string *s)
{
	s->list = sb_alloc((job->pipe_count + 1) * sizeof *s->list);
	for (size_t i = 0; i < job->pipe_count; i++)
		if (!job->pipes[i].struck)
			s->list[s->count++] = (struct string_joint){ .pipe = &job->pipes[i] };
	qsort(s->list, s->count, sizeof *s->list, by_number);
	for (size_t i = 0; i < s->count; i++) {
		struct string_joint *j = &s->list[i];
		j->from_m = s->length_m;
		s->length_m += j->pipe->length.value * sb_unit_metres(job->unit);
		j->to_m = s->length_m;
	}
}

static struct string_joint *joint_of(struct pipe_string *s, int number)
{
	struct pipe pipe = { .joint = number };
	struct string_joint key = { .pipe = &pipe };

	return s->count ? bsearch(&key, s->list, s->count, sizeof key, by_number) : NULL;
}

bool sb_pipe_string_weld_at(const struct pipe_string *s, size_t i)
{
	return i + 1 < s->count && s->list[i + 1].pipe->joint == s->list[i].pipe->joint + 1;
}

/* ---- records ---- */

static void take_record(struct pipe_string *s, const struct pipe_record *r)
{
	struct string_joint *j = joint_of(s, r->joint);

	if (r->kind == RECORD_TEST)
		s->test = r;
	else if (r->kind == RECORD_DRAG)
		s->drag = r;
	else if (j == NULL)
		return;
	else if (r->kind == RECORD_INSPECTION)
		j->inspection = r;
	else if (r->kind == RECORD_COATING)
		j->coating = r;
	else {
		j->weld = r;
		if (r->outcome == OUTCOME_BAD)
			j->inspection = NULL; /* of a weld that is no more */
	}
}

double sb_pipe_string_bore_m(const struct job *job)
{
	int joints = sb_job_in_ground(job);
	double length = 0;

	for (int joint = 1; joint <= joints; joint++)
		length += sb_job_joint(job, joint)->joint_length.value;
	return joints ? length * sb_unit_metres(job->unit) : (double)NAN;
}

void sb_pipe_string_look(const struct job *job, struct pipe_string *out)
{
	double bore_m = sb_pipe_string_bore_m(job);

	memset(out, 0, sizeof *out);
	take_joints(job, out);
	for (size_t i = 0; i < job->pipe_record_count; i++)
		if (!job->pipe_records[i].struck)
			take_record(out, &job->pipe_records[i]);
	out->bore_m = bore_m;
	out->bore_whole = sb_job_accepted(job) != NULL;
	out->extra_m = sb_pipe_string_extra_m(job, bore_m);
	out->needed_m = bore_m + out->extra_m;
	pipe_string_lacks(job, out);
}

void sb_pipe_string_clear(struct pipe_string *s)
{
	sb_free(s->list);
	memset(s, 0, sizeof *s);
}

double sb_pipe_string_extra_m(const struct job *job, double bore_m)
{
	if (sb_number_given(&job->pull_extra))
		return job->pull_extra.value * sb_unit_metres(job->unit);
	return isnan(bore_m) ? bore_m : fmax(EXTRA_SHARE * bore_m, EXTRA_LEAST_M);
}

/* ---- what may be entered ---- */

static const struct pipe *laid_out(const struct job *job, int joint)
{
	for (size_t i = job->pipe_count; i-- > 0;)
		if (job->pipes[i].joint == joint && !job->pipes[i].struck)
			return &job->pipes[i];
	return NULL;
}

/* Joints that were struck out leave gaps that are filled again; nothing else does. */
static int last_number(const struct job *job)
{
	int last = 0;

	for (size_t i = 0; i < job->pipe_count; i++)
		if (job->pipes[i].joint > last)
			last = job->pipes[i].joint;
	return last;
}

/* Double and triple joints are laid out beside single ones; a digit too many is ten times. Common practice,
 * no source: five parts them. A short piece is honest, and one entered too short only makes the string seem
 * short.
 */
#define LONGER 5.0

static int check_length(const struct job *job, const struct pipe *p, const char *why, struct sb_err *err)
{
	double longest = 0;

	for (size_t i = 0; i < job->pipe_count; i++)
		if (!job->pipes[i].struck)
			longest = fmax(longest, job->pipes[i].length.value);
	if (longest <= 0 || p->length.value <= LONGER * longest || (why && why[strspn(why, " \t")]))
		return 0;
	return sb_fail(err, SB_STATE,
		"Joint %d of %s %s is far longer than any other of the string, %.10g at most. Look whether a digit is too many; if it is so, say why in the remarks.",
		p->joint, p->length.text, sb_unit_short(job->unit), longest);
}

int sb_pipe_string_check_pipe(
	const struct job *job, const struct pipe *p, const char *why, struct sb_err *err)
{
	const struct pipe *there = laid_out(job, p->joint);
	int last = last_number(job);

	if (there && there->fact.act == 0) /* an earlier row of the same file */
		return sb_fail(err, SB_STATE,
			"Joint %d is in the string already: to change it, mend its row.", p->joint);
	if (there)
		return sb_fail(err, SB_STATE,
			"Joint %d is in the string already (entry %lld): to change it, strike that out first.",
			p->joint, (long long)there->fact.act);
	if (p->joint > last + 1)
		return sb_fail(err, SB_RANGE,
			"Joint %d would leave a gap: joint %d is next, counted from the pull head.", p->joint,
			last + 1);
	return check_length(job, p, why, err);
}

static int check_place(const struct job *job, const struct pipe_record *r, struct sb_err *err)
{
	bool weld = r->kind == RECORD_WELD || r->kind == RECORD_INSPECTION;
	bool whole = r->kind == RECORD_TEST || r->kind == RECORD_DRAG;

	if (whole)
		return r->joint == 0
			? 0
			: sb_fail(err, SB_RANGE,
				  "A record of the pressure test or the drag section is the whole string's: it names no joint.");
	int absent = laid_out(job, r->joint) == NULL ? r->joint : r->joint + 1;
	if (!weld && absent == r->joint)
		return sb_fail(err, SB_MISSING, "There is no joint %d in the string.", r->joint);
	if (weld && laid_out(job, absent) == NULL)
		return sb_fail(err, SB_MISSING,
			"There is no weld %d: it would lie between joints %d and %d, and joint %d is not in the string.",
			r->joint, r->joint, r->joint + 1, absent);
	return 0;
}

int sb_pipe_string_check_record(const struct job *job, const struct pipe_record *r, struct sb_err *err)
{
	bool held = sb_number_given(&r->pressure) || sb_number_given(&r->hours);

	if (check_place(job, r, err))
		return -1;
	if (held && r->kind != RECORD_TEST)
		return sb_fail(err, SB_RANGE, "Only the pressure test has a pressure and hours.");
	return 0;
}

/* ---- words ---- */

void sb_pipe_string_what_pipe(const struct job *job, const struct pipe *p, char text[SB_STRING_WHAT])
{
	snprintf(text, SB_STRING_WHAT, "joint %d, %s %s%s%s", p->joint, p->length.text,
		sb_unit_short(job->unit), *p->mark ? ", " : "", p->mark);
}

void sb_pipe_string_what_record(const struct job *job, const struct pipe_record *r, char text[SB_STRING_WHAT])
{
	static const char *const of[] = { "weld", "the inspection of weld", "the coating of joint",
		"the pressure test", "the drag section" };
	size_t used = (size_t)snprintf(text, SB_STRING_WHAT, "%s", of[r->kind]);

	if (r->joint)
		used += (size_t)snprintf(text + used, SB_STRING_WHAT - used, " %d", r->joint);
	used += (size_t)snprintf(text + used, SB_STRING_WHAT - used, " %s", sb_outcome_name(r->outcome));
	if (sb_number_given(&r->pressure))
		used += (size_t)snprintf(text + used, SB_STRING_WHAT - used, ", %s %s", r->pressure.text,
			sb_measure_unit(job->unit, MEASURE_PRESSURE));
	if (sb_number_given(&r->hours))
		used += (size_t)snprintf(text + used, SB_STRING_WHAT - used, ", %s hours", r->hours.text);
	if (*r->reference)
		snprintf(text + used, SB_STRING_WHAT - used, ", %s", r->reference);
}
