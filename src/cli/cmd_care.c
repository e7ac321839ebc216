/* sagbend verify, backup: care of the job file. */
#include "cli/acting.h"
#include "cli/commands.h"
#include "store/backup.h"

static const struct option no_options[] = { OPTION_END };

static int run_verify(const struct invocation *in)
{
	struct verify_report report = { 0 };
	struct sb_err err = { 0 };

	if (sb_store_verify(in->positional[0], &report, &err)) {
		int status = sb_command_fail(&err);
		return err.code == SB_DAMAGED ? EXIT_DAMAGED : status;
	}
	struct sb_str *text = &report.text;
	if (report.damages)
		sb_str_add(text,
			"%s: %zu damage%s found in %zu journal rows. Go back to the last good backup, and keep this file as "
			"evidence.\n",
			in->positional[0], report.damages, report.damages == 1 ? "" : "s",
			report.journal_rows);
	else
		sb_str_add(text, "%s: whole. %zu journal rows, %zu facts, chain head %s\n", in->positional[0],
			report.journal_rows, report.fact_rows, report.head);
	int status = sb_acting_put(text, false);
	if (report.damages)
		status = EXIT_DAMAGED;
	sb_verify_report_clear(&report);
	return status;
}

const struct command sb_cmd_verify = {
	.name = "verify",
	.arguments = "JOB.bore",
	.summary = "goes through the whole file and names each damaged row",
	.detail =
		"Exit status 4 when damage is found. The chain head is printed on reports and exports: compare it, and a "
		"file whose end was cut off is found too.",
	.least = 1,
	.most = 1,
	.options = no_options,
	.run = run_verify,
};

static int run_backup(const struct invocation *in)
{
	struct sb_err err = { 0 };

	if (sb_store_backup(in->positional[0], in->positional[1], &err))
		return sb_command_fail(&err);
	return sb_acting_say("%s: a whole copy, checked and on the disk.", in->positional[1]);
}

const struct command sb_cmd_backup = {
	.name = "backup",
	.arguments = "JOB.bore COPY.bore",
	.summary = "makes a checked copy, also while the job is in use",
	.detail = "Never copy a job file that is in use in another way: the copy may be torn.",
	.least = 2,
	.most = 2,
	.options = no_options,
	.run = run_backup,
};
