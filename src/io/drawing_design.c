/* The design line in its parts, as tables: the alignment by bearings, the profile by elevations and
 * inclinations, with the radius of each curve and the side to which it turns.
 */
#include "base/str.h"
#include "geom/angle.h"

#include <math.h>
#include <stdio.h>

#include "drawing_tables.h"

/* A station is asked for a hair inside the part, where a corner would have two answers. */
#define HAIR 1e-9

static void put_station(struct drawing *d, struct drawing_table *t, double station_m)
{
	char text[SB_AXIS_TEXT];

	sb_axis_station(station_m, d->job->unit, 2, text);
	drawing_table_put(t, text);
}

static void put_figure(struct drawing_table *t, double value, int decimals, const char *unit)
{
	char text[48];

	snprintf(text, sizeof text, "%.*f%s", decimals, drawing_shown(value, decimals), unit);
	drawing_table_put(t, text);
}

/* "tangent", or "curve to the left" and its radius. */
static void put_part(struct drawing *d, struct drawing_table *t, double curvature, const char *const sides[2])
{
	char text[48];

	snprintf(text, sizeof text, "curve %s", sides[curvature > 0]);
	drawing_table_put(t, curvature == 0 ? "tangent" : text);
	drawing_table_put_length(d, t, curvature != 0, curvature != 0 ? 1 / fabs(curvature) : 0);
}

static void fill_alignment(struct drawing *d, struct drawing_tables *all)
{
	static const struct paper_column columns[] = { { "From", HOLD_RIGHT, false },
		{ "To", HOLD_RIGHT, false }, { "Part", HOLD_LEFT, false }, { "Radius", HOLD_RIGHT, false },
		{ "Grid bearing\nwhere it begins", HOLD_RIGHT, false },
		{ "and where\nit ends", HOLD_RIGHT, false } };
	static const char *const sides[] = { "to the left", "to the right" };
	struct drawing_table *t = drawing_table_begin(all, "DESIGN, ALIGNMENT", columns, 6);
	const struct design *design = &d->s->design;

	for (size_t i = 0; i < design->alignment_count; i++) {
		const struct chain_part *part = &design->alignment[i];
		double from = part->at, to = part->at + part->length;
		put_station(d, t, from);
		put_station(d, t, to);
		put_part(d, t, part->curvature, sides);
		put_figure(t, sb_deg(sb_wrap_turn(part->bearing)), 4, " deg");
		put_figure(
			t, sb_deg(sb_wrap_turn(part->bearing + part->curvature * part->length)), 4, " deg");
		drawing_table_end_row(t, ROW_PLAIN);
	}
	drawing_table_finish(d, all, t);
}

static void fill_profile(struct drawing *d, struct drawing_tables *all)
{
	static const struct paper_column columns[] = { { "From", HOLD_RIGHT, false },
		{ "To", HOLD_RIGHT, false }, { "Part", HOLD_LEFT, false }, { "Radius", HOLD_RIGHT, false },
		{ "Elevation\nwhere it begins", HOLD_RIGHT, false },
		{ "and where\nit ends", HOLD_RIGHT, false },
		{ "Inclination\nwhere it begins", HOLD_RIGHT, false },
		{ "and where\nit ends", HOLD_RIGHT, false } };
	static const char *const sides[] = { "downwards", "upwards" };
	struct drawing_table *t = drawing_table_begin(all, "DESIGN, PROFILE", columns, 8);
	const struct design *design = &d->s->design;
	char mark[8];

	snprintf(mark, sizeof mark, " %s", sb_incline_mark(d->job->incline));
	for (size_t i = 0; i < design->profile_count; i++) {
		double from = design->profile[i].x,
		       to = i + 1 < design->profile_count ? design->profile[i + 1].x : design->length_m;
		struct design_place first = sb_design_at(design, from + HAIR),
				    last = sb_design_at(design, to - HAIR);
		put_station(d, t, from);
		put_station(d, t, to);
		put_part(d, t, design->profile[i].curvature, sides);
		drawing_table_put_length(d, t, true, first.at.u);
		drawing_table_put_length(d, t, true, last.at.u);
		put_figure(t, sb_incline_typed(d->job->incline, first.inc_rad), 2, mark);
		put_figure(t, sb_incline_typed(d->job->incline, last.inc_rad), 2, mark);
		drawing_table_end_row(t, ROW_PLAIN);
	}
	drawing_table_finish(d, all, t);
}

void drawing_design_fill(struct drawing *d, struct drawing_tables *all)
{
	fill_alignment(d, all);
	fill_profile(d, all);
}
