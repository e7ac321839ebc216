/* sagbend log, whatif, correct: one joint's survey, for real, on trial, or put right. */
#include "base/str.h"
#include "base/time.h"
#include "cli/acting.h"
#include "cli/commands.h"
#include "io/json.h"
#include "io/rows.h"
#include "model/sixaxis.h"
#include "model/slides.h"

#include <stdio.h>
#include <string.h>

#define OPTION_VECTORS \
	{ "gravity", "X,Y,Z", "gravity along the tool's three axes, in the tool's unit", false }, \
	{ \
		"field", "X,Y,Z", "magnetic field along them, likewise", false \
	}

static const struct option log_options[] = {
	OPTION_VECTORS,
	{ "no-reading", NULL, "the joint was drilled and no reading taken: the path is carried over it",
		false },
	{ "bit-depth", "VALUE", "bit depth as read on the rig, to be held against the sum of the joints",
		false },
	{ "survey-depth", "VALUE", "depth of the sensor, likewise", false },
	{ "joint", "N", "number of the joint, to be held against the count", false },
	{ "reason", "TEXT", "why a reading is logged that looks like a slip", false },
	{ "json", NULL, "the new row and its warnings as JSON", false },
	OPTION_BY,
	OPTION_END,
};

static int take_depths(const struct invocation *in, struct depth_check *d, struct sb_err *err)
{
	const char *bit = sb_command_value(in, "bit-depth"), *survey = sb_command_value(in, "survey-depth");

	if (bit && sb_number_parse(bit, &d->bit_depth, err))
		return sb_fail_within(err, "--bit-depth: ");
	if (survey && sb_number_parse(survey, &d->survey_depth, err))
		return sb_fail_within(err, "--survey-depth: ");
	return 0;
}

/* A joint number that was said must be the next one. */
static int check_joint(const struct invocation *in, const struct job *job, struct sb_err *err)
{
	int next = sb_job_in_ground(job) + 1, said;

	if (sb_command_value(in, "joint") == NULL)
		return 0;
	if (sb_acting_whole(in, "joint", 1, 1000000, &said, err))
		return -1;
	if (said < next)
		return sb_fail(err, SB_STATE,
			"Joint %d is logged already; the next is %d. To change it: sagbend correct --joint %d",
			said, next, said);
	if (said > next)
		return sb_fail(
			err, SB_STATE, "Joint %d is not next: joint %d has not been logged.", said, next);
	return 0;
}

/* The reading that the options describe, complete: the tally's length where none was said. */
static int take_reading(
	const struct invocation *in, const struct job *job, struct reading *r, struct sb_err *err)
{
	bool without = sb_command_flag(in, "no-reading");

	memset(r, 0, sizeof *r);
	r->joint_length = sb_job_tally(job, sb_job_in_ground(job) + 1);
	r->at_ms = sb_time_now();
	if (sb_acting_fields(in, job->incline, r, err) || sb_acting_reason(in, false, r->reason, err) ||
		check_joint(in, job, err))
		return -1;
	if (!sb_number_given(&r->joint_length))
		r->joint_length = sb_job_tally(job, sb_job_in_ground(job) + 1);
	struct job now = sb_frame_settings(job, NULL);
	if (sb_sixaxis_fill(&now, r, err))
		return -1;
	if (without && (sb_number_given(&r->inclination) || sb_number_given(&r->azimuth)))
		return sb_fail(err, SB_USAGE, "--no-reading goes without --inclination and --azimuth.");
	if (!without && !sb_reading_taken(r))
		return sb_fail(err, SB_USAGE,
			"--inclination and --azimuth are needed. If no reading was taken, say --no-reading.");
	return sb_slides_check(r, err);
}

static void put_warnings(struct sb_json *j, const struct warning *warnings, size_t count)
{
	sb_json_array(j, "warnings");
	for (size_t i = 0; i < count; i++)
		if (warnings[i].open && !warnings[i].superseded)
			sb_rows_warning(j, &warnings[i]);
	sb_json_end(j);
}

/* What is told of a joint. */
struct told {
	const struct row *row;
	const struct bit *bit;
	const struct warning *warnings;
	size_t count;
	bool json;
	bool done; /* it was logged, not only tried */
};

/* Returns the exit status. */
static int tell(const struct job *job, const struct solution *s, const struct told *t)
{
	struct sb_json j = { 0 };
	struct sb_str text = { 0 };

	if (!t->json) {
		sb_rows_say(job, s, t->row, t->bit, &text);
		return sb_acting_put(&text, t->done);
	}
	sb_json_object(&j, NULL);
	sb_rows_json(&j, job, s, t->row);
	put_warnings(&j, t->warnings, t->count);
	sb_json_end(&j);
	return sb_acting_put(&j.text, t->done);
}

/* Of a joint that is in the file now: its row, and what is open. */
static int tell_done(const struct invocation *in, const struct sb_store *store, const struct row *row)
{
	const struct solution *s = sb_store_solution(store);
	struct told t = { row, sb_path_present(&s->path, row) ? &s->bit : NULL, s->warnings, s->warning_count,
		sb_command_flag(in, "json"), true };
	int status = tell(sb_store_job(store), s, &t);

	if (!t.json)
		sb_acting_say_warnings(s);
	return status;
}

static int log_it(const struct invocation *in, struct sb_store *store, const char *who, struct sb_err *err)
{
	const struct job *job = sb_store_job(store);
	struct depth_check depths = { 0 };
	struct reading r;

	if (take_reading(in, job, &r, err) || take_depths(in, &depths, err) ||
		sb_acting_look(job, sb_store_solution(store), &r, &depths, err))
		return -1;
	return sb_store_log(store, who, &r, err);
}

static int run_log(const struct invocation *in)
{
	struct sb_store *store = NULL;
	struct sb_err err = { 0 };
	const char *who;

	if (sb_acting_open(in, &store, &who, &err))
		return sb_command_fail(&err);
	int status = log_it(in, store, who, &err);
	status = status ? sb_command_fail(&err)
			: tell_done(in, store, sb_solution_last(sb_store_solution(store)));
	sb_store_close(store);
	return status;
}

const struct command sb_cmd_log = {
	.name = "log",
	.arguments = "JOB.bore --inclination I --azimuth A [...] [--by WHO]",
	.summary = "logs one joint's survey",
	.detail =
		"A reading that looks like a slip is held with exit status 3 and the likely value; --reason logs it as it is.",
	.least = 1,
	.most = 1,
	.options = log_options,
	.row_fields = true,
	.run = run_log,
};

/* ---- whatif ---- */

static const struct option whatif_options[] = {
	OPTION_VECTORS,
	{ "json", NULL, "the row and its warnings as JSON", false },
	OPTION_END,
};

/* What log would hold, or remark on. */
static void say_suspicions(const struct suspicion *found, size_t count)
{
	for (size_t i = 0; i < count; i++)
		fprintf(stderr, "sagbend: note: %s\n", found[i].text);
}

static int tell_trial(
	const struct invocation *in, const struct job *job, const struct solution *s, const struct preview *p)
{
	struct told t = { &p->row, &p->bit, p->warnings, p->warning_count, sb_command_flag(in, "json"),
		false };
	int status = tell(job, s, &t);

	for (size_t i = 0; i < p->warning_count && !t.json; i++)
		fprintf(stderr, "sagbend: %s: %s\n", sb_level_word(p->warnings[i].level),
			p->warnings[i].text);
	return status;
}

static int run_whatif(const struct invocation *in)
{
	struct sb_store *store = NULL;
	struct preview preview;
	struct sb_err err = { 0 };
	struct reading r;

	if (sb_acting_read(in, &store, &err))
		return sb_command_fail(&err);
	const struct job *job = sb_store_job(store);
	const struct solution *s = sb_store_solution(store);
	int status = take_reading(in, job, &r, &err);
	if (status == 0)
		status = sb_solve_preview(job, s, &r, &preview, &err);
	if (status == 0) {
		struct suspicion found[SB_SUSPICIONS] = { 0 };
		size_t count = sb_blunder_look(job, s, &r, NULL, found);
		say_suspicions(found, count);
	}
	status = status ? sb_command_fail(&err) : tell_trial(in, job, s, &preview);
	sb_store_close(store);
	return status;
}

const struct command sb_cmd_whatif = {
	.name = "whatif",
	.arguments = "JOB.bore --inclination I --azimuth A [...]",
	.summary = "shows what a reading would mean, and logs nothing",
	.detail = "",
	.least = 1,
	.most = 1,
	.options = whatif_options,
	.row_fields = true,
	.run = run_whatif,
};

/* ---- correct ---- */

static const struct option correct_options[] = {
	OPTION_VECTORS,
	{ "joint", "N", "the joint to put right", false },
	{ "leg", "N", "the leg that it was drilled in; the present path when left out", false },
	{ "reason", "TEXT", "why", false },
	{ "json", NULL, "the row and the open warnings as JSON", false },
	OPTION_BY,
	OPTION_END,
};

/* A row that says the same again would only be in the way of who reads the log later. */
static int check_changes(
	const struct invocation *in, const struct reading *old, const struct reading *r, struct sb_err *err)
{
	bool said = false;

	for (size_t i = 0; i < sb_row_field_count; i++) {
		const struct row_field *f = &sb_row_fields[i];
		said |= sb_command_value(in, f->option) != NULL;
		if (!sb_same(sb_row_field_get(f, old), sb_row_field_get(f, r)))
			return 0;
	}
	if (!said)
		return sb_fail(err, SB_USAGE, "Say what to correct, like --inclination 88.4 or --slid 12.");
	return sb_fail(err, SB_STATE, "Nothing would change: joint %d stands in the log like this already.",
		old->joint);
}

/* A correction can be mistyped too. It has its reason, so it is not held; it can be corrected again. */
static void say_slips(const struct job *job, const struct reading *old, const struct reading *r)
{
	struct suspicion found[SB_SUSPICIONS] = { 0 };
	size_t count = sb_blunder_look_again(job, old, r, found);

	say_suspicions(found, count);
}

/* Other vectors say other angles, where none are typed with them: as the tool of then showed them. */
static int work_out_again(const struct invocation *in, const struct job *job, const struct reading *old,
	struct reading *r, struct sb_err *err)
{
	static const char *const follow[] = { "inclination", "azimuth", "total-gravity", "total-field",
		"dip" };

	static const char *const said[] = { "gravity", "field", "gravity-x", "gravity-y", "gravity-z",
		"field-x", "field-y", "field-z" };
	bool other = false;

	for (size_t i = 0; i < sizeof said / sizeof *said; i++)
		other |= sb_command_value(in, said[i]) != NULL;
	if (!other)
		return 0;
	for (size_t i = 0; i < sizeof follow / sizeof *follow; i++)
		if (sb_command_value(in, follow[i]) == NULL &&
			sb_row_field_put(sb_row_field(follow[i]), r, job->incline, "", err))
			return -1;
	struct job then = sb_frame_settings(job, old);
	return sb_sixaxis_fill(&then, r, err);
}

static int correct_it(
	const struct invocation *in, struct sb_store *store, const char *who, int joint, struct sb_err *err)
{
	const struct job *job = sb_store_job(store);
	const struct reading *old = sb_job_joint(job, joint);
	int leg = 0;

	if (sb_command_value(in, "leg")) {
		if (sb_acting_whole(in, "leg", 1, 100000, &leg, err))
			return -1;
		old = sb_job_joint_in_leg(job, leg, joint);
	}
	if (old == NULL && leg)
		return sb_fail(err, SB_STATE, "Leg %d has no joint %d.", leg, joint);
	if (old == NULL)
		return sb_fail(err, SB_STATE, "Joint %d is not in the log.", joint);
	struct reading r = *old;
	if (sb_acting_reason(in, true, r.reason, err) || sb_acting_fields(in, job->incline, &r, err) ||
		work_out_again(in, job, old, &r, err) || check_changes(in, old, &r, err) ||
		sb_slides_check(&r, err))
		return -1;
	say_slips(job, old, &r);
	return sb_store_correct(store, who, old->id, &r, err);
}

/* The row that was corrected: of the leg that was said, else of the present path. */
static const struct row *find_row(const struct invocation *in, const struct solution *s, int joint)
{
	int leg = 0;

	if (sb_command_value(in, "leg"))
		sb_acting_whole(in, "leg", 1, 100000, &leg, NULL);
	return sb_path_row(&s->path, leg, joint);
}

static int run_correct(const struct invocation *in)
{
	struct sb_store *store = NULL;
	struct sb_err err = { 0 };
	const char *who;
	int joint;

	if (sb_acting_whole(in, "joint", 1, 1000000, &joint, &err) || sb_acting_open(in, &store, &who, &err))
		return sb_command_fail(&err);
	int status = correct_it(in, store, who, joint, &err);
	const struct row *row = status ? NULL : find_row(in, sb_store_solution(store), joint);
	if (status)
		status = sb_command_fail(&err);
	else
		status = row ? tell_done(in, store, row) : sb_acting_say("Joint %d is corrected.", joint);
	sb_store_close(store);
	return status;
}

const struct command sb_cmd_correct = {
	.name = "correct",
	.arguments = "JOB.bore --joint N --reason TEXT [--inclination I] [--azimuth A] [...] [--by WHO]",
	.summary = "corrects a joint: a new row beside the old one, with a reason and a name",
	.detail =
		"Only what is said changes; an empty value takes a field out. The old row stays in the file.",
	.least = 1,
	.most = 1,
	.options = correct_options,
	.row_fields = true,
	.run = run_correct,
};
