/* The hole after the pilot: how it was opened, pass by pass, and what the drilling fluid did in it. Both are
 * the words and figures of their own pages (`pass`, `fluid`). */
#include "io/fluid.h"
#include "io/opening.h"
#include "model/acceptance.h"

#include <math.h>
#include <stdio.h>

#include "report_parts.h"

#define COUNT(columns) (sizeof(columns) / sizeof *(columns))

/* ---- opening ---- */

static void put_span(struct report *r, const struct opening_span *s)
{
	if (s->count == 0)
		sb_document_cell(r->d, "%s", "");
	else if (s->low < s->high)
		sb_document_cell(r->d, "%.8g to %.8g", s->low, s->high);
	else
		sb_document_cell(r->d, "%.8g", s->low);
}

static bool any_value(const struct opening *o)
{
	for (size_t i = 0; i < o->count; i++)
		for (int k = 0; k < OPENING_VALUES; k++)
			if (o->list[i].values[k].count)
				return true;
	return false;
}

/* What the rig showed, smallest to largest of the joints that have it. */
static void put_ranges(struct report *r, const struct opening *o)
{
	static const struct table_column columns[] = { { "pass", TABLE_FIGURES }, { "pull", TABLE_WORDS },
		{ "torque", TABLE_WORDS }, { "flow", TABLE_WORDS }, { "pump", TABLE_WORDS },
		{ "annular", TABLE_WORDS }, { "mean min a joint", TABLE_FIGURES } };

	if (!any_value(o))
		return;
	sb_document_subheading(r->d,
		"What the rig showed: pull in %s, torque in %s, flow in %s, pressures in %s",
		sb_opening_value_unit(r->job, OPENING_PULL), sb_opening_value_unit(r->job, OPENING_TORQUE),
		sb_opening_value_unit(r->job, OPENING_FLOW), sb_opening_value_unit(r->job, OPENING_PRESSURE));
	sb_document_table(r->d, columns, COUNT(columns));
	for (size_t i = 0; i < o->count; i++) {
		const struct opening_pass *p = &o->list[i];
		sb_document_cell(r->d, "%d", p->number);
		for (int k = 0; k < OPENING_VALUES; k++)
			put_span(r, &p->values[k]);
		sb_document_cell(r->d, p->timed ? "%.0f" : "", p->timed ? p->whole_min / p->timed : 0.0);
	}
}

void report_opening(struct report *r)
{
	static const enum act_kind kinds[] = { ACT_PASS, ACT_PASS_JOINT, ACT_PASS_END };
	struct opening o;

	if (r->job->pass_count == 0 && sb_job_accepted(r->job) == NULL)
		return;
	report_heading(r, "Opening the hole");
	if (r->job->pass_count == 0) {
		sb_document_paragraph(r->d, "The pilot is accepted; no pass has begun.");
		return;
	}
	size_t from = r->d->count;
	sb_opening_take(r->job, &o);
	sb_opening_blocks(r->d, r->job, &o, r->about->at_ms);
	report_nest(r, from);
	put_ranges(r, &o);
	report_struck(r, kinds, COUNT(kinds));
	sb_opening_clear(&o);
}

/* ---- drilling fluid ---- */

void report_fluid(struct report *r)
{
	static const enum act_kind kinds[] = { ACT_RETURNS };
	bool estimate =
		sb_number_given(&r->job->fluid_weight) || sb_number_given(&r->job->fluid_return_weight);

	if (!estimate && r->job->fluid_event_count == 0)
		return;
	report_heading(r, "Drilling fluid");
	sb_document_paragraph(r->d, "An estimate, but for what was measured: for the engineer to verify.");
	size_t from = r->d->count;
	sb_fluid_blocks(r->d, r->job, r->s, 0);
	if (estimate)
		sb_fluid_table(r->d, r->job, r->s, 0);
	report_nest(r, from);
	report_struck(r, kinds, COUNT(kinds));
}
