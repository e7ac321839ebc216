/* sagbend path, check: what was drilled, and whether it holds. */
#include "base/str.h"
#include "cli/acting.h"
#include "cli/commands.h"
#include "io/checks.h"
#include "io/rows.h"

static const struct option path_options[] = {
	{ "every", "LENGTH", "instead of the joints: a row every so much of station, on the same arcs",
		false },
	{ "all-legs", NULL, "withdrawn joints too", false },
	{ "as-read", NULL, "without the correction that is in force: the path as it was read", false },
	{ "csv", NULL, "as CSV", false },
	{ "json", NULL, "as JSON", false },
	{ NULL, NULL, NULL, false },
};

static int run_path(const struct invocation *in)
{
	bool csv = sb_command_flag(in, "csv"), json = sb_command_flag(in, "json");
	struct rows_ask ask = { .all_legs = sb_command_flag(in, "all-legs") };
	const char *every = sb_command_value(in, "every");
	struct sb_store *store = NULL;
	struct sb_err err = { 0 };
	struct sb_str text = { 0 };
	struct number n = { 0 };

	if (csv && json)
		sb_fail(&err, SB_USAGE, "--csv or --json, not both.");
	else if (every && sb_number_parse(every, &n, &err))
		sb_fail(&err, SB_USAGE, "--every '%.40s' is not a length.", every);
	else if (every && ask.all_legs)
		sb_fail(&err, SB_USAGE, "--every goes along the present path: leave out --all-legs.");
	if (err.code)
		return sb_command_fail(&err);
	ask.every = n.value;
	if (every && !(ask.every > 0)) {
		sb_fail(&err, SB_USAGE, "--every %s cannot be: a length above 0 is right.", every);
		return sb_command_fail(&err);
	}
	if (sb_acting_read(in, &store, &err))
		return sb_command_fail(&err);
	enum rows_format format = csv ? ROWS_CSV : json ? ROWS_JSON : ROWS_TEXT;
	const struct job *job = sb_store_job(store);
	struct solution as_read = { 0 };
	int status = 0;
	if (sb_command_flag(in, "as-read"))
		status = sb_solve_with(job, NULL, &as_read, &err);
	if (status == 0)
		status = sb_rows_table(job,
			sb_command_flag(in, "as-read") ? &as_read : sb_store_solution(store), &ask, format,
			&text, &err);
	sb_solution_clear(&as_read);
	sb_store_close(store);
	if (status) {
		sb_str_clear(&text);
		return sb_command_fail(&err);
	}
	return sb_acting_put(&text, false);
}

const struct command sb_cmd_path = {
	.name = "path",
	.arguments = "JOB.bore [--every LENGTH] [--all-legs] [--as-read] [--csv | --json]",
	.summary = "the as-drilled path, joint by joint or at even stations",
	.detail =
		"In files: lengths in the job's unit, offset right positive, height high positive, dogleg in degrees over the "
		"course, radius blank when straight.",
	.least = 1,
	.most = 1,
	.options = path_options,
	.run = run_path,
};

static const struct option check_options[] = {
	{ "json", NULL, "as JSON", false },
	{ NULL, NULL, NULL, false },
};

static int run_check(const struct invocation *in)
{
	struct sb_store *store = NULL;
	struct sb_err err = { 0 };

	if (sb_acting_read(in, &store, &err))
		return sb_command_fail(&err);
	int verdict = (int)sb_store_solution(store)->level;
	int status = sb_acting_show(in, store, sb_checks_text, sb_checks_json, false);
	sb_store_close(store);
	return status ? status : verdict;
}

const struct command sb_cmd_check = {
	.name = "check",
	.arguments = "JOB.bore [--json]",
	.summary = "all limits, joint by joint; exit status 0 ok, 1 watch, 2 breach",
	.detail =
		"Withdrawn joints do not count. An acknowledged warning still counts: it was accepted, not undone.",
	.least = 1,
	.most = 1,
	.options = check_options,
	.run = run_check,
};
