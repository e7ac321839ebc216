/* Strokes, areas and lettering on the present page, in its millimetres. Cairo reckons in 24 bits before the
 * point and 8 behind, of a point's 1/72 inch: what lies too far off is left out before it comes there.
 */
#include "base/mem.h"
#include "geom/angle.h"

#include <math.h>

#include "paper_parts.h"

#define CAPITAL (1493.0 / 2048) /* of the size of the font: DejaVu Sans and Sans Mono, their own tables */

static bool on_paper(struct spot s)
{
	return fabs(s.x) <= SB_PAPER_FAR && fabs(s.y) <= SB_PAPER_FAR; /* false for what is not finite */
}

static void set_ink(struct sb_paper *p, struct ink ink)
{
	p->cairo->set_source_rgb(p->pen, ink.red, ink.green, ink.blue);
}

static void draw_with(struct sb_paper *p, const struct pen *pen)
{
	int dashes = 0;

	while (dashes < SB_PEN_DASHES && pen->dash_mm[dashes] > 0)
		dashes++;
	set_ink(p, pen->ink);
	p->cairo->set_line_width(p->pen, pen->width_mm);
	p->cairo->set_line_join(p->pen, CAIRO_LINE_JOIN_ROUND);
	p->cairo->set_line_cap(p->pen, dashes ? CAIRO_LINE_CAP_BUTT : CAIRO_LINE_CAP_ROUND);
	p->cairo->set_dash(p->pen, pen->dash_mm, dashes, 0);
	p->cairo->stroke(p->pen);
}

void sb_paper_line(struct sb_paper *p, const struct pen *pen, const struct spot *points, size_t count)
{
	bool begun = false;

	p->cairo->new_path(p->pen);
	for (size_t i = 0; i < count; i++) {
		if (!on_paper(points[i])) {
			begun = false;
			continue;
		}
		(begun ? p->cairo->line_to : p->cairo->move_to)(p->pen, points[i].x, points[i].y);
		begun = true;
	}
	draw_with(p, pen);
}

void sb_paper_stroke(struct sb_paper *p, const struct pen *pen, double x0, double y0, double x1, double y1)
{
	struct spot ends[] = { { x0, y0 }, { x1, y1 } };

	sb_paper_line(p, pen, ends, 2);
}

static bool is_box(const struct paper *b)
{
	return on_paper((struct spot){ b->left, b->top }) && b->width >= 0 && b->height >= 0 &&
		on_paper((struct spot){ b->left + b->width, b->top + b->height });
}

void sb_paper_box(struct sb_paper *p, const struct pen *pen, const struct paper *box)
{
	if (!is_box(box))
		return;
	p->cairo->new_path(p->pen);
	p->cairo->rectangle(p->pen, box->left, box->top, box->width, box->height);
	draw_with(p, pen);
}

void sb_paper_ellipse(struct sb_paper *p, const struct pen *pen, struct spot centre, struct spot half_axis,
	struct spot other_half_axis)
{
	struct spot far = { centre.x + half_axis.x + other_half_axis.x,
		centre.y + half_axis.y + other_half_axis.y };
	cairo_matrix_t to = { half_axis.x, half_axis.y, other_half_axis.x, other_half_axis.y, centre.x,
		centre.y };

	if (!on_paper(centre) || !on_paper(far) ||
		fabs(half_axis.x * other_half_axis.y - half_axis.y * other_half_axis.x) < 1e-6)
		return; /* no ellipse: cairo's matrix must have an inverse */
	p->cairo->new_path(p->pen);
	p->cairo->save(p->pen);
	p->cairo->transform(p->pen, &to);
	p->cairo->arc(p->pen, 0, 0, 1, 0, 2 * SB_PI);
	p->cairo->close_path(p->pen);
	p->cairo->restore(p->pen);
	draw_with(p, pen);
}

void sb_paper_fill(struct sb_paper *p, struct ink ink, const struct paper *box)
{
	if (!is_box(box))
		return;
	set_ink(p, ink);
	p->cairo->new_path(p->pen);
	p->cairo->rectangle(p->pen, box->left, box->top, box->width, box->height);
	p->cairo->fill(p->pen);
}

void sb_paper_area(struct sb_paper *p, struct ink ink, const struct spot *points, size_t count)
{
	p->cairo->new_path(p->pen);
	for (size_t i = 0; i < count; i++) {
		if (!on_paper(points[i]))
			return;
		p->cairo->line_to(p->pen, points[i].x, points[i].y);
	}
	set_ink(p, ink);
	p->cairo->fill(p->pen);
}

void sb_paper_disc(struct sb_paper *p, struct ink ink, struct spot centre, double radius_mm)
{
	if (!on_paper(centre) || !(radius_mm > 0 && radius_mm <= SB_PAPER_FAR))
		return;
	set_ink(p, ink);
	p->cairo->new_path(p->pen);
	p->cairo->arc(p->pen, centre.x, centre.y, radius_mm, 0, 2 * SB_PI);
	p->cairo->fill(p->pen);
}

double sb_paper_width(struct sb_paper *p, const struct lettering *as, const char *text)
{
	char *tame = sb_strdup(text);

	sb_utf8_tame(tame);
	double width = paper_measure(p, as->face, tame) * as->capital_mm / CAPITAL;
	sb_free(tame);
	return width;
}

double paper_held_at(enum hold hold)
{
	static const double share[] = { [HOLD_LEFT] = 0, [HOLD_MIDDLE] = 0.5, [HOLD_RIGHT] = 1 };

	return share[hold];
}

void sb_paper_text(struct sb_paper *p, const struct lettering *as, struct spot at, const char *text)
{
	if (!on_paper(at) || *text == '\0' || !(as->capital_mm > 0))
		return;
	char *tame = sb_strdup(text);
	sb_utf8_tame(tame);
	set_ink(p, as->ink);
	p->cairo->save(p->pen);
	p->cairo->translate(p->pen, at.x, at.y);
	p->cairo->rotate(p->pen, as->turn_deg * (-SB_PI / 180));
	paper_choose_face(p, p->pen, as->face);
	p->cairo->set_font_size(p->pen, as->capital_mm / CAPITAL);
	p->cairo->move_to(p->pen, -paper_held_at(as->hold) * sb_paper_width(p, as, text), 0);
	p->cairo->show_text(p->pen, tame);
	p->cairo->restore(p->pen);
	sb_free(tame);
}

void sb_paper_clip(struct sb_paper *p, const struct paper *box)
{
	p->cairo->save(p->pen);
	p->cairo->new_path(p->pen);
	if (is_box(box))
		p->cairo->rectangle(p->pen, box->left, box->top, box->width, box->height);
	p->cairo->clip(p->pen);
}

void sb_paper_unclip(struct sb_paper *p)
{
	p->cairo->restore(p->pen);
}
