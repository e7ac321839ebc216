/* sagbend rehearse: bores drilled by simulation, to train on and to measure the steering with. Nothing of it
 * is a record.
 */
#include "base/str.h"
#include "cli/acting.h"
#include "cli/commands.h"
#include "geom/angle.h"
#include "io/json.h"
#include "io/rows.h"
#include "io/sheet.h"
#include "io/write.h"
#include "model/rehearsal.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define GROUNDS "nominal, face-error, weak-soil, noisy, azimuth-bias or steel-nearby"

static const struct option options[] = {
	{ "sheet", "FOLDER", "the job sheet of the crossing to drill", true },
	{ "ground", "NAME", GROUNDS "; nominal when left out", false },
	{ "by", "advice|aim|informed",
		"who gives the orders: the program's advice, a simple rule, or the advice told the true response",
		false },
	{ "seed", "N", "the same seed drills the same ground; 1 when left out", false },
	{ "bores", "N", "how many bores, with seeds from N on; 1 when left out", false },
	{ "fix", "SIGMA",
		"one surface coil at mid-bore, so sure (one sigma, the job's unit), and the correction that it proposes taken",
		false },
	{ "vary", NULL, "vary the ground, the pushes and the noise from bore to bore", false },
	{ "json", NULL, "the measured figures as JSON", false },
	{ NULL, NULL, NULL, false },
};

struct asked {
	const struct rehearsal_scenario *ground;
	enum rehearsal_by by;
	int seed, bores;
	bool vary, json;
	double fix; /* sigma, job unit; negative: none */
};

static int parse_by(const char *text, enum rehearsal_by *by, struct sb_err *err)
{
	static const char *const words[] = { "advice", "aim", "informed" };
	static const enum rehearsal_by values[] = { BY_ADVICE, BY_AIM, BY_INFORMED };

	for (size_t i = 0; i < 3; i++)
		if (sb_same(text, words[i])) {
			*by = values[i];
			return 0;
		}
	return sb_fail(err, SB_USAGE, "--by '%.20s' is not advice, aim or informed.", text);
}

static int parse_fix(const struct invocation *in, struct asked *a, struct sb_err *err)
{
	const char *text = sb_command_value(in, "fix");
	struct number n;

	if (text == NULL)
		return 0;
	if (in->count)
		return sb_fail(err, SB_USAGE, "--fix goes without JOB.bore: there a person enters fixes.");
	if (sb_number_parse(text, &n, err) || n.value < 0)
		return sb_fail(err, SB_USAGE, "--fix '%.20s' is not how sure a coil is, like 0.5.", text);
	a->fix = n.value;
	return 0;
}

static int parse_asked(const struct invocation *in, struct asked *a, struct sb_err *err)
{
	const char *ground = sb_command_value(in, "ground"), *by = sb_command_value(in, "by");

	*a = (struct asked){ .ground = sb_rehearsal_scenario(ground ? ground : "nominal"),
		.by = BY_ADVICE,
		.seed = 1,
		.bores = 1,
		.vary = sb_command_flag(in, "vary"),
		.json = sb_command_flag(in, "json"),
		.fix = -1 };
	if (a->ground == NULL)
		return sb_fail(err, SB_USAGE, "--ground '%.30s' is not known: " GROUNDS ".", ground);
	if (by && in->count)
		return sb_fail(err, SB_USAGE,
			"--by goes without JOB.bore: there the person at the screen gives the orders.");
	if (by && parse_by(by, &a->by, err))
		return -1;
	if (sb_command_value(in, "seed") && sb_acting_whole(in, "seed", 0, 1000000000, &a->seed, err))
		return -1;
	if (sb_command_value(in, "bores") && sb_acting_whole(in, "bores", 1, 10000, &a->bores, err))
		return -1;
	if (parse_fix(in, a, err))
		return -1;
	return sb_command_value(in, "sheet")
		? 0
		: sb_fail(err, SB_USAGE, "--sheet FOLDER is missing: which crossing?");
}

static void put_json(struct sb_json *j, const struct frame *f, int seed, const struct rehearsal_figures *r)
{
	sb_json_object(j, NULL);
	sb_json_whole(j, "seed", seed);
	sb_json_whole(j, "joints", r->joints);
	sb_json_bool(j, "clean", r->clean);
	sb_json_bool(j, "out", r->out);
	sb_json_exact(j, "outside_share", r->outside_share);
	sb_json_exact(j, "worst_corridor_share", r->worst_share);
	sb_json_exact(j, "inside_from", r->inside_from);
	sb_json_exact(j, "exit_long", r->out ? sb_frame_typed(f, r->exit_long_m) : (double)NAN);
	sb_json_exact(j, "exit_right", r->out ? sb_frame_typed(f, r->exit_right_m) : (double)NAN);
	sb_json_bool(j, "exit_in_window", r->exit_in_window);
	sb_json_whole(j, "windows", r->windows);
	sb_json_whole(j, "broken_windows", r->broken_windows);
	sb_json_exact(j, "slid_share", r->slid_share);
	sb_json_exact(j, "turning_degrees", sb_deg(r->turning_rad));
	sb_json_end(j);
}

static void say(struct sb_str *out, const struct job *job, const struct frame *f, int seed,
	const struct rehearsal_figures *r)
{
	const char *unit = sb_unit_short(job->unit);

	sb_str_add(out,
		"seed %-6d %3d joints  %-9s outside %4.1f %%  exit %5.1f %s %s %5.1f %s %s  broken windows %d of %d  slid %2.0f %%\n",
		seed, r->joints, r->clean ? "clean" : "not clean", r->outside_share * 100,
		fabs(sb_frame_typed(f, r->exit_long_m)), unit, r->exit_long_m >= 0 ? "long," : "short,",
		fabs(sb_frame_typed(f, r->exit_right_m)), unit, r->exit_right_m >= 0 ? "right" : "left",
		r->broken_windows, r->windows, r->slid_share * 100);
}

static int drill(const struct job *sheet, const struct asked *a, int seed, struct rehearsal_figures *f,
	struct solution *s, struct job *job, struct sb_err *err)
{
	struct rehearsal *r =
		sb_rehearsal_new(sheet, &a->ground->ground, (unsigned long long)seed, a->vary, err);
	double sigma_m = a->fix * sb_unit_metres(sheet->unit);
	const struct fix_accuracy accuracy = { .level_m = sigma_m, .up_m = sigma_m };

	if (r == NULL)
		return -1;
	sb_job_copy(sheet, job);
	int status = a->fix < 0 ? sb_rehearsal_run(r, job, s, a->by, f, err)
				: sb_rehearsal_run_fixed(r, job, s, a->by, &accuracy, f, err);
	sb_rehearsal_free(r);
	return status;
}

static void put_path(struct sb_str *out, const struct job *job, const struct solution *s)
{
	struct rows_ask ask = { 0 };
	struct sb_err err = { 0 };

	sb_str_add(out, "REHEARSAL - the log that was made, as read; not a record\n");
	sb_rows_table(job, s, &ask, ROWS_TEXT, out, &err);
}

static int drill_all(const struct job *sheet, const struct asked *a, struct sb_str *out, struct sb_err *err)
{
	struct sb_json j = { 0 };
	int clean = 0, status = 0;

	sb_json_object(&j, NULL);
	sb_json_bool(&j, "rehearsal", true);
	sb_json_text(&j, "ground", a->ground->name);
	sb_json_text(&j, "unit", sb_unit_name(sheet->unit));
	sb_json_array(&j, "bores");
	if (!a->json)
		sb_str_add(out, "REHEARSAL of %s, ground %s: %s. Simulated; not a record.\n", sheet->name,
			a->ground->name, a->ground->help);
	for (int i = 0; i < a->bores && status == 0; i++) {
		struct rehearsal_figures f = { 0 };
		struct solution s = { 0 };
		struct job job = { 0 };
		status = drill(sheet, a, a->seed + i, &f, &s, &job, err);
		if (status == 0) {
			clean += f.clean;
			put_json(&j, &s.frame, a->seed + i, &f);
			if (!a->json && a->bores == 1)
				put_path(out, &job, &s);
			if (!a->json)
				say(out, &job, &s.frame, a->seed + i, &f);
		}
		sb_solution_clear(&s);
		sb_job_clear(&job);
	}
	sb_json_end(&j);
	sb_json_whole(&j, "clean", clean);
	sb_json_end(&j);
	if (a->json)
		sb_str_append(out, sb_str_get(&j.text), j.text.length);
	else if (a->bores > 1)
		sb_str_add(out, "REHEARSAL: %d of %d bores clean\n", clean, a->bores);
	sb_str_clear(&j.text);
	return status;
}

/* A job file for a person to drill on the screen. */
static int make_job(const struct invocation *in, struct job *sheet, const struct asked *a, struct sb_str *out,
	struct sb_err *err)
{
	const char *who;

	if (sb_command_who(in, &who, err) || sb_rehearsal_mark(sheet, a->ground, a->seed, err) ||
		sb_store_create(in->positional[0], sheet, who, err))
		return -1;
	sb_str_add(out,
		"%s: %s, ground %s. Not a record. Open it with: sagbend %s; there E drills the joint.\n",
		in->positional[0], sheet->name, a->ground->name, in->positional[0]);
	return 0;
}

static int run(const struct invocation *in)
{
	struct sb_problems problems = { 0 };
	struct sb_err err = { 0 };
	struct sb_str text = { 0 };
	struct asked asked;
	struct job sheet = { 0 };

	if (parse_asked(in, &asked, &err))
		return sb_command_fail(&err);
	int status = sb_sheet_read(sb_command_value(in, "sheet"), &sheet, &problems);
	sb_acting_say_problems(&problems);
	if (status)
		sb_fail(&err, SB_FORMAT, "The sheet has errors, listed above. Nothing was drilled.");
	else
		status = in->count ? make_job(in, &sheet, &asked, &text, &err)
				   : drill_all(&sheet, &asked, &text, &err);
	if (status == 0)
		status = sb_write_whole("-", false, sb_str_get(&text), text.length, &err);
	sb_str_clear(&text);
	sb_problems_clear(&problems);
	sb_job_clear(&sheet);
	return status ? sb_command_fail(&err) : EXIT_OK;
}

const struct command sb_cmd_rehearse = {
	.name = "rehearse",
	.arguments = "[JOB.bore] --sheet FOLDER [--ground NAME] [--seed N] [--by WAY] [--bores N] [...]",
	.summary = "drills bores by simulation, and measures them on the true hole",
	.detail =
		"A bore is clean when it never leaves the corridor, comes out in its window and breaks no window bend limit. The ground's "
		"truth is known only to the simulation. Nothing of it is a record, and everything that it prints says so.",
	.least = 0,
	.most = 1,
	.options = options,
	.run = run,
};
