/* sagbend pull: the product pipe through the hole: what the pull waits for, its beginning, each joint of
 * drill pipe that comes out, its end; and what was measured beside what is estimated. */
#include "base/str.h"
#include "cli/commands.h"
#include "cli/entering.h"
#include "io/pullback.h"

#include <stdio.h>

static const struct option options[] = {
	{ "joint", "N", "joint: which came out, as numbered in the pilot; left out: the next one", false },
	{ "force", "F", "joint: the force at the rig, kN or lbf", false },
	{ "torque", "T", "joint: rotary torque, kN m or ft lbf", false },
	{ "flow", "Q", "joint: drilling fluid pumped, L/min or gal/min", false },
	{ "annular", "P", "joint: annular pressure at the pull head, kPa or psi", false },
	{ "started", "HH:MM", "joint: local time it began", false },
	{ "ended", "HH:MM", "joint: local time it was out", false },
	{ "read", "FILE.csv", "joint: all joints of a file", true },
	{ "coating", "sound|scratched|damaged", "end: how the coating came out", false },
	{ "extra", "L", "end: how much pipe was pulled out past the entry, to be looked at", false },
	{ "survey", "TEXT", "end: where the final survey is kept", false },
	{ "remarks", "TEXT",
		"anything worth keeping; why, where it begins or ends with something missing, or joints are passed over",
		false },
	{ "json", NULL, "as JSON: the whole pull", false },
	OPTION_BY,
	OPTION_END,
};

static const char *remarks(const struct invocation *in)
{
	return sb_command_value(in, "remarks");
}

/* ---- the steps ---- */

static int begin(const struct invocation *in, struct sb_store *store, const char *who,
	char what[SB_PULL_WHAT], struct sb_err *err)
{
	struct pull_begin b = { 0 };
	struct lacks lacks;

	sb_pullback_lacks(sb_store_job(store), &lacks);
	sb_lacks_say(&lacks, b.missing, sizeof b.missing);
	snprintf(what, SB_PULL_WHAT, "%s",
		*b.missing ? "the pull, with something missing" : "the pull, nothing is missing");
	return sb_store_enter(store, who, ACT_PULL, &b, "", remarks(in), err);
}

static int one_joint(const struct invocation *in, struct sb_store *store, const char *who,
	char what[SB_PULL_WHAT], struct sb_err *err)
{
	struct pull_joint j = { .joint = sb_pullback_next(sb_store_job(store)) };

	if (sb_command_value(in, "force") == NULL)
		return sb_fail(
			err, SB_USAGE, "--force F is missing: the force at the rig as the joint came out.");
	if (j.joint == 0 && sb_command_value(in, "joint") == NULL)
		return sb_fail(err, SB_STATE, "All joints are out: end the pull.");
	if (sb_acting_fact(in, sb_fact_sort(ACT_PULL_JOINT), &j, err))
		return -1;
	sb_pullback_what_joint(sb_store_job(store), &j, what);
	return sb_store_enter(store, who, ACT_PULL_JOINT, &j, what, remarks(in), err);
}

static int enter_row(
	struct sb_store *store, const char *who, enum act_kind act, const struct entry *e, struct sb_err *err)
{
	char what[SB_PULL_WHAT];

	sb_pullback_what_joint(sb_store_job(store), &e->fact.pull_joint, what);
	return sb_store_enter(store, who, act, &e->fact, what, e->remarks, err);
}

static int joints_of_file(const struct invocation *in, struct sb_store *store, const char *who,
	char what[SB_PULL_WHAT], struct sb_err *err)
{
	static const enum act_kind acts[] = { ACT_PULL_JOINT };

	return sb_entering_file(in, store, who, acts, 1, enter_row, what, err);
}

static int joint(const struct invocation *in, struct sb_store *store, const char *who,
	char what[SB_PULL_WHAT], struct sb_err *err)
{
	return (sb_command_value(in, "read") ? joints_of_file : one_joint)(in, store, who, what, err);
}

static int end(const struct invocation *in, struct sb_store *store, const char *who, char what[SB_PULL_WHAT],
	struct sb_err *err)
{
	struct pull_end e = { 0 };

	if (sb_command_value(in, "coating") == NULL)
		return sb_fail(err, SB_USAGE, "--coating is missing: sound, scratched or damaged.");
	if (sb_acting_fact(in, sb_fact_sort(ACT_PULL_END), &e, err))
		return -1;
	sb_pullback_what_end(sb_store_job(store), &e, what);
	int status = sb_store_enter(store, who, ACT_PULL_END, &e, what, remarks(in), err);
	*what = '\0'; /* all of it is said of the pull as it stands */
	return status;
}

static const struct step {
	const char *name, *done;
	int (*act)(const struct invocation *in, struct sb_store *store, const char *who,
		char what[SB_PULL_WHAT], struct sb_err *err);
} steps[] = {
	{ "begin", "Begun", begin },
	{ "joint", "Out", joint },
	{ "end", "Ended", end },
};

/* *step NULL: the pull is to be shown. */
static int find_step(const struct invocation *in, const struct step **step, struct sb_err *err)
{
	*step = NULL;
	if (in->count < 2)
		return sb_command_value(in, "force") || sb_command_value(in, "coating")
			? sb_fail(err, SB_USAGE,
				  "What of the pull? begin, joint or end after the job's name.")
			: 0;
	for (size_t i = 0; i < sizeof steps / sizeof *steps; i++)
		if (sb_same(steps[i].name, in->positional[1]))
			*step = &steps[i];
	return *step ? 0
		     : sb_fail(err, SB_USAGE, "'%.40s' is no step of the pull: begin, joint or end.",
			       in->positional[1]);
}

/* ---- what is said ---- */

static int say_done(const struct sb_store *store, const struct step *step, const char *what)
{
	struct sb_str words = { 0 };

	sb_pullback_now(sb_store_job(store), sb_store_solution(store), &words);
	int status = *what ? sb_acting_say("%s: %s. %s", step->done, what, sb_str_get(&words))
			   : sb_acting_say("%s", sb_str_get(&words));
	sb_str_clear(&words);
	sb_acting_say_warnings(sb_store_solution(store));
	return status;
}

static int run(const struct invocation *in)
{
	struct sb_store *store = NULL;
	struct sb_err err = { 0 };
	char what[SB_PULL_WHAT] = "";
	const char *who = "";
	const struct step *step;

	if (find_step(in, &step, &err) ||
		(step ? sb_acting_open(in, &store, &who, &err) : sb_acting_read(in, &store, &err)))
		return sb_command_fail(&err);
	int status;
	if (step && step->act(in, store, who, what, &err))
		status = sb_command_fail(&err);
	else if (step && !sb_command_flag(in, "json"))
		status = say_done(store, step, what);
	else
		status = sb_acting_show(in, store, sb_pullback_text, sb_pullback_json, step != NULL);
	sb_store_close(store);
	return status;
}

const struct command sb_cmd_pull = {
	.name = "pull",
	.arguments =
		"JOB.bore [STEP] [--joint N] [--force F] [--read FILE.csv] [--coating sound|scratched|damaged] [--extra L] [--remarks TEXT] [--by WHO] [--json]",
	.summary =
		"pulling the product pipe in: begins it, takes a joint's force, ends it; without a step, forces beside the estimate",
	.detail =
		"STEP is begin, joint or end. It begins when the pilot is accepted, the hole open and nothing of the string is missing, or "
		"when --remarks say why it begins all the same. Joints come out in falling order: with joint 1 the pull head is at the "
		"entry. A file has the columns joint, force, torque, flow, annular, started, ended, remarks, in any order.",
	.least = 1,
	.most = 2,
	.options = options,
	.run = run,
};
