/* sagbend clearance: how the bore passes obstacles, and the cover over it. */
#include "base/str.h"
#include "cli/acting.h"
#include "cli/commands.h"
#include "io/passings.h"

static const struct option options[] = {
	{ "json", NULL, "as JSON", false },
	OPTION_END,
};

/* The plan is made once more, for what it would pass. */
static void make_plan(const struct job *job, const struct solution *s, struct plan *plan)
{
	struct setup setup = sb_solution_setup(job, s);

	sb_steering_make(&setup, &s->path, &s->response, plan);
}

static void as_text(const struct job *job, const struct solution *s, struct sb_str *out)
{
	struct plan plan;

	make_plan(job, s, &plan);
	sb_passings_text(job, s, &plan, out);
}

static void as_json(const struct job *job, const struct solution *s, struct sb_str *out)
{
	struct plan plan;

	make_plan(job, s, &plan);
	sb_passings_json(job, s, &plan, out);
}

static int run(const struct invocation *in)
{
	return sb_acting_look_at(in, as_text, as_json);
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
