/* sagbend explain: how a figure came about. */
#include "base/str.h"
#include "cli/acting.h"
#include "cli/commands.h"
#include "io/explain.h"

#include <limits.h>

static const struct option options[] = {
	{ "figure", "FIGURE", "which figure; left out: a list of them", false },
	{ "joint", "N", "at joint N, 0 for the entry; left out: the last that it is known for", false },
	{ "leg", "L", "as drilled in leg L, withdrawn since or not", false },
	{ "fix", "N", "of fix N; left out: the newest", false },
	{ "json", NULL, "as JSON", false },
	OPTION_END,
};

static int take_number(
	const struct invocation *in, const char *name, int low, int otherwise, int *out, struct sb_err *err)
{
	*out = otherwise;
	return sb_command_value(in, name) ? sb_acting_whole(in, name, low, INT_MAX, out, err) : 0;
}

static int take_ask(const struct invocation *in, struct explain_ask *ask, struct sb_err *err)
{
	const char *figure = sb_command_value(in, "figure");

	if (take_number(in, "joint", 0, SB_EXPLAIN_LAST, &ask->joint, err) ||
		take_number(in, "leg", 1, 0, &ask->leg, err) || take_number(in, "fix", 1, 0, &ask->fix, err))
		return -1;
	if (figure == NULL && (ask->joint != SB_EXPLAIN_LAST || ask->leg || ask->fix))
		return sb_fail(err, SB_USAGE,
			"--figure FIGURE is missing: which figure? Without it, and alone, the figures are listed.");
	if (figure && (ask->figure = sb_explain_figure(figure, err)) == NULL)
		return -1;
	if (ask->figure && ask->fix && ask->figure->of != EXPLAIN_OF_FIX)
		return sb_fail(
			err, SB_USAGE, "--fix goes with a figure of a fix; %s is none.", ask->figure->name);
	return 0;
}

static int run(const struct invocation *in)
{
	bool json = sb_command_flag(in, "json");
	struct explanation e = { 0 };
	struct sb_store *store = NULL;
	struct sb_str text = { 0 };
	struct sb_err err = { 0 };
	struct explain_ask ask = { 0 };
	int status = 0;

	if (take_ask(in, &ask, &err) || sb_acting_read(in, &store, &err))
		return sb_command_fail(&err);
	if (ask.figure == NULL)
		(json ? sb_explain_list_json : sb_explain_list_text)(&text);
	else if (sb_explain(sb_store_job(store), sb_store_solution(store), &ask, &e, &err))
		status = sb_command_fail(&err);
	else
		(json ? sb_explain_json : sb_explain_text)(&e, &text);
	bool differs = e.differs;
	sb_explanation_clear(&e);
	sb_store_close(store);
	if (status == 0)
		status = sb_acting_put(&text, false);
	if (status == 0 && differs) {
		sb_fail(&err, SB_DAMAGED, "Two ways to this figure do not agree. See the line ALARM.");
		status = sb_command_fail(&err);
	}
	return status;
}

const struct command sb_cmd_explain = {
	.name = "explain",
	.arguments = "JOB.bore [--figure FIGURE] [--joint N] [--leg L] [--fix N] [--json]",
	.summary = "how a figure came about: formula, inputs with their sources, steps, limit, method",
	.detail =
		"Every figure is worked out again from the readings and the sheet, by a second way too where there is one, and held "
		"against the one that the program shows; if they differ, it says so and fails.",
	.least = 1,
	.most = 1,
	.options = options,
	.run = run,
};
