/* Names on a picture. Each is tried at its point on its preferred side, then around it, then farther off with
 * a line to its point; it takes the place where it hides the fewest strokes, and never one where it would
 * touch another name, a line to one, or room that is taken. Strokes are kept as a map of cells, so that
 * asking what a place would hide costs its own size, however many strokes there are.
 */
#include "base/mem.h"
#include "base/str.h"
#include "geom/angle.h"

#include <math.h>
#include <stdlib.h>

#include "drawing_parts.h"

#define CELL 0.5	/* mm, of the map of strokes */
#define CELLS_MOST 4000 /* along a side */
#define CLEAR 0.5	/* mm around a name */
#define RING 2.2	/* of a hexagon, centre to corner */
#define DOWN 0.3	/* below the baseline, capitals: what letters hang */
#define SIDES 16
#define FAR_COST 3.0  /* of each mm that a name stands off */
#define HIDE_COST 0.3 /* of each cell that it hides, and its weight */

struct placed {
	struct paper box; /* of the words, with CLEAR around */
	struct spot from, to;
	bool led; /* by a line */
};

struct drawing_labels {
	struct sb_paper *p;
	struct paper box;
	struct drawing_label *list;
	size_t count, room;
	struct placed *placed; /* names, and room that is taken */
	size_t placed_count, placed_room;
	unsigned char *map; /* the heaviest stroke in each cell, row by row */
	int across, down;
};

struct drawing_labels *drawing_labels_new(struct sb_paper *p, const struct paper *box)
{
	struct drawing_labels *l = sb_alloc(sizeof *l);

	l->p = p;
	l->box = *box;
	l->across = (int)fmin(fmax(ceil(box->width / CELL), 1), CELLS_MOST);
	l->down = (int)fmin(fmax(ceil(box->height / CELL), 1), CELLS_MOST);
	l->map = sb_alloc((size_t)l->across * (size_t)l->down);
	return l;
}

static void mark_cell(struct drawing_labels *l, struct spot at, int heavy)
{
	int x = (int)floor((at.x - l->box.left) / CELL), y = (int)floor((at.y - l->box.top) / CELL);

	if (x < 0 || y < 0 || x >= l->across || y >= l->down)
		return;
	unsigned char *cell = &l->map[y * l->across + x];
	*cell = (unsigned char)(heavy > *cell ? heavy : *cell);
}

/* The part of a straight piece within low and high of one coordinate, as shares of it. */
static void shorten(double from, double by, double low, double high, double *first, double *last)
{
	if (by == 0) {
		if (from < low || from > high)
			*last = -1;
		return;
	}
	double a = (low - from) / by, b = (high - from) / by;
	*first = fmax(*first, fmin(a, b));
	*last = fmin(*last, fmax(a, b));
}

void drawing_labels_stroke(struct drawing_labels *l, struct spot a, struct spot b, int heavy)
{
	double first = 0, last = 1, x = b.x - a.x, y = b.y - a.y;

	if (!isfinite(x) || !isfinite(y))
		return;
	shorten(a.x, x, l->box.left, l->box.left + l->box.width, &first, &last);
	shorten(a.y, y, l->box.top, l->box.top + l->box.height, &first, &last);
	if (first > last)
		return;
	int steps = (int)ceil(hypot(x, y) * (last - first) / (CELL / 2)) + 1;
	for (int i = 0; i <= steps; i++) {
		double t = first + (last - first) * i / steps;
		mark_cell(l, (struct spot){ a.x + x * t, a.y + y * t }, heavy);
	}
}

static struct placed *add_placed(struct drawing_labels *l)
{
	l->placed = sb_grow(l->placed, l->placed_count, &l->placed_room, sizeof *l->placed);
	return &l->placed[l->placed_count++];
}

void drawing_labels_taken(struct drawing_labels *l, const struct paper *box)
{
	add_placed(l)->box = *box;
}

void drawing_labels_add(struct drawing_labels *l, const struct drawing_label *label)
{
	bool inside = label->at.x >= l->box.left && label->at.x <= l->box.left + l->box.width &&
		label->at.y >= l->box.top && label->at.y <= l->box.top + l->box.height;

	if (!inside || label->text[0] == '\0')
		return;
	l->list = sb_grow(l->list, l->count, &l->room, sizeof *l->list);
	l->list[l->count++] = *label;
}

/* ---- where a name may stand ---- */

static struct paper box_at(
	const struct drawing_labels *l, const struct drawing_label *label, struct spot centre)
{
	double wide = sb_paper_width(l->p, &label->as, label->text), high = label->as.capital_mm;

	if (label->ringed)
		return (struct paper){ centre.x - RING, centre.y - RING, 2 * RING, 2 * RING };
	return (struct paper){ centre.x - wide / 2 - CLEAR, centre.y - high / 2 - CLEAR, wide + 2 * CLEAR,
		high * (1 + DOWN) + 2 * CLEAR };
}

static bool apart(const struct paper *a, const struct paper *b)
{
	return a->left + a->width <= b->left || b->left + b->width <= a->left ||
		a->top + a->height <= b->top || b->top + b->height <= a->top;
}

static bool crosses(const struct paper *box, struct spot a, struct spot b)
{
	double first = 0, last = 1;

	shorten(a.x, b.x - a.x, box->left, box->left + box->width, &first, &last);
	shorten(a.y, b.y - a.y, box->top, box->top + box->height, &first, &last);
	return first <= last;
}

static bool within(const struct paper *outer, const struct paper *box)
{
	return box->left >= outer->left && box->top >= outer->top &&
		box->left + box->width <= outer->left + outer->width &&
		box->top + box->height <= outer->top + outer->height;
}

static bool is_free(const struct drawing_labels *l, const struct placed *try)
{
	if (!within(&l->box, &try->box))
		return false;
	for (size_t i = 0; i < l->placed_count; i++) {
		const struct placed *other = &l->placed[i];
		if (!apart(&try->box, &other->box) ||
			(try->led && crosses(&other->box, try->from, try->to)) ||
			(other->led && crosses(&try->box, other->from, other->to)))
			return false;
	}
	return true;
}

/* What it would hide. */
static double hidden(const struct drawing_labels *l, const struct paper *box)
{
	int left = (int)((box->left - l->box.left) / CELL), top = (int)((box->top - l->box.top) / CELL);
	int right = (int)((box->left + box->width - l->box.left) / CELL);
	int bottom = (int)((box->top + box->height - l->box.top) / CELL);
	double sum = 0;

	for (int y = top; y <= bottom && y < l->down; y++)
		for (int x = left; x <= right && x < l->across; x++)
			sum += l->map[y * l->across + x];
	return sum;
}

/* The middle of a name that stands off its point in a direction: its box touches a circle of radius `off`
 * about the point. */
static struct spot middle_at(
	const struct drawing_label *label, const struct paper *box, double turn, double off)
{
	double x = cos(turn), y = -sin(turn), half_wide = box->width / 2, half_high = box->height / 2;

	return (struct spot){ label->at.x + x * off +
			(fabs(x) < 0.05 ? 0 : copysign(half_wide, x) * fmin(1, fabs(x) * 1.5)),
		label->at.y + y * off +
			(fabs(y) < 0.05 ? 0 : copysign(half_high, y) * fmin(1, fabs(y) * 1.5)) };
}

static struct spot nearest_of(const struct paper *box, struct spot to)
{
	return (struct spot){ fmin(fmax(to.x, box->left), box->left + box->width),
		fmin(fmax(to.y, box->top), box->top + box->height) };
}

static double first_turn(enum anchor side)
{
	static const double turns[] = { [ANCHOR_RIGHT] = 0,
		[ANCHOR_LEFT] = SB_PI,
		[ANCHOR_ABOVE] = SB_PI / 2,
		[ANCHOR_BELOW] = -SB_PI / 2,
		[ANCHOR_UPON] = SB_PI / 4 };

	return turns[side];
}

/* Tries one place; keeps it if it is better. */
static void try_at(struct drawing_labels *l, const struct drawing_label *label, double turn, double off,
	double about, struct placed *best, double *least)
{
	struct paper size = box_at(l, label, label->at);
	struct placed try = { .box = box_at(l, label, middle_at(label, &size, turn, off)), .to = label->at };
	double cost = FAR_COST * off + fabs(about); /* the side that it would rather have, all else alike */

	if (cost >= *least)
		return;
	try.from = nearest_of(&try.box, label->at);
	try.led = hypot(try.from.x - try.to.x, try.from.y - try.to.y) > (label->ringed ? 0.3 : 2);
	if (!is_free(l, &try))
		return;
	cost += HIDE_COST * hidden(l, &try.box);
	if (cost < *least) {
		*least = cost;
		*best = try;
	}
}

static bool find_place(struct drawing_labels *l, const struct drawing_label *label, struct placed *out)
{
	static const double offs[] = { 0.9, 1.8, 3.5, 6, 9, 13, 18, 24, 32 };
	double least = HUGE_VAL;

	for (size_t ring = 0; ring < sizeof offs / sizeof *offs; ring++)
		for (int i = 0; i < SIDES; i++) {
			int step = i % 2 ? (i + 1) / 2 : -i / 2; /* to both sides of the preferred one */
			double about = step * (2 * SB_PI / SIDES);
			try_at(l, label, first_turn(label->side) + about, offs[ring], about, out, &least);
		}
	return isfinite(least);
}

/* ---- drawing them ---- */

static void draw_ring(struct sb_paper *p, struct spot at)
{
	const struct pen pen = { 0.35, SB_INK_BLACK, { 0 } };
	struct spot corners[7];

	for (int i = 0; i < 7; i++)
		corners[i] = (struct spot){ at.x + RING * cos(i * (SB_PI / 3)),
			at.y + RING * sin(i * (SB_PI / 3)) };
	sb_paper_area(p, SB_INK_WHITE, corners, 6);
	sb_paper_line(p, &pen, corners, 7);
}

static void draw(struct drawing_labels *l, const struct drawing_label *label, const struct placed *at)
{
	const struct pen lead = { 0.18, SB_INK_BLACK, { 0 } };
	struct lettering as = label->as;
	struct spot middle = { at->box.left + at->box.width / 2, at->box.top + at->box.height / 2 };

	as.hold = HOLD_MIDDLE;
	if (at->led)
		sb_paper_stroke(l->p, &lead, at->from.x, at->from.y, at->to.x, at->to.y);
	if (label->ringed)
		draw_ring(l->p, middle);
	else
		sb_paper_fill(l->p, SB_INK_WHITE, &at->box);
	double baseline = label->ringed ? middle.y + as.capital_mm / 2 : at->box.top + CLEAR + as.capital_mm;
	sb_paper_text(l->p, &as, (struct spot){ middle.x, baseline }, label->text);
}

static int weightier(const void *one, const void *other)
{
	const struct drawing_label *a = one, *b = other;

	if (a->weight != b->weight)
		return a->weight < b->weight ? 1 : -1;
	return a->at.x < b->at.x ? -1 : a->at.x > b->at.x;
}

size_t drawing_labels_draw(struct drawing_labels *l)
{
	size_t without = 0;

	if (l->count > 0)
		qsort(l->list, l->count, sizeof *l->list, weightier);
	for (size_t i = 0; i < l->count; i++) {
		struct placed place = { 0 };
		if (find_place(l, &l->list[i], &place)) {
			draw(l, &l->list[i], &place);
			*add_placed(l) = place;
		} else {
			without += l->list[i].weight >= DRAWING_NEEDED;
		}
	}
	sb_free(l->map);
	sb_free(l->placed);
	sb_free(l->list);
	sb_free(l);
	return without;
}
