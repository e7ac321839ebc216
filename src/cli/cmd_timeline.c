/* sagbend timeline: joints, hours, stops, and when the pilot is out. */
#include "base/str.h"
#include "base/time.h"
#include "cli/acting.h"
#include "cli/commands.h"
#include "io/timeline.h"

static const struct option options[] = {
	{ "json", NULL, "as JSON", false },
	OPTION_END,
};

static int run(const struct invocation *in)
{
	struct sb_store *store = NULL;
	struct sb_err err = { 0 };
	struct sb_str text = { 0 };

	if (sb_acting_read(in, &store, &err))
		return sb_command_fail(&err);
	(sb_command_flag(in, "json") ? sb_timeline_json : sb_timeline_text)(
		sb_store_job(store), sb_store_solution(store), sb_time_now(), &text);
	sb_store_close(store);
	return sb_acting_put(&text, false);
}

const struct command sb_cmd_timeline = {
	.name = "timeline",
	.arguments = "JOB.bore [--json]",
	.summary = "joints, hours and stops, and when the pilot is out, best and likely",
	.detail =
		"Times are those typed with the joints, else those of the log. A wait three times as long as the middle one is a "
		"stop. The forecast goes by the bore's own pace and says how.",
	.least = 1,
	.most = 1,
	.options = options,
	.run = run,
};
