/* sagbend handover, export: what leaves the cabin. */
#include "base/str.h"
#include "base/time.h"
#include "cli/acting.h"
#include "cli/commands.h"
#include "io/format.h"
#include "io/handover.h"
#include "io/write.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

/* What goes with a report of this job. Borrowed from in, who and head. */
static struct about about_of(const struct invocation *in, const char *who, const char *head)
{
	const char *slash = strrchr(in->positional[0], '/');

	return (struct about){ .file = slash ? slash + 1 : in->positional[0],
		.head = head,
		.who = who,
		.at_ms = sb_time_now(),
		.program = "sagbend " SB_VERSION };
}

static const struct option handover_options[] = {
	{ "pdf", "FILE", "as a page to be printed and signed, to this file; - is standard output", true },
	{ "replace", NULL, "replace the file if it is there", false },
	{ "by", "WHO", "the name that stands on the page; the login name when left out", false },
	OPTION_END,
};

static int write_pdf(const struct invocation *in, const struct sb_store *store, struct sb_err *err)
{
	char head[65];
	struct sb_str bytes = { 0 };
	const char *who;

	if (sb_command_who(in, &who, err))
		return -1;
	sb_store_head(store, head);
	struct about about = about_of(in, who, head);
	int status = sb_handover_pdf(sb_store_job(store), sb_store_solution(store), &about, &bytes, err);
	if (status == 0)
		status = sb_write_whole(sb_command_value(in, "pdf"), sb_command_flag(in, "replace"),
			sb_str_get(&bytes), bytes.length, err);
	sb_str_clear(&bytes);
	return status;
}

static int run_handover(const struct invocation *in)
{
	char head[65];
	struct sb_store *store = NULL;
	struct sb_err err = { 0 };
	struct sb_str text = { 0 };

	if (sb_acting_read(in, &store, &err))
		return sb_command_fail(&err);
	if (sb_command_value(in, "pdf")) {
		int status = write_pdf(in, store, &err);
		sb_store_close(store);
		return status ? sb_command_fail(&err) : EXIT_OK;
	}
	sb_store_head(store, head);
	sb_handover(sb_store_job(store), sb_store_solution(store), head, sb_time_now(), &text);
	sb_store_close(store);
	return sb_acting_put(&text, false);
}

const struct command sb_cmd_handover = {
	.name = "handover",
	.arguments = "JOB.bore [--pdf FILE [--replace] [--by WHO]]",
	.summary = "the page for the next shift: 24 lines at most, or a page to be signed",
	.detail =
		"Of the shift that runs, else of the last one. Once the pilot is accepted or a pass has begun, it tells of the "
		"pass, the drilling fluid, the pipe string and the pull.",
	.least = 1,
	.most = 1,
	.options = handover_options,
	.run = run_handover,
};

static const struct option export_options[] = {
	{ "replace", NULL, "replace the file if it is there", false },
	{ "every", "LENGTH",
		"how far apart stations are; left out: 25 feet or 10 metres in the format stations, none in json",
		false },
	{ "by", "WHO", "the name that stands on the export; the login name when left out", false },
	{ "paper", "SIZE",
		"paper of sheet and drawing: A3, A2, A1, 11x17, 22x34; A3 for jobs in metres, else 11x17",
		false },
	OPTION_END,
};

static int find_format(const struct invocation *in, const struct format **out, struct sb_err *err)
{
	struct sb_str names = { 0 };

	*out = sb_format(in->positional[1]);
	if (*out)
		return 0;
	for (size_t i = 0; i < sb_format_count; i++)
		sb_str_add(&names, "%s%s", i ? ", " : "", sb_formats[i].name);
	sb_fail(err, SB_USAGE, "'%.40s' is not a format. There is: %s.", in->positional[1],
		sb_str_get(&names));
	sb_str_clear(&names);
	return -1;
}

static int take_every(
	const struct invocation *in, const struct format *format, struct number *every, struct sb_err *err)
{
	const char *text = sb_command_value(in, "every");

	if (text == NULL)
		return 0;
	if (!sb_same(format->name, "stations") && !sb_same(format->name, "json"))
		return sb_fail(err, SB_USAGE, "--every goes with the formats stations and json.");
	if (sb_number_parse(text, every, err))
		return sb_fail_within(err, "--every: ");
	return every->value > 0 ? 0
				: sb_fail(err, SB_RANGE, "--every %s: it must be more than 0.", every->text);
}

static int take_paper(
	const struct invocation *in, const struct format *format, const char **paper, struct sb_err *err)
{
	*paper = sb_command_value(in, "paper");
	if (*paper && !sb_same(format->name, "sheet") && !sb_same(format->name, "drawing"))
		return sb_fail(err, SB_USAGE, "--paper goes with the formats sheet and drawing.");
	return 0;
}

/* Bytes that are no text would leave a terminal in any state. */
static int check_target(const struct format *format, const char *target, struct sb_err *err)
{
	if (format->binary && sb_same(target, "-") && isatty(STDOUT_FILENO))
		return sb_fail(err, SB_USAGE, "%s is no text, and this is a terminal. Give a file: NAME.%s.",
			format->name, format->extension);
	return 0;
}

static int run_export(const struct invocation *in)
{
	const char *target = in->count > 2 ? in->positional[2] : "-", *who;
	const struct format *format;
	struct sb_store *store = NULL;
	struct sb_err err = { 0 };
	struct sb_str text = { 0 };
	char head[65];

	if (find_format(in, &format, &err) || sb_command_who(in, &who, &err) ||
		sb_acting_read(in, &store, &err))
		return sb_command_fail(&err);
	sb_store_head(store, head);
	struct about about = about_of(in, who, head);
	struct export e = {
		.job = sb_store_job(store), .solution = sb_store_solution(store), .about = &about
	};
	int status = check_target(format, target, &err) || take_every(in, format, &e.every, &err) ||
			take_paper(in, format, &e.paper, &err) || format->write(&e, &text, &err)
		? -1
		: 0;
	sb_store_close(store);
	if (status == 0)
		status = sb_write_whole(
			target, sb_command_flag(in, "replace"), sb_str_get(&text), text.length, &err);
	sb_str_clear(&text);
	return status ? sb_command_fail(&err) : EXIT_OK;
}

const struct command sb_cmd_export = {
	.name = "export",
	.arguments = "JOB.bore FORMAT [FILE] [--every LENGTH] [--paper SIZE] [--replace] [--by WHO]",
	.summary = "the whole log for other programs; the as-built report and the sheet, to be signed",
	.detail =
		"To standard output when FILE is left out or '-'. A file that is there is replaced only with --replace, and then "
		"whole or not at all.",
	.least = 2,
	.most = 3,
	.options = export_options,
	.run = run_export,
};
