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

static void as_text(const struct job *job, const struct solution *s, struct sb_str *out)
{
	sb_timeline_text(job, s, sb_time_now(), out);
}

static void as_json(const struct job *job, const struct solution *s, struct sb_str *out)
{
	sb_timeline_json(job, s, sb_time_now(), out);
}

static int run(const struct invocation *in)
{
	return sb_acting_look_at(in, as_text, as_json);
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
