/* sagbend design: a design from a drawing's LandXML or CSV, looked at, and written into a job sheet. */
#include "base/str.h"
#include "cli/acting.h"
#include "cli/commands.h"
#include "io/given.h"
#include "io/sheet.h"

#include <stdio.h>
#include <sys/stat.h>
#include <unistd.h>

static const struct option options[] = {
	{ "into", "FOLDER", "the job sheet that alignment.csv and profile.csv are written into", true },
	{ "replace", NULL, "files that are there may be replaced", false },
	{ "alignment", "NAME", "which alignment of a LandXML file with several", false },
	{ "profile", "NAME", "which profile of an alignment with several", false },
	{ "unit", "m|ft|ftUS", "what the drawing's lengths are in, whatever it says", false },
	{ "within", "LENGTH",
		"how far a listed station may lie from the line, in the drawing's unit; left out: one in the last decimal",
		false },
	{ "reverse", NULL, "the drawing runs from exit to entry", false },
	{ "parabolas-as-arcs", NULL, "a parabola is taken for the arc with tangents of the same length",
		false },
	{ "radii-as-found", NULL, "radii found behind stations stay as they are, and are not made round ones",
		false },
	OPTION_END,
};

struct wish {
	struct given_choice choice;
	struct number within;
	const char *into;
};

static int take_wish(const struct invocation *in, struct wish *w, struct sb_err *err)
{
	const char *unit = sb_command_value(in, "unit"), *within = sb_command_value(in, "within");
	struct given_choice *c = &w->choice;

	*c = (struct given_choice){ .alignment = sb_command_value(in, "alignment"),
		.profile = sb_command_value(in, "profile"),
		.within = &w->within,
		.arcs = sb_command_flag(in, "parabolas-as-arcs"),
		.radii_as_found = sb_command_flag(in, "radii-as-found"),
		.reversed = sb_command_flag(in, "reverse") };
	if (unit && sb_unit_parse(unit, &c->unit, err))
		return sb_fail_within(err, "--unit: ");
	c->unit_said = unit ? GIVEN_UNIT_SAID : GIVEN_UNIT_UNSAID;
	if (within && sb_number_parse(within, &w->within, err))
		return sb_fail_within(err, "--within: ");
	if (within && !(w->within.value > 0))
		return sb_fail(
			err, SB_RANGE, "--within %s cannot be: it is a length above 0.", w->within.text);
	w->into = sb_command_value(in, "into");
	if (w->into == NULL && sb_command_flag(in, "replace"))
		return sb_fail(
			err, SB_USAGE, "--replace goes with --into FOLDER: nothing is written without it.");
	return 0;
}

static int check_folder(const char *folder, struct sb_err *err)
{
	struct stat what;

	if (sb_acting_there(folder, err))
		return -1;
	if (stat(folder, &what) == 0 && S_ISDIR(what.st_mode))
		return 0;
	return sb_fail(err, SB_USAGE, "'%.300s' is not a folder. Give the folder of the job sheet.", folder);
}

static bool has_settings(const char *folder)
{
	char path[4096];

	snprintf(path, sizeof path, "%s/job.ini", folder);
	return access(path, F_OK) == 0;
}

static int read_all(const struct invocation *in, const struct wish *w, struct given *d,
	struct sb_problems *problems, struct sb_err *err)
{
	for (size_t i = 0; i < in->count; i++) {
		if (sb_acting_there(in->positional[i], err))
			return -1;
		if (sb_given_read(in->positional[i], &w->choice, d, problems))
			return sb_fail(err, SB_FORMAT,
				"%.200s cannot be read as a design: %zu error%s, listed above. Nothing was written.",
				in->positional[i], problems->errors, problems->errors == 1 ? "" : "s");
	}
	return 0;
}

/* In the job's unit and frame where there is a job.ini to say them; else as the drawing has it. */
static int place(const struct wish *w, struct given *d, const char **unit, struct sb_problems *problems,
	struct sb_err *err)
{
	struct job job;

	*unit = w->choice.unit_said == GIVEN_UNIT_SAID ? sb_unit_long(w->choice.unit)
		: d->unit_said == GIVEN_UNIT_SAID      ? sb_unit_long(d->unit)
						       : "";
	if (w->into == NULL || !has_settings(w->into)) {
		if (w->into && d->offsets)
			return sb_fail(err, SB_STATE,
				"The offsets are from the straight between entry and exit, and there is no job.ini in %.200s that says where "
				"they are. Write it first.",
				w->into);
		if (sb_given_turn(d, &w->choice, problems))
			return sb_fail(err, SB_FORMAT,
				"No line was found behind the stations, see above. Nothing was written.");
		return 0;
	}
	if (sb_sheet_settings(w->into, &job, problems))
		return sb_fail(err, SB_FORMAT,
			"job.ini of %.200s has errors, listed above. Nothing was written.", w->into);
	int failed = sb_given_place(d, &w->choice, &job, problems);
	*unit = sb_unit_long(job.unit);
	sb_job_clear(&job);
	if (failed)
		sb_fail(err, SB_FORMAT,
			"The design does not fit the job in %.200s, see above. Nothing was written.",
			w->into);
	return failed;
}

/* What was written, and what job.ini needs to use it. */
static void say_written(const struct wish *w, const struct given *d, struct sb_str *text)
{
	bool both = d->alignment.count && d->profile.count;

	sb_str_add(text, "\nWritten into %s: %s%s%s.", w->into, d->alignment.count ? "alignment.csv" : "",
		both ? " and " : "", d->profile.count ? "profile.csv" : "");
	if (!d->placed)
		sb_str_add(text, " There is no job.ini yet that the design could be held against.");
	sb_str_add(text, " Under [files], job.ini needs: %s%s%s\n",
		d->alignment.count ? "alignment = alignment.csv" : "", both ? ", " : "",
		d->profile.count ? "profile = profile.csv" : "");
}

static int run(const struct invocation *in)
{
	struct sb_problems problems = { 0 };
	struct given d = { 0 };
	struct sb_str text = { 0 };
	struct sb_err err = { 0 };
	struct wish w = { 0 };
	const char *unit;
	bool written = false;

	if (take_wish(in, &w, &err) || (w.into && check_folder(w.into, &err)))
		return sb_command_fail(&err);
	int status = read_all(in, &w, &d, &problems, &err);
	if (status == 0)
		status = place(&w, &d, &unit, &problems, &err);
	sb_acting_say_problems(&problems);
	if (status == 0) {
		sb_given_text(&d, unit, &text);
		if (w.into)
			status = sb_given_write(&d, w.into, sb_command_flag(in, "replace"), &err);
		written = w.into && status == 0;
	}
	if (written)
		say_written(&w, &d, &text);
	status = status ? sb_command_fail(&err) : sb_acting_put(&text, written);
	sb_str_clear(&text);
	sb_given_clear(&d);
	sb_problems_clear(&problems);
	return status;
}

const struct command sb_cmd_design = {
	.name = "design",
	.arguments =
		"DRAWING [DRAWING] [--into FOLDER] [--replace] [--alignment NAME] [--profile NAME] [--unit m|ft|ftUS] "
		"[--within LENGTH] [--reverse] [--parabolas-as-arcs] [--radii-as-found]",
	.summary = "reads a design from LandXML, or from a CSV of points of intersection or of stations",
	.detail =
		"Prints what was understood; with --into, writes alignment.csv and profile.csv of a job sheet, both or none, held "
		"against the unit, entry and exit of its job.ini. LandXML 1.0 to 1.2: lines and circular curves. CSV: easting, "
		"northing, radius, or station, elevation, radius, in any order; without radius the rows are stations, at close "
		"intervals, and the tangents and curves behind them are found: station, elevation, and offset or easting and "
		"northing where the line is not straight. '-' reads a CSV from standard input.",
	.least = 1,
	.most = 2,
	.options = options,
	.run = run,
};
