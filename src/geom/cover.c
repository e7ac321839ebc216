/* The smallest cover over a hole: pieces of it are halved until none could have less than what was found. */
#include "geom/cover.h"

#include <assert.h>
#include <math.h>

/* Pieces are not halved below this: a tenth of a millimetre of hole. */
#define SHORTEST 1e-4
/* Metres and feet there and back. */
#define TOUCH 1e-9

/* The index of the point that a piece holding x begins at; x is within the line. */
static size_t piece_at(const struct cover_ground *g, double x)
{
	size_t low = 0, high = g->count - 1;

	while (high - low > 1) {
		size_t middle = low + (high - low) / 2;
		if (g->points[middle].x_m <= x)
			low = middle;
		else
			high = middle;
	}
	return low;
}

bool sb_cover_ground(const struct cover_ground *g, double x_m, double *y_m, double *slope)
{
	if (g->count < 2 || !(x_m >= g->points[0].x_m - TOUCH) ||
		!(x_m <= g->points[g->count - 1].x_m + TOUCH))
		return false;
	const struct cover_point *a = &g->points[piece_at(g, x_m)], *b = a + 1;
	double t = fmin(fmax((x_m - a->x_m) / (b->x_m - a->x_m), 0), 1);
	*y_m = a->y_m + t * (b->y_m - a->y_m);
	if (slope)
		*slope = (b->y_m - a->y_m) / (b->x_m - a->x_m);
	return true;
}

struct search {
	const struct cover_ground *ground;
	const struct cover_hole *hole;
	double tolerance;
	struct cover_least best;
	bool found, all;
};

struct top {
	double s, x, y;
};

static struct top look(struct search *s, double s_m)
{
	struct top t = { .s = s_m };
	double ground, slope;

	s->hole->at(s->hole->data, s_m, &t.x, &t.y);
	if (!sb_cover_ground(s->ground, t.x, &ground, &slope)) {
		s->all = false;
		return t;
	}
	if (ground - t.y < s->best.cover_m) {
		s->found = true;
		s->best = (struct cover_least){ ground - t.y, s_m, t.x, slope };
	}
	return t;
}

/* A top that goes evenly from a to b, at x. A hole that stands upright is as high as its higher end. */
static double even(const struct top *a, const struct top *b, double x)
{
	double run = b->x - a->x;

	return fabs(run) > TOUCH ? a->y + (x - a->x) / run * (b->y - a->y) : fmax(a->y, b->y);
}

/* The least between an even course and the ground, at the course's ends or under a corner of the ground
 * between them; both lines are straight from one to the next. at: where. */
static double least_even(const struct cover_ground *g, const struct top *a, const struct top *b, double *at)
{
	double first = g->points[0].x_m, last = g->points[g->count - 1].x_m;
	double x = fmin(fmax(fmin(a->x, b->x), first), last), to = fmin(fmax(fmax(a->x, b->x), first), last);
	double least = HUGE_VAL, ground;

	for (size_t k = piece_at(g, x); x <= to; x = fmin(g->points[k].x_m, to)) {
		if (sb_cover_ground(g, x, &ground, NULL) && ground - even(a, b, x) < least) {
			least = ground - even(a, b, x);
			*at = x;
		}
		while (k + 1 < g->count && g->points[k].x_m <= x)
			k++;
		if (x == to)
			break;
	}
	return least;
}

static double steepest(const struct cover_ground *g, double low, double high)
{
	double steep = 0;

	for (size_t i = piece_at(g, fmax(low, g->points[0].x_m)); i + 1 < g->count; i++) {
		const struct cover_point *a = &g->points[i], *b = a + 1;
		if (a->x_m > high)
			break;
		steep = fmax(steep, fabs((b->y_m - a->y_m) / (b->x_m - a->x_m)));
	}
	return steep;
}

/* The least cover that is possible over a piece: over its even course, less what it may lie off that. best_s:
 * about where. */
static double least_possible(const struct search *s, const struct top *a, const struct top *b, double *best_s)
{
	const struct cover_ground *g = s->ground;
	double off = s->hole->bend * (b->s - a->s) * (b->s - a->s) / 8;
	double low = fmin(a->x, b->x) - off, high = fmax(a->x, b->x) + off, at = a->x;

	if (high < g->points[0].x_m || low > g->points[g->count - 1].x_m)
		return HUGE_VAL;
	double least = least_even(g, a, b, &at), run = b->x - a->x;
	double share = fabs(run) > TOUCH ? fmin(fmax((at - a->x) / run, 0), 1) : 0.5;
	*best_s = a->s + share * (b->s - a->s);
	return least - off * (1 + steepest(g, low, high));
}

struct piece {
	struct top a, b;
};

/* Halving the longest hole comes below SHORTEST long before. */
#define HALVINGS 60

static bool may_be_less(const struct search *s, double least)
{
	/* an infinite one lies where no ground is known; before anything was found the best is infinite too
	 */
	return !isinf(least) && least <= s->best.cover_m - s->tolerance;
}

/* Depth first: of each length at most one piece waits. */
static void search_pieces(struct search *s, struct piece whole)
{
	struct piece waiting[HALVINGS + 2];
	size_t count = 0;

	waiting[count++] = whole;
	while (count > 0) {
		struct piece p = waiting[--count];
		double guess = p.a.s, least = least_possible(s, &p.a, &p.b, &guess);
		if (!may_be_less(s, least))
			continue;
		look(s, guess);
		if (!may_be_less(s, least) || p.b.s - p.a.s < SHORTEST || count > HALVINGS)
			continue;
		struct top middle = look(s, p.a.s + (p.b.s - p.a.s) / 2);
		waiting[count++] = (struct piece){ middle, p.b };
		waiting[count++] = (struct piece){ p.a, middle };
	}
}

enum cover_known sb_cover_least(const struct cover_ground *g, const struct cover_hole *hole, double within_m,
	double tolerance_m, struct cover_least *out)
{
	struct search s = { g, hole, tolerance_m, { .cover_m = within_m }, false, true };

	assert(tolerance_m > 0);
	if (g->count < 2)
		return COVER_NONE;
	struct top a = look(&s, 0), b = look(&s, hole->length_m);
	search_pieces(&s, (struct piece){ a, b });
	if (!s.found)
		return COVER_NONE;
	*out = s.best;
	return s.all ? COVER_KNOWN : COVER_PART;
}
