/* Tangents and circular curves in a plane: laid out from points of intersection, walked along, and the
 * other way about, a point's distance along and square off.
 *
 * A design has a handful of parts, so a search over all of them is quick; nothing here depends on that.
 *
 * 1. Parts join: each begins where the one before ends, within 1e-9. Where curves overlap by a hair their
 *    radii are taken back by that hair, so the line neither jumps nor doubles back.
 * 2. Curves turn less than half a turn, since legs do.
 * 3. Formulae hold for any radius down to a straight: nothing is divided by a curvature.
 */
#include "geom/chain.h"

#include "geom/angle.h"

#include <assert.h>
#include <math.h>
#include <stdbool.h>

/* Lengths below this are none, in units of length; turns below it are none, and this close to half a turn
 * the line turns right back, radians. */
#define NOTHING 1e-9

/* How much of the tangents two curves may overlap and still count as abutting, and how much at least. */
#define ABUTTING 1e-6

struct leg {
	double length, bearing, cos_bearing, sin_bearing;
};

static struct leg leg_from(const struct chain_pi *pi)
{
	double dx = pi[1].x - pi[0].x, dy = pi[1].y - pi[0].y, length = hypot(dx, dy);
	return (struct leg){ length, atan2(dy, dx), dx / length, dy / length };
}

static bool is_inner(size_t count, size_t i)
{
	return i > 0 && i + 1 < count;
}

/* The turn at a point, positive when the bearing grows. */
static double turn_at(const struct chain_pi *pis, size_t count, size_t i)
{
	if (!is_inner(count, i))
		return 0;
	struct leg in = leg_from(&pis[i - 1]), out = leg_from(&pis[i]);
	double turn = atan2(in.cos_bearing * out.sin_bearing - in.sin_bearing * out.cos_bearing,
		in.cos_bearing * out.cos_bearing + in.sin_bearing * out.sin_bearing);
	return fabs(turn) < NOTHING ? 0 : turn;
}

static double tangent_at(const struct chain_pi *pis, size_t count, size_t i)
{
	return is_inner(count, i) ? pis[i].radius * tan(fabs(turn_at(pis, count, i)) / 2) : 0;
}

/* What of the leg from point i the two tangents on it leave over; negative: they overlap. */
static double left_over(const struct chain_pi *pis, size_t count, size_t i)
{
	return leg_from(&pis[i]).length - tangent_at(pis, count, i) - tangent_at(pis, count, i + 1);
}

static enum chain_status check_points(const struct chain_pi *pis, size_t count, size_t *where)
{
	if (count < 2)
		return CHAIN_FEW;
	for (size_t i = 0; i < count; i++) {
		*where = i;
		if (!isfinite(pis[i].x) || !isfinite(pis[i].y))
			return CHAIN_RANGE;
		if (is_inner(count, i) && !(pis[i].radius >= 0 && isfinite(pis[i].radius)))
			return CHAIN_RANGE;
	}
	for (size_t i = 0; i + 1 < count; i++) {
		double length = leg_from(&pis[i]).length;
		*where = isfinite(length) ? i : i + 1;
		if (!isfinite(length))
			return CHAIN_RANGE;
		if (length <= NOTHING)
			return CHAIN_SAME;
	}
	return CHAIN_OK;
}

/* Finds a point where the line turns right back, else its sharpest corner. */
static enum chain_status check_turns(const struct chain_pi *pis, size_t count, size_t *where, double *by)
{
	enum chain_status status = CHAIN_OK;
	*by = 0;
	for (size_t i = 1; i + 1 < count; i++) {
		double turn = fabs(turn_at(pis, count, i));
		if (turn > SB_PI - NOTHING) {
			*where = i;
			*by = turn;
			return CHAIN_REVERSED;
		}
		if (!(pis[i].radius > 0) && turn > *by) {
			status = CHAIN_BREAKS;
			*where = i;
			*by = turn;
		}
	}
	return status;
}

static enum chain_status check_fit(const struct chain_pi *pis, size_t count, size_t *where, double *by)
{
	for (size_t i = 0; i + 1 < count; i++) {
		double both = tangent_at(pis, count, i) + tangent_at(pis, count, i + 1);
		double missing = -left_over(pis, count, i);
		if (missing > ABUTTING * fmax(1, both)) {
			*where = i > 0 && pis[i].radius > 0 && turn_at(pis, count, i) != 0 ? i : i + 1;
			*by = missing;
			return CHAIN_OVERLAP;
		}
	}
	return CHAIN_OK;
}

/* The share of their length that the tangents on a leg keep so that they do not overlap: 1 but for curves
 * that abut with a hair too much. */
static double fitting(const struct chain_pi *pis, size_t count, size_t i)
{
	double length = leg_from(&pis[i]).length, over = left_over(pis, count, i);
	return over < 0 ? length / (length - over) : 1;
}

/* The share of its radius that the curve at a point keeps: what its tighter leg allows. */
static double share_at(const struct chain_pi *pis, size_t count, size_t i)
{
	return is_inner(count, i) ? fmin(fitting(pis, count, i - 1), fitting(pis, count, i)) : 1;
}

/* The parts as they are laid, one behind the other. */
struct laying {
	struct chain_part *parts;
	size_t count;
	double at;
};

static void lay(struct laying *to, double x, double y, const struct leg *leg, double length, double curvature)
{
	if (length <= NOTHING)
		return;
	to->parts[to->count++] = (struct chain_part){
		.at = to->at,
		.length = length,
		.x = x,
		.y = y,
		.bearing = leg->bearing,
		.curvature = curvature,
		.cos_bearing = leg->cos_bearing,
		.sin_bearing = leg->sin_bearing,
	};
	to->at += length;
}

static size_t lay_parts(const struct chain_pi *pis, size_t count, struct chain_part *parts)
{
	struct laying to = { .parts = parts };
	double before = 0; /* tangent on this leg of the curve behind */
	for (size_t i = 0; i + 1 < count; i++) {
		struct leg leg = leg_from(&pis[i]);
		double turn = turn_at(pis, count, i + 1);
		double share = share_at(pis, count, i + 1);
		double ahead = tangent_at(pis, count, i + 1) * share;
		lay(&to, pis[i].x + before * leg.cos_bearing, pis[i].y + before * leg.sin_bearing, &leg,
			leg.length - before - ahead, 0);
		if (ahead > 0) {
			double radius = pis[i + 1].radius * share;
			lay(&to, pis[i + 1].x - ahead * leg.cos_bearing,
				pis[i + 1].y - ahead * leg.sin_bearing, &leg, radius * fabs(turn),
				copysign(1 / radius, turn));
		}
		before = ahead;
	}
	return to.count;
}

enum chain_status sb_chain_build(const struct chain_pi *pis, size_t count, struct chain_part *parts,
	size_t *made, size_t *where, double *by)
{
	size_t at = 0;
	double amount = 0;
	enum chain_status status = check_points(pis, count, &at);
	if (status == CHAIN_OK)
		status = check_turns(pis, count, &at, &amount);
	if (status >= CHAIN_OK) {
		enum chain_status fit = check_fit(pis, count, &at, &amount);
		if (fit != CHAIN_OK)
			status = fit;
	}
	if (status >= CHAIN_OK)
		*made = lay_parts(pis, count, parts);
	if (where != NULL)
		*where = at;
	if (by != NULL)
		*by = amount;
	return status;
}

/* s from the start of a part; past its end it goes on as it bends. Half the turn serves twice: the chord
 * points there, and once more is the bearing. */
static struct chain_place on_part(const struct chain_part *p, double s)
{
	struct chain_place to = {
		.curvature = p->curvature, .cos_bearing = p->cos_bearing, .sin_bearing = p->sin_bearing
	};
	double half = p->curvature * s / 2, c = p->cos_bearing, z = p->sin_bearing, chord = s;
	if (fabs(half) > 0) {
		double ch = cos(half), sh = sin(half);
		c = p->cos_bearing * ch - p->sin_bearing * sh;
		z = p->sin_bearing * ch + p->cos_bearing * sh;
		to.cos_bearing = c * ch - z * sh;
		to.sin_bearing = z * ch + c * sh;
		chord = s * (sh / half);
	}
	to.x = p->x + chord * c;
	to.y = p->y + chord * z;
	to.bearing = sb_wrap_half(p->bearing + 2 * half);
	return to;
}

/* The tangent at the end of the line. */
static struct chain_part end_tangent(const struct chain_part *parts, size_t count)
{
	const struct chain_part *last = &parts[count - 1];
	struct chain_place end = on_part(last, last->length);
	return (struct chain_part){
		.at = last->at + last->length,
		.x = end.x,
		.y = end.y,
		.bearing = end.bearing,
		.cos_bearing = end.cos_bearing,
		.sin_bearing = end.sin_bearing,
	};
}

static struct chain_part start_tangent(const struct chain_part *parts)
{
	struct chain_part p = parts[0];
	p.curvature = 0;
	return p;
}

/* The last part that begins at or before a place, by distance along the line or by x; the first one before
 * the start. */
static size_t part_at(const struct chain_part *parts, size_t count, bool by_x, double place)
{
	size_t low = 0, high = count;
	while (high - low > 1) {
		size_t middle = low + (high - low) / 2;
		if ((by_x ? parts[middle].x : parts[middle].at) <= place)
			low = middle;
		else
			high = middle;
	}
	return low;
}

struct chain_place sb_chain_at(const struct chain_part *parts, size_t count, double at)
{
	assert(count > 0);
	struct chain_part tangent;
	const struct chain_part *p = &parts[part_at(parts, count, false, at)];
	if (at < parts[0].at) {
		tangent = start_tangent(parts);
		p = &tangent;
	} else if (at > sb_chain_length(parts, count)) {
		tangent = end_tangent(parts, count);
		p = &tangent;
	}
	return on_part(p, at - p->at);
}

double sb_chain_length(const struct chain_part *parts, size_t count)
{
	return count > 0 ? parts[count - 1].at + parts[count - 1].length : 0;
}

/* The search for the nearest foot. */
struct search {
	double x, y, near; /* the point, and which of equals to take */
	double at, offset; /* the foot that stands */
	bool inside;	   /* on its part, not a hair beyond */
	double least;	   /* the smallest distance so far */
	bool found, doubtful;
};

static double even_within(double distance)
{
	return 1e-9 * distance + 1e-10;
}

/* Takes a foot if it is nearer than the one that stands, or as near and the better one: inside rather than
 * a hair beyond a part for the same foot, else the one close to `near`. */
static void offer(struct search *f, double at, double offset, bool inside)
{
	double distance = fabs(offset), within = even_within(distance);
	if (f->found && distance > f->least + within)
		return;
	bool clearly = !f->found || distance < f->least - within;
	bool same = fabs(at - f->at) <= 10 * NOTHING * (1 + distance);
	bool better = same ? inside && !f->inside : fabs(at - f->near) < fabs(f->at - f->near);
	if (clearly || better) {
		f->at = at;
		f->offset = offset;
		f->inside = inside;
	}
	f->doubtful = !clearly && (f->doubtful || !same);
	f->least = clearly ? distance : fmin(f->least, distance);
	f->found = true;
}

/* Offers a foot on a part that runs from low to high. A point off a joint of parts may by rounding fall
 * between both: each reaches a hair further. */
static void offer_on(
	struct search *f, const struct chain_part *p, double along, double offset, double low, double high)
{
	double hair = NOTHING * (1 + fabs(offset));
	if (along >= low - hair && along <= high + hair)
		offer(f, p->at + along, offset, along >= low && along <= high);
}

/* The foot on a straight of a part, between low and high from its start. */
static void offer_straight(struct search *f, const struct chain_part *p, double low, double high)
{
	double dx = f->x - p->x, dy = f->y - p->y;
	double along = dx * p->cos_bearing + dy * p->sin_bearing;
	double offset = dy * p->cos_bearing - dx * p->sin_bearing;
	offer_on(f, p, along, offset, low, high);
}

/* The foot on an arc, by the angle about its centre. In the frame of its start (u along, v towards growing
 * bearing) the centre is at (0, 1/k); w is the distance from it in radii. */
static void offer_arc(struct search *f, const struct chain_part *p)
{
	double dx = f->x - p->x, dy = f->y - p->y, k = p->curvature;
	double u = dx * p->cos_bearing + dy * p->sin_bearing;
	double v = dy * p->cos_bearing - dx * p->sin_bearing;
	double w = sqrt(k * u * k * u + (1 - k * v) * (1 - k * v));
	double offset = (2 * v - k * (u * u + v * v)) / (1 + w);
	if (f->found && fabs(offset) > f->least + even_within(fabs(offset)))
		return;
	if (w < 1e-9) { /* the centre: as far from one place as from another */
		offer(f, p->at + fmin(fmax(f->near - p->at, 0), p->length), offset, true);
		f->doubtful = true;
		return;
	}
	offer_on(f, p, atan2(k * u, 1 - k * v) / k, offset, 0, p->length);
}

/* Where the line breaks, the corner itself is nearest to what lies outside it. */
static void offer_corner(struct search *f, const struct chain_part *in, const struct chain_part *out)
{
	double end_bearing = in->bearing + in->curvature * in->length;
	double turn = sb_wrap_half(out->bearing - end_bearing);
	if (fabs(turn) <= 2 * NOTHING)
		return;
	double c = cos(end_bearing), s = sin(end_bearing), dx = f->x - out->x, dy = f->y - out->y;
	if (dx * c + dy * s < 0 || dx * out->cos_bearing + dy * out->sin_bearing > 0)
		return;
	offer(f, out->at, copysign(hypot(dx, dy), -turn), true);
}

int sb_chain_project(const struct chain_part *parts, size_t count, double x, double y, double near,
	double *at, double *offset)
{
	assert(count > 0);
	struct search f = { .x = x, .y = y, .near = near, .at = NAN, .offset = NAN };
	for (size_t i = 0; i < count; i++) {
		const struct chain_part *p = &parts[i];
		if (i > 0)
			offer_corner(&f, &parts[i - 1], p);
		if (p->curvature != 0)
			offer_arc(&f, p);
		else
			offer_straight(&f, p, i == 0 ? -HUGE_VAL : 0, i + 1 == count ? HUGE_VAL : p->length);
	}
	if (parts[0].curvature != 0) {
		struct chain_part tangent = start_tangent(parts);
		offer_straight(&f, &tangent, -HUGE_VAL, 0);
	}
	if (parts[count - 1].curvature != 0) {
		struct chain_part tangent = end_tangent(parts, count);
		offer_straight(&f, &tangent, 0, HUGE_VAL);
	}
	*at = f.at;
	*offset = f.offset;
	return f.doubtful;
}

struct chain_height sb_chain_height(const struct chain_part *parts, size_t count, double x)
{
	assert(count > 0);
	struct chain_part tangent;
	const struct chain_part *p = &parts[part_at(parts, count, true, x)];
	if (x < p->x) {
		tangent = start_tangent(parts);
		p = &tangent;
	} else if (p == &parts[count - 1] && p->curvature != 0) {
		tangent = end_tangent(parts, count);
		if (x > tangent.x)
			p = &tangent;
	}
	/* Along an arc the sine of the slope angle grows by the curvature times x: exact, and what would
	 * cancel in (cos a - cos b) / k is written as a product. */
	double dx = x - p->x, sine = p->sin_bearing + p->curvature * dx;
	if (fabs(sine) > 1)
		sine = copysign(1, sine);
	double cosine = sqrt(1 - sine * sine);
	return (struct chain_height){
		.y = p->y + dx * (p->sin_bearing + sine) / (p->cos_bearing + cosine),
		.slope = sine / cosine,
		.curvature = p->curvature,
	};
}
