/* What has to be decided: non-conformances and what came of them, the acceptance, the independent fixes. */
#include "base/mem.h"
#include "model/acceptance.h"
#include "model/fact.h"

#include <math.h>
#include <stdio.h>

#include "report_parts.h"

#define COUNT(columns) (sizeof(columns) / sizeof *(columns))

/* ---- non-conformances ---- */

static void put_nonconformance(struct report *r, const struct nonconformance *n)
{
	struct sb_str joints = { 0 }, state = { 0 };
	char station[REPORT_WORDS];

	sb_nonconformance_joints(n, &joints);
	sb_nonconformance_say(n, &state);
	sb_document_cell(r->d, "%d", n->number);
	sb_document_cell(r->d, "%s, leg %d, %s", sb_warning_sorts[n->warning->kind].label, n->warning->leg,
		sb_str_get(&joints));
	sb_document_cell(r->d, "%s", report_station(r, n->warning->station_m, station));
	sb_document_cell(r->d, "%s", n->warning->text);
	sb_document_cell(r->d, "%s", sb_str_get(&state));
	sb_str_clear(&joints);
	sb_str_clear(&state);
}

void report_nonconformances(struct report *r)
{
	static const struct table_column columns[] = { { "no.", TABLE_FIGURES },
		{ "what, where", TABLE_WORDS }, { "station", TABLE_FIGURES }, { "how much", TABLE_WORDS },
		{ "what came of it", TABLE_WORDS } };
	struct nonconformance *list;
	size_t count = sb_nonconformances(r->job, r->s, &list);

	report_heading(r, "Non-conformances");
	sb_document_paragraph(r->d,
		count ? "Every breach of a limit of the contract that ever was, on withdrawn legs too. Each is redrilled, "
			"accepted by the engineer with a reference, or open."
		      : "None: no limit of the contract was broken, on any leg.");
	if (count)
		sb_document_table(r->d, columns, COUNT(columns));
	for (size_t i = 0; i < count; i++)
		put_nonconformance(r, &list[i]);
	sb_free(list);
}

/* ---- acceptance ---- */

void report_acceptance(struct report *r)
{
	static const struct table_column columns[] = { { "what is asked before acceptance", TABLE_WORDS },
		{ "done", TABLE_WORDS }, { "how it stands", TABLE_WORDS } };
	struct hold_points h = { 0 };
	struct sb_str words = { 0 };

	report_heading(r, "Acceptance of the pilot");
	sb_acceptance_look(r->job, r->s, &h);
	sb_acceptance_say(r->job, &words);
	sb_document_paragraph(r->d, "%s", sb_str_get(&words));
	sb_document_table(r->d, columns, COUNT(columns));
	for (size_t i = 0; i < h.count; i++) {
		sb_document_cell(r->d, "%s", h.list[i].text);
		sb_document_cell(r->d, "%s", h.list[i].done ? "yes" : h.list[i].asked ? "NO" : "not asked");
		sb_document_cell(r->d, "%s", h.list[i].state);
	}
	sb_str_clear(&words);
	sb_acceptance_clear(&h);
}

/* ---- fixes ---- */

static void put_fix(struct report *r, const struct fix_view *v)
{
	const struct fix *f = sb_job_fix(r->job, v->fix);
	struct sb_str words = { 0 };
	char time[REPORT_WORDS];

	sb_fixes_say(&r->setup, &r->s->fixes, v, &words);
	sb_document_cell(r->d, "%lld", (long long)v->fix);
	sb_document_cell(r->d, "%s", report_time(r->job, f->fact.act, f->fact.at_ms, time));
	sb_document_cell(r->d, "%s", f->fact.who);
	sb_document_cell(r->d, "%s", sb_fixes_verdict(v));
	sb_document_cell(r->d, "%s", sb_str_get(&words));
	sb_str_clear(&words);
}

/* What is left at each fix after the correction that all of them together propose. */
static void put_residuals(struct report *r)
{
	static const struct table_column columns[] = { { "fix", TABLE_FIGURES }, { "along", TABLE_FIGURES },
		{ "across", TABLE_FIGURES }, { "up", TABLE_FIGURES }, { "stands out", TABLE_WORDS } };
	const struct proposal *p = &r->s->fixes.proposal;

	sb_document_subheading(
		r->d, "What the proposed correction leaves: fix minus path, %s", sb_unit_long(r->job->unit));
	sb_document_table(r->d, columns, COUNT(columns));
	for (size_t i = 0; i < p->count; i++) {
		const struct proposal_fix *f = &p->fixes[i];
		const struct fix_view *v = &r->s->fixes.list[f->view];
		sb_document_cell(r->d, "%lld", (long long)v->fix);
		for (int axis = 0; axis < FIX_AXES; axis++)
			if (v->seen[axis])
				sb_document_cell(r->d, "%+.2f", report_typed(r, f->left_m[axis]));
			else
				sb_document_cell(r->d, "%s", "");
		sb_document_cell(r->d, "%s", f->suspect ? "yes" : "no");
	}
	sb_document_paragraph(
		r->d, "Along the line ahead, across it to the right, and up are positive here.");
}

static void put_proposal(struct report *r)
{
	struct sb_str words = { 0 };

	sb_fixes_say_fit(r->job, &r->s->fixes, &words);
	sb_document_paragraph(r->d, "%s", sb_str_get(&words));
	if (r->s->fixes.proposal.status == PROPOSAL_MADE) {
		for (int t = 0; t < CORRECT_TERMS; t++) {
			words.length = 0;
			sb_fixes_say_term(&r->s->fixes, t, &words);
			sb_document_pair(r->d, t == 0 ? "proposed" : "", "%s", sb_str_get(&words));
		}
		put_residuals(r);
	}
	sb_str_clear(&words);
}

static void put_adjustments(struct report *r)
{
	static const struct table_column columns[] = { { "when", TABLE_WORDS }, { "by", TABLE_WORDS },
		{ "correction of the path", TABLE_WORDS }, { "in force", TABLE_WORDS } };
	const struct adjustment *holds = sb_job_adjustment(r->job);
	char time[REPORT_WORDS];

	if (r->job->adjustment_count == 0)
		return;
	sb_document_subheading(r->d, "Corrections of the path that were taken, or taken back");
	sb_document_table(r->d, columns, COUNT(columns));
	for (size_t i = 0; i < r->job->adjustment_count; i++) {
		const struct adjustment *a = &r->job->adjustments[i];
		sb_document_cell(r->d, "%s", report_time(r->job, a->fact.act, a->fact.at_ms, time));
		sb_document_cell(r->d, "%s", a->fact.who);
		sb_document_cell(r->d, "%s%s", a->taken ? "" : "taken back: ", a->fact.words);
		sb_document_cell(r->d, "%s", a == holds ? "yes" : "no");
	}
}

void report_fixes(struct report *r)
{
	static const struct table_column columns[] = { { "fix", TABLE_FIGURES }, { "when", TABLE_WORDS },
		{ "by", TABLE_WORDS }, { "verdict", TABLE_WORDS }, { "against the path", TABLE_WORDS } };

	report_heading(r, "Independent fixes");
	if (r->s->fixes.count == 0) {
		sb_document_paragraph(r->d,
			"None was taken: the position rests on the readings alone, and its uncertainty grows from the entry "
			"to the exit.");
		return;
	}
	sb_document_table(r->d, columns, COUNT(columns));
	for (size_t i = 0; i < r->s->fixes.count; i++)
		put_fix(r, &r->s->fixes.list[i]);
	put_proposal(r);
	put_adjustments(r);
}
