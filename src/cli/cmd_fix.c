/* sagbend fix, adjust: independent positions, and the correction of the path that rests on them. */
#include "base/str.h"
#include "cli/acting.h"
#include "cli/commands.h"
#include "io/fixes.h"
#include "model/fact.h"

#include <stdio.h>

/* ---- fix ---- */

static const struct option fix_options[] = {
	{ "depth", "D", "of the point that it fixes, along the hole from the entry", false },
	{ "kind", "coil|beacon|walk-over|gyro|exit",
		"what gave the position; exit: where the bore came out, by land survey", false },
	{ "easting", "E", "grid easting, with --northing; or say --station and --offset", false },
	{ "northing", "N", "grid northing", false },
	{ "station", "S", "along the alignment from the entry", false },
	{ "offset", "O", "from the alignment, right positive", false },
	{ "elevation", "Z", "elevation", false },
	{ "sigma-along", "S", "one sigma along the alignment; left out: that was not observed", false },
	{ "sigma-across", "S", "one sigma square to it, likewise", false },
	{ "sigma-up", "S", "one sigma of the elevation, likewise", false },
	{ "remarks", "TEXT", "anything worth keeping: who measured it, from which points", false },
	{ "list", NULL, "all fixes, and how each lies to the path", false },
	{ "set-aside", "N", "fix N no longer counts; it stays in the file. Needs --reason", false },
	{ "use", "N", "fix N, set aside before, counts again. Needs --reason", false },
	{ "reason", "TEXT", "why", false },
	{ "json", NULL, "as JSON: all fixes", false },
	OPTION_BY,
	OPTION_END,
};

static int take_fix(const struct invocation *in, struct fix *f, struct sb_err *err)
{
	if (sb_command_value(in, "depth") == NULL)
		return sb_fail(err, SB_USAGE,
			"--depth D is missing: how far along the hole the point lies. --list shows the fixes there are.");
	if (sb_command_value(in, "kind") == NULL)
		return sb_fail(err, SB_USAGE, "--kind is missing: coil, beacon, walk-over, gyro or exit.");
	return sb_acting_fact(in, sb_fact_sort(ACT_FIX), f, err);
}

/* One fix in words, or all as JSON; then what is open. done: an act was. */
static int say_fixes(const struct invocation *in, const struct sb_store *store, int64_t only, bool done)
{
	const struct job *job = sb_store_job(store);
	const struct solution *s = sb_store_solution(store);
	struct setup setup = sb_solution_setup(job, s);
	struct sb_str text = { 0 };

	if (sb_command_flag(in, "json"))
		sb_fixes_json(job, s, &text);
	else if (only == 0)
		sb_fixes_text(job, s, &text);
	for (size_t i = 0; i < s->fixes.count && !sb_command_flag(in, "json"); i++)
		if (s->fixes.list[i].fix == only) {
			sb_fixes_say(&setup, &s->fixes, &s->fixes.list[i], &text);
			sb_str_add(&text, "\n");
		}
	if (done)
		sb_acting_say_warnings(s);
	return sb_acting_put(&text, done);
}

static int list_fixes(const struct invocation *in)
{
	struct sb_store *store = NULL;
	struct sb_err err = { 0 };

	if (sb_acting_read(in, &store, &err))
		return sb_command_fail(&err);
	int status = say_fixes(in, store, 0, false);
	sb_store_close(store);
	return status;
}

static int act_on_fix(const struct invocation *in, struct sb_store *store, const char *who, int64_t *about,
	struct sb_err *err)
{
	bool aside = sb_command_value(in, "set-aside") != NULL, use = sb_command_value(in, "use") != NULL;
	struct fix f = { 0 };

	if (aside || use) {
		char reason[SB_REMARK_TEXT];
		int number;
		if (sb_acting_whole(in, aside ? "set-aside" : "use", 1, 1000000, &number, err) ||
			sb_acting_reason(in, true, reason, err) ||
			sb_store_fix_use(store, who, number, use, reason, err))
			return -1;
		*about = number;
		return 0;
	}
	if (take_fix(in, &f, err) || sb_store_fix(store, who, &f, sb_command_value(in, "remarks"), err))
		return -1;
	*about = (int64_t)sb_store_job(store)->fix_count;
	return 0;
}

static int run_fix(const struct invocation *in)
{
	struct sb_store *store = NULL;
	struct sb_err err = { 0 };
	const char *who;
	int64_t about = 0;
	int ways = (sb_command_value(in, "depth") != NULL) + (sb_command_value(in, "set-aside") != NULL) +
		(sb_command_value(in, "use") != NULL) + sb_command_flag(in, "list");

	if (ways > 1)
		sb_fail(&err, SB_USAGE,
			"One at a time: --depth for a new fix, --list, --set-aside, or --use.");
	if (err.code)
		return sb_command_fail(&err);
	if (sb_command_flag(in, "list"))
		return list_fixes(in);
	if (sb_acting_open(in, &store, &who, &err))
		return sb_command_fail(&err);
	int status = act_on_fix(in, store, who, &about, &err) ? sb_command_fail(&err)
							      : say_fixes(in, store, about, true);
	sb_store_close(store);
	return status;
}

const struct command sb_cmd_fix = {
	.name = "fix",
	.arguments =
		"JOB.bore --depth D --kind KIND [--easting E --northing N | --station S --offset O] [--elevation Z] [--sigma-...] [--by WHO] | --list",
	.summary = "keeps an independent position of the hole, and says whether it agrees with the path",
	.detail =
		"A fix never moves the path: it stands beside it. Each component counts that has its one sigma, as who measured it gives it. "
		"What the fixes together propose is shown by adjust.",
	.least = 1,
	.most = 1,
	.options = fix_options,
	.run = run_fix,
};

/* ---- adjust ---- */

static const struct option adjust_options[] = {
	{ "take", NULL, "take the proposed correction: the path is solved with it. Needs --reason", false },
	{ "back", NULL, "take back the correction that is in force. Needs --reason", false },
	{ "reason", "TEXT", "why", false },
	{ "json", NULL, "as JSON", false },
	OPTION_BY,
	OPTION_END,
};

static int show_adjustment(const struct invocation *in, const struct sb_store *store, bool done)
{
	struct sb_str text = { 0 };
	struct sb_err err = { 0 };

	if ((sb_command_flag(in, "json") ? sb_adjust_json : sb_adjust_text)(
		    sb_store_job(store), sb_store_solution(store), &text, &err)) {
		sb_str_clear(&text);
		return sb_command_fail(&err);
	}
	return sb_acting_put(&text, done);
}

static int take_proposal(struct sb_store *store, const char *who, const char *reason, struct sb_err *err)
{
	const struct solution *s = sb_store_solution(store);
	struct sb_str words = { 0 };
	struct adjustment a;

	if (s->fixes.proposal.status != PROPOSAL_MADE) {
		sb_fixes_say_fit(sb_store_job(store), &s->fixes, &words);
		sb_fail(err, SB_STATE, "%s", sb_str_get(&words));
		sb_str_clear(&words);
		return -1;
	}
	sb_fixes_adjustment(&s->fixes, &a);
	return sb_store_adjust(store, who, &a, reason, err);
}

static int run_adjust(const struct invocation *in)
{
	bool take = sb_command_flag(in, "take"), back = sb_command_flag(in, "back");
	char reason[SB_REMARK_TEXT];
	struct sb_store *store = NULL;
	struct sb_err err = { 0 };
	const char *who = "";

	if (take && back)
		sb_fail(&err, SB_USAGE, "--take or --back, not both.");
	else if (take || back)
		sb_acting_reason(in, true, reason, &err);
	if (err.code ||
		(take || back ? sb_acting_open(in, &store, &who, &err) : sb_acting_read(in, &store, &err)))
		return sb_command_fail(&err);
	int bad = take ? take_proposal(store, who, reason, &err)
		: back ? sb_store_adjust_back(store, who, reason, &err)
		       : 0;
	int status = bad ? sb_command_fail(&err) : show_adjustment(in, store, take || back);
	if (!bad && (take || back))
		sb_acting_say_warnings(sb_store_solution(store));
	sb_store_close(store);
	return status;
}

const struct command sb_cmd_adjust = {
	.name = "adjust",
	.arguments = "JOB.bore [--take --reason TEXT | --back --reason TEXT] [--by WHO] [--json]",
	.summary =
		"the correction of azimuth, inclination and depth that the fixes propose; takes it, and takes it back",
	.detail =
		"Weighted least squares over the errors that all readings share, with what the sheet claims of them and of the readings' noise. "
		"Nothing is corrected until somebody takes it; path --as-read shows the path without it.",
	.least = 1,
	.most = 1,
	.options = adjust_options,
	.run = run_adjust,
};
