/* sagbend stress: what the product pipe bears in this hole. */
#include "base/str.h"
#include "cli/acting.h"
#include "cli/commands.h"
#include "io/pipe_load.h"

static const struct option options[] = {
	{ "design", NULL, "station by station on the design instead of what was drilled", false },
	{ "json", NULL, "as JSON", false },
	OPTION_END,
};

static int run(const struct invocation *in)
{
	struct sb_store *store = NULL;
	struct pipe_loads loads = { 0 };
	struct sb_str out = { 0 };
	struct sb_err err = { 0 };

	if (sb_acting_read(in, &store, &err))
		return sb_command_fail(&err);
	const struct job *job = sb_store_job(store);
	const struct solution *s = sb_store_solution(store);
	int status = sb_pipe_loads_make(job, s, &loads, &err) ? sb_command_fail(&err) : 0;
	if (status == 0) {
		(sb_command_flag(in, "json") ? sb_pipe_load_stress_json : sb_pipe_load_stress_text)(
			job, s, &loads, sb_command_flag(in, "design"), &out);
		status = sb_acting_put(&out, false);
	}
	sb_pipe_loads_clear(&loads);
	sb_store_close(store);
	return status;
}

const struct command sb_cmd_stress = {
	.name = "stress",
	.arguments = "JOB.bore [--design] [--json]",
	.summary =
		"the product pipe in this hole: bending, tension, outside pressure, alone and together, drilled beside design",
	.detail =
		"An estimate with its assumptions on the page, for the engineer to verify. Shares over 1 are not kept. Steel by a beam "
		"under tension and the checks of API RP 2A-WSD, polyethylene after ASTM F1962 and its safe pull stress. It takes [hole] "
		"final_diameter, [fluid] weight, and what [product_pipe] and [pull] say. How the force comes about: pull.",
	.least = 1,
	.most = 1,
	.options = options,
	.run = run,
};
