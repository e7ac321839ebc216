/* sagbend fluid: annular pressure along the bore, and what the drilling fluid did. */
#include "base/str.h"
#include "cli/acting.h"
#include "cli/commands.h"
#include "io/fluid.h"

#include <stdio.h>

static const struct option options[] = {
	{ "station", "S", "where; left out: at the bit or the tool", false },
	{ "volume", "V", "how much, lost or released: m3 or gal", false },
	{ "place", "TEXT", "release: where it came up", false },
	{ "receiving", "TEXT", "release: what it ran into: land, wetland, water", false },
	{ "told", "TEXT", "release: who was told, and when", false },
	{ "done", "TEXT", "release: how it was contained and cleaned up", false },
	{ "release", "N", "record: of which release", false },
	{ "remarks", "TEXT", "anything worth keeping", false },
	{ "pass", "N", "without an event: show this pass beside the pilot; left out: the last", false },
	{ "design", NULL, "without an event: along the design line, not as it was drilled", false },
	{ "json", NULL, "as JSON", false },
	OPTION_BY,
	OPTION_END,
};

/* The word of the command line that says what is entered, and how many words it takes. */
static int find_kind(const struct invocation *in, struct fluid_event *e, struct sb_err *err)
{
	const char *word = in->positional[1], *level = in->count > 2 ? in->positional[2] : NULL;
	bool returns = sb_same(word, "returns");

	for (int k = returns ? FLUID_FULL : FLUID_LOSS; k <= (returns ? FLUID_NONE : FLUID_RECORD); k++)
		if (sb_same(sb_fluid_event_name((enum fluid_event_kind)k),
			    returns ? (level ? level : "") : word)) {
			e->kind = (enum fluid_event_kind)k;
			return level && !returns ? sb_fail(err, SB_USAGE, "'%.40s' is too much.", level) : 0;
		}
	if (returns)
		return sb_fail(err, SB_USAGE, "Returns are full, partial or none: say which behind it.");
	return sb_fail(err, SB_USAGE, "'%.40s' is no event: returns, loss, release or record.", word);
}

/* What only a release, or the record of one, has. */
static int check_options(const struct invocation *in, const struct fluid_event *e, struct sb_err *err)
{
	static const char *const of_releases[] = { "place", "receiving", "told", "done" };
	bool release = e->kind == FLUID_RELEASE || e->kind == FLUID_RECORD;

	for (size_t i = 0; i < sizeof of_releases / sizeof *of_releases && !release; i++)
		if (sb_command_value(in, of_releases[i]))
			return sb_fail(err, SB_USAGE, "--%s is of a release, or of the record of one.",
				of_releases[i]);
	if (e->kind <= FLUID_NONE && sb_command_value(in, "volume"))
		return sb_fail(err, SB_USAGE, "--volume is of a loss or a release.");
	if (e->kind != FLUID_RECORD && sb_command_value(in, "release"))
		return sb_fail(err, SB_USAGE, "--release N goes with record.");
	return 0;
}

static int enter(const struct invocation *in, struct sb_store *store, const char *who, struct fluid_event *e,
	struct sb_err *err)
{
	char what[SB_FLUID_WHAT];

	if (sb_acting_fact(in, sb_fact_sort(ACT_RETURNS), e, err))
		return -1;
	if (e->kind == FLUID_RECORD && sb_acting_whole(in, "release", 1, 1000000, &e->of, err))
		return -1;
	sb_fluid_what(sb_store_job(store), e, what);
	return sb_store_enter(store, who, ACT_RETURNS, e, what, sb_command_value(in, "remarks"), err);
}

static int show(const struct invocation *in, const struct sb_store *store, bool done)
{
	const struct job *job = sb_store_job(store);
	struct sb_str out = { 0 };
	struct sb_err err = { 0 };
	int pass;

	if (sb_acting_pass(in, job, &pass, &err))
		return sb_command_fail(&err);
	(sb_command_flag(in, "json") ? sb_fluid_json : sb_fluid_text)(
		job, sb_store_solution(store), pass, sb_command_flag(in, "design"), &out);
	return sb_acting_put(&out, done);
}

static int say_done(const struct sb_store *store, const struct fluid_event *e)
{
	char what[SB_FLUID_WHAT];

	sb_fluid_what(sb_store_job(store), e, what);
	sb_acting_say_warnings(sb_store_solution(store));
	return sb_acting_say("Entered: %s.", what);
}

static int run(const struct invocation *in)
{
	struct sb_store *store = NULL;
	struct sb_err err = { 0 };
	struct fluid_event e = { 0 };
	const char *who = "";
	bool act = in->count > 1;

	if ((act && (find_kind(in, &e, &err) || check_options(in, &e, &err))) ||
		(act ? sb_acting_open(in, &store, &who, &err) : sb_acting_read(in, &store, &err)))
		return sb_command_fail(&err);
	int status = act && enter(in, store, who, &e, &err) ? sb_command_fail(&err)
		: act && !sb_command_flag(in, "json")	    ? say_done(store, &e)
							    : show(in, store, act);
	sb_store_close(store);
	return status;
}

const struct command sb_cmd_fluid = {
	.name = "fluid",
	.arguments =
		"JOB.bore [EVENT [LEVEL]] [--release N] [--station S] [--volume V] [--place TEXT] [--remarks TEXT] [--by WHO] [--json]",
	.summary =
		"annular pressure along the bore against what the ground bears, and what the drilling fluid did",
	.detail =
		"EVENT is returns (with a LEVEL: full, partial or none), loss, release, or record, which adds to --release N. Without one: the estimate for pilot, opening and pull, with what was measured, where it is tightest, and what it rests on. "
		"A release to the surface opens a non-conformance. It is accepted once its record is whole: place, volume, what it "
		"ran into, who was told and when, what was done; what was not known at first is added by record.",
	.least = 1,
	.most = 3,
	.options = options,
	.run = run,
};
