/* Lines on a grid: cut to the clip first, in floating point (Liang and Barsky, "A new concept and method for
 * line clipping", ACM Transactions on Graphics 3(1), 1984), then stepped dot by dot; so a line to the moon
 * costs no more than one across the grid, and no coordinate is ever cast before it is known to fit.
 *
 * Dash patterns hang on the grid, not on the line: a line redrawn through other points keeps its dashes, and
 * many short pieces make the same dashes as one long one.
 */
#include "draw/dots.h"

#include "base/mem.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Dots farther away than this are pulled in to it, so that differences stay finite. */
#define FARTHEST 1e12

void sb_dots_start(struct dots *d, int width, int height)
{
	size_t count = (size_t)width * (size_t)height;

	if (count > d->room) {
		sb_free(d->meaning);
		d->meaning = sb_alloc(count);
		d->room = count;
	} else if (count > 0) {
		memset(d->meaning, 0, count);
	}
	d->width = width;
	d->height = height;
	d->clip = (struct box){ { 0, 0 }, { width, height } };
}

void sb_dots_clear(struct dots *d)
{
	sb_free(d->meaning);
	*d = (struct dots){ 0 };
}

/* One of the four edges: p is how fast the line goes out through it, q how far it is from it. */
static bool cut(double p, double q, double *enter, double *leave)
{
	if (p == 0)
		return q >= 0;
	double t = q / p;
	if (p < 0)
		*enter = fmax(*enter, t);
	else
		*leave = fmin(*leave, t);
	return *enter <= *leave;
}

bool sb_dots_clip(const struct box *to, struct spot *a, struct spot *b)
{
	double dx = b->x - a->x, dy = b->y - a->y, enter = 0, leave = 1;

	if (!isfinite(dx) || !isfinite(dy))
		return false;
	if (!cut(-dx, a->x - to->low.x, &enter, &leave) || !cut(dx, to->high.x - a->x, &enter, &leave) ||
		!cut(-dy, a->y - to->low.y, &enter, &leave) || !cut(dy, to->high.y - a->y, &enter, &leave))
		return false;
	struct spot from = *a;
	*a = (struct spot){ from.x + enter * dx, from.y + enter * dy };
	*b = (struct spot){ from.x + leave * dx, from.y + leave * dy };
	return true;
}

static bool pattern_has(enum line_kind line, int along)
{
	switch (line) {
	case LINE_DASHED:
		return along % 6 < 4;
	case LINE_DOTTED:
		return along % 3 == 0;
	case LINE_SOLID:
	case LINE_HEAVY:
		break;
	}
	return true;
}

static void put(struct dots *d, int x, int y, enum meaning m)
{
	if (x < d->clip.low.x || y < d->clip.low.y || x >= d->clip.high.x || y >= d->clip.high.y)
		return;
	unsigned char *dot = &d->meaning[(size_t)y * (size_t)d->width + (size_t)x];
	if (*dot < m)
		*dot = (unsigned char)m;
}

/* The dot of a coordinate. The far edge itself belongs to the last dot before it, or a line along the edge of
 * the view would be seen on two sides of the picture and not on the others. */
static int dot_of(double at, double far)
{
	return (int)floor(at) - (at == far);
}

static struct spot pulled_in(struct spot p)
{
	return (struct spot){ fmax(-FARTHEST, fmin(FARTHEST, p.x)), fmax(-FARTHEST, fmin(FARTHEST, p.y)) };
}

/* Dot by dot along the direction in which the line is longer (x here; y if it is turned), so that no dot is
 * left out or drawn twice, however the line is cut into pieces. */
static void step_through(
	struct dots *d, struct spot a, struct spot b, bool turned, enum meaning m, enum line_kind line)
{
	double far = turned ? d->clip.high.y : d->clip.high.x,
	       far_across = turned ? d->clip.high.x : d->clip.high.y;
	double low = fmin(a.x, b.x), high = fmax(a.x, b.x),
	       slope = b.x != a.x ? (b.y - a.y) / (b.x - a.x) : 0;

	for (int i = dot_of(low, far); i <= dot_of(high, far); i++) {
		if (d->patterns && !pattern_has(line, i))
			continue;
		double middle = fmax(low, fmin(high, i + 0.5));
		int across = dot_of(a.y + (middle - a.x) * slope, far_across);
		put(d, turned ? across : i, turned ? i : across, m);
		if (d->patterns && line == LINE_HEAVY)
			put(d, turned ? across + 1 : i, turned ? i : across + 1, m);
	}
}

void sb_dots_line(struct dots *d, struct spot a, struct spot b, enum meaning m, enum line_kind line)
{
	if (isnan(a.x) || isnan(a.y) || isnan(b.x) || isnan(b.y))
		return;
	a = pulled_in(a);
	b = pulled_in(b);
	if (!sb_dots_clip(&d->clip, &a, &b))
		return;
	bool steep = fabs(b.y - a.y) > fabs(b.x - a.x);
	if (steep)
		step_through(d, (struct spot){ a.y, a.x }, (struct spot){ b.y, b.x }, true, m, line);
	else
		step_through(d, a, b, false, m, line);
}
