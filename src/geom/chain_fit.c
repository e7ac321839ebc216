/* From points to pieces (chain_split.c), from pieces to points of intersection, and from there to the best
 * fit of all points together (chain_refit.c). The pieces only have to be near: where a curve begins they are
 * wrong by what the rounding hides.
 */
#include "geom/chain_fit.h"

#include <math.h>
#include <string.h>

#include "chain_fit_parts.h"

/* ---- radii that have room ---- */

static double turn_at(const struct chain_pi *pis, size_t count, size_t i)
{
	if (i == 0 || i + 1 >= count)
		return 0;
	double ax = pis[i].x - pis[i - 1].x, ay = pis[i].y - pis[i - 1].y;
	double bx = pis[i + 1].x - pis[i].x, by = pis[i + 1].y - pis[i].y;
	return atan2(ax * by - ay * bx, ax * bx + ay * by);
}

static double tangent_at(const struct chain_pi *pis, size_t count, size_t i)
{
	return i > 0 && i + 1 < count ? pis[i].radius * tan(fabs(turn_at(pis, count, i)) / 2) : 0;
}

double sb_chain_ease(struct chain_pi *pis, size_t count)
{
	double most = 0;

	for (size_t i = 0; i + 1 < count; i++) {
		double length = hypot(pis[i + 1].x - pis[i].x, pis[i + 1].y - pis[i].y);
		double both = tangent_at(pis, count, i) + tangent_at(pis, count, i + 1);
		if (!(both > length) || !isfinite(both))
			continue;
		pis[i].radius *= length / both;
		pis[i + 1].radius *= length / both;
		most = fmax(most, 1 - length / both);
	}
	return most;
}

/* ---- from pieces to points of intersection ---- */

/* Where two tangents meet; false when they hardly do. */
static bool cross(const struct fit_piece *a, const struct fit_piece *b, double *x, double *y)
{
	double sine = a->end_x * b->bearing_y - a->end_y * b->bearing_x;
	double dx = b->x[0] - a->x[1], dy = b->y[0] - a->y[1];

	if (fabs(sine) < 1e-9)
		return false;
	double along = (dx * b->bearing_y - dy * b->bearing_x) / sine;
	*x = a->x[1] + along * a->end_x;
	*y = a->y[1] + along * a->end_y;
	return true;
}

/* The tangent that a curve begins with: its neighbour's where that is one, else halfway between the two. */
static struct fit_piece tangent_between(const struct fit_piece *a, const struct fit_piece *b)
{
	if (!a->arc)
		return *a;
	if (!b->arc)
		return *b;
	double x = a->end_x + b->bearing_x, y = a->end_y + b->bearing_y, length = hypot(x, y);
	double middle_x = (a->x[1] + b->x[0]) / 2, middle_y = (a->y[1] + b->y[0]) / 2;
	struct fit_piece t = { .x = { middle_x, middle_x }, .y = { middle_y, middle_y } };
	t.bearing_x = t.end_x = x / length;
	t.bearing_y = t.end_y = y / length;
	return t;
}

static struct fit_piece end_tangent(const struct fit_piece *p, int which)
{
	struct fit_piece t = { .x = { p->x[which], p->x[which] }, .y = { p->y[which], p->y[which] } };

	t.bearing_x = t.end_x = which ? p->end_x : p->bearing_x;
	t.bearing_y = t.end_y = which ? p->end_y : p->bearing_y;
	return t;
}

static void add_pi(struct chain_fit *fit, double x, double y, double radius)
{
	if (fit->count < CHAIN_FIT_PIS)
		fit->pis[fit->count] = (struct chain_pi){ x, y, radius };
	fit->count++;
}

/* The points of intersection that lie in or at the beginning of a piece. */
static void take_piece(const struct fit_piece *pieces, size_t count, size_t i, struct chain_fit *fit)
{
	const struct fit_piece *p = &pieces[i];
	double x, y;

	if (!p->arc) {
		if (i > 0 && !pieces[i - 1].arc && cross(&pieces[i - 1], p, &x, &y))
			add_pi(fit, x, y, 0);
		return;
	}
	struct fit_piece before = i > 0 ? tangent_between(p - 1, p) : end_tangent(p, 0);
	struct fit_piece behind = i + 1 < count ? tangent_between(p, p + 1) : end_tangent(p, 1);
	if (cross(&before, &behind, &x, &y))
		add_pi(fit, x, y, 1 / fmax(fabs(p->curvature), 1e-9));
}

static void lay_out(const struct fit_piece *pieces, size_t count, struct chain_fit *fit)
{
	const struct fit_piece *last = &pieces[count - 1];

	fit->count = 0;
	add_pi(fit, pieces[0].x[0], pieces[0].y[0], 0);
	for (size_t i = 0; i < count; i++)
		take_piece(pieces, count, i, fit);
	add_pi(fit, last->x[1], last->y[1], 0);
}

static enum fit_status check_points(const struct fit_points *p, bool heights, size_t *at)
{
	if (p->n < 3)
		return FIT_FEW;
	for (*at = 0; *at < p->n; ++*at)
		if (!isfinite(p->x[*at]) || !isfinite(p->y[*at]))
			return FIT_RANGE;
	for (*at = 1; *at < p->n; ++*at) {
		double dx = p->x[*at] - p->x[*at - 1], dy = p->y[*at] - p->y[*at - 1];
		if (hypot(dx, dy) <= 1e-9 || (heights && dx <= 0))
			return FIT_SAME;
	}
	return FIT_OK;
}

/* A curve on which hardly a point lies shows as a corner between two tangents: each corner gets a curve about
 * as long as points lie apart. Returns whether there was one. */
static bool curve_corners(const struct fit_points *p, struct chain_fit *fit)
{
	double apart = hypot(p->x[p->n - 1] - p->x[0], p->y[p->n - 1] - p->y[0]) / (double)(p->n - 1);
	bool any = false;

	for (size_t i = 1; i + 1 < fit->count; i++) {
		double turn = fabs(turn_at(fit->pis, fit->count, i));
		if (fit->pis[i].radius > 0 || !(turn > 0))
			continue;
		fit->pis[i].radius = 0.75 * apart / tan(turn / 2);
		any = true;
	}
	return any;
}

static enum fit_status fit_pieces(const struct fit_points *p, const struct fit_piece *pieces, size_t count,
	bool heights, double within, struct chain_fit *fit)
{
	lay_out(pieces, count, fit);
	if (fit->count > CHAIN_FIT_PIS)
		return FIT_MANY;
	enum fit_status status = sb_chain_refit(p->x, p->y, p->n, heights, within, fit);
	if (status == FIT_OFF && curve_corners(p, fit))
		status = sb_chain_refit(p->x, p->y, p->n, heights, within, fit);
	return status;
}

/* Pieces are first looked for at the whole distance, which gives the fewest; where the line through all of
 * them then misses a point, finer ones are tried. */
enum fit_status sb_chain_fit(const double *x, const double *y, size_t n, bool heights, double within,
	struct fit_room *room, struct chain_fit *out)
{
	static const double shares[] = { 1, 0.5, 0.25 };
	struct fit_points points = { x, y, n };
	struct fit_piece pieces[CHAIN_FIT_PIECES];
	struct chain_fit best = { .worst = HUGE_VAL };
	size_t at = 0;

	enum fit_status status = check_points(&points, heights, &at);
	*out = (struct chain_fit){ .worst_at = at };
	if (status != FIT_OK)
		return status;
	for (size_t i = 0; i < sizeof shares / sizeof *shares; i++) {
		struct chain_fit fit = { 0 };
		size_t count = sb_fit_split(&points, within * shares[i], room, pieces);
		if (count == 0)
			break;
		status = fit_pieces(&points, pieces, count, heights, within, &fit);
		if (status == FIT_MANY)
			break;
		if (fit.worst < best.worst)
			best = fit;
		if (status == FIT_OK)
			break;
	}
	*out = best;
	return best.count == 0 ? FIT_MANY : best.worst <= within ? FIT_OK : FIT_OFF;
}
