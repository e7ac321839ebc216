/* sagbend nonconformance, acceptance: what came of every breach, and the pilot's hold point. */
#include "base/str.h"
#include "cli/acting.h"
#include "cli/commands.h"
#include "io/acceptance.h"

#include <string.h>

static const char *given(const struct invocation *in, const char *option)
{
	const char *value = sb_command_value(in, option);

	return value ? value : "";
}

/* How many of the options were said. */
static int said(const struct invocation *in, const char *const *options)
{
	int count = 0;

	for (; *options; options++)
		count += sb_command_value(in, *options) != NULL || sb_command_flag(in, *options);
	return count;
}

/* ---- nonconformance ---- */

static const char *const breach_acts[] = { "accept", "back", NULL };

static const struct option breach_options[] = {
	{ "accept", "N", "number N is accepted as it stands now. Needs --reference and --reason", false },
	{ "back", "N", "number N, accepted before, is open again. Needs --reason", false },
	{ "reference", "TEXT", "the calculation or letter that the acceptance rests on", false },
	{ "reason", "TEXT", "why", false },
	{ "json", NULL, "as JSON", false },
	OPTION_BY,
	OPTION_END,
};

static int act_on_breach(
	const struct invocation *in, struct sb_store *store, const char *who, struct sb_err *err)
{
	bool accept = sb_command_value(in, "accept") != NULL;
	int number;

	if (sb_acting_whole(in, accept ? "accept" : "back", 1, 1000000, &number, err))
		return -1;
	return accept ? sb_store_accept(store, who, number, given(in, "reference"), given(in, "reason"), err)
		      : sb_store_accept_back(store, who, number, given(in, "reason"), err);
}

static int run_breach(const struct invocation *in)
{
	int acts = said(in, breach_acts);
	struct sb_store *store = NULL;
	struct sb_err err = { 0 };
	const char *who = "";

	if (acts > 1)
		sb_fail(&err, SB_USAGE, "--accept or --back, not both.");
	if (err.code || (acts ? sb_acting_open(in, &store, &who, &err) : sb_acting_read(in, &store, &err)))
		return sb_command_fail(&err);
	int status = acts && act_on_breach(in, store, who, &err)
		? sb_command_fail(&err)
		: sb_acting_show(in, store, sb_nonconformances_text, sb_nonconformances_json, acts > 0);
	sb_store_close(store);
	return status;
}

const struct command sb_cmd_nonconformance = {
	.name = "nonconformance",
	.arguments =
		"JOB.bore [--accept N --reference TEXT --reason TEXT | --back N --reason TEXT] [--by WHO] [--json]",
	.summary =
		"every breach of a limit, and what came of it: open, accepted by the engineer, or redrilled",
	.detail =
		"A breach opens one by itself, and nothing removes it: its joints are redrilled, or the engineer accepts it as it stood then. "
		"One that grows after that is open again. The pilot cannot be accepted while one is open.",
	.least = 1,
	.most = 1,
	.options = breach_options,
	.run = run_breach,
};

/* ---- acceptance ---- */

static const char *const pilot_acts[] = { "tick", "untick", "sign", "reopen", NULL };

static const struct option pilot_options[] = {
	{ "tick", "N", "point N of the contract's checklist is done; --reference says where it is kept",
		false },
	{ "untick", "N", "point N is not done after all. Needs --reason", false },
	{ "sign", NULL, "accept the pilot. Needs --capacity and --statement", false },
	{ "capacity", "TEXT", "in which who signs: engineer of the owner", false },
	{ "statement", "TEXT", "what is signed", false },
	{ "reopen", NULL, "open an accepted pilot again. Needs --reason", false },
	{ "reference", "TEXT", "where it is kept", false },
	{ "reason", "TEXT", "why", false },
	{ "json", NULL, "as JSON", false },
	OPTION_BY,
	OPTION_END,
};

static int act_on_pilot(
	const struct invocation *in, struct sb_store *store, const char *who, struct sb_err *err)
{
	bool tick = sb_command_value(in, "tick") != NULL;
	int number;

	if (sb_command_flag(in, "sign"))
		return sb_store_sign(store, who, given(in, "capacity"), given(in, "statement"), err);
	if (sb_command_flag(in, "reopen"))
		return sb_store_reopen(store, who, given(in, "reason"), err);
	if (sb_acting_whole(in, tick ? "tick" : "untick", 1, 1000000, &number, err))
		return -1;
	return sb_store_tick(store, who, number, tick, given(in, "reference"), given(in, "reason"), err);
}

static int run_pilot(const struct invocation *in)
{
	int acts = said(in, pilot_acts);
	struct sb_store *store = NULL;
	struct sb_err err = { 0 };
	const char *who = "";

	if (acts > 1)
		sb_fail(&err, SB_USAGE, "One at a time: --tick, --untick, --sign or --reopen.");
	if (err.code || (acts ? sb_acting_open(in, &store, &who, &err) : sb_acting_read(in, &store, &err)))
		return sb_command_fail(&err);
	int status = acts && act_on_pilot(in, store, who, &err)
		? sb_command_fail(&err)
		: sb_acting_show(in, store, sb_acceptance_text, sb_acceptance_json, acts > 0);
	sb_store_close(store);
	return status;
}

const struct command sb_cmd_acceptance = {
	.name = "acceptance",
	.arguments =
		"JOB.bore [--tick N | --untick N | --sign --capacity TEXT --statement TEXT | --reopen --reason TEXT] [--by WHO] [--json]",
	.summary = "the pilot's hold point: what is asked, what is missing, and the signature",
	.detail =
		"An accepted pilot is closed: joints, corrections, fixes and every other act on it are refused until somebody opens it again with a reason. "
		"Notes, acknowledgements and shifts go on.",
	.least = 1,
	.most = 1,
	.options = pilot_options,
	.run = run_pilot,
};
