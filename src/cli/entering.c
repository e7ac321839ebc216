/* Entries from a file. */
#include "cli/entering.h"

#include <stdio.h>

static int enter_all(struct sb_store *store, const char *who, const struct entries *entries,
	entering_row *enter, struct sb_err *err)
{
	for (size_t i = 0; i < entries->count; i++)
		if (enter(store, who, entries->act, &entries->list[i], err))
			return sb_fail_within(err, "%zu of %zu rows are entered; then, at line %d: ", i,
				entries->count, entries->list[i].line);
	return 0;
}

int sb_entering_file(const struct invocation *in, struct sb_store *store, const char *who,
	const enum act_kind *acts, size_t act_count, entering_row *enter, char said[SB_ENTERED],
	struct sb_err *err)
{
	const char *path = sb_command_value(in, "read");
	struct sb_problems problems = { 0 };
	struct entries entries = { 0 };

	if (sb_acting_there(path, err))
		return -1;
	int status = sb_entries_read(path, sb_store_job(store), acts, act_count, &entries, &problems);
	sb_acting_say_problems(&problems);
	if (status)
		sb_fail(err, SB_FORMAT, "%.200s has %zu error%s, listed above. Nothing was entered.", path,
			problems.errors, problems.errors == 1 ? "" : "s");
	else
		status = enter_all(store, who, &entries, enter, err);
	snprintf(said, SB_ENTERED, "%zu %s%s of %.120s", entries.count,
		entries.act == ACT_PIPE_RECORD ? "record" : "joint", entries.count == 1 ? "" : "s", path);
	sb_problems_clear(&problems);
	sb_entries_clear(&entries);
	return status;
}
