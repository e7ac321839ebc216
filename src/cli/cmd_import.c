/* sagbend import: surveys from a CSV file, all or none. Every row is read and looked at before the first is
 * logged; then each joint is an act of its own, as if it had been typed.
 */
#include "base/str.h"
#include "base/time.h"
#include "cli/acting.h"
#include "cli/commands.h"
#include "io/surveys.h"

#include <stdio.h>
#include <string.h>

static const struct option options[] = {
	{ "reason", "TEXT", "why readings are logged that look like slips", false },
	OPTION_BY,
	OPTION_END,
};

/* Why a reading that looks like a slip is logged all the same: it was corrected already, or as --reason says.
 */
static const char *reason_for(const struct survey *survey, const char *reason)
{
	return survey->judged[0] ? survey->judged : reason;
}

static void say_places(const struct surveys *surveys, const struct job *job, const struct solution *s)
{
	struct surveys_places places;
	char text[SB_SURVEYS_PLACES];

	sb_surveys_compare(surveys, s, &places);
	if (sb_surveys_places_say(&places, job->unit, text))
		fprintf(stderr, "sagbend: note: %s\n", text);
}

/* A rehearsal in memory: each reading is looked at as if those before it had been logged. */
static int look_at_all(
	const struct job *job, const struct surveys *surveys, const char *reason, struct sb_err *err)
{
	struct solution s = { 0 };
	struct job copy;
	size_t changed;
	int status = 0;

	sb_job_copy(job, &copy);
	if (sb_solve(&copy, &s, NULL, err))
		status = -1;
	for (size_t i = 0; i < surveys->count && status == 0; i++) {
		struct reading r = surveys->list[i].reading;
		if (r.reason[0] == '\0')
			sb_copy(r.reason, sizeof r.reason, reason_for(&surveys->list[i], reason));
		status = sb_acting_look(&copy, &s, &r, &surveys->list[i].depths, err);
		if (status) {
			sb_fail_within(err, "Line %d, joint %d: ", surveys->list[i].line, r.joint);
			break;
		}
		r.leg = sb_job_leg(&copy);
		r.joint = sb_job_in_ground(&copy) + 1;
		r.id = copy.reading_count ? copy.readings[copy.reading_count - 1].id + 1 : 1;
		sb_job_add_reading(&copy, &r);
		status = sb_solve_joint(&copy, &s, &changed, err);
	}
	if (status == 0)
		say_places(surveys, job, &s);
	sb_solution_clear(&s);
	sb_job_clear(&copy);
	return status;
}

/* A reading needs the reason only where it looks like a slip; the others stay without one. */
static int log_one(struct sb_store *store, const char *who, const struct survey *survey, const char *reason,
	struct sb_err *err)
{
	struct suspicion found[SB_SUSPICIONS];
	struct reading r = survey->reading;
	size_t count =
		sb_blunder_look(sb_store_job(store), sb_store_solution(store), &r, &survey->depths, found);

	if (count && found[0].held && r.reason[0] == '\0')
		sb_copy(r.reason, sizeof r.reason, reason_for(survey, reason));
	return sb_store_log(store, r.who[0] ? r.who : who, &r, err);
}

static const char *name_of(const char *path)
{
	return sb_same(path, "-") ? "standard input" : path;
}

static int import(struct sb_store *store, const char *who, const char *path, const char *reason, size_t *done,
	struct sb_err *err)
{
	struct sb_problems problems = { 0 };
	struct surveys surveys = { 0 };

	int status = sb_surveys_read(path, sb_store_job(store), &surveys, &problems);
	sb_acting_say_problems(&problems);
	if (status)
		sb_fail(err, SB_FORMAT, "%.200s has %zu error%s, listed above. Nothing was logged.",
			name_of(path), problems.errors, problems.errors == 1 ? "" : "s");
	else
		status = look_at_all(sb_store_job(store), &surveys, reason, err);
	for (*done = 0; status == 0 && *done < surveys.count; (*done)++) {
		status = log_one(store, who, &surveys.list[*done], reason, err);
		if (status)
			sb_fail_within(err, "%zu of %zu joints are logged; then, at line %d: ", *done,
				surveys.count, surveys.list[*done].line);
	}
	sb_problems_clear(&problems);
	sb_surveys_clear(&surveys);
	return status;
}

static int run(const struct invocation *in)
{
	char reason[SB_REMARK_TEXT];
	struct sb_store *store = NULL;
	struct sb_err err = { 0 };
	const char *who;
	size_t done = 0;

	if (sb_acting_reason(in, false, reason, &err) || sb_acting_there(in->positional[1], &err) ||
		sb_acting_open(in, &store, &who, &err))
		return sb_command_fail(&err);
	int status = import(store, who, in->positional[1], reason, &done, &err);
	if (status == 0) {
		status = sb_acting_say("%zu joint%s logged from %s.", done, done == 1 ? "" : "s",
			name_of(in->positional[1]));
		sb_acting_say_warnings(sb_store_solution(store));
	} else {
		status = sb_command_fail(&err);
	}
	sb_store_close(store);
	return status;
}

const struct command sb_cmd_import = {
	.name = "import",
	.arguments = "JOB.bore SURVEYS.csv [--reason TEXT] [--by WHO]",
	.summary = "logs the surveys of a CSV file, each joint as an act of its own",
	.detail =
		"Columns in any order: inclination, azimuth, and any other field of the row by name; joint, bit_depth and "
		"survey_depth are held against the count; reason, who and time are kept. All rows are looked at first: "
		"with an error, or a reading that looks like a slip and no --reason, nothing is logged. Where the file has easting, "
		"northing and elevation too, as exports have, it says whether they come out the same. '-' reads standard input.",
	.least = 2,
	.most = 2,
	.options = options,
	.run = run,
};
