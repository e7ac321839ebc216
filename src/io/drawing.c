/* The plan-and-profile sheet of a bore, and the graphs and tables behind it, as an engineer signs them. One
 * drawing for PDF and SVG. Every figure and every stroke comes from where the screens and the other exports
 * have theirs.
 */
#include "base/mem.h"
#include "base/str.h"
#include "model/acceptance.h"

#include <stdio.h>

#include "drawing_parts.h"
#include "export.h"

static void draw_sheet(struct drawing *d, size_t number)
{
	struct drawing_sheet sheet = drawing_sheet_at(d, number);
	char from[SB_AXIS_TEXT], to[SB_AXIS_TEXT], contents[3 * SB_AXIS_TEXT];

	sb_axis_station(sheet.from_m, d->job->unit, 0, from);
	sb_axis_station(sheet.to_m, d->job->unit, 0, to);
	snprintf(contents, sizeof contents, "stations %s to %s", from, to);
	drawing_page(d,
		d->job->rehearsal[0]		  ? "Rehearsal, drilled by simulation: plan and profile"
			: d->s->path.on_count > 1 ? "Pilot bore as drilled: plan and profile"
						  : "Pilot bore, not drilled yet: plan and profile",
		contents);
	drawing_plan(d, &sheet);
	drawing_profile(d, &sheet);
	drawing_station_names(d, &sheet, d->band.top - 0.9);
	drawing_band(d, &sheet);
	drawing_heights(d, &sheet);
	drawing_offsets(d, &sheet);
	drawing_bends(d, &sheet);
}

static void note(const struct drawing *d, char *title, size_t size, struct paper_note *out)
{
	snprintf(title, size, "%s: pilot bore, plan and profile", d->job->name);
	*out = (struct paper_note){ .title = title,
		.author = d->about->who,
		.subject = sb_caution,
		.keywords = d->about->head,
		.program = d->about->program,
		.at_ms = d->about->at_ms };
}

static struct drawing *start(enum paper_kind kind, const struct export *e, struct sb_err *err)
{
	const struct drawing_size *size = drawing_size(e->paper, e->job->unit);
	char title[SB_NAME_TEXT + 64];
	struct paper_note says;

	if (size == NULL) {
		drawing_size_refuse(e->paper, err);
		return NULL;
	}
	struct drawing *d = sb_alloc(sizeof *d);
	*d = (struct drawing){ .job = e->job, .s = e->solution, .about = e->about, .size = *size };
	note(d, title, sizeof title, &says);
	if (sb_paper_new(kind, &says, &d->paper, err)) {
		sb_free(d);
		return NULL;
	}
	d->line_count = sb_about_lines(d->job, d->about, d->lines);
	d->breach_count = sb_nonconformances(d->job, d->s, &d->breaches);
	d->clear = sb_solution_clearance(d->job, d->s);
	sb_acceptance_say(d->job, &d->acceptance);
	drawing_lay_out(d);
	return d;
}

static int draw(enum paper_kind kind, const struct export *e, struct sb_str *out, struct sb_err *err)
{
	struct drawing *d = start(kind, e, err);

	if (d == NULL)
		return -1;
	struct drawing_tables *tables = drawing_tables_new(d);
	struct drawing_graphs *graphs = drawing_graphs_new(d);
	d->pages = d->sheets + drawing_graphs_pages(graphs) + drawing_tables_pages(d, tables);
	for (size_t i = 1; i <= d->sheets; i++)
		draw_sheet(d, i);
	drawing_graphs_draw(d, graphs);
	drawing_graphs_free(graphs);
	drawing_tables_draw(d, tables);
	drawing_tables_free(tables);
	int failed = sb_paper_end(d->paper, out, err);
	sb_free(d->breaches);
	sb_str_clear(&d->acceptance);
	sb_free(d);
	return failed;
}

int export_sheet(const struct export *e, struct sb_str *out, struct sb_err *err)
{
	return draw(PAPER_PDF, e, out, err);
}

int export_drawing(const struct export *e, struct sb_str *out, struct sb_err *err)
{
	return draw(PAPER_SVG, e, out, err);
}
