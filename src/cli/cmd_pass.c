/* sagbend pass: the hole is opened, pass by pass and joint by joint. */
#include "base/str.h"
#include "base/time.h"
#include "cli/commands.h"
#include "cli/entering.h"
#include "io/opening.h"

#include <stdio.h>

static const struct option options[] = {
	{ "kind", "ream|swab", "begin: what goes through the hole", false },
	{ "diameter", "D", "begin: of the tool, mm or inches", false },
	{ "to", "entry|exit", "begin: the side that it goes to; entry is the rig side", false },
	{ "tool", "TEXT", "begin: what it is", false },
	{ "joint", "N", "joint: which, as numbered in the pilot; left out: the next one", false },
	{ "pull", "F", "joint: axial load, kN or lbf, pulling positive", false },
	{ "torque", "T", "joint: rotary torque, kN m or ft lbf", false },
	{ "flow", "Q", "joint: fluid pumped, L/min or gal/min", false },
	{ "pressure", "P", "joint: pump pressure, kPa or psi", false },
	{ "annular", "P", "joint: annular pressure at the tool, kPa or psi", false },
	{ "started", "HH:MM", "joint: local time it began", false },
	{ "ended", "HH:MM", "joint: local time it was through", false },
	{ "returns", "full|partial|none", "joint: of the drilling fluid", false },
	{ "read", "FILE.csv", "joint: all joints of a file, of the pass that its column pass says", true },
	{ "remarks", "TEXT",
		"anything worth keeping; why, of a joint out of turn and of a pass that leaves joints behind",
		false },
	{ "pass", "N", "without a step: list the joints of pass N; left out: of the last", false },
	{ "json", NULL, "as JSON: the whole opening", false },
	OPTION_BY,
	OPTION_END,
};

static const char *remarks(const struct invocation *in)
{
	return sb_command_value(in, "remarks");
}

static int needs(const struct invocation *in, const char *option, const char *what, struct sb_err *err)
{
	return sb_command_value(in, option) ? 0
					    : sb_fail(err, SB_USAGE, "--%s is missing: %s.", option, what);
}

/* ---- the steps ---- */

static int begin(const struct invocation *in, struct sb_store *store, const char *who,
	char said[SB_OPENING_WHAT], struct sb_err *err)
{
	struct pass p = { 0 };

	if (needs(in, "kind", "ream or swab", err) || needs(in, "diameter", "the tool's", err) ||
		needs(in, "to", "entry or exit, the side that it goes to", err) ||
		sb_acting_fact(in, sb_fact_sort(ACT_PASS), &p, err))
		return -1;
	sb_opening_what_pass(sb_store_job(store), &p, said);
	return sb_store_enter(store, who, ACT_PASS, &p, said, remarks(in), err);
}

/* The pass that runs: its number and what is next. A copy; 0 as number with err when none does. */
static struct opening_pass running(const struct sb_store *store, struct sb_err *err)
{
	struct opening_pass p = { 0 };
	struct opening o;

	sb_opening_take(sb_store_job(store), &o);
	if (o.running)
		p = *o.running;
	else
		sb_fail(err, SB_STATE, "No pass runs: begin one first.");
	sb_opening_clear(&o);
	return p;
}

static int enter_joint(struct sb_store *store, const char *who, const struct pass_joint *j, const char *why,
	char said[SB_OPENING_WHAT], struct sb_err *err)
{
	sb_opening_what_joint(j, said);
	return sb_store_enter(store, who, ACT_PASS_JOINT, j, said, why, err);
}

static int one_joint(const struct invocation *in, struct sb_store *store, const char *who,
	char said[SB_OPENING_WHAT], struct sb_err *err)
{
	struct opening_pass p = running(store, err);
	struct pass_joint j = { .pass = p.number, .joint = p.next };
	int asked;

	if (p.number == 0)
		return -1;
	if (sb_command_value(in, "joint") && sb_acting_whole(in, "joint", 1, 1000000, &asked, err))
		return -1;
	if (p.next == 0 && sb_command_value(in, "joint") == NULL)
		return sb_fail(err, SB_STATE, "Pass %d is through all joints: end it.", p.number);
	if (sb_acting_fact(in, sb_fact_sort(ACT_PASS_JOINT), &j, err))
		return -1;
	j.pass = p.number;
	return enter_joint(store, who, &j, remarks(in), said, err);
}

static int enter_row(
	struct sb_store *store, const char *who, enum act_kind act, const struct entry *e, struct sb_err *err)
{
	char said[SB_OPENING_WHAT];

	(void)act;
	return enter_joint(store, who, &e->fact.pass_joint, e->remarks, said, err);
}

static int joints_of_file(const struct invocation *in, struct sb_store *store, const char *who,
	char said[SB_OPENING_WHAT], struct sb_err *err)
{
	static const enum act_kind acts[] = { ACT_PASS_JOINT };

	return sb_entering_file(in, store, who, acts, 1, enter_row, said, err);
}

static int joint(const struct invocation *in, struct sb_store *store, const char *who,
	char said[SB_OPENING_WHAT], struct sb_err *err)
{
	return (sb_command_value(in, "read") ? joints_of_file : one_joint)(in, store, who, said, err);
}

static int end(const struct invocation *in, struct sb_store *store, const char *who,
	char said[SB_OPENING_WHAT], struct sb_err *err)
{
	struct opening_pass p = running(store, err);
	struct pass_end e = { .pass = p.number };

	if (p.number == 0)
		return -1;
	sb_opening_what_end(&p, said);
	return sb_store_enter(store, who, ACT_PASS_END, &e, said, remarks(in), err);
}

static const struct step {
	const char *name, *done;
	int (*act)(const struct invocation *in, struct sb_store *store, const char *who,
		char said[SB_OPENING_WHAT], struct sb_err *err);
} steps[] = {
	{ "begin", "Begun", begin },
	{ "joint", "Opened", joint },
	{ "end", "Ended", end },
};

static const struct step *find_step(const char *name, struct sb_err *err)
{
	for (size_t i = 0; i < sizeof steps / sizeof *steps; i++)
		if (sb_same(steps[i].name, name))
			return &steps[i];
	sb_fail(err, SB_USAGE, "'%.40s' is no step of a pass: begin, joint or end.", name);
	return NULL;
}

/* ---- what is said ---- */

/* What is left now, in one line. */
static int say_done(const struct sb_store *store, const struct step *step, const char *said)
{
	struct opening o;
	struct sb_str left = { 0 };
	int status;

	sb_opening_take(sb_store_job(store), &o);
	if (o.running && o.running->next) {
		sb_opening_left_words(&o.running->best, &o.running->likely, &left);
		status = sb_acting_say(
			"%s: %s. Pass %d: %d of %d joints through, joint %d next. Time left: %s.", step->done,
			said, o.running->number, o.running->done, o.bore_joints, o.running->next,
			sb_str_get(&left));
	} else if (o.running) {
		status = sb_acting_say("%s: %s. Pass %d is through all %d joints: end it.", step->done, said,
			o.running->number, o.bore_joints);
	} else {
		status = sb_acting_say("%s: %s.", step->done, said);
	}
	sb_str_clear(&left);
	sb_opening_clear(&o);
	return status;
}

static int show(const struct invocation *in, const struct sb_store *store, bool done)
{
	const struct job *job = sb_store_job(store);
	struct sb_str out = { 0 };
	struct sb_err err = { 0 };
	int pass;

	if (sb_acting_pass(in, job, &pass, &err))
		return sb_command_fail(&err);
	if (sb_command_flag(in, "json"))
		sb_opening_json(job, &out);
	else
		sb_opening_text(job, pass, sb_time_now(), &out);
	return sb_acting_put(&out, done);
}

static int run(const struct invocation *in)
{
	struct sb_store *store = NULL;
	struct sb_err err = { 0 };
	char said[SB_OPENING_WHAT] = "";
	const char *who = "";
	const struct step *step = in->count > 1 ? find_step(in->positional[1], &err) : NULL;

	if (err.code || (step ? sb_acting_open(in, &store, &who, &err) : sb_acting_read(in, &store, &err)))
		return sb_command_fail(&err);
	int status = 0;
	if (step && step->act(in, store, who, said, &err)) {
		status = sb_command_fail(&err);
	} else {
		if (step)
			sb_acting_say_warnings(sb_store_solution(store));
		status = step && !sb_command_flag(in, "json") ? say_done(store, step, said)
							      : show(in, store, step != NULL);
	}
	sb_store_close(store);
	return status;
}

const struct command sb_cmd_pass = {
	.name = "pass",
	.arguments =
		"JOB.bore [STEP] [--kind ream|swab --diameter D --to entry|exit] [--joint N] [--pull F] [--torque T] [--remarks TEXT] [--by WHO] [--json]",
	.summary =
		"opening the hole: begins a pass, opens a joint, ends a pass; without a step, the passes as they stand",
	.detail =
		"STEP is begin, joint or end. No pass begins before the pilot is accepted. Joints are those of the pilot, 1 at the entry; "
		"one that is not next, or a pass that leaves joints behind, needs --remarks that say why. The list has volumes of ground "
		"and fluid, joints and hours left, best and likely, and the rules that are not kept ([opening] in the job sheet). A file "
		"has the columns pass, joint, pull, torque, flow, pressure, annular, started, ended, returns, remarks; in any order.",
	.least = 1,
	.most = 2,
	.options = options,
	.run = run,
};
