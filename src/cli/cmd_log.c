/* sagbend log, whatif, correct: one joint's survey, for real, on trial, or put right. */
#include "base/str.h"
#include "base/time.h"
#include "cli/acting.h"
#include "cli/commands.h"
#include "io/json.h"
#include "io/rows.h"

#include <stdio.h>
#include <string.h>

static const struct option log_options[] = {
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
	if (sb_acting_fields(in, job->incline, r, err) || sb_acting_reason(in, r->reason, err) ||
		check_joint(in, job, err))
		return -1;
	if (!sb_number_given(&r->joint_length))
		r->joint_length = sb_job_tally(job, sb_job_in_ground(job) + 1);
	if (without && (sb_number_given(&r->inclination) || sb_number_given(&r->azimuth)))
		return sb_fail(err, SB_USAGE, "--no-reading goes without --inclination and --azimuth.");
	if (!without && !sb_reading_taken(r))
		return sb_fail(err, SB_USAGE,
			"--inclination and --azimuth are needed. If no reading was taken, say --no-reading.");
	return 0;
}

static void put_warnings(struct sb_json *j, const struct warning *warnings, size_t count)
{
	sb_json_array(j, "warnings");
	for (size_t i = 0; i < count; i++)
		if (warnings[i].open && !warnings[i].superseded)
			sb_rows_warning(j, &warnings[i]);
	sb_json_end(j);
}

static void print_row(const struct job *job, const struct solution *s, const struct row *row,
	const struct bit *bit, const struct warning *warnings, size_t count, bool json)
{
	struct sb_json j = { 0 };
	struct sb_str text = { 0 };

	if (json) {
		sb_json_object(&j, NULL);
		sb_rows_json(&j, job, s, row);
		put_warnings(&j, warnings, count);
		sb_json_end(&j);
		fputs(sb_str_get(&j.text), stdout);
		sb_str_clear(&j.text);
		return;
	}
	sb_rows_say(job, s, row, bit, &text);
	fputs(sb_str_get(&text), stdout);
	sb_str_clear(&text);
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
	if (status == 0) {
		const struct solution *s = sb_store_solution(store);
		bool json = sb_command_flag(in, "json");
		print_row(sb_store_job(store), s, sb_solution_last(s), &s->bit, s->warnings, s->warning_count,
			json);
		if (!json)
			sb_acting_say_warnings(s);
	}
	sb_store_close(store);
	return status ? sb_command_fail(&err) : EXIT_OK;
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
	{ "json", NULL, "the row and its warnings as JSON", false },
	OPTION_END,
};

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
		bool json = sb_command_flag(in, "json");
		print_row(job, s, &preview.row, &preview.bit, preview.warnings, preview.warning_count, json);
		for (size_t i = 0; i < preview.warning_count && !json; i++)
			printf("%s: %s\n", sb_level_word(preview.warnings[i].level),
				preview.warnings[i].text);
	}
	sb_store_close(store);
	return status ? sb_command_fail(&err) : EXIT_OK;
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
	{ "joint", "N", "the joint to put right", false },
	{ "leg", "N", "the leg that it was drilled in; the present path when left out", false },
	{ "reason", "TEXT", "why", false },
	{ "json", NULL, "the row and the open warnings as JSON", false },
	OPTION_BY,
	OPTION_END,
};

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
	if (sb_acting_reason(in, r.reason, err))
		return -1;
	if (sb_acting_fields(in, job->incline, &r, err))
		return -1;
	return sb_store_correct(store, who, old->id, &r, err);
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
	const struct solution *s = sb_store_solution(store);
	if (status == 0 && !sb_command_value(in, "leg") && (size_t)joint < s->path.count) {
		bool json = sb_command_flag(in, "json");
		print_row(sb_store_job(store), s, &s->path.rows[joint], &s->bit, s->warnings,
			s->warning_count, json);
		if (!json)
			sb_acting_say_warnings(s);
	} else if (status == 0) {
		printf("Joint %d is corrected.\n", joint);
	}
	sb_store_close(store);
	return status ? sb_command_fail(&err) : EXIT_OK;
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
