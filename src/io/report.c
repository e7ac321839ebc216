/* The order of the as-built report, its head and its end, and the words that its parts share. */
#include "io/report.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "report_parts.h"

/* Beyond this, in the job's unit, a radius says only that it is straight. */
#define STRAIGHT 99999

double report_typed(const struct report *r, double metres)
{
	return sb_frame_typed(&r->s->frame, metres);
}

const char *report_side(const struct report *r, double metres, const char *positive, const char *negative,
	char text[REPORT_WORDS])
{
	double value = report_typed(r, metres);
	bool none = fabs(value) < 0.005;

	snprintf(text, REPORT_WORDS, "%.2f%s%s", fabs(value), none ? "" : " ",
		none		    ? ""
			: value > 0 ? positive
				    : negative);
	return text;
}

const char *report_radius(const struct report *r, double radius_m, char text[REPORT_WORDS])
{
	double radius = report_typed(r, radius_m);

	if (radius < STRAIGHT)
		snprintf(text, REPORT_WORDS, "%.0f", radius);
	else
		snprintf(text, REPORT_WORDS, "straight");
	return text;
}

const char *report_station(const struct report *r, double station_m, char text[REPORT_WORDS])
{
	char station[SB_AXIS_TEXT];

	sb_axis_station(station_m, r->job->unit, 2, station);
	snprintf(text, REPORT_WORDS, "%s", station);
	return text;
}

const char *report_time(const struct job *job, int64_t act, int64_t at_ms, char text[REPORT_WORDS])
{
	char clock[SB_TIME_TEXT], day[SB_TIME_TEXT];
	int offset = sb_job_offset_min(job, act, at_ms);

	sb_time_day(at_ms + (int64_t)offset * 60000, day);
	sb_time_short(at_ms, offset, clock);
	snprintf(text, REPORT_WORDS, "%s %s", day, clock);
	return text;
}

const char *report_day(const struct job *job, int64_t act, int64_t at_ms, char text[REPORT_WORDS])
{
	report_time(job, act, at_ms, text);
	*strchr(text, ' ') = '\0';
	return text;
}

void report_heading(struct report *r, const char *words)
{
	sb_document_heading(r->d, "%d. %s", ++r->part, words);
}

void report_nest(struct report *r, size_t from)
{
	for (size_t i = from; i < r->d->count; i++)
		if (r->d->blocks[i].kind == BLOCK_HEADING)
			r->d->blocks[i].kind = BLOCK_SUBHEADING;
}

static bool struck_here(const struct report *r, int entry, const enum act_kind *kinds, size_t count)
{
	const struct act *a = sb_job_act(r->job, entry);

	for (size_t i = 0; a && i < count; i++)
		if (a->kind == kinds[i])
			return true;
	return false;
}

void report_struck(struct report *r, const enum act_kind *kinds, size_t count)
{
	static const struct table_column columns[] = { { "entry", TABLE_FIGURES },
		{ "struck out", TABLE_WORDS }, { "by", TABLE_WORDS },
		{ "what it was, and why", TABLE_WORDS } };
	char time[REPORT_WORDS];
	bool begun = false;

	for (size_t i = 0; i < r->job->strike_count; i++) {
		const struct strike *strike = &r->job->strikes[i];
		if (!struck_here(r, strike->entry, kinds, count))
			continue;
		if (!begun) {
			sb_document_subheading(r->d, "Struck out: counts for nothing");
			sb_document_table(r->d, columns, sizeof columns / sizeof *columns);
			begun = true;
		}
		sb_document_cell(r->d, "%d", strike->entry);
		sb_document_cell(r->d, "%s", report_time(r->job, strike->fact.act, strike->fact.at_ms, time));
		sb_document_cell(r->d, "%s", strike->fact.who);
		sb_document_cell(r->d, "%s", strike->fact.words);
	}
}

/* Everybody who has to put a name to it. */
static void put_end(struct report *r)
{
	sb_document_page(r->d); /* what is signed stands beside the signatures */
	report_heading(r, "What this report rests on, and who signs it");
	sb_document_pair(r->d, "job file", "%s", r->about->file);
	sb_document_pair(r->d, "its digest", "%s", r->about->head);
	sb_document_pair(r->d, "made by", "%s", r->about->who);
	sb_document_pair(r->d, "with", "%s", r->about->program);
	sb_document_paragraph(r->d,
		"Every figure is computed from what was read and typed, which the job file keeps unchanged: no row of it "
		"is ever written over, and each carries a digest of itself and the row before. The digest above is that "
		"of the last row when this report was made; `sagbend verify` looks at all of them.");
	sb_document_paragraph(r->d, "%s", sb_caution);
	sb_document_sign(r->d, "steering hand: readings taken and logged as said here");
	sb_document_sign(r->d, "contractor: drilled as said here");
	sb_document_sign(r->d, "engineer: seen, with what came of each non-conformance");
	sb_document_sign(r->d, "owner: received");
}

static void begin(const struct job *job, const struct about *about, struct document *out)
{
	char title[SB_NAME_TEXT + 64], running[2 * SB_NAME_TEXT + 64];
	const char *of = job->pass_count || job->pull_begin_count ? "crossing" : "pilot bore";

	snprintf(title, sizeof title, "As-built report of the %s: %s", of, job->name);
	snprintf(running, sizeof running, "%s%s%s, as-built report of the %s", job->name,
		*job->owner ? ", " : "", job->owner, of);
	sb_document_begin(out,
		&(struct document_head){ .title = title,
			.running = running,
			.mark = sb_about_mark(job),
			.author = about->who,
			.program = about->program,
			.at_ms = about->at_ms,
			.letter = job->unit != UNIT_M });
}

void sb_report(
	const struct job *job, const struct solution *s, const struct about *about, struct document *out)
{
	struct report r = { .job = job,
		.s = s,
		.about = about,
		.d = out,
		.setup = sb_solution_setup(job, s),
		.unit = sb_unit_short(job->unit) };

	begin(job, about, out);
	report_summary(&r);
	report_nonconformances(&r);
	report_acceptance(&r);
	report_measured(&r);
	report_surroundings(&r);
	report_fixes(&r);
	report_position(&r);
	report_bend(&r);
	report_uncertainty(&r);
	report_opening(&r);
	report_fluid(&r);
	report_string(&r);
	report_pipe(&r);
	report_pull(&r);
	report_readings(&r);
	report_withdrawn(&r);
	report_corrections(&r);
	report_acknowledgements(&r);
	report_shifts(&r);
	put_end(&r);
}
