/* The sample bores, as somebody would log them: a sheet, surveys, a withdrawal, a redrill. */
#ifndef TESTS_IO_BORE_H
#define TESTS_IO_BORE_H

#include "base/str.h"
#include "io/sheet.h"
#include "io/surveys.h"
#include "model/solve.h"
#include "support/near.h"

#include <string.h>

#define BORE_CLOCK 1790000000000 /* 21 September 2026, 14:13:20 UTC */
#define TERN "sample-data/tern-slough"
#define KESTREL "sample-data/kestrel-road"

static inline void bore_no_problems(struct sb_problems *p)
{
	struct sb_str text = { 0 };

	for (size_t i = 0; i < p->count; i++)
		sb_sheet_say(&p->list[i], &text);
	if (p->count)
		fail_msg("%s", text.text);
	sb_str_clear(&text);
	sb_problems_clear(p);
}

static inline void bore_sheet(const char *folder, struct job *job)
{
	struct sb_problems problems = { 0 };

	sb_sheet_read(folder, job, &problems);
	bore_no_problems(&problems);
}

static inline int64_t bore_next_id(const struct job *job)
{
	int64_t last = job->reading_count ? job->readings[job->reading_count - 1].id : 0;

	return job->act_count && job->acts[job->act_count - 1].id > last
		? job->acts[job->act_count - 1].id + 1
		: last + 1;
}

/* Logs all surveys of a list, a minute apart. */
static inline void bore_log(struct job *job, const struct surveys *surveys)
{
	for (size_t i = 0; i < surveys->count; i++) {
		struct reading r = surveys->list[i].reading;
		r.id = bore_next_id(job);
		r.leg = sb_job_leg(job);
		r.at_ms = BORE_CLOCK + r.id * 60000;
		if (r.who[0] == '\0')
			sb_copy(r.who, sizeof r.who, "A. Lund");
		sb_job_add_reading(job, &r);
	}
}

static inline void bore_surveys(struct job *job, const char *path)
{
	struct sb_problems problems = { 0 };
	struct surveys surveys;

	sb_surveys_read(path, job, &surveys, &problems);
	bore_no_problems(&problems);
	assert_true(surveys.count > 0);
	bore_log(job, &surveys);
	sb_surveys_clear(&surveys);
}

static inline void bore_act(struct job *job, enum act_kind kind, int joint, const char *who, const char *text)
{
	struct act a = { .id = bore_next_id(job), .kind = kind, .joint = joint, .leg = sb_job_leg(job) };

	a.at_ms = BORE_CLOCK + a.id * 60000;
	sb_copy(a.who, sizeof a.who, who);
	sb_copy(a.text, sizeof a.text, text);
	sb_job_add_act(job, &a);
}

static inline void bore_withdraw(struct job *job, int to_joint, const char *reason)
{
	bore_act(job, ACT_WITHDRAW, to_joint, "P. Ortega", reason);
	const struct act *a = &job->acts[job->act_count - 1];
	struct leg leg = {
		.number = sb_job_leg(job) + 1, .to_joint = to_joint, .act = a->id, .at_ms = a->at_ms
	};
	sb_copy(leg.who, sizeof leg.who, a->who);
	sb_copy(leg.reason, sizeof leg.reason, reason);
	sb_job_add_leg(job, &leg);
}

/* Joint `joint` is read again; returns the new reading's id. */
static inline int64_t bore_correct(struct job *job, int joint, const char *inclination, const char *reason)
{
	struct reading r = *sb_job_joint(job, joint);

	r.corrects = r.id;
	r.id = bore_next_id(job);
	r.at_ms = BORE_CLOCK + r.id * 60000;
	assert_int_equal(
		sb_row_field_put(sb_row_field("inclination"), &r, job->incline, inclination, NULL), 0);
	sb_copy(r.reason, sizeof r.reason, reason);
	sb_job_add_reading(job, &r);
	bore_act(job, ACT_CORRECT, joint, "A. Lund", reason);
	return r.id;
}

static inline void bore_solve(const struct job *job, struct solution *s)
{
	struct sb_err err;

	memset(s, 0, sizeof *s);
	if (sb_solve(job, s, NULL, &err))
		fail_msg("%s", err.text);
}

/* The whole of Tern Slough: first leg, redrill from joint 33, to the exit. */
static inline void bore_tern(struct job *job)
{
	bore_sheet(TERN, job);
	bore_surveys(job, TERN "/surveys.csv");
	bore_withdraw(job, 33, "three joints too tight");
	bore_surveys(job, TERN "/surveys-redrill.csv");
}

#endif
