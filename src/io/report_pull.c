/* The pull as it was measured, beside what is estimated for each position, and what came after it. Sentences
 * are those of `pull`. */
#include "base/measure.h"
#include "io/pullback.h"

#include <math.h>
#include <stdio.h>

#include "report_parts.h"

#define COUNT(columns) (sizeof(columns) / sizeof *(columns))

/* How it began, and what was missing then. */
static void put_begun(struct report *r, const struct pullback *p)
{
	char time[REPORT_WORDS];

	sb_document_pair(r->d, "begun", "%s by %s",
		report_time(r->job, p->begun->fact.act, p->begun->fact.at_ms, time), p->begun->fact.who);
	if (*p->begun->missing) {
		sb_document_pair(r->d, "missing then", "%s", p->begun->missing);
		sb_document_pair(r->d, "why all the same", "%s", p->begun->fact.words);
	}
}

static void put_sentences(struct report *r, const struct pullback *p)
{
	struct sb_str words = { 0 };

	sb_pullback_stand(r->job, p, &words);
	sb_document_pair(r->d, "head", "%s", sb_str_get(&words));
	sb_str_clear(&words);
	sb_pullback_time(r->job, p, &words);
	sb_document_pair(r->d, "time", "%s", sb_str_get(&words));
	sb_str_clear(&words);
	sb_pullback_end_say(r->job, p, &words);
	sb_document_pair(r->d, "after it", "%s", sb_str_get(&words));
	sb_str_clear(&words);
}

/* The largest force that was measured, against the contract's limit. */
static void put_largest(struct report *r, const struct pullback *p)
{
	const struct pulled *most = NULL;
	size_t above = 0, below = 0;

	for (size_t i = 0; i < p->count; i++) {
		if (!isnan(p->list[i].force_n) && (most == NULL || p->list[i].force_n > most->force_n))
			most = &p->list[i];
		above += p->list[i].side == BAND_ABOVE;
		below += p->list[i].side == BAND_BELOW;
	}
	if (most == NULL)
		return;
	sb_document_pair(r->d, "largest force", "%s %s at joint %d", most->entry->force.text,
		sb_measure_unit(r->job->unit, MEASURE_FORCE), most->entry->joint);
	if (p->safe_n > 0)
		sb_document_pair(r->d, "safe force", "%s %s by the contract: %.0f %% of it was used%s",
			r->job->safe_force.text, sb_measure_unit(r->job->unit, MEASURE_FORCE),
			most->share * 100, most->share > 1 ? ", OVER the limit" : "");
	else
		sb_document_pair(r->d, "safe force", "the sheet sets none ([pull] safe_force)");
	sb_document_pair(r->d, "band", "%zu of %zu joints above the estimate's band, %zu below it", above,
		p->count, below);
}

/* ---- joint by joint ---- */

static void put_force(struct report *r, double newton)
{
	sb_document_cell(r->d, isnan(newton) ? "" : "%.*f", r->job->unit == UNIT_M ? 1 : 0,
		sb_measure_typed(r->job->unit, MEASURE_FORCE, newton));
}

static void put_joint(struct report *r, const struct pulled *j)
{
	char station[REPORT_WORDS];

	sb_document_cell(r->d, "%d", j->entry->joint);
	sb_document_cell(r->d, "%s", report_station(r, j->station_m, station));
	sb_document_cell(r->d, "%s", j->entry->force.text);
	put_force(r, j->band.force_n);
	put_force(r, j->band.low_n);
	put_force(r, j->band.high_n);
	sb_document_cell(r->d, "%s%s", j->share > 1 ? "OVER the limit" : sb_pullback_side(j->side),
		j->jumped ? ", jump" : "");
	sb_document_cell(r->d, "%s", j->entry->torque.text);
	sb_document_cell(r->d, "%s", j->entry->flow.text);
	sb_document_cell(r->d, "%s", j->entry->annular.text);
	sb_document_cell(r->d, "%s", j->entry->started);
	sb_document_cell(r->d, "%s", j->entry->ended);
}

static void put_joints(struct report *r, const struct pullback *p)
{
	static const struct table_column columns[] = { { "joint", TABLE_FIGURES },
		{ "head at", TABLE_FIGURES }, { "force", TABLE_FIGURES }, { "esti- mate", TABLE_FIGURES },
		{ "low", TABLE_FIGURES }, { "high", TABLE_FIGURES }, { "band", TABLE_WORDS },
		{ "torque", TABLE_FIGURES }, { "flow", TABLE_FIGURES }, { "annu- lar", TABLE_FIGURES },
		{ "begun", TABLE_FIGURES }, { "ended", TABLE_FIGURES } };
	enum unit u = r->job->unit;

	if (p->count == 0)
		return;
	sb_document_subheading(r->d,
		"Measured beside estimated, joint by joint: forces in %s, torque in %s, flow in %s, pressure in %s",
		sb_measure_unit(u, MEASURE_FORCE), sb_measure_unit(u, MEASURE_TORQUE),
		sb_measure_unit(u, MEASURE_FLOW), sb_measure_unit(u, MEASURE_PRESSURE));
	sb_document_paragraph(r->d,
		"The estimate is at the pull head, for the engineer to verify: what drill pipe, reamer and swivel take "
		"between it and the rig's gauge is not in it. Low and high are the band of its sensitivity.");
	sb_document_table(r->d, columns, COUNT(columns));
	for (size_t i = 0; i < p->count; i++)
		put_joint(r, &p->list[i]);
}

void report_pull(struct report *r)
{
	static const enum act_kind kinds[] = { ACT_PULL, ACT_PULL_JOINT, ACT_PULL_END };
	struct clearance_ask ask = sb_solution_clearance(r->job, r->s);
	struct pull_bands bands = { 0 };
	struct pullback p;

	if (r->job->pull_begin_count == 0)
		return;
	report_heading(r, "The pull");
	sb_pull_bands_make(&ask, &bands);
	sb_pullback_take(r->job, &bands, &p);
	if (p.begun) {
		put_begun(r, &p);
		put_sentences(r, &p);
		put_largest(r, &p);
		if (*bands.unknown)
			sb_document_paragraph(r->d, "No estimate. %s", bands.unknown);
		put_joints(r, &p);
	} else {
		sb_document_paragraph(r->d, "It has not begun: what was entered of it is struck out.");
	}
	report_struck(r, kinds, COUNT(kinds));
	sb_pullback_clear(&p);
	sb_pull_bands_clear(&bands);
}
