/* Tangents and curves behind listed stations (geom/chain_fit.h), in the words of people who have the drawing
 * in front of them; and round radii, since designers draw with round ones.
 *
 * A radius is made a round one only where the points cannot tell the two apart: it lies within what they
 * leave open, and with it held the line still passes all of them and none the worse. Both are said.
 */
#include "base/mem.h"
#include "geom/chain_fit.h"

#include <math.h>
#include <string.h>

#include "given_parts.h"

/* How far off, in sigmas, a round radius may be, and by how much the fit may be the worse for it. */
#define OPEN 2.5
#define WORSE 1.05

static void say_status(struct sb_problems *problems, const struct given_points *p, enum fit_status status,
	const struct chain_fit *fit, double within, const char *what)
{
	size_t at = fit->worst_at < p->count ? fit->worst_at : 0;

	switch (status) {
	case FIT_OK:
		return;
	case FIT_FEW:
		sb_problems_add(problems, 0, p->file, 0, NULL,
			"fewer than three points: no curve can be found behind them.");
		return;
	case FIT_SAME:
		sb_problems_add(problems, 0, p->file, p->lines[at], NULL,
			"this point does not lie past the one before it. Put the rows in the order of the line, each once.");
		return;
	case FIT_RANGE:
		sb_problems_add(problems, 0, p->file, p->lines[at], NULL, "this point is nowhere.");
		return;
	case FIT_MANY:
		sb_problems_add(problems, 0, p->file, 0, NULL,
			"the points of the %s follow no row of tangents and circular curves within %.3g: more than %d would be "
			"needed. If the drawing is rougher, say how much with --within.",
			what, within, CHAIN_FIT_PIS);
		return;
	case FIT_OFF:
		break;
	}
	sb_problems_add(problems, 0, p->file, p->lines[at], NULL,
		"this point of the %s lies %.3f from the nearest line of tangents and circular curves; %.3g is allowed. Put it "
		"right, or if the drawing is rougher, say how much with --within.",
		what, fit->worst, within);
}

/* The roundest number that is near enough; the radius itself if there is none. Steps so fine that some number
 * would always be near say nothing. */
static double round_radius(double radius, double open)
{
	static const double steps[] = { 1000, 500, 100, 50, 10, 5, 1 };

	for (size_t i = 0; i < sizeof steps / sizeof *steps; i++) {
		double r = round(radius / steps[i]) * steps[i];
		if (r >= 2 * steps[i] && fabs(r - radius) <= open && steps[i] >= 4 * open)
			return r;
	}
	return radius;
}

static void round_radii(const struct given_points *p, bool heights, double within, struct chain_fit *fit)
{
	struct chain_fit first = *fit;

	for (size_t i = 1; i + 1 < fit->count; i++) {
		struct chain_fit tried = *fit;
		double open = OPEN * first.radius_sigma[i] + 1e-6 * first.pis[i].radius;
		double radius = p->unit * round_radius(first.pis[i].radius / p->unit, open / p->unit);
		if (!(first.pis[i].radius > 0) || radius == first.pis[i].radius)
			continue;
		tried.held[i] = true;
		tried.pis[i].radius = radius;
		if (sb_chain_refit(p->x, p->y, p->count, heights, within, &tried) == FIT_OK &&
			tried.rms <= WORSE * first.rms + 1e-9 &&
			fabs(tried.pis[i].radius - radius) < 1e-6 * radius)
			*fit = tried;
	}
}

static void take_fit(const struct given_points *p, const struct chain_fit *first, const struct chain_fit *fit,
	double within, struct given_line *out)
{
	for (size_t i = 0; i < fit->count; i++) {
		bool end = i == 0 || i + 1 == fit->count;
		given_add(out, fit->pis[i].x, fit->pis[i].y, end ? 0 : fit->pis[i].radius, 0);
		out->found[i] = end ? 0 : first->pis[i].radius;
		out->sigma[i] = end ? 0 : first->radius_sigma[i];
	}
	out->points = p->count;
	out->worst = fit->worst;
	out->rms = fit->rms;
	out->within = within;
}

/* Coordinates of a map are millions; from the first point on, all of a double's digits are there for the
 * line. */
static void shift(struct given_points *p, struct chain_fit *fit, double x, double y)
{
	for (size_t i = 0; i < p->count; i++) {
		p->x[i] += x;
		p->y[i] += y;
	}
	for (size_t i = 0; fit && i < fit->count; i++) {
		fit->pis[i].x += x;
		fit->pis[i].y += y;
	}
}

/* A point that is listed twice, as stations are where a curve begins, is one. */
static void once(const struct given_points *from, struct given_points *to)
{
	for (size_t i = 0; i < from->count; i++)
		if (to->count == 0 || from->x[i] != to->x[to->count - 1] ||
			from->y[i] != to->y[to->count - 1])
			given_points_add(to, from->x[i], from->y[i], from->lines[i]);
	to->within = from->within;
	to->unit = from->unit;
	memcpy(to->file, from->file, sizeof to->file);
}

static int find_line(struct given_points *p, bool heights, const struct given_choice *choice,
	const char *what, struct given_line *out, struct sb_problems *problems)
{
	double within = p->within * p->unit;
	double x = p->x[0], y = p->y[0];
	struct chain_fit fit;

	if (p->count == 2) { /* a straight needs no finding */
		given_add(out, p->x[0], p->y[0], 0, p->lines[0]);
		given_add(out, p->x[1], p->y[1], 0, p->lines[1]);
		return 0;
	}
	struct fit_room *room = sb_alloc(p->count * sizeof *room);
	shift(p, NULL, -x, -y);
	enum fit_status status = sb_chain_fit(p->x, p->y, p->count, heights, within, room, &fit);
	sb_free(room);
	if (status != FIT_OK) {
		say_status(problems, p, status, &fit, within, what);
		return -1;
	}
	struct chain_fit first = fit;
	if (!choice->radii_as_found)
		round_radii(p, heights, within, &fit);
	shift(p, &fit, x, y);
	take_fit(p, &first, &fit, within, out);
	return 0;
}

static void scale_coordinates(struct given *d, double by)
{
	struct given_line *l = &d->alignment;
	struct given_points *p = &d->alignment_points;

	for (size_t i = 0; i < l->count; i++) {
		l->pis[i].x *= by;
		l->pis[i].y *= by;
	}
	for (size_t i = 0; i < p->count; i++) {
		p->x[i] *= by;
		p->y[i] *= by;
	}
}

/* How far along the alignment, laid out in the ground, each row's point lies. */
static void measure(struct given *d)
{
	const struct given_line *l = &d->alignment;
	struct chain_part *parts = sb_alloc((2 * l->count + 1) * sizeof *parts);
	size_t made;
	double at = 0, offset;

	if (l->count > 1 && sb_chain_build(l->pis, l->count, parts, &made, NULL, NULL) >= CHAIN_OK)
		for (size_t i = 0; i < d->profile_points.count && i < d->alignment_points.count; i++) {
			sb_chain_project(parts, made, d->alignment_points.x[i], d->alignment_points.y[i], at,
				&at, &offset);
			d->profile_points.x[i] = at;
		}
	sb_free(parts);
}

bool given_is_map_length(double length, double map, double scale)
{
	return fabs(length - map) < fabs(length - map / scale) / 2;
}

/* Stations as listed: brought down to the ground where they were measured on the map. */
static void bring_down(struct given *d, double scale, double map)
{
	struct given_points *p = &d->profile_points;

	if (scale == 1 || p->count < 2 || !given_is_map_length(p->x[p->count - 1] - p->x[0], map, scale))
		return;
	for (size_t i = 0; i < p->count; i++)
		p->x[i] /= scale;
	given_note(d,
		"Stations of the drawing are lengths on the map: divided by the job's scale_factor, %.10g, to be lengths in the ground.",
		scale);
}

int given_find(struct given *d, const struct given_choice *choice, double scale, double map,
	struct sb_problems *problems)
{
	struct given_points alignment = { 0 }, profile = { 0 };
	int failed = 0;

	scale_coordinates(d, 1 / scale);
	once(&d->alignment_points, &alignment);
	if (alignment.count)
		failed = find_line(&alignment, false, choice, "alignment", &d->alignment, problems);
	if (d->alignment.count)
		map = scale * given_length(&d->alignment);
	if (!failed && d->measured)
		measure(d);
	else if (!failed)
		bring_down(d, scale, map);
	once(&d->profile_points, &profile);
	if (!failed && profile.count)
		failed = find_line(&profile, true, choice, "profile", &d->profile, problems);
	if (!failed)
		given_check_marks(d, problems);
	scale_coordinates(d, scale);
	given_points_clear(&alignment);
	given_points_clear(&profile);
	return failed;
}
