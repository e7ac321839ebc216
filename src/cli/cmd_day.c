/* sagbend day: a day's report, as text, as pages, or for scripts. */
#include "base/str.h"
#include "base/time.h"
#include "cli/acting.h"
#include "cli/commands.h"
#include "io/day.h"
#include "io/write.h"

#include <string.h>

static const struct option options[] = {
	{ "date", "DAY", "a day such as 2026-11-25, as the clock stood there; the last one when left out",
		false },
	{ "pdf", "FILE", "as pages to be signed, to this file; - is standard output", true },
	{ "replace", NULL, "replace the file if it is there", false },
	{ "json", NULL, "as JSON", false },
	{ "by", "WHO", "the name that stands on the report; the login name when left out", false },
	OPTION_END,
};

static int put_pages(const struct invocation *in, const struct document *d, struct sb_err *err)
{
	struct sb_str bytes = { 0 };

	int status = sb_document_pdf(d, &bytes, NULL, err);
	if (status == 0)
		status = sb_write_whole(sb_command_value(in, "pdf"), sb_command_flag(in, "replace"),
			sb_str_get(&bytes), bytes.length, err);
	sb_str_clear(&bytes);
	return status ? sb_command_fail(err) : EXIT_OK;
}

static int put_day(
	const struct invocation *in, const struct day *day, const struct about *about, struct sb_err *err)
{
	struct document d;
	struct sb_str text = { 0 };
	int status;

	if (sb_command_flag(in, "json")) {
		sb_day_json(day, about, &text);
		return sb_acting_put(&text, false);
	}
	sb_day_document(day, about, &d);
	if (sb_command_value(in, "pdf")) {
		status = put_pages(in, &d, err);
	} else {
		sb_document_text(&d, &text);
		status = sb_acting_put(&text, false);
	}
	sb_document_clear(&d);
	return status;
}

static int run(const struct invocation *in)
{
	const char *who, *slash = strrchr(in->positional[0], '/');
	struct sb_store *store = NULL;
	struct sb_err err = { 0 };
	struct day day;
	char head[65];

	if (sb_command_flag(in, "json") && sb_command_value(in, "pdf")) {
		sb_fail(&err, SB_USAGE, "--json or --pdf, not both.");
		return sb_command_fail(&err);
	}
	if (sb_command_who(in, &who, &err) || sb_acting_read(in, &store, &err))
		return sb_command_fail(&err);
	sb_store_head(store, head);
	struct about about = { .file = slash ? slash + 1 : in->positional[0],
		.head = head,
		.who = who,
		.at_ms = sb_time_now(),
		.program = "sagbend " SB_VERSION };
	int status = sb_day_take(sb_store_job(store), sb_store_solution(store), sb_command_value(in, "date"),
		about.at_ms, &day, &err);
	if (status == 0) {
		status = put_day(in, &day, &about, &err);
		sb_day_clear(&day);
	} else {
		status = sb_command_fail(&err);
	}
	sb_store_close(store);
	return status;
}

const struct command sb_cmd_day = {
	.name = "day",
	.arguments = "JOB.bore [--date DAY] [--pdf FILE [--replace] | --json] [--by WHO]",
	.summary = "a day's report: joints, hours, where it began and ended, what was decided",
	.detail = "A joint belongs to the day on which it was first logged.",
	.least = 1,
	.most = 1,
	.options = options,
	.run = run,
};
