/* Figures under the profile: of each joint's reading the station and what an engineer asks of it, turned to
 * stand under its place. Where readings lie too close for their figures, some are left out; all are in the
 * tables behind the sheets.
 */
#include "io/paper_text.h"
#include "io/rows.h"

#include <math.h>
#include <stdio.h>

#include "drawing_parts.h"

#define COLUMN_MM 3.0 /* between two columns of figures */

static const struct {
	const char *name;
	double high_mm;
} rows[] = {
	{ "joint", 7 },
	{ "station", 13 },
	{ "elevation", 10.8 },
	{ "offset", 9.4 },
	{ "cover", 8.4 },
};
#define ROWS (sizeof rows / sizeof *rows)

/* "1.8 L": a side instead of a sign, by the decimals that the unit is told with. */
static void side(const struct drawing *d, const struct path_cell *c, const char *positive,
	const char *negative, char to[SB_AXIS_TEXT])
{
	int decimals = d->job->unit == UNIT_M ? 2 : 1;
	bool nothing = fabs(c->value) < 0.5 * pow(10, -decimals);

	snprintf(to, SB_AXIS_TEXT, "%.*f%s", decimals, fabs(c->value),
		nothing		       ? ""
			: c->value > 0 ? positive
				       : negative);
}

static void fill(const struct drawing *d, const struct row *row, char texts[ROWS][SB_AXIS_TEXT])
{
	struct path_cell cells[PATH_COLUMNS];

	sb_rows_fill(d->job, d->s, row, cells);
	snprintf(texts[0], SB_AXIS_TEXT, "%d", row->joint);
	sb_axis_station(row->deviation.station_m, d->job->unit, d->job->unit == UNIT_M ? 2 : 1, texts[1]);
	snprintf(texts[2], SB_AXIS_TEXT, "%.2f", drawing_shown(cells[PATH_ELEVATION].value, 2));
	side(d, &cells[PATH_OFFSET], " R", " L", texts[3]);
	struct cover cover = sb_cover_at(&d->clear, row);
	int decimals = d->job->unit == UNIT_M ? 2 : 1;
	snprintf(texts[4], SB_AXIS_TEXT, "%.*f", decimals,
		drawing_shown(sb_frame_typed(&d->s->frame, cover.cover_m), decimals));
	if (!cover.known)
		texts[4][0] = '\0';
}

double drawing_band_high(void)
{
	double high = 0;

	for (size_t i = 0; i < ROWS; i++)
		high += rows[i].high_mm;
	return high;
}

static void draw_column(struct drawing *d, double x, char texts[ROWS][SB_AXIS_TEXT])
{
	struct lettering as = { FACE_PLAIN, DRAWING_SMALL, HOLD_LEFT, 90, SB_INK_BLACK };
	double y = d->band.top;

	for (size_t i = 0; i < ROWS; i++) {
		y += rows[i].high_mm;
		sb_paper_text_within(d->paper, &as, DRAWING_SMALL * 0.7, rows[i].high_mm - 1.2,
			(struct spot){ x + DRAWING_SMALL / 2, y - 0.8 }, texts[i]);
	}
}

static void draw_lines(struct drawing *d)
{
	const struct pen pen = { 0.18, SB_INK_BLACK, { 0 } };
	struct lettering as = { FACE_PLAIN, DRAWING_SMALL, HOLD_RIGHT, 0, SB_INK_BLACK };
	double y = d->band.top, right = d->band.left + d->band.width;

	for (size_t i = 0; i < ROWS; i++) {
		double middle = y + rows[i].high_mm / 2;
		sb_paper_text(d->paper, &as, (struct spot){ d->band.left - 1.2, middle + DRAWING_SMALL / 2 },
			rows[i].name);
		y += rows[i].high_mm;
		if (i + 1 < ROWS)
			sb_paper_stroke(d->paper, &pen, d->band.left, y, right, y);
	}
	drawing_frame(d, &d->band);
}

void drawing_band(struct drawing *d, const struct drawing_sheet *sheet)
{
	const struct path *path = &d->s->path;
	double last = -HUGE_VAL;
	char texts[ROWS][SB_AXIS_TEXT];

	draw_lines(d);
	for (size_t i = 0; i < path->on_count; i++) {
		const struct row *row = &path->rows[path->on_path[i]];
		double station = row->deviation.station_m, x = drawing_x(d, sheet, station);
		bool here = station >= sheet->from_m && (station < sheet->to_m || sheet->last);
		if (!here || x - last < COLUMN_MM)
			continue;
		fill(d, row, texts);
		draw_column(d, x, texts);
		last = x;
	}
}
