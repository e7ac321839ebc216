/* sagbend string: the product pipe's string, its joints and the records that the pull waits for. */
#include "base/str.h"
#include "cli/acting.h"
#include "cli/commands.h"
#include "io/entries.h"
#include "io/pipe_string.h"

#include <stdio.h>

/* The acts; of records, in the order of enum pipe_record_kind. */
static const char *const records[] = { "weld", "inspection", "coating", "test", "drag" };
#define RECORDS (sizeof records / sizeof *records)

static const struct option options[] = {
	{ "joint", "N", "joint N is laid out, 1 behind the pull head. Needs --length", false },
	{ "length", "L", "its measured length", false },
	{ "mark", "TEXT", "what is painted on it: heat, pipe number", false },
	{ "weld", "N",
		"record of the weld or fusion between joints N and N + 1. Needs --outcome, as all records do",
		false },
	{ "inspection", "N", "record of the inspection of weld N", false },
	{ "coating", "N", "record of the test of joint N's coating", false },
	{ "test", NULL, "record of the string's pressure test, with --pressure and --hours", false },
	{ "drag", NULL, "record of the drag section", false },
	{ "outcome", "good|bad", "what came of it", false },
	{ "pressure", "P", "that the test held, kPa or psi", false },
	{ "hours", "H", "for how long it did", false },
	{ "reference", "TEXT", "where the record is kept", false },
	{ "read", "FILE", "enter the joints, or the records, of a CSV file", true },
	{ "remarks", "TEXT", "anything worth keeping", false },
	{ "json", NULL, "as JSON: the whole string", false },
	OPTION_BY,
	OPTION_END,
};

static bool said(const struct invocation *in, const char *name)
{
	return sb_command_value(in, name) != NULL || sb_command_flag(in, name);
}

/* ---- one entry ---- */

static int enter_pipe(const struct invocation *in, struct sb_store *store, const char *who,
	char what[SB_STRING_WHAT], struct sb_err *err)
{
	struct pipe p = { 0 };

	if (sb_command_value(in, "length") == NULL)
		return sb_fail(err, SB_USAGE, "--length L is missing: how long the joint is, as measured.");
	if (sb_acting_fact(in, sb_fact_sort(ACT_PIPE), &p, err))
		return -1;
	sb_pipe_string_what_pipe(sb_store_job(store), &p, what);
	return sb_store_enter(store, who, ACT_PIPE, &p, what, sb_command_value(in, "remarks"), err);
}

static int enter_record(const struct invocation *in, struct sb_store *store, const char *who, size_t kind,
	char what[SB_STRING_WHAT], struct sb_err *err)
{
	struct pipe_record r = { .kind = (enum pipe_record_kind)kind };
	bool whole = kind == RECORD_TEST || kind == RECORD_DRAG;

	if (sb_command_value(in, "outcome") == NULL)
		return sb_fail(err, SB_USAGE, "--outcome is missing: good or bad.");
	if (sb_acting_fact(in, sb_fact_sort(ACT_PIPE_RECORD), &r, err) ||
		(!whole && sb_acting_whole(in, records[kind], 1, 1000000, &r.joint, err)))
		return -1;
	sb_pipe_string_what_record(sb_store_job(store), &r, what);
	return sb_store_enter(store, who, ACT_PIPE_RECORD, &r, what, sb_command_value(in, "remarks"), err);
}

/* ---- a file of them ---- */

static int enter_one(
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
	const char *path = sb_command_value(in, "read");
	struct sb_problems problems = { 0 };
	struct entries entries = { 0 };
	size_t done = 0;

	if (sb_acting_there(path, err))
		return -1;
	int status = sb_entries_read(path, sb_store_job(store), acts, 2, &entries, &problems);
	sb_acting_say_problems(&problems);
	if (status)
		sb_fail(err, SB_FORMAT, "%.200s has %zu error%s, listed above. Nothing was entered.", path,
			problems.errors, problems.errors == 1 ? "" : "s");
	for (; status == 0 && done < entries.count; done++) {
		status = enter_one(store, who, entries.act, &entries.list[done], err);
		if (status)
			sb_fail_within(err, "%zu of %zu rows are entered; then, at line %d: ", done,
				entries.count, entries.list[done].line);
	}
	snprintf(what, SB_STRING_WHAT, "%zu %s%s of %.120s", done,
		entries.act == ACT_PIPE ? "joint" : "record", done == 1 ? "" : "s", path);
	sb_problems_clear(&problems);
	sb_entries_clear(&entries);
	return status;
}

/* ---- */

static int act_on_string(const struct invocation *in, struct sb_store *store, const char *who,
	char what[SB_STRING_WHAT], struct sb_err *err)
{
	if (said(in, "read"))
		return enter_file(in, store, who, what, err);
	if (said(in, "joint"))
		return enter_pipe(in, store, who, what, err);
	for (size_t kind = 0; kind < RECORDS; kind++)
		if (said(in, records[kind]))
			return enter_record(in, store, who, kind, what, err);
	return 0;
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
	int acts = said(in, "joint") + said(in, "read");

	for (size_t kind = 0; kind < RECORDS; kind++)
		acts += said(in, records[kind]);
	if (acts > 1)
		sb_fail(&err, SB_USAGE,
			"One at a time: --joint, --weld, --inspection, --coating, --test, --drag or --read.");
	if (acts == 0 && (said(in, "length") || said(in, "outcome")))
		sb_fail(&err, SB_USAGE,
			"Of what? --joint N, --weld N, --inspection N, --coating N, --test or --drag.");
	if (err.code || (acts ? sb_acting_open(in, &store, &who, &err) : sb_acting_read(in, &store, &err)))
		return sb_command_fail(&err);
	int status = act_on_string(in, store, who, what, &err);
	if (status)
		status = sb_command_fail(&err);
	else if (acts && !sb_command_flag(in, "json"))
		status = say_entered(store, what);
	else
		status = sb_acting_show(in, store, sb_pipe_string_text, sb_pipe_string_json, acts > 0);
	sb_store_close(store);
	return status;
}

const struct command sb_cmd_string = {
	.name = "string",
	.arguments =
		"JOB.bore [--joint N --length L | --weld N | --inspection N | --coating N | --test | --drag | --read FILE] [--outcome good|bad] [--by WHO] [--json]",
	.summary = "the product pipe's string: joints, welds, tests, and what the pull still waits for",
	.detail =
		"Which records are asked for is the contract's word ([string] in the job sheet). The last word on each holds: what was "
		"bad is open until a good record follows. A file has the columns joint, length, mark; or kind, joint, outcome, pressure, "
		"hours, reference; and remarks; in any order. All of it is looked at before the first row is entered.",
	.least = 1,
	.most = 1,
	.options = options,
	.run = run,
};
