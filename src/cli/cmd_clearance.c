/* sagbend clearance: how the bore passes obstacles, and the cover over it. */
#include "base/str.h"
#include "cli/acting.h"
#include "cli/commands.h"
#include "io/passings.h"

static const struct option options[] = {
	{ "json", NULL, "as JSON", false },
	OPTION_END,
};

static int run(const struct invocation *in)
{
	struct sb_store *store = NULL;
	struct sb_err err = { 0 };
	struct sb_str text = { 0 };
	struct plan plan;

	if (sb_acting_read(in, &store, &err))
		return sb_command_fail(&err);
	const struct job *job = sb_store_job(store);
	const struct solution *s = sb_store_solution(store);
	struct setup setup = { job, &s->frame, &s->design, &s->corridor };
	sb_steering_make(&setup, &s->path, &s->response, &plan);
	(sb_command_flag(in, "json") ? sb_passings_json : sb_passings_text)(job, s, &plan, &text);
	sb_store_close(store);
	return sb_acting_put(&text, false);
}

const struct command sb_cmd_clearance = {
	.name = "clearance",
	.arguments = "JOB.bore [--json]",
	.summary = "how the bore passes each obstacle, and the ground over it: drilled, held, planned",
	.detail =
		"Distances are wall to wall: from the wall of the final hole, taken as centred on the pilot, to the obstacle's. Drilled: "
		"from the entry to the last reading. Held: on through the bit on the present heading. Planned: by the steering plan. Cover "
		"is the ground over the top of the hole, where it is least against what is required there.",
	.least = 1,
	.most = 1,
	.options = options,
	.run = run,
};
