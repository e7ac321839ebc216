/* From the lines, curves and heights of a LandXML alignment to points of intersection.
 *
 * The file says a curve by its ends and centre, and a line by its ends; the job sheet says points of
 * intersection, and that is all that is drilled along. So the line is laid out anew from what was found, and
 * every point of the file is held against it: a curve that does not meet its tangents, or a chain with a gap,
 * shows there.
 */
#include "base/mem.h"
#include "geom/angle.h"
#include "geom/chain_fit.h"

#include <math.h>

#include "given_parts.h"

/* How far ends may miss one another, in the file's unit: drawings round to a hundredth. */
#define JOIN 0.02

#define wrong(r, line, column, ...) sb_problems_add((r)->problems, 0, (r)->file, line, column, __VA_ARGS__)
#define doubt(r, line, column, ...) sb_problems_add((r)->problems, 1, (r)->file, line, column, __VA_ARGS__)

/* ---- horizontal ---- */

static bool check_course(struct given_reading *r, struct landxml_course *c)
{
	const char *what = c->arc ? "curve" : "line";

	if (!c->has_start || !c->has_end) {
		wrong(r, c->line, c->has_start ? "End" : "Start", "the %s has no %s point.", what,
			c->has_start ? "end" : "start");
		return false;
	}
	double chord = hypot(c->end[0] - c->start[0], c->end[1] - c->start[1]);
	if (!(chord > 1e-6)) {
		wrong(r, c->line, NULL, "the %s ends where it begins.", what);
		return false;
	}
	if (!c->arc)
		return true;
	if (!c->has_center && !(c->radius > 0)) {
		wrong(r, c->line, "radius", "the curve has neither a centre nor a radius.");
		return false;
	}
	if (c->has_center) {
		double from_start = hypot(c->start[0] - c->center[0], c->start[1] - c->center[1]);
		double from_end = hypot(c->end[0] - c->center[0], c->end[1] - c->center[1]);
		double radius = c->radius > 0 ? c->radius : (from_start + from_end) / 2;
		if (fabs(from_start - radius) > JOIN || fabs(from_end - radius) > JOIN) {
			wrong(r, c->line, "Center",
				"the curve's ends lie %.3f and %.3f from its centre, its radius is %.3f.",
				from_start, from_end, radius);
			return false;
		}
		c->radius = radius;
	}
	if (chord > 2 * c->radius + JOIN) {
		wrong(r, c->line, "radius", "a curve of radius %.3f does not reach between ends %.3f apart.",
			c->radius, chord);
		return false;
	}
	return true;
}

/* Radians that a curve turns by; more than half a turn shows only by the centre. */
static double turn_of(const struct landxml_course *c)
{
	double chord = hypot(c->end[0] - c->start[0], c->end[1] - c->start[1]);
	double half = chord / 2, rise = sqrt(fmax(c->radius * c->radius - half * half, 0));
	double turn = 2 * atan2(half, rise);

	if (!c->has_center)
		return turn;
	const double a[2] = { c->start[0] - c->center[0], c->start[1] - c->center[1] };
	const double b[2] = { c->end[0] - c->center[0], c->end[1] - c->center[1] };
	double signed_turn = atan2(a[0] * b[1] - a[1] * b[0], a[0] * b[0] + a[1] * b[1]);
	return (signed_turn > 0) == c->right ? fabs(signed_turn) : 2 * SB_PI - fabs(signed_turn);
}

/* The tangents at both ends of a curve meet on its outside, square off the middle of the chord. */
static void add_curve(struct given_reading *r, struct landxml_course *c)
{
	double dx = c->end[0] - c->start[0], dy = c->end[1] - c->start[1], chord = hypot(dx, dy);
	double turn = turn_of(c);

	if (turn > sb_rad(175)) {
		wrong(r, c->line, NULL,
			"the curve turns by %.0f degrees: tangents of so much do not meet. Is its rot (cw, ccw) the wrong one?",
			sb_deg(turn));
		return;
	}
	if (c->length > 0 && fabs(c->length - turn * c->radius) > JOIN + 1e-3 * c->length)
		doubt(r, c->line, "length",
			"the file says %.3f, its ends and radius make %.3f, which is used.", c->length,
			turn * c->radius);
	double off = chord / 2 * tan(turn / 2) * (c->right ? 1 : -1);
	given_add(&r->out->alignment, (c->start[0] + c->end[0]) / 2 + off * dy / chord,
		(c->start[1] + c->end[1]) / 2 - off * dx / chord, c->radius, c->line);
}

/* Two lines that meet in a corner; collinear ones are one. */
static void add_corner(
	struct given_reading *r, const struct landxml_course *a, const struct landxml_course *b)
{
	double ax = a->end[0] - a->start[0], ay = a->end[1] - a->start[1];
	double bx = b->end[0] - b->start[0], by = b->end[1] - b->start[1];
	double turn = atan2(ax * by - ay * bx, ax * bx + ay * by);

	/* What rounding of the ends may turn them by. */
	if (fabs(turn) > JOIN / fmin(hypot(ax, ay), hypot(bx, by)))
		given_add(&r->out->alignment, b->start[0], b->start[1], 0, b->line);
}

static void check_point(struct given_reading *r, const struct chain_part *parts, size_t count, double x,
	double y, const struct landxml_course *c, double *near)
{
	double offset;

	sb_chain_project(parts, count, x, y, *near, near, &offset);
	if (fabs(offset) > JOIN)
		wrong(r, c->line, NULL,
			"the %s does not run on from what is before and behind it: a point of it lies %.3f off the line that "
			"tangents and curves make.",
			c->arc ? "curve" : "line", fabs(offset));
}

/* The middle of a curve, towards its point of intersection by the middle ordinate. */
static void middle_of(const struct landxml_course *c, double *x, double *y)
{
	double dx = c->end[0] - c->start[0], dy = c->end[1] - c->start[1], chord = hypot(dx, dy);
	double out = chord / 2 * tan(turn_of(c) / 4) * (c->right ? 1 : -1);

	*x = (c->start[0] + c->end[0]) / 2 + out * dy / chord;
	*y = (c->start[1] + c->end[1]) / 2 - out * dx / chord;
}

/* Every point of the file against the line as it will be drilled along. */
static void check_laid(struct given_reading *r, const struct landxml_course *c, size_t count)
{
	struct given_line *l = &r->out->alignment;
	struct chain_part *parts = sb_alloc(2 * l->count * sizeof *parts);
	size_t made, where;
	double by, near = 0;

	double eased = sb_chain_ease(l->pis, l->count);
	enum chain_status status = sb_chain_build(l->pis, l->count, parts, &made, &where, &by);
	if (status < CHAIN_OK || eased > 0.01)
		wrong(r, l->lines[status < CHAIN_OK ? where : 0], NULL,
			"lines and curves do not make one line: curves overlap, or it turns back.");
	for (size_t i = 0; i < count && status >= CHAIN_OK && eased <= 0.01; i++) {
		double x, y;
		check_point(r, parts, made, c[i].start[0], c[i].start[1], &c[i], &near);
		middle_of(&c[i], &x, &y);
		if (c[i].arc)
			check_point(r, parts, made, x, y, &c[i], &near);
		check_point(r, parts, made, c[i].end[0], c[i].end[1], &c[i], &near);
	}
	sb_free(parts);
}

int landxml_lay_courses(struct given_reading *r, const struct landxml_course *list, size_t count)
{
	struct given_line *l = &r->out->alignment;
	size_t before = r->problems->errors;
	struct landxml_course *c = sb_alloc((count + 1) * sizeof *c);

	for (size_t i = 0; i < count; i++) {
		c[i] = list[i];
		if (!check_course(r, &c[i]))
			continue;
		if (i == 0)
			given_add(l, c[0].start[0], c[0].start[1], 0, c[0].line);
		else if (hypot(c[i].start[0] - c[i - 1].end[0], c[i].start[1] - c[i - 1].end[1]) > JOIN)
			wrong(r, c[i].line, "Start", "this begins %.3f from where the one before it ends.",
				hypot(c[i].start[0] - c[i - 1].end[0], c[i].start[1] - c[i - 1].end[1]));
		else if (!c[i].arc && !c[i - 1].arc)
			add_corner(r, &c[i - 1], &c[i]);
		if (c[i].arc)
			add_curve(r, &c[i]);
	}
	if (count > 0)
		given_add(l, c[count - 1].end[0], c[count - 1].end[1], 0, c[count - 1].line);
	if (count > 0 && r->problems->errors == before)
		check_laid(r, c, count);
	sb_free(c);
	return r->problems->errors > before ? -1 : 0;
}

/* ---- vertical ---- */

static double grade_between(const struct landxml_height *a, const struct landxml_height *b)
{
	return (b->elevation - a->elevation) / (b->station - a->station);
}

/* A parabola between two grades g1, g2 has its ends length / 2 before and behind the point of intersection,
 * level. The arc that replaces it keeps the shorter of its two tangents, so that it has the room that the
 * parabola had. Source: derived. Returns the radius; off: how far the two are apart at most, to first order
 * at the middle, where the parabola is (g2 - g1) length / 8 from the point of intersection and the arc radius
 * (1 / cos(turn / 2) - 1). */
static double arc_of_parabola(double g1, double g2, double length, double *off)
{
	double turn = fabs(atan(g2) - atan(g1));
	double tangent = length / 2 * fmin(hypot(1, g1), hypot(1, g2));
	double radius = tangent / tan(turn / 2);
	double level = hypot(1, tan((atan(g1) + atan(g2)) / 2));

	*off = fabs(fabs(g2 - g1) * length / 8 / level - radius * (1 / cos(turn / 2) - 1));
	return radius;
}

static double radius_of_parabola(
	struct given_reading *r, const struct landxml_height *h, double g1, double g2)
{
	double off;

	if (!(h->length > 0)) {
		wrong(r, h->line, "length", "the parabola has no length.");
		return 0;
	}
	if (!r->choice->arcs) {
		wrong(r, h->line, "ParaCurve",
			"a parabola, %.3f long: a drill string follows arcs of circles, and a parabola bends tightest in its "
			"middle. Ask the designer for circular curves, or say --parabolas-as-arcs to take the arc with tangents of the same length.",
			h->length);
		return 0;
	}
	if (fabs(g2 - g1) < 1e-9)
		return 0;
	double radius = arc_of_parabola(g1, g2, h->length, &off);
	given_note(r->out,
		"The parabola at station %.3f (line %d), %.3f long, is taken for an arc of radius %.3f with tangents of the "
		"same length, %.3f off in the middle (all in the drawing's unit).",
		h->station, h->line, h->length, radius, off);
	return radius;
}

/* The length of the curve, or of its horizontal distance: files have either. */
static void check_length(struct given_reading *r, const struct landxml_height *h, double g1, double g2)
{
	double length = h->radius * fabs(atan(g2) - atan(g1));
	double level = h->radius * fabs(sin(atan(g2)) - sin(atan(g1)));
	double within = JOIN + 1e-3 * length;

	if (h->length > 0 && fabs(h->length - length) > within && fabs(h->length - level) > within)
		doubt(r, h->line, "length",
			"the file says %.3f, its grades and radius make %.3f, which is used.", h->length,
			length);
}

int landxml_lay_heights(struct given_reading *r, const struct landxml_height *h, size_t count)
{
	size_t before = r->problems->errors;

	for (size_t i = 1; i < count; i++)
		if (!(h[i].station > h[i - 1].station))
			wrong(r, h[i].line, NULL, "station %.3f does not lie past the one before it, %.3f.",
				h[i].station, h[i - 1].station);
	if (count == 1)
		wrong(r, h[0].line, NULL,
			"the profile has one point: a line needs its beginning and its end.");
	bool laid = r->problems->errors == before;
	for (size_t i = 0; i < count && laid; i++) {
		bool inner = i > 0 && i + 1 < count;
		double radius = 0, g1 = inner ? grade_between(&h[i - 1], &h[i]) : 0;
		double g2 = inner ? grade_between(&h[i], &h[i + 1]) : 0;
		if (inner && h[i].kind == HEIGHT_PARABOLA)
			radius = radius_of_parabola(r, &h[i], g1, g2);
		else if (inner && h[i].kind == HEIGHT_ARC) {
			radius = h[i].radius;
			check_length(r, &h[i], g1, g2);
		}
		given_add(&r->out->profile, h[i].station - r->out->start, h[i].elevation, radius, h[i].line);
	}
	return r->problems->errors > before ? -1 : 0;
}
