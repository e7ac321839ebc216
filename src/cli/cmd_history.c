/* sagbend history: who did what, all of it or some. */
#include "base/mem.h"
#include "base/str.h"
#include "cli/acting.h"
#include "cli/commands.h"
#include "io/history.h"
#include "io/nearest.h"

static const struct option options[] = {
	{ "decisions", NULL, "leave out plain logging", false },
	{ "edits", NULL, "only what was corrected, withdrawn, changed or taken back", false },
	{ "accepted", NULL,
		"only what was acknowledged, accepted or signed, or logged although it looked like a slip",
		false },
	{ "who", "NAME", "only what this person did", false },
	{ "shift", "N", "only this shift, counted from 1", false },
	{ "json", NULL, "as JSON", false },
	OPTION_END,
};

static int take_which(const struct invocation *in, enum history_which *which, struct sb_err *err)
{
	int asked = 0;

	*which = HISTORY_ALL;
	for (enum history_which w = HISTORY_DECISIONS; w < HISTORY_WHICH; w++)
		if (sb_command_flag(in, sb_history_name(w))) {
			*which = w;
			asked++;
		}
	return asked > 1 ? sb_fail(err, SB_USAGE, "One of --decisions, --edits and --accepted, not more.")
			 : 0;
}

/* Names are compared as people type them: case and spaces aside. */
static int take_who(const struct job *job, struct history_filter *f, struct sb_err *err)
{
	const char **people;
	size_t count = sb_history_people(job, &people);
	struct sb_str names = { 0 };

	for (size_t i = 0; i < count; i++) {
		if (sb_nearest_same(people[i], f->who)) {
			f->who = people[i];
			sb_free(people);
			sb_str_clear(&names);
			return 0;
		}
		sb_str_add(&names, "%s%s", i ? ", " : "", people[i]);
	}
	sb_fail(err, SB_MISSING, "'%.40s' did nothing on this job. There is: %.500s.", f->who,
		sb_str_get(&names));
	sb_free(people);
	sb_str_clear(&names);
	return -1;
}

static int take_shift(const struct job *job, const struct history_filter *f, struct sb_err *err)
{
	int shifts = sb_history_shifts(job);

	if (f->shift <= shifts)
		return 0;
	if (shifts == 0)
		return sb_fail(err, SB_MISSING, "No shift was begun on this job, so there is no shift %d.",
			f->shift);
	return sb_fail(err, SB_MISSING, "There is no shift %d: %d %s begun.", f->shift, shifts,
		shifts == 1 ? "was" : "were");
}

static int run(const struct invocation *in)
{
	struct history_filter f = { .who = sb_command_value(in, "who") };
	struct sb_store *store = NULL;
	struct sb_err err = { 0 };
	struct sb_str text = { 0 };

	if (take_which(in, &f.which, &err) ||
		(sb_command_value(in, "shift") && sb_acting_whole(in, "shift", 1, 1000000, &f.shift, &err)) ||
		sb_acting_read(in, &store, &err))
		return sb_command_fail(&err);
	const struct job *job = sb_store_job(store);
	if ((f.who && take_who(job, &f, &err)) || take_shift(job, &f, &err)) {
		sb_store_close(store);
		return sb_command_fail(&err);
	}
	(sb_command_flag(in, "json") ? sb_history_json : sb_history_text)(job, &f, &text);
	sb_store_close(store);
	return sb_acting_put(&text, false);
}

const struct command sb_cmd_history = {
	.name = "history",
	.arguments = "JOB.bore [--decisions | --edits | --accepted] [--who NAME] [--shift N] [--json]",
	.summary = "every act on the job, or some of them: who, when, what and why",
	.detail = "In the order of time, as the clock stood there.",
	.least = 1,
	.most = 1,
	.options = options,
	.run = run,
};
