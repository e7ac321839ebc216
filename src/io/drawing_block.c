/* The border of a page, and the block along its foot: whose drawing it is and of what, in which frame it was
 * measured and how, the legend, who signs, which sheet it is and of which state of the log; and what is said
 * on every page: which end is the rig side, and what the drawing does not replace.
 */
#include "base/str.h"
#include "base/time.h"
#include "geom/angle.h"
#include "io/paper_text.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "drawing_parts.h"

#define FOOT_MM 4.4 /* the line below the block */
#define GAP 1.5
#define SHRINK 0.8 /* of the lettering, where a text is long */

static const struct pen frame_pen = { 0.7, { 0, 0, 0 }, { 0 } };
static const struct pen block_pen = { 0.35, { 0, 0, 0 }, { 0 } };
static const struct pen field_pen = { 0.18, { 0, 0, 0 }, { 0 } };
static const struct lettering small = { FACE_PLAIN, DRAWING_SMALL, HOLD_LEFT, 0, { 0, 0, 0 } };
static const struct lettering strong = { FACE_BOLD, DRAWING_SMALL, HOLD_LEFT, 0, { 0, 0, 0 } };

static const char *line_of(const struct drawing *d, const char *key)
{
	for (size_t i = 0; i < d->line_count; i++)
		if (sb_same(d->lines[i].key, key))
			return d->lines[i].text;
	return "not given";
}

/* "Owner   Harrow Bend Gas District" */
static void field(struct drawing *d, struct spot at, double name_mm, double width_mm, const char *name,
	const char *text)
{
	sb_paper_text_within(d->paper, &strong, DRAWING_SMALL * SHRINK, name_mm - 1, at, name);
	at.x += name_mm;
	sb_paper_text_within(d->paper, &small, DRAWING_SMALL * SHRINK, width_mm - name_mm, at, text);
}

static void place_words(const struct place *p, char text[SB_ABOUT_TEXT])
{
	snprintf(text, SB_ABOUT_TEXT, "E %s  N %s  el %s", p->easting.text, p->northing.text,
		p->elevation.text);
}

/* Fills broken with what of a text fits into a line; returned: the rest, in the same string. */
static const char *cut_first_line(
	struct drawing *d, const struct lettering *as, double wide, const char *text, struct sb_str *broken)
{
	sb_paper_break(d->paper, as, wide, text, broken);
	char *rest = strchr(broken->text, '\n');
	*rest++ = '\0';
	for (char *c = rest; (c = strchr(c, '\n')) != NULL;)
		*c = ' ';
	return rest;
}

/* In large letters; a long one in two lines. */
static void draw_job_name(struct drawing *d, struct spot corner, double wide)
{
	struct lettering as = { FACE_BOLD, 4, HOLD_LEFT, 0, SB_INK_BLACK };

	if (sb_paper_width(d->paper, &as, d->job->name) * 0.6 <= wide) {
		sb_paper_text_within(
			d->paper, &as, 2.4, wide, (struct spot){ corner.x, corner.y + 6.2 }, d->job->name);
		return;
	}
	struct sb_str broken = { 0 };
	as.capital_mm = 2.2;
	const char *rest = cut_first_line(d, &as, wide, d->job->name, &broken);
	sb_paper_text_within(
		d->paper, &as, DRAWING_SMALL, wide, (struct spot){ corner.x, corner.y + 4 }, broken.text);
	sb_paper_text_within(
		d->paper, &as, DRAWING_SMALL, wide, (struct spot){ corner.x, corner.y + 7.8 }, rest);
	sb_str_clear(&broken);
}

static void draw_names(struct drawing *d, const struct paper *box, const char *title, const char *contents)
{
	struct lettering head = { FACE_BOLD, DRAWING_TITLE, HOLD_LEFT, 0, SB_INK_BLACK };
	double wide = box->width - 2 * GAP, left = box->left + GAP;
	char ends[2][SB_ABOUT_TEXT];
	place_words(&d->job->entry, ends[0]);
	place_words(&d->job->exit, ends[1]);
	const struct {
		const char *name, *text;
	} lines[] = { { "Owner", d->job->owner }, { "Contractor", d->job->contractor }, { "Shown", contents },
		{ "Entry, rig side", ends[0] }, { "Exit, pipe side", ends[1] },
		{ "Acceptance", sb_str_get(&d->acceptance) } };

	draw_job_name(d, (struct spot){ left, box->top }, wide);
	sb_paper_text_within(
		d->paper, &head, DRAWING_SMALL, wide, (struct spot){ left, box->top + 12 }, title);
	double y = box->top + 17.2;
	for (size_t i = 0; i < sizeof lines / sizeof *lines; i++, y += 3.5)
		field(d, (struct spot){ left, y }, 22, wide, lines[i].name, lines[i].text);
}

static const struct {
	const char *name, *key;
} reference_lines[] = { { "Unit", "unit" }, { "Coordinates", "coordinate_system" },
	{ "Heights", "vertical_datum" }, { "Grid scale", "scale_factor" }, { "Inclination", "inclination" },
	{ "Azimuth", "azimuth" }, { "Declination", "declination" }, { "Convergence", "convergence" },
	{ "To grid", "azimuth_to_grid" }, { "Method", "method" }, { "Instrument", "instrument" } };
#define REFERENCE_LINES (sizeof reference_lines / sizeof *reference_lines)
#define REFERENCE_NAME 19.0

/* Whether a text is too long for a line even in smaller lettering, and so goes on in a second one. */
static bool takes_two(struct drawing *d, double wide, const char *text)
{
	return sb_paper_width(d->paper, &small, text) > wide / SHRINK;
}

/* The words of the export's own lines, one each, two for the last. */
static void draw_frame_of_reference(struct drawing *d, const struct paper *box)
{
	double all = box->width - 2 * GAP, wide = all - REFERENCE_NAME;
	const char *last = line_of(d, reference_lines[REFERENCE_LINES - 1].key);
	bool two = takes_two(d, wide, last);
	size_t lines = REFERENCE_LINES + two;
	double step = (box->height - GAP) / ((double)lines + 0.2);
	struct spot at = { box->left + GAP, box->top + GAP + DRAWING_SMALL };
	struct sb_str broken = { 0 };

	for (size_t i = 0; i < REFERENCE_LINES - two; i++, at.y += step)
		field(d, at, REFERENCE_NAME, all, reference_lines[i].name,
			line_of(d, reference_lines[i].key));
	if (two) {
		const char *rest = cut_first_line(d, &small, wide / SHRINK * 0.98, last, &broken);
		field(d, at, REFERENCE_NAME, all, reference_lines[REFERENCE_LINES - 1].name, broken.text);
		at.y += step;
		field(d, at, REFERENCE_NAME, all, "", rest);
	}
	sb_str_clear(&broken);
}

static void draw_legend(struct drawing *d, const struct paper *box)
{
	drawing_legend(d,
		&(struct paper){ box->left + GAP, box->top + 0.4, box->width - 2 * GAP, box->height - 0.8 });
}

/* Lines to write on, by hand. */
static void draw_signature(struct drawing *d, const struct paper *box, const char *who)
{
	static const char *const names[] = { "Name", "Signature", "Date" };
	double y = box->top + GAP + DRAWING_SMALL, end = box->left + box->width - GAP;
	double step = (box->height - GAP - DRAWING_SMALL - 2) / 3;

	sb_paper_text(d->paper, &strong, (struct spot){ box->left + GAP, y }, who);
	for (int i = 0; i < 3; i++) {
		y += step;
		sb_paper_text(d->paper, &small, (struct spot){ box->left + GAP, y }, names[i]);
		sb_paper_stroke(d->paper, &field_pen, box->left + 17, y + 0.6, end, y + 0.6);
	}
}

static void draw_signatures(struct drawing *d, const struct paper *box)
{
	double half = box->height / 2;
	struct paper upper = { box->left, box->top, box->width, half };
	struct paper lower = { box->left, box->top + half, box->width, half };

	draw_signature(d, &upper, "Contractor's surveyor");
	draw_signature(d, &lower, "Engineer");
	sb_paper_stroke(d->paper, &field_pen, box->left, lower.top, box->left + box->width, lower.top);
}

static void draw_sheet_number(struct drawing *d, const struct paper *box)
{
	struct lettering large = { FACE_BOLD, 3.5, HOLD_LEFT, 0, SB_INK_BLACK };
	double left = box->left + GAP, wide = box->width - 2 * GAP, y = box->top + 10.6;
	char sheet[64], state[64] = "nothing is logged", day[SB_TIME_TEXT], date[SB_TIME_TEXT + 8],
			digest[20], scale[DRAWING_SCALE_TEXT];

	snprintf(sheet, sizeof sheet, "Sheet %zu of %zu", d->page, d->pages);
	sb_paper_text_within(
		d->paper, &large, DRAWING_SMALL, wide, (struct spot){ left, box->top + 5.8 }, sheet);
	if (d->job->act_count > 0)
		snprintf(state, sizeof state, "act %lld", (long long)d->job->acts[d->job->act_count - 1].id);
	sb_time_day(d->about->at_ms, day);
	snprintf(date, sizeof date, "%s UTC", day);
	snprintf(digest, sizeof digest, "%.16s", d->about->head);
	drawing_scale_words(d, d->denominator, scale);
	const struct {
		const char *name, *text;
	} lines[] = { { "Scale", scale }, { "Paper", d->size.name }, { "Prepared by", d->about->who },
		{ "Drawn on", date }, { "Log as of", state }, { "File", d->about->file },
		{ "Digest", digest }, { "Revision", "" } };
	for (size_t i = 0; i < sizeof lines / sizeof *lines; i++, y += 3.2)
		field(d, (struct spot){ left, y }, 18, wide, lines[i].name, lines[i].text);
	sb_paper_stroke(d->paper, &field_pen, left + 18, y - 2.6, left + wide, y - 2.6);
}

static void draw_foot(struct drawing *d, const struct paper *box)
{
	char text[512];

	snprintf(text, sizeof text, "ENTRY = RIG SIDE; the product pipe enters at the exit.  %s", sb_caution);
	sb_paper_text_within(d->paper, &strong, DRAWING_SMALL * 0.7, box->width - 2 * GAP,
		(struct spot){ box->left + GAP, box->top + box->height / 2 + DRAWING_SMALL / 2 }, text);
	sb_paper_stroke(d->paper, &block_pen, box->left, box->top, box->left + box->width, box->top);
}

static void draw_block(struct drawing *d, const char *title, const char *contents)
{
	static const double shares[] = { 0.225, 0.3, 0.215, 0.13, 0.13 };
	struct paper cell = { d->block.left, d->block.top, 0, d->block.height - FOOT_MM };

	sb_paper_stroke(d->paper, &block_pen, cell.left, cell.top, cell.left + d->block.width, cell.top);
	for (int i = 0; i < 5; i++) {
		cell.width = shares[i] * d->block.width;
		if (i == 0)
			draw_names(d, &cell, title, contents);
		else if (i == 1)
			draw_frame_of_reference(d, &cell);
		else if (i == 2)
			draw_legend(d, &cell);
		else if (i == 3)
			draw_signatures(d, &cell);
		else
			draw_sheet_number(d, &cell);
		cell.left += cell.width;
		if (i < 4)
			sb_paper_stroke(
				d->paper, &block_pen, cell.left, cell.top, cell.left, cell.top + cell.height);
	}
	draw_foot(d, &(struct paper){ d->block.left, cell.top + cell.height, d->block.width, FOOT_MM });
}

/* Across the page, under everything else. */
static void draw_rehearsal(struct drawing *d)
{
	double across = d->inner.width, down = d->inner.height - d->block.height;
	struct lettering as = { FACE_BOLD, 10, HOLD_MIDDLE, sb_deg(atan2(down, across)),
		{ 0.88, 0.88, 0.88 } };

	as.capital_mm *= 0.72 * hypot(across, down) / sb_paper_width(d->paper, &as, "REHEARSAL");
	double turn = atan2(down, across);
	sb_paper_text(d->paper, &as,
		(struct spot){ d->inner.left + across / 2 + as.capital_mm / 2 * sin(turn),
			d->inner.top + down / 2 + as.capital_mm / 2 * cos(turn) },
		"REHEARSAL");
}

void drawing_page(struct drawing *d, const char *title, const char *contents)
{
	char name[64];

	d->page++;
	snprintf(name, sizeof name, "%zu  %.50s", d->page, contents);
	sb_paper_page(d->paper, d->size.width_mm, d->size.height_mm, name);
	if (d->job->rehearsal[0])
		draw_rehearsal(d);
	draw_block(d, title, contents);
	sb_paper_box(d->paper, &frame_pen, &d->inner);
}
