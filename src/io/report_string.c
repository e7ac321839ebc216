/* The product pipe as it was laid out behind the exit: its joints, their welds and tests, and what is missing
 * of them. */
#include "base/measure.h"
#include "io/pipe_string.h"

#include <math.h>
#include <stdio.h>

#include "report_parts.h"

#define COUNT(columns) (sizeof(columns) / sizeof *(columns))

/* "good, X-2" */
static void put_record(struct report *r, const struct pipe_record *record, bool asked)
{
	sb_document_cell(r->d, "%s%s%s", sb_pipe_string_word(record, asked),
		record && *record->reference ? ", " : "", record ? record->reference : "");
}

static void put_joints(struct report *r, const struct pipe_string *p)
{
	static const struct table_column columns[] = { { "joint", TABLE_FIGURES },
		{ "length", TABLE_FIGURES }, { "from head", TABLE_FIGURES },
		{ "weld behind it", TABLE_WORDS }, { "inspection", TABLE_WORDS }, { "coating", TABLE_WORDS },
		{ "mark", TABLE_WORDS } };
	const struct job *job = r->job;
	bool coating = job->string_coating == ASKED_YES && job->material == MATERIAL_STEEL;

	if (p->count)
		sb_document_subheading(r->d, "Joints of the string, lengths in %s, and their records",
			sb_unit_long(job->unit));
	sb_document_table(r->d, columns, COUNT(columns));
	for (size_t i = 0; i < p->count; i++) {
		const struct string_joint *j = &p->list[i];
		sb_document_cell(r->d, "%d", j->pipe->joint);
		sb_document_cell(r->d, "%s", j->pipe->length.text);
		sb_document_cell(r->d, "%.1f", j->from_m / sb_unit_metres(job->unit));
		if (sb_pipe_string_weld_at(p, i)) {
			put_record(r, j->weld, job->string_weld == ASKED_YES);
			put_record(r, j->inspection, job->string_inspection == ASKED_YES);
		} else {
			sb_document_cell(r->d, "%s", "");
			sb_document_cell(r->d, "%s", "");
		}
		put_record(r, j->coating, coating);
		sb_document_cell(r->d, "%s", j->pipe->mark);
	}
}

static void put_whole(struct report *r, const char *key, const struct pipe_record *record, bool asked)
{
	struct sb_str words = { 0 };

	sb_str_add(&words, "%s", sb_pipe_string_word(record, asked));
	if (record && sb_number_given(&record->pressure))
		sb_str_add(&words, ", held %s %s", record->pressure.text,
			sb_measure_unit(r->job->unit, MEASURE_PRESSURE));
	if (record && sb_number_given(&record->hours))
		sb_str_add(&words, " for %s hours", record->hours.text);
	if (record && *record->reference)
		sb_str_add(&words, ", %s", record->reference);
	sb_document_pair(r->d, key, "%s", sb_str_get(&words));
	sb_str_clear(&words);
}

void report_string(struct report *r)
{
	static const enum act_kind kinds[] = { ACT_PIPE, ACT_PIPE_RECORD };
	struct pipe_string p;
	struct sb_str length = { 0 };

	if (r->job->pipe_count == 0 && r->job->pipe_record_count == 0)
		return;
	report_heading(r, "The pipe string");
	sb_pipe_string_look(r->job, &p);
	sb_pipe_string_length(r->job, &p, &length);
	sb_document_pair(
		r->d, "laid out", "%zu joint%s, %s", p.count, p.count == 1 ? "" : "s", sb_str_get(&length));
	put_whole(r, "pressure test", p.test, r->job->string_test == ASKED_YES);
	put_whole(r, "drag section", p.drag, r->job->string_drag == ASKED_YES);
	if (p.lacks.count == 0)
		sb_document_pair(r->d, "missing", "nothing that the contract asks of the string");
	for (size_t i = 0; i < p.lacks.count; i++)
		sb_document_pair(r->d, i ? "" : "missing", "%s", p.lacks.text[i]);
	put_joints(r, &p);
	report_struck(r, kinds, COUNT(kinds));
	sb_str_clear(&length);
	sb_pipe_string_clear(&p);
}
