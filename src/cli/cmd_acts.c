/* sagbend withdraw, note, shift, acknowledge, strike: the short acts. */
#include "base/str.h"
#include "cli/acting.h"
#include "cli/commands.h"

#include <stdio.h>
#include <string.h>

/* ---- withdraw ---- */

static const struct option withdraw_options[] = {
	{ "to-joint", "N", "the last joint that stays in the ground; 0: all are out", false },
	{ "reason", "TEXT", "why", false },
	OPTION_BY,
	OPTION_END,
};

static int run_withdraw(const struct invocation *in)
{
	char reason[SB_REMARK_TEXT];
	struct sb_store *store = NULL;
	struct sb_err err = { 0 };
	const char *who;
	int joint;

	if (sb_acting_whole(in, "to-joint", 0, 1000000, &joint, &err) ||
		sb_acting_reason(in, true, reason, &err) || sb_acting_open(in, &store, &who, &err))
		return sb_command_fail(&err);
	int status = sb_store_withdraw(store, who, joint, reason, &err);
	int leg = sb_job_leg(sb_store_job(store));
	sb_store_close(store);
	return status ? sb_command_fail(&err)
		      : sb_acting_say("Pulled back to joint %d. Leg %d begins.", joint, leg);
}

const struct command sb_cmd_withdraw = {
	.name = "withdraw",
	.arguments = "JOB.bore --to-joint N --reason TEXT [--by WHO]",
	.summary = "pulls the string back to drill again; a new leg begins",
	.detail = "The joints withdrawn stay in the file as superseded.",
	.least = 1,
	.most = 1,
	.options = withdraw_options,
	.run = run_withdraw,
};

/* ---- note ---- */

static const struct option note_options[] = { OPTION_BY, OPTION_END };

static int run_note(const struct invocation *in)
{
	struct sb_store *store = NULL;
	struct sb_err err = { 0 };
	const char *who;

	if (sb_acting_open(in, &store, &who, &err))
		return sb_command_fail(&err);
	int status = sb_store_note(store, who, in->positional[1], &err);
	sb_store_close(store);
	return status ? sb_command_fail(&err) : sb_acting_say("Noted.");
}

const struct command sb_cmd_note = {
	.name = "note",
	.arguments = "JOB.bore TEXT [--by WHO]",
	.summary = "keeps a note with the joint that was drilled last",
	.detail = "",
	.least = 2,
	.most = 2,
	.options = note_options,
	.run = run_note,
};

/* ---- shift ---- */

static const struct option shift_options[] = {
	{ "begin", "NAMES", "the crew that takes over", false },
	{ "end", "REMARKS", "what the next shift should know", false },
	OPTION_BY,
	OPTION_END,
};

static int run_shift(const struct invocation *in)
{
	const char *begin = sb_command_value(in, "begin"), *end = sb_command_value(in, "end"), *who;
	struct sb_store *store = NULL;
	struct sb_err err = { 0 };

	if ((begin == NULL) == (end == NULL)) {
		sb_fail(&err, SB_USAGE, "Say either --begin NAMES or --end REMARKS.");
		return sb_command_fail(&err);
	}
	if (sb_acting_open(in, &store, &who, &err))
		return sb_command_fail(&err);
	int status = begin ? sb_store_shift_begin(store, who, begin, &err)
			   : sb_store_shift_end(store, who, end, &err);
	sb_store_close(store);
	return status ? sb_command_fail(&err)
		      : sb_acting_say(begin ? "The shift has begun." : "The shift has ended.");
}

const struct command sb_cmd_shift = {
	.name = "shift",
	.arguments = "JOB.bore --begin NAMES | --end REMARKS [--by WHO]",
	.summary = "begins or ends a shift",
	.detail = "Beginning one ends the one that runs.",
	.least = 1,
	.most = 1,
	.options = shift_options,
	.run = run_shift,
};

/* ---- acknowledge ---- */

static const struct option acknowledge_options[] = {
	{ "kind", "KIND", "of the warning, as check names it: corridor, window-bend ...", false },
	{ "joint", "N", "the joint where it began; the newest of its kind when left out", false },
	{ "reason", "TEXT", "why it is accepted", false },
	OPTION_BY,
	OPTION_END,
};

static int say_kinds(const char *name, struct sb_err *err)
{
	struct sb_str kinds = { 0 };

	for (int i = 0; i < WARNING_KINDS; i++)
		sb_str_add(&kinds, "%s%s", i ? ", " : "", sb_warning_sorts[i].name);
	if (name)
		sb_fail(err, SB_USAGE, "There is no kind of warning called '%.40s'. The kinds are: %s.", name,
			sb_str_get(&kinds));
	else
		sb_fail(err, SB_USAGE, "--kind KIND is missing: one of %s.", sb_str_get(&kinds));
	sb_str_clear(&kinds);
	return -1;
}

/* Returned: the index of the newest warning of the kind (and joint) that is not acknowledged yet; -1 with
 * err. */
static long find_warning(const struct invocation *in, const struct solution *s, struct sb_err *err)
{
	const char *name = sb_command_value(in, "kind");
	enum warning_kind kind;
	int joint = -1;

	if (name == NULL || sb_warning_kind_parse(name, &kind))
		return say_kinds(name, err);
	if (sb_command_value(in, "joint") && sb_acting_whole(in, "joint", 0, 1000000, &joint, err))
		return -1;
	for (size_t i = s->warning_count; i-- > 0;) {
		const struct warning *w = &s->warnings[i];
		bool of_joint = joint < 0 || (joint >= w->joint && joint <= w->last_joint);
		if (w->kind == kind && of_joint && !w->acknowledged && !w->superseded)
			return (long)i;
	}
	return sb_fail(err, SB_MISSING, "No %s warning%s waits to be acknowledged.", name,
		joint < 0 ? "" : " at that joint");
}

static int run_acknowledge(const struct invocation *in)
{
	char reason[SB_REMARK_TEXT];
	struct sb_store *store = NULL;
	struct sb_err err = { 0 };
	const char *who;

	if (sb_acting_reason(in, true, reason, &err) || sb_acting_open(in, &store, &who, &err))
		return sb_command_fail(&err);
	long at = find_warning(in, sb_store_solution(store), &err);
	int status = at < 0 ? -1 : sb_store_acknowledge(store, who, (size_t)at, reason, &err);
	status = status ? sb_command_fail(&err)
			: sb_acting_say("Acknowledged: %s", sb_store_solution(store)->warnings[at].text);
	sb_store_close(store);
	return status;
}

const struct command sb_cmd_acknowledge = {
	.name = "acknowledge",
	.arguments = "JOB.bore --kind KIND [--joint N] --reason TEXT [--by WHO]",
	.summary = "acknowledges a warning with a name and a reason",
	.detail =
		"It stays in the file and in every report. If it grows from watch to breach it is open again.",
	.least = 1,
	.most = 1,
	.options = acknowledge_options,
	.run = run_acknowledge,
};

/* ---- strike ---- */

static const struct option strike_options[] = {
	{ "entry", "N", "number of the entry, as history lists it", false },
	{ "reason", "TEXT", "why", false },
	OPTION_BY,
	OPTION_END,
};

static int run_strike(const struct invocation *in)
{
	char reason[SB_REMARK_TEXT];
	struct sb_store *store = NULL;
	struct sb_err err = { 0 };
	const char *who;
	int entry;

	if (sb_acting_whole(in, "entry", 1, 1000000000, &entry, &err) ||
		sb_acting_reason(in, true, reason, &err) || sb_acting_open(in, &store, &who, &err))
		return sb_command_fail(&err);
	int status = sb_store_strike(store, who, entry, reason, &err);
	sb_store_close(store);
	return status
		? sb_command_fail(&err)
		: sb_acting_say("Entry %d is struck out: it stays readable, and counts for nothing.", entry);
}

const struct command sb_cmd_strike = {
	.name = "strike",
	.arguments = "JOB.bore --entry N --reason TEXT [--by WHO]",
	.summary =
		"strikes out an entry that was a slip: of a pass, of the fluid, of the pipe string or the pull",
	.detail =
		"Nothing is erased: the entry stays in the file, marked, and counts for nothing; enter it again as it "
		"should be. What stands on it is struck out first. Readings of the pilot are corrected instead (correct).",
	.least = 1,
	.most = 1,
	.options = strike_options,
	.run = run_strike,
};
