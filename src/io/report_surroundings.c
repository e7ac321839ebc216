/* How the hole passes the obstacles, and the ground over it: as drilled, wall to wall, of the hole that is
 * judged. */
#include "model/cover.h"

#include <math.h>
#include <stdio.h>

#include "report_parts.h"

#define COUNT(columns) (sizeof(columns) / sizeof *(columns))

static void put_length(struct report *r, double metres)
{
	if (isnan(metres))
		sb_document_cell(r->d, "%s", "");
	else
		sb_document_cell(r->d, "%.2f", report_typed(r, metres));
}

static void put_passing(struct report *r, const struct obstacle *o, const struct passing *p)
{
	char station[REPORT_WORDS];

	sb_document_cell(r->d, "%s%s%s", o->name, *o->kind ? ", " : "", o->kind);
	if (!p->known) {
		for (int i = 0; i < 6; i++)
			sb_document_cell(r->d, "%s", "");
		sb_document_cell(r->d, "not reached");
		return;
	}
	sb_document_cell(r->d, "%d", p->joint);
	sb_document_cell(r->d, "%s", report_station(r, p->station_m, station));
	put_length(r, p->pilot_m);
	put_length(r, p->wall_m);
	put_length(r, r->s->uncertainty.line_factor * p->sigma_m);
	put_length(r, p->required_m);
	sb_document_cell(r->d, "%s", isnan(p->required_m) ? "none asked" : sb_level_word(p->level));
}

static void put_cover(struct report *r, const struct clearance_ask *ask)
{
	struct cover c = sb_cover_drilled(ask);
	char station[REPORT_WORDS];

	if (!c.known) {
		sb_document_pair(r->d, "cover", "not judged: none is asked for, or the ground is not known");
		return;
	}
	sb_document_pair(r->d, "cover",
		"nearest to what is asked for at joint %d, station %s: %.2f %s, give or take %.2f; at least %.2f: %s",
		c.joint, report_station(r, c.station_m, station), report_typed(r, c.cover_m), r->unit,
		report_typed(r, r->s->uncertainty.line_factor * c.sigma_m), report_typed(r, c.required_m),
		sb_level_word(c.level));
}

void report_surroundings(struct report *r)
{
	static const struct table_column columns[] = { { "obstacle", TABLE_WORDS },
		{ "joint", TABLE_FIGURES }, { "station", TABLE_FIGURES }, { "pilot hole", TABLE_FIGURES },
		{ "judged", TABLE_FIGURES }, { "give or take", TABLE_FIGURES },
		{ "asked for", TABLE_FIGURES }, { "verdict", TABLE_WORDS } };
	const struct clearance_ask ask = sb_solution_clearance(r->job, r->s);

	report_heading(r, "Clearance and cover");
	sb_document_paragraph(r->d,
		"Smallest distances of what is drilled, wall to wall, in %s; judged is %s. An obstacle is taken to lie where "
		"the job sheet has it.",
		sb_unit_long(r->job->unit), sb_hole_word(&ask.around->hole));
	if (ask.around->count == 0)
		sb_document_paragraph(r->d, "The job sheet names no obstacle.");
	sb_document_table(r->d, columns, COUNT(columns));
	for (size_t i = 0; i < ask.around->count; i++) {
		struct passing p = sb_clearance_drilled(&ask, i);
		put_passing(r, &ask.around->obstacles[i], &p);
	}
	put_cover(r, &ask);
}
