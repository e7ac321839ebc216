/* What people did: the readings as they were logged, corrections, acknowledgements, shifts, notes. */
#include "base/mem.h"
#include "model/warning.h"

#include <stdio.h>
#include <string.h>

#include "report_parts.h"

#define COUNT(columns) (sizeof(columns) / sizeof *(columns))

/* ---- readings ---- */

static const struct table_column reading_columns[] = { { "joint", TABLE_FIGURES },
	{ "length", TABLE_FIGURES }, { "incl", TABLE_FIGURES }, { "azim", TABLE_FIGURES },
	{ "face", TABLE_FIGURES }, { "slid", TABLE_FIGURES }, { "thrust", TABLE_FIGURES },
	{ "torque", TABLE_FIGURES }, { "flow", TABLE_FIGURES }, { "stand- pipe", TABLE_FIGURES },
	{ "annu- lar", TABLE_FIGURES }, { "returns", TABLE_WORDS } };

static void put_reading(struct report *r, const struct reading *at)
{
	static const char *const fields[] = { "joint_length", "inclination", "azimuth", "tool_face", "slid",
		"thrust", "torque", "flow", "standpipe", "annular", "returns" };

	sb_document_cell(r->d, "%d", at->joint);
	for (size_t i = 0; i < COUNT(fields); i++)
		sb_document_cell(r->d, "%s", sb_row_field_get(sb_row_field(fields[i]), at));
}

static void put_remarks(struct report *r)
{
	static const struct table_column columns[] = { { "joint", TABLE_FIGURES }, { "begun", TABLE_WORDS },
		{ "ended", TABLE_WORDS }, { "by", TABLE_WORDS }, { "remarks", TABLE_WORDS } };
	bool begun = false;

	for (int joint = 1; joint <= sb_job_in_ground(r->job); joint++) {
		const struct reading *at = sb_job_joint(r->job, joint);
		if (at->remarks[0] == '\0')
			continue;
		if (!begun) {
			sb_document_subheading(r->d, "Remarks of joints");
			sb_document_table(r->d, columns, COUNT(columns));
			begun = true;
		}
		sb_document_cell(r->d, "%d", joint);
		sb_document_cell(r->d, "%s", at->started);
		sb_document_cell(r->d, "%s", at->ended);
		sb_document_cell(r->d, "%s", at->who);
		sb_document_cell(r->d, "%s", at->remarks);
	}
}

void report_readings(struct report *r)
{
	report_heading(r, "Readings as they were logged");
	sb_document_paragraph(r->d,
		"As typed, of the joints in the ground, corrected ones in their newest form; units as said above under "
		"\"reading units\". Everything else that was logged is in the job file and its exports.");
	sb_document_table(r->d, reading_columns, COUNT(reading_columns));
	for (int joint = 1; joint <= sb_job_in_ground(r->job); joint++)
		put_reading(r, sb_job_joint(r->job, joint));
	put_remarks(r);
}

/* ---- corrections ---- */

/* "inclination 82.1 -> 82.2; remarks (blank) -> sandy" */
static void say_difference(const struct reading *old, const struct reading *now, struct sb_str *out)
{
	for (size_t i = 0; i < sb_row_field_count; i++) {
		const struct row_field *f = &sb_row_fields[i];
		const char *before = sb_row_field_get(f, old), *after = sb_row_field_get(f, now);
		if (!sb_same(before, after))
			sb_str_add(out, "%s%s: %s, now %s", out->length ? "; " : "", f->label,
				*before ? before : "blank", *after ? after : "blank");
	}
	if (out->length == 0)
		sb_str_add(out, "nothing that was typed");
}

static void put_correction(struct report *r, const struct reading *now)
{
	const struct reading *old = sb_job_reading(r->job, now->corrects);
	struct sb_str difference = { 0 };
	char time[REPORT_WORDS];

	if (old)
		say_difference(old, now, &difference);
	if (now->leg > 1)
		sb_document_cell(r->d, "%d/%d", now->joint, now->leg);
	else
		sb_document_cell(r->d, "%d", now->joint);
	sb_document_cell(r->d, "%s", report_time(r->job, now->act, now->at_ms, time));
	sb_document_cell(r->d, "%s", now->who);
	sb_document_cell(r->d, "%s", sb_str_get(&difference));
	sb_document_cell(r->d, "%s", now->reason);
	sb_str_clear(&difference);
}

void report_corrections(struct report *r)
{
	static const struct table_column columns[] = { { "joint", TABLE_FIGURES }, { "when", TABLE_WORDS },
		{ "by", TABLE_WORDS }, { "what was, and what is now", TABLE_WORDS }, { "why", TABLE_WORDS } };
	size_t count = 0;

	report_heading(r, "Corrections");
	for (size_t i = 0; i < r->job->reading_count; i++)
		count += r->job->readings[i].corrects != 0;
	if (count == 0) {
		sb_document_paragraph(r->d, "None: every reading stands as it was first logged.");
		return;
	}
	sb_document_table(r->d, columns, COUNT(columns));
	for (size_t i = 0; i < r->job->reading_count; i++)
		if (r->job->readings[i].corrects)
			put_correction(r, &r->job->readings[i]);
}

/* ---- acknowledgements ---- */

static const char *label_of(const char *kind)
{
	enum warning_kind k;

	return sb_warning_kind_parse(kind, &k) == 0 ? sb_warning_sorts[k].label : kind;
}

static void put_acknowledgement(struct report *r, const struct acknowledgement *a)
{
	char time[REPORT_WORDS];

	sb_document_cell(r->d, "%s: %s", sb_level_word((enum level)a->level), label_of(a->kind));
	if (a->to_joint > a->joint)
		sb_document_cell(r->d, "%d to %d", a->joint, a->to_joint);
	else
		sb_document_cell(r->d, "%d", a->joint);
	sb_document_cell(r->d, "%d", a->leg);
	sb_document_cell(r->d, "%s", report_time(r->job, a->act, a->at_ms, time));
	sb_document_cell(r->d, "%s", a->who);
	sb_document_cell(r->d, "%s", a->reason);
}

void report_acknowledgements(struct report *r)
{
	static const struct table_column columns[] = { { "warning", TABLE_WORDS }, { "joints", TABLE_WORDS },
		{ "leg", TABLE_FIGURES }, { "when", TABLE_WORDS }, { "by", TABLE_WORDS },
		{ "why", TABLE_WORDS } };

	report_heading(r, "Warnings that were acknowledged");
	if (r->job->acknowledgement_count == 0) {
		sb_document_paragraph(r->d, "None.");
		return;
	}
	sb_document_table(r->d, columns, COUNT(columns));
	for (size_t i = 0; i < r->job->acknowledgement_count; i++)
		put_acknowledgement(r, &r->job->acknowledgements[i]);
}

/* ---- shifts and notes ---- */

static const char *words_of(enum act_kind kind)
{
	return kind == ACT_SHIFT_BEGIN ? "shift begun" : kind == ACT_SHIFT_END ? "shift ended" : "note";
}

void report_shifts(struct report *r)
{
	static const struct table_column columns[] = { { "when", TABLE_WORDS }, { "joint", TABLE_FIGURES },
		{ "by", TABLE_WORDS }, { "what", TABLE_WORDS }, { "words", TABLE_WORDS } };
	char time[REPORT_WORDS];
	size_t count = 0;

	report_heading(r, "Shifts and notes");
	for (size_t i = 0; i < r->job->act_count; i++) {
		const struct act *a = &r->job->acts[i];
		if (a->kind != ACT_SHIFT_BEGIN && a->kind != ACT_SHIFT_END && a->kind != ACT_NOTE)
			continue;
		if (count++ == 0)
			sb_document_table(r->d, columns, COUNT(columns));
		sb_document_cell(r->d, "%s", report_time(r->job, a->id, a->at_ms, time));
		sb_document_cell(r->d, "%d", a->joint);
		sb_document_cell(r->d, "%s", a->who);
		sb_document_cell(r->d, "%s", words_of(a->kind));
		sb_document_cell(r->d, "%s", a->text);
	}
	if (count == 0)
		sb_document_paragraph(r->d, "No shift was begun and no note was written.");
}
