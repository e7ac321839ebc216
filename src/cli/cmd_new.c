/* sagbend new: a job file from a job sheet. */
#include "base/time.h"
#include "cli/acting.h"
#include "cli/commands.h"
#include "io/sheet.h"
#include "io/site.h"

#include <stdio.h>
#include <sys/stat.h>

static const struct option options[] = {
	{ "sheet", "FOLDER", "the job sheet: a folder with job.ini and the tables that it names", true },
	OPTION_BY,
	OPTION_END,
};

/* The sheet's figures against what is found at its place, today. A sheet is not refused for it. */
static void look_at_place(const struct job *job, struct sb_problems *problems)
{
	struct site site;

	sb_site_find(job, sb_time_now(), &site);
	sb_site_warn(job, &site, problems);
}

static int check_folder(const char *sheet, struct sb_err *err)
{
	struct stat what;

	if (sb_acting_there(sheet, err))
		return -1;
	if (stat(sheet, &what) == 0 && S_ISDIR(what.st_mode))
		return 0;
	return sb_fail(err, SB_USAGE,
		"'%.300s' is not a folder. Give the folder that holds job.ini and its tables.", sheet);
}

static int run(const struct invocation *in)
{
	const char *sheet = sb_command_value(in, "sheet"), *who;
	struct sb_problems problems = { 0 };
	struct sb_err err = { 0 };
	struct job job;

	if (sheet == NULL) {
		sb_fail(&err, SB_USAGE, "--sheet FOLDER is missing: a job starts from a job sheet.");
		return sb_command_fail(&err);
	}
	if (sb_command_who(in, &who, &err) || check_folder(sheet, &err))
		return sb_command_fail(&err);
	int status = sb_sheet_read(sheet, &job, &problems);
	if (status == 0)
		look_at_place(&job, &problems);
	sb_acting_say_problems(&problems);
	if (status)
		sb_fail(&err, SB_FORMAT, "The sheet has %zu error%s, listed above. Nothing was made.",
			problems.errors, problems.errors == 1 ? "" : "s");
	else
		status = sb_store_create(in->positional[0], &job, who, &err);
	status = status ? sb_command_fail(&err)
			: sb_acting_say("%s: %s, made from %s.", in->positional[0], job.name, sheet);
	sb_job_clear(&job);
	sb_problems_clear(&problems);
	return status;
}

const struct command sb_cmd_new = {
	.name = "new",
	.arguments = "JOB.bore --sheet FOLDER [--by WHO]",
	.summary = "makes a job file from a job sheet",
	.detail =
		"A sheet with an error is refused as a whole, and every error in it is listed by file, line and column. With coordinates on a map, "
		"declination, convergence and scale factor are held against the magnetic model of today and the map projection; what "
		"disagrees is a warning.",
	.least = 1,
	.most = 1,
	.options = options,
	.run = run,
};
