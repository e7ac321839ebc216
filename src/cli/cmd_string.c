/* sagbend string: the product pipe's string, its joints and the records that the pull waits for. */
#include "base/str.h"
#include "cli/commands.h"
#include "cli/entering.h"
#include "io/pipe_string.h"

#include <stdio.h>

static const struct option options[] = {
	{ "joint", "N",
		"joint: which, 1 behind the pull head; left out: the next one. weld, inspection: N lies between joints N and N + 1. coating: of which joint",
		false },
	{ "length", "L", "joint: its measured length", false },
	{ "mark", "TEXT", "joint: what is painted on it, heat or pipe number", false },
	{ "outcome", "good|bad", "of a record: what came of it", false },
	{ "pressure", "P", "test: that was held, kPa or psi", false },
	{ "hours", "H", "test: for how long", false },
	{ "reference", "TEXT", "of a record: where it is kept", false },
	{ "read", "FILE.csv", "without a step: all joints, or all records, of a file", true },
	{ "remarks", "TEXT", "anything worth keeping", false },
	{ "json", NULL, "as JSON: the whole string", false },
	OPTION_BY,
	OPTION_END,
};

/* ---- one entry ---- */

static int next_joint(const struct job *job)
{
	int last = 0;

	for (size_t i = 0; i < job->pipe_count; i++)
		if (!job->pipes[i].struck && job->pipes[i].joint > last)
			last = job->pipes[i].joint;
	return last + 1;
}

static int enter_pipe(const struct invocation *in, struct sb_store *store, const char *who,
	char what[SB_STRING_WHAT], struct sb_err *err)
{
	struct pipe p = { .joint = next_joint(sb_store_job(store)) };

	if (sb_command_value(in, "length") == NULL)
		return sb_fail(err, SB_USAGE, "--length L is missing: how long the joint is, as measured.");
	if (sb_acting_fact(in, sb_fact_sort(ACT_PIPE), &p, err))
		return -1;
	sb_pipe_string_what_pipe(sb_store_job(store), &p, what);
	return sb_store_enter(store, who, ACT_PIPE, &p, what, sb_command_value(in, "remarks"), err);
}

static int enter_record(const struct invocation *in, struct sb_store *store, const char *who,
	enum pipe_record_kind kind, char what[SB_STRING_WHAT], struct sb_err *err)
{
	struct pipe_record r = { .kind = kind };
	bool whole = kind == RECORD_TEST || kind == RECORD_DRAG;

	if (sb_command_value(in, "outcome") == NULL)
		return sb_fail(err, SB_USAGE, "--outcome is missing: good or bad.");
	if (!whole && sb_command_value(in, "joint") == NULL)
		return sb_fail(err, SB_USAGE, "--joint N is missing: of which it is the record.");
	if (sb_acting_fact(in, sb_fact_sort(ACT_PIPE_RECORD), &r, err))
		return -1;
	sb_pipe_string_what_record(sb_store_job(store), &r, what);
	return sb_store_enter(store, who, ACT_PIPE_RECORD, &r, what, sb_command_value(in, "remarks"), err);
}

/* ---- a file of them ---- */

static int enter_row(
	struct sb_store *store, const char *who, enum act_kind act, const struct entry *e, struct sb_err *err)
{
	char what[SB_STRING_WHAT];

	if (act == ACT_PIPE)
		sb_pipe_string_what_pipe(sb_store_job(store), &e->fact.pipe, what);
	else
		sb_pipe_string_what_record(sb_store_job(store), &e->fact.pipe_record, what);
	return sb_store_enter(store, who, act, &e->fact, what, e->remarks, err);
}

static int enter_file(const struct invocation *in, struct sb_store *store, const char *who,
	char what[SB_STRING_WHAT], struct sb_err *err)
{
	static const enum act_kind acts[] = { ACT_PIPE, ACT_PIPE_RECORD };

	return sb_entering_file(in, store, who, acts, 2, enter_row, what, err);
}

/* ---- the steps ---- */

/* Of records in the order of enum pipe_record_kind. */
static const char *const steps[] = { "weld", "inspection", "coating", "test", "drag", "joint" };
enum { STEPS = sizeof steps / sizeof *steps, STEP_JOINT = STEPS - 1, STEP_NONE = STEPS };

static int find_step(const struct invocation *in, int *step, struct sb_err *err)
{
	bool named = in->count > 1;

	for (*step = 0; named && *step < STEPS && !sb_same(steps[*step], in->positional[1]);)
		++*step;
	if (!named)
		*step = STEP_NONE;
	else if (*step == STEP_NONE)
		return sb_fail(err, SB_USAGE,
			"'%.40s' is no step of the string: joint, weld, inspection, coating, test or drag.",
			in->positional[1]);
	if (named && sb_command_value(in, "read"))
		return sb_fail(err, SB_USAGE, "--read stands alone: the file says what its rows are.");
	if (!named && (sb_command_value(in, "length") || sb_command_value(in, "outcome")))
		return sb_fail(err, SB_USAGE,
			"Of what? joint, weld, inspection, coating, test or drag after the job's name.");
	return 0;
}

static int act_on_string(const struct invocation *in, struct sb_store *store, const char *who, int step,
	char what[SB_STRING_WHAT], struct sb_err *err)
{
	if (step == STEP_NONE)
		return enter_file(in, store, who, what, err);
	if (step == STEP_JOINT)
		return enter_pipe(in, store, who, what, err);
	return enter_record(in, store, who, (enum pipe_record_kind)step, what, err);
}

/* What was entered, and what is missing now. */
static int say_entered(const struct sb_store *store, const char *what)
{
	struct pipe_string p;
	char missing[600];

	sb_pipe_string_look(sb_store_job(store), &p);
	sb_lacks_say(&p.lacks, missing, sizeof missing);
	sb_pipe_string_clear(&p);
	return *missing ? sb_acting_say("Entered: %s. Missing: %s.", what, missing)
			: sb_acting_say("Entered: %s. Nothing of the string is missing.", what);
}

static int run(const struct invocation *in)
{
	struct sb_store *store = NULL;
	struct sb_err err = { 0 };
	char what[SB_STRING_WHAT] = "";
	const char *who = "";
	int step;

	if (find_step(in, &step, &err))
		return sb_command_fail(&err);
	bool acts = step != STEP_NONE || sb_command_value(in, "read");
	if (acts ? sb_acting_open(in, &store, &who, &err) : sb_acting_read(in, &store, &err))
		return sb_command_fail(&err);
	int status = acts ? act_on_string(in, store, who, step, what, &err) : 0;
	if (status)
		status = sb_command_fail(&err);
	else if (acts && !sb_command_flag(in, "json"))
		status = say_entered(store, what);
	else
		status = sb_acting_show(in, store, sb_pipe_string_text, sb_pipe_string_json, acts);
	sb_store_close(store);
	return status;
}

const struct command sb_cmd_string = {
	.name = "string",
	.arguments =
		"JOB.bore [STEP] [--joint N] [--length L] [--outcome good|bad] [--reference TEXT] [--read FILE.csv] [--by WHO] [--json]",
	.summary =
		"the product pipe's string: enters joints and records; without a step, what of it the pull waits for",
	.detail =
		"STEP is joint, weld, inspection, coating, test or drag. Which records are asked for is the contract's word ([string] in "
		"the job sheet). The last word on each holds: what was bad is open until a good record follows. A file has the columns "
		"joint, length, mark; or kind, joint, outcome, pressure, hours, reference; and remarks; in any order. All of it is looked "
		"at before the first row is entered.",
	.least = 1,
	.most = 2,
	.options = options,
	.run = run,
};
